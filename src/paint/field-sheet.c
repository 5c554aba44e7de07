/* The table. Columns of words get their natural width if all have room, else they give way in proportion down
 * to their longest word; then the type gets smaller down to its floor, and last of all words break. Boxes
 * share what is left over. A row taller than a page is continued on the next one line by line. */
#include "paint/field-sheet.h"

#include "paint/canvas.h"
#include "paint/field-sheet-private.h"

#include <math.h>

#define MARGIN_PT 42.0
#define CELL_PAD_PT 4.0
#define ROW_PAD_PT 3.5
#define TYPE_PT 10.0
#define LEAST_TYPE_PT 8.0
#define BOX_M 0.018
#define ROW_M 0.008

static const FrPalette paper = { FR_THEME_PAPER, FALSE };

typedef struct
{
  const FrFieldSheet *sheet;
  PangoContext *context;
  double page_width_pt;
  double page_height_pt;
  double width_pt;
  double type_pt;
  double *column_pt; /* widths with their padding */
  double head_pt;    /* height of the header row */
  double foot_pt;
  double row_pt; /* least height */
  FrPdf *pdf;
  guint page; /* of this sheet, from 0 */
  guint n_before;
  guint n_all; /* pages of the document */
  double y_pt;
  gboolean is_counting;
} Table;

static const char *
cell (const FrFieldSheet *sheet, gsize row, gsize column)
{
  const char *text = sheet->cells[row * sheet->n_columns + column];

  return text != NULL ? text : "";
}

static void
measure (const Table *table, const char *text, gboolean is_bold, double *natural_pt, double *least_pt)
{
  double width, height;

  if (text == NULL || text[0] == '\0')
    return;
  g_autoptr (PangoLayout) layout = fr_pdf_text (table->context, text, table->type_pt, is_bold, 0);
  fr_layout_size (layout, &width, &height);
  *natural_pt = MAX (*natural_pt, ceil (width) + 1);
  /* Broken at every chance, a text is as wide as its longest word. */
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD);
  pango_layout_set_width (layout, 0);
  fr_layout_size (layout, &width, &height);
  *least_pt = MAX (*least_pt, ceil (width) + 1);
}

static double
box_least (const FrFieldColumn *column)
{
  return (column->width_m > 0 && isfinite (column->width_m) ? column->width_m : BOX_M) * FR_PDF_PT_PER_M;
}

/* How wide a column may be so that all have room: only the widest ones give way. */
static double
widest_column (const Table *table, const double *natural, const double *least)
{
  double low = 0, high = table->width_pt;

  for (guint step = 0; step < 50; step++)
    {
      double cap = (low + high) / 2, sum = 0;
      for (gsize i = 0; i < table->sheet->n_columns; i++)
        sum += MIN (natural[i], MAX (least[i], cap));
      if (sum > table->width_pt)
        high = cap;
      else
        low = cap;
    }
  return low;
}

/* Sets the columns at the present size of type. FALSE: some word has to be broken. */
static gboolean
fit_columns (Table *table)
{
  const FrFieldSheet *s = table->sheet;
  g_autofree double *natural = g_new0 (double, s->n_columns);
  g_autofree double *least = g_new0 (double, s->n_columns);
  double all_natural = 0, all_least = 0, shares = 0;

  for (gsize i = 0; i < s->n_columns; i++)
    {
      const FrFieldColumn *column = &s->columns[i];
      measure (table, column->title, TRUE, &natural[i], &least[i]);
      if (column->kind == FR_FIELD_SHEET_BOX)
        {
          least[i] = MAX (least[i], box_least (column) - 2 * CELL_PAD_PT);
          natural[i] = least[i];
          shares += column->share_ratio > 0 ? column->share_ratio : 1;
        }
      else
        for (gsize row = 0; row < s->n_rows; row++)
          measure (table, cell (s, row, i), FALSE, &natural[i], &least[i]);
      /* "150 cm" stays on one line while there is a page for it. */
      if (column->kind == FR_FIELD_SHEET_NUMBER && natural[i] < table->width_pt / 6)
        least[i] = natural[i];
      natural[i] += 2 * CELL_PAD_PT;
      least[i] += 2 * CELL_PAD_PT;
      all_natural += natural[i];
      all_least += least[i];
    }
  double spare = table->width_pt - all_natural;
  double cap = spare < 0 && all_least <= table->width_pt ? widest_column (table, natural, least) : 0;
  for (gsize i = 0; i < s->n_columns; i++)
    {
      const FrFieldColumn *column = &s->columns[i];
      if (spare >= 0)
        {
          double share = column->share_ratio > 0 ? column->share_ratio : 1;
          table->column_pt[i] = natural[i];
          if (shares > 0)
            table->column_pt[i] += column->kind == FR_FIELD_SHEET_BOX ? spare * share / shares : 0;
          else
            table->column_pt[i] += spare / s->n_columns;
        }
      else if (all_least <= table->width_pt)
        table->column_pt[i] = MIN (natural[i], MAX (least[i], cap));
      else
        table->column_pt[i] = least[i] * table->width_pt / all_least;
    }
  return all_least <= table->width_pt;
}

static double
column_x (const Table *table, gsize column)
{
  double x = 0;

  for (gsize i = 0; i < column; i++)
    x += table->column_pt[i];
  return table->sheet->right_to_left ? table->page_width_pt - MARGIN_PT - x - table->column_pt[column]
                                     : MARGIN_PT + x;
}

static PangoLayout *
cell_layout (const Table *table, gsize column, const char *text, gboolean is_bold, double size_pt)
{
  PangoLayout *layout
      = fr_pdf_text (table->context, text, size_pt, is_bold, table->column_pt[column] - 2 * CELL_PAD_PT);

  if (table->sheet->columns[column].kind == FR_FIELD_SHEET_NUMBER)
    pango_layout_set_alignment (layout, table->sheet->right_to_left ? PANGO_ALIGN_LEFT : PANGO_ALIGN_RIGHT);
  return layout;
}

static double
cell_size (const Table *table, gsize column)
{
  return table->sheet->columns[column].kind == FR_FIELD_SHEET_BOX ? LEAST_TYPE_PT : table->type_pt;
}

static void
rule (const Table *table, double y_pt, FrRole role, double line_pt)
{
  cairo_t *cr;

  if (table->is_counting)
    return;
  cr = table->pdf->cr;
  fr_palette_set_source (&paper, cr, role, 1);
  cairo_set_line_width (cr, line_pt);
  cairo_move_to (cr, MARGIN_PT, y_pt);
  cairo_line_to (cr, MARGIN_PT + table->width_pt, y_pt);
  cairo_stroke (cr);
}

static void
draw_header (Table *table)
{
  const FrFieldSheet *s = table->sheet;

  if (!table->is_counting)
    {
      cairo_t *cr = table->pdf->cr;
      cairo_tag_begin (cr, "TR", NULL);
      for (gsize i = 0; i < s->n_columns; i++)
        {
          double width, height;
          g_autoptr (PangoLayout) layout = cell_layout (table, i, s->columns[i].title, TRUE, table->type_pt);
          fr_layout_size (layout, &width, &height);
          fr_pdf_show (cr, layout, FR_ROLE_INK, column_x (table, i) + CELL_PAD_PT,
                       table->y_pt + table->head_pt - ROW_PAD_PT - height, "TH");
        }
      cairo_tag_end (cr, "TR");
    }
  table->y_pt += table->head_pt;
  rule (table, table->y_pt, FR_ROLE_INK_SOFT, 1);
}

static void
draw_foot (const Table *table)
{
  double width, height, y = table->page_height_pt - MARGIN_PT + 14 - table->foot_pt;
  cairo_t *cr = table->pdf->cr;

  if (table->sheet->footer != NULL && table->sheet->footer[0] != '\0')
    {
      g_autoptr (PangoLayout) layout
          = fr_pdf_text (table->context, table->sheet->footer, 8.5, FALSE, table->width_pt - 50);
      fr_pdf_show (cr, layout, FR_ROLE_INK_SOFT, MARGIN_PT + (table->sheet->right_to_left ? 50 : 0), y, "P");
    }
  /* The mark makes it read from the left in every language. */
  g_autofree char *text = g_strdup_printf ("\u200e%u / %u", table->n_before + table->page + 1, table->n_all);
  g_autoptr (PangoLayout) layout = fr_pdf_text (table->context, text, 8.5, FALSE, 0);
  fr_layout_size (layout, &width, &height);
  fr_pdf_show (cr, layout, FR_ROLE_INK_SOFT,
               table->sheet->right_to_left ? MARGIN_PT : MARGIN_PT + table->width_pt - width, y, "P");
}

static double
room_end (const Table *table)
{
  return table->page_height_pt - MARGIN_PT - table->foot_pt + 4;
}

static void
end_page (Table *table)
{
  if (!table->is_counting)
    {
      cairo_tag_end (table->pdf->cr, "Table");
      draw_foot (table);
      cairo_show_page (table->pdf->cr);
    }
  table->page++;
}

static void
begin_table (Table *table)
{
  if (!table->is_counting)
    cairo_tag_begin (table->pdf->cr, "Table", NULL);
  draw_header (table);
}

static void
next_page (Table *table)
{
  end_page (table);
  table->y_pt = MARGIN_PT - 6;
  begin_table (table);
}

static void
paragraph (Table *table, const char *text, double size_pt, gboolean is_bold, FrRole role, double gap_pt,
           const char *tag)
{
  double width, height;

  if (text == NULL || text[0] == '\0')
    return;
  table->y_pt += gap_pt;
  /* A heading that fills half a page is a mistake of its writer's, but still read whole: smaller. */
  for (double size = size_pt;; size *= 0.85)
    {
      g_autoptr (PangoLayout) layout = fr_pdf_text (table->context, text, size, is_bold, table->width_pt);
      fr_layout_size (layout, &width, &height);
      if (height > table->page_height_pt * 0.3 && size > 3)
        continue;
      if (!table->is_counting)
        fr_pdf_show (table->pdf->cr, layout, role, MARGIN_PT, table->y_pt, tag);
      table->y_pt += height;
      return;
    }
}

/* The lines of a cell that begin between two heights of its text. */
static void
show_lines (cairo_t *cr, PangoLayout *layout, double x_pt, double y_pt, double from_pt, double to_pt,
            FrRole role)
{
  PangoLayoutIter *iter = pango_layout_get_iter (layout);

  fr_palette_set_source (&paper, cr, role, 1);
  do
    {
      PangoRectangle logical;
      pango_layout_iter_get_line_extents (iter, NULL, &logical);
      double top = (double)logical.y / PANGO_SCALE;
      if (top < from_pt - 0.01 || top >= to_pt - 0.01)
        continue;
      cairo_move_to (cr, x_pt + (double)logical.x / PANGO_SCALE,
                     y_pt - from_pt + (double)pango_layout_iter_get_baseline (iter) / PANGO_SCALE);
      pango_cairo_show_layout_line (cr, pango_layout_iter_get_line_readonly (iter));
    }
  while (pango_layout_iter_next_line (iter));
  pango_layout_iter_free (iter);
}

static void
draw_piece (Table *table, PangoLayout **cells, double height_pt, double down_pt, double from_pt, double to_pt)
{
  const FrFieldSheet *s = table->sheet;

  if (!table->is_counting)
    {
      cairo_t *cr = table->pdf->cr;
      cairo_tag_begin (cr, "TR", NULL);
      for (gsize i = 0; i < s->n_columns; i++)
        {
          double x = column_x (table, i);
          gboolean is_box = s->columns[i].kind == FR_FIELD_SHEET_BOX;
          if (is_box)
            {
              cairo_rectangle (cr, x + 2, table->y_pt + 2.5, table->column_pt[i] - 4, height_pt - 5);
              fr_palette_set_source (&paper, cr, FR_ROLE_AXIS, 1);
              cairo_set_line_width (cr, 0.6);
              cairo_stroke (cr);
            }
          cairo_tag_begin (cr, "TD", NULL);
          show_lines (cr, cells[i], x + CELL_PAD_PT, table->y_pt + (is_box ? ROW_PAD_PT : down_pt), from_pt,
                      to_pt, is_box ? FR_ROLE_INK_SOFT : FR_ROLE_INK);
          cairo_tag_end (cr, "TD");
        }
      cairo_tag_end (cr, "TR");
    }
  table->y_pt += height_pt;
  rule (table, table->y_pt, FR_ROLE_CARD_EDGE, 0.5);
}

static double
heading_height (const Table *table, const char *text)
{
  double width, height;

  if (text == NULL || text[0] == '\0')
    return 0;
  g_autoptr (PangoLayout) layout
      = fr_pdf_text (table->context, text, table->type_pt + 1, TRUE, table->width_pt);
  fr_layout_size (layout, &width, &height);
  return height + 12;
}

static void
draw_row (Table *table, gsize row)
{
  const FrFieldSheet *s = table->sheet;
  g_autofree PangoLayout **cells = g_new (PangoLayout *, s->n_columns);
  const char *heading = s->headings != NULL ? s->headings[row] : NULL;
  double width, height, text = 0, line = 0;

  for (gsize i = 0; i < s->n_columns; i++)
    {
      cells[i] = cell_layout (table, i, cell (s, row, i), FALSE, cell_size (table, i));
      fr_layout_size (cells[i], &width, &height);
      text = MAX (text, height);
      line = MAX (line, height / pango_layout_get_line_count (cells[i]));
    }
  double need = MAX (table->row_pt, text + 2 * ROW_PAD_PT), above = heading_height (table, heading);
  double whole = room_end (table) - (MARGIN_PT - 6) - table->head_pt;
  gboolean at_top = table->y_pt <= MARGIN_PT - 6 + table->head_pt + 0.01;
  if (!at_top && table->y_pt + above + MIN (need, whole - above) > room_end (table))
    next_page (table);
  if (above > 0)
    {
      paragraph (table, heading, table->type_pt + 1, TRUE, FR_ROLE_INK, 8, "P");
      table->y_pt += 4;
      rule (table, table->y_pt, FR_ROLE_CARD_EDGE, 0.5);
    }
  for (double from = 0;;)
    {
      double room = room_end (table) - table->y_pt - 2 * ROW_PAD_PT;
      if (text - from <= room + 0.01)
        {
          draw_piece (table, cells, from > 0 ? MAX (text - from + 2 * ROW_PAD_PT, table->row_pt) : need,
                      from > 0 ? ROW_PAD_PT : (need - text) / 2, from, INFINITY);
          break;
        }
      double take = MAX (floor (room / line), 1) * line;
      draw_piece (table, cells, take + 2 * ROW_PAD_PT, ROW_PAD_PT, from, from + take);
      from += take;
      next_page (table);
    }
  for (gsize i = 0; i < s->n_columns; i++)
    g_object_unref (cells[i]);
}

static void
run (Table *table, gboolean is_counting)
{
  const FrFieldSheet *s = table->sheet;
  double width, height;

  table->is_counting = is_counting;
  table->page = 0;
  table->y_pt = MARGIN_PT - 6;
  if (s->date != NULL && s->date[0] != '\0')
    {
      g_autoptr (PangoLayout) layout = fr_pdf_text (table->context, s->date, 9.5, FALSE, table->width_pt);
      pango_layout_set_alignment (layout, s->right_to_left ? PANGO_ALIGN_LEFT : PANGO_ALIGN_RIGHT);
      fr_layout_size (layout, &width, &height);
      if (!is_counting)
        fr_pdf_show (table->pdf->cr, layout, FR_ROLE_INK_SOFT, MARGIN_PT, table->y_pt, "P");
      table->y_pt += height;
    }
  paragraph (table, s->title, 17, TRUE, FR_ROLE_INK, 0, "H1");
  paragraph (table, s->sentence, 11, FALSE, FR_ROLE_INK, 4, "P");
  table->y_pt += 8;
  begin_table (table);
  for (gsize row = 0; row < s->n_rows; row++)
    draw_row (table, row);
  end_page (table);
}

guint
fr_field_sheet_draw (const FrFieldSheet *sheet, FrPdf *pdf, PangoContext *context, double page_width_pt,
                     double page_height_pt, guint n_before, guint n_all)
{
  Table table = { .sheet = sheet,
                  .context = context,
                  .page_width_pt = page_width_pt,
                  .page_height_pt = page_height_pt,
                  .width_pt = page_width_pt - 2 * MARGIN_PT,
                  .row_pt = (sheet->row_height_m > 0 ? sheet->row_height_m : ROW_M) * FR_PDF_PT_PER_M,
                  .foot_pt = 12,
                  .pdf = pdf,
                  .n_before = n_before,
                  .n_all = n_all };
  g_autofree double *columns = g_new0 (double, sheet->n_columns);
  double width, height;

  table.column_pt = columns;
  for (table.type_pt = TYPE_PT; !fit_columns (&table) && table.type_pt > LEAST_TYPE_PT; table.type_pt -= 1)
    ;
  for (gsize i = 0; i < sheet->n_columns; i++)
    {
      g_autoptr (PangoLayout) layout = cell_layout (&table, i, sheet->columns[i].title, TRUE, table.type_pt);
      fr_layout_size (layout, &width, &height);
      table.head_pt = MAX (table.head_pt, height + 2 * ROW_PAD_PT);
    }
  table.head_pt = MIN (table.head_pt, table.page_height_pt / 3);
  if (sheet->footer != NULL)
    {
      g_autoptr (PangoLayout) layout
          = fr_pdf_text (table.context, sheet->footer, 8.5, FALSE, table.width_pt - 50);
      fr_layout_size (layout, &width, &height);
      table.foot_pt = CLAMP (height, 12, table.page_height_pt / 3);
    }
  run (&table, pdf == NULL);
  return table.page;
}

GBytes *
fr_field_sheet_pdf (const FrFieldSheet *sheet, FrSheetSize size, guint *n_pages, GError **error)
{
  double width_pt, height_pt;
  FrPdf pdf;

  g_return_val_if_fail (sheet != NULL && sheet->n_columns > 0, NULL);

  PangoContext *context = fr_pdf_context_new (sheet->font_family, sheet->right_to_left);
  fr_pdf_size (size, sheet->is_landscape, &width_pt, &height_pt);
  guint n = fr_field_sheet_draw (sheet, NULL, context, width_pt, height_pt, 0, 0);
  fr_pdf_open (&pdf, width_pt, height_pt, sheet->title, sheet->author);
  fr_field_sheet_draw (sheet, &pdf, context, width_pt, height_pt, 0, n);
  GBytes *bytes = fr_pdf_close (&pdf, error);
  g_object_unref (context);
  if (bytes != NULL && n_pages != NULL)
    *n_pages = n;
  return bytes;
}
