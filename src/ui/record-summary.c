/* One line that tells records apart. */
#include "ui/record-summary.h"
#include "ui/field-labels.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "domain/units/money.h"
#include "ui/time-entry.h"

char *
fr_amount_text (double value, FrQuantityKind kind, const FrUnits *units)
{
  return fr_quantity_to_string (value, kind, units, -1);
}

static char *
amount (const FrAmount *value, FrQuantityKind kind, const FrUnits *units)
{
  return isnan (value->value) ? NULL : fr_amount_text (value->value, kind, units);
}

/* Joins what is known with commas; takes the parts. */
static char *
join (char *first, char *second, char *third)
{
  char *known[4] = { NULL };
  char *all[] = { first, second, third };
  char *joined;
  guint n = 0;

  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    if (all[i] != NULL && *all[i] != '\0')
      known[n++] = all[i];
  joined = g_strjoinv (", ", known);
  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    g_free (all[i]);
  return joined;
}

char *
fr_record_title (FrBook *book, const FrRecord *record)
{
  if (record->kind->id == FR_KIND_GATHERING)
    return fr_time_words (book, ((const FrGathering *)record)->gathered_utc);
  if (record->kind->id == FR_KIND_POUR)
    return fr_time_words (book, ((const FrPour *)record)->poured_utc);
  if (record->kind->id == FR_KIND_DIP)
    return fr_time_words (book, ((const FrDip *)record)->found_utc);
  if (record->kind->id == FR_KIND_NIGHT)
    {
      FrDate day;
      g_autoptr (GDateTime) evening = NULL;

      if (fr_date_parse (((const FrNight *)record)->evening, &day))
        evening = g_date_time_new_utc (day.year, day.month, day.day, 12, 0, 0);
      /* Translators: day of the month, month, year */
      if (evening != NULL)
        return g_date_time_format (evening, _ ("%-e %B %Y"));
    }
  return g_strdup (fr_record_label (record));
}

char *
fr_record_summary (FrBook *book, const FrRecord *record)
{
  const FrUnits *units = fr_book_get_units (book);

  switch (record->kind->id)
    {
    case FR_KIND_HOUSEHOLD:
      {
        const FrHousehold *household = (const FrHousehold *)record;

        return g_strdup (household->place != NULL ? household->place : "");
      }
    case FR_KIND_CIRCUIT:
      {
        const FrCircuit *circuit = (const FrCircuit *)record;

        return join (amount (&circuit->breaker_a, FR_QUANTITY_CURRENT, units),
                     amount (&circuit->volts_v, FR_QUANTITY_VOLTAGE, units), NULL);
      }
    case FR_KIND_VESSEL:
      {
        const FrVesselRecord *vessel = (const FrVesselRecord *)record;
        g_autofree char *held = amount (&vessel->hold_l, FR_QUANTITY_VOLUME, units);

        return join (amount (&vessel->diameter_m, FR_QUANTITY_LENGTH, units),
                     held != NULL ? g_strdup_printf (_ ("held at %s"), held) : NULL, NULL);
      }
    case FR_KIND_COOKER:
      {
        const FrCooker *cooker = (const FrCooker *)record;
        const FrRecord *vessel = fr_book_find (book, FR_KIND_VESSEL, cooker->vessel);
        g_autofree char *heat = amount (&cooker->heat_ratio, FR_QUANTITY_RATIO, units);

        return join (amount (&cooker->power_w, FR_QUANTITY_POWER, units),
                     heat != NULL ? g_strdup_printf (_ ("heat %s"), heat) : NULL,
                     vessel != NULL ? g_strdup (fr_record_label (vessel)) : NULL);
      }
    case FR_KIND_TARIFF:
      return g_strdup (((const FrTariffRecord *)record)->in_use ? _ ("Used for the nights") : "");
    case FR_KIND_FUEL:
      {
        const FrFuel *fuel = (const FrFuel *)record;
        const FrHousehold *household = fr_book_get_household (book);
        g_autofree char *money = NULL;

        if (isnan (fuel->price_per_kg.value))
          return g_strdup ("");
        money = fr_money_to_string (fr_money_round (fuel->price_per_kg.value),
                                    household != NULL ? household->currency : "", units->decimal_mark);
        /* Translators: %s is an amount of money */
        return g_strdup_printf (_ ("%s a kilogram"), money);
      }
    case FR_KIND_CONTAINER:
      {
        const FrContainer *container = (const FrContainer *)record;

        return join (amount (&container->capacity_l, FR_QUANTITY_VOLUME, units),
                     g_strdup (fr_code_word ("place", container->place)), NULL);
      }
    case FR_KIND_NIGHT:
      {
        const FrNight *night = (const FrNight *)record;
        const FrRecord *cooker = fr_book_find (book, FR_KIND_COOKER, night->cooker);

        return join (cooker != NULL ? g_strdup (fr_record_label (cooker)) : NULL,
                     amount (&night->bucket_l, FR_QUANTITY_VOLUME, units), NULL);
      }
    case FR_KIND_TREE:
    case FR_KIND_GIRTH:
    case FR_KIND_TAP:
    case FR_KIND_YIELD:
    case FR_KIND_FEATURE:
    case FR_KIND_GROUND:
    case FR_KIND_TAPPING:
    case FR_KIND_GATHERING:
    case FR_KIND_POUR:
    case FR_KIND_DIP:
    case FR_KIND_DAY:
    case FR_KIND_CHORE:
    case FR_KIND_DISMISSAL:
    case FR_KIND_STORING:
    case FR_KIND_STATION:
      {
        const FrStation *station = (const FrStation *)record;

        return join (g_strdup (fr_code_word ("source", station->source)), g_strdup (station->station_key), NULL);
      }
    case FR_KIND_STATION_DAY:
    case FR_KIND_OUTLOOK:
    case FR_KIND_FORECASTING:
    case FR_N_KINDS:
    default:
      return g_strdup ("");
    }
}

static guint
count (FrBook *book, FrKindId kind)
{
  FrRecordList *list = fr_book_get_list (book, kind);
  guint n = 0;

  for (guint i = 0; i < fr_record_list_get_size (list); i++)
    if (!fr_record_list_get (list, i)->archived)
      n++;
  return n;
}

char *
fr_book_summary (FrBook *book)
{
  const FrHousehold *household = fr_book_get_household (book);
  guint pans = count (book, FR_KIND_VESSEL);
  guint cookers = count (book, FR_KIND_COOKER);
  guint trees = count (book, FR_KIND_TREE);
  GString *text = g_string_new (NULL);

  if (trees > 0)
    {
      g_string_append_printf (text, g_dngettext (GETTEXT_PACKAGE, "%u tree", "%u trees", trees), trees);
      g_string_append (text, " · ");
    }
  g_string_append_printf (text, g_dngettext (GETTEXT_PACKAGE, "%u pan", "%u pans", pans), pans);
  /* Three at most, or the line is cut off. */
  if (trees == 0)
    {
      g_string_append (text, " · ");
      g_string_append_printf (text, g_dngettext (GETTEXT_PACKAGE, "%u cooker", "%u cookers", cookers),
                              cookers);
    }
  if (household != NULL && !isnan (household->altitude_m.value))
    {
      g_autofree char *altitude
          = amount (&household->altitude_m, FR_QUANTITY_ALTITUDE, fr_book_get_units (book));

      g_string_append_printf (text, " · %s", altitude);
    }
  return g_string_free (text, FALSE);
}
