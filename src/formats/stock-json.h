/* The sap in store as JSON. Keys with units: docs/json.md. */
#pragma once

#include "domain/plan/stock.h"
#include "formats/json-output.h"

G_BEGIN_DECLS

/* Free the result. */
char *
fr_stock_to_json (const FrStock *stock);

/* "found", "negative"; as in the ledger. */
const char *
fr_stock_line_code (FrStockLineCode code);

/* Which container, by name and uid; null for sap whose place was not said. */
void
fr_output_container (FrOutput *output, const char *key, const FrContainer *container);
/* Which record, by kind and uid; null for none. */
void
fr_output_record (FrOutput *output, const char *key, const FrRecord *record);

G_END_DECLS
