/* frostrun-cli bush and trunk: the trees of a book as a season sees them, and one of them with its holes.
 * Nothing is written. */
#include "cli/cli-bush.h"
#include "cli/cli-print.h"
#include "cli/cli-read.h"

#include "formats/bush-json.h"
#include "formats/input-error.h"
#include "words/bush-words.h"
#include "words/tree-words.h"

#include <math.h>
#include <string.h>

#define SEASON_MIN 1600
#define SEASON_MAX 2400
#define PLACES_MAX 16

static char *book_path, *season_text, *now_text, *tree_name, *places_text;

const GOptionEntry fr_bush_entries[]
    = { { "book", 0, 0, G_OPTION_ARG_FILENAME, &book_path, "The book; without it your own", "FILE" },
        { "season", 0, 0, G_OPTION_ARG_STRING, &season_text, "The year of its spring; without it this season",
          "2026" },
        { "now", 0, 0, G_OPTION_ARG_STRING, &now_text, "As if it were then, local time", "2026-03-11T16:00" },
        { NULL } };

const GOptionEntry fr_trunk_entries[]
    = { { "book", 0, 0, G_OPTION_ARG_FILENAME, &book_path, "The book; without it your own", "FILE" },
        { "tree", 0, 0, G_OPTION_ARG_STRING, &tree_name, "Its name", "NAME" },
        { "places", 0, 0, G_OPTION_ARG_STRING, &places_text, "How many places for new holes, 1 to 16", "2" },
        { "season", 0, 0, G_OPTION_ARG_STRING, &season_text, "The year of its spring; without it this season",
          "2026" },
        { "now", 0, 0, G_OPTION_ARG_STRING, &now_text, "As if it were then, local time", "2026-03-11T16:00" },
        { NULL } };

/* --- the book's bush --- */

gboolean
fr_cli_bush_load (FrCliBush *bush, const char *path, const char *season, const char *now, GError **error)
{
  gint64 now_utc = g_get_real_time () / G_USEC_PER_SEC;
  GPtrArray **kinds = bush->evening.kinds;
  FrBushBook book;
  guint year;

  memset (bush, 0, sizeof *bush);
  if (!fr_cli_evening_load (&bush->evening, path, error)
      || (now != NULL
          && !fr_cli_evening_time (&bush->evening, "--now", now, now_utc, FALSE, &now_utc, error)))
    return FALSE;
  bush->now_utc = now_utc;
  bush->today = fr_zone_local (bush->evening.zone, now_utc).date;
  year = fr_season_of (bush->today);
  if (!fr_cli_whole_option ("--season", season, SEASON_MIN, SEASON_MAX, &year, error))
    return FALSE;
  book = (FrBushBook){
    .trees = kinds[FR_KIND_TREE],
    .girths = kinds[FR_KIND_GIRTH],
    .taps = kinds[FR_KIND_TAP],
    .yields = kinds[FR_KIND_YIELD],
    .features = kinds[FR_KIND_FEATURE],
    .ground = kinds[FR_KIND_GROUND]->len > 0 ? kinds[FR_KIND_GROUND]->pdata[0] : NULL,
    .tapping = kinds[FR_KIND_TAPPING]->len > 0 ? kinds[FR_KIND_TAPPING]->pdata[0] : NULL,
    .gatherings = kinds[FR_KIND_GATHERING],
    .containers = kinds[FR_KIND_CONTAINER],
    .zone = bush->evening.zone,
  };
  bush->bush = fr_bush_new (&book, year, bush->today);
  return TRUE;
}

void
fr_cli_bush_clear (FrCliBush *bush)
{
  g_clear_pointer (&bush->bush, fr_bush_free);
  fr_cli_evening_clear (&bush->evening);
}

/* --- bush --- */

/* "1 set, 1 planned, of 2". */
static char *
taps_cell (const FrBushTree *row)
{
  GString *text = g_string_new (NULL);

  if (row->taps_set > 0 || row->taps_planned == 0)
    g_string_append_printf (text, "%u set", row->taps_set);
  if (row->taps_planned > 0)
    g_string_append_printf (text, "%s%u planned", text->len > 0 ? ", " : "", row->taps_planned);
  if (row->taps_max >= 0)
    g_string_append_printf (text, " of %d", row->taps_max);
  return g_string_free (text, FALSE);
}

static char **
tree_cells (const FrBushTree *row, const FrSay *say)
{
  char *rank = fr_bush_rank_words (row, say);
  char *cells[] = { g_strdup (row->tree->name),
                    g_strdup (fr_species_word (row->tree->species)),
                    fr_say_amount (say, row->diameter_m, FR_QUANTITY_LENGTH, 0),
                    taps_cell (row),
                    fr_say_amount (say, row->season_l, FR_QUANTITY_VOLUME, 1),
                    rank != NULL ? rank : g_strdup ("–"),
                    NULL };

  return g_memdup2 (cells, sizeof cells);
}

static void
print_cautions (GString *out, const FrBush *bush, const FrBushTree *row, const char *name, const FrSay *say)
{
  g_autoptr (GPtrArray) cautions = fr_bush_cautions (bush, row, say);

  for (guint i = 0; i < cautions->len; i++)
    {
      const FrTreeCaution *caution = cautions->pdata[i];

      g_string_append_printf (out, "%s%s%s%s\n", caution->danger ? "!! " : "   ", name != NULL ? name : "",
                              name != NULL ? ": " : "", caution->text);
    }
}

static void
print_bush (GString *out, const FrBush *bush, const FrSay *say)
{
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func ((GDestroyNotify)g_strfreev);
  g_autofree char *summary = fr_bush_summary (bush);

  g_string_append_printf (out, "Season %u: %s\n", fr_bush_get_season (bush), summary);
  for (guint i = 0; i < fr_bush_n_trees (bush); i++)
    g_ptr_array_add (rows, tree_cells (fr_bush_tree_at (bush, i), say));
  if (rows->len > 0)
    g_string_append_c (out, '\n');
  fr_print_rows (out, rows, 6);
  if (rows->len > 0)
    g_string_append_c (out, '\n');
  for (guint i = 0; i < fr_bush_n_trees (bush); i++)
    print_cautions (out, bush, fr_bush_tree_at (bush, i), fr_bush_tree_at (bush, i)->tree->name, say);
}

gboolean
fr_run_bush (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  FrCliBush bush;
  gboolean ok = fr_cli_bush_load (&bush, book_path, season_text, now_text, error);

  if (ok && options->json)
    {
      g_autofree char *text = fr_bush_to_json (bush.bush);

      g_string_append (answer, text);
    }
  else if (ok)
    print_bush (answer, bush.bush, &bush.evening.say);
  fr_cli_bush_clear (&bush);
  return ok;
}

/* --- trunk --- */

static const FrBushTree *
find_tree (const FrBush *bush, const char *name, GError **error)
{
  const FrBushTree *found = NULL;
  guint n = 0;

  if (name == NULL)
    {
      fr_cli_wrong (error, "trunk needs --tree NAME");
      return NULL;
    }
  for (guint i = 0; i < fr_bush_n_trees (bush); i++)
    if (g_strcmp0 (fr_bush_tree_at (bush, i)->tree->name, name) == 0)
      {
        found = fr_bush_tree_at (bush, i);
        n++;
      }
  if (n == 1)
    return found;
  if (n == 0)
    fr_cli_wrong (error, "the book has no tree “%s”", name);
  else
    fr_cli_wrong (error, "%u trees are called “%s”; give each a name of its own in the window", n, name);
  return NULL;
}

static void
print_holes (GString *out, const FrBush *bush, const FrBushTree *row, const FrSay *say)
{
  static const char *const words[] = { "planned", "this season's", "still open", "closed" };
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func ((GDestroyNotify)g_strfreev);
  g_autoptr (GArray) holes = fr_bush_holes (bush, row->id);

  for (guint i = 0; i < holes->len; i++)
    {
      const FrBushHole *hole = &g_array_index (holes, FrBushHole, i);
      char *angle = fr_say_number (say, hole->angle_deg, 0);
      char *cells[] = { g_strdup_printf ("%u", hole->season), g_strdup_printf ("%s°", angle),
                        fr_say_amount (say, hole->height_m, FR_QUANTITY_LENGTH, 0),
                        g_strdup (words[hole->state]), NULL };

      g_free (angle);
      g_ptr_array_add (rows, g_memdup2 (cells, sizeof cells));
    }
  if (rows->len > 0)
    g_string_append (out, "\nHoles\n");
  fr_print_rows (out, rows, 4);
}

static void
print_places (GString *out, const FrBushPlace *places, guint n, const FrSay *say)
{
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func ((GDestroyNotify)g_strfreev);

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *angle = fr_say_number (say, places[i].angle_deg, 0);
      g_autofree char *ratio = fr_say_number (say, places[i].clearance_ratio, 2);
      char *cells[]
          = { g_strdup_printf ("%s°", angle), fr_say_amount (say, places[i].height_m, FR_QUANTITY_LENGTH, 0),
              isnan (places[i].clearance_ratio)
                  ? g_strdup ("no hole near")
                  : g_strdup_printf ("%s of the asked distance%s", ratio,
                                     places[i].in_column ? ", in stained wood" : ""),
              NULL };

      g_ptr_array_add (rows, g_memdup2 (cells, sizeof cells));
    }
  if (rows->len > 0)
    g_string_append (out, n == 1 ? "\nBest place for one more\n" : "\nBest places for more, together\n");
  fr_print_rows (out, rows, 3);
}

static void
print_seasons (GString *out, const FrBush *bush, const FrBushTree *row, const FrSay *say)
{
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func ((GDestroyNotify)g_strfreev);
  g_autoptr (GArray) seasons = fr_bush_history (bush, row->id);

  for (guint i = 0; i < seasons->len; i++)
    {
      const FrTreeSeason *season = &g_array_index (seasons, FrTreeSeason, i);
      char *cells[] = { g_strdup_printf ("%u", season->season),
                        g_strdup_printf (season->taps == 1 ? "%u tap" : "%u taps", season->taps),
                        fr_say_amount (say, season->volume_l, FR_QUANTITY_VOLUME, 1),
                        fr_say_amount (say, season->brix, FR_QUANTITY_SWEETNESS, 1),
                        fr_say_amount (say, season->sugar_kg, FR_QUANTITY_MASS, 2),
                        NULL };

      g_ptr_array_add (rows, g_memdup2 (cells, sizeof cells));
    }
  if (rows->len > 0)
    g_string_append (out, "\nSeasons\n");
  fr_print_rows (out, rows, 5);
}

static void
print_trunk (GString *out, const FrBush *bush, const FrBushTree *row, const FrBushPlace *places, guint n,
             const FrSay *say)
{
  g_autofree char *why = NULL, *headline = fr_bush_headline (bush, row, say, &why);

  g_string_append_printf (out, "%s\n\n%s\n", row->tree->name, headline);
  if (why != NULL)
    g_string_append_printf (out, "%s\n", why);
  print_cautions (out, bush, row, NULL, say);
  print_places (out, places, n, say);
  print_holes (out, bush, row, say);
  print_seasons (out, bush, row, say);
}

/* As many as it may still get, and one to look at where it may get none. */
static guint
places_wanted (const FrBushTree *row)
{
  const guint taps = row->taps_set + row->taps_planned;

  return row->taps_max > 0 && taps < (guint)row->taps_max ? (guint)row->taps_max - taps : 1;
}

gboolean
fr_run_trunk (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  FrCliBush bush;
  FrBushPlace places[PLACES_MAX];
  const FrBushTree *row = NULL;
  guint n = 0;

  if (fr_cli_bush_load (&bush, book_path, season_text, now_text, error))
    row = find_tree (bush.bush, tree_name, error);
  if (row != NULL)
    {
      n = MIN (places_wanted (row), PLACES_MAX);
      if (!fr_cli_whole_option ("--places", places_text, 1, PLACES_MAX, &n, error))
        row = NULL;
      else if (!fr_bush_places (bush.bush, row->id, n, places))
        n = 0;
    }
  if (row != NULL && options->json)
    {
      g_autofree char *why = NULL;
      g_autofree char *headline = fr_bush_headline (bush.bush, row, &bush.evening.say, &why);
      g_autofree char *text = fr_bush_trunk_to_json (bush.bush, row, places, n, headline, why);

      g_string_append (answer, text);
    }
  else if (row != NULL)
    print_trunk (answer, bush.bush, row, places, n, &bush.evening.say);
  fr_cli_bush_clear (&bush);
  return row != NULL;
}
