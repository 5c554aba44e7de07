/* The weather service: which one is asked, what it is told and what is kept of it, and how the household's own day runs. Nothing is asked
 * before Keep is pressed with a service chosen. */
#pragma once

#include "models/season.h"
#include "models/weather-keeper.h"
#include "ui/window.h"

G_BEGIN_DECLS

#define FR_TYPE_WEATHER_SERVICE_DIALOG (fr_weather_service_dialog_get_type ())
G_DECLARE_FINAL_TYPE (FrWeatherServiceDialog, fr_weather_service_dialog, FR, WEATHER_SERVICE_DIALOG, AdwWindow)

GtkWidget *fr_weather_service_dialog_new (FrWindow *window, FrSeason *season, FrWeatherKeeper *keeper);

G_END_DECLS
