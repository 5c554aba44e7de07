/* The marks, drawn from a few points each. An expected mark has the same outline and a pale filling, so that
 * it reads without colour. */
#include "paint/season-marks.h"

#include <math.h>

#define PALE_RATIO 0.16
#define ROUND_PX 4.0

void
fr_mark_pan (const FrPalette *palette, cairo_t *cr, double x_px, double y_px, double width_px,
             gboolean is_expected)
{
  double half = width_px / 2, foot = 0.6 * half, height = 1.35 * width_px;
  double line = MIN (1.6, 0.2 * width_px), in = is_expected ? line / 2 : 0;

  cairo_save (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_MITER);
  fr_palette_set_source (palette, cr, FR_ROLE_SYRUP, 1);
  cairo_move_to (cr, x_px - half + in, y_px);
  cairo_line_to (cr, x_px - foot, y_px + height - in);
  cairo_line_to (cr, x_px + foot, y_px + height - in);
  cairo_line_to (cr, x_px + half - in, y_px);
  if (is_expected)
    {
      cairo_set_line_width (cr, line);
      cairo_stroke (cr);
    }
  else
    {
      cairo_close_path (cr);
      cairo_fill (cr);
    }
  cairo_restore (cr);
}

void
fr_mark_bottle (const FrPalette *palette, cairo_t *cr, double x_px, double y_px, double width_px)
{
  double w = width_px, half = w / 2, neck = 0.2 * w, height = 1.35 * w;

  fr_palette_set_source (palette, cr, FR_ROLE_SYRUP, 1);
  cairo_move_to (cr, x_px - neck, y_px);
  cairo_line_to (cr, x_px + neck, y_px);
  cairo_line_to (cr, x_px + neck, y_px + 0.3 * height);
  cairo_curve_to (cr, x_px + neck, y_px + 0.42 * height, x_px + half, y_px + 0.38 * height, x_px + half,
                  y_px + 0.56 * height);
  cairo_line_to (cr, x_px + half, y_px + height);
  cairo_line_to (cr, x_px - half, y_px + height);
  cairo_line_to (cr, x_px - half, y_px + 0.56 * height);
  cairo_curve_to (cr, x_px - half, y_px + 0.38 * height, x_px - neck, y_px + 0.42 * height, x_px - neck,
                  y_px + 0.3 * height);
  cairo_close_path (cr);
  cairo_fill (cr);
}

void
fr_mark_note (const FrPalette *palette, cairo_t *cr, double x_px, double y_px, double width_px)
{
  double w = width_px, height = 1.35 * w, left = x_px - w / 2;

  fr_palette_set_source (palette, cr, FR_ROLE_INK_SOFT, 1);
  cairo_set_line_width (cr, MAX (0.12 * w, 0.6));
  cairo_rectangle (cr, left, y_px, w, height);
  for (guint i = 1; i <= 3; i++)
    {
      cairo_move_to (cr, left + 0.22 * w, y_px + height * i / 4);
      cairo_line_to (cr, left + (i == 3 ? 0.55 : 0.78) * w, y_px + height * i / 4);
    }
  cairo_stroke (cr);
}

void
fr_mark_tap (const FrPalette *palette, cairo_t *cr, double x_px, double y_px, double width_px,
             gboolean is_pulled)
{
  double half = width_px / 2, height = 0.9 * width_px;

  fr_palette_set_source (palette, cr, FR_ROLE_INK, 1);
  cairo_move_to (cr, x_px, is_pulled ? y_px - height : y_px);
  cairo_line_to (cr, x_px - half, is_pulled ? y_px : y_px - height);
  cairo_line_to (cr, x_px + half, is_pulled ? y_px : y_px - height);
  cairo_close_path (cr);
  if (is_pulled)
    {
      cairo_set_line_width (cr, 1.2);
      cairo_stroke (cr);
    }
  else
    cairo_fill (cr);
}

/* A box along an axis: flat at @from, rounded at @to, as a path. */
static void
half_round (cairo_t *cr, gboolean is_upright, double across, double half, double from, double to,
            double round_px, gboolean is_flat)
{
  double r = MIN (MIN (round_px, half), fabs (to - from) / (is_flat ? 1 : 2)), way = to < from ? -1 : 1;

  cairo_save (cr);
  if (!is_upright)
    {
      /* Lying: what is up in the path is to the right. */
      cairo_matrix_t turn = { 0, 1, 1, 0, 0, 0 };
      cairo_transform (cr, &turn);
    }
  cairo_new_sub_path (cr);
  if (is_flat)
    {
      cairo_move_to (cr, across - half, from);
      cairo_line_to (cr, across - half, to - way * r);
    }
  else
    {
      cairo_move_to (cr, across + half - r, from);
      cairo_line_to (cr, across - half + r, from);
      cairo_curve_to (cr, across - half + r * 0.45, from, across - half, from + way * r * 0.45, across - half,
                      from + way * r);
      cairo_line_to (cr, across - half, to - way * r);
    }
  cairo_curve_to (cr, across - half, to - way * r * 0.45, across - half + r * 0.45, to, across - half + r,
                  to);
  cairo_line_to (cr, across + half - r, to);
  cairo_curve_to (cr, across + half - r * 0.45, to, across + half, to - way * r * 0.45, across + half,
                  to - way * r);
  if (is_flat)
    cairo_line_to (cr, across + half, from);
  else
    {
      cairo_line_to (cr, across + half, from + way * r);
      cairo_curve_to (cr, across + half, from + way * r * 0.45, across + half - r * 0.45, from,
                      across + half - r, from);
    }
  cairo_close_path (cr);
  cairo_restore (cr);
}

void
fr_mark_span (const FrPalette *palette, cairo_t *cr, gboolean is_upright, double across_px, double width_px,
              double from_px, double to_px, FrRole role, gboolean is_expected, gboolean starts_at_line)
{
  double half = width_px / 2, way = to_px < from_px ? -1 : 1;

  if (!isfinite (from_px) || !isfinite (to_px))
    return;
  if (fabs (to_px - from_px) < 2)
    to_px = from_px + 2 * way;
  if (is_expected)
    {
      double line = width_px < 4 ? 0.8 : 1.2;
      half = MAX (half - line / 2, 0.4);
      if (!starts_at_line)
        from_px += way * line / 2;
      to_px -= way * line / 2;
      half_round (cr, is_upright, across_px, half, from_px, to_px, ROUND_PX, starts_at_line);
      fr_palette_set_source (palette, cr, role, PALE_RATIO);
      cairo_fill_preserve (cr);
      fr_palette_set_source (palette, cr, role, 1);
      cairo_set_line_width (cr, MAX (line, fr_palette_band_edge_px (palette)));
      cairo_stroke (cr);
      return;
    }
  half_round (cr, is_upright, across_px, half, from_px, to_px, ROUND_PX, starts_at_line);
  fr_palette_set_source (palette, cr, role, 1);
  cairo_fill (cr);
}

void
fr_mark_capsule (const FrPalette *palette, cairo_t *cr, double x_px, double width_px, double low_px,
                 double middle_px, double high_px, FrRole role)
{
  if (!isfinite (low_px) || !isfinite (high_px))
    return;
  fr_mark_span (palette, cr, TRUE, x_px, width_px, low_px, high_px, role, TRUE, FALSE);
  if (!isfinite (middle_px))
    return;
  fr_palette_set_source (palette, cr, role, 1);
  cairo_rectangle (cr, x_px - width_px / 2 - 1, middle_px - 1, width_px + 2, 2);
  cairo_fill (cr);
}
