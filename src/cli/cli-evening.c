/* Opening a book read-only for an answer: records, zone, and how the household is spoken to. */
#include "cli/cli-evening.h"
#include "cli/cli-read.h"

#include "domain/records/household-units.h"
#include "formats/json-input.h"
#include "formats/zone-source.h"

#include <locale.h>
#include <math.h>
#include <string.h>

#define YEAR_MIN 1600
#define YEAR_MAX 2400

/* A few years each way hold every date a plan can touch. */
#define ZONE_FROM_YEAR 2000
#define ZONE_TO_YEAR 2060

char
fr_cli_decimal_mark (void)
{
  /* The numbers' own locale is C here; the mark is the person's. */
  g_autofree char *was = g_strdup (setlocale (LC_NUMERIC, NULL));
  char mark;

  setlocale (LC_NUMERIC, "");
  mark = localeconv ()->decimal_point[0] == ',' ? ',' : '.';
  setlocale (LC_NUMERIC, was);
  return mark;
}

static gconstpointer
only (GPtrArray *records)
{
  return records->len > 0 ? records->pdata[0] : NULL;
}

FrSeasonBook
fr_cli_season_book (GPtrArray *const *kinds, const FrZoneTable *zone)
{
  return (FrSeasonBook){ .household = only (kinds[FR_KIND_HOUSEHOLD]),
                         .storing = only (kinds[FR_KIND_STORING]),
                         .tapping = only (kinds[FR_KIND_TAPPING]),
                         .forecasting = only (kinds[FR_KIND_FORECASTING]),
                         .zone = zone,
                         .trees = kinds[FR_KIND_TREE],
                         .girths = kinds[FR_KIND_GIRTH],
                         .taps = kinds[FR_KIND_TAP],
                         .yields = kinds[FR_KIND_YIELD],
                         .containers = kinds[FR_KIND_CONTAINER],
                         .gatherings = kinds[FR_KIND_GATHERING],
                         .pours = kinds[FR_KIND_POUR],
                         .dips = kinds[FR_KIND_DIP],
                         .days = kinds[FR_KIND_DAY],
                         .stations = kinds[FR_KIND_STATION],
                         .station_days = kinds[FR_KIND_STATION_DAY],
                         .outlooks = kinds[FR_KIND_OUTLOOK],
                         .chores = kinds[FR_KIND_CHORE],
                         .dismissals = kinds[FR_KIND_DISMISSAL],
                         .nights = kinds[FR_KIND_NIGHT],
                         .cookers = kinds[FR_KIND_COOKER],
                         .vessels = kinds[FR_KIND_VESSEL],
                         .circuits = kinds[FR_KIND_CIRCUIT],
                         .tariffs = kinds[FR_KIND_TARIFF],
                         .fuels = kinds[FR_KIND_FUEL] };
}

FrStore *
fr_cli_open_book (const char *path, GError **error)
{
  g_autofree char *own = g_build_filename (g_get_user_data_dir (), "frostrun", "book.frostrun", NULL);

  return fr_store_open (path != NULL ? path : own, FALSE, error);
}

gboolean
fr_cli_evening_load (FrCliEvening *evening, const char *path, GError **error)
{
  g_autoptr (FrStore) store = NULL;

  memset (evening, 0, sizeof *evening);
  store = fr_cli_open_book (path, error);
  if (store == NULL)
    return FALSE;
  for (guint kind = 0; kind < FR_N_KINDS; kind++)
    {
      evening->kinds[kind] = fr_store_load (store, kind, error);
      if (evening->kinds[kind] == NULL)
        return FALSE;
    }
  evening->book = fr_cli_season_book (evening->kinds, NULL);
  if (evening->book.household == NULL)
    return fr_cli_wrong (
        error, "the book has no household yet; open it once in the window and fill in place and zone");
  evening->zone = fr_zone_table_load (evening->book.household->zone, ZONE_FROM_YEAR, ZONE_TO_YEAR, error);
  if (evening->zone == NULL)
    return FALSE;
  evening->book.zone = evening->zone;
  evening->say.units = fr_household_units (evening->book.household, fr_cli_decimal_mark (),
                                           &evening->measures, &evening->n_measures);
  evening->say.currency = evening->book.household->currency;
  evening->say.zone = evening->zone;
  evening->say.twelve_hour = fr_say_locale_is_twelve_hour ();
  return TRUE;
}

void
fr_cli_evening_clear (FrCliEvening *evening)
{
  for (guint kind = 0; kind < FR_N_KINDS; kind++)
    g_clear_pointer (&evening->kinds[kind], g_ptr_array_unref);
  g_clear_pointer (&evening->zone, fr_zone_table_free);
  fr_measures_free (evening->measures, evening->n_measures);
  evening->measures = NULL;
}

gboolean
fr_cli_evening_time (const FrCliEvening *evening, const char *option, const char *text, gint64 on_utc,
                     gboolean after, gint64 *utc_out, GError **error)
{
  const char *clock = strchr (text, 'T');
  g_autofree char *day = clock != NULL ? g_strndup (text, (gsize)(clock - text)) : NULL;
  FrDate date = fr_zone_local (evening->zone, on_utc).date;
  gint minutes;
  gint64 second;

  if ((day != NULL && !fr_date_parse (day, &date))
      || !fr_clock_parse (clock != NULL ? clock + 1 : text, &minutes))
    return fr_cli_wrong (error, "%s “%s” is no time; write 19:00 or 2026-03-11T19:00", option, text);
  if (date.year < YEAR_MIN || date.year > YEAR_MAX)
    return fr_cli_wrong (error, "%s “%s” has to lie in the years %d to %d", option, text, YEAR_MIN, YEAR_MAX);
  for (guint i = 0; i < 2; i++)
    {
      if (fr_zone_instant (evening->zone, date, minutes * 60, utc_out, &second) == FR_ZONE_NEVER)
        {
          /* The last minute before the jump, and the first after it. */
          g_autofree char *before = fr_say_clock (&evening->say, *utc_out - 59);
          g_autofree char *next = fr_say_clock (&evening->say, second);

          /* A jump that is over is not meant: the same time of the next day is. */
          if (after && day == NULL && second <= on_utc && i == 0)
            {
              date = fr_date_add_days (date, 1);
              continue;
            }

          return fr_cli_wrong (error,
                               "%s “%s” does not exist that night: the clock goes from %s to %s; take "
                               "one of these",
                               option, text, before, next);
        }
      if (!after || day != NULL || *utc_out >= on_utc)
        break;
      date = fr_date_add_days (date, 1);
    }
  return TRUE;
}

gboolean
fr_cli_evening_amount (const FrSay *say, const char *option, const char *text, FrQuantityKind kind,
                       double *value_out, GError **error)
{
  FrQuantityProblem problem;
  double value;
  gsize at;

  if (text == NULL)
    return TRUE;
  if (!fr_quantity_parse (text, kind, &say->units, &value, &problem, &at) || !isfinite (value))
    return fr_cli_wrong (error, "%s “%s” cannot be read as an amount in %s", option, text,
                         fr_quantity_unit (kind, &say->units));
  *value_out = value;
  return TRUE;
}
