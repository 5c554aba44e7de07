/* Scores as JSON. */
#pragma once

#include "domain/plan/forecast-tally.h"
#include "formats/json-output.h"

G_BEGIN_DECLS

/* Keys of models, columns and scores, in the order of their enums. */
extern const char *const fr_score_model_codes[FR_N_SCORE_MODELS];
extern const char *const fr_score_air_codes[FR_N_SCORE_AIRS];

/* Writes a row as an object into an array or under @key. */
void
fr_score_row_write_json (FrOutput *output, const char *key, const FrScoreRow *row);
/* Writes the array "reliability". */
void
fr_score_reliability_write_json (FrOutput *output, const FrReliabilityBin *bins, guint n_bins);
/* Writes the array "emptyings": the first course of a column. */
void
fr_score_tries_write_json (FrOutput *output, const FrSeasonScore *season, FrScoreModel model, FrScoreAir air);

G_END_DECLS
