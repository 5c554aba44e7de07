/* Round scales. The step is the smallest of 1, 2, 2.5 and 5 times a power of ten that does the job, found by
 * trying them in order: a scale is read off by people, and these are the steps they count in. Exact to the
 * last digit of a double for any finite range; a tick is index times step, never a running sum. */
#include "paint/axis.h"

#include <math.h>
#include <string.h>

static const double steps[] = { 1.0, 2.0, 2.5, 5.0 };

/* With one or two steps the ends matter more than the steps: 6 and 3 + 3 are round ends too. */
static const double steps_one[] = { 1.0, 2.0, 5.0, 6.0 };
static const double steps_two[] = { 1.0, 2.5, 3.0, 5.0 };

/* A range that ends on a tick must not get one more step because of the last bit. */
#define SLACK 1e-9

static void
set_step (FrAxis *axis, double mantissa, int exponent)
{
  axis->step_value = exponent < 0 ? mantissa / pow (10.0, -exponent) : mantissa * pow (10.0, exponent);
  int decimals = -exponent + (mantissa == 2.5 ? 1 : 0);
  axis->decimals = (guint)MAX (decimals, 0);
}

gboolean
fr_axis_round (double low_value, double high_value, guint most_intervals, FrAxis *axis)
{
  *axis = (FrAxis){ 0.0, 1.0, 1.0, 1, 0 };
  if (!isfinite (low_value) || !isfinite (high_value) || low_value > high_value || most_intervals < 2)
    return FALSE;

  double span = high_value - low_value;
  if (span == 0)
    span = MAX (fabs (high_value), 1.0) * 1e-3;
  int exponent = (int)floor (log10 (span / most_intervals)) - 1;
  for (guint tries = 0; tries < 16; tries++)
    {
      FrAxis a = { 0 };
      set_step (&a, steps[tries % 4], exponent + (int)(tries / 4));
      double first = floor (low_value / a.step_value + SLACK);
      double last = ceil (high_value / a.step_value - SLACK);
      if (last <= first)
        last = first + 1;
      if (last - first > most_intervals)
        continue;
      a.low_value = first * a.step_value;
      a.high_value = last * a.step_value;
      a.n_intervals = (guint)(last - first);
      *axis = a;
      return TRUE;
    }
  return FALSE;
}

gboolean
fr_axis_from_zero (double high_value, guint n_intervals, FrAxis *axis)
{
  g_return_val_if_fail (n_intervals > 0, FALSE);

  *axis = (FrAxis){ 0.0, n_intervals, 1.0, n_intervals, 0 };
  if (!isfinite (high_value) || high_value <= 0)
    return FALSE;

  int exponent = (int)floor (log10 (high_value / n_intervals)) - 1;
  const double *tried = n_intervals == 1 ? steps_one : n_intervals == 2 ? steps_two : steps;
  for (guint tries = 0; tries < 16; tries++)
    {
      FrAxis a = { .n_intervals = n_intervals };
      set_step (&a, tried[tries % 4], exponent + (int)(tries / 4));
      a.high_value = a.step_value * n_intervals;
      if (a.high_value < high_value * (1 - SLACK))
        continue;
      *axis = a;
      return TRUE;
    }
  return FALSE;
}

void
fr_axis_apart (double low_value, double high_value, double most_steps, FrAxis *axis)
{
  fr_axis_from_zero (1, 1, axis);
  for (guint most = 2; most <= 8; most++)
    {
      FrAxis tried;
      if (fr_axis_round (low_value, high_value, most, &tried)
          && (most == 2 || tried.step_value * most_steps >= high_value - low_value))
        *axis = tried;
    }
}

double
fr_axis_ratio (const FrAxis *axis, double value)
{
  return (value - axis->low_value) / (axis->high_value - axis->low_value);
}

double
fr_axis_tick (const FrAxis *axis, guint index)
{
  double first = round (axis->low_value / axis->step_value);

  return (first + index) * axis->step_value;
}

char *
fr_axis_text (const FrAxis *axis, guint index, const char *decimal_mark)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];
  double value = fr_axis_tick (axis, index);
  g_autofree char *format = g_strdup_printf ("%%.%uf", MIN (axis->decimals, 12));

  if (fabs (value) < axis->step_value * 1e-6)
    return g_strdup ("0");
  g_ascii_formatd (buffer, sizeof buffer, format, fabs (value));
  const char *point = strchr (buffer, '.');
  const char *sign = value < 0 ? "−" : "";
  if (point == NULL)
    return g_strconcat (sign, buffer, NULL);
  return g_strdup_printf ("%s%.*s%s%s", sign, (int)(point - buffer), buffer,
                          decimal_mark ? decimal_mark : ".", point + 1);
}
