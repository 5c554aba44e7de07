/* How a household writes numbers, from its record. */
#pragma once

#include "domain/records/kinds.h"

G_BEGIN_DECLS

/* Metric for NULL. @decimal_mark is the locale's. The measures are owned through *measures_out and borrowed by the result;
 * free them with fr_measures_free. A text that cannot be read gives no measures; the record check refuses such a text. */
FrUnits fr_household_units (const FrHousehold *household, char decimal_mark, FrMeasure **measures_out,
                            guint *n_measures_out);

G_END_DECLS
