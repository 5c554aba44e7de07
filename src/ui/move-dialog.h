/* Moves the selected trees by a distance and a bearing. */
#pragma once

#include <adwaita.h>

#include "models/sugarbush.h"
#include "ui/window.h"

G_BEGIN_DECLS

#define FR_TYPE_MOVE_DIALOG (fr_move_dialog_get_type ())
G_DECLARE_FINAL_TYPE (FrMoveDialog, fr_move_dialog, FR, MOVE_DIALOG, AdwWindow)

GtkWidget *fr_move_dialog_new (FrWindow *window, FrSugarbush *bush);

G_END_DECLS
