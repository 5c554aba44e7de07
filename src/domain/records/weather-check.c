/* What the kinds of weather ask beyond single fields: a place of two numbers, marks that go with their temperatures, a forecast that can be
 * read, an address that is one. */
#include "domain/records/check-private.h"
#include "domain/records/outlook-text.h"

#include <math.h>
#include <string.h>

static void
check_station (GArray *problems, const FrStation *station)
{
  static const char *const place[] = { "latitude_deg", "longitude_deg", NULL };

  fr_check_together (problems, &station->record, place);
  fr_check_whole (problems, &station->record, "reading_minute");
}

/* What is absent or refused has no value; only what has one is estimated. */
static void
check_mark (GArray *problems, const FrRecord *record, double temp_c, const char *mark, const char *mark_name,
            const char *temp_name)
{
  gboolean without = strcmp (mark, "absent") == 0 || strcmp (mark, "refused") == 0;

  if (isnan (temp_c) ? strcmp (mark, "estimated") == 0 : without)
    fr_check_add_conflict (problems, record, mark_name, temp_name);
}

static void
check_station_day (GArray *problems, const FrStationDay *day)
{
  check_mark (problems, &day->record, day->low_c.value, day->low_mark, "low_mark", "low_c");
  check_mark (problems, &day->record, day->high_c.value, day->high_mark, "high_mark", "high_c");
  if (day->low_c.value > day->high_c.value)
    fr_check_add_conflict (problems, &day->record, "high_c", "low_c");
}

static void
check_outlook (GArray *problems, const FrOutlook *outlook)
{
  guint line = 0;
  FrWeather *weather = fr_outlook_parse (outlook->body, &line);

  if (weather == NULL)
    fr_check_add_bad_text (problems, &outlook->record, "body", line);
  fr_weather_free (weather);
}

static void
check_forecasting (GArray *problems, const FrForecasting *forecasting)
{
  fr_check_whole (problems, &forecasting->record, "gather_minute");
  if (forecasting->base_address != NULL && !g_str_has_prefix (forecasting->base_address, "https://")
      && !g_str_has_prefix (forecasting->base_address, "http://"))
    fr_check_add_bad_text (problems, &forecasting->record, "base_address", 1);
}

void
fr_check_weather (GArray *problems, const FrRecord *record)
{
  switch ((int)record->kind->id)
    {
    case FR_KIND_STATION:
      check_station (problems, (const FrStation *)record);
      break;
    case FR_KIND_STATION_DAY:
      check_station_day (problems, (const FrStationDay *)record);
      break;
    case FR_KIND_OUTLOOK:
      check_outlook (problems, (const FrOutlook *)record);
      break;
    case FR_KIND_FORECASTING:
      check_forecasting (problems, (const FrForecasting *)record);
      break;
    default:
      break;
    }
}
