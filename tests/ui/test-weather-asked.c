/* The weather service in the window, with a server in this process that answers as MET Norway does (tests/fixtures/sources.md): off, no socket is
 * opened, as the C library's own call is counted here in its place; turned on in the dialog, the forecast arrives in the book beside the steps of
 * undo, and the window is live meanwhile. */
#include <dlfcn.h>
#include <string.h>
#include <sys/socket.h>

#include "models/season-edit.h"
#include "stage.h"
#include "ui/weather-service-dialog.h"
#include "window-tools.h"

static gint n_internet; /* sockets for the internet; the display and the bus have others */

int
socket (int domain, int type, int protocol);

G_MODULE_EXPORT int
socket (int domain, int type, int protocol)
{
  int (*real) (int, int, int) = (int (*) (int, int, int))dlsym (RTLD_NEXT, "socket");

  if (domain == AF_INET || domain == AF_INET6)
    g_atomic_int_inc (&n_internet);
  return real (domain, type, protocol);
}

static void
answer (Stage *stage, SoupServerMessage *message)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "fixtures", "metno-compact-synthetic.json", NULL);
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  stage_body (message, text);
}

static void
refuse (Stage *stage, SoupServerMessage *message)
{
  soup_server_message_set_status (message, 403, NULL);
}

static guint
n_of (FrWindow *window, FrKindId kind)
{
  static const FrRecordSpan ever = { G_MININT64, G_MAXINT64, { 1, 1, 1 }, { 9999, 12, 31 } };
  FrBook *book = fr_window_get_book (window);
  g_autoptr (GPtrArray) records = NULL;

  if (kind == FR_KIND_STATION || kind == FR_KIND_FORECASTING)
    return fr_record_list_get_size (fr_book_get_list (book, kind));
  records = fr_book_load_span (book, kind, &ever, NULL);
  g_assert_nonnull (records);
  return records->len;
}

static const char *
service_of (FrWindow *window)
{
  return ((const FrForecasting *)fr_record_list_get (fr_book_get_list (fr_window_get_book (window), FR_KIND_FORECASTING), 0))->service;
}

static GtkWidget *
open_dialog (FrWindow *window)
{
  GtkWidget *dialog;

  act (window, "win.page", "season");
  act (window, "season.view", "forecast");
  act (window, "season.weather-service", NULL);
  dialog = find_window ("FrWeatherServiceDialog");
  g_assert_nonnull (dialog);
  return dialog;
}

static gboolean
is_titled (GtkWidget *widget, const char *title)
{
  return ADW_IS_PREFERENCES_ROW (widget) && g_strcmp0 (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (widget)), title) == 0;
}

static void
assert_says (gpointer widget, const char *part)
{
  g_autofree char *texts = label_texts (GTK_WIDGET (widget));

  assert_shows (texts, part);
}

/* The demo's plan is not tied to the earth by itself; a place is what the service is asked about. */
static void
set_place (FrWindow *window)
{
  FrBook *book = fr_window_get_book (window);
  FrRecordList *list = fr_book_get_list (book, FR_KIND_GROUND);
  const FrRecord *before = fr_record_list_get_size (list) > 0 ? fr_record_list_get (list, 0) : NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (FrRecord) after = before != NULL ? fr_record_copy (before) : fr_book_new_record (book, FR_KIND_GROUND, 0, &error);
  g_autoptr (FrChange) change = fr_change_new ("edit-ground", NULL);
  FrGround *ground = (FrGround *)after;

  fr_amount_set (&ground->anchor_x_m, 0, NULL);
  fr_amount_set (&ground->anchor_y_m, 0, NULL);
  fr_amount_set (&ground->anchor_lat_deg, 44.26071, NULL);
  fr_amount_set (&ground->anchor_lon_deg, -72.57538, NULL);
  fr_change_add (change, before, after);
  g_assert_true (fr_book_apply (book, change, &error));
}

/* As a person does it: the second service of the list is MET Norway. */
static void
turn_on (FrWindow *window, Stage *stage)
{
  GtkWidget *dialog = open_dialog (window), *service = find (dialog, is_titled, "From");

  g_assert_true (ADW_IS_COMBO_ROW (service));
  adw_combo_row_set_selected (ADW_COMBO_ROW (service), 1);
  settle ();
  /* Two decimals, as documented: 44.26071, −72.57538. */
  assert_says (dialog, "44.26° N, 72.58° W");
  assert_says (dialog, "CC BY 4.0");
  fr_entry_row_enter (row (dialog, "Sent along with each question"), "sugarhouse@example.org");
  fr_entry_row_enter (row (dialog, "Another address"), stage->base);
  g_assert_cmpint (g_atomic_int_get (&n_internet), ==, 0);
  press (dialog, "_Keep");
}

static void
wait_asked (Stage *stage, guint n)
{
  gint64 until_us = g_get_monotonic_time () + 20 * G_USEC_PER_SEC;

  while (stage->n_asked < n && g_get_monotonic_time () < until_us)
    g_main_context_iteration (NULL, FALSE);
  g_assert_cmpuint (stage->n_asked, ==, n);
  for (guint i = 0; i < 10; i++)
    settle ();
}

static gboolean
tick (gpointer data)
{
  gint64 *ticks = data, now_us = g_get_monotonic_time ();

  ticks[1] = MAX (ticks[1], now_us - ticks[0]);
  ticks[0] = now_us;
  return G_SOURCE_CONTINUE;
}

static void
test_on (void)
{
  Stage *stage = stage_new (answer);
  FrWindow *window = open_window ("service.frostrun", TOOLS_DEMO);
  const char *sent;
  GtkWidget *dialog;
  guint n_before;

  set_place (window);
  settle ();
  g_atomic_int_set (&n_internet, 0);
  /* Nobody has turned it on: looking at the page and into the dialog asks nothing. */
  dialog = open_dialog (window);
  assert_says (dialog, "Nothing is asked of the internet");
  gtk_window_close (GTK_WINDOW (dialog));
  settle ();
  g_assert_cmpint (g_atomic_int_get (&n_internet), ==, 0);

  n_before = n_of (window, FR_KIND_OUTLOOK);
  turn_on (window, stage);
  wait_asked (stage, 1);
  g_assert_cmpint (g_atomic_int_get (&n_internet), >, 0);
  g_assert_cmpuint (n_of (window, FR_KIND_OUTLOOK), ==, n_before + 1);
  sent = g_uri_get_query (stage->uri);
  g_assert_nonnull (strstr (sent, "lat=44.26&lon=-72.58"));
  assert_says (find (GTK_WIDGET (window), is_a, "FrForecastView"), "MET Norway");
  /* What came is no step of undo: the step is the household's own. */
  g_assert_cmpstr (fr_book_peek_undo (fr_window_get_book (window))->label, ==, "edit-forecasting");

  /* Within the hour nothing more is asked, and the button says so. */
  dialog = open_dialog (window);
  g_assert_false (gtk_widget_get_sensitive (find (dialog, is_button, "_Ask Now")));
  assert_says (dialog, "It may be asked again after");
  gtk_window_close (GTK_WINDOW (dialog));
  settle ();
  act (window, "win.undo", NULL);
  g_assert_cmpstr (service_of (window), ==, "off");
  g_assert_cmpuint (stage->n_asked, ==, 1);
  close_window (window);
  stage_free (stage);
}

/* A service that refuses: the window says so, and lives on meanwhile. */
static void
test_refused (void)
{
  Stage *stage = stage_new (refuse);
  FrWindow *window = open_window ("service-refused.frostrun", TOOLS_DEMO);
  gint64 ticks[2] = { 0, 0 };
  guint ticking, n_before;

  set_place (window);
  settle ();
  n_before = n_of (window, FR_KIND_OUTLOOK);
  g_atomic_int_set (&n_internet, 0);
  turn_on (window, stage);
  ticks[0] = g_get_monotonic_time ();
  ticking = g_timeout_add (5, tick, ticks);
  wait_asked (stage, 1);
  g_source_remove (ticking);
  g_assert_cmpuint (n_of (window, FR_KIND_OUTLOOK), ==, n_before);
  assert_says (find (GTK_WIDGET (window), is_a, "FrForecastView"), "the service refuses to answer");
  g_test_message ("longest while between two ticks: %.0f ms", ticks[1] / 1000.0);
  close_window (window);
  stage_free (stage);
}

int
main (int argc, char **argv)
{
  g_autofree char *cache = g_dir_make_tmp ("frostrun-cache-XXXXXX", NULL);
  int result;

  g_setenv ("XDG_CACHE_HOME", cache, TRUE); /* before anybody asks for it */
  tools_init (&argc, &argv);
  g_test_add_func ("/weather-asked/on", test_on);
  g_test_add_func ("/weather-asked/refused", test_refused);
  result = tools_run ();
  stage_remove_folder (cache);
  return result;
}
