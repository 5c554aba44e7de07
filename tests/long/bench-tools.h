/* What the benchmarks of large books share: records, the processor's time, and a bare SQLite beside the program. */
#pragma once

#include <glib/gstdio.h>
#include <malloc.h>
#include <sqlite3.h>
#include <string.h>
#include <time.h>

#include "domain/records/change.h"

static inline FrRecord *
bench_record (FrKindId kind, gint64 id, GRand *rand)
{
  FrRecord *record = fr_record_new (kind);

  record->id = id;
  for (guint i = 0; i < 4; i++)
    g_snprintf (record->uid + 8 * i, 9, "%08x", g_rand_int (rand));
  return record;
}

static inline void
bench_add (FrChange *change, FrRecord *record)
{
  fr_change_add (change, NULL, record);
  fr_record_free (record);
}

/* The processor's time of this program, in microseconds: a busy machine does not count. */
static inline gint64
bench_cpu_us (void)
{
  struct timespec now;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &now);
  return (gint64)now.tv_sec * G_USEC_PER_SEC + now.tv_nsec / 1000;
}

static inline double
bench_since_s (gint64 start)
{
  return (double)(bench_cpu_us () - start) / G_USEC_PER_SEC;
}

static inline double
bench_heap_mb (void)
{
  struct mallinfo2 info = mallinfo2 ();

  return (double)(info.uordblks + info.hblkhd) / 1e6;
}

static inline sqlite3 *
bench_open_bare (const char *path)
{
  sqlite3 *db = NULL;

  g_assert_cmpint (sqlite3_open_v2 (path, &db, SQLITE_OPEN_READWRITE, NULL), ==, SQLITE_OK);
  return db;
}

/* Every column of every row of a query, as SQLite gives them; how many rows. */
static inline guint
bench_read_bare (sqlite3 *db, const char *sql)
{
  sqlite3_stmt *statement = NULL;
  guint rows = 0;
  volatile gsize sum = 0;

  g_assert_cmpint (sqlite3_prepare_v2 (db, sql, -1, &statement, NULL), ==, SQLITE_OK);
  while (sqlite3_step (statement) == SQLITE_ROW)
    {
      rows++;
      for (int c = 0; c < sqlite3_column_count (statement); c++)
        switch (sqlite3_column_type (statement, c))
          {
          case SQLITE_INTEGER:
            sum += (gsize)sqlite3_column_int64 (statement, c);
            break;
          case SQLITE_FLOAT:
            sum += sqlite3_column_double (statement, c) > 0;
            break;
          case SQLITE_TEXT:
            sum += strlen ((const char *)sqlite3_column_text (statement, c));
            break;
          default:
            break;
          }
    }
  sqlite3_finalize (statement);
  return rows;
}

static inline void
bench_remove_book (const char *folder, const char *path)
{
  static const char *const beside[] = { "", "-wal", "-shm" };

  for (guint i = 0; i < G_N_ELEMENTS (beside); i++)
    {
      g_autofree char *file = g_strconcat (path, beside[i], NULL);

      g_unlink (file);
    }
  g_rmdir (folder);
}
