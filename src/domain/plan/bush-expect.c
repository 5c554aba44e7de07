/* What each tree is expected to give: the records of all trees, archived ones too, to maths/tree-yield.h and
 * back. Only seasons before the bush's own speak: the plan of a season must not turn with every pail that the
 * season itself brings.
 *
 * This is most of the work of making a bush, and few changes touch it; so what it rests on is kept as plain
 * values, and the bush made after a change takes over what the one before it found where those are the same
 * to the last bit. */
#include "domain/plan/bush-private.h"

#include <math.h>
#include <string.h>

static const char *const crowns[] = { "unknown", "wide", "middling", "narrow" };

static guint
crown_index (const char *crown)
{
  for (guint i = 0; i < G_N_ELEMENTS (crowns); i++)
    if (g_strcmp0 (crown, crowns[i]) == 0)
      return i;
  return 0;
}

/* A tree with its seasons, as far as they are over. */
static void
add_tree (FrBush *bush, guint entry)
{
  const FrTree *tree = bush->entries[entry].tree;
  FrBushPast *past = &bush->past_trees[entry];
  *past = (FrBushPast){ bush->entries[entry].id, fr_sap_species (tree->species),
                        bush->entries[entry].diameter_m, crown_index (tree->crown), 0 };
  for (guint k = bush->season_starts[entry]; k < bush->season_starts[entry + 1]; k++)
    {
      const FrTreeSeason *season = &g_array_index (bush->seasons, FrTreeSeason, k);

      if (season->season >= bush->season)
        break;
      bush->past_seasons[bush->n_past_seasons++]
          = (FrYieldSeason){ season->season, season->taps, season->volume_l, season->brix };
      past->n_seasons++;
    }
}

static gboolean
is_same_past (const FrBush *bush, const FrBush *old)
{
  return old != NULL && old->n_entries == bush->n_entries && old->n_past_seasons == bush->n_past_seasons
         && memcmp (old->past_trees, bush->past_trees, bush->n_entries * sizeof *bush->past_trees) == 0
         && memcmp (old->past_seasons, bush->past_seasons, bush->n_past_seasons * sizeof *bush->past_seasons)
                == 0;
}

static void
find_expected (FrBush *bush)
{
  g_autofree FrYieldTree *trees = g_new (FrYieldTree, bush->n_entries + 1);
  const FrYieldSeason *seasons = bush->past_seasons;

  for (guint i = 0; i < bush->n_entries; i++)
    {
      const FrBushPast *past = &bush->past_trees[i];

      trees[i] = (FrYieldTree){ past->species->code, past->diameter_m, crowns[past->crown], past->n_seasons,
                                seasons };
      seasons += past->n_seasons;
    }
  fr_tree_yields (trees, bush->n_entries, bush->expected, NULL);
}

void
fr_bush_make_expectations (FrBush *bush, const FrBush *old)
{
  bush->past_trees = g_new0 (FrBushPast, bush->n_entries + 1);
  bush->past_seasons = g_new0 (FrYieldSeason, bush->seasons->len + 1);
  bush->expected = g_new0 (FrTreeYield, bush->n_entries + 1);
  for (guint i = 0; i < bush->n_entries; i++)
    add_tree (bush, i);
  if (is_same_past (bush, old))
    memcpy (bush->expected, old->expected, bush->n_entries * sizeof *bush->expected);
  else
    find_expected (bush);
  bush->tap_litres_l = g_new (double, bush->n_rows *FR_TAP_CHOICE_TAPS_MAX + 1);
  for (guint i = 0; i < bush->n_rows; i++)
    {
      const FrTreeYield *yield = &bush->expected[bush->row_entries[i]];
      FrBushTree *row = &bush->rows[i];

      fr_tree_yield_taps (yield, FR_TAP_CHOICE_TAPS_MAX, bush->tap_litres_l + i * FR_TAP_CHOICE_TAPS_MAX);
      row->expected_l = yield->volume.mean_l;
      row->expected_low_l = yield->volume.lo_l;
      row->expected_high_l = yield->volume.hi_l;
      row->expected_brix = yield->sweetness.mean_brix;
    }
}

const double *
fr_bush_per_tap_l (const FrBush *bush, guint row)
{
  return bush->tap_litres_l + row * FR_TAP_CHOICE_TAPS_MAX;
}

double
fr_bush_season_l (const FrBush *bush, guint row, guint taps)
{
  const double *litres_l = fr_bush_per_tap_l (bush, row);
  double sum_l = 0;

  for (guint i = 0; i < MIN (taps, FR_TAP_CHOICE_TAPS_MAX); i++)
    sum_l += litres_l[i];
  /* More than anyone may hang still hang there. */
  if (taps > FR_TAP_CHOICE_TAPS_MAX)
    sum_l += (taps - FR_TAP_CHOICE_TAPS_MAX) * litres_l[FR_TAP_CHOICE_TAPS_MAX - 1];
  return sum_l;
}

double
fr_bush_expected_l (const FrBush *bush, gint64 tree, guint taps)
{
  const FrBushTree *row;

  g_return_val_if_fail (bush != NULL, NAN);

  row = fr_bush_find (bush, tree);
  return row != NULL ? fr_bush_season_l (bush, (guint)(row - bush->rows), taps) : NAN;
}

gboolean
fr_bush_expect (const FrBush *bush, gint64 tree, guint taps, FrTreeExpected *expected_out)
{
  const FrBushTree *row;
  FrSpanL volume;
  FrSpanKg sugar;
  guint at;

  g_return_val_if_fail (bush != NULL && expected_out != NULL, FALSE);

  row = fr_bush_find (bush, tree);
  if (row == NULL || taps == 0)
    return FALSE;
  at = (guint)(row - bush->rows);
  fr_tree_yields_sum (&bush->expected[bush->row_entries[at]], &taps, 1, &volume, &sugar);
  expected_out->volume_l = fr_bush_season_l (bush, at, taps);
  expected_out->volume_low_l = volume.lo_l;
  expected_out->volume_high_l = volume.hi_l;
  expected_out->sugar_kg = fr_sap_sugar_kg (expected_out->volume_l, row->expected_brix);
  expected_out->sugar_low_kg = sugar.lo_kg;
  expected_out->sugar_high_kg = sugar.hi_kg;
  return TRUE;
}

void
fr_bush_sugar_span (const FrBush *bush, const guint *taps, double *low_kg_out, double *high_kg_out)
{
  g_autofree guint *by_entries = g_new0 (guint, bush->n_entries + 1);
  FrSpanL volume;
  FrSpanKg sugar;

  for (guint i = 0; i < bush->n_rows; i++)
    by_entries[bush->row_entries[i]] = taps[i];
  fr_tree_yields_sum (bush->expected, by_entries, bush->n_entries, &volume, &sugar);
  *low_kg_out = sugar.lo_kg;
  *high_kg_out = sugar.hi_kg;
}
