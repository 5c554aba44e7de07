/* How it stands with the weather service: what became of the last question, and when the next may be asked.
 * Codes and instants alone; sentences are in words/weather-words. */
#pragma once

#include "domain/maths/weather-service.h"

G_BEGIN_DECLS

/* An instant that is not known, and the day when something is changed. */
#define FR_FETCH_NEVER G_MININT64
#define FR_FETCH_UNTIL_CHANGED G_MAXINT64

/* Whatever is not older than this is fresh, even if the service promised less. */
#define FR_FETCH_FRESH_S (3 * 3600)

/* What became of the last question, or why none is asked. */
typedef enum
{
  FR_FETCH_OFF,          /* the household has chosen no service */
  FR_FETCH_NO_PLACE,     /* the book does not say where the household is */
  FR_FETCH_NO_CONTACT,   /* the service asks for one and none is given, or none that can be sent */
  FR_FETCH_BAD_ADDRESS,  /* the base address is none, or not https */
  FR_FETCH_NO_FOLDER,    /* what was asked cannot be remembered, so nothing is asked */
  FR_FETCH_NEVER_ASKED,  /* nothing stands in the way */
  FR_FETCH_BROKEN_OFF,   /* cancelled, or the program ended meanwhile */
  FR_FETCH_ANSWERED,     /* with weather, or that nothing has changed */
  FR_FETCH_OFFLINE,      /* no connection: no network, no such host, nobody there */
  FR_FETCH_NOT_TRUSTED,  /* the connection is not safe; see FrFetchTls */
  FR_FETCH_REFUSED,      /* 401, 403 and the like: not asked again before something is changed */
  FR_FETCH_TOO_OFTEN,    /* 429 */
  FR_FETCH_SERVER_WRONG, /* 5xx */
  FR_FETCH_NOT_FOUND,    /* 404 and other 4xx: not known there */
  FR_FETCH_SENT_AWAY,    /* to another host, to a connection that is not safe, or in circles */
  FR_FETCH_UNREADABLE,   /* cut short, or not what was expected */
  FR_FETCH_TOO_LARGE,
  FR_FETCH_TOO_SLOW,
  FR_N_FETCH_OUTCOMES
} FrFetchOutcome;

/* Why a connection is not safe. */
typedef enum
{
  FR_FETCH_TLS_SOUND,
  FR_FETCH_TLS_UNKNOWN_SIGNER,
  FR_FETCH_TLS_OTHER_NAME,
  FR_FETCH_TLS_OUT_OF_DATE, /* not valid yet or no longer, or this computer's clock is wrong */
  FR_FETCH_TLS_REVOKED,
  FR_FETCH_TLS_WEAK,
  FR_FETCH_TLS_FAILED, /* no agreement, or this computer cannot do it at all */
  FR_N_FETCH_TLS
} FrFetchTls;

/**
 * FrFetchState:
 * @tls: with FR_FETCH_NOT_TRUSTED
 * @http_status: of the last answer, 0 for none
 * @is_deprecated: the service says that this version of it is about to end
 * @asked_utc: the last question, or FR_FETCH_NEVER
 * @answered_utc: when the weather on hand was last given or confirmed, or FR_FETCH_NEVER
 * @fresh_until_utc: as the service promised, or FR_FETCH_NEVER
 * @next_utc: the next question may not be asked before, FR_FETCH_NEVER when it may be, or
 * FR_FETCH_UNTIL_CHANGED
 */
typedef struct
{
  FrWeatherService service;
  FrFetchOutcome outcome;
  FrFetchTls tls;
  guint http_status;
  gboolean is_deprecated;
  gint64 asked_utc;
  gint64 answered_utc;
  gint64 fresh_until_utc;
  gint64 next_utc;
} FrFetchState;

/* Nothing asked and nothing on hand. */
FrFetchState
fr_fetch_state (FrWeatherService service, FrFetchOutcome outcome);

const char *
fr_fetch_outcome_code (FrFetchOutcome outcome);
gboolean
fr_fetch_outcome_from_code (const char *code, FrFetchOutcome *outcome_out);

/* Whether there is weather on hand at all, and whether it is fresh. */
gboolean
fr_fetch_has_weather (const FrFetchState *state);
gboolean
fr_fetch_is_fresh (const FrFetchState *state, gint64 now_utc);
/* Since the weather on hand was given or confirmed; 0 when the clock was set back since, -1 where there is
 * none. */
gint64
fr_fetch_age_s (const FrFetchState *state, gint64 now_utc);

G_END_DECLS
