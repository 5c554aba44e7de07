/* The season so far and its fan: nothing outside the area, no word over another, ends and steps where their
 * litres are, other seasons on the same day of March, known and expected apart in grey, and odd numbers.
 * Geometry is checked against formulas written apart here. */
#include <math.h>
#include <string.h>

#include "forecast.h"
#include "stage.h"

static const int sizes[][2] = { { 280, 160 }, { 430, 232 }, { 560, 300 }, { 1000, 400 }, { 1600, 500 } };
static const double scales[] = { 1, 1.25, 1.5, 2 };
static const FrPalette light = { FR_THEME_LIGHT, FALSE };

static FrForecastSeasonLayout
draw (const FrForecastSeason *season, FrPalette palette, int width, int height, double scale, GArray *labels,
      const char *picture, cairo_surface_t **image_out)
{
  PangoContext *context = stage_context ();
  cairo_surface_t *recording = stage_recording ();
  cairo_t *cr = cairo_create (recording);
  g_autofree char *what
      = g_strdup_printf ("season %d × %d, text %g, theme %d", width, height, scale, palette.theme);
  g_autofree char *file
      = g_strdup_printf ("%s-%dx%d-%g-%d.png", picture, width, height, scale, palette.theme);
  g_autoptr (GArray) own = fr_label_list_new ();
  FrForecastSeasonLayout layout = fr_forecast_season_draw (cr, context, &palette, season, width, height,
                                                           scale, labels != NULL ? labels : own);

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
  cairo_surface_destroy (recording);
  g_object_unref (context);
  return layout;
}

static void
test_everywhere (void)
{
  for (guint scene = 0; scene < 3; scene++)
    {
      ForecastSeason f;
      forecast_season_fill (&f);
      if (scene == 1)
        f.season.selected = (FrDate){ 2026, 3, 20 };
      if (scene == 2)
        {
          f.season.n_past = 0;
          f.forecast.forecast.n_days = 28;
        }
      for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
        for (guint s = 0; s < G_N_ELEMENTS (scales); s++)
          for (guint theme = 0; theme < FR_N_THEMES; theme++)
            {
              g_autoptr (GArray) labels = fr_label_list_new ();
              FrForecastSeasonLayout l = draw (&f.season, (FrPalette){ (FrTheme)theme, s == 3 }, sizes[i][0],
                                               sizes[i][1], scales[s], labels, "forecast-season", NULL);
              /* Room for all: the middle of the end is always there. 162 L and 200 (1 − e^(−50/16)). */
              if (sizes[i][0] >= 430 * scales[s] && sizes[i][1] >= 200 * scales[s] && scene < 2)
                g_assert_true (stage_has_label (labels, "353 likely"));
              g_assert_cmpuint (l.n_days, ==, FORECAST_SEASON_DAYS);
            }
    }
}

static FrLabelBox *
find (const GArray *labels, const char *text)
{
  for (guint i = 0; i < labels->len; i++)
    if (strcmp (g_array_index (labels, FrLabelBox, i).text, text) == 0)
      return &g_array_index (labels, FrLabelBox, i);
  g_error ("“%s” is missing", text);
}

/* The end numbers stand at their litres, right of the plot, the lowest below; the sum so far at its step. */
static void
test_words (void)
{
  static const char *const words[]
      = { "L in all", "grey: four past seasons", "March", "April", "162", "200", "400" };
  static const struct
  {
    const char *text;
    double share; /* of what is to come, 200 (1 − e^(−50/16)) */
  } ends[] = { { "430", 1.4 }, { "353 likely", 1 }, { "277", 0.6 } };
  ForecastSeason f;
  g_autoptr (GArray) labels = fr_label_list_new ();

  forecast_season_fill (&f);
  FrForecastSeasonLayout l = draw (&f.season, light, 430, 232, 1, labels, NULL, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    find (labels, words[i]);
  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    {
      const FrLabelBox *box = find (labels, ends[i].text);
      double litres = 162 + ends[i].share * 200 * (1 - exp (-50.0 / 16));
      double y = l.plot_y_px + l.plot_height_px * (1 - litres / l.high_l);
      g_assert_cmpfloat_with_epsilon (box->y_px + box->height_px / 2, y, 1);
      g_assert_cmpfloat (box->x_px, >=, l.plot_x_px + l.plot_width_px);
    }
  const FrLabelBox *now = find (labels, "162");
  g_assert_cmpfloat (now->x_px, <, fr_forecast_season_x (&l, (FrDate){ 2026, 3, 11 }));
  g_assert_cmpfloat (now->y_px, <, fr_forecast_season_y (&l, 162));
}

/* Ends too close for their numbers keep a line apart, in order. */
static void
test_close_ends (void)
{
  ForecastSeason f;
  g_autoptr (GArray) labels = fr_label_list_new ();

  forecast_season_fill (&f);
  FrLitres *end = &f.days[FORECAST_SEASON_DAYS - 1].so_far;
  end->lo_l = 351;
  end->middle_l = 352;
  end->hi_l = 354;
  draw (&f.season, light, 430, 232, 1, labels, NULL, NULL);
  g_assert_cmpfloat (find (labels, "354")->y_px, <, find (labels, "352 likely")->y_px);
  g_assert_cmpfloat (find (labels, "352 likely")->y_px, <, find (labels, "351")->y_px);
}

static gboolean
is_near (cairo_surface_t *image, double x_px, double y_px, FrRole role)
{
  FrRgba color = fr_palette_color (&light, role);

  for (int dy = -2; dy <= 2; dy++)
    {
      guint32 rgb = stage_pixel (image, (int)x_px, (int)floor (y_px) + dy);
      if (fabs ((double)(rgb >> 16 & 0xff) - 255.0 * (double)color.red) < 60
          && fabs ((double)(rgb >> 8 & 0xff) - 255.0 * (double)color.green) < 60
          && fabs ((double)(rgb & 0xff) - 255.0 * (double)color.blue) < 60)
        return TRUE;
    }
  return FALSE;
}

/* Steps: between two gatherings the line is level at the sum before. Other seasons: one line for a season
 * that gathered 100 L on 2 March, under a sum that was counted by hand. */
static void
test_lines (void)
{
  static double once[40];
  ForecastSeason f;
  cairo_surface_t *image;
  /* Sums of 0 0 4 0 9 0 6 0 15 0 12 22 0 0 18 24 31 0 0 21 at the ends of days 8, 13 and 18. */
  static const struct
  {
    guint day;
    double sum;
  } steps[] = { { 9, 34 }, { 13, 68 }, { 18, 141 } };

  forecast_season_fill (&f);
  for (guint i = 0; i < 40; i++)
    once[i] = i == 10 ? 100 : NAN;
  f.past[0] = (FrSeasonPast){ "2024", 2024, { 2024, 2, 21 }, 40, once };
  f.season.n_past = 1;
  FrForecastSeasonLayout l = draw (&f.season, light, 1600, 500, 1, NULL, NULL, &image);
  for (guint i = 0; i < G_N_ELEMENTS (steps); i++)
    {
      double x = l.plot_x_px + (steps[i].day + 0.5) * l.plot_width_px / FORECAST_SEASON_DAYS;
      double y = l.plot_y_px + l.plot_height_px * (1 - steps[i].sum / l.high_l);
      g_assert_true (is_near (image, x, y, FR_ROLE_INK));
      g_assert_false (is_near (image, x, y - 20, FR_ROLE_INK));
    }
  /* 21 February and ten days with a leap day are 2 March: in 2026 the eleventh day, level from its end on. */
  double level = l.plot_y_px + l.plot_height_px * (1 - 100 / l.high_l);
  for (guint day = 25; day < 70; day += 9)
    g_assert_true (is_near (image, l.plot_x_px + (day + 0.5) * l.plot_width_px / FORECAST_SEASON_DAYS, level,
                            FR_ROLE_INK_FAINT));
  g_assert_false (
      is_near (image, l.plot_x_px + 9.5 * l.plot_width_px / FORECAST_SEASON_DAYS, level, FR_ROLE_INK_FAINT));
  cairo_surface_destroy (image);
}

static void
test_hit (void)
{
  ForecastSeason f;
  FrDate date;

  forecast_season_fill (&f);
  FrForecastSeasonLayout l = draw (&f.season, light, 430, 232, 1, NULL, NULL, NULL);
  for (guint i = 0; i < FORECAST_SEASON_DAYS; i++)
    {
      FrDate here = fr_date_add_days ((FrDate){ 2026, 2, 20 }, (gint)i);
      g_assert_true (fr_forecast_season_at (
          &l, l.plot_x_px + (i + 0.5) * l.plot_width_px / FORECAST_SEASON_DAYS, &date));
      g_assert_cmpint (fr_date_compare (date, here), ==, 0);
      g_assert_cmpfloat_with_epsilon (fr_forecast_season_x (&l, here),
                                      l.plot_x_px + (i + 1) * l.plot_width_px / FORECAST_SEASON_DAYS, 1e-6);
    }
  g_assert_true (fr_forecast_season_at (&l, l.plot_x_px - 5, &date) && date.day == 20);
  g_assert_false (fr_forecast_season_at (&l, l.plot_x_px - 7, &date));
  g_assert_false (fr_forecast_season_at (&l, NAN, &date));
  g_assert_cmpfloat_with_epsilon (fr_forecast_season_y (&l, 0), l.plot_y_px + l.plot_height_px, 1e-9);
  g_assert_cmpfloat_with_epsilon (fr_forecast_season_y (&l, l.high_l), l.plot_y_px, 1e-9);
}

/* Gathered and expected differ without colour: all known against all to come. */
static void
test_grey (void)
{
  for (guint theme = 0; theme < FR_N_THEMES; theme++)
    {
      cairo_surface_t *images[2];
      for (guint k = 0; k < 2; k++)
        {
          ForecastSeason f;
          forecast_season_fill (&f);
          f.season.n_past = 0;
          for (guint i = 0; i < FORECAST_SEASON_DAYS; i++)
            f.days[i].is_ahead = k == 1;
          draw (&f.season, (FrPalette){ (FrTheme)theme, FALSE }, 560, 300, 1, NULL, NULL, &images[k]);
        }
      g_assert_cmpuint (stage_differences (images[0], images[1], 30), >, 500);
      for (guint k = 0; k < 2; k++)
        cairo_surface_destroy (images[k]);
    }
}

static void
test_states (void)
{
  ForecastSeason f;
  g_autoptr (GArray) labels = fr_label_list_new ();

  forecast_season_fill (&f);
  f.season.forecast = NULL;
  f.season.n_past = 0;
  draw (&f.season, light, 430, 232, 1, labels, NULL, NULL);
  find (labels, f.season.empty);
  find (labels, "March");
  g_assert_false (stage_has_label (labels, "grey: four past seasons"));

  /* Without past seasons the fan ends with the weather and its numbers stand there. */
  forecast_season_fill (&f);
  f.season.n_past = 0;
  f.forecast.forecast.n_days = 28;
  g_array_set_size (labels, 0);
  FrForecastSeasonLayout l = draw (&f.season, light, 560, 300, 1, labels, NULL, NULL);
  double end = fr_forecast_season_x (&l, (FrDate){ 2026, 3, 19 });
  /* 162 + 200 (1 − e^(−8/16)). */
  const FrLabelBox *middle = find (labels, "241 likely");
  g_assert_cmpfloat (middle->x_px, >, end);
  g_assert_cmpfloat (middle->x_px, <, end + 16);

  /* In US gallons 162 L are 42.8: NIST SP 811 (2008), appendix B. */
  const FrUnits units = { .system = FR_SYSTEM_US, .decimal_mark = '.' };
  f.season.units = &units;
  g_array_set_size (labels, 0);
  draw (&f.season, light, 560, 300, 1, labels, NULL, NULL);
  find (labels, "43");
}

static double
odd (GRand *rand)
{
  static const double odds[] = { NAN, INFINITY, -INFINITY, 0, -1, 1e-12, 1e12, 1e300, -1e300 };

  return g_rand_int_range (rand, 0, 5) == 0 ? odds[g_rand_int_range (rand, 0, G_N_ELEMENTS (odds))]
                                            : g_rand_double_range (rand, -20, 400);
}

static void
test_random (void)
{
  GRand *rand = g_rand_new_with_seed (20260313);

  for (guint run = 0; run < 150; run++)
    {
      ForecastSeason f;
      forecast_season_fill (&f);
      for (guint i = 0; i < FORECAST_SEASON_DAYS; i++)
        {
          FrLitres *l = &f.days[i].so_far;
          *l = (FrLitres){ odd (rand), odd (rand), odd (rand), odd (rand), odd (rand), odd (rand) };
          f.days[i].is_ahead = g_rand_int_range (rand, 0, 20) == 0 || i > 30;
          for (guint k = 0; k < FORECAST_PASTS; k++)
            f.past_l[k][i] = odd (rand);
        }
      f.season.last = fr_date_add_days (f.season.first, g_rand_int_range (rand, -3, 120));
      f.season.selected = (FrDate){ 2026, 3, g_rand_int_range (rand, 1, 32) };
      draw (&f.season, (FrPalette){ (FrTheme)(run % 3), run % 2 }, g_rand_int_range (rand, 40, 1600),
            g_rand_int_range (rand, 40, 600), g_rand_double_range (rand, 0.6, 2.2), NULL, NULL, NULL);
    }
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/forecast-season/everywhere", test_everywhere);
  g_test_add_func ("/forecast-season/words", test_words);
  g_test_add_func ("/forecast-season/close-ends", test_close_ends);
  g_test_add_func ("/forecast-season/lines", test_lines);
  g_test_add_func ("/forecast-season/hit", test_hit);
  g_test_add_func ("/forecast-season/grey", test_grey);
  g_test_add_func ("/forecast-season/states", test_states);
  g_test_add_func ("/forecast-season/random", test_random);
  return g_test_run ();
}
