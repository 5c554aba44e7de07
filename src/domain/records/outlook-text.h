/* A forecast's days and hours as a text, for the book: one value a word, "." for an unknown one. Each line begins with what it holds:
 *
 *   from 2026-03-20             the days after it, one after the other
 *   low -4.5 -1 .               °C, a value a day; so are high (°C), rain, snow (m) and sun (J/m²)
 *   hours 1774000800 3600 -2 1  instants so many seconds apart (60 to 86400), °C
 *
 * A gap in days or hours begins anew with another "from" or "hours". A line in which nothing is known is left out. Numbers are written with
 * as many digits as bring the same number back. */
#pragma once

#include "domain/maths/weather.h"

G_BEGIN_DECLS

/* What @weather tells ahead (its days and hours that are forecast), in order; what it saw is left out. Marks are not kept. NULL when there is
 * no such value. Free it. */
char *fr_outlook_write (const FrWeather *weather);

/* Days and hours, all of them forecast, in order, with marks plain or absent. NULL when the text is none, or is absurd: a day or an hour twice,
 * more than 400 days or 2,000 hours, a value that no place on earth has; the line at @line_out then, from 1. Instants and dates are those
 * of the years 1600 to 2400. */
FrWeather *fr_outlook_parse (const char *text, guint *line_out);

G_END_DECLS
