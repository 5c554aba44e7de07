/* Places a picture under the plan by two points that are known in both: pointed out in the picture, and on
 * the plan by a tree, by coordinates, or on the map. */
#pragma once

#include "ui/bush-map-sketch.h"
#include "ui/window.h"

G_BEGIN_DECLS

#define FR_TYPE_PICTURE_DIALOG (fr_picture_dialog_get_type ())
G_DECLARE_FINAL_TYPE (FrPictureDialog, fr_picture_dialog, FR, PICTURE_DIALOG, AdwWindow)

/* @path: of the picture. @map: where points are pointed out on the plan, or NULL: only typed. */
GtkWidget *
fr_picture_dialog_new (FrWindow *window, FrBushMap *map, const char *path);

G_END_DECLS
