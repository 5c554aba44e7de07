/* The plain model held against the book and the file. */
#include "bush-model-private.h"

#include "store/store.h"

/* Both print; a difference is seen at once. */
static void
say_row (const char *who, const MRow *row)
{
  g_printerr ("%s: kind %d id %" G_GINT64_FORMAT " uid %s archived %d tree %" G_GINT64_FORMAT "\n", who,
              row->kind, row->id, row->uid, row->archived, row->tree);
  for (guint i = 0; i < M_AMOUNTS && m_amount_names[row->kind][i] != NULL; i++)
    g_printerr ("  %s %.17g “%s”\n", m_amount_names[row->kind][i], row->amounts[i].value,
                row->amounts[i].typed);
  for (guint i = 0; i < M_TEXTS && m_text_names[row->kind][i] != NULL; i++)
    g_printerr ("  %s “%s”\n", m_text_names[row->kind][i], row->texts[i]);
  for (guint i = 0; i < M_BOOLS && m_bool_names[row->kind][i] != NULL; i++)
    g_printerr ("  %s %d\n", m_bool_names[row->kind][i], row->bools[i]);
}

static void
assert_row (const MRow *row, const FrRecord *record)
{
  MRow real = m_read_row (record);

  if (m_same_row (row, &real))
    return;
  say_row ("model", row);
  say_row ("book", &real);
  g_error ("book and model differ");
}

void
m_assert_same (MModel *model, FrBook *book)
{
  for (guint k = 0; k < M_KINDS; k++)
    {
      FrRecordList *list = fr_book_get_list (book, m_kinds[k]);

      g_assert_cmpuint (fr_record_list_get_size (list), ==, model->view[k]->len);
      for (guint i = 0; i < model->view[k]->len; i++)
        assert_row (&g_array_index (model->view[k], MRow, i), fr_record_list_get (list, i));
    }
  g_assert_true ((fr_book_peek_undo (book) != NULL) == (model->done->len > 0));
  g_assert_true ((fr_book_peek_redo (book) != NULL) == (model->undone->len > 0));
}

void
m_assert_same_file (MModel *model, const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrStore) store = fr_store_open (path, FALSE, &error);

  g_assert_no_error (error);
  for (guint k = 0; k < M_KINDS; k++)
    {
      g_autoptr (GPtrArray) records = fr_store_load (store, m_kinds[k], &error);

      g_assert_no_error (error);
      g_assert_cmpuint (records->len, ==, model->kept[k]->len);
      for (guint i = 0; i < records->len; i++)
        assert_row (&g_array_index (model->kept[k], MRow, i), records->pdata[i]);
    }
}
