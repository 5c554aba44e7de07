/* Why a tree may carry fewer taps or none, and what to watch: each a fact and its remedy. They warn and leave
 * the decision to whoever stands before the tree; wires and falling wood are left to those who are trained
 * and licensed. */
#include "words/bush-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* In the order in which they are told: what may kill, what forbids, what takes taps away, what to know. */
static const FrTreeReason order[] = {
  FR_TREE_WIRES,       FR_TREE_DEAD_LIMBS,     FR_TREE_REFUSED,        FR_TREE_FAILING, FR_TREE_WISHED_OFF,
  FR_TREE_TOO_SMALL,   FR_TREE_NO_PLACE,       FR_TREE_OVER_GUIDELINE, FR_TREE_WEAK,    FR_TREE_SLOW,
  FR_TREE_TAPPED_HARD, FR_TREE_GROWTH_UNKNOWN, FR_TREE_SIZE_UNKNOWN,   FR_TREE_NO_RULE, FR_TREE_NOT_ASKED,
  FR_TREE_LEANS,       FR_TREE_ROADSIDE,
};

#define DANGERS (FR_TREE_WIRES | FR_TREE_DEAD_LIMBS)

void
fr_tree_caution_free (FrTreeCaution *caution)
{
  if (caution == NULL)
    return;
  g_free (caution->text);
  g_free (caution);
}

static char *
too_small (const FrBush *bush, const FrBushTree *row, const FrSay *say)
{
  g_autofree char *is = fr_say_amount (say, row->diameter_m, FR_QUANTITY_LENGTH, 1);
  g_autofree char *asked
      = fr_say_amount (say, fr_bush_guideline (bush)->rows[0].from_m, FR_QUANTITY_LENGTH, 1);

  return g_strdup_printf (_ ("%s across, where the guideline taps from %s on. Let it grow."), is, asked);
}

static char *
no_place (const FrBush *bush, const FrSay *say)
{
  const FrBushSpacing rule = fr_bush_spacing (bush);
  g_autofree char *sideways = fr_say_amount (say, rule.sideways_m, FR_QUANTITY_LENGTH, 1);
  g_autofree char *up_down = fr_say_amount (say, rule.up_down_m, FR_QUANTITY_LENGTH, 1);

  return g_strdup_printf (_ ("No place is %s sideways or %s up or down from every old hole. Let it rest, or "
                             "widen the range of heights."),
                          sideways, up_down);
}

static char *
slow (const FrBushTree *row, const FrSay *say)
{
  g_autofree char *grew = fr_say_number (say, row->growth_m_per_year * 1e3, 1);
  g_autofree char *least = fr_say_number (say, FR_GROWTH_MIN_M_PER_YEAR * 1e3, 1);

  if (row->growth_m_per_year <= 0)
    return g_strdup (_ ("Its trunk has not grown since it was first measured, so no new wood makes up for a "
                        "hole. One tap fewer; measure it again at the same height."));
  return g_strdup_printf (
      _ ("It grows %s mm thicker a year, under the %s mm that make up for a hole. One tap "
         "fewer until it grows better."),
      grew, least);
}

static char *
over_guideline (const FrBushTree *row)
{
  const guint taps = row->taps_set + row->taps_planned;

  if (taps == 0)
    return g_strdup (_ ("You want it tapped, and the guideline would leave it alone. One tap at most."));
  if (row->taps_max == 0)
    return g_strdup_printf (
        g_dngettext (GETTEXT_PACKAGE, "It has %u tap, where the guideline allows none. Take it away.",
                     "It has %u taps, where the guideline allows none. Take them away.", taps),
        taps);
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%u taps, where the guideline allows %d. Use one fewer.",
                   "%u taps, where the guideline allows %d. Use %u fewer.", taps - (guint)row->taps_max),
      taps, row->taps_max, taps - (guint)row->taps_max);
}

static char *
not_asked (const FrTree *tree, gboolean refused)
{
  const char *owner = tree->owner;

  if (owner == NULL)
    return g_strdup (refused ? _ ("The land’s owner does not want it tapped. Leave it alone.")
                             : _ ("Whether the land’s owner agrees is not noted. Ask before you drill."));
  return g_strdup_printf (refused ? _ ("%s does not want it tapped. Leave it alone.")
                                  : _ ("Whether %s agrees is not noted. Ask before you drill."),
                          owner);
}

char *
fr_tree_reason_sentence (FrTreeReason reason, const FrBush *bush, const FrBushTree *row, const FrSay *say)
{
  const FrTree *tree = row->tree;
  g_autofree char *text = NULL;

  switch (reason)
    {
    case FR_TREE_WIRES:
      return g_strdup (
          _ ("Wires pass near it. Keep ladders, poles and yourself well away from them; only the "
             "line’s owner or a licensed person works there."));
    case FR_TREE_DEAD_LIMBS:
      return g_strdup (_ ("Dead limbs hang in it and may fall, in wind and thaw most of all. Have a trained "
                          "tree worker take them down before anyone stands beneath."));
    case FR_TREE_REFUSED:
      return not_asked (tree, TRUE);
    case FR_TREE_NOT_ASKED:
      return not_asked (tree, FALSE);
    case FR_TREE_FAILING:
      if (g_strcmp0 (tree->health, "dead") == 0)
        return g_strdup (_ ("It is dead. Leave it; dead trunks and tops break without warning."));
      return g_strdup (_ ("It is failing and needs all its sap. Leave it alone."));
    case FR_TREE_WISHED_OFF:
      return g_strdup (_ ("You marked it as never to be tapped."));
    case FR_TREE_TOO_SMALL:
      return too_small (bush, row, say);
    case FR_TREE_NO_PLACE:
      return no_place (bush, say);
    case FR_TREE_OVER_GUIDELINE:
      return over_guideline (row);
    case FR_TREE_WEAK:
      return g_strdup (_ ("It is weak. One tap at most; a year without is better for it."));
    case FR_TREE_SLOW:
      return slow (row, say);
    case FR_TREE_TAPPED_HARD:
      return g_strdup_printf (
          _ ("In the last %d seasons it had more taps than its size allows. One fewer this "
             "year."),
          FR_HEAVY_SEASONS);
    case FR_TREE_GROWTH_UNKNOWN:
      return g_strdup (
          _ ("This guideline gives a second tap only to a tree that grows well. Measure it again "
             "two years or more after the first time."));
    case FR_TREE_SIZE_UNKNOWN:
      text = fr_say_amount (say, FR_BREAST_HEIGHT_M, FR_QUANTITY_LENGTH, 0);
      return g_strdup_printf (_ ("Its size is not known. Measure round the trunk %s above the ground."),
                              text);
    case FR_TREE_NO_RULE:
      return g_strdup (
          _ ("The guidelines speak of maples alone. Ask somebody who taps its kind, and begin with "
             "one tap."));
    case FR_TREE_LEANS:
      return g_strdup (
          _ ("It leans. Have its roots and trunk looked at by somebody who knows trees, and work "
             "from the upper side."));
    case FR_TREE_ROADSIDE:
      return g_strdup (_ ("It stands at a road. Ask whoever keeps the road, stay clear of the traffic, and "
                          "cover the bucket against salt and dust."));
    default:
      g_return_val_if_reached (NULL);
    }
}

GPtrArray *
fr_bush_cautions (const FrBush *bush, const FrBushTree *row, const FrSay *say)
{
  GPtrArray *cautions = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_tree_caution_free);

  g_return_val_if_fail (bush != NULL && row != NULL && say != NULL, cautions);

  for (guint i = 0; i < G_N_ELEMENTS (order); i++)
    if (row->reasons & order[i])
      {
        FrTreeCaution *caution = g_new0 (FrTreeCaution, 1);

        caution->reason = order[i];
        caution->danger = (order[i] & DANGERS) != 0;
        caution->forbids = (order[i] & FR_TREE_FORBIDS) != 0;
        caution->text = fr_tree_reason_sentence (order[i], bush, row, say);
        g_ptr_array_add (cautions, caution);
      }
  return cautions;
}

GPtrArray *
fr_bush_dangers (const FrBush *bush, const gint64 *trees, guint n, const FrSay *say)
{
  GPtrArray *dangers = g_ptr_array_new_with_free_func (g_free);

  g_return_val_if_fail (bush != NULL && (n == 0 || trees != NULL) && say != NULL, dangers);

  for (guint i = 0; i < n; i++)
    {
      const FrBushTree *row = fr_bush_find (bush, trees[i]);

      for (guint k = 0; row != NULL && k < G_N_ELEMENTS (order); k++)
        if (row->reasons & order[k] & DANGERS)
          {
            g_autofree char *text = fr_tree_reason_sentence (order[k], bush, row, say);

            g_ptr_array_add (dangers, g_strdup_printf ("%s: %s", row->tree->name, text));
          }
    }
  return dangers;
}
