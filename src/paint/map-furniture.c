/* What floats on the map by itself: the scale bar at the lower right and the north disc above it. Both keep
 * their place when the map turns; the needle does not. */
#include "paint/map-private.h"

#include <math.h>

#define BAR_MOST_PX 120.0
#define EDGE_PX 14.0
#define DISC_PX 19.0

typedef struct
{
  FrScaleBar bar;
  double right_px;
  double bar_y_px;
  double disc_x_px;
  double disc_y_px;
} Places;

static Places
places_of (const FrMapView *view)
{
  double s = fr_map_scale (view);
  Places places = { .right_px = view->viewport.width_px - view->furniture.right_px - EDGE_PX * s,
                    .bar_y_px = view->viewport.height_px - view->furniture.bottom_px - EDGE_PX * s };

  if (view->unit_name != NULL && view->unit_m > 0)
    places.bar = fr_viewport_scale_bar (&view->viewport, MIN (BAR_MOST_PX * s, view->viewport.width_px * 0.4),
                                        view->unit_m, view->unit_name, view->decimal_mark);
  places.disc_x_px = places.right_px - DISC_PX * s + 4 * s;
  places.disc_y_px = places.bar_y_px - (view->unit_name != NULL ? 24 : 0) * s - (DISC_PX + 4) * s;
  return places;
}

void
fr_map_furniture_boxes (const FrMapFrame *frame)
{
  Places p = places_of (frame->view);
  double s = frame->scale_ratio;

  if (p.bar.length_px > 0)
    {
      double wide = MAX (p.bar.length_px, 60 * s);
      FrBox box = { p.right_px - wide - 6 * s, p.bar_y_px - 26 * s, wide + 12 * s, 34 * s };
      g_array_append_val (frame->furniture, box);
    }
  if (frame->view->has_north)
    {
      double r = (DISC_PX + 3) * s;
      FrBox box = { p.disc_x_px - r, p.disc_y_px - r, 2 * r, 2 * r };
      g_array_append_val (frame->furniture, box);
    }
}

gboolean
fr_map_north_at (const FrMapView *view, double x_px, double y_px)
{
  Places p = places_of (view);

  return view->has_north
         && hypot (x_px - p.disc_x_px, y_px - p.disc_y_px) <= (DISC_PX + 2) * fr_map_scale (view);
}

void
fr_map_put_bar (const FrMapFrame *frame, const FrScaleBar *bar, double right_px, double y_px)
{
  cairo_t *cr = frame->cr;
  double s = frame->scale_ratio, tick = 5 * s, width, height;
  double left = frame->cache->is_bare ? right_px - bar->length_px : round (right_px - bar->length_px);
  double right = left + bar->length_px;
  g_autoptr (PangoLayout) layout = fr_map_layout (frame, bar->text, TRUE, 12);

  for (guint pass = 0; pass < 2; pass++)
    {
      cairo_move_to (cr, left, y_px - tick);
      cairo_line_to (cr, left, y_px);
      cairo_line_to (cr, right, y_px);
      cairo_line_to (cr, right, y_px - tick);
      fr_palette_set_source (frame->palette, cr, pass == 0 ? FR_ROLE_GROUND : FR_ROLE_INK,
                             pass == 0 ? 0.9 : 1);
      cairo_set_line_width (cr, pass == 0 ? 5 * s : 1.6 * s);
      cairo_stroke (cr);
    }
  fr_layout_size (layout, &width, &height);
  fr_map_text (frame, layout, MIN (left + (bar->length_px - width) / 2, right_px - width),
               y_px - height - 3 * s, FR_ROLE_INK);
}

void
fr_map_put_north (const FrMapFrame *frame, double x_px, double y_px)
{
  cairo_t *cr = frame->cr;
  double s = frame->scale_ratio, turn = frame->view->viewport.rotation_deg * G_PI / 180, width, height;
  g_autoptr (PangoLayout) layout
      = fr_map_layout (frame, frame->view->north_text != NULL ? frame->view->north_text : "N", TRUE, 11.5);

  cairo_save (cr);
  cairo_new_path (cr);
  cairo_arc (cr, x_px, y_px, DISC_PX * s, 0, 2 * G_PI);
  fr_palette_set_source (frame->palette, cr, FR_ROLE_CARD, 1);
  cairo_fill_preserve (cr);
  fr_palette_set_source (frame->palette, cr, frame->palette->high_contrast ? FR_ROLE_AXIS : FR_ROLE_CARD_EDGE,
                         1);
  cairo_set_line_width (cr, s);
  cairo_stroke (cr);

  cairo_translate (cr, x_px, y_px);
  cairo_rotate (cr, turn);
  cairo_scale (cr, s, s);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  fr_palette_set_source (frame->palette, cr, FR_ROLE_INK, 1);
  cairo_set_line_width (cr, 1.1);
  cairo_move_to (cr, 0, -15);
  cairo_line_to (cr, 5.4, 1.5);
  cairo_line_to (cr, 0, -2);
  cairo_line_to (cr, -5.4, 1.5);
  cairo_close_path (cr);
  cairo_stroke (cr);
  /* One half of the needle filled, as on a compass. */
  cairo_move_to (cr, 0, -15);
  cairo_line_to (cr, 5.4, 1.5);
  cairo_line_to (cr, 0, -2);
  cairo_close_path (cr);
  cairo_fill (cr);
  cairo_restore (cr);

  /* The letter goes round with the needle's foot but stays upright. */
  fr_layout_size (layout, &width, &height);
  double away = 9 * s;
  fr_palette_set_source (frame->palette, cr, FR_ROLE_INK, 1);
  cairo_move_to (cr, x_px - sin (turn) * away - width / 2, y_px + cos (turn) * away - height / 2);
  pango_cairo_show_layout (cr, layout);
}

void
fr_map_draw_furniture (const FrMapFrame *frame)
{
  Places p = places_of (frame->view);

  if (p.bar.length_px > 0)
    {
      /* On a crowded map the bar would be lost among symbols. */
      double s = frame->scale_ratio, wide = MAX (p.bar.length_px, 60 * s);
      cairo_rectangle (frame->cr, p.right_px - wide - 6 * s, p.bar_y_px - 22 * s, wide + 12 * s, 29 * s);
      fr_palette_set_source (frame->palette, frame->cr, FR_ROLE_GROUND, 0.85);
      cairo_fill (frame->cr);
      fr_map_put_bar (frame, &p.bar, p.right_px, p.bar_y_px);
    }
  if (frame->view->has_north)
    fr_map_put_north (frame, p.disc_x_px, p.disc_y_px);
}
