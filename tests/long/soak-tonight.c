/* A long evening: random edits, cookers on and off, nights kept and taken back, on the demo's book, while a
 * second program writes to the same file. Run from a build with sanitizers: ninja -C build-asan
 * tests/long/soak-tonight && build-asan/tests/long/soak-tonight demo/book.json [edits] [seed] It ends with
 * one line of figures and fails on the first answer that cannot be. */
#include <glib/gstdio.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "formats/book-json.h"
#include "formats/json-text.h"
#include "models/tonight.h"

/* 18:30 in Toronto on 19 March 2026. */
static gint64
demo_clock (const FrZoneTable *zone)
{
  return 1773959400;
}

static const char *const texts[]
    = { "",     "0",   "-3",      "1e9", "abc",  "1,500",  "3 gal 1 qt", "36 F",  "1 ½",   "2 buckets",
        "31",   "0.1", "200",     "2.2", "22",   "45",     "7:30",       "25:00", "19:00", "02:30",
        "7 pm", "½",   "1 1/2 L", "−4",  "NaN",  "inf",    "9.9.9",      "12 kg", "60",    "66.9",
        "99.1", "103", "212 F",   "3",   "0.05", "1e-300", "2,2",        "100 ml" };

/* What a person would type there; three times in four it is one of these. */
static const char *const likely[FR_N_TONIGHT_AMOUNTS][4] = {
  { "31", "2 buckets", "8", "" }, { "2.2", "1.4", "3", "" }, { "2", "5", "36 F", "" },
  { "60", "45", "66", "" },       { "0", "-3", "-12", "" },  { "-6", "2", "", "" },
  { "99.1", "", "98.2", "" },     { "0.7", "", "", "1 L" },  { "40", "25", "", "12" },
};
static const char *const likely_times[] = { "19:00", "21:30", "06:50", "" };

static void
make_book (const char *json, const char *path)
{
  g_autofree char *text = NULL;
  g_autoptr (JsonNode) root = NULL;
  g_autoptr (GPtrArray) records = NULL;
  g_autoptr (FrChange) change = fr_change_new ("demo-book", NULL);
  g_autoptr (FrStore) store = NULL;
  g_autoptr (GError) error = NULL;
  gsize length;

  if (g_file_get_contents (json, &text, &length, &error)
      && (root = fr_json_parse (text, length, &error)) != NULL
      && (records = fr_book_from_json (root, &error)) != NULL)
    {
      for (guint i = 0; i < records->len; i++)
        fr_change_add (change, NULL, records->pdata[i]);
      store = fr_store_open (path, TRUE, &error);
      if (store != NULL)
        fr_store_apply (store, change, FR_ORIGIN_DEMO, demo_clock (NULL), &error);
    }
  g_assert_no_error (error);
}

/* The other program moves a fuel's price. */
static void
write_beside (const char *path, GRand *rand)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrStore) store = fr_store_open (path, FALSE, &error);
  g_autoptr (GPtrArray) fuels = NULL;
  g_autoptr (FrChange) change = fr_change_new ("edit-fuel", NULL);
  g_autoptr (FrRecord) after = NULL;

  g_assert_no_error (error);
  fuels = fr_store_load (store, FR_KIND_FUEL, &error);
  g_assert_no_error (error);
  after = fr_record_copy (fuels->pdata[0]);
  fr_amount_set (&((FrFuel *)after)->price_per_kg, g_rand_double_range (rand, 100, 500), NULL);
  fr_change_add (change, fuels->pdata[0], after);
  g_assert_true (fr_store_apply (store, change, FR_ORIGIN_CLI, demo_clock (NULL), &error));
}

static void
check (FrTonight *tonight)
{
  const FrPlan *plan = fr_tonight_get_plan (tonight);
  const FrPlanWords *words = fr_tonight_get_words (tonight);

  g_assert_nonnull (plan);
  g_assert_nonnull (words->sentence);
  g_assert_null (strstr (words->sentence, "nan"));
  g_assert_null (strstr (words->reason, "nan"));
  if (plan->status != FR_PLAN_OK)
    return;
  g_assert_true (isfinite (plan->used_l) && plan->used_l > 0);
  g_assert_true (isfinite (plan->left_brix) && plan->left_brix > 0 && plan->left_brix <= 75.001);
  g_assert_cmpfloat (fabs (plan->used_l + plan->over_l - fr_tonight_get_input (tonight)->sap_l), <, 1e-6);
}

int
main (int argc, char **argv)
{
  guint edits = argc > 2 ? (guint)atoi (argv[2]) : 2000, n_kept = 0, n_refused = 0, n_ok = 0, n_beside = 0;
  GRand *rand = g_rand_new_with_seed (argc > 3 ? (guint32)atoi (argv[3]) : 1);
  g_autofree char *folder = g_dir_make_tmp ("frostrun-soak-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "book.frostrun", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (FrBook) book = NULL;
  g_autoptr (FrTonight) tonight = NULL;

  if (argc < 2)
    {
      g_printerr ("soak-tonight demo/book.json [edits] [seed]\n");
      return 2;
    }
  make_book (argv[1], path);
  book = fr_book_open (path, &error);
  g_assert_no_error (error);
  tonight = fr_tonight_new (book, demo_clock);
  for (guint i = 0; i < edits; i++)
    {
      const char *text = texts[g_rand_int_range (rand, 0, G_N_ELEMENTS (texts))];
      gboolean usual = g_rand_int_range (rand, 0, 4) > 0;
      FrTonightAmount amount;
      FrQuantityProblem problem;
      gsize at;

      switch (g_rand_int_range (rand, 0, 12))
        {
        case 0:
          fr_tonight_set_cooker_on (tonight, (guint)g_rand_int_range (rand, 0, 2),
                                    g_rand_int_range (rand, 0, 4) > 0);
          break;
        case 1:
        case 2:
          {
            g_autofree char *sentence = NULL;

            fr_tonight_type_time (tonight, g_rand_int_range (rand, 0, FR_N_TONIGHT_TIMES),
                                  usual ? likely_times[g_rand_int_range (rand, 0, 4)] : text, &sentence);
            break;
          }
        case 3:
          {
            g_autoptr (FrChange) change = fr_tonight_keep (tonight, &error);

            g_assert_no_error (error);
            if (change != NULL && fr_book_apply (book, change, &error))
              n_kept++;
            else if (error != NULL)
              n_refused++;
            g_clear_error (&error);
            break;
          }
        case 4:
          if (fr_book_peek_undo (book) != NULL && !fr_book_undo (book, &error))
            n_refused++;
          g_clear_error (&error);
          break;
        case 5:
          fr_tonight_set_anew (tonight, g_rand_boolean (rand));
          break;
        case 6:
          if (i % 8 == 0)
            {
              write_beside (path, rand);
              n_beside++;
              g_assert_true (fr_book_refresh (book, &error));
            }
          break;
        default:
          amount = (FrTonightAmount)g_rand_int_range (rand, 0, FR_N_TONIGHT_AMOUNTS);
          fr_tonight_type_amount (
              tonight, amount, usual ? likely[amount][g_rand_int_range (rand, 0, 4)] : text, &problem, &at);
        }
      check (tonight);
      n_ok += fr_tonight_get_plan (tonight)->status == FR_PLAN_OK;
    }
  g_print ("%u edits, %u with a plan, %u nights kept, %u writes beside, %u refused with a sentence\n", edits,
           n_ok, n_kept, n_beside, n_refused);
  g_rand_free (rand);
  return 0;
}
