/* The palette the window is shown in now. */
#include "ui/theme.h"

#include <adwaita.h>

FrPalette
fr_theme_palette (void)
{
  AdwStyleManager *manager = adw_style_manager_get_default ();

  return (FrPalette){ .theme = adw_style_manager_get_dark (manager) ? FR_THEME_DARK : FR_THEME_LIGHT,
                      .high_contrast = adw_style_manager_get_high_contrast (manager) };
}

void
fr_theme_redraws (GtkWidget *widget)
{
  static const char *const signals[] = { "notify::dark", "notify::high-contrast" };

  for (guint i = 0; i < G_N_ELEMENTS (signals); i++)
    g_signal_connect_object (adw_style_manager_get_default (), signals[i], G_CALLBACK (gtk_widget_queue_draw),
                             widget, G_CONNECT_SWAPPED);
}
