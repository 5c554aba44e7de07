/* Pages out of the plan. The plan is laid out in points at the chosen scale, turned as on the screen, and cut
 * into equal tiles that share 10 mm. Crosses in the shared strip lie on the same ground on both pages. Tiles
 * with nothing on them are not printed. Exact to the rounding of the PDF's numbers (about 1/1000 pt). */
#include "paint/map-sheet.h"

#include "paint/map-private.h"
#include "paint/pdf.h"

#include <math.h>

#define MARGIN_PT 36.0
#define TYPE_RATIO 0.75 /* 12 px of the screen's small text become 9 pt */
#define PAD_PT 26.0     /* room for symbols and names round the outermost tree */
#define HEAD_GAP_PT 6.0
#define KEY_PT 15.0

static const FrPalette paper = { FR_THEME_PAPER, FALSE };

typedef struct
{
  const FrMapSheet *sheet;
  PangoContext *context;
  double page_width_pt;
  double page_height_pt;
  double frame_x_pt; /* where the plan is printed */
  double frame_y_pt;
  double frame_width_pt;
  double frame_height_pt;
  double foot_y_pt;
  double pt_per_m;
  double left_pt; /* of the whole grid, in points of the turned plan from its zero */
  double top_pt;
  double step_x_pt;
  double step_y_pt;
  FrMapSheetTiles tiles;
} Layout;

static FrViewport
origin_view (const Layout *layout)
{
  return (FrViewport){ .px_per_m = layout->pt_per_m,
                       .rotation_deg = layout->sheet->map->viewport.rotation_deg };
}

static void
stretch (FrBox *box, const FrViewport *view, double x_m, double y_m)
{
  double x, y;

  if (!isfinite (x_m) || !isfinite (y_m))
    return;
  fr_viewport_to_screen (view, x_m, y_m, &x, &y);
  if (box->width_px < 0)
    {
      *box = (FrBox){ x, y, 0, 0 };
      return;
    }
  double right = MAX (box->x_px + box->width_px, x), bottom = MAX (box->y_px + box->height_px, y);
  box->x_px = MIN (box->x_px, x);
  box->y_px = MIN (box->y_px, y);
  box->width_px = right - box->x_px;
  box->height_px = bottom - box->y_px;
}

static FrBox
content_box (const Layout *layout)
{
  const FrMapView *map = layout->sheet->map;
  FrViewport view = origin_view (layout);
  FrBox box = { 0, 0, -1, -1 };

  for (gsize i = 0; i < map->n_trees; i++)
    stretch (&box, &view, map->trees[i].x_m, map->trees[i].y_m);
  for (gsize i = 0; i < map->n_shapes; i++)
    for (gsize k = 0; k < map->shapes[i].n_points; k++)
      stretch (&box, &view, map->shapes[i].points[k].x_m, map->shapes[i].points[k].y_m);
  for (gsize i = 0; map->round != NULL && i < map->round->n_points; i++)
    stretch (&box, &view, map->round->points[i].x_m, map->round->points[i].y_m);
  return box;
}

static double
text_height (const Layout *layout, const char *text, double size_pt, gboolean is_bold, double width_pt)
{
  double width, height;

  if (text == NULL || text[0] == '\0')
    return 0;
  g_autoptr (PangoLayout) words = fr_pdf_text (layout->context, text, size_pt, is_bold, width_pt);
  fr_layout_size (words, &width, &height);
  return height;
}

static void
place_frame (Layout *layout)
{
  const FrMapSheet *sheet = layout->sheet;
  double width = layout->page_width_pt - 2 * MARGIN_PT;
  double head = MAX (text_height (layout, sheet->title, 14, TRUE, width * 0.62),
                     MAX (text_height (layout, sheet->date, 9.5, FALSE, width * 0.24), 26));
  double foot = text_height (layout, sheet->legend, 8.5, FALSE, width) + KEY_PT + 12;

  head = MIN (head, layout->page_height_pt / 4);
  foot = MIN (foot, layout->page_height_pt / 3);
  layout->frame_x_pt = MARGIN_PT;
  layout->frame_y_pt = MARGIN_PT - 8 + head + HEAD_GAP_PT;
  layout->frame_width_pt = width;
  layout->frame_height_pt = layout->page_height_pt - MARGIN_PT + 8 - foot - HEAD_GAP_PT - layout->frame_y_pt;
  layout->foot_y_pt = layout->frame_y_pt + layout->frame_height_pt + HEAD_GAP_PT;
}

static guint
count (double content_pt, double frame_pt, double overlap_pt)
{
  double n = ceil ((content_pt - overlap_pt) / (frame_pt - overlap_pt) - 1e-9);

  return n <= 1 ? 1 : n > 1e6 ? 1000000 : (guint)n;
}

static FrBox
tile_box (const Layout *layout, guint column, guint row)
{
  return (FrBox){ layout->left_pt + column * layout->step_x_pt, layout->top_pt + row * layout->step_y_pt,
                  layout->frame_width_pt, layout->frame_height_pt };
}

static gboolean
segment_touches (const FrBox *box, double ax, double ay, double bx, double by)
{
  return MIN (ax, bx) <= box->x_px + box->width_px && MAX (ax, bx) >= box->x_px
         && MIN (ay, by) <= box->y_px + box->height_px && MAX (ay, by) >= box->y_px;
}

static gboolean
line_touches (const FrBox *box, const FrViewport *view, const FrGroundPoint *points, gsize n)
{
  double ax = 0, ay = 0;

  for (gsize i = 0; i < n; i++)
    {
      double bx, by;
      fr_viewport_to_screen (view, points[i].x_m, points[i].y_m, &bx, &by);
      if (segment_touches (box, i == 0 ? bx : ax, i == 0 ? by : ay, bx, by))
        return TRUE;
      ax = bx;
      ay = by;
    }
  return FALSE;
}

static gboolean
tile_is_used (const Layout *layout, guint column, guint row)
{
  const FrMapView *map = layout->sheet->map;
  FrViewport view = origin_view (layout);
  FrBox box = tile_box (layout, column, row);

  if (column >= layout->tiles.n_columns || row >= layout->tiles.n_rows)
    return FALSE;
  for (gsize i = 0; i < map->n_trees; i++)
    {
      FrGroundPoint at = { map->trees[i].x_m, map->trees[i].y_m };
      if (line_touches (&box, &view, &at, 1))
        return TRUE;
    }
  for (gsize i = 0; i < map->n_shapes; i++)
    {
      FrMapView turned = { .viewport = view, .scale_ratio = TYPE_RATIO };
      FrBox whole;
      if (fr_map_form_is_box (map->shapes[i].form))
        {
          if (fr_map_shape_box (&turned, &map->shapes[i], &whole)
              && segment_touches (&box, whole.x_px, whole.y_px, whole.x_px + whole.width_px,
                                  whole.y_px + whole.height_px))
            return TRUE;
        }
      else if (line_touches (&box, &view, map->shapes[i].points, map->shapes[i].n_points))
        return TRUE;
    }
  return map->round != NULL && line_touches (&box, &view, map->round->points, map->round->n_points);
}

static gboolean
lay_out (Layout *layout, FrSheetSize size)
{
  double overlap = FR_MAP_SHEET_OVERLAP_M * FR_PDF_PT_PER_M, scale = layout->sheet->scale_ratio;

  layout->tiles = (FrMapSheetTiles){ 0, 0, 0 };
  if (!isfinite (scale) || scale <= 0)
    return FALSE;
  layout->pt_per_m = FR_PDF_PT_PER_M / scale;
  fr_pdf_size (size, layout->sheet->is_landscape, &layout->page_width_pt, &layout->page_height_pt);
  place_frame (layout);
  FrBox content = content_box (layout);
  if (content.width_px < 0)
    return FALSE;
  double width = content.width_px + 2 * PAD_PT, height = content.height_px + 2 * PAD_PT;
  guint columns = count (width, layout->frame_width_pt, overlap);
  guint rows = count (height, layout->frame_height_pt, overlap);
  layout->tiles = (FrMapSheetTiles){ columns, rows, 0 };
  layout->step_x_pt = layout->frame_width_pt - overlap;
  layout->step_y_pt = layout->frame_height_pt - overlap;
  /* The grid sits round the middle of what is drawn. */
  layout->left_pt = content.x_px + content.width_px / 2 - (layout->step_x_pt * columns + overlap) / 2;
  layout->top_pt = content.y_px + content.height_px / 2 - (layout->step_y_pt * rows + overlap) / 2;
  if ((double)columns * rows > 100.0 * FR_MAP_SHEET_MOST_PAGES)
    {
      layout->tiles.n_pages = (guint)MIN ((double)columns * rows, (double)G_MAXUINT);
      return FALSE;
    }
  for (guint row = 0; row < rows; row++)
    for (guint column = 0; column < columns; column++)
      layout->tiles.n_pages += tile_is_used (layout, column, row) ? 1 : 0;
  return layout->tiles.n_pages > 0 && layout->tiles.n_pages <= FR_MAP_SHEET_MOST_PAGES;
}

gboolean
fr_map_sheet_tiles (const FrMapSheet *sheet, FrSheetSize size, FrMapSheetTiles *tiles)
{
  Layout layout = { .sheet = sheet };

  layout.context = fr_pdf_context_new (sheet->font_family, FALSE);
  gboolean fits = lay_out (&layout, size);
  g_object_unref (layout.context);
  *tiles = layout.tiles;
  return fits;
}

double
fr_map_sheet_best_scale (const FrMapSheet *sheet, FrSheetSize size)
{
  static const double leads[] = { 1, 2, 2.5, 5 };
  Layout layout = { .sheet = sheet };
  double best = NAN;

  layout.context = fr_pdf_context_new (sheet->font_family, FALSE);
  for (double ten = 10; ten < 1e8 && isnan (best); ten *= 10)
    for (guint i = 0; i < G_N_ELEMENTS (leads); i++)
      {
        FrMapSheet at = *sheet;
        at.scale_ratio = leads[i] * ten;
        layout.sheet = &at;
        /* 1:25 is no usual scale for a plan. */
        if (at.scale_ratio < 50)
          continue;
        gboolean fits = lay_out (&layout, size);
        if (layout.tiles.n_columns == 0)
          {
            g_object_unref (layout.context);
            return NAN;
          }
        if (fits && layout.tiles.n_columns * layout.tiles.n_rows == 1)
          {
            best = at.scale_ratio;
            break;
          }
      }
  g_object_unref (layout.context);
  return best;
}

/* "A1": the column's letters from the west, the row's number from the north. */
static char *
tile_name (guint column, guint row)
{
  char letters[8];
  guint at = sizeof letters - 1;

  letters[at] = '\0';
  for (guint rest = column + 1; rest > 0 && at > 0; rest = (rest - 1) / 26)
    letters[--at] = (char)('A' + (rest - 1) % 26);
  return g_strdup_printf ("%s%u", letters + at, row + 1);
}

static void
draw_head (const Layout *layout, FrMapFrame *frame, const char *name)
{
  const FrMapSheet *sheet = layout->sheet;
  cairo_t *cr = frame->cr;
  double width, height, x = MARGIN_PT, y = MARGIN_PT - 8, right = layout->page_width_pt - MARGIN_PT;

  if (sheet->title != NULL && sheet->title[0] != '\0')
    {
      g_autoptr (PangoLayout) title
          = fr_pdf_text (layout->context, sheet->title, 14, TRUE, layout->frame_width_pt * 0.62);
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
      g_autoptr (PangoLayout) words
          = fr_pdf_text (layout->context, sheet->date, 9.5, FALSE, layout->frame_width_pt * 0.24);
      pango_layout_set_alignment (words, PANGO_ALIGN_RIGHT);
      fr_layout_size (words, &width, &height);
      fr_pdf_show (cr, words, FR_ROLE_INK_SOFT, right - layout->frame_width_pt * 0.24, y + 6, "P");
    }
}

static void
draw_foot (const Layout *layout, FrMapFrame *frame, guint page)
{
  const FrMapSheet *sheet = layout->sheet;
  cairo_t *cr = frame->cr;
  double width, height, x = MARGIN_PT, y = layout->foot_y_pt, right = layout->page_width_pt - MARGIN_PT;

  FrScaleBar bar = { 0, NAN, "" };
  if (sheet->map->unit_name != NULL)
    {
      FrViewport view = origin_view (layout);
      bar = fr_viewport_scale_bar (&view, 120, sheet->map->unit_m, sheet->map->unit_name,
                                   sheet->map->decimal_mark);
      fr_map_put_bar (frame, &bar, right, y + KEY_PT);
      right -= MAX (bar.length_px, 40) + 12;
    }
  g_autofree char *plain = g_strdup_printf ("1 : %.0f", sheet->scale_ratio);
  g_autoptr (PangoLayout) scale
      = fr_pdf_text (layout->context, sheet->scale_text != NULL ? sheet->scale_text : plain, 9.5, TRUE, 0);
  fr_layout_size (scale, &width, &height);
  fr_pdf_show (cr, scale, FR_ROLE_INK, right - width, y + KEY_PT - height + 1, "P");
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
      fr_map_symbol_draw (cr, &paper, &tree, x + 5, y + KEY_PT - height / 2, 4.4);
      fr_pdf_show (cr, words, FR_ROLE_INK_SOFT, x + 14, y + KEY_PT - height, "P");
      x += 14 + width + 14;
    }
  y += KEY_PT + 6;
  if (layout->tiles.n_pages > 1)
    {
      g_autofree char *text = g_strdup_printf ("%u / %u", page + 1, layout->tiles.n_pages);
      g_autoptr (PangoLayout) words = fr_pdf_text (layout->context, text, 8.5, FALSE, 0);
      fr_layout_size (words, &width, &height);
      fr_pdf_show (cr, words, FR_ROLE_INK_SOFT, layout->page_width_pt - MARGIN_PT - width,
                   layout->page_height_pt - MARGIN_PT + 10 - height / 2, "P");
    }
  if (sheet->legend == NULL || sheet->legend[0] == '\0')
    return;
  g_autoptr (PangoLayout) words
      = fr_pdf_text (layout->context, sheet->legend, 8.5, FALSE, layout->frame_width_pt);
  fr_pdf_show (cr, words, FR_ROLE_INK_SOFT, MARGIN_PT, y, "P");
}

/* The neighbour's name in the margin with a small arrow to it. @dx, @dy: which side. */
static void
draw_neighbour (const Layout *layout, cairo_t *cr, const char *name, int dx, int dy)
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
  fr_palette_set_source (&paper, cr, FR_ROLE_CARD, 0.9);
  cairo_fill (cr);
  fr_pdf_show (cr, words, FR_ROLE_INK_SOFT, x - width / 2, y - height / 2, "P");
  double tip_x = dx != 0 ? x : x + width / 2 + 6, tip_y = dx != 0 ? y + height / 2 + 6 : y;
  cairo_move_to (cr, tip_x + 4 * dx, tip_y + 4 * dy);
  cairo_line_to (cr, tip_x - 2 * dx + 3.5 * dy, tip_y - 2 * dy - 3.5 * dx);
  cairo_line_to (cr, tip_x - 2 * dx - 3.5 * dy, tip_y - 2 * dy + 3.5 * dx);
  cairo_close_path (cr);
  fr_palette_set_source (&paper, cr, FR_ROLE_INK_SOFT, 1);
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

static void
draw_joins (const Layout *layout, cairo_t *cr, guint column, guint row)
{
  static const int sides[4][2] = { { 1, 0 }, { -1, 0 }, { 0, 1 }, { 0, -1 } };
  double overlap = FR_MAP_SHEET_OVERLAP_M * FR_PDF_PT_PER_M;
  double x = layout->frame_x_pt, y = layout->frame_y_pt, w = layout->frame_width_pt,
         h = layout->frame_height_pt;

  for (guint i = 0; i < 4; i++)
    {
      int dx = sides[i][0], dy = sides[i][1];
      if ((dx < 0 && column == 0) || (dy < 0 && row == 0)
          || !tile_is_used (layout, column + (guint)dx, row + (guint)dy))
        continue;
      double middle_x = dx > 0 ? x + w - overlap / 2 : x + overlap / 2;
      double middle_y = dy > 0 ? y + h - overlap / 2 : y + overlap / 2;
      double inner_x = dx > 0 ? x + w - overlap : x + overlap,
             inner_y = dy > 0 ? y + h - overlap : y + overlap;
      double dash[2] = { 1, 3 };
      fr_palette_set_source (&paper, cr, FR_ROLE_AXIS, 1);
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
      fr_palette_set_source (&paper, cr, FR_ROLE_INK, 1);
      cairo_stroke (cr);
      g_autofree char *name = tile_name (column + (guint)dx, row + (guint)dy);
      draw_neighbour (layout, cr, name, dx, dy);
    }
}

static void
draw_tile (const Layout *layout, FrMapFrame *frame, const FrMapView *plain, guint column, guint row)
{
  cairo_t *cr = frame->cr;
  FrMapView view = *plain;
  FrViewport origin = origin_view (layout);
  FrBox box = tile_box (layout, column, row);

  view.viewport = origin;
  view.viewport.width_px = layout->frame_width_pt;
  view.viewport.height_px = layout->frame_height_pt;
  fr_viewport_to_plan (&origin, box.x_px + box.width_px / 2, box.y_px + box.height_px / 2,
                       &view.viewport.centre_x_m, &view.viewport.centre_y_m);
  cairo_save (cr);
  cairo_translate (cr, layout->frame_x_pt, layout->frame_y_pt);
  fr_map_draw (cr, layout->context, &paper, &view, frame->cache, NULL);
  cairo_restore (cr);
  cairo_rectangle (cr, layout->frame_x_pt, layout->frame_y_pt, layout->frame_width_pt,
                   layout->frame_height_pt);
  fr_palette_set_source (&paper, cr, FR_ROLE_AXIS, 1);
  cairo_set_line_width (cr, 0.6);
  cairo_stroke (cr);
}

/* What only the pointer is about does not go on paper. */
static FrMapTree *
plain_trees (const FrMapView *map)
{
  FrMapTree *trees = g_new (FrMapTree, MAX (map->n_trees, 1));

  for (gsize i = 0; i < map->n_trees; i++)
    {
      trees[i] = map->trees[i];
      trees[i].is_selected = trees[i].is_hovered = trees[i].is_focused = FALSE;
    }
  return trees;
}

static FrMapShape *
plain_shapes (const FrMapView *map)
{
  FrMapShape *shapes = g_new (FrMapShape, MAX (map->n_shapes, 1));

  for (gsize i = 0; i < map->n_shapes; i++)
    {
      shapes[i] = map->shapes[i];
      shapes[i].is_selected = shapes[i].is_hovered = FALSE;
    }
  return shapes;
}

GBytes *
fr_map_sheet_pdf (const FrMapSheet *sheet, FrSheetSize size, guint *n_pages, GError **error)
{
  Layout layout = { .sheet = sheet };
  FrPdf pdf;
  guint page = 0;

  g_return_val_if_fail (sheet != NULL && sheet->map != NULL, NULL);

  layout.context = fr_pdf_context_new (sheet->font_family, FALSE);
  if (!lay_out (&layout, size))
    {
      g_object_unref (layout.context);
      if (layout.tiles.n_pages > 0)
        g_set_error (error, FR_PAINT_ERROR, FR_PAINT_ERROR_TOO_LARGE, "%u pages", layout.tiles.n_pages);
      else
        g_set_error_literal (error, FR_PAINT_ERROR, FR_PAINT_ERROR_NOTHING, "nothing placed");
      return NULL;
    }
  g_autofree FrMapTree *trees = plain_trees (sheet->map);
  g_autofree FrMapShape *shapes = plain_shapes (sheet->map);
  FrMapView plain = {
    .scale_ratio = TYPE_RATIO,
    .revision = 1,
    .trees = trees,
    .n_trees = sheet->map->n_trees,
    .shapes = shapes,
    .n_shapes = sheet->map->n_shapes,
    .picture = sheet->map->picture,
    .round = sheet->map->round,
    .keeps_ground = TRUE,
    .north_text = sheet->map->north_text,
    .viewport.rotation_deg = sheet->map->viewport.rotation_deg,
  };
  g_autoptr (FrMapCache) cache = fr_map_cache_new ();
  cache->is_bare = TRUE;
  fr_pdf_open (&pdf, layout.page_width_pt, layout.page_height_pt, sheet->title, sheet->author);
  FrMapFrame frame = { .cr = pdf.cr,
                       .context = layout.context,
                       .palette = &paper,
                       .view = &plain,
                       .cache = cache,
                       .scale_ratio = TYPE_RATIO,
                       .device_ratio = 1 };
  for (guint row = 0; row < layout.tiles.n_rows; row++)
    for (guint column = 0; column < layout.tiles.n_columns; column++)
      {
        if (!tile_is_used (&layout, column, row))
          continue;
        g_autofree char *name = layout.tiles.n_pages > 1 ? tile_name (column, row) : NULL;
        draw_head (&layout, &frame, name);
        draw_tile (&layout, &frame, &plain, column, row);
        if (name != NULL)
          draw_joins (&layout, pdf.cr, column, row);
        draw_foot (&layout, &frame, page);
        cairo_show_page (pdf.cr);
        page++;
      }
  GBytes *bytes = fr_pdf_close (&pdf, error);
  g_object_unref (layout.context);
  if (bytes != NULL && n_pages != NULL)
    *n_pages = page;
  return bytes;
}
