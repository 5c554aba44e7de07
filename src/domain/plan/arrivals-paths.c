/* Walks and outlines of a file as drawings on the ground. A recorded walk has a point a second; it is thinned
 * (after D. H. Douglas and T. K. Peucker, The Canadian Cartographer 10, 1973: a point goes when it lies
 * nearer than the tolerance to the line without it), first by a tenth of a metre, then by twice as much until
 * the text fits. */
#include "domain/plan/arrivals-private.h"

#include "domain/records/ground-points.h"

#include <math.h>
#include <string.h>

#define FIRST_TOLERANCE_M 0.1
/* Of a longer walk every second, third … point is looked at: the work grows with the square at worst. */
#define POINTS_MAX 10000
/* So few are a drawing, not a recording, and all of them are meant. */
#define POINTS_DRAWN 200

static double
distance_to_line_m (FrGroundPoint point, FrGroundPoint from, FrGroundPoint to)
{
  double dx = to.x_m - from.x_m, dy = to.y_m - from.y_m, square = dx * dx + dy * dy;
  double along = square > 0 ? ((point.x_m - from.x_m) * dx + (point.y_m - from.y_m) * dy) / square : 0;

  along = along < 0 ? 0 : along > 1 ? 1 : along;
  return hypot (point.x_m - from.x_m - along * dx, point.y_m - from.y_m - along * dy);
}

/* Marks what stays between two points that do; a stack instead of recursion, for a walk may have many points.
 */
static void
mark (const FrGroundPoint *points, guint n, double tolerance_m, gboolean *stays)
{
  g_autoptr (GArray) stack = g_array_new (FALSE, FALSE, sizeof (guint));
  const guint last = n - 1, none = 0;

  memset (stays, 0, n * sizeof *stays);
  stays[0] = stays[last] = TRUE;
  g_array_append_val (stack, none);
  g_array_append_val (stack, last);
  while (stack->len > 0)
    {
      guint to = g_array_index (stack, guint, stack->len - 1),
            from = g_array_index (stack, guint, stack->len - 2);
      guint farthest = 0;
      double most_m = tolerance_m;

      g_array_set_size (stack, stack->len - 2);
      for (guint i = from + 1; i < to; i++)
        {
          double off_m = distance_to_line_m (points[i], points[from], points[to]);

          if (off_m > most_m)
            {
              most_m = off_m;
              farthest = i;
            }
        }
      if (farthest == 0)
        continue;
      stays[farthest] = TRUE;
      g_array_append_val (stack, from);
      g_array_append_val (stack, farthest);
      g_array_append_val (stack, farthest);
      g_array_append_val (stack, to);
    }
}

/* The text of what stays; NULL when it never fits. */
static char *
thinned (const FrGroundPoint *points, guint n, gsize most, guint *kept_out)
{
  g_autofree gboolean *stays = g_new (gboolean, n);
  g_autofree FrGroundPoint *kept = g_new (FrGroundPoint, n);

  *kept_out = n;
  if (n <= POINTS_DRAWN)
    return fr_ground_points_to_text (points, n);
  for (double tolerance_m = FIRST_TOLERANCE_M; tolerance_m < 1e5; tolerance_m *= 2)
    {
      g_autofree char *text = NULL;

      *kept_out = 0;
      mark (points, n, tolerance_m, stays);
      for (guint i = 0; i < n; i++)
        if (stays[i])
          kept[(*kept_out)++] = points[i];
      text = fr_ground_points_to_text (kept, *kept_out);
      if (strlen (text) <= most)
        return g_steal_pointer (&text);
    }
  return NULL;
}

static gboolean
is_drawn (const FrArrivalWork *work, const FrFeature *feature)
{
  const GPtrArray *features = work->book->features, *rows = work->preview->paths;

  for (guint i = 0; features != NULL && i < features->len; i++)
    if (g_strcmp0 (((FrFeature *)features->pdata[i])->points, feature->points) == 0)
      return TRUE;
  for (guint i = 0; i < rows->len; i++)
    {
      const FrArrivalPathRow *row = rows->pdata[i];

      if (g_strcmp0 (row->after->points, feature->points) == 0)
        return TRUE;
    }
  return FALSE;
}

static FrArrivalPathRow *
draw (const FrArrivalWork *work, const FrArrivalPath *path)
{
  FrArrivalPathRow *row = g_new0 (FrArrivalPathRow, 1);
  guint stride = 1 + path->points->len / POINTS_MAX, n = 0;
  g_autofree FrGroundPoint *points = g_new (FrGroundPoint, path->points->len / stride + 2);
  FrFeature *feature = (FrFeature *)fr_record_new (FR_KIND_FEATURE);
  g_autoptr (GArray) problems = NULL;
  const FrField *field = fr_kind_field (feature->record.kind, "points");

  row->path = path;
  row->after = feature;
  feature->name = g_strdup (path->name);
  fr_record_set_text (&feature->record, fr_kind_field (feature->record.kind, "form"), path->form);
  for (guint i = 0; i < path->points->len; i++)
    {
      FrEarthPoint point = g_array_index (path->points, FrEarthPoint, i);

      /* The last one is where the walk ends, or the outline closes. */
      if (i % stride != 0 && i != path->points->len - 1)
        continue;
      if (!fr_geo_to_plan (&work->preview->anchor, point, &points[n].x_m, &points[n].y_m))
        {
          row->fate = FR_ARRIVAL_REFUSED;
          row->reason = isnan (work->preview->anchor.lat_deg) ? FR_ARRIVAL_UNTIED : FR_ARRIVAL_BEYOND;
          return row;
        }
      n++;
    }
  if (n > 0)
    feature->points = thinned (points, n, (gsize)field->max, &row->n_points);
  problems = fr_record_check (&feature->record);
  if (problems->len > 0)
    {
      row->fate = FR_ARRIVAL_REFUSED;
      row->reason = FR_ARRIVAL_BAD_RECORD;
    }
  else if (is_drawn (work, feature))
    row->fate = FR_ARRIVAL_SAME;
  return row;
}

void
fr_arrivals_draw_paths (FrArrivalWork *work)
{
  for (guint i = 0; i < work->arrivals->paths->len; i++)
    g_ptr_array_add (work->preview->paths, draw (work, work->arrivals->paths->pdata[i]));
}
