/* A whole book as JSON: an object with a list for each kind, {"household": [{…}], "vessel": [{…}, …], …}.
 * Used for the demo book and for carrying a book elsewhere. */
#pragma once

#include "formats/record-json.h"

G_BEGIN_DECLS

/* The records in an order in which each stands behind what it refers to, all of them checked; every one has
 * an id, unique in its kind, and references lead to records of the same text. Elements FrRecord, owned by the
 * array; those without "uid" have an empty one, to be made by the caller. NULL with a sentence that names
 * kind, index and key ("cooker[1].vessel is 7; …"). @root is a tree of fr_json_parse. */
GPtrArray *
fr_book_from_json (JsonNode *root, GError **error);

/* The text of a book. Free it. Elements FrRecord. */
char *
fr_book_to_json (GPtrArray *records);

G_END_DECLS
