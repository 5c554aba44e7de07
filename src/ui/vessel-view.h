/* The pan from the side, with its rim, the level the feed holds, the cut-off and the least level, and beneath
 * it what they mean in litres and depth. A drawn widget; its words are also its accessible label. */
#pragma once

#include <gtk/gtk.h>

#include "domain/records/kinds.h"

G_BEGIN_DECLS

#define FR_TYPE_VESSEL_VIEW (fr_vessel_view_get_type ())
G_DECLARE_FINAL_TYPE (FrVesselView, fr_vessel_view, FR, VESSEL_VIEW, GtkWidget)

GtkWidget *
fr_vessel_view_new (void);
void
fr_vessel_view_set (FrVesselView *self, const FrVesselRecord *vessel, const FrUnits *units);

G_END_DECLS
