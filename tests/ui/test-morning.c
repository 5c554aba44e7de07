/* The morning after and the water test: what is typed shows at once what it means, keeping is one step, and
 * undo gives back every record of it. */
#include <math.h>
#include <string.h>

#include "domain/maths/water.h"
#include "models/tonight.h"
#include "ui/clock.h"
#include "ui/tonight-page.h"
#include "ui/water-test-dialog.h"
#include "window-tools.h"
#include "words/morning-words.h"

/* The demo's evening, kept, and the next morning. */
static FrWindow *
open_morning (const char *name)
{
  FrWindow *window;
  GtkWidget *page;

  g_assert_true (fr_clock_hold ("2026-03-19T18:30"));
  window = open_window (name, TOOLS_DEMO);
  act (window, "win.page", "tonight");
  page = find (GTK_WIDGET (window), is_a, "FrTonightPage");
  g_assert_true (
      gtk_widget_activate_action (fr_tonight_page_action (FR_TONIGHT_PAGE (page)), "tonight.keep", NULL));
  settle ();
  close_window (window);
  g_assert_true (fr_clock_hold ("2026-03-20T10:00"));
  window = open_window (name, TOOLS_AS_IT_IS);
  act (window, "win.page", "tonight");
  return window;
}

static GtkWidget *
open_dialog (FrWindow *window)
{
  GtkWidget *dialog;

  press (window, "_Write It Down…");
  for (guint i = 0; i < 100 && find_window ("FrMorningDialog") == NULL; i++)
    settle ();
  dialog = find_window ("FrMorningDialog");
  g_assert_nonnull (dialog);
  settle ();
  return dialog;
}

static void
assert_closed (const char *type_name)
{
  for (guint i = 0; i < 100 && find_window (type_name) != NULL; i++)
    settle ();
  g_assert_null (find_window (type_name));
}

static gboolean
can_keep (GtkWidget *dialog)
{
  return gtk_widget_get_sensitive (find (dialog, is_button, "_Keep"));
}

/* The comparison of the dialog, worked out apart from it. */
static FrMorningWords *
words_apart (FrWindow *window, double meter_kwh, FrMorningReport *report, double *ratio_before)
{
  FrBook *book = fr_window_get_book (window);
  g_autoptr (FrTonight) tonight = fr_tonight_new (book, fr_clock_now);
  const FrNight *night = fr_tonight_open_night (tonight);
  g_autoptr (FrRecord) found = NULL;
  const FrCooker *cooker;
  FrMorningWords *words;
  FrPlanKit kit;

  g_assert_nonnull (night);
  found = fr_record_copy (&night->record);
  ((FrNight *)found)->meter_kwh.value = meter_kwh;
  cooker = (const FrCooker *)fr_book_find (book, FR_KIND_COOKER, night->cooker);
  *ratio_before = cooker->heat_ratio.value;
  g_assert_true (fr_book_kit (book, cooker, &kit));
  g_assert_true (
      fr_morning_report ((FrNight *)found, &kit, fr_book_get_household (book)->altitude_m.value, report));
  words = fr_morning_words_new (report, (FrNight *)found, &kit, fr_tonight_get_say (tonight));
  g_assert_cmpuint (words->lines->len, >, 0);
  return words;
}

static void
test_comparison (void)
{
  FrWindow *window = open_morning ("comparison.frostrun");
  GtkWidget *dialog = open_dialog (window);
  g_autoptr (FrMorningWords) words = NULL;
  g_autofree char *nothing = label_texts (dialog), *texts = NULL;
  FrMorningReport report;
  double ratio_before;

  g_assert_false (can_keep (dialog)); /* nothing found yet */
  words = words_apart (window, 20.3, &report, &ratio_before);
  type_keys (row (dialog, "Electricity used"), "20.3");
  texts = label_texts (dialog); /* at once */
  g_assert_cmpstr (texts, !=, nothing);
  for (guint i = 0; i < words->lines->len; i++)
    {
      const FrMorningLine *line = words->lines->pdata[i];

      assert_shows (texts, line->what);
      assert_shows (texts, line->plan);
      assert_shows (texts, line->fact);
    }
  for (guint i = 0; i < words->whys->len; i++)
    assert_shows (texts, words->whys->pdata[i]);
  assert_shows (texts, words->learned);
  g_assert_true (can_keep (dialog));

  gtk_window_close (GTK_WINDOW (dialog));
  assert_closed ("FrMorningDialog");
  g_assert_null (fr_book_peek_undo (fr_window_get_book (window))); /* closing keeps nothing */
  close_window (window);
}

static void
test_keep_and_undo (void)
{
  FrWindow *window = open_morning ("morning.frostrun");
  FrBook *book = fr_window_get_book (window);
  GtkWidget *dialog = open_dialog (window);
  g_autoptr (GPtrArray) before = snapshot (book), after = NULL, again = NULL;
  guint rows_before = diary_rows (fr_book_get_path (book)), changed = 0;
  FrMorningReport report;
  double ratio_before;
  g_autoptr (FrMorningWords) words = words_apart (window, 20.3, &report, &ratio_before);
  const FrChange *done;
  const FrNight *night = NULL;

  type_keys (row (dialog, "Electricity used"), "20.3");
  press (dialog, "_Keep");
  assert_closed ("FrMorningDialog");
  done = fr_book_peek_undo (book);
  g_assert_nonnull (done);
  g_assert_cmpstr (done->label, ==, "morning-after");
  g_assert_cmpuint (diary_rows (fr_book_get_path (book)), ==, rows_before + 1);

  after = snapshot (book);
  g_assert_cmpuint (before->len, ==, after->len);
  for (guint i = 0; i < before->len; i++)
    if (!fr_record_equal (before->pdata[i], after->pdata[i]))
      {
        const FrRecord *record = after->pdata[i];

        changed++;
        g_assert_true (record->kind->id == FR_KIND_NIGHT || record->kind->id == FR_KIND_COOKER);
        if (record->kind->id == FR_KIND_NIGHT)
          night = (const FrNight *)record;
        else
          g_assert_cmpfloat (((const FrCooker *)record)->heat_ratio.value, !=, ratio_before);
      }
  g_assert_cmpuint (changed, ==, 2);
  g_assert_cmpfloat_with_epsilon (night->meter_kwh.value, 20.3, 1e-9);
  g_assert_cmpstr (night->meter_kwh.typed, ==, "20.3");
  g_assert_null (find (GTK_WIDGET (window), is_button, "_Write It Down…")); /* it is written down */

  act (window, "win.undo", NULL);
  again = snapshot (book);
  assert_same (before, again);
  g_assert_nonnull (find (GTK_WIDGET (window), is_button, "_Write It Down…"));
  close_window (window);
}

/* What Escape took back is not kept. */
static void
test_escape (void)
{
  FrWindow *window = open_morning ("back.frostrun");
  GtkWidget *dialog = open_dialog (window);
  FrEntryRow *meter = row (dialog, "Electricity used");

  type_keys (meter, "20.3");
  g_assert_true (can_keep (dialog));
  g_assert_true (press_key (find (GTK_WIDGET (meter), is_a, "GtkText"), GDK_KEY_Escape)
                 || press_key (GTK_WIDGET (meter), GDK_KEY_Escape));
  g_assert_cmpstr (fr_entry_row_get_text (meter), ==, "");
  g_assert_false (can_keep (dialog));

  type_keys (meter, "much");
  fr_entry_row_finish (meter);
  g_assert_nonnull (fr_entry_row_get_problem (meter));
  g_assert_false (can_keep (dialog));
  gtk_window_close (GTK_WINDOW (dialog));
  assert_closed ("FrMorningDialog");
  close_window (window);
}

/* --- the water test --- */

static void
test_water (void)
{
  FrWindow *window;
  FrBook *book;
  GtkWidget *dialog;
  const FrCooker *cooker;
  g_autoptr (GPtrArray) before = NULL, again = NULL;
  g_autofree char *texts = NULL, *shown = NULL;
  FrSay say;
  FrBoilTable table;
  FrPlanKit kit;
  FrCalibration found;
  FrSeenRatio each;
  guint which;
  /* 420 g in ten minutes at 1800 W; two weighings, 5 g each (as the dialog takes a kitchen's scale). */
  FrSeen seen = { .kind = FR_SEEN_WEIGHT_LOST,
                  .value = 0.42,
                  .sd = 0.005 * G_SQRT2,
                  .span_s = 600,
                  .power_w = 1800,
                  .air_c = 15,
                  .from_depth_m = NAN };
  double by_hand;

  g_assert_true (fr_clock_hold ("2026-03-19T18:30"));
  window = open_window ("water.frostrun", TOOLS_DEMO);
  book = fr_window_get_book (window);
  before = snapshot (book);
  cooker = (const FrCooker *)fr_book_find (book, FR_KIND_COOKER, 1);
  g_assert_true (fr_book_kit (book, cooker, &kit));
  g_assert_true (fr_boil_table_init (&table, fr_pressure_from_altitude_pa (250)));
  g_assert_cmpint (fr_calibrate (&table, &kit.vessel, kit.wall_w_per_k, &seen, 1, &each, &found, &which), ==,
                   FR_CALIBRATE_OK);
  /* Heat of evaporation at 250 m (98.4 kPa) 2258.6 kJ/kg: IAPWS-IF97; this cooker's ratio holds the wall. */
  by_hand = 0.42 * 2258.6e3 / (1800 * 600);
  g_assert_cmpfloat_with_epsilon (found.heat_ratio, by_hand, 0.001);

  fr_window_show_first (window, FR_KIND_COOKER);
  settle ();
  press (window, "_Water Test…");
  for (guint i = 0; i < 100 && find_window ("FrWaterTestDialog") == NULL; i++)
    settle ();
  dialog = find_window ("FrWaterTestDialog");
  g_assert_nonnull (dialog);
  settle ();
  g_assert_false (can_keep (dialog));
  type_keys (row (dialog, "Boiling for"), "10 min");
  type_keys (row (dialog, "Weight lost"), "0.42 kg");
  texts = label_texts (dialog);
  say = (FrSay){ .units = *fr_book_get_units (book) };
  shown = fr_say_number (&say, 100 * found.heat_ratio, 1);
  assert_shows (texts, shown);
  g_assert_true (can_keep (dialog));
  press (dialog, "_Keep");
  assert_closed ("FrWaterTestDialog");

  g_assert_cmpstr (fr_book_peek_undo (book)->label, ==, "water-test");
  cooker = (const FrCooker *)fr_book_find (book, FR_KIND_COOKER, 1);
  g_assert_cmpfloat_with_epsilon (cooker->heat_ratio.value, found.heat_ratio, 1e-9);
  g_assert_cmpfloat_with_epsilon (cooker->heat_ratio_sd.value, found.heat_ratio_sd, 1e-9);
  act (window, "win.undo", NULL);
  again = snapshot (book);
  assert_same (before, again);
  g_assert_null (fr_book_peek_undo (book));
  close_window (window);
}

int
main (int argc, char **argv)
{
  tools_init (&argc, &argv);
  g_test_add_func ("/morning/comparison", test_comparison);
  g_test_add_func ("/morning/keep-and-undo", test_keep_and_undo);
  g_test_add_func ("/morning/escape", test_escape);
  g_test_add_func ("/morning/water-test", test_water);
  return tools_run ();
}
