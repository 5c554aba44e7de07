/* Where trees are: a grid of cells over the plan with about two trees in each, cell after cell in one array.
 * A view asks for the cells it shows, a pointer for those around it. One tree far away makes the cells large
 * and the search slower, not wrong. */
#include "paint/map-private.h"

#include <math.h>

#define MOST_CELLS_PER_SIDE 512

static void
free_surface (gpointer data)
{
  cairo_surface_destroy (data);
}

FrMapCache *
fr_map_cache_new (void)
{
  FrMapCache *cache = g_new0 (FrMapCache, 1);

  cache->sprites = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, free_surface);
  return cache;
}

static void
clear_places (FrMapCache *cache)
{
  g_clear_pointer (&cache->first, g_free);
  g_clear_pointer (&cache->order, g_free);
}

void
fr_map_cache_free (FrMapCache *cache)
{
  if (cache == NULL)
    return;
  clear_places (cache);
  fr_map_names_clear (cache);
  g_hash_table_unref (cache->sprites);
  g_clear_pointer ((PangoFontDescription **)&cache->font, pango_font_description_free);
  g_free (cache);
}

gsize
fr_map_cache_bytes (const FrMapCache *cache)
{
  return cache->sprite_bytes + cache->name_bytes + cache->n_names * sizeof *cache->names
         + cache->n_trees * sizeof *cache->order
         + ((gsize)cache->n_across * cache->n_down + 1) * sizeof *cache->first;
}

static gboolean
is_placed (const FrMapTree *tree)
{
  return isfinite (tree->x_m) && isfinite (tree->y_m);
}

static guint
cell_of (const FrMapCache *cache, double x_m, double y_m)
{
  double across = floor ((x_m - cache->bounds.west_m) / cache->cell_m);
  double down = floor ((y_m - cache->bounds.south_m) / cache->cell_m);
  guint column = (guint)CLAMP (across, 0, cache->n_across - 1.0);
  guint row = (guint)CLAMP (down, 0, cache->n_down - 1.0);

  return row * cache->n_across + column;
}

FrMapCache *
fr_map_cache_ready (FrMapCache *cache, const FrMapView *view)
{
  if (cache->first != NULL && cache->revision == view->revision && cache->n_trees == view->n_trees
      && cache->n_shapes == view->n_shapes)
    return cache;

  clear_places (cache);
  fr_map_names_clear (cache);
  cache->revision = view->revision;
  cache->n_trees = view->n_trees;
  cache->n_shapes = view->n_shapes;
  cache->bounds = FR_PLAN_BOX_EMPTY;
  cache->largest_diameter_m = 0;
  for (gsize i = 0; i < view->n_trees; i++)
    if (is_placed (&view->trees[i]))
      {
        fr_plan_box_add (&cache->bounds, view->trees[i].x_m, view->trees[i].y_m);
        if (view->trees[i].diameter_m > cache->largest_diameter_m)
          cache->largest_diameter_m = view->trees[i].diameter_m;
      }
  if (fr_plan_box_is_empty (&cache->bounds))
    fr_plan_box_add (&cache->bounds, 0, 0);

  double width = cache->bounds.east_m - cache->bounds.west_m;
  double height = cache->bounds.north_m - cache->bounds.south_m;
  cache->cell_m = MAX (sqrt (MAX (width, 1) * MAX (height, 1) / MAX (view->n_trees / 2.0, 1)), 1);
  cache->cell_m = MAX (cache->cell_m, MAX (width, height) / MOST_CELLS_PER_SIDE);
  cache->n_across = 1 + (guint)(width / cache->cell_m);
  cache->n_down = 1 + (guint)(height / cache->cell_m);

  guint n_cells = cache->n_across * cache->n_down;
  cache->first = g_new0 (guint32, n_cells + 1);
  cache->order = g_new0 (guint32, MAX (view->n_trees, 1));
  for (gsize i = 0; i < view->n_trees; i++)
    if (is_placed (&view->trees[i]))
      cache->first[cell_of (cache, view->trees[i].x_m, view->trees[i].y_m) + 1]++;
  for (guint c = 0; c < n_cells; c++)
    cache->first[c + 1] += cache->first[c];
  g_autofree guint32 *next = g_memdup2 (cache->first, n_cells * sizeof *next);
  for (gsize i = 0; i < view->n_trees; i++)
    if (is_placed (&view->trees[i]))
      cache->order[next[cell_of (cache, view->trees[i].x_m, view->trees[i].y_m)]++] = (guint32)i;
  return cache;
}

void
fr_map_cache_visit (const FrMapCache *cache, const FrMapView *view, const FrPlanBox *box, FrMapFound found,
                    gpointer data)
{
  if (cache == NULL)
    {
      for (gsize i = 0; i < view->n_trees; i++)
        {
          const FrMapTree *t = &view->trees[i];
          if (t->x_m >= box->west_m && t->x_m <= box->east_m && t->y_m >= box->south_m
              && t->y_m <= box->north_m)
            found ((guint)i, data);
        }
      return;
    }
  if (fr_plan_box_is_empty (box) || box->east_m < cache->bounds.west_m || box->west_m > cache->bounds.east_m
      || box->north_m < cache->bounds.south_m || box->south_m > cache->bounds.north_m)
    return;
  guint low = cell_of (cache, box->west_m, box->south_m), high = cell_of (cache, box->east_m, box->north_m);
  for (guint row = low / cache->n_across; row <= high / cache->n_across; row++)
    {
      guint from = row * cache->n_across + low % cache->n_across;
      guint to = row * cache->n_across + high % cache->n_across;
      for (guint32 k = cache->first[from]; k < cache->first[to + 1]; k++)
        {
          const FrMapTree *t = &view->trees[cache->order[k]];
          if (t->x_m >= box->west_m && t->x_m <= box->east_m && t->y_m >= box->south_m
              && t->y_m <= box->north_m)
            found (cache->order[k], data);
        }
    }
}

/* A pointer's box of the plan: @reach_px round a point. */
static FrPlanBox
box_round (const FrMapView *view, double x1_px, double y1_px, double x2_px, double y2_px, double reach_px)
{
  FrPlanBox box = FR_PLAN_BOX_EMPTY;

  for (guint corner = 0; corner < 4; corner++)
    {
      double x_m, y_m;
      fr_viewport_to_plan (
          &view->viewport, corner & 1 ? MAX (x1_px, x2_px) + reach_px : MIN (x1_px, x2_px) - reach_px,
          corner & 2 ? MAX (y1_px, y2_px) + reach_px : MIN (y1_px, y2_px) - reach_px, &x_m, &y_m);
      fr_plan_box_add (&box, x_m, y_m);
    }
  return box;
}

typedef struct
{
  const FrMapView *view;
  double x1_px, y1_px, x2_px, y2_px;
  double best;
  gssize index;
  GArray *indices;
} Search;

static void
try_nearest (guint index, gpointer data)
{
  Search *search = data;
  const FrMapTree *tree = &search->view->trees[index];
  double x, y;

  fr_viewport_to_screen (&search->view->viewport, tree->x_m, tree->y_m, &x, &y);
  double away
      = hypot (x - search->x1_px, y - search->y1_px) - fr_map_radius_px (search->view, tree->diameter_m);
  /* Between two equally near the later one lies on top. */
  if (away < search->best || (away == search->best && (gssize)index > search->index))
    {
      search->best = away;
      search->index = index;
    }
}

static double
largest_diameter (const FrMapView *view, const FrMapCache *cache)
{
  double most = 0;

  if (cache != NULL)
    return cache->largest_diameter_m;
  for (gsize i = 0; i < view->n_trees; i++)
    if (view->trees[i].diameter_m > most)
      most = view->trees[i].diameter_m;
  return most;
}

gssize
fr_map_tree_at (const FrMapView *view, FrMapCache *cache, double x_px, double y_px, double tolerance_px)
{
  Search search = { .view = view, .x1_px = x_px, .y1_px = y_px, .index = -1 };

  if (cache != NULL)
    fr_map_cache_ready (cache, view);
  double reach = fr_map_radius_px (view, largest_diameter (view, cache)) + tolerance_px;
  FrPlanBox box = box_round (view, x_px, y_px, x_px, y_px, reach);
  search.best = nextafter (tolerance_px, INFINITY);
  fr_map_cache_visit (cache, view, &box, try_nearest, &search);
  return search.index;
}

static void
try_inside (guint index, gpointer data)
{
  Search *search = data;
  const FrMapTree *tree = &search->view->trees[index];
  double x, y;

  fr_viewport_to_screen (&search->view->viewport, tree->x_m, tree->y_m, &x, &y);
  if (!tree->is_dimmed && x >= MIN (search->x1_px, search->x2_px) && x <= MAX (search->x1_px, search->x2_px)
      && y >= MIN (search->y1_px, search->y2_px) && y <= MAX (search->y1_px, search->y2_px))
    g_array_append_val (search->indices, index);
}

static int
compare_indices (gconstpointer a, gconstpointer b)
{
  guint x = *(const guint *)a, y = *(const guint *)b;

  return (x > y) - (x < y);
}

void
fr_map_trees_in (const FrMapView *view, FrMapCache *cache, double x1_px, double y1_px, double x2_px,
                 double y2_px, GArray *indices)
{
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (guint));
  Search search
      = { .view = view, .x1_px = x1_px, .y1_px = y1_px, .x2_px = x2_px, .y2_px = y2_px, .indices = found };
  FrPlanBox box = box_round (view, x1_px, y1_px, x2_px, y2_px, 1);

  fr_map_cache_visit (cache != NULL ? fr_map_cache_ready (cache, view) : NULL, view, &box, try_inside,
                      &search);
  g_array_sort (found, compare_indices);
  g_array_append_vals (indices, found->data, found->len);
}

gssize
fr_map_tree_towards (const FrMapView *view, gssize from, double dx_px, double dy_px)
{
  double x0 = view->viewport.width_px / 2, y0 = view->viewport.height_px / 2;
  double length = hypot (dx_px, dy_px), best = INFINITY;
  gssize index = -1;

  if (!(length > 0))
    return -1;
  if (from >= 0 && (gsize)from < view->n_trees && is_placed (&view->trees[from]))
    fr_viewport_to_screen (&view->viewport, view->trees[from].x_m, view->trees[from].y_m, &x0, &y0);
  for (gsize i = 0; i < view->n_trees; i++)
    {
      double x, y;
      if ((gssize)i == from || view->trees[i].is_dimmed || !is_placed (&view->trees[i]))
        continue;
      fr_viewport_to_screen (&view->viewport, view->trees[i].x_m, view->trees[i].y_m, &x, &y);
      double along = ((x - x0) * dx_px + (y - y0) * dy_px) / length;
      double beside = fabs ((x - x0) * dy_px - (y - y0) * dx_px) / length;
      /* Within 60° of the direction. */
      if (along <= 0 || beside > 1.7321 * along)
        continue;
      double cost = along + 2 * beside;
      if (cost < best)
        {
          best = cost;
          index = (gssize)i;
        }
    }
  return index;
}

FrPlanBox
fr_map_bounds (const FrMapView *view)
{
  FrPlanBox box = FR_PLAN_BOX_EMPTY;

  for (gsize i = 0; i < view->n_trees; i++)
    fr_plan_box_add (&box, view->trees[i].x_m, view->trees[i].y_m);
  for (gsize i = 0; i < view->n_shapes; i++)
    for (gsize k = 0; k < view->shapes[i].n_points; k++)
      fr_plan_box_add (&box, view->shapes[i].points[k].x_m, view->shapes[i].points[k].y_m);
  for (gsize i = 0; view->round != NULL && i < view->round->n_points; i++)
    fr_plan_box_add (&box, view->round->points[i].x_m, view->round->points[i].y_m);
  return box;
}
