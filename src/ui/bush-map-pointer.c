/* The map by pointer and touch. One drag gesture tells what a press means: on a tree it chooses or moves, on
 * the ground it bands; a press that goes nowhere is a click. GTK 4.8 gives no place with a scroll event, so
 * the pointer's is kept from its motion. */
#include "ui/bush-map-private.h"

#include <math.h>

#define START_PX 5.0
#define WHEEL_FACTOR 1.2

static void
motion_cb (GtkEventControllerMotion *controller, double x, double y, gpointer user_data)
{
  FrBushMap *self = FR_BUSH_MAP (user_data);
  gboolean moved = x != self->pointer_x_px || y != self->pointer_y_px; /* GTK tells of it after layouts too */

  self->pointer_x_px = x;
  self->pointer_y_px = y;
  if (self->sketch != NULL)
    {
      if (moved)
        fr_bush_map_sketch_motion (self, x, y);
    }
  else if (self->drag == FR_MAP_DRAG_NONE)
    fr_sugarbush_set_hovered (self->bush, fr_bush_map_tree_at (self, x, y));
}

static void
leave_cb (FrBushMap *self)
{
  fr_sugarbush_set_hovered (self->bush, 0);
}

static gboolean
is_touchpad (GtkEventControllerScroll *controller)
{
  GdkDevice *device = gtk_event_controller_get_current_event_device (GTK_EVENT_CONTROLLER (controller));

  return device != NULL && gdk_device_get_source (device) == GDK_SOURCE_TOUCHPAD;
}

static gboolean
scroll_cb (GtkEventControllerScroll *controller, double dx, double dy, gpointer user_data)
{
  FrBushMap *self = FR_BUSH_MAP (user_data);
  GdkModifierType state = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (controller));
  gboolean wheel = gtk_event_controller_scroll_get_unit (controller) == GDK_SCROLL_UNIT_WHEEL;

  if ((state & GDK_CONTROL_MASK) == 0 && is_touchpad (controller))
    fr_viewport_pan (&self->view.viewport, -dx * (wheel ? 40 : 1), -dy * (wheel ? 40 : 1));
  else if ((state & GDK_SHIFT_MASK) != 0)
    fr_viewport_pan (&self->view.viewport, -dy * (wheel ? 40 : 1), 0);
  else
    fr_viewport_zoom_at (&self->view.viewport, self->pointer_x_px, self->pointer_y_px,
                         pow (WHEEL_FACTOR, wheel ? -dy : -dy / 40));
  fr_bush_map_moved_view (self);
  return TRUE;
}

static void
zoom_begin_cb (FrBushMap *self)
{
  self->zoomed = 1;
}

static void
zoom_cb (GtkGestureZoom *gesture, double scale, gpointer user_data)
{
  FrBushMap *self = FR_BUSH_MAP (user_data);
  double x = self->pointer_x_px, y = self->pointer_y_px;

  gtk_gesture_get_bounding_box_center (GTK_GESTURE (gesture), &x, &y);
  if (scale > 0 && self->zoomed > 0)
    fr_viewport_zoom_at (&self->view.viewport, x, y, scale / self->zoomed);
  self->zoomed = scale;
  fr_bush_map_moved_view (self);
}

void
fr_bush_map_cancel_drag (FrBushMap *self)
{
  self->drag = FR_MAP_DRAG_NONE;
  if (self->view.has_band)
    gtk_widget_queue_draw (GTK_WIDGET (self));
  self->view.has_band = FALSE;
}

static void
drag_begin_cb (GtkGestureDrag *gesture, double x, double y, gpointer user_data)
{
  FrBushMap *self = FR_BUSH_MAP (user_data);

  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (self->moving_by_keys)
    fr_bush_map_move_end (self, TRUE);
  self->press_state = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (gesture));
  self->from_x_px = x;
  self->from_y_px = y;
  self->panned_x_px = self->panned_y_px = 0;
  self->pressed = fr_bush_map_tree_at (self, x, y);
  if (self->space_down)
    {
      self->space_used = TRUE;
      self->drag = FR_MAP_DRAG_PAN;
    }
  else
    self->drag = self->pressed != 0 ? FR_MAP_DRAG_TREE : FR_MAP_DRAG_GROUND;
}

static void
pan_by (FrBushMap *self, double dx, double dy)
{
  fr_viewport_pan (&self->view.viewport, dx - self->panned_x_px, dy - self->panned_y_px);
  self->panned_x_px = dx;
  self->panned_y_px = dy;
  fr_bush_map_moved_view (self);
}

static void
drag_update_cb (GtkGestureDrag *gesture, double dx, double dy, gpointer user_data)
{
  FrBushMap *self = FR_BUSH_MAP (user_data);
  gboolean far = hypot (dx, dy) > START_PX;
  double x1_m, y1_m, x2_m, y2_m;

  if ((self->drag == FR_MAP_DRAG_GROUND || self->drag == FR_MAP_DRAG_TREE) && far && self->sketch != NULL)
    self->drag = FR_MAP_DRAG_PAN;
  if (self->drag == FR_MAP_DRAG_GROUND && far && !self->adding)
    self->drag = FR_MAP_DRAG_BAND;
  /* Only what is selected moves, so that a slip of the hand moves nothing. */
  if (self->drag == FR_MAP_DRAG_TREE && far)
    self->drag = fr_sugarbush_is_selected (self->bush, self->pressed) ? FR_MAP_DRAG_MOVE : FR_MAP_DRAG_BAND;
  switch (self->drag)
    {
    case FR_MAP_DRAG_BAND:
      self->view.has_band = TRUE;
      self->view.band_x1_px = self->from_x_px;
      self->view.band_y1_px = self->from_y_px;
      self->view.band_x2_px = self->from_x_px + dx;
      self->view.band_y2_px = self->from_y_px + dy;
      gtk_widget_queue_draw (GTK_WIDGET (self));
      break;
    case FR_MAP_DRAG_MOVE:
      fr_viewport_to_plan (&self->view.viewport, self->from_x_px, self->from_y_px, &x1_m, &y1_m);
      fr_viewport_to_plan (&self->view.viewport, self->from_x_px + dx, self->from_y_px + dy, &x2_m, &y2_m);
      fr_bush_map_move_to (self, round (100 * (x2_m - x1_m)) / 100, round (100 * (y2_m - y1_m)) / 100);
      break;
    case FR_MAP_DRAG_PAN:
      pan_by (self, dx, dy);
      break;
    case FR_MAP_DRAG_NONE:
    case FR_MAP_DRAG_TREE:
    case FR_MAP_DRAG_GROUND:
    default:
      break;
    }
}

static void
select_band (FrBushMap *self)
{
  g_autoptr (GArray) indices = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autoptr (GArray) trees = g_array_new (FALSE, FALSE, sizeof (gint64));

  fr_map_trees_in (&self->view, self->cache, self->view.band_x1_px, self->view.band_y1_px,
                   self->view.band_x2_px, self->view.band_y2_px, indices);
  if ((self->press_state & (GDK_SHIFT_MASK | GDK_CONTROL_MASK)) != 0)
    g_array_append_vals (trees, fr_sugarbush_get_selected (self->bush), fr_sugarbush_n_selected (self->bush));
  for (guint i = 0; i < indices->len; i++)
    {
      gint64 tree = self->view.trees[g_array_index (indices, guint, i)].id;

      if ((self->press_state & (GDK_SHIFT_MASK | GDK_CONTROL_MASK)) == 0
          || !fr_sugarbush_is_selected (self->bush, tree))
        g_array_append_val (trees, tree);
    }
  fr_sugarbush_select_many (self->bush, (const gint64 *)(gpointer)trees->data, trees->len);
}

static void
click (FrBushMap *self)
{
  gboolean plain = (self->press_state & (GDK_SHIFT_MASK | GDK_CONTROL_MASK)) == 0;
  gboolean twice = self->n_press == 2 && plain && !self->adding;
  gboolean at_north = fr_map_north_at (&self->view, self->from_x_px, self->from_y_px);
  double x_m, y_m;

  if (self->sketch != NULL)
    {
      fr_bush_map_sketch_click (self, self->from_x_px, self->from_y_px, self->pressed, self->n_press == 2);
      return;
    }
  if (twice && self->pressed != 0)
    g_signal_emit_by_name (self, "open");
  else if (self->adding || (twice && !at_north))
    {
      fr_viewport_to_plan (&self->view.viewport, self->from_x_px, self->from_y_px, &x_m, &y_m);
      fr_bush_map_add_at (self, x_m, y_m);
    }
  else if (at_north)
    fr_bush_map_north_up (self);
  else if (self->pressed == 0)
    {
      if (plain)
        fr_sugarbush_select (self->bush, 0);
    }
  else if ((self->press_state & GDK_CONTROL_MASK) != 0)
    fr_sugarbush_toggle (self->bush, self->pressed);
  else if ((self->press_state & GDK_SHIFT_MASK) != 0)
    fr_sugarbush_select_also (self->bush, self->pressed);
  else
    fr_sugarbush_select (self->bush, self->pressed);
}

static void
drag_end_cb (GtkGestureDrag *gesture, double dx, double dy, gpointer user_data)
{
  FrBushMap *self = FR_BUSH_MAP (user_data);
  FrMapDrag drag = self->drag;

  self->drag = FR_MAP_DRAG_NONE;
  switch (drag)
    {
    case FR_MAP_DRAG_BAND:
      select_band (self);
      self->view.has_band = FALSE;
      gtk_widget_queue_draw (GTK_WIDGET (self));
      break;
    case FR_MAP_DRAG_MOVE:
      fr_bush_map_move_end (self, TRUE);
      break;
    case FR_MAP_DRAG_TREE:
    case FR_MAP_DRAG_GROUND:
      click (self);
      break;
    case FR_MAP_DRAG_NONE:
    case FR_MAP_DRAG_PAN:
    default:
      break;
    }
}

static void
drag_cancel_cb (FrBushMap *self)
{
  if (self->drag == FR_MAP_DRAG_MOVE)
    fr_bush_map_move_end (self, FALSE);
  fr_bush_map_cancel_drag (self);
}

/* What two clicks mean is done at their end, with what one click means. */
static void
pressed_cb (GtkGestureClick *gesture, int n_press, double x, double y, gpointer user_data)
{
  FR_BUSH_MAP (user_data)->n_press = n_press;
}

static void
pan_begin_cb (FrBushMap *self)
{
  self->panned_x_px = self->panned_y_px = 0;
}

static void
pan_cb (GtkGestureDrag *gesture, double dx, double dy, gpointer user_data)
{
  pan_by (FR_BUSH_MAP (user_data), dx, dy);
}

static void
menu_cb (GtkGestureClick *gesture, int n_press, double x, double y, gpointer user_data)
{
  FrBushMap *self = FR_BUSH_MAP (user_data);
  gint64 tree = fr_bush_map_tree_at (self, x, y);

  if (self->sketch != NULL)
    return;
  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (tree != 0 && !fr_sugarbush_is_selected (self->bush, tree))
    fr_sugarbush_select (self->bush, tree);
  fr_bush_map_open_menu (self, x, y, tree != 0);
}

static void
add_gesture (FrBushMap *self, GtkGesture *gesture, guint button)
{
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (gesture), button);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (gesture));
}

void
fr_bush_map_add_pointer (FrBushMap *self)
{
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkEventController *scroll = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);
  GtkGesture *drag = gtk_gesture_drag_new (), *pan = gtk_gesture_drag_new ();
  GtkGesture *click_twice = gtk_gesture_click_new (), *secondary = gtk_gesture_click_new ();
  GtkGesture *zoom = gtk_gesture_zoom_new ();

  g_signal_connect (motion, "enter", G_CALLBACK (motion_cb), self);
  g_signal_connect (motion, "motion", G_CALLBACK (motion_cb), self);
  g_signal_connect_swapped (motion, "leave", G_CALLBACK (leave_cb), self);
  g_signal_connect (scroll, "scroll", G_CALLBACK (scroll_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), motion);
  gtk_widget_add_controller (GTK_WIDGET (self), scroll);

  g_signal_connect (drag, "drag-begin", G_CALLBACK (drag_begin_cb), self);
  g_signal_connect (drag, "drag-update", G_CALLBACK (drag_update_cb), self);
  g_signal_connect (drag, "drag-end", G_CALLBACK (drag_end_cb), self);
  g_signal_connect_swapped (drag, "cancel", G_CALLBACK (drag_cancel_cb), self);
  g_signal_connect (click_twice, "pressed", G_CALLBACK (pressed_cb), self);
  g_signal_connect_swapped (pan, "drag-begin", G_CALLBACK (pan_begin_cb), self);
  g_signal_connect (pan, "drag-update", G_CALLBACK (pan_cb), self);
  g_signal_connect (secondary, "pressed", G_CALLBACK (menu_cb), self);
  g_signal_connect_swapped (zoom, "begin", G_CALLBACK (zoom_begin_cb), self);
  g_signal_connect (zoom, "scale-changed", G_CALLBACK (zoom_cb), self);
  add_gesture (self, drag, GDK_BUTTON_PRIMARY);
  add_gesture (self, click_twice, GDK_BUTTON_PRIMARY);
  add_gesture (self, pan, GDK_BUTTON_MIDDLE);
  add_gesture (self, secondary, GDK_BUTTON_SECONDARY);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (zoom));
}
