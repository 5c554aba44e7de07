/* Shares in whole hundredths, litres and the rest to two decimals: resamples settle no more. */
#include "ui/score-cells.h"

#include <math.h>

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
