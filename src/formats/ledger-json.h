/* The season's account as JSON. Keys with units: docs/json.md. */
#pragma once

#include "domain/plan/ledger.h"

G_BEGIN_DECLS

/* Free the result. */
char *
fr_ledger_to_json (const FrLedger *ledger);

G_END_DECLS
