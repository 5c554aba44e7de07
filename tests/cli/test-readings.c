/* frostrun-cli reading and morning: readings by the published hydrometer chart, a morning by the demo's own
 * night. */
#include <math.h>
#include <string.h>

#include "books.h"
#include "spawn.h"

/* A maker's chart for 66.9 °Bx syrup, instrument made for 60 °F, as transcribed in syrup handbooks: what is
 * read at a temperature means 66.9. Largest gap of the formula to the chart 0.33 °Bx. */
static void
test_hydrometer (void)
{
  static const struct
  {
    double sample_f, reads_brix;
  } chart[] = { { 209, 59.0 }, { 140, 62.8 }, { 60, 66.9 } };

  for (guint i = 0; i < G_N_ELEMENTS (chart); i++)
    {
      g_autofree char *arguments
          = g_strdup_printf ("reading --instrument hydrometer_60f --reading %.2f --sample-c %.4f --json",
                             chart[i].reads_brix, (chart[i].sample_f - 32) / 1.8);
      g_auto (Answer) answer = cli_run (arguments, NULL, 0);

      g_assert_cmpint (answer.code, ==, 0);
      g_assert_cmpstr (answer_string (&answer, "code"), ==, "ok");
      g_assert_cmpfloat_with_epsilon (answer_number (&answer, "brix"), 66.9, 0.34);
    }
}

static void
test_reading_refused (void)
{
  static const char *const wrong[] = {
    "reading --reading 2",
    "reading --instrument spoon --reading 2",
    "reading --instrument refractometer",
    "reading --instrument refractometer --reading -1 --sample-c 10",
    "reading --instrument refractometer --reading 2 --sample-c 500",
    "reading --instrument refractometer --reading two --sample-c 10",
  };
  g_auto (Answer) cold
      = cli_run ("reading --instrument refractometer --reading 2 --sample-c 1 --json", NULL, 0);

  for (guint i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      g_auto (Answer) answer = cli_run (wrong[i], NULL, 0);

      g_assert_cmpint (answer.code, ==, 1);
      g_assert_cmpstr (answer.out, ==, "");
      g_assert_cmpuint (strlen (answer.err), >, 20);
    }
  /* Too cold to correct is an answer, not a mistake. */
  g_assert_cmpint (cold.code, ==, 0);
  g_assert_cmpstr (answer_string (&cold, "code"), ==, "warm_sample");
  g_assert_true (isnan (answer_number (&cold, "brix")));
}

static void
test_morning (void)
{
  char *folder = make_folder ();
  g_autofree char *book = g_build_filename (folder, "demo.frostrun", NULL);
  g_autofree char *arguments = g_strdup_printf ("morning --book %s --json", book);
  g_autofree char *later = g_strdup_printf ("morning --book %s --meter 17.88 --json", book);

  make_book (book, NULL, "2026-03-19T18:30:00-04:00");
  {
    g_auto (Answer) answer = cli_run (arguments, NULL, 0);
    g_auto (Answer) as_planned = cli_run (later, NULL, 0);

    g_assert_cmpint (answer.code, ==, 0);
    g_assert_cmpstr (answer_string (&answer, "evening"), ==, "2026-03-16");
    /* The meter read 16.9 kWh, which at 1.8 kW is 16.9 / 1.8 h. */
    g_assert_cmpfloat_with_epsilon (answer_number (&answer, "fact_end_s"), 16.9 / 1.8 * 3600, 1);
    /* Less electricity for the same water: the ratio rises about in proportion. */
    g_assert_cmpfloat_with_epsilon (answer_number (&answer, "night_heat_ratio"),
                                    0.8 * answer_number (&answer, "plan_energy_kwh") / 16.9, 0.005);
    /* Exactly as planned leaves it as it was. */
    g_assert_cmpint (as_planned.code, ==, 0);
    g_assert_cmpfloat_with_epsilon (answer_number (&as_planned, "night_heat_ratio"), 0.8, 0.002);
  }
  drop_folder (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/readings/hydrometer", test_hydrometer);
  g_test_add_func ("/readings/refused", test_reading_refused);
  g_test_add_func ("/readings/morning", test_morning);
  return g_test_run ();
}
