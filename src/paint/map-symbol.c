/* A tree's symbol: the outline says the group, its dashes weakness, the cup the shading, a cross "do not
 * tap", a triangle a hazard, rings what is chosen. All four outlines of one radius have the area of the
 * circle, so that thickness compares across groups. For the screen each look is drawn once into a small
 * picture, with the radius rounded to half a pixel and the cup to a twenty-fourth, and put down at whole
 * pixels. */
#include "paint/map-private.h"

#include <math.h>

/* Larger ones are few and drawn afresh. */
#define MOST_SPRITE_RADIUS_PX 48.0
#define MOST_SPRITE_BYTES (24u << 20)
#define CUP_STEPS 24
/* From here down the symbol is a dot. */
#define DOT_RADIUS_PX 4.5
#define FAR_PX_PER_M 4.0
#define LEAST_RADIUS_PX 3.0
#define RIM_PX 4.0
#define SMALLEST_TRUNK_M 0.10
#define LARGEST_TRUNK_M 10.0

/* How near the sides of an outline come to its middle, for a radius of 1. */
static const double side_ratios[] = { 1, 0.905, 0.9523, 0.8862 };

static const FrRole roles[] = { FR_ROLE_TREE_HARD, FR_ROLE_TREE_SOFT, FR_ROLE_TREE_OTHER, FR_ROLE_TREE_NONE };

double
fr_map_radius_px (const FrMapView *view, double diameter_m)
{
  double scale = fr_map_scale (view);
  double at = view->viewport.px_per_m / scale;
  const double knee = FR_SCREEN_PX_PER_M / 150;
  double half_m
      = (isfinite (diameter_m) && diameter_m > 0 ? MIN (diameter_m, LARGEST_TRUNK_M) : SMALLEST_TRUNK_M) / 2;
  double rim = RIM_PX * CLAMP (1 - (at - knee) / (2 * knee), 0, 1);
  double radius = rim + half_m * MAX (at, knee);

  if (at < FAR_PX_PER_M)
    radius = MAX (radius * at / FAR_PX_PER_M, LEAST_RADIUS_PX);
  return scale * MAX (radius, LEAST_RADIUS_PX);
}

FrMapLook
fr_map_look (const FrMapView *view, const FrMapTree *tree)
{
  FrMapLook look = {
    .group = tree->group,
    .radius_px = fr_map_radius_px (view, tree->diameter_m),
    .scale_ratio = fr_map_scale (view),
    .level_ratio = tree->level_ratio,
    .is_weak = tree->is_weak,
    .is_off = tree->is_off,
    .has_hazard = tree->has_hazard,
    .is_unknown = !(tree->diameter_m > 0),
    .is_selected = tree->is_selected,
    .is_hovered = tree->is_hovered,
    .is_focused = tree->is_focused,
    .is_dimmed = tree->is_dimmed && !tree->is_selected,
  };

  return look;
}

void
fr_map_outline (cairo_t *cr, FrMapGroup group, double x_px, double y_px, double radius_px)
{
  double half, corner;

  cairo_new_sub_path (cr);
  switch (group)
    {
    case FR_MAP_GROUP_SOFT:
      /* Rounding the corners takes (4 − π) corner² away, given back by the side. */
      half = 0.905 * radius_px;
      corner = 0.3 * half;
      cairo_arc (cr, x_px + half - corner, y_px - half + corner, corner, -G_PI / 2, 0);
      cairo_arc (cr, x_px + half - corner, y_px + half - corner, corner, 0, G_PI / 2);
      cairo_arc (cr, x_px - half + corner, y_px + half - corner, corner, G_PI / 2, G_PI);
      cairo_arc (cr, x_px - half + corner, y_px - half + corner, corner, G_PI, 1.5 * G_PI);
      break;
    case FR_MAP_GROUP_OTHER:
      half = radius_px * sqrt (G_PI / (1.5 * sqrt (3)));
      for (int i = 0; i < 6; i++)
        cairo_line_to (cr, x_px + half * sin (i * G_PI / 3), y_px - half * cos (i * G_PI / 3));
      break;
    case FR_MAP_GROUP_NONE:
      half = radius_px * sqrt (G_PI / 2);
      cairo_line_to (cr, x_px, y_px - half);
      cairo_line_to (cr, x_px + half, y_px);
      cairo_line_to (cr, x_px, y_px + half);
      cairo_line_to (cr, x_px - half, y_px);
      break;
    case FR_MAP_GROUP_HARD:
    default:
      cairo_arc (cr, x_px, y_px, radius_px, 0, 2 * G_PI);
      break;
    }
  cairo_close_path (cr);
}

/* From the middle of the symbol up to its highest point. */
static double
half_height (FrMapGroup group, double radius_px)
{
  switch (group)
    {
    case FR_MAP_GROUP_SOFT:
      return 0.905 * radius_px;
    case FR_MAP_GROUP_OTHER:
      return radius_px * sqrt (G_PI / (1.5 * sqrt (3)));
    case FR_MAP_GROUP_NONE:
      return radius_px * sqrt (G_PI / 2);
    case FR_MAP_GROUP_HARD:
    default:
      return radius_px;
    }
}

static void
draw_cup (cairo_t *cr, const FrPalette *palette, const FrMapLook *look, double x, double y, double line)
{
  double inner = look->radius_px - line - 0.2 * look->scale_ratio;
  double half = half_height (look->group, inner);
  double level = CLAMP (look->level_ratio, 0, 1);
  FrRgba fill = fr_rgba_mix (fr_palette_color (palette, FR_ROLE_CARD),
                             fr_palette_color (palette, roles[look->group]), 0.58);

  if (!(level > 0) || inner <= 0)
    return;
  double top = y + half - 2 * half * level;
  cairo_save (cr);
  fr_map_outline (cr, look->group, x, y, inner);
  cairo_clip (cr);
  cairo_set_source_rgb (cr, fill.red, fill.green, fill.blue);
  cairo_rectangle (cr, x - 2 * look->radius_px, top, 4 * look->radius_px, 2 * half * level + 1);
  cairo_fill (cr);
  /* The surface as a line of its own, so that a half-full cup reads on any grey. */
  if (level < 1 && look->radius_px > DOT_RADIUS_PX * look->scale_ratio)
    {
      fr_palette_set_source (palette, cr, roles[look->group], 1);
      cairo_set_line_width (cr, MIN (1.2, 0.5 * line) * (palette->high_contrast ? 1.5 : 1));
      cairo_move_to (cr, x - 2 * look->radius_px, top);
      cairo_line_to (cr, x + 2 * look->radius_px, top);
      cairo_stroke (cr);
    }
  cairo_restore (cr);
}

static void
draw_hazard (cairo_t *cr, const FrPalette *palette, const FrMapLook *look, double x, double y)
{
  double size = CLAMP (0.55 * look->radius_px, 4 * look->scale_ratio, 8 * look->scale_ratio);
  double away = 0.707 * look->radius_px + 0.45 * size;

  x += away;
  y -= away;
  cairo_move_to (cr, x, y - 0.62 * size);
  cairo_line_to (cr, x + 0.72 * size, y + 0.6 * size);
  cairo_line_to (cr, x - 0.72 * size, y + 0.6 * size);
  cairo_close_path (cr);
  fr_palette_set_source (palette, cr, FR_ROLE_GROUND, 1);
  cairo_set_line_width (cr, 3 * look->scale_ratio);
  cairo_stroke_preserve (cr);
  fr_palette_set_source (palette, cr, FR_ROLE_WARNING, 1);
  cairo_fill (cr);
  /* An upright stroke inside once there is room for it. */
  if (size < 5.5 * look->scale_ratio)
    return;
  fr_palette_set_source (palette, cr, FR_ROLE_CARD, 1);
  cairo_set_line_width (cr, 0.17 * size);
  cairo_move_to (cr, x, y - 0.22 * size);
  cairo_line_to (cr, x, y + 0.2 * size);
  cairo_move_to (cr, x, y + 0.32 * size);
  cairo_line_to (cr, x, y + 0.46 * size);
  cairo_stroke (cr);
}

static void
draw_rings (cairo_t *cr, const FrPalette *palette, const FrMapLook *look, double x, double y)
{
  double s = look->scale_ratio;
  double more = palette->high_contrast ? 1.4 : 1;

  fr_palette_set_source (palette, cr, FR_ROLE_ACCENT, 1);
  if (look->is_selected || look->is_hovered)
    {
      cairo_set_line_width (cr, (look->is_selected ? 2.5 : 1) * s * more);
      fr_map_outline (cr, look->group, x, y, look->radius_px + 6 * s);
      cairo_stroke (cr);
    }
  if (look->is_focused)
    {
      double dash[2] = { 0, 3.6 * s };
      cairo_set_dash (cr, dash, 2, 0);
      cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
      cairo_set_line_width (cr, 2 * s);
      fr_map_outline (cr, look->group, x, y, look->radius_px + (look->is_selected ? 2.9 : 4) * s);
      cairo_stroke (cr);
      cairo_set_dash (cr, NULL, 0, 0);
      cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
    }
}

static double
outline_px (const FrMapLook *look, const FrPalette *palette)
{
  double line = CLAMP (0.2 * look->radius_px, 1.3 * look->scale_ratio, 2.0 * look->scale_ratio);

  if (look->is_unknown)
    line *= 0.6;
  return palette->high_contrast ? 1.4 * line : line;
}

void
fr_map_look_draw (cairo_t *cr, const FrPalette *palette, const FrMapLook *look, double x_px, double y_px)
{
  double r = look->radius_px, s = look->scale_ratio, line = outline_px (look, palette);

  cairo_save (cr);
  if (look->is_dimmed)
    cairo_push_group (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  fr_map_outline (cr, look->group, x_px, y_px, r);
  fr_palette_set_source (palette, cr, FR_ROLE_CARD, 1);
  cairo_fill (cr);
  draw_cup (cr, palette, look, x_px, y_px, line);

  fr_palette_set_source (palette, cr, roles[look->group], 1);
  cairo_set_line_width (cr, line);
  if (look->is_weak)
    {
      /* As many dashes as come out even round the symbol. */
      double n = MAX (5, round (2 * G_PI * r / (5.6 * s)));
      double dash[2] = { 0.58 * 2 * G_PI * r / n, 0.42 * 2 * G_PI * r / n };
      cairo_set_dash (cr, dash, 2, 0);
    }
  /* The line's outer edge is the outline: its sides lie nearer to the middle than the radius. */
  fr_map_outline (cr, look->group, x_px, y_px, r - line / 2 / side_ratios[look->group]);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
  if (look->is_off)
    {
      double arm = MAX (0.54 * r, 2.2 * s);
      fr_palette_set_source (palette, cr, FR_ROLE_INK, 1);
      cairo_set_line_width (cr, MAX (line, 1.4 * s));
      cairo_move_to (cr, x_px - arm, y_px - arm);
      cairo_line_to (cr, x_px + arm, y_px + arm);
      cairo_move_to (cr, x_px - arm, y_px + arm);
      cairo_line_to (cr, x_px + arm, y_px - arm);
      cairo_stroke (cr);
    }
  if (look->has_hazard)
    draw_hazard (cr, palette, look, x_px, y_px);
  if (look->is_dimmed)
    {
      cairo_pop_group_to_source (cr);
      cairo_paint_with_alpha (cr, palette->high_contrast ? 0.5 : 0.35);
    }
  draw_rings (cr, palette, look, x_px, y_px);
  cairo_restore (cr);
}

static guint64
key_of (const FrMapLook *look)
{
  guint64 key = (guint64)lround (2 * look->radius_px);

  key = key * (CUP_STEPS + 2)
        + (isfinite (look->level_ratio) ? 1 + (guint64)lround (CLAMP (look->level_ratio, 0, 1) * CUP_STEPS)
                                        : 0);
  key = key * 4 + look->group;
  key = key * 256
        + (guint64)((look->is_weak != 0) | (look->is_off != 0) << 1 | (look->has_hazard != 0) << 2
                    | (look->is_unknown != 0) << 3 | (look->is_selected != 0) << 4
                    | (look->is_hovered != 0) << 5 | (look->is_focused != 0) << 6
                    | (look->is_dimmed != 0) << 7);
  return key;
}

static cairo_surface_t *
make_sprite (const FrMapFrame *frame, const FrMapLook *look)
{
  FrMapLook rounded = *look;
  gboolean ringed = look->is_selected || look->is_hovered || look->is_focused;

  rounded.radius_px = lround (2 * look->radius_px) / 2.0;
  if (isfinite (look->level_ratio))
    rounded.level_ratio = (double)lround (CLAMP (look->level_ratio, 0, 1) * CUP_STEPS) / CUP_STEPS;
  double reach = rounded.radius_px * (look->group == FR_MAP_GROUP_NONE ? 1.26 : 1.1);
  if (look->has_hazard)
    reach = MAX (reach, 0.707 * rounded.radius_px + 16 * look->scale_ratio);
  reach += (ringed ? 11 : 2) * look->scale_ratio;
  int half = (int)ceil (reach * frame->device_ratio);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 2 * half, 2 * half);
  cairo_surface_set_device_scale (surface, frame->device_ratio, frame->device_ratio);
  cairo_t *cr = cairo_create (surface);
  fr_map_look_draw (cr, frame->palette, &rounded, half / frame->device_ratio, half / frame->device_ratio);
  cairo_destroy (cr);
  frame->cache->sprite_bytes += (gsize)(2 * half) * (gsize)(2 * half) * 4;
  return surface;
}

void
fr_map_look_put (const FrMapFrame *frame, const FrMapLook *look, double x_px, double y_px)
{
  FrMapCache *cache = frame->cache;

  if (cache->is_bare || look->radius_px > MOST_SPRITE_RADIUS_PX)
    {
      fr_map_look_draw (frame->cr, frame->palette, look, x_px, y_px);
      return;
    }
  guint64 key = key_of (look);
  cairo_surface_t *sprite = g_hash_table_lookup (cache->sprites, &key);
  if (sprite == NULL)
    {
      if (cache->sprite_bytes > MOST_SPRITE_BYTES)
        {
          g_hash_table_remove_all (cache->sprites);
          cache->sprite_bytes = 0;
        }
      sprite = make_sprite (frame, look);
      g_hash_table_insert (cache->sprites, g_memdup2 (&key, sizeof key), sprite);
    }
  double device = frame->device_ratio;
  double half = cairo_image_surface_get_width (sprite) / 2.0;
  cairo_set_source_surface (frame->cr, sprite, (round (x_px * device) - half) / device,
                            (round (y_px * device) - half) / device);
  cairo_paint (frame->cr);
}

/* From the middle to the outline in a direction clockwise from straight up. */
static double
rim_px (FrMapGroup group, double radius_px, double angle)
{
  double across = fabs (sin (angle)), up = fabs (cos (angle)), half;

  switch (group)
    {
    case FR_MAP_GROUP_SOFT:
      /* The corners are rounded off at about 1.24 of the half side. */
      half = 0.905 * radius_px;
      return MIN (half / MAX (across, up), 1.24 * half);
    case FR_MAP_GROUP_OTHER:
      half = half_height (group, radius_px);
      return half * cos (G_PI / 6) / cos (fmod (fmod (angle, G_PI / 3) + G_PI / 3, G_PI / 3) - G_PI / 6);
    case FR_MAP_GROUP_NONE:
      return half_height (group, radius_px) / (across + up);
    case FR_MAP_GROUP_HARD:
    default:
      return radius_px;
    }
}

static double
wedge_px (double radius_px, double scale_ratio)
{
  return CLAMP (0.66 * radius_px, 3.6 * scale_ratio, 9 * scale_ratio);
}

/* Where tap @i of @n stands, clockwise from straight up on the drawing. */
static double
side_deg (const double *deg, guint i, guint n, double rotation_deg, double shift_deg)
{
  if (isfinite (deg[i]))
    return deg[i] + rotation_deg;
  return 180 + shift_deg - (i - (n - 1) / 2.0) * 50;
}

gboolean
fr_map_wedges (cairo_t *cr, const FrMapTree *tree, double rotation_deg, double x_px, double y_px,
               double radius_px, double scale_ratio, gboolean planned)
{
  guint n = MIN (planned ? tree->n_planned : tree->n_set, FR_MAP_MOST_TAPS);
  const double *deg = planned ? tree->planned_deg : tree->set_deg;
  double size = wedge_px (radius_px, scale_ratio);

  if (n == 0 || radius_px < DOT_RADIUS_PX * scale_ratio)
    return FALSE;
  for (guint i = 0; i < n; i++)
    {
      /* Planned ones of unknown side stand beside set ones of unknown side. */
      double shift = planned && tree->n_set > 0 ? 50.0 * (tree->n_set + n) / 2 : 0;
      double angle = side_deg (deg, i, n, rotation_deg, shift) * G_PI / 180;
      double rx = sin (angle), ry = -cos (angle);
      double base = rim_px (tree->group, radius_px, angle) - 0.12 * size;
      double bx = x_px + base * rx, by = y_px + base * ry;
      cairo_move_to (cr, bx - 0.48 * size * ry, by + 0.48 * size * rx);
      cairo_line_to (cr, bx + 0.48 * size * ry, by - 0.48 * size * rx);
      cairo_line_to (cr, bx + size * rx, by + size * ry);
      cairo_close_path (cr);
    }
  return TRUE;
}

void
fr_map_reach (const FrMapView *view, const FrMapTree *tree, double reach_px[4])
{
  double r = fr_map_radius_px (view, tree->diameter_m), s = fr_map_scale (view);
  double own = half_height (tree->group, r) + 1;
  double size = wedge_px (r, s);

  if (tree->is_selected || tree->is_hovered || tree->is_focused)
    own = half_height (tree->group, r + 7.5 * s);
  for (guint side = 0; side < 4; side++)
    reach_px[side] = own;
  if (tree->has_hazard)
    {
      reach_px[1] = MAX (reach_px[1], 0.707 * r + 9 * s);
      reach_px[2] = MAX (reach_px[2], 0.707 * r + 10 * s);
    }
  if (r < DOT_RADIUS_PX * s)
    return;
  for (guint kind = 0; kind < 2; kind++)
    {
      const double *deg = kind ? tree->planned_deg : tree->set_deg;
      guint n = MIN (kind ? tree->n_planned : tree->n_set, FR_MAP_MOST_TAPS);
      double shift = kind && tree->n_set > 0 ? 50.0 * (tree->n_set + n) / 2 : 0;
      for (guint i = 0; i < n; i++)
        {
          double angle = side_deg (deg, i, n, view->viewport.rotation_deg, shift) * G_PI / 180;
          double tip = rim_px (tree->group, r, angle) + 0.9 * size;
          reach_px[0] = MAX (reach_px[0], -sin (angle) * tip);
          reach_px[1] = MAX (reach_px[1], cos (angle) * tip);
          reach_px[2] = MAX (reach_px[2], sin (angle) * tip);
          reach_px[3] = MAX (reach_px[3], -cos (angle) * tip);
        }
    }
}

void
fr_map_symbol_draw (cairo_t *cr, const FrPalette *palette, const FrMapTree *tree, double x_px, double y_px,
                    double radius_px)
{
  FrMapView view = { .scale_ratio = 1 };
  FrMapLook look = fr_map_look (&view, tree);

  /* In a list thickness stands beside it in words. */
  look.radius_px = radius_px;
  look.is_unknown = FALSE;
  fr_map_look_draw (cr, palette, &look, x_px, y_px);
  cairo_save (cr);
  if (fr_map_wedges (cr, tree, 0, x_px, y_px, radius_px, 1, FALSE))
    {
      fr_palette_set_source (palette, cr, FR_ROLE_INK, tree->is_dimmed ? 0.35 : 1);
      cairo_fill (cr);
    }
  if (fr_map_wedges (cr, tree, 0, x_px, y_px, radius_px, 1, TRUE))
    {
      fr_palette_set_source (palette, cr, FR_ROLE_CARD, 1);
      cairo_fill_preserve (cr);
      fr_palette_set_source (palette, cr, FR_ROLE_INK, tree->is_dimmed ? 0.35 : 1);
      cairo_set_line_width (cr, 1.2);
      cairo_stroke (cr);
    }
  cairo_restore (cr);
}
