/* Answers against figures from outside: the issue's own example, closed forms of the vessels, water's heat of
 * evaporation from the steam table, prices by hand over the changes of the clock. Also the text for people,
 * kept as it is. */
#include "spawn.h"

#include <glib/gstdio.h>
#include <gio/gio.h>
#include <math.h>
#include <string.h>

#define NEAR(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)

static Answer
ask (const char *command, const char *input)
{
  g_autofree char *arguments = g_strdup_printf ("%s - --json", command);
  Answer answer = cli_run (arguments, input, -1);

  g_assert_cmpstr (answer.err, ==, "");
  g_assert_cmpint (answer.code, ==, 0);
  return answer;
}

/* The wanted result of the example: cut-off after about 6.6 h at about 31.3 °Bx. */
static void
test_example (void)
{
  g_autofree char *kept = kept_text ("boil.json");
  g_auto (Answer) answer = ask ("boil", kept);

  g_assert_cmpstr (answer_string (&answer, "ended_by"), ==, "cutoff");
  NEAR (answer_number (&answer, "time_s") / 3600, 6.60, 0.05);
  NEAR (answer_number (&answer, "left_brix"), 31.3, 0.1);
  NEAR (answer_number (&answer, "left_l"), 0.8, 1e-6);
  NEAR (answer_number (&answer, "energy_kwh"), 1.8 * answer_number (&answer, "time_s") / 3600, 1e-9);
  NEAR (answer_number (&answer, "sugar_in_kg"), answer_number (&answer, "sugar_out_kg"), 1e-12);
  NEAR (answer_number (&answer, "sugar_out_kg"),
        answer_number (&answer, "left_kg") * answer_number (&answer, "left_brix") / 100, 1e-12);
  g_assert_cmpfloat (answer_number (&answer, "feed_dry_s"), <, answer_number (&answer, "time_s"));
  g_assert_cmpfloat (answer_number (&answer, "left_20c_l"), <, 0.8);
  g_assert_true (isnan (answer_number (&answer, "rim_s")));
}

static void
test_never_dry (void)
{
  g_autofree char *kept = kept_text ("boil.json"), *input = with (kept, "43200", "3600");
  g_auto (Answer) answer = ask ("boil", input);

  g_assert_cmpstr (answer_string (&answer, "ended_by"), ==, "time");
  NEAR (answer_number (&answer, "time_s"), 3600, 1e-9);
  g_assert_true (isnan (answer_number (&answer, "feed_dry_s")));
}

static void
test_ends (void)
{
  g_autofree char *kept = kept_text ("boil.json");
  const struct
  {
    const char *from, *to, *end;
  } cases[] = {
    { "\"cutoff_volume_l\":0.8,\"after_s\":43200,\"brix\":60", "", "dry_limit" },
    { ",\"stop\":{\"cutoff_volume_l\":0.8,\"after_s\":43200,\"brix\":60}", "", "dry_limit" },
    { "\"brix\":60", "\"brix\":20", "brix" },
    { "1800", "50", "never_boils" },
    { "\"after_s\":43200", "\"after_s\":0", "time" },
    { "\"after_s\":43200", "\"after_s\":null", "cutoff" },
    { "12", "0", "cutoff" },
    { "\"altitude_m\":250", "\"altitude_m\":-500", "cutoff" },
    { "\"altitude_m\":250", "\"altitude_m\":9000", "cutoff" },
    { "\"altitude_m\":250", "\"altitude_m\":0", "cutoff" },
    { "\"altitude_m\":250", "\"altitude_m\":250,\"water_boils_c\":98.7", "cutoff" },
    { "\"altitude_m\":250", "\"altitude_m\":250,\"sea_level_pa\":102500", "cutoff" },
    { "\"altitude_m\":250", "\"pressure_pa\":98000", "cutoff" },
    { "\"volume_l\":12", "\"kind\":\"stream\",\"stream_ml_per_min\":35,\"volume_l\":12", "cutoff" },
    { "\"volume_l\":12",
      "\"kind\":\"hole\",\"hole_diameter_m\":0.0006,\"head_m\":0.5,\"bucket_diameter_m\":0.3,\"volume_l\":12",
      "cutoff" },
    { "0.9}", "0.9,\"reflux_ratio\":0.3}", "cutoff" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *input = with (kept, cases[i].from, cases[i].to);
      g_auto (Answer) answer = ask ("boil", input);

      g_test_message ("%s", input);
      g_assert_cmpstr (answer_string (&answer, "ended_by"), ==, cases[i].end);
    }
}

/* A stream of 60 ml/min runs for 200 minutes while about 36 ml/min boil off (1530 W over 2.26 MJ/kg and 0.4
 * MJ/kg of warming, less the wall), so the 1.5 L in a pan of 5.65 L grow by some 5 L and run over. */
static void
test_runs_over (void)
{
  g_autofree char *kept = kept_text ("boil.json"),
                  *watch = with (kept, "\"air_c\"", "\"watch\":{\"foam_l\":3,\"min_l\":1},\"air_c\""),
                  *input = with (watch, "\"volume_l\":12",
                                 "\"kind\":\"stream\",\"stream_ml_per_min\":60,\"volume_l\":12");
  g_auto (Answer) answer = ask ("boil", input);
  double foam_s = answer_number (&answer, "foam_s"), rim_s = answer_number (&answer, "rim_s");

  g_assert_cmpfloat (foam_s, >, 1800);
  g_assert_cmpfloat (foam_s, <, rim_s);
  g_assert_cmpfloat (rim_s, <, answer_number (&answer, "feed_dry_s"));
  NEAR (answer_number (&answer, "feed_dry_s"), 12000, 1);
  g_assert_cmpfloat (answer_number (&answer, "max_volume_l"), >, 5.65);
  g_assert_cmpfloat (answer_number (&answer, "min_s"), >, rim_s);
}

/* The power goes off at once in the frost while sap of 3 °C trickles in: the pan cools to the ice point and
 * stays there. */
static void
test_frost (void)
{
  g_autofree char *kept
      = kept_text ("boil.json"),
      *trip = with (kept, "\"air_c\"", "\"trip_s\":0.3,\"air_c\""),
      *input = with (trip, "\"volume_l\":12", "\"kind\":\"stream\",\"stream_ml_per_min\":1,\"volume_l\":12");
  g_auto (Answer) answer = ask ("boil", input);

  g_assert_cmpstr (answer_string (&answer, "ended_by"), ==, "time");
  NEAR (answer_number (&answer, "left_temp_c"), 0, 0.1);
  NEAR (answer_number (&answer, "evaporated_kg"), 0, 1e-12);
}

/* 50 W cannot heat a pan whose wall of 0.9 W/K sees 100 K: no charge will do, with or without a latest time.
 */
static void
test_charge_never (void)
{
  g_autofree char *kept = kept_text ("boil.json"), *weak = with (kept, "1800", "50"),
                  *any_time = with (weak, "\"after_s\":43200,", "");
  const char *const inputs[] = { weak, any_time };

  for (guint i = 0; i < G_N_ELEMENTS (inputs); i++)
    {
      g_auto (Answer) answer = ask ("charge", inputs[i]);

      g_assert_cmpfloat (answer_number (&answer, "feed_l"), ==, 0);
      g_assert_cmpstr (answer_string (&answer, "limited_by"), ==, "time");
      g_assert_cmpstr (answer_string (&answer, "run/ended_by"), ==, "never_boils");
      g_assert_true (isnan (answer_number (&answer, "next")));
    }
}

/* The bucket fills a pan that stands empty; the litres that fill it come out of the charge. */
static void
test_charge_empty_pan (void)
{
  g_autofree char *kept = kept_text ("boil.json"), *empty = with (kept, "\"volume_l\":1.5", "\"volume_l\":0");
  g_auto (Answer) full = ask ("charge", kept);
  g_auto (Answer) answer = ask ("charge", empty);

  NEAR (answer_number (&answer, "feed_l"), answer_number (&full, "feed_l") + 1.5, 0.01);
}

/* Steam table: water boils at 100 °C at 101,418 Pa (IAPWS-IF97, from memory 1.01418 bar), so the two say the
 * same. */
static void
test_places (void)
{
  g_auto (Answer) boils = cli_run ("syrup --water-boils-c 100 --brix 66.9 --json", NULL, 0);
  g_auto (Answer) pressure = cli_run ("syrup --pressure-pa 101418 --brix 66.9 --json", NULL, 0);

  NEAR (answer_number (&boils, "water_boils_c"), 100, 1e-9);
  NEAR (answer_number (&pressure, "water_boils_c"), 100, 1e-3);
  NEAR (answer_number (&boils, "finish_c"), answer_number (&pressure, "finish_c"), 1e-3);
}

/* Ontario's 104.2 °C at 67 °Bx where water boils at 100 °C, within 0.05 K; ICUMSA density at 66.9 °Bx and 20
 * °C between its rows 66 and 67 (about 1323 and 1329 kg/m³, from memory). */
static void
test_syrup (void)
{
  g_auto (Answer) sea = cli_run ("syrup --water-boils-c 100 --brix 67 --json", NULL, 0);
  g_auto (Answer) answer = cli_run ("syrup --altitude-m 300 --brix 66.9 --json", NULL, 0);
  g_auto (Answer) text = cli_run ("syrup --altitude-m 300 --brix 66.9", NULL, 0);

  NEAR (answer_number (&sea, "finish_c"), 104.2, 0.05);
  g_assert_cmpfloat (answer_number (&answer, "density_20c_kg_m3"), >, 1323);
  g_assert_cmpfloat (answer_number (&answer, "density_20c_kg_m3"), <, 1329);
  g_assert_cmpfloat (answer_number (&answer, "density_finish_kg_m3"), <,
                     answer_number (&answer, "density_20c_kg_m3"));
  NEAR (answer_number (&answer, "water_boils_c"), 98.98, 0.02);
  g_assert_cmpint (text.code, ==, 0);
  g_assert_nonnull (strstr (text.out, "Finish at"));
}

/* What each shape holds, by the school's formulas, is the litres that an overfull start is told. */
static void
test_shapes (void)
{
  const struct
  {
    const char *vessel;
    double holds_l;
  } shapes[] = {
    { "{\"shape\":\"cylinder\",\"radius_m\":0.15,\"height_m\":0.2}", 1e3 * G_PI * 0.15 * 0.15 * 0.2 },
    { "{\"shape\":\"cone\",\"bottom_radius_m\":0.1,\"top_radius_m\":0.16,\"height_m\":0.2}",
      1e3 * G_PI * 0.2 / 3 * (0.01 + 0.016 + 0.0256) },
    /* cap of a sphere: π h (3 a² + h²) / 6 */
    { "{\"shape\":\"cap\",\"rim_radius_m\":0.18,\"depth_m\":0.1}",
      1e3 * G_PI * 0.1 * (3 * 0.0324 + 0.01) / 6 },
    /* zone of a sphere: π h (3 a² + 3 b² + h²) / 6 */
    { "{\"shape\":\"cap\",\"rim_radius_m\":0.18,\"depth_m\":0.1,\"flat_radius_m\":0.07}",
      1e3 * G_PI * 0.1 * (3 * 0.0324 + 3 * 0.0049 + 0.01) / 6 },
    { "{\"shape\":\"box\",\"length_m\":0.5,\"width_m\":0.3,\"corner_radius_m\":0.05,\"height_m\":0.08}",
      1e3 * 0.08 * (0.15 - (4 - G_PI) * 0.0025) },
    { "{\"shape\":\"table\",\"rows\":[[0.05,3],[0.1,7.5]]}", 7.5 },
  };
  g_autofree char *kept = kept_text ("boil.json");

  for (guint i = 0; i < G_N_ELEMENTS (shapes); i++)
    {
      g_autofree char *shaped
          = with (kept, "{\"shape\":\"cylinder\",\"radius_m\":0.1,\"height_m\":0.18}", shapes[i].vessel),
          *over = with (shaped, "\"volume_l\":1.5", "\"volume_l\":99");
      g_auto (Answer) answer = ask ("boil", shaped);
      g_auto (Answer) refused = cli_run ("boil - --json", over, -1);
      const char *holds = strstr (refused.err, "holds ");

      /* Above the liquid the shape plays no part: the example's answer comes back. */
      NEAR (answer_number (&answer, "time_s") / 3600, 6.60, 0.05);
      g_assert_cmpint (refused.code, ==, 1);
      g_assert_nonnull (holds);
      NEAR (g_ascii_strtod (holds + 6, NULL), shapes[i].holds_l, 1e-4 * shapes[i].holds_l);
    }
}

/* Heat of evaporation at 100 °C 2256.5 kJ/kg, enthalpies of water 419.1 (100 °C) and 12.6 kJ/kg (3 °C),
 * density 958.4 kg/m³ (steam tables, from memory); the wall of 0.9 W/K sees 80 K. */
static void
test_calibrate (void)
{
  g_autofree char *kept = kept_text ("calibrate.json");
  g_auto (Answer) answer = ask ("calibrate", kept);
  double wall_w = 0.9 * 80, first = (2.2 * 2256.5e3 / 3600 + wall_w) / 1800,
         second = (3.75 * (2256.5e3 + 419.1e3 - 12.6e3) / 7200 + wall_w) / 1800,
         third = (G_PI * 0.01 * 0.073 * 958.4 * 2256.5e3 / 3600 + wall_w) / 1800;

  NEAR (answer_number (&answer, "each/0/heat_ratio"), first, 5e-4);
  NEAR (answer_number (&answer, "each/1/heat_ratio"), second, 1e-3);
  NEAR (answer_number (&answer, "each/2/heat_ratio"), third, 1e-3);
  NEAR (answer_number (&answer, "each/0/sd"), 0.02 * 2256.5e3 / 3600 / 1800, 1e-5);
  g_assert_cmpfloat (answer_number (&answer, "heat_ratio_sd"), <, answer_number (&answer, "each/0/sd"));
  NEAR (answer_number (&answer, "heat_ratio"), (first + second + third) / 3, 3e-3);
}

static void
test_outlier (void)
{
  g_autofree char *kept = kept_text ("calibrate.json"), *input = with (kept, "3.75", "2.5");
  g_auto (Answer) answer = ask ("calibrate", input);

  g_assert_cmpfloat (answer_number (&answer, "n_used"), ==, 2);
  g_assert_nonnull (strstr (answer.out, "\"outlier\": true"));
}

/* By hand. The spring night has 8 elapsed hours at the weekend price; an autumn start of 01:30 is the first
 * of the two. */
static void
test_price (void)
{
  g_autofree char *kept = kept_text ("price.json"),
                  *workday = with (kept, "2025-03-08T23:00", "2025-03-10T05:00"),
                  *holiday = with (kept, "2025-03-08T23:00", "2025-04-18T05:00");
  g_auto (Answer) spring = ask ("price", kept);
  g_auto (Answer) monday = ask ("price", workday);
  g_auto (Answer) friday = ask ("price", holiday);
  g_auto (Answer) autumn = ask (
      "price",
      "{\"zone\":\"America/Toronto\",\"start\":\"2025-11-02T01:30\",\"power\":[{\"after_s\":0,\"w\":1000},"
      "{\"after_s\":7200,\"w\":0}],\"tariff\":{\"seasons\":[{\"from\":\"01-01\",\"to\":\"12-31\",\"days\":"
      "{\"all\":[[\"00:00\",\"02:00\",1],[\"02:00\",\"24:00\",2]]}}],\"adder_per_kwh\":1,\"tax_ratio\":0.1}"
      "}");

  NEAR (answer_number (&spring, "cost"), 8 * 1.8 * 9.8, 1e-9);
  NEAR (answer_number (&spring, "bands/0/hours"), 8, 1e-9);
  /* Monday from 05:00 for 8 h: two at 9.8, four at 20.3, two at 15.7. */
  NEAR (answer_number (&monday, "cost"), 1.8 * (2 * 9.8 + 4 * 20.3 + 2 * 15.7), 1e-9);
  g_assert_cmpfloat (answer_number (&monday, "bands/1/price"), ==, 20.3);
  NEAR (answer_number (&monday, "bands/1/energy_kwh"), 7.2, 1e-9);
  NEAR (answer_number (&friday, "cost"), 8 * 1.8 * 9.8, 1e-9);
  /* 1.5 h until the clock shows 02:00 for good, then half an hour; the adder and the tax on top. */
  NEAR (answer_number (&autumn, "cost"), 1.1 * (1.5 * 2 + 0.5 * 3), 1e-9);
  NEAR (answer_number (&autumn, "bands/0/hours"), 1.5, 1e-9);
}

/* By hand: A1 and A2 lie on one line from the start, 3-4-5 triangles; B1 is 50 m off and holds two pails and 5 L,
 * which the gate, 10 m off, lies nearly on the way of. The farther of two on a line is emptied first only if
 * the pail is lighter for it: 12 x 50 + 20 x 50 against 8 x 50 + 20 x 100 litre-metres. */
static void
test_round (void)
{
  g_autofree char *kept = kept_text ("round.json"), *free_hand = with (kept, "20", "null");
  g_auto (Answer) answer = ask ("round", kept);
  g_auto (Answer) at_once = ask ("round", free_hand);
  g_auto (Answer) none = ask ("round", "{\"start\":[3,4],\"stops\":[]}");
  const double gate_m = 10 + hypot (40, 40) + 50;

  NEAR (answer_number (&answer, "walk_m"), 100 + 100 + 200 + gate_m, 1e-9);
  NEAR (answer_number (&answer, "bound_m"), answer_number (&answer, "walk_m"), 1e-9);
  NEAR (answer_number (&answer, "litre_metres"), 2 * 20 * 50 + 1600 + 5 * 50, 1e-9);
  NEAR (answer_number (&answer, "trips/0/litres"), 20, 1e-12);
  NEAR (answer_number (&answer, "trips/3/litres"), 5, 1e-12);
  g_assert_cmpstr (answer_string (&answer, "trips/2/order/0"), ==, "A2");
  g_assert_cmpstr (answer_string (&answer, "trips/2/order/1"), ==, "A1");
  NEAR (answer_number (&at_once, "walk_m"), 50 + 50 + hypot (100, 50) + hypot (40, 40) + 10, 1e-9);
  NEAR (answer_number (&at_once, "trips/0/litres"), 65, 1e-12);
  NEAR (answer_number (&none, "walk_m"), 0, 1e-12);
  NEAR (answer_number (&none, "gap_ratio"), 0, 1e-12);
}

static void
test_text (void)
{
  static const char *const commands[] = { "boil", "charge", "price", "calibrate", "round" };

  for (guint i = 0; i < G_N_ELEMENTS (commands); i++)
    {
      g_autofree char *name = g_strdup_printf ("%s.json", i == 1 ? "boil" : commands[i]),
                      *expected_name = g_strdup_printf ("%s.txt", commands[i]), *input = kept_text (name),
                      *expected = kept_text (expected_name),
                      *arguments = g_strdup_printf ("%s -", commands[i]);
      g_auto (Answer) answer = cli_run (arguments, input, -1);

      g_assert_cmpstr (answer.err, ==, "");
      g_assert_cmpstr (answer.out, ==, expected);
    }
}

/* Every command's help has an example, and the example works as it stands. */
static void
test_help (void)
{
  static const char *const commands[] = { "syrup", "boil", "charge", "price", "calibrate", "taphole", "tap-plan", "round" };
  g_auto (Answer) all = cli_run ("--help", NULL, 0);
  g_auto (Answer) version = cli_run ("--version", NULL, 0);
  g_autofree char *folder = g_dir_make_tmp ("frostrun-XXXXXX", NULL), *kept = kept_text ("boil.json"),
                  *tonight = g_build_filename (folder, "tonight.json", NULL), *full = NULL,
                  *programs = g_path_get_dirname (g_getenv ("FROSTRUN_CLI")),
                  *path = g_strdup_printf ("%s:/usr/bin:/bin", programs);

  g_assert_true (g_path_is_absolute (path));
  g_assert_true (g_file_set_contents (tonight, kept, -1, NULL));
  g_assert_nonnull (strstr (all.out, "Example:"));
  g_assert_true (g_str_has_prefix (version.out, "frostrun-cli "));
  for (guint i = 0; i < G_N_ELEMENTS (commands); i++)
    {
      g_autofree char *arguments = g_strdup_printf ("%s --help", commands[i]), *out = NULL;
      g_auto (Answer) help = cli_run (arguments, NULL, 0);
      const char *example = strstr (help.out, "Example:\n");
      g_autoptr (GSubprocessLauncher) launcher = g_subprocess_launcher_new (G_SUBPROCESS_FLAGS_STDOUT_PIPE);
      g_autoptr (GSubprocess) child = NULL;
      g_autoptr (GError) error = NULL;

      g_assert_cmpint (help.code, ==, 0);
      g_assert_nonnull (strstr (all.out, commands[i]));
      g_assert_nonnull (example);
      g_subprocess_launcher_set_cwd (launcher, folder);
      g_subprocess_launcher_setenv (launcher, "PATH", path, TRUE);
      child = g_subprocess_launcher_spawn (launcher, &error, "/bin/sh", "-c", example + strlen ("Example:\n"),
                                           NULL);
      g_assert_no_error (error);
      g_assert_true (g_subprocess_communicate_utf8 (child, NULL, NULL, &out, NULL, &error));
      g_assert_true (g_subprocess_get_successful (child));
      g_assert_cmpint (strlen (out), >, 20);
    }
  g_unlink (tonight);
  g_rmdir (folder);
}

static void
test_full_disk (void)
{
  g_autofree char *line
      = g_strdup_printf ("%s syrup --altitude-m 300 --brix 66.9 >/dev/full", g_getenv ("FROSTRUN_CLI"));
  g_autofree char *err = NULL;
  g_autoptr (GSubprocess) child = NULL;

  if (!g_file_test ("/dev/full", G_FILE_TEST_EXISTS))
    {
      g_test_skip ("no /dev/full here");
      return;
    }
  child = g_subprocess_new (G_SUBPROCESS_FLAGS_STDERR_PIPE, NULL, "/bin/sh", "-c", line, NULL);
  g_assert_nonnull (child);
  g_assert_true (g_subprocess_communicate_utf8 (child, NULL, NULL, NULL, &err, NULL));
  g_assert_cmpint (g_subprocess_get_exit_status (child), ==, 2);
  g_assert_cmpstr (err, ==, "frostrun-cli: the answer could not be written: No space left on device\n");
}

static void
test_manual (void)
{
  g_autofree char *page = g_build_filename (g_getenv ("FROSTRUN_DATA"), "frostrun-cli.1", NULL), *err = NULL;
  g_autofree char *groff = g_find_program_in_path ("groff");
  g_autoptr (GSubprocess) child = NULL;

  if (groff == NULL)
    {
      g_test_skip ("groff is not installed");
      return;
    }
  child = g_subprocess_new (G_SUBPROCESS_FLAGS_STDERR_PIPE | G_SUBPROCESS_FLAGS_STDOUT_SILENCE, NULL, groff,
                            "-man", "-Tutf8", "-ww", "-z", page, NULL);
  g_assert_nonnull (child);
  g_assert_true (g_subprocess_communicate_utf8 (child, NULL, NULL, NULL, &err, NULL));
  g_assert_true (g_subprocess_get_successful (child));
  g_assert_cmpstr (err, ==, "");
}

int
main (int argc, char **argv)
{
  g_setenv ("LC_ALL", "C.UTF-8", TRUE);
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cli/answer/example", test_example);
  g_test_add_func ("/cli/answer/never-dry", test_never_dry);
  g_test_add_func ("/cli/answer/ends", test_ends);
  g_test_add_func ("/cli/answer/runs-over", test_runs_over);
  g_test_add_func ("/cli/answer/frost", test_frost);
  g_test_add_func ("/cli/answer/charge-never", test_charge_never);
  g_test_add_func ("/cli/answer/charge-empty-pan", test_charge_empty_pan);
  g_test_add_func ("/cli/answer/places", test_places);
  g_test_add_func ("/cli/answer/syrup", test_syrup);
  g_test_add_func ("/cli/answer/shapes", test_shapes);
  g_test_add_func ("/cli/answer/calibrate", test_calibrate);
  g_test_add_func ("/cli/answer/outlier", test_outlier);
  g_test_add_func ("/cli/answer/price", test_price);
  g_test_add_func ("/cli/answer/round", test_round);
  g_test_add_func ("/cli/answer/text", test_text);
  g_test_add_func ("/cli/answer/help", test_help);
  g_test_add_func ("/cli/answer/full-disk", test_full_disk);
  g_test_add_func ("/cli/answer/manual", test_manual);
  return g_test_run ();
}
