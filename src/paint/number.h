/* Numbers as they are written on the drawings, where their unit stands beside the scale. Private to this
 * room.
 */
#pragma once

#include "domain/units/quantity.h"

/* An amount of sap without its unit: whole from ten on, below with one decimal that is left out when it is 0:
 * "22", "9.4", "9". Caller frees. */
char *
fr_number_litres (double volume_l, const FrUnits *units);
