/* Codes of the outcomes and how old an answer is. */
#include "domain/plan/fetch-state.h"

#include <string.h>

static const char *const codes[FR_N_FETCH_OUTCOMES] = {
  [FR_FETCH_OFF] = "off",
  [FR_FETCH_NO_PLACE] = "no-place",
  [FR_FETCH_NO_CONTACT] = "no-contact",
  [FR_FETCH_BAD_ADDRESS] = "bad-address",
  [FR_FETCH_NO_FOLDER] = "no-folder",
  [FR_FETCH_NEVER_ASKED] = "never-asked",
  [FR_FETCH_BROKEN_OFF] = "broken-off",
  [FR_FETCH_ANSWERED] = "answered",
  [FR_FETCH_OFFLINE] = "offline",
  [FR_FETCH_NOT_TRUSTED] = "not-trusted",
  [FR_FETCH_REFUSED] = "refused",
  [FR_FETCH_TOO_OFTEN] = "too-often",
  [FR_FETCH_SERVER_WRONG] = "server-wrong",
  [FR_FETCH_NOT_FOUND] = "not-found",
  [FR_FETCH_SENT_AWAY] = "sent-away",
  [FR_FETCH_UNREADABLE] = "unreadable",
  [FR_FETCH_TOO_LARGE] = "too-large",
  [FR_FETCH_TOO_SLOW] = "too-slow",
};

FrFetchState
fr_fetch_state (FrWeatherService service, FrFetchOutcome outcome)
{
  return (FrFetchState){ .service = service,
                         .outcome = outcome,
                         .asked_utc = FR_FETCH_NEVER,
                         .answered_utc = FR_FETCH_NEVER,
                         .fresh_until_utc = FR_FETCH_NEVER,
                         .next_utc = FR_FETCH_NEVER };
}

const char *
fr_fetch_outcome_code (FrFetchOutcome outcome)
{
  g_return_val_if_fail ((guint)outcome < FR_N_FETCH_OUTCOMES, NULL);
  return codes[outcome];
}

gboolean
fr_fetch_outcome_from_code (const char *code, FrFetchOutcome *outcome_out)
{
  for (guint i = 0; code != NULL && i < FR_N_FETCH_OUTCOMES; i++)
    if (strcmp (codes[i], code) == 0)
      {
        *outcome_out = i;
        return TRUE;
      }
  return FALSE;
}

gboolean
fr_fetch_has_weather (const FrFetchState *state)
{
  return state->answered_utc != FR_FETCH_NEVER;
}

gint64
fr_fetch_age_s (const FrFetchState *state, gint64 now_utc)
{
  return fr_fetch_has_weather (state) ? MAX (0, now_utc - state->answered_utc) : -1;
}

gboolean
fr_fetch_is_fresh (const FrFetchState *state, gint64 now_utc)
{
  return fr_fetch_has_weather (state)
         && (fr_fetch_age_s (state, now_utc) < FR_FETCH_FRESH_S || now_utc < state->fresh_until_utc);
}
