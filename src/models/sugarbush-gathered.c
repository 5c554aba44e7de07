/* What was gathered in the seasons that the book's lists do not hold, as totals by tree. Twenty seasons are
 * more than a hundred thousand gatherings, so they are summed beside the main loop, a season a turn, and the
 * bush is made anew when that has shown something else than before. Until then it stands without them, or
 * with what they were. */
#include "models/sugarbush-private.h"

#include "domain/plan/gathering-share.h"

#include <string.h>

static const char *const fields[]
    = { "gathered_utc", "scope",   "tree",   "tap",          "stand",      "measured_by", "volume_l",
        "weight_kg",    "depth_m", "bucket", "reading_brix", "instrument", "sample_c",    NULL };

/* A sum that is being made. It holds what it looks at, so that the book may move. */
struct _FrBushSum
{
  GPtrArray *held; /* GPtrArray */
  FrZoneTable *zone;
  FrBushBook book;
  FrGatheringSharer *sharer;
  guint first;
  guint season; /* the next to be summed */
  guint last;
  guint skipped; /* the lists' own */
  guint idle;
};

static void
sum_free (FrBushSum *sum)
{
  if (sum == NULL)
    return;
  if (sum->idle != 0)
    g_source_remove (sum->idle);
  if (sum->sharer != NULL)
    g_array_unref (fr_gathering_sharer_finish (sum->sharer));
  g_ptr_array_unref (sum->held);
  fr_zone_table_free (sum->zone);
  g_free (sum);
}

void
fr_sugarbush_gathered_clear (FrSugarbush *self)
{
  g_clear_pointer (&self->summing, sum_free);
  g_clear_pointer (&self->gathered, g_array_unref);
}

static void
add_one (const FrRecord *record, gpointer data)
{
  fr_gathering_sharer_add (data, (const FrGathering *)record);
}

/* Whatever lies before the first season and after the last is looked at with it. */
static gboolean
add_season (FrSugarbush *self, FrBushSum *sum, guint season, GError **error)
{
  FrRecordSpan span;

  fr_season_span (sum->zone, season, &span);
  if (season == sum->first)
    span.from_utc = G_MININT64;
  if (season == sum->last)
    span.to_utc = G_MAXINT64;
  return fr_book_each (self->book, FR_KIND_GATHERING, &span, fields, add_one, sum->sharer, error);
}

static gboolean
is_same (const GArray *a, const GArray *b)
{
  const guint n_a = a != NULL ? a->len : 0, n_b = b != NULL ? b->len : 0;

  return n_a == n_b && (n_a == 0 || memcmp (a->data, b->data, n_a * sizeof (FrGatheredTotals)) == 0);
}

static gboolean
has_shares (const GArray *totals)
{
  for (guint i = 0; i < totals->len; i++)
    if (g_array_index (totals, FrGatheredTotals, i).n_estimated > 0)
      return TRUE;
  return FALSE;
}

static void
finish (FrSugarbush *self)
{
  FrBushSum *sum = self->summing;
  g_autoptr (GArray) totals = fr_gathering_sharer_finish (g_steal_pointer (&sum->sharer));

  sum->idle = 0;
  g_clear_pointer (&self->summing, sum_free);
  self->gathered_shared = has_shares (totals);
  if (is_same (totals, self->gathered))
    return;
  /* The bush that is there looks at the old ones until there is another. */
  {
    GArray *old = self->gathered;

    self->gathered = g_steal_pointer (&totals);
    fr_sugarbush_rebuild (self);
    g_clear_pointer (&old, g_array_unref);
  }
}

static gboolean
sum_cb (gpointer data)
{
  FrSugarbush *self = data;
  FrBushSum *sum = self->summing;
  g_autoptr (GError) error = NULL;
  const guint season = sum->season++;

  if (season != sum->skipped && !add_season (self, sum, season, &error))
    {
      /* A file that cannot be read says so at the next change or look at it. */
      g_warning ("%s", error->message);
      sum->idle = 0;
      g_clear_pointer (&self->summing, sum_free);
      return G_SOURCE_REMOVE;
    }
  if (season < sum->last)
    return G_SOURCE_CONTINUE;
  finish (self);
  return G_SOURCE_REMOVE;
}

static GPtrArray *
hold (FrBushSum *sum, GPtrArray *objects, GPtrArray *records)
{
  g_ptr_array_add (sum->held, g_ptr_array_ref (objects));
  g_ptr_array_add (sum->held, g_ptr_array_ref (records));
  return records;
}

/* From a season before the first taps of the book to one after today's. */
static void
find_seasons (const FrSugarbush *self, FrBushSum *sum, guint held_season)
{
  const guint today = fr_season_of (self->today);

  sum->season = MIN (today, held_season);
  sum->last = MAX (today, held_season) + 1;
  for (guint i = 0; i < sum->book.taps->len; i++)
    {
      const FrTap *tap = sum->book.taps->pdata[i];

      if (tap->season.value >= 2 && tap->season.value < sum->season)
        sum->season = (guint)tap->season.value;
    }
  sum->first = --sum->season;
  sum->skipped = held_season;
}

void
fr_sugarbush_sum_gathered (FrSugarbush *self, gboolean measures_moved, gboolean trees_moved)
{
  const guint serial = fr_book_far_serial (self->book), season = fr_book_get_season (self->book);
  FrBushSum *sum;

  if (self->sum_known && serial == self->sum_serial && season == self->sum_season && !measures_moved
      && !(trees_moved && (self->gathered_shared || self->summing != NULL)))
    return;
  self->sum_known = TRUE;
  self->sum_serial = serial;
  self->sum_season = season;
  g_clear_pointer (&self->summing, sum_free);
  sum = g_new0 (FrBushSum, 1);
  sum->held = g_ptr_array_new_with_free_func ((GDestroyNotify)g_ptr_array_unref);
  sum->zone = self->zone != NULL ? fr_zone_table_copy (self->zone) : fr_zone_table_new_utc ();
  sum->book = (FrBushBook){ .trees = hold (sum, self->held[0].objects, self->held[0].records),
                            .girths = hold (sum, self->held[1].objects, self->held[1].records),
                            .taps = hold (sum, self->held[2].objects, self->held[2].records),
                            .containers = hold (sum, self->held[8].objects, self->held[8].records),
                            .zone = sum->zone };
  find_seasons (self, sum, season);
  sum->sharer = fr_gathering_sharer_new (&sum->book);
  sum->idle = g_idle_add_full (G_PRIORITY_LOW, sum_cb, self, NULL);
  self->summing = sum;
}
