/* The words over the columns of the gathering log, with the household's units. */
#include "ui/log-columns.h"
#include "ui/log-line.h"

#include <glib/gi18n-lib.h>

#include "paint/label.h"

GtkWidget *
fr_log_label_new (const char *text, float xalign, int width_px, const char *css)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), xalign);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  if (width_px > 0)
    gtk_widget_set_size_request (
        label, (int)(width_px * fr_text_scale_of_context (gtk_widget_get_pango_context (label))), -1);
  if (css != NULL)
    gtk_widget_add_css_class (label, css);
  return label;
}

GtkWidget *
fr_log_heads_new (void)
{
  static const int widths_px[]
      = { 0, FR_LOG_AMOUNT_PX, FR_LOG_SUGAR_PX, FR_LOG_SAMPLE_PX, FR_LOG_TRUE_PX, FR_LOG_STATE_PX, 34 };
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, FR_LOG_GAP_PX);

  for (guint i = 0; i < G_N_ELEMENTS (widths_px); i++)
    {
      GtkWidget *label = fr_log_label_new (NULL, i > 0 ? 1 : 0, widths_px[i], "figure-label");

      if (i == 0)
        gtk_widget_set_hexpand (label, TRUE);
      gtk_box_append (GTK_BOX (box), label);
    }
  gtk_widget_add_css_class (box, "log-heads");
  return box;
}

void
fr_log_heads_set (GtkWidget *heads, FrGatherLog *log)
{
  const FrUnits *units = fr_book_get_units (fr_gather_log_get_book (log));
  const char *measured_by = fr_gather_log_get_defaults (log)->measured_by;
  FrQuantityKind kind = g_strcmp0 (measured_by, "weight") == 0  ? FR_QUANTITY_MASS
                        : g_strcmp0 (measured_by, "depth") == 0 ? FR_QUANTITY_LENGTH
                                                                : FR_QUANTITY_VOLUME;
  static const char *const scopes[FR_N_GATHER_SCOPES] = { "", N_ ("Group"), N_ ("Tree"), N_ ("Tap") };
  const char *scope = scopes[fr_gather_log_get_scope (log)];
  /* Translators: heads of columns; %s is a unit */
  g_autofree char *amount = g_strdup_printf (_ ("Amount, %s"), fr_quantity_unit (kind, units));
  g_autofree char *sugar = g_strdup_printf (_ ("Read, %s"), fr_quantity_unit (FR_QUANTITY_SWEETNESS, units));
  g_autofree char *sample
      = g_strdup_printf (_ ("Sample, %s"), fr_quantity_unit (FR_QUANTITY_TEMPERATURE, units));
  g_autofree char *brix = g_strdup_printf (_ ("True %s"), fr_quantity_unit (FR_QUANTITY_SWEETNESS, units));
  const char *const texts[] = { *scope != '\0' ? _ (scope) : "", amount, sugar, sample, brix, "", "" };
  GtkWidget *label = gtk_widget_get_first_child (heads);

  for (guint i = 0; i < G_N_ELEMENTS (texts) && label != NULL;
       i++, label = gtk_widget_get_next_sibling (label))
    gtk_label_set_text (GTK_LABEL (label), texts[i]);
}
