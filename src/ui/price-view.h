/* What a price plan asks over a day, as skylines: one lane for each kind of day that differs. */
#pragma once

#include <gtk/gtk.h>

#include "domain/maths/tariff.h"
#include "domain/units/quantity.h"

G_BEGIN_DECLS

#define FR_TYPE_PRICE_VIEW (fr_price_view_get_type ())
G_DECLARE_FINAL_TYPE (FrPriceView, fr_price_view, FR, PRICE_VIEW, GtkWidget)

GtkWidget *
fr_price_view_new (void);

/* @tariff NULL hides it. @on is the day whose season is shown. */
void
fr_price_view_set (FrPriceView *self, const FrTariff *tariff, FrDate on, const FrUnits *units);

G_END_DECLS
