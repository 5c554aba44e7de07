#include "stage.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#define TICK_MS 5

gint64 stage_longest_us;

/* --- reading --- */

FrWeather *
stage_reader (GBytes *body, FrWeatherFormat format, GError **error)
{
  gsize length;
  const char *bytes = g_bytes_get_data (body, &length);
  g_autofree char *text = g_strndup (bytes != NULL ? bytes : "", length);
  g_autoptr (FrWeather) weather = fr_weather_new (format);
  char *end = NULL;
  double temp_c;

  if (format == FR_WEATHER_NWS_POINT && g_str_has_prefix (text, "{\"next\": \"")
      && g_str_has_suffix (text, "\"}"))
    {
      weather->next_link = g_strndup (text + 10, strlen (text) - 12);
      return g_steal_pointer (&weather);
    }
  temp_c = g_str_has_prefix (text, "{\"air_temp_c\": ") ? g_ascii_strtod (text + 15, &end) : NAN;
  if (end == NULL || strcmp (end, "}") != 0)
    {
      g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA, "This holds no weather.");
      return NULL;
    }
  g_array_append_val (weather->hours,
                      ((FrWeatherHour){ .utc_s = STAGE_NOW, .span_s = 3600, .temp_c = temp_c }));
  return g_steal_pointer (&weather);
}

/* --- answering --- */

void
stage_body (SoupServerMessage *message, const char *text)
{
  soup_server_message_set_status (message, 200, NULL);
  soup_server_message_set_response (message, "application/json", SOUP_MEMORY_COPY, text, strlen (text));
}

void
stage_answer_ok (Stage *stage, SoupServerMessage *message)
{
  stage_body (message, STAGE_BODY);
  soup_message_headers_replace (soup_server_message_get_response_headers (message), "Last-Modified",
                                "Fri, 20 Mar 2026 11:02:03 GMT");
}

static void
on_question (SoupServer *server, SoupServerMessage *message, const char *path, GHashTable *query,
             gpointer data)
{
  Stage *stage = data;
  SoupMessageHeadersIter iter;
  const char *name, *value;

  stage->n_asked++;
  stage->version = soup_server_message_get_http_version (message);
  g_clear_pointer (&stage->uri, g_uri_unref);
  stage->uri = g_uri_ref (soup_server_message_get_uri (message));
  g_hash_table_remove_all (stage->head);
  soup_message_headers_iter_init (&iter, soup_server_message_get_request_headers (message));
  while (soup_message_headers_iter_next (&iter, &name, &value))
    g_hash_table_insert (stage->head, g_ascii_strdown (name, -1), g_strdup (value));
  stage->answer (stage, message);
}

/* --- bytes as they are --- */

typedef struct
{
  Stage *stage;
  GSocketConnection *connection;
  GByteArray *said;
  guint n_written;
  guint8 buffer[1024];
} Raw;

static void
raw_read (Raw *raw);

static void
raw_free (Raw *raw)
{
  g_object_unref (raw->connection);
  g_byte_array_unref (raw->said);
  g_free (raw);
}

static gboolean
raw_write (gpointer data)
{
  Raw *raw = data;
  GOutputStream *out = g_io_stream_get_output_stream (G_IO_STREAM (raw->connection));
  const Stage *stage = raw->stage;

  if (stage->raw_times == 0 || raw->n_written < stage->raw_times)
    {
      raw->n_written++;
      if (g_pollable_output_stream_is_writable (G_POLLABLE_OUTPUT_STREAM (out))
          && g_output_stream_write (out, stage->raw_bytes, strlen (stage->raw_bytes), NULL, NULL) < 0)
        {
          raw_free (raw);
          return G_SOURCE_REMOVE;
        }
      return G_SOURCE_CONTINUE;
    }
  if (!stage->raw_stays)
    g_io_stream_close (G_IO_STREAM (raw->connection), NULL, NULL);
  raw_free (raw);
  return G_SOURCE_REMOVE;
}

static void
raw_was_read (GObject *object, GAsyncResult *result, gpointer data)
{
  Raw *raw = data;
  const gssize n = g_input_stream_read_finish (G_INPUT_STREAM (object), result, NULL);

  if (n <= 0)
    {
      raw_free (raw);
      return;
    }
  g_byte_array_append (raw->said, raw->buffer, n);
  if (!raw->stage->raw_at_once && memmem (raw->said->data, raw->said->len, "\r\n\r\n", 4) == NULL)
    {
      raw_read (raw);
      return;
    }
  raw->stage->n_asked++;
  if (raw->stage->raw_head != NULL)
    g_output_stream_write_all (g_io_stream_get_output_stream (G_IO_STREAM (raw->connection)),
                               raw->stage->raw_head, strlen (raw->stage->raw_head), NULL, NULL, NULL);
  g_timeout_add (raw->stage->raw_step_ms, raw_write, raw);
}

static void
raw_read (Raw *raw)
{
  g_input_stream_read_async (g_io_stream_get_input_stream (G_IO_STREAM (raw->connection)), raw->buffer,
                             sizeof raw->buffer, G_PRIORITY_DEFAULT, NULL, raw_was_read, raw);
}

static gboolean
on_raw (GSocketService *service, GSocketConnection *connection, GObject *source, gpointer data)
{
  Raw *raw = g_new0 (Raw, 1);

  raw->stage = data;
  raw->connection = g_object_ref (connection);
  raw->said = g_byte_array_new ();
  raw_read (raw);
  return TRUE;
}

/* --- the stage --- */

static Stage *
stage_bare (void)
{
  Stage *stage = g_new0 (Stage, 1);

  stage->folder = g_dir_make_tmp ("frostrun-fetch-XXXXXX", NULL);
  g_assert_nonnull (stage->folder);
  stage->head = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  return stage;
}

static void
stage_household (Stage *stage, guint port)
{
  stage->base = g_strdup_printf ("http://127.0.0.1:%u", port);
  stage->secure_base = g_strdup_printf ("https://127.0.0.1:%u", port);
  stage->ask = (FrWeatherAsk){ .service = FR_WEATHER_SERVICE_MET_NORWAY,
                               .base_address = stage->base,
                               .contact = "sugarhouse@example.org",
                               .version = "0.0",
                               .latitude_deg = 44.26071,
                               .longitude_deg = -72.57538,
                               .altitude_m = NAN,
                               .folder = stage->folder,
                               .reader = stage_reader,
                               .limits = { 100000, 20000, 10000 },
                               .now_utc = STAGE_NOW };
}

static void
listen_here (Stage *stage,
             gboolean (*on_incoming) (GSocketService *, GSocketConnection *, GObject *, gpointer))
{
  g_autoptr (GInetAddress) loopback = g_inet_address_new_loopback (G_SOCKET_FAMILY_IPV4);
  g_autoptr (GSocketAddress) any = g_inet_socket_address_new (loopback, 0), here = NULL;
  g_autoptr (GError) error = NULL;

  stage->service = g_socket_service_new ();
  g_socket_listener_add_address (G_SOCKET_LISTENER (stage->service), any, G_SOCKET_TYPE_STREAM,
                                 G_SOCKET_PROTOCOL_TCP, NULL, &here, &error);
  g_assert_no_error (error);
  g_signal_connect (stage->service, "incoming", G_CALLBACK (on_incoming), stage);
  stage_household (stage, g_inet_socket_address_get_port (G_INET_SOCKET_ADDRESS (here)));
}

/* The server is handed its connections: one that listens by itself keeps a socket of each, which would count
 * as a leak. */
static void
hand_over (Stage *stage, GSocketConnection *connection, GIOStream *stream)
{
  g_autoptr (GSocketAddress) here = g_socket_connection_get_local_address (connection, NULL);
  g_autoptr (GSocketAddress) there = g_socket_connection_get_remote_address (connection, NULL);

  g_assert_true (soup_server_accept_iostream (stage->server, stream, here, there, NULL));
}

static gboolean
on_incoming (GSocketService *service, GSocketConnection *connection, GObject *source, gpointer data)
{
  Stage *stage = data;
  g_autoptr (GIOStream) secure = NULL;

  if (stage->certificate != NULL)
    secure = g_tls_server_connection_new (G_IO_STREAM (connection), stage->certificate, NULL);
  hand_over (stage, connection, secure != NULL ? secure : G_IO_STREAM (connection));
  return TRUE;
}

Stage *
stage_new (StageAnswer answer)
{
  Stage *stage = stage_bare ();

  stage->answer = answer;
  stage->server = soup_server_new (NULL, NULL);
  soup_server_add_handler (stage->server, NULL, on_question, stage, NULL);
  listen_here (stage, on_incoming);
  return stage;
}

Stage *
stage_new_raw (const char *head, const char *bytes, guint times, guint step_ms, gboolean stays)
{
  Stage *stage = stage_bare ();

  listen_here (stage, on_raw);
  stage->raw_head = head;
  stage->raw_bytes = bytes;
  stage->raw_times = times;
  stage->raw_step_ms = step_ms;
  stage->raw_stays = stays;
  return stage;
}

void
stage_speak_http2 (Stage *stage)
{
  g_autoptr (GError) error = NULL;
  GSList *uris;

  soup_server_set_tls_certificate (stage->server, stage->certificate);
  soup_server_listen_local (stage->server, 0, SOUP_SERVER_LISTEN_HTTPS | SOUP_SERVER_LISTEN_IPV4_ONLY,
                            &error);
  g_assert_no_error (error);
  uris = soup_server_get_uris (stage->server);
  g_free (stage->secure_base);
  stage->secure_base = g_strdup_printf ("https://127.0.0.1:%d", g_uri_get_port (uris->data));
  stage->ask.base_address = stage->secure_base;
  g_slist_free_full (uris, (GDestroyNotify)g_uri_unref);
}

void
stage_deaf (Stage *stage)
{
  g_socket_service_stop (stage->service);
  g_socket_listener_close (G_SOCKET_LISTENER (stage->service));
}

void
stage_remove_folder (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        stage_remove_folder (path);
      else
        g_unlink (path);
    }
  g_rmdir (folder);
}

static gboolean
on_later (gpointer data)
{
  *(gboolean *)data = TRUE;
  return G_SOURCE_REMOVE;
}

void
stage_free (Stage *stage)
{
  gboolean later = FALSE;

  if (stage == NULL)
    return;
  if (stage->server != NULL)
    soup_server_disconnect (stage->server);
  stage_deaf (stage);
  /* Connections whose other end has gone notice it. */
  stage->raw_times = stage->raw_times == 0 ? 1 : stage->raw_times;
  stage->raw_stays = FALSE;
  g_timeout_add (2 * stage->raw_step_ms + 20, on_later, &later);
  while (!later)
    g_main_context_iteration (NULL, TRUE);
  g_clear_object (&stage->server);
  g_clear_object (&stage->service);
  stage_remove_folder (stage->folder);
  g_clear_pointer (&stage->uri, g_uri_unref);
  g_hash_table_unref (stage->head);
  g_free (stage->folder);
  g_clear_object (&stage->certificate);
  g_free (stage->base);
  g_free (stage->secure_base);
  g_free (stage);
}

/* --- asking --- */

typedef struct
{
  Stage *stage;
  gint64 last_us;
  GAsyncResult *result;
} Watch;

static gboolean
on_tick (gpointer data)
{
  Watch *watch = data;
  const gint64 now_us = g_get_monotonic_time ();

  watch->stage->n_ticks++;
  watch->stage->longest_us = MAX (watch->stage->longest_us, now_us - watch->last_us);
  watch->last_us = now_us;
  return G_SOURCE_CONTINUE;
}

static void
on_fetched (GObject *object, GAsyncResult *result, gpointer data)
{
  ((Watch *)data)->result = g_object_ref (result);
}

FrWeatherFetched *
stage_fetch (Stage *stage, GCancellable *cancellable, GError **error)
{
  Watch watch = { stage, g_get_monotonic_time (), NULL };
  const guint ticks = g_timeout_add (TICK_MS, on_tick, &watch);
  const gint64 began_us = watch.last_us;
  g_autoptr (GAsyncResult) result = NULL;

  stage->n_ticks = 0;
  stage->longest_us = 0;
  fr_weather_fetch_async (&stage->ask, cancellable, on_fetched, &watch);
  /* It came back without having waited for anything. */
  g_assert_cmpint (g_get_monotonic_time () - began_us, <, 200000);
  while (watch.result == NULL)
    g_main_context_iteration (NULL, TRUE);
  g_source_remove (ticks);
  result = watch.result;
  stage_longest_us = MAX (stage_longest_us, stage->longest_us);
  /* The window would have been drawn all the while. Half a second is what a machine that is busy with other
   * tests may take away. */
  g_assert_cmpint (stage->longest_us, <, 500000);
  return fr_weather_fetch_finish (result, error);
}

FrWeatherFetched *
stage_expect (Stage *stage, FrFetchOutcome outcome, guint n_asked)
{
  g_autoptr (GError) error = NULL;
  FrWeatherFetched *fetched = stage_fetch (stage, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpstr (fr_fetch_outcome_code (fetched->state.outcome), ==, fr_fetch_outcome_code (outcome));
  g_assert_cmpuint (stage->n_asked, ==, n_asked);
  return fetched;
}
