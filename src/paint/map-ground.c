/* The ground drawn: the picture under everything, lines and boxes. */
#include "paint/map-private.h"

#include <math.h>

gboolean
fr_map_picture_matrix (const FrMapPicture *picture, cairo_matrix_t *matrix)
{
  /* As complex numbers, with the picture's rows turned upwards: plan = a × pixel + b. */
  double pc = picture->second_column - picture->first_column,
         pr = -(picture->second_row - picture->first_row);
  double px = picture->second_x_m - picture->first_x_m, py = picture->second_y_m - picture->first_y_m;
  double square = pc * pc + pr * pr;

  if (!isfinite (square) || square <= 0 || !isfinite (px * px + py * py) || px * px + py * py <= 0)
    return FALSE;
  double re = (px * pc + py * pr) / square, im = (py * pc - px * pr) / square;
  /* x = re c + im r + x0, y = im c − re r + y0 */
  cairo_matrix_init (matrix, re, im, im, -re, 0, 0);
  matrix->x0 = picture->first_x_m - (re * picture->first_column + im * picture->first_row);
  matrix->y0 = picture->first_y_m - (im * picture->first_column - re * picture->first_row);
  return TRUE;
}

void
fr_map_draw_picture (const FrMapFrame *frame)
{
  const FrMapPicture *picture = frame->view->picture;
  const FrViewport *v = &frame->view->viewport;
  cairo_matrix_t to_plan, to_screen;
  double x, y, ux, uy, vx, vy;

  if (picture == NULL || picture->surface == NULL || !fr_map_picture_matrix (picture, &to_plan))
    return;
  fr_viewport_to_screen (v, v->centre_x_m, v->centre_y_m, &x, &y);
  fr_viewport_to_screen (v, v->centre_x_m + 1, v->centre_y_m, &ux, &uy);
  fr_viewport_to_screen (v, v->centre_x_m, v->centre_y_m + 1, &vx, &vy);
  cairo_matrix_init (&to_screen, ux - x, uy - y, vx - x, vy - y,
                     x - (ux - x) * v->centre_x_m - (vx - x) * v->centre_y_m,
                     y - (uy - y) * v->centre_x_m - (vy - y) * v->centre_y_m);
  cairo_save (frame->cr);
  cairo_transform (frame->cr, &to_screen);
  cairo_transform (frame->cr, &to_plan);
  cairo_set_source_surface (frame->cr, picture->surface, 0, 0);
  cairo_pattern_set_filter (cairo_get_source (frame->cr), CAIRO_FILTER_BILINEAR);
  cairo_paint_with_alpha (frame->cr, 0.55);
  cairo_restore (frame->cr);
}

/* The outline of a box form in pixels as the current path. */
static void
box_path (cairo_t *cr, const FrMapView *view, const FrMapShape *shape)
{
  const FrGroundPoint *p = shape->points;
  double x, y, half = FR_MAP_MARK_PX * fr_map_scale (view);

  cairo_new_path (cr);
  if (shape->n_points == 1)
    {
      fr_viewport_to_screen (&view->viewport, p[0].x_m, p[0].y_m, &x, &y);
      cairo_rectangle (cr, x - half, y - half, 2 * half, 2 * half);
      return;
    }
  if (shape->n_points == 2)
    {
      FrGroundPoint corners[4] = { p[0], { p[1].x_m, p[0].y_m }, p[1], { p[0].x_m, p[1].y_m } };
      for (guint i = 0; i < 4; i++)
        {
          fr_viewport_to_screen (&view->viewport, corners[i].x_m, corners[i].y_m, &x, &y);
          cairo_line_to (cr, x, y);
        }
    }
  else
    for (gsize i = 0; i < shape->n_points; i++)
      {
        fr_viewport_to_screen (&view->viewport, p[i].x_m, p[i].y_m, &x, &y);
        cairo_line_to (cr, x, y);
      }
  cairo_close_path (cr);
}

/* A pan with steam, or a barrel, on a small disc. */
static void
draw_mark (const FrMapFrame *frame, FrMapForm form, double x, double y)
{
  cairo_t *cr = frame->cr;
  double s = frame->scale_ratio;

  cairo_save (cr);
  cairo_translate (cr, x, y);
  cairo_scale (cr, s, s);
  cairo_arc (cr, 0, 0, 9.5, 0, 2 * G_PI);
  fr_palette_set_source (frame->palette, cr, FR_ROLE_CARD, 1);
  cairo_fill_preserve (cr);
  fr_palette_set_source (frame->palette, cr, FR_ROLE_BUILDING_EDGE, 1);
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
  fr_palette_set_source (frame->palette, cr, FR_ROLE_INK, 1);
  cairo_set_line_width (cr, 1.4);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  if (form == FR_MAP_FORM_BOILING)
    {
      cairo_move_to (cr, -5, 0.5);
      cairo_line_to (cr, -3.6, 4.5);
      cairo_line_to (cr, 3.6, 4.5);
      cairo_line_to (cr, 5, 0.5);
      cairo_close_path (cr);
      for (int i = -1; i <= 1; i++)
        {
          cairo_move_to (cr, 2.8 * i, -2);
          cairo_curve_to (cr, 2.8 * i - 1.6, -3.4, 2.8 * i + 1.6, -4.2, 2.8 * i, -5.8);
        }
    }
  else
    {
      cairo_move_to (cr, -3.4, -4.6);
      cairo_line_to (cr, 3.4, -4.6);
      cairo_curve_to (cr, 5, -1.6, 5, 1.6, 3.4, 4.6);
      cairo_line_to (cr, -3.4, 4.6);
      cairo_curve_to (cr, -5, 1.6, -5, -1.6, -3.4, -4.6);
      cairo_close_path (cr);
      cairo_move_to (cr, -4.4, -1.7);
      cairo_line_to (cr, 4.4, -1.7);
      cairo_move_to (cr, -4.4, 1.7);
      cairo_line_to (cr, 4.4, 1.7);
    }
  cairo_stroke (cr);
  cairo_restore (cr);
}

static void
draw_box (const FrMapFrame *frame, const FrMapShape *shape)
{
  const FrViewport *v = &frame->view->viewport;
  cairo_t *cr = frame->cr;
  double s = frame->scale_ratio;
  FrBox box;

  if (!fr_map_shape_box (frame->view, shape, &box))
    return;
  double left = MAX (box.x_px, -20), right = MIN (box.x_px + box.width_px, v->width_px + 20);
  double top = MAX (box.y_px, -20), bottom = MIN (box.y_px + box.height_px, v->height_px + 20);
  if (left > right || top > bottom)
    return;

  box_path (cr, frame->view, shape);
  fr_palette_set_source (frame->palette, cr, FR_ROLE_BUILDING_FILL, 1);
  cairo_fill_preserve (cr);
  cairo_save (cr);
  cairo_clip (cr);
  fr_palette_set_source (frame->palette, cr, FR_ROLE_BUILDING_EDGE, 0.55);
  cairo_set_line_width (cr, fr_palette_hatch_px (frame->palette) * s);
  /* The lines belong to the box, so they start from its own corner. */
  double gap = 6 * s, from = box.x_px + floor ((left - (bottom - top) - box.x_px) / gap) * gap;
  double shift = fmod (top - box.y_px, gap);
  for (double x = from - gap; x < right + gap; x += gap)
    {
      cairo_move_to (cr, x - shift, bottom);
      cairo_line_to (cr, x - shift + (bottom - top), top);
    }
  cairo_stroke (cr);
  cairo_restore (cr);

  box_path (cr, frame->view, shape);
  fr_palette_set_source (frame->palette, cr, FR_ROLE_BUILDING_EDGE, 1);
  cairo_set_line_width (cr, (frame->palette->high_contrast ? 2 : 1.2) * s);
  cairo_stroke (cr);
  if (shape->form != FR_MAP_FORM_BUILDING)
    draw_mark (frame, shape->form, box.x_px + box.width_px / 2, box.y_px + box.height_px / 2);
  if (shape->is_selected || shape->is_hovered)
    {
      double out = 5 * s;
      fr_palette_set_source (frame->palette, cr, FR_ROLE_ACCENT, 1);
      cairo_set_line_width (cr, (shape->is_selected ? 2.5 : 1) * s);
      cairo_rectangle (cr, box.x_px - out, box.y_px - out, box.width_px + 2 * out, box.height_px + 2 * out);
      cairo_stroke (cr);
    }
}

static void
draw_line (const FrMapFrame *frame, const FrMapShape *shape)
{
  cairo_t *cr = frame->cr;
  const FrPalette *palette = frame->palette;
  double s = frame->scale_ratio, more = palette->high_contrast ? 1.4 : 1;
  g_autoptr (GArray) line = fr_map_shape_line (shape);
  const FrGroundPoint *p = (const FrGroundPoint *)(void *)line->data;

  cairo_save (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  if (shape->is_selected || shape->is_hovered)
    {
      fr_palette_set_source (palette, cr, FR_ROLE_ACCENT, shape->is_selected ? 0.9 : 0.5);
      cairo_set_line_width (cr, (shape->form == FR_MAP_FORM_LANE ? FR_MAP_CASING_PX + 5 : 8) * s);
      cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
      fr_map_stroke_line (frame, p, line->len, FALSE, 0, 0);
      fr_palette_set_source (palette, cr, FR_ROLE_GROUND, 1);
      cairo_set_line_width (cr, (shape->form == FR_MAP_FORM_LANE ? FR_MAP_CASING_PX : 3.5) * s);
      fr_map_stroke_line (frame, p, line->len, FALSE, 0, 0);
      cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
    }
  switch (shape->form)
    {
    case FR_MAP_FORM_LANE:
      /* Opaque, so that a lane crossing itself does not darken. */
      {
        FrRgba casing = fr_rgba_mix (fr_palette_color (palette, FR_ROLE_GROUND),
                                     fr_palette_color (palette, FR_ROLE_PATH), 0.26);
        cairo_set_source_rgb (cr, casing.red, casing.green, casing.blue);
      }
      cairo_set_line_width (cr, FR_MAP_CASING_PX * s);
      cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
      fr_map_stroke_line (frame, p, line->len, FALSE, 0, 0);
      cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
      G_GNUC_FALLTHROUGH;
    case FR_MAP_FORM_PATH:
      fr_palette_set_source (palette, cr, FR_ROLE_PATH, 1);
      cairo_set_line_width (cr, 1.6 * s * more);
      fr_map_stroke_line (frame, p, line->len, FALSE, 7 * s, 5 * s);
      break;
    case FR_MAP_FORM_WALL:
      fr_palette_set_source (palette, cr, FR_ROLE_INK_FAINT, 1);
      cairo_set_line_width (cr, 3.2 * s);
      cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
      fr_map_stroke_line (frame, p, line->len, FALSE, 0.01, 5.2 * s);
      break;
    case FR_MAP_FORM_STREAM:
    default:
      fr_palette_set_source (palette, cr, FR_ROLE_FREEZE, 0.75);
      cairo_set_line_width (cr, 5.2 * s * more);
      fr_map_stroke_line (frame, p, line->len, FALSE, 0, 0);
      {
        FrRgba water = fr_rgba_mix (fr_palette_color (palette, FR_ROLE_GROUND),
                                    fr_palette_color (palette, FR_ROLE_FREEZE), 0.14);
        cairo_set_source_rgb (cr, water.red, water.green, water.blue);
      }
      cairo_set_line_width (cr, 3.2 * s);
      fr_map_stroke_line (frame, p, line->len, FALSE, 0, 0);
      break;
    }
  cairo_restore (cr);
}

void
fr_map_draw_shapes (const FrMapFrame *frame)
{
  for (gsize i = 0; i < frame->view->n_shapes; i++)
    if (frame->view->shapes[i].n_points > 0 && !fr_map_form_is_box (frame->view->shapes[i].form))
      draw_line (frame, &frame->view->shapes[i]);
  for (gsize i = 0; i < frame->view->n_shapes; i++)
    if (frame->view->shapes[i].n_points > 0 && fr_map_form_is_box (frame->view->shapes[i].form))
      draw_box (frame, &frame->view->shapes[i]);
}
