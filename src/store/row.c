/* Binding driven by the description of the kind, so that a new kind needs a table but no code here. SQLite
 * itself keeps a NAN as NULL; it is said here all the same, because unknown is our convention and not
 * SQLite's. */
#include "store/row.h"

#include <math.h>

char *
fr_row_columns (const FrKind *kind)
{
  GString *sql = g_string_new ("\"id\", \"uid\", \"archived\"");
  for (guint i = 0; i < kind->n_fields; i++)
    {
      g_string_append_printf (sql, ", \"%s\"", kind->fields[i].name);
      if (kind->fields[i].type == FR_FIELD_AMOUNT)
        g_string_append_printf (sql, ", \"%s_typed\"", kind->fields[i].name);
    }
  return g_string_free (sql, FALSE);
}

char *
fr_row_select_sql (const FrKind *kind, FrSelect which)
{
  g_autofree char *columns = fr_row_columns (kind);
  g_autofree char *span = which == FR_SELECT_SPAN
                              ? g_strdup_printf ("WHERE \"%s\" BETWEEN ?1 AND ?2", kind->time_field)
                              : NULL;
  return g_strdup_printf ("SELECT %s FROM \"%s\" %s", columns, kind->name,
                          span != NULL             ? span
                          : which == FR_SELECT_ONE ? "WHERE id = ?1"
                                                   : "ORDER BY id");
}

/* As many ?N as there are columns. */
static char *
row_marks (const char *columns)
{
  GString *marks = g_string_new ("?1");
  int n = 1;
  for (const char *at = columns; *at != '\0'; at++)
    if (*at == ',')
      g_string_append_printf (marks, ", ?%d", ++n);
  return g_string_free (marks, FALSE);
}

char *
fr_row_insert_sql (const FrKind *kind)
{
  g_autofree char *columns = fr_row_columns (kind);
  g_autofree char *marks = row_marks (columns);
  return g_strdup_printf ("INSERT INTO \"%s\" (%s) VALUES (%s)", kind->name, columns, marks);
}

char *
fr_row_update_sql (const FrKind *kind)
{
  g_autofree char *columns = fr_row_columns (kind);
  g_autofree char *marks = row_marks (columns);
  return g_strdup_printf ("UPDATE \"%s\" SET (%s) = (%s) WHERE id = ?1", kind->name, columns, marks);
}

char *
fr_row_remove_sql (const FrKind *kind)
{
  return g_strdup_printf ("DELETE FROM \"%s\" WHERE id = ?1", kind->name);
}

static int
bind_text (sqlite3_stmt *statement, int at, const char *text)
{
  return text != NULL ? sqlite3_bind_text (statement, at, text, -1, SQLITE_STATIC)
                      : sqlite3_bind_null (statement, at);
}

int
fr_row_bind (sqlite3_stmt *statement, const FrRecord *record)
{
  int at = 1;
  int code = sqlite3_bind_int64 (statement, at++, record->id);
  if (code == SQLITE_OK)
    code = bind_text (statement, at++, record->uid);
  if (code == SQLITE_OK)
    code = sqlite3_bind_int (statement, at++, record->archived ? 1 : 0);

  for (guint i = 0; i < record->kind->n_fields && code == SQLITE_OK; i++)
    {
      const FrField *field = &record->kind->fields[i];
      switch (field->type)
        {
        case FR_FIELD_TEXT:
        case FR_FIELD_CODE:
        case FR_FIELD_DATE:
          code = bind_text (statement, at++, fr_record_text (record, field));
          break;
        case FR_FIELD_AMOUNT:
          {
            const FrAmount *amount = fr_record_amount ((FrRecord *)record, field);
            code = isnan (amount->value) ? sqlite3_bind_null (statement, at++)
                                         : sqlite3_bind_double (statement, at++, amount->value);
            if (code == SQLITE_OK)
              code = bind_text (statement, at++, amount->typed);
            break;
          }
        case FR_FIELD_BOOL:
          code = sqlite3_bind_int64 (statement, at++, fr_record_int (record, field));
          break;
        case FR_FIELD_TIME:
        case FR_FIELD_REF:
          {
            gint64 unknown = field->type == FR_FIELD_TIME ? G_MININT64 : 0;
            gint64 value = fr_record_int (record, field);
            code = value == unknown ? sqlite3_bind_null (statement, at++)
                                    : sqlite3_bind_int64 (statement, at++, value);
            break;
          }
        }
    }
  return code;
}

/* Column @at and, for an amount, how it was typed in column @typed; −1 for not read. */
static void
read_field (sqlite3_stmt *statement, int at, int typed, FrRecord *record, const FrField *field)
{
  gboolean unknown = sqlite3_column_type (statement, at) == SQLITE_NULL;

  switch (field->type)
    {
    case FR_FIELD_TEXT:
    case FR_FIELD_CODE:
    case FR_FIELD_DATE:
      fr_record_set_text (record, field, (const char *)sqlite3_column_text (statement, at));
      break;
    case FR_FIELD_AMOUNT:
      fr_record_set_amount (record, field, unknown ? NAN : sqlite3_column_double (statement, at),
                            typed >= 0 ? (const char *)sqlite3_column_text (statement, typed) : NULL);
      break;
    case FR_FIELD_BOOL:
    case FR_FIELD_REF:
      fr_record_set_int (record, field, sqlite3_column_int64 (statement, at)); /* 0 for NULL */
      break;
    case FR_FIELD_TIME:
      fr_record_set_int (record, field, unknown ? G_MININT64 : sqlite3_column_int64 (statement, at));
      break;
    }
}

FrRecord *
fr_row_read (sqlite3_stmt *statement, const FrKind *kind)
{
  FrRecord *record = fr_record_new (kind->id);
  int at = 0;

  record->id = sqlite3_column_int64 (statement, at++);
  /* A damaged file may hold a NULL where the table forbids it. */
  const char *uid = (const char *)sqlite3_column_text (statement, at++);
  g_strlcpy (record->uid, uid != NULL ? uid : "", sizeof record->uid);
  record->archived = sqlite3_column_int (statement, at++) != 0;
  for (guint i = 0; i < kind->n_fields; i++)
    {
      const FrField *field = &kind->fields[i];
      gboolean two = field->type == FR_FIELD_AMOUNT;

      read_field (statement, at, two ? at + 1 : -1, record, field);
      at += two ? 2 : 1;
    }
  return record;
}

char *
fr_row_part_sql (const FrKind *kind, const char *const *fields)
{
  GString *sql = g_string_new ("SELECT \"id\", \"archived\"");

  for (guint i = 0; fields[i] != NULL; i++)
    g_string_append_printf (sql, ", \"%s\"", fields[i]);
  g_string_append_printf (sql, " FROM \"%s\" WHERE \"%s\" BETWEEN ?1 AND ?2 ORDER BY \"%s\", \"id\"", kind->name,
                          kind->time_field, kind->time_field);
  return g_string_free (sql, FALSE);
}

void
fr_row_read_part (sqlite3_stmt *statement, const FrField *const *fields, FrRecord *record)
{
  record->id = sqlite3_column_int64 (statement, 0);
  record->archived = sqlite3_column_int (statement, 1) != 0;
  for (int i = 0; fields[i] != NULL; i++)
    read_field (statement, i + 2, -1, record, fields[i]);
}
