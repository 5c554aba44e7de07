/* The other program: it adds, changes and deletes by the store's own door. */
#include "bush-soak-private.h"

#include "store/store.h"

static void
write_step (Soak *soak, FrStore *store, const FrRecord *before, const FrRecord *after)
{
  g_autoptr (FrChange) change = fr_change_new ("beside", NULL);
  g_autoptr (GError) error = NULL;

  fr_change_add (change, before, after);
  if (fr_change_is_empty (change))
    return;
  if (fr_store_apply (store, change, FR_ORIGIN_CLI, NOW_UTC, &error))
    {
      const FrRecord *record = after != NULL ? after : before;

      m_write_beside (soak->model, before, after);
      soak->beside = record->kind->id == FR_KIND_TREE ? record->id
                     : record->kind->id == FR_KIND_FEATURE
                         ? 0
                         : fr_record_int (record, fr_kind_field (record->kind, "tree"));
      soak->counts.beside++;
    }
  else
    g_assert_error (error, FR_STORE_ERROR,
                    FR_STORE_ERROR_REFUSED); /* the tree it would delete is referred to */
}

static FrRecord *
new_beside (FrStore *store, FrKindId kind)
{
  FrRecord *record = fr_record_new (kind);

  record->id = fr_store_next_id (store, kind, NULL);
  for (guint i = 0; i < 4; i++)
    g_snprintf (record->uid + 8 * i, 9, "%08x", g_random_int ());
  return record;
}

void
soak_write_beside (Soak *soak)
{
  static const FrKindId kinds[]
      = { FR_KIND_TREE, FR_KIND_TREE, FR_KIND_GIRTH, FR_KIND_TAP, FR_KIND_YIELD, FR_KIND_FEATURE };
  FrKindId kind = ONE_OF (soak, kinds);
  g_autoptr (GError) error = NULL;
  g_autoptr (FrStore) store = fr_store_open (soak->path, FALSE, &error);
  g_autoptr (GPtrArray) records = NULL, trees = NULL;
  g_autoptr (FrRecord) after = NULL;
  const FrRecord *before;

  g_assert_no_error (error);
  records = fr_store_load (store, kind, &error);
  trees = fr_store_load (store, FR_KIND_TREE, &error);
  g_assert_no_error (error);
  before = records->len > 0 ? records->pdata[soak_pick (soak, (gint)records->len)] : NULL;
  if (before == NULL || soak_one_in (soak, 3))
    {
      const FrRecord *tree = trees->len > 0 ? trees->pdata[soak_pick (soak, (gint)trees->len)] : NULL;

      if (tree == NULL || kind == FR_KIND_FEATURE)
        kind = FR_KIND_TREE;
      if (kind == FR_KIND_TREE && trees->len >= MOST_TREES)
        return;
      after = new_beside (store, kind);
      if (kind == FR_KIND_TREE)
        fr_record_set_text (after, fr_kind_field (after->kind, "name"), "Beside 1");
      else
        fr_record_set_int (after, fr_kind_field (after->kind, "tree"), tree->id);
      if (kind == FR_KIND_GIRTH)
        {
          fr_record_set_text (after, fr_kind_field (after->kind, "measured_on"), "2027-01-16");
          fr_amount_set (&((FrGirth *)after)->size_m, 1.25, NULL);
          after->archived = soak_one_in (soak, 2);
        }
      if (kind == FR_KIND_TAP)
        fr_amount_set (&((FrTap *)after)->season, SEASON, NULL);
      if (kind == FR_KIND_YIELD)
        fr_amount_set (&((FrYield *)after)->season, SEASON, NULL);
      write_step (soak, store, NULL, after);
      return;
    }
  if (soak_one_in (soak, 3))
    {
      write_step (soak, store, before, NULL);
      return;
    }
  after = fr_record_copy (before);
  if (soak_one_in (soak, 2))
    after->archived = !after->archived;
  else if (kind == FR_KIND_TREE)
    fr_record_set_text (after, fr_kind_field (after->kind, "note"),
                        soak_one_in (soak, 2) ? "seen beside" : NULL);
  else if (kind == FR_KIND_TAP)
    fr_amount_set (&((FrTap *)after)->height_m, soak_pick (soak, 4) * 0.25, NULL);
  write_step (soak, store, before, after);
}
