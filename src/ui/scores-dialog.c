/* The tables are made anew when another season is chosen or has been worked out. Each is one stop of the keyboard, which also brings it into
 * view; every number says for a screen reader whose it is and of what. */
#include "ui/scores-dialog.h"

#include <glib/gi18n-lib.h>

#include "models/forecast-scores.h"
#include "ui/dialog-frame.h"
#include "ui/pieces.h"
#include "ui/score-cells.h"
#include "ui/score-reliability-view.h"
#include "words/score-words.h"

#define ROW_GAP_PX 6
#define HEAD_CHARS 7
#define LEAST_NAME_CHARS 13
#define MOST_NAME_CHARS 20

struct _FrScoresDialog
{
  AdwWindow parent_instance;
  FrBook *book;
  FrSeasonScores *scores;
  GtkWidget *choice;
  GtkBox *body;
};

G_DEFINE_FINAL_TYPE (FrScoresDialog, fr_scores_dialog, ADW_TYPE_WINDOW)

static const struct
{
  const char *name;
  FrScoreKind kind;
} columns[] = {
  { N_ ("Wrong by, a tap"), FR_SCORE_ERROR_L },
  { N_ ("Of the constant’s"), FR_SCORE_ERROR_RATIO },
  { N_ ("CRPS"), FR_SCORE_CRPS_L },
  { N_ ("In 8 of 10"), FR_SCORE_INSIDE_RATIO },
  { N_ ("Interval score"), FR_SCORE_INTERVAL_L },
  { N_ ("Rank corre\u00adlation"), FR_SCORE_RANK },
  { N_ ("Runs called right"), FR_SCORE_HIT_RATIO },
  { N_ ("False alarms"), FR_SCORE_FALSE_RATIO },
  { N_ ("Brier score"), FR_SCORE_BRIER },
};

/* --- a table --- */

static void
add_cell (GtkGrid *grid, const FrScoreRow *row, FrScoreModel model, guint column, const FrUnits *units)
{
  const FrScoreKind kind = columns[column].kind;
  g_autofree char *text = fr_score_text (kind, row->scores[kind].value, units);
  g_autofree char *range = fr_score_range_text (kind, &row->scores[kind], units), *spoken = NULL;
  GtkWidget *label
      = fr_score_attach (grid, text, model == FR_SCORE_PROGRAM ? "strong" : NULL, FALSE, (int)column + 1, 2 * (int)model + 1);

  gtk_widget_set_margin_top (label, ROW_GAP_PX);
  gtk_widget_set_valign (label, GTK_ALIGN_START);
  if (range != NULL)
    gtk_label_set_wrap (GTK_LABEL (fr_score_attach (grid, range, "score-range", FALSE, (int)column + 1, 2 * (int)model + 2)), FALSE);
  /* Translators: way of telling, score, its value */
  spoken = range == NULL ? g_strdup_printf (_ ("%s, %s: %s"), fr_score_model_name (model), _ (columns[column].name), text)
                         /* Translators: the same, and the range that holds it 9 times in 10 */
                         : g_strdup_printf (_ ("%s, %s: %s, 9 in 10 %s"), fr_score_model_name (model), _ (columns[column].name), text,
                                            range);
  gtk_accessible_update_property (GTK_ACCESSIBLE (label), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
}

/* Between so many characters wide: a table's least height follows from its least width. */
static void
hold_width (GtkWidget *label, int least_chars, int most_chars)
{
  gtk_label_set_width_chars (GTK_LABEL (label), least_chars);
  gtk_label_set_max_width_chars (GTK_LABEL (label), most_chars);
}

static void
add_head (GtkGrid *grid, guint column)
{
  GtkWidget *label = fr_score_attach (grid, _ (columns[column].name), "score-head", FALSE, (int)column + 1, 0);

  hold_width (label, HEAD_CHARS, HEAD_CHARS);
  gtk_widget_set_valign (label, GTK_ALIGN_END);
}

/* It stands beside a number and its range. */
static void
add_name (GtkGrid *grid, FrScoreModel model)
{
  GtkWidget *label = fr_score_attach (grid, fr_score_model_name (model), model == FR_SCORE_PROGRAM ? "strong" : NULL, TRUE, 0,
                                      2 * (int)model + 1);
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (grid));

  hold_width (label, LEAST_NAME_CHARS, MOST_NAME_CHARS);
  gtk_widget_set_margin_top (label, ROW_GAP_PX);
  gtk_widget_set_valign (label, GTK_ALIGN_START);
  gtk_grid_layout_child_set_row_span (GTK_GRID_LAYOUT_CHILD (gtk_layout_manager_get_layout_child (layout, label)), 2);
}

static GtkWidget *
table_new (const FrScoreRow *rows, const char *name, const FrUnits *units)
{
  GtkWidget *grid = gtk_grid_new (), *scroller = gtk_scrolled_window_new ();

  gtk_grid_set_column_spacing (GTK_GRID (grid), 7);
  gtk_widget_set_margin_bottom (grid, 12); /* where a bar to scroll by lies over it */
  for (guint c = 0; c < G_N_ELEMENTS (columns); c++)
    add_head (GTK_GRID (grid), c);
  for (FrScoreModel model = 0; model < FR_N_SCORE_MODELS; model++)
    {
      add_name (GTK_GRID (grid), model);
      for (guint c = 0; c < G_N_ELEMENTS (columns); c++)
        add_cell (GTK_GRID (grid), &rows[model], model, c, units);
    }
  gtk_accessible_update_property (GTK_ACCESSIBLE (scroller), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), grid);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_AUTOMATIC, GTK_POLICY_NEVER);
  return scroller;
}

static void
add_reliability (FrScoresDialog *self, GtkBox *box, const FrScoreTable *table, FrScoreAir air)
{
  const FrScoreValue *brier = table->rows[air][FR_SCORE_PROGRAM].scores;
  const FrUnits *units = fr_book_get_units (self->book);
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 18), *texts = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  g_autofree char *own = fr_score_text (FR_SCORE_BRIER, brier[FR_SCORE_BRIER].value, units);
  g_autofree char *base = fr_score_text (FR_SCORE_BRIER_BASE, brier[FR_SCORE_BRIER_BASE].value, units);
  g_autofree char *sentence = g_strdup_printf (
      _ ("Brier score of the chances of a run: %s. Who tells the season’s own share of runs each time, which nobody knows beforehand, "
         "has %s; less is better."),
      own, base);

  gtk_widget_set_valign (texts, GTK_ALIGN_CENTER);
  gtk_widget_set_hexpand (texts, TRUE);
  gtk_box_append (GTK_BOX (texts), fr_wrapped_text (sentence, NULL));
  gtk_box_append (GTK_BOX (texts),
                  fr_wrapped_text (_ ("On the diagonal a chance meant what it said. The larger a dot, the more emptyings; its stem is as far "
                                      "as chance alone may carry it, eight times in ten."),
                                   "note"));
  gtk_box_append (GTK_BOX (line), fr_score_reliability_view_new (table->bins[air], FR_SCORE_TABLE_BINS, units));
  gtk_box_append (GTK_BOX (line), texts);
  gtk_box_append (box, line);
}

static void
add_air (FrScoresDialog *self, const FrScoreTable *table, FrScoreAir air)
{
  GtkWidget *card = fr_card_new (fr_score_air_name (air));
  GtkBox *box = fr_card_content (card);
  const FrUnits *units = fr_book_get_units (self->book);
  g_autofree char *note = fr_score_air_note (air, &table->errors, units);

  gtk_box_append (box, fr_wrapped_text (note, "note"));
  gtk_box_append (box, table_new (table->rows[air], fr_score_air_name (air), units));
  add_reliability (self, box, table, air);
  gtk_box_append (self->body, card);
}

/* --- all --- */

static void
add_foot (FrScoresDialog *self)
{
  const char *unit = fr_quantity_unit (FR_QUANTITY_VOLUME, fr_book_get_units (self->book));
  g_autofree char *run = fr_quantity_to_string (FR_RUN_L, FR_QUANTITY_VOLUME, fr_book_get_units (self->book), 1);
  g_autofree char *text = g_strdup_printf (
      _ ("Wrong by: the mean error of an emptying’s volume, in %s a tap. CRPS and interval score, in %s a tap and day, weigh the whole range "
         "that was told against what came; less is better, as with the Brier score. A run is at least %s a tap and day; it counts as "
         "called when its chance was a half or more. Small under each number: where it lies 9 times in 10, by drawing emptyings anew, three "
         "neighbours at a time."),
      unit, unit, run);

  gtk_box_append (self->body, fr_wrapped_text (text, "note"));
}

static void
add_waiting (FrScoresDialog *self)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12), *spinner = gtk_spinner_new ();

  gtk_spinner_start (GTK_SPINNER (spinner));
  gtk_box_append (GTK_BOX (line), spinner);
  gtk_box_append (GTK_BOX (line), fr_wrapped_text (_ ("Each emptying is told again as of the one before it. This takes some seconds."), "soft"));
  gtk_box_append (self->body, line);
}

static void
add_tables (FrScoresDialog *self, const FrScoreTable *table)
{
  const FrScoredSeason *season = fr_season_scores_season (self->scores, fr_season_scores_get_chosen (self->scores));
  g_autofree char *verdict = fr_score_verdict (FR_SCORE_OBSERVED, table->rows[FR_SCORE_OBSERVED], fr_score_table_drawn (table));
  g_autofree char *count = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u emptying, told as of the one before.",
                                                         "%u emptyings, each told as of the one before.", table->n),
                                            table->n);

  gtk_box_append (self->body, fr_wrapped_text (verdict, "strong"));
  gtk_box_append (self->body, fr_wrapped_text (count, "soft"));
  gtk_box_append (self->body, fr_wrapped_text (season->measured >= 0 ? _ ("Measured at another bush. All that was learned beforehand is of the "
                                                                          "other measured season alone.")
                                                                     : _ ("What was learned beforehand is of the measured seasons that come "
                                                                          "with the program."),
                                               "soft"));
  for (FrScoreAir air = 0; air < FR_N_SCORE_AIRS; air++)
    if (table->rows[air][FR_SCORE_PROGRAM].n > 0)
      add_air (self, table, air);
  add_foot (self);
}

static void
show (FrScoresDialog *self)
{
  const FrScoreTable *table = fr_season_scores_get_table (self->scores);

  fr_box_empty (self->body);
  if (table == NULL)
    add_waiting (self);
  else if (table->n < FR_SCORES_LEAST)
    {
      g_autofree char *words = fr_score_too_few (FR_SCORES_LEAST, table->n);

      gtk_box_append (self->body, fr_wrapped_text (words, NULL));
    }
  else
    add_tables (self, table);
}

static void
chosen_cb (FrScoresDialog *self)
{
  guint at = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->choice));
  g_autoptr (GError) error = NULL;

  if (at == GTK_INVALID_LIST_POSITION || at == fr_season_scores_get_chosen (self->scores)
      || fr_season_scores_choose (self->scores, at, &error))
    return;
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->choice), fr_season_scores_get_chosen (self->scores));
  fr_window_show_error (fr_window_of (GTK_WIDGET (gtk_window_get_transient_for (GTK_WINDOW (self)))), error);
}

static GtkWidget *
choice_new (FrScoresDialog *self)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12), *label = gtk_label_new_with_mnemonic (_ ("_Season"));

  for (guint i = 0; i < fr_season_scores_n (self->scores); i++)
    {
      const FrScoredSeason *season = fr_season_scores_season (self->scores, i);
      g_autofree char *name = season->measured < 0 ? g_strdup_printf (_ ("%u, this book"), season->season)
                                                   /* Translators: of site and year */
                                                   : g_strdup_printf (_ ("%s, measured"), season->name);

      gtk_string_list_append (names, name);
    }
  self->choice = gtk_drop_down_new (G_LIST_MODEL (g_steal_pointer (&names)), NULL);
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), self->choice);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->choice), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Season"), -1);
  g_signal_connect_object (self->choice, "notify::selected", G_CALLBACK (chosen_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (line), label);
  gtk_box_append (GTK_BOX (line), self->choice);
  return line;
}

static void
fr_scores_dialog_dispose (GObject *object)
{
  FrScoresDialog *self = FR_SCORES_DIALOG (object);

  adw_window_set_content (ADW_WINDOW (self), NULL);
  g_clear_object (&self->scores);
  g_clear_object (&self->book);
  G_OBJECT_CLASS (fr_scores_dialog_parent_class)->dispose (object);
}

static void
fr_scores_dialog_class_init (FrScoresDialogClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_scores_dialog_dispose;
  fr_dialog_frame_class_init (GTK_WIDGET_CLASS (klass));
}

static void
fr_scores_dialog_init (FrScoresDialog *self)
{
}

GtkWidget *
fr_scores_dialog_new (FrWindow *window, FrForecaster *forecaster)
{
  FrScoresDialog *self = g_object_new (FR_TYPE_SCORES_DIALOG, "transient-for", window, NULL);
  g_autoptr (GError) error = NULL;
  GtkBox *inner;

  self->book = g_object_ref (fr_window_get_book (window));
  fr_dialog_frame_build_plain (ADW_WINDOW (self), _ ("How Well It Did"), 960, 760, &inner);
  self->scores = fr_season_scores_new (self->book, forecaster, &error);
  if (self->scores == NULL)
    {
      gtk_box_append (inner, fr_wrapped_text (error->message, "problem"));
      return GTK_WIDGET (self);
    }
  gtk_widget_set_margin_start (GTK_WIDGET (inner), 12);
  gtk_widget_set_margin_end (GTK_WIDGET (inner), 12);
  self->body = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 12));
  gtk_box_append (inner, choice_new (self));
  gtk_box_append (inner, GTK_WIDGET (self->body));
  g_signal_connect_object (self->scores, "changed", G_CALLBACK (show), self, G_CONNECT_SWAPPED);
  show (self);
  gtk_widget_grab_focus (self->choice);
  return GTK_WIDGET (self);
}
