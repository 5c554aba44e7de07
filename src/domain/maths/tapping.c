/* How many taps a tree may carry, and how far apart holes are to be.
 *
 * The rows are the published ones in inches, copied as printed; how each was seen stands in its source. The
 * reductions are this program's reading of what is printed: a weak tree gets one tap at most; nonconductive
 * wood made in a year must not exceed the wood added by growth (van den Berg, University of Vermont 2012),
 * whose least growth, 0.1 in of diameter a year, is from memory and unverified; one tap fewer after a season
 * of more taps than allowed is common practice, no source. */
#include "domain/maths/tapping.h"

#include <math.h>
#include <string.h>

#include "domain/units/units.h"

#define IN FR_METRES_PER_INCH
#define ROUNDING 1e-9 /* 12 in by way of a girth is still 12 in */

static const FrGuideline guidelines[FR_N_GUIDELINES] = {
  { FR_GUIDELINE_CONSERVATIVE,
    "conservative",
    "North American Maple Syrup Producers Manual, as taught in extension slides; held sustainable from 12 in "
    "by van den "
    "Berg, University of Vermont, 2012",
    FALSE,
    FALSE,
    2,
    { { 12 * IN, 1 }, { 18 * IN, 2 } } },
  { FR_GUIDELINE_ONE_TAP,
    "one_tap",
    "Cornell University in the trade press of the 2020s: one tap in almost all cases, a second only from 20 "
    "in on a tree "
    "that grows well. It prints no least size; the lowest printed one is used, 10 in of University of Maine "
    "bulletin 7036",
    FALSE,
    TRUE,
    2,
    { { 10 * IN, 1 }, { 20 * IN, 2 } } },
  { FR_GUIDELINE_FACTS,
    "facts",
    "Cornell University, page of maple facts, as reproduced on a farm's page",
    FALSE,
    FALSE,
    3,
    { { 10 * IN, 1 }, { 18 * IN, 2 }, { 25 * IN, 3 } } },
  { FR_GUIDELINE_TRADITIONAL,
    "traditional",
    "Extension slides that show it as the old way and do not recommend it",
    TRUE,
    FALSE,
    4,
    { { 10 * IN, 1 }, { 15 * IN, 2 }, { 20 * IN, 3 }, { 25 * IN, 4 } } },
};

static const FrSpacing spacings[FR_N_SPACINGS] = {
  { FR_SPACING_SIX_TWELVE, "six_twelve", 6 * IN, 12 * IN,
    "6 in sideways: University of Vermont Extension (Cook); 12 in up and down: Cornell University. The pair "
    "printed most "
    "often" },
  { FR_SPACING_SIX_TWENTYFOUR, "six_twentyfour", 6 * IN, 24 * IN,
    "Older teaching: 6 in sideways, 2 ft up and down" },
  { FR_SPACING_FOUR_TWELVE, "four_twelve", 4 * IN, 12 * IN,
    "Upper end of 2 to 4 in sideways and 6 to 12 in up and down: University of Vermont 2020, as cited in a "
    "forum" },
  { FR_SPACING_TWO_SIX, "two_six", 2 * IN, 6 * IN,
    "Lower end of 2 to 4 in sideways and 6 to 12 in up and down: University of Vermont 2020, as cited in a "
    "forum" },
  { FR_SPACING_OWN, "own", NAN, NAN, "The household's own" },
};

static const char *const healths[FR_N_HEALTHS] = { "unknown", "healthy", "weak", "failing", "dead" };

const FrGuideline *
fr_guideline (FrGuidelineId id)
{
  g_return_val_if_fail ((guint)id < FR_N_GUIDELINES, NULL);
  return &guidelines[id];
}

gboolean
fr_guideline_from_code (const char *code, FrGuidelineId *id_out)
{
  for (guint i = 0; code != NULL && i < FR_N_GUIDELINES; i++)
    if (strcmp (guidelines[i].code, code) == 0)
      {
        *id_out = guidelines[i].id;
        return TRUE;
      }
  return FALSE;
}

guint
fr_guideline_taps (const FrGuideline *guideline, double diameter_m)
{
  guint taps = 0;

  g_return_val_if_fail (guideline != NULL && diameter_m > 0, 0);
  for (guint i = 0; i < guideline->n_rows; i++)
    if (diameter_m >= guideline->rows[i].from_m * (1 - ROUNDING))
      taps = guideline->rows[i].taps;
  return taps;
}

const FrSpacing *
fr_spacing (FrSpacingId id)
{
  g_return_val_if_fail ((guint)id < FR_N_SPACINGS, NULL);
  return &spacings[id];
}

gboolean
fr_spacing_from_code (const char *code, FrSpacingId *id_out)
{
  for (guint i = 0; code != NULL && i < FR_N_SPACINGS; i++)
    if (strcmp (spacings[i].code, code) == 0)
      {
        *id_out = spacings[i].id;
        return TRUE;
      }
  return FALSE;
}

gboolean
fr_health_from_code (const char *code, FrHealth *health_out)
{
  for (guint i = 0; code != NULL && i < FR_N_HEALTHS; i++)
    if (strcmp (healths[i], code) == 0)
      {
        *health_out = i;
        return TRUE;
      }
  return FALSE;
}

double
fr_diameter_from_girth_m (double girth_m)
{
  return girth_m / G_PI;
}

double
fr_girth_from_diameter_m (double diameter_m)
{
  return diameter_m * G_PI;
}

double
fr_growth_m_per_year (const double *at_years, const double *diameter_m, guint n)
{
  double first = INFINITY, last = -INFINITY, mean_years = 0, mean_m = 0, above = 0, below = 0;
  guint known = 0;

  g_return_val_if_fail (n == 0 || (at_years != NULL && diameter_m != NULL), NAN);
  for (guint i = 0; i < n; i++)
    if (isfinite (at_years[i]) && isfinite (diameter_m[i]))
      {
        known++;
        first = fmin (first, at_years[i]);
        last = fmax (last, at_years[i]);
        mean_years += at_years[i];
        mean_m += diameter_m[i];
      }
  if (known < 2 || last - first < FR_GROWTH_SPAN_MIN_YEARS - ROUNDING)
    return NAN;
  mean_years /= known;
  mean_m /= known;
  for (guint i = 0; i < n; i++)
    if (isfinite (at_years[i]) && isfinite (diameter_m[i]))
      {
        above += (at_years[i] - mean_years) * (diameter_m[i] - mean_m);
        below += (at_years[i] - mean_years) * (at_years[i] - mean_years);
      }
  return above / below;
}

static gboolean
grew_slowly (const FrTapFacts *facts)
{
  return facts->growth_m_per_year < FR_GROWTH_MIN_M_PER_YEAR * (1 - ROUNDING);
}

static gboolean
heavily_tapped (const FrTapFacts *facts, guint allowed)
{
  for (guint i = 0; facts->past_taps != NULL && i < MIN (facts->n_past_taps, FR_HEAVY_SEASONS); i++)
    if (facts->past_taps[i] > allowed)
      return TRUE;
  return FALSE;
}

/* What the tree's state takes off what its size allows. */
static guint
reduce (const FrTapFacts *facts, const FrGuideline *guideline, guint taps, guint *reasons)
{
  const guint allowed = taps;

  if (grew_slowly (facts))
    {
      *reasons |= FR_TAP_GREW_SLOWLY;
      taps -= MIN (taps, 1);
    }
  if (heavily_tapped (facts, allowed))
    {
      *reasons |= FR_TAP_HEAVILY_TAPPED;
      taps -= MIN (taps, 1);
    }
  if (guideline->more_needs_growth && isnan (facts->growth_m_per_year) && taps > 1)
    {
      *reasons |= FR_TAP_GROWTH_UNKNOWN;
      taps = 1;
    }
  if (facts->health == FR_HEALTH_WEAK)
    {
      *reasons |= FR_TAP_WEAK;
      taps = MIN (taps, 1);
    }
  return taps;
}

FrTapVerdict
fr_tap_verdict (const FrTapFacts *facts, const FrGuideline *guideline)
{
  FrTapVerdict verdict = { 0 };

  g_return_val_if_fail (facts != NULL && guideline != NULL, verdict);

  verdict.reasons = (facts->refused ? FR_TAP_REFUSED : 0) | (facts->never ? FR_TAP_NEVER : 0)
                    | (facts->health == FR_HEALTH_DEAD ? FR_TAP_DEAD : 0)
                    | (facts->health == FR_HEALTH_FAILING ? FR_TAP_FAILING : 0);
  verdict.max_known = verdict.reasons != 0; /* none, whatever the size */
  if (!facts->is_maple)
    verdict.reasons |= FR_TAP_NOT_A_MAPLE;
  if (!(facts->dbh_m > 0))
    verdict.reasons |= FR_TAP_SIZE_UNKNOWN;
  if (facts->is_maple && facts->dbh_m > 0)
    {
      guint taps;

      verdict.size_known = TRUE;
      verdict.taps_by_size = taps = fr_guideline_taps (guideline, facts->dbh_m);
      if (taps == 0)
        verdict.reasons |= FR_TAP_TOO_SMALL;
      taps = reduce (facts, guideline, taps, &verdict.reasons);
      verdict.taps_max = verdict.max_known ? 0 : taps;
      verdict.max_known = TRUE;
    }
  verdict.reasons |= (facts->dead_limbs ? FR_TAP_DEAD_LIMBS : 0) | (facts->wires ? FR_TAP_WIRES : 0)
                     | (facts->lean ? FR_TAP_LEAN : 0) | (facts->roadside ? FR_TAP_ROADSIDE : 0);
  return verdict;
}

FrClosing
fr_hole_closing (gboolean seen_closed, double since_years, FrHealth health)
{
  if (seen_closed)
    return FR_CLOSING_SEEN;
  if (isnan (since_years))
    return FR_CLOSING_UNSURE;
  if (since_years < FR_HOLE_CLOSES_YEARS)
    return FR_CLOSING_NOT_YET;
  return health == FR_HEALTH_HEALTHY || health == FR_HEALTH_UNKNOWN ? FR_CLOSING_LIKELY : FR_CLOSING_UNSURE;
}

gboolean
fr_hole_is_open (FrClosing closing)
{
  return closing == FR_CLOSING_NOT_YET || closing == FR_CLOSING_UNSURE;
}
