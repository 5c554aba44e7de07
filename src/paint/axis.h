/* From a range of values to a scale: round ticks and positions 0 to 1. Knows no units and no pixels. */
#pragma once

#include <glib.h>

/**
 * FrAxis:
 * @low_value, @high_value: the ends, both whole multiples of @step_value
 * @n_intervals: how many steps lie between; there is one tick more
 * @decimals: how many a tick needs to be written exactly
 */
typedef struct
{
  double low_value;
  double high_value;
  double step_value;
  guint n_intervals;
  guint decimals;
} FrAxis;

/**
 * fr_axis_round:
 * The scale with the smallest step out of 1, 2, 2.5, 5 times a power of ten that covers @low_value to
 * @high_value in at most
 * @most_intervals steps.
 *
 * Returns: FALSE and an axis 0 to 1 when a value is not finite, the order is wrong or @most_intervals is
 * under 2 (one step cannot hold both sides of a round number)
 */
gboolean
fr_axis_round (double low_value, double high_value, guint most_intervals, FrAxis *axis);

/**
 * fr_axis_from_zero:
 * The smallest round scale from 0 with exactly @n_intervals steps that reaches @high_value; so that two
 * scales can share their grid lines.
 *
 * Returns: FALSE and an axis 0 to @n_intervals when @high_value is not finite or not above 0
 */
gboolean
fr_axis_from_zero (double high_value, guint n_intervals, FrAxis *axis);

/**
 * fr_axis_apart:
 * The scale with the smallest round step of which at most @most_steps, at least 2, go into the range, so that
 * their numbers stand apart; both its ends may lie beyond @low_value and @high_value. An axis 0 to 1 when
 * there is none.
 */
void
fr_axis_apart (double low_value, double high_value, double most_steps, FrAxis *axis);

/**
 * fr_axis_ratio:
 * Where @value lies: 0 at the low end, 1 at the high one; outside the scale below 0 or above 1, NAN for NAN.
 */
double
fr_axis_ratio (const FrAxis *axis, double value);

/**
 * fr_axis_tick:
 * The value of tick @index, 0 to n_intervals.
 */
double
fr_axis_tick (const FrAxis *axis, guint index);

/**
 * fr_axis_text:
 * The tick as text, zero without decimals, with a real minus sign and @decimal_mark (NULL is "."). Caller
 * frees.
 */
char *
fr_axis_text (const FrAxis *axis, guint index, const char *decimal_mark);
