/* The price of power over the season, and the holidays that change it. A holiday counts as one when the same tariff without its
 * holidays has other prices on that day: on a Sunday it usually has not. */
#include "domain/plan/evening.h"
#include "domain/plan/plan-private.h"
#include "domain/plan/season-private.h"

#include <math.h>
#include <stdlib.h>

#define SAME_PRICE 1e-9

static FrTariff *
parse (const FrTariffRecord *record, gboolean with_holidays)
{
  FrTariffProblem ignored;
  double adder = record->adder_per_kwh.value, tax_ratio = record->tax_ratio.value;

  return fr_tariff_parse (record->periods, with_holidays ? record->holidays : NULL, isnan (adder) ? 0 : adder,
                          isnan (tax_ratio) ? 0 : tax_ratio, &ignored);
}

static int
by_price (const void *a, const void *b)
{
  double one = *(const double *)a, other = *(const double *)b;

  return one < other ? -1 : one > other;
}

/* The different prices, ascending. */
static GArray *
distinct (const FrSeasonPrice *prices, guint n_prices)
{
  GArray *all = g_array_sized_new (FALSE, FALSE, sizeof (double), n_prices);
  guint n = 0;

  for (guint i = 0; i < n_prices; i++)
    g_array_append_val (all, prices[i].price_per_kwh);
  if (n_prices > 0)
    qsort (all->data, n_prices, sizeof (double), by_price);
  for (guint i = 0; i < n_prices; i++)
    if (n == 0 || g_array_index (all, double, i) - g_array_index (all, double, n - 1) > SAME_PRICE)
      g_array_index (all, double, n++) = g_array_index (all, double, i);
  g_array_set_size (all, n);
  return all;
}

/* The lowest is 0, the highest 2, those between lie on the nearest of the three steps by rank. */
static guint
level (const GArray *all, double price)
{
  guint rank = 0;

  while (rank + 1 < all->len && g_array_index (all, double, rank) < price - SAME_PRICE)
    rank++;
  return all->len > 1 ? (4 * rank + all->len - 1) / (2 * (all->len - 1)) : 0;
}

static gboolean
differs (const FrTariff *one, const FrTariff *other, const FrZoneTable *zone, const FrSeasonDay *day)
{
  guint n_one, n_other;
  g_autofree FrPriceSpan *of_one = fr_plan_price_spans (one, zone, day->from_utc, day->to_utc, &n_one);
  g_autofree FrPriceSpan *of_other = fr_plan_price_spans (other, zone, day->from_utc, day->to_utc, &n_other);
  gboolean same = n_one == n_other;

  for (guint i = 0; same && i < n_one; i++)
    same = of_one[i].from_utc == of_other[i].from_utc && of_one[i].to_utc == of_other[i].to_utc
           && fabs (of_one[i].full_per_kwh - of_other[i].full_per_kwh) <= SAME_PRICE;
  return !same;
}

static void
fill_holidays (FrSeasonView *view, const FrTariffRecord *record, const FrTariff *tariff, const FrZoneTable *zone)
{
  g_autoptr (FrTariff) without = record->holidays != NULL ? parse (record, FALSE) : NULL;

  for (guint i = 0; without != NULL && i < view->n_days; i++)
    view->days[i].is_holiday = differs (tariff, without, zone, &view->days[i]);
}

void
fr_season_fill_prices (FrSeasonView *view, const FrSeasonBook *book)
{
  const FrTariffRecord *record = fr_evening_tariff (book->tariffs);
  g_autoptr (FrTariff) tariff = record != NULL ? parse (record, TRUE) : NULL;
  g_autofree FrPriceSpan *spans = NULL;
  g_autoptr (GArray) all = NULL;

  if (tariff == NULL || view->n_days == 0)
    return;
  spans = fr_plan_price_spans (tariff, book->zone, view->days[0].from_utc, view->days[view->n_days - 1].to_utc,
                               &view->n_prices);
  view->prices = g_new0 (FrSeasonPrice, view->n_prices);
  for (guint i = 0; i < view->n_prices; i++)
    view->prices[i] = (FrSeasonPrice){ spans[i].from_utc, spans[i].to_utc, spans[i].full_per_kwh, 0 };
  all = distinct (view->prices, view->n_prices);
  for (guint i = 0; i < view->n_prices; i++)
    view->prices[i].level = level (all, view->prices[i].price_per_kwh);
  fill_holidays (view, record, tariff, book->zone);
}
