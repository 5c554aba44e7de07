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
void
fr_output_boolean (FrOutput *output, const char *key, gboolean value);
void
fr_output_null (FrOutput *output, const char *key);

G_END_DECLS
