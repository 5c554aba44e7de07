/* What of a season belongs into a calendar: what was gathered, boils with their moments, sap to be boiled by, taps, and days that differ.
 * When and what, as codes; the texts are written by words/calendar-words.h. */
#pragma once

#include "domain/plan/calendar-event.h"
#include "domain/plan/season.h"

G_BEGIN_DECLS

typedef enum
{
  FR_EVENT_GATHERED,     /* @day, all day */
  FR_EVENT_BOIL,         /* @record: a kept night, from its start to its end */
  FR_EVENT_DRY,          /* @record: its bucket runs dry; of nights nothing is written down of yet */
  FR_EVENT_CUTOFF,       /* @record: it cuts off; the same */
  FR_EVENT_BOIL_BY,      /* @record: container or NULL; @volume_l is to be boiled by then; @age_s of the oldest then */
  FR_EVENT_TAPS_SET,     /* @day, all day */
  FR_EVENT_TAPS_PULLED,  /* @day, all day */
  FR_EVENT_TAPS_OLD,     /* @reminder, all day: the oldest are so many weeks old */
  FR_EVENT_FROST,        /* @reminder: gather before tonight's frost */
  FR_EVENT_CLOCK_CHANGE, /* @day, all day */
  FR_EVENT_HOLIDAY,      /* @day, all day: the tariff's */
  FR_N_EVENTS
} FrSeasonEventCode;

/* @event: all but the texts; its uid is owned. */
typedef struct
{
  FrSeasonEventCode code;
  FrCalendarEvent event;
  const FrSeasonDay *day;
  const FrRecord *record;
  const FrReminder *reminder;
  double volume_l;
  double age_s;
} FrSeasonEvent;

/* @events: (element-type FrSeasonEvent): by first local day, then code and uid. Borrows the view and the book's records. */
typedef struct
{
  const FrSeasonView *view;
  GArray *events;
  FrStock *stock;
  GPtrArray *reminders;
} FrSeasonEvents;

/**
 * fr_season_events_new:
 * @book: the records
 * @view: a season of it
 * @changed_utc: by kind, when any record of it last changed; G_MININT64 never
 *
 * An event's time of change is that of the kinds it is made of: a record that was taken back leaves no other trace. When sap is to be
 * boiled by is told from the last time something was poured or looked into, not from now, so that it changes with the book alone.
 * That and reminders with a time, as they stand now, are for today's season.
 *
 * Returns: (transfer full): never NULL
 */
FrSeasonEvents *fr_season_events_new (const FrSeasonBook *book, const FrSeasonView *view, const gint64 *changed_utc);
void fr_season_events_free (FrSeasonEvents *events);

/* Code for programs, "boil_by". */
const char *fr_season_event_code (FrSeasonEventCode code);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrSeasonEvents, fr_season_events_free)

G_END_DECLS
