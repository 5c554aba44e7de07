/* The ground in words: what tape and compass said, what is drawn, how the plan is tied to the earth, and how
 * a picture lies under it. All are to be freed. */
#pragma once

#include "domain/records/ground-points.h"
#include "domain/records/kinds.h"
#include "words/say.h"

G_BEGIN_DECLS

/* "12.5 m at 230° by the compass, 216° true."; without a declination the bearing is taken as true, and that
 * is said. */
char *
fr_measured_sentence (double distance_m, double bearing_deg, double declination_deg, const FrSay *say);

/* Whether the corners of that form are an outline and not a line. */
gboolean
fr_form_is_box (const char *form);

/* How large a drawing is: "84 m long, 5 corners", "6 m by 4 m", "a mark"; of outlines with more corners their
 * ground, "52 m² of ground". */
char *
fr_drawing_words (const char *form, const FrGroundPoint *points, guint n, const FrSay *say);

/* Where the plan lies on the earth; @ground may be NULL. */
char *
fr_anchor_sentence (const FrGround *ground, const FrSay *say);

/* What is done with bearings. */
char *
fr_declination_sentence (const FrGround *ground, const FrSay *say);

/* What two known points make of a picture: "1 px is 12 cm, so it covers 480 m by 360 m. Its upper edge looks
 * 3° east of north." NULL when the points do not tell. @width, @height: of the picture in its pixels. */
char *
fr_picture_sentence (double first_column, double first_row, double first_x_m, double first_y_m,
                     double second_column, double second_row, double second_x_m, double second_y_m,
                     double width, double height, const FrSay *say);

G_END_DECLS
