/* What the forecast means for the kitchen, key by key. */
#pragma once

#include "domain/plan/sap-kitchen.h"
#include "formats/json-output.h"

G_BEGIN_DECLS

/* The keys of an object that is begun. @kitchen NULL: no weather ahead, all null. */
void
fr_kitchen_write_json (FrOutput *output, const FrKitchen *kitchen);

G_END_DECLS
