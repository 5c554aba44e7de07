/* One question to a web server and its whole answer, within limits of time and size. It blocks, so it is for
 * a thread of its own. */
#pragma once

#include <gio/gio.h>

#include "domain/plan/fetch-state.h"

G_BEGIN_DECLS

/**
 * FrWebLimits:
 * @body_bytes: the body may be no longer, unpacked
 * @total_ms: from beginning to end, redirects with it
 * @idle_ms: without anything coming: until the head of the answer is there, and from piece to piece
 */
typedef struct
{
  gsize body_bytes;
  guint total_ms;
  guint idle_ms;
} FrWebLimits;

extern const FrWebLimits fr_web_limits;

/**
 * FrWebQuestion:
 * @address: as fr_web_address_join gives it
 * @agent: the whole User-Agent
 * @if_modified_since: exactly as the server wrote it last, or NULL
 * @if_none_match: likewise
 * @authorities: whom to trust instead of those the system trusts, or NULL
 *
 * Plain value; everything in it is borrowed.
 */
typedef struct
{
  const char *address;
  const char *agent;
  const char *if_modified_since;
  const char *if_none_match;
  GTlsDatabase *authorities;
  FrWebLimits limits;
} FrWebQuestion;

/**
 * FrWebAnswer:
 * @outcome: FR_FETCH_ANSWERED when a whole answer came, whatever its status; else what went wrong
 * @was_sent: whether a question left this computer
 * @status: 0 when no answer came
 * @body: with status 200 and 203; of others nothing is read
 *
 * Header fields are as the server wrote them, or NULL.
 */
typedef struct
{
  FrFetchOutcome outcome;
  FrFetchTls tls;
  gboolean was_sent;
  guint status;
  GBytes *body;
  char *last_modified;
  char *etag;
  char *cache_control;
  char *expires;
  char *date;
  char *age;
  char *retry_after;
} FrWebAnswer;

/* Follows up to three redirects within the same scheme, host and port. A cancelled question has the outcome
 * FR_FETCH_BROKEN_OFF. */
FrWebAnswer *
fr_web_get (const FrWebQuestion *question, GCancellable *cancellable);
void
fr_web_answer_free (FrWebAnswer *answer);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrWebAnswer, fr_web_answer_free)

G_END_DECLS
