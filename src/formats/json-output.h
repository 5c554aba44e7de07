/* Writing JSON: one value after another into text, indented, numbers so that reading gives the very same
 * double. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Begins and ends; a plain value. */
typedef struct
{
  GString *text;
  guint depth;
  gboolean follows; /* a comma is due before the next value */
} FrOutput;

void
fr_output_init (FrOutput *output);
/* Ends the text with a line break. Free the result. */
char *
fr_output_finish (FrOutput *output);

/* @key is NULL in lists and for the whole. */
void
fr_output_object (FrOutput *output, const char *key);
void
fr_output_array (FrOutput *output, const char *key);
void
fr_output_end_object (FrOutput *output);
void
fr_output_end_array (FrOutput *output);

/* NAN and infinities, which JSON does not have, become null: unknown. */
void
fr_output_number (FrOutput *output, const char *key, double plain_value);
void
fr_output_string (FrOutput *output, const char *key, const char *text);
/* ISO 8601 in UTC, so that no reader has to know the zone; G_MININT64 is null. */
void
fr_output_instant (FrOutput *output, const char *key, gint64 utc_s);
void
fr_output_boolean (FrOutput *output, const char *key, gboolean value);
void
fr_output_null (FrOutput *output, const char *key);
/* A value that is JSON already, as it stands. */
void
fr_output_json (FrOutput *output, const char *key, const char *json);

/* The shortest text, of 15 to 17 digits, that reads back as the same double; "null" when it is not finite. */
void
fr_output_number_text (double plain_value, char text_out[G_ASCII_DTOSTR_BUF_SIZE]);
/* A string in its quotes. */
void
fr_output_append_quoted (GString *text, const char *string);

G_END_DECLS
