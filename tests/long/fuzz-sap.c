/* A target for libFuzzer over the reader of gatherings and stock and what stands behind it. What is read is
 * brought into a book with a few trees and containers, all that is asked about confirmed; that book is
 * written and read into itself and must not change; the first table once more must change nothing either.
 * What is not read must have a sentence; no cell that is written may run in a spreadsheet. How to run:
 * tests/long/fuzz-sap. */
#include "formats/sap-csv.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size);

typedef struct
{
  GPtrArray *lists[FR_N_KINDS];
  FrZoneTable *zone;
  FrSeasonBook book;
} Sap;

static guint64 n_uids;

static void
new_uid (char uid_out[33])
{
  g_snprintf (uid_out, 33, "%016x%016" G_GINT64_MODIFIER "x", 0xf, ++n_uids);
}

static gpointer
add (Sap *sap, FrKindId kind)
{
  FrRecord *record = fr_record_new (kind);

  record->id = (gint64)sap->lists[kind]->len + 1;
  g_snprintf (record->uid, sizeof record->uid, "%016x%016x", (guint)kind, (guint)record->id);
  g_ptr_array_add (sap->lists[kind], record);
  return record;
}

static void
init (Sap *sap)
{
  static const char *const names[] = { "Gate", "Ridge", "=1" };
  const FrZoneSpan spans[] = { { G_MININT64, -18000, FALSE, "EST" },
                               { 1772953200, -14400, TRUE, "EDT" },
                               { 1793512800, -18000, FALSE, "EST" } };

  for (guint k = 0; k < FR_N_KINDS; k++)
    sap->lists[k] = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);
  sap->zone = fr_zone_table_new ("America/Toronto", spans, G_N_ELEMENTS (spans));
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      FrTree *tree = add (sap, FR_KIND_TREE);
      FrTap *tap = add (sap, FR_KIND_TAP);
      FrContainer *tub = add (sap, FR_KIND_CONTAINER);

      tree->name = g_strdup (names[i]);
      tree->stand = g_strdup ("Hollow");
      tap->tree = tree->record.id;
      tap->season.value = 2026;
      tap->set_on = g_strdup ("2026-03-01");
      tub->name = g_strdup (names[i]);
      tub->capacity_l.value = 30;
    }
  ((FrNight *)add (sap, FR_KIND_NIGHT))->evening = g_strdup ("2026-03-10");
  sap->book = (FrSeasonBook){ .zone = sap->zone,
                              .trees = sap->lists[FR_KIND_TREE],
                              .taps = sap->lists[FR_KIND_TAP],
                              .girths = sap->lists[FR_KIND_GIRTH],
                              .containers = sap->lists[FR_KIND_CONTAINER],
                              .gatherings = sap->lists[FR_KIND_GATHERING],
                              .pours = sap->lists[FR_KIND_POUR],
                              .dips = sap->lists[FR_KIND_DIP],
                              .nights = sap->lists[FR_KIND_NIGHT] };
}

static void
clear (Sap *sap)
{
  for (guint k = 0; k < FR_N_KINDS; k++)
    g_ptr_array_unref (sap->lists[k]);
  fr_zone_table_free (sap->zone);
}

/* How many steps it took, refused rows left out. */
static guint
bring_in (Sap *sap, const FrSapArrivals *arrivals, gboolean may_refuse)
{
  gint64 next_ids[FR_N_KINDS];
  g_autoptr (FrSapArrivalPreview) preview = NULL;
  g_autoptr (FrChange) change = NULL;

  for (guint k = 0; k < FR_N_KINDS; k++)
    next_ids[k] = sap->lists[k]->len + 1;
  preview = fr_sap_arrivals_preview (arrivals, &sap->book, next_ids, 1780000000);
  for (guint i = 0; i < preview->rows->len; i++)
    {
      FrSapArrivalRow *row = preview->rows->pdata[i];

      if (row->fate == FR_SAP_REFUSED && !may_refuse)
        g_error ("line %u refused: %d", row->arrival->line, row->refusal);
      row->left_out = row->fate == FR_SAP_REFUSED;
      row->confirmed = TRUE;
    }
  change = fr_sap_arrivals_change (preview, "import-stock", NULL, new_uid);
  for (guint i = 0; i < change->steps->len; i++)
    {
      const FrStep *step = change->steps->pdata[i];
      GPtrArray *list = sap->lists[step->after->kind->id];
      g_autoptr (GArray) problems = fr_record_check (step->after);

      g_assert_cmpuint (problems->len, ==, 0);
      if (step->before == NULL)
        {
          /* Rows left out leave gaps between the numbers. */
          FrRecord *record = fr_record_copy (step->after);

          g_ptr_array_add (list, record);
          continue;
        }
      for (guint m = 0; m < list->len; m++)
        if (list->pdata[m] == step->before || ((FrRecord *)list->pdata[m])->id == step->after->id)
          {
            FrRecord *record = fr_record_copy (step->after);

            fr_record_free (list->pdata[m]);
            list->pdata[m] = record;
            break;
          }
    }
  return change->steps->len;
}

static void
check_cells (const char *text)
{
  g_autoptr (GPtrArray) rows = fr_csv_read (text, strlen (text), NULL);

  for (guint i = 0; i < rows->len; i++)
    for (guint c = 0; c < ((FrCsvRow *)rows->pdata[i])->cells->len; c++)
      {
        const char *cell = ((FrCsvRow *)rows->pdata[i])->cells->pdata[c];

        if (*cell != '\0' && strchr ("=+-@\t\r", *cell) != NULL)
          g_assert_true (*cell == '-' && cell[1] != '\0'
                         && cell[1 + strspn (cell + 1, "0123456789.")] == '\0');
      }
}

static void
write_and_read (Sap *sap, char *(*write) (const FrSeasonBook *book, gint64 from_utc, gint64 to_utc))
{
  const FrSapCsvOptions options = { sap->zone, NULL, FALSE };
  g_autofree char *text = write (&sap->book, G_MININT64, G_MAXINT64);
  g_autoptr (GError) error = NULL;
  g_autoptr (FrSapArrivals) arrivals = fr_sap_csv_read (text, strlen (text), &options, &error);

  check_cells (text);
  if (arrivals == NULL)
    g_error ("%s in %s", error->message, text);
  if (bring_in (sap, arrivals, FALSE) != 0)
    g_error ("its own export changed the book: %s", text);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  Sap sap;
  g_autoptr (GError) error = NULL;
  g_autoptr (FrSapArrivals) arrivals = NULL;

  init (&sap);
  {
    const FrUnits units = { .system = FR_SYSTEM_US, .decimal_mark = '.' };
    const FrSapCsvOptions options = { sap.zone, &units, size > 0 && data[0] != 'd' && data[0] != 'r' };

    fr_sap_csv_looks_like ((const char *)data, size);
    arrivals = fr_sap_csv_read ((const char *)data, size, &options, &error);
  }
  if (arrivals == NULL)
    {
      g_assert_nonnull (error);
      g_assert_true (g_utf8_validate (error->message, -1, NULL));
    }
  else
    {
      bring_in (&sap, arrivals, TRUE);
      g_assert_cmpuint (bring_in (&sap, arrivals, TRUE), ==, 0);
      write_and_read (&sap, fr_gatherings_csv_write);
      write_and_read (&sap, fr_stock_csv_write);
    }
  clear (&sap);
  return 0;
}
