/* Chance that comes out the same each time, and the normal distribution.
 *
 * The caller has the seed and the state; nothing here has chance of its own. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* splitmix64 (Steele, Lea and Flood 2014); any seed will do. */
typedef struct
{
  guint64 state;
} FrChance;

static inline guint64
fr_chance_bits (FrChance *chance)
{
  guint64 z = chance->state += G_GUINT64_CONSTANT (0x9e3779b97f4a7c15);

  z = (z ^ (z >> 30)) * G_GUINT64_CONSTANT (0xbf58476d1ce4e5b9);
  z = (z ^ (z >> 27)) * G_GUINT64_CONSTANT (0x94d049bb133111eb);
  return z ^ (z >> 31);
}

/* 0 to @n - 1. */
static inline guint
fr_chance_below (FrChance *chance, guint n)
{
  return (guint)(((fr_chance_bits (chance) >> 32) * n) >> 32);
}

/* 0 to under 1. */
static inline double
fr_chance_ratio (FrChance *chance)
{
  return (double)(fr_chance_bits (chance) >> 11) * 0x1p-53;
}

/* @n independent draws of the standard normal distribution; one bit stream gives the same ones on any machine
 * but for the last digits of its logarithm and cosine. */
void
fr_chance_normals (FrChance *chance, double *draws_ratio_out, guint n);

/* The share of a standard normal distribution below @z_ratio standard deviations; NAN for NAN. */
double
fr_normal_below_ratio (double z_ratio);

/* How many standard deviations lie at that share: the inverse of the above. Infinite at 0 and 1, NAN beyond.
 */
double
fr_normal_quantile_ratio (double share_ratio);

G_END_DECLS
