/* One row for each service, and its question written out.
 *
 * Sources: MET Norway's Terms of Service and Locationforecast 2.0 documentation (agent with contact,
 * coordinates of few decimals, whole metres of altitude); US National Weather Service, API Web Service (agent
 * with contact; /points tells the gridpoint); Open-Meteo, Forecast API and Terms (no key, non-commercial).
 * NWS sends whoever writes trailing zeros to the address without them (from memory), so none are written. */
#include "domain/maths/weather-service.h"

#include <math.h>
#include <string.h>

#define ALTITUDE_STEP_M 10.0

static const FrWeatherServiceRow rows[FR_N_WEATHER_SERVICES] = {
  [FR_WEATHER_SERVICE_OFF] = { "off", NULL, FALSE, FR_WEATHER_OWN, 0 },
  [FR_WEATHER_SERVICE_MET_NORWAY] = { "met-norway", "https://api.met.no", FALSE, FR_WEATHER_MET_COMPACT,
                                      FR_WEATHER_TERMS_CONTACT | FR_WEATHER_TERMS_CREDIT },
  [FR_WEATHER_SERVICE_NWS] = { "nws", "https://api.weather.gov", TRUE, FR_WEATHER_NWS_GRID,
                               FR_WEATHER_TERMS_CONTACT | FR_WEATHER_TERMS_UNITED_STATES },
  [FR_WEATHER_SERVICE_OPEN_METEO]
  = { "open-meteo", "https://api.open-meteo.com", FALSE, FR_WEATHER_OPEN_METEO,
      FR_WEATHER_TERMS_CREDIT | FR_WEATHER_TERMS_NON_COMMERCIAL },
};

static const char *const codes[FR_N_WEATHER_SERVICES + 1]
    = { "off", "met-norway", "nws", "open-meteo", NULL };

const FrWeatherServiceRow *
fr_weather_service (FrWeatherService service)
{
  g_return_val_if_fail ((guint)service < FR_N_WEATHER_SERVICES, &rows[FR_WEATHER_SERVICE_OFF]);
  return &rows[service];
}

const char *
fr_weather_service_code (FrWeatherService service)
{
  return fr_weather_service (service)->code;
}

gboolean
fr_weather_service_from_code (const char *code, FrWeatherService *service_out)
{
  for (guint i = 0; code != NULL && i < FR_N_WEATHER_SERVICES; i++)
    if (strcmp (rows[i].code, code) == 0)
      {
        *service_out = i;
        return TRUE;
      }
  return FALSE;
}

const char *const *
fr_weather_service_codes (void)
{
  return codes;
}

gboolean
fr_weather_place_is_known (double latitude_deg, double longitude_deg)
{
  /* Comparisons with NAN are false. */
  return fabs (latitude_deg) <= 90 && fabs (longitude_deg) <= 180;
}

/* "44.5": rounded, point-decimal, no zeros at the end and no zero with a sign. */
static char *
coordinate (double angle_deg)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];
  char *end;

  g_ascii_formatd (text, sizeof text, "%.2f", angle_deg);
  end = text + strlen (text);
  while (end[-1] == '0')
    *--end = '\0';
  if (end[-1] == '.')
    *--end = '\0';
  return g_strdup (strcmp (text, "-0") == 0 ? "0" : text);
}

char *
fr_weather_service_path (FrWeatherService service, double latitude_deg, double longitude_deg,
                         double altitude_m)
{
  g_autofree char *latitude = NULL, *longitude = NULL, *altitude = NULL;
  const gboolean has_altitude = fabs (altitude_m) < 9000;

  if (service == FR_WEATHER_SERVICE_OFF || !fr_weather_place_is_known (latitude_deg, longitude_deg))
    return NULL;
  latitude = coordinate (latitude_deg);
  longitude = coordinate (longitude_deg);
  altitude = has_altitude
                 ? g_strdup_printf ("%d", (int)(round (altitude_m / ALTITUDE_STEP_M) * ALTITUDE_STEP_M))
                 : NULL;
  switch (service)
    {
    case FR_WEATHER_SERVICE_MET_NORWAY:
      return g_strconcat ("/weatherapi/locationforecast/2.0/compact?lat=", latitude, "&lon=", longitude,
                          has_altitude ? "&altitude=" : NULL, altitude, NULL);
    case FR_WEATHER_SERVICE_NWS:
      return g_strconcat ("/points/", latitude, ",", longitude, NULL);
    case FR_WEATHER_SERVICE_OPEN_METEO:
      return g_strconcat ("/v1/forecast?latitude=", latitude, "&longitude=", longitude,
                          "&hourly=temperature_2m,precipitation&daily=temperature_2m_max,temperature_2m_min"
                          "&timezone=auto&forecast_days=16",
                          has_altitude ? "&elevation=" : NULL, altitude, NULL);
    default:
      g_return_val_if_reached (NULL);
    }
}
