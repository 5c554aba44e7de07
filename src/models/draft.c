/* What an editor holds while a person types. Fields are told apart by their position in the kind, so the
 * per-field state is one array. */
#include "models/draft.h"

#include <math.h>
#include <string.h>

typedef struct
{
  char *text; /* still unread, else NULL */
  FrQuantityProblem problem;
  gsize at;
} Entry;

struct _FrDraft
{
  gboolean is_new;
  FrRecord *original;
  FrRecord *current;
  Entry *entries;   /* one a field */
  GArray *problems; /* FrProblem of current */
};

static guint
index_of (const FrDraft *draft, const FrField *field)
{
  const FrKind *kind = draft->original->kind;

  g_assert (field >= kind->fields && field < kind->fields + kind->n_fields);
  return (guint)(field - kind->fields);
}

static void
check (FrDraft *draft)
{
  g_clear_pointer (&draft->problems, g_array_unref);
  draft->problems = fr_record_check (draft->current);
}

static void
entry_clear (Entry *entry)
{
  g_clear_pointer (&entry->text, g_free);
  entry->problem = FR_QUANTITY_OK;
  entry->at = 0;
}

static void
copy_field (FrRecord *to, const FrRecord *from, const FrField *field)
{
  switch (field->type)
    {
    case FR_FIELD_AMOUNT:
      {
        const FrAmount *amount = fr_record_amount ((FrRecord *)from, field);

        fr_record_set_amount (to, field, amount->value, amount->typed);
        break;
      }
    case FR_FIELD_BOOL:
    case FR_FIELD_TIME:
    case FR_FIELD_REF:
      fr_record_set_int (to, field, fr_record_int (from, field));
      break;
    default:
      fr_record_set_text (to, field, fr_record_text (from, field));
    }
}

static gboolean
field_differs (const FrRecord *a, const FrRecord *b, const FrField *field)
{
  switch (field->type)
    {
    case FR_FIELD_AMOUNT:
      {
        const FrAmount *one = fr_record_amount ((FrRecord *)a, field);
        const FrAmount *two = fr_record_amount ((FrRecord *)b, field);

        if (isnan (one->value) || isnan (two->value))
          return isnan (one->value) != isnan (two->value);
        return one->value != two->value || g_strcmp0 (one->typed, two->typed) != 0;
      }
    case FR_FIELD_BOOL:
    case FR_FIELD_TIME:
    case FR_FIELD_REF:
      return fr_record_int (a, field) != fr_record_int (b, field);
    default:
      return g_strcmp0 (fr_record_text (a, field), fr_record_text (b, field)) != 0;
    }
}

FrDraft *
fr_draft_new (const FrRecord *record, gboolean is_new)
{
  FrDraft *draft = g_new0 (FrDraft, 1);

  draft->is_new = is_new;
  draft->original = fr_record_copy (record);
  draft->current = fr_record_copy (record);
  draft->entries = g_new0 (Entry, record->kind->n_fields);
  check (draft);
  return draft;
}

void
fr_draft_free (FrDraft *draft)
{
  if (draft == NULL)
    return;
  for (guint i = 0; i < draft->original->kind->n_fields; i++)
    entry_clear (&draft->entries[i]);
  g_free (draft->entries);
  g_array_unref (draft->problems);
  fr_record_free (draft->original);
  fr_record_free (draft->current);
  g_free (draft);
}

gboolean
fr_draft_is_new (const FrDraft *draft)
{
  return draft->is_new;
}

const FrRecord *
fr_draft_get_original (const FrDraft *draft)
{
  return draft->original;
}

const FrRecord *
fr_draft_get_current (const FrDraft *draft)
{
  return draft->current;
}

void
fr_draft_type (FrDraft *draft, const FrField *field, const char *text, const FrUnits *units)
{
  Entry *entry = &draft->entries[index_of (draft, field)];
  g_autofree char *stripped = g_strstrip (g_strdup (text));

  entry_clear (entry);
  if (field->type == FR_FIELD_AMOUNT)
    {
      double value = NAN;
      FrQuantityProblem problem = FR_QUANTITY_OK;
      gsize at = 0;

      if (fr_quantity_parse (stripped, field->quantity, units, &value, &problem, &at))
        fr_record_set_amount (draft->current, field, value, isnan (value) ? NULL : stripped);
      else
        {
          entry->text = g_steal_pointer (&stripped);
          entry->problem = problem;
          entry->at = at;
          copy_field (draft->current, draft->original, field);
        }
    }
  else
    fr_record_set_text (draft->current, field, *stripped != '\0' ? stripped : NULL);
  check (draft);
}

void
fr_draft_choose_text (FrDraft *draft, const FrField *field, const char *text)
{
  entry_clear (&draft->entries[index_of (draft, field)]);
  fr_record_set_text (draft->current, field, text);
  check (draft);
}

void
fr_draft_choose_int (FrDraft *draft, const FrField *field, gint64 value)
{
  entry_clear (&draft->entries[index_of (draft, field)]);
  fr_record_set_int (draft->current, field, value);
  check (draft);
}

void
fr_draft_restore (FrDraft *draft, const FrField *field)
{
  entry_clear (&draft->entries[index_of (draft, field)]);
  copy_field (draft->current, draft->original, field);
  check (draft);
}

const char *
fr_draft_unread (const FrDraft *draft, const FrField *field)
{
  return draft->entries[index_of (draft, field)].text;
}

gboolean
fr_draft_problem (const FrDraft *draft, const FrField *field, FrDraftProblem *problem_out)
{
  const Entry *entry = &draft->entries[index_of (draft, field)];
  FrDraftProblem problem = { .entry = FR_QUANTITY_OK };

  if (entry->text != NULL)
    {
      problem.entry = entry->problem;
      problem.at = entry->at;
      if (problem_out != NULL)
        *problem_out = problem;
      return TRUE;
    }
  for (guint i = 0; i < draft->problems->len; i++)
    {
      const FrProblem *found = &g_array_index (draft->problems, FrProblem, i);

      if (found->field != field)
        continue;
      problem.record = *found;
      if (problem_out != NULL)
        *problem_out = problem;
      return TRUE;
    }
  return FALSE;
}

guint
fr_draft_n_problems (const FrDraft *draft)
{
  const FrKind *kind = draft->original->kind;
  guint n = 0;

  for (guint i = 0; i < kind->n_fields; i++)
    if (fr_draft_problem (draft, &kind->fields[i], NULL))
      n++;
  return n;
}

gboolean
fr_draft_is_dirty (const FrDraft *draft)
{
  const FrKind *kind = draft->original->kind;

  for (guint i = 0; i < kind->n_fields; i++)
    if (draft->entries[i].text != NULL || field_differs (draft->original, draft->current, &kind->fields[i]))
      return TRUE;
  return FALSE;
}

/* Puts every changed field the check complains of back. FALSE when it still complains then. */
static gboolean
leave_out_refused (FrRecord *record, const FrRecord *original)
{
  for (;;)
    {
      g_autoptr (GArray) problems = fr_record_check (record);
      gboolean moved = FALSE;

      if (problems->len == 0)
        return TRUE;
      for (guint i = 0; i < problems->len; i++)
        {
          const FrProblem *problem = &g_array_index (problems, FrProblem, i);
          const FrField *named[] = { problem->field, problem->other };

          for (guint n = 0; n < G_N_ELEMENTS (named); n++)
            if (named[n] != NULL && field_differs (record, original, named[n]))
              {
                copy_field (record, original, named[n]);
                moved = TRUE;
              }
        }
      if (!moved)
        return FALSE;
    }
}

FrChange *
fr_draft_change (const FrDraft *draft, const char *label)
{
  g_autoptr (FrRecord) after = fr_record_copy (draft->current);
  g_autoptr (FrChange) change = NULL;

  if (draft->is_new)
    {
      if (fr_draft_n_problems (draft) > 0)
        return NULL;
    }
  else if (!leave_out_refused (after, draft->original))
    return NULL;

  change = fr_change_new (label, fr_record_label (after));
  fr_change_add (change, draft->is_new ? NULL : draft->original, after);
  return fr_change_is_empty (change) ? NULL : g_steal_pointer (&change);
}

void
fr_draft_rebase (FrDraft *draft, const FrRecord *record)
{
  const FrKind *kind = draft->original->kind;
  g_autoptr (FrRecord) current = fr_record_copy (record);

  /* A field counts as differing on purpose when the person moved it and the book did not take it. */
  for (guint i = 0; i < kind->n_fields; i++)
    {
      const FrField *field = &kind->fields[i];

      if (field_differs (draft->original, draft->current, field)
          && !field_differs (draft->original, record, field))
        copy_field (current, draft->current, field);
    }
  fr_record_free (draft->original);
  draft->original = fr_record_copy (record);
  fr_record_free (draft->current);
  draft->current = g_steal_pointer (&current);
  draft->is_new = FALSE;
  check (draft);
}
