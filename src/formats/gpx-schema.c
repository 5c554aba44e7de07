/* The facts of GPX 1.1 that concern a waypoint (schema of 2004, public; 1.0 of 2002 from memory): which
 * elements, in which order, of which type. */
#include "formats/gpx-private.h"

#include "formats/field-text.h"

#include <libxml/parser.h>
#include <math.h>
#include <string.h>

const FrGpxElement fr_gpx_elements[] = {
  { "ele", FR_GPX_DECIMAL, -1e9, 1e9, FALSE, TRUE, TRUE },
  { "time", FR_GPX_TIME, 0, 0, FALSE, TRUE, TRUE },
  { "magvar", FR_GPX_DECIMAL, 0, 360, FALSE, TRUE, TRUE },
  { "geoidheight", FR_GPX_DECIMAL, -1e9, 1e9, FALSE, TRUE, TRUE },
  { "name", FR_GPX_TEXT, 0, 0, FALSE, TRUE, TRUE },
  { "cmt", FR_GPX_TEXT, 0, 0, FALSE, TRUE, TRUE },
  { "desc", FR_GPX_TEXT, 0, 0, FALSE, TRUE, TRUE },
  { "src", FR_GPX_TEXT, 0, 0, FALSE, TRUE, TRUE },
  { "url", FR_GPX_TEXT, 0, 0, FALSE, TRUE, FALSE },
  { "urlname", FR_GPX_TEXT, 0, 0, FALSE, TRUE, FALSE },
  { "link", FR_GPX_LINK, 0, 0, TRUE, FALSE, TRUE },
  { "sym", FR_GPX_TEXT, 0, 0, FALSE, TRUE, TRUE },
  { "type", FR_GPX_TEXT, 0, 0, FALSE, TRUE, TRUE },
  { "fix", FR_GPX_FIX, 0, 0, FALSE, TRUE, TRUE },
  { "sat", FR_GPX_WHOLE, 0, 1e9, FALSE, TRUE, TRUE },
  { "hdop", FR_GPX_DECIMAL, -1e9, 1e9, FALSE, TRUE, TRUE },
  { "vdop", FR_GPX_DECIMAL, -1e9, 1e9, FALSE, TRUE, TRUE },
  { "pdop", FR_GPX_DECIMAL, -1e9, 1e9, FALSE, TRUE, TRUE },
  { "ageofdgpsdata", FR_GPX_DECIMAL, -1e9, 1e9, FALSE, TRUE, TRUE },
  { "dgpsid", FR_GPX_WHOLE, 0, 1023, FALSE, TRUE, TRUE },
  { "extensions", FR_GPX_EXTENSIONS, 0, 0, FALSE, FALSE, TRUE },
};

const guint fr_gpx_n_elements = G_N_ELEMENTS (fr_gpx_elements);

char *
fr_gpx_strip (const char *text)
{
  gsize from = strspn (text, " \t\r\n"), to = strlen (text);

  while (to > from && strchr (" \t\r\n", text[to - 1]) != NULL)
    to--;
  return to > from ? g_strndup (text + from, to - from) : NULL;
}

static gboolean
two_digits (const char *text, int most)
{
  return g_ascii_isdigit (text[0]) && g_ascii_isdigit (text[1])
         && 10 * (text[0] - '0') + text[1] - '0' <= most;
}

/* yyyy-mm-ddThh:mm:ss[.s…][Z|±hh:mm]; years of four digits, which is all a receiver writes. */
static gboolean
is_time (const char *text)
{
  g_autofree char *day = g_strndup (text, 10);
  const char *clock = text + 10;
  FrDate date;

  if (strlen (text) < 19 || day[4] != '-' || day[7] != '-' || !fr_date_parse (day, &date) || *clock != 'T'
      || !two_digits (clock + 1, 23) || clock[3] != ':' || !two_digits (clock + 4, 59) || clock[6] != ':'
      || !two_digits (clock + 7, 59))
    return FALSE;
  clock += 9;
  if (*clock == '.')
    {
      gsize n = strspn (clock + 1, "0123456789");

      if (n == 0)
        return FALSE;
      clock += 1 + n;
    }
  if (*clock == '\0' || strcmp (clock, "Z") == 0)
    return TRUE;
  return (*clock == '+' || *clock == '-') && strlen (clock) == 6 && two_digits (clock + 1, 13)
         && clock[3] == ':' && two_digits (clock + 4, 59);
}

gboolean
fr_gpx_fits (const FrGpxElement *element, const char *text)
{
  static const char *const fixes[] = { "none", "2d", "3d", "dgps", "pps", NULL };
  g_autofree char *bare = fr_gpx_strip (text);
  double value;

  switch (element->type)
    {
    case FR_GPX_TEXT:
      return TRUE;
    case FR_GPX_TIME:
      return bare != NULL && is_time (bare);
    case FR_GPX_FIX:
      return bare != NULL && g_strv_contains (fixes, bare);
    case FR_GPX_WHOLE:
      if (bare == NULL || strspn (bare, "0123456789") != strlen (bare))
        return FALSE;
      G_GNUC_FALLTHROUGH;
    case FR_GPX_DECIMAL:
      /* The schema's decimals have no exponent. */
      return bare != NULL && strpbrk (bare, "eE") == NULL && fr_decimal_read (bare, 0, &value)
             && value >= element->min && value <= element->max && !(element->max == 360 && value == 360);
    default:
      return FALSE;
    }
}

char *
fr_gpx_wanted (const FrGpxElement *element)
{
  switch (element->type)
    {
    case FR_GPX_TIME:
      return g_strdup ("a time like 2026-03-01T12:00:00Z");
    case FR_GPX_FIX:
      return g_strdup ("none, 2d, 3d, dgps or pps");
    case FR_GPX_WHOLE:
      return element->max > 1e6
                 ? g_strdup ("a whole number")
                 : g_strdup_printf ("a whole number from %g to %g", element->min, element->max);
    case FR_GPX_DECIMAL:
      return element->max > 1e6
                 ? g_strdup ("a number")
                 : g_strdup_printf ("a number from %g to under %g", element->min, element->max);
    default:
      return g_strdup ("text");
    }
}

/* --- texts --- */

static gboolean
is_legal (gunichar c)
{
  return c == '\t' || c == '\n' || c == '\r' || (c >= 0x20 && c < 0xFFFE) || c > 0xFFFF;
}

char *
fr_gpx_legal (const char *text)
{
  GString *out = g_string_new (NULL);

  for (const char *p = text; *p != '\0'; p = g_utf8_next_char (p))
    g_string_append_unichar (out, is_legal (g_utf8_get_char (p)) ? g_utf8_get_char (p) : 0xFFFD);
  return g_string_free (out, FALSE);
}

char *
fr_gpx_armour (const char *text)
{
  GString *out = g_string_new (NULL);

  for (const char *p = text; *p != '\0'; p = g_utf8_next_char (p))
    {
      gunichar c = g_utf8_get_char (p);

      if (c == '\\')
        g_string_append (out, "\\\\");
      else if (is_legal (c))
        g_string_append_unichar (out, c);
      else
        g_string_append_printf (out, "\\u%04x", c);
    }
  return g_string_free (out, FALSE);
}

char *
fr_gpx_disarm (const char *text)
{
  GString *out = g_string_new (NULL);

  for (const char *p = text; *p != '\0';)
    {
      if (p[0] == '\\' && p[1] == '\\')
        {
          g_string_append_c (out, '\\');
          p += 2;
        }
      else if (p[0] == '\\' && p[1] == 'u' && g_ascii_isxdigit (p[2]) && g_ascii_isxdigit (p[3])
               && g_ascii_isxdigit (p[4]) && g_ascii_isxdigit (p[5]))
        {
          gunichar c = 0;

          for (guint i = 2; i < 6; i++)
            c = 16 * c + (gunichar)g_ascii_xdigit_value (p[i]);
          /* Only what was armoured: never a terminating zero or half a pair. */
          g_string_append_unichar (out, c != 0 && !is_legal (c) && (c < 0xD800 || c > 0xDFFF) ? c : 0xFFFD);
          p += 6;
        }
      else
        {
          const char *next = g_utf8_next_char (p);

          g_string_append_len (out, p, next - p);
          p = next;
        }
    }
  return g_string_free (out, FALSE);
}

gboolean
fr_gpx_is_fragment (const char *text)
{
  g_autofree char *whole = g_strdup_printf ("<x>%s</x>", text);
  xmlParserCtxtPtr context;
  xmlDocPtr doc;
  gboolean ok;

  /* Nothing that would be well-formed only in another place. */
  if (strstr (text, "<!DOCTYPE") != NULL || strlen (whole) > FR_GPX_SIZE_MAX)
    return FALSE;
  context = xmlNewParserCtxt ();
  doc = xmlCtxtReadMemory (context, whole, (int)strlen (whole), NULL, "UTF-8",
                           XML_PARSE_NONET | XML_PARSE_NOERROR | XML_PARSE_NOWARNING);
  ok = doc != NULL && context->wellFormed && context->nsWellFormed;
  xmlFreeDoc (doc);
  xmlFreeParserCtxt (context);
  return ok;
}
