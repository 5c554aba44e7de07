/* The plan in words: first what to do, then what happens, then the figures, what stays, what else it could
 * cost. */
#include "words/plan-words-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define SMALL_OVER_L 0.2
#define NEAR_RISE_S (3 * 3600)
#define LATE_S (15 * 60)

static void
cooker_free (FrCookerWords *words)
{
  g_free (words->name);
  g_free (words->pour);
  g_free (words->when);
  g_free (words);
}

static void
cost_free (FrCostWords *words)
{
  g_free (words->label);
  g_free (words->cost);
  g_free (words);
}

static void
caution_free (FrCautionWords *words)
{
  g_free (words->text);
  g_free (words);
}

static void
feed_free (FrFeedWords *words)
{
  g_free (words->title);
  fr_figure_free (words->setting);
  g_ptr_array_unref (words->lines);
  g_ptr_array_unref (words->warnings);
  g_free (words);
}

void
fr_plan_words_free (FrPlanWords *words)
{
  if (words == NULL)
    return;
  g_free (words->date);
  g_free (words->sentence);
  g_free (words->reason);
  g_free (words->danger);
  g_free (words->range);
  g_free (words->break_even);
  g_free (words->price_note);
  g_ptr_array_unref (words->figures);
  g_ptr_array_unref (words->cookers);
  g_ptr_array_unref (words->rest);
  g_ptr_array_unref (words->costs);
  g_ptr_array_unref (words->feeds);
  g_ptr_array_unref (words->cautions);
  g_free (words);
}

/* The clock within a day of switching on, later with the day. */
static char *
night_clock (const FrSay *say, gint64 utc, gint64 start_utc)
{
  return utc - start_utc < 86400 ? fr_say_clock (say, utc) : fr_say_when (say, utc, start_utc);
}

/* "12 minutes before the price doubles" / "… rises by 45 %". */
static char *
before_the_rise (const FrPlan *plan, const FrSay *say)
{
  g_autofree char *span = NULL;
  double ratio = plan->price_after / plan->price_before;

  /* A rise long after the end tells nobody anything. */
  if (plan->rise_utc == G_MININT64 || plan->end_utc > plan->rise_utc
      || plan->rise_utc - plan->end_utc > NEAR_RISE_S)
    return NULL;
  span = fr_say_span ((double)(plan->rise_utc - plan->end_utc));
  if (plan->price_before > 0 && ratio >= 1.9 && ratio <= 2.15)
    return g_strdup_printf (_ ("%s before the price doubles"), span);
  if (plan->price_before > 0 && ratio < 10)
    {
      g_autofree char *percent = fr_say_number (say, 100 * (ratio - 1), 0);

      return g_strdup_printf (_ ("%s before the price rises by %s %%"), span, percent);
    }
  return g_strdup_printf (_ ("%s before the price rises"), span);
}

static char *
finishing (const FrPlan *plan, const FrSay *say)
{
  g_autofree char *syrup = fr_say_amount (say, plan->syrup_l, FR_QUANTITY_VOLUME, 2), *span = NULL,
                  *jars = NULL;
  g_autofree char *much = NULL;

  if (isnan (plan->jars))
    much = g_strdup (syrup);
  else
    {
      jars = fr_say_number (say, plan->jars, 1);
      much = g_strdup_printf (_ ("%s of syrup, %s jars"), syrup, jars);
    }
  if (!(plan->finish_kg > 0))
    return g_strdup_printf (_ ("It is syrup by then: %s."), much);
  if (!isfinite (plan->finish_s))
    return g_strdup_printf (_ ("Finish it on a stronger cooker: it makes %s."), much);
  span = fr_say_span (plan->finish_s);
  return g_strdup_printf (_ ("About %s of finishing then makes %s."), span, much);
}

static char *
against (const FrPlan *plan, const FrPlanInput *input, const FrSay *say)
{
  for (guint i = 1; i < plan->n_ways; i++)
    {
      const FrWay *way = &plan->ways[i];
      g_autofree char *cost = NULL, *other = NULL;

      if (isnan (way->cost_minor) || isnan (plan->cost_minor) || way->code == FR_WAY_BEST)
        continue;
      cost = fr_say_money (say, plan->cost_minor);
      other = fr_say_money (say, way->cost_minor);
      if (way->code == FR_WAY_DAY)
        return g_strdup_printf (_ ("Cost %s; at the day’s price %s."), cost, other);
      /* Translators: cost, the fuel’s name, cost with it */
      return g_strdup_printf (_ ("Cost %s; with %s %s."), cost, input->fuel_name, other);
    }
  if (!isnan (plan->cost_minor))
    {
      g_autofree char *cost = fr_say_money (say, plan->cost_minor);

      return g_strdup_printf (_ ("Cost %s."), cost);
    }
  return NULL;
}

static char *
ends_how (const FrPlan *plan, const FrSay *say, gint64 start_utc)
{
  g_autofree char *end = night_clock (say, plan->end_utc, start_utc);
  g_autofree char *left = fr_say_amount (say, plan->left_l, FR_QUANTITY_VOLUME, 1);
  g_autofree char *brix = fr_say_amount (say, plan->left_brix, FR_QUANTITY_SWEETNESS, -1);
  g_autofree char *rise = before_the_rise (plan, say), *dry = NULL, *when = NULL, *what = NULL;
  guint n_used = 0;

  for (guint i = 0; i < plan->n_shares; i++)
    n_used += plan->shares[i].used;
  /* Translators: a clock time, then "25 min before the price doubles" */
  when = rise != NULL ? g_strdup_printf (_ ("%s, %s"), end, rise) : g_strdup (end);
  if (n_used > 1)
    what = g_strdup_printf (_ ("The last pan cuts off at %s; %s at %s are left in all."), when, left, brix);
  else if (rise != NULL)
    what = g_strdup_printf (_ ("The pan cuts off at %s, with %s at %s."), when, left, brix);
  else
    what = g_strdup_printf (_ ("The pan cuts off at %s with %s at %s."), when, left, brix);
  if (plan->dry_utc != G_MININT64)
    {
      g_autofree char *clock = night_clock (say, plan->dry_utc, start_utc);

      dry = n_used > 1 ? g_strdup_printf (_ ("The last bucket is dry at %s."), clock)
                       : g_strdup_printf (_ ("The bucket is dry at %s."), clock);
    }
  return dry != NULL ? g_strdup_printf ("%s %s", dry, what) : g_steal_pointer (&what);
}

static char *
main_reason (const FrPlan *plan, const FrPlanInput *input, const FrSay *say)
{
  g_autofree char *ends = ends_how (plan, say, input->start_utc), *finish = finishing (plan, say),
                  *cost = against (plan, input, say);

  if (!input->kept && input->now_utc - input->start_utc > LATE_S)
    {
      g_autofree char *start = fr_say_clock (say, input->start_utc);
      g_autofree char *late
          = g_strdup_printf (_ ("%s is past: this holds if the power went on then."), start);

      return g_strjoin (" ", late, ends, finish, cost, NULL);
    }
  return g_strjoin (" ", ends, finish, cost, NULL);
}

static char *
range_sentence (const FrPlan *plan, const FrSay *say)
{
  g_autofree char *early = NULL, *late = NULL;

  if (plan->late_utc - plan->early_utc < 600)
    return NULL;
  early = fr_say_clock (say, plan->early_utc);
  late = fr_say_clock (say, plan->late_utc);
  return g_strdup_printf (_ ("Nine times in ten the cut-off comes between %s and %s."), early, late);
}

/* --- figures --- */

static const char *
limit_word (FrLimit limit)
{
  switch (limit)
    {
    case FR_LIMIT_TIME:
      return _ ("Time");
    case FR_LIMIT_BRIX:
      return _ ("Thickness");
    case FR_LIMIT_CAPACITY:
      return _ ("Bucket");
    case FR_LIMIT_SAP:
      return _ ("Sap");
    default:
      return "–";
    }
}

static char *
next_note (const FrPlanShare *share, const FrPlanInput *input, const FrSay *say)
{
  g_autofree char *more = NULL;

  if (share->next == FR_LIMIT_NONE || isnan (share->next_l))
    return NULL;
  more = fr_say_amount (say, MAX (0, share->next_l - share->bucket_l), FR_QUANTITY_VOLUME, 1);
  switch (share->next)
    {
    case FR_LIMIT_BRIX:
      {
        g_autofree char *brix = fr_say_amount (say, input->max_brix, FR_QUANTITY_SWEETNESS, 0);

        return g_strdup_printf (_ ("then %s, +%s"), brix, more);
      }
    case FR_LIMIT_TIME:
      return g_strdup_printf (_ ("then time, +%s"), more);
    default:
      return g_strdup_printf (_ ("then the bucket, +%s"), more);
    }
}

static void
add_figures (GPtrArray *figures, const FrPlan *plan, const FrPlanInput *input, const FrSay *say)
{
  g_autofree char *over = fr_say_amount (say, plan->over_l, FR_QUANTITY_VOLUME, 1);
  g_autofree char *brix = fr_say_amount (say, plan->left_brix, FR_QUANTITY_SWEETNESS, -1);
  g_autofree char *syrup = fr_say_amount (say, plan->syrup_l, FR_QUANTITY_VOLUME, 2);
  g_autofree char *energy = fr_say_amount (say, plan->energy_kwh, FR_QUANTITY_ENERGY, 1);
  const FrPlanShare *bound = NULL;

  g_ptr_array_add (figures,
                   fr_figure_of_amount (say, _ ("Sap used tonight"), plan->used_l, FR_QUANTITY_VOLUME, -1,
                                        plan->over_l >= SMALL_OVER_L ? g_strdup_printf (_ ("%s stays"), over)
                                                                     : g_strdup (_ ("all of it"))));
  g_ptr_array_add (figures,
                   fr_figure_of_amount (say, _ ("Left in the pan"), plan->left_kg, FR_QUANTITY_MASS, 2,
                                        plan->left_brix < input->syrup_brix
                                            ? g_strdup_printf (_ ("at %s"), brix)
                                            : g_strdup_printf (_ ("at %s: syrup"), brix)));
  g_ptr_array_add (figures,
                   fr_figure_of_amount (say, _ ("Still to finish"), plan->finish_kg, FR_QUANTITY_MASS, 2,
                                        g_strdup_printf (_ ("water, for %s"), syrup)));
  g_ptr_array_add (figures,
                   fr_figure_new (g_strdup (_ ("Night’s cost")), fr_say_money (say, plan->cost_minor), "",
                                  g_steal_pointer (&energy)));
  for (guint i = 0; i < plan->n_shares; i++)
    if (plan->shares[i].used && (bound == NULL || plan->shares[i].bucket_l > bound->bucket_l))
      bound = &plan->shares[i];
  /* Nothing was sought in a night that was kept. */
  if (bound->limited_by != FR_LIMIT_NONE)
    g_ptr_array_add (figures,
                     fr_figure_new (g_strdup (_ ("Limit")), g_strdup (limit_word (bound->limited_by)), "",
                                    next_note (bound, input, say)));
}

static char *
stays_off (const FrPlanShare *share, const FrPlanInput *input, const FrSay *say)
{
  g_autofree char *off_by = fr_say_clock (say, input->off_by_utc);
  g_autofree char *brix = fr_say_amount (say, input->max_brix, FR_QUANTITY_SWEETNESS, -1);

  switch (share->off_because)
    {
    case FR_PLAN_TOO_LATE:
      return g_strdup_printf (_ ("It cannot boil down even its own fill by %s."), off_by);
    case FR_PLAN_TOO_SWEET:
      return g_strdup_printf (_ ("Its own fill would end thicker than %s."), brix);
    case FR_PLAN_NEVER_BOILS:
      return g_strdup (_ ("It never comes to the boil: the wall loses all its heat."));
    default:
      return g_strdup (_ ("Its part of the sap would not stand above its cut-off."));
    }
}

static void
add_cookers (GPtrArray *cookers, const FrPlan *plan, const FrPlanInput *input, const FrSay *say)
{
  for (guint i = 0; i < plan->n_shares; i++)
    {
      const FrPlanShare *share = &plan->shares[i];
      FrCookerWords *words;

      if (input->kits[share->kit].off)
        continue;
      words = g_new0 (FrCookerWords, 1);
      words->name = g_strdup (input->kits[share->kit].name);
      if (share->used)
        {
          g_autofree char *end = fr_say_clock (say, input->start_utc + (gint64)lround (share->run.time_s));
          g_autofree char *brix = fr_say_amount (say, share->run.left_brix, FR_QUANTITY_SWEETNESS, -1);
          g_autofree char *left = fr_say_amount (say, share->run.left_l, FR_QUANTITY_VOLUME, 1);

          words->pour = fr_pour_sentence (say, share, &input->kits[share->kit]);
          if (isnan (share->run.feed_dry_s))
            words->when = g_strdup_printf (_ ("Cuts off at %s with %s at %s."), end, left, brix);
          else
            {
              g_autofree char *dry
                  = fr_say_clock (say, input->start_utc + (gint64)lround (share->run.feed_dry_s));

              words->when
                  = g_strdup_printf (_ ("Dry at %s, cuts off at %s with %s at %s."), dry, end, left, brix);
            }
        }
      else
        {
          words->pour = g_strdup (_ ("Stays off tonight."));
          words->when = stays_off (share, input, say);
        }
      g_ptr_array_add (cookers, words);
    }
}

/* --- what stays --- */

static char *
option_sentence (const FrOption *option, const FrPlan *plan, const FrPlanInput *input, const FrSay *say)
{
  g_autofree char *clock
      = option->utc != G_MININT64 ? fr_say_when (say, option->utc, input->start_utc) : NULL;
  g_autofree char *extra = fr_say_money (say, fabs (option->extra_minor)), *money = NULL;

  if (isnan (option->extra_minor))
    money = g_strdup (".");
  else if (fabs (option->extra_minor) < 0.5)
    money = g_strdup (_ (" at no extra cost."));
  else if (option->extra_minor > 0)
    money = g_strdup_printf (_ (" for %s more."), extra);
  else
    money = g_strdup_printf (_ (" for %s less."), extra);
  switch (option->code)
    {
    case FR_OPTION_EARLIER:
      return g_strdup_printf (_ ("Started at %s all of it would be done in time%s"), clock, money);
    case FR_OPTION_LATER:
      return g_strdup_printf (_ ("Going on until %s would take all of it%s"), clock, money);
    case FR_OPTION_SECOND:
      {
        g_autofree char *power = fr_say_amount (say, option->power_w, FR_QUANTITY_POWER, 0);

        return g_strdup_printf (_ ("A second cooker of %s on a circuit of its own would take the rest%s"),
                                power, money);
      }
    case FR_OPTION_REFILL:
      return g_strdup_printf (
          _ ("The bucket is what limits it: it could be filled again before it is dry at %s."), clock);
    default:
      {
        g_autofree char *cutoff = fr_say_amount (say, option->cutoff_l, FR_QUANTITY_VOLUME, 2);

        return g_strdup_printf (
            _ ("Thickness is what limits it: with the cut-off at %s all of it could go in, if time allows."),
            cutoff);
      }
    }
}

static void
add_rest (GPtrArray *rest, const FrPlan *plan, const FrPlanInput *input, const FrSay *say)
{
  g_autofree char *over = fr_say_amount (say, plan->over_l, FR_QUANTITY_VOLUME, 1);
  g_autofree char *cold = fr_say_amount (say, input->sap_c, FR_QUANTITY_TEMPERATURE, -1);

  if (plan->over_l < SMALL_OVER_L)
    return;
  if (plan->keep_until_utc == G_MININT64)
    g_ptr_array_add (rest, g_strdup_printf (_ ("%s stays. Keep it cold and boil it next."), over));
  else if (plan->keep_until_utc <= input->off_by_utc)
    g_ptr_array_add (
        rest,
        g_strdup_printf (_ ("%s stays, and at %s its time is up before morning. Boil the oldest first and "
                            "pour away what smells or looks cloudy."),
                         over, cold));
  else
    {
      g_autofree char *until = fr_say_when (say, plan->keep_until_utc, input->start_utc);

      g_ptr_array_add (rest, g_strdup_printf (_ ("%s stays. At %s it keeps until %s."), over, cold, until));
    }
  for (guint i = 0; i < plan->n_options; i++)
    g_ptr_array_add (rest, option_sentence (&plan->options[i], plan, input, say));
}

/* --- costs --- */

static void
add_costs (GPtrArray *costs, const FrPlan *plan, const FrPlanInput *input, const FrSay *say)
{
  double dearest = 0;

  for (guint i = 0; i < plan->n_ways; i++)
    if (plan->ways[i].cost_minor > dearest)
      dearest = plan->ways[i].cost_minor;
  for (guint i = 0; i < plan->n_ways; i++)
    {
      const FrWay *way = &plan->ways[i];
      FrCostWords *words = g_new0 (FrCostWords, 1);
      g_autofree char *clock
          = way->start_utc != G_MININT64 ? fr_say_when (say, way->start_utc, input->start_utc) : NULL;

      words->code = way->code;
      switch (way->code)
        {
        case FR_WAY_TONIGHT:
          words->label = g_strdup_printf (_ ("Tonight, %s"), clock);
          break;
        case FR_WAY_DAY:
          words->label = g_strdup_printf (_ ("By day, %s"), clock);
          break;
        case FR_WAY_BEST:
          words->label = g_strdup_printf (_ ("Cheapest, %s"), clock);
          break;
        default:
          {
            g_autofree char *mass = fr_say_amount (say, way->fuel_kg, FR_QUANTITY_MASS, 1);

            words->label = g_strdup_printf ("%s, %s", input->fuel_name, mass);
          }
        }
      words->cost = fr_say_money (say, way->cost_minor);
      words->ratio = isnan (way->cost_minor) || !(dearest > 0) ? NAN : MAX (0, way->cost_minor / dearest);
      g_ptr_array_add (costs, words);
    }
}

static char *
break_even (const FrPlan *plan, const FrPlanInput *input, const FrSay *say)
{
  g_autofree char *price = NULL;

  if (isnan (plan->fuel_break_even_per_kg) || !(plan->fuel_break_even_per_kg > 0))
    return NULL;
  if (say->units.system != FR_SYSTEM_METRIC)
    {
      price = fr_say_money (say, plan->fuel_break_even_per_kg
                                     * fr_quantity_from_shown (1, FR_QUANTITY_MASS, &say->units));
      return g_strdup_printf (_ ("%s would cost the same at %s a pound."), input->fuel_name, price);
    }
  price = fr_say_money (say, plan->fuel_break_even_per_kg);
  return g_strdup_printf (_ ("%s would cost the same at %s a kilogram."), input->fuel_name, price);
}

char *
fr_price_problem_sentence (const FrTariffProblem *problem)
{
  if (problem->code == FR_TARIFF_OK)
    return NULL;
  if (problem->code == FR_TARIFF_NO_SEASON && problem->date.year > 0)
    {
      g_autofree char *date = fr_say_date (problem->date);

      return g_strdup_printf (_ ("The prices say nothing of %s, so the cost is not known."), date);
    }
  if (problem->line > 0)
    return g_strdup_printf (_ ("Line %u of the prices cannot be used, so the cost is not known."),
                            problem->line);
  return g_strdup (
      _ ("The prices cannot be used, so the cost is not known. Look at them under Kit and Prices."));
}

FrPlanWords *
fr_plan_words_new (const FrPlan *plan, const FrPlanInput *input, const FrSay *say)
{
  FrPlanWords *words = g_new0 (FrPlanWords, 1);
  guint n_used = 0, n_on = 0;

  words->figures = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_figure_free);
  words->cookers = g_ptr_array_new_with_free_func ((GDestroyNotify)cooker_free);
  words->rest = g_ptr_array_new_with_free_func (g_free);
  words->costs = g_ptr_array_new_with_free_func ((GDestroyNotify)cost_free);
  words->feeds = g_ptr_array_new_with_free_func ((GDestroyNotify)feed_free);
  words->cautions = g_ptr_array_new_with_free_func ((GDestroyNotify)caution_free);
  words->date = fr_say_date (fr_zone_local (say->zone, input->start_utc).date);
  if (plan->status != FR_PLAN_OK)
    {
      fr_no_plan_words (words, plan, input, say);
      return words;
    }
  words->sentence = fr_plan_sentence (plan, input, say);
  words->reason = main_reason (plan, input, say);
  words->range = range_sentence (plan, say);
  add_figures (words->figures, plan, input, say);
  for (guint i = 0; i < input->n_kits; i++)
    n_on += !input->kits[i].off;
  if (n_on > 1)
    add_cookers (words->cookers, plan, input, say);
  add_rest (words->rest, plan, input, say);
  add_costs (words->costs, plan, input, say);
  words->price_note = fr_price_problem_sentence (&plan->price_problem);
  words->break_even = break_even (plan, input, say);
  for (guint i = 0; i < plan->n_shares; i++)
    n_used += plan->shares[i].used;
  for (guint i = 0; i < plan->n_shares; i++)
    if (plan->shares[i].used && plan->shares[i].bucket_l > 0)
      fr_feed_words_add (words->feeds, plan, input, &plan->shares[i], n_used > 1, say);
  for (guint i = 0; i < plan->n_cautions; i++)
    {
      FrCautionWords *caution = g_new0 (FrCautionWords, 1);

      caution->severity = plan->cautions[i].severity;
      caution->code = plan->cautions[i].code;
      caution->text = fr_caution_sentence (&plan->cautions[i], input, say);
      if (caution->severity == FR_SEVERITY_DANGER)
        {
          char *more = g_strjoin (" ", words->danger != NULL ? words->danger : caution->text,
                                  words->danger != NULL ? caution->text : NULL, NULL);

          g_free (words->danger);
          words->danger = more;
        }
      g_ptr_array_add (words->cautions, caution);
    }
  return words;
}
