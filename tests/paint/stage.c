/* The boxes of drawn words, grey values, and the tools of poppler. */
#include "stage.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include <glib/gstdio.h>

PangoContext *
stage_context (void)
{
  g_autoptr (PangoFontMap) map = pango_cairo_font_map_new ();
  PangoFontDescription *font = pango_font_description_from_string ("Cantarell, Adwaita Sans, Sans 11");

  pango_cairo_font_map_set_resolution (PANGO_CAIRO_FONT_MAP (map), 96);
  PangoContext *context = pango_font_map_create_context (map);
  pango_context_set_font_description (context, font);
  pango_font_description_free (font);
  return context;
}

cairo_surface_t *
stage_image (int width_px, int height_px)
{
  return cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width_px, height_px);
}

guint32
stage_pixel (cairo_surface_t *image, int x_px, int y_px)
{
  guint32 argb, rgb = 0;

  g_assert_true (x_px >= 0 && y_px >= 0 && x_px < cairo_image_surface_get_width (image)
                 && y_px < cairo_image_surface_get_height (image));
  cairo_surface_flush (image);
  memcpy (&argb,
          cairo_image_surface_get_data (image) + y_px * cairo_image_surface_get_stride (image) + 4 * x_px, 4);
  for (guint shift = 0; shift < 24; shift += 8)
    rgb |= MIN (((argb >> shift) & 0xff) + 255 - (argb >> 24), 255u) << shift;
  return rgb;
}

double
stage_grey (cairo_surface_t *image, int x_px, int y_px)
{
  guint32 rgb = stage_pixel (image, x_px, y_px);

  return 0.2126 * (double)(rgb >> 16 & 0xff) + 0.7152 * (double)(rgb >> 8 & 0xff)
         + 0.0722 * (double)(rgb & 0xff);
}

guint
stage_differences (cairo_surface_t *a, cairo_surface_t *b, double step)
{
  guint n = 0;

  for (int y = 0; y < cairo_image_surface_get_height (a); y++)
    for (int x = 0; x < cairo_image_surface_get_width (a); x++)
      n += fabs (stage_grey (a, x, y) - stage_grey (b, x, y)) > step;
  return n;
}

guint
stage_count (cairo_surface_t *image, FrRgba color, double step)
{
  guint n = 0;

  for (int y = 0; y < cairo_image_surface_get_height (image); y++)
    for (int x = 0; x < cairo_image_surface_get_width (image); x++)
      {
        guint32 rgb = stage_pixel (image, x, y);
        n += fabs ((double)(rgb >> 16 & 0xff) - 255.0 * (double)color.red) < step
             && fabs ((double)(rgb >> 8 & 0xff) - 255.0 * (double)color.green) < step
             && fabs ((double)(rgb & 0xff) - 255.0 * (double)color.blue) < step;
      }
  return n;
}

void
stage_check_labels (const GArray *labels, double width_px, double height_px, const char *what)
{
  for (guint i = 0; i < labels->len; i++)
    {
      const FrLabelBox *a = &g_array_index (labels, FrLabelBox, i);
      if (a->x_px < -0.5 || a->y_px < -0.5 || a->x_px + a->width_px > width_px + 0.5
          || a->y_px + a->height_px > height_px + 0.5)
        g_test_fail_printf ("%s: “%s” is cut: %.1f %.1f %.1f %.1f", what, a->text, a->x_px, a->y_px,
                            a->width_px, a->height_px);
      for (guint j = 0; j < i; j++)
        {
          const FrLabelBox *b = &g_array_index (labels, FrLabelBox, j);
          if (a->x_px + 0.5 < b->x_px + b->width_px && b->x_px + 0.5 < a->x_px + a->width_px
              && a->y_px + 0.5 < b->y_px + b->height_px && b->y_px + 0.5 < a->y_px + a->height_px)
            g_test_fail_printf ("%s: “%s” lies over “%s”", what, a->text, b->text);
        }
    }
}

cairo_surface_t *
stage_recording (void)
{
  return cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, NULL);
}

void
stage_check_ink (cairo_surface_t *recording, double width_px, double height_px, const char *what)
{
  double x, y, w, h;

  cairo_recording_surface_ink_extents (recording, &x, &y, &w, &h);
  /* A whole pixel of slack: the extents are rounded outwards. */
  if (w > 0 && (x < -1 || y < -1 || x + w > width_px + 1 || y + h > height_px + 1))
    g_test_fail_printf ("%s: ink from %.1f %.1f to %.1f %.1f", what, x, y, x + w, y + h);
}

cairo_surface_t *
stage_develop (cairo_surface_t *recording, const FrPalette *palette, FrRole ground, int width_px,
               int height_px)
{
  cairo_surface_t *image = stage_image (width_px, height_px);
  cairo_t *cr = cairo_create (image);

  fr_palette_set_source (palette, cr, ground, 1);
  cairo_paint (cr);
  cairo_set_source_surface (cr, recording, 0, 0);
  cairo_paint (cr);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  return image;
}

gboolean
stage_has_label (const GArray *labels, const char *text)
{
  for (guint i = 0; i < labels->len; i++)
    if (strcmp (g_array_index (labels, FrLabelBox, i).text, text) == 0)
      return TRUE;
  return FALSE;
}

void
stage_keep (cairo_surface_t *image, const char *name)
{
  if (g_getenv ("FROSTRUN_PICTURES") == NULL)
    return;
  g_autofree char *path = g_build_filename (g_getenv ("FROSTRUN_PICTURES"), name, NULL);
  g_assert_cmpint (cairo_surface_write_to_png (image, path), ==, CAIRO_STATUS_SUCCESS);
}

char *
stage_ask (GBytes *pdf, const char *tool, const char *const *options, const char *keep_as)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_dir_make_tmp ("frostrun-stage-XXXXXX", &error);
  g_assert_no_error (error);
  g_autofree char *path = g_build_filename (folder, "sheet.pdf", NULL);
  gsize size;
  const char *data = g_bytes_get_data (pdf, &size);
  char *out = NULL;
  g_autofree char *err = NULL;
  int status = 0;
  const char *argv[8] = { tool };
  guint n = 1;

  g_assert_true (g_file_set_contents (path, data, (gssize)size, &error));
  for (guint i = 0; options != NULL && options[i] != NULL; i++)
    argv[n++] = options[i];
  argv[n++] = path;
  if (strcmp (tool, "pdftotext") == 0)
    argv[n++] = "-";
  g_assert_true (
      g_spawn_sync (NULL, (char **)argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &out, &err, &status, &error));
  g_assert_no_error (error);
  g_assert_cmpint (status, ==, 0);
  g_assert_cmpstr (err, ==, "");
  g_assert_cmpint (g_remove (path), ==, 0);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
  if (keep_as != NULL && g_getenv ("FROSTRUN_PICTURES") != NULL)
    {
      g_autofree char *kept = g_build_filename (g_getenv ("FROSTRUN_PICTURES"), keep_as, NULL);
      g_assert_true (g_file_set_contents (kept, data, (gssize)size, NULL));
    }
  return out;
}

char *
stage_flat (const char *text)
{
  g_autoptr (GRegex) spaces = g_regex_new ("\\s+", 0, 0, NULL);

  return g_regex_replace_literal (spaces, text, -1, 0, " ", 0, NULL);
}

void
stage_check_contains (const char *text, const char *words)
{
  if (strstr (text, words) == NULL)
    g_test_fail_printf ("“%s” is missing", words);
}

guint
stage_count_words (const char *text, const char *words)
{
  guint n = 0;

  for (const char *p = strstr (text, words); p != NULL; p = strstr (p + 1, words))
    n++;
  return n;
}

guint
stage_check_inside (GBytes *pdf, double width_pt, double height_pt)
{
  static const char *const options[] = { "-bbox", NULL };
  g_autofree char *boxes = stage_ask (pdf, "pdftotext", options, NULL);
  guint n = 0;

  for (char *p = strstr (boxes, "<word xMin=\""); p != NULL; p = strstr (p + 1, "<word xMin=\""))
    {
      double x0, y0, x1, y1;
      g_assert_cmpint (
          sscanf (p, "<word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\"", &x0, &y0, &x1, &y1), ==, 4);
      if (x0 < 10 || y0 < 10 || x1 > width_pt - 10 || y1 > height_pt - 10)
        g_test_fail_printf ("a word lies at %.1f %.1f %.1f %.1f on %.0f × %.0f", x0, y0, x1, y1, width_pt,
                            height_pt);
      n++;
    }
  return n;
}
