/* The lines of an iCalendar text by RFC 5545, 3.1: they end in CR LF and hold 1 to 75 octets; a continued line
 * begins with a space, and no character is cut in two. */
#pragma once

#include <glib.h>

/* Folding by hand: lines put together again. */
static inline char *
unfold (const char *text)
{
  g_auto (GStrv) pieces = g_strsplit (text, "\r\n ", -1);

  return g_strjoinv ("", pieces);
}

static inline void
check_lines (const char *text)
{
  gsize length = 0;

  g_assert_true (g_utf8_validate (text, -1, NULL));
  for (const char *p = text; *p; p++)
    {
      if (*p == '\r')
        {
          g_assert_cmpint (p[1], ==, '\n');
          g_assert_cmpuint (length, <=, 75);
          g_assert_cmpuint (length, >, 0);
          /* a character is never cut in two: the next line starts with one */
          g_assert_true (g_utf8_validate (p + 2, -1, NULL));
          g_assert_true (p[2] != ' ' || ((guchar)p[3] & 0xC0) != 0x80);
          length = 0;
          p++;
        }
      else
        {
          g_assert_cmpint (*p, !=, '\n');
          length++;
        }
    }
  g_assert_true (g_str_has_suffix (text, "END:VCALENDAR\r\n"));
}
