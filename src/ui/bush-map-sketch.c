/* The pointer and the keys move the same cross; the line from the last corner to it shows what the next
 * corner would make. Corners are kept to the centimetre, which is finer than anybody points. */
#include "ui/bush-map-sketch.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "ui/bush-map-private.h"
#include "ui/theme.h"
#include "words/ground-words.h"

#define STEP_M 1.0
#define LONG_STEP_M 10.0
#define DOT_PX 4.0
#define CROSS_PX 12.0
#define EDGE_PX 24.0

struct _FrMapSketch
{
  char *form;
  GArray *points; /* FrGroundPoint */
  FrGroundPoint cross;
  gboolean has_cross; /* the pointer is over the map, or keys moved it */
  gboolean by_keys;
  FrBushMapSketched done;
  gpointer data;
};

static void
sketch_free (FrMapSketch *sketch)
{
  g_free (sketch->form);
  g_array_unref (sketch->points);
  g_free (sketch);
}

static guint
n_needed (const FrMapSketch *sketch)
{
  return sketch->form == NULL || fr_form_is_box (sketch->form) ? 1 : 2;
}

/* The corners with the cross as one more. */
static GArray *
with_cross (const FrMapSketch *sketch)
{
  GArray *all = g_array_copy (sketch->points);

  if (sketch->has_cross)
    g_array_append_val (all, sketch->cross);
  return all;
}

static void
say (FrBushMap *self)
{
  FrMapSketch *sketch = self->sketch;
  FrSay words = { .units = *fr_book_get_units (fr_sugarbush_get_book (self->bush)) };
  g_autoptr (GArray) all = with_cross (sketch);
  g_autofree char *size = NULL, *hint = NULL, *spoken = NULL, *x = NULL, *y = NULL;

  if (sketch->form == NULL)
    hint = g_strdup (_ ("Click the place, or go there with the arrows and press Enter. Escape lets go."));
  else
    {
      if (all->len > 1)
        size = fr_drawing_words (sketch->form, (const FrGroundPoint *)(gpointer)all->data, all->len, &words);
      hint = g_strdup_printf (
          "%s%s%s",
          fr_form_is_box (sketch->form)
              ? _ ("Click two opposite corners, or all of them. Enter ends, Backspace takes one back, Escape "
                   "lets go.")
              : _ ("Click the corners. Enter ends, Backspace takes one back, Escape lets go."),
          size != NULL ? "\n" : "", size != NULL ? size : "");
    }
  fr_bush_map_hint (self, hint);
  x = fr_say_amount (&words, sketch->cross.x_m, FR_QUANTITY_DISTANCE, -1);
  y = fr_say_amount (&words, sketch->cross.y_m, FR_QUANTITY_DISTANCE, -1);
  spoken = g_strdup_printf (_ ("Cross at %s east, %s north. %s"), x, y, hint);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
fr_bush_map_sketch (FrBushMap *self, const char *form, const FrGroundPoint *points, guint n,
                    FrBushMapSketched done, gpointer data)
{
  g_return_if_fail (done != NULL);

  fr_bush_map_sketch_end (self, FALSE);
  fr_bush_map_set_adding (self, FALSE);
  self->sketch = g_new0 (FrMapSketch, 1);
  self->sketch->form = g_strdup (form);
  self->sketch->points = g_array_new (FALSE, FALSE, sizeof (FrGroundPoint));
  g_array_append_vals (self->sketch->points, points, n);
  self->sketch->cross = n > 0 ? points[n - 1]
                              : (FrGroundPoint){ round (self->view.viewport.centre_x_m),
                                                 round (self->view.viewport.centre_y_m) };
  self->sketch->done = done;
  self->sketch->data = data;
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), "crosshair");
  gtk_widget_grab_focus (GTK_WIDGET (self));
  say (self);
}

gboolean
fr_bush_map_is_sketching (FrBushMap *self)
{
  return self->sketch != NULL;
}

void
fr_bush_map_sketch_drop (FrBushMap *self)
{
  g_clear_pointer (&self->sketch, sketch_free);
}

void
fr_bush_map_sketch_end (FrBushMap *self, gboolean keep)
{
  FrMapSketch *sketch = self->sketch;

  if (sketch == NULL)
    return;
  if (keep && sketch->points->len < n_needed (sketch))
    {
      fr_bush_map_hint (self,
                        sketch->form == NULL || fr_form_is_box (sketch->form)
                            ? _ ("Nothing is drawn yet. Click, or press Space for a corner at the cross.")
                            : _ ("A line needs two corners. Click, or press Space for one at the cross."));
      return;
    }
  self->sketch = NULL;
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), NULL);
  fr_bush_map_hint (self, NULL);
  fr_bush_map_say (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  sketch->done ((const FrGroundPoint *)(gpointer)sketch->points->data, keep ? sketch->points->len : 0,
                sketch->data);
  sketch_free (sketch);
}

static void
add_corner (FrBushMap *self, FrGroundPoint at)
{
  FrMapSketch *sketch = self->sketch;

  sketch->cross = at;
  g_array_append_val (sketch->points, at);
  if (sketch->form == NULL)
    fr_bush_map_sketch_end (self, TRUE);
  else
    say (self);
}

/* --- pointer --- */

static FrGroundPoint
point_at (FrBushMap *self, double x_px, double y_px)
{
  FrGroundPoint at;

  fr_viewport_to_plan (&self->view.viewport, x_px, y_px, &at.x_m, &at.y_m);
  at.x_m = round (at.x_m * 100) / 100;
  at.y_m = round (at.y_m * 100) / 100;
  return at;
}

void
fr_bush_map_sketch_motion (FrBushMap *self, double x_px, double y_px)
{
  self->sketch->cross = point_at (self, x_px, y_px);
  self->sketch->has_cross = TRUE;
  self->sketch->by_keys = FALSE;
  say (self);
}

void
fr_bush_map_sketch_click (FrBushMap *self, double x_px, double y_px, gint64 tree, gboolean twice)
{
  gssize at = tree != 0 && self->sketch->form == NULL ? fr_map_scene_find (self->scene, tree) : -1;

  if (twice)
    fr_bush_map_sketch_end (self, TRUE); /* its first click added the corner */
  else if (at >= 0)
    add_corner (self, (FrGroundPoint){ self->view.trees[at].x_m, self->view.trees[at].y_m });
  else
    add_corner (self, point_at (self, x_px, y_px));
}

/* --- keys --- */

/* Along the screen; the cross stays in sight. */
static void
step (FrBushMap *self, double right, double up, double step_m)
{
  FrMapSketch *sketch = self->sketch;
  const FrViewport *viewport = &self->view.viewport;
  double turn = viewport->rotation_deg * G_PI / 180, x_px, y_px, dx_px, dy_px;

  sketch->cross.x_m
      = round (100 * (sketch->cross.x_m + step_m * (right * cos (turn) - up * sin (turn)))) / 100;
  sketch->cross.y_m
      = round (100 * (sketch->cross.y_m + step_m * (right * sin (turn) + up * cos (turn)))) / 100;
  sketch->has_cross = sketch->by_keys = TRUE;
  fr_viewport_to_screen (viewport, sketch->cross.x_m, sketch->cross.y_m, &x_px, &y_px);
  dx_px = CLAMP (x_px, EDGE_PX, MAX (EDGE_PX, viewport->width_px - EDGE_PX)) - x_px;
  dy_px = CLAMP (y_px, EDGE_PX, MAX (EDGE_PX, viewport->height_px - EDGE_PX)) - y_px;
  if (dx_px != 0 || dy_px != 0)
    {
      fr_viewport_pan (&self->view.viewport, dx_px, dy_px);
      fr_bush_map_moved_view (self);
    }
  say (self);
}

gboolean
fr_bush_map_sketch_key (FrBushMap *self, guint keyval, GdkModifierType state)
{
  FrMapSketch *sketch = self->sketch;
  double by_m = (state & GDK_SHIFT_MASK) != 0 ? LONG_STEP_M : STEP_M;

  switch (keyval)
    {
    case GDK_KEY_Left:
    case GDK_KEY_KP_Left:
      step (self, -1, 0, by_m);
      return TRUE;
    case GDK_KEY_Right:
    case GDK_KEY_KP_Right:
      step (self, 1, 0, by_m);
      return TRUE;
    case GDK_KEY_Up:
    case GDK_KEY_KP_Up:
      step (self, 0, 1, by_m);
      return TRUE;
    case GDK_KEY_Down:
    case GDK_KEY_KP_Down:
      step (self, 0, -1, by_m);
      return TRUE;
    case GDK_KEY_space:
      add_corner (self, sketch->cross);
      return TRUE;
    case GDK_KEY_BackSpace:
      if (sketch->points->len > 0)
        g_array_set_size (sketch->points, sketch->points->len - 1);
      say (self);
      return TRUE;
    case GDK_KEY_Return:
    case GDK_KEY_KP_Enter:
      if (sketch->form == NULL)
        add_corner (self, sketch->cross);
      else
        fr_bush_map_sketch_end (self, TRUE);
      return TRUE;
    case GDK_KEY_Escape:
      fr_bush_map_sketch_end (self, FALSE);
      return TRUE;
    case GDK_KEY_Delete: /* what else the map does with trees waits */
    case GDK_KEY_KP_Delete:
    case GDK_KEY_F2:
    case GDK_KEY_Menu:
    case GDK_KEY_a:
      return TRUE;
    default:
      return FALSE;
    }
}

/* --- drawing --- */

static void
line_to (cairo_t *cr, const FrViewport *viewport, FrGroundPoint at)
{
  double x_px, y_px;

  fr_viewport_to_screen (viewport, at.x_m, at.y_m, &x_px, &y_px);
  cairo_line_to (cr, x_px, y_px);
}

static void
trace (cairo_t *cr, const FrViewport *viewport, const FrGroundPoint *points, guint n, gboolean is_box)
{
  cairo_new_path (cr);
  if (is_box && n == 2)
    {
      line_to (cr, viewport, points[0]);
      line_to (cr, viewport, (FrGroundPoint){ points[1].x_m, points[0].y_m });
      line_to (cr, viewport, points[1]);
      line_to (cr, viewport, (FrGroundPoint){ points[0].x_m, points[1].y_m });
    }
  else
    for (guint i = 0; i < n; i++)
      line_to (cr, viewport, points[i]);
  if (is_box && n > 1)
    cairo_close_path (cr);
}

static void
stroke (cairo_t *cr, const FrPalette *palette, FrRole role, double width_px)
{
  fr_palette_set_source (palette, cr, FR_ROLE_GROUND, 0.85);
  cairo_set_line_width (cr, width_px + 3);
  cairo_stroke_preserve (cr);
  fr_palette_set_source (palette, cr, role, 1);
  cairo_set_line_width (cr, width_px);
  cairo_stroke (cr);
}

static void
draw_dots (cairo_t *cr, const FrPalette *palette, const FrViewport *viewport, const GArray *points)
{
  for (guint i = 0; i < points->len; i++)
    {
      FrGroundPoint at = g_array_index (points, FrGroundPoint, i);
      double x_px, y_px;

      fr_viewport_to_screen (viewport, at.x_m, at.y_m, &x_px, &y_px);
      cairo_new_path (cr);
      cairo_arc (cr, x_px, y_px, DOT_PX + 2, 0, 2 * G_PI);
      fr_palette_set_source (palette, cr, FR_ROLE_GROUND, 1);
      cairo_fill (cr);
      cairo_arc (cr, x_px, y_px, DOT_PX, 0, 2 * G_PI);
      fr_palette_set_source (palette, cr, FR_ROLE_ACCENT, 1);
      cairo_fill (cr);
    }
}

void
fr_bush_map_sketch_draw (FrBushMap *self, cairo_t *cr)
{
  static const double dash[] = { 5, 4 };
  const FrMapSketch *sketch = self->sketch;
  const FrViewport *viewport = &self->view.viewport;
  FrPalette palette = fr_theme_palette ();
  g_autoptr (GArray) all = with_cross (sketch);
  gboolean is_box = fr_form_is_box (sketch->form);
  double x_px, y_px;

  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  /* Dashed with the cross: what would be; solid without: what is. */
  trace (cr, viewport, (const FrGroundPoint *)(gpointer)all->data, all->len, is_box);
  cairo_set_dash (cr, dash, G_N_ELEMENTS (dash), 0);
  stroke (cr, &palette, FR_ROLE_ACCENT, 1.5);
  cairo_set_dash (cr, NULL, 0, 0);
  trace (cr, viewport, (const FrGroundPoint *)(gpointer)sketch->points->data, sketch->points->len,
         is_box && !sketch->has_cross);
  stroke (cr, &palette, FR_ROLE_ACCENT, 2.5);
  draw_dots (cr, &palette, viewport, sketch->points);
  if (sketch->has_cross && !sketch->by_keys)
    return; /* the pointer is a cross itself */
  fr_viewport_to_screen (viewport, sketch->cross.x_m, sketch->cross.y_m, &x_px, &y_px);
  x_px = floor (x_px) + 0.5;
  y_px = floor (y_px) + 0.5;
  cairo_new_path (cr);
  cairo_move_to (cr, x_px - CROSS_PX, y_px);
  cairo_line_to (cr, x_px + CROSS_PX, y_px);
  cairo_move_to (cr, x_px, y_px - CROSS_PX);
  cairo_line_to (cr, x_px, y_px + CROSS_PX);
  stroke (cr, &palette, FR_ROLE_INK, 1);
}
