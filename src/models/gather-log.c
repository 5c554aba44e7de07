/* The log: the rows of one round, kept through every change of the book by what they are of, so that a view
 * keeps its widgets and the focus. */
#include "models/gather-log-private.h"

#include <math.h>
#include <string.h>

G_DEFINE_FINAL_TYPE (FrGatherLog, fr_gather_log, G_TYPE_OBJECT)

enum
{
  SIGNAL_ROWS_CHANGED,
  SIGNAL_CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static FrGathering *
defaults_of (FrGatherLog *self)
{
  return (FrGathering *)self->defaults;
}

static void
fr_gather_log_finalize (GObject *object)
{
  FrGatherLog *self = FR_GATHER_LOG (object);

  g_signal_handler_disconnect (self->book, self->handler);
  g_clear_pointer (&self->rows, g_ptr_array_unref);
  g_clear_pointer (&self->rounds, g_ptr_array_unref);
  g_clear_pointer (&self->walk, g_array_unref);
  g_clear_pointer (&self->shown_ids, g_array_unref);
  g_clear_pointer (&self->defaults, fr_record_free);
  g_clear_pointer (&self->zone, fr_zone_table_free);
  g_clear_object (&self->book);
  G_OBJECT_CLASS (fr_gather_log_parent_class)->finalize (object);
}

static void
fr_gather_log_class_init (FrGatherLogClass *klass)
{
  static const char *const names[N_SIGNALS] = { "rows-changed", "changed" };

  G_OBJECT_CLASS (klass)->finalize = fr_gather_log_finalize;
  for (guint i = 0; i < N_SIGNALS; i++)
    signals[i]
        = g_signal_new (names[i], FR_TYPE_GATHER_LOG, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
fr_gather_log_init (FrGatherLog *self)
{
  self->rows = g_ptr_array_new_with_free_func (g_object_unref);
  self->rounds = g_ptr_array_new ();
  self->walk = g_array_new (FALSE, FALSE, sizeof (gint64));
  self->shown_ids = g_array_new (FALSE, FALSE, sizeof (gint64));
}

/* --- the round --- */

static gint64
began_utc (GPtrArray *round)
{
  return ((const FrGathering *)g_ptr_array_index (round, 0))->gathered_utc;
}

GPtrArray *
fr_gather_log_shown (FrGatherLog *self)
{
  return self->shown < self->rounds->len ? g_ptr_array_index (self->rounds, self->shown) : NULL;
}

/* The rounds of the day as the book has them now. The one shown is told again by a gathering of it, by its
 * number or by the moment that a new one was given. */
static void
find_rounds (FrGatherLog *self)
{
  g_autoptr (GHashTable) ids = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  guint by_moment = G_MAXUINT;

  for (guint i = 0; i < self->shown_ids->len; i++)
    g_hash_table_add (ids, g_memdup2 (&g_array_index (self->shown_ids, gint64, i), sizeof (gint64)));
  g_ptr_array_unref (self->rounds);
  self->rounds = fr_gather_rounds (self->book, self->zone, self->day);
  self->shown = G_MAXUINT;
  for (guint r = self->rounds->len; r-- > 0 && self->shown == G_MAXUINT;)
    {
      GPtrArray *round = g_ptr_array_index (self->rounds, r);

      for (guint i = 0; i < round->len; i++)
        {
          const FrGathering *gathering = g_ptr_array_index (round, i);

          if (g_hash_table_contains (ids, &gathering->record.id))
            self->shown = r;
          if (by_moment == G_MAXUINT && gathering->gathered_utc == defaults_of (self)->gathered_utc)
            by_moment = r;
        }
    }
  if (self->shown == G_MAXUINT)
    self->shown = MIN (by_moment, self->rounds->len);
}

static void
remember_shown (FrGatherLog *self)
{
  GPtrArray *round = fr_gather_log_shown (self);

  g_array_set_size (self->shown_ids, 0);
  for (guint i = 0; round != NULL && i < round->len; i++)
    g_array_append_val (self->shown_ids, ((const FrRecord *)g_ptr_array_index (round, i))->id);
}

/* Shows one of the day's rounds, or a new one. */
static void
show_round (FrGatherLog *self, guint nth)
{
  self->shown = MIN (nth, self->rounds->len);
  self->typed_utc = FALSE;
  remember_shown (self);
}

/* The same clock as now on another day; what the clocks jump over moves to just after. */
static gint64
usual_utc (FrGatherLog *self)
{
  FrLocalTime now = fr_zone_local (self->zone, self->now_utc);
  gint64 first, second;

  if (fr_date_compare (now.date, self->day) == 0)
    return self->now_utc;
  return fr_zone_instant (self->zone, self->day, now.second_of_day / 60 * 60, &first, &second)
                 == FR_ZONE_NEVER
             ? second
             : first;
}

static void
book_changed_cb (FrGatherLog *self)
{
  find_rounds (self);
  remember_shown (self);
  fr_gather_log_make_rows (self);
}

/* --- defaults --- */

static const FrField *
field_of (FrGatherLog *self, const char *name)
{
  return fr_kind_field (self->defaults->kind, name);
}

/* As the last time: what is measured and read with, who, and into what; the sap itself is another. */
static void
first_defaults (FrGatherLog *self)
{
  static const char *const texts[] = { "measured_by", "instrument", "who" };
  const FrGathering *last = fr_gather_last (self->book, FR_N_GATHER_SCOPES, G_MAXINT64);
  g_autoptr (GArray) trees = NULL;

  self->defaults = fr_record_new (FR_KIND_GATHERING);
  if (last != NULL)
    {
      for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
        fr_record_set_text (self->defaults, field_of (self, texts[i]),
                            fr_record_text (&last->record, field_of (self, texts[i])));
      defaults_of (self)->container = last->container;
      defaults_of (self)->bucket = last->bucket;
      self->scope = fr_gather_target_of (last).scope;
      return;
    }
  trees = fr_gather_targets (self->book, FR_GATHER_TREE, self->day);
  self->scope = trees->len > 0 ? FR_GATHER_TREE : FR_GATHER_BUSH;
}

const FrGathering *
fr_gather_log_get_defaults (FrGatherLog *self)
{
  return defaults_of (self);
}

static void
show_day (FrGatherLog *self, FrDate day)
{
  self->day = day;
  g_array_set_size (self->shown_ids, 0);
  find_rounds (self);
  show_round (self, self->rounds->len > 0 ? self->rounds->len - 1 : 0);
  defaults_of (self)->gathered_utc
      = self->rounds->len > 0 ? began_utc (fr_gather_log_shown (self)) : usual_utc (self);
}

static void
forget_rows (FrGatherLog *self)
{
  for (guint i = 0; i < self->rows->len; i++)
    fr_gather_row_forget (g_ptr_array_index (self->rows, i));
}

FrGatherLog *
fr_gather_log_new (FrBook *book, const FrZoneTable *zone, gint64 now_utc)
{
  FrGatherLog *self = g_object_new (FR_TYPE_GATHER_LOG, NULL);

  self->book = g_object_ref (book);
  self->zone = zone != NULL ? fr_zone_table_copy (zone) : fr_zone_table_new_utc ();
  self->now_utc = now_utc;
  self->day = fr_zone_local (self->zone, now_utc).date;
  self->handler = g_signal_connect_swapped (book, "changed", G_CALLBACK (book_changed_cb), self);
  first_defaults (self);
  show_day (self, self->day);
  fr_gather_log_make_rows (self);
  return self;
}

FrBook *
fr_gather_log_get_book (FrGatherLog *self)
{
  return self->book;
}

void
fr_gather_log_set_now (FrGatherLog *self, const FrZoneTable *zone, gint64 now_utc)
{
  gboolean today = fr_date_compare (fr_zone_local (self->zone, self->now_utc).date, self->day) == 0;

  g_clear_pointer (&self->zone, fr_zone_table_free);
  self->zone = zone != NULL ? fr_zone_table_copy (zone) : fr_zone_table_new_utc ();
  self->now_utc = now_utc;
  if (self->typed_utc || fr_gather_log_shown (self) != NULL || fr_gather_log_sum (self).n_begun > 0)
    return;
  show_day (self, today ? fr_zone_local (self->zone, now_utc).date : self->day);
  fr_gather_log_make_rows (self);
}

FrDate
fr_gather_log_get_day (FrGatherLog *self)
{
  return self->day;
}

void
fr_gather_log_set_day (FrGatherLog *self, FrDate day)
{
  if (fr_date_compare (day, self->day) == 0)
    return;
  forget_rows (self);
  show_day (self, day);
  fr_gather_log_make_rows (self);
}

guint
fr_gather_log_n_rounds (FrGatherLog *self)
{
  return self->rounds->len;
}

gint64
fr_gather_log_round_utc (FrGatherLog *self, guint nth, guint *n_out)
{
  GPtrArray *round = g_ptr_array_index (self->rounds, nth);

  if (n_out != NULL)
    *n_out = round->len;
  return began_utc (round);
}

guint
fr_gather_log_get_round (FrGatherLog *self)
{
  return self->shown;
}

void
fr_gather_log_set_round (FrGatherLog *self, guint nth)
{
  if (MIN (nth, self->rounds->len) == self->shown)
    return;
  forget_rows (self);
  show_round (self, nth);
  defaults_of (self)->gathered_utc
      = fr_gather_log_shown (self) != NULL ? began_utc (fr_gather_log_shown (self)) : usual_utc (self);
  fr_gather_log_make_rows (self);
}

FrGatherScope
fr_gather_log_get_scope (FrGatherLog *self)
{
  return self->scope;
}

void
fr_gather_log_set_scope (FrGatherLog *self, FrGatherScope scope)
{
  if (scope == self->scope)
    return;
  self->scope = scope;
  fr_gather_log_make_rows (self);
}

FrGatherOrder
fr_gather_log_get_order (FrGatherLog *self)
{
  return self->order;
}

void
fr_gather_log_set_order (FrGatherLog *self, FrGatherOrder order)
{
  if (order == self->order)
    return;
  self->order = order;
  fr_gather_log_make_rows (self);
}

void
fr_gather_log_set_walk (FrGatherLog *self, const gint64 *trees, guint n)
{
  if (n == self->walk->len && (n == 0 || memcmp (trees, self->walk->data, n * sizeof *trees) == 0))
    return;
  g_array_set_size (self->walk, 0);
  g_array_append_vals (self->walk, trees, n);
  fr_gather_log_make_rows (self);
}

void
fr_gather_log_set_defaults (FrGatherLog *self, const FrGathering *defaults)
{
  gint64 before_utc = defaults_of (self)->gathered_utc;
  FrRecord *copy = fr_record_copy (&defaults->record);

  fr_record_free (self->defaults);
  self->defaults = copy;
  if (defaults_of (self)->gathered_utc == G_MININT64) /* not said: as it was */
    defaults_of (self)->gathered_utc = before_utc;
  if (defaults_of (self)->gathered_utc != before_utc)
    {
      self->day = fr_zone_local (self->zone, defaults_of (self)->gathered_utc).date;
      g_array_set_size (self->shown_ids, 0);
      find_rounds (self);
      remember_shown (self);
      self->typed_utc = TRUE;
    }
  fr_gather_log_make_rows (self);
}

guint
fr_gather_log_n_rows (FrGatherLog *self)
{
  return self->rows->len;
}

FrGatherRow *
fr_gather_log_row (FrGatherLog *self, guint nth)
{
  g_return_val_if_fail (nth < self->rows->len, NULL);
  return g_ptr_array_index (self->rows, nth);
}

static void
row_moved (FrGatherLog *self, FrGatherRow *row)
{
  fr_gather_row_tell (row);
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

void
fr_gather_log_type_row (FrGatherLog *self, FrGatherRow *row, FrGatherField field, const char *text)
{
  if (fr_gather_row_set_text (row, field, text))
    row_moved (self, row);
}

void
fr_gather_log_choose_row (FrGatherLog *self, FrGatherRow *row, const char *field, const char *code)
{
  fr_gather_row_choose (row, field, code);
  row_moved (self, row);
}

void
fr_gather_log_restore_row (FrGatherLog *self, FrGatherRow *row)
{
  fr_gather_row_forget (row);
  row_moved (self, row);
}

FrRecord *
fr_gather_log_record (FrGatherLog *self, FrGatherRow *row)
{
  return fr_gather_row_record (row);
}

FrGatherSum
fr_gather_log_sum (FrGatherLog *self)
{
  FrGatherSum sum = { .n_rows = self->rows->len, .sugar_kg = NAN, .brix = NAN };
  FrGatherMix mix = { 0 };

  for (guint i = 0; i < self->rows->len; i++)
    {
      FrGatherRow *row = g_ptr_array_index (self->rows, i);

      sum.n_begun += fr_gather_row_is_begun (row);
      if (fr_gather_row_get_id (row) == 0)
        continue;
      sum.n_kept++;
      fr_gather_mix_add (&mix, fr_gather_row_volume_l (row), fr_gather_row_brix (row));
    }
  sum.volume_l = mix.volume_l;
  sum.brix = fr_gather_mix_brix (&mix);
  if (mix.sweet_kg > 0)
    sum.sugar_kg = mix.sugar_kg;
  return sum;
}
