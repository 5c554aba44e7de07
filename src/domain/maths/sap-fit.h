/* Members that may hold of a bush, from seasons that were measured: what the physics leaves open, weighed by litres.
 *
 * Draws of the numbers of FrSapShape over all that is plausible (sap-fit.c says what and why), each weighed by how
 * well it told the seasons' emptyings with a gain of its own for each season, and as many of them kept as weigh. */
#pragma once

#include "domain/maths/sap-learn.h"

G_BEGIN_DECLS

/**
 * FrSapFitSpan:
 * @from_hour, @to_hour: of 00:00 of the dates between whose gathering hours it lies; indices into the season's air
 * @per_tap_l: emptied after it
 */
typedef struct
{
  guint from_hour;
  guint to_hour;
  double per_tap_l;
} FrSapFitSpan;

/**
 * FrSapFitSeason:
 * @air_c: (array length=n_hours): from midwinter on, at least 24 h beyond the last span
 * @tapped_hour: when the holes were drilled
 */
typedef struct
{
  guint n_hours;
  const double *air_c;
  guint tapped_hour;
  guint n_spans;
  const FrSapFitSpan *spans;
} FrSapFitSeason;

/* Owned: free with fr_sap_fit_free. @log_probability: logarithm of how likely the seasons were under all draws. @n_effective: how
 * many draws carry the weight. */
typedef struct
{
  FrSapMembers members;
  double log_probability;
  guint n_effective;
} FrSapFit;

/**
 * fr_sap_fit:
 * @n_draws: tried, for example 16384
 * @n_members: kept, all of the same weight
 *
 * The same answer each time: the draws are an even sequence, not chance.
 */
FrSapFit *
fr_sap_fit (const FrSapFitSeason *seasons, guint n_seasons, guint n_draws, guint n_members);
/* The same for a rule of thumb, for which only gain, scatter and gathering hour are open. */
FrSapFit *
fr_sap_fit_rule (FrSapRule rule, const FrSapFitSeason *seasons, guint n_seasons);
/* The same for a forecast that has no gain to learn: members that tell @per_day_l litres a day, apart in their scatter alone,
 * weighed by @apart_ratio (array length=n): logarithm of what came over what was told. */
FrSapFit *
fr_sap_fit_scatter (const double *apart_ratio, guint n, double per_day_l);
void
fr_sap_fit_free (FrSapFit *fit);

/* One of the shapes tried, @at of any number, and the hour of the day at which it takes the buckets to be emptied. */
FrSapShape
fr_sap_fit_draw (guint at, guint *gather_hour_out);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrSapFit, fr_sap_fit_free)

G_END_DECLS
