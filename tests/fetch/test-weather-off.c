/* With no service chosen nothing is opened: neither a socket, nor a name looked up, nor a file. The C
 * library's own calls are counted here in their place (a program's symbols come before a library's); the same
 * question with a service on shows that the count counts. */
#include "stage.h"

#include <dlfcn.h>
#include <netdb.h>
#include <sys/socket.h>

static gint n_sockets, n_names;

int
socket (int domain, int type, int protocol);
int
getaddrinfo (const char *node, const char *service, const struct addrinfo *hints, struct addrinfo **found);

G_MODULE_EXPORT int
socket (int domain, int type, int protocol)
{
  int (*real) (int, int, int) = (int (*) (int, int, int))dlsym (RTLD_NEXT, "socket");

  g_atomic_int_inc (&n_sockets);
  return real (domain, type, protocol);
}

G_MODULE_EXPORT int
getaddrinfo (const char *node, const char *service, const struct addrinfo *hints, struct addrinfo **found)
{
  g_atomic_int_inc (&n_names);
  return EAI_NONAME;
}

static void
test_off (void)
{
  g_autoptr (Stage) stage = stage_new (stage_answer_ok);
  g_autofree char *folder = g_build_filename (stage->folder, "never", NULL);
  g_autoptr (FrWeatherFetched) off = NULL, on = NULL;

  stage->ask.folder = folder;
  stage->ask.service = FR_WEATHER_SERVICE_OFF;
  n_sockets = n_names = 0;
  for (guint i = 0; i < 100; i++)
    {
      stage->ask.now_utc += 24 * STAGE_HOUR;
      stage->ask.base_address = i % 2 ? stage->base : "https://weather.invalid";
      fr_weather_fetched_free (stage_expect (stage, FR_FETCH_OFF, 0));
    }
  g_assert_cmpint (g_atomic_int_get (&n_sockets), ==, 0);
  g_assert_cmpint (g_atomic_int_get (&n_names), ==, 0);
  g_assert_false (g_file_test (folder, G_FILE_TEST_EXISTS));

  stage->ask.service = FR_WEATHER_SERVICE_MET_NORWAY;
  stage->ask.base_address = stage->base;
  stage->ask.only_kept = TRUE;
  off = stage_expect (stage, FR_FETCH_NEVER_ASKED, 0);
  g_assert_cmpint (g_atomic_int_get (&n_sockets), ==, 0);
  stage->ask.only_kept = FALSE;
  on = stage_expect (stage, FR_FETCH_ANSWERED, 1);
  g_assert_cmpint (g_atomic_int_get (&n_sockets), >=, 1);
  stage->ask.base_address = "https://weather.invalid";
  fr_weather_fetched_free (stage_expect (stage, FR_FETCH_OFFLINE, 1));
  g_assert_cmpint (g_atomic_int_get (&n_names), >=, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/weather-off/nothing-is-opened", test_off);
  return g_test_run ();
}
