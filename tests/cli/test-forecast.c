/* frostrun-cli forecast as a script would run it: the keys it promises, the day it is made on, years parted, and what it refuses. */
#include "books.h"
#include "spawn.h"

#include <math.h>
#include <string.h>

static char *folder, *days_file, *gathered_file;

static void
write_file (const char *path, const char *text)
{
  g_assert_true (g_file_set_contents (path, text, -1, NULL));
}

static void
setup (void)
{
  g_autoptr (GString) days = g_string_new ("date,tmin_c,tmax_c\n");

  folder = make_folder ();
  days_file = g_build_filename (folder, "days.csv", NULL);
  gathered_file = g_build_filename (folder, "gathered.csv", NULL);
  for (guint year = 2024; year <= 2026; year++)
    for (guint month = 1; month <= 5; month++)
      for (guint day = 1; day <= 28; day++)
        if (year < 2026 || month < 4)
          g_string_append_printf (days, "%u-%02u-%02u,%.1f,%.1f\n", year, month, day,
                                  -16 + 4.0 * (month - 1) + 0.13 * day - 3 * sin (day + year), -6 + 4.5 * (month - 1) + 0.15 * day);
  /* A month has 28 days here: what lies between is a gap of two or three days, as gaps are. */
  write_file (days_file, days->str);
  write_file (gathered_file, "date,litres_per_tap,days\n2026-03-05,2.0,1\n2026-03-08,4.5,3\n2026-03-20,99,12\n");
}

static void
teardown (void)
{
  drop_folder (folder);
  g_free (days_file);
  g_free (gathered_file);
}

static JsonArray *
days_of (const Answer *answer)
{
  return json_object_get_array_member (json_node_get_object (answer_root (answer)), "days");
}

/* The keys others rely on. */
static void
test_keys (void)
{
  static const char *const keys[] = { "date", "run_probability", "litres_per_tap_p10", "litres_per_tap_p50", "litres_per_tap_p90",
                                      "litres_per_tap_mean", "hours" };
  g_auto (Answer) answer = run ("forecast --weather %s --taps 12 --tapped 2026-03-01 --gathered %s --as-of 2026-03-10 --gather-hour 17 "
                                "--latitude-deg 44.5 --tap-dbh-cm 35 --species sugar --json",
                                NULL, days_file, gathered_file);
  JsonArray *days;
  JsonObject *first;

  g_assert_cmpint (answer.code, ==, 0);
  days = days_of (&answer);
  first = json_array_get_object_element (days, 0);
  g_assert_cmpstr (json_object_get_string_member (first, "date"), ==, "2026-03-02");
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    g_assert_true (json_object_has_member (first, keys[i]));
  g_assert_cmpfloat_with_epsilon (answer_number (&answer, "season/gathered_l"), 12 * 6.5, 1e-9);
  g_assert_cmpfloat (answer_number (&answer, "season/to_come_p10_l"), <, answer_number (&answer, "season/to_come_p50_l"));
  g_assert_cmpfloat (answer_number (&answer, "season/to_come_p50_l"), <, answer_number (&answer, "season/to_come_p90_l"));
  g_assert_cmpfloat (answer_number (&answer, "season/over_probability"), <, 0.5);
  g_assert_cmpfloat (answer_number (&answer, "season/learned_from"), ==, 2);
  g_assert_cmpfloat (answer_number (&answer, "season/past_seasons"), ==, 0); /* gaps of three days at the end of February */
}

/* What was emptied after the day it is made on changes nothing before or after it. */
static void
test_as_of (void)
{
  g_autofree char *other = g_build_filename (folder, "other.csv", NULL);
  g_auto (Answer) one = run ("forecast --weather %s --tapped 2026-03-01 --gathered %s --as-of 2026-03-10 --json", NULL, days_file,
                             gathered_file);

  write_file (other, "date,litres_per_tap,days\n2026-03-05,2.0,1\n2026-03-08,4.5,3\n");
  {
    g_auto (Answer) same = run ("forecast --weather %s --tapped 2026-03-01 --gathered %s --as-of 2026-03-10 --json", NULL, days_file, other);
    g_auto (Answer) later
        = run ("forecast --weather %s --tapped 2026-03-01 --gathered %s --as-of 2026-03-21 --json", NULL, days_file, gathered_file);
    /* Only what is told back of the gathering itself may differ. */
    JsonArray *a, *b;

    g_assert_cmpint (one.code, ==, 0);
    a = json_array_ref (days_of (&one));
    b = days_of (&same);
    g_assert_cmpuint (json_array_get_length (a), ==, json_array_get_length (b));
    for (guint i = 0; i < json_array_get_length (a); i++)
      g_assert_cmpfloat (json_object_get_double_member_with_default (json_array_get_object_element (a, i), "litres_per_tap_p50", -1), ==,
                         json_object_get_double_member_with_default (json_array_get_object_element (b, i), "litres_per_tap_p50", -1));
    g_assert_cmpfloat (answer_number (&later, "season/gathered_l"), ==, 105.5);
    json_array_unref (a);
  }
}

static void
test_refused (void)
{
  static const struct
  {
    const char *arguments, *part;
  } cases[] = {
    { "--taps 4", "--weather" },
    { "--weather %s --taps 0", "--taps" },
    { "--weather %s --tapped 2026-02-30", "2026-02-30" },
    { "--weather %s --as-of tomorrow", "tomorrow" },
    { "--weather %s --gather-hour 24", "--gather-hour" },
    { "--weather %s --latitude-deg 91", "--latitude-deg" },
    { "--weather %s --species oak", "oak" },
    { "--weather %s --as-of 2019-03-01", "2019-03-01" },
    { "--weather %s --gathered /nowhere/at-all.csv", "/nowhere/at-all.csv" },
    { "--weather /nowhere/at-all.csv", "/nowhere/at-all.csv" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (GStrv) parts = g_strsplit (cases[i].arguments, "%s", 2);
      g_autofree char *arguments = g_strconcat (parts[0], parts[1] != NULL ? days_file : NULL, parts[1], NULL);
      g_auto (Answer) answer = run ("forecast %s", NULL, arguments);

      if (answer.code == 0 || strstr (answer.err, cases[i].part) == NULL || strchr (answer.err, '\n') != answer.err + strlen (answer.err) - 1)
        g_test_fail_printf ("%s: %d, “%s”", cases[i].arguments, answer.code, answer.err);
    }
}

/* A logger's hours alone: observed up to the last of them. */
static void
test_hours (void)
{
  g_autofree char *path = g_build_filename (folder, "hours.csv", NULL);
  g_autoptr (GString) text = g_string_new ("time,temp_c\n");

  for (guint day = 1; day <= 9; day++)
    for (guint hour = 0; hour < 24; hour++)
      g_string_append_printf (text, "2026-03-%02uT%02u:00Z,%.1f\n", day, hour, 2 - 6 * cos (hour / 3.82));
  write_file (path, text->str);
  {
    g_auto (Answer) answer = run ("forecast --weather %s --tapped 2026-03-02 --json", NULL, path);

    g_assert_cmpint (answer.code, ==, 0);
    g_assert_cmpstr (answer_string (&answer, "season/as_of"), ==, "2026-03-09");
  }
}

/* The text says the same days as JSON. */
static void
test_text (void)
{
  g_auto (Answer) answer = run ("forecast --weather %s --tapped 2026-03-01 --as-of 2026-03-10", NULL, days_file);

  g_assert_cmpint (answer.code, ==, 0);
  g_assert_true (g_str_has_prefix (answer.out, "Empty the buckets ") || g_str_has_prefix (answer.out, "Leave the buckets: "));
  g_assert_nonnull (strstr (answer.out, "2026-03-10 *"));
  g_assert_nonnull (strstr (answer.out, "2026-03-28"));
  g_assert_null (strstr (answer.out, "nan"));
}

/* Every day of two springs and of a third up to 20 February. */
static char *
years_file (void)
{
  g_autoptr (GString) days = g_string_new ("date,tmin_c,tmax_c\n");
  char *path = g_build_filename (folder, "years.csv", NULL);

  for (guint year = 2024; year <= 2026; year++)
    for (guint n = 0; n < (year < 2026 ? 151 : 51); n++)
      {
        g_autoptr (GDateTime) first = g_date_time_new_utc ((gint)year, 1, 1, 12, 0, 0), day = g_date_time_add_days (first, (gint)n);
        g_autofree char *iso = g_date_time_format (day, "%Y-%m-%d");
        double wave = 4 * sin (2 * G_PI * n / 8.7 + year);

        g_string_append_printf (days, "%s,%.1f,%.1f\n", iso, -15 + 0.14 * n + wave, -5 + 0.15 * n + wave);
      }
  write_file (path, days->str);
  return path;
}

/* NULL for none. */
static const char *
recommended (const Answer *answer)
{
  JsonObject *season = json_object_get_object_member (json_node_get_object (answer_root (answer)), "season");

  return json_object_get_null_member (season, "recommended_tap_date")
             ? NULL
             : json_object_get_string_member (season, "recommended_tap_date");
}

/* The date, the same by both commands; later dates give less in the end; none when the season is behind or nothing is known. */
static void
test_tap_date (void)
{
  g_autofree char *years = years_file ();
  g_auto (Answer) dates = run ("tap-date --weather %s --as-of 2026-02-10 --json", NULL, years);
  g_auto (Answer) forecast = run ("forecast --weather %s --as-of 2026-02-10 --json", NULL, years);
  g_auto (Answer) tapped = run ("forecast --weather %s --as-of 2026-02-10 --tapped 2026-02-01 --json", NULL, years);
  g_auto (Answer) text = run ("tap-date --weather %s --as-of 2026-02-10", NULL, years);
  /* One parser reads all answers: what an earlier one said is kept as text. */
  g_autofree char *told = g_strdup (recommended (&forecast)), *none = g_strdup (recommended (&tapped));
  JsonObject *root = json_node_get_object (answer_root (&dates));
  JsonArray *list = json_object_get_array_member (root, "dates");
  const char *date = json_object_get_string_member (root, "recommended_tap_date");
  double most_l = 0, before_l = INFINITY;

  g_assert_cmpint (json_object_get_int_member (root, "past_seasons"), ==, 2);
  g_assert_cmpstr (date, ==, told);
  g_assert_null (none);
  g_assert_cmpstr (date, >=, "2026-02-10");
  for (guint i = 0; i < json_array_get_length (list); i++)
    {
      JsonObject *one = json_array_get_object_element (list, i);

      if (!json_object_get_boolean_member (one, "past"))
        most_l = fmax (most_l, json_object_get_double_member (one, "litres_per_tap_mean"));
    }
  for (guint i = 0; i < json_array_get_length (list); i++)
    {
      JsonObject *one = json_array_get_object_element (list, i);
      double mean_l = json_object_get_double_member (one, "litres_per_tap_mean");

      if (g_str_equal (json_object_get_string_member (one, "date"), date))
        g_assert_cmpfloat (mean_l, >=, 0.99 * most_l);
      if (strcmp (json_object_get_string_member (one, "date"), date) > 0)
        {
          g_assert_cmpfloat (mean_l, <, 0.99 * most_l);
          before_l = fmin (before_l, mean_l);
        }
    }
  g_assert_cmpfloat (before_l, <, 0.2 * most_l); /* mid-April */
  g_assert_cmpint (text.code, ==, 0);
  g_assert_nonnull (strstr (text.out, "Tap "));
  g_assert_nonnull (strstr (text.out, "Told by 2 past seasons."));
  g_assert_null (strstr (text.out, "<b>"));
  g_assert_null (strstr (text.out, "nan"));
}

int
main (int argc, char *argv[])
{
  int failed;

  g_test_init (&argc, &argv, NULL);
  setup ();
  g_test_add_func ("/cli/forecast/keys", test_keys);
  g_test_add_func ("/cli/forecast/as-of", test_as_of);
  g_test_add_func ("/cli/forecast/refused", test_refused);
  g_test_add_func ("/cli/forecast/hours", test_hours);
  g_test_add_func ("/cli/forecast/text", test_text);
  g_test_add_func ("/cli/forecast/tap-date", test_tap_date);
  failed = g_test_run ();
  teardown ();
  return failed;
}
