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

/* --- numbers --- */

/* Shares in whole hundredths, litres and the rest to two decimals: resamples settle no more. */
static gboolean
is_litres (FrScoreKind kind)
{
  return kind == FR_SCORE_ERROR_L || kind == FR_SCORE_CRPS_L || kind == FR_SCORE_INTERVAL_L;
}

static gboolean
is_share (FrScoreKind kind)
{
  return kind == FR_SCORE_ERROR_RATIO || kind == FR_SCORE_CRPS_RATIO || kind == FR_SCORE_INTERVAL_RATIO || kind == FR_SCORE_HIT_RATIO
         || kind == FR_SCORE_FALSE_RATIO || kind == FR_SCORE_SUCCESS_RATIO || kind == FR_SCORE_SUCCESS_ALWAYS
         || kind == FR_SCORE_INSIDE_RATIO;
}

static char *
number_text (FrScoreKind kind, double value, const FrUnits *units)
{
  char *number = NULL;
  const char *unit;

  fr_quantity_format (is_share (kind) ? 100 * value : value, is_litres (kind) ? FR_QUANTITY_VOLUME : FR_QUANTITY_PLAIN, units,
                      is_share (kind) ? 0 : 2, &number, &unit);
  return number;
}

char *
fr_score_text (FrScoreKind kind, double value, const FrUnits *units)
{
  g_autofree char *number = isnan (value) ? g_strdup ("–") : number_text (kind, value, units);

  return is_share (kind) && !isnan (value) ? g_strdup_printf ("%s\u00a0%%", number) : g_steal_pointer (&number);
}

char *
fr_score_range_text (FrScoreKind kind, const FrScoreValue *value, const FrUnits *units)
{
  g_autofree char *lo = NULL, *hi = NULL;

  if (isnan (value->lo) || isnan (value->hi))
    return NULL;
  lo = number_text (kind, value->lo, units);
  hi = number_text (kind, value->hi, units);
  return g_strdup_printf ("%s…%s", lo, hi);
}

/* --- a table of a few --- */

static const FrScoreModel table_models[] = { FR_SCORE_PROGRAM, FR_SCORE_CONSTANT, FR_SCORE_LAST, FR_SCORE_FREEZE_THAW };

static const FrPaperColumn table_columns[] = {
  { NULL, FR_PAPER_TEXT, FR_QUANTITY_PLAIN, 0 },
  { N_ ("This"), FR_PAPER_NUMBER, FR_QUANTITY_PLAIN, 0 },
  { N_ ("Constant"), FR_PAPER_NUMBER, FR_QUANTITY_PLAIN, 0 },
  { N_ ("Same as last"), FR_PAPER_NUMBER, FR_QUANTITY_PLAIN, 0 },
  { N_ ("Freeze and thaw"), FR_PAPER_NUMBER, FR_QUANTITY_PLAIN, 0 },
};

G_STATIC_ASSERT (G_N_ELEMENTS (table_columns) == G_N_ELEMENTS (table_models) + 1);

static const struct
{
  const char *name;
  FrScoreKind kind;
} table_rows[] = {
  { N_ ("Runs called right"), FR_SCORE_HIT_RATIO },
  { N_ ("False alarms"), FR_SCORE_FALSE_RATIO },
  { N_ ("Brier score"), FR_SCORE_BRIER },
  { N_ ("Litres wrong, a tap"), FR_SCORE_ERROR_L },
};

const char *
fr_score_title (void)
{
  return _ ("How Well It Did Here");
}

FrPaperWords *
fr_score_table_words_new (const FrScoreRow *rows, guint n_told, const FrUnits *units)
{
  FrPaperWords *words = g_new0 (FrPaperWords, 1);

  words->title = g_strdup (fr_score_title ());
  words->sentence
      = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u gathering of this season, told as of the one before",
                                      "%u gatherings of this season, each told as of the one before", n_told),
                         n_told);
  words->cells = g_ptr_array_new_with_free_func (g_free);
  words->headings = g_ptr_array_new_with_free_func (g_free);
  words->columns = table_columns;
  words->n_columns = G_N_ELEMENTS (table_columns);
  words->n_rows = G_N_ELEMENTS (table_rows);
  for (guint r = 0; r < words->n_rows; r++)
    {
      g_ptr_array_add (words->cells, g_strdup (_ (table_rows[r].name)));
      g_ptr_array_add (words->headings, NULL);
      for (guint m = 0; m < G_N_ELEMENTS (table_models); m++)
        g_ptr_array_add (words->cells, fr_score_text (table_rows[r].kind, of (&rows[table_models[m]], table_rows[r].kind)->value, units));
    }
  return words;
}

GPtrArray *
fr_score_table_notes (const FrScoreRow *rows, const FrScoreRow *drawn, guint n_inside, guint n_told)
{
  GPtrArray *notes = g_ptr_array_new_with_free_func (g_free);

  g_ptr_array_add (notes, g_strdup_printf (_ ("%u of %u fell inside the eight-in-ten bar, where %ld should."), n_inside, n_told,
                                           lround (0.8 * n_told)));
  g_ptr_array_add (notes, fr_score_verdict (FR_SCORE_OBSERVED, rows, drawn));
  g_ptr_array_add (notes, fr_score_air_note (FR_SCORE_OBSERVED, NULL, NULL));
  return notes;
}
