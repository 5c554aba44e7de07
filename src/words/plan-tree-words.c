/* A tree may be left out for several reasons; it is told under the one that has to go first: what forbids it,
 * then what nobody measured, then what takes its taps away, then that others bring more. */
#include "words/plan-tree-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define NAMES_MOST 12

/* In the order they are told in. */
typedef enum
{
  OUT_UNMEASURED,
  OUT_OTHERS,
  OUT_SHORT_WALK,
  OUT_RESTS,
  OUT_SMALL,
  OUT_NO_PLACE,
  OUT_NEVER,
  OUT_REFUSED,
  OUT_FAILING,
  OUT_NO_TAPS,
  OUT_NO_RULE,
  N_OUTS
} Out;

static const struct
{
  const char *why;
  const char *remedy;
} outs[N_OUTS] = {
  [OUT_UNMEASURED] = { N_ ("Not measured"), N_ ("Measure the trunk, and they count.") },
  [OUT_OTHERS] = { N_ ("Others bring more"), NULL },
  [OUT_SHORT_WALK] = { N_ ("Others bring more for the walk"), NULL },
  [OUT_RESTS] = { N_ ("Rest this year"), N_ ("Weak, slow to grow, or tapped hard.") },
  [OUT_SMALL] = { N_ ("Too thin for the guideline"), NULL },
  [OUT_NO_PLACE] = { N_ ("No place clear of old holes"), N_ ("Another spacing may have one.") },
  [OUT_NEVER] = { N_ ("Never, by your choice"), N_ ("Changed in the tree’s panel.") },
  [OUT_REFUSED] = { N_ ("The land’s owner refused"), NULL },
  [OUT_FAILING] = { N_ ("Failing or dead"), NULL },
  [OUT_NO_RULE] = { N_ ("Not a maple: no guideline holds"), NULL },
  [OUT_NO_TAPS] = { N_ ("The guideline gives them no tap"), NULL },
};

void
fr_left_out_free (FrLeftOut *left_out)
{
  if (left_out == NULL)
    return;
  g_free (left_out->why);
  g_free (left_out->names);
  g_free (left_out->remedy);
  g_free (left_out);
}

static Out
why_out (const FrBushTree *tree, const FrBushPlan *plan)
{
  if (tree->reasons & FR_TREE_FAILING)
    return OUT_FAILING;
  if (tree->reasons & FR_TREE_REFUSED)
    return OUT_REFUSED;
  if (tree->reasons & FR_TREE_WISHED_OFF)
    return OUT_NEVER;
  if (tree->taps_max < 0)
    return tree->reasons & FR_TREE_NO_RULE ? OUT_NO_RULE : OUT_UNMEASURED;
  if (tree->reasons & FR_TREE_TOO_SMALL)
    return OUT_SMALL;
  if (tree->reasons & FR_TREE_NO_PLACE)
    return OUT_NO_PLACE;
  if (tree->taps_max > 0)
    return plan->walk_limits ? OUT_SHORT_WALK : OUT_OTHERS;
  return tree->reasons & (FR_TREE_WEAK | FR_TREE_SLOW | FR_TREE_TAPPED_HARD) ? OUT_RESTS : OUT_NO_TAPS;
}

static gint
by_name (gconstpointer a, gconstpointer b)
{
  const char *const *one = a, *const *two = b;

  return g_utf8_collate (*one, *two);
}

static char *
join_names (GPtrArray *names)
{
  GString *text = g_string_new (NULL);

  g_ptr_array_sort (names, by_name);
  for (guint i = 0; i < MIN (names->len, NAMES_MOST); i++)
    g_string_append_printf (text, "%s%s", i > 0 ? ", " : "", (const char *)names->pdata[i]);
  if (names->len > NAMES_MOST)
    {
      const guint more = names->len - NAMES_MOST;

      g_string_append (text, " ");
      g_string_append_printf (text, g_dngettext (GETTEXT_PACKAGE, "and %u more", "and %u more", more), more);
    }
  return g_string_free (text, FALSE);
}

GPtrArray *
fr_left_out_words (const FrBush *bush, const FrBushPlan *plan)
{
  GPtrArray *all = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_left_out_free);
  GPtrArray *names[N_OUTS];

  g_return_val_if_fail (bush != NULL && plan != NULL, all);

  for (guint k = 0; k < N_OUTS; k++)
    names[k] = g_ptr_array_new ();
  for (guint i = 0; i < fr_bush_n_trees (bush); i++)
    {
      const FrBushTree *tree = fr_bush_tree_at (bush, i);

      if (i >= plan->taps->len || g_array_index (plan->taps, guint, i) == 0)
        g_ptr_array_add (names[why_out (tree, plan)], tree->tree->name);
    }
  for (guint k = 0; k < N_OUTS; k++)
    {
      if (names[k]->len > 0)
        {
          FrLeftOut *left_out = g_new0 (FrLeftOut, 1);

          left_out->why = g_strdup (_ (outs[k].why));
          left_out->n = names[k]->len;
          left_out->names = join_names (names[k]);
          left_out->remedy = outs[k].remedy != NULL ? g_strdup (_ (outs[k].remedy)) : NULL;
          g_ptr_array_add (all, left_out);
        }
      g_ptr_array_unref (names[k]);
    }
  return all;
}

/* Litres of a season: whole ones, for nobody knows them better. */
static char *
span (const FrSay *say, double low, double high, FrQuantityKind kind, int decimals)
{
  g_autofree char *from = NULL, *to = NULL;
  const char *unit;

  fr_quantity_format (low, kind, &say->units, decimals, &from, &unit);
  fr_quantity_format (high, kind, &say->units, decimals, &to, &unit);
  return g_strdup_printf ("%s–%s", from, to);
}

FrChosenWords *
fr_chosen_words_new (const FrBush *bush, const FrBushTree *tree, guint taps, const FrSay *say)
{
  FrChosenWords *words = g_new0 (FrChosenWords, 1);
  FrTreeExpected expected;
  g_autofree char *n_taps = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u tap", "%u taps", taps), taps);

  g_return_val_if_fail (bush != NULL && tree != NULL && say != NULL, words);

  words->taps = g_strdup_printf ("%u", taps);
  if (!fr_bush_expect (bush, tree->id, taps, &expected))
    return words;
  words->litres = fr_say_amount (say, expected.volume_l, FR_QUANTITY_VOLUME, 0);
  words->litres_span = span (say, expected.volume_low_l, expected.volume_high_l, FR_QUANTITY_VOLUME, 0);
  words->sugar = fr_say_amount (say, expected.sugar_kg, FR_QUANTITY_MASS, 2);
  words->sugar_span = span (say, expected.sugar_low_kg, expected.sugar_high_kg, FR_QUANTITY_MASS, 2);
  if (g_strcmp0 (tree->tree->choice, "must") == 0)
    words->note = g_strdup (_ ("always"));
  else if (tree->taps_set > 0)
    words->note = g_strdup_printf (_ ("%u set"), tree->taps_set);
  /* Translators: tree, "2 taps", litres, span of litres, sugar, span of sugar */
  words->spoken
      = g_strdup_printf (_ ("%s: %s, %s of sap, eight seasons in ten %s, %s of sugar, %s."), tree->tree->name,
                         n_taps, words->litres, words->litres_span, words->sugar, words->sugar_span);
  return words;
}

void
fr_chosen_words_free (FrChosenWords *words)
{
  if (words == NULL)
    return;
  g_free (words->taps);
  g_free (words->litres);
  g_free (words->litres_span);
  g_free (words->sugar);
  g_free (words->sugar_span);
  g_free (words->note);
  g_free (words->spoken);
  g_free (words);
}

char *
fr_plan_curve_words (const FrBushPlan *plan, guint buckets, const FrSay *say)
{
  g_autofree char *n
      = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u bucket", "%u buckets", buckets), buckets);
  g_autofree char *sugar = NULL, *more = NULL;
  double kg, next_kg;

  g_return_val_if_fail (plan != NULL && say != NULL, NULL);

  if (buckets >= plan->curve->len)
    return NULL;
  kg = g_array_index (plan->curve, double, buckets);
  if (isnan (kg))
    /* Translators: %s is "3 buckets" */
    return g_strdup_printf (_ ("%s: fewer than the trees that are always tapped."), n);
  sugar = fr_say_amount (say, kg, FR_QUANTITY_MASS, kg < 10 ? 2 : 1);
  next_kg = buckets + 1 < plan->curve->len ? g_array_index (plan->curve, double, buckets + 1) - kg : NAN;
  if (isnan (next_kg))
    return g_strdup_printf (_ ("%s: %s of sugar."), n, sugar);
  if (next_kg < 0.005)
    return g_strdup_printf (_ ("%s: %s of sugar. One more adds nothing."), n, sugar);
  more = fr_say_amount (say, next_kg, FR_QUANTITY_MASS, 2);
  return g_strdup_printf (_ ("%s: %s of sugar. One more adds %s."), n, sugar, more);
}
