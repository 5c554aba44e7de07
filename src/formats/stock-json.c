/* The store's numbers and codes, key by key. */
#include "formats/stock-json.h"

#include <math.h>

static const char *const temps[] = { "unknown", "typed", "modelled", "place" };
static const char *const firsts[] = { "none", "only", "oldest", "spoils" };

const char *
fr_stock_line_code (FrStockLineCode code)
{
  static const char *const codes[FR_N_LINES]
      = { "found", "negative", "overflow", "no_sugar", "sugar", "no_amount" };

  g_return_val_if_fail ((guint)code < FR_N_LINES, NULL);
  return codes[code];
}

void
fr_output_container (FrOutput *output, const char *key, const FrContainer *container)
{
  if (container == NULL)
    {
      fr_output_null (output, key);
      return;
    }
  fr_output_object (output, key);
  fr_output_string (output, "name", container->name != NULL ? container->name : "");
  fr_output_string (output, "uid", container->record.uid);
  fr_output_end_object (output);
}

void
fr_output_record (FrOutput *output, const char *key, const FrRecord *record)
{
  if (record == NULL)
    {
      fr_output_null (output, key);
      return;
    }
  fr_output_object (output, key);
  fr_output_string (output, "kind", record->kind->name);
  fr_output_string (output, "uid", record->uid);
  fr_output_end_object (output);
}

static void
put_place (FrOutput *output, const FrStockPlace *place)
{
  fr_output_object (output, NULL);
  fr_output_container (output, "container", place->container);
  if (place->container != NULL)
    fr_output_string (output, "place", place->container->place);
  else
    fr_output_null (output, "place");
  fr_output_number (output, "capacity_l", place->container != NULL ? place->container->capacity_l.value : NAN);
  fr_output_number (output, "volume_l", place->volume_l);
  fr_output_number (output, "mass_kg", place->mass_kg);
  fr_output_number (output, "sugar_kg", place->sugar_kg);
  fr_output_number (output, "brix", place->brix);
  fr_output_boolean (output, "brix_assumed", place->brix_assumed);
  fr_output_number (output, "liquid_brix", place->liquid_brix);
  fr_output_number (output, "temp_c", place->temp_c);
  fr_output_string (output, "temp_from", temps[place->temp_from]);
  fr_output_number (output, "ice_ratio", place->ice_ratio);
  fr_output_instant (output, "oldest", place->oldest_utc);
  fr_output_number (output, "used_ratio", place->used_ratio);
  fr_output_instant (output, "spoils", place->spoils_utc);
  fr_output_instant (output, "changed", place->changed_utc);
  fr_output_string (output, "clarity", place->clarity);
  fr_output_string (output, "smell", place->smell);
  fr_output_end_object (output);
}

/* By id; 0 and ids without a place give NULL. */
static const FrContainer *
container_of (const FrStock *stock, gint64 id)
{
  const FrStockPlace *place = fr_stock_place (stock, id);

  return place != NULL ? place->container : NULL;
}

static void
put_line (FrOutput *output, const FrStock *stock, const FrStockLine *line)
{
  fr_output_object (output, NULL);
  fr_output_string (output, "code", fr_stock_line_code (line->code));
  fr_output_instant (output, "at", line->utc_s);
  fr_output_instant (output, "since", line->since_utc);
  fr_output_container (output, "container", container_of (stock, line->container));
  fr_output_number (output, "computed_l", line->computed_l);
  fr_output_number (output, "volume_l", line->volume_l);
  fr_output_number (output, "sugar_kg", line->sugar_kg);
  fr_output_record (output, "record", line->record);
  fr_output_end_object (output);
}

char *
fr_stock_to_json (const FrStock *stock)
{
  FrOutput out;

  fr_output_init (&out);
  fr_output_object (&out, NULL);
  fr_output_instant (&out, "from", stock->from_utc);
  fr_output_instant (&out, "at", stock->at_utc);
  fr_output_number (&out, "volume_l", stock->volume_l);
  fr_output_number (&out, "mass_kg", stock->mass_kg);
  fr_output_number (&out, "sugar_kg", stock->sugar_kg);
  fr_output_number (&out, "capacity_l", stock->capacity_l);
  fr_output_instant (&out, "oldest", stock->oldest_utc);
  fr_output_object (&out, "first");
  fr_output_string (&out, "code", firsts[stock->first_code]);
  fr_output_container (&out, "container", stock->first >= 0 ? stock->places[stock->first].container : NULL);
  fr_output_end_object (&out);
  fr_output_array (&out, "containers");
  for (guint i = 0; i < stock->n_places; i++)
    put_place (&out, &stock->places[i]);
  fr_output_end_array (&out);
  fr_output_array (&out, "lines");
  for (guint i = 0; i < stock->n_lines; i++)
    put_line (&out, stock, &stock->lines[i]);
  fr_output_end_array (&out);
  fr_output_end_object (&out);
  return fr_output_finish (&out);
}
