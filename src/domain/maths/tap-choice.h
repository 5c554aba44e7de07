/* Which trees to tap, and with how many taps each, so that a season brings the most sugar.
 *
 * A tree offers litres a season for its first, second … tap and a sweetness. Buckets, the peak day the
 * kitchen can boil, and a number of trees limit the choice; some trees must be tapped, some never. Without a
 * limit by kitchen or trees the answer comes from a table over all numbers of buckets; with one, from a
 * search that ends with a proof or says how far the best choice may be from the best there is. Nothing is
 * random and nothing depends on the clock. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define FR_TAP_CHOICE_TAPS_MAX 10    /* on one trunk */
#define FR_TAP_CHOICE_TREES_MAX 5000 /* in one choice */
#define FR_TAP_CHOICE_NO_LIMIT G_MAXUINT
#define FR_TAP_CHOICE_CLOSE_RATIO 1e-9 /* amounts closer than this part of themselves count as equal */
#define FR_TAP_CHOICE_FITS_RATIO 1e-10 /* and litres over the kitchen by no more than this part of it fit */

/**
 * FrTapTree:
 * @taps_max: most taps, 0 to FR_TAP_CHOICE_TAPS_MAX
 * @litres_per_tap_l: litres a season of the first, second … tap, @taps_max of them, each 0 or more, in any
 * order of size; borrowed, may be NULL when @taps_max is 0
 * @brix: sweetness of its sap, 0 to 80 °Bx
 * @must: at least one tap
 * @never: no tap
 */
typedef struct
{
  guint taps_max;
  const double *litres_per_tap_l;
  double brix;
  gboolean must, never;
} FrTapTree;

/**
 * FrTapLimits:
 * @buckets: most taps in all
 * @trees_max: most trees, FR_TAP_CHOICE_NO_LIMIT for any number
 * @boil_l_per_day: sap the kitchen can boil on a peak day, NAN for any amount
 * @season_days: length of the season, over 0; may be NAN when @boil_l_per_day is
 * @peak_ratio: litres of the peak day over those of the average day, over 0; may be NAN likewise
 */
typedef struct
{
  guint buckets;
  guint trees_max;
  double boil_l_per_day;
  double season_days;
  double peak_ratio;
} FrTapLimits;

typedef enum
{
  FR_TAP_CHOICE_OK,
  FR_TAP_CHOICE_MUST_AND_NEVER,    /* @tree is asked for both */
  FR_TAP_CHOICE_MUST_WITHOUT_TAPS, /* @tree must be tapped and may carry none */
  FR_TAP_CHOICE_TOO_FEW_BUCKETS,   /* fewer than @musts */
  FR_TAP_CHOICE_TOO_FEW_TREES,     /* trees_max is under @musts */
  FR_TAP_CHOICE_KITCHEN_TOO_SMALL, /* one tap on each tree that must be tapped gives @musts_peak_l on the peak
                                      day */
  FR_TAP_CHOICE_BAD_INPUT,         /* a number is not in its range; @tree, or n_trees when it is a limit */
  FR_N_TAP_CHOICE_CODES
} FrTapChoiceCode;

/**
 * FrTapChoice:
 * @taps: for each tree, in the order given; NULL unless @code is OK
 * @sugar_kg: in their sap in a season
 * @litres_l: their sap in a season
 * @peak_l: their sap on the peak day; NAN when season_days or peak_ratio is
 * @trees_used: trees with taps
 * @buckets_used: taps in all; a tap that brings nothing is left out
 * @is_exact: no choice within the limits has more sugar (by more than FR_TAP_CHOICE_CLOSE_RATIO of it)
 * @bound_kg: no choice within the limits has more sugar than this; @sugar_kg when @is_exact
 * @next_bucket_kg: what one bucket more would add
 * @next_is_exact: @is_exact, and the choice with one bucket more is exact too
 * @kitchen_limits: a larger kitchen would give more sugar from these buckets
 * @kitchen_limits_from: the least number of buckets from which a larger kitchen would give more sugar, looked
 * for up to every tap there is; FR_TAP_CHOICE_NO_LIMIT when there is none
 * @musts: trees that must be tapped
 * @musts_peak_l: one tap on each of them, on the peak day
 */
typedef struct
{
  FrTapChoiceCode code;
  guint tree;
  guint *taps;
  double sugar_kg;
  double litres_l;
  double peak_l;
  guint trees_used;
  guint buckets_used;
  gboolean is_exact;
  double bound_kg;
  double next_bucket_kg;
  gboolean next_is_exact;
  gboolean kitchen_limits;
  guint kitchen_limits_from;
  guint musts;
  double musts_peak_l;
} FrTapChoice;

/* The best choice; clear *choice_out with fr_tap_choice_clear whatever the code. */
FrTapChoiceCode
fr_tap_choice (const FrTapTree *trees, guint n_trees, const FrTapLimits *limits, FrTapChoice *choice_out);
void
fr_tap_choice_clear (FrTapChoice *choice);

/**
 * fr_tap_choice_curve:
 * @limits: as for the choice; its buckets are not used
 * @buckets: @n numbers of buckets, ascending
 * @sugar_kg_out: most sugar with each; NAN where the trees that must be tapped do not allow it
 * @any_kitchen_kg_out: the same without the limit by kitchen; may be NULL
 *
 * The most sugar against the number of buckets, for a chart. Searches are kept shorter than those of
 * fr_tap_choice, so that a point may lie under the best there is by less than can be drawn.
 */
FrTapChoiceCode
fr_tap_choice_curve (const FrTapTree *trees, guint n_trees, const FrTapLimits *limits, const guint *buckets,
                     guint n, double *sugar_kg_out, double *any_kitchen_kg_out);

/* Sugar in a litre of sap at 20 °C, kg. */
double
fr_sap_sugar_kg (double litres_l, double brix);

/* "ok", "too_few_buckets" … */
const char *
fr_tap_choice_code (FrTapChoiceCode code);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (FrTapChoice, fr_tap_choice_clear)

G_END_DECLS
