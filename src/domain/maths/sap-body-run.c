/* A body of sap through the air: dH/dt = (air − T) / R, integrated in its heat H, in which nothing jumps when
 * ice comes or goes; only the slope of T does, so that those instants are searched for and stepped to.
 *
 * R = 1 / loss, and while ice grows the ice's own besides, as a layer of even thickness over the area it
 * grows on (quasi-steady, as Stefan's and Plank's formulas); when heat goes in, liquid stands between ice and
 * wall and there is none. Source of the areas and of 10 and 1.3 W/(m² K): energy handbooks, still air, common
 * figures, ± 30 %. A chest is 40 mm of foam, 0.033 W/(m K), between two films: common sense, no source. Sun,
 * wind, rain and snow against the wall are not in it. */
#include "domain/maths/sap-body-private.h"

#include "domain/maths/dormand-prince.h"
#include "domain/maths/solve.h"
#include "domain/maths/sucrose.h"

#include <math.h>
#include <string.h>

#define ICE_W_PER_M_K 2.2   /* near 0 °C, from memory */
#define ICE_KG_PER_M3 917.0 /* the same */
#define STEP_ERROR_K 1e-7   /* of all of it, were it water */
#define AT_ONCE_S 20.0      /* a body quicker than that has the air's temperature */
#define FIRST_STEP_S 900.0
#define STEP_LEAST_S 1e-3

static const char *const insulation_codes[FR_N_INSULATIONS] = { "bare", "wrapped", "chest" };
static const double insulation_w_per_m2_k[FR_N_INSULATIONS] = { 10.0, 1.3, 0.7 };

const char *
fr_insulation_code (FrInsulation insulation)
{
  g_return_val_if_fail ((guint)insulation < FR_N_INSULATIONS, NULL);
  return insulation_codes[insulation];
}

gboolean
fr_insulation_from_code (const char *code, FrInsulation *insulation_out)
{
  for (guint i = 0; i < FR_N_INSULATIONS; i++)
    if (g_strcmp0 (insulation_codes[i], code) == 0)
      {
        *insulation_out = i;
        return TRUE;
      }
  return FALSE;
}

FrSapHold
fr_sap_hold (double volume_l, FrInsulation insulation)
{
  double width_m = cbrt (4e-3 * volume_l / G_PI), area_m2 = 1.5 * G_PI * width_m * width_m;

  g_return_val_if_fail ((guint)insulation < FR_N_INSULATIONS, ((FrSapHold){ NAN, NAN }));
  if (!(volume_l > 0))
    return (FrSapHold){ NAN, NAN };
  return (FrSapHold){ insulation_w_per_m2_k[insulation] * area_m2, area_m2 };
}

/* One stretch of straight air: states are heat and time. */
typedef struct
{
  FrSapBody body;
  const FrSapHold *hold;
  double air_c;
  double air_per_s;
  double onset_j;
} Stretch;

enum
{
  HEAT,
  TIME,
  N_STATES
};

static gboolean
rates_at (const double *state, double *rates, gpointer data)
{
  Stretch *stretch = data;
  FrSapBody *body = &stretch->body;
  double gap_k, resistance = 1 / stretch->hold->loss_w_per_k;

  fr_sap_body_settle_at (body, state[HEAT], stretch->onset_j);
  gap_k = stretch->air_c + stretch->air_per_s * state[TIME] - body->temp_c;
  if (gap_k < 0 && stretch->hold->freeze_m2 > 0)
    resistance += body->ice_kg
                  / (ICE_KG_PER_M3 * ICE_W_PER_M_K * stretch->hold->freeze_m2 * stretch->hold->freeze_m2);
  rates[HEAT] = gap_k / resistance;
  rates[TIME] = 1;
  return isfinite (rates[HEAT]);
}

/* A try from where the stretch stands. */
typedef struct
{
  Stretch *stretch;
  double state[N_STATES];
  double rates[N_STATES];
} Try;

static gboolean
try_step (const Try *try, double step_s, double *state_out, double *rates_out, double *error_out)
{
  return fr_dormand_prince_step (rates_at, try->stretch, N_STATES, try->state, try->rates, step_s, state_out,
                                 rates_out, error_out);
}

static double
onset_gap (double step_s, gpointer data)
{
  const Try *try = data;
  double state[N_STATES], rates[N_STATES];

  if (step_s == 0)
    return try->state[HEAT] - try->stretch->onset_j;
  return try_step (try, step_s, state, rates, NULL) ? state[HEAT] - try->stretch->onset_j : NAN;
}

static void
note (GArray *trace, gint64 utc_s, const FrSapBody *body)
{
  FrSapBodyMoment moment = { utc_s, body->temp_c, body->ice_kg };

  if (trace != NULL)
    g_array_append_val (trace, moment);
}

/* Through straight air from @from_utc for @span_s, in steps whose error is small; *step_s is the step to try,
 * kept from stretch to stretch. */
static void
run_stretch (Stretch *stretch, gint64 from_utc, double span_s, double *step_s, GArray *trace)
{
  const double scale_j = STEP_ERROR_K * fr_water_heat_slope (0) * stretch->body.mass_kg;
  Try try = { .stretch = stretch };

  try.state[HEAT] = fr_sap_body_heat_j (&stretch->body);
  if (!rates_at (try.state, try.rates, stretch))
    {
      stretch->body.temp_c = stretch->body.ice_kg = NAN;
      return;
    }
  while (span_s - try.state[TIME] > 1e-9 * span_s)
    {
      double left_s = span_s - try.state[TIME], h = MIN (*step_s, left_s), state[N_STATES], rates[N_STATES],
             error[N_STATES], worst, before, after, crossed_s;
      gboolean crossed;

      if (!try_step (&try, h, state, rates, error))
        {
          stretch->body.temp_c = stretch->body.ice_kg = NAN;
          return;
        }
      before = try.state[HEAT] - stretch->onset_j;
      after = state[HEAT] - stretch->onset_j;
      crossed = before * after < 0 && fr_solve_root (onset_gap, &try, 0, h, 1e-6, &crossed_s) && crossed_s > 0
                && try_step (&try, crossed_s, state, rates, error);
      if (crossed)
        h = crossed_s;
      worst = fabs (error[HEAT]) / scale_j;
      if (worst > 1 && h > STEP_LEAST_S)
        {
          *step_s = h * MAX (0.2, 0.9 * pow (worst, -0.2));
          continue;
        }
      if (crossed)
        {
          state[HEAT] = stretch->onset_j;
          rates_at (state, rates, stretch);
          note (trace, from_utc + (gint64)llround (state[TIME]), &stretch->body);
        }
      else if (h == *step_s)
        *step_s = h * MIN (5, 0.9 * pow (MAX (worst, 1e-9), -0.2));
      memcpy (try.state, state, sizeof state);
      memcpy (try.rates, rates, sizeof rates);
    }
  fr_sap_body_settle_at (&stretch->body, try.state[HEAT], stretch->onset_j);
}

static gboolean
comes_at_once (const FrSapBody *body, const FrSapHold *hold)
{
  return body->mass_kg * FR_ICE_J_PER_KG_K < AT_ONCE_S * hold->loss_w_per_k;
}

void
fr_sap_body_run (FrSapBody *body, const FrSapHold *hold, const FrAirKnot *air, guint n_air, gint64 from_utc,
                 gint64 to_utc, gint64 step_s, GArray *trace)
{
  gboolean apart = isnan (hold->loss_w_per_k) || hold->loss_w_per_k == 0;
  double try_s = FIRST_STEP_S, onset_j;
  guint next = 0;

  g_return_if_fail (from_utc <= to_utc && step_s > 0 && !(hold->loss_w_per_k < 0));
  if (!apart && comes_at_once (body, hold))
    *body = fr_sap_body_at (body->mass_kg, body->sugar_kg, fr_air_temp_c (air, n_air, from_utc));
  onset_j = fr_sap_body_onset_j (body); /* of what it is made of, which stays */
  note (trace, from_utc, body);
  for (gint64 utc = from_utc, end; utc < to_utc; utc = end)
    {
      double start_c, end_c;

      while (next < n_air && air[next].utc_s <= utc)
        next++;
      end = MIN (to_utc, from_utc + ((utc - from_utc) / step_s + 1) * step_s);
      if (next < n_air)
        end = MIN (end, air[next].utc_s);
      start_c = fr_air_temp_c (air, n_air, utc);
      /* At a jump the stretch ends at what was before it. */
      end_c = next < n_air && air[next].utc_s == end ? air[next].temp_c : fr_air_temp_c (air, n_air, end);
      if (apart)
        ;
      else if (comes_at_once (body, hold))
        *body = fr_sap_body_at (body->mass_kg, body->sugar_kg, end_c);
      else if (isnan (start_c) || isnan (end_c) || isnan (body->temp_c))
        body->temp_c = body->ice_kg = NAN;
      else
        {
          Stretch stretch = { *body, hold, start_c, (end_c - start_c) / (double)(end - utc), onset_j };

          run_stretch (&stretch, utc, (double)(end - utc), &try_s, trace);
          *body = stretch.body;
        }
      note (trace, end, body);
    }
}

#define MOMENT(trace, i) g_array_index (trace, FrSapBodyMoment, i)

gboolean
fr_sap_trace_freezes_utc (const GArray *trace, gint64 *utc_out)
{
  for (guint i = 0; i < trace->len; i++)
    if (isnan (MOMENT (trace, i).ice_kg))
      return FALSE;
    else if (MOMENT (trace, i).ice_kg > 0)
      {
        *utc_out = MOMENT (trace, i > 0 ? i - 1 : 0).utc_s;
        return TRUE;
      }
  return FALSE;
}

gboolean
fr_sap_trace_ice_utc (const GArray *trace, double mass_kg, double ice_ratio, gint64 *utc_out)
{
  double wanted_kg = ice_ratio * mass_kg;

  for (guint i = 0; i < trace->len; i++)
    {
      const FrSapBodyMoment *here = &MOMENT (trace, i), *last = &MOMENT (trace, i > 0 ? i - 1 : 0);

      if (isnan (here->ice_kg))
        return FALSE;
      if (here->ice_kg >= wanted_kg)
        {
          double share
              = here->ice_kg > last->ice_kg ? (wanted_kg - last->ice_kg) / (here->ice_kg - last->ice_kg) : 0;

          *utc_out = last->utc_s + (gint64)llround (share * (double)(here->utc_s - last->utc_s));
          return TRUE;
        }
    }
  return FALSE;
}

gboolean
fr_sap_trace_thawed_utc (const GArray *trace, gint64 *utc_out)
{
  gboolean frozen = FALSE;

  for (guint i = 0; i < trace->len; i++)
    if (isnan (MOMENT (trace, i).ice_kg))
      return FALSE;
    else if (MOMENT (trace, i).ice_kg > 0)
      frozen = TRUE;
    else if (frozen)
      {
        *utc_out = MOMENT (trace, i).utc_s;
        return TRUE;
      }
  return FALSE;
}
