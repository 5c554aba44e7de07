/* Why a record is refused, in words. Editors and importers check before they come here and have better words
 * for their own fields; this is the last door, and it still names the record, the field and the limit. */
#include "store/store-private.h"

#include <glib/gi18n-lib.h>

const char *
fr_kind_words (const FrKind *kind)
{
  switch (kind->id)
    {
    case FR_KIND_HOUSEHOLD:
      return _ ("household");
    case FR_KIND_CIRCUIT:
      return _ ("circuit");
    case FR_KIND_VESSEL:
      return _ ("vessel");
    case FR_KIND_COOKER:
      return _ ("cooker");
    case FR_KIND_TARIFF:
      return _ ("tariff");
    case FR_KIND_FUEL:
      return _ ("fuel");
    case FR_KIND_NIGHT:
      return _ ("night");
    case FR_KIND_TREE:
      return _ ("tree");
    case FR_KIND_GIRTH:
      return _ ("measure of a trunk");
    case FR_KIND_TAP:
      return _ ("tap");
    case FR_KIND_YIELD:
      return _ ("tree's season");
    case FR_KIND_FEATURE:
      return _ ("drawing on the plan");
    case FR_KIND_GROUND:
      return _ ("plan of the ground");
    case FR_KIND_TAPPING:
      return _ ("way of tapping");
    case FR_KIND_CONTAINER:
      return _ ("container");
    case FR_KIND_GATHERING:
      return _ ("gathering");
    case FR_KIND_POUR:
      return _ ("pouring of sap");
    case FR_KIND_DIP:
      return _ ("look into a container");
    case FR_KIND_DAY:
      return _ ("day");
    case FR_KIND_CHORE:
      return _ ("point of a checklist");
    case FR_KIND_DISMISSAL:
      return _ ("reminder put away");
    case FR_KIND_STORING:
      return _ ("way of keeping sap");
    case FR_KIND_STATION:
      return _ ("source of weather");
    case FR_KIND_STATION_DAY:
      return _ ("day of a source of weather");
    case FR_KIND_OUTLOOK:
      return _ ("forecast");
    case FR_KIND_FORECASTING:
      return _ ("way of forecasting");
    case FR_N_KINDS:
      break;
    }
  return kind->name;
}

static char *
reason (const FrProblem *problem)
{
  const char *name = problem->field->name;

  switch (problem->code)
    {
    case FR_PROBLEM_MISSING:
      return g_strdup_printf (_ ("“%s” is missing"), name);
    case FR_PROBLEM_NOT_FINITE:
      return g_strdup_printf (_ ("“%s” is no number"), name);
    case FR_PROBLEM_BELOW:
      return g_strdup_printf (_ ("“%s” is below %.10g"), name, problem->limit);
    case FR_PROBLEM_ABOVE:
      return g_strdup_printf (_ ("“%s” is above %.10g"), name, problem->limit);
    case FR_PROBLEM_NOT_A_CODE:
      return g_strdup_printf (_ ("“%s” is none of its choices"), name);
    case FR_PROBLEM_BAD_DATE:
      return g_strdup_printf (_ ("“%s” is no date"), name);
    case FR_PROBLEM_BAD_TEXT:
      return g_strdup_printf (_ ("“%s” cannot be read in line %u"), name, problem->line);
    case FR_PROBLEM_TOO_LONG:
      return g_strdup_printf (_ ("“%s” has more than %.0f characters"), name, problem->limit);
    case FR_PROBLEM_NOT_WHOLE:
      return g_strdup_printf (_ ("“%s” is not a whole number"), name);
    case FR_PROBLEM_CONFLICT:
      return g_strdup_printf (_ ("“%s” and “%s” contradict each other"), name, problem->other->name);
    }
  return g_strdup (name);
}

char *
fr_number_text (gint64 number)
{
  return g_strdup_printf ("%" G_GINT64_FORMAT, number);
}

char *
fr_refusal_sentence (const FrRecord *record, const FrProblem *problem)
{
  g_autofree char *why = reason (problem);
  /* From a damaged file it may be no text. */
  g_autofree char *label = g_utf8_make_valid (fr_record_label (record), -1);
  g_autofree char *number = fr_number_text (record->id);

  return g_strdup_printf (_ ("The %s “%s” (number %s) cannot be kept: %s."), fr_kind_words (record->kind),
                          label, number, why);
}
