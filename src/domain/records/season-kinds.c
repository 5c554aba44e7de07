/* The description of the kinds of a season's sap: containers, gatherings, what was poured and found, days,
 * checklists, reminders put away, and the household's ways of keeping sap.
 *
 * Ranges are wide enough never to refuse an odd but real entry (common sense, no source); what is odd is
 * asked about when it is typed. Air from −70 to 60 °C: the coldest and the hottest places where people live
 * (from memory). */
#include "domain/records/kinds-private.h"

static const char *const role_codes[] = { "store", "bucket", NULL };
static const char *const store_place_codes[]
    = { "outdoors", "shed", "snowbank", "fridge", "cellar", "indoors", NULL };
static const char *const insulation_codes[] = { "bare", "wrapped", "chest", NULL };
static const char *const material_codes[]
    = { "unknown", "food_plastic", "other_plastic", "stainless", "enamel",
        "glass",   "aluminium",    "galvanised",    "soldered",  NULL };
static const char *const scope_codes[] = { "bush", "group", "tree", "tap", NULL };
static const char *const measured_by_codes[] = { "volume", "weight", "depth", NULL };
static const char *const clarity_codes[] = { "unknown", "clear", "hazy", "cloudy", "yellow", NULL };
static const char *const smell_codes[] = { "unknown", "fresh", "sour", "buddy", "other", NULL };
static const char *const reason_codes[] = { "moved", "boiled", "ice", "spilled", "spoiled", "drunk", NULL };
static const char *const buds_codes[] = { "unknown", "tight", "swelling", "open", NULL };
static const char *const task_codes[]
    = { "wash", "water_test", "material", "ground_fault", "rinse", "dry", NULL };
static const char *const outcome_codes[] = { "done", "not_needed", NULL };
static const char *const keeping_codes[] = { "careful", "published", "own", NULL };
const char *const fr_instrument_codes[] = {
  "refractometer_atc", "refractometer", "hydrometer_38f", "hydrometer_60f", "hydrometer_68f", "guess", NULL
};

static const FrField container_fields[] = {
  TEXT (FrContainer, name, NAME_CHARS, NEEDED),
  CODE (FrContainer, role, role_codes),
  AMOUNT (FrContainer, capacity_l, VOLUME, 0.1, 100000, NEEDED),
  CODE (FrContainer, place, store_place_codes),
  CODE (FrContainer, insulation, insulation_codes),
  CODE (FrContainer, material, material_codes),
  AMOUNT (FrContainer, made_in, PLAIN, 1600, 2400, OPTIONAL),
  AMOUNT (FrContainer, diameter_m, LENGTH, 0.01, 10, OPTIONAL),
  AMOUNT (FrContainer, top_diameter_m, LENGTH, 0.01, 10, OPTIONAL),
  AMOUNT (FrContainer, height_m, LENGTH, 0.01, 10, OPTIONAL),
  AMOUNT (FrContainer, empty_kg, MASS, 0, 1000, OPTIONAL),
  TEXT (FrContainer, note, NOTE_CHARS, OPTIONAL),
};

static const FrField gathering_fields[] = {
  TIME (FrGathering, gathered_utc, NEEDED),
  CODE (FrGathering, scope, scope_codes),
  REF (FrGathering, tree, TREE, OPTIONAL),
  REF (FrGathering, tap, TAP, OPTIONAL),
  TEXT (FrGathering, stand, NAME_CHARS, OPTIONAL),
  CODE (FrGathering, measured_by, measured_by_codes),
  AMOUNT (FrGathering, volume_l, VOLUME, 0, 100000, OPTIONAL),
  AMOUNT (FrGathering, weight_kg, MASS, 0, 100000, OPTIONAL),
  AMOUNT (FrGathering, depth_m, LENGTH, 0, 10, OPTIONAL),
  REF (FrGathering, bucket, CONTAINER, OPTIONAL),
  AMOUNT (FrGathering, reading_brix, SWEETNESS, 0, 90, OPTIONAL),
  CODE (FrGathering, instrument, fr_instrument_codes),
  AMOUNT (FrGathering, sample_c, TEMPERATURE, -5, 110, OPTIONAL),
  AMOUNT (FrGathering, sap_c, TEMPERATURE, -10, 60, OPTIONAL),
  CODE (FrGathering, clarity, clarity_codes),
  CODE (FrGathering, smell, smell_codes),
  TEXT (FrGathering, who, LINE_CHARS, OPTIONAL),
  REF (FrGathering, container, CONTAINER, OPTIONAL),
  AMOUNT (FrGathering, ice_l, VOLUME, 0, 100000, OPTIONAL),
  AMOUNT (FrGathering, ice_brix, SWEETNESS, 0, 90, OPTIONAL),
  BOOL (FrGathering, confirmed),
  TEXT (FrGathering, note, NOTE_CHARS, OPTIONAL),
};

static const FrField pour_fields[] = {
  TIME (FrPour, poured_utc, NEEDED),
  CODE (FrPour, reason, reason_codes),
  REF (FrPour, container, CONTAINER, OPTIONAL),
  REF (FrPour, target, CONTAINER, OPTIONAL),
  AMOUNT (FrPour, volume_l, VOLUME, 0, 100000, NEEDED),
  AMOUNT (FrPour, reading_brix, SWEETNESS, 0, 90, OPTIONAL),
  CODE (FrPour, instrument, fr_instrument_codes),
  AMOUNT (FrPour, sample_c, TEMPERATURE, -5, 110, OPTIONAL),
  REF (FrPour, night, NIGHT, OPTIONAL),
  BOOL (FrPour, confirmed),
  TEXT (FrPour, note, NOTE_CHARS, OPTIONAL),
};

static const FrField dip_fields[] = {
  TIME (FrDip, found_utc, NEEDED),
  REF (FrDip, container, CONTAINER, OPTIONAL),
  CODE (FrDip, measured_by, measured_by_codes),
  AMOUNT (FrDip, volume_l, VOLUME, 0, 100000, OPTIONAL),
  AMOUNT (FrDip, weight_kg, MASS, 0, 100000, OPTIONAL),
  AMOUNT (FrDip, depth_m, LENGTH, 0, 10, OPTIONAL),
  AMOUNT (FrDip, reading_brix, SWEETNESS, 0, 90, OPTIONAL),
  CODE (FrDip, instrument, fr_instrument_codes),
  AMOUNT (FrDip, sample_c, TEMPERATURE, -5, 110, OPTIONAL),
  AMOUNT (FrDip, temp_c, TEMPERATURE, -40, 60, OPTIONAL),
  AMOUNT (FrDip, ice_ratio, RATIO, 0, 1, OPTIONAL),
  CODE (FrDip, clarity, clarity_codes),
  CODE (FrDip, smell, smell_codes),
  BOOL (FrDip, confirmed),
  TEXT (FrDip, note, NOTE_CHARS, OPTIONAL),
};

static const FrField day_fields[] = {
  DATE (FrDay, day, NEEDED),
  AMOUNT (FrDay, low_c, TEMPERATURE, -70, 60, OPTIONAL),
  AMOUNT (FrDay, high_c, TEMPERATURE, -70, 60, OPTIONAL),
  BOOL (FrDay, expected),
  AMOUNT (FrDay, rain_m, LENGTH, 0, 2, OPTIONAL),
  CODE (FrDay, buds, buds_codes),
  TEXT (FrDay, note, NOTE_CHARS, OPTIONAL),
};

static const FrField chore_fields[] = {
  AMOUNT (FrChore, season, PLAIN, 1600, 2400, NEEDED),
  CODE (FrChore, task, task_codes),
  REF (FrChore, container, CONTAINER, OPTIONAL),
  REF (FrChore, vessel, VESSEL, OPTIONAL),
  REF (FrChore, cooker, COOKER, OPTIONAL),
  REF (FrChore, circuit, CIRCUIT, OPTIONAL),
  DATE (FrChore, done_on, NEEDED),
  CODE (FrChore, outcome, outcome_codes),
  TEXT (FrChore, who, LINE_CHARS, OPTIONAL),
  TEXT (FrChore, note, NOTE_CHARS, OPTIONAL),
};

static const FrField dismissal_fields[] = {
  TEXT (FrDismissal, about, LINE_CHARS, NEEDED),
  TIME (FrDismissal, dismissed_utc, NEEDED),
};

static const FrField storing_fields[] = {
  CODE (FrStoring, keeping, keeping_codes),
  TEXT (FrStoring, own_rows, NOTE_CHARS, OPTIONAL),
  AMOUNT (FrStoring, tap_weeks, PLAIN, 1, 52, OPTIONAL),
  AMOUNT (FrStoring, filters, PLAIN, 0, 100000, OPTIONAL),
  AMOUNT (FrStoring, bottles, PLAIN, 0, 100000, OPTIONAL),
  TEXT (FrStoring, calendar_folder, NOTE_CHARS, OPTIONAL),
};

const FrKind fr_season_kinds[FR_KIND_STATION - FR_KIND_CONTAINER] = {
  [FR_KIND_CONTAINER - FR_KIND_CONTAINER]
  = KIND (FR_KIND_CONTAINER, "container", FrContainer, container_fields, "name", FALSE),
  [FR_KIND_GATHERING - FR_KIND_CONTAINER]
  = GROWING (FR_KIND_GATHERING, "gathering", FrGathering, gathering_fields, "note", "gathered_utc"),
  [FR_KIND_POUR - FR_KIND_CONTAINER]
  = GROWING (FR_KIND_POUR, "pour", FrPour, pour_fields, "note", "poured_utc"),
  [FR_KIND_DIP - FR_KIND_CONTAINER] = GROWING (FR_KIND_DIP, "dip", FrDip, dip_fields, "note", "found_utc"),
  [FR_KIND_DAY - FR_KIND_CONTAINER] = GROWING (FR_KIND_DAY, "day", FrDay, day_fields, "day", "day"),
  [FR_KIND_CHORE - FR_KIND_CONTAINER] = KIND (FR_KIND_CHORE, "chore", FrChore, chore_fields, "task", FALSE),
  [FR_KIND_DISMISSAL - FR_KIND_CONTAINER]
  = KIND (FR_KIND_DISMISSAL, "dismissal", FrDismissal, dismissal_fields, "about", FALSE),
  [FR_KIND_STORING - FR_KIND_CONTAINER]
  = KIND (FR_KIND_STORING, "storing", FrStoring, storing_fields, "keeping", TRUE),
};
