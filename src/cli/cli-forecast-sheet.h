/* The sap forecast of a book as PDF. */
#pragma once

#include "cli/cli-bush.h"
#include "paint/sheet.h"

G_BEGIN_DECLS

/**
 * fr_cli_forecast_sheet:
 * @household: (nullable): its name
 * @n_pages: (out)
 * @n_rows: (out): days of the table
 *
 * Returns: (transfer full): the PDF, or NULL and @error
 */
GBytes *
fr_cli_forecast_sheet (const FrCliBush *bush, const char *household, FrSheetSize size, guint *n_pages, guint *n_rows,
                       GError **error);

G_END_DECLS
