/* The view "Store" of the season: what waits where, what to boil first and until when it keeps; what does not add up; and how this
 * household keeps sap. It always speaks of today. */
#pragma once

#include "models/calendar-keeper.h"
#include "models/season.h"

#include <adwaita.h>

G_BEGIN_DECLS

#define FR_TYPE_STORE_VIEW (fr_store_view_get_type ())
G_DECLARE_FINAL_TYPE (FrStoreView, fr_store_view, FR, STORE_VIEW, AdwBin)

/* @keeper: of the calendar file, whose problem is shown. */
GtkWidget *fr_store_view_new (FrSeason *season, FrCalendarKeeper *keeper);

G_END_DECLS
