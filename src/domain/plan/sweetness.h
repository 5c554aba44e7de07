/* The sweetness that a reading in the book stands for. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * fr_sweetness_brix:
 * @instrument: (nullable): its code in the book; for a guess, or none that is known, the number stands as it
 * is
 * @reading_brix: as read, NAN unknown
 * @sample_c: the sample's temperature, NAN unknown
 *
 * Returns: true °Bx; NAN when there is no reading or it cannot be made good (see maths/instrument.h)
 */
double
fr_sweetness_brix (const char *instrument, double reading_brix, double sample_c);

G_END_DECLS
