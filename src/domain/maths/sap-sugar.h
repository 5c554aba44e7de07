/* How sweet a bush's sap is, by day and by tree, learned from its readings.
 *
 * A reading is the bush's level, which goes down by the day, plus what the tree is sweeter or weaker, plus
 * the error of the reading. Level, slope, trees and errors are normal, so what is believed after any readings
 * is exact in closed form, and their order does not matter. A reading too far from what all the others say is
 * a stray: it is kept out, and said to be. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Of a reading: tree of none, the mix of the whole bush. */
#define FR_SUGAR_BUSH (-1)
/* A reading is a stray when it lies more than so many sd from what the prior and all the others make of it.
 */
#define FR_SUGAR_STRAY_SD 4.0

/**
 * FrSapSugarPrior:
 * What is believed before any reading.
 * @level_brix: of the bush on the day that days are counted from, ± @level_brix_sd
 * @slope_brix_per_day: ± @slope_brix_per_day_sd
 * @tree_brix_sd: of trees around the bush's level
 */
typedef struct
{
  double level_brix;
  double level_brix_sd;
  double slope_brix_per_day;
  double slope_brix_per_day_sd;
  double tree_brix_sd;
} FrSapSugarPrior;

/* 2.2 ± 0.5 °Bx in mid-season (common practice, no source), 0.014 ± 0.010 °Bx less each day (measured over 32
 * days of one season at a site with weighed taps; the spread is ours), trees ± 0.35 (common practice, no
 * source). */
FrSapSugarPrior
fr_sap_sugar_prior (void);

/**
 * FrSapSugarReading:
 * @at_days: days after the one that days are counted from
 * @tree: 0 to the number of trees, or FR_SUGAR_BUSH
 * @brix: true °Bx
 * @brix_sd: of its error, above 0
 */
typedef struct
{
  double at_days;
  gint tree;
  double brix;
  double brix_sd;
} FrSapSugarReading;

/* A number and how sure it is. */
typedef struct
{
  double mean_brix;
  double brix_sd;
} FrSugarBrix;

typedef struct _FrSapSugar FrSapSugar;

/**
 * fr_sap_sugar_new:
 * @n_trees: trees that may be named
 * @readings: (array length=n): in any order; copied
 *
 * Strays are taken out one at a time, the furthest first, each time against all that are left.
 */
FrSapSugar *
fr_sap_sugar_new (const FrSapSugarPrior *prior, guint n_trees, const FrSapSugarReading *readings, guint n);
void
fr_sap_sugar_free (FrSapSugar *sugar);

/* What sap of that day is: of a tree, of the mix with FR_SUGAR_BUSH, of a tree nothing is known of with any
 * other number. The sd is of what it is, without the error of a reading. */
FrSugarBrix
fr_sap_sugar_on (const FrSapSugar *sugar, double at_days, gint tree);
/* How much sweeter than the bush a tree is. */
FrSugarBrix
fr_sap_sugar_tree (const FrSapSugar *sugar, gint tree);
/* The bush's level on day 0, and the slope: °Bx a day. */
FrSugarBrix
fr_sap_sugar_level (const FrSapSugar *sugar);
double
fr_sap_sugar_slope_brix_per_day (const FrSapSugar *sugar, double *brix_per_day_sd_out);
gboolean
fr_sap_sugar_is_stray (const FrSapSugar *sugar, guint reading);
guint
fr_sap_sugar_n_used (const FrSapSugar *sugar);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrSapSugar, fr_sap_sugar_free)

G_END_DECLS
