/* The sugarbush as JSON: its trees, one trunk. Keys with units: docs/json.md. */
#pragma once

#include "domain/plan/bush.h"
#include "formats/json-output.h"

G_BEGIN_DECLS

/* All trees of the season, by id. Free it. */
char *
fr_bush_to_json (const FrBush *bush);

/* One trunk: its holes and seasons, and the best @n places for new ones. @headline and @why (or NULL): what
 * is said of it. Free it. */
char *
fr_bush_trunk_to_json (const FrBush *bush, const FrBushTree *row, const FrBushPlace *places, guint n,
                       const char *headline, const char *why);

/* "wires" … : the code of one FrTreeReason bit. */
const char *
fr_tree_reason_code (FrTreeReason reason);

G_END_DECLS
