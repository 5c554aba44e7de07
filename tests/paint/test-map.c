/* The map: every mark is told from every other without colour, names lie on nothing, the grid finds what a
 * plain search finds, pictures are placed by their two points, and inputs that only a wrong entry brings draw
 * without harm. With FROSTRUN_PICTURES set to a folder the maps are kept there. */
#include <math.h>
#include <string.h>

#include "bush.h"
#include "stage.h"

/* ---- symbols without colour ---- */

static cairo_surface_t *
draw_symbol (const FrPalette *palette, const FrMapTree *tree, double radius_px)
{
  cairo_surface_t *image = stage_image (56, 56);
  cairo_t *cr = cairo_create (image);

  fr_palette_set_source (palette, cr, FR_ROLE_GROUND, 1);
  cairo_paint (cr);
  fr_map_symbol_draw (cr, palette, tree, 28, 28, radius_px);
  cairo_destroy (cr);
  return image;
}

static void
test_grey (void)
{
  static const double radii[] = { 5.5, 8, 12 };
  FrMapTree marks[] = {
    { .group = FR_MAP_GROUP_HARD, .level_ratio = NAN },
    { .group = FR_MAP_GROUP_SOFT, .level_ratio = NAN },
    { .group = FR_MAP_GROUP_OTHER, .level_ratio = NAN },
    { .group = FR_MAP_GROUP_NONE, .level_ratio = NAN },
    { .group = FR_MAP_GROUP_HARD, .level_ratio = 0.5 },
    { .group = FR_MAP_GROUP_HARD, .level_ratio = 1 },
    { .group = FR_MAP_GROUP_HARD, .level_ratio = NAN, .is_weak = TRUE },
    { .group = FR_MAP_GROUP_HARD, .level_ratio = NAN, .is_off = TRUE },
    { .group = FR_MAP_GROUP_HARD, .level_ratio = NAN, .has_hazard = TRUE },
    { .group = FR_MAP_GROUP_HARD, .level_ratio = NAN, .n_set = 1, .set_deg = { 90 } },
    { .group = FR_MAP_GROUP_HARD, .level_ratio = NAN, .n_planned = 1, .planned_deg = { 90 } },
    { .group = FR_MAP_GROUP_HARD, .level_ratio = NAN, .n_set = 1, .set_deg = { NAN } },
    { .group = FR_MAP_GROUP_HARD, .level_ratio = NAN, .is_selected = TRUE },
    { .group = FR_MAP_GROUP_HARD, .level_ratio = NAN, .is_hovered = TRUE },
    { .group = FR_MAP_GROUP_HARD, .level_ratio = NAN, .is_focused = TRUE, .is_selected = TRUE },
    { .group = FR_MAP_GROUP_HARD, .level_ratio = NAN, .is_dimmed = TRUE },
  };

  for (guint theme = 0; theme < FR_N_THEMES; theme++)
    for (guint contrast = 0; contrast < 2; contrast++)
      for (guint r = 0; r < G_N_ELEMENTS (radii); r++)
        {
          FrPalette palette = { (FrTheme)theme, contrast };
          cairo_surface_t *images[G_N_ELEMENTS (marks)];
          for (guint i = 0; i < G_N_ELEMENTS (marks); i++)
            images[i] = draw_symbol (&palette, &marks[i], radii[r]);
          for (guint i = 0; i < G_N_ELEMENTS (marks); i++)
            for (guint k = 0; k < i; k++)
              {
                /* A quarter of the way from black to white, on at least four pixels. */
                guint n = stage_differences (images[i], images[k], contrast ? 50 : 40);
                if (n < 4)
                  g_test_fail_printf ("marks %u and %u look alike in grey at %.1f px, theme %u: %u pixels", i,
                                      k, radii[r], theme, n);
              }
          for (guint i = 0; i < G_N_ELEMENTS (marks); i++)
            cairo_surface_destroy (images[i]);
        }
}

/* All outlines of one radius have the circle's area, so thickness compares across groups. Inside is what is
 * lighter than the ground, the card, or at least half covered by the dark outline. */
static void
test_area (void)
{
  static const FrRole roles[]
      = { FR_ROLE_TREE_HARD, FR_ROLE_TREE_SOFT, FR_ROLE_TREE_OTHER, FR_ROLE_TREE_NONE };
  FrPalette palette = { FR_THEME_LIGHT, FALSE };

  for (guint g = 0; g < 4; g++)
    {
      FrMapTree tree = { .group = (FrMapGroup)g, .level_ratio = NAN };
      FrRgba line = fr_palette_color (&palette, roles[g]);
      double dark
          = 255 * (0.2126 * (double)line.red + 0.7152 * (double)line.green + 0.0722 * (double)line.blue);
      cairo_surface_t *image = draw_symbol (&palette, &tree, 20);
      double ground = stage_grey (image, 1, 1);
      guint n = 0;
      for (int y = 0; y < 56; y++)
        {
          int first = 56, last = -1;
          for (int x = 0; x < 56; x++)
            if (stage_grey (image, x, y) < (ground + dark) / 2)
              {
                first = MIN (first, x);
                last = x;
              }
          n += last >= first ? (guint)(last - first + 1) : 0;
        }
      cairo_surface_destroy (image);
      g_assert_cmpfloat_with_epsilon (n / (G_PI * 400), 1, 0.03);
    }
}

/* By the rule: 4 px and 0.125 px for each cm at the design's zoom; the trunk's own size from 1:50; never
 * smaller again on the way in, for trunks of 16 cm and more; 3 px at the least. */
static void
test_radius (void)
{
  FrMapView view = { .viewport = { .px_per_m = 6 }, .scale_ratio = 1 };

  g_assert_cmpfloat_with_epsilon (fr_map_radius_px (&view, 0.61), 4 + 0.125 * 61, 0.1);
  g_assert_cmpfloat_with_epsilon (fr_map_radius_px (&view, 0.20), 4 + 0.125 * 20, 0.1);
  g_assert_cmpfloat (fr_map_radius_px (&view, NAN), <, fr_map_radius_px (&view, 0.15));
  view.viewport.px_per_m = FR_SCREEN_PX_PER_M / 50;
  g_assert_cmpfloat_with_epsilon (fr_map_radius_px (&view, 0.61), 0.305 * view.viewport.px_per_m, 1e-9);
  view.viewport.px_per_m = 0.1;
  g_assert_cmpfloat (fr_map_radius_px (&view, 0.9), ==, 3);
  for (double d = 0.16; d < 1.5; d += 0.07)
    {
      double before = 0;
      for (view.viewport.px_per_m = 0.02; view.viewport.px_per_m < 400; view.viewport.px_per_m *= 1.03)
        {
          double now = fr_map_radius_px (&view, d);
          g_assert_cmpfloat (now, >=, before - 1e-9);
          before = now;
        }
    }
  view.viewport.px_per_m = 12;
  view.scale_ratio = 2;
  g_assert_cmpfloat_with_epsilon (fr_map_radius_px (&view, 0.61), 2 * (4 + 0.125 * 61), 0.2);
}

/* ---- names ---- */

static double
distance_to_box (const FrLabelBox *box, double x, double y)
{
  double dx = MAX (MAX (box->x_px - x, x - box->x_px - box->width_px), 0);
  double dy = MAX (MAX (box->y_px - y, y - box->y_px - box->height_px), 0);

  return hypot (dx, dy);
}

static GArray *
draw_map (const FrPalette *palette, const FrMapView *view, FrMapCache *cache, const char *keep_as)
{
  PangoContext *context = stage_context ();
  GArray *labels = fr_label_list_new ();
  cairo_surface_t *image = stage_image ((int)view->viewport.width_px, (int)view->viewport.height_px);
  cairo_t *cr = cairo_create (image);

  fr_map_draw (cr, context, palette, view, cache, labels);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  g_object_unref (context);
  if (keep_as != NULL)
    stage_keep (image, keep_as);
  cairo_surface_destroy (image);
  return labels;
}

static void
check_names (const FrMapView *view, const GArray *labels, const char *what)
{
  stage_check_labels (labels, view->viewport.width_px, view->viewport.height_px, what);
  for (guint i = 0; i < labels->len; i++)
    {
      const FrLabelBox *box = &g_array_index (labels, FrLabelBox, i);
      /* The scale bar floats over everything. */
      if (view->unit_name != NULL && g_str_has_suffix (box->text, " m"))
        continue;
      for (gsize k = 0; k < view->n_trees; k++)
        {
          double x, y;
          fr_viewport_to_screen (&view->viewport, view->trees[k].x_m, view->trees[k].y_m, &x, &y);
          double r = fr_map_radius_px (view, view->trees[k].diameter_m);
          /* Symbols stand on whole pixels. */
          if (distance_to_box (box, x, y) < r - 1)
            g_test_fail_printf ("%s: “%s” lies on the symbol of %s", what, box->text, view->trees[k].name);
        }
    }
}

static void
test_names (void)
{
  static const double zooms[] = { 0.4, 1, 2.3, 5.15, 9, 40, 200 };
  static const double turns[] = { 0, 35, 180, 301 };
  FrPalette palette = { FR_THEME_LIGHT, FALSE };
  Bush bush;
  g_autoptr (FrMapCache) cache = fr_map_cache_new ();
  guint most = 0;

  bush_fill (&bush, 500, 750);
  for (guint z = 0; z < G_N_ELEMENTS (zooms); z++)
    for (guint t = 0; t < G_N_ELEMENTS (turns); t++)
      for (guint big = 0; big < 2; big++)
        {
          bush.view.viewport.px_per_m = zooms[z];
          bush.view.viewport.rotation_deg = turns[t];
          bush.view.scale_ratio = big ? 1.5 : 1;
          g_autofree char *what
              = g_strdup_printf ("%g px/m turned %g°, text %g", zooms[z], turns[t], bush.view.scale_ratio);
          g_autoptr (GArray) labels = draw_map (&palette, &bush.view, cache, NULL);
          check_names (&bush.view, labels, what);
          most = MAX (most, labels->len);
        }
  /* Where all have room all are named, and the ground too. */
  g_assert_cmpuint (most, >=, 33);
  FrMapTree *trees = many_new (600);
  FrMapView crowd = { .viewport = { 85, 85, 1, 0, 800, 600 }, .trees = trees, .n_trees = 600, .revision = 2 };
  for (guint z = 0; z < G_N_ELEMENTS (zooms); z++)
    {
      crowd.viewport.px_per_m = zooms[z];
      g_autoptr (GArray) labels = draw_map (&palette, &crowd, cache, NULL);
      check_names (&crowd, labels, "crowd");
    }
  many_free (trees, 600);
}

/* Two trees whose names cannot both stand: the one of higher rank has its name. */
static void
test_rank (void)
{
  FrPalette palette = { FR_THEME_LIGHT, FALSE };
  FrMapTree trees[25];

  for (guint first = 0; first < 25; first++)
    {
      for (guint i = 0; i < 25; i++)
        trees[i] = (FrMapTree){ .x_m = 3.0 * (i % 5),
                                .y_m = 3.8 * (double)(i / 5),
                                .diameter_m = 0.4,
                                .level_ratio = NAN,
                                .name = i == first ? "The first" : "Another one",
                                .rank = i == first ? 1 : 0 };
      FrMapView view
          = { .viewport = { 6, 8, 12, 0, 400, 300 }, .trees = trees, .n_trees = 25, .revision = first };
      g_autoptr (GArray) labels = draw_map (&palette, &view, NULL, NULL);
      g_assert_true (stage_has_label (labels, "The first"));
      g_assert_cmpuint (labels->len, <, 25);
      trees[first].is_dimmed = TRUE;
      g_autoptr (GArray) without = draw_map (&palette, &view, NULL, NULL);
      g_assert_false (stage_has_label (without, "The first"));
      trees[first].is_selected = TRUE;
      g_autoptr (GArray) again = draw_map (&palette, &view, NULL, NULL);
      g_assert_true (stage_has_label (again, "The first"));
    }
}

/* Panning carries the names along: none appears, goes or jumps except at the edge. */
static void
test_pan (void)
{
  FrPalette palette = { FR_THEME_LIGHT, FALSE };
  FrMapTree *trees = many_new (900);
  g_autoptr (FrMapCache) cache = fr_map_cache_new ();
  FrMapView view
      = { .viewport = { 105, 105, 8, 0, 800, 600 }, .trees = trees, .n_trees = 900, .revision = 1 };

  g_autoptr (GArray) before = draw_map (&palette, &view, cache, NULL);
  g_assert_cmpuint (before->len, >, 30);
  fr_viewport_pan (&view.viewport, 24, -16);
  g_autoptr (GArray) after = draw_map (&palette, &view, cache, NULL);
  for (guint i = 0; i < before->len; i++)
    {
      const FrLabelBox *a = &g_array_index (before, FrLabelBox, i);
      gboolean found = a->x_px + 24 + a->width_px > 798 || a->y_px - 16 < 2;
      for (guint k = 0; k < after->len && !found; k++)
        {
          const FrLabelBox *b = &g_array_index (after, FrLabelBox, k);
          found = strcmp (a->text, b->text) == 0 && fabs (b->x_px - a->x_px - 24) < 0.01
                  && fabs (b->y_px - a->y_px + 16) < 0.01;
        }
      if (!found)
        g_test_fail_printf ("%s did not go along", a->text);
    }
  many_free (trees, 900);
}

/* ---- what is kept changes nothing ---- */

static cairo_surface_t *
picture_of (const FrPalette *palette, const FrMapView *view, FrMapCache *cache)
{
  PangoContext *context = stage_context ();
  cairo_surface_t *image = stage_image ((int)view->viewport.width_px, (int)view->viewport.height_px);
  cairo_t *cr = cairo_create (image);

  fr_map_draw (cr, context, palette, view, cache, NULL);
  cairo_destroy (cr);
  g_object_unref (context);
  return image;
}

static void
test_cache (void)
{
  Bush bush;
  FrPalette palette = { FR_THEME_LIGHT, FALSE };
  g_autoptr (FrMapCache) used = fr_map_cache_new ();

  bush_fill (&bush, 400, 600);
  for (guint step = 0; step < 12; step++)
    {
      /* Everything a person does: another palette, place, zoom, choice, filter, tree. */
      palette.theme = step % 5 == 1 ? FR_THEME_DARK : FR_THEME_LIGHT;
      palette.high_contrast = step == 7;
      fr_viewport_pan (&bush.view.viewport, 13, -7);
      if (step % 3 == 2)
        fr_viewport_zoom_at (&bush.view.viewport, 100, 100, 1.3);
      bush.trees[step].is_selected = TRUE;
      bush.trees[step + 3].is_dimmed = step % 2;
      bush.trees[step + 1].is_hovered = step == 5;
      /* On a step that changes nothing else of what is kept. */
      if (step == 4)
        {
          bush.trees[7].x_m += 3;
          bush.trees[7].name = "Moved";
          bush.view.revision++;
        }
      g_autoptr (FrMapCache) fresh = fr_map_cache_new ();
      cairo_surface_t *a = picture_of (&palette, &bush.view, used);
      cairo_surface_t *b = picture_of (&palette, &bush.view, fresh);
      g_assert_cmpuint (stage_differences (a, b, 0.5), ==, 0);
      cairo_surface_destroy (a);
      cairo_surface_destroy (b);
    }
  g_assert_cmpuint (fr_map_cache_bytes (used), >, 1000);
}

/* Panned by whole pixels the whole map is the same picture elsewhere: dashes, dots, hatches and names go
 * along. */
static void
test_goes_along (void)
{
  Bush bush;
  FrPalette palette = { FR_THEME_LIGHT, FALSE };
  g_autoptr (FrMapCache) cache = fr_map_cache_new ();
  guint wrong = 0;

  bush_fill (&bush, 400, 300);
  bush.view.viewport.px_per_m = 6;
  bush.view.has_north = FALSE;
  bush.view.unit_name = NULL;
  cairo_surface_t *before = picture_of (&palette, &bush.view, cache);
  fr_viewport_pan (&bush.view.viewport, -37, 22);
  cairo_surface_t *after = picture_of (&palette, &bush.view, cache);
  /* Names at the edge come and go. */
  for (int y = 60; y < 220; y++)
    for (int x = 120; x < 300; x++)
      wrong += fabs (stage_grey (before, x, y) - stage_grey (after, x - 37, y + 22)) > 8;
  g_assert_cmpuint (wrong, ==, 0);
  cairo_surface_destroy (before);
  cairo_surface_destroy (after);
}

/* ---- finding ---- */

static void
test_find (void)
{
  FrMapTree *trees = many_new (500);
  g_autoptr (FrMapCache) cache = fr_map_cache_new ();
  FrMapView view = { .viewport = { 80, 80, 1, 0, 800, 600 }, .trees = trees, .n_trees = 500, .revision = 1 };

  trees[17].x_m = NAN;
  trees[99].x_m = 40000;
  for (guint i = 0; i < 400; i++)
    {
      double x = g_test_rand_double_range (0, 800), y = g_test_rand_double_range (0, 600), best = INFINITY;
      view.viewport.px_per_m = pow (10, g_test_rand_double_range (-0.5, 2));
      view.viewport.rotation_deg = g_test_rand_double_range (0, 360);
      for (gsize k = 0; k < view.n_trees; k++)
        {
          double tx, ty;
          fr_viewport_to_screen (&view.viewport, trees[k].x_m, trees[k].y_m, &tx, &ty);
          double away = hypot (tx - x, ty - y) - fr_map_radius_px (&view, trees[k].diameter_m);
          if (away < best)
            best = away;
        }
      gssize with = fr_map_tree_at (&view, cache, x, y, 6), without = fr_map_tree_at (&view, NULL, x, y, 6);
      g_assert_cmpint (with, ==, without);
      g_assert_cmpint (with >= 0, ==, best <= 6);
      if (with >= 0)
        {
          double tx, ty;
          fr_viewport_to_screen (&view.viewport, trees[with].x_m, trees[with].y_m, &tx, &ty);
          double away = hypot (tx - x, ty - y) - fr_map_radius_px (&view, trees[with].diameter_m);
          g_assert_cmpfloat_with_epsilon (away, best, 1e-6);
        }

      double x2 = g_test_rand_double_range (0, 800), y2 = g_test_rand_double_range (0, 600);
      g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (guint));
      g_autoptr (GArray) plain = g_array_new (FALSE, FALSE, sizeof (guint));
      trees[i % 500].is_dimmed = TRUE;
      fr_map_trees_in (&view, cache, x, y, x2, y2, found);
      for (guint k = 0; k < view.n_trees; k++)
        {
          double tx, ty;
          fr_viewport_to_screen (&view.viewport, trees[k].x_m, trees[k].y_m, &tx, &ty);
          if (!trees[k].is_dimmed && tx >= MIN (x, x2) && tx <= MAX (x, x2) && ty >= MIN (y, y2)
              && ty <= MAX (y, y2))
            g_array_append_val (plain, k);
        }
      g_assert_cmpmem (found->data, found->len * sizeof (guint), plain->data, plain->len * sizeof (guint));
    }
  many_free (trees, 500);
}

static void
test_arrows (void)
{
  /* A cross of five; 1 east, 2 west, 3 north, 4 south of 0. */
  FrMapTree trees[5] = { { .x_m = 0, .y_m = 0 },
                         { .x_m = 10, .y_m = 1 },
                         { .x_m = -12, .y_m = 0 },
                         { .x_m = 1, .y_m = 9 },
                         { .x_m = 0, .y_m = -20 } };
  FrMapView view = { .viewport = { 0, 0, 10, 0, 400, 400 }, .trees = trees, .n_trees = 5 };

  g_assert_cmpint (fr_map_tree_towards (&view, 0, 1, 0), ==, 1);
  g_assert_cmpint (fr_map_tree_towards (&view, 0, -1, 0), ==, 2);
  g_assert_cmpint (fr_map_tree_towards (&view, 0, 0, -1), ==, 3);
  g_assert_cmpint (fr_map_tree_towards (&view, 0, 0, 1), ==, 4);
  g_assert_cmpint (fr_map_tree_towards (&view, 4, 0, 1), ==, -1);
  /* With the plan turned by 90° east is down. */
  view.viewport.rotation_deg = 90;
  g_assert_cmpint (fr_map_tree_towards (&view, 0, 0, 1), ==, 1);
  view.viewport.rotation_deg = 0;
  /* Every tree can be reached from every other by arrows in a lattice. */
  trees[1].is_dimmed = TRUE;
  g_assert_cmpint (fr_map_tree_towards (&view, 0, 1, 0), ==, -1);
  g_assert_cmpint (fr_map_tree_towards (&view, -1, 0, 1), ==, 4);
}

static void
test_shapes (void)
{
  Bush bush;

  bush_fill (&bush, 500, 750);
  FrMapView *v = &bush.view;
  static const struct
  {
    double x_m, y_m;
    gssize shape;
  } rows[] = {
    { 9, 119, 4 },     /* in the house, given by two corners */
    { 9, 130, -1 },    /* north of it */
    { 27.5, 88.9, 5 }, /* in the shed, over the path */
    { 42, 100.2, 0 },  /* on a point of the lane */
    { 23, 62, 1 },     /* on a point of the path */
    { 64, 125.6, 2 },  /* the wall */
    { 50, 60, -1 },    /* in the open */
  };
  for (guint turn = 0; turn < 4; turn++)
    for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
      {
        double x, y;
        v->viewport.rotation_deg = turn * 77;
        fr_viewport_to_screen (&v->viewport, rows[i].x_m, rows[i].y_m, &x, &y);
        g_assert_cmpint (fr_map_shape_at (v, x, y, 4), ==, rows[i].shape);
      }
  double x, y;
  v->viewport.rotation_deg = 0;
  g_assert_false (fr_map_north_at (v, 100, 100));
  guint hits = 0;
  for (x = 0; x < 500; x += 4)
    for (y = 0; y < 750; y += 4)
      hits += fr_map_north_at (v, x, y);
  /* A disc of 21 px radius holds 21² π / 16 of these points. */
  g_assert_cmpuint (hits, >, 70);
  g_assert_cmpuint (hits, <, 105);
  FrPlanBox box = fr_map_bounds (v);
  g_assert_cmpfloat (box.west_m, ==, -4);
  g_assert_cmpfloat (box.east_m, ==, 100);
  g_assert_cmpfloat (box.south_m, ==, 6);
  g_assert_cmpfloat (box.north_m, ==, 130);
}

/* A picture turned by 30° and 0.25 m to the pixel: both known points fall where they should, and so does a
 * third that was worked out with the turn by hand (x and y of 100 columns to the right). */
static void
test_picture (void)
{
  double c = cos (G_PI / 6), s = sin (G_PI / 6), scale = 0.25;
  FrMapPicture picture = { .first_column = 10, .first_row = 20, .first_x_m = 100, .first_y_m = 50 };
  cairo_matrix_t matrix;

  /* 200 columns right and 120 rows down, turned anticlockwise by 30°. */
  picture.second_column = 210;
  picture.second_row = 140;
  picture.second_x_m = 100 + scale * (200 * c + 120 * s);
  picture.second_y_m = 50 + scale * (200 * s - 120 * c);
  g_assert_true (fr_map_picture_matrix (&picture, &matrix));
  double x = 210, y = 140;
  cairo_matrix_transform_point (&matrix, &x, &y);
  g_assert_cmpfloat_with_epsilon (x, picture.second_x_m, 1e-9);
  g_assert_cmpfloat_with_epsilon (y, picture.second_y_m, 1e-9);
  x = 110, y = 20;
  cairo_matrix_transform_point (&matrix, &x, &y);
  g_assert_cmpfloat_with_epsilon (x, 100 + scale * 100 * c, 1e-9);
  g_assert_cmpfloat_with_epsilon (y, 50 + scale * 100 * s, 1e-9);

  FrMapPicture same = picture;
  same.second_column = 10;
  same.second_row = 20;
  g_assert_false (fr_map_picture_matrix (&same, &matrix));
  same = picture;
  same.second_x_m = same.first_x_m;
  same.second_y_m = same.first_y_m;
  g_assert_false (fr_map_picture_matrix (&same, &matrix));
  same = picture;
  same.first_row = NAN;
  g_assert_false (fr_map_picture_matrix (&same, &matrix));

  /* On the drawing: a black picture of 40 × 20 m lies where it should, at 55 %. */
  cairo_surface_t *black = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 80, 40);
  FrPalette palette = { FR_THEME_LIGHT, FALSE };
  FrMapPicture plain = { black, 0, 0, 0, 20, 80, 40, 40, 0 };
  FrMapView view = { .viewport = { 20, 10, 4, 0, 300, 200 }, .picture = &plain };
  cairo_surface_t *image = picture_of (&palette, &view, NULL);
  FrRgba ground = fr_palette_color (&palette, FR_ROLE_GROUND);
  g_assert_cmpfloat_with_epsilon (
      stage_grey (image, 150, 100),
      0.45 * 255 * (double)(0.2126f * ground.red + 0.7152f * ground.green + 0.0722f * ground.blue), 2);
  g_assert_cmpfloat (stage_grey (image, 66, 100), >, 200);
  g_assert_cmpfloat (stage_grey (image, 74, 100), <, 120);
  g_assert_cmpfloat (stage_grey (image, 150, 56), >, 200);
  g_assert_cmpfloat (stage_grey (image, 150, 64), <, 120);
  cairo_surface_destroy (image);
  cairo_surface_destroy (black);
}

/* ---- wrong entries ---- */

static void
test_odd (void)
{
  g_autofree char *long_name = g_strnfill (20000, 'w');
  FrGroundPoint odd_points[4] = { { NAN, 1 }, { 1, INFINITY }, { 3, 4 }, { 1e7, -1e7 } };
  FrMapTree trees[] = {
    { .x_m = NAN, .y_m = NAN, .diameter_m = NAN, .level_ratio = NAN, .name = "Nowhere" },
    { .x_m = 1e7, .y_m = -1e7, .diameter_m = 1e6, .level_ratio = 7, .name = "" },
    { .x_m = 0,
      .y_m = 0,
      .diameter_m = -1,
      .level_ratio = -3,
      .name = long_name,
      .n_set = 99,
      .n_planned = 99 },
    { .x_m = 0,
      .y_m = 0,
      .diameter_m = 0,
      .level_ratio = INFINITY,
      .name = "<b>&amp; “Ünï” \xf0\x9f\x8d\x81",
      .n_set = 3,
      .set_deg = { NAN, 1e9, -1e9 },
      .rank = NAN,
      .is_selected = TRUE,
      .is_focused = TRUE,
      .is_hovered = TRUE,
      .is_weak = TRUE,
      .is_off = TRUE,
      .has_hazard = TRUE },
    { .x_m = 3, .y_m = 3, .diameter_m = 0.4, .name = "\xff\xfe broken" },
  };
  FrMapShape shapes[] = {
    { .form = FR_MAP_FORM_PATH },
    { .form = FR_MAP_FORM_BUILDING },
    { .form = FR_MAP_FORM_LANE, .points = odd_points, .n_points = 4, .name = "Odd" },
    { .form = FR_MAP_FORM_STORE, .points = odd_points, .n_points = 4, .name = "Odd box" },
    { .form = FR_MAP_FORM_BOILING,
      .points = odd_points + 2,
      .n_points = 1,
      .name = "One",
      .is_selected = TRUE },
    { .form = FR_MAP_FORM_WALL, .points = odd_points + 2, .n_points = 1 },
    { .form = FR_MAP_FORM_STREAM, .points = odd_points + 2, .n_points = 2, .is_hovered = TRUE },
  };
  guint numbers[4] = { 1, 0, 123456, 3 };
  FrMapRound way = { odd_points, numbers, 4 };
  FrMapMeasure measure = { NAN, 0, 1, 1, "nothing" };
  static const double zooms[] = { FR_VIEWPORT_LEAST_PX_PER_M, 1, 50, FR_VIEWPORT_MOST_PX_PER_M };
  FrPalette palette = { FR_THEME_DARK, TRUE };

  for (guint i = 0; i < G_N_ELEMENTS (zooms); i++)
    for (guint kept = 0; kept < 2; kept++)
      {
        g_autoptr (FrMapCache) cache = kept ? fr_map_cache_new () : NULL;
        FrMapView view = { .viewport = { 0, 0, zooms[i], 12.5, 300, 200 },
                           .trees = trees,
                           .n_trees = 5,
                           .shapes = shapes,
                           .n_shapes = 7,
                           .round = &way,
                           .measure = &measure,
                           .ghosts = trees,
                           .n_ghosts = 5,
                           .has_band = TRUE,
                           .band_x1_px = 500,
                           .band_y2_px = -40,
                           .unit_m = 1,
                           .unit_name = "m",
                           .has_north = TRUE,
                           .revision = i };
        g_autoptr (GArray) labels = draw_map (&palette, &view, cache, NULL);
        g_assert_false (stage_has_label (labels, "Nowhere"));
        g_assert_cmpint (fr_map_tree_at (&view, cache, 290, 10, 1) == 0, ==, FALSE);
        fr_map_shape_at (&view, 100, 100, 5);
        /* And nothing at all. */
        FrMapView empty = { .viewport = { 0, 0, zooms[i], 0, 300, 200 } };
        g_autoptr (GArray) none = draw_map (&palette, &empty, cache, NULL);
        g_assert_cmpuint (none->len, ==, 0);
        g_assert_cmpint (fr_map_tree_at (&empty, cache, 1, 1, 5), ==, -1);
      }
}

static void
test_pictures (void)
{
  static const char *const themes[] = { "light", "dark", "paper" };
  guint numbers[13] = { 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 0 };

  for (guint i = 0; i < 6; i++)
    {
      FrPalette palette = { (FrTheme)(i % 3), i >= 3 };
      g_autoptr (FrMapCache) cache = fr_map_cache_new ();
      g_autofree char *name = g_strdup_printf ("map-%s%s.png", themes[i % 3], i >= 3 ? "-contrast" : "");
      Bush bush;
      bush_fill (&bush, 496, 754);
      bush.trees[0].is_selected = bush.trees[6].is_hovered = bush.trees[24].is_dimmed = TRUE;
      bush.round.numbers = i % 3 == 1 ? numbers : NULL;
      g_autoptr (GArray) labels = draw_map (&palette, &bush.view, cache, name);
      g_assert_true (stage_has_label (labels, "Gate"));
      g_assert_true (stage_has_label (labels, "Boiling shed"));
      g_assert_true (stage_has_label (labels, "20 m"));
      g_assert_true (stage_has_label (labels, "11") == (i % 3 == 1));
      g_assert_false (stage_has_label (labels, "Bank 2"));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/map/grey", test_grey);
  g_test_add_func ("/map/area", test_area);
  g_test_add_func ("/map/radius", test_radius);
  g_test_add_func ("/map/names", test_names);
  g_test_add_func ("/map/rank", test_rank);
  g_test_add_func ("/map/pan", test_pan);
  g_test_add_func ("/map/cache", test_cache);
  g_test_add_func ("/map/goes-along", test_goes_along);
  g_test_add_func ("/map/find", test_find);
  g_test_add_func ("/map/arrows", test_arrows);
  g_test_add_func ("/map/shapes", test_shapes);
  g_test_add_func ("/map/picture", test_picture);
  g_test_add_func ("/map/odd", test_odd);
  g_test_add_func ("/map/pictures", test_pictures);
  return g_test_run ();
}
