/* One feature into an arrival. First comes what the file's member "frostrun" says, then the plain properties,
 * which a person may have changed in another program; all else is foreign. */
#include "formats/geojson-private.h"

#include "formats/field-text.h"
#include "formats/json-output.h"
#include "formats/record-json.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

const FrGeojsonPlain fr_geojson_plain[] = {
  { "name", "name" },     { "species", "species" }, { "girth_cm", NULL },
  { "health", "health" }, { "crown", "crown" },     { "note", "note" },
};

const guint fr_geojson_n_plain = G_N_ELEMENTS (fr_geojson_plain);

/* --- plain properties --- */

static char *
stripped (const char *text)
{
  char *copy = g_strstrip (g_strdup (text));

  if (*copy == '\0' || g_utf8_strlen (copy, -1) > 120)
    g_clear_pointer (&copy, g_free);
  return copy;
}

char *
fr_geojson_understand (const FrGeojsonPlain *plain, JsonObject *properties)
{
  JsonNode *node = properties != NULL ? json_object_get_member (properties, plain->key) : NULL;
  const FrField *field = plain->field != NULL ? fr_kind_field (fr_kind (FR_KIND_TREE), plain->field) : NULL;

  if (node == NULL || JSON_NODE_HOLDS_NULL (node))
    return NULL;
  if (field == NULL)
    return fr_geojson_is_number (node) && json_node_get_double (node) > 0
               ? fr_decimal_text (json_node_get_double (node), 0)
               : NULL;
  if (strcmp (plain->key, "name") == 0 && fr_geojson_is_number (node))
    return fr_decimal_text (json_node_get_double (node), 0);
  if (!fr_geojson_is_string (node))
    return NULL;
  if (strcmp (plain->key, "name") == 0)
    return stripped (json_node_get_string (node));
  if (field->type == FR_FIELD_CODE)
    return g_strv_contains (field->codes, json_node_get_string (node))
               ? g_strdup (json_node_get_string (node))
               : NULL;
  return json_node_get_string (node)[0] != '\0'
                 && g_utf8_strlen (json_node_get_string (node), -1) <= (glong)field->max
             ? g_strdup (json_node_get_string (node))
             : NULL;
}

/* A girth that is not among those the file tells apart. */
static void
add_girth (FrArrival *arrival, const char *text, JsonObject *properties)
{
  const char *day = fr_geojson_string_member (properties, "measured_on");
  FrGirth *girth;
  FrDate date;
  double size_m;

  if (!fr_decimal_read (text, 2, &size_m))
    return;
  for (guint i = 0; i < arrival->history->len; i++)
    {
      const FrGirth *known = arrival->history->pdata[i];

      if (known->record.kind->id == FR_KIND_GIRTH && strcmp (known->measure, "girth") == 0
          && fabs (known->size_m.value - size_m) < 1e-9)
        return;
    }
  girth = (FrGirth *)fr_record_new (FR_KIND_GIRTH);
  fr_amount_set (&girth->size_m, size_m, NULL);
  if (day != NULL && strlen (day) == 10 && fr_date_parse (day, &date))
    girth->measured_on = g_strdup (day);
  g_ptr_array_add (arrival->history, girth);
}

/* Whether our own member says the same, and maybe with blanks around it that the property has too. */
static gboolean
same_as_own (const FrArrival *arrival, const FrGeojsonPlain *plain, const char *text)
{
  const char *own
      = fr_record_text (&arrival->tree->record, fr_kind_field (arrival->tree->record.kind, plain->field));
  g_autofree char *bare = own != NULL ? stripped (own) : NULL;

  return fr_arrival_says (arrival, plain->field) && strcmp (plain->key, "name") == 0
         && g_strcmp0 (bare, text) == 0;
}

static void
read_plain (FrArrival *arrival, JsonObject *properties)
{
  for (guint i = 0; properties != NULL && i < fr_geojson_n_plain; i++)
    {
      const FrGeojsonPlain *plain = &fr_geojson_plain[i];
      g_autofree char *text = fr_geojson_understand (plain, properties);

      if (text == NULL)
        continue;
      if (plain->field == NULL)
        {
          add_girth (arrival, text, properties);
          continue;
        }
      if (same_as_own (arrival, plain, text))
        continue;
      fr_record_set_text (&arrival->tree->record, fr_kind_field (arrival->tree->record.kind, plain->field),
                          text);
      fr_arrival_say (arrival, plain->field);
    }
}

/* --- our own member --- */

/* Ids and references of another book mean nothing here; the reader of records asks for them all the same. */
static FrRecord *
read_record (FrGeojsonReading *reading, FrKindId kind, JsonNode *node)
{
  g_autoptr (GError) wrong = NULL;
  FrRecord *record;

  if (!JSON_NODE_HOLDS_OBJECT (node))
    {
      fr_geojson_fail (reading, _ ("frostrun holds a %s that is no object"), fr_kind (kind)->name);
      return NULL;
    }
  json_object_remove_member (json_node_get_object (node), "id");
  if (kind != FR_KIND_TREE)
    json_object_set_double_member (json_node_get_object (node), "tree", 1);
  record = fr_record_from_json (kind, node, &wrong);
  if (record == NULL)
    fr_geojson_fail (reading, "frostrun.%s.%s", fr_kind (kind)->name, wrong->message);
  return record;
}

static gboolean
read_own_tree (FrGeojsonReading *reading, FrArrival *arrival, JsonNode *node)
{
  FrRecord *record = read_record (reading, FR_KIND_TREE, node);
  const FrKind *kind = fr_kind (FR_KIND_TREE);

  if (record == NULL)
    return FALSE;
  fr_record_free (&arrival->tree->record);
  arrival->tree = (FrTree *)record;
  for (guint i = 0; i < kind->n_fields; i++)
    {
      JsonNode *member = json_object_get_member (json_node_get_object (node), kind->fields[i].name);

      if (member != NULL && !JSON_NODE_HOLDS_NULL (member))
        fr_arrival_say (arrival, kind->fields[i].name);
    }
  return TRUE;
}

static gboolean
read_own (FrGeojsonReading *reading, FrArrival *arrival, JsonObject *own)
{
  static const FrKindId kinds[] = { FR_KIND_GIRTH, FR_KIND_TAP, FR_KIND_YIELD };
  JsonNode *tree = json_object_get_member (own, "tree");

  if (tree != NULL && !read_own_tree (reading, arrival, tree))
    return FALSE;
  for (guint k = 0; k < G_N_ELEMENTS (kinds); k++)
    {
      JsonNode *list = json_object_get_member (own, fr_kind (kinds[k])->name);

      if (list == NULL)
        continue;
      if (!JSON_NODE_HOLDS_ARRAY (list))
        return fr_geojson_fail (reading, _ ("frostrun holds a %s that is no list"), fr_kind (kinds[k])->name);
      for (guint i = 0; i < json_array_get_length (json_node_get_array (list)); i++)
        {
          FrRecord *record
              = read_record (reading, kinds[k], json_array_get_element (json_node_get_array (list), i));

          if (record == NULL)
            return FALSE;
          g_ptr_array_add (arrival->history, record);
        }
    }
  return TRUE;
}

/* --- what is foreign --- */

typedef struct
{
  GString *json;
  GHashTable *numbers;
} Foreign;

static void
keep_text (Foreign *foreign, const char *key, const char *json)
{
  g_string_append_c (foreign->json, foreign->json->len > 0 ? ',' : '{');
  fr_output_append_quoted (foreign->json, key);
  g_string_append_c (foreign->json, ':');
  g_string_append (foreign->json, json);
}

static void
keep_node (Foreign *foreign, const char *key, JsonNode *node)
{
  g_autoptr (GString) text = g_string_new (NULL);

  fr_exact_json_append (text, node, foreign->numbers);
  keep_text (foreign, key, text->str);
}

static gboolean
was_added (JsonObject *own, const char *key)
{
  JsonNode *added = own != NULL ? json_object_get_member (own, "added") : NULL;

  if (added == NULL || !JSON_NODE_HOLDS_ARRAY (added))
    return FALSE;
  for (guint i = 0; i < json_array_get_length (json_node_get_array (added)); i++)
    {
      JsonNode *node = json_array_get_element (json_node_get_array (added), i);

      if (fr_geojson_is_string (node) && strcmp (json_node_get_string (node), key) == 0)
        return TRUE;
    }
  return FALSE;
}

static void
keep_properties (Foreign *foreign, JsonObject *properties, JsonObject *own)
{
  g_autoptr (GString) text = g_string_new (NULL);
  Foreign inner = { text, foreign->numbers };
  JsonObjectIter iter;
  const char *key;
  JsonNode *member;

  if (properties == NULL)
    return;
  json_object_iter_init_ordered (&iter, properties);
  while (json_object_iter_next_ordered (&iter, &key, &member))
    if (!was_added (own, key))
      keep_node (&inner, key, member);
  if (text->len == 0)
    return;
  g_string_append_c (text, '}');
  keep_text (foreign, "properties", text->str);
}

gboolean
fr_geojson_box_holds (JsonNode *box, FrEarthPoint where)
{
  JsonArray *array = JSON_NODE_HOLDS_ARRAY (box) ? json_node_get_array (box) : NULL;
  guint n = array != NULL ? json_array_get_length (array) : 0;

  for (guint i = 0; i < n; i++)
    {
      JsonNode *one = json_array_get_element (array, i);

      if (!JSON_NODE_HOLDS_VALUE (one) || json_node_get_value_type (one) != G_TYPE_DOUBLE)
        return FALSE;
    }
  if (n != 4 && n != 6)
    return FALSE;
  return json_array_get_double_element (array, 0) <= where.lon_deg + 1e-9
         && json_array_get_double_element (array, 1) <= where.lat_deg + 1e-9
         && json_array_get_double_element (array, n / 2) >= where.lon_deg - 1e-9
         && json_array_get_double_element (array, n / 2 + 1) >= where.lat_deg - 1e-9;
}

static void
keep_members (Foreign *foreign, JsonObject *feature, FrEarthPoint where)
{
  static const char *const known[] = { "type", "id", "geometry", "properties", "frostrun", NULL };
  g_autoptr (GString) text = g_string_new (NULL);
  Foreign inner = { text, foreign->numbers };
  JsonObjectIter iter;
  const char *key;
  JsonNode *member;

  json_object_iter_init_ordered (&iter, feature);
  while (json_object_iter_next_ordered (&iter, &key, &member))
    if (!g_strv_contains (known, key) && (strcmp (key, "bbox") != 0 || fr_geojson_box_holds (member, where)))
      keep_node (&inner, key, member);
  if (text->len == 0)
    return;
  g_string_append_c (text, '}');
  keep_text (foreign, "members", text->str);
}

static void
keep_degrees (Foreign *foreign, const char *key, double deg)
{
  g_autofree char *kept = fr_degrees_kept (deg);

  if (kept != NULL)
    keep_text (foreign, key, kept);
}

/* A position beyond longitude and latitude: the height goes into the tree when it can be one. */
static void
keep_heights (Foreign *foreign, FrArrival *arrival, JsonArray *position)
{
  const FrField *field = fr_kind_field (fr_kind (FR_KIND_TREE), "elevation_m");
  guint n = json_array_get_length (position), from = 2;
  g_autoptr (GString) rest = g_string_new (NULL);
  double height;

  if (n > 2)
    {
      height = json_array_get_double_element (position, 2);
      if (height >= field->min && height <= field->max)
        {
          if (arrival->tree->elevation_m.value != height)
            fr_amount_set (&arrival->tree->elevation_m, height, NULL);
          fr_arrival_say (arrival, "elevation_m");
          from = 3;
        }
    }
  for (guint i = from; i < n; i++)
    {
      g_string_append_c (rest, rest->len > 0 ? ',' : '[');
      fr_exact_json_append (rest, json_array_get_element (position, i), foreign->numbers);
    }
  if (rest->len == 0)
    return;
  g_string_append_c (rest, ']');
  keep_text (foreign, "heights", rest->str);
}

/* --- a tree --- */

static gboolean
read_id (FrGeojsonReading *reading, JsonObject *feature, FrArrival *arrival, Foreign *foreign)
{
  JsonNode *id = json_object_get_member (feature, "id");

  if (id == NULL)
    return TRUE;
  if (!fr_geojson_is_string (id) && !fr_geojson_is_number (id))
    return fr_geojson_fail (reading, _ ("its id is neither text nor a number"));
  /* Ours is the tree's own identity, which it has anyway. */
  if (fr_geojson_is_string (id) && arrival->tree->record.uid[0] != '\0'
      && strcmp (json_node_get_string (id), arrival->tree->record.uid) == 0)
    return TRUE;
  keep_node (foreign, "id", id);
  if (arrival->tree->name == NULL)
    {
      g_autoptr (GString) digits = g_string_new (NULL);

      fr_exact_json_append (digits, id, foreign->numbers);
      arrival->tree->name
          = fr_geojson_is_string (id) ? stripped (json_node_get_string (id)) : stripped (digits->str);
      if (arrival->tree->name != NULL)
        fr_arrival_say (arrival, "name");
    }
  return TRUE;
}

static gboolean
finish_foreign (FrGeojsonReading *reading, FrArrival *arrival, Foreign *foreign)
{
  const FrField *field = fr_kind_field (fr_kind (FR_KIND_TREE), "foreign_data");
  g_autofree char *others = g_steal_pointer (&arrival->tree->foreign_data);

  if (foreign->json->len > 0)
    g_string_append_c (foreign->json, '}');
  arrival->tree->foreign_data
      = fr_foreign_with (others, "geojson", foreign->json->len > 0 ? foreign->json->str : NULL);
  if (arrival->tree->foreign_data == NULL)
    return TRUE;
  fr_arrival_say (arrival, "foreign_data");
  if (g_utf8_strlen (arrival->tree->foreign_data, -1) > (glong)field->max)
    return fr_geojson_fail (reading,
                            _ ("it says %ld characters that a tree has no place for; %.0f can be kept"),
                            g_utf8_strlen (arrival->tree->foreign_data, -1), field->max);
  return TRUE;
}

/* A name that is too long is no name, but a person should be told. */
static gboolean
check_name (FrGeojsonReading *reading, JsonObject *properties)
{
  const char *name = properties != NULL ? fr_geojson_string_member (properties, "name") : NULL;
  g_autofree char *bare = name != NULL ? g_strstrip (g_strdup (name)) : NULL;
  double most = fr_kind_field (fr_kind (FR_KIND_TREE), "name")->max;

  if (bare == NULL || g_utf8_strlen (bare, -1) <= (glong)most)
    return TRUE;
  return fr_geojson_fail (reading, _ ("its name has %ld characters; a tree’s may have %.0f"),
                          g_utf8_strlen (bare, -1), most);
}

gboolean
fr_geojson_read_tree (FrGeojsonReading *reading, JsonObject *feature, JsonObject *own, JsonObject *properties,
                      JsonNode *coordinates)
{
  g_autoptr (GString) json = g_string_new (NULL);
  Foreign foreign = { json, reading->numbers };
  FrArrival *arrival;

  if (reading->arrivals->trees->len == FR_GEOJSON_FEATURES_MAX)
    return fr_geojson_fail (reading, _ ("the file has more than %d trees"), FR_GEOJSON_FEATURES_MAX);
  arrival = fr_arrivals_add_tree (reading->arrivals, reading->n);
  if (coordinates != NULL && !fr_geojson_read_position (reading, coordinates, &arrival->where))
    return FALSE;
  if (own != NULL && !read_own (reading, arrival, own))
    return FALSE;
  if (!check_name (reading, properties))
    return FALSE;
  read_plain (arrival, properties);
  if (!read_id (reading, feature, arrival, &foreign))
    return FALSE;
  if (coordinates != NULL)
    {
      keep_degrees (&foreign, "lon", arrival->where.lon_deg);
      keep_degrees (&foreign, "lat", arrival->where.lat_deg);
      keep_heights (&foreign, arrival, json_node_get_array (coordinates));
    }
  keep_properties (&foreign, properties, own);
  keep_members (&foreign, feature, arrival->where);
  return finish_foreign (reading, arrival, &foreign);
}
