/* The boil: a pan that is heated, fed from a bucket and boiled down until something ends it.
 *
 * Conventions
 *  - Time 0 is switch-on. The state is water, sugar, enthalpy, feed left, energy drawn and vapour gone; everything else is
 *    derived from it. Events are found by root finding on the step that crosses them; the step size follows the error.
 *  - Heat into the liquid = power × heat_ratio − wall_w_per_k × (T_liquid − air). heat_ratio is the part of the power that
 *    reaches vessel and liquid; the wall is apart. A ratio taken from practice or from a table of efficiencies already
 *    holds the wall: use it with wall 0.
 *  - Volumes in the pan (hold, cut-off, trace, left_l) are the liquid's own volume at its temperature then, without foam;
 *    start and feed volumes are at their own temp_c. left_20c_l is what is left, measured at 20 °C.
 *  - A level-holding feed flows when the volume is below hold, also while heating; it enters cold and mixes fully. A pan
 *    started below hold is filled to it at time 0 as far as the bucket goes. Evaporation below the boil is 0.
 *  - Cut-off and °Brix act from the first boil on. At equal times cut-off comes before °Brix before time. The run also ends
 *    when it can never boil (at time 0: it is not worth starting), and below 0.05 L or above 75 °Bx.
 *  - After a trip of the power the pan cools towards the air, but not below 0 °C: its freezing is not followed.
 *  - Vapour that condenses on a lid and drips back costs its heat again: reflux_ratio of it returns, 0 for an open pan.
 *
 * Physics: boil.c gives the rates at one moment, boil-run.c steps through a night. */
#pragma once

#include "domain/maths/boil-table.h"

G_BEGIN_DECLS

#define FR_DRY_LIMIT_L 0.05
#define FR_DRY_LIMIT_BRIX 75.0

typedef enum
{
  FR_FEED_LEVEL,  /* holds the level: float valve, bottle upside down, weighed feed */
  FR_FEED_STREAM, /* a fixed stream, whatever the level does */
  FR_FEED_HOLE,   /* a hole or drip line under a bucket whose head falls */
  FR_N_FEEDS
} FrFeedKind;

typedef enum
{
  FR_END_CUTOFF,
  FR_END_BRIX,
  FR_END_TIME,
  FR_END_NEVER_BOILS,
  FR_END_DRY_LIMIT,
  FR_N_ENDS
} FrEnd;

/**
 * FrBoil:
 * Everything a run needs; a plain value. NAN for an absent stop, watched level or trip.
 */
typedef struct
{
  const FrBoilTable *table;
  double air_c;
  double power_w;
  double heat_ratio;   /* 0 to 1 */
  double wall_w_per_k; /* 0 or more */
  double reflux_ratio; /* 0 to under 1 */

  double start_l;
  double start_brix;
  double start_c;

  FrFeedKind feed_kind;
  double feed_l;
  double feed_brix;
  double feed_c;
  double hold_l;         /* LEVEL */
  double stream_l_per_s; /* STREAM */
  double hole_m2;        /* HOLE: opening times discharge coefficient */
  double head_m;         /* HOLE: from the opening's outlet to the bucket's bottom */
  double bucket_m2;      /* HOLE: the bucket's area */

  double cutoff_l;
  double after_s;
  double stop_brix;

  double trip_s;  /* the power goes off here while the feed goes on */
  double rim_l;   /* watched: first crossing upwards */
  double foam_l;  /* watched: first crossing upwards */
  double min_l;   /* watched: first crossing downwards */
} FrBoil;

/* Index into the state vector. */
typedef enum
{
  FR_STATE_WATER_KG,
  FR_STATE_SUGAR_KG,
  FR_STATE_HEAT_J,   /* enthalpy of what is in the pan, above 0 °C */
  FR_STATE_FEED_KG,  /* left in the bucket */
  FR_STATE_DRAWN_J,  /* at the plug */
  FR_STATE_VAPOUR_KG,
  FR_N_STATE
} FrStateIndex;

/* What goes on at a moment, beside the state. */
typedef struct
{
  gboolean boiling;
  gboolean holding; /* LEVEL: the feed is flowing so that the volume stays */
  gboolean dry;     /* the bucket is empty */
  gboolean tripped;
} FrBoilMode;

/* Derived from state and mode. */
typedef struct
{
  double mass_kg;
  double brix;
  double temp_c;
  double volume_l;
  double feed_kg_per_s;
  double vapour_kg_per_s; /* negative: the boil cannot go on */
  double volume_l_per_s;  /* rate of change */
} FrBoilMoment;

/* The moment and the rates of all states; FALSE where the state lies outside what is known (a step too far). */
gboolean fr_boil_rates (const FrBoil *boil, const FrBoilMode *mode, const double state[FR_N_STATE],
                        double rates[FR_N_STATE], FrBoilMoment *moment);

/* Temperature of a liquid with this much heat. */
double fr_boil_temp_of_heat_c (double water_kg, double sugar_kg, double heat_j);

const char *fr_end_code (FrEnd end);
const char *fr_feed_code (FrFeedKind kind);
gboolean fr_feed_from_code (const char *code, FrFeedKind *kind_out);

G_END_DECLS
