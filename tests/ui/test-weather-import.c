/* Weather from files in the window: a table in degrees Fahrenheit comes in as one step and is known the second time, one of two places asks
 * which, columns can be told, and the days of another station are not mixed in unasked. */
#include <math.h>

#include "ui/clock.h"
#include "ui/weather-import-dialog.h"
#include "window-tools.h"

/* The Fahrenheit scale by its definition: 32 °F is 0 °C, 212 °F is 100 °C. */
#define FAHRENHEIT_TABLE "date,tmin_f,tmax_f,sky\n2026-03-01,14,50,fair\n2026-03-02,23,41,grey\n2026-03-04,32,59,fair\n"
#define TWO_PLACES \
  "place,day,low,high\nHill,2026-03-01,-3,4\nMill,2026-03-01,-1,6\nHill,2026-03-02,-5,2\nMill,2026-03-02,-2,5\n"
#define NO_NAMES "when;a;b\n2026-03-01;-3;4\n2026-03-02;-5;2\n"

static GtkWidget *
open_file (FrWindow *window, const char *name, const char *text)
{
  g_autofree char *path = tools_path (name);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GError) error = NULL;
  GtkWidget *dialog;

  g_file_set_contents (path, text, -1, &error);
  g_assert_no_error (error);
  dialog = fr_weather_import_dialog_new (window, file);
  gtk_window_present (GTK_WINDOW (dialog));
  while (fr_weather_import_dialog_is_reading (FR_WEATHER_IMPORT_DIALOG (dialog)))
    g_main_context_iteration (NULL, TRUE);
  settle ();
  return dialog;
}

static void
wait_read (GtkWidget *dialog)
{
  while (fr_weather_import_dialog_is_reading (FR_WEATHER_IMPORT_DIALOG (dialog)))
    g_main_context_iteration (NULL, TRUE);
  settle ();
}

static void
assert_says (GtkWidget *dialog, const char *part)
{
  g_autofree char *texts = label_texts (dialog);

  assert_shows (texts, part);
}

static gboolean
is_titled (GtkWidget *widget, const char *title)
{
  return ADW_IS_PREFERENCES_ROW (widget) && g_strcmp0 (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (widget)), title) == 0;
}

/* Chooses by the words of the choice. */
static void
choose (GtkWidget *dialog, const char *title, const char *words)
{
  GtkWidget *row = find (dialog, is_titled, title);
  GListModel *model;

  g_assert_true (ADW_IS_COMBO_ROW (row));
  model = adw_combo_row_get_model (ADW_COMBO_ROW (row));
  for (guint i = 0; i < g_list_model_get_n_items (model); i++)
    {
      g_autoptr (GtkStringObject) item = g_list_model_get_item (model, i);

      if (g_strcmp0 (gtk_string_object_get_string (item), words) == 0)
        {
          adw_combo_row_set_selected (ADW_COMBO_ROW (row), i);
          wait_read (dialog);
          return;
        }
    }
  g_error ("%s has no choice %s", title, words);
}

static GPtrArray *
days_of (FrWindow *window)
{
  static const FrRecordSpan ever = { G_MININT64, G_MAXINT64, { 1, 1, 1 }, { 9999, 12, 31 } };
  g_autoptr (GError) error = NULL;
  GPtrArray *days = fr_book_load_span (fr_window_get_book (window), FR_KIND_STATION_DAY, &ever, &error);

  g_assert_no_error (error);
  return days;
}

static guint
n_stations (FrWindow *window)
{
  return fr_record_list_get_size (fr_book_get_list (fr_window_get_book (window), FR_KIND_STATION));
}

static void
test_table (void)
{
  FrWindow *window = open_window ("weather-table.frostrun", TOOLS_AS_IT_IS);
  GtkWidget *dialog = open_file (window, "ridge.csv", FAHRENHEIT_TABLE);
  g_autoptr (GPtrArray) days = NULL, none = NULL;
  const FrStationDay *first;

  assert_says (dialog, "3 days, ");
  assert_says (dialog, "plain table");
  assert_says (dialog, "1 day is missing");
  assert_says (dialog, "3 days: 3 new.");
  g_assert_cmpstr (fr_entry_row_get_text (row (dialog, "Its name")), ==, "ridge");
  press (dialog, "_Import");
  days = days_of (window);
  g_assert_cmpuint (days->len, ==, 3);
  first = days->pdata[0];
  g_assert_cmpstr (first->day, ==, "2026-03-01");
  g_assert_cmpfloat_with_epsilon (first->low_c.value, -10, 1e-9);
  g_assert_cmpfloat_with_epsilon (first->high_c.value, 10, 1e-9);
  g_assert_cmpuint (n_stations (window), ==, 1);

  /* The second time nothing is new, and nothing to import. */
  dialog = open_file (window, "ridge.csv", FAHRENHEIT_TABLE);
  assert_says (dialog, "3 days: 3 the same.");
  g_assert_false (gtk_widget_get_sensitive (find (dialog, is_button, "_Import")));
  gtk_window_close (GTK_WINDOW (dialog));
  settle ();

  /* What is another is told of with both. */
  dialog = open_file (window, "ridge.csv", "date,tmin_f,tmax_f\n2026-03-01,14,50\n2026-03-02,32,41\n");
  assert_says (dialog, "2 days: 1 changed, 1 the same.");
  assert_says (dialog, "2026-03-02");
  assert_says (dialog, "Low was −5.0 °C, is 0.0 °C.");
  gtk_window_close (GTK_WINDOW (dialog));
  settle ();

  act (window, "win.undo", NULL);
  none = days_of (window);
  g_assert_cmpuint (none->len, ==, 0);
  g_assert_cmpuint (n_stations (window), ==, 0);
  close_window (window);
}

/* Own days whose lows are 2 K below the station's and whose highs are its own. */
static void
add_own_days (FrWindow *window)
{
  static const struct
  {
    const char *day;
    double low_c, high_c;
  } own[] = { { "2026-03-01", -12, 10 }, { "2026-03-02", -7, 5 }, { "2026-03-04", -2, 15 } };
  g_autoptr (FrChange) change = fr_change_new ("add-day", NULL);
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (own); i++)
    {
      g_autoptr (FrRecord) record = fr_book_new_record (fr_window_get_book (window), FR_KIND_DAY, i, &error);

      fr_record_set_text (record, fr_kind_field (record->kind, "day"), own[i].day);
      fr_amount_set (&((FrDay *)record)->low_c, own[i].low_c, NULL);
      fr_amount_set (&((FrDay *)record)->high_c, own[i].high_c, NULL);
      fr_change_add (change, NULL, record);
    }
  g_assert_true (fr_book_apply (fr_window_get_book (window), change, &error));
  settle ();
}

/* What the page of the kit says of it. Three days 2 K below: normal with a normal prior about 0 has the mean −2 · (3/σ²)/(3/σ² + 1/τ²), with the
 * program's σ = 1.3 K and τ = 1.5 K −1.60 K (closed form, any textbook of statistics). */
static void
test_station (void)
{
  FrWindow *window = open_window ("weather-station.frostrun", TOOLS_AS_IT_IS);

  press (open_file (window, "ridge.csv", FAHRENHEIT_TABLE), "_Import");
  fr_window_show_first (window, FR_KIND_STATION);
  settle ();
  assert_says (GTK_WIDGET (window), "3 days on file, 2026-03-01 to 2026-03-04.");
  assert_says (GTK_WIDGET (window), "is not known");
  add_own_days (window);
  assert_says (GTK_WIDGET (window), "By 3 days that you wrote down too, your lows are 1.6 °C below its own and your highs like its own.");
  /* Read at seven: a time of day, kept in minutes. */
  fr_entry_row_enter (row (window, "Read at"), "25:00");
  assert_says (GTK_WIDGET (window), "Write a clock time");
  fr_entry_row_enter (row (window, "Read at"), "07:00");
  settle ();
  g_assert_cmpfloat_with_epsilon (
      ((const FrStation *)fr_record_list_get (fr_book_get_list (fr_window_get_book (window), FR_KIND_STATION), 0))->reading_minute.value, 420,
      1e-9);
  /* Its days refer to it, so it is put away and not deleted. */
  press (window, "Put Away");
  g_assert_cmpuint (n_stations (window), ==, 1);
  close_window (window);
}

static void
test_places (void)
{
  FrWindow *window = open_window ("weather-places.frostrun", TOOLS_AS_IT_IS);
  GtkWidget *dialog = open_file (window, "two.csv", TWO_PLACES);
  g_autoptr (GPtrArray) days = NULL;

  assert_says (dialog, "2 places");
  g_assert_false (gtk_widget_get_sensitive (find (dialog, is_button, "_Import")));
  choose (dialog, "Rows are chosen by", "place");
  assert_says (dialog, "2 days: 2 new."); /* the first place is offered */
  fr_entry_row_enter (row (dialog, "What stands there"), "Mill");
  wait_read (dialog);
  press (dialog, "_Import");
  days = days_of (window);
  g_assert_cmpuint (days->len, ==, 2);
  g_assert_cmpfloat_with_epsilon (((const FrStationDay *)days->pdata[1])->low_c.value, -2, 1e-9);
  close_window (window);
}

static void
test_columns (void)
{
  FrWindow *window = open_window ("weather-columns.frostrun", TOOLS_AS_IT_IS);
  GtkWidget *dialog = open_file (window, "letters.csv", NO_NAMES);
  g_autoptr (GPtrArray) days = NULL;

  g_assert_false (gtk_widget_get_sensitive (find (dialog, is_button, "_Import")));
  choose (dialog, "when", "Day");
  choose (dialog, "a", "High, °C");
  choose (dialog, "b", "High, °C"); /* the other gives way */
  choose (dialog, "a", "Low, °F");
  assert_says (dialog, "2 days: 2 new.");
  fr_entry_row_enter (row (dialog, "Its name"), "Letters");
  press (dialog, "_Import");
  days = days_of (window);
  g_assert_cmpuint (days->len, ==, 2);
  g_assert_cmpfloat_with_epsilon (((const FrStationDay *)days->pdata[0])->low_c.value, (-3 - 32) / 1.8, 1e-9);
  g_assert_cmpfloat_with_epsilon (((const FrStationDay *)days->pdata[0])->high_c.value, 4, 1e-9);
  close_window (window);
}

/* What is no weather at all is told of in the dialog, and nothing can be pressed. */
static void
test_trouble (void)
{
  FrWindow *window = open_window ("weather-trouble.frostrun", TOOLS_AS_IT_IS);
  GtkWidget *dialog = open_file (window, "odd.json", "{\"a\": [1, 2");
  GtkWidget *problem = find (dialog, is_button, "_Import");

  g_assert_false (gtk_widget_get_sensitive (problem));
  assert_says (dialog, "odd.json");
  gtk_window_close (GTK_WINDOW (dialog));
  settle ();
  close_window (window);
}

int
main (int argc, char **argv)
{
  tools_init (&argc, &argv);
  g_assert_true (fr_clock_hold ("2026-03-19T18:30"));
  g_test_add_func ("/weather-import/table", test_table);
  g_test_add_func ("/weather-import/station", test_station);
  g_test_add_func ("/weather-import/places", test_places);
  g_test_add_func ("/weather-import/columns", test_columns);
  g_test_add_func ("/weather-import/trouble", test_trouble);
  return tools_run ();
}
