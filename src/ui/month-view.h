/* A month of the season as a grid of days, drawn. A click or the arrow keys select a day (left and right one,
 * up and down a week, Page a month, Home and End the month's first and last); the month follows. Enter or a
 * double click opens it, Escape lets go. Days before and after the view's are there too, as far as the season
 * reaches.
 *
 * Signals:
 * - "day-selected" (gint64): the day by fr_date_to_days(), FR_NO_DAY when it is let go; by the person, not by
 * set_selected
 * - "day-activated" (gint64): it is to be opened
 * - "month-changed" (): another month is shown */
#pragma once

#include "ui/day-walk.h"
#include "ui/season-scene.h"

G_BEGIN_DECLS

#define FR_TYPE_MONTH_VIEW (fr_month_view_get_type ())
G_DECLARE_FINAL_TYPE (FrMonthView, fr_month_view, FR, MONTH_VIEW, GtkWidget)

GtkWidget *
fr_month_view_new (void);

/**
 * fr_month_view_set:
 * @view: (nullable): borrowed until the next call; NULL: nothing is drawn
 * @say: borrowed for the call; may be NULL with @view
 *
 * The selected day and the month stay; the first time, and when the season is another, the month is today's
 * or the season's last one with a day.
 */
void
fr_month_view_set (FrMonthView *self, const FrSeasonView *view, const FrSay *say);

/* Year 0: none. Shows the day's month. */
void
fr_month_view_set_selected (FrMonthView *self, FrDate date);
FrDate
fr_month_view_get_selected (FrMonthView *self);

/* The month shown, its first day; year 0 before there is a view. One beyond the season is not taken. */
FrDate
fr_month_view_get_month (FrMonthView *self);
void
fr_month_view_set_month (FrMonthView *self, FrDate first);
/* Whether there is a month so many on from the one shown. */
gboolean
fr_month_view_can_step (FrMonthView *self, gint months);
void
fr_month_view_step (FrMonthView *self, gint months);

/* Where a day is in the widget, for tests and pop-ups. FALSE when it is not shown. */
gboolean
fr_month_view_get_day (FrMonthView *self, FrDate date, GdkRectangle *day_out);

G_END_DECLS
