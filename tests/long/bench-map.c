/* What a frame of the map costs with 2,000 trees, at three zooms, while panning and while zooming, beside
 * drawing the very symbols in view bare, without names, ground or furniture, on the same surface in the same
 * run, frame by frame in turn. bench-map; medians and the slowest. The surface is an image, as under the
 * software renderer. Also the memory the map keeps. Not part of the tests. */
#include <malloc.h>
#include <math.h>
#include <stdio.h>

#include "../paint/bush.h"

#define N_TREES 2000
#define N_FRAMES 121
#define WIDTH_PX 1280
#define HEIGHT_PX 800
#define FRAME_S (1.0 / 60)

static const FrPalette light = { FR_THEME_LIGHT, FALSE };

static PangoContext *
new_context (void)
{
  g_autoptr (PangoFontMap) map = pango_cairo_font_map_new ();
  PangoFontDescription *font = pango_font_description_from_string ("Cantarell, Adwaita Sans, Sans 11");

  pango_cairo_font_map_set_resolution (PANGO_CAIRO_FONT_MAP (map), 96);
  PangoContext *context = pango_font_map_create_context (map);
  pango_context_set_font_description (context, font);
  pango_font_description_free (font);
  return context;
}

static guint
draw_bare (cairo_t *cr, const FrMapView *view)
{
  guint n = 0;

  for (gsize i = 0; i < view->n_trees; i++)
    {
      const FrMapTree *t = &view->trees[i];
      double x, y, r = fr_map_radius_px (view, t->diameter_m);
      fr_viewport_to_screen (&view->viewport, t->x_m, t->y_m, &x, &y);
      if (x < -2 * r || y < -2 * r || x > WIDTH_PX + 2 * r || y > HEIGHT_PX + 2 * r)
        continue;
      fr_map_symbol_draw (cr, &light, t, x, y, r);
      n++;
    }
  return n;
}

static int
compare (const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;

  return x < y ? -1 : x > y;
}

static void
measure (cairo_t *cr, PangoContext *context, FrMapView *view, FrMapCache *cache, double px_per_m,
         gboolean zooming)
{
  double map_s[N_FRAMES], bare_s[N_FRAMES], ratio[N_FRAMES], first_s = 0;
  guint n = 0;

  view->viewport.px_per_m = px_per_m;
  for (guint i = 0; i < N_FRAMES; i++)
    {
      if (zooming)
        fr_viewport_zoom_at (&view->viewport, 400, 300, i % 20 < 10 ? 1.02 : 1 / 1.02);
      else
        fr_viewport_pan (&view->viewport, i % 40 < 20 ? 7 : -7, i % 20 < 10 ? 3 : -3);
      gint64 start = g_get_monotonic_time ();
      fr_map_draw (cr, context, &light, view, cache, NULL);
      map_s[i] = 1e-6 * (double)(g_get_monotonic_time () - start);
      start = g_get_monotonic_time ();
      n = draw_bare (cr, view);
      bare_s[i] = 1e-6 * (double)(g_get_monotonic_time () - start);
      ratio[i] = map_s[i] / bare_s[i];
      if (i == 0)
        first_s = map_s[0];
    }
  qsort (map_s, N_FRAMES, sizeof *map_s, compare);
  qsort (bare_s, N_FRAMES, sizeof *bare_s, compare);
  qsort (ratio, N_FRAMES, sizeof *ratio, compare);
  printf ("%5.2f px/m, %4u trees in view, %s: map %5.2f ms (first %.1f, slowest %.1f), bare %5.2f ms, ratio "
          "%.2f, "
          "%.2f of a 60th\n",
          px_per_m, n, zooming ? "zooming" : "panning", 1e3 * map_s[N_FRAMES / 2], 1e3 * first_s,
          1e3 * map_s[N_FRAMES - 1], 1e3 * bare_s[N_FRAMES / 2], ratio[N_FRAMES / 2],
          map_s[N_FRAMES / 2] / FRAME_S);
}

int
main (void)
{
  static const double zooms[] = { 2.4, 6, 20 };
  FrMapTree *trees = many_new (N_TREES);
  PangoContext *context = new_context ();
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDTH_PX, HEIGHT_PX);
  cairo_t *cr = cairo_create (surface);
  FrMapView view = {
    .viewport = { 157, 157, 1, 0, WIDTH_PX, HEIGHT_PX },
    .trees = trees,
    .n_trees = N_TREES,
    .revision = 1,
    .unit_m = 1,
    .unit_name = "m",
    .has_north = TRUE,
  };

  /* The library's own first steps (fonts, glyphs) belong to neither. */
  fr_map_draw (cr, context, &light, &view, NULL, NULL);
  size_t before = mallinfo2 ().uordblks;
  FrMapCache *cache = fr_map_cache_new ();
  for (guint i = 0; i < G_N_ELEMENTS (zooms); i++)
    for (guint zooming = 0; zooming < 2; zooming++)
      measure (cr, context, &view, cache, zooms[i], zooming);
  printf ("kept: %.2f MB of pictures and tables; in all %.2f MB more on the heap\n",
          (double)fr_map_cache_bytes (cache) / 1e6, (double)(mallinfo2 ().uordblks - before) / 1e6);
  fr_map_cache_free (cache);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  g_object_unref (context);
  many_free (trees, N_TREES);
  return 0;
}
