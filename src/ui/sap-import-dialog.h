/* Gatherings and stock from a table: what becomes of each row, which are left out, and which are kept though they are asked about. Nothing
 * is written before all rows are decided; then all of them are one step of undo. */
#pragma once

#include "models/season.h"
#include "ui/window.h"

G_BEGIN_DECLS

#define FR_TYPE_SAP_IMPORT_DIALOG (fr_sap_import_dialog_get_type ())
G_DECLARE_FINAL_TYPE (FrSapImportDialog, fr_sap_import_dialog, FR, SAP_IMPORT_DIALOG, AdwWindow)

/**
 * fr_sap_import_dialog_new:
 * @name: of the file, or NULL for what was pasted
 * @error: a sentence when the text is no such table
 *
 * Returns: NULL on an error
 */
GtkWidget *fr_sap_import_dialog_new (FrWindow *window, FrSeason *season, const char *text, gsize length, const char *name,
                                     GError **error);

G_END_DECLS
