/* What the forecast means for the kitchen: on which nights the pan must boil, when the store runs over, how
 * much room is missing and by when, on which evenings there is nothing to boil.
 *
 * Day by day: on the evening of a day its sap comes into the store; if that is more than the store holds, it
 * runs over on that evening. In the night after, the pan may boil off up to a night's litres, first what has
 * to be boiled first. A night must boil when without it no later nights could save all: some sap would run
 * over, or be past its time. It then boils as much as it can. So the nights are as few and as late as can be,
 * and leaving out the first of them costs sap. Two courses are told: the middle, and the one that nine in ten
 * stay under. */
#pragma once

#include "domain/plan/evening.h"
#include "domain/plan/forecast-answer.h"
#include "domain/plan/stock.h"

G_BEGIN_DECLS

typedef enum
{
  FR_KITCHEN_MIDDLE,
  FR_KITCHEN_NINE_IN_TEN,
  FR_N_KITCHEN_COURSES
} FrKitchenCourse;

/* Sap in store. @boil_by: the last evening on which boiling it begins in time, year 0 unknown: at no time. */
typedef struct
{
  double volume_l;
  FrDate boil_by;
} FrKitchenLot;

/**
 * FrKitchenQuestion:
 * @today: the first evening
 * @n_days: evenings, today's with them
 * @come_in_l: what comes into the store on each evening, 0 or more
 * @n_lots, @lots: what is in store already
 * @capacity_l: what the store holds, NAN unknown: it never runs over
 * @night_l: what a night boils off at most, 0 or more; NAN unknown: nothing is said of nights
 * @least_l: less than this is nothing to boil
 * @keeps_days: evenings after the one it came in on by which new sap has to be on the stove: 0 the same
 */
typedef struct
{
  FrDate today;
  guint n_days;
  const double *come_in_l[FR_N_KITCHEN_COURSES];
  guint n_lots;
  const FrKitchenLot *lots;
  double capacity_l;
  double night_l;
  double least_l;
  guint keeps_days;
} FrKitchenQuestion;

/**
 * FrKitchenNight:
 * @store_l: on the evening, all in, before boiling; nothing that ran over is taken off, so that it says how
 * much room was wanted
 * @must_boil: tonight; @is_for_room: or more runs over; @is_for_time: or more is past its time
 * @boiled_l: in this night; NAN when a night's litres are not known
 * @over_l: of @store_l beyond the capacity; NAN unknown capacity
 * @late_l: past its time after this night
 * @is_nothing: less than there has to be for boiling
 */
typedef struct
{
  double store_l;
  gboolean must_boil;
  gboolean is_for_room;
  gboolean is_for_time;
  double boiled_l;
  double over_l;
  double late_l;
  gboolean is_nothing;
} FrKitchenNight;

/**
 * FrKitchenCourseDays:
 * @nights: one for each evening
 * @n_must: nights that must boil; @first_must: the first, −1 for none
 * @first_over: evening on which the store runs over, though it boils when it must, −1 for none
 * @first_over_idle: the same if nothing is boiled at all
 * @missing_l: the most room that is wanted beside, 0 for none, by the evening @missing_by; −1 for none
 * @first_late: night after which sap is past its time all the same, −1 for none
 */
typedef struct
{
  FrKitchenNight *nights;
  guint n_must;
  gint first_must;
  gint first_over;
  gint first_over_idle;
  double missing_l;
  gint missing_by;
  gint first_late;
} FrKitchenCourseDays;

typedef struct
{
  FrDate today;
  guint n_days;
  double capacity_l;
  double night_l;
  double stored_l;
  /* Room after tonight's boil if it boils all it can, and without boiling; NAN unknown capacity. */
  double free_after_l;
  double free_now_l;
  FrKitchenCourseDays courses[FR_N_KITCHEN_COURSES];
} FrKitchen;

FrKitchen *
fr_kitchen_new (const FrKitchenQuestion *question);
void
fr_kitchen_free (FrKitchen *kitchen);

/**
 * fr_kitchen_night_l:
 * @input: an evening with all its kits
 * @least_l_out: (optional): the smallest boil of all kits, NAN without a kit
 *
 * Returns: what all kits that are on boil off in the hours of @input if there is sap without end, by the same
 * plan as tonight's; 0 when the plan says that nothing can be boiled, NAN without a kit
 */
double
fr_kitchen_night_l (const FrPlanInput *input, double *least_l_out);

/**
 * fr_kitchen_of_book:
 * @book: its zone is needed
 * @forecast: of the book's taps
 * @answer: of @forecast; what hangs comes in on the first evening ahead
 * @now_utc: the moment
 *
 * From today on through the days whose weather is known.
 *
 * Returns: NULL when no day ahead is known
 */
FrKitchen *
fr_kitchen_of_book (const FrSeasonBook *book, const FrForecast *forecast, const FrForecastAnswer *answer,
                    gint64 now_utc);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrKitchen, fr_kitchen_free)

G_END_DECLS
