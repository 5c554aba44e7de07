/* Weather of a file into a book. */
#pragma once

#include "cli/cli-weather.h"

G_BEGIN_DECLS

/**
 * FrCliWeatherImport:
 * @book: its path, or NULL
 * @station: name or key of the source, NULL: as the file calls it
 * @choice: of the file
 * @confirm: it comes in although the file is of another source
 * @without_refused: days that are refused are left out
 */
typedef struct
{
  const char *book;
  const char *station;
  FrCliWeatherChoice choice;
  gboolean dry_run;
  gboolean confirm;
  gboolean without_refused;
} FrCliWeatherImport;

gboolean fr_cli_weather_import (const FrCliWeatherImport *wanted, const FrCommandOptions *options, const char *file,
                                GString *answer, GError **error);

G_END_DECLS
