/* The pages of a season. The drawings' small text of 12 px becomes 9 pt on the strip and 10 in the months,
 * which have a page each. */
#include "paint/season-sheet.h"

#include "paint/canvas.h"
#include "paint/field-sheet-private.h"
#include "paint/pdf.h"

#include <math.h>

#define MARGIN_PT 42.0
#define FOOT_PT 14.0
#define STRIP_SCALE 0.75
#define MONTH_SCALE 0.85

static const FrPalette paper = { FR_THEME_PAPER, FALSE };

typedef struct
{
  const FrSeasonSheet *sheet;
  PangoContext *context;
  FrPdf pdf;
  double width_pt;
  double height_pt;
  double column_pt; /* between the margins */
  guint page;
  guint n_pages;
} Pages;

/* Puts a text of as many lines as it needs and returns the y below it. A text that would take a third of the
 * page is smaller. */
static double
put (Pages *pages, PangoLayout *layout, double y_pt, FrRole role, const char *tag)
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
  fr_pdf_show (pages->pdf.cr, layout, role, MARGIN_PT, y_pt, tag);
  return y_pt + height;
}

static double
put_text (Pages *pages, const char *text, double size_pt, gboolean is_bold, double y_pt, FrRole role,
          const char *tag)
{
  if (text == NULL || text[0] == '\0')
    return y_pt;
  g_autoptr (PangoLayout) layout = fr_pdf_text (pages->context, text, size_pt, is_bold, pages->column_pt);
  return put (pages, layout, y_pt, role, tag);
}

static gboolean
put_sentence (Pages *pages, double *y_pt, GError **error)
{
  PangoAttrList *attributes = NULL;
  g_autofree char *plain = NULL;

  if (pages->sheet->sentence_markup == NULL)
    return TRUE;
  if (!pango_parse_markup (pages->sheet->sentence_markup, -1, 0, &attributes, &plain, NULL, error))
    return FALSE;
  g_autoptr (PangoLayout) layout = fr_pdf_text (pages->context, plain, 16, FALSE, pages->column_pt);
  pango_attr_list_insert_before (attributes, pango_attr_font_features_new ("tnum=1"));
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
  *y_pt = put (pages, layout, *y_pt, FR_ROLE_INK, "P");
  return TRUE;
}

static void
end_page (Pages *pages)
{
  double width, height, y = pages->height_pt - MARGIN_PT + 8;
  g_autofree char *number = g_strdup_printf ("\u200e%u / %u", pages->page + 1, pages->n_pages);
  g_autoptr (PangoLayout) count = fr_pdf_text (pages->context, number, 8.5, FALSE, 0);

  if (pages->sheet->footer != NULL && pages->sheet->footer[0] != '\0')
    {
      g_autoptr (PangoLayout) foot
          = fr_pdf_text (pages->context, pages->sheet->footer, 8.5, FALSE, pages->column_pt - 60);
      pango_layout_set_height (foot, -2);
      pango_layout_set_ellipsize (foot, PANGO_ELLIPSIZE_END);
      fr_pdf_show (pages->pdf.cr, foot, FR_ROLE_INK_SOFT, MARGIN_PT, y, "P");
    }
  fr_layout_size (count, &width, &height);
  fr_pdf_show (pages->pdf.cr, count, FR_ROLE_INK_SOFT, MARGIN_PT + pages->column_pt - width, y, "P");
  cairo_show_page (pages->pdf.cr);
  pages->page++;
}

static void
put_date (Pages *pages, double y_pt)
{
  double width, height;

  if (pages->sheet->date == NULL || pages->sheet->date[0] == '\0')
    return;
  g_autoptr (PangoLayout) date = fr_pdf_text (pages->context, pages->sheet->date, 9.5, FALSE, 0);
  fr_layout_size (date, &width, &height);
  fr_pdf_show (pages->pdf.cr, date, FR_ROLE_INK_SOFT, MARGIN_PT + MAX (pages->column_pt - width, 0),
               y_pt - height, "P");
}

static gboolean
draw_strip (Pages *pages, GError **error)
{
  FrSeasonStrip strip = *pages->sheet->strip;
  double y = MARGIN_PT - 10, bottom = pages->height_pt - MARGIN_PT - FOOT_PT + 10;
  cairo_t *cr = pages->pdf.cr;

  strip.selected = strip.hovered = -1;
  put_date (pages, y);
  y = put_text (pages, pages->sheet->title, 17, TRUE, y, FR_ROLE_INK, "H1") + 4;
  if (!put_sentence (pages, &y, error))
    return FALSE;
  y = put_text (pages, pages->sheet->reason, 10.5, FALSE, y + 2, FR_ROLE_INK_SOFT, "P") + 6;
  cairo_tag_begin (cr, "Figure", NULL);
  cairo_save (cr);
  /* The names of the lanes stand under the title. */
  cairo_translate (cr, MARGIN_PT - 18, y);
  fr_season_strip_draw (cr, pages->context, &paper, &strip, pages->column_pt + 36, MAX (bottom - y, 60),
                        STRIP_SCALE, NULL);
  cairo_restore (cr);
  cairo_tag_end (cr, "Figure");
  end_page (pages);
  return TRUE;
}

static void
draw_month (Pages *pages, gsize at)
{
  FrMonth month = pages->sheet->months[at];
  double y = MARGIN_PT - 10, bottom = pages->height_pt - MARGIN_PT - FOOT_PT + 10;
  cairo_t *cr = pages->pdf.cr;

  month.selected = month.hovered = (FrDate){ 0, 0, 0 };
  put_date (pages, y);
  y = put_text (pages, pages->sheet->month_names != NULL ? pages->sheet->month_names[at] : NULL, 15, TRUE, y,
                FR_ROLE_INK, "H2")
      + 6;
  cairo_tag_begin (cr, "Figure", NULL);
  cairo_save (cr);
  cairo_translate (cr, MARGIN_PT - 6, y);
  fr_month_draw (cr, pages->context, &paper, &month, pages->column_pt + 12, MAX (bottom - y, 60), MONTH_SCALE,
                 NULL);
  cairo_restore (cr);
  cairo_tag_end (cr, "Figure");
  end_page (pages);
}

GBytes *
fr_season_sheet_pdf (const FrSeasonSheet *sheet, FrSheetSize size, guint *n_pages, GError **error)
{
  Pages pages = { .sheet = sheet };
  FrFieldSheet table;
  guint n_table = 0;

  g_return_val_if_fail (sheet != NULL && sheet->strip != NULL, NULL);

  pages.context = fr_pdf_context_new (sheet->font_family, FALSE);
  fr_pdf_size (size, TRUE, &pages.width_pt, &pages.height_pt);
  pages.column_pt = pages.width_pt - 2 * MARGIN_PT;
  if (sheet->table != NULL)
    {
      table = *sheet->table;
      table.footer = sheet->footer;
      n_table = fr_field_sheet_draw (&table, NULL, pages.context, pages.width_pt, pages.height_pt, 0, 0);
    }
  pages.n_pages = 1 + (guint)sheet->n_months + n_table;
  fr_pdf_open (&pages.pdf, pages.width_pt, pages.height_pt, sheet->title, sheet->author);
  gboolean ok = draw_strip (&pages, error);
  for (gsize i = 0; ok && i < sheet->n_months; i++)
    draw_month (&pages, i);
  if (ok && sheet->table != NULL)
    fr_field_sheet_draw (&table, &pages.pdf, pages.context, pages.width_pt, pages.height_pt, pages.page,
                         pages.n_pages);
  GBytes *bytes = fr_pdf_close (&pages.pdf, ok ? error : NULL);
  if (!ok)
    g_clear_pointer (&bytes, g_bytes_unref);
  g_object_unref (pages.context);
  if (bytes != NULL && n_pages != NULL)
    *n_pages = pages.n_pages;
  return bytes;
}
