/* Reading GeoJSON from the strict reader's tree: the collection, its features, their geometry. */
#include "formats/geojson-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

gboolean
fr_geojson_fail (FrGeojsonReading *reading, const char *format, ...)
{
  g_autofree char *what = NULL;
  va_list args;

  if (*reading->error != NULL)
    return FALSE;
  va_start (args, format);
  what = g_strdup_vprintf (format, args);
  va_end (args);
  if (reading->n > 0)
    g_set_error (reading->error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, _ ("feature %u: %s"), reading->n,
                 what);
  else
    g_set_error_literal (reading->error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, what);
  return FALSE;
}

/* --- values --- */

gboolean
fr_geojson_is_string (JsonNode *node)
{
  return node != NULL && JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_STRING;
}

gboolean
fr_geojson_is_number (JsonNode *node)
{
  return node != NULL && JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_DOUBLE;
}

const char *
fr_geojson_string_member (JsonObject *object, const char *key)
{
  JsonNode *node = json_object_get_member (object, key);

  return fr_geojson_is_string (node) ? json_node_get_string (node) : NULL;
}

JsonObject *
fr_geojson_object_member (JsonObject *object, const char *key)
{
  JsonNode *node = json_object_get_member (object, key);

  return node != NULL && JSON_NODE_HOLDS_OBJECT (node) ? json_node_get_object (node) : NULL;
}

/* --- places --- */

gboolean
fr_geojson_read_position (FrGeojsonReading *reading, JsonNode *node, FrEarthPoint *point)
{
  JsonArray *array = node != NULL && JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;
  double lat, lon;

  if (array == NULL || json_array_get_length (array) < 2)
    return fr_geojson_fail (
        reading, _ ("a position must be a list [longitude, latitude] or [longitude, latitude, height]"));
  for (guint i = 0; i < json_array_get_length (array); i++)
    if (!fr_geojson_is_number (json_array_get_element (array, i)))
      return fr_geojson_fail (reading, _ ("a position holds something that is no number"));
  lon = json_array_get_double_element (array, 0);
  lat = json_array_get_double_element (array, 1);
  if (!(fabs (lat) <= 90))
    {
      g_autofree char *is = fr_input_number_text (lat);

      return fr_geojson_fail (reading,
                              fabs (lat) <= 180
                                  ? _ ("the latitude is %s; it goes from −90 to 90, and stands second in "
                                       "[longitude, latitude]. Are the two swapped?")
                                  : _ ("the latitude is %s; it goes from −90 to 90"),
                              is);
    }
  if (!(fabs (lon) <= 180))
    {
      g_autofree char *is = fr_input_number_text (lon);

      return fr_geojson_fail (reading, _ ("the longitude is %s; it goes from −180 to 180"), is);
    }
  *point = (FrEarthPoint){ lat, lon };
  return TRUE;
}

static gboolean
read_line (FrGeojsonReading *reading, JsonNode *node, const char *form, const char *name)
{
  JsonArray *array = node != NULL && JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;
  FrArrivalPath *path;

  if (array == NULL || json_array_get_length (array) < 2)
    return fr_geojson_fail (reading, _ ("a line must be a list of at least two positions"));
  path = fr_arrivals_add_path (reading->arrivals, reading->n, form);
  path->name = g_strdup (name);
  for (guint i = 0; i < json_array_get_length (array); i++)
    {
      FrEarthPoint point;

      if (!fr_geojson_read_position (reading, json_array_get_element (array, i), &point))
        return FALSE;
      g_array_append_val (path->points, point);
    }
  return TRUE;
}

static gboolean
read_outline (FrGeojsonReading *reading, JsonNode *node, const char *form, const char *name)
{
  JsonArray *rings = node != NULL && JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;
  GArray *points;

  if (rings == NULL || json_array_get_length (rings) < 1)
    return fr_geojson_fail (reading, _ ("an outline must be a list of rings"));
  if (!read_line (reading, json_array_get_element (rings, 0), form, name))
    return FALSE;
  points = ((FrArrivalPath *)reading->arrivals->paths->pdata[reading->arrivals->paths->len - 1])->points;
  if (points->len < 4
      || memcmp (&g_array_index (points, FrEarthPoint, 0),
                 &g_array_index (points, FrEarthPoint, points->len - 1), sizeof (FrEarthPoint))
             != 0)
    return fr_geojson_fail (reading,
                            _ ("a ring must have at least four positions, the last being the first again"));
  g_array_set_size (points, points->len - 1);
  reading->n_holes += json_array_get_length (rings) - 1;
  return TRUE;
}

/* --- lines and outlines --- */

static gboolean
read_path (FrGeojsonReading *reading, const char *type, JsonObject *geometry, JsonObject *properties)
{
  const FrField *forms = fr_kind_field (fr_kind (FR_KIND_FEATURE), "form");
  JsonNode *coordinates = json_object_get_member (geometry, "coordinates");
  gboolean outline = strstr (type, "Polygon") != NULL, many = g_str_has_prefix (type, "Multi");
  const char *said = properties != NULL ? fr_geojson_string_member (properties, "form") : NULL;
  const char *form = said != NULL && g_strv_contains (forms->codes, said) ? said
                     : outline                                            ? "building"
                                                                          : "path";
  g_autofree char *name
      = properties != NULL ? fr_geojson_understand (&fr_geojson_plain[0], properties) : NULL;
  gboolean (*const read) (FrGeojsonReading *, JsonNode *, const char *, const char *)
      = outline ? read_outline : read_line;

  reading->n_lines++;
  if (!many)
    return read (reading, coordinates, form, name);
  if (coordinates == NULL || !JSON_NODE_HOLDS_ARRAY (coordinates))
    return fr_geojson_fail (reading, _ ("%s needs a list of coordinates"), type);
  for (guint i = 0; i < json_array_get_length (json_node_get_array (coordinates)); i++)
    if (!read (reading, json_array_get_element (json_node_get_array (coordinates), i), form, name))
      return FALSE;
  return TRUE;
}

/* A drawing of ours with one point: a boiling place, a store. */
static gboolean
read_spot (FrGeojsonReading *reading, FrEarthPoint where, JsonObject *properties)
{
  const FrField *forms = fr_kind_field (fr_kind (FR_KIND_FEATURE), "form");
  const char *said = properties != NULL ? fr_geojson_string_member (properties, "form") : NULL;
  FrArrivalPath *path;

  if (said == NULL || !g_strv_contains (forms->codes, said))
    return fr_geojson_fail (reading, _ ("a drawing has no form that is known"));
  path = fr_arrivals_add_path (reading->arrivals, reading->n, said);
  path->name = fr_geojson_understand (&fr_geojson_plain[0], properties);
  g_array_append_val (path->points, where);
  reading->n_lines++;
  return TRUE;
}

/* --- features --- */

static gboolean
read_crs (FrGeojsonReading *reading, JsonObject *object)
{
  static const char *const wgs84[] = { "urn:ogc:def:crs:OGC:1.3:CRS84",
                                       "urn:ogc:def:crs:OGC::CRS84",
                                       "OGC:CRS84",
                                       "urn:ogc:def:crs:EPSG::4326",
                                       "EPSG:4326",
                                       NULL };
  JsonObject *crs, *properties;
  const char *name;

  if (!json_object_has_member (object, "crs"))
    return TRUE;
  crs = fr_geojson_object_member (object, "crs");
  properties = crs != NULL ? fr_geojson_object_member (crs, "properties") : NULL;
  name = properties != NULL ? fr_geojson_string_member (properties, "name") : NULL;
  if (name != NULL && g_strv_contains (wgs84, name))
    return TRUE;
  {
    g_autofree char *quoted = fr_json_quote (name != NULL ? name : "?");

    return fr_geojson_fail (
        reading,
        _ ("the coordinates are in “%s”; only WGS 84, longitude and latitude in degrees, is read. "
           "Save the file in that (EPSG:4326) and try again"),
        quoted);
  }
}

static gboolean
read_geometry (FrGeojsonReading *reading, JsonObject *feature, JsonObject *own, JsonObject *properties,
               JsonNode *node)
{
  JsonObject *geometry;
  const char *type;

  if (JSON_NODE_HOLDS_NULL (node))
    return fr_geojson_read_tree (reading, feature, own, properties, NULL);
  if (!JSON_NODE_HOLDS_OBJECT (node))
    return fr_geojson_fail (reading, _ ("its geometry is neither an object nor null"));
  geometry = json_node_get_object (node);
  type = fr_geojson_string_member (geometry, "type");
  if (!read_crs (reading, geometry))
    return FALSE;
  if (g_strcmp0 (type, "Point") == 0)
    {
      JsonNode *coordinates = json_object_get_member (geometry, "coordinates");
      FrEarthPoint where;

      if (!fr_geojson_read_position (reading, coordinates, &where))
        return FALSE;
      return own != NULL && json_object_has_member (own, "feature")
                 ? read_spot (reading, where, properties)
                 : fr_geojson_read_tree (reading, feature, own, properties, coordinates);
    }
  if (g_strcmp0 (type, "LineString") == 0 || g_strcmp0 (type, "MultiLineString") == 0
      || g_strcmp0 (type, "Polygon") == 0 || g_strcmp0 (type, "MultiPolygon") == 0)
    return read_path (reading, type, geometry, properties);
  {
    g_autofree char *quoted = fr_json_quote (type != NULL ? type : "?");

    return fr_geojson_fail (
        reading, _ ("its geometry is a “%s”; a tree is a Point, a path a LineString, an outline a Polygon"),
        quoted);
  }
}

static gboolean
read_feature (FrGeojsonReading *reading, JsonNode *node)
{
  JsonObject *feature = JSON_NODE_HOLDS_OBJECT (node) ? json_node_get_object (node) : NULL;
  JsonNode *own, *properties, *geometry;

  if (feature == NULL || g_strcmp0 (fr_geojson_string_member (feature, "type"), "Feature") != 0)
    return fr_geojson_fail (reading, _ ("this is no object of type Feature"));
  if (!read_crs (reading, feature))
    return FALSE;
  own = json_object_get_member (feature, "frostrun");
  properties = json_object_get_member (feature, "properties");
  geometry = json_object_get_member (feature, "geometry");
  if (own != NULL && !JSON_NODE_HOLDS_OBJECT (own))
    return fr_geojson_fail (reading, _ ("its member frostrun is no object"));
  if (properties != NULL && !JSON_NODE_HOLDS_OBJECT (properties) && !JSON_NODE_HOLDS_NULL (properties))
    return fr_geojson_fail (reading, _ ("its properties are neither an object nor null"));
  if (geometry == NULL)
    return fr_geojson_fail (reading, _ ("it has no geometry; a place that is not known is written null"));
  return read_geometry (
      reading, feature, own != NULL ? json_node_get_object (own) : NULL,
      properties != NULL && JSON_NODE_HOLDS_OBJECT (properties) ? json_node_get_object (properties) : NULL,
      geometry);
}

static gboolean
read_plan (FrGeojsonReading *reading, JsonObject *root)
{
  static const char *const keys[] = { "anchor_lat_deg", "anchor_lon_deg", "anchor_x_m", "anchor_y_m" };
  JsonObject *own = fr_geojson_object_member (root, "frostrun");
  double values[4];

  if (own == NULL)
    return TRUE;
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    {
      JsonNode *node = json_object_get_member (own, keys[i]);

      if (!fr_geojson_is_number (node) || !(fabs (values[i] = json_node_get_double (node)) <= 1e7))
        return fr_geojson_fail (reading, _ ("the plan’s %s is missing or no number"), keys[i]);
    }
  if (!fr_geo_is_point ((FrEarthPoint){ values[0], values[1] }))
    return fr_geojson_fail (reading, _ ("the plan’s anchor is no place on the earth"));
  reading->arrivals->anchor = (FrGeoAnchor){ values[0], values[1], values[2], values[3] };
  return TRUE;
}

static gboolean
read_root (FrGeojsonReading *reading, JsonNode *root)
{
  JsonObject *object = JSON_NODE_HOLDS_OBJECT (root) ? json_node_get_object (root) : NULL;
  const char *type = object != NULL ? fr_geojson_string_member (object, "type") : NULL;
  JsonNode *features;
  JsonArray *array;

  if (g_strcmp0 (type, "Feature") == 0)
    {
      reading->n = 1;
      return read_feature (reading, root);
    }
  if (g_strcmp0 (type, "FeatureCollection") != 0)
    return fr_geojson_fail (
        reading, _ ("the file is JSON, but GeoJSON with trees is a FeatureCollection or a Feature"));
  if (!read_crs (reading, object) || !read_plan (reading, object))
    return FALSE;
  features = json_object_get_member (object, "features");
  if (features == NULL || !JSON_NODE_HOLDS_ARRAY (features))
    return fr_geojson_fail (reading, _ ("the FeatureCollection has no list of features"));
  array = json_node_get_array (features);
  for (guint i = 0; i < json_array_get_length (array); i++)
    {
      reading->n = i + 1;
      if (!read_feature (reading, json_array_get_element (array, i)))
        return FALSE;
    }
  return TRUE;
}

FrArrivals *
fr_geojson_read (const char *text, gsize length, GError **error)
{
  g_autoptr (FrArrivals) arrivals = fr_arrivals_new ();
  g_autoptr (GHashTable) numbers = NULL;
  g_autoptr (JsonNode) root = NULL;
  g_autoptr (GError) first = NULL;
  FrGeojsonReading reading = { .arrivals = arrivals, .error = &first };

  root = fr_json_parse_exact (text, length, &numbers, error);
  if (root == NULL)
    return NULL;
  reading.numbers = numbers;
  if (!read_root (&reading, root))
    {
      g_propagate_error (error, g_steal_pointer (&first));
      return NULL;
    }
  if (reading.n_lines > 0)
    g_ptr_array_add (arrivals->remarks,
                     g_strdup_printf (_ ("Lines and outlines in the file: %u."), reading.n_lines));
  if (reading.n_holes > 0)
    g_ptr_array_add (arrivals->remarks,
                     g_strdup_printf (_ ("Holes in outlines, which are left aside: %u."), reading.n_holes));
  return g_steal_pointer (&arrivals);
}
