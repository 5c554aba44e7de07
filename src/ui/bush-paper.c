/* Glue: words and records in, a painter's sheet out. */
#include "ui/bush-paper.h"

#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <math.h>

#include "paint/map-bush.h"
#include "ui/map-scene.h"
#include "ui/paper-table.h"
#include "words/tree-words.h"

static FrSay
say_of (FrSugarbush *bush)
{
  return (FrSay){ .units = *fr_book_get_units (fr_sugarbush_get_book (bush)) };
}

static const char *
household_of (FrSugarbush *bush)
{
  const FrHousehold *household = fr_book_get_household (fr_sugarbush_get_book (bush));

  return household != NULL ? household->name : NULL;
}

/* --- the field sheet --- */

static GBytes *
field_pdf (FrSugarbush *bush, const FrBushPaper *paper, guint *n_pages, GError **error)
{
  const FrBush *of = fr_sugarbush_get_bush (bush);
  FrSay say = say_of (bush);
  g_autoptr (FrBushRound) all = paper->field == FR_PAPER_MEASURING ? fr_bush_round_past_all (of) : NULL;
  g_autoptr (FrPaperWords) words = fr_paper_words_new (
      of, paper->field,
      paper->field == FR_PAPER_MEASURING ? all : fr_sugarbush_get_round (bush, FR_ROUND_PLANNED, 1), &say);
  g_autofree char *date = fr_say_date (fr_sugarbush_get_today (bush));
  g_auto (FrPaperTable) table = { NULL };

  if (words->n_rows == 0)
    {
      g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_FAILED,
                           paper->field == FR_PAPER_GATHERING
                               ? _ ("No tree has a tap set or planned, so there is nothing to gather.")
                               : _ ("There are no trees yet."));
      return NULL;
    }
  fr_paper_table_init (&table, words, &say);
  table.sheet.author = table.sheet.footer = household_of (bush);
  table.sheet.date = date;
  table.sheet.is_landscape = paper->is_landscape;
  return fr_field_sheet_pdf (&table.sheet, paper->size, n_pages, error);
}

/* --- the map --- */

/* What the filling shows, as it is chosen for the window. */
static char *
filled_words (FrSugarbush *bush, const FrSay *say)
{
  double empty = NAN, full = NAN;
  g_autofree char *most = NULL;

  fr_sugarbush_get_shade_range (bush, &empty, &full);
  switch (fr_sugarbush_get_shade (bush))
    {
    case FR_TREE_SHADE_LITRES:
      return fr_paper_litres_filled (full, say);
    case FR_TREE_SHADE_RANK:
      return g_strdup (_ ("Filled: rank by sugar, full for the best"));
    case FR_TREE_SHADE_SWEETNESS:
      most = fr_say_amount (say, full, FR_QUANTITY_SWEETNESS, -1);
      return g_strdup_printf (_ ("Filled: sweetness, full at %s"), most);
    case FR_TREE_SHADE_GIRTH_AGE:
      most = fr_say_number (say, full, 0);
      return g_strdup_printf (_ ("Filled: years since the girth was measured, full at %s"), most);
    case FR_TREE_SHADE_NONE:
    default:
      return NULL;
    }
}

/* Everything a sheet of the map borrows. */
typedef struct
{
  FrMapScene *scene;
  FrMapView view;
  GArray *points;
  GArray *numbers;
  FrMapRound round;
  char mark[2];
  FrMapSheet sheet;
} Plan;

static void
plan_init (Plan *plan, FrSugarbush *bush, const FrBushPaper *paper)
{
  const FrUnits *units = fr_book_get_units (fr_sugarbush_get_book (bush));
  const FrBushRound *round = paper->with_way ? fr_sugarbush_get_round (bush, FR_ROUND_PLANNED, 1) : NULL;

  *plan = (Plan){ .scene = fr_map_scene_new (),
                  .points = g_array_new (FALSE, FALSE, sizeof (FrGroundPoint)),
                  .numbers = g_array_new (FALSE, FALSE, sizeof (guint)),
                  .mark = { units->decimal_mark, '\0' } };
  fr_map_scene_load (plan->scene, bush);
  fr_map_scene_show (plan->scene, &plan->view);
  plan->view.unit_m = units->system == FR_SYSTEM_METRIC ? 1 : 0.3048;
  plan->view.unit_name = fr_quantity_unit (FR_QUANTITY_DISTANCE, units);
  plan->view.decimal_mark = plan->mark;
  plan->view.has_north = TRUE;
  /* Translators: the letter of north on the map */
  plan->view.north_text = C_ ("compass", "N");
  if (round != NULL)
    {
      fr_map_way_of (fr_sugarbush_get_bush (bush), round, plan->points, plan->numbers);
      plan->round = (FrMapRound){ (const FrGroundPoint *)(gpointer)plan->points->data,
                                  (const guint *)(gpointer)plan->numbers->data, plan->points->len };
      plan->view.round = plan->points->len > 0 ? &plan->round : NULL;
    }
  plan->sheet = (FrMapSheet){ .map = &plan->view,
                              .scale_ratio = paper->scale_ratio,
                              .is_landscape = paper->is_landscape };
  if (isnan (paper->scale_ratio))
    plan->sheet.scale_ratio = fr_map_sheet_best_scale (&plan->sheet, paper->size);
}

static void
plan_clear (Plan *plan)
{
  fr_map_scene_free (plan->scene);
  g_array_unref (plan->points);
  g_array_unref (plan->numbers);
}

static GBytes *
map_pdf (FrSugarbush *bush, const FrBushPaper *paper, guint *n_pages, GError **error)
{
  const char *const groups[] = { fr_tree_group_word (FR_TREE_HARD), fr_tree_group_word (FR_TREE_SOFT),
                                 fr_tree_group_word (FR_TREE_OTHER), fr_tree_group_word (FR_TREE_NOT_MAPLE) };
  FrSay say = say_of (bush);
  g_autofree char *date = fr_say_date (fr_sugarbush_get_today (bush)), *filled = filled_words (bush, &say),
                  *legend = fr_paper_map_legend (filled),
                  *title = fr_paper_map_title (fr_sugarbush_get_bush (bush)), *scale = NULL;
  Plan plan;
  FrMapSheetTiles tiles = { 0 };
  GBytes *pdf = NULL;

  plan_init (&plan, bush, paper);
  scale = fr_paper_scale (plan.sheet.scale_ratio, &say);
  plan.sheet.title = title;
  plan.sheet.author = household_of (bush);
  plan.sheet.date = date;
  plan.sheet.legend = legend;
  plan.sheet.group_names = groups;
  plan.sheet.scale_text = scale;
  if (fr_map_sheet_tiles (&plan.sheet, paper->size, &tiles))
    pdf = fr_map_sheet_pdf (&plan.sheet, paper->size, n_pages, error);
  else if (tiles.n_pages > 0)
    {
      g_autofree char *sentence = fr_paper_pages (tiles.n_pages, FR_MAP_SHEET_MOST_PAGES, &say);

      g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_FAILED, sentence);
    }
  else
    g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_FAILED, _ ("No tree has its place on the map yet."));
  plan_clear (&plan);
  return pdf;
}

gboolean
fr_bush_paper_tiles (FrSugarbush *bush, const FrBushPaper *paper, FrMapSheetTiles *tiles,
                     double *scale_ratio_out)
{
  Plan plan;

  *tiles = (FrMapSheetTiles){ 0 };
  plan_init (&plan, bush, paper);
  fr_map_sheet_tiles (&plan.sheet, paper->size, tiles);
  *scale_ratio_out = plan.sheet.scale_ratio;
  plan_clear (&plan);
  return tiles->n_pages > 0;
}

GBytes *
fr_bush_paper_pdf (FrSugarbush *bush, const FrBushPaper *paper, guint *n_pages, GError **error)
{
  return paper->is_map ? map_pdf (bush, paper, n_pages, error) : field_pdf (bush, paper, n_pages, error);
}
