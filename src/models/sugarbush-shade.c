/* How full a tree's symbol is by the chosen shading: from nothing to the usual most, or the most there is
 * where that is more. */
#include "models/sugarbush-private.h"

#include <math.h>

/* A good season of one tap, and sap as sweet as maples often give; common practice, no source. */
#define USUAL_MOST_L 15
#define USUAL_MOST_BRIX 4

static double
litres_a_tap (const FrBushTree *tree)
{
  return tree->taps_set > 0 ? tree->season_l / tree->taps_set : NAN;
}

void
fr_sugarbush_find_most (FrSugarbush *self)
{
  self->most_l = USUAL_MOST_L;
  self->most_brix = USUAL_MOST_BRIX;
  for (guint i = 0; i < fr_bush_n_trees (self->bush); i++)
    {
      const FrBushTree *tree = fr_bush_tree_at (self->bush, i);

      self->most_l = fmax (self->most_l, litres_a_tap (tree));
      self->most_brix = fmax (self->most_brix, tree->season_brix);
    }
}

void
fr_sugarbush_set_shade (FrSugarbush *self, FrTreeShade shade)
{
  if (self->shade == shade)
    return;
  self->shade = shade;
  g_signal_emit_by_name (self, "changed");
}

FrTreeShade
fr_sugarbush_get_shade (FrSugarbush *self)
{
  return self->shade;
}

gboolean
fr_sugarbush_get_shade_range (FrSugarbush *self, double *empty_out, double *full_out)
{
  *empty_out = 0;
  switch (self->shade)
    {
    case FR_TREE_SHADE_LITRES:
      *full_out = self->most_l;
      return TRUE;
    case FR_TREE_SHADE_SWEETNESS:
      *full_out = self->most_brix;
      return TRUE;
    case FR_TREE_SHADE_GIRTH_AGE:
      *full_out = FR_TREE_OLD_MEASURE_YEARS;
      return TRUE;
    case FR_TREE_SHADE_RANK:
    case FR_TREE_SHADE_NONE:
    default:
      *full_out = NAN;
      return FALSE;
    }
}

/* How long ago it was measured, over the years after which a measure is old. */
static double
girth_age_ratio (FrSugarbush *self, const FrBushTree *tree)
{
  FrDate day;

  if (tree->measured_on == NULL || !fr_date_parse (tree->measured_on, &day))
    return NAN;
  return (double)(fr_date_to_days (self->today) - fr_date_to_days (day))
         / (365.2425 * FR_TREE_OLD_MEASURE_YEARS);
}

double
fr_sugarbush_shade_ratio (FrSugarbush *self, const FrBushTree *tree)
{
  double ratio = NAN;

  switch (self->shade)
    {
    case FR_TREE_SHADE_LITRES:
      ratio = litres_a_tap (tree) / self->most_l;
      break;
    case FR_TREE_SHADE_RANK:
      if (tree->rank > 0)
        ratio = tree->n_ranked > 1 ? (double)(tree->n_ranked - tree->rank) / (tree->n_ranked - 1) : 1;
      break;
    case FR_TREE_SHADE_SWEETNESS:
      ratio = tree->season_brix / self->most_brix;
      break;
    case FR_TREE_SHADE_GIRTH_AGE:
      ratio = girth_age_ratio (self, tree);
      break;
    case FR_TREE_SHADE_NONE:
      break;
    }
  /* Fuller than full and emptier than empty look as full and empty; only ages come so far. */
  return isnan (ratio) ? NAN : CLAMP (ratio, 0, 1);
}
