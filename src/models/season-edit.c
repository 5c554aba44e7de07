/* The edits of a season's sap. A record of the book is found by its number and replaced as a whole; the
 * store's door refuses it when somebody else moved it meanwhile. */
#include "models/season-edit.h"

#include "domain/plan/bush.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

static gboolean
is_sap_kind (FrKindId kind)
{
  return kind == FR_KIND_CONTAINER || kind == FR_KIND_GATHERING || kind == FR_KIND_POUR
         || kind == FR_KIND_DIP;
}

/* One record into the edit; *added_out tells whether it is new. */
static gboolean
keep (FrEdit *edit, const FrRecord *record, gboolean *added_out, GError **error)
{
  const FrRecord *before = record->id != 0 ? fr_book_find (edit->book, record->kind->id, record->id) : NULL;
  g_autoptr (FrRecord) after = NULL;
  g_autoptr (FrRecord) fresh = NULL;

  *added_out = before == NULL;
  if (before == NULL && record->id != 0)
    {
      fr_edit_refuse (error, _ ("What was to be changed is no longer in the book."));
      return FALSE;
    }
  after = fr_record_copy (record);
  if (before == NULL)
    {
      fresh = fr_edit_new_record (edit, record->kind->id, error);
      if (fresh == NULL)
        return FALSE;
      after->id = fresh->id;
      memcpy (after->uid, fresh->uid, sizeof after->uid);
    }
  else
    memcpy (after->uid, before->uid, sizeof after->uid);
  return fr_edit_step (edit, before, after, NULL, error);
}

static void
name_change (FrEdit *edit, const char *verb, const FrRecord *record)
{
  gboolean named = record->kind->id == FR_KIND_CONTAINER;

  g_free (edit->change->label);
  g_free (edit->change->subject);
  edit->change->label = g_strconcat (verb, record->kind->name, NULL);
  edit->change->subject = named ? g_strdup (fr_record_label (record)) : NULL;
}

FrChange *
fr_season_edit_keep (FrBook *book, const FrRecord *record, GError **error)
{
  g_return_val_if_fail (is_sap_kind (record->kind->id), NULL);
  FrEdit edit;
  gboolean added;

  fr_edit_begin (&edit, book, "edit-gathering", NULL);
  if (!keep (&edit, record, &added, error))
    return fr_edit_drop (&edit);
  name_change (&edit, added ? "add-" : "edit-", record);
  return fr_edit_end (&edit);
}

FrChange *
fr_season_edit_keep_all (FrBook *book, GPtrArray *records, GError **error)
{
  FrEdit edit;
  gboolean added = FALSE;
  guint n_gatherings = 0;

  fr_edit_begin (&edit, book, "log-gatherings", NULL);
  for (guint i = 0; i < records->len; i++)
    {
      const FrRecord *record = g_ptr_array_index (records, i);

      g_return_val_if_fail (is_sap_kind (record->kind->id), fr_edit_drop (&edit));
      if (!keep (&edit, record, &added, error))
        return fr_edit_drop (&edit);
      n_gatherings += record->kind->id == FR_KIND_GATHERING;
    }
  if (edit.change->steps->len == 1 || n_gatherings < records->len)
    {
      const FrStep *step = edit.change->steps->len > 0 ? g_ptr_array_index (edit.change->steps, 0) : NULL;

      if (step != NULL)
        name_change (&edit, step->before == NULL ? "add-" : "edit-", step->after);
    }
  return fr_edit_end (&edit);
}

FrChange *
fr_season_edit_remove (FrBook *book, FrKindId kind, gint64 id, GError **error)
{
  const FrRecord *before = fr_book_find (book, kind, id);
  gboolean used;
  FrEdit edit;

  g_return_val_if_fail (is_sap_kind (kind), NULL);
  if (before == NULL)
    return fr_edit_refuse (error, _ ("What was to be taken out is no longer in the book."));
  used = fr_book_is_used (book, before);
  fr_edit_begin (&edit, book, "delete-gathering", NULL);
  name_change (&edit, used ? "archive-" : "delete-", before);
  fr_edit_take_out (&edit, before, used);
  return fr_edit_end (&edit);
}

/* The newest of the days that is not put away. */
static const FrDay *
last_of_day (GPtrArray *days, const char *iso)
{
  for (guint i = days->len; i-- > 0;)
    {
      const FrDay *record = g_ptr_array_index (days, i);

      if (!record->record.archived && g_strcmp0 (record->day, iso) == 0)
        return record;
    }
  return NULL;
}

const FrDay *
fr_season_find_day (FrBook *book, FrDate day)
{
  GPtrArray *held = fr_record_list_get_records (fr_book_get_list (book, FR_KIND_DAY));
  g_autofree char *iso = fr_date_to_iso (day);
  const FrDay *found = last_of_day (held, iso);

  if (found == NULL && fr_season_of (day) != fr_book_get_season (book))
    {
      const FrRecordSpan span = { .first = day, .last = day };
      g_autoptr (GError) error = NULL;
      g_autoptr (GPtrArray) far = fr_book_load_span (book, FR_KIND_DAY, &span, &error);

      if (far == NULL)
        g_warning ("%s", error->message); /* the change that follows says it to the person */
      else
        found = last_of_day (far, iso);
      if (found != NULL)
        found = (const FrDay *)fr_book_find (book, FR_KIND_DAY, found->record.id);
    }
  return found;
}

/* Nothing but its date: such a day is not kept. */
static gboolean
is_blank_day (const FrDay *day)
{
  g_autoptr (FrRecord) rest = fr_record_copy (&day->record);

  fr_record_set_text (rest, fr_kind_field (rest->kind, "day"), NULL);
  fr_record_set_int (rest, fr_kind_field (rest->kind, "expected"), FALSE);
  return fr_edit_says_nothing (rest);
}

/* A copy of @record that is the one @before, or new. */
static FrRecord *
in_place_of (FrEdit *edit, const FrRecord *record, const FrRecord *before, GError **error)
{
  g_autoptr (FrRecord) fresh = before == NULL ? fr_edit_new_record (edit, record->kind->id, error) : NULL;
  const FrRecord *as = before != NULL ? before : fresh;
  FrRecord *after;

  if (as == NULL)
    return NULL;
  after = fr_record_copy (record);
  after->id = as->id;
  memcpy (after->uid, as->uid, sizeof after->uid);
  return after;
}

FrChange *
fr_season_edit_day (FrBook *book, const FrDay *record, GError **error)
{
  FrDate day;
  const FrDay *before = fr_date_parse (record->day, &day) ? fr_season_find_day (book, day) : NULL;
  const FrRecord *was = before != NULL ? &before->record : NULL;
  g_autoptr (FrRecord) after = NULL;
  gboolean blank;
  FrEdit edit;

  fr_edit_begin (&edit, book, before != NULL ? "edit-day" : "add-day", record->day);
  after = in_place_of (&edit, &record->record, was, error);
  if (after == NULL)
    return fr_edit_drop (&edit);
  blank = is_blank_day ((const FrDay *)after);
  if (blank && before == NULL)
    return fr_edit_drop (&edit);
  if (blank)
    {
      g_free (edit.change->label);
      edit.change->label = g_strdup ("delete-day");
      fr_change_add (edit.change, was, NULL);
      return fr_edit_end (&edit);
    }
  if (!fr_edit_step (&edit, was, after, NULL, error))
    return fr_edit_drop (&edit);
  return fr_edit_end (&edit);
}

static gboolean
put_air (FrEdit *edit, const FrSeenAir *seen, GError **error)
{
  const FrDay *before = fr_season_find_day (edit->book, seen->date);
  g_autoptr (FrRecord) record
      = before != NULL ? fr_record_copy (&before->record) : fr_edit_new_record (edit, FR_KIND_DAY, error);
  FrDay *day = (FrDay *)record;
  g_autofree char *iso = fr_date_to_iso (seen->date);

  if (record == NULL)
    return FALSE;
  fr_edit_set_text (record, "day", iso);
  if (day->expected)
    {
      fr_edit_set_amount (&day->low_c, NAN, NULL);
      fr_edit_set_amount (&day->high_c, NAN, NULL);
      day->expected = FALSE;
    }
  if (!isnan (seen->low_c))
    fr_edit_set_amount (&day->low_c, seen->low_c, seen->low_typed);
  if (!isnan (seen->high_c))
    fr_edit_set_amount (&day->high_c, seen->high_c, seen->high_typed);
  return fr_edit_step (edit, before != NULL ? &before->record : NULL, record, iso, error);
}

FrChange *
fr_season_edit_air (FrBook *book, const FrSeenAir *seen, guint n, GError **error)
{
  g_autofree char *subject = n > 0 ? fr_date_to_iso (seen[0].date) : NULL;
  FrEdit edit;

  fr_edit_begin (&edit, book, "edit-day", subject);
  for (guint i = 0; i < n; i++)
    if ((!isnan (seen[i].low_c) || !isnan (seen[i].high_c)) && !put_air (&edit, &seen[i], error))
      return fr_edit_drop (&edit);
  return fr_edit_end (&edit);
}

/* The reference of a chore that holds a kind of kit; NULL when chores are not about it. */
static const FrField *
kit_field (FrKindId kind)
{
  return fr_kind_field (fr_kind (FR_KIND_CHORE), fr_kind (kind)->name);
}

const FrChore *
fr_season_find_chore (FrBook *book, guint season, const char *task, FrChoreKit kit)
{
  FrRecordList *list = fr_book_get_list (book, FR_KIND_CHORE);
  const FrField *field = kit_field (kit.kind);

  g_return_val_if_fail (field != NULL && field->type == FR_FIELD_REF, NULL);
  for (guint i = fr_record_list_get_size (list); i-- > 0;)
    {
      const FrChore *chore = (const FrChore *)fr_record_list_get (list, i);

      if (!chore->record.archived && chore->season.value == season && g_strcmp0 (chore->task, task) == 0
          && fr_record_int (&chore->record, field) == kit.id)
        return chore;
    }
  return NULL;
}

FrChange *
fr_season_edit_chore (FrBook *book, guint season, const char *task, FrChoreKit kit, FrDate done_on,
                      const char *outcome, GError **error)
{
  const FrChore *before = fr_season_find_chore (book, season, task, kit);
  g_autofree char *iso = fr_date_to_iso (done_on);
  g_autoptr (FrRecord) after = NULL;
  FrEdit edit;

  if (fr_book_find (book, kit.kind, kit.id) == NULL)
    return fr_edit_refuse (error, _ ("This piece of kit is no longer in the book."));
  fr_edit_begin (&edit, book, before != NULL ? "edit-chore" : "add-chore", NULL);
  after
      = before != NULL ? fr_record_copy (&before->record) : fr_edit_new_record (&edit, FR_KIND_CHORE, error);
  if (after == NULL)
    return fr_edit_drop (&edit);
  fr_edit_set_amount (&((FrChore *)after)->season, season, NULL);
  fr_edit_set_text (after, "task", task);
  fr_record_set_int (after, kit_field (kit.kind), kit.id);
  fr_edit_set_text (after, "done_on", iso);
  fr_edit_set_text (after, "outcome", outcome);
  if (!fr_edit_step (&edit, before != NULL ? &before->record : NULL, after, NULL, error))
    return fr_edit_drop (&edit);
  return fr_edit_end (&edit);
}

FrChange *
fr_season_edit_chore_undone (FrBook *book, guint season, const char *task, FrChoreKit kit, GError **error)
{
  const FrChore *before = fr_season_find_chore (book, season, task, kit);
  FrEdit edit;

  if (before == NULL)
    return NULL;
  fr_edit_begin (&edit, book, "delete-chore", NULL);
  fr_change_add (edit.change, &before->record, NULL);
  return fr_edit_end (&edit);
}

static const FrDismissal *
find_dismissal (FrBook *book, const char *about)
{
  FrRecordList *list = fr_book_get_list (book, FR_KIND_DISMISSAL);

  for (guint i = fr_record_list_get_size (list); i-- > 0;)
    {
      const FrDismissal *dismissal = (const FrDismissal *)fr_record_list_get (list, i);

      if (!dismissal->record.archived && g_strcmp0 (dismissal->about, about) == 0)
        return dismissal;
    }
  return NULL;
}

FrChange *
fr_season_edit_dismiss (FrBook *book, const char *about, gint64 now_utc, GError **error)
{
  g_autoptr (FrRecord) after = NULL;
  FrEdit edit;

  if (find_dismissal (book, about) != NULL)
    return NULL;
  fr_edit_begin (&edit, book, "add-dismissal", NULL);
  after = fr_edit_new_record (&edit, FR_KIND_DISMISSAL, error);
  if (after == NULL)
    return fr_edit_drop (&edit);
  fr_edit_set_text (after, "about", about);
  ((FrDismissal *)after)->dismissed_utc = now_utc;
  if (!fr_edit_step (&edit, NULL, after, NULL, error))
    return fr_edit_drop (&edit);
  return fr_edit_end (&edit);
}

FrChange *
fr_season_edit_recall (FrBook *book)
{
  FrRecordList *list = fr_book_get_list (book, FR_KIND_DISMISSAL);
  FrEdit edit;

  fr_edit_begin (&edit, book, "delete-dismissal", NULL);
  for (guint i = 0; i < fr_record_list_get_size (list); i++)
    fr_change_add (edit.change, fr_record_list_get (list, i), NULL);
  return fr_edit_end (&edit);
}

FrChange *
fr_season_edit_storing (FrBook *book, const FrStoring *record, GError **error)
{
  const FrRecord *before;
  g_autoptr (FrRecord) now = NULL;
  g_autoptr (FrRecord) after = NULL;
  FrEdit edit;

  fr_edit_begin (&edit, book, "edit-storing", NULL);
  now = fr_edit_single_copy (&edit, FR_KIND_STORING, &before, error);
  after = now != NULL ? in_place_of (&edit, &record->record, now, error) : NULL;
  if (after == NULL)
    return fr_edit_drop (&edit);
  return fr_edit_end_single (&edit, before, after, error);
}
