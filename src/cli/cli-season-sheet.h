/* The season of a book as PDF. */
#pragma once

#include "cli/cli-bush.h"
#include "paint/sheet.h"

G_BEGIN_DECLS

/**
 * fr_cli_season_sheet:
 * @household: (nullable): its name
 * @with_months: the months too, a page each
 * @n_pages: (out)
 * @n_rows: (out): days of the table
 *
 * Returns: (transfer full): the PDF, or NULL and @error
 */
GBytes *
fr_cli_season_sheet (const FrCliBush *bush, const char *household, gboolean with_months, FrSheetSize size,
                     guint *n_pages, guint *n_rows, GError **error);

G_END_DECLS
