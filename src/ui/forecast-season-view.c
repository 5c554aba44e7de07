/* The painter draws the season; this gives it size, theme and texts. */
#include "ui/forecast-season-view.h"

#include <math.h>

#include "ui/drawing.h"
#include "ui/forecast-scene.h"
#include "ui/theme.h"
#include "words/forecast-day-words.h"

#define HEIGHT_PX 210

struct _FrForecastSeasonView
{
  GtkWidget parent_instance;
  FrForecastSeasonScene *scene; /* NULL: nothing is drawn */
  FrDate selected;
};

G_DEFINE_FINAL_TYPE (FrForecastSeasonView, fr_forecast_season_view, GTK_TYPE_WIDGET)

static void
fr_forecast_season_view_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                                 int *minimum_baseline, int *natural_baseline)
{
  double scale = fr_text_scale_of_context (gtk_widget_get_pango_context (widget));

  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 280 : (int)ceil (HEIGHT_PX * scale);
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 430 : *minimum;
}

static void
fr_forecast_season_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  FrForecastSeasonView *self = FR_FORECAST_SEASON_VIEW (widget);
  const int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  PangoContext *context = gtk_widget_get_pango_context (widget);
  FrPalette palette = fr_theme_palette ();
  cairo_t *cr;

  if (self->scene == NULL || width <= 0 || height <= 0)
    return;
  self->scene->season.selected = self->selected;
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  fr_forecast_season_draw (cr, context, &palette, &self->scene->season, width, height, fr_text_scale_of_context (context), NULL);
  cairo_destroy (cr);
}

static void
fr_forecast_season_view_finalize (GObject *object)
{
  FrForecastSeasonView *self = FR_FORECAST_SEASON_VIEW (object);

  fr_forecast_season_scene_free (self->scene);
  G_OBJECT_CLASS (fr_forecast_season_view_parent_class)->finalize (object);
}

static void
fr_forecast_season_view_class_init (FrForecastSeasonViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = fr_forecast_season_view_finalize;
  widget_class->measure = fr_forecast_season_view_measure;
  widget_class->snapshot = fr_forecast_season_view_snapshot;
  fr_drawing_class_init (widget_class);
}

static void
fr_forecast_season_view_init (FrForecastSeasonView *self)
{
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  fr_theme_redraws (GTK_WIDGET (self));
}

GtkWidget *
fr_forecast_season_view_new (void)
{
  return g_object_new (FR_TYPE_FORECAST_SEASON_VIEW, NULL);
}

void
fr_forecast_season_view_set (FrForecastSeasonView *self, const FrForecast *forecast, guint season, const FrSeasonView *past,
                             const FrSay *say)
{
  g_autofree char *spoken = NULL;

  g_clear_pointer (&self->scene, fr_forecast_season_scene_free);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  if (forecast == NULL || forecast->n_days == 0)
    return;
  self->scene = fr_forecast_season_scene_new (forecast, season, past, &say->units);
  spoken = fr_forecast_season_words (forecast, say);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
}

void
fr_forecast_season_view_set_selected (FrForecastSeasonView *self, FrDate date)
{
  self->selected = date;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
