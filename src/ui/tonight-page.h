/* The first page: how much to pour tonight and when to switch on. */
#pragma once

#include "models/forecast.h"
#include "ui/fold-bin.h"

G_BEGIN_DECLS

#define FR_TYPE_TONIGHT_PAGE (fr_tonight_page_get_type ())
G_DECLARE_FINAL_TYPE (FrTonightPage, fr_tonight_page, FR, TONIGHT_PAGE, FrFoldBin)

FrTonightPage *fr_tonight_page_new (FrBook *book);
/* Who knows when the next sap comes. */
void fr_tonight_page_set_forecaster (FrTonightPage *self, FrForecaster *forecaster);

/* The evening it speaks of, "Thursday 11 March", in the household's zone; NULL while it is unknown. Free it. */
char *fr_tonight_page_subtitle (FrTonightPage *self);

/* What stands at the end of the header bar while this page is shown. */
GtkWidget *fr_tonight_page_action (FrTonightPage *self);

G_END_DECLS
