/* A record as JSON and back. Keys are id, uid, archived and the fields' names; how an amount was typed stands
 * under NAME_typed; unknown is null or left out. Instants are UTC seconds, and text such as
 * "2025-03-08T22:00:00Z" is read too. */
#pragma once

#include "domain/records/record.h"
#include "formats/json-input.h"
#include "formats/json-output.h"

G_BEGIN_DECLS

/* Writes the record as an object; @key as in json-output.h. */
void
fr_record_write_json (FrOutput *output, const char *key, const FrRecord *record);

/* The same as a tree. Free with json_node_unref. */
JsonNode *
fr_record_to_json (const FrRecord *record);

/* Reads a record and checks it (fr_record_check). Without "uid" it has none yet, without "id" it is 0. NULL
 * with a sentence that names the key and what is allowed. @node is a tree of fr_json_parse. */
FrRecord *
fr_record_from_json (FrKindId kind, JsonNode *node, GError **error);

/* The same for an object inside a larger input, whose name then stands before the key. */
FrRecord *
fr_record_read_json (const FrInput *input, FrKindId kind);

G_END_DECLS
