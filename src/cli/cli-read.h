/* Input files of the command line. */
#pragma once

#include <json-glib/json-glib.h>

G_BEGIN_DECLS

/* The tree of a file, or of standard input for "-". NULL with FR_INPUT_ERROR. Free with json_node_unref. */
JsonNode *
fr_cli_read_json (const char *path, GError **error);

/* The bytes of a file, or of standard input for "-"; no more than one past @most, so that whoever reads them can say that
 * they are too many. NULL with FR_INPUT_ERROR. Free with g_bytes_unref. */
GBytes *
fr_cli_read_bytes (const char *path, gsize most, GError **error);

/* Sets FR_INPUT_ERROR_WRONG with the sentence; always FALSE. */
gboolean
fr_cli_wrong (GError **error, const char *format, ...) G_GNUC_PRINTF (2, 3);

/* Adds an option's text as a number to what then is read like any other input; NULL adds nothing. FALSE when it is none. */
gboolean
fr_cli_add_number (JsonObject *object, const char *key, const char *option, const char *text, GError **error);

/* An option's whole number; NULL leaves *value_out as it is. FALSE when it is none or out of range. */
gboolean
fr_cli_whole_option (const char *option, const char *text, guint min, guint max, guint *value_out, GError **error);

G_END_DECLS
