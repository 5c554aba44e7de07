/* The scores of one season as a table: every way, every kind of weather told, and how reliable the chances were. */
#pragma once

#include "domain/plan/forecast-tally.h"

G_BEGIN_DECLS

/* Bars of chance, each a fifth wide: a season's few dozen emptyings fill no more. */
#define FR_SCORE_TABLE_BINS 5

/**
 * FrScoreTable:
 * @n: emptyings told
 * @n_inside: of them within the 8-in-10 range, with the weather as observed
 * @rows: by the weather that was told; without emptyings where none was
 * @bins: of the program's chance of a run
 * @errors: those that were drawn
 */
typedef struct
{
  guint n;
  guint n_inside;
  FrScoreRow rows[FR_N_SCORE_AIRS][FR_N_SCORE_MODELS];
  FrReliabilityBin bins[FR_N_SCORE_AIRS][FR_SCORE_TABLE_BINS];
  FrForecastError errors;
} FrScoreTable;

/* Takes seconds: for a thread. */
void fr_score_table_make (const FrForecastQuestion *season, const FrScoreRivals *rivals, FrScoreTable *table_out);

/* The program's row with drawn errors, NULL when there is none. */
const FrScoreRow *fr_score_table_drawn (const FrScoreTable *table);

G_END_DECLS
