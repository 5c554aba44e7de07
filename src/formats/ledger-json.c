/* The account's sums, nights and lines, key by key. */
#include "formats/ledger-json.h"

#include "formats/stock-json.h"

static const char *const flows[FR_N_FLOWS]
    = { "gathered", "moved_out", "boiled", "ice", "spilled", "spoiled", "drunk", "found_more" };
static const char *const causes[FR_N_LEDGER_CAUSES]
    = { "measuring", "unit", "missed", "double",      "boiled_more",
        "spilled",   "ice",  "water",  "poured_back", "other_place" };
static const char *const slips[FR_N_SLIPS] = { "us_gal", "imp_gal", "l_us", "l_imp", "lb",
                                               "kg", "inch", "cm", "ten_more", "ten_less" };

static void
put_sum (FrOutput *output, const char *key, const FrLedgerSum *sum)
{
  fr_output_object (output, key);
  fr_output_number (output, "volume_l", sum->volume_l);
  fr_output_number (output, "mass_kg", sum->mass_kg);
  fr_output_number (output, "sugar_kg", sum->sugar_kg);
  fr_output_end_object (output);
}

/* @together: nothing is moved into or out of all of it. */
static void
put_account (FrOutput *output, const FrLedgerAccount *account, gboolean together)
{
  for (guint kind = 0; kind < FR_N_FLOWS; kind++)
    if (!together || kind != FR_FLOW_MOVED)
      put_sum (output, flows[kind], &account->flows[kind]);
  if (!together)
    put_sum (output, "moved_in", &account->moved_in);
  put_sum (output, "found_less", &account->found_less);
  put_sum (output, "there", &account->there);
  fr_output_number (output, "mixing_l", account->mixing_l);
}

static void
put_night (FrOutput *output, const FrLedgerNight *night)
{
  fr_output_object (output, NULL);
  fr_output_string (output, "evening", night->night->evening);
  fr_output_string (output, "uid", night->night->record.uid);
  fr_output_instant (output, "start", night->night->start_utc);
  fr_output_number (output, "pours", night->n_pours);
  put_sum (output, "told", &night->told);
  put_sum (output, "poured", &night->poured);
  fr_output_end_object (output);
}

static const char *
line_code (FrLedgerCode code)
{
  switch (code)
    {
    case FR_LEDGER_NIGHT_DIFFERS:
      return "night_differs";
    case FR_LEDGER_NIGHT_ALONE:
      return "night_alone";
    case FR_LEDGER_POUR_ALONE:
      return "pour_alone";
    default:
      return fr_stock_line_code ((FrStockLineCode)code);
    }
}

static void
put_cause (FrOutput *output, const FrLedgerCause *cause)
{
  fr_output_object (output, NULL);
  fr_output_string (output, "code", causes[cause->code]);
  fr_output_number (output, "chance_ratio", cause->chance_ratio);
  fr_output_record (output, "record", cause->record);
  fr_output_record (output, "other", cause->other);
  if (cause->code == FR_LEDGER_CAUSE_UNIT)
    fr_output_string (output, "slip", slips[cause->slip]);
  else
    fr_output_null (output, "slip");
  fr_output_number (output, "volume_l", cause->volume_l);
  fr_output_end_object (output);
}

static void
put_line (FrOutput *output, const FrLedger *ledger, const FrLedgerLine *line)
{
  gboolean of_night = line->code == FR_LEDGER_NIGHT_DIFFERS || line->code == FR_LEDGER_NIGHT_ALONE;
  const FrStockPlace *place = of_night ? NULL : fr_stock_place (ledger->stock, line->container);

  fr_output_object (output, NULL);
  fr_output_string (output, "code", line_code (line->code));
  fr_output_instant (output, "at", line->utc_s);
  fr_output_instant (output, "since", line->since_utc);
  fr_output_container (output, "container", place != NULL ? place->container : NULL);
  fr_output_number (output, "computed_l", line->computed_l);
  fr_output_number (output, "volume_l", line->volume_l);
  fr_output_number (output, "sugar_kg", line->sugar_kg);
  fr_output_number (output, "error_l", line->error_l);
  fr_output_record (output, "record", line->record);
  fr_output_record (output, "night", line->night != NULL ? &line->night->record : NULL);
  fr_output_array (output, "causes");
  for (guint i = 0; i < line->n_causes; i++)
    put_cause (output, &line->causes[i]);
  fr_output_end_array (output);
  fr_output_end_object (output);
}

char *
fr_ledger_to_json (const FrLedger *ledger)
{
  FrOutput out;

  fr_output_init (&out);
  fr_output_object (&out, NULL);
  fr_output_number (&out, "season", ledger->season);
  fr_output_instant (&out, "from", ledger->from_utc);
  fr_output_instant (&out, "at", ledger->at_utc);
  fr_output_object (&out, "all");
  put_account (&out, &ledger->all, TRUE);
  fr_output_end_object (&out);
  put_sum (&out, "tree_ice", &ledger->tree_ice);
  fr_output_array (&out, "containers");
  for (guint i = 0; i < ledger->n_accounts; i++)
    {
      fr_output_object (&out, NULL);
      fr_output_container (&out, "container", ledger->accounts[i].container);
      put_account (&out, &ledger->accounts[i], FALSE);
      fr_output_end_object (&out);
    }
  fr_output_end_array (&out);
  fr_output_array (&out, "nights");
  for (guint i = 0; i < ledger->n_nights; i++)
    put_night (&out, &ledger->nights[i]);
  fr_output_end_array (&out);
  fr_output_array (&out, "lines");
  for (guint i = 0; i < ledger->n_lines; i++)
    put_line (&out, ledger, &ledger->lines[i]);
  fr_output_end_array (&out);
  fr_output_end_object (&out);
  return fr_output_finish (&out);
}
