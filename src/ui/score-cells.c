/* Cells of a grid of scores; what stands in them comes from the words. */
#include "ui/score-cells.h"

GtkWidget *
fr_score_attach (GtkGrid *grid, const char *text, const char *css_class, gboolean is_name, int column, int row)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), is_name ? 0 : 1);
  gtk_label_set_justify (GTK_LABEL (label), is_name ? GTK_JUSTIFY_LEFT : GTK_JUSTIFY_RIGHT);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_set_hexpand (label, is_name);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  gtk_grid_attach (grid, label, column, row, 1, 1);
  return label;
}
