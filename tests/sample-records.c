/* The invented household of the tests. Values are chosen to be told apart from their neighbours, so that two
 * swapped columns are noticed. */
#include "sample-records.h"

#include <math.h>
#include <string.h>

typedef struct
{
  const char *field;
  const char *text; /* texts, codes, dates, and how an amount was typed */
  double value;     /* amounts and whole numbers */
} Sample;

static const Sample household[] = { { "name", "Ahornweg 3" },
                                    { "place", "Nordtal, bei der Brücke" },
                                    { "zone", "America/Toronto" },
                                    { "currency", "CAD" },
                                    { "units", "us" },
                                    { "sweetness", "baume" },
                                    { "measures", "bucket = 11\npail = 7.5" },
                                    { "altitude_m", "820 ft", 249.936 },
                                    { "syrup_brix", "66.9", 66.9 },
                                    { "jar_l", "250 ml", 0.25 },
                                    { NULL } };
static const Sample circuit[]
    = { { "name", "Shed, left outlet" }, { "breaker_a", "20", 20 }, { "volts_v", NULL, 120 },
        { "other_load_w", "60 W", 60 },  { "gfci", NULL, 1 },       { NULL } };
static const Sample vessel[] = { { "name", "Big pot" },
                                 { "shape", "cylinder" },
                                 { "diameter_m", "12 in", 0.3048 },
                                 { "top_diameter_m", "33 cm", 0.33 },
                                 { "flat_diameter_m", "8", 0.08 },
                                 { "length_m", "60 cm", 0.6 },
                                 { "width_m", "40 cm", 0.4 },
                                 { "corner_m", "2 cm", 0.02 },
                                 { "height_m", "25", 0.25 },
                                 { "rows", "0 0\n5 2.5\n10 6" },
                                 { "hold_l", "6", 6 },
                                 { "cutoff_l", "2 ½", 2.5 },
                                 { "min_level_l", "1.5", 1.5 },
                                 { "foam_ratio", "1", 1 },
                                 { "cover", "wrapped" },
                                 { "wall_w_per_k", NULL, 1.25 },
                                 { "bucket_l", "2 buckets", 22 },
                                 { "feed", "hole" },
                                 { "head_m", "60 cm", 0.61 },
                                 { "hole_m", "1,5 mm", 0.0015 },
                                 { "solder", NULL, 1 },
                                 { NULL } };
static const Sample cooker[] = { { "name", "Hot plate" },
                                 { "power_w", "1800", 1800 },
                                 { "heat_ratio", "85 %", 0.85 },
                                 { "heat_ratio_sd", NULL, 0.03 },
                                 { "ratio_holds_wall", NULL, 1 },
                                 { "reflux_ratio", "10", 0.1 },
                                 { "vessel", NULL, 1 },
                                 { "circuit", NULL, 1 },
                                 { "place", "shed" },
                                 { "cutoff_by", "float" },
                                 { NULL } };
static const Sample tariff[]
    = { { "name", "By the hour" },
        { "periods", "01-01 12-31 all 19:00 07:00 9.8\n01-01 12-31 all 07:00 19:00 20.3" },
        { "holidays", "2025-04-18\n2025-12-25" },
        { "adder_per_kwh", "1.25", 1.25 },
        { "tax_ratio", "13", 0.13 },
        { "in_use", NULL, 1 },
        { NULL } };
static const Sample fuel[] = { { "name", "Gas bottle" },
                               { "fuel", "propane" },
                               { "price_per_kg", "210", 210 },
                               { "heat_mj_per_kg", "50.35", 50.35 },
                               { "heat_ratio", "40", 0.4 },
                               { "flame", NULL, 1 },
                               { NULL } };
static const Sample night[] = { { "evening", "2025-03-08" },
                                { "cooker", NULL, 1 },
                                { "start_utc", NULL, 1741492800 },
                                { "off_by_utc", NULL, 1741521600 },
                                { "pan_l", "1.5", 1.5 },
                                { "pan_brix", "2", 2 },
                                { "pan_c", "3", 3 },
                                { "bucket_l", "12", 12 },
                                { "sap_brix", "2.1", 2.1 },
                                { "sap_c", "4", 4 },
                                { "air_c", "-3", -3 },
                                { "water_boils_c", "99.2", 99.2 },
                                { "max_brix", "60", 60 },
                                { "heat_ratio", NULL, 0.85 },
                                { "plan_dry_utc", NULL, 1741514400 },
                                { "plan_end_utc", NULL, 1741516560 },
                                { "plan_left_l", NULL, 0.8 },
                                { "plan_brix", NULL, 31.3 },
                                { "plan_energy_kwh", NULL, 11.88 },
                                { "plan_cost", NULL, 131 },
                                { "left_l", "0.9", 0.9 },
                                { "left_brix", "28", 28 },
                                { "left_boil_c", "100.4", 100.4 },
                                { "bucket_left_l", "1 qt", 0.946352946 },
                                { "meter_kwh", "1123.4", 1123.4 },
                                { "end_utc", NULL, 1741516800 },
                                { "learned_ratio", NULL, 0.83 },
                                { "learned_ratio_sd", NULL, 0.02 },
                                { "note", "snow on the lid" },
                                { NULL } };

static const Sample tree[] = { { "name", "Lower gate" },
                               { "species", "silver" },
                               { "x_m", "12.5", 12.5 },
                               { "y_m", "-3 ft", -0.9144 },
                               { "elevation_m", "181.5", 181.5 },
                               { "measured_from", "Gate" },
                               { "from_distance_m", "41 ft", 12.4968 },
                               { "from_bearing_deg", "230", 230 },
                               { "crown", "wide" },
                               { "health", "weak" },
                               { "dead_limbs", NULL, 1 },
                               { "wires", NULL, 1 },
                               { "lean", NULL, 1 },
                               { "roadside", NULL, 1 },
                               { "permission", "granted" },
                               { "owner", "the neighbour" },
                               { "choice", "must" },
                               { "photo", "lower gate.jpg" },
                               { "note", "two stems" },
                               { "foreign_data", "{\"gpx\":{}}" },
                               { "stand", "Hedge" },
                               { NULL } };

static const Sample girth[] = { { "tree", NULL, 1 },
                                { "measured_on", "2025-01-18" },
                                { "measure", "diameter" },
                                { "size_m", "18 in", 0.4572 },
                                { NULL } };

static const Sample tap[] = { { "tree", NULL, 1 },
                              { "season", "2025", 2025 },
                              { "set_on", "2025-02-22" },
                              { "set_by", "the youngest" },
                              { "depth_m", "1.5 in", 0.0381 },
                              { "bore_m", "0.8", 0.008 },
                              { "height_m", "80", 0.8 },
                              { "direction_deg", "135", 135 },
                              { "spout", "tree saver" },
                              { "container", "pail with a lid" },
                              { "container_l", "2 gal", 7.570823568 },
                              { "pulled_on", "2025-04-06" },
                              { "closed_on", "2027-06-01" },
                              { "note", "slow" },
                              { NULL } };

static const Sample yield[] = { { "tree", NULL, 1 },
                                { "season", "2025", 2025 },
                                { "volume_l", "31", 31 },
                                { "reading_brix", "2.4", 2.4 },
                                { "instrument", "refractometer" },
                                { "sample_c", "4", 4 },
                                { "note", "from the pencil marks" },
                                { NULL } };

static const Sample feature[]
    = { { "name", "Lane" }, { "form", "lane" }, { "points", "0 0\n12.5 -3.25\n40 10" }, { NULL } };

static const Sample ground[] = { { "anchor_x_m", "0", 0 },
                                 { "anchor_y_m", "0", 0 },
                                 { "anchor_lat_deg", "44.2601", 44.2601 },
                                 { "anchor_lon_deg", "-72.5802", -72.5802 },
                                 { "declination_deg", "-14", -14 },
                                 { "picture", "bush.jpg" },
                                 { "picture_shown", NULL, 1 },
                                 { "first_column", "100", 100 },
                                 { "first_row", "80", 80 },
                                 { "first_x_m", "0", 0 },
                                 { "first_y_m", "0", 0 },
                                 { "second_column", "900", 900 },
                                 { "second_row", "700", 700 },
                                 { "second_x_m", "80", 80 },
                                 { "second_y_m", "-62", -62 },
                                 { NULL } };

static const Sample tapping[] = { { "guideline", "facts" },      { "spacing", "two_six" },
                                  { "sideways_m", "15", 0.15 },  { "up_down_m", "30", 0.3 },
                                  { "min_height_m", "60", 0.6 }, { "max_height_m", "120", 1.2 },
                                  { "pail_l", "20", 20 },        { "buckets", "18", 18 },
                                  { "max_trees", "12", 12 },     { "walk_m", "500", 500 },
                                  { "peak_boil_l", "45", 45 },   { "season_days", "35", 35 },
                                  { "peak_ratio", "3", 3 },      { NULL } };

static const Sample container[] = { { "name", "Snow bank can" },       { "role", "store" },
                                    { "capacity_l", "8 gal", 30.283 }, { "place", "snowbank" },
                                    { "insulation", "wrapped" },       { "material", "stainless" },
                                    { "made_in", "2019", 2019 },       { "diameter_m", "28 cm", 0.28 },
                                    { "top_diameter_m", "31", 0.31 },  { "height_m", "45 cm", 0.45 },
                                    { "empty_kg", "1.4", 1.4 },        { "note", "lid cracked" },
                                    { NULL } };
static const Sample gathering[] = { { "gathered_utc", NULL, 1741467600 },
                                    { "scope", "tree" },
                                    { "tree", NULL, 1 },
                                    { "tap", NULL, 1 },
                                    { "stand", "Hedge" },
                                    { "measured_by", "weight" },
                                    { "volume_l", "5.5", 5.5 },
                                    { "weight_kg", "14 lb", 6.35029318 },
                                    { "depth_m", "11 cm", 0.11 },
                                    { "bucket", NULL, 1 },
                                    { "reading_brix", "2.3", 2.3 },
                                    { "instrument", "hydrometer_68f" },
                                    { "sample_c", "6", 6 },
                                    { "sap_c", "1.5", 1.5 },
                                    { "clarity", "hazy" },
                                    { "smell", "sour" },
                                    { "who", "Ilse" },
                                    { "container", NULL, 1 },
                                    { "ice_l", "0.75", 0.75 },
                                    { "ice_brix", "0.4", 0.4 },
                                    { "confirmed", NULL, 1 },
                                    { "note", "lid was off" },
                                    { NULL } };
static const Sample pour[] = { { "poured_utc", NULL, 1741474800 },
                               { "reason", "boiled" },
                               { "container", NULL, 1 },
                               { "target", NULL, 0 },
                               { "volume_l", "3 qt", 2.839058838 },
                               { "reading_brix", "2.2", 2.2 },
                               { "instrument", "refractometer" },
                               { "sample_c", "12", 12 },
                               { "night", NULL, 1 },
                               { "confirmed", NULL, 1 },
                               { "note", "two pots" },
                               { NULL } };
static const Sample dip[] = { { "found_utc", NULL, 1741500000 },
                              { "container", NULL, 1 },
                              { "measured_by", "depth" },
                              { "volume_l", "17", 17 },
                              { "weight_kg", "18.5", 18.5 },
                              { "depth_m", "24", 0.24 },
                              { "reading_brix", "2.6", 2.6 },
                              { "instrument", "hydrometer_38f" },
                              { "sample_c", "3", 3 },
                              { "temp_c", "-0.2", -0.2 },
                              { "ice_ratio", "15 %", 0.15 },
                              { "clarity", "clear" },
                              { "smell", "fresh" },
                              { "confirmed", NULL, 1 },
                              { "note", "skin of ice" },
                              { NULL } };
static const Sample one_day[] = { { "day", "2025-03-08" }, { "low_c", "-7", -7 },     { "high_c", "39 F", 3.8888888888888888 },
                              { "expected", NULL, 1 }, { "rain_m", "4 mm", 0.004 }, { "buds", "swelling" },
                              { "note", "fog till ten" }, { NULL } };
static const Sample chore[] = { { "season", "2025", 2025 }, { "task", "ground_fault" }, { "container", NULL, 0 },
                                { "vessel", NULL, 0 },      { "cooker", NULL, 0 },      { "circuit", NULL, 1 },
                                { "done_on", "2025-02-21" }, { "outcome", "not_needed" }, { "who", "Ilse" },
                                { "note", "button sticks" }, { NULL } };
static const Sample dismissal[] = { { "about", "taps-old:2025" }, { "dismissed_utc", NULL, 1741510800 }, { NULL } };
static const Sample storing[] = { { "keeping", "own" },     { "own_rows", "2 60\n10 20" }, { "tap_weeks", "5", 5 },
                                  { "filters", "2", 2 },    { "bottles", "14", 14 },       { "calendar_folder", "/home/ilse/Shared" },
                                  { NULL } };

static const Sample station[] = { { "name", "Old mill" },
                                  { "source", "nws" },
                                  { "station_key", "XQ000001" },
                                  { "latitude_deg", "44.31", 44.31 },
                                  { "longitude_deg", "-72.45", -72.45 },
                                  { "altitude_m", "900 ft", 274.32 },
                                  { "reading_minute", "420", 420 },
                                  { "shift_highs", "yes" },
                                  { "low_offset_k", "-1.5", -1.5 },
                                  { "high_offset_k", "0.5", 0.5 },
                                  { "attribution", "Figures of the mill" },
                                  { "note", "down in the valley" },
                                  { NULL } };
static const Sample station_day[] = { { "station", NULL, 1 },
                                      { "day", "2025-03-08" },
                                      { "low_c", "-6", -6 },
                                      { "high_c", "41 F", 5 },
                                      { "rain_m", "2 mm", 0.002 },
                                      { "snow_m", "30", 0.3 },
                                      { "sun_j_per_m2", NULL, 14.5e6 },
                                      { "low_mark", "estimated" },
                                      { "high_mark", "plain" },
                                      { NULL } };
static const Sample outlook[] = { { "station", NULL, 1 },
                                  { "issued_utc", NULL, 1741442400 },
                                  { "fetched_utc", NULL, 1741444200 },
                                  { "body", "from 2025-03-09\nlow -4 .\nhigh 6.5 8\nhours 1741460400 3600 1 2.5" },
                                  { NULL } };
static const Sample forecasting[] = { { "service", "open-meteo" },
                                      { "base_address", "https://weather.invalid/v1" },
                                      { "contact", "ilse@household.invalid" },
                                      { "gather_minute", "1050", 1050 },
                                      { "error_first_k", "1.2", 1.2 },
                                      { "error_week_k", "3.1", 3.1 },
                                      { "error_memory_ratio", "60", 0.6 },
                                      { NULL } };

static const Sample *const samples[FR_N_KINDS]
    = { [FR_KIND_HOUSEHOLD] = household, [FR_KIND_CIRCUIT] = circuit, [FR_KIND_VESSEL] = vessel,
        [FR_KIND_COOKER] = cooker,       [FR_KIND_TARIFF] = tariff,   [FR_KIND_FUEL] = fuel,
        [FR_KIND_NIGHT] = night,     [FR_KIND_TREE] = tree,
        [FR_KIND_GIRTH] = girth,         [FR_KIND_TAP] = tap,         [FR_KIND_YIELD] = yield,
        [FR_KIND_FEATURE] = feature,     [FR_KIND_GROUND] = ground,   [FR_KIND_TAPPING] = tapping,
        [FR_KIND_CONTAINER] = container, [FR_KIND_GATHERING] = gathering, [FR_KIND_POUR] = pour,
        [FR_KIND_DIP] = dip,             [FR_KIND_DAY] = one_day,        [FR_KIND_CHORE] = chore,
        [FR_KIND_DISMISSAL] = dismissal, [FR_KIND_STORING] = storing,
        [FR_KIND_STATION] = station,     [FR_KIND_STATION_DAY] = station_day, [FR_KIND_OUTLOOK] = outlook,
        [FR_KIND_FORECASTING] = forecasting };

static const FrField *
field_of (const FrRecord *record, const char *name)
{
  const FrField *field = fr_kind_field (record->kind, name);
  g_assert_nonnull (field);
  return field;
}

static void
set (FrRecord *record, const Sample *sample)
{
  const FrField *field = field_of (record, sample->field);
  switch (field->type)
    {
    case FR_FIELD_TEXT:
    case FR_FIELD_CODE:
    case FR_FIELD_DATE:
      fr_record_set_text (record, field, sample->text);
      break;
    case FR_FIELD_AMOUNT:
      fr_record_set_amount (record, field, sample->value, sample->text);
      break;
    case FR_FIELD_BOOL:
    case FR_FIELD_TIME:
    case FR_FIELD_REF:
      fr_record_set_int (record, field, (gint64)sample->value);
      break;
    }
}

static FrRecord *
sample (FrKindId kind, gint64 id)
{
  FrRecord *record = fr_record_new (kind);
  record->id = id;
  /* The books kept in fixtures had one more kind before the nights. */
  g_snprintf (record->uid, sizeof record->uid, "%016x%016" G_GINT64_MODIFIER "x", kind + 1 + (kind >= FR_KIND_NIGHT), id);
  return record;
}

/* No two days of a book or a station are the same, and no two forecasts of one. */
static void
set_day (FrRecord *record)
{
  g_autofree char *day = NULL;

  if (record->kind->id == FR_KIND_OUTLOOK)
    fr_record_set_int (record, field_of (record, "issued_utc"), 1741442400 + 3600 * record->id);
  if (record->kind->id != FR_KIND_DAY && record->kind->id != FR_KIND_STATION_DAY)
    return;
  day = fr_date_to_iso (fr_date_from_days (fr_date_to_days ((FrDate){ 2025, 3, 7 }) + record->id));
  fr_record_set_text (record, field_of (record, "day"), day);
}

FrRecord *
sample_full (FrKindId kind, gint64 id)
{
  FrRecord *record = sample (kind, id);
  guint n = 0;
  for (const Sample *s = samples[kind]; s->field != NULL; s++, n++)
    set (record, s);
  g_assert_cmpuint (n, ==, record->kind->n_fields);
  set_day (record);
  return record;
}

FrRecord *
sample_sparse (FrKindId kind, gint64 id)
{
  FrRecord *record = sample (kind, id);
  for (const Sample *s = samples[kind]; s->field != NULL; s++)
    if (field_of (record, s->field)->required
        || (kind == FR_KIND_VESSEL
            && (strcmp (s->field, "diameter_m") == 0 || strcmp (s->field, "height_m") == 0))
        || (kind == FR_KIND_GATHERING && strcmp (s->field, "volume_l") == 0)
        || (kind == FR_KIND_DIP && strcmp (s->field, "temp_c") == 0))
      set (record, s);
  if (kind == FR_KIND_STORING)
    fr_record_set_text (record, field_of (record, "keeping"), "careful");
  else if (kind == FR_KIND_STATION_DAY)
    {
      fr_record_set_text (record, field_of (record, "low_mark"), "refused");
      fr_record_set_text (record, field_of (record, "high_mark"), "absent");
    }
  else if (kind == FR_KIND_GATHERING)
    {
      fr_record_set_text (record, field_of (record, "scope"), "bush");
      fr_record_set_text (record, field_of (record, "measured_by"), "volume");
    }
  set_day (record);
  record->archived = TRUE;
  return record;
}

void
sample_mutate (FrRecord *record, const FrField *field)
{
  switch (field->type)
    {
    case FR_FIELD_TEXT:
    case FR_FIELD_CODE:
    case FR_FIELD_DATE:
      {
        g_autofree char *text = g_strconcat (fr_record_text (record, field), "x", NULL);
        fr_record_set_text (record, field, text);
        break;
      }
    case FR_FIELD_AMOUNT:
      {
        double value = fr_record_amount (record, field)->value;
        fr_record_set_amount (record, field, isnan (value) ? 1.0 : nextafter (value, INFINITY),
                              fr_record_amount (record, field)->typed);
        break;
      }
    case FR_FIELD_BOOL:
      fr_record_set_int (record, field, !fr_record_int (record, field));
      break;
    case FR_FIELD_TIME:
    case FR_FIELD_REF:
      fr_record_set_int (record, field, fr_record_int (record, field) + 1);
      break;
    }
}

FrChange *
sample_book (guint per_kind)
{
  FrChange *change = fr_change_new ("import-book", NULL);
  for (int kind = 0; kind < FR_N_KINDS; kind++)
    for (guint i = 0; i < (fr_kind (kind)->single ? MIN (per_kind, 1) : per_kind); i++)
      {
        g_autoptr (FrRecord) record = i % 2 == 0 ? sample_full (kind, i + 1) : sample_sparse (kind, i + 1);
        fr_change_add (change, NULL, record);
      }
  return change;
}
