/* When to tap: what a hole drilled on each of many dates is likely to give by the season's end, and which
 * date is best.
 *
 * Every member that may hold of a bush is run once over each season that may come: this year's weather as far
 * as it is observed or forecast, then each past season in turn. A hole drilled at noon of a date gathers from
 * the next day on and ages from then, as in forecast.h, each member at its own pace; so early holes catch
 * more runs and late ones are fresher.
 *
 * The rule: of the dates from as_of on, the latest whose expected total is within FR_TAP_DATE_WITHIN_RATIO of
 * the greatest. A hole cannot be made younger again, but it can still be drilled tomorrow. */
#pragma once

#include "domain/plan/forecast.h"

G_BEGIN_DECLS

#define FR_TAP_DATE_WITHIN_RATIO 0.01
/* Dates looked at: from so many days before as_of to so many after, and at least those so many days after
 * midwinter: late January to mid April, in the south half a year later. */
#define FR_TAP_DATE_BEFORE_D 15
#define FR_TAP_DATE_AFTER_D 60
#define FR_TAP_DATE_FROM_D 25
#define FR_TAP_DATE_TO_D 104
#define FR_TAP_DATE_WEEK_D 7

/* Why that date, or why none. */
typedef enum
{
  FR_TAP_DATE_UNKNOWN, /* none: neither past seasons nor a run within the weather */
  FR_TAP_DATE_FROZEN,  /* later than as_of: next to nothing runs before it */
  FR_TAP_DATE_AGEING, /* later than as_of: some sap runs before it, but less than the older hole would lose */
  FR_TAP_DATE_RUN_NEAR,      /* as_of: a run is likely within the forecast */
  FR_TAP_DATE_RUNNING,       /* as_of: sap ran within the last three days */
  FR_TAP_DATE_WAITING_LOSES, /* as_of: by past seasons, each day of waiting costs more than an older hole */
  FR_TAP_DATE_TOO_LATE, /* none: less than a fifth of what the season gave is left, or it is past mid-April
                           and no run is in sight */
  FR_N_TAP_DATE_WHYS
} FrTapDateWhy;

/**
 * FrTapDate:
 * @is_past: before as_of: what a hole of that day would have given
 * @total: litres of a tap to the season's end, or without past seasons to the end of the weather
 */
typedef struct
{
  FrDate date;
  gboolean is_past;
  FrLitres total;
} FrTapDate;

/**
 * FrTapDateShift:
 * Tapping a week off the recommended date.
 * @loss_l: what that loses a tap, expected; below 0 when it gains; NAN when that date is not among the dates
 * @loss_ratio: of the recommended date's expected total
 * @better_probability: that it turns out better all the same
 */
typedef struct
{
  double loss_l;
  double loss_ratio;
  double better_probability;
} FrTapDateShift;

/**
 * FrTapDates:
 * @dates: a day apart; none before the weather begins, and none without weather
 * @best: number of the date from as_of on with the greatest expected total, −1 for none
 * @recommended: number of the date to tap on, −1 for none
 * @early, @late: a week before and after @recommended; all NAN without it
 * @first_run: the first day after as_of on which a new hole is expected to give FR_RUN_L, year 0 for none
 * @is_first_run_forecast: it lies within the weather, not in past seasons
 * @is_season_known: past seasons stand in; otherwise only days that the weather knows count
 * @n_past: how many
 * @n_gap_days: days from the first of @dates to the weather's end with an unknown hour, on which nothing is
 * taken to run
 */
typedef struct
{
  guint n_dates;
  FrTapDate *dates;
  FrDate as_of;
  gint best;
  gint recommended;
  FrTapDateWhy why;
  FrTapDateShift early;
  FrTapDateShift late;
  FrDate first_run;
  gboolean is_first_run_forecast;
  gboolean is_season_known;
  guint n_past;
  guint n_gap_days;
} FrTapDates;

/**
 * fr_tap_dates_new:
 * @question: of its groups only the mean yield of a tap counts; its gatherings teach as they do a forecast
 *
 * Never NULL.
 */
FrTapDates *
fr_tap_dates_new (const FrForecastQuestion *question);
void
fr_tap_dates_free (FrTapDates *dates);
/* Of the recommended date; year 0 for none. */
FrDate
fr_tap_dates_recommended (const FrTapDates *dates);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrTapDates, fr_tap_dates_free)

G_END_DECLS
