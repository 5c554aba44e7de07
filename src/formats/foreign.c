/* A record's foreign data as text in and out. It may hold anything, for a book can be written by others: what
 * is not a JSON object counts as none. */
#include "formats/foreign.h"

#include "formats/json-output.h"

#include <string.h>

void
fr_exact_json_clear (FrExactJson *json)
{
  g_clear_pointer (&json->root, json_node_unref);
  g_clear_pointer (&json->numbers, g_hash_table_unref);
}

void
fr_exact_json_append (GString *text, JsonNode *node, GHashTable *numbers)
{
  const char *digits = numbers != NULL ? g_hash_table_lookup (numbers, node) : NULL;
  char number[G_ASCII_DTOSTR_BUF_SIZE];

  if (digits != NULL)
    g_string_append (text, digits);
  else if (JSON_NODE_HOLDS_OBJECT (node))
    {
      JsonObjectIter iter;
      const char *key;
      JsonNode *member;
      gboolean follows = FALSE;

      g_string_append_c (text, '{');
      json_object_iter_init_ordered (&iter, json_node_get_object (node));
      while (json_object_iter_next_ordered (&iter, &key, &member))
        {
          if (follows)
            g_string_append_c (text, ',');
          follows = TRUE;
          fr_output_append_quoted (text, key);
          g_string_append_c (text, ':');
          fr_exact_json_append (text, member, numbers);
        }
      g_string_append_c (text, '}');
    }
  else if (JSON_NODE_HOLDS_ARRAY (node))
    {
      JsonArray *array = json_node_get_array (node);

      g_string_append_c (text, '[');
      for (guint i = 0; i < json_array_get_length (array); i++)
        {
          if (i > 0)
            g_string_append_c (text, ',');
          fr_exact_json_append (text, json_array_get_element (array, i), numbers);
        }
      g_string_append_c (text, ']');
    }
  else if (JSON_NODE_HOLDS_NULL (node))
    g_string_append (text, "null");
  else if (json_node_get_value_type (node) == G_TYPE_STRING)
    fr_output_append_quoted (text, json_node_get_string (node));
  else if (json_node_get_value_type (node) == G_TYPE_BOOLEAN)
    g_string_append (text, json_node_get_boolean (node) ? "true" : "false");
  else
    {
      fr_output_number_text (json_node_get_double (node), number);
      g_string_append (text, number);
    }
}

/* The whole object; NULL when there is none. */
static JsonObject *
read_object (const char *text, FrExactJson *json_out)
{
  *json_out = (FrExactJson){ NULL, NULL };
  if (text == NULL)
    return NULL;
  json_out->root = fr_json_parse_exact (text, strlen (text), &json_out->numbers, NULL);
  return json_out->root != NULL && JSON_NODE_HOLDS_OBJECT (json_out->root)
             ? json_node_get_object (json_out->root)
             : NULL;
}

JsonObject *
fr_foreign_read (const char *text, const char *format, FrExactJson *json_out)
{
  JsonObject *all = read_object (text, json_out);
  JsonNode *part = all != NULL ? json_object_get_member (all, format) : NULL;

  return part != NULL && JSON_NODE_HOLDS_OBJECT (part) ? json_node_get_object (part) : NULL;
}

/* Members one by one into a text, by their names, so that the same things are the same text whichever came
 * first. */
typedef struct
{
  GTree *members; /* key → JSON, both owned */
} Building;

static int
by_name (gconstpointer a, gconstpointer b, gpointer unused)
{
  return strcmp (a, b);
}

static void
build (Building *building, const char *key, char *json)
{
  if (building->members == NULL)
    building->members = g_tree_new_full (by_name, NULL, g_free, g_free);
  g_tree_replace (building->members, g_strdup (key), json);
}

static void
build_node (Building *building, const char *key, JsonNode *node, GHashTable *numbers)
{
  GString *text = g_string_new (NULL);

  fr_exact_json_append (text, node, numbers);
  build (building, key, g_string_free (text, FALSE));
}

static void
build_all (Building *building, JsonObject *object, GHashTable *numbers, const char *but)
{
  JsonObjectIter iter;
  const char *key;
  JsonNode *member;

  json_object_iter_init (&iter, object);
  while (json_object_iter_next (&iter, &key, &member))
    if (g_strcmp0 (key, but) != 0)
      build_node (building, key, member, numbers);
}

static gboolean
append_member (gpointer key, gpointer json, gpointer data)
{
  GString *text = data;

  if (text->len > 1)
    g_string_append_c (text, ',');
  fr_output_append_quoted (text, key);
  g_string_append_c (text, ':');
  g_string_append (text, json);
  return FALSE;
}

static char *
built (Building *building)
{
  GString *text;

  if (building->members == NULL)
    return NULL;
  text = g_string_new ("{");
  g_tree_foreach (building->members, append_member, text);
  g_string_append_c (text, '}');
  g_tree_unref (building->members);
  return g_string_free (text, FALSE);
}

char *
fr_foreign_with (const char *text, const char *format, const char *part)
{
  g_auto (FrExactJson) json = { NULL, NULL };
  JsonObject *all = read_object (text, &json);
  Building building = { NULL };

  if (all != NULL)
    build_all (&building, all, json.numbers, format);
  if (part != NULL)
    build (&building, format, g_strdup (part));
  return built (&building);
}

char *
fr_foreign_join (const char *in_book, const char *in_file, gboolean replace)
{
  g_auto (FrExactJson) book = { NULL, NULL };
  g_auto (FrExactJson) file = { NULL, NULL };
  JsonObject *kept = read_object (in_book, &book), *arrived = read_object (in_file, &file);
  Building building = { NULL };

  if (kept == NULL || arrived == NULL)
    return g_strdup (kept != NULL ? in_book : in_file);
  /* What comes last stands. */
  build_all (&building, replace ? kept : arrived, replace ? book.numbers : file.numbers, NULL);
  build_all (&building, replace ? arrived : kept, replace ? file.numbers : book.numbers, NULL);
  return built (&building);
}
