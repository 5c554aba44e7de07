/* The tree beside the map on the demo's household: the place for the next hole moved and planned, taps set,
 * pulled and dragged, and each step taken back. Trees by id, as in demo/book.json: 1 Gate, 15 Old Lady
 * (failing). */
#include <math.h>

#include "models/bush-edit.h"
#include "ui/clock.h"
#include "ui/sugarbush-page.h"
#include "ui/trunk-picture.h"
#include "window-tools.h"

#define GATE 1
#define OLD_LADY 15

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
open_tree (const char *name, gint64 tree)
{
  FrWindow *window = open_window (name, TOOLS_DEMO);

  act (window, "win.page", "sugarbush");
  fr_sugarbush_select (bush_of (window), tree);
  settle ();
  return window;
}

static const FrBushTree *
row_of (FrWindow *window, gint64 tree)
{
  return fr_bush_find (fr_sugarbush_get_bush (bush_of (window)), tree);
}

static void
test_keys_move_the_place (void)
{
  FrWindow *window = open_tree ("keys.frostrun", GATE);
  FrTrunkPicture *trunk = FR_TRUNK_PICTURE (part (window, "FrTrunkPicture"));
  FrBushPlace best, moved, asked;
  double girth_m = row_of (window, GATE)->girth_m;

  g_assert_true (fr_trunk_picture_get_place (trunk, &best));
  g_assert_true (fr_trunk_picture_is_best (trunk));
  gtk_widget_grab_focus (GTK_WIDGET (trunk));
  press_key (GTK_WIDGET (trunk), GDK_KEY_Right);
  press_key (GTK_WIDGET (trunk), GDK_KEY_Down);
  g_assert_true (fr_trunk_picture_get_place (trunk, &moved));
  g_assert_false (fr_trunk_picture_is_best (trunk));
  /* 1 cm round the bark, 1 cm down */
  g_assert_cmpfloat_with_epsilon (fmod (moved.angle_deg - best.angle_deg + 360, 360), 3.6 / girth_m, 1e-9);
  g_assert_cmpfloat_with_epsilon (moved.height_m, best.height_m - 0.01, 1e-9);
  g_assert_true (fr_bush_place_at (fr_sugarbush_get_bush (bush_of (window)), GATE, moved.angle_deg,
                                   moved.height_m, 0, &asked));
  g_assert_cmpfloat (asked.clearance_ratio, ==, moved.clearance_ratio);
  g_assert_cmpfloat (moved.clearance_ratio, <=, best.clearance_ratio);
  press_key (GTK_WIDGET (trunk), GDK_KEY_Home);
  g_assert_true (fr_trunk_picture_is_best (trunk));
  close_window (window);
}

static void
test_plan_set_pull (void)
{
  FrWindow *window = open_tree ("plan.frostrun", GATE);
  guint planned = row_of (window, GATE)->taps_planned, set = row_of (window, GATE)->taps_set;
  FrBushPlace place;

  g_assert_true (fr_trunk_picture_get_place (FR_TRUNK_PICTURE (part (window, "FrTrunkPicture")), &place));
  press (window, "Plan Another Tap");
  g_assert_cmpuint (row_of (window, GATE)->taps_planned, ==, planned + 1);
  {
    g_autoptr (GArray) holes = fr_bush_holes (fr_sugarbush_get_bush (bush_of (window)), GATE);
    gboolean found = FALSE;

    for (guint i = 0; i < holes->len; i++)
      {
        const FrBushHole *hole = &g_array_index (holes, FrBushHole, i);

        found = found
                || (hole->state == FR_HOLE_PLANNED && hole->angle_deg == place.angle_deg
                    && hole->height_m == place.height_m);
      }
    g_assert_true (found);
  }
  press (window, "Set Today");
  g_assert_cmpuint (row_of (window, GATE)->taps_planned, ==, 0);
  g_assert_cmpuint (row_of (window, GATE)->taps_set, ==, set + planned + 1);
  press (window, "Pulled Today");
  act (window, "win.undo", NULL);
  act (window, "win.undo", NULL);
  act (window, "win.undo", NULL);
  g_assert_cmpuint (row_of (window, GATE)->taps_planned, ==, planned);
  g_assert_cmpuint (row_of (window, GATE)->taps_set, ==, set);
  close_window (window);
}

static void
test_drag_planned (void)
{
  FrWindow *window = open_tree ("drag.frostrun", GATE);
  GtkWidget *trunk = part (window, "FrTrunkPicture");
  FrBook *book = fr_window_get_book (window);
  g_autoptr (GArray) holes = fr_bush_holes (fr_sugarbush_get_bush (bush_of (window)), GATE);
  gint64 tap = 0;

  for (guint i = 0; i < holes->len; i++)
    if (g_array_index (holes, FrBushHole, i).state == FR_HOLE_PLANNED)
      tap = g_array_index (holes, FrBushHole, i).tap->record.id;
  g_assert_cmpint (tap, !=, 0);
  g_signal_emit_by_name (trunk, "tap-moved", tap, 200.0, 0.9);
  settle ();
  g_assert_cmpfloat (((const FrTap *)fr_book_find (book, FR_KIND_TAP, tap))->direction_deg.value, ==, 200.0);
  act (window, "win.undo", NULL);
  g_assert_cmpfloat (((const FrTap *)fr_book_find (book, FR_KIND_TAP, tap))->direction_deg.value, !=, 200.0);
  close_window (window);
}

/* What says "do not tap" stands first, and still nothing is taken away from the person. */
static void
test_forbidden_is_told (void)
{
  FrWindow *window = open_tree ("failing.frostrun", OLD_LADY);
  GtkWidget *button = find (GTK_WIDGET (window), is_button, "Plan a Tap Here");

  g_assert_true (row_of (window, OLD_LADY)->reasons & FR_TREE_FORBIDS);
  g_assert_nonnull (button);
  g_assert_true (gtk_widget_get_sensitive (button));
  close_window (window);
}

int
main (int argc, char **argv)
{
  tools_init (&argc, &argv);
  g_assert_true (fr_clock_hold ("2026-03-19T18:30"));
  g_test_add_func ("/tree-panel/keys-move-the-place", test_keys_move_the_place);
  g_test_add_func ("/tree-panel/plan-set-pull", test_plan_set_pull);
  g_test_add_func ("/tree-panel/drag-planned", test_drag_planned);
  g_test_add_func ("/tree-panel/forbidden-is-told", test_forbidden_is_told);
  return tools_run ();
}
