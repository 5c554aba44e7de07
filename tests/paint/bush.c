/* Positions, sizes and litres are made up. */
#include "bush.h"

#include <math.h>

typedef struct
{
  const char *name;
  double x_m, y_m, diameter_cm;
  FrMapGroup group;
  double set_deg[2], planned_deg;
  double level_ratio;
  const char *flags; /* w weak, x off, h hazard */
} Row;

#define H FR_MAP_GROUP_HARD
#define S FR_MAP_GROUP_SOFT
#define O FR_MAP_GROUP_OTHER
#define N FR_MAP_GROUP_NONE
#define NO                                                                                                   \
  {                                                                                                          \
    -1, -1                                                                                                   \
  }

static const Row rows[] = {
  { "Gate", 22.3, 111, 61, H, { 150, -1 }, 307, 0.87, "" },
  { "Wall 1", 34.2, 117.5, 44, H, { 180, -1 }, -1, 0.73, "" },
  { "Wall 2", 44, 114.2, 52, H, { 170, 235 }, -1, 0.81, "" },
  { "Wall 3", 55, 119, 38, H, { 180, -1 }, -1, 0.6, "" },
  { "Wall 4", 65, 112.6, 47, H, { 185, -1 }, -1, 0.69, "" },
  { "Spring", 75.7, 95.2, 66, H, { 160, 250 }, -1, 0.95, "" },
  { "Ledge", 40.2, 85.7, 55, H, { 165, 240 }, -1, 0.73, "" },
  { "Twin N", 57, 85.7, 41, H, { 180, -1 }, -1, 0.66, "" },
  { "Twin S", 50, 73, 39, H, NO, 180, NAN, "" },
  { "Crook", 69.8, 77.8, 35, H, { 185, -1 }, -1, 0.34, "w" },
  { "Hollow", 48, 58.7, 58, S, { 180, -1 }, -1, 0.49, "h" },
  { "Fence 2", 15.5, 71.4, 37, S, { 180, -1 }, -1, 0.45, "" },
  { "Old Lady", 31.2, 63.5, 88, H, NO, -1, NAN, "x" },
  { "Corner", 89.6, 114.2, 50, H, NO, -1, NAN, "" },
  { "Swing", 28.3, 41.4, 49, O, NO, 190, NAN, "" },
  { "Rock", 73.7, 54, 43, H, NO, 185, NAN, "" },
  { "Nut", 83.6, 41.3, 40, N, NO, -1, NAN, "" },
  { "Far 1", 83.6, 119, 36, H, NO, -1, NAN, "" },
  { "Pump", 42, 38.2, 34, O, NO, -1, NAN, "w" },
  { "Fence 1", 16.4, 85.7, 34, S, NO, -1, NAN, "" },
  { "Fence 3", 17.5, 57.2, 32, S, NO, -1, NAN, "" },
  { "Fence 4", 10.5, 38.2, 29, S, NO, -1, NAN, "" },
  { "Fence 5", 11.5, 24, 33, S, NO, -1, NAN, "" },
  { "Bank 1", 88.6, 85.7, 31, H, NO, -1, NAN, "" },
  { "Bank 2", 80.6, 68.3, 31, H, NO, -1, NAN, "h" },
  { "Bank 3", 62, 55.5, 36, H, NO, -1, NAN, "" },
  { "Low 1", 20.4, 22.3, 35, O, NO, -1, NAN, "" },
  { "Low 2", 64, 35, 37, H, NO, -1, NAN, "" },
  { "Low 3", 55, 28.6, 32, H, NO, -1, NAN, "" },
  { "Low 4", 71.8, 28.6, 37, H, NO, -1, NAN, "" },
  { "Low 5", 81.7, 19.1, NAN, H, NO, -1, NAN, "" },
};

static const FrGroundPoint lane[]
    = { { -4, 95 }, { 8, 98 },    { 26, 101.4 }, { 42, 100.2 }, { 60, 101.2 }, { 67, 94 },
        { 65, 80 }, { 64.5, 66 }, { 68, 51 },    { 78, 35 },    { 100, 29 } };
static const FrGroundPoint path[] = { { 32.5, 101.5 }, { 27.5, 88 }, { 25, 76 }, { 23, 62 },
                                      { 24, 50 },      { 30.5, 37 }, { 33, 22 }, { 34, 6 } };
static const FrGroundPoint wall[]
    = { { 28, 125.4 }, { 46, 127.8 }, { 64, 125.6 }, { 78, 125.8 }, { 97, 130 } };
static const FrGroundPoint stream[] = { { -4, 12 }, { 20, 10 }, { 40, 14 }, { 66, 9 }, { 100, 12 } };
static const FrGroundPoint house[] = { { 4.6, 123.5 }, { 13.4, 115.7 } };
static const FrGroundPoint shed[] = { { 24.4, 91.6 }, { 30.7, 91.6 }, { 30.7, 86.2 }, { 24.4, 86.2 } };

static const guint order[] = { 0, 1, 2, 3, 4, 5, 9, 7, 10, 6, 11 };

void
bush_fill (Bush *bush, double width_px, double height_px)
{
  static const FrMapShape shapes[6] = {
    { 1, FR_MAP_FORM_LANE, lane, G_N_ELEMENTS (lane), NULL, FALSE, FALSE },
    { 2, FR_MAP_FORM_PATH, path, G_N_ELEMENTS (path), NULL, FALSE, FALSE },
    { 3, FR_MAP_FORM_WALL, wall, G_N_ELEMENTS (wall), "Stone wall", FALSE, FALSE },
    { 4, FR_MAP_FORM_STREAM, stream, G_N_ELEMENTS (stream), "Brook", FALSE, FALSE },
    { 5, FR_MAP_FORM_BUILDING, house, G_N_ELEMENTS (house), "House", FALSE, FALSE },
    { 6, FR_MAP_FORM_BOILING, shed, G_N_ELEMENTS (shed), "Boiling shed", FALSE, FALSE },
  };

  *bush = (Bush){ 0 };
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const Row *r = &rows[i];
      FrMapTree *t = &bush->trees[i];
      t->id = i + 1;
      t->name = r->name;
      t->x_m = r->x_m;
      t->y_m = r->y_m;
      t->diameter_m = r->diameter_cm / 100;
      t->group = r->group;
      for (guint k = 0; k < 2; k++)
        if (r->set_deg[k] >= 0)
          t->set_deg[t->n_set++] = r->set_deg[k];
      if (r->planned_deg >= 0)
        t->planned_deg[t->n_planned++] = r->planned_deg;
      t->level_ratio = r->level_ratio;
      for (const char *f = r->flags; *f != '\0'; f++)
        {
          t->is_weak = t->is_weak || *f == 'w';
          t->is_off = t->is_off || *f == 'x';
          t->has_hazard = t->has_hazard || *f == 'h';
        }
      t->rank = t->n_set > 0 ? 2 : t->n_planned > 0 ? 1 : 0;
    }
  for (guint i = 0; i < 6; i++)
    bush->shapes[i] = shapes[i];
  bush->stops[0] = (FrGroundPoint){ 27.5, 88.9 };
  for (guint i = 0; i < G_N_ELEMENTS (order); i++)
    bush->stops[i + 1] = (FrGroundPoint){ rows[order[i]].x_m, rows[order[i]].y_m };
  bush->stops[G_N_ELEMENTS (order) + 1] = bush->stops[0];
  bush->round = (FrMapRound){ bush->stops, NULL, G_N_ELEMENTS (order) + 2 };
  bush->view = (FrMapView){
    .viewport = { .px_per_m = 1, .width_px = width_px, .height_px = height_px },
    .scale_ratio = 1,
    .revision = 1,
    .trees = bush->trees,
    .n_trees = G_N_ELEMENTS (rows),
    .shapes = bush->shapes,
    .n_shapes = 6,
    .round = &bush->round,
    .unit_m = 1,
    .unit_name = "m",
    .has_north = TRUE,
  };
  FrPlanBox box = FR_PLAN_BOX_EMPTY;
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    fr_plan_box_add (&box, rows[i].x_m, rows[i].y_m);
  FrMargins margins = { 40, 40, 40, 40 };
  fr_viewport_fit (&bush->view.viewport, &box, &margins, 50);
}

FrMapTree *
many_new (gsize n)
{
  FrMapTree *trees = g_new0 (FrMapTree, n);
  guint side = (guint)ceil (sqrt ((double)n));
  guint32 state = 20260311;

  for (gsize i = 0; i < n; i++)
    {
      double part[5];
      for (guint k = 0; k < 5; k++)
        {
          state = state * 1103515245u + 12345u;
          part[k] = (double)(state >> 16 & 0x7fff) / 32768.0;
        }
      trees[i] = (FrMapTree){
        .id = (gint64)i + 1,
        .x_m = 7.0 * (i % side) + 5 * part[0],
        .y_m = 7.0 * (double)(i / side) + 5 * part[1],
        .diameter_m = 0.25 + 0.5 * part[2],
        .group = (FrMapGroup)((guint)(part[3] * 7) % 4),
        .level_ratio = part[4] < 0.6 ? part[4] / 0.6 : NAN,
        .n_set = part[4] < 0.6 ? 1 : 0,
        .set_deg = { 360 * part[2] },
        .n_planned = part[4] > 0.9 ? 1 : 0,
        .planned_deg = { NAN },
        .is_weak = part[0] < 0.06,
        .is_off = part[1] < 0.03,
        .has_hazard = part[2] < 0.04,
        .name = g_strdup_printf ("T %u", (guint)i),
        .rank = part[4] < 0.6 ? 2 : 0,
      };
    }
  return trees;
}

void
many_free (FrMapTree *trees, gsize n)
{
  for (gsize i = 0; i < n; i++)
    g_free ((char *)trees[i].name);
  g_free (trees);
}
