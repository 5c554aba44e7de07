/* Files of one identity share a name made from it by SHA-256, which tells nobody where the household is. The
 * lock is on a file of its own, which is never replaced; flock is let go of by the system when a program
 * ends. What a killed write left beside is cleared away under the lock. */
#include "fetch/weather-cache.h"

#include <errno.h>
#include <fcntl.h>
#include <gio/gio.h>
#include <string.h>
#include <sys/file.h>
#include <unistd.h>

#include "fetch/kept-file.h"

#define NAME_CHARS 24
#define LOCK_TRIES 100
#define LOCK_TRY_US 20000
#define GROUP "kept"

struct _FrWeatherCache
{
  char *folder;
  char *name;
  char *asked, *answer, *link, *lock;
  int lock_fd;
};

FrWeatherCache *
fr_weather_cache_new (const char *folder, const char *identity, GError **error)
{
  FrWeatherCache *cache;
  g_autofree char *sum = g_compute_checksum_for_string (G_CHECKSUM_SHA256, identity, -1), *stem = NULL;

  if (g_mkdir_with_parents (folder, 0700) != 0)
    {
      const int saved = errno;

      g_set_error_literal (error, G_FILE_ERROR, g_file_error_from_errno (saved), g_strerror (saved));
      return NULL;
    }
  cache = g_new0 (FrWeatherCache, 1);
  cache->folder = g_strdup (folder);
  cache->name = g_strndup (sum, NAME_CHARS);
  stem = g_build_filename (folder, cache->name, NULL);
  cache->asked = g_strconcat (stem, ".asked", NULL);
  cache->answer = g_strconcat (stem, ".answer", NULL);
  cache->link = g_strconcat (stem, ".link", NULL);
  cache->lock = g_strconcat (stem, ".lock", NULL);
  cache->lock_fd = -1;
  return cache;
}

void
fr_weather_cache_free (FrWeatherCache *cache)
{
  if (cache == NULL)
    return;
  fr_weather_cache_unlock (cache);
  g_free (cache->folder);
  g_free (cache->name);
  g_free (cache->asked);
  g_free (cache->answer);
  g_free (cache->link);
  g_free (cache->lock);
  g_free (cache);
}

/* --- the lock --- */

static void
clear_leftovers (FrWeatherCache *cache)
{
  g_autoptr (GDir) dir = g_dir_open (cache->folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_prefix (name, cache->name) && strchr (name, '.') != strrchr (name, '.'))
      {
        g_autofree char *path = g_build_filename (cache->folder, name, NULL);

        unlink (path); /* what cannot be removed is in nobody's way */
      }
}

gboolean
fr_weather_cache_lock (FrWeatherCache *cache, GError **error)
{
  int saved = 0;

  g_return_val_if_fail (cache->lock_fd < 0, FALSE);

  cache->lock_fd = open (cache->lock, O_RDWR | O_CREAT | O_CLOEXEC, 0600);
  if (cache->lock_fd < 0)
    saved = errno;
  for (guint i = 0; cache->lock_fd >= 0 && i < LOCK_TRIES; i++)
    {
      if (flock (cache->lock_fd, LOCK_EX | LOCK_NB) == 0)
        {
          clear_leftovers (cache);
          return TRUE;
        }
      saved = errno;
      if (saved != EWOULDBLOCK && saved != EINTR)
        break;
      g_usleep (LOCK_TRY_US);
    }
  fr_weather_cache_unlock (cache);
  g_set_error_literal (error, G_FILE_ERROR, g_file_error_from_errno (saved), g_strerror (saved));
  return FALSE;
}

void
fr_weather_cache_unlock (FrWeatherCache *cache)
{
  if (cache->lock_fd >= 0)
    close (cache->lock_fd);
  cache->lock_fd = -1;
}

/* --- the last question --- */

void
fr_asked_clear (FrAsked *asked)
{
  g_clear_pointer (&asked->refused_as, g_free);
}

/* A key that is missing leaves @out as it is. */
static void
get_int (GKeyFile *facts, const char *key, gint64 *out)
{
  g_autoptr (GError) error = NULL;
  const gint64 value = g_key_file_get_int64 (facts, GROUP, key, &error);

  if (error == NULL)
    *out = value;
}

static char *
get_text (GKeyFile *facts, const char *key)
{
  return g_key_file_get_string (facts, GROUP, key, NULL);
}

static void
set_text (GKeyFile *facts, const char *key, const char *text)
{
  if (text != NULL && g_utf8_validate (text, -1, NULL))
    g_key_file_set_string (facts, GROUP, key, text);
}

gboolean
fr_weather_cache_load_asked (FrWeatherCache *cache, FrAsked *asked_out)
{
  g_autoptr (GKeyFile) facts = NULL;
  g_autofree char *outcome = NULL;
  const FrKeptFile kept = fr_kept_file_read (cache->asked, &facts, NULL);
  gint64 tls = 0, status = 0, n_failures = 0;

  *asked_out
      = (FrAsked){ .outcome = FR_FETCH_NEVER_ASKED, .asked_utc = FR_FETCH_NEVER, .next_utc = FR_FETCH_NEVER };
  if (kept != FR_KEPT_FILE_SOUND)
    return kept == FR_KEPT_FILE_NONE;
  outcome = get_text (facts, "outcome");
  if (!fr_fetch_outcome_from_code (outcome, &asked_out->outcome))
    return FALSE;
  get_int (facts, "tls", &tls);
  get_int (facts, "status", &status);
  get_int (facts, "failures", &n_failures);
  get_int (facts, "asked", &asked_out->asked_utc);
  get_int (facts, "next", &asked_out->next_utc);
  asked_out->tls = CLAMP (tls, 0, FR_N_FETCH_TLS - 1);
  asked_out->status = status;
  asked_out->n_failures = n_failures;
  asked_out->is_deprecated = g_key_file_get_boolean (facts, GROUP, "deprecated", NULL);
  asked_out->refused_as = get_text (facts, "refused-as");
  return TRUE;
}

gboolean
fr_weather_cache_save_asked (FrWeatherCache *cache, const FrAsked *asked, GError **error)
{
  g_autoptr (GKeyFile) facts = g_key_file_new ();

  set_text (facts, "outcome", fr_fetch_outcome_code (asked->outcome));
  g_key_file_set_int64 (facts, GROUP, "tls", asked->tls);
  g_key_file_set_int64 (facts, GROUP, "status", asked->status);
  g_key_file_set_int64 (facts, GROUP, "failures", asked->n_failures);
  g_key_file_set_int64 (facts, GROUP, "asked", asked->asked_utc);
  g_key_file_set_int64 (facts, GROUP, "next", asked->next_utc);
  g_key_file_set_boolean (facts, GROUP, "deprecated", asked->is_deprecated);
  set_text (facts, "refused-as", asked->refused_as);
  return fr_kept_file_write (cache->asked, facts, NULL, error);
}

/* --- the last good answer --- */

void
fr_answer_kept_clear (FrAnswerKept *answer)
{
  g_clear_pointer (&answer->path, g_free);
  g_clear_pointer (&answer->last_modified, g_free);
  g_clear_pointer (&answer->etag, g_free);
  g_clear_pointer (&answer->body, g_bytes_unref);
  answer->answered_utc = answer->fresh_until_utc = FR_FETCH_NEVER;
}

void
fr_weather_cache_load_answer (FrWeatherCache *cache, FrAnswerKept *answer_out)
{
  g_autoptr (GKeyFile) facts = NULL;
  g_autoptr (GBytes) body = NULL;

  *answer_out = (FrAnswerKept){ .answered_utc = FR_FETCH_NEVER, .fresh_until_utc = FR_FETCH_NEVER };
  if (fr_kept_file_read (cache->answer, &facts, &body) != FR_KEPT_FILE_SOUND)
    return;
  answer_out->path = get_text (facts, "path");
  get_int (facts, "answered", &answer_out->answered_utc);
  get_int (facts, "fresh-until", &answer_out->fresh_until_utc);
  if (answer_out->path == NULL || answer_out->answered_utc == FR_FETCH_NEVER)
    {
      fr_answer_kept_clear (answer_out);
      return;
    }
  answer_out->last_modified = get_text (facts, "last-modified");
  answer_out->etag = get_text (facts, "etag");
  answer_out->body = g_steal_pointer (&body);
}

gboolean
fr_weather_cache_save_answer (FrWeatherCache *cache, const FrAnswerKept *answer, GError **error)
{
  g_autoptr (GKeyFile) facts = g_key_file_new ();

  set_text (facts, "path", answer->path);
  set_text (facts, "last-modified", answer->last_modified);
  set_text (facts, "etag", answer->etag);
  g_key_file_set_int64 (facts, GROUP, "answered", answer->answered_utc);
  g_key_file_set_int64 (facts, GROUP, "fresh-until", answer->fresh_until_utc);
  return fr_kept_file_write (cache->answer, facts, answer->body, error);
}

/* --- where the first question led --- */

char *
fr_weather_cache_load_link (FrWeatherCache *cache, gint64 *kept_utc_out)
{
  g_autoptr (GKeyFile) facts = NULL;

  *kept_utc_out = FR_FETCH_NEVER;
  if (fr_kept_file_read (cache->link, &facts, NULL) != FR_KEPT_FILE_SOUND)
    return NULL;
  get_int (facts, "kept", kept_utc_out);
  return get_text (facts, "link");
}

gboolean
fr_weather_cache_save_link (FrWeatherCache *cache, const char *link, gint64 now_utc, GError **error)
{
  g_autoptr (GKeyFile) facts = g_key_file_new ();

  set_text (facts, "link", link);
  g_key_file_set_int64 (facts, GROUP, "kept", now_utc);
  return fr_kept_file_write (cache->link, facts, NULL, error);
}
