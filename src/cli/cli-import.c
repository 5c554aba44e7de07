/* frostrun-cli import: trees, gatherings, stock or weather from a file into a book, one change that the window can undo. */
#include "cli/cli-commands.h"

#include "cli/cli-read.h"
#include "cli/cli-sap.h"
#include "cli/cli-trees.h"
#include "cli/cli-weather-import.h"
#include "formats/arrival-file.h"
#include "formats/foreign.h"
#include "formats/json-output.h"
#include "formats/sap-csv.h"
#include "words/arrival-words.h"

#include <math.h>
#include <string.h>

#define FARTHEST_M 1e6

static char *book_path, *near_text, *far_text, *species_text, *kind_text;
static FrCliWeatherImport weather;
static gboolean dry_run, replace, with_paths, confirm, without_refused;

const GOptionEntry fr_import_entries[]
    = { { "book", 0, 0, G_OPTION_ARG_FILENAME, &book_path, "The book; without it your own", "FILE" },
        { "dry-run", 0, 0, G_OPTION_ARG_NONE, &dry_run, "Only say what would become of each tree or row", NULL },
        { "replace", 0, 0, G_OPTION_ARG_NONE, &replace,
          "What the file says goes before the book, places too; else it only fills in", NULL },
        { "with-paths", 0, 0, G_OPTION_ARG_NONE, &with_paths, "Tracks, lines and outlines too", NULL },
        { "near", 0, 0, G_OPTION_ARG_STRING, &near_text, "Take trees so near each other for one (3)", "M" },
        { "far", 0, 0, G_OPTION_ARG_STRING, &far_text, "Not if of one name, but farther apart (100)", "M" },
        { "species", 0, 0, G_OPTION_ARG_STRING, &species_text,
          "Of new trees of which the file does not say (sugar)", "CODE" },
        { "confirm", 0, 0, G_OPTION_ARG_NONE, &confirm, "Sap and weather: what is asked about is right all the same", NULL },
        { "without-refused", 0, 0, G_OPTION_ARG_NONE, &without_refused,
          "Sap and weather: leave rows out that are refused; else nothing comes in", NULL },
        { "kind", 0, 0, G_OPTION_ARG_STRING, &kind_text,
          "What the file holds, if it is weather; all else shows in the file", "weather" },
        { "station", 0, 0, G_OPTION_ARG_STRING, &weather.station, "Weather: the name of its source; without it as the file calls it",
          "NAME" },
        { "columns", 0, 0, G_OPTION_ARG_STRING, &weather.choice.columns, "Weather: what columns are for, as of the command weather",
          "LIST" },
        { "where", 0, 0, G_OPTION_ARG_STRING, &weather.choice.where, "Weather: only rows with this value", "COLUMN=VALUE" },
        { "zone", 0, 0, G_OPTION_ARG_STRING, &weather.choice.zone,
          "Weather: of clocks that do not say it; without it the household's", "ZONE" },
        { NULL } };

static const char *const fate_codes[FR_N_ARRIVAL_FATES]
    = { "new", "changes", "same", "ambiguous", "refused" };
static const char *const by_codes[] = { NULL, "uid", "name", "place", "nearness" };
static const char *const reason_codes[]
    = { NULL,       "two_named",    "two_near", "far",    "named_twice", "twice",
        "nameless", "no_such_tree", "beyond",   "untied", "bad_record" };
static const char *const tie_codes[]
    = { "not_needed", "kept", "from_file", "middle", "names", "needs_names" };

/* --- options --- */

static gboolean
read_metres (const char *option, const char *text, double *value_m, GError **error)
{
  char *end;
  double value;

  if (text == NULL)
    return TRUE;
  value = g_ascii_strtod (text, &end);
  if (end != text && *end == '\0' && value >= 0 && value <= FARTHEST_M)
    {
      *value_m = value;
      return TRUE;
    }
  g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, "%s “%s” is no number of metres from 0 to %.0f",
               option, text, FARTHEST_M);
  return FALSE;
}

static gboolean
read_options (FrArrivalOptions *options, GError **error)
{
  const FrField *species = fr_kind_field (fr_kind (FR_KIND_TREE), "species");

  options->replace = replace;
  options->with_paths = with_paths;
  options->join_foreign = fr_foreign_join;
  if (species_text != NULL)
    {
      g_autofree char *all = g_strjoinv (", ", (char **)species->codes);

      if (!g_strv_contains (species->codes, species_text))
        {
          g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, "--species “%s” must be one of %s",
                       species_text, all);
          return FALSE;
        }
      options->species = species_text;
    }
  return read_metres ("--near", near_text, &options->near_m, error)
         && read_metres ("--far", far_text, &options->far_m, error);
}

/* --- answers --- */

static void
print_row (GString *out, const char *title, const char *where, const char *sentence)
{
  g_string_append_printf (out, "  %s (%s): %s\n", title, where, sentence);
}

static void
print_sentence (GString *out, char *sentence)
{
  if (sentence != NULL)
    g_string_append_printf (out, "%s\n", sentence);
  g_free (sentence);
}

static void
print_text (GString *out, const FrArrivalPreview *preview, const FrArrivals *arrivals, const FrSay *say,
            gboolean changed)
{
  print_sentence (out, fr_arrival_summary (preview));
  print_sentence (out, fr_arrival_tie_sentence (preview, say));
  print_sentence (out, fr_arrival_fit_sentence (preview, say));
  for (guint i = 0; i < arrivals->remarks->len; i++)
    print_sentence (out, g_strdup (arrivals->remarks->pdata[i]));
  if (!changed)
    g_string_append (out,
                     dry_run ? "Nothing is written: this is a dry run.\n" : "There is nothing to write.\n");
  if (preview->rows->len + preview->paths->len > 0)
    g_string_append_c (out, '\n');
  for (guint i = 0; i < preview->rows->len; i++)
    {
      const FrArrivalRow *row = preview->rows->pdata[i];
      g_autofree char *title = fr_arrival_title (row),
                      *where = fr_arrival_where (arrivals, row->arrival->line),
                      *sentence = fr_arrival_sentence (row, arrivals, say);

      print_row (out, title, where, sentence);
    }
  for (guint i = 0; i < preview->paths->len; i++)
    {
      const FrArrivalPathRow *row = preview->paths->pdata[i];
      g_autofree char *where = fr_arrival_where (arrivals, row->path->line),
                      *sentence = fr_arrival_path_sentence (row);

      print_row (out, row->path->name != NULL ? row->path->name : row->path->form, where, sentence);
    }
}

static void
write_code (FrOutput *output, const char *key, const char *code)
{
  if (code != NULL)
    fr_output_string (output, key, code);
  else
    fr_output_null (output, key);
}

static void
write_row (FrOutput *output, const FrArrivalRow *row, const FrArrivals *arrivals, const FrSay *say)
{
  g_autofree char *title = fr_arrival_title (row), *sentence = fr_arrival_sentence (row, arrivals, say);

  fr_output_object (output, NULL);
  fr_output_string (output, "name", title);
  fr_output_number (output, arrivals->by_line ? "line" : "entry", row->arrival->line);
  fr_output_string (output, "fate", fate_codes[row->fate]);
  write_code (output, "by", by_codes[row->by]);
  write_code (output, "reason", reason_codes[row->reason]);
  write_code (output, "tree", row->tree != NULL ? row->tree->name : NULL);
  fr_output_number (output, "away_m", row->away_m);
  fr_output_number (output, "x_m", row->x_m);
  fr_output_number (output, "y_m", row->y_m);
  fr_output_boolean (output, "moves", row->moves);
  fr_output_number (output, "fields", row->n_fields);
  fr_output_number (output, "history", row->n_history);
  fr_output_string (output, "sentence", sentence);
  fr_output_end_object (output);
}

static void
write_tie (FrOutput *output, const FrArrivalPreview *preview)
{
  fr_output_object (output, "tie");
  fr_output_string (output, "how", tie_codes[preview->tie]);
  fr_output_number (output, "anchor_lat_deg", preview->anchor.lat_deg);
  fr_output_number (output, "anchor_lon_deg", preview->anchor.lon_deg);
  fr_output_number (output, "anchor_x_m", preview->anchor.x_m);
  fr_output_number (output, "anchor_y_m", preview->anchor.y_m);
  fr_output_number (output, "names", preview->n_names);
  fr_output_number (output, "residual_m", preview->residual_m);
  fr_output_number (output, "worst_m", preview->worst_m);
  fr_output_number (output, "turn_deg", preview->turn_deg);
  fr_output_number (output, "stretch_ratio", preview->stretch);
  fr_output_end_object (output);
}

static void
print_json (GString *out, const FrArrivalPreview *preview, const FrArrivals *arrivals, const FrSay *say,
            FrArrivalFile kind, gboolean changed)
{
  g_autofree char *text = NULL;
  FrOutput output;

  fr_output_init (&output);
  fr_output_object (&output, NULL);
  fr_output_string (&output, "kind", fr_arrival_file_code (kind));
  fr_output_boolean (&output, "written", changed);
  for (guint i = 0; i < FR_N_ARRIVAL_FATES; i++)
    fr_output_number (&output, fate_codes[i], preview->n[i]);
  write_tie (&output, preview);
  fr_output_array (&output, "trees");
  for (guint i = 0; i < preview->rows->len; i++)
    write_row (&output, preview->rows->pdata[i], arrivals, say);
  fr_output_end_array (&output);
  fr_output_array (&output, "paths");
  for (guint i = 0; i < preview->paths->len; i++)
    {
      const FrArrivalPathRow *row = preview->paths->pdata[i];

      fr_output_object (&output, NULL);
      write_code (&output, "name", row->path->name);
      fr_output_string (&output, "form", row->path->form);
      fr_output_string (&output, "fate", fate_codes[row->fate]);
      fr_output_number (&output, "points", row->n_points);
      fr_output_end_object (&output);
    }
  fr_output_end_array (&output);
  fr_output_array (&output, "remarks");
  for (guint i = 0; i < arrivals->remarks->len; i++)
    fr_output_string (&output, NULL, arrivals->remarks->pdata[i]);
  fr_output_end_array (&output);
  fr_output_end_object (&output);
  text = fr_output_finish (&output);
  g_string_append (out, text);
}

/* --- the work --- */

static gboolean
apply (FrCliTrees *trees, const FrArrivalPreview *preview, const char *file, gboolean *changed,
       GError **error)
{
  static const FrKindId kinds[]
      = { FR_KIND_TREE, FR_KIND_GIRTH, FR_KIND_TAP, FR_KIND_YIELD, FR_KIND_FEATURE, FR_KIND_GROUND };
  FrArrivalIds ids = { .new_uid = fr_cli_new_uid };
  g_autofree char *subject = strcmp (file, "-") == 0 ? NULL : g_path_get_basename (file);
  g_autofree char *shown = subject != NULL ? g_utf8_make_valid (subject, -1) : NULL;
  g_autoptr (FrChange) change = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      ids.next[kinds[i]] = fr_store_next_id (trees->store, kinds[i], error);
      if (ids.next[kinds[i]] <= 0)
        return FALSE;
    }
  change = fr_arrivals_change (preview, &ids, shown);
  *changed = !fr_change_is_empty (change);
  return fr_store_apply (trees->store, change, FR_ORIGIN_IMPORT, g_get_real_time () / G_USEC_PER_SEC, error);
}

static gboolean
bring_in (FrCliTrees *trees, const FrCommandOptions *options, const char *file, GBytes *bytes, GString *answer,
          GError **error)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  g_autofree char *today = g_date_time_format (now, "%Y-%m-%d");
  FrArrivalOptions wanted = fr_arrival_options (today);
  g_autoptr (FrArrivals) arrivals = NULL;
  g_autoptr (FrArrivalPreview) preview = NULL;
  gboolean changed = FALSE;
  FrArrivalFile kind;
  gsize length;
  const char *data;

  if (!read_options (&wanted, error))
    return FALSE;
  data = g_bytes_get_data (bytes, &length);
  arrivals = fr_arrival_file_read (data, length, &kind, error);
  if (arrivals == NULL)
    return FALSE;
  preview = fr_arrivals_preview (arrivals, &trees->book, &wanted);
  if (preview->tie == FR_TIE_NEEDS_NAMES)
    {
      g_autofree char *sentence = fr_arrival_tie_sentence (preview, &trees->say);

      g_set_error_literal (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, sentence);
      return FALSE;
    }
  if (!dry_run && !apply (trees, preview, file, &changed, error))
    return FALSE;
  if (options->json)
    print_json (answer, preview, arrivals, &trees->say, kind, changed);
  else
    print_text (answer, preview, arrivals, &trees->say, changed);
  return TRUE;
}

/* A table of days was taken for another: says how it comes in as what it is. */
static void
tell_weather (const char *data, gsize length, GError **error)
{
  g_autoptr (FrWeather) read = data != NULL && error != NULL ? fr_weather_read (data, length, NULL, NULL) : NULL;
  g_autoptr (GError) was = NULL;

  if (read == NULL || read->days->len == 0)
    return;
  was = *error;
  *error = NULL;
  g_set_error (error, was->domain, was->code, "%s%s It looks like weather, which comes in with --kind weather.", was->message,
               g_str_has_suffix (was->message, ".") ? "" : ".");
}

gboolean
fr_run_import (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  const FrCliSapOptions sap = { book_path, dry_run, confirm, without_refused };
  g_autoptr (GBytes) bytes = NULL;
  FrCliTrees trees;
  const char *data;
  gsize length;
  gboolean ok;

  if (kind_text != NULL && strcmp (kind_text, "weather") == 0)
    {
      weather.book = book_path;
      weather.dry_run = dry_run;
      weather.confirm = confirm;
      weather.without_refused = without_refused;
      return fr_cli_weather_import (&weather, options, file, answer, error);
    }
  if (kind_text != NULL)
    return fr_cli_wrong (error, "--kind “%s” must be weather; what else a file holds shows in the file", kind_text);
  bytes = fr_cli_read_bytes (file, FR_ARRIVAL_FILE_SIZE_MAX, error);
  if (bytes == NULL)
    return FALSE;
  data = g_bytes_get_data (bytes, &length);
  if (data != NULL && fr_sap_csv_looks_like (data, length))
    ok = fr_cli_sap_import (&sap, options, file, bytes, answer, error);
  else
    {
      ok = fr_cli_trees_load (&trees, book_path, error) && bring_in (&trees, options, file, bytes, answer, error);
      fr_cli_trees_clear (&trees);
    }
  if (!ok)
    tell_weather (data, length, error);
  return ok;
}
