/* A season as one picture: per day the weather, what came in, what waited, what was boiled, and the price of power; and the tally.
 * What the calendar, its paper and the command line show; numbers and codes, no words. */
#pragma once

#include "domain/maths/tariff.h"
#include "domain/plan/reminders.h"

G_BEGIN_DECLS

/* A span of power at one price. @level: 0 lowest to 2 highest, by rank among the different prices of the days seen; a single price is 0,
 * two are 0 and 2. @price_per_kwh: with adder and tax, minor units. */
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
 * is NAN, and so is one that is still to come).
 * @from_utc, @to_utc: its instants; 23 or 25 hours apart when the clocks change
 * @clock_change_s: how far the clock was put forward on that day (3600, −3600 back, 0 none) at @clock_change_utc
 * @low_c, @high_c: the air's; @is_expected_weather: somebody's forecast, not seen
 * @gathered_l: sap that came in, without the ice thrown out; @sugar_kg: in it, some of it taken from other readings of the season when
 *   @is_sugar_assumed
 * @ice_l: thrown out at gathering
 * @n_gatherings, @n_estimated: of them, totals of several trees
 * @expected_lo_l, @expected_l, @expected_hi_l: what a forecast expects (8 in 10 inside); NAN while there is none
 * @store_l: in all containers at the day's end; for today now
 * @boiled_l: sap poured into pans and buckets that evening; @n_boils: kept nights, one a cooker, and 1 for all that was boiled without
 *   one; @is_boil_planned: kept, not begun yet
 * @boiled_sugar_kg: in that sap; what an earlier boil left in a pan is not counted again
 * @energy_kwh, @cost_minor: of the nights: measured if known, else as planned. Measured energy costs what the plan's did for each kWh,
 *   since today's tariff need not be that of the night
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
  gboolean is_sugar_assumed;
  guint n_gatherings, n_estimated;
  double expected_lo_l, expected_l, expected_hi_l;
  double store_l;
  double boiled_l, boiled_sugar_kg;
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

/* What the season has come to, up to a day's end or now: for the tally in sight, and the same date of other seasons. Nights that are only
 * planned are left out. All NAN when the season has no entry up to then. */
typedef struct
{
  guint season;
  FrDate until;
  double gathered_l;
  double sugar_kg;     /* in what was gathered */
  double ice_l;
  double waiting_l;    /* in store */
  double boiled_l;
  double syrup_l;      /* what the sugar that came into pans makes at the household's syrup density; nothing taken off for losses */
  double cost_minor;   /* of power, of the nights of which it is known */
  double energy_kwh;   /* the same */
  guint n_gathering_days;
  guint n_nights;      /* evenings with a boil */
  guint n_priced;      /* those of them whose power has a cost */
} FrSeasonTally;

/**
 * FrSeasonView:
 * @days: from @first to @last without a gap: from a week before the season's first entry (tap set, gathering, weather …) to two weeks
 *   after the last or today, at least 8 weeks, within the season; without an entry from 15 February
 * @today: index into @days, or −1 when today lies outside
 * @levels: litres in all containers: value after each event (stock.h), ascending, within the days; borrowed from @stock
 * @prices: ascending, without gaps where the tariff answers; empty without one
 * @reminders: (element-type FrReminder): those that stand; empty for another season than today's
 * @syrup_sugar_kg: in a litre of the household's syrup
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
  GPtrArray *reminders;
  double syrup_sugar_kg;
} FrSeasonView;

/* The same day of another season; 29 February becomes the 28th where there is none. */
FrDate fr_season_same_date (FrDate day, guint season);

/* Borrows the records of @book until freed; @book needs its zone. Never NULL. */
FrSeasonView *fr_season_view_new (const FrSeasonBook *book, guint season, gint64 now_utc);
void fr_season_view_free (FrSeasonView *view);
/* The day, or NULL outside. */
const FrSeasonDay *fr_season_view_day (const FrSeasonView *view, FrDate date);
/* °Bx of so much sap with so much sugar, NAN unknown or none. */
double fr_season_brix (double volume_l, double sugar_kg);
/* The tally of this view's season up to the end of a day. */
FrSeasonTally fr_season_view_tally (const FrSeasonView *view, FrDate until);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrSeasonView, fr_season_view_free)

G_END_DECLS
