/* Servers and networks that fail: each is named for what it is, the last good weather stays, and the loop
 * ticks all the while (stage.c). Bytes on the wire follow RFC 9112: a body shorter than its Content-Length is
 * not whole (section 8). */
#include "stage.h"

#include <string.h>

#define HEAD_OK "HTTP/1.1 200 OK\r\nContent-Type: application/json\r\n"

/* --- bytes --- */

typedef struct
{
  const char *name;
  const char *head;
  const char *bytes;
  guint times;
  guint step_ms;
  gboolean stays;
  FrFetchOutcome outcome;
} RawCase;

static const RawCase raw_cases[] = {
  { "truncated", HEAD_OK "Content-Length: 5000\r\n\r\n", "{\"air_temp_c\": ", 1, 5, FALSE,
    FR_FETCH_UNREADABLE },
  { "truncated-whole-to-see", HEAD_OK "Content-Length: 5000\r\n\r\n", STAGE_BODY, 1, 5, FALSE,
    FR_FETCH_UNREADABLE },
  { "truncated-chunk", HEAD_OK "Transfer-Encoding: chunked\r\n\r\n", "13\r\n" STAGE_BODY "\r\n", 1, 5, FALSE,
    FR_FETCH_UNREADABLE },
  { "endless", HEAD_OK "\r\n",
    "                                                                                ", 0, 1, TRUE,
    FR_FETCH_TOO_LARGE },
  { "endless-chunks", HEAD_OK "Transfer-Encoding: chunked\r\n\r\n",
    "40\r\n                                                                \r\n", 0, 1, TRUE,
    FR_FETCH_TOO_LARGE },
  { "slow-drip", HEAD_OK "Content-Length: 5000\r\n\r\n", " ", 0, 50, TRUE, FR_FETCH_TOO_SLOW },
  { "slow-head", NULL, "H", 0, 50, TRUE, FR_FETCH_TOO_SLOW },
  { "silent-head", NULL, "", 0, 50, TRUE, FR_FETCH_TOO_SLOW },
  { "silent-body", HEAD_OK "Content-Length: 5000\r\n\r\n{", "", 0, 50, TRUE, FR_FETCH_TOO_SLOW },
  { "hangs-up", NULL, "", 1, 5, FALSE, FR_FETCH_UNREADABLE },
  { "no-http", "220 mail.example.org ESMTP\r\n", "\r\n", 1, 5, FALSE, FR_FETCH_UNREADABLE },
  { "binary", "\001\002\003\377\376\r\n\r\n", "\r\n\r\n", 1, 5, FALSE, FR_FETCH_UNREADABLE },
  { "no-status", "HTTP/1.1 what\r\n\r\n", "{}", 1, 5, FALSE, FR_FETCH_UNREADABLE },
  { "huge-head", "HTTP/1.1 200 OK\r\n",
    "X-Pad: "
    "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa"
    "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa"
    "aaaa"
    "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa"
    "aaaa\r\n",
    0, 0, TRUE, FR_FETCH_UNREADABLE },
  { "not-gzip", HEAD_OK "Content-Encoding: gzip\r\nContent-Length: 8\r\n\r\n", "notgzip!", 1, 5, FALSE,
    FR_FETCH_UNREADABLE },
  { "wrong-content", HEAD_OK "Content-Length: 20\r\n\r\n", "<html>hotel</html>\r\n", 1, 5, FALSE,
    FR_FETCH_UNREADABLE },
  { "empty", HEAD_OK "Content-Length: 0\r\n\r\n", "", 1, 5, FALSE, FR_FETCH_UNREADABLE },
};

/* A question that is answered well, then the same an hour later that is not. */
static void
test_raw (gconstpointer data)
{
  const RawCase *one = data;
  g_autoptr (Stage) stage = stage_new_raw (HEAD_OK "Content-Length: 20\r\n\r\n", STAGE_BODY, 1, 5, FALSE);
  g_autoptr (FrWeatherFetched) good = stage_expect (stage, FR_FETCH_ANSWERED, 1), bad = NULL;

  stage->raw_head = one->head;
  stage->raw_bytes = one->bytes;
  stage->raw_times = one->times;
  stage->raw_step_ms = one->step_ms;
  stage->raw_stays = one->stays;
  stage->ask.limits = (FrWebLimits){ 20000, 1200, one->outcome == FR_FETCH_TOO_SLOW ? 1000 : 10000 };
  if (one->outcome != FR_FETCH_TOO_SLOW)
    stage->ask.limits.total_ms = 20000;
  stage->ask.now_utc += STAGE_HOUR;
  bad = stage_expect (stage, one->outcome, 2);
  g_assert_true (g_bytes_equal (bad->body, good->body));
  g_assert_nonnull (bad->weather);
  g_assert_false (bad->is_new);
  g_assert_cmpint (bad->state.answered_utc, ==, STAGE_NOW);
  g_assert_cmpint (bad->state.next_utc, ==, STAGE_NOW + 2 * STAGE_HOUR);
  if (one->outcome == FR_FETCH_TOO_SLOW)
    g_assert_cmpuint (stage->n_ticks, >, 50);
}

/* A body that comes a piece at a time, but comes, is whole; and unpacked it may be as large as the limit and
 * no larger. */
static void
answer_size (Stage *stage, SoupServerMessage *message)
{
  g_autofree char *text = g_strnfill (GPOINTER_TO_SIZE (stage->user), ' ');

  memcpy (text, STAGE_BODY, strlen (STAGE_BODY) - 1);
  text[strlen (text) - 1] = '}';
  stage_body (message, text);
}

static void
test_limit (void)
{
  g_autoptr (Stage) stage = stage_new (answer_size);

  /* The reader takes no spaces before the end, so the size is that of the plain body. */
  stage->user = GSIZE_TO_POINTER (strlen (STAGE_BODY));
  stage->ask.limits.body_bytes = strlen (STAGE_BODY);
  fr_weather_fetched_free (stage_expect (stage, FR_FETCH_ANSWERED, 1));
  stage->ask.now_utc += STAGE_HOUR;
  stage->user = GSIZE_TO_POINTER (strlen (STAGE_BODY) + 1);
  fr_weather_fetched_free (stage_expect (stage, FR_FETCH_TOO_LARGE, 2));
}

static GBytes *
packed (const char *text, gsize length)
{
  g_autoptr (GZlibCompressor) compressor = g_zlib_compressor_new (G_ZLIB_COMPRESSOR_FORMAT_GZIP, 9);
  g_autoptr (GOutputStream) memory = g_memory_output_stream_new_resizable ();
  g_autoptr (GOutputStream) out = g_converter_output_stream_new (memory, G_CONVERTER (compressor));

  g_assert_true (g_output_stream_write_all (out, text, length, NULL, NULL, NULL));
  g_assert_true (g_output_stream_close (out, NULL, NULL));
  return g_memory_output_stream_steal_as_bytes (G_MEMORY_OUTPUT_STREAM (memory));
}

static void
answer_packed (Stage *stage, SoupServerMessage *message)
{
  GBytes *bytes = stage->user;

  soup_server_message_set_status (message, 200, NULL);
  soup_message_headers_replace (soup_server_message_get_response_headers (message), "Content-Encoding",
                                "gzip");
  soup_server_message_set_response (message, "application/json", SOUP_MEMORY_COPY,
                                    g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
}

static void
test_gzip (void)
{
  g_autoptr (GBytes) whole = packed (STAGE_BODY, strlen (STAGE_BODY));
  g_autoptr (GBytes) cut = g_bytes_new_from_bytes (whole, 0, g_bytes_get_size (whole) / 2);
  g_autofree char *blank = g_strnfill (50 * 1000 * 1000, ' ');
  g_autoptr (GBytes) bomb = packed (blank, 50 * 1000 * 1000);
  g_autoptr (Stage) stage = stage_new (answer_packed);
  g_autoptr (FrWeatherFetched) fetched = NULL;

  stage->user = whole;
  fetched = stage_expect (stage, FR_FETCH_ANSWERED, 1);
  g_assert_cmpmem (g_bytes_get_data (fetched->body, NULL), g_bytes_get_size (fetched->body), STAGE_BODY,
                   strlen (STAGE_BODY));
  stage->ask.now_utc += STAGE_HOUR;
  stage->user = cut;
  fr_weather_fetched_free (stage_expect (stage, FR_FETCH_UNREADABLE, 2));
  /* 50 MB packed into 50 kB: the limit counts what comes out. */
  g_assert_cmpuint (g_bytes_get_size (bomb), <, 100000);
  stage->ask.now_utc += 2 * STAGE_HOUR;
  stage->user = bomb;
  fr_weather_fetched_free (stage_expect (stage, FR_FETCH_TOO_LARGE, 3));
}

/* --- no network --- */

/* Nobody listens on a port that was just let go of; nothing was asked, so it may be tried again sooner than
 * in an hour. */
static void
test_refused (void)
{
  g_autoptr (Stage) stage = stage_new (stage_answer_ok);
  g_autoptr (FrWeatherFetched) good = stage_expect (stage, FR_FETCH_ANSWERED, 1), bad = NULL;

  stage_deaf (stage);
  stage->ask.now_utc += STAGE_HOUR;
  bad = stage_expect (stage, FR_FETCH_OFFLINE, 1);
  g_assert_true (g_bytes_equal (bad->body, good->body));
  g_assert_cmpint (bad->state.next_utc, ==, stage->ask.now_utc + 600);
  g_assert_cmpuint (bad->state.http_status, ==, 0);
}

/* A resolver that knows no name, so that none is asked of a network. */
GType
no_names_get_type (void);
typedef GResolver NoNames;
typedef GResolverClass NoNamesClass;
G_DEFINE_TYPE (NoNames, no_names, G_TYPE_RESOLVER)

static guint n_names;
static gboolean names_hang;

static void
let_go (GCancellable *cancellable, GTask *task)
{
  g_task_return_error_if_cancelled (task);
  g_object_unref (task);
}

static void
lookup_async (GResolver *resolver, const char *name, GResolverNameLookupFlags flags,
              GCancellable *cancellable, GAsyncReadyCallback callback, gpointer data)
{
  g_autoptr (GTask) task = g_task_new (resolver, cancellable, callback, data);

  n_names++;
  if (names_hang)
    {
      g_cancellable_connect (cancellable, G_CALLBACK (let_go), g_steal_pointer (&task), NULL);
      return;
    }
  g_task_return_new_error (task, G_RESOLVER_ERROR, G_RESOLVER_ERROR_TEMPORARY_FAILURE, "no names here");
}

static GList *
lookup_finish (GResolver *resolver, GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}

static void
no_names_class_init (NoNamesClass *klass)
{
  klass->lookup_by_name_with_flags_async = lookup_async;
  klass->lookup_by_name_with_flags_finish = lookup_finish;
}

static void
no_names_init (NoNames *self)
{
}

static void
test_no_such_host (void)
{
  g_autoptr (Stage) stage = stage_new (stage_answer_ok);
  g_autoptr (GResolver) system = g_resolver_get_default (), none = g_object_new (no_names_get_type (), NULL);

  g_resolver_set_default (none);
  stage->ask.base_address = "https://weather.invalid";
  fr_weather_fetched_free (stage_expect (stage, FR_FETCH_OFFLINE, 0));
  g_assert_cmpuint (n_names, >=, 1);
  g_resolver_set_default (system);
}

/* One that never answers: only the clock ends it. */
static void
test_resolver_hangs (void)
{
  g_autoptr (Stage) stage = stage_new (stage_answer_ok);
  g_autoptr (GResolver) system = g_resolver_get_default (), none = g_object_new (no_names_get_type (), NULL);

  g_resolver_set_default (none);
  names_hang = TRUE;
  stage->ask.base_address = "https://weather.invalid";
  stage->ask.limits.idle_ms = 400;
  fr_weather_fetched_free (stage_expect (stage, FR_FETCH_TOO_SLOW, 0));
  g_assert_cmpuint (stage->n_ticks, >, 20);
  names_hang = FALSE;
  g_resolver_set_default (system);
}

/* --- reading takes its time --- */

static FrWeather *
slow_reader (GBytes *body, FrWeatherFormat format, GError **error)
{
  g_usleep (900 * 1000);
  return stage_reader (body, format, error);
}

static void
test_slow_reader (void)
{
  g_autoptr (Stage) stage = stage_new (stage_answer_ok);

  stage->ask.reader = slow_reader;
  fr_weather_fetched_free (stage_expect (stage, FR_FETCH_ANSWERED, 1));
  g_assert_cmpuint (stage->n_ticks, >, 50);
}

/* --- whatever comes --- */

/* Answers whose bytes were changed, cut, doubled and mixed at random: each ends in an outcome that has a
 * name, with the good weather still there, and the server asked once. */
static char *
spoil (GRand *rand, const char *text)
{
  GString *out = g_string_new (text);
  const guint n_changes = g_rand_int_range (rand, 1, 6);

  for (guint i = 0; i < n_changes && out->len > 2; i++)
    {
      const gsize at = g_rand_int_range (rand, 0, out->len),
                  n = g_rand_int_range (rand, 0, 1 + MIN (out->len - at, 30));
      g_autofree char *piece = g_strndup (out->str + at, n);

      switch (g_rand_int_range (rand, 0, 5))
        {
        case 0:
          out->str[at] = g_rand_int_range (rand, 1, 256);
          break;
        case 1:
          g_string_erase (out, at, n);
          break;
        case 2:
          g_string_insert (out, g_rand_int_range (rand, 0, out->len), piece);
          break;
        case 3:
          g_string_truncate (out, at);
          break;
        default:
          g_string_insert_c (out, at, "\r\n :,;0179%\t"[g_rand_int_range (rand, 0, 12)]);
        }
    }
  return g_string_free (out, FALSE);
}

static void
test_whatever (void)
{
  static const char *const answers[] = {
    HEAD_OK
    "Content-Length: 20\r\nLast-Modified: Fri, 20 Mar 2026 11:02:03 GMT\r\nETag: \"a\"\r\n\r\n" STAGE_BODY,
    HEAD_OK "Transfer-Encoding: chunked\r\nCache-Control: max-age=60\r\n\r\n14\r\n" STAGE_BODY
            "\r\n0\r\n\r\n",
    "HTTP/1.1 429 Too Many Requests\r\nRetry-After: 120\r\nContent-Length: 2\r\n\r\nno",
    "HTTP/1.1 302 Found\r\nLocation: /other\r\nContent-Length: 0\r\n\r\n",
    "HTTP/1.1 304 Not Modified\r\nExpires: Fri, 20 Mar 2026 14:02:03 GMT\r\n\r\n",
    "HTTP/1.1 100 Continue\r\n\r\n" HEAD_OK "Content-Encoding: gzip\r\n\r\n" STAGE_BODY
  };
  g_autoptr (Stage) stage = stage_new_raw (HEAD_OK "Content-Length: 20\r\n\r\n", STAGE_BODY, 1, 1, FALSE);
  g_autoptr (FrWeatherFetched) good = stage_expect (stage, FR_FETCH_ANSWERED, 1);
  g_autoptr (GRand) rand = g_rand_new_with_seed (20260320);
  guint seen[FR_N_FETCH_OUTCOMES] = { 0 };

  stage->raw_bytes = "";
  stage->ask.limits = (FrWebLimits){ 20000, 400, 300 };
  for (guint i = 0; i < 400; i++)
    {
      g_autofree char *text = spoil (rand, answers[i % G_N_ELEMENTS (answers)]);
      g_autofree char *contact
          = g_strdup_printf ("try-%u@example.org", i); /* so that a refusal does not end it */
      g_autoptr (FrWeatherFetched) fetched = NULL;
      const guint n_asked = stage->n_asked;

      stage->raw_head = text;
      stage->ask.contact = contact;
      stage->ask.now_utc += 31LL * 24 * STAGE_HOUR;
      fetched = stage_fetch (stage, NULL, NULL);
      g_assert_nonnull (fetched->body);
      g_assert_nonnull (fetched->weather);
      g_assert_cmpuint (stage->n_asked - n_asked, >=, 1);
      g_assert_cmpuint (stage->n_asked - n_asked, <=, 4);
      g_assert_cmpint (fetched->state.outcome, >, FR_FETCH_BROKEN_OFF);
      seen[fetched->state.outcome]++;
    }
  g_assert_cmpuint (seen[FR_FETCH_ANSWERED], >, 10);
  g_assert_cmpuint (seen[FR_FETCH_UNREADABLE], >, 10);
  for (guint i = 0; i < FR_N_FETCH_OUTCOMES; i++)
    if (seen[i] > 0)
      g_test_message ("%s: %u", fr_fetch_outcome_code (i), seen[i]);
}

/* --- let go of --- */

static gboolean
cancel_soon (gpointer data)
{
  g_cancellable_cancel (data);
  return G_SOURCE_REMOVE;
}

static void
test_cancel (void)
{
  for (guint i = 0; i < 12; i++)
    {
      g_autoptr (Stage) stage
          = stage_new_raw (i % 2 ? NULL : HEAD_OK "Content-Length: 5000\r\n\r\n", " ", 0, 20, TRUE);
      g_autoptr (GCancellable) cancellable = g_cancellable_new ();
      g_autoptr (GError) error = NULL;
      g_autoptr (FrWeatherFetched) after = NULL;
      const gint64 began_us = g_get_monotonic_time ();

      g_timeout_add (i * 15, cancel_soon, cancellable);
      g_assert_null (stage_fetch (stage, cancellable, &error));
      g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
      g_assert_cmpint (g_get_monotonic_time () - began_us, <, 3000000);
      /* What was begun counts as asked. */
      stage->ask.only_kept = TRUE;
      after = stage_fetch (stage, NULL, NULL);
      g_assert_true (after->state.outcome == FR_FETCH_BROKEN_OFF
                     || after->state.outcome == FR_FETCH_NEVER_ASKED);
      if (stage->n_asked > 0)
        g_assert_cmpint (after->state.next_utc, ==, STAGE_NOW + STAGE_HOUR);
    }
}

int
main (int argc, char **argv)
{
  int result;

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (raw_cases); i++)
    {
      g_autofree char *path = g_strdup_printf ("/weather-trouble/bytes/%s", raw_cases[i].name);

      g_test_add_data_func (path, &raw_cases[i], test_raw);
    }
  g_test_add_func ("/weather-trouble/limit", test_limit);
  g_test_add_func ("/weather-trouble/gzip", test_gzip);
  g_test_add_func ("/weather-trouble/refused", test_refused);
  g_test_add_func ("/weather-trouble/no-such-host", test_no_such_host);
  g_test_add_func ("/weather-trouble/resolver-hangs", test_resolver_hangs);
  g_test_add_func ("/weather-trouble/slow-reader", test_slow_reader);
  g_test_add_func ("/weather-trouble/whatever", test_whatever);
  g_test_add_func ("/weather-trouble/cancel", test_cancel);
  result = g_test_run ();
  g_test_message ("longest while between two ticks of the loop: %.0f ms", stage_longest_us / 1000.0);
  return result;
}
