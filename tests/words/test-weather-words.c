/* The weather service in sentences: whole and without holes whatever came of the question, with the day as a
 * person on the spot would name it. The credits are the wording the services' terms ask for. */
#include "words/weather-words.h"

#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "../domain/zones.h"
#include "sentences.h"

/* 2026-03-20 16:30 in Toronto, UTC-04:00. */
#define NOW 1774038600
#define HOUR 3600

static FrSay
say_of (const FrZoneTable *zone)
{
  return (FrSay){ { .system = FR_SYSTEM_METRIC, .decimal_mark = '.' }, "CAD", zone, FALSE };
}

static void
test_every (void)
{
  static const gint64 ages_s[]
      = { -HOUR, 0, HOUR, 11 * HOUR, 20 * HOUR, 40 * HOUR, 6 * 24 * HOUR, 200 * 24 * HOUR };
  g_autoptr (FrZoneTable) zone = test_zone ("America/Toronto");
  const FrSay say = say_of (zone);
  g_autoptr (GHashTable) labels = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint service = 0; service < FR_N_WEATHER_SERVICES; service++)
    for (guint outcome = 0; outcome < FR_N_FETCH_OUTCOMES; outcome++)
      for (guint tls = 0; tls < FR_N_FETCH_TLS; tls++)
        for (guint age = 0; age <= G_N_ELEMENTS (ages_s); age++)
          {
            FrFetchState state = fr_fetch_state (service, outcome);
            g_autofree char *text = NULL, *advice = NULL, *label = NULL;

            state.tls = tls;
            state.is_deprecated = age % 2;
            state.next_utc = age == 0 ? FR_FETCH_NEVER : age == 1 ? FR_FETCH_UNTIL_CHANGED : NOW + age * HOUR;
            if (age < G_N_ELEMENTS (ages_s))
              state.answered_utc = NOW - ages_s[age];
            text = fr_fetch_sentence (&state, NOW, &say);
            sentence (text);
            advice = fr_fetch_advice (&state, NOW, &say);
            if (advice != NULL)
              sentence (advice);
            label = fr_fetch_label (&state, NOW);
            sentence_parts (label);
            g_assert_cmpuint (g_utf8_strlen (label, -1), <=, 20);
            if (age == 0)
              g_hash_table_add (labels, g_steal_pointer (&label));
          }
  /* No two outcomes share a label. */
  g_assert_cmpuint (g_hash_table_size (labels), ==, FR_N_FETCH_OUTCOMES);
}

static void
sentence_is (FrFetchState state, const char *expected)
{
  g_autoptr (FrZoneTable) zone = test_zone ("America/Toronto");
  const FrSay say = say_of (zone);
  g_autofree char *text = fr_fetch_sentence (&state, NOW, &say);

  g_assert_cmpstr (text, ==, expected);
}

static void
test_examples (void)
{
  FrFetchState state = fr_fetch_state (FR_WEATHER_SERVICE_MET_NORWAY, FR_FETCH_OFFLINE);

  sentence_is (state, "No forecast yet; the service did not answer.");
  state.answered_utc = NOW - 8 * HOUR; /* 08:30 */
  sentence_is (state, "Forecast from this morning; the service did not answer.");
  state.answered_utc = NOW - 13 * HOUR; /* 03:30 */
  sentence_is (state, "Forecast from last night; the service did not answer.");
  state.answered_utc = NOW - 17 * HOUR; /* 23:30 the day before */
  sentence_is (state, "Forecast from yesterday; the service did not answer.");
  state.answered_utc = NOW - 48 * HOUR; /* 18 March 2026 was a Wednesday */
  sentence_is (state, "Forecast from Wednesday; the service did not answer.");
  state.answered_utc = NOW - 14 * 24 * HOUR; /* in winter time */
  sentence_is (state, "Forecast from Friday 6 March; the service did not answer.");
  state.answered_utc = NOW - HOUR / 2;
  state.outcome = FR_FETCH_ANSWERED;
  sentence_is (state, "Forecast from this afternoon.");
  state.answered_utc = NOW - 8 * HOUR;
  sentence_is (state, "Forecast from this morning; the service has not been asked since.");
  state.outcome = FR_FETCH_REFUSED;
  sentence_is (state, "Forecast from this morning; the service refuses to answer.");
}

static void
test_advice (void)
{
  g_autoptr (FrZoneTable) zone = test_zone ("America/Toronto");
  const FrSay say = say_of (zone);
  FrFetchState state = fr_fetch_state (FR_WEATHER_SERVICE_MET_NORWAY, FR_FETCH_TOO_OFTEN);
  g_autofree char *often = NULL, *tomorrow = NULL, *refused = NULL, *fresh = NULL, *deprecated = NULL;

  state.next_utc = NOW + 2 * HOUR;
  often = fr_fetch_advice (&state, NOW, &say);
  g_assert_cmpstr (often, ==, "It is asked again after 18:30.");
  state.next_utc = NOW + 12 * HOUR;
  tomorrow = fr_fetch_advice (&state, NOW, &say);
  g_assert_cmpstr (tomorrow, ==, "It is asked again after Saturday 04:30.");
  state.outcome = FR_FETCH_REFUSED;
  state.next_utc = FR_FETCH_UNTIL_CHANGED;
  refused = fr_fetch_advice (&state, NOW, &say);
  g_assert_nonnull (strstr (refused, "not asked again before"));
  g_assert_null (strstr (refused, "again after"));
  state.outcome = FR_FETCH_ANSWERED;
  state.next_utc = NOW + HOUR;
  fresh = fr_fetch_advice (&state, NOW, &say);
  g_assert_null (fresh);
  state.is_deprecated = TRUE;
  deprecated = fr_fetch_advice (&state, NOW, &say);
  g_assert_nonnull (strstr (deprecated, "will end"));
}

/* MET Norway: "you must give appropriate credit"; Open-Meteo: a link by name; both CC BY 4.0. */
static void
test_services (void)
{
  for (guint i = 0; i < FR_N_WEATHER_SERVICES; i++)
    {
      g_autofree char *terms = fr_weather_service_terms (i);
      const char *credit = fr_weather_service_credit (i);

      sentence (terms);
      sentence_parts (fr_weather_service_name (i));
      g_assert_cmpint (strstr (terms, "contact") != NULL, ==,
                       (fr_weather_service (i)->terms & FR_WEATHER_TERMS_CONTACT) != 0);
      g_assert_cmpint (credit != NULL, ==, i != FR_WEATHER_SERVICE_OFF);
      if (credit != NULL)
        sentence (credit);
      if (fr_weather_service (i)->terms & FR_WEATHER_TERMS_CREDIT)
        g_assert_nonnull (strstr (credit, "CC BY 4.0"));
    }
  g_assert_nonnull (strstr (fr_weather_service_credit (FR_WEATHER_SERVICE_MET_NORWAY), "MET Norway"));
  g_assert_nonnull (strstr (fr_weather_service_credit (FR_WEATHER_SERVICE_OPEN_METEO), "Open-Meteo.com"));
}

/* What is said to be sent is what is sent: the numbers of the question itself, at random places and on the edges of rounding. */
static void
test_place (void)
{
  g_autoptr (FrZoneTable) zone = test_zone ("America/Toronto");
  const FrSay say = say_of (zone);
  g_autoptr (GRand) rand = g_rand_new_with_seed (44);

  for (guint i = 0; i < 2000; i++)
    {
      double lat_deg = g_rand_double_range (rand, -89, 89), lon_deg = g_rand_double_range (rand, -179, 179);
      g_autofree char *path = NULL, *text = NULL, *numbers = NULL;
      double sent_lat_deg, sent_lon_deg, sent_m;

      if (i % 4 == 0)
        {
          lat_deg = floor (lat_deg * 100) / 100 + .005;
          lon_deg = floor (lon_deg * 100) / 100 + .005;
        }
      path = fr_weather_service_path (FR_WEATHER_SERVICE_MET_NORWAY, lat_deg, lon_deg, 251);
      g_assert_cmpint (sscanf (strchr (path, '?'), "?lat=%lf&lon=%lf&altitude=%lf", &sent_lat_deg, &sent_lon_deg, &sent_m), ==, 3);
      g_assert_cmpfloat_with_epsilon (sent_m, 250, 1e-9);
      numbers = g_strdup_printf ("%.2f° %s, %.2f° %s and", fabs (sent_lat_deg), lat_deg < 0 ? "S" : "N", fabs (sent_lon_deg), lon_deg < 0 ? "W" : "E");
      text = fr_weather_place_sentence (FR_WEATHER_SERVICE_MET_NORWAY, lat_deg, lon_deg, 251, &say);
      sentence (text);
      if (strstr (text, numbers) == NULL)
        g_error ("%s says not %s", text, numbers);
    }
  g_assert_null (fr_weather_place_sentence (FR_WEATHER_SERVICE_OFF, 44, -72, 251, &say));
}

/* The line beside a forecast: nothing while off, the credit as soon as there is weather. */
static void
test_line (void)
{
  g_autoptr (FrZoneTable) zone = test_zone ("America/Toronto");
  const FrSay say = say_of (zone);
  FrFetchState state = fr_fetch_state (FR_WEATHER_SERVICE_MET_NORWAY, FR_FETCH_OFFLINE);
  g_autofree char *none = NULL, *with = NULL, *next = NULL;

  none = fr_fetch_line (&state, NOW, &say);
  sentence (none);
  g_assert_null (strstr (none, "CC BY"));
  g_assert_null (fr_fetch_next_sentence (&state, NOW, &say));
  state.answered_utc = NOW - HOUR;
  state.next_utc = NOW + HOUR;
  with = fr_fetch_line (&state, NOW, &say);
  sentence (with);
  g_assert_nonnull (strstr (with, "CC BY 4.0"));
  next = fr_fetch_next_sentence (&state, NOW, &say);
  g_assert_nonnull (strstr (next, "17:30")); /* an hour after half past four in Toronto */
  state.outcome = FR_FETCH_OFF;
  g_assert_null (fr_fetch_line (&state, NOW, &say));
}

int
main (int argc, char **argv)
{
  setlocale (LC_ALL, "C");
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/weather-words/every", test_every);
  g_test_add_func ("/weather-words/examples", test_examples);
  g_test_add_func ("/weather-words/advice", test_advice);
  g_test_add_func ("/weather-words/services", test_services);
  g_test_add_func ("/weather-words/place", test_place);
  g_test_add_func ("/weather-words/line", test_line);
  return g_test_run ();
}
