/* Numbers as typed: at most 30 characters, either decimal mark. */
#include "domain/units/number-read.h"

#include <string.h>

gboolean
fr_number_read (const char **cursor, double *number_out)
{
  const char *from = *cursor;
  while (*from == ' ' || *from == '\t')
    from++;

  gsize length = strcspn (from, " \t\r\n");
  if (length == 0 || length > 30 || strspn (from, "0123456789.,") < length)
    return FALSE;

  char digits[32];
  memcpy (digits, from, length);
  digits[length] = '\0';
  char *comma = strchr (digits, ',');
  if (comma != NULL)
    {
      if (strlen (comma + 1) == 3)
        return FALSE;
      *comma = '.';
    }
  char *end;
  *number_out = g_ascii_strtod (digits, &end);
  *cursor = from + length;
  return *end == '\0' && end != digits;
}
