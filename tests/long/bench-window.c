/* What a frame of the sugarbush page costs while the map is panned and zoomed, from the frame clock's start
 * of painting to its end, in turns with a window of the map's size that draws the very symbols in view bare:
 * no names, ground, furniture, list or panel. Run under tests/headless, so that the renderer is the software
 * one. bench-window [TREES], 2,000 of them unless said otherwise; also the memory resident then. */
#include <adwaita.h>
#include <glib/gstdio.h>
#include <math.h>
#include <stdio.h>
#include <unistd.h>

#include "ui/application.h"
#include "ui/bush-map.h"
#include "ui/map-scene.h"
#include "ui/sugarbush-page.h"
#include "ui/theme.h"
#include "ui/window.h"

#define N_FRAMES 121

typedef struct
{
  GtkWidget *widget;
  gint64 began_us;
  gint64 took_us;
  gboolean painted;
} Clocked;

/* --- the bare window --- */

#define BENCH_TYPE_BARE (bench_bare_get_type ())
G_DECLARE_FINAL_TYPE (BenchBare, bench_bare, BENCH, BARE, GtkWidget)

struct _BenchBare
{
  GtkWidget parent_instance;
  FrMapView view;
};

G_DEFINE_FINAL_TYPE (BenchBare, bench_bare, GTK_TYPE_WIDGET)

static guint
draw_bare (cairo_t *cr, const FrMapView *view)
{
  FrPalette palette = fr_theme_palette ();
  guint n = 0;

  for (gsize i = 0; i < view->n_trees; i++)
    {
      const FrMapTree *tree = &view->trees[i];
      double x_px, y_px, radius_px = fr_map_radius_px (view, tree->diameter_m);

      fr_viewport_to_screen (&view->viewport, tree->x_m, tree->y_m, &x_px, &y_px);
      if (x_px < -2 * radius_px || y_px < -2 * radius_px || x_px > view->viewport.width_px + 2 * radius_px
          || y_px > view->viewport.height_px + 2 * radius_px)
        continue;
      if (cr != NULL)
        fr_map_symbol_draw (cr, &palette, tree, x_px, y_px, radius_px);
      n++;
    }
  return n;
}

static void
bench_bare_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));

  draw_bare (cr, &BENCH_BARE (widget)->view);
  cairo_destroy (cr);
}

static void
bench_bare_class_init (BenchBareClass *klass)
{
  GTK_WIDGET_CLASS (klass)->snapshot = bench_bare_snapshot;
}

static void
bench_bare_init (BenchBare *self)
{
}

/* --- measuring --- */

static void
before_cb (Clocked *clocked)
{
  clocked->began_us = g_get_monotonic_time ();
}

static void
after_cb (Clocked *clocked)
{
  clocked->took_us = g_get_monotonic_time () - clocked->began_us;
  clocked->painted = TRUE;
}

static void
clock_window (Clocked *clocked, GtkWidget *widget)
{
  GdkFrameClock *clock = gtk_widget_get_frame_clock (widget);

  clocked->widget = widget;
  g_signal_connect_swapped (clock, "before-paint", G_CALLBACK (before_cb), clocked);
  g_signal_connect_swapped (clock, "after-paint", G_CALLBACK (after_cb), clocked);
}

static double
frame_ms (Clocked *clocked)
{
  clocked->painted = FALSE;
  gtk_widget_queue_draw (clocked->widget);
  while (!clocked->painted)
    g_main_context_iteration (NULL, TRUE);
  return 1e-3 * (double)clocked->took_us;
}

static gboolean
tick_cb (gpointer data)
{
  *(gboolean *)data = TRUE;
  return G_SOURCE_REMOVE;
}

static void
settle (guint span_ms)
{
  gboolean done = FALSE;

  g_timeout_add (span_ms, tick_cb, &done);
  while (!done)
    g_main_context_iteration (NULL, TRUE);
}

static int
compare (gconstpointer a, gconstpointer b)
{
  double x = *(const double *)a, y = *(const double *)b;

  return x < y ? -1 : x > y;
}

static double
resident_mib (void)
{
  g_autofree char *text = NULL;
  g_auto (GStrv) parts = NULL;

  if (!g_file_get_contents ("/proc/self/statm", &text, NULL, NULL))
    return NAN;
  parts = g_strsplit (text, " ", 3);
  return g_ascii_strtod (parts[1], NULL) * (double)sysconf (_SC_PAGESIZE) / (1024 * 1024);
}

static GtkWidget *
find (GtkWidget *widget, GType type)
{
  if (G_TYPE_CHECK_INSTANCE_TYPE (widget, type))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find (child, type);

      if (found != NULL)
        return found;
    }
  return NULL;
}

/* --- the book --- */

/* In rows with a jitter, taps on every third, sizes from 30 to 80 cm. */
static gboolean
fill (const char *path, guint n_trees, GError **error)
{
  g_autoptr (FrBook) book = fr_book_open (path, error);
  g_autoptr (FrChange) change = fr_change_new ("import-trees", NULL);
  g_autoptr (GRand) random = g_rand_new_with_seed (20260319);
  guint n_taps = 0;

  if (book == NULL)
    return FALSE;
  for (guint i = 0; i < n_trees; i++)
    {
      g_autoptr (FrRecord) tree = fr_book_new_record (book, FR_KIND_TREE, i, error);
      g_autoptr (FrRecord) girth = fr_book_new_record (book, FR_KIND_GIRTH, i, error);
      g_autofree char *name = g_strdup_printf ("T%u", i + 1);

      fr_record_set_text (tree, fr_kind_field (tree->kind, "name"), name);
      fr_amount_set (&((FrTree *)tree)->x_m, 7.0 * (i % 45) + g_rand_double_range (random, -2, 2), NULL);
      fr_amount_set (&((FrTree *)tree)->y_m, 7.0 * (i / 45) + g_rand_double_range (random, -2, 2), NULL);
      fr_change_add (change, NULL, tree);
      ((FrGirth *)girth)->tree = tree->id;
      fr_record_set_text (girth, fr_kind_field (girth->kind, "measured_on"), "2025-11-08");
      fr_amount_set (&((FrGirth *)girth)->size_m, G_PI * g_rand_double_range (random, 0.3, 0.8), NULL);
      fr_change_add (change, NULL, girth);
      if (i % 3 == 0)
        {
          g_autoptr (FrRecord) tap = fr_book_new_record (book, FR_KIND_TAP, n_taps++, error);

          ((FrTap *)tap)->tree = tree->id;
          fr_amount_set (&((FrTap *)tap)->season, 2026, NULL);
          fr_record_set_text (tap, fr_kind_field (tap->kind, "set_on"), "2026-03-05");
          fr_amount_set (&((FrTap *)tap)->direction_deg, g_rand_double_range (random, 0, 360), NULL);
          fr_change_add (change, NULL, tap);
        }
    }
  return fr_book_apply (book, change, error);
}

static void
pan (GtkWidget *map, double right)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (map);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) one = g_list_model_get_item (controllers, i);
      gboolean taken = FALSE;

      if (GTK_IS_EVENT_CONTROLLER_KEY (one))
        g_signal_emit_by_name (one, "key-pressed", right > 0 ? GDK_KEY_Right : GDK_KEY_Left, 0,
                               GDK_SHIFT_MASK, &taken);
    }
}

static void
measure (const char *what, Clocked *page, GtkWidget *map, Clocked *bare, gboolean zooming)
{
  double page_ms[N_FRAMES], bare_ms[N_FRAMES], ratio[N_FRAMES];
  BenchBare *symbols = BENCH_BARE (bare->widget);

  for (guint i = 0; i < N_FRAMES; i++)
    {
      if (zooming)
        fr_bush_map_zoom (FR_BUSH_MAP (map), i % 20 < 10 ? 1.02 : 1 / 1.02);
      else
        pan (map, i % 6 < 3 ? 1 : -1);
      page_ms[i] = frame_ms (page);
      symbols->view.viewport = *fr_bush_map_get_viewport (FR_BUSH_MAP (map));
      bare_ms[i] = frame_ms (bare);
      ratio[i] = page_ms[i] / bare_ms[i];
    }
  qsort (page_ms, N_FRAMES, sizeof *page_ms, compare);
  qsort (bare_ms, N_FRAMES, sizeof *bare_ms, compare);
  qsort (ratio, N_FRAMES, sizeof *ratio, compare);
  printf ("%s, %u trees in view: page %.2f ms (slowest %.1f), bare %.2f ms, ratio %.2f\n", what,
          draw_bare (NULL, &symbols->view), page_ms[N_FRAMES / 2], page_ms[N_FRAMES - 1],
          bare_ms[N_FRAMES / 2], ratio[N_FRAMES / 2]);
}

int
main (int argc, char **argv)
{
  guint n_trees = argc > 1 ? (guint)g_ascii_strtoull (argv[1], NULL, 10) : 2000;
  g_autofree char *folder = g_dir_make_tmp ("frostrun-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "many.frostrun", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (FrMapScene) scene = fr_map_scene_new ();
  FrApplication *app;
  GtkWidget *window, *map, *bare_window;
  FrSugarbush *bush;
  BenchBare *bare;
  Clocked page = { 0 }, alone = { 0 };

  gtk_init ();
  adw_init ();
  app = fr_application_new (G_APPLICATION_NON_UNIQUE);
  if (!fill (path, n_trees, &error) || !g_application_register (G_APPLICATION (app), NULL, &error)
      || !fr_application_open_book (app, path, &error))
    {
      g_printerr ("bench-window: %s\n", error->message);
      return 1;
    }
  window = GTK_WIDGET (gtk_application_get_active_window (GTK_APPLICATION (app)));
  fr_window_set_up (FR_WINDOW (window), FALSE); /* the book has no household, which is no matter here */
  fr_window_show_page (FR_WINDOW (window), "sugarbush");
  settle (1500);
  map = find (window, FR_TYPE_BUSH_MAP);
  bush = fr_sugarbush_page_get_bush (FR_SUGARBUSH_PAGE (find (window, FR_TYPE_SUGARBUSH_PAGE)));
  printf ("%u trees: %.1f MiB resident\n", n_trees, resident_mib ());

  bare = g_object_new (BENCH_TYPE_BARE, NULL);
  fr_map_scene_load (scene, bush);
  fr_map_scene_show (scene, &bare->view);
  bare->view.scale_ratio = 1;
  bare_window = gtk_window_new ();
  /* As large as the page's window, for what a frame costs is for the most part its way to the display. */
  gtk_window_set_titlebar (GTK_WINDOW (bare_window), gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0));
  gtk_window_set_child (GTK_WINDOW (bare_window), GTK_WIDGET (bare));
  gtk_widget_set_size_request (GTK_WIDGET (bare), gtk_widget_get_width (map), gtk_widget_get_height (map));
  gtk_widget_set_halign (GTK_WIDGET (bare), GTK_ALIGN_CENTER);
  gtk_widget_set_valign (GTK_WIDGET (bare), GTK_ALIGN_CENTER);
  gtk_window_set_default_size (GTK_WINDOW (bare_window), gtk_widget_get_width (window),
                               gtk_widget_get_height (window));
  gtk_window_present (GTK_WINDOW (bare_window));
  settle (500);
  clock_window (&page, map);
  clock_window (&alone, GTK_WIDGET (bare));

  for (guint i = 0; i < 3; i++)
    {
      static const char *const zooms[] = { "everything", "four times closer", "sixteen times closer" };
      g_autofree char *panning = g_strdup_printf ("%s, panning", zooms[i]);
      g_autofree char *zooming = g_strdup_printf ("%s, zooming", zooms[i]);

      measure (panning, &page, map, &alone, FALSE);
      measure (zooming, &page, map, &alone, TRUE);
      fr_bush_map_zoom (FR_BUSH_MAP (map), 4);
    }
  gtk_window_destroy (GTK_WINDOW (bare_window));
  gtk_window_destroy (GTK_WINDOW (window));
  settle (50);
  g_object_unref (app);
  g_unlink (path);
  g_rmdir (folder);
  return 0;
}
