/* Pictures of every page, light and dark, wide and narrow, for the manual and for a look where no display is.
 */
#pragma once

#include "ui/window.h"

G_BEGIN_DECLS

/* Draws into PNG files in @folder, which must exist; lets the main loop run meanwhile. FALSE and @error when
 * a file cannot be written. */
gboolean
fr_pictures_take (FrWindow *window, const char *folder, GError **error);

G_END_DECLS
