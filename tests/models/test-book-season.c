/* The season a book holds of its growing kinds, beside changes in every season, undo across seasons and another
 * program that writes. The model is a plain array of all records with its own stacks of undo, and GLib's calendar
 * says which season an instant is in. */
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#include "formats/zone-source.h"
#include "mirror.h"
#include "models/book.h"
#include "sample-records.h"

#define FIRST_SEASON 2024
#define N_SEASONS 4

static const FrKindId growing[] = { FR_KIND_GATHERING, FR_KIND_POUR, FR_KIND_DIP, FR_KIND_DAY };

typedef struct
{
  FrRecord *before;
  FrRecord *after;
} Step;

/* Everything that the file should hold, and how to get back. */
typedef struct
{
  GPtrArray *records; /* FrRecord */
  GPtrArray *done;    /* GArray of Step, the newest last */
  GPtrArray *undone;
  GTimeZone *zone;
} Plain;

typedef struct
{
  Plain plain;
  GRand *dice;
  char *folder;
  char *path;
  FrZoneTable *zone;
  FrBook *book;
  FrStore *beside;
  Mirror mirrors[G_N_ELEMENTS (growing)];
  guint n_lost; /* told by the last "moved" */
} Soak;

static void
step_clear (gpointer data)
{
  fr_record_free (((Step *)data)->before);
  fr_record_free (((Step *)data)->after);
}

static GArray *
steps_new (void)
{
  GArray *steps = g_array_new (FALSE, FALSE, sizeof (Step));

  g_array_set_clear_func (steps, step_clear);
  return steps;
}

static const char *
field_name (FrKindId kind)
{
  return kind == FR_KIND_GATHERING ? "gathered_utc"
         : kind == FR_KIND_POUR    ? "poured_utc"
         : kind == FR_KIND_DIP     ? "found_utc"
                                   : "day";
}

/* From 1 August to 31 July, by the household's calendar. */
static guint
season_of (const Plain *plain, const FrRecord *record)
{
  const FrField *field = fr_kind_field (record->kind, field_name (record->kind->id));
  g_autoptr (GDateTime) utc = NULL, local = NULL;
  int year, month, day;

  if (field->type == FR_FIELD_DATE)
    {
      g_assert_cmpint (sscanf (fr_record_text (record, field), "%d-%d-%d", &year, &month, &day), ==, 3);
      return (guint)(month >= 8 ? year + 1 : year);
    }
  utc = g_date_time_new_from_unix_utc (fr_record_int (record, field));
  local = g_date_time_to_timezone (utc, plain->zone);
  g_date_time_get_ymd (local, &year, &month, &day);
  return (guint)(month >= 8 ? year + 1 : year);
}

static gint
plain_place (const Plain *plain, const FrRecord *record)
{
  for (guint i = 0; i < plain->records->len; i++)
    {
      const FrRecord *one = plain->records->pdata[i];

      if (one->kind == record->kind && one->id == record->id)
        return (gint)i;
    }
  return -1;
}

static const FrRecord *
plain_find (const Plain *plain, const FrRecord *record)
{
  gint place = plain_place (plain, record);

  return place >= 0 ? plain->records->pdata[place] : NULL;
}

static void
plain_put (Plain *plain, const FrRecord *before, const FrRecord *after)
{
  gint place = plain_place (plain, before != NULL ? before : after);

  if (place >= 0)
    g_ptr_array_remove_index (plain->records, (guint)place);
  if (after != NULL)
    g_ptr_array_add (plain->records, fr_record_copy (after));
}

/* --- what the book shows against the model --- */

static gint
by_id (gconstpointer a, gconstpointer b)
{
  const FrRecord *one = *(const FrRecord *const *)a, *two = *(const FrRecord *const *)b;

  return one->id < two->id ? -1 : one->id > two->id;
}

static GPtrArray *
plain_season (const Plain *plain, FrKindId kind, guint season)
{
  GPtrArray *records = g_ptr_array_new ();

  for (guint i = 0; i < plain->records->len; i++)
    {
      const FrRecord *record = plain->records->pdata[i];

      if (record->kind->id == kind && season_of (plain, record) == season)
        g_ptr_array_add (records, (gpointer)record);
    }
  g_ptr_array_sort (records, by_id);
  return records;
}

static void
assert_season (const Plain *plain, FrKindId kind, guint season, GPtrArray *records)
{
  g_autoptr (GPtrArray) expected = plain_season (plain, kind, season);

  g_assert_cmpuint (records->len, ==, expected->len);
  for (guint i = 0; i < records->len; i++)
    g_assert_true (fr_record_equal (records->pdata[i], expected->pdata[i]));
}

static GPtrArray *
array_of (const FrSeasonBook *book, FrKindId kind)
{
  return kind == FR_KIND_GATHERING ? book->gatherings
         : kind == FR_KIND_POUR    ? book->pours
         : kind == FR_KIND_DIP     ? book->dips
                                   : book->days;
}

static void
assert_book (Soak *soak)
{
  guint season = fr_book_get_season (soak->book), other = FIRST_SEASON + (guint)g_rand_int_range (soak->dice, 0, 5);
  FrSeasonBook held, another;
  g_autoptr (GError) error = NULL;

  fr_book_season_book (soak->book, &held, soak->zone);
  g_assert_true (fr_book_other_season_book (soak->book, &another, other, soak->zone, &error));
  g_assert_no_error (error);
  for (guint k = 0; k < G_N_ELEMENTS (growing); k++)
    {
      mirror_assert (&soak->mirrors[k]);
      assert_season (&soak->plain, growing[k], season,
                     fr_record_list_get_records (fr_book_get_list (soak->book, growing[k])));
      assert_season (&soak->plain, growing[k], season, array_of (&held, growing[k]));
      assert_season (&soak->plain, growing[k], other, array_of (&another, growing[k]));
    }
  g_assert_cmpuint (another.containers->len, ==, held.containers->len);
  fr_book_season_book_clear (&held);
  fr_book_season_book_clear (&another);
  for (guint i = 0; i < soak->plain.records->len; i++)
    {
      const FrRecord *record = soak->plain.records->pdata[i];

      g_assert_true (fr_record_equal (fr_book_find (soak->book, record->kind->id, record->id), record));
    }
  for (guint k = 0; k < G_N_ELEMENTS (growing); k++)
    g_assert_null (fr_book_find (soak->book, growing[k], 1000000));
}

/* Containers 1 to 3 are used as the model's records say. */
static void
assert_used (Soak *soak)
{
  for (gint64 id = 1; id <= 3; id++)
    {
      const FrRecord *container = fr_book_find (soak->book, FR_KIND_CONTAINER, id);
      gboolean used = FALSE;

      for (guint i = 0; i < soak->plain.records->len && !used; i++)
        {
          const FrRecord *record = soak->plain.records->pdata[i];

          for (guint f = 0; f < record->kind->n_fields; f++)
            used |= record->kind->fields[f].type == FR_FIELD_REF
                    && record->kind->fields[f].ref_kind == FR_KIND_CONTAINER
                    && fr_record_int (record, &record->kind->fields[f]) == id;
        }
      g_assert_cmpint (fr_book_is_used (soak->book, container), ==, used);
    }
}

/* --- edits --- */

/* Anywhere in the seasons, often at their very edges; a day that no other has. */
static void
place_somewhere (Soak *soak, FrRecord *record)
{
  const FrField *field = fr_kind_field (record->kind, field_name (record->kind->id));
  guint season = FIRST_SEASON + (guint)g_rand_int_range (soak->dice, 0, N_SEASONS);

  if (field->type == FR_FIELD_DATE)
    {
      g_autofree char *day = NULL;
      gboolean taken = TRUE;

      while (taken)
        {
          FrDate first = fr_season_first_day (season);
          gint days = g_rand_boolean (soak->dice) ? g_rand_int_range (soak->dice, -3, 3)
                                                  : g_rand_int_range (soak->dice, 0, 365);

          g_free (day);
          day = fr_date_to_iso (fr_date_add_days (first, days));
          taken = FALSE;
          for (guint i = 0; i < soak->plain.records->len; i++)
            {
              const FrRecord *other = soak->plain.records->pdata[i];

              taken |= other->kind->id == FR_KIND_DAY && strcmp (fr_record_text (other, field), day) == 0;
            }
        }
      fr_record_set_text (record, field, day);
      return;
    }
  if (g_rand_boolean (soak->dice))
    {
      gint64 from, to;

      fr_day_span_utc (soak->zone, fr_season_first_day (season), &from, &to);
      fr_record_set_int (record, field, from + g_rand_int_range (soak->dice, -2, 2));
    }
  else
    fr_record_set_int (record, field,
                       1690848000 + (gint64)(season - FIRST_SEASON) * 31557600
                           + g_rand_int_range (soak->dice, 0, 31557600));
}

static void
refer_somewhere (Soak *soak, FrRecord *record)
{
  const FrField *field = fr_kind_field (record->kind, "container");

  if (field != NULL)
    fr_record_set_int (record, field, g_rand_int_range (soak->dice, 0, 3)); /* the third by edits alone */
  if (field != NULL && g_rand_int_range (soak->dice, 0, 20) == 0)
    fr_record_set_int (record, field, 3);
}

/* A record added, edited, moved in time or deleted. */
static void
add_step (Soak *soak, FrChange *change, GArray *steps, guint nth)
{
  FrKindId kind = growing[g_rand_int_range (soak->dice, 0, G_N_ELEMENTS (growing))];
  gint what = g_rand_int_range (soak->dice, 0, 10);
  Step step = { 0 };

  if (what >= 4 && soak->plain.records->len > 0)
    {
      const FrRecord *old
          = soak->plain.records->pdata[g_rand_int_range (soak->dice, 0, (gint)soak->plain.records->len)];

      for (guint i = 0; i < steps->len; i++)
        {
          const Step *other = &g_array_index (steps, Step, i);
          const FrRecord *known = other->before != NULL ? other->before : other->after;

          if (known->kind == old->kind && known->id == old->id)
            return;
        }
      step.before = fr_record_copy (old);
      if (what < 9)
        step.after = fr_record_copy (old);
    }
  else
    {
      g_autoptr (FrRecord) fresh = fr_book_new_record (soak->book, kind, nth, NULL);

      step.after = sample_sparse (kind, fresh->id);
      g_strlcpy (step.after->uid, fresh->uid, sizeof step.after->uid);
    }
  if (step.after != NULL)
    {
      g_autofree char *note = g_strdup_printf ("%u", g_rand_int (soak->dice));

      fr_record_set_text (step.after, fr_kind_field (step.after->kind, "note"), note);
      if (step.before == NULL || what == 8)
        place_somewhere (soak, step.after);
      refer_somewhere (soak, step.after);
    }
  fr_change_add (change, step.before, step.after);
  plain_put (&soak->plain, step.before, step.after);
  g_array_append_val (steps, step);
}

static FrChange *
random_change (Soak *soak, GArray *steps, guint most)
{
  FrChange *change = fr_change_new ("edit", NULL);
  guint n = (guint)g_rand_int_range (soak->dice, 1, (gint)most + 1);

  for (guint i = 0; i < n; i++)
    add_step (soak, change, steps, i);
  return change;
}

static void
edit (Soak *soak)
{
  GArray *steps = steps_new ();
  g_autoptr (FrChange) change = random_change (soak, steps, 4);
  g_autoptr (GError) error = NULL;

  fr_book_apply (soak->book, change, &error);
  g_assert_no_error (error);
  g_ptr_array_add (soak->plain.done, steps);
  g_ptr_array_set_size (soak->plain.undone, 0);
}

static void
take_back (Soak *soak, GPtrArray *from, GPtrArray *to, gboolean back)
{
  GArray *steps;
  g_autoptr (GError) error = NULL;

  g_assert_true (back ? fr_book_undo (soak->book, &error) : fr_book_redo (soak->book, &error));
  g_assert_no_error (error);
  if (from->len == 0)
    return;
  steps = g_ptr_array_steal_index (from, from->len - 1);
  for (guint i = 0; i < steps->len; i++)
    {
      const Step *step = &g_array_index (steps, Step, i);

      plain_put (&soak->plain, back ? step->after : step->before, back ? step->before : step->after);
    }
  g_ptr_array_add (to, steps);
}

/* --- another program --- */

/* The steps that can still be taken, from the top down: each is tried on a copy of what there is. */
static guint
drop_lost (Soak *soak, GPtrArray *stack, gboolean back)
{
  Plain trial = { .records = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free) };
  g_autoptr (GPtrArray) lost = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);
  guint n = 0;

  for (guint i = 0; i < soak->plain.records->len; i++)
    g_ptr_array_add (trial.records, fr_record_copy (soak->plain.records->pdata[i]));
  for (guint i = stack->len; i-- > 0;)
    {
      GArray *steps = stack->pdata[i];
      Plain gone = { .records = lost };
      gboolean fits = TRUE;

      for (guint s = 0; s < steps->len; s++)
        {
          const Step *step = &g_array_index (steps, Step, s);
          const FrRecord *from = back ? step->after : step->before, *to = back ? step->before : step->after;
          const FrRecord *known = from != NULL ? from : to;

          fits = fits && plain_find (&gone, known) == NULL
                 && fr_record_equal (plain_find (&trial, known), from);
        }
      for (guint s = 0; s < steps->len; s++)
        {
          const Step *step = &g_array_index (steps, Step, s);
          const FrRecord *from = back ? step->after : step->before, *to = back ? step->before : step->after;

          if (fits)
            plain_put (&trial, from, to);
          else
            g_ptr_array_add (lost, fr_record_copy (from != NULL ? from : to));
        }
      if (!fits)
        {
          g_ptr_array_remove_index (stack, i);
          n++;
        }
    }
  g_ptr_array_unref (trial.records);
  return n;
}

static void
moved_cb (FrBook *book, const char *code, guint n, guint *n_out)
{
  *n_out = n;
}

static void
write_beside (Soak *soak)
{
  g_autoptr (GArray) steps = steps_new ();
  g_autoptr (FrChange) change = random_change (soak, steps, 2);
  g_autoptr (GError) error = NULL;
  guint n_lost;

  fr_store_apply (soak->beside, change, FR_ORIGIN_CLI, 1800000000, &error);
  g_assert_no_error (error);
  n_lost = drop_lost (soak, soak->plain.done, TRUE) + drop_lost (soak, soak->plain.undone, FALSE);
  soak->n_lost = G_MAXUINT;
  g_assert_true (fr_book_refresh (soak->book, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (soak->n_lost, ==, n_lost);
}

static void
choose_season (Soak *soak)
{
  g_autoptr (GError) error = NULL;
  guint season = FIRST_SEASON + (guint)g_rand_int_range (soak->dice, 0, N_SEASONS + 1);

  g_assert_true (fr_book_set_season (soak->book, season, soak->zone, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (fr_book_get_season (soak->book), ==, season);
}

static void
soak_begin (Soak *soak, const char *zone, guint32 seed)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrChange) kit = fr_change_new ("import-book", NULL);

  soak->plain.records = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);
  soak->plain.done = g_ptr_array_new_with_free_func ((GDestroyNotify)g_array_unref);
  soak->plain.undone = g_ptr_array_new_with_free_func ((GDestroyNotify)g_array_unref);
  soak->plain.zone = g_time_zone_new_identifier (zone);
  soak->zone = fr_zone_table_load (zone, FIRST_SEASON - 2, FIRST_SEASON + N_SEASONS + 2, &error);
  g_assert_no_error (error);
  soak->dice = g_rand_new_with_seed (seed);
  soak->folder = g_dir_make_tmp ("frostrun-XXXXXX", NULL);
  soak->path = g_build_filename (soak->folder, "book.frostrun", NULL);
  soak->book = fr_book_open (soak->path, &error);
  g_assert_no_error (error);
  for (gint64 id = 1; id <= 3; id++)
    {
      g_autoptr (FrRecord) container = sample_full (FR_KIND_CONTAINER, id);

      fr_change_add (kit, NULL, container);
    }
  soak->beside = fr_store_open (soak->path, FALSE, &error);
  g_assert_no_error (error);
  g_assert_true (fr_store_apply (soak->beside, kit, FR_ORIGIN_DEMO, 1800000000, &error));
  g_assert_true (fr_book_refresh (soak->book, &error));
  g_signal_connect (soak->book, "moved", G_CALLBACK (moved_cb), &soak->n_lost);
  for (guint k = 0; k < G_N_ELEMENTS (growing); k++)
    mirror_begin (&soak->mirrors[k], G_LIST_MODEL (fr_book_get_list (soak->book, growing[k])));
}

static void
soak_end (Soak *soak)
{
  for (guint i = 0; i < 3; i++)
    {
      g_autofree char *file = g_strconcat (soak->path, (const char *[]){ "", "-wal", "-shm" }[i], NULL);

      if (i == 0)
        {
          for (guint k = 0; k < G_N_ELEMENTS (growing); k++)
            mirror_end (&soak->mirrors[k]);
          g_object_unref (soak->book);
          fr_store_close (soak->beside);
        }
      g_unlink (file);
    }
  g_rmdir (soak->folder);
  g_free (soak->folder);
  g_free (soak->path);
  g_rand_free (soak->dice);
  fr_zone_table_free (soak->zone);
  g_time_zone_unref (soak->plain.zone);
  g_ptr_array_unref (soak->plain.records);
  g_ptr_array_unref (soak->plain.done);
  g_ptr_array_unref (soak->plain.undone);
}

static void
test_soak (gconstpointer data)
{
  Soak soak = { 0 };
  guint n_far_undone = 0;

  soak_begin (&soak, data, 17);
  choose_season (&soak);
  for (guint i = 0; i < 400; i++)
    {
      gint what = g_rand_int_range (soak.dice, 0, 20);

      if (what < 8)
        edit (&soak);
      else if (what < 12)
        take_back (&soak, soak.plain.done, soak.plain.undone, TRUE);
      else if (what < 15)
        take_back (&soak, soak.plain.undone, soak.plain.done, FALSE);
      else if (what < 17)
        write_beside (&soak);
      else
        choose_season (&soak);
      if (soak.plain.undone->len > 0)
        {
          GArray *steps = soak.plain.undone->pdata[soak.plain.undone->len - 1];
          const Step *step = &g_array_index (steps, Step, 0);

          n_far_undone += season_of (&soak.plain, step->after != NULL ? step->after : step->before)
                          != fr_book_get_season (soak.book);
        }
      assert_book (&soak);
      if (i % 10 == 0)
        assert_used (&soak);
    }
  while (soak.plain.done->len > 0)
    take_back (&soak, soak.plain.done, soak.plain.undone, TRUE);
  assert_book (&soak);
  g_assert_null (fr_book_peek_undo (soak.book));
  g_assert_cmpuint (n_far_undone, >, 50);
  soak_end (&soak);
}

/* What was taken of a season stays while the book moves on. */
static void
test_held (void)
{
  Soak soak = { 0 };
  FrSeasonBook held;
  g_autoptr (GPtrArray) copies = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);

  soak_begin (&soak, "America/Toronto", 23);
  choose_season (&soak);
  for (guint i = 0; i < 60; i++)
    edit (&soak);
  fr_book_season_book (soak.book, &held, soak.zone);
  for (guint i = 0; i < held.gatherings->len; i++)
    g_ptr_array_add (copies, fr_record_copy (held.gatherings->pdata[i]));
  g_assert_cmpuint (copies->len, >, 0);
  for (guint i = 0; i < 60; i++)
    edit (&soak);
  for (guint season = FIRST_SEASON; season < FIRST_SEASON + N_SEASONS; season++)
    g_assert_true (fr_book_set_season (soak.book, season, soak.zone, NULL));
  g_assert_cmpuint (held.gatherings->len, ==, copies->len);
  for (guint i = 0; i < copies->len; i++)
    g_assert_true (fr_record_equal (held.gatherings->pdata[i], copies->pdata[i]));
  fr_book_season_book_clear (&held);
  fr_book_season_book_clear (&held); /* twice is once */
  soak_end (&soak);
}

/* Opened, a book holds the season that the clock is in; the same again tells nothing, another one does. */
static void
count_cb (FrBook *book, guint *n)
{
  (*n)++;
}

static void
test_default (void)
{
  g_autoptr (FrBook) book = fr_book_open (":memory:", NULL);
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();
  guint season = (guint)(g_date_time_get_year (now) + (g_date_time_get_month (now) >= 8)), n = 0;

  g_signal_connect (book, "changed", G_CALLBACK (count_cb), &n);
  g_assert_cmpuint (fr_book_get_season (book), ==, season);
  g_assert_true (fr_book_set_season (book, season, NULL, NULL));
  g_assert_cmpuint (n, ==, 0);
  g_assert_true (fr_book_set_season (book, season - 3, NULL, NULL));
  g_assert_cmpuint (n, ==, 1);
}

int
main (int argc, char **argv)
{
  static const char *const zones[] = { "UTC", "America/Toronto", "Asia/Kolkata", "Australia/Lord_Howe" };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (zones); i++)
    {
      g_autofree char *path = g_strconcat ("/book-season/soak/", zones[i], NULL);

      g_test_add_data_func (path, zones[i], test_soak);
    }
  g_test_add_func ("/book-season/held", test_held);
  g_test_add_func ("/book-season/default", test_default);
  return g_test_run ();
}
