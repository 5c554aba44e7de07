/* Sap in a container, lumped: one temperature, heat = that of its water, its sugar and its ice (sucrose.h),
 * the ice in equilibrium with what is left liquid. Heat is what is mixed and followed; temperature and ice
 * are found from it.
 *
 * Liquid of FR_BRIX_MAX freezes no further: near it sugar water stiffens to a glass (80 % and −34 to −46 °C,
 * Roos and Karel 1991, from memory). Heat and mass are kept to rounding; the freezing point is sucrose.c's.
 */
#include "domain/maths/sap-body-private.h"

#include "domain/maths/solve.h"
#include "domain/maths/sucrose.h"

#include <float.h>
#include <math.h>

#define LET_PASS 1e-9

static gboolean
is_known (const FrSapBody *body)
{
  return !isnan (body->temp_c) && !isnan (body->ice_kg);
}

static double
ice_kg (const FrSapBody *body)
{
  return isnan (body->ice_kg) ? 0 : body->ice_kg;
}

static double
brix_beside (const FrSapBody *body, double ice_kg)
{
  return 100 * body->sugar_kg / (body->mass_kg - ice_kg);
}

/* Ice there can be at most. */
static double
most_ice_kg (const FrSapBody *body)
{
  return MAX (body->mass_kg - body->sugar_kg * 100 / FR_BRIX_MAX, 0);
}

double
fr_sap_body_heat_j (const FrSapBody *body)
{
  if (body->mass_kg == 0)
    return 0;
  return body->sugar_kg * fr_sugar_enthalpy_j_per_kg (body->temp_c)
         + (body->mass_kg - body->sugar_kg - body->ice_kg) * fr_water_enthalpy_j_per_kg (body->temp_c)
         + body->ice_kg * (FR_ICE_J_PER_KG_K * body->temp_c - FR_ICE_FUSION_J_PER_KG);
}

/* The temperature of so much heat, the ice left as it is. Nearly linear: from where it stood two or three rounds
 * of Newton's are plenty. */
static void
warm_to (FrSapBody *body, double heat_j)
{
  if (isnan (body->temp_c))
    body->temp_c = 0;
  for (int i = 0; i < 8; i++)
    {
      double slope = body->sugar_kg * fr_sugar_heat_slope (body->temp_c)
                     + (body->mass_kg - body->sugar_kg - body->ice_kg) * fr_water_heat_slope (body->temp_c)
                     + body->ice_kg * FR_ICE_J_PER_KG_K,
             step = (heat_j - fr_sap_body_heat_j (body)) / slope;

      body->temp_c += step;
      if (fabs (step) < 1e-13)
        break;
    }
}

typedef struct
{
  FrSapBody body;
  double wanted;
} Search;

static double
heat_gap (double ice, gpointer data)
{
  Search *search = data;

  search->body.ice_kg = ice;
  search->body.temp_c = fr_sucrose_freezing_c (MIN (brix_beside (&search->body, ice), FR_BRIX_MAX));
  return fr_sap_body_heat_j (&search->body) - search->wanted;
}

static double
temp_gap (double ice, gpointer data)
{
  Search *search = data;

  return fr_sucrose_freezing_c (MIN (brix_beside (&search->body, ice), FR_BRIX_MAX)) - search->wanted;
}

/* The ice for @search, begun where the body stood: heat falls with ice nearly in a straight line, so that a
 * few secants do, which is what following a body for a season asks for. FALSE when it leads nowhere. */
static gboolean
ice_near (Search *search, double begin_kg, double most_kg, double *ice_out)
{
  double last = CLAMP (begin_kg, 0, most_kg), last_gap = heat_gap (last, search),
         next = CLAMP (last + last_gap / FR_ICE_FUSION_J_PER_KG, 0, most_kg);

  for (int i = 0; i < 8 && next != last; i++)
    {
      double gap = heat_gap (next, search), step = gap * (next - last) / (last_gap - gap);

      last = next;
      last_gap = gap;
      if (!(next + step > 0 && next + step < most_kg))
        return FALSE;
      next += step;
      if (fabs (step) < 1e-14 * search->body.mass_kg)
        {
          *ice_out = next;
          return TRUE;
        }
    }
  return FALSE;
}

/* How exactly ice is searched for; of next to nothing still more than nothing. */
static double
tolerance_kg (double mass_kg)
{
  return MAX (1e-16 * mass_kg, DBL_MIN);
}

void
fr_sap_body_settle_at (FrSapBody *body, double heat_j, double onset_j)
{
  double most = most_ice_kg (body), begin = ice_kg (body);
  Search search = { *body, heat_j };

  if (isnan (heat_j))
    body->temp_c = body->ice_kg = NAN;
  else if (!(heat_j < onset_j))
    {
      body->ice_kg = 0;
      warm_to (body, heat_j);
    }
  else if (body->sugar_kg > 0 && begin > 0 && ice_near (&search, begin, most, &body->ice_kg))
    warm_to (body, heat_j);
  else if (body->sugar_kg > 0 ? heat_gap (most, &search) >= 0
                              : heat_j <= -FR_ICE_FUSION_J_PER_KG * body->mass_kg)
    {
      body->ice_kg = most;
      warm_to (body, heat_j);
    }
  else if (body->sugar_kg > 0
           && fr_solve_root (heat_gap, &search, 0, most, tolerance_kg (body->mass_kg), &body->ice_kg))
    /* Not the freezing point of what is left: of next to no sugar that is known worse than the heat. */
    warm_to (body, heat_j);
  else
    {
      body->ice_kg = -heat_j / FR_ICE_FUSION_J_PER_KG;
      body->temp_c = 0;
    }
}

/* The freezing point of all of it without ice. */
static double
freezes_c (const FrSapBody *body)
{
  return fr_sucrose_freezing_c (fr_sap_body_brix (body));
}

double
fr_sap_body_onset_j (const FrSapBody *body)
{
  FrSapBody onset = { body->mass_kg, body->sugar_kg, freezes_c (body), 0 };

  return fr_sap_body_heat_j (&onset);
}

/* Liquid at 0 °C has no heat, and nothing freezes above that: most bodies need no freezing point. */
void
fr_sap_body_settle (FrSapBody *body, double heat_j)
{
  fr_sap_body_settle_at (body, heat_j, heat_j >= 0 ? 0 : fr_sap_body_onset_j (body));
}

FrSapBody
fr_sap_body_at (double mass_kg, double sugar_kg, double temp_c)
{
  FrSapBody body = { mass_kg, sugar_kg, temp_c, 0 };
  double most = most_ice_kg (&body);
  Search search = { body, temp_c };

  if (!(mass_kg >= 0 && sugar_kg >= 0 && sugar_kg <= FR_BRIX_MAX / 100 * mass_kg) || !isfinite (mass_kg))
    return (FrSapBody){ NAN, NAN, NAN, NAN };
  if (isnan (temp_c))
    body.ice_kg = NAN;
  else if (mass_kg > 0 && temp_c < 0 && temp_c < freezes_c (&body)
           && (sugar_kg == 0
               || !fr_solve_root (temp_gap, &search, 0, most, tolerance_kg (mass_kg), &body.ice_kg)))
    body.ice_kg = most;
  return body;
}

void
fr_sap_body_mix (FrSapBody *body, const FrSapBody *added)
{
  double heat_j = fr_sap_body_heat_j (body) + fr_sap_body_heat_j (added);

  if (added->mass_kg == 0)
    return;
  if (body->mass_kg == 0)
    {
      *body = *added;
      return;
    }
  body->mass_kg += added->mass_kg;
  body->sugar_kg += added->sugar_kg;
  fr_sap_body_settle (body, heat_j);
}

/* What is left once so much is gone; dust that rounding leaves behind is nothing. */
static void
leave (FrSapBody *body, double mass_kg, double sugar_kg)
{
  gboolean empty = mass_kg <= LET_PASS * body->mass_kg;

  body->mass_kg = empty ? 0 : mass_kg;
  body->sugar_kg = empty || sugar_kg <= 0 ? 0 : sugar_kg;
  if (empty && body->ice_kg > 0)
    body->ice_kg = 0;
}

gboolean
fr_sap_body_take (FrSapBody *body, double liquid_kg)
{
  double have = fr_sap_body_liquid_kg (body), share = have > 0 ? MIN (liquid_kg / have, 1) : 0;

  if (!(liquid_kg >= 0 && liquid_kg <= have + LET_PASS * body->mass_kg))
    return FALSE;
  leave (body, ice_kg (body) + (1 - share) * have, (1 - share) * body->sugar_kg);
  return TRUE;
}

gboolean
fr_sap_body_take_ice (FrSapBody *body, double thrown_kg, double ice_brix)
{
  double sugar = thrown_kg * ice_brix / 100, pure = thrown_kg, mass_left = body->mass_kg - thrown_kg,
         sugar_left = body->sugar_kg - sugar, dust = LET_PASS * body->mass_kg;

  if (!(thrown_kg >= 0 && ice_brix >= 0 && mass_left >= -dust && sugar_left >= -dust
        && sugar_left <= FR_BRIX_MAX / 100 * mass_left + dust))
    return FALSE;
  if (sugar > 0)
    pure -= 100 * sugar / fr_sap_body_liquid_brix (body);
  leave (body, mass_left, MIN (sugar_left, FR_BRIX_MAX / 100 * mass_left));
  if (thrown_kg == 0 || !is_known (body) || body->mass_kg == 0)
    return TRUE;
  if (pure >= 0 && pure <= body->ice_kg)
    body->ice_kg -= pure;
  else
    {
      body->ice_kg = 0;
      body->temp_c = freezes_c (body);
    }
  return TRUE;
}

double
fr_sap_body_liquid_kg (const FrSapBody *body)
{
  return MAX (body->mass_kg - ice_kg (body), 0);
}

double
fr_sap_body_liquid_brix (const FrSapBody *body)
{
  return fr_sap_body_liquid_kg (body) > 0 ? brix_beside (body, ice_kg (body)) : NAN;
}

double
fr_sap_body_brix (const FrSapBody *body)
{
  return body->mass_kg > 0 ? brix_beside (body, 0) : NAN;
}

double
fr_sap_body_ice_ratio (const FrSapBody *body)
{
  return body->mass_kg > 0 ? body->ice_kg / body->mass_kg : NAN;
}

double
fr_sap_freezing_c (double brix)
{
  return fr_sucrose_freezing_c (brix);
}
