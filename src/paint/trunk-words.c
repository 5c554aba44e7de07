/* The words on the trunk: heights and compass round it, years and targets on it. A word never lies on a mark
 * or another word; it tries the eight places round its hole and goes without when none is free. */
#include "paint/trunk-private.h"

#define NAME_PX 11.5

/* The step between height labels: 1, 2 or 5 times a power of ten of the unit, with room for the words. */
static double
tick_step (const FrTrunkFrame *frame, double unit_m, double line_px)
{
  double least = 1.7 * line_px / frame->plot_height_px * (frame->high_m - frame->low_m) / unit_m;
  double ten = pow (10, floor (log10 (least)));

  if (!isfinite (least) || least <= 0)
    return NAN;
  return ten * (least <= ten ? 1 : least <= 2 * ten ? 2 : least <= 5 * ten ? 5 : 10);
}

char *
fr_trunk_height_text (double value)
{
  return g_strdup_printf ("%.0f", value == 0 ? 0.0 : value);
}

/* Marks keep words away, also where they come back at the other edge. */
static void
take_mark (FrTrunk *trunk, double angle_deg, double height_m, double half_px)
{
  for (int shift = -1; shift <= 1; shift++)
    {
      double x = fr_trunk_x_from_angle (&trunk->frame, angle_deg) + shift * trunk->frame.plot_width_px;
      double y = fr_trunk_y_from_height (&trunk->frame, height_m);
      fr_canvas_take (&trunk->canvas, (FrBox){ x - half_px, y - half_px, 2 * half_px, 2 * half_px });
    }
}

static void
put_name (FrTrunk *trunk, const char *text, double angle_deg, double height_m, double away_px, FrRole role)
{
  FrCanvas *c = &trunk->canvas;
  const FrTrunkFrame *f = &trunk->frame;
  FrRgba halo = fr_palette_color (c->palette, FR_ROLE_WOOD);
  double width, height, x = fr_trunk_x_from_angle (f, angle_deg), y = fr_trunk_y_from_height (f, height_m);
  g_autoptr (PangoLayout) layout = fr_canvas_text (c, NULL, text, NULL, NAME_PX);

  if (layout == NULL)
    return;
  fr_layout_size (layout, &width, &height);
  halo.alpha = 0.9f;
  const double offsets[8][2] = {
    { away_px, -height / 2 },
    { -away_px - width, -height / 2 },
    { -width / 2, -away_px - height + 2 },
    { -width / 2, away_px - 2 },
    { away_px - 2, -height },
    { away_px - 2, 0 },
    { -away_px - width + 2, -height },
    { -away_px - width + 2, 0 },
  };
  for (guint i = 0; i < 8; i++)
    {
      double at_x = x + offsets[i][0], at_y = y + offsets[i][1];
      if (at_x < f->plot_x_px + 1 || at_x + width > f->plot_x_px + f->plot_width_px - 1 || at_y < f->plot_y_px
          || at_y + height > f->plot_y_px + f->plot_height_px)
        continue;
      if (fr_canvas_try (c, layout, at_x, at_y, role, halo))
        return;
    }
}

void
fr_trunk_place_names (FrTrunk *trunk)
{
  const FrTrunkView *v = trunk->view;
  double s = trunk->frame.scale_ratio;

  for (gsize i = 0; i < v->n_holes; i++)
    if (fr_trunk_hole_is_drawn (&v->holes[i]))
      take_mark (trunk, v->holes[i].angle_deg, v->holes[i].height_m, (FR_TRUNK_DOT_PX + 1) * s);
  for (gsize i = 0; i < v->n_targets; i++)
    if (fr_trunk_target_is_drawn (&v->targets[i]))
      take_mark (trunk, v->targets[i].angle_deg, v->targets[i].height_m, (FR_TRUNK_TARGET_PX + 1) * s);
  for (gsize i = 0; i < v->n_targets; i++)
    if (fr_trunk_target_is_drawn (&v->targets[i]) && v->targets[i].label != NULL)
      put_name (trunk, v->targets[i].label, v->targets[i].angle_deg, v->targets[i].height_m,
                (FR_TRUNK_TARGET_PX + 4) * s, FR_ROLE_ACCENT);
  /* This season's holes first, then the youngest: the order the caller gives, from its end. */
  for (guint pass = 0; pass < 2; pass++)
    for (gsize i = v->n_holes; i-- > 0;)
      {
        const FrTrunkHole *hole = &v->holes[i];
        gboolean now
            = hole->is_selected || hole->state == FR_TRUNK_HOLE_SET || hole->state == FR_TRUNK_HOLE_PLANNED;
        if (now == (pass == 0) && fr_trunk_hole_is_drawn (hole) && hole->label != NULL)
          put_name (trunk, hole->label, hole->angle_deg, hole->height_m, (FR_TRUNK_DOT_PX + 4) * s,
                    FR_ROLE_INK);
      }
}

static void
put_height (FrTrunk *trunk, double height_m, gboolean is_limit)
{
  FrCanvas *c = &trunk->canvas;
  double width, height, y = fr_trunk_y_from_height (&trunk->frame, height_m);
  g_autofree char *text = fr_trunk_height_text (height_m / fr_trunk_unit_m (trunk->view));
  g_autoptr (PangoLayout) layout
      = fr_canvas_text (c, is_limit ? NULL : text, is_limit ? text : NULL, NULL, FR_TEXT_SMALL_PX);
  FrRgba none = { 0, 0, 0, 0 };

  fr_layout_size (layout, &width, &height);
  fr_canvas_try (c, layout, MAX (trunk->frame.plot_x_px - 7 * trunk->frame.scale_ratio - width, 0),
                 y - height / 2, is_limit ? FR_ROLE_INK : FR_ROLE_INK_SOFT, none);
}

void
fr_trunk_place_axes (FrTrunk *trunk)
{
  static const char *const letters[4] = { "N", "E", "S", "W" };
  const char *const *compass = trunk->view->compass != NULL ? trunk->view->compass : letters;
  FrCanvas *c = &trunk->canvas;
  const FrTrunkFrame *f = &trunk->frame;
  FrRgba none = { 0, 0, 0, 0 };
  double unit = fr_trunk_unit_m (trunk->view), step = tick_step (f, unit, c->line_px);
  double foot = f->plot_y_px + f->plot_height_px;

  if (isfinite (trunk->view->min_height_m))
    put_height (trunk, trunk->view->min_height_m, TRUE);
  if (isfinite (trunk->view->max_height_m))
    put_height (trunk, trunk->view->max_height_m, TRUE);
  for (double at = ceil (f->low_m / unit / step) * step; isfinite (step) && at * unit <= f->high_m;
       at += step)
    put_height (trunk, at * unit, FALSE);

  fr_palette_set_source (c->palette, c->cr, FR_ROLE_AXIS, 1);
  for (guint i = 0; i <= 4; i++)
    {
      double width, height, x = f->plot_x_px + f->plot_width_px * i / 4;
      fr_canvas_rule (c, x, foot, x, foot + 4 * f->scale_ratio, 1);
      g_autoptr (PangoLayout) layout = fr_canvas_text (c, compass[i % 4], NULL, NULL, FR_TEXT_SMALL_PX);
      if (layout == NULL)
        continue;
      fr_layout_size (layout, &width, &height);
      fr_canvas_try (c, layout, CLAMP (x - width / 2, 0, MAX (c->width_px - width, 0)),
                     foot + 5 * f->scale_ratio, FR_ROLE_INK_SOFT, none);
    }
}

void
fr_trunk_place_empty (FrTrunk *trunk)
{
  FrCanvas *c = &trunk->canvas;
  const FrTrunkFrame *f = &trunk->frame;
  FrRgba none = { 0, 0, 0, 0 };
  double width, height;

  for (gsize i = 0; i < trunk->view->n_holes; i++)
    if (fr_trunk_hole_is_drawn (&trunk->view->holes[i]))
      return;
  for (gsize i = 0; i < trunk->view->n_targets; i++)
    if (fr_trunk_target_is_drawn (&trunk->view->targets[i]))
      return;
  g_autoptr (PangoLayout) layout
      = fr_canvas_text (c, trunk->view->empty_sentence, NULL, NULL, FR_TEXT_SMALL_PX);
  if (layout == NULL)
    return;
  pango_layout_set_single_paragraph_mode (layout, FALSE);
  pango_layout_set_width (layout, (int)((f->plot_width_px - 16) * PANGO_SCALE));
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_alignment (layout, PANGO_ALIGN_CENTER);
  fr_layout_size (layout, &width, &height);
  if (height > f->plot_height_px - 4)
    return;
  pango_layout_set_width (layout, (int)(ceil (width) * PANGO_SCALE));
  fr_canvas_put (c, layout, f->plot_x_px + (f->plot_width_px - width) / 2,
                 f->plot_y_px + (f->plot_height_px - height) / 2, FR_ROLE_INK, none);
}
