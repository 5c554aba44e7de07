/* A large sugarbush, 2,000 trees through 10 seasons, on the model side: how long the book takes to open, the
 * bush to be made, an edit to be kept and shown, and how much memory it takes, beside a bare SQLite reading
 * the same rows. bench-bush [trees] [seasons]; the time is the processor's, without waiting for the disk, and
 * each figure the least of several runs. */
#include <math.h>
#include <stdlib.h>

#include "bench-tools.h"

#include "domain/plan/gathering-share.h"
#include "models/bush-edit.h"
#include "models/sugarbush.h"

/* 16 January 2027, 17:00 UTC. */
#define NOW_UTC 1800118800
#define LAST_SEASON 2026
#define RUNS 7

/* Invented: trunks of 25 to 70 cm that grow 3 mm a year, a tap or two a season, sap of about 2 °Bx. */
static FrChange *
big_bush (guint n_trees, guint n_seasons)
{
  static const char *const species[] = { "sugar", "sugar", "sugar", "red", "black", "silver" };
  g_autoptr (GRand) rand = g_rand_new_with_seed (1);
  FrChange *change = fr_change_new ("import-book", NULL);
  gint64 tap_id = 1, yield_id = 1, girth_id = 1;

  for (guint t = 1; t <= n_trees; t++)
    {
      FrTree *tree = (FrTree *)bench_record (FR_KIND_TREE, t, rand);
      double diameter_m = g_rand_double_range (rand, 0.25, 0.7);
      guint taps = diameter_m > 0.5 ? 2 : 1;
      double own_ratio
          = exp (g_rand_double_range (rand, -0.5, 0.5)); /* some trees give twice what others do */

      tree->name = g_strdup_printf ("T%u", t);
      fr_record_set_text (&tree->record, fr_kind_field (tree->record.kind, "species"),
                          species[g_rand_int_range (rand, 0, G_N_ELEMENTS (species))]);
      fr_amount_set (&tree->x_m, g_rand_double_range (rand, 0, 600), NULL);
      fr_amount_set (&tree->y_m, g_rand_double_range (rand, 0, 600), NULL);
      bench_add (change, &tree->record);
      for (guint s = 0; s < n_seasons; s++)
        {
          guint season = LAST_SEASON - s;
          FrYield *yield = (FrYield *)bench_record (FR_KIND_YIELD, yield_id++, rand);

          yield->tree = t;
          fr_amount_set (&yield->season, season, NULL);
          fr_amount_set (&yield->volume_l, taps * own_ratio * g_rand_double_range (rand, 20, 60), NULL);
          fr_amount_set (&yield->reading_brix, own_ratio * g_rand_double_range (rand, 1.6, 2.2), NULL);
          bench_add (change, &yield->record);
          for (guint i = 0; i < taps; i++)
            {
              FrTap *tap = (FrTap *)bench_record (FR_KIND_TAP, tap_id++, rand);

              tap->tree = t;
              fr_amount_set (&tap->season, season, NULL);
              tap->set_on = g_strdup_printf ("%u-02-20", season);
              tap->pulled_on = g_strdup_printf ("%u-04-05", season);
              fr_amount_set (&tap->height_m, g_rand_double_range (rand, 0.6, 1.2), NULL);
              fr_amount_set (&tap->direction_deg, floor (g_rand_double_range (rand, 0, 360)), NULL);
              bench_add (change, &tap->record);
            }
          if (s % 4 == 0)
            {
              FrGirth *girth = (FrGirth *)bench_record (FR_KIND_GIRTH, girth_id++, rand);

              girth->tree = t;
              girth->measured_on = g_strdup_printf ("%u-01-10", season);
              fr_amount_set (&girth->size_m, G_PI * (diameter_m - 0.003 * s), NULL);
              bench_add (change, &girth->record);
            }
        }
    }
  return change;
}

/* The page's kinds. */
static guint
read_kinds (const char *path)
{
  sqlite3 *db = bench_open_bare (path);
  guint rows = 0;

  for (guint k = FR_KIND_TREE; k <= FR_KIND_TAPPING; k++)
    {
      g_autofree char *sql = g_strdup_printf ("SELECT * FROM \"%s\" ORDER BY id", fr_kind ((FrKindId)k)->name);

      rows += bench_read_bare (db, sql);
    }
  sqlite3_close (db);
  return rows;
}

static GPtrArray *
records_of (FrBook *book, FrKindId kind)
{
  FrRecordList *list = fr_book_get_list (book, kind);
  GPtrArray *records = g_ptr_array_new ();

  for (guint i = 0; i < fr_record_list_get_size (list); i++)
    g_ptr_array_add (records, (gpointer)fr_record_list_get (list, i));
  return records;
}

static double
time_bush_new (FrBook *book)
{
  FrBushBook records = { .trees = records_of (book, FR_KIND_TREE),
                         .girths = records_of (book, FR_KIND_GIRTH),
                         .taps = records_of (book, FR_KIND_TAP),
                         .yields = records_of (book, FR_KIND_YIELD),
                         .features = records_of (book, FR_KIND_FEATURE) };
  double least = INFINITY;

  for (guint run = 0; run < RUNS; run++)
    {
      gint64 start = bench_cpu_us ();
      FrBush *bush = fr_bush_new (&records, 2027, (FrDate){ 2027, 1, 16 });

      least = fmin (least, bench_since_s (start));
      fr_bush_free (bush);
    }
  g_ptr_array_unref (records.trees);
  g_ptr_array_unref (records.girths);
  g_ptr_array_unref (records.taps);
  g_ptr_array_unref (records.yields);
  g_ptr_array_unref (records.features);
  return least;
}

/* Forty days of a line for each of @n_trees, a total every tenth day; by time. */
static GPtrArray *
gathered (guint n_trees, guint n_seasons)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (2);
  GPtrArray *lines = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);

  for (guint season = LAST_SEASON + 2 - n_seasons; season <= LAST_SEASON + 1; season++)
    for (guint day = 0; day < 40; day++)
      for (guint t = 1; t <= (day % 10 == 9 ? 1 : n_trees); t++)
        {
          FrGathering *line = (FrGathering *)bench_record (FR_KIND_GATHERING, lines->len + 1, rand);

          line->gathered_utc
              = (fr_date_to_days ((FrDate){ (gint)season, 3, 1 }) + day) * 86400 + 60000 + t;
          if (day % 10 != 9)
            {
              g_free (line->scope);
              line->scope = g_strdup ("tree");
              line->tree = t;
            }
          fr_amount_set (&line->volume_l, g_rand_double_range (rand, 0, 5) * (day % 10 == 9 ? n_trees : 1), NULL);
          fr_amount_set (&line->reading_brix, g_rand_double_range (rand, 1.5, 3), NULL);
          g_ptr_array_add (lines, line);
        }
  return lines;
}

/* What a season's gatherings add to making the bush, and the earlier seasons' totals. */
static void
print_gathered (FrBook *book, guint n_trees, guint n_seasons, double bush_s)
{
  FrBushBook records = { .trees = records_of (book, FR_KIND_TREE),
                         .girths = records_of (book, FR_KIND_GIRTH),
                         .taps = records_of (book, FR_KIND_TAP) };
  g_autoptr (GPtrArray) season = gathered (n_trees, 1), all = gathered (n_trees, n_seasons);
  double with_s = INFINITY, totals_s = INFINITY;

  for (guint run = 0; run < RUNS; run++)
    {
      gint64 start = bench_cpu_us ();
      FrGatheringSharer *sharer = fr_gathering_sharer_new (&records);

      for (guint i = 0; i < all->len; i++)
        fr_gathering_sharer_add (sharer, all->pdata[i]);
      g_array_unref (fr_gathering_sharer_finish (sharer));
      totals_s = fmin (totals_s, bench_since_s (start));
    }
  records.yields = records_of (book, FR_KIND_YIELD);
  records.features = records_of (book, FR_KIND_FEATURE);
  records.gatherings = season;
  for (guint run = 0; run < RUNS; run++)
    {
      gint64 start = bench_cpu_us ();
      FrBush *bush = fr_bush_new (&records, 2027, (FrDate){ 2027, 4, 16 });

      with_s = fmin (with_s, bench_since_s (start));
      fr_bush_free (bush);
    }
  g_print ("bush made with %6u gatherings of %4u trees: %8.1f ms, %.1f ms more\n", season->len, n_trees,
           with_s * 1e3, (with_s - bush_s) * 1e3);
  g_print ("totals of %u gatherings in %u seasons: %8.1f ms\n", all->len, n_seasons, totals_s * 1e3);
  g_ptr_array_unref (records.trees);
  g_ptr_array_unref (records.girths);
  g_ptr_array_unref (records.taps);
  g_ptr_array_unref (records.yields);
  g_ptr_array_unref (records.features);
}

/* The least time of applying what @make makes, one after the other. */
static double
time_edit (FrBook *book, FrChange *(*make) (FrBook *book, guint run), double *make_out)
{
  double least = INFINITY;

  *make_out = INFINITY;
  for (guint run = 0; run < RUNS; run++)
    {
      g_autoptr (GError) error = NULL;
      gint64 start = bench_cpu_us ();
      g_autoptr (FrChange) change = make (book, run);

      *make_out = fmin (*make_out, bench_since_s (start));
      g_assert_nonnull (change);
      start = bench_cpu_us ();
      fr_book_apply (book, change, &error);
      least = fmin (least, bench_since_s (start));
      g_assert_no_error (error);
    }
  return least;
}

static FrChange *
edit_one (FrBook *book, guint run)
{
  gint64 id = 5 + run;

  return fr_bush_edit_set (book, &id, 1, "note", "by the brook", NAN, NULL);
}

static FrChange *
edit_early (FrBook *book, guint run)
{
  return edit_one (book, 300 + run);
}

static FrChange *
rename_one (FrBook *book, guint run)
{
  gint64 id = 105 + run;

  return fr_bush_edit_set (book, &id, 1, "name", "Z", NAN, NULL);
}

/* What was measured changes what is expected of all. */
static FrChange *
measure_one (FrBook *book, guint run)
{
  return fr_bush_edit_girth (book, 205 + run, (FrDate){ 2027, 1, 16 }, TRUE, 1.5, NULL, NULL);
}

static FrChange *
add_one (FrBook *book, guint run)
{
  return fr_bush_edit_add_tree (book, NULL, "red", run, 5, NULL);
}

static FrChange *
move_all (FrBook *book, guint run)
{
  FrRecordList *list = fr_book_get_list (book, FR_KIND_TREE);
  guint n = fr_record_list_get_size (list);
  g_autofree gint64 *ids = g_new (gint64, n);

  for (guint i = 0; i < n; i++)
    ids[i] = fr_record_list_get (list, i)->id;
  return fr_bush_edit_move (book, ids, n, 1, 0.5, NULL);
}

static FrChange *
plan_all (FrBook *book, guint run)
{
  FrSugarbush *page = g_object_get_data (G_OBJECT (book), "page");
  const FrBush *bush = fr_sugarbush_get_bush (page);
  g_autoptr (GArray) taps = g_array_new (FALSE, FALSE, sizeof (guint));
  FrBushPlan plan = { .code = FR_BUSH_PLAN_OK, .taps = taps };
  guint wanted = run % 2 == 0 ? 1 : 0;

  for (guint i = 0; i < fr_bush_n_trees (bush); i++)
    g_array_append_val (taps, wanted);
  return fr_bush_edit_take_plan (book, bush, &plan, NULL);
}

static void
print_edits (FrBook *book, double bare_s)
{
  static const struct
  {
    const char *name;
    FrChange *(*make) (FrBook *book, guint run);
  } edits[]
      = { { "one tree's note", edit_one },      { "one tree's name", rename_one },
          { "one tree measured", measure_one }, { "one tree more", add_one },
          { "all trees moved", move_all },      { "a tap planned on each tree, or taken away", plan_all } };

  for (guint i = 0; i < G_N_ELEMENTS (edits); i++)
    {
      double make_s, apply_s = time_edit (book, edits[i].make, &make_s);

      g_print ("%-42s %8.2f ms made, %8.2f ms kept and shown, %.2f of a bare read\n", edits[i].name,
               make_s * 1e3, apply_s * 1e3, (make_s + apply_s) / bare_s);
    }
}

int
main (int argc, char **argv)
{
  guint n_trees = argc > 1 ? (guint)atoi (argv[1]) : 2000, n_seasons = argc > 2 ? (guint)atoi (argv[2]) : 10,
        rows = 0;
  g_autofree char *folder = g_dir_make_tmp ("frostrun-bench-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "book.frostrun", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (FrBook) book = NULL;
  g_autoptr (FrSugarbush) page = NULL;
  double bare_s = INFINITY, open_s = INFINITY, page_s = INFINITY, refresh_s, undo_s, bush_s, before_mb,
         book_mb, page_mb;
  gint64 start;

  {
    g_autoptr (FrStore) store = fr_store_open (path, TRUE, &error);
    g_autoptr (FrChange) all = NULL;

    g_assert_no_error (error);
    start = bench_cpu_us ();
    all = big_bush (n_trees, n_seasons);
    g_print ("%u records as one change:             %8.1f ms\n", all->steps->len,
             bench_since_s (start) * 1e3);
    start = bench_cpu_us ();
    fr_store_apply (store, all, FR_ORIGIN_IMPORT, NOW_UTC, &error);
    g_assert_no_error (error);
    g_print ("kept by the store:                       %8.1f ms\n", bench_since_s (start) * 1e3);
  }
  for (guint run = 0; run < RUNS; run++)
    {
      start = bench_cpu_us ();
      rows = read_kinds (path);
      bare_s = fmin (bare_s, bench_since_s (start));
    }
  g_print ("%u rows read by bare SQLite:          %8.1f ms\n", rows, bare_s * 1e3);

  before_mb = bench_heap_mb ();
  for (guint run = 0; run < RUNS; run++)
    {
      g_clear_object (&book);
      start = bench_cpu_us ();
      book = fr_book_open (path, &error);
      open_s = fmin (open_s, bench_since_s (start));
      g_assert_no_error (error);
    }
  book_mb = bench_heap_mb () - before_mb;
  g_print ("book opened:                             %8.1f ms, %.2f bare reads, %.1f MB\n", open_s * 1e3,
           open_s / bare_s, book_mb);
  bush_s = time_bush_new (book);
  g_print ("bush made:                               %8.1f ms, %.2f bare reads\n", bush_s * 1e3,
           bush_s / bare_s);
  print_gathered (book, MIN (n_trees, 200), 2 * n_seasons, bush_s);
  print_gathered (book, n_trees, 1, bush_s);
  {
    double make_s, apply_s = time_edit (book, edit_early, &make_s);

    g_print ("one tree's note kept, nothing shown:     %8.2f ms\n", apply_s * 1e3);
  }
  before_mb = bench_heap_mb ();
  for (guint run = 0; run < RUNS; run++)
    {
      g_clear_object (&page);
      start = bench_cpu_us ();
      page = fr_sugarbush_new (book, NOW_UTC);
      page_s = fmin (page_s, bench_since_s (start));
    }
  page_mb = bench_heap_mb () - before_mb;
  g_print ("page's model made:                       %8.1f ms, %.2f bare reads, %.1f MB\n", page_s * 1e3,
           page_s / bare_s, page_mb);
  g_object_set_data (G_OBJECT (book), "page", page);
  print_edits (book, bare_s);

  start = bench_cpu_us ();
  for (guint i = 0; i < 5; i++)
    g_assert_true (fr_book_undo (book, NULL));
  undo_s = bench_since_s (start) / 5;
  g_print ("a step with all taps undone:             %8.1f ms\n", undo_s * 1e3);
  {
    g_autoptr (FrStore) beside = fr_store_open (path, FALSE, NULL);
    g_autoptr (FrChange) change = edit_one (book, 50);

    g_assert_true (fr_store_apply (beside, change, FR_ORIGIN_CLI, NOW_UTC, NULL));
  }
  start = bench_cpu_us ();
  g_assert_true (fr_book_refresh (book, NULL));
  refresh_s = bench_since_s (start);
  g_print ("read anew after another program wrote:   %8.1f ms, %.2f bare reads\n", refresh_s * 1e3,
           refresh_s / bare_s);

  fr_sugarbush_set_filter (page, FR_TREE_SHOW_ALL, "1");
  start = bench_cpu_us ();
  fr_sugarbush_set_filter (page, FR_TREE_SHOW_ALL, "12");
  g_print ("a letter more in the search:             %8.2f ms\n", bench_since_s (start) * 1e3);
  start = bench_cpu_us ();
  fr_sugarbush_set_sort (page, FR_TREE_SORT_SIZE, TRUE);
  g_print ("another order:                           %8.2f ms\n", bench_since_s (start) * 1e3);

  g_clear_object (&page);
  g_clear_object (&book);
  bench_remove_book (folder, path);
  return 0;
}
