/* Input files of the command line. */
#pragma once

#include <json-glib/json-glib.h>

G_BEGIN_DECLS

/* The tree of a file, or of standard input for "-". NULL with FR_INPUT_ERROR. Free with json_node_unref. */
JsonNode *
fr_cli_read_json (const char *path, GError **error);

G_END_DECLS
