/* Parts down the page in a fixed order. It is laid out twice: the first time to count the pages. Small text
 * of 12 px becomes 9 pt. */
#include "paint/forecast-sheet.h"

#include "paint/canvas.h"
#include "paint/pages.h"

#include <math.h>

#define SCALE_RATIO 0.75
#define CHART_PT 250.0
#define SEASON_PT 165.0
#define RELIABILITY_PT 225.0
#define CELL_PT 9.5
#define COLUMN_GAP_PT 12.0
#define ROW_GAP_PT 3.0
#define LEAST_TEXT_PT 40.0
#define MOST_MORE_PT 40.0
#define WHOLE_RATIO 0.4 /* of a page: a lower table is not broken */
#define PART_GAP_PT 12.0
#define NOTE_GAP_PT 3.0

static const FrPalette paper = { FR_THEME_PAPER, FALSE };

typedef struct
{
  FrPages pages;
  double y_pt;
} Sheet;

/* What follows needs so much: on the next page if it must. */
static void
need (Sheet *s, double height_pt)
{
  if (s->y_pt + height_pt <= fr_pages_bottom_pt (&s->pages) || s->y_pt <= fr_pages_top_pt (&s->pages) + 1)
    return;
  fr_pages_end (&s->pages);
  s->y_pt = fr_pages_top_pt (&s->pages);
}

static double
text_height (Sheet *s, const char *text, double size_pt, gboolean is_bold)
{
  double width, height = 0;

  if (text == NULL || text[0] == '\0')
    return 0;
  g_autoptr (PangoLayout) layout = fr_pdf_text (s->pages.context, text, size_pt, is_bold, s->pages.column_pt);
  fr_layout_size (layout, &width, &height);
  return MIN (height, s->pages.height_pt / 3);
}

/* A heading and what stands under it stay together. */
static void
put_heading (Sheet *s, const char *text, double with_pt)
{
  need (s, text_height (s, text, 13, TRUE) + 4 + with_pt);
  if (text != NULL && text[0] != '\0')
    s->y_pt = fr_pages_put_text (&s->pages, text, 13, TRUE, s->y_pt, FR_ROLE_INK, "H2") + 4;
}

static void
put_paragraph (Sheet *s, const char *text)
{
  double height = text_height (s, text, CELL_PT, FALSE);

  if (height <= 0)
    return;
  need (s, height);
  s->y_pt = fr_pages_put_text (&s->pages, text, CELL_PT, FALSE, s->y_pt, FR_ROLE_INK_SOFT, "P") + NOTE_GAP_PT;
}

/* Of what stands over it, with the gap after that. */
static void
put_note (Sheet *s, const char *text)
{
  if (text == NULL || text[0] == '\0')
    return;
  s->y_pt -= PART_GAP_PT / 2;
  put_paragraph (s, text);
  s->y_pt += PART_GAP_PT;
}

/* --- tables --- */

typedef struct
{
  Sheet *sheet;
  const FrFieldSheet *table;
  double size_pt;
  double *widths_pt;
} Table;

static PangoLayout *
cell_text (const Table *t, const char *text, gboolean is_bold, double width_pt)
{
  return fr_pdf_text (t->sheet->pages.context, text, t->size_pt, is_bold, width_pt);
}

static double
cell_width (const Table *t, const char *text, gboolean is_bold)
{
  double width, height;
  g_autoptr (PangoLayout) layout = cell_text (t, text, is_bold, 0);

  fr_layout_size (layout, &width, &height);
  return width;
}

static gboolean
is_number (const Table *t, gsize column)
{
  return t->table->columns[column].kind == FR_FIELD_SHEET_NUMBER;
}

/* As wide as their texts; when that is too much, texts wrap, and when that is not enough, type gets smaller.
 */
static void
measure (Table *t)
{
  const FrFieldSheet *table = t->table;

  for (guint tries = 0; tries < 10; tries++)
    {
      double numbers = 0, texts = 0, room = t->sheet->pages.column_pt;
      guint n_texts = 0;
      for (gsize j = 0; j < table->n_columns; j++)
        {
          double widest = cell_width (t, table->columns[j].title, TRUE);
          for (gsize i = 0; i < table->n_rows; i++)
            widest = MAX (widest, cell_width (t, table->cells[i * table->n_columns + j], FALSE));
          t->widths_pt[j] = ceil (widest) + 1;
          numbers += is_number (t, j) ? t->widths_pt[j] : 0;
          texts += is_number (t, j) ? 0 : t->widths_pt[j];
          n_texts += !is_number (t, j);
        }
      room -= COLUMN_GAP_PT * (double)(table->n_columns - 1);
      if (numbers + texts <= room)
        {
          /* What is left over sets them apart, as far as rows can still be followed. */
          double more = MIN ((room - numbers - texts) / (double)table->n_columns, MOST_MORE_PT);
          for (gsize j = 0; j < table->n_columns; j++)
            t->widths_pt[j] += more;
          return;
        }
      if (room - numbers >= LEAST_TEXT_PT * n_texts && n_texts > 0)
        {
          for (gsize j = 0; j < table->n_columns; j++)
            if (!is_number (t, j))
              t->widths_pt[j] = MAX (t->widths_pt[j] * (room - numbers) / texts, LEAST_TEXT_PT);
          return;
        }
      t->size_pt *= 0.9;
    }
}

/* One row at the sheet's y; gives back its height, and only that with @is_measured. */
static double
put_row (const Table *t, const char *const *cells, gboolean is_head, gboolean is_measured)
{
  const FrFieldSheet *table = t->table;
  double x = FR_PAGES_MARGIN_PT, tall = 0;

  for (gsize j = 0; j < table->n_columns; j++)
    {
      const char *text = is_head ? table->columns[j].title : cells[j];
      double width, height;
      g_autoptr (PangoLayout) layout = cell_text (t, text, is_head, t->widths_pt[j]);
      if (is_number (t, j))
        pango_layout_set_alignment (layout, PANGO_ALIGN_RIGHT);
      fr_layout_size (layout, &width, &height);
      tall = MAX (tall, height);
      if (!is_measured && text != NULL && text[0] != '\0')
        fr_pdf_show (t->sheet->pages.pdf.cr, layout, FR_ROLE_INK, x, t->sheet->y_pt, is_head ? "TH" : "TD");
      x += t->widths_pt[j] + COLUMN_GAP_PT;
    }
  return tall + ROW_GAP_PT;
}

static void
put_head (const Table *t)
{
  Sheet *s = t->sheet;
  cairo_t *cr = s->pages.pdf.cr;
  double width = COLUMN_GAP_PT * (double)(t->table->n_columns - 1);

  for (gsize j = 0; j < t->table->n_columns; j++)
    width += t->widths_pt[j];
  cairo_tag_begin (cr, "TR", NULL);
  s->y_pt += put_row (t, NULL, TRUE, FALSE);
  cairo_tag_end (cr, "TR");
  fr_palette_set_source (&paper, cr, FR_ROLE_AXIS, 1);
  cairo_set_line_width (cr, 0.6);
  cairo_move_to (cr, FR_PAGES_MARGIN_PT, s->y_pt - 1);
  cairo_line_to (cr, FR_PAGES_MARGIN_PT + width, s->y_pt - 1);
  cairo_stroke (cr);
  s->y_pt += 2;
}

static void
put_table (Sheet *s, const FrFieldSheet *table)
{
  Table t = { s, table, CELL_PT, NULL };

  if (table == NULL || table->n_columns == 0)
    return;
  t.widths_pt = g_new0 (double, table->n_columns);
  measure (&t);
  double head = put_row (&t, NULL, TRUE, TRUE) + 2;
  double rows = 0, first = 0;
  for (gsize i = 0; i < table->n_rows; i++)
    {
      rows += put_row (&t, table->cells + i * table->n_columns, FALSE, TRUE);
      first = i == 0 ? rows : first;
    }
  put_heading (s, table->title,
               head + (rows <= WHOLE_RATIO * s->pages.height_pt ? rows : first)
                   + text_height (s, table->sentence, CELL_PT, FALSE) + NOTE_GAP_PT);
  put_paragraph (s, table->sentence);
  /* A table's tag ends with its page. */
  cairo_tag_begin (s->pages.pdf.cr, "Table", NULL);
  put_head (&t);
  for (gsize i = 0; i < table->n_rows; i++)
    {
      const char *const *cells = table->cells + i * table->n_columns;
      double y = s->y_pt, height = put_row (&t, cells, FALSE, TRUE);
      if (y + height > fr_pages_bottom_pt (&s->pages) && y > fr_pages_top_pt (&s->pages) + head + 1)
        {
          cairo_tag_end (s->pages.pdf.cr, "Table");
          need (s, s->pages.height_pt);
          cairo_tag_begin (s->pages.pdf.cr, "Table", NULL);
          put_head (&t);
        }
      cairo_tag_begin (s->pages.pdf.cr, "TR", NULL);
      s->y_pt += put_row (&t, cells, FALSE, FALSE);
      cairo_tag_end (s->pages.pdf.cr, "TR");
    }
  cairo_tag_end (s->pages.pdf.cr, "Table");
  s->y_pt += PART_GAP_PT;
  g_free (t.widths_pt);
}

/* --- pictures --- */

/* Moved out to the left, so that their scales' numbers and names stand under the headings. */
static void
begin_figure (Sheet *s, double x_pt)
{
  cairo_tag_begin (s->pages.pdf.cr, "Figure", NULL);
  cairo_save (s->pages.pdf.cr);
  cairo_translate (s->pages.pdf.cr, x_pt, s->y_pt);
}

static void
end_figure (Sheet *s, double height_pt)
{
  cairo_restore (s->pages.pdf.cr);
  cairo_tag_end (s->pages.pdf.cr, "Figure");
  s->y_pt += height_pt + PART_GAP_PT;
}

static void
put_chart (Sheet *s, const FrForecastChart *chart)
{
  const FrDate none = { 0, 0, 0 };

  if (chart == NULL)
    return;
  FrForecastChart still = *chart;
  still.selected = still.hovered = none;
  still.is_focused = FALSE;
  need (s, CHART_PT);
  begin_figure (s, FR_PAGES_MARGIN_PT - 14);
  fr_forecast_chart_draw (s->pages.pdf.cr, s->pages.context, &paper, &still, s->pages.column_pt + 28,
                          CHART_PT, SCALE_RATIO, NULL, NULL);
  end_figure (s, CHART_PT);
}

static void
put_season (Sheet *s, const char *title, const FrForecastSeason *season)
{
  if (season == NULL)
    return;
  FrForecastSeason still = *season;
  still.selected = (FrDate){ 0, 0, 0 };
  put_heading (s, title, SEASON_PT);
  begin_figure (s, FR_PAGES_MARGIN_PT - 8);
  fr_forecast_season_draw (s->pages.pdf.cr, s->pages.context, &paper, &still, s->pages.column_pt + 16,
                           SEASON_PT, SCALE_RATIO, NULL);
  end_figure (s, SEASON_PT);
}

static void
put_reliability (Sheet *s, const char *title, const FrForecastReliability *reliability)
{
  if (reliability == NULL)
    return;
  FrForecastReliability still = *reliability;
  still.chosen = -1;
  put_heading (s, title, RELIABILITY_PT);
  begin_figure (s, FR_PAGES_MARGIN_PT - 8);
  fr_forecast_reliability_draw (s->pages.pdf.cr, s->pages.context, &paper, &still,
                                MIN (s->pages.column_pt + 16, 1.4 * RELIABILITY_PT), RELIABILITY_PT,
                                SCALE_RATIO, NULL);
  end_figure (s, RELIABILITY_PT);
}

static gboolean
put_all (Sheet *s, const FrForecastSheet *sheet, GError **error)
{
  FrPages *pages = &s->pages;

  s->y_pt = fr_pages_top_pt (pages);
  fr_pages_put_date (pages, s->y_pt);
  s->y_pt = fr_pages_put_text (pages, sheet->title, 17, TRUE, s->y_pt, FR_ROLE_INK, "H1") + 4;
  if (!fr_pages_put_answer (pages, sheet->sentence_markup, &s->y_pt, error))
    return FALSE;
  s->y_pt = fr_pages_put_text (pages, sheet->reason, 10.5, FALSE, s->y_pt + 2, FR_ROLE_INK_SOFT, "P") + 6;
  put_chart (s, sheet->chart);
  put_table (s, sheet->days);
  put_season (s, sheet->season_title, sheet->season);
  put_note (s, sheet->season_note);
  put_table (s, sheet->scores);
  put_note (s, sheet->scores_note);
  put_reliability (s, sheet->reliability_title, sheet->reliability);
  fr_pages_end (pages);
  return TRUE;
}

static GBytes *
make (const FrForecastSheet *sheet, FrSheetSize size, guint n_pages, guint *n_made, GError **error)
{
  Sheet s = { .pages = { .context = fr_pdf_context_new (sheet->font_family, FALSE),
                         .n_pages = n_pages,
                         .footer = sheet->footer,
                         .date = sheet->date } };

  fr_pages_open (&s.pages, size, FALSE, sheet->title, sheet->author);
  gboolean ok = put_all (&s, sheet, error);
  GBytes *bytes = fr_pdf_close (&s.pages.pdf, ok ? error : NULL);
  if (!ok)
    g_clear_pointer (&bytes, g_bytes_unref);
  *n_made = s.pages.page;
  g_object_unref (s.pages.context);
  return bytes;
}

GBytes *
fr_forecast_sheet_pdf (const FrForecastSheet *sheet, FrSheetSize size, guint *n_pages, GError **error)
{
  guint n = 0;

  g_return_val_if_fail (sheet != NULL, NULL);

  GBytes *bytes = make (sheet, size, 1, &n, error);
  if (bytes != NULL && n > 1)
    {
      g_bytes_unref (bytes);
      bytes = make (sheet, size, n, &n, error);
    }
  if (bytes != NULL && n_pages != NULL)
    *n_pages = n;
  return bytes;
}
