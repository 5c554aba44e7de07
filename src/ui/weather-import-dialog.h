/* Weather from a file: what it was taken for, whose weather it is, and what becomes of its days. Nothing is written before Import is
 * pressed; then all of it is one step of undo. */
#pragma once

#include "ui/window.h"

G_BEGIN_DECLS

#define FR_TYPE_WEATHER_IMPORT_DIALOG (fr_weather_import_dialog_get_type ())
G_DECLARE_FINAL_TYPE (FrWeatherImportDialog, fr_weather_import_dialog, FR, WEATHER_IMPORT_DIALOG, AdwWindow)

GtkWidget *fr_weather_import_dialog_new (FrWindow *window, GFile *file);
gboolean fr_weather_import_dialog_is_reading (FrWeatherImportDialog *self);

/* Asks for a file with the desktop's file chooser first. */
void fr_weather_import_ask (FrWindow *window);

G_END_DECLS
