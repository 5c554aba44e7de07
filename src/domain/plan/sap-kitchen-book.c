/* The kitchen's question from the book: what waits where and until when, what the store holds, what the
 * cookers boil off in a night. */
#include "domain/plan/sap-kitchen.h"

#include "domain/plan/bush.h"

#include <math.h>

/* More sap than any household boils in a night, so that kit and hours set the limit and not the sap. */
#define WITHOUT_END_L 5000.0
/* As in evening.c: as cold sap is kept; common sense, no source. */
#define KEPT_C 4.0
/* The stove is lit by then; common sense, no source. */
#define EVENING_S (18 * 3600)

double
fr_kitchen_night_l (const FrPlanInput *input, double *least_l_out)
{
  FrPlanInput endless = *input;
  g_autoptr (FrPlan) plan = NULL;
  double least_l = NAN;

  for (guint i = 0; i < input->n_kits; i++)
    if (!input->kits[i].off)
      least_l = fmin (least_l, input->kits[i].cutoff_l);
  if (least_l_out != NULL)
    *least_l_out = least_l;
  if (isnan (least_l))
    return NAN;
  endless.sap_l = WITHOUT_END_L;
  if (isnan (endless.sap_brix))
    endless.sap_brix = FR_STOCK_SAP_BRIX;
  if (isnan (endless.sap_c))
    endless.sap_c = KEPT_C;
  plan = fr_plan_new (&endless);
  return plan->status == FR_PLAN_OK ? plan->used_l : 0;
}

/* The last evening before an instant. */
static FrDate
evening_before (const FrZoneTable *zone, gint64 utc_s)
{
  FrLocalTime local = fr_zone_local (zone, utc_s);

  return local.second_of_day < EVENING_S ? fr_date_add_days (local.date, -1) : local.date;
}

static GArray *
lots_of (const FrStock *stock, const FrZoneTable *zone)
{
  GArray *lots = g_array_new (FALSE, FALSE, sizeof (FrKitchenLot));

  for (guint i = 0; i < stock->n_places; i++)
    {
      const FrStockPlace *place = &stock->places[i];
      FrKitchenLot lot = { place->volume_l, { 0 } };

      if (!(place->volume_l > FR_STOCK_NOTHING_L))
        continue;
      if (place->spoils_utc != G_MININT64)
        lot.boil_by = evening_before (zone, place->spoils_utc);
      g_array_append_val (lots, lot);
    }
  return lots;
}

/* Evenings that new sap may wait: on the last of them it is less old than it may get. */
static guint
keeps_days (const FrStoring *storing)
{
  FrKeepingTable table;

  fr_stock_keeping (storing, &table);
  return (guint)fmax (ceil (fr_keeping_allowed_h (&table, KEPT_C) / 24) - 1, 0);
}

static double
night_of_book (const FrSeasonBook *book, gint64 now_utc, double *least_l_out)
{
  FrPlanInput input;
  FrTariff *tariff = NULL;
  FrTariffProblem problem;
  double night_l = NAN;

  *least_l_out = NAN;
  if (fr_evening_input (book, book->zone, now_utc, &input, &tariff, &problem))
    night_l = fr_kitchen_night_l (&input, least_l_out);
  fr_tariff_free (tariff);
  return night_l;
}

/* What comes in on each evening: differences of what comes by then. */
static void
put_come_in (const FrForecast *forecast, const FrForecastAnswer *answer, FrDate today, guint n_days,
             double *middle_l, double *hi_l)
{
  double hanging_l = isnan (answer->hanging_l) || answer->is_per_tap ? 0 : answer->hanging_l;
  double before_l = forecast->gathered_l, before_hi_l = forecast->gathered_l;
  gboolean is_first = TRUE;

  for (guint d = 0; d < n_days; d++)
    {
      const FrForecastDay *day = fr_forecast_day (forecast, fr_date_add_days (today, (gint)d));

      if (day == NULL || !day->is_ahead || isnan (day->so_far.hi_l))
        continue;
      middle_l[d] = fmax (day->so_far.middle_l - before_l, 0) + (is_first ? hanging_l : 0);
      hi_l[d] = fmax (day->so_far.hi_l - before_hi_l, 0) + (is_first ? hanging_l : 0);
      before_l = fmax (before_l, day->so_far.middle_l);
      before_hi_l = fmax (before_hi_l, day->so_far.hi_l);
      is_first = FALSE;
    }
}

FrKitchen *
fr_kitchen_of_book (const FrSeasonBook *book, const FrForecast *forecast, const FrForecastAnswer *answer,
                    gint64 now_utc)
{
  FrDate today = fr_zone_local (book->zone, now_utc).date;
  gint64 from_utc, to_utc;
  g_autoptr (FrStock) stock = NULL;
  g_autoptr (GArray) lots = NULL;
  g_autofree double *middle_l = NULL, *hi_l = NULL;
  FrKitchenQuestion question = { .today = today };

  if (answer->known_until.year == 0 || fr_date_compare (answer->known_until, today) < 0)
    return NULL;
  question.n_days = (guint)(fr_date_to_days (answer->known_until) - fr_date_to_days (today)) + 1;
  middle_l = g_new0 (double, question.n_days);
  hi_l = g_new0 (double, question.n_days);
  put_come_in (forecast, answer, today, question.n_days, middle_l, hi_l);
  fr_day_span_utc (book->zone, fr_season_first_day (fr_season_of (today)), &from_utc, &to_utc);
  stock = fr_stock_new (book, from_utc, now_utc);
  lots = lots_of (stock, book->zone);
  question.come_in_l[FR_KITCHEN_MIDDLE] = middle_l;
  question.come_in_l[FR_KITCHEN_NINE_IN_TEN] = hi_l;
  question.n_lots = lots->len;
  question.lots = (const FrKitchenLot *)lots->data;
  question.capacity_l = stock->capacity_l;
  question.night_l = night_of_book (book, now_utc, &question.least_l);
  if (isnan (question.least_l))
    question.least_l = 0;
  question.keeps_days = keeps_days (book->storing);
  return fr_kitchen_new (&question);
}
