/* Waits: an hour after every question; after failures of the service 1, 2, 4 and then 6 hours, and never less
 * than it asks for. Freshness by RFC 9111, 4.2, but for the apparent age (4.2.3), which would ask the
 * household's clock: that is wrong more often than a Date. An instant more than an hour ahead was written by
 * a clock since set back and holds nobody up. */
#include "fetch/etiquette.h"

#include <libsoup/soup.h>
#include <string.h>

#define CONTACT_MAX 200
#define WAIT_STEPS 4
#define LATER_MIN_S 60
#define LATER_RANGE_S 600
#define ABOUT_HOUR_S 120

char *
fr_etiquette_agent (const char *version, const char *contact)
{
  g_autofree char *trimmed = contact != NULL ? g_strstrip (g_strdup (contact)) : NULL;
  GString *agent;

  if (trimmed == NULL)
    return g_strconcat ("Frostrun/", version, NULL);
  if (strlen (trimmed) > CONTACT_MAX || strpbrk (trimmed, "@.") == NULL)
    return NULL;
  for (const char *p = trimmed; *p != '\0'; p++)
    if (!g_ascii_isprint (*p))
      return NULL;
  /* A comment by RFC 9110, 5.6.5. */
  agent = g_string_new (NULL);
  g_string_append_printf (agent, "Frostrun/%s (", version);
  for (const char *p = trimmed; *p != '\0'; p++)
    {
      if (strchr ("()\\", *p) != NULL)
        g_string_append_c (agent, '\\');
      g_string_append_c (agent, *p);
    }
  g_string_append_c (agent, ')');
  return g_string_free (agent, FALSE);
}

FrFetchOutcome
fr_etiquette_outcome (guint status)
{
  switch (status)
    {
    case 200:
    case 203:
    case 304:
      return FR_FETCH_ANSWERED;
    case 401:
    case 402:
    case 403:
    case 407:
    case 451:
      return FR_FETCH_REFUSED;
    case 408:
      return FR_FETCH_TOO_SLOW;
    case 429:
      return FR_FETCH_TOO_OFTEN;
    default:
      return status >= 500 ? FR_FETCH_SERVER_WRONG : status >= 400 ? FR_FETCH_NOT_FOUND : FR_FETCH_UNREADABLE;
    }
}

/* --- header fields --- */

/* A span in whole seconds, of any length; FALSE when it is none. */
static gboolean
delta_seconds (const char *text, gint64 max_s, gint64 *span_s_out)
{
  if (text == NULL || *text == '\0' || strspn (text, "0123456789") != strlen (text))
    return FALSE;
  /* More digits than a number holds mean a long time (RFC 9111, 1.2.2). */
  *span_s_out = strlen (text) > 12 ? max_s : MIN (g_ascii_strtoll (text, NULL, 10), max_s);
  return TRUE;
}

static gboolean
http_date (const char *text, gint64 *utc_out)
{
  g_autoptr (GDateTime) time = text != NULL ? soup_date_time_new_from_http_string (text) : NULL;

  if (time == NULL)
    return FALSE;
  *utc_out = g_date_time_to_unix (time);
  return TRUE;
}

/* What Cache-Control says; -1 where it says nothing. */
static gint64
cache_control_s (const char *text)
{
  GHashTable *list = text != NULL ? soup_header_parse_param_list (text) : NULL;
  gint64 span_s = -1;

  if (list == NULL)
    return -1;
  if (g_hash_table_contains (list, "no-cache") || g_hash_table_contains (list, "no-store"))
    span_s = 0;
  else if (g_hash_table_contains (list, "max-age")
           && !delta_seconds (g_hash_table_lookup (list, "max-age"), FR_ETIQUETTE_FRESH_MAX_S * 100, &span_s))
    span_s = 0; /* a wrong one is stale (RFC 9111, 4.2.1) */
  soup_header_free_param_list (list);
  return span_s;
}

gint64
fr_etiquette_fresh_until (const FrWebAnswer *answer, gint64 now_utc)
{
  gint64 span_s = cache_control_s (answer->cache_control), age_s = 0, expires_utc, date_utc = now_utc;

  if (span_s < 0)
    {
      if (!http_date (answer->expires, &expires_utc))
        return FR_FETCH_NEVER;
      http_date (answer->date, &date_utc);
      span_s = expires_utc - date_utc;
    }
  delta_seconds (answer->age, FR_ETIQUETTE_FRESH_MAX_S * 100, &age_s);
  span_s = MIN (span_s - age_s, FR_ETIQUETTE_FRESH_MAX_S);
  return span_s > 0 ? now_utc + span_s : FR_FETCH_NEVER;
}

gint64
fr_etiquette_retry_after (const char *text, gint64 now_utc)
{
  gint64 span_s, utc;

  if (delta_seconds (text, FR_ETIQUETTE_WAIT_MAX_S, &span_s))
    return now_utc + span_s;
  return http_date (text, &utc) ? MIN (utc, now_utc + FR_ETIQUETTE_WAIT_MAX_S) : FR_FETCH_NEVER;
}

/* --- when --- */

void
fr_etiquette_begin (FrAsked *asked, gint64 now_utc)
{
  asked->outcome = FR_FETCH_BROKEN_OFF;
  asked->tls = FR_FETCH_TLS_SOUND;
  asked->status = 0;
  asked->is_deprecated = FALSE;
  asked->asked_utc = now_utc;
  asked->next_utc = now_utc + FR_ETIQUETTE_PACE_S;
  g_clear_pointer (&asked->refused_as, g_free);
}

void
fr_etiquette_end (FrAsked *asked, FrFetchOutcome outcome, gboolean was_sent, gint64 retry_utc,
                  const char *fingerprint)
{
  static const gint waits_h[WAIT_STEPS] = { 1, 2, 4, 6 };
  gint64 wait_s = FR_ETIQUETTE_PACE_S;

  asked->outcome = outcome;
  if (outcome == FR_FETCH_ANSWERED)
    asked->n_failures = 0;
  else if (outcome == FR_FETCH_OFFLINE && !was_sent)
    wait_s = FR_ETIQUETTE_OFFLINE_S;
  else if (outcome != FR_FETCH_BROKEN_OFF)
    {
      wait_s = waits_h[MIN (asked->n_failures, WAIT_STEPS - 1)] * 3600;
      asked->n_failures++;
    }
  asked->next_utc = MAX (asked->asked_utc + wait_s, retry_utc);
  if (outcome == FR_FETCH_REFUSED)
    asked->refused_as = g_strdup (fingerprint);
}

gint64
fr_etiquette_next (const FrAsked *asked, const FrAnswerKept *answer, const char *path,
                   const char *fingerprint, gint64 now_utc)
{
  const gint64 soon_utc = now_utc + FR_ETIQUETTE_PACE_S;
  gint64 next_utc = FR_FETCH_NEVER;

  if (asked->outcome == FR_FETCH_REFUSED && g_strcmp0 (asked->refused_as, fingerprint) == 0)
    return FR_FETCH_UNTIL_CHANGED;
  if (asked->asked_utc <= soon_utc)
    next_utc = asked->next_utc;
  if (answer->body != NULL && answer->answered_utc <= soon_utc && g_strcmp0 (answer->path, path) == 0)
    next_utc = MAX (next_utc, answer->fresh_until_utc);
  return next_utc > now_utc ? next_utc : FR_FETCH_NEVER;
}

gint64
fr_etiquette_due (gint64 next_utc, gint64 now_utc, guint32 chance)
{
  const gint64 due_utc = MAX (next_utc, now_utc) + LATER_MIN_S + chance % LATER_RANGE_S;
  const gint64 past_hour_s = due_utc % 3600;

  return past_hour_s < ABOUT_HOUR_S || past_hour_s >= 3600 - ABOUT_HOUR_S ? due_utc + 2 * ABOUT_HOUR_S
                                                                          : due_utc;
}
