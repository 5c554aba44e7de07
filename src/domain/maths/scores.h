/* Scores of a forecast that says a chance, a range or a whole distribution, against what came.
 *
 * Each is for one case or one list; means over cases are the caller's. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* The logarithmic score takes a forecast to leave at least this chance to anything. */
#define FR_SCORE_LEAST_PROBABILITY 1e-6

/**
 * fr_score_crps_l:
 * @at_l: (array length=n): litres, rising, at least two
 * @below_ratio: (array length=n): what the forecast puts at or below each; straight between, the rest of it on the first
 *   and the last value
 *
 * Returns: the continuous ranked probability score: 0 is best
 */
double
fr_score_crps_l (const double *at_l, const double *below_ratio, guint n, double seen_l);

/* Minus the natural logarithm of what the same forecast gives to values within @within_l of @seen_l. */
double
fr_score_log (const double *at_l, const double *below_ratio, guint n, double seen_l, double within_l);

/* Interval score of a range that is said to hold @held_ratio of all cases (0 to 1): its width and what it was missed by. */
double
fr_score_interval_l (double lo, double hi, double held_ratio, double seen_l);

/* Rank correlation (Spearman's), ties taking their mean rank; NAN where either list is all the same, or shorter than 3. */
double
fr_score_rank_ratio (const double *told_l, const double *seen_l, guint n);

/* Wilson's range for a share that was found in @n cases: @z_ratio normal deviations to each side; NAN for @n 0. */
void
fr_score_share_range (double share_ratio, guint n, double z_ratio, double *lo_ratio_out, double *hi_ratio_out);

G_END_DECLS
