/* The store's promises of store.h: what goes in comes out, a change is kept whole or not at all, an undo
 * gives the identical book, and the diary tells what was done. */
#include "book-tools.h"
#include "domain/records/kinds.h"

#include <math.h>
#include <string.h>

static void
test_round_trip (gconstpointer data)
{
  g_autofree char *folder = tools_new_folder ();
  g_autofree char *path
      = data != NULL ? g_strdup (data) : g_build_filename (folder, "new", "folders", "book.frostrun", NULL);
  g_autoptr (FrStore) store = tools_open (path);
  g_autoptr (FrChange) book = sample_book (2);
  tools_apply (store, book);
  if (data == NULL)
    {
      fr_store_close (store);
      store = tools_open (path);
    }

  g_assert_cmpuint (book->steps->len, ==, 2 * FR_N_KINDS - 5);
  for (guint i = 0; i < book->steps->len; i++)
    {
      const FrStep *step = g_ptr_array_index (book->steps, i);
      g_autoptr (FrRecord) stored = tools_find (store, step->after->kind->id, step->after->id);
      g_test_message ("%s %d", step->after->kind->name, (int)step->after->id);
      g_assert_true (fr_record_equal (stored, step->after));
    }
  fr_store_close (g_steal_pointer (&store));
  tools_remove_folder (folder);
}

/* Doubles come back to the last bit, texts to the last byte, and an unknown may have been typed. */
static void
test_odd_values (void)
{
  static const double values[] = { 0.1, 1.0 / 3.0, 5e-324, 49999.999999999993, 0.0, 60.000000000000007 };
  static const char *const texts[] = { "½ – “quoted” 'n' \\", "line\nand\ttab", "水 💧", "%s %d", "NULL" };
  g_autoptr (FrStore) store = tools_open (":memory:");
  g_autoptr (FrRecord) record = sample_full (FR_KIND_CIRCUIT, 1);
  FrCircuit *circuit = (FrCircuit *)record;
  g_autoptr (FrRecord) before = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (values) + G_N_ELEMENTS (texts); i++)
    {
      if (i < G_N_ELEMENTS (values))
        fr_amount_set (&circuit->other_load_w, values[i], NULL);
      else
        {
          const char *text = texts[i - G_N_ELEMENTS (values)];
          fr_amount_set (&circuit->other_load_w, NAN, text);
          fr_record_set_text (record, fr_kind_field (record->kind, "name"), text);
        }
      g_autoptr (FrChange) change = fr_change_new ("edit", NULL);
      fr_change_add (change, before, record);
      tools_apply (store, change);
      fr_record_free (before);
      before = tools_find (store, FR_KIND_CIRCUIT, 1);
      g_assert_true (fr_record_equal (before, record));
    }
  g_assert_cmpint (tools_number (store, "SELECT other_load_w IS NULL FROM circuit"), ==, 1);
}

static void
test_undo_is_identical (void)
{
  g_autoptr (FrStore) store = tools_open (":memory:");
  g_autoptr (GPtrArray) states = g_ptr_array_new_with_free_func ((GDestroyNotify)g_ptr_array_unref);
  g_autoptr (GPtrArray) changes = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_change_free);

  g_ptr_array_add (states, tools_snapshot (store));
  g_ptr_array_add (changes, sample_book (3));
  tools_apply (store, g_ptr_array_index (changes, 0));
  g_ptr_array_add (states, tools_snapshot (store));

  /* An edit, an archiving and a deletion in one. */
  FrChange *edit = tools_edit (store, FR_KIND_COOKER, 2, "power_w", 950.5);
  g_autoptr (FrRecord) vessel = tools_find (store, FR_KIND_VESSEL, 1);
  g_autoptr (FrRecord) archived = fr_record_copy (vessel);
  g_autoptr (FrRecord) night = tools_find (store, FR_KIND_NIGHT, 3);
  archived->archived = TRUE;
  fr_change_add (edit, vessel, archived);
  fr_change_add (edit, night, NULL);
  g_assert_cmpuint (edit->steps->len, ==, 3);
  tools_apply (store, edit);
  g_ptr_array_add (changes, edit);
  g_ptr_array_add (states, tools_snapshot (store));

  for (guint i = changes->len; i > 0; i--)
    {
      g_autoptr (FrChange) inverse = fr_change_invert (g_ptr_array_index (changes, i - 1));
      tools_apply (store, inverse);
      g_autoptr (GPtrArray) now = tools_snapshot (store);
      tools_assert_same (now, g_ptr_array_index (states, i - 1));
    }
  for (guint i = 0; i < changes->len; i++)
    {
      tools_apply (store, g_ptr_array_index (changes, i));
      g_autoptr (GPtrArray) now = tools_snapshot (store);
      tools_assert_same (now, g_ptr_array_index (states, i + 1));
    }
  g_assert_cmpint (tools_number (store, "SELECT count (*) FROM diary"), ==, 6);
}

static void
test_conflict_refused (void)
{
  g_autoptr (FrStore) store = tools_open (":memory:");
  g_autoptr (FrChange) book = sample_book (1);
  tools_apply (store, book);
  g_autoptr (FrChange) first = tools_edit (store, FR_KIND_COOKER, 1, "power_w", 1000);
  g_autoptr (FrChange) second = tools_edit (store, FR_KIND_COOKER, 1, "power_w", 1200);
  tools_apply (store, first);

  /* The image before is stale; the record to add is there; the one to edit or delete is gone. */
  tools_refuse (store, second, FR_STORE_ERROR_CONFLICT);
  tools_refuse (store, book, FR_STORE_ERROR_CONFLICT);
  g_autoptr (FrRecord) gone = sample_full (FR_KIND_FUEL, 9);
  g_autoptr (FrRecord) edited = fr_record_copy (gone);
  edited->archived = TRUE;
  g_autoptr (FrChange) edit = fr_change_new ("edit", NULL);
  fr_change_add (edit, gone, edited);
  tools_refuse (store, edit, FR_STORE_ERROR_CONFLICT);
  g_autoptr (FrChange) remove = fr_change_new ("delete", NULL);
  fr_change_add (remove, gone, NULL);
  tools_refuse (store, remove, FR_STORE_ERROR_CONFLICT);

  /* One stale step of many spoils the whole. */
  g_autoptr (FrChange) mixed = tools_edit (store, FR_KIND_CIRCUIT, 1, "breaker_a", 15);
  fr_change_add (mixed, gone, NULL);
  tools_refuse (store, mixed, FR_STORE_ERROR_CONFLICT);
}

static void
refuse_edit (FrStore *store, FrKindId kind, const char *field, double value)
{
  g_autoptr (FrChange) edit = tools_edit (store, kind, 1, field, value);
  tools_refuse (store, edit, FR_STORE_ERROR_REFUSED);
}

static void
refuse_addition (FrStore *store, const FrRecord *record)
{
  g_autoptr (FrChange) add = fr_change_new ("add", NULL);
  fr_change_add (add, NULL, record);
  tools_refuse (store, add, FR_STORE_ERROR_REFUSED);
}

static void
test_bad_records_refused (void)
{
  g_autoptr (FrStore) store = tools_open (":memory:");
  g_autoptr (FrChange) book = sample_book (1);
  tools_apply (store, book);

  refuse_edit (store, FR_KIND_COOKER, "power_w", 20001);
  refuse_edit (store, FR_KIND_COOKER, "power_w", 49);
  refuse_edit (store, FR_KIND_COOKER, "power_w", INFINITY);
  refuse_edit (store, FR_KIND_COOKER, "power_w", NAN);
  refuse_edit (store, FR_KIND_VESSEL, "cutoff_l", 6);

  g_autoptr (FrRecord) no_uid = sample_full (FR_KIND_FUEL, 2);
  no_uid->uid[31] = '\0';
  refuse_addition (store, no_uid);
  g_autoptr (FrRecord) no_id = sample_full (FR_KIND_FUEL, 0);
  refuse_addition (store, no_id);
  g_autoptr (FrRecord) first = sample_full (FR_KIND_FUEL, 1);
  g_autoptr (FrRecord) same_uid = sample_full (FR_KIND_FUEL, 2);
  memcpy (same_uid->uid, first->uid, sizeof first->uid);
  refuse_addition (store, same_uid);
  g_autoptr (FrRecord) household = sample_full (FR_KIND_HOUSEHOLD, 2);
  refuse_addition (store, household);
}

static void
test_references (void)
{
  g_autoptr (FrStore) store = tools_open (":memory:");
  g_autoptr (FrChange) book = sample_book (1);
  guint n = 0;
  tools_apply (store, book);

  for (int kind = 0; kind < FR_N_KINDS; kind++)
    for (guint i = 0; i < fr_kind (kind)->n_fields; i++)
      {
        const FrField *field = &fr_kind (kind)->fields[i];
        if (field->type != FR_FIELD_REF)
          continue;
        /* None leads to nowhere, and what it leads to stays. */
        g_autoptr (FrRecord) before = sample_full (kind, 1);
        g_autoptr (FrRecord) after = fr_record_copy (before);
        fr_record_set_int (after, field, 77);
        g_autoptr (FrChange) nowhere = fr_change_new ("edit", NULL);
        fr_change_add (nowhere, before, after);
        tools_refuse (store, nowhere, FR_STORE_ERROR_REFUSED);
        g_autoptr (FrRecord) target = sample_full (field->ref_kind, 1);
        g_autoptr (FrChange) remove = fr_change_new ("delete", NULL);
        fr_change_add (remove, target, NULL);
        tools_refuse (store, remove, FR_STORE_ERROR_REFUSED);
        n++;
      }
  g_assert_cmpuint (n, ==, 20);

  /* All at once may go, what is referred to first, and come back. */
  g_autoptr (FrChange) wrong_order = fr_change_new ("delete", NULL);
  for (guint i = 0; i < book->steps->len; i++)
    fr_change_add (wrong_order, ((FrStep *)g_ptr_array_index (book->steps, i))->after, NULL);
  tools_apply (store, wrong_order);
  g_autoptr (FrChange) back = fr_change_invert (wrong_order);
  tools_apply (store, back);
  g_autoptr (FrChange) inverse = fr_change_invert (book);
  tools_apply (store, inverse);
  g_autoptr (GPtrArray) nothing = tools_snapshot (store);
  g_assert_cmpuint (nothing->len, ==, 0);
}

/* A deleted record's identity is free again within the same change. */
static void
test_replace_in_one_change (void)
{
  g_autoptr (FrStore) store = tools_open (":memory:");
  g_autoptr (FrChange) book = sample_book (1);
  tools_apply (store, book);
  g_autoptr (FrRecord) old = sample_full (FR_KIND_FUEL, 1);
  g_autoptr (FrRecord) moved = fr_record_copy (old);
  moved->id = 2;
  g_autoptr (FrChange) change = fr_change_new ("edit", NULL);
  fr_change_add (change, NULL, moved);
  fr_change_add (change, old, NULL);
  tools_apply (store, change);
  g_autoptr (FrRecord) found = tools_find (store, FR_KIND_FUEL, 2);
  g_assert_true (fr_record_equal (found, moved));
}

static void
test_next_id (void)
{
  g_autoptr (FrStore) store = tools_open (":memory:");
  g_autoptr (GError) error = NULL;
  g_assert_cmpint (fr_store_next_id (store, FR_KIND_FUEL, &error), ==, 1);
  g_autoptr (FrRecord) record = sample_full (FR_KIND_FUEL, 5);
  g_autoptr (FrChange) add = fr_change_new ("add", NULL);
  fr_change_add (add, NULL, record);
  tools_apply (store, add);
  g_assert_cmpint (fr_store_next_id (store, FR_KIND_FUEL, &error), ==, 6);
  /* Ids are not used again: an undo of the deletion must find its place free. */
  g_autoptr (FrChange) remove = fr_change_invert (add);
  tools_apply (store, remove);
  g_assert_cmpint (fr_store_next_id (store, FR_KIND_FUEL, &error), ==, 6);
  g_assert_cmpint (fr_store_next_id (store, FR_KIND_VESSEL, &error), ==, 1);
  g_assert_no_error (error);
}

static void
test_empty_change (void)
{
  g_autoptr (FrStore) store = tools_open (":memory:");
  g_autoptr (FrChange) nothing = fr_change_new ("edit", NULL);
  tools_apply (store, nothing);
  g_assert_cmpint (tools_number (store, "SELECT count (*) FROM diary"), ==, 0);
}

static void
test_diary (void)
{
  static const struct
  {
    FrOrigin origin;
    const char *code;
  } origins[] = { { FR_ORIGIN_DEMO, "demo" },
                  { FR_ORIGIN_IMPORT, "import" },
                  { FR_ORIGIN_CLI, "cli" },
                  { FR_ORIGIN_WINDOW, "window" } };
  g_autoptr (FrStore) store = tools_open (":memory:");
  g_autoptr (FrChange) book = sample_book (1);
  tools_apply (store, book);
  for (guint i = 0; i < G_N_ELEMENTS (origins); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (FrChange) edit = tools_edit (store, FR_KIND_COOKER, 1, "power_w", 1000 + i);
      g_assert_true (fr_store_apply (store, edit, origins[i].origin, NOW_UTC + i, &error));
      g_assert_no_error (error);
      g_autoptr (GPtrArray) rows = fr_store_diary (store, 1, &error);
      g_assert_cmpuint (rows->len, ==, 1);
      const FrDiaryRow *row = g_ptr_array_index (rows, 0);
      g_assert_cmpint (row->utc_s, ==, NOW_UTC + i);
      g_assert_cmpstr (row->label, ==, "edit");
      g_assert_cmpstr (row->subject, ==, "Hot plate");
      g_assert_cmpstr (row->origin, ==, origins[i].code);
    }
  g_autoptr (GPtrArray) rows = fr_store_diary (store, 100, NULL);
  g_assert_cmpuint (rows->len, ==, 5);
  g_assert_null (((FrDiaryRow *)g_ptr_array_index (rows, 4))->subject);
}

/* Read back with SQLite's own JSON functions, every field of the image after is what the table holds; the
 * table was checked against the record above. */
static void
test_diary_images (gconstpointer data)
{
  g_autoptr (FrStore) store = tools_open (":memory:");
  g_autoptr (FrChange) book = sample_book (2);
  tools_apply (store, book);
  const FrKind *kind = fr_kind (GPOINTER_TO_INT (data));

  for (guint i = 0; i < book->steps->len; i++)
    {
      const FrStep *step = g_ptr_array_index (book->steps, i);
      if (step->after->kind != kind)
        continue;
      for (guint j = 0; j < kind->n_fields; j++)
        {
          const FrField *field = &kind->fields[j];
          const char *typed = field->type == FR_FIELD_AMOUNT ? "_typed" : "";
          g_autofree char *sql = g_strdup_printf (
              "SELECT s ->> '$.after.%s' IS t.\"%s\""
              " AND s ->> '$.after.%s%s' IS t.\"%s%s\" AND s ->> '$.kind' = '%s' AND s ->> '$.before' IS NULL"
              " AND s ->> '$.after.id' = t.id AND s ->> '$.after.uid' = t.uid"
              " AND s ->> '$.after.archived' = t.archived"
              " FROM (SELECT steps -> %u AS s FROM diary), \"%s\" t WHERE t.id = %d",
              field->name, field->name, field->name, typed, field->name, typed, kind->name, i, kind->name,
              (int)step->after->id);
          g_test_message ("%s.%s", kind->name, field->name);
          g_assert_cmpint (tools_number (store, sql), ==, 1);
        }
    }
}

static void
test_two_connections (void)
{
  g_autofree char *folder = tools_new_folder ();
  g_autofree char *path = g_build_filename (folder, "book.frostrun", NULL);
  g_autoptr (FrStore) one = tools_open (path);
  g_autoptr (FrStore) two = tools_open (path);
  g_autoptr (FrChange) book = sample_book (2);

  gint64 before = fr_store_data_version (two);
  g_assert_cmpint (fr_store_data_version (two), ==, before);
  tools_apply (one, book);
  g_assert_cmpint (fr_store_data_version (two), !=, before);
  gint64 own = fr_store_data_version (one);
  g_autoptr (GPtrArray) seen_one = tools_snapshot (one);
  g_autoptr (GPtrArray) seen_two = tools_snapshot (two);
  tools_assert_same (seen_one, seen_two);

  g_autoptr (FrChange) edit = tools_edit (one, FR_KIND_COOKER, 1, "power_w", 1000);
  g_autoptr (FrChange) late = tools_edit (one, FR_KIND_COOKER, 1, "power_w", 1100);
  tools_apply (one, edit);
  g_assert_cmpint (fr_store_data_version (one), ==, own);
  tools_refuse (two, late, FR_STORE_ERROR_CONFLICT);
  g_autoptr (FrChange) undo = fr_change_invert (edit);
  tools_apply (two, undo);
  g_assert_cmpint (fr_store_data_version (one), !=, own);
  g_autoptr (GPtrArray) again = tools_snapshot (one);
  tools_assert_same (again, seen_one);

  fr_store_close (g_steal_pointer (&one));
  fr_store_close (g_steal_pointer (&two));
  tools_remove_folder (folder);
}

/* When each kind last changed: by adding, editing and taking back, and not by a note that looks like a step. */
static void
test_last_changes (void)
{
  g_autoptr (FrStore) store = tools_open (":memory:");
  g_autoptr (FrRecord) circuit = sample_full (FR_KIND_CIRCUIT, 1), fuel = sample_full (FR_KIND_FUEL, 1);
  g_autoptr (FrChange) add = fr_change_new ("add", NULL), more = fr_change_new ("add", NULL), back = NULL;
  g_autoptr (GError) error = NULL;
  gint64 utc[FR_N_KINDS], row = 0;

  for (guint kind = 0; kind < FR_N_KINDS; kind++)
    utc[kind] = G_MININT64;
  g_assert_true (fr_store_last_changes (store, &row, utc, &error));
  g_assert_cmpint (row, ==, 0);
  fr_record_set_text (circuit, fr_kind_field (circuit->kind, "name"), "{\"kind\":\"tree\",\"before\":null");
  fr_change_add (add, NULL, circuit);
  g_assert_true (fr_store_apply (store, add, FR_ORIGIN_CLI, 1000, &error));
  g_assert_true (fr_store_last_changes (store, &row, utc, &error));
  for (guint kind = 0; kind < FR_N_KINDS; kind++)
    g_assert_cmpint (utc[kind], ==, kind == FR_KIND_CIRCUIT ? 1000 : G_MININT64);
  fr_change_add (more, NULL, fuel);
  g_assert_true (fr_store_apply (store, more, FR_ORIGIN_CLI, 2000, &error));
  back = fr_change_invert (add);
  g_assert_true (fr_store_apply (store, back, FR_ORIGIN_CLI, 3000, &error));
  g_assert_true (fr_store_last_changes (store, &row, utc, &error));
  g_assert_cmpint (utc[FR_KIND_FUEL], ==, 2000);
  g_assert_cmpint (utc[FR_KIND_CIRCUIT], ==, 3000);
  g_assert_cmpint (utc[FR_KIND_TREE], ==, G_MININT64);
  g_assert_cmpint (row, ==, 3);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/store/round-trip/memory", ":memory:", test_round_trip);
  g_test_add_data_func ("/store/round-trip/disk", NULL, test_round_trip);
  g_test_add_func ("/store/odd-values", test_odd_values);
  g_test_add_func ("/store/undo-is-identical", test_undo_is_identical);
  g_test_add_func ("/store/conflict-refused", test_conflict_refused);
  g_test_add_func ("/store/bad-records-refused", test_bad_records_refused);
  g_test_add_func ("/store/references", test_references);
  g_test_add_func ("/store/replace-in-one-change", test_replace_in_one_change);
  g_test_add_func ("/store/next-id", test_next_id);
  g_test_add_func ("/store/empty-change", test_empty_change);
  g_test_add_func ("/store/diary", test_diary);
  for (int kind = 0; kind < FR_N_KINDS; kind++)
    {
      g_autofree char *path = g_strdup_printf ("/store/diary-images/%s", fr_kind (kind)->name);
      g_test_add_data_func (path, GINT_TO_POINTER (kind), test_diary_images);
    }
  g_test_add_func ("/store/two-connections", test_two_connections);
  g_test_add_func ("/store/last-changes", test_last_changes);
  return g_test_run ();
}
