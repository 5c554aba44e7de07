/* The plan on paper: two trees are as far apart in the document as their distance over the scale, on every
 * page, at every turn; tiles overlap by what they say and leave nothing out. What is in the PDF is read by
 * poppler, not by the code that wrote it. Documents go to FROSTRUN_PICTURES. */
#include <math.h>
#include <stdlib.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "bush.h"
#include "paint/map-sheet.h"
#include "stage.h"

#define PT_PER_M (72 / 0.0254)
/* 0.1 mm on the paper. */
#define CLOSE_PT (0.0001 * PT_PER_M)

static const char *const groups[4] = { "Hard", "Soft", "Other", "Not maple" };

static FrMapSheet
full_sheet (const Bush *bush)
{
  return (FrMapSheet){ .title = "Hollow Lane, the sugarbush",
                       .author = "Hollow Lane",
                       .date = "11 March 2027",
                       .legend = "Filled: litres a tap, full at 15 L. Dashed outline: weak. ×: do not tap.",
                       .group_names = groups,
                       .map = &bush->view,
                       .scale_ratio = 750 };
}

typedef struct
{
  guint page;
  double x_pt;
  double y_pt;
} Place;

/* The middles of every "X" in the document. */
static GArray *
find_marks (GBytes *pdf)
{
  static const char *const options[] = { "-bbox", NULL };
  g_autofree char *boxes = stage_ask (pdf, "pdftotext", options, NULL);
  GArray *places = g_array_new (FALSE, FALSE, sizeof (Place));
  guint page = 0;

  for (char *p = boxes; *p != '\0'; p++)
    {
      double x0, y0, x1, y1;
      char word[64];
      if (g_str_has_prefix (p, "<page "))
        page++;
      if (g_str_has_prefix (p, "<word ")
          && sscanf (p, "<word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\">%63[^<]", &x0, &y0, &x1,
                     &y1, word)
                 == 5
          && strcmp (word, "X") == 0)
        {
          Place place = { page, (x0 + x1) / 2, (y0 + y1) / 2 };
          g_array_append_val (places, place);
        }
    }
  return places;
}

/* Two trees of one thickness have their names at the same place under them, so the names are as far apart as
 * the trees. 37.4 m east and 21.3 m north. */
static void
test_true_to_scale (void)
{
  static const double scales[] = { 200, 250, 500, 1000, 2345 };
  static const double turns[] = { 0, 90, 23 };
  FrMapTree trees[2]
      = { { .x_m = 3, .y_m = 8, .diameter_m = 0.4, .level_ratio = NAN, .name = "X" },
          { .x_m = 3 + 37.4, .y_m = 8 + 21.3, .diameter_m = 0.4, .level_ratio = NAN, .name = "X" } };

  for (guint i = 0; i < G_N_ELEMENTS (scales); i++)
    for (guint t = 0; t < G_N_ELEMENTS (turns); t++)
      for (guint size = 0; size < 2; size++)
        {
          FrMapView map = { .viewport = { .rotation_deg = turns[t] }, .trees = trees, .n_trees = 2 };
          FrMapSheet sheet
              = { .title = "Two", .map = &map, .scale_ratio = scales[i], .is_landscape = t == 0 };
          g_autoptr (GError) error = NULL;
          guint n = 0;
          g_autoptr (GBytes) pdf = fr_map_sheet_pdf (&sheet, (FrSheetSize)size, &n, &error);
          g_assert_no_error (error);
          g_autoptr (GArray) places = find_marks (pdf);
          if (n > 1)
            continue;
          g_assert_cmpuint (places->len, ==, 2);
          const Place *a = &g_array_index (places, Place, 0), *b = &g_array_index (places, Place, 1);
          double on_paper = hypot (b->x_pt - a->x_pt, b->y_pt - a->y_pt);
          double asked = hypot (37.4, 21.3) / scales[i] * PT_PER_M;
          g_assert_cmpfloat_with_epsilon (on_paper, asked, CLOSE_PT);
          /* East of the first by compass and turn: which of the two comes first is poppler's choice. */
          double angle = atan2 (b->x_pt - a->x_pt, a->y_pt - b->y_pt) * 180 / G_PI;
          double bearing = atan2 (37.4, 21.3) * 180 / G_PI + turns[t];
          double off = fmod (angle - bearing + 720, 180);
          g_assert_cmpfloat (MIN (off, 180 - off), <, 0.3);
        }
}

/* A lattice of trees over four and more pages: every one is on some page, those in the shared strip are on
 * both, and on each page all distances are true. */
static void
test_tiles (void)
{
  enum
  {
    SIDE = 15
  };
  FrMapTree trees[SIDE * SIDE];

  for (guint i = 0; i < SIDE * SIDE; i++)
    trees[i] = (FrMapTree){ .x_m = 5.0 * (i % SIDE),
                            .y_m = 5.0 * (double)(i / SIDE),
                            .diameter_m = 0.3,
                            .level_ratio = NAN,
                            .name = "X" };
  FrMapView map = { .trees = trees, .n_trees = SIDE * SIDE, .unit_m = 1, .unit_name = "m" };
  FrMapSheet sheet = { .title = "Lattice", .map = &map, .scale_ratio = 200 };
  FrMapSheetTiles tiles;
  guint n = 0;

  g_assert_true (fr_map_sheet_tiles (&sheet, FR_SHEET_A4, &tiles));
  /* 70 m are 350 mm, more than one page of 185 × 240 mm and less than three. */
  g_assert_cmpuint (tiles.n_columns, ==, 2 + (350 + 2 * 9 > 185 * 2 - 10));
  g_assert_cmpuint (tiles.n_rows, ==, 2);
  g_autoptr (GBytes) pdf = fr_map_sheet_pdf (&sheet, FR_SHEET_A4, &n, NULL);
  g_assert_cmpuint (n, ==, tiles.n_pages);
  g_autoptr (GArray) places = find_marks (pdf);
  g_assert_cmpuint (places->len, >=, SIDE * SIDE);
  g_assert_cmpuint (places->len, <, 2 * SIDE * SIDE);
  double step = 5.0 / 200 * PT_PER_M;
  for (guint i = 1; i < places->len; i++)
    {
      const Place *a = &g_array_index (places, Place, i - 1), *b = &g_array_index (places, Place, i);
      if (a->page != b->page)
        continue;
      double across = (b->x_pt - a->x_pt) / step, down = (b->y_pt - a->y_pt) / step;
      g_assert_cmpfloat (fabs (across - round (across)) * step, <, CLOSE_PT);
      g_assert_cmpfloat (fabs (down - round (down)) * step, <, CLOSE_PT);
    }
  g_assert_cmpuint (stage_check_inside (pdf, 595.276, 841.89), >, SIDE * SIDE);
  static const char *const options[] = { "-raw", NULL };
  g_autofree char *raw = stage_ask (pdf, "pdftotext", options, "map-tiles.pdf");
  g_autofree char *text = stage_flat (raw);
  g_autofree char *last = g_strdup_printf ("%u / %u", n, n);
  stage_check_contains (text, "A1");
  stage_check_contains (text, "B2");
  stage_check_contains (text, last);
  /* Each page names itself, and is named by its neighbours to the sides. */
  g_assert_cmpuint (stage_count_words (text, "A1"), >=, 3);
}

/* Tiles without anything on them are not printed. */
static void
test_empty_tiles (void)
{
  FrMapTree trees[2] = { { .x_m = 0, .y_m = 0, .diameter_m = 0.3, .level_ratio = NAN, .name = "X" },
                         { .x_m = 200, .y_m = 250, .diameter_m = 0.3, .level_ratio = NAN, .name = "X" } };
  FrMapView map = { .trees = trees, .n_trees = 2 };
  FrMapSheet sheet = { .map = &map, .scale_ratio = 200 };
  FrMapSheetTiles tiles;
  guint n = 0;

  g_assert_true (fr_map_sheet_tiles (&sheet, FR_SHEET_LETTER, &tiles));
  g_assert_cmpuint (tiles.n_columns * tiles.n_rows, >, 12);
  g_assert_cmpuint (tiles.n_pages, ==, 2);
  g_autoptr (GBytes) pdf = fr_map_sheet_pdf (&sheet, FR_SHEET_LETTER, &n, NULL);
  g_assert_cmpuint (n, ==, 2);
  g_autoptr (GArray) places = find_marks (pdf);
  g_assert_cmpuint (places->len, ==, 2);
}

static void
test_words (void)
{
  static const char *const sizes[] = { "595.276 x 841.89 pts (A4)", "792 x 612 pts (letter)" };
  static const char *const options[] = { "-raw", NULL };

  for (guint i = 0; i < 2; i++)
    {
      Bush bush;
      guint n = 0;
      bush_fill (&bush, 500, 700);
      bush.trees[3].is_selected = bush.trees[4].is_hovered = TRUE;
      FrMapSheet sheet = full_sheet (&bush);
      sheet.is_landscape = i == 1;
      sheet.scale_ratio = i == 1 ? 1000 : 750;
      g_autoptr (GBytes) pdf = fr_map_sheet_pdf (&sheet, (FrSheetSize)i, &n, NULL);
      g_assert_cmpuint (n, ==, 1);
      g_autofree char *info_raw = stage_ask (pdf, "pdfinfo", NULL, i ? "map-letter.pdf" : "map-a4.pdf");
      g_autofree char *info = stage_flat (info_raw);
      stage_check_contains (info, sizes[i]);
      stage_check_contains (info, "Title: Hollow Lane, the sugarbush");
      stage_check_contains (info, "Tagged: yes");
      g_autofree char *raw = stage_ask (pdf, "pdftotext", options, NULL);
      g_autofree char *text = stage_flat (raw);
      stage_check_contains (text, sheet.title);
      stage_check_contains (text, sheet.date);
      stage_check_contains (text, sheet.legend);
      stage_check_contains (text, "Not maple");
      stage_check_contains (text, i ? "1 : 1000" : "1 : 750");
      stage_check_contains (text, "Boiling shed");
      stage_check_contains (text, "Old Lady");
      stage_check_contains (text, "20 m");
      stage_check_inside (pdf, i ? 792 : 595.276, i ? 612 : 841.89);
    }
}

/* The bar on the paper has the length it says: its ends are found on a picture of 300 dots to the inch. */
static void
test_bar (void)
{
  Bush bush;

  bush_fill (&bush, 500, 700);
  FrMapSheet sheet = full_sheet (&bush);
  sheet.legend = sheet.title = NULL;
  sheet.group_names = NULL;
  g_autoptr (GBytes) pdf = fr_map_sheet_pdf (&sheet, FR_SHEET_LETTER, NULL, NULL);
  g_autofree char *folder = g_dir_make_tmp ("frostrun-bar-XXXXXX", NULL);
  g_autofree char *in = g_build_filename (folder, "map.pdf", NULL),
                  *out = g_build_filename (folder, "map", NULL);
  g_autofree char *png = g_build_filename (folder, "map.png", NULL);
  gsize size;
  const char *data = g_bytes_get_data (pdf, &size);
  int status;

  g_assert_true (g_file_set_contents (in, data, (gssize)size, NULL));
  const char *argv[] = { "pdftoppm", "-r", "300", "-png", "-singlefile", in, out, NULL };
  g_assert_true (
      g_spawn_sync (NULL, (char **)argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, NULL, &status, NULL));
  g_assert_cmpint (status, ==, 0);
  cairo_surface_t *image = cairo_image_surface_create_from_png (png);
  g_assert_cmpint (cairo_image_surface_get_width (image), ==, 2550);
  /* The longest dark run in the foot: below the frame nothing else is a line. */
  int longest = 0;
  for (int y = cairo_image_surface_get_height (image) - 270; y < cairo_image_surface_get_height (image); y++)
    for (int x = 0, run = 0; x < 2550; x++)
      {
        run = stage_grey (image, x, y) < 80 ? run + 1 : 0;
        longest = MAX (longest, run);
      }
  cairo_surface_destroy (image);
  remove (in);
  remove (png);
  rmdir (folder);
  /* 20 m at 1:750 are 26.67 mm are 315 dots; the line's ends stick out by half its width of 1.2 pt. */
  g_assert_cmpfloat_with_epsilon (longest, 20.0 / 750 / 0.0254 * 300, 7);
}

static void
test_best_scale (void)
{
  Bush bush;
  FrMapSheetTiles tiles;

  bush_fill (&bush, 500, 700);
  FrMapSheet sheet = full_sheet (&bush);
  double best = fr_map_sheet_best_scale (&sheet, FR_SHEET_A4);
  g_assert_cmpfloat (best, ==, 750);
  sheet.scale_ratio = best;
  g_assert_true (fr_map_sheet_tiles (&sheet, FR_SHEET_A4, &tiles));
  g_assert_cmpuint (tiles.n_pages, ==, 1);
  sheet.scale_ratio = 500;
  g_assert_true (fr_map_sheet_tiles (&sheet, FR_SHEET_A4, &tiles));
  g_assert_cmpuint (tiles.n_pages, >, 1);
  FrMapView nothing = { 0 };
  sheet.map = &nothing;
  g_assert_true (isnan (fr_map_sheet_best_scale (&sheet, FR_SHEET_A4)));
}

static void
test_refused (void)
{
  FrMapTree trees[2] = { { .x_m = 0, .y_m = 0, .name = "X" }, { .x_m = 1e6, .y_m = 1e6, .name = "X" } };
  FrMapView nothing = { 0 }, wide = { .trees = trees, .n_trees = 2 };
  FrMapSheet sheet = { .map = &nothing, .scale_ratio = 200 };
  FrMapSheetTiles tiles;
  g_autoptr (GError) error = NULL;

  g_assert_null (fr_map_sheet_pdf (&sheet, FR_SHEET_A4, NULL, &error));
  g_assert_error (error, FR_PAINT_ERROR, FR_PAINT_ERROR_NOTHING);
  g_clear_error (&error);
  sheet.map = &wide;
  g_assert_null (fr_map_sheet_pdf (&sheet, FR_SHEET_A4, NULL, &error));
  g_assert_error (error, FR_PAINT_ERROR, FR_PAINT_ERROR_TOO_LARGE);
  g_clear_error (&error);
  g_assert_false (fr_map_sheet_tiles (&sheet, FR_SHEET_A4, &tiles));
  g_assert_cmpuint (tiles.n_pages, >, FR_MAP_SHEET_MOST_PAGES);
  static const double odd[] = { 0, -5, NAN, INFINITY };
  for (guint i = 0; i < G_N_ELEMENTS (odd); i++)
    {
      sheet.scale_ratio = odd[i];
      g_assert_null (fr_map_sheet_pdf (&sheet, FR_SHEET_A4, NULL, &error));
      g_assert_error (error, FR_PAINT_ERROR, FR_PAINT_ERROR_NOTHING);
      g_clear_error (&error);
    }
  /* Words far too long for their places stay on the paper. */
  Bush bush;
  bush_fill (&bush, 500, 700);
  FrMapSheet wordy = full_sheet (&bush);
  g_autoptr (GString) words = g_string_new (NULL);
  for (guint i = 0; i < 60; i++)
    g_string_append (words, "the wood behind the house by the brook ");
  wordy.title = words->str;
  wordy.legend = words->str;
  wordy.scale_ratio = 2000;
  g_autoptr (GBytes) pdf = fr_map_sheet_pdf (&wordy, FR_SHEET_A4, NULL, NULL);
  g_assert_nonnull (pdf);
  g_assert_cmpuint (stage_check_inside (pdf, 595.276, 841.89), >, 900);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/map-sheet/true-to-scale", test_true_to_scale);
  g_test_add_func ("/map-sheet/tiles", test_tiles);
  g_test_add_func ("/map-sheet/empty-tiles", test_empty_tiles);
  g_test_add_func ("/map-sheet/words", test_words);
  g_test_add_func ("/map-sheet/bar", test_bar);
  g_test_add_func ("/map-sheet/best-scale", test_best_scale);
  g_test_add_func ("/map-sheet/refused", test_refused);
  return g_test_run ();
}
