/* A season's calendar events. Each has a name of its own made from the day or the record it is of, and the household's: the same the
 * next time, another in another book. Lead times of alarms: as in the evening's own export; a morning's notice for sap; an hour for
 * frost. Common sense, no source. */
#include "domain/plan/season-events.h"

#include "domain/plan/season-private.h"

#include <math.h>
#include <string.h>

#define START_LEAD_MIN 10
#define MOMENT_LEAD_MIN 15
#define BOIL_BY_LEAD_MIN (12 * 60)
#define FROST_LEAD_MIN 60
#define LAST_YEAR 2999

typedef struct
{
  const FrSeasonBook *book;
  const gint64 *changed_utc;
  FrSeasonEvents *events;
} Making;

static const char *const codes[FR_N_EVENTS]
    = { "gathered", "boil",        "dry",      "cutoff", "boil_by",      "taps_set",
        "taps_pulled", "taps_old", "frost", "clock_change", "holiday" };

const char *
fr_season_event_code (FrSeasonEventCode code)
{
  g_return_val_if_fail ((guint)code < FR_N_EVENTS, NULL);
  return codes[code];
}

/* --- what an event is made of --- */

#define KIND(id) (G_GUINT64_CONSTANT (1) << (id))
#define SAP                                                                                                            \
  (KIND (FR_KIND_GATHERING) | KIND (FR_KIND_POUR) | KIND (FR_KIND_DIP) | KIND (FR_KIND_DAY) | KIND (FR_KIND_CONTAINER) \
   | KIND (FR_KIND_STORING))
#define NIGHT (KIND (FR_KIND_NIGHT) | KIND (FR_KIND_COOKER) | KIND (FR_KIND_POUR))

static const guint64 made_of[FR_N_EVENTS] = {
  [FR_EVENT_GATHERED] = KIND (FR_KIND_GATHERING) | KIND (FR_KIND_CONTAINER) | KIND (FR_KIND_DIP) | KIND (FR_KIND_POUR),
  [FR_EVENT_BOIL] = NIGHT,
  [FR_EVENT_DRY] = NIGHT,
  [FR_EVENT_CUTOFF] = NIGHT,
  [FR_EVENT_BOIL_BY] = SAP,
  [FR_EVENT_TAPS_SET] = KIND (FR_KIND_TAP),
  [FR_EVENT_TAPS_PULLED] = KIND (FR_KIND_TAP),
  [FR_EVENT_TAPS_OLD] = KIND (FR_KIND_TAP) | KIND (FR_KIND_STORING),
  [FR_EVENT_FROST] = KIND (FR_KIND_DAY) | KIND (FR_KIND_TAP) | KIND (FR_KIND_GATHERING),
  [FR_EVENT_CLOCK_CHANGE] = 0,
  [FR_EVENT_HOLIDAY] = KIND (FR_KIND_TARIFF),
};

/* The household's units and zone are in every text. */
static gint64
last_change (const Making *making, FrSeasonEventCode code)
{
  const guint64 kinds = made_of[code] | KIND (FR_KIND_HOUSEHOLD);
  gint64 last_utc = G_MININT64;

  for (guint kind = 0; kind < FR_N_KINDS; kind++)
    if (kinds & KIND (kind))
      last_utc = MAX (last_utc, making->changed_utc[kind]);
  return last_utc != G_MININT64 ? last_utc : making->events->view->days[0].from_utc;
}

/* --- adding --- */

static FrSeasonEvent *
add (Making *making, FrSeasonEventCode code, const char *key)
{
  const FrHousehold *household = making->book->household;
  FrSeasonEvent event = { .code = code, .volume_l = NAN, .age_s = NAN };
  g_autofree char *what = g_strdelimit (g_strdup (codes[code]), "_", '-');

  event.event.uid
      = g_strdup_printf ("%s-%s-%s@frostrun", what, key, household != NULL ? household->record.uid : "nobody");
  event.event.changed_utc = last_change (making, code);
  event.event.alarm_lead_min = -1;
  g_array_append_val (making->events->events, event);
  return &g_array_index (making->events->events, FrSeasonEvent, making->events->events->len - 1);
}

static void
add_day (Making *making, FrSeasonEventCode code, const FrSeasonDay *day)
{
  g_autofree char *iso = fr_date_to_iso (day->date);
  FrSeasonEvent *event = add (making, code, iso);

  event->day = day;
  event->event.all_day = TRUE;
  event->event.first = event->event.last = day->date;
}

static gboolean
is_sound (const Making *making, gint64 utc_s)
{
  const FrDate day = utc_s != G_MININT64 ? fr_zone_local (making->book->zone, utc_s).date : (FrDate){ 0 };

  return day.year > 1 && day.year <= LAST_YEAR;
}

/* NULL when the times cannot be. */
static FrSeasonEvent *
add_time (Making *making, FrSeasonEventCode code, const char *key, gint64 start_utc, gint64 end_utc, gint lead_min)
{
  FrSeasonEvent *event;

  if (!is_sound (making, start_utc) || !is_sound (making, end_utc) || end_utc < start_utc)
    return NULL;
  event = add (making, code, key);
  event->event.start_utc = start_utc;
  event->event.end_utc = end_utc;
  event->event.alarm_lead_min = lead_min;
  return event;
}

/* --- kinds of events --- */

static void
add_days (Making *making)
{
  const FrSeasonView *view = making->events->view;

  for (guint i = 0; i < view->n_days; i++)
    {
      const FrSeasonDay *day = &view->days[i];

      if (day->n_gatherings > 0)
        add_day (making, FR_EVENT_GATHERED, day);
      if (day->taps_set > 0)
        add_day (making, FR_EVENT_TAPS_SET, day);
      if (day->taps_pulled > 0)
        add_day (making, FR_EVENT_TAPS_PULLED, day);
      if (day->clock_change_s != 0)
        add_day (making, FR_EVENT_CLOCK_CHANGE, day);
      if (day->is_holiday)
        add_day (making, FR_EVENT_HOLIDAY, day);
    }
}

static void
add_night (Making *making, const FrNight *night)
{
  const struct
  {
    FrSeasonEventCode code;
    gint64 utc_s;
  } moments[] = { { FR_EVENT_DRY, night->plan_dry_utc }, { FR_EVENT_CUTOFF, night->plan_end_utc } };
  const gint64 end_utc = fr_season_night_end_utc (night);
  FrSeasonEvent *event = add_time (making, FR_EVENT_BOIL, night->record.uid, night->start_utc,
                                   MAX (end_utc, night->start_utc), START_LEAD_MIN);

  if (event == NULL)
    return;
  event->record = &night->record;
  if (fr_season_night_has_findings (night))
    {
      event->event.alarm_lead_min = -1; /* it is over */
      return;
    }
  for (guint i = 0; i < G_N_ELEMENTS (moments); i++)
    {
      event = add_time (making, moments[i].code, night->record.uid, moments[i].utc_s, moments[i].utc_s, MOMENT_LEAD_MIN);
      if (event != NULL)
        event->record = &night->record;
    }
}

static void
add_boil_by (Making *making)
{
  FrSeasonEvents *events = making->events;
  const FrStock *now = events->view->stock;
  const gint64 at_utc = now->n_levels > 0 ? now->levels[now->n_levels - 1].utc_s : now->from_utc;

  events->stock = fr_stock_new (making->book, now->from_utc, at_utc);
  for (guint i = 0; i < events->stock->n_places; i++)
    {
      const FrStockPlace *place = &events->stock->places[i];
      g_autofree char *key = g_strdup_printf ("%u-%s", events->view->season,
                                              place->container != NULL ? place->container->record.uid : "none");
      const gint64 by_utc = fr_season_full_hour (making->book->zone, place->spoils_utc);
      FrSeasonEvent *event;

      if (!(place->volume_l >= FR_STOCK_EMPTY_L) || by_utc == G_MININT64)
        continue;
      event = add_time (making, FR_EVENT_BOIL_BY, key, by_utc, by_utc, BOIL_BY_LEAD_MIN);
      if (event == NULL)
        continue;
      event->record = (const FrRecord *)place->container;
      event->volume_l = place->volume_l;
      if (place->oldest_utc != G_MININT64)
        event->age_s = (double)(by_utc - place->oldest_utc);
    }
}

static void
add_reminder (Making *making, const FrReminder *reminder)
{
  const char *slash = strchr (reminder->key, '/'); /* the code is in the name already */
  g_autofree char *key = g_strdelimit (g_strdup (slash != NULL ? slash + 1 : reminder->key), "/", '-');
  FrSeasonEvent *event = NULL;

  if (reminder->code == FR_REMIND_FROST)
    event = add_time (making, FR_EVENT_FROST, key, reminder->due_utc, reminder->due_utc, FROST_LEAD_MIN);
  else if (reminder->code == FR_REMIND_TAPS)
    {
      event = add (making, FR_EVENT_TAPS_OLD, key);
      event->event.all_day = TRUE;
      event->event.first = event->event.last = fr_zone_local (making->book->zone, reminder->due_utc).date;
    }
  if (event != NULL)
    {
      event->reminder = reminder;
      event->record = reminder->record;
    }
}

/* --- all --- */

static FrDate
first_day (const FrSeasonEvent *event, const FrZoneTable *zone)
{
  return event->event.all_day ? event->event.first : fr_zone_local (zone, event->event.start_utc).date;
}

static gint
by_day (gconstpointer a, gconstpointer b, gpointer zone)
{
  const FrSeasonEvent *one = a, *other = b;
  int order = fr_date_compare (first_day (one, zone), first_day (other, zone));

  if (order != 0)
    return order;
  if (one->code != other->code)
    return one->code < other->code ? -1 : 1;
  return strcmp (one->event.uid, other->event.uid);
}

static void
event_clear (gpointer data)
{
  g_free ((char *)((FrSeasonEvent *)data)->event.uid);
}

FrSeasonEvents *
fr_season_events_new (const FrSeasonBook *book, const FrSeasonView *view, const gint64 *changed_utc)
{
  FrSeasonEvents *events = g_new0 (FrSeasonEvents, 1);
  Making making = { book, changed_utc, events };

  events->view = view;
  events->events = g_array_new (FALSE, FALSE, sizeof (FrSeasonEvent));
  g_array_set_clear_func (events->events, event_clear);
  g_return_val_if_fail (book != NULL && view != NULL && changed_utc != NULL, events);

  add_days (&making);
  for (guint i = 0; book->nights != NULL && i < book->nights->len; i++)
    {
      const FrNight *night = book->nights->pdata[i];

      if (!night->record.archived && fr_season_index (view, fr_season_date (night->evening)) >= 0)
        add_night (&making, night);
    }
  if (view->today >= 0)
    {
      add_boil_by (&making);
      events->reminders = fr_reminders_new (book, view->stock, view->now_utc, FR_REMINDERS_LATER);
      for (guint i = 0; i < events->reminders->len; i++)
        add_reminder (&making, events->reminders->pdata[i]);
    }
  g_array_sort_with_data (events->events, by_day, (gpointer)book->zone);
  return events;
}

void
fr_season_events_free (FrSeasonEvents *events)
{
  if (events == NULL)
    return;
  g_array_unref (events->events);
  g_clear_pointer (&events->stock, fr_stock_free);
  g_clear_pointer (&events->reminders, g_ptr_array_unref);
  g_free (events);
}
