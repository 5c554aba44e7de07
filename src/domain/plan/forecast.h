/* The sap forecast: for each day how likely a run is, how many litres and how sure, and what the season comes to.
 *
 * Numbers and codes; sentences are in words. A day D ends at the gathering hour of date D and began 24 hours
 * before. A run is at least FR_RUN_L litres a tap in it. Ranges are 8 in 10 (lo, hi) and 5 in 10 (quarter). */
#pragma once

#include "domain/maths/air-hours.h"
#include "domain/maths/forecast-error.h"
#include "domain/maths/sap-learn.h"

G_BEGIN_DECLS

#define FR_RUN_L 0.5
/* Days from midwinter (1 January, in the south 1 July) after which no sap is looked for. */
#define FR_SEASON_DAYS 150
/* "Hours of running" are those above this. */
#define FR_RUN_AIR_C 1.0

/**
 * FrTapGroup:
 * Taps that were set on one day in trees alike.
 * @tapped: the day, year 0 when not yet set
 * @n_taps: how many
 * @yield_ratio: what one of them gives against the bush's middling tap, by species, size and number on the trunk
 */
typedef struct
{
  FrDate tapped;
  guint n_taps;
  double yield_ratio;
} FrTapGroup;

/**
 * FrSapGathered:
 * What was emptied on a day.
 * @date: the day
 * @per_tap_l: NAN unknown
 * @span_days: days since the emptying before, above 0
 */
typedef struct
{
  FrDate date;
  double per_tap_l;
  double span_days;
} FrSapGathered;

/**
 * FrForecastQuestion:
 * @air: the season's hours so far and as far as they are forecast
 * @as_of: what is known up to the gathering hour of this date is observed, later hours are forecast
 * @gather_hour: 0 to 23 on the standard clock; −1 not told: then hours from 8 to 17 are as likely
 * @groups: may be none: then the forecast is for one tap set on @tapped
 * @tapped: the first day with a tap, year 0 when none is set: then the answer is as if set on @as_of
 * @gathered: dates rising; those after @as_of are not looked at
 * @errors: of forecast lows and highs
 * @past: other seasons of the place, each from midwinter on, which stand in beyond the forecast's end
 * @members: what may hold of a bush, or NULL for the ones that ship
 * @n_draws: courses of weather drawn for each member, 1 to 64
 * @seed: of the draws
 * @is_south: midwinter is in July
 */
typedef struct
{
  const FrAirHours *air;
  FrDate as_of;
  gint gather_hour;
  guint n_groups;
  const FrTapGroup *groups;
  FrDate tapped;
  guint n_gathered;
  const FrSapGathered *gathered;
  FrForecastError errors;
  guint n_past;
  const FrAirHours *const *past;
  const FrSapMembers *members;
  guint n_draws;
  guint64 seed;
  gboolean is_south;
} FrForecastQuestion;

/* Of a number that is not known for sure: the middle, 5 in 10, 8 in 10, and the mean. All NAN when there is none. */
typedef struct
{
  double lo_l;
  double quarter_lo_l;
  double middle_l;
  double quarter_hi_l;
  double hi_l;
  double mean_l;
} FrLitres;

/**
 * FrForecastDay:
 * @is_ahead: it ends after the gathering hour of as_of
 * @is_beyond: some of its hours are later than the forecast knows; it is then told by past seasons, or all NAN
 * @low_c, @high_c: of its hours; @low_lo_c … @high_hi_c: 8 in 10; equal to them for what was observed
 * @frozen_h: hours below 0 °C; @thaw_h: hours above 1 °C
 * @run_probability: NAN when the weather is not known
 * @per_tap: litres a tap
 * @bush: litres of all taps together; NAN without taps
 * @gathered_l: what came in a tap on that day, NAN when nothing is written down; @gathered_days: over so many days
 * @so_far: of all taps (of one, without groups) since the first was set: gathered up to as_of, expected after
 * @tapped_days: days since the first hole was drilled, NAN before
 * @warmth_k_days: degree days above 5 °C since midwinter at its end
 */
typedef struct
{
  FrDate date;
  gboolean is_ahead;
  gboolean is_beyond;
  double low_c, low_lo_c, low_hi_c;
  double high_c, high_lo_c, high_hi_c;
  double frozen_h;
  double thaw_h;
  double run_probability;
  FrLitres per_tap;
  FrLitres bush;
  double gathered_l;
  double gathered_days;
  FrLitres so_far;
  double tapped_days;
  double warmth_k_days;
} FrForecastDay;

/**
 * FrForecast:
 * @days: from the day after the first tap (or as_of without one) to the last that the weather knows, and with past seasons on
 *   to FR_SEASON_DAYS after midwinter, but no further; each date once
 * @n_taps: of all groups, 1 without
 * @gathered_l: of all taps up to as_of, as written down
 * @to_come: of all taps after as_of to the last of @days: the season's end only where past seasons stand in
 * @n_past: seasons that stood in
 * @over_probability: that no day after as_of brings a run any more; without past seasons only what lies within the weather
 *   counts, and that warmth has taken all but a twentieth after it; NAN when no day ahead is known, 1 after FR_SEASON_DAYS
 * @off_flavour_probability: that the buds have moved so far by as_of that sap may taste of them
 * @gain_before, @gain_after: litres a tap for a unit: before and after the bush's own litres: lo, middle, hi
 * @n_learned: gatherings that it learned from
 * @ran_ratio: litres of these gatherings over what the unlearned model makes of their days, NAN without any
 * @raised_ratio: what the gatherings made of the forecast: middle after over middle before
 */
typedef struct
{
  guint n_days;
  FrForecastDay *days;
  FrDate as_of;
  guint n_taps;
  double gathered_l;
  FrLitres to_come;
  guint n_past;
  double over_probability;
  double off_flavour_probability;
  double gain_before_l[3];
  double gain_after_l[3];
  guint n_learned;
  double ran_ratio;
  double raised_ratio;
} FrForecast;

/* Never NULL; without weather there are no days. */
FrForecast *
fr_forecast_new (const FrForecastQuestion *question);
void
fr_forecast_free (FrForecast *forecast);
/* Litres at which a span's distribution is given, but for the first. */
#define FR_FORECAST_STEPS 170

/**
 * FrForecastSpan:
 * What all days of a span bring together.
 * @span_days: its length
 * @per_tap: litres a tap; NAN when the weather of one of its days is not known
 * @per_day: the same by day
 * @run_probability: that a day of it brings a run on average
 * @n_learned: gatherings that it learned from
 * @at_l, @below_ratio: litres a tap and day, rising from 0, and how likely less came
 */
typedef struct
{
  double span_days;
  FrLitres per_tap;
  FrLitres per_day;
  double run_probability;
  guint n_learned;
  double at_l[FR_FORECAST_STEPS + 1];
  double below_ratio[FR_FORECAST_STEPS + 1];
} FrForecastSpan;

/**
 * fr_forecast_span:
 * @question: as for fr_forecast_new
 * @date: at whose gathering hour the span ends
 * @span_days: above 0
 *
 * Answers for a span by the mixture that answers for a day.
 */
void
fr_forecast_span (const FrForecastQuestion *question, FrDate date, double span_days, FrForecastSpan *span_out);

/* The day, or NULL. */
const FrForecastDay *
fr_forecast_day (const FrForecast *forecast, FrDate date);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrForecast, fr_forecast_free)

G_END_DECLS
