/* Reading happens in two passes: every record by itself, then what holds them together: ids, identities,
 * references. The order of the kinds in the house already has each kind behind those it refers to. */
#include "formats/book-json.h"

#include <string.h>

/* More than any household can have; a list that long is a mistake. */
#define RECORDS_MAX 100000

static FrRecord *
find (GHashTable *known, FrKindId kind, gint64 id)
{
  g_autofree char *key = g_strdup_printf ("%d %" G_GINT64_FORMAT, kind, id);
  return g_hash_table_lookup (known, key);
}

/* An id of its own, and a uid that no other has. */
static gboolean
note_record (const FrInput *input, GHashTable *known, FrRecord *record)
{
  if (record->id == 0)
    return fr_input_fail (input, "id", "is missing; give a whole number from 1, another for each %s",
                          record->kind->name);
  if (find (known, record->kind->id, record->id) != NULL)
    return fr_input_fail (input, "id", "is %" G_GINT64_FORMAT ", as of another %s; each must have its own",
                          record->id, record->kind->name);
  if (record->uid[0] != '\0' && g_hash_table_contains (known, record->uid))
    return fr_input_fail (input, "uid", "is that of another record; each must have its own");
  g_hash_table_insert (known, g_strdup_printf ("%d %" G_GINT64_FORMAT, record->kind->id, record->id), record);
  if (record->uid[0] != '\0')
    g_hash_table_insert (known, g_strdup (record->uid), record);
  return TRUE;
}

static void
read_kind (const FrInput *input, const FrKind *kind, GHashTable *known, GPtrArray *records)
{
  guint most = kind->single ? 1 : RECORDS_MAX;
  JsonArray *array = fr_input_array (input, kind->name, FR_INPUT_OPTIONAL, 0, most);

  for (guint i = 0; array != NULL && *input->error == NULL && i < json_array_get_length (array); i++)
    {
      FrInput element;
      if (!fr_input_element (input, kind->name, array, i, NULL, &element))
        return;
      FrRecord *record = fr_record_read_json (&element, kind->id);
      if (record == NULL)
        return;
      g_ptr_array_add (records, record);
      note_record (&element, known, record);
    }
}

static gboolean
check_references (const FrInput *input, GHashTable *known, const FrRecord *record, guint index)
{
  for (guint i = 0; i < record->kind->n_fields; i++)
    {
      const FrField *field = &record->kind->fields[i];
      if (field->type != FR_FIELD_REF || fr_record_int (record, field) == 0
          || find (known, field->ref_kind, fr_record_int (record, field)) != NULL)
        continue;
      g_autofree char *key = g_strdup_printf ("%s[%u].%s", record->kind->name, index, field->name);
      const char *target = fr_kind (field->ref_kind)->name;
      return fr_input_fail (input, key, "is %" G_GINT64_FORMAT "; it must be the id of a %s in this book",
                            fr_record_int (record, field), target);
    }
  return TRUE;
}

GPtrArray *
fr_book_from_json (JsonNode *root, GError **error)
{
  g_return_val_if_fail (root != NULL, NULL);

  const char *keys[FR_N_KINDS + 1] = { NULL };
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);
  g_autoptr (GHashTable) known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GError) first = NULL;
  FrInput input;

  for (guint k = 0; k < FR_N_KINDS; k++)
    keys[k] = fr_kind (k)->name;
  if (fr_input_root (root, keys, &first, &input))
    for (guint k = 0; k < FR_N_KINDS && first == NULL; k++)
      read_kind (&input, fr_kind (k), known, records);

  guint index = 0;
  for (guint i = 0; i < records->len && first == NULL; i++, index++)
    {
      const FrRecord *record = g_ptr_array_index (records, i);
      if (i > 0 && record->kind != ((FrRecord *)g_ptr_array_index (records, i - 1))->kind)
        index = 0;
      check_references (&input, known, record, index);
    }
  if (first == NULL)
    return g_steal_pointer (&records);
  g_propagate_error (error, g_steal_pointer (&first));
  return NULL;
}

char *
fr_book_to_json (GPtrArray *records)
{
  FrOutput output;

  fr_output_init (&output);
  fr_output_object (&output, NULL);
  for (guint k = 0; k < FR_N_KINDS; k++)
    {
      fr_output_array (&output, fr_kind (k)->name);
      for (guint i = 0; i < records->len; i++)
        {
          const FrRecord *record = g_ptr_array_index (records, i);
          if (record->kind->id == k)
            fr_record_write_json (&output, NULL, record);
        }
      fr_output_end_array (&output);
    }
  fr_output_end_object (&output);
  return fr_output_finish (&output);
}
