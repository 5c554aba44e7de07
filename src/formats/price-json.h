/* A power trace and a tariff as JSON, and what the trace costs. Keys with units and ranges: docs/json.md. */
#pragma once

#include "domain/maths/cost.h"

#include <json-glib/json-glib.h>

G_BEGIN_DECLS

/* Free with fr_price_input_free. */
typedef struct
{
  char *zone;
  FrDate start; /* local */
  gint start_second_of_day;
  guint n_steps;
  FrPowerStep *steps;
  gint last_year; /* the zone table must reach to its end */
  FrTariff *tariff;
} FrPriceInput;

/* NULL with a sentence (FR_INPUT_ERROR) that names the key and the range. */
FrPriceInput *
fr_price_input_read (JsonNode *root, GError **error);
void
fr_price_input_free (FrPriceInput *input);

/* The table of the zone for as long as the trace lasts. NULL when the machine does not know it. */
FrZoneTable *
fr_price_input_zone (const FrPriceInput *input, GError **error);

/* Prices the trace in the table of its zone. A start that happens twice is the first. Clear *cost_out. */
gboolean
fr_price_input_run (const FrPriceInput *input, const FrZoneTable *zone, FrCost *cost_out, GError **error);

/* Free it. */
char *
fr_cost_to_json (const FrCost *cost);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrPriceInput, fr_price_input_free)

G_END_DECLS
