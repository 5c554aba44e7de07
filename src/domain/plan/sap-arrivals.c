/* Arrivals as values, and the preview and change made from them. What a row names, and which record of the
 * book it is, is found in sap-arrivals-find.c.
 *
 * A row with an identity is the record of that identity, and what it says goes before the book: whoever edits
 * an export means it. A row without one is a record of the book when all that it says is so there already;
 * one of the book is taken once, so that a table in which something stands twice has it twice. A container
 * without an identity is the one of its name. */
#include "domain/plan/sap-arrivals-private.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* --- what a table says --- */

static void
arrival_free (gpointer data)
{
  FrSapArrival *arrival = data;

  fr_record_free (arrival->record);
  for (guint i = 0; i < FR_N_SAP_NAMES; i++)
    g_free (arrival->names[i]);
  g_free (arrival->column);
  g_free (arrival->cell);
  g_free (arrival);
}

FrSapArrivals *
fr_sap_arrivals_new (void)
{
  FrSapArrivals *arrivals = g_new0 (FrSapArrivals, 1);

  arrivals->rows = g_ptr_array_new_with_free_func (arrival_free);
  arrivals->remarks = g_ptr_array_new_with_free_func (g_free);
  return arrivals;
}

void
fr_sap_arrivals_free (FrSapArrivals *arrivals)
{
  if (arrivals == NULL)
    return;
  g_ptr_array_unref (arrivals->rows);
  g_ptr_array_unref (arrivals->remarks);
  g_free (arrivals);
}

FrSapArrival *
fr_sap_arrivals_add (FrSapArrivals *arrivals, guint line, FrKindId kind)
{
  FrSapArrival *arrival = g_new0 (FrSapArrival, 1);

  arrival->line = line;
  arrival->record = fr_record_new (kind);
  g_ptr_array_add (arrivals->rows, arrival);
  return arrival;
}

static guint64
bit_of (const FrRecord *record, const FrField *field)
{
  return G_GUINT64_CONSTANT (1) << (field - record->kind->fields);
}

void
fr_sap_arrival_say (FrSapArrival *arrival, const FrField *field)
{
  arrival->said |= bit_of (arrival->record, field);
}

void
fr_sap_arrival_refuse (FrSapArrival *arrival, FrSapRefusal refusal, const char *column, const char *cell)
{
  if (arrival->refusal != FR_SAP_FINE)
    return;
  arrival->refusal = refusal;
  arrival->column = g_strdup (column);
  arrival->cell = g_strdup (cell);
}

gboolean
fr_sap_arrivals_have (const FrSapArrivals *arrivals, FrKindId kind)
{
  for (guint i = 0; i < arrivals->rows->len; i++)
    if (((FrSapArrival *)arrivals->rows->pdata[i])->record->kind->id == kind)
      return TRUE;
  return FALSE;
}

static gint64
time_of (const FrRecord *record)
{
  switch (record->kind->id)
    {
    case FR_KIND_GATHERING:
      return ((const FrGathering *)record)->gathered_utc;
    case FR_KIND_POUR:
      return ((const FrPour *)record)->poured_utc;
    case FR_KIND_DIP:
      return ((const FrDip *)record)->found_utc;
    default:
      return G_MININT64;
    }
}

gboolean
fr_sap_arrivals_span (const FrSapArrivals *arrivals, gint64 *from_out, gint64 *to_out)
{
  gboolean any = FALSE;

  for (guint i = 0; i < arrivals->rows->len; i++)
    {
      const gint64 utc_s = time_of (((FrSapArrival *)arrivals->rows->pdata[i])->record);

      if (utc_s == G_MININT64)
        continue;
      *from_out = any ? MIN (*from_out, utc_s) : utc_s;
      *to_out = any ? MAX (*to_out, utc_s) : utc_s;
      any = TRUE;
    }
  return any;
}

/* --- rows --- */

void
fr_sap_refuse (FrSapArrivalRow *row, FrSapRefusal refusal)
{
  row->fate = FR_SAP_REFUSED;
  row->refusal = refusal;
}

static gboolean
check (FrSapArrivalRow *row, const FrRecord *record)
{
  g_autoptr (GArray) problems = fr_record_check (record);

  if (problems->len == 0)
    return TRUE;
  fr_sap_refuse (row, FR_SAP_NOT_KEPT);
  row->problem = g_array_index (problems, FrProblem, 0);
  return FALSE;
}

/* What a row says over what the book has; how many fields that changes. */
static guint
merge (FrRecord *to, const FrRecord *from, guint64 said)
{
  guint n = 0;

  for (guint i = 0; i < to->kind->n_fields; i++)
    {
      const FrField *field = &to->kind->fields[i];

      if ((said & bit_of (to, field)) == 0 || fr_record_field_equal (to, from, field))
        continue;
      fr_record_copy_field (to, from, field);
      n++;
    }
  if (to->archived != from->archived)
    {
      to->archived = from->archived;
      n++;
    }
  return n;
}

static guint64
said_of (const FrSapArrivalRow *row, const FrRecord *record)
{
  guint64 said = row->arrival->said;

  /* A name that was found is said; what kind of thing it is of goes with it. */
  for (guint i = 0; i < record->kind->n_fields; i++)
    if (record->kind->fields[i].type == FR_FIELD_REF && fr_record_int (record, &record->kind->fields[i]) != 0)
      said |= bit_of (record, &record->kind->fields[i]);
  if (record->kind->id == FR_KIND_GATHERING)
    said |= bit_of (record, fr_kind_field (record->kind, "scope"));
  return said;
}

static void
add_new (FrSapWork *work, FrSapArrivalRow *row, FrRecord *record)
{
  record->id = work->next_ids[record->kind->id]++;
  row->after = record;
  row->fate = FR_SAP_NEW;
  if (record->kind->id == FR_KIND_CONTAINER)
    fr_sap_index_add (work, (FrContainer *)record);
}

static void
place (FrSapWork *work, FrSapArrivalRow *row)
{
  FrRecord *record = fr_record_copy (row->arrival->record);
  guint64 said;

  row->refusal = row->arrival->refusal;
  if (row->refusal != FR_SAP_FINE)
    row->fate = FR_SAP_REFUSED;
  if (row->fate == FR_SAP_REFUSED || !fr_sap_find_names (work, row, record))
    {
      fr_record_free (record);
      return;
    }
  said = said_of (row, record);
  if (!fr_sap_find_record (work, row, record, said))
    {
      fr_record_free (record);
      return;
    }
  if (row->before == NULL)
    {
      if (check (row, record))
        add_new (work, row, record);
      else
        row->after = record;
      return;
    }
  row->after = fr_record_copy (row->before);
  row->n_fields = merge (row->after, record, said);
  fr_record_free (record);
  row->fate = row->n_fields > 0 ? FR_SAP_CHANGES : FR_SAP_SAME;
  if (row->n_fields > 0)
    check (row, row->after);
}

/* Containers first, so that rows before them may name them; and those with an identity before those that may
 * be any record that says the same. */
#define N_PASSES 4

static guint
pass_of (const FrSapArrival *arrival)
{
  return (arrival->record->kind->id == FR_KIND_CONTAINER ? 0 : 2) + (arrival->record->uid[0] == '\0');
}

static void
row_free (gpointer data)
{
  FrSapArrivalRow *row = data;

  fr_record_free (row->after);
  g_array_unref (row->questions);
  g_free (row);
}

FrSapArrivalPreview *
fr_sap_arrivals_preview (const FrSapArrivals *arrivals, const FrSeasonBook *book,
                         const gint64 next_ids[FR_N_KINDS], gint64 now_utc)
{
  FrSapArrivalPreview *preview = g_new0 (FrSapArrivalPreview, 1);
  FrSapWork work = { .arrivals = arrivals, .book = book, .preview = preview };

  memcpy (work.next_ids, next_ids, sizeof work.next_ids);
  preview->rows = g_ptr_array_new_with_free_func (row_free);
  fr_sap_index (&work);
  for (guint i = 0; i < arrivals->rows->len; i++)
    {
      FrSapArrivalRow *row = g_new0 (FrSapArrivalRow, 1);

      row->arrival = arrivals->rows->pdata[i];
      row->questions = g_array_new (FALSE, FALSE, sizeof (FrQuestion));
      g_ptr_array_add (preview->rows, row);
    }
  for (guint pass = 0; pass < N_PASSES; pass++)
    for (guint i = 0; i < preview->rows->len; i++)
      if (pass_of (fr_sap_row (preview, i)->arrival) == pass)
        place (&work, fr_sap_row (preview, i));
  fr_sap_ask (&work, now_utc);
  for (guint i = 0; i < preview->rows->len; i++)
    preview->n[fr_sap_row (preview, i)->fate]++;
  fr_sap_index_clear (&work);
  return preview;
}

void
fr_sap_arrival_preview_free (FrSapArrivalPreview *preview)
{
  if (preview == NULL)
    return;
  g_ptr_array_unref (preview->rows);
  g_free (preview);
}

/* --- questions --- */

/* The book's list of a kind as it would be: what changes in the place of what it was, then what is new. */
static GPtrArray *
list_after (const FrSapWork *work, GPtrArray *list, FrKindId kind)
{
  g_autoptr (GHashTable) changed = g_hash_table_new (NULL, NULL);
  GPtrArray *after = g_ptr_array_new ();

  for (guint i = 0; i < work->preview->rows->len; i++)
    {
      const FrSapArrivalRow *row = fr_sap_row (work->preview, i);

      if (row->fate == FR_SAP_CHANGES && row->after->kind->id == kind)
        g_hash_table_insert (changed, (gpointer)row->before, row->after);
    }
  for (guint i = 0; list != NULL && i < list->len; i++)
    {
      gpointer other = g_hash_table_lookup (changed, list->pdata[i]);

      g_ptr_array_add (after, other != NULL ? other : list->pdata[i]);
    }
  for (guint i = 0; i < work->preview->rows->len; i++)
    {
      const FrSapArrivalRow *row = fr_sap_row (work->preview, i);

      if (row->fate == FR_SAP_NEW && row->after->kind->id == kind)
        g_ptr_array_add (after, row->after);
    }
  return after;
}

static gint
by_time (gconstpointer a, gconstpointer b)
{
  const FrRecord *one = (*(const FrSapArrivalRow *const *)a)->after,
                 *two = (*(const FrSapArrivalRow *const *)b)->after;
  const gint64 one_utc = time_of (one), two_utc = time_of (two);

  if (one_utc != two_utc)
    return one_utc < two_utc ? -1 : 1;
  return (one->id > two->id) - (one->id < two->id);
}

void
fr_sap_ask (FrSapWork *work, gint64 now_utc)
{
  g_autoptr (GPtrArray) gatherings = list_after (work, work->book->gatherings, FR_KIND_GATHERING);
  g_autoptr (GPtrArray) pours = list_after (work, work->book->pours, FR_KIND_POUR);
  g_autoptr (GPtrArray) dips = list_after (work, work->book->dips, FR_KIND_DIP);
  g_autoptr (GPtrArray) containers = list_after (work, work->book->containers, FR_KIND_CONTAINER);
  g_autoptr (GPtrArray) coming = g_ptr_array_new ();
  FrSeasonBook book = *work->book;
  g_autoptr (FrAsker) asker = NULL;

  book.gatherings = gatherings;
  book.pours = pours;
  book.dips = dips;
  book.containers = containers;
  book.zone = work->zone;
  for (guint i = 0; i < work->preview->rows->len; i++)
    {
      FrSapArrivalRow *row = fr_sap_row (work->preview, i);

      if ((row->fate == FR_SAP_NEW || row->fate == FR_SAP_CHANGES) && time_of (row->after) != G_MININT64
          && !row->after->archived)
        g_ptr_array_add (coming, row);
    }
  if (coming->len == 0)
    return;
  asker = fr_asker_new (&book, NULL, now_utc);
  g_ptr_array_sort (coming, by_time);
  for (guint i = 0; i < coming->len; i++)
    {
      FrSapArrivalRow *row = coming->pdata[i];

      g_array_unref (row->questions);
      row->questions = fr_asker_ask (asker, row->after);
      if (row->questions->len > 0)
        row->fate = FR_SAP_ASKED;
    }
}

/* --- the change --- */

guint
fr_sap_arrivals_n_open (const FrSapArrivalPreview *preview)
{
  guint n = 0;

  for (guint i = 0; i < preview->rows->len; i++)
    {
      const FrSapArrivalRow *row = fr_sap_row (preview, i);

      n += !row->left_out && (row->fate == FR_SAP_REFUSED || (row->fate == FR_SAP_ASKED && !row->confirmed));
    }
  return n;
}

static gboolean
is_wanted (const FrSapArrivalRow *row)
{
  return !row->left_out
         && (row->fate == FR_SAP_NEW || row->fate == FR_SAP_CHANGES
             || (row->fate == FR_SAP_ASKED && row->confirmed));
}

guint
fr_sap_arrivals_n_wanted (const FrSapArrivalPreview *preview)
{
  guint n = 0;

  for (guint i = 0; i < preview->rows->len; i++)
    n += is_wanted (fr_sap_row (preview, i));
  return n;
}

FrChange *
fr_sap_arrivals_change (const FrSapArrivalPreview *preview, const char *label, const char *subject,
                        void (*new_uid) (char uid_out[33]))
{
  FrChange *change;

  if (fr_sap_arrivals_n_open (preview) > 0)
    return NULL;
  change = fr_change_new (label, subject);
  for (guint i = 0; i < preview->rows->len; i++)
    {
      const FrSapArrivalRow *row = fr_sap_row (preview, i);
      g_autoptr (FrRecord) after = NULL;

      if (!is_wanted (row))
        continue;
      after = fr_record_copy (row->after);
      if (after->uid[0] == '\0')
        new_uid (after->uid);
      if (row->fate == FR_SAP_ASKED)
        fr_record_set_int (after, fr_kind_field (after->kind, "confirmed"), TRUE);
      fr_change_add (change, row->before, after);
    }
  return change;
}
