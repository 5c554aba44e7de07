/* Scores of seasons that were foretold, with how sure they are.
 *
 * Means over emptyings and drawn courses; of several seasons over all of their emptyings, but the rank correlation, which is each
 * season's own, averaged. Ranges hold 9 in 10 by drawing emptyings anew, three neighbours at a time (Künsch 1989), since
 * neighbours are not independent. */
#pragma once

#include "domain/plan/forecast-score.h"

G_BEGIN_DECLS

typedef enum
{
  FR_SCORE_RANK,           /* rank correlation of what was told with what came, litres a tap and day */
  FR_SCORE_ERROR_L,        /* mean absolute error of the middle, litres a tap and emptying */
  FR_SCORE_ERROR_RATIO,    /* of the constant's */
  FR_SCORE_CRPS_L,         /* litres a tap and day */
  FR_SCORE_CRPS_RATIO,     /* of the constant's */
  FR_SCORE_BRIER,          /* of the chance of a run */
  FR_SCORE_BRIER_BASE,     /* of the season's own share of runs, told each time */
  FR_SCORE_BRIER_SKILL,    /* 1 − the first of these over the second */
  FR_SCORE_HIT_RATIO,      /* runs that were told with a chance of a half or more */
  FR_SCORE_FALSE_RATIO,    /* of those told, the ones that did not come */
  FR_SCORE_SUCCESS_RATIO,  /* runs told and come, of all told or come: the critical success index */
  FR_SCORE_SUCCESS_ALWAYS, /* the same for who says "a run" every time */
  FR_SCORE_INSIDE_RATIO,   /* came within the 10 to 90 % range */
  FR_SCORE_INTERVAL_L,     /* that range's interval score, litres a tap and day */
  FR_SCORE_INTERVAL_RATIO, /* of the constant's */
  FR_SCORE_LOG,            /* mean logarithmic score */
  FR_N_SCORES
} FrScoreKind;

/* @lo, @hi: 9 in 10; NAN where not known. In the unit of its kind. */
typedef struct
{
  double value;
  double lo;
  double hi;
} FrScoreValue;

/**
 * FrScoreRow:
 * @n: emptyings that were foretold; @n_runs: those that brought a run
 */
typedef struct
{
  guint n;
  guint n_runs;
  FrScoreValue scores[FR_N_SCORES];
} FrScoreRow;

/**
 * fr_score_row:
 * @seasons: one, or several to be taken together
 * @n_resamples: for the ranges, for example 1000; 0 for none
 *
 * A row without emptyings has @n 0 and all NAN, one with fewer than six no ranges.
 */
void
fr_score_row (const FrSeasonScore *const *seasons, guint n_seasons, FrScoreModel model, FrScoreAir air, guint n_resamples,
              guint64 seed, FrScoreRow *row_out);

/* Emptyings whose chance of a run was told alike. @said_ratio: mean of the chances; @happened_ratio: share that ran;
 * @lo_ratio, @hi_ratio: 8 in 10 for the latter. All NAN when @n is 0. */
typedef struct
{
  double said_ratio;
  double happened_ratio;
  double lo_ratio;
  double hi_ratio;
  guint n;
} FrReliabilityBin;

/* @bins_out: (array length=n_bins): of equal width from 0 to 1. Drawn courses count a share each; @n is rounded. */
void
fr_score_reliability (const FrSeasonScore *const *seasons, guint n_seasons, FrScoreModel model, FrScoreAir air, guint n_bins,
                      FrReliabilityBin *bins_out);

G_END_DECLS
