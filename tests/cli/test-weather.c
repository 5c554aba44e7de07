/* frostrun-cli weather on each kind of file, the way a script would. What the files hold is written in them (tests/fixtures/sources.md);
 * the readers' own tests say where each expected figure is from. */
#include "spawn.h"

#include <math.h>
#include <string.h>

static char *
fixture (const char *name)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "fixtures", name, NULL);
  char *text = NULL;

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  return text;
}

static const struct
{
  const char *file, *arguments, *format;
  int days, hours, absent, estimated, refused, trace;
} files[] = {
  { "ghcnd-synthetic.dly", "", "ghcnd-dly", 6, 0, 4, 0, 1, 1 },
  { "ghcnd-byyear-synthetic.csv", "", "ghcnd-rows", 2, 0, 1, 0, 1, 1 },
  { "ghcnd-access-synthetic.csv", "", "ghcnd-table", 2, 0, 0, 0, 1, 1 },
  { "eccc-daily-synthetic.csv", "", "eccc-daily", 2, 0, 1, 1, 0, 1 },
  { "metno-compact-synthetic.json", "", "met-compact", 0, 4, 0, 0, 0, 0 },
  { "nws-gridpoint-synthetic.json", "", "nws-grid", 0, 4, 0, 0, 0, 0 },
  { "nws-gridpoint-synthetic.json", " --zone America/New_York", "nws-grid", 2, 4, 2, 0, 0, 0 },
  { "nws-gridpoint-synthetic.json", " --zone -04:00", "nws-grid", 2, 4, 2, 0, 0, 0 },
  { "nws-points-synthetic.json", "", "nws-point", 0, 0, 0, 0, 0, 0 },
  { "openmeteo-synthetic.json", "", "open-meteo", 1, 3, 0, 0, 0, 0 },
  { "seattle-new-york.csv", " --where location=Seattle", "csv", 1461, 0, 0, 0, 0, 0 },
  { "fisher-station-ten-days.csv", "", "csv", 10, 0, 0, 2, 0, 0 },
};

static void
test_file (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  g_autofree char *text = fixture (files[i].file);
  g_auto (Answer) answer = run ("weather - --json%s", text, files[i].arguments), words = run ("weather -%s", text, files[i].arguments);

  g_assert_cmpstr (answer.err, ==, "");
  g_assert_cmpstr (answer_string (&answer, "format"), ==, files[i].format);
  g_assert_cmpfloat (answer_number (&answer, "counts/days"), ==, files[i].days);
  g_assert_cmpfloat (answer_number (&answer, "counts/hours"), ==, files[i].hours);
  g_assert_cmpfloat (answer_number (&answer, "counts/absent"), ==, files[i].absent);
  g_assert_cmpfloat (answer_number (&answer, "counts/estimated"), ==, files[i].estimated);
  g_assert_cmpfloat (answer_number (&answer, "counts/refused"), ==, files[i].refused);
  g_assert_cmpfloat (answer_number (&answer, "counts/trace"), ==, files[i].trace);
  g_assert_cmpint (json_array_get_length (json_object_get_array_member (json_node_get_object (answer_root (&answer)), "days")), ==,
                   files[i].days);
  g_assert_cmpint (words.code, ==, 0);
  g_assert_true (g_str_has_prefix (words.out, "Format"));
}

static void
test_keys (void)
{
  static const char *const all[]
      = { "format",       "place",  "station",   "attribution", "latitude_deg", "longitude_deg", "altitude_m", "issued", "reading_minute",
          "next_link",    "counts", "first_day", "last_day",    "first_hour",   "last_hour",     "columns",    "gaps",   "days",  "hours",
          NULL },
      *const counts[] = { "days", "hours", "hours_absent", "absent", "estimated", "refused", "trace", "duplicates", NULL },
      *const columns[] = { "name", "use", "unit", "is_unit_told", "is_mark", NULL },
      *const gaps[] = { "before", "after", "days", NULL },
      *const days[] = { "date", "low_c", "high_c", "rain_m", "snow_m", "sun_j_per_m2", "low_mark", "high_mark", "is_forecast", NULL },
      *const hours[] = { "at", "span_s", "temp_c", "is_forecast", NULL };
  g_auto (Answer) table = run ("weather - --json", "date,tmin_c,tmax_c\n2026-03-01,-4.8,6.2\n2026-03-04,-7.1,\n2026-03-04,-7,\n"),
                  clocks = run ("weather - --json", "time_utc,temp\n2026-03-01T00:00,-4.8\n");
  JsonObject *root = json_node_get_object (answer_root (&table)), *last;

  has_keys (root, all);
  has_keys (json_object_get_object_member (root, "counts"), counts);
  has_keys (json_array_get_object_element (json_object_get_array_member (root, "gaps"), 0), gaps);
  has_keys (json_array_get_object_element (json_object_get_array_member (root, "columns"), 0), columns);
  last = json_array_get_object_element (json_object_get_array_member (root, "days"), 1);
  has_keys (last, days);
  g_assert_cmpfloat (json_object_get_double_member (last, "low_c"), ==, -7);
  g_assert_true (json_object_get_null_member (last, "high_c"));
  g_assert_cmpstr (json_object_get_string_member (last, "high_mark"), ==, "absent");
  g_assert_cmpstr (answer_string (&table, "first_day"), ==, "2026-03-01");
  g_assert_cmpfloat (answer_number (&table, "counts/duplicates"), ==, 1);
  root = json_node_get_object (answer_root (&clocks));
  has_keys (json_array_get_object_element (json_object_get_array_member (root, "hours"), 0), hours);
  g_assert_cmpstr (answer_string (&clocks, "first_hour"), ==, "2026-03-01T00:00:00Z");
}

static void
test_words (void)
{
  g_auto (Answer) answer
      = run ("weather - --columns low=a:f,high=b:c", "station,date,a,b,f.b,rain\nX,2026-03-01,14,2,E,T\nX,2026-03-03,14,-12,,\n");

  g_assert_cmpstr (answer.err, ==, "");
  g_assert_cmpstr (answer.out, ==,
                   "Format                plain table\n"
                   "Days from             2026-03-01 to 2026-03-03\n"
                   "Days                  2\n"
                   "Hours                 0\n"
                   "Hours absent          0 without a temperature\n"
                   "Told ahead            0 days and hours\n"
                   "Absent                0 lows and highs\n"
                   "Estimated             1 lows and highs, kept\n"
                   "Refused               2 values, left out\n"
                   "With a trace of rain  1 days\n"
                   "Twice                 0 days or hours; the later one stayed\n"
                   "Gaps                  1 day between 2026-03-01 and 2026-03-03\n"
                   "Columns               station: not read\n"
                   "                      date: date\n"
                   "                      a: low, f\n"
                   "                      b: high, c\n"
                   "                      f.b: marks of high\n"
                   "                      rain: rain, in (not told, assumed)\n");
}

static const struct
{
  const char *name, *arguments, *input, *sentence;
} complaints[] = {
  { "empty", "", "", "standard input: the file is empty" },
  { "two-places", "", "location,date,tmin,tmax\nA,2026-03-01,1,2\nB,2026-03-01,1,2\n",
    "standard input: the table holds 2 places in its column “location”: A, B. Choose one, as in where location=A" },
  { "absurd", "", "date,tmin_c,tmax_c\n2026-03-01,1,200\n",
    "standard input: line 2, column “tmax_c”: “200” is no air temperature (over 90 °C from freezing); leave the cell empty where there is no value" },
  { "columns", "--columns low=", "date,tmin\n2026-03-01,1\n", "standard input: “low=” has to be a use, = and a column, as in low=tmin" },
  { "where", "--where Seattle", "date,tmin\n2026-03-01,1\n",
    "standard input: “Seattle” has to be a column, = and a value, as in location=Seattle" },
  { "zone", "--zone Mars/Base", "date,tmin\n2026-03-01,1\n",
    "standard input: --zone “Mars/Base” is neither an IANA name such as America/Toronto nor an offset such as -05:00" },
  { "service", "", "{\"title\":\"Not Found\",\"status\":404,\"detail\":\"no such point\"}",
    "standard input: the service gave no weather; it says: Not Found (404): no such point" },
};

static void
test_complaint (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  g_auto (Answer) answer = run ("weather - %s", complaints[i].input, complaints[i].arguments);
  g_autofree char *expected = g_strdup_printf ("frostrun-cli: %s\n", complaints[i].sentence);

  g_assert_cmpstr (answer.err, ==, expected);
  g_assert_cmpstr (answer.out, ==, "");
  g_assert_cmpint (answer.code, ==, 1);
}

static void
test_unreadable (void)
{
  g_auto (Answer) answer = run ("weather /nowhere/at-all.csv", NULL);

  g_assert_cmpint (answer.code, ==, 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (files); i++)
    {
      g_autofree char *path = g_strdup_printf ("/cli/weather/file/%u-%s", i, files[i].format);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_file);
    }
  for (guint i = 0; i < G_N_ELEMENTS (complaints); i++)
    {
      g_autofree char *path = g_strdup_printf ("/cli/weather/complaint/%s", complaints[i].name);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_complaint);
    }
  g_test_add_func ("/cli/weather/keys", test_keys);
  g_test_add_func ("/cli/weather/words", test_words);
  g_test_add_func ("/cli/weather/unreadable", test_unreadable);
  return g_test_run ();
}
