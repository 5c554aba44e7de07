/* Exact conversion constants, each once. Sources: NIST SP 811 (2008) appendix B for gallon, pound and Btu; the rest by
 * definition. All of them from memory; the definitions are exact. */
#pragma once

#define FR_LITRES_PER_US_GALLON 3.785411784
#define FR_LITRES_PER_IMPERIAL_GALLON 4.54609
#define FR_KG_PER_POUND 0.45359237
#define FR_METRES_PER_INCH 0.0254
#define FR_METRES_PER_FOOT 0.3048
#define FR_PASCALS_PER_INCH_OF_MERCURY 3386.389
#define FR_JOULES_PER_KWH 3.6e6
#define FR_JOULES_PER_BTU 1055.05585262
#define FR_KELVIN_AT_ZERO_C 273.15

static inline double
fr_fahrenheit_from_celsius (double temp_c)
{
  return temp_c * 9.0 / 5.0 + 32.0;
}

static inline double
fr_celsius_from_fahrenheit (double temp_f)
{
  return (temp_f - 32.0) * 5.0 / 9.0;
}
