/* The description of every kind: its fields in the order an editor shows them, what each measures, and what
 * may be kept.
 *
 * Ranges say what can be true of a household's kit and sap, wide enough never to refuse an odd but real one:
 * an altitude from the shore of the Dead Sea (−430 m) to the highest dwellings, a breaker from 1 to 200 A.
 * They are common sense, without a source, except where a line says otherwise. Prices are in minor units and
 * leave room for currencies whose unit is small. Texts give their greatest length in characters as max. */
#include "domain/records/kinds-private.h"

#include <string.h>

static const char *const units_codes[] = { "metric", "us", "imperial", NULL };
static const char *const sweetness_codes[] = { "brix", "baume", NULL };
static const char *const shape_codes[] = { "cylinder", "cone", "cap", "box", "table", NULL };
static const char *const cover_codes[] = { "bare", "foil", "wrapped", NULL };
static const char *const feed_codes[] = { "level", "stream", "hole", NULL };
static const char *const place_codes[] = { "outdoors", "shed", "indoors", NULL };
static const char *const cutoff_codes[] = { "weight", "thermostat", "float", "timer", "none", NULL };
static const char *const fuel_codes[] = { "propane", NULL };

static const char *const species_codes[] = { "sugar",    "black", "red",   "silver", "norway", "bigleaf",
                                             "boxelder", "other", "birch", "walnut", NULL };
static const char *const crown_codes[] = { "unknown", "wide", "middling", "narrow", NULL };
static const char *const health_codes[] = { "unknown", "healthy", "weak", "failing", "dead", NULL };
static const char *const permission_codes[] = { "unknown", "own", "granted", "refused", NULL };
static const char *const choice_codes[] = { "open", "must", "never", NULL };
static const char *const measure_codes[] = { "girth", "diameter", NULL };
static const char *const form_codes[]
    = { "path", "lane", "wall", "stream", "building", "boiling", "store", NULL };
static const char *const guideline_codes[] = { "conservative", "one_tap", "facts", "traditional", NULL };
static const char *const spacing_codes[]
    = { "six_twelve", "six_twentyfour", "four_twelve", "two_six", "own", NULL };

static const FrField household_fields[] = {
  TEXT (FrHousehold, name, NAME_CHARS, NEEDED),
  TEXT (FrHousehold, place, LINE_CHARS, OPTIONAL),
  TEXT (FrHousehold, zone, 64, NEEDED),
  TEXT (FrHousehold, currency, 3, NEEDED),
  CODE (FrHousehold, units, units_codes),
  CODE (FrHousehold, sweetness, sweetness_codes),
  TEXT (FrHousehold, measures, NOTE_CHARS, OPTIONAL),
  AMOUNT (FrHousehold, altitude_m, ALTITUDE, -430, 6000, OPTIONAL),
  AMOUNT (FrHousehold, syrup_brix, SWEETNESS, 60, 75, OPTIONAL),
  AMOUNT (FrHousehold, jar_l, VOLUME, 0.01, 100, OPTIONAL),
};

static const FrField circuit_fields[] = {
  TEXT (FrCircuit, name, NAME_CHARS, NEEDED),
  AMOUNT (FrCircuit, breaker_a, CURRENT, 1, 200, NEEDED),
  AMOUNT (FrCircuit, volts_v, VOLTAGE, 10, 1000, NEEDED),
  AMOUNT (FrCircuit, other_load_w, POWER, 0, 50000, OPTIONAL),
  BOOL (FrCircuit, gfci),
};

static const FrField vessel_fields[] = {
  TEXT (FrVesselRecord, name, NAME_CHARS, NEEDED),
  CODE (FrVesselRecord, shape, shape_codes),
  AMOUNT (FrVesselRecord, diameter_m, LENGTH, 0.01, 5, OPTIONAL),
  AMOUNT (FrVesselRecord, top_diameter_m, LENGTH, 0.01, 5, OPTIONAL),
  AMOUNT (FrVesselRecord, flat_diameter_m, LENGTH, 0, 5, OPTIONAL),
  AMOUNT (FrVesselRecord, length_m, LENGTH, 0.01, 5, OPTIONAL),
  AMOUNT (FrVesselRecord, width_m, LENGTH, 0.01, 5, OPTIONAL),
  AMOUNT (FrVesselRecord, corner_m, LENGTH, 0, 2.5, OPTIONAL),
  AMOUNT (FrVesselRecord, height_m, LENGTH, 0.01, 5, OPTIONAL),
  TEXT (FrVesselRecord, rows, TABLE_CHARS, OPTIONAL),
  AMOUNT (FrVesselRecord, hold_l, VOLUME, 0.05, 10000, NEEDED),
  AMOUNT (FrVesselRecord, cutoff_l, VOLUME, 0, 10000, OPTIONAL),
  AMOUNT (FrVesselRecord, min_level_l, VOLUME, 0, 10000, OPTIONAL),
  AMOUNT (FrVesselRecord, foam_ratio, PLAIN, 0, 20, OPTIONAL),
  CODE (FrVesselRecord, cover, cover_codes),
  AMOUNT (FrVesselRecord, wall_w_per_k, LOSS, 0, 500, OPTIONAL),
  AMOUNT (FrVesselRecord, bucket_l, VOLUME, 0, 10000, OPTIONAL),
  CODE (FrVesselRecord, feed, feed_codes),
  AMOUNT (FrVesselRecord, head_m, LENGTH, 0, 10, OPTIONAL),
  AMOUNT (FrVesselRecord, hole_m, LENGTH, 0.0001, 0.1, OPTIONAL),
  BOOL (FrVesselRecord, solder),
};

static const FrField cooker_fields[] = {
  TEXT (FrCooker, name, NAME_CHARS, NEEDED),
  AMOUNT (FrCooker, power_w, POWER, 50, 20000, NEEDED),
  AMOUNT (FrCooker, heat_ratio, RATIO, 0.05, 1, NEEDED),
  AMOUNT (FrCooker, heat_ratio_sd, RATIO, 0, 0.5, OPTIONAL),
  BOOL (FrCooker, ratio_holds_wall),
  AMOUNT (FrCooker, reflux_ratio, RATIO, 0, 0.95, OPTIONAL),
  REF (FrCooker, vessel, VESSEL, NEEDED),
  REF (FrCooker, circuit, CIRCUIT, OPTIONAL),
  CODE (FrCooker, place, place_codes),
  CODE (FrCooker, cutoff_by, cutoff_codes),
};

static const FrField tariff_fields[] = {
  TEXT (FrTariffRecord, name, NAME_CHARS, NEEDED),
  TEXT (FrTariffRecord, periods, TABLE_CHARS, NEEDED),
  TEXT (FrTariffRecord, holidays, TABLE_CHARS, OPTIONAL),
  AMOUNT (FrTariffRecord, adder_per_kwh, PRICE, -1e6, 1e6, OPTIONAL),
  AMOUNT (FrTariffRecord, tax_ratio, RATIO, 0, 1, OPTIONAL),
  BOOL (FrTariffRecord, in_use),
};

static const FrField fuel_fields[] = {
  TEXT (FrFuel, name, NAME_CHARS, NEEDED),
  CODE (FrFuel, fuel, fuel_codes),
  AMOUNT (FrFuel, price_per_kg, PRICE, 0, 1e8, NEEDED),
  /* From wet wood (about 8) to hydrogen (142, higher value); common reference values. */
  AMOUNT (FrFuel, heat_mj_per_kg, HEAT, 5, 145, NEEDED),
  AMOUNT (FrFuel, heat_ratio, RATIO, 0.05, 1, NEEDED),
  BOOL (FrFuel, flame),
};

static const FrField night_fields[] = {
  DATE (FrNight, evening, NEEDED),
  REF (FrNight, cooker, COOKER, NEEDED),
  TIME (FrNight, start_utc, NEEDED),
  TIME (FrNight, off_by_utc, OPTIONAL),
  AMOUNT (FrNight, pan_l, VOLUME, 0, 10000, NEEDED),
  AMOUNT (FrNight, pan_brix, SWEETNESS, 0, 75, OPTIONAL),
  AMOUNT (FrNight, pan_c, TEMPERATURE, -5, 120, OPTIONAL),
  AMOUNT (FrNight, bucket_l, VOLUME, 0, 10000, OPTIONAL),
  AMOUNT (FrNight, sap_brix, SWEETNESS, 0.1, 25, OPTIONAL),
  AMOUNT (FrNight, sap_c, TEMPERATURE, -5, 110, OPTIONAL),
  AMOUNT (FrNight, air_c, TEMPERATURE, -40, 60, OPTIONAL),
  AMOUNT (FrNight, water_boils_c, TEMPERATURE, 75, 105, OPTIONAL),
  AMOUNT (FrNight, max_brix, SWEETNESS, 1, 75, OPTIONAL),
  AMOUNT (FrNight, heat_ratio, RATIO, 0.05, 1, OPTIONAL),
  TIME (FrNight, plan_dry_utc, OPTIONAL),
  TIME (FrNight, plan_end_utc, OPTIONAL),
  AMOUNT (FrNight, plan_left_l, VOLUME, 0, 10000, OPTIONAL),
  AMOUNT (FrNight, plan_brix, SWEETNESS, 0, 90, OPTIONAL),
  AMOUNT (FrNight, plan_energy_kwh, ENERGY, 0, 10000, OPTIONAL),
  /* Below 0 where a market pays for taking power. */
  AMOUNT (FrNight, plan_cost, PLAIN, -1e9, 1e9, OPTIONAL),
  AMOUNT (FrNight, left_l, VOLUME, 0, 10000, OPTIONAL),
  AMOUNT (FrNight, left_brix, SWEETNESS, 0, 90, OPTIONAL),
  AMOUNT (FrNight, left_boil_c, TEMPERATURE, 75, 125, OPTIONAL),
  AMOUNT (FrNight, bucket_left_l, VOLUME, 0, 10000, OPTIONAL),
  AMOUNT (FrNight, meter_kwh, ENERGY, 0, 1e7, OPTIONAL),
  TIME (FrNight, end_utc, OPTIONAL),
  /* What a morning teaches may lie outside what a cooker can be; it is kept as found. */
  AMOUNT (FrNight, learned_ratio, RATIO, 0, 2, OPTIONAL),
  AMOUNT (FrNight, learned_ratio_sd, RATIO, 0, 2, OPTIONAL),
  TEXT (FrNight, note, NOTE_CHARS, OPTIONAL),
};

/* A plan may lie anywhere on a large map grid. */
#define PLAN_M 1e7

static const FrField tree_fields[] = {
  TEXT (FrTree, name, NAME_CHARS, NEEDED),
  CODE (FrTree, species, species_codes),
  AMOUNT (FrTree, x_m, DISTANCE, -PLAN_M, PLAN_M, OPTIONAL),
  AMOUNT (FrTree, y_m, DISTANCE, -PLAN_M, PLAN_M, OPTIONAL),
  AMOUNT (FrTree, elevation_m, ALTITUDE, -430, 6000, OPTIONAL),
  TEXT (FrTree, measured_from, NAME_CHARS, OPTIONAL),
  AMOUNT (FrTree, from_distance_m, DISTANCE, 0, 10000, OPTIONAL),
  AMOUNT (FrTree, from_bearing_deg, ANGLE, 0, 360, OPTIONAL),
  CODE (FrTree, crown, crown_codes),
  CODE (FrTree, health, health_codes),
  BOOL (FrTree, dead_limbs),
  BOOL (FrTree, wires),
  BOOL (FrTree, lean),
  BOOL (FrTree, roadside),
  CODE (FrTree, permission, permission_codes),
  TEXT (FrTree, owner, LINE_CHARS, OPTIONAL),
  CODE (FrTree, choice, choice_codes),
  TEXT (FrTree, photo, NOTE_CHARS, OPTIONAL),
  TEXT (FrTree, note, NOTE_CHARS, OPTIONAL),
  TEXT (FrTree, foreign_data, TABLE_CHARS, OPTIONAL),
  TEXT (FrTree, stand, NAME_CHARS, OPTIONAL),
};

/* The thickest trunk known, a Montezuma cypress, is about 36 m round (from memory). */
static const FrField girth_fields[] = {
  REF (FrGirth, tree, TREE, NEEDED),
  DATE (FrGirth, measured_on, NEEDED),
  CODE (FrGirth, measure, measure_codes),
  AMOUNT (FrGirth, size_m, LENGTH, 0.005, 40, NEEDED),
};

static const FrField tap_fields[] = {
  REF (FrTap, tree, TREE, NEEDED),
  AMOUNT (FrTap, season, PLAIN, 1600, 2400, NEEDED),
  DATE (FrTap, set_on, OPTIONAL),
  TEXT (FrTap, set_by, LINE_CHARS, OPTIONAL),
  AMOUNT (FrTap, depth_m, LENGTH, 0.002, 0.3, OPTIONAL),
  AMOUNT (FrTap, bore_m, LENGTH, 0.002, 0.05, OPTIONAL),
  AMOUNT (FrTap, height_m, LENGTH, 0, 10, OPTIONAL),
  AMOUNT (FrTap, direction_deg, ANGLE, 0, 360, OPTIONAL),
  TEXT (FrTap, spout, LINE_CHARS, OPTIONAL),
  TEXT (FrTap, container, LINE_CHARS, OPTIONAL),
  AMOUNT (FrTap, container_l, VOLUME, 0.1, 10000, OPTIONAL),
  DATE (FrTap, pulled_on, OPTIONAL),
  DATE (FrTap, closed_on, OPTIONAL),
  TEXT (FrTap, note, NOTE_CHARS, OPTIONAL),
};

static const FrField yield_fields[] = {
  REF (FrYield, tree, TREE, NEEDED),
  AMOUNT (FrYield, season, PLAIN, 1600, 2400, NEEDED),
  AMOUNT (FrYield, volume_l, VOLUME, 0, 10000, OPTIONAL),
  AMOUNT (FrYield, reading_brix, SWEETNESS, 0, 90, OPTIONAL),
  CODE (FrYield, instrument, fr_instrument_codes),
  AMOUNT (FrYield, sample_c, TEMPERATURE, -5, 110, OPTIONAL),
  TEXT (FrYield, note, NOTE_CHARS, OPTIONAL),
};

static const FrField feature_fields[] = {
  TEXT (FrFeature, name, NAME_CHARS, OPTIONAL),
  CODE (FrFeature, form, form_codes),
  TEXT (FrFeature, points, TABLE_CHARS, NEEDED),
};

static const FrField ground_fields[] = {
  AMOUNT (FrGround, anchor_x_m, DISTANCE, -PLAN_M, PLAN_M, OPTIONAL),
  AMOUNT (FrGround, anchor_y_m, DISTANCE, -PLAN_M, PLAN_M, OPTIONAL),
  AMOUNT (FrGround, anchor_lat_deg, ANGLE, -90, 90, OPTIONAL),
  AMOUNT (FrGround, anchor_lon_deg, ANGLE, -180, 180, OPTIONAL),
  AMOUNT (FrGround, declination_deg, ANGLE, -180, 180, OPTIONAL),
  TEXT (FrGround, picture, NOTE_CHARS, OPTIONAL),
  BOOL (FrGround, picture_shown),
  AMOUNT (FrGround, first_column, PLAIN, -1e6, 1e6, OPTIONAL),
  AMOUNT (FrGround, first_row, PLAIN, -1e6, 1e6, OPTIONAL),
  AMOUNT (FrGround, first_x_m, DISTANCE, -PLAN_M, PLAN_M, OPTIONAL),
  AMOUNT (FrGround, first_y_m, DISTANCE, -PLAN_M, PLAN_M, OPTIONAL),
  AMOUNT (FrGround, second_column, PLAIN, -1e6, 1e6, OPTIONAL),
  AMOUNT (FrGround, second_row, PLAIN, -1e6, 1e6, OPTIONAL),
  AMOUNT (FrGround, second_x_m, DISTANCE, -PLAN_M, PLAN_M, OPTIONAL),
  AMOUNT (FrGround, second_y_m, DISTANCE, -PLAN_M, PLAN_M, OPTIONAL),
};

static const FrField tapping_fields[] = {
  CODE (FrTapping, guideline, guideline_codes),
  CODE (FrTapping, spacing, spacing_codes),
  AMOUNT (FrTapping, sideways_m, LENGTH, 0.005, 2, OPTIONAL),
  AMOUNT (FrTapping, up_down_m, LENGTH, 0.005, 4, OPTIONAL),
  AMOUNT (FrTapping, min_height_m, LENGTH, 0, 10, OPTIONAL),
  AMOUNT (FrTapping, max_height_m, LENGTH, 0, 10, OPTIONAL),
  AMOUNT (FrTapping, pail_l, VOLUME, 0.5, 10000, OPTIONAL),
  AMOUNT (FrTapping, buckets, PLAIN, 0, 100000, OPTIONAL),
  AMOUNT (FrTapping, max_trees, PLAIN, 0, 100000, OPTIONAL),
  AMOUNT (FrTapping, walk_m, DISTANCE, 0, 1e6, OPTIONAL),
  AMOUNT (FrTapping, peak_boil_l, VOLUME, 0, 100000, OPTIONAL),
  AMOUNT (FrTapping, season_days, PLAIN, 1, 366, OPTIONAL),
  AMOUNT (FrTapping, peak_ratio, PLAIN, 1, 100, OPTIONAL),
};

static const FrKind kinds[FR_KIND_CONTAINER] = {
  [FR_KIND_HOUSEHOLD] = KIND (FR_KIND_HOUSEHOLD, "household", FrHousehold, household_fields, "name", TRUE),
  [FR_KIND_CIRCUIT] = KIND (FR_KIND_CIRCUIT, "circuit", FrCircuit, circuit_fields, "name", FALSE),
  [FR_KIND_VESSEL] = KIND (FR_KIND_VESSEL, "vessel", FrVesselRecord, vessel_fields, "name", FALSE),
  [FR_KIND_COOKER] = KIND (FR_KIND_COOKER, "cooker", FrCooker, cooker_fields, "name", FALSE),
  [FR_KIND_TARIFF] = KIND (FR_KIND_TARIFF, "tariff", FrTariffRecord, tariff_fields, "name", FALSE),
  [FR_KIND_FUEL] = KIND (FR_KIND_FUEL, "fuel", FrFuel, fuel_fields, "name", FALSE),
  [FR_KIND_NIGHT] = KIND (FR_KIND_NIGHT, "night", FrNight, night_fields, "evening", FALSE),
  [FR_KIND_TREE] = KIND (FR_KIND_TREE, "tree", FrTree, tree_fields, "name", FALSE),
  [FR_KIND_GIRTH] = KIND (FR_KIND_GIRTH, "girth", FrGirth, girth_fields, "measured_on", FALSE),
  [FR_KIND_TAP] = KIND (FR_KIND_TAP, "tap", FrTap, tap_fields, "note", FALSE),
  [FR_KIND_YIELD] = KIND (FR_KIND_YIELD, "yield", FrYield, yield_fields, "note", FALSE),
  [FR_KIND_FEATURE] = KIND (FR_KIND_FEATURE, "feature", FrFeature, feature_fields, "name", FALSE),
  [FR_KIND_GROUND] = KIND (FR_KIND_GROUND, "ground", FrGround, ground_fields, "picture", TRUE),
  [FR_KIND_TAPPING] = KIND (FR_KIND_TAPPING, "tapping", FrTapping, tapping_fields, "guideline", TRUE),
};

const FrKind *
fr_kind (FrKindId id)
{
  g_return_val_if_fail ((guint)id < FR_N_KINDS, NULL);

  if (id < FR_KIND_CONTAINER)
    return &kinds[id];
  return id < FR_KIND_STATION ? &fr_season_kinds[id - FR_KIND_CONTAINER] : &fr_weather_kinds[id - FR_KIND_STATION];
}

const FrKind *
fr_kind_by_name (const char *name)
{
  g_return_val_if_fail (name != NULL, NULL);

  for (guint i = 0; i < FR_N_KINDS; i++)
    if (strcmp (fr_kind (i)->name, name) == 0)
      return fr_kind (i);
  return NULL;
}

const FrField *
fr_kind_field (const FrKind *kind, const char *name)
{
  g_return_val_if_fail (kind != NULL && name != NULL, NULL);

  for (guint i = 0; i < kind->n_fields; i++)
    if (strcmp (kind->fields[i].name, name) == 0)
      return &kind->fields[i];
  return NULL;
}
