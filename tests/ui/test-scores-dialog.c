/* The page of scores on the demo's household: opened as a person opens it, what stands in its table is what the domain's own scores say of the
 * same question, worked out here apart from the page's model. */
#include <math.h>
#include <string.h>

#include "formats/measured-seasons.h"
#include "models/forecast-scores.h"
#include "ui/clock.h"
#include "ui/season-page.h"
#include "window-tools.h"

#define COURSES 4
#define RESAMPLES 200

static FrForecaster *
forecaster_of (FrWindow *window)
{
  FrForecaster *forecaster
      = fr_season_page_get_forecaster (FR_SEASON_PAGE (find (GTK_WIDGET (window), is_a, "FrSeasonPage")));

  fr_forecaster_get (forecaster);
  while (fr_forecaster_is_pending (forecaster))
    g_main_context_iteration (NULL, TRUE);
  settle ();
  return forecaster;
}

static GtkWidget *
open_scores (FrWindow *window)
{
  GtkWidget *dialog;

  act (window, "win.page", "season");
  act (window, "season.view", "forecast");
  forecaster_of (window);
  press (window, "A_ll Scores…");
  dialog = find_window ("FrScoresDialog");
  g_assert_nonnull (dialog);
  settle ();
  return dialog;
}

static char *
wait_for (GtkWidget *dialog, const char *part)
{
  gint64 until_us = g_get_monotonic_time () + 90 * G_USEC_PER_SEC;
  char *texts = NULL;

  do
    {
      g_free (texts);
      settle ();
      texts = label_texts (dialog);
    }
  while (strstr (texts, part) == NULL && g_get_monotonic_time () < until_us);
  assert_shows (texts, part);
  return texts;
}

static gboolean
is_table (GtkWidget *widget, const char *text)
{
  return GTK_IS_GRID (widget) && gtk_grid_get_child_at (GTK_GRID (widget), 9, 1) != NULL && text == NULL;
}

/* The number in a table, its percent sign aside; NAN for a dash. */
static double
number_at (GtkWidget *grid, int column, FrScoreModel model)
{
  GtkWidget *label = gtk_grid_get_child_at (GTK_GRID (grid), column, 2 * (int)model + 1);
  g_autofree char *text = plain_spaces (gtk_label_get_text (GTK_LABEL (label)));
  char *sign = strstr (text, "−"), *end;
  double value;

  if (strcmp (text, "–") == 0)
    return NAN;
  value = g_ascii_strtod (sign != NULL ? sign + strlen ("−") : text, &end);
  g_assert_true (end != text);
  return sign != NULL ? -value : value;
}

static void
assert_near (double shown, double value, double scale)
{
  if (isnan (value))
    g_assert_true (isnan (shown));
  else
    g_assert_cmpfloat_with_epsilon (shown, scale * value, scale == 1 ? 0.00501 : 0.501);
}

static void
test_present (void)
{
  FrWindow *window = open_window ("scores-dialog.frostrun", TOOLS_DEMO);
  GtkWidget *dialog = open_scores (window), *grid;
  const FrBookForecast *asked = fr_forecaster_get_asked (forecaster_of (window));
  g_autofree char *texts = wait_for (dialog, "each told as of the one before");
  g_autoptr (FrScoreRivals) rivals = fr_measured_rivals (-1);
  const FrScoreQuestion question = { .season = &asked->question, .rivals = rivals, .n_courses = COURSES };
  g_autoptr (FrSeasonScore) score = fr_season_score_new (&question);
  const FrSeasonScore *const seasons[] = { score };

  assert_shows (texts, "as if the forecast had been perfect");
  assert_shows (texts, "Observed weather with drawn forecast errors");
  assert_shows (texts, "Mean of other seasons");
  assert_shows (texts, "Brier score of the chances of a run");
  g_assert_nonnull (find (dialog, is_a, "FrScoreReliabilityView"));
  grid = find (dialog, is_table, NULL); /* the first is of the weather as observed */
  g_assert_nonnull (grid);
  for (FrScoreModel model = 0; model < FR_N_SCORE_MODELS; model++)
    {
      FrScoreRow row;

      fr_score_row (seasons, 1, model, FR_SCORE_OBSERVED, RESAMPLES, asked->question.seed, &row);
      assert_near (number_at (grid, 1, model), row.scores[FR_SCORE_ERROR_L].value, 1);
      assert_near (number_at (grid, 2, model), row.scores[FR_SCORE_ERROR_RATIO].value, 100);
      assert_near (number_at (grid, 4, model), row.scores[FR_SCORE_INSIDE_RATIO].value, 100);
      assert_near (number_at (grid, 6, model), row.scores[FR_SCORE_RANK].value, 1);
      assert_near (number_at (grid, 9, model), row.scores[FR_SCORE_BRIER].value, 1);
    }
  gtk_window_close (GTK_WINDOW (dialog));
  settle ();
  g_assert_null (find_window ("FrScoresDialog"));
  close_window (window);
}

/* Closed while it is still working, nothing of it is left; the measured seasons can be chosen. */
static void
test_measured (void)
{
  FrWindow *window = open_window ("scores-measured.frostrun", TOOLS_DEMO);
  GtkWidget *dialog = open_scores (window), *choice = find (dialog, is_a, "GtkDropDown");
  g_autofree char *texts = NULL;
  guint n;

  g_assert_nonnull (choice);
  n = g_list_model_get_n_items (gtk_drop_down_get_model (GTK_DROP_DOWN (choice)));
  g_assert_cmpuint (n, >, fr_n_measured_seasons ());
  gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), n - 1);
  texts = wait_for (dialog, "Measured at another bush");
  assert_shows (texts, "each told as of the one before");
  gtk_window_close (GTK_WINDOW (dialog));
  settle ();
  dialog = open_scores (window);
  texts = (g_free (texts), label_texts (dialog));
  assert_shows (texts, "takes some seconds");
  gtk_window_close (GTK_WINDOW (dialog));
  settle ();
  g_assert_null (find_window ("FrScoresDialog"));
  close_window (window);
}

int
main (int argc, char **argv)
{
  tools_init (&argc, &argv);
  g_assert_true (fr_clock_hold ("2026-03-19T18:30"));
  g_test_add_func ("/scores-dialog/present", test_present);
  g_test_add_func ("/scores-dialog/measured", test_measured);
  return tools_run ();
}
