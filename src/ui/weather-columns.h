/* What each column of a plain table of weather is taken for: guessed first, and changed here.
 *
 * Signal "changed" (): the table is to be taken in another way */
#pragma once

#include <adwaita.h>

#include "formats/weather-file.h"

G_BEGIN_DECLS

#define FR_TYPE_WEATHER_COLUMNS_GROUP (fr_weather_columns_group_get_type ())
G_DECLARE_FINAL_TYPE (FrWeatherColumnsGroup, fr_weather_columns_group, FR, WEATHER_COLUMNS_GROUP, AdwBin)

GtkWidget *fr_weather_columns_group_new (void);

/* @columns: (element-type FrWeatherFound): as the table was taken; hidden when it is NULL or empty. @open: folded out, for something has to be
 * chosen. */
void fr_weather_columns_group_show (FrWeatherColumnsGroup *self, const GPtrArray *columns, gboolean open);

/* As chosen; all is left to be guessed until somebody has chosen. @choice_out is filled anew, to be cleared. */
void fr_weather_columns_group_get (FrWeatherColumnsGroup *self, FrWeatherColumns *choice_out);

G_END_DECLS
