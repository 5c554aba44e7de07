/* The records are copied when they are looked at: the book's own may go with its next change, and what is
 * looked at must stay. */
#include "models/bush-transfer.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "formats/foreign.h"

struct _FrBushImport
{
  FrBook *book;
  FrArrivals *arrivals;
  char *today;
  FrArrivalOptions options;
  GPtrArray *held; /* FrRecord: the copies */
  FrBushBook records;
  FrArrivalPreview *preview;
};

/* --- records --- */

static void
clear_records (FrBushBook *records)
{
  g_clear_pointer (&records->trees, g_ptr_array_unref);
  g_clear_pointer (&records->girths, g_ptr_array_unref);
  g_clear_pointer (&records->taps, g_ptr_array_unref);
  g_clear_pointer (&records->yields, g_ptr_array_unref);
  g_clear_pointer (&records->features, g_ptr_array_unref);
  records->ground = NULL;
  records->tapping = NULL;
}

static GPtrArray *
copies (FrBook *book, FrKindId kind, GPtrArray *held)
{
  FrRecordList *list = fr_book_get_list (book, kind);
  GPtrArray *all = g_ptr_array_new ();

  for (guint i = 0; i < fr_record_list_get_size (list); i++)
    {
      FrRecord *copy = fr_record_copy (fr_record_list_get (list, i));

      g_ptr_array_add (held, copy);
      g_ptr_array_add (all, copy);
    }
  return all;
}

static gconstpointer
single (FrBook *book, FrKindId kind, GPtrArray *held)
{
  g_autoptr (GPtrArray) all = copies (book, kind, held);

  return all->len > 0 ? all->pdata[0] : NULL;
}

static GPtrArray *
hold (FrBook *book, FrBushBook *records)
{
  GPtrArray *held = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);

  *records = (FrBushBook){ .trees = copies (book, FR_KIND_TREE, held),
                           .girths = copies (book, FR_KIND_GIRTH, held),
                           .taps = copies (book, FR_KIND_TAP, held),
                           .yields = copies (book, FR_KIND_YIELD, held),
                           .features = copies (book, FR_KIND_FEATURE, held),
                           .ground = single (book, FR_KIND_GROUND, held),
                           .tapping = single (book, FR_KIND_TAPPING, held) };
  return held;
}

/* --- reading --- */

static void
read_thread (GTask *task, gpointer source, gpointer file, GCancellable *cancellable)
{
  GError *error = NULL;
  g_autoptr (GFileInputStream) stream = g_file_read (file, cancellable, &error);
  /* One byte past the most: whoever fills it is too large, and is told so by the reader. */
  g_autofree char *bytes = NULL;
  FrArrivals *arrivals = NULL;
  FrArrivalFile kind;
  gsize length = 0;

  if (stream != NULL)
    {
      bytes = g_try_malloc (FR_ARRIVAL_FILE_SIZE_MAX + 1);
      if (bytes == NULL)
        g_set_error_literal (&error, G_IO_ERROR, G_IO_ERROR_NO_SPACE,
                             _ ("There is not memory enough for the file."));
      else if (g_input_stream_read_all (G_INPUT_STREAM (stream), bytes, FR_ARRIVAL_FILE_SIZE_MAX + 1, &length,
                                        cancellable, &error))
        arrivals = fr_arrival_file_read (bytes, length, &kind, &error);
    }
  if (arrivals != NULL)
    g_task_return_pointer (task, arrivals, (GDestroyNotify)fr_arrivals_free);
  else
    g_task_return_error (task, error);
}

void
fr_bush_import_read_async (GFile *file, GCancellable *cancellable, GAsyncReadyCallback done, gpointer data)
{
  g_autoptr (GTask) task = g_task_new (NULL, cancellable, done, data);

  g_task_set_source_tag (task, fr_bush_import_read_async);
  g_task_set_task_data (task, g_object_ref (file), g_object_unref);
  g_task_run_in_thread (task, read_thread);
}

FrArrivals *
fr_bush_import_read_finish (GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}

/* --- coming in --- */

FrBushImport *
fr_bush_import_new (FrBook *book, FrArrivals *arrivals, FrDate today)
{
  FrBushImport *import = g_new0 (FrBushImport, 1);

  import->book = g_object_ref (book);
  import->arrivals = arrivals;
  import->today = fr_date_to_iso (today);
  import->options = fr_arrival_options (import->today);
  import->options.join_foreign = fr_foreign_join;
  fr_bush_import_look (import);
  return import;
}

void
fr_bush_import_free (FrBushImport *import)
{
  if (import == NULL)
    return;
  g_clear_pointer (&import->preview, fr_arrival_preview_free);
  clear_records (&import->records);
  g_clear_pointer (&import->held, g_ptr_array_unref);
  fr_arrivals_free (import->arrivals);
  g_free (import->today);
  g_object_unref (import->book);
  g_free (import);
}

const FrArrivals *
fr_bush_import_arrivals (const FrBushImport *import)
{
  return import->arrivals;
}

FrArrivalOptions *
fr_bush_import_options (FrBushImport *import)
{
  return &import->options;
}

void
fr_bush_import_look (FrBushImport *import)
{
  g_clear_pointer (&import->preview, fr_arrival_preview_free);
  clear_records (&import->records);
  g_clear_pointer (&import->held, g_ptr_array_unref);
  import->held = hold (import->book, &import->records);
  import->preview = fr_arrivals_preview (import->arrivals, &import->records, &import->options);
}

FrArrivalPreview *
fr_bush_import_preview (FrBushImport *import)
{
  return import->preview;
}

static gboolean
is_wanted (FrArrivalFate fate, gboolean left_out)
{
  return (fate == FR_ARRIVAL_NEW || fate == FR_ARRIVAL_CHANGES) && !left_out;
}

guint
fr_bush_import_n_wanted (FrBushImport *import)
{
  guint n = 0;

  for (guint i = 0; i < import->preview->rows->len; i++)
    {
      const FrArrivalRow *row = import->preview->rows->pdata[i];

      n += is_wanted (row->fate, row->left_out);
    }
  for (guint i = 0; i < import->preview->paths->len; i++)
    {
      const FrArrivalPathRow *row = import->preview->paths->pdata[i];

      n += is_wanted (row->fate, row->left_out);
    }
  return n;
}

FrChange *
fr_bush_import_change (FrBushImport *import, const char *name, GError **error)
{
  static const FrKindId kinds[]
      = { FR_KIND_TREE, FR_KIND_GIRTH, FR_KIND_TAP, FR_KIND_YIELD, FR_KIND_FEATURE, FR_KIND_GROUND };
  FrArrivalIds ids = { .new_uid = fr_book_new_uid };
  g_autoptr (FrChange) change = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autoptr (FrRecord) next = fr_book_new_record (import->book, kinds[i], 0, error);

      if (next == NULL)
        return NULL;
      ids.next[kinds[i]] = next->id;
    }
  change = fr_arrivals_change (import->preview, &ids, name);
  return fr_change_is_empty (change) ? NULL : g_steal_pointer (&change);
}

/* --- going out --- */

/* Only trees of the set, and what belongs to them: a file knows no other. */
static void
keep_only (GPtrArray *trees, const gint64 *ids, guint n)
{
  g_autoptr (GHashTable) set = g_hash_table_new (g_int64_hash, g_int64_equal);

  for (guint i = 0; i < n; i++)
    g_hash_table_add (set, (gpointer)&ids[i]);
  for (guint i = trees->len; i-- > 0;)
    if (!g_hash_table_contains (set, &((const FrRecord *)trees->pdata[i])->id))
      g_ptr_array_remove_index (trees, i);
}

char *
fr_bush_export (FrBook *book, FrArrivalFile kind, const gint64 *trees, guint n, gboolean with_paths,
                guint *n_left_out, GError **error)
{
  FrBushBook records;
  g_autoptr (GPtrArray) held = hold (book, &records);
  char *text;

  if (n > 0)
    keep_only (records.trees, trees, n);
  text = fr_arrival_file_write (kind, &records, with_paths, n_left_out, error);
  clear_records (&records);
  return text;
}
