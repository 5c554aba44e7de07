/* The drawing of the trunk. Everything that may lie over N is drawn three times, a girth to the left, in
 * place and a girth to the right, and cut to the bark. The overlap of the asked box with old stains is the
 * box's path clipped by each spindle's. The grain of the bark is made by a fixed sequence, so that it stays
 * still. */
#include "paint/trunk-private.h"

#include <math.h>

#define LEAST_SPAN_M 0.6
#define ROOM_RATIO 0.07

static double
girth (const FrTrunkView *view)
{
  return view->girth_m > 0 && isfinite (view->girth_m) ? view->girth_m : 1.0;
}

static gboolean
has_stain (const FrTrunkHole *hole)
{
  return hole->stain_half_width_m > 0 && hole->stain_half_height_m > 0;
}

static void
stretch (double *low_m, double *high_m, double from_m, double to_m)
{
  if (isfinite (from_m))
    *low_m = MIN (*low_m, from_m);
  if (isfinite (to_m))
    *high_m = MAX (*high_m, to_m);
}

static void
choose_heights (const FrTrunkView *view, FrTrunkFrame *frame)
{
  double low = INFINITY, high = -INFINITY;

  stretch (&low, &high, view->min_height_m, view->min_height_m);
  stretch (&low, &high, view->max_height_m, view->max_height_m);
  for (gsize i = 0; i < view->n_holes; i++)
    if (fr_trunk_hole_is_drawn (&view->holes[i]))
      {
        double half = has_stain (&view->holes[i]) ? view->holes[i].stain_half_height_m : 0;
        stretch (&low, &high, view->holes[i].height_m - half, view->holes[i].height_m + half);
      }
  for (gsize i = 0; i < view->n_targets; i++)
    if (fr_trunk_target_is_drawn (&view->targets[i]))
      {
        double half = i == 0 && view->up_down_m > 0 ? view->up_down_m : 0;
        stretch (&low, &high, view->targets[i].height_m - half, view->targets[i].height_m + half);
      }
  if (low > high)
    {
      low = 0.4;
      high = 1.4;
    }
  double room = MAX (ROOM_RATIO * (high - low), (LEAST_SPAN_M - (high - low)) / 2);
  frame->low_m = MAX (low - room, MIN (low, 0));
  frame->high_m = MAX (high + room, frame->low_m + LEAST_SPAN_M);
}

static FrTrunkFrame
frame_of (FrCanvas *canvas, const FrTrunkView *view)
{
  double s = canvas->scale_ratio, width, height;
  FrTrunkFrame frame = { .scale_ratio = s };
  g_autofree char *widest = NULL;

  choose_heights (view, &frame);
  widest = fr_trunk_height_text (MAX (ceil (frame.high_m / fr_trunk_unit_m (view)), 100));
  g_autoptr (PangoLayout) layout = fr_canvas_text (canvas, NULL, widest, NULL, FR_TEXT_SMALL_PX);
  fr_layout_size (layout, &width, &height);
  frame.plot_x_px = width + 8 * s;
  frame.plot_y_px = 2;
  /* Half of the last N hangs over the right edge. */
  frame.plot_width_px = MAX (canvas->width_px - frame.plot_x_px - 7 * s, 10);
  frame.plot_height_px = MAX (canvas->height_px - frame.plot_y_px - 7 * s - canvas->line_px, 10);
  return frame;
}

FrTrunkFrame
fr_trunk_frame (PangoContext *context, const FrTrunkView *view, double width_px, double height_px,
                double text_scale)
{
  static const FrPalette any = { FR_THEME_LIGHT, FALSE };
  FrCanvas canvas;

  fr_canvas_init (&canvas, NULL, context, &any, width_px, height_px, text_scale);
  FrTrunkFrame frame = frame_of (&canvas, view);
  fr_canvas_clear (&canvas);
  return frame;
}

static double
wrapped (double angle_deg)
{
  double turned = fmod (angle_deg, 360);

  return turned < 0 ? turned + 360 : turned;
}

double
fr_trunk_x_from_angle (const FrTrunkFrame *frame, double angle_deg)
{
  return frame->plot_x_px + wrapped (angle_deg) / 360 * frame->plot_width_px;
}

double
fr_trunk_y_from_height (const FrTrunkFrame *frame, double height_m)
{
  return frame->plot_y_px
         + frame->plot_height_px * (frame->high_m - height_m) / (frame->high_m - frame->low_m);
}

gboolean
fr_trunk_place_at (const FrTrunkFrame *frame, double x_px, double y_px, double *angle_deg, double *height_m)
{
  if (!(frame->plot_width_px > 0) || !(frame->plot_height_px > 0))
    return FALSE;
  double up
      = frame->high_m - (y_px - frame->plot_y_px) / frame->plot_height_px * (frame->high_m - frame->low_m);
  *angle_deg = wrapped ((x_px - frame->plot_x_px) / frame->plot_width_px * 360);
  *height_m = CLAMP (up, frame->low_m, frame->high_m);
  return TRUE;
}

static double
distance_px (const FrTrunkFrame *frame, double angle_deg, double height_m, double x_px, double y_px)
{
  double across = fabs (fr_trunk_x_from_angle (frame, angle_deg) - x_px);

  across = fabs (fmod (across, frame->plot_width_px));
  across = MIN (across, frame->plot_width_px - across);
  return hypot (across, fr_trunk_y_from_height (frame, height_m) - y_px);
}

gssize
fr_trunk_hole_at (const FrTrunkFrame *frame, const FrTrunkView *view, double x_px, double y_px,
                  double tolerance_px)
{
  double best = tolerance_px;
  gssize index = -1;

  for (gsize i = 0; i < view->n_holes; i++)
    if (fr_trunk_hole_is_drawn (&view->holes[i]))
      {
        double away = distance_px (frame, view->holes[i].angle_deg, view->holes[i].height_m, x_px, y_px);
        if (away <= best)
          {
            best = away;
            index = (gssize)i;
          }
      }
  return index;
}

gssize
fr_trunk_target_at (const FrTrunkFrame *frame, const FrTrunkView *view, double x_px, double y_px,
                    double tolerance_px)
{
  double best = tolerance_px;
  gssize index = -1;

  for (gsize i = view->n_targets; i-- > 0;)
    if (fr_trunk_target_is_drawn (&view->targets[i]))
      {
        double away = distance_px (frame, view->targets[i].angle_deg, view->targets[i].height_m, x_px, y_px);
        if (away <= best)
          {
            best = away;
            index = (gssize)i;
          }
      }
  return index;
}

static double
px_across (const FrTrunk *trunk, double length_m)
{
  return length_m / girth (trunk->view) * trunk->frame.plot_width_px;
}

static double
px_up (const FrTrunk *trunk, double length_m)
{
  return length_m / (trunk->frame.high_m - trunk->frame.low_m) * trunk->frame.plot_height_px;
}

/* A long leaf pointed at both ends. */
static void
spindle (cairo_t *cr, double x, double y, double half_width, double half_height)
{
  cairo_move_to (cr, x, y - half_height);
  cairo_curve_to (cr, x + 0.55 * half_width, y - 0.62 * half_height, x + half_width, y - 0.3 * half_height,
                  x + half_width, y);
  cairo_curve_to (cr, x + half_width, y + 0.3 * half_height, x + 0.55 * half_width, y + 0.62 * half_height, x,
                  y + half_height);
  cairo_curve_to (cr, x - 0.55 * half_width, y + 0.62 * half_height, x - half_width, y + 0.3 * half_height,
                  x - half_width, y);
  cairo_curve_to (cr, x - half_width, y - 0.3 * half_height, x - 0.55 * half_width, y - 0.62 * half_height, x,
                  y - half_height);
  cairo_close_path (cr);
}

static void
stain_path (const FrTrunk *trunk, const FrTrunkHole *hole, double shift_px)
{
  spindle (trunk->canvas.cr, fr_trunk_x_from_angle (&trunk->frame, hole->angle_deg) + shift_px,
           fr_trunk_y_from_height (&trunk->frame, hole->height_m),
           px_across (trunk, hole->stain_half_width_m), px_up (trunk, hole->stain_half_height_m));
}

static void
draw_bark (const FrTrunk *trunk)
{
  const FrCanvas *c = &trunk->canvas;
  const FrTrunkFrame *f = &trunk->frame;
  cairo_t *cr = c->cr;
  double top = isfinite (trunk->view->max_height_m)
                   ? MAX (fr_trunk_y_from_height (f, trunk->view->max_height_m), f->plot_y_px)
                   : f->plot_y_px;
  double bottom
      = isfinite (trunk->view->min_height_m)
            ? MIN (fr_trunk_y_from_height (f, trunk->view->min_height_m), f->plot_y_px + f->plot_height_px)
            : f->plot_y_px + f->plot_height_px;

  FrRgba pale = fr_rgba_mix (fr_palette_color (c->palette, FR_ROLE_CARD),
                             fr_palette_color (c->palette, FR_ROLE_WOOD), 0.52);
  cairo_set_source_rgb (cr, pale.red, pale.green, pale.blue);
  cairo_rectangle (cr, f->plot_x_px, f->plot_y_px, f->plot_width_px, f->plot_height_px);
  cairo_fill (cr);
  fr_palette_set_source (c->palette, cr, FR_ROLE_WOOD, 1);
  cairo_rectangle (cr, f->plot_x_px, top, f->plot_width_px, MAX (bottom - top, 0));
  cairo_fill (cr);

  /* A mixed congruential sequence with the constants of C's own example (C99 7.20.2.2). */
  guint32 state = 7;
  double s = f->scale_ratio;
  guint n = (guint)CLAMP (f->plot_width_px / (11 * s), 6, 60) * 2;
  fr_palette_set_source (c->palette, cr, FR_ROLE_BARK, 0.55);
  cairo_set_line_width (cr, 0.9 * s);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  for (guint i = 0; i < n; i++)
    {
      double part[4];
      for (guint k = 0; k < 4; k++)
        {
          state = state * 1103515245u + 12345u;
          part[k] = (double)(state >> 16 & 0x7fff) / 32768.0;
        }
      double x = f->plot_x_px + (i + part[0]) / n * f->plot_width_px;
      double y = f->plot_y_px + part[1] * 0.9 * f->plot_height_px;
      double length = (0.08 + 0.22 * part[2]) * f->plot_height_px, bend = (part[3] - 0.5) * 5 * s;
      cairo_move_to (cr, x, y);
      cairo_curve_to (cr, x + bend, y + length / 3, x - bend, y + 2 * length / 3, x + bend / 3, y + length);
    }
  cairo_stroke (cr);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
}

static void
draw_stains (const FrTrunk *trunk)
{
  const FrCanvas *c = &trunk->canvas;
  double edge = fr_palette_band_edge_px (c->palette);

  for (gsize i = 0; i < trunk->view->n_holes; i++)
    {
      const FrTrunkHole *hole = &trunk->view->holes[i];
      if (!fr_trunk_hole_is_drawn (hole) || !has_stain (hole))
        continue;
      for (int shift = -1; shift <= 1; shift++)
        {
          stain_path (trunk, hole, shift * trunk->frame.plot_width_px);
          fr_palette_set_source (c->palette, c->cr, FR_ROLE_STAIN, 0.52);
          cairo_fill_preserve (c->cr);
          fr_palette_set_source (c->palette, c->cr, FR_ROLE_STAIN, edge > 0 ? 1 : 0.5);
          cairo_set_line_width (c->cr, edge > 0 ? edge : 0.8);
          cairo_stroke (c->cr);
        }
    }
}

static void
draw_limits (FrTrunk *trunk)
{
  FrCanvas *c = &trunk->canvas;
  const FrTrunkFrame *f = &trunk->frame;
  double limits[2] = { trunk->view->min_height_m, trunk->view->max_height_m };

  fr_palette_set_source (c->palette, c->cr, FR_ROLE_STAIN, 1);
  fr_canvas_dash (c, 5 * f->scale_ratio, 3 * f->scale_ratio);
  for (guint i = 0; i < 2; i++)
    if (isfinite (limits[i]))
      {
        double y = fr_trunk_y_from_height (f, limits[i]);
        fr_canvas_rule (c, f->plot_x_px, y, f->plot_x_px + f->plot_width_px, y,
                        c->palette->high_contrast ? 2 : 1.2);
      }
  fr_canvas_dash (c, 0, 0);
}

static void
box_path (const FrTrunk *trunk, const FrTrunkTarget *target, double shift_px)
{
  double half_x = px_across (trunk, trunk->view->sideways_m), half_y = px_up (trunk, trunk->view->up_down_m);
  double x = fr_trunk_x_from_angle (&trunk->frame, target->angle_deg) + shift_px;
  double y = fr_trunk_y_from_height (&trunk->frame, target->height_m);
  double corner = MIN (4 * trunk->frame.scale_ratio, MIN (half_x, half_y));
  cairo_t *cr = trunk->canvas.cr;

  cairo_new_sub_path (cr);
  cairo_arc (cr, x + half_x - corner, y - half_y + corner, corner, -G_PI / 2, 0);
  cairo_arc (cr, x + half_x - corner, y + half_y - corner, corner, 0, G_PI / 2);
  cairo_arc (cr, x - half_x + corner, y + half_y - corner, corner, G_PI / 2, G_PI);
  cairo_arc (cr, x - half_x + corner, y - half_y + corner, corner, G_PI, 1.5 * G_PI);
  cairo_close_path (cr);
}

/* Old wood inside the asked box, hatched both ways. */
static void
draw_overlap (const FrTrunk *trunk, const FrTrunkTarget *target, double shift_px)
{
  const FrCanvas *c = &trunk->canvas;
  const FrTrunkFrame *f = &trunk->frame;
  FrBox all = { f->plot_x_px, f->plot_y_px, f->plot_width_px, f->plot_height_px };

  for (gsize i = 0; i < trunk->view->n_holes; i++)
    {
      const FrTrunkHole *hole = &trunk->view->holes[i];
      if (!fr_trunk_hole_is_drawn (hole) || !has_stain (hole))
        continue;
      for (int turn = -1; turn <= 1; turn++)
        {
          double left, top, right, bottom;
          cairo_save (c->cr);
          box_path (trunk, target, shift_px);
          cairo_clip (c->cr);
          stain_path (trunk, hole, turn * f->plot_width_px);
          cairo_clip (c->cr);
          cairo_clip_extents (c->cr, &left, &top, &right, &bottom);
          if (left < right && top < bottom)
            {
              fr_palette_set_source (c->palette, c->cr, FR_ROLE_WARNING, 1);
              double gap = (c->palette->high_contrast ? 7.5 : 5.5) * f->scale_ratio;
              fr_canvas_hatch (c, all, gap, TRUE);
              fr_canvas_hatch (c, all, gap, FALSE);
              stain_path (trunk, hole, turn * f->plot_width_px);
              cairo_set_line_width (c->cr, 2 * f->scale_ratio);
              cairo_stroke (c->cr);
            }
          cairo_restore (c->cr);
        }
    }
}

static void
draw_box (const FrTrunk *trunk)
{
  const FrCanvas *c = &trunk->canvas;
  const FrTrunkTarget *target = trunk->view->targets;
  double s = trunk->frame.scale_ratio;

  if (trunk->view->n_targets == 0 || !fr_trunk_target_is_drawn (target) || !(trunk->view->sideways_m > 0)
      || !(trunk->view->up_down_m > 0))
    return;
  for (int shift = -1; shift <= 1; shift++)
    {
      double shift_px = shift * trunk->frame.plot_width_px;
      box_path (trunk, target, shift_px);
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_ACCENT, 0.14);
      cairo_fill (c->cr);
      draw_overlap (trunk, target, shift_px);
      box_path (trunk, target, shift_px);
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_ACCENT, 1);
      cairo_set_line_width (c->cr, (c->palette->high_contrast ? 2.2 : 1.5) * s);
      fr_canvas_dash (c, 4.5 * s, 3 * s);
      cairo_stroke (c->cr);
      fr_canvas_dash (c, 0, 0);
    }
}

static void
hole_mark (const FrCanvas *c, FrTrunkHoleState state, double x, double y)
{
  double s = c->scale_ratio, r = FR_TRUNK_DOT_PX * s;
  cairo_t *cr = c->cr;

  cairo_set_line_join (cr, CAIRO_LINE_JOIN_MITER);
  switch (state)
    {
    case FR_TRUNK_HOLE_SET:
    case FR_TRUNK_HOLE_PLANNED:
      cairo_move_to (cr, x - 6.4 * s, y - 5.6 * s);
      cairo_line_to (cr, x + 6.4 * s, y - 5.6 * s);
      cairo_line_to (cr, x, y + 6.6 * s);
      cairo_close_path (cr);
      fr_palette_set_source (c->palette, cr, state == FR_TRUNK_HOLE_SET ? FR_ROLE_INK : FR_ROLE_CARD, 1);
      cairo_fill_preserve (cr);
      fr_palette_set_source (c->palette, cr, FR_ROLE_INK, 1);
      cairo_set_line_width (cr, 1.6 * s);
      if (state == FR_TRUNK_HOLE_PLANNED)
        cairo_stroke (cr);
      cairo_new_path (cr);
      break;
    case FR_TRUNK_HOLE_OPEN:
      cairo_arc (cr, x, y, r, 0, 2 * G_PI);
      fr_palette_set_source (c->palette, cr, FR_ROLE_CARD, 1);
      cairo_fill_preserve (cr);
      fr_palette_set_source (c->palette, cr, FR_ROLE_INK, 1);
      cairo_set_line_width (cr, 2 * s);
      cairo_stroke (cr);
      break;
    case FR_TRUNK_HOLE_CLOSED:
    default:
      cairo_arc (cr, x, y, r, 0, 2 * G_PI);
      fr_palette_set_source (c->palette, cr, FR_ROLE_INK, 1);
      cairo_fill (cr);
      break;
    }
}

static void
draw_holes (const FrTrunk *trunk)
{
  const FrCanvas *c = &trunk->canvas;

  for (gsize i = 0; i < trunk->view->n_holes; i++)
    {
      const FrTrunkHole *hole = &trunk->view->holes[i];
      if (!fr_trunk_hole_is_drawn (hole))
        continue;
      for (int shift = -1; shift <= 1; shift++)
        {
          double x
              = fr_trunk_x_from_angle (&trunk->frame, hole->angle_deg) + shift * trunk->frame.plot_width_px;
          double y = fr_trunk_y_from_height (&trunk->frame, hole->height_m);
          hole_mark (c, hole->state, x, y);
          if (!hole->is_selected)
            continue;
          cairo_arc (c->cr, x, y, (FR_TRUNK_DOT_PX + 5) * c->scale_ratio, 0, 2 * G_PI);
          fr_palette_set_source (c->palette, c->cr, FR_ROLE_ACCENT, 1);
          cairo_set_line_width (c->cr, 2.2 * c->scale_ratio);
          cairo_stroke (c->cr);
        }
    }
}

static void
target_mark (const FrCanvas *c, double x, double y, gboolean is_first, gboolean is_focused)
{
  double s = c->scale_ratio, r = FR_TRUNK_TARGET_PX * s;
  cairo_t *cr = c->cr;

  if (!is_first)
    {
      cairo_arc (cr, x, y, 0.75 * r, 0, 2 * G_PI);
      fr_palette_set_source (c->palette, cr, FR_ROLE_CARD, 0.8);
      cairo_fill_preserve (cr);
      fr_palette_set_source (c->palette, cr, FR_ROLE_ACCENT, 1);
      cairo_set_line_width (cr, 1.8 * s);
      cairo_stroke (cr);
      return;
    }
  cairo_arc (cr, x, y, r + 1.5 * s, 0, 2 * G_PI);
  fr_palette_set_source (c->palette, cr, FR_ROLE_CARD, 0.9);
  cairo_fill (cr);
  cairo_arc (cr, x, y, r, 0, 2 * G_PI);
  fr_palette_set_source (c->palette, cr, FR_ROLE_ACCENT, 1);
  cairo_fill (cr);
  cairo_arc (cr, x, y, 0.36 * r, 0, 2 * G_PI);
  fr_palette_set_source (c->palette, cr, FR_ROLE_ON_ACCENT, 1);
  cairo_fill (cr);
  if (!is_focused)
    return;
  fr_palette_set_source (c->palette, cr, FR_ROLE_ACCENT, 1);
  cairo_set_line_width (cr, 2 * s);
  cairo_arc (cr, x, y, r + 5 * s, 0, 2 * G_PI);
  cairo_stroke (cr);
}

static void
draw_targets (const FrTrunk *trunk)
{
  for (gsize i = trunk->view->n_targets; i-- > 0;)
    {
      const FrTrunkTarget *target = &trunk->view->targets[i];
      if (!fr_trunk_target_is_drawn (target))
        continue;
      for (int shift = -1; shift <= 1; shift++)
        target_mark (
            &trunk->canvas,
            fr_trunk_x_from_angle (&trunk->frame, target->angle_deg) + shift * trunk->frame.plot_width_px,
            fr_trunk_y_from_height (&trunk->frame, target->height_m), i == 0, trunk->view->is_focused);
    }
}

FrTrunkFrame
fr_trunk_draw (cairo_t *cr, PangoContext *context, const FrPalette *palette, const FrTrunkView *view,
               double width_px, double height_px, double text_scale, GArray *labels)
{
  FrTrunk trunk = { .view = view };

  fr_canvas_init (&trunk.canvas, cr, context, palette, width_px, height_px, text_scale);
  trunk.frame = frame_of (&trunk.canvas, view);
  const FrTrunkFrame *f = &trunk.frame;

  cairo_save (cr);
  cairo_save (cr);
  cairo_rectangle (cr, f->plot_x_px, f->plot_y_px, f->plot_width_px, f->plot_height_px);
  cairo_clip (cr);
  draw_bark (&trunk);
  draw_stains (&trunk);
  draw_limits (&trunk);
  draw_box (&trunk);
  draw_holes (&trunk);
  draw_targets (&trunk);
  cairo_restore (cr);
  /* On paper, where the wood has next to no tint, the edge holds it together. */
  if (palette->theme == FR_THEME_PAPER || palette->high_contrast)
    {
      cairo_rectangle (cr, f->plot_x_px, f->plot_y_px, f->plot_width_px, f->plot_height_px);
      fr_palette_set_source (palette, cr, FR_ROLE_AXIS, 1);
      cairo_set_line_width (cr, 0.8);
      cairo_stroke (cr);
    }
  fr_trunk_place_axes (&trunk);
  fr_trunk_place_names (&trunk);
  fr_trunk_place_empty (&trunk);
  fr_canvas_flush (&trunk.canvas, labels);
  cairo_restore (cr);
  FrTrunkFrame frame = trunk.frame;
  fr_canvas_clear (&trunk.canvas);
  return frame;
}
