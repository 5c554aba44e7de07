/* Invented bushes for tests: records made in a line each, all owned by one value. */
#pragma once

#include "domain/plan/bush.h"

#include <math.h>

typedef struct
{
  FrBushBook book;
  FrGround *ground;
  FrTapping *tapping;
} Bush;

static inline GPtrArray *
bush_records (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);
}

static inline Bush
bush_begin (void)
{
  Bush b = { .book = { bush_records (), bush_records (), bush_records (), bush_records (), bush_records () },
             .ground = (FrGround *)fr_record_new (FR_KIND_GROUND),
             .tapping = (FrTapping *)fr_record_new (FR_KIND_TAPPING) };

  b.book.ground = b.ground;
  b.book.tapping = b.tapping;
  return b;
}

static inline void
bush_clear (Bush *b)
{
  g_ptr_array_unref (b->book.trees);
  g_ptr_array_unref (b->book.girths);
  g_ptr_array_unref (b->book.taps);
  g_ptr_array_unref (b->book.yields);
  g_ptr_array_unref (b->book.features);
  fr_record_free (&b->ground->record);
  fr_record_free (&b->tapping->record);
}

static inline void
bush_set (char **text, const char *value)
{
  g_free (*text);
  *text = g_strdup (value);
}

static inline gpointer
bush_add (GPtrArray *records, FrKindId kind)
{
  FrRecord *record = fr_record_new (kind);

  record->id = (gint64)records->len + 1;
  g_ptr_array_add (records, record);
  return record;
}

/* Healthy and the household's own. */
static inline FrTree *
bush_tree (Bush *b, const char *species, double x_m, double y_m)
{
  FrTree *tree = bush_add (b->book.trees, FR_KIND_TREE);

  tree->name = g_strdup_printf ("T%u", b->book.trees->len);
  bush_set (&tree->species, species);
  bush_set (&tree->health, "healthy");
  bush_set (&tree->permission, "own");
  tree->x_m.value = x_m;
  tree->y_m.value = y_m;
  return tree;
}

static inline FrGirth *
bush_girth (Bush *b, const FrTree *tree, const char *day, const char *measure, double size_m)
{
  FrGirth *girth = bush_add (b->book.girths, FR_KIND_GIRTH);

  girth->tree = tree->record.id;
  girth->measured_on = g_strdup (day);
  bush_set (&girth->measure, measure);
  girth->size_m.value = size_m;
  return girth;
}

/* @set_on NULL: planned. */
static inline FrTap *
bush_tap (Bush *b, const FrTree *tree, guint season, const char *set_on, double direction_deg,
          double height_m)
{
  FrTap *tap = bush_add (b->book.taps, FR_KIND_TAP);

  tap->tree = tree->record.id;
  tap->season.value = season;
  tap->set_on = g_strdup (set_on);
  tap->direction_deg.value = direction_deg;
  tap->height_m.value = height_m;
  return tap;
}

/* What it gave, as read by an instrument that corrects itself. */
static inline FrYield *
bush_yield (Bush *b, const FrTree *tree, guint season, double volume_l, double brix)
{
  FrYield *yield = bush_add (b->book.yields, FR_KIND_YIELD);

  yield->tree = tree->record.id;
  yield->season.value = season;
  yield->volume_l.value = volume_l;
  yield->reading_brix.value = brix;
  return yield;
}

static inline FrFeature *
bush_feature (Bush *b, const char *form, const char *points)
{
  FrFeature *feature = bush_add (b->book.features, FR_KIND_FEATURE);

  bush_set (&feature->form, form);
  feature->points = g_strdup (points);
  return feature;
}

/* A tree that may carry two taps. */
static inline FrTree *
bush_thick (Bush *b, double x_m, double y_m)
{
  FrTree *tree = bush_tree (b, "sugar", x_m, y_m);

  bush_girth (b, tree, "2025-09-20", "diameter", 0.5);
  return tree;
}

/* So many trees within 100 m of the boiling place, three in four with some of five seasons, half with a tap
 * in 2026. */
static inline Bush
bush_random (GRand *rand, guint n)
{
  Bush b = bush_begin ();

  bush_feature (&b, "boiling", "0 0");
  for (guint i = 0; i < n; i++)
    {
      FrTree *tree = bush_tree (&b, g_rand_int_range (rand, 0, 3) > 0 ? "sugar" : "red",
                                g_rand_double_range (rand, -100, 100), g_rand_double_range (rand, -100, 100));

      bush_girth (&b, tree, "2025-09-20", "diameter", g_rand_double_range (rand, 0.2, 0.8));
      for (guint season = 2021; season <= 2025; season++)
        if (g_rand_int_range (rand, 0, 3) > 0)
          {
            bush_tap (&b, tree, season, "2021-03-01", g_rand_int_range (rand, 0, 360), 0.9);
            bush_yield (&b, tree, season, g_rand_double_range (rand, 5, 60),
                        g_rand_double_range (rand, 1, 3.5));
          }
      if (g_rand_int_range (rand, 0, 2))
        bush_tap (&b, tree, 2026, g_rand_int_range (rand, 0, 2) ? "2026-03-01" : NULL, 5, 0.7);
    }
  return b;
}
