/* The season that an open book holds of its growing kinds, and the records that a season's answers are made of.
 *
 * A season is some thousands of gatherings, twenty seasons are more than a hundred thousand: opening and reading
 * anew take the time of one. The lists hold that one; a record of another season is read when somebody asks for
 * it and kept until the next change, and a whole other season when it is compared with. */
#include "models/book-private.h"

#include "domain/plan/bush.h"
#include "formats/zone-source.h"

gboolean
fr_book_is_growing (FrKindId kind)
{
  return fr_kind (kind)->time_field != NULL;
}

GHashTable *
fr_book_far_new (void)
{
  return g_hash_table_new_full (fr_record_hash, fr_record_is_same, (GDestroyNotify)fr_record_free, NULL);
}

static void
forget_other (FrBook *self)
{
  for (guint k = 0; k < FR_N_KINDS; k++)
    g_clear_pointer (&self->other[k], g_ptr_array_unref);
  self->other_season = 0;
}

guint
fr_book_far_serial (FrBook *self)
{
  return self->far_serial;
}

guint
fr_book_whole_serial (FrBook *self)
{
  return self->whole_serial;
}

gboolean
fr_book_each (FrBook *self, FrKindId kind, const FrRecordSpan *span, const char *const *fields, FrStoreEach each,
              gpointer user_data, GError **error)
{
  return fr_store_each (self->store, kind, span, fields, each, user_data, error);
}

/* What a change of a record makes wrong of what is kept beside the lists. */
enum
{
  MOVED_WHOLE = 1,
  MOVED_FAR = 2,
  MOVED_OTHER = 4
};

static guint
moved_by (const FrBook *self, const FrRecord *record)
{
  guint moved = 0;

  if (record == NULL)
    return 0;
  if (!fr_book_is_growing (record->kind->id))
    return MOVED_WHOLE;
  if (!fr_record_in_span (record, &self->span))
    moved |= MOVED_FAR;
  if (self->other_season != 0 && fr_record_in_span (record, &self->other_span))
    moved |= MOVED_OTHER;
  return moved;
}

void
fr_book_forget_far (FrBook *self, const FrChange *change)
{
  guint moved = change == NULL ? MOVED_WHOLE | MOVED_FAR | MOVED_OTHER : 0;

  g_hash_table_remove_all (self->far);
  for (guint i = 0; change != NULL && i < change->steps->len; i++)
    {
      const FrStep *step = g_ptr_array_index (change->steps, i);

      moved |= moved_by (self, step->before) | moved_by (self, step->after);
    }
  self->whole_serial += (moved & MOVED_WHOLE) != 0;
  self->far_serial += (moved & MOVED_FAR) != 0;
  if ((moved & MOVED_OTHER) != 0)
    forget_other (self);
}

const FrRecord *
fr_book_find_far (FrBook *self, FrKindId kind, gint64 id)
{
  const FrRecord wanted = { .kind = fr_kind (kind), .id = id };
  FrRecord *record = g_hash_table_lookup (self->far, &wanted);
  g_autoptr (GError) error = NULL;

  if (record != NULL)
    return record;
  /* A file that cannot be read says so at the next change or look at it. */
  if (!fr_store_find (self->store, kind, id, &record, &error))
    g_warning ("%s", error->message);
  if (record != NULL)
    g_hash_table_add (self->far, record);
  return record;
}

GPtrArray *
fr_book_load_span (FrBook *self, FrKindId kind, const FrRecordSpan *span, GError **error)
{
  return fr_store_load_span (self->store, kind, span, error);
}

/* Without a zone the season's edges are those of UTC. */
static void
span_of (guint season, const FrZoneTable *zone, FrRecordSpan *span_out)
{
  g_autoptr (FrZoneTable) utc = zone == NULL ? fr_zone_table_new_utc () : NULL;

  fr_season_span (zone != NULL ? zone : utc, season, span_out);
}

static gboolean
same_span (const FrRecordSpan *a, const FrRecordSpan *b)
{
  return a->from_utc == b->from_utc && a->to_utc == b->to_utc;
}

static gboolean
hold_season (FrBook *self, guint season, const FrZoneTable *zone, GError **error)
{
  FrRecordSpan span;

  span_of (season, zone, &span);
  if (!fr_book_load (self, &span, FALSE, error))
    return FALSE;
  self->season = season;
  self->span = span;
  return TRUE;
}

gboolean
fr_book_begin_season (FrBook *self, GError **error)
{
  const FrHousehold *household = fr_book_get_household (self);
  gint64 now_utc = g_get_real_time () / G_USEC_PER_SEC;
  FrDate today = fr_date_from_days (now_utc / 86400);
  /* A zone this machine does not know is told of where the household is edited. */
  g_autoptr (FrZoneTable) zone
      = household != NULL ? fr_zone_table_load (household->zone, today.year - 2, today.year + 2, NULL) : NULL;

  return hold_season (self, fr_season_of (zone != NULL ? fr_zone_local (zone, now_utc).date : today), zone, error);
}

gboolean
fr_book_set_season (FrBook *self, guint season, const FrZoneTable *zone, GError **error)
{
  FrRecordSpan span;

  g_return_val_if_fail (FR_IS_BOOK (self) && season >= 2 && season <= 9999, FALSE);
  span_of (season, zone, &span);
  if (season == self->season && same_span (&span, &self->span))
    return TRUE;
  if (!fr_book_refresh (self, error) || !hold_season (self, season, zone, error))
    return FALSE;
  fr_book_tell_changed (self);
  return TRUE;
}

guint
fr_book_get_season (FrBook *self)
{
  return self->season;
}

/* The place of a kind's array in a season's book; NULL for kinds that are none of its arrays. */
static GPtrArray **
array_of (FrSeasonBook *book, FrKindId kind)
{
  switch ((int)kind)
    {
    case FR_KIND_TREE:
      return &book->trees;
    case FR_KIND_GIRTH:
      return &book->girths;
    case FR_KIND_TAP:
      return &book->taps;
    case FR_KIND_YIELD:
      return &book->yields;
    case FR_KIND_CONTAINER:
      return &book->containers;
    case FR_KIND_GATHERING:
      return &book->gatherings;
    case FR_KIND_POUR:
      return &book->pours;
    case FR_KIND_DIP:
      return &book->dips;
    case FR_KIND_DAY:
      return &book->days;
    case FR_KIND_STATION:
      return &book->stations;
    case FR_KIND_STATION_DAY:
      return &book->station_days;
    case FR_KIND_OUTLOOK:
      return &book->outlooks;
    case FR_KIND_CHORE:
      return &book->chores;
    case FR_KIND_DISMISSAL:
      return &book->dismissals;
    case FR_KIND_NIGHT:
      return &book->nights;
    case FR_KIND_COOKER:
      return &book->cookers;
    case FR_KIND_VESSEL:
      return &book->vessels;
    case FR_KIND_CIRCUIT:
      return &book->circuits;
    case FR_KIND_TARIFF:
      return &book->tariffs;
    case FR_KIND_FUEL:
      return &book->fuels;
    default:
      return NULL;
    }
}

/* The one record of a kind of which a book has one, held; NULL without. */
static gpointer
hold_single (FrBook *self, FrKindId kind)
{
  FrRecordList *list = self->lists[kind];

  return fr_record_list_get_size (list) > 0 ? fr_record_hold (fr_record_list_get (list, 0)) : NULL;
}

void
fr_book_season_book (FrBook *self, FrSeasonBook *out, const FrZoneTable *zone)
{
  g_return_if_fail (FR_IS_BOOK (self) && out != NULL);

  *out = (FrSeasonBook){ .household = hold_single (self, FR_KIND_HOUSEHOLD),
                         .storing = hold_single (self, FR_KIND_STORING),
                         .tapping = hold_single (self, FR_KIND_TAPPING),
                         .forecasting = hold_single (self, FR_KIND_FORECASTING),
                         .zone = zone };
  for (guint k = 0; k < FR_N_KINDS; k++)
    if (array_of (out, k) != NULL)
      *array_of (out, k) = g_ptr_array_ref (fr_record_list_get_records (self->lists[k]));
}

/* All kinds are read before any is kept. */
static gboolean
read_other (FrBook *self, guint season, const FrRecordSpan *span, GError **error)
{
  forget_other (self);
  for (guint k = 0; k < FR_N_KINDS; k++)
    if (fr_book_is_growing (k))
      {
        self->other[k] = fr_store_load_span (self->store, k, span, error);
        if (self->other[k] == NULL)
          {
            forget_other (self);
            return FALSE;
          }
      }
  self->other_season = season;
  self->other_span = *span;
  return TRUE;
}

gboolean
fr_book_other_season_book (FrBook *self, FrSeasonBook *out, guint season, const FrZoneTable *zone, GError **error)
{
  FrRecordSpan span;

  *out = (FrSeasonBook){ NULL };
  span_of (season, zone, &span);
  if (!same_span (&span, &self->span) && !(season == self->other_season && same_span (&span, &self->other_span))
      && !read_other (self, season, &span, error))
    return FALSE;
  fr_book_season_book (self, out, zone);
  for (guint k = 0; k < FR_N_KINDS && !same_span (&span, &self->span); k++)
    if (fr_book_is_growing (k))
      {
        g_ptr_array_unref (*array_of (out, k));
        *array_of (out, k) = g_ptr_array_ref (self->other[k]);
      }
  return TRUE;
}

void
fr_book_season_book_clear (FrSeasonBook *book)
{
  fr_record_free ((FrRecord *)book->household);
  fr_record_free ((FrRecord *)book->storing);
  fr_record_free ((FrRecord *)book->tapping);
  fr_record_free ((FrRecord *)book->forecasting);
  for (guint k = 0; k < FR_N_KINDS; k++)
    if (array_of (book, k) != NULL)
      g_clear_pointer (array_of (book, k), g_ptr_array_unref);
  *book = (FrSeasonBook){ NULL };
}
