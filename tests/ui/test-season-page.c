/* Calendar, store and checklist of the season on the demo's household: what is selected, edited, poured and
 * put away comes to the book, shows, and can be taken back. */
#include <math.h>
#include <string.h>

#include <glib/gstdio.h>

#include "models/season-edit.h"
#include "models/season.h"
#include "ui/clock.h"
#include "ui/month-view.h"
#include "ui/season-print.h"
#include "ui/season-strip-view.h"
#include "window-tools.h"

static GtkWidget *
part (gpointer window, const char *type_name)
{
  GtkWidget *found = find (GTK_WIDGET (window), is_a, type_name);

  if (found == NULL)
    g_error ("no %s", type_name);
  return found;
}

static guint
n_of (FrWindow *window, FrKindId kind)
{
  return fr_record_list_get_size (fr_book_get_list (fr_window_get_book (window), kind));
}

static FrWindow *
open_season (const char *name)
{
  FrWindow *window = open_window (name, TOOLS_DEMO);

  act (window, "win.page", "season");
  act (window, "season.calendar", "season");
  return window;
}

/* What waits in a container, and how it is written. */
static double
waiting_l (FrWindow *window, gint64 container, char **text_out)
{
  g_autoptr (FrSeason) season = fr_season_new (fr_window_get_book (window), fr_clock_now);
  double volume_l = fr_stock_place (fr_season_get_present (season)->stock, container)->volume_l;

  if (text_out != NULL)
    *text_out = fr_quantity_to_string (volume_l, FR_QUANTITY_VOLUME, NULL, 1);
  return volume_l;
}

static void
test_calendar (void)
{
  FrWindow *window = open_season ("calendar.frostrun");
  GtkWidget *strip = part (window, "FrSeasonStripView");
  g_autofree char *today = label_texts (part (window, "FrCalendarView"));
  g_autofree char *before = NULL, *other = NULL, *month_day = NULL;

  assert_shows (today, " gathered, ");
  assert_shows (today, "Thursday 19 March");
  /* The arrow goes to the day before, and the panel with it. */
  gtk_widget_grab_focus (strip);
  g_assert_true (press_key (strip, GDK_KEY_Left));
  settle ();
  before = label_texts (part (window, "FrDayPanel"));
  assert_shows (before, "Wednesday 18 March");
  /* The month has the same day selected, and its arrows move it too. */
  act (window, "season.calendar", "month");
  g_assert_cmpint (fr_month_view_get_selected (FR_MONTH_VIEW (part (window, "FrMonthView"))).day, ==, 18);
  g_assert_true (press_key (part (window, "FrMonthView"), GDK_KEY_Up));
  settle ();
  month_day = label_texts (part (window, "FrDayPanel"));
  assert_shows (month_day, "Wednesday 11 March");
  /* The season before has its own tally. */
  act (window, "season.calendar", "season");
  g_signal_emit_by_name (find (GTK_WIDGET (window), is_tooltip, "Season Before"), "clicked");
  settle ();
  other = label_texts (part (window, "FrCalendarView"));
  assert_shows (other, "Season of 2025");
  close_window (window);
}

static void
test_weather (void)
{
  FrWindow *window = open_season ("weather.frostrun");
  FrBook *book = fr_window_get_book (window);
  const FrDate day = { 2026, 4, 20 }; /* beyond what the demo has */
  GtkWidget *strip = part (window, "FrSeasonStripView");
  guint n = n_of (window, FR_KIND_DAY);

  g_signal_emit_by_name (strip, "day-selected", fr_date_to_days (day));
  settle ();
  type_keys (row (part (window, "FrDayPanel"), "Low"), "-4");
  fr_entry_row_finish (row (part (window, "FrDayPanel"), "Low"));
  settle ();
  g_assert_cmpfloat (fr_season_find_day (book, day)->low_c.value, ==, -4);
  g_assert_true (fr_season_find_day (book, day)->expected); /* it is still to come */
  fr_entry_row_enter (row (part (window, "FrDayPanel"), "High"), "5");
  settle ();
  g_assert_cmpuint (n_of (window, FR_KIND_DAY), ==, n + 1);
  g_assert_cmpfloat (fr_season_find_day (book, day)->high_c.value, ==, 5);
  /* What cannot be kept stands under its row and changes nothing. */
  fr_entry_row_enter (row (part (window, "FrDayPanel"), "High"), "warm");
  settle ();
  g_assert_cmpfloat (fr_season_find_day (book, day)->high_c.value, ==, 5);
  g_assert_nonnull (fr_entry_row_get_problem (row (part (window, "FrDayPanel"), "High")));
  act (window, "win.undo", NULL);
  act (window, "win.undo", NULL);
  g_assert_null (fr_season_find_day (book, day));
  close_window (window);
}

static void
test_store (void)
{
  FrWindow *window = open_season ("store.frostrun");
  FrBook *book = fr_window_get_book (window);
  gint64 can = fr_record_list_get (fr_book_get_list (book, FR_KIND_CONTAINER), 0)->id;
  GtkWidget *dialog;
  g_autofree char *before = NULL, *after = NULL, *texts = NULL, *less = NULL;
  double there_l = waiting_l (window, can, &before);
  guint n = n_of (window, FR_KIND_POUR);

  act (window, "season.view", "store");
  texts = label_texts (part (window, "FrStoreView"));
  assert_shows (texts, fr_record_label (fr_book_find (book, FR_KIND_CONTAINER, can)));
  assert_shows (texts, before);
  gtk_widget_activate_action (GTK_WIDGET (window), "season.boil", "x", can);
  settle ();
  dialog = find_window ("FrRecordDialog");
  g_assert_nonnull (dialog);
  fr_entry_row_enter (row (dialog, "Amount"), "2.5");
  press (dialog, "_Keep");
  g_assert_null (find_window ("FrRecordDialog"));
  g_assert_cmpuint (n_of (window, FR_KIND_POUR), ==, n + 1);
  g_assert_cmpfloat_with_epsilon (waiting_l (window, can, &after), there_l - 2.5, 1e-3);
  less = label_texts (part (window, "FrStoreView"));
  assert_shows (less, after);
  act (window, "win.undo", NULL);
  g_assert_cmpuint (n_of (window, FR_KIND_POUR), ==, n);
  close_window (window);
}

/* More out of a container than is in it: asked about, and kept when Keep is pressed once more (ask of
 * gathering-ask.h). */
static void
test_store_question (void)
{
  FrWindow *window = open_season ("ask.frostrun");
  FrBook *book = fr_window_get_book (window);
  gint64 can = fr_record_list_get (fr_book_get_list (book, FR_KIND_CONTAINER), 0)->id;
  double there_l = waiting_l (window, can, NULL);
  g_autofree char *too_much = g_strdup_printf ("%.1f", there_l + 50), *texts = NULL, *right = NULL;
  guint n = n_of (window, FR_KIND_POUR);
  GtkWidget *dialog;

  act (window, "season.view", "store");
  gtk_widget_activate_action (GTK_WIDGET (window), "season.lost", "x", can);
  settle ();
  dialog = find_window ("FrRecordDialog");
  fr_entry_row_enter (row (dialog, "Amount"), too_much);
  press (dialog, "_Keep");
  g_assert_true (find_window ("FrRecordDialog") == dialog);
  g_assert_cmpuint (n_of (window, FR_KIND_POUR), ==, n);
  texts = label_texts (dialog);
  assert_shows (texts, "more than there was");
  /* Another amount takes the question back. */
  fr_entry_row_enter (row (dialog, "Amount"), "0.5");
  right = label_texts (dialog);
  g_assert_null (strstr (right, "more than there was"));
  fr_entry_row_enter (row (dialog, "Amount"), too_much);
  press (dialog, "_Keep");
  press (dialog, "_Keep Anyway");
  g_assert_null (find_window ("FrRecordDialog"));
  g_assert_cmpuint (n_of (window, FR_KIND_POUR), ==, n + 1);
  g_assert_true (((const FrPour *)fr_record_list_get (fr_book_get_list (book, FR_KIND_POUR), n))->confirmed);
  close_window (window);
}

static void
test_keeping (void)
{
  FrWindow *window = open_season ("keeping.frostrun");
  FrRecordList *list = fr_book_get_list (fr_window_get_book (window), FR_KIND_STORING);
  g_autoptr (GPtrArray) before = snapshot (fr_window_get_book (window));
  g_autoptr (GPtrArray) after = NULL;

  act (window, "season.view", "store");
  fr_entry_row_enter (row (part (window, "FrStoreView"), "Filters left"), "77");
  settle ();
  g_assert_cmpuint (fr_record_list_get_size (list), ==, 1);
  g_assert_cmpfloat (((const FrStoring *)fr_record_list_get (list, 0))->filters.value, ==, 77);
  act (window, "win.undo", NULL);
  after = snapshot (fr_window_get_book (window));
  assert_same (before, after);
  close_window (window);
}

/* A folder that is picked gets the calendar file, and the file follows the book. */
static void
test_calendar_file (void)
{
  FrWindow *window = open_season ("file.frostrun");
  g_autofree char *folder = tools_path ("calendar");
  g_autofree char *name = NULL, *path = NULL, *text = NULL;
  g_autoptr (GDir) dir = NULL;
  g_autoptr (GError) error = NULL;

  g_mkdir (folder, 0700);
  act (window, "season.view", "store");
  fr_entry_row_enter (row (part (window, "FrStoreView"), "Folder"), folder);
  settle ();
  close_window (window); /* which does not wait for the second in which it would have been written */
  dir = g_dir_open (folder, 0, &error);
  g_assert_no_error (error);
  name = g_strdup (g_dir_read_name (dir));
  g_assert_nonnull (name);
  g_assert_true (g_str_has_suffix (name, ".ics"));
  path = g_build_filename (folder, name, NULL);
  g_assert_true (g_file_get_contents (path, &text, NULL, &error));
  g_assert_true (g_str_has_prefix (text, "BEGIN:VCALENDAR"));
  g_unlink (path);
  g_rmdir (folder);
}

static void
test_reminder_put_away (void)
{
  FrWindow *window = open_season ("reminder.frostrun");
  GtkWidget *button = find (part (window, "FrDayPanel"), is_tooltip, "Put Away");
  guint n = n_of (window, FR_KIND_DISMISSAL);

  g_assert_nonnull (button);
  g_signal_emit_by_name (button, "clicked");
  settle ();
  g_assert_cmpuint (n_of (window, FR_KIND_DISMISSAL), ==, n + 1);
  act (window, "season.recall", NULL);
  g_assert_cmpuint (n_of (window, FR_KIND_DISMISSAL), ==, 0);
  act (window, "win.undo", NULL);
  act (window, "win.undo", NULL);
  g_assert_cmpuint (n_of (window, FR_KIND_DISMISSAL), ==, n);
  close_window (window);
}

static gboolean
is_check (GtkWidget *widget, const char *unused)
{
  return GTK_IS_CHECK_BUTTON (widget) && !gtk_check_button_get_active (GTK_CHECK_BUTTON (widget));
}

static void
test_checklist (void)
{
  FrWindow *window = open_season ("checklist.frostrun");
  GtkWidget *list, *check;
  guint n = n_of (window, FR_KIND_CHORE);

  press (window, "Checklist…");
  list = find_window ("FrKitChecklist");
  g_assert_nonnull (list);
  check = find (list, is_check, NULL);
  g_assert_nonnull (check);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (check), TRUE);
  settle ();
  g_assert_cmpuint (n_of (window, FR_KIND_CHORE), ==, n + 1);
  press (list, "Not Needed");
  g_assert_cmpuint (n_of (window, FR_KIND_CHORE), ==, n + 2);
  gtk_window_close (GTK_WINDOW (list));
  settle ();
  act (window, "win.undo", NULL);
  g_assert_cmpuint (n_of (window, FR_KIND_CHORE), ==, n + 1);
  close_window (window);
}

static guint
made_pages (GtkWidget *dialog)
{
  guint n_pages = 0;
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) pdf = fr_season_print_make (FR_SEASON_PRINT (dialog), &n_pages, &error);

  g_assert_no_error (error);
  g_assert_cmpmem (g_bytes_get_data (pdf, NULL), 5, "%PDF-", 5);
  return n_pages;
}

/* The demo's season has entries in February and March: two pages more when each month has its own. */
static void
test_print (void)
{
  FrWindow *window = open_season ("print.frostrun");
  GtkWidget *dialog;
  guint n;

  act (window, "season.print", NULL);
  settle ();
  dialog = find_window ("FrSeasonPrint");
  g_assert_nonnull (dialog);
  n = made_pages (dialog);
  g_assert_cmpuint (n, >=, 2);
  gtk_switch_set_active (GTK_SWITCH (part (dialog, "GtkSwitch")), TRUE);
  g_assert_cmpuint (made_pages (dialog), ==, n + 2);
  gtk_window_close (GTK_WINDOW (dialog));
  settle ();
  close_window (window);
}

int
main (int argc, char **argv)
{
  tools_init (&argc, &argv);
  g_assert_true (fr_clock_hold ("2026-03-19T18:30"));
  g_test_add_func ("/season-page/calendar", test_calendar);
  g_test_add_func ("/season-page/weather", test_weather);
  g_test_add_func ("/season-page/store", test_store);
  g_test_add_func ("/season-page/store-question", test_store_question);
  g_test_add_func ("/season-page/keeping", test_keeping);
  g_test_add_func ("/season-page/calendar-file", test_calendar_file);
  g_test_add_func ("/season-page/reminder-put-away", test_reminder_put_away);
  g_test_add_func ("/season-page/checklist", test_checklist);
  g_test_add_func ("/season-page/print", test_print);
  return tools_run ();
}
