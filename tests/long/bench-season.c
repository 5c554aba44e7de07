/* Many seasons of sap in one book, 20 of 200 trees and 40 days unless told otherwise, on the model side and as a
 * picture: opening, the season's answer, its drawing, a row more. Beside each a bare SQLite doing the bare query of
 * it in the same run. bench-season [seasons] [trees] [days]; times are the processor's, without waiting for the disk,
 * each the least of several runs, except where it says "by the clock". */
#include <math.h>
#include <stdlib.h>

#include "bench-tools.h"
#include "domain/plan/gathering-share.h"
#include "domain/plan/season.h"
#include "formats/zone-source.h"
#include "models/season.h"
#include "models/sugarbush.h"
#include "models/tonight.h"
#include "paint/season-strip.h"

#define LAST_SEASON 2026
/* 26 March 2026, 17:00 UTC: the fortieth day is gathered. */
#define NOW_UTC 1774544400
#define RUNS 7
#define FRAME_S (1.0 / 60)
#define ZONE "America/Toronto"

typedef struct
{
  guint n_seasons;
  guint n_trees;
  guint n_days;
  FrZoneTable *zone;
  GRand *rand;
  gint64 next_id[FR_N_KINDS];
} Make;

static gpointer
new_of (Make *make, FrKindId kind)
{
  return bench_record (kind, ++make->next_id[kind], make->rand);
}

static void
set_code (FrRecord *record, const char *field, const char *code)
{
  fr_record_set_text (record, fr_kind_field (record->kind, field), code);
}

static void
add_kit (Make *make, FrChange *change)
{
  static const char *const names[] = { "Barrel", "Snow can", "Cold box", "Pail" };
  FrHousehold *household = new_of (make, FR_KIND_HOUSEHOLD);
  FrVesselRecord *vessel = new_of (make, FR_KIND_VESSEL);
  FrCooker *cooker = new_of (make, FR_KIND_COOKER);
  FrTariffRecord *tariff = new_of (make, FR_KIND_TARIFF);

  household->name = g_strdup ("Bench");
  household->zone = g_strdup (ZONE);
  household->currency = g_strdup ("CAD");
  bench_add (change, &household->record);
  vessel->name = g_strdup ("Pan");
  fr_amount_set (&vessel->diameter_m, 0.5, NULL);
  fr_amount_set (&vessel->height_m, 0.3, NULL);
  fr_amount_set (&vessel->hold_l, 20, NULL);
  bench_add (change, &vessel->record);
  cooker->name = g_strdup ("Stove");
  fr_amount_set (&cooker->power_w, 1800, NULL);
  fr_amount_set (&cooker->heat_ratio, 0.8, NULL);
  cooker->vessel = 1;
  bench_add (change, &cooker->record);
  tariff->name = g_strdup ("By the hour");
  tariff->periods = g_strdup ("01-01 12-31 all 19:00 07:00 9.8\n01-01 12-31 all 07:00 11:00 20.3\n"
                              "01-01 12-31 all 11:00 17:00 15.7\n01-01 12-31 all 17:00 19:00 20.3");
  tariff->in_use = TRUE;
  bench_add (change, &tariff->record);
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      FrContainer *container = new_of (make, FR_KIND_CONTAINER);

      container->name = g_strdup (names[i]);
      set_code (&container->record, "role", i == 3 ? "bucket" : "store");
      set_code (&container->record, "place", i == 1 ? "snowbank" : "shed");
      fr_amount_set (&container->capacity_l, i == 3 ? 12 : 2000, NULL);
      fr_amount_set (&container->empty_kg, 0.9, NULL);
      bench_add (change, &container->record);
    }
  for (guint i = 0; i < make->n_trees; i++)
    {
      FrTree *tree = new_of (make, FR_KIND_TREE);
      FrGirth *girth = new_of (make, FR_KIND_GIRTH);

      tree->name = g_strdup_printf ("T%u", i + 1);
      set_code (&tree->record, "species", i % 5 == 0 ? "red" : "sugar");
      fr_amount_set (&tree->x_m, g_rand_double_range (make->rand, 0, 200), NULL);
      fr_amount_set (&tree->y_m, g_rand_double_range (make->rand, 0, 200), NULL);
      bench_add (change, &tree->record);
      girth->tree = i + 1;
      girth->measured_on = g_strdup ("2006-01-10");
      fr_amount_set (&girth->size_m, g_rand_double_range (make->rand, 0.9, 2.2), NULL);
      bench_add (change, &girth->record);
    }
}

/* One day of a season: a line a tree, some pours, a look, the weather, and a boil. */
static void
add_day (Make *make, FrChange *change, FrDate date)
{
  FrDay *day = new_of (make, FR_KIND_DAY);
  gint64 from_utc, to_utc;

  day->day = fr_date_to_iso (date);
  fr_amount_set (&day->low_c, floor (g_rand_double_range (make->rand, -12, 0)), NULL);
  fr_amount_set (&day->high_c, floor (g_rand_double_range (make->rand, 1, 12)), NULL);
  bench_add (change, &day->record);
  fr_day_span_utc (make->zone, date, &from_utc, &to_utc);
  for (guint i = 0; i < make->n_trees; i++)
    {
      FrGathering *gathering = new_of (make, FR_KIND_GATHERING);

      gathering->gathered_utc = from_utc + 16 * 3600 + 40 * i;
      set_code (&gathering->record, "scope", "tree");
      gathering->tree = i + 1;
      if (i % 4 == 0)
        {
          set_code (&gathering->record, "measured_by", "weight");
          fr_amount_set (&gathering->weight_kg, g_rand_double_range (make->rand, 1, 9), "4.1 kg");
          gathering->bucket = 4;
        }
      else
        fr_amount_set (&gathering->volume_l, g_rand_double_range (make->rand, 0, 8), "3.5");
      if (i % 3 == 0)
        {
          set_code (&gathering->record, "instrument", i % 2 == 0 ? "refractometer" : "hydrometer_60f");
          fr_amount_set (&gathering->reading_brix, g_rand_double_range (make->rand, 1.4, 3), "2.1");
          fr_amount_set (&gathering->sample_c, 6, NULL);
        }
      gathering->container = 1 + i % 3;
      bench_add (change, &gathering->record);
    }
  for (guint i = 0; i < 3; i++)
    {
      FrPour *pour = new_of (make, FR_KIND_POUR);

      pour->poured_utc = from_utc + (19 + i) * 3600;
      set_code (&pour->record, "reason", i == 0 ? "moved" : "boiled");
      pour->container = i == 0 ? 2 : 1 + i;
      pour->target = i == 0 ? 1 : 0;
      pour->night = i == 0 ? 0 : make->next_id[FR_KIND_NIGHT] + 1;
      fr_amount_set (&pour->volume_l, make->n_trees * 1.2, NULL);
      bench_add (change, &pour->record);
    }
  for (guint i = 1; i <= 3; i++)
    {
      FrDip *dip = new_of (make, FR_KIND_DIP);

      dip->found_utc = from_utc + 22 * 3600 + i * 60;
      dip->container = i;
      fr_amount_set (&dip->volume_l, g_rand_double_range (make->rand, 5, 300), NULL);
      fr_amount_set (&dip->temp_c, g_rand_double_range (make->rand, 0, 5), NULL);
      bench_add (change, &dip->record);
    }
  {
    FrNight *night = new_of (make, FR_KIND_NIGHT);

    night->evening = fr_date_to_iso (date);
    night->cooker = 1;
    night->start_utc = from_utc + 20 * 3600;
    fr_amount_set (&night->pan_l, 20, NULL);
    fr_amount_set (&night->plan_energy_kwh, 12, NULL);
    fr_amount_set (&night->plan_cost, 140, NULL);
    bench_add (change, &night->record);
  }
}

static FrChange *
make_season (Make *make, guint season)
{
  FrChange *change = fr_change_new ("import-book", NULL);

  if (season == LAST_SEASON + 1 - make->n_seasons)
    add_kit (make, change);
  for (guint i = 0; i < make->n_trees; i++)
    for (guint t = 0; t <= i % 2; t++)
      {
        FrTap *tap = new_of (make, FR_KIND_TAP);

        tap->tree = i + 1;
        fr_amount_set (&tap->season, season, NULL);
        tap->set_on = g_strdup_printf ("%u-02-12", season);
        if (season < LAST_SEASON)
          tap->pulled_on = g_strdup_printf ("%u-04-05", season);
        bench_add (change, &tap->record);
      }
  for (guint d = 0; d < make->n_days; d++)
    add_day (make, change, fr_date_add_days ((FrDate){ (gint)season, 2, 15 }, (gint)d));
  return change;
}

static void
make_book (Make *make, const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrStore) store = fr_store_open (path, TRUE, &error);

  g_assert_no_error (error);
  for (guint s = make->n_seasons; s-- > 0;)
    {
      g_autoptr (FrChange) season = make_season (make, LAST_SEASON - s);

      fr_store_apply (store, season, FR_ORIGIN_IMPORT, NOW_UTC, &error);
      g_assert_no_error (error);
    }
}

/* --- the bare queries --- */

static guint
bare_kind (sqlite3 *db, FrKindId kind, const FrRecordSpan *span)
{
  const FrKind *of = fr_kind (kind);
  g_autofree char *sql = NULL;
  g_autofree char *first = fr_date_to_iso (span->first), *last = fr_date_to_iso (span->last);

  if (of->time_field == NULL)
    sql = g_strdup_printf ("SELECT * FROM \"%s\" ORDER BY id", of->name);
  else if (fr_kind_field (of, of->time_field)->type == FR_FIELD_DATE)
    sql = g_strdup_printf ("SELECT * FROM \"%s\" WHERE \"%s\" BETWEEN '%s' AND '%s'", of->name, of->time_field,
                           first, last);
  else
    sql = g_strdup_printf ("SELECT * FROM \"%s\" WHERE \"%s\" >= %" G_GINT64_FORMAT " AND \"%s\" < %" G_GINT64_FORMAT,
                           of->name, of->time_field, span->from_utc, of->time_field, span->to_utc);
  return bench_read_bare (db, sql);
}

/* The rows that opening needs, or with @season_only those of the growing kinds. */
static guint
bare_rows (sqlite3 *db, const FrRecordSpan *span, gboolean season_only)
{
  guint rows = 0;

  for (guint k = 0; k < FR_N_KINDS; k++)
    if (!season_only || fr_kind (k)->time_field != NULL)
      rows += bare_kind (db, k, span);
  return rows;
}

static double
time_bare (const char *path, const FrRecordSpan *span, gboolean season_only, guint *rows_out)
{
  double least_s = INFINITY;

  for (guint run = 0; run < RUNS; run++)
    {
      gint64 start = bench_cpu_us ();
      sqlite3 *db = bench_open_bare (path);

      *rows_out = bare_rows (db, span, season_only);
      sqlite3_close (db);
      least_s = fmin (least_s, bench_since_s (start));
    }
  return least_s;
}

/* --- drawing --- */

static double
time_strip (const FrSeasonView *view)
{
  g_autoptr (PangoFontMap) map = pango_cairo_font_map_new ();
  PangoContext *context;
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 1280, 800);
  cairo_t *cr = cairo_create (surface);
  const FrPalette palette = { FR_THEME_LIGHT, FALSE };
  const FrSeasonTexts texts = { .today = "Today", .taps_set = "taps set", .full = "full" };
  const FrSeasonStrip strip = { .view = view, .texts = &texts, .selected = -1, .hovered = -1 };
  double least_s = INFINITY;

  pango_cairo_font_map_set_resolution (PANGO_CAIRO_FONT_MAP (map), 96);
  context = pango_font_map_create_context (map);
  for (guint run = 0; run < 3 * RUNS; run++)
    {
      gint64 start = bench_cpu_us ();

      fr_season_strip_draw (cr, context, &palette, &strip, 1280, 700, 1, NULL);
      least_s = fmin (least_s, bench_since_s (start));
    }
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  g_object_unref (context);
  return least_s;
}

/* --- a row more --- */

static FrChange *
one_row (FrBook *book, guint run)
{
  g_autoptr (FrRecord) record = fr_book_new_record (book, FR_KIND_GATHERING, 0, NULL);
  FrGathering *gathering = (FrGathering *)record;
  FrChange *change = fr_change_new ("add-gathering", NULL);

  gathering->gathered_utc = NOW_UTC - 3600 + run;
  set_code (record, "scope", "tree");
  gathering->tree = 7;
  fr_amount_set (&gathering->volume_l, 3.25, "3.25");
  fr_change_add (change, NULL, record);
  return change;
}

/* One row in one transaction, with the file's own settings; by the clock, so that the disk counts. */
static double
time_bare_row (const char *path)
{
  sqlite3 *db = bench_open_bare (path);
  double least_s = INFINITY;

  g_assert_cmpint (sqlite3_exec (db, "PRAGMA synchronous = FULL", NULL, NULL, NULL), ==, SQLITE_OK);
  for (guint run = 0; run < RUNS; run++)
    {
      g_autofree char *sql
          = g_strdup_printf ("BEGIN IMMEDIATE; INSERT INTO dismissal (uid, archived, about, dismissed_utc) VALUES"
                             " ('%032x', 0, 'x', 1); COMMIT",
                             run + 1);
      gint64 start = g_get_monotonic_time ();

      g_assert_cmpint (sqlite3_exec (db, sql, NULL, NULL, NULL), ==, SQLITE_OK);
      least_s = fmin (least_s, (double)(g_get_monotonic_time () - start) / G_USEC_PER_SEC);
    }
  sqlite3_close (db);
  return least_s;
}

static gint64
bench_clock (const FrZoneTable *zone)
{
  return NOW_UTC;
}

/* What the calendar asks for when it is in sight. */
static void
show_cb (FrSeason *season)
{
  fr_season_get_view (season);
  fr_season_get_past (season);
  fr_season_get_present (season);
}

/* What the store's page asks for. */
static void
show_store_cb (FrSeason *season)
{
  fr_season_get_ledger (season);
}

static void
time_rows (FrBook *book, const char *name, double bare_s)
{
  double cpu_s = INFINITY, clock_s = INFINITY;

  for (guint run = 0; run < RUNS; run++)
    {
      g_autoptr (FrChange) change = one_row (book, run);
      gint64 start = bench_cpu_us (), start_us = g_get_monotonic_time ();
      g_autoptr (GError) error = NULL;

      fr_book_apply (book, change, &error);
      g_assert_no_error (error);
      cpu_s = fmin (cpu_s, bench_since_s (start));
      clock_s = fmin (clock_s, (double)(g_get_monotonic_time () - start_us) / G_USEC_PER_SEC);
    }
  g_print ("%-44s %8.2f ms, %.2f of a frame; by the clock %.2f ms, %.1f bare rows\n", name, cpu_s * 1e3, cpu_s / FRAME_S,
           clock_s * 1e3, clock_s / bare_s);
}

/* What the log asks before it keeps a row: whether it fits. */
static void
time_ask (FrBook *book, const FrBush *bush)
{
  g_autoptr (FrSeason) season = fr_season_new (book, bench_clock);
  double least_s = INFINITY;

  for (guint run = 0; run < RUNS; run++)
    {
      g_autoptr (FrChange) change = one_row (book, run);
      const FrStep *step = g_ptr_array_index (change->steps, 0);
      gint64 start = bench_cpu_us ();

      g_array_unref (fr_season_ask (season, bush, step->after));
      least_s = fmin (least_s, bench_since_s (start));
    }
  g_print ("a row asked about:                           %8.2f ms, %.2f of a frame\n", least_s * 1e3, least_s / FRAME_S);
}

/* --- other seasons --- */

static void
share_one (const FrRecord *record, gpointer sharer)
{
  fr_gathering_sharer_add (sharer, (const FrGathering *)record);
}

static void
time_totals (FrBook *book, const char *path, const FrZoneTable *zone)
{
  static const char *const fields[]
      = { "gathered_utc", "scope",  "tree",         "tap",        "stand",    "measured_by", "volume_l",
          "weight_kg",    "depth_m", "bucket",      "reading_brix", "instrument", "sample_c", NULL };
  const FrRecordSpan all = { -62135596800, 253402300800, { 1, 1, 1 }, { 9999, 12, 31 } };
  g_autoptr (FrStore) store = fr_store_open (path, FALSE, NULL);
  FrSeasonBook held;
  FrBushBook bush;
  double least_s = INFINITY, bare_s = INFINITY;
  guint n = 0, rows = 0;

  fr_book_season_book (book, &held, zone);
  bush = (FrBushBook){ .trees = held.trees, .girths = held.girths, .taps = held.taps, .yields = held.yields,
                       .containers = held.containers, .zone = zone };
  for (guint run = 0; run < 3; run++)
    {
      gint64 start = bench_cpu_us ();
      FrGatheringSharer *sharer = fr_gathering_sharer_new (&bush);
      GArray *totals;

      g_assert_true (fr_store_each (store, FR_KIND_GATHERING, &all, fields, share_one, sharer, NULL));
      totals = fr_gathering_sharer_finish (sharer);
      n = totals->len;
      g_array_unref (totals);
      least_s = fmin (least_s, bench_since_s (start));
      start = bench_cpu_us ();
      {
        sqlite3 *db = bench_open_bare (path);

        rows = bench_read_bare (db, "SELECT id, archived, gathered_utc, scope, tree, tap, stand, measured_by, volume_l,"
                                    " weight_kg, depth_m, bucket, reading_brix, instrument, sample_c"
                                    " FROM gathering ORDER BY gathered_utc, id");
        sqlite3_close (db);
      }
      bare_s = fmin (bare_s, bench_since_s (start));
    }
  fr_book_season_book_clear (&held);
  g_print ("%u totals of trees from %u gatherings:    %8.1f ms, %.2f bare reads of these columns\n", n, rows,
           least_s * 1e3, least_s / bare_s);
}

int
main (int argc, char **argv)
{
  Make make = { .n_seasons = argc > 1 ? (guint)atoi (argv[1]) : 20,
                .n_trees = argc > 2 ? (guint)atoi (argv[2]) : 200,
                .n_days = argc > 3 ? (guint)atoi (argv[3]) : 40,
                .rand = g_rand_new_with_seed (20),
                .zone = fr_zone_table_load (ZONE, 2000, 2030, NULL) };
  g_autofree char *folder = g_dir_make_tmp ("frostrun-bench-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "book.frostrun", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (FrBook) book = NULL;
  FrRecordSpan span;
  FrSeasonBook held;
  FrSeasonView *view = NULL;
  double open_bare_s, season_bare_s, row_bare_s, open_s = INFINITY, other_s = INFINITY, view_s = INFINITY, book_s = INFINITY,
                                     stock_s = INFINITY, switch_s = INFINITY, before_mb, strip_s;
  guint open_rows, season_rows;
  gint64 start;

  make_book (&make, path);
  g_print ("%u seasons, %u trees, %u days: %d gatherings\n", make.n_seasons, make.n_trees, make.n_days,
           (int)make.next_id[FR_KIND_GATHERING]);
  fr_season_span (make.zone, LAST_SEASON, &span);
  open_bare_s = time_bare (path, &span, FALSE, &open_rows);
  season_bare_s = time_bare (path, &span, TRUE, &season_rows);
  row_bare_s = time_bare_row (path);
  g_print ("bare SQLite: %u rows of a season, all kinds  %8.1f ms; growing kinds alone, %u rows %8.1f ms; a row kept, by the "
           "clock %.2f ms\n",
           open_rows, open_bare_s * 1e3, season_rows, season_bare_s * 1e3, row_bare_s * 1e3);

  before_mb = bench_heap_mb ();
  for (guint run = 0; run < RUNS; run++)
    {
      g_clear_object (&book);
      start = bench_cpu_us ();
      book = fr_book_open (path, &error);
      g_assert_no_error (error);
      g_assert_true (fr_book_set_season (book, LAST_SEASON, make.zone, &error));
      open_s = fmin (open_s, bench_since_s (start));
    }
  g_print ("book opened:                                 %8.2f ms, %.2f bare reads, %.1f MB\n", open_s * 1e3,
           open_s / open_bare_s, bench_heap_mb () - before_mb);
  for (guint run = 0; run < RUNS; run++)
    {
      gint64 from_utc = span.from_utc;

      start = bench_cpu_us ();
      g_assert_true (fr_book_set_season (book, LAST_SEASON - 1 - run % 2, make.zone, &error));
      switch_s = fmin (switch_s, bench_since_s (start));
      start = bench_cpu_us ();
      g_assert_true (fr_book_other_season_book (book, &held, LAST_SEASON - 3 - run, make.zone, &error));
      fr_book_season_book_clear (&held);
      other_s = fmin (other_s, bench_since_s (start));
      g_assert_true (fr_book_set_season (book, LAST_SEASON, make.zone, &error));
      start = bench_cpu_us ();
      fr_book_season_book (book, &held, make.zone);
      book_s = fmin (book_s, bench_since_s (start));
      start = bench_cpu_us ();
      fr_stock_free (fr_stock_new (&held, from_utc, NOW_UTC));
      stock_s = fmin (stock_s, bench_since_s (start));
      g_clear_pointer (&view, fr_season_view_free);
      start = bench_cpu_us ();
      view = fr_season_view_new (&held, LAST_SEASON, NOW_UTC);
      view_s = fmin (view_s, bench_since_s (start));
      if (run + 1 < RUNS)
        {
          g_clear_pointer (&view, fr_season_view_free);
          fr_book_season_book_clear (&held);
        }
    }
  g_print ("another season held:                         %8.2f ms, %.2f bare reads of a season\n", switch_s * 1e3,
           switch_s / season_bare_s);
  g_print ("another season beside it read:               %8.2f ms, %.2f bare reads of a season\n", other_s * 1e3,
           other_s / season_bare_s);
  g_print ("its records taken from the lists:            %8.2f ms\n", book_s * 1e3);
  g_print ("the sap in store:                            %8.2f ms, %.2f bare reads of a season\n", stock_s * 1e3,
           stock_s / season_bare_s);
  g_print ("the season's answer, store and all:          %8.2f ms, %.2f bare reads of a season\n", view_s * 1e3,
           view_s / season_bare_s);
  strip_s = time_strip (view);
  g_print ("the season drawn, 1280 x 700 px:             %8.2f ms, %.2f bare reads of a season, %.2f of a frame\n",
           strip_s * 1e3, strip_s / season_bare_s, strip_s / FRAME_S);
  fr_season_view_free (view);
  fr_book_season_book_clear (&held);

  time_rows (book, "a row kept, nothing shown:", row_bare_s);
  {
    g_autoptr (FrSeason) season = fr_season_new (book, bench_clock);
    gulong shown = g_signal_connect (season, "changed", G_CALLBACK (show_cb), NULL);

    show_cb (season);
    time_rows (book, "likewise with the calendar in sight:", row_bare_s);
    g_signal_handler_disconnect (season, shown);
    shown = g_signal_connect (season, "changed", G_CALLBACK (show_store_cb), NULL);
    time_rows (book, "likewise with the store's account in sight:", row_bare_s);
    g_signal_handler_disconnect (season, shown);
  }
  {
    g_autoptr (FrTonight) tonight = fr_tonight_new (book, bench_clock);

    time_rows (book, "likewise with tonight's answer alone:", row_bare_s);
  }
  {
    g_autoptr (FrSugarbush) bush = fr_sugarbush_new (book, NOW_UTC);

    while (g_main_context_iteration (NULL, FALSE))
      ;
    time_rows (book, "likewise with the sugarbush alone:", row_bare_s);
    time_ask (book, fr_sugarbush_get_bush (bush));
  }
  time_totals (book, path, make.zone);

  g_clear_object (&book);
  bench_remove_book (folder, path);
  fr_zone_table_free (make.zone);
  g_rand_free (make.rand);
  return 0;
}
