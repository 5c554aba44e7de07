/* Sap with ice: mixing, pouring out and throwing ice away, against hand calculation and what nature keeps. */
#include "domain/maths/sap-body.h"

#include "found.h"

/* Heat above liquid at 0 °C, written apart from the code: water 4186.8, sugar 1676.8 and 7.5 more a kelvin
 * (Bubnik et al. 1995, from memory), ice 2060 J/(kg K), 333.6 kJ/kg. */
static double
heat_kj (const FrSapBody *body)
{
  double t = body->temp_c;

  return 1e-3
         * (4186.8 * t * (body->mass_kg - body->sugar_kg - body->ice_kg)
            + (1676.8 + 3.75 * t) * t * body->sugar_kg + (2060 * t - 333.6e3) * body->ice_kg);
}

/* Whether ice and liquid stand side by side: the liquid's freezing point is the temperature, or there is but
 * one of them. */
static void
check_balance (const FrSapBody *body)
{
  if (body->ice_kg > 0 && fr_sap_body_liquid_brix (body) < 79.999)
    {
      double freezes_c = fr_sap_freezing_c (fr_sap_body_liquid_brix (body));

      if (fr_sap_body_brix (body) > 0.1)
        found_near ("ice and liquid: the liquid's freezing point, K", body->temp_c, freezes_c, 1e-8);
      else
        found_near ("the same of next to no sugar, K", body->temp_c, freezes_c, 1e-3);
    }
  else if (body->ice_kg == 0)
    g_assert_cmpfloat (body->temp_c, >=, fr_sap_freezing_c (fr_sap_body_brix (body)) - 1e-12);
}

/* 3 kg of water at 20 °C and 1 kg of ice at 0 °C, by hand: 3 × 4.1868 × 20 = 251.208 kJ melt 0.75302 kg. Half
 * a kilogram of ice would melt, and (251.208 − 166.8) / (3.5 × 4.1868) = 5.7601 °C. */
static void
test_mix_water (void)
{
  FrSapBody water = fr_sap_body_at (3, 0, 20), ice = { 1, 0, 0, 1 }, half = { 0.5, 0, 0, 0.5 }, more = water;

  fr_sap_body_mix (&water, &ice);
  found_near ("water on ice: ice left, kg", water.ice_kg, 1 - 251.208 / 333.6, 1e-12);
  found_near ("water on ice: temperature, K", water.temp_c, 0, 1e-12);
  fr_sap_body_mix (&more, &half);
  found_near ("water on less ice: temperature, K", more.temp_c, (251.208 - 166.8) / (3.5 * 4.1868), 1e-9);
  g_assert_cmpfloat (more.ice_kg, ==, 0);
}

/* Warm and cold sap of 2 °Bx: the mean by mass, but for the change of sugar's specific heat. */
static void
test_mix_sap (void)
{
  FrSapBody body = fr_sap_body_at (6, 0.12, 10), added = fr_sap_body_at (2, 0.04, 2);

  fr_sap_body_mix (&body, &added);
  found_near ("6 kg at 10 °C and 2 kg at 2 °C, K", body.temp_c, 8, 1e-3);
  g_assert_cmpfloat (body.mass_kg, ==, 8);
  g_assert_cmpfloat (body.sugar_kg, ==, 0.16);
}

/* The rule of the lever: at the freezing point of 4 °Bx (−0.23 °C, CRC Handbook, from memory) half of a body
 * of 2 °Bx is ice; at that of 20 °Bx (−1.47) nine tenths. */
static void
test_lever (void)
{
  FrSapBody half = fr_sap_body_at (10, 0.2, -0.23), most = fr_sap_body_at (10, 0.2, -1.47);

  found_near ("ice of 10 kg at -0.23 °C, kg", half.ice_kg, 5, 0.1);
  found_near ("its liquid, °Bx", fr_sap_body_liquid_brix (&half), 4, 0.08);
  found_near ("ice of 10 kg at -1.47 °C, kg", most.ice_kg, 9, 0.02);
  found_near ("ice, ratio", fr_sap_body_ice_ratio (&most), 0.9, 0.002);
  found_near ("all of it stirred in, °Bx", fr_sap_body_brix (&most), 2, 1e-12);
}

static double
between (GRand *rand, double lo, double hi)
{
  return g_rand_double_range (rand, lo, hi);
}

static FrSapBody
random_body (GRand *rand)
{
  double mass_kg = pow (10, between (rand, -3, 3)),
         brix = g_rand_boolean (rand) ? between (rand, 0, 4) : between (rand, 0, 70);

  if (g_rand_int_range (rand, 0, 8) == 0)
    brix = g_rand_boolean (rand) ? 0 : 1e-3;
  return fr_sap_body_at (mass_kg, mass_kg * brix / 100,
                         g_rand_boolean (rand) ? between (rand, -2, 1) : between (rand, -60, 30));
}

/* 20,000 bodies poured together: mass, sugar and heat are what they were, and the order does not matter. */
static void
test_mix_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (11);

  for (guint i = 0; i < 20000; i++)
    {
      FrSapBody a = random_body (rand), b = random_body (rand), ab = a, ba = b;
      double mass_kg = a.mass_kg + b.mass_kg, kj = heat_kj (&a) + heat_kj (&b);

      check_balance (&a);
      fr_sap_body_mix (&ab, &b);
      fr_sap_body_mix (&ba, &a);
      check_balance (&ab);
      found_near ("mixing: mass, relative", ab.mass_kg / mass_kg, 1, 1e-15);
      found_near ("mixing: sugar of the mass", (ab.sugar_kg - a.sugar_kg - b.sugar_kg) / mass_kg, 0, 1e-15);
      found_near ("mixing: heat, of the heat of all its ice", (heat_kj (&ab) - kj) / (333.6 * mass_kg), 0,
                  1e-9);
      found_near ("heat as the code tells it, the same",
                  (1e-3 * fr_sap_body_heat_j (&ab) - kj) / (333.6 * mass_kg), 0, 1e-9);
      found_near ("mixing the other way: temperature, K", ba.temp_c, ab.temp_c, 1e-8);
      found_near ("mixing the other way: ice, of the mass", (ba.ice_kg - ab.ice_kg) / mass_kg, 0, 1e-11);
    }
}

/* Ice that belongs to a temperature, and the temperature that belongs to that heat, are one another's
 * inverse. */
static void
test_there_and_back (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (12);

  for (guint i = 0; i < 20000; i++)
    {
      FrSapBody body = random_body (rand), twice = body;

      fr_sap_body_mix (&twice, &body);
      found_near ("a body and its like: temperature, K", twice.temp_c, body.temp_c, 1e-8);
      /* Without sugar all ice or none is what fr_sap_body_at gives. */
      if (body.sugar_kg > 0)
        found_near ("a body and its like: ice, of the mass", (twice.ice_kg / 2 - body.ice_kg) / body.mass_kg,
                    0, 1e-11);
    }
}

/* Half-frozen sap ladled off: the liquid leaves at its own sweetness, the ice stays. */
static void
test_take (void)
{
  FrSapBody body = fr_sap_body_at (10, 0.2, -0.23), before = body, all = body;
  double brix = fr_sap_body_liquid_brix (&body);

  g_assert_true (fr_sap_body_take (&body, 2));
  found_near ("liquid taken: mass left, kg", body.mass_kg, 8, 1e-12);
  found_near ("liquid taken: sugar left, kg", body.sugar_kg, 0.2 - 2 * brix / 100, 1e-12);
  found_near ("liquid taken: sweetness of the rest, °Bx", fr_sap_body_liquid_brix (&body), brix, 1e-12);
  g_assert_cmpfloat (body.ice_kg, ==, before.ice_kg);
  g_assert_cmpfloat (body.temp_c, ==, before.temp_c);
  before = body;
  g_assert_false (fr_sap_body_take (&body, fr_sap_body_liquid_kg (&body) + 0.001));
  g_assert_false (fr_sap_body_take (&body, -1));
  g_assert_false (fr_sap_body_take (&body, NAN));
  g_assert_cmpmem (&body, sizeof body, &before, sizeof before);

  g_assert_true (fr_sap_body_take (&all, fr_sap_body_liquid_kg (&all) * (1 + 1e-11)));
  g_assert_cmpfloat (all.sugar_kg, ==, 0);
  g_assert_cmpfloat (all.mass_kg, ==, all.ice_kg);
  g_assert_true (isnan (fr_sap_body_liquid_brix (&all)));
  /* Sap poured on the ice that was left melts some: 2 kg at 3 °C bring 25.1 kJ, 75 g. */
  before = fr_sap_body_at (2, 0.04, 3);
  fr_sap_body_mix (&all, &before);
  check_balance (&all);
  g_assert_cmpfloat (all.ice_kg, >, 4.5);
}

/* Mass and sugar by hand (the worked example of 20 L of 2 % less 8 L of ice at 0.5 %: 12.14 kg of 2.99 % are
 * left, sugar loss 9.9 %; computed apart, density 1006 and ice that melts to 1000 kg/m³). */
static void
test_take_ice (void)
{
  double mass_kg = 20 * 1.0060;
  FrSapBody body = fr_sap_body_at (mass_kg, 0.02 * mass_kg, -0.2), before = body;

  g_assert_true (fr_sap_body_take_ice (&body, 8, 0.5));
  found_near ("ice thrown out: kg left", body.mass_kg, 12.12, 0.03);
  found_near ("ice thrown out: °Bx of all that is left", fr_sap_body_brix (&body), 2.99, 0.01);
  found_near ("ice thrown out: sugar lost, ratio", 1 - body.sugar_kg / before.sugar_kg, 0.099, 0.001);
  found_near ("ice thrown out: the liquid as it was, °Bx", fr_sap_body_liquid_brix (&body),
              fr_sap_body_liquid_brix (&before), 1e-9);
  check_balance (&body);
  g_assert_cmpfloat (body.temp_c, ==, before.temp_c);

  /* More ice than the reckoning knew of. */
  body = fr_sap_body_at (10, 0.2, 4);
  g_assert_true (fr_sap_body_take_ice (&body, 3, 0.2));
  found_near ("ice nobody knew of: kg left", body.mass_kg, 7, 1e-12);
  found_near ("ice nobody knew of: sugar left, kg", body.sugar_kg, 0.194, 1e-12);
  g_assert_cmpfloat (body.ice_kg, ==, 0);
  check_balance (&body);
  found_near ("what is left stands at its freezing point, K", body.temp_c,
              fr_sap_freezing_c (100 * 0.194 / 7), 1e-12);

  /* More than there is, in mass, sugar or water. */
  before = body = fr_sap_body_at (10, 0.2, -0.2);
  g_assert_false (fr_sap_body_take_ice (&body, 10.1, 0));
  g_assert_false (fr_sap_body_take_ice (&body, 5, 5));
  g_assert_false (fr_sap_body_take_ice (&body, 9.9, 0));
  g_assert_false (fr_sap_body_take_ice (&body, NAN, 0));
  g_assert_false (fr_sap_body_take_ice (&body, 1, NAN));
  g_assert_cmpmem (&body, sizeof body, &before, sizeof before);
  g_assert_true (fr_sap_body_take_ice (&body, 10, 2));
  g_assert_cmpfloat (body.mass_kg, ==, 0);
  g_assert_true (isnan (fr_sap_body_brix (&body)));
}

/* 2,000 containers of twenty random doings each: mass and sugar as a plain sum has them. */
static void
test_ledger_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (13);

  for (guint k = 0; k < 2000; k++)
    {
      FrSapBody body = { 0, 0, 4, 0 };
      double mass_kg = 0, sugar_kg = 0, in_kg = 0;

      for (guint i = 0; i < 20; i++)
        {
          double amount_kg = between (rand, 0, 6), brix;

          switch (g_rand_int_range (rand, 0, 3))
            {
            case 0:
              {
                FrSapBody added
                    = fr_sap_body_at (amount_kg, amount_kg * between (rand, 0, 0.04), between (rand, -3, 8));

                fr_sap_body_mix (&body, &added);
                mass_kg += added.mass_kg;
                sugar_kg += added.sugar_kg;
                in_kg += added.mass_kg;
              }
              break;
            case 1:
              brix = fr_sap_body_liquid_brix (&body);
              if (fr_sap_body_take (&body, amount_kg))
                {
                  mass_kg -= amount_kg;
                  sugar_kg -= amount_kg * brix / 100;
                }
              break;
            default:
              brix = between (rand, 0, 1);
              if (fr_sap_body_take_ice (&body, amount_kg, brix))
                {
                  mass_kg -= amount_kg;
                  sugar_kg -= amount_kg * brix / 100;
                }
            }
          found_near ("twenty doings: mass, of what went in", (body.mass_kg - mass_kg) / MAX (in_kg, 1), 0,
                      1e-9);
          found_near ("twenty doings: sugar, of what went in", (body.sugar_kg - sugar_kg) / MAX (in_kg, 1), 0,
                      1e-9);
          if (body.mass_kg > 0)
            check_balance (&body);
        }
    }
}

static void
test_unknown (void)
{
  FrSapBody unknown = fr_sap_body_at (10, 0.2, NAN), known = fr_sap_body_at (5, 0.1, 3),
            empty = fr_sap_body_at (0, 0, 3);

  g_assert_true (isnan (unknown.ice_kg) && isnan (fr_sap_body_heat_j (&unknown))
                 && isnan (fr_sap_body_ice_ratio (&unknown)));
  g_assert_cmpfloat (fr_sap_body_liquid_kg (&unknown), ==, 10);
  fr_sap_body_mix (&known, &unknown);
  g_assert_true (isnan (known.temp_c) && isnan (known.ice_kg));
  g_assert_cmpfloat (known.mass_kg, ==, 15);
  found_near ("unknown temperature: sweetness all the same, °Bx", fr_sap_body_liquid_brix (&known), 2, 1e-12);
  g_assert_true (fr_sap_body_take (&known, 5));
  g_assert_true (fr_sap_body_take_ice (&known, 2, 1));
  g_assert_true (isnan (known.temp_c) && isnan (known.ice_kg));
  found_near ("unknown temperature: sugar all the same, kg", known.sugar_kg, 0.18, 1e-12);

  /* An empty container has nothing to say about what is poured in. */
  unknown = fr_sap_body_at (0, 0, NAN);
  known = fr_sap_body_at (5, 0.1, 3);
  fr_sap_body_mix (&known, &unknown);
  g_assert_cmpfloat (known.temp_c, ==, 3);
  fr_sap_body_mix (&unknown, &known);
  g_assert_cmpfloat (unknown.temp_c, ==, 3);
  fr_sap_body_mix (&empty, &known);
  g_assert_cmpmem (&empty, sizeof empty, &known, sizeof known);

  g_assert_true (isnan (fr_sap_body_at (-1, 0, 3).mass_kg));
  g_assert_true (isnan (fr_sap_body_at (1, 0.81, 3).mass_kg));
  g_assert_true (isnan (fr_sap_body_at (1, -0.1, 3).mass_kg));
  g_assert_true (isnan (fr_sap_body_at (NAN, 0, 3).mass_kg));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sap-body/mix/water", test_mix_water);
  g_test_add_func ("/sap-body/mix/sap", test_mix_sap);
  g_test_add_func ("/sap-body/mix/random", test_mix_random);
  g_test_add_func ("/sap-body/lever", test_lever);
  g_test_add_func ("/sap-body/there-and-back", test_there_and_back);
  g_test_add_func ("/sap-body/take/liquid", test_take);
  g_test_add_func ("/sap-body/take/ice", test_take_ice);
  g_test_add_func ("/sap-body/take/random", test_ledger_random);
  g_test_add_func ("/sap-body/unknown", test_unknown);
  return found_run ();
}
