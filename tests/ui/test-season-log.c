/* The log of the season on the demo's household, which has 11 trees with set taps: rows typed down the
 * columns, kept one by one, corrected, taken back; what cannot be kept stays and says why; the whole bush in
 * one row. */
#include <math.h>

#include "ui/clock.h"
#include "ui/log-line.h"
#include "ui/log-view.h"
#include "window-tools.h"

static GtkWidget *
part (gpointer window, const char *type_name)
{
  GtkWidget *found = find (GTK_WIDGET (window), is_a, type_name);

  if (found == NULL)
    g_error ("no %s", type_name);
  return found;
}

/* What the household had written before; nothing yet on the evening the clock stands at. */
static guint n_before;

static FrGatherLog *
log_of (FrWindow *window)
{
  return fr_log_view_get_log (FR_LOG_VIEW (part (window, "FrLogView")));
}

/* A day on which the demo's household did not gather, into no container, so that none is too small. */
static void
quiet_day (FrWindow *window)
{
  g_autoptr (FrRecord) defaults = NULL;

  fr_gather_log_set_day (log_of (window), (FrDate){ 2026, 3, 13 });
  defaults = fr_record_copy (&fr_gather_log_get_defaults (log_of (window))->record);
  ((FrGathering *)defaults)->container = 0;
  fr_gather_log_set_defaults (log_of (window), (FrGathering *)defaults);
  settle ();
  g_assert_cmpuint (fr_gather_log_n_rounds (log_of (window)), ==, 0);
}

static FrWindow *
open_log (const char *name)
{
  FrWindow *window = open_window (name, TOOLS_DEMO);

  n_before = fr_record_list_get_size (fr_book_get_list (fr_window_get_book (window), FR_KIND_GATHERING));
  act (window, "win.page", "season");
  act (window, "season.view", "log");
  quiet_day (window);
  return window;
}

static guint
n_kept (FrWindow *window)
{
  return fr_record_list_get_size (fr_book_get_list (fr_window_get_book (window), FR_KIND_GATHERING))
         - n_before;
}

static const FrGathering *
kept (FrWindow *window, guint nth)
{
  return (const FrGathering *)fr_record_list_get (
      fr_book_get_list (fr_window_get_book (window), FR_KIND_GATHERING), n_before + nth);
}

/* The entry that has the keyboard; the text widget inside it has. */
static GtkWidget *
focused (FrWindow *window)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (window));

  g_assert_nonnull (focus);
  return gtk_widget_get_ancestor (focus, GTK_TYPE_ENTRY);
}

static FrLogLine *
line_of (FrWindow *window)
{
  return FR_LOG_LINE (gtk_widget_get_ancestor (focused (window), FR_TYPE_LOG_LINE));
}

static void
type (FrWindow *window, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (focused (window)), text);
  settle ();
}

static void
enter (FrWindow *window)
{
  g_assert_true (press_key (focused (window), GDK_KEY_Return));
  settle ();
}

/* What the line's tree gave the last time, so that nothing is odd about it. */
static double
before_l (FrWindow *window, FrLogLine *line)
{
  FrRecordList *list = fr_book_get_list (fr_window_get_book (window), FR_KIND_GATHERING);
  gint64 tree = fr_gather_row_get (fr_log_line_get_row (line))->tree;
  double volume_l = NAN;

  for (guint i = 0; i < n_before; i++)
    {
      const FrGathering *gathering = (const FrGathering *)fr_record_list_get (list, i);

      if (gathering->tree == tree)
        volume_l = gathering->volume_l.value;
    }
  return volume_l;
}

static void
test_down_the_columns (void)
{
  FrWindow *window = open_log ("columns.frostrun");
  guint n = fr_gather_log_n_rows (log_of (window));
  FrLogLine *first;

  g_assert_cmpuint (n, ==, 11);
  act (window, "season.add-gathering", NULL);
  first = line_of (window);
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *litres = g_strdup_printf ("%.3f", 1.07 * before_l (window, line_of (window)));

      g_assert_cmpuint (n_kept (window), ==, i); /* nothing is written before the row is left */
      type (window, litres);
      g_assert_cmpuint (n_kept (window), ==, i);
      enter (window);
    }
  g_assert_cmpuint (n_kept (window), ==, n); /* the last one with its own Enter */
  g_assert_cmpfloat (kept (window, 10)->volume_l.value, >, 0);
  g_assert_cmpuint (fr_gather_log_n_rounds (log_of (window)), ==, 1);

  /* The sugar down its column: each row is corrected, none added. */
  fr_log_line_focus (first, FR_GATHER_SUGAR);
  for (guint i = 0; i < n; i++)
    {
      type (window, "2.2");
      enter (window);
    }
  g_assert_cmpuint (n_kept (window), ==, n);
  for (guint i = 0; i < n; i++)
    {
      g_assert_cmpfloat (kept (window, i)->reading_brix.value, ==, 2.2);
      g_assert_cmpfloat (kept (window, i)->volume_l.value, >, 0);
      g_assert_cmpint (kept (window, i)->gathered_utc, ==, kept (window, 0)->gathered_utc);
    }
  /* One undo takes back one row's sugar. */
  act (window, "win.undo", NULL);
  g_assert_true (isnan (kept (window, 10)->reading_brix.value));
  g_assert_cmpfloat (kept (window, 9)->reading_brix.value, ==, 2.2);
  close_window (window);
}

static void
test_what_cannot_be_kept (void)
{
  FrWindow *window = open_log ("wrong.frostrun");
  FrLogLine *line;
  g_autofree char *texts = NULL;

  act (window, "season.add-gathering", NULL);
  line = line_of (window);
  type (window, "four");
  g_assert_false (fr_log_line_is_stuck (line)); /* while it is typed it may become right */
  enter (window);
  g_assert_cmpuint (n_kept (window), ==, 0);
  g_assert_true (fr_log_line_is_stuck (line));
  texts = label_texts (GTK_WIDGET (line));
  assert_shows (texts, "is not a number");
  fr_log_line_focus (line, FR_GATHER_AMOUNT);
  type (window, "1.6");
  enter (window);
  g_assert_cmpuint (n_kept (window), ==, 1);
  g_assert_false (fr_log_line_is_stuck (line));

  /* A reading without its amount waits. */
  fr_log_line_focus (line_of (window), FR_GATHER_SUGAR);
  line = line_of (window);
  type (window, "2");
  enter (window);
  g_assert_cmpuint (n_kept (window), ==, 1);
  g_assert_true (fr_log_line_is_stuck (line));
  fr_log_line_focus (line, FR_GATHER_SUGAR);
  g_assert_true (press_key (focused (window), GDK_KEY_Escape));
  g_assert_false (fr_gather_row_is_begun (fr_log_line_get_row (line)));
  enter (window);
  g_assert_false (fr_log_line_is_stuck (line));
  close_window (window);
}

/* A sweetness of 22 from a tree is no raw sap (ask of gathering-ask.h): asked about, kept when confirmed. */
static void
test_question (void)
{
  FrWindow *window = open_log ("question.frostrun");
  FrLogLine *line;
  g_autofree char *texts = NULL;

  act (window, "season.add-gathering", NULL);
  line = line_of (window);
  type (window, "1.6");
  fr_log_line_focus (line, FR_GATHER_SUGAR);
  type (window, "22");
  enter (window);
  g_assert_cmpuint (n_kept (window), ==, 0);
  g_assert_true (fr_log_line_is_stuck (line));
  texts = label_texts (GTK_WIDGET (line));
  assert_shows (texts, "22 °Bx is past any raw sap.");
  press (line, "Keep");
  g_assert_cmpuint (n_kept (window), ==, 1);
  g_assert_true (kept (window, 0)->confirmed);
  g_assert_false (fr_log_line_is_stuck (line));

  /* Typed right, nothing more is asked, and it is no longer a thing confirmed. */
  fr_log_line_focus (line, FR_GATHER_SUGAR);
  type (window, "2.2");
  enter (window);
  g_assert_cmpuint (n_kept (window), ==, 1);
  g_assert_false (kept (window, 0)->confirmed);
  close_window (window);
}

static void
test_undo_of_letters (void)
{
  FrWindow *window = open_log ("letters.frostrun");

  act (window, "season.add-gathering", NULL);
  type (window, "1.6");
  enter (window);
  type (window, "5");
  act (window, "win.undo", NULL); /* in the middle of a row it means the letters */
  g_assert_cmpuint (n_kept (window), ==, 1);
  fr_gather_log_restore_row (log_of (window), fr_log_line_get_row (line_of (window)));
  act (window, "win.undo", NULL);
  g_assert_cmpuint (n_kept (window), ==, 0);
  close_window (window);
}

static void
test_the_whole_bush (void)
{
  FrWindow *window = open_log ("bush.frostrun");
  FrLogLine *line;
  g_autofree char *texts = NULL;

  fr_gather_log_set_scope (log_of (window), FR_GATHER_BUSH);
  settle ();
  act (window, "season.add-gathering", NULL);
  type (window, "22");
  enter (window); /* alone in its column: kept, the keyboard stays */
  g_assert_cmpuint (n_kept (window), ==, 1);
  line = line_of (window);
  fr_log_line_focus (line, FR_GATHER_SUGAR);
  type (window, "2.2");
  fr_log_line_focus (line, FR_GATHER_ICE_L);
  type (window, "1.5");
  fr_log_line_focus (line, FR_GATHER_NOTE);
  type (window, "North wind");
  enter (window);
  g_assert_cmpuint (n_kept (window), ==, 1);
  g_assert_cmpstr (kept (window, 0)->scope, ==, "bush");
  g_assert_cmpfloat (kept (window, 0)->ice_l.value, ==, 1.5);
  g_assert_cmpstr (kept (window, 0)->note, ==, "North wind");
  texts = label_texts (part (window, "FrLogView"));
  assert_shows (texts, "22.0 L gathered.");
  close_window (window);
}

/* Another day is not shown over a row that cannot be kept; a row that can is kept by going there. */
static void
test_nothing_is_lost (void)
{
  FrWindow *window = open_log ("lost.frostrun");
  FrLogLine *line;

  act (window, "season.add-gathering", NULL);
  type (window, "1.6");
  act (window, "season.day-before", NULL);
  g_assert_cmpuint (n_kept (window), ==, 1);
  g_assert_cmpint (fr_gather_log_get_day (log_of (window)).day, ==, 12);
  line = line_of (window);
  type (window, "one");
  act (window, "season.day-before", NULL);
  g_assert_cmpint (fr_gather_log_get_day (log_of (window)).day, ==, 12);
  g_assert_true (line_of (window) == line);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (focused (window))), ==, "one");
  /* Nor by choosing other rows. */
  fr_gather_log_set_scope (log_of (window), FR_GATHER_BUSH);
  settle ();
  g_assert_cmpuint (fr_gather_log_n_rows (log_of (window)), ==, 2);
  fr_log_line_focus (line, FR_GATHER_AMOUNT);
  g_assert_true (press_key (focused (window), GDK_KEY_Escape));
  act (window, "season.day-before", NULL);
  g_assert_cmpint (fr_gather_log_get_day (log_of (window)).day, ==, 11);
  close_window (window);
}

/* A table in the clipboard opens the preview; one cell goes into the entry. */
static void
test_paste (void)
{
  FrWindow *window = open_log ("paste.frostrun");
  GdkClipboard *clipboard = gtk_widget_get_clipboard (GTK_WIDGET (window));
  GtkWidget *dialog;
  gboolean taken = FALSE;
  g_autoptr (GListModel) controllers = NULL;

  act (window, "season.add-gathering", NULL);
  gdk_clipboard_set_text (clipboard,
                          "2026-03-13\t16:20\tGate\t1.6\t2.2\n2026-03-13\t16:25\tSpring\t3.6\t2\n");
  settle ();
  controllers = gtk_widget_observe_controllers (focused (window));
  for (guint i = 0; !taken && i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) one = g_list_model_get_item (controllers, i);

      if (GTK_IS_EVENT_CONTROLLER_KEY (one))
        g_signal_emit_by_name (one, "key-pressed", GDK_KEY_v, 0, GDK_CONTROL_MASK, &taken);
    }
  g_assert_true (taken);
  settle ();
  settle ();
  dialog = find_window ("FrSapImportDialog");
  g_assert_nonnull (dialog);
  press (dialog, "_Take In");
  g_assert_null (find_window ("FrSapImportDialog"));
  g_assert_cmpuint (n_kept (window), ==, 2);
  act (window, "win.undo", NULL);
  g_assert_cmpuint (n_kept (window), ==, 0);
  close_window (window);
}

static void
test_closing_keeps (void)
{
  FrWindow *window = open_log ("closing.frostrun");
  g_autoptr (FrBook) book = NULL;
  g_autofree char *path = tools_path ("closing.frostrun");
  g_autoptr (GError) error = NULL;

  act (window, "season.add-gathering", NULL);
  type (window, "1.6");
  gtk_window_close (GTK_WINDOW (window));
  settle ();
  book = fr_book_open (path, &error);
  g_assert_no_error (error);
  g_assert_true (fr_book_set_season (book, 2026, NULL, &error));
  g_assert_cmpuint (fr_record_list_get_size (fr_book_get_list (book, FR_KIND_GATHERING)), ==, n_before + 1);
}

/* Amount, Tab, reading, Enter: the next row begins where this one began. */
static void
test_row_by_row (void)
{
  FrWindow *window = open_log ("rows.frostrun");

  act (window, "season.add-gathering", NULL);
  for (guint i = 0; i < 3; i++)
    {
      FrLogLine *line = line_of (window);

      type (window, "1.6");
      g_assert_false (press_key (focused (window), GDK_KEY_Tab)); /* the window moves it */
      fr_log_line_focus (line, FR_GATHER_SUGAR);
      type (window, "2.2");
      enter (window);
      g_assert_cmpuint (n_kept (window), ==, i + 1);
      g_assert_cmpfloat (kept (window, i)->reading_brix.value, ==, 2.2);
      g_assert_true (line_of (window) != line);
      g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (focused (window))), ==, "");
    }
  /* An arrow stays in its column. */
  g_assert_true (press_key (focused (window), GDK_KEY_Up));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (focused (window))), ==, "1.6");
  close_window (window);
}

/* Keep leaves the keyboard in the next row; it stood on a button that goes. */
static void
test_keep_goes_on (void)
{
  FrWindow *window = open_log ("keep.frostrun");
  FrLogLine *line;
  GtkWidget *keep;

  act (window, "season.add-gathering", NULL);
  line = line_of (window);
  type (window, "1.6");
  fr_log_line_focus (line, FR_GATHER_SUGAR);
  type (window, "22");
  enter (window);
  keep = find (GTK_WIDGET (line), is_button, "Keep");
  g_assert_true (gtk_widget_grab_focus (keep));
  g_signal_emit_by_name (keep, "clicked");
  settle ();
  g_assert_cmpuint (n_kept (window), ==, 1);
  g_assert_false (fr_log_line_is_stuck (line));
  g_assert_true (line_of (window) != line);
  close_window (window);
}

/* Another order while a number is half typed: it stays under the keyboard and is not written. */
static void
test_order_while_typing (void)
{
  FrWindow *window = open_log ("order.frostrun");
  FrLogLine *line;
  GtkWidget *entry;
  int place;

  act (window, "season.add-gathering", NULL);
  line = line_of (window);
  entry = focused (window);
  place = gtk_list_box_row_get_index (GTK_LIST_BOX_ROW (line));
  type (window, "1.");
  fr_gather_log_set_order (log_of (window), FR_GATHER_NAME);
  settle ();
  g_assert_cmpint (gtk_list_box_row_get_index (GTK_LIST_BOX_ROW (line)), !=, place);
  g_assert_true (focused (window) == entry);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "1.");
  g_assert_cmpuint (n_kept (window), ==, 0);
  fr_gather_log_restore_row (log_of (window), fr_log_line_get_row (line));
  close_window (window);
}

static gboolean
is_container_row (GtkWidget *widget, const char *title)
{
  return ADW_IS_COMBO_ROW (widget)
         && g_strcmp0 (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (widget)), title) == 0;
}

/* A choice is told of while its popup is open: the list under it has to stay the same one. */
static void
test_poured_into (void)
{
  FrWindow *window = open_log ("into.frostrun");
  GtkWidget *row = find (part (window, "FrLogRound"), is_container_row, "Poured into");
  GListModel *names;
  gint64 was;

  g_assert_nonnull (row);
  names = adw_combo_row_get_model (ADW_COMBO_ROW (row));
  was = fr_gather_log_get_defaults (log_of (window))->container;
  adw_combo_row_set_selected (ADW_COMBO_ROW (row), adw_combo_row_get_selected (ADW_COMBO_ROW (row)) == 1 ? 2 : 1);
  settle ();
  g_assert_cmpint (fr_gather_log_get_defaults (log_of (window))->container, !=, was);
  g_assert_true (adw_combo_row_get_model (ADW_COMBO_ROW (row)) == names);
  close_window (window);
}

int
main (int argc, char **argv)
{
  tools_init (&argc, &argv);
  g_assert_true (fr_clock_hold ("2026-03-20T18:30"));
  g_test_add_func ("/season-log/down-the-columns", test_down_the_columns);
  g_test_add_func ("/season-log/what-cannot-be-kept", test_what_cannot_be_kept);
  g_test_add_func ("/season-log/question", test_question);
  g_test_add_func ("/season-log/undo-of-letters", test_undo_of_letters);
  g_test_add_func ("/season-log/the-whole-bush", test_the_whole_bush);
  g_test_add_func ("/season-log/nothing-is-lost", test_nothing_is_lost);
  g_test_add_func ("/season-log/paste", test_paste);
  g_test_add_func ("/season-log/closing-keeps", test_closing_keeps);
  g_test_add_func ("/season-log/row-by-row", test_row_by_row);
  g_test_add_func ("/season-log/keep-goes-on", test_keep_goes_on);
  g_test_add_func ("/season-log/order-while-typing", test_order_while_typing);
  g_test_add_func ("/season-log/poured-into", test_poured_into);
  return tools_run ();
}
