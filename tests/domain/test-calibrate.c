/* Learning the heat ratio: made-up truths are found again, from observations and from a night. */
#include "domain/maths/calibrate.h"
#include "domain/maths/charge.h"

#include "domain/units/units.h"

#include "boil-cases.h"
#include "found.h"

static FrBoilTable table;
static const FrVessel pot = { .shape = FR_SHAPE_CYLINDER, .a_m = 0.1, .height_m = 0.25 };
static const FrVessel wok = { .shape = FR_SHAPE_CAP, .a_m = 0.17, .b_m = 0.05, .height_m = 0.09 };

/* A random number of about a normal distribution, sd 1. */
static double
noise (GRand *rand)
{
  double sum = -6;

  for (guint i = 0; i < 12; i++)
    sum += g_rand_double (rand);
  return sum;
}

/* Boils for @span_s from the boil on, the true ratio and wall in @boil. */
static FrBoilRun
watch (FrBoil boil, double span_s)
{
  FrBoilRun run;

  boil.start_c = fr_boil_table_temp_c (boil.table, boil.start_brix, NULL);
  boil.cutoff_l = NAN;
  boil.after_s = span_s;
  g_assert_cmpint (fr_boil_run (&boil, FALSE, &run), ==, FR_BOIL_OK);
  g_assert_cmpint (run.ended_by, ==, FR_END_TIME);
  return run;
}

/* What a household would see of a boil with these hidden values. */
static FrSeen
see (FrSeenKind kind, const FrVessel *vessel, double power_w, double heat_ratio, double wall_w_per_k,
     double air_c, double brix, double span_s)
{
  FrBoil boil = evening ();
  FrSeen seen
      = { .kind = kind, .span_s = span_s, .power_w = power_w, .air_c = air_c, .brix = brix, .feed_c = 5 };
  FrBoilRun run;

  boil.table = &table;
  boil.power_w = power_w;
  boil.heat_ratio = heat_ratio;
  boil.wall_w_per_k = wall_w_per_k;
  boil.air_c = air_c;
  boil.start_brix = boil.feed_brix = brix;
  boil.feed_c = 5;
  boil.feed_l = 0;
  seen.from_depth_m = 0.8 * fr_vessel_height_m (vessel);
  boil.start_l = boil.hold_l = fr_vessel_volume_l (vessel, seen.from_depth_m);
  if (kind == FR_SEEN_VOLUME_FED)
    boil.feed_l = 200;
  run = watch (boil, span_s);
  switch (kind)
    {
    case FR_SEEN_LEVEL_DROP:
      seen.value = seen.from_depth_m - fr_vessel_depth_m (vessel, run.left_l);
      break;
    case FR_SEEN_VOLUME_FED:
      seen.value = run.fed_kg / mass_kg (1, brix, 5);
      break;
    default:
      seen.value = run.evaporated_kg;
    }
  seen.sd = 0.02 * seen.value;
  return seen;
}

/* Without noise the hidden ratio comes back, by every kind of observation, in plain water and in thin sap. */
static void
test_exact (void)
{
  for (FrSeenKind kind = FR_SEEN_LEVEL_DROP; kind <= FR_SEEN_WEIGHT_LOST; kind++)
    for (double ratio = 0.5; ratio < 0.96; ratio += 0.15)
      for (double wall = 0; wall <= 2; wall += 1)
        for (guint shape = 0; shape < 2; shape++)
          {
            const FrVessel *vessel = shape == 0 ? &pot : &wok;
            FrSeen seen = see (kind, vessel, 1500, ratio, wall, -10, 0, 1800);
            FrSeenRatio one;

            g_assert_cmpint (fr_calibrate_one (&table, vessel, wall, &seen, &one), ==, FR_CALIBRATE_OK);
            found_near ("hidden ratio from one observation of water", one.heat_ratio, ratio, 1e-6);
            g_assert_false (one.outlier);
            /* The sd follows that of the value: 2 % of the part of the heat that was seen. */
            found_near ("sd of one observation, relative",
                        one.heat_ratio_sd
                            / (0.02 * (one.heat_ratio - wall * (table.water_boils_c + 10) / 1500)),
                        1, 0.15);
            seen = see (kind, vessel, 1500, ratio, wall, -10, 2, 1800);
            g_assert_cmpint (fr_calibrate_one (&table, vessel, wall, &seen, &one), ==, FR_CALIBRATE_OK);
            found_near ("hidden ratio from one observation of sap", one.heat_ratio, ratio, 2e-3);
          }
}

/* With 2 % of noise on each, five together are right within their own sd: its size is honest over many
 * households. */
static void
test_noise (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (31);
  double squares = 0, worst = 0;
  guint n = 400, set_aside = 0;

  for (guint i = 0; i < n; i++)
    {
      double ratio = between (rand, 0.5, 0.93);
      FrSeen seen[5];
      FrSeenRatio each[5];
      FrCalibration out;
      guint which;

      for (guint k = 0; k < 5; k++)
        {
          seen[k] = see ((FrSeenKind)g_rand_int_range (rand, 0, 3), &pot, 1500, ratio, 0.9,
                         between (rand, -15, 15), 0, 1800);
          seen[k].value *= 1 + 0.02 * noise (rand);
        }
      g_assert_cmpint (fr_calibrate (&table, &pot, 0.9, seen, 5, each, &out, &which), ==, FR_CALIBRATE_OK);
      set_aside += 5 - out.n_used;
      squares += pow ((out.heat_ratio - ratio) / out.heat_ratio_sd, 2);
      worst = MAX (worst, fabs (out.heat_ratio / ratio - 1));
      g_assert_true (isnan (out.wall_w_per_k_sd));
      g_assert_cmpfloat (out.wall_w_per_k, ==, 0.9);
    }
  found_near ("hidden ratio from five noisy observations, worst of 400, relative", worst, 0, 0.04);
  found_near ("error in its own sd, root mean square, off from 0.9", sqrt (squares / n), 0.9, 0.25);
  g_assert_cmpuint (set_aside, <, n * 5 / 50);
}

/* One observation that is a third off is pointed out, and only that one. */
static void
test_outlier (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (32);

  for (guint i = 0; i < 100; i++)
    {
      FrSeen seen[4];
      FrSeenRatio each[4];
      FrCalibration out;
      guint which, bad = (guint)g_rand_int_range (rand, 0, 4);

      for (guint k = 0; k < 4; k++)
        {
          seen[k] = see (FR_SEEN_LEVEL_DROP, &pot, 1500, 0.75, 0.9, 5, 0, 1800);
          seen[k].value *= 1 + 0.005 * noise (rand);
          seen[k].sd = 0.01 * seen[k].value;
        }
      seen[bad].value *= g_rand_boolean (rand) ? 0.67 : 1.33;
      g_assert_cmpint (fr_calibrate (&table, &pot, 0.9, seen, 4, each, &out, &which), ==, FR_CALIBRATE_OK);
      for (guint k = 0; k < 4; k++)
        g_assert_cmpint (each[k].outlier, ==, k == bad);
      g_assert_cmpuint (out.n_used, ==, 3);
      found_near ("hidden ratio beside an outlier", out.heat_ratio, 0.75, 0.02);
    }
}

/* When scatter is wider than the sds claim, the answer says so. */
static void
test_scatter_widens (void)
{
  FrSeen seen[2] = { see (FR_SEEN_WEIGHT_LOST, &pot, 1500, 0.7, 0.9, 5, 0, 1800),
                     see (FR_SEEN_WEIGHT_LOST, &pot, 1500, 0.8, 0.9, 5, 0, 1800) };
  FrSeenRatio each[2];
  FrCalibration out;
  guint which;

  seen[0].sd = seen[1].sd = 0.001;
  g_assert_cmpint (fr_calibrate (&table, &pot, 0.9, seen, 2, each, &out, &which), ==, FR_CALIBRATE_OK);
  g_assert_cmpuint (out.n_used, ==, 2);
  found_near ("mean of two that disagree", out.heat_ratio, 0.75, 1e-3);
  g_assert_cmpfloat (out.heat_ratio_sd, >, 0.04);
}

/* Ratio and wall come apart only when the powers differ enough for the data to carry both. */
static void
test_wall (void)
{
  static const double powers_w[] = { 300, 700, 1200, 2000 };
  FrSeen seen[4];
  FrSeenRatio each[4];
  FrCalibration out;
  guint which;

  for (guint k = 0; k < 4; k++)
    {
      seen[k] = see (FR_SEEN_WEIGHT_LOST, &pot, powers_w[k], 0.85, 1.5, -5, 0, 3600);
      seen[k].sd = 0.005 * seen[k].value;
    }
  /* The assumed wall is wrong by half; the data say so. */
  g_assert_cmpint (fr_calibrate (&table, &pot, 1.0, seen, 4, each, &out, &which), ==, FR_CALIBRATE_OK);
  g_assert_false (isnan (out.wall_w_per_k_sd));
  g_assert_cmpuint (out.n_used, ==, 4);
  found_near ("hidden wall, W/K", out.wall_w_per_k, 1.5, 1e-3);
  found_near ("hidden ratio beside a hidden wall", out.heat_ratio, 0.85, 1e-4);
  for (guint k = 0; k < 4; k++)
    {
      seen[k] = see (FR_SEEN_WEIGHT_LOST, &pot, 1500, 0.85, 1.5, -5, 0, 3600);
      seen[k].sd = 0.005 * seen[k].value;
    }
  g_assert_cmpint (fr_calibrate (&table, &pot, 1.0, seen, 4, each, &out, &which), ==, FR_CALIBRATE_OK);
  g_assert_true (isnan (out.wall_w_per_k_sd));
  g_assert_cmpfloat (out.wall_w_per_k, ==, 1.0);
  /* Whatever wall was held, the heat that reaches the boil is the one that was seen. */
  found_near ("useful heat with a wrong wall, relative",
              (out.heat_ratio * 1500 - 1.0 * (table.water_boils_c + 5))
                  / (0.85 * 1500 - 1.5 * (table.water_boils_c + 5)),
              1, 1e-6);
}

static void
test_refused (void)
{
  FrSeen good = see (FR_SEEN_WEIGHT_LOST, &pot, 1500, 0.85, 0.9, -5, 0, 3600), bad;
  FrSeen both[2];
  FrSeenRatio each[2];
  FrCalibration out;
  guint which;

  g_assert_cmpint (fr_calibrate (&table, &pot, 0.9, &good, 0, each, &out, &which), ==, FR_CALIBRATE_NONE);
  g_assert_true (isnan (out.heat_ratio));
  both[0] = good;
#define REFUSED(member, wrong, wanted)                                                                       \
  bad = good;                                                                                                \
  bad.member = wrong;                                                                                        \
  both[1] = bad;                                                                                             \
  g_assert_cmpint (fr_calibrate (&table, &pot, 0.9, both, 2, each, &out, &which), ==, wanted);               \
  g_assert_cmpuint (which, ==, 1);                                                                           \
  g_assert_true (isnan (out.heat_ratio));
  REFUSED (value, NAN, FR_CALIBRATE_BAD_INPUT);
  REFUSED (value, 0, FR_CALIBRATE_BAD_INPUT);
  REFUSED (sd, 0, FR_CALIBRATE_BAD_INPUT);
  REFUSED (span_s, 10, FR_CALIBRATE_BAD_INPUT);
  REFUSED (power_w, NAN, FR_CALIBRATE_BAD_INPUT);
  REFUSED (air_c, NAN, FR_CALIBRATE_BAD_INPUT);
  REFUSED (brix, 80, FR_CALIBRATE_BAD_INPUT);
  REFUSED (power_w, 1000, FR_CALIBRATE_TOO_MUCH_HEAT);
  bad = see (FR_SEEN_LEVEL_DROP, &wok, 1500, 0.85, 0.9, -5, 0, 1800);
  bad.from_depth_m = NAN;
  g_assert_cmpint (fr_calibrate_one (&table, &wok, 0.9, &bad, each), ==, FR_CALIBRATE_BAD_INPUT);
  bad = see (FR_SEEN_LEVEL_DROP, &pot, 1500, 0.85, 0.9, -5, 0, 1800);
  bad.from_depth_m = NAN;
  g_assert_cmpint (fr_calibrate_one (&table, &pot, 0.9, &bad, each), ==, FR_CALIBRATE_OK);
  found_near ("straight wall without a depth", each[0].heat_ratio, 0.85, 1e-6);
}

/* Nine times in ten: 15 % when nothing is known, 1.645 sd (normal distribution) when it is. */
static void
test_half_range (void)
{
  g_assert_cmpfloat_with_epsilon (fr_heat_ratio_half_range (0.8, NAN), 0.12, 1e-12);
  g_assert_cmpfloat_with_epsilon (fr_heat_ratio_half_range (0.8, 0.01), 0.01645, 1e-5);
}

typedef struct
{
  double worst_s;
  double sum_s;
  double worst_brix;
  double sum_brix;
  guint n;
} Score;

typedef struct
{
  const char *name;
  gboolean timer;   /* the power is switched off at the planned end */
  double meter_kwh; /* half the width of what its reading may be off */
  double power_w[2];
  double promised_min;
} Nights;

/* One household: a night planned with a ratio a fifth off, boiled with the true one, the morning after
 * entered, and the next night planned with what was learned. FALSE when these hours and this kit have no
 * plan. */
static gboolean
two_nights (GRand *rand, const Nights *nights, Score *score)
{
  gboolean timer = nights->timer;
  FrBoilTable air;
  FrBoil boil = case_boil (rand, FR_FEED_LEVEL, &air), truth;
  FrMorning morning;
  FrLearned learned;
  FrCharge charge;
  FrBoilRun night;
  double hidden, off_s, off_brix;

  boil.power_w = between (rand, nights->power_w[0], nights->power_w[1]);
  hidden = between (rand, 0.55, 0.8);
  boil.heat_ratio = hidden * (g_rand_boolean (rand) ? 0.8 : 1.2);
  boil.reflux_ratio = 0;
  boil.hold_l = between (rand, 1, 4);
  boil.start_l = boil.hold_l;
  boil.start_brix = boil.feed_brix = between (rand, 1.2, 3.5);
  boil.start_c = boil.feed_c = between (rand, 0, 8);
  boil.cutoff_l = boil.hold_l * between (rand, 0.3, 0.8);
  boil.stop_brix = 60;
  boil.trip_s = NAN;
  boil.after_s = between (rand, 7, 11) * 3600;
  if (fr_charge (&boil, NAN, FALSE, &charge) != FR_BOIL_OK || !charge.feasible || charge.feed_l < 1)
    return FALSE;
  boil.feed_l = charge.feed_l;
  boil.stop_brix = NAN;
  if (!timer)
    boil.after_s = NAN;
  truth = boil;
  truth.heat_ratio = hidden;
  g_assert_cmpint (fr_boil_run (&truth, FALSE, &night), ==, FR_BOIL_OK);
  morning = (FrMorning){
    .left_l = night.left_20c_l + between (rand, -0.05, 0.05),
    .left_l_sd = 0.05 / sqrt (3),
    .left_c = 20,
    .left_brix = MAX (0.1, night.left_brix + between (rand, -0.5, 0.5)),
    .left_brix_sd = 0.5 / sqrt (3),
    .energy_kwh = night.energy_kwh + between (rand, -nights->meter_kwh, nights->meter_kwh),
    .energy_kwh_sd = nights->meter_kwh / sqrt (3),
    .feed_left_l = MAX (0, boil.feed_l - night.fed_kg / mass_kg (1, boil.feed_brix, boil.feed_c)),
    .feed_left_l_sd = 0.05 / sqrt (3),
  };
  if (morning.feed_left_l > 0)
    morning.feed_left_l = MAX (0, morning.feed_left_l + between (rand, -0.05, 0.05));
  g_assert_true (fr_calibrate_from_night (&boil, NAN, &morning, &learned));
  found_near ("a night's ratio off, in its own sd", (learned.night_ratio - hidden) / learned.night_ratio_sd,
              0, 3.5);

  /* The next night: other sap, other weather. */
  boil.heat_ratio = learned.heat_ratio;
  boil.start_brix = boil.feed_brix = between (rand, 1.2, 3.5);
  boil.air_c = between (rand, -15, 10);
  boil.stop_brix = 60;
  boil.after_s = between (rand, 7, 11) * 3600;
  if (fr_charge (&boil, NAN, FALSE, &charge) != FR_BOIL_OK || !charge.feasible)
    return FALSE;
  truth = boil;
  truth.heat_ratio = hidden;
  truth.feed_l = charge.feed_l;
  truth.stop_brix = truth.after_s = NAN;
  g_assert_cmpint (fr_boil_run (&truth, FALSE, &night), ==, FR_BOIL_OK);
  off_s = fabs (charge.run.time_s - night.time_s);
  off_brix = fabs (charge.run.left_brix - night.left_brix);
  if (off_s > 300 || off_brix > 1)
    printf ("# off by %.0f s, %.2f °Bx: %.0f W, hidden %.3f learned %.4f (night %.4f sd %.4f) timer %d\n",
            off_s, off_brix, boil.power_w, hidden, learned.heat_ratio, learned.night_ratio,
            learned.night_ratio_sd, timer);
  score->worst_s = MAX (score->worst_s, off_s);
  score->worst_brix = MAX (score->worst_brix, off_brix);
  score->sum_s += off_s;
  score->sum_brix += off_brix;
  score->n++;
  return TRUE;
}

/* A meter that shows hundredths of a kWh is good to 0.02; one that shows tenths to 0.05, which is 1 % of the
 * night of a weak cooker, and a night of 11 hours cannot then be told to better than 8 minutes. When the
 * timer ended the night with sap in the bucket it is that remainder, to 0.05 L, which tells: 6 minutes of a
 * pan that boils off half a litre an hour, and more after a night of 11 hours. */
static const Nights nights[] = {
  { "meter-0.02", FALSE, 0.02, { 500, 2000 }, 5 },
  { "meter-0.05", FALSE, 0.05, { 900, 2000 }, 5 },
  { "meter-0.05-weak", FALSE, 0.05, { 500, 900 }, 8 },
  { "timer", TRUE, 0.05, { 500, 2000 }, 12 },
};

static void
test_second_night (gconstpointer data)
{
  const Nights *n = data;
  g_autoptr (GRand) rand = g_rand_new_with_seed (20);
  Score score = { 0 };

  while (score.n < 200)
    two_nights (rand, n, &score);
  printf (
      "# second night %s: time off by %.2f min worst, %.2f mean; °Bx off by %.2g worst, %.2g mean; %u kits\n",
      n->name, score.worst_s / 60, score.sum_s / score.n / 60, score.worst_brix, score.sum_brix / score.n,
      score.n);
  found_near (n->timer              ? "second night after a timer's, worst of 200, min"
              : n->promised_min > 5 ? "second night of a weak cooker on a coarse meter, worst of 200, min"
                                    : "second night, worst of 400, min",
              score.worst_s / 60, 0, n->promised_min);
  found_near ("second night, worst of 800, °Bx", score.worst_brix, 0, 1);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  if (!fr_boil_table_init (&table, 98000))
    g_error ("no table");
  g_test_add_func ("/calibrate/exact", test_exact);
  g_test_add_func ("/calibrate/noise", test_noise);
  g_test_add_func ("/calibrate/outlier", test_outlier);
  g_test_add_func ("/calibrate/scatter-widens", test_scatter_widens);
  g_test_add_func ("/calibrate/wall", test_wall);
  g_test_add_func ("/calibrate/refused", test_refused);
  g_test_add_func ("/calibrate/half-range", test_half_range);
  for (guint i = 0; i < G_N_ELEMENTS (nights); i++)
    {
      g_autofree char *path = g_strdup_printf ("/calibrate/second-night/%s", nights[i].name);

      g_test_add_data_func (path, &nights[i], test_second_night);
    }
  return found_run ();
}
