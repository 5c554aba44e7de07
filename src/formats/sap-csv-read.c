/* Reading. What makes the table none (its text, its quotes, its head) is an error; what is wrong with one
 * cell refuses that row, so that a person sees all of them at once. Of an amount said in a unit the unit's
 * figure is kept to the last digit; one typed as people do is kept as typed. */
#include "formats/sap-csv-private.h"

#include "domain/units/units.h"
#include "formats/csv-time.h"
#include "formats/field-text.h"
#include "formats/json-input.h"
#include "formats/json-text.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define N_KINDS 4
#define UID_CHARS 32
/* A row without a clock time. */
#define NOON_S 43200

typedef struct
{
  const FrSapCsvOptions *options;
  FrSapArrivals *arrivals;
  GPtrArray *columns;        /* char * */
  FrSapCell *cells[N_KINDS]; /* beside columns, by kind from container on */
  FrKindId kind;             /* of rows that do not say */
  int record;                /* the column of that name, −1 none */
} Reading;

/* What of a row is not a field of its own. */
typedef struct
{
  FrSapArrival *arrival;
  gboolean has_date;
  FrDate date;
  gint second;
  gboolean has_offset;
  gint offset_s;
  GPtrArray *typed; /* pairs of FrField and text */
} Row;

static gboolean
is_blank (const char *cell)
{
  return cell[strspn (cell, " \t\r\n")] == '\0';
}

static char *
tidy (const char *cell)
{
  g_autofree char *plain = fr_csv_unguard (cell);

  return g_strstrip (g_steal_pointer (&plain));
}

/* --- the head --- */

static char *
column_name (const char *cell)
{
  g_autofree char *plain = tidy (cell);

  return g_ascii_strdown (plain, -1);
}

static gboolean
is_known (const char *name)
{
  return fr_sap_cell (name, FR_KIND_GATHERING).kind != FR_SAP_CELL_UNKNOWN;
}

/* How many of a row's cells are names of columns. */
static guint
n_known (const FrCsvRow *row)
{
  guint n = 0;

  for (guint i = 0; i < row->cells->len; i++)
    {
      g_autofree char *name = column_name (row->cells->pdata[i]);

      n += *name != '\0' && is_known (name);
    }
  return n;
}

static int
find_column (const Reading *reading, const char *name)
{
  for (guint i = 0; i < reading->columns->len; i++)
    if (strcmp (reading->columns->pdata[i], name) == 0)
      return (int)i;
  return -1;
}

static void
remark_unknown (Reading *reading, const char *name, const char *cell)
{
  g_autoptr (GPtrArray) names = fr_sap_column_names ();
  g_autofree char *plain = tidy (cell), *quoted = fr_json_quote (plain);
  const char *nearest = fr_input_nearest (name, (const char *const *)names->pdata);

  g_ptr_array_add (reading->arrivals->remarks,
                   nearest != NULL
                       ? g_strdup_printf (_ ("The column “%s” is not read; is %s meant?"), quoted, nearest)
                       : g_strdup_printf (_ ("The column “%s” is not read."), quoted));
}

static gboolean
fail (GError **error, guint line, const char *sentence)
{
  g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, _ ("line %u: %s"), line, sentence);
  return FALSE;
}

/* What rows are of that do not say it themselves. */
static FrKindId
usual_kind (const Reading *reading)
{
  if (find_column (reading, "reason") >= 0 || find_column (reading, "target") >= 0)
    return FR_KIND_POUR;
  if (find_column (reading, "role") >= 0
      || (find_column (reading, "name") >= 0 && find_column (reading, "date") < 0))
    return FR_KIND_CONTAINER;
  return FR_KIND_GATHERING;
}

static void
sort_out_columns (Reading *reading)
{
  for (guint k = 0; k < N_KINDS; k++)
    {
      reading->cells[k] = g_new0 (FrSapCell, reading->columns->len + 1);
      for (guint i = 0; i < reading->columns->len; i++)
        reading->cells[k][i] = fr_sap_cell (reading->columns->pdata[i], FR_KIND_CONTAINER + k);
    }
  reading->record = find_column (reading, "record");
  reading->kind = usual_kind (reading);
}

static gboolean
read_head (Reading *reading, const FrCsvRow *row, GError **error)
{
  for (guint i = 0; i < row->cells->len; i++)
    {
      char *name = column_name (row->cells->pdata[i]);
      const gboolean is_twice = *name != '\0' && find_column (reading, name) >= 0;

      g_ptr_array_add (reading->columns, name);
      if (is_twice)
        {
          g_autofree char *quoted = fr_json_quote (name),
                          *what = g_strdup_printf (_ ("the column “%s” stands twice"), quoted);

          return fail (error, row->line, what);
        }
      if (*name != '\0' && !is_known (name))
        remark_unknown (reading, name, row->cells->pdata[i]);
    }
  sort_out_columns (reading);
  return TRUE;
}

static void
take_log_columns (Reading *reading)
{
  for (guint i = 0; fr_sap_csv_log_columns[i] != NULL; i++)
    g_ptr_array_add (reading->columns, g_strdup (fr_sap_csv_log_columns[i]));
  sort_out_columns (reading);
}

/* --- cells --- */

static void
read_number (Row *row, const FrSapCsvOptions *options, const FrSapCell *cell, const char *column,
             const char *text)
{
  static const FrUnits baume = { .baume = TRUE, .decimal_mark = '.' };
  const FrSapUnit *unit = cell->unit;
  double value;

  if (!fr_decimal_read (text, unit->kind == FR_SAP_UNIT_SHIFT ? unit->shift : 0, &value))
    {
      fr_sap_arrival_refuse (row->arrival, FR_SAP_NO_NUMBER, column, text);
      return;
    }
  switch (unit->kind)
    {
    case FR_SAP_UNIT_FACTOR:
      value *= unit->factor;
      break;
    case FR_SAP_UNIT_FAHRENHEIT:
      value = fr_celsius_from_fahrenheit (value);
      break;
    case FR_SAP_UNIT_BAUME:
      value = fr_quantity_from_shown (value, FR_QUANTITY_SWEETNESS, &baume);
      break;
    case FR_SAP_UNIT_GALLON:
      value *= options->units != NULL && options->units->system == FR_SYSTEM_IMPERIAL
                   ? FR_LITRES_PER_IMPERIAL_GALLON
                   : FR_LITRES_PER_US_GALLON;
      break;
    default:
      break;
    }
  if (isfinite (value))
    fr_record_set_amount (row->arrival->record, cell->field, value, NULL);
  else
    fr_sap_arrival_refuse (row->arrival, FR_SAP_NO_NUMBER, column, text);
}

static void
read_quantity (Row *row, const FrSapCsvOptions *options, const FrField *field, const char *column,
               const char *text)
{
  FrQuantityProblem problem;
  double value;
  gsize at;

  if (fr_quantity_parse (text, field->quantity, options->units, &value, &problem, &at))
    {
      fr_record_set_amount (row->arrival->record, field, value, text);
      return;
    }
  if (row->arrival->refusal == FR_SAP_FINE)
    {
      row->arrival->quantity = problem;
      row->arrival->at = at;
      row->arrival->quantity_kind = field->quantity;
    }
  fr_sap_arrival_refuse (row->arrival, FR_SAP_NO_QUANTITY, column, text);
}

static void
read_field (Row *row, const FrSapCsvOptions *options, const FrSapCell *cell, const char *column,
            const char *raw)
{
  FrSapArrival *arrival = row->arrival;
  const FrField *field = cell->field;
  g_autofree char *text = tidy (raw), *low = g_ascii_strdown (text, -1);
  gboolean yes;

  if ((arrival->said & (G_GUINT64_CONSTANT (1) << (field - arrival->record->kind->fields))) != 0)
    {
      fr_sap_arrival_refuse (arrival, FR_SAP_SAID_TWICE, column, text);
      return;
    }
  fr_sap_arrival_say (arrival, field);
  switch (field->type)
    {
    case FR_FIELD_AMOUNT:
      if (cell->unit->kind == FR_SAP_UNIT_TYPED)
        read_quantity (row, options, field, column, text);
      else
        read_number (row, options, cell, column, text);
      return;
    case FR_FIELD_CODE:
      if (g_strv_contains (field->codes, low))
        fr_record_set_text (arrival->record, field, low);
      else
        fr_sap_arrival_refuse (arrival, FR_SAP_NO_CODE, column, text);
      return;
    case FR_FIELD_BOOL:
      if (fr_csv_read_yes (raw, &yes))
        fr_record_set_int (arrival->record, field, yes);
      else
        fr_sap_arrival_refuse (arrival, FR_SAP_NO_YES, column, text);
      return;
    default:
      break;
    }
  /* Texts as they are, blanks at the ends too: they came from a book, or a person meant them. */
  g_free (text);
  text = fr_csv_unguard (raw);
  if (g_utf8_strlen (text, -1) > (glong)field->max)
    fr_sap_arrival_refuse (arrival, FR_SAP_TOO_LONG, column, NULL);
  else
    fr_record_set_text (arrival->record, field, text);
}

static void
read_identity (Row *row, const char *column, const char *raw)
{
  g_autofree char *uid = tidy (raw);

  if (strlen (uid) == UID_CHARS && strspn (uid, "0123456789abcdef") == UID_CHARS)
    memcpy (row->arrival->record->uid, uid, sizeof row->arrival->record->uid);
  else
    fr_sap_arrival_refuse (row->arrival, FR_SAP_NO_IDENTITY, column, uid);
}

static void
read_when (Row *row, const FrSapCell *cell, const char *column, const char *raw)
{
  g_autofree char *text = tidy (raw);
  gint second;

  switch (cell->kind)
    {
    case FR_SAP_CELL_DATE:
      row->has_date = fr_csv_read_date (text, &row->date, &row->second, &row->offset_s, &row->has_offset);
      if (!row->has_date)
        fr_sap_arrival_refuse (row->arrival, FR_SAP_NO_DATE, column, text);
      break;
    case FR_SAP_CELL_TIME:
      if (!fr_csv_read_clock (text, &second))
        fr_sap_arrival_refuse (row->arrival, FR_SAP_NO_TIME, column, text);
      else
        row->second = second;
      break;
    default:
      row->has_offset = fr_csv_read_offset (text, &row->offset_s);
      if (!row->has_offset)
        fr_sap_arrival_refuse (row->arrival, FR_SAP_NO_OFFSET, column, text);
    }
}

static void
read_cell (Row *row, const FrSapCsvOptions *options, const FrSapCell *cell, const char *column,
           const char *raw)
{
  FrSapArrival *arrival = row->arrival;
  gboolean yes;

  switch (cell->kind)
    {
    case FR_SAP_CELL_FIELD:
      read_field (row, options, cell, column, raw);
      break;
    case FR_SAP_CELL_TYPED:
      g_ptr_array_add (row->typed, (gpointer)cell->field);
      g_ptr_array_add (row->typed, (gpointer)raw);
      break;
    case FR_SAP_CELL_NAME:
      arrival->names[cell->name] = fr_csv_unguard (raw);
      break;
    case FR_SAP_CELL_UID:
      read_identity (row, column, raw);
      break;
    case FR_SAP_CELL_ARCHIVED:
      if (fr_csv_read_yes (raw, &yes))
        arrival->record->archived = yes;
      else
        fr_sap_arrival_refuse (arrival, FR_SAP_NO_YES, column, raw);
      break;
    case FR_SAP_CELL_DATE:
    case FR_SAP_CELL_TIME:
    case FR_SAP_CELL_OFFSET:
      read_when (row, cell, column, raw);
      break;
    case FR_SAP_CELL_ALIEN:
      fr_sap_arrival_refuse (arrival, FR_SAP_NOT_OF_KIND, column, arrival->record->kind->name);
      break;
    case FR_SAP_CELL_RECORD:
    case FR_SAP_CELL_UNKNOWN:
      break;
    }
}

/* --- rows --- */

/* How an amount was typed is kept while it still means the amount. */
static void
keep_typed (Row *row, const FrSapCsvOptions *options)
{
  for (guint i = 0; i < row->typed->len; i += 2)
    {
      const FrField *field = row->typed->pdata[i];
      g_autofree char *text = fr_csv_unguard (row->typed->pdata[i + 1]);
      const double value = fr_record_amount (row->arrival->record, field)->value;
      FrQuantityProblem problem;
      double meant;
      gsize at;

      if (fr_quantity_parse (text, field->quantity, options->units, &meant, &problem, &at)
          && fabs (meant - value) <= 1e-9 * MAX (1, fabs (value)))
        fr_record_set_amount (row->arrival->record, field, value, text);
    }
}

static const char *const time_fields[N_KINDS] = { NULL, "gathered_utc", "poured_utc", "found_utc" };

static void
set_time (Row *row, const FrSapCsvOptions *options)
{
  FrSapArrival *arrival = row->arrival;
  const char *name = time_fields[arrival->record->kind->id - FR_KIND_CONTAINER];
  const FrField *field;
  FrQuestion question;
  gint64 utc_s;

  if (name == NULL)
    return;
  if (!row->has_date)
    {
      fr_sap_arrival_refuse (arrival, FR_SAP_DATELESS, NULL, NULL);
      return;
    }
  field = fr_kind_field (arrival->record->kind, name);
  if (row->has_offset)
    utc_s = fr_date_to_days (row->date) * 86400 + row->second - row->offset_s;
  else if (fr_ask_clock (options->zone, row->date, row->second, &utc_s, &question)
           && question.code == FR_ASK_CLOCK_SKIPPED)
    {
      arrival->before_utc = question.utc_s;
      arrival->after_utc = question.other_utc_s;
      fr_sap_arrival_refuse (arrival, FR_SAP_SKIPPED, NULL, NULL);
      return;
    }
  fr_record_set_int (arrival->record, field, utc_s);
  fr_sap_arrival_say (arrival, field);
}

/* By what it was measured shows in which amount there is. */
static void
set_measured_by (FrSapArrival *arrival)
{
  static const char *const ways[][2]
      = { { "volume_l", "volume" }, { "weight_kg", "weight" }, { "depth_m", "depth" } };
  const FrKind *kind = arrival->record->kind;
  const FrField *measured_by = fr_kind_field (kind, "measured_by");
  guint n = 0;

  if (measured_by == NULL || (arrival->said & (G_GUINT64_CONSTANT (1) << (measured_by - kind->fields))) != 0)
    return;
  for (guint i = 0; i < G_N_ELEMENTS (ways); i++)
    if ((arrival->said & (G_GUINT64_CONSTANT (1) << (fr_kind_field (kind, ways[i][0]) - kind->fields))) != 0)
      {
        n++;
        fr_record_set_text (arrival->record, measured_by, ways[i][1]);
      }
  if (n == 1)
    fr_sap_arrival_say (arrival, measured_by);
  else if (n > 1)
    fr_sap_arrival_refuse (arrival, FR_SAP_TWO_AMOUNTS, NULL, NULL);
}

/* Blanks around a name are a slip in a table typed by hand. */
static void
tidy_names (FrSapArrival *arrival)
{
  static const char *const names[] = { "name", "stand" };

  for (guint i = 0; i < G_N_ELEMENTS (names) && arrival->record->uid[0] == '\0'; i++)
    {
      const FrField *field = fr_kind_field (arrival->record->kind, names[i]);
      g_autofree char *name = field != NULL ? g_strdup (fr_record_text (arrival->record, field)) : NULL;

      if (name != NULL)
        fr_record_set_text (arrival->record, field, g_strstrip (name));
    }
}

/* Which kind of row it is; FALSE when it says none that there is. */
static gboolean
kind_of (const Reading *reading, const FrCsvRow *cells, FrKindId *kind_out)
{
  const char *raw = reading->record >= 0 && (guint)reading->record < cells->cells->len
                        ? cells->cells->pdata[reading->record]
                        : "";
  g_autofree char *text = tidy (raw), *low = g_ascii_strdown (text, -1);

  *kind_out = reading->kind;
  if (*low == '\0')
    return TRUE;
  for (FrKindId kind = FR_KIND_CONTAINER; kind <= FR_KIND_DIP; kind++)
    if (strcmp (fr_kind (kind)->name, low) == 0)
      {
        *kind_out = kind;
        return TRUE;
      }
  return FALSE;
}

static void
read_row (Reading *reading, const FrCsvRow *cells)
{
  FrKindId kind;
  const gboolean is_kind = kind_of (reading, cells, &kind);
  g_autoptr (GPtrArray) typed = g_ptr_array_new ();
  Row row = { .arrival = fr_sap_arrivals_add (reading->arrivals, cells->line, kind),
              .second = NOON_S,
              .typed = typed };

  if (!is_kind)
    fr_sap_arrival_refuse (row.arrival, FR_SAP_NO_RECORD, "record", cells->cells->pdata[reading->record]);
  for (guint i = 0; i < cells->cells->len; i++)
    {
      const char *raw = cells->cells->pdata[i];

      if (is_blank (raw))
        continue;
      if (i >= reading->columns->len)
        {
          fr_sap_arrival_refuse (row.arrival, FR_SAP_TOO_WIDE, NULL, raw);
          break;
        }
      read_cell (&row, reading->options, &reading->cells[kind - FR_KIND_CONTAINER][i],
                 reading->columns->pdata[i], raw);
    }
  keep_typed (&row, reading->options);
  set_time (&row, reading->options);
  set_measured_by (row.arrival);
  tidy_names (row.arrival);
}

static gboolean
read_rows (Reading *reading, const GPtrArray *rows, GError **error)
{
  guint first = 1;

  if (rows->len == 0)
    return fail (error, 1, _ ("there is nothing in it"));
  if (reading->options->pasted && n_known (rows->pdata[0]) < 2)
    {
      take_log_columns (reading);
      first = 0;
    }
  else if (n_known (rows->pdata[0]) == 0)
    return fail (error, ((FrCsvRow *)rows->pdata[0])->line,
                 _ ("the first row names no column of a gathering log"));
  else if (!read_head (reading, rows->pdata[0], error))
    return FALSE;
  for (guint i = first; i < rows->len; i++)
    read_row (reading, rows->pdata[i]);
  return TRUE;
}

FrSapArrivals *
fr_sap_csv_read (const char *text, gsize length, const FrSapCsvOptions *options, GError **error)
{
  g_autoptr (GPtrArray) rows = fr_csv_read (text, length, error);
  g_autoptr (FrSapArrivals) arrivals = fr_sap_arrivals_new ();
  g_autoptr (GPtrArray) columns = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (FrZoneTable) utc = options->zone == NULL ? fr_zone_table_new_utc () : NULL;
  FrSapCsvOptions full = *options;
  Reading reading = { .options = &full, .arrivals = arrivals, .columns = columns, .record = -1 };
  gboolean ok;

  if (rows == NULL)
    return NULL;
  if (full.zone == NULL)
    full.zone = utc;
  ok = read_rows (&reading, rows, error);
  for (guint k = 0; k < N_KINDS; k++)
    g_free (reading.cells[k]);
  return ok ? g_steal_pointer (&arrivals) : NULL;
}

gboolean
fr_sap_csv_looks_like (const char *text, gsize length)
{
  const char *end = memchr (text, '\n', length);
  g_autoptr (GPtrArray) rows = fr_csv_read (text, end != NULL ? (gsize)(end - text) + 1 : length, NULL);
  g_autoptr (GHashTable) names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  const FrCsvRow *head;

  if (rows == NULL || rows->len == 0)
    return FALSE;
  head = rows->pdata[0];
  for (guint i = 0; i < head->cells->len; i++)
    g_hash_table_add (names, column_name (head->cells->pdata[i]));
  /* A table of trees has none of the first three, and has to have one of the others. */
  return g_hash_table_contains (names, "date") || g_hash_table_contains (names, "reason")
         || g_hash_table_contains (names, "role")
         || (n_known (head) > 1 && !g_hash_table_contains (names, "name") && !g_hash_table_contains (names, "x_m")
             && !g_hash_table_contains (names, "lat_deg") && !g_hash_table_contains (names, "record"));
}
