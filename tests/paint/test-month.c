/* A month's cells: the day under the pointer, the order in which things are left out, words whole and apart
 * at every size, and known and expected apart in grey. Where a day stands is checked against GLib's own
 * calendar. */
#include <math.h>
#include <string.h>

#include "paint/month.h"
#include "season.h"
#include "stage.h"

static const int sizes[][2] = { { 300, 260 }, { 560, 420 }, { 728, 600 }, { 1100, 760 } };
static const double scales[] = { 1, 1.25, 1.5, 2 };
static const char *const weekdays[] = { "Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun" };
static const FrMonthWord words[] = { { { 2026, 3, 8 }, "clocks go forward" },
                                     { { 2026, 3, 27 }, "holiday, low all day" },
                                     { { 2026, 4, 3 }, "holiday, low all day" } };

static FrMonth
march (const Season *season)
{
  return (FrMonth){ .year = 2026,
                    .month = 3,
                    .first_weekday = 7,
                    .view = &season->view,
                    .weekdays = weekdays,
                    .words = words,
                    .n_words = G_N_ELEMENTS (words),
                    .today = { 2026, 3, 19 } };
}

static FrMonthLayout
draw (const FrMonth *month, FrPalette palette, int width, int height, double scale, GArray *labels,
      const char *picture, cairo_surface_t **image_out)
{
  PangoContext *context = stage_context ();
  cairo_surface_t *recording = stage_recording ();
  cairo_t *cr = cairo_create (recording);
  g_autofree char *what
      = g_strdup_printf ("%d-%02d %d × %d, text %g", month->year, month->month, width, height, scale);
  g_autofree char *file = g_strdup_printf ("%s-%dx%d-%g-%d%s.png", picture, width, height, scale,
                                           palette.theme, palette.high_contrast ? "-hc" : "");
  g_autoptr (GArray) own = fr_label_list_new ();
  FrMonthLayout layout
      = fr_month_draw (cr, context, &palette, month, width, height, scale, labels != NULL ? labels : own);

  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  stage_check_ink (recording, width, height, what);
  stage_check_labels (labels != NULL ? labels : own, width, height, what);
  cairo_surface_t *image = stage_develop (recording, &palette, FR_ROLE_WINDOW, width, height);
  if (picture != NULL)
    stage_keep (image, file);
  if (image_out != NULL)
    *image_out = cairo_surface_reference (image);
  cairo_surface_destroy (image);
  FrMonthLayout alone = fr_month_layout (context, month, width, height, scale);
  g_assert_cmpmem (&alone, sizeof alone, &layout, sizeof layout);
  cairo_surface_destroy (recording);
  g_object_unref (context);
  return layout;
}

static void
test_everywhere (void)
{
  Season season;

  season_fill (&season, TRUE);
  for (guint m = 2; m <= 4; m++)
    for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
      for (guint s = 0; s < G_N_ELEMENTS (scales); s++)
        for (guint theme = 0; theme < FR_N_THEMES; theme++)
          {
            FrMonth month = march (&season);
            month.month = (gint)m;
            month.selected = (FrDate){ 2026, 3, 16 };
            month.hovered = (FrDate){ 2026, 3, 4 };
            month.is_focused = TRUE;
            draw (&month, (FrPalette){ (FrTheme)theme, s == 3 }, sizes[i][0], sizes[i][1], scales[s], NULL,
                  m == 3 ? "month" : NULL, NULL);
          }
}

/* Column and week of each day, by GLib's weekday; the days of two centuries of Februaries and all months
 * between. */
static void
test_places (void)
{
  for (gint year = 1999; year < 2031; year++)
    for (gint m = 1; m <= 12; m++)
      {
        gint first = 1 + (year * 12 + m) % 7;
        FrMonth month = { .year = year, .month = m, .first_weekday = first, .right_to_left = m % 2 == 0 };
        FrMonthLayout l = draw (&month, (FrPalette){ 0, FALSE }, 700, 600, 1, NULL, NULL, NULL);
        guint n = g_date_get_days_in_month ((GDateMonth)m, (GDateYear)year), week = 0;

        g_assert_cmpuint (l.n_days, ==, n);
        for (guint d = 1; d <= n; d++)
          {
            g_autoptr (GDate) date = g_date_new_dmy ((GDateDay)d, (GDateMonth)m, (GDateYear)year);
            gint column = ((gint)g_date_get_weekday (date) - first + 7) % 7;
            FrDate found = { 0, 0, 0 };
            cairo_rectangle_t cell;

            if (column == 0 && d > 1)
              week++;
            if (month.right_to_left)
              column = 6 - column;
            g_assert_true (fr_month_layout_cell (&l, (FrDate){ year, m, (gint)d }, &cell));
            g_assert_cmpfloat_with_epsilon (cell.x, l.x_px + column * (l.cell_width_px + l.gap_px), 1e-9);
            g_assert_cmpfloat_with_epsilon (cell.y, l.row_y_px[week], 1e-9);
            g_assert_true (fr_month_layout_at (&l, cell.x + 1, cell.y + 1, &found));
            g_assert_cmpint (found.day, ==, (gint)d);
            g_assert_true (
                fr_month_layout_at (&l, cell.x + cell.width - 1, cell.y + cell.height - 1, &found));
            g_assert_cmpint (found.day, ==, (gint)d);
            g_assert_false (fr_month_layout_at (&l, cell.x + cell.width + 1, cell.y + 1, &found));
          }
        g_assert_cmpuint (l.n_weeks, ==, week + 1);
        g_assert_false (fr_month_layout_at (&l, -1, 20, &(FrDate){ 0 }));
        g_assert_false (fr_month_layout_at (&l, NAN, NAN, &(FrDate){ 0 }));
        g_assert_false (
            fr_month_layout_cell (&l, (FrDate){ year, m, (gint)n + 1 }, &(cairo_rectangle_t){ 0 }));
        g_assert_false (fr_month_layout_cell (&l, (FrDate){ year + 1, m, 1 }, &(cairo_rectangle_t){ 0 }));
      }
}

static void
test_words (void)
{
  static const char *const needed[]
      = { "Sun", "Sat", "1", "31", "19", "24 L", "31 L", "8–22", "11–30", "−8", "12", "clocks go forward" };
  Season season;
  g_autoptr (GArray) labels = fr_label_list_new ();

  season_fill (&season, TRUE);
  FrMonth month = march (&season);
  draw (&month, (FrPalette){ 0, FALSE }, 7 * (FR_MONTH_CELL_WIDTH_PX + 8), 640, 1, labels, NULL, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (needed); i++)
    if (!stage_has_label (labels, needed[i]))
      g_test_fail_printf ("“%s” is missing", needed[i]);
  /* Those of the month before are not here, nor a day on which nothing came in. */
  g_assert_false (stage_has_label (labels, "0 L"));
  g_assert_false (stage_has_label (labels, "9.4 L"));

  /* Of two taps a day's litres are few: whole numbers would say "0–2". */
  season.days[34].expected_lo_l = 0.3;
  season.days[34].expected_hi_l = 1.6;
  g_array_set_size (labels, 0);
  draw (&month, (FrPalette){ 0, FALSE }, 1000, 640, 1, labels, NULL, NULL);
  g_assert_true (stage_has_label (labels, "0.3–1.6") && stage_has_label (labels, "11–30"));

  const FrUnits units = { .system = FR_SYSTEM_US, .decimal_mark = '.' };
  month.units = &units;
  g_array_set_size (labels, 0);
  draw (&month, (FrPalette){ 0, FALSE }, 1000, 640, 1, labels, NULL, NULL);
  /* 24 L are 6.34 US gallons, −8 °C are 17.6 °F. */
  g_assert_true (stage_has_label (labels, "6.3 gal") && stage_has_label (labels, "18"));
}

static guint
count_role (cairo_surface_t *image, FrTheme theme, FrRole role)
{
  FrPalette palette = { theme, FALSE };

  return stage_count (image, fr_palette_color (&palette, role), 4);
}

/* Lower cells: first the temperatures, then the marks, then the pill; narrower: the unit, then the litres.
 * The dates stay. */
static void
test_order (void)
{
  Season season;
  gboolean had_numbers = TRUE, had_marks = TRUE, had_pill = TRUE, had_unit = TRUE, had_litres = TRUE;

  season_fill (&season, TRUE);
  FrMonth month = march (&season);
  month.n_words = 0;
  for (int height = 620; height > 170; height -= 15)
    {
      g_autoptr (GArray) labels = fr_label_list_new ();
      cairo_surface_t *image;
      draw (&month, (FrPalette){ 0, FALSE }, 760, height, 1, labels, NULL, &image);
      gboolean numbers = stage_has_label (labels, "−8"), marks = count_role (image, 0, FR_ROLE_SYRUP) > 100,
               pill = count_role (image, 0, FR_ROLE_FREEZE) > 200;
      g_assert_true (stage_has_label (labels, "19") && stage_has_label (labels, "31"));
      g_assert_true (stage_has_label (labels, "24 L"));
      g_assert_true (had_numbers || !numbers);
      g_assert_true (had_marks || !marks);
      g_assert_true (had_pill || !pill);
      g_assert_true (marks || !numbers);
      g_assert_true (pill || !marks);
      had_numbers = numbers;
      had_marks = marks;
      had_pill = pill;
      cairo_surface_destroy (image);
    }
  g_assert_false (had_numbers || had_marks || had_pill);
  for (int width = 760; width > 200; width -= 20)
    {
      g_autoptr (GArray) labels = fr_label_list_new ();
      draw (&month, (FrPalette){ 0, FALSE }, width, 620, 1, labels, NULL, NULL);
      gboolean unit = stage_has_label (labels, "24 L"), litres = unit || stage_has_label (labels, "24");
      g_assert_true (stage_has_label (labels, "19"));
      g_assert_true (had_unit || !unit);
      /* The 24th has its date too: counted. */
      guint n = 0;
      for (guint i = 0; i < labels->len; i++)
        n += strcmp (g_array_index (labels, FrLabelBox, i).text, "24") == 0;
      litres = unit || n == 2;
      g_assert_true (had_litres || !litres);
      had_unit = unit;
      had_litres = litres;
    }
  g_assert_false (had_unit || had_litres);
}

/* Seen and expected, boiled and planned, a day that is selected, under the pointer, or today: apart without
 * colour. */
static void
test_grey (void)
{
  for (guint theme = 0; theme < FR_N_THEMES; theme++)
    {
      cairo_surface_t *images[6];
      for (guint i = 0; i < 6; i++)
        {
          Season season;
          season_fill (&season, FALSE);
          FrMonth month = march (&season);
          month.today = (FrDate){ 0, 0, 0 };
          for (guint d = 0; d < SEASON_DAYS; d++)
            {
              season.days[d].is_expected_weather = i == 1;
              if (i == 2 && season.days[d].n_boils > 0)
                season.days[d].is_boil_planned = TRUE;
            }
          if (i == 3)
            month.selected = (FrDate){ 2026, 3, 10 };
          if (i == 4)
            month.hovered = (FrDate){ 2026, 3, 10 };
          if (i == 5)
            month.today = (FrDate){ 2026, 3, 10 };
          draw (&month, (FrPalette){ (FrTheme)theme, FALSE }, 1000, 700, 1, NULL, NULL, &images[i]);
        }
      g_assert_cmpuint (stage_differences (images[0], images[1], 40), >, 2000);
      g_assert_cmpuint (stage_differences (images[0], images[2], 40), >, 150);
      g_assert_cmpuint (stage_differences (images[0], images[3], 40), >, 300);
      g_assert_cmpuint (stage_differences (images[0], images[4], 40), >, 100);
      g_assert_cmpuint (stage_differences (images[0], images[5], 40), >, 200);
      g_assert_cmpuint (stage_differences (images[3], images[4], 10), >, 300);
      for (guint i = 0; i < 6; i++)
        cairo_surface_destroy (images[i]);
    }
}

/* The gauge: as much of it is filled as of the containers. */
static void
test_gauge (void)
{
  const double store[] = { 0, 20, 40, 80, 100 };
  FrPalette palette = { 0, FALSE };

  for (guint i = 0; i < G_N_ELEMENTS (store); i++)
    {
      FrSeasonView view = season_bare ((FrDate){ 2026, 3, 1 }, 31);
      FrMonth month = { .year = 2026, .month = 3, .first_weekday = 1, .view = &view };
      cairo_surface_t *image;
      view.capacity_l = 80;
      view.days[10].store_l = store[i];
      draw (&month, palette, 1000, 700, 1, NULL, NULL, &image);
      double sap = stage_count (image, fr_palette_color (&palette, FR_ROLE_SAP), 8);
      double over = stage_count (image, fr_palette_color (&palette, FR_ROLE_WARNING), 8);
      if (store[i] <= 80)
        g_assert_cmpfloat_with_epsilon (sap / 160, store[i] / 80, 0.12);
      g_assert_true ((over > 100) == (store[i] > 80));
      cairo_surface_destroy (image);
      g_free (view.days);
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
  GRand *rand = g_rand_new_with_seed (20260311);

  for (guint run = 0; run < 150; run++)
    {
      Season season;
      season_fill (&season, TRUE);
      for (guint d = 0; d < SEASON_DAYS; d++)
        {
          FrSeasonDay *day = &season.days[d];
          day->low_c = odd (rand);
          day->high_c = odd (rand);
          day->is_expected_weather = g_rand_boolean (rand);
          day->gathered_l = odd (rand);
          day->expected_lo_l = odd (rand);
          day->expected_hi_l = odd (rand);
          day->store_l = odd (rand);
          day->n_boils = (guint)g_rand_int_range (rand, 0, 2);
          day->n_bottles = (guint)g_rand_int_range (rand, 0, 2);
        }
      season.view.capacity_l = odd (rand);
      FrMonth month = march (&season);
      month.month = g_rand_int_range (rand, 1, 13);
      month.first_weekday = g_rand_int_range (rand, 1, 8);
      month.right_to_left = g_rand_boolean (rand);
      month.selected = (FrDate){ 2026, month.month, g_rand_int_range (rand, 1, 31) };
      month.is_focused = TRUE;
      if (g_rand_boolean (rand))
        month.weekdays = NULL;
      draw (&month, (FrPalette){ (FrTheme)(run % 3), run % 2 }, g_rand_int_range (rand, 40, 1600),
            g_rand_int_range (rand, 40, 1000), g_rand_double_range (rand, 0.6, 2.2), NULL, NULL, NULL);
    }
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/month/everywhere", test_everywhere);
  g_test_add_func ("/month/places", test_places);
  g_test_add_func ("/month/words", test_words);
  g_test_add_func ("/month/order", test_order);
  g_test_add_func ("/month/grey", test_grey);
  g_test_add_func ("/month/gauge", test_gauge);
  g_test_add_func ("/month/random", test_random);
  return g_test_run ();
}
