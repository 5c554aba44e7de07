/* A season as one picture: per day the weather, what came in, what waited, what was boiled, and the price of power; and the tally.
 * What the calendar, its paper and the command line show; numbers and codes, no words. */
#pragma once

#include "domain/maths/tariff.h"
#include "domain/plan/season-book.h"
#include "domain/plan/stock.h"

G_BEGIN_DECLS

/* A span of a day's power price. @level: 0 lowest to 2 highest of the season's prices; @price_per_kwh minor units. */
typedef struct
{
  gint64 from_utc;
  gint64 to_utc;
  double price_per_kwh;
  guint level;
} FrSeasonPrice;

/**
 * FrSeasonDay:
 * One local day. Amounts are NAN when nothing is known of them, 0 when it is known that there was nothing (a day without any entry
 * is NAN).
 * @from_utc, @to_utc: its instants; 23 or 25 hours apart when the clocks change
 * @clock_change_s: how far the clock was put forward on that day (3600, −3600 back, 0 none) at @clock_change_utc
 * @low_c, @high_c: the air's; @is_expected_weather: somebody's forecast, not seen
 * @gathered_l: sap that came in, without the ice thrown out; @sugar_kg: in it
 * @ice_l: thrown out at gathering
 * @n_gatherings, @n_estimated: of them, totals of several trees
 * @expected_lo_l, @expected_l, @expected_hi_l: what a forecast expects (8 in 10 inside); NAN while there is none
 * @store_l: in all containers at the day's end; for today now
 * @boiled_l: poured into pans and buckets that evening; @n_boils nights; @is_boil_planned: kept, not begun yet
 * @energy_kwh, @cost_minor: of the nights, measured if known, else as planned
 * @n_bottles, @bottled_l: for when batches are kept; 0 and NAN
 * @is_holiday: the tariff's holiday on a day that would else have other prices
 * @taps_set, @taps_pulled: holes set and pulled that day
 * @buds: code of the book, "unknown"
 * @day: its record, or NULL; @n_reminders: that stand for it
 */
typedef struct
{
  FrDate date;
  gint64 from_utc;
  gint64 to_utc;
  gint clock_change_s;
  gint64 clock_change_utc;
  gint weekday; /* 1 Monday to 7 Sunday */
  double low_c, high_c;
  gboolean is_expected_weather;
  double gathered_l, sugar_kg, ice_l;
  guint n_gatherings, n_estimated;
  double expected_lo_l, expected_l, expected_hi_l;
  double store_l;
  double boiled_l;
  guint n_boils;
  gboolean is_boil_planned;
  double energy_kwh, cost_minor;
  guint n_bottles;
  double bottled_l;
  gboolean is_holiday;
  guint taps_set, taps_pulled;
  const char *buds;
  const FrDay *day;
  guint n_reminders;
} FrSeasonDay;

/* What the season has come to, up to a day's end: for the tally in sight, and the same date of other seasons. */
typedef struct
{
  guint season;
  FrDate until;
  double gathered_l;
  double sugar_kg;     /* in what was gathered */
  double ice_l;
  double waiting_l;    /* in store */
  double boiled_l;
  double syrup_l;      /* made, or as planned to become of what is in the pans: at the household's syrup density */
  double cost_minor;   /* of power */
  double energy_kwh;
  guint n_gathering_days;
  guint n_nights;
} FrSeasonTally;

/**
 * FrSeasonView:
 * @days: from @first to @last without a gap: from a week before the first tap, gathering or weather of the season to two weeks after
 *   the last entry or today, at least 8 weeks
 * @today: index into @days, or −1 when today lies outside
 * @levels: litres in all containers: value after each event (stock.h), ascending, within the days
 * @prices: ascending, without gaps where the tariff answers; empty without one
 * @capacity_l: of all store containers, NAN when none is known
 * @tally: up to today (or the season's end)
 */
typedef struct
{
  guint season;
  FrDate first;
  FrDate last;
  guint n_days;
  FrSeasonDay *days;
  int today;
  gint64 now_utc;
  guint n_levels;
  FrStockLevel *levels;
  guint n_prices;
  FrSeasonPrice *prices;
  double capacity_l;
  FrSeasonTally tally;
  FrStock *stock;
} FrSeasonView;

/* Borrows the records of @book until freed. Never NULL. */
FrSeasonView *fr_season_view_new (const FrSeasonBook *book, guint season, gint64 now_utc);
void fr_season_view_free (FrSeasonView *view);
/* The day, or NULL outside. */
const FrSeasonDay *fr_season_view_day (const FrSeasonView *view, FrDate date);
/* The tally of this view's season up to the end of a day. */
FrSeasonTally fr_season_view_tally (const FrSeasonView *view, FrDate until);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrSeasonView, fr_season_view_free)

G_END_DECLS
