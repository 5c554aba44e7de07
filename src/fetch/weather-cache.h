/* What is remembered of one service and place between questions and between runs of the program: when it was
 * last asked and what came of it, the last good answer, and where a first question led. Each is a file of its
 * own (kept-file.h), so that none can spoil another. */
#pragma once

#include "domain/plan/fetch-state.h"

G_BEGIN_DECLS

/**
 * FrAsked:
 * @n_failures: one after the other, up to the last
 * @next_utc: not asked again before
 * @refused_as: with FR_FETCH_REFUSED, a fingerprint of the question that was refused
 *
 * The last question.
 */
typedef struct
{
  FrFetchOutcome outcome;
  FrFetchTls tls;
  guint status;
  gboolean is_deprecated;
  guint n_failures;
  gint64 asked_utc;
  gint64 next_utc;
  char *refused_as;
} FrAsked;

/**
 * FrAnswerKept:
 * @path: of the question it answers
 * @last_modified: exactly as the server wrote it, or NULL
 * @etag: likewise
 * @answered_utc: when it was given or last confirmed
 *
 * The last good answer; @body is NULL where there is none.
 */
typedef struct
{
  char *path;
  char *last_modified;
  char *etag;
  gint64 answered_utc;
  gint64 fresh_until_utc;
  GBytes *body;
} FrAnswerKept;

typedef struct _FrWeatherCache FrWeatherCache;

/* @folder is made when it is missing; NULL with @error when that fails. @identity tells service, address and
 * place apart. */
FrWeatherCache *
fr_weather_cache_new (const char *folder, const char *identity, GError **error);
void
fr_weather_cache_free (FrWeatherCache *cache);

/* Keeps other programs out while the files are written, and clears away what a killed one left; nothing is
 * written without it. Waits two seconds for one that is at it. */
gboolean
fr_weather_cache_lock (FrWeatherCache *cache, GError **error);
void
fr_weather_cache_unlock (FrWeatherCache *cache);

/* FALSE when there should be one but it cannot be read: a question may have been asked a moment ago. Never
 * asked: outcome FR_FETCH_NEVER_ASKED. */
gboolean
fr_weather_cache_load_asked (FrWeatherCache *cache, FrAsked *asked_out);
gboolean
fr_weather_cache_save_asked (FrWeatherCache *cache, const FrAsked *asked, GError **error);

/* A damaged answer is as good as none. */
void
fr_weather_cache_load_answer (FrWeatherCache *cache, FrAnswerKept *answer_out);
gboolean
fr_weather_cache_save_answer (FrWeatherCache *cache, const FrAnswerKept *answer, GError **error);

/* Where the first question led and when; NULL when not known. */
char *
fr_weather_cache_load_link (FrWeatherCache *cache, gint64 *kept_utc_out);
/* @link NULL forgets it. */
gboolean
fr_weather_cache_save_link (FrWeatherCache *cache, const char *link, gint64 now_utc, GError **error);

void
fr_asked_clear (FrAsked *asked);
void
fr_answer_kept_clear (FrAnswerKept *answer);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrWeatherCache, fr_weather_cache_free)
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (FrAsked, fr_asked_clear)
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (FrAnswerKept, fr_answer_kept_clear)

G_END_DECLS
