/* Litres a tap by day, as a table: date, litres_per_tap and, if told, days since the emptying before. */
#pragma once

#include "domain/plan/forecast.h"
#include "formats/input-error.h"

G_BEGIN_DECLS

/**
 * fr_gathered_read:
 *
 * Columns in any order, named in the first row: date (year-month-day), litres_per_tap (at least 0), days (above 0, at most 200).
 * Without days, or where that cell is empty, an emptying covers the days since the one before, and the first one day.
 * Others are passed over.
 *
 * Returns: (element-type FrSapGathered): dates rising, each once; NULL with a sentence that names the line
 */
GArray *
fr_gathered_read (const char *bytes, gsize length, GError **error);

G_END_DECLS
