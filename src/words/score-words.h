/* Scores of the forecast in words. */
#pragma once

#include "domain/plan/forecast-tally.h"
#include "words/paper-words.h"

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

/* A few of the rows as a table, this program first, a row for each of what is scored; above it of how many emptyings. @rows: (array
 * length=FR_N_SCORE_MODELS): with the weather as observed. */
FrPaperWords *
fr_score_table_words_new (const FrScoreRow *rows, guint n_told, const FrUnits *units);

/**
 * fr_score_table_notes:
 * @drawn: (nullable): the program's row with drawn errors
 * @n_inside: of @n_told within the 8-in-10 range
 *
 * Returns: (element-type utf8): what is to be said under the table, which the array frees
 */
GPtrArray *
fr_score_table_notes (const FrScoreRow *rows, const FrScoreRow *drawn, guint n_inside, guint n_told);

/* "0.42", "63 %"; litres in the units' volume, without it; "–" where unknown. */
char *
fr_score_text (FrScoreKind kind, double value, const FrUnits *units);
/* "0.31…0.55"; NULL where no range is known. */
char *
fr_score_range_text (FrScoreKind kind, const FrScoreValue *value, const FrUnits *units);

/* "How Well It Did Here"; static. */
const char *
fr_score_title (void);

G_END_DECLS
