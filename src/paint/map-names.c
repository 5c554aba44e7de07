/* Names on the map. Every symbol and building is an obstacle; then the chosen trees, the grounds' names and
 * the rest by rank look for room under their symbol, beside it, or above it, and go without when there is
 * none. The places depend on scale, turn and choice, not on where the view stands, so panning carries them
 * along and a frame only puts down pictures. Further out names keep more air round them, and far out only
 * chosen ones show. Boxes are looked up by cells, so the work grows with the number of trees, not its square.
 */
#include "paint/map-private.h"
#include "paint/map-room.h"

#include <math.h>
#include <string.h>

#define NAME_PX 12.0
#define MOST_NAME_PX 160.0
#define MOST_NAME_LETTERS 120
#define HALO_PX 3.4
#define MOST_NAME_BYTES (24u << 20)
#define GAP_PX 2.0
#define FAR_PX_PER_M 0.35
#define MOST_PINNED 12

static void
drop_sprite (FrMapCache *cache, FrMapName *name)
{
  if (name->sprite == NULL)
    return;
  cache->name_bytes -= (gsize)cairo_image_surface_get_stride (name->sprite)
                       * (gsize)cairo_image_surface_get_height (name->sprite);
  g_clear_pointer (&name->sprite, cairo_surface_destroy);
}

void
fr_map_names_clear (FrMapCache *cache)
{
  for (gsize i = 0; i < cache->n_names; i++)
    {
      drop_sprite (cache, &cache->names[i]);
      g_clear_object (&cache->names[i].layout);
    }
  g_clear_pointer (&cache->names, g_free);
  cache->n_names = 0;
  cache->name_bytes = 0;
  cache->names_signature = 0;
}

PangoLayout *
fr_map_layout (const FrMapFrame *frame, const char *text, gboolean is_bold, double size_px)
{
  PangoLayout *layout = pango_layout_new (frame->context);
  const PangoFontDescription *base = pango_context_get_font_description (frame->context);
  PangoFontDescription *font
      = base ? pango_font_description_copy (base) : pango_font_description_from_string ("Sans");

  pango_font_description_set_absolute_size (font, size_px * frame->scale_ratio * PANGO_SCALE);
  if (is_bold)
    pango_font_description_set_weight (font, PANGO_WEIGHT_BOLD);
  pango_layout_set_font_description (layout, font);
  pango_layout_set_single_paragraph_mode (layout, TRUE);
  pango_layout_set_text (layout, text, -1);
  pango_font_description_free (font);
  return layout;
}

static void
add_label (const FrMapFrame *frame, PangoLayout *layout, double x, double y, double width, double height)
{
  FrLabelBox box = { x, y, width, height, NULL };

  if (frame->labels == NULL)
    return;
  box.text = g_strdup (pango_layout_get_text (layout));
  g_array_append_val (frame->labels, box);
}

/* For paper the halo is a stroke of the letters' outlines. On the screen the letters themselves, put down
 * eight times around, come to the same and cost a fifth of it. */
static void
show (cairo_t *cr, const FrPalette *palette, PangoLayout *layout, double x, double y, FrRole role,
      double halo, gboolean is_bare)
{
  cairo_save (cr);
  fr_palette_set_source (palette, cr, FR_ROLE_GROUND, is_bare ? 0.88 : 0.6);
  if (is_bare)
    {
      cairo_move_to (cr, x, y);
      pango_cairo_layout_path (cr, layout);
      cairo_set_line_width (cr, halo);
      cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
      cairo_stroke (cr);
    }
  else
    for (guint i = 0; i < 8; i++)
      {
        cairo_move_to (cr, x + 0.45 * halo * cos (i * G_PI / 4), y + 0.45 * halo * sin (i * G_PI / 4));
        pango_cairo_show_layout (cr, layout);
      }
  fr_palette_set_source (palette, cr, role, 1);
  cairo_move_to (cr, x, y);
  pango_cairo_show_layout (cr, layout);
  cairo_restore (cr);
}

void
fr_map_text (const FrMapFrame *frame, PangoLayout *layout, double x_px, double y_px, FrRole role)
{
  double width, height;

  fr_layout_size (layout, &width, &height);
  show (frame->cr, frame->palette, layout, x_px, y_px, role, HALO_PX * frame->scale_ratio,
        frame->cache->is_bare);
  add_label (frame, layout, x_px, y_px, width, height);
}

/* What the places depend on, as one number. */
static guint64
signature_of (const FrMapFrame *frame)
{
  const FrMapView *view = frame->view;
  double parts[2] = { view->viewport.px_per_m, view->viewport.rotation_deg };
  guint64 hash = 0xcbf29ce484222325u, bits;

  for (guint i = 0; i < 2; i++)
    {
      memcpy (&bits, &parts[i], sizeof bits);
      hash = (hash ^ bits) * 0x100000001b3u;
    }
  for (gsize i = 0; i < view->n_trees; i++)
    {
      const FrMapTree *t = &view->trees[i];
      guint64 flags = (guint64)((t->is_selected != 0) | (t->is_focused != 0) << 1 | (t->is_dimmed != 0) << 2
                                | (t->has_hazard != 0) << 3)
                      | (guint64)t->n_set << 4 | (guint64)t->n_planned << 8;
      hash = (hash ^ flags) * 0x100000001b3u;
      hash ^= hash >> 29;
    }
  return hash == 0 ? 1 : hash;
}

/* On the map a name points at its tree; the whole of a long one stands in the list and the panel. Text that
 * is longer than any name is cut before it is laid out at all. */
static char *
beginning (const char *text)
{
  const char *end = text;

  for (guint i = 0; i < MOST_NAME_LETTERS && *end != '\0'; i++)
    end = g_utf8_next_char (end);
  return g_strndup (text, MIN ((gsize)(end - text), strlen (text)));
}

static PangoLayout *
name_layout (const FrMapFrame *frame, const char *text, gboolean is_bold)
{
  g_autofree char *valid = g_utf8_validate (text, -1, NULL) ? NULL : g_utf8_make_valid (text, -1);
  g_autofree char *part = beginning (valid != NULL ? valid : text);
  PangoLayout *layout = fr_map_layout (frame, part, is_bold, NAME_PX);
  double width, height;

  fr_layout_size (layout, &width, &height);
  if (width > MOST_NAME_PX * frame->scale_ratio)
    {
      pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
      pango_layout_set_width (layout, (int)(MOST_NAME_PX * frame->scale_ratio * PANGO_SCALE));
    }
  return layout;
}

static void
need_layout (const FrMapFrame *frame, FrMapName *name, const char *text, gboolean is_bold)
{
  double width, height;

  if (name->layout != NULL && name->is_bold == (is_bold != 0))
    return;
  drop_sprite (frame->cache, name);
  g_clear_object (&name->layout);
  name->layout = name_layout (frame, text, is_bold);
  name->is_bold = is_bold != 0;
  fr_layout_size (name->layout, &width, &height);
  name->width_px = (float)width;
  name->height_px = (float)height;
}

/* Tries the four sides; @reach is how far what is named extends to left, top, right and bottom of @x, @y. */
static gboolean
find_place (FrMapRoom *room, FrMapName *name, double x, double y, const double reach[4], double width,
            double height, double pad, gboolean take_it)
{
  const double offsets[4][2] = {
    { -width / 2, reach[3] + GAP_PX },
    { reach[2] + GAP_PX + 2, -height / 2 },
    { -reach[0] - GAP_PX - 2 - width, -height / 2 },
    { -width / 2, -reach[1] - GAP_PX - height },
  };

  for (guint i = 0; i < 4; i++)
    {
      /* Text has air above and below its letters already, so padding is sideways and, further out, all round;
       * only not towards what is named. */
      double pad_y = MAX (pad - 3, 0);
      double left = i == 1 ? 0 : pad, right = i == 2 ? 0 : pad, above = i == 0 ? 0 : pad_y,
             below = i == 3 ? 0 : pad_y;
      FrBox box = { x + offsets[i][0] - left, y + offsets[i][1] - above, width + left + right,
                    height + above + below };
      if (!fr_map_room_is_free (room, &box))
        continue;
      if (take_it)
        {
          name->dx_px = (float)offsets[i][0];
          name->dy_px = (float)offsets[i][1];
          name->is_placed = TRUE;
          fr_map_room_take (room, (FrBox){ x + offsets[i][0], y + offsets[i][1], width, height });
        }
      return TRUE;
    }
  return FALSE;
}

typedef struct
{
  guint32 index;
  guint8 first;
  double rank;
  double size;
} Turn;

static int
compare_turns (const void *a, const void *b)
{
  const Turn *x = a, *y = b;

  if (x->first != y->first)
    return x->first > y->first ? -1 : 1;
  if (x->rank != y->rank)
    return x->rank > y->rank ? -1 : 1;
  if (x->size != y->size)
    return x->size > y->size ? -1 : 1;
  return x->index < y->index ? -1 : 1;
}

static void
place_shapes (const FrMapFrame *frame, const FrMapView *anchor, FrMapRoom *room)
{
  double s = frame->scale_ratio;

  for (guint pass = 0; pass < 2; pass++)
    for (gsize i = 0; i < anchor->n_shapes; i++)
      {
        const FrMapShape *shape = &anchor->shapes[i];
        FrMapName *name = &frame->cache->names[anchor->n_trees + i];
        gboolean is_box = fr_map_form_is_box (shape->form);
        FrGroundPoint middle;
        FrBox box;
        double x, y;

        if (is_box != (pass == 0) || shape->name == NULL || shape->name[0] == '\0')
          continue;
        if (!is_box)
          {
            double reach[4] = { 0, 5 * s, 0, 5 * s };
            if (!fr_map_shape_middle (shape, &middle) || anchor->viewport.px_per_m < 1.2 * s)
              continue;
            fr_viewport_to_screen (&anchor->viewport, middle.x_m, middle.y_m, &x, &y);
            need_layout (frame, name, shape->name, FALSE);
            name->is_soft = TRUE;
            /* Above the line reads better than on its far side. */
            double up[4] = { 0, reach[1] + GAP_PX, 0, -(name->height_px + reach[1] + GAP_PX) - GAP_PX };
            if (!find_place (room, name, x, y, up, name->width_px, name->height_px, 2 * s, TRUE))
              find_place (room, name, x, y, reach, name->width_px, name->height_px, 2 * s, TRUE);
            continue;
          }
        if (!fr_map_shape_box (anchor, shape, &box))
          continue;
        need_layout (frame, name, shape->name, TRUE);
        double reach[4] = { box.width_px / 2, box.height_px / 2, box.width_px / 2, box.height_px / 2 };
        if (shape->form != FR_MAP_FORM_BUILDING)
          for (guint k = 0; k < 4; k++)
            reach[k] = MAX (reach[k], 10.5 * s);
        find_place (room, name, box.x_px + box.width_px / 2, box.y_px + box.height_px / 2, reach,
                    name->width_px, name->height_px, 2 * s, TRUE);
      }
}

static void
place_trees (const FrMapFrame *frame, const FrMapView *anchor, const GArray *near_by, FrMapRoom *room)
{
  FrMapCache *cache = frame->cache;
  double s = frame->scale_ratio, at = anchor->viewport.px_per_m / s;
  double pad = s * CLAMP (26 - 6 * at, 2, 20);
  g_autofree Turn *turns = g_new (Turn, MAX (near_by->len, 1));
  gsize n = 0;
  guint n_pinned = 0;

  for (guint i = 0; i < near_by->len; i++)
    {
      guint index = g_array_index (near_by, guint, i);
      const FrMapTree *t = &anchor->trees[index];
      gboolean chosen = t->is_selected || t->is_focused;
      if (t->name == NULL || t->name[0] == '\0' || (t->is_dimmed && !chosen)
          || (at < FAR_PX_PER_M && !chosen))
        continue;
      turns[n++] = (Turn){ index, chosen, isnan (t->rank) ? -INFINITY : t->rank,
                           t->diameter_m > 0 ? t->diameter_m : 0 };
    }
  qsort (turns, n, sizeof *turns, compare_turns);

  g_autoptr (PangoLayout) sample = fr_map_layout (frame, "l", FALSE, NAME_PX);
  double least_px, line_px;
  fr_layout_size (sample, &least_px, &line_px);
  for (gsize k = 0; k < n; k++)
    {
      const FrMapTree *t = &anchor->trees[turns[k].index];
      FrMapName *name = &cache->names[turns[k].index];
      double x, y, reach[4];
      fr_viewport_to_screen (&anchor->viewport, t->x_m, t->y_m, &x, &y);
      fr_map_reach (anchor, t, reach);
      double use = turns[k].first ? 2 * s : pad;
      /* Most names that find no room would find none if they were two narrow letters either: then they need
       * not be measured. */
      if (name->layout == NULL && !turns[k].first
          && !find_place (room, name, x, y, reach, MIN (2.0, (double)strlen (t->name)) * least_px, line_px,
                          use, FALSE))
        continue;
      need_layout (frame, name, t->name, t->is_selected);
      if (!find_place (room, name, x, y, reach, name->width_px, name->height_px, use, TRUE) && turns[k].first
          && n_pinned < MOST_PINNED)
        {
          /* A chosen tree says who it is even in a crowd. */
          name->dx_px = -name->width_px / 2;
          name->dy_px = (float)(reach[3] + GAP_PX + 2);
          name->is_placed = TRUE;
          name->is_pinned = TRUE;
          fr_map_room_take (room,
                            (FrBox){ x + name->dx_px, y + name->dy_px, name->width_px, name->height_px });
          n_pinned++;
        }
    }
}

static gboolean
is_inside (const FrPlanBox *inner, const FrPlanBox *outer)
{
  return inner->west_m >= outer->west_m && inner->east_m <= outer->east_m && inner->south_m >= outer->south_m
         && inner->north_m <= outer->north_m;
}

static void
add_index (guint index, gpointer data)
{
  g_array_append_val ((GArray *)data, index);
}

void
fr_map_names_place (const FrMapFrame *frame)
{
  FrMapCache *cache = frame->cache;
  const FrMapView *view = frame->view;
  const PangoFontDescription *font = pango_context_get_font_description (frame->context);
  guint64 signature = signature_of (frame);
  gsize n = view->n_trees + view->n_shapes;

  if (cache->n_names != n || cache->names_scale != frame->scale_ratio || cache->font == NULL || font == NULL
      || !pango_font_description_equal (cache->font, font))
    {
      fr_map_names_clear (cache);
      cache->names = g_new0 (FrMapName, MAX (n, 1));
      cache->n_names = n;
      cache->names_scale = frame->scale_ratio;
      g_clear_pointer ((PangoFontDescription **)&cache->font, pango_font_description_free);
      cache->font = font != NULL ? pango_font_description_copy (font) : NULL;
    }
  FrPlanBox seen = fr_viewport_bounds (&view->viewport, 0);
  if (cache->names_signature == signature && is_inside (&seen, &cache->names_box))
    return;
  cache->names_signature = signature;
  cache->names_box
      = fr_viewport_bounds (&view->viewport, MAX (view->viewport.width_px, view->viewport.height_px));
  g_autoptr (GArray) near_by = g_array_new (FALSE, FALSE, sizeof (guint));
  fr_map_cache_visit (cache, view, &cache->names_box, add_index, near_by);
  for (gsize i = 0; i < n; i++)
    cache->names[i].is_placed = cache->names[i].is_pinned = FALSE;

  /* The same map seen from the middle of the trees: places are kept relative to their trees. */
  FrMapView anchor = *view;
  anchor.viewport.centre_x_m = (cache->bounds.west_m + cache->bounds.east_m) / 2;
  anchor.viewport.centre_y_m = (cache->bounds.south_m + cache->bounds.north_m) / 2;
  anchor.viewport.width_px = anchor.viewport.height_px = 0;
  FrMapRoom room;
  fr_map_room_init (&room, near_by->len + view->n_shapes);
  for (guint i = 0; i < near_by->len; i++)
    {
      const FrMapTree *t = &view->trees[g_array_index (near_by, guint, i)];
      double x, y, reach[4];
      fr_viewport_to_screen (&anchor.viewport, t->x_m, t->y_m, &x, &y);
      fr_map_reach (&anchor, t, reach);
      fr_map_room_take (&room,
                        (FrBox){ x - reach[0], y - reach[1], reach[0] + reach[2], reach[1] + reach[3] });
    }
  for (gsize i = 0; i < view->n_shapes; i++)
    {
      FrBox box;
      if (fr_map_form_is_box (view->shapes[i].form) && fr_map_shape_box (&anchor, &view->shapes[i], &box))
        fr_map_room_take (&room, box);
    }
  place_shapes (frame, &anchor, &room);
  place_trees (frame, &anchor, near_by, &room);
  fr_map_room_clear (&room);
}

/* A name that has to lie on something lies on a small plate. */
static void
put_plate (const FrMapFrame *frame, PangoLayout *layout, double x, double y, double width, double height)
{
  double s = frame->scale_ratio;

  cairo_new_path (frame->cr);
  cairo_rectangle (frame->cr, x - 5 * s, y - 1 * s, width + 10 * s, height + 2 * s);
  fr_palette_set_source (frame->palette, frame->cr, FR_ROLE_CARD, 0.96);
  cairo_fill_preserve (frame->cr);
  fr_palette_set_source (frame->palette, frame->cr, FR_ROLE_AXIS, 1);
  cairo_set_line_width (frame->cr, s);
  cairo_stroke (frame->cr);
  fr_palette_set_source (frame->palette, frame->cr, FR_ROLE_INK, 1);
  cairo_move_to (frame->cr, x, y);
  pango_cairo_show_layout (frame->cr, layout);
  add_label (frame, layout, x, y, width, height);
}

static void
put_name (const FrMapFrame *frame, FrMapName *name, double x, double y)
{
  FrMapCache *cache = frame->cache;
  FrRole role = name->is_soft ? FR_ROLE_INK_SOFT : FR_ROLE_INK;
  double halo = HALO_PX * frame->scale_ratio, device = frame->device_ratio;
  double margin = ceil (halo / 2 + 1);

  if (name->is_pinned)
    {
      put_plate (frame, name->layout, x, y, name->width_px, name->height_px);
      return;
    }
  if (cache->is_bare)
    {
      show (frame->cr, frame->palette, name->layout, x, y, role, halo, TRUE);
      add_label (frame, name->layout, x, y, name->width_px, name->height_px);
      return;
    }
  x = round (x * device) / device;
  y = round (y * device) / device;
  if (name->sprite == NULL)
    {
      if (cache->name_bytes > MOST_NAME_BYTES)
        for (gsize i = 0; i < cache->n_names; i++)
          drop_sprite (cache, &cache->names[i]);
      name->sprite = cairo_image_surface_create (CAIRO_FORMAT_ARGB32,
                                                 (int)ceil ((name->width_px + 2 * margin) * device),
                                                 (int)ceil ((name->height_px + 2 * margin) * device));
      cairo_surface_set_device_scale (name->sprite, device, device);
      cairo_t *cr = cairo_create (name->sprite);
      show (cr, frame->palette, name->layout, margin, margin, role, halo, FALSE);
      cairo_destroy (cr);
      cache->name_bytes += (gsize)cairo_image_surface_get_stride (name->sprite)
                           * (gsize)cairo_image_surface_get_height (name->sprite);
    }
  cairo_set_source_surface (frame->cr, name->sprite, x - margin, y - margin);
  cairo_paint (frame->cr);
  add_label (frame, name->layout, x, y, name->width_px, name->height_px);
}

/* Whole and off the furniture, or not at all. */
static gboolean
is_shown (const FrMapFrame *frame, double x, double y, double width, double height)
{
  FrBox box = { x, y, width, height };

  if (x < 1 || y < 1 || x + width > frame->view->viewport.width_px - 1
      || y + height > frame->view->viewport.height_px - 1)
    return FALSE;
  for (guint i = 0; i < frame->furniture->len; i++)
    if (fr_box_touches (&box, &g_array_index (frame->furniture, FrBox, i)))
      return FALSE;
  return TRUE;
}

static void
draw_tree_name (guint index, gpointer data)
{
  const FrMapFrame *frame = data;
  const FrMapTree *t = &frame->view->trees[index];
  FrMapName *name = &frame->cache->names[index];
  double x, y;

  if (!name->is_placed)
    return;
  fr_viewport_to_screen (&frame->view->viewport, t->x_m, t->y_m, &x, &y);
  x += name->dx_px;
  y += name->dy_px;
  if (is_shown (frame, x, y, name->width_px, name->height_px))
    put_name (frame, name, x, y);
}

/* The tree under the pointer says its name even where there is no room for it, on a small plate. */
static void
draw_hovered (guint index, gpointer data)
{
  const FrMapFrame *frame = data;
  const FrMapTree *t = &frame->view->trees[index];
  double x, y, reach[4], width, height, s = frame->scale_ratio;

  if (!t->is_hovered || t->name == NULL || t->name[0] == '\0' || frame->cache->names[index].is_placed)
    return;
  g_autoptr (PangoLayout) layout = name_layout (frame, t->name, FALSE);
  fr_layout_size (layout, &width, &height);
  fr_map_reach (frame->view, t, reach);
  fr_viewport_to_screen (&frame->view->viewport, t->x_m, t->y_m, &x, &y);
  y = y + reach[3] + 6 * s + height > frame->view->viewport.height_px ? y - reach[1] - height - 6 * s
                                                                      : y + reach[3] + 5 * s;
  x = CLAMP (x - width / 2, 6 * s, MAX (frame->view->viewport.width_px - width - 6 * s, 6 * s));
  put_plate (frame, layout, x, y, width, height);
}

void
fr_map_names_draw (const FrMapFrame *frame)
{
  const FrMapView *view = frame->view;
  FrMapCache *cache = frame->cache;
  FrPlanBox seen = fr_viewport_bounds (&view->viewport, 100 * frame->scale_ratio);

  for (gsize i = 0; i < view->n_shapes; i++)
    {
      const FrMapShape *shape = &view->shapes[i];
      FrMapName *name = &cache->names[view->n_trees + i];
      FrGroundPoint middle;
      FrBox box;
      double x, y;

      if (!name->is_placed)
        continue;
      if (fr_map_form_is_box (shape->form))
        {
          if (!fr_map_shape_box (view, shape, &box))
            continue;
          x = box.x_px + box.width_px / 2;
          y = box.y_px + box.height_px / 2;
        }
      else
        {
          if (!fr_map_shape_middle (shape, &middle))
            continue;
          fr_viewport_to_screen (&view->viewport, middle.x_m, middle.y_m, &x, &y);
        }
      x += name->dx_px;
      y += name->dy_px;
      if (is_shown (frame, x, y, name->width_px, name->height_px))
        put_name (frame, name, x, y);
    }
  fr_map_cache_visit (cache, view, &seen, draw_tree_name, (gpointer)frame);
  fr_map_cache_visit (cache, view, &seen, draw_hovered, (gpointer)frame);
}
