/* The painter draws the square; this gives it size, theme and texts. */
#include "ui/score-reliability-view.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "paint/forecast-reliability.h"
#include "ui/drawing.h"
#include "ui/theme.h"

#define SIDE_PX 290

struct _FrScoreReliabilityView
{
  GtkWidget parent_instance;
  FrReliabilityBin *bins;
  guint n_bins;
  FrUnits units;
};

G_DEFINE_FINAL_TYPE (FrScoreReliabilityView, fr_score_reliability_view, GTK_TYPE_WIDGET)

static void
fr_score_reliability_view_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                                   int *minimum_baseline, int *natural_baseline)
{
  *minimum = *natural = (int)ceil (SIDE_PX * fr_text_scale_of_context (gtk_widget_get_pango_context (widget)));
}

static void
fr_score_reliability_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  FrScoreReliabilityView *self = FR_SCORE_RELIABILITY_VIEW (widget);
  const int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  PangoContext *context = gtk_widget_get_pango_context (widget);
  FrPalette palette = fr_theme_palette ();
  const FrForecastReliability drawn = { .bins = self->bins,
                                        .n_bins = self->n_bins,
                                        .units = &self->units,
                                        .said = _ ("chance told before"),
                                        .happened = _ ("came so"),
                                        .empty = _ ("No chance was told."),
                                        .chosen = -1 };
  cairo_t *cr;

  if (width <= 0 || height <= 0)
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  fr_forecast_reliability_draw (cr, context, &palette, &drawn, width, height, fr_text_scale_of_context (context), NULL);
  cairo_destroy (cr);
}

static void
fr_score_reliability_view_finalize (GObject *object)
{
  g_free (FR_SCORE_RELIABILITY_VIEW (object)->bins);
  G_OBJECT_CLASS (fr_score_reliability_view_parent_class)->finalize (object);
}

static void
fr_score_reliability_view_class_init (FrScoreReliabilityViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = fr_score_reliability_view_finalize;
  widget_class->measure = fr_score_reliability_view_measure;
  widget_class->snapshot = fr_score_reliability_view_snapshot;
  fr_drawing_class_init (widget_class);
}

static void
fr_score_reliability_view_init (FrScoreReliabilityView *self)
{
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  fr_theme_redraws (GTK_WIDGET (self));
}

static char *
spoken (const FrScoreReliabilityView *self)
{
  GString *text = g_string_new (_ ("Chance of a run told before, and how often one came:"));

  for (guint i = 0; i < self->n_bins; i++)
    if (self->bins[i].n > 0)
      g_string_append_printf (text, _ (" of %u told with %.0f %%, %.0f %% came;"), self->bins[i].n, 100 * self->bins[i].said_ratio,
                              100 * self->bins[i].happened_ratio);
  text->str[text->len - 1] = '.';
  return g_string_free (text, FALSE);
}

GtkWidget *
fr_score_reliability_view_new (const FrReliabilityBin *bins, guint n_bins, const FrUnits *units)
{
  FrScoreReliabilityView *self = g_object_new (FR_TYPE_SCORE_RELIABILITY_VIEW, NULL);
  g_autofree char *label = NULL;

  self->bins = g_memdup2 (bins, n_bins * sizeof *bins);
  self->n_bins = n_bins;
  self->units = *units;
  self->units.measures = NULL; /* not needed to write numbers, and not ours to keep */
  self->units.n_measures = 0;
  label = spoken (self);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  return GTK_WIDGET (self);
}
