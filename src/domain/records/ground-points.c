/* Points of the ground as text. A plain text keeps the book readable in any SQLite browser and in the diary;
 * the millimetre is finer than any tape. */
#include "domain/records/ground-points.h"

#include <math.h>
#include <string.h>

#define FARTHEST_M 1e7

static gboolean
read_line (const char *line, FrGroundPoint *point)
{
  char *end;

  point->x_m = g_ascii_strtod (line, &end);
  if (end == line || (*end != ' ' && *end != '\t'))
    return FALSE;
  line = end;
  point->y_m = g_ascii_strtod (line, &end);
  if (end == line || end[strspn (end, " \t\r")] != '\0')
    return FALSE;
  /* Written so that a NAN fails too. */
  return fabs (point->x_m) <= FARTHEST_M && fabs (point->y_m) <= FARTHEST_M;
}

gboolean
fr_ground_points_parse (const char *text, FrGroundPoint **points_out, guint *n_out, guint *bad_line_out)
{
  g_return_val_if_fail (points_out != NULL && n_out != NULL, FALSE);

  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (FrGroundPoint));
  g_auto (GStrv) lines = g_strsplit (text != NULL ? text : "", "\n", -1);

  *points_out = NULL;
  *n_out = 0;
  if (bad_line_out != NULL)
    *bad_line_out = 0;
  for (guint i = 0; lines[i] != NULL; i++)
    {
      FrGroundPoint point;

      if (lines[i][strspn (lines[i], " \t\r")] == '\0')
        continue;
      if (!read_line (lines[i], &point))
        {
          if (bad_line_out != NULL)
            *bad_line_out = i + 1;
          return FALSE;
        }
      g_array_append_val (points, point);
    }
  if (points->len == 0)
    return FALSE;
  *n_out = points->len;
  *points_out = (FrGroundPoint *)(gpointer)g_array_free (g_steal_pointer (&points), FALSE);
  return TRUE;
}

char *
fr_ground_points_to_text (const FrGroundPoint *points, guint n)
{
  g_return_val_if_fail (points != NULL || n == 0, NULL);

  GString *text = g_string_new (NULL);

  for (guint i = 0; i < n; i++)
    {
      char x[G_ASCII_DTOSTR_BUF_SIZE], y[G_ASCII_DTOSTR_BUF_SIZE];

      g_ascii_formatd (x, sizeof x, "%.3f", points[i].x_m);
      g_ascii_formatd (y, sizeof y, "%.3f", points[i].y_m);
      g_string_append_printf (text, i > 0 ? "\n%s %s" : "%s %s", x, y);
    }
  return g_string_free (text, FALSE);
}
