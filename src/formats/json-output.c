/* JSON text out. json-glib's own generator (1.6) writes 1e+20 as "1e+20.0", which is not JSON. A number gets
 * as many digits, 15 to 17, as it takes to read back the same double; the decimal mark is a point in every
 * locale. */
#include "formats/json-output.h"

#include "domain/units/digits.h"

#include <math.h>

void
fr_output_init (FrOutput *output)
{
  *output = (FrOutput){ g_string_new (NULL), 0, FALSE };
}

char *
fr_output_finish (FrOutput *output)
{
  g_string_append_c (output->text, '\n');
  return g_string_free (g_steal_pointer (&output->text), FALSE);
}

void
fr_output_append_quoted (GString *text, const char *string)
{
  g_string_append_c (text, '"');
  for (const char *p = string; *p != '\0'; p++)
    if (*p == '"' || *p == '\\')
      g_string_append_printf (text, "\\%c", *p);
    else if ((guchar)*p < 0x20)
      g_string_append_printf (text, "\\u%04x", (guint)*p);
    else
      g_string_append_c (text, *p);
  g_string_append_c (text, '"');
}

static void
new_line (FrOutput *output)
{
  g_string_append_printf (output->text, "\n%*s", (int)(2 * output->depth), "");
}

/* What stands before a value: comma, line break, key. */
static void
lead_in (FrOutput *output, const char *key)
{
  if (output->follows)
    g_string_append_c (output->text, ',');
  if (output->depth > 0)
    new_line (output);
  if (key != NULL)
    {
      fr_output_append_quoted (output->text, key);
      g_string_append (output->text, ": ");
    }
  output->follows = TRUE;
}

static void
open_bracket (FrOutput *output, const char *key, char bracket)
{
  lead_in (output, key);
  g_string_append_c (output->text, bracket);
  output->depth++;
  output->follows = FALSE;
}

static void
close_bracket (FrOutput *output, char bracket)
{
  output->depth--;
  if (output->follows)
    new_line (output);
  g_string_append_c (output->text, bracket);
  output->follows = TRUE;
}

void
fr_output_object (FrOutput *output, const char *key)
{
  open_bracket (output, key, '{');
}

void
fr_output_array (FrOutput *output, const char *key)
{
  open_bracket (output, key, '[');
}

void
fr_output_end_object (FrOutput *output)
{
  close_bracket (output, '}');
}

void
fr_output_end_array (FrOutput *output)
{
  close_bracket (output, ']');
}

void
fr_output_number_text (double plain_value, char text_out[G_ASCII_DTOSTR_BUF_SIZE])
{
  if (isfinite (plain_value))
    fr_digits_write (plain_value, text_out);
  else
    g_strlcpy (text_out, "null", G_ASCII_DTOSTR_BUF_SIZE);
}

void
fr_output_number (FrOutput *output, const char *key, double plain_value)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  fr_output_number_text (plain_value, text);
  fr_output_json (output, key, text);
}

void
fr_output_string (FrOutput *output, const char *key, const char *text)
{
  lead_in (output, key);
  fr_output_append_quoted (output->text, text);
}

void
fr_output_instant (FrOutput *output, const char *key, gint64 utc_s)
{
  g_autoptr (GDateTime) time = utc_s != G_MININT64 ? g_date_time_new_from_unix_utc (utc_s) : NULL;
  g_autofree char *text = time != NULL ? g_date_time_format (time, "%Y-%m-%dT%H:%M:%SZ") : NULL;

  if (text != NULL)
    fr_output_string (output, key, text);
  else
    fr_output_null (output, key);
}

void
fr_output_boolean (FrOutput *output, const char *key, gboolean value)
{
  lead_in (output, key);
  g_string_append (output->text, value ? "true" : "false");
}

void
fr_output_null (FrOutput *output, const char *key)
{
  lead_in (output, key);
  g_string_append (output->text, "null");
}

void
fr_output_json (FrOutput *output, const char *key, const char *json)
{
  lead_in (output, key);
  g_string_append (output->text, json);
}
