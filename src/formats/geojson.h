/* GeoJSON (RFC 7946): a Feature with a Point, or without a geometry, is a tree; lines and outlines are paths.
 * Properties, id and foreign members are kept in the tree's foreign data, numbers with all their digits, and
 * come back on export. All that a tree has goes into a foreign member "frostrun" of its Feature; the
 * commonest of it stands in plain properties as well, where the file they came from has none of that name.
 * See docs/files.md. */
#pragma once

#include "domain/plan/arrivals.h"
#include "formats/json-input.h"

G_BEGIN_DECLS

#define FR_GEOJSON_FEATURES_MAX 20000

/* NULL with a sentence that names the feature, counted from 1. */
FrArrivals *
fr_geojson_read (const char *text, gsize length, GError **error);

/**
 * fr_geojson_write:
 * @with_paths: the ground's drawings too
 * @n_left_out: (out) (optional): trees without a place; they are written with a geometry of null
 *
 * Trees in use, with all of their history.
 *
 * Returns: (transfer full): a FeatureCollection, or NULL with a sentence when the plan is not tied to the
 * earth
 */
char *
fr_geojson_write (const FrBushBook *book, gboolean with_paths, guint *n_left_out, GError **error);

G_END_DECLS
