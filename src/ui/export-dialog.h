/* Trees into a file: which kind, which trees, and where. */
#pragma once

#include "formats/arrival-file.h"
#include "models/sugarbush.h"
#include "ui/window.h"

G_BEGIN_DECLS

#define FR_TYPE_EXPORT_DIALOG (fr_export_dialog_get_type ())
G_DECLARE_FINAL_TYPE (FrExportDialog, fr_export_dialog, FR, EXPORT_DIALOG, AdwWindow)

GtkWidget *
fr_export_dialog_new (FrWindow *window, FrSugarbush *bush);
/* Writes what is chosen in the dialog; TRUE when it is written, which closes the dialog. */
gboolean
fr_export_dialog_write (FrExportDialog *self, GFile *file);

G_END_DECLS
