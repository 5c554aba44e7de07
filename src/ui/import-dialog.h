/* Trees from a file: what would become of each is said before anything is kept; Import is one step of undo.
 */
#pragma once

#include "models/sugarbush.h"
#include "ui/window.h"

G_BEGIN_DECLS

#define FR_TYPE_IMPORT_DIALOG (fr_import_dialog_get_type ())
G_DECLARE_FINAL_TYPE (FrImportDialog, fr_import_dialog, FR, IMPORT_DIALOG, AdwWindow)

/* @file NULL: the person chooses one. */
GtkWidget *
fr_import_dialog_new (FrWindow *window, FrSugarbush *bush, GFile *file);
/* Reads another file. */
void
fr_import_dialog_read (FrImportDialog *self, GFile *file);
/* The file is still being read. */
gboolean
fr_import_dialog_is_reading (FrImportDialog *self);

G_END_DECLS
