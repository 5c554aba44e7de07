/* Between the files of book-forecast.h. */
#pragma once

#include "domain/plan/book-forecast.h"

G_BEGIN_DECLS

/* What is fixed of a question before taps and gatherings are read. */
typedef struct
{
  const FrSeasonBook *book;
  guint season;
  gint offset_s;    /* standard clock minus UTC */
  gint gather_hour; /* on it, −1 not told */
  FrDate today;
} FrForecastFrame;

/* The date of the day, from one gathering hour to the next, that an instant belongs to: the one whose end is nearest. */
FrDate fr_forecast_date_of (const FrForecastFrame *frame, gint64 utc_s);

void fr_book_forecast_put_taps (FrBookForecast *asked, const FrForecastFrame *frame);

G_END_DECLS
