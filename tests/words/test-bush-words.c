/* What the bush page says: the one thing to do with a tree, facts with their remedies, and that nothing says
 * more than is known. */
#include "../domain/bushes.h"
#include "sentences.h"
#include "words/bush-words.h"

static const FrDate TODAY = { 2026, 3, 15 };
static const FrSay METRIC = { .units = { .decimal_mark = '.' } };
static const FrSay US = { .units = { .system = FR_SYSTEM_US, .decimal_mark = '.' } };

/* Numbers keep to their unit by a no-break space. */
static char *
spaced (const char *text)
{
  g_auto (GStrv) parts = g_strsplit (text != NULL ? text : "", "\302\240", -1);

  return g_strjoinv (" ", parts);
}

static void
has (const char *text, const char *part)
{
  g_autofree char *plain = spaced (text);

  g_test_message ("%s", plain);
  if (strstr (plain, part) == NULL)
    g_error ("“%s” does not hold “%s”", plain, part);
}

static char *
headline (Bush *b, gint64 tree, const FrSay *say, char **why_out)
{
  g_autoptr (FrBush) bush = fr_bush_new (&b->book, 2026, TODAY);
  char *text = fr_bush_headline (bush, fr_bush_find (bush, tree), say, why_out);

  sentence (text);
  if (why_out != NULL && *why_out != NULL)
    sentence (*why_out);
  return text;
}

static FrTree *
measured (Bush *b, double diameter_m)
{
  FrTree *tree = bush_tree (b, "sugar", 0, 0);

  bush_girth (b, tree, "2025-09-20", "diameter", diameter_m);
  return tree;
}

static void
test_headline_places (void)
{
  Bush b = bush_begin ();
  FrTree *tree = measured (&b, 0.61);
  g_autofree char *why = NULL, *first = headline (&b, tree->record.id, &METRIC, &why);
  g_autofree char *second_why = NULL, *second = NULL, *planned = NULL, *full = NULL;
  FrTap *tap;

  /* The middle of 2 to 4 ft, on the south side. */
  has (first, "A tap fits at 180°, 91");
  has (why, "no old hole");
  bush_tap (&b, tree, 2026, "2026-03-01", 90, 0.8);
  second = headline (&b, tree->record.id, &METRIC, &second_why);
  has (second, "A second tap fits at 270°");
  has (second_why, "times the asked distance from every hole");
  tap = bush_tap (&b, tree, 2026, NULL, 307, 0.6);
  planned = headline (&b, tree->record.id, &METRIC, NULL);
  has (planned, "The planned tap goes at 307°, 60");
  tap->set_on = g_strdup ("2026-03-02");
  full = headline (&b, tree->record.id, &METRIC, NULL);
  has (full, "may carry no more");
  bush_clear (&b);
}

static void
test_headline_planned_ones (void)
{
  Bush b = bush_begin ();
  FrTree *tree = measured (&b, 0.61), *placeless = measured (&b, 0.61);
  g_autofree char *two = NULL, *nowhere = NULL;

  bush_tap (&b, tree, 2026, NULL, 90, 0.8);
  bush_tap (&b, tree, 2026, NULL, 359.8, 0.7);
  bush_tap (&b, placeless, 2026, NULL, NAN, NAN);
  two = headline (&b, tree->record.id, &METRIC, NULL);
  has (two, "2 taps are planned: 90°, 80");
  has (two, "; 0°, 70"); /* never 360 */
  nowhere = headline (&b, placeless->record.id, &METRIC, NULL);
  has (nowhere, "1 tap is planned.");
  bush_clear (&b);
}

static void
test_headline_refusals (void)
{
  static const struct
  {
    const char *health, *permission, *choice;
    double diameter_m;
    const char *says;
  } cases[] = {
    { "failing", "own", "open", 0.5, "Do not tap: it is failing." },
    { "dead", "own", "open", 0.5, "it is dead" },
    { "healthy", "refused", "open", 0.5, "owner refused" },
    { "healthy", "own", "never", 0.5, "left alone" },
    { "healthy", "own", "open", 0.2, "too thin" },
    { "healthy", "own", "open", NAN, "Measure it first" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      Bush b = bush_begin ();
      FrTree *tree = measured (&b, cases[i].diameter_m);
      g_autofree char *text = NULL;

      bush_set (&tree->health, cases[i].health);
      bush_set (&tree->permission, cases[i].permission);
      bush_set (&tree->choice, cases[i].choice);
      text = headline (&b, tree->record.id, &METRIC, NULL);
      has (text, cases[i].says);
      bush_clear (&b);
    }
}

/* A trunk no rounder than one spacing, with a hole in the middle: nowhere is clear, and how much is missing
 * is said. */
static void
test_headline_no_place (void)
{
  Bush b = bush_begin ();
  FrTree *tree = bush_tree (&b, "sugar", 0, 0);
  g_autofree char *text = NULL, *why = NULL;

  bush_girth (&b, tree, "2025-09-20", "girth", 1.2);
  for (guint i = 0; i < 6; i++)
    {
      bush_tap (&b, tree, 2010, "2010-03-01", 60 * i, 0.7);
      bush_tap (&b, tree, 2011, "2011-03-01", 60 * i + 30, 1.1);
    }
  text = headline (&b, tree->record.id, &METRIC, &why);
  has (text, "no place");
  has (why, "No place keeps the asked distance: the best has 0.");
  bush_clear (&b);
}

static void
test_headline_reduced (void)
{
  Bush b = bush_begin ();
  FrTree *slow = measured (&b, 0.35), *birch = measured (&b, 0.35);
  g_autofree char *no = NULL, *other = NULL;

  bush_girth (&b, slow, "2015-09-20", "diameter", 0.349);
  bush_set (&birch->species, "birch");
  no = headline (&b, slow->record.id, &METRIC, NULL);
  has (no, "grows too slowly");
  other = headline (&b, birch->record.id, &METRIC, NULL);
  has (other, "no maple");
  bush_clear (&b);
}

/* Every reason has a sentence, in every system of units, and none runs out of what it needs. */
static void
test_every_reason (void)
{
  Bush b = bush_begin ();
  FrTree *tree = measured (&b, 0.2);
  g_autoptr (FrBush) bush = NULL;
  FrBushTree row;
  guint n_danger = 0;
  g_autoptr (GPtrArray) cautions = NULL, us = NULL;

  bush = fr_bush_new (&b.book, 2026, TODAY);
  row = *fr_bush_find (bush, tree->record.id);
  row.growth_m_per_year = 0.001;
  row.taps_set = 3;
  row.reasons = 0;
  for (guint bit = 0; bit < 24; bit++)
    row.reasons |= 1u << bit;
  row.reasons &= FR_TREE_TOO_SMALL | FR_TREE_FAILING | FR_TREE_REFUSED | FR_TREE_WISHED_OFF | FR_TREE_NO_PLACE
                 | FR_TREE_WEAK | FR_TREE_SLOW | FR_TREE_TAPPED_HARD | FR_TREE_GROWTH_UNKNOWN
                 | FR_TREE_SIZE_UNKNOWN | FR_TREE_NO_RULE | FR_TREE_DEAD_LIMBS | FR_TREE_WIRES | FR_TREE_LEANS
                 | FR_TREE_ROADSIDE | FR_TREE_NOT_ASKED | FR_TREE_OVER_GUIDELINE;
  cautions = fr_bush_cautions (bush, &row, &METRIC);
  us = fr_bush_cautions (bush, &row, &US);
  g_assert_cmpuint (cautions->len, ==, 17);
  for (guint i = 0; i < cautions->len; i++)
    {
      const FrTreeCaution *caution = cautions->pdata[i];

      sentence (caution->text);
      sentence (((FrTreeCaution *)us->pdata[i])->text);
      g_test_message ("%s", caution->text);
      /* What may kill stands first. */
      if (caution->danger)
        g_assert_cmpuint (n_danger++, ==, i);
      g_assert_cmpint (caution->forbids, ==, (caution->reason & FR_TREE_FORBIDS) != 0);
    }
  g_assert_cmpuint (n_danger, ==, 2);
  has (((FrTreeCaution *)cautions->pdata[0])->text, "licensed");
  bush_clear (&b);
}

static void
test_reasons_say_figures (void)
{
  Bush b = bush_begin ();
  FrTree *tree = measured (&b, 0.2);
  g_autoptr (FrBush) bush = NULL;
  FrBushTree row;
  g_autofree char *small = NULL, *small_us = NULL, *slow = NULL, *shrunk = NULL, *over = NULL, *asked = NULL;

  tree->owner = g_strdup ("Halvard Example");
  bush = fr_bush_new (&b.book, 2026, TODAY);
  row = *fr_bush_find (bush, tree->record.id);
  small = fr_tree_reason_sentence (FR_TREE_TOO_SMALL, bush, &row, &METRIC);
  has (small, "20.0"); /* 12 in */
  has (small, "30.5");
  small_us = fr_tree_reason_sentence (FR_TREE_TOO_SMALL, bush, &row, &US);
  has (small_us, "12.0");
  row.growth_m_per_year = 0.0012;
  slow = fr_tree_reason_sentence (FR_TREE_SLOW, bush, &row, &METRIC);
  has (slow, "1.2 mm");
  row.growth_m_per_year = -0.001;
  shrunk = fr_tree_reason_sentence (FR_TREE_SLOW, bush, &row, &METRIC);
  has (shrunk, "not grown");
  row.taps_set = 2;
  row.taps_planned = 1;
  row.taps_max = 1;
  over = fr_tree_reason_sentence (FR_TREE_OVER_GUIDELINE, bush, &row, &METRIC);
  has (over, "3 taps, where the guideline allows 1. Use 2 fewer.");
  asked = fr_tree_reason_sentence (FR_TREE_NOT_ASKED, bush, &row, &METRIC);
  has (asked, "Halvard Example");
  bush_clear (&b);
}

static void
rank_is (guint rank, guint n, double trend_ratio, const char *words)
{
  FrBushTree row = { .rank = rank, .n_ranked = n, .trend_ratio = trend_ratio };
  g_autofree char *text = fr_bush_rank_words (&row, &METRIC);

  g_assert_cmpstr (text, ==, words);
}

static void
test_rank (void)
{
  rank_is (0, 0, NAN, NULL);
  rank_is (1, 11, NAN, "1st of 11");
  rank_is (2, 11, 0.01, "2nd of 11, steady");
  rank_is (3, 11, -0.02, "3rd of 11, steady");
  rank_is (4, 11, 0.06, "4th of 11, gaining 6 % a year");
  rank_is (11, 30, -0.1, "11th of 30, losing 10 % a year");
  rank_is (12, 30, NAN, "12th of 30");
  rank_is (13, 30, NAN, "13th of 30");
  rank_is (21, 30, NAN, "21st of 30");
  rank_is (112, 130, NAN, "112th of 130");
  rank_is (122, 130, NAN, "122nd of 130");
}

static void
test_worth (void)
{
  const FrTreeWorth worth = { 2.1, 0.042, 34 };
  g_autofree char *text = fr_bush_worth_words (&worth, &METRIC), *us = fr_bush_worth_words (&worth, &US);

  has (text, "Adds 2.1 L and 34 m to a round.");
  has (us, "gal");
  has (us, "ft");
}

static void
test_summary (void)
{
  Bush b = bush_begin ();
  FrTree *one = measured (&b, 0.5), *two = measured (&b, 0.5);
  g_autoptr (FrBush) bush = fr_bush_new (&b.book, 2026, TODAY), tapped = NULL;
  g_autofree char *none = fr_bush_summary (bush), *some = NULL;

  g_assert_cmpstr (none, ==, "2 trees");
  bush_tap (&b, one, 2026, "2026-03-01", 90, 1);
  bush_tap (&b, one, 2026, "2026-03-01", 270, 1);
  bush_tap (&b, two, 2026, "2026-03-01", 270, 1);
  bush_tap (&b, two, 2026, NULL, 90, 1);
  tapped = fr_bush_new (&b.book, 2026, TODAY);
  some = fr_bush_summary (tapped);
  g_assert_cmpstr (some, ==, "2 trees · 3 taps on 2 · 1 planned");
  bush_clear (&b);
}

static void
test_guidelines (void)
{
  g_autofree char *careful = fr_guideline_sentence (FR_GUIDELINE_CONSERVATIVE, &US);
  g_autofree char *metric = fr_guideline_sentence (FR_GUIDELINE_CONSERVATIVE, &METRIC);
  g_autofree char *old = fr_guideline_sentence (FR_GUIDELINE_TRADITIONAL, &US);
  g_autofree char *one = fr_guideline_sentence (FR_GUIDELINE_ONE_TAP, &US);
  const FrBushSpacing usual = { 0.1524, 0.3048, 0.6096, 1.2192 };
  g_autofree char *spacing = fr_spacing_sentence (&usual, &METRIC);

  for (guint i = 0; i < FR_N_GUIDELINES; i++)
    {
      g_autofree char *text = fr_guideline_sentence (i, &METRIC);

      sentence (text);
      sentence_parts (fr_guideline_name (i));
      g_assert_cmpuint (strlen (fr_guideline (i)->source), >, 20);
    }
  has (careful, "one tap from 12 in, two from 18 in.");
  has (metric, "one tap from 30.5 cm, two from 45.7 cm.");
  has (old, "three from 20 in, four from 25 in");
  has (old, "advise against");
  has (one, "known to grow well");
  sentence (spacing);
  has (spacing, "15.2 cm sideways or 30.5 cm up or down");
}

static void
test_place_words (void)
{
  Bush b = bush_begin ();
  FrTree *tree = measured (&b, 0.5), *unknown = bush_tree (&b, "sugar", 0, 0);
  FrTap *tap = bush_tap (&b, tree, 2024, "2024-03-01", 90, 0.8);
  g_autoptr (FrBush) bush = fr_bush_new (&b.book, 2026, TODAY);
  g_autofree char *near = fr_bush_place_words (bush, tree->record.id, 95, 0.85, 0, &METRIC);
  g_autofree char *itself = fr_bush_place_words (bush, tree->record.id, 95, 0.85, tap->record.id, &METRIC);

  sentence (near);
  has (near, "Too near");
  has (near, "the hole of 2024");
  sentence (itself);
  has (itself, "no old hole");
  g_assert_null (fr_bush_place_words (bush, unknown->record.id, 95, 0.85, 0, &METRIC));
  bush_clear (&b);
}

static void
test_plan_words (void)
{
  Bush b = bush_begin ();
  g_autoptr (FrBush) bush = fr_bush_new (&b.book, 2026, TODAY);
  FrBushPlan plan = { .code = FR_BUSH_PLAN_OK,
                      .n_taps = 14,
                      .n_trees = 11,
                      .sugar_kg = 12.3,
                      .sugar_low_kg = 9,
                      .sugar_high_kg = 15.6,
                      .volume_l = 560,
                      .peak_l = 48,
                      .next_bucket_kg = 0.31,
                      .kitchen_from_buckets = 17,
                      .walk_m = 812,
                      .is_exact = TRUE,
                      .bound_kg = 12.3 };
  g_autoptr (FrBushPlanWords) words = fr_bush_plan_words_new (bush, &plan, &METRIC), tight = NULL;

  sentence_markup (words->sentence);
  g_assert_cmpstr (words->sentence, ==, "Hang <b>14 buckets</b> on <b>11 trees</b>.");
  sentence (words->reason);
  has (words->reason, "eight seasons in ten between 9.0");
  g_assert_cmpuint (words->figures->len, ==, 5);
  g_assert_cmpuint (words->notes->len, ==, 2);
  has (words->notes->pdata[0], "One more bucket would add 0.31");
  has (words->notes->pdata[1], "From 17 buckets on");

  plan.kitchen_limits = plan.walk_limits = TRUE;
  plan.next_bucket_kg = 0;
  plan.is_exact = FALSE;
  tight = fr_bush_plan_words_new (bush, &plan, &METRIC);
  has (tight->notes->pdata[0], "add nothing");
  has (tight->notes->pdata[1], "48 L come on a peak day");
  has (tight->notes->pdata[2], "812 m");
  for (guint i = 0; i < tight->notes->len; i++)
    sentence (tight->notes->pdata[i]);
  for (guint code = FR_BUSH_PLAN_NO_BUCKETS; code <= FR_BUSH_PLAN_TOO_MANY_MUST; code++)
    {
      FrBushPlan none = { .code = code, .musts = 3 };
      g_autoptr (FrBushPlanWords) missing = fr_bush_plan_words_new (bush, &none, &METRIC);

      sentence_markup (missing->sentence);
      g_assert_null (missing->reason);
      g_assert_cmpuint (missing->figures->len, ==, 0);
    }
  bush_clear (&b);
}

/* A plan that sends people to a tree with wires says so beside its sentence. */
static void
test_dangers (void)
{
  Bush b = bush_begin ();
  FrTree *safe = measured (&b, 0.5), *wired = measured (&b, 0.5);
  const gint64 trees[] = { safe->record.id, wired->record.id, 99 };
  g_autoptr (FrBush) bush = NULL;
  g_autoptr (FrBushPlan) plan = NULL;
  g_autoptr (FrBushPlanWords) words = NULL;
  g_autoptr (GPtrArray) dangers = NULL;

  wired->wires = wired->lean = wired->dead_limbs = TRUE;
  b.tapping->buckets.value = 4;
  bush = fr_bush_new (&b.book, 2026, TODAY);
  dangers = fr_bush_dangers (bush, trees, G_N_ELEMENTS (trees), &METRIC);
  g_assert_cmpuint (dangers->len, ==, 2);
  has (dangers->pdata[0], "T2: Wires");
  has (dangers->pdata[1], "T2: Dead limbs");
  plan = fr_bush_plan (bush);
  g_assert_cmpuint (plan->n_trees, ==, 2);
  words = fr_bush_plan_words_new (bush, plan, &METRIC);
  g_assert_cmpuint (words->dangers->len, ==, 2);
  bush_clear (&b);
}

static void
test_plan_gap (void)
{
  Bush b = bush_begin ();
  g_autoptr (FrBush) bush = fr_bush_new (&b.book, 2026, TODAY);
  FrBushPlan plan = { .code = FR_BUSH_PLAN_OK,
                      .n_taps = 1,
                      .n_trees = 1,
                      .sugar_kg = 10,
                      .sugar_low_kg = NAN,
                      .sugar_high_kg = NAN,
                      .volume_l = 500,
                      .peak_l = NAN,
                      .next_bucket_kg = NAN,
                      .walk_m = NAN,
                      .bound_kg = 10.01 };
  g_autoptr (FrBushPlanWords) words = fr_bush_plan_words_new (bush, &plan, &METRIC);

  has (words->sentence, "<b>1 bucket</b> on <b>1 tree</b>");
  sentence (words->reason);
  g_assert_cmpuint (words->figures->len, ==, 2);
  g_assert_cmpuint (words->notes->len, ==, 1);
  has (words->notes->pdata[0], "0.1 %");
  bush_clear (&b);
}

static void
test_round_words (void)
{
  const FrBushStop stops[] = { { 1, 20, 0, 10 }, { 1, 3, 1, 10 }, { 2, 8, 1, 12 } };
  FrBushRound round = { .has_start = TRUE,
                        .stops = g_array_new (FALSE, FALSE, sizeof (FrBushStop)),
                        .n_trips = 2,
                        .walk_m = 1000,
                        .bound_m = 972.3,
                        .volume_l = 31,
                        .litre_metres = 1234 };
  g_autoptr (FrBushRoundWords) words = NULL, exact = NULL, none = fr_bush_round_words_new (NULL, &METRIC);

  g_array_append_vals (round.stops, stops, G_N_ELEMENTS (stops));
  words = fr_bush_round_words_new (&round, &METRIC);
  sentence_markup (words->sentence);
  has (words->sentence, "<b>2 trips</b> past <b>2 trees</b>");
  sentence (words->reason);
  has (words->reason, "at most 2.9 % longer"); /* 2.849, told no smaller than it is */
  g_assert_cmpuint (words->notes->len, ==, 0);
  round.is_exact = TRUE;
  round.has_start = FALSE;
  round.n_unplaced = 2;
  round.n_trips = 1;
  exact = fr_bush_round_words_new (&round, &METRIC);
  g_assert_cmpstr (exact->reason, ==, "No order is shorter.");
  g_assert_cmpuint (exact->notes->len, ==, 2);
  for (guint i = 0; i < 2; i++)
    sentence (exact->notes->pdata[i]);
  sentence_markup (none->sentence);
  g_assert_null (none->reason);
  g_array_unref (round.stops);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bush-words/headline-places", test_headline_places);
  g_test_add_func ("/bush-words/headline-planned-ones", test_headline_planned_ones);
  g_test_add_func ("/bush-words/headline-refusals", test_headline_refusals);
  g_test_add_func ("/bush-words/headline-no-place", test_headline_no_place);
  g_test_add_func ("/bush-words/headline-reduced", test_headline_reduced);
  g_test_add_func ("/bush-words/every-reason", test_every_reason);
  g_test_add_func ("/bush-words/reasons-say-figures", test_reasons_say_figures);
  g_test_add_func ("/bush-words/rank", test_rank);
  g_test_add_func ("/bush-words/worth", test_worth);
  g_test_add_func ("/bush-words/summary", test_summary);
  g_test_add_func ("/bush-words/guidelines", test_guidelines);
  g_test_add_func ("/bush-words/place-words", test_place_words);
  g_test_add_func ("/bush-words/plan-words", test_plan_words);
  g_test_add_func ("/bush-words/dangers", test_dangers);
  g_test_add_func ("/bush-words/plan-gap", test_plan_gap);
  g_test_add_func ("/bush-words/round-words", test_round_words);
  return g_test_run ();
}
