/* The marks of season and month: a pan for a night at the stove, a bottle, a note, the span of a day as a
 * pill across the freezing line. Filled is known, outlined expected. Private to this room. */
#pragma once

#include "paint/palette.h"

/* @x_px: its middle; @y_px: its upper edge; the height is 1.35 of the width. */
void
fr_mark_pan (const FrPalette *palette, cairo_t *cr, double x_px, double y_px, double width_px,
             gboolean is_expected);
void
fr_mark_bottle (const FrPalette *palette, cairo_t *cr, double x_px, double y_px, double width_px);
/* A sheet with lines on it. */
void
fr_mark_note (const FrPalette *palette, cairo_t *cr, double x_px, double y_px, double width_px);
/* A triangle on its point, @y_px; taps pulled: standing, outlined. */
void
fr_mark_tap (const FrPalette *palette, cairo_t *cr, double x_px, double y_px, double width_px,
             gboolean is_pulled);

/* One half of a span: a box with the two corners away from the freezing line rounded. @from_px is the
 * freezing line's end, or the end nearer to it; equal ends give a mark 2 px long. */
void
fr_mark_span (const FrPalette *palette, cairo_t *cr, gboolean is_upright, double across_px, double width_px,
              double from_px, double to_px, FrRole role, gboolean is_expected, gboolean starts_at_line);
/* A capsule of an expected amount, upright: lowest to highest, the middle as a bar through it (NAN: none). */
void
fr_mark_capsule (const FrPalette *palette, cairo_t *cr, double x_px, double width_px, double low_px,
                 double middle_px, double high_px, FrRole role);
