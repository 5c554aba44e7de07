/* Vessel shapes against handbook values, against themselves backwards, and against their own slopes. */
#include "domain/maths/vessel.h"

#include "found.h"

static const FrVessel kettle = { .shape = FR_SHAPE_CONE, .a_m = 0.080, .b_m = 0.065, .height_m = 0.180 };
static const FrVessel wok = { .shape = FR_SHAPE_CAP, .a_m = 0.170, .height_m = 0.090 };
static const FrVessel pan
    = { .shape = FR_SHAPE_BOX, .a_m = 0.35, .b_m = 0.25, .c_m = 0.04, .height_m = 0.06 };

/* Source: solid geometry, worked out by hand for three common pots: kettle 2.983 L; wok 0.250, 0.966, 2.099 L
 * at 20, 40, 60 mm with surfaces of 88, 122, 145 mm radius, 4.467 L full; flat pan 5.168 L. */
static void
test_values (void)
{
  static const double depth_m[] = { 0.02, 0.04, 0.06 }, litres[] = { 0.250, 0.966, 2.099 };
  static const double radius_m[] = { 0.088, 0.122, 0.145 };

  found_near ("volumes worked out by hand, L", fr_vessel_capacity_l (&kettle), 2.983, 0.0006);
  found_near ("volumes worked out by hand, L", fr_vessel_capacity_l (&wok), 4.467, 0.0006);
  found_near ("volumes worked out by hand, L", fr_vessel_capacity_l (&pan), 5.168, 0.0006);
  for (guint i = 0; i < G_N_ELEMENTS (depth_m); i++)
    {
      found_near ("volumes worked out by hand, L", fr_vessel_volume_l (&wok, depth_m[i]), litres[i], 0.0006);
      found_near ("radius of the surface, m", sqrt (fr_vessel_surface_m2 (&wok, depth_m[i]) / G_PI),
                  radius_m[i], 0.0006);
    }
}

/* Source: common knowledge of geometry. A hemisphere; a cone without slope; a flat-bottomed bowl as the
 * difference of two caps; a kettle's wall: 0.0905 m² for 160 mm × 180 mm. */
static void
test_against_each_other (void)
{
  FrVessel half = { .shape = FR_SHAPE_CAP, .a_m = 0.2, .height_m = 0.2 };
  FrVessel straight = { .shape = FR_SHAPE_CONE, .a_m = 0.1, .b_m = 0.1, .height_m = 0.2 };
  FrVessel pot = { .shape = FR_SHAPE_CYLINDER, .a_m = 0.1, .height_m = 0.2 };
  FrVessel bowl = { .shape = FR_SHAPE_CAP, .a_m = 0.17, .b_m = 0.08, .height_m = 0.07 };
  FrVessel round = { .shape = FR_SHAPE_BOX, .a_m = 0.2, .b_m = 0.2, .c_m = 0.1, .height_m = 0.2 };
  FrVessel urn = { .shape = FR_SHAPE_CYLINDER, .a_m = 0.08, .height_m = 0.18 };
  double centre = (0.17 * 0.17 - 0.08 * 0.08 + 0.07 * 0.07) / 0.14, sum = 0;

  g_assert_cmpfloat_with_epsilon (fr_vessel_capacity_l (&half), 2e3 * G_PI / 3 * 0.008, 1e-9);
  g_assert_cmpfloat_with_epsilon (fr_vessel_wetted_m2 (&half, 0.2), 2 * G_PI * 0.04, 1e-12);
  for (double depth_m = 0; depth_m <= 0.2; depth_m += 0.05)
    {
      g_assert_cmpfloat_with_epsilon (fr_vessel_volume_l (&straight, depth_m),
                                      fr_vessel_volume_l (&pot, depth_m), 1e-9);
      g_assert_cmpfloat_with_epsilon (fr_vessel_wetted_m2 (&straight, depth_m),
                                      fr_vessel_wetted_m2 (&pot, depth_m), 1e-12);
      g_assert_cmpfloat_with_epsilon (fr_vessel_volume_l (&round, depth_m),
                                      fr_vessel_volume_l (&pot, depth_m), 1e-9);
      g_assert_cmpfloat_with_epsilon (fr_vessel_wetted_m2 (&round, depth_m),
                                      fr_vessel_wetted_m2 (&pot, depth_m), 1e-12);
    }
  /* The flat-bottomed bowl by slices: radius² = r² − (z − centre)², Simpson's rule, exact for a parabola. */
  for (guint i = 0; i <= 2; i++)
    sum += (i == 1 ? 4 : 1) * G_PI
           * (0.08 * 0.08 + centre * centre - (0.035 * i - centre) * (0.035 * i - centre));
  g_assert_cmpfloat_with_epsilon (fr_vessel_capacity_l (&bowl), 1e3 * sum * 0.035 / 3, 1e-9);
  g_assert_cmpfloat_with_epsilon (sqrt (fr_vessel_surface_m2 (&bowl, 0) / G_PI), 0.08, 1e-12);
  g_assert_cmpfloat_with_epsilon (sqrt (fr_vessel_surface_m2 (&bowl, 0.07) / G_PI), 0.17, 1e-12);
  /* Heat loss: 81 W bare and 45 W under foil at 90 K, energy handbooks' film coefficients (± 30 %). */
  found_near ("loss of a bare kettle at 90 K, W", 90 * fr_vessel_wall_w_per_k (&urn, FR_COVER_BARE), 81, 0.6);
  found_near ("loss of a foiled kettle at 90 K, W", 90 * fr_vessel_wall_w_per_k (&urn, FR_COVER_FOIL), 45,
              0.6);
}

static FrVessel
random_vessel (GRand *rand)
{
  FrVessel v = { .shape = (FrShape)g_rand_int_range (rand, 0, FR_N_SHAPES) };

  switch (v.shape)
    {
    case FR_SHAPE_CONE:
      v.b_m = g_rand_double_range (rand, 0.02, 1);
      /* fall through */
    case FR_SHAPE_CYLINDER:
      v.a_m = g_rand_double_range (rand, 0.02, 1);
      v.height_m = g_rand_double_range (rand, 0.02, 1);
      break;
    case FR_SHAPE_CAP:
      v.a_m = g_rand_double_range (rand, 0.05, 1);
      v.b_m = g_rand_boolean (rand) ? 0 : v.a_m * g_rand_double_range (rand, 0.1, 0.95);
      v.height_m = g_rand_double_range (rand, 0.02, 1);
      break;
    case FR_SHAPE_BOX:
      v.a_m = g_rand_double_range (rand, 0.05, 2);
      v.b_m = g_rand_double_range (rand, 0.05, 2);
      v.c_m = MIN (v.a_m, v.b_m) / 2 * g_rand_double_range (rand, 0, 1);
      v.height_m = g_rand_double_range (rand, 0.02, 1);
      break;
    default:
      v.n_rows = (guint)g_rand_int_range (rand, 2, FR_VESSEL_ROWS_MAX + 1);
      for (guint i = 0; i < v.n_rows; i++)
        {
          v.row_depth_m[i] = (i > 0 ? v.row_depth_m[i - 1] : 0) + g_rand_double_range (rand, 0.001, 0.05);
          v.row_l[i] = (i > 0 ? v.row_l[i - 1] : 0) + g_rand_double_range (rand, 0.01, 1);
        }
      if (g_rand_boolean (rand))
        v.row_depth_m[0] = v.row_l[0] = 0;
    }
  return v;
}

/* Volume to depth and back, over 10,000 random vessels, and the surface as the slope of the volume. */
static void
test_round_trip (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20260301);

  for (guint i = 0; i < 10000; i++)
    {
      FrVessel v = random_vessel (rand);
      double height_m = fr_vessel_height_m (&v), depth_m = height_m * g_rand_double (rand);
      double volume_l = fr_vessel_volume_l (&v, depth_m), step_m = 1e-6 * height_m, near_m;
      gboolean at_row = FALSE;

      g_assert_cmpint (fr_vessel_check (&v), ==, FR_VESSEL_OK);
      found_near ("volume to depth and back, m", fr_vessel_depth_m (&v, volume_l), depth_m, 1e-9);
      g_assert_cmpfloat (volume_l, <=, fr_vessel_capacity_l (&v));
      near_m = CLAMP (depth_m, step_m, height_m - step_m);
      for (guint r = 0; v.shape == FR_SHAPE_TABLE && r < v.n_rows; r++)
        at_row |= fabs (v.row_depth_m[r] - near_m) < 2 * step_m;
      if (!at_row)
        found_near (
            "surface against the volume's slope, relative",
            1e-3 * (fr_vessel_volume_l (&v, near_m + step_m) - fr_vessel_volume_l (&v, near_m - step_m))
                / (2 * step_m) / fr_vessel_surface_m2 (&v, near_m),
            1, 1e-6);
      g_assert_cmpfloat (fr_vessel_wetted_m2 (&v, near_m), >, 0);
      g_assert_cmpfloat (fr_vessel_wetted_m2 (&v, height_m), >=, fr_vessel_wetted_m2 (&v, near_m));
      g_assert_cmpfloat (fr_vessel_wall_w_per_k (&v, FR_COVER_BARE), >,
                         fr_vessel_wall_w_per_k (&v, FR_COVER_WRAPPED));
      g_assert_cmpfloat (fr_vessel_depth_m (&v, 0), ==, 0);
      g_assert_cmpfloat (fr_vessel_depth_m (&v, fr_vessel_capacity_l (&v)), ==, height_m);
    }
}

typedef struct
{
  const char *name;
  FrVessel vessel;
  FrVesselProblem problem;
} Refusal;

static const Refusal refusals[] = {
  { "no-radius", { .shape = FR_SHAPE_CYLINDER, .height_m = 0.1 }, FR_VESSEL_BAD_SIZE },
  { "unknown-height", { .shape = FR_SHAPE_CYLINDER, .a_m = 0.1, .height_m = NAN }, FR_VESSEL_BAD_SIZE },
  { "negative-radius", { .shape = FR_SHAPE_CYLINDER, .a_m = -0.1, .height_m = 0.1 }, FR_VESSEL_BAD_SIZE },
  { "centimetres-for-metres",
    { .shape = FR_SHAPE_CYLINDER, .a_m = 10, .height_m = 0.1 },
    FR_VESSEL_BAD_SIZE },
  { "pointed-cone", { .shape = FR_SHAPE_CONE, .a_m = 0.1, .b_m = 0, .height_m = 0.1 }, FR_VESSEL_BAD_SIZE },
  { "flat-as-wide-as-rim",
    { .shape = FR_SHAPE_CAP, .a_m = 0.1, .b_m = 0.1, .height_m = 0.1 },
    FR_VESSEL_BAD_FLAT },
  { "unknown-flat", { .shape = FR_SHAPE_CAP, .a_m = 0.1, .b_m = NAN, .height_m = 0.1 }, FR_VESSEL_BAD_FLAT },
  { "corners-meet",
    { .shape = FR_SHAPE_BOX, .a_m = 0.3, .b_m = 0.2, .c_m = 0.11, .height_m = 0.1 },
    FR_VESSEL_BAD_CORNER },
  { "negative-corner",
    { .shape = FR_SHAPE_BOX, .a_m = 0.3, .b_m = 0.2, .c_m = -0.01, .height_m = 0.1 },
    FR_VESSEL_BAD_CORNER },
  { "one-row",
    { .shape = FR_SHAPE_TABLE, .n_rows = 1, .row_depth_m = { 0.1 }, .row_l = { 1 } },
    FR_VESSEL_FEW_ROWS },
  { "too-many-rows", { .shape = FR_SHAPE_TABLE, .n_rows = FR_VESSEL_ROWS_MAX + 1 }, FR_VESSEL_FEW_ROWS },
  { "falling-litres",
    { .shape = FR_SHAPE_TABLE, .n_rows = 3, .row_depth_m = { 0.1, 0.2, 0.3 }, .row_l = { 1, 3, 2 } },
    FR_VESSEL_NOT_RISING },
  { "same-depth-twice",
    { .shape = FR_SHAPE_TABLE, .n_rows = 3, .row_depth_m = { 0.1, 0.1, 0.3 }, .row_l = { 1, 2, 3 } },
    FR_VESSEL_NOT_RISING },
  { "litres-at-nothing",
    { .shape = FR_SHAPE_TABLE, .n_rows = 2, .row_depth_m = { 0, 0.1 }, .row_l = { 1, 2 } },
    FR_VESSEL_NOT_RISING },
  { "unknown-row",
    { .shape = FR_SHAPE_TABLE, .n_rows = 2, .row_depth_m = { 0.1, NAN }, .row_l = { 1, 2 } },
    FR_VESSEL_BAD_SIZE },
};

static void
test_refused (gconstpointer data)
{
  const Refusal *refusal = data;

  g_assert_cmpint (fr_vessel_check (&refusal->vessel), ==, refusal->problem);
}

static void
test_outside_is_unknown (void)
{
  g_assert_true (isnan (fr_vessel_volume_l (&kettle, 0.181)));
  g_assert_true (isnan (fr_vessel_volume_l (&kettle, NAN)));
  g_assert_cmpfloat (fr_vessel_volume_l (&kettle, -0.01), ==, 0);
  g_assert_true (isnan (fr_vessel_depth_m (&kettle, -0.01)));
  g_assert_true (isnan (fr_vessel_depth_m (&kettle, 3)));
  g_assert_true (isnan (fr_vessel_depth_m (&kettle, NAN)));
  g_assert_true (isnan (fr_vessel_surface_m2 (&kettle, -0.01)));
  g_assert_true (isnan (fr_vessel_surface_m2 (&kettle, 0.181)));
  g_assert_true (isnan (fr_vessel_wetted_m2 (&kettle, 0.181)));
}

static void
test_codes (void)
{
  FrShape shape;
  FrCover cover;

  for (guint i = 0; i < FR_N_SHAPES; i++)
    {
      g_assert_true (fr_shape_from_code (fr_shape_code ((FrShape)i), &shape));
      g_assert_cmpint (shape, ==, i);
    }
  g_assert_false (fr_shape_from_code ("ball", &shape));
  g_assert_false (fr_shape_from_code (NULL, &shape));
  g_assert_true (fr_cover_from_code ("foil", &cover));
  g_assert_cmpint (cover, ==, FR_COVER_FOIL);
  g_assert_false (fr_cover_from_code ("", &cover));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/vessel/values", test_values);
  g_test_add_func ("/vessel/against-each-other", test_against_each_other);
  g_test_add_func ("/vessel/round-trip", test_round_trip);
  for (guint i = 0; i < G_N_ELEMENTS (refusals); i++)
    {
      g_autofree char *path = g_strdup_printf ("/vessel/refused/%s", refusals[i].name);

      g_test_add_data_func (path, &refusals[i], test_refused);
    }
  g_test_add_func ("/vessel/outside-is-unknown", test_outside_is_unknown);
  g_test_add_func ("/vessel/codes", test_codes);
  return found_run ();
}
