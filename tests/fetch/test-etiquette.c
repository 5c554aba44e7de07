/* How header fields are understood and when a service may be asked, against the rules and examples of RFC
 * 9110 and RFC 9111, and which addresses may be asked at all. */
#include <string.h>

#include "fetch/etiquette.h"
#include "fetch/web-address.h"

#define NOW 1774008000 /* 2026-03-20 12:00:00 UTC, a Friday */
#define HOUR 3600

typedef struct
{
  const char *cache_control, *expires, *date, *age;
  gint64 fresh_s; /* 0 for no promise */
} Fresh;

/* RFC 9111, 4.2.1: max-age before Expires; Expires less Date; 5.3: a wrong Expires, as 0, is in the
 * past; 5.1: Age counts; 5.2.2.4 and 5.2.2.5: no-cache and no-store promise nothing; 5.2.2.10: s-maxage is
 * for shared caches. */
static const Fresh fresh[] = {
  { NULL, NULL, NULL, NULL, 0 },
  { "max-age=7200", NULL, NULL, NULL, 7200 },
  { "public, MAX-AGE=7200", "Fri, 20 Mar 2026 12:10:00 GMT", NULL, NULL, 7200 },
  { "max-age=7200", NULL, NULL, "700", 6500 },
  { "max-age=600", NULL, NULL, "700", 0 },
  { "max-age=soon", "Fri, 20 Mar 2026 20:00:00 GMT", NULL, NULL, 0 },
  { "max-age", "Fri, 20 Mar 2026 20:00:00 GMT", NULL, NULL, 0 },
  { "max-age=\"7200\"", NULL, NULL, NULL, 7200 },
  { "no-cache, max-age=7200", NULL, NULL, NULL, 0 },
  { "no-store", "Fri, 20 Mar 2026 20:00:00 GMT", NULL, NULL, 0 },
  { "s-maxage=7200", NULL, NULL, NULL, 0 },
  { "s-maxage=60, max-age=7200", NULL, NULL, NULL, 7200 },
  { NULL, "Fri, 20 Mar 2026 12:30:00 GMT", NULL, NULL, 1800 },
  /* The server's clock is two hours ahead: the span counts. */
  { NULL, "Fri, 20 Mar 2026 14:30:00 GMT", "Fri, 20 Mar 2026 14:00:00 GMT", NULL, 1800 },
  { NULL, "Friday, 20-Mar-26 14:30:00 GMT", "Fri Mar 20 14:00:00 2026", NULL,
    1800 }, /* the two old forms, 5.6.7 of RFC 9110 */
  { NULL, "Fri, 20 Mar 2026 12:30:00 GMT", NULL, "600", 1200 },
  { NULL, "0", NULL, NULL, 0 },
  { NULL, "-1", NULL, NULL, 0 },
  { NULL, "Fri, 20 Mar 2026 11:30:00 GMT", NULL, NULL, 0 },
  { "max-age=999999999999999999999999", NULL, NULL, NULL, 24 * HOUR }, /* no longer than our own day */
  { NULL, "Fri, 20 Mar 2099 12:30:00 GMT", NULL, NULL, 24 * HOUR },
};

static void
test_fresh (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (fresh); i++)
    {
      const FrWebAnswer answer = { .cache_control = (char *)fresh[i].cache_control,
                                   .expires = (char *)fresh[i].expires,
                                   .date = (char *)fresh[i].date,
                                   .age = (char *)fresh[i].age };
      const gint64 until_utc = fr_etiquette_fresh_until (&answer, NOW);

      g_test_message ("%u", i);
      g_assert_cmpint (until_utc, ==, fresh[i].fresh_s > 0 ? NOW + fresh[i].fresh_s : FR_FETCH_NEVER);
    }
}

static void
test_retry_after (void)
{
  g_assert_cmpint (fr_etiquette_retry_after ("120", NOW), ==, NOW + 120);
  g_assert_cmpint (fr_etiquette_retry_after ("0", NOW), ==, NOW);
  g_assert_cmpint (fr_etiquette_retry_after ("Fri, 20 Mar 2026 23:59:59 GMT", NOW), ==, NOW + 12 * HOUR - 1);
  g_assert_cmpint (fr_etiquette_retry_after ("Fri, 20 Mar 2099 23:59:59 GMT", NOW), ==, NOW + 30 * 24 * HOUR);
  g_assert_cmpint (fr_etiquette_retry_after (NULL, NOW), ==, FR_FETCH_NEVER);
  g_assert_cmpint (fr_etiquette_retry_after ("", NOW), ==, FR_FETCH_NEVER);
  g_assert_cmpint (fr_etiquette_retry_after ("1.5", NOW), ==, FR_FETCH_NEVER);
  g_assert_cmpint (fr_etiquette_retry_after ("tomorrow", NOW), ==, FR_FETCH_NEVER);
}

/* Whatever comes of any row of questions, over any clock but one set back, no two go out within the hour, but
 * for those that never left. */
static void
test_pace (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (11);
  FrAsked asked
      = { .outcome = FR_FETCH_NEVER_ASKED, .asked_utc = FR_FETCH_NEVER, .next_utc = FR_FETCH_NEVER };
  FrAnswerKept answer
      = { .path = (char *)"/a", .answered_utc = FR_FETCH_NEVER, .fresh_until_utc = FR_FETCH_NEVER };
  g_autoptr (GBytes) body = g_bytes_new_static ("x", 1);
  gint64 last_utc = 0;
  guint n = 0, fingerprint = 0;

  answer.body = body;
  for (gint64 now_utc = NOW; n < 3000; now_utc += g_rand_int_range (rand, 1, 2000))
    {
      const FrFetchOutcome outcome = g_rand_int_range (rand, FR_FETCH_BROKEN_OFF, FR_N_FETCH_OUTCOMES);
      const gboolean was_sent = outcome != FR_FETCH_OFFLINE;
      g_autofree char *print = g_strdup_printf ("%u", fingerprint);
      const gint64 next_utc = fr_etiquette_next (&asked, &answer, "/a", print, now_utc);

      g_assert_cmpint (next_utc == FR_FETCH_NEVER, ==, next_utc <= now_utc);
      if (next_utc == FR_FETCH_UNTIL_CHANGED)
        fingerprint++;
      if (next_utc != FR_FETCH_NEVER)
        continue;
      n++;
      g_assert_cmpint (now_utc - last_utc, >=, HOUR);
      fr_etiquette_begin (&asked, now_utc);
      fr_etiquette_end (
          &asked, outcome, was_sent,
          g_rand_boolean (rand) ? now_utc + g_rand_int_range (rand, -9000, 9000) : FR_FETCH_NEVER, print);
      if (was_sent)
        last_utc = now_utc;
      if (outcome == FR_FETCH_ANSWERED)
        {
          answer.answered_utc = now_utc;
          answer.fresh_until_utc = now_utc + g_rand_int_range (rand, -3600, 9000);
        }
    }
  fr_asked_clear (&asked);
}

/* Every minute of the hour but those about its turn comes up, and none before its time. */
static void
test_due (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);
  guint seen[60] = { 0 };

  for (guint i = 0; i < 100000; i++)
    {
      const gint64 now_utc = NOW + g_rand_int_range (rand, 0, 100000),
                   next_utc
                   = g_rand_boolean (rand) ? now_utc + g_rand_int_range (rand, -100, 100000) : FR_FETCH_NEVER;
      const gint64 due_utc = fr_etiquette_due (next_utc, now_utc, g_rand_int (rand));

      g_assert_cmpint (due_utc - MAX (now_utc, next_utc), >=, 60);
      g_assert_cmpint (due_utc - MAX (now_utc, next_utc), <=, 900);
      seen[due_utc / 60 % 60]++;
    }
  for (guint i = 0; i < 60; i++)
    if (i < 2 || i >= 58)
      g_assert_cmpuint (seen[i], ==, 0);
    else
      g_assert_cmpuint (seen[i], >, 500);
}

/* RFC 9110, 10.1.5 and 5.6.5. */
static void
test_agent (void)
{
  static const struct
  {
    const char *contact, *agent;
  } cases[] = { { NULL, "Frostrun/1.2" },
                { "", NULL },
                { "a@b.example", "Frostrun/1.2 (a@b.example)" },
                { "  https://b.example/us ", "Frostrun/1.2 (https://b.example/us)" },
                { "a(b)@c\\.example", "Frostrun/1.2 (a\\(b\\)@c\\\\.example)" },
                { "a@b\nX: y", NULL },
                { "somebody", NULL },
                { "\xc3\xa9@b.example", NULL } };
  g_autofree char *long_one = g_strnfill (201, 'a'), *none = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *agent = fr_etiquette_agent ("1.2", cases[i].contact);

      g_assert_cmpstr (agent, ==, cases[i].agent);
    }
  long_one[5] = '@';
  none = fr_etiquette_agent ("1.2", long_one);
  g_assert_null (none);
}

static void
test_bases (void)
{
  static const char *const good[]
      = { "https://api.met.no",    "HTTPS://api.met.no/",  "https://weather.example:8443/met/",
          "http://127.0.0.1:8080", "http://127.9.9.9",     "http://[::1]:80/x",
          "http://localhost",      " https://api.met.no\n" };
  static const char *const bad[] = { "",
                                     "api.met.no",
                                     "http://api.met.no",
                                     "http://[2001:db8::1]",
                                     "http://0.0.0.0",
                                     "http://localhost.example",
                                     "https://",
                                     "https:///path",
                                     "file:///tmp",
                                     "https://a@b.example",
                                     "https://b.example?x",
                                     "https://b.example/#x",
                                     "https://b .example",
                                     "javascript:1" };

  for (guint i = 0; i < G_N_ELEMENTS (good); i++)
    {
      g_autoptr (GUri) uri = fr_web_address_base (good[i]);

      g_test_message ("%s", good[i]);
      g_assert_nonnull (uri);
    }
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (GUri) uri = fr_web_address_base (bad[i]);

      g_test_message ("%s", bad[i]);
      g_assert_null (uri);
    }
  g_assert_null (fr_web_address_base (NULL));
}

static void
follow_is (const char *from, const char *link, const char *expected)
{
  g_autofree char *followed = fr_web_address_follow (from, link);

  g_assert_cmpstr (followed, ==, expected);
}

static void
test_follow (void)
{
  g_autoptr (GUri) base = fr_web_address_base ("https://weather.example/met/");
  g_autofree char *joined = fr_web_address_join (base, "/points/44.5,-73");

  g_assert_cmpstr (joined, ==, "https://weather.example/met/points/44.5,-73");
  follow_is ("https://api.weather.gov/points/44.5,-73", "https://api.weather.gov/gridpoints/BTV/88,55",
             "https://api.weather.gov/gridpoints/BTV/88,55");
  follow_is ("https://api.weather.gov/points/44.50,-73", "/points/44.5,-73",
             "https://api.weather.gov/points/44.5,-73");
  follow_is ("https://b.example/x", "https://B.example/y", "https://B.example/y");
  follow_is ("https://b.example/x", "http://b.example/y", NULL);
  follow_is ("https://b.example/x", "https://b.example.org/y", NULL);
  follow_is ("https://b.example/x", "https://b.example:444/y", NULL);
  follow_is ("https://b.example/x", "https://b.example@c.example/y", NULL);
  follow_is ("https://b.example/x", "//c.example/y", NULL);
  follow_is ("http://127.0.0.1:80/x", "http://127.0.0.2:80/y", NULL);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/etiquette/fresh", test_fresh);
  g_test_add_func ("/etiquette/retry-after", test_retry_after);
  g_test_add_func ("/etiquette/pace", test_pace);
  g_test_add_func ("/etiquette/due", test_due);
  g_test_add_func ("/etiquette/agent", test_agent);
  g_test_add_func ("/etiquette/bases", test_bases);
  g_test_add_func ("/etiquette/follow", test_follow);
  return g_test_run ();
}
