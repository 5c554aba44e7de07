/* The rows of the log: one for each thing that is gathered from, and for whatever else the round has, in
 * order. A row lives on as long as there is one for the same thing. */
#include "models/gather-log-private.h"

#include <stdlib.h>
#include <string.h>

static const FrRecord *
record_of (GPtrArray *round, const FrGatherTarget *target)
{
  for (guint i = 0; round != NULL && i < round->len; i++)
    {
      FrGatherTarget other = fr_gather_target_of (g_ptr_array_index (round, i));

      if (fr_gather_target_equal (&other, target))
        return g_ptr_array_index (round, i);
    }
  return NULL;
}

static FrRecord *
blank_of (FrGatherLog *self, const FrGatherTarget *target)
{
  static const char *const scopes[FR_N_GATHER_SCOPES] = { "bush", "group", "tree", "tap" };
  FrRecord *record = fr_record_copy (self->defaults);
  FrGathering *gathering = (FrGathering *)record;

  fr_record_set_text (record, fr_kind_field (record->kind, "scope"), scopes[target->scope]);
  fr_record_set_text (record, fr_kind_field (record->kind, "stand"), target->stand);
  gathering->tree = target->tree;
  gathering->tap = target->tap;
  return record;
}

/* Gives a row what lies under it now; TRUE when that differs from before. */
static gboolean
give_base (FrGatherLog *self, FrGatherRow *row)
{
  const FrRecord *kept = record_of (fr_gather_log_shown (self), &row->target);
  g_autoptr (FrRecord) blank = kept == NULL ? blank_of (self, &row->target) : NULL;
  const FrRecord *base = kept != NULL ? kept : blank;

  if (row->base != NULL && fr_record_equal (row->base, base))
    return FALSE;
  fr_gather_row_set_base (row, base, row->base != NULL && (row->base->id != 0 || kept != NULL));
  return TRUE;
}

static guint
place_in (GPtrArray *records, const FrGatherTarget *target)
{
  for (guint i = 0; records != NULL && i < records->len; i++)
    {
      FrGatherTarget other = fr_gather_target_of (g_ptr_array_index (records, i));

      if (fr_gather_target_equal (&other, target))
        return i;
    }
  return G_MAXUINT;
}

static guint
place_on_walk (FrGatherLog *self, const FrGatherTarget *target)
{
  const FrTap *tap
      = (const FrTap *)(target->scope == FR_GATHER_TAP ? fr_book_find (self->book, FR_KIND_TAP, target->tap)
                                                       : NULL);
  gint64 tree = tap != NULL ? tap->tree : target->tree;

  for (guint i = 0; i < self->walk->len; i++)
    if (g_array_index (self->walk, gint64, i) == tree)
      return i;
  return G_MAXUINT;
}

/* Where a row stands: as the round before, then as walked, then by name. */
typedef struct
{
  FrGatherRow *row;
  guint last;
  guint walk;
} Place;

static int
by_place (gconstpointer a, gconstpointer b)
{
  const Place *one = a, *two = b;

  if (one->last != two->last)
    return one->last < two->last ? -1 : 1;
  if (one->walk != two->walk)
    return one->walk < two->walk ? -1 : 1;
  return strcmp (one->row->name_key, two->row->name_key);
}

static void
sort_rows (FrGatherLog *self, GPtrArray *rows)
{
  gint64 before = fr_gather_log_shown (self) != NULL ? fr_gather_log_round_utc (self, self->shown, NULL)
                                                     : ((const FrGathering *)self->defaults)->gathered_utc;
  const FrGathering *last
      = self->order == FR_GATHER_AS_LAST ? fr_gather_last (self->book, self->scope, before) : NULL;
  g_autoptr (GPtrArray) order = last != NULL ? fr_gather_order_of (self->book, self->zone, last) : NULL;
  g_autofree Place *places = g_new (Place, rows->len + 1);
  guint n = rows->len;

  for (guint i = 0; i < n; i++)
    {
      FrGatherRow *row = g_ptr_array_index (rows, i);

      places[i] = (Place){ row, place_in (order, &row->target),
                           self->order != FR_GATHER_NAME ? place_on_walk (self, &row->target) : 0 };
    }
  qsort (places, n, sizeof *places, by_place);
  for (guint i = 0; i < n; i++)
    rows->pdata[i] = places[i].row;
}

static FrGatherRow *
take_row (FrGatherLog *self, const FrGatherTarget *target)
{
  for (guint i = 0; i < self->rows->len; i++)
    {
      FrGatherRow *row = g_ptr_array_index (self->rows, i);

      if (fr_gather_target_equal (&row->target, target))
        return g_object_ref (row);
    }
  return fr_gather_row_new (self->book, target);
}

static void
add_target (GArray *targets, const FrGatherTarget *target)
{
  for (guint i = 0; i < targets->len; i++)
    if (fr_gather_target_equal (&g_array_index (targets, FrGatherTarget, i), target))
      return;
  g_array_append_val (targets, *target);
}

/* Every target of the scope, whatever else the round has, and what was typed into and is not kept: it is not
 * lost by choosing other rows. */
void
fr_gather_log_make_rows (FrGatherLog *self)
{
  g_autoptr (GArray) targets = fr_gather_targets (self->book, self->scope, self->day);
  GPtrArray *round = fr_gather_log_shown (self);
  GPtrArray *rows = g_ptr_array_new_with_free_func (g_object_unref);
  g_autoptr (GPtrArray) moved = g_ptr_array_new ();
  gboolean differ;

  for (guint i = 0; round != NULL && i < round->len; i++)
    {
      FrGatherTarget target = fr_gather_target_of (g_ptr_array_index (round, i));

      add_target (targets, &target);
    }
  for (guint i = 0; i < self->rows->len; i++)
    if (fr_gather_row_is_begun (g_ptr_array_index (self->rows, i)))
      add_target (targets, &((FrGatherRow *)g_ptr_array_index (self->rows, i))->target);
  for (guint i = 0; i < targets->len; i++)
    {
      FrGatherRow *row = take_row (self, &g_array_index (targets, FrGatherTarget, i));

      if (give_base (self, row))
        g_ptr_array_add (moved, row);
      g_ptr_array_add (rows, row);
    }
  sort_rows (self, rows);
  differ = rows->len != self->rows->len;
  for (guint i = 0; i < rows->len && !differ; i++)
    differ = rows->pdata[i] != self->rows->pdata[i];
  g_ptr_array_unref (self->rows);
  self->rows = rows;
  if (differ)
    g_signal_emit_by_name (self, "rows-changed");
  for (guint i = 0; i < moved->len; i++)
    fr_gather_row_tell (g_ptr_array_index (moved, i));
  g_signal_emit_by_name (self, "changed");
}
