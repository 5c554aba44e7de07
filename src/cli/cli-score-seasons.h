/* What is scored on the command line: the measured seasons that come with the program, or one from files. */
#pragma once

#include "cli/cli-forecast-ask.h"
#include "domain/plan/forecast-tally.h"

G_BEGIN_DECLS

/**
 * FrCliScores:
 * Clear it.
 * @names: (element-type utf8): one a season
 * @seasons: (element-type FrSeasonScore *)
 * @is_apart: each season was foretold with numbers fitted on the others; FALSE: with those that ship
 */
typedef struct
{
  GPtrArray *names;
  GPtrArray *seasons;
  gboolean is_apart;
} FrCliScores;

void
fr_cli_scores_clear (FrCliScores *scores);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (FrCliScores, fr_cli_scores_clear)

/* FALSE with FR_INPUT_ERROR. */
gboolean
fr_cli_scores_make (const FrCliScoreChoice *choice, FrCliScores *scores_out, GError **error);

G_END_DECLS
