/* The scores as a table. What disappoints is told in the sentence under it; the table shows what it shows. */
#include "ui/forecast-scores-card.h"

#include <glib/gi18n-lib.h>

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

static GtkWidget *
table_new (const FrPaperWords *words)
{
  GtkWidget *grid = gtk_grid_new ();

  gtk_grid_set_column_spacing (GTK_GRID (grid), 18);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 8);
  for (guint c = 1; c < words->n_columns; c++)
    fr_score_attach (GTK_GRID (grid), _ (words->columns[c].title), c == 1 ? "strong" : "soft", FALSE, (int)c, 0);
  for (guint i = 0; i < words->n_rows * words->n_columns; i++)
    {
      guint c = i % words->n_columns;

      fr_score_attach (GTK_GRID (grid), words->cells->pdata[i], c == 0 ? NULL : c == 1 ? "strong" : "soft", c == 0, (int)c,
              (int)(i / words->n_columns) + 1);
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
  g_autoptr (FrPaperWords) words = NULL;
  g_autoptr (GPtrArray) notes = NULL;

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
  words = fr_score_table_words_new (table->rows[FR_SCORE_OBSERVED], table->n, &self->units);
  notes = fr_score_table_notes (table->rows[FR_SCORE_OBSERVED], fr_score_table_drawn (table), table->n_inside, table->n);
  add_note (box, g_strdup (words->sentence));
  gtk_box_append (box, table_new (words));
  for (guint i = 0; i < notes->len; i++)
    add_note (box, g_strdup (notes->pdata[i]));
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
  self->card = fr_card_new (fr_score_title ());
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

FrForecastScores *
fr_forecast_scores_card_get_scores (FrForecastScoresCard *self)
{
  return self->scores;
}
