/* What the plan stands on: drawings, the tie to the earth, the compass, and a picture under it all. Stands in
 * the map's side panel; what it draws is drawn on the map beside it.
 *
 * Signal "close" (): it is no longer wanted */
#pragma once

#include <adwaita.h>

#include "ui/bush-map.h"

G_BEGIN_DECLS

#define FR_TYPE_GROUND_PANEL (fr_ground_panel_get_type ())
G_DECLARE_FINAL_TYPE (FrGroundPanel, fr_ground_panel, FR, GROUND_PANEL, AdwBin)

GtkWidget *
fr_ground_panel_new (FrSugarbush *bush, FrBushMap *map);

/* Begins to draw what is chosen in the panel, as its button does. */
void
fr_ground_panel_draw (FrGroundPanel *self);
/* Shows a picture in the dialog that places it. */
void
fr_ground_panel_place (FrGroundPanel *self, const char *path);

G_END_DECLS
