/* The scores as a table. What disappoints is told in the sentence under it; the table shows what it shows. */
#include "ui/forecast-scores-card.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "ui/pieces.h"
#include "ui/score-cells.h"
#include "words/score-words.h"

struct _FrForecastScoresCard
{
  AdwBin parent_instance;
  FrForecastScores *scores;
  GtkWidget *card;
  FrUnits units;
};

G_DEFINE_FINAL_TYPE (FrForecastScoresCard, fr_forecast_scores_card, ADW_TYPE_BIN)

static const FrScoreModel columns[] = { FR_SCORE_PROGRAM, FR_SCORE_CONSTANT, FR_SCORE_LAST, FR_SCORE_FREEZE_THAW };
static const char *const column_names[] = { N_ ("This"), N_ ("Constant"), N_ ("Same as last"), N_ ("Freeze and thaw") };

static const struct
{
  const char *name;
  FrScoreKind kind;
} rows[] = {
  { N_ ("Runs called right"), FR_SCORE_HIT_RATIO },
  { N_ ("False alarms"), FR_SCORE_FALSE_RATIO },
  { N_ ("Brier score"), FR_SCORE_BRIER },
  { N_ ("Litres wrong, a tap"), FR_SCORE_ERROR_L },
};

static GtkWidget *
table_new (FrForecastScoresCard *self, const FrScoreTable *table)
{
  GtkWidget *grid = gtk_grid_new ();

  gtk_grid_set_column_spacing (GTK_GRID (grid), 18);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 8);
  for (guint c = 0; c < G_N_ELEMENTS (columns); c++)
    fr_score_attach (GTK_GRID (grid), _ (column_names[c]), c == 0 ? "strong" : "soft", FALSE, (int)c + 1, 0);
  for (guint r = 0; r < G_N_ELEMENTS (rows); r++)
    {
      fr_score_attach (GTK_GRID (grid), _ (rows[r].name), NULL, TRUE, 0, (int)r + 1);
      for (guint c = 0; c < G_N_ELEMENTS (columns); c++)
        {
          g_autofree char *text = fr_score_text (
              rows[r].kind, table->rows[FR_SCORE_OBSERVED][columns[c]].scores[rows[r].kind].value, &self->units);

          fr_score_attach (GTK_GRID (grid), text, c == 0 ? "strong" : "soft", FALSE, (int)c + 1, (int)r + 1);
        }
    }
  return grid;
}

static void
add_note (GtkBox *box, char *words)
{
  if (words != NULL)
    gtk_box_append (box, fr_wrapped_text (words, "note"));
  g_free (words);
}

static GtkWidget *
all_button_new (void)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (_ ("A_ll Scores…"));

  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "season.scores");
  gtk_widget_set_halign (button, GTK_ALIGN_START);
  return button;
}

static void
show_table (FrForecastScoresCard *self, GtkBox *box)
{
  const FrScoreTable *table = fr_forecast_scores_get (self->scores);

  if (table == NULL)
    {
      add_note (box, g_strdup (_ ("What would have been said before each gathering is being worked out.")));
      return;
    }
  if (table->n < FR_SCORES_LEAST)
    {
      add_note (box, fr_score_too_few (FR_SCORES_LEAST, table->n));
      return;
    }
  add_note (box, g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u gathering of this season, told as of the one before",
                                               "%u gatherings of this season, each told as of the one before", table->n),
                                  table->n));
  gtk_box_append (box, table_new (self, table));
  add_note (box, g_strdup_printf (_ ("%u of %u fell inside the eight-in-ten bar, where %ld should."), table->n_inside, table->n,
                                  lround (0.8 * table->n)));
  add_note (box, fr_score_verdict (FR_SCORE_OBSERVED, table->rows[FR_SCORE_OBSERVED], fr_score_table_drawn (table)));
  add_note (box, fr_score_air_note (FR_SCORE_OBSERVED, &table->errors, &self->units));
}

static void
show (FrForecastScoresCard *self)
{
  GtkBox *box = fr_card_emptied (self->card);

  show_table (self, box);
  gtk_box_append (box, all_button_new ());
}

void
fr_forecast_scores_card_show (FrForecastScoresCard *self, const FrSay *say)
{
  self->units = say->units;
  self->units.measures = NULL; /* not needed to write numbers, and not ours to keep */
  self->units.n_measures = 0;
  show (self);
}

static void
fr_forecast_scores_card_dispose (GObject *object)
{
  FrForecastScoresCard *self = FR_FORECAST_SCORES_CARD (object);

  if (self->scores != NULL)
    g_signal_handlers_disconnect_by_data (self->scores, self);
  adw_bin_set_child (ADW_BIN (self), NULL);
  g_clear_object (&self->scores);
  G_OBJECT_CLASS (fr_forecast_scores_card_parent_class)->dispose (object);
}

static void
fr_forecast_scores_card_class_init (FrForecastScoresCardClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_forecast_scores_card_dispose;
}

static void
fr_forecast_scores_card_init (FrForecastScoresCard *self)
{
  self->card = fr_card_new (_ ("How Well It Did Here"));
  adw_bin_set_child (ADW_BIN (self), self->card);
}

GtkWidget *
fr_forecast_scores_card_new (FrForecaster *forecaster)
{
  FrForecastScoresCard *self = g_object_new (FR_TYPE_FORECAST_SCORES_CARD, NULL);

  self->scores = fr_forecast_scores_new (forecaster);
  g_signal_connect_swapped (self->scores, "changed", G_CALLBACK (show), self);
  return GTK_WIDGET (self);
}
