/* Trees in words. The sentences are this project's own; what is held is that every fact is in them, none is
 * made up, and what is unknown is not called nothing. */
#include <math.h>
#include <string.h>

#include "words/tree-words.h"

static FrSay
metric (void)
{
  return (FrSay){ .units = { .system = FR_SYSTEM_METRIC, .decimal_mark = '.' }, .currency = "CAD" };
}

static FrBushTree
row (FrTree *tree)
{
  return (FrBushTree){ .id = 1,
                       .tree = tree,
                       .group = FR_TREE_HARD,
                       .diameter_m = NAN,
                       .girth_m = NAN,
                       .growth_m_per_year = NAN,
                       .taps_by_size = -1,
                       .taps_max = -1,
                       .season_l = NAN,
                       .estimated_l = NAN,
                       .season_brix = NAN,
                       .season_sugar_kg = NAN,
                       .last_l = NAN,
                       .trend_ratio = NAN };
}

static FrTree *
tree_called (const char *name, const char *species, const char *health)
{
  FrRecord *record = fr_record_new (FR_KIND_TREE);

  fr_record_set_text (record, fr_kind_field (record->kind, "name"), name);
  fr_record_set_text (record, fr_kind_field (record->kind, "species"), species);
  fr_record_set_text (record, fr_kind_field (record->kind, "health"), health);
  return (FrTree *)record;
}

/* Every kind of space as one blank, as a person reads it. */
static char *
plain (char *text)
{
  GString *out = g_string_new (NULL);

  for (const char *c = text; *c != '\0'; c = g_utf8_next_char (c))
    if (g_unichar_isspace (g_utf8_get_char (c)))
      g_string_append_c (out, ' ');
    else
      g_string_append_len (out, c, g_utf8_next_char (c) - c);
  g_free (text);
  return g_string_free (out, FALSE);
}

static void
test_every_code_has_a_word (void)
{
  const FrField *species = fr_kind_field (fr_kind (FR_KIND_TREE), "species");

  for (guint i = 0; species->codes[i] != NULL; i++)
    {
      g_assert_cmpstr (fr_species_word (species->codes[i]), !=, species->codes[i]);
      for (guint k = 0; k < i; k++)
        g_assert_cmpstr (fr_species_word (species->codes[i]), !=, fr_species_word (species->codes[k]));
    }
  g_assert_cmpstr (fr_species_word ("oak"), ==, "oak");
}

static void
test_taps_short (void)
{
  g_autoptr (FrRecord) tree = (FrRecord *)tree_called ("Gate", "sugar", "healthy");
  static const struct
  {
    guint set, planned;
    const char *text;
  } cases[] = { { 0, 0, "–" }, { 2, 0, "2" }, { 0, 1, "(1)" }, { 1, 1, "1 (1)" } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      FrBushTree is = row ((FrTree *)tree);
      g_autofree char *text = NULL;

      is.taps_set = cases[i].set;
      is.taps_planned = cases[i].planned;
      text = fr_tree_taps_short (&is);
      g_assert_cmpstr (text, ==, cases[i].text);
    }
}

static void
test_spoken (void)
{
  g_autoptr (FrRecord) tree = (FrRecord *)tree_called ("Gate", "sugar", "healthy");
  FrBushTree is = row ((FrTree *)tree);
  FrSay say = metric ();
  g_autofree char *text = NULL;

  is.diameter_m = 0.611;
  is.taps_set = is.taps_planned = 1;
  is.season_l = 9.4;
  is.reasons = FR_TREE_LEANS | FR_TREE_ROADSIDE;
  text = plain (fr_tree_spoken (&is, &say));
  g_assert_cmpstr (
      text, ==,
      "Gate. Sugar maple, 61 cm thick, healthy. 1 tap set, 1 planned. 9.4 L this season. Mind: leans, at "
      "the road.");
  g_free (text);
  is.season_l = NAN;
  is.estimated_l = 12.3;
  is.reasons = 0;
  text = plain (fr_tree_spoken (&is, &say));
  g_assert_cmpstr (text, ==,
                   "Gate. Sugar maple, 61 cm thick, healthy. 1 tap set, 1 planned. About 12.3 L of shared totals.");
}

static void
test_spoken_forbids (void)
{
  g_autoptr (FrRecord) tree = (FrRecord *)tree_called ("Old Lady", "sugar", "failing");
  FrBushTree is = row ((FrTree *)tree);
  FrSay say = metric ();
  g_autofree char *text = NULL;

  is.diameter_m = 0.88;
  is.reasons = FR_TREE_FAILING | FR_TREE_WISHED_OFF | FR_TREE_DEAD_LIMBS;
  text = plain (fr_tree_spoken (&is, &say));
  g_assert_cmpstr (
      text, ==,
      "Old Lady. Sugar maple, 88 cm thick, failing. No taps. Do not tap: failing or dead, you want it "
      "left alone. Mind: dead limbs above.");
}

static void
test_unknown_is_said (void)
{
  g_autoptr (FrRecord) tree = (FrRecord *)tree_called ("Bend", "walnut", "unknown");
  FrBushTree is = row ((FrTree *)tree);
  FrSay say = metric ();
  g_autofree char *text = NULL, *subtitle = NULL;

  is.reasons = FR_TREE_SIZE_UNKNOWN | FR_TREE_NO_RULE;
  text = plain (fr_tree_spoken (&is, &say));
  subtitle = plain (fr_tree_subtitle (&is, &say));
  g_assert_cmpstr (text, ==, "Bend. Walnut, not measured, health not noted. No taps.");
  g_assert_cmpstr (subtitle, ==, "Walnut · not measured · health not noted");
}

static void
test_subtitle_in_inches (void)
{
  g_autoptr (FrRecord) tree = (FrRecord *)tree_called ("Gate", "black", "weak");
  FrBushTree is = row ((FrTree *)tree);
  FrSay say = metric ();
  g_autofree char *text = NULL;

  say.units.system = FR_SYSTEM_US;
  is.diameter_m = 24 * 0.0254;
  is.girth_m = 24 * 0.0254 * G_PI;
  text = plain (fr_tree_subtitle (&is, &say));
  g_assert_cmpstr (text, ==, "Black maple · 24 in thick · 75 in round · weak");
}

static void
test_reasons (void)
{
  g_autofree char *three = fr_tree_reasons_words (FR_TREE_WEAK | FR_TREE_WIRES | FR_TREE_TOO_SMALL);

  g_assert_null (fr_tree_reasons_words (0));
  g_assert_cmpstr (three, ==, "too thin, weak, wires close by");
}

/* Clockwise from north, as a compass counts. */
static void
test_ways (void)
{
  static const struct
  {
    double east_m, north_m;
    const char *text;
  } cases[] = { { 0, 10, "10.0 m, 0°" },  { 10, 0, "10.0 m, 90°" }, { 0, -5, "5.0 m, 180°" },
                { -3, 4, "5.0 m, 323°" }, { 3, -4, "5.0 m, 143°" }, { -0.0001, 12.4, "12.4 m, 0°" } };
  FrSay say = metric ();

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = plain (fr_way_words (cases[i].east_m, cases[i].north_m, &say));

      g_assert_cmpstr (text, ==, cases[i].text);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tree-words/every-code-has-a-word", test_every_code_has_a_word);
  g_test_add_func ("/tree-words/taps-short", test_taps_short);
  g_test_add_func ("/tree-words/spoken", test_spoken);
  g_test_add_func ("/tree-words/spoken-forbids", test_spoken_forbids);
  g_test_add_func ("/tree-words/unknown-is-said", test_unknown_is_said);
  g_test_add_func ("/tree-words/subtitle-in-inches", test_subtitle_in_inches);
  g_test_add_func ("/tree-words/reasons", test_reasons);
  g_test_add_func ("/tree-words/ways", test_ways);
  return g_test_run ();
}
