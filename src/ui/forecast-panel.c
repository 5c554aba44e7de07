/* The panel of a day ahead. Texts come ready from the words; rows are made anew with each day, for there are few. */
#include "ui/forecast-panel.h"

#include <glib/gi18n-lib.h>

#include "ui/pieces.h"

struct _FrForecastPanel
{
  AdwBin parent_instance;
  GtkWidget *title;
  GtkWidget *note;
  GtkWidget *litres;
  GtkWidget *range;
  GtkWidget *line;
  GtkWidget *rows;
  GtkWidget *foot_line;
  GtkWidget *notes;
};

G_DEFINE_FINAL_TYPE (FrForecastPanel, fr_forecast_panel, ADW_TYPE_BIN)

static void
fr_forecast_panel_class_init (FrForecastPanelClass *klass)
{
}

static void
fr_forecast_panel_init (FrForecastPanel *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget **parts[] = { &self->title, &self->note, &self->litres, &self->range, &self->line, &self->rows, &self->foot_line, &self->notes };

  self->title = fr_wrapped_text (NULL, "panel-title");
  self->note = fr_wrapped_text (NULL, "soft");
  self->litres = fr_wrapped_text (NULL, "forecast-litres");
  self->range = fr_wrapped_text (NULL, "soft");
  self->line = gtk_separator_new (GTK_ORIENTATION_HORIZONTAL);
  self->rows = gtk_box_new (GTK_ORIENTATION_VERTICAL, 14);
  self->foot_line = gtk_separator_new (GTK_ORIENTATION_HORIZONTAL);
  self->notes = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    gtk_box_append (GTK_BOX (box), *parts[i]);
  gtk_widget_add_css_class (box, "forecast-panel");
  adw_bin_set_child (ADW_BIN (self), box);
}

GtkWidget *
fr_forecast_panel_new (void)
{
  return g_object_new (FR_TYPE_FORECAST_PANEL, NULL);
}

static void
add_row (FrForecastPanel *self, const FrFigure *figure)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12), *value = gtk_label_new (NULL);
  g_autofree char *markup = g_markup_printf_escaped ("<b>%s</b>\u00a0%s", figure->number, figure->unit);
  GtkWidget *label = fr_wrapped_text (figure->label, NULL);

  gtk_widget_set_hexpand (label, TRUE);
  gtk_label_set_markup (GTK_LABEL (value), markup);
  gtk_label_set_xalign (GTK_LABEL (value), 1);
  gtk_box_append (GTK_BOX (row), label);
  gtk_box_append (GTK_BOX (row), value);
  gtk_box_append (GTK_BOX (self->rows), row);
}

void
fr_forecast_panel_set (FrForecastPanel *self, const FrForecastDayWords *words, const GPtrArray *notes)
{
  fr_box_empty (GTK_BOX (self->rows));
  fr_box_empty (GTK_BOX (self->notes));
  fr_set_text (self->title, words != NULL ? words->title : _ ("No Day Yet"));
  fr_set_text (self->note, words != NULL ? words->note : _ ("With weather in the book each day ahead is told of here."));
  fr_set_text (self->range, words != NULL ? words->range : NULL);
  gtk_widget_set_visible (self->litres, words != NULL && words->number != NULL);
  if (words != NULL && words->number != NULL)
    {
      g_autofree char *markup = g_markup_printf_escaped (
          "<span size=\"220%%\" weight=\"800\">%s</span>\u00a0<span alpha=\"75%%\">%s</span>", words->number, words->unit);

      gtk_label_set_markup (GTK_LABEL (self->litres), markup);
    }
  for (guint i = 0; words != NULL && i < words->rows->len; i++)
    add_row (self, words->rows->pdata[i]);
  for (guint i = 0; notes != NULL && i < notes->len; i++)
    gtk_box_append (GTK_BOX (self->notes), fr_wrapped_text (notes->pdata[i], "note"));
  gtk_widget_set_visible (self->line, words != NULL && words->rows->len > 0);
  gtk_widget_set_visible (self->foot_line, notes != NULL && notes->len > 0);
}
