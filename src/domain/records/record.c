/* Records handled by their description: making, copying, comparing and reaching fields of any kind without
 * knowing its struct. The descriptions are in kinds.c, the checks in record-check.c. Nothing here has a case
 * per kind; a new kind needs no line in this file. */
#include "domain/records/record.h"

#include <math.h>
#include <string.h>

static gpointer
member (const FrRecord *record, const FrField *field)
{
  return (char *)record + field->offset;
}

void
fr_amount_set (FrAmount *amount, double value, const char *typed)
{
  g_return_if_fail (amount != NULL);

  /* The new text may be the old one, so copy before freeing. */
  char *copy = typed != NULL && *typed != '\0' ? g_strdup (typed) : NULL;
  g_free (amount->typed);
  amount->typed = copy;
  /* A nought has no sign: the store keeps none. */
  amount->value = value + 0.0;
}

static void
set_unknown (FrRecord *record, const FrField *field)
{
  switch (field->type)
    {
    case FR_FIELD_AMOUNT:
      fr_amount_set (member (record, field), NAN, NULL);
      break;
    case FR_FIELD_BOOL:
      *(gboolean *)member (record, field) = FALSE;
      break;
    case FR_FIELD_TIME:
      *(gint64 *)member (record, field) = G_MININT64;
      break;
    case FR_FIELD_REF:
      *(gint64 *)member (record, field) = 0;
      break;
    case FR_FIELD_CODE:
      fr_record_set_text (record, field, field->codes[0]);
      break;
    case FR_FIELD_TEXT:
    case FR_FIELD_DATE:
      fr_record_set_text (record, field, NULL);
      break;
    }
}

FrRecord *
fr_record_new (FrKindId kind_id)
{
  const FrKind *kind = fr_kind (kind_id);
  g_return_val_if_fail (kind != NULL, NULL);

  FrRecord *record = g_malloc0 (kind->size);
  record->kind = kind;
  record->n_holders = 1;
  for (guint i = 0; i < kind->n_fields; i++)
    set_unknown (record, &kind->fields[i]);
  return record;
}

FrRecord *
fr_record_copy (const FrRecord *record)
{
  if (record == NULL)
    return NULL;

  const FrKind *kind = record->kind;
  FrRecord *copy = g_malloc (kind->size);
  memcpy (copy, record, kind->size);
  copy->n_holders = 1;
  for (guint i = 0; i < kind->n_fields; i++)
    {
      const FrField *field = &kind->fields[i];
      switch (field->type)
        {
        case FR_FIELD_TEXT:
        case FR_FIELD_CODE:
        case FR_FIELD_DATE:
          {
            char **text = member (copy, field);
            *text = g_strdup (*text);
            break;
          }
        case FR_FIELD_AMOUNT:
          {
            FrAmount *amount = member (copy, field);
            amount->typed = g_strdup (amount->typed);
            break;
          }
        case FR_FIELD_BOOL:
        case FR_FIELD_TIME:
        case FR_FIELD_REF:
          break;
        }
    }
  return copy;
}

FrRecord *
fr_record_hold (const FrRecord *record)
{
  FrRecord *held = (FrRecord *)record;

  g_return_val_if_fail (record != NULL && record->n_holders > 0, NULL);
  g_atomic_int_inc (&held->n_holders);
  return held;
}

void
fr_record_free (FrRecord *record)
{
  if (record == NULL || !g_atomic_int_dec_and_test (&record->n_holders))
    return;

  const FrKind *kind = record->kind;
  for (guint i = 0; i < kind->n_fields; i++)
    {
      const FrField *field = &kind->fields[i];
      if (field->type == FR_FIELD_AMOUNT)
        g_free (((FrAmount *)member (record, field))->typed);
      else if (field->type == FR_FIELD_TEXT || field->type == FR_FIELD_CODE || field->type == FR_FIELD_DATE)
        g_free (*(char **)member (record, field));
    }
  g_free (record);
}

gboolean
fr_record_field_equal (const FrRecord *a, const FrRecord *b, const FrField *field)
{
  switch (field->type)
    {
    case FR_FIELD_TEXT:
    case FR_FIELD_CODE:
    case FR_FIELD_DATE:
      return g_strcmp0 (fr_record_text (a, field), fr_record_text (b, field)) == 0;
    case FR_FIELD_AMOUNT:
      {
        double one = fr_record_amount ((FrRecord *)a, field)->value,
               two = fr_record_amount ((FrRecord *)b, field)->value;

        return one == two || (isnan (one) && isnan (two));
      }
    default:
      return fr_record_int (a, field) == fr_record_int (b, field);
    }
}

gboolean
fr_record_field_same (const FrRecord *a, const FrRecord *b, const FrField *field)
{
  return fr_record_field_equal (a, b, field)
         && (field->type != FR_FIELD_AMOUNT
             || g_strcmp0 (fr_record_amount ((FrRecord *)a, field)->typed,
                           fr_record_amount ((FrRecord *)b, field)->typed)
                    == 0);
}

gboolean
fr_record_equal (const FrRecord *a, const FrRecord *b)
{
  if (a == b)
    return TRUE;
  if (a == NULL || b == NULL)
    return FALSE;
  if (a->kind != b->kind || a->id != b->id || !a->archived != !b->archived || strcmp (a->uid, b->uid) != 0)
    return FALSE;
  for (guint i = 0; i < a->kind->n_fields; i++)
    if (!fr_record_field_same (a, b, &a->kind->fields[i]))
      return FALSE;
  return TRUE;
}

guint
fr_record_hash (gconstpointer data)
{
  const FrRecord *record = data;

  return g_int64_hash (&record->id) * FR_N_KINDS + (guint)record->kind->id;
}

gboolean
fr_record_is_same (gconstpointer a, gconstpointer b)
{
  const FrRecord *one = a, *two = b;

  return one->kind == two->kind && one->id == two->id;
}

gboolean
fr_record_in_span (const FrRecord *record, const FrRecordSpan *span)
{
  const FrField *field;
  FrDate day;
  gint64 utc_s;

  g_return_val_if_fail (record != NULL && span != NULL, FALSE);

  if (record->kind->time_field == NULL)
    return TRUE;
  field = fr_kind_field (record->kind, record->kind->time_field);
  if (field->type == FR_FIELD_DATE)
    {
      const char *text = fr_record_text (record, field);

      return text != NULL && fr_date_parse (text, &day) && fr_date_compare (day, span->first) >= 0
             && fr_date_compare (day, span->last) <= 0;
    }
  utc_s = fr_record_int (record, field);
  return utc_s >= span->from_utc && utc_s < span->to_utc;
}

const char *
fr_record_label (const FrRecord *record)
{
  g_return_val_if_fail (record != NULL, "");

  if (record->kind->label_field == NULL)
    return "";
  const char *text = fr_record_text (record, fr_kind_field (record->kind, record->kind->label_field));
  return text != NULL ? text : "";
}

const char *
fr_record_text (const FrRecord *record, const FrField *field)
{
  g_return_val_if_fail (
      field->type == FR_FIELD_TEXT || field->type == FR_FIELD_CODE || field->type == FR_FIELD_DATE, NULL);

  return *(char **)member (record, field);
}

void
fr_record_set_text (FrRecord *record, const FrField *field, const char *text)
{
  g_return_if_fail (field->type == FR_FIELD_TEXT || field->type == FR_FIELD_CODE
                    || field->type == FR_FIELD_DATE);

  char **slot = member (record, field);
  if (text != NULL && *slot != NULL && strcmp (text, *slot) == 0) /* a code mostly stays the first one */
    return;
  char *copy = text != NULL && *text != '\0' ? g_strdup (text) : NULL;
  g_free (*slot);
  *slot = copy;
}

FrAmount *
fr_record_amount (FrRecord *record, const FrField *field)
{
  g_return_val_if_fail (field->type == FR_FIELD_AMOUNT, NULL);

  return member (record, field);
}

void
fr_record_set_amount (FrRecord *record, const FrField *field, double value, const char *typed)
{
  g_return_if_fail (field->type == FR_FIELD_AMOUNT);

  fr_amount_set (member (record, field), value, typed);
}

gint64
fr_record_int (const FrRecord *record, const FrField *field)
{
  g_return_val_if_fail (
      field->type == FR_FIELD_BOOL || field->type == FR_FIELD_TIME || field->type == FR_FIELD_REF, 0);

  if (field->type == FR_FIELD_BOOL)
    return *(gboolean *)member (record, field) ? 1 : 0;
  return *(gint64 *)member (record, field);
}

void
fr_record_set_int (FrRecord *record, const FrField *field, gint64 value)
{
  g_return_if_fail (field->type == FR_FIELD_BOOL || field->type == FR_FIELD_TIME
                    || field->type == FR_FIELD_REF);

  if (field->type == FR_FIELD_BOOL)
    *(gboolean *)member (record, field) = value != 0;
  else
    *(gint64 *)member (record, field) = value;
}

void
fr_record_copy_field (FrRecord *to, const FrRecord *from, const FrField *field)
{
  switch (field->type)
    {
    case FR_FIELD_TEXT:
    case FR_FIELD_CODE:
    case FR_FIELD_DATE:
      fr_record_set_text (to, field, fr_record_text (from, field));
      break;
    case FR_FIELD_AMOUNT:
      {
        const FrAmount *amount = fr_record_amount ((FrRecord *)from, field);

        fr_record_set_amount (to, field, amount->value, amount->typed);
        break;
      }
    default:
      fr_record_set_int (to, field, fr_record_int (from, field));
      break;
    }
}
