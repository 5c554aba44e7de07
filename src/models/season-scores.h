/* How well the forecast did, season by season: those of the open book with enough emptyings, and the measured ones that come with the program,
 * each of these foretold by what was learned from the other alone. One is chosen; its table is worked out beside the main loop.
 *
 * Signals: "changed" (): another season is chosen, or its table has come */
#pragma once

#include "models/forecast.h"
#include "models/score-table.h"

G_BEGIN_DECLS

/**
 * FrScoredSeason:
 * @season: of the book; 0 for a measured one
 * @measured: its number, −1 for a season of the book
 * @name: of site and year, not for translation; NULL for a season of the book
 */
typedef struct
{
  guint season;
  gint measured;
  char *name;
} FrScoredSeason;

#define FR_TYPE_SEASON_SCORES (fr_season_scores_get_type ())
G_DECLARE_FINAL_TYPE (FrSeasonScores, fr_season_scores, FR, SEASON_SCORES, GObject)

/* What the book holds now; it does not follow the book. The latest season is chosen. NULL when the book cannot be read. */
FrSeasonScores *fr_season_scores_new (FrBook *book, FrForecaster *forecaster, GError **error);

guint fr_season_scores_n (FrSeasonScores *self);
const FrScoredSeason *fr_season_scores_season (FrSeasonScores *self, guint at);
guint fr_season_scores_get_chosen (FrSeasonScores *self);
gboolean fr_season_scores_choose (FrSeasonScores *self, guint at, GError **error);
/* Of the chosen season; NULL while it is worked out. Valid while @self is. */
const FrScoreTable *fr_season_scores_get_table (FrSeasonScores *self);

G_END_DECLS
