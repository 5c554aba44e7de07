/* https: a server is believed when somebody trusted vouches for its address today, and else what is wrong is
 * named (RFC 9110, 4.3.4). Certificates by OpenSSL: trust/sources.md. */
#include "stage.h"

static Stage *
stage_with (const char *certificate, const char *authority)
{
  Stage *stage = stage_new (stage_answer_ok);
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "fetch", "trust", certificate, NULL);
  g_autoptr (GError) error = NULL;

  stage->certificate = g_tls_certificate_new_from_file (path, &error);
  g_assert_no_error (error);
  if (authority != NULL)
    {
      g_autofree char *file = g_test_build_filename (G_TEST_DIST, "fetch", "trust", authority, NULL);

      stage->ask.authorities = g_tls_file_database_new (file, &error);
      g_assert_no_error (error);
    }
  stage->ask.base_address = stage->secure_base;
  return stage;
}

static void
trust_is (const char *certificate, const char *authority, FrFetchOutcome outcome, FrFetchTls tls)
{
  Stage *stage;
  g_autoptr (FrWeatherFetched) fetched = NULL;

  if (!g_tls_backend_supports_tls (g_tls_backend_get_default ()))
    {
      g_test_skip ("no TLS here");
      return;
    }
  stage = stage_with (certificate, authority);
  fetched = stage_expect (stage, outcome, outcome == FR_FETCH_ANSWERED ? 1 : 0);
  g_assert_cmpint (fetched->state.tls, ==, tls);
  g_clear_object (&stage->ask.authorities);
  stage_free (stage);
}

static void
test_sound (void)
{
  trust_is ("sound.pem", "authority.pem", FR_FETCH_ANSWERED, FR_FETCH_TLS_SOUND);
}

static void
test_unknown_signer (void)
{
  trust_is ("sound.pem", NULL, FR_FETCH_NOT_TRUSTED, FR_FETCH_TLS_UNKNOWN_SIGNER);
  trust_is ("sound.pem", "other-name.pem", FR_FETCH_NOT_TRUSTED, FR_FETCH_TLS_UNKNOWN_SIGNER);
}

static void
test_other_name (void)
{
  trust_is ("other-name.pem", "authority.pem", FR_FETCH_NOT_TRUSTED, FR_FETCH_TLS_OTHER_NAME);
}

static void
test_out_of_date (void)
{
  trust_is ("out-of-date.pem", "authority.pem", FR_FETCH_NOT_TRUSTED, FR_FETCH_TLS_OUT_OF_DATE);
}

/* --- a server that would speak HTTP/2 (RFC 9113), as the services do; what it says by HTTP/1.1 is taken, and
 * its silence ends --- */

static void
answer_in_turn (Stage *stage, SoupServerMessage *message)
{
  switch (stage->n_asked)
    {
    case 1:
      stage_answer_ok (stage, message);
      break;
    case 2:
      g_assert_cmpstr (g_hash_table_lookup (stage->head, "if-modified-since"), ==,
                       "Fri, 20 Mar 2026 11:02:03 GMT");
      soup_server_message_set_status (message, 304, NULL);
      break;
    case 3:
      soup_server_message_set_status (message, 429, NULL);
      soup_message_headers_replace (soup_server_message_get_response_headers (message), "Retry-After",
                                    "7200");
      break;
    case 4:
      {
        g_autofree char *blank = g_strnfill (1000000, ' ');

        stage_body (message, blank);
        break;
      }
    case 5:
      stage_body (message, "<html>hotel</html>");
      break;
    case 6: /* says nothing */
      soup_server_message_pause (message);
      break;
    default:
      stage_answer_ok (stage, message);
    }
}

static void
test_http2 (void)
{
  static const FrFetchOutcome outcomes[]
      = { FR_FETCH_ANSWERED,   FR_FETCH_ANSWERED, FR_FETCH_TOO_OFTEN, FR_FETCH_TOO_LARGE,
          FR_FETCH_UNREADABLE, FR_FETCH_TOO_SLOW, FR_FETCH_ANSWERED };
  Stage *stage;

  if (!g_tls_backend_supports_tls (g_tls_backend_get_default ()))
    {
      g_test_skip ("no TLS here");
      return;
    }
  stage = stage_with ("sound.pem", "authority.pem");
  stage_speak_http2 (stage);
  stage->answer = answer_in_turn;
  for (guint i = 0; i < G_N_ELEMENTS (outcomes); i++)
    {
      g_autoptr (FrWeatherFetched) fetched = NULL;

      stage->ask.limits.idle_ms = i == 5 ? 500 : 10000;
      fetched = stage_expect (stage, outcomes[i], i + 1);
      g_assert_cmpint (stage->version, ==, SOUP_HTTP_1_1);
      g_assert_nonnull (fetched->weather);
      stage->ask.now_utc += 24 * STAGE_HOUR;
    }
  g_clear_object (&stage->ask.authorities);
  stage_free (stage);
}

static gboolean
cancel_soon (gpointer data)
{
  g_cancellable_cancel (data);
  return G_SOURCE_REMOVE;
}

static void
answer_never (Stage *stage, SoupServerMessage *message)
{
  soup_server_message_pause (message);
}

static void
test_http2_cancel (void)
{
  if (!g_tls_backend_supports_tls (g_tls_backend_get_default ()))
    {
      g_test_skip ("no TLS here");
      return;
    }
  for (guint i = 0; i < 12; i++)
    {
      Stage *stage = stage_with ("sound.pem", "authority.pem");
      g_autoptr (GCancellable) cancellable = g_cancellable_new ();
      g_autoptr (GError) error = NULL;

      stage_speak_http2 (stage);
      stage->answer = answer_never;
      g_timeout_add (i * 5, cancel_soon, cancellable);
      g_assert_null (stage_fetch (stage, cancellable, &error));
      g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
      g_clear_object (&stage->ask.authorities);
      stage_free (stage);
    }
}

/* Whoever takes the call and says nothing. */
static void
test_silent (void)
{
  g_autoptr (Stage) stage = NULL;

  if (!g_tls_backend_supports_tls (g_tls_backend_get_default ()))
    {
      g_test_skip ("no TLS here");
      return;
    }
  stage = stage_new_raw (NULL, "", 0, 50, TRUE);
  stage->ask.base_address = stage->secure_base;
  stage->ask.limits.idle_ms = 500;
  fr_weather_fetched_free (stage_expect (stage, FR_FETCH_TOO_SLOW, 0));
}

/* The server speaks plain http; or this computer has nothing to speak https with. */
static void
test_no_agreement (void)
{
  g_autoptr (Stage) stage = stage_new_raw ("HTTP/1.1 400 Bad Request\r\n\r\n", "", 1, 5, FALSE);
  g_autoptr (FrWeatherFetched) fetched = NULL;

  stage->raw_at_once = TRUE;
  stage->ask.base_address = stage->secure_base;
  fetched = stage_fetch (stage, NULL, NULL);
  g_assert_cmpint (fetched->state.outcome, ==, FR_FETCH_NOT_TRUSTED);
  g_assert_cmpint (fetched->state.tls, ==, FR_FETCH_TLS_FAILED);
  g_assert_cmpint (fetched->state.next_utc, ==, STAGE_NOW + STAGE_HOUR);
}

int
main (int argc, char **argv)
{
  g_setenv ("SOUP_SERVER_HTTP2", "1", TRUE); /* libsoup's test server speaks it only when told so */
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/weather-trust/sound", test_sound);
  g_test_add_func ("/weather-trust/unknown-signer", test_unknown_signer);
  g_test_add_func ("/weather-trust/other-name", test_other_name);
  g_test_add_func ("/weather-trust/out-of-date", test_out_of_date);
  g_test_add_func ("/weather-trust/http2", test_http2);
  g_test_add_func ("/weather-trust/http2-cancel", test_http2_cancel);
  g_test_add_func ("/weather-trust/silent", test_silent);
  g_test_add_func ("/weather-trust/no-agreement", test_no_agreement);
  return g_test_run ();
}
