/* The kept text of a tariff: one period a line, and a list of holidays.
 *
 * Strict and free of locale: what cannot be read is told with its line. A decimal comma, a number with an
 * exponent and an extra word are refused rather than guessed at. */
#include "domain/maths/tariff-private.h"

#include <string.h>

static const char *const day_codes[] = {
  [FR_DAYS_WEEKDAY] = "weekday", [FR_DAYS_SATURDAY] = "saturday", [FR_DAYS_SUNDAY] = "sunday",
  [FR_DAYS_WEEKEND] = "weekend", [FR_DAYS_HOLIDAY] = "holiday",   [FR_DAYS_ALL] = "all",
};

const char *
fr_days_code (FrDays days)
{
  return (guint)days < FR_N_DAYS ? day_codes[days] : NULL;
}

gboolean
fr_days_from_code (const char *code, FrDays *days_out)
{
  g_return_val_if_fail (days_out != NULL, FALSE);

  *days_out = FR_N_DAYS;
  for (guint i = 0; code != NULL && i < FR_N_DAYS; i++)
    if (strcmp (code, day_codes[i]) == 0)
      {
        *days_out = (FrDays)i;
        return TRUE;
      }
  return FALSE;
}

/* "MM-DD". Read as a day of a leap year, so that 02-29 may be an edge. */
static gboolean
read_year_day (const char *word, gint *month_out, gint *day_out)
{
  g_autofree char *iso = g_strconcat ("2000-", word, NULL);
  FrDate date;

  if (!fr_date_parse (iso, &date))
    return FALSE;
  *month_out = date.month;
  *day_out = date.day;
  return TRUE;
}

static gboolean
read_price (const char *word, double *price_out)
{
  const char *digits = word[0] == '-' ? word + 1 : word;
  const gsize whole = strspn (digits, "0123456789");
  gsize length = whole;

  if (whole == 0)
    return FALSE;
  if (digits[length] == '.')
    {
      const gsize part = strspn (digits + length + 1, "0123456789");

      if (part == 0)
        return FALSE;
      length += 1 + part;
    }
  if (digits[length] != '\0')
    return FALSE;
  *price_out = g_ascii_strtod (word, NULL);
  return TRUE;
}

/* Words of a line without the empty ones that runs of blanks leave. */
static char **
split_words (const char *line, const char *apart)
{
  char **words = g_strsplit_set (line, apart, -1);
  guint kept = 0;

  for (guint i = 0; words[i] != NULL; i++)
    {
      if (words[i][0] == '\0')
        g_free (words[i]);
      else
        words[kept++] = words[i];
    }
  words[kept] = NULL;
  return words;
}

static gboolean
read_period (const char *line, FrTariffPeriod *period_out)
{
  g_auto (GStrv) words = split_words (line, " \t\r");

  return g_strv_length (words) == 6
         && read_year_day (words[0], &period_out->from_month, &period_out->from_day)
         && read_year_day (words[1], &period_out->to_month, &period_out->to_day)
         && fr_days_from_code (words[2], &period_out->days)
         && fr_clock_parse (words[3], &period_out->from_min) && fr_clock_parse (words[4], &period_out->to_min)
         && read_price (words[5], &period_out->price_per_kwh);
}

static gboolean
is_passed_over (const char *line)
{
  const char *start = line + strspn (line, " \t\r");

  return *start == '\0' || *start == '#';
}

static gboolean
read_periods (const char *text, GArray *periods, GArray *line_numbers, FrTariffProblem *problem_out)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);

  for (guint i = 0; lines[i] != NULL; i++)
    {
      FrTariffPeriod period;
      const guint number = i + 1;

      if (is_passed_over (lines[i]))
        continue;
      if (!read_period (lines[i], &period))
        {
          fr_tariff_problem_set (problem_out, FR_TARIFF_BAD_LINE, number);
          return FALSE;
        }
      g_array_append_val (periods, period);
      g_array_append_val (line_numbers, number);
    }
  return TRUE;
}

static gboolean
read_holidays (const char *text, GArray *holidays, FrTariffProblem *problem_out)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);

  for (guint i = 0; lines[i] != NULL; i++)
    {
      g_auto (GStrv) words = NULL;

      if (is_passed_over (lines[i]))
        continue;
      words = split_words (lines[i], " \t\r,");
      for (guint j = 0; words[j] != NULL; j++)
        {
          FrDate date;

          if (!fr_date_parse (words[j], &date))
            {
              fr_tariff_problem_set (problem_out, FR_TARIFF_BAD_LINE, i + 1);
              problem_out->days = FR_DAYS_HOLIDAY;
              return FALSE;
            }
          g_array_append_val (holidays, date);
        }
    }
  return TRUE;
}

FrTariff *
fr_tariff_parse (const char *periods_text, const char *holidays_text, double adder_per_kwh, double tax_ratio,
                 FrTariffProblem *problem_out)
{
  g_autoptr (GArray) periods = g_array_new (FALSE, FALSE, sizeof (FrTariffPeriod));
  g_autoptr (GArray) lines = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autoptr (GArray) holidays = g_array_new (FALSE, FALSE, sizeof (FrDate));
  FrTariffProblem problem;
  FrTariff *tariff = NULL;

  if (read_periods (periods_text != NULL ? periods_text : "", periods, lines, &problem)
      && read_holidays (holidays_text != NULL ? holidays_text : "", holidays, &problem))
    tariff = fr_tariff_build (
        (const FrTariffPeriod *)(gpointer)periods->data, (const guint *)(gpointer)lines->data, periods->len,
        (const FrDate *)(gpointer)holidays->data, holidays->len, adder_per_kwh, tax_ratio, &problem);
  if (problem_out != NULL)
    *problem_out = problem;
  return tariff;
}
