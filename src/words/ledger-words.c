/* The account's sentences. A cause is always "may be": it is a guess by what usually happens, and only who was there knows. */
#include "words/ledger-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "words/reminder-words.h"
#include "words/season-words.h"
#include "words/stock-words.h"

/* --- all together --- */

char *
fr_ledger_sentence (const FrLedger *ledger, const FrSay *say)
{
  const FrLedgerAccount *all = &ledger->all;
  g_autofree char *in = NULL, *boiled = NULL, *there = NULL;

  if (!(all->flows[FR_FLOW_GATHERED].volume_l > 0))
    return g_strdup (_ ("No sap came in."));
  in = fr_say_bold (fr_season_litres (say, all->flows[FR_FLOW_GATHERED].volume_l));
  boiled = fr_say_bold (fr_season_litres (say, all->flows[FR_FLOW_BOILED].volume_l));
  there = fr_say_bold (fr_season_litres (say, all->there.volume_l));
  /* Translators: three amounts of sap */
  return g_strdup_printf (_ ("%s came in, %s went to the boil, %s are there."), in, boiled, there);
}

/* "; 3 L spilled" when there is something. */
static void
add_amount (GString *all, const FrSay *say, const char *format, double volume_l)
{
  g_autofree char *litres = NULL, *part = NULL;

  if (!(fabs (volume_l) > FR_STOCK_NOTHING_L))
    return;
  litres = fr_season_litres (say, fabs (volume_l));
  part = g_strdup_printf (format, litres);
  g_string_append_printf (all, "%s%s", all->len > 0 ? ", " : "", part);
}

char *
fr_ledger_reason (const FrLedger *ledger, const FrSay *say)
{
  const FrLedgerAccount *all = &ledger->all;
  GString *text = g_string_new (NULL);

  /* Translators: an amount of sap */
  add_amount (text, say, _ ("%s thrown out as ice"), all->flows[FR_FLOW_ICE].volume_l + ledger->tree_ice.volume_l);
  add_amount (text, say, _ ("%s spilled"), all->flows[FR_FLOW_SPILLED].volume_l);
  add_amount (text, say, _ ("%s spoiled"), all->flows[FR_FLOW_SPOILED].volume_l);
  add_amount (text, say, _ ("%s drunk"), all->flows[FR_FLOW_DRUNK].volume_l);
  add_amount (text, say, _ ("%s found beyond the reckoning"), all->flows[FR_FLOW_FOUND].volume_l);
  add_amount (text, say, _ ("%s found to be missing"), all->found_less.volume_l);
  if (text->len > 0)
    g_string_append_c (text, '.');
  return g_string_free (text, text->len == 0);
}

/* --- lines --- */

static char *
evening_of (const FrNight *night)
{
  FrDate date;

  return night->evening != NULL && fr_date_parse (night->evening, &date) ? fr_say_date (date) : g_strdup ("–");
}

static char *
night_sentence (const FrLedgerLine *line, const FrSay *say)
{
  const FrNight *night = (const FrNight *)line->record;
  g_autofree char *evening = evening_of (night), *litres = fr_season_litres (say, fabs (line->volume_l)),
                  *told = fr_season_litres (say, line->computed_l + line->volume_l);

  if (line->code == FR_LEDGER_NIGHT_ALONE)
    /* Translators: a date, an amount of sap */
    return g_strdup_printf (_ ("For the boil of %s no sap was taken out of a container; the night says that %s were boiled."),
                            evening, told);
  return g_strdup_printf (line->volume_l > 0
                              /* Translators: a date, an amount of sap */
                              ? _ ("For the boil of %s %s less were taken out of containers than the night says were boiled.")
                              : _ ("For the boil of %s %s more were taken out of containers than the night says were boiled."),
                          evening, litres);
}

static char *
pour_sentence (const FrLedgerLine *line, const FrRecord *container, const FrSay *say)
{
  g_autofree char *date = fr_say_date (fr_zone_local (say->zone, line->utc_s).date),
                  *litres = fr_season_litres (say, line->volume_l), *name = fr_container_words (container), *evening = NULL;

  evening = evening_of (line->night);
  /* Translators: a date, an amount of sap, a container, a date */
  return g_strdup_printf (
      _ ("On %s %s were taken out of %s for a boil that no night tells of; they may belong to that of %s."), date, litres,
      name, evening);
}

char *
fr_ledger_line_sentence (const FrLedgerLine *line, const FrLedger *ledger, const FrSay *say)
{
  const FrStockPlace *place = fr_stock_place (ledger->stock, line->container);
  const FrRecord *container = place != NULL && place->container != NULL ? &place->container->record : NULL;
  FrStockLine plain = { .utc_s = line->utc_s,
                        .since_utc = line->since_utc,
                        .container = line->container,
                        .computed_l = line->computed_l,
                        .volume_l = line->volume_l,
                        .sugar_kg = line->sugar_kg,
                        .record = line->record };

  switch (line->code)
    {
    case FR_LEDGER_NIGHT_DIFFERS:
    case FR_LEDGER_NIGHT_ALONE:
      return night_sentence (line, say);
    case FR_LEDGER_POUR_ALONE:
      return pour_sentence (line, container, say);
    default:
      plain.code = (FrStockLineCode)line->code;
      return fr_stock_line_sentence (&plain, container, say);
    }
}

/* --- causes --- */

/* "The gathering of Wednesday 5 March, 16:00". */
static char *
entry_words (const FrRecord *record, const FrSay *say)
{
  gint64 utc_s;
  g_autofree char *date = NULL, *clock = NULL;
  const char *format;

  switch (record->kind->id)
    {
    case FR_KIND_GATHERING:
      utc_s = ((const FrGathering *)record)->gathered_utc;
      /* Translators: a date, a clock time */
      format = _ ("The gathering of %s, %s,");
      break;
    case FR_KIND_POUR:
      utc_s = ((const FrPour *)record)->poured_utc;
      format = _ ("The pour of %s, %s,");
      break;
    case FR_KIND_DIP:
      utc_s = ((const FrDip *)record)->found_utc;
      format = _ ("The look of %s, %s,");
      break;
    default:
      utc_s = ((const FrNight *)record)->start_utc;
      format = _ ("The boil of %s, %s,");
      break;
    }
  date = fr_say_date (fr_zone_local (say->zone, utc_s).date);
  clock = fr_say_clock (say, utc_s);
  return g_strdup_printf (format, date, clock);
}

static char *
unit_sentence (const FrLedgerCause *cause, const FrSay *say)
{
  g_autofree char *entry = entry_words (cause->record, say);

  switch (cause->slip)
    {
    /* Translators: "The gathering of Wednesday 5 March, 16:00," */
    case FR_SLIP_US_GAL:
      return g_strdup_printf (_ ("%s may have been in US gallons and kept as litres."), entry);
    case FR_SLIP_IMP_GAL:
      return g_strdup_printf (_ ("%s may have been in imperial gallons and kept as litres."), entry);
    case FR_SLIP_L_US:
      return g_strdup_printf (_ ("%s may have been in litres and kept as US gallons."), entry);
    case FR_SLIP_L_IMP:
      return g_strdup_printf (_ ("%s may have been in litres and kept as imperial gallons."), entry);
    case FR_SLIP_LB:
      return g_strdup_printf (_ ("%s may have been in pounds and kept as kilograms."), entry);
    case FR_SLIP_KG:
      return g_strdup_printf (_ ("%s may have been in kilograms and kept as pounds."), entry);
    case FR_SLIP_INCH:
      return g_strdup_printf (_ ("%s may have been in inches and kept as centimetres."), entry);
    case FR_SLIP_CM:
      return g_strdup_printf (_ ("%s may have been in centimetres and kept as inches."), entry);
    case FR_SLIP_TEN_MORE:
      return g_strdup_printf (_ ("%s may have been ten times as much, with its decimal mark in another place."), entry);
    case FR_SLIP_TEN_LESS:
    default:
      return g_strdup_printf (_ ("%s may have been a tenth of it, with its decimal mark in another place."), entry);
    }
}

static char *
boiled_sentence (const FrLedgerLine *line, const FrLedgerCause *cause, const FrSay *say)
{
  g_autofree char *evening = NULL, *litres = NULL;

  if (line->code == FR_LEDGER_NIGHT_DIFFERS)
    return g_strdup (line->volume_l > 0 ? _ ("Some of what was boiled may not have been written down as taken out.")
                                        : _ ("More may have been boiled than the night says."));
  if (cause->record == NULL || isnan (cause->volume_l))
    return g_strdup (_ ("More may have gone to the boil than was written down."));
  evening = evening_of ((const FrNight *)cause->record);
  litres = fr_season_litres (say, fabs (cause->volume_l));
  /* Translators: a date, an amount of sap */
  return g_strdup_printf (_ ("More may have gone to the boil of %s than was written down: the night says %s more."), evening,
                          litres);
}

char *
fr_ledger_cause_sentence (const FrLedgerLine *line, const FrLedgerCause *cause, const FrSay *say)
{
  g_autofree char *entry = cause->record != NULL ? entry_words (cause->record, say) : NULL, *litres = NULL;

  switch (cause->code)
    {
    case FR_LEDGER_CAUSE_MEASURING:
      if (isnan (line->error_l))
        return g_strdup (_ ("It may be no more than readings usually are off by."));
      litres = fr_season_litres (say, line->error_l);
      /* Translators: an amount of sap */
      return g_strdup_printf (_ ("It may be no more than measuring usually is off by: about %s here."), litres);
    case FR_LEDGER_CAUSE_UNIT:
      return unit_sentence (cause, say);
    case FR_LEDGER_CAUSE_MISSED:
      return g_strdup (_ ("A gathering may not have been written down."));
    case FR_LEDGER_CAUSE_DOUBLE:
      /* Translators: "The gathering of Wednesday 5 March, 16:00," */
      return g_strdup_printf (_ ("%s may have been written down twice."), entry);
    case FR_LEDGER_CAUSE_BOILED_MORE:
      return boiled_sentence (line, cause, say);
    case FR_LEDGER_CAUSE_SPILLED:
      return g_strdup (_ ("Some may have been spilled or drunk, or have leaked."));
    case FR_LEDGER_CAUSE_ICE:
      return g_strdup (_ ("Ice may have been thrown out and not written down, or have been in it when it was read."));
    case FR_LEDGER_CAUSE_WATER:
      return g_strdup (_ ("Rain or melting snow may have come in."));
    case FR_LEDGER_CAUSE_POURED_BACK:
      litres = fr_season_litres (say, cause->volume_l);
      /* Translators: an amount of sap */
      return g_strdup_printf (_ ("What a boil left in its bucket, %s, may have been poured back."), litres);
    case FR_LEDGER_CAUSE_OTHER_PLACE:
      /* Translators: "The gathering of Wednesday 5 March, 16:00," */
      return g_strdup_printf (_ ("%s may belong to another container, which is off by as much the other way."), entry);
    case FR_N_LEDGER_CAUSES:
    default:
      return NULL;
    }
}

char *
fr_ledger_chance_words (const FrLedgerCause *cause, const FrSay *say)
{
  /* No cause is certain. */
  return fr_say_amount (say, CLAMP (cause->chance_ratio, 0.01, 0.99), FR_QUANTITY_RATIO, 0);
}
