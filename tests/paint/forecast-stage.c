/* The chart drawn on a recording, with what holds for every picture of it checked at once. */
#include "forecast-stage.h"

#include <math.h>

#include "stage.h"

FrForecastChartLayout
forecast_draw (const FrForecastChart *chart, FrPalette palette, int width, int height, double scale,
               GArray *labels, GArray *marks, const char *picture, cairo_surface_t **image_out)
{
  PangoContext *context = stage_context ();
  cairo_surface_t *recording = stage_recording ();
  cairo_t *cr = cairo_create (recording);
  g_autofree char *what
      = g_strdup_printf ("%s %d × %d, text %g, theme %d", picture != NULL ? picture : "forecast", width,
                         height, scale, palette.theme);
  g_autofree char *file = g_strdup_printf ("%s-%dx%d-%g-%d%s.png", picture, width, height, scale,
                                           palette.theme, palette.high_contrast ? "-hc" : "");
  g_autoptr (GArray) own = fr_label_list_new ();
  FrForecastChartLayout layout = fr_forecast_chart_draw (cr, context, &palette, chart, width, height, scale,
                                                         labels != NULL ? labels : own, marks);

  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  stage_check_ink (recording, width, height, what);
  stage_check_labels (labels != NULL ? labels : own, width, height, what);
  if (picture != NULL || image_out != NULL)
    {
      cairo_surface_t *image = stage_develop (recording, &palette, FR_ROLE_CARD, width, height);
      if (picture != NULL)
        stage_keep (image, file);
      if (image_out != NULL)
        *image_out = cairo_surface_reference (image);
      cairo_surface_destroy (image);
    }
  FrForecastChartLayout alone = fr_forecast_chart_layout (context, chart, width, height, scale);
  g_assert_cmpmem (&alone, sizeof alone, &layout, sizeof layout);
  cairo_surface_destroy (recording);
  g_object_unref (context);
  return layout;
}

const FrForecastMark *
forecast_find (const GArray *marks, FrForecastMarkKind kind, guint day)
{
  for (guint i = 0; i < marks->len; i++)
    {
      const FrForecastMark *mark = &g_array_index (marks, FrForecastMark, i);
      if (mark->kind == kind && mark->day == day)
        return mark;
    }
  return NULL;
}

const FrForecastMark *
forecast_need (const GArray *marks, FrForecastMarkKind kind, guint day)
{
  const FrForecastMark *mark = forecast_find (marks, kind, day);

  if (mark == NULL)
    g_error ("no mark %d on day %u", kind, day);
  return mark;
}

void
forecast_no_air (Forecast *f, guint from, guint to)
{
  for (guint column = from; column < to; column++)
    {
      FrForecastDay *day = &f->days[column];
      for (guint k = 0; k < 24; k++)
        f->temp_c[24 * (column + 1) + k] = NAN;
      day->low_c = day->low_lo_c = day->low_hi_c = NAN;
      day->high_c = day->high_lo_c = day->high_hi_c = NAN;
      day->run_probability = NAN;
      day->bush = day->per_tap = (FrLitres){ NAN, NAN, NAN, NAN, NAN, NAN };
    }
}

void
forecast_beyond (Forecast *f, guint from)
{
  f->air.n_hours = 24 * (from + 1);
  for (guint i = from; i < FORECAST_DAYS; i++)
    {
      f->days[i].is_beyond = TRUE;
      f->days[i].low_lo_c -= 4;
      f->days[i].high_hi_c += 4;
    }
}

/* Pixels of a role in a column of pixels within a lane. */
guint
forecast_column_count (cairo_surface_t *image, const FrForecastChartLayout *l, FrForecastLane lane,
                       double hour, const FrPalette *palette, FrRole role)
{
  FrRgba color = fr_palette_color (palette, role);
  int x = (int)(l->plot_x_px + hour / 24 * l->day_px);
  guint n = 0;

  for (int y = (int)l->lanes[lane].y_px; y < (int)(l->lanes[lane].y_px + l->lanes[lane].height_px); y++)
    {
      guint32 rgb = stage_pixel (image, x, y);
      n += fabs ((double)(rgb >> 16 & 0xff) - 255.0 * (double)color.red) < 40
           && fabs ((double)(rgb >> 8 & 0xff) - 255.0 * (double)color.green) < 40
           && fabs ((double)(rgb & 0xff) - 255.0 * (double)color.blue) < 40;
    }
  return n;
}
