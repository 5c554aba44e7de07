/* The frame the small dialogs share: Cancel and Keep in the header, content that scrolls under it, Escape closes. */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

/* For class_init. */
void fr_dialog_frame_class_init (GtkWidgetClass *widget_class);

/**
 * fr_dialog_frame_build:
 * @window: the dialog, made modal
 * @width_px, @height_px: its first size
 * @keep: called with @data when Keep is pressed
 * @inner_out: (out): the box for the content
 *
 * Returns: (transfer none): the Keep button, to be made sensitive when there is something to keep
 */
GtkWidget *fr_dialog_frame_build (AdwWindow *window, const char *title, int width_px, int height_px, GCallback keep,
                                  gpointer data, GtkBox **inner_out);

/**
 * fr_dialog_frame_build_plain:
 * The same for what is only looked at: no buttons but the window's own to close it.
 *
 * Returns: (transfer none): the header
 */
GtkWidget *fr_dialog_frame_build_plain (AdwWindow *window, const char *title, int width_px, int height_px, GtkBox **inner_out);

/* Other words than Cancel and Keep, with mnemonics; NULL leaves one as it is. */
void fr_dialog_frame_name_buttons (AdwWindow *window, const char *cancel, const char *keep);

G_END_DECLS
