/* What a refractometer or a hydrometer says, made good for the sample's temperature.
 *
 * The reading and the sample's temperature are kept as taken; the corrected value is worked out whenever it is shown. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  FR_INSTRUMENT_REFRACTOMETER_ATC, /* corrects itself for temperature */
  FR_INSTRUMENT_REFRACTOMETER,     /* made for 20 °C */
  FR_INSTRUMENT_HYDROMETER_38F,
  FR_INSTRUMENT_HYDROMETER_60F,
  FR_INSTRUMENT_HYDROMETER_68F,
  FR_INSTRUMENT_GUESS, /* no instrument: the number stands as it is */
  FR_N_INSTRUMENTS
} FrInstrument;

typedef enum
{
  FR_READING_OK,
  FR_READING_WARM_SAMPLE,      /* too cold to correct: warm the sample */
  FR_READING_COOL_SAMPLE,      /* too hot to correct: cool it */
  FR_READING_NEEDS_TEMPERATURE, /* this instrument cannot be corrected without it */
  FR_READING_OUT_OF_SCALE,     /* below 0, or more than the formulas cover */
  FR_READING_UNKNOWN           /* no reading */
} FrReadingCode;

/**
 * FrReading:
 * @code: whether there is an answer
 * @brix: true °Bx, NAN unless OK
 * @plus_minus_brix: for a refractometer that corrects itself its usual stated accuracy, else what the correction may be
 *   off by, apart from the reading of the scale; NAN for a guess
 */
typedef struct
{
  FrReadingCode code;
  double brix;
  double plus_minus_brix;
} FrReading;

/* The code kept in a book: refractometer_atc, refractometer, hydrometer_38f, hydrometer_60f, hydrometer_68f, guess.
 * NULL for FR_N_INSTRUMENTS. */
const char *fr_instrument_code (FrInstrument instrument);
gboolean fr_instrument_from_code (const char *code, FrInstrument *instrument_out);

/* The temperature a hydrometer was made for, °C; 20 for a refractometer; NAN for a guess. */
double fr_instrument_made_for_c (FrInstrument instrument);

/* @reading_brix as read, @sample_c the sample's temperature or NAN. */
FrReading fr_instrument_correct (FrInstrument instrument, double reading_brix, double sample_c);

/* The other way: what the instrument would show in a liquid of @brix; NAN outside the range of fr_instrument_correct. */
double fr_instrument_expected_brix (FrInstrument instrument, double brix, double sample_c);

G_END_DECLS
