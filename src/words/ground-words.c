/* Sizes are said as people pace them: lengths of lines, sides of boxes, and ground for what has more corners.
 */
#include "words/ground-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

static char *
distance (const FrSay *say, double value_m)
{
  return fr_say_amount (say, value_m, FR_QUANTITY_DISTANCE, -1);
}

/* Whole degrees where they are whole: nobody reads a hand compass finer than that. */
static char *
degrees (const FrSay *say, double value_deg)
{
  double rounded = round (10 * value_deg) / 10;
  g_autofree char *number = fr_say_number (say, rounded, rounded == round (rounded) ? 0 : 1);

  return g_strconcat (number, "°", NULL);
}

static double
around (double angle_deg)
{
  double turned = fmod (angle_deg, 360);

  return turned < 0 ? turned + 360 : turned;
}

char *
fr_measured_sentence (double distance_m, double bearing_deg, double declination_deg, const FrSay *say)
{
  g_autofree char *how_far = distance (say, distance_m), *read = degrees (say, around (bearing_deg));
  g_autofree char *true_way = NULL;

  if (isnan (declination_deg))
    return g_strdup_printf (_ ("%s at %s by the compass, taken as true: the declination is unknown."),
                            how_far, read);
  true_way = degrees (say, around (bearing_deg + declination_deg));
  return g_strdup_printf (_ ("%s at %s by the compass, %s true."), how_far, read, true_way);
}

gboolean
fr_form_is_box (const char *form)
{
  return g_strcmp0 (form, "building") == 0 || g_strcmp0 (form, "boiling") == 0
         || g_strcmp0 (form, "store") == 0;
}

static char *
ground_words (const FrGroundPoint *points, guint n, const FrSay *say)
{
  double twice_m2 = 0;
  g_autofree char *number = NULL;
  gboolean metric = say->units.system == FR_SYSTEM_METRIC;

  for (guint i = 0; i < n; i++)
    {
      const FrGroundPoint *a = &points[i], *b = &points[(i + 1) % n];

      twice_m2 += a->x_m * b->y_m - b->x_m * a->y_m;
    }
  number = fr_say_number (say, fabs (twice_m2) / 2 / (metric ? 1 : 0.3048 * 0.3048), 0);
  return g_strdup_printf (metric ? _ ("%s m² of ground") : _ ("%s sq ft of ground"), number);
}

char *
fr_drawing_words (const char *form, const FrGroundPoint *points, guint n, const FrSay *say)
{
  double length_m = 0;
  g_autofree char *text = NULL;

  if (n <= 1)
    return g_strdup (_ ("a mark"));
  if (fr_form_is_box (form) && n == 2)
    {
      g_autofree char *wide = distance (say, fabs (points[1].x_m - points[0].x_m));
      g_autofree char *deep = distance (say, fabs (points[1].y_m - points[0].y_m));

      return g_strdup_printf (_ ("%s by %s"), wide, deep);
    }
  if (fr_form_is_box (form))
    return ground_words (points, n, say);
  for (guint i = 1; i < n; i++)
    length_m += hypot (points[i].x_m - points[i - 1].x_m, points[i].y_m - points[i - 1].y_m);
  text = distance (say, length_m);
  return g_strdup_printf (dngettext (GETTEXT_PACKAGE, "%s long, %u corner", "%s long, %u corners", n), text,
                          n);
}

/* --- the tie to the earth --- */

char *
fr_anchor_sentence (const FrGround *ground, const FrSay *say)
{
  g_autofree char *lat = NULL, *lon = NULL, *x = NULL, *y = NULL;

  if (ground == NULL || isnan (ground->anchor_lat_deg.value) || isnan (ground->anchor_lon_deg.value)
      || isnan (ground->anchor_x_m.value) || isnan (ground->anchor_y_m.value))
    return g_strdup (_ ("The plan floats: no point of it is known on the earth yet. Files from a receiver "
                        "need one."));
  lat = fr_say_latitude (say, ground->anchor_lat_deg.value);
  lon = fr_say_longitude (say, ground->anchor_lon_deg.value);
  if (ground->anchor_x_m.value == 0 && ground->anchor_y_m.value == 0)
    return g_strdup_printf (_ ("The plan’s zero lies at %s, %s."), lat, lon);
  x = distance (say, fabs (ground->anchor_x_m.value));
  y = distance (say, fabs (ground->anchor_y_m.value));
  return g_strdup_printf (
      ground->anchor_x_m.value < 0
          ? (ground->anchor_y_m.value < 0 ? _ ("%s west and %s south of zero lies at %s, %s.")
                                          : _ ("%s west and %s north of zero lies at %s, %s."))
          : (ground->anchor_y_m.value < 0 ? _ ("%s east and %s south of zero lies at %s, %s.")
                                          : _ ("%s east and %s north of zero lies at %s, %s.")),
      x, y, lat, lon);
}

char *
fr_declination_sentence (const FrGround *ground, const FrSay *say)
{
  double value_deg = ground != NULL ? ground->declination_deg.value : NAN;
  g_autofree char *text = NULL;

  if (isnan (value_deg))
    return g_strdup (_ ("Unknown, so bearings are taken as true."));
  if (value_deg == 0)
    return g_strdup (_ ("The needle points to true north."));
  text = degrees (say, fabs (value_deg));
  return g_strdup_printf (value_deg < 0 ? _ ("The needle points %s west of true north.")
                                        : _ ("The needle points %s east of true north."),
                          text);
}

/* --- the picture --- */

char *
fr_picture_sentence (double first_column, double first_row, double first_x_m, double first_y_m,
                     double second_column, double second_row, double second_x_m, double second_y_m,
                     double width, double height, const FrSay *say)
{
  double across = second_column - first_column, down = second_row - first_row;
  double east_m = second_x_m - first_x_m, north_m = second_y_m - first_y_m;
  double length = hypot (across, down), length_m = hypot (east_m, north_m), turn_deg;
  g_autofree char *one = NULL, *wide = NULL, *high = NULL, *turn = NULL, *size = NULL;

  if (!(length > 0) || !(length_m > 0))
    return NULL;
  /* Compass way of the line on the plan, less its way in the picture were its upper edge north. */
  turn_deg = around (180 / G_PI * (atan2 (east_m, north_m) - atan2 (across, -down)));
  if (turn_deg > 180)
    turn_deg -= 360;
  one = fr_say_amount (say, length_m / length, FR_QUANTITY_LENGTH, -1);
  wide = distance (say, width * length_m / length);
  high = distance (say, height * length_m / length);
  size = g_strdup_printf (_ ("1 px is %s, so it covers %s by %s."), one, wide, high);
  if (fabs (turn_deg) < 0.05)
    return g_strdup_printf (_ ("%s North is up in it."), size);
  turn = degrees (say, fabs (turn_deg));
  return g_strdup_printf (turn_deg > 0 ? _ ("%s Up in it is %s east of north.")
                                       : _ ("%s Up in it is %s west of north."),
                          size, turn);
}
