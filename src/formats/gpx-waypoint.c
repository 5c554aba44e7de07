/* One waypoint, as a tree of libxml2's, into an arrival: what a tree has goes into it, everything else into
 * its foreign data, and elements of our own back to where they came from. */
#include "formats/gpx-private.h"

#include "formats/field-text.h"
#include "formats/foreign.h"
#include "formats/json-output.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* --- texts of elements --- */

static gboolean
is_element (const xmlNode *node)
{
  return node->type == XML_ELEMENT_NODE;
}

static gboolean
in_space (const xmlNode *node, const char *space)
{
  return node->ns != NULL && g_strcmp0 ((const char *)node->ns->href, space) == 0;
}

static gboolean
has_elements (const xmlNode *node)
{
  for (const xmlNode *child = node->children; child != NULL; child = child->next)
    if (is_element (child))
      return TRUE;
  return FALSE;
}

static char *
content (xmlNode *node)
{
  xmlChar *text = xmlNodeGetContent (node);
  char *copy = g_strdup ((const char *)text);

  xmlFree (text);
  return copy;
}

static char *
attribute (xmlNode *node, const char *name)
{
  xmlChar *text = xmlGetNoNsProp (node, (const xmlChar *)name);
  char *copy = g_strdup ((const char *)text);

  xmlFree (text);
  return copy;
}

static void
add_member (GString *json, const char *key, const char *value)
{
  if (json->len > 1)
    g_string_append_c (json, ',');
  fr_output_append_quoted (json, key);
  g_string_append_c (json, ':');
  fr_output_append_quoted (json, value);
}

/* --- places --- */

static gboolean
read_degrees (FrGpxReading *reading, long line, const char *name, const char *text, double most, double *deg)
{
  g_autofree char *bare = text != NULL ? fr_gpx_strip (text) : NULL;
  g_autofree char *quoted = fr_json_quote (text != NULL ? text : "");

  if (text == NULL)
    return fr_gpx_fail (reading, line, _ ("%s is missing"), name);
  if (bare == NULL || !fr_decimal_read (bare, 0, deg))
    return fr_gpx_fail (reading, line, _ ("%s is “%s”, which is no number of degrees"), name, quoted);
  if (fabs (*deg) <= most)
    return TRUE;
  return fr_gpx_fail (reading, line,
                      most == 90 ? (fabs (*deg) <= 180
                                        ? _ ("%s is %s; latitude goes from −90 to 90. Are the two swapped?")
                                        : _ ("%s is %s; latitude goes from −90 to 90"))
                                 : _ ("%s is %s; longitude goes from −180 to 180"),
                      name, quoted);
}

gboolean
fr_gpx_read_point (FrGpxReading *reading, long line, const char *lat, const char *lon, FrEarthPoint *point)
{
  return read_degrees (reading, line, "lat", lat, 90, &point->lat_deg)
         && read_degrees (reading, line, "lon", lon, 180, &point->lon_deg);
}

/* More digits than an export writes are kept apart. */
static void
keep_digits (GString *foreign, const char *key, double deg)
{
  g_autofree char *kept = fr_degrees_kept (deg);

  if (kept != NULL)
    add_member (foreign, key, kept);
}

/* --- our own elements --- */

static gboolean
read_own_attribute (FrGpxReading *reading, xmlNode *node, FrRecord *record, FrArrival *arrival,
                    const char *name, const char *value)
{
  gboolean typed = g_str_has_suffix (name, "_typed");
  g_autofree char *bare = typed ? g_strndup (name, strlen (name) - strlen ("_typed")) : g_strdup (name);
  const FrField *field = fr_kind_field (record->kind, bare);
  g_autofree char *text = fr_gpx_disarm (value), *quoted = fr_json_quote (value);

  if (strcmp (name, "uid") == 0)
    {
      if (strlen (value) != 32 || strspn (value, "0123456789abcdef") != 32)
        return fr_gpx_fail (reading, xmlGetLineNo (node), _ ("uid must be 32 digits 0 to 9 and a to f"));
      memcpy (record->uid, value, sizeof record->uid);
      return TRUE;
    }
  if (strcmp (name, "archived") == 0)
    {
      record->archived = strcmp (value, "true") == 0;
      return TRUE;
    }
  if (field == NULL || field->type == FR_FIELD_REF || (typed && field->type != FR_FIELD_AMOUNT))
    {
      g_autofree char *called = fr_json_quote (name);

      return fr_gpx_fail (reading, xmlGetLineNo (node), _ ("a %s of Frostrun’s has no “%s”"),
                          record->kind->name, called);
    }
  if (typed)
    fr_record_set_amount (record, field, fr_record_amount (record, field)->value, text);
  else if (!fr_field_read (record, field, text, 0))
    return fr_gpx_fail (reading, xmlGetLineNo (node), _ ("%s is “%s”, which it cannot be"), name, quoted);
  if (arrival != NULL)
    fr_arrival_say (arrival, bare);
  return TRUE;
}

/* What XML cannot hold, or another program may have changed: the exact text counts only while it still looks
 * like what the waypoint itself says. */
static gboolean
is_stale (const char *name, const char *value, const FrArrival *arrival)
{
  g_autofree char *text = fr_gpx_disarm (value), *legal = fr_gpx_legal (text), *bare = fr_gpx_strip (legal);

  if (strcmp (name, "name") == 0)
    return g_strcmp0 (bare, arrival->tree->name) != 0;
  if (strcmp (name, "note") == 0)
    return bare == NULL ? arrival->tree->note != NULL : g_strcmp0 (legal, arrival->tree->note) != 0;
  return FALSE;
}

static gboolean
read_own (FrGpxReading *reading, xmlNode *node, FrArrival *arrival)
{
  const FrKind *kind = fr_kind_by_name ((const char *)node->name);
  gboolean is_tree = kind != NULL && kind->id == FR_KIND_TREE;
  FrRecord *record;

  if (!is_tree
      && (kind == NULL
          || (kind->id != FR_KIND_GIRTH && kind->id != FR_KIND_TAP && kind->id != FR_KIND_YIELD)))
    {
      g_autofree char *quoted = fr_json_quote ((const char *)node->name);

      return fr_gpx_fail (reading, xmlGetLineNo (node), _ ("“%s” is no element of Frostrun’s"), quoted);
    }
  record = is_tree ? &arrival->tree->record : fr_record_new (kind->id);
  if (!is_tree)
    g_ptr_array_add (arrival->history, record);
  for (xmlAttr *attr = node->properties; attr != NULL; attr = attr->next)
    {
      g_autofree char *value = attribute (node, (const char *)attr->name);

      if (attr->ns != NULL || value == NULL
          || (is_tree && is_stale ((const char *)attr->name, value, arrival)))
        continue;
      if (!read_own_attribute (reading, node, record, is_tree ? arrival : NULL, (const char *)attr->name,
                               value))
        return FALSE;
    }
  return TRUE;
}

/* --- foreign elements --- */

/* The element by itself, with every namespace that was in force around it. */
static void
append_raw (GString *raw, xmlNode *node)
{
  xmlDocPtr doc = xmlNewDoc ((const xmlChar *)"1.0");
  xmlNode *copy = xmlDocCopyNode (node, doc, 1);
  xmlNsPtr *spaces = xmlGetNsList (node->doc, node);
  xmlBufferPtr buffer = xmlBufferCreate ();

  xmlDocSetRootElement (doc, copy);
  for (guint i = 0; spaces != NULL && spaces[i] != NULL; i++)
    if (spaces[i]->prefix != NULL && strcmp ((const char *)spaces[i]->href, FR_GPX_OWN) != 0
        && xmlSearchNs (doc, copy, spaces[i]->prefix) == NULL)
      xmlNewNs (copy, spaces[i]->href, spaces[i]->prefix);
  /* Without one of its own an element of no namespace would fall into that of GPX. */
  if (copy->ns == NULL && xmlSearchNs (doc, copy, NULL) == NULL)
    xmlNewNs (copy, (const xmlChar *)"", NULL);
  xmlNodeDump (buffer, doc, copy, 0, 0);
  g_string_append (raw, (const char *)xmlBufferContent (buffer));
  xmlBufferFree (buffer);
  xmlFree (spaces);
  xmlFreeDoc (doc);
}

static gboolean
read_extensions (FrGpxReading *reading, xmlNode *node, FrArrival *arrival, GString *raw)
{
  for (xmlNode *child = node->children; child != NULL; child = child->next)
    {
      if (!is_element (child))
        continue;
      if (!in_space (child, FR_GPX_OWN))
        append_raw (raw, child);
      else if (!read_own (reading, child, arrival))
        return FALSE;
    }
  return TRUE;
}

static gboolean
read_link (FrGpxReading *reading, xmlNode *node, GString *links)
{
  g_autofree char *href = attribute (node, "href");
  g_autoptr (GString) json = g_string_new ("{");
  const char *const parts[] = { "text", "type" };
  guint next = 0;

  if (href == NULL)
    return fr_gpx_fail (reading, xmlGetLineNo (node), _ ("a link has no href"));
  add_member (json, "href", href);
  for (xmlNode *child = node->children; child != NULL; child = child->next)
    {
      g_autofree char *text = NULL;

      if (!is_element (child))
        continue;
      while (next < G_N_ELEMENTS (parts) && strcmp ((const char *)child->name, parts[next]) != 0)
        next++;
      if (next == G_N_ELEMENTS (parts) || !in_space (child, reading->space) || has_elements (child))
        return fr_gpx_fail (reading, xmlGetLineNo (child),
                            _ ("a link holds text and type, in this order, and nothing else"));
      text = content (child);
      add_member (json, parts[next++], text);
    }
  g_string_append_printf (links, "%s%s}", links->len > 0 ? "," : "", json->str);
  return TRUE;
}

/* --- a waypoint --- */

gboolean
fr_gpx_too_long (const char *text, const char *field)
{
  return g_utf8_strlen (text, -1) > (glong)fr_kind_field (fr_kind (FR_KIND_TREE), field)->max;
}

static gboolean
read_name (FrGpxReading *reading, long line, const char *text, FrArrival *arrival, GString *foreign)
{
  g_autofree char *bare = fr_gpx_strip (text);

  if (bare == NULL)
    return TRUE;
  if (fr_gpx_too_long (bare, "name"))
    {
      g_autofree char *quoted = fr_json_quote (bare);

      return fr_gpx_fail (reading, line, _ ("the name “%s” has %ld characters; a tree’s may have %.0f"),
                          quoted, g_utf8_strlen (bare, -1),
                          fr_kind_field (fr_kind (FR_KIND_TREE), "name")->max);
    }
  if (strcmp (bare, text) != 0)
    add_member (foreign, "name", text);
  arrival->tree->name = g_steal_pointer (&bare);
  fr_arrival_say (arrival, "name");
  return TRUE;
}

static void
read_elevation (const char *text, FrArrival *arrival, GString *foreign)
{
  const FrField *field = fr_kind_field (fr_kind (FR_KIND_TREE), "elevation_m");
  g_autofree char *bare = fr_gpx_strip (text);
  double value;

  if (fr_decimal_read (bare, 0, &value) && value >= field->min && value <= field->max)
    {
      fr_amount_set (&arrival->tree->elevation_m, value, NULL);
      fr_arrival_say (arrival, "elevation_m");
    }
  else
    add_member (foreign, "ele", bare);
}

static gboolean
read_value (FrGpxReading *reading, const FrGpxElement *element, xmlNode *node, FrArrival *arrival,
            GString *foreign)
{
  long line = xmlGetLineNo (node);
  g_autofree char *text = NULL, *bare = NULL;

  if (has_elements (node))
    return fr_gpx_fail (reading, line, _ ("%s holds other elements; it must be %s"), element->name, "text");
  text = content (node);
  if (!fr_gpx_fits (element, text))
    {
      g_autofree char *quoted = fr_json_quote (text), *wanted = fr_gpx_wanted (element);

      return fr_gpx_fail (reading, line, _ ("%s is “%s”; it must be %s"), element->name, quoted, wanted);
    }
  if (strcmp (element->name, "name") == 0)
    return read_name (reading, line, text, arrival, foreign);
  bare = fr_gpx_strip (text);
  if (strcmp (element->name, "ele") == 0)
    read_elevation (text, arrival, foreign);
  else if (strcmp (element->name, "desc") == 0 && bare != NULL && !fr_gpx_too_long (text, "note"))
    {
      arrival->tree->note = g_strdup (text);
      fr_arrival_say (arrival, "note");
    }
  else
    add_member (foreign, element->name, element->type == FR_GPX_TEXT ? text : bare);
  return TRUE;
}

/* The element's place in the order, from @next on; −1 with a sentence. */
static int
find_element (FrGpxReading *reading, const xmlNode *node, guint next)
{
  gboolean is_10 = strcmp (reading->space, FR_GPX_10) == 0;
  g_autofree char *quoted = fr_json_quote ((const char *)node->name);

  for (guint i = 0; i < fr_gpx_n_elements; i++)
    {
      const FrGpxElement *element = &fr_gpx_elements[i];

      if (strcmp (element->name, (const char *)node->name) != 0 || !(is_10 ? element->in_10 : element->in_11))
        continue;
      if (i >= next)
        return (int)i;
      fr_gpx_fail (
          reading, xmlGetLineNo ((xmlNode *)node),
          i + 1 == next
              ? _ ("%s stands twice in one waypoint")
              : _ ("%s stands too late: GPX wants a waypoint’s elements in order, ele, time, …, name, cmt, "
                   "desc, src, link, sym, type, …, extensions"),
          quoted);
      return -1;
    }
  fr_gpx_fail (reading, xmlGetLineNo ((xmlNode *)node), _ ("“%s” is no element of a GPX waypoint"), quoted);
  return -1;
}

static gboolean
read_children (FrGpxReading *reading, xmlNode *node, FrArrival *arrival, GString *foreign)
{
  g_autoptr (GString) raw = g_string_new (NULL);
  g_autoptr (GString) links = g_string_new (NULL);
  xmlNode *extensions = NULL;
  guint next = 0;

  for (xmlNode *child = node->children; child != NULL; child = child->next)
    {
      const FrGpxElement *element;
      int at;

      if (!is_element (child))
        continue;
      if (!in_space (child, reading->space))
        {
          /* 1.0 has foreign elements right in the waypoint, 1.1 in its extensions only. */
          if (strcmp (reading->space, FR_GPX_10) != 0)
            {
              g_autofree char *quoted = fr_json_quote ((const char *)child->name);

              return fr_gpx_fail (reading, xmlGetLineNo (child),
                                  _ ("“%s” stands outside of the waypoint’s extensions"), quoted);
            }
          append_raw (raw, child);
          continue;
        }
      at = find_element (reading, child, next);
      if (at < 0)
        return FALSE;
      element = &fr_gpx_elements[at];
      next = (guint)at + !element->repeats;
      if (element->type == FR_GPX_EXTENSIONS)
        extensions = child;
      else if (element->type == FR_GPX_LINK ? !read_link (reading, child, links)
                                            : !read_value (reading, element, child, arrival, foreign))
        return FALSE;
    }
  if (extensions != NULL && !read_extensions (reading, extensions, arrival, raw))
    return FALSE;
  if (links->len > 0)
    {
      g_string_append_printf (foreign, "%s\"link\":[%s]", foreign->len > 1 ? "," : "", links->str);
    }
  if (raw->len > 0)
    add_member (foreign, "extensions", raw->str);
  return TRUE;
}

static gboolean
check_attributes (FrGpxReading *reading, xmlNode *node)
{
  for (const xmlAttr *attr = node->properties; attr != NULL; attr = attr->next)
    if (attr->ns == NULL && strcmp ((const char *)attr->name, "lat") != 0
        && strcmp ((const char *)attr->name, "lon") != 0)
      {
        g_autofree char *quoted = fr_json_quote ((const char *)attr->name);

        return fr_gpx_fail (reading, xmlGetLineNo (node), _ ("a waypoint has lat and lon, and no “%s”"),
                            quoted);
      }
  return TRUE;
}

gboolean
fr_gpx_read_waypoint (FrGpxReading *reading, xmlNode *node)
{
  long line = xmlGetLineNo (node);
  g_autofree char *lat = attribute (node, "lat"), *lon = attribute (node, "lon");
  g_autoptr (GString) foreign = g_string_new ("{");
  FrArrival *arrival;

  if (reading->arrivals->trees->len == FR_GPX_WAYPOINTS_MAX)
    return fr_gpx_fail (reading, line, _ ("the file has more than %d waypoints"), FR_GPX_WAYPOINTS_MAX);
  arrival = fr_arrivals_add_tree (reading->arrivals, (guint)line);
  if (!check_attributes (reading, node) || !fr_gpx_read_point (reading, line, lat, lon, &arrival->where))
    return FALSE;
  keep_digits (foreign, "lat", arrival->where.lat_deg);
  keep_digits (foreign, "lon", arrival->where.lon_deg);
  if (!read_children (reading, node, arrival, foreign))
    return FALSE;
  if (foreign->len > 1)
    {
      g_autofree char *others = g_steal_pointer (&arrival->tree->foreign_data);

      g_string_append_c (foreign, '}');
      arrival->tree->foreign_data = fr_foreign_with (others, "gpx", foreign->str);
    }
  if (arrival->tree->foreign_data != NULL)
    fr_arrival_say (arrival, "foreign_data");
  if (arrival->tree->foreign_data != NULL && fr_gpx_too_long (arrival->tree->foreign_data, "foreign_data"))
    return fr_gpx_fail (
        reading, line, _ ("this waypoint says %ld characters that a tree has no place for; %.0f can be kept"),
        g_utf8_strlen (arrival->tree->foreign_data, -1),
        fr_kind_field (fr_kind (FR_KIND_TREE), "foreign_data")->max);
  return TRUE;
}

/* --- the plan a file came from --- */

static gboolean
read_plan (FrGpxReading *reading, xmlNode *node)
{
  const char *const names[] = { "anchor_lat_deg", "anchor_lon_deg", "anchor_x_m", "anchor_y_m" };
  double values[4];

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *text = attribute (node, names[i]);

      if (text == NULL || !fr_decimal_read (text, 0, &values[i]) || fabs (values[i]) > 1e7)
        return fr_gpx_fail (reading, xmlGetLineNo (node), _ ("the plan’s %s is missing or no number"),
                            names[i]);
    }
  if (!fr_geo_is_point ((FrEarthPoint){ values[0], values[1] }))
    return fr_gpx_fail (reading, xmlGetLineNo (node), _ ("the plan’s anchor is no place on the earth"));
  reading->arrivals->anchor = (FrGeoAnchor){ values[0], values[1], values[2], values[3] };
  return TRUE;
}

gboolean
fr_gpx_read_metadata (FrGpxReading *reading, xmlNode *node)
{
  for (xmlNode *child = node->children; child != NULL; child = child->next)
    if (is_element (child) && in_space (child, reading->space)
        && strcmp ((const char *)child->name, "extensions") == 0)
      for (xmlNode *own = child->children; own != NULL; own = own->next)
        if (is_element (own) && in_space (own, FR_GPX_OWN) && strcmp ((const char *)own->name, "plan") == 0
            && !read_plan (reading, own))
          return FALSE;
  return TRUE;
}
