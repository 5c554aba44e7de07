/* The trees of a plan, the stops of a round, and the sheets of paper in words. Bushes are invented; what is
 * held is that every tree is told once, in the right place, and that numbers are those of the plan and the
 * round. Distances are worked by hand: trees stand on a line through the boiling place. */
#include <stdio.h>

#include "../domain/bushes.h"
#include "sentences.h"
#include "words/paper-words.h"
#include "words/plan-tree-words.h"
#include "words/stop-words.h"

static const FrDate today = { 2026, 3, 1 };

static FrSay
metric (void)
{
  return (FrSay){ .units = { .system = FR_SYSTEM_METRIC, .decimal_mark = '.' } };
}

/* Every kind of space as one blank. */
static char *
plain (const char *text)
{
  GString *out = g_string_new (NULL);

  for (const char *c = text; *c != '\0'; c = g_utf8_next_char (c))
    if (g_unichar_isspace (g_utf8_get_char (c)))
      g_string_append_c (out, ' ');
    else
      g_string_append_len (out, c, g_utf8_next_char (c) - c);
  return g_string_free (out, FALSE);
}

static FrTree *
measured (Bush *b, double x_m, double diameter_m)
{
  FrTree *tree = bush_tree (b, "sugar", x_m, 0);

  bush_girth (b, tree, "2025-10-01", "diameter", diameter_m);
  return tree;
}

/* One of every reason that a tree carries nothing for. */
static void
test_left_out (void)
{
  static const struct
  {
    const char *name;
    const char *why;
  } wanted[] = {
    { "T2", "Not measured" },
    { "T1", "Others bring more" },
    { "T3", "Too thin for the guideline" },
    { "T4", "Never, by your choice" },
    { "T5", "The land’s owner refused" },
    { "T6", "Failing or dead" },
    { "T7", "Not a maple: no guideline holds" },
  };
  Bush b = bush_begin ();
  g_autoptr (FrBush) bush = NULL;
  g_autoptr (FrBushPlan) plan = NULL;
  g_autoptr (GPtrArray) left_out = NULL;
  FrTree *tree;

  measured (&b, 10, 0.35);        /* T1 */
  bush_tree (&b, "sugar", 20, 0); /* T2 */
  measured (&b, 30, 0.15);        /* T3 */
  tree = measured (&b, 40, 0.5);  /* T4 */
  bush_set (&tree->choice, "never");
  tree = measured (&b, 50, 0.5); /* T5 */
  bush_set (&tree->permission, "refused");
  tree = measured (&b, 60, 0.5); /* T6 */
  bush_set (&tree->health, "dead");
  tree = bush_tree (&b, "walnut", 70, 0); /* T7 */
  bush_girth (&b, tree, "2025-10-01", "diameter", 0.5);
  measured (&b, 80, 0.6); /* T8: the only one chosen */
  b.tapping->buckets.value = 1;
  bush = fr_bush_new (&b.book, 2026, today);
  plan = fr_bush_plan (bush);
  g_assert_cmpuint (plan->n_trees, ==, 1);
  g_assert_cmpuint (g_array_index (plan->taps, guint, 7), ==, 1);
  left_out = fr_left_out_words (bush, plan);
  g_assert_cmpuint (left_out->len, ==, G_N_ELEMENTS (wanted));
  for (guint i = 0; i < G_N_ELEMENTS (wanted); i++)
    {
      gboolean found = FALSE;

      for (guint k = 0; k < left_out->len; k++)
        {
          const FrLeftOut *one = left_out->pdata[k];

          sentence_parts (one->why);
          if (g_strcmp0 (one->why, wanted[i].why) != 0)
            continue;
          found = TRUE;
          g_assert_cmpstr (one->names, ==, wanted[i].name);
          g_assert_cmpuint (one->n, ==, 1);
          if (one->remedy != NULL)
            sentence (one->remedy);
        }
      if (!found)
        g_error ("nothing is left out because: %s", wanted[i].why);
    }
  bush_clear (&b);
}

static void
test_many_names_are_counted (void)
{
  Bush b = bush_begin ();
  g_autoptr (FrBush) bush = NULL;
  g_autoptr (FrBushPlan) plan = NULL;
  g_autoptr (GPtrArray) left_out = NULL;

  for (guint i = 0; i < 15; i++)
    bush_tree (&b, "sugar", i, 0);
  b.tapping->buckets.value = 1;
  bush = fr_bush_new (&b.book, 2026, today);
  plan = fr_bush_plan (bush);
  g_assert_cmpint (plan->code, ==, FR_BUSH_PLAN_NO_TREES);
  left_out = fr_left_out_words (bush, plan);
  g_assert_cmpuint (left_out->len, ==, 1);
  g_assert_cmpuint (((const FrLeftOut *)left_out->pdata[0])->n, ==, 15);
  g_assert_true (g_str_has_suffix (((const FrLeftOut *)left_out->pdata[0])->names, "and 3 more"));
  bush_clear (&b);
}

/* A chosen tree's litres and sugar are those that the domain expects of it. */
static void
test_chosen (void)
{
  Bush b = bush_begin ();
  FrSay say = metric ();
  g_autoptr (FrBush) bush = NULL;
  g_autoptr (FrChosenWords) words = NULL;
  g_autofree char *litres = NULL, *litres_text = NULL, *span = NULL;
  FrTreeExpected expected;
  FrTree *tree = measured (&b, 10, 0.5);

  bush_set (&tree->choice, "must");
  bush = fr_bush_new (&b.book, 2026, today);
  g_assert_true (fr_bush_expect (bush, tree->record.id, 2, &expected));
  g_assert_false (fr_bush_expect (bush, tree->record.id, 0, &expected));
  g_assert_false (fr_bush_expect (bush, 99, 1, &expected));
  g_assert_true (fr_bush_expect (bush, tree->record.id, 2, &expected));
  g_assert_cmpfloat (expected.volume_l, ==, fr_bush_expected_l (bush, tree->record.id, 2));
  g_assert_cmpfloat (expected.volume_low_l, <, expected.volume_l);
  g_assert_cmpfloat (expected.volume_high_l, >, expected.volume_l);
  g_assert_cmpfloat (expected.sugar_low_kg, <, expected.sugar_kg);
  g_assert_cmpfloat (expected.sugar_high_kg, >, expected.sugar_kg);
  words = fr_chosen_words_new (bush, fr_bush_find (bush, tree->record.id), 2, &say);
  g_assert_cmpstr (words->taps, ==, "2");
  g_assert_cmpstr (words->note, ==, "always");
  litres_text = g_strdup_printf ("%.0f L", expected.volume_l);
  litres = plain (words->litres);
  g_assert_cmpstr (litres, ==, litres_text);
  span = g_strdup_printf ("%.0f–%.0f", expected.volume_low_l, expected.volume_high_l);
  g_assert_cmpstr (words->litres_span, ==, span);
  sentence (words->spoken);
  bush_clear (&b);
}

static void
test_curve (void)
{
  FrSay say = metric ();
  FrBushPlan plan = { .code = FR_BUSH_PLAN_OK, .curve = g_array_new (FALSE, FALSE, sizeof (double)) };
  const double kg[] = { NAN, 0.5, 0.75, 0.75 };
  static const char *const texts[]
      = { "0 buckets: fewer than the trees that are always tapped.",
          "1 bucket: 0.50 kg of sugar. One more adds 0.25 kg.",
          "2 buckets: 0.75 kg of sugar. One more adds nothing.", "3 buckets: 0.75 kg of sugar." };

  g_array_append_vals (plan.curve, kg, G_N_ELEMENTS (kg));
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autofree char *words = fr_plan_curve_words (&plan, i, &say), *text = plain (words);

      g_assert_cmpstr (text, ==, texts[i]);
    }
  g_assert_null (fr_plan_curve_words (&plan, 4, &say));
  g_array_unref (plan.curve);
}

/* Three trees 10, 20 and 30 m out, the pail holds what two of them give in a day. */
static FrBush *
three_in_line (Bush *b)
{
  *b = bush_begin ();
  bush_feature (b, "boiling", "0 0");
  for (guint i = 1; i <= 3; i++)
    bush_tap (b, measured (b, 10 * i, 0.4), 2026, "2026-02-20", 180, 0.8);
  return fr_bush_new (&b->book, 2026, today);
}

static void
test_stops (void)
{
  Bush b;
  FrSay say = metric ();
  g_autoptr (FrBush) bush = three_in_line (&b);
  g_autoptr (FrBushRound) round = fr_bush_round (bush, FR_ROUND_SET, NULL, 0, 1);
  g_autoptr (GPtrArray) words = fr_stop_words (bush, round, &say);

  g_assert_cmpuint (words->len, ==, 3);
  for (guint i = 0; i < 3; i++)
    {
      const FrStopWords *one = words->pdata[i];
      g_autofree char *leg = plain (one->leg), *number = g_strdup_printf ("%u", i + 1);

      g_assert_cmpstr (one->number, ==, number);
      g_assert_null (one->heading);
      sentence (one->spoken);
      /* out along the line, or out to the end and back past the others */
      g_assert_true (g_str_equal (leg, "10 m") || (i == 0 && g_str_equal (leg, "30 m"))
                     || g_str_equal (leg, "20 m"));
    }
  bush_clear (&b);
}

static void
test_trips_have_headings (void)
{
  Bush b;
  FrSay say = metric ();
  g_autoptr (FrBush) before = three_in_line (&b);
  const double day_l = fr_bush_expected_l (before, 1, 1) / fr_bush_season_days (before);
  g_autoptr (FrBush) bush = NULL;
  g_autoptr (FrBushRound) round = NULL;
  g_autoptr (GPtrArray) words = NULL;
  g_autofree char *first = NULL, *second = NULL;
  double walk_m = 0;
  guint n_headings = 0;

  b.tapping->pail_l.value = day_l * 2.5;
  bush = fr_bush_new (&b.book, 2026, today);
  round = fr_bush_round (bush, FR_ROUND_SET, NULL, 0, 1);
  g_assert_cmpuint (round->n_trips, ==, 2);
  words = fr_stop_words (bush, round, &say);
  for (guint i = 0; i < words->len; i++)
    {
      const FrStopWords *one = words->pdata[i];
      g_autofree char *heading = one->heading != NULL ? plain (one->heading) : NULL;
      unsigned trip, way_m;
      double volume_l;

      if (heading == NULL)
        continue;
      g_assert_cmpint (sscanf (heading, "Trip %u · %lf L · %u m", &trip, &volume_l, &way_m), ==, 3);
      g_assert_cmpuint (trip, ==, ++n_headings);
      walk_m += way_m;
    }
  g_assert_cmpuint (n_headings, ==, 2);
  /* the trips together are the walk: 60 m and 20 m, from there and back */
  g_assert_cmpfloat (walk_m, ==, 80);
  g_assert_cmpfloat_with_epsilon (round->walk_m, 80, 1e-9);
  bush_clear (&b);
}

static const char *
cell (const FrPaperWords *words, guint row, guint column)
{
  return words->cells->pdata[row * words->n_columns + column];
}

static void
test_paper (void)
{
  Bush b;
  FrSay say = metric ();
  g_autoptr (FrBush) before = three_in_line (&b);
  FrTree *lost = bush_tree (&b, "red", NAN, NAN), *bare = bush_tree (&b, "walnut", 5, 5);
  g_autoptr (FrBush) bush = NULL;
  g_autoptr (FrBushRound) round = NULL;

  bush_tap (&b, lost, 2026, NULL, NAN, NAN);
  bush = fr_bush_new (&b.book, 2026, today);
  round = fr_bush_round (bush, FR_ROUND_PLANNED, NULL, 0, 1);
  {
    g_autoptr (FrPaperWords) words = fr_paper_words_new (bush, FR_PAPER_GATHERING, round, &say);

    g_assert_cmpuint (words->n_rows, ==, 4);
    g_assert_cmpuint (words->cells->len, ==, words->n_rows * words->n_columns);
    g_assert_cmpuint (words->headings->len, ==, words->n_rows);
    sentence (words->sentence);
    for (guint i = 0; i < 3; i++)
      {
        g_autofree char *number = g_strdup_printf ("%u", i + 1);

        g_assert_cmpstr (cell (words, i, 0), ==, number);
        g_assert_null (words->headings->pdata[i]);
      }
    /* who has no place comes last, with a word about it */
    g_assert_cmpstr (cell (words, 3, 1), ==, lost->name);
    g_assert_null (cell (words, 3, 0));
    g_assert_cmpstr (words->headings->pdata[3], ==, "Without a place on the map");
    /* boxes are empty and say what is to be written */
    for (guint c = 0; c < words->n_columns; c++)
      {
        g_autofree char *title = fr_paper_column_title (&words->columns[c], &say);

        if (words->columns[c].kind == FR_PAPER_BOX)
          g_assert_null (cell (words, 0, c));
        if (words->columns[c].quantity == FR_QUANTITY_VOLUME)
          g_assert_cmpstr (title, ==, "Sap, L");
      }
  }
  {
    g_autoptr (FrPaperWords) words = fr_paper_words_new (bush, FR_PAPER_MEASURING, NULL, &say);

    /* without a way to walk all stand by name */
    g_assert_cmpuint (words->n_rows, ==, 5);
    g_assert_null (words->sentence);
    g_assert_null (words->headings->pdata[0]);
    for (guint i = 1; i < words->n_rows; i++)
      g_assert_cmpint (g_utf8_collate (cell (words, i - 1, 1), cell (words, i, 1)), <, 0);
    g_assert_cmpstr (cell (words, 4, 1), ==, bare->name);
  }
  {
    g_autofree char *legend = fr_paper_map_legend (NULL), *filled = fr_paper_litres_filled (15, &say),
                    *both = fr_paper_map_legend (filled), *one = fr_paper_pages (1, 200, &say),
                    *many = fr_paper_pages (412, 200, &say), *scale = fr_paper_scale (500, &say);

    sentence (legend);
    sentence (both);
    g_assert_cmpstr (one, ==, "1 page");
    sentence (many);
    g_assert_nonnull (strstr (many, "412"));
    g_assert_cmpstr (scale, ==, "1 : 500");
  }
  bush_clear (&b);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet-words/left-out", test_left_out);
  g_test_add_func ("/sheet-words/many-names-are-counted", test_many_names_are_counted);
  g_test_add_func ("/sheet-words/chosen", test_chosen);
  g_test_add_func ("/sheet-words/curve", test_curve);
  g_test_add_func ("/sheet-words/stops", test_stops);
  g_test_add_func ("/sheet-words/trips-have-headings", test_trips_have_headings);
  g_test_add_func ("/sheet-words/paper", test_paper);
  return g_test_run ();
}
