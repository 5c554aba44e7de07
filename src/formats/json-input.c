/* Reading values with a sentence for each mistake. Likeness of misspelt keys: Levenshtein's distance (1966)
 * with swapped neighbours counted as one change, at most a third of the word. */
#include "formats/json-input.h"

#include <math.h>
#include <string.h>

#define WORD_MAX 64

static guint
distance (const char *a, const char *b)
{
  guint d[WORD_MAX + 1][WORD_MAX + 1];
  gsize n = strlen (a), m = strlen (b);

  if (n > WORD_MAX || m > WORD_MAX)
    return G_MAXUINT;
  for (guint i = 0; i <= n; i++)
    d[i][0] = i;
  for (guint j = 0; j <= m; j++)
    d[0][j] = j;
  for (guint i = 1; i <= n; i++)
    for (guint j = 1; j <= m; j++)
      {
        guint best = MIN (d[i - 1][j], d[i][j - 1]) + 1;

        best = MIN (best, d[i - 1][j - 1] + (a[i - 1] != b[j - 1]));
        if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
          best = MIN (best, d[i - 2][j - 2] + 1);
        d[i][j] = best;
      }
  return d[n][m];
}

const char *
fr_input_nearest (const char *word, const char *const *words)
{
  const char *nearest = NULL;
  guint best = G_MAXUINT;

  for (guint i = 0; words[i] != NULL; i++)
    {
      guint apart = distance (word, words[i]);

      if (apart < best && apart <= MAX (1, strlen (words[i]) / 3))
        {
          best = apart;
          nearest = words[i];
        }
    }
  return nearest;
}

char *
fr_input_number_text (double value)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];
  gboolean whole;

  if (isinf (value))
    return g_strdup (value > 0 ? "too large for a number" : "too small for a number");
  /* A negative zero reads as a mistake of ours, and a million as 1e+06 as one of theirs. */
  whole = fabs (value) < 1e9 && (value == rint (value) || fabs (value) >= 1e6);
  return g_strdup (g_ascii_formatd (text, sizeof text, whole ? "%.0f" : "%.6g", value == 0 ? 0.0 : value));
}

static void
name_of (const FrInput *input, const char *key, char *name, gsize size)
{
  g_snprintf (name, size, "%s%s%s", input->path, input->path[0] != '\0' && key[0] != '\0' ? "." : "", key);
}

gboolean
fr_input_fail (const FrInput *input, const char *key, const char *format, ...)
{
  g_autofree char *what = NULL;
  char name[256];
  va_list args;

  if (*input->error != NULL)
    return FALSE;
  va_start (args, format);
  what = g_strdup_vprintf (format, args);
  va_end (args);
  name_of (input, key, name, sizeof name);
  g_set_error (input->error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, "%s %s",
               name[0] != '\0' ? name : "the input", what);
  return FALSE;
}

static const char *
type_words (JsonNode *node)
{
  switch (json_node_get_node_type (node))
    {
    case JSON_NODE_OBJECT:
      return "an object";
    case JSON_NODE_ARRAY:
      return "a list";
    case JSON_NODE_NULL:
      return "null";
    default:
      switch (json_node_get_value_type (node))
        {
        case G_TYPE_STRING:
          return "text";
        case G_TYPE_BOOLEAN:
          return "true or false";
        default:
          return "a number";
        }
    }
}

static gboolean
is_number (JsonNode *node)
{
  return JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_DOUBLE;
}

gboolean
fr_input_fail_range (const FrInput *input, const char *key, double value, double min, double max)
{
  g_autofree char *is = fr_input_number_text (value), *lo = fr_input_number_text (min),
                  *hi = fr_input_number_text (max);
  JsonNode *node = input->object != NULL ? json_object_get_member (input->object, key) : NULL;

  if (node != NULL && !JSON_NODE_HOLDS_NULL (node) && !is_number (node))
    return fr_input_fail (input, key, "is %s; it must be a number from %s to %s", type_words (node), lo, hi);
  if (isnan (value))
    return fr_input_fail (input, key, "is missing; give a number from %s to %s", lo, hi);
  /* Rounded for reading, a number just outside looks as if it were inside. */
  if (isfinite (value) && g_ascii_strtod (is, NULL) >= min && g_ascii_strtod (is, NULL) <= max)
    return fr_input_fail (input, key, "is a trace %s %s; it must be from %s to %s",
                          value < min ? "under" : "over", is, lo, hi);
  return fr_input_fail (input, key, "is %s; it must be from %s to %s", is, lo, hi);
}

/* The member, or NULL when absent, null, or after a problem. */
static JsonNode *
member (const FrInput *input, const char *key)
{
  JsonNode *node;

  if (*input->error != NULL || input->object == NULL)
    return NULL;
  node = json_object_get_member (input->object, key);
  return node == NULL || JSON_NODE_HOLDS_NULL (node) ? NULL : node;
}

gboolean
fr_input_has (const FrInput *input, const char *key)
{
  return member (input, key) != NULL;
}

gboolean
fr_input_check_keys (const FrInput *input, const char *const *keys)
{
  g_autoptr (GList) members = input->object != NULL ? json_object_get_members (input->object) : NULL;

  for (GList *l = members; l != NULL && *input->error == NULL; l = l->next)
    if (!g_strv_contains (keys, l->data))
      {
        g_autofree char *quoted = fr_json_quote (l->data), *all = g_strjoinv (", ", (char **)keys);
        const char *nearest = fr_input_nearest (l->data, keys);

        if (nearest != NULL)
          return fr_input_fail (input, quoted, "is no key here; did you mean %s?", nearest);
        return fr_input_fail (input, quoted, "is no key here; known are %s", all);
      }
  return *input->error == NULL;
}

gboolean
fr_input_root (JsonNode *root, const char *const *keys, GError **error, FrInput *input_out)
{
  *input_out = (FrInput){ NULL, "", error };
  if (!JSON_NODE_HOLDS_OBJECT (root))
    return fr_input_fail (input_out, "", "is %s; it must be an object in { }", type_words (root));
  input_out->object = json_node_get_object (root);
  return fr_input_check_keys (input_out, keys);
}

static gboolean
open_object (const FrInput *input, const char *key, JsonNode *node, const char *const *keys,
             FrInput *object_out)
{
  if (!JSON_NODE_HOLDS_OBJECT (node))
    return fr_input_fail (input, key, "is %s; it must be an object in { }", type_words (node));
  object_out->object = json_node_get_object (node);
  return keys == NULL || fr_input_check_keys (object_out, keys);
}

gboolean
fr_input_object (const FrInput *input, const char *key, FrInputNeed need, const char *const *keys,
                 FrInput *object_out)
{
  JsonNode *node = member (input, key);

  *object_out = (FrInput){ NULL, "", input->error };
  name_of (input, key, object_out->path, sizeof object_out->path);
  if (node != NULL)
    return open_object (input, key, node, keys, object_out);
  if (need == FR_INPUT_REQUIRED)
    {
      g_autofree char *all = keys != NULL ? g_strjoinv (", ", (char **)keys) : NULL;

      return fr_input_fail (input, key, "is missing; give an object in { }%s%s", all != NULL ? " with " : "",
                            all != NULL ? all : "");
    }
  return FALSE;
}

double
fr_input_any_number (const FrInput *input, const char *key)
{
  JsonNode *node = member (input, key);

  if (node == NULL)
    return NAN;
  return is_number (node) ? json_node_get_double (node) : -INFINITY;
}

double
fr_input_number (const FrInput *input, const char *key, FrInputNeed need, double min, double max)
{
  double value = fr_input_any_number (input, key);

  if (*input->error != NULL || (value >= min && value <= max))
    return *input->error != NULL ? NAN : value;
  if (!isnan (value) || need == FR_INPUT_REQUIRED)
    fr_input_fail_range (input, key, value, min, max);
  return NAN;
}

const char *
fr_input_string (const FrInput *input, const char *key, FrInputNeed need, const char *what)
{
  JsonNode *node = member (input, key);

  if (node != NULL && JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_STRING)
    return json_node_get_string (node);
  if (node != NULL)
    fr_input_fail (input, key, "is %s; it must be %s", type_words (node), what);
  else if (need == FR_INPUT_REQUIRED)
    fr_input_fail (input, key, "is missing; give %s", what);
  return NULL;
}

JsonArray *
fr_input_array (const FrInput *input, const char *key, FrInputNeed need, guint min, guint max)
{
  JsonNode *node = member (input, key);
  JsonArray *array;
  guint n;

  if (node == NULL)
    {
      if (need == FR_INPUT_REQUIRED)
        fr_input_fail (input, key, "is missing; give a list in [ ] of %u to %u", min, max);
      return NULL;
    }
  if (!JSON_NODE_HOLDS_ARRAY (node))
    {
      fr_input_fail (input, key, "is %s; it must be a list in [ ] of %u to %u", type_words (node), min, max);
      return NULL;
    }
  array = json_node_get_array (node);
  n = json_array_get_length (array);
  if (n < min || n > max)
    {
      fr_input_fail (input, key, "has %u entries; it must have %u to %u", n, min, max);
      return NULL;
    }
  return array;
}

gboolean
fr_input_element (const FrInput *input, const char *key, JsonArray *array, guint index,
                  const char *const *keys, FrInput *object_out)
{
  char name[64];

  g_snprintf (name, sizeof name, "%s[%u]", key, index);
  *object_out = (FrInput){ NULL, "", input->error };
  name_of (input, name, object_out->path, sizeof object_out->path);
  if (*input->error != NULL)
    return FALSE;
  return open_object (input, name, json_array_get_element (array, index), keys, object_out);
}

double
fr_input_array_number (const FrInput *input, JsonArray *array, guint index, const char *path, double min,
                       double max)
{
  JsonNode *node = json_array_get_element (array, index);
  double value;

  if (!is_number (node))
    {
      g_autofree char *lo = fr_input_number_text (min), *hi = fr_input_number_text (max);

      fr_input_fail (input, path, "is %s; it must be a number from %s to %s", type_words (node), lo, hi);
      return NAN;
    }
  value = json_node_get_double (node);
  if (value >= min && value <= max)
    return value;
  fr_input_fail_range (input, path, value, min, max);
  return NAN;
}
