/* A month as a grid of days: date, litres, the span of the day across a freezing tick, nights at the stove,
 * bottles, a note, and how full the store is. Filled is known, outlined expected. The order in a cell never
 * changes; what is missing leaves a gap. Plain arguments in, cairo out.
 *
 * Made for cells of 96×84 px and more at text scale 1. In lower cells the two temperatures go first, then the
 * row of marks, then the pill; in narrower ones the gauge, the note, the bottle, the pan; and of the litres
 * first the unit, then the number. The date stays. It draws no ground: the cells lie on the window. */
#pragma once

#include "domain/plan/season.h"
#include "paint/label.h"

#define FR_MONTH_CELL_WIDTH_PX 96
#define FR_MONTH_CELL_HEIGHT_PX 84
#define FR_MONTH_MOST_WEEKS 6

/* What makes a day special, in words under its cell: "clocks go forward", "holiday, low all day". */
typedef struct
{
  FrDate date;
  const char *words;
} FrMonthWord;

/**
 * FrMonth:
 * @first_weekday: of the columns, 1 Monday to 7 Sunday
 * @view: the days; those of the month it does not have are bare
 * @units: of the numbers; NULL is metric
 * @weekdays: seven names, Monday first
 * @today, @selected, @hovered: year 0 is none
 * @is_focused: the keyboard is on the selected day
 * @right_to_left: the first column is the right one
 */
typedef struct
{
  gint year;
  gint month;
  gint first_weekday;
  const FrSeasonView *view;
  const FrUnits *units;
  const char *const *weekdays;
  const FrMonthWord *words;
  gsize n_words;
  FrDate today;
  FrDate selected;
  FrDate hovered;
  gboolean is_focused;
  gboolean right_to_left;
} FrMonth;

/**
 * FrMonthLayout:
 * @lead: empty cells before the first day
 * @row_y_px: upper edges of the weeks; @words_px: height kept for words under each
 */
typedef struct
{
  gint year;
  gint month;
  guint n_days;
  guint n_weeks;
  guint lead;
  gboolean right_to_left;
  double x_px;
  double cell_width_px;
  double cell_height_px;
  double gap_px;
  double row_y_px[FR_MONTH_MOST_WEEKS];
  double words_px[FR_MONTH_MOST_WEEKS];
} FrMonthLayout;

/* The layout without drawing. */
FrMonthLayout
fr_month_layout (PangoContext *context, const FrMonth *month, double width_px, double height_px,
                 double text_scale);

/**
 * fr_month_draw:
 * @labels: (nullable): a list of #FrLabelBox to add every text to
 *
 * Returns: the layout it was drawn in
 */
FrMonthLayout
fr_month_draw (cairo_t *cr, PangoContext *context, const FrPalette *palette, const FrMonth *month,
               double width_px, double height_px, double text_scale, GArray *labels);

/* The day under a point. FALSE between and beside the cells. */
gboolean
fr_month_layout_at (const FrMonthLayout *layout, double x_px, double y_px, FrDate *date);

/* A day's cell, for a focus ring. FALSE when it is not of this month. */
gboolean
fr_month_layout_cell (const FrMonthLayout *layout, FrDate date, cairo_rectangle_t *cell);
