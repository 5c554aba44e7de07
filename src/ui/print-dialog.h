/* Asks what goes on paper and how, says how many pages that takes, and saves it as PDF. */
#pragma once

#include "models/sugarbush.h"
#include "ui/window.h"

G_BEGIN_DECLS

#define FR_TYPE_PRINT_DIALOG (fr_print_dialog_get_type ())
G_DECLARE_FINAL_TYPE (FrPrintDialog, fr_print_dialog, FR, PRINT_DIALOG, AdwWindow)

/* @field_sheet: begins with the field sheet, else with the map. */
GtkWidget *fr_print_dialog_new (FrWindow *window, FrSugarbush *bush, gboolean field_sheet);

/* What would be saved now; NULL and @error when there is nothing. */
GBytes *fr_print_dialog_make (FrPrintDialog *self, guint *n_pages, GError **error);

G_END_DECLS
