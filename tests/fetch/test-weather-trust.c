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
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/weather-trust/sound", test_sound);
  g_test_add_func ("/weather-trust/unknown-signer", test_unknown_signer);
  g_test_add_func ("/weather-trust/other-name", test_other_name);
  g_test_add_func ("/weather-trust/out-of-date", test_out_of_date);
  g_test_add_func ("/weather-trust/no-agreement", test_no_agreement);
  return g_test_run ();
}
