/* The window on a book made for the test: pages, entries, undo, new records, and at the end nothing of it is
 * left. */
#include <string.h>

#include "window-tools.h"

#include "ui/clock.h"

static gboolean
is_list_label (GtkWidget *widget, const char *text)
{
  return is_label (widget, text) && gtk_widget_get_ancestor (widget, GTK_TYPE_LIST_BOX_ROW) != NULL
         && !ADW_IS_PREFERENCES_ROW (gtk_widget_get_ancestor (widget, GTK_TYPE_LIST_BOX_ROW));
}

static void
show (FrWindow *window, FrKindId kind, gint64 id)
{
  const char *name = fr_record_label (fr_book_find (fr_window_get_book (window), kind, id));
  GtkWidget *found;

  act (window, "win.page", "kit");
  found = find (GTK_WIDGET (window), is_list_label, name);
  g_assert_nonnull (found);
  found = gtk_widget_get_ancestor (found, GTK_TYPE_LIST_BOX_ROW);
  gtk_list_box_select_row (GTK_LIST_BOX (gtk_widget_get_parent (found)), GTK_LIST_BOX_ROW (found));
  settle ();
}

static const FrCooker *
cooker (FrWindow *window)
{
  return (const FrCooker *)fr_book_find (fr_window_get_book (window), FR_KIND_COOKER, 1);
}

static void
test_pages (void)
{
  FrWindow *window = open_window ("pages.frostrun", TOOLS_SAMPLES);

  act (window, "win.page", "tonight");
  g_assert_cmpstr (fr_window_get_page (window), ==, "tonight");
  act (window, "win.page", "kit");
  g_assert_cmpstr (fr_window_get_page (window), ==, "kit");
  act (window, "win.page", "no-such-page");
  g_assert_cmpstr (fr_window_get_page (window), ==, "kit");
  close_window (window);
}

static void
test_keys_are_bound (void)
{
  static const char *const bound[][2]
      = { { "win.page::tonight", "<Control>1" }, { "win.page::sugarbush", "<Control>2" },
          { "win.page::kit", "<Control>4" },     { "win.undo", "<Control>z" },
          { "win.redo", "<Shift><Control>z" },   { "win.sidebar", "F9" },
          { "app.quit", "<Control>q" },          { "win.show-help-overlay", "F1" } };

  for (guint i = 0; i < G_N_ELEMENTS (bound); i++)
    {
      g_auto (GStrv) keys
          = gtk_application_get_accels_for_action (GTK_APPLICATION (tools_app ()), bound[i][0]);
      guint key, wanted;
      GdkModifierType mods, wanted_mods;

      g_assert_nonnull (keys[0]);
      g_assert_true (gtk_accelerator_parse (keys[0], &key, &mods));
      g_assert_true (gtk_accelerator_parse (bound[i][1], &wanted, &wanted_mods));
      g_assert_cmpuint (key, ==, wanted);
      g_assert_cmpuint (mods, ==, wanted_mods);
    }
}

static void
test_entry_and_undo (void)
{
  FrWindow *window = open_window ("entry.frostrun", TOOLS_SAMPLES);
  double before;

  show (window, FR_KIND_COOKER, 1);
  before = cooker (window)->power_w.value;
  fr_entry_row_enter (row (window, "Power"), "1.25 kW");
  settle ();
  g_assert_cmpfloat (cooker (window)->power_w.value, ==, 1250);
  g_assert_cmpstr (cooker (window)->power_w.typed, ==, "1.25 kW");
  g_assert_cmpstr (fr_entry_row_get_text (row (window, "Power")), ==, "1250");
  g_assert_null (fr_entry_row_get_problem (row (window, "Power")));

  act (window, "win.undo", NULL);
  g_assert_cmpfloat (cooker (window)->power_w.value, ==, before);
  act (window, "win.redo", NULL);
  g_assert_cmpfloat (cooker (window)->power_w.value, ==, 1250);
  close_window (window);
}

/* It reopens with what was typed, and finishing again changes nothing. */
static void
test_entry_reopens_as_typed (void)
{
  FrWindow *window = open_window ("reopen.frostrun", TOOLS_SAMPLES);
  FrEntryRow *power;
  const FrChange *done;

  show (window, FR_KIND_COOKER, 1);
  power = row (window, "Power");
  fr_entry_row_enter (power, "1.25 kW");
  settle ();
  done = fr_book_peek_undo (fr_window_get_book (window));
  fr_entry_row_grab (power);
  settle ();
  g_assert_cmpstr (fr_entry_row_get_text (power), ==, "1.25 kW");
  fr_entry_row_finish (power);
  g_assert_true (fr_book_peek_undo (fr_window_get_book (window)) == done);
  close_window (window);
}

static void
test_refused_entry_stays (void)
{
  FrWindow *window = open_window ("refused.frostrun", TOOLS_SAMPLES);
  double before;
  FrEntryRow *power;

  show (window, FR_KIND_COOKER, 1);
  before = cooker (window)->power_w.value;
  power = row (window, "Power");
  fr_entry_row_enter (power, "strong");
  settle ();
  g_assert_nonnull (strstr (fr_entry_row_get_problem (power), "“strong” is not a number"));
  g_assert_cmpfloat (cooker (window)->power_w.value, ==, before);

  /* another record and back: the text and its sentence are still there */
  show (window, FR_KIND_VESSEL, 1);
  show (window, FR_KIND_COOKER, 1);
  power = row (window, "Power");
  g_assert_cmpstr (fr_entry_row_get_text (power), ==, "strong");
  g_assert_nonnull (fr_entry_row_get_problem (power));

  fr_entry_row_enter (power, "30000");
  settle ();
  g_assert_nonnull (strstr (fr_entry_row_get_problem (power), "is more than any household circuit gives"));
  g_assert_cmpfloat (cooker (window)->power_w.value, ==, before);

  fr_entry_row_enter (power, "900");
  settle ();
  g_assert_null (fr_entry_row_get_problem (power));
  g_assert_cmpfloat (cooker (window)->power_w.value, ==, 900);
  close_window (window);
}

static void
test_add_and_delete (void)
{
  FrWindow *window = open_window ("add.frostrun", TOOLS_SAMPLES);
  FrRecordList *fuels = fr_book_get_list (fr_window_get_book (window), FR_KIND_FUEL);
  guint before = fr_record_list_get_size (fuels);
  const FrFuel *added;

  act (window, "win.add", "fuel");
  press (window, "Add Fuel"); /* nothing typed: says what is missing, adds nothing */
  g_assert_cmpuint (fr_record_list_get_size (fuels), ==, before);
  g_assert_cmpstr (fr_entry_row_get_problem (row (window, "Name")), ==, "This cannot be empty.");

  fr_entry_row_enter (row (window, "Name"), "Small bottle");
  fr_entry_row_enter (row (window, "Price"), "290");
  fr_entry_row_enter (row (window, "Heat in it"), "50.2");
  fr_entry_row_enter (row (window, "Heat that reaches the sap"), "35");
  settle ();
  g_assert_cmpuint (fr_record_list_get_size (fuels), ==, before);
  press (window, "Add Fuel");
  g_assert_cmpuint (fr_record_list_get_size (fuels), ==, before + 1);
  added = (const FrFuel *)fr_record_list_get (fuels, before);
  g_assert_cmpstr (added->name, ==, "Small bottle");
  g_assert_cmpfloat (added->heat_ratio.value, ==, 0.35);

  press (window, "Delete");
  g_assert_cmpuint (fr_record_list_get_size (fuels), ==, before);
  act (window, "win.undo", NULL);
  g_assert_cmpuint (fr_record_list_get_size (fuels), ==, before + 1);
  close_window (window);
}

static void
test_used_is_put_away (void)
{
  FrWindow *window = open_window ("used.frostrun", TOOLS_SAMPLES);
  FrBook *book = fr_window_get_book (window);
  gboolean before = fr_book_find (book, FR_KIND_VESSEL, 1)->archived;

  show (window, FR_KIND_VESSEL, 1);
  press (window, before ? "Take Out Again" : "Put Away");
  g_assert_cmpint (fr_book_find (book, FR_KIND_VESSEL, 1)->archived, ==, !before);
  act (window, "win.undo", NULL);
  g_assert_cmpint (fr_book_find (book, FR_KIND_VESSEL, 1)->archived, ==, before);
  close_window (window);
}

/* A new book asks first; what is skipped is not written, what is answered is one step. */
static void
test_set_up (void)
{
  FrWindow *window = open_window ("new.frostrun", TOOLS_AS_IT_IS);
  FrBook *book = fr_window_get_book (window);

  fr_entry_row_enter (row (window, "Name of this book"), "Test Lane");
  fr_entry_row_enter (row (window, "Time zone"), "America/Toronto");
  fr_entry_row_enter (row (window, "Currency"), "CA");
  press (window, "_Next");
  g_assert_nonnull (strstr (fr_entry_row_get_problem (row (window, "Currency")), "three capital letters"));
  fr_entry_row_enter (row (window, "Currency"), "CAD");
  press (window, "_Next");
  press (window, "_Skip This Step");
  press (window, "_Skip This Step");
  g_assert_nonnull (fr_book_get_household (book));
  g_assert_cmpstr (fr_book_get_household (book)->name, ==, "Test Lane");
  g_assert_cmpuint (fr_record_list_get_size (fr_book_get_list (book, FR_KIND_VESSEL)), ==, 0);
  g_assert_cmpstr (fr_book_peek_undo (book)->label, ==, "set-up");
  act (window, "win.page", "tonight");
  g_assert_nonnull (find (GTK_WIDGET (window), is_label, "No pan and cooker yet"));
  press (window, "Go to Kit and Prices");
  g_assert_cmpstr (fr_window_get_page (window), ==, "kit");
  close_window (window);
}

static void
test_one_window_a_book (void)
{
  FrWindow *window = open_window ("one.frostrun", TOOLS_SAMPLES);
  g_autoptr (GError) error = NULL;
  guint n = g_list_length (gtk_application_get_windows (GTK_APPLICATION (tools_app ())));

  g_assert_true (
      fr_application_open_book (tools_app (), fr_book_get_path (fr_window_get_book (window)), &error));
  g_assert_cmpuint (g_list_length (gtk_application_get_windows (GTK_APPLICATION (tools_app ()))), ==, n);
  close_window (window);
}

/* Every kind's editor is shown once, wide and narrow; a warning would end the test. */
static void
test_every_editor (void)
{
  static const int widths_px[] = { 1280, 800, 620 };

  for (guint w = 0; w < G_N_ELEMENTS (widths_px); w++)
    {
      g_autofree char *name = g_strdup_printf ("every-%d.frostrun", widths_px[w]);
      FrWindow *window = open_window (name, TOOLS_SAMPLES);

      gtk_window_set_default_size (GTK_WINDOW (window), widths_px[w], 600);
      settle ();
      act (window, "win.page", "kit");
      for (guint k = 0; k < FR_N_KINDS; k++)
        if ((k < FR_KIND_NIGHT && k != FR_KIND_HOUSEHOLD) || k == FR_KIND_CONTAINER)
          {
            act (window, "win.add", fr_kind ((FrKindId)k)->name);
            press (window, "Cancel");
          }
      close_window (window);
    }
}

/* The header's button goes away with the page and comes back able to act. */
static void
test_header_button (void)
{
  FrWindow *window = open_window ("header.frostrun", TOOLS_DEMO);
  GtkWidget *keep;

  act (window, "win.page", "tonight");
  keep = find (GTK_WIDGET (window), is_button, "_Keep Night");
  g_assert_nonnull (keep);
  g_assert_true (gtk_widget_is_sensitive (keep));
  act (window, "win.page", "kit");
  g_assert_null (find (GTK_WIDGET (window), is_button, "_Keep Night"));
  act (window, "win.page", "tonight");
  g_assert_true (gtk_widget_is_sensitive (find (GTK_WIDGET (window), is_button, "_Keep Night")));
  close_window (window);
}

int
main (int argc, char **argv)
{
  tools_init (&argc, &argv);
  g_assert_true (fr_clock_hold ("2026-03-19T18:30"));
  g_test_add_func ("/window/pages", test_pages);
  g_test_add_func ("/window/header-button", test_header_button);
  g_test_add_func ("/window/keys-are-bound", test_keys_are_bound);
  g_test_add_func ("/window/entry-and-undo", test_entry_and_undo);
  g_test_add_func ("/window/entry-reopens-as-typed", test_entry_reopens_as_typed);
  g_test_add_func ("/window/refused-entry-stays", test_refused_entry_stays);
  g_test_add_func ("/window/add-and-delete", test_add_and_delete);
  g_test_add_func ("/window/used-is-put-away", test_used_is_put_away);
  g_test_add_func ("/window/set-up", test_set_up);
  g_test_add_func ("/window/one-window-a-book", test_one_window_a_book);
  g_test_add_func ("/window/every-editor", test_every_editor);
  return tools_run ();
}
