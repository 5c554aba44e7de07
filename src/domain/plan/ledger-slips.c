/* Units that are mistaken for one another, what an entry would be in the other, and how far measuring is off. Ratios: units.h. What
 * measuring is off by, and how often units are mistaken: common sense, no source. */
#include "domain/plan/ledger-private.h"
#include "domain/plan/stock-private.h"

#include "domain/plan/gathering.h"
#include "domain/units/units.h"

#include <math.h>

#define SLIP_CHANCE 0.01 /* for each entry and slip */

double
fr_ledger_slip_ratio (FrLedgerSlip slip)
{
  static const double ratios[FR_N_SLIPS]
      = { [FR_SLIP_US_GAL] = FR_LITRES_PER_US_GALLON,      [FR_SLIP_IMP_GAL] = FR_LITRES_PER_IMPERIAL_GALLON,
          [FR_SLIP_L_US] = 1 / FR_LITRES_PER_US_GALLON,    [FR_SLIP_L_IMP] = 1 / FR_LITRES_PER_IMPERIAL_GALLON,
          [FR_SLIP_LB] = FR_KG_PER_POUND,             [FR_SLIP_KG] = 1 / FR_KG_PER_POUND,
          [FR_SLIP_INCH] = 100 * FR_METRES_PER_INCH,    [FR_SLIP_CM] = 1 / (100 * FR_METRES_PER_INCH),
          [FR_SLIP_TEN_MORE] = 10,                 [FR_SLIP_TEN_LESS] = 0.1 };

  g_return_val_if_fail ((guint)slip < FR_N_SLIPS, NAN);
  return ratios[slip];
}

/* --- what an entry says --- */

/* How it was measured, and the amount as it was. */
static const char *
measured_by (const FrRecord *record, const FrAmount **amount_out)
{
  const char *by = "volume";

  *amount_out = NULL;
  if (record == NULL)
    return by;
  if (record->kind->id == FR_KIND_GATHERING)
    {
      const FrGathering *gathering = (const FrGathering *)record;

      by = gathering->measured_by;
      *amount_out = g_strcmp0 (by, "weight") == 0  ? &gathering->weight_kg
                    : g_strcmp0 (by, "depth") == 0 ? &gathering->depth_m
                                                   : &gathering->volume_l;
    }
  else if (record->kind->id == FR_KIND_DIP)
    {
      const FrDip *dip = (const FrDip *)record;

      by = dip->measured_by;
      *amount_out = g_strcmp0 (by, "weight") == 0  ? &dip->weight_kg
                    : g_strcmp0 (by, "depth") == 0 ? &dip->depth_m
                                                   : &dip->volume_l;
    }
  else if (record->kind->id == FR_KIND_POUR)
    *amount_out = &((const FrPour *)record)->volume_l;
  return by;
}

/* A few percent on a pail's marks, a finger's breadth on a stick. */
double
fr_ledger_error_l (const FrRecord *record, double volume_l)
{
  const FrAmount *amount;
  const char *by = measured_by (record, &amount);

  if (isnan (volume_l) || record == NULL)
    return 0;
  if (g_strcmp0 (by, "weight") == 0)
    return 0.05 + 0.01 * fabs (volume_l);
  if (g_strcmp0 (by, "depth") == 0)
    return 0.3 + 0.02 * fabs (volume_l);
  return 0.1 + 0.03 * fabs (volume_l);
}

static gboolean
slip_fits (FrLedgerSlip slip, const char *by)
{
  if (slip == FR_SLIP_TEN_MORE || slip == FR_SLIP_TEN_LESS)
    return TRUE;
  if (g_strcmp0 (by, "weight") == 0)
    return slip == FR_SLIP_LB || slip == FR_SLIP_KG;
  if (g_strcmp0 (by, "depth") == 0)
    return slip == FR_SLIP_INCH || slip == FR_SLIP_CM;
  return slip <= FR_SLIP_L_IMP;
}

/* Whoever wrote the unit down is less likely to have meant another. */
double
fr_ledger_slip_chance_ratio (const FrRecord *record, FrLedgerSlip slip)
{
  const FrAmount *amount;

  if (!slip_fits (slip, measured_by (record, &amount)))
    return 0;
  if (slip != FR_SLIP_TEN_MORE && slip != FR_SLIP_TEN_LESS && amount != NULL && amount->typed != NULL)
    for (const char *at = amount->typed; *at != '\0'; at++)
      if (g_ascii_isalpha (*at))
        return 0.3 * SLIP_CHANCE;
  return SLIP_CHANCE;
}

double
fr_ledger_meant_l (const FrSeasonBook *book, const FrRecord *record, FrLedgerSlip slip, double kept_l)
{
  double ratio = fr_ledger_slip_ratio (slip);

  if (fr_ledger_slip_chance_ratio (record, slip) == 0)
    return NAN;
  if (record->kind->id == FR_KIND_GATHERING)
    {
      FrGathering meant = *(const FrGathering *)record;

      meant.volume_l.value *= ratio;
      meant.weight_kg.value *= ratio;
      meant.depth_m.value *= ratio;
      return fr_gathering_l (&meant, fr_stock_container (book, meant.bucket), FR_STOCK_SAP_BRIX);
    }
  if (record->kind->id == FR_KIND_DIP)
    {
      FrDip meant = *(const FrDip *)record;

      meant.volume_l.value *= ratio;
      meant.weight_kg.value *= ratio;
      meant.depth_m.value *= ratio;
      return fr_dip_l (&meant, fr_stock_container (book, meant.container), FR_STOCK_SAP_BRIX);
    }
  return ratio * kept_l;
}
