/* Many trees in a row, as they are measured in the woods: from a tree, how far, which way the needle showed,
 * name, species, size. Enter leads from field to field; in the last one it adds the tree and begins the next,
 * which stands at the tree just added unless one stays at the same. Each tree is one step of undo. */
#pragma once

#include "models/sugarbush.h"
#include "ui/window.h"

G_BEGIN_DECLS

#define FR_TYPE_MEASURED_DIALOG (fr_measured_dialog_get_type ())
G_DECLARE_FINAL_TYPE (FrMeasuredDialog, fr_measured_dialog, FR, MEASURED_DIALOG, AdwWindow)

GtkWidget *
fr_measured_dialog_new (FrWindow *window, FrSugarbush *bush);

G_END_DECLS
