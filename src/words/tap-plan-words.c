/* The choice in words. A choice without a book is told as the plan of a book is; only what rules every choice
 * out is said here, each with its remedy. */
#include "words/tap-plan-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

FrBushPlanWords *
fr_tap_choice_words_new (const FrTapChoice *choice, const FrTapLimits *limits, const FrSay *say)
{
  const FrBushPlan plan = {
    .code = FR_BUSH_PLAN_OK,
    .n_taps = choice->buckets_used,
    .n_trees = choice->trees_used,
    .sugar_kg = choice->sugar_kg,
    .sugar_low_kg = NAN,
    .sugar_high_kg = NAN,
    .volume_l = choice->litres_l,
    .peak_l = choice->peak_l,
    .next_bucket_kg = choice->next_bucket_kg,
    .kitchen_limits = choice->kitchen_limits,
    .kitchen_from_buckets = choice->kitchen_limits_from <= limits->buckets ? choice->kitchen_limits_from : 0,
    .walk_m = NAN,
    .is_exact = choice->is_exact,
    .bound_kg = choice->bound_kg,
  };

  g_return_val_if_fail (choice->code == FR_TAP_CHOICE_OK, NULL);
  return fr_bush_plan_words_new (NULL, &plan, say);
}

static char *
kitchen_refusal (const FrTapChoice *choice, const FrTapLimits *limits, const FrSay *say)
{
  g_autofree char *peak = fr_say_amount (say, choice->musts_peak_l, FR_QUANTITY_VOLUME, -1);
  g_autofree char *boils = fr_say_amount (say, limits->boil_l_per_day, FR_QUANTITY_VOLUME, -1);

  return g_strdup_printf (
      _ ("The trees that must be tapped bring %s on a peak day, and the kitchen boils %s. Boil more, or "
         "leave some of them open."),
      peak, boils);
}

char *
fr_tap_choice_refusal (const FrTapChoice *choice, const FrTapLimits *limits, const char *name,
                       const FrSay *say)
{
  switch (choice->code)
    {
    case FR_TAP_CHOICE_OK:
      return NULL;
    case FR_TAP_CHOICE_MUST_AND_NEVER:
      return g_strdup_printf (_ ("“%s” must be tapped and must never be; take one of the two back."), name);
    case FR_TAP_CHOICE_MUST_WITHOUT_TAPS:
      return g_strdup_printf (_ ("“%s” must be tapped but may carry no tap. Allow it one, or leave it open."),
                              name);
    case FR_TAP_CHOICE_TOO_FEW_BUCKETS:
      return g_strdup_printf (
          g_dngettext (GETTEXT_PACKAGE,
                       "%u tree must be tapped, and there are %u buckets. Get %u more, or leave the tree "
                       "open.",
                       "%u trees must be tapped, and there are not more than %u buckets. Get %u more, or "
                       "leave some of the trees open.",
                       choice->musts),
          choice->musts, limits->buckets, choice->musts - limits->buckets);
    case FR_TAP_CHOICE_TOO_FEW_TREES:
      return g_strdup_printf (
          g_dngettext (GETTEXT_PACKAGE,
                       "%u tree must be tapped, and at most %u are allowed. Allow more, or leave it open.",
                       "%u trees must be tapped, and at most %u are allowed. Allow more, or leave some of "
                       "them open.",
                       choice->musts),
          choice->musts, limits->trees_max);
    case FR_TAP_CHOICE_KITCHEN_TOO_SMALL:
      return kitchen_refusal (choice, limits, say);
    case FR_TAP_CHOICE_BAD_INPUT:
    case FR_N_TAP_CHOICE_CODES:
    default:
      return g_strdup (_ ("A number is outside its range, so no plan can be made."));
    }
}
