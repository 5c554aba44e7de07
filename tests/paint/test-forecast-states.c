/* The forecast's chart when days are missing, when there are three or none, when not a drop is expected, when
 * there is hardly any room, and what odd numbers may bring. */
#include <math.h>
#include <string.h>

#include "forecast-stage.h"
#include "stage.h"

static const int sizes[][2] = { { 560, 400 }, { 704, 406 }, { 1000, 460 }, { 1280, 500 }, { 1600, 700 } };
static const double scales[] = { 1, 1.25, 1.5, 2 };
static const FrPalette light = { FR_THEME_LIGHT, FALSE };

/* Days without weather leave a gap with words in it; the rest stays; three days; none; not a drop. */
static void
test_states (void)
{
  Forecast f;
  g_autoptr (GArray) labels = fr_label_list_new ();
  g_autoptr (GArray) marks = g_array_new (FALSE, FALSE, sizeof (FrForecastMark));
  cairo_surface_t *image;

  forecast_fill (&f);
  forecast_no_air (&f, 5, 7);
  FrForecastChartLayout l = forecast_draw (&f.chart, light, 1000, 460, 1, labels, marks, NULL, &image);
  g_assert_true (stage_has_label (labels, "no weather known"));
  g_assert_true (stage_has_label (labels, "–"));
  for (guint d = 0; d < FORECAST_DAYS; d++)
    g_assert_true ((forecast_find (marks, FR_FORECAST_MARK_OUTER, d) == NULL) == (d == 5 || d == 6));
  for (guint hour = 24 * 5 + 2; hour < 24 * 7 - 2; hour += 3)
    g_assert_cmpuint (
        forecast_column_count (image, &l, FR_FORECAST_LANE_AIR, hour, &light, FR_ROLE_THAW)
            + forecast_column_count (image, &l, FR_FORECAST_LANE_AIR, hour, &light, FR_ROLE_FREEZE),
        ==, 0);
  cairo_surface_destroy (image);

  forecast_fill (&f);
  forecast_beyond (&f, 8);
  g_array_set_size (labels, 0);
  g_array_set_size (marks, 0);
  forecast_draw (&f.chart, light, 1000, 460, 1, labels, marks, NULL, NULL);
  g_assert_true (stage_has_label (labels, "as in past seasons"));
  for (guint d = 0; d < FORECAST_DAYS; d++)
    g_assert_true ((forecast_find (marks, FR_FORECAST_MARK_SPAN, d) != NULL) == (d >= 8));
  /* Without their lows and highs the words alone. */
  for (guint d = 8; d < FORECAST_DAYS; d++)
    f.days[d].low_lo_c = f.days[d].high_hi_c = NAN;
  g_array_set_size (labels, 0);
  g_array_set_size (marks, 0);
  forecast_draw (&f.chart, light, 1000, 460, 1, labels, marks, NULL, NULL);
  g_assert_true (stage_has_label (labels, "as in past seasons"));
  g_assert_null (forecast_find (marks, FR_FORECAST_MARK_SPAN, 9));
  g_assert_nonnull (forecast_find (marks, FR_FORECAST_MARK_OUTER, 9));

  forecast_fill (&f);
  f.chart.first = (FrDate){ 2026, 3, 11 };
  f.chart.n_days = 3;
  f.texts.heads = f.heads + 2;
  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    for (guint s = 0; s < G_N_ELEMENTS (scales); s++)
      forecast_draw (&f.chart, light, sizes[i][0], sizes[i][1], scales[s], NULL, NULL, "forecast-three",
                     NULL);

  forecast_fill (&f);
  f.chart.forecast = NULL;
  f.chart.air = NULL;
  g_array_set_size (labels, 0);
  g_array_set_size (marks, 0);
  forecast_draw (&f.chart, light, 704, 406, 1, labels, marks, "forecast-empty", NULL);
  g_assert_true (stage_has_label (labels, f.texts.empty));
  g_assert_true (stage_has_label (labels, "+10") && stage_has_label (labels, "Fri 13"));
  g_assert_false (stage_has_label (labels, "no weather known"));
  g_assert_null (forecast_find (marks, FR_FORECAST_MARK_OUTER, 4));

  forecast_fill (&f);
  for (guint d = 0; d < FORECAST_DAYS; d++)
    {
      f.days[d].bush = (FrLitres){ 0, 0, 0, 0, 0, 0 };
      f.days[d].run_probability = 0;
      f.days[d].gathered_l = NAN;
    }
  g_array_set_size (labels, 0);
  forecast_draw (&f.chart, light, 704, 406, 1, labels, NULL, "forecast-zero", NULL);
  g_assert_true (stage_has_label (labels, "No run expected in these days."));
  g_assert_true (stage_has_label (labels, "0\u00a0%") && stage_has_label (labels, "0"));

  f.chart.n_days = 0;
  forecast_draw (&f.chart, light, 704, 406, 1, NULL, NULL, NULL, NULL);
}

/* At the height asked for all lanes are there; lower, the chance goes first, then the litres, and none comes
 * back. */
static void
test_order (void)
{
  static const FrForecastLane order[]
      = { FR_FORECAST_LANE_CHANCE, FR_FORECAST_LANE_LITRES, FR_FORECAST_LANE_AIR };
  Forecast f;

  forecast_fill (&f);
  for (guint s = 0; s < G_N_ELEMENTS (scales); s++)
    {
      PangoContext *context = stage_context ();
      guint gone = 0;
      int height = (int)fr_forecast_chart_least_height_px (scales[s]);
      FrForecastChartLayout l = fr_forecast_chart_layout (context, &f.chart, 800, height, scales[s]);
      for (guint k = 0; k < FR_N_FORECAST_LANES; k++)
        g_assert_cmpfloat (l.lanes[k].height_px, >, 0);
      for (; height > 0; height -= 5)
        {
          l = forecast_draw (&f.chart, light, 800, height, scales[s], NULL, NULL, NULL, NULL);
          for (guint k = 0; k < gone; k++)
            g_assert_cmpfloat (l.lanes[order[k]].height_px, ==, 0);
          while (gone < G_N_ELEMENTS (order) && l.lanes[order[gone]].height_px <= 0)
            gone++;
          for (guint k = gone; k < G_N_ELEMENTS (order); k++)
            g_assert_cmpfloat (l.lanes[order[k]].height_px, >, 0);
        }
      g_assert_cmpuint (gone, ==, G_N_ELEMENTS (order));
      g_object_unref (context);
    }
}

static double
odd (GRand *rand)
{
  static const double odds[] = { NAN, INFINITY, -INFINITY, 0, -0.0, -1, 1e-12, 1e12, 1e300, -1e300 };

  return g_rand_int_range (rand, 0, 4) == 0 ? odds[g_rand_int_range (rand, 0, G_N_ELEMENTS (odds))]
                                            : g_rand_double_range (rand, -20, 60);
}

static void
test_random (void)
{
  GRand *rand = g_rand_new_with_seed (20260312);

  for (guint run = 0; run < 150; run++)
    {
      Forecast f;
      forecast_fill (&f);
      for (guint d = 0; d < FORECAST_DAYS; d++)
        {
          FrForecastDay *day = &f.days[d];
          double *numbers[]
              = { &day->low_c,         &day->low_lo_c,          &day->low_hi_c,          &day->high_c,
                  &day->high_lo_c,     &day->high_hi_c,         &day->bush.lo_l,         &day->bush.hi_l,
                  &day->bush.middle_l, &day->bush.quarter_lo_l, &day->bush.quarter_hi_l, &day->gathered_l,
                  &day->gathered_days };
          for (guint k = 0; k < G_N_ELEMENTS (numbers); k++)
            *numbers[k] = odd (rand);
          day->run_probability = g_rand_boolean (rand) ? odd (rand) : g_rand_double (rand);
          day->is_beyond = g_rand_int_range (rand, 0, 4) == 0;
          day->is_ahead = g_rand_boolean (rand);
        }
      for (guint k = 0; k < FORECAST_HOURS; k++)
        if (g_rand_int_range (rand, 0, 20) == 0)
          f.temp_c[k] = odd (rand);
      f.air.n_hours = (guint)g_rand_int_range (rand, 0, FORECAST_HOURS + 1);
      f.chart.first = (FrDate){ 2026, 3, g_rand_int_range (rand, 1, 20) };
      f.chart.n_days = (guint)g_rand_int_range (rand, 0, FORECAST_DAYS + 1);
      f.chart.gather_hour = g_rand_int_range (rand, -1, 24);
      f.chart.now_h = odd (rand);
      f.forecast.n_taps = (guint)g_rand_int_range (rand, 0, 3) * 1000000u;
      f.chart.selected = (FrDate){ 2026, 3, g_rand_int_range (rand, 1, 30) };
      f.chart.hovered = (FrDate){ 2026, 3, g_rand_int_range (rand, 1, 30) };
      f.chart.is_focused = g_rand_boolean (rand);
      if (g_rand_int_range (rand, 0, 5) == 0)
        f.texts = (FrForecastChartTexts){ 0 };
      forecast_draw (&f.chart, (FrPalette){ (FrTheme)(run % 3), run % 2 }, g_rand_int_range (rand, 60, 1600),
                     g_rand_int_range (rand, 60, 900), g_rand_double_range (rand, 0.6, 2.2), NULL, NULL, NULL,
                     NULL);
    }
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/forecast-states/states", test_states);
  g_test_add_func ("/forecast-states/order", test_order);
  g_test_add_func ("/forecast-states/random", test_random);
  return g_test_run ();
}
