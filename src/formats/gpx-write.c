/* Writing GPX 1.1: elements in the schema's order, every value checked against its type once more, for a
 * book's foreign data may have come from anywhere. */
#include "formats/gpx-private.h"

#include "domain/records/ground-points.h"
#include "formats/field-text.h"
#include "formats/foreign.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* In an element's content or an attribute alike; line ends survive the reader's own tidying as references. */
static void
append_escaped (GString *out, const char *text, gboolean is_attribute)
{
  g_autofree char *legal = fr_gpx_legal (text);

  for (const char *p = legal; *p != '\0'; p++)
    switch (*p)
      {
      case '<':
        g_string_append (out, "&lt;");
        break;
      case '>':
        g_string_append (out, "&gt;");
        break;
      case '&':
        g_string_append (out, "&amp;");
        break;
      case '"':
        g_string_append (out, "&quot;");
        break;
      case '\r':
        g_string_append (out, "&#13;");
        break;
      case '\n':
      case '\t':
        if (is_attribute)
          g_string_append_printf (out, "&#%d;", *p);
        else
          g_string_append_c (out, *p);
        break;
      default:
        g_string_append_c (out, *p);
      }
}

static void
append_element (GString *out, const char *name, const char *text)
{
  if (text == NULL)
    return;
  g_string_append_printf (out, "    <%s>", name);
  append_escaped (out, text, FALSE);
  g_string_append_printf (out, "</%s>\n", name);
}

static void
append_attribute (GString *out, const char *name, const char *text)
{
  if (text == NULL)
    return;
  g_string_append_printf (out, " %s=\"", name);
  append_escaped (out, text, TRUE);
  g_string_append_c (out, '"');
}

static void
append_armoured (GString *out, const char *name, const char *text)
{
  g_autofree char *armoured = text != NULL ? fr_gpx_armour (text) : NULL;

  append_attribute (out, name, armoured);
}

/* --- what was foreign --- */

static const char *
member (JsonObject *object, const char *key)
{
  JsonNode *node = object != NULL ? json_object_get_member (object, key) : NULL;

  return node != NULL && JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_STRING
             ? json_node_get_string (node)
             : NULL;
}

static void
append_link (GString *out, const char *href, const char *text, const char *type)
{
  if (href == NULL)
    return;
  g_string_append (out, "    <link");
  append_attribute (out, "href", href);
  if (text == NULL && type == NULL)
    {
      g_string_append (out, "/>\n");
      return;
    }
  g_string_append (out, ">\n");
  append_element (out, "text", text);
  append_element (out, "type", type);
  g_string_append (out, "    </link>\n");
}

static void
append_links (GString *out, JsonObject *foreign)
{
  JsonNode *node = foreign != NULL ? json_object_get_member (foreign, "link") : NULL;

  if (node != NULL && JSON_NODE_HOLDS_ARRAY (node))
    for (guint i = 0; i < json_array_get_length (json_node_get_array (node)); i++)
      {
        JsonNode *link = json_array_get_element (json_node_get_array (node), i);

        if (JSON_NODE_HOLDS_OBJECT (link))
          append_link (out, member (json_node_get_object (link), "href"),
                       member (json_node_get_object (link), "text"),
                       member (json_node_get_object (link), "type"));
      }
  /* Version 1.0 said the same in two elements. */
  append_link (out, member (foreign, "url"), member (foreign, "urlname"), NULL);
}

/* --- our own elements --- */

static gboolean
said_by_waypoint (const FrTree *tree, const FrField *field)
{
  g_autofree char *legal = NULL, *bare = NULL;

  if (strcmp (field->name, "name") == 0)
    {
      legal = fr_gpx_legal (tree->name);
      bare = fr_gpx_strip (legal);
      return g_strcmp0 (bare, tree->name) == 0;
    }
  if (strcmp (field->name, "note") == 0 && tree->note != NULL)
    {
      legal = fr_gpx_legal (tree->note);
      bare = fr_gpx_strip (legal);
      return bare != NULL && strcmp (legal, tree->note) == 0;
    }
  return strcmp (field->name, "elevation_m") == 0;
}

static void
append_own (GString *out, const FrRecord *record)
{
  const FrTree *tree = record->kind->id == FR_KIND_TREE ? (const FrTree *)record : NULL;

  g_string_append_printf (out, "      <fr:%s", record->kind->name);
  append_attribute (out, "uid", record->uid[0] != '\0' ? record->uid : NULL);
  append_attribute (out, "archived", record->archived ? "true" : NULL);
  for (guint i = 0; i < record->kind->n_fields; i++)
    {
      const FrField *field = &record->kind->fields[i];
      g_autofree char *typed = g_strconcat (field->name, "_typed", NULL), *text = NULL;

      if (field->type == FR_FIELD_REF)
        continue;
      if (tree != NULL && strcmp (field->name, "foreign_data") == 0)
        text = fr_foreign_with (tree->foreign_data, "gpx", NULL);
      else if (tree == NULL || !said_by_waypoint (tree, field))
        text = fr_field_text (record, field, 0);
      append_armoured (out, field->name, text);
      if (field->type == FR_FIELD_AMOUNT)
        append_armoured (out, typed, fr_record_amount ((FrRecord *)record, field)->typed);
    }
  g_string_append (out, "/>\n");
}

/* --- a waypoint --- */

/* The schema's longitude ends before 180. */
static char *
longitude_text (double lon_deg, const char *as_read)
{
  char *text = fr_degrees_text (lon_deg, as_read);

  if (strcmp (text, "180") != 0)
    return text;
  g_free (text);
  return g_strdup ("-180");
}

typedef struct
{
  GString *text;
  const FrBushBook *book;
  FrGeoAnchor anchor;
  GHashTable *history; /* id of a tree → GPtrArray of FrRecord */
} Writing;

static void
append_extensions (Writing *writing, const FrTree *tree, JsonObject *foreign)
{
  const GPtrArray *history = g_hash_table_lookup (writing->history, &tree->record.id);
  const char *raw = member (foreign, "extensions");

  g_string_append (writing->text, "    <extensions>\n");
  append_own (writing->text, &tree->record);
  for (guint i = 0; history != NULL && i < history->len; i++)
    append_own (writing->text, history->pdata[i]);
  if (raw != NULL && fr_gpx_is_fragment (raw))
    g_string_append_printf (writing->text, "      %s\n", raw);
  g_string_append (writing->text, "    </extensions>\n");
}

static void
append_value (Writing *writing, const FrGpxElement *element, const FrTree *tree, JsonObject *foreign)
{
  const char *text = member (foreign, element->name);
  g_autofree char *own = NULL;

  if (strcmp (element->name, "ele") == 0)
    own = fr_decimal_text (tree->elevation_m.value, 0);
  else if (strcmp (element->name, "name") == 0)
    {
      /* With the blanks it came with, unless it has been renamed. */
      g_autofree char *bare = text != NULL ? fr_gpx_strip (text) : NULL, *legal = fr_gpx_legal (tree->name);

      own = g_strcmp0 (bare, tree->name) == 0 ? g_strdup (text) : fr_gpx_strip (legal);
    }
  else if (strcmp (element->name, "desc") == 0 && tree->note != NULL)
    {
      g_autofree char *bare = fr_gpx_strip (tree->note);

      own = bare != NULL ? g_strdup (tree->note) : NULL;
    }
  if (own != NULL)
    text = own;
  if (text != NULL && fr_gpx_fits (element, text))
    append_element (writing->text, element->name, text);
}

static void
append_waypoint (Writing *writing, const FrTree *tree, FrEarthPoint where)
{
  g_auto (FrExactJson) json = { NULL, NULL };
  JsonObject *foreign = fr_foreign_read (tree->foreign_data, "gpx", &json);
  g_autofree char *lat = fr_degrees_text (where.lat_deg, member (foreign, "lat")),
                  *lon = longitude_text (where.lon_deg, member (foreign, "lon"));

  g_string_append_printf (writing->text, "  <wpt lat=\"%s\" lon=\"%s\">\n", lat, lon);
  for (guint i = 0; i < fr_gpx_n_elements; i++)
    {
      const FrGpxElement *element = &fr_gpx_elements[i];

      if (!element->in_11)
        continue;
      if (element->type == FR_GPX_LINK)
        append_links (writing->text, foreign);
      else if (element->type == FR_GPX_EXTENSIONS)
        append_extensions (writing, tree, foreign);
      else
        append_value (writing, element, tree, foreign);
    }
  g_string_append (writing->text, "  </wpt>\n");
}

/* --- the file --- */

static void
append_head (Writing *writing)
{
  const char *const names[] = { "anchor_lat_deg", "anchor_lon_deg", "anchor_x_m", "anchor_y_m" };
  const double values[]
      = { writing->anchor.lat_deg, writing->anchor.lon_deg, writing->anchor.x_m, writing->anchor.y_m };

  g_string_append (writing->text, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                                  "<gpx version=\"1.1\" creator=\"Frostrun\" xmlns=\"" FR_GPX_11
                                  "\" xmlns:fr=\"" FR_GPX_OWN "\">\n"
                                  "  <metadata>\n    <extensions>\n      <fr:plan");
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *text = fr_decimal_text (values[i], 0);

      append_attribute (writing->text, names[i], text);
    }
  g_string_append (writing->text, "/>\n    </extensions>\n  </metadata>\n");
}

static void
append_track (Writing *writing, const FrFeature *feature)
{
  g_autofree FrGroundPoint *points = NULL;
  guint n = 0;

  if (!fr_ground_points_parse (feature->points, &points, &n, NULL) || n < 2)
    return;
  g_string_append (writing->text, "  <trk>\n");
  append_element (writing->text, "name", feature->name);
  append_element (writing->text, "type", feature->form);
  g_string_append (writing->text, "    <trkseg>\n");
  for (guint i = 0; i < n; i++)
    {
      FrEarthPoint where;

      if (!fr_geo_from_plan (&writing->anchor, points[i].x_m, points[i].y_m, &where))
        continue;
      {
        g_autofree char *lat = fr_degrees_text (where.lat_deg, NULL),
                        *lon = longitude_text (where.lon_deg, NULL);

        g_string_append_printf (writing->text, "      <trkpt lat=\"%s\" lon=\"%s\"/>\n", lat, lon);
      }
    }
  g_string_append (writing->text, "    </trkseg>\n  </trk>\n");
}

char *
fr_gpx_write (const FrBushBook *book, gboolean with_paths, guint *n_left_out, GError **error)
{
  Writing writing = { .book = book };
  guint left_out = 0;

  if (!fr_bush_book_anchor (book, &writing.anchor))
    {
      g_set_error (
          error, FR_INPUT_ERROR, FR_INPUT_ERROR_FAILED,
          _ ("The plan is not tied to the earth: give the latitude and longitude of one of its points, "
             "or read a file in which a tree has the name of one on the plan."));
      return NULL;
    }
  writing.text = g_string_new (NULL);
  writing.history = fr_bush_book_history (book);
  append_head (&writing);
  for (guint i = 0; book->trees != NULL && i < book->trees->len; i++)
    {
      const FrTree *tree = book->trees->pdata[i];
      FrEarthPoint where;

      if (tree->record.archived)
        continue;
      if (fr_geo_from_plan (&writing.anchor, tree->x_m.value, tree->y_m.value, &where))
        append_waypoint (&writing, tree, where);
      else
        left_out++;
    }
  for (guint i = 0; with_paths && book->features != NULL && i < book->features->len; i++)
    if (!((FrRecord *)book->features->pdata[i])->archived)
      append_track (&writing, book->features->pdata[i]);
  g_string_append (writing.text, "</gpx>\n");
  g_hash_table_unref (writing.history);
  if (n_left_out != NULL)
    *n_left_out = left_out;
  return g_string_free (writing.text, FALSE);
}
