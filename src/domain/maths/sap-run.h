/* The run of sap: frost charges a tree, thaw lets it go, over days.
 *
 * Wood follows the air late. While the wood is frozen it takes in sap and its ice deepens; when it is above the
 * thaw point the charge runs out, the slower the more of the ice is left. Few numbers, each with a physical
 * meaning; what they are for one bush nobody knows, so a forecast carries many such sets at once (sap-members.h)
 * and lets the bush's own litres choose among them (sap-learn.h). Units are abstract; a bush's gain turns them
 * into litres a tap. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * FrSapShape:
 * @lag_h: how long the wood takes to follow the air, time constant
 * @thaw_c: air-scaled wood temperature above which sap runs; below 0 because the sun warms bark
 * @rest_k: between the freezing and the thaw point, in which the wood neither takes in nor lets go
 * @charge_h: hours of frost that fill the empty part of the charge to 63 %
 * @drain_per_k_h: share of the charge let go in an hour for each degree above the thaw point
 * @cap_k: degrees above the thaw point beyond which it runs no faster
 * @ice_k_h: degree hours of frost that freeze the sapwood through; the same number thaw it
 * @age_days: days in which the taphole's yield falls to 37 %
 * @end_k_days: degree days above 5 °C from midwinter at which half of the yield is lost to the buds
 */
typedef struct
{
  double lag_h;
  double thaw_c;
  double rest_k;
  double charge_h;
  double drain_per_k_h;
  double cap_k;
  double ice_k_h;
  double age_days;
  double end_k_days;
} FrSapShape;

/**
 * FrSapState:
 * @wood_c: of the wood; NAN before the first hour
 * @charge_ratio: 0 empty to 1
 * @ice_ratio: share of the sapwood that is frozen, 0 to 1
 * @warmth_k_days: degree days above 5 °C since midwinter
 */
typedef struct
{
  double wood_c;
  double charge_ratio;
  double ice_ratio;
  double warmth_k_days;
} FrSapState;

/* A tree of which nothing is known: half charged, nothing frozen, no warmth. */
FrSapState
fr_sap_state (void);

/**
 * fr_sap_step:
 * @shape: all positive but @thaw_c
 * @state: moved on by an hour
 * @air_c: of that hour; NAN leaves wood and charge as they are
 *
 * Returns: what ran in that hour from a new taphole, units; 0 in an hour whose air is unknown
 */
double
fr_sap_step (const FrSapShape *shape, FrSapState *state, double air_c);

/**
 * fr_sap_run:
 * @air_c: (array length=n): hour by hour
 * @units_out: (array length=n): what each hour ran
 *
 * The same, for many hours.
 */
void
fr_sap_run (const FrSapShape *shape, FrSapState *state, const double *air_c, guint n, double *units_out);

/* What a taphole drilled so many days ago still gives, 0 before it is drilled. */
double
fr_sap_age_ratio (const FrSapShape *shape, double age_days);

/* What warmth has left of the yield, 1 to 0. */
double
fr_sap_end_ratio (const FrSapShape *shape, double warmth_k_days);

G_END_DECLS
