/* Sentences for entries. The general form is what is wrong, then what is allowed; fields where a bare range
 * would not help have their own reason. */
#include "words/entry-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "domain/records/vessel-shape.h"
#include "domain/units/quantity-units.h"

/* What a contradiction in the sugarbush's records comes to: the field, the other one or NULL for any, and why
 * not. A "%s" stands for the other's amount. */
static const struct
{
  const char *field;
  const char *other;
  const char *sentence;
} contradictions[] = {
  { "x_m", NULL, N_ ("A place is two numbers, how far east and how far north. Type both or neither.") },
  { "y_m", NULL, N_ ("A place is two numbers, how far east and how far north. Type both or neither.") },
  { "anchor_x_m", NULL,
    N_ ("The plan is tied by four numbers: east, north, latitude and longitude of one point.") },
  { "anchor_y_m", NULL,
    N_ ("The plan is tied by four numbers: east, north, latitude and longitude of one point.") },
  { "anchor_lat_deg", NULL,
    N_ ("The plan is tied by four numbers: east, north, latitude and longitude of one point.") },
  { "anchor_lon_deg", NULL,
    N_ ("The plan is tied by four numbers: east, north, latitude and longitude of one point.") },
  { "second_column", "first_column",
    N_ ("Both points are the same one in the picture. Choose two that lie far apart.") },
  { "second_x_m", "first_x_m",
    N_ ("Both points are the same one on the plan. Choose two that lie far apart.") },
  { "pulled_on", NULL, N_ ("This is before the tap was set, or it has not been set yet.") },
  { "closed_on", "pulled_on", N_ ("This is before the tap was pulled.") },
  { "closed_on", NULL, N_ ("This is before the tap was set, or it has not been set yet.") },
  { "max_height_m", NULL, N_ ("The highest place for a hole cannot lie under the lowest, %s.") },
};

/* Why a value past the end of its range cannot be. */
static const struct
{
  const char *field;
  const char *below;
  const char *above;
} reasons[] = {
  { "power_w", N_ ("is too weak to boil a pan"), N_ ("is more than any household circuit gives") },
  { "heat_ratio", N_ ("is less than any cooker passes on"), N_ ("is more heat than the cooker draws") },
  { "reading_brix", NULL, N_ ("is past any sap, concentrate or syrup") },
  { "sap_brix", N_ ("is water, not sap"), N_ ("is past any sap or concentrate") },
  { "sap_c", N_ ("is ice, not sap"), N_ ("is hotter than sap is kept") },
  { "max_brix", N_ ("is too thin an end to plan for"), N_ ("is past syrup, on the way to scorching") },
  { "syrup_brix", N_ ("is thinner than any syrup"), N_ ("is sugar, not syrup") },
  { "altitude_m", N_ ("is lower than any dry land"), N_ ("is higher than anyone lives") },
  { "reflux_ratio", NULL, N_ ("would leave no vapour to go") },
  { "breaker_a", N_ ("is smaller than any breaker"), N_ ("is larger than any household breaker") },
  { "water_boils_c", N_ ("is lower than water boils anywhere people live"),
    N_ ("is hotter than water boils anywhere") },
};

static const char *
reason_for (const char *name, gboolean above)
{
  for (guint i = 0; i < G_N_ELEMENTS (reasons); i++)
    if (strcmp (reasons[i].field, name) == 0)
      return above ? reasons[i].above : reasons[i].below;
  return NULL;
}

static char *
amount (double value, const FrField *field, const FrUnits *units)
{
  return fr_quantity_to_string (value, field->quantity, units, -1);
}

static const char *
example_for (FrQuantityKind kind)
{
  switch (kind)
    {
    case FR_QUANTITY_VOLUME:
      return "2.5, 3 gal 1 qt";
    case FR_QUANTITY_TEMPERATURE:
    case FR_QUANTITY_DIFFERENCE:
      return "2, 36 F";
    case FR_QUANTITY_LENGTH:
      return "28, 11 in";
    case FR_QUANTITY_DISTANCE:
      return "12.5, 41 ft";
    case FR_QUANTITY_ANGLE:
      return "135, 22.5";
    case FR_QUANTITY_ALTITUDE:
      return "250, 820 ft";
    case FR_QUANTITY_MASS:
      return "1.2, 2 lb";
    case FR_QUANTITY_SPAN:
      return "1 h 30 min";
    case FR_QUANTITY_RATIO:
      return "85, 85 %";
    default:
      return "12, 12.5";
    }
}

char *
fr_entry_sentence (FrQuantityProblem problem, const char *typed, gsize at, FrQuantityKind kind,
                   const FrUnits *units)
{
  const char *rest = typed != NULL && at < strlen (typed) ? typed + at : "";
  g_autofree char *word = NULL;

  if (*rest != '\0' && !g_utf8_validate (rest, -1, NULL))
    rest = "";
  while (*rest == ' ')
    rest++;
  word = g_strndup (rest, strcspn (rest, " "));

  switch (problem)
    {
    case FR_QUANTITY_OK:
    case FR_QUANTITY_EMPTY:
      return NULL;
    case FR_QUANTITY_NOT_A_NUMBER:
      if (*word == '\0')
        /* Translators: %s are examples of what may be typed */
        return g_strdup_printf (_ ("A number is missing. For example: %s."), example_for (kind));
      return g_strdup_printf (_ ("“%s” is not a number. For example: %s."), word, example_for (kind));
    case FR_QUANTITY_UNKNOWN_UNIT:
      return g_strdup_printf (_ ("“%s” is no unit for this. A bare number means %s."), word,
                              fr_quantity_unit (kind, units));
    case FR_QUANTITY_AMBIGUOUS_GROUP:
      {
        g_autofree char *plain = g_strdup (typed);
        char *to = plain;

        for (const char *from = typed; *from != '\0'; from++)
          if (*from != ',' && *from != '.')
            *to++ = *from;
        *to = '\0';
        return g_strdup_printf (_ ("“%s” could be a thousand or a fraction. Type %s for the thousand, or one "
                                   "digit fewer for the fraction."),
                                typed, plain);
      }
    case FR_QUANTITY_MIXED:
      if ((*word == '-' || g_str_has_prefix (word, "\u2212")) && !fr_quantity_may_be_negative (kind))
        return g_strdup_printf (_ ("“%s” is less than nothing. Type 0 or more."), word);
      return g_strdup (_ ("These parts cannot be added. Type one number, or parts such as 3 gal 1 qt."));
    case FR_QUANTITY_TOO_LONG:
    default:
      return g_strdup (_ ("This is too long to be a number. Type a shorter one."));
    }
}

char *
fr_range_sentence (const FrField *field, const FrUnits *units)
{
  g_autofree char *from = NULL;
  g_autofree char *to = NULL;

  if (field->type != FR_FIELD_AMOUNT || !isfinite (field->min) || !isfinite (field->max))
    return NULL;
  from = amount (field->min, field, units);
  to = amount (field->max, field, units);
  return g_strdup_printf (_ ("%s to %s is allowed."), from, to);
}

char *
fr_amount_sentence (const char *name, double value, double min, double max, FrQuantityKind kind,
                    const FrUnits *units)
{
  g_autofree char *from = fr_quantity_to_string (min, kind, units, -1);
  g_autofree char *to = fr_quantity_to_string (max, kind, units, -1);
  g_autofree char *range = g_strdup_printf (_ ("%s to %s is allowed."), from, to);
  g_autofree char *now = NULL;
  const char *reason;
  gboolean above = value > max;

  if (isnan (value))
    return g_strdup_printf (_ ("A number is needed. %s"), range);
  now = fr_quantity_to_string (value, kind, units, -1);
  reason = reason_for (name, above);
  if (reason != NULL)
    return g_strdup_printf (_ ("%s %s. %s"), now, _ (reason), range);
  return g_strdup_printf (above ? _ ("%s is too much. %s") : _ ("%s is too little. %s"), now, range);
}

static char *
out_of_range (const FrProblem *problem, const FrRecord *record, const FrUnits *units, gboolean above)
{
  const FrField *field = problem->field;
  const char *reason;
  g_autofree char *now = NULL;
  g_autofree char *range = NULL;

  if (field->type != FR_FIELD_AMOUNT)
    return g_strdup (above ? _ ("This is too late.") : _ ("This is too early."));
  reason = reason_for (field->name, above);
  now = amount (fr_record_amount ((FrRecord *)record, field)->value, field, units);
  range = fr_range_sentence (field, units);
  if (reason != NULL)
    /* Translators: an amount, then why it cannot be, then what is allowed */
    return g_strdup_printf (_ ("%s %s. %s"), now, _ (reason), range);
  return g_strdup_printf (above ? _ ("%s is too much. %s") : _ ("%s is too little. %s"), now, range);
}

static gboolean
is_field (const FrField *field, const char *name)
{
  return field != NULL && strcmp (field->name, name) == 0;
}

/* A translated sentence with the one text it may hold. */
static char *
say_with (const char *sentence, const char *text)
{
  g_auto (GStrv) parts = g_strsplit (sentence, "%s", 2);

  return g_strconcat (parts[0], parts[1] != NULL && text != NULL ? text : "", parts[1], NULL);
}

static char *
conflict (const FrProblem *problem, const FrRecord *record, const FrUnits *units)
{
  const FrField *other = problem->other;
  g_autofree char *limit = NULL;

  if (other != NULL && other->type == FR_FIELD_AMOUNT)
    limit = amount (fr_record_amount ((FrRecord *)record, other)->value, other, units);

  if (is_field (problem->field, "hold_l"))
    {
      FrVessel shape;

      if (fr_vessel_record_shape ((const FrVesselRecord *)record, &shape))
        {
          g_autofree char *rim = amount (fr_vessel_capacity_l (&shape), problem->field, units);

          return g_strdup_printf (_ ("The pan only holds %s to the rim. Hold less, with room for foam."),
                                  rim);
        }
      return g_strdup (_ ("The pan does not hold this much. Hold less, with room for foam."));
    }
  if (is_field (problem->field, "cutoff_l"))
    return g_strdup_printf (
        _ ("The power would be off before the boil begins. Less than %s, which the feed holds, is "
           "allowed."),
        limit);
  if (is_field (problem->field, "min_level_l"))
    return g_strdup_printf (
        _ ("The feed holds only %s. Hold more, or measure again what covers the element."), limit);
  if (is_field (problem->field, "flat_diameter_m"))
    return g_strdup_printf (_ ("The flat bottom has to be narrower than the rim, %s."), limit);
  if (is_field (problem->field, "corner_m"))
    return g_strdup_printf (_ ("Two corners this round do not fit on a side of %s. Half of it is the most."),
                            limit);
  if (is_field (problem->field, "shape"))
    return g_strdup (_ ("No pan has these measures. A bowl is at most as deep as half its width."));
  if (is_field (problem->field, "used_l"))
    return g_strdup_printf (_ ("More is used than there was. At most %s is allowed."), limit);
  if (is_field (problem->field, "bucket_left_l"))
    return g_strdup_printf (_ ("More is left than was poured. At most %s is allowed."), limit);
  if (is_field (problem->field, "left_l"))
    {
      const FrNight *night = (const FrNight *)record;
      g_autofree char *poured = amount (night->pan_l.value + night->bucket_l.value, problem->field, units);

      return g_strdup_printf (_ ("More is left than was poured. At most %s is allowed."), poured);
    }
  if (is_field (other, "start_utc"))
    return g_strdup (_ ("This is before the power was switched on."));
  for (guint i = 0; i < G_N_ELEMENTS (contradictions); i++)
    if (is_field (problem->field, contradictions[i].field)
        && (contradictions[i].other == NULL || is_field (other, contradictions[i].other)))
      return say_with (_ (contradictions[i].sentence), limit);
  if (is_field (problem->field, "first_column") || is_field (problem->field, "first_row")
      || is_field (problem->field, "first_x_m") || is_field (problem->field, "first_y_m")
      || is_field (problem->field, "second_column") || is_field (problem->field, "second_row")
      || is_field (problem->field, "second_x_m") || is_field (problem->field, "second_y_m"))
    return g_strdup (
        _ ("A known point is four numbers: where it is in the picture and where it is on the plan."));
  return g_strdup (_ ("This contradicts another entry of the same record."));
}

static char *
bad_text (const FrProblem *problem)
{
  if (is_field (problem->field, "measures"))
    return g_strdup_printf (
        _ ("Line %u cannot be read. Write a name, an equals sign and litres: bucket = 11."), problem->line);
  if (is_field (problem->field, "rows"))
    return problem->line == 0
               ? g_strdup (
                   _ ("Two pairs are the least: a depth in cm and the litres at it, one pair a line."))
               : g_strdup_printf (
                   _ ("Line %u cannot be read or does not rise. Write a depth in cm and litres: 3.0 2.5."),
                   problem->line);
  if (is_field (problem->field, "points"))
    return problem->line == 0 ? g_strdup (_ (
               "A drawing needs a point at least. Write metres east and north, one point a line: 12.5 -3."))
                              : g_strdup_printf (_ ("Line %u cannot be read. Write metres east and north, "
                                                    "one point a line: 12.5 -3."),
                                                 problem->line);
  if (is_field (problem->field, "currency"))
    return g_strdup (_ ("A currency is three capital letters, for example EUR."));
  if (problem->line > 0)
    return g_strdup_printf (_ ("Line %u cannot be read."), problem->line);
  return g_strdup (_ ("This text cannot be read."));
}

char *
fr_record_sentence (const FrProblem *problem, const FrRecord *record, const FrUnits *units)
{
  switch (problem->code)
    {
    case FR_PROBLEM_MISSING:
      if (problem->field->type == FR_FIELD_REF)
        return g_strdup (_ ("One has to be chosen."));
      if (problem->field->type == FR_FIELD_AMOUNT)
        {
          g_autofree char *range = fr_range_sentence (problem->field, units);

          return g_strdup_printf (_ ("A number is needed. %s"), range);
        }
      return g_strdup (_ ("This cannot be empty."));
    case FR_PROBLEM_NOT_FINITE:
      return g_strdup (_ ("This is too large to be a number."));
    case FR_PROBLEM_BELOW:
      return out_of_range (problem, record, units, FALSE);
    case FR_PROBLEM_ABOVE:
      return out_of_range (problem, record, units, TRUE);
    case FR_PROBLEM_NOT_A_CODE:
      return g_strdup (_ ("This version does not know this choice. Choose another."));
    case FR_PROBLEM_BAD_DATE:
      return g_strdup (_ ("This is no date. Write year, month, day: 2027-03-11."));
    case FR_PROBLEM_BAD_TEXT:
      return bad_text (problem);
    case FR_PROBLEM_TOO_LONG:
      return g_strdup_printf (_ ("This is too long. At most %.0f characters are allowed."), problem->limit);
    case FR_PROBLEM_NOT_WHOLE:
      return g_strdup (_ ("This is a whole number, without a fraction."));
    case FR_PROBLEM_CONFLICT:
    default:
      return conflict (problem, record, units);
    }
}

static const char *
days_word (FrDays days)
{
  switch (days)
    {
    case FR_DAYS_WEEKDAY:
      return _ ("Weekdays");
    case FR_DAYS_SATURDAY:
      return _ ("Saturdays");
    case FR_DAYS_SUNDAY:
      return _ ("Sundays");
    case FR_DAYS_WEEKEND:
      return _ ("Weekends");
    case FR_DAYS_HOLIDAY:
      return _ ("Holidays");
    case FR_DAYS_ALL:
    case FR_N_DAYS:
    default:
      return _ ("Days");
    }
}

char *
fr_price_plan_sentence (const FrTariffProblem *problem)
{
  g_autofree char *clock = g_strdup_printf ("%02d:%02d", problem->minute / 60, problem->minute % 60);

  switch (problem->code)
    {
    case FR_TARIFF_GAP:
      return g_strdup_printf (
          _ ("%s have no price from %s on. Every minute needs one; until then this is not kept."),
          days_word (problem->days), clock);
    case FR_TARIFF_OVERLAP:
      return g_strdup_printf (_ ("%s have two prices at %s. Shorten one row; until then this is not kept."),
                              days_word (problem->days), clock);
    case FR_TARIFF_NO_DAYS:
      return g_strdup_printf (
          _ ("A season says nothing of this kind of day: %s. Add a row for it; until then this is "
             "not kept."),
          days_word (problem->days));
    case FR_TARIFF_TWO_SEASONS:
      return g_strdup_printf (
          _ ("%02d-%02d lies in two seasons. End one before the other begins; until then this is not "
             "kept."),
          problem->date.month, problem->date.day);
    case FR_TARIFF_NO_SEASON:
      return g_strdup (_ ("A day lies in no season. Add one for it."));
    case FR_TARIFF_BAD_NUMBER:
      return g_strdup (
          _ ("A price, what comes on top or the tax is out of range; until then this is not kept."));
    case FR_TARIFF_EMPTY:
      return g_strdup (_ ("There is no price yet. Add a season and its hours."));
    case FR_TARIFF_BAD_LINE:
    case FR_TARIFF_OK:
    default:
      return problem->days == FR_DAYS_HOLIDAY ? g_strdup_printf (
                 _ ("Line %u of the holidays is no date. Write 2027-04-02."), problem->line)
                                              : g_strdup_printf (_ ("Row %u cannot be read."), problem->line);
    }
}

static const struct
{
  const char *label;
  const char *with; /* with the subject */
  const char *without;
} done[] = {
  { "keep-night", N_ ("Night kept"), N_ ("Night kept") },
  { "morning-after", N_ ("The heat of “%s” learned from the night"), N_ ("Night written down") },
  { "water-test", N_ ("The heat of “%s” measured"), N_ ("Heat measured") },
  { "add-household", N_ ("Household “%s” added"), N_ ("Household added") },
  { "edit-household", N_ ("Household changed"), N_ ("Household changed") },
  { "add-circuit", N_ ("Circuit “%s” added"), N_ ("Circuit added") },
  { "edit-circuit", N_ ("Circuit “%s” changed"), N_ ("Circuit changed") },
  { "delete-circuit", N_ ("Circuit “%s” deleted"), N_ ("Circuit deleted") },
  { "archive-circuit", N_ ("Circuit “%s” put away"), N_ ("Circuit put away") },
  { "restore-circuit", N_ ("Circuit “%s” taken out again"), N_ ("Circuit taken out again") },
  { "add-vessel", N_ ("Pan “%s” added"), N_ ("Pan added") },
  { "edit-vessel", N_ ("Pan “%s” changed"), N_ ("Pan changed") },
  { "delete-vessel", N_ ("Pan “%s” deleted"), N_ ("Pan deleted") },
  { "archive-vessel", N_ ("Pan “%s” put away"), N_ ("Pan put away") },
  { "restore-vessel", N_ ("Pan “%s” taken out again"), N_ ("Pan taken out again") },
  { "add-cooker", N_ ("Cooker “%s” added"), N_ ("Cooker added") },
  { "edit-cooker", N_ ("Cooker “%s” changed"), N_ ("Cooker changed") },
  { "delete-cooker", N_ ("Cooker “%s” deleted"), N_ ("Cooker deleted") },
  { "archive-cooker", N_ ("Cooker “%s” put away"), N_ ("Cooker put away") },
  { "restore-cooker", N_ ("Cooker “%s” taken out again"), N_ ("Cooker taken out again") },
  { "add-tariff", N_ ("Prices “%s” added"), N_ ("Prices added") },
  { "edit-tariff", N_ ("Prices “%s” changed"), N_ ("Prices changed") },
  { "delete-tariff", N_ ("Prices “%s” deleted"), N_ ("Prices deleted") },
  { "archive-tariff", N_ ("Prices “%s” put away"), N_ ("Prices put away") },
  { "restore-tariff", N_ ("Prices “%s” taken out again"), N_ ("Prices taken out again") },
  { "add-fuel", N_ ("Fuel “%s” added"), N_ ("Fuel added") },
  { "edit-fuel", N_ ("Fuel “%s” changed"), N_ ("Fuel changed") },
  { "delete-fuel", N_ ("Fuel “%s” deleted"), N_ ("Fuel deleted") },
  { "archive-fuel", N_ ("Fuel “%s” put away"), N_ ("Fuel put away") },
  { "restore-fuel", N_ ("Fuel “%s” taken out again"), N_ ("Fuel taken out again") },
  { "add-sap_lot", N_ ("Sap added"), N_ ("Sap added") },
  { "edit-sap_lot", N_ ("Sap changed"), N_ ("Sap changed") },
  { "delete-sap_lot", N_ ("Sap deleted"), N_ ("Sap deleted") },
  { "archive-sap_lot", N_ ("Sap put away"), N_ ("Sap put away") },
  { "restore-sap_lot", N_ ("Sap taken out again"), N_ ("Sap taken out again") },
  { "add-night", N_ ("Night of %s kept"), N_ ("Night kept") },
  { "edit-night", N_ ("Night of %s changed"), N_ ("Night changed") },
  { "delete-night", N_ ("Night of %s deleted"), N_ ("Night deleted") },
  { "archive-night", N_ ("Night of %s put away"), N_ ("Night put away") },
  { "restore-night", N_ ("Night of %s taken out again"), N_ ("Night taken out again") },
  { "add-tree", N_ ("Tree “%s” added"), N_ ("Tree added") },
  { "edit-tree", N_ ("Tree “%s” changed"), N_ ("Tree changed") },
  { "delete-tree", N_ ("Tree “%s” deleted"), N_ ("Tree deleted") },
  { "archive-tree", N_ ("Tree “%s” put away"), N_ ("Tree put away") },
  { "restore-tree", N_ ("Tree “%s” taken out again"), N_ ("Tree taken out again") },
  { "add-girth", N_ ("Measure of a trunk added"), N_ ("Measure of a trunk added") },
  { "edit-girth", N_ ("Measure of a trunk changed"), N_ ("Measure of a trunk changed") },
  { "delete-girth", N_ ("Measure of a trunk deleted"), N_ ("Measure of a trunk deleted") },
  { "archive-girth", N_ ("Measure of a trunk put away"), N_ ("Measure of a trunk put away") },
  { "restore-girth", N_ ("Measure of a trunk taken out again"), N_ ("Measure of a trunk taken out again") },
  { "add-tap", N_ ("Tap added"), N_ ("Tap added") },
  { "edit-tap", N_ ("Tap changed"), N_ ("Tap changed") },
  { "delete-tap", N_ ("Tap deleted"), N_ ("Tap deleted") },
  { "archive-tap", N_ ("Tap put away"), N_ ("Tap put away") },
  { "restore-tap", N_ ("Tap taken out again"), N_ ("Tap taken out again") },
  { "add-yield", N_ ("A tree’s season added"), N_ ("A tree’s season added") },
  { "edit-yield", N_ ("A tree’s season changed"), N_ ("A tree’s season changed") },
  { "delete-yield", N_ ("A tree’s season deleted"), N_ ("A tree’s season deleted") },
  { "archive-yield", N_ ("A tree’s season put away"), N_ ("A tree’s season put away") },
  { "restore-yield", N_ ("A tree’s season taken out again"), N_ ("A tree’s season taken out again") },
  { "add-feature", N_ ("“%s” added"), N_ ("Drawing added") },
  { "edit-feature", N_ ("“%s” changed"), N_ ("Drawing changed") },
  { "delete-feature", N_ ("“%s” deleted"), N_ ("Drawing deleted") },
  { "archive-feature", N_ ("“%s” put away"), N_ ("Drawing put away") },
  { "restore-feature", N_ ("“%s” taken out again"), N_ ("Drawing taken out again") },
  { "add-ground", N_ ("Ground added"), N_ ("Ground added") },
  { "edit-ground", N_ ("Ground changed"), N_ ("Ground changed") },
  { "delete-ground", N_ ("Ground deleted"), N_ ("Ground deleted") },
  { "archive-ground", N_ ("Ground put away"), N_ ("Ground put away") },
  { "restore-ground", N_ ("Ground taken out again"), N_ ("Ground taken out again") },
  { "add-tapping", N_ ("Way of tapping added"), N_ ("Way of tapping added") },
  { "edit-tapping", N_ ("Way of tapping changed"), N_ ("Way of tapping changed") },
  { "delete-tapping", N_ ("Way of tapping deleted"), N_ ("Way of tapping deleted") },
  { "archive-tapping", N_ ("Way of tapping put away"), N_ ("Way of tapping put away") },
  { "restore-tapping", N_ ("Way of tapping taken out again"), N_ ("Way of tapping taken out again") },
  { "add-trees", N_ ("Trees added"), N_ ("Trees added") },
  { "edit-trees", N_ ("Trees changed"), N_ ("Trees changed") },
  { "move-trees", N_ ("Trees moved"), N_ ("Trees moved") },
  { "delete-trees", N_ ("Trees deleted"), N_ ("Trees deleted") },
  { "archive-trees", N_ ("Trees put away"), N_ ("Trees put away") },
  { "restore-trees", N_ ("Trees taken out again"), N_ ("Trees taken out again") },
  { "import-trees", N_ ("Trees read from %s"), N_ ("Trees read from a file") },
  { "plan-taps", N_ ("Taps planned"), N_ ("Taps planned") },
  { "set-taps", N_ ("Taps set"), N_ ("Taps set") },
  { "pull-taps", N_ ("Taps pulled"), N_ ("Taps pulled") },
  { "move-tap", N_ ("Tap moved"), N_ ("Tap moved") },
  { "place-picture", N_ ("Picture placed under the plan"), N_ ("Picture placed under the plan") },
  { "set-up", N_ ("Book “%s” set up"), N_ ("Book set up") },
};

char *
fr_change_sentence (const char *label, const char *subject)
{
  for (guint i = 0; i < G_N_ELEMENTS (done); i++)
    {
      if (g_strcmp0 (done[i].label, label) != 0)
        continue;
      if (subject != NULL && *subject != '\0' && strstr (done[i].with, "%s") != NULL)
        {
          g_auto (GStrv) parts = g_strsplit (_ (done[i].with), "%s", 2);

          return g_strconcat (parts[0], subject, parts[1], NULL);
        }
      return g_strdup (_ (done[i].without));
    }
  return g_strdup (_ ("Changed"));
}
