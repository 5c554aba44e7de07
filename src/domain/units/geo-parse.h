/* Latitude and longitude as people copy them: from a receiver, a map sheet, a message. */
#pragma once

#include "domain/units/geo.h"

G_BEGIN_DECLS

/**
 * fr_degrees_parse:
 * @text: degrees, or degrees and minutes, or with seconds, only the last with a fraction, parted by blanks or
 * their signs; the side as a sign or a letter before or behind: "44.2601", "-72,58", "44° 15' 36\" N", "W
 * 72 34.8"
 * @is_latitude: north and south, to 90; else east and west, to 180
 * @value_deg_out: (out): NAN when it cannot be read
 */
gboolean
fr_degrees_parse (const char *text, gboolean is_latitude, double *value_deg_out);

/**
 * fr_earth_point_parse:
 * @text: latitude and longitude in this order, each as above, parted by a blank, a comma or a semicolon
 *
 * Returns: FALSE when it cannot be read, or can in two ways
 */
gboolean
fr_earth_point_parse (const char *text, FrEarthPoint *point_out);

G_END_DECLS
