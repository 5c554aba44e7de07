/* A place on the plan, entered as east and north or taken from a tree.
 *
 * Signal "changed" (): the place is another, or no longer known */
#pragma once

#include <adwaita.h>

#include "models/book.h"

G_BEGIN_DECLS

#define FR_TYPE_PLACE_GROUP (fr_place_group_get_type ())
G_DECLARE_FINAL_TYPE (FrPlaceGroup, fr_place_group, FR, PLACE_GROUP, AdwPreferencesGroup)

GtkWidget *
fr_place_group_new (const char *title, FrBook *book);

/* Both NAN: unknown. */
void
fr_place_group_set (FrPlaceGroup *self, double x_m, double y_m);
/* FALSE while one of them is unknown or cannot be read. */
gboolean
fr_place_group_get (FrPlaceGroup *self, double *x_m_out, double *y_m_out);
/* Finishes an edit that is under way. */
void
fr_place_group_finish (FrPlaceGroup *self);

G_END_DECLS
