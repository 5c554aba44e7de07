/* What stands round the plan on each page: title, date, north and the page's name above; key, scale, bar and
 * legend below; and in the strip that neighbouring pages share, crosses that lie on the same ground on both.
 */
#include "paint/map-sheet-private.h"

#include <math.h>

char *
fr_map_tile_name (guint column, guint row)
{
  char letters[8];
  guint at = sizeof letters - 1;

  letters[at] = '\0';
  for (guint rest = column + 1; rest > 0 && at > 0; rest = (rest - 1) / 26)
    letters[--at] = (char)('A' + (rest - 1) % 26);
  return g_strdup_printf ("%s%u", letters + at, row + 1);
}

void
fr_map_page_head (const FrMapPages *layout, FrMapFrame *frame, const char *name)
{
  const FrMapSheet *sheet = layout->sheet;
  cairo_t *cr = frame->cr;
  double width, height, x = FR_MAP_SHEET_MARGIN_PT, y = FR_MAP_SHEET_MARGIN_PT - 8,
                        right = layout->page_width_pt - FR_MAP_SHEET_MARGIN_PT;

  if (sheet->title != NULL && sheet->title[0] != '\0')
    {
      g_autoptr (PangoLayout) title
          = fr_map_page_text (layout, sheet->title, 14, TRUE, layout->frame_width_pt * 0.62, layout->head_pt);
      fr_pdf_show (cr, title, FR_ROLE_INK, x, y, "H1");
    }
  fr_map_put_north (frame, right - 15, y + 13);
  right -= 36;
  if (name != NULL)
    {
      g_autoptr (PangoLayout) words = fr_pdf_text (layout->context, name, 15, TRUE, 0);
      fr_layout_size (words, &width, &height);
      fr_pdf_show (cr, words, FR_ROLE_INK, right - width, y + 2, "P");
      right -= width + 12;
    }
  if (sheet->date != NULL && sheet->date[0] != '\0')
    {
      g_autoptr (PangoLayout) words = fr_map_page_text (layout, sheet->date, 9.5, FALSE,
                                                        layout->frame_width_pt * 0.24, layout->head_pt);
      pango_layout_set_alignment (words, PANGO_ALIGN_RIGHT);
      fr_layout_size (words, &width, &height);
      fr_pdf_show (cr, words, FR_ROLE_INK_SOFT, right - layout->frame_width_pt * 0.24, y + 6, "P");
    }
}

void
fr_map_page_foot (const FrMapPages *layout, FrMapFrame *frame, guint page)
{
  const FrMapSheet *sheet = layout->sheet;
  cairo_t *cr = frame->cr;
  double width, height, x = FR_MAP_SHEET_MARGIN_PT, y = layout->foot_y_pt,
                        right = layout->page_width_pt - FR_MAP_SHEET_MARGIN_PT;

  FrScaleBar bar = { 0, NAN, "" };
  if (sheet->map->unit_name != NULL)
    {
      FrViewport view = fr_map_pages_origin (layout);
      bar = fr_viewport_scale_bar (&view, 120, sheet->map->unit_m, sheet->map->unit_name,
                                   sheet->map->decimal_mark);
      fr_map_put_bar (frame, &bar, right, y + FR_MAP_SHEET_KEY_PT);
      right -= MAX (bar.length_px, 40) + 12;
    }
  g_autofree char *plain = g_strdup_printf ("1 : %.0f", sheet->scale_ratio);
  g_autoptr (PangoLayout) scale
      = fr_pdf_text (layout->context, sheet->scale_text != NULL ? sheet->scale_text : plain, 9.5, TRUE, 0);
  fr_layout_size (scale, &width, &height);
  fr_pdf_show (cr, scale, FR_ROLE_INK, right - width, y + FR_MAP_SHEET_KEY_PT - height + 1, "P");
  right -= width + 14;

  for (guint group = 0; sheet->group_names != NULL && group <= FR_MAP_GROUP_NONE; group++)
    {
      const char *word = sheet->group_names[group];
      FrMapTree tree = { .group = group, .level_ratio = NAN };
      if (word == NULL)
        continue;
      g_autoptr (PangoLayout) words = fr_pdf_text (layout->context, word, 8.5, FALSE, 0);
      fr_layout_size (words, &width, &height);
      if (x + 16 + width > right)
        continue;
      fr_map_symbol_draw (cr, &fr_map_paper, &tree, x + 5, y + FR_MAP_SHEET_KEY_PT - height / 2, 4.4);
      fr_pdf_show (cr, words, FR_ROLE_INK_SOFT, x + 14, y + FR_MAP_SHEET_KEY_PT - height, "P");
      x += 14 + width + 14;
    }
  y += FR_MAP_SHEET_KEY_PT + 6;
  if (layout->tiles.n_pages > 1)
    {
      g_autofree char *text = g_strdup_printf ("%u / %u", page + 1, layout->tiles.n_pages);
      g_autoptr (PangoLayout) words = fr_pdf_text (layout->context, text, 8.5, FALSE, 0);
      fr_layout_size (words, &width, &height);
      fr_pdf_show (cr, words, FR_ROLE_INK_SOFT, layout->page_width_pt - FR_MAP_SHEET_MARGIN_PT - width,
                   layout->page_height_pt - FR_MAP_SHEET_MARGIN_PT + 10 - height / 2, "P");
    }
  if (sheet->legend == NULL || sheet->legend[0] == '\0')
    return;
  g_autoptr (PangoLayout) words
      = fr_map_page_text (layout, sheet->legend, 8.5, FALSE, layout->frame_width_pt, layout->legend_pt);
  fr_pdf_show (cr, words, FR_ROLE_INK_SOFT, FR_MAP_SHEET_MARGIN_PT, y, "P");
}

/* The neighbour's name in the margin with a small arrow to it. @dx, @dy: which side. */
static void
draw_neighbour (const FrMapPages *layout, cairo_t *cr, const char *name, int dx, int dy)
{
  double middle_x = layout->frame_x_pt + layout->frame_width_pt / 2;
  double middle_y = layout->frame_y_pt + layout->frame_height_pt / 2, width, height;
  double x = middle_x + dx * (layout->frame_width_pt / 2 + 12),
         y = middle_y + dy * (layout->frame_height_pt / 2);
  g_autoptr (PangoLayout) words = fr_pdf_text (layout->context, name, 8, TRUE, 0);

  fr_layout_size (words, &width, &height);
  /* Above and below there is less margin, so the name stands inside the frame on a white ground. */
  y -= dy * 10;
  cairo_rectangle (cr, x - width / 2 - 3, y - height / 2 - 1, width + 6 + 8 * abs (dy), height + 2);
  fr_palette_set_source (&fr_map_paper, cr, FR_ROLE_CARD, 0.9);
  cairo_fill (cr);
  fr_pdf_show (cr, words, FR_ROLE_INK_SOFT, x - width / 2, y - height / 2, "P");
  double tip_x = dx != 0 ? x : x + width / 2 + 6, tip_y = dx != 0 ? y + height / 2 + 6 : y;
  cairo_move_to (cr, tip_x + 4 * dx, tip_y + 4 * dy);
  cairo_line_to (cr, tip_x - 2 * dx + 3.5 * dy, tip_y - 2 * dy - 3.5 * dx);
  cairo_line_to (cr, tip_x - 2 * dx - 3.5 * dy, tip_y - 2 * dy + 3.5 * dx);
  cairo_close_path (cr);
  fr_palette_set_source (&fr_map_paper, cr, FR_ROLE_INK_SOFT, 1);
  cairo_fill (cr);
}

static void
cross (cairo_t *cr, double x, double y)
{
  cairo_move_to (cr, x - 6, y);
  cairo_line_to (cr, x + 6, y);
  cairo_move_to (cr, x, y - 6);
  cairo_line_to (cr, x, y + 6);
}

void
fr_map_page_joins (const FrMapPages *layout, cairo_t *cr, guint column, guint row)
{
  static const int sides[4][2] = { { 1, 0 }, { -1, 0 }, { 0, 1 }, { 0, -1 } };
  double overlap = FR_MAP_SHEET_OVERLAP_M * FR_PDF_PT_PER_M;
  double x = layout->frame_x_pt, y = layout->frame_y_pt, w = layout->frame_width_pt,
         h = layout->frame_height_pt;

  for (guint i = 0; i < 4; i++)
    {
      int dx = sides[i][0], dy = sides[i][1];
      if ((dx < 0 && column == 0) || (dy < 0 && row == 0)
          || !fr_map_pages_uses (layout, column + (guint)dx, row + (guint)dy))
        continue;
      double middle_x = dx > 0 ? x + w - overlap / 2 : x + overlap / 2;
      double middle_y = dy > 0 ? y + h - overlap / 2 : y + overlap / 2;
      double inner_x = dx > 0 ? x + w - overlap : x + overlap,
             inner_y = dy > 0 ? y + h - overlap : y + overlap;
      double dash[2] = { 1, 3 };
      fr_palette_set_source (&fr_map_paper, cr, FR_ROLE_AXIS, 1);
      cairo_set_line_width (cr, 0.6);
      cairo_set_dash (cr, dash, 2, 0);
      if (dx != 0)
        {
          cairo_move_to (cr, inner_x, y);
          cairo_line_to (cr, inner_x, y + h);
        }
      else
        {
          cairo_move_to (cr, x, inner_y);
          cairo_line_to (cr, x + w, inner_y);
        }
      cairo_stroke (cr);
      cairo_set_dash (cr, NULL, 0, 0);
      for (guint k = 1; k <= 3; k += 2)
        if (dx != 0)
          cross (cr, middle_x, y + h * k / 4);
        else
          cross (cr, x + w * k / 4, middle_y);
      fr_palette_set_source (&fr_map_paper, cr, FR_ROLE_INK, 1);
      cairo_stroke (cr);
      g_autofree char *name = fr_map_tile_name (column + (guint)dx, row + (guint)dy);
      draw_neighbour (layout, cr, name, dx, dy);
    }
}
