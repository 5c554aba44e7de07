/* The bridge between records and the plan: what the book holds becomes an evening's input, a plan becomes the nights and used
 * sap to keep, and a morning's findings become a comparison and a new heat ratio. */
#pragma once

#include "domain/maths/calibrate.h"
#include "domain/plan/plan.h"
#include "domain/plan/season-book.h"
#include "domain/records/change.h"
#include "domain/records/kinds.h"

G_BEGIN_DECLS

/* The sap in store, all of it together: litres, mean °Bx by sugar, mean temperature, gathering of the oldest, when the first of it has
 * been kept for as long as it may (G_MININT64 unknown). */
typedef struct
{
  double volume_l;
  double brix; /* NAN when nothing is known of its sweetness */
  double temp_c;
  gint64 oldest_utc;
  gint64 spoils_utc;
  guint n_places;
} FrSapOnHand;

FrSapOnHand fr_evening_sap (const FrSeasonBook *book, gint64 now_utc);

/* A kit from a cooker and the vessel and circuit it names. FALSE when the cooker has no vessel or the vessel no shape. */
gboolean fr_evening_kit (const FrSeasonBook *book, const FrCooker *cooker, FrPlanKit *kit_out);

/* The tariff in use, or NULL. */
const FrTariffRecord *fr_evening_tariff (GPtrArray *tariffs);

/* The whole input from the book: all complete cookers (off when they would overload their circuit or a kept night has them), the tariff in use, the first fuel, hours by default, ceiling 60 °Bx, air 0 °C
 * (NAN low), sap 4 °C when its temperature is unknown. @tariff_out owns the parsed tariff that the input borrows (may be NULL). FALSE when there is no household. */
gboolean fr_evening_input (const FrSeasonBook *book, const FrZoneTable *zone, gint64 now_utc, FrPlanInput *input_out,
                           FrTariff **tariff_out, FrTariffProblem *tariff_problem_out);

/* The latest kept night that is going on or starts within a day, or NULL. */
const FrNight *fr_evening_pending (GPtrArray *nights, gint64 now_utc);

/* Makes @input the evening as it was kept: all nights that start with @pending, as they were poured. FALSE, with the input unusable,
 * when none of their cookers is whole any more. */
gboolean fr_evening_as_kept (FrPlanInput *input, GPtrArray *nights, const FrNight *pending);

/* Keeping a plan in one change "keep-night": a night per used cooker, and what it takes out of the containers, the first to spoil first and
 * no more than there is. Ids start at @next_night_id and @next_pour_id; @new_uid makes a fresh uid. */
FrChange *fr_evening_keep (const FrPlan *plan, const FrPlanInput *input, const FrSeasonBook *book, gint64 next_night_id,
                           gint64 next_pour_id, void (*new_uid) (char uid_out[33]));

typedef enum
{
  FR_WHY_AS_PLANNED,   /* within the plan's own range */
  FR_WHY_LESS_HEAT,    /* a: learned ratio over assumed */
  FR_WHY_MORE_HEAT,
  FR_WHY_SWEETER,      /* a: sugar found over poured */
  FR_WHY_LESS_SWEET,
  FR_WHY_NOT_ENOUGH    /* nothing found that tells about the heat */
} FrWhy;

typedef struct
{
  gboolean has_learned;
  FrLearned learned;
  double fact_brix;          /* as read, or from its boiling temperature */
  double fact_left_l;
  double fact_end_s;         /* from the meter at the cooker's power, NAN */
  double plan_end_s;
  double plan_brix;
  double plan_left_l;
  double plan_energy_kwh;
  double fact_energy_kwh;
  guint n_why;
  FrWhy why[3];
  double why_a[3];
} FrMorningReport;

/* What a night's findings say. @cooker and its kit as they stand; FALSE when the night cannot be rebuilt. */
gboolean fr_morning_report (const FrNight *night, const FrPlanKit *kit, double altitude_m, FrMorningReport *report_out);

/* The change "morning-after": the night with its findings and learned ratio, and the cooker with the new ratio. @night_after has
 * the findings typed in already. */
FrChange *fr_morning_change (const FrNight *night_before, const FrNight *night_after, const FrCooker *cooker,
                             const FrMorningReport *report);

G_END_DECLS
