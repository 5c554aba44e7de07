/* What stands in the way, what is kept, whether to ask, the question or two, what came of it. That a question
 * is asked is written down before it is, under a lock, so that neither a kill nor a second program makes two
 * of it. */
#include "fetch/weather-pass.h"

#include <math.h>

#include "fetch/etiquette.h"
#include "fetch/weather-cache.h"
#include "fetch/web-address.h"

/* How long a first answer is believed. */
#define LINK_MAX_S (24 * 3600)

/* What one pass holds. */
typedef struct
{
  const FrWeatherAsk *ask;
  const FrWeatherServiceRow *row;
  FrWeatherFetched *fetched;
  GCancellable *cancellable;
  GUri *base;
  char *path;
  char *agent;
  char *fingerprint;
  FrWeatherCache *cache;
  FrAsked asked;
  FrAnswerKept kept;
  gboolean is_confirmed;  /* @kept is to be written */
  char *link;             /* newly told, or NULL */
  gboolean is_link_wrong; /* what was kept of it leads nowhere */
  FrFetchOutcome outcome;
  gboolean was_sent;
  gint64 retry_utc;
} Pass;

/* --- what is kept --- */

static void
set_problem (FrWeatherFetched *fetched, const GError *error)
{
  if (error == NULL)
    return;
  g_free (fetched->problem);
  fetched->problem = g_strdup (error->message);
}

static FrWeather *
read_weather (Pass *pass, GBytes *body, FrWeatherFormat format)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrWeather) weather = pass->ask->reader (body, format, &error);

  set_problem (pass->fetched, error);
  if (weather == NULL || weather->format != format)
    return NULL;
  if (format != FR_WEATHER_NWS_POINT && weather->days->len == 0 && weather->hours->len == 0)
    return NULL;
  return g_steal_pointer (&weather);
}

static void
load_kept (Pass *pass)
{
  FrWeatherFetched *fetched = pass->fetched;

  fr_answer_kept_clear (&pass->kept);
  g_clear_pointer (&fetched->weather, fr_weather_free);
  g_clear_pointer (&fetched->body, g_bytes_unref);
  fr_weather_cache_load_answer (pass->cache, &pass->kept);
  if (pass->kept.body == NULL)
    return;
  fetched->weather = read_weather (pass, pass->kept.body, pass->row->format);
  if (fetched->weather == NULL)
    {
      fr_answer_kept_clear (&pass->kept);
      return;
    }
  fetched->body = g_bytes_ref (pass->kept.body);
}

static void
tell_state (Pass *pass)
{
  FrFetchState *state = &pass->fetched->state;

  state->outcome = pass->asked.outcome;
  state->tls = pass->asked.tls;
  state->http_status = pass->asked.status;
  state->is_deprecated = pass->asked.is_deprecated;
  state->asked_utc = pass->asked.asked_utc;
  state->next_utc
      = fr_etiquette_next (&pass->asked, &pass->kept, pass->path, pass->fingerprint, pass->ask->now_utc);
  state->answered_utc = pass->kept.answered_utc;
  state->fresh_until_utc = pass->kept.fresh_until_utc;
}

/* --- the question --- */

/* NULL when there is no whole answer that holds anything; pass->outcome then says why. */
static FrWebAnswer *
ask_once (Pass *pass, const char *address, gboolean with_conditions)
{
  const gboolean is_kept
      = with_conditions && pass->kept.body != NULL && g_strcmp0 (pass->kept.path, pass->path) == 0;
  const FrWebQuestion question = { .address = address,
                                   .agent = pass->agent,
                                   .if_modified_since = is_kept ? pass->kept.last_modified : NULL,
                                   .if_none_match = is_kept ? pass->kept.etag : NULL,
                                   .authorities = pass->ask->authorities,
                                   .limits = pass->ask->limits };
  g_autoptr (FrWebAnswer) answer = fr_web_get (&question, pass->cancellable);

  pass->was_sent |= answer->was_sent;
  pass->asked.tls = answer->tls;
  pass->asked.status = answer->status;
  pass->asked.is_deprecated |= answer->status == 203;
  pass->retry_utc = fr_etiquette_retry_after (answer->retry_after, pass->ask->now_utc);
  pass->outcome
      = answer->outcome == FR_FETCH_ANSWERED ? fr_etiquette_outcome (answer->status) : answer->outcome;
  /* "Not modified" where nothing is held. */
  if (answer->status == 304 && question.if_modified_since == NULL && question.if_none_match == NULL)
    pass->outcome = FR_FETCH_UNREADABLE;
  return pass->outcome == FR_FETCH_ANSWERED ? g_steal_pointer (&answer) : NULL;
}

/* The address that holds the weather, by a first question where the service wants one. */
static char *
find_address (Pass *pass)
{
  g_autofree char *first = fr_web_address_join (pass->base, pass->path), *link = NULL;
  g_autoptr (FrWebAnswer) answer = NULL;
  g_autoptr (FrWeather) point = NULL;
  gint64 kept_utc, age_s;

  if (!pass->row->asks_twice)
    return g_steal_pointer (&first);
  link = fr_weather_cache_load_link (pass->cache, &kept_utc);
  age_s = link != NULL ? pass->ask->now_utc - kept_utc : LINK_MAX_S;
  if (age_s >= 0 && age_s < LINK_MAX_S)
    return fr_web_address_follow (first, link);
  answer = ask_once (pass, first, FALSE);
  if (answer == NULL)
    return NULL;
  point = read_weather (pass, answer->body, FR_WEATHER_NWS_POINT);
  pass->outcome = FR_FETCH_UNREADABLE;
  if (point == NULL || point->next_link == NULL)
    return NULL;
  g_free (link);
  link = fr_web_address_follow (first, point->next_link);
  if (link == NULL)
    pass->outcome = FR_FETCH_SENT_AWAY;
  else
    pass->link = g_strdup (link);
  return g_steal_pointer (&link);
}

static void
replace (char **kept, const char *text)
{
  g_free (*kept);
  *kept = g_strdup (text);
}

/* Takes in what a 200, 203 or 304 says. */
static void
keep_answer (Pass *pass, FrWebAnswer *answer, FrWeather *weather)
{
  FrWeatherFetched *fetched = pass->fetched;
  FrAnswerKept *kept = &pass->kept;

  if (answer->body != NULL)
    {
      g_clear_pointer (&kept->body, g_bytes_unref);
      kept->body = g_bytes_ref (answer->body);
      replace (&kept->path, pass->path);
      replace (&kept->last_modified, answer->last_modified);
      replace (&kept->etag, answer->etag);
      g_clear_pointer (&fetched->body, g_bytes_unref);
      fetched->body = g_bytes_ref (answer->body);
      fr_weather_free (fetched->weather);
      fetched->weather = weather;
      fetched->is_new = TRUE;
    }
  else
    {
      /* Fields of a 304 take the place of the kept ones (RFC 9111, 3.2). */
      if (answer->last_modified != NULL)
        replace (&kept->last_modified, answer->last_modified);
      if (answer->etag != NULL)
        replace (&kept->etag, answer->etag);
    }
  kept->answered_utc = pass->ask->now_utc;
  kept->fresh_until_utc = fr_etiquette_fresh_until (answer, pass->ask->now_utc);
  pass->is_confirmed = TRUE;
}

static void
question_and_answer (Pass *pass)
{
  g_autofree char *address = find_address (pass);
  g_autoptr (FrWebAnswer) answer = NULL;
  g_autoptr (FrWeather) weather = NULL;

  if (address == NULL)
    return;
  answer = ask_once (pass, address, TRUE);
  if (answer == NULL)
    {
      pass->is_link_wrong = pass->outcome == FR_FETCH_NOT_FOUND && pass->row->asks_twice;
      return;
    }
  if (answer->body != NULL)
    {
      weather = read_weather (pass, answer->body, pass->row->format);
      if (weather == NULL)
        {
          pass->outcome = FR_FETCH_UNREADABLE;
          return;
        }
    }
  keep_answer (pass, answer, g_steal_pointer (&weather));
}

/* --- whether to ask --- */

/* Writes down that a question is about to be asked; FALSE when it may not be, or when that cannot be written.
 */
static gboolean
claim (Pass *pass, GError **error)
{
  FrAsked *asked = &pass->asked;
  gboolean is_known, may_ask = FALSE;

  if (!fr_weather_cache_lock (pass->cache, error))
    return FALSE;
  /* Another program may have asked since. */
  fr_asked_clear (asked);
  is_known = fr_weather_cache_load_asked (pass->cache, asked);
  if (!is_known
      || fr_etiquette_next (asked, &pass->kept, pass->path, pass->fingerprint, pass->ask->now_utc)
             == FR_FETCH_NEVER)
    {
      /* Where the last question is not known it may have been just now: an hour is waited. */
      fr_etiquette_begin (asked, pass->ask->now_utc);
      may_ask = fr_weather_cache_save_asked (pass->cache, asked, error) && is_known;
    }
  fr_weather_cache_unlock (pass->cache);
  return may_ask;
}

/* All is written under the lock: whoever takes it clears away what a killed write has left. */
static void
finish_question (Pass *pass, GError **error)
{
  const gboolean is_locked = fr_weather_cache_lock (pass->cache, error);

  if (pass->is_confirmed && !(is_locked && fr_weather_cache_save_answer (pass->cache, &pass->kept, error)))
    pass->outcome = FR_FETCH_NO_FOLDER;
  fr_etiquette_end (&pass->asked, pass->outcome, pass->was_sent, pass->retry_utc, pass->fingerprint);
  if (!is_locked)
    return;
  /* A link that is not kept is asked for again, no harm done. */
  if (pass->link != NULL || pass->is_link_wrong)
    fr_weather_cache_save_link (pass->cache, pass->is_link_wrong ? NULL : pass->link, pass->ask->now_utc,
                                NULL);
  fr_weather_cache_save_asked (pass->cache, &pass->asked, *error == NULL ? error : NULL);
  fr_weather_cache_unlock (pass->cache);
}

/* What keeps from asking before anything is opened; FR_FETCH_NEVER_ASKED when nothing does. */
static FrFetchOutcome
hindrance (Pass *pass)
{
  const FrWeatherAsk *ask = pass->ask;

  if (ask->service == FR_WEATHER_SERVICE_OFF)
    return FR_FETCH_OFF;
  pass->path = fr_weather_service_path (ask->service, ask->latitude_deg, ask->longitude_deg, ask->altitude_m);
  if (pass->path == NULL)
    return FR_FETCH_NO_PLACE;
  pass->base = fr_web_address_base (ask->base_address != NULL ? ask->base_address : pass->row->base_address);
  return pass->base != NULL ? FR_FETCH_NEVER_ASKED : FR_FETCH_BAD_ADDRESS;
}

static FrWeatherCache *
open_cache (Pass *pass, GError **error)
{
  g_autofree char *base = g_uri_to_string (pass->base);
  /* Altitude aside: another height is no other place to ask about within the hour. */
  g_autofree char *place
      = fr_weather_service_path (pass->ask->service, pass->ask->latitude_deg, pass->ask->longitude_deg, NAN);
  g_autofree char *identity = g_strdup_printf ("%s\n%s\n%s", pass->row->code, base, place);

  return fr_weather_cache_new (pass->ask->folder, identity, error);
}

/* A contact goes to who asks for one alone; NULL where it is asked for and there is none to send. */
static char *
agent_of (Pass *pass)
{
  const char *contact = pass->ask->contact != NULL ? pass->ask->contact : "";

  return fr_etiquette_agent (pass->ask->version,
                             pass->row->terms & FR_WEATHER_TERMS_CONTACT ? contact : NULL);
}

static void
go (Pass *pass)
{
  FrWeatherFetched *fetched = pass->fetched;
  g_autoptr (GError) error = NULL, later = NULL;
  g_autofree char *all = NULL;

  fetched->state = fr_fetch_state (pass->ask->service, hindrance (pass));
  if (fetched->state.outcome != FR_FETCH_NEVER_ASKED)
    return;
  pass->cache = open_cache (pass, &error);
  if (pass->cache == NULL)
    {
      fetched->state.outcome = FR_FETCH_NO_FOLDER;
      set_problem (fetched, error);
      return;
    }
  /* In this order: another program keeps its answer before it says that it has one. */
  fr_weather_cache_load_asked (pass->cache, &pass->asked);
  load_kept (pass);
  pass->agent = agent_of (pass);
  all = g_strdup_printf ("%s\n%s", pass->agent != NULL ? pass->agent : "", pass->path);
  pass->fingerprint = g_compute_checksum_for_string (G_CHECKSUM_SHA256, all, -1);
  if (pass->agent != NULL && !pass->ask->only_kept)
    {
      if (claim (pass, &error))
        {
          question_and_answer (pass);
          finish_question (pass, &later);
        }
      else
        load_kept (pass); /* another program may have had an answer since */
    }
  tell_state (pass);
  if (pass->agent == NULL)
    fetched->state.outcome = FR_FETCH_NO_CONTACT;
  else if (error != NULL || later != NULL)
    fetched->state.outcome = FR_FETCH_NO_FOLDER;
  set_problem (fetched, error != NULL ? error : later);
}

static void
pass_clear (Pass *pass)
{
  g_clear_pointer (&pass->base, g_uri_unref);
  g_clear_pointer (&pass->cache, fr_weather_cache_free);
  fr_asked_clear (&pass->asked);
  fr_answer_kept_clear (&pass->kept);
  g_free (pass->path);
  g_free (pass->link);
  g_free (pass->agent);
  g_free (pass->fingerprint);
}

FrWeatherFetched *
fr_weather_pass (const FrWeatherAsk *ask, GCancellable *cancellable)
{
  Pass pass = { .ask = ask,
                .row = fr_weather_service (ask->service),
                .fetched = g_new0 (FrWeatherFetched, 1),
                .cancellable = cancellable,
                .outcome = FR_FETCH_BROKEN_OFF,
                .retry_utc = FR_FETCH_NEVER };

  go (&pass);
  pass_clear (&pass);
  return pass.fetched;
}
