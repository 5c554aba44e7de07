/* Freezing and thawing: when the air goes through a temperature, and warmth added up over days. */
#pragma once

#include "domain/maths/air-hours.h"

G_BEGIN_DECLS

typedef struct
{
  gint64 utc_s;
  gboolean falls; /* below the temperature, instead of above it */
} FrAirCrossing;

/**
 * fr_air_crossings:
 * @air: the hours; straight lines between them
 * @threshold_c: the temperature
 * @margin_k: 0 or more: the air counts as below once it is this far under @threshold_c, and as above once it
 * is this far over it, so that dithering about it is no freezing and thawing
 *
 * When the air went through @threshold_c for the last time before it counted. Unknown hours end a course:
 * what happened in them is not guessed.
 *
 * Returns: (element-type FrAirCrossing): instants rising, falls and rises in turn between unknown hours
 */
GArray *
fr_air_crossings (const FrAirHours *air, double threshold_c, double margin_k);

/* A day's warmth above @base_c by the simple mean: the middle of low and high, less the base, but not below
 * 0. Kelvin times days; NAN when low or high is, or the low is above the high. */
double
fr_degree_days_mean_k (double low_c, double high_c, double base_c);

/* The same by the single sine, which counts the part of the day above the base when the low is under it. */
double
fr_degree_days_sine_k (double low_c, double high_c, double base_c);

G_END_DECLS
