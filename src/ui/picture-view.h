/* A picture in which a person points out two places they know. Click or Space sets the point that is being
 * asked for; the wheel, + and − zoom, 0 shows all, a drag moves the picture, arrows move the cross by a pixel
 * of the screen, with Shift by ten.
 *
 * Signal "pointed" (): the point asked for is somewhere else */
#pragma once

#include <gtk/gtk.h>

#include "ui/picture-file.h"

G_BEGIN_DECLS

#define FR_TYPE_PICTURE_VIEW (fr_picture_view_get_type ())
G_DECLARE_FINAL_TYPE (FrPictureView, fr_picture_view, FR, PICTURE_VIEW, GtkWidget)

GtkWidget *
fr_picture_view_new (void);

/* Takes it; NULL: none. */
void
fr_picture_view_take (FrPictureView *self, FrPicture *picture);
const FrPicture *
fr_picture_view_get (FrPictureView *self);

/* Which of the two is asked for, 0 or 1. */
void
fr_picture_view_ask (FrPictureView *self, guint point);
guint
fr_picture_view_asked (FrPictureView *self);
/* In the picture's own pixels; NAN unknown. */
void
fr_picture_view_set_point (FrPictureView *self, guint point, double column, double row);
void
fr_picture_view_get_point (FrPictureView *self, guint point, double *column_out, double *row_out);

G_END_DECLS
