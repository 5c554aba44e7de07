/* The season's picture: nothing outside the area, no word over another or cut, the pointer finds the day it
 * is on, heights in proportion, known and expected apart in grey, and what an odd book may bring. Geometry is
 * checked against formulas written apart here. With FROSTRUN_PICTURES set to a folder the pictures are kept
 * there to be looked at. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "paint/season-private.h"
#include "season.h"
#include "stage.h"

static const int sizes[][2] = { { 560, 460 }, { 724, 658 }, { 1000, 560 }, { 1600, 900 } };
static const double scales[] = { 1, 1.25, 1.5, 2 };

static FrSeasonLayout
draw (const FrSeasonStrip *strip, FrPalette palette, int width, int height, double scale, GArray *labels,
      const char *picture, cairo_surface_t **image_out)
{
  PangoContext *context = stage_context ();
  cairo_surface_t *recording = stage_recording ();
  cairo_t *cr = cairo_create (recording);
  g_autofree char *what
      = g_strdup_printf ("%s %d × %d, text %g, theme %d", picture != NULL ? picture : "season", width, height,
                         scale, palette.theme);
  g_autofree char *file = g_strdup_printf ("%s-%dx%d-%g-%d%s.png", picture, width, height, scale,
                                           palette.theme, palette.high_contrast ? "-hc" : "");
  g_autoptr (GArray) own = fr_label_list_new ();
  FrSeasonLayout layout = fr_season_strip_draw (cr, context, &palette, strip, width, height, scale,
                                                labels != NULL ? labels : own);

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
  FrSeasonLayout alone = fr_season_strip_layout (context, strip, width, height, scale);
  g_assert_cmpfloat_with_epsilon (alone.plot_x_px, layout.plot_x_px, 1e-9);
  g_assert_cmpfloat_with_epsilon (alone.lanes[FR_SEASON_LANE_STORE].y_px,
                                  layout.lanes[FR_SEASON_LANE_STORE].y_px, 1e-9);
  cairo_surface_destroy (recording);
  g_object_unref (context);
  return layout;
}

static void
draw_everywhere (const FrSeasonStrip *strip, const char *picture)
{
  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    for (guint s = 0; s < G_N_ELEMENTS (scales); s++)
      for (guint theme = 0; theme < FR_N_THEMES; theme++)
        draw (strip, (FrPalette){ (FrTheme)theme, s == 3 }, sizes[i][0], sizes[i][1], scales[s], NULL,
              picture, NULL);
}

static void
test_everywhere (void)
{
  Season season;

  season_fill (&season, TRUE);
  season.strip.selected = 29;
  season.strip.selected_label = "Sunday 15 March";
  season.strip.is_focused = TRUE;
  season.strip.hovered = 11;
  draw_everywhere (&season.strip, "season-chosen");
  season_fill (&season, FALSE);
  draw_everywhere (&season.strip, "season");
}

static void
need_words (const GArray *labels, const char *const *words, guint n)
{
  for (guint i = 0; i < n; i++)
    if (!stage_has_label (labels, words[i]))
      g_test_fail_printf ("“%s” is missing", words[i]);
}

/* At the size of the page everything that matters has its words. */
static void
test_words (void)
{
  static const char *const words[] = {
    "14 February",
    "March",
    "April",
    "Today",
    "16",
    "Day’s span",
    "°C",
    "Gathered",
    "L a day",
    "In store",
    "Boils",
    "Bottles",
    "Price",
    "¢/kWh",
    "0",
    "+10",
    "−10",
    "31",
    "24",
    "9.4",
    "22",
    "taps set",
    "full",
    "80",
    "expected",
    "expected, 8 in 10 inside",
    "2026",
    "3 planned",
    "20.3",
    "9.8",
    "clocks go forward 8",
    "3 holiday, low all day",
    "116 L in 7 nights",
    "11 bottles of 250 ml",
    "So far",
  };
  Season season;
  g_autoptr (GArray) labels = fr_label_list_new ();

  season_fill (&season, TRUE);
  draw (&season.strip, (FrPalette){ FR_THEME_LIGHT, FALSE }, 724, 658, 1, labels, NULL, NULL);
  need_words (labels, words, G_N_ELEMENTS (words));
  /* Other seasons have no names until a day is pointed at. */
  g_assert_false (stage_has_label (labels, "2025"));
  season.strip.hovered = 20;
  g_array_set_size (labels, 0);
  draw (&season.strip, (FrPalette){ FR_THEME_LIGHT, FALSE }, 724, 658, 1, labels, NULL, NULL);
  g_assert_true (stage_has_label (labels, "2025") && stage_has_label (labels, "2023"));
}

/* 0 °C is 32 °F and 20 L are 5.3 US gallons: NIST SP 811 (2008), appendix B. */
static void
test_units (void)
{
  static const char *const words[] = { "32", "40", "20", "8.2" };
  const FrUnits units = { .system = FR_SYSTEM_US, .decimal_mark = '.' };
  Season season;
  g_autoptr (GArray) labels = fr_label_list_new ();

  season_fill (&season, TRUE);
  season.strip.units = &units;
  draw (&season.strip, (FrPalette){ FR_THEME_LIGHT, FALSE }, 1000, 658, 1, labels, NULL, NULL);
  /* 31 L = 8.19 gal. */
  need_words (labels, words, G_N_ELEMENTS (words));
  g_assert_false (stage_has_label (labels, "+40") || stage_has_label (labels, "31"));
}

/* Everywhere in a day's column is that day; the columns are equal, side by side and fill the plot. */
static void
test_hit (void)
{
  Season season;
  guint day = 999;
  FrSeasonLane lane;

  season_fill (&season, TRUE);
  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      FrSeasonLayout l
          = draw (&season.strip, (FrPalette){ 0, FALSE }, sizes[i][0], sizes[i][1], 1, NULL, NULL, NULL);
      double wide = l.plot_width_px / SEASON_DAYS;
      for (guint d = 0; d < SEASON_DAYS; d++)
        {
          cairo_rectangle_t box;
          g_assert_true (fr_season_layout_day (&l, d, &box));
          g_assert_cmpfloat_with_epsilon (box.x, l.plot_x_px + d * wide, 1e-6);
          g_assert_cmpfloat_with_epsilon (box.width, wide, 1e-9);
          for (double part = 0.02; part < 1; part += 0.24)
            {
              g_assert_true (fr_season_layout_at (&l, l.plot_x_px + (d + part) * wide, 100, &day, NULL));
              g_assert_cmpuint (day, ==, d);
            }
        }
      double above = 0;
      for (guint k = 0; k < FR_N_SEASON_LANES; k++)
        if (l.lanes[k].height_px > 0)
          {
            g_assert_cmpfloat (l.lanes[k].y_px, >, above);
            above = l.lanes[k].y_px + l.lanes[k].height_px;
            g_assert_true (fr_season_layout_at (&l, l.plot_x_px + 30, l.lanes[k].y_px + 3, &day, &lane));
            g_assert_cmpuint (lane, ==, k);
            g_assert_true (fr_season_layout_at (&l, l.plot_x_px + 30, l.lanes[k].y_px - 2, &day, &lane));
            g_assert_cmpuint (lane, ==, FR_N_SEASON_LANES);
          }
      g_assert_cmpfloat (above, <, sizes[i][1]);
      g_assert_true (fr_season_layout_at (&l, l.plot_x_px - 5, 100, &day, &lane) && day == 0);
      g_assert_true (fr_season_layout_at (&l, l.plot_x_px + l.plot_width_px + 5, 100, &day, &lane));
      g_assert_cmpuint (day, ==, SEASON_DAYS - 1);
      g_assert_false (fr_season_layout_at (&l, l.plot_x_px - 7, 100, &day, &lane));
      g_assert_false (fr_season_layout_at (&l, l.plot_x_px + l.plot_width_px + 7, 100, &day, &lane));
      g_assert_false (fr_season_layout_at (&l, NAN, 100, &day, &lane));
      g_assert_false (fr_season_layout_day (&l, SEASON_DAYS, &(cairo_rectangle_t){ 0 }));
    }
}

/* 8 March 2026 has 23 hours: its noon is eleven hours from midnight, and the next day is as wide as all. */
static void
test_moments (void)
{
  Season season;

  season_fill (&season, FALSE);
  FrSeasonLayout l = draw (&season.strip, (FrPalette){ 0, FALSE }, 724, 658, 1, NULL, NULL, NULL);
  const FrSeasonDay *short_day = &season.days[22], *next = &season.days[23];
  g_assert_cmpint (short_day->to_utc - short_day->from_utc, ==, 23 * 3600);
  double x = fr_season_layout_x (&l, &season.view, short_day->from_utc + 11 * 3600);
  g_assert_cmpfloat_with_epsilon ((x - l.plot_x_px) / l.day_px, 22 + 11.0 / 23, 1e-9);
  x = fr_season_layout_x (&l, &season.view, next->from_utc + 6 * 3600);
  g_assert_cmpfloat_with_epsilon ((x - l.plot_x_px) / l.day_px, 23.25, 1e-9);
  g_assert_cmpfloat (fr_season_layout_x (&l, &season.view, 0), ==, l.plot_x_px);
  g_assert_cmpfloat_with_epsilon (fr_season_layout_x (&l, &season.view, G_MAXINT64 / 4),
                                  l.plot_x_px + l.plot_width_px, 1e-9);
}

/* Pixels of a role in a day's column between two heights of the picture. */
static guint
column_count (cairo_surface_t *image, const FrSeasonLayout *l, guint day, FrSeasonLane lane,
              const FrPalette *palette, FrRole role)
{
  FrRgba color = fr_palette_color (palette, role);
  int x = (int)floor (l->plot_x_px + (day + 0.5) * l->day_px);
  guint n = 0;

  for (int y = (int)l->lanes[lane].y_px - 2; y < (int)(l->lanes[lane].y_px + l->lanes[lane].height_px + 2);
       y++)
    {
      guint32 rgb = stage_pixel (image, x, y);
      n += fabs ((double)(rgb >> 16 & 0xff) - 255.0 * (double)color.red) < 12
           && fabs ((double)(rgb >> 8 & 0xff) - 255.0 * (double)color.green) < 12
           && fabs ((double)(rgb & 0xff) - 255.0 * (double)color.blue) < 12;
    }
  return n;
}

/* Heights by counting: 24 L against 17.2 L, and the degrees over and under freezing. */
static void
test_heights (void)
{
  Season season;
  FrPalette palette = { FR_THEME_LIGHT, FALSE };
  cairo_surface_t *image;

  season_fill (&season, FALSE);
  season.strip.n_past = 0;
  FrSeasonLayout l = draw (&season.strip, palette, 1600, 900, 1, NULL, NULL, &image);
  double tall = column_count (image, &l, 17, FR_SEASON_LANE_GATHERED, &palette, FR_ROLE_SAP);
  double low = column_count (image, &l, 16, FR_SEASON_LANE_GATHERED, &palette, FR_ROLE_SAP);
  g_assert_cmpfloat (tall, >, 60);
  g_assert_cmpfloat_with_epsilon (low / tall, 17.2 / 24, 0.03);
  /* Day 25 is wholly over freezing: +1 to +11; day 1 wholly under it: −14 to −5. */
  double thaw = column_count (image, &l, 25, FR_SEASON_LANE_SPAN, &palette, FR_ROLE_THAW);
  double frost = column_count (image, &l, 1, FR_SEASON_LANE_SPAN, &palette, FR_ROLE_FREEZE);
  g_assert_cmpfloat_with_epsilon (thaw / frost, 10.0 / 9, 0.05);
  g_assert_cmpuint (column_count (image, &l, 25, FR_SEASON_LANE_SPAN, &palette, FR_ROLE_FREEZE), ==, 0);
  g_assert_cmpuint (column_count (image, &l, 1, FR_SEASON_LANE_SPAN, &palette, FR_ROLE_THAW), ==, 0);
  /* A crossing day has both, here 5 K under and 7 K over; the freezing line takes a little of each. */
  thaw = column_count (image, &l, 17, FR_SEASON_LANE_SPAN, &palette, FR_ROLE_THAW);
  frost = column_count (image, &l, 17, FR_SEASON_LANE_SPAN, &palette, FR_ROLE_FREEZE);
  g_assert_cmpfloat_with_epsilon (thaw / frost, 7.0 / 5, 0.12);
  cairo_surface_destroy (image);
}

/* First and last row of a column in which anything is drawn, but for the ground. */
static void
column_span (cairo_surface_t *image, const FrSeasonLayout *l, guint day, FrSeasonLane lane, int *first, int *last)
{
  int x = (int)floor (l->plot_x_px + (day + 0.5) * l->day_px);
  int top = (int)l->lanes[lane].y_px, foot = (int)(l->lanes[lane].y_px + l->lanes[lane].height_px) - 3;

  *first = *last = -1;
  for (int y = top; y < foot; y++)
    if (stage_grey (image, x, y) < 215)
      {
        *first = *first < 0 ? y : *first;
        *last = y;
      }
}

/* A day on which 10 to 20 L are expected beside one on which 20 L came: the capsule ends where the bar does and
 * begins at half its height, its middle a bar at three quarters. */
static void
test_expected (void)
{
  Season season;
  FrPalette palette = { FR_THEME_LIGHT, FALSE };
  cairo_surface_t *image;
  int bar[2], capsule[2];

  season_fill (&season, FALSE);
  season.view.today = -1;
  season.strip.n_past = 0;
  season.strip.texts = &(const FrSeasonTexts){ 0 };
  /* Tuesday and Wednesday, with other days bare. */
  for (guint d = 0; d < SEASON_DAYS; d++)
    season.days[d].gathered_l = NAN;
  season.days[60].gathered_l = 20;
  season.days[61].expected_lo_l = 10;
  season.days[61].expected_l = 15;
  season.days[61].expected_hi_l = 20;
  FrSeasonLayout l = draw (&season.strip, palette, 1600, 900, 1, NULL, NULL, &image);
  column_span (image, &l, 60, FR_SEASON_LANE_GATHERED, &bar[0], &bar[1]);
  column_span (image, &l, 61, FR_SEASON_LANE_GATHERED, &capsule[0], &capsule[1]);
  double foot = l.lanes[FR_SEASON_LANE_GATHERED].y_px + l.lanes[FR_SEASON_LANE_GATHERED].height_px;
  double tall = foot - bar[0];
  g_assert_cmpfloat (tall, >, 80);
  g_assert_cmpint (abs (capsule[0] - bar[0]), <=, 1);
  g_assert_cmpfloat_with_epsilon (foot - capsule[1], tall / 2, 3);
  int x = (int)floor (l.plot_x_px + 61.5 * l.day_px), middle = (int)(foot - 0.75 * tall);
  double dark = 255;
  for (int y = middle - 2; y <= middle + 2; y++)
    dark = MIN (dark, stage_grey (image, x, y));
  g_assert_cmpfloat (dark, <, 130);
  g_assert_cmpfloat (stage_grey (image, x, middle + 8), >, 180);
  cairo_surface_destroy (image);
}

/* Known and expected, done and planned, a full store and one that is not: apart without colour. */
static void
test_grey (void)
{
  for (guint theme = 0; theme < FR_N_THEMES; theme++)
    {
      FrPalette palette = { (FrTheme)theme, FALSE };
      Season season;
      cairo_surface_t *images[4];

      for (guint i = 0; i < 4; i++)
        {
          season_fill (&season, FALSE);
          season.view.today = -1;
          for (guint d = 0; d < SEASON_DAYS; d++)
            {
              season.days[d].is_expected_weather = i == 1;
              if (i == 2 && season.days[d].n_boils > 0)
                season.days[d].is_boil_planned = TRUE;
              if (i == 3 && isfinite (season.days[d].gathered_l))
                {
                  season.days[d].expected_lo_l = 0.6 * season.days[d].gathered_l;
                  season.days[d].expected_l = 0.8 * season.days[d].gathered_l;
                  season.days[d].expected_hi_l = season.days[d].gathered_l;
                  season.days[d].gathered_l = NAN;
                }
            }
          season.strip.n_past = 0;
          draw (&season.strip, palette, 1000, 658, 1, NULL, NULL, &images[i]);
        }
      g_assert_cmpuint (stage_differences (images[0], images[1], 50), >, 2000);
      g_assert_cmpuint (stage_differences (images[0], images[2], 50), >, 150);
      g_assert_cmpuint (stage_differences (images[0], images[3], 50), >, 2000);
      for (guint i = 0; i < 4; i++)
        cairo_surface_destroy (images[i]);
    }
}

/* The sums of another season lie on the same day of March, with a leap day between or without one; what came
 * in before the picture begins is in the first. */
static void
test_so_far (void)
{
  const double litres[] = { 5, NAN, 7, 11, 2 };
  const FrSeasonPast leap = { "2024", 2024, { 2024, 2, 27 }, 5, litres };
  FrSeasonView view = season_bare ((FrDate){ 2026, 2, 28 }, 5);
  /* 2024: 27 Feb 5, 28 none, 29 Feb 7, 1 March 11, 2 March 2; 2026 begins on 28 Feb, the day before 1 March.
   */
  const double expected[] = { 12, 23, 25, 25, 25 };
  g_autoptr (GArray) sums = fr_season_so_far (&leap, &view);

  for (guint i = 0; i < 5; i++)
    g_assert_cmpfloat (g_array_index (sums, double, i), ==, expected[i]);

  view.days[0].gathered_l = 0;
  view.days[1].gathered_l = 3;
  view.days[3].gathered_l = 4;
  view.today = 3;
  g_autoptr (GArray) own = fr_season_so_far (NULL, &view);
  g_assert_true (isnan (g_array_index (own, double, 0)));
  g_assert_cmpfloat (g_array_index (own, double, 1), ==, 3);
  g_assert_cmpfloat (g_array_index (own, double, 2), ==, 3);
  g_assert_cmpfloat (g_array_index (own, double, 3), ==, 7);
  g_assert_true (isnan (g_array_index (own, double, 4)));
  g_free (view.days);
}

/* Lower and lower: lanes go in the stated order, none comes back, and at the height asked for all are there.
 */
static void
test_order (void)
{
  static const FrSeasonLane order[] = { FR_SEASON_LANE_SO_FAR, FR_SEASON_LANE_BOTTLES, FR_SEASON_LANE_BOILS,
                                        FR_SEASON_LANE_PRICE, FR_SEASON_LANE_STORE };
  Season season;

  season_fill (&season, TRUE);
  for (guint s = 0; s < G_N_ELEMENTS (scales); s++)
    {
      PangoContext *context = stage_context ();
      guint gone = 0;
      int height = (int)fr_season_strip_least_height_px (scales[s]) + 20;
      FrSeasonLayout l = fr_season_strip_layout (context, &season.strip, 800, height, scales[s]);
      for (guint k = 0; k < FR_N_SEASON_LANES; k++)
        g_assert_cmpfloat (l.lanes[k].height_px, >, 0);
      for (; height > 120; height -= 7)
        {
          l = fr_season_strip_layout (context, &season.strip, 800, height, scales[s]);
          for (guint k = 0; k < gone; k++)
            g_assert_cmpfloat (l.lanes[order[k]].height_px, ==, 0);
          while (gone < G_N_ELEMENTS (order) && l.lanes[order[gone]].height_px <= 0)
            gone++;
          for (guint k = gone; k < G_N_ELEMENTS (order); k++)
            g_assert_cmpfloat (l.lanes[order[k]].height_px, >, 0);
          g_assert_cmpfloat (l.lanes[FR_SEASON_LANE_SPAN].height_px, >, 0);
          g_assert_cmpfloat (l.lanes[FR_SEASON_LANE_GATHERED].height_px, >, 0);
        }
      g_assert_cmpuint (gone, ==, G_N_ELEMENTS (order));
      g_object_unref (context);
    }
}

/* A season without an entry says what would fill it; no day, one, and more than a year. */
static void
test_empty (void)
{
  static const guint lengths[] = { 0, 1, 2, 56, 400 };
  Season season;

  season_fill (&season, FALSE);
  for (guint i = 0; i < G_N_ELEMENTS (lengths); i++)
    {
      FrSeasonView view = season_bare ((FrDate){ 2025, 12, 1 }, lengths[i]);
      FrSeasonStrip strip = season.strip;
      strip.view = &view;
      strip.selected = 0;
      strip.selected_label = "Monday 1 December";
      strip.hovered = (gssize)lengths[i];
      view.today = lengths[i] > 0 ? (gint)lengths[i] / 2 : -1;
      view.now_utc = lengths[i] > 0 ? view.days[view.today].from_utc + 3600 : 0;
      draw_everywhere (&strip, i == 3 ? "season-empty" : NULL);
      g_autoptr (GArray) labels = fr_label_list_new ();
      draw (&strip, (FrPalette){ 0, FALSE }, 1000, 700, 1, labels, NULL, NULL);
      for (guint k = 0; k < FR_N_SEASON_LANES; k++)
        if (season.texts.lanes[k].empty != NULL && k != FR_SEASON_LANE_SO_FAR)
          need_words (labels, &season.texts.lanes[k].empty, 1);
      g_assert_true (stage_has_label (labels, "0") && stage_has_label (labels, "+10"));
      /* With entries on every one of its days. */
      for (guint d = 0; d < lengths[i]; d++)
        {
          view.days[d].low_c = -5 + (gint)d % 3;
          view.days[d].high_c = 4;
          view.days[d].gathered_l = d % 7;
          view.days[d].n_boils = d % 2;
          view.days[d].n_bottles = d % 4;
          view.days[d].taps_set = d % 9 == 0;
          view.days[d].taps_pulled = d % 11 == 0;
        }
      draw_everywhere (&strip, i == 4 ? "season-long" : NULL);
      g_free (view.days);
    }

  /* No text at all. */
  const FrSeasonTexts none = { 0 };
  season.strip.texts = &none;
  draw_everywhere (&season.strip, NULL);
}

static double
odd (GRand *rand)
{
  static const double odds[] = { NAN, INFINITY, -INFINITY, 0, -0.0, -1, 1e-12, 1e12, 1e300, -1e300 };

  return g_rand_int_range (rand, 0, 4) == 0 ? odds[g_rand_int_range (rand, 0, G_N_ELEMENTS (odds))]
                                            : g_rand_double_range (rand, -20, 60);
}

/* Whatever stands in a view: no crash, nothing outside, no word over another. */
static void
test_random (void)
{
  GRand *rand = g_rand_new_with_seed (20260319);

  for (guint run = 0; run < 150; run++)
    {
      Season season;
      guint width = (guint)g_rand_int_range (rand, 40, 1700),
            height = (guint)g_rand_int_range (rand, 40, 1000);
      season_fill (&season, TRUE);
      for (guint d = 0; d < SEASON_DAYS; d++)
        {
          FrSeasonDay *day = &season.days[d];
          day->low_c = odd (rand);
          day->high_c = odd (rand);
          day->is_expected_weather = g_rand_boolean (rand);
          day->gathered_l = odd (rand);
          day->expected_lo_l = odd (rand);
          day->expected_l = odd (rand);
          day->expected_hi_l = odd (rand);
          day->store_l = odd (rand);
          day->n_boils = (guint)g_rand_int_range (rand, 0, 3);
          day->n_bottles = (guint)g_rand_int_range (rand, 0, 2000);
          day->taps_set = g_rand_int_range (rand, 0, 9) == 0;
          day->taps_pulled = g_rand_int_range (rand, 0, 9) == 0;
        }
      for (guint i = 0; i < season.view.n_levels; i++)
        season.levels[i].volume_l = odd (rand);
      for (guint i = 0; i < season.view.n_prices; i++)
        season.prices[i].price_per_kwh = odd (rand);
      season.view.capacity_l = odd (rand);
      season.view.today = g_rand_int_range (rand, -1, SEASON_DAYS);
      season.view.now_utc = season.view.today >= 0
                                ? season.days[season.view.today].from_utc + g_rand_int_range (rand, 0, 86400)
                                : 0;
      season.strip.selected = g_rand_int_range (rand, -2, SEASON_DAYS + 3);
      season.strip.hovered = g_rand_int_range (rand, -2, SEASON_DAYS + 3);
      season.strip.selected_label = "Wednesday 25 March";
      draw (&season.strip, (FrPalette){ (FrTheme)(run % 3), run % 2 }, (int)width, (int)height,
            g_rand_double_range (rand, 0.6, 2.2), NULL, NULL, NULL);
    }
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/season/everywhere", test_everywhere);
  g_test_add_func ("/season/words", test_words);
  g_test_add_func ("/season/units", test_units);
  g_test_add_func ("/season/hit", test_hit);
  g_test_add_func ("/season/moments", test_moments);
  g_test_add_func ("/season/heights", test_heights);
  g_test_add_func ("/season/expected", test_expected);
  g_test_add_func ("/season/grey", test_grey);
  g_test_add_func ("/season/so-far", test_so_far);
  g_test_add_func ("/season/order", test_order);
  g_test_add_func ("/season/empty", test_empty);
  g_test_add_func ("/season/random", test_random);
  return g_test_run ();
}
