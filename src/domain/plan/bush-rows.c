/* One row per tree: its size, this season's taps and litres, and what the guideline says to it. Whatever
 * needs the other trees too, rank and what to expect, is filled in by bush-history.c and bush-choice.c. */
#include "domain/maths/tapping.h"
#include "domain/plan/bush-private.h"

#include <math.h>

double
fr_girth_diameter_m (const FrGirth *girth)
{
  return g_strcmp0 (girth->measure, "diameter") == 0 ? girth->size_m.value
                                                     : fr_diameter_from_girth_m (girth->size_m.value);
}

static gint64
day_of (const FrGirth *girth)
{
  FrDate day;

  return fr_date_parse (girth->measured_on, &day) && !isnan (girth->size_m.value) ? fr_date_to_days (day) : G_MAXINT64;
}

/* What was measured up to the season's end, the latest of it; else the first measure after it: a size a few
 * years off says more than none. */
static const FrGirth *
size_of (const FrBush *bush, guint entry)
{
  const gint64 end = fr_bush_season_end (bush->season);
  const FrGirth *size = NULL;

  for (guint i = bush->girth_starts[entry]; i < bush->girth_starts[entry + 1]; i++)
    {
      const gint64 day = day_of (bush->girths[i]);

      if (day <= end || (size == NULL && day != G_MAXINT64))
        size = bush->girths[i];
    }
  return size;
}

double
fr_bush_diameter_m (const FrBush *bush, guint entry)
{
  const FrGirth *size = size_of (bush, entry);

  return size != NULL ? fr_girth_diameter_m (size) : NAN;
}

/* Growth is that of the measures up to the season's end. */
static void
fill_size (const FrBush *bush, guint entry, FrBushTree *row)
{
  const guint first = bush->girth_starts[entry], n_girths = bush->girth_starts[entry + 1] - first;
  const gint64 end = fr_bush_season_end (bush->season);
  g_autofree double *at_years = g_new (double, n_girths + 1);
  g_autofree double *diameters_m = g_new (double, n_girths + 1);
  const FrGirth *size = size_of (bush, entry);
  guint n = 0;

  row->diameter_m = row->girth_m = row->growth_m_per_year = NAN;
  for (guint i = first; i < first + n_girths; i++)
    {
      const gint64 day = day_of (bush->girths[i]);

      if (day > end)
        continue;
      at_years[n] = (double)day / FR_BUSH_YEAR_DAYS;
      diameters_m[n++] = fr_girth_diameter_m (bush->girths[i]);
    }
  if (size == NULL)
    return;
  row->diameter_m = fr_girth_diameter_m (size);
  row->girth_m = fr_girth_from_diameter_m (row->diameter_m);
  row->measured_on = size->measured_on;
  row->growth_m_per_year = fr_growth_m_per_year (at_years, diameters_m, n);
}

static void
fill_taps (const FrBush *bush, guint entry, FrBushTree *row)
{
  for (guint i = bush->tap_starts[entry]; i < bush->tap_starts[entry + 1]; i++)
    {
      const FrTap *tap = bush->taps[i];
      guint season;

      if (!fr_bush_season_of (&tap->season, &season) || season != bush->season)
        continue;
      if (tap->set_on != NULL)
        row->taps_set++;
      else
        row->taps_planned++;
    }
}

static void
fill_litres (const FrBush *bush, guint entry, FrBushTree *row)
{
  row->season_l = row->season_brix = row->season_sugar_kg = row->last_l = NAN;
  row->gathered_l = row->gathered_brix = row->estimated_l = row->estimated_sugar_kg = NAN;
  for (guint i = bush->season_starts[entry]; i < bush->season_starts[entry + 1]; i++)
    {
      const FrTreeSeason *season = &g_array_index (bush->seasons, FrTreeSeason, i);

      if (season->season == bush->season)
        {
          row->season_l = season->volume_l;
          row->season_brix = season->brix;
          row->season_sugar_kg = season->sugar_kg;
          row->gathered_l = season->gathered_l;
          row->gathered_brix = season->gathered_brix;
          row->estimated_l = season->estimated_l;
        }
      else if (!isnan (season->volume_l))
        {
          row->last_l = season->volume_l;
          row->last_season = season->season;
        }
    }
}

/* Taps set in each of the latest seasons before the bush's own, the latest first. */
static void
past_taps (const FrBush *bush, guint entry, guint taps_out[FR_HEAVY_SEASONS])
{
  for (guint i = 0; i < FR_HEAVY_SEASONS; i++)
    taps_out[i] = 0;
  for (guint i = bush->season_starts[entry]; i < bush->season_starts[entry + 1]; i++)
    {
      const FrTreeSeason *season = &g_array_index (bush->seasons, FrTreeSeason, i);
      const guint ago = bush->season - season->season;

      if (ago >= 1 && ago <= FR_HEAVY_SEASONS)
        taps_out[ago - 1] = season->taps;
    }
}

static guint
reasons_from (guint tap_reasons)
{
  static const struct
  {
    FrTapReason tap;
    FrTreeReason tree;
  } same[] = {
    { FR_TAP_REFUSED, FR_TREE_REFUSED },
    { FR_TAP_NEVER, FR_TREE_WISHED_OFF },
    { FR_TAP_DEAD, FR_TREE_FAILING },
    { FR_TAP_FAILING, FR_TREE_FAILING },
    { FR_TAP_NOT_A_MAPLE, FR_TREE_NO_RULE },
    { FR_TAP_SIZE_UNKNOWN, FR_TREE_SIZE_UNKNOWN },
    { FR_TAP_TOO_SMALL, FR_TREE_TOO_SMALL },
    { FR_TAP_WEAK, FR_TREE_WEAK },
    { FR_TAP_GREW_SLOWLY, FR_TREE_SLOW },
    { FR_TAP_GROWTH_UNKNOWN, FR_TREE_GROWTH_UNKNOWN },
    { FR_TAP_HEAVILY_TAPPED, FR_TREE_TAPPED_HARD },
    { FR_TAP_DEAD_LIMBS, FR_TREE_DEAD_LIMBS },
    { FR_TAP_WIRES, FR_TREE_WIRES },
    { FR_TAP_LEAN, FR_TREE_LEANS },
    { FR_TAP_ROADSIDE, FR_TREE_ROADSIDE },
  };
  guint reasons = 0;

  G_STATIC_ASSERT (G_N_ELEMENTS (same) == FR_N_TAP_REASONS);
  for (guint i = 0; i < G_N_ELEMENTS (same); i++)
    reasons |= tap_reasons & same[i].tap ? same[i].tree : 0;
  return reasons;
}

/* How many taps it may carry, and why no more. */
static void
fill_verdict (const FrBush *bush, guint entry, FrBushTree *row)
{
  const FrTree *tree = row->tree;
  guint past[FR_HEAVY_SEASONS];
  FrTapFacts facts = { .dbh_m = row->diameter_m,
                       .is_maple = row->group != FR_TREE_NOT_MAPLE,
                       .health = FR_HEALTH_UNKNOWN,
                       .growth_m_per_year = row->growth_m_per_year,
                       .past_taps = past,
                       .n_past_taps = FR_HEAVY_SEASONS,
                       .refused = g_strcmp0 (tree->permission, "refused") == 0,
                       .never = g_strcmp0 (tree->choice, "never") == 0,
                       .dead_limbs = tree->dead_limbs,
                       .wires = tree->wires,
                       .lean = tree->lean,
                       .roadside = tree->roadside };
  FrTapVerdict verdict;

  past_taps (bush, entry, past);
  fr_health_from_code (tree->health, &facts.health);
  verdict = fr_tap_verdict (&facts, fr_bush_guideline (bush));
  row->taps_by_size = verdict.size_known ? (int)verdict.taps_by_size : -1;
  row->taps_max = verdict.max_known ? (int)verdict.taps_max : -1;
  row->reasons = reasons_from (verdict.reasons);
  if (g_strcmp0 (tree->permission, "unknown") == 0)
    row->reasons |= FR_TREE_NOT_ASKED;
  if (!isnan (row->girth_m) && !fr_bush_has_place (bush, entry, row->girth_m))
    {
      row->reasons |= FR_TREE_NO_PLACE;
      row->taps_max = 0;
    }
  if (row->taps_max >= 0
      && (row->taps_set + row->taps_planned > (guint)row->taps_max
          || (row->taps_max == 0 && g_strcmp0 (tree->choice, "must") == 0)))
    row->reasons |= FR_TREE_OVER_GUIDELINE;
}

void
fr_bush_make_rows (FrBush *bush)
{
  bush->rows = g_new0 (FrBushTree, bush->n_entries + 1);
  bush->row_entries = g_new0 (guint, bush->n_entries + 1);
  for (guint i = 0; i < bush->n_entries; i++)
    {
      const FrTree *tree = bush->entries[i].tree;
      FrBushTree *row = &bush->rows[bush->n_rows];

      fill_size (bush, i, row);
      bush->entries[i].diameter_m = row->diameter_m;
      if (tree->record.archived)
        {
          *row = (FrBushTree){ 0 };
          continue;
        }
      bush->row_entries[bush->n_rows++] = i;
      row->id = tree->record.id;
      row->tree = tree;
      row->group = fr_tree_group (tree->species);
      row->trend_ratio = NAN;
      row->expected_l = row->expected_low_l = row->expected_high_l = row->expected_brix = NAN;
      fill_taps (bush, i, row);
      fill_litres (bush, i, row);
      fill_verdict (bush, i, row);
      row->trend_ratio = fr_bush_trend_ratio (bush, i);
    }
}
