/* The columns of the gathering log, whose heads and lines are laid out apart: widths in px at text scale 1. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define FR_LOG_AMOUNT_PX 92
#define FR_LOG_SUGAR_PX 76
#define FR_LOG_SAMPLE_PX 76
#define FR_LOG_TRUE_PX 66
#define FR_LOG_STATE_PX 20
#define FR_LOG_GAP_PX 8

/* A text in a column, 0 px for one that takes what room there is; @css may be NULL. */
GtkWidget *fr_log_label_new (const char *text, float xalign, int width_px, const char *css);

G_END_DECLS
