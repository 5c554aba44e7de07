/* The whole season, drawn. A click or the arrow keys select a day (left and right one, Page a month, Home and
 * End the first and the last); Enter or a double click opens it, Escape lets go.
 *
 * Signals:
 * - "day-selected" (gint64): the day by fr_date_to_days(), FR_NO_DAY when it is let go; by the person, not by
 * set_selected
 * - "day-activated" (gint64): it is to be opened */
#pragma once

#include "ui/day-walk.h"
#include "ui/season-scene.h"

G_BEGIN_DECLS

#define FR_TYPE_SEASON_STRIP_VIEW (fr_season_strip_view_get_type ())
G_DECLARE_FINAL_TYPE (FrSeasonStripView, fr_season_strip_view, FR, SEASON_STRIP_VIEW, GtkWidget)

GtkWidget *
fr_season_strip_view_new (void);

/**
 * fr_season_strip_view_set:
 * @view: (nullable): borrowed until the next call; NULL: nothing is drawn
 * @past: (nullable) (element-type FrSeasonView): other seasons for comparison, copied
 * @say: borrowed for the call; may be NULL with @view
 *
 * The selected day stays.
 */
void
fr_season_strip_view_set (FrSeasonStripView *self, const FrSeasonView *view, const GPtrArray *past,
                          const FrSay *say);

/* Year 0: none. A day that the view does not have is kept and not shown. */
void
fr_season_strip_view_set_selected (FrSeasonStripView *self, FrDate date);
FrDate
fr_season_strip_view_get_selected (FrSeasonStripView *self);

/* Where a day is in the widget, for tests and pop-ups. FALSE when it is not shown. */
gboolean
fr_season_strip_view_get_day (FrSeasonStripView *self, FrDate date, GdkRectangle *day_out);

G_END_DECLS
