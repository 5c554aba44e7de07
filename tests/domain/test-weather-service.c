/* What is asked of a weather service: the addresses as the services document them, and that no question tells
 * more of where the household lives than two decimals. Sources: MET Norway, Locationforecast 2.0 and Terms of
 * Service; US National Weather Service, API Web Service (/points/{lat},{lon}); Open-Meteo, Forecast API. */
#include "domain/plan/fetch-state.h"
#include "domain/records/kinds.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static void
path_is (FrWeatherService service, double latitude_deg, double longitude_deg, double altitude_m,
         const char *expected)
{
  g_autofree char *path = fr_weather_service_path (service, latitude_deg, longitude_deg, altitude_m);

  g_assert_cmpstr (path, ==, expected);
}

static void
test_paths (void)
{
  path_is (FR_WEATHER_SERVICE_MET_NORWAY, 44.26071, -72.57538, 248.3,
           "/weatherapi/locationforecast/2.0/compact?lat=44.26&lon=-72.58&altitude=250");
  path_is (FR_WEATHER_SERVICE_MET_NORWAY, -41, 147.2, NAN,
           "/weatherapi/locationforecast/2.0/compact?lat=-41&lon=147.2");
  path_is (FR_WEATHER_SERVICE_MET_NORWAY, -0.004, 0.004, 0,
           "/weatherapi/locationforecast/2.0/compact?lat=0&lon=0&altitude=0");
  path_is (FR_WEATHER_SERVICE_NWS, 44.5, -73.004, 100, "/points/44.5,-73");
  path_is (FR_WEATHER_SERVICE_OPEN_METEO, 45.1998, -71.9, NAN,
           "/v1/forecast?latitude=45.2&longitude=-71.9&hourly=temperature_2m,precipitation"
           "&daily=temperature_2m_max,temperature_2m_min&timezone=auto&forecast_days=16");
  path_is (FR_WEATHER_SERVICE_OPEN_METEO, 45.1998, -71.9, -3,
           "/v1/forecast?latitude=45.2&longitude=-71.9&hourly=temperature_2m,precipitation"
           "&daily=temperature_2m_max,temperature_2m_min&timezone=auto&forecast_days=16&elevation=0");
}

static void
test_no_place (void)
{
  for (guint i = 0; i < FR_N_WEATHER_SERVICES; i++)
    {
      path_is (i, NAN, -72, 100, NULL);
      path_is (i, 44, NAN, 100, NULL);
      path_is (i, 90.01, 0, 100, NULL);
      path_is (i, 0, -180.01, 100, NULL);
      path_is (i, INFINITY, 0, 100, NULL);
    }
  path_is (FR_WEATHER_SERVICE_OFF, 44.26, -72.58, 100, NULL);
}

/* Each number in the path that has a decimal point has one or two decimals; the first two are the place
 * within half a hundredth of a degree. */
static void
test_decimals (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20260319);
  g_autoptr (GRegex) number = g_regex_new ("(?<=[=,]|points/)-?[0-9]+(\\.[0-9]+)?", 0, 0, NULL);

  for (guint i = 0; i < 20000; i++)
    {
      const FrWeatherService service = g_rand_int_range (rand, 1, FR_N_WEATHER_SERVICES);
      const double place_deg[2]
          = { g_rand_double_range (rand, -90, 90), g_rand_double_range (rand, -180, 180) };
      g_autofree char *path = fr_weather_service_path (service, place_deg[0], place_deg[1],
                                                       g_rand_double_range (rand, -400, 8000));
      g_autoptr (GMatchInfo) match = NULL;
      guint n = 0;

      g_regex_match (number, path, 0, &match);
      for (; g_match_info_matches (match); g_match_info_next (match, NULL))
        {
          g_autofree char *text = g_match_info_fetch (match, 0);
          const char *point = strchr (text, '.');

          if (n < 2)
            g_assert_cmpfloat_with_epsilon (g_ascii_strtod (text, NULL), place_deg[n], 0.005 + 1e-9);
          n++;
          if (point != NULL)
            g_assert_cmpuint (strlen (point + 1), <=, 2);
        }
      g_assert_cmpuint (n, >=, 2);
    }
}

/* The services that require a contact and those that require credit, by their terms; the one that asks twice.
 */
static void
test_rows (void)
{
  FrWeatherService service;

  for (guint i = 0; i < FR_N_WEATHER_SERVICES; i++)
    {
      const FrWeatherServiceRow *row = fr_weather_service (i);

      g_assert_true (fr_weather_service_from_code (row->code, &service));
      g_assert_cmpuint (service, ==, i);
      g_assert_cmpstr (fr_weather_service_codes ()[i], ==, row->code);
      g_assert_true (i == FR_WEATHER_SERVICE_OFF ? row->base_address == NULL
                                                 : g_str_has_prefix (row->base_address, "https://"));
    }
  g_assert_null (fr_weather_service_codes ()[FR_N_WEATHER_SERVICES]);
  g_assert_false (fr_weather_service_from_code ("elsewhere", &service));
  g_assert_false (fr_weather_service_from_code (NULL, &service));
  g_assert_true (fr_weather_service (FR_WEATHER_SERVICE_MET_NORWAY)->terms & FR_WEATHER_TERMS_CONTACT);
  g_assert_true (fr_weather_service (FR_WEATHER_SERVICE_NWS)->terms & FR_WEATHER_TERMS_CONTACT);
  g_assert_false (fr_weather_service (FR_WEATHER_SERVICE_OPEN_METEO)->terms & FR_WEATHER_TERMS_CONTACT);
  g_assert_true (fr_weather_service (FR_WEATHER_SERVICE_OPEN_METEO)->terms & FR_WEATHER_TERMS_NON_COMMERCIAL);
  g_assert_true (fr_weather_service (FR_WEATHER_SERVICE_NWS)->asks_twice);
}

/* The book keeps the same words, in the same order. */
static void
test_book (void)
{
  const FrField *field = fr_kind_field (fr_kind (FR_KIND_FORECASTING), "service");

  for (guint i = 0; i < FR_N_WEATHER_SERVICES; i++)
    g_assert_cmpstr (field->codes[i], ==, fr_weather_service_code (i));
  g_assert_null (field->codes[FR_N_WEATHER_SERVICES]);
}

static void
test_age (void)
{
  FrFetchState state = fr_fetch_state (FR_WEATHER_SERVICE_NWS, FR_FETCH_NEVER_ASKED);
  FrFetchOutcome outcome;

  g_assert_false (fr_fetch_has_weather (&state));
  g_assert_false (fr_fetch_is_fresh (&state, 0));
  g_assert_cmpint (fr_fetch_age_s (&state, 0), ==, -1);
  state.answered_utc = 1000000;
  g_assert_true (fr_fetch_is_fresh (&state, 1000000 + FR_FETCH_FRESH_S - 1));
  g_assert_false (fr_fetch_is_fresh (&state, 1000000 + FR_FETCH_FRESH_S));
  state.fresh_until_utc = 1000000 + 2 * FR_FETCH_FRESH_S;
  g_assert_true (fr_fetch_is_fresh (&state, 1000000 + 2 * FR_FETCH_FRESH_S - 1));
  g_assert_false (fr_fetch_is_fresh (&state, 1000000 + 2 * FR_FETCH_FRESH_S));
  g_assert_cmpint (fr_fetch_age_s (&state, 999990), ==, 0);
  for (guint i = 0; i < FR_N_FETCH_OUTCOMES; i++)
    {
      g_assert_true (fr_fetch_outcome_from_code (fr_fetch_outcome_code (i), &outcome));
      g_assert_cmpuint (outcome, ==, i);
    }
  g_assert_false (fr_fetch_outcome_from_code ("", &outcome));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/weather-service/paths", test_paths);
  g_test_add_func ("/weather-service/no-place", test_no_place);
  g_test_add_func ("/weather-service/decimals", test_decimals);
  g_test_add_func ("/weather-service/rows", test_rows);
  g_test_add_func ("/weather-service/book", test_book);
  g_test_add_func ("/weather-service/age", test_age);
  return g_test_run ();
}
