/* The weather of the season's selected day, its buds and its note, each entry kept as it is typed. */
#pragma once

#include "models/season.h"

#include <adwaita.h>

G_BEGIN_DECLS

#define FR_TYPE_DAY_WEATHER (fr_day_weather_get_type ())
G_DECLARE_FINAL_TYPE (FrDayWeather, fr_day_weather, FR, DAY_WEATHER, AdwBin)

/* Empty until it is shown. */
GtkWidget *
fr_day_weather_new (FrSeason *season);

/* Another day has other entries; the same one keeps what is being typed. */
void
fr_day_weather_show (FrDayWeather *self);

G_END_DECLS
