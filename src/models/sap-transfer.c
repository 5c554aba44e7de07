/* The table is held against everything of the book in the time it speaks of, whichever seasons that is, so
 * that a file read twice changes nothing the second time. */
#include "models/sap-transfer.h"

#include <string.h>

#include "formats/sap-csv.h"
#include "formats/zone-source.h"

/* No table of a household is older; the zone is read from here on. */
#define FIRST_YEAR 1970

struct _FrSapImport
{
  FrBook *book;
  FrZoneTable *zone;
  FrSapArrivals *arrivals;
  FrSeasonBook records;
  FrSapArrivalPreview *preview;
  gboolean pasted;
};

static FrZoneTable *
zone_of (FrBook *book, gint64 now_utc)
{
  const FrHousehold *household = fr_book_get_household (book);
  int year = fr_date_from_days (now_utc / 86400).year;
  FrZoneTable *zone = household != NULL && household->zone != NULL
                          ? fr_zone_table_load (household->zone, FIRST_YEAR, year + 2, NULL)
                          : NULL;

  return zone != NULL ? zone : fr_zone_table_new_utc ();
}

/* The growing kinds' records of all the time the table speaks of in place of the season's. */
static gboolean
widen (FrSapImport *self, GError **error)
{
  const FrKindId kinds[] = { FR_KIND_GATHERING, FR_KIND_POUR, FR_KIND_DIP, FR_KIND_DAY };
  GPtrArray **const arrays[]
      = { &self->records.gatherings, &self->records.pours, &self->records.dips, &self->records.days };
  FrRecordSpan span;
  gint64 from_utc, to_utc;

  fr_season_span (self->zone, fr_book_get_season (self->book), &span);
  if (!fr_sap_arrivals_span (self->arrivals, &from_utc, &to_utc)
      || (from_utc >= span.from_utc && to_utc < span.to_utc))
    return TRUE;
  {
    FrRecordSpan first, last;

    fr_season_span (self->zone, fr_season_of (fr_zone_local (self->zone, from_utc).date), &first);
    fr_season_span (self->zone, fr_season_of (fr_zone_local (self->zone, to_utc).date), &last);
    span = (FrRecordSpan){ MIN (span.from_utc, first.from_utc), MAX (span.to_utc, last.to_utc),
                           fr_date_compare (first.first, span.first) < 0 ? first.first : span.first,
                           fr_date_compare (last.last, span.last) > 0 ? last.last : span.last };
  }
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      GPtrArray *loaded = fr_book_load_span (self->book, kinds[i], &span, error);

      if (loaded == NULL)
        return FALSE;
      g_ptr_array_unref (*arrays[i]);
      *arrays[i] = loaded;
    }
  return TRUE;
}

static gboolean
preview (FrSapImport *self, gint64 now_utc, GError **error)
{
  gint64 next_ids[FR_N_KINDS] = { 0 };

  for (guint k = 0; k < FR_N_KINDS; k++)
    {
      g_autoptr (FrRecord) next = fr_book_new_record (self->book, (FrKindId)k, 0, error);

      if (next == NULL)
        return FALSE;
      next_ids[k] = next->id;
    }
  self->preview = fr_sap_arrivals_preview (self->arrivals, &self->records, next_ids, now_utc);
  return TRUE;
}

FrSapImport *
fr_sap_import_new (FrBook *book, const char *text, gsize length, gboolean pasted, gint64 now_utc,
                   GError **error)
{
  g_autoptr (FrSapImport) self = g_new0 (FrSapImport, 1);
  FrSapCsvOptions options = { .units = fr_book_get_units (book), .pasted = pasted };

  self->book = g_object_ref (book);
  self->pasted = pasted;
  self->zone = zone_of (book, now_utc);
  options.zone = self->zone;
  fr_book_season_book (book, &self->records, self->zone);
  self->arrivals = fr_sap_csv_read (text, length, &options, error);
  if (self->arrivals == NULL || !widen (self, error) || !preview (self, now_utc, error))
    return NULL;
  return g_steal_pointer (&self);
}

void
fr_sap_import_free (FrSapImport *self)
{
  if (self == NULL)
    return;
  g_clear_pointer (&self->preview, fr_sap_arrival_preview_free);
  g_clear_pointer (&self->arrivals, fr_sap_arrivals_free);
  fr_book_season_book_clear (&self->records);
  g_clear_pointer (&self->zone, fr_zone_table_free);
  g_clear_object (&self->book);
  g_free (self);
}

const FrSapArrivals *
fr_sap_import_arrivals (const FrSapImport *self)
{
  return self->arrivals;
}

FrSapArrivalPreview *
fr_sap_import_preview (FrSapImport *self)
{
  return self->preview;
}

const FrSeasonBook *
fr_sap_import_book (const FrSapImport *self)
{
  return &self->records;
}

FrChange *
fr_sap_import_change (FrSapImport *self, const char *name)
{
  const char *label = self->pasted                                               ? "paste-gatherings"
                      : fr_sap_arrivals_have (self->arrivals, FR_KIND_GATHERING) ? "import-gatherings"
                                                                                 : "import-stock";
  g_autoptr (FrChange) change = fr_sap_arrivals_change (self->preview, label, name, fr_book_new_uid);

  return change == NULL || fr_change_is_empty (change) ? NULL : g_steal_pointer (&change);
}

char *
fr_sap_export (FrBook *book, gboolean stock)
{
  g_autoptr (FrZoneTable) zone = zone_of (book, g_get_real_time () / G_USEC_PER_SEC);
  FrSeasonBook records;
  FrRecordSpan span;
  char *text;

  fr_book_season_book (book, &records, zone);
  fr_season_span (zone, fr_book_get_season (book), &span);
  text = stock ? fr_stock_csv_write (&records, span.from_utc, span.to_utc)
               : fr_gatherings_csv_write (&records, span.from_utc, span.to_utc);
  fr_book_season_book_clear (&records);
  return text;
}
