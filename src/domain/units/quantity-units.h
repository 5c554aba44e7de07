/* The words for units, kept inside this room: quantity-parse.c looks them up, quantity.c converts what is
 * shown. */
#pragma once

#include "domain/units/quantity.h"

G_BEGIN_DECLS

/* How a number with a unit becomes the inner unit: × scale ÷ divisor, or one of two curves. Two factors
 * instead of one, so that 7 cm is exactly the double nearest to 0.07 m. */
typedef enum
{
  FR_UNIT_LINEAR,
  FR_UNIT_FAHRENHEIT,
  FR_UNIT_BAUME
} FrUnitCurve;

typedef struct
{
  FrUnitCurve curve;
  double scale_ratio;
  double divisor_ratio;
} FrUnitFit;

/* A unit word as it is compared: composed, case-folded, single spaces, one kind of degree and of foot and
 * inch marks, no full stops after letters, no comma at the end. Free it. */
char *
fr_unit_fold (const char *text, gsize length);

/* Whether the folded word is a unit of this kind in this household; its own measures come before the common
 * words. */
gboolean
fr_unit_find (const char *folded, FrQuantityKind kind, const FrUnits *units, FrUnitFit *fit_out);

/* The unit in which a bare number is read and a value is shown. */
FrUnitFit
fr_unit_shown (FrQuantityKind kind, const FrUnits *units);

/* NAN where the curve does not reach. */
double
fr_unit_to_inner (FrUnitFit fit, double number);
double
fr_unit_from_inner (FrUnitFit fit, double value);

/* Whether parts such as "3 gal 1 qt" add up, and whether there is such a thing as a negative one. */
gboolean
fr_quantity_adds (FrQuantityKind kind);
gboolean
fr_quantity_may_be_negative (FrQuantityKind kind);

G_END_DECLS
