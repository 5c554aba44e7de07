/* Scores of the forecast in words. */
#pragma once

#include "domain/plan/forecast-tally.h"
#include "domain/units/quantity.h"

G_BEGIN_DECLS

/* "Thaw hours", "Rule −1.1 / 2.2 °C": of a row; static. */
const char *
fr_score_model_name (FrScoreModel model);
/* "Weather as observed": of a column; static. */
const char *
fr_score_air_name (FrScoreAir air);

/* What that weather makes of the scores, with the errors that were drawn. */
char *
fr_score_air_note (FrScoreAir air, const FrForecastError *errors, const FrUnits *units);
/* A season of @n emptyings that were told is too short. */
char *
fr_score_too_few (guint least, guint n);

/**
 * fr_score_verdict:
 * @rows: (array length=FR_N_SCORE_MODELS): of the column @air
 * @drawn: the program's row with drawn errors, which is told too; NULL for none
 *
 * One sentence: whether the program was closer than a constant rate, and what disappoints. It says nothing that the rows do not.
 */
char *
fr_score_verdict (FrScoreAir air, const FrScoreRow *rows, const FrScoreRow *drawn);

G_END_DECLS
