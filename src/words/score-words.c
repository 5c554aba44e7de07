/* A score is called better only where its range of 9 in 10 lies on the better side. */
#include "words/score-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* The 10 to 90 % range should hold 8 in 10; some more or fewer of a season's emptyings are chance. */
#define INSIDE_LO_RATIO 0.67
#define INSIDE_HI_RATIO 0.93
#define RANK_WEAK_RATIO 0.45
#define FEWEST 10

const char *
fr_score_model_name (FrScoreModel model)
{
  static const char *const names[FR_N_SCORE_MODELS]
      = { N_ ("This program"),        N_ ("Constant rate"), N_ ("As the last time"),         N_ ("Mean of other seasons"),
          N_ ("Rule −1.1 / 2.2 °C"), N_ ("Rule 0 / 0 °C"), N_ ("Frost in last 4 nights"), N_ ("Thaw hours") };

  g_return_val_if_fail ((guint)model < FR_N_SCORE_MODELS, "");
  return _ (names[model]);
}

const char *
fr_score_air_name (FrScoreAir air)
{
  static const char *const names[FR_N_SCORE_AIRS] = { N_ ("Weather as observed, as if the forecast had been perfect"),
                                                      N_ ("Observed weather with drawn forecast errors"),
                                                      N_ ("Forecasts as they were kept") };

  g_return_val_if_fail ((guint)air < FR_N_SCORE_AIRS, "");
  return _ (names[air]);
}

char *
fr_score_air_note (FrScoreAir air, const FrForecastError *errors, const FrUnits *units)
{
  g_autofree char *first = NULL, *last = NULL, *memory = NULL;

  if (air == FR_SCORE_OBSERVED)
    return g_strdup (_ ("The weather was taken as it came, which flatters every way: a forecast made the evening before "
                        "knows less."));
  if (air == FR_SCORE_KEPT)
    return g_strdup (_ ("Each emptying is told by the forecast that was kept the evening before; those without one are left out."));
  first = fr_quantity_to_string (errors->first_sd_k, FR_QUANTITY_DIFFERENCE, units, 1);
  last = fr_quantity_to_string (errors->last_sd_k, FR_QUANTITY_DIFFERENCE, units, 1);
  memory = fr_quantity_to_string (errors->day_ratio, FR_QUANTITY_PLAIN, units, 2);
  /* Translators: standard deviations, with their unit; number of a day; correlation */
  return g_strdup_printf (_ ("As if lows and highs had been told wrong by %s on the first day, growing to %s on day %u, each day’s error "
                             "going with the last one’s (correlation %s). The sizes are the book’s settings of the weather service, or the "
                             "usual ones."),
                          first, last, errors->last_lead, memory);
}

char *
fr_score_too_few (guint least, guint n)
{
  return g_strdup_printf (_ ("Scores need %u gatherings with weather around them; there are %u so far."), least, n);
}

static const FrScoreValue *
of (const FrScoreRow *row, FrScoreKind kind)
{
  return &row->scores[kind];
}

/* How many simple ways had a smaller value. */
static guint
n_better (const FrScoreRow *rows, FrScoreKind kind, FrScoreModel *best_out)
{
  double least = of (&rows[FR_SCORE_PROGRAM], kind)->value;
  guint n = 0;

  for (guint m = 0; m < FR_N_SCORE_MODELS; m++)
    if (of (&rows[m], kind)->value < of (&rows[FR_SCORE_PROGRAM], kind)->value)
      {
        n++;
        if (of (&rows[m], kind)->value < least)
          {
            least = of (&rows[m], kind)->value;
            *best_out = m;
          }
      }
  return n;
}

static void
add_disappointments (const FrScoreRow *rows, const FrScoreRow *drawn, GPtrArray *parts)
{
  const FrScoreRow *own = &rows[FR_SCORE_PROGRAM];
  FrScoreModel best = FR_SCORE_PROGRAM;
  double inside = of (own, FR_SCORE_INSIDE_RATIO)->value, rank = of (own, FR_SCORE_RANK)->value;

  if (n_better (rows, FR_SCORE_ERROR_L, &best) > 0)
    g_ptr_array_add (parts, g_strdup_printf (_ ("“%s” was closer in litres"), fr_score_model_name (best)));
  if (n_better (rows, FR_SCORE_CRPS_L, &best) > 0)
    g_ptr_array_add (parts, g_strdup_printf (_ ("“%s” had the better distribution of litres"), fr_score_model_name (best)));
  if (rank < RANK_WEAK_RATIO)
    g_ptr_array_add (parts, g_strdup_printf (_ ("good and poor days were told apart only weakly (rank correlation %.2f)"), rank));
  if (of (own, FR_SCORE_BRIER)->value >= of (own, FR_SCORE_BRIER_BASE)->value)
    g_ptr_array_add (parts, g_strdup (_ ("the chance of a run was no better than the season's own share of runs")));
  else if (!(of (own, FR_SCORE_BRIER_SKILL)->lo > 0))
    g_ptr_array_add (parts, g_strdup (_ ("the chance of a run was better than the season's own share of runs by no more than luck may give")));
  if (of (own, FR_SCORE_SUCCESS_RATIO)->value <= of (own, FR_SCORE_SUCCESS_ALWAYS)->value)
    g_ptr_array_add (parts, g_strdup (_ ("always collecting was as good a call")));
  if (inside < INSIDE_LO_RATIO)
    g_ptr_array_add (parts, g_strdup_printf (_ ("the range meant to hold 80 %% of emptyings held %.0f %%, too narrow"), 100 * inside));
  else if (inside > INSIDE_HI_RATIO)
    g_ptr_array_add (parts, g_strdup_printf (_ ("the range meant to hold 80 %% of emptyings held %.0f %%, too wide"), 100 * inside));
  if (drawn != NULL && !(of (drawn, FR_SCORE_ERROR_RATIO)->hi < 1) && drawn->n > 0)
    g_ptr_array_add (parts, g_strdup_printf (_ ("with drawn forecast errors its error was %.0f %% of the constant's, which may be no gain"),
                                             100 * of (drawn, FR_SCORE_ERROR_RATIO)->value));
}

/* Ranges are told in whole hundredths; what rounds to 100 has not been beaten. */
static const char *
verdict_of (const FrScoreValue *ratio)
{
  if (isnan (ratio->hi))
    return ratio->value < 1 ? _ ("the forecast was closer than a constant rate, which may be luck: it was wrong by %.0f %% of what the "
                                 "constant was")
                            : _ ("the forecast did not beat a constant rate: it was wrong by %.0f %% of what the constant was");
  if (lround (100 * ratio->hi) < 100)
    return _ ("the forecast beat a constant rate: it was wrong by %.0f %% of what the constant was (9 in 10: %.0f to %.0f)");
  if (ratio->value < 1)
    return _ ("the forecast was closer than a constant rate, which may be luck: it was wrong by %.0f %% of what the constant was "
              "(9 in 10: %.0f to %.0f)");
  return _ ("the forecast did not beat a constant rate: it was wrong by %.0f %% of what the constant was (9 in 10: %.0f to %.0f)");
}

char *
fr_score_verdict (FrScoreAir air, const FrScoreRow *rows, const FrScoreRow *drawn)
{
  static const char *const begins[FR_N_SCORE_AIRS]
      = { N_ ("Had the weather been known beforehand, "), N_ ("With drawn forecast errors, "), N_ ("By the forecasts that were kept, ") };
  const FrScoreRow *own = &rows[FR_SCORE_PROGRAM];
  const FrScoreValue *ratio = of (own, FR_SCORE_ERROR_RATIO);
  g_autoptr (GPtrArray) parts = g_ptr_array_new_with_free_func (g_free);
  GString *text;

  g_return_val_if_fail ((guint)air < FR_N_SCORE_AIRS, NULL);
  if (own->n < FEWEST || isnan (ratio->value))
    return g_strdup (_ ("Too few emptyings were foretold to say anything."));
  text = g_string_new (_ (begins[air]));
  g_string_append_printf (text, verdict_of (ratio), 100 * ratio->value, 100 * ratio->lo, 100 * ratio->hi);
  add_disappointments (rows, drawn, parts);
  /* Translators: what disappoints follows, parts with commas between. */
  for (guint i = 0; i < parts->len; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? ", " : _ ("; disappointing: "), (const char *)parts->pdata[i]);
  g_string_append (text, ".");
  return g_string_free (text, FALSE);
}
