/* A strict reader of JSON text (RFC 8259) that builds json-glib's tree. json-glib's own parser (1.6) takes
 * comments, octal numbers and a lone last comma, keeps the last of two equal keys, wraps integers over 64
 * bits, cuts strings at an escaped zero and recurses without limit; a typing mistake must not become another
 * number, so the text is read here. */
#include "formats/json-text.h"

#include "formats/json-output.h"

#include <string.h>

G_DEFINE_QUARK (fr_input_error, fr_input_error)

typedef struct
{
  const char *text;
  const char *at;
  const char *end;
  guint depth;
  GHashTable *numbers; /* or NULL: nobody asks */
  GError **error;
} Scan;

char *
fr_json_quote (const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  GString *out = g_string_new (NULL);
  guint n = 0;

  for (const char *p = valid; *p != '\0'; p = g_utf8_next_char (p))
    {
      gunichar c = g_utf8_get_char (p);

      if (n++ == 40)
        {
          g_string_append (out, "…");
          break;
        }
      g_string_append_unichar (out, g_unichar_isprint (c) ? c : '?');
    }
  return g_string_free (out, FALSE);
}

static gboolean G_GNUC_PRINTF (3, 4) fail (Scan *scan, const char *at, const char *format, ...)
{
  guint line = 1;
  const char *start = scan->text;
  g_autofree char *what = NULL;
  va_list args;

  if (*scan->error != NULL)
    return FALSE;
  for (const char *p = scan->text; p < at; p++)
    if (*p == '\n')
      {
        line++;
        start = p + 1;
      }
  va_start (args, format);
  what = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error (scan->error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, "line %u, column %ld: %s", line,
               g_utf8_pointer_to_offset (start, at) + 1, what);
  return FALSE;
}

static void
skip_blanks (Scan *scan)
{
  while (scan->at < scan->end
         && (*scan->at == ' ' || *scan->at == '\t' || *scan->at == '\n' || *scan->at == '\r'))
    scan->at++;
}

static gboolean
takes (Scan *scan, char c)
{
  skip_blanks (scan);
  if (scan->at == scan->end || *scan->at != c)
    return FALSE;
  scan->at++;
  return TRUE;
}

/* Says what stands where @wanted should: the end, or a character. */
static gboolean
fail_wanted (Scan *scan, const char *wanted)
{
  char found[8] = "";

  skip_blanks (scan);
  if (scan->at == scan->end)
    return fail (scan, scan->at, "the text ends where %s should stand", wanted);
  found[g_unichar_to_utf8 (g_utf8_get_char (scan->at), found)] = '\0';
  return fail (scan, scan->at, "%s should stand here, not “%s”", wanted,
               g_unichar_isprint (g_utf8_get_char (scan->at)) ? found : "?");
}

static gboolean
read_hex (Scan *scan, gunichar *unit_out)
{
  *unit_out = 0;
  if (scan->end - scan->at < 4)
    return FALSE;
  for (guint i = 0; i < 4; i++, scan->at++)
    {
      if (!g_ascii_isxdigit (*scan->at))
        return FALSE;
      *unit_out = *unit_out * 16 + (gunichar)g_ascii_xdigit_value (*scan->at);
    }
  return TRUE;
}

/* The character of a \u escape, after the u; pairs of surrogates are joined. 0 is refused since C strings end
 * there. */
static gboolean
read_escaped (Scan *scan, GString *out)
{
  gunichar unit, low;

  if (!read_hex (scan, &unit))
    return FALSE;
  if (unit >= 0xD800 && unit < 0xDC00)
    {
      if (scan->end - scan->at < 6 || scan->at[0] != '\\' || scan->at[1] != 'u')
        return FALSE;
      scan->at += 2;
      if (!read_hex (scan, &low) || low < 0xDC00 || low > 0xDFFF)
        return FALSE;
      unit = 0x10000 + ((unit - 0xD800) << 10) + (low - 0xDC00);
    }
  if (unit == 0 || (unit >= 0xDC00 && unit <= 0xDFFF))
    return FALSE;
  g_string_append_unichar (out, unit);
  return TRUE;
}

/* A string; @scan stands on its opening quote. NULL on a mistake. */
static char *
read_string (Scan *scan)
{
  static const char plain[] = "\"\\/bfnrt", means[] = "\"\\/\b\f\n\r\t";
  g_autoptr (GString) out = g_string_new (NULL);
  const char *start = scan->at++;

  while (scan->at < scan->end)
    {
      char c = *scan->at;

      if (c == '"')
        {
          scan->at++;
          return g_strdup (out->str);
        }
      if ((guchar)c < 0x20)
        {
          fail (scan, scan->at, "a string holds a line break or another control character");
          return NULL;
        }
      scan->at++;
      if (c != '\\')
        {
          g_string_append_c (out, c);
          continue;
        }
      if (scan->at < scan->end && *scan->at == 'u')
        {
          scan->at++;
          if (read_escaped (scan, out))
            continue;
        }
      else if (scan->at < scan->end && *scan->at != '\0' && strchr (plain, *scan->at) != NULL)
        {
          g_string_append_c (out, means[strchr (plain, *scan->at) - plain]);
          scan->at++;
          continue;
        }
      fail (scan, start, "this string holds a \\ escape that JSON does not know");
      return NULL;
    }
  fail (scan, start, "this string is not closed");
  return NULL;
}

static guint
skip_digits (Scan *scan)
{
  guint n = 0;

  while (scan->at < scan->end && g_ascii_isdigit (*scan->at))
    {
      scan->at++;
      n++;
    }
  return n;
}

static gboolean
read_number (Scan *scan, JsonNode *node)
{
  const char *start = scan->at;
  g_autofree char *token = NULL;
  gboolean leading_zero;
  guint digits;

  if (*scan->at == '-')
    scan->at++;
  leading_zero = scan->at < scan->end && *scan->at == '0';
  digits = skip_digits (scan);
  if (digits == 0)
    {
      scan->at = start;
      return fail (scan, start, "no digit follows the minus sign");
    }
  if (leading_zero && digits > 1)
    return fail (scan, start, "a number starts with a needless 0");
  if (scan->at < scan->end && *scan->at == '.')
    {
      scan->at++;
      if (skip_digits (scan) == 0)
        return fail (scan, start, "no digit follows the point of this number");
    }
  if (scan->at < scan->end && (*scan->at == 'e' || *scan->at == 'E'))
    {
      scan->at++;
      if (scan->at < scan->end && (*scan->at == '+' || *scan->at == '-'))
        scan->at++;
      if (skip_digits (scan) == 0)
        return fail (scan, start, "no digit follows the e of this number");
    }
  token = g_strndup (start, scan->at - start);
  json_node_init_double (node, g_ascii_strtod (token, NULL));
  if (scan->numbers != NULL)
    {
      char again[G_ASCII_DTOSTR_BUF_SIZE];

      fr_output_number_text (json_node_get_double (node), again);
      if (strcmp (again, token) != 0)
        g_hash_table_insert (scan->numbers, node, g_steal_pointer (&token));
    }
  return TRUE;
}

static JsonNode *
read_value (Scan *scan);

static gboolean
read_array (Scan *scan, JsonArray *array)
{
  scan->at++;
  if (takes (scan, ']'))
    return TRUE;
  do
    {
      JsonNode *element = read_value (scan);

      if (element == NULL)
        return FALSE;
      json_array_add_element (array, element);
    }
  while (takes (scan, ','));
  return takes (scan, ']') || fail_wanted (scan, "a comma or ]");
}

static gboolean
read_object (Scan *scan, JsonObject *object)
{
  scan->at++;
  if (takes (scan, '}'))
    return TRUE;
  do
    {
      g_autofree char *key = NULL;
      JsonNode *member;
      const char *start;

      skip_blanks (scan);
      start = scan->at;
      if (scan->at == scan->end || *scan->at != '"')
        return fail_wanted (scan, "a key in double quotes");
      key = read_string (scan);
      if (key == NULL)
        return FALSE;
      if (json_object_has_member (object, key))
        {
          g_autofree char *quoted = fr_json_quote (key);

          return fail (scan, start, "the key %s is given twice", quoted);
        }
      if (!takes (scan, ':'))
        return fail_wanted (scan, "a colon");
      member = read_value (scan);
      if (member == NULL)
        return FALSE;
      json_object_set_member (object, key, member);
    }
  while (takes (scan, ','));
  return takes (scan, '}') || fail_wanted (scan, "a comma or }");
}

static gboolean
read_word (Scan *scan, const char *word)
{
  gsize length = strlen (word);

  if ((gsize)(scan->end - scan->at) < length || memcmp (scan->at, word, length) != 0)
    return FALSE;
  scan->at += length;
  return TRUE;
}

static JsonNode *
read_value (Scan *scan)
{
  g_autoptr (JsonNode) node = json_node_alloc ();
  gboolean ok;

  skip_blanks (scan);
  if (scan->at == scan->end)
    {
      fail_wanted (scan, "a value");
      return NULL;
    }
  if (++scan->depth > FR_JSON_DEPTH_MAX)
    {
      fail (scan, scan->at, "lists and objects are nested more than %d deep", FR_JSON_DEPTH_MAX);
      return NULL;
    }
  switch (*scan->at)
    {
    case '{':
      json_node_init (node, JSON_NODE_OBJECT);
      json_node_take_object (node, json_object_new ());
      ok = read_object (scan, json_node_get_object (node));
      break;
    case '[':
      json_node_init (node, JSON_NODE_ARRAY);
      json_node_take_array (node, json_array_new ());
      ok = read_array (scan, json_node_get_array (node));
      break;
    case '"':
      {
        g_autofree char *string = read_string (scan);

        ok = string != NULL;
        json_node_init_string (node, string);
        break;
      }
    default:
      if (*scan->at == '-' || g_ascii_isdigit (*scan->at))
        ok = read_number (scan, node);
      else if (read_word (scan, "true") || read_word (scan, "false"))
        {
          json_node_init_boolean (node, scan->at[-2] == 'u');
          ok = TRUE;
        }
      else if (read_word (scan, "null"))
        {
          json_node_init_null (node);
          ok = TRUE;
        }
      else
        {
          const char *start = scan->at;

          ok = read_word (scan, "NaN") || read_word (scan, "Infinity")
                   ? fail (scan, start, "NaN and Infinity are no numbers in JSON")
                   : fail_wanted (scan, "a value");
        }
    }
  scan->depth--;
  return ok ? g_steal_pointer (&node) : NULL;
}

static JsonNode *
parse (const char *text, gsize length, GHashTable *numbers, GError **error)
{
  GError *first = NULL;
  Scan scan = { text, text, text + length, 0, numbers, &first };
  g_autoptr (JsonNode) root = NULL;
  const char *bad;

  if (length > FR_JSON_SIZE_MAX)
    {
      g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, "the input is larger than %d MiB",
                   FR_JSON_SIZE_MAX / (1024 * 1024));
      return NULL;
    }
  if (!g_utf8_validate_len (text, length, &bad))
    {
      g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG,
                   "the input is not text in UTF-8: see byte %" G_GSIZE_FORMAT, (gsize)(bad - text) + 1);
      return NULL;
    }
  skip_blanks (&scan);
  if (scan.at == scan.end)
    {
      g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, "the input is empty");
      return NULL;
    }
  root = read_value (&scan);
  if (root != NULL)
    {
      skip_blanks (&scan);
      if (scan.at != scan.end)
        fail_wanted (&scan, "the end of the text");
    }
  if (first != NULL)
    {
      g_propagate_error (error, first);
      return NULL;
    }
  return g_steal_pointer (&root);
}

JsonNode *
fr_json_parse (const char *text, gsize length, GError **error)
{
  return parse (text, length, NULL, error);
}

JsonNode *
fr_json_parse_exact (const char *text, gsize length, GHashTable **numbers_out, GError **error)
{
  g_autoptr (GHashTable) numbers = g_hash_table_new_full (NULL, NULL, NULL, g_free);
  JsonNode *root = parse (text, length, numbers, error);

  *numbers_out = root != NULL ? g_steal_pointer (&numbers) : NULL;
  return root;
}
