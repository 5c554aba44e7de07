/* The charge on random nights, seeded: what it answers holds when followed, one per cent more breaks the
 * limit it names, and with that limit lifted the next one comes true. Every step goes through the program, so
 * through its numbers as text too. */
#include "spawn.h"

#include <math.h>
#include <string.h>

#define N_NIGHTS 50

typedef struct
{
  double altitude_m, air_c, power_w, heat_ratio, wall_w_per_k, start_brix, feed_brix, hold_l, cutoff_l;
  double after_s, ceiling_brix, capacity_l; /* NAN: lifted */
} Night;

static void
add_stop (GString *out, const char *key, double value)
{
  if (!isnan (value))
    g_string_append_printf (out, ",\"%s\":%.17g", key, value);
}

/* @as_boil: the limits are left out, so that the run shows what becomes of it without them. */
static char *
night_text (const Night *night, double feed_l, gboolean as_boil)
{
  GString *out = g_string_new (NULL);

  g_string_printf (
      out,
      "{\"altitude_m\":%.17g,\"air_c\":%.17g,\"vessel\":{\"shape\":\"box\",\"length_m\":0.6,\"width_m\":0.4,"
      "\"corner_radius_m\":0,\"height_m\":0.2},\"cooker\":{\"power_w\":%.17g,\"heat_ratio\":%.17g,"
      "\"wall_w_per_k\":%.17g},\"start\":{\"volume_l\":%.17g,\"brix\":%.17g,\"temp_c\":4},"
      "\"feed\":{\"volume_l\":%.17g,\"brix\":%.17g,\"temp_c\":2",
      night->altitude_m, night->air_c, night->power_w, night->heat_ratio, night->wall_w_per_k, night->hold_l,
      night->start_brix, feed_l, night->feed_brix);
  if (!as_boil)
    add_stop (out, "capacity_l", night->capacity_l);
  g_string_append_printf (out, "},\"hold_volume_l\":%.17g,\"stop\":{\"cutoff_volume_l\":%.17g", night->hold_l,
                          night->cutoff_l);
  if (!as_boil)
    {
      add_stop (out, "after_s", night->after_s);
      add_stop (out, "brix", night->ceiling_brix);
    }
  g_string_append (out, "}}");
  return g_string_free (out, FALSE);
}

static Answer
ask (const char *command, const Night *night, double feed_l)
{
  g_autofree char *input = night_text (night, feed_l, g_str_equal (command, "boil")),
                  *arguments = g_strdup_printf ("%s - --json", command);
  Answer answer = cli_run (arguments, input, -1);

  g_test_message ("%s %s", command, input);
  g_assert_cmpstr (answer.err, ==, "");
  g_assert_cmpint (answer.code, ==, 0);
  return answer;
}

/* Whether a followed boil of @feed_l breaks the limit. */
static gboolean
breaks (const Night *night, const char *limit, double feed_l)
{
  g_auto (Answer) run = ask ("boil", night, feed_l);

  if (g_str_equal (limit, "capacity"))
    return feed_l > night->capacity_l;
  if (g_str_equal (answer_string (&run, "ended_by"), "never_boils"))
    return g_str_equal (limit, "time");
  if (g_str_equal (limit, "time"))
    return answer_number (&run, "time_s") > night->after_s;
  g_assert_cmpstr (limit, ==, "brix");
  return !g_str_equal (answer_string (&run, "ended_by"), "cutoff")
         || answer_number (&run, "left_brix") > night->ceiling_brix;
}

static double
between (GRand *rand, double lo, double hi)
{
  return g_rand_double_range (rand, lo, hi);
}

static void
test_night (gconstpointer data)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (7000 + GPOINTER_TO_UINT (data));
  Night night = { .altitude_m = between (rand, 0, 3000),
                  .air_c = between (rand, -25, 25),
                  .power_w = between (rand, 300, 3000),
                  .heat_ratio = between (rand, 0.4, 0.95),
                  .wall_w_per_k = between (rand, 0, 2),
                  .start_brix = between (rand, 0.5, 12),
                  .feed_brix = between (rand, 0.5, 12),
                  .hold_l = between (rand, 1, 10) };
  g_autofree char *limit = NULL, *next = NULL;
  double feed_l, next_l = NAN;
  gboolean feasible;

  night.cutoff_l = night.hold_l * between (rand, 0.3, 0.95);
  night.after_s = between (rand, 4, 14) * 3600;
  night.ceiling_brix = between (rand, 20, 70);
  night.capacity_l = between (rand, 2, 60);
  {
    g_auto (Answer) charge = ask ("charge", &night, 0);

    feed_l = answer_number (&charge, "feed_l");
    limit = g_strdup (answer_string (&charge, "limited_by"));
    feasible = json_object_get_boolean_member (json_node_get_object (answer_root (&charge)), "feasible");
    if (!json_object_get_null_member (json_node_get_object (answer_root (&charge)), "next"))
      {
        next = g_strdup (answer_string (&charge, "next/limit"));
        next_l = answer_number (&charge, "next/litres");
        g_assert_cmpfloat (next_l, >=, feed_l);
      }
  }
  if (!feasible)
    {
      g_assert_cmpfloat (feed_l, ==, 0);
      g_assert_true (breaks (&night, limit, 0));
    }
  else
    {
      g_auto (Answer) run = ask ("boil", &night, feed_l);

      g_assert_cmpstr (answer_string (&run, "ended_by"), ==, "cutoff");
      g_assert_cmpfloat (answer_number (&run, "time_s"), <=, night.after_s);
      g_assert_cmpfloat (answer_number (&run, "left_brix"), <=, night.ceiling_brix);
      g_assert_cmpfloat (feed_l, <=, night.capacity_l);
      g_assert_true (breaks (&night, limit, MAX (feed_l * 1.01, 1e-6)));
    }
  if (next == NULL)
    return;
  if (g_str_equal (limit, "time"))
    night.after_s = NAN;
  else if (g_str_equal (limit, "capacity"))
    night.capacity_l = NAN;
  else
    night.ceiling_brix = 75; /* as far as sugar is followed: lifted no further */
  {
    g_auto (Answer) lifted = ask ("charge", &night, 0);

    if (g_str_equal (answer_string (&lifted, "limited_by"), "brix") && !g_str_equal (next, "brix"))
      g_assert_cmpfloat (answer_number (&lifted, "feed_l"), <=, next_l);
    else
      {
        g_assert_cmpstr (answer_string (&lifted, "limited_by"), ==, next);
        g_assert_cmpfloat_with_epsilon (answer_number (&lifted, "feed_l"), next_l, 1e-9 * (1 + next_l));
      }
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < N_NIGHTS; i++)
    {
      g_autofree char *path = g_strdup_printf ("/cli/charge/%02u", i);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_night);
    }
  return g_test_run ();
}
