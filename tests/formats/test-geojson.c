/* GeoJSON in and out. What is written is read by json-glib's own parser, which shares nothing with our
 * reader, and held against what RFC 7946 asks; sentences for what must not come in are kept word for word. */
#include "formats/geojson.h"
#include "random-bush.h"

#include <math.h>
#include <string.h>

#define POINT "{\"type\":\"Point\",\"coordinates\":[-72,44]}"
#define FEATURE "{\"type\":\"Feature\",\"geometry\":" POINT ",\"properties\":{}"

static char *
fixture (const char *name)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "fixtures", name, NULL);
  g_autoptr (GError) error = NULL;
  char *text;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  return text;
}

static FrArrivals *
read_text (const char *text)
{
  g_autoptr (GError) error = NULL;
  FrArrivals *arrivals = fr_geojson_read (text, strlen (text), &error);

  g_assert_no_error (error);
  return arrivals;
}

/* --- what the RFC asks (sections 1.4, 3.1.1 to 3.1.6, 3.2, 3.3, 4, 7.1) --- */

static void
assert_position (JsonNode *node)
{
  JsonArray *array;

  g_assert_true (JSON_NODE_HOLDS_ARRAY (node));
  array = json_node_get_array (node);
  g_assert_cmpuint (json_array_get_length (array), >=, 2);
  for (guint i = 0; i < json_array_get_length (array); i++)
    g_assert_true (JSON_NODE_HOLDS_VALUE (json_array_get_element (array, i))
                   && json_node_get_value_type (json_array_get_element (array, i)) != G_TYPE_STRING);
  g_assert_cmpfloat (fabs (json_array_get_double_element (array, 0)), <=, 180);
  g_assert_cmpfloat (fabs (json_array_get_double_element (array, 1)), <=, 90);
}

static void
assert_geometry (JsonObject *geometry)
{
  const char *type = json_object_get_string_member (geometry, "type");
  JsonArray *list;

  g_assert_true (json_object_has_member (geometry, "coordinates"));
  if (strcmp (type, "Point") == 0)
    {
      assert_position (json_object_get_member (geometry, "coordinates"));
      return;
    }
  list = json_object_get_array_member (geometry, "coordinates");
  if (strcmp (type, "Polygon") == 0)
    list = json_array_get_array_element (list, 0);
  else
    g_assert_cmpstr (type, ==, "LineString");
  g_assert_cmpuint (json_array_get_length (list), >=, strcmp (type, "Polygon") == 0 ? 4 : 2);
  for (guint i = 0; i < json_array_get_length (list); i++)
    assert_position (json_array_get_element (list, i));
  if (strcmp (type, "Polygon") == 0)
    g_assert_true (json_node_equal (json_array_get_element (list, 0),
                                    json_array_get_element (list, json_array_get_length (list) - 1)));
}

static void
assert_valid (const char *text)
{
  static const char *const not_in_feature[] = { "coordinates", "geometries", "features", "crs", NULL };
  g_autoptr (JsonParser) parser = json_parser_new ();
  g_autoptr (GError) error = NULL;
  JsonArray *features;

  json_parser_load_from_data (parser, text, -1, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (
      json_object_get_string_member (json_node_get_object (json_parser_get_root (parser)), "type"), ==,
      "FeatureCollection");
  features = json_object_get_array_member (json_node_get_object (json_parser_get_root (parser)), "features");
  for (guint i = 0; i < json_array_get_length (features); i++)
    {
      JsonObject *feature = json_array_get_object_element (features, i);
      JsonNode *id = json_object_get_member (feature, "id"),
               *geometry = json_object_get_member (feature, "geometry"),
               *properties = json_object_get_member (feature, "properties");

      g_assert_cmpstr (json_object_get_string_member (feature, "type"), ==, "Feature");
      g_assert_true (id == NULL
                     || (JSON_NODE_HOLDS_VALUE (id) && json_node_get_value_type (id) != G_TYPE_BOOLEAN));
      g_assert_true (properties != NULL
                     && (JSON_NODE_HOLDS_OBJECT (properties) || JSON_NODE_HOLDS_NULL (properties)));
      g_assert_true (geometry != NULL
                     && (JSON_NODE_HOLDS_OBJECT (geometry) || JSON_NODE_HOLDS_NULL (geometry)));
      if (JSON_NODE_HOLDS_OBJECT (geometry))
        assert_geometry (json_node_get_object (geometry));
      for (guint k = 0; not_in_feature[k] != NULL; k++)
        g_assert_false (json_object_has_member (feature, not_in_feature[k]));
    }
}

/* --- in and out --- */

static void
test_sample (void)
{
  g_autofree char *text = fixture ("sample.geojson");
  g_autoptr (FrArrivals) arrivals = read_text (text);
  const FrArrival *tree = arrivals->trees->pdata[0];

  g_assert_cmpuint (arrivals->trees->len, ==, 1);
  g_assert_cmpuint (tree->line, ==, 1);
  g_assert_cmpfloat (tree->where.lat_deg, ==, 44.2601);
  g_assert_cmpfloat (tree->where.lon_deg, ==, -72.5802);
  g_assert_cmpfloat (tree->tree->elevation_m.value, ==, 181.5);
  g_assert_cmpstr (tree->tree->name, ==, "T01");
  g_assert_cmpstr (tree->tree->foreign_data, ==,
                   "{\"geojson\":{\"id\":\"T01\",\"properties\":{\"name\":\"T01\",\"spouts\":2}}}");
}

static void
test_full (void)
{
  static const char *const kept[] = { "\"id\": 12345678901234567890",
                                      "\"bbox\": [-72.5803,44.26,-72.58,44.2602]",
                                      "\"coordinates\": [-72.5802, 44.26012345678901, 181.5, 7]",
                                      "\"name\": 12",
                                      "\"species\": \"Acer rubrum\"",
                                      "\"girth_cm\": 150",
                                      "\"exact\": 0.10000000000000000001",
                                      "\"zero\": 1.0",
                                      "\"big\": 1e400",
                                      "\"nested\": {\"a\":[1,null,true,{\"b\":\"é \\u0001 🍁\"}]}",
                                      "\"\": \"empty key\"",
                                      "\"note\": \"\"",
                                      "\"none\": null",
                                      "\"title\": \"a foreign member\"",
                                      "\"more\": [1,2.50]",
                                      "\"id\": \"T02\"",
                                      "\"species\": \"red\"",
                                      "\"health\": \"weak\"",
                                      "\"geometry\": null",
                                      "\"coordinates\": [-72.5, 44.25, 99999]" };
  g_autofree char *text = fixture ("full.geojson"), *out = NULL, *again = NULL;
  g_autoptr (FrArrivals) arrivals = NULL;
  g_autoptr (FrArrivals) back = NULL;
  g_autoptr (RandomBush) bush = random_bush_new_empty ();
  g_autoptr (RandomBush) other = random_bush_new_empty ();
  g_autoptr (FrChange) change = NULL;
  g_autoptr (FrChange) second = NULL;
  g_autoptr (FrChange) third = NULL;

  arrivals = read_text (text);
  g_assert_cmpuint (arrivals->trees->len, ==, 4);
  change = random_bush_import (bush, arrivals, FALSE, FALSE);
  second = random_bush_import (bush, arrivals, FALSE, FALSE);
  g_assert_true (fr_change_is_empty (second));
  g_assert_cmpuint (bush->trees->len, ==, 4);
  g_assert_cmpstr (((FrTree *)bush->trees->pdata[0])->name, ==, "12");
  g_assert_cmpstr (((FrTree *)bush->trees->pdata[0])->species, ==, "sugar");
  g_assert_cmpstr (((FrTree *)bush->trees->pdata[1])->species, ==, "red");
  g_assert_cmpuint (bush->girths->len, ==, 1);
  g_assert_cmpfloat (((FrGirth *)bush->girths->pdata[0])->size_m.value, ==, 1.5);
  out = fr_geojson_write (&bush->book, FALSE, NULL, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (kept); i++)
    if (strstr (out, kept[i]) == NULL)
      g_error ("%s is not in %s", kept[i], out);
  back = read_text (out);
  third = random_bush_import (other, back, FALSE, FALSE);
  random_bush_assert_same (bush, other, FALSE, TRUE, 0);
  again = fr_geojson_write (&other->book, FALSE, NULL, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (kept); i++)
    g_assert_nonnull (strstr (again, kept[i]));
  /* No number of json-glib's; without it the rest is as the RFC asks. */
  memcpy (strstr (out, "1e400"), "1e40 ", 5);
  assert_valid (out);
}

static void
test_random_valid (void)
{
  for (guint i = 0; i < 50; i++)
    {
      g_autoptr (GRand) random = g_rand_new_with_seed (2000 + i);
      g_autoptr (RandomBush) bush = random_bush_new (random, 8);
      g_autofree char *out = fr_geojson_write (&bush->book, FALSE, NULL, NULL);

      assert_valid (out);
    }
}

/* A person changes plain properties in another program; ours give way, the file's own stay. */
static void
test_changed_outside (void)
{
  g_autofree char *text = fixture ("sample.geojson"), *out = NULL;
  g_autoptr (FrArrivals) arrivals = read_text (text);
  g_autoptr (RandomBush) bush = random_bush_new_empty ();
  g_autoptr (FrChange) change = random_bush_import (bush, arrivals, FALSE, FALSE);
  g_autoptr (FrChange) second = NULL;
  g_autoptr (FrArrivals) back = NULL;
  FrTree *tree = bush->trees->pdata[0];
  char *at;

  g_free (tree->name);
  tree->name = g_strdup ("renamed");
  out = fr_geojson_write (&bush->book, FALSE, NULL, NULL);
  g_assert_nonnull (strstr (out, "\"name\": \"renamed\""));
  g_assert_nonnull (strstr (out, "\"id\": \"T01\""));
  at = strstr (out, "\"species\": \"sugar\"");
  memcpy (at, "\"species\": \"black\"", strlen ("\"species\": \"black\""));
  back = read_text (out);
  second = random_bush_import (bush, back, TRUE, FALSE);
  g_assert_cmpstr (((FrTree *)bush->trees->pdata[0])->species, ==, "black");
  g_assert_cmpstr (((FrTree *)bush->trees->pdata[0])->name, ==, "renamed");
}

static void
test_paths (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (2);
  g_autoptr (RandomBush) bush = random_bush_new (random, 0);
  g_autoptr (RandomBush) got = random_bush_new_empty ();
  static const char *const drawings[][3]
      = { { "lane", "Lane \"x\"", "0.000 0.000\n12.500 -3.250\n40.000 10.000" },
          { "building", "Shed", "0.000 0.000\n5.000 0.000\n5.000 4.000" },
          { "boiling", "Fire", "3.000 -7.125" } };
  g_autofree char *out = NULL;
  g_autoptr (FrArrivals) arrivals = NULL;
  g_autoptr (FrChange) change = NULL;
  g_autoptr (FrChange) second = NULL;

  for (guint i = 0; i < 3; i++)
    {
      FrFeature *feature = (FrFeature *)fr_record_new (FR_KIND_FEATURE);

      g_free (feature->form);
      feature->form = g_strdup (drawings[i][0]);
      feature->name = g_strdup (drawings[i][1]);
      feature->points = g_strdup (drawings[i][2]);
      g_ptr_array_add (bush->features, feature);
    }
  out = fr_geojson_write (&bush->book, TRUE, NULL, NULL);
  assert_valid (out);
  arrivals = read_text (out);
  g_assert_cmpuint (arrivals->trees->len, ==, 0);
  change = random_bush_import (got, arrivals, FALSE, TRUE);
  second = random_bush_import (got, arrivals, FALSE, TRUE);
  g_assert_true (fr_change_is_empty (second));
  g_assert_cmpuint (got->features->len, ==, 3);
  for (guint i = 0; i < 3; i++)
    {
      const FrFeature *feature = got->features->pdata[i];

      g_assert_cmpstr (feature->form, ==, drawings[i][0]);
      g_assert_cmpstr (feature->name, ==, drawings[i][1]);
      g_assert_cmpstr (feature->points, ==, drawings[i][2]);
    }
}

/* A book's foreign data may be anything. */
static void
test_tampered (void)
{
  static const char *const foreign[] = {
    "{\"geojson\":{\"id\":true,\"properties\":[],\"members\":7,\"heights\":[\"x\",null],\"lon\":\"x\"}}",
    "{\"geojson\":{\"members\":{\"type\":\"Point\",\"geometry\":1,\"features\":[],\"coordinates\":[]}}}",
    "{\"geojson\":{\"members\":{\"bbox\":[\"a\",1,2,3]}}}",
    "{\"geojson\":{\"members\":{\"bbox\":7}}}",
    "{\"geojson\":{\"properties\":{\"name\":{},\"species\":7,\"girth_cm\":\"x\"}}}",
    "{\"geojson\":3}",
    "[]",
    "x"
  };

  for (guint i = 0; i < G_N_ELEMENTS (foreign); i++)
    {
      g_autoptr (GRand) random = g_rand_new_with_seed (1);
      g_autoptr (RandomBush) bush = random_bush_new (random, 1);
      FrTree *tree = bush->trees->pdata[0];
      g_autofree char *out = NULL;

      tree->record.archived = FALSE;
      g_free (tree->foreign_data);
      tree->foreign_data = g_strdup (foreign[i]);
      out = fr_geojson_write (&bush->book, FALSE, NULL, NULL);
      assert_valid (out);
    }
}

/* --- what must not come in --- */

static const struct
{
  const char *name;
  const char *text;
  const char *sentence;
} rows[] = {
  { "empty", "", "the input is empty" },
  { "list", "[]", "the file is JSON, but GeoJSON with trees is a FeatureCollection or a Feature" },
  { "object", "{}", "the file is JSON, but GeoJSON with trees is a FeatureCollection or a Feature" },
  { "bare-point", POINT, "the file is JSON, but GeoJSON with trees is a FeatureCollection or a Feature" },
  { "broken", "{\"type\":\n", "line 2, column 1: the text ends where a value should stand" },
  { "nan",
    "{\"type\":\"Feature\",\"geometry\":{\"type\":\"Point\",\"coordinates\":[NaN,44]},\"properties\":{}}",
    "line 1, column 61: NaN and Infinity are no numbers in JSON" },
  { "no-features", "{\"type\":\"FeatureCollection\"}", "the FeatureCollection has no list of features" },
  { "no-feature", "{\"type\":\"FeatureCollection\",\"features\":[1]}",
    "feature 1: this is no object of type Feature" },
  { "second", "{\"type\":\"FeatureCollection\",\"features\":[" FEATURE "}," POINT "]}",
    "feature 2: this is no object of type Feature" },
  { "no-geometry", "{\"type\":\"Feature\",\"properties\":{}}",
    "feature 1: it has no geometry; a place that is not known is written null" },
  { "properties", "{\"type\":\"Feature\",\"geometry\":null,\"properties\":[]}",
    "feature 1: its properties are neither an object nor null" },
  { "geometry", "{\"type\":\"Feature\",\"geometry\":7,\"properties\":{}}",
    "feature 1: its geometry is neither an object nor null" },
  { "multipoint",
    "{\"type\":\"Feature\",\"geometry\":{\"type\":\"MultiPoint\",\"coordinates\":[[1,2]]},\"properties\":{}}",
    "feature 1: its geometry is a “MultiPoint”; a tree is a Point, a path a LineString, an outline a "
    "Polygon" },
  { "short", "{\"type\":\"Feature\",\"geometry\":{\"type\":\"Point\",\"coordinates\":[1]},\"properties\":{}}",
    "feature 1: a position must be a list [longitude, latitude] or [longitude, latitude, height]" },
  { "text-number",
    "{\"type\":\"Feature\",\"geometry\":{\"type\":\"Point\",\"coordinates\":[\"1\",2]},\"properties\":{}}",
    "feature 1: a position holds something that is no number" },
  { "swapped",
    "{\"type\":\"Feature\",\"geometry\":{\"type\":\"Point\",\"coordinates\":[44,95]},\"properties\":{}}",
    "feature 1: the latitude is 95; it goes from −90 to 90, and stands second in [longitude, latitude]. Are "
    "the two "
    "swapped?" },
  { "lat-1e308",
    "{\"type\":\"Feature\",\"geometry\":{\"type\":\"Point\",\"coordinates\":[1,1e308]},\"properties\":{}}",
    "feature 1: the latitude is 1e+308; it goes from −90 to 90" },
  { "lat-1e999",
    "{\"type\":\"Feature\",\"geometry\":{\"type\":\"Point\",\"coordinates\":[1,1e999]},\"properties\":{}}",
    "feature 1: the latitude is too large for a number; it goes from −90 to 90" },
  { "lon",
    "{\"type\":\"Feature\",\"geometry\":{\"type\":\"Point\",\"coordinates\":[-181,4]},\"properties\":{}}",
    "feature 1: the longitude is -181; it goes from −180 to 180" },
  { "id", FEATURE ",\"id\":[1]}", "feature 1: its id is neither text nor a number" },
  { "crs",
    "{\"type\":\"FeatureCollection\",\"crs\":{\"type\":\"name\",\"properties\":{\"name\":\"EPSG:3857\"}},"
    "\"features\":[]}",
    "the coordinates are in “EPSG:3857”; only WGS 84, longitude and latitude in degrees, is read. Save the "
    "file in that "
    "(EPSG:4326) and try again" },
  { "crs-null", "{\"type\":\"FeatureCollection\",\"crs\":null,\"features\":[]}",
    "the coordinates are in “?”; only WGS 84, longitude and latitude in degrees, is read. Save the file in "
    "that "
    "(EPSG:4326) and try again" },
  { "line",
    "{\"type\":\"Feature\",\"geometry\":{\"type\":\"LineString\",\"coordinates\":[[1,2]]},\"properties\":{}}",
    "feature 1: a line must be a list of at least two positions" },
  { "ring",
    "{\"type\":\"Feature\",\"geometry\":{\"type\":\"Polygon\",\"coordinates\":[[[1,2],[2,2],[2,3]]]},"
    "\"properties\":{}}",
    "feature 1: a ring must have at least four positions, the last being the first again" },
  { "own", FEATURE ",\"frostrun\":7}", "feature 1: its member frostrun is no object" },
  { "own-tree", FEATURE ",\"frostrun\":{\"tree\":{\"species\":\"oak\",\"name\":\"x\"}}}",
    "feature 1: frostrun.tree.species is “oak”; it must be one of sugar, black, red, silver, norway, "
    "bigleaf, boxelder, "
    "other, birch, walnut" },
  { "own-girth", FEATURE ",\"frostrun\":{\"girth\":[{\"measured_on\":\"2024-02-30\",\"size_m\":1}]}}",
    "feature 1: frostrun.girth.measured_on is no date; it must be like 2025-03-08" },
  { "own-list", FEATURE ",\"frostrun\":{\"tap\":{}}}", "feature 1: frostrun holds a tap that is no list" },
  { "plan", "{\"type\":\"FeatureCollection\",\"frostrun\":{\"anchor_lat_deg\":1},\"features\":[]}",
    "the plan’s anchor_lon_deg is missing or no number" },
};

static void
refused (const char *text, gsize length, const char *sentence)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (fr_geojson_read (text, length, &error));
  g_assert_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG);
  if (strcmp (error->message, sentence) != 0)
    g_test_fail_printf ("got %s, wanted %s", error->message, sentence);
}

static void
test_row (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);

  refused (rows[i].text, strlen (rows[i].text), rows[i].sentence);
}

static void
test_many (void)
{
  GString *text = g_string_new ("{\"type\":\"FeatureCollection\",\"features\":[");

  for (guint i = 0; i < 100000; i++)
    g_string_append (text, i == 0 ? FEATURE "}" : "," FEATURE "}");
  g_string_append (text, "]}");
  refused (text->str, text->len, "feature 20001: the file has more than 20000 trees");
  g_string_free (text, TRUE);
}

static void
test_deep (void)
{
  GString *text = g_string_new (FEATURE ",\"x\":");

  for (guint i = 0; i < 100000; i++)
    g_string_append_c (text, '[');
  refused (text->str, text->len, "line 1, column 121: lists and objects are nested more than 32 deep");
  g_string_free (text, TRUE);
}

static void
test_long_name (void)
{
  GString *text = g_string_new ("{\"type\":\"Feature\",\"geometry\":null,\"properties\":{\"name\":\"");

  for (guint i = 0; i < 10 * 1024 * 1024; i++)
    g_string_append_c (text, 'x');
  g_string_append (text, "\"}}");
  refused (text->str, text->len, "feature 1: its name has 10485760 characters; a tree’s may have 120");
  g_string_free (text, TRUE);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geojson/sample", test_sample);
  g_test_add_func ("/geojson/full", test_full);
  g_test_add_func ("/geojson/random-is-valid", test_random_valid);
  g_test_add_func ("/geojson/changed-outside", test_changed_outside);
  g_test_add_func ("/geojson/paths", test_paths);
  g_test_add_func ("/geojson/tampered-is-valid", test_tampered);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *path = g_strdup_printf ("/geojson/refused/%s", rows[i].name);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_row);
    }
  g_test_add_func ("/geojson/refused/many", test_many);
  g_test_add_func ("/geojson/refused/deep", test_deep);
  g_test_add_func ("/geojson/refused/long-name", test_long_name);
  return g_test_run ();
}
