/* The diary's own JSON. It is written here rather than by a library because it is small, driven by the
 * description of the kinds, and must never depend on a locale: numbers have 17 digits and a point, so that an
 * image read back is the image. */
#include "store/store-private.h"

#include <math.h>
#include <string.h>

static void
append_text (GString *json, const char *text)
{
  if (text == NULL)
    {
      g_string_append (json, "null");
      return;
    }
  g_string_append_c (json, '"');
  for (const char *at = text; *at != '\0'; at++)
    {
      if (*at == '"' || *at == '\\')
        g_string_append_printf (json, "\\%c", *at);
      else if ((guchar)*at < 0x20)
        g_string_append_printf (json, "\\u%04x", (guchar)*at);
      else
        g_string_append_c (json, *at);
    }
  g_string_append_c (json, '"');
}

static void
append_number (GString *json, double value)
{
  char digits[G_ASCII_DTOSTR_BUF_SIZE];
  g_string_append (json, isfinite (value) ? g_ascii_dtostr (digits, sizeof digits, value) : "null");
}

static void
append_record (GString *json, const FrRecord *record)
{
  if (record == NULL)
    {
      g_string_append (json, "null");
      return;
    }
  g_string_append_printf (json, "{\"id\":%" G_GINT64_FORMAT ",\"uid\":", record->id);
  append_text (json, record->uid);
  g_string_append_printf (json, ",\"archived\":%s", record->archived ? "true" : "false");
  for (guint i = 0; i < record->kind->n_fields; i++)
    {
      const FrField *field = &record->kind->fields[i];
      g_string_append_printf (json, ",\"%s\":", field->name);
      switch (field->type)
        {
        case FR_FIELD_TEXT:
        case FR_FIELD_CODE:
        case FR_FIELD_DATE:
          append_text (json, fr_record_text (record, field));
          break;
        case FR_FIELD_AMOUNT:
          {
            const FrAmount *amount = fr_record_amount ((FrRecord *)record, field);
            append_number (json, amount->value);
            if (amount->typed != NULL)
              {
                g_string_append_printf (json, ",\"%s_typed\":", field->name);
                append_text (json, amount->typed);
              }
            break;
          }
        case FR_FIELD_BOOL:
          g_string_append (json, fr_record_int (record, field) ? "true" : "false");
          break;
        case FR_FIELD_TIME:
        case FR_FIELD_REF:
          {
            gint64 value = fr_record_int (record, field);
            if (value == (field->type == FR_FIELD_TIME ? G_MININT64 : 0))
              g_string_append (json, "null");
            else
              g_string_append_printf (json, "%" G_GINT64_FORMAT, value);
            break;
          }
        }
    }
  g_string_append_c (json, '}');
}

char *
fr_diary_steps_json (const FrChange *change)
{
  GString *json = g_string_new ("[");
  for (guint i = 0; i < change->steps->len; i++)
    {
      const FrStep *step = g_ptr_array_index (change->steps, i);
      const FrRecord *known = fr_step_record (step);
      g_string_append_printf (json, "%s{\"kind\":\"%s\",\"before\":", i > 0 ? "," : "", known->kind->name);
      append_record (json, step->before);
      g_string_append (json, ",\"after\":");
      append_record (json, step->after);
      g_string_append_c (json, '}');
    }
  g_string_append_c (json, ']');
  return g_string_free (json, FALSE);
}

/* Every step begins with its kind; within a text of the diary's JSON a quotation mark is never bare, so nobody's note can look like a
 * step. */
static void
note_kinds (const char *steps, gint64 utc_s, gint64 *utc_inout)
{
  static const char mark[] = "{\"kind\":\"";

  for (const char *at = strstr (steps, mark); at != NULL; at = strstr (at, mark))
    {
      const char *name = at + strlen (mark), *end = strchr (name, '"');
      g_autofree char *word = end != NULL ? g_strndup (name, (gsize)(end - name)) : NULL;
      const FrKind *kind = word != NULL ? fr_kind_by_name (word) : NULL;

      /* A kind of an older version is no kind of this one. */
      if (kind != NULL)
        utc_inout[kind->id] = MAX (utc_inout[kind->id], utc_s);
      at = name;
    }
}

gboolean
fr_store_last_changes (FrStore *store, gint64 *row, gint64 *utc_inout, GError **error)
{
  g_autoptr (sqlite3_stmt) statement = NULL;
  FrDatabase *db;
  int code;

  g_return_val_if_fail (store != NULL && row != NULL && utc_inout != NULL, FALSE);

  db = fr_store_database (store);
  statement = fr_database_prepare (db, "SELECT id, utc_s, steps FROM diary WHERE id > ?1 ORDER BY id", error);
  if (statement == NULL)
    return FALSE;
  sqlite3_bind_int64 (statement, 1, *row);
  while ((code = sqlite3_step (statement)) == SQLITE_ROW)
    {
      note_kinds ((const char *)sqlite3_column_text (statement, 2), sqlite3_column_int64 (statement, 1), utc_inout);
      *row = sqlite3_column_int64 (statement, 0);
    }
  return code == SQLITE_DONE || fr_database_fail (db, code, error);
}
