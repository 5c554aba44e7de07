/* Every way is told over the same weather and the same draws; the ranges by as many resamples as settle them to a hundredth or two. */
#include "models/score-table.h"

#include <math.h>

#define COURSES 4
#define RESAMPLES 200

void
fr_score_table_make (const FrForecastQuestion *season, const FrScoreRivals *rivals, FrScoreTable *table)
{
  const FrScoreQuestion question = { .season = season, .rivals = rivals, .n_courses = COURSES };
  g_autoptr (FrSeasonScore) score = fr_season_score_new (&question);
  const FrSeasonScore *const seasons[] = { score };
  const FrScoreRow *own = &table->rows[FR_SCORE_OBSERVED][FR_SCORE_PROGRAM];

  for (FrScoreAir air = 0; air < FR_N_SCORE_AIRS; air++)
    {
      for (FrScoreModel model = 0; model < FR_N_SCORE_MODELS; model++)
        fr_score_row (seasons, 1, model, air, RESAMPLES, season->seed, &table->rows[air][model]);
      fr_score_reliability (seasons, 1, FR_SCORE_PROGRAM, air, FR_SCORE_TABLE_BINS, table->bins[air]);
    }
  table->n = own->n;
  table->n_inside = own->n > 0 ? (guint)lround (own->n * own->scores[FR_SCORE_INSIDE_RATIO].value) : 0;
  table->errors = season->errors;
}

const FrScoreRow *
fr_score_table_drawn (const FrScoreTable *table)
{
  const FrScoreRow *drawn = &table->rows[FR_SCORE_DRAWN][FR_SCORE_PROGRAM];

  return drawn->n > 0 ? drawn : NULL;
}
