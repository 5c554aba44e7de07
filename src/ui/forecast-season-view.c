/* The painter draws the season; this gives it size, theme and texts. */
#include "ui/forecast-season-view.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "paint/forecast-season.h"
#include "ui/drawing.h"
#include "ui/theme.h"
#include "words/forecast-day-words.h"

#define HEIGHT_PX 210

struct _FrForecastSeasonView
{
  GtkWidget parent_instance;
  const FrForecast *forecast;
  guint season;
  FrUnits units;
  char *unit;
  char *past_name;
  char *past_words;
  double *past_l;
  FrSeasonPast past;
  gboolean has_past;
  GArray *months; /* (element-type FrSeasonMonth) */
  GPtrArray *names;
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
  FrForecastSeason drawn;
  cairo_t *cr;

  if (self->forecast == NULL || self->forecast->n_days == 0 || width <= 0 || height <= 0)
    return;
  drawn = (FrForecastSeason){ .forecast = self->forecast,
                              .units = &self->units,
                              .season = self->season,
                              .first = self->forecast->days[0].date,
                              .last = self->forecast->days[self->forecast->n_days - 1].date,
                              .past = &self->past,
                              .n_past = self->has_past ? 1 : 0,
                              .months = (const FrSeasonMonth *)(gpointer)self->months->data,
                              .n_months = self->months->len,
                              .selected = self->selected,
                              .unit = self->unit,
                              .past_words = self->has_past ? self->past_words : NULL,
                              .likely = _ ("likely"),
                              .empty = _ ("Nothing was gathered, and no day ahead is known.") };
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  fr_forecast_season_draw (cr, context, &palette, &drawn, width, height, fr_text_scale_of_context (context), NULL);
  cairo_destroy (cr);
}

static void
fr_forecast_season_view_finalize (GObject *object)
{
  FrForecastSeasonView *self = FR_FORECAST_SEASON_VIEW (object);

  g_free (self->unit);
  g_free (self->past_name);
  g_free (self->past_words);
  g_free (self->past_l);
  g_array_unref (self->months);
  g_ptr_array_unref (self->names);
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
  self->months = g_array_new (FALSE, FALSE, sizeof (FrSeasonMonth));
  self->names = g_ptr_array_new_with_free_func (g_free);
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  fr_theme_redraws (GTK_WIDGET (self));
}

GtkWidget *
fr_forecast_season_view_new (void)
{
  return g_object_new (FR_TYPE_FORECAST_SEASON_VIEW, NULL);
}

static char *
month_name (FrForecastSeasonView *self, FrDate date, const char *format)
{
  g_autoptr (GDateTime) time = g_date_time_new_utc (date.year, date.month, date.day, 0, 0, 0);
  char *name = time != NULL ? g_date_time_format (time, format) : g_strdup ("");

  g_ptr_array_add (self->names, name);
  return name;
}

static void
make_months (FrForecastSeasonView *self, FrDate first, FrDate last)
{
  g_array_set_size (self->months, 0);
  g_ptr_array_set_size (self->names, 0);
  for (FrDate date = first; fr_date_compare (date, last) <= 0; date = fr_date_add_days (date, 1))
    if (date.day == 1)
      {
        FrSeasonMonth month = { (guint)(fr_date_to_days (date) - fr_date_to_days (first)), month_name (self, date, "%OB"),
                                month_name (self, date, "%Ob") };

        g_array_append_val (self->months, month);
      }
}

static void
keep_past (FrForecastSeasonView *self, const FrSeasonView *past)
{
  g_clear_pointer (&self->past_l, g_free);
  g_clear_pointer (&self->past_name, g_free);
  g_clear_pointer (&self->past_words, g_free);
  self->has_past = past != NULL;
  if (past == NULL)
    return;
  self->past_l = g_new (double, past->n_days);
  for (guint i = 0; i < past->n_days; i++)
    self->past_l[i] = past->days[i].gathered_l;
  self->past_name = g_strdup_printf ("%u", past->season);
  /* Translators: a year */
  self->past_words = g_strdup_printf (_ ("grey: the season of %u"), past->season);
  self->past = (FrSeasonPast){ self->past_name, past->season, past->days[0].date, past->n_days, self->past_l };
}

void
fr_forecast_season_view_set (FrForecastSeasonView *self, const FrForecast *forecast, guint season, const FrSeasonView *past,
                             const FrSay *say)
{
  g_autofree char *spoken = NULL;

  self->forecast = forecast;
  self->season = season;
  gtk_widget_queue_draw (GTK_WIDGET (self));
  if (forecast == NULL || forecast->n_days == 0)
    return;
  self->units = say->units;
  self->units.measures = NULL; /* not needed to write numbers, and not ours to keep */
  self->units.n_measures = 0;
  g_free (self->unit);
  /* Translators: a unit of volume */
  self->unit = g_strdup_printf (_ ("%s in all"), fr_quantity_unit (FR_QUANTITY_VOLUME, &say->units));
  make_months (self, forecast->days[0].date, forecast->days[forecast->n_days - 1].date);
  keep_past (self, past);
  spoken = fr_forecast_season_words (forecast, say);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
}

void
fr_forecast_season_view_set_selected (FrForecastSeasonView *self, FrDate date)
{
  self->selected = date;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
