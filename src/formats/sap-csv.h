/* Gatherings, and what is in store (containers, pours, looks), as a table: the unit of each column stands in its name. Reading takes any
 * of the columns in any order; the column "record" says what a row is, without it what the columns are of. A cell that cannot be read
 * refuses its row; a table that is none is an error. The columns are listed in docs/files.md. */
#pragma once

#include "domain/plan/sap-arrivals.h"
#include "formats/csv.h"

G_BEGIN_DECLS

/**
 * FrSapCsvOptions:
 * @zone: of local times; NULL is UTC
 * @units: the household's, for columns without a unit and for gallons; NULL is metric
 * @pasted: from a spreadsheet's clipboard: the first row need not be a head, the columns then are those of fr_sap_csv_log_columns
 */
typedef struct
{
  const FrZoneTable *zone;
  const FrUnits *units;
  gboolean pasted;
} FrSapCsvOptions;

/* The gathering log's columns in their order, NULL at the end. */
extern const char *const fr_sap_csv_log_columns[];

/* Whether the first row names columns of these tables, and not of one of trees. */
gboolean fr_sap_csv_looks_like (const char *text, gsize length);

/* NULL with a sentence that names the line. */
FrSapArrivals *fr_sap_csv_read (const char *text, gsize length, const FrSapCsvOptions *options, GError **error);

/* Those from @from_utc to before @to_utc, those put away too, by time. Free it. */
char *fr_gatherings_csv_write (const FrSeasonBook *book, gint64 from_utc, gint64 to_utc);
/* The same of pours and looks, with all containers. */
char *fr_stock_csv_write (const FrSeasonBook *book, gint64 from_utc, gint64 to_utc);

G_END_DECLS
