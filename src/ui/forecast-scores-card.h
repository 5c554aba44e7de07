/* How well the forecast did here, beside what simpler ways would have said. */
#pragma once

#include "models/forecast-scores.h"

#include <adwaita.h>

G_BEGIN_DECLS

#define FR_TYPE_FORECAST_SCORES_CARD (fr_forecast_scores_card_get_type ())
G_DECLARE_FINAL_TYPE (FrForecastScoresCard, fr_forecast_scores_card, FR, FORECAST_SCORES_CARD, AdwBin)

GtkWidget *fr_forecast_scores_card_new (FrForecaster *forecaster);

/* Shows what is known now; asks for it the first time. @say: how the household is spoken to. */
void fr_forecast_scores_card_show (FrForecastScoresCard *self, const FrSay *say);

FrForecastScores *fr_forecast_scores_card_get_scores (FrForecastScoresCard *self);

G_END_DECLS
