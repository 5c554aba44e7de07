/* Asked twice: what is to be boiled tells how much room there will be, and that how the answer is told. */
#include "domain/plan/book-answer.h"

#include <math.h>

FrKitchen *
fr_book_answer (const FrSeasonBook *book, const FrBookForecast *asked, const FrForecast *forecast, gint64 now_utc,
                FrForecastAnswer *answer_out)
{
  FrAnswerQuestion question = { .forecast = forecast,
                                .is_tapped = asked->question.tapped.year != 0,
                                .today = asked->today,
                                .gather_hour = asked->gather_hour,
                                .free_l = NAN };
  FrKitchen *kitchen;

  fr_forecast_answer (&question, answer_out);
  kitchen = fr_kitchen_of_book (book, forecast, answer_out, now_utc);
  if (kitchen == NULL)
    return NULL;
  question.is_after_boil = kitchen->free_after_l > kitchen->free_now_l;
  question.free_l = question.is_after_boil ? kitchen->free_after_l : kitchen->free_now_l;
  fr_forecast_answer (&question, answer_out);
  return kitchen;
}
