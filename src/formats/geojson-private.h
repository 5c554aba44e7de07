/* What reading and writing GeoJSON share: the plain properties. */
#pragma once

#include "formats/foreign.h"
#include "formats/geojson.h"

G_BEGIN_DECLS

/* A property that means a field of the tree, or its latest girth. */
typedef struct
{
  const char *key;
  const char *field; /* NULL: the girth, in cm */
} FrGeojsonPlain;

extern const FrGeojsonPlain fr_geojson_plain[];
extern const guint fr_geojson_n_plain;

/* What a property of ours would be read as: the field's text, the girth's number; NULL when it cannot be, or
 * is not there. Free it. */
char *
fr_geojson_understand (const FrGeojsonPlain *plain, JsonObject *properties);

/* Whether a bbox is a box around the place; a wrong one is not worth keeping. */
gboolean
fr_geojson_box_holds (JsonNode *box, FrEarthPoint where);

/* --- reading --- */

typedef struct
{
  FrArrivals *arrivals;
  GHashTable *numbers;
  guint n; /* of the feature, from 1 */
  guint n_lines;
  guint n_holes;
  GError **error;
} FrGeojsonReading;

/* Sets the error, unless there is one, to the sentence with the feature's number. Always FALSE. */
gboolean
fr_geojson_fail (FrGeojsonReading *reading, const char *format, ...) G_GNUC_PRINTF (2, 3);

/* @node may be NULL. */
gboolean
fr_geojson_is_string (JsonNode *node);
gboolean
fr_geojson_is_number (JsonNode *node);
/* NULL when it is not there or something else. */
const char *
fr_geojson_string_member (JsonObject *object, const char *key);
JsonObject *
fr_geojson_object_member (JsonObject *object, const char *key);

gboolean
fr_geojson_read_position (FrGeojsonReading *reading, JsonNode *node, FrEarthPoint *point);
/* @own, @properties and @coordinates may be NULL. */
gboolean
fr_geojson_read_tree (FrGeojsonReading *reading, JsonObject *feature, JsonObject *own, JsonObject *properties,
                      JsonNode *coordinates);

G_END_DECLS
