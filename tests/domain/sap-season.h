/* Invented seasons for tests: trees that give more or less than their size tells, days that run and days that
 * do not, and lines as a household would write them, with what really happened beside them. How trees and
 * days differ is drawn here by rules of its own: a day's run is a gamma-like sum of exponentials, a tree
 * leans to warm or to cold days, its scatter about that is log-normal with now and then a day far off (one
 * line in fifty, twice as wide), and pails are read to a quarter of a litre. Common practice, no source. */
#pragma once

#include "bushes.h"

#include "domain/plan/season-book.h"

#include <string.h>

#define SAP_SEASON 2026
#define SAP_FIRST_UTC G_GINT64_CONSTANT (1772582400) /* 2026-03-04T00:00:00Z */
#define SAP_DAY_S 86400                              /* UTC: days are alike */

typedef struct
{
  Bush bush;
  GPtrArray *containers;
  GPtrArray *gatherings;
  GPtrArray *days;
  GRand *rand;
  guint n_trees;
  guint n_days;
  double *pace_l; /* of each tree on a day of run 1 */
  double *lean;   /* towards warm days */
  double *brix;
  double scatter;
  double *run; /* of each day; below 0.02 nobody goes out */
  double *warmth;
  double *sweetness; /* of each day, a ratio */
} SapSeason;

static inline double
sap_normal (GRand *rand)
{
  return sqrt (-2 * log (1 - g_rand_double (rand))) * cos (2 * G_PI * g_rand_double (rand));
}

/* Trees of 25 to 70 cm with one hole each, or two from 50 cm on. */
static inline SapSeason
sap_season (guint32 seed, guint n_trees, guint n_days)
{
  SapSeason s = { .bush = bush_begin (), .n_trees = n_trees, .n_days = n_days };

  s.rand = g_rand_new_with_seed (seed);
  s.containers = bush_records ();
  s.gatherings = bush_records ();
  s.days = bush_records ();
  s.pace_l = g_new (double, n_trees);
  s.lean = g_new (double, n_trees);
  s.brix = g_new (double, n_trees);
  s.run = g_new (double, n_days);
  s.warmth = g_new (double, n_days);
  s.sweetness = g_new (double, n_days);
  s.scatter = g_rand_double_range (s.rand, 0.2, 0.4);
  for (guint i = 0; i < n_trees; i++)
    {
      FrTree *tree = bush_tree (&s.bush, "sugar", 10.0 * i, 0);
      const double diameter_m = g_rand_double_range (s.rand, 0.25, 0.7);

      bush_girth (&s.bush, tree, "2025-09-20", "diameter", diameter_m);
      for (guint k = 0; k < (diameter_m > 0.5 ? 2 : 1); k++)
        {
          bush_tap (&s.bush, tree, SAP_SEASON, "2026-03-01", 90 * k, 0.9)->container_l.value = 20;
        }
      s.pace_l[i]
          = 2 * (diameter_m > 0.5 ? 1.75 : 1) * sqrt (diameter_m / 0.4) * exp (0.35 * sap_normal (s.rand));
      s.lean[i] = 0.15 * sap_normal (s.rand);
      s.brix[i] = 2.2 * exp (0.18 * sap_normal (s.rand));
    }
  for (guint d = 0; d < n_days; d++)
    {
      /* Two exponentials: many middling days, few great ones, some of next to nothing. */
      s.run[d] = -0.5 * log (1 - g_rand_double (s.rand)) - 0.5 * log (1 - g_rand_double (s.rand));
      s.warmth[d] = sap_normal (s.rand);
      s.sweetness[d] = exp (-0.3 * d / n_days + 0.05 * sap_normal (s.rand));
    }
  s.bush.book.gatherings = s.gatherings;
  s.bush.book.containers = s.containers;
  return s;
}

static inline void
sap_season_clear (SapSeason *s)
{
  bush_clear (&s->bush);
  g_ptr_array_unref (s->containers);
  g_ptr_array_unref (s->gatherings);
  g_ptr_array_unref (s->days);
  g_rand_free (s->rand);
  g_free (s->pace_l);
  g_free (s->lean);
  g_free (s->brix);
  g_free (s->run);
  g_free (s->warmth);
  g_free (s->sweetness);
}

/* What the tree gave that day. */
static inline double
sap_true_l (SapSeason *s, guint tree, guint day)
{
  const double wide = g_rand_int_range (s->rand, 0, 50) == 0 ? 2 : 1;

  return s->pace_l[tree] * s->run[day]
         * exp (s->lean[tree] * s->warmth[day] + wide * s->scatter * sap_normal (s->rand));
}

static inline double
sap_read_l (double volume_l)
{
  return floor (4 * volume_l + 0.5) / 4;
}

/* The n-th minute from nine in the morning of that day. */
static inline gint64
sap_utc (guint day, guint minute)
{
  return SAP_FIRST_UTC + (gint64)day * SAP_DAY_S + 9 * 3600 + 60 * (gint64)minute;
}

static inline FrGathering *
sap_line (SapSeason *s, gint64 utc_s, const char *scope, double volume_l)
{
  FrGathering *line = bush_add (s->gatherings, FR_KIND_GATHERING);

  line->gathered_utc = utc_s;
  bush_set (&line->scope, scope);
  fr_amount_set (&line->volume_l, volume_l, NULL);
  return line;
}

static inline FrGathering *
sap_tree_line (SapSeason *s, guint day, guint tree, double volume_l)
{
  FrGathering *line = sap_line (s, sap_utc (day, tree), "tree", volume_l);

  line->tree = ((FrRecord *)s->bush.book.trees->pdata[tree])->id;
  return line;
}

/* The seasons' answers look at these. */
static inline FrSeasonBook
sap_book (const SapSeason *s, const FrZoneTable *zone)
{
  return (FrSeasonBook){ .zone = zone,
                         .trees = s->bush.book.trees,
                         .girths = s->bush.book.girths,
                         .taps = s->bush.book.taps,
                         .yields = s->bush.book.yields,
                         .containers = s->containers,
                         .gatherings = s->gatherings,
                         .days = s->days };
}
