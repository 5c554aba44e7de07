/* Baumé degrees, modulus 145, and degrees Brix, both at 20 °C. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Specific gravity 20/20 (true, in vacuum) of a sucrose solution at 20 °C. @brix −5 to 100; NAN outside. */
double
fr_gravity_ratio_from_brix (double brix);

/* Baumé degrees of a solution of @brix −5 to 100; NAN outside. */
double
fr_baume_from_brix (double brix);

/* The inverse: °Bx of @baume between what −5 and 100 °Bx give (about −3 and 51.7); NAN outside. */
double
fr_brix_from_baume (double baume);

G_END_DECLS
