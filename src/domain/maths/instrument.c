/* Readings made good for the sample's temperature.
 *
 * Refractometer made for 20 °C: a correction is added, taken from OIV-MA-AS2-02 table I (of ICUMSA origin;
 * rows 5 to 17 °C as published; 21 to 30 °C from memory, where the table's ends are known and the middle is
 * drawn straight), linear between rows and columns. Below 10 °Bx the first column is used as it is, which is
 * up to 0.1 °Bx off. Range 5 to 30 °C; below 10 °C only to 30 °Bx, since the table has no more there.
 *
 * Hydrometer: it floats where its mass equals that of the liquid it displaces. The mark R stands where the
 * density of sugar solution at the temperature the instrument was made for is rho(R, made), so in a sample
 *   rho(B, T) (1 + 25e-6 (T - made)) = rho(R, made)
 * with the glass's volume expansion per kelvin; solved for B. Range 0 to 75 °Bx, 0 to 105 °C. Against a
 * published chart for syrup the largest difference is 0.33 °Bx, at 110 to 120 °F; that chart steps by a
 * quarter degree Baumé. */
#include "domain/maths/instrument.h"

#include <math.h>
#include <string.h>

#include "domain/maths/solve.h"
#include "domain/maths/sucrose.h"
#include "domain/units/units.h"

#define GLASS_PER_K 25e-6
#define HYDROMETER_MAX_BRIX 75.0
#define HYDROMETER_MIN_C 0.0
#define HYDROMETER_MAX_C 105.0
#define NEAR_MADE_FOR_K 10.0

static const char *const codes[] = {
  [FR_INSTRUMENT_REFRACTOMETER_ATC] = "refractometer_atc", [FR_INSTRUMENT_REFRACTOMETER] = "refractometer",
  [FR_INSTRUMENT_HYDROMETER_38F] = "hydrometer_38f",       [FR_INSTRUMENT_HYDROMETER_60F] = "hydrometer_60f",
  [FR_INSTRUMENT_HYDROMETER_68F] = "hydrometer_68f",       [FR_INSTRUMENT_GUESS] = "guess",
};

static const double columns_brix[] = { 10, 15, 20, 25, 30, 40, 50, 60, 65, 70, 75 };

typedef struct
{
  double temp_c;
  double add_brix[G_N_ELEMENTS (columns_brix)];
} CorrectionRow;

static const CorrectionRow corrections[] = {
  { 5, { -0.82, -0.87, -0.92, -0.95, -0.99, NAN, NAN, NAN, NAN, NAN, NAN } },
  { 10, { -0.59, -0.62, -0.65, -0.67, -0.69, -0.72, -0.74, -0.75, -0.75, -0.75, -0.75 } },
  { 12, { -0.49, -0.51, -0.53, -0.55, -0.56, -0.58, -0.60, -0.61, -0.60, -0.60, -0.60 } },
  { 14, { -0.38, -0.39, -0.40, -0.42, -0.43, -0.44, -0.45, -0.46, -0.46, -0.46, -0.45 } },
  { 15, { -0.32, -0.33, -0.34, -0.35, -0.36, -0.37, -0.38, -0.38, -0.38, -0.38, -0.38 } },
  { 16, { -0.26, -0.27, -0.28, -0.28, -0.29, -0.30, -0.31, -0.31, -0.31, -0.31, -0.30 } },
  { 17, { -0.20, -0.20, -0.21, -0.21, -0.22, -0.23, -0.23, -0.23, -0.23, -0.23, -0.23 } },
  { 20, { 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0 } },
  /* From memory: 25 °C 0.35 at 10, 0.36 at 20, 0.38 at 40 and at 65; 30 °C about 0.72 at 10, 0.78 at 60. The
   * remembered rows between (21: 0.06 to 0.08, 22: 0.13 to 0.15, 23: 0.20 to 0.23, 24: 0.27 to 0.30) lie on
   * the lines from 20. */
  { 25, { 0.35, 0.355, 0.36, 0.365, 0.37, 0.38, 0.38, 0.38, 0.38, 0.38, 0.38 } },
  { 30, { 0.72, 0.726, 0.732, 0.738, 0.744, 0.756, 0.768, 0.78, 0.78, 0.78, 0.78 } },
};

const char *
fr_instrument_code (FrInstrument instrument)
{
  return (guint)instrument < FR_N_INSTRUMENTS ? codes[instrument] : NULL;
}

gboolean
fr_instrument_from_code (const char *code, FrInstrument *instrument_out)
{
  g_return_val_if_fail (instrument_out != NULL, FALSE);

  *instrument_out = FR_N_INSTRUMENTS;
  for (guint i = 0; code != NULL && i < FR_N_INSTRUMENTS; i++)
    if (strcmp (code, codes[i]) == 0)
      {
        *instrument_out = (FrInstrument)i;
        return TRUE;
      }
  return FALSE;
}

double
fr_instrument_made_for_c (FrInstrument instrument)
{
  switch (instrument)
    {
    case FR_INSTRUMENT_REFRACTOMETER_ATC:
    case FR_INSTRUMENT_REFRACTOMETER:
    case FR_INSTRUMENT_HYDROMETER_68F:
      return 20;
    case FR_INSTRUMENT_HYDROMETER_38F:
      return fr_celsius_from_fahrenheit (38);
    case FR_INSTRUMENT_HYDROMETER_60F:
      return fr_celsius_from_fahrenheit (60);
    case FR_INSTRUMENT_GUESS:
    case FR_N_INSTRUMENTS:
    default:
      return NAN;
    }
}

/* Along a row: flat before the first column, straight between two; NAN where the table is empty. */
static double
along_row (const CorrectionRow *row, double brix)
{
  for (guint i = 0; i + 1 < G_N_ELEMENTS (columns_brix); i++)
    {
      const double part = (brix - columns_brix[i]) / (columns_brix[i + 1] - columns_brix[i]);

      if (part <= 0)
        return row->add_brix[i];
      if (part <= 1)
        return part == 1 ? row->add_brix[i + 1]
                         : row->add_brix[i] + part * (row->add_brix[i + 1] - row->add_brix[i]);
    }
  return NAN;
}

static double
correction_brix (double brix, double temp_c)
{
  for (guint i = 0; i + 1 < G_N_ELEMENTS (corrections); i++)
    {
      const CorrectionRow *row = &corrections[i], *next = &corrections[i + 1];
      const double part = (temp_c - row->temp_c) / (next->temp_c - row->temp_c);

      if (part == 1)
        return along_row (next, brix);
      if (part < 1)
        return along_row (row, brix) + part * (along_row (next, brix) - along_row (row, brix));
    }
  return NAN;
}

static FrReading
no_answer (FrReadingCode code)
{
  return (FrReading){ code, NAN, NAN };
}

static FrReading
answer (double brix, double plus_minus_brix)
{
  if (!(brix >= 0))
    return no_answer (FR_READING_OUT_OF_SCALE);
  return (FrReading){ FR_READING_OK, brix, plus_minus_brix };
}

static FrReading
correct_refractometer (double reading_brix, double sample_c)
{
  const double coldest_c = corrections[0].temp_c;
  const double hottest_c = corrections[G_N_ELEMENTS (corrections) - 1].temp_c;
  double add_brix;

  if (reading_brix > columns_brix[G_N_ELEMENTS (columns_brix) - 1])
    return no_answer (FR_READING_OUT_OF_SCALE);
  if (sample_c < coldest_c)
    return no_answer (FR_READING_WARM_SAMPLE);
  if (sample_c > hottest_c)
    return no_answer (FR_READING_COOL_SAMPLE);
  add_brix = correction_brix (reading_brix, sample_c);
  /* The one hole in the table: cold and thick. */
  if (isnan (add_brix))
    return no_answer (FR_READING_WARM_SAMPLE);
  return answer (reading_brix + add_brix, reading_brix < columns_brix[0] ? 0.1 : 0.05);
}

typedef struct
{
  double sample_c;
  double glass_ratio;
  double target_kg_m3;
} Float;

static double
float_difference (double brix, gpointer data)
{
  const Float *f = data;

  return fr_sucrose_density_kg_m3 (brix, f->sample_c) * f->glass_ratio - f->target_kg_m3;
}

static FrReading
correct_hydrometer (double made_for_c, double reading_brix, double sample_c)
{
  Float f = { sample_c, 1 + GLASS_PER_K * (sample_c - made_for_c), 0 };
  double brix;

  if (reading_brix > HYDROMETER_MAX_BRIX)
    return no_answer (FR_READING_OUT_OF_SCALE);
  if (sample_c < HYDROMETER_MIN_C)
    return no_answer (FR_READING_WARM_SAMPLE);
  if (sample_c > HYDROMETER_MAX_C)
    return no_answer (FR_READING_COOL_SAMPLE);
  f.target_kg_m3 = fr_sucrose_density_kg_m3 (reading_brix, made_for_c);
  if (!fr_solve_root (float_difference, &f, 0, FR_BRIX_MAX, 1e-9, &brix))
    return no_answer (FR_READING_OUT_OF_SCALE);
  return answer (brix, fabs (sample_c - made_for_c) <= NEAR_MADE_FOR_K ? 0.1 : 0.35);
}

FrReading
fr_instrument_correct (FrInstrument instrument, double reading_brix, double sample_c)
{
  if (isnan (reading_brix))
    return no_answer (FR_READING_UNKNOWN);
  if (reading_brix < 0 || reading_brix > FR_BRIX_MAX)
    return no_answer (FR_READING_OUT_OF_SCALE);
  if (instrument == FR_INSTRUMENT_GUESS)
    return answer (reading_brix, NAN);
  if (instrument == FR_INSTRUMENT_REFRACTOMETER_ATC)
    return answer (reading_brix, 0.2);
  g_return_val_if_fail ((guint)instrument < FR_N_INSTRUMENTS, no_answer (FR_READING_UNKNOWN));

  if (isnan (sample_c))
    return no_answer (FR_READING_NEEDS_TEMPERATURE);
  if (instrument == FR_INSTRUMENT_REFRACTOMETER)
    return correct_refractometer (reading_brix, sample_c);
  return correct_hydrometer (fr_instrument_made_for_c (instrument), reading_brix, sample_c);
}

typedef struct
{
  FrInstrument instrument;
  double brix;
  double sample_c;
} Wanted;

static double
refractometer_difference (double reading_brix, gpointer data)
{
  const Wanted *w = data;

  return reading_brix + correction_brix (reading_brix, w->sample_c) - w->brix;
}

static double
hydrometer_difference (double reading_brix, gpointer data)
{
  const Wanted *w = data;
  const double made_for_c = fr_instrument_made_for_c (w->instrument);

  return fr_sucrose_density_kg_m3 (reading_brix, made_for_c)
         - fr_sucrose_density_kg_m3 (w->brix, w->sample_c) * (1 + GLASS_PER_K * (w->sample_c - made_for_c));
}

double
fr_instrument_expected_brix (FrInstrument instrument, double brix, double sample_c)
{
  Wanted w = { instrument, brix, sample_c };
  double reading_brix;

  if (!(brix >= 0 && brix <= FR_BRIX_MAX))
    return NAN;
  if (instrument == FR_INSTRUMENT_GUESS || instrument == FR_INSTRUMENT_REFRACTOMETER_ATC)
    return brix;
  if (instrument == FR_INSTRUMENT_REFRACTOMETER)
    {
      /* Below 10 °C the table ends at 30 °Bx; a bracket that reached past it would hold no numbers. */
      const double last_brix = sample_c < 10 ? 30 : columns_brix[G_N_ELEMENTS (columns_brix) - 1];

      if (!(sample_c >= 5 && sample_c <= 30)
          || !fr_solve_root (refractometer_difference, &w, 0, last_brix, 1e-9, &reading_brix))
        return NAN;
      return reading_brix;
    }
  g_return_val_if_fail ((guint)instrument < FR_N_INSTRUMENTS, NAN);
  if (!(sample_c >= HYDROMETER_MIN_C && sample_c <= HYDROMETER_MAX_C)
      || !fr_solve_root (hydrometer_difference, &w, 0, HYDROMETER_MAX_BRIX, 1e-9, &reading_brix))
    return NAN;
  return reading_brix;
}
