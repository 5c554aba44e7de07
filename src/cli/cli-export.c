/* frostrun-cli export: a book's trees, gatherings or stock as a file for maps, receivers and spreadsheets. */
#include "cli/cli-commands.h"

#include "cli/cli-print.h"
#include "cli/cli-read.h"
#include "cli/cli-sap.h"
#include "cli/cli-trees.h"
#include "formats/arrival-file.h"
#include "formats/json-output.h"

#include <string.h>

static char *book_path, *format_text, *output_path, *what_text, *season_text;
static gboolean with_paths;

const GOptionEntry fr_export_entries[]
    = { { "book", 0, 0, G_OPTION_ARG_FILENAME, &book_path, "The book; without it your own", "FILE" },
        { "format", 0, 0, G_OPTION_ARG_STRING, &format_text, "gpx, geojson, trees-csv or csv", "KIND" },
        { "what", 0, 0, G_OPTION_ARG_STRING, &what_text, "For csv: trees, gatherings or stock (trees)", "WHAT" },
        { "season", 0, 0, G_OPTION_ARG_STRING, &season_text, "For gatherings and stock: only that year's", "YEAR" },
        { "output", 'o', 0, G_OPTION_ARG_FILENAME, &output_path, "Where to; without it standard output",
          "FILE" },
        { "with-paths", 0, 0, G_OPTION_ARG_NONE, &with_paths, "The ground's drawings too", NULL },
        { NULL } };

/* Those that go out: a table has them all. */
static guint
n_going (const FrBushBook *book, FrArrivalFile kind)
{
  guint n = 0;

  for (guint i = 0; i < book->trees->len; i++)
    n += kind == FR_ARRIVAL_FILE_TREES_CSV || !((FrRecord *)book->trees->pdata[i])->archived;
  return n;
}

static void
tell (GString *answer, gboolean json, FrArrivalFile kind, guint n_trees, guint n_left_out)
{
  g_autofree char *text = NULL;
  FrOutput output;

  if (!json)
    {
      g_string_append_printf (answer, n_trees == 1 ? "%u tree is in %s.\n" : "%u trees are in %s.\n", n_trees,
                              output_path);
      if (n_left_out > 0)
        g_string_append_printf (
            answer, n_left_out == 1 ? "%u tree has no place.\n" : "%u trees have no place.\n", n_left_out);
      return;
    }
  fr_output_init (&output);
  fr_output_object (&output, NULL);
  fr_output_string (&output, "kind", fr_arrival_file_code (kind));
  fr_output_number (&output, "trees", n_trees);
  fr_output_number (&output, "without_place", n_left_out);
  fr_output_end_object (&output);
  text = fr_output_finish (&output);
  g_string_append (answer, text);
}

/* Into a new file that takes the old one's name when it is whole. */
static gboolean
keep (const char *text, GError **error)
{
  if (fr_cli_is_book (book_path, output_path))
    return fr_cli_wrong (error, "%s is the book itself; give the file another name", output_path);
  return g_file_set_contents_full (output_path, text, -1, G_FILE_SET_CONTENTS_CONSISTENT, 0666, error);
}

static gboolean
bring_out (FrCliTrees *trees, const FrCommandOptions *options, FrArrivalFile kind, GString *answer,
           GError **error)
{
  guint n_left_out = 0, n_trees = n_going (&trees->book, kind);
  g_autofree char *text = fr_arrival_file_write (kind, &trees->book, with_paths, &n_left_out, error);

  if (text == NULL)
    return FALSE;
  if (kind == FR_ARRIVAL_FILE_GPX)
    n_trees -= n_left_out;
  if (output_path == NULL)
    {
      g_string_append (answer, text);
      if (n_left_out > 0 && kind == FR_ARRIVAL_FILE_GPX)
        fr_print_complaint ("left out, without a place: %u of the trees", n_left_out);
      return TRUE;
    }
  if (!keep (text, error))
    return FALSE;
  tell (answer, options->json, kind, n_trees, n_left_out);
  return TRUE;
}

/* Sap instead of trees. */
static gboolean
bring_out_sap (const FrCommandOptions *options, GString *answer, GError **error)
{
  guint n_rows = 0;
  g_autofree char *text = fr_cli_sap_export (book_path, what_text, season_text, &n_rows, error), *json = NULL;
  FrOutput output;

  if (text == NULL)
    return FALSE;
  if (output_path == NULL)
    {
      g_string_append (answer, text);
      return TRUE;
    }
  if (!keep (text, error))
    return FALSE;
  if (!options->json)
    {
      g_string_append_printf (answer, n_rows == 1 ? "%u row is in %s.\n" : "%u rows are in %s.\n", n_rows, output_path);
      return TRUE;
    }
  fr_output_init (&output);
  fr_output_object (&output, NULL);
  fr_output_string (&output, "kind", strcmp (what_text, "stock") == 0 ? "stock-csv" : "gatherings-csv");
  fr_output_number (&output, "rows", n_rows);
  fr_output_end_object (&output);
  json = fr_output_finish (&output);
  g_string_append (answer, json);
  return TRUE;
}

/* FALSE when what is asked for does not go together. */
static gboolean
check_options (const FrCommandOptions *options, FrArrivalFile *kind_out, GError **error)
{
  const gboolean is_csv = g_strcmp0 (format_text, "csv") == 0;

  if (format_text == NULL)
    return fr_cli_wrong (error, "--format is missing; give %s", fr_export_entries[1].description);
  if (!is_csv && !fr_arrival_file_from_code (format_text, kind_out))
    return fr_cli_wrong (error, "--format “%s” must be %s", format_text, fr_export_entries[1].description);
  if (options->json && output_path == NULL)
    return fr_cli_wrong (error, "--json goes with %s: without it the file itself is the answer", "--output");
  if (what_text != NULL && strcmp (what_text, "trees") != 0 && !fr_cli_sap_is_table (what_text))
    return fr_cli_wrong (error, "--what “%s” must be trees, gatherings or stock", what_text);
  if (fr_cli_sap_is_table (what_text) && !is_csv)
    return fr_cli_wrong (error, "%s go out as --format csv", what_text);
  if (season_text != NULL && !fr_cli_sap_is_table (what_text))
    return fr_cli_wrong (error, "--season goes with --what %s", "gatherings or stock");
  if (is_csv)
    *kind_out = FR_ARRIVAL_FILE_TREES_CSV;
  return TRUE;
}

gboolean
fr_run_export (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  FrCliTrees trees;
  FrArrivalFile kind;
  gboolean ok;

  if (!check_options (options, &kind, error))
    return FALSE;
  if (fr_cli_sap_is_table (what_text))
    return bring_out_sap (options, answer, error);
  ok = fr_cli_trees_load (&trees, book_path, error) && bring_out (&trees, options, kind, answer, error);
  fr_cli_trees_clear (&trees);
  return ok;
}
