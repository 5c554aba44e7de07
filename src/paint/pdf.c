/* The document round the pages, written to memory. One user unit is one point. */
#include "paint/pdf.h"

#include <cairo-pdf.h>

static const FrPalette paper = { FR_THEME_PAPER, FALSE };

G_DEFINE_QUARK (fr - paint - error - quark, fr_paint_error)

static cairo_status_t
write_bytes (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

void
fr_pdf_size (FrSheetSize size, gboolean is_landscape, double *width_pt, double *height_pt)
{
  double narrow = size == FR_SHEET_LETTER ? 612.0 : 210 / 25.4 * 72;
  double tall = size == FR_SHEET_LETTER ? 792.0 : 297 / 25.4 * 72;

  *width_pt = is_landscape ? tall : narrow;
  *height_pt = is_landscape ? narrow : tall;
}

void
fr_pdf_open (FrPdf *pdf, double width_pt, double height_pt, const char *title, const char *author)
{
  pdf->bytes = g_byte_array_new ();
  pdf->width_pt = width_pt;
  pdf->height_pt = height_pt;
  pdf->surface = cairo_pdf_surface_create_for_stream (write_bytes, pdf->bytes, width_pt, height_pt);
  if (title != NULL)
    cairo_pdf_surface_set_metadata (pdf->surface, CAIRO_PDF_METADATA_TITLE, title);
  if (author != NULL)
    cairo_pdf_surface_set_metadata (pdf->surface, CAIRO_PDF_METADATA_AUTHOR, author);
  cairo_pdf_surface_set_metadata (pdf->surface, CAIRO_PDF_METADATA_CREATOR, "Frostrun");
  pdf->cr = cairo_create (pdf->surface);
  cairo_tag_begin (pdf->cr, "Document", NULL);
}

GBytes *
fr_pdf_close (FrPdf *pdf, GError **error)
{
  cairo_tag_end (pdf->cr, "Document");
  cairo_status_t status = cairo_status (pdf->cr);
  cairo_destroy (pdf->cr);
  cairo_surface_finish (pdf->surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (pdf->surface);
  cairo_surface_destroy (pdf->surface);
  if (status != CAIRO_STATUS_SUCCESS)
    {
      g_byte_array_unref (pdf->bytes);
      g_set_error_literal (error, FR_PAINT_ERROR, FR_PAINT_ERROR_SURFACE, cairo_status_to_string (status));
      return NULL;
    }
  return g_byte_array_free_to_bytes (pdf->bytes);
}

PangoContext *
fr_pdf_context_new (const char *font_family, gboolean right_to_left)
{
  g_autoptr (PangoFontMap) map = pango_cairo_font_map_new ();
  PangoContext *context = pango_font_map_create_context (map);
  PangoFontDescription *font
      = pango_font_description_from_string (font_family ? font_family : "Cantarell, Adwaita Sans, Sans");
  cairo_font_options_t *options = cairo_font_options_create ();

  pango_font_description_set_absolute_size (font, 12 * PANGO_SCALE);
  pango_context_set_font_description (context, font);
  pango_font_description_free (font);
  /* Letters stand where the design puts them, not on the dots of some screen. */
  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  pango_cairo_context_set_font_options (context, options);
  pango_cairo_context_set_resolution (context, 72);
  pango_context_set_round_glyph_positions (context, FALSE);
  if (right_to_left)
    pango_context_set_base_dir (context, PANGO_DIRECTION_RTL);
  cairo_font_options_destroy (options);
  return context;
}

PangoLayout *
fr_pdf_text (PangoContext *context, const char *text, double size_pt, gboolean is_bold, double width_pt)
{
  PangoLayout *layout = pango_layout_new (context);
  PangoFontDescription *font = pango_font_description_copy (pango_context_get_font_description (context));
  PangoAttrList *attributes = pango_attr_list_new ();

  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum=1"));
  pango_font_description_set_absolute_size (font, size_pt * PANGO_SCALE);
  if (is_bold)
    pango_font_description_set_weight (font, PANGO_WEIGHT_BOLD);
  pango_layout_set_font_description (layout, font);
  pango_layout_set_text (layout, text != NULL ? text : "", -1);
  pango_layout_set_attributes (layout, attributes);
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  if (width_pt > 0)
    pango_layout_set_width (layout, (int)(width_pt * PANGO_SCALE));
  pango_attr_list_unref (attributes);
  pango_font_description_free (font);
  return layout;
}

void
fr_pdf_show (cairo_t *cr, PangoLayout *layout, FrRole role, double x_pt, double y_pt, const char *tag)
{
  if (tag != NULL)
    cairo_tag_begin (cr, tag, NULL);
  fr_palette_set_source (&paper, cr, role, 1);
  cairo_move_to (cr, x_pt, y_pt);
  pango_cairo_show_layout (cr, layout);
  if (tag != NULL)
    cairo_tag_end (cr, tag);
}
