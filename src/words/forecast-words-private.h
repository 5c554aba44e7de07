/* What the forecast's words share. */
#pragma once

#include "domain/units/calendar.h"
#include "words/say.h"

G_BEGIN_DECLS

/* Whole litres from ten on, tenths below. */
char *
fr_forecast_say_litres (const FrSay *say, double volume_l);
/* "Friday", from a week on "Friday 19", from a fortnight on "Friday 19 March". */
char *
fr_forecast_day_name (FrDate date, FrDate today);

G_END_DECLS
