/* Files of weather on the command line. */
#pragma once

#include "cli/cli-commands.h"
#include "formats/weather-file.h"

G_BEGIN_DECLS

/**
 * FrCliWeatherChoice:
 * What the options say of a file of weather; each NULL when not given.
 */
typedef struct
{
  char *columns; /* "date=day,low=tmin:f,high=tmax:f" */
  char *where;   /* "location=Seattle" */
  char *zone;    /* an IANA name, or an offset such as -05:00 */
} FrCliWeatherChoice;

/* The weather in a file, "-" for standard input; NULL with FR_INPUT_ERROR. @choice may be NULL. */
FrWeather *
fr_cli_weather_read (const char *path, const FrCliWeatherChoice *choice, GError **error);

extern const GOptionEntry fr_weather_entries[];
gboolean
fr_run_weather (const FrCommandOptions *options, const char *file, GString *answer, GError **error);

G_END_DECLS
