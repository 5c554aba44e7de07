/* The checklist of the kit for a season: what to do to each piece before the first sap and after the last, why, and whether it was done.
 * A tick writes it down for today; taking it away takes that back. */
#pragma once

#include "models/season.h"
#include "ui/window.h"

G_BEGIN_DECLS

#define FR_TYPE_KIT_CHECKLIST (fr_kit_checklist_get_type ())
G_DECLARE_FINAL_TYPE (FrKitChecklist, fr_kit_checklist, FR, KIT_CHECKLIST, AdwWindow)

GtkWidget *fr_kit_checklist_new (FrWindow *window, FrSeason *season);

G_END_DECLS
