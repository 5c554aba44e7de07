/* The trace on image and recording surfaces: nothing outside the area, no word over another or cut, the hit
 * test there and back, and inputs that a real night will not bring but a wrong entry may. Geometry only, no
 * pixels, so it does not depend on a font. With FROSTRUN_PICTURES set to a folder the pictures are kept there
 * to be looked at. */
#include <math.h>
#include <string.h>

#include <cairo-pdf.h>
#include <glib/gstdio.h>

#include "night.h"

static const double sizes[][2]
    = { { 714, 318 }, { 760, 258 }, { 700, 200 }, { 1400, 420 }, { 480, 220 }, { 360, 150 } };
static const double scales[] = { 1.0, 1.25, 1.5, 2.0 };

static PangoContext *
new_context (void)
{
  g_autoptr (PangoFontMap) map = pango_cairo_font_map_new ();
  PangoContext *context;

  pango_cairo_font_map_set_resolution (PANGO_CAIRO_FONT_MAP (map), 96);
  context = pango_font_map_create_context (map);
  PangoFontDescription *interface = pango_font_description_from_string ("Cantarell, Adwaita Sans, Sans 11");
  pango_context_set_font_description (context, interface);
  pango_font_description_free (interface);
  return context;
}

static void
check_labels (const GArray *labels, double width_px, double height_px)
{
  for (guint i = 0; i < labels->len; i++)
    {
      const FrLabelBox *a = &g_array_index (labels, FrLabelBox, i);
      if (a->x_px < 0 || a->y_px < 0 || a->x_px + a->width_px > width_px
          || a->y_px + a->height_px > height_px)
        g_test_fail_printf ("“%s” is cut at %.0f×%.0f: %.1f %.1f %.1f %.1f", a->text, width_px, height_px,
                            a->x_px, a->y_px, a->width_px, a->height_px);
      for (guint j = 0; j < i; j++)
        {
          const FrLabelBox *b = &g_array_index (labels, FrLabelBox, j);
          if (a->x_px < b->x_px + b->width_px && b->x_px < a->x_px + a->width_px
              && a->y_px < b->y_px + b->height_px && b->y_px < a->y_px + a->height_px)
            g_test_fail_printf ("“%s” lies over “%s” at %.0f×%.0f", a->text, b->text, width_px, height_px);
        }
    }
}

static gboolean
has_label (const GArray *labels, const char *text)
{
  for (guint i = 0; i < labels->len; i++)
    if (strcmp (g_array_index (labels, FrLabelBox, i).text, text) == 0)
      return TRUE;
  return FALSE;
}

/* Draws to a recording surface without bounds, so that ink outside the area shows; then, if asked, to a
 * picture. */
static GArray *
draw (const FrTraceView *view, double width_px, double height_px, double scale, FrTheme theme,
      FrTraceFrame *frame, const char *picture)
{
  FrPalette palette = { theme, FALSE };
  PangoContext *context = new_context ();
  GArray *labels = fr_label_list_new ();
  cairo_surface_t *recording = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, NULL);
  cairo_t *cr = cairo_create (recording);
  double x, y, w, h;

  fr_trace_draw (cr, context, &palette, view, width_px, height_px, scale, frame, labels);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_recording_surface_ink_extents (recording, &x, &y, &w, &h);
  /* A whole pixel of slack: the extents are rounded outwards. */
  g_assert_cmpfloat (x, >=, -1);
  g_assert_cmpfloat (y, >=, -1);
  g_assert_cmpfloat (x + w, <=, width_px + 1);
  g_assert_cmpfloat (y + h, <=, height_px + 1);
  cairo_destroy (cr);
  g_object_unref (context);
  check_labels (labels, width_px, height_px);

  const char *folder = g_getenv ("FROSTRUN_PICTURES");
  if (picture != NULL && folder != NULL)
    {
      g_autofree char *name
          = g_strdup_printf ("%s-%.0fx%.0f-%.2f-%d.png", picture, width_px, height_px, scale, theme);
      g_autofree char *path = g_build_filename (folder, name, NULL);
      cairo_surface_t *image = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int)width_px, (int)height_px);
      cr = cairo_create (image);
      fr_palette_set_source (&palette, cr, FR_ROLE_CARD, 1);
      cairo_paint (cr);
      cairo_set_source_surface (cr, recording, 0, 0);
      cairo_paint (cr);
      cairo_destroy (cr);
      g_assert_cmpint (cairo_surface_write_to_png (image, path), ==, CAIRO_STATUS_SUCCESS);
      cairo_surface_destroy (image);
    }
  cairo_surface_destroy (recording);
  return labels;
}

typedef struct
{
  guint size;
  guint scale;
  FrTheme theme;
} Case;

static void
test_night (gconstpointer data)
{
  const Case *c = data;
  Night night;
  FrTraceFrame frame;
  double w = sizes[c->size][0], h = sizes[c->size][1];

  night_fill (&night);
  g_autoptr (GArray) labels = draw (&night.view, w, h, scales[c->scale], c->theme, &frame, "night");
  g_assert_cmpfloat (frame.plot_x_px, >, 0);
  g_assert_cmpfloat (frame.plot_x_px + frame.plot_width_px, <, w);
  g_assert_cmpfloat (frame.level_height_px, >=, 30);
  g_assert_cmpfloat (frame.hours_y_px + frame.hours_height_px, <=, h);
  g_assert_cmpfloat (frame.price_y_px + frame.price_height_px, <=, h);
  g_assert_cmpfloat (frame.level_top_shown, >, 4.2);
  g_assert_cmpfloat (frame.brix_top, >=, 56);
  g_assert_cmpuint (labels->len, >, 5);
}

/* At the sizes of the first page at text scale 1 everything that matters has its words. */
static void
test_words (void)
{
  static const char *needed[] = { "19:00 Start",
                                  "06:07 Bucket dry",
                                  "06:48 Cut-off",
                                  "57 °Bx",
                                  "Cut-off level 1.3 cm",
                                  "Sweetness in the pan",
                                  "22.5 L",
                                  "1.8 kW",
                                  "Bucket",
                                  "Power",
                                  "Price",
                                  "18.9",
                                  "cm",
                                  "°Bx",
                                  "0",
                                  "6",
                                  "60" };

  for (guint s = 0; s < 2; s++)
    {
      Night night;
      FrTraceFrame frame;
      night_fill (&night);
      g_autoptr (GArray) labels
          = draw (&night.view, sizes[s][0], sizes[s][1], 1, FR_THEME_LIGHT, &frame, NULL);
      for (guint i = 0; i < G_N_ELEMENTS (needed); i++)
        if (!has_label (labels, needed[i]))
          g_test_fail_printf ("“%s” is missing at %.0f×%.0f", needed[i], sizes[s][0], sizes[s][1]);
      g_assert_true (has_label (labels, "07:00 Price doubles") || has_label (labels, "07:00 Price"));
      g_assert_true (has_label (labels, "Level 4.1 cm, held by the feed")
                     || has_label (labels, "Level 4.1 cm"));
      g_assert_true (has_label (labels, "17 ¢ an hour"));
    }
}

/* x → time → x over the whole plot, within a millionth of a pixel. */
static void
test_hit (void)
{
  Night night;
  FrTraceFrame frame;
  double time_s;

  night_fill (&night);
  g_autoptr (GArray) labels = draw (&night.view, 714, 318, 1, FR_THEME_LIGHT, &frame, NULL);
  for (double x = frame.plot_x_px; x <= frame.plot_x_px + frame.plot_width_px; x += 7.3)
    {
      g_assert_true (fr_trace_time_from_x (&frame, x, &time_s));
      g_assert_cmpfloat_with_epsilon (fr_trace_x_from_time (&frame, time_s), x, 1e-6);
    }
  g_assert_true (fr_trace_time_from_x (&frame, frame.plot_x_px - 5, &time_s));
  g_assert_cmpfloat (time_s, ==, night.view.from_s);
  g_assert_false (fr_trace_time_from_x (&frame, frame.plot_x_px - 7, &time_s));
  g_assert_false (fr_trace_time_from_x (&frame, frame.plot_x_px + frame.plot_width_px + 7, &time_s));
  g_assert_false (fr_trace_time_from_x (&frame, NAN, &time_s));
}

static void
test_moment (void)
{
  const double t[] = { 0, 10, 10, 20 };
  const double level[] = { 4, 4, 2, 1 };
  const double power[] = { 1800, 1800, 900, 0 };
  const double brix[] = { 2, NAN, 10, 20 };
  FrTraceLine line = { .n_samples = 4, .time_s = t, .level_shown = level, .power_w = power, .brix = brix };

  g_assert_cmpfloat (fr_trace_moment_at (&line, 5).level_shown, ==, 4);
  g_assert_cmpfloat (fr_trace_moment_at (&line, 10).level_shown, ==, 2);
  g_assert_cmpfloat (fr_trace_moment_at (&line, 15).level_shown, ==, 1.5);
  g_assert_cmpfloat (fr_trace_moment_at (&line, 15).power_w, ==, 900);
  g_assert_cmpfloat (fr_trace_moment_at (&line, 20).level_shown, ==, 1);
  g_assert_true (isnan (fr_trace_moment_at (&line, 5).brix));
  g_assert_cmpfloat (fr_trace_moment_at (&line, 0).brix, ==, 2);
  g_assert_cmpfloat (fr_trace_moment_at (&line, 15).brix, ==, 15);
  g_assert_true (isnan (fr_trace_moment_at (&line, 15).feed_l));
  g_assert_true (isnan (fr_trace_moment_at (&line, -1).level_shown));
  g_assert_true (isnan (fr_trace_moment_at (&line, 21).level_shown));
  g_assert_true (isnan (fr_trace_moment_at (&line, NAN).level_shown));
  line.n_samples = 0;
  g_assert_true (isnan (fr_trace_moment_at (&line, 0).level_shown));
}

static void
draw_everywhere (const FrTraceView *view, const char *picture)
{
  for (guint s = 0; s < G_N_ELEMENTS (sizes); s++)
    for (guint k = 0; k < G_N_ELEMENTS (scales); k += 3)
      {
        FrTraceFrame frame;
        g_autoptr (GArray) labels
            = draw (view, sizes[s][0], sizes[s][1], scales[k], FR_THEME_LIGHT, &frame, picture);
        g_assert_true (isfinite (frame.plot_x_px) && frame.plot_width_px > 0 && frame.to_s > frame.from_s);
      }
}

static void
test_empty (void)
{
  Night night;
  FrTraceFrame frame;

  night_fill (&night);
  night.view.n_lines = 0;
  night.view.n_events = 0;
  draw_everywhere (&night.view, "empty");
  g_autoptr (GArray) labels = draw (&night.view, 714, 318, 1, FR_THEME_DARK, &frame, NULL);
  g_assert_true (has_label (labels, night.view.empty_sentence));
  g_assert_true (has_label (labels, "22:00"));
  g_assert_true (isnan (frame.level_top_shown));

  /* A view with nothing at all. */
  FrTraceView nothing = { .selected_s = NAN };
  draw_everywhere (&nothing, NULL);
}

static void
test_one_point (void)
{
  Night night;

  night_fill (&night);
  night.line.n_samples = 1;
  night.view.from_s = night.view.to_s = 0;
  draw_everywhere (&night.view, "one");
}

static void
test_gaps (void)
{
  Night night;

  night_fill (&night);
  for (guint i = 0; i < NIGHT_SAMPLES; i++)
    {
      if (i % 7 < 3)
        night.level_cm[i] = NAN;
      if (i % 11 < 4)
        night.brix[i] = NAN;
      if (i % 5 == 0)
        night.feed_l[i] = NAN;
      if (i % 6 == 0)
        night.power_w[i] = NAN;
    }
  night.time_s[40] = NAN;
  night.events[2].time_s = NAN;
  night.limits[0].value_shown = NAN;
  night.prices[0].price_per_kwh = NAN;
  night.view.selected_s = 5000;
  draw_everywhere (&night.view, "gaps");

  for (guint i = 0; i < NIGHT_SAMPLES; i++)
    night.level_cm[i] = night.brix[i] = NAN;
  draw_everywhere (&night.view, "unknown");
}

static void
test_zeros (void)
{
  Night night;

  night_fill (&night);
  for (guint i = 0; i < NIGHT_SAMPLES; i++)
    night.level_cm[i] = night.brix[i] = night.feed_l[i] = night.power_w[i] = 0;
  night.prices[1].price_per_kwh = 0;
  night.prices[2].price_per_kwh = -3;
  draw_everywhere (&night.view, "zeros");
}

static void
test_huge (void)
{
  Night night;

  night_fill (&night);
  for (guint i = 0; i < NIGHT_SAMPLES; i++)
    night.level_cm[i] *= 1e9;
  night.brix[60] = 1e-12;
  draw_everywhere (&night.view, "huge");
}

/* Two nights and a day with the clock going forward and twenty price steps. */
static void
test_long (void)
{
  Night night;
  FrTraceTick ticks[42];
  FrTracePrice prices[20];
  FrTraceSpan nights[2] = { { 0, 11 * 3600 }, { 23 * 3600, 35 * 3600 } };
  char texts[42][8];

  night_fill (&night);
  for (guint i = 0; i < NIGHT_SAMPLES; i++)
    night.time_s[i] *= 40.0 / 11.8;
  for (guint i = 0; i <= 40; i++)
    {
      guint hour = 19 + i + (i >= 8 ? 1 : 0);
      g_snprintf (texts[i], 8, i == 7 ? "02→03" : "%02u:00", hour % 24);
      ticks[i] = (FrTraceTick){ i * 3600.0, texts[i], NULL, i == 7 };
    }
  for (guint i = 0; i < 20; i++)
    prices[i]
        = (FrTracePrice){ i * 7200.0, (i + 1) * 7200.0, 5 + (i * 37) % 20, (FrPriceStep)(((i * 37) % 20) / 7),
                          "14.6",     "14.6 ¢/kWh",     "26 ¢ an hour" };
  night.view.from_s = 0;
  night.view.to_s = 40 * 3600;
  night.view.ticks = ticks;
  night.view.n_ticks = 41;
  night.view.prices = prices;
  night.view.n_prices = 20;
  night.view.nights = nights;
  night.view.n_nights = 2;
  draw_everywhere (&night.view, "long");

  FrTraceFrame frame;
  g_autoptr (GArray) labels = draw (&night.view, 714, 318, 1, FR_THEME_LIGHT, &frame, NULL);
  g_assert_true (has_label (labels, "02→03"));
}

/* Thirty events within an hour: stems without words, but nothing over anything, and no long search. */
static void
test_crowd (void)
{
  Night night;
  FrTraceEvent events[30];

  night_fill (&night);
  for (guint i = 0; i < 30; i++)
    events[i] = (FrTraceEvent){ 36000 + i * 120.0, i % 5 == 4 ? FR_TRACE_EVENT_NOW : FR_TRACE_EVENT_FLAG,
                                "05:00",           "Something happens here",
                                "Something",       1 };
  night.view.events = events;
  night.view.n_events = 30;
  gint64 before = g_get_monotonic_time ();
  draw_everywhere (&night.view, "crowd");
  /* Twelve pictures; even with sanitizers far below this. */
  g_assert_cmpint (g_get_monotonic_time () - before, <, 20 * G_USEC_PER_SEC);
}

/* Sixty times as many samples on the same lines: the same words in the same places. */
static void
test_dense (void)
{
  enum
  {
    TIMES = 60,
    N = (NIGHT_SAMPLES - 1) * TIMES + 1
  };
  Night night;
  FrTraceFrame frame;
  g_autofree double *values = g_new (double, 5 * N);

  night_fill (&night);
  FrTraceLine dense = night.line;
  double *columns[5];
  const double *sparse[5] = { night.time_s, night.level_cm, night.brix, night.feed_l, night.power_w };
  for (guint k = 0; k < 5; k++)
    {
      columns[k] = values + k * N;
      for (guint i = 0; i < N; i++)
        {
          guint j = MIN (i / TIMES, NIGHT_SAMPLES - 2);
          double part = (double)(i - j * TIMES) / TIMES;
          columns[k][i] = sparse[k][j] + (sparse[k][j + 1] - sparse[k][j]) * part;
        }
    }
  g_autoptr (GArray) before = draw (&night.view, 714, 318, 1, FR_THEME_LIGHT, &frame, NULL);
  dense.n_samples = N;
  dense.time_s = columns[0];
  dense.level_shown = columns[1];
  dense.brix = columns[2];
  dense.feed_l = columns[3];
  dense.power_w = columns[4];
  night.view.lines = &dense;
  g_autoptr (GArray) after = draw (&night.view, 714, 318, 1, FR_THEME_LIGHT, &frame, "dense");
  g_assert_cmpuint (before->len, ==, after->len);
  for (guint i = 0; i < before->len; i++)
    {
      const FrLabelBox *a = &g_array_index (before, FrLabelBox, i),
                       *b = &g_array_index (after, FrLabelBox, i);
      g_assert_cmpstr (a->text, ==, b->text);
      g_assert_cmpfloat_with_epsilon (a->x_px, b->x_px, 6.5);
      g_assert_cmpfloat_with_epsilon (a->y_px, b->y_px, 3);
    }
}

static void
test_selected (void)
{
  Night night;
  double thin_time[] = { 0, 20000, 30000 };
  double thin_level[] = { 3, 3, 1 };
  double thin_brix[] = { 2, 12, 40 };
  FrTraceLine lines[2];

  night_fill (&night);
  lines[0]
      = (FrTraceLine){ .n_samples = 3, .time_s = thin_time, .level_shown = thin_level, .brix = thin_brix };
  lines[1] = night.line;
  night.view.lines = lines;
  night.view.n_lines = 2;
  night.view.chosen = 1;
  night.view.selected_s = 20000;
  FrTraceLimit limits[2] = { night.limits[0], { FR_TRACE_LIMIT_BRIX, 60, "no thicker than 60" } };
  night.view.limits = limits;
  night.view.n_limits = 2;
  draw_everywhere (&night.view, "selected");
}

/* The same call draws the same, to a PDF as well. */
static void
test_pdf (void)
{
  Night night;
  FrPalette paper = { FR_THEME_PAPER, TRUE };
  PangoContext *context = new_context ();
  g_autofree char *path = g_build_filename (g_get_tmp_dir (), "frostrun-trace-test.pdf", NULL);

  night_fill (&night);
  cairo_surface_t *surface = cairo_pdf_surface_create (path, 595, 842);
  cairo_t *cr = cairo_create (surface);
  fr_trace_draw (cr, context, &paper, &night.view, 520, 230, 0.8, NULL, NULL);
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  g_assert_cmpint (cairo_surface_status (surface), ==, CAIRO_STATUS_SUCCESS);
  cairo_surface_destroy (surface);
  g_object_unref (context);
  g_assert_cmpint (g_remove (path), ==, 0);
}

static void
test_text_scale (void)
{
  PangoContext *context = new_context ();
  PangoFontDescription *font = pango_font_description_from_string ("Sans 11");

  /* 11 pt at 96 dpi is the design's own size; twice the dpi or twice the size is twice as large. */
  g_assert_cmpfloat_with_epsilon (fr_text_scale_of_context (context), 1.0, 1e-9);
  pango_cairo_context_set_resolution (context, 192);
  g_assert_cmpfloat_with_epsilon (fr_text_scale_of_context (context), 2.0, 1e-9);
  pango_cairo_context_set_resolution (context, 96);
  pango_font_description_set_size (font, 22 * PANGO_SCALE);
  pango_context_set_font_description (context, font);
  g_assert_cmpfloat_with_epsilon (fr_text_scale_of_context (context), 2.0, 1e-9);
  pango_font_description_free (font);
  g_object_unref (context);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint s = 0; s < G_N_ELEMENTS (sizes); s++)
    for (guint k = 0; k < G_N_ELEMENTS (scales); k++)
      for (guint t = 0; t < FR_N_THEMES; t++)
        {
          Case *c = g_new (Case, 1);
          *c = (Case){ s, k, (FrTheme)t };
          g_autofree char *name = g_strdup_printf ("/trace/night/%.0fx%.0f/text-%.2f/%u", sizes[s][0],
                                                   sizes[s][1], scales[k], t);
          g_test_add_data_func_full (name, c, test_night, g_free);
        }
  g_test_add_func ("/trace/words", test_words);
  g_test_add_func ("/trace/hit", test_hit);
  g_test_add_func ("/trace/moment", test_moment);
  g_test_add_func ("/trace/empty", test_empty);
  g_test_add_func ("/trace/one-point", test_one_point);
  g_test_add_func ("/trace/gaps", test_gaps);
  g_test_add_func ("/trace/zeros", test_zeros);
  g_test_add_func ("/trace/huge", test_huge);
  g_test_add_func ("/trace/long", test_long);
  g_test_add_func ("/trace/crowd", test_crowd);
  g_test_add_func ("/trace/dense", test_dense);
  g_test_add_func ("/trace/selected", test_selected);
  g_test_add_func ("/trace/pdf", test_pdf);
  g_test_add_func ("/trace/text-scale", test_text_scale);
  return g_test_run ();
}
