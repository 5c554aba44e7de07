/* What a book's forecast tells to do: days to empty by the room that is left after tonight's boil, and nights to boil. Window and command
 * line ask here, so that they say the same. */
#pragma once

#include "domain/plan/book-forecast.h"
#include "domain/plan/sap-kitchen.h"

G_BEGIN_DECLS

/**
 * fr_book_answer:
 * @book: of the season that @now_utc lies in
 * @asked, @forecast: of it
 * @answer_out: what to do
 *
 * Returns: what it means for the kitchen, NULL when no day ahead is known
 */
FrKitchen *fr_book_answer (const FrSeasonBook *book, const FrBookForecast *asked, const FrForecast *forecast, gint64 now_utc,
                           FrForecastAnswer *answer_out);

G_END_DECLS
