/* Ties the plan to the earth: a point of the plan, or a tree, and its latitude and longitude. */
#pragma once

#include "ui/window.h"

G_BEGIN_DECLS

#define FR_TYPE_ANCHOR_DIALOG (fr_anchor_dialog_get_type ())
G_DECLARE_FINAL_TYPE (FrAnchorDialog, fr_anchor_dialog, FR, ANCHOR_DIALOG, AdwWindow)

GtkWidget *
fr_anchor_dialog_new (FrWindow *window);

G_END_DECLS
