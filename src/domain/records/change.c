/* Changes as values. A change holds at most one step a record: adding a second step for the same record keeps
 * the first before and the last after, so that inverting and joining need no order between steps of one
 * record, and the store can check each before-image against what it holds. An import or an edit of the whole
 * bush has thousands of steps, so they are found by a hash of kind and number. */
#include "domain/records/change.h"

static void
step_free (gpointer data)
{
  FrStep *step = data;
  fr_record_free (step->before);
  fr_record_free (step->after);
  g_free (step);
}

const FrRecord *
fr_step_record (const FrStep *step)
{
  return step->before != NULL ? step->before : step->after;
}

static guint
step_hash (gconstpointer data)
{
  return fr_record_hash (fr_step_record (data));
}

static gboolean
step_equal (gconstpointer a, gconstpointer b)
{
  return fr_record_is_same (fr_step_record (a), fr_step_record (b));
}

FrChange *
fr_change_new (const char *label, const char *subject)
{
  FrChange *change = g_new0 (FrChange, 1);
  change->label = g_strdup (label);
  change->subject = g_strdup (subject);
  change->steps = g_ptr_array_new_with_free_func (step_free);
  change->index = g_hash_table_new (step_hash, step_equal);
  return change;
}

/* A record without an id yet is never the same as another. */
static FrStep *
find_step (const FrChange *change, const FrRecord *record)
{
  const FrStep wanted = { .before = (FrRecord *)record };

  return record->id != 0 ? g_hash_table_lookup (change->index, &wanted) : NULL;
}

/* A second step for the same record. */
static void
replace_after (FrChange *change, FrStep *step, const FrRecord *after)
{
  if (fr_record_equal (step->before, after))
    {
      g_hash_table_remove (change->index, step);
      g_ptr_array_remove (change->steps, step);
      return;
    }
  FrRecord *copy = fr_record_copy (after); /* which may be the one that is freed */
  fr_record_free (step->after);
  step->after = copy;
}

void
fr_change_add (FrChange *change, const FrRecord *before, const FrRecord *after)
{
  g_return_if_fail (change != NULL);
  g_return_if_fail (before != NULL || after != NULL);
  g_return_if_fail (before == NULL || after == NULL
                    || (before->kind == after->kind && before->id == after->id));

  FrStep *step = find_step (change, before != NULL ? before : after);
  if (step != NULL)
    {
      replace_after (change, step, after);
      return;
    }
  if (fr_record_equal (before, after))
    return;

  step = g_new0 (FrStep, 1);
  step->before = fr_record_copy (before);
  step->after = fr_record_copy (after);
  g_ptr_array_add (change->steps, step);
  if (fr_step_record (step)->id != 0)
    g_hash_table_add (change->index, step);
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
  g_hash_table_unref (change->index);
  g_ptr_array_unref (change->steps);
  g_free (change->subject);
  g_free (change->label);
  g_free (change);
}
