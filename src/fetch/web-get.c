/* libsoup on a main context of its own, turned here until the answer is whole or a limit is reached. A limit
 * is a timer that cancels, so that it also ends a name that does not resolve, a head that drips and a body
 * that never ends. A session serves one question: no connection is reused, so libsoup has no cause to ask
 * twice. */
#include "fetch/web-get.h"

#include <libsoup/soup.h>
#include <string.h>

#include "fetch/web-address.h"

#define REDIRECTS_MAX 3
#define PIECE_BYTES 65536

const FrWebLimits fr_web_limits = { 8 * 1024 * 1024, 60 * 1000, 20 * 1000 };

typedef struct
{
  const FrWebQuestion *question;
  FrWebAnswer *answer;
  GMainContext *context;
  GMainLoop *loop;
  SoupSession *session;
  SoupMessage *message;
  GCancellable *inner;
  GSource *total, *idle;
  GInputStream *stream;
  GByteArray *body;
  char *address;
  guint n_redirects;
  gboolean too_slow;
  gboolean cancelled;
} Get;

static void
ask (Get *get);

/* --- limits --- */

static gboolean
on_limit (gpointer data)
{
  Get *get = data;

  get->too_slow = TRUE;
  g_cancellable_cancel (get->inner);
  return G_SOURCE_REMOVE;
}

static void
stop_timer (GSource **source)
{
  if (*source != NULL)
    g_source_destroy (*source);
  g_clear_pointer (source, g_source_unref);
}

static void
start_timer (Get *get, GSource **source, guint ms)
{
  stop_timer (source);
  *source = g_timeout_source_new (ms);
  g_source_set_callback (*source, on_limit, get, NULL);
  g_source_attach (*source, get->context);
}

static gboolean
cancel_here (gpointer data)
{
  Get *get = data;

  get->cancelled = TRUE;
  g_cancellable_cancel (get->inner);
  return G_SOURCE_REMOVE;
}

/* In the thread of whoever cancels. What libsoup watches is cancelled in its own thread: GLib 2.74 may lose a
 * source that is let go of at the moment when another thread cancels it. */
static void
on_cancelled (GCancellable *cancellable, gpointer data)
{
  Get *get = data;
  g_autoptr (GSource) source = g_idle_source_new ();

  g_source_set_priority (source, G_PRIORITY_HIGH);
  g_source_set_callback (source, cancel_here, get, NULL);
  g_source_attach (source, get->context);
}

/* --- what went wrong --- */

static FrFetchTls
tls_fault (GTlsCertificateFlags flags)
{
  static const struct
  {
    GTlsCertificateFlags flag;
    FrFetchTls fault;
  } faults[] = {
    /* The worst first. */
    { G_TLS_CERTIFICATE_REVOKED, FR_FETCH_TLS_REVOKED },
    { G_TLS_CERTIFICATE_BAD_IDENTITY, FR_FETCH_TLS_OTHER_NAME },
    { G_TLS_CERTIFICATE_EXPIRED | G_TLS_CERTIFICATE_NOT_ACTIVATED, FR_FETCH_TLS_OUT_OF_DATE },
    { G_TLS_CERTIFICATE_UNKNOWN_CA, FR_FETCH_TLS_UNKNOWN_SIGNER },
    { G_TLS_CERTIFICATE_INSECURE, FR_FETCH_TLS_WEAK },
  };

  for (guint i = 0; i < G_N_ELEMENTS (faults); i++)
    if (flags & faults[i].flag)
      return faults[i].fault;
  return FR_FETCH_TLS_FAILED;
}

static FrFetchOutcome
outcome_of (Get *get, const GError *error)
{
  if (get->cancelled)
    return FR_FETCH_BROKEN_OFF;
  if (get->too_slow || g_error_matches (error, G_IO_ERROR, G_IO_ERROR_TIMED_OUT))
    return FR_FETCH_TOO_SLOW;
  if (error->domain == G_TLS_ERROR)
    {
      get->answer->tls = tls_fault (soup_message_get_tls_peer_certificate_errors (get->message));
      return FR_FETCH_NOT_TRUSTED;
    }
  /* Whatever comes after the question was sent is an answer cut short, or none at all. */
  return get->answer->was_sent ? FR_FETCH_UNREADABLE : FR_FETCH_OFFLINE;
}

static void
end (Get *get, FrFetchOutcome outcome)
{
  get->answer->outcome = outcome;
  g_main_loop_quit (get->loop);
}

/* --- the body --- */

static void
read_on (Get *get);

static void
piece_read (GObject *object, GAsyncResult *result, gpointer data)
{
  Get *get = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) piece = g_input_stream_read_bytes_finish (G_INPUT_STREAM (object), result, &error);
  gsize n;

  if (piece == NULL)
    {
      end (get, outcome_of (get, error));
      return;
    }
  n = g_bytes_get_size (piece);
  if (n == 0)
    {
      get->answer->body = g_byte_array_free_to_bytes (g_steal_pointer (&get->body));
      end (get, FR_FETCH_ANSWERED);
      return;
    }
  if (n > get->question->limits.body_bytes - get->body->len)
    {
      end (get, FR_FETCH_TOO_LARGE);
      return;
    }
  g_byte_array_append (get->body, g_bytes_get_data (piece, NULL), n);
  start_timer (get, &get->idle, get->question->limits.idle_ms);
  read_on (get);
}

static void
read_on (Get *get)
{
  g_input_stream_read_bytes_async (get->stream, PIECE_BYTES, G_PRIORITY_DEFAULT, get->inner, piece_read, get);
}

/* --- the head --- */

static void
keep_head (FrWebAnswer *answer, SoupMessage *message)
{
  SoupMessageHeaders *head = soup_message_get_response_headers (message);
  const struct
  {
    const char *name;
    char **at;
    gboolean is_list;
  } fields[] = {
    { "Last-Modified", &answer->last_modified, FALSE },
    { "ETag", &answer->etag, FALSE },
    { "Cache-Control", &answer->cache_control, TRUE },
    { "Expires", &answer->expires, FALSE },
    { "Date", &answer->date, FALSE },
    { "Age", &answer->age, FALSE },
    { "Retry-After", &answer->retry_after, FALSE },
  };

  answer->status = soup_message_get_status (message);
  for (guint i = 0; i < G_N_ELEMENTS (fields); i++)
    *fields[i].at = g_strdup (fields[i].is_list ? soup_message_headers_get_list (head, fields[i].name)
                                                : soup_message_headers_get_one (head, fields[i].name));
}

static gboolean
is_redirect (guint status)
{
  return status == 301 || status == 302 || status == 303 || status == 307 || status == 308;
}

static void
redirect (Get *get)
{
  const char *link
      = soup_message_headers_get_one (soup_message_get_response_headers (get->message), "Location");
  char *address
      = link != NULL && get->n_redirects < REDIRECTS_MAX ? fr_web_address_follow (get->address, link) : NULL;

  if (address == NULL)
    {
      get->answer->status = soup_message_get_status (get->message);
      end (get, FR_FETCH_SENT_AWAY);
      return;
    }
  get->n_redirects++;
  g_free (get->address);
  get->address = address;
  ask (get);
}

static void
head_read (GObject *object, GAsyncResult *result, gpointer data)
{
  Get *get = data;
  g_autoptr (GError) error = NULL;
  guint status;

  g_clear_object (&get->stream);
  get->stream = soup_session_send_finish (SOUP_SESSION (object), result, &error);
  if (get->stream == NULL)
    {
      end (get, outcome_of (get, error));
      return;
    }
  status = soup_message_get_status (get->message);
  if (is_redirect (status))
    {
      redirect (get);
      return;
    }
  keep_head (get->answer, get->message);
  if (status != SOUP_STATUS_OK && status != SOUP_STATUS_NON_AUTHORITATIVE)
    {
      end (get, FR_FETCH_ANSWERED);
      return;
    }
  start_timer (get, &get->idle, get->question->limits.idle_ms);
  read_on (get);
}

static void
on_starting (SoupMessage *message, gpointer data)
{
  ((Get *)data)->answer->was_sent = TRUE;
}

/* HTTP/1.1 and no other: libsoup 3.2 looks at the cancellable of a question over HTTP/2 only when something
 * comes, so a server that falls silent would hold this thread for ever. */
static void
on_network (SoupMessage *message, GSocketClientEvent event, GIOStream *stream, gpointer data)
{
  static const char *const protocols[] = { "http/1.1", NULL };

  if (event == G_SOCKET_CLIENT_TLS_HANDSHAKING && G_IS_TLS_CONNECTION (stream))
    g_tls_connection_set_advertised_protocols (G_TLS_CONNECTION (stream), protocols);
}

static void
ask (Get *get)
{
  const FrWebQuestion *question = get->question;
  SoupMessageHeaders *head;

  g_clear_object (&get->message);
  get->message = soup_message_new (SOUP_METHOD_GET, get->address);
  if (get->message == NULL)
    {
      end (get, FR_FETCH_BAD_ADDRESS);
      return;
    }
  soup_message_add_flags (get->message, SOUP_MESSAGE_NO_REDIRECT);
  head = soup_message_get_request_headers (get->message);
  soup_message_headers_append (head, "User-Agent", question->agent);
  soup_message_headers_append (head, "Accept", "application/json, application/geo+json");
  if (question->if_modified_since != NULL)
    soup_message_headers_append (head, "If-Modified-Since", question->if_modified_since);
  if (question->if_none_match != NULL)
    soup_message_headers_append (head, "If-None-Match", question->if_none_match);
  g_signal_connect (get->message, "starting", G_CALLBACK (on_starting), get);
  g_signal_connect (get->message, "network-event", G_CALLBACK (on_network), get);
  start_timer (get, &get->idle, question->limits.idle_ms);
  soup_session_send_async (get->session, get->message, G_PRIORITY_DEFAULT, get->inner, head_read, get);
}

/* --- from outside --- */

static void
run (Get *get, GCancellable *cancellable)
{
  const gulong handler
      = cancellable != NULL ? g_cancellable_connect (cancellable, G_CALLBACK (on_cancelled), get, NULL) : 0;

  start_timer (get, &get->total, get->question->limits.total_ms);
  ask (get);
  g_main_loop_run (get->loop);
  g_cancellable_disconnect (cancellable, handler);
  stop_timer (&get->total);
  stop_timer (&get->idle);
}

FrWebAnswer *
fr_web_get (const FrWebQuestion *question, GCancellable *cancellable)
{
  Get get
      = { .question = question, .answer = g_new0 (FrWebAnswer, 1), .address = g_strdup (question->address) };

  get.context = g_main_context_new ();
  g_main_context_push_thread_default (get.context);
  get.loop = g_main_loop_new (get.context, FALSE);
  get.inner = g_cancellable_new ();
  get.body = g_byte_array_new ();
  /* The timers here stand for libsoup's own, which count in seconds. */
  get.session = soup_session_new_with_options ("timeout", 0, "idle-timeout", 0, NULL);
  if (question->authorities != NULL)
    soup_session_set_tls_database (get.session, question->authorities);
  run (&get, cancellable);
  g_clear_object (&get.stream);
  g_clear_object (&get.message);
  soup_session_abort (get.session);
  while (g_main_context_iteration (get.context, FALSE))
    ;
  g_clear_object (&get.session);
  g_clear_object (&get.inner);
  g_clear_pointer (&get.body, g_byte_array_unref);
  g_clear_pointer (&get.loop, g_main_loop_unref);
  g_main_context_pop_thread_default (get.context);
  g_main_context_unref (get.context);
  g_free (get.address);
  return get.answer;
}

void
fr_web_answer_free (FrWebAnswer *answer)
{
  if (answer == NULL)
    return;
  g_clear_pointer (&answer->body, g_bytes_unref);
  g_free (answer->last_modified);
  g_free (answer->etag);
  g_free (answer->cache_control);
  g_free (answer->expires);
  g_free (answer->date);
  g_free (answer->age);
  g_free (answer->retry_after);
  g_free (answer);
}
