/* Rules of thumb for the run: what the trade goes by, to hold a forecast against.
 *
 * A rule says of a day, which is the 24 hours before its gathering hour, how many units it brings; a gain turns them into
 * litres as it does for a tree's. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Hours of the day at which buckets may be emptied, where it is not known: the first, and how many. */
#define FR_SAP_HOUR_LO 8
#define FR_SAP_HOURS 10

typedef enum
{
  FR_SAP_RULE_TREE,        /* none: members' shapes, sap-run.h */
  FR_SAP_RULE_CONSTANT,    /* every day alike */
  FR_SAP_RULE_FREEZE_THAW, /* a low under −1.1 °C and a high over 2.2 °C on the day */
  FR_SAP_RULE_ZERO,        /* a low under 0 °C and a high over 0 °C on the day */
  FR_SAP_RULE_NIGHTS,      /* a high over 0 °C, and a low under 0 °C on it or one of the three days before */
  FR_SAP_RULE_THAW_HOURS,  /* hours above 1 °C */
  FR_N_SAP_RULES
} FrSapRule;

/**
 * fr_sap_rule_units:
 * @rule: any but FR_SAP_RULE_TREE
 * @air_c: (array length=n_hours): hour by hour
 * @end_hour: at which the day ends; hours outside of @air_c are not known
 *
 * Returns: units of that day, 0 to 1; hours that are not known say nothing
 */
double
fr_sap_rule_units (FrSapRule rule, const double *air_c, gint n_hours, gint end_hour);

G_END_DECLS
