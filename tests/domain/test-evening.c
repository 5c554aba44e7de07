/* From records to an evening and back, and the morning after: a night is planned, boiled by a cooker whose
 * heat ratio is hidden, and what it leaves is entered as a household would. */
#include "evenings.h"

#include "domain/plan/evening.h"
#include "domain/plan/stock.h"

static FrZoneTable *zone;

static GPtrArray *
record_array (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);
}

/* A book with nothing but sap in it. */
typedef struct
{
  GPtrArray *containers, *gatherings, *pours;
  FrSeasonBook book;
} Sap;

static Sap *
sap_new (void)
{
  Sap *sap = g_new0 (Sap, 1);

  sap->containers = record_array ();
  sap->gatherings = record_array ();
  sap->pours = record_array ();
  sap->book = (FrSeasonBook){
    .zone = zone, .containers = sap->containers, .gatherings = sap->gatherings, .pours = sap->pours
  };
  return sap;
}

static void
sap_free (Sap *sap)
{
  g_ptr_array_unref (sap->containers);
  g_ptr_array_unref (sap->gatherings);
  g_ptr_array_unref (sap->pours);
  g_free (sap);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Sap, sap_free)

/* @container 0: its place was not said; else made when missing. */
static FrGathering *
gather (Sap *sap, gint64 container, gint64 gathered_utc, double volume_l, double brix, const char *instrument, double sample_c,
        double sap_c)
{
  FrGathering *gathering = (FrGathering *)fr_record_new (FR_KIND_GATHERING);

  while (sap->containers->len < container)
    {
      FrContainer *one = (FrContainer *)fr_record_new (FR_KIND_CONTAINER);

      one->record.id = (gint64)sap->containers->len + 1;
      one->name = g_strdup_printf ("Can %u", sap->containers->len + 1);
      one->capacity_l.value = 60;
      g_ptr_array_add (sap->containers, one);
    }
  gathering->record.id = (gint64)sap->gatherings->len + 1;
  gathering->container = container;
  gathering->gathered_utc = gathered_utc;
  gathering->volume_l.value = volume_l;
  gathering->reading_brix.value = brix;
  g_free (gathering->instrument);
  gathering->instrument = g_strdup (instrument);
  gathering->sample_c.value = sample_c;
  gathering->sap_c.value = sap_c;
  g_ptr_array_add (sap->gatherings, gathering);
  return gathering;
}

static void
pour_out (Sap *sap, gint64 container, gint64 poured_utc, double volume_l)
{
  FrPour *pour = (FrPour *)fr_record_new (FR_KIND_POUR);

  pour->record.id = (gint64)sap->pours->len + 1;
  fr_record_set_text (&pour->record, fr_kind_field (pour->record.kind, "reason"), "boiled");
  pour->poured_utc = poured_utc;
  pour->container = container;
  pour->volume_l.value = volume_l;
  g_ptr_array_add (sap->pours, pour);
}

#define HOUR 3600

static void
test_sap (void)
{
  g_autoptr (Sap) book = sap_new ();
  gint64 now_utc = EVENING_UTC - 2 * HOUR;
  FrSapOnHand sap = fr_evening_sap (&book->book, now_utc);

  g_assert_true (sap.volume_l == 0 && isnan (sap.brix) && isnan (sap.temp_c) && sap.oldest_utc == G_MININT64);
  gather (book, 1, now_utc - 4 * HOUR, 10, 2, "refractometer_atc", 4, 2);
  gather (book, 2, now_utc - 2 * HOUR, 5, 3, "guess", NAN, 5);
  gather (book, 3, now_utc - 30 * HOUR, 9, 4, "guess", NAN, 20);
  gather (book, 1, now_utc - 50 * HOUR, 8, 4, "guess", NAN, 20)->record.archived = TRUE;
  gather (book, 2, now_utc + 1, 7, 2, "guess", NAN, 2); /* not yet */
  pour_out (book, 3, now_utc - 3 * HOUR, 9); /* emptied */
  pour_out (book, 1, now_utc - HOUR, 4);
  sap = fr_evening_sap (&book->book, now_utc);
  g_assert_cmpuint (sap.n_places, ==, 2);
  g_assert_cmpfloat (fabs (sap.volume_l - 11), <, 1e-9);
  /* 6 L at 2 and 5 L at 3 °Bx; by mass hardly differs from by volume. */
  g_assert_cmpfloat (fabs (sap.brix - 27.0 / 11), <, 0.003);
  g_assert_cmpint (sap.oldest_utc, ==, now_utc - 4 * HOUR);
}

static void
new_uid (char uid_out[33])
{
  static guint n;

  g_snprintf (uid_out, 33, "%032x", ++n);
}

static void
test_keep (void)
{
  g_autoptr (Sap) book = sap_new ();
  FrPlanInput input = evening_input (zone, 45);
  g_autoptr (FrPlan) plan = NULL;
  g_autoptr (FrChange) change = NULL;
  guint n_nights = 0, n_pours = 0;
  double taken_l[4] = { 0 }, night_l[2] = { 0 };

  gather (book, 1, input.now_utc - 10 * HOUR, 30, 2.2, "guess", NAN, 2);
  gather (book, 2, input.now_utc - 30 * HOUR, 5, 2.2, "guess", NAN, 2);
  gather (book, 3, input.now_utc - 20 * HOUR, 10, 2.2, "guess", NAN, 2);
  input.n_kits = 2;
  input.kits[1] = evening_kit ("Small", 900);
  input.kits[0].cooker_id = 7;
  input.kits[1].cooker_id = 8;
  plan = fr_plan_new (&input);
  g_assert_cmpint (plan->status, ==, FR_PLAN_OK);
  g_assert_cmpfloat (plan->used_l, >, 16);
  g_assert_cmpfloat (plan->over_l, >, 1);
  change = fr_evening_keep (plan, &input, &book->book, 41, 91, new_uid);
  g_assert_cmpstr (change->label, ==, "keep-night");
  for (guint i = 0; i < change->steps->len; i++)
    {
      const FrStep *step = change->steps->pdata[i];
      g_autoptr (GArray) problems = fr_record_check (step->after);

      g_assert_null (step->before);
      g_assert_cmpuint (strlen (step->after->uid), ==, 32);
      g_assert_cmpuint (problems->len, ==, 0);
      if (step->after->kind->id == FR_KIND_NIGHT)
        {
          const FrNight *night = (const FrNight *)step->after;

          g_assert_cmpint (night->record.id, ==, 41 + n_nights);
          g_assert_cmpint (night->cooker, ==, 7 + n_nights);
          g_assert_cmpstr (night->evening, ==, "2025-02-12");
          g_assert_cmpfloat (night->bucket_l.value, ==, plan->shares[n_nights].bucket_l);
          n_nights++;
        }
      else
        {
          const FrPour *pour = (const FrPour *)step->after;

          g_assert_cmpint (pour->record.id, ==, 91 + n_pours);
          g_assert_cmpstr (pour->reason, ==, "boiled");
          g_assert_cmpint (pour->poured_utc, ==, input.now_utc);
          g_assert_cmpint (pour->night, ==, 40 + n_nights);
          taken_l[pour->container] += pour->volume_l.value;
          night_l[n_nights - 1] += pour->volume_l.value;
          n_pours++;
        }
    }
  g_assert_cmpuint (n_nights, ==, 2);
  /* The two older ones spoil first: they are emptied. */
  g_assert_cmpfloat (fabs (taken_l[2] - 5), <, 1e-9);
  g_assert_cmpfloat (fabs (taken_l[3] - 10), <, 1e-9);
  g_assert_cmpfloat (fabs (taken_l[1] - (plan->used_l - 15)), <, 1e-9);
  for (guint i = 0; i < 2; i++)
    g_assert_cmpfloat (fabs (night_l[i] - plan->shares[i].pan_l - plan->shares[i].bucket_l), <, 1e-9);
}

/* What the store advises is what tonight takes: younger sap that was kept warm before older sap that was kept cold, and what may be
 * spoiled not before the rest. */
static void
test_keep_first_to_spoil (void)
{
  g_autoptr (Sap) book = sap_new ();
  FrPlanInput input = evening_input (zone, 45);
  g_autoptr (FrPlan) plan = fr_plan_new (&input);
  g_autoptr (FrStock) stock = NULL;
  g_autoptr (FrChange) change = NULL;
  double taken_l[4] = { 0 };

  gather (book, 1, input.now_utc - 20 * HOUR, 35, 2.2, "guess", NAN, 2);
  gather (book, 2, input.now_utc - 10 * HOUR, 5, 2.2, "guess", NAN, 12);
  gather (book, 3, input.now_utc - 30 * HOUR, 5, 2.2, "guess", NAN, 20); /* hours past its time */
  g_assert_cmpfloat (plan->used_l, <, 40);
  change = fr_evening_keep (plan, &input, &book->book, 1, 1, new_uid);
  for (guint i = 0; i < change->steps->len; i++)
    {
      const FrStep *step = change->steps->pdata[i];

      if (step->after->kind->id == FR_KIND_POUR)
        taken_l[((const FrPour *)step->after)->container] += ((const FrPour *)step->after)->volume_l.value;
    }
  stock = fr_stock_new (&book->book, input.now_utc - 100 * HOUR, input.now_utc);
  g_assert_cmpint (stock->places[stock->first].container->record.id, ==, 2);
  g_assert_cmpfloat (fr_stock_place (stock, 3)->used_ratio, >=, 1);
  g_assert_cmpfloat (fabs (taken_l[2] - 5), <, 1e-9);
  g_assert_cmpfloat (fabs (taken_l[1] - (plan->used_l - 5)), <, 1e-9);
  g_assert_cmpfloat (taken_l[3], ==, 0);
}

/* What rounding leaves is not kept to grow old; what the book does not hold is not taken from it. */
static void
test_keep_all (void)
{
  g_autoptr (Sap) book = sap_new (), less = sap_new ();
  FrPlanInput input = evening_input (zone, 10.05);
  g_autoptr (FrPlan) plan = fr_plan_new (&input);
  g_autoptr (FrChange) change = NULL, short_of = NULL;
  const FrStep *step;

  gather (book, 0, input.now_utc - 10 * HOUR, 10.05, 2.2, "guess", NAN, 2);
  change = fr_evening_keep (plan, &input, &book->book, 1, 1, new_uid);
  step = change->steps->pdata[change->steps->len - 1];
  g_assert_cmpfloat (fabs (((const FrPour *)step->after)->volume_l.value - 10.05), <, 1e-9);
  g_assert_cmpint (((const FrPour *)step->after)->container, ==, 0);
  gather (less, 0, input.now_utc - 10 * HOUR, 4, 2.2, "guess", NAN, 2);
  short_of = fr_evening_keep (plan, &input, &less->book, 1, 1, new_uid);
  step = short_of->steps->pdata[short_of->steps->len - 1];
  g_assert_cmpfloat (fabs (((const FrPour *)step->after)->volume_l.value - 4), <, 1e-9);
}

static FrNight *
night_of (const FrPlan *plan, const FrPlanInput *input)
{
  g_autoptr (Sap) book = sap_new ();
  g_autoptr (FrChange) change = fr_evening_keep (plan, input, &book->book, 1, 1, new_uid);

  return (FrNight *)fr_record_copy (((const FrStep *)change->steps->pdata[0])->after);
}

static void
test_night_date (void)
{
  static const struct
  {
    gint64 start_utc;
    const char *evening;
  } starts[] = { { EVENING_UTC, "2025-02-12" },
                 { EVENING_UTC + 5 * 3600, "2025-02-12" },  /* midnight */
                 { EVENING_UTC + 6 * 3600, "2025-02-12" },  /* one in the morning */
                 { EVENING_UTC + 12 * 3600, "2025-02-13" }, /* seven */
                 { 1741496400, "2025-03-08" },              /* midnight before the spring change */
                 { 1741503600 + 3600, "2025-03-08" } };     /* after it, four */

  for (guint i = 0; i < G_N_ELEMENTS (starts); i++)
    {
      FrPlanInput input = evening_input (zone, 10);
      g_autoptr (FrPlan) plan = NULL;
      g_autoptr (FrRecord) night = NULL;

      input.start_utc = starts[i].start_utc;
      input.off_by_utc = input.start_utc + 42600;
      plan = fr_plan_new (&input);
      night = (FrRecord *)night_of (plan, &input);
      g_assert_cmpstr (((FrNight *)night)->evening, ==, starts[i].evening);
    }
}

static void
test_kits (void)
{
  g_autoptr (GPtrArray) vessels = record_array (), cookers = record_array ();
  g_autoptr (FrRecord) household = fr_record_new (FR_KIND_HOUSEHOLD);
  FrSeasonBook book = { .household = (FrHousehold *)household, .zone = zone, .vessels = vessels, .cookers = cookers };
  FrPlanInput input;
  FrTariff *tariff;
  FrTariffProblem problem;
  static const char *const names[] = { "Whole", "No pan", "No power", "Put away", "No ratio" };

  for (guint i = 0; i < 2; i++)
    {
      FrVesselRecord *vessel = (FrVesselRecord *)fr_record_new (FR_KIND_VESSEL);

      vessel->record.id = (gint64)i + 1;
      vessel->diameter_m.value = 0.3;
      vessel->height_m.value = i == 0 ? 0.25 : NAN; /* the second has no shape */
      vessel->hold_l.value = 4;
      vessel->cutoff_l.value = 1.2;
      g_ptr_array_add (vessels, vessel);
    }
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      FrCooker *cooker = (FrCooker *)fr_record_new (FR_KIND_COOKER);

      cooker->record.id = (gint64)i + 1;
      cooker->name = g_strdup (names[i]);
      cooker->power_w.value = i == 2 ? NAN : 1800;
      cooker->heat_ratio.value = i == 4 ? NAN : 0.8;
      cooker->vessel = i == 1 ? 2 : 1;
      cooker->record.archived = i == 3;
      g_ptr_array_add (cookers, cooker);
    }
  g_assert_true (fr_evening_input (&book, zone, EVENING_UTC - 7200, &input, &tariff, &problem));
  g_assert_cmpuint (input.n_kits, ==, 1);
  g_assert_cmpstr (input.kits[0].name, ==, "Whole");
  g_assert_true (isnan (input.kits[0].heat_ratio_sd) && isnan (input.kits[0].breaker_a));
  /* A bare wall from the shape, not 0: the side of 0.25 m by 0.94 m at about 10 W/(m² K). */
  g_assert_cmpfloat (fabs (input.kits[0].wall_w_per_k - 2.36), <, 0.3);
  g_assert_null (tariff);
  g_assert_cmpint (input.start_utc, ==, EVENING_UTC);
  g_assert_cmpint (input.off_by_utc, ==, EVENING_UTC + 42600);
  book.household = NULL;
  g_assert_false (fr_evening_input (&book, zone, EVENING_UTC, &input, &tariff, &problem));
}

/* 20 A at 120 V bear 1920 W for hours on end (the 80 % rule): the cooker that would be too much is off until
 * turned on. */
static void
test_spare_circuit (void)
{
  g_autoptr (GPtrArray) vessels = record_array (), cookers = record_array (), circuits = record_array ();
  g_autoptr (FrRecord) household = fr_record_new (FR_KIND_HOUSEHOLD);
  FrSeasonBook book = {
    .household = (FrHousehold *)household, .zone = zone, .circuits = circuits, .vessels = vessels, .cookers = cookers
  };
  FrVesselRecord *vessel = (FrVesselRecord *)fr_record_new (FR_KIND_VESSEL);
  FrCircuit *circuit = (FrCircuit *)fr_record_new (FR_KIND_CIRCUIT);
  static const double powers_w[] = { 1200, 900, 700 };
  FrPlanInput input;
  FrTariff *tariff;
  FrTariffProblem problem;
  g_autoptr (FrPlan) plan = NULL;

  g_ptr_array_add (vessels, vessel);
  g_ptr_array_add (circuits, circuit);
  vessel->record.id = circuit->record.id = 1;
  vessel->diameter_m.value = 0.3;
  vessel->height_m.value = 0.25;
  vessel->hold_l.value = 4;
  vessel->cutoff_l.value = 1.2;
  circuit->breaker_a.value = 20;
  circuit->volts_v.value = 120;
  for (guint i = 0; i < G_N_ELEMENTS (powers_w); i++)
    {
      FrCooker *cooker = (FrCooker *)fr_record_new (FR_KIND_COOKER);

      cooker->record.id = (gint64)i + 1;
      cooker->power_w.value = powers_w[i];
      cooker->heat_ratio.value = 0.8;
      cooker->vessel = cooker->circuit = 1;
      g_ptr_array_add (cookers, cooker);
    }
  g_assert_true (fr_evening_input (&book, zone, EVENING_UTC - 7200, &input, &tariff, &problem));
  g_assert_cmpuint (input.n_kits, ==, 3);
  g_assert_true (!input.kits[0].off && input.kits[1].off && !input.kits[2].off);
  input.sap_l = 20;
  input.sap_brix = 2;
  input.sap_c = 2;
  plan = fr_plan_new (&input);
  g_assert_cmpint (plan->status, ==, FR_PLAN_OK);
  g_assert_false (plan->shares[1].used);
  g_assert_true (evening_has (plan, FR_CAUTION_LEFT_OFF));
  g_assert_false (evening_has (plan, FR_CAUTION_CIRCUIT_OVER));
}

/* --- the morning after --- */

/* What the night would leave with other heat and other sugar; @by_clock: the power goes off at off-by. */
static FrBoilRun
boiled (const FrPlan *plan, double ratio, double sweeter, gboolean by_clock)
{
  FrBoil boil = plan->shares[0].boil;
  FrBoilTable table;
  FrBoilRun run;

  g_assert_true (fr_boil_table_init (&table, plan->pressure_pa));
  boil.table = &table;
  boil.heat_ratio = ratio;
  boil.start_brix *= sweeter;
  boil.feed_brix *= sweeter;
  if (!by_clock)
    boil.after_s = NAN;
  g_assert_cmpint (fr_boil_run (&boil, FALSE, &run), ==, FR_BOIL_OK);
  return run;
}

static FrMorningReport
report_of (FrNight *night, const FrPlanInput *input)
{
  FrMorningReport report;

  g_assert_true (fr_morning_report (night, &input->kits[0], input->altitude_m, &report));
  g_assert_cmpuint (report.n_why, >=, 1);
  g_assert_cmpuint (report.n_why, <=, G_N_ELEMENTS (report.why));
  return report;
}

static gboolean
says (const FrMorningReport *report, FrWhy why, double *a)
{
  for (guint i = 0; i < report->n_why; i++)
    if (report->why[i] == why)
      {
        *a = report->why_a[i];
        return TRUE;
      }
  return FALSE;
}

static void
test_as_planned (void)
{
  FrPlanInput input = evening_input (zone, 16);
  g_autoptr (FrPlan) plan = fr_plan_new (&input);
  g_autoptr (FrRecord) record = (FrRecord *)night_of (plan, &input);
  FrNight *night = (FrNight *)record;
  FrBoilRun run = boiled (plan, 0.8, 1, FALSE);
  FrMorningReport report;

  night->meter_kwh.value = run.energy_kwh;
  night->left_l.value = run.left_20c_l;
  night->left_brix.value = run.left_brix;
  report = report_of (night, &input);
  g_assert_true (report.has_learned);
  g_assert_cmpuint (report.n_why, ==, 1);
  g_assert_cmpint (report.why[0], ==, FR_WHY_AS_PLANNED);
  g_assert_cmpfloat (fabs (report.learned.heat_ratio - 0.8), <, 1e-3);
  g_assert_cmpfloat (fabs (report.fact_end_s - report.plan_end_s), <, 1);
  g_assert_cmpfloat (fabs (report.plan_end_s - plan->shares[0].run.time_s), <, 1e-6);
}

static void
test_hidden_ratio (void)
{
  for (guint i = 0; i < 4; i++)
    {
      const double hidden = 0.8 * (i % 2 == 0 ? 0.8 : 1.2);
      FrPlanInput input = evening_input (zone, i < 2 ? 12 : 60); /* with time to spare, and none */
      g_autoptr (FrPlan) plan = NULL;
      g_autoptr (FrRecord) record = NULL;
      FrMorningReport report;
      FrBoilRun run;
      double a = NAN;

      input.kits[0].heat_ratio_sd = NAN;
      plan = fr_plan_new (&input);
      record = (FrRecord *)night_of (plan, &input);
      run = boiled (plan, hidden, 1, FALSE);
      ((FrNight *)record)->meter_kwh.value = run.energy_kwh;
      report = report_of ((FrNight *)record, &input);
      g_assert_true (report.has_learned);
      g_assert_cmpfloat (fabs (report.learned.night_ratio / hidden - 1), <, 0.01);
      g_assert_true (says (&report, i % 2 == 0 ? FR_WHY_LESS_HEAT : FR_WHY_MORE_HEAT, &a));
      g_assert_cmpfloat (fabs (a - hidden / 0.8), <, 0.01);
      g_assert_cmpfloat (fabs (report.fact_end_s - run.time_s), <, 1);

      /* The time it was seen off says the same. */
      ((FrNight *)record)->meter_kwh.value = NAN;
      ((FrNight *)record)->end_utc = input.start_utc + (gint64)run.time_s;
      report = report_of ((FrNight *)record, &input);
      g_assert_cmpfloat (fabs (report.learned.night_ratio / hidden - 1), <, 0.01);
    }
}

static void
test_sweeter (void)
{
  FrPlanInput input = evening_input (zone, 16);
  g_autoptr (FrPlan) plan = fr_plan_new (&input);
  g_autoptr (FrRecord) record = (FrRecord *)night_of (plan, &input);
  FrNight *night = (FrNight *)record;
  FrBoilRun run = boiled (plan, 0.8, 1.2, FALSE);
  FrMorningReport report;
  double a = 0;

  night->meter_kwh.value = run.energy_kwh;
  night->left_l.value = run.left_20c_l;
  night->left_brix.value = run.left_brix;
  report = report_of (night, &input);
  g_assert_true (says (&report, FR_WHY_SWEETER, &a));
  g_assert_cmpfloat (fabs (a - 1.2), <, 0.01);
  g_assert_false (says (&report, FR_WHY_LESS_HEAT, &a) || says (&report, FR_WHY_MORE_HEAT, &a));

  run = boiled (plan, 0.8, 0.8, FALSE);
  night->left_l.value = run.left_20c_l;
  night->left_brix.value = run.left_brix;
  report = report_of (night, &input);
  g_assert_true (says (&report, FR_WHY_LESS_SWEET, &a));
  g_assert_cmpfloat (fabs (a - 0.8), <, 0.01);
}

static void
test_not_enough (void)
{
  FrPlanInput input = evening_input (zone, 16);
  g_autoptr (FrPlan) plan = fr_plan_new (&input);
  g_autoptr (FrRecord) record = (FrRecord *)night_of (plan, &input);
  FrNight *night = (FrNight *)record;
  FrMorningReport report = report_of (night, &input);

  g_assert_false (report.has_learned);
  g_assert_cmpint (report.why[0], ==, FR_WHY_NOT_ENOUGH);
  night->left_brix.value = plan->left_brix;
  report = report_of (night, &input);
  g_assert_false (report.has_learned);
  g_assert_cmpint (report.why[0], ==, FR_WHY_NOT_ENOUGH);
  g_assert_cmpuint (report.n_why, ==, 1);
}

static void
test_by_temperature (void)
{
  FrPlanInput input = evening_input (zone, 18);
  g_autoptr (FrPlan) plan = fr_plan_new (&input);
  g_autoptr (FrRecord) record = (FrRecord *)night_of (plan, &input);
  FrNight *night = (FrNight *)record;
  FrBoilRun run = boiled (plan, 0.8, 1, FALSE);
  FrMorningReport report;

  night->left_boil_c.value = run.boil_c;
  report = report_of (night, &input);
  g_assert_cmpfloat (fabs (report.fact_brix - run.left_brix), <, 0.3);
}

static void
test_cut_by_time (void)
{
  FrPlanInput input = evening_input (zone, 60);
  g_autoptr (FrPlan) plan = fr_plan_new (&input);
  g_autoptr (FrRecord) record = (FrRecord *)night_of (plan, &input);
  FrNight *night = (FrNight *)record;
  FrBoilRun run = boiled (plan, 0.74, 1, TRUE);
  FrMorningReport report;

  g_assert_cmpint (run.ended_by, ==, FR_END_TIME);
  g_assert_true (isfinite (run.feed_dry_s));
  night->meter_kwh.value = run.energy_kwh;
  night->left_l.value = run.left_20c_l;
  night->left_brix.value = run.left_brix;
  report = report_of (night, &input);
  g_assert_true (report.has_learned);
  g_assert_cmpfloat (fabs (report.learned.night_ratio - 0.74), <, 0.01);
}

static void
test_morning_change (void)
{
  FrPlanInput input = evening_input (zone, 16);
  g_autoptr (FrPlan) plan = fr_plan_new (&input);
  g_autoptr (FrRecord) before = (FrRecord *)night_of (plan, &input), after = fr_record_copy (before),
                       cooker = fr_record_new (FR_KIND_COOKER);
  FrBoilRun run = boiled (plan, 0.7, 1, FALSE);
  FrMorningReport report;
  g_autoptr (FrChange) change = NULL;
  const FrStep *first, *second;

  ((FrCooker *)cooker)->heat_ratio.value = 0.8;
  ((FrNight *)after)->meter_kwh.value = run.energy_kwh;
  report = report_of ((FrNight *)after, &input);
  change = fr_morning_change ((FrNight *)before, (FrNight *)after, (FrCooker *)cooker, &report);
  g_assert_cmpstr (change->label, ==, "morning-after");
  g_assert_cmpuint (change->steps->len, ==, 2);
  first = change->steps->pdata[0];
  second = change->steps->pdata[1];
  g_assert_cmpfloat (((FrCooker *)first->after)->heat_ratio.value, ==, report.learned.heat_ratio);
  g_assert_cmpfloat (((FrNight *)second->after)->learned_ratio.value, ==, report.learned.night_ratio);
  g_assert_cmpfloat (((FrNight *)second->after)->meter_kwh.value, ==, run.energy_kwh);
  g_assert_true (fr_record_equal (second->before, before));
}

int
main (int argc, char **argv)
{
  int failed;

  g_test_init (&argc, &argv, NULL);
  zone = test_zone ("America/Toronto");
  g_test_add_func ("/evening/sap", test_sap);
  g_test_add_func ("/evening/kits", test_kits);
  g_test_add_func ("/evening/spare-circuit", test_spare_circuit);
  g_test_add_func ("/evening/keep", test_keep);
  g_test_add_func ("/evening/keep-first-to-spoil", test_keep_first_to_spoil);
  g_test_add_func ("/evening/keep-all", test_keep_all);
  g_test_add_func ("/evening/night-date", test_night_date);
  g_test_add_func ("/morning/as-planned", test_as_planned);
  g_test_add_func ("/morning/hidden-ratio", test_hidden_ratio);
  g_test_add_func ("/morning/sweeter", test_sweeter);
  g_test_add_func ("/morning/not-enough", test_not_enough);
  g_test_add_func ("/morning/by-temperature", test_by_temperature);
  g_test_add_func ("/morning/cut-by-time", test_cut_by_time);
  g_test_add_func ("/morning/change", test_morning_change);
  failed = g_test_run ();
  fr_zone_table_free (zone);
  return failed;
}
