/* Bearings in the three ways they are written in the woods: the points of the compass (32 of them, 11.25°
 * apart), the surveyor's quadrant from north or south, and plain degrees. On the plan x is east and y is true
 * north, so the declination is added to what the compass shows. */
#include "domain/units/bearing.h"

#include <math.h>
#include <string.h>

#define LONGEST 32

static const char *const points[32]
    = { "N",    "NBE", "NNE",  "NEBN", "NE",  "NEBE", "ENE", "EBN",  "E",    "EBS", "ESE",
        "SEBE", "SE",  "SEBS", "SSE",  "SBE", "S",    "SBW", "SSW",  "SWBS", "SW",  "SWBW",
        "WSW",  "WBS", "W",    "WBN",  "WNW", "NWBW", "NW",  "NWBN", "NNW",  "NBW" };

/* Capitals, no blanks, no degree sign, a point for a comma. FALSE when it cannot be a bearing. */
static gboolean
squeeze (const char *text, char out[LONGEST])
{
  gsize n = 0;

  for (const char *p = text; *p != '\0';)
    {
      char c = *p;

      if (strncmp (p, "°", strlen ("°")) == 0)
        {
          p += strlen ("°");
          continue;
        }
      p++;
      if (g_ascii_isspace (c))
        continue;
      if (n == LONGEST - 1 || !(g_ascii_isalnum (c) || c == '.' || c == ','))
        return FALSE;
      out[n++] = c == ',' ? '.' : g_ascii_toupper (c);
    }
  out[n] = '\0';
  return n > 0;
}

/* Digits with at most one point, all of @text up to @end. */
static gboolean
read_degrees (const char *text, const char *end, double most, double *value)
{
  guint n_points = 0, n_digits = 0;

  for (const char *p = text; p < end; p++)
    {
      n_points += *p == '.';
      n_digits += g_ascii_isdigit (*p) != 0;
      if ((*p != '.' && !g_ascii_isdigit (*p)) || n_points > 1)
        return FALSE;
    }
  *value = g_ascii_strtod (text, NULL);
  return n_digits > 0 && *value <= most;
}

gboolean
fr_bearing_parse (const char *text, double *bearing_deg_out)
{
  char word[LONGEST];
  double value;
  gsize length;

  g_return_val_if_fail (text != NULL && bearing_deg_out != NULL, FALSE);

  *bearing_deg_out = NAN;
  if (!squeeze (text, word))
    return FALSE;
  length = strlen (word);
  for (guint i = 0; i < G_N_ELEMENTS (points); i++)
    if (strcmp (word, points[i]) == 0)
      {
        *bearing_deg_out = 11.25 * i;
        return TRUE;
      }
  if ((word[0] == 'N' || word[0] == 'S') && (word[length - 1] == 'E' || word[length - 1] == 'W'))
    {
      gboolean south = word[0] == 'S', west = word[length - 1] == 'W';

      if (!read_degrees (word + 1, word + length - 1, 90, &value))
        return FALSE;
      value = south == west ? (south ? 180 : 0) + value : (south ? 180 : 360) - value;
    }
  else if (!read_degrees (word, word + length, 360, &value))
    return FALSE;
  *bearing_deg_out = value < 360 ? value : 0;
  return TRUE;
}

void
fr_plan_offset (double distance_m, double bearing_deg, double declination_deg, double *dx_m_out,
                double *dy_m_out)
{
  double true_deg = bearing_deg + (isnan (declination_deg) ? 0 : declination_deg);
  double angle = remainder (true_deg, 360) * (G_PI / 180);

  g_return_if_fail (dx_m_out != NULL && dy_m_out != NULL);

  *dx_m_out = distance_m * sin (angle);
  *dy_m_out = distance_m * cos (angle);
}
