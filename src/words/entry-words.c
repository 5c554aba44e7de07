/* Sentences for entries. The general form is what is wrong, then what is allowed; fields where a bare range
 * would not help have their own reason. */
#include "words/entry-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "domain/records/vessel-shape.h"
#include "domain/units/quantity-units.h"

/* Amounts from here on are not written out. */
#define HUGE_VALUE 1e12

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
  { "diameter_m", NULL, N_ ("Litres by depth need the width and the height. Type both or neither.") },
  { "height_m", NULL, N_ ("Litres by depth need the width and the height. Type both or neither.") },
  { "top_diameter_m", NULL, N_ ("The width at the rim says nothing without the one at the bottom.") },
  { "target", "container", N_ ("Sap cannot be poured into the container it comes from. Choose another.") },
  { "target", NULL, N_ ("Only sap that is moved goes into another container.") },
  { "night", NULL, N_ ("Only sap that is boiled belongs to a night.") },
  { "high_c", NULL, N_ ("The day’s high is below its low, %s.") },
  { "vessel", NULL, N_ ("A point of a checklist is about one piece of kit.") },
  { "cooker", NULL, N_ ("A point of a checklist is about one piece of kit.") },
  { "circuit", NULL, N_ ("A point of a checklist is about one piece of kit.") },
  { "latitude_deg", NULL, N_ ("A place on earth is two numbers, latitude and longitude. Type both or neither.") },
  { "longitude_deg", NULL, N_ ("A place on earth is two numbers, latitude and longitude. Type both or neither.") },
  { "low_mark", NULL, N_ ("The source says there is no such temperature, or estimates one that is not there.") },
  { "high_mark", NULL, N_ ("The source says there is no such temperature, or estimates one that is not there.") },
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
  range = fr_range_sentence (field, units);
  /* Three hundred digits tell nobody anything. */
  if (fabs (fr_record_amount ((FrRecord *)record, field)->value) >= HUGE_VALUE)
    return g_strdup_printf (above ? _ ("This is far too much. %s") : _ ("This is far too little. %s"), range);
  now = amount (fr_record_amount ((FrRecord *)record, field)->value, field, units);
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
