/* Amounts of money. Whole minor units (cents) once rounded; prices finer than that stay doubles in minor units per kWh
 * or per kg and are rounded once, in the total. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Half away from zero, once. NAN gives G_MININT64, "unknown". */
gint64 fr_money_round (double minor);

/* Digits after the mark by ISO 4217 code: CAD 2, JPY 0, BHD 3; 2 when unknown. */
int fr_money_digits (const char *currency);

/* The customary sign ("$", "€", "£", "¥", "kr" …) or the code itself. */
const char *fr_money_sign (const char *currency);

/* "$2.00", "2,00 €", "−$0.35"; G_MININT64 gives "–". The sign stands before for $, £, ¥ and after with a no-break space
 * otherwise. Free it. */
char *fr_money_to_string (gint64 minor, const char *currency, char decimal_mark);

/* The word for the minor unit in a price: "¢" for dollars, "ct" for euros, "p" for pounds, else the code with /100. */
const char *fr_money_minor_sign (const char *currency);

/* ISO 4217 shape: three capital letters. */
gboolean fr_money_is_code (const char *currency);

G_END_DECLS
