/* A text is taken apart into numbers, sides and signs; what they may be together is checked after. Two values
 * in one text are found by trying each place between them: only one may make sense. */
#include "domain/units/geo-parse.h"

#include <math.h>
#include <string.h>

#define LONGEST 64

typedef struct
{
  double parts[3];
  guint n_parts;
  gboolean fraction; /* the part read last has one */
  gboolean signed_;
  gboolean negative;
  char side; /* N, S, E, W, or 0 */
} Angle;

static gboolean
read_number (const char **at, Angle *angle)
{
  char digits[LONGEST];
  gsize n = 0, n_points = 0;
  const char *p = *at;

  for (; g_ascii_isdigit (*p) || ((*p == '.' || *p == ',') && g_ascii_isdigit (p[1])); p++)
    {
      gboolean is_point = !g_ascii_isdigit (*p);

      n_points += is_point;
      if (n == LONGEST - 1 || n_points > 1)
        return FALSE;
      digits[n++] = is_point ? '.' : *p;
    }
  digits[n] = '\0';
  if (angle->n_parts == 3 || angle->fraction)
    return FALSE;
  angle->parts[angle->n_parts++] = g_ascii_strtod (digits, NULL);
  angle->fraction = n_points > 0;
  *at = p;
  return TRUE;
}

/* The length of a sign that parts degrees, minutes and seconds, or 0. */
static gsize
separator (const char *at)
{
  static const char *const signs[]
      = { " ", "\t", "°", "º", "'", "′", "’", "\"", "″", "”", "\u00a0", "\u202f" };

  for (guint i = 0; i < G_N_ELEMENTS (signs); i++)
    if (g_str_has_prefix (at, signs[i]))
      return strlen (signs[i]);
  return 0;
}

static gboolean
read_sign (const char **at, Angle *angle)
{
  gsize length = **at == '+' || **at == '-' ? 1 : g_str_has_prefix (*at, "−") ? strlen ("−") : 0;

  if (length == 0 || angle->signed_ || angle->n_parts > 0)
    return FALSE;
  angle->signed_ = TRUE;
  angle->negative = **at != '+';
  *at += length;
  return TRUE;
}

static gboolean
read_angle (const char *text, Angle *angle)
{
  gboolean closed = FALSE; /* nothing may follow a side at the end */

  for (const char *at = text; *at != '\0';)
    {
      gsize length = separator (at);
      char side = g_ascii_toupper (*at);

      if (length > 0)
        {
          at += length;
          continue;
        }
      if (closed)
        return FALSE;
      if (g_ascii_isdigit (*at))
        {
          if (!read_number (&at, angle))
            return FALSE;
        }
      else if (strchr ("NSEW", side) != NULL && angle->side == '\0')
        {
          angle->side = side;
          closed = angle->n_parts > 0;
          at++;
        }
      else if (!read_sign (&at, angle))
        return FALSE;
    }
  return angle->n_parts > 0 && !(angle->signed_ && angle->side != '\0');
}

gboolean
fr_degrees_parse (const char *text, gboolean is_latitude, double *value_deg_out)
{
  Angle angle = { 0 };
  double value;

  g_return_val_if_fail (text != NULL && value_deg_out != NULL, FALSE);

  *value_deg_out = NAN;
  if (strlen (text) >= LONGEST || !read_angle (text, &angle)
      || (angle.side != '\0' && (strchr ("NS", angle.side) != NULL) != !!is_latitude) || angle.parts[1] >= 60
      || angle.parts[2] >= 60)
    return FALSE;
  value = angle.parts[0] + angle.parts[1] / 60 + angle.parts[2] / 3600;
  if (value > (is_latitude ? 90 : 180))
    return FALSE;
  *value_deg_out = angle.negative || angle.side == 'S' || angle.side == 'W' ? -value : value;
  return TRUE;
}

gboolean
fr_earth_point_parse (const char *text, FrEarthPoint *point_out)
{
  guint n_ways = 0;

  g_return_val_if_fail (text != NULL && point_out != NULL, FALSE);

  *point_out = (FrEarthPoint){ NAN, NAN };
  if (strlen (text) >= 2 * LONGEST)
    return FALSE;
  for (const char *at = text; *at != '\0'; at++)
    {
      g_autofree char *first = NULL;
      FrEarthPoint point;

      /* Of several blanks the first, so that one gap is one way. */
      if (*at != ',' && *at != ';' && !(*at == ' ' && at > text && at[-1] != ' '))
        continue;
      first = g_strndup (text, (gsize)(at - text));
      if (!fr_degrees_parse (first, TRUE, &point.lat_deg)
          || !fr_degrees_parse (at + 1, FALSE, &point.lon_deg))
        continue;
      if (n_ways == 0 || point.lat_deg != point_out->lat_deg || point.lon_deg != point_out->lon_deg)
        n_ways++;
      *point_out = point;
    }
  if (n_ways == 1)
    return TRUE;
  *point_out = (FrEarthPoint){ NAN, NAN };
  return FALSE;
}
