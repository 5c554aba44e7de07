/* A pan from the side. Half the width at a depth is that of the circle with the surface's area, which is the
 * true profile for round pans and a fair one for the rest. The drawing keeps the proportion of depth to width
 * unless the pan is so flat that its levels would fall together; then depth is stretched, at most four times.
 * Labels stand to the right, pushed apart, each tied to its level by a thin line. */
#include "paint/vessel-side.h"

#include <math.h>

#define STEPS 64
#define MARGIN_PX 6.0
#define LABEL_GAP_PX 22.0

static double
half_width_m (const FrVessel *vessel, double depth_m)
{
  double area_m2 = fr_vessel_surface_m2 (vessel, depth_m);

  return isfinite (area_m2) && area_m2 > 0 ? sqrt (area_m2 / G_PI) : 0.0;
}

/* The outline from the bottom to @depth_m, both sides, as a closed path. */
static void
path_to (cairo_t *cr, const FrVessel *vessel, double depth_m, double middle_px, double bottom_px,
         double x_scale, double y_scale)
{
  for (int i = 0; i <= STEPS; i++)
    {
      double at_m = depth_m * i / STEPS;
      double x_px = middle_px - half_width_m (vessel, at_m) * x_scale;

      if (i == 0)
        cairo_move_to (cr, x_px, bottom_px);
      else
        cairo_line_to (cr, x_px, bottom_px - at_m * y_scale);
    }
  for (int i = STEPS; i >= 0; i--)
    {
      double at_m = depth_m * i / STEPS;

      cairo_line_to (cr, middle_px + half_width_m (vessel, at_m) * x_scale, bottom_px - at_m * y_scale);
    }
  cairo_close_path (cr);
}

static PangoLayout *
text_layout (PangoContext *context, gboolean bold, const char *text, double text_scale, int *width_px)
{
  PangoLayout *layout = pango_layout_new (context);
  PangoFontDescription *font = pango_font_description_copy (pango_context_get_font_description (context));

  pango_font_description_set_absolute_size (font, 12.5 * text_scale * PANGO_SCALE);
  pango_font_description_set_weight (font, bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_layout_set_font_description (layout, font);
  pango_layout_set_text (layout, text, -1);
  pango_layout_get_pixel_size (layout, width_px, NULL);
  pango_font_description_free (font);
  return layout;
}

/* In the middle of @y_px, cut with an ellipsis at @room_px. */
static void
show (cairo_t *cr, PangoLayout *layout, double x_px, double y_px, double room_px, GArray *labels)
{
  int width, height;

  pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
  pango_layout_set_width (layout, (int)floor (room_px) * PANGO_SCALE);
  pango_layout_get_pixel_size (layout, &width, &height);
  cairo_move_to (cr, x_px, y_px - height / 2.0);
  pango_cairo_show_layout (cr, layout);
  if (labels != NULL)
    {
      FrLabelBox box
          = { x_px, y_px - height / 2.0, width, height, g_strdup (pango_layout_get_text (layout)) };

      g_array_append_val (labels, box);
    }
}

/* The name and the value behind it; where there is no room for both, the value counts. Labels come from the
 * bottom up:
 * @free_px is where the last one's top was. */
static void
draw_words (cairo_t *cr, PangoContext *context, const char *name, const char *value, double x_px, double y_px,
            double room_px, double text_scale, double *free_px, GArray *labels)
{
  int name_px, value_px, line_px;
  PangoLayout *first = text_layout (context, FALSE, name, text_scale, &name_px);
  PangoLayout *second = text_layout (context, TRUE, value, text_scale, &value_px);

  pango_layout_get_pixel_size (second, NULL, &line_px);
  /* Whole and apart, or not at all. */
  if (y_px + line_px / 2.0 <= *free_px && y_px >= line_px / 2.0)
    {
      gboolean both = name_px + 6 + value_px <= room_px;

      if (both)
        show (cr, first, x_px, y_px, name_px + 1, labels);
      show (cr, second, both ? x_px + name_px + 6 : x_px, y_px, fmin (value_px + 1, room_px), labels);
      *free_px = y_px - line_px / 2.0;
    }
  g_object_unref (first);
  g_object_unref (second);
}

void
fr_vessel_side_draw (cairo_t *cr, PangoContext *context, const FrPalette *palette, const FrVessel *vessel,
                     const FrVesselLevel *levels, gsize n_levels, const char *rim_name, const char *rim_value,
                     double width_px, double height_px, double text_scale, GArray *labels)
{
  double rim_m = fr_vessel_height_m (vessel);
  double widest_m = 0;
  double words_px = fmin (240 * text_scale, width_px * 0.52);
  double room_x_px = width_px - words_px - 4 * MARGIN_PX;
  double room_y_px = height_px - 3 * MARGIN_PX;
  double x_scale, y_scale, middle_px, bottom_px, words_x_px;
  double gap_px = fmin (LABEL_GAP_PX * text_scale, height_px / (double)(n_levels + 1));
  double last_label_px = height_px + gap_px, free_px = height_px;

  for (int i = 0; i <= STEPS; i++)
    widest_m = fmax (widest_m, half_width_m (vessel, rim_m * i / STEPS));
  if (!(rim_m > 0) || !(widest_m > 0) || room_x_px < 20 || room_y_px < 20)
    return;
  x_scale = fmin (room_x_px / (2 * widest_m), room_y_px / rim_m);
  y_scale = fmin (room_y_px / rim_m, 4 * x_scale);
  middle_px = 2 * MARGIN_PX + widest_m * x_scale;
  bottom_px = height_px - (height_px - rim_m * y_scale) / 2;
  words_x_px = middle_px + widest_m * x_scale + 26;

  for (gsize i = 0; i < n_levels; i++)
    if (levels[i].strong && levels[i].depth_m > 0)
      {
        path_to (cr, vessel, fmin (levels[i].depth_m, rim_m), middle_px, bottom_px, x_scale, y_scale);
        fr_palette_set_source (palette, cr, FR_ROLE_SAP, 0.26);
        cairo_fill (cr);
      }
  path_to (cr, vessel, rim_m, middle_px, bottom_px, x_scale, y_scale);
  fr_palette_set_source (palette, cr, FR_ROLE_POWER, 1.0);
  cairo_set_line_width (cr, 2.0);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_stroke (cr);

  for (gsize i = 0; i <= n_levels; i++)
    {
      gboolean is_rim = i == n_levels;
      double depth_m = is_rim ? rim_m : levels[i].depth_m;
      FrRole role = is_rim ? FR_ROLE_INK_SOFT : levels[i].strong ? FR_ROLE_SAP : FR_ROLE_WARNING;
      const char *name = is_rim ? rim_name : levels[i].name;
      const char *value = is_rim ? rim_value : levels[i].value;
      double y_px, label_px, half_px;
      const double dash[] = { 2, 3 };

      if (!isfinite (depth_m) || depth_m < 0 || depth_m > rim_m)
        continue;
      y_px = bottom_px - depth_m * y_scale;
      half_px = half_width_m (vessel, depth_m) * x_scale;
      label_px = fmin (y_px, last_label_px - gap_px);
      label_px = fmin (label_px, height_px - gap_px / 2);
      label_px = fmax (label_px, gap_px / 2 + (double)(n_levels - i) * gap_px);
      last_label_px = label_px;

      fr_palette_set_source (palette, cr, role, 1.0);
      cairo_set_line_width (cr, !is_rim && levels[i].strong ? 2.2 : 1.3);
      if (!is_rim)
        {
          if (!levels[i].strong)
            cairo_set_dash (cr, dash, 2, 0);
          cairo_move_to (cr, middle_px - half_px, y_px);
          cairo_line_to (cr, middle_px + half_px, y_px);
          cairo_stroke (cr);
          cairo_set_dash (cr, NULL, 0, 0);
        }
      cairo_set_line_width (cr, 1.0);
      cairo_move_to (cr, middle_px + half_px + 3, y_px);
      cairo_line_to (cr, words_x_px - 14, y_px);
      cairo_line_to (cr, words_x_px - 5, label_px);
      cairo_stroke (cr);
      draw_words (cr, context, name, value, words_x_px, label_px, width_px - words_x_px, text_scale, &free_px,
                  labels);
    }
}
