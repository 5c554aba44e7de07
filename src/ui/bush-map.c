/* The map: model in, painter out. Nothing here is made anew for a frame; a frame is one call of the painter
 * with arrays that change when the book or the selection does. */
#include "ui/bush-map-private.h"

#include <adwaita.h>
#include <glib/gi18n-lib.h>
#include <math.h>

#include "models/bush-edit.h"
#include "paint/map-bush.h"
#include "ui/theme.h"
#include "ui/window.h"
#include "words/tree-words.h"

#define FIT_MOST_PX_PER_M (FR_SCREEN_PX_PER_M / 150)
#define EDGE_PX 48.0
#define LEAST_EDGE_PX 20.0 /* a symbol and less than what "show all" leaves */

G_DEFINE_FINAL_TYPE (FrBushMap, fr_bush_map, GTK_TYPE_WIDGET)

static guint open_signal, adding_signal, hint_signal;

static FrSay
say_of (FrBushMap *self)
{
  return (FrSay){ .units = *fr_book_get_units (fr_sugarbush_get_book (self->bush)) };
}

/* The focused tree's sentence, or the whole bush's. */
void
fr_bush_map_say (FrBushMap *self)
{
  const FrBush *bush = fr_sugarbush_get_bush (self->bush);
  const FrBushTree *tree = bush != NULL && self->focus != 0 ? fr_bush_find (bush, self->focus) : NULL;
  FrSay say = say_of (self);
  g_autofree char *sentence = NULL, *all = NULL;

  if (bush == NULL)
    return;
  if (tree != NULL)
    sentence = fr_tree_spoken (tree, &say);
  else
    {
      all = fr_bush_spoken (bush, &say);
      /* Translators: %s is "31 trees, 14 taps set" */
      sentence = g_strdup_printf (_ ("Map of the sugarbush: %s."), all);
    }
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, sentence, -1);
}

void
fr_bush_map_marks_changed (FrBushMap *self)
{
  fr_map_scene_mark (self->scene, self->bush, gtk_widget_has_focus (GTK_WIDGET (self)) ? self->focus : 0);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
keep_all_in_sight (FrBushMap *self)
{
  const FrViewport *viewport = &self->view.viewport;

  for (gsize i = 0; self->shows_all && self->laid_out && i < self->view.n_trees; i++)
    {
      double x_px, y_px;

      fr_viewport_to_screen (viewport, self->view.trees[i].x_m, self->view.trees[i].y_m, &x_px, &y_px);
      if (x_px < LEAST_EDGE_PX || x_px > viewport->width_px - LEAST_EDGE_PX || y_px < LEAST_EDGE_PX
          || y_px > viewport->height_px - LEAST_EDGE_PX)
        {
          fr_bush_map_show_all (self);
          return;
        }
    }
}

static void
changed_cb (FrBushMap *self)
{
  if (fr_bush_map_is_moving (self))
    {
      fr_bush_map_cancel_drag (self);
      fr_bush_map_move_end (self, FALSE);
    }
  fr_map_scene_load (self->scene, self->bush);
  fr_map_scene_show (self->scene, &self->view);
  if (self->focus != 0 && fr_map_scene_find (self->scene, self->focus) < 0)
    self->focus = 0;
  keep_all_in_sight (self);
  fr_bush_map_marks_changed (self);
  fr_bush_map_say (self);
}

static void
selection_changed_cb (FrBushMap *self)
{
  gint64 current = fr_sugarbush_get_current (self->bush);
  GtkWindow *window = GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self)));

  if (current != 0)
    {
      self->focus = current;
      /* What is pointed at here is in sight; a dialog before the window leaves the focus here. */
      if (!gtk_widget_has_focus (GTK_WIDGET (self)) || !gtk_window_is_active (window))
        fr_bush_map_show_tree (self, current);
    }
  fr_bush_map_marks_changed (self);
  fr_bush_map_say (self);
}

gint64
fr_bush_map_tree_at (FrBushMap *self, double x_px, double y_px)
{
  gssize at = fr_map_tree_at (&self->view, self->cache, x_px, y_px, FR_BUSH_MAP_REACH_PX);

  return at >= 0 ? self->view.trees[at].id : 0;
}

/* Trees and what stands among them. Lanes and walls lead away and are cut off where they may. */
static FrPlanBox
bounds (FrBushMap *self)
{
  FrPlanBox box = FR_PLAN_BOX_EMPTY;

  for (gsize i = 0; i < self->view.n_trees; i++)
    fr_plan_box_add (&box, self->view.trees[i].x_m, self->view.trees[i].y_m);
  for (gsize i = 0; i < self->view.n_shapes; i++)
    if (self->view.shapes[i].form >= FR_MAP_FORM_BUILDING)
      for (gsize k = 0; k < self->view.shapes[i].n_points; k++)
        fr_plan_box_add (&box, self->view.shapes[i].points[k].x_m, self->view.shapes[i].points[k].y_m);
  return fr_plan_box_is_empty (&box) ? fr_map_bounds (&self->view) : box;
}

void
fr_bush_map_show_all (FrBushMap *self)
{
  /* Room for what floats over the map, which grows with the text; a narrow map keeps half of itself. */
  const FrMargins at_one = { 78, 60, 62, 40 };
  double down
      = MIN (self->view.scale_ratio, self->view.viewport.height_px / 2 / (at_one.top_px + at_one.bottom_px));
  double across
      = MIN (self->view.scale_ratio, self->view.viewport.width_px / 2 / (at_one.left_px + at_one.right_px));
  FrMargins margins = { .top_px = at_one.top_px * down,
                        .bottom_px = at_one.bottom_px * down,
                        .left_px = at_one.left_px * across,
                        .right_px = at_one.right_px * across };
  FrPlanBox box = bounds (self);

  if (!fr_viewport_fit (&self->view.viewport, &box, &margins, FIT_MOST_PX_PER_M)
      && fr_plan_box_is_empty (&box))
    {
      /* Nothing is placed yet: some ground to put the first tree on. */
      self->view.viewport.centre_x_m = self->view.viewport.centre_y_m = 0;
      self->view.viewport.px_per_m = 8;
    }
  self->shows_all = TRUE;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
fr_bush_map_moved_view (FrBushMap *self)
{
  self->shows_all = FALSE;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
fr_bush_map_zoom (FrBushMap *self, double factor)
{
  fr_viewport_zoom_at (&self->view.viewport, self->view.viewport.width_px / 2,
                       self->view.viewport.height_px / 2, factor);
  fr_bush_map_moved_view (self);
}

void
fr_bush_map_north_up (FrBushMap *self)
{
  fr_viewport_turn (&self->view.viewport, -self->view.viewport.rotation_deg);
  fr_bush_map_moved_view (self);
}

void
fr_bush_map_show_tree (FrBushMap *self, gint64 tree)
{
  gssize at = fr_map_scene_find (self->scene, tree);
  const FrViewport *viewport = &self->view.viewport;
  double x_px, y_px, dx_px, dy_px;

  if (at < 0 || !self->laid_out || isnan (self->view.trees[at].x_m))
    return;
  fr_viewport_to_screen (viewport, self->view.trees[at].x_m, self->view.trees[at].y_m, &x_px, &y_px);
  dx_px = CLAMP (x_px, MIN (EDGE_PX, viewport->width_px / 2),
                 MAX (viewport->width_px - EDGE_PX, viewport->width_px / 2))
          - x_px;
  dy_px = CLAMP (y_px, MIN (EDGE_PX, viewport->height_px / 2),
                 MAX (viewport->height_px - EDGE_PX, viewport->height_px / 2))
          - y_px;
  if (dx_px == 0 && dy_px == 0)
    return;
  fr_viewport_pan (&self->view.viewport, dx_px, dy_px);
  fr_bush_map_moved_view (self);
}

gboolean
fr_bush_map_get_symbol (FrBushMap *self, gint64 tree, GdkRectangle *symbol_out)
{
  gssize at = fr_map_scene_find (self->scene, tree);
  double x_px, y_px, radius_px;

  if (at < 0 || isnan (self->view.trees[at].x_m))
    return FALSE;
  fr_viewport_to_screen (&self->view.viewport, self->view.trees[at].x_m, self->view.trees[at].y_m, &x_px,
                         &y_px);
  radius_px = fr_map_radius_px (&self->view, self->view.trees[at].diameter_m);
  *symbol_out = (GdkRectangle){ (int)(x_px - radius_px), (int)(y_px - radius_px), (int)ceil (2 * radius_px),
                                (int)ceil (2 * radius_px) };
  return TRUE;
}

const FrViewport *
fr_bush_map_get_viewport (FrBushMap *self)
{
  return &self->view.viewport;
}

guint
fr_bush_map_n_frames (FrBushMap *self)
{
  return self->n_frames;
}

guint
fr_bush_map_n_loads (FrBushMap *self)
{
  return fr_map_scene_n_loads (self->scene);
}

void
fr_bush_map_set_round (FrBushMap *self, const FrBushRound *round, gboolean with_numbers)
{
  self->view.round = NULL;
  gtk_widget_queue_draw (GTK_WIDGET (self));
  if (round == NULL)
    return;
  fr_map_way_of (fr_sugarbush_get_bush (self->bush), round, self->way, self->numbers);
  self->round = (FrMapRound){ .points = (const FrGroundPoint *)(gpointer)self->way->data,
                              .numbers = with_numbers ? (const guint *)(gpointer)self->numbers->data : NULL,
                              .n_points = self->way->len };
  self->view.round = self->way->len > 0 ? &self->round : NULL;
}

void
fr_bush_map_hint (FrBushMap *self, const char *words)
{
  g_signal_emit (self, hint_signal, 0, words);
}

void
fr_bush_map_set_adding (FrBushMap *self, gboolean adding)
{
  if (self->adding == adding)
    return;
  self->adding = adding;
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), adding ? "crosshair" : NULL);
  g_signal_emit (self, adding_signal, 0);
  fr_bush_map_hint (
      self, adding ? _ ("Click where the tree stands. Enter puts it in the middle, Escape lets go.") : NULL);
}

gboolean
fr_bush_map_get_adding (FrBushMap *self)
{
  return self->adding;
}

void
fr_bush_map_add_at (FrBushMap *self, double x_m, double y_m)
{
  FrWindow *window = fr_window_of (GTK_WIDGET (self));
  GError *error = NULL;
  FrChange *change;
  gint64 tree = 0;

  /* To the centimetre, which is finer than anybody points. */
  x_m = round (x_m * 100) / 100;
  y_m = round (y_m * 100) / 100;
  change = fr_bush_edit_add_tree (fr_sugarbush_get_book (self->bush), NULL, "sugar", x_m, y_m, &error);
  for (guint i = 0; change != NULL && i < change->steps->len; i++)
    {
      const FrStep *step = change->steps->pdata[i];

      if (step->before == NULL && step->after->kind->id == FR_KIND_TREE)
        tree = step->after->id;
    }
  fr_bush_map_set_adding (self, FALSE);
  if (!fr_window_finish (window, change, error) || tree == 0)
    return;
  fr_sugarbush_select (self->bush, tree);
  fr_bush_map_show_tree (self, tree);
  gtk_widget_activate_action (GTK_WIDGET (self), "bush.rename", NULL);
}

/* At a tree what can be done with the selection, on the ground what can be done there. */
void
fr_bush_map_open_menu (FrBushMap *self, double x_px, double y_px, gboolean at_tree)
{
  g_autoptr (GMenu) menu = g_menu_new ();
  g_autoptr (GMenu) first = g_menu_new ();
  g_autoptr (GMenu) second = g_menu_new ();
  GdkRectangle at = { (int)x_px, (int)y_px, 1, 1 };

  fr_viewport_to_plan (&self->view.viewport, x_px, y_px, &self->menu_x_m, &self->menu_y_m);
  if (at_tree)
    {
      g_menu_append (first, _ ("_Rename…"), "bush.rename");
      g_menu_append (first, _ ("_Plan a Tap"), "bush.plan-tap");
      g_menu_append (first, _ ("_Move…"), "bush.move");
      g_menu_append (second, _ ("_Delete"), "bush.delete");
    }
  else
    {
      g_menu_append (first, _ ("_Add Tree Here"), "map.add-here");
      g_menu_append (second, _ ("_Show All"), "bush.show-all");
      g_menu_append (second, _ ("_North Up"), "bush.north-up");
    }
  g_menu_append_section (menu, NULL, G_MENU_MODEL (first));
  g_menu_append_section (menu, NULL, G_MENU_MODEL (second));
  if (self->menu == NULL)
    {
      self->menu = gtk_popover_menu_new_from_model (NULL);
      gtk_popover_set_has_arrow (GTK_POPOVER (self->menu), FALSE);
      gtk_widget_set_halign (self->menu, GTK_ALIGN_START);
      gtk_widget_set_parent (self->menu, GTK_WIDGET (self));
    }
  gtk_popover_menu_set_menu_model (GTK_POPOVER_MENU (self->menu), G_MENU_MODEL (menu));
  gtk_popover_set_pointing_to (GTK_POPOVER (self->menu), &at);
  gtk_popover_popup (GTK_POPOVER (self->menu));
}

static void
add_here_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  FrBushMap *self = FR_BUSH_MAP (widget);

  fr_bush_map_add_at (self, self->menu_x_m, self->menu_y_m);
}

static gboolean
query_tooltip_cb (FrBushMap *self, int x, int y, gboolean keyboard, GtkTooltip *tooltip)
{
  gint64 hovered = fr_sugarbush_get_hovered (self->bush);
  const FrBushTree *tree = hovered != 0 ? fr_bush_find (fr_sugarbush_get_bush (self->bush), hovered) : NULL;
  FrSay say = say_of (self);
  g_autofree char *what = NULL, *text = NULL;

  if (keyboard || tree == NULL || self->drag != FR_MAP_DRAG_NONE)
    return FALSE;
  what = fr_tree_subtitle (tree, &say);
  text = g_strdup_printf ("%s\n%s", tree->tree->name, what);
  gtk_tooltip_set_text (tooltip, text);
  return TRUE;
}

static void
focus_cb (FrBushMap *self)
{
  if (!gtk_widget_has_focus (GTK_WIDGET (self)))
    {
      self->space_down = FALSE;
      if (self->moving_by_keys)
        fr_bush_map_move_end (self, TRUE);
    }
  fr_bush_map_marks_changed (self);
}

static void
fr_bush_map_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                     int *minimum_baseline, int *natural_baseline)
{
  *minimum = 200;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 600 : 500;
}

static void
fr_bush_map_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  FrBushMap *self = FR_BUSH_MAP (widget);

  self->view.viewport.width_px = width;
  self->view.viewport.height_px = height;
  self->view.scale_ratio = fr_text_scale_of_context (gtk_widget_get_pango_context (widget));
  self->view.device_ratio = gtk_widget_get_scale_factor (widget);
  /* As long as nobody chose another view, all stays in sight. */
  if (self->shows_all && width > 0 && height > 0)
    {
      fr_bush_map_show_all (self);
      self->laid_out = TRUE;
    }
  if (self->menu != NULL)
    gtk_popover_present (GTK_POPOVER (self->menu));
}

static void
fr_bush_map_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  FrBushMap *self = FR_BUSH_MAP (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  const FrUnits *units = fr_book_get_units (fr_sugarbush_get_book (self->bush));
  PangoContext *context = gtk_widget_get_pango_context (widget);
  FrPalette palette = fr_theme_palette ();
  char mark[2] = { units->decimal_mark, '\0' };
  cairo_t *cr;

  if (width <= 0 || height <= 0)
    return;
  self->view.unit_m = units->system == FR_SYSTEM_METRIC ? 1 : 0.3048;
  self->view.unit_name = fr_quantity_unit (FR_QUANTITY_DISTANCE, units);
  self->view.decimal_mark = mark;
  /* Translators: the letter of north on the map */
  self->view.north_text = C_ ("compass", "N");
  self->view.measure = self->ghosts != NULL && isfinite (self->measure.from_x_m) ? &self->measure : NULL;
  self->view.ghosts = self->ghosts != NULL ? (const FrMapTree *)(gpointer)self->ghosts->data : NULL;
  self->view.n_ghosts = self->ghosts != NULL ? self->ghosts->len : 0;
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  fr_map_draw (cr, context, &palette, &self->view, self->cache, NULL);
  if (self->sketch != NULL)
    fr_bush_map_sketch_draw (self, cr);
  cairo_destroy (cr);
  self->view.decimal_mark = NULL;
  self->n_frames++;
}

static void
fr_bush_map_dispose (GObject *object)
{
  FrBushMap *self = FR_BUSH_MAP (object);

  if (self->menu != NULL)
    gtk_popover_popdown (GTK_POPOVER (self->menu)); /* an open one is held by its grab */
  g_clear_pointer (&self->menu, gtk_widget_unparent);
  g_clear_object (&self->bush);
  G_OBJECT_CLASS (fr_bush_map_parent_class)->dispose (object);
}

static void
fr_bush_map_finalize (GObject *object)
{
  FrBushMap *self = FR_BUSH_MAP (object);

  fr_bush_map_sketch_drop (self);
  fr_map_scene_free (self->scene);
  fr_map_cache_free (self->cache);
  g_clear_pointer (&self->ghosts, g_array_unref);
  g_array_unref (self->way);
  g_array_unref (self->numbers);
  G_OBJECT_CLASS (fr_bush_map_parent_class)->finalize (object);
}

static void
fr_bush_map_class_init (FrBushMapClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = fr_bush_map_dispose;
  G_OBJECT_CLASS (klass)->finalize = fr_bush_map_finalize;
  widget_class->measure = fr_bush_map_measure;
  widget_class->size_allocate = fr_bush_map_size_allocate;
  widget_class->snapshot = fr_bush_map_snapshot;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
  gtk_widget_class_set_css_name (widget_class, "drawing");
  gtk_widget_class_install_action (widget_class, "map.add-here", NULL, add_here_cb);
  open_signal
      = g_signal_new ("open", FR_TYPE_BUSH_MAP, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  adding_signal = g_signal_new ("adding-changed", FR_TYPE_BUSH_MAP, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 0);
  hint_signal = g_signal_new ("hint", FR_TYPE_BUSH_MAP, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE,
                              1, G_TYPE_STRING);
}

static void
picture_cb (gpointer data)
{
  FrBushMap *self = FR_BUSH_MAP (data);

  fr_map_scene_show (self->scene, &self->view);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
fr_bush_map_init (FrBushMap *self)
{

  self->scene = fr_map_scene_new ();
  fr_map_scene_on_change (self->scene, picture_cb, self);
  self->cache = fr_map_cache_new ();
  self->way = g_array_new (FALSE, FALSE, sizeof (FrGroundPoint));
  self->numbers = g_array_new (FALSE, FALSE, sizeof (guint));
  self->shows_all = TRUE;
  self->view.has_north = TRUE;
  self->view.scale_ratio = 1;
  self->view.viewport.px_per_m = 5;
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_set_has_tooltip (GTK_WIDGET (self), TRUE);
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  gtk_widget_set_hexpand (GTK_WIDGET (self), TRUE);
  gtk_widget_set_vexpand (GTK_WIDGET (self), TRUE);
  fr_bush_map_add_keys (self);
  fr_bush_map_add_pointer (self);
  g_signal_connect (self, "notify::has-focus", G_CALLBACK (focus_cb), NULL);
  g_signal_connect (self, "query-tooltip", G_CALLBACK (query_tooltip_cb), NULL);
  fr_theme_redraws (GTK_WIDGET (self));
}

GtkWidget *
fr_bush_map_new (FrSugarbush *bush)
{
  FrBushMap *self = g_object_new (FR_TYPE_BUSH_MAP, NULL);

  self->bush = g_object_ref (bush);
  g_signal_connect_object (bush, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (bush, "selection-changed", G_CALLBACK (selection_changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (bush, "hover-changed", G_CALLBACK (fr_bush_map_marks_changed), self,
                           G_CONNECT_SWAPPED);
  changed_cb (self);
  return GTK_WIDGET (self);
}
