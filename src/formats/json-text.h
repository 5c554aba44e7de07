/* JSON text into json-glib's tree, strictly by RFC 8259. */
#pragma once

#include "formats/input-error.h"

#include <json-glib/json-glib.h>

G_BEGIN_DECLS

#define FR_JSON_SIZE_MAX (16 * 1024 * 1024)
#define FR_JSON_DEPTH_MAX 32

/* The tree of @text (UTF-8, @length bytes); all numbers are doubles. NULL with a sentence that says line and
 * column. Free with json_node_unref. */
JsonNode *
fr_json_parse (const char *text, gsize length, GError **error);

/* The same, for text that must come back as it was. @numbers_out: of each number that would be written
 * otherwise, or has more digits than a double, the text: a table JsonNode → char *, valid as long as the
 * tree. Free it with g_hash_table_unref. */
JsonNode *
fr_json_parse_exact (const char *text, gsize length, GHashTable **numbers_out, GError **error);

/* A short piece of foreign text made fit for a message: control characters replaced, cut after 40 characters.
 * Free it. */
char *
fr_json_quote (const char *text);

G_END_DECLS
