/* Lays out children in a row that goes on in another when there is no room, each at its natural width; what is over goes to those that
 * expand. For bars of buttons and choices in windows of any width. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define FR_TYPE_WRAP_LAYOUT (fr_wrap_layout_get_type ())
G_DECLARE_FINAL_TYPE (FrWrapLayout, fr_wrap_layout, FR, WRAP_LAYOUT, GtkLayoutManager)

/* A box with such a layout; children are appended as to any box. */
GtkWidget *fr_wrap_box_new (int across_px, int down_px);

G_END_DECLS
