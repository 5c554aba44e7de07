/* A season's events with their texts, ready for a calendar file. */
#pragma once

#include "domain/plan/season-events.h"
#include "words/say.h"

G_BEGIN_DECLS

/* @events: (array length=n): texts and uids are owned. */
typedef struct
{
  FrCalendarEvent *events;
  guint n;
  char *name; /* of the calendar: the household's */
} FrCalendarWords;

/* @book: for the names of kit. */
FrCalendarWords *fr_calendar_words_new (const FrSeasonEvents *events, const FrSeasonBook *book, const FrSay *say);
void fr_calendar_words_free (FrCalendarWords *words);

/* "Boils": what an event is sorted by. Static. */
const char *fr_season_event_category (FrSeasonEventCode code);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrCalendarWords, fr_calendar_words_free)

G_END_DECLS
