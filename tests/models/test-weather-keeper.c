/* The weather kept at hand, with the book's own settings, the readers of the services' answers, and a server
 * in this process that speaks like each of them (tests/fixtures/sources.md). */
#include "models/weather-keeper.h"
#include "models/weather-transfer.h"

#include "stage.h"

#include <math.h>
#include <string.h>

static gint64 now_utc;

static gint64
now (const FrZoneTable *zone)
{
  return now_utc;
}

typedef struct
{
  Stage *stage;
  FrBook *book;
  FrWeatherKeeper *keeper;
  guint n_changed;
  guint n_arrived;
  gsize arrived_bytes;
} Case;

/* --- the server --- */

static char *
fixture (const char *name)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "fixtures", name, NULL);
  g_autoptr (GError) error = NULL;
  char *text = NULL;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  return text;
}

static void
answer (Stage *stage, SoupServerMessage *message)
{
  const char *path = g_uri_get_path (stage->uri);
  const char *name = g_str_has_prefix (path, "/weatherapi/")   ? "metno-compact-synthetic.json"
                     : g_str_has_prefix (path, "/points/")     ? "nws-points-synthetic.json"
                     : g_str_has_prefix (path, "/gridpoints/") ? "nws-gridpoint-synthetic.json"
                     : g_str_equal (path, "/v1/forecast")      ? "openmeteo-synthetic.json"
                                                               : NULL;
  g_autofree char *text = NULL;
  GString *here;

  if (name == NULL)
    {
      soup_server_message_set_status (message, 404, NULL);
      return;
    }
  text = fixture (name);
  here = g_string_new (text);
  g_string_replace (here, "https://api.weather.gov", stage->base, 0);
  stage_body (message, here->str);
  g_string_free (here, TRUE);
}

/* --- the book --- */

static FrRecord *
edited (Case *t, FrKindId kind, const FrRecord **before_out)
{
  FrRecordList *list = fr_book_get_list (t->book, kind);
  g_autoptr (GError) error = NULL;
  FrRecord *record;

  *before_out = fr_record_list_get_size (list) > 0 ? fr_record_list_get (list, 0) : NULL;
  record = *before_out != NULL ? fr_record_copy (*before_out) : fr_book_new_record (t->book, kind, 0, &error);
  g_assert_no_error (error);
  return record;
}

static void
apply (Case *t, const FrRecord *before, FrRecord *after)
{
  g_autoptr (FrRecord) owned = after;
  g_autoptr (FrChange) change = fr_change_new ("edit", NULL);
  g_autoptr (GError) error = NULL;

  fr_change_add (change, before, after);
  if (!fr_book_apply (t->book, change, &error))
    g_error ("%s", error->message);
}

static void
set_service (Case *t, const char *service, const char *contact)
{
  const FrRecord *before;
  FrRecord *after = edited (t, FR_KIND_FORECASTING, &before);

  fr_record_set_text (after, fr_kind_field (after->kind, "service"), service);
  fr_record_set_text (after, fr_kind_field (after->kind, "base_address"), t->stage->base);
  fr_record_set_text (after, fr_kind_field (after->kind, "contact"), contact);
  apply (t, before, after);
}

static void
set_place (Case *t, double lat_deg, double lon_deg)
{
  const FrRecord *before;
  FrRecord *after = edited (t, FR_KIND_GROUND, &before);
  FrGround *ground = (FrGround *)after;

  fr_amount_set (&ground->anchor_x_m, 0, NULL);
  fr_amount_set (&ground->anchor_y_m, 0, NULL);
  fr_amount_set (&ground->anchor_lat_deg, lat_deg, NULL);
  fr_amount_set (&ground->anchor_lon_deg, lon_deg, NULL);
  apply (t, before, after);
}

static void
on_changed (Case *t)
{
  t->n_changed++;
}

static void
on_arrived (FrWeatherKeeper *keeper, GBytes *body, Case *t)
{
  t->n_arrived++;
  t->arrived_bytes = g_bytes_get_size (body);
  g_assert_nonnull (fr_weather_keeper_get_weather (keeper));
}

static void
open_keeper (Case *t)
{
  t->keeper = fr_weather_keeper_new (t->book, now, t->stage->folder, "0.0");
  g_signal_connect_swapped (t->keeper, "changed", G_CALLBACK (on_changed), t);
  g_signal_connect (t->keeper, "arrived", G_CALLBACK (on_arrived), t);
}

static void
begin (Case *t)
{
  const FrRecord *before;
  FrRecord *household;
  g_autoptr (GError) error = NULL;

  now_utc = STAGE_NOW;
  *t = (Case){ .stage = stage_new (answer), .book = fr_book_open (":memory:", &error) };
  g_assert_no_error (error);
  household = edited (t, FR_KIND_HOUSEHOLD, &before);
  fr_record_set_text (household, fr_kind_field (household->kind, "name"), "Gable End");
  fr_record_set_text (household, fr_kind_field (household->kind, "zone"), "America/Toronto");
  fr_record_set_text (household, fr_kind_field (household->kind, "currency"), "CAD");
  fr_amount_set (&((FrHousehold *)household)->altitude_m, 251.3, NULL);
  apply (t, before, household);
  open_keeper (t);
}

/* Turns the loop until no question is out and nothing more happens for a while. */
static void
settle (Case *t)
{
  for (guint quiet = 0; quiet < 60;)
    {
      const guint n_changed = t->n_changed;

      g_usleep (2000);
      while (g_main_context_iteration (NULL, FALSE))
        ;
      quiet = t->n_changed != n_changed || (t->keeper != NULL && fr_weather_keeper_is_asking (t->keeper))
                  ? 0
                  : quiet + 1;
    }
}

static void
end (Case *t)
{
  settle (t);
  if (t->keeper != NULL)
    g_assert_finalize_object (g_steal_pointer (&t->keeper));
  g_assert_finalize_object (g_steal_pointer (&t->book));
  stage_free (t->stage);
}

/* --- the tests --- */

static void
test_services (void)
{
  static const struct
  {
    const char *code;
    guint n_asked;
    const char *place;
  } services[] = { { "met-norway", 1, "lat=44.26&lon=-72.58&altitude=250" },
                   { "nws", 2, NULL },
                   { "open-meteo", 1, "latitude=44.26&longitude=-72.58&" } };

  for (guint i = 0; i < G_N_ELEMENTS (services); i++)
    {
      Case t;
      const FrWeather *weather;

      begin (&t);
      set_place (&t, 44.26071, -72.57538);
      set_service (&t, services[i].code, "sugarhouse@example.org");
      settle (&t);
      g_assert_cmpuint (t.stage->n_asked, ==, services[i].n_asked);
      g_assert_cmpuint (t.n_arrived, ==, 1);
      g_assert_cmpuint (t.arrived_bytes, >, 500);
      g_assert_cmpint (fr_weather_keeper_get_state (t.keeper)->outcome, ==, FR_FETCH_ANSWERED);
      weather = fr_weather_keeper_get_weather (t.keeper);
      g_assert_cmpuint (weather->hours->len, >=, 3);
      if (services[i].place != NULL)
        g_assert_nonnull (strstr (g_uri_get_query (t.stage->uri), services[i].place));
      end (&t);
    }
}

static void
test_hours (void)
{
  Case t;
  guint n = 1;

  begin (&t);
  set_place (&t, 44.26, -72.58);
  set_service (&t, "met-norway", "sugarhouse@example.org");
  settle (&t);
  for (guint i = 0; i < 5; i++)
    {
      const gint64 due_utc = fr_weather_keeper_get_due (t.keeper);

      g_assert_cmpint (due_utc - now_utc, >=, STAGE_HOUR + 60);
      g_assert_cmpint (due_utc - now_utc, <=, STAGE_HOUR + 900);
      now_utc = due_utc - 1;
      fr_weather_keeper_refresh (t.keeper);
      settle (&t);
      g_assert_cmpuint (t.stage->n_asked, ==, n);
      now_utc = due_utc;
      fr_weather_keeper_refresh (t.keeper);
      fr_weather_keeper_refresh (t.keeper);
      g_assert_true (fr_weather_keeper_is_asking (t.keeper));
      settle (&t);
      g_assert_cmpuint (t.stage->n_asked, ==, ++n);
    }
  /* Wanting to know at once does not hurry the service. */
  for (guint i = 0; i < 3; i++)
    {
      fr_weather_keeper_ask (t.keeper);
      settle (&t);
    }
  g_assert_cmpuint (t.stage->n_asked, ==, n);
  g_assert_cmpint (fr_weather_keeper_get_state (t.keeper)->outcome, ==, FR_FETCH_ANSWERED);
  end (&t);
}

/* Off until it is turned on, and off again. */
static void
test_off (void)
{
  Case t;

  begin (&t);
  set_place (&t, 44.26, -72.58);
  settle (&t);
  fr_weather_keeper_ask (t.keeper);
  settle (&t);
  set_service (&t, "off", "sugarhouse@example.org");
  now_utc += 24 * STAGE_HOUR;
  fr_weather_keeper_refresh (t.keeper);
  fr_weather_keeper_ask (t.keeper);
  settle (&t);
  g_assert_cmpuint (t.stage->n_asked, ==, 0);
  g_assert_cmpint (fr_weather_keeper_get_state (t.keeper)->outcome, ==, FR_FETCH_OFF);
  g_assert_cmpint (fr_weather_keeper_get_due (t.keeper), ==, FR_FETCH_NEVER);
  set_service (&t, "met-norway", "sugarhouse@example.org");
  settle (&t);
  g_assert_cmpuint (t.stage->n_asked, ==, 1);
  set_service (&t, "off", "sugarhouse@example.org");
  g_assert_null (fr_weather_keeper_get_weather (t.keeper));
  now_utc += 24 * STAGE_HOUR;
  fr_weather_keeper_refresh (t.keeper);
  settle (&t);
  g_assert_cmpuint (t.stage->n_asked, ==, 1);
  g_assert_cmpuint (t.n_arrived, ==, 1);
  end (&t);
}

/* Turned off, changed or closed while a question is out: its answer reaches nobody. */
static void
test_dropped (void)
{
  for (guint i = 0; i < 12; i++)
    {
      Case t;

      begin (&t);
      set_place (&t, 44.26, -72.58);
      set_service (&t, "met-norway", "sugarhouse@example.org");
      for (gint64 until_us = g_get_monotonic_time () + i * 1500; g_get_monotonic_time () < until_us;)
        g_main_context_iteration (NULL, FALSE);
      t.n_arrived = 0;
      if (i % 2 == 0)
        {
          set_service (&t, "off", NULL);
          settle (&t);
          g_assert_cmpint (fr_weather_keeper_get_state (t.keeper)->outcome, ==, FR_FETCH_OFF);
        }
      else
        {
          g_signal_handlers_disconnect_by_data (t.keeper, &t);
          g_object_run_dispose (G_OBJECT (t.keeper));
          g_clear_object (&t.keeper);
        }
      settle (&t);
      g_assert_cmpuint (t.n_arrived, ==, 0);
      end (&t);
    }
}

/* A program that starts anew has the weather at once and does not ask within the hour. */
static void
test_restart (void)
{
  Case t;

  begin (&t);
  set_place (&t, 44.26, -72.58);
  set_service (&t, "met-norway", "sugarhouse@example.org");
  settle (&t);
  for (guint i = 0; i < 3; i++)
    {
      g_assert_finalize_object (g_steal_pointer (&t.keeper));
      now_utc += 900;
      open_keeper (&t);
      settle (&t);
      g_assert_nonnull (fr_weather_keeper_get_weather (t.keeper));
      g_assert_cmpuint (t.stage->n_asked, ==, 1);
    }
  g_assert_cmpuint (t.n_arrived, ==, 1);
  end (&t);
}

/* Put into the book as it arrives, it is there, and the change of the book asks nothing anew. */
static void
keep (FrWeatherKeeper *keeper, GBytes *body, Case *t)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (
      fr_book_keep_forecast (t->book, fr_weather_keeper_get_weather (keeper), "MET Norway", now_utc, &error));
  g_assert_no_error (error);
}

static void
test_kept (void)
{
  Case t;
  FrRecordSpan span = { .from_utc = 0, .to_utc = G_MAXINT64 };
  g_autoptr (GPtrArray) outlooks = NULL;
  g_autoptr (GError) error = NULL;

  begin (&t);
  g_signal_connect (t.keeper, "arrived", G_CALLBACK (keep), &t);
  set_place (&t, 44.26, -72.58);
  set_service (&t, "met-norway", "sugarhouse@example.org");
  settle (&t);
  g_assert_cmpuint (t.n_arrived, ==, 1);
  outlooks = fr_book_load_span (t.book, FR_KIND_OUTLOOK, &span, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (outlooks->len, ==, 1);
  g_assert_cmpint (((FrOutlook *)outlooks->pdata[0])->fetched_utc, ==, now_utc);
  g_assert_cmpuint (t.stage->n_asked, ==, 1);
  g_assert_nonnull (fr_weather_keeper_get_weather (t.keeper));
  end (&t);
}

/* Until it knows when it means to ask next, whatever else the machine is busy with. */
static void
settle_keeper (FrWeatherKeeper *keeper)
{
  while (fr_weather_keeper_is_asking (keeper) || fr_weather_keeper_get_due (keeper) <= now_utc)
    g_main_context_iteration (NULL, TRUE);
}

/* Two windows of two books at one place: one question, and both have its answer within the quarter of an
 * hour. */
static void
test_two (void)
{
  for (guint i = 0; i < 5; i++)
    {
      Case t;
      g_autoptr (FrWeatherKeeper) other = NULL;

      begin (&t);
      set_place (&t, 44.26, -72.58);
      set_service (&t, "met-norway", "sugarhouse@example.org");
      other = fr_weather_keeper_new (t.book, now, t.stage->folder, "0.0");
      settle_keeper (t.keeper);
      settle_keeper (other);
      now_utc += 900;
      for (guint n = 0; n < 2; n++)
        {
          fr_weather_keeper_refresh (n == 0 ? t.keeper : other);
          settle_keeper (n == 0 ? t.keeper : other);
          g_assert_nonnull (fr_weather_keeper_get_weather (n == 0 ? t.keeper : other));
        }
      g_assert_cmpuint (t.stage->n_asked, ==, 1);
      g_assert_finalize_object (g_steal_pointer (&other));
      end (&t);
    }
}

static void
test_hindrances (void)
{
  Case t;

  begin (&t);
  set_service (&t, "met-norway", NULL);
  settle (&t);
  g_assert_cmpint (fr_weather_keeper_get_state (t.keeper)->outcome, ==, FR_FETCH_NO_PLACE);
  set_place (&t, 44.26, -72.58);
  settle (&t);
  g_assert_cmpint (fr_weather_keeper_get_state (t.keeper)->outcome, ==, FR_FETCH_NO_CONTACT);
  g_assert_cmpint (fr_weather_keeper_get_due (t.keeper), ==, FR_FETCH_NEVER);
  g_assert_cmpuint (t.stage->n_asked, ==, 0);
  set_service (&t, "met-norway", "sugarhouse@example.org");
  settle (&t);
  g_assert_cmpuint (t.stage->n_asked, ==, 1);
  /* Other changes of the book are nothing to it. */
  set_place (&t, 44.26, -72.58);
  t.n_changed = 0;
  set_service (&t, "met-norway", "sugarhouse@example.org");
  settle (&t);
  g_assert_cmpuint (t.n_changed, ==, 0);
  g_assert_cmpuint (t.stage->n_asked, ==, 1);
  end (&t);
}

/* A clock that was years ahead and was set right does not keep it waiting for years. */
static void
test_clock (void)
{
  Case t;

  begin (&t);
  now_utc += 3650LL * 24 * STAGE_HOUR;
  set_place (&t, 44.26, -72.58);
  set_service (&t, "met-norway", "sugarhouse@example.org");
  settle (&t);
  g_assert_cmpuint (t.stage->n_asked, ==, 1);
  fr_weather_keeper_refresh (t.keeper);
  now_utc = STAGE_NOW;
  fr_weather_keeper_refresh (t.keeper);
  settle (&t);
  g_assert_cmpuint (t.stage->n_asked, ==, 2);
  g_assert_cmpint (fr_weather_keeper_get_due (t.keeper), <=, now_utc + STAGE_HOUR + 900);
  end (&t);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/weather-keeper/services", test_services);
  g_test_add_func ("/weather-keeper/hours", test_hours);
  g_test_add_func ("/weather-keeper/off", test_off);
  g_test_add_func ("/weather-keeper/dropped", test_dropped);
  g_test_add_func ("/weather-keeper/restart", test_restart);
  g_test_add_func ("/weather-keeper/kept", test_kept);
  g_test_add_func ("/weather-keeper/two", test_two);
  g_test_add_func ("/weather-keeper/hindrances", test_hindrances);
  g_test_add_func ("/weather-keeper/clock", test_clock);
  return g_test_run ();
}
