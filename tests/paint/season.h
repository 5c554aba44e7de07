/* An invented season to draw: eleven weeks of a late winter in a zone five hours behind UTC, four from 8
 * March on. */
#pragma once

#include "paint/season-strip.h"

#define SEASON_DAYS 78
#define SEASON_LEVELS_MOST 400
#define SEASON_PRICES_MOST 500

typedef struct
{
  FrSeasonView view;
  FrSeasonDay days[SEASON_DAYS];
  FrDay records[SEASON_DAYS];
  FrStockLevel levels[SEASON_LEVELS_MOST];
  FrSeasonPrice prices[SEASON_PRICES_MOST];
  FrSeasonMonth months[4];
  FrSeasonFoot feet[2];
  FrSeasonTexts texts;
  double past_l[3][60];
  FrSeasonPast past[3];
  FrSeasonStrip strip;
} Season;

/* @with_forecast: five days after today are expected, weather and sap. */
void
season_fill (Season *season, gboolean with_forecast);

/* Empty days from @first on. Free the view's days. */
FrSeasonView
season_bare (FrDate first, guint n_days);
