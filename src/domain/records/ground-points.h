/* The corners of something drawn on the ground, kept as text: "x y" a line, metres on the plan, point as
 * decimal mark. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* East and north of the plan's zero. */
typedef struct
{
  double x_m;
  double y_m;
} FrGroundPoint;

/**
 * fr_ground_points_parse:
 * @text: the lines; empty ones are skipped
 * @points_out: (out): the points, to be freed with g_free
 * @bad_line_out: (out) (optional): the first line, from 1, that is not two finite numbers up to 1e7 m; 0 when
 * there is no point at all
 *
 * Returns: FALSE when a line cannot be read or there is none
 */
gboolean
fr_ground_points_parse (const char *text, FrGroundPoint **points_out, guint *n_out, guint *bad_line_out);

/* The text of points, to the millimetre. Free it. */
char *
fr_ground_points_to_text (const FrGroundPoint *points, guint n);

G_END_DECLS
