/* What a file said of a tree beyond what a tree has: FrTree's foreign_data, one JSON object with a member for
 * each format it came by, so that an export gives it back. Numbers keep their digits. */
#pragma once

#include "formats/json-text.h"

G_BEGIN_DECLS

/* A tree of JSON with the digits of its numbers. */
typedef struct
{
  JsonNode *root;
  GHashTable *numbers;
} FrExactJson;

void
fr_exact_json_clear (FrExactJson *json);

/* Appends the value without blanks. @numbers NULL: doubles have all the digits there are. */
void
fr_exact_json_append (GString *text, JsonNode *node, GHashTable *numbers);

/* Reads @text, NULL or otherwise, and finds the object of @format in it; NULL when there is none. @json_out
 * holds what it belongs to and is to be cleared either way. */
JsonObject *
fr_foreign_read (const char *text, const char *format, FrExactJson *json_out);

/* The text with the member of @format being @part (JSON; NULL: none). NULL when nothing is left. Free it. */
char *
fr_foreign_with (const char *text, const char *format, const char *part);

/* Both together; of a format that both know, the book's, or with @replace the file's. Either may be NULL.
 * Free it. */
char *
fr_foreign_join (const char *in_book, const char *in_file, gboolean replace);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (FrExactJson, fr_exact_json_clear)

G_END_DECLS
