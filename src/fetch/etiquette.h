/* When a service may be asked, who it is told is asking, and how its answers are understood: RFC 9110, RFC
 * 9111, RFC 6585 and the services' own terms. No question is asked here. */
#pragma once

#include "fetch/weather-cache.h"
#include "fetch/web-get.h"

G_BEGIN_DECLS

/* No service is asked about a place more often than this, whatever came of it. */
#define FR_ETIQUETTE_PACE_S 3600
/* Where no question left the computer, it may be tried again after this. */
#define FR_ETIQUETTE_OFFLINE_S 600
/* A promise of freshness counts for no longer: RFC 9111 lets anybody ask earlier. */
#define FR_ETIQUETTE_FRESH_MAX_S (24 * 3600)
/* No service is waited for longer than this, even if it asks. */
#define FR_ETIQUETTE_WAIT_MAX_S (30 * 24 * 3600)

/* "Frostrun/1.0 (contact)"; @contact NULL for none. NULL when the contact is none that can be sent: printable
 * ASCII with an at sign or a dot, an e-mail address or a page. */
char *
fr_etiquette_agent (const char *version, const char *contact);

/* What an answer with that status means. */
FrFetchOutcome
fr_etiquette_outcome (guint status);

/* By max-age, else by Expires and Date, less Age; FR_FETCH_NEVER where nothing is promised. */
gint64
fr_etiquette_fresh_until (const FrWebAnswer *answer, gint64 now_utc);

/* The instant that Retry-After names, as a date or in seconds; FR_FETCH_NEVER when it names none. */
gint64
fr_etiquette_retry_after (const char *text, gint64 now_utc);

/* A question is about to be asked: so it stands until its answer is there. */
void
fr_etiquette_begin (FrAsked *asked, gint64 now_utc);
/* The question begun ended so. @retry_utc: as the service asked, or FR_FETCH_NEVER; @fingerprint: of the
 * question. */
void
fr_etiquette_end (FrAsked *asked, FrFetchOutcome outcome, gboolean was_sent, gint64 retry_utc,
                  const char *fingerprint);

/* When the question of that path and fingerprint may be asked; FR_FETCH_NEVER for now,
 * FR_FETCH_UNTIL_CHANGED. */
gint64
fr_etiquette_next (const FrAsked *asked, const FrAnswerKept *answer, const char *path,
                   const char *fingerprint, gint64 now_utc);

/* A moment from a minute to a quarter of an hour after it may be asked, by @chance, and not about the full
 * hour, when everybody asks (MET Norway's terms). */
gint64
fr_etiquette_due (gint64 next_utc, gint64 now_utc, guint32 chance);

G_END_DECLS
