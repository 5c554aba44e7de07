/* The description of the kinds of weather: stations, their days, what was told ahead, and how the household has it told.
 * The ranges of what a station tells are in kinds-private.h, for the text of a forecast has the same. */
#include "domain/records/kinds-private.h"

static const char *const source_codes[] = { "file", "met-norway", "nws", "open-meteo", "other", NULL };
static const char *const shift_codes[] = { "unknown", "no", "yes", NULL };
static const char *const mark_codes[] = { "plain", "absent", "estimated", "refused", NULL };
static const char *const service_codes[] = { "off", "met-norway", "nws", "open-meteo", NULL };

static const FrField station_fields[] = {
  TEXT (FrStation, name, NAME_CHARS, NEEDED),
  CODE (FrStation, source, source_codes),
  TEXT (FrStation, station_key, LINE_CHARS, OPTIONAL),
  AMOUNT (FrStation, latitude_deg, ANGLE, -90, 90, OPTIONAL),
  AMOUNT (FrStation, longitude_deg, ANGLE, -180, 180, OPTIONAL),
  AMOUNT (FrStation, altitude_m, ALTITUDE, -430, 9000, OPTIONAL),
  AMOUNT (FrStation, reading_minute, PLAIN, 0, 1439, OPTIONAL),
  CODE (FrStation, shift_highs, shift_codes),
  AMOUNT (FrStation, low_offset_k, DIFFERENCE, -30, 30, OPTIONAL),
  AMOUNT (FrStation, high_offset_k, DIFFERENCE, -30, 30, OPTIONAL),
  TEXT (FrStation, attribution, NOTE_CHARS, OPTIONAL),
  TEXT (FrStation, note, NOTE_CHARS, OPTIONAL),
};

static const FrField station_day_fields[] = {
  REF (FrStationDay, station, STATION, NEEDED),
  DATE (FrStationDay, day, NEEDED),
  AMOUNT (FrStationDay, low_c, TEMPERATURE, TOLD_MIN_C, TOLD_MAX_C, OPTIONAL),
  AMOUNT (FrStationDay, high_c, TEMPERATURE, TOLD_MIN_C, TOLD_MAX_C, OPTIONAL),
  AMOUNT (FrStationDay, rain_m, LENGTH, 0, TOLD_RAIN_MAX_M, OPTIONAL),
  AMOUNT (FrStationDay, snow_m, LENGTH, 0, TOLD_SNOW_MAX_M, OPTIONAL),
  AMOUNT (FrStationDay, sun_j_per_m2, PLAIN, 0, TOLD_SUN_MAX_J_PER_M2, OPTIONAL),
  CODE (FrStationDay, low_mark, mark_codes),
  CODE (FrStationDay, high_mark, mark_codes),
};

static const FrField outlook_fields[] = {
  REF (FrOutlook, station, STATION, NEEDED),
  TIME (FrOutlook, issued_utc, NEEDED),
  TIME (FrOutlook, fetched_utc, OPTIONAL),
  TEXT (FrOutlook, body, TABLE_CHARS, NEEDED),
};

static const FrField forecasting_fields[] = {
  CODE (FrForecasting, service, service_codes),
  TEXT (FrForecasting, base_address, LINE_CHARS, OPTIONAL),
  TEXT (FrForecasting, contact, LINE_CHARS, OPTIONAL),
  AMOUNT (FrForecasting, gather_minute, PLAIN, 0, 1439, OPTIONAL),
  AMOUNT (FrForecasting, error_first_k, DIFFERENCE, 0, 20, OPTIONAL),
  AMOUNT (FrForecasting, error_week_k, DIFFERENCE, 0, 20, OPTIONAL),
  AMOUNT (FrForecasting, error_memory_ratio, RATIO, 0, 1, OPTIONAL),
};

const FrKind fr_weather_kinds[FR_N_KINDS - FR_KIND_STATION] = {
  [FR_KIND_STATION - FR_KIND_STATION] = KIND (FR_KIND_STATION, "station", FrStation, station_fields, "name", FALSE),
  [FR_KIND_STATION_DAY - FR_KIND_STATION]
  = GROWING (FR_KIND_STATION_DAY, "station_day", FrStationDay, station_day_fields, "day", "day"),
  [FR_KIND_OUTLOOK - FR_KIND_STATION]
  = GROWING (FR_KIND_OUTLOOK, "outlook", FrOutlook, outlook_fields, NULL, "issued_utc"),
  [FR_KIND_FORECASTING - FR_KIND_STATION]
  = KIND (FR_KIND_FORECASTING, "forecasting", FrForecasting, forecasting_fields, "service", TRUE),
};
