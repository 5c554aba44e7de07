/* Which day a key leads to, in drawings whose days are walked by keyboard. */
#pragma once

#include <gtk/gtk.h>

#include "domain/units/calendar.h"

G_BEGIN_DECLS

/* What a date of none is in a signal. */
#define FR_NO_DAY G_MININT64

/**
 * fr_day_walk:
 * Left and right a day, Page a month, Home and End the first and the last day; in a grid of weeks up and down
 * a week.
 * @from: the day it starts at
 * @first, @last: the days that can be reached; farther is the nearest of them
 * @home, @end: where Home and End lead
 * @is_grid: up and down count, and in @right_to_left left is forward
 *
 * Returns: FALSE when the key leads to no day
 */
gboolean
fr_day_walk (guint keyval, FrDate from, FrDate first, FrDate last, FrDate home, FrDate end, gboolean is_grid,
             gboolean right_to_left, FrDate *to_out);

/* So many months on, on the same day or the month's last. */
FrDate
fr_day_add_months (FrDate date, gint months);

G_END_DECLS
