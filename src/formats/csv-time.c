/* Days and clocks in cells: ISO 8601, as spreadsheets write it (a blank for the T, seconds or none), and the
 * twelve-hour clock, whose midnight and noon are both 12. Days in other orders are not guessed at. */
#include "formats/csv-time.h"

#include <string.h>

gboolean
fr_csv_read_digits (const char **text, guint least, guint most, gint *value_out)
{
  guint n = 0;

  *value_out = 0;
  while (n < most && g_ascii_isdigit ((*text)[n]))
    *value_out = 10 * *value_out + ((*text)[n++] - '0');
  *text += n;
  return n >= least;
}

static gboolean
read_char (const char **text, char wanted)
{
  if (**text != wanted)
    return FALSE;
  ++*text;
  return TRUE;
}

static void
skip_blanks (const char **text)
{
  *text += strspn (*text, " ");
}

static gboolean
clock_at (const char **text, gint *second_out)
{
  gint hours, minutes, seconds = 0;
  gboolean is_morning, is_twelve_hour;

  if (!fr_csv_read_digits (text, 1, 2, &hours) || !read_char (text, ':') || !fr_csv_read_digits (text, 2, 2, &minutes))
    return FALSE;
  if (read_char (text, ':') && !fr_csv_read_digits (text, 2, 2, &seconds))
    return FALSE;
  /* Some programs write thousandths, which are always none. */
  if (**text == '.' && (*text)[1] == '0')
    *text += 1 + strspn (*text + 1, "0");
  skip_blanks (text);
  is_morning = g_ascii_strncasecmp (*text, "am", 2) == 0;
  is_twelve_hour = is_morning || g_ascii_strncasecmp (*text, "pm", 2) == 0;
  if (is_twelve_hour)
    {
      if (hours < 1 || hours > 12)
        return FALSE;
      hours = hours % 12 + (is_morning ? 0 : 12);
      *text += 2;
    }
  if (hours > 23 || minutes > 59 || seconds > 59)
    return FALSE;
  *second_out = hours * 3600 + minutes * 60 + seconds;
  return TRUE;
}

gboolean
fr_csv_read_clock (const char *text, gint *second_out)
{
  return clock_at (&text, second_out) && *text == '\0';
}

gboolean
fr_csv_read_offset (const char *text, gint *offset_out)
{
  gint hours, minutes = 0, sign;

  *offset_out = 0;
  if (g_ascii_strcasecmp (text, "z") == 0 || g_ascii_strcasecmp (text, "utc") == 0)
    return TRUE;
  if (g_ascii_strncasecmp (text, "utc", 3) == 0)
    text += 3;
  sign = *text == '-' ? -1 : 1;
  /* The real minus too. */
  if (g_str_has_prefix (text, "\xE2\x88\x92"))
    {
      sign = -1;
      text += 3;
    }
  else if (*text == '+' || *text == '-')
    text++;
  else
    return FALSE;
  if (!fr_csv_read_digits (&text, 1, 2, &hours))
    return FALSE;
  if (*text != '\0')
    {
      read_char (&text, ':');
      if (!fr_csv_read_digits (&text, 2, 2, &minutes))
        return FALSE;
    }
  if (*text != '\0' || hours > 18 || minutes > 59)
    return FALSE;
  *offset_out = sign * (hours * 3600 + minutes * 60);
  return TRUE;
}

gboolean
fr_csv_read_date (const char *text, FrDate *date_out, gint *second_out, gint *offset_out,
                  gboolean *has_offset_out)
{
  gint second, offset;

  if (!fr_csv_read_digits (&text, 4, 4, &date_out->year) || !read_char (&text, '-')
      || !fr_csv_read_digits (&text, 2, 2, &date_out->month) || !read_char (&text, '-')
      || !fr_csv_read_digits (&text, 2, 2, &date_out->day) || !fr_date_is_valid (*date_out))
    return FALSE;
  if (*text == '\0')
    return TRUE;
  if (!read_char (&text, 'T') && !read_char (&text, 't') && !read_char (&text, ' '))
    return FALSE;
  skip_blanks (&text);
  if (!clock_at (&text, &second))
    return FALSE;
  *second_out = second;
  skip_blanks (&text);
  if (*text == '\0')
    return TRUE;
  if (!fr_csv_read_offset (text, &offset))
    return FALSE;
  *offset_out = offset;
  *has_offset_out = TRUE;
  return TRUE;
}
