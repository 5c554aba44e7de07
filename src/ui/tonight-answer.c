/* The answer card. Texts come ready from the words; this only finds them their place. */
#include "ui/tonight-answer.h"

#include <glib/gi18n-lib.h>

#define N_FIGURES 5

struct _FrTonightAnswer
{
  AdwBin parent_instance;
  GtkWidget *stale;
  GtkWidget *sentence;
  GtkWidget *reason;
  GtkWidget *range;
  GtkWidget *danger; /* a row with its triangle */
  GtkWidget *danger_words;
  GtkWidget *line;
  GtkWidget *figures;
  GtkWidget *cells[N_FIGURES];
  GtkWidget *labels[N_FIGURES];
  GtkWidget *numbers[N_FIGURES];
  GtkWidget *notes[N_FIGURES];
};

G_DEFINE_FINAL_TYPE (FrTonightAnswer, fr_tonight_answer, ADW_TYPE_BIN)

static GtkWidget *
text_label (const char *css_class)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, css_class);
  return label;
}

static void
fr_tonight_answer_class_init (FrTonightAnswerClass *klass)
{
}

static void
fr_tonight_answer_init (FrTonightAnswer *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  self->stale = text_label ("stale");
  gtk_widget_set_visible (self->stale, FALSE);
  gtk_box_append (GTK_BOX (box), self->stale);
  gtk_widget_add_css_class (GTK_WIDGET (self), "card");
  gtk_widget_add_css_class (GTK_WIDGET (self), "answer-card");
  self->sentence = text_label ("answer");
  self->reason = text_label ("answer-reason");
  self->range = text_label ("answer-reason");
  self->danger = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  gtk_widget_add_css_class (self->danger, "danger-line");
  self->danger_words = text_label ("strong");
  {
    GtkWidget *icon = gtk_image_new_from_icon_name ("dialog-warning-symbolic");

    gtk_widget_set_valign (icon, GTK_ALIGN_START);
    gtk_accessible_update_property (GTK_ACCESSIBLE (icon), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Danger"), -1);
    gtk_box_append (GTK_BOX (self->danger), icon);
    gtk_box_append (GTK_BOX (self->danger), self->danger_words);
  }
  self->line = gtk_separator_new (GTK_ORIENTATION_HORIZONTAL);
  self->figures = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 16);
  gtk_box_set_homogeneous (GTK_BOX (self->figures), TRUE);
  for (guint i = 0; i < N_FIGURES; i++)
    {
      self->cells[i] = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
      self->labels[i] = text_label ("figure-label");
      self->numbers[i] = text_label ("figure-number");
      self->notes[i] = text_label ("figure-note");
      gtk_box_append (GTK_BOX (self->cells[i]), self->labels[i]);
      gtk_box_append (GTK_BOX (self->cells[i]), self->numbers[i]);
      gtk_box_append (GTK_BOX (self->cells[i]), self->notes[i]);
      gtk_box_append (GTK_BOX (self->figures), self->cells[i]);
    }
  gtk_box_append (GTK_BOX (box), self->sentence);
  gtk_box_append (GTK_BOX (box), self->reason);
  gtk_box_append (GTK_BOX (box), self->range);
  gtk_box_append (GTK_BOX (box), self->danger);
  gtk_box_append (GTK_BOX (box), self->line);
  gtk_box_append (GTK_BOX (box), self->figures);
  adw_bin_set_child (ADW_BIN (self), box);
}

GtkWidget *
fr_tonight_answer_new (void)
{
  return g_object_new (FR_TYPE_TONIGHT_ANSWER, NULL);
}

static void
set_figures (FrTonightAnswer *self, GPtrArray *figures)
{
  guint n = figures != NULL ? figures->len : 0;

  gtk_widget_set_visible (self->line, n > 0);
  gtk_widget_set_visible (self->figures, n > 0);
  for (guint i = 0; i < N_FIGURES; i++)
    {
      gboolean shown = i < n;

      gtk_widget_set_visible (self->cells[i], shown);
      if (shown)
        {
          const FrFigure *figure = figures->pdata[i];
          g_autofree char *markup
              = figure->unit[0] != '\0' ? g_markup_printf_escaped (
                    "%s\u00a0<span size=\"62%%\" weight=\"normal\" alpha=\"75%%\">%s</span>", figure->number,
                    figure->unit)
                                        : g_markup_escape_text (figure->number, -1);
          gtk_label_set_text (GTK_LABEL (self->labels[i]), figure->label);
          gtk_label_set_markup (GTK_LABEL (self->numbers[i]), markup);
          gtk_label_set_text (GTK_LABEL (self->notes[i]), figure->note != NULL ? figure->note : "");
        }
    }
}

void
fr_tonight_answer_set (FrTonightAnswer *self, const FrPlanWords *words)
{
  gtk_label_set_markup (GTK_LABEL (self->sentence), words->sentence);
  gtk_label_set_text (GTK_LABEL (self->reason), words->reason);
  gtk_label_set_text (GTK_LABEL (self->range), words->range != NULL ? words->range : "");
  gtk_widget_set_visible (self->range, words->range != NULL);
  gtk_label_set_text (GTK_LABEL (self->danger_words), words->danger != NULL ? words->danger : "");
  gtk_widget_set_visible (self->danger, words->danger != NULL);
  set_figures (self, words->figures);
}

void
fr_tonight_answer_set_texts (FrTonightAnswer *self, const char *sentence_markup, const char *reason,
                             GPtrArray *dangers, GPtrArray *figures)
{
  g_autoptr (GString) danger = g_string_new (NULL);

  for (guint i = 0; dangers != NULL && i < dangers->len; i++)
    g_string_append_printf (danger, "%s%s", i > 0 ? "\n" : "", (const char *)dangers->pdata[i]);
  gtk_label_set_markup (GTK_LABEL (self->sentence), sentence_markup);
  gtk_label_set_text (GTK_LABEL (self->reason), reason != NULL ? reason : "");
  gtk_widget_set_visible (self->reason, reason != NULL);
  gtk_widget_set_visible (self->range, FALSE);
  gtk_label_set_text (GTK_LABEL (self->danger_words), danger->str);
  gtk_widget_set_visible (self->danger, danger->len > 0);
  set_figures (self, figures);
  for (guint i = 0; figures != NULL && i < MIN (figures->len, N_FIGURES); i++)
    gtk_widget_set_visible (self->notes[i], ((const FrFigure *)figures->pdata[i])->note != NULL);
}

void
fr_tonight_answer_set_stale (FrTonightAnswer *self, const char *line)
{
  GtkWidget *old[] = { self->sentence, self->reason, self->range, self->figures };

  gtk_label_set_text (GTK_LABEL (self->stale), line != NULL ? line : "");
  gtk_widget_set_visible (self->stale, line != NULL);
  for (guint i = 0; i < G_N_ELEMENTS (old); i++)
    gtk_widget_set_opacity (old[i], line != NULL ? .6 : 1);
}

void
fr_tonight_answer_set_narrow (FrTonightAnswer *self, gboolean narrow)
{
  for (guint i = 0; i < N_FIGURES; i++)
    gtk_widget_set_visible (self->notes[i], !narrow);
  if (narrow)
    gtk_widget_add_css_class (GTK_WIDGET (self), "narrow");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self), "narrow");
}
