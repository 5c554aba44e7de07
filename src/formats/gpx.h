/* GPX: waypoints are trees. Version 1.1 is read and written; 1.0 is read too (its url becomes a link). Tracks
 * and routes are read as paths. What a waypoint says that a tree has no place for is kept in its foreign data
 * and comes back on export, and what a tree has that a waypoint has no place for goes into elements of the
 * namespace urn:frostrun:gpx:1, described in docs/files.md. Elements out of the schema's order, a document
 * type, an encoding other than UTF-8, and numbers that cannot be are refused. Nothing outside the text is
 * looked at. */
#pragma once

#include "domain/plan/arrivals.h"
#include "formats/input-error.h"

G_BEGIN_DECLS

#define FR_GPX_SIZE_MAX (20 * 1024 * 1024)
#define FR_GPX_WAYPOINTS_MAX 20000

/* Whether the text begins like GPX, or at least like XML. */
gboolean
fr_gpx_looks_like (const char *text, gsize length);

/* NULL with a sentence that names the line. */
FrArrivals *
fr_gpx_read (const char *text, gsize length, GError **error);

/**
 * fr_gpx_write:
 * @with_paths: the ground's drawings too, as tracks; a drawing of one point is left out
 * @n_left_out: (out) (optional): trees without a place
 *
 * Trees in use, with all of their history. UTF-8; coordinates to 1e-11 degrees, a thousandth of a millimetre.
 *
 * Returns: (transfer full): GPX 1.1, or NULL with a sentence when the plan is not tied to the earth
 */
char *
fr_gpx_write (const FrBushBook *book, gboolean with_paths, guint *n_left_out, GError **error);

G_END_DECLS
