/* Gatherings and stock in and out: a preview of every row, then all or nothing, as one change that the window
 * can undo. */
#include "cli/cli-sap.h"

#include "cli/cli-evening.h"
#include "cli/cli-read.h"
#include "cli/cli-trees.h"
#include "formats/json-output.h"
#include "formats/json-text.h"
#include "formats/sap-csv.h"
#include "store/store.h"
#include "words/ask-words.h"
#include "words/sap-arrival-words.h"

#include <math.h>
#include <string.h>

#define SEASON_MIN 1600
#define SEASON_MAX 2400

static const char *const fate_codes[FR_N_SAP_FATES] = { "new", "changes", "same", "asked", "refused" };
static const char *const refusal_codes[FR_N_SAP_REFUSALS]
    = { NULL,       "no_number",  "no_quantity", "no_date",     "no_time",     "no_offset",
        "dateless", "skipped",    "no_code",     "no_yes",      "no_identity", "no_record",
        "too_long", "said_twice", "two_amounts", "not_of_kind", "too_wide",    "no_such",
        "two_such", "twice",      "elsewhere",   "not_kept" };
static const char *const ask_codes[FR_N_ASKS]
    = { "future",    "no_tap",   "reading",      "not_sap",       "sweet",
        "watery",    "twice",    "over_buckets", "thin",          "far_above",
        "far_below", "overflow", "negative",     "clock_skipped", "clock_twice" };
static const char *const cause_codes[FR_N_CAUSES]
    = { "rain",       "melt",       "leak",          "dry_hole",    "tipped",      "unit",
        "point",      "other_tree", "missed_line",   "typed_twice", "concentrate", "frozen",
        "instrument", "date",       "tap_unwritten", "container",   "size" };

typedef struct
{
  FrCliEvening evening;
  FrStore *store;
  FrSapArrivals *arrivals;
  FrSapArrivalPreview *preview;
  gboolean is_written;
} Import;

/* --- answers --- */

static void
print_text (GString *out, const Import *import, gboolean dry_run)
{
  g_autofree char *summary = fr_sap_arrival_summary (import->preview);

  g_string_append_printf (out, "%s\n", summary);
  for (guint i = 0; i < import->arrivals->remarks->len; i++)
    g_string_append_printf (out, "%s\n", (char *)import->arrivals->remarks->pdata[i]);
  if (dry_run)
    g_string_append (out, "Nothing is written: this is a dry run.\n");
  else if (!import->is_written)
    g_string_append (out, "There is nothing to write.\n");
  if (import->preview->rows->len > 0)
    g_string_append_c (out, '\n');
  for (guint i = 0; i < import->preview->rows->len; i++)
    {
      const FrSapArrivalRow *row = import->preview->rows->pdata[i];
      g_autofree char *title = fr_sap_arrival_title (row, &import->evening.book),
                      *shown = fr_json_quote (title),
                      *sentence = fr_sap_arrival_sentence (row, import->preview, &import->evening.book,
                                                           &import->evening.say);

      g_string_append_printf (out, "  line %u, %s: %s%s\n", row->arrival->line, shown, sentence,
                              row->left_out ? " Left out." : "");
    }
}

static void
write_question (FrOutput *output, const FrQuestion *question)
{
  fr_output_object (output, NULL);
  fr_output_string (output, "code", ask_codes[question->code]);
  fr_output_array (output, "causes");
  for (guint i = 0; i < question->n_causes; i++)
    fr_output_string (output, NULL, cause_codes[question->causes[i]]);
  fr_output_end_array (output);
  fr_output_number (output, "value_l", question->value_l);
  fr_output_number (output, "usual_l", question->usual_l);
  fr_output_number (output, "limit_l", question->limit_l);
  fr_output_number (output, "brix", question->brix);
  fr_output_number (output, "usual_brix", question->usual_brix);
  fr_output_end_object (output);
}

static void
write_row (FrOutput *output, const FrSapArrivalRow *row, const Import *import)
{
  g_autofree char *title
      = fr_sap_arrival_title (row, &import->evening.book),
      *sentence = fr_sap_arrival_sentence (row, import->preview, &import->evening.book, &import->evening.say);

  fr_output_object (output, NULL);
  fr_output_number (output, "line", row->arrival->line);
  fr_output_string (output, "record", row->arrival->record->kind->name);
  fr_output_string (output, "name", title);
  fr_output_string (output, "fate", fate_codes[row->fate]);
  if (refusal_codes[row->refusal] != NULL)
    fr_output_string (output, "reason", refusal_codes[row->refusal]);
  else
    fr_output_null (output, "reason");
  fr_output_number (output, "fields", row->n_fields);
  fr_output_boolean (output, "left_out", row->left_out);
  fr_output_array (output, "questions");
  for (guint i = 0; i < row->questions->len; i++)
    write_question (output, &g_array_index (row->questions, FrQuestion, i));
  fr_output_end_array (output);
  fr_output_string (output, "sentence", sentence);
  fr_output_end_object (output);
}

static void
print_json (GString *out, const Import *import, const char *kind)
{
  g_autofree char *text = NULL;
  FrOutput output;

  fr_output_init (&output);
  fr_output_object (&output, NULL);
  fr_output_string (&output, "kind", kind);
  fr_output_boolean (&output, "written", import->is_written);
  for (guint i = 0; i < FR_N_SAP_FATES; i++)
    fr_output_number (&output, fate_codes[i], import->preview->n[i]);
  fr_output_array (&output, "rows");
  for (guint i = 0; i < import->preview->rows->len; i++)
    write_row (&output, import->preview->rows->pdata[i], import);
  fr_output_end_array (&output);
  fr_output_array (&output, "remarks");
  for (guint i = 0; i < import->arrivals->remarks->len; i++)
    fr_output_string (&output, NULL, import->arrivals->remarks->pdata[i]);
  fr_output_end_array (&output);
  fr_output_end_object (&output);
  text = fr_output_finish (&output);
  g_string_append (out, text);
}

/* --- in --- */

static gboolean
look (Import *import, const FrCliSapOptions *wanted, GBytes *bytes, GError **error)
{
  const FrSapCsvOptions options = { import->evening.zone, &import->evening.say.units, FALSE };
  gint64 next_ids[FR_N_KINDS] = { 0 };
  gsize length;
  const char *data = g_bytes_get_data (bytes, &length);

  import->arrivals = fr_sap_csv_read (data, length, &options, error);
  if (import->arrivals == NULL)
    return FALSE;
  for (FrKindId kind = FR_KIND_CONTAINER; kind <= FR_KIND_DIP; kind++)
    {
      next_ids[kind] = fr_store_next_id (import->store, kind, error);
      if (next_ids[kind] <= 0)
        return FALSE;
    }
  import->preview = fr_sap_arrivals_preview (import->arrivals, &import->evening.book, next_ids,
                                             g_get_real_time () / G_USEC_PER_SEC);
  for (guint i = 0; i < import->preview->rows->len; i++)
    {
      FrSapArrivalRow *row = import->preview->rows->pdata[i];

      row->confirmed = wanted->confirm;
      row->left_out = wanted->without_refused && row->fate == FR_SAP_REFUSED;
    }
  return TRUE;
}

/* The first row that keeps all out, and how many do. */
static gboolean
tell_open (const Import *import, GError **error)
{
  g_autofree char *open = fr_sap_arrival_open_sentence (import->preview);

  for (guint i = 0; open != NULL && i < import->preview->rows->len; i++)
    {
      const FrSapArrivalRow *row = import->preview->rows->pdata[i];
      /* A column that is not read is often why its amount is missing. */
      const char *remark = import->arrivals->remarks->len > 0 ? import->arrivals->remarks->pdata[0] : NULL;
      g_autofree char *sentence = NULL;

      if (row->left_out || !(row->fate == FR_SAP_REFUSED || (row->fate == FR_SAP_ASKED && !row->confirmed)))
        continue;
      sentence = fr_sap_arrival_sentence (row, import->preview, &import->evening.book, &import->evening.say);
      return fr_cli_wrong (error, "line %u: %s %s%s%s See --dry-run, --confirm and --without-refused.",
                           row->arrival->line, sentence, remark != NULL ? remark : "",
                           remark != NULL ? " " : "", open);
    }
  return TRUE;
}

static gboolean
apply (Import *import, const char *label, const char *file, GError **error)
{
  g_autofree char *subject = strcmp (file, "-") == 0 ? NULL : g_path_get_basename (file);
  g_autofree char *shown = subject != NULL ? g_utf8_make_valid (subject, -1) : NULL;
  g_autoptr (FrChange) change = NULL;

  if (!tell_open (import, error))
    return FALSE;
  change = fr_sap_arrivals_change (import->preview, label, shown, fr_cli_new_uid);
  import->is_written = !fr_change_is_empty (change);
  return fr_store_apply (import->store, change, FR_ORIGIN_IMPORT, g_get_real_time () / G_USEC_PER_SEC, error);
}

gboolean
fr_cli_sap_import (const FrCliSapOptions *wanted, const FrCommandOptions *options, const char *file,
                   GBytes *bytes, GString *answer, GError **error)
{
  Import import = { .arrivals = NULL };
  gboolean ok = fr_cli_evening_load (&import.evening, wanted->book, error);

  if (ok)
    {
      import.store = fr_cli_open_book (wanted->book, error);
      ok = import.store != NULL && look (&import, wanted, bytes, error);
    }
  if (ok)
    {
      const gboolean is_stock = fr_sap_arrivals_have (import.arrivals, FR_KIND_CONTAINER)
                                || fr_sap_arrivals_have (import.arrivals, FR_KIND_POUR)
                                || fr_sap_arrivals_have (import.arrivals, FR_KIND_DIP);

      ok = wanted->dry_run || apply (&import, is_stock ? "import-stock" : "import-gatherings", file, error);
      if (ok && options->json)
        print_json (answer, &import, is_stock ? "stock-csv" : "gatherings-csv");
      else if (ok)
        print_text (answer, &import, wanted->dry_run);
    }
  fr_sap_arrival_preview_free (import.preview);
  fr_sap_arrivals_free (import.arrivals);
  fr_store_close (import.store);
  fr_cli_evening_clear (&import.evening);
  return ok;
}

/* --- out --- */

gboolean
fr_cli_sap_is_table (const char *what)
{
  return g_strcmp0 (what, "gatherings") == 0 || g_strcmp0 (what, "stock") == 0;
}

static guint
count_rows (const char *text)
{
  g_autoptr (GPtrArray) rows = fr_csv_read (text, strlen (text), NULL);

  return rows != NULL && rows->len > 0 ? rows->len - 1 : 0;
}

char *
fr_cli_sap_export (const char *book, const char *what, const char *season, guint *n_rows_out, GError **error)
{
  FrCliEvening evening;
  gint64 from_utc = G_MININT64, to_utc = G_MAXINT64, ignored;
  char *text = NULL;
  guint64 year;

  if (season != NULL && !g_ascii_string_to_unsigned (season, 10, SEASON_MIN, SEASON_MAX, &year, NULL))
    {
      fr_cli_wrong (error, "--season “%s” has to be a whole number from %u to %u", season, SEASON_MIN,
                    SEASON_MAX);
      return NULL;
    }
  if (fr_cli_evening_load (&evening, book, error))
    {
      if (season != NULL)
        {
          fr_day_span_utc (evening.zone, fr_season_first_day ((guint)year), &from_utc, &ignored);
          fr_day_span_utc (evening.zone, fr_season_last_day ((guint)year), &ignored, &to_utc);
        }
      text = strcmp (what, "stock") == 0 ? fr_stock_csv_write (&evening.book, from_utc, to_utc)
                                         : fr_gatherings_csv_write (&evening.book, from_utc, to_utc);
      *n_rows_out = count_rows (text);
    }
  fr_cli_evening_clear (&evening);
  return text;
}
