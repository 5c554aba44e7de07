/* A sentence about the service has two halves: how old the weather on hand is, and what became of the last
 * question. Credits as the services' terms ask for them in 2026: MET Norway and Open-Meteo by CC BY 4.0; the
 * US National Weather Service's work is in the public domain, and is named all the same. */
#include "words/weather-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

const char *
fr_weather_service_name (FrWeatherService service)
{
  static const char *const names[FR_N_WEATHER_SERVICES]
      = { N_ ("No service"), N_ ("MET Norway"), N_ ("US National Weather Service"), N_ ("Open-Meteo") };

  g_return_val_if_fail ((guint)service < FR_N_WEATHER_SERVICES, "");
  return _ (names[service]);
}

const char *
fr_weather_service_credit (FrWeatherService service)
{
  static const char *const credits[FR_N_WEATHER_SERVICES]
      = { NULL, N_ ("Weather data from MET Norway, under CC BY 4.0."),
          N_ ("Weather data from the US National Weather Service."),
          N_ ("Weather data by Open-Meteo.com, under CC BY 4.0.") };

  g_return_val_if_fail ((guint)service < FR_N_WEATHER_SERVICES, NULL);
  return credits[service] != NULL ? _ (credits[service]) : NULL;
}

char *
fr_weather_service_terms (FrWeatherService service)
{
  const guint terms = fr_weather_service (service)->terms;
  GString *text;

  if (service == FR_WEATHER_SERVICE_OFF)
    return g_strdup (
        _ ("Nothing is asked of the internet. Weather comes from files and from your own entries."));
  text = g_string_new (
      _ ("It is asked once an hour at most while the program is open, and told your place to about "
         "a kilometre."));
  if (terms & FR_WEATHER_TERMS_CONTACT)
    g_string_append_printf (text, " %s", _ ("It wants a contact, which is sent with each question."));
  if (terms & FR_WEATHER_TERMS_UNITED_STATES)
    g_string_append_printf (text, " %s", _ ("It knows places in the United States alone."));
  if (terms & FR_WEATHER_TERMS_NON_COMMERCIAL)
    g_string_append_printf (
        text, " %s", _ ("Free for use that earns no money; who sells syrup needs a contract with it."));
  return g_string_free (text, FALSE);
}

/* --- labels --- */

char *
fr_fetch_label (const FrFetchState *state, gint64 now_utc)
{
  static const char *const labels[FR_N_FETCH_OUTCOMES] = {
    [FR_FETCH_OFF] = N_ ("Off"),
    [FR_FETCH_NO_PLACE] = N_ ("No place"),
    [FR_FETCH_NO_CONTACT] = N_ ("No contact"),
    [FR_FETCH_BAD_ADDRESS] = N_ ("Wrong address"),
    [FR_FETCH_NO_FOLDER] = N_ ("Cannot be kept"),
    [FR_FETCH_NEVER_ASKED] = N_ ("Never asked"),
    [FR_FETCH_BROKEN_OFF] = N_ ("Broken off"),
    [FR_FETCH_ANSWERED] = N_ ("Fresh"),
    [FR_FETCH_OFFLINE] = N_ ("Offline"),
    [FR_FETCH_NOT_TRUSTED] = N_ ("Not safe"),
    [FR_FETCH_REFUSED] = N_ ("Refused"),
    [FR_FETCH_TOO_OFTEN] = N_ ("Asked too often"),
    [FR_FETCH_SERVER_WRONG] = N_ ("Service at fault"),
    [FR_FETCH_NOT_FOUND] = N_ ("Not found"),
    [FR_FETCH_SENT_AWAY] = N_ ("Sent elsewhere"),
    [FR_FETCH_UNREADABLE] = N_ ("Unreadable"),
    [FR_FETCH_TOO_LARGE] = N_ ("Too large"),
    [FR_FETCH_TOO_SLOW] = N_ ("Too slow"),
  };

  g_return_val_if_fail ((guint)state->outcome < FR_N_FETCH_OUTCOMES, NULL);
  if (state->outcome == FR_FETCH_ANSWERED && !fr_fetch_is_fresh (state, now_utc))
    {
      g_autofree char *age = fr_say_span (fr_fetch_age_s (state, now_utc));

      /* Translators: an age, as in "3 h old" */
      return g_strdup_printf (_ ("%s old"), age);
    }
  return g_strdup (_ (labels[state->outcome]));
}

/* --- the sentence --- */

/* "Forecast from this morning". */
static char *
how_old (const FrFetchState *state, gint64 now_utc, const FrSay *say)
{
  const FrLocalTime then = fr_zone_local (say->zone, state->answered_utc),
                    now = fr_zone_local (say->zone, now_utc);
  const gint64 days = fr_date_to_days (now.date) - fr_date_to_days (then.date);
  g_autofree char *day = NULL;

  if (days == 0 && then.second_of_day < 5 * 3600)
    return g_strdup (_ ("Forecast from last night"));
  if (days == 0 && then.second_of_day < 12 * 3600)
    return g_strdup (_ ("Forecast from this morning"));
  if (days == 0 && then.second_of_day < 17 * 3600)
    return g_strdup (_ ("Forecast from this afternoon"));
  if (days == 0)
    return g_strdup (_ ("Forecast from this evening"));
  if (days == 1)
    return g_strdup (_ ("Forecast from yesterday"));
  day = days > 1 && days <= 6 ? fr_say_weekday (then.date) : fr_say_date (then.date);
  /* Translators: a weekday or a date, as in "Forecast from Thursday" */
  return g_strdup_printf (_ ("Forecast from %s"), day);
}

static const char *
what_is_unsafe (FrFetchTls tls)
{
  static const char *const faults[FR_N_FETCH_TLS] = {
    [FR_FETCH_TLS_SOUND] = N_ ("no safe connection could be made"),
    [FR_FETCH_TLS_UNKNOWN_SIGNER] = N_ ("nobody this computer trusts vouches for the service"),
    [FR_FETCH_TLS_OTHER_NAME] = N_ ("who answered has the certificate of another address"),
    [FR_FETCH_TLS_OUT_OF_DATE] = N_ ("the service’s certificate is not valid today"),
    [FR_FETCH_TLS_REVOKED] = N_ ("the service’s certificate was called back"),
    [FR_FETCH_TLS_WEAK] = N_ ("the service’s certificate is too weak to be trusted"),
    [FR_FETCH_TLS_FAILED] = N_ ("no safe connection could be made"),
  };

  return _ (faults[tls]);
}

/* What became of the last question, as the second half of a sentence; NULL when all is well. */
static const char *
what_came (const FrFetchState *state, gint64 now_utc)
{
  static const char *const parts[FR_N_FETCH_OUTCOMES] = {
    [FR_FETCH_NO_CONTACT] = N_ ("the service wants a contact and none is given that can be sent"),
    [FR_FETCH_BAD_ADDRESS] = N_ ("the service’s address is none that may be asked"),
    [FR_FETCH_NO_FOLDER] = N_ ("answers cannot be kept, so none is asked for"),
    [FR_FETCH_NEVER_ASKED] = N_ ("the service has not been asked"),
    [FR_FETCH_BROKEN_OFF] = N_ ("the last question was broken off"),
    [FR_FETCH_OFFLINE] = N_ ("the service did not answer"),
    [FR_FETCH_REFUSED] = N_ ("the service refuses to answer"),
    [FR_FETCH_TOO_OFTEN] = N_ ("the service was asked too often"),
    [FR_FETCH_SERVER_WRONG] = N_ ("the service has a fault of its own"),
    [FR_FETCH_NOT_FOUND] = N_ ("the service has nothing for this place"),
    [FR_FETCH_SENT_AWAY] = N_ ("the service pointed elsewhere, which is not followed"),
    [FR_FETCH_UNREADABLE] = N_ ("the answer was cut short or holds no weather"),
    [FR_FETCH_TOO_LARGE] = N_ ("the answer was too large"),
    [FR_FETCH_TOO_SLOW] = N_ ("the answer took too long"),
  };

  if (state->outcome == FR_FETCH_NOT_TRUSTED)
    return what_is_unsafe (state->tls);
  if (state->outcome == FR_FETCH_ANSWERED)
    return fr_fetch_is_fresh (state, now_utc) ? NULL : _ ("the service has not been asked since");
  return parts[state->outcome] != NULL ? _ (parts[state->outcome]) : NULL;
}

char *
fr_fetch_sentence (const FrFetchState *state, gint64 now_utc, const FrSay *say)
{
  g_autofree char *age = NULL;
  const char *what;

  if (state->outcome == FR_FETCH_OFF)
    return g_strdup (_ ("No weather service is turned on. Nothing is asked of the internet."));
  if (state->outcome == FR_FETCH_NO_PLACE)
    return g_strdup (_ ("The book does not say where you are, so no weather can be asked for."));
  age = fr_fetch_has_weather (state) ? how_old (state, now_utc, say) : g_strdup (_ ("No forecast yet"));
  what = what_came (state, now_utc);
  if (what == NULL)
    return g_strdup_printf (_ ("%s."), age);
  /* Translators: how old the weather is, then what became of the last question: "Forecast from this morning;
   * the service did not answer." */
  return g_strdup_printf (_ ("%s; %s."), age, what);
}

/* --- advice --- */

static const char *
what_to_do (const FrFetchState *state)
{
  switch (state->outcome)
    {
    case FR_FETCH_NO_PLACE:
      return _ ("Enter the latitude and longitude of your sugarbush.");
    case FR_FETCH_NO_CONTACT:
      return _ (
          "Give an e-mail address or a web page of yours. The service uses it to tell you when something is "
          "wrong.");
    case FR_FETCH_BAD_ADDRESS:
      return _ ("It must begin with https:// and hold no password. Leave it empty for the service’s own.");
    case FR_FETCH_NO_FOLDER:
      return _ ("Make room on the disk, or let the program write to its cache folder.");
    case FR_FETCH_REFUSED:
      return _ ("Check contact and address. It is not asked again before the service, its address, the "
                "contact or the "
                "place is changed.");
    case FR_FETCH_NOT_FOUND:
      return fr_weather_service (state->service)->terms & FR_WEATHER_TERMS_UNITED_STATES
                 ? _ ("It knows places in the United States alone. Elsewhere choose another service.")
                 : _ ("Check the place, and the address if you gave one.");
    case FR_FETCH_NOT_TRUSTED:
      return state->tls == FR_FETCH_TLS_OUT_OF_DATE
                 ? _ ("Check date and clock of this computer.")
                 : _ ("Check whether a network asks you to sign in first.");
    case FR_FETCH_OFFLINE:
      return _ ("Check the connection of this computer.");
    case FR_FETCH_UNREADABLE:
      return _ ("Check whether a network asks you to sign in first.");
    default:
      return NULL;
    }
}

char *
fr_fetch_advice (const FrFetchState *state, gint64 now_utc, const FrSay *say)
{
  GString *text = g_string_new (what_to_do (state));

  if (state->is_deprecated)
    g_string_append_printf (
        text, "%s%s", text->len > 0 ? " " : "",
        _ ("The service says that this way of asking it will end. Look for a newer version of "
           "Frostrun."));
  if (state->outcome > FR_FETCH_ANSWERED && state->outcome != FR_FETCH_REFUSED && state->next_utc > now_utc
      && state->next_utc != FR_FETCH_UNTIL_CHANGED)
    {
      g_autofree char *when = fr_say_when (say, state->next_utc, now_utc);

      g_string_append_c (text, ' ');
      /* Translators: a clock time, or a day and a clock time */
      g_string_append_printf (text, _ ("It is asked again after %s."), when);
      if (text->str[0] == ' ')
        g_string_erase (text, 0, 1);
    }
  return g_string_free (text, text->len == 0);
}

char *
fr_fetch_next_sentence (const FrFetchState *state, gint64 now_utc, const FrSay *say)
{
  g_autofree char *when = NULL;

  if (state->next_utc == FR_FETCH_NEVER || state->next_utc == FR_FETCH_UNTIL_CHANGED || state->next_utc <= now_utc)
    return NULL;
  when = fr_say_when (say, state->next_utc, now_utc);
  /* Translators: a clock time, or a day and a clock time */
  return g_strdup_printf (_ ("It may be asked again after %s."), when);
}

char *
fr_fetch_line (const FrFetchState *state, gint64 now_utc, const FrSay *say)
{
  const char *credit = fr_fetch_has_weather (state) ? fr_weather_service_credit (state->service) : NULL;
  g_autofree char *sentence = NULL;

  if (state->outcome == FR_FETCH_OFF)
    return NULL;
  sentence = fr_fetch_sentence (state, now_utc, say);
  return credit != NULL ? g_strdup_printf ("%s %s", sentence, credit) : g_steal_pointer (&sentence);
}

/* --- what is sent --- */

/* To two decimals, and the height by tens of metres, as fr_weather_service_path() sends them. */
char *
fr_weather_place_sentence (FrWeatherService service, double latitude_deg, double longitude_deg, double altitude_m,
                           const FrSay *say)
{
  g_autofree char *latitude = NULL, *longitude = NULL, *height = NULL;

  if (service == FR_WEATHER_SERVICE_OFF)
    return NULL;
  if (!fr_weather_place_is_known (latitude_deg, longitude_deg))
    return g_strdup (_ ("The book does not say where you are: tie the plan of your sugarbush to the earth first."));
  latitude = fr_say_number (say, fabs (latitude_deg), 2);
  longitude = fr_say_number (say, fabs (longitude_deg), 2);
  if (isnan (altitude_m) || service == FR_WEATHER_SERVICE_NWS)
    /* Translators: latitude, N or S, longitude, E or W */
    return g_strdup_printf (_ ("It is told %s° %s, %s° %s."), latitude, latitude_deg < 0 ? _ ("S") : _ ("N"), longitude,
                            longitude_deg < 0 ? _ ("W") : _ ("E"));
  height = fr_say_amount (say, round (altitude_m / 10) * 10, FR_QUANTITY_ALTITUDE, 0);
  /* Translators: latitude, N or S, longitude, E or W, height above the sea with its unit */
  return g_strdup_printf (_ ("It is told %s° %s, %s° %s and a height of %s."), latitude,
                          latitude_deg < 0 ? _ ("S") : _ ("N"), longitude, longitude_deg < 0 ? _ ("W") : _ ("E"), height);
}
