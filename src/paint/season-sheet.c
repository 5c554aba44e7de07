/* The pages of a season. The drawings' small text of 12 px becomes 9 pt on the strip and 10 in the months,
 * which have a page each. */
#include "paint/season-sheet.h"

#include "paint/canvas.h"
#include "paint/field-sheet-private.h"
#include "paint/pages.h"

#include <math.h>

#define STRIP_SCALE 0.75
#define MONTH_SCALE 0.85

static const FrPalette paper = { FR_THEME_PAPER, FALSE };

typedef struct
{
  const FrSeasonSheet *sheet;
  FrPages pages;
} SeasonPages;

static gboolean
draw_strip (SeasonPages *season, GError **error)
{
  FrPages *pages = &season->pages;
  FrSeasonStrip strip = *season->sheet->strip;
  double y = fr_pages_top_pt (pages), bottom = fr_pages_bottom_pt (pages);
  cairo_t *cr = pages->pdf.cr;

  strip.selected = strip.hovered = -1;
  fr_pages_put_date (pages, y);
  y = fr_pages_put_text (pages, season->sheet->title, 17, TRUE, y, FR_ROLE_INK, "H1") + 4;
  if (!fr_pages_put_answer (pages, season->sheet->sentence_markup, &y, error))
    return FALSE;
  y = fr_pages_put_text (pages, season->sheet->reason, 10.5, FALSE, y + 2, FR_ROLE_INK_SOFT, "P") + 6;
  cairo_tag_begin (cr, "Figure", NULL);
  cairo_save (cr);
  /* The names of the lanes stand under the title. */
  cairo_translate (cr, FR_PAGES_MARGIN_PT - 18, y);
  fr_season_strip_draw (cr, pages->context, &paper, &strip, pages->column_pt + 36, MAX (bottom - y, 60),
                        STRIP_SCALE, NULL);
  cairo_restore (cr);
  cairo_tag_end (cr, "Figure");
  fr_pages_end (pages);
  return TRUE;
}

static void
draw_month (SeasonPages *season, gsize at)
{
  FrPages *pages = &season->pages;
  FrMonth month = season->sheet->months[at];
  double y = fr_pages_top_pt (pages), bottom = fr_pages_bottom_pt (pages);
  cairo_t *cr = pages->pdf.cr;

  month.selected = month.hovered = (FrDate){ 0, 0, 0 };
  fr_pages_put_date (pages, y);
  y = fr_pages_put_text (pages, season->sheet->month_names != NULL ? season->sheet->month_names[at] : NULL,
                         15, TRUE, y, FR_ROLE_INK, "H2")
      + 6;
  cairo_tag_begin (cr, "Figure", NULL);
  cairo_save (cr);
  cairo_translate (cr, FR_PAGES_MARGIN_PT - 6, y);
  fr_month_draw (cr, pages->context, &paper, &month, pages->column_pt + 12, MAX (bottom - y, 60), MONTH_SCALE,
                 NULL);
  cairo_restore (cr);
  cairo_tag_end (cr, "Figure");
  fr_pages_end (pages);
}

GBytes *
fr_season_sheet_pdf (const FrSeasonSheet *sheet, FrSheetSize size, guint *n_pages, GError **error)
{
  SeasonPages season = { .sheet = sheet };
  FrPages *pages = &season.pages;
  FrFieldSheet table;
  guint n_table = 0;

  g_return_val_if_fail (sheet != NULL && sheet->strip != NULL, NULL);

  *pages = (FrPages){ .context = fr_pdf_context_new (sheet->font_family, FALSE),
                      .footer = sheet->footer,
                      .date = sheet->date };
  fr_pages_open (pages, size, TRUE, sheet->title, sheet->author);
  if (sheet->table != NULL)
    {
      table = *sheet->table;
      table.footer = sheet->footer;
      n_table = fr_field_sheet_draw (&table, NULL, pages->context, pages->width_pt, pages->height_pt, 0, 0);
    }
  pages->n_pages = 1 + (guint)sheet->n_months + n_table;
  gboolean ok = draw_strip (&season, error);
  for (gsize i = 0; ok && i < sheet->n_months; i++)
    draw_month (&season, i);
  if (ok && sheet->table != NULL)
    fr_field_sheet_draw (&table, &pages->pdf, pages->context, pages->width_pt, pages->height_pt, pages->page,
                         pages->n_pages);
  GBytes *bytes = fr_pdf_close (&pages->pdf, ok ? error : NULL);
  if (!ok)
    g_clear_pointer (&bytes, g_bytes_unref);
  g_object_unref (pages->context);
  if (bytes != NULL && n_pages != NULL)
    *n_pages = pages->n_pages;
  return bytes;
}
