/* Changes as values. A change holds at most one step a record: adding a second step for the same record keeps
 * the first before and the last after, so that inverting and joining need no order between steps of one
 * record, and the store can check each before-image against what it holds. */
#include "domain/records/change.h"

static void
step_free (gpointer data)
{
  FrStep *step = data;
  fr_record_free (step->before);
  fr_record_free (step->after);
  g_free (step);
}

FrChange *
fr_change_new (const char *label, const char *subject)
{
  FrChange *change = g_new0 (FrChange, 1);
  change->label = g_strdup (label);
  change->subject = g_strdup (subject);
  change->steps = g_ptr_array_new_with_free_func (step_free);
  return change;
}

/* A record without an id yet is never the same as another. */
static gboolean
find_step (const FrChange *change, const FrRecord *record, guint *index_out)
{
  for (guint i = 0; record->id != 0 && i < change->steps->len; i++)
    {
      const FrStep *step = g_ptr_array_index (change->steps, i);
      const FrRecord *known = step->before != NULL ? step->before : step->after;
      if (known->kind == record->kind && known->id == record->id)
        {
          *index_out = i;
          return TRUE;
        }
    }
  return FALSE;
}

void
fr_change_add (FrChange *change, const FrRecord *before, const FrRecord *after)
{
  g_return_if_fail (change != NULL);
  g_return_if_fail (before != NULL || after != NULL);
  g_return_if_fail (before == NULL || after == NULL
                    || (before->kind == after->kind && before->id == after->id));

  guint index;
  if (find_step (change, before != NULL ? before : after, &index))
    {
      FrStep *step = g_ptr_array_index (change->steps, index);
      FrRecord *copy = fr_record_copy (after);
      fr_record_free (step->after);
      step->after = copy;
      if (fr_record_equal (step->before, step->after))
        g_ptr_array_remove_index (change->steps, index);
      return;
    }
  if (fr_record_equal (before, after))
    return;

  FrStep *step = g_new0 (FrStep, 1);
  step->before = fr_record_copy (before);
  step->after = fr_record_copy (after);
  g_ptr_array_add (change->steps, step);
}

gboolean
fr_change_is_empty (const FrChange *change)
{
  return change->steps->len == 0;
}

FrChange *
fr_change_invert (const FrChange *change)
{
  FrChange *inverse = fr_change_new (change->label, change->subject);
  for (guint i = change->steps->len; i > 0; i--)
    {
      const FrStep *step = g_ptr_array_index (change->steps, i - 1);
      fr_change_add (inverse, step->after, step->before);
    }
  return inverse;
}

FrChange *
fr_change_copy (const FrChange *change)
{
  FrChange *copy = fr_change_new (change->label, change->subject);
  for (guint i = 0; i < change->steps->len; i++)
    {
      const FrStep *step = g_ptr_array_index (change->steps, i);
      fr_change_add (copy, step->before, step->after);
    }
  return copy;
}

/* The first label stays: adding a vessel and then naming it is still adding a vessel. */
FrChange *
fr_change_join (const FrChange *first, const FrChange *second)
{
  FrChange *joined = fr_change_copy (first);
  for (guint i = 0; i < second->steps->len; i++)
    {
      const FrStep *step = g_ptr_array_index (second->steps, i);
      fr_change_add (joined, step->before, step->after);
    }
  return joined;
}

void
fr_change_free (FrChange *change)
{
  if (change == NULL)
    return;
  g_ptr_array_unref (change->steps);
  g_free (change->subject);
  g_free (change->label);
  g_free (change);
}
