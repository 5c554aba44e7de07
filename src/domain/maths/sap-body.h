/* Sap that waits in a container: how it cools, freezes, sweetens under its ice, and thaws.
 *
 * One temperature for all of it. Below the freezing point of the whole it is pure ice and a liquid whose own
 * freezing point is that temperature, never more supercooled than that. Masses in kg, °C, instants UTC
 * seconds. A body whose temperature is unknown has @temp_c and @ice_kg NAN; its mass and sugar are known all
 * the same, and where it matters it is then taken as having no ice. */
#pragma once

#include "domain/maths/sap-air.h"

G_BEGIN_DECLS

/**
 * FrSapBody:
 * @mass_kg: liquid and ice together
 * @sugar_kg: all of it in the liquid; at most 80 % of the whole
 * @ice_kg: pure ice
 */
typedef struct
{
  double mass_kg;
  double sugar_kg;
  double temp_c;
  double ice_kg;
} FrSapBody;

/* With the ice that belongs to that temperature (none at the freezing point itself); all NAN for masses that
 * cannot be. */
FrSapBody
fr_sap_body_at (double mass_kg, double sugar_kg, double temp_c);

/* Pours @added in. No heat is lost or made; ice melts or grows. The temperature is unknown when that of
 * either is, unless that one is empty. */
void
fr_sap_body_mix (FrSapBody *body, const FrSapBody *added);

/* Only liquid leaves, at its sweetness. FALSE, and nothing leaves, when there is not so much (1e-9 of the
 * whole is let pass). */
gboolean
fr_sap_body_take (FrSapBody *body, double liquid_kg);

/**
 * fr_sap_body_take_ice:
 * @ice_kg: thrown out, with the liquid that clings to it
 * @ice_brix: what it melts to
 *
 * It was so much of the liquid as held that sugar, and pure ice for the rest, so that temperature and
 * sweetness of what stays do not change. When the body had less ice than that the reckoning was wrong, and
 * what stays is taken as free of ice, at its freezing point.
 *
 * Returns: FALSE, and nothing leaves, when a number is unknown or the body has not so much mass, sugar or
 *   water, 80 °Bx being the least water that stays
 */
gboolean
fr_sap_body_take_ice (FrSapBody *body, double ice_kg, double ice_brix);

double
fr_sap_body_liquid_kg (const FrSapBody *body);
/* NAN when there is no liquid. */
double
fr_sap_body_liquid_brix (const FrSapBody *body);
/* All of it, ice melted and stirred in; NAN when empty. */
double
fr_sap_body_brix (const FrSapBody *body);
/* Ice of the whole mass, 0 to 1; NAN when empty or unknown. */
double
fr_sap_body_ice_ratio (const FrSapBody *body);

/* Heat held above liquid at 0 °C, J; below 0 for ice. */
double
fr_sap_body_heat_j (const FrSapBody *body);

/* Freezing point of sap, taken as sucrose in water, 0–80 °Bx: fr_sucrose_freezing_c. */
double
fr_sap_freezing_c (double brix);

/* How it is wrapped; in a book: bare, wrapped (25 mm of felt), chest (a lidded cooler). */
typedef enum
{
  FR_INSULATION_BARE,
  FR_INSULATION_WRAPPED,
  FR_INSULATION_CHEST,
  FR_N_INSULATIONS
} FrInsulation;

const char *
fr_insulation_code (FrInsulation insulation);
gboolean
fr_insulation_from_code (const char *code, FrInsulation *insulation_out);

/**
 * FrSapHold:
 * @loss_w_per_k: of the whole, through wall and surface; NAN exchanges nothing
 * @freeze_m2: over which ice grows, whose own resistance then counts; NAN leaves that out
 */
typedef struct
{
  double loss_w_per_k;
  double freeze_m2;
} FrSapHold;

/* A round bucket as high as it is wide, full of @volume_l: wall, bottom and surface in still air. */
FrSapHold
fr_sap_hold (double volume_l, FrInsulation insulation);

typedef struct
{
  gint64 utc_s;
  double temp_c;
  double ice_kg;
} FrSapBodyMoment;

/**
 * fr_sap_body_run:
 * @body: as it is at @from_utc; as it is at @to_utc when it comes back
 * @air: see FrAirKnot; without knots the air is unknown
 * @to_utc: not before @from_utc
 * @step_s: over 0; the longest time between two moments of @trace
 * @trace: (nullable) (element-type FrSapBodyMoment): moments are put at its end: @from_utc, each @step_s
 * after it, each kink of the air, the instants at which the first ice comes and the last goes, and @to_utc.
 * Times do not fall; two may share a second.
 *
 * Follows the body through the air. From unknown air on, its temperature is unknown. A body so small that it
 * comes to the air's temperature within seconds is taken as having it.
 */
void
fr_sap_body_run (FrSapBody *body, const FrSapHold *hold, const FrAirKnot *air, guint n_air, gint64 from_utc,
                 gint64 to_utc, gint64 step_s, GArray *trace);

/* On a trace: the first instant with ice; the first at which ice is @ice_ratio of @mass_kg; the first without
 * ice after there was some. FALSE when that does not come, or not before the temperature is unknown. */
gboolean
fr_sap_trace_freezes_utc (const GArray *trace, gint64 *utc_out);
gboolean
fr_sap_trace_ice_utc (const GArray *trace, double mass_kg, double ice_ratio, gint64 *utc_out);
gboolean
fr_sap_trace_thawed_utc (const GArray *trace, gint64 *utc_out);

G_END_DECLS
