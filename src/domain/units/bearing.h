/* Compass bearings as people write and walk them. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * fr_bearing_parse:
 * @text: one of the 32 points of the compass ("SSE", "SbE"), a quadrant ("S 20 E", "N45W"), or degrees from 0
 * to 360 ("157.5", "157,5°"); letters in any case, blanks where one likes
 * @bearing_deg_out: (out): clockwise from north, 0 to under 360; NAN when it cannot be read
 */
gboolean
fr_bearing_parse (const char *text, double *bearing_deg_out);

/**
 * fr_plan_offset:
 * @distance_m: as taped
 * @bearing_deg: as the compass showed
 * @declination_deg: how far east of true north the compass points; NAN: the bearing is true
 * @dx_m_out: (out): east of where one stood
 * @dy_m_out: (out): north of it
 */
void
fr_plan_offset (double distance_m, double bearing_deg, double declination_deg, double *dx_m_out,
                double *dy_m_out);

G_END_DECLS
