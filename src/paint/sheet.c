/* Pages out of blocks, and the PDF round them. The type is tried at full size and smaller until everything is
 * on one page; if even the smallest is too large the full size is used and the rest goes overleaf. The
 * document carries its title and a structure of headings and paragraphs, so that it can be read aloud. One
 * user unit is one point. */
#include "paint/pdf.h"
#include "paint/sheet-private.h"

#include <math.h>

static const double ratios[] = { 1.0, 0.93, 0.86, 0.8, 0.74 };
static const FrPalette paper = { FR_THEME_PAPER, FALSE };

guint
fr_column_pages (const FrColumn *column, GArray *pages)
{
  double y = 0;
  guint page = 0;

  g_array_set_size (pages, 0);
  for (guint i = 0; i < column->blocks->len; i++)
    {
      const FrBlock *b = &g_array_index (column->blocks, FrBlock, i);
      double need = b->height_pt;
      for (guint k = i; g_array_index (column->blocks, FrBlock, k).keep_with_next
                        && k + 1 < column->blocks->len && k < i + 4;
           k++)
        {
          const FrBlock *next = &g_array_index (column->blocks, FrBlock, k + 1);
          need += next->gap_pt + next->height_pt;
        }
      double gap = y > 0 ? b->gap_pt : 0;
      if (y > 0 && y + gap + need > column->room_pt + 0.01)
        {
          page++;
          y = 0;
          gap = 0;
        }
      y += gap + b->height_pt;
      g_array_append_val (pages, page);
    }
  return page + 1;
}

static void
draw_mark (cairo_t *cr, FrMark mark, double x_pt, double y_pt, double size_pt)
{
  cairo_save (cr);
  cairo_set_line_width (cr, 1.1);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_translate (cr, x_pt, y_pt);
  cairo_scale (cr, size_pt, size_pt);
  if (mark == FR_MARK_TRIANGLE)
    {
      fr_palette_set_source (&paper, cr, FR_ROLE_WARNING, 1);
      cairo_move_to (cr, 0.5, 0.06);
      cairo_line_to (cr, 0.98, 0.92);
      cairo_line_to (cr, 0.02, 0.92);
      cairo_close_path (cr);
      cairo_move_to (cr, 0.5, 0.38);
      cairo_line_to (cr, 0.5, 0.62);
      cairo_move_to (cr, 0.5, 0.77);
      cairo_line_to (cr, 0.5, 0.775);
    }
  else
    {
      fr_palette_set_source (&paper, cr, FR_ROLE_ACCENT, 1);
      cairo_move_to (cr, 0.06, 0.52);
      cairo_line_to (cr, 0.36, 0.84);
      cairo_line_to (cr, 0.94, 0.16);
    }
  cairo_restore (cr);
  cairo_set_line_width (cr, 1.1);
  cairo_stroke (cr);
}

static void
draw_line (const FrColumn *column, const FrBlock *block, cairo_t *cr, double x_pt, double y_pt)
{
  PangoLayoutIter *iter = pango_layout_get_iter (block->layout);
  PangoRectangle logical;

  for (int i = 0; i < block->line; i++)
    pango_layout_iter_next_line (iter);
  pango_layout_iter_get_line_extents (iter, NULL, &logical);
  double baseline = (double)(pango_layout_iter_get_baseline (iter) - logical.y) / PANGO_SCALE;
  if (block->mark != FR_MARK_NONE)
    {
      double size = 0.78 * block->height_pt;
      draw_mark (cr, block->mark, column->sheet->right_to_left ? x_pt + column->width_pt - size : x_pt,
                 y_pt + (block->height_pt - size) / 2, size);
    }
  fr_palette_set_source (&paper, cr, block->role, 1);
  cairo_move_to (cr, x_pt + block->x_pt + (double)logical.x / PANGO_SCALE, y_pt + baseline);
  pango_cairo_show_layout_line (cr, pango_layout_iter_get_line_readonly (iter));
  pango_layout_iter_free (iter);
}

static void
draw_trace (const FrColumn *column, const FrBlock *block, cairo_t *cr, double x_pt, double y_pt)
{
  cairo_save (cr);
  cairo_translate (cr, x_pt, y_pt);
  /* The trace's small text of 12 becomes 9 points. */
  fr_trace_draw (cr, column->context, &paper, column->sheet->trace, column->width_pt, block->height_pt, 0.75,
                 NULL, NULL);
  cairo_restore (cr);
}

void
fr_column_draw_page (const FrColumn *column, const GArray *pages, guint page, cairo_t *cr, double x_pt,
                     double y_pt)
{
  double y = y_pt;
  gboolean first = TRUE;
  const char *open = NULL;
  guint paragraph = 0;

  for (guint i = 0; i < column->blocks->len; i++)
    {
      const FrBlock *b = &g_array_index (column->blocks, FrBlock, i);
      if (g_array_index (pages, guint, i) != page)
        continue;
      y += first ? 0 : b->gap_pt;
      if (open != NULL && (b->paragraph != paragraph))
        {
          cairo_tag_end (cr, open);
          open = NULL;
        }
      if (open == NULL && b->tag != NULL)
        {
          cairo_tag_begin (cr, b->tag, NULL);
          open = b->tag;
          paragraph = b->paragraph;
        }
      switch (b->kind)
        {
        case FR_BLOCK_LINE:
          draw_line (column, b, cr, x_pt, y);
          break;
        case FR_BLOCK_CELLS:
          for (guint k = 0; k < b->cells->len; k++)
            {
              const FrCellText *t = &g_array_index (b->cells, FrCellText, k);
              fr_palette_set_source (&paper, cr, t->role, 1);
              cairo_move_to (cr, x_pt + t->x_pt, y + t->y_pt);
              pango_cairo_show_layout (cr, t->layout);
            }
          break;
        case FR_BLOCK_TRACE:
          draw_trace (column, b, cr, x_pt, y);
          break;
        case FR_BLOCK_RULE:
          fr_palette_set_source (&paper, cr, FR_ROLE_CARD_EDGE, 1);
          cairo_set_line_width (cr, 0.75);
          cairo_move_to (cr, x_pt, y + 0.5);
          cairo_line_to (cr, x_pt + column->width_pt, y + 0.5);
          cairo_stroke (cr);
          break;
        }
      y += b->height_pt;
      first = FALSE;
    }
  if (open != NULL)
    cairo_tag_end (cr, open);
}

static PangoLayout *
foot_layout (const FrColumn *column, const char *text, PangoAlignment alignment)
{
  PangoLayout *layout = pango_layout_new (column->context);
  PangoFontDescription *font
      = pango_font_description_copy (pango_context_get_font_description (column->context));

  pango_font_description_set_absolute_size (font, 8.5 * PANGO_SCALE);
  pango_layout_set_font_description (layout, font);
  pango_layout_set_width (layout,
                          (int)((column->width_pt - (alignment == PANGO_ALIGN_LEFT ? 40 : 0)) * PANGO_SCALE));
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_alignment (layout, alignment);
  pango_layout_set_text (layout, text, -1);
  pango_font_description_free (font);
  return layout;
}

static void
draw_foot (const FrColumn *column, cairo_t *cr, double x_pt, double y_pt, guint page, guint n_pages)
{
  double width, height;

  fr_palette_set_source (&paper, cr, FR_ROLE_INK_SOFT, 1);
  if (column->sheet->footer != NULL)
    {
      g_autoptr (PangoLayout) layout = foot_layout (column, column->sheet->footer, PANGO_ALIGN_LEFT);
      fr_layout_size (layout, &width, &height);
      cairo_tag_begin (cr, "P", NULL);
      cairo_move_to (cr, x_pt + (column->sheet->right_to_left ? 40 : 0), y_pt);
      pango_cairo_show_layout (cr, layout);
      cairo_tag_end (cr, "P");
    }
  if (n_pages > 1)
    {
      /* The mark makes it read from the left in every language. */
      g_autofree char *text = g_strdup_printf ("\u200e%u / %u", page + 1, n_pages);
      g_autoptr (PangoLayout) layout
          = foot_layout (column, text, column->sheet->right_to_left ? PANGO_ALIGN_LEFT : PANGO_ALIGN_RIGHT);
      pango_layout_set_width (layout, (int)(column->width_pt * PANGO_SCALE));
      cairo_move_to (cr, x_pt, y_pt);
      pango_cairo_show_layout (cr, layout);
    }
}

/* What is left of a single page goes to the drawing. */
static void
grow_trace (FrColumn *column)
{
  double used = 0;
  FrBlock *trace = NULL;

  for (guint i = 0; i < column->blocks->len; i++)
    {
      FrBlock *b = &g_array_index (column->blocks, FrBlock, i);
      used += (i > 0 ? b->gap_pt : 0) + b->height_pt;
      if (b->kind == FR_BLOCK_TRACE)
        trace = b;
    }
  if (trace != NULL)
    trace->height_pt += CLAMP (column->room_pt - used - 12, 0, 90);
}

static gboolean
fill_best (FrColumn *column, GArray *pages, guint *n_pages, GError **error)
{
  for (guint i = 0; i <= G_N_ELEMENTS (ratios); i++)
    {
      column->type_ratio = ratios[i % G_N_ELEMENTS (ratios)];
      if (!fr_column_fill (column, error))
        return FALSE;
      *n_pages = fr_column_pages (column, pages);
      if (*n_pages == 1)
        grow_trace (column);
      if (*n_pages == 1 || i == G_N_ELEMENTS (ratios))
        return TRUE;
      fr_column_clear (column);
    }
  return TRUE;
}

GBytes *
fr_sheet_pdf (const FrSheet *sheet, FrSheetSize size, guint *n_pages, GError **error)
{
  double width, height;
  g_autoptr (GArray) pages = g_array_new (FALSE, FALSE, sizeof (guint));
  FrColumn column = { .sheet = sheet };
  double foot = 0, foot_width;
  guint n = 0;

  g_return_val_if_fail (sheet != NULL, NULL);

  fr_pdf_size (size, FALSE, &width, &height);
  column.context = fr_pdf_context_new (sheet->font_family, sheet->right_to_left);
  column.width_pt = width - 2 * FR_SHEET_MARGIN_PT;
  if (sheet->footer != NULL)
    {
      g_autoptr (PangoLayout) layout = foot_layout (&column, sheet->footer, PANGO_ALIGN_LEFT);
      fr_layout_size (layout, &foot_width, &foot);
    }
  foot = MIN (MAX (foot, 12), height / 3);
  column.room_pt = height - 2 * FR_SHEET_MARGIN_PT - foot + 8;
  if (!fill_best (&column, pages, &n, error))
    {
      fr_column_clear (&column);
      g_object_unref (column.context);
      return NULL;
    }

  FrPdf pdf;
  fr_pdf_open (&pdf, width, height, sheet->title, sheet->author);
  for (guint page = 0; page < n; page++)
    {
      fr_column_draw_page (&column, pages, page, pdf.cr, FR_SHEET_MARGIN_PT, FR_SHEET_MARGIN_PT - 6);
      draw_foot (&column, pdf.cr, FR_SHEET_MARGIN_PT, height - FR_SHEET_MARGIN_PT + 14 - foot, page, n);
      cairo_show_page (pdf.cr);
    }
  GBytes *bytes = fr_pdf_close (&pdf, error);
  fr_column_clear (&column);
  g_object_unref (column.context);
  if (bytes != NULL && n_pages != NULL)
    *n_pages = n;
  return bytes;
}
