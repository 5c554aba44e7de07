/* What every text of the program has to be, whatever it says. */
#pragma once

#include <glib.h>

#include <string.h>

static inline void
sentence_parts (const char *text)
{
  static const char *const never[]
      = { "nan", "NaN", "inf", "(null)", "  ", "!", "lease", "..", " .", " ,", "%%", "9223372036854775808" };

  g_assert_nonnull (text);
  g_assert_cmpuint (strlen (text), >, 0);
  g_assert_true (g_utf8_validate (text, -1, NULL));
  for (guint i = 0; i < G_N_ELEMENTS (never); i++)
    if (strstr (text, never[i]) != NULL)
      g_error ("“%s” holds “%s”", text, never[i]);
}

/* One or more sentences. */
static inline void
sentence (const char *text)
{
  sentence_parts (text);
  if (!g_str_has_suffix (text, "."))
    g_error ("“%s” does not end", text);
  g_assert_true (g_unichar_isupper (g_utf8_get_char (text)) || !g_ascii_isalpha (text[0]));
}

static inline void
sentence_markup (const char *text)
{
  g_autofree char *whole = g_strdup_printf ("<markup>%s</markup>", text);
  GMarkupParser parser = { 0 };
  g_autoptr (GMarkupParseContext) context = g_markup_parse_context_new (&parser, 0, NULL, NULL);
  g_autoptr (GError) error = NULL;

  sentence (text);
  if (!g_markup_parse_context_parse (context, whole, -1, &error)
      || !g_markup_parse_context_end_parse (context, &error))
    g_error ("“%s”: %s", text, error->message);
}
