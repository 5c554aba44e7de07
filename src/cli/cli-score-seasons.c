/* Measured seasons are each foretold with members fitted on the other alone; a season from files with those that ship. */
#include "cli/cli-score-seasons.h"

#include "cli/cli-read.h"
#include "formats/measured-seasons.h"

#define DRAWS 8

void
fr_cli_scores_clear (FrCliScores *scores)
{
  g_clear_pointer (&scores->names, g_ptr_array_unref);
  g_clear_pointer (&scores->seasons, g_ptr_array_unref);
}

static void
add (const FrCliScoreChoice *choice, const FrForecastQuestion *season, const FrScoreRivals *rivals, const char *name,
     FrCliScores *scores)
{
  FrForecastQuestion asked = *season;
  const FrScoreQuestion question = { .season = &asked, .rivals = rivals, .n_courses = choice->n_courses };

  asked.errors = choice->errors;
  asked.seed = choice->seed;
  g_ptr_array_add (scores->names, g_strdup (name));
  g_ptr_array_add (scores->seasons, fr_season_score_new (&question));
}

static void
add_measured (const FrCliScoreChoice *choice, FrCliScores *scores)
{
  for (guint i = 0; i < fr_n_measured_seasons (); i++)
    {
      g_auto (FrMeasuredSeason) measured = { 0 };
      g_autoptr (FrSapFit) fit = fr_measured_fit ((gint)i);
      g_autoptr (FrScoreRivals) rivals = fr_measured_rivals ((gint)i);
      g_autoptr (FrAirHours) air = NULL;
      FrForecastQuestion season = { .gather_hour = -1, .n_draws = DRAWS };

      fr_measured_season (i, &measured);
      air = fr_season_air (measured.weather, fr_midwinter (measured.tapped, FALSE), 0);
      season.air = air;
      season.tapped = measured.tapped;
      season.n_gathered = measured.gathered->len;
      season.gathered = (const FrSapGathered *)measured.gathered->data;
      season.members = &fit->members;
      add (choice, &season, rivals, measured.name, scores);
    }
}

gboolean
fr_cli_scores_make (const FrCliScoreChoice *choice, FrCliScores *scores_out, GError **error)
{
  scores_out->names = g_ptr_array_new_with_free_func (g_free);
  scores_out->seasons = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_season_score_free);
  scores_out->is_apart = choice->weather == NULL;
  if (choice->weather != NULL)
    {
      g_auto (FrCliForecast) ask = { 0 };
      g_autoptr (FrScoreRivals) rivals = NULL;
      g_autofree char *name = g_path_get_basename (choice->weather);

      if (choice->gathered == NULL)
        return fr_cli_wrong (error, "--gathered FILE has to be given beside --weather");
      if (!fr_cli_forecast_ask (&ask, error))
        return FALSE;
      if (ask.question.tapped.year == 0)
        return fr_cli_wrong (error, "--tapped DATE has to be given beside --weather");
      rivals = fr_measured_rivals (-1);
      add (choice, &ask.question, rivals, name, scores_out);
    }
  else
    add_measured (choice, scores_out);
  return TRUE;
}
