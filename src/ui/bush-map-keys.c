/* The map by keyboard. */
#include "ui/bush-map-private.h"

#include <math.h>

#define PAN_PX 80.0
#define ZOOM_STEP 1.25
#define TURN_DEG 15.0
#define STEP_M 0.1
#define LONG_STEP_M 1.0

static void
walk (FrBushMap *self, double dx_px, double dy_px, gboolean select)
{
  gssize from = self->focus != 0 ? fr_map_scene_find (self->scene, self->focus) : -1;
  gssize to;

  if (from >= 0 && isnan (self->view.trees[from].x_m))
    from = -1;
  to = fr_map_tree_towards (&self->view, from, dx_px, dy_px);
  if (to < 0)
    return;
  self->focus = self->view.trees[to].id;
  if (select)
    fr_sugarbush_select (self->bush, self->focus);
  fr_bush_map_show_tree (self, self->focus);
  fr_bush_map_marks_changed (self);
  fr_bush_map_say (self);
}

/* Along the screen; with the map turned that is another way over the ground. */
static void
move (FrBushMap *self, double right, double up, double step_m)
{
  double turn = self->view.viewport.rotation_deg * G_PI / 180;
  double x_m = step_m * (right * cos (turn) - up * sin (turn));
  double y_m = step_m * (right * sin (turn) + up * cos (turn));

  if (fr_sugarbush_n_selected (self->bush) == 0)
    return;
  self->pressed = 0;
  self->moving_by_keys = TRUE;
  fr_bush_map_move_to (self, self->move_x_m + x_m, self->move_y_m + y_m);
}

static gboolean
arrow (FrBushMap *self, double right, double up, GdkModifierType state)
{
  if ((state & GDK_ALT_MASK) != 0)
    move (self, right, up, (state & GDK_SHIFT_MASK) != 0 ? LONG_STEP_M : STEP_M);
  else if ((state & GDK_SHIFT_MASK) != 0)
    {
      fr_viewport_pan (&self->view.viewport, -PAN_PX * right, PAN_PX * up);
      fr_bush_map_moved_view (self);
    }
  else
    walk (self, right, -up, (state & GDK_CONTROL_MASK) == 0);
  return TRUE;
}

/* Lets go of one thing at a time, the latest first. */
static gboolean
escape (FrBushMap *self)
{
  if (fr_bush_map_is_moving (self) || self->view.has_band)
    {
      fr_bush_map_cancel_drag (self);
      fr_bush_map_move_end (self, FALSE);
    }
  else if (self->adding)
    fr_bush_map_set_adding (self, FALSE);
  else if (fr_sugarbush_n_selected (self->bush) > 0)
    fr_sugarbush_select (self->bush, 0);
  else
    return FALSE;
  return TRUE;
}

static gboolean
enter (FrBushMap *self)
{
  if (self->moving_by_keys)
    fr_bush_map_move_end (self, TRUE);
  else if (self->adding)
    fr_bush_map_add_at (self, self->view.viewport.centre_x_m, self->view.viewport.centre_y_m);
  else if (self->focus != 0)
    {
      if (!fr_sugarbush_is_selected (self->bush, self->focus))
        fr_sugarbush_select (self->bush, self->focus);
      g_signal_emit_by_name (self, "open");
    }
  else
    return FALSE;
  return TRUE;
}

static void
menu (FrBushMap *self)
{
  GdkRectangle symbol;

  if (self->focus != 0 && fr_bush_map_get_symbol (self, self->focus, &symbol))
    {
      if (!fr_sugarbush_is_selected (self->bush, self->focus))
        fr_sugarbush_select (self->bush, self->focus);
      fr_bush_map_open_menu (self, symbol.x + symbol.width / 2.0, symbol.y + symbol.height, TRUE);
    }
  else
    fr_bush_map_open_menu (self, self->view.viewport.width_px / 2, self->view.viewport.height_px / 2, FALSE);
}

static void
turn (FrBushMap *self, double angle_deg)
{
  fr_viewport_turn (&self->view.viewport, angle_deg);
  fr_bush_map_moved_view (self);
}

static gboolean
key_pressed_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state,
                gpointer user_data)
{
  FrBushMap *self = FR_BUSH_MAP (user_data);
  GtkWidget *widget = GTK_WIDGET (self);

  if (self->sketch != NULL && fr_bush_map_sketch_key (self, keyval, state))
    return TRUE;
  switch (keyval)
    {
    case GDK_KEY_Left:
    case GDK_KEY_KP_Left:
      return arrow (self, -1, 0, state);
    case GDK_KEY_Right:
    case GDK_KEY_KP_Right:
      return arrow (self, 1, 0, state);
    case GDK_KEY_Up:
    case GDK_KEY_KP_Up:
      return arrow (self, 0, 1, state);
    case GDK_KEY_Down:
    case GDK_KEY_KP_Down:
      return arrow (self, 0, -1, state);
    case GDK_KEY_plus:
    case GDK_KEY_equal:
    case GDK_KEY_KP_Add:
      fr_bush_map_zoom (self, ZOOM_STEP);
      return TRUE;
    case GDK_KEY_minus:
    case GDK_KEY_KP_Subtract:
      fr_bush_map_zoom (self, 1 / ZOOM_STEP);
      return TRUE;
    case GDK_KEY_0:
    case GDK_KEY_KP_0:
      fr_bush_map_show_all (self);
      return TRUE;
    case GDK_KEY_bracketleft:
      turn (self, -TURN_DEG);
      return TRUE;
    case GDK_KEY_bracketright:
      turn (self, TURN_DEG);
      return TRUE;
    case GDK_KEY_space:
      if (!self->space_down) /* held, it comes again and again */
        self->space_used = FALSE;
      self->space_down = TRUE;
      return TRUE;
    case GDK_KEY_Return:
    case GDK_KEY_KP_Enter:
      return enter (self);
    case GDK_KEY_Escape:
      return escape (self);
    case GDK_KEY_Menu:
      menu (self);
      return TRUE;
    case GDK_KEY_F10:
      if ((state & GDK_SHIFT_MASK) == 0)
        return FALSE;
      menu (self);
      return TRUE;
    case GDK_KEY_F2:
      return gtk_widget_activate_action (widget, "bush.rename", NULL);
    case GDK_KEY_Delete:
    case GDK_KEY_KP_Delete:
      return gtk_widget_activate_action (widget, "bush.delete", NULL);
    case GDK_KEY_a:
      if ((state & GDK_CONTROL_MASK) == 0)
        return FALSE;
      fr_sugarbush_select_shown (self->bush);
      return TRUE;
    default:
      return FALSE;
    }
}

static void
key_released_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state,
                 gpointer user_data)
{
  FrBushMap *self = FR_BUSH_MAP (user_data);

  if (keyval == GDK_KEY_space && self->space_down)
    {
      self->space_down = FALSE;
      if (!self->space_used && self->focus != 0)
        fr_sugarbush_toggle (self->bush, self->focus);
    }
  else if ((keyval == GDK_KEY_Alt_L || keyval == GDK_KEY_Alt_R || keyval == GDK_KEY_Meta_L)
           && self->moving_by_keys)
    fr_bush_map_move_end (self, TRUE);
}

void
fr_bush_map_add_keys (FrBushMap *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self);
  g_signal_connect (keys, "key-released", G_CALLBACK (key_released_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}
