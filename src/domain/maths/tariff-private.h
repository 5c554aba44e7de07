/* Shared by the tariff files only: making (tariff.c), reading (tariff-parse.c) and looking up
 * (tariff-price.c). */
#pragma once

#include "domain/maths/tariff.h"

G_BEGIN_DECLS

#define DAY_MIN 1440

typedef struct
{
  gint from_min, to_min;
  double price_per_kwh;
  guint line;
} Slice;

typedef struct
{
  guint n_slices;
  Slice *slices;
} DayList;

typedef struct
{
  gint from_day, to_day; /* month * 32 + day */
  guint first_line;
  DayList lists[FR_N_DAYS];
} Season;

struct _FrTariff
{
  guint n_seasons;
  Season *seasons;
  guint n_holidays;
  gint64 *holidays; /* days since 1970, sorted */
  double adder_per_kwh;
  double tax_ratio;
};

static inline gint
fr_tariff_day_number (gint month, gint day)
{
  return month * 32 + day;
}

/* As fr_tariff_new; @lines says on which line of the text each period stands, NULL counts the periods. */
FrTariff *fr_tariff_build (const FrTariffPeriod *periods, const guint *lines, guint n_periods, const FrDate *holidays,
                 guint n_holidays, double adder_per_kwh, double tax_ratio, FrTariffProblem *problem_out);

/* Fills in a problem about nothing but @line. */
void fr_tariff_problem_set (FrTariffProblem *problem, FrTariffCode code, guint line);

/* Order of days since 1970, for sorting and searching. */
int fr_tariff_compare_days (const void *a, const void *b);

/* Which of the season's lists speaks for a day; FR_N_DAYS when none does. @days is weekday, Saturday, Sunday
 * or holiday. */
FrDays fr_tariff_list_for (const Season *season, FrDays days);

/* How many seasons hold a day of the year; the last of them in *season_out. */
guint fr_tariff_count_seasons (const FrTariff *tariff, gint month, gint day, const Season **season_out);

G_END_DECLS
