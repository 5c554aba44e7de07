/* Days, clocks and offsets in the cells of a table. */
#pragma once

#include "domain/units/calendar.h"

G_BEGIN_DECLS

/* @least to @most digits at *@text, which is left behind them. */
gboolean
fr_csv_read_digits (const char **text, guint least, guint most, gint *value_out);

/* Local date and clock of a cell: "2026-03-19", "2026-03-19 07:30", "2026-03-19T07:30:00-04:00". What is not said stays. */
gboolean
fr_csv_read_date (const char *text, FrDate *date_out, gint *second_out, gint *offset_out, gboolean *has_offset_out);
/* "07:30", "7:30 PM", "07:30:15". */
gboolean
fr_csv_read_clock (const char *text, gint *second_out);
/* "Z", "UTC", "-04:00", "UTC-04:00", "+0530". */
gboolean
fr_csv_read_offset (const char *text, gint *offset_out);

G_END_DECLS
