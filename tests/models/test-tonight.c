/* Tonight's model on the demo's book: what is typed overlays what the book says, nothing is written until a
 * plan is kept, and a kept night can be taken back. */
#include <math.h>
#include <string.h>

#include "formats/book-json.h"
#include "formats/json-text.h"
#include "models/tonight.h"

/* The demo's evening, 18:30 in Toronto on 19 March 2026, is 22:30 UTC (zoneinfo: EDT, −4 h). */
static gint64
demo_clock (const FrZoneTable *zone)
{
  return 1773959400;
}

static FrBook *
demo_book (void)
{
  g_autofree char *path = g_build_filename (g_getenv ("G_TEST_SRCDIR"), "..", "demo", "book.json", NULL);
  g_autofree char *text = NULL;
  g_autoptr (JsonNode) root = NULL;
  g_autoptr (GPtrArray) records = NULL;
  g_autoptr (FrChange) change = fr_change_new ("demo-book", NULL);
  g_autoptr (GError) error = NULL;
  FrBook *book = fr_book_open (":memory:", &error);
  gsize length;

  g_assert_no_error (error);
  g_file_get_contents (path, &text, &length, &error);
  g_assert_no_error (error);
  root = fr_json_parse (text, length, &error);
  g_assert_no_error (error);
  records = fr_book_from_json (root, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < records->len; i++)
    fr_change_add (change, NULL, records->pdata[i]);
  fr_book_apply (book, change, &error);
  g_assert_no_error (error);
  return book;
}

static void
type (FrTonight *tonight, FrTonightAmount amount, const char *text)
{
  FrQuantityProblem problem;
  gsize at;

  g_assert_true (fr_tonight_type_amount (tonight, amount, text, &problem, &at));
}

static void
test_from_book (void)
{
  g_autoptr (FrBook) book = demo_book ();
  g_autoptr (FrTonight) tonight = fr_tonight_new (book, demo_clock);
  const FrPlanInput *input = fr_tonight_get_input (tonight);

  g_assert_true (fr_tonight_is_ready (tonight));
  g_assert_cmpfloat_with_epsilon (input->sap_l, 31, 1e-4); /* 13 + 18 L; mixed, litres do not add up to the last drop */
  g_assert_cmpint (fr_tonight_get_plan (tonight)->status, ==, FR_PLAN_OK);
  g_assert_cmpuint (fr_tonight_get_n_cookers (tonight), ==, 2);
  g_assert_false (fr_tonight_get_cooker (tonight, 0)->off);
  g_assert_true (fr_tonight_get_cooker (tonight, 1)->off); /* over its circuit */
  g_assert_nonnull (fr_tonight_get_words (tonight)->sentence);
}

static guint n_changed;

static void
count_cb (FrTonight *tonight)
{
  n_changed++;
}

static void
test_typing (void)
{
  g_autoptr (FrBook) book = demo_book ();
  g_autoptr (FrTonight) tonight = fr_tonight_new (book, demo_clock);
  double before = fr_tonight_get_plan (tonight)->used_l;
  const char *typed;
  gboolean changed;
  FrQuantityProblem problem;
  gsize at;

  n_changed = 0;
  g_signal_connect (tonight, "changed", G_CALLBACK (count_cb), NULL);
  type (tonight, FR_TONIGHT_SAP_L, "1 bucket"); /* the household's own, 11 L */
  g_assert_cmpuint (n_changed, ==, 1);
  g_assert_cmpfloat_with_epsilon (fr_tonight_get_amount (tonight, FR_TONIGHT_SAP_L, &typed, &changed), 11,
                                  1e-9);
  g_assert_cmpstr (typed, ==, "1 bucket");
  g_assert_true (changed);
  g_assert_cmpfloat (fr_tonight_get_plan (tonight)->used_l, <=, 11 + 1e-9);
  /* What cannot be read changes nothing. */
  g_assert_false (fr_tonight_type_amount (tonight, FR_TONIGHT_SAP_L, "eleven", &problem, &at));
  g_assert_cmpuint (n_changed, ==, 1);
  g_assert_cmpfloat_with_epsilon (fr_tonight_get_input (tonight)->sap_l, 11, 1e-9);
  type (tonight, FR_TONIGHT_SAP_L, "");
  g_assert_cmpfloat_with_epsilon (fr_tonight_get_plan (tonight)->used_l, before, 1e-9);
  fr_tonight_get_amount (tonight, FR_TONIGHT_SAP_L, &typed, &changed);
  g_assert_false (changed);
}

static void
test_times (void)
{
  g_autoptr (FrBook) book = demo_book ();
  g_autoptr (FrTonight) tonight = fr_tonight_new (book, demo_clock);
  g_autofree char *sentence = NULL;
  const char *const texts[] = { "20:00", "8 pm", "20.00", "8:00 PM", "2000", "20" };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      gboolean changed;

      g_assert_true (fr_tonight_type_time (tonight, FR_TONIGHT_START, texts[i], &sentence));
      g_assert_cmpint (fr_tonight_get_time (tonight, FR_TONIGHT_START, &changed), ==,
                       1773964800); /* 00:00 UTC */
      g_assert_true (changed);
    }
  g_assert_false (fr_tonight_type_time (tonight, FR_TONIGHT_START, "late", &sentence));
  g_assert_nonnull (sentence);
  g_clear_pointer (&sentence, g_free);
  g_assert_false (fr_tonight_type_time (tonight, FR_TONIGHT_OFF_BY, "25:00", &sentence));
}

static gint64
spring_clock (const FrZoneTable *zone)
{
  return 1772917200; /* 7 March 2026, 16:00 in Toronto; the clock jumps that night */
}

static void
test_gap (void)
{
  g_autoptr (FrBook) book = demo_book ();
  g_autoptr (FrTonight) tonight = fr_tonight_new (book, spring_clock);
  g_autofree char *sentence = NULL;

  g_assert_false (fr_tonight_type_time (tonight, FR_TONIGHT_OFF_BY, "02:30", &sentence));
  g_assert_nonnull (strstr (sentence, "01:59"));
  g_assert_nonnull (strstr (sentence, "03:00"));
}

static void
test_cookers (void)
{
  g_autoptr (FrBook) book = demo_book ();
  g_autoptr (FrTonight) tonight = fr_tonight_new (book, demo_clock);
  gboolean danger = FALSE;

  g_assert_null (fr_tonight_get_words (tonight)->danger);
  fr_tonight_set_cooker_on (tonight, 1, TRUE);
  for (guint i = 0; i < fr_tonight_get_words (tonight)->cautions->len; i++)
    {
      const FrCautionWords *caution = fr_tonight_get_words (tonight)->cautions->pdata[i];

      danger
          = danger || (caution->code == FR_CAUTION_CIRCUIT_OVER && caution->severity == FR_SEVERITY_DANGER);
    }
  g_assert_nonnull (fr_tonight_get_words (tonight)->danger); /* and it stands beside the sentence */
  g_assert_nonnull (strstr (fr_tonight_get_words (tonight)->danger, "12.0\u00a0A"));
  g_assert_true (danger);
  fr_tonight_set_cooker_on (tonight, 0, FALSE);
  fr_tonight_set_cooker_on (tonight, 1, FALSE);
  g_assert_cmpint (fr_tonight_get_plan (tonight)->status, ==, FR_PLAN_NO_KIT);
}

static void
test_keep (void)
{
  g_autoptr (FrBook) book = demo_book ();
  g_autoptr (FrTonight) tonight = fr_tonight_new (book, demo_clock);
  guint before = fr_record_list_get_size (fr_book_get_list (book, FR_KIND_NIGHT));
  double used_l = fr_tonight_get_plan (tonight)->used_l;
  gint64 end_utc = fr_tonight_get_plan (tonight)->end_utc;
  g_autoptr (FrChange) change = NULL;
  g_autoptr (GError) error = NULL;

  change = fr_tonight_keep (tonight, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (fr_record_list_get_size (fr_book_get_list (book, FR_KIND_NIGHT)), ==,
                    before); /* not written yet */
  g_assert_true (fr_book_apply (book, change, &error));
  g_assert_cmpuint (fr_record_list_get_size (fr_book_get_list (book, FR_KIND_NIGHT)), ==, before + 1);
  /* From now on the page shows the night as it was kept … */
  g_assert_true (fr_tonight_is_kept (tonight));
  g_assert_cmpfloat_with_epsilon (fr_tonight_get_plan (tonight)->used_l, used_l, 1e-9);
  g_assert_cmpint (fr_tonight_get_plan (tonight)->end_utc, ==, end_utc);
  g_assert_null (fr_tonight_keep (tonight, &error));
  /* … until what is left is asked for; the kept cooker is busy. */
  fr_tonight_set_anew (tonight, TRUE);
  g_assert_false (fr_tonight_is_kept (tonight));
  g_assert_cmpfloat_with_epsilon (fr_tonight_get_input (tonight)->sap_l, 31 - used_l, 1e-4);
  g_assert_true (fr_tonight_get_cooker (tonight, 0)->off);
  g_assert_true (fr_book_undo (book, &error));
  g_assert_cmpuint (fr_record_list_get_size (fr_book_get_list (book, FR_KIND_NIGHT)), ==, before);
  g_assert_cmpfloat_with_epsilon (fr_tonight_get_input (tonight)->sap_l, 31, 1e-4);
}

static gint64
next_day_clock (const FrZoneTable *zone)
{
  return 1773959400 + 16 * 3600;
}

static void
test_morning (void)
{
  g_autoptr (FrBook) book = demo_book ();
  g_autoptr (FrTonight) evening = fr_tonight_new (book, demo_clock);
  g_autoptr (FrChange) kept = NULL;
  g_autoptr (FrTonight) morning = NULL;
  g_autoptr (GError) error = NULL;
  const FrNight *night;
  FrPlanKit kit;

  g_assert_null (fr_tonight_open_night (evening)); /* the demo's one night has its findings */
  kept = fr_tonight_keep (evening, &error);
  g_assert_true (fr_book_apply (book, kept, &error));
  g_assert_null (fr_tonight_open_night (evening)); /* not over yet */
  morning = fr_tonight_new (book, next_day_clock);
  night = fr_tonight_open_night (morning);
  g_assert_nonnull (night);
  g_assert_true (
      fr_book_kit (book, (const FrCooker *)fr_book_find (book, FR_KIND_COOKER, night->cooker), &kit));
  g_assert_cmpstr (night->evening, ==, "2026-03-19");
}

static gint64 moving_utc;

static gint64
moving_clock (const FrZoneTable *zone)
{
  return moving_utc;
}

/* A window that stays open through the night asks in the morning what came of it. */
static void
test_clock (void)
{
  g_autoptr (FrBook) book = demo_book ();
  g_autoptr (FrTonight) tonight = NULL;
  g_autoptr (FrChange) kept = NULL;
  g_autoptr (GError) error = NULL;

  moving_utc = demo_clock (NULL);
  tonight = fr_tonight_new (book, moving_clock);
  kept = fr_tonight_keep (tonight, &error);
  g_assert_true (fr_book_apply (book, kept, &error));
  g_assert_true (fr_tonight_is_kept (tonight));
  moving_utc += 16 * 3600;
  fr_tonight_refresh (tonight);
  g_assert_false (fr_tonight_is_kept (tonight));
  g_assert_nonnull (fr_tonight_open_night (tonight));
}

static void
test_no_household (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrBook) book = fr_book_open (":memory:", &error);
  g_autoptr (FrTonight) tonight = fr_tonight_new (book, demo_clock);

  g_assert_false (fr_tonight_is_ready (tonight));
  g_assert_null (fr_tonight_get_plan (tonight));
  g_assert_null (fr_tonight_keep (tonight, &error));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tonight/from-book", test_from_book);
  g_test_add_func ("/tonight/typing", test_typing);
  g_test_add_func ("/tonight/times", test_times);
  g_test_add_func ("/tonight/spring-gap", test_gap);
  g_test_add_func ("/tonight/cookers", test_cookers);
  g_test_add_func ("/tonight/keep", test_keep);
  g_test_add_func ("/tonight/morning", test_morning);
  g_test_add_func ("/tonight/clock", test_clock);
  g_test_add_func ("/tonight/no-household", test_no_household);
  return g_test_run ();
}
