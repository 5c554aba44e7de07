/* The file is read anew for each choice: it is the disk's cache that keeps it, and nobody holds twenty megabytes for a dialog. */
#include "models/weather-reading.h"

#include <glib/gi18n-lib.h>

#include "formats/zone-source.h"

#define ZONE_FROM_YEAR 1900
#define ZONE_TO_YEAR 2100

typedef struct
{
  GFile *file;
  FrWeatherColumns choice;
  char *zone;
} Wanted;

static void
wanted_free (Wanted *wanted)
{
  g_object_unref (wanted->file);
  fr_weather_columns_clear (&wanted->choice);
  g_free (wanted->zone);
  g_free (wanted);
}

/* One byte past the most: whoever fills it is too large, and is told so by the reader. */
static char *
load (GFile *file, gsize *length_out, GCancellable *cancellable, GError **error)
{
  g_autoptr (GFileInputStream) stream = g_file_read (file, cancellable, error);
  g_autofree char *bytes = stream != NULL ? g_try_malloc (FR_WEATHER_SIZE_MAX + 1) : NULL;

  if (stream == NULL)
    return NULL;
  if (bytes == NULL)
    {
      g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_NO_SPACE, _ ("There is not memory enough for the file."));
      return NULL;
    }
  if (!g_input_stream_read_all (G_INPUT_STREAM (stream), bytes, FR_WEATHER_SIZE_MAX + 1, length_out, cancellable, error))
    return NULL;
  return g_steal_pointer (&bytes);
}

static void
read_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Wanted *wanted = data;
  GError *failure = NULL;
  g_autoptr (GError) problem = NULL;
  gsize length = 0;
  g_autofree char *bytes = load (wanted->file, &length, cancellable, &failure);
  FrWeatherReading *reading;

  if (bytes == NULL)
    {
      g_task_return_error (task, failure);
      return;
    }
  reading = g_new0 (FrWeatherReading, 1);
  reading->zone = wanted->zone != NULL ? fr_zone_table_load (wanted->zone, ZONE_FROM_YEAR, ZONE_TO_YEAR, NULL) : NULL;
  wanted->choice.zone = reading->zone;
  reading->weather = fr_weather_read (bytes, length, &wanted->choice, &problem);
  reading->columns = fr_weather_list_columns (bytes, length, &wanted->choice, NULL);
  reading->problem = problem != NULL ? g_strdup (problem->message) : NULL;
  g_task_return_pointer (task, reading, (GDestroyNotify)fr_weather_reading_free);
}

void
fr_weather_reading_async (GFile *file, FrWeatherColumns choice, const char *zone, GCancellable *cancellable, GAsyncReadyCallback done,
                          gpointer data)
{
  g_autoptr (GTask) task = g_task_new (NULL, cancellable, done, data);
  Wanted *wanted = g_new0 (Wanted, 1);

  *wanted = (Wanted){ g_object_ref (file), choice, g_strdup (zone) };
  g_task_set_source_tag (task, fr_weather_reading_async);
  g_task_set_task_data (task, wanted, (GDestroyNotify)wanted_free);
  g_task_run_in_thread (task, read_thread);
}

FrWeatherReading *
fr_weather_reading_finish (GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}

void
fr_weather_reading_free (FrWeatherReading *reading)
{
  if (reading == NULL)
    return;
  fr_weather_free (reading->weather);
  g_clear_pointer (&reading->columns, g_ptr_array_unref);
  fr_zone_table_free (reading->zone);
  g_free (reading->problem);
  g_free (reading);
}
