/* Writing GeoJSON. A property of the file a tree came from stays as it was, unless it means a field that has
 * changed since; plain properties of ours are listed in "added", so that reading knows them from the file's
 * own. */
#include "formats/geojson-private.h"

#include "domain/records/ground-points.h"
#include "formats/field-text.h"
#include "formats/record-json.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

typedef struct
{
  FrOutput output;
  FrGeoAnchor anchor;
  GHashTable *history; /* id of a tree → GPtrArray of FrRecord */
} Writing;

static void
write_exact (Writing *writing, const char *key, JsonNode *node, GHashTable *numbers)
{
  g_autoptr (GString) text = g_string_new (NULL);

  fr_exact_json_append (text, node, numbers);
  fr_output_json (&writing->output, key, text->str);
}

static JsonNode *
member (JsonObject *object, const char *key)
{
  return object != NULL ? json_object_get_member (object, key) : NULL;
}

/* The digits a number came with. */
static char *
digits (JsonObject *foreign, const char *key, GHashTable *numbers)
{
  JsonNode *node = member (foreign, key);
  g_autoptr (GString) text = g_string_new (NULL);

  if (node == NULL || !JSON_NODE_HOLDS_VALUE (node) || json_node_get_value_type (node) != G_TYPE_DOUBLE)
    return NULL;
  fr_exact_json_append (text, node, numbers);
  return g_strdup (text->str);
}

/* --- geometry --- */

static void
write_position (Writing *writing, const char *key, const char *lon, const char *lat, const char *rest)
{
  g_autofree char *text = g_strdup_printf ("[%s, %s%s]", lon, lat, rest);

  fr_output_json (&writing->output, key, text);
}

static void
write_point (Writing *writing, const FrTree *tree, FrEarthPoint where, JsonObject *foreign,
             GHashTable *numbers)
{
  g_autofree char *lon_kept = digits (foreign, "lon", numbers), *lat_kept = digits (foreign, "lat", numbers),
                  *lon = fr_degrees_text (where.lon_deg, lon_kept),
                  *lat = fr_degrees_text (where.lat_deg, lat_kept),
                  *height = fr_decimal_text (tree->elevation_m.value, 0);
  JsonNode *heights = member (foreign, "heights");
  g_autoptr (GString) rest = g_string_new (NULL);

  if (height != NULL)
    g_string_append_printf (rest, ", %s", height);
  if (heights != NULL && JSON_NODE_HOLDS_ARRAY (heights))
    for (guint i = 0; i < json_array_get_length (json_node_get_array (heights)); i++)
      {
        JsonNode *one = json_array_get_element (json_node_get_array (heights), i);

        if (!JSON_NODE_HOLDS_VALUE (one) || json_node_get_value_type (one) != G_TYPE_DOUBLE)
          continue;
        g_string_append (rest, ", ");
        fr_exact_json_append (rest, one, numbers);
      }
  fr_output_object (&writing->output, "geometry");
  fr_output_string (&writing->output, "type", "Point");
  write_position (writing, "coordinates", lon, lat, rest->str);
  fr_output_end_object (&writing->output);
}

/* --- properties --- */

static const FrGirth *
latest_girth (const Writing *writing, const FrTree *tree)
{
  const GPtrArray *history = g_hash_table_lookup (writing->history, &tree->record.id);
  const FrGirth *latest = NULL;

  for (guint i = 0; history != NULL && i < history->len; i++)
    {
      const FrGirth *girth = history->pdata[i];

      if (girth->record.kind->id == FR_KIND_GIRTH && !girth->record.archived
          && strcmp (girth->measure, "girth") == 0
          && (latest == NULL || strcmp (girth->measured_on, latest->measured_on) > 0))
        latest = girth;
    }
  return latest;
}

/* The field's text or the girth's number; NULL when unknown. */
static char *
plain_text (const Writing *writing, const FrTree *tree, const FrGeojsonPlain *plain)
{
  const FrGirth *girth = plain->field == NULL ? latest_girth (writing, tree) : NULL;
  const char *text;

  if (plain->field == NULL)
    return girth != NULL ? fr_decimal_text (girth->size_m.value, 2) : NULL;
  text = fr_record_text (&tree->record, fr_kind_field (tree->record.kind, plain->field));
  return g_strcmp0 (text, "unknown") != 0 ? g_strdup (text) : NULL;
}

static void
write_plain (Writing *writing, const FrGeojsonPlain *plain, const char *text)
{
  if (plain->field == NULL)
    fr_output_json (&writing->output, plain->key, text);
  else
    fr_output_string (&writing->output, plain->key, text);
}

static const FrGeojsonPlain *
find_plain (const char *key)
{
  for (guint i = 0; i < fr_geojson_n_plain; i++)
    if (strcmp (fr_geojson_plain[i].key, key) == 0)
      return &fr_geojson_plain[i];
  return NULL;
}

/* Those of the file first, in its order. @added_out: keys of ours that it does not have. */
static void
write_properties (Writing *writing, const FrTree *tree, JsonObject *foreign, GHashTable *numbers,
                  GPtrArray *added_out)
{
  JsonNode *node = member (foreign, "properties");
  JsonObject *properties = node != NULL && JSON_NODE_HOLDS_OBJECT (node) ? json_node_get_object (node) : NULL;
  JsonObjectIter iter;
  const char *key;
  JsonNode *value;

  fr_output_object (&writing->output, "properties");
  if (properties != NULL)
    {
      json_object_iter_init_ordered (&iter, properties);
      while (json_object_iter_next_ordered (&iter, &key, &value))
        {
          const FrGeojsonPlain *plain = find_plain (key);
          g_autofree char *was = plain != NULL ? fr_geojson_understand (plain, properties) : NULL,
                          *is = plain != NULL ? plain_text (writing, tree, plain) : NULL;

          if (was == NULL || is == NULL || strcmp (was, is) == 0)
            write_exact (writing, key, value, numbers);
          else
            write_plain (writing, plain, is);
        }
    }
  for (guint i = 0; i < fr_geojson_n_plain; i++)
    {
      const FrGeojsonPlain *plain = &fr_geojson_plain[i];
      g_autofree char *text = plain_text (writing, tree, plain);

      if (text == NULL || member (properties, plain->key) != NULL)
        continue;
      write_plain (writing, plain, text);
      g_ptr_array_add (added_out, (gpointer)plain->key);
    }
  fr_output_end_object (&writing->output);
}

/* --- our own member --- */

/* On one line, without what is unknown or means nothing outside its book: thousands of trees must stay within
 * what a reader takes. */
static void
write_record (Writing *writing, const char *key, const FrRecord *record)
{
  static const char *const of_the_book[] = { "id", "archived", NULL };
  g_autoptr (JsonNode) node = fr_record_to_json (record);
  g_autoptr (GString) text = g_string_new (NULL);
  JsonObject *object = json_node_get_object (node);
  g_autoptr (GList) names = json_object_get_members (object);

  for (GList *l = names; l != NULL; l = l->next)
    {
      const FrField *field = fr_kind_field (record->kind, l->data);

      if (JSON_NODE_HOLDS_NULL (json_object_get_member (object, l->data))
          || (field != NULL && field->type == FR_FIELD_REF)
          || (g_strv_contains (of_the_book, l->data)
              && !(record->archived && strcmp (l->data, "archived") == 0)))
        json_object_remove_member (object, l->data);
    }
  fr_exact_json_append (text, node, NULL);
  fr_output_json (&writing->output, key, text->str);
}

static void
write_history (Writing *writing, const FrTree *tree)
{
  static const FrKindId kinds[] = { FR_KIND_GIRTH, FR_KIND_TAP, FR_KIND_YIELD };
  const GPtrArray *history = g_hash_table_lookup (writing->history, &tree->record.id);

  for (guint k = 0; k < G_N_ELEMENTS (kinds); k++)
    {
      gboolean any = FALSE;

      for (guint i = 0; history != NULL && i < history->len; i++)
        {
          if (((FrRecord *)history->pdata[i])->kind->id != kinds[k])
            continue;
          if (!any)
            fr_output_array (&writing->output, fr_kind (kinds[k])->name);
          any = TRUE;
          write_record (writing, NULL, history->pdata[i]);
        }
      if (any)
        fr_output_end_array (&writing->output);
    }
}

static void
write_own (Writing *writing, const FrTree *tree, const GPtrArray *added)
{
  g_autoptr (FrRecord) copy = fr_record_copy (&tree->record);
  g_autoptr (GString) names = g_string_new (NULL);
  FrTree *bare = (FrTree *)copy;

  g_free (bare->foreign_data);
  bare->foreign_data = fr_foreign_with (tree->foreign_data, "geojson", NULL);
  fr_output_object (&writing->output, "frostrun");
  write_record (writing, "tree", copy);
  write_history (writing, tree);
  for (guint i = 0; i < added->len; i++)
    {
      g_string_append_c (names, i > 0 ? ',' : '[');
      fr_output_append_quoted (names, added->pdata[i]);
    }
  if (names->len > 0)
    {
      g_string_append_c (names, ']');
      fr_output_json (&writing->output, "added", names->str);
    }
  fr_output_end_object (&writing->output);
}

static void
write_members (Writing *writing, JsonObject *foreign, GHashTable *numbers, FrEarthPoint where)
{
  static const char *const known[]
      = { "type", "id", "geometry", "properties", "frostrun", "coordinates", "features", "geometries", NULL };
  JsonNode *node = member (foreign, "members");
  JsonObjectIter iter;
  const char *key;
  JsonNode *value;

  if (node == NULL || !JSON_NODE_HOLDS_OBJECT (node))
    return;
  json_object_iter_init_ordered (&iter, json_node_get_object (node));
  while (json_object_iter_next_ordered (&iter, &key, &value))
    if (!g_strv_contains (known, key) && (strcmp (key, "bbox") != 0 || fr_geojson_box_holds (value, where)))
      write_exact (writing, key, value, numbers);
}

/* --- a tree --- */

static void
write_tree (Writing *writing, const FrTree *tree, const FrEarthPoint *where)
{
  g_auto (FrExactJson) json = { NULL, NULL };
  JsonObject *foreign = fr_foreign_read (tree->foreign_data, "geojson", &json);
  JsonNode *id = member (foreign, "id");
  g_autoptr (GPtrArray) added = g_ptr_array_new ();

  fr_output_object (&writing->output, NULL);
  fr_output_string (&writing->output, "type", "Feature");
  if (id != NULL && JSON_NODE_HOLDS_VALUE (id) && json_node_get_value_type (id) != G_TYPE_BOOLEAN)
    write_exact (writing, "id", id, json.numbers);
  else if (tree->record.uid[0] != '\0')
    fr_output_string (&writing->output, "id", tree->record.uid);
  if (where != NULL)
    write_point (writing, tree, *where, foreign, json.numbers);
  else
    fr_output_null (&writing->output, "geometry");
  write_properties (writing, tree, foreign, json.numbers, added);
  write_own (writing, tree, added);
  write_members (writing, foreign, json.numbers, where != NULL ? *where : (FrEarthPoint){ NAN, NAN });
  fr_output_end_object (&writing->output);
}

/* --- a drawing --- */

static void
write_corner (Writing *writing, const char *key, FrGroundPoint point)
{
  FrEarthPoint where;

  if (!fr_geo_from_plan (&writing->anchor, point.x_m, point.y_m, &where))
    return;
  {
    g_autofree char *lon = fr_degrees_text (where.lon_deg, NULL),
                    *lat = fr_degrees_text (where.lat_deg, NULL);

    write_position (writing, key, lon, lat, "");
  }
}

static void
write_corners (Writing *writing, const char *key, const FrGroundPoint *points, guint n, gboolean closed)
{
  fr_output_array (&writing->output, key);
  for (guint i = 0; i < n; i++)
    write_corner (writing, NULL, points[i]);
  if (closed)
    write_corner (writing, NULL, points[0]);
  fr_output_end_array (&writing->output);
}

static gboolean
is_within_reach (const Writing *writing, const FrGroundPoint *points, guint n)
{
  FrEarthPoint where;

  for (guint i = 0; i < n; i++)
    if (!fr_geo_from_plan (&writing->anchor, points[i].x_m, points[i].y_m, &where))
      return FALSE;
  return TRUE;
}

static void
write_drawing (Writing *writing, const FrFeature *feature)
{
  g_autofree FrGroundPoint *points = NULL;
  gboolean outline;
  guint n = 0;

  if (!fr_ground_points_parse (feature->points, &points, &n, NULL) || !is_within_reach (writing, points, n))
    return;
  outline = n > 2 && (strcmp (feature->form, "building") == 0);
  fr_output_object (&writing->output, NULL);
  fr_output_string (&writing->output, "type", "Feature");
  fr_output_object (&writing->output, "geometry");
  fr_output_string (&writing->output, "type", n == 1 ? "Point" : outline ? "Polygon" : "LineString");
  if (n == 1)
    write_corner (writing, "coordinates", points[0]);
  else if (outline)
    {
      fr_output_array (&writing->output, "coordinates");
      write_corners (writing, NULL, points, n, TRUE);
      fr_output_end_array (&writing->output);
    }
  else
    write_corners (writing, "coordinates", points, n, FALSE);
  fr_output_end_object (&writing->output);
  fr_output_object (&writing->output, "properties");
  if (feature->name != NULL)
    fr_output_string (&writing->output, "name", feature->name);
  fr_output_string (&writing->output, "form", feature->form);
  fr_output_end_object (&writing->output);
  fr_output_object (&writing->output, "frostrun");
  fr_output_boolean (&writing->output, "feature", TRUE);
  fr_output_end_object (&writing->output);
  fr_output_end_object (&writing->output);
}

/* --- the file --- */

static void
write_plan (Writing *writing)
{
  fr_output_object (&writing->output, "frostrun");
  fr_output_number (&writing->output, "anchor_lat_deg", writing->anchor.lat_deg);
  fr_output_number (&writing->output, "anchor_lon_deg", writing->anchor.lon_deg);
  fr_output_number (&writing->output, "anchor_x_m", writing->anchor.x_m);
  fr_output_number (&writing->output, "anchor_y_m", writing->anchor.y_m);
  fr_output_end_object (&writing->output);
}

char *
fr_geojson_write (const FrBushBook *book, gboolean with_paths, guint *n_left_out, GError **error)
{
  Writing writing;
  guint left_out = 0;

  if (!fr_bush_book_anchor (book, &writing.anchor))
    {
      g_set_error (
          error, FR_INPUT_ERROR, FR_INPUT_ERROR_FAILED,
          _ ("The plan is not tied to the earth: give the latitude and longitude of one of its points, "
             "or read a file in which a tree has the name of one on the plan."));
      return NULL;
    }
  fr_output_init (&writing.output);
  writing.history = fr_bush_book_history (book);
  fr_output_object (&writing.output, NULL);
  fr_output_string (&writing.output, "type", "FeatureCollection");
  write_plan (&writing);
  fr_output_array (&writing.output, "features");
  for (guint i = 0; book->trees != NULL && i < book->trees->len; i++)
    {
      const FrTree *tree = book->trees->pdata[i];
      FrEarthPoint where;
      gboolean placed = fr_geo_from_plan (&writing.anchor, tree->x_m.value, tree->y_m.value, &where);

      if (tree->record.archived)
        continue;
      write_tree (&writing, tree, placed ? &where : NULL);
      left_out += !placed;
    }
  for (guint i = 0; with_paths && book->features != NULL && i < book->features->len; i++)
    if (!((FrRecord *)book->features->pdata[i])->archived)
      write_drawing (&writing, book->features->pdata[i]);
  fr_output_end_array (&writing.output);
  fr_output_end_object (&writing.output);
  g_hash_table_unref (writing.history);
  if (n_left_out != NULL)
    *n_left_out = left_out;
  return fr_output_finish (&writing.output);
}
