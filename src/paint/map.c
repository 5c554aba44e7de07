/* The order of drawing: ground, picture, paths, buildings, the round, trees from pale to chosen, their taps,
 * what is under way with the pointer, names, furniture. The wedges of all taps are one path, filled at once.
 */
#include "paint/map-private.h"

#include <math.h>

typedef struct
{
  const FrMapFrame *frame;
  guint8 pass;
} Pass;

enum
{
  PASS_DIMMED,
  PASS_PLAIN,
  PASS_CHOSEN,
  N_PASSES
};

static guint8
pass_of (const FrMapTree *tree)
{
  if (tree->is_selected || tree->is_focused || tree->is_hovered)
    return PASS_CHOSEN;
  return tree->is_dimmed ? PASS_DIMMED : PASS_PLAIN;
}

static void
put_tree (guint index, gpointer data)
{
  const Pass *pass = data;
  const FrMapTree *tree = &pass->frame->view->trees[index];
  double x, y;

  if (pass_of (tree) != pass->pass)
    return;
  FrMapLook look = fr_map_look (pass->frame->view, tree);
  fr_viewport_to_screen (&pass->frame->view->viewport, tree->x_m, tree->y_m, &x, &y);
  fr_map_look_put (pass->frame, &look, x, y);
}

typedef struct
{
  const FrMapFrame *frame;
  gboolean planned;
  gboolean dimmed;
  gboolean any;
} Wedges;

static void
add_wedges (guint index, gpointer data)
{
  Wedges *wedges = data;
  const FrMapView *view = wedges->frame->view;
  const FrMapTree *tree = &view->trees[index];
  double x, y, device = wedges->frame->device_ratio;

  if ((wedges->planned ? tree->n_planned : tree->n_set) == 0
      || (tree->is_dimmed && !tree->is_selected) != wedges->dimmed)
    return;
  fr_viewport_to_screen (&view->viewport, tree->x_m, tree->y_m, &x, &y);
  if (!wedges->frame->cache->is_bare)
    {
      x = round (x * device) / device;
      y = round (y * device) / device;
    }
  if (fr_map_wedges (wedges->frame->cr, tree, view->viewport.rotation_deg, x, y,
                     fr_map_radius_px (view, tree->diameter_m), wedges->frame->scale_ratio, wedges->planned))
    wedges->any = TRUE;
}

static void
draw_trees (const FrMapFrame *frame)
{
  const FrMapView *view = frame->view;
  cairo_t *cr = frame->cr;
  double reach = fr_map_radius_px (view, frame->cache->largest_diameter_m) * 1.3 + 16 * frame->scale_ratio;
  FrPlanBox seen = fr_viewport_bounds (&view->viewport, reach);

  for (guint8 p = 0; p < N_PASSES; p++)
    {
      Pass pass = { frame, p };
      fr_map_cache_visit (frame->cache, view, &seen, put_tree, &pass);
    }
  cairo_new_path (cr);
  for (guint k = 0; k < 4; k++)
    {
      Wedges wedges = { frame, k & 1, k < 2, FALSE };
      double alpha = wedges.dimmed ? 0.35 : 1;
      fr_map_cache_visit (frame->cache, view, &seen, add_wedges, &wedges);
      if (!wedges.any)
        continue;
      cairo_set_line_join (cr, CAIRO_LINE_JOIN_MITER);
      fr_palette_set_source (frame->palette, cr, wedges.planned ? FR_ROLE_CARD : FR_ROLE_INK, alpha);
      if (wedges.planned)
        {
          cairo_fill_preserve (cr);
          fr_palette_set_source (frame->palette, cr, FR_ROLE_INK, alpha);
          cairo_set_line_width (cr, (frame->palette->high_contrast ? 1.7 : 1.2) * frame->scale_ratio);
          cairo_stroke (cr);
        }
      else
        cairo_fill (cr);
    }
}

static void
draw_round (const FrMapFrame *frame)
{
  const FrMapRound *way = frame->view->round;
  double s = frame->scale_ratio;

  if (way == NULL || way->n_points < 2)
    return;
  fr_palette_set_source (frame->palette, frame->cr, FR_ROLE_ACCENT, 1);
  cairo_set_line_width (frame->cr, (frame->palette->high_contrast ? 2.6 : 1.9) * s);
  cairo_set_line_cap (frame->cr, CAIRO_LINE_CAP_ROUND);
  fr_map_stroke_line (frame, way->points, way->n_points, FALSE, 0.01, 5 * s);
  cairo_set_line_cap (frame->cr, CAIRO_LINE_CAP_BUTT);
}

/* On the symbols, at the upper left, so that taps and hazards stay visible. */
static void
draw_numbers (const FrMapFrame *frame)
{
  const FrMapRound *way = frame->view->round;
  const FrViewport *v = &frame->view->viewport;
  cairo_t *cr = frame->cr;
  double s = frame->scale_ratio;

  if (way == NULL || way->numbers == NULL)
    return;
  for (gsize i = 0; i < way->n_points; i++)
    {
      double x, y, width, height;
      if (way->numbers[i] == 0)
        continue;
      fr_viewport_to_screen (v, way->points[i].x_m, way->points[i].y_m, &x, &y);
      if (!(x > -20 && y > -20 && x < v->width_px + 20 && y < v->height_px + 20))
        continue;
      g_autofree char *text = g_strdup_printf ("%u", way->numbers[i]);
      g_autoptr (PangoLayout) layout = fr_map_layout (frame, text, TRUE, 11.5);
      fr_layout_size (layout, &width, &height);
      double half = MAX (width / 2 + 4 * s, 8.5 * s), r = 8.5 * s;
      x -= 14 * s;
      y -= 14 * s;
      cairo_new_sub_path (cr);
      cairo_arc (cr, x + half - r, y, r, -G_PI / 2, G_PI / 2);
      cairo_arc (cr, x - half + r, y, r, G_PI / 2, 1.5 * G_PI);
      cairo_close_path (cr);
      fr_palette_set_source (frame->palette, cr, FR_ROLE_GROUND, 1);
      cairo_set_line_width (cr, 3 * s);
      cairo_stroke_preserve (cr);
      fr_palette_set_source (frame->palette, cr, FR_ROLE_ACCENT, 1);
      cairo_fill (cr);
      fr_palette_set_source (frame->palette, cr, FR_ROLE_ON_ACCENT, 1);
      cairo_move_to (cr, x - width / 2, y - height / 2);
      pango_cairo_show_layout (cr, layout);
      if (frame->labels != NULL)
        {
          FrLabelBox box = { x - width / 2, y - height / 2, width, height, g_strdup (text) };
          g_array_append_val (frame->labels, box);
        }
    }
}

static void
draw_ghosts (const FrMapFrame *frame)
{
  cairo_t *cr = frame->cr;
  double s = frame->scale_ratio, dash[2] = { 3 * s, 2 * s };

  for (gsize i = 0; i < frame->view->n_ghosts; i++)
    {
      const FrMapTree *ghost = &frame->view->ghosts[i];
      double x, y;
      if (!isfinite (ghost->x_m) || !isfinite (ghost->y_m))
        continue;
      fr_viewport_to_screen (&frame->view->viewport, ghost->x_m, ghost->y_m, &x, &y);
      double r = fr_map_radius_px (frame->view, ghost->diameter_m);
      fr_map_outline (cr, ghost->group, x, y, r);
      fr_palette_set_source (frame->palette, cr, FR_ROLE_CARD, 0.7);
      cairo_fill_preserve (cr);
      fr_palette_set_source (frame->palette, cr, FR_ROLE_ACCENT, 1);
      cairo_set_line_width (cr, 1.8 * s);
      cairo_set_dash (cr, dash, 2, 0);
      cairo_stroke (cr);
      cairo_set_dash (cr, NULL, 0, 0);
      /* The very point. */
      cairo_arc (cr, x, y, 1.6 * s, 0, 2 * G_PI);
      cairo_fill (cr);
    }
}

static void
draw_measure (const FrMapFrame *frame)
{
  const FrMapMeasure *m = frame->view->measure;
  cairo_t *cr = frame->cr;
  double s = frame->scale_ratio, x1, y1, x2, y2;

  if (m == NULL || !isfinite (m->from_x_m + m->from_y_m + m->to_x_m + m->to_y_m))
    return;
  FrGroundPoint points[2] = { { m->from_x_m, m->from_y_m }, { m->to_x_m, m->to_y_m } };
  fr_viewport_to_screen (&frame->view->viewport, m->from_x_m, m->from_y_m, &x1, &y1);
  fr_viewport_to_screen (&frame->view->viewport, m->to_x_m, m->to_y_m, &x2, &y2);
  fr_palette_set_source (frame->palette, cr, FR_ROLE_ACCENT, 1);
  cairo_set_line_width (cr, 1.8 * s);
  fr_map_stroke_line (frame, points, 2, FALSE, 0, 0);
  double length = hypot (x2 - x1, y2 - y1);
  if (length > 0)
    for (guint end = 0; end < 2; end++)
      {
        double x = end ? x2 : x1, y = end ? y2 : y1;
        double nx = -(y2 - y1) / length * 5 * s, ny = (x2 - x1) / length * 5 * s;
        cairo_move_to (cr, x - nx, y - ny);
        cairo_line_to (cr, x + nx, y + ny);
        cairo_stroke (cr);
      }
  if (m->text == NULL || m->text[0] == '\0')
    return;
  double width, height;
  g_autoptr (PangoLayout) layout = fr_map_layout (frame, m->text, TRUE, 12);
  fr_layout_size (layout, &width, &height);
  const FrViewport *v = &frame->view->viewport;
  double x = CLAMP ((x1 + x2) / 2 - width / 2, 6, MAX (v->width_px - width - 6, 6));
  double y = CLAMP ((y1 + y2) / 2 - height / 2 - 14 * s, 6, MAX (v->height_px - height - 6, 6));
  fr_map_text (frame, layout, x, y, FR_ROLE_ACCENT);
}

static void
draw_band (const FrMapFrame *frame)
{
  const FrMapView *v = frame->view;
  cairo_t *cr = frame->cr;
  double s = frame->scale_ratio, dash[2] = { 4 * s, 3 * s };

  if (!v->has_band)
    return;
  cairo_rectangle (
      cr, floor (MIN (v->band_x1_px, v->band_x2_px)) + 0.5, floor (MIN (v->band_y1_px, v->band_y2_px)) + 0.5,
      round (fabs (v->band_x2_px - v->band_x1_px)), round (fabs (v->band_y2_px - v->band_y1_px)));
  fr_palette_set_source (frame->palette, cr, FR_ROLE_ACCENT, 0.12);
  cairo_fill_preserve (cr);
  fr_palette_set_source (frame->palette, cr, FR_ROLE_ACCENT, 1);
  cairo_set_line_width (cr, frame->palette->high_contrast ? 2 : 1);
  cairo_set_dash (cr, dash, 2, 0);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
}

/* Pictures of symbols and names belong to one palette and one kind of screen. */
static void
check_palette (const FrMapFrame *frame)
{
  FrMapCache *cache = frame->cache;

  if (cache->palette.theme == frame->palette->theme
      && cache->palette.high_contrast == frame->palette->high_contrast
      && cache->device_ratio == frame->device_ratio)
    return;
  g_hash_table_remove_all (cache->sprites);
  cache->sprite_bytes = 0;
  fr_map_names_clear (cache);
  cache->palette = *frame->palette;
  cache->device_ratio = frame->device_ratio;
}

void
fr_map_draw (cairo_t *cr, PangoContext *context, const FrPalette *palette, const FrMapView *view,
             FrMapCache *cache, GArray *labels)
{
  g_autoptr (FrMapCache) own = NULL;

  g_return_if_fail (cr != NULL && PANGO_IS_CONTEXT (context) && palette != NULL && view != NULL);
  g_return_if_fail (view->viewport.px_per_m > 0);

  if (cache == NULL)
    {
      cache = own = fr_map_cache_new ();
      cache->is_bare = TRUE;
    }
  FrMapFrame frame = { .cr = cr,
                       .context = context,
                       .palette = palette,
                       .view = view,
                       .cache = cache,
                       .scale_ratio = fr_map_scale (view),
                       .device_ratio = view->device_ratio > 0 ? view->device_ratio : 1,
                       .labels = labels };
  frame.furniture = g_array_new (FALSE, FALSE, sizeof (FrBox));
  check_palette (&frame);
  fr_map_cache_ready (cache, view);

  cairo_save (cr);
  cairo_rectangle (cr, 0, 0, view->viewport.width_px, view->viewport.height_px);
  cairo_clip (cr);
  if (!view->keeps_ground)
    {
      fr_palette_set_source (palette, cr, FR_ROLE_GROUND, 1);
      cairo_paint (cr);
    }
  fr_map_draw_picture (&frame);
  fr_map_draw_shapes (&frame);
  draw_round (&frame);
  draw_trees (&frame);
  draw_ghosts (&frame);
  fr_map_furniture_boxes (&frame);
  fr_map_names_place (&frame);
  fr_map_names_draw (&frame);
  draw_numbers (&frame);
  draw_measure (&frame);
  draw_band (&frame);
  fr_map_draw_furniture (&frame);
  cairo_restore (cr);
  g_array_unref (frame.furniture);
}
