/* Trees in words. What is unknown is left out or called unknown, never 0. */
#include "words/tree-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

static const struct
{
  const char *code;
  const char *word;
} species[] = {
  { "sugar", N_ ("Sugar maple") },   { "black", N_ ("Black maple") },   { "red", N_ ("Red maple") },
  { "silver", N_ ("Silver maple") }, { "norway", N_ ("Norway maple") }, { "bigleaf", N_ ("Bigleaf maple") },
  { "boxelder", N_ ("Boxelder") },   { "other", N_ ("Another maple") }, { "birch", N_ ("Birch") },
  { "walnut", N_ ("Walnut") },
};

static const struct
{
  guint bit;
  const char *word;
} reasons_told[] = {
  { FR_TREE_FAILING, N_ ("failing or dead") },
  { FR_TREE_REFUSED, N_ ("its owner refused") },
  { FR_TREE_WISHED_OFF, N_ ("you want it left alone") },
  { FR_TREE_TOO_SMALL, N_ ("too thin") },
  { FR_TREE_NO_PLACE, N_ ("no place clear of old holes") },
  { FR_TREE_WEAK, N_ ("weak") },
  { FR_TREE_SLOW, N_ ("grows slowly") },
  { FR_TREE_TAPPED_HARD, N_ ("tapped hard lately") },
  { FR_TREE_OVER_GUIDELINE, N_ ("more taps than the guideline allows") },
  { FR_TREE_SIZE_UNKNOWN, N_ ("not measured") },
  { FR_TREE_NO_RULE, N_ ("no maple, so no rule") },
  { FR_TREE_DEAD_LIMBS, N_ ("dead limbs above") },
  { FR_TREE_WIRES, N_ ("wires close by") },
  { FR_TREE_LEANS, N_ ("leans") },
  { FR_TREE_ROADSIDE, N_ ("at the road") },
  { FR_TREE_NOT_ASKED, N_ ("owner not asked") },
};

const char *
fr_species_word (const char *code)
{
  for (guint i = 0; i < G_N_ELEMENTS (species); i++)
    if (g_strcmp0 (species[i].code, code) == 0)
      return _ (species[i].word);
  return code;
}

const char *
fr_health_word (const char *code)
{
  static const char *const words[][2] = {
    { "healthy", N_ ("healthy") },
    { "weak", N_ ("weak") },
    { "failing", N_ ("failing") },
    { "dead", N_ ("dead") },
  };

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (g_strcmp0 (words[i][0], code) == 0)
      return _ (words[i][1]);
  return _ ("health not noted");
}

const char *
fr_tree_group_word (FrTreeGroup group)
{
  switch (group)
    {
    case FR_TREE_HARD:
      return _ ("Hard");
    case FR_TREE_SOFT:
      return _ ("Soft");
    case FR_TREE_OTHER:
      return _ ("Other");
    case FR_TREE_NOT_MAPLE:
    default:
      return _ ("Not maple");
    }
}

char *
fr_tree_taps_short (const FrBushTree *tree)
{
  if (tree->taps_set > 0 && tree->taps_planned > 0)
    return g_strdup_printf ("%u (%u)", tree->taps_set, tree->taps_planned);
  if (tree->taps_planned > 0)
    return g_strdup_printf ("(%u)", tree->taps_planned);
  return tree->taps_set > 0 ? g_strdup_printf ("%u", tree->taps_set) : g_strdup ("–");
}

static char *
taps_set (guint n)
{
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u tap set", "%u taps set", n), n);
}

char *
fr_tree_taps_words (const FrBushTree *tree)
{
  g_autofree char *set = taps_set (tree->taps_set);

  if (tree->taps_set > 0 && tree->taps_planned > 0)
    /* Translators: "1 tap set, 1 planned" */
    return g_strdup_printf (_ ("%s, %u planned"), set, tree->taps_planned);
  if (tree->taps_planned > 0)
    return g_strdup_printf (
        g_dngettext (GETTEXT_PACKAGE, "%u tap planned", "%u taps planned", tree->taps_planned),
        tree->taps_planned);
  return tree->taps_set > 0 ? g_steal_pointer (&set) : g_strdup (_ ("No taps"));
}

/* "61 cm thick", or that nobody measured. */
static char *
thickness (const FrBushTree *tree, const FrSay *say)
{
  g_autofree char *amount = NULL;

  if (isnan (tree->diameter_m))
    return g_strdup (_ ("not measured"));
  amount = fr_say_amount (say, tree->diameter_m, FR_QUANTITY_LENGTH, 0);
  return g_strdup_printf (_ ("%s thick"), amount);
}

char *
fr_tree_subtitle (const FrBushTree *tree, const FrSay *say)
{
  g_autofree char *thick = thickness (tree, say);
  GString *text = g_string_new (fr_species_word (tree->tree->species));

  g_string_append_printf (text, " · %s", thick);
  if (!isnan (tree->girth_m))
    {
      g_autofree char *girth = fr_say_amount (say, tree->girth_m, FR_QUANTITY_LENGTH, 0);

      g_string_append (text, " · ");
      g_string_append_printf (text, _ ("%s round"), girth);
    }
  g_string_append_printf (text, " · %s", fr_health_word (tree->tree->health));
  return g_string_free (text, FALSE);
}

char *
fr_tree_reasons_words (guint reasons)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (reasons_told); i++)
    if ((reasons & reasons_told[i].bit) != 0)
      g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", _ (reasons_told[i].word));
  return g_string_free (text, text->len == 0);
}

char *
fr_tree_spoken (const FrBushTree *tree, const FrSay *say)
{
  const char *kind = fr_species_word (tree->tree->species);
  const char *health = fr_health_word (tree->tree->health);
  g_autofree char *thick = thickness (tree, say), *taps = fr_tree_taps_words (tree);
  g_autofree char *watch = fr_tree_reasons_words (
      tree->reasons & ~(guint)(FR_TREE_FORBIDDING | FR_TREE_SIZE_UNKNOWN | FR_TREE_WEAK | FR_TREE_NO_RULE));
  /* Translators: name; kind of tree, thickness, health; taps: "Gate. Sugar maple, 61 cm thick, healthy. 1 tap
   * set." */
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, _ ("%s. %s, %s, %s. %s."), tree->tree->name, kind, thick, health, taps);
  if (!isnan (tree->season_l))
    {
      g_autofree char *litres = fr_say_amount (say, tree->season_l, FR_QUANTITY_VOLUME, -1);

      g_string_append_c (text, ' ');
      g_string_append_printf (text, _ ("%s this season."), litres);
    }
  if (!isnan (tree->estimated_l))
    {
      g_autofree char *litres = fr_say_amount (say, tree->estimated_l, FR_QUANTITY_VOLUME, -1);

      g_string_append_c (text, ' ');
      /* Translators: a tree's share of what several trees gave together, "About 12 L of shared totals." */
      g_string_append_printf (text, _ ("About %s of shared totals."), litres);
    }
  if ((tree->reasons & FR_TREE_FORBIDDING) != 0)
    {
      g_autofree char *why = fr_tree_reasons_words (tree->reasons & FR_TREE_FORBIDDING);

      g_string_append_c (text, ' ');
      g_string_append_printf (text, _ ("Do not tap: %s."), why);
    }
  if (watch != NULL)
    {
      g_string_append_c (text, ' ');
      /* Translators: what to watch about a tree, "Mind: leans, at the road." */
      g_string_append_printf (text, _ ("Mind: %s."), watch);
    }
  return g_string_free (text, FALSE);
}

char *
fr_bush_spoken (const FrBush *bush, const FrSay *say)
{
  guint n = fr_bush_n_trees (bush), set = 0, planned = 0;
  double volume_l = 0;
  gboolean any = FALSE;
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < n; i++)
    {
      const FrBushTree *tree = fr_bush_tree_at (bush, i);

      set += tree->taps_set;
      planned += tree->taps_planned;
      if (!isnan (tree->season_l))
        {
          volume_l += tree->season_l;
          any = TRUE;
        }
    }
  g_string_append_printf (text, g_dngettext (GETTEXT_PACKAGE, "%u tree", "%u trees", n), n);
  if (set > 0)
    {
      g_autofree char *words = taps_set (set);

      g_string_append_printf (text, ", %s", words);
    }
  if (planned > 0)
    {
      g_string_append (text, ", ");
      g_string_append_printf (text, _ ("%u planned"), planned);
    }
  if (any)
    {
      g_autofree char *litres = fr_say_amount (say, volume_l, FR_QUANTITY_VOLUME, -1);

      g_string_append (text, ", ");
      g_string_append_printf (text, _ ("%s this season"), litres);
    }
  return g_string_free (text, FALSE);
}

char *
fr_way_words (double east_m, double north_m, const FrSay *say)
{
  g_autofree char *way = fr_say_amount (say, hypot (east_m, north_m), FR_QUANTITY_DISTANCE, 1);
  double bearing_deg = atan2 (east_m, north_m) * 180 / G_PI;
  int whole = (int)floor (bearing_deg + 0.5);

  if (whole < 0)
    whole += 360;
  /* Translators: distance and compass bearing, "12.4 m, 305°" */
  return g_strdup_printf (_ ("%s, %d°"), way, whole % 360);
}
