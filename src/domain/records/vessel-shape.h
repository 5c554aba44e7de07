/* From a kept vessel to the plain shape of the maths, and the reader of a measured table. */
#pragma once

#include "domain/records/kinds.h"
#include "domain/maths/vessel.h"

G_BEGIN_DECLS

/* Reads a measured table: a line each with two numbers, depth in cm and litres; both marks "," and "." are
 * decimal. Blank lines and lines starting with # are passed over. FALSE and the 1-based line when a line
 * cannot be read, does not rise above the one before, or there are too many; 0 when there are fewer than two
 * rows. Only rows of @vessel_out are set. */
gboolean
fr_vessel_rows_parse (const char *text, FrVessel *vessel_out, guint *bad_line_out);

/* The shape of a record. FALSE when its dimensions are unknown or impossible; fr_record_check says which. */
gboolean
fr_vessel_record_shape (const FrVesselRecord *record, FrVessel *vessel_out);

G_END_DECLS
