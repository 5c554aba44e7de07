/* One field of a record as plain text, for attributes and cells: numbers in decimals with a point, in the
 * inner unit or a power of ten of it, exactly the same double when read back. */
#pragma once

#include "domain/records/record.h"

G_BEGIN_DECLS

/* @value × 10^@shift in digits without an exponent. Free it; NULL for NAN and infinities. */
char *
fr_decimal_text (double value, int shift);

/* @text ÷ 10^@shift. Digits with at most one point, a sign before and an exponent after. FALSE when it is
 * anything else, or not finite. */
gboolean
fr_decimal_read (const char *text, int shift, double *value_out);

/* A latitude or longitude to 1e-11 degrees, a thousandth of a millimetre. Files may have more digits: those
 * of @as_read (or NULL) are given back while the place is still the same. Free it. */
char *
fr_degrees_text (double deg, const char *as_read);

/* What fr_degrees_text() needs to be told to give @deg back: its text, or NULL when it will be the same
 * anyway. Free it. */
char *
fr_degrees_kept (double deg);

/* NULL when unknown. Free it. */
char *
fr_field_text (const FrRecord *record, const FrField *field, int shift);

/* FALSE when it cannot be of the field's type: no number, or neither true nor false. Ranges and codes are
 * left to fr_record_check(). */
gboolean
fr_field_read (FrRecord *record, const FrField *field, const char *text, int shift);

G_END_DECLS
