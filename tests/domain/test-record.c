/* Every field of every kind, found through the descriptions: whether making, copying, comparing and checking
 * reach all of it. The outside check is the struct itself, as the compiler laid it out, and the record's
 * promises in record.h. */
#include "sample-records.h"
#include "domain/records/kinds.h"
#include "domain/records/vessel-shape.h"

#include <math.h>
#include <string.h>

static gsize
field_size (const FrField *field)
{
  switch (field->type)
    {
    case FR_FIELD_AMOUNT:
      return sizeof (FrAmount);
    case FR_FIELD_BOOL:
      return sizeof (gboolean);
    case FR_FIELD_TIME:
    case FR_FIELD_REF:
      return sizeof (gint64);
    default:
      return sizeof (char *);
    }
}

/* Fields stand in struct order without a gap wider than padding, so no member is forgotten and none is listed
 * twice. */
static void
test_layout (gconstpointer data)
{
  const FrKind *kind = fr_kind (GPOINTER_TO_INT (data));
  gsize at = sizeof (FrRecord);

  g_assert_cmpint (kind->id, ==, GPOINTER_TO_INT (data));
  g_assert_true (fr_kind_by_name (kind->name) == kind);
  for (guint i = 0; i < kind->n_fields; i++)
    {
      const FrField *field = &kind->fields[i];
      g_assert_true (fr_kind_field (kind, field->name) == field);
      g_assert_cmpuint (field->offset, >=, at);
      g_assert_cmpuint (field->offset - at, <, 8);
      at = field->offset + field_size (field);
      if (field->type == FR_FIELD_CODE)
        g_assert_nonnull (field->codes[0]);
      if (field->type == FR_FIELD_AMOUNT || field->type == FR_FIELD_TIME)
        g_assert_cmpfloat (field->min, <, field->max);
      if (field->type == FR_FIELD_TEXT)
        g_assert_cmpfloat (field->max, >=, 3);
    }
  g_assert_cmpuint (kind->size - at, <, 8);
  if (kind->label_field != NULL)
    g_assert_nonnull (fr_kind_field (kind, kind->label_field));
}

/* What grows without end is placed in time by a field that is always there: an instant or a day. */
static void
test_time_field (gconstpointer data)
{
  const FrKind *kind = fr_kind (GPOINTER_TO_INT (data));
  static const FrKindId growing[] = { FR_KIND_GATHERING, FR_KIND_POUR, FR_KIND_DIP, FR_KIND_DAY, FR_KIND_STATION_DAY,
                                       FR_KIND_OUTLOOK };
  gboolean expected = FALSE;

  for (guint i = 0; i < G_N_ELEMENTS (growing); i++)
    expected |= kind->id == growing[i];
  g_assert_true ((kind->time_field != NULL) == expected);
  if (kind->time_field != NULL)
    {
      const FrField *field = fr_kind_field (kind, kind->time_field);

      g_assert_true (field->type == FR_FIELD_TIME || field->type == FR_FIELD_DATE);
      g_assert_true (field->required);
    }
}

/* A stretch's first and last day are in it, its last instant is not; a kind that does not grow is in any. */
static void
test_in_span (void)
{
  const FrRecordSpan span = { 1000, 2000, { 2026, 12, 31 }, { 2027, 1, 2 } };
  static const struct
  {
    gint64 utc_s;
    gboolean in;
  } instants[] = { { 999, FALSE },  { 1000, TRUE },         { 1999, TRUE },
                   { 2000, FALSE }, { G_MININT64, FALSE }, { -5000, FALSE } };
  static const struct
  {
    const char *day;
    gboolean in;
  } days[] = { { "2026-12-30", FALSE }, { "2026-12-31", TRUE }, { "2027-01-01", TRUE }, { "2027-01-02", TRUE },
               { "2027-01-03", FALSE }, { "2026-12-3", FALSE }, { NULL, FALSE } };
  g_autoptr (FrRecord) tree = fr_record_new (FR_KIND_TREE);

  g_assert_true (fr_record_in_span (tree, &span));
  for (guint k = 0; k < FR_N_KINDS; k++)
    {
      g_autoptr (FrRecord) record = fr_record_new (k);
      const FrField *field
          = record->kind->time_field != NULL ? fr_kind_field (record->kind, record->kind->time_field) : NULL;

      for (guint i = 0; i < G_N_ELEMENTS (instants) && field != NULL && field->type == FR_FIELD_TIME; i++)
        {
          fr_record_set_int (record, field, instants[i].utc_s);
          g_assert_true (fr_record_in_span (record, &span) == instants[i].in);
        }
      for (guint i = 0; i < G_N_ELEMENTS (days) && field != NULL && field->type == FR_FIELD_DATE; i++)
        {
          fr_record_set_text (record, field, days[i].day);
          g_assert_true (fr_record_in_span (record, &span) == days[i].in);
        }
    }
}

/* A record lives until its last holder lets go; a copy is a record of its own. The sanitizer's run sees the rest. */
static void
test_hold (void)
{
  FrRecord *record = sample_full (FR_KIND_GATHERING, 1);
  FrRecord *held = fr_record_hold (record);
  FrRecord *copy = fr_record_copy (held);

  g_assert_true (held == record);
  g_assert_true (copy != record);
  fr_record_free (record);
  g_assert_true (fr_record_equal (held, copy));
  fr_record_free (copy);
  copy = sample_full (FR_KIND_GATHERING, 1);
  g_assert_true (fr_record_equal (held, copy));
  fr_record_free (copy);
  fr_record_free (held);
}

/* House rule: an amount's name ends in its unit, or is a count of money. */
static void
test_units_in_names (gconstpointer data)
{
  static const struct
  {
    FrQuantityKind quantity;
    const char *suffix;
  } units[] = { { FR_QUANTITY_VOLUME, "_l" },      { FR_QUANTITY_TEMPERATURE, "_c" },
                { FR_QUANTITY_LENGTH, "_m" },      { FR_QUANTITY_ALTITUDE, "_m" },
                { FR_QUANTITY_POWER, "_w" },       { FR_QUANTITY_SWEETNESS, "brix" },
                { FR_QUANTITY_CURRENT, "_a" },     { FR_QUANTITY_VOLTAGE, "_v" },
                { FR_QUANTITY_ENERGY, "_kwh" },    { FR_QUANTITY_LOSS, "_w_per_k" },
                { FR_QUANTITY_HEAT, "_mj_per_kg" },
                { FR_QUANTITY_DISTANCE, "_m" },    { FR_QUANTITY_ANGLE, "_deg" },
                { FR_QUANTITY_MASS, "_kg" },       { FR_QUANTITY_DIFFERENCE, "_k" } };
  /* Years, counts, minutes of the day, joules on a square metre, and pixels of a picture. */
  static const char *const counts[] = { "season", "buckets", "max_trees", "season_days", "peak_ratio", "first_column",
                                        "first_row", "second_column", "second_row", "made_in", "tap_weeks", "filters",
                                        "bottles", "reading_minute", "gather_minute", "sun_j_per_m2", NULL };
  const FrKind *kind = fr_kind (GPOINTER_TO_INT (data));

  for (guint i = 0; i < kind->n_fields; i++)
    {
      const FrField *field = &kind->fields[i];
      gboolean known = field->type != FR_FIELD_AMOUNT;
      if (field->type == FR_FIELD_TIME)
        g_assert_true (g_str_has_suffix (field->name, "_utc"));
      if (field->quantity == FR_QUANTITY_RATIO)
        known = strstr (field->name, "ratio") != NULL;
      if (field->quantity == FR_QUANTITY_PRICE)
        known = strstr (field->name, "_per_k") != NULL;
      if (field->quantity == FR_QUANTITY_PLAIN && !known)
        known = strcmp (field->name, "plan_cost") == 0 || strcmp (field->name, "foam_ratio") == 0
                || g_strv_contains (counts, field->name);
      for (guint j = 0; j < G_N_ELEMENTS (units); j++)
        if (units[j].quantity == field->quantity && g_str_has_suffix (field->name, units[j].suffix))
          known = TRUE;
      if (!known)
        g_test_message ("%s.%s", kind->name, field->name);
      g_assert_true (known);
    }
}

static void
test_new_is_unknown (gconstpointer data)
{
  g_autoptr (FrRecord) record = fr_record_new (GPOINTER_TO_INT (data));

  g_assert_cmpint (record->id, ==, 0);
  g_assert_cmpstr (record->uid, ==, "");
  g_assert_false (record->archived);
  for (guint i = 0; i < record->kind->n_fields; i++)
    {
      const FrField *field = &record->kind->fields[i];
      switch (field->type)
        {
        case FR_FIELD_AMOUNT:
          g_assert_true (isnan (fr_record_amount (record, field)->value));
          g_assert_null (fr_record_amount (record, field)->typed);
          break;
        case FR_FIELD_CODE:
          g_assert_cmpstr (fr_record_text (record, field), ==, field->codes[0]);
          break;
        case FR_FIELD_TIME:
          g_assert_cmpint (fr_record_int (record, field), ==, G_MININT64);
          break;
        case FR_FIELD_BOOL:
        case FR_FIELD_REF:
          g_assert_cmpint (fr_record_int (record, field), ==, 0);
          break;
        default:
          g_assert_null (fr_record_text (record, field));
        }
    }
}

static void
test_equal_sees_every_field (gconstpointer data)
{
  g_autoptr (FrRecord) original = sample_full (GPOINTER_TO_INT (data), 1);

  for (guint i = 0; i < original->kind->n_fields; i++)
    {
      const FrField *field = &original->kind->fields[i];
      g_autoptr (FrRecord) copy = fr_record_copy (original);
      g_assert_true (fr_record_equal (original, copy));
      sample_mutate (copy, field);
      g_assert_false (fr_record_equal (original, copy));
      g_assert_false (fr_record_equal (copy, original));
      if (field->type != FR_FIELD_AMOUNT)
        continue;
      g_autoptr (FrRecord) typed = fr_record_copy (original);
      fr_record_set_amount (typed, field, fr_record_amount (original, field)->value, "otherwise");
      g_assert_false (fr_record_equal (original, typed));
      g_autoptr (FrRecord) unknown = fr_record_copy (original);
      fr_record_set_amount (unknown, field, NAN, NULL);
      g_assert_false (fr_record_equal (original, unknown));
      g_autoptr (FrRecord) again = fr_record_copy (unknown);
      g_assert_true (fr_record_equal (unknown, again));
    }
  g_autoptr (FrRecord) copy = fr_record_copy (original);
  copy->archived = TRUE;
  g_assert_false (fr_record_equal (original, copy));
  copy->archived = FALSE;
  copy->id = 2;
  g_assert_false (fr_record_equal (original, copy));
  copy->id = 1;
  copy->uid[3] = 'f';
  g_assert_false (fr_record_equal (original, copy));
  g_assert_false (fr_record_equal (original, NULL));
}

static void
assert_problem (const FrRecord *record, FrProblemCode code, const char *name, const char *other)
{
  g_autoptr (GArray) problems = fr_record_check (record);
  g_autofree char *wanted = g_strdup_printf ("%s.%s code %d", record->kind->name, name, code);
  g_test_message ("%s: %u problems", wanted, problems->len);
  for (guint i = 0; i < problems->len; i++)
    {
      const FrProblem *problem = &g_array_index (problems, FrProblem, i);
      if (problem->code == code && strcmp (problem->field->name, name) == 0
          && g_strcmp0 (problem->other != NULL ? problem->other->name : NULL, other) == 0)
        return;
    }
  g_assert_not_reached ();
}

static void
test_samples_pass (gconstpointer data)
{
  g_autoptr (FrRecord) full = sample_full (GPOINTER_TO_INT (data), 1);
  g_autoptr (FrRecord) sparse = sample_sparse (GPOINTER_TO_INT (data), 1);
  g_autoptr (GArray) full_problems = fr_record_check (full);
  g_autoptr (GArray) sparse_problems = fr_record_check (sparse);

  for (guint i = 0; i < full_problems->len; i++)
    g_test_message ("%s", g_array_index (full_problems, FrProblem, i).field->name);
  g_assert_cmpuint (full_problems->len, ==, 0);
  g_assert_cmpuint (sparse_problems->len, ==, 0);
}

static void
test_check_sees_every_field (gconstpointer data)
{
  g_autoptr (FrRecord) original = sample_full (GPOINTER_TO_INT (data), 1);
  g_autofree char *endless = g_strnfill (30000, 'x');

  for (guint i = 0; i < original->kind->n_fields; i++)
    {
      const FrField *field = &original->kind->fields[i];
      g_autoptr (FrRecord) record = fr_record_copy (original);
      switch (field->type)
        {
        case FR_FIELD_AMOUNT:
          fr_record_set_amount (record, field, nextafter (field->min, -INFINITY), NULL);
          assert_problem (record, FR_PROBLEM_BELOW, field->name, NULL);
          fr_record_set_amount (record, field, nextafter (field->max, INFINITY), NULL);
          assert_problem (record, FR_PROBLEM_ABOVE, field->name, NULL);
          fr_record_set_amount (record, field, -INFINITY, NULL);
          assert_problem (record, FR_PROBLEM_NOT_FINITE, field->name, NULL);
          fr_record_set_amount (record, field, field->max, endless);
          assert_problem (record, FR_PROBLEM_TOO_LONG, field->name, NULL);
          fr_record_set_amount (record, field, NAN, NULL);
          break;
        case FR_FIELD_CODE:
          fr_record_set_text (record, field, "no-such-code");
          assert_problem (record, FR_PROBLEM_NOT_A_CODE, field->name, NULL);
          fr_record_set_text (record, field, NULL);
          break;
        case FR_FIELD_DATE:
          fr_record_set_text (record, field, "2025-02-29");
          assert_problem (record, FR_PROBLEM_BAD_DATE, field->name, NULL);
          fr_record_set_text (record, field, NULL);
          break;
        case FR_FIELD_TEXT:
          fr_record_set_text (record, field, endless);
          assert_problem (record, FR_PROBLEM_TOO_LONG, field->name, NULL);
          fr_record_set_text (record, field, "\xff\xfe");
          assert_problem (record, FR_PROBLEM_BAD_TEXT, field->name, NULL);
          fr_record_set_text (record, field, NULL);
          break;
        case FR_FIELD_TIME:
          fr_record_set_int (record, field, G_MAXINT64);
          assert_problem (record, FR_PROBLEM_ABOVE, field->name, NULL);
          fr_record_set_int (record, field, G_MININT64);
          break;
        case FR_FIELD_REF:
          fr_record_set_int (record, field, -1);
          assert_problem (record, FR_PROBLEM_BELOW, field->name, NULL);
          fr_record_set_int (record, field, 0);
          break;
        case FR_FIELD_BOOL:
          continue;
        }
      if (field->required)
        assert_problem (record, FR_PROBLEM_MISSING, field->name, NULL);
    }
}

static void
amount (FrRecord *record, const char *name, double value)
{
  fr_record_set_amount (record, fr_kind_field (record->kind, name), value, NULL);
}

static void
text (FrRecord *record, const char *name, const char *value)
{
  fr_record_set_text (record, fr_kind_field (record->kind, name), value);
}

static void
test_vessel_shapes (void)
{
  static const char *const needs[][4] = { { "cylinder", "diameter_m", "height_m" },
                                          { "cone", "diameter_m", "top_diameter_m", "height_m" },
                                          { "cap", "diameter_m", "height_m" },
                                          { "box", "length_m", "width_m", "height_m" },
                                          { "table", "rows" } };
  for (guint i = 0; i < G_N_ELEMENTS (needs); i++)
    for (guint j = 1; j < 4 && needs[i][j] != NULL; j++)
      {
        g_autoptr (FrRecord) record = sample_full (FR_KIND_VESSEL, 1);
        text (record, "shape", needs[i][0]);
        g_autoptr (GArray) problems = fr_record_check (record);
        g_assert_cmpuint (problems->len, ==, 0);
        if (strcmp (needs[i][j], "rows") == 0)
          text (record, "rows", NULL);
        else
          amount (record, needs[i][j], NAN);
        assert_problem (record, FR_PROBLEM_MISSING, needs[i][j], NULL);
      }
}

static void
test_vessel_conflicts (void)
{
  g_autoptr (FrRecord) record = sample_full (FR_KIND_VESSEL, 1);
  amount (record, "cutoff_l", 6);
  assert_problem (record, FR_PROBLEM_CONFLICT, "cutoff_l", "hold_l");
  amount (record, "cutoff_l", 2);
  amount (record, "min_level_l", 6.5);
  assert_problem (record, FR_PROBLEM_CONFLICT, "min_level_l", "hold_l");
  amount (record, "min_level_l", NAN);
  /* A pot of 30.48 cm by 25 cm holds π/4 × 0.3048² × 0.25 m³ = 18.24 L. */
  amount (record, "hold_l", 18.3);
  assert_problem (record, FR_PROBLEM_CONFLICT, "hold_l", "height_m");
  amount (record, "hold_l", 18.2);
  g_autoptr (GArray) problems = fr_record_check (record);
  g_assert_cmpuint (problems->len, ==, 0);
  text (record, "shape", "cap");
  amount (record, "hold_l", 5);
  amount (record, "flat_diameter_m", 0.31);
  assert_problem (record, FR_PROBLEM_CONFLICT, "flat_diameter_m", "diameter_m");
  text (record, "shape", "box");
  amount (record, "corner_m", 0.21);
  assert_problem (record, FR_PROBLEM_CONFLICT, "corner_m", "width_m");
}

/* Boiling makes less of what was poured; nothing outside is needed to know it. */
static void
test_night_conflicts (void)
{
  g_autoptr (FrRecord) record = sample_full (FR_KIND_NIGHT, 1);

  amount (record, "pan_l", 2.5);
  amount (record, "bucket_l", 20);
  amount (record, "left_l", 0.8);
  amount (record, "bucket_left_l", 20.1);
  assert_problem (record, FR_PROBLEM_CONFLICT, "bucket_left_l", "bucket_l");
  amount (record, "bucket_left_l", NAN);
  amount (record, "left_l", 22.6);
  assert_problem (record, FR_PROBLEM_CONFLICT, "left_l", "pan_l");
  amount (record, "left_l", 22.5);
  g_autoptr (GArray) problems = fr_record_check (record);
  g_assert_cmpuint (problems->len, ==, 0);
}

static void
test_rows (void)
{
  static const struct
  {
    const char *text;
    guint n;
    guint bad_line;
  } cases[] = {
    { "0 0\n5 2.5", 2, 0 },
    { "5 2,5\n10\t6\n", 2, 0 },
    { "# depth litres\n\n 1 1 \r\n2 3", 2, 0 },
    { "1 1", 0, 0 },
    { "", 0, 0 },
    { "1 1\n1 2", 0, 2 },
    { "1 1\n2 1", 0, 2 },
    { "1 1\n2", 0, 2 },
    { "1 1\n2 3 4", 0, 2 },
    { "1 1\n\n2 x", 0, 3 },
    { "1 1\n2 1,500", 0, 2 },
    { "-1 0\n1 1", 0, 1 },
    { "1 1\n2 nan", 0, 2 },
    { "1 1\n2 1e3", 0, 2 },
    { "1 1\n2 1.2.3", 0, 2 },
  };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      FrVessel vessel = { 0 };
      guint line = 99;
      gboolean ok = fr_vessel_rows_parse (cases[i].text, &vessel, &line);
      g_test_message ("case %u", i);
      g_assert_cmpint (ok, ==, cases[i].n > 0);
      g_assert_cmpuint (line, ==, cases[i].bad_line);
      if (ok)
        g_assert_cmpuint (vessel.n_rows, ==, cases[i].n);
    }
  FrVessel vessel = { 0 };
  guint line;
  g_assert_true (fr_vessel_rows_parse ("5 2,5\n10 6", &vessel, &line));
  g_assert_cmpfloat (vessel.row_depth_m[1], ==, 0.1);
  g_assert_cmpfloat (vessel.row_l[0], ==, 2.5);
}

static void
test_household_texts (void)
{
  g_autoptr (FrRecord) record = sample_full (FR_KIND_HOUSEHOLD, 1);
  text (record, "currency", "cad");
  assert_problem (record, FR_PROBLEM_BAD_TEXT, "currency", NULL);
  text (record, "currency", "CAD");
  text (record, "measures", "bucket = 11\npail 7");
  g_autoptr (GArray) problems = fr_record_check (record);
  g_assert_cmpuint (problems->len, ==, 1);
  g_assert_cmpuint (g_array_index (problems, FrProblem, 0).line, ==, 2);
  text (record, "measures", NULL);
  text (record, "zone", "  ");
  assert_problem (record, FR_PROBLEM_MISSING, "zone", NULL);
}

static void
assert_bad_line (const FrRecord *record, const char *name, guint line)
{
  g_autoptr (GArray) problems = fr_record_check (record);
  g_assert_cmpuint (problems->len, ==, 1);
  const FrProblem *problem = &g_array_index (problems, FrProblem, 0);
  g_assert_cmpint (problem->code, ==, FR_PROBLEM_BAD_TEXT);
  g_assert_cmpstr (problem->field->name, ==, name);
  g_assert_cmpuint (problem->line, ==, line);
}

static void
test_tariff_texts (void)
{
  g_autoptr (FrRecord) record = sample_full (FR_KIND_TARIFF, 1);
  text (record, "periods", "01-01 12-31 all 19:00 07:00 9.8\n01-01 12-31 all 07:00 19:00 dear");
  assert_bad_line (record, "periods", 2);
  /* Not covered from 07:00 to 19:00. */
  text (record, "periods", "01-01 12-31 all 19:00 07:00 9.8");
  assert_problem (record, FR_PROBLEM_BAD_TEXT, "periods", NULL);
  text (record, "periods", "01-01 12-31 all 00:00 24:00 9.8");
  text (record, "holidays", "# spring\n\n2025-04-18\n2025-04-31");
  assert_bad_line (record, "holidays", 4);
  /* An unknown adder or tax is none, and no mistake. */
  text (record, "holidays", "# spring\n\n2025-04-18");
  amount (record, "adder_per_kwh", NAN);
  amount (record, "tax_ratio", NAN);
  g_autoptr (GArray) problems = fr_record_check (record);
  g_assert_cmpuint (problems->len, ==, 0);
}

static void
test_sap_and_night (void)
{
  g_autoptr (FrRecord) gathering = sample_full (FR_KIND_GATHERING, 1), pour = sample_full (FR_KIND_POUR, 1);
  amount (gathering, "weight_kg", NAN);
  assert_problem (gathering, FR_PROBLEM_MISSING, "weight_kg", NULL);
  text (gathering, "measured_by", "volume");
  g_autoptr (GArray) problems = fr_record_check (gathering);
  g_assert_cmpuint (problems->len, ==, 0);
  ((FrGathering *)gathering)->tree = 0;
  assert_problem (gathering, FR_PROBLEM_MISSING, "tree", NULL);
  ((FrPour *)pour)->target = 2;
  assert_problem (pour, FR_PROBLEM_CONFLICT, "target", "reason");

  g_autoptr (FrRecord) night = sample_full (FR_KIND_NIGHT, 1);
  ((FrNight *)night)->end_utc = ((FrNight *)night)->start_utc - 1;
  assert_problem (night, FR_PROBLEM_CONFLICT, "end_utc", "start_utc");
  ((FrNight *)night)->end_utc = G_MININT64;
  text (night, "evening", "2025-3-8");
  assert_problem (night, FR_PROBLEM_BAD_DATE, "evening", NULL);
}

/* A value that is not there cannot be estimated, one that is there is not absent; nothing outside is needed to know it. */
static void
test_weather (void)
{
  g_autoptr (FrRecord) station = sample_full (FR_KIND_STATION, 1), day = sample_full (FR_KIND_STATION_DAY, 1);
  g_autoptr (FrRecord) outlook = sample_full (FR_KIND_OUTLOOK, 1), way = sample_full (FR_KIND_FORECASTING, 1);

  amount (station, "latitude_deg", NAN);
  assert_problem (station, FR_PROBLEM_CONFLICT, "latitude_deg", "longitude_deg");
  amount (station, "latitude_deg", 44);
  amount (station, "longitude_deg", NAN);
  assert_problem (station, FR_PROBLEM_CONFLICT, "longitude_deg", "latitude_deg");
  amount (station, "longitude_deg", -72);
  amount (station, "reading_minute", 419.5);
  assert_problem (station, FR_PROBLEM_NOT_WHOLE, "reading_minute", NULL);

  text (day, "high_mark", "absent");
  assert_problem (day, FR_PROBLEM_CONFLICT, "high_mark", "high_c");
  text (day, "high_mark", "refused");
  assert_problem (day, FR_PROBLEM_CONFLICT, "high_mark", "high_c");
  amount (day, "high_c", NAN);
  amount (day, "low_c", NAN);
  assert_problem (day, FR_PROBLEM_CONFLICT, "low_mark", "low_c");
  text (day, "low_mark", "plain");
  g_autoptr (GArray) problems = fr_record_check (day);
  g_assert_cmpuint (problems->len, ==, 0);
  amount (day, "low_c", 3);
  amount (day, "high_c", 2.9);
  text (day, "high_mark", "plain");
  assert_problem (day, FR_PROBLEM_CONFLICT, "high_c", "low_c");

  text (outlook, "body", "from 2025-03-09\nlow -4 200");
  assert_bad_line (outlook, "body", 2);
  text (way, "base_address", "ftp://weather.invalid");
  assert_bad_line (way, "base_address", 1);
  text (way, "base_address", "http://127.0.0.1:8080");
  amount (way, "gather_minute", 0.5);
  assert_problem (way, FR_PROBLEM_NOT_WHOLE, "gather_minute", NULL);
}

static void
test_set_amount_from_itself (void)
{
  g_autoptr (FrRecord) record = sample_full (FR_KIND_CIRCUIT, 1);
  FrCircuit *circuit = (FrCircuit *)record;
  fr_amount_set (&circuit->breaker_a, 21, circuit->breaker_a.typed);
  g_assert_cmpstr (circuit->breaker_a.typed, ==, "20");
  fr_amount_set (&circuit->breaker_a, 21, "");
  g_assert_null (circuit->breaker_a.typed);
  g_assert_cmpstr (fr_record_label (record), ==, "Shed, left outlet");
  g_autoptr (FrRecord) empty = fr_record_new (FR_KIND_GATHERING);
  g_assert_cmpstr (fr_record_label (empty), ==, "");
  g_assert_null (fr_kind_by_name ("cauldron"));
  g_assert_null (fr_kind_field (fr_kind (FR_KIND_VESSEL), "colour"));
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *name;
    GTestDataFunc run;
  } each[] = { { "layout", test_layout },
               { "units-in-names", test_units_in_names },
               { "new-is-unknown", test_new_is_unknown },
               { "equal-sees-every-field", test_equal_sees_every_field },
               { "samples-pass", test_samples_pass },
               { "check-sees-every-field", test_check_sees_every_field },
               { "time-field", test_time_field } };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (each); i++)
    for (int kind = 0; kind < FR_N_KINDS; kind++)
      {
        g_autofree char *path = g_strdup_printf ("/record/%s/%s", each[i].name, fr_kind (kind)->name);
        g_test_add_data_func (path, GINT_TO_POINTER (kind), each[i].run);
      }
  g_test_add_func ("/record/in-span", test_in_span);
  g_test_add_func ("/record/hold", test_hold);
  g_test_add_func ("/record/vessel-shapes", test_vessel_shapes);
  g_test_add_func ("/record/vessel-conflicts", test_vessel_conflicts);
  g_test_add_func ("/record/night-conflicts", test_night_conflicts);
  g_test_add_func ("/record/rows", test_rows);
  g_test_add_func ("/record/household-texts", test_household_texts);
  g_test_add_func ("/record/tariff-texts", test_tariff_texts);
  g_test_add_func ("/record/sap-and-night", test_sap_and_night);
  g_test_add_func ("/record/weather", test_weather);
  g_test_add_func ("/record/set-amount-from-itself", test_set_amount_from_itself);
  return g_test_run ();
}
