/* The palette the window is shown in now, for drawn widgets. */
#pragma once

#include <gtk/gtk.h>

#include "paint/palette.h"

FrPalette
fr_theme_palette (void);

/* Draws the widget anew whenever that palette changes. For its init. */
void
fr_theme_redraws (GtkWidget *widget);
