/* What a tree is expected to give. Litres and sweetness are taken as log-normal. A tap on a sugar maple gives
 * 10 gal nominal by bucket, range 5 to 15 (extension fact pages): taken as 8 in 10 between 5 and 15, whose
 * middle is 8.66 and whose mean is 9.5 gal. The spread of the logarithm, ln 3 / 2.563 = 0.429, is shared out
 * between bushes, trees, seasons and the rest as 0.22, 0.25, 0.20, 0.18, which add up to 0.428 (the shares:
 * common practice, no source). That trees with larger crowns and trunks give more is Morrow's (1955) and
 * Blum's (1971) finding (from memory); how much: common practice, no source. */
#include "domain/maths/tree-yield.h"

#include "domain/maths/pooling.h"
#include "domain/maths/sucrose.h"
#include "domain/units/units.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define EIGHT_IN_TEN 1.2815515655446004 /* normal quantile of 0.9 */

/* Between bushes, between trees, between seasons, and of a tree in a season; sds of logarithms. */
static const FrPoolPrior volume_prior = { { 0, 0.22 }, 0.25, 0.20, 0.18, 6 };
/* Sugar maple 2 to 3 %, range 1 to 5 (extension pages): 8 in 10 between 1.6 and 3.1 around 2.2; sd 0.26. Its
 * shares: common practice, no source. */
static const FrPoolPrior sweetness_prior = { { 0, 0.12 }, 0.18, 0.10, 0.10, 6 };

#define SIZE_UNKNOWN_SD 0.15 /* common practice, no source; the same below */
#define CROWN_UNKNOWN_SD 0.10

#define SUGAR_TAP_L (8.660254037844386 * FR_LITRES_PER_US_GALLON)

static const FrSapSpecies species_table[] = {
  { "sugar", SUGAR_TAP_L, 0, 2.2, 0,
    "10 gal a tap nominal, range 5 to 15, taken as 8 in 10; 2 to 3 %, range 1 to 5: extension fact pages" },
  { "black", SUGAR_TAP_L, 0.1, 2.2, 0.05, "as sugar maple: extension pages, from memory" },
  { "red", 26, 0.2, 1.5, 0.25,
    "litres: common practice, no source; about 1 % on one outreach page, others report more" },
  { "silver", 26, 0.2, 1.3, 0.25, "litres: common practice, no source; about 1 % on one outreach page" },
  { "norway", 8.35, 0.45, 1.6, 0.35,
    "7.5 and 9.3 L a tree, 2.2 to 2.8 %: Utah trial, HortTechnology (2022, 2023); about 1 % on one outreach "
    "page" },
  { "bigleaf", 30, 0.4, 1.5, 0.3, "common practice, no source" },
  { "boxelder", 24.15, 0.3, 1.9, 0.25,
    "22.1 and 26.4 L a tree, 2.2 to 2.8 %: Utah trial, HortTechnology (2022, 2023); 60 to 1: from memory" },
  { "birch", 40, 0.5, 0.9, 0.3, "common practice, no source" },
  { "walnut", 15, 0.5, 1.8, 0.3, "common practice, no source" },
  { "other", 26, 0.45, 1.6, 0.35, "common practice, no source" },
};

const FrSapSpecies *
fr_sap_species (const char *code)
{
  guint last = G_N_ELEMENTS (species_table) - 1;

  for (guint i = 0; code != NULL && i < last; i++)
    if (strcmp (species_table[i].code, code) == 0)
      return &species_table[i];
  return &species_table[last];
}

double
fr_later_tap_ratio (guint tap)
{
  /* Common practice, no source. */
  static const double ratios[] = { 1, 0.75, 0.6, 0.5 };

  return ratios[MIN (tap, G_N_ELEMENTS (ratios) - 1)];
}

double
fr_size_yield_ratio (double diameter_m)
{
  if (isnan (diameter_m))
    return 1;
  /* By the root of the diameter, from 25 to 80 cm; beyond that as there. */
  return sqrt (CLAMP (diameter_m, 0.25, 0.80) / 0.40);
}

double
fr_crown_yield_ratio (const char *crown)
{
  if (g_strcmp0 (crown, "wide") == 0)
    return 1.2;
  if (g_strcmp0 (crown, "narrow") == 0)
    return 0.8;
  return 1;
}

static gboolean
is_crown_known (const char *crown)
{
  return crown != NULL && strcmp (crown, "unknown") != 0;
}

/* What to expect of a tree before anything was seen: a logarithm, and how much further off than its like it
 * may be. */
static void
expect_volume (const FrYieldTree *tree, double *middle, double *apart)
{
  const FrSapSpecies *species = fr_sap_species (tree->species);
  double size = isnan (tree->diameter_m) ? SIZE_UNKNOWN_SD : 0,
         crown = is_crown_known (tree->crown) ? 0 : CROWN_UNKNOWN_SD;

  *middle
      = log (species->tap_l * fr_size_yield_ratio (tree->diameter_m) * fr_crown_yield_ratio (tree->crown));
  *apart = sqrt (species->tap_apart_ratio * species->tap_apart_ratio + size * size + crown * crown);
}

static void
expect_sweetness (const FrYieldTree *tree, double *middle, double *apart)
{
  const FrSapSpecies *species = fr_sap_species (tree->species);

  *middle = log (species->brix);
  *apart = species->brix_apart_ratio;
}

static double
log_volume (const FrYieldSeason *season)
{
  double first_taps = 0;

  for (guint j = 0; j < MAX (season->taps, 1); j++)
    first_taps += fr_later_tap_ratio (j);
  return season->volume_l > 0 ? log (season->volume_l / first_taps) : NAN;
}

static double
log_sweetness (const FrYieldSeason *season)
{
  return season->brix > 0 ? log (season->brix) : NAN;
}

static int
compare_years (gconstpointer a, gconstpointer b)
{
  guint x = *(const guint *)a, y = *(const guint *)b;

  return x < y ? 1 : x > y ? -1 : 0;
}

/* The seasons on record, latest first, at most as many as can be pooled. */
static GArray *
years_of (const FrYieldTree *trees, guint n)
{
  GArray *years = g_array_new (FALSE, FALSE, sizeof (guint));
  guint kept = 0;

  for (guint i = 0; i < n; i++)
    for (guint k = 0; k < trees[i].n_seasons; k++)
      g_array_append_val (years, trees[i].seasons[k].season);
  g_array_sort (years, compare_years);
  for (guint k = 0; k < years->len; k++)
    if (k == 0 || g_array_index (years, guint, k) != g_array_index (years, guint, kept - 1))
      g_array_index (years, guint, kept++) = g_array_index (years, guint, k);
  g_array_set_size (years, MIN (kept, FR_POOL_SEASONS_MAX));
  return years;
}

/* One of the two, litres or sweetness, of the whole bush. */
static void
pool (const FrYieldTree *trees, guint n, const GArray *years, const FrPoolPrior *prior,
      void (*expect) (const FrYieldTree *tree, double *middle, double *apart),
      double (*read) (const FrYieldSeason *season), double *middle_out, FrPoolBush *bush_out)
{
  g_autoptr (GArray) seen = g_array_new (FALSE, FALSE, sizeof (FrPoolSeen));
  g_autofree double *apart = g_new (double, n + 1);

  for (guint i = 0; i < n; i++)
    {
      expect (&trees[i], &middle_out[i], &apart[i]);
      for (guint k = 0; k < trees[i].n_seasons; k++)
        {
          const FrYieldSeason *season = &trees[i].seasons[k];
          FrPoolSeen one = { i, 0, read (season) - middle_out[i] };

          if (!isnan (one.value)
              && g_array_binary_search ((GArray *)years, &season->season, compare_years, &one.season))
            g_array_append_val (seen, one);
        }
    }
  fr_pool_bush (prior, (const FrPoolSeen *)(gconstpointer)seen->data, seen->len, n, years->len, apart,
                bush_out);
}

/* A log-normal amount by the mean and variance of its logarithm: mean, sd, and the span of 8 in 10. */
static void
span (double middle, double variance, double out[4])
{
  out[0] = exp (middle + variance / 2);
  out[1] = out[0] * sqrt (expm1 (variance));
  out[2] = exp (middle - EIGHT_IN_TEN * sqrt (variance));
  out[3] = exp (middle + EIGHT_IN_TEN * sqrt (variance));
}

/* Variances of the logarithm in a season to come: what is the tree's alone, and what it shares. */
static void
split (const FrPooled *tree, const FrPoolBush *bush, const FrPoolPrior *prior, double *alone_out,
       double *shared_out)
{
  *alone_out = tree->alone_sd * tree->alone_sd + bush->rest_sd * bush->rest_sd;
  *shared_out = tree->sd * tree->sd - tree->alone_sd * tree->alone_sd + prior->season_sd * prior->season_sd;
}

void
fr_tree_yields (const FrYieldTree *trees, guint n, FrTreeYield *yields_out, FrYieldBush *bush_out)
{
  g_autoptr (GArray) years = years_of (trees, n);
  g_autofree double *volume_middle = g_new (double, n + 1), *sweetness_middle = g_new (double, n + 1);
  g_auto (FrPoolBush) volume = { 0 };
  g_auto (FrPoolBush) sweetness = { 0 };

  pool (trees, n, years, &volume_prior, expect_volume, log_volume, volume_middle, &volume);
  pool (trees, n, years, &sweetness_prior, expect_sweetness, log_sweetness, sweetness_middle, &sweetness);
  for (guint i = 0; i < n; i++)
    {
      const FrPooled *v = &volume.trees[i], *s = &sweetness.trees[i];
      double v_middle = volume_middle[i] + v->value, s_middle = sweetness_middle[i] + s->value, v_alone,
             v_shared, s_alone, s_shared, out[4], density;
      FrTreeYield *yield = &yields_out[i];

      split (v, &volume, &volume_prior, &v_alone, &v_shared);
      split (s, &sweetness, &sweetness_prior, &s_alone, &s_shared);
      span (v_middle, v_alone + v_shared, out);
      yield->volume = (FrSpanL){ out[0], out[1], out[2], out[3] };
      span (s_middle, s_alone + s_shared, out);
      yield->sweetness = (FrSpanBrix){ out[0], out[1], out[2], out[3] };
      density = fr_sucrose_density_kg_m3 (MIN (out[0], FR_BRIX_MAX), 20) * 1e-5;
      span (v_middle + s_middle, v_alone + v_shared + s_alone + s_shared, out);
      yield->sugar = (FrSpanKg){ density * out[0], density * out[1], density * out[2], density * out[3] };
      yield->volume_own_ratio = v->weight_ratio;
      yield->sweetness_own_ratio = s->weight_ratio;
      yield->n_volumes = v->n;
      yield->n_sweetnesses = s->n;
      yield->alone_ratio = sqrt (v_alone + s_alone);
      yield->shared_ratio = sqrt (v_shared + s_shared);
      yield->volume_alone_ratio = sqrt (v_alone);
      yield->volume_shared_ratio = sqrt (v_shared);
    }
  if (bush_out != NULL)
    *bush_out = (FrYieldBush){
      exp (volume.level.value), volume.tree_sd,    volume.rest_sd, exp (sweetness.level.value),
      sweetness.tree_sd,        sweetness.rest_sd, volume.n_seen,  sweetness.n_seen
    };
}

void
fr_tree_yield_taps (const FrTreeYield *yield, guint n, double *litres_l_out)
{
  for (guint j = 0; j < n; j++)
    litres_l_out[j] = yield->volume.mean_l * fr_later_tap_ratio (j);
}

/* A sum of log-normals as one with the same mean and variance (Fenton 1960): what is each tree's alone evens
 * out, what is shared does not. */
typedef struct
{
  double mean, alone, shared;
} Sum;

static void
add (Sum *sum, double mean, double alone_ratio, double shared_ratio)
{
  sum->mean += mean;
  sum->alone += mean * mean * expm1 (alone_ratio * alone_ratio);
  sum->shared += mean * shared_ratio;
}

static void
span_of_sum (const Sum *sum, double out[4])
{
  double shared, variance;

  memset (out, 0, 4 * sizeof *out);
  if (!(sum->mean > 0))
    return;
  shared = sum->shared / sum->mean;
  variance = log1p (sum->alone / (sum->mean * sum->mean)) + shared * shared;
  span (log (sum->mean) - variance / 2, variance, out);
}

void
fr_tree_yields_sum (const FrTreeYield *yields, const guint *taps, guint n, FrSpanL *volume_out,
                    FrSpanKg *sugar_out)
{
  Sum volume = { 0 }, sugar = { 0 };
  double out[4];

  for (guint i = 0; i < n; i++)
    {
      double first_taps = 0;

      for (guint j = 0; j < taps[i]; j++)
        first_taps += fr_later_tap_ratio (j);
      add (&volume, first_taps * yields[i].volume.mean_l, yields[i].volume_alone_ratio,
           yields[i].volume_shared_ratio);
      add (&sugar, first_taps * yields[i].sugar.mean_kg, yields[i].alone_ratio, yields[i].shared_ratio);
    }
  span_of_sum (&volume, out);
  *volume_out = (FrSpanL){ out[0], out[1], out[2], out[3] };
  span_of_sum (&sugar, out);
  *sugar_out = (FrSpanKg){ out[0], out[1], out[2], out[3] };
}
