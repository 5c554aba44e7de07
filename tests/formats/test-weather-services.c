/* Answers of weather services. What is expected is worked out by hand from the services' documentation: MET Norway's data model of
 * Locationforecast 2.0, the National Weather Service's API (validTime as ISO 8601 interval, wmoUnit), Open-Meteo's list of parameters,
 * RFC 7807 for complaints. The files are made up to show the syntax. °C from °F: (°F − 32) × 5/9. */
#include "weather-said.h"

static char *
fixture_said (const char *name, const FrWeatherColumns *choice, FrWeather **weather_out)
{
  gsize length;
  g_autofree char *text = fixture (name, &length);

  *weather_out = fr_weather_read (text, length, choice, NULL);
  g_assert_nonnull (*weather_out);
  return said (*weather_out);
}

/* Eastern time from 8 March 2026, 07:00 UTC, on: UTC − 4 h. */
static FrZoneTable *
eastern (void)
{
  const FrZoneSpan spans[] = { { G_MININT64, -18000, FALSE, "EST" }, { 1772953200, -14400, TRUE, "EDT" } };

  return fr_zone_table_new ("America/New_York", spans, G_N_ELEMENTS (spans));
}

/* --- files --- */

static void
test_met_file (void)
{
  g_autoptr (FrWeather) weather = NULL;
  g_autofree char *seen = fixture_said ("metno-compact-synthetic.json", NULL, &weather);
  g_autoptr (GDateTime) issued = g_date_time_new_from_unix_utc (weather->issued_utc);
  g_autofree char *issued_text = g_date_time_format (issued, "%Y-%m-%dT%H:%M:%SZ");

  g_assert_cmpstr (seen, ==,
                   "2026-03-10T12:00:00Z -3.1 3600 ahead; 2026-03-10T13:00:00Z 0.4 3600 ahead; 2026-03-13T00:00:00Z 2.2 21600 ahead; "
                   "2026-03-19T12:00:00Z 4 21600 ahead");
  g_assert_cmpint (weather->format, ==, FR_WEATHER_MET_COMPACT);
  g_assert_true (weather->has_issued);
  g_assert_cmpstr (issued_text, ==, "2026-03-10T11:32:05Z");
  g_assert_cmpfloat (weather->latitude_deg, ==, 44.26);
  g_assert_cmpfloat (weather->longitude_deg, ==, -72.58);
  g_assert_cmpfloat (weather->altitude_m, ==, 180);
  /* Its terms ask for its name. */
  g_assert_nonnull (strstr (weather->attribution, "MET Norway"));
}

static void
test_grid_file (void)
{
  g_autoptr (FrWeather) weather = NULL, zoned = NULL;
  g_autoptr (FrZoneTable) zone = eastern ();
  const FrWeatherColumns choice = { .zone = zone };
  g_autofree char *seen = fixture_said ("nws-gridpoint-synthetic.json", NULL, &weather),
                  *with_days = fixture_said ("nws-gridpoint-synthetic.json", &choice, &zoned);

  /* 26 °F and 33 °F; two hours of the second; none of the third. */
  g_assert_cmpstr (seen, ==,
                   "2026-03-10T12:00:00Z -3.33333 3600 ahead; 2026-03-10T13:00:00Z 0.555556 3600 ahead; "
                   "2026-03-10T14:00:00Z 0.555556 3600 ahead; 2026-03-10T15:00:00Z ? 3600 ahead");
  /* 43 °F from 07:00 to 20:00 on the 10th; 22 °F from 20:00 on the 10th to 10:00 on the 11th, whose middle is 03:00. */
  g_assert_true (g_str_has_prefix (with_days, "2026-03-10 ? 6.11111 ahead; 2026-03-11 -5.55556 ? ahead; 2026-03-10T12"));
  g_assert_cmpint (weather->format, ==, FR_WEATHER_NWS_GRID);
  g_assert_cmpstr (weather->station, ==, "BTV/100,50");
  g_assert_cmpfloat_with_epsilon (weather->latitude_deg, 44.26, 1e-9);
  g_assert_cmpfloat_with_epsilon (weather->longitude_deg, -72.58, 1e-9);
  g_assert_cmpfloat (weather->altitude_m, ==, 180);
  g_assert_true (weather->has_issued);
}

static void
test_point_file (void)
{
  g_autoptr (FrWeather) weather = NULL;
  g_autofree char *seen = fixture_said ("nws-points-synthetic.json", NULL, &weather);

  g_assert_cmpstr (seen, ==, "");
  g_assert_cmpint (weather->format, ==, FR_WEATHER_NWS_POINT);
  g_assert_cmpstr (weather->next_link, ==, "https://api.weather.gov/gridpoints/BTV/100,50");
  g_assert_cmpstr (weather->station, ==, "BTV/100,50");
  g_assert_cmpfloat (weather->latitude_deg, ==, 44.26);
  g_assert_cmpfloat (weather->longitude_deg, ==, -72.58);
}

static void
test_open_meteo_file (void)
{
  g_autoptr (FrWeather) weather = NULL;
  g_autofree char *seen = fixture_said ("openmeteo-synthetic.json", NULL, &weather);

  /* Local midnight at UTC − 4 h is 04:00 UTC. */
  g_assert_cmpstr (seen, ==,
                   "2026-03-10 -5 7.3 ahead; 2026-03-10T04:00:00Z -4.1 3600 ahead; 2026-03-10T05:00:00Z -4.6 3600 ahead; "
                   "2026-03-10T06:00:00Z ? 3600 ahead");
  g_assert_cmpint (weather->format, ==, FR_WEATHER_OPEN_METEO);
  g_assert_cmpfloat (weather->altitude_m, ==, 180);
}

/* --- quirks and complaints --- */

#define MET(entries) "{\"type\":\"Feature\",\"properties\":{\"timeseries\":[" entries "]}}"
#define AT(time, temp, rest) "{\"time\":\"" time "\",\"data\":{\"instant\":{\"details\":{\"air_temperature\":" temp "}}" rest "}}"
#define GRID(uom, values) \
  "{\"properties\":{\"validTimes\":\"\",\"gridId\":\"BTV\",\"gridX\":100,\"gridY\":\"50\",\"temperature\":{\"uom\":\"" uom "\",\"values\":[" values "]}}}"
#define VALID(time, value) "{\"validTime\":\"" time "\",\"value\":" value "}"
#define METEO(units, hourly) "{\"utc_offset_seconds\":3600,\"hourly_units\":{" units "},\"hourly\":{" hourly "}}"

static const struct
{
  const char *name, *text, *said;
} answers[] = {
  { "met-no-next", MET (AT ("2026-03-10T12:00:00Z", "-3", "") "," AT ("2026-03-10T13:00:00Z", "-2", "") "," AT ("2026-03-10T19:00:00Z", "-1", "")),
    "2026-03-10T12:00:00Z -3 3600 ahead; 2026-03-10T13:00:00Z -2 21600 ahead; 2026-03-10T19:00:00Z -1 21600 ahead" },
  { "met-gap-of-hours",
    MET (AT ("2026-03-10T12:00:00Z", "-3", ",\"next_1_hours\":{}") "," AT ("2026-03-10T15:00:00Z", "-2", ",\"next_1_hours\":{}")),
    "2026-03-10T12:00:00Z -3 3600 ahead; 2026-03-10T15:00:00Z -2 3600 ahead" },
  { "met-unordered", MET (AT ("2026-03-10T18:00:00Z", "-3", "") "," AT ("2026-03-10T12:00:00Z", "-2", "")),
    "2026-03-10T12:00:00Z -2 21600 ahead; 2026-03-10T18:00:00Z -3 21600 ahead" },
  { "met-no-temperature", MET ("{\"time\":\"2026-03-10T12:00:00Z\",\"data\":{\"instant\":{\"details\":{\"wind_speed\":2}}}}"),
    "2026-03-10T12:00:00Z ? 21600 ahead" },
  { "met-absurd", MET (AT ("2026-03-10T12:00:00Z", "-93", "")),
    "properties.timeseries[0].data.instant.details.air_temperature is -93; it must be from -90 to 90" },
  { "met-bad-time", MET (AT ("2026-03-10T12:00:00", "-3", "")),
    "properties.timeseries[0].time is “2026-03-10T12:00:00”; it must be a time such as 2026-03-10T12:00:00Z" },
  { "met-no-instant", MET ("{\"time\":\"2026-03-10T12:00:00Z\",\"data\":{}}"),
    "properties.timeseries[0].data.instant is missing; give an object in { }" },
  { "met-nothing", MET (""), "properties.timeseries has 0 entries; it must have 1 to 5000" },
  { "met-kelvin",
    "{\"properties\":{\"meta\":{\"units\":{\"air_temperature\":\"K\"}},\"timeseries\":[" AT ("2026-03-10T12:00:00Z", "273", "") "]}}",
    "properties.meta.units.air_temperature is “K”; temperatures are read in °C or °F" },
  { "mark-before", "\xEF\xBB\xBF" MET (AT ("2026-03-10T12:00:00Z", "-3", "")), "2026-03-10T12:00:00Z -3 21600 ahead" },
  { "grid-fahrenheit", GRID ("wmoUnit:degF", VALID ("2026-03-10T12:00:00+00:00/PT1H", "14")), "2026-03-10T12:00:00Z -10 3600 ahead" },
  { "grid-offset", GRID ("wmoUnit:degC", VALID ("2026-03-10T08:00:00-04:00/PT1H", "1")), "2026-03-10T12:00:00Z 1 3600 ahead" },
  { "grid-half-hour", GRID ("wmoUnit:degC", VALID ("2026-03-10T12:00:00+00:00/PT1H30M", "1")),
    "2026-03-10T12:00:00Z 1 3600 ahead; 2026-03-10T13:00:00Z 1 1800 ahead" },
  { "grid-day", GRID ("wmoUnit:degC", VALID ("2026-03-10T12:00:00+00:00/P1D", "1") "," VALID ("2026-03-10T13:00:00+00:00/PT22H", "2")),
    "2026-03-10T12:00:00Z 1 3600 ahead; 2026-03-10T13:00:00Z 2 3600 ahead; 2026-03-10T14:00:00Z 2 3600 ahead; "
    "2026-03-10T15:00:00Z 2 3600 ahead; 2026-03-10T16:00:00Z 2 3600 ahead; 2026-03-10T17:00:00Z 2 3600 ahead; "
    "2026-03-10T18:00:00Z 2 3600 ahead; 2026-03-10T19:00:00Z 2 3600 ahead; 2026-03-10T20:00:00Z 2 3600 ahead; "
    "2026-03-10T21:00:00Z 2 3600 ahead; 2026-03-10T22:00:00Z 2 3600 ahead; 2026-03-10T23:00:00Z 2 3600 ahead; "
    "2026-03-11T00:00:00Z 2 3600 ahead; 2026-03-11T01:00:00Z 2 3600 ahead; 2026-03-11T02:00:00Z 2 3600 ahead; "
    "2026-03-11T03:00:00Z 2 3600 ahead; 2026-03-11T04:00:00Z 2 3600 ahead; 2026-03-11T05:00:00Z 2 3600 ahead; "
    "2026-03-11T06:00:00Z 2 3600 ahead; 2026-03-11T07:00:00Z 2 3600 ahead; 2026-03-11T08:00:00Z 2 3600 ahead; "
    "2026-03-11T09:00:00Z 2 3600 ahead; 2026-03-11T10:00:00Z 2 3600 ahead; 2026-03-11T11:00:00Z 1 3600 ahead" },
  { "grid-month", GRID ("wmoUnit:degC", VALID ("2026-03-10T12:00:00+00:00/P1M", "1")),
    "properties.temperature.values[0].validTime is “2026-03-10T12:00:00+00:00/P1M”; it must be a time and a duration of up to 60 days such as "
    "2026-03-10T12:00:00+00:00/PT2H" },
  { "grid-kelvin", GRID ("wmoUnit:K", VALID ("2026-03-10T12:00:00+00:00/PT1H", "273")),
    "properties.temperature.uom is “wmoUnit:K”; temperatures are read in °C or °F" },
  { "grid-no-temperature", "{\"properties\":{\"validTimes\":\"\"}}", "properties.temperature is missing; give an object in { }" },
  { "grid-text-value", GRID ("wmoUnit:degC", VALID ("2026-03-10T12:00:00+00:00/PT1H", "\"1\"")),
    "properties.temperature.values[0].value is text; it must be a number from -90 to 90" },
  { "grid-complaint",
    "{\"correlationId\":\"1a\",\"title\":\"Data Unavailable For Requested Point\",\"type\":\"https://api.weather.gov/problems/InvalidPoint\","
    "\"status\":404,\"detail\":\"Unable to provide data for requested point 45,-75\"}",
    "the service gave no weather; it says: Data Unavailable For Requested Point (404): Unable to provide data for requested point 45,-75" },
  { "grid-complaint-short", "{\"title\":\"Unexpected Problem\",\"status\":500}", "the service gave no weather; it says: Unexpected Problem (500)" },
  { "periods", "{\"properties\":{\"periods\":[]}}",
    "this is the National Weather Service's forecast by periods; its gridpoint answer is read, the one named by forecastGridData" },
  { "meteo-fahrenheit", METEO ("\"temperature_2m\":\"°F\"", "\"time\":[\"2026-03-10T00:00\"],\"temperature_2m\":[14]"),
    "2026-03-09T23:00:00Z -10 3600 ahead" },
  { "meteo-unix", METEO ("\"time\":\"unixtime\"", "\"time\":[1773100800],\"temperature_2m\":[1]"), "2026-03-10T00:00:00Z 1 3600 ahead" },
  { "meteo-unix-days",
    "{\"utc_offset_seconds\":-14400,\"daily\":{\"time\":[1773115200],\"temperature_2m_min\":[-5],\"temperature_2m_max\":[7]}}",
    "2026-03-10 -5 7 ahead" },
  { "meteo-sums",
    "{\"daily_units\":{\"precipitation_sum\":\"inch\"},\"daily\":{\"time\":[\"2026-03-10\"],\"temperature_2m_min\":[-5],"
    "\"temperature_2m_max\":[null],\"precipitation_sum\":[1],\"shortwave_radiation_sum\":[12.5]}}",
    "2026-03-10 -5 ? rain 25.4 sun 12.5 ahead" },
  { "meteo-greenwich", "{\"hourly\":{\"time\":[\"2026-03-10T00:00\"],\"temperature_2m\":[1]}}", "2026-03-10T00:00:00Z 1 3600 ahead" },
  { "meteo-uneven", METEO ("", "\"time\":[\"2026-03-10T00:00\",\"2026-03-10T01:00\"],\"temperature_2m\":[1]"),
    "hourly.temperature_2m has 1 entries; it must have 2 to 2" },
  { "meteo-bad-time", METEO ("", "\"time\":[\"10 March\"],\"temperature_2m\":[1]"),
    "hourly.time[0] must be a local time without an offset, such as 2026-03-10T00:00, or seconds since 1970" },
  { "meteo-nothing-asked", METEO ("", "\"time\":[\"2026-03-10T00:00\"]"),
    "the answer has neither hourly temperature_2m nor daily temperature_2m_min and temperature_2m_max; ask for them" },
  { "meteo-complaint", "{\"error\":true,\"reason\":\"Latitude must be in range of -90 to 90°. Given: 99.0.\"}",
    "the service gave no weather; it says: Latitude must be in range of -90 to 90°. Given: 99.0." },
  { "unknown", "{\"weather\":\"fine\"}",
    "the JSON is of no weather service that is known: MET Norway compact, National Weather Service gridpoint and point, and Open-Meteo are" },
  { "list", "[1]", "the JSON is no object in { }, as the answers of weather services are" },
  { "cut-off", "{\"properties\":{", "line 1, column 16: the text ends where a key in double quotes should stand" },
  { "deep", "{\"a\":[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[", "line 1, column 37: lists and objects are nested more than 32 deep" },
};

static void
test_answer (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  g_autofree char *seen = read_said (answers[i].text, NULL);

  g_assert_cmpstr (seen, ==, answers[i].said);
}

/* On the night of the change of clocks the middle of a low's span still falls on the morning. */
static void
test_grid_change (void)
{
  g_autoptr (FrZoneTable) zone = eastern ();
  const FrWeatherColumns choice = { .zone = zone };
  g_autofree char *seen = read_said ("{\"properties\":{\"validTimes\":\"\",\"temperature\":{\"values\":[]},\"minTemperature\":{\"values\":["
                                     "{\"validTime\":\"2026-03-08T00:00:00+00:00/PT13H\",\"value\":-4}]},\"maxTemperature\":{\"values\":["
                                     "{\"validTime\":\"2026-03-08T12:00:00+00:00/PT13H\",\"value\":6},"
                                     "{\"validTime\":\"2026-03-09T11:00:00+00:00/PT13H\",\"value\":null}]}}}",
                                     &choice);

  g_assert_cmpstr (seen, ==, "2026-03-08 -4 6 ahead");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/weather-services/met-file", test_met_file);
  g_test_add_func ("/weather-services/grid-file", test_grid_file);
  g_test_add_func ("/weather-services/point-file", test_point_file);
  g_test_add_func ("/weather-services/open-meteo-file", test_open_meteo_file);
  g_test_add_func ("/weather-services/grid-change", test_grid_change);
  for (guint i = 0; i < G_N_ELEMENTS (answers); i++)
    {
      g_autofree char *path = g_strdup_printf ("/weather-services/answer/%s", answers[i].name);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_answer);
    }
  return g_test_run ();
}
