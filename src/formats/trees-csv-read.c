/* Reading the table. What a person keeps in a spreadsheet is a row for each tree; what we write has rows of
 * four kinds. Both are read by the same columns. */
#include "formats/trees-csv-private.h"

#include "formats/field-text.h"
#include "formats/foreign.h"
#include "formats/json-input.h"
#include "formats/json-output.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

typedef struct
{
  FrArrivals *arrivals;
  GPtrArray *columns;  /* char *: what the head says, unguarded */
  GHashTable *by_call; /* name or uid → FrArrival */
  int record;          /* columns of these names, −1 none */
  int tree;
  int uid;
  int archived;
  guint line;
  GError **error;
} Reading;

static gboolean G_GNUC_PRINTF (2, 3) fail (Reading *reading, const char *format, ...)
{
  g_autofree char *what = NULL;
  va_list args;

  if (*reading->error != NULL)
    return FALSE;
  va_start (args, format);
  what = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error (reading->error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, _ ("line %u: %s"), reading->line, what);
  return FALSE;
}

/* --- the head --- */

static int
find_column (const Reading *reading, const char *name)
{
  for (guint i = 0; i < reading->columns->len; i++)
    if (strcmp (reading->columns->pdata[i], name) == 0)
      return (int)i;
  return -1;
}

/* Ours in lower case without blanks around, others as they are. */
static char *
column_name (const char *cell)
{
  g_autofree char *plain = fr_csv_unguard (cell), *low = g_strstrip (g_ascii_strdown (plain, -1));

  return fr_trees_is_own_column (low) ? g_steal_pointer (&low) : g_steal_pointer (&plain);
}

static void
remark_unknown (Reading *reading, const char *name)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();
  g_autofree char *quoted = fr_json_quote (name);
  const char *nearest;

  for (guint i = 0; i < fr_trees_n_columns; i++)
    g_ptr_array_add (names, (gpointer)fr_trees_columns[i].name);
  g_ptr_array_add (names, NULL);
  nearest = fr_input_nearest (name, (const char *const *)names->pdata);
  g_ptr_array_add (reading->arrivals->remarks,
                   nearest != NULL ? g_strdup_printf (_ ("The column “%s” is kept as it is; is %s meant?"),
                                                      quoted, nearest)
                                   : g_strdup_printf (_ ("The column “%s” is kept as it is."), quoted));
}

static gboolean
read_head (Reading *reading, const FrCsvRow *row)
{
  reading->line = row->line;
  for (guint i = 0; i < row->cells->len; i++)
    {
      char *name = column_name (row->cells->pdata[i]);
      g_autofree char *quoted = fr_json_quote (name);

      if (*name != '\0' && find_column (reading, name) >= 0)
        {
          g_free (name);
          return fail (reading, _ ("the column “%s” stands twice"), quoted);
        }
      g_ptr_array_add (reading->columns, name);
      if (*name != '\0' && !fr_trees_is_own_column (name))
        remark_unknown (reading, name);
    }
  reading->record = find_column (reading, "record");
  reading->tree = find_column (reading, "tree");
  reading->uid = find_column (reading, "uid");
  reading->archived = find_column (reading, "archived");
  if (find_column (reading, "name") >= 0 || (reading->tree >= 0 && reading->record >= 0)
      || (find_column (reading, "x_m") >= 0 && find_column (reading, "y_m") >= 0)
      || (find_column (reading, "lat_deg") >= 0 && find_column (reading, "lon_deg") >= 0))
    return TRUE;
  return fail (
      reading,
      _ ("the file is neither GPX nor GeoJSON, and no table of trees: its first row has no column called "
         "name, nor x_m and y_m, nor lat_deg and lon_deg"));
}

/* --- cells --- */

static const char *
cell_at (const FrCsvRow *row, int column)
{
  return column >= 0 && (guint)column < row->cells->len ? row->cells->pdata[column] : "";
}

static gboolean
is_blank (const char *cell)
{
  return cell[strspn (cell, " \t\r\n")] == '\0';
}

static gboolean
read_number (Reading *reading, const char *column, const char *cell, int shift, double *value)
{
  g_autofree char *bare = g_strstrip (g_strdup (cell)), *quoted = fr_json_quote (bare);

  if (fr_decimal_read (bare, shift, value))
    return TRUE;
  return fail (reading,
               strchr (bare, ',') != NULL
                   ? _ ("%s is “%s”, which is no number; decimals are written with a point")
                   : _ ("%s is “%s”, which is no number"),
               column, quoted);
}

static gboolean
read_yes (Reading *reading, const char *column, const char *cell, gboolean *yes)
{
  g_autofree char *quoted = fr_json_quote (cell);

  return fr_csv_read_yes (cell, yes)
         || fail (reading, _ ("%s is “%s”; it must be yes or no"), column, quoted);
}

static gboolean
read_field (Reading *reading, FrRecord *record, const FrTreesColumn *column, const char *cell)
{
  const FrField *field = fr_kind_field (record->kind, column->field);
  g_autofree char *text = fr_csv_unguard (cell);
  double value;
  gboolean yes;

  switch (field->type)
    {
    case FR_FIELD_AMOUNT:
      if (!read_number (reading, column->name, cell, column->shift, &value))
        return FALSE;
      {
        g_autofree char *typed = g_strdup (fr_record_amount (record, field)->typed);

        fr_record_set_amount (record, field, value, typed);
      }
      return TRUE;
    case FR_FIELD_BOOL:
      if (!read_yes (reading, column->name, cell, &yes))
        return FALSE;
      fr_record_set_int (record, field, yes);
      return TRUE;
    case FR_FIELD_CODE:
      {
        g_autofree char *low = g_strstrip (g_ascii_strdown (text, -1)), *quoted = fr_json_quote (text),
                        *all = g_strjoinv (", ", (char **)field->codes);

        if (!g_strv_contains (field->codes, low))
          return fail (reading, _ ("%s is “%s”; it must be one of %s"), column->name, quoted, all);
        fr_record_set_text (record, field, low);
        return TRUE;
      }
    case FR_FIELD_DATE:
      g_strstrip (text);
      break;
    default:
      break;
    }
  if (field->type == FR_FIELD_TEXT && g_utf8_strlen (text, -1) > (glong)field->max)
    return fail (reading, _ ("%s has %ld characters; it may have %.0f"), column->name,
                 g_utf8_strlen (text, -1), field->max);
  fr_record_set_text (record, field, text);
  return TRUE;
}

/* How an amount was typed, for the column of that name with _typed behind it. */
static void
read_typed (FrRecord *record, const FrTreesColumn *column, const char *cell)
{
  const FrField *field = fr_kind_field (record->kind, column->field);
  g_autofree char *text = fr_csv_unguard (cell);

  if (field->type == FR_FIELD_AMOUNT)
    fr_record_set_amount (record, field, fr_record_amount (record, field)->value, text);
}

static gboolean
read_identity (Reading *reading, const FrCsvRow *row, FrRecord *record)
{
  g_autofree char *uid = g_strstrip (g_strdup (cell_at (row, reading->uid)));
  gboolean archived = FALSE;

  if (*uid != '\0')
    {
      if (strlen (uid) != 32 || strspn (uid, "0123456789abcdef") != 32)
        return fail (reading, _ ("uid must be 32 digits 0 to 9 and a to f"));
      memcpy (record->uid, uid, sizeof record->uid);
    }
  if (!is_blank (cell_at (row, reading->archived))
      && !read_yes (reading, "archived", cell_at (row, reading->archived), &archived))
    return FALSE;
  record->archived = archived;
  return TRUE;
}

/* --- rows --- */

/* A cell of @kind, or of a tree's row in a column of girths; @found_out: it is one. */
static gboolean
read_own_cell (Reading *reading, FrRecord *record, const char *name, const char *cell, gboolean *found_out)
{
  const FrTreesColumn *column = fr_trees_column (name, record->kind->id);
  g_autofree char *bare
      = g_str_has_suffix (name, "_typed") ? g_strndup (name, strlen (name) - strlen ("_typed")) : NULL;

  *found_out = TRUE;
  if (column != NULL)
    {
      if (column->measure != NULL)
        fr_record_set_text (record, fr_kind_field (record->kind, "measure"), column->measure);
      return read_field (reading, record, column, cell);
    }
  column = bare != NULL ? fr_trees_column (bare, record->kind->id) : NULL;
  if (column != NULL)
    read_typed (record, column, cell);
  *found_out = column != NULL;
  return TRUE;
}

static gboolean
read_place (Reading *reading, FrArrival *arrival, const char *name, const char *cell)
{
  gboolean is_lat = strcmp (name, "lat_deg") == 0;
  double value, most = is_lat ? 90 : 180;

  if (!read_number (reading, name, cell, 0, &value))
    return FALSE;
  if (fabs (value) <= most)
    {
      *(is_lat ? &arrival->where.lat_deg : &arrival->where.lon_deg) = value;
      return TRUE;
    }
  return fail (reading,
               is_lat && fabs (value) <= 180
                   ? _ ("%s is %s; it goes from −%.0f to %.0f. Are latitude and longitude swapped?")
                   : _ ("%s is %s; it goes from −%.0f to %.0f"),
               name, cell, most, most);
}

/* Members of a JSON object, sorted when it is made: in which order a table has its columns says nothing of a
 * tree. */
static void
keep_foreign (GPtrArray *foreign, const char *name, const char *cell)
{
  g_autofree char *text = fr_csv_unguard (cell);
  GString *member = g_string_new (NULL);

  fr_output_append_quoted (member, name);
  g_string_append_c (member, ':');
  fr_output_append_quoted (member, text);
  g_ptr_array_add (foreign, g_string_free (member, FALSE));
}

static int
by_text (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *)a, *(const char *const *)b);
}

static gboolean
finish_foreign (Reading *reading, FrArrival *arrival, GPtrArray *foreign)
{
  const FrField *field = fr_kind_field (fr_kind (FR_KIND_TREE), "foreign_data");
  g_autofree char *others = g_steal_pointer (&arrival->tree->foreign_data), *members = NULL, *part = NULL;
  guint n = foreign->len;

  g_ptr_array_sort (foreign, by_text);
  g_ptr_array_add (foreign, NULL);
  members = g_strjoinv (",", (char **)foreign->pdata);
  part = g_strdup_printf ("{%s}", members);
  arrival->tree->foreign_data = n > 0 ? fr_foreign_with (others, "csv", part) : g_steal_pointer (&others);
  if (arrival->tree->foreign_data == NULL)
    return TRUE;
  fr_arrival_say (arrival, "foreign_data");
  return g_utf8_strlen (arrival->tree->foreign_data, -1) <= (glong)field->max
         || fail (reading, _ ("it says %ld characters that a tree has no place for; %.0f can be kept"),
                  g_utf8_strlen (arrival->tree->foreign_data, -1), field->max);
}

static void
know (Reading *reading, FrArrival *arrival)
{
  /* Of two alike the first is meant; a name that two trees have is written as an identity. */
  if (arrival->tree->name != NULL && !g_hash_table_contains (reading->by_call, arrival->tree->name))
    g_hash_table_insert (reading->by_call, arrival->tree->name, arrival);
  if (arrival->tree->record.uid[0] != '\0'
      && !g_hash_table_contains (reading->by_call, arrival->tree->record.uid))
    g_hash_table_insert (reading->by_call, arrival->tree->record.uid, arrival);
}

/* Blanks around a name are a slip in a table typed by hand. */
static void
tidy_name (FrArrival *arrival)
{
  if (arrival->tree->name == NULL || arrival->tree->record.uid[0] != '\0')
    return;
  g_strstrip (arrival->tree->name);
  if (*arrival->tree->name == '\0')
    g_clear_pointer (&arrival->tree->name, g_free);
}

static gboolean
read_tree_cell (Reading *reading, FrArrival *arrival, FrRecord *girth, const char *name, const char *cell,
                GPtrArray *foreign)
{
  const FrTreesColumn *column = fr_trees_column (name, FR_KIND_TREE);
  gboolean found;

  if (strcmp (name, "lat_deg") == 0 || strcmp (name, "lon_deg") == 0)
    return read_place (reading, arrival, name, cell);
  if (column != NULL)
    fr_arrival_say (arrival, column->field);
  if (!read_own_cell (reading, &arrival->tree->record, name, cell, &found))
    return FALSE;
  if (found)
    return TRUE;
  if (!fr_trees_is_own_column (name))
    {
      keep_foreign (foreign, name, cell);
      return TRUE;
    }
  if (((FrGirth *)girth)->measured_on != NULL || !isnan (((FrGirth *)girth)->size_m.value)
      || strcmp (name, "measured_on") == 0 || strcmp (name, "girth_cm") == 0
      || strcmp (name, "diameter_cm") == 0)
    {
      if (strcmp (name, "measured_on") != 0 && !isnan (((FrGirth *)girth)->size_m.value))
        return fail (reading, _ ("a row has girth_cm or diameter_cm, not both"));
      if (!read_own_cell (reading, girth, name, cell, &found))
        return FALSE;
      if (found)
        return TRUE;
    }
  return fail (reading, _ ("a tree has no %s"), name);
}

static gboolean
read_tree (Reading *reading, const FrCsvRow *row)
{
  FrArrival *arrival = fr_arrivals_add_tree (reading->arrivals, row->line);
  g_autoptr (FrRecord) girth = fr_record_new (FR_KIND_GIRTH);
  g_autoptr (GPtrArray) foreign = g_ptr_array_new_with_free_func (g_free);

  if (reading->arrivals->trees->len > FR_TREES_CSV_TREES_MAX)
    return fail (reading, _ ("the file has more than %d trees"), FR_TREES_CSV_TREES_MAX);
  if (!read_identity (reading, row, &arrival->tree->record))
    return FALSE;
  for (guint i = 0; i < row->cells->len; i++)
    {
      const char *name = reading->columns->pdata[i], *cell = row->cells->pdata[i];

      if (is_blank (cell) || (int)i == reading->record || (int)i == reading->uid
          || (int)i == reading->archived)
        continue;
      if ((int)i == reading->tree)
        return fail (reading,
                     _ ("a tree belongs to no other tree: the column tree must be empty in its row"));
      if (*name == '\0')
        return fail (reading, _ ("a cell has no column: the first row ends before it"));
      if (!read_tree_cell (reading, arrival, girth, name, cell, foreign))
        return FALSE;
    }
  tidy_name (arrival);
  if (!isnan (((FrGirth *)girth)->size_m.value))
    g_ptr_array_add (arrival->history, g_steal_pointer (&girth));
  else if (((FrGirth *)girth)->measured_on != NULL)
    return fail (reading, _ ("measured_on stands without girth_cm or diameter_cm"));
  know (reading, arrival);
  return finish_foreign (reading, arrival, foreign);
}

/* The tree that a row of its history belongs to; one that is only in the book is referred to. */
static FrArrival *
referred (Reading *reading, const FrCsvRow *row)
{
  g_autofree char *call = fr_csv_unguard (cell_at (row, reading->tree)), *bare = g_strstrip (g_strdup (call));
  FrArrival *arrival = g_hash_table_lookup (reading->by_call, call);

  if (arrival == NULL)
    arrival = g_hash_table_lookup (reading->by_call, bare);
  if (arrival != NULL || *bare == '\0')
    return arrival;
  arrival = fr_arrivals_add_tree (reading->arrivals, row->line);
  arrival->refers = TRUE;
  arrival->tree->name = g_steal_pointer (&bare);
  know (reading, arrival);
  return arrival;
}

static gboolean
read_event (Reading *reading, const FrCsvRow *row, FrKindId kind)
{
  FrArrival *arrival = referred (reading, row);
  FrRecord *record;

  if (arrival == NULL)
    return fail (reading, _ ("the column tree must name the tree that this %s belongs to"),
                 fr_kind (kind)->name);
  if (g_utf8_strlen (arrival->tree->name != NULL ? arrival->tree->name : "", -1)
      > (glong)fr_kind_field (fr_kind (FR_KIND_TREE), "name")->max)
    return fail (reading, _ ("the name of a tree is too long"));
  record = fr_record_new (kind);
  g_ptr_array_add (arrival->history, record);
  if (!read_identity (reading, row, record))
    return FALSE;
  for (guint i = 0; i < row->cells->len; i++)
    {
      const char *name = reading->columns->pdata[i], *cell = row->cells->pdata[i];
      gboolean found;

      if (is_blank (cell) || (int)i == reading->record || (int)i == reading->uid
          || (int)i == reading->archived || (int)i == reading->tree)
        continue;
      if (!read_own_cell (reading, record, name, cell, &found))
        return FALSE;
      if (!found)
        {
          g_autofree char *quoted = fr_json_quote (name);

          return fail (reading, _ ("a %s has no “%s”"), fr_kind (kind)->name, quoted);
        }
    }
  return TRUE;
}

static gboolean
read_row (Reading *reading, const FrCsvRow *row)
{
  static const FrKindId kinds[] = { FR_KIND_TREE, FR_KIND_GIRTH, FR_KIND_TAP, FR_KIND_YIELD };
  g_autofree char *record = g_strstrip (g_ascii_strdown (cell_at (row, reading->record), -1));
  g_autofree char *quoted = fr_json_quote (record);

  reading->line = row->line;
  if (row->cells->len > reading->columns->len)
    return fail (reading, _ ("the row has %u cells, the first row %u"), row->cells->len,
                 reading->columns->len);
  if (*record == '\0')
    return read_tree (reading, row);
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (strcmp (record, fr_kind (kinds[i])->name) == 0)
      return i == 0 ? read_tree (reading, row) : read_event (reading, row, kinds[i]);
  return fail (reading, _ ("record is “%s”; it must be tree, girth, tap or yield"), quoted);
}

static gboolean
read_rows (Reading *reading, const GPtrArray *rows)
{
  if (rows->len == 0)
    {
      reading->line = 1;
      return fail (reading, _ ("the file is empty"));
    }
  if (!read_head (reading, rows->pdata[0]))
    return FALSE;
  for (guint i = 1; i < rows->len; i++)
    if (!read_row (reading, rows->pdata[i]))
      return FALSE;
  return TRUE;
}

FrArrivals *
fr_trees_csv_read (const char *text, gsize length, GError **error)
{
  g_autoptr (GPtrArray) rows = fr_csv_read (text, length, error);
  g_autoptr (FrArrivals) arrivals = fr_arrivals_new ();
  g_autoptr (GPtrArray) columns = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GHashTable) by_call = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GError) first = NULL;
  Reading reading = { .arrivals = arrivals, .columns = columns, .by_call = by_call, .error = &first };

  if (rows == NULL)
    return NULL;
  arrivals->by_line = TRUE;
  if (read_rows (&reading, rows))
    return g_steal_pointer (&arrivals);
  g_propagate_error (error, g_steal_pointer (&first));
  return NULL;
}
