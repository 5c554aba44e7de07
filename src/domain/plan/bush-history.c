/* What the trees gave: each one's seasons, its place among the others and where it is going.
 *
 * Sugar is litres times the density at 20 °C times sweetness. Rank: the mean, over those of the bush's last
 * five seasons with data in which the tree has some, of its sugar. A season with litres alone takes the
 * tree's own mean sweetness of its other seasons, else the bush's, so that no tree falls out for want of one
 * reading; where no sweetness was ever measured, litres rank. Trend: litres per tap against the bush's of the
 * same season, so that a poor season is no tree's fault; the slope of its logarithm by least squares. A
 * season with no tap on record, with 0 L, or with no other tree to compare, says nothing about it. */
#include "domain/maths/tap-choice.h"
#include "domain/plan/gathering-private.h"
#include "domain/plan/sweetness.h"

#include <math.h>
#include <stdlib.h>

#define RANK_SEASONS 5
#define TREND_SEASONS_MIN 3
#define SAME_RATIO 1e-9

/* --- seasons --- */

/* Puts one more note on the same season to those before: litres add up, and sweetness is that of the mixture;
 * of notes without litres the last stands. */
static void
add_yield (FrTreeSeason *season, const FrYield *yield)
{
  const double volume_l = yield->volume_l.value;
  const double brix = fr_sweetness_brix (yield->instrument, yield->reading_brix.value, yield->sample_c.value);
  const gboolean both = !isnan (season->volume_l) && !isnan (volume_l);

  if (both && season->volume_l + volume_l > 0)
    {
      /* Densities of two saps differ by less than the readings do. */
      season->brix = (season->volume_l > 0 ? season->volume_l * season->brix : 0)
                     + (volume_l > 0 ? volume_l * brix : 0);
      season->brix /= season->volume_l + volume_l;
    }
  else if (!isnan (brix))
    season->brix = brix;
  if (both)
    season->volume_l += volume_l;
  else if (!isnan (volume_l))
    season->volume_l = volume_l;
}

static FrTreeSeason *
season_at (FrBush *bush, guint entry, guint season)
{
  FrTreeSeason empty = { season, 0, NAN, NAN, NAN, 0, 0, NAN, NAN, NAN, FALSE };

  if (bush->seasons->len > bush->season_starts[entry])
    {
      FrTreeSeason *last = &g_array_index (bush->seasons, FrTreeSeason, bush->seasons->len - 1);

      if (last->season == season)
        return last;
    }
  g_array_append_val (bush->seasons, empty);
  return &g_array_index (bush->seasons, FrTreeSeason, bush->seasons->len - 1);
}

/* The season of the next of something that stands in the order of seasons; past all where there is none. */
static guint
next_yield (const FrBush *bush, guint entry, guint *yield)
{
  guint season;

  for (; *yield < bush->yield_starts[entry + 1]; ++*yield)
    if (fr_bush_season_of (&bush->yields[*yield]->season, &season))
      return season;
  return G_MAXUINT;
}

/* Planned ones and those of no season are passed by. */
static guint
next_tap (const FrBush *bush, guint entry, guint *tap)
{
  guint season;

  for (; *tap < bush->tap_starts[entry + 1]; ++*tap)
    if (fr_bush_season_of (&bush->taps[*tap]->season, &season) && bush->taps[*tap]->set_on != NULL)
      return season;
  return G_MAXUINT;
}

static guint
next_gathered (const FrBush *bush, guint entry, guint *gathered)
{
  for (; *gathered < bush->gathered->len; ++*gathered)
    {
      const FrGatheredTotals *totals = &g_array_index (bush->gathered, FrGatheredTotals, *gathered);

      if (totals->tree > bush->entries[entry].id)
        break;
      if (totals->tree == bush->entries[entry].id && totals->season >= 1)
        return totals->season;
    }
  return G_MAXUINT;
}

/* Taps, yields and gatherings stand in the order of seasons: they are merged like three hands of cards. What was
 * typed for a season comes before what was gathered in it. */
static void
merge_entry (FrBush *bush, guint entry, guint *gathered)
{
  guint tap = bush->tap_starts[entry], yield = bush->yield_starts[entry];

  for (;;)
    {
      const guint tap_season = next_tap (bush, entry, &tap), yield_season = next_yield (bush, entry, &yield),
                  gathered_season = next_gathered (bush, entry, gathered);
      const guint season = MIN (MIN (tap_season, yield_season), gathered_season);

      if (season > bush->season)
        break;
      if (tap_season == season)
        {
          season_at (bush, entry, season)->taps++;
          tap++;
        }
      else if (yield_season == season)
        add_yield (season_at (bush, entry, season), bush->yields[yield++]);
      else
        fr_bush_add_gathered (bush, season_at (bush, entry, season),
                              &g_array_index (bush->gathered, FrGatheredTotals, (*gathered)++));
    }
}

static void
add_to_mean (GArray *totals, const FrTreeSeason *season)
{
  FrBushMean empty = { season->season, 0, 0, 0 };
  guint i = totals->len;

  if (season->taps == 0 || isnan (season->volume_l) || season->running)
    return;
  while (i > 0 && g_array_index (totals, FrBushMean, i - 1).season > season->season)
    i--;
  if (i == 0 || g_array_index (totals, FrBushMean, i - 1).season != season->season)
    g_array_insert_val (totals, i++, empty);
  g_array_index (totals, FrBushMean, i - 1).litres_l += season->volume_l;
  g_array_index (totals, FrBushMean, i - 1).taps += season->taps;
  g_array_index (totals, FrBushMean, i - 1).n++;
}

void
fr_bush_make_seasons (FrBush *bush)
{
  double all_brix = 0;
  guint n_brix = 0, gathered = 0;

  bush->seasons
      = g_array_sized_new (FALSE, FALSE, sizeof (FrTreeSeason), bush->yield_starts[bush->n_entries]);
  bush->means = g_array_new (FALSE, FALSE, sizeof (FrBushMean));
  bush->season_starts = g_new0 (guint, bush->n_entries + 1);
  for (guint i = 0; i < bush->n_entries; i++)
    {
      double own_brix = 0;
      guint n = 0;

      bush->season_starts[i] = bush->seasons->len;
      merge_entry (bush, i, &gathered);
      for (guint k = bush->season_starts[i]; k < bush->seasons->len; k++)
        {
          FrTreeSeason *season = &g_array_index (bush->seasons, FrTreeSeason, k);

          season->sugar_kg = fr_sap_sugar_kg (season->volume_l, season->brix);
          add_to_mean (bush->means, season);
          if (isnan (season->brix))
            continue;
          own_brix += season->brix;
          n++;
        }
      if (n > 0)
        bush->entries[i].own_brix = own_brix / n;
      all_brix += own_brix;
      n_brix += n;
    }
  bush->season_starts[bush->n_entries] = bush->seasons->len;
  bush->mean_brix = n_brix > 0 ? all_brix / n_brix : NAN;
  bush->by_litres = n_brix == 0;
  bush->worth_kg_or_l = g_new (double, bush->seasons->len + 1);
  for (guint i = 0; i < bush->n_entries; i++)
    for (guint k = bush->season_starts[i]; k < bush->season_starts[i + 1]; k++)
      {
        const FrTreeSeason *season = &g_array_index (bush->seasons, FrTreeSeason, k);
        const double other_brix
            = isnan (bush->entries[i].own_brix) ? bush->mean_brix : bush->entries[i].own_brix;

        if (season->running)
          bush->worth_kg_or_l[k] = NAN;
        else if (bush->by_litres)
          bush->worth_kg_or_l[k] = season->volume_l;
        else if (!isnan (season->sugar_kg))
          bush->worth_kg_or_l[k] = season->sugar_kg;
        else
          bush->worth_kg_or_l[k] = fr_sap_sugar_kg (season->volume_l, other_brix);
      }
}

/* --- trend --- */

static double
mean_l_per_tap (const FrBush *bush, guint season)
{
  for (guint i = 0; i < bush->means->len; i++)
    {
      const FrBushMean *mean = &g_array_index (bush->means, FrBushMean, i);

      if (mean->season == season)
        return mean->n >= 2 && mean->litres_l > 0 ? mean->litres_l / mean->taps : NAN;
    }
  return NAN;
}

double
fr_bush_trend_ratio (const FrBush *bush, guint entry)
{
  double n = 0, sum_x = 0, sum_y = 0, sum_xx = 0, sum_xy = 0, spread;

  for (guint k = bush->season_starts[entry]; k < bush->season_starts[entry + 1]; k++)
    {
      const FrTreeSeason *season = &g_array_index (bush->seasons, FrTreeSeason, k);
      const double mean_l
          = season->taps > 0 && !season->running ? mean_l_per_tap (bush, season->season) : NAN;
      /* Counted from the bush's season, so that the squares stay small. */
      const double x = (double)season->season - bush->season;
      double y;

      if (isnan (mean_l) || !(season->volume_l > 0))
        continue;
      y = log (season->volume_l / season->taps / mean_l);
      n++;
      sum_x += x;
      sum_y += y;
      sum_xx += x * x;
      sum_xy += x * y;
    }
  if (n < TREND_SEASONS_MIN)
    return NAN;
  spread = sum_xx - sum_x * sum_x / n;
  return expm1 ((sum_xy - sum_x * sum_y / n) / spread);
}

/* --- rank --- */

typedef struct
{
  double worth;
  guint row;
} Place;

static gint
best_first (gconstpointer a, gconstpointer b)
{
  const Place *one = a, *two = b;

  if (one->worth != two->worth)
    return one->worth < two->worth ? 1 : -1;
  return (one->row > two->row) - (one->row < two->row);
}

/* The first of the bush's last five seasons with data. */
static guint
first_ranked_season (const FrBush *bush)
{
  guint seasons[RANK_SEASONS] = { 0 };

  for (guint k = 0; k < bush->seasons->len; k++)
    {
      guint season = g_array_index (bush->seasons, FrTreeSeason, k).season, at = 0;

      if (isnan (bush->worth_kg_or_l[k]) || season <= seasons[RANK_SEASONS - 1])
        continue;
      while (seasons[at] > season)
        at++;
      if (seasons[at] == season)
        continue;
      for (guint i = RANK_SEASONS - 1; i > at; i--)
        seasons[i] = seasons[i - 1];
      seasons[at] = season;
    }
  return seasons[RANK_SEASONS - 1]; /* 0 with fewer than five: all count */
}

void
fr_bush_rank_rows (FrBush *bush)
{
  const guint first_season = first_ranked_season (bush);
  g_autofree Place *places = g_new (Place, bush->n_rows + 1);
  guint n = 0;

  for (guint i = 0; i < bush->n_rows; i++)
    {
      const guint entry = bush->row_entries[i];
      double sum = 0;
      guint n_seasons = 0;

      for (guint k = bush->season_starts[entry]; k < bush->season_starts[entry + 1]; k++)
        if (!isnan (bush->worth_kg_or_l[k])
            && g_array_index (bush->seasons, FrTreeSeason, k).season >= first_season)
          {
            sum += bush->worth_kg_or_l[k];
            n_seasons++;
          }
      if (n_seasons > 0)
        places[n++] = (Place){ sum / n_seasons, i };
    }
  qsort (places, n, sizeof *places, best_first);
  for (guint i = 0; i < n; i++)
    {
      /* Trees that gave the same stand in the same place. */
      const gboolean same
          = i > 0 && places[i - 1].worth - places[i].worth <= SAME_RATIO * fabs (places[i].worth);

      bush->rows[places[i].row].rank = same ? bush->rows[places[i - 1].row].rank : i + 1;
    }
  for (guint i = 0; i < bush->n_rows; i++)
    bush->rows[i].n_ranked = n;
}

/* The place of one season of one tree among all trees of that season, archived ones too. */
static void
rank_season (const FrBush *bush, FrTreeSeason *season, double worth)
{
  guint better = 0, n = 0;

  if (isnan (worth))
    return;
  for (guint k = 0; k < bush->seasons->len; k++)
    {
      if (g_array_index (bush->seasons, FrTreeSeason, k).season != season->season
          || isnan (bush->worth_kg_or_l[k]))
        continue;
      n++;
      better += bush->worth_kg_or_l[k] - worth > SAME_RATIO * fabs (worth);
    }
  season->rank = better + 1;
  season->n_ranked = n;
}

GArray *
fr_bush_history (const FrBush *bush, gint64 tree)
{
  GArray *history = g_array_new (FALSE, FALSE, sizeof (FrTreeSeason));
  guint entry;

  g_return_val_if_fail (bush != NULL, history);

  if (!fr_bush_entry (bush, tree, &entry))
    return history;
  for (guint k = bush->season_starts[entry]; k < bush->season_starts[entry + 1]; k++)
    {
      FrTreeSeason season = g_array_index (bush->seasons, FrTreeSeason, k);

      rank_season (bush, &season, bush->worth_kg_or_l[k]);
      g_array_append_val (history, season);
    }
  return history;
}
