/* Writing the table. Only columns with something in them are written, but for those a person would look for.
 */
#include "formats/trees-csv-private.h"

#include "formats/csv-table.h"
#include "formats/field-text.h"
#include "formats/foreign.h"

#include <string.h>

const FrTreesColumn fr_trees_columns[] = {
  { "name", FR_KIND_TREE, "name", 0, NULL },
  { "species", FR_KIND_TREE, "species", 0, NULL },
  { "x_m", FR_KIND_TREE, "x_m", 0, NULL },
  { "y_m", FR_KIND_TREE, "y_m", 0, NULL },
  { "elevation_m", FR_KIND_TREE, "elevation_m", 0, NULL },
  { "measured_from", FR_KIND_TREE, "measured_from", 0, NULL },
  { "from_distance_m", FR_KIND_TREE, "from_distance_m", 0, NULL },
  { "from_bearing_deg", FR_KIND_TREE, "from_bearing_deg", 0, NULL },
  { "crown", FR_KIND_TREE, "crown", 0, NULL },
  { "health", FR_KIND_TREE, "health", 0, NULL },
  { "dead_limbs", FR_KIND_TREE, "dead_limbs", 0, NULL },
  { "wires", FR_KIND_TREE, "wires", 0, NULL },
  { "lean", FR_KIND_TREE, "lean", 0, NULL },
  { "roadside", FR_KIND_TREE, "roadside", 0, NULL },
  { "permission", FR_KIND_TREE, "permission", 0, NULL },
  { "owner", FR_KIND_TREE, "owner", 0, NULL },
  { "choice", FR_KIND_TREE, "choice", 0, NULL },
  { "group", FR_KIND_TREE, "stand", 0, NULL },
  { "photo", FR_KIND_TREE, "photo", 0, NULL },
  { "measured_on", FR_KIND_GIRTH, "measured_on", 0, NULL },
  { "girth_cm", FR_KIND_GIRTH, "size_m", 2, "girth" },
  { "diameter_cm", FR_KIND_GIRTH, "size_m", 2, "diameter" },
  { "season", FR_KIND_TAP, "season", 0, NULL },
  { "season", FR_KIND_YIELD, "season", 0, NULL },
  { "set_on", FR_KIND_TAP, "set_on", 0, NULL },
  { "set_by", FR_KIND_TAP, "set_by", 0, NULL },
  { "depth_mm", FR_KIND_TAP, "depth_m", 3, NULL },
  { "bore_mm", FR_KIND_TAP, "bore_m", 3, NULL },
  { "height_cm", FR_KIND_TAP, "height_m", 2, NULL },
  { "direction_deg", FR_KIND_TAP, "direction_deg", 0, NULL },
  { "spout", FR_KIND_TAP, "spout", 0, NULL },
  { "container", FR_KIND_TAP, "container", 0, NULL },
  { "container_l", FR_KIND_TAP, "container_l", 0, NULL },
  { "pulled_on", FR_KIND_TAP, "pulled_on", 0, NULL },
  { "closed_on", FR_KIND_TAP, "closed_on", 0, NULL },
  { "volume_l", FR_KIND_YIELD, "volume_l", 0, NULL },
  { "reading_brix", FR_KIND_YIELD, "reading_brix", 0, NULL },
  { "instrument", FR_KIND_YIELD, "instrument", 0, NULL },
  { "sample_c", FR_KIND_YIELD, "sample_c", 0, NULL },
  { "note", FR_KIND_TREE, "note", 0, NULL },
  { "note", FR_KIND_TAP, "note", 0, NULL },
  { "note", FR_KIND_YIELD, "note", 0, NULL },
  { "foreign_data", FR_KIND_TREE, "foreign_data", 0, NULL },
};

const guint fr_trees_n_columns = G_N_ELEMENTS (fr_trees_columns);

const FrTreesColumn *
fr_trees_column (const char *name, FrKindId kind)
{
  for (guint i = 0; i < fr_trees_n_columns; i++)
    if (fr_trees_columns[i].kind == kind && strcmp (fr_trees_columns[i].name, name) == 0)
      return &fr_trees_columns[i];
  return NULL;
}

gboolean
fr_trees_is_own_column (const char *name)
{
  static const char *const others[] = { "record", "tree", "uid", "archived", "lat_deg", "lon_deg", NULL };
  g_autofree char *bare = g_str_has_suffix (name, "_typed")
                              ? g_strndup (name, strlen (name) - strlen ("_typed"))
                              : g_strdup (name);

  if (g_strv_contains (others, name))
    return TRUE;
  for (guint i = 0; i < fr_trees_n_columns; i++)
    if (strcmp (fr_trees_columns[i].name, bare) == 0)
      return TRUE;
  return FALSE;
}

/* What is written, and names of foreign columns, in order. */
typedef struct
{
  FrCsvTable cells;
  GPtrArray *foreign;
} Table;

static void
put (Table *table, GHashTable *row, const char *column, char *cell)
{
  fr_csv_table_put (&table->cells, row, column, cell);
}

static char *
cell_of (const FrRecord *record, const FrField *field, int shift)
{
  g_autofree char *text = NULL;

  if (strcmp (field->name, "foreign_data") == 0)
    text = fr_foreign_with (fr_record_text (record, field), "csv", NULL);
  else
    text = fr_field_text (record, field, shift);
  if (text == NULL || field->type == FR_FIELD_AMOUNT)
    return g_steal_pointer (&text);
  return fr_csv_guard (text);
}

static GHashTable *
add_record (Table *table, const FrRecord *record, const char *tree)
{
  GHashTable *row = fr_csv_table_add_row (&table->cells);

  put (table, row, "record", g_strdup (record->kind->name));
  put (table, row, "tree", tree != NULL ? fr_csv_guard (tree) : NULL);
  put (table, row, "uid", record->uid[0] != '\0' ? g_strdup (record->uid) : NULL);
  put (table, row, "archived", record->archived ? g_strdup ("true") : NULL);
  for (guint i = 0; i < fr_trees_n_columns; i++)
    {
      const FrTreesColumn *column = &fr_trees_columns[i];
      const FrField *field
          = column->kind == record->kind->id ? fr_kind_field (record->kind, column->field) : NULL;

      if (field == NULL
          || (column->measure != NULL
              && g_strcmp0 (((const FrGirth *)record)->measure, column->measure) != 0))
        continue;
      put (table, row, column->name, cell_of (record, field, column->shift));
      if (field->type == FR_FIELD_AMOUNT && fr_record_amount ((FrRecord *)record, field)->typed != NULL)
        {
          g_autofree char *typed = g_strconcat (column->name, "_typed", NULL);

          put (table, row, typed, fr_csv_guard (fr_record_amount ((FrRecord *)record, field)->typed));
        }
    }
  return row;
}

/* Columns that came from a table of another program. */
static void
add_foreign (Table *table, GHashTable *row, const FrTree *tree)
{
  g_auto (FrExactJson) json = { NULL, NULL };
  JsonObject *foreign = fr_foreign_read (tree->foreign_data, "csv", &json);
  JsonObjectIter iter;
  const char *key;
  JsonNode *node;

  if (foreign == NULL)
    return;
  json_object_iter_init_ordered (&iter, foreign);
  while (json_object_iter_next_ordered (&iter, &key, &node))
    {
      double number;

      /* None takes the name of one of ours. */
      if (!JSON_NODE_HOLDS_VALUE (node) || json_node_get_value_type (node) != G_TYPE_STRING
          || fr_trees_is_own_column (key))
        continue;
      if (!fr_csv_table_uses (&table->cells, key))
        g_ptr_array_add (table->foreign, g_strdup (key));
      put (table, row, key,
           fr_decimal_read (json_node_get_string (node), 0, &number)
               ? g_strdup (json_node_get_string (node))
               : fr_csv_guard (json_node_get_string (node)));
    }
}

static GPtrArray *
choose_columns (const Table *table)
{
  static const char *const first[] = { "record", "tree" }, *const last[] = { "archived", "uid" };
  GPtrArray *columns = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < G_N_ELEMENTS (first); i++)
    g_ptr_array_add (columns, g_strdup (first[i]));
  for (guint i = 0; i < fr_trees_n_columns; i++)
    {
      const char *name = fr_trees_columns[i].name;
      g_autofree char *typed = g_strconcat (name, "_typed", NULL);

      if (g_ptr_array_find_with_equal_func (columns, name, g_str_equal, NULL))
        continue;
      if (fr_csv_table_uses (&table->cells, name) || strcmp (name, "name") == 0 || strcmp (name, "x_m") == 0
          || strcmp (name, "y_m") == 0 || strcmp (name, "girth_cm") == 0)
        g_ptr_array_add (columns, g_strdup (name));
      if (fr_csv_table_uses (&table->cells, typed))
        g_ptr_array_add (columns, g_strdup (typed));
    }
  for (guint i = 0; i < G_N_ELEMENTS (last); i++)
    if (fr_csv_table_uses (&table->cells, last[i]))
      g_ptr_array_add (columns, g_strdup (last[i]));
  for (guint i = 0; i < table->foreign->len; i++)
    g_ptr_array_add (columns, g_strdup (table->foreign->pdata[i]));
  return columns;
}

/* Names that two trees have, and that therefore name none. */
static GHashTable *
shared_names (const FrBushBook *book)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  GHashTable *shared = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; book->trees != NULL && i < book->trees->len; i++)
    {
      char *name = ((FrTree *)book->trees->pdata[i])->name;

      if (name != NULL && !g_hash_table_add (seen, name))
        g_hash_table_add (shared, name);
    }
  return shared;
}

char *
fr_trees_csv_write (const FrBushBook *book)
{
  g_autoptr (GPtrArray) foreign = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GHashTable) history = fr_bush_book_history (book);
  g_autoptr (GHashTable) shared = shared_names (book);
  g_autoptr (GPtrArray) columns = NULL;
  Table table = { .foreign = foreign };
  char *text;

  fr_csv_table_init (&table.cells);

  for (guint i = 0; book->trees != NULL && i < book->trees->len; i++)
    {
      const FrTree *tree = book->trees->pdata[i];
      const GPtrArray *events = g_hash_table_lookup (history, &tree->record.id);
      const char *called = g_hash_table_contains (shared, tree->name) && tree->record.uid[0] != '\0'
                               ? tree->record.uid
                               : tree->name;

      add_foreign (&table, add_record (&table, &tree->record, NULL), tree);
      for (guint k = 0; events != NULL && k < events->len; k++)
        add_record (&table, events->pdata[k], called);
    }
  columns = choose_columns (&table);
  text = fr_csv_table_text (&table.cells, columns);
  fr_csv_table_clear (&table.cells);
  return text;
}
