/* Reading a file whole, up to the size that the parser takes: an endless stream must not fill the memory. */
#include "cli/cli-read.h"

#include "formats/json-text.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>

GBytes *
fr_cli_read_bytes (const char *path, gsize most, GError **error)
{
  gboolean is_stdin = g_strcmp0 (path, "-") == 0;
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  FILE *file = is_stdin ? stdin : fopen (path, "rb");
  guint8 block[65536];
  gsize n;
  int failed = 0;

  if (file == NULL)
    {
      g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_UNREADABLE, "cannot be read: %s",
                   g_strerror (errno));
      return NULL;
    }
  while (bytes->len <= most && (n = fread (block, 1, sizeof block, file)) > 0)
    g_byte_array_append (bytes, block, (guint)n);
  if (ferror (file))
    failed = errno != 0 ? errno : EIO;
  if (!is_stdin)
    fclose (file);
  if (failed != 0)
    {
      g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_UNREADABLE, "cannot be read: %s",
                   g_strerror (failed));
      return NULL;
    }
  return g_byte_array_free_to_bytes (g_steal_pointer (&bytes));
}

JsonNode *
fr_cli_read_json (const char *path, GError **error)
{
  g_autoptr (GBytes) bytes = fr_cli_read_bytes (path, FR_JSON_SIZE_MAX, error);
  gsize length = 0;
  const char *data = bytes != NULL ? g_bytes_get_data (bytes, &length) : NULL;

  return bytes != NULL ? fr_json_parse (data != NULL ? data : "", length, error) : NULL;
}

gboolean
fr_cli_wrong (GError **error, const char *format, ...)
{
  va_list args;
  g_autofree char *message = NULL;

  va_start (args, format);
  message = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error_literal (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, message);
  return FALSE;
}

gboolean
fr_cli_add_number (JsonObject *object, const char *key, const char *option, const char *text, GError **error)
{
  char *end;
  double value;

  if (text == NULL)
    return TRUE;
  value = g_ascii_strtod (text, &end);
  if (end == text || *end != '\0' || text[strspn (text, "+-.0123456789eE")] != '\0' || !isfinite (value))
    {
      g_autofree char *quoted = fr_json_quote (text);

      g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, "%s “%s” is not a number", option, quoted);
      return FALSE;
    }
  json_object_set_double_member (object, key, value);
  return TRUE;
}

gboolean
fr_cli_whole_option (const char *option, const char *text, guint min, guint max, guint *value_out, GError **error)
{
  guint64 value;

  if (text == NULL)
    return TRUE;
  if (!g_ascii_string_to_unsigned (text, 10, min, max, &value, NULL))
    return fr_cli_wrong (error, "%s “%s” has to be a whole number from %u to %u", option, text, min, max);
  *value_out = (guint)value;
  return TRUE;
}
