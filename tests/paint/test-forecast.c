/* The forecast's chart: the pointer finds the day it is on, marks in proportion to their numbers and one
 * against the other, words and units, known and expected apart in grey. Geometry is checked against formulas
 * written apart here. With FROSTRUN_PICTURES set to a folder the pictures are kept there to be looked at. */
#include <math.h>
#include <string.h>

#include "forecast-stage.h"
#include "stage.h"

static const int sizes[][2] = { { 560, 400 }, { 704, 406 }, { 1000, 460 }, { 1280, 500 }, { 1600, 700 } };
static const double scales[] = { 1, 1.25, 1.5, 2 };
static const FrPalette light = { FR_THEME_LIGHT, FALSE };

static void
check_marks_inside (const GArray *marks, const FrForecastChartLayout *l, const char *what)
{
  for (guint i = 0; i < marks->len; i++)
    {
      const FrForecastMark *m = &g_array_index (marks, FrForecastMark, i);
      if (m->x_px < l->plot_x_px - 0.5 || m->x_px + m->width_px > l->plot_x_px + l->plot_width_px + 0.5
          || m->y_px < l->plot_y_px || m->y_px + m->height_px > l->plot_y_px + l->plot_height_px + 0.5)
        g_test_fail_printf ("%s: mark %d of day %u: %.1f %.1f %.1f %.1f", what, m->kind, m->day, m->x_px,
                            m->y_px, m->width_px, m->height_px);
    }
}

static void
test_everywhere (void)
{
  static const char *const scenes[] = { "forecast", "forecast-chosen", "forecast-gap", "forecast-beyond" };

  for (guint scene = 0; scene < G_N_ELEMENTS (scenes); scene++)
    {
      Forecast f;
      forecast_fill (&f);
      if (scene == 1)
        {
          f.chart.selected = (FrDate){ 2026, 3, 13 };
          f.chart.hovered = (FrDate){ 2026, 3, 16 };
          f.chart.is_focused = TRUE;
        }
      if (scene == 2)
        forecast_no_air (&f, 5, 7);
      if (scene == 3)
        forecast_beyond (&f, 8);
      for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
        for (guint s = 0; s < G_N_ELEMENTS (scales); s++)
          for (guint theme = 0; theme < FR_N_THEMES; theme++)
            {
              g_autoptr (GArray) marks = g_array_new (FALSE, FALSE, sizeof (FrForecastMark));
              FrForecastChartLayout l
                  = forecast_draw (&f.chart, (FrPalette){ (FrTheme)theme, s == 3 }, sizes[i][0], sizes[i][1],
                                   scales[s], NULL, marks, scenes[scene], NULL);
              check_marks_inside (marks, &l, scenes[scene]);
              g_assert_nonnull (forecast_find (marks, FR_FORECAST_MARK_OUTER, 3));
            }
    }
}

static void
need_words (const GArray *labels, const char *const *words, guint n)
{
  for (guint i = 0; i < n; i++)
    if (!stage_has_label (labels, words[i]))
      g_test_fail_printf ("“%s” is missing", words[i]);
}

/* At the size of the page: the numbers that were typed in, and the words. */
static void
test_words (void)
{
  static const char *const words[] = {
    "Thu 12",
    "Fri 13",
    "°C",
    "+10",
    "0",
    "−10",
    "5",
    "−6",
    "7",
    "−4",
    "9",
    "−1",
    "10",
    "1",
    "3",
    "−3",
    "−8",
    "2",
    "−9",
    "6",
    "−5",
    "Chance",
    "82\u00a0%",
    "6\u00a0%",
    "Litres",
    "20",
    "30",
    "22",
    "14",
    "19",
    "13",
    "24",
    "15",
    "29",
    "Now 18:30",
    "21",
    "2 × 8.8",
    "Outer bar: eight days in ten fall inside. Inner bar: five in ten. Line: as likely above as below."
  };
  Forecast f;
  g_autoptr (GArray) labels = fr_label_list_new ();

  forecast_fill (&f);
  forecast_draw (&f.chart, light, 1000, 460, 1, labels, NULL, NULL, NULL);
  need_words (labels, words, G_N_ELEMENTS (words));
  g_assert_false (stage_has_label (labels, "no weather known"));
  /* In the narrowest window each day to come still has its middle litres, and its chance. */
  g_array_set_size (labels, 0);
  forecast_draw (&f.chart, light, 560, 400, 1, labels, NULL, NULL, NULL);
  static const char *const few[] = { "14", "19", "13", "7", "5", "4", "15", "91\u00a0%", "Fri", "Litres" };
  need_words (labels, few, G_N_ELEMENTS (few));
}

/* In a column of a side panel the chances lose their unit, all of them, and the middles stand over their
 * capsules, each in its own column. */
static void
test_narrow (void)
{
  static const char *const middles[] = { "14", "19", "13", "7", "5", "0", "4", "15" };
  Forecast f;
  g_autoptr (GArray) labels = fr_label_list_new ();
  g_autoptr (GArray) marks = g_array_new (FALSE, FALSE, sizeof (FrForecastMark));

  forecast_fill (&f);
  f.chart.now_h = NAN;
  FrForecastChartLayout l = forecast_draw (&f.chart, light, 340, 406, 1, labels, marks, NULL, NULL);
  g_assert_true (stage_has_label (labels, "91") && stage_has_label (labels, "6"));
  g_assert_true (stage_has_label (labels, "2 × 8.8"));
  g_assert_false (stage_has_label (labels, "91\u00a0%") || stage_has_label (labels, "6\u00a0%"));
  for (guint d = 3; d < FORECAST_DAYS; d++)
    {
      const FrForecastMark *outer = forecast_need (marks, FR_FORECAST_MARK_OUTER, d);
      gboolean is_there = FALSE;
      for (guint i = 0; i < labels->len; i++)
        {
          const FrLabelBox *box = &g_array_index (labels, FrLabelBox, i);
          double middle = box->x_px + box->width_px / 2, foot = box->y_px + box->height_px;
          is_there
              = is_there
                || (strcmp (box->text, middles[d - 3]) == 0 && foot <= outer->y_px && foot > outer->y_px - 6
                    && fabs (middle - (outer->x_px + outer->width_px / 2)) < 1);
        }
      g_assert_true (is_there);
      g_assert_cmpfloat (outer->width_px, <, l.day_px);
    }
}

/* 0 °C is 32 °F, 7 °C is 44.6 °F and 19 L are 5.02 US gallons: NIST SP 811 (2008), appendix B. */
static void
test_units (void)
{
  static const char *const words[] = { "32", "°F", "45", "5" };
  const FrUnits units = { .system = FR_SYSTEM_US, .decimal_mark = '.' };
  Forecast f;
  g_autoptr (GArray) labels = fr_label_list_new ();

  forecast_fill (&f);
  f.chart.units = &units;
  forecast_draw (&f.chart, light, 1000, 460, 1, labels, NULL, NULL, NULL);
  need_words (labels, words, G_N_ELEMENTS (words));
  g_assert_false (stage_has_label (labels, "+10") || stage_has_label (labels, "24")
                  || stage_has_label (labels, "°C"));
}

/* The columns are equal, side by side, fill the plot and are found again from any point in them. */
static void
test_hit (void)
{
  Forecast f;

  forecast_fill (&f);
  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      FrDate date;
      FrForecastLane lane;
      FrForecastChartLayout l
          = forecast_draw (&f.chart, light, sizes[i][0], sizes[i][1], 1, NULL, NULL, NULL, NULL);
      double wide = l.plot_width_px / FORECAST_DAYS, above = 0;
      for (guint d = 0; d < FORECAST_DAYS; d++)
        {
          FrDate here = { 2026, 3, 9 + (gint)d };
          cairo_rectangle_t box;
          g_assert_true (fr_forecast_chart_column (&l, here, &box));
          g_assert_cmpfloat_with_epsilon (box.x, l.plot_x_px + d * wide, 1e-6);
          g_assert_cmpfloat_with_epsilon (box.width, wide, 1e-9);
          for (double part = 0.02; part < 1; part += 0.24)
            {
              g_assert_true (fr_forecast_chart_at (&l, l.plot_x_px + (d + part) * wide, 90, &date, NULL));
              g_assert_cmpint (fr_date_compare (date, here), ==, 0);
            }
        }
      for (guint k = 0; k < FR_N_FORECAST_LANES; k++)
        {
          g_assert_cmpfloat (l.lanes[k].height_px, >, 0);
          g_assert_cmpfloat (l.lanes[k].y_px, >, above);
          above = l.lanes[k].y_px + l.lanes[k].height_px;
          g_assert_true (fr_forecast_chart_at (&l, l.plot_x_px + 30, l.lanes[k].y_px + 3, &date, &lane));
          g_assert_cmpuint (lane, ==, k);
          g_assert_true (fr_forecast_chart_at (&l, l.plot_x_px + 30, l.lanes[k].y_px - 2, &date, &lane));
          g_assert_cmpuint (lane, ==, FR_N_FORECAST_LANES);
        }
      g_assert_cmpfloat (above, <, sizes[i][1]);
      g_assert_true (fr_forecast_chart_at (&l, l.plot_x_px - 5, 90, &date, NULL));
      g_assert_cmpint (date.day, ==, 9);
      g_assert_true (fr_forecast_chart_at (&l, l.plot_x_px + l.plot_width_px + 5, 90, &date, NULL));
      g_assert_cmpint (date.day, ==, 19);
      g_assert_false (fr_forecast_chart_at (&l, l.plot_x_px - 7, 90, &date, NULL));
      g_assert_false (fr_forecast_chart_at (&l, NAN, 90, &date, NULL));
      g_assert_false (fr_forecast_chart_column (&l, (FrDate){ 2026, 3, 20 }, &(cairo_rectangle_t){ 0 }));
      g_assert_false (fr_forecast_chart_column (&l, (FrDate){ 0 }, &(cairo_rectangle_t){ 0 }));
    }
}

/* y of a number of litres by the straight line through the ground and the largest capsule's end, 30 L. */
static double
litres_y (const FrForecastChartLayout *l, double top_px, double volume_l)
{
  double foot = l->lanes[FR_FORECAST_LANE_LITRES].y_px + l->lanes[FR_FORECAST_LANE_LITRES].height_px;

  return foot + volume_l / 30 * (top_px - foot);
}

/* All ends of capsules and bars lie on one straight scale; chances are parts of one width. */
static void
test_proportion (void)
{
  Forecast f;

  forecast_fill (&f);
  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autoptr (GArray) marks = g_array_new (FALSE, FALSE, sizeof (FrForecastMark));
      FrForecastChartLayout l
          = forecast_draw (&f.chart, light, sizes[i][0], sizes[i][1], 1, NULL, marks, NULL, NULL);
      double top = forecast_need (marks, FR_FORECAST_MARK_OUTER, 4)->y_px;
      double whole = forecast_need (marks, FR_FORECAST_MARK_CHANCE, 4)->width_px / 0.91;
      for (guint d = 0; d < FORECAST_DAYS; d++)
        {
          const FrForecastMark *outer = forecast_need (marks, FR_FORECAST_MARK_OUTER, d),
                               *inner = forecast_need (marks, FR_FORECAST_MARK_INNER, d),
                               *middle = forecast_need (marks, FR_FORECAST_MARK_MIDDLE, d),
                               *chance = forecast_need (marks, FR_FORECAST_MARK_CHANCE, d);
          const FrLitres *b = &f.days[d].bush;
          double centre = l.plot_x_px + (d + 0.5) * l.day_px;
          g_assert_cmpfloat_with_epsilon (outer->x_px + outer->width_px / 2, centre, 1e-6);
          g_assert_cmpfloat_with_epsilon (inner->x_px + inner->width_px / 2, centre, 1e-6);
          g_assert_cmpfloat_with_epsilon (middle->x_px + middle->width_px / 2, centre, 1e-6);
          g_assert_cmpfloat_with_epsilon (outer->y_px, litres_y (&l, top, b->hi_l), 1e-6);
          g_assert_cmpfloat_with_epsilon (outer->y_px + outer->height_px, litres_y (&l, top, b->lo_l), 1e-6);
          g_assert_cmpfloat_with_epsilon (inner->y_px, litres_y (&l, top, b->quarter_hi_l), 1e-6);
          g_assert_cmpfloat_with_epsilon (inner->y_px + inner->height_px, litres_y (&l, top, b->quarter_lo_l),
                                          1e-6);
          g_assert_cmpfloat_with_epsilon (middle->y_px, litres_y (&l, top, b->middle_l), 1e-6);
          g_assert_cmpfloat (inner->width_px, <, outer->width_px);
          g_assert_cmpfloat (middle->width_px, >, outer->width_px);
          g_assert_cmpfloat_with_epsilon (chance->width_px, whole * f.days[d].run_probability, 1e-6);
        }
      /* 1.25 L a tap of 14 taps over two days is 8.75 L on each of them; 1.5 L of one day is 21 L. */
      for (guint d = 0; d < FORECAST_DAYS; d++)
        {
          const FrForecastMark *bar = forecast_find (marks, FR_FORECAST_MARK_GATHERED, d);
          g_assert_true ((bar != NULL) == (d < 3));
          if (bar != NULL)
            g_assert_cmpfloat_with_epsilon (bar->y_px, litres_y (&l, top, d < 2 ? 8.75 : 21), 1e-6);
        }
    }
}

/* Per tap the same bars against a fourteenth of the scale. */
static void
test_per_tap (void)
{
  Forecast f;
  g_autoptr (GArray) marks = g_array_new (FALSE, FALSE, sizeof (FrForecastMark));
  g_autoptr (GArray) same = g_array_new (FALSE, FALSE, sizeof (FrForecastMark));
  g_autoptr (GArray) labels = fr_label_list_new ();

  forecast_fill (&f);
  forecast_draw (&f.chart, light, 1000, 460, 1, NULL, marks, NULL, NULL);
  f.chart.is_per_tap = TRUE;
  forecast_draw (&f.chart, light, 1000, 460, 1, labels, same, NULL, NULL);
  g_assert_cmpuint (marks->len, ==, same->len);
  for (guint i = 0; i < marks->len; i++)
    g_assert_cmpfloat_with_epsilon (g_array_index (marks, FrForecastMark, i).y_px,
                                    g_array_index (same, FrForecastMark, i).y_px, 1e-6);
  /* 19 L of 14 taps. */
  g_assert_true (stage_has_label (labels, "1.4") && stage_has_label (labels, "1.5"));
}

/* Hours above 1 °C: between a low and a high a cosine runs, so it passes 1 °C at the arc cosine. */
static void
test_running (void)
{
  Forecast f;
  g_autoptr (GArray) marks = g_array_new (FALSE, FALSE, sizeof (FrForecastMark));

  forecast_fill (&f);
  FrForecastChartLayout l = forecast_draw (&f.chart, light, 1280, 500, 1, NULL, marks, NULL, NULL);
  for (guint d = 3; d < 5; d++)
    {
      double low, high, next, unused;
      forecast_extremes (d, &low, &high);
      forecast_extremes (d + 1, &next, &unused);
      /* Up from 06:00 to 15:00, down from then to 06:00. */
      double from = 24.0 * d + 6 + 9 * acos (1 - 2 * (1 - low) / (high - low)) / G_PI;
      double to = 24.0 * d + 15 + 15 * acos (1 - 2 * (1 - high) / (next - high)) / G_PI;
      const FrForecastMark *bar = forecast_need (marks, FR_FORECAST_MARK_RUNNING, d);
      /* The hours are joined by straight lines: a few minutes. */
      g_assert_cmpfloat_with_epsilon ((bar->x_px - l.plot_x_px) / l.day_px * 24, from, 0.1);
      g_assert_cmpfloat_with_epsilon ((bar->x_px + bar->width_px - l.plot_x_px) / l.day_px * 24, to, 0.1);
    }
  /* Tuesday 17 stays under it. */
  g_assert_null (forecast_find (marks, FR_FORECAST_MARK_RUNNING, 8));
  const FrForecastMark *now = forecast_need (marks, FR_FORECAST_MARK_NOW, 2);
  g_assert_cmpfloat_with_epsilon ((now->x_px - l.plot_x_px) / l.day_px, 2 + 18.5 / 24, 1e-9);
}

/* Frost has its colour and thaw its own, never on the other side of the line. */
static void
test_colours (void)
{
  Forecast f;
  cairo_surface_t *image;

  forecast_fill (&f);
  f.chart.now_h = NAN;
  FrForecastChartLayout l = forecast_draw (&f.chart, light, 1280, 500, 1, NULL, NULL, NULL, &image);
  for (guint d = 1; d < 3; d++)
    for (gint h = -1; h <= 1; h++)
      {
        g_assert_cmpuint (
            forecast_column_count (image, &l, FR_FORECAST_LANE_AIR, 24 * d + 6 + h, &light, FR_ROLE_FREEZE),
            >, 0);
        g_assert_cmpuint (
            forecast_column_count (image, &l, FR_FORECAST_LANE_AIR, 24 * d + 6 + h, &light, FR_ROLE_THAW), ==,
            0);
        g_assert_cmpuint (
            forecast_column_count (image, &l, FR_FORECAST_LANE_AIR, 24 * d + 14 + h, &light, FR_ROLE_THAW), >,
            0);
        g_assert_cmpuint (
            forecast_column_count (image, &l, FR_FORECAST_LANE_AIR, 24 * d + 14 + h, &light, FR_ROLE_FREEZE),
            ==, 0);
      }
  cairo_surface_destroy (image);
}

/* Observed and forecast air, litres gathered and expected, told by the forecast and by past seasons: apart
 * without colour. */
static void
test_grey (void)
{
  for (guint theme = 0; theme < FR_N_THEMES; theme++)
    {
      FrPalette palette = { (FrTheme)theme, FALSE };
      cairo_surface_t *images[4];

      for (guint i = 0; i < 4; i++)
        {
          Forecast f;
          forecast_fill (&f);
          f.chart.now_h = NAN;
          for (guint d = 0; d < FORECAST_DAYS; d++)
            {
              FrForecastDay *day = &f.days[d];
              day->gathered_l = i == 2 ? day->per_tap.hi_l : NAN;
              day->gathered_days = 1;
              if (i == 3)
                day->is_beyond = TRUE;
              if (i == 1)
                day->is_ahead = FALSE;
            }
          if (i == 1)
            f.forecast.as_of = (FrDate){ 2026, 3, 19 };
          forecast_draw (&f.chart, palette, 1000, 460, 1, NULL, NULL, NULL, &images[i]);
        }
      g_assert_cmpuint (stage_differences (images[0], images[1], 25), >, 1500);
      g_assert_cmpuint (stage_differences (images[0], images[2], 50), >, 2000);
      g_assert_cmpuint (stage_differences (images[0], images[3], 20), >, 800);
      for (guint i = 0; i < 4; i++)
        cairo_surface_destroy (images[i]);
    }
}

/* High contrast: the band has an edge of 1.5 px in the colour itself. */
static void
test_high_contrast (void)
{
  Forecast f;
  g_autoptr (GArray) marks = g_array_new (FALSE, FALSE, sizeof (FrForecastMark));
  cairo_surface_t *images[2];
  const FrPalette strong = { FR_THEME_LIGHT, TRUE };

  forecast_fill (&f);
  f.chart.now_h = NAN;
  for (guint i = 0; i < 2; i++)
    forecast_draw (&f.chart, i == 0 ? light : strong, 1000, 460, 1, NULL, i == 0 ? marks : NULL, NULL,
                   &images[i]);
  FrRgba thaw = fr_palette_color (&light, FR_ROLE_THAW);
  /* Inside the bar of a chance its filled part and the rest are apart in grey, in both. */
  for (guint i = 0; i < 2; i++)
    {
      const FrForecastMark *bar = forecast_need (marks, FR_FORECAST_MARK_CHANCE, 3);
      int y = (int)(bar->y_px + bar->height_px / 2), end = (int)(bar->x_px + bar->width_px);
      g_assert_cmpfloat (stage_grey (images[i], end + 3, y) - stage_grey (images[i], end - 3, y), >, 90);
    }
  g_assert_cmpuint (stage_count (images[1], thaw, 20), >, 13 * stage_count (images[0], thaw, 20) / 10);
  for (guint i = 0; i < 2; i++)
    cairo_surface_destroy (images[i]);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/forecast/everywhere", test_everywhere);
  g_test_add_func ("/forecast/words", test_words);
  g_test_add_func ("/forecast/narrow", test_narrow);
  g_test_add_func ("/forecast/units", test_units);
  g_test_add_func ("/forecast/hit", test_hit);
  g_test_add_func ("/forecast/proportion", test_proportion);
  g_test_add_func ("/forecast/per-tap", test_per_tap);
  g_test_add_func ("/forecast/running", test_running);
  g_test_add_func ("/forecast/colours", test_colours);
  g_test_add_func ("/forecast/grey", test_grey);
  g_test_add_func ("/forecast/high-contrast", test_high_contrast);
  return g_test_run ();
}
