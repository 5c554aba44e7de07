/* What reading and writing GPX share: names, order and grammar of a waypoint's elements. */
#pragma once

#include "formats/gpx.h"

#include <libxml/xmlreader.h>

G_BEGIN_DECLS

#define FR_GPX_11 "http://www.topografix.com/GPX/1/1"
#define FR_GPX_10 "http://www.topografix.com/GPX/1/0"
#define FR_GPX_OWN "urn:frostrun:gpx:1"

typedef enum
{
  FR_GPX_TEXT,
  FR_GPX_DECIMAL, /* from min to max */
  FR_GPX_WHOLE,   /* the same */
  FR_GPX_TIME,    /* xsd:dateTime */
  FR_GPX_FIX,     /* one of five words */
  FR_GPX_LINK,
  FR_GPX_EXTENSIONS
} FrGpxType;

/* An element of a waypoint; the order of the table is that of the schema. */
typedef struct
{
  const char *name;
  FrGpxType type;
  double min;
  double max;
  gboolean repeats;
  gboolean in_10; /* of version 1.0 */
  gboolean in_11;
} FrGpxElement;

extern const FrGpxElement fr_gpx_elements[];
extern const guint fr_gpx_n_elements;

/* Whether @text is of the element's type; blanks around it do not count, except in a text. */
gboolean
fr_gpx_fits (const FrGpxElement *element, const char *text);

/* What it should be, for a message: "a number from 0 to 360". Free it. */
char *
fr_gpx_wanted (const FrGpxElement *element);

/* The text with what XML cannot hold replaced by U+FFFD. Free it. */
char *
fr_gpx_legal (const char *text);

/* Texts in attributes of our own: what XML cannot hold as \uXXXX, a backslash doubled; and back. Free them.
 */
char *
fr_gpx_armour (const char *text);
char *
fr_gpx_disarm (const char *text);

/* A well-formed piece of XML, elements and text, that stands by itself? */
gboolean
fr_gpx_is_fragment (const char *text);

/* Without blanks before and after; NULL when nothing is left. Free it. */
char *
fr_gpx_strip (const char *text);

/* --- reading --- */

typedef struct
{
  xmlTextReaderPtr reader;
  FrArrivals *arrivals;
  const char *space; /* of the file's own elements */
  guint stage;
  FrArrivalPath *path; /* that points go to */
  char *path_name;
  guint n_routes;
  guint n_tracks;
  GError **error;
  char *broken; /* what libxml2 says, and where */
  int broken_line;
} FrGpxReading;

/* Sets the error, unless there is one, to the sentence with its line. Always FALSE. */
gboolean
fr_gpx_fail (FrGpxReading *reading, long line, const char *format, ...) G_GNUC_PRINTF (3, 4);

/* Whether a tree's field of that name cannot hold so much. */
gboolean
fr_gpx_too_long (const char *text, const char *field);

gboolean
fr_gpx_read_point (FrGpxReading *reading, long line, const char *lat, const char *lon, FrEarthPoint *point);
/* A wpt element. */
gboolean
fr_gpx_read_waypoint (FrGpxReading *reading, xmlNode *node);
/* The plan a file came from, out of its metadata. */
gboolean
fr_gpx_read_metadata (FrGpxReading *reading, xmlNode *node);

G_END_DECLS
