/* How well the forecast of a season did, emptying by emptying, beside what simpler ways would have said.
 *
 * Each emptying is foretold as of the one before it, with only what had been emptied by then, and its litres a tap and
 * day are held against what came. Of the weather to come it was told, in three columns: what was observed, as a perfect
 * forecast; that with drawn errors laid over it; or the forecast that was kept, where one was. */
#pragma once

#include "domain/maths/sap-fit.h"
#include "domain/plan/forecast.h"

G_BEGIN_DECLS

typedef enum
{
  FR_SCORE_PROGRAM,     /* this program's forecast */
  FR_SCORE_CONSTANT,    /* every day alike, by what has come so far */
  FR_SCORE_LAST,        /* as the emptying before */
  FR_SCORE_SEASON_MEAN, /* the mean of other seasons, whatever comes */
  FR_SCORE_FREEZE_THAW, /* the rules of sap-rule.h, by what has come so far */
  FR_SCORE_ZERO,
  FR_SCORE_NIGHTS,
  FR_SCORE_THAW_HOURS,
  FR_N_SCORE_MODELS
} FrScoreModel;

typedef enum
{
  FR_SCORE_OBSERVED,
  FR_SCORE_DRAWN,
  FR_SCORE_KEPT,
  FR_N_SCORE_AIRS
} FrScoreAir;

/**
 * FrScoreRivals:
 * What each simple way learned of seasons that are not the one it is held against; free with fr_score_rivals_free.
 * @fits: by FrScoreModel, none for the program
 */
typedef struct
{
  FrSapFit *fits[FR_N_SCORE_MODELS];
} FrScoreRivals;

FrScoreRivals *
fr_score_rivals_new (const FrSapFitSeason *seasons, guint n_seasons);
void
fr_score_rivals_free (FrScoreRivals *rivals);

/* What a forecast that was kept knew on a date: @air observed to its gathering hour, as foretold after it. */
typedef struct
{
  FrDate as_of;
  const FrAirHours *air;
} FrScoreKept;

/**
 * FrScoreQuestion:
 * @season: taps, members, draws, seed and all that was gathered; its air is the whole season's as observed, its errors those to
 *   be drawn, and as_of is not looked at
 * @rivals: for the other models
 * @n_courses: of drawn errors, each a column of its own over which scores are averaged; 0 for no such column
 * @kept: dates rising; may be none
 */
typedef struct
{
  const FrForecastQuestion *season;
  const FrScoreRivals *rivals;
  guint n_courses;
  guint n_kept;
  const FrScoreKept *kept;
} FrScoreQuestion;

/**
 * FrScoreTry:
 * One emptying, foretold.
 * @per_day: litres a tap and day; all NAN where it could not be foretold, and for a kept forecast where none was kept
 * @came_l: litres a tap and day
 * @crps_l: of them; @log_score: see scores.h, within FR_SCORE_WITHIN_L
 */
typedef struct
{
  FrDate as_of;
  FrDate date;
  double span_days;
  FrLitres per_day;
  double run_probability;
  double came_l;
  double crps_l;
  double log_score;
} FrScoreTry;

/* What a bucket cannot tell apart, to each side. */
#define FR_SCORE_WITHIN_L 0.1

/**
 * FrSeasonScore:
 * Free with fr_season_score_free.
 * @n: emptyings
 * @n_courses: by model and column; 0 where there are none
 * @tries: by model and column: (array length=n*n_courses): course by course
 */
typedef struct
{
  guint n;
  guint n_courses[FR_N_SCORE_MODELS][FR_N_SCORE_AIRS];
  FrScoreTry *tries[FR_N_SCORE_MODELS][FR_N_SCORE_AIRS];
} FrSeasonScore;

FrSeasonScore *
fr_season_score_new (const FrScoreQuestion *question);
void
fr_season_score_free (FrSeasonScore *score);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrScoreRivals, fr_score_rivals_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrSeasonScore, fr_season_score_free)

G_END_DECLS
