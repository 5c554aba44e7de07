/* Writing. Days and clocks are the household's with what they are off UTC, so that they can be read by people
 * and mean one instant. Only columns with something in them are written, but for those a person would look
 * for. */
#include "formats/sap-csv-private.h"

#include "formats/csv-table.h"
#include "formats/field-text.h"

#include <math.h>
#include <string.h>

typedef struct
{
  FrCsvTable cells;
  const FrSeasonBook *book;
  const FrZoneTable *zone;
  const FrZoneTable *utc;
  GHashTable *calls; /* FrRecord → what other rows call it */
  GHashTable *by_id[FR_N_KINDS];
} Table;

static void
put (Table *table, GHashTable *row, const char *column, char *cell)
{
  fr_csv_table_put (&table->cells, row, column, cell);
}

/* --- what rows name --- */

static void
index_ids (Table *table, GPtrArray *records)
{
  for (guint i = 0; records != NULL && i < records->len; i++)
    {
      FrRecord *record = records->pdata[i];

      if (table->by_id[record->kind->id] == NULL)
        table->by_id[record->kind->id] = g_hash_table_new (g_int64_hash, g_int64_equal);
      g_hash_table_insert (table->by_id[record->kind->id], &record->id, record);
    }
}

/* A name that no other bears, else the identity; @name_field NULL: they have no names. */
static void
call_records (Table *table, GPtrArray *records, const char *name_field)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) shared = g_hash_table_new (g_str_hash, g_str_equal);

  index_ids (table, records);
  for (guint pass = 0; pass < 2; pass++)
    for (guint i = 0; records != NULL && i < records->len; i++)
      {
        FrRecord *record = records->pdata[i];
        const char *name
            = name_field != NULL ? fr_record_text (record, fr_kind_field (record->kind, name_field)) : NULL;

        if (pass == 0 && name != NULL && !g_hash_table_add (seen, (gpointer)name))
          g_hash_table_add (shared, (gpointer)name);
        if (pass == 1)
          g_hash_table_insert (table->calls, record,
                               name != NULL
                                       && (record->uid[0] == '\0' || !g_hash_table_contains (shared, name))
                                   ? (gpointer)name
                                   : record->uid);
      }
}

static const FrRecord *
find (const Table *table, FrKindId kind, gint64 id)
{
  return id != 0 && table->by_id[kind] != NULL ? g_hash_table_lookup (table->by_id[kind], &id) : NULL;
}

static char *
call_of (const Table *table, FrKindId kind, gint64 id)
{
  const FrRecord *record = find (table, kind, id);
  const char *call = record != NULL ? g_hash_table_lookup (table->calls, record) : NULL;

  return call != NULL ? fr_csv_guard (call) : NULL;
}

static void
put_names (Table *table, GHashTable *row, const FrRecord *record)
{
  for (guint i = 0; i < record->kind->n_fields; i++)
    {
      const FrField *field = &record->kind->fields[i];

      if (field->type == FR_FIELD_REF)
        put (table, row, field->name, call_of (table, field->ref_kind, fr_record_int (record, field)));
    }
  if (record->kind->id == FR_KIND_GATHERING)
    {
      const FrTap *tap = (const FrTap *)find (table, FR_KIND_TAP, ((const FrGathering *)record)->tap);

      if (tap != NULL && ((const FrGathering *)record)->tree == 0)
        put (table, row, "tree", call_of (table, FR_KIND_TREE, tap->tree));
    }
}

/* --- rows --- */

static char *
offset_text (gint offset_s)
{
  const gint minutes = ABS (offset_s) / 60;

  return offset_s == 0
             ? g_strdup ("UTC")
             : g_strdup_printf ("UTC%c%02d:%02d", offset_s < 0 ? '-' : '+', minutes / 60, minutes % 60);
}

static void
put_time (Table *table, GHashTable *row, gint64 utc_s)
{
  FrLocalTime local = fr_zone_local (table->zone, utc_s);
  gint second;

  /* Before there were zones clocks were off by seconds too; the column has none. */
  if (local.offset_s % 60 != 0)
    local = fr_zone_local (table->utc, utc_s);
  second = local.second_of_day;

  put (table, row, "date", fr_date_to_iso (local.date));
  put (table, row, "time",
       second % 60 == 0 ? g_strdup_printf ("%02d:%02d", second / 3600, second / 60 % 60)
                        : g_strdup_printf ("%02d:%02d:%02d", second / 3600, second / 60 % 60, second % 60));
  put (table, row, "utc_offset", offset_text (local.offset_s));
}

static void
put_field (Table *table, GHashTable *row, const FrSapColumn *column, const FrRecord *record)
{
  const FrField *field = fr_kind_field (record->kind, column->field);
  const FrSapUnit *unit = field->type == FR_FIELD_AMOUNT ? fr_sap_unit_written (field->quantity) : NULL;
  g_autofree char *name
      = unit != NULL ? g_strdup_printf ("%s_%s", column->name, unit->suffix) : g_strdup (column->name);
  g_autofree char *text = fr_field_text (record, field, unit != NULL ? unit->shift : 0);

  if (text == NULL || (field->type == FR_FIELD_CODE && strcmp (text, "unknown") == 0)
      || (field->type == FR_FIELD_BOOL && fr_record_int (record, field) == 0))
    return;
  put (table, row, name, field->type == FR_FIELD_AMOUNT ? g_strdup (text) : fr_csv_guard (text));
  if (field->type == FR_FIELD_AMOUNT && fr_record_amount ((FrRecord *)record, field)->typed != NULL)
    {
      g_autofree char *typed = g_strconcat (name, "_typed", NULL);

      put (table, row, typed, fr_csv_guard (fr_record_amount ((FrRecord *)record, field)->typed));
    }
}

static gint64
time_of (const FrRecord *record)
{
  switch (record->kind->id)
    {
    case FR_KIND_GATHERING:
      return ((const FrGathering *)record)->gathered_utc;
    case FR_KIND_POUR:
      return ((const FrPour *)record)->poured_utc;
    case FR_KIND_DIP:
      return ((const FrDip *)record)->found_utc;
    default:
      return G_MININT64;
    }
}

static void
add_record (Table *table, const FrRecord *record)
{
  GHashTable *row = fr_csv_table_add_row (&table->cells);

  put (table, row, "record", g_strdup (record->kind->name));
  if (time_of (record) != G_MININT64)
    put_time (table, row, time_of (record));
  put_names (table, row, record);
  for (guint i = 0; i < fr_sap_n_columns; i++)
    if ((fr_sap_columns[i].kinds & FR_SAP_CSV_BIT (record->kind->id)) != 0)
      put_field (table, row, &fr_sap_columns[i], record);
  put (table, row, "archived", record->archived ? g_strdup ("true") : NULL);
  put (table, row, "uid", record->uid[0] != '\0' ? g_strdup (record->uid) : NULL);
}

static gint
by_time (gconstpointer a, gconstpointer b)
{
  const FrRecord *one = *(const FrRecord *const *)a, *two = *(const FrRecord *const *)b;

  if (time_of (one) != time_of (two))
    return time_of (one) < time_of (two) ? -1 : 1;
  if (one->kind != two->kind)
    return one->kind->id < two->kind->id ? -1 : 1;
  return (one->id > two->id) - (one->id < two->id);
}

static void
choose (GPtrArray *chosen, GPtrArray *records, gint64 from_utc, gint64 to_utc)
{
  for (guint i = 0; records != NULL && i < records->len; i++)
    if (time_of (records->pdata[i]) >= from_utc && time_of (records->pdata[i]) < to_utc)
      g_ptr_array_add (chosen, records->pdata[i]);
}

/* --- columns --- */

static void
add_column (const Table *table, GPtrArray *columns, const char *name, gboolean always)
{
  g_autofree char *typed = g_strconcat (name, "_typed", NULL);

  if (g_ptr_array_find_with_equal_func (columns, name, g_str_equal, NULL))
    return;
  if (always || fr_csv_table_uses (&table->cells, name))
    g_ptr_array_add (columns, g_strdup (name));
  if (fr_csv_table_uses (&table->cells, typed))
    g_ptr_array_add (columns, g_strdup (typed));
}

static GPtrArray *
choose_columns (const Table *table, const char *const *first)
{
  static const char *const names[] = { "tree", "tap", "container", "bucket", "target", "night" },
                           *const last[] = { "archived", "uid" };
  GPtrArray *columns = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; first[i] != NULL; i++)
    add_column (table, columns, first[i], TRUE);
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    add_column (table, columns, names[i], FALSE);
  for (guint i = 0; i < fr_sap_n_columns; i++)
    for (FrKindId kind = FR_KIND_CONTAINER; kind <= FR_KIND_DIP; kind++)
      {
        const FrField *field = fr_kind_field (fr_kind (kind), fr_sap_columns[i].field);
        const FrSapUnit *unit
            = field != NULL && field->type == FR_FIELD_AMOUNT ? fr_sap_unit_written (field->quantity) : NULL;
        g_autofree char *name = unit != NULL ? g_strdup_printf ("%s_%s", fr_sap_columns[i].name, unit->suffix)
                                             : g_strdup (fr_sap_columns[i].name);

        if ((fr_sap_columns[i].kinds & FR_SAP_CSV_BIT (kind)) != 0)
          add_column (table, columns, name, FALSE);
      }
  for (guint i = 0; i < G_N_ELEMENTS (last); i++)
    add_column (table, columns, last[i], FALSE);
  return columns;
}

static char *
write_records (const FrSeasonBook *book, GPtrArray *containers, GPtrArray *events, const char *const *first)
{
  g_autoptr (FrZoneTable) utc = fr_zone_table_new_utc ();
  g_autoptr (GPtrArray) columns = NULL;
  Table table = { .book = book, .zone = book->zone != NULL ? book->zone : utc, .utc = utc };
  char *text;

  fr_csv_table_init (&table.cells);
  table.calls = g_hash_table_new (NULL, NULL);
  call_records (&table, book->trees, "name");
  call_records (&table, book->containers, "name");
  call_records (&table, book->nights, "evening");
  call_records (&table, book->taps, NULL);
  for (guint i = 0; containers != NULL && i < containers->len; i++)
    add_record (&table, containers->pdata[i]);
  g_ptr_array_sort (events, by_time);
  for (guint i = 0; i < events->len; i++)
    add_record (&table, events->pdata[i]);
  columns = choose_columns (&table, first);
  text = fr_csv_table_text (&table.cells, columns);
  fr_csv_table_clear (&table.cells);
  g_hash_table_unref (table.calls);
  for (guint i = 0; i < FR_N_KINDS; i++)
    g_clear_pointer (&table.by_id[i], g_hash_table_unref);
  return text;
}

char *
fr_gatherings_csv_write (const FrSeasonBook *book, gint64 from_utc, gint64 to_utc)
{
  static const char *const first[]
      = { "date", "time", "utc_offset", "scope", "tree", "volume_l", "reading_brix", NULL };
  g_autoptr (GPtrArray) events = g_ptr_array_new ();

  choose (events, book->gatherings, from_utc, to_utc);
  return write_records (book, NULL, events, first);
}

char *
fr_stock_csv_write (const FrSeasonBook *book, gint64 from_utc, gint64 to_utc)
{
  static const char *const first[]
      = { "record", "name", "date", "time", "utc_offset", "container", "reason", "target", "volume_l", NULL };
  g_autoptr (GPtrArray) events = g_ptr_array_new ();

  choose (events, book->pours, from_utc, to_utc);
  choose (events, book->dips, from_utc, to_utc);
  return write_records (book, book->containers, events, first);
}
