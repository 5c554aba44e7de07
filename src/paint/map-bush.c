/* One place that says what a tree of the bush looks like, so that the map on paper is the map in the window.
 */
#include "paint/map-bush.h"

#include <math.h>

static FrMapGroup
map_group (FrTreeGroup group)
{
  switch (group)
    {
    case FR_TREE_HARD:
      return FR_MAP_GROUP_HARD;
    case FR_TREE_SOFT:
      return FR_MAP_GROUP_SOFT;
    case FR_TREE_OTHER:
      return FR_MAP_GROUP_OTHER;
    case FR_TREE_NOT_MAPLE:
    default:
      return FR_MAP_GROUP_NONE;
    }
}

void
fr_map_tree_of (FrMapTree *map_tree, const FrBushTree *tree)
{
  *map_tree = (FrMapTree){
    .id = tree->id,
    .x_m = tree->tree->x_m.value,
    .y_m = tree->tree->y_m.value,
    .diameter_m = tree->diameter_m,
    .group = map_group (tree->group),
    .n_set = tree->taps_set,
    .n_planned = tree->taps_planned,
    .is_weak = (tree->reasons & FR_TREE_WEAK) != 0,
    /* Too thin is no cross: it is thin on the map as well. */
    .is_off = (tree->reasons & (FR_TREE_FAILING | FR_TREE_REFUSED | FR_TREE_WISHED_OFF)) != 0,
    .has_hazard = (tree->reasons & (FR_TREE_DEAD_LIMBS | FR_TREE_WIRES | FR_TREE_LEANS)) != 0,
    .level_ratio = NAN,
    .name = tree->tree->name,
    .rank = 1000 * (tree->taps_set + tree->taps_planned) + (isnan (tree->diameter_m) ? 0 : tree->diameter_m),
  };
  for (guint i = 0; i < FR_MAP_MOST_TAPS; i++)
    map_tree->set_deg[i] = map_tree->planned_deg[i] = NAN;
}

void
fr_map_tree_add_tap (FrMapTree *map_tree, const FrTap *tap)
{
  double *sides_deg = tap->set_on != NULL ? map_tree->set_deg : map_tree->planned_deg;

  /* Those whose side is unknown are left open, wherever they stand. */
  for (guint i = 0; i < FR_MAP_MOST_TAPS; i++)
    if (isnan (sides_deg[i]))
      {
        sides_deg[i] = tap->direction_deg.value;
        return;
      }
}

static const struct
{
  const char *code;
  FrMapForm form;
} forms[] = {
  { "path", FR_MAP_FORM_PATH },     { "lane", FR_MAP_FORM_LANE },         { "wall", FR_MAP_FORM_WALL },
  { "stream", FR_MAP_FORM_STREAM }, { "building", FR_MAP_FORM_BUILDING }, { "boiling", FR_MAP_FORM_BOILING },
  { "store", FR_MAP_FORM_STORE },
};

gboolean
fr_map_shape_of (FrMapShape *shape, const FrFeature *feature)
{
  FrGroundPoint *points = NULL;
  guint n = 0;

  if (feature->record.archived || !fr_ground_points_parse (feature->points, &points, &n, NULL))
    return FALSE;
  *shape = (FrMapShape){ .id = feature->record.id, .points = points, .n_points = n, .name = feature->name };
  for (guint k = 0; k < G_N_ELEMENTS (forms); k++)
    if (g_strcmp0 (forms[k].code, feature->form) == 0)
      shape->form = forms[k].form;
  return TRUE;
}

static void
add_corner (GArray *points, GArray *numbers, double x_m, double y_m, guint number)
{
  FrGroundPoint point = { x_m, y_m };

  g_array_append_val (points, point);
  g_array_append_val (numbers, number);
}

void
fr_map_way_of (const FrBush *bush, const FrBushRound *round, GArray *points, GArray *numbers)
{
  gint64 before = 0;

  g_array_set_size (points, 0);
  g_array_set_size (numbers, 0);
  for (guint i = 0; i < round->stops->len; i++)
    {
      const FrBushStop *stop = &g_array_index (round->stops, FrBushStop, i);
      const FrBushTree *tree = fr_bush_find (bush, stop->tree);

      if (tree == NULL)
        continue;
      if (i == 0 || stop->trip != g_array_index (round->stops, FrBushStop, i - 1).trip)
        add_corner (points, numbers, round->start_x_m, round->start_y_m, 0);
      add_corner (points, numbers, tree->tree->x_m.value, tree->tree->y_m.value,
                  stop->tree == before ? 0 : i + 1);
      before = stop->tree;
    }
  if (points->len > 0)
    add_corner (points, numbers, round->start_x_m, round->start_y_m, 0);
}
