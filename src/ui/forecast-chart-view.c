/* The painter draws the days; this gives it size and theme, and turns pointer and keys into days. */
#include "ui/forecast-chart-view.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "ui/drawing.h"
#include "ui/forecast-scene.h"
#include "ui/theme.h"

#define DAY_PX 78
#define DAYS_LEAST 4
#define DAYS_MOST 14
/* Days shown before the first that is ahead. */
#define DAYS_BEFORE 2
#define EMPTY_DAYS 8
#define LEAST_HEIGHT_PX 330

struct _FrForecastChartView
{
  GtkWidget parent_instance;
  const FrForecast *forecast;
  const FrBookForecast *asked;
  FrUnits units;
  FrDate selected;
  FrDate hovered;
  FrDate first;      /* of the days shown, as far as there is room */
  gboolean has_moved; /* else it begins before the days ahead */
  char *clock;       /* of the moment */
  FrForecastChartLayout layout;
};

G_DEFINE_FINAL_TYPE (FrForecastChartView, fr_forecast_chart_view, GTK_TYPE_WIDGET)

static guint selected_signal, activated_signal;

static gboolean
has_days (FrForecastChartView *self)
{
  return self->forecast != NULL && self->forecast->n_days > 0;
}

static FrDate
first_day (FrForecastChartView *self)
{
  return self->forecast->days[0].date;
}

static FrDate
last_day (FrForecastChartView *self)
{
  return self->forecast->days[self->forecast->n_days - 1].date;
}

static FrDate
earlier (FrDate a, FrDate b)
{
  return fr_date_compare (a, b) < 0 ? a : b;
}

static FrDate
later (FrDate a, FrDate b)
{
  return fr_date_compare (a, b) > 0 ? a : b;
}

static guint
room (int width_px)
{
  return (guint)CLAMP (width_px / DAY_PX, DAYS_LEAST, DAYS_MOST);
}

/* Which days are drawn: those round the moment, or where the chosen day led. */
static void
find_days (FrForecastChartView *self, FrDate *first_out, guint *n_out)
{
  guint n = room (gtk_widget_get_width (GTK_WIDGET (self)));
  FrDate first, last;

  if (!has_days (self))
    {
      *first_out = self->asked != NULL ? self->asked->today : (FrDate){ 2000, 1, 1 };
      *n_out = MIN (n, EMPTY_DAYS);
      return;
    }
  first = self->has_moved ? self->first : fr_date_add_days (self->forecast->as_of, 1 - DAYS_BEFORE);
  if (self->has_moved && self->selected.year != 0)
    {
      first = earlier (first, self->selected);
      first = later (first, fr_date_add_days (self->selected, 1 - (gint)n));
    }
  first = earlier (first, fr_date_add_days (last_day (self), 1 - (gint)n));
  first = later (first, first_day (self));
  last = earlier (fr_date_add_days (first, (gint)n - 1), last_day (self));
  *first_out = first;
  *n_out = (guint)(fr_date_to_days (last) - fr_date_to_days (first)) + 1;
}

static void
select_day (FrForecastChartView *self, FrDate date)
{
  guint n;

  if (fr_date_compare (date, self->selected) == 0)
    return;
  find_days (self, &self->first, &n);
  self->selected = date;
  self->has_moved = TRUE;
  gtk_widget_queue_draw (GTK_WIDGET (self));
  g_signal_emit (self, selected_signal, 0, date.year != 0 ? fr_date_to_days (date) : FR_NO_DAY);
}

static void
activate (FrForecastChartView *self)
{
  if (self->selected.year != 0)
    g_signal_emit (self, activated_signal, 0, fr_date_to_days (self->selected));
}

static void
hover (FrForecastChartView *self, FrDate date)
{
  if (fr_date_compare (date, self->hovered) == 0)
    return;
  self->hovered = date;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static FrDate
day_at (FrForecastChartView *self, double x, double y)
{
  FrForecastLane lane;
  FrDate date;

  if (!has_days (self) || !fr_forecast_chart_at (&self->layout, x, y, &date, &lane))
    return (FrDate){ 0, 0, 0 };
  return date;
}

static void
motion_cb (GtkEventControllerMotion *controller, double x, double y, gpointer user_data)
{
  FrForecastChartView *self = FR_FORECAST_CHART_VIEW (user_data);

  hover (self, day_at (self, x, y));
}

static void
leave_cb (GtkEventControllerMotion *controller, gpointer user_data)
{
  hover (FR_FORECAST_CHART_VIEW (user_data), (FrDate){ 0, 0, 0 });
}

static void
pressed_cb (GtkGestureClick *gesture, int n_press, double x, double y, gpointer user_data)
{
  FrForecastChartView *self = FR_FORECAST_CHART_VIEW (user_data);
  FrDate date = day_at (self, x, y);

  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (date.year == 0)
    return;
  select_day (self, date);
  if (n_press == 2)
    activate (self);
}

static gboolean
key_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state, gpointer user_data)
{
  FrForecastChartView *self = FR_FORECAST_CHART_VIEW (user_data);
  FrDate start, to;

  if (!has_days (self) || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return FALSE;
  if (keyval == GDK_KEY_Escape)
    {
      if (self->selected.year == 0)
        return FALSE;
      self->has_moved = FALSE;
      select_day (self, (FrDate){ 0, 0, 0 });
      self->has_moved = FALSE;
      return TRUE;
    }
  start = earlier (fr_date_add_days (self->forecast->as_of, 1), last_day (self));
  if (keyval == GDK_KEY_Return || keyval == GDK_KEY_KP_Enter || keyval == GDK_KEY_ISO_Enter)
    {
      if (self->selected.year == 0)
        select_day (self, start);
      activate (self);
      return TRUE;
    }
  if (!fr_day_walk (keyval, self->selected.year != 0 ? self->selected : start, first_day (self), last_day (self),
                    first_day (self), last_day (self), FALSE, FALSE, &to))
    return FALSE;
  /* The first key on a drawing without a selection shows where one is. */
  if (self->selected.year == 0 && keyval != GDK_KEY_Home && keyval != GDK_KEY_End)
    to = start;
  select_day (self, to);
  return TRUE;
}

static void
fr_forecast_chart_view_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                                int *minimum_baseline, int *natural_baseline)
{
  double scale = fr_text_scale_of_context (gtk_widget_get_pango_context (widget));

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = 340;
      *natural = 704;
    }
  else
    {
      /* Lower than this its capsules say too little; the page scrolls. */
      *minimum = (int)ceil (MAX (fr_forecast_chart_least_height_px (scale), LEAST_HEIGHT_PX * scale));
      *natural = MAX (*minimum, (int)ceil (406 * scale));
    }
}

static void
fr_forecast_chart_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  FrForecastChartView *self = FR_FORECAST_CHART_VIEW (widget);
  const int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  PangoContext *context = gtk_widget_get_pango_context (widget);
  FrPalette palette = fr_theme_palette ();
  g_autoptr (FrForecastChartScene) scene = NULL;
  FrForecastChart *chart;
  FrDate first;
  guint n_days;
  cairo_t *cr;

  if (self->asked == NULL || width <= 0 || height <= 0)
    return;
  find_days (self, &first, &n_days);
  scene = fr_forecast_chart_scene_new (self->forecast, self->asked, first, n_days, self->clock, &self->units);
  chart = &scene->chart;
  chart->selected = self->selected;
  chart->hovered = self->hovered;
  chart->is_focused = gtk_widget_has_visible_focus (widget);
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  self->layout = fr_forecast_chart_draw (cr, context, &palette, chart, width, height, fr_text_scale_of_context (context),
                                         NULL, NULL);
  cairo_destroy (cr);
}

static void
fr_forecast_chart_view_finalize (GObject *object)
{
  FrForecastChartView *self = FR_FORECAST_CHART_VIEW (object);

  g_free (self->clock);
  G_OBJECT_CLASS (fr_forecast_chart_view_parent_class)->finalize (object);
}

static void
fr_forecast_chart_view_class_init (FrForecastChartViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = fr_forecast_chart_view_finalize;
  widget_class->measure = fr_forecast_chart_view_measure;
  widget_class->snapshot = fr_forecast_chart_view_snapshot;
  fr_drawing_class_init (widget_class);
  selected_signal = g_signal_new ("day-selected", FR_TYPE_FORECAST_CHART_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 1, G_TYPE_INT64);
  activated_signal = g_signal_new ("day-activated", FR_TYPE_FORECAST_CHART_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 1, G_TYPE_INT64);
}

static void
say_selected (FrForecastChartView *self, const char *spoken)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  spoken != NULL ? spoken : _ ("Forecast, day by day"), -1);
}

static void
fr_forecast_chart_view_init (FrForecastChartView *self)
{
  fr_drawing_listen (GTK_WIDGET (self), G_CALLBACK (motion_cb), G_CALLBACK (leave_cb), G_CALLBACK (pressed_cb),
                     G_CALLBACK (key_cb));
  say_selected (self, NULL);
}

GtkWidget *
fr_forecast_chart_view_new (void)
{
  return g_object_new (FR_TYPE_FORECAST_CHART_VIEW, NULL);
}

void
fr_forecast_chart_view_set (FrForecastChartView *self, const FrForecast *forecast, const FrBookForecast *asked, gint64 now_utc,
                            const FrSay *say)
{
  self->forecast = forecast;
  self->asked = asked;
  self->hovered = (FrDate){ 0, 0, 0 };
  g_clear_pointer (&self->clock, g_free);
  if (say != NULL)
    {
      self->units = say->units;
      self->units.measures = NULL; /* not needed to write numbers, and not ours to keep */
      self->units.n_measures = 0;
      self->clock = fr_say_clock (say, now_utc);
    }
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
fr_forecast_chart_view_set_selected (FrForecastChartView *self, FrDate date, const char *spoken)
{
  self->selected = date;
  say_selected (self, spoken);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

FrDate
fr_forecast_chart_view_get_selected (FrForecastChartView *self)
{
  return self->selected;
}

gboolean
fr_forecast_chart_view_get_day (FrForecastChartView *self, FrDate date, GdkRectangle *day_out)
{
  cairo_rectangle_t box;

  if (!has_days (self) || !fr_forecast_chart_column (&self->layout, date, &box))
    return FALSE;
  *day_out = (GdkRectangle){ (int)box.x, (int)box.y, MAX ((int)ceil (box.width), 1), (int)box.height };
  return TRUE;
}
