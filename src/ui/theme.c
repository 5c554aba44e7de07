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
