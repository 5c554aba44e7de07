/* The tapping plan and the gathering round in words: first what to do, then what it brings and how sure that
 * is, then what limits it. */
#include "words/bush-words.h"
#include "words/plan-words-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define WORTH_SAYING_KG 0.005 /* less is nothing to a household */

/* A mass, as fine as one of @of_kg is told. */
static char *
kilograms (const FrSay *say, double mass_kg, double of_kg)
{
  return fr_say_amount (say, mass_kg, FR_QUANTITY_MASS, of_kg < 10 ? 2 : 1);
}

static char *
metres (const FrSay *say, double way_m)
{
  return fr_say_amount (say, way_m, FR_QUANTITY_DISTANCE, 0);
}

static char *
percent_over (const FrSay *say, double more, double less)
{
  const double ratio = less > 0 ? more / less - 1 : 0;

  /* Rounded up: never nearer than it is. */
  return fr_say_number (say, ceil (ratio * 1000) / 10, 1);
}

/* --- plan --- */

static char *
plan_sentence (const FrBushPlan *plan)
{
  g_autofree char *buckets = NULL, *trees = NULL;

  switch (plan->code)
    {
    case FR_BUSH_PLAN_NO_BUCKETS:
      return g_strdup (_ ("Say how many buckets there are, and this says where to hang them."));
    case FR_BUSH_PLAN_NO_TREES:
      return g_strdup (_ ("No tree may be tapped. Measure the trunks, or choose another guideline."));
    case FR_BUSH_PLAN_TOO_MANY_MUST:
      return g_strdup_printf (
          g_dngettext (GETTEXT_PACKAGE,
                       "%u tree is always to be tapped, more than buckets, trees or kitchen allow. Raise a "
                       "limit or leave it open.",
                       "%u trees are always to be tapped, more than buckets, trees or kitchen allow. Raise a "
                       "limit or leave some open.",
                       plan->musts),
          plan->musts);
    case FR_BUSH_PLAN_OK:
    default:
      break;
    }
  buckets = fr_say_bold (
      g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u bucket", "%u buckets", plan->n_taps), plan->n_taps));
  trees = fr_say_bold (
      g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u tree", "%u trees", plan->n_trees), plan->n_trees));
  /* Translators: "Hang 14 buckets on 11 trees." */
  return g_strdup_printf (_ ("Hang %s on %s."), buckets, trees);
}

static char *
plan_reason (const FrBushPlan *plan, const FrSay *say)
{
  g_autofree char *sugar = kilograms (say, plan->sugar_kg, plan->sugar_kg);
  g_autofree char *volume = fr_say_amount (say, plan->volume_l, FR_QUANTITY_VOLUME, 0);
  g_autofree char *low = NULL, *high = NULL;

  if (isnan (plan->sugar_low_kg) || isnan (plan->sugar_high_kg))
    return g_strdup_printf (_ ("They are expected to bring %s of sugar in %s of sap."), sugar, volume);
  low = kilograms (say, plan->sugar_low_kg, plan->sugar_kg);
  high = kilograms (say, plan->sugar_high_kg, plan->sugar_kg);
  return g_strdup_printf (
      _ ("They are expected to bring %s of sugar in %s of sap; eight seasons in ten between %s and %s."),
      sugar, volume, low, high);
}

static void
plan_limits (GPtrArray *notes, const FrBush *bush, const FrBushPlan *plan, const FrSay *say)
{
  if (plan->kitchen_limits)
    {
      g_autofree char *peak = fr_say_amount (say, plan->peak_l, FR_QUANTITY_VOLUME, 0);

      g_ptr_array_add (notes, g_strdup_printf (_ ("The kitchen is the limit: %s come on a peak day."), peak));
    }
  else if (plan->kitchen_from_buckets > 0)
    g_ptr_array_add (notes, g_strdup_printf (_ ("From %u buckets on, the kitchen is the limit."),
                                             plan->kitchen_from_buckets));
  if (plan->walk_limits && bush != NULL)
    {
      g_autofree char *walk = metres (say, plan->walk_m);

      g_ptr_array_add (
          notes, g_strdup_printf (_ ("Trees were left out to keep the round short: it is %s. Others might "
                                     "have been left out instead; this is a good choice, not a proven one."),
                                  walk));
    }
}

static void
plan_notes (GPtrArray *notes, const FrBush *bush, const FrBushPlan *plan, const FrSay *say)
{
  if (plan->next_bucket_kg >= WORTH_SAYING_KG)
    {
      g_autofree char *more = kilograms (say, plan->next_bucket_kg, plan->next_bucket_kg);

      g_ptr_array_add (notes, g_strdup_printf (_ ("One more bucket would add %s of sugar."), more));
    }
  else if (!isnan (plan->next_bucket_kg))
    g_ptr_array_add (notes, g_strdup (_ ("One more bucket would add nothing.")));
  plan_limits (notes, bush, plan, say);
  if (plan->n_unplaced > 0)
    g_ptr_array_add (
        notes, g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                             "%u chosen tree has no place on the map yet: the round is "
                                             "longer than is said.",
                                             "%u chosen trees have no place on the map yet: the round is "
                                             "longer than is said.",
                                             plan->n_unplaced),
                                plan->n_unplaced));
  if (!plan->is_exact && !plan->walk_limits && !isnan (plan->bound_kg))
    {
      g_autofree char *percent = percent_over (say, plan->bound_kg, plan->sugar_kg);

      g_ptr_array_add (notes, g_strdup_printf (_ ("No choice can bring over %s %% more."), percent));
    }
}

static GPtrArray *
plan_dangers (const FrBush *bush, const FrBushPlan *plan, const FrSay *say)
{
  g_autoptr (GArray) trees = g_array_new (FALSE, FALSE, sizeof (gint64));

  for (guint i = 0; bush != NULL && plan->taps != NULL && i < plan->taps->len; i++)
    if (g_array_index (plan->taps, guint, i) > 0)
      g_array_append_val (trees, fr_bush_tree_at (bush, i)->id);
  return bush != NULL ? fr_bush_dangers (bush, (const gint64 *)(gconstpointer)trees->data, trees->len, say)
                      : g_ptr_array_new_with_free_func (g_free);
}

FrBushPlanWords *
fr_bush_plan_words_new (const FrBush *bush, const FrBushPlan *plan, const FrSay *say)
{
  FrBushPlanWords *words;

  g_return_val_if_fail (plan != NULL && say != NULL, NULL);

  words = g_new0 (FrBushPlanWords, 1);
  words->figures = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_figure_free);
  words->notes = g_ptr_array_new_with_free_func (g_free);
  words->dangers = plan_dangers (bush, plan, say);
  words->sentence = plan_sentence (plan);
  if (plan->code != FR_BUSH_PLAN_OK)
    return words;
  words->reason = plan_reason (plan, say);
  g_ptr_array_add (words->figures, fr_figure_of_amount (say, _ ("Sugar"), plan->sugar_kg, FR_QUANTITY_MASS,
                                                        plan->sugar_kg < 10 ? 2 : 1, NULL));
  g_ptr_array_add (words->figures,
                   fr_figure_of_amount (say, _ ("Sap"), plan->volume_l, FR_QUANTITY_VOLUME, 0, NULL));
  if (!isnan (plan->peak_l))
    g_ptr_array_add (words->figures,
                     fr_figure_of_amount (say, _ ("Peak day"), plan->peak_l, FR_QUANTITY_VOLUME, 0, NULL));
  if (!isnan (plan->next_bucket_kg))
    g_ptr_array_add (words->figures, fr_figure_of_amount (say, _ ("Next bucket"), plan->next_bucket_kg,
                                                          FR_QUANTITY_MASS, 2, NULL));
  if (!isnan (plan->walk_m))
    g_ptr_array_add (words->figures,
                     fr_figure_of_amount (say, _ ("Round"), plan->walk_m, FR_QUANTITY_DISTANCE, 0, NULL));
  plan_notes (words->notes, bush, plan, say);
  return words;
}

void
fr_bush_plan_words_free (FrBushPlanWords *words)
{
  if (words == NULL)
    return;
  g_free (words->sentence);
  g_free (words->reason);
  g_ptr_array_unref (words->figures);
  g_ptr_array_unref (words->dangers);
  g_ptr_array_unref (words->notes);
  g_free (words);
}

/* --- round --- */

static guint
n_trees_of (const FrBushRound *round)
{
  g_autoptr (GHashTable) trees = g_hash_table_new (g_int64_hash, g_int64_equal);

  for (guint i = 0; i < round->stops->len; i++)
    g_hash_table_add (trees, &g_array_index (round->stops, FrBushStop, i).tree);
  return g_hash_table_size (trees);
}

static char *
round_sentence (const FrBushRound *round, const FrSay *say)
{
  const guint n = n_trees_of (round);
  g_autofree char *way = fr_say_bold (metres (say, round->walk_m));
  g_autofree char *trees
      = fr_say_bold (g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u tree", "%u trees", n), n));
  g_autofree char *trips = NULL;

  if (round->n_trips == 1)
    /* Translators: "Walk 212 m past 11 trees." */
    return g_strdup_printf (_ ("Walk %s past %s."), way, trees);
  trips = fr_say_bold (
      g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u trip", "%u trips", round->n_trips), round->n_trips));
  /* Translators: "Walk 812 m in 3 trips past 11 trees." */
  return g_strdup_printf (_ ("Walk %s in %s past %s."), way, trips, trees);
}

static char *
round_reason (const FrBushRound *round, const FrSay *say)
{
  g_autofree char *bound = NULL, *percent = NULL;

  if (round->is_exact)
    return g_strdup (_ ("No order is shorter."));
  bound = metres (say, round->bound_m);
  percent = percent_over (say, round->walk_m, round->bound_m);
  return g_strdup_printf (_ ("No order is shorter than %s; this one is at most %s %% longer."), bound,
                          percent);
}

FrBushRoundWords *
fr_bush_round_words_new (const FrBushRound *round, const FrSay *say)
{
  FrBushRoundWords *words;

  g_return_val_if_fail (say != NULL, NULL);

  words = g_new0 (FrBushRoundWords, 1);
  words->figures = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_figure_free);
  words->notes = g_ptr_array_new_with_free_func (g_free);
  if (round == NULL)
    {
      words->sentence
          = g_strdup (_ ("No tree to walk to. Set a tap or plan one, and give the tree its place."));
      return words;
    }
  words->sentence = round_sentence (round, say);
  words->reason = round_reason (round, say);
  g_ptr_array_add (words->figures,
                   fr_figure_of_amount (say, _ ("Way"), round->walk_m, FR_QUANTITY_DISTANCE, 0, NULL));
  g_ptr_array_add (words->figures,
                   fr_figure_of_amount (say, _ ("Sap"), round->volume_l, FR_QUANTITY_VOLUME, 1, NULL));
  g_ptr_array_add (words->figures,
                   fr_figure_new (g_strdup (_ ("Trips")), fr_say_number (say, round->n_trips, 0), "", NULL));
  g_ptr_array_add (words->figures, fr_figure_new (g_strdup (_ ("Carried")),
                                                  fr_say_number (say, round->litre_metres, 0), "L·m", NULL));
  if (round->n_unplaced > 0)
    g_ptr_array_add (
        words->notes,
        g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u tree has no place on the map yet and is left out.",
                                      "%u trees have no place on the map yet and are left out.",
                                      round->n_unplaced),
                         round->n_unplaced));
  if (!round->has_start)
    g_ptr_array_add (words->notes,
                     g_strdup (_ ("No boiling place is drawn, so the round starts in the middle "
                                  "of the trees.")));
  return words;
}

void
fr_bush_round_words_free (FrBushRoundWords *words)
{
  if (words == NULL)
    return;
  g_free (words->sentence);
  g_free (words->reason);
  g_ptr_array_unref (words->figures);
  g_ptr_array_unref (words->notes);
  g_free (words);
}
