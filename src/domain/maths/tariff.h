/* Price of electricity by season, day type and clock time.
 *
 * A tariff is a set of seasons (date ranges within a year, both ends inclusive, that may wrap the new year), each with
 * periods [from, to) on the local clock for a day type. A weekday period list must cover 00:00 to 24:00 exactly once;
 * a period may cross midnight ("19:00" to "07:00") and then is split. A date in no season, or in two, is an error.
 * Holidays take the "holiday" periods if the season has them, else the weekend ones. Saturday and Sunday take their own
 * lists if given, else "weekend", else "all"; weekdays take "weekday", else "all". A season that has no "weekend" list
 * treats a holiday as a Sunday. A season's edge on 02-29 means the last day of February; a tariff need not fill the
 * year, but no day may lie in two seasons.
 * Prices are minor units per kWh; adder_per_kwh is added to every price and the sum is multiplied by 1 + tax_ratio.
 *
 * Kept and edited as text, one period a line:
 *   11-01 04-30 weekday 19:00 07:00 9.8
 * Day types: weekday, saturday, sunday, weekend, holiday, all. Blank lines and lines starting with # are passed over. */
#pragma once

#include "domain/units/zone.h"

G_BEGIN_DECLS

typedef enum
{
  FR_DAYS_WEEKDAY,
  FR_DAYS_SATURDAY,
  FR_DAYS_SUNDAY,
  FR_DAYS_WEEKEND,
  FR_DAYS_HOLIDAY,
  FR_DAYS_ALL,
  FR_N_DAYS
} FrDays;

typedef struct
{
  gint from_month, from_day, to_month, to_day; /* inclusive; may wrap the year */
  FrDays days;
  gint from_min, to_min; /* minutes of the local clock; to_min may be 1440; to < from crosses midnight */
  double price_per_kwh;  /* minor units, before adder and tax */
} FrTariffPeriod;

typedef struct _FrTariff FrTariff;

typedef enum
{
  FR_TARIFF_OK,
  FR_TARIFF_BAD_LINE,     /* @line cannot be read */
  FR_TARIFF_GAP,          /* a day type is not covered: @season_line, @days, @minute */
  FR_TARIFF_OVERLAP,      /* covered twice */
  FR_TARIFF_NO_SEASON,    /* @date lies in no season */
  FR_TARIFF_TWO_SEASONS,  /* @date lies in two */
  FR_TARIFF_NO_DAYS,      /* a season says nothing of a day type: @days */
  FR_TARIFF_BAD_NUMBER,   /* price, adder or tax not finite or out of range */
  FR_TARIFF_EMPTY
} FrTariffCode;

/**
 * FrTariffProblem:
 * @code: what is wrong
 * @line: 1-based line or period, 0 when not about one; for GAP and NO_DAYS the season's first line
 * @days: the day type, FR_N_DAYS when not about one; BAD_LINE with FR_DAYS_HOLIDAY is a line of the holidays text
 * @minute: first minute of the local day not covered, or covered twice
 * @date: the date without a season; with TWO_SEASONS its year is 0, since it is so every year
 */
typedef struct
{
  FrTariffCode code;
  guint line;
  FrDays days;
  gint minute;
  FrDate date;
} FrTariffProblem;

/* @periods are copied. @holidays is a list of dates. adder_per_kwh in minor units, tax_ratio 0.13 for 13 %.
 * NULL and *problem_out when the day types are not covered exactly once. */
FrTariff *fr_tariff_new (const FrTariffPeriod *periods, guint n_periods, const FrDate *holidays, guint n_holidays,
                         double adder_per_kwh, double tax_ratio, FrTariffProblem *problem_out);
/* From the kept text. Holidays are ISO dates, apart by spaces, commas or new lines; lines with # are passed over. */
FrTariff *fr_tariff_parse (const char *periods_text, const char *holidays_text, double adder_per_kwh,
                           double tax_ratio, FrTariffProblem *problem_out);
FrTariff *fr_tariff_copy (const FrTariff *tariff);
void fr_tariff_free (FrTariff *tariff);

/* The word used in the text; NULL for FR_N_DAYS. */
const char *fr_days_code (FrDays days);
gboolean fr_days_from_code (const char *code, FrDays *days_out);

/* The price at an instant and how long it holds: *listed_out before, *full_out after adder and tax (minor units per kWh);
 * *until_utc_out is the first later instant at which the listed price differs or the local day ends. */
gboolean fr_tariff_price (const FrTariff *tariff, const FrZoneTable *zone, gint64 utc_s, double *listed_out,
                          double *full_out, gint64 *until_utc_out, FrTariffProblem *problem_out);

/* TRUE when some day of a leap year lies in no season; *date_out is the first, its year 0. */
gboolean fr_tariff_has_open_date (const FrTariff *tariff, FrDate *date_out);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrTariff, fr_tariff_free)

G_END_DECLS
