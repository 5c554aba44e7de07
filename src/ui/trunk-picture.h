/* The trunk, unrolled, as a widget: old holes, this season's, and the proposed place, which the pointer drags
 * and the arrow keys move (1 cm a step, with Shift 10 cm). Home goes back to the best place. A planned tap
 * can be dragged too.
 *
 * Signals:
 * - "place" (gboolean finished): the proposed place was moved
 * - "tap-moved" (gint64 tap, double angle_deg, double height_m): a planned tap was dragged to another place
 * - "tap-chosen" (gint64 tap): a hole was clicked */
#pragma once

#include <gtk/gtk.h>

#include "models/sugarbush.h"

G_BEGIN_DECLS

#define FR_TYPE_TRUNK_PICTURE (fr_trunk_picture_get_type ())
G_DECLARE_FINAL_TYPE (FrTrunkPicture, fr_trunk_picture, FR, TRUNK_PICTURE, GtkWidget)

GtkWidget *
fr_trunk_picture_new (void);

/* Shows a tree's trunk; 0 shows nothing. The proposed place is the best one again unless the same tree is
 * shown with the same holes. */
void
fr_trunk_picture_set (FrTrunkPicture *self, FrSugarbush *bush, gint64 tree);

/* The proposed place as it stands; FALSE when none can be worked out. */
gboolean
fr_trunk_picture_get_place (FrTrunkPicture *self, FrBushPlace *place_out);
/* Whether it is where the search put it. */
gboolean
fr_trunk_picture_is_best (FrTrunkPicture *self);
void
fr_trunk_picture_reset (FrTrunkPicture *self);

/* What is said aloud of the place. */
void
fr_trunk_picture_set_spoken (FrTrunkPicture *self, const char *sentence);

G_END_DECLS
