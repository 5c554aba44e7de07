/* The open weather services a household may choose from: what is asked of each, of which address, and on what
 * terms.
 *
 * Nothing here asks anything. Sources: the services' published terms as of 2026 (docs/weather-services.md).
 */
#pragma once

#include "domain/maths/weather.h"

G_BEGIN_DECLS

/* Which service is asked; in the book by fr_weather_service_code. */
typedef enum
{
  FR_WEATHER_SERVICE_OFF,
  FR_WEATHER_SERVICE_MET_NORWAY,
  FR_WEATHER_SERVICE_NWS,
  FR_WEATHER_SERVICE_OPEN_METEO,
  FR_N_WEATHER_SERVICES
} FrWeatherService;

/* What a service's terms ask of who uses it. */
typedef enum
{
  FR_WEATHER_TERMS_CONTACT = 1 << 0,        /* a contact of who asks, sent with each question */
  FR_WEATHER_TERMS_CREDIT = 1 << 1,         /* its name beside what is shown */
  FR_WEATHER_TERMS_NON_COMMERCIAL = 1 << 2, /* no use for a trade without a contract */
  FR_WEATHER_TERMS_UNITED_STATES = 1 << 3   /* knows the United States alone */
} FrWeatherTerms;

/**
 * FrWeatherServiceRow:
 * @code: a fixed word for book and files
 * @base_address: where it is, NULL for none
 * @asks_twice: whether a first question tells the address of the second
 * @format: of the answer that holds the weather
 * @terms: FrWeatherTerms together
 */
typedef struct
{
  const char *code;
  const char *base_address;
  gboolean asks_twice;
  FrWeatherFormat format;
  guint terms;
} FrWeatherServiceRow;

/* The service's row; static. */
const FrWeatherServiceRow *
fr_weather_service (FrWeatherService service);
const char *
fr_weather_service_code (FrWeatherService service);
gboolean
fr_weather_service_from_code (const char *code, FrWeatherService *service_out);
/* All codes in the order of FrWeatherService, NULL-terminated; static, for the field of a record. */
const char *const *
fr_weather_service_codes (void);

/* Whether there is a place to ask about: latitude within ±90° and longitude within ±180°. */
gboolean
fr_weather_place_is_known (double latitude_deg, double longitude_deg);

/**
 * fr_weather_service_path:
 * @latitude_deg: north positive; rounded to 2 decimals, about a kilometre, before it is written
 * @longitude_deg: east positive; likewise
 * @altitude_m: above the sea, or NAN; rounded to 10 m, and left out where the service does not ask for it
 *
 * Path and query of the first question, to be put behind the base address.
 *
 * Returns: (transfer full) (nullable): NULL for FR_WEATHER_SERVICE_OFF and where the place is not known
 */
char *
fr_weather_service_path (FrWeatherService service, double latitude_deg, double longitude_deg,
                         double altitude_m);

G_END_DECLS
