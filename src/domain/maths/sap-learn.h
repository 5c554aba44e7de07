/* What a bush's own litres say of it: an exact filter over members and gain.
 *
 * A member is one set of numbers that may hold (a shape of the run, how far litres scatter around it, where its gain
 * may lie). Each emptying weighs every member and every step of its gain by how well they foretold it; one absurd
 * entry is a stray, not a proof (Student's t). Closed under Bayes' rule: nothing is drawn, the order of the entries
 * does not matter. */
#pragma once

#include "domain/maths/sap-rule.h"
#include "domain/maths/sap-run.h"

G_BEGIN_DECLS

/* Litres a tap and day added before logarithms are taken: what a bucket cannot tell from nothing. */
#define FR_SAP_NOISE_L 0.2

/**
 * FrSapMember:
 * @shape: of the run
 * @gain_l: litres a tap for a unit that its shape led to in the seasons it was fitted on, geometric mean
 * @scatter_ratio: sd of the logarithm of litres around the forecast
 * @weight_ratio: before the bush's own litres; all members' together 1
 */
typedef struct
{
  FrSapShape shape;
  double gain_l;
  double scatter_ratio;
  double weight_ratio;
} FrSapMember;

/**
 * FrSapMembers:
 * @gain_spread_ratio: sd of the logarithm of a new bush's season gain around @gain_l of the members
 * @rule: what gives a day's units; FR_SAP_RULE_TREE for the members' shapes, of which the others only use @age_days
 */
typedef struct
{
  guint n;
  const FrSapMember *members;
  double gain_spread_ratio;
  FrSapRule rule;
} FrSapMembers;

/* The members that ship, fitted on the two published seasons (sap-members.c). */
const FrSapMembers *
fr_sap_members (void);

/* Steps of a member's gain, in logarithms. */
#define FR_SAP_GAIN_STEPS 61

typedef struct _FrSapLearn FrSapLearn;

/* Nothing learned yet. @members is borrowed. */
FrSapLearn *
fr_sap_learn_new (const FrSapMembers *members);
void
fr_sap_learn_free (FrSapLearn *learn);

/**
 * fr_sap_learn_add:
 * @units: for each member what its shape ran in the span, from a tap as it is
 * @per_tap_l: emptied after that span, at least 0
 * @span_days: its days, above 0
 */
void
fr_sap_learn_add (FrSapLearn *learn, const double *units, double per_tap_l, double span_days);

/* How likely the entries added so far were, as a logarithm: for comparing members of another fit. */
double
fr_sap_learn_log_probability (const FrSapLearn *learn);

/* Weight of a member now, all together 1. */
double
fr_sap_learn_weight_ratio (const FrSapLearn *learn, guint member);

/* The gain that a share of the belief of @member lies below: @share_ratio within 0 and 1. */
double
fr_sap_learn_gain_l (const FrSapLearn *learn, guint member, double share_ratio);

/* The same over all members, each gain measured in units of the member's own @gain_l: 1 is as before. */
double
fr_sap_learn_gain_ratio (const FrSapLearn *learn, double share_ratio);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrSapLearn, fr_sap_learn_free)

G_END_DECLS
