/* The first bytes tell UTF-16 apart: its mark of the byte order, or a zero beside each of the first letters. */
#include "formats/text-bytes.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static gboolean
wrong (GError **error, const char *sentence)
{
  g_set_error_literal (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, sentence);
  return FALSE;
}

gboolean
fr_text_bytes_check (const char *bytes, gsize length, guint most_mib, GError **error)
{
  gsize at = 0;

  if (length > (gsize)most_mib * 1024 * 1024)
    {
      g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, _ ("the file is larger than %d MiB"), (int)most_mib);
      return FALSE;
    }
  if (length >= 2 && (memcmp (bytes, "\xFF\xFE", 2) == 0 || memcmp (bytes, "\xFE\xFF", 2) == 0))
    return wrong (
        error, _ ("line 1: the file is text in UTF-16; only UTF-8 is read. Save it in UTF-8 and try again"));
  if (length >= 2 && memchr (bytes, '\0', MIN (length, 4)) != NULL)
    return wrong (error, _ ("line 1: the file is no text, or text in UTF-16; only UTF-8 is read"));
  while (at < length && g_ascii_isspace (bytes[at]))
    at++;
  return at < length || wrong (error, _ ("the file is empty"));
}

gboolean
fr_text_bytes_check_utf8 (const char *bytes, gsize length, GError **error)
{
  const char *bad;
  guint line = 1;

  if (g_utf8_validate_len (bytes, length, &bad))
    return TRUE;
  for (const char *p = bytes; p < bad; p++)
    line += *p == '\n';
  g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, _ ("line %u: %s"), line,
               _ ("the file is not text in UTF-8. Save it in UTF-8 and try again"));
  return FALSE;
}
