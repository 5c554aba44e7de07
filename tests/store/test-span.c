/* Growing kinds by stretches of time, and who refers to whom: against all rows read and picked one by one here, and
 * against what SQLite itself says of how it finds them. */
#include "book-tools.h"
#include "store/row.h"

#include <math.h>
#include <string.h>

#define DAY_S 86400

static gboolean
is_growing (FrKindId kind)
{
  return kind == FR_KIND_GATHERING || kind == FR_KIND_POUR || kind == FR_KIND_DIP || kind == FR_KIND_DAY
         || kind == FR_KIND_STATION_DAY || kind == FR_KIND_OUTLOOK;
}

static const FrField *
time_field (const FrKind *kind)
{
  return fr_kind_field (kind, kind->id == FR_KIND_GATHERING ? "gathered_utc"
                              : kind->id == FR_KIND_POUR    ? "poured_utc"
                              : kind->id == FR_KIND_DIP     ? "found_utc"
                              : kind->id == FR_KIND_OUTLOOK ? "issued_utc"
                                                            : "day");
}

/* Instants and days of some years, many alike, in no order of their numbers. */
static void
place_somewhere (FrRecord *record, GRand *rand)
{
  const FrField *field = time_field (record->kind);
  g_autofree char *day = NULL;

  if (record->kind->id == FR_KIND_OUTLOOK) /* one of a kind too */
    {
      fr_record_set_int (record, field, (17000 + (gint64)record->id * 37 % 1000) * DAY_S);
      return;
    }
  if (field->type == FR_FIELD_TIME)
    {
      fr_record_set_int (record, field, (gint64)g_rand_int_range (rand, 17000, 18000) * DAY_S);
      return;
    }
  /* One of a kind: the hundred days before and after new year, in a scattered order. */
  day = fr_date_to_iso (fr_date_from_days (19650 + (gint64)record->id * 37 % 200));
  fr_record_set_text (record, field, day);
}

static FrStore *
store_with_seasons (GRand *rand, guint per_kind)
{
  FrStore *store = tools_open (":memory:");
  g_autoptr (FrChange) book = sample_book (2);
  g_autoptr (FrChange) rest = fr_change_new ("import-book", NULL);

  tools_apply (store, book);
  for (guint k = 0; k < FR_N_KINDS; k++)
    for (guint i = 3; i <= per_kind && is_growing (k); i++)
      {
        g_autoptr (FrRecord) record
            = g_rand_boolean (rand) ? sample_full (k, i) : sample_sparse (k, i);

        place_somewhere (record, rand);
        fr_change_add (rest, NULL, record);
      }
  tools_apply (store, rest);
  return store;
}

/* Days by the letters of the date, instants as they are. */
static gboolean
lies_in (const FrRecord *record, const FrRecordSpan *span, const char *first, const char *last)
{
  const FrField *field = time_field (record->kind);

  if (field->type == FR_FIELD_TIME)
    return fr_record_int (record, field) >= span->from_utc && fr_record_int (record, field) < span->to_utc;
  return strcmp (fr_record_text (record, field), first) >= 0 && strcmp (fr_record_text (record, field), last) <= 0;
}

static void
compare_span (FrStore *store, FrKindId kind, const FrRecordSpan *span)
{
  g_autofree char *first = g_strdup_printf ("%04d-%02d-%02d", span->first.year, span->first.month, span->first.day);
  g_autofree char *last = g_strdup_printf ("%04d-%02d-%02d", span->last.year, span->last.month, span->last.day);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) all = fr_store_load (store, kind, &error);
  g_autoptr (GPtrArray) loaded = NULL;
  guint n = 0;

  g_assert_no_error (error);
  loaded = fr_store_load_span (store, kind, span, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < all->len; i++)
    {
      if (!lies_in (all->pdata[i], span, first, last))
        continue;
      g_assert_cmpuint (n, <, loaded->len);
      g_assert_true (fr_record_equal (loaded->pdata[n++], all->pdata[i]));
    }
  g_assert_cmpuint (loaded->len, ==, n);
}

static void
test_spans (gconstpointer data)
{
  FrKindId kind = GPOINTER_TO_INT (data);
  GRand *rand = g_rand_new_with_seed (11);
  g_autoptr (FrStore) store = store_with_seasons (rand, 150);
  const FrRecordSpan all = { -62135596800, 253402300800, { 1, 1, 1 }, { 9999, 12, 31 } };
  const FrRecordSpan nothing = { 0, 0, { 2023, 12, 2 }, { 2023, 12, 1 } };

  compare_span (store, kind, &all);
  compare_span (store, kind, &nothing);
  for (guint i = 0; i < 200; i++)
    {
      gint64 from = g_rand_int_range (rand, 16990, 18010), to = from + g_rand_int_range (rand, 0, 300);
      gint64 first = g_rand_int_range (rand, 19640, 19860), last = first + g_rand_int_range (rand, 0, 100);
      FrRecordSpan span = { from * DAY_S, to * DAY_S, fr_date_from_days (first), fr_date_from_days (last) };

      compare_span (store, kind, &span);
    }
  g_rand_free (rand);
}

typedef struct
{
  GPtrArray *expected; /* FrRecord, in order of time */
  const char *const *fields;
  guint n;
} Each;

static void
compare_each (const FrRecord *record, gpointer user_data)
{
  Each *each = user_data;
  const FrRecord *expected;

  g_assert_cmpuint (each->n, <, each->expected->len);
  expected = each->expected->pdata[each->n++];
  g_assert_cmpint (record->id, ==, expected->id);
  g_assert_cmpint (record->archived, ==, expected->archived);
  g_assert_cmpstr (record->uid, ==, "");
  for (guint i = 0; i < record->kind->n_fields; i++)
    {
      const FrField *field = &record->kind->fields[i];
      gboolean wanted = g_strv_contains (each->fields, field->name);
      double value = field->type == FR_FIELD_AMOUNT ? fr_record_amount ((FrRecord *)record, field)->value : 0;

      if (field->type == FR_FIELD_AMOUNT)
        {
          double other = wanted ? fr_record_amount ((FrRecord *)expected, field)->value : NAN;

          g_assert_true (value == other || (isnan (value) && isnan (other)));
          g_assert_null (fr_record_amount ((FrRecord *)record, field)->typed);
        }
      else if (wanted && field->type >= FR_FIELD_BOOL && field->type != FR_FIELD_DATE)
        g_assert_cmpint (fr_record_int (record, field), ==, fr_record_int (expected, field));
      else if (wanted)
        g_assert_cmpstr (fr_record_text (record, field), ==, fr_record_text (expected, field));
    }
}

static gint
by_time (gconstpointer a, gconstpointer b)
{
  const FrRecord *one = *(const FrRecord *const *)a, *two = *(const FrRecord *const *)b;
  const FrField *field = time_field (one->kind);
  gint64 first = 0, second = 0;
  gint days = 0;

  if (field->type == FR_FIELD_TIME)
    {
      first = fr_record_int (one, field);
      second = fr_record_int (two, field);
    }
  else
    days = strcmp (fr_record_text (one, field), fr_record_text (two, field));
  if (first != second)
    return first < second ? -1 : 1;
  return days != 0 ? days : one->id < two->id ? -1 : one->id > two->id;
}

/* One after the other, with some fields alone: the same as all of them loaded. */
static void
test_each (gconstpointer data)
{
  FrKindId kind = GPOINTER_TO_INT (data);
  GRand *rand = g_rand_new_with_seed (13);
  g_autoptr (FrStore) store = store_with_seasons (rand, 150);

  for (guint round = 0; round < 20; round++)
    {
      gint64 from = g_rand_int_range (rand, 16990, 17500), first = g_rand_int_range (rand, 19640, 19700);
      FrRecordSpan span
          = { from * DAY_S, (from + 500) * DAY_S, fr_date_from_days (first), fr_date_from_days (first + 90) };
      g_autoptr (GError) error = NULL;
      g_autoptr (GPtrArray) loaded = fr_store_load_span (store, kind, &span, &error);
      g_autoptr (GPtrArray) names = g_ptr_array_new ();
      Each each = { .expected = loaded };

      for (guint i = 0; i < fr_kind (kind)->n_fields; i++)
        if (g_rand_boolean (rand))
          g_ptr_array_add (names, (gpointer)fr_kind (kind)->fields[i].name);
      g_ptr_array_add (names, NULL);
      each.fields = (const char *const *)names->pdata;
      g_ptr_array_sort (loaded, by_time);
      g_assert_true (fr_store_each (store, kind, &span, each.fields, compare_each, &each, &error));
      g_assert_no_error (error);
      g_assert_cmpuint (each.n, ==, loaded->len);
    }
  g_rand_free (rand);
}

/* SQLite's own account of how a query is answered. */
static char *
plan_of (FrStore *store, const char *sql)
{
  g_autofree char *explain = g_strconcat ("EXPLAIN QUERY PLAN ", sql, NULL);
  g_autoptr (sqlite3_stmt) statement = fr_database_prepare (fr_store_database (store), explain, NULL);
  GString *plan = g_string_new (NULL);

  while (sqlite3_step (statement) == SQLITE_ROW)
    g_string_append_printf (plan, "%s\n", (const char *)sqlite3_column_text (statement, 3));
  return g_string_free (plan, FALSE);
}

static void
assert_by_index (FrStore *store, const char *sql)
{
  g_autofree char *plan = plan_of (store, sql);

  g_test_message ("%s: %s", sql, plan);
  g_assert_nonnull (strstr (plan, "SEARCH "));
  g_assert_nonnull (strstr (plan, " INDEX "));
  g_assert_null (strstr (plan, "SCAN "));
  g_assert_null (strstr (plan, "TEMP B-TREE"));
}

/* No question about one season or one record walks through all that were ever kept. */
static void
test_by_index (gconstpointer data)
{
  const FrKind *kind = fr_kind (GPOINTER_TO_INT (data));
  g_autoptr (FrStore) store = tools_open (":memory:");
  const char *const fields[] = { kind->fields[1].name, NULL };
  g_autofree char *span = fr_row_select_sql (kind, FR_SELECT_SPAN);
  g_autofree char *part = fr_row_part_sql (kind, fields);

  assert_by_index (store, span);
  assert_by_index (store, part);
  for (guint i = 0; i < kind->n_fields; i++)
    {
      g_autofree char *sql = g_strdup_printf ("SELECT min (id) FROM \"%s\" WHERE \"%s\" = ?1", kind->name,
                                              kind->fields[i].name);

      if (kind->fields[i].type == FR_FIELD_REF)
        assert_by_index (store, sql);
    }
}

static void
test_find (void)
{
  GRand *rand = g_rand_new_with_seed (3);
  g_autoptr (FrStore) store = store_with_seasons (rand, 20);

  for (guint k = 0; k < FR_N_KINDS; k++)
    for (gint64 id = 0; id < 25; id++)
      {
        g_autoptr (GError) error = NULL;
        g_autoptr (FrRecord) one = NULL;
        g_autoptr (FrRecord) same = tools_find (store, k, id);

        g_assert_true (fr_store_find (store, k, id, &one, &error));
        g_assert_no_error (error);
        g_assert_true (fr_record_equal (one, same));
      }
  g_rand_free (rand);
}

/* Against every field of every record. */
static void
test_refers (void)
{
  GRand *rand = g_rand_new_with_seed (5);
  g_autoptr (FrStore) store = store_with_seasons (rand, 12);
  g_autoptr (GPtrArray) all = NULL;
  guint n_used = 0;

  /* Some of what is referred to is so from one field of one record alone. */
  g_assert_true (tools_force (store, "UPDATE gathering SET tree = NULL, tap = NULL, bucket = NULL, container = NULL,"
                                     " scope = 'bush', measured_by = 'volume', volume_l = 1 WHERE id % 3 > 0"));
  g_assert_true (tools_force (store, "UPDATE gathering SET bucket = 2 WHERE id = 7"));
  all = tools_snapshot (store);
  for (guint by = 0; by < FR_N_KINDS; by++)
    for (guint to = 0; to < FR_N_KINDS; to++)
      for (gint64 id = 1; id <= 4; id++)
        {
          g_autoptr (GError) error = NULL;
          gboolean expected = FALSE, refers = TRUE;

          for (guint i = 0; i < all->len; i++)
            {
              const FrRecord *record = all->pdata[i];

              for (guint f = 0; f < record->kind->n_fields && record->kind->id == by; f++)
                {
                  const FrField *field = &record->kind->fields[f];

                  expected |= field->type == FR_FIELD_REF && field->ref_kind == to
                              && fr_record_int (record, field) == id;
                }
            }
          g_assert_true (fr_store_refers (store, by, to, id, &refers, &error));
          g_assert_no_error (error);
          g_assert_cmpint (refers, ==, expected);
          n_used += refers;
        }
  g_assert_cmpuint (n_used, >, 10);
  g_rand_free (rand);
}

/* What cannot stand in a book is told of where it lies, and hides nothing of another season. */
static void
test_damaged (void)
{
  GRand *rand = g_rand_new_with_seed (7);
  g_autoptr (FrStore) store = store_with_seasons (rand, 10);
  const FrRecordSpan with = { 1600000000, 1700000000, { 2022, 1, 1 }, { 2022, 12, 31 } };
  const FrRecordSpan without = { 1400000000, 1600000000, { 2023, 1, 1 }, { 2023, 12, 31 } };
  const char *const fields[] = { "scope", "volume_l", NULL };
  g_autoptr (GPtrArray) expected = NULL;
  Each each = { .fields = fields };
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) loaded = NULL;

  g_assert_true (tools_force (store, "UPDATE gathering SET gathered_utc = 1650000000, volume_l = -3 WHERE id = 5"));
  g_assert_null (fr_store_load_span (store, FR_KIND_GATHERING, &with, &error));
  tools_assert_sentence (error, FR_STORE_ERROR_NOT_A_BOOK);
  g_clear_error (&error);
  each.expected = expected = g_ptr_array_new ();
  g_assert_false (fr_store_each (store, FR_KIND_GATHERING, &with, fields, compare_each, &each, &error));
  tools_assert_sentence (error, FR_STORE_ERROR_NOT_A_BOOK);
  g_clear_error (&error);
  loaded = fr_store_load_span (store, FR_KIND_GATHERING, &without, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (loaded->len, >, 0);
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint k = 0; k < FR_N_KINDS; k++)
    if (is_growing (k))
      {
        g_autofree char *spans = g_strconcat ("/span/rows/", fr_kind (k)->name, NULL);
        g_autofree char *each = g_strconcat ("/span/each/", fr_kind (k)->name, NULL);
        g_autofree char *by_index = g_strconcat ("/span/by-index/", fr_kind (k)->name, NULL);

        g_test_add_data_func (spans, GINT_TO_POINTER (k), test_spans);
        g_test_add_data_func (each, GINT_TO_POINTER (k), test_each);
        g_test_add_data_func (by_index, GINT_TO_POINTER (k), test_by_index);
      }
  g_test_add_func ("/span/find", test_find);
  g_test_add_func ("/span/refers", test_refers);
  g_test_add_func ("/span/damaged", test_damaged);
  return g_test_run ();
}
