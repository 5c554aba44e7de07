/* Gatherings and stock that come in from a table, pasted or in a file, and go out into one. What becomes of each row can be looked at
 * before anything is written; all of it comes in as one step of undo, or nothing. */
#pragma once

#include "domain/plan/sap-arrivals.h"
#include "models/book.h"

G_BEGIN_DECLS

typedef struct _FrSapImport FrSapImport;

/**
 * fr_sap_import_new:
 * @pasted: from a spreadsheet's clipboard, whose first row need not be a head
 * @now_utc: of the import
 *
 * Returns: NULL with a sentence when the text is no such table or the book cannot be read
 */
FrSapImport *fr_sap_import_new (FrBook *book, const char *text, gsize length, gboolean pasted, gint64 now_utc, GError **error);
void fr_sap_import_free (FrSapImport *import);

const FrSapArrivals *fr_sap_import_arrivals (const FrSapImport *import);
/* Rows may be left out and confirmed in it. */
FrSapArrivalPreview *fr_sap_import_preview (FrSapImport *import);
/* The records it was held against, for what is said of a row. */
const FrSeasonBook *fr_sap_import_book (const FrSapImport *import);

/* "paste-gatherings", or "import-gatherings" and "import-stock" by the name of the file. NULL while a row is open or nothing is to be
 * done. */
FrChange *fr_sap_import_change (FrSapImport *import, const char *name);

/* The season that the book's lists hold as a table: gatherings, or containers, pours and looks. Free it. */
char *fr_sap_export (FrBook *book, gboolean stock);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrSapImport, fr_sap_import_free)

G_END_DECLS
