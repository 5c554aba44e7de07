/* Two stacks of changes. Joining is for amounts only: text such as price periods is edited in many small
 * steps that a person wants back one by one. */
#include "models/undo.h"

struct _FrUndo
{
  GPtrArray *done;   /* FrChange, the newest last */
  GPtrArray *undone; /* FrChange, the next to redo last */
  gboolean may_join;
};

FrUndo *
fr_undo_new (void)
{
  FrUndo *undo = g_new0 (FrUndo, 1);

  undo->done = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_change_free);
  undo->undone = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_change_free);
  return undo;
}

void
fr_undo_free (FrUndo *undo)
{
  if (undo == NULL)
    return;
  g_ptr_array_unref (undo->done);
  g_ptr_array_unref (undo->undone);
  g_free (undo);
}

static const FrStep *
step_at (const FrChange *change, guint i)
{
  return g_ptr_array_index (change->steps, i);
}

/* The one amount in which a one-step edit changes its record; NULL when it is any other change. */
static const FrField *
edited_amount (const FrChange *change)
{
  const FrField *found = NULL;
  const FrStep *step;

  if (change->steps->len != 1)
    return NULL;
  step = step_at (change, 0);
  if (step->before == NULL || step->after == NULL || step->before->archived != step->after->archived)
    return NULL;
  for (guint i = 0; i < step->before->kind->n_fields; i++)
    {
      const FrField *field = &step->before->kind->fields[i];

      if (fr_record_field_same (step->before, step->after, field))
        continue;
      if (found != NULL || field->type != FR_FIELD_AMOUNT)
        return NULL;
      found = field;
    }
  return found;
}

static gboolean
may_join (const FrChange *first, const FrChange *second)
{
  const FrField *field = edited_amount (first);

  return field != NULL && field == edited_amount (second)
         && fr_record_equal (step_at (first, 0)->after, step_at (second, 0)->before)
         && g_strcmp0 (first->label, second->label) == 0;
}

void
fr_undo_push (FrUndo *undo, const FrChange *change)
{
  g_ptr_array_set_size (undo->undone, 0);
  if (undo->may_join && undo->done->len > 0)
    {
      FrChange *top = g_ptr_array_index (undo->done, undo->done->len - 1);

      if (may_join (top, change))
        {
          FrChange *joined = fr_change_join (top, change);

          g_ptr_array_remove_index (undo->done, undo->done->len - 1);
          if (fr_change_is_empty (joined)) /* typed back to what it was */
            fr_change_free (joined);
          else
            g_ptr_array_add (undo->done, joined);
          return;
        }
    }
  g_ptr_array_add (undo->done, fr_change_copy (change));
  undo->may_join = TRUE;
}

const FrChange *
fr_undo_peek_undo (const FrUndo *undo)
{
  return undo->done->len > 0 ? g_ptr_array_index (undo->done, undo->done->len - 1) : NULL;
}

const FrChange *
fr_undo_peek_redo (const FrUndo *undo)
{
  return undo->undone->len > 0 ? g_ptr_array_index (undo->undone, undo->undone->len - 1) : NULL;
}

void
fr_undo_undone (FrUndo *undo)
{
  g_return_if_fail (undo->done->len > 0);
  g_ptr_array_add (undo->undone, g_ptr_array_steal_index (undo->done, undo->done->len - 1));
  undo->may_join = FALSE;
}

void
fr_undo_redone (FrUndo *undo)
{
  g_return_if_fail (undo->undone->len > 0);
  g_ptr_array_add (undo->done, g_ptr_array_steal_index (undo->undone, undo->undone->len - 1));
  undo->may_join = FALSE;
}

/* From the top of a stack down: a change is dropped when a record of it was touched, or belongs to one above it
 * that was dropped. What a record has to be now is said by the topmost step of it alone: on the stack of what is
 * done its image after, on the other its image before. */
static guint
drop_from (GPtrArray *stack, gboolean is_done, FrUndoTouched touched, gpointer user_data)
{
  g_autoptr (GPtrArray) dropped = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_change_free);
  g_autoptr (GHashTable) gone = g_hash_table_new (fr_record_hash, fr_record_is_same); /* FrRecord, borrowed */
  g_autoptr (GHashTable) sound = g_hash_table_new (fr_record_hash, fr_record_is_same);

  for (guint i = stack->len; i-- > 0;)
    {
      FrChange *change = g_ptr_array_index (stack, i);
      gboolean drop = FALSE;

      for (guint s = 0; s < change->steps->len && !drop; s++)
        {
          const FrStep *step = step_at (change, s);
          const FrRecord *record = fr_step_record (step);

          drop = g_hash_table_contains (gone, record)
                 || (g_hash_table_add (sound, (gpointer)record)
                     && touched (record, is_done ? step->after : step->before, user_data));
        }
      if (!drop)
        continue;
      for (guint s = 0; s < change->steps->len; s++)
        g_hash_table_add (gone, (gpointer)fr_step_record (step_at (change, s)));
      g_ptr_array_add (dropped, g_ptr_array_steal_index (stack, i));
    }
  return dropped->len;
}

guint
fr_undo_drop (FrUndo *undo, FrUndoTouched touched, gpointer user_data)
{
  undo->may_join = FALSE;
  return drop_from (undo->done, TRUE, touched, user_data)
         + drop_from (undo->undone, FALSE, touched, user_data);
}

void
fr_undo_clear (FrUndo *undo)
{
  g_ptr_array_set_size (undo->done, 0);
  g_ptr_array_set_size (undo->undone, 0);
  undo->may_join = FALSE;
}

void
fr_undo_break (FrUndo *undo)
{
  undo->may_join = FALSE;
}
