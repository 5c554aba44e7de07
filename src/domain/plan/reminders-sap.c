/* Reminders of the sap itself: what must be boiled and by when, what may freeze on the trees tonight, what is nearly full, what does not
 * add up.
 *
 * Tonight's low is tomorrow's, since a clear night is coldest at its end; where tomorrow has none, today's, if it is somebody's forecast:
 * one that was seen was this morning's. Sap has run when some day since the buckets were emptied was not known to stay at or below
 * freezing. Common practice, no source; so are the shares and times below. */
#include "domain/plan/reminders-private.h"

#include <math.h>

#define FULL_RATIO 0.9
#define DUSK_S (18 * 3600)
/* A look that finds so much more or less is worth a second look. */
#define MISMATCH_L 1.0
#define MISMATCH_RATIO 0.1

/* --- in store --- */

static void
remind_of_place (FrReminding *reminding, const FrStockPlace *place)
{
  const char *uid = place->container != NULL ? place->container->record.uid : "none";
  const gint64 oldest_utc = place->oldest_utc != G_MININT64 ? place->oldest_utc : place->changed_utc;
  const gboolean is_spoiled
      = place->used_ratio >= 1 || (place->spoils_utc != G_MININT64 && place->spoils_utc <= reminding->now_utc);
  FrReminder *reminder;

  if (!(place->volume_l >= FR_STOCK_EMPTY_L))
    return;
  if (is_spoiled || place->spoils_utc != G_MININT64)
    {
      reminder = fr_remind (
          reminding, is_spoiled ? FR_REMIND_SPOILED : FR_REMIND_BOIL_BY,
          g_strdup_printf ("%s/%s/%" G_GINT64_FORMAT, is_spoiled ? "spoiled" : "boil-by", uid, oldest_utc),
          fr_season_full_hour (reminding->book->zone, place->spoils_utc));
      if (is_spoiled)
        reminder->urgency = FR_URGENCY_NOW;
      reminder->record = (const FrRecord *)place->container;
      reminder->volume_l = place->volume_l;
      if (place->oldest_utc != G_MININT64)
        reminder->age_s = (double)(reminding->now_utc - place->oldest_utc);
    }
  if (place->container != NULL && place->volume_l >= FULL_RATIO * place->container->capacity_l.value)
    {
      reminder = fr_remind (reminding, FR_REMIND_FULL,
                            g_strdup_printf ("full/%s/%" G_GINT64_FORMAT, uid, place->changed_utc), G_MININT64);
      reminder->urgency
          = place->volume_l >= place->container->capacity_l.value ? FR_URGENCY_NOW : FR_URGENCY_SOON;
      reminder->record = &place->container->record;
      reminder->volume_l = place->volume_l;
      reminder->capacity_l = place->container->capacity_l.value;
    }
}

/* --- on the trees --- */

static gint64
last_gathered_utc (const FrReminding *reminding)
{
  GPtrArray *gatherings = reminding->book->gatherings;
  gint64 last_utc = G_MININT64;

  for (guint i = 0; gatherings != NULL && i < gatherings->len; i++)
    {
      const FrGathering *gathering = gatherings->pdata[i];

      if (!gathering->record.archived && gathering->gathered_utc <= reminding->now_utc
          && gathering->gathered_utc >= reminding->stock->from_utc)
        last_utc = MAX (last_utc, gathering->gathered_utc);
    }
  return last_utc;
}

static const FrDay *
tonight (const FrReminding *reminding)
{
  const FrDay *today = fr_remind_day (reminding, reminding->today);
  const FrDay *tomorrow = fr_remind_day (reminding, fr_date_add_days (reminding->today, 1));

  if (tomorrow != NULL && !isnan (tomorrow->low_c.value))
    return tomorrow;
  return today != NULL && today->expected ? today : NULL;
}

static FrDate
first_hung (const FrReminding *reminding)
{
  GPtrArray *taps = reminding->book->taps;
  FrDate first = reminding->today, set;

  for (guint i = 0; taps != NULL && i < taps->len; i++)
    if (fr_remind_hangs (reminding, taps->pdata[i], &set) && fr_date_compare (set, first) < 0)
      first = set;
  return first;
}

/* Whether sap may have run from a day to today. */
static gboolean
may_have_run (const FrReminding *reminding, FrDate since)
{
  for (FrDate day = since; fr_date_compare (day, reminding->today) <= 0; day = fr_date_add_days (day, 1))
    {
      const FrDay *record = fr_remind_day (reminding, day);

      if (record == NULL || !(record->high_c.value <= 0))
        return TRUE;
    }
  return FALSE;
}

static void
remind_of_frost (FrReminding *reminding)
{
  const FrZoneTable *zone = reminding->book->zone;
  const FrDay *night = tonight (reminding);
  const gint64 last_utc = last_gathered_utc (reminding);
  FrDate since = last_utc != G_MININT64 ? fr_zone_local (zone, last_utc).date : first_hung (reminding);
  g_autofree char *today = fr_date_to_iso (reminding->today);
  gint64 due_utc, second_utc;
  FrReminder *reminder;

  if (reminding->n_hanging == 0 || night == NULL || !(night->low_c.value < 0)
      || fr_date_compare (since, reminding->today) >= 0 || !may_have_run (reminding, since))
    return;
  if (fr_zone_instant (zone, reminding->today, DUSK_S, &due_utc, &second_utc) == FR_ZONE_NEVER)
    due_utc = second_utc;
  reminder = fr_remind (reminding, FR_REMIND_FROST, g_strconcat ("frost/", today, NULL), due_utc);
  reminder->record = &night->record;
  reminder->temp_c = night->low_c.value;
  reminder->n = reminding->n_hanging;
  if (last_utc != G_MININT64)
    reminder->age_s = (double)(reminding->now_utc - last_utc);
}

static gboolean
is_buddy (const FrRecord *record, const char *time_field, const FrReminding *reminding, gint64 *utc_out)
{
  *utc_out = fr_record_int (record, fr_kind_field (record->kind, time_field));
  return !record->archived && *utc_out <= reminding->now_utc && *utc_out >= reminding->stock->from_utc
         && g_strcmp0 (fr_record_text (record, fr_kind_field (record->kind, "smell")), "buddy") == 0;
}

static void
remind_of_smell (FrReminding *reminding)
{
  const struct
  {
    GPtrArray *records;
    const char *time_field;
  } all[] = { { reminding->book->gatherings, "gathered_utc" }, { reminding->book->dips, "found_utc" } };
  const FrRecord *latest = NULL;
  gint64 latest_utc = G_MININT64, utc_s;
  FrReminder *reminder;

  for (guint k = 0; k < G_N_ELEMENTS (all); k++)
    for (guint i = 0; all[k].records != NULL && i < all[k].records->len; i++)
      if (is_buddy (all[k].records->pdata[i], all[k].time_field, reminding, &utc_s) && utc_s > latest_utc)
        {
          latest = all[k].records->pdata[i];
          latest_utc = utc_s;
        }
  if (latest == NULL || (reminding->n_set > 0 && reminding->n_hanging == 0))
    return;
  reminder = fr_remind (reminding, FR_REMIND_BUDDY, g_strconcat ("buddy/", latest->uid, NULL), G_MININT64);
  reminder->urgency = FR_URGENCY_SOON;
  reminder->record = latest;
  reminder->age_s = (double)(reminding->now_utc - latest_utc);
}

/* --- the account --- */

static gboolean
is_worth_a_look (const FrStockLine *line)
{
  if (line->code != FR_LINE_FOUND)
    return TRUE;
  return fabs (line->volume_l) > MAX (MISMATCH_L, MISMATCH_RATIO * fabs (line->computed_l));
}

static void
remind_of_lines (FrReminding *reminding)
{
  const FrStockLine *worst = NULL, *latest = NULL;
  FrReminder *reminder;
  guint n = 0;

  for (guint i = 0; i < reminding->stock->n_lines; i++)
    {
      const FrStockLine *line = &reminding->stock->lines[i];

      if (!is_worth_a_look (line))
        continue;
      n++;
      latest = line;
      if (worst == NULL || fabs (line->volume_l) >= fabs (worst->volume_l)
          || (isnan (worst->volume_l) && !isnan (line->volume_l)))
        worst = line;
    }
  if (n == 0)
    return;
  reminder = fr_remind (reminding, FR_REMIND_LEDGER,
                        g_strconcat ("ledger/", latest->record != NULL ? latest->record->uid : "none", NULL), G_MININT64);
  reminder->line = worst;
  reminder->record = worst->record;
  reminder->n = n;
  reminder->volume_l = worst->volume_l;
}

void
fr_remind_of_sap (FrReminding *reminding)
{
  for (guint i = 0; i < reminding->stock->n_places; i++)
    remind_of_place (reminding, &reminding->stock->places[i]);
  remind_of_frost (reminding);
  remind_of_smell (reminding);
  remind_of_lines (reminding);
}
