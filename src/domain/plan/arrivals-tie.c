/* How plan and earth lie to each other. A book that is tied keeps its anchor. An empty plan takes that of the
 * file, or its zero in the middle of what arrives. A plan drawn by tape and compass is laid on the earth by
 * the trees that both know: the shift that leaves the least squares. How far a turn or a stretch would fit
 * better is told, for it shows a compass read without its declination or a tape in other units; nothing is
 * turned. */
#include "domain/plan/arrivals-private.h"

#include <math.h>

/* A tree that the plan and the file both know. */
typedef struct
{
  const FrTree *tree;
  FrEarthPoint where;
} Pair;

/* So that the anchor reads well where it is shown: a tenth of a metre. */
static double
rounded_deg (double deg)
{
  return round (deg * 1e6) / 1e6;
}

static gboolean
is_whole (const FrGeoAnchor *anchor)
{
  return fr_geo_is_point ((FrEarthPoint){ anchor->lat_deg, anchor->lon_deg }) && isfinite (anchor->x_m)
         && isfinite (anchor->y_m);
}

/* Every point of the earth in the file. */
static GArray *
all_points (const FrArrivalWork *work)
{
  GArray *points = g_array_new (FALSE, FALSE, sizeof (FrEarthPoint));

  for (guint i = 0; i < work->arrivals->trees->len; i++)
    {
      const FrArrival *arrival = work->arrivals->trees->pdata[i];

      if (fr_geo_is_point (arrival->where))
        g_array_append_val (points, arrival->where);
    }
  for (guint i = 0; work->options->with_paths && points->len == 0 && i < work->arrivals->paths->len; i++)
    {
      const FrArrivalPath *path = work->arrivals->paths->pdata[i];

      g_array_append_vals (points, path->points->data, path->points->len);
    }
  return points;
}

/* Trees, drawings and a picture all lie where they lie. */
static gboolean
plan_is_drawn (const FrBushBook *book)
{
  for (guint i = 0; book->trees != NULL && i < book->trees->len; i++)
    if (!isnan (((FrTree *)book->trees->pdata[i])->x_m.value))
      return TRUE;
  return (book->features != NULL && book->features->len > 0)
         || (book->ground != NULL && !isnan (book->ground->first_x_m.value));
}

static const FrTree *
known_tree (const FrArrivalWork *work, const FrArrival *arrival)
{
  const FrRecord *record = g_hash_table_lookup (work->by_uid, arrival->tree->record.uid);
  const GPtrArray *named
      = arrival->tree->name != NULL ? g_hash_table_lookup (work->by_name, arrival->tree->name) : NULL;

  if (record != NULL && record->kind->id == FR_KIND_TREE)
    return (const FrTree *)record;
  return named != NULL && named->len == 1 ? named->pdata[0] : NULL;
}

static GArray *
find_pairs (const FrArrivalWork *work)
{
  GArray *pairs = g_array_new (FALSE, FALSE, sizeof (Pair));

  for (guint i = 0; i < work->arrivals->trees->len; i++)
    {
      const FrArrival *arrival = work->arrivals->trees->pdata[i];
      Pair pair = { known_tree (work, arrival), arrival->where };

      if (pair.tree != NULL && !isnan (pair.tree->x_m.value) && fr_geo_is_point (pair.where))
        g_array_append_val (pairs, pair);
    }
  return pairs;
}

/* What turn and stretch would fit best, about the middles of both. */
static void
fit_turn (FrArrivalPreview *preview, const Pair *pairs, guint n)
{
  double px = 0, py = 0, ex = 0, ey = 0, along = 0, across = 0, spread = 0;

  for (guint pass = 0; pass < 2; pass++)
    for (guint i = 0; i < n; i++)
      {
        double x_m, y_m, plan_x = pairs[i].tree->x_m.value, plan_y = pairs[i].tree->y_m.value;

        if (!fr_geo_to_plan (&preview->anchor, pairs[i].where, &x_m, &y_m))
          return;
        if (pass == 0)
          {
            px += plan_x / n;
            py += plan_y / n;
            ex += x_m / n;
            ey += y_m / n;
            continue;
          }
        plan_x -= px;
        plan_y -= py;
        along += plan_x * (x_m - ex) + plan_y * (y_m - ey);
        across += plan_x * (y_m - ey) - plan_y * (x_m - ex);
        spread += plan_x * plan_x + plan_y * plan_y;
      }
  /* Trees within a metre of each other say nothing of directions. */
  if (n < 2 || spread < 1)
    return;
  preview->turn_deg = -atan2 (across, along) * (180 / G_PI);
  preview->stretch = hypot (along, across) / spread;
}

static gboolean
tie_by_names (FrArrivalPreview *preview, const Pair *pairs, guint n)
{
  g_autofree FrEarthPoint *points = g_new (FrEarthPoint, n + 1);
  FrEarthPoint middle;
  FrGeoAnchor anchor;
  double x_m, y_m, shift_x_m = 0, shift_y_m = 0, squares = 0;

  for (guint i = 0; i < n; i++)
    points[i] = pairs[i].where;
  if (!fr_geo_middle (points, n, &middle))
    return FALSE;
  anchor = (FrGeoAnchor){ rounded_deg (middle.lat_deg), rounded_deg (middle.lon_deg), 0, 0 };
  for (guint i = 0; i < n; i++)
    {
      if (!fr_geo_to_plan (&anchor, pairs[i].where, &x_m, &y_m))
        return FALSE;
      shift_x_m += (pairs[i].tree->x_m.value - x_m) / n;
      shift_y_m += (pairs[i].tree->y_m.value - y_m) / n;
    }
  anchor.x_m = shift_x_m;
  anchor.y_m = shift_y_m;
  preview->worst_m = -1;
  for (guint i = 0; i < n; i++)
    {
      double miss_m;

      fr_geo_to_plan (&anchor, pairs[i].where, &x_m, &y_m);
      miss_m = hypot (x_m - pairs[i].tree->x_m.value, y_m - pairs[i].tree->y_m.value);
      squares += miss_m * miss_m;
      if (miss_m > preview->worst_m)
        {
          preview->worst_m = miss_m;
          preview->worst = pairs[i].tree;
        }
    }
  preview->anchor = anchor;
  preview->residual_m = sqrt (squares / n);
  fit_turn (preview, pairs, n);
  return TRUE;
}

void
fr_arrivals_find_tie (FrArrivalWork *work)
{
  FrArrivalPreview *preview = work->preview;
  g_autoptr (GArray) points = all_points (work);
  g_autoptr (GArray) pairs = NULL;
  FrEarthPoint middle;

  if (fr_bush_book_anchor (work->book, &preview->anchor))
    preview->tie = points->len > 0 ? FR_TIE_KEPT : FR_TIE_NOT_NEEDED;
  else if (points->len == 0)
    preview->tie = FR_TIE_NOT_NEEDED;
  else if (!plan_is_drawn (work->book))
    {
      preview->tie = is_whole (&work->arrivals->anchor) ? FR_TIE_FROM_FILE : FR_TIE_MIDDLE;
      if (preview->tie == FR_TIE_FROM_FILE)
        preview->anchor = work->arrivals->anchor;
      else if (fr_geo_middle ((FrEarthPoint *)(gpointer)points->data, points->len, &middle))
        preview->anchor = (FrGeoAnchor){ rounded_deg (middle.lat_deg), rounded_deg (middle.lon_deg), 0, 0 };
      else
        preview->tie = FR_TIE_NEEDS_NAMES;
    }
  else
    {
      pairs = find_pairs (work);
      preview->n_names = pairs->len;
      preview->tie = pairs->len > 0 && tie_by_names (preview, (Pair *)(gpointer)pairs->data, pairs->len)
                         ? FR_TIE_NAMES
                         : FR_TIE_NEEDS_NAMES;
    }
}

/* --- each tree's place --- */

static gboolean
same_anchor (const FrGeoAnchor *a, const FrGeoAnchor *b)
{
  return a->lat_deg == b->lat_deg && a->lon_deg == b->lon_deg && a->x_m == b->x_m && a->y_m == b->y_m;
}

/* What a file says of plan and earth may contradict when another program moved its points: the earth is then
 * meant. Where they agree, the plan's own figures save a rounding. */
static void
place_row (const FrArrivalWork *work, FrArrivalRow *row)
{
  const FrArrival *arrival = row->arrival;
  double plan_x_m = arrival->tree->x_m.value, plan_y_m = arrival->tree->y_m.value;
  const FrGeoAnchor *anchor = &work->preview->anchor;

  if (!fr_geo_is_point (arrival->where) || (!isnan (plan_x_m) && !is_whole (&work->arrivals->anchor)))
    {
      row->x_m = plan_x_m;
      row->y_m = plan_y_m;
      return;
    }
  if (!is_whole (anchor))
    {
      row->fate = FR_ARRIVAL_REFUSED;
      row->reason = FR_ARRIVAL_UNTIED;
    }
  else if (!fr_geo_to_plan (anchor, arrival->where, &row->x_m, &row->y_m))
    {
      row->fate = FR_ARRIVAL_REFUSED;
      row->reason = FR_ARRIVAL_BEYOND;
    }
  else if (same_anchor (anchor, &work->arrivals->anchor)
           && hypot (row->x_m - plan_x_m, row->y_m - plan_y_m) < FR_ARRIVAL_SAME_PLACE_M)
    {
      row->x_m = plan_x_m;
      row->y_m = plan_y_m;
    }
}

void
fr_arrivals_place (FrArrivalWork *work)
{
  for (guint i = 0; i < work->preview->rows->len; i++)
    place_row (work, fr_arrival_row (work->preview, i));
}
