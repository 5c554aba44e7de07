/* Window state and appearance, and nothing else: what changes a result lives in the book. */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

#define FR_SETTINGS_WIDTH "window-width"
#define FR_SETTINGS_HEIGHT "window-height"
#define FR_SETTINGS_MAXIMIZED "window-maximized"
#define FR_SETTINGS_SIDEBAR "sidebar-shown"
#define FR_SETTINGS_PAGE "page"
#define FR_SETTINGS_COLOR_SCHEME "color-scheme"
#define FR_SETTINGS_NOTIFY "notify-reminders"
#define FR_SETTINGS_REMINDERS_TOLD "reminders-told"

/* The program's settings, or NULL when its schema is not installed: the window then keeps no state. */
GSettings *
fr_settings_new (void);

G_END_DECLS
