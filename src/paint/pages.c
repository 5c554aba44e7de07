/* The measures that all such documents share. */
#include "paint/pages.h"

#include "paint/canvas.h"

void
fr_pages_open (FrPages *pages, FrSheetSize size, gboolean is_landscape, const char *title, const char *author)
{
  fr_pdf_size (size, is_landscape, &pages->width_pt, &pages->height_pt);
  pages->column_pt = pages->width_pt - 2 * FR_PAGES_MARGIN_PT;
  fr_pdf_open (&pages->pdf, pages->width_pt, pages->height_pt, title, author);
}

double
fr_pages_top_pt (const FrPages *pages)
{
  return FR_PAGES_MARGIN_PT - 10;
}

double
fr_pages_bottom_pt (const FrPages *pages)
{
  return pages->height_pt - FR_PAGES_MARGIN_PT - FR_PAGES_FOOT_PT + 10;
}

double
fr_pages_put (FrPages *pages, PangoLayout *layout, double y_pt, FrRole role, const char *tag)
{
  double width, height;

  for (guint i = 0; i < 12; i++)
    {
      fr_layout_size (layout, &width, &height);
      if (height <= pages->height_pt / 3)
        break;
      PangoFontDescription *font = pango_font_description_copy (pango_layout_get_font_description (layout));
      pango_font_description_set_absolute_size (font, 0.8 * pango_font_description_get_size (font));
      pango_layout_set_font_description (layout, font);
      pango_font_description_free (font);
    }
  fr_pdf_show (pages->pdf.cr, layout, role, FR_PAGES_MARGIN_PT, y_pt, tag);
  return y_pt + height;
}

double
fr_pages_put_text (FrPages *pages, const char *text, double size_pt, gboolean is_bold, double y_pt,
                   FrRole role, const char *tag)
{
  if (text == NULL || text[0] == '\0')
    return y_pt;
  g_autoptr (PangoLayout) layout = fr_pdf_text (pages->context, text, size_pt, is_bold, pages->column_pt);
  return fr_pages_put (pages, layout, y_pt, role, tag);
}

gboolean
fr_pages_put_answer (FrPages *pages, const char *markup, double *y_pt, GError **error)
{
  PangoAttrList *attributes = NULL;
  g_autofree char *plain = NULL;

  if (markup == NULL)
    return TRUE;
  if (!pango_parse_markup (markup, -1, 0, &attributes, &plain, NULL, error))
    return FALSE;
  g_autoptr (PangoLayout) layout = fr_pdf_text (pages->context, plain, 16, FALSE, pages->column_pt);
  pango_attr_list_insert_before (attributes, pango_attr_font_features_new ("tnum=1"));
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
  *y_pt = fr_pages_put (pages, layout, *y_pt, FR_ROLE_INK, "P");
  return TRUE;
}

void
fr_pages_end (FrPages *pages)
{
  double width, height, y = pages->height_pt - FR_PAGES_MARGIN_PT + 8;
  g_autofree char *number = g_strdup_printf ("\u200e%u / %u", pages->page + 1, pages->n_pages);
  g_autoptr (PangoLayout) count = fr_pdf_text (pages->context, number, 8.5, FALSE, 0);

  if (pages->footer != NULL && pages->footer[0] != '\0')
    {
      g_autoptr (PangoLayout) foot
          = fr_pdf_text (pages->context, pages->footer, 8.5, FALSE, pages->column_pt - 60);
      pango_layout_set_height (foot, -2);
      pango_layout_set_ellipsize (foot, PANGO_ELLIPSIZE_END);
      fr_pdf_show (pages->pdf.cr, foot, FR_ROLE_INK_SOFT, FR_PAGES_MARGIN_PT, y, "P");
    }
  fr_layout_size (count, &width, &height);
  fr_pdf_show (pages->pdf.cr, count, FR_ROLE_INK_SOFT, FR_PAGES_MARGIN_PT + pages->column_pt - width, y, "P");
  cairo_show_page (pages->pdf.cr);
  pages->page++;
}

void
fr_pages_put_date (FrPages *pages, double y_pt)
{
  double width, height;

  if (pages->date == NULL || pages->date[0] == '\0')
    return;
  g_autoptr (PangoLayout) date = fr_pdf_text (pages->context, pages->date, 9.5, FALSE, 0);
  fr_layout_size (date, &width, &height);
  fr_pdf_show (pages->pdf.cr, date, FR_ROLE_INK_SOFT, FR_PAGES_MARGIN_PT + MAX (pages->column_pt - width, 0),
               y_pt - height, "P");
}
