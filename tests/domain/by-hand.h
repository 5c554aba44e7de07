/* Records of a book written by hand in a test. */
#pragma once

#include "domain/records/kinds.h"

#include <math.h>

static GPtrArray *
records_new (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);
}

static void
set (FrRecord *record, const char *name, const char *value)
{
  const FrField *field = fr_kind_field (record->kind, name);

  if (field->type == FR_FIELD_AMOUNT)
    fr_record_set_amount (record, field, value != NULL ? g_ascii_strtod (value, NULL) : NAN, NULL);
  else if (field->type == FR_FIELD_BOOL || field->type == FR_FIELD_TIME || field->type == FR_FIELD_REF)
    fr_record_set_int (record, field, g_ascii_strtoll (value, NULL, 10));
  else
    fr_record_set_text (record, field, value);
}

/* @values: names and values, NULL at the end. */
static FrRecord *
record_new (FrKindId kind, gint64 id, const char *const *values)
{
  FrRecord *record = fr_record_new (kind);

  record->id = id;
  for (guint i = 0; values[i] != NULL; i += 2)
    set (record, values[i], values[i + 1]);
  return record;
}

#define RECORD(kind, id, ...) record_new (kind, id, (const char *const[]){ __VA_ARGS__, NULL })
