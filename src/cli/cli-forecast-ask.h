/* What the forecast and its scores are asked with on the command line. */
#pragma once

#include "domain/plan/forecast.h"
#include "domain/plan/season-air.h"
#include "words/say.h"

G_BEGIN_DECLS

/**
 * FrCliForecast:
 * What files and options come to; clear it.
 * @weather: the file's
 * @air: the season of @as_of
 * @past: (element-type FrAirHours *): whole seasons before it, of the same file and of others
 * @gathered: (element-type FrSapGathered)
 * @group: the taps, all alike
 * @question: borrows from the rest
 */
typedef struct
{
  FrWeather *weather;
  FrAirHours *air;
  GPtrArray *past;
  GArray *gathered;
  FrTapGroup group;
  FrForecastQuestion question;
} FrCliForecast;

void
fr_cli_forecast_clear (FrCliForecast *forecast);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (FrCliForecast, fr_cli_forecast_clear)

/* Litres and °C, since there is no household to ask. */
extern const FrSay fr_cli_forecast_say;

/* A sentence without its markup as a line of its own, nothing for NULL. Takes @text. */
void
fr_cli_forecast_line (GString *answer, char *text);

/* Filled by the option parser. */
extern const GOptionEntry fr_forecast_entries[];
extern const GOptionEntry fr_tap_date_entries[];
extern const GOptionEntry fr_score_entries[];

/* FALSE with FR_INPUT_ERROR. */
gboolean
fr_cli_forecast_ask (FrCliForecast *forecast_out, GError **error);

/* The book to ask instead of files, with what time it is; NULL when none was given. Borrowed. */
const char *
fr_cli_forecast_book (const char **now_out);

/* What scores are asked with beside it. @weather, @gathered: file names, borrowed; NULL when not given. */
typedef struct
{
  const char *weather;
  const char *gathered;
  FrForecastError errors;
  guint n_courses;
  guint64 seed;
} FrCliScoreChoice;

/* FALSE with FR_INPUT_ERROR. */
gboolean
fr_cli_score_ask (FrCliScoreChoice *choice_out, GError **error);

G_END_DECLS
