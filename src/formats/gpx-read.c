/* Reading GPX with libxml2's pull reader: waypoints become small trees one at a time, tracks are never held
 * whole. No network, no document type and so no entities but XML's own five; depth, size and number are
 * bounded. The first thing that is not as the schema has it ends the reading with a sentence. */
#include "formats/gpx-private.h"

#include "formats/json-text.h"

#include <glib/gi18n-lib.h>
#include <libxml/xmlreader.h>
#include <math.h>
#include <string.h>

#define DEPTH_MAX 64

/* The parts of a file in the order of the schema. */
enum
{
  STAGE_HEAD,
  STAGE_WAYPOINTS,
  STAGE_ROUTES,
  STAGE_TRACKS,
  STAGE_END
};

/* --- saying what is wrong --- */

gboolean
fr_gpx_fail (FrGpxReading *reading, long line, const char *format, ...)
{
  g_autofree char *what = NULL;
  va_list args;

  if (*reading->error != NULL)
    return FALSE;
  va_start (args, format);
  what = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error (reading->error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, _ ("line %ld: %s"), line, what);
  return FALSE;
}

static void
note_broken (void *data, xmlErrorPtr error)
{
  FrGpxReading *reading = data;

  if (error->level < XML_ERR_ERROR || reading->broken != NULL || error->message == NULL)
    return;
  /* Its own words for this say only the half of it. */
  reading->broken = error->code == XML_ERR_DOCUMENT_END
                        ? g_strdup (_ ("it ends too early or goes on after its end"))
                        : fr_gpx_strip (error->message);
  reading->broken_line = error->line;
}

static long
here (const FrGpxReading *reading)
{
  return xmlTextReaderGetParserLineNumber (reading->reader);
}

/* What may quote the file, made fit for a message. */
static char *
shortened (const char *text)
{
  g_autofree char *start = text != NULL ? g_utf8_make_valid (text, -1) : g_strdup ("");
  gsize length = strcspn (start, "\n");

  for (char *p = start; *p != '\0'; p++)
    if ((guchar)*p < 0x20 || *p == 0x7f)
      *p = '?';
  return length > 120
             ? g_strdup_printf ("%.*s…", (int)(g_utf8_find_prev_char (start, start + 120) - start), start)
             : g_strndup (start, length);
}

static gboolean
fail_broken (FrGpxReading *reading)
{
  g_autofree char *quoted = shortened (reading->broken);

  return fr_gpx_fail (reading, reading->broken_line > 0 ? reading->broken_line : here (reading),
                      _ ("the file is not well-formed XML (%s)"), quoted);
}

/* --- the file --- */

static const char *
reader_name (const FrGpxReading *reading)
{
  return (const char *)xmlTextReaderConstLocalName (reading->reader);
}

static gboolean
reader_in (const FrGpxReading *reading, const char *space)
{
  return g_strcmp0 ((const char *)xmlTextReaderConstNamespaceUri (reading->reader), space) == 0;
}

static gboolean
read_root (FrGpxReading *reading)
{
  g_autofree char *quoted = fr_json_quote (reader_name (reading));
  const char *space = (const char *)xmlTextReaderConstNamespaceUri (reading->reader);
  g_autofree char *space_quoted = fr_json_quote (space != NULL ? space : "");

  if (strcmp (reader_name (reading), "gpx") != 0)
    return fr_gpx_fail (reading, here (reading),
                        _ ("the file is XML, but a GPX file begins with gpx, not with “%s”"), quoted);
  if (!reader_in (reading, FR_GPX_11) && !reader_in (reading, FR_GPX_10))
    return fr_gpx_fail (reading, here (reading),
                        _ ("gpx stands in the namespace “%s”; that of GPX 1.1 is %s"), space_quoted,
                        FR_GPX_11);
  reading->space = reader_in (reading, FR_GPX_11) ? FR_GPX_11 : FR_GPX_10;
  return TRUE;
}

static gboolean
enter_stage (FrGpxReading *reading, guint stage, const char *name)
{
  if (stage < reading->stage)
    return fr_gpx_fail (
        reading, here (reading),
        _ ("%s stands too late: GPX wants metadata, then all wpt, all rte, all trk, and extensions last"),
        name);
  reading->stage = stage;
  return TRUE;
}

static void
begin_path (FrGpxReading *reading)
{
  reading->path = fr_arrivals_add_path (reading->arrivals, (guint)here (reading), "path");
  reading->path->name = g_strdup (reading->path_name);
}

/* An element right under gpx. @whole_out: it is dealt with, go on behind it. */
static gboolean
read_part (FrGpxReading *reading, gboolean *whole_out)
{
  static const char *const head_10[]
      = { "name", "desc", "author", "email", "url", "urlname", "time", "keywords", "bounds", NULL };
  g_autofree char *name = g_strdup (reader_name (reading)), *quoted = fr_json_quote (name);
  gboolean is_10 = strcmp (reading->space, FR_GPX_10) == 0;

  *whole_out = TRUE;
  if (!reader_in (reading, reading->space))
    return is_10
           || fr_gpx_fail (reading, here (reading), _ ("“%s” stands outside of the file’s extensions"),
                           quoted);
  if (strcmp (name, "wpt") == 0)
    {
      xmlNode *node
          = enter_stage (reading, STAGE_WAYPOINTS, name) ? xmlTextReaderExpand (reading->reader) : NULL;

      return node != NULL ? fr_gpx_read_waypoint (reading, node)
                          : *reading->error == NULL && fail_broken (reading);
    }
  if (!is_10 && strcmp (name, "metadata") == 0)
    {
      xmlNode *node = enter_stage (reading, STAGE_HEAD, name) ? xmlTextReaderExpand (reading->reader) : NULL;

      return node != NULL ? fr_gpx_read_metadata (reading, node)
                          : *reading->error == NULL && fail_broken (reading);
    }
  if (strcmp (name, "rte") == 0 || strcmp (name, "trk") == 0)
    {
      gboolean is_route = name[0] == 'r';

      g_clear_pointer (&reading->path_name, g_free);
      reading->path = NULL;
      *(is_route ? &reading->n_routes : &reading->n_tracks) += 1;
      *whole_out = FALSE;
      return enter_stage (reading, is_route ? STAGE_ROUTES : STAGE_TRACKS, name);
    }
  if (!is_10 && strcmp (name, "extensions") == 0)
    return enter_stage (reading, STAGE_END, name);
  if (is_10 && g_strv_contains (head_10, name))
    return enter_stage (reading, STAGE_HEAD, name);
  return fr_gpx_fail (reading, here (reading), _ ("“%s” is no element of GPX"), quoted);
}

/* An element within a track or route. */
static gboolean
read_walk (FrGpxReading *reading, int depth)
{
  const char *name = reader_name (reading);

  if (!reader_in (reading, reading->space))
    return TRUE;
  if (depth == 2 && strcmp (name, "name") == 0)
    {
      xmlChar *text = xmlTextReaderReadString (reading->reader);
      g_autofree char *bare = text != NULL ? fr_gpx_strip ((const char *)text) : NULL;

      xmlFree (text);
      if (bare != NULL && fr_gpx_too_long (bare, "name"))
        return fr_gpx_fail (reading, here (reading),
                            _ ("the name of a path has %ld characters; it may have %.0f"),
                            g_utf8_strlen (bare, -1), fr_kind_field (fr_kind (FR_KIND_FEATURE), "name")->max);
      g_free (reading->path_name);
      reading->path_name = g_steal_pointer (&bare);
    }
  else if (strcmp (name, "trkseg") == 0)
    begin_path (reading);
  else if (strcmp (name, "trkpt") == 0 || strcmp (name, "rtept") == 0)
    {
      xmlChar *lat = xmlTextReaderGetAttribute (reading->reader, (const xmlChar *)"lat"),
              *lon = xmlTextReaderGetAttribute (reading->reader, (const xmlChar *)"lon");
      FrEarthPoint point;
      gboolean ok = fr_gpx_read_point (reading, here (reading), (const char *)lat, (const char *)lon, &point);

      xmlFree (lat);
      xmlFree (lon);
      if (!ok)
        return FALSE;
      if (reading->path == NULL)
        begin_path (reading);
      g_array_append_val (reading->path->points, point);
    }
  return TRUE;
}

static gboolean
read_node (FrGpxReading *reading, gboolean *whole_out)
{
  int depth = xmlTextReaderDepth (reading->reader);

  *whole_out = FALSE;
  switch (xmlTextReaderNodeType (reading->reader))
    {
    case XML_READER_TYPE_DOCUMENT_TYPE:
    case XML_READER_TYPE_ENTITY_REFERENCE:
      return fr_gpx_fail (reading, here (reading),
                          _ ("the file declares a document type or entities; GPX has neither"));
    case XML_READER_TYPE_ELEMENT:
      break;
    default:
      return TRUE;
    }
  if (depth > DEPTH_MAX)
    return fr_gpx_fail (reading, here (reading), _ ("elements are nested more than %d deep"), DEPTH_MAX);
  if (depth == 0)
    return read_root (reading);
  return depth == 1 ? read_part (reading, whole_out) : read_walk (reading, depth);
}

static gboolean
read_all (FrGpxReading *reading)
{
  int state = xmlTextReaderRead (reading->reader);

  while (state == 1)
    {
      gboolean whole;

      if (!read_node (reading, &whole))
        return FALSE;
      state = whole ? xmlTextReaderNext (reading->reader) : xmlTextReaderRead (reading->reader);
    }
  return (state == 0 && reading->broken == NULL) || fail_broken (reading);
}

/* --- before XML is looked at --- */

static gboolean
begins (const char *text, const char *end, const char *with)
{
  gsize length = strlen (with);

  return (gsize)(end - text) >= length && memcmp (text, with, length) == 0;
}

/* A document type comes before the root; what a text further on quotes is none. */
static gboolean
has_doctype (const char *text, const char *end)
{
  const char *p = text;

  while (p < end)
    {
      const char *close;

      if (g_ascii_isspace (*p))
        {
          p++;
          continue;
        }
      if (begins (p, end, "<?"))
        close = g_strstr_len (p, end - p, "?>");
      else if (begins (p, end, "<!--"))
        close = g_strstr_len (p, end - p, "-->");
      else
        return begins (p, end, "<!");
      if (close == NULL)
        return FALSE;
      p = close + (p[1] == '?' ? 2 : 3);
    }
  return FALSE;
}

/* The encoding that the declaration names, NULL when none. Free it. */
static char *
declared_encoding (const char *text, const char *end)
{
  const char *close, *at, *stop;

  if (!begins (text, end, "<?xml") || (close = g_strstr_len (text, end - text, "?>")) == NULL
      || (at = g_strstr_len (text, close - text, "encoding")) == NULL)
    return NULL;
  at += strlen ("encoding");
  while (at < close && (g_ascii_isspace (*at) || *at == '='))
    at++;
  if (*at != '"' && *at != '\'')
    return NULL;
  stop = memchr (at + 1, *at, close - at - 1);
  return stop != NULL ? g_strndup (at + 1, stop - at - 1) : NULL;
}

static gboolean
check_text (FrGpxReading *reading, const char *text, gsize length)
{
  g_autofree char *encoding = NULL;
  const char *bad;

  if (length > FR_GPX_SIZE_MAX)
    {
      g_set_error (reading->error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, _ ("the file is larger than %d MiB"),
                   FR_GPX_SIZE_MAX / (1024 * 1024));
      return FALSE;
    }
  if (!g_utf8_validate_len (text, length, &bad))
    {
      long line = 1;

      for (const char *p = text; p < bad; p++)
        line += *p == '\n';
      return fr_gpx_fail (
          reading, line,
          _ ("the file is not text in UTF-8: see byte %" G_GSIZE_FORMAT ". Save it in UTF-8 and try again"),
          (gsize)(bad - text) + 1);
    }
  encoding = declared_encoding (text, text + length);
  if (encoding != NULL && g_ascii_strcasecmp (encoding, "UTF-8") != 0
      && g_ascii_strcasecmp (encoding, "US-ASCII") != 0)
    {
      g_autofree char *quoted = fr_json_quote (encoding);

      return fr_gpx_fail (reading, 1, _ ("the file says that it is in “%s”; only UTF-8 is read"), quoted);
    }
  if (has_doctype (text, text + length))
    return fr_gpx_fail (reading, 1, _ ("the file declares a document type or entities; GPX has neither"));
  return TRUE;
}

static void
remark_paths (FrGpxReading *reading)
{
  if (reading->n_tracks + reading->n_routes > 0)
    g_ptr_array_add (reading->arrivals->remarks,
                     g_strdup_printf (_ ("Paths in the file: %u."), reading->n_tracks + reading->n_routes));
}

gboolean
fr_gpx_looks_like (const char *text, gsize length)
{
  if (length >= 3 && memcmp (text, "\xEF\xBB\xBF", 3) == 0)
    {
      text += 3;
      length -= 3;
    }
  for (; length > 0 && g_ascii_isspace (*text); length--)
    text++;
  return length > 0 && *text == '<';
}

FrArrivals *
fr_gpx_read (const char *text, gsize length, GError **error)
{
  g_autoptr (FrArrivals) arrivals = fr_arrivals_new ();
  g_autoptr (GError) first = NULL;
  FrGpxReading reading = { .arrivals = arrivals, .error = &first };
  gboolean ok;

  /* A mark of the byte order says nothing in UTF-8. */
  if (length >= 3 && memcmp (text, "\xEF\xBB\xBF", 3) == 0)
    {
      text += 3;
      length -= 3;
    }
  arrivals->by_line = TRUE;
  ok = check_text (&reading, text, length);
  if (ok)
    {
      reading.reader
          = xmlReaderForMemory (text, (int)length, NULL, "UTF-8", XML_PARSE_NONET | XML_PARSE_BIG_LINES);
      xmlTextReaderSetStructuredErrorHandler (reading.reader, note_broken, &reading);
      ok = read_all (&reading);
      xmlFreeTextReader (reading.reader);
    }
  g_free (reading.broken);
  g_free (reading.path_name);
  if (!ok)
    {
      g_propagate_error (error, g_steal_pointer (&first));
      return NULL;
    }
  remark_paths (&reading);
  return g_steal_pointer (&arrivals);
}
