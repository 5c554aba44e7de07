/* The tapping plan and the round on the demo's household, worked by entries, keys and lists. What the views
 * say is held against the words of the same plan and round worked out apart from them. Trees by id, as in
 * demo/book.json: 1 Gate, 2 Spring. */
#include <math.h>

#include "models/bush-edit.h"
#include "ui/clock.h"
#include "ui/print-dialog.h"
#include "ui/sugarbush-page.h"
#include "window-tools.h"
#include "words/bush-words.h"
#include "words/paper-words.h"
#include "words/plan-tree-words.h"
#include "words/stop-words.h"

#define GATE 1
#define SPRING 2

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

static FrSay
say_of (FrWindow *window)
{
  return (FrSay){ .units = *fr_book_get_units (fr_window_get_book (window)) };
}

static FrWindow *
open_view (const char *name, ToolsBook book, const char *view)
{
  FrWindow *window = open_window (name, book);

  act (window, "win.page", "sugarbush");
  act (window, "bush.view", view);
  return window;
}

static double
tapping (FrWindow *window, const char *field)
{
  FrRecordList *list = fr_book_get_list (fr_window_get_book (window), FR_KIND_TAPPING);
  const FrKind *kind = fr_kind (FR_KIND_TAPPING);

  g_assert_cmpuint (fr_record_list_get_size (list), ==, 1);
  return fr_record_amount ((FrRecord *)fr_record_list_get (list, 0), fr_kind_field (kind, field))->value;
}

/* Until the view shows the answer to what is in the book now. */
static void
wait_plan (FrWindow *window)
{
  const FrBushPlan *plan;

  while (!fr_sugarbush_ask_plan (bush_of (window), &plan))
    g_main_context_iteration (NULL, TRUE);
  settle ();
}

static void
assert_says (FrWindow *window, const char *type_name, const char *markup)
{
  g_autofree char *texts = label_texts (part (window, type_name)), *text = fr_say_plain (markup),
                  *plain = plain_spaces (text);

  assert_shows (texts, plain);
}

static void
test_plan_says_what_the_words_say (void)
{
  FrWindow *window = open_view ("says.frostrun", TOOLS_DEMO, "plan");
  const FrBush *bush = fr_sugarbush_get_bush (bush_of (window));
  FrSay say = say_of (window);
  g_autoptr (FrBushPlan) plan = fr_bush_plan (bush);
  g_autoptr (FrBushPlanWords) words = fr_bush_plan_words_new (bush, plan, &say);
  g_autoptr (GPtrArray) left_out = fr_left_out_words (bush, plan);
  guint n_left_out = 0;

  wait_plan (window);
  assert_says (window, "FrTappingView", words->sentence);
  assert_says (window, "FrTappingView", words->reason);
  for (guint i = 0; i < words->notes->len; i++)
    assert_says (window, "FrTappingView", words->notes->pdata[i]);
  for (guint i = 0; i < left_out->len; i++)
    {
      const FrLeftOut *one = left_out->pdata[i];

      assert_says (window, "FrTappingView", one->names);
      n_left_out += one->n;
    }
  g_assert_cmpuint (plan->n_trees + n_left_out, ==, fr_bush_n_trees (bush));
  /* where guideline and spacing are printed */
  assert_says (window, "FrTappingView", fr_guideline (FR_GUIDELINE_CONSERVATIVE)->source);
  assert_says (window, "FrTappingView", fr_spacing (FR_SPACING_SIX_TWELVE)->source);
  close_window (window);
}

static void
test_buckets_are_one_step (void)
{
  FrWindow *window = open_view ("buckets.frostrun", TOOLS_DEMO, "plan");
  FrBook *book = fr_window_get_book (window);
  g_autoptr (GPtrArray) before = snapshot (book);
  FrEntryRow *entry = row (window, "Buckets to hang");

  wait_plan (window);
  assert_says (window, "FrTappingView", "Hang 18 buckets on 13 trees.");
  fr_entry_row_enter (entry, "5");
  wait_plan (window);
  g_assert_cmpfloat (tapping (window, "buckets"), ==, 5);
  assert_says (window, "FrTappingView", "Hang 5 buckets on");
  act (window, "win.undo", NULL);
  wait_plan (window);
  assert_says (window, "FrTappingView", "Hang 18 buckets on 13 trees.");
  {
    g_autoptr (GPtrArray) after = snapshot (book);

    assert_same (before, after);
  }

  /* no half bucket: said under the row, and the book stays */
  fr_entry_row_enter (entry, "4.5");
  settle ();
  g_assert_nonnull (fr_entry_row_get_problem (entry));
  g_assert_cmpfloat (tapping (window, "buckets"), ==, 18);
  fr_entry_row_enter (entry, "five");
  settle ();
  g_assert_nonnull (fr_entry_row_get_problem (entry));
  g_assert_cmpfloat (tapping (window, "buckets"), ==, 18);
  fr_entry_row_enter (entry, "6");
  settle ();
  g_assert_null (fr_entry_row_get_problem (entry));
  g_assert_cmpfloat (tapping (window, "buckets"), ==, 6);
  close_window (window);
}

static void
test_curve_takes_a_number (void)
{
  FrWindow *window = open_view ("curve.frostrun", TOOLS_DEMO, "plan");
  GtkWidget *curve = part (window, "FrSugarCurve");
  FrSay say = say_of (window);
  g_autoptr (FrBushPlan) plan = fr_bush_plan (fr_sugarbush_get_bush (bush_of (window)));
  g_autofree char *at_19 = fr_plan_curve_words (plan, 19, &say),
                  *at_29 = fr_plan_curve_words (plan, 29, &say),
                  *last = fr_plan_curve_words (plan, plan->curve->len - 1, &say);

  wait_plan (window);
  g_assert_true (press_key (curve, GDK_KEY_Right));
  assert_says (window, "FrTappingView", at_19);
  g_assert_true (press_key (curve, GDK_KEY_Page_Down));
  assert_says (window, "FrTappingView", at_29 != NULL ? at_29 : last);
  g_assert_true (press_key (curve, GDK_KEY_End));
  assert_says (window, "FrTappingView", last);
  g_assert_true (press_key (curve, GDK_KEY_Escape));
  g_assert_false (press_key (curve, GDK_KEY_Escape)); /* it has let go */
  g_assert_true (press_key (curve, GDK_KEY_Left));
  g_assert_true (press_key (curve, GDK_KEY_Return));
  wait_plan (window);
  g_assert_cmpfloat (tapping (window, "buckets"), ==, 17);
  assert_says (window, "FrTappingView", "Hang 17 buckets on");
  close_window (window);
}

static void
test_take_over (void)
{
  FrWindow *window = open_view ("take.frostrun", TOOLS_DEMO, "plan");
  FrBook *book = fr_window_get_book (window);
  g_autoptr (GPtrArray) before = snapshot (book);
  g_autoptr (FrBushPlan) plan = fr_bush_plan (fr_sugarbush_get_bush (bush_of (window)));
  const FrBush *bush;

  wait_plan (window);
  act (window, "bush.take-plan", NULL);
  settle ();
  bush = fr_sugarbush_get_bush (bush_of (window));
  for (guint i = 0; i < fr_bush_n_trees (bush); i++)
    {
      const FrBushTree *tree = fr_bush_tree_at (bush, i);
      const guint wanted = g_array_index (plan->taps, guint, i);

      /* what hangs already stays */
      g_assert_cmpuint (tree->taps_planned, ==, wanted > tree->taps_set ? wanted - tree->taps_set : 0);
    }
  act (window, "win.undo", NULL);
  {
    g_autoptr (GPtrArray) after = snapshot (book);

    assert_same (before, after);
  }
  close_window (window);
}

static void
test_nothing_yet (void)
{
  FrWindow *window = open_view ("none.frostrun", TOOLS_SAMPLES, "plan");
  FrBook *book = fr_window_get_book (window);
  g_autoptr (GError) error = NULL;
  g_autoptr (FrChange) none = fr_bush_edit_single (book, FR_KIND_TAPPING, "buckets", NULL, NAN, NULL, &error);

  g_assert_no_error (error);
  if (none != NULL)
    g_assert_true (fr_window_apply (window, none));
  wait_plan (window);
  assert_says (window, "FrTappingView", "Say how many buckets there are, and this says where to hang them.");
  close_window (window);
}

/* --- the round --- */

static const FrBushRound *
wait_round (FrWindow *window, FrRoundWhich which, double day_ratio)
{
  const FrBushRound *round;

  while (!fr_sugarbush_ask_round (bush_of (window), which, day_ratio, &round))
    g_main_context_iteration (NULL, TRUE);
  settle ();
  g_assert_true (fr_sugarbush_ask_round (bush_of (window), which, day_ratio, &round));
  return round;
}

/* A choice in a row is a list view too. */
static gboolean
is_stops (GtkWidget *widget, const char *unused)
{
  return GTK_IS_LIST_VIEW (widget) && gtk_widget_has_css_class (widget, "tree-rows");
}

static GtkSelectionModel *
stops (FrWindow *window)
{
  return gtk_list_view_get_model (GTK_LIST_VIEW (find (part (window, "FrRoundView"), is_stops, NULL)));
}

static guint
n_stops (FrWindow *window)
{
  return g_list_model_get_n_items (G_LIST_MODEL (stops (window)));
}

static gint64
tree_at (const FrBushRound *round, guint i)
{
  return g_array_index (round->stops, FrBushStop, i).tree;
}

static void
test_round_says_what_the_words_say (void)
{
  FrWindow *window = open_view ("round.frostrun", TOOLS_DEMO, "round");
  const FrBushRound *round = wait_round (window, FR_ROUND_PLANNED, 1);
  FrSay say = say_of (window);
  g_autoptr (FrBushRoundWords) words = fr_bush_round_words_new (round, &say);
  g_autoptr (GPtrArray) each = fr_stop_words (fr_sugarbush_get_bush (bush_of (window)), round, &say);

  assert_says (window, "FrRoundView", words->sentence);
  assert_says (window, "FrRoundView", words->reason);
  g_assert_cmpuint (n_stops (window), ==, round->stops->len);
  assert_says (window, "FrRoundView", ((const FrStopWords *)each->pdata[0])->leg);
  close_window (window);
}

static void
test_list_and_map_select_the_same (void)
{
  FrWindow *window = open_view ("same-stop.frostrun", TOOLS_DEMO, "round");
  const FrBushRound *round = wait_round (window, FR_ROUND_PLANNED, 1);

  gtk_selection_model_select_item (stops (window), 2, TRUE);
  g_assert_cmpint (fr_sugarbush_get_current (bush_of (window)), ==, tree_at (round, 2));
  fr_sugarbush_select (bush_of (window), SPRING);
  settle ();
  for (guint i = 0; i < n_stops (window); i++)
    g_assert_cmpint (gtk_selection_model_is_selected (stops (window), i), ==, tree_at (round, i) == SPRING);
  fr_sugarbush_select (bush_of (window), 0);
  settle ();
  for (guint i = 0; i < n_stops (window); i++)
    g_assert_false (gtk_selection_model_is_selected (stops (window), i));
  close_window (window);
}

static gboolean
is_combo (GtkWidget *widget, const char *title)
{
  return ADW_IS_COMBO_ROW (widget)
         && g_strcmp0 (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (widget)), title) == 0;
}

static void
test_choices (void)
{
  FrWindow *window = open_view ("choices.frostrun", TOOLS_DEMO, "round");
  GtkWidget *which = find (GTK_WIDGET (window), is_combo, "Trees"),
            *day = find (GTK_WIDGET (window), is_combo, "Day");
  const gint64 two[] = { GATE, SPRING };
  FrEntryRow *pail = row (window, "One load carries");
  const FrBushRound *round;
  FrSay say = say_of (window);
  g_autoptr (FrBushRoundWords) words = NULL;

  wait_round (window, FR_ROUND_PLANNED, 1);
  adw_combo_row_set_selected (ADW_COMBO_ROW (which), FR_ROUND_SET);
  round = wait_round (window, FR_ROUND_SET, 1);
  g_assert_cmpuint (n_stops (window), ==, round->stops->len);

  /* on a peak day more than one load comes together */
  adw_combo_row_set_selected (ADW_COMBO_ROW (day), 1);
  round = wait_round (window, FR_ROUND_SET, fr_bush_peak_ratio (fr_sugarbush_get_bush (bush_of (window))));
  g_assert_cmpuint (round->n_trips, >, 1);
  assert_says (window, "FrRoundView", "Trip 2 ·");

  fr_entry_row_enter (pail, "200 L");
  g_assert_cmpfloat (tapping (window, "pail_l"), ==, 200);
  round = wait_round (window, FR_ROUND_SET, fr_bush_peak_ratio (fr_sugarbush_get_bush (bush_of (window))));
  g_assert_cmpuint (round->n_trips, ==, 1);
  words = fr_bush_round_words_new (round, &say);
  assert_says (window, "FrRoundView", words->sentence);
  fr_entry_row_enter (pail, "much");
  settle ();
  g_assert_nonnull (fr_entry_row_get_problem (pail));
  g_assert_cmpfloat (tapping (window, "pail_l"), ==, 200);

  fr_sugarbush_select_many (bush_of (window), two, G_N_ELEMENTS (two));
  adw_combo_row_set_selected (ADW_COMBO_ROW (which), FR_ROUND_SELECTED);
  wait_round (window, FR_ROUND_SELECTED, fr_bush_peak_ratio (fr_sugarbush_get_bush (bush_of (window))));
  g_assert_cmpuint (n_stops (window), ==, 2);
  /* one of them made current keeps the other */
  gtk_selection_model_select_item (stops (window), 0, TRUE);
  wait_round (window, FR_ROUND_SELECTED, fr_bush_peak_ratio (fr_sugarbush_get_bush (bush_of (window))));
  g_assert_cmpuint (fr_sugarbush_n_selected (bush_of (window)), ==, 2);
  g_assert_cmpuint (n_stops (window), ==, 2);
  close_window (window);
}

static guint
made_pages (GtkWidget *dialog)
{
  guint n_pages = 0;
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) pdf = fr_print_dialog_make (FR_PRINT_DIALOG (dialog), &n_pages, &error);

  g_assert_no_error (error);
  g_assert_cmpmem (g_bytes_get_data (pdf, NULL), 5, "%PDF-", 5);
  return n_pages;
}

static void
choose (GtkWidget *dialog, const char *title, guint item)
{
  GtkWidget *row = find (dialog, is_combo, title);

  g_assert_nonnull (row);
  adw_combo_row_set_selected (ADW_COMBO_ROW (row), item);
  settle ();
}

static void
test_print (void)
{
  FrWindow *window = open_view ("print.frostrun", TOOLS_DEMO, "round");
  GtkWidget *dialog;
  g_autofree char *texts = NULL, *pages = NULL;
  guint n;

  wait_round (window, FR_ROUND_PLANNED, 1);
  act (window, "bush.print", NULL);
  settle ();
  dialog = find_window ("FrPrintDialog");
  g_assert_nonnull (dialog);
  g_assert_cmpuint (made_pages (dialog), ==, 1);
  choose (dialog, "Trees", FR_PAPER_MEASURING);
  g_assert_cmpuint (made_pages (dialog), >=, 1);
  choose (dialog, "Sheet", 1);
  g_assert_null (find (dialog, is_combo, "Trees"));
  g_assert_cmpuint (made_pages (dialog), ==, 1);
  choose (dialog, "Scale", 2);
  n = made_pages (dialog);
  g_assert_cmpuint (n, >, 1);
  texts = label_texts (dialog);
  pages = g_strdup_printf ("At 1 : 200: %u pages.", n);
  assert_shows (texts, pages);
  gtk_window_close (GTK_WINDOW (dialog));
  settle ();
  close_window (window);
}

static void
test_views_by_keys (void)
{
  FrWindow *window = open_view ("views.frostrun", TOOLS_DEMO, "map");
  static const char *const order[] = { "FrMapPane", "FrTappingView", "FrRoundView" };

  for (guint i = 0; i < 2 * G_N_ELEMENTS (order); i++)
    {
      g_assert_nonnull (find (GTK_WIDGET (window), is_a, order[i % G_N_ELEMENTS (order)]));
      act (window, "bush.next-view", NULL);
    }
  act (window, "bush.previous-view", NULL);
  g_assert_nonnull (find (GTK_WIDGET (window), is_a, "FrRoundView"));
  close_window (window);
}

int
main (int argc, char **argv)
{
  tools_init (&argc, &argv);
  g_assert_true (fr_clock_hold ("2026-03-19T18:30"));
  g_test_add_func ("/bush-views/plan-says-what-the-words-say", test_plan_says_what_the_words_say);
  g_test_add_func ("/bush-views/buckets-are-one-step", test_buckets_are_one_step);
  g_test_add_func ("/bush-views/curve-takes-a-number", test_curve_takes_a_number);
  g_test_add_func ("/bush-views/take-over", test_take_over);
  g_test_add_func ("/bush-views/nothing-yet", test_nothing_yet);
  g_test_add_func ("/bush-views/round-says-what-the-words-say", test_round_says_what_the_words_say);
  g_test_add_func ("/bush-views/list-and-map-select-the-same", test_list_and_map_select_the_same);
  g_test_add_func ("/bush-views/choices", test_choices);
  g_test_add_func ("/bush-views/print", test_print);
  g_test_add_func ("/bush-views/views-by-keys", test_views_by_keys);
  return tools_run ();
}
