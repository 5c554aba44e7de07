/* What may be kept. First every field by its description: there, finite, in range, one of its codes, a real
 * date, not too long. Then, for a record that passed, what its kind asks beyond single fields: structured
 * texts that must be readable and fields that contradict each other. The answers are codes with the field;
 * words are made elsewhere. */
#include "domain/records/check-private.h"
#include "domain/records/ground-points.h"
#include "domain/records/vessel-shape.h"
#include "domain/maths/tariff.h"
#include "domain/units/money.h"

#include <math.h>
#include <string.h>

#define TYPED_CHARS 200

void
fr_check_add (GArray *problems, FrProblemCode code, const FrField *field, double limit, guint line)
{
  FrProblem problem = { .code = code, .field = field, .limit = limit, .line = line };
  g_array_append_val (problems, problem);
}

void
fr_check_add_conflict (GArray *problems, const FrRecord *record, const char *name, const char *other)
{
  FrProblem problem = { .code = FR_PROBLEM_CONFLICT,
                        .field = fr_kind_field (record->kind, name),
                        .other = fr_kind_field (record->kind, other),
                        .limit = NAN };
  g_array_append_val (problems, problem);
}

void
fr_check_add_bad_text (GArray *problems, const FrRecord *record, const char *name, guint line)
{
  fr_check_add (problems, FR_PROBLEM_BAD_TEXT, fr_kind_field (record->kind, name), NAN, line);
}

static void
check_range (GArray *problems, const FrField *field, double value)
{
  if (value < field->min)
    fr_check_add (problems, FR_PROBLEM_BELOW, field, field->min, 0);
  else if (value > field->max)
    fr_check_add (problems, FR_PROBLEM_ABOVE, field, field->max, 0);
}

/* Not a sequence of bytes that is no text, and not without end. */
static void
check_length (GArray *problems, const FrField *field, const char *text, double chars)
{
  if (!g_utf8_validate (text, -1, NULL))
    fr_check_add (problems, FR_PROBLEM_BAD_TEXT, field, NAN, 0);
  else if (g_utf8_strlen (text, -1) > (glong)chars)
    fr_check_add (problems, FR_PROBLEM_TOO_LONG, field, chars, 0);
}

gboolean
fr_check_is_blank (const char *text)
{
  return text == NULL || text[strspn (text, " \t\r\n")] == '\0';
}

static void
check_text (GArray *problems, const FrField *field, const char *text)
{
  if (fr_check_is_blank (text))
    {
      if (field->required)
        fr_check_add (problems, FR_PROBLEM_MISSING, field, NAN, 0);
      else if (text != NULL && field->type != FR_FIELD_TEXT)
        fr_check_add (problems, FR_PROBLEM_BAD_DATE, field, NAN, 0);
      else if (text != NULL)
        check_length (problems, field, text, field->max);
      return;
    }

  FrDate date;
  switch (field->type)
    {
    case FR_FIELD_CODE:
      if (!g_strv_contains (field->codes, text))
        fr_check_add (problems, FR_PROBLEM_NOT_A_CODE, field, NAN, 0);
      break;
    case FR_FIELD_DATE:
      if (strlen (text) != 10 || !fr_date_parse (text, &date))
        fr_check_add (problems, FR_PROBLEM_BAD_DATE, field, NAN, 0);
      break;
    default:
      check_length (problems, field, text, field->max);
      break;
    }
}

void
fr_record_check_field (GArray *problems, const FrRecord *record, const FrField *field)
{
  switch (field->type)
    {
    case FR_FIELD_TEXT:
    case FR_FIELD_CODE:
    case FR_FIELD_DATE:
      check_text (problems, field, fr_record_text (record, field));
      break;
    case FR_FIELD_AMOUNT:
      {
        const FrAmount *amount = fr_record_amount ((FrRecord *)record, field);
        if (isnan (amount->value))
          {
            if (field->required)
              fr_check_add (problems, FR_PROBLEM_MISSING, field, NAN, 0);
          }
        else if (isinf (amount->value))
          fr_check_add (problems, FR_PROBLEM_NOT_FINITE, field, NAN, 0);
        else
          check_range (problems, field, amount->value);
        if (amount->typed != NULL)
          check_length (problems, field, amount->typed, TYPED_CHARS);
        break;
      }
    case FR_FIELD_TIME:
      {
        gint64 utc_s = fr_record_int (record, field);
        if (utc_s != G_MININT64)
          check_range (problems, field, (double)utc_s);
        else if (field->required)
          fr_check_add (problems, FR_PROBLEM_MISSING, field, NAN, 0);
        break;
      }
    case FR_FIELD_REF:
      {
        gint64 id = fr_record_int (record, field);
        if (id == 0 && field->required)
          fr_check_add (problems, FR_PROBLEM_MISSING, field, NAN, 0);
        else if (id < 0)
          fr_check_add (problems, FR_PROBLEM_BELOW, field, 0.0, 0);
        break;
      }
    case FR_FIELD_BOOL:
      break;
    }
}

static void
check_household (GArray *problems, const FrHousehold *household)
{
  FrMeasure *measures = NULL;
  guint n = 0, line = 0;

  if (!fr_money_is_code (household->currency))
    fr_check_add_bad_text (problems, &household->record, "currency", 1);
  if (!fr_check_is_blank (household->measures))
    {
      if (fr_measures_parse (household->measures, &measures, &n, &line))
        fr_measures_free (measures, n);
      else
        fr_check_add_bad_text (problems, &household->record, "measures", line);
    }
}

static void
check_shape (GArray *problems, const FrVesselRecord *vessel)
{
  static const struct
  {
    const char *shape;
    const char *dimensions[4];
  } needs[] = {
    { "cylinder", { "diameter_m", "height_m" } },
    { "cone", { "diameter_m", "top_diameter_m", "height_m" } },
    { "cap", { "diameter_m", "height_m" } },
    { "box", { "length_m", "width_m", "height_m" } },
  };
  const FrRecord *record = &vessel->record;
  guint before = problems->len;

  for (guint i = 0; i < G_N_ELEMENTS (needs); i++)
    for (guint j = 0; strcmp (vessel->shape, needs[i].shape) == 0 && needs[i].dimensions[j] != NULL; j++)
      {
        const FrField *field = fr_kind_field (record->kind, needs[i].dimensions[j]);
        if (isnan (fr_record_amount ((FrRecord *)record, field)->value))
          fr_check_add (problems, FR_PROBLEM_MISSING, field, NAN, 0);
      }

  FrVessel shape;
  guint line;
  if (strcmp (vessel->shape, "table") == 0)
    {
      if (fr_check_is_blank (vessel->rows))
        fr_check_add (problems, FR_PROBLEM_MISSING, fr_kind_field (record->kind, "rows"), NAN, 0);
      else if (!fr_vessel_rows_parse (vessel->rows, &shape, &line))
        fr_check_add_bad_text (problems, record, "rows", line);
    }
  else if (strcmp (vessel->shape, "cap") == 0 && vessel->flat_diameter_m.value >= vessel->diameter_m.value)
    fr_check_add_conflict (problems, record, "flat_diameter_m", "diameter_m");
  else if (strcmp (vessel->shape, "box") == 0
           && 2.0 * vessel->corner_m.value > fmin (vessel->length_m.value, vessel->width_m.value))
    fr_check_add_conflict (problems, record, "corner_m",
                  vessel->length_m.value < vessel->width_m.value ? "length_m" : "width_m");

  const char *rim = strcmp (vessel->shape, "table") == 0 ? "rows" : "height_m";
  if (problems->len > before)
    return;
  if (!fr_vessel_record_shape (vessel, &shape))
    fr_check_add_conflict (problems, record, "shape", rim);
  else if (vessel->hold_l.value > fr_vessel_capacity_l (&shape))
    fr_check_add_conflict (problems, record, "hold_l", rim);
}

/* Comparisons with an unknown are false, so an unknown contradicts nothing. */
static void
check_vessel (GArray *problems, const FrVesselRecord *vessel)
{
  check_shape (problems, vessel);
  if (vessel->cutoff_l.value >= vessel->hold_l.value)
    fr_check_add_conflict (problems, &vessel->record, "cutoff_l", "hold_l");
  if (vessel->min_level_l.value > vessel->hold_l.value)
    fr_check_add_conflict (problems, &vessel->record, "min_level_l", "hold_l");
}

/* Holidays are read here first, because the tariff's reader does not say which of its two texts a line is in.
 */
static gboolean
check_holidays (GArray *problems, const FrTariffRecord *tariff)
{
  g_auto (GStrv) lines = g_strsplit (tariff->holidays != NULL ? tariff->holidays : "", "\n", -1);
  FrDate date;

  for (guint i = 0; lines[i] != NULL; i++)
    {
      const char *line = g_strstrip (lines[i]);
      if (*line != '\0' && *line != '#' && !fr_date_parse (line, &date))
        {
          fr_check_add_bad_text (problems, &tariff->record, "holidays", i + 1);
          return FALSE;
        }
    }
  return TRUE;
}

static double
none_if_unknown (const FrAmount *amount)
{
  return isnan (amount->value) ? 0.0 : amount->value;
}

static void
check_tariff (GArray *problems, const FrTariffRecord *tariff)
{
  FrTariffProblem problem = { 0 };

  if (!check_holidays (problems, tariff))
    return;
  FrTariff *parsed
      = fr_tariff_parse (tariff->periods, tariff->holidays, none_if_unknown (&tariff->adder_per_kwh),
                         none_if_unknown (&tariff->tax_ratio), &problem);
  if (parsed == NULL)
    fr_check_add_bad_text (problems, &tariff->record, "periods", problem.line);
  fr_tariff_free (parsed);
}

static void
check_night (GArray *problems, const FrNight *night)
{
  static const char *const later[] = { "off_by_utc", "plan_dry_utc", "plan_end_utc", "end_utc" };

  for (guint i = 0; i < G_N_ELEMENTS (later); i++)
    {
      gint64 utc_s = fr_record_int (&night->record, fr_kind_field (night->record.kind, later[i]));
      if (utc_s != G_MININT64 && utc_s < night->start_utc)
        fr_check_add_conflict (problems, &night->record, later[i], "start_utc");
    }
  /* Boiling makes less of it; an unknown on either side compares false. */
  if (night->bucket_left_l.value > night->bucket_l.value + 1e-6)
    fr_check_add_conflict (problems, &night->record, "bucket_left_l", "bucket_l");
  if (night->left_l.value > night->pan_l.value + night->bucket_l.value + 1e-6)
    fr_check_add_conflict (problems, &night->record, "left_l", "pan_l");
}

/* Years and counts. A part of one is refused as no number of its kind. */
void
fr_check_whole (GArray *problems, const FrRecord *record, const char *name)
{
  const FrField *field = fr_kind_field (record->kind, name);
  double value = fr_record_amount ((FrRecord *)record, field)->value;

  if (!isnan (value) && value != floor (value))
    fr_check_add (problems, FR_PROBLEM_NOT_WHOLE, field, NAN, 0);
}

/* All of them known or none. */
void
fr_check_together (GArray *problems, const FrRecord *record, const char *const *names)
{
  const char *known = NULL, *missing = NULL;

  for (guint i = 0; names[i] != NULL; i++)
    if (isnan (fr_record_amount ((FrRecord *)record, fr_kind_field (record->kind, names[i]))->value))
      missing = missing != NULL ? missing : names[i];
    else
      known = known != NULL ? known : names[i];
  if (known != NULL && missing != NULL)
    fr_check_add_conflict (problems, record, missing, known);
}

static void
check_tree (GArray *problems, const FrTree *tree)
{
  static const char *const place[] = { "x_m", "y_m", NULL };

  fr_check_together (problems, &tree->record, place);
}

static void
check_tap (GArray *problems, const FrTap *tap)
{
  fr_check_whole (problems, &tap->record, "season");
  /* ISO days compare as texts. */
  if (tap->pulled_on != NULL && (tap->set_on == NULL || strcmp (tap->pulled_on, tap->set_on) < 0))
    fr_check_add_conflict (problems, &tap->record, "pulled_on", "set_on");
  if (tap->closed_on != NULL && (tap->set_on == NULL || strcmp (tap->closed_on, tap->set_on) < 0))
    fr_check_add_conflict (problems, &tap->record, "closed_on", "set_on");
  if (tap->closed_on != NULL && tap->pulled_on != NULL && strcmp (tap->closed_on, tap->pulled_on) < 0)
    fr_check_add_conflict (problems, &tap->record, "closed_on", "pulled_on");
}

static void
check_feature (GArray *problems, const FrFeature *feature)
{
  g_autofree FrGroundPoint *points = NULL;
  guint n = 0, line = 0;

  if (!fr_ground_points_parse (feature->points, &points, &n, &line))
    fr_check_add_bad_text (problems, &feature->record, "points", line);
}

static void
check_ground (GArray *problems, const FrGround *ground)
{
  static const char *const anchor[]
      = { "anchor_x_m", "anchor_y_m", "anchor_lat_deg", "anchor_lon_deg", NULL };
  static const char *const first[] = { "first_column", "first_row", "first_x_m", "first_y_m", NULL };
  static const char *const second[] = { "second_column", "second_row", "second_x_m", "second_y_m", NULL };

  fr_check_together (problems, &ground->record, anchor);
  fr_check_together (problems, &ground->record, first);
  fr_check_together (problems, &ground->record, second);
  /* One point in the picture or on the plan says nothing of scale. */
  if (ground->first_column.value == ground->second_column.value
      && ground->first_row.value == ground->second_row.value)
    fr_check_add_conflict (problems, &ground->record, "second_column", "first_column");
  if (ground->first_x_m.value == ground->second_x_m.value
      && ground->first_y_m.value == ground->second_y_m.value)
    fr_check_add_conflict (problems, &ground->record, "second_x_m", "first_x_m");
}

static void
check_tapping (GArray *problems, const FrTapping *tapping)
{
  static const char *const own[] = { "sideways_m", "up_down_m", NULL };

  fr_check_whole (problems, &tapping->record, "buckets");
  fr_check_whole (problems, &tapping->record, "max_trees");
  if (strcmp (tapping->spacing, "own") == 0)
    for (guint i = 0; own[i] != NULL; i++)
      {
        const FrField *field = fr_kind_field (tapping->record.kind, own[i]);

        if (isnan (fr_record_amount ((FrRecord *)tapping, field)->value))
          fr_check_add (problems, FR_PROBLEM_MISSING, field, NAN, 0);
      }
  if (tapping->min_height_m.value > tapping->max_height_m.value)
    fr_check_add_conflict (problems, &tapping->record, "max_height_m", "min_height_m");
}

GArray *
fr_record_check (const FrRecord *record)
{
  g_return_val_if_fail (record != NULL, NULL);

  GArray *problems = g_array_new (FALSE, TRUE, sizeof (FrProblem));
  for (guint i = 0; i < record->kind->n_fields; i++)
    fr_record_check_field (problems, record, &record->kind->fields[i]);
  if (problems->len > 0)
    return problems;

  switch (record->kind->id)
    {
    case FR_KIND_HOUSEHOLD:
      check_household (problems, (const FrHousehold *)record);
      break;
    case FR_KIND_VESSEL:
      check_vessel (problems, (const FrVesselRecord *)record);
      break;
    case FR_KIND_NIGHT:
      check_night (problems, (const FrNight *)record);
      break;
    case FR_KIND_TARIFF:
      check_tariff (problems, (const FrTariffRecord *)record);
      break;
    case FR_KIND_TREE:
      check_tree (problems, (const FrTree *)record);
      break;
    case FR_KIND_TAP:
      check_tap (problems, (const FrTap *)record);
      break;
    case FR_KIND_YIELD:
      fr_check_whole (problems, record, "season");
      break;
    case FR_KIND_FEATURE:
      check_feature (problems, (const FrFeature *)record);
      break;
    case FR_KIND_GROUND:
      check_ground (problems, (const FrGround *)record);
      break;
    case FR_KIND_TAPPING:
      check_tapping (problems, (const FrTapping *)record);
      break;
    case FR_KIND_CIRCUIT:
    case FR_KIND_COOKER:
    case FR_KIND_FUEL:
    case FR_KIND_GIRTH:
    case FR_N_KINDS:
      break;
    case FR_KIND_STATION:
    case FR_KIND_STATION_DAY:
    case FR_KIND_OUTLOOK:
    case FR_KIND_FORECASTING:
      fr_check_weather (problems, record);
      break;
    default:
      fr_check_season (problems, record);
      break;
    }
  return problems;
}
