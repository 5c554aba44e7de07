/* Every action of the page in one place, and one function that says which of them can be done. Header, menus,
 * list and map ask for them by name; the window has them while the page is shown. */
#include "ui/sugarbush-page-private.h"

#include <math.h>

#include "models/bush-edit.h"
#include "ui/move-dialog.h"
#include "ui/print-dialog.h"
#include "ui/view-tabs.h"
#include "ui/window.h"

#define ZOOM_STEP 1.25

static FrWindow *
window_of (FrSugarbushPage *self)
{
  return fr_window_of (GTK_WIDGET (self));
}

static void
add_tree_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  FrSugarbushPage *self = FR_SUGARBUSH_PAGE (user_data);

  fr_sugarbush_page_show_view (self, "map");
  fr_map_pane_add (self->map);
}

static void
find_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  FrSugarbushPage *self = FR_SUGARBUSH_PAGE (user_data);

  fr_sugarbush_page_show_view (self, "map");
  fr_map_pane_find (self->map);
}

static void
rename_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  fr_map_pane_rename (FR_SUGARBUSH_PAGE (user_data)->map);
}

static void
delete_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  FrSugarbushPage *self = FR_SUGARBUSH_PAGE (user_data);
  guint row = fr_map_pane_focus_row (self->map);
  GError *error = NULL;
  FrChange *change
      = fr_bush_edit_remove (fr_sugarbush_get_book (self->bush), fr_sugarbush_get_selected (self->bush),
                             fr_sugarbush_n_selected (self->bush), &error);

  if (fr_window_finish (window_of (self), change, error))
    fr_map_pane_regain (self->map, row);
}

static void
move_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  FrSugarbushPage *self = FR_SUGARBUSH_PAGE (user_data);

  gtk_window_present (GTK_WINDOW (fr_move_dialog_new (window_of (self), self->bush)));
}

/* One more tap where it is clearest of old holes; anywhere, when the trunk was not measured. */
static void
plan_tap_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  FrSugarbushPage *self = FR_SUGARBUSH_PAGE (user_data);
  gint64 tree = fr_sugarbush_get_current (self->bush);
  FrBushPlace place = { .angle_deg = NAN, .height_m = NAN, .clearance_ratio = NAN };
  GError *error = NULL;
  FrChange *change;

  fr_bush_places (fr_sugarbush_get_bush (self->bush), tree, 1, &place);
  change = fr_bush_edit_plan_taps (fr_sugarbush_get_book (self->bush), tree,
                                   fr_sugarbush_get_season (self->bush), &place, 1, &error);
  fr_window_finish (window_of (self), change, error);
}

static void
select_all_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  fr_sugarbush_select_shown (FR_SUGARBUSH_PAGE (user_data)->bush);
}

/* There is a map in two of the views. */
static gboolean
is_round (FrSugarbushPage *self)
{
  return g_strcmp0 (adw_view_stack_get_visible_child_name (self->views), "round") == 0;
}

static void
zoom (FrSugarbushPage *self, double factor)
{
  if (is_round (self))
    fr_round_view_zoom (self->round, factor);
  else
    fr_map_pane_zoom (self->map, factor);
}

static void
show_all_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  FrSugarbushPage *self = FR_SUGARBUSH_PAGE (user_data);

  if (is_round (self))
    fr_round_view_show_all (self->round);
  else
    fr_map_pane_show_all (self->map);
}

static void
north_up_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  FrSugarbushPage *self = FR_SUGARBUSH_PAGE (user_data);

  if (is_round (self))
    fr_round_view_north_up (self->round);
  else
    fr_map_pane_north_up (self->map);
}

static void
zoom_in_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  zoom (FR_SUGARBUSH_PAGE (user_data), ZOOM_STEP);
}

static void
zoom_out_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  zoom (FR_SUGARBUSH_PAGE (user_data), 1 / ZOOM_STEP);
}

static void
next_view_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  fr_view_tabs_step (FR_SUGARBUSH_PAGE (user_data)->views, 1);
}

static void
previous_view_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  fr_view_tabs_step (FR_SUGARBUSH_PAGE (user_data)->views, -1);
}

static void
view_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  fr_sugarbush_page_show_view (FR_SUGARBUSH_PAGE (user_data), g_variant_get_string (parameter, NULL));
}

static void
take_plan_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  fr_tapping_view_take_over (FR_SUGARBUSH_PAGE (user_data)->plan);
}

static void
show_way_cb (GSimpleAction *action, GVariant *state, gpointer user_data)
{
  FrSugarbushPage *self = FR_SUGARBUSH_PAGE (user_data);

  self->shows_way = g_variant_get_boolean (state);
  g_simple_action_set_state (action, state);
  fr_sugarbush_page_show_way (self);
}

static void
print_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  FrSugarbushPage *self = FR_SUGARBUSH_PAGE (user_data);

  gtk_window_present (GTK_WINDOW (fr_print_dialog_new (window_of (self), self->bush, is_round (self))));
}

static const GActionEntry entries[] = {
  { .name = "add-tree", .activate = add_tree_cb },
  { .name = "find", .activate = find_cb },
  { .name = "rename", .activate = rename_cb },
  { .name = "delete", .activate = delete_cb },
  { .name = "move", .activate = move_cb },
  { .name = "plan-tap", .activate = plan_tap_cb },
  { .name = "select-all", .activate = select_all_cb },
  { .name = "show-all", .activate = show_all_cb },
  { .name = "north-up", .activate = north_up_cb },
  { .name = "zoom-in", .activate = zoom_in_cb },
  { .name = "zoom-out", .activate = zoom_out_cb },
  { .name = "view", .activate = view_cb, .parameter_type = "s" },
  { .name = "take-plan", .activate = take_plan_cb },
  { .name = "show-way", .state = "true", .change_state = show_way_cb },
  { .name = "print", .activate = print_cb },
  { .name = "next-view", .activate = next_view_cb },
  { .name = "previous-view", .activate = previous_view_cb },
};

void
fr_sugarbush_actions_init (FrSugarbushPage *self)
{
  self->actions = g_simple_action_group_new ();
  g_action_map_add_action_entries (G_ACTION_MAP (self->actions), entries, G_N_ELEMENTS (entries), self);
}

static void
enable (FrSugarbushPage *self, const char *name, gboolean enabled)
{
  g_simple_action_set_enabled (
      G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (self->actions), name)), enabled);
}

void
fr_sugarbush_actions_update (FrSugarbushPage *self)
{
  guint n = fr_sugarbush_n_selected (self->bush);

  enable (self, "rename", n == 1);
  enable (self, "plan-tap", n == 1);
  enable (self, "delete", n > 0);
  enable (self, "move", n > 0);
}
