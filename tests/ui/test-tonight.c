/* The first page on the demo's book with the clock held: it says what the words say, follows every key,
 * writes nothing until a night is kept, and gives everything back. */
#include <math.h>
#include <string.h>

#include "ui/clock.h"
#include "ui/season-page.h"
#include "ui/tonight-page.h"
#include "window-tools.h"
#include "models/forecast.h"
#include "models/tonight.h"
#include "words/trace-words.h"

/* The demo's evening, as demo/start holds it. */
#define EVENING "2026-03-19T18:30"

static FrTonightPage *
page_of (FrWindow *window)
{
  GtkWidget *page = find (GTK_WIDGET (window), is_a, "FrTonightPage");

  g_assert_nonnull (page);
  return FR_TONIGHT_PAGE (page);
}

static FrWindow *
open_demo (const char *name)
{
  FrWindow *window;

  g_assert_true (fr_clock_hold (EVENING));
  window = open_window (name, TOOLS_DEMO);
  act (window, "win.page", "tonight");
  return window;
}

/* What the forecast says on the page comes from a thread: waits until it is there. */
static void
let_forecast_come (FrWindow *window)
{
  GtkWidget *season;
  FrForecaster *forecaster;

  act (window, "win.page", "season");
  season = find (GTK_WIDGET (window), is_a, "FrSeasonPage");
  g_assert_nonnull (season);
  forecaster = fr_season_page_get_forecaster (FR_SEASON_PAGE (season));
  fr_forecaster_get (forecaster);
  while (fr_forecaster_is_pending (forecaster))
    g_main_context_iteration (NULL, TRUE);
  settle ();
  act (window, "win.page", "tonight");
}

/* The same evening worked out apart from the page. */
static FrTonight *
apart (FrWindow *window)
{
  return fr_tonight_new (fr_window_get_book (window), fr_clock_now);
}

static void
type_apart (FrTonight *tonight, FrTonightAmount amount, const char *text)
{
  FrQuantityProblem problem;
  gsize at;

  g_assert_true (fr_tonight_type_amount (tonight, amount, text, &problem, &at));
}

static void
assert_shows_figure (const char *texts, const FrFigure *figure, gboolean with_note)
{
  g_autofree char *value = figure->unit[0] != '\0' ? g_strdup_printf ("%s %s", figure->number, figure->unit)
                                                   : g_strdup (figure->number);

  assert_shows (texts, figure->label);
  assert_shows (texts, value);
  if (with_note && figure->note != NULL)
    assert_shows (texts, figure->note);
}

/* Every text of the words stands on the page. */
static void
assert_says (FrWindow *window, const FrPlanWords *words)
{
  g_autofree char *texts = label_texts (GTK_WIDGET (page_of (window)));
  g_autofree char *sentence = fr_say_plain (words->sentence);

  assert_shows (texts, sentence);
  assert_shows (texts, words->reason);
  if (words->range != NULL)
    assert_shows (texts, words->range);
  for (guint i = 0; i < words->figures->len; i++)
    assert_shows_figure (texts, words->figures->pdata[i], TRUE);
  for (guint i = 0; i < words->cookers->len; i++)
    {
      const FrCookerWords *cooker = words->cookers->pdata[i];
      g_autofree char *pour = fr_say_plain (cooker->pour);

      assert_shows (texts, cooker->name);
      assert_shows (texts, pour);
      assert_shows (texts, cooker->when);
    }
  for (guint i = 0; i < words->rest->len; i++)
    assert_shows (texts, words->rest->pdata[i]);
  for (guint i = 0; i < words->costs->len; i++)
    {
      const FrCostWords *cost = words->costs->pdata[i];

      assert_shows (texts, cost->label);
      assert_shows (texts, cost->cost);
    }
  if (words->break_even != NULL)
    assert_shows (texts, words->break_even);
  if (words->price_note != NULL)
    assert_shows (texts, words->price_note);
  for (guint i = 0; i < words->feeds->len; i++)
    {
      const FrFeedWords *feed = words->feeds->pdata[i];

      assert_shows_figure (texts, feed->setting, FALSE);
      for (guint k = 0; k < feed->lines->len; k++)
        assert_shows_figure (texts, feed->lines->pdata[k], FALSE);
      for (guint k = 0; k < feed->warnings->len; k++)
        assert_shows (texts, feed->warnings->pdata[k]);
    }
  for (guint i = 0; i < words->cautions->len; i++)
    assert_shows (texts, ((const FrCautionWords *)words->cautions->pdata[i])->text);
}

/* Whether something bound to that action can be pressed now: a probe button in the page asks as any other
 * would. */
static gboolean
enabled (FrWindow *window, const char *action)
{
  g_autofree char *name = g_strconcat ("tonight.", action, NULL);
  GtkWidget *box = fr_tonight_page_action (page_of (window)), *probe = gtk_button_new ();
  gboolean sensitive;

  gtk_box_append (GTK_BOX (box), probe);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (probe), name);
  sensitive = gtk_widget_get_sensitive (probe);
  gtk_box_remove (GTK_BOX (box), probe);
  return sensitive;
}

static void
test_same_words (void)
{
  FrWindow *window = open_demo ("words.frostrun");
  g_autoptr (FrTonight) tonight = apart (window);
  const FrPlanInput *input = fr_tonight_get_input (tonight);
  g_autoptr (FrPlan) plan = fr_plan_new (input);
  g_autoptr (FrPlanWords) words = fr_plan_words_new (plan, input, fr_tonight_get_say (tonight));

  g_assert_cmpint (plan->status, ==, FR_PLAN_OK);
  g_assert_cmpuint (words->figures->len, ==, 5);
  g_assert_cmpuint (words->costs->len, >, 1);
  g_assert_cmpuint (words->cautions->len, >, 0);
  assert_says (window, words);
  g_clear_object (&tonight);
  close_window (window);
}

/* Each key gives another plan at once; nothing of it reaches the book or its file. */
static void
test_typing (void)
{
  static const char *const so_far[] = { "2", "25", "25 ", "25 l" };
  FrWindow *window = open_demo ("typing.frostrun");
  FrBook *book = fr_window_get_book (window);
  g_autofree char *path = g_strdup (fr_book_get_path (book));
  g_autoptr (GPtrArray) before = snapshot (book), after = NULL;
  g_autofree char *file_before = NULL, *file_after = NULL, *at_rest = NULL;
  guint rows_before = diary_rows (path);
  gsize length_before, length_after;
  FrTonight *tonight = apart (window);

  let_forecast_come (window);
  at_rest = label_texts (GTK_WIDGET (page_of (window)));
  g_assert_true (g_file_get_contents (path, &file_before, &length_before, NULL));
  for (guint i = 0; i < G_N_ELEMENTS (so_far); i++)
    {
      type_keys (row (window, "Amount"), so_far[i]);
      type_apart (tonight, FR_TONIGHT_SAP_L, so_far[i]);
      assert_says (window, fr_tonight_get_words (tonight)); /* before anything is left to settle */
    }
  {
    g_autofree char *texts = label_texts (GTK_WIDGET (page_of (window)));

    g_assert_cmpstr (texts, !=, at_rest);
  }
  fr_entry_row_finish (row (window, "Amount"));
  settle ();
  assert_says (window, fr_tonight_get_words (tonight));
  g_object_unref (tonight);

  after = snapshot (book);
  assert_same (before, after);
  g_assert_null (fr_book_peek_undo (book));
  g_assert_cmpuint (diary_rows (path), ==, rows_before);
  g_assert_true (g_file_get_contents (path, &file_after, &length_after, NULL));
  g_assert_cmpmem (file_before, length_before, file_after, length_after);
  close_window (window);
}

static void
test_unreadable (void)
{
  FrWindow *window = open_demo ("unreadable.frostrun");
  g_autoptr (FrTonight) tonight = apart (window);
  FrEntryRow *amount = row (window, "Amount");
  g_autofree char *rest = g_strdup (fr_entry_row_get_text (amount));
  g_autofree char *edit = NULL;

  fr_entry_row_grab (amount);
  edit = g_strdup (fr_entry_row_get_text (amount));
  type_keys (amount, "plenty");
  g_assert_null (fr_entry_row_get_problem (amount)); /* half a word is no mistake yet */
  fr_entry_row_finish (amount);
  settle ();
  g_assert_nonnull (strstr (fr_entry_row_get_problem (amount), "“plenty” is not a number"));
  g_assert_cmpstr (fr_entry_row_get_text (amount), ==, "plenty");
  {
    g_autofree char *texts = label_texts (GTK_WIDGET (amount));

    assert_shows (texts, fr_entry_row_get_problem (amount));
  }
  assert_says (window, fr_tonight_get_words (tonight)); /* the plan stands */

  /* Escape gives back the text, the problem and the plan. */
  g_assert_true (press_key (find (GTK_WIDGET (amount), is_a, "GtkText"), GDK_KEY_Escape)
                 || press_key (GTK_WIDGET (amount), GDK_KEY_Escape));
  settle ();
  g_assert_null (fr_entry_row_get_problem (amount));
  g_assert_cmpstr (fr_entry_row_get_text (amount), ==, edit);
  fr_entry_row_grab (row (window, "Sweetness"));
  settle ();
  g_assert_cmpstr (fr_entry_row_get_text (amount), ==, rest);
  g_clear_object (&tonight);
  close_window (window);
}

/* Escape in the middle of a readable entry takes the plan back too. */
static void
test_escape (void)
{
  FrWindow *window = open_demo ("escape.frostrun");
  g_autoptr (FrTonight) tonight = apart (window);
  FrEntryRow *amount = row (window, "Amount");
  g_autofree char *rest = g_strdup (fr_entry_row_get_text (amount));

  type_keys (amount, "9");
  g_assert_true (press_key (find (GTK_WIDGET (amount), is_a, "GtkText"), GDK_KEY_Escape)
                 || press_key (GTK_WIDGET (amount), GDK_KEY_Escape));
  fr_entry_row_grab (row (window, "Sweetness"));
  settle ();
  g_assert_cmpstr (fr_entry_row_get_text (amount), ==, rest);
  assert_says (window, fr_tonight_get_words (tonight));
  g_clear_object (&tonight);
  close_window (window);
}

/* A window that gets narrow and wide again keeps what is being typed; a warning would end the test. */
static void
test_narrow_and_wide (void)
{
  static const int widths_px[] = { 1280, 700, 1280, 800, 1280 };
  FrWindow *window = open_demo ("narrow.frostrun");
  FrEntryRow *amount = row (window, "Amount"), *air;
  g_autoptr (FrTonight) tonight = apart (window);
  guint n_narrow = 0;

  type_keys (row (window, "Air at the pan"), "cold");
  fr_entry_row_finish (row (window, "Air at the pan"));
  type_apart (tonight, FR_TONIGHT_SAP_L, "17,5");
  type_keys (amount, "17,5");
  for (guint i = 0; i < G_N_ELEMENTS (widths_px); i++)
    {
      gtk_window_set_default_size (GTK_WINDOW (window), widths_px[i], 700);
      for (guint k = 0; k < 20; k++)
        settle ();
      /* Below 900 px the groups are folded rows. */
      g_assert_cmpint (gtk_widget_get_ancestor (GTK_WIDGET (amount), ADW_TYPE_EXPANDER_ROW) != NULL, ==,
                       gtk_widget_get_width (GTK_WIDGET (page_of (window))) < 900);
      n_narrow += gtk_widget_get_width (GTK_WIDGET (page_of (window))) < 900;
      g_assert_true (g_str_has_prefix (fr_entry_row_get_text (amount), "17"));
      assert_says (window, fr_tonight_get_words (tonight));
    }
  g_assert_null (gtk_widget_get_ancestor (GTK_WIDGET (amount), ADW_TYPE_EXPANDER_ROW));
  g_assert_cmpuint (n_narrow, ==, 2);
  air = row (window, "Air at the pan");
  g_assert_cmpstr (fr_entry_row_get_text (air), ==, "cold");
  g_assert_nonnull (fr_entry_row_get_problem (air));
  g_clear_object (&tonight);
  close_window (window);
}

static gboolean
is_nth_switch (GtkWidget *widget, const char *name)
{
  GtkWidget *in = gtk_widget_get_ancestor (widget, ADW_TYPE_ACTION_ROW);

  return GTK_IS_SWITCH (widget) && in != NULL
         && g_strcmp0 (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (in)), name) == 0;
}

static void
turn (FrWindow *window, const char *cooker, gboolean on)
{
  GtkWidget *found = find (GTK_WIDGET (page_of (window)), is_nth_switch, cooker);

  g_assert_nonnull (found);
  g_assert_cmpint (gtk_switch_get_active (GTK_SWITCH (found)), ==, !on);
  gtk_switch_set_active (GTK_SWITCH (found), on);
  settle ();
}

static void
test_cookers (void)
{
  FrWindow *window = open_demo ("cookers.frostrun");
  g_autoptr (FrTonight) tonight = apart (window);
  g_autofree char *alone = NULL;

  let_forecast_come (window);
  alone = label_texts (GTK_WIDGET (page_of (window)));
  turn (window, "kettle base", TRUE);
  fr_tonight_set_cooker_on (tonight, 1, TRUE);
  g_assert_cmpuint (fr_tonight_get_words (tonight)->cookers->len, ==, 2);
  assert_says (window, fr_tonight_get_words (tonight));
  turn (window, "kettle base", FALSE);
  {
    g_autofree char *again = label_texts (GTK_WIDGET (page_of (window)));

    g_assert_cmpstr (again, ==, alone);
  }

  /* None on: a sentence, nothing to keep, print or ring for. */
  g_assert_true (enabled (window, "keep"));
  g_assert_true (enabled (window, "print"));
  g_assert_true (enabled (window, "alarms"));
  turn (window, "hot plate", FALSE);
  fr_tonight_set_cooker_on (tonight, 1, FALSE);
  fr_tonight_set_cooker_on (tonight, 0, FALSE);
  g_assert_cmpint (fr_tonight_get_plan (tonight)->status, ==, FR_PLAN_NO_KIT);
  assert_says (window, fr_tonight_get_words (tonight));
  g_assert_false (enabled (window, "keep"));
  g_assert_false (enabled (window, "print"));
  g_assert_false (enabled (window, "alarms"));
  turn (window, "hot plate", TRUE);
  g_assert_true (enabled (window, "keep"));
  g_assert_false (enabled (window, "morning")); /* the demo's one night has its findings */
  g_clear_object (&tonight);
  close_window (window);
}

/* What the answer and the cards say. */
static char *
answer_texts (FrWindow *window)
{
  g_autofree char *answer = label_texts (find (GTK_WIDGET (window), is_a, "FrTonightAnswer"));
  g_autofree char *cards = label_texts (find (GTK_WIDGET (window), is_a, "FrTonightCards"));

  return g_strconcat (answer, cards, NULL);
}

static void
test_keep (void)
{
  FrWindow *window = open_demo ("keep.frostrun");
  FrBook *book = fr_window_get_book (window);
  const char *path = fr_book_get_path (book);
  FrRecordList *nights = fr_book_get_list (book, FR_KIND_NIGHT);
  guint rows_before = diary_rows (path), nights_before = fr_record_list_get_size (nights);
  g_autoptr (GPtrArray) before = snapshot (book), after = NULL, again = NULL;
  g_autofree char *texts_before = NULL, *texts_after = NULL;
  GtkWidget *action = fr_tonight_page_action (page_of (window));

  let_forecast_come (window);
  texts_before = answer_texts (window);
  g_assert_true (gtk_widget_activate_action (action, "tonight.keep", NULL));
  settle ();
  g_assert_cmpuint (fr_record_list_get_size (nights), ==, nights_before + 1);
  g_assert_cmpuint (diary_rows (path), ==, rows_before + 1);
  g_assert_nonnull (fr_book_peek_undo (book));
  g_assert_false (enabled (window, "keep")); /* it is kept */
  after = snapshot (book);
  /* The night, and what it takes from each of the two containers. */
  g_assert_cmpuint (after->len, ==, before->len + 3);

  act (window, "win.undo", NULL);
  again = snapshot (book);
  assert_same (before, again);
  g_assert_cmpuint (diary_rows (path), ==, rows_before + 2); /* the diary only grows */
  texts_after = answer_texts (window);
  g_assert_cmpstr (texts_after, ==, texts_before);
  close_window (window);
}

/* A typed amount is kept, even when Enter was not pressed. */
static void
test_keep_what_is_typed (void)
{
  FrWindow *window = open_demo ("typed.frostrun");
  FrBook *book = fr_window_get_book (window);
  FrRecordList *nights = fr_book_get_list (book, FR_KIND_NIGHT);
  FrTonight *tonight = apart (window);
  const FrNight *night;

  type_apart (tonight, FR_TONIGHT_SAP_L, "12");
  type_keys (row (window, "Amount"), "12");
  g_assert_true (
      gtk_widget_activate_action (fr_tonight_page_action (page_of (window)), "tonight.keep", NULL));
  settle ();
  night = (const FrNight *)fr_record_list_get (nights, fr_record_list_get_size (nights) - 1);
  g_assert_cmpfloat (night->pan_l.value + night->bucket_l.value, <=, 12 + 1e-9);
  g_assert_cmpfloat (night->pan_l.value + night->bucket_l.value, >, 11);
  g_object_unref (tonight);
  close_window (window);
}

static void
assert_reads (FrWindow *window, FrTonight *tonight, double time_s)
{
  g_autofree char *texts = label_texts (GTK_WIDGET (page_of (window)));
  g_autofree char *sentence = fr_trace_read_out (
      fr_tonight_get_plan (tonight), fr_tonight_get_input (tonight), 0, time_s, fr_tonight_get_say (tonight));

  g_assert_nonnull (sentence);
  assert_shows (texts, sentence);
}

static void
test_trace_keys (void)
{
  FrWindow *window = open_demo ("trace.frostrun");
  GtkWidget *trace = find (GTK_WIDGET (window), is_a, "FrNightView");
  g_autoptr (FrTonight) tonight = apart (window);
  double run_s = fr_tonight_get_plan (tonight)->shares[0].run.time_s;

  g_assert_nonnull (trace);
  g_assert_true (gtk_widget_get_focusable (trace));
  g_assert_false (press_key (trace, GDK_KEY_Escape)); /* nothing to let go of */
  g_assert_true (press_key (trace, GDK_KEY_Right));
  assert_reads (window, tonight, 600);
  g_assert_true (press_key (trace, GDK_KEY_Page_Down));
  assert_reads (window, tonight, 4200);
  g_assert_true (press_key (trace, GDK_KEY_Left));
  assert_reads (window, tonight, 3600);
  g_assert_true (press_key (trace, GDK_KEY_Page_Up));
  assert_reads (window, tonight, 0);
  g_assert_true (press_key (trace, GDK_KEY_End));
  assert_reads (window, tonight, run_s);
  g_assert_true (press_key (trace, GDK_KEY_Home));
  assert_reads (window, tonight, 0);
  g_assert_false (press_key (trace, GDK_KEY_Tab));
  g_assert_true (press_key (trace, GDK_KEY_Escape));
  {
    g_autofree char *texts = label_texts (GTK_WIDGET (page_of (window)));

    assert_shows (texts, "walk through it with the arrow keys");
  }
  for (guint i = 0; i < 400; i++) /* past the end: it stops there */
    g_assert_true (press_key (trace, GDK_KEY_Right));
  g_clear_object (&tonight);
  close_window (window);
}

static void
assert_empty (FrWindow *window, const char *title)
{
  g_autofree char *texts = NULL;

  g_assert_nonnull (find (GTK_WIDGET (window), is_label, title));
  texts = label_texts (fr_tonight_page_action (page_of (window)));
  g_assert_false (gtk_widget_get_sensitive (fr_tonight_page_action (page_of (window))));
}

static void
test_no_household (void)
{
  FrWindow *window = open_window ("none.frostrun", TOOLS_AS_IT_IS);

  act (window, "win.leave-set-up", NULL);
  act (window, "win.page", "tonight");
  assert_empty (window, "Nothing to plan with yet");
  press (window, "Set Up");
  g_assert_nonnull (find (GTK_WIDGET (window), is_row, "Name of this book"));
  close_window (window);
}

/* Everything of a kind is put away. */
static void
put_away (FrBook *book, FrKindId kind)
{
  g_autoptr (FrChange) change = fr_change_new ("archive", NULL);
  g_autoptr (GError) error = NULL;
  FrRecordList *list = fr_book_get_list (book, kind);

  for (guint i = 0; i < fr_record_list_get_size (list); i++)
    {
      g_autoptr (FrRecord) after = fr_record_copy (fr_record_list_get (list, i));

      after->archived = TRUE;
      fr_change_add (change, fr_record_list_get (list, i), after);
    }
  g_assert_true (fr_book_apply (book, change, &error));
  g_assert_no_error (error);
  settle ();
}

static void
test_no_kit (void)
{
  FrWindow *window = open_demo ("kit.frostrun");

  put_away (fr_window_get_book (window), FR_KIND_COOKER);
  g_assert_nonnull (find (GTK_WIDGET (window), is_label, "No pan and cooker yet"));
  act (window, "win.undo", NULL);
  g_assert_null (find (GTK_WIDGET (window), is_label, "No pan and cooker yet"));
  put_away (fr_window_get_book (window), FR_KIND_VESSEL);
  g_assert_nonnull (find (GTK_WIDGET (window), is_label, "No pan and cooker yet"));
  press (window, "Go to Kit and Prices");
  g_assert_cmpstr (fr_window_get_page (window), ==, "kit");
  close_window (window);
}

static void
test_unknown_zone (void)
{
  FrWindow *window = open_demo ("zone.frostrun");
  FrBook *book = fr_window_get_book (window);
  g_autoptr (FrChange) change = fr_change_new ("edit", NULL);
  g_autoptr (FrRecord) after = fr_record_copy (&fr_book_get_household (book)->record);
  g_autoptr (GError) error = NULL;

  g_free (((FrHousehold *)after)->zone);
  ((FrHousehold *)after)->zone = g_strdup ("Nowhere/Special");
  fr_change_add (change, &fr_book_get_household (book)->record, after);
  g_assert_true (fr_book_apply (book, change, &error));
  g_assert_no_error (error);
  settle ();
  assert_empty (window, "The time zone is not known");
  act (window, "win.undo", NULL);
  g_assert_null (find (GTK_WIDGET (window), is_label, "The time zone is not known"));
  g_assert_true (enabled (window, "keep"));
  close_window (window);
}

int
main (int argc, char **argv)
{
  tools_init (&argc, &argv);
  g_test_add_func ("/tonight-page/same-words", test_same_words);
  g_test_add_func ("/tonight-page/typing", test_typing);
  g_test_add_func ("/tonight-page/unreadable", test_unreadable);
  g_test_add_func ("/tonight-page/escape", test_escape);
  g_test_add_func ("/tonight-page/narrow-and-wide", test_narrow_and_wide);
  g_test_add_func ("/tonight-page/cookers", test_cookers);
  g_test_add_func ("/tonight-page/keep", test_keep);
  g_test_add_func ("/tonight-page/keep-what-is-typed", test_keep_what_is_typed);
  g_test_add_func ("/tonight-page/trace-keys", test_trace_keys);
  g_test_add_func ("/tonight-page/no-household", test_no_household);
  g_test_add_func ("/tonight-page/no-kit", test_no_kit);
  g_test_add_func ("/tonight-page/unknown-zone", test_unknown_zone);
  return tools_run ();
}
