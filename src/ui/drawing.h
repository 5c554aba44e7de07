/* What the drawn widgets share: how they are named to style and to a screen reader, and whom they listen to. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* For class_init: a picture, styled as a drawing. */
void
fr_drawing_class_init (GtkWidgetClass *widget_class);

/**
 * fr_drawing_listen:
 * For init: takes the focus, is cut at its edge, is drawn anew with the theme and the focus, and calls back with
 * itself as the data.
 * @motion, @leave: of a motion controller; either may be NULL
 * @pressed: of a click gesture
 * @key: "key-pressed" of a key controller
 */
void
fr_drawing_listen (GtkWidget *widget, GCallback motion, GCallback leave, GCallback pressed, GCallback key);

G_END_DECLS
