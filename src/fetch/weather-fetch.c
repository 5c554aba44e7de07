/* The pass in a thread, with a copy of what it is asked by. */
#include "fetch/weather-fetch.h"

#include "fetch/weather-pass.h"

typedef struct
{
  FrWeatherAsk ask;
  char *base_address, *contact, *version, *folder; /* what @ask borrows */
} Job;

static void
job_free (gpointer data)
{
  Job *job = data;

  g_free (job->base_address);
  g_free (job->contact);
  g_free (job->version);
  g_free (job->folder);
  g_clear_object (&job->ask.authorities);
  g_free (job);
}

static Job *
job_new (const FrWeatherAsk *ask)
{
  Job *job = g_new0 (Job, 1);

  job->ask = *ask;
  job->ask.base_address = job->base_address = g_strdup (ask->base_address);
  job->ask.contact = job->contact = g_strdup (ask->contact);
  job->ask.version = job->version = g_strdup (ask->version);
  job->ask.folder = job->folder = g_strdup (ask->folder);
  if (ask->authorities != NULL)
    g_object_ref (ask->authorities);
  return job;
}

static void
fetch_in_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Job *job = data;

  g_task_return_pointer (task, fr_weather_pass (&job->ask, cancellable),
                         (GDestroyNotify)fr_weather_fetched_free);
}

void
fr_weather_fetch_async (const FrWeatherAsk *ask, GCancellable *cancellable, GAsyncReadyCallback callback,
                        gpointer user_data)
{
  g_autoptr (GTask) task = NULL;

  g_return_if_fail (ask != NULL && ask->reader != NULL && ask->version != NULL && ask->folder != NULL);

  task = g_task_new (NULL, cancellable, callback, user_data);
  g_task_set_source_tag (task, fr_weather_fetch_async);
  g_task_set_task_data (task, job_new (ask), job_free);
  g_task_run_in_thread (task, fetch_in_thread);
}

FrWeatherFetched *
fr_weather_fetch_finish (GAsyncResult *result, GError **error)
{
  g_return_val_if_fail (g_task_is_valid (result, NULL), NULL);
  return g_task_propagate_pointer (G_TASK (result), error);
}

void
fr_weather_fetched_free (FrWeatherFetched *fetched)
{
  if (fetched == NULL)
    return;
  g_clear_pointer (&fetched->body, g_bytes_unref);
  g_clear_pointer (&fetched->weather, fr_weather_free);
  g_free (fetched->problem);
  g_free (fetched);
}
