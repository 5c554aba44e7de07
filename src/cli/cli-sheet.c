/* frostrun-cli sheet: the field sheet, the map of a book's trees, its season or its forecast as PDF, by the
 * painters and words that the window prints with. The book is only read. */
#include "cli/cli-forecast-sheet.h"
#include "cli/cli-season-sheet.h"
#include "cli/cli-table.h"

#include <math.h>

#include "cli/cli-trees.h"
#include "cli/cli-read.h"
#include "formats/input-error.h"
#include "formats/json-output.h"
#include "paint/field-sheet.h"
#include "paint/map-bush.h"
#include "paint/map-sheet.h"
#include "words/paper-words.h"
#include "words/tree-words.h"

/* A good season of one tap, for the filling of the symbols; common practice, no source. */
#define USUAL_MOST_L 15
#define SCALE_MIN 10
#define SCALE_MAX 100000

static char *book_path, *kind_text, *scale_text, *paper_text, *season_text, *now_text, *output_path;
static gboolean is_landscape, without_way, with_months;

const GOptionEntry fr_sheet_entries[]
    = { { "book", 0, 0, G_OPTION_ARG_FILENAME, &book_path, "The book; without it your own", "FILE" },
        { "kind", 0, 0, G_OPTION_ARG_STRING, &kind_text,
          "gathering (also: field): trees with taps in walking order; measuring: all trees; map; season: its "
          "picture and its days; forecast: what to do, the days ahead and the season so far, without scores",
          "gathering|measuring|map|season|forecast" },
        { "scale", 0, 0, G_OPTION_ARG_STRING, &scale_text,
          "Of the map: 500 for 1:500; without it the largest round one that takes one page", "N" },
        { "paper", 0, 0, G_OPTION_ARG_STRING, &paper_text,
          "a4 or letter; without it by the household's units", "a4|letter" },
        { "landscape", 0, 0, G_OPTION_ARG_NONE, &is_landscape, "The page lying", NULL },
        { "without-round", 0, 0, G_OPTION_ARG_NONE, &without_way, "The map without the gathering round",
          NULL },
        { "months", 0, 0, G_OPTION_ARG_NONE, &with_months, "The season with a page for each of its months",
          NULL },
        { "season", 0, 0, G_OPTION_ARG_STRING, &season_text, "The year of its spring; without it this season",
          "2026" },
        { "now", 0, 0, G_OPTION_ARG_STRING, &now_text, "As if it were then, local time", "2026-03-11T16:00" },
        { "output", 'o', 0, G_OPTION_ARG_FILENAME, &output_path, "Where to", "FILE" },
        { NULL } };

typedef struct
{
  gboolean is_map;
  gboolean is_season;
  gboolean is_forecast;
  FrPaperKind field;
  FrSheetSize size;
  double scale_ratio; /* NAN: what takes one page */
} Wanted;

static gboolean
read_options (Wanted *wanted, GError **error)
{
  *wanted = (Wanted){ .scale_ratio = NAN };
  if (kind_text == NULL)
    return fr_cli_wrong (error, "--kind is missing; give gathering, measuring, map, season or forecast");
  wanted->is_map = g_str_equal (kind_text, "map");
  wanted->is_season = g_str_equal (kind_text, "season");
  wanted->is_forecast = g_str_equal (kind_text, "forecast");
  wanted->field = g_str_equal (kind_text, "measuring") ? FR_PAPER_MEASURING : FR_PAPER_GATHERING;
  if (!wanted->is_map && !wanted->is_season && !wanted->is_forecast && wanted->field == FR_PAPER_GATHERING
      && !g_str_equal (kind_text, "gathering") && !g_str_equal (kind_text, "field"))
    return fr_cli_wrong (error, "--kind “%s” must be gathering, measuring, map, season or forecast", kind_text);
  if (with_months && !wanted->is_season)
    return fr_cli_wrong (error, "--months goes with --kind season");
  if (season_text != NULL && wanted->is_forecast)
    return fr_cli_wrong (error, "--season does not go with --kind forecast; --now chooses the moment");
  if (paper_text != NULL && !g_str_equal (paper_text, "a4") && !g_str_equal (paper_text, "letter"))
    return fr_cli_wrong (error, "--paper “%s” must be a4 or letter", paper_text);
  if (scale_text != NULL)
    {
      guint64 scale;

      if (!wanted->is_map)
        return fr_cli_wrong (error, "--scale goes with --kind map");
      if (!g_ascii_string_to_unsigned (scale_text, 10, SCALE_MIN, SCALE_MAX, &scale, NULL))
        return fr_cli_wrong (error, "--scale “%s” has to be a whole number from %u to %u", scale_text,
                             SCALE_MIN, SCALE_MAX);
      wanted->scale_ratio = (double)scale;
    }
  if (output_path == NULL)
    return fr_cli_wrong (error, "--output is missing; a PDF is no text for a terminal");
  return TRUE;
}

static const char *
household_name (const FrCliBush *bush)
{
  const GPtrArray *households = bush->evening.kinds[FR_KIND_HOUSEHOLD];

  return households->len > 0 ? ((const FrHousehold *)households->pdata[0])->name : NULL;
}

/* --- field sheet --- */

static FrBushRound *
round_of (const FrCliBush *bush, FrPaperKind kind)
{
  return kind == FR_PAPER_GATHERING ? fr_bush_round (bush->bush, FR_ROUND_PLANNED, NULL, 0, 1)
                                    : fr_bush_round_past_all (bush->bush);
}

static GBytes *
make_field (const FrCliBush *bush, const Wanted *wanted, guint *n_pages, guint *n_rows, GError **error)
{
  const FrSay *say = &bush->evening.say;
  g_autoptr (FrBushRound) round = round_of (bush, wanted->field);
  g_autoptr (FrPaperWords) words = fr_paper_words_new (bush->bush, wanted->field, round, say);
  g_autofree char *date = fr_say_date (bush->today);
  g_auto (FrCliTable) table = { NULL };

  *n_rows = words->n_rows;
  if (words->n_rows == 0)
    {
      fr_cli_wrong (error, wanted->field == FR_PAPER_GATHERING
                               ? "no tree has a tap set or planned this season"
                               : "there are no trees");
      return NULL;
    }
  fr_cli_table_init (&table, words, say);
  table.sheet.author = table.sheet.footer = household_name (bush);
  table.sheet.date = date;
  table.sheet.is_landscape = is_landscape;
  return fr_field_sheet_pdf (&table.sheet, wanted->size, n_pages, error);
}

/* --- map --- */

typedef struct
{
  GArray *trees;  /* FrMapTree */
  GArray *shapes; /* FrMapShape */
  GArray *points;
  GArray *numbers;
  FrMapRound round;
  FrMapView view;
  double full_l;
} Plan;

static void
clear_shape (gpointer data)
{
  g_free ((gpointer)((FrMapShape *)data)->points);
}

static double
litres_a_tap (const FrBushTree *tree)
{
  return tree->taps_set > 0 ? tree->season_l / tree->taps_set : NAN;
}

static void
add_trees (Plan *plan, const FrCliBush *bush)
{
  const GPtrArray *taps = bush->evening.kinds[FR_KIND_TAP];
  g_autoptr (GHashTable) places = g_hash_table_new (g_int64_hash, g_int64_equal);

  plan->full_l = USUAL_MOST_L;
  for (guint i = 0; i < fr_bush_n_trees (bush->bush); i++)
    {
      const FrBushTree *tree = fr_bush_tree_at (bush->bush, i);
      FrMapTree one;

      fr_map_tree_of (&one, tree);
      plan->full_l = fmax (plan->full_l, litres_a_tap (tree));
      g_array_append_val (plan->trees, one);
      g_hash_table_insert (places, (gpointer)&tree->id, GUINT_TO_POINTER (i + 1));
    }
  for (guint i = 0; i < plan->trees->len; i++)
    g_array_index (plan->trees, FrMapTree, i).level_ratio
        = litres_a_tap (fr_bush_tree_at (bush->bush, i)) / plan->full_l;
  for (guint i = 0; i < taps->len; i++)
    {
      const FrTap *tap = taps->pdata[i];
      const guint at = GPOINTER_TO_UINT (g_hash_table_lookup (places, &tap->tree));

      if (!tap->record.archived && at > 0 && (guint)tap->season.value == fr_bush_get_season (bush->bush))
        fr_map_tree_add_tap (&g_array_index (plan->trees, FrMapTree, at - 1), tap);
    }
}

static void
plan_init (Plan *plan, const FrCliBush *bush)
{
  const GPtrArray *features = bush->evening.kinds[FR_KIND_FEATURE];
  g_autoptr (FrBushRound) round
      = without_way ? NULL : fr_bush_round (bush->bush, FR_ROUND_PLANNED, NULL, 0, 1);

  *plan = (Plan){ .trees = g_array_new (FALSE, FALSE, sizeof (FrMapTree)),
                  .shapes = g_array_new (FALSE, FALSE, sizeof (FrMapShape)),
                  .points = g_array_new (FALSE, FALSE, sizeof (FrGroundPoint)),
                  .numbers = g_array_new (FALSE, FALSE, sizeof (guint)) };
  g_array_set_clear_func (plan->shapes, clear_shape);
  add_trees (plan, bush);
  for (guint i = 0; i < features->len; i++)
    {
      FrMapShape shape;

      if (fr_map_shape_of (&shape, features->pdata[i]))
        g_array_append_val (plan->shapes, shape);
    }
  if (round != NULL)
    fr_map_way_of (bush->bush, round, plan->points, plan->numbers);
  plan->round = (FrMapRound){ (const FrGroundPoint *)(gpointer)plan->points->data,
                              (const guint *)(gpointer)plan->numbers->data, plan->points->len };
  plan->view = (FrMapView){ .trees = (const FrMapTree *)(gpointer)plan->trees->data,
                            .n_trees = plan->trees->len,
                            .shapes = (const FrMapShape *)(gpointer)plan->shapes->data,
                            .n_shapes = plan->shapes->len,
                            .round = plan->points->len > 0 ? &plan->round : NULL,
                            .unit_m = bush->evening.say.units.system == FR_SYSTEM_METRIC ? 1 : 0.3048,
                            .unit_name = fr_quantity_unit (FR_QUANTITY_DISTANCE, &bush->evening.say.units),
                            .has_north = TRUE };
}

static void
plan_clear (Plan *plan)
{
  g_array_unref (plan->trees);
  g_array_unref (plan->shapes);
  g_array_unref (plan->points);
  g_array_unref (plan->numbers);
}

static GBytes *
make_map (const FrCliBush *bush, const Wanted *wanted, guint *n_pages, double *scale_ratio, GError **error)
{
  const char *const groups[] = { fr_tree_group_word (FR_TREE_HARD), fr_tree_group_word (FR_TREE_SOFT),
                                 fr_tree_group_word (FR_TREE_OTHER), fr_tree_group_word (FR_TREE_NOT_MAPLE) };
  const FrSay *say = &bush->evening.say;
  const char mark[] = { say->units.decimal_mark, '\0' };
  g_autofree char *date = fr_say_date (bush->today), *filled = NULL, *legend = NULL, *scale = NULL,
                  *title = fr_paper_map_title (bush->bush);
  Plan plan;
  FrMapSheet sheet = { 0 };
  FrMapSheetTiles tiles = { 0 };
  GBytes *pdf = NULL;

  plan_init (&plan, bush);
  plan.view.decimal_mark = mark;
  filled = fr_paper_litres_filled (plan.full_l, say);
  legend = fr_paper_map_legend (filled);
  sheet = (FrMapSheet){ .title = title,
                        .author = household_name (bush),
                        .date = date,
                        .legend = legend,
                        .group_names = groups,
                        .map = &plan.view,
                        .scale_ratio = wanted->scale_ratio,
                        .is_landscape = is_landscape };
  if (isnan (sheet.scale_ratio))
    sheet.scale_ratio = fr_map_sheet_best_scale (&sheet, wanted->size);
  *scale_ratio = sheet.scale_ratio;
  scale = fr_paper_scale (sheet.scale_ratio, say);
  sheet.scale_text = scale;
  if (fr_map_sheet_tiles (&sheet, wanted->size, &tiles))
    pdf = fr_map_sheet_pdf (&sheet, wanted->size, n_pages, error);
  else if (tiles.n_pages > 0)
    fr_cli_wrong (error, "at 1:%.0f the map takes %u pages, more than %u; give a larger number to --scale",
                  sheet.scale_ratio, tiles.n_pages, FR_MAP_SHEET_MOST_PAGES);
  else
    fr_cli_wrong (error, "no tree has its place on the map yet");
  plan_clear (&plan);
  return pdf;
}

/* --- out --- */

static void
tell (GString *answer, gboolean json, const Wanted *wanted, guint n_pages, guint n_rows, double scale_ratio)
{
  FrOutput output;
  g_autofree char *text = NULL;

  if (!json)
    {
      g_string_append_printf (answer, n_pages == 1 ? "%u page is in %s" : "%u pages are in %s", n_pages,
                              output_path);
      if (wanted->is_map)
        g_string_append_printf (answer, ", at 1:%.0f.\n", scale_ratio);
      else
        g_string_append_printf (answer, n_rows == 1 ? ", with %u row.\n" : ", with %u rows.\n", n_rows);
      return;
    }
  fr_output_init (&output);
  fr_output_object (&output, NULL);
  fr_output_string (&output, "kind",
                    wanted->is_map                        ? "map"
                    : wanted->is_season                   ? "season"
                    : wanted->is_forecast                 ? "forecast"
                    : wanted->field == FR_PAPER_GATHERING ? "gathering"
                                                          : "measuring");
  fr_output_number (&output, "pages", n_pages);
  fr_output_number (&output, "rows", wanted->is_map ? NAN : n_rows);
  fr_output_number (&output, "scale", scale_ratio);
  fr_output_end_object (&output);
  text = fr_output_finish (&output);
  g_string_append (answer, text);
}

static gboolean
print (const FrCliBush *bush, Wanted *wanted, gboolean json, GString *answer, GError **error)
{
  guint n_pages = 0, n_rows = 0;
  double scale_ratio = NAN;
  g_autoptr (GBytes) pdf = NULL;

  if (paper_text != NULL)
    wanted->size = g_str_equal (paper_text, "letter") ? FR_SHEET_LETTER : FR_SHEET_A4;
  else
    wanted->size = bush->evening.say.units.system == FR_SYSTEM_US ? FR_SHEET_LETTER : FR_SHEET_A4;
  if (wanted->is_map)
    pdf = make_map (bush, wanted, &n_pages, &scale_ratio, error);
  else if (wanted->is_season)
    pdf = fr_cli_season_sheet (bush, household_name (bush), with_months, wanted->size, &n_pages, &n_rows,
                               error);
  else if (wanted->is_forecast)
    pdf = fr_cli_forecast_sheet (bush, household_name (bush), wanted->size, &n_pages, &n_rows, error);
  else
    pdf = make_field (bush, wanted, &n_pages, &n_rows, error);
  if (pdf == NULL)
    return FALSE;
  if (fr_cli_is_book (book_path, output_path))
    return fr_cli_wrong (error, "%s is the book itself; give the file another name", output_path);
  /* Into a new file that takes the old one's name when it is whole. */
  if (!g_file_set_contents_full (output_path, g_bytes_get_data (pdf, NULL), (gssize)g_bytes_get_size (pdf),
                                 G_FILE_SET_CONTENTS_CONSISTENT, 0666, error))
    return FALSE;
  tell (answer, json, wanted, n_pages, n_rows, scale_ratio);
  return TRUE;
}

gboolean
fr_run_sheet (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  FrCliBush bush = { 0 };
  Wanted wanted;
  gboolean ok;

  if (!read_options (&wanted, error))
    return FALSE;
  ok = fr_cli_bush_load (&bush, book_path, season_text, now_text, error)
       && print (&bush, &wanted, options->json, answer, error);
  fr_cli_bush_clear (&bush);
  return ok;
}
