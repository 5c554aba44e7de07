/* A column a season, its value above and its name below: litres of a tree, litres of the bush. No axis: the
 * numbers are on the columns. Plain arguments in, cairo out. */
#pragma once

#include "paint/label.h"

/**
 * FrBar:
 * @value: the height; NAN is unknown: a dash at the foot
 * @value_text: above the column, "34"; may be NULL
 * @note: under the value's text inside the column where it fits, "2.1 °Bx"; may be NULL
 * @label: under the column, "’24"
 * @is_open: unfinished: hatched outline instead of solid
 * @is_chosen: accent ring
 */
typedef struct
{
  double value;
  const char *value_text;
  const char *note;
  const char *label;
  gboolean is_open;
  gboolean is_chosen;
} FrBar;

/**
 * FrBarsView:
 * @role: the colour of the columns
 * @empty_sentence: shown when no column has a value; may be NULL
 */
typedef struct
{
  const FrBar *bars;
  gsize n_bars;
  FrRole role;
  const char *empty_sentence;
} FrBarsView;

/**
 * fr_bars_draw:
 * Texts that have no room are left out: notes, then every second label and value. The chosen and the last
 * column keep theirs.
 */
void
fr_bars_draw (cairo_t *cr, PangoContext *context, const FrPalette *palette, const FrBarsView *view,
              double width_px, double height_px, double text_scale, GArray *labels);

/* The column at @x_px, or -1 beside all of them. */
gssize
fr_bars_at (const FrBarsView *view, double width_px, double x_px);
