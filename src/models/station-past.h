/* What the book has of one source of weather, over all seasons, and how its place differs from the household's own. */
#pragma once

#include "domain/maths/weather-offset.h"
#include "models/book.h"

G_BEGIN_DECLS

/**
 * FrStationPast:
 * @n_days: on file
 * @first, @last: of them, when there is one
 * @low, @high: what the household's own days taught; @n_days 0 without
 */
typedef struct
{
  guint n_days;
  FrDate first;
  FrDate last;
  FrOffset low;
  FrOffset high;
} FrStationPast;

/* FALSE with a sentence when the book cannot be read. */
gboolean fr_station_past_read (FrBook *book, const FrStation *station, FrStationPast *past_out, GError **error);

G_END_DECLS
