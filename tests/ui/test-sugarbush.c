/* The page of the sugarbush on the demo's household, worked by list, keys and pointer; each test ends with
 * nothing of the window left. Trees by id, as in demo/book.json: 1 Gate, 2 Spring, 21 Far 1, 31 Bend (never
 * measured). */
#include <math.h>

#include "models/bush-edit.h"
#include "models/sugarbush.h"
#include "ui/bush-map.h"
#include "ui/clock.h"
#include "ui/sugarbush-page.h"
#include "window-tools.h"

#define GATE 1
#define SPRING 2
#define OLD_LADY 15
#define FAR_1 21
#define BEND 31

static GtkWidget *
part (FrWindow *window, const char *type_name)
{
  GtkWidget *found = find (GTK_WIDGET (window), is_a, type_name);

  if (found == NULL)
    g_error ("no %s", type_name);
  return found;
}

static FrSugarbush *
bush_of (FrWindow *window)
{
  return fr_sugarbush_page_get_bush (FR_SUGARBUSH_PAGE (part (window, "FrSugarbushPage")));
}

static FrWindow *
open_page (const char *name, ToolsBook book)
{
  FrWindow *window = open_window (name, book);

  act (window, "win.page", "sugarbush");
  return window;
}

static GtkSelectionModel *
rows (FrWindow *window)
{
  return gtk_list_view_get_model (GTK_LIST_VIEW (part (window, "GtkListView")));
}

static gint64
row_tree (FrWindow *window, guint row)
{
  g_autoptr (FrTreeItem) item = g_list_model_get_item (G_LIST_MODEL (rows (window)), row);

  return fr_tree_item_get_id (item);
}

static guint
n_rows (FrWindow *window)
{
  return g_list_model_get_n_items (G_LIST_MODEL (rows (window)));
}

static const FrTree *
tree_of (FrWindow *window, gint64 id)
{
  return (const FrTree *)fr_book_find (fr_window_get_book (window), FR_KIND_TREE, id);
}

/* A key with Shift, Alt and the like, pressed or released. */
static void
key (GtkWidget *widget, const char *signal, guint keyval, GdkModifierType state)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) one = g_list_model_get_item (controllers, i);
      gboolean taken = FALSE;

      if (!GTK_IS_EVENT_CONTROLLER_KEY (one))
        continue;
      if (g_str_equal (signal, "key-pressed"))
        g_signal_emit_by_name (one, signal, keyval, 0, state, &taken);
      else
        g_signal_emit_by_name (one, signal, keyval, 0, state);
    }
  settle ();
}

/* The map's gesture of a type that minds the first button. */
static GtkGesture *
gesture_of (GtkWidget *map, GType type)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (map);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) one = g_list_model_get_item (controllers, i);

      if (G_TYPE_CHECK_INSTANCE_TYPE (one, type)
          && gtk_gesture_single_get_button (GTK_GESTURE_SINGLE (one)) == GDK_BUTTON_PRIMARY)
        return GTK_GESTURE (one); /* the map has it */
    }
  g_assert_not_reached ();
}

/* A drag with the first button; without a way it is a click. */
static void
drag (GtkWidget *map, double x, double y, double dx, double dy)
{
  GtkGesture *gesture = gesture_of (map, GTK_TYPE_GESTURE_DRAG);

  g_signal_emit_by_name (gesture, "drag-begin", x, y);
  if (dx != 0 || dy != 0)
    g_signal_emit_by_name (gesture, "drag-update", dx, dy);
  g_signal_emit_by_name (gesture, "drag-end", dx, dy);
  settle ();
}

static void
click_twice (GtkWidget *map, double x, double y)
{
  GtkGesture *gesture = gesture_of (map, GTK_TYPE_GESTURE_CLICK);

  for (int n = 1; n <= 2; n++)
    {
      g_signal_emit_by_name (gesture, "pressed", n, x, y);
      drag (map, x, y, 0, 0);
    }
  g_signal_emit_by_name (gesture, "pressed", 1, x, y);
}

static void
symbol_middle (GtkWidget *map, gint64 tree, double *x, double *y)
{
  GdkRectangle symbol;

  g_assert_true (fr_bush_map_get_symbol (FR_BUSH_MAP (map), tree, &symbol));
  *x = symbol.x + symbol.width / 2.0;
  *y = symbol.y + symbol.height / 2.0;
}

static void
test_list_and_map_select_the_same (void)
{
  FrWindow *window = open_page ("same.frostrun", TOOLS_DEMO);
  FrSugarbush *bush = bush_of (window);
  GtkWidget *map = part (window, "FrBushMap");
  double x, y;

  g_assert_cmpuint (n_rows (window), ==, 31);
  gtk_selection_model_select_item (rows (window), 3, TRUE);
  settle ();
  g_assert_cmpint (fr_sugarbush_get_current (bush), ==, row_tree (window, 3));
  g_assert_nonnull (find (GTK_WIDGET (window), is_a, "FrTreePanel"));

  symbol_middle (map, SPRING, &x, &y);
  drag (map, x, y, 0, 0);
  g_assert_cmpint (fr_sugarbush_get_current (bush), ==, SPRING);
  g_assert_cmpuint (fr_sugarbush_n_selected (bush), ==, 1);
  for (guint i = 0; i < n_rows (window); i++)
    g_assert_cmpint (gtk_selection_model_is_selected (rows (window), i), ==, row_tree (window, i) == SPRING);

  /* a click on the ground lets go */
  drag (map, 3, 3, 0, 0);
  g_assert_cmpuint (fr_sugarbush_n_selected (bush), ==, 0);

  gtk_selection_model_select_all (rows (window));
  g_assert_cmpuint (fr_sugarbush_n_selected (bush), ==, 31);
  settle ();
  g_assert_nonnull (find (GTK_WIDGET (window), is_a, "FrTreesTogether"));
  gtk_selection_model_unselect_item (rows (window), 0);
  g_assert_cmpuint (fr_sugarbush_n_selected (bush), ==, 30);
  close_window (window);
}

static void
test_band (void)
{
  FrWindow *window = open_page ("band.frostrun", TOOLS_DEMO);
  GtkWidget *map = part (window, "FrBushMap");
  double x, y;

  /* From the corner over everything: all that is placed. */
  drag (map, 1, 1, gtk_widget_get_width (map) - 2.0, gtk_widget_get_height (map) - 2.0);
  g_assert_cmpuint (fr_sugarbush_n_selected (bush_of (window)), ==, 31);
  symbol_middle (map, GATE, &x, &y);
  drag (map, x - 30, y - 30, 60, 60);
  g_assert_cmpuint (fr_sugarbush_n_selected (bush_of (window)), ==, 1);
  g_assert_true (fr_sugarbush_is_selected (bush_of (window), GATE));
  close_window (window);
}

static void
test_move_by_pointer (void)
{
  FrWindow *window = open_page ("drag.frostrun", TOOLS_DEMO);
  GtkWidget *map = part (window, "FrBushMap");
  double x, y, x_m = tree_of (window, GATE)->x_m.value, y_m = tree_of (window, GATE)->y_m.value;
  double px_per_m = fr_bush_map_get_viewport (FR_BUSH_MAP (map))->px_per_m;
  GtkGesture *gesture;

  /* What is not selected stays where it is. */
  symbol_middle (map, GATE, &x, &y);
  drag (map, x, y, 40, 0);
  g_assert_cmpfloat (tree_of (window, GATE)->x_m.value, ==, x_m);

  fr_sugarbush_select (bush_of (window), GATE);
  drag (map, x, y, 40, -20);
  g_assert_cmpfloat_with_epsilon (tree_of (window, GATE)->x_m.value, x_m + 40 / px_per_m, 0.011);
  g_assert_cmpfloat_with_epsilon (tree_of (window, GATE)->y_m.value, y_m + 20 / px_per_m, 0.011);
  act (window, "win.undo", NULL);
  g_assert_cmpfloat (tree_of (window, GATE)->x_m.value, ==, x_m);
  g_assert_cmpfloat (tree_of (window, GATE)->y_m.value, ==, y_m);

  /* Escape while the button is still down: nothing moves, whatever the pointer does then. */
  symbol_middle (map, GATE, &x, &y);
  gesture = gesture_of (map, GTK_TYPE_GESTURE_DRAG);
  g_signal_emit_by_name (gesture, "drag-begin", x, y);
  g_signal_emit_by_name (gesture, "drag-update", 50.0, 0.0);
  key (map, "key-pressed", GDK_KEY_Escape, 0);
  g_signal_emit_by_name (gesture, "drag-update", 60.0, 0.0);
  g_signal_emit_by_name (gesture, "drag-end", 60.0, 0.0);
  settle ();
  g_assert_cmpfloat (tree_of (window, GATE)->x_m.value, ==, x_m);
  g_assert_null (fr_book_peek_undo (fr_window_get_book (window)));
  g_assert_true (fr_sugarbush_is_selected (bush_of (window), GATE));
  close_window (window);
}

/* On the ground two clicks add a tree where they were; on a tree they open it. */
static void
test_two_clicks (void)
{
  FrWindow *window = open_page ("twice.frostrun", TOOLS_DEMO);
  GtkWidget *map = part (window, "FrBushMap");
  FrRecordList *trees = fr_book_get_list (fr_window_get_book (window), FR_KIND_TREE);
  double x, y;

  symbol_middle (map, SPRING, &x, &y);
  click_twice (map, x, y);
  g_assert_cmpuint (fr_record_list_get_size (trees), ==, 31);
  g_assert_cmpint (fr_sugarbush_get_current (bush_of (window)), ==, SPRING);
  click_twice (map, 20, 120);
  g_assert_cmpuint (fr_record_list_get_size (trees), ==, 32);
  g_assert_cmpint (fr_sugarbush_get_current (bush_of (window)), ==, fr_record_list_get (trees, 31)->id);
  close_window (window);
}

/* However often a key is pressed while Alt is down, it is one step; Escape takes it back before it is one. */
static void
test_move_by_keys (void)
{
  FrWindow *window = open_page ("keys.frostrun", TOOLS_DEMO);
  GtkWidget *map = part (window, "FrBushMap");
  double gate_m = tree_of (window, GATE)->x_m.value, spring_m = tree_of (window, SPRING)->x_m.value;
  const gint64 both[] = { GATE, SPRING };

  fr_sugarbush_select_many (bush_of (window), both, 2);
  gtk_widget_grab_focus (map);
  for (guint i = 0; i < 3; i++)
    key (map, "key-pressed", GDK_KEY_Right, GDK_ALT_MASK);
  key (map, "key-pressed", GDK_KEY_Right, GDK_ALT_MASK | GDK_SHIFT_MASK);
  g_assert_cmpfloat (tree_of (window, GATE)->x_m.value, ==, gate_m);
  key (map, "key-released", GDK_KEY_Alt_L, GDK_ALT_MASK);
  g_assert_cmpfloat_with_epsilon (tree_of (window, GATE)->x_m.value, gate_m + 1.3, 1e-6);
  g_assert_cmpfloat_with_epsilon (tree_of (window, SPRING)->x_m.value, spring_m + 1.3, 1e-6);
  act (window, "win.undo", NULL);
  g_assert_cmpfloat (tree_of (window, GATE)->x_m.value, ==, gate_m);

  key (map, "key-pressed", GDK_KEY_Up, GDK_ALT_MASK);
  key (map, "key-pressed", GDK_KEY_Escape, 0);
  key (map, "key-released", GDK_KEY_Alt_L, GDK_ALT_MASK);
  g_assert_null (fr_book_peek_undo (fr_window_get_book (window)));
  g_assert_cmpuint (fr_sugarbush_n_selected (bush_of (window)), ==, 2);
  close_window (window);
}

static void
test_walk_by_keys (void)
{
  FrWindow *window = open_page ("walk.frostrun", TOOLS_DEMO);
  FrSugarbush *bush = bush_of (window);
  GtkWidget *map = part (window, "FrBushMap");
  gint64 before;

  fr_sugarbush_select (bush, GATE);
  gtk_widget_grab_focus (map);
  key (map, "key-pressed", GDK_KEY_Right, 0);
  before = fr_sugarbush_get_current (bush);
  g_assert_cmpint (before, !=, GATE);
  g_assert_cmpfloat (tree_of (window, before)->x_m.value, >, tree_of (window, GATE)->x_m.value);
  g_assert_cmpuint (fr_sugarbush_n_selected (bush), ==, 1);

  /* with Ctrl only the focus goes on; Space takes it in */
  key (map, "key-pressed", GDK_KEY_Right, GDK_CONTROL_MASK);
  g_assert_cmpint (fr_sugarbush_get_current (bush), ==, before);
  key (map, "key-pressed", GDK_KEY_space, 0);
  key (map, "key-released", GDK_KEY_space, 0);
  g_assert_cmpuint (fr_sugarbush_n_selected (bush), ==, 2);
  key (map, "key-pressed", GDK_KEY_Escape, 0);
  g_assert_cmpuint (fr_sugarbush_n_selected (bush), ==, 0);
  close_window (window);
}

static void
test_view_by_keys (void)
{
  FrWindow *window = open_page ("view.frostrun", TOOLS_DEMO);
  GtkWidget *map = part (window, "FrBushMap");
  const FrViewport *view = fr_bush_map_get_viewport (FR_BUSH_MAP (map));
  double px_per_m = view->px_per_m, x_m = view->centre_x_m;

  key (map, "key-pressed", GDK_KEY_plus, 0);
  g_assert_cmpfloat (view->px_per_m, >, px_per_m);
  key (map, "key-pressed", GDK_KEY_Right, GDK_SHIFT_MASK);
  g_assert_cmpfloat (view->centre_x_m, >, x_m);
  key (map, "key-pressed", GDK_KEY_bracketright, 0);
  g_assert_cmpfloat (view->rotation_deg, ==, 15);
  act (window, "bush.north-up", NULL);
  g_assert_cmpfloat (view->rotation_deg, ==, 0);
  key (map, "key-pressed", GDK_KEY_0, 0);
  g_assert_cmpfloat_with_epsilon (view->px_per_m, px_per_m, 1e-9);
  close_window (window);
}

static void
choose_show (FrWindow *window, guint show)
{
  GtkWidget *list = part (window, "FrTreeList");

  gtk_drop_down_set_selected (GTK_DROP_DOWN (find (list, is_a, "GtkDropDown")), show);
  settle ();
}

static void
test_filter (void)
{
  FrWindow *window = open_page ("filter.frostrun", TOOLS_DEMO);
  FrSugarbush *bush = bush_of (window);
  GtkWidget *search = part (window, "GtkSearchEntry");

  fr_sugarbush_select (bush, GATE);
  choose_show (window, FR_TREE_SHOW_UNMEASURED);
  g_assert_cmpuint (n_rows (window), ==, 1);
  g_assert_cmpint (row_tree (window, 0), ==, BEND);
  g_assert_true (fr_sugarbush_is_selected (bush, GATE)); /* filtered away, not let go */
  choose_show (window, FR_TREE_SHOW_TAPPED);
  g_assert_cmpuint (n_rows (window), ==, 14); /* 11 set, 3 more only planned */
  choose_show (window, FR_TREE_SHOW_ALL);

  gtk_editable_set_text (GTK_EDITABLE (search), "wall");
  g_signal_emit_by_name (search, "search-changed");
  settle ();
  g_assert_cmpuint (n_rows (window), ==, 4);
  gtk_editable_set_text (GTK_EDITABLE (search), "no such tree");
  g_signal_emit_by_name (search, "search-changed");
  settle ();
  g_assert_cmpuint (n_rows (window), ==, 0);
  g_assert_nonnull (find (GTK_WIDGET (window), is_label, "No tree is like this."));
  g_signal_emit_by_name (search, "stop-search");
  settle ();
  g_assert_cmpuint (n_rows (window), ==, 31);
  close_window (window);
}

static gboolean
is_head (GtkWidget *widget, const char *text)
{
  return GTK_IS_BUTTON (widget)
         && gtk_accessible_get_accessible_role (GTK_ACCESSIBLE (widget)) == GTK_ACCESSIBLE_ROLE_COLUMN_HEADER
         && find (widget, is_label, text) != NULL;
}

static void
test_sort (void)
{
  FrWindow *window = open_page ("sort.frostrun", TOOLS_DEMO);

  g_assert_cmpint (row_tree (window, 0), ==, SPRING); /* 21.2 L, the most of this season */
  g_signal_emit_by_name (find (GTK_WIDGET (window), is_head, "cm"), "clicked");
  settle ();
  g_assert_cmpint (row_tree (window, 0), ==, OLD_LADY); /* 88 cm */
  g_signal_emit_by_name (find (GTK_WIDGET (window), is_head, "Tree"), "clicked");
  settle ();
  g_assert_cmpint (row_tree (window, 0), ==, BEND);
  g_signal_emit_by_name (find (GTK_WIDGET (window), is_head, "Tree"), "clicked");
  settle ();
  g_assert_cmpint (row_tree (window, 30), ==, BEND);
  close_window (window);
}

static void
test_add (void)
{
  FrWindow *window = open_page ("add.frostrun", TOOLS_DEMO);
  GtkWidget *map = part (window, "FrBushMap");
  FrRecordList *trees = fr_book_get_list (fr_window_get_book (window), FR_KIND_TREE);
  FrViewport view;
  const FrTree *added;

  act (window, "bush.add-tree", NULL);
  g_assert_true (fr_bush_map_get_adding (FR_BUSH_MAP (map)));
  key (map, "key-pressed", GDK_KEY_Escape, 0);
  g_assert_false (fr_bush_map_get_adding (FR_BUSH_MAP (map)));
  g_assert_cmpuint (fr_record_list_get_size (trees), ==, 31);

  act (window, "bush.add-tree", NULL);
  view = *fr_bush_map_get_viewport (FR_BUSH_MAP (map));
  key (map, "key-pressed", GDK_KEY_Return, 0);
  g_assert_cmpuint (fr_record_list_get_size (trees), ==, 32);
  added = (const FrTree *)fr_record_list_get (trees, 31);
  g_assert_cmpint (fr_sugarbush_get_current (bush_of (window)), ==, added->record.id);
  g_assert_cmpfloat_with_epsilon (added->x_m.value, view.centre_x_m, 0.011);
  g_assert_cmpfloat_with_epsilon (added->y_m.value, view.centre_y_m, 0.011);
  act (window, "win.undo", NULL);
  g_assert_cmpuint (fr_record_list_get_size (trees), ==, 31);
  g_assert_cmpuint (fr_sugarbush_n_selected (bush_of (window)), ==, 0);

  /* with the pointer where one clicks */
  act (window, "bush.add-tree", NULL);
  drag (map, 20, 30, 0, 0);
  g_assert_cmpuint (fr_record_list_get_size (trees), ==, 32);
  added = (const FrTree *)fr_record_list_get (trees, 31);
  g_assert_cmpfloat (added->x_m.value, <, view.centre_x_m);
  g_assert_cmpfloat (added->y_m.value, >, view.centre_y_m);
  close_window (window);
}

static void
test_rename (void)
{
  FrWindow *window = open_page ("rename.frostrun", TOOLS_DEMO);
  GtkWidget *entry;

  fr_sugarbush_select (bush_of (window), GATE);
  act (window, "bush.rename", NULL);
  entry = find (part (window, "FrTreeRename"), is_a, "GtkEntry");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "Gate");
  gtk_editable_set_text (GTK_EDITABLE (entry), "  ");
  g_signal_emit_by_name (entry, "activate");
  settle ();
  g_assert_cmpstr (tree_of (window, GATE)->name, ==, "Gate");
  g_assert_true (gtk_widget_has_css_class (entry, "error"));
  gtk_editable_set_text (GTK_EDITABLE (entry), "Old gate");
  g_signal_emit_by_name (entry, "activate");
  settle ();
  g_assert_cmpstr (tree_of (window, GATE)->name, ==, "Old gate");
  act (window, "win.undo", NULL);
  g_assert_cmpstr (tree_of (window, GATE)->name, ==, "Gate");
  close_window (window);
}

/* One with a history is put away, one without is gone; either comes back. */
static void
test_delete (void)
{
  FrWindow *window = open_page ("delete.frostrun", TOOLS_DEMO);
  FrBook *book = fr_window_get_book (window);
  const gint64 both[] = { GATE, FAR_1 };
  g_autoptr (GPtrArray) before = snapshot (book), after = NULL;

  fr_sugarbush_select_many (bush_of (window), both, 2);
  act (window, "bush.delete", NULL);
  g_assert_true (tree_of (window, GATE)->record.archived);
  g_assert_null (tree_of (window, FAR_1));
  g_assert_cmpuint (n_rows (window), ==, 29);
  g_assert_cmpuint (fr_sugarbush_n_selected (bush_of (window)), ==, 0);
  act (window, "win.undo", NULL);
  after = snapshot (book);
  assert_same (before, after);
  g_assert_cmpuint (n_rows (window), ==, 31);
  close_window (window);
}

/* The keyboard stays on the list when the row it was on goes, and on the map when no row is left; were it to
 * fall into the search, undo would mean its letters. */
static void
test_focus_after_delete (void)
{
  FrWindow *window = open_page ("focus.frostrun", TOOLS_DEMO);
  GtkWidget *view = part (window, "GtkListView"), *search = part (window, "GtkSearchEntry");

  fr_sugarbush_select (bush_of (window), row_tree (window, 5));
  settle ();
  gtk_widget_grab_focus (view);
  settle ();
  act (window, "bush.delete", NULL);
  g_assert_cmpuint (n_rows (window), ==, 30);
  g_assert_nonnull (gtk_widget_get_focus_child (view));

  gtk_editable_set_text (GTK_EDITABLE (search), "gate");
  g_signal_emit_by_name (search, "search-changed");
  settle ();
  fr_sugarbush_select (bush_of (window), GATE);
  gtk_widget_grab_focus (view);
  settle ();
  g_assert_nonnull (gtk_widget_get_focus_child (view));
  act (window, "bush.delete", NULL);
  g_assert_cmpuint (n_rows (window), ==, 0);
  g_assert_true (gtk_widget_has_focus (part (window, "FrBushMap")));
  close_window (window);
}

static gboolean
is_combo (GtkWidget *widget, const char *title)
{
  return ADW_IS_COMBO_ROW (widget)
         && g_strcmp0 (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (widget)), title) == 0;
}

static void
test_together (void)
{
  FrWindow *window = open_page ("together.frostrun", TOOLS_DEMO);
  const gint64 three[] = { GATE, OLD_LADY, FAR_1 };
  GtkWidget *health, *roadside;

  fr_sugarbush_select_many (bush_of (window), three, 3);
  settle ();
  health = find (GTK_WIDGET (window), is_combo, "Health");
  roadside = find (GTK_WIDGET (window), is_combo, "Beside a road");
  g_assert_cmpuint (adw_combo_row_get_selected (ADW_COMBO_ROW (health)), ==, 0);   /* they differ */
  g_assert_cmpuint (adw_combo_row_get_selected (ADW_COMBO_ROW (roadside)), ==, 1); /* none is */
  adw_combo_row_set_selected (ADW_COMBO_ROW (health), 3); /* unknown, healthy, weak */
  settle ();
  for (guint i = 0; i < 3; i++)
    g_assert_cmpstr (tree_of (window, three[i])->health, ==, "weak");
  adw_combo_row_set_selected (ADW_COMBO_ROW (roadside), 2);
  settle ();
  g_assert_true (tree_of (window, GATE)->roadside && tree_of (window, FAR_1)->roadside);
  act (window, "win.undo", NULL);
  act (window, "win.undo", NULL);
  g_assert_cmpstr (tree_of (window, GATE)->health, ==, "healthy");
  g_assert_cmpstr (tree_of (window, OLD_LADY)->health, ==, "failing");
  g_assert_cmpuint (adw_combo_row_get_selected (ADW_COMBO_ROW (health)), ==, 0);
  g_assert_null (fr_book_peek_undo (fr_window_get_book (window)));
  close_window (window);
}

static void
test_plan_a_tap (void)
{
  FrWindow *window = open_page ("plan.frostrun", TOOLS_DEMO);
  FrSugarbush *bush = bush_of (window);

  fr_sugarbush_select (bush, FAR_1);
  act (window, "bush.plan-tap", NULL);
  g_assert_cmpuint (fr_bush_find (fr_sugarbush_get_bush (bush), FAR_1)->taps_planned, ==, 1);
  act (window, "win.undo", NULL);
  g_assert_cmpuint (fr_bush_find (fr_sugarbush_get_bush (bush), FAR_1)->taps_planned, ==, 0);
  /* a trunk of unknown size has no best place, but a tap can be planned */
  fr_sugarbush_select (bush, BEND);
  act (window, "bush.plan-tap", NULL);
  g_assert_cmpuint (fr_bush_find (fr_sugarbush_get_bush (bush), BEND)->taps_planned, ==, 1);
  close_window (window);
}

static void
test_move_dialog (void)
{
  FrWindow *window = open_page ("dialog.frostrun", TOOLS_DEMO);
  double x_m = tree_of (window, GATE)->x_m.value, y_m = tree_of (window, GATE)->y_m.value;
  GtkWidget *dialog;

  fr_sugarbush_select (bush_of (window), GATE);
  act (window, "bush.move", NULL);
  dialog = find_window ("FrMoveDialog");
  g_assert_nonnull (dialog);
  fr_entry_row_enter (row (dialog, "Distance"), "10");
  fr_entry_row_enter (row (dialog, "Bearing"), "somewhere");
  g_assert_nonnull (fr_entry_row_get_problem (row (dialog, "Bearing")));
  fr_entry_row_enter (row (dialog, "Bearing"), "E");
  press (dialog, "_Keep");
  /* East by a compass that points 11.5° west of true north is 78.5° (declination in demo/book.json). */
  g_assert_cmpfloat_with_epsilon (tree_of (window, GATE)->x_m.value, x_m + 10 * sin (78.5 * G_PI / 180),
                                  1e-3);
  g_assert_cmpfloat_with_epsilon (tree_of (window, GATE)->y_m.value, y_m + 10 * cos (78.5 * G_PI / 180),
                                  1e-3);
  close_window (window);
}

static void
test_first_tree (void)
{
  g_autofree char *path = tools_path ("first.frostrun");
  g_autoptr (GError) error = NULL;
  FrWindow *window;
  FrBook *book;
  GtkWidget *map;

  {
    g_autoptr (FrBook) new_book = fr_book_open (path, &error);
    g_autoptr (FrRecord) household = fr_book_new_record (new_book, FR_KIND_HOUSEHOLD, 0, &error);
    g_autoptr (FrChange) change = fr_change_new ("set-up", NULL);

    fr_record_set_text (household, fr_kind_field (household->kind, "name"), "Test Lane");
    fr_record_set_text (household, fr_kind_field (household->kind, "zone"), "America/Toronto");
    fr_record_set_text (household, fr_kind_field (household->kind, "currency"), "CAD");
    fr_change_add (change, NULL, household);
    g_assert_true (fr_book_apply (new_book, change, &error));
  }
  window = open_page ("first.frostrun", TOOLS_AS_IT_IS);
  book = fr_window_get_book (window);
  g_assert_nonnull (find (GTK_WIDGET (window), is_label, "No trees yet"));
  act (window, "bush.add-tree", NULL);
  map = part (window, "FrBushMap");
  key (map, "key-pressed", GDK_KEY_Escape, 0);
  g_assert_nonnull (find (GTK_WIDGET (window), is_label, "No trees yet"));
  act (window, "bush.add-tree", NULL);
  key (map, "key-pressed", GDK_KEY_Return, 0);
  g_assert_cmpuint (fr_record_list_get_size (fr_book_get_list (book, FR_KIND_TREE)), ==, 1);
  g_assert_cmpuint (n_rows (window), ==, 1);
  act (window, "win.undo", NULL);
  g_assert_nonnull (find (GTK_WIDGET (window), is_label, "No trees yet"));
  close_window (window);
}

/* The keys of the menu open it at the tree; closing the window with it open leaves nothing. */
/* Trees that come from a dialog stand outside what is shown at first; the view keeps up with them while all
 * of it is shown, and stays where it was put once somebody chose it. */
static void
test_stays_in_sight (void)
{
  FrWindow *window = open_page ("sight.frostrun", TOOLS_AS_IT_IS);
  FrBook *book = fr_window_get_book (window);
  GtkWidget *map = NULL;
  gint64 last = 0;
  GdkRectangle at;
  double px_per_m;

  for (guint i = 0; i < 12; i++)
    {
      GError *error = NULL;
      g_autoptr (FrChange) change = i == 0
                                        ? fr_bush_edit_add_tree (book, "T1", "sugar", 0, 0, &error)
                                        : fr_bush_edit_add_measured (book, NULL, "sugar", last, 12, 80, NAN,
                                                                     NAN, (FrDate){ 2026, 1, 10 }, &error);

      g_assert_no_error (error);
      g_assert_true (fr_window_apply (window, change));
      for (guint k = 0; k < change->steps->len; k++)
        last = ((const FrStep *)change->steps->pdata[k])->after->id;
      settle ();
      map = part (window, "FrBushMap"); /* comes with the first tree */
      g_assert_true (fr_bush_map_get_symbol (FR_BUSH_MAP (map), last, &at));
      g_assert_cmpint (at.x, >=, 0);
      g_assert_cmpint (at.x + at.width, <=, gtk_widget_get_width (map));
    }
  act (window, "bush.zoom-in", NULL);
  px_per_m = fr_bush_map_get_viewport (FR_BUSH_MAP (map))->px_per_m;
  act (window, "win.undo", NULL);
  g_assert_cmpfloat (fr_bush_map_get_viewport (FR_BUSH_MAP (map))->px_per_m, ==, px_per_m);
  gtk_window_set_default_size (GTK_WINDOW (window), 1100, 700);
  settle ();
  g_assert_cmpfloat (fr_bush_map_get_viewport (FR_BUSH_MAP (map))->px_per_m, ==, px_per_m);
  close_window (window);
}

static void
test_menu (void)
{
  FrWindow *window = open_page ("menu.frostrun", TOOLS_DEMO);
  GtkWidget *map = part (window, "FrBushMap");

  fr_sugarbush_select (bush_of (window), GATE);
  gtk_widget_grab_focus (map);
  key (map, "key-pressed", GDK_KEY_Menu, 0);
  g_assert_nonnull (find (map, is_a, "GtkPopoverMenu"));
  g_assert_true (fr_sugarbush_is_selected (bush_of (window), GATE));
  close_window (window);
}

/* The page's actions are there while it is shown, so that its keys mean nothing elsewhere. */
static void
test_actions_go_with_the_page (void)
{
  FrWindow *window = open_page ("actions.frostrun", TOOLS_DEMO);

  g_assert_nonnull (find (GTK_WIDGET (window), is_button, "_Add Tree"));
  act (window, "win.page", "tonight");
  g_assert_null (find (GTK_WIDGET (window), is_button, "_Add Tree"));
  g_assert_false (gtk_widget_activate_action (GTK_WIDGET (window), "bush.add-tree", NULL));
  act (window, "win.page", "sugarbush");
  g_assert_true (gtk_widget_is_sensitive (find (GTK_WIDGET (window), is_button, "_Add Tree")));
  close_window (window);
}

/* Folded and unfolded; a warning would end the test. */
static void
test_widths (void)
{
  static const int widths_px[] = { 1280, 880, 620, 1000 };
  FrWindow *window = open_page ("widths.frostrun", TOOLS_DEMO);

  for (guint i = 0; i < G_N_ELEMENTS (widths_px); i++)
    {
      gtk_window_set_default_size (GTK_WINDOW (window), widths_px[i], 600);
      for (guint k = 0; k < 5; k++)
        settle ();
      fr_sugarbush_select (bush_of (window), 1 + i);
      act (window, "bush.find", NULL);
      g_assert_nonnull (find (GTK_WIDGET (window), is_a, "GtkSearchEntry"));
    }
  close_window (window);
}

/* 2,000 trees: a view that moves makes nothing anew, and the list keeps up. */
static void
test_many_trees (void)
{
  FrWindow *window = open_page ("many.frostrun", TOOLS_DEMO);
  FrBook *book = fr_window_get_book (window);
  g_autoptr (FrChange) change = fr_change_new ("import-trees", "many");
  g_autoptr (GError) error = NULL;
  GtkWidget *map = part (window, "FrBushMap");
  guint loads, frames;
  gint64 from_us;

  for (guint i = 0; i < 1969; i++)
    {
      g_autoptr (FrRecord) record = fr_book_new_record (book, FR_KIND_TREE, i, &error);
      g_autofree char *name = g_strdup_printf ("R%u", i + 1);
      FrTree *tree = (FrTree *)record;

      fr_record_set_text (record, fr_kind_field (record->kind, "name"), name);
      fr_amount_set (&tree->x_m, 4.0 * (i % 45), NULL);
      fr_amount_set (&tree->y_m, 4.0 * (i / 45), NULL);
      fr_change_add (change, NULL, record);
    }
  g_assert_true (fr_window_apply (window, change));
  settle ();
  g_assert_cmpuint (n_rows (window), ==, 2000);
  act (window, "bush.show-all", NULL);

  loads = fr_bush_map_n_loads (FR_BUSH_MAP (map));
  frames = fr_bush_map_n_frames (FR_BUSH_MAP (map));
  from_us = g_get_monotonic_time ();
  for (guint i = 0; i < 20; i++)
    key (map, "key-pressed", i % 2 == 0 ? GDK_KEY_plus : GDK_KEY_Right, i % 2 == 0 ? 0 : GDK_SHIFT_MASK);
  g_assert_cmpuint (fr_bush_map_n_frames (FR_BUSH_MAP (map)), >=, frames + 10);
  g_assert_cmpuint (fr_bush_map_n_loads (FR_BUSH_MAP (map)), ==, loads);
  g_test_message ("%u frames in %.0f ms, 600 of them waiting",
                  fr_bush_map_n_frames (FR_BUSH_MAP (map)) - frames,
                  (g_get_monotonic_time () - from_us) / 1e3);
  fr_sugarbush_select_shown (bush_of (window));
  settle ();
  g_assert_cmpuint (fr_sugarbush_n_selected (bush_of (window)), ==, 2000);
  g_assert_cmpuint (fr_bush_map_n_loads (FR_BUSH_MAP (map)), ==, loads);
  close_window (window);
}

int
main (int argc, char **argv)
{
  tools_init (&argc, &argv);
  g_assert_true (fr_clock_hold ("2026-03-19T18:30"));
  g_test_add_func ("/sugarbush/list-and-map-select-the-same", test_list_and_map_select_the_same);
  g_test_add_func ("/sugarbush/band", test_band);
  g_test_add_func ("/sugarbush/move-by-pointer", test_move_by_pointer);
  g_test_add_func ("/sugarbush/two-clicks", test_two_clicks);
  g_test_add_func ("/sugarbush/move-by-keys", test_move_by_keys);
  g_test_add_func ("/sugarbush/walk-by-keys", test_walk_by_keys);
  g_test_add_func ("/sugarbush/view-by-keys", test_view_by_keys);
  g_test_add_func ("/sugarbush/filter", test_filter);
  g_test_add_func ("/sugarbush/sort", test_sort);
  g_test_add_func ("/sugarbush/add", test_add);
  g_test_add_func ("/sugarbush/rename", test_rename);
  g_test_add_func ("/sugarbush/delete", test_delete);
  g_test_add_func ("/sugarbush/focus-after-delete", test_focus_after_delete);
  g_test_add_func ("/sugarbush/together", test_together);
  g_test_add_func ("/sugarbush/plan-a-tap", test_plan_a_tap);
  g_test_add_func ("/sugarbush/move-dialog", test_move_dialog);
  g_test_add_func ("/sugarbush/first-tree", test_first_tree);
  g_test_add_func ("/sugarbush/stays-in-sight", test_stays_in_sight);
  g_test_add_func ("/sugarbush/menu", test_menu);
  g_test_add_func ("/sugarbush/actions-go-with-the-page", test_actions_go_with_the_page);
  g_test_add_func ("/sugarbush/widths", test_widths);
  g_test_add_func ("/sugarbush/many-trees", test_many_trees);
  return tools_run ();
}
