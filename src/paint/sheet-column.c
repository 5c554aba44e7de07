/* From texts to blocks. Figures stand in as many equal cells a row as their widest value allows; a row that
 * would eat up half the page, because somebody wrote an essay into a note, becomes plain paragraphs. */
#include "paint/sheet-private.h"

#include <math.h>

#define MOST_CELLS 5
#define CELL_GAP_PT 14.0
#define MARK_PT 18.0

static void
block_clear (gpointer data)
{
  FrBlock *block = data;

  g_clear_object (&block->layout);
  g_clear_pointer (&block->cells, g_array_unref);
}

static void
cell_clear (gpointer data)
{
  FrCellText *cell = data;

  g_object_unref (cell->layout);
}

static double
type_size (const FrColumn *column, double size_pt, double least_pt)
{
  return MAX (size_pt * column->type_ratio, least_pt);
}

static PangoLayout *
new_layout (const FrColumn *column, const char *text, gboolean is_markup, double size_pt, gboolean bold,
            double width_pt, GError **error)
{
  PangoLayout *layout = pango_layout_new (column->context);
  PangoFontDescription *font
      = pango_font_description_copy (pango_context_get_font_description (column->context));
  PangoAttrList *attributes = NULL;
  g_autofree char *plain = NULL;

  if (is_markup)
    {
      if (!pango_parse_markup (text, -1, 0, &attributes, &plain, NULL, error))
        {
          pango_font_description_free (font);
          g_object_unref (layout);
          return NULL;
        }
      text = plain;
    }
  else
    attributes = pango_attr_list_new ();
  pango_attr_list_insert_before (attributes, pango_attr_font_features_new ("tnum=1"));
  pango_font_description_set_absolute_size (font, size_pt * PANGO_SCALE);
  if (bold)
    pango_font_description_set_weight (font, PANGO_WEIGHT_BOLD);
  pango_layout_set_font_description (layout, font);
  pango_layout_set_text (layout, text, -1);
  pango_layout_set_attributes (layout, attributes);
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  if (width_pt > 0)
    pango_layout_set_width (layout, (int)(width_pt * PANGO_SCALE));
  pango_attr_list_unref (attributes);
  pango_font_description_free (font);
  return layout;
}

/* Takes the layout. */
static void
add_paragraph (FrColumn *column, PangoLayout *layout, double gap_pt, double indent_pt, FrRole role,
               FrMark mark, const char *tag, gboolean is_heading)
{
  PangoLayoutIter *iter = pango_layout_get_iter (layout);
  guint paragraph = column->n_paragraphs++;
  int n_lines = pango_layout_get_line_count (layout), line = 0;

  do
    {
      PangoRectangle logical;
      pango_layout_iter_get_line_extents (iter, NULL, &logical);
      FrBlock block = {
        .kind = FR_BLOCK_LINE,
        .gap_pt = line == 0 ? gap_pt : 0,
        .height_pt = (double)logical.height / PANGO_SCALE,
        .x_pt = column->sheet->right_to_left ? 0 : indent_pt,
        /* No single line at the foot of a page, and no heading without what it heads. */
        .keep_with_next = is_heading || (line == 0 && n_lines > 1),
        .paragraph = paragraph,
        .tag = tag,
        .layout = g_object_ref (layout),
        .line = line,
        .mark = line == 0 ? mark : FR_MARK_NONE,
        .role = role,
      };
      g_array_append_val (column->blocks, block);
      line++;
    }
  while (pango_layout_iter_next_line (iter));
  pango_layout_iter_free (iter);
  g_object_unref (layout);
}

static void
add_text (FrColumn *column, const char *text, double size_pt, gboolean bold, FrRole role, double gap_pt,
          const char *tag, gboolean is_heading)
{
  if (text != NULL && text[0] != '\0')
    add_paragraph (column, new_layout (column, text, FALSE, size_pt, bold, column->width_pt, NULL), gap_pt, 0,
                   role, FR_MARK_NONE, tag, is_heading);
}

static gboolean
add_markup (FrColumn *column, const char *markup, double size_pt, double gap_pt, GError **error)
{
  if (markup == NULL || markup[0] == '\0')
    return TRUE;
  PangoLayout *layout = new_layout (column, markup, TRUE, size_pt, FALSE, column->width_pt, error);
  if (layout == NULL)
    return FALSE;
  add_paragraph (column, layout, gap_pt, 0, FR_ROLE_INK, FR_MARK_NONE, "P", FALSE);
  return TRUE;
}

static void
add_rule (FrColumn *column, double gap_pt)
{
  FrBlock block
      = { .kind = FR_BLOCK_RULE, .gap_pt = gap_pt, .height_pt = 1, .paragraph = column->n_paragraphs++ };

  g_array_append_val (column->blocks, block);
}

/* Adds one text to a cell and moves y below it. */
static void
put_in_cell (GArray *cells, PangoLayout *layout, double x_pt, double *y_pt, FrRole role)
{
  double width, height;
  FrCellText cell = { x_pt, *y_pt, layout, role };

  fr_layout_size (layout, &width, &height);
  g_array_append_val (cells, cell);
  *y_pt += height;
}

static gboolean
widest_value (FrColumn *column, const FrSheetFigure *figures, gsize n, double size_pt, gboolean bold,
              double *widest_pt, GError **error)
{
  *widest_pt = 0;
  for (gsize i = 0; i < n; i++)
    {
      double width, height;
      if (figures[i].value_markup == NULL)
        continue;
      g_autoptr (PangoLayout) layout
          = new_layout (column, figures[i].value_markup, TRUE, size_pt, bold, 0, error);
      if (layout == NULL)
        return FALSE;
      fr_layout_size (layout, &width, &height);
      *widest_pt = MAX (*widest_pt, width);
    }
  return TRUE;
}

static gboolean
add_row (FrColumn *column, const FrSheetFigure *figures, gsize n, guint n_cells, double size_pt,
         double label_pt, gboolean bold, double gap_pt, GError **error)
{
  double cell_pt = (column->width_pt - CELL_GAP_PT * (n_cells - 1)) / n_cells;
  FrBlock block
      = { .kind = FR_BLOCK_CELLS, .gap_pt = gap_pt, .paragraph = column->n_paragraphs++, .tag = "P" };

  block.cells = g_array_new (FALSE, FALSE, sizeof (FrCellText));
  g_array_set_clear_func (block.cells, cell_clear);
  for (gsize i = 0; i < n; i++)
    {
      const FrSheetFigure *f = &figures[i];
      gsize place = column->sheet->right_to_left ? n_cells - 1 - i : i;
      double x = place * (cell_pt + CELL_GAP_PT), y = 0;
      if (f->label != NULL)
        put_in_cell (block.cells, new_layout (column, f->label, FALSE, label_pt, FALSE, cell_pt, NULL), x, &y,
                     FR_ROLE_INK_SOFT);
      if (f->value_markup != NULL)
        {
          PangoLayout *layout = new_layout (column, f->value_markup, TRUE, size_pt, bold, cell_pt, error);
          if (layout == NULL)
            {
              g_array_unref (block.cells);
              return FALSE;
            }
          put_in_cell (block.cells, layout, x, &y, FR_ROLE_INK);
        }
      if (f->note != NULL)
        put_in_cell (block.cells,
                     new_layout (column, f->note, FALSE, type_size (column, 9.5, FR_SHEET_LEAST_TYPE_PT),
                                 FALSE, cell_pt, NULL),
                     x, &y, FR_ROLE_INK_SOFT);
      block.height_pt = MAX (block.height_pt, y);
    }
  if (block.height_pt <= 0.45 * column->room_pt)
    {
      g_array_append_val (column->blocks, block);
      return TRUE;
    }

  g_array_unref (block.cells);
  for (gsize i = 0; i < n; i++)
    {
      add_text (column, figures[i].label, label_pt, FALSE, FR_ROLE_INK_SOFT, gap_pt, "P", TRUE);
      if (!add_markup (column, figures[i].value_markup, MIN (size_pt, 40), 0, error))
        return FALSE;
      add_text (column, figures[i].note, type_size (column, 9.5, FR_SHEET_LEAST_TYPE_PT), FALSE,
                FR_ROLE_INK_SOFT, 0, "P", FALSE);
    }
  return TRUE;
}

static gboolean
add_figures (FrColumn *column, const FrSheetFigure *figures, gsize n, double size_pt, double label_pt,
             gboolean bold, double gap_pt, GError **error)
{
  double widest;

  if (n == 0)
    return TRUE;
  if (!widest_value (column, figures, n, size_pt, bold, &widest, error))
    return FALSE;
  guint n_cells
      = (guint)CLAMP (floor ((column->width_pt + CELL_GAP_PT) / (widest + CELL_GAP_PT)), 1, MOST_CELLS);
  n_cells = (guint)MIN (n_cells, n);
  /* Rows of equal length: 2 + 2 rather than 3 + 1. */
  guint n_rows = (guint)((n + n_cells - 1) / n_cells);
  n_cells = (guint)((n + n_rows - 1) / n_rows);
  for (gsize i = 0; i < n; i += n_cells)
    if (!add_row (column, figures + i, MIN (n - i, n_cells), n_cells, size_pt, label_pt, bold,
                  i == 0 ? gap_pt : 8, error))
      return FALSE;
  return TRUE;
}

static gboolean
add_times (FrColumn *column, GError **error)
{
  const FrSheet *sheet = column->sheet;
  g_autofree FrSheetFigure *figures = g_new0 (FrSheetFigure, sheet->n_times + 1);
  gboolean good;

  for (gsize i = 0; i < sheet->n_times; i++)
    figures[i]
        = (FrSheetFigure){ sheet->times[i].word, g_markup_escape_text (sheet->times[i].time, -1), NULL };
  good = add_figures (column, figures, sheet->n_times, type_size (column, 58, FR_SHEET_LEAST_TIME_PT),
                      type_size (column, 17, 12), TRUE, 14, error);
  for (gsize i = 0; i < sheet->n_times; i++)
    g_free ((char *)figures[i].value_markup);
  return good;
}

static void
add_cautions (FrColumn *column)
{
  const FrSheet *sheet = column->sheet;
  double size = type_size (column, 12, FR_SHEET_LEAST_TYPE_PT);

  for (gsize i = 0; i < sheet->n_cautions; i++)
    {
      const FrSheetCaution *c = &sheet->cautions[i];
      if (c->text == NULL || c->text[0] == '\0')
        continue;
      add_paragraph (
          column, new_layout (column, c->text, FALSE, size, FALSE, column->width_pt - MARK_PT, NULL),
          i == 0 ? 5 : 4, MARK_PT, FR_ROLE_INK, c->passed ? FR_MARK_TICK : FR_MARK_TRIANGLE, "P", FALSE);
    }
}

gboolean
fr_column_fill (FrColumn *column, GError **error)
{
  const FrSheet *sheet = column->sheet;
  double small = type_size (column, 11, FR_SHEET_LEAST_TYPE_PT), heading = type_size (column, 13, 10);

  column->blocks = g_array_new (FALSE, FALSE, sizeof (FrBlock));
  g_array_set_clear_func (column->blocks, block_clear);
  add_text (column, sheet->title, type_size (column, 20, 13), TRUE, FR_ROLE_INK, 0, "H1", TRUE);
  add_text (column, sheet->date, small, FALSE, FR_ROLE_INK_SOFT, 0, "P", FALSE);
  if (column->blocks->len > 0)
    add_rule (column, 6);
  if (!add_markup (column, sheet->sentence_markup, type_size (column, 20, 13), 10, error))
    return FALSE;
  add_text (column, sheet->reason, type_size (column, 12, FR_SHEET_LEAST_TYPE_PT), FALSE, FR_ROLE_INK_SOFT, 4,
            "P", FALSE);
  if (!add_times (column, error))
    return FALSE;
  if (sheet->n_figures > 0)
    add_rule (column, 8);
  if (!add_figures (column, sheet->figures, sheet->n_figures, type_size (column, 18, 11),
                    type_size (column, 10, FR_SHEET_LEAST_TYPE_PT), FALSE, 9, error))
    return FALSE;
  if (sheet->trace != NULL)
    {
      FrBlock block = { .kind = FR_BLOCK_TRACE,
                        .gap_pt = 10,
                        .height_pt = MAX (205 * column->type_ratio, 165),
                        .paragraph = column->n_paragraphs++,
                        .tag = "Figure" };
      g_array_append_val (column->blocks, block);
    }
  if (sheet->n_feeds > 0)
    {
      add_text (column, sheet->feed_heading, heading, TRUE, FR_ROLE_INK, 8, "H2", TRUE);
      if (!add_figures (column, sheet->feeds, sheet->n_feeds, type_size (column, 18, 11),
                        type_size (column, 10, FR_SHEET_LEAST_TYPE_PT), FALSE, 5, error))
        return FALSE;
    }
  if (sheet->n_cautions > 0)
    {
      add_rule (column, 9);
      add_text (column, sheet->cautions_heading, heading, TRUE, FR_ROLE_INK, 8, "H2", TRUE);
      add_cautions (column);
    }
  return TRUE;
}

void
fr_column_clear (FrColumn *column)
{
  g_clear_pointer (&column->blocks, g_array_unref);
  column->n_paragraphs = 0;
}
