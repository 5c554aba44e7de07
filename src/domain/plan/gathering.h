/* What a gathering, a pouring or a look into a container says, worked out from what was read: litres from volume, weight or depth, true
 * °Brix from the reading. */
#pragma once

#include "domain/plan/season-book.h"

G_BEGIN_DECLS

/* Litres of a depth in a container: straight or slanting sides; NAN without its measures, or deeper than it is high. */
double fr_container_depth_l (const FrContainer *container, double depth_m);

/* True °Bx of the reading; NAN when there is none or it cannot be made good. */
double fr_gathering_brix (const FrGathering *gathering);
double fr_pour_brix (const FrPour *pour);
double fr_dip_brix (const FrDip *dip);

/* Litres poured in; @bucket is the record it names or NULL. By weight: less the bucket's own, at the density of its °Brix (of @brix when
 * it has none). NAN when it cannot be worked out. */
double fr_gathering_l (const FrGathering *gathering, const FrContainer *bucket, double brix);
/* The same where its °Brix, or what is taken for it, is known already. */
double fr_gathering_at_l (const FrGathering *gathering, const FrContainer *bucket, double brix);
/* Litres found, NAN when the amount was not measured. */
double fr_dip_l (const FrDip *dip, const FrContainer *container, double brix);

G_END_DECLS
