/* import --kind weather as a script would run it, on books of its own. What comes in is held against the file, read here cell by cell. */
#include "books.h"
#include "spawn.h"

#include "domain/records/kinds.h"
#include "store/store.h"

#include <gio/gio.h>
#include <math.h>
#include <string.h>

static char *folder, *book;

/* A new book without anything in it. */
static void
setup (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrStore) store = NULL;

  folder = make_folder ();
  book = g_build_filename (folder, "book.frostrun", NULL);
  store = fr_store_open (book, TRUE, &error);
  g_assert_no_error (error);
}

static void
teardown (void)
{
  g_clear_pointer (&folder, drop_folder);
  g_clear_pointer (&book, g_free);
}

static GPtrArray *
load (FrKindId kind)
{
  g_autoptr (FrStore) store = fr_store_open (book, FALSE, NULL);
  GPtrArray *records = fr_store_load (store, kind, NULL);

  g_assert_nonnull (records);
  return records;
}

static char *
fixture (const char *name)
{
  return g_test_build_filename (G_TEST_DIST, "fixtures", name, NULL);
}

/* Every row of the place in the file is a day of the book, and nothing else is. */
static void
test_against_the_file (void)
{
  g_autofree char *path = fixture ("seattle-new-york.csv"), *text = NULL, *before = NULL;
  g_auto (GStrv) lines = NULL;
  g_auto (GStrv) head = NULL;
  g_autoptr (GPtrArray) stations = NULL, days = NULL;
  g_autoptr (GHashTable) by_day = g_hash_table_new (g_str_hash, g_str_equal);
  guint place = 99, date = 99, low = 99, high = 99, n = 0;

  {
    g_auto (Answer) dry = run ("import %s --book %s --kind weather --where location=Seattle --dry-run --json", NULL, path, book);

    g_assert_cmpint (dry.code, ==, 0);
    days = load (FR_KIND_STATION_DAY);
    g_assert_cmpuint (days->len, ==, 0);
    g_ptr_array_unref (days);
  }
  {
    g_auto (Answer) answer = run ("import %s --book %s --kind weather --station Sound --where location=Seattle --json", NULL, path, book);

    g_assert_cmpint (answer.code, ==, 0);
    g_assert_cmpstr (answer_string (&answer, "kind"), ==, "weather");
    g_assert_cmpstr (answer_string (&answer, "station"), ==, "Sound");
    g_assert_cmpfloat (answer_number (&answer, "refused"), ==, 0);
  }
  stations = load (FR_KIND_STATION);
  days = load (FR_KIND_STATION_DAY);
  g_assert_cmpuint (stations->len, ==, 1);
  for (guint i = 0; i < days->len; i++)
    g_hash_table_insert (by_day, ((FrStationDay *)days->pdata[i])->day, days->pdata[i]);

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  lines = g_strsplit (text, "\n", -1);
  head = g_strsplit (g_strstrip (lines[0]), ",", -1);
  for (guint i = 0; head[i] != NULL; i++)
    {
      place = strcmp (head[i], "location") == 0 ? i : place;
      date = strcmp (head[i], "date") == 0 ? i : date;
      low = strcmp (head[i], "temp_min") == 0 ? i : low;
      high = strcmp (head[i], "temp_max") == 0 ? i : high;
    }
  for (guint i = 1; lines[i] != NULL && *lines[i] != '\0'; i++)
    {
      g_auto (GStrv) cells = g_strsplit (g_strstrip (lines[i]), ",", -1);
      const FrStationDay *day;
      g_autofree char *iso = NULL;

      if (strcmp (cells[place], "Seattle") != 0)
        continue;
      n++;
      iso = g_strndup (cells[date], 10);
      if (iso[4] == '/')
        iso[4] = iso[7] = '-';
      day = g_hash_table_lookup (by_day, iso);
      g_assert_nonnull (day);
      g_assert_cmpfloat (day->low_c.value, ==, g_ascii_strtod (cells[low], NULL));
      g_assert_cmpfloat (day->high_c.value, ==, g_ascii_strtod (cells[high], NULL));
      g_assert_cmpint (day->station, ==, ((FrRecord *)stations->pdata[0])->id);
    }
  g_assert_cmpuint (n, >, 1000);
  g_assert_cmpuint (days->len, ==, n);

  /* Again: not a byte of the book changes. */
  before = bytes_of (book);
  {
    g_auto (Answer) again = run ("import %s --book %s --kind weather --station Sound --where location=Seattle", NULL, path, book);
    g_autofree char *after = bytes_of (book);

    g_assert_cmpint (again.code, ==, 0);
    g_assert_nonnull (strstr (again.out, "There is nothing to write."));
    g_assert_cmpstr (after, ==, before);
  }
}

/* Only what changed changes, and what the file does not know stays. */
static void
test_changes (void)
{
  static const char *const first = "date,tmin_c,tmax_c\n2026-03-01,-4,5\n2026-03-02,-3,6\n2026-03-03,-2,\n";
  static const char *const second = "date,tmin_c,tmax_c\n2026-03-02,,6.5\n2026-03-03,-2,8\n2026-03-04,1,9\n";
  g_auto (Answer) one = run ("import - --book %s --kind weather --station Mill", first, book);
  g_auto (Answer) two = run ("import - --book %s --kind weather --station Mill --json", second, book);
  static const struct
  {
    const char *day;
    double low_c, high_c;
  } expected[] = { { "2026-03-01", -4, 5 }, { "2026-03-02", -3, 6.5 }, { "2026-03-03", -2, 8 }, { "2026-03-04", 1, 9 } };
  g_autoptr (GPtrArray) days = NULL;

  g_assert_cmpint (one.code, ==, 0);
  g_assert_cmpint (two.code, ==, 0);
  g_assert_cmpfloat (answer_number (&two, "new"), ==, 1);
  g_assert_cmpfloat (answer_number (&two, "changes"), ==, 2);
  days = load (FR_KIND_STATION_DAY);
  g_assert_cmpuint (days->len, ==, 4);
  for (guint i = 0; i < 4; i++)
    {
      const FrStationDay *day = days->pdata[i];

      g_assert_cmpstr (day->day, ==, expected[i].day);
      g_assert_cmpfloat (day->low_c.value, ==, expected[i].low_c);
      g_assert_cmpfloat (day->high_c.value, ==, expected[i].high_c);
    }
}

/* Each format comes in, and a second time nothing does. */
static void
test_every_format (void)
{
  static const struct
  {
    const char *name;
    const char *format;
    gboolean is_forecast;
  } files[] = {
    { "ghcnd-synthetic.dly", "ghcnd-dly", FALSE },           { "ghcnd-byyear-synthetic.csv", "ghcnd-rows", FALSE },
    { "ghcnd-access-synthetic.csv", "ghcnd-table", FALSE },  { "eccc-daily-synthetic.csv", "eccc-daily", FALSE },
    { "metno-compact-synthetic.json", "met-compact", TRUE }, { "nws-gridpoint-synthetic.json", "nws-grid", TRUE },
    { "openmeteo-synthetic.json", "open-meteo", TRUE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (files); i++)
    {
      g_autofree char *path = fixture (files[i].name);
      g_auto (Answer) one = run ("import %s --book %s --kind weather --station %s --json", NULL, path, book, files[i].name);
      g_auto (Answer) two = run ("import %s --book %s --kind weather --station %s --json", NULL, path, book, files[i].name);
      g_autoptr (GPtrArray) stations = load (FR_KIND_STATION), outlooks = load (FR_KIND_OUTLOOK);

      g_assert_cmpint (one.code, ==, 0);
      g_assert_cmpint (two.code, ==, 0);
      g_assert_cmpstr (answer_string (&one, "format"), ==, files[i].format);
      g_assert_cmpstr (answer_string (&one, "forecast"), ==, files[i].is_forecast ? "new" : "none");
      g_assert_true (files[i].is_forecast || answer_number (&one, "new") > 0);
      g_assert_true (json_object_get_boolean_member (json_node_get_object (answer_root (&one)), "written"));
      g_assert_false (json_object_get_boolean_member (json_node_get_object (answer_root (&two)), "written"));
      g_assert_cmpuint (stations->len, ==, i + 1);
      g_assert_cmpuint (outlooks->len, ==, i < 4 ? 0 : i - 3);
    }
}

/* A logger's hours become days of their own clock. */
static void
test_hours (void)
{
  g_autoptr (GString) text = g_string_new ("time,temp_c\n");
  g_autoptr (GPtrArray) days = NULL;

  for (guint day = 1; day <= 3; day++)
    for (guint hour = 0; hour < 24; hour++)
      if (day != 2 || hour < 6 || hour > 9)
        g_string_append_printf (text, "2026-03-%02uT%02u:00:00Z,%d\n", day, hour, (int)hour - 10 * (int)day);
  {
    g_auto (Answer) answer = run ("import - --book %s --kind weather --station Logger", text->str, book);

    g_assert_cmpint (answer.code, ==, 0);
  }
  days = load (FR_KIND_STATION_DAY);
  g_assert_cmpuint (days->len, ==, 2);
  g_assert_cmpstr (((FrStationDay *)days->pdata[1])->day, ==, "2026-03-03");
  g_assert_cmpfloat (((FrStationDay *)days->pdata[1])->low_c.value, ==, -30);
  g_assert_cmpfloat (((FrStationDay *)days->pdata[1])->high_c.value, ==, -7);
  g_assert_cmpstr (((FrStationDay *)days->pdata[1])->low_mark, ==, "estimated");
}

/* One complaint on a line, and the book's bytes as they were. */
static void
test_refused (void)
{
  static const char *const cases[][3] = {
    { "import - --book %s --kind cake", "date,tmin_c,tmax_c\n2026-03-01,-4,5\n", "--kind" },
    { "import - --book %s", "date,tmin_c,tmax_c\n2026-03-01,-4,5\n", "--kind weather" },
    { "import - --book %s --kind weather", "nothing of use\n", "frostrun-cli" },
    { "import - --book %s --kind weather", "date,tmin_c,tmax_c\n2026-03-01,-4,80\n", "2026-03-01" },
  };
  g_autofree char *before = bytes_of (book);

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *command = g_strdup_printf (cases[i][0], book);
      g_auto (Answer) answer = cli_run (command, cases[i][1], -1);
      g_autofree char *after = bytes_of (book);

      g_test_message ("%s", answer.err);
      g_assert_cmpint (answer.code, !=, 0);
      g_assert_cmpstr (answer.out, ==, "");
      g_assert_nonnull (strstr (answer.err, cases[i][2]));
      g_assert_cmpstr (after, ==, before);
    }
  {
    g_auto (Answer) rest = run ("import - --book %s --kind weather --without-refused",
                                "date,tmin_c,tmax_c\n2026-03-01,-4,80\n2026-03-02,-4,8\n", book);
    g_autoptr (GPtrArray) days = load (FR_KIND_STATION_DAY);

    g_assert_cmpint (rest.code, ==, 0);
    g_assert_cmpuint (days->len, ==, 1);
  }
}

/* A source whose name two bear is asked to be told apart. */
static void
test_two_of_a_name (void)
{
  static const char *const text = "date,tmin_c,tmax_c\n2026-03-01,-4,5\n";
  g_auto (Answer) one = run ("import - --book %s --kind weather --station Mill", text, book);

  g_assert_cmpint (one.code, ==, 0);
  {
    g_autoptr (FrStore) store = fr_store_open (book, FALSE, NULL);
    g_autoptr (FrChange) change = fr_change_new ("add-station", NULL);
    g_autoptr (FrRecord) twin = fr_record_new (FR_KIND_STATION);

    twin->id = 2;
    g_strlcpy (twin->uid, "00000000000000000000000000000002", sizeof twin->uid);
    fr_record_set_text (twin, fr_kind_field (twin->kind, "name"), "Mill");
    fr_change_add (change, NULL, twin);
    g_assert_true (fr_store_apply (store, change, FR_ORIGIN_CLI, 0, NULL));
  }
  {
    g_auto (Answer) two = run ("import - --book %s --kind weather --station Mill", text, book);

    g_assert_cmpint (two.code, !=, 0);
    g_assert_nonnull (strstr (two.err, "Mill"));
  }
}

static void
on_setup (char *unused, gconstpointer data)
{
  setup ();
}

static void
on_teardown (char *unused, gconstpointer data)
{
  teardown ();
}

static void
on_run (char *unused, gconstpointer data)
{
  ((void (*) (void))data) ();
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *path;
    void (*run) (void);
  } tests[] = {
    { "/cli-weather-import/against-the-file", test_against_the_file },
    { "/cli-weather-import/changes", test_changes },
    { "/cli-weather-import/every-format", test_every_format },
    { "/cli-weather-import/hours", test_hours },
    { "/cli-weather-import/refused", test_refused },
    { "/cli-weather-import/two-of-a-name", test_two_of_a_name },
  };

  g_setenv ("LC_ALL", "C.UTF-8", TRUE);
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, char, tests[i].run, on_setup, on_run, on_teardown);
  return g_test_run ();
}
