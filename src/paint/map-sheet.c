/* Pages out of the plan. The plan is laid out in points at the chosen scale, turned as on the screen, and cut
 * into equal tiles that share 10 mm. Crosses in the shared strip lie on the same ground on both pages. Tiles
 * with nothing on them are not printed. Exact to the rounding of the PDF's numbers (about 1/1000 pt). */
#include "paint/map-sheet-private.h"

#include <math.h>

#define PAD_PT 26.0 /* room for symbols and names round the outermost tree */
#define HEAD_GAP_PT 6.0

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
content_box (const FrMapPages *layout)
{
  const FrMapView *map = layout->sheet->map;
  FrViewport view = fr_map_pages_origin (layout);
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

/* Smaller until it is no higher than @most_pt. */
PangoLayout *
fr_map_page_text (const FrMapPages *layout, const char *text, double size_pt, gboolean is_bold,
                  double width_pt, double most_pt)
{
  for (double size = size_pt;; size *= 0.88)
    {
      double width, height;
      PangoLayout *words = fr_pdf_text (layout->context, text, size, is_bold, width_pt);
      fr_layout_size (words, &width, &height);
      if (height <= most_pt || size < 1)
        return words;
      g_object_unref (words);
    }
}

static double
text_height (const FrMapPages *layout, const char *text, double size_pt, gboolean is_bold, double width_pt,
             double most_pt)
{
  double width, height;

  if (text == NULL || text[0] == '\0')
    return 0;
  g_autoptr (PangoLayout) words = fr_map_page_text (layout, text, size_pt, is_bold, width_pt, most_pt);
  fr_layout_size (words, &width, &height);
  return height;
}

static void
place_frame (FrMapPages *layout)
{
  const FrMapSheet *sheet = layout->sheet;
  double width = layout->page_width_pt - 2 * FR_MAP_SHEET_MARGIN_PT;
  layout->head_pt = layout->page_height_pt / 4;
  layout->legend_pt = layout->page_height_pt / 4;
  double head = MAX (text_height (layout, sheet->title, 14, TRUE, width * 0.62, layout->head_pt),
                     MAX (text_height (layout, sheet->date, 9.5, FALSE, width * 0.24, layout->head_pt), 26));
  double foot
      = text_height (layout, sheet->legend, 8.5, FALSE, width, layout->legend_pt) + FR_MAP_SHEET_KEY_PT + 12;

  layout->frame_x_pt = FR_MAP_SHEET_MARGIN_PT;
  layout->frame_y_pt = FR_MAP_SHEET_MARGIN_PT - 8 + head + HEAD_GAP_PT;
  layout->frame_width_pt = width;
  layout->frame_height_pt
      = layout->page_height_pt - FR_MAP_SHEET_MARGIN_PT + 8 - foot - HEAD_GAP_PT - layout->frame_y_pt;
  layout->foot_y_pt = layout->frame_y_pt + layout->frame_height_pt + HEAD_GAP_PT;
}

static guint
count (double content_pt, double frame_pt, double overlap_pt)
{
  double n = ceil ((content_pt - overlap_pt) / (frame_pt - overlap_pt) - 1e-9);

  return n <= 1 ? 1 : n > 1e6 ? 1000000 : (guint)n;
}

static FrBox
tile_box (const FrMapPages *layout, guint column, guint row)
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

gboolean
fr_map_pages_uses (const FrMapPages *layout, guint column, guint row)
{
  const FrMapView *map = layout->sheet->map;
  FrViewport view = fr_map_pages_origin (layout);
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
      FrMapView turned = { .viewport = view, .scale_ratio = FR_MAP_SHEET_TYPE_RATIO };
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
lay_out (FrMapPages *layout, FrSheetSize size)
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
      layout->tiles.n_pages += fr_map_pages_uses (layout, column, row) ? 1 : 0;
  return layout->tiles.n_pages > 0 && layout->tiles.n_pages <= FR_MAP_SHEET_MOST_PAGES;
}

gboolean
fr_map_sheet_tiles (const FrMapSheet *sheet, FrSheetSize size, FrMapSheetTiles *tiles)
{
  FrMapPages layout = { .sheet = sheet };

  layout.context = fr_pdf_context_new (sheet->font_family, FALSE);
  gboolean fits = lay_out (&layout, size);
  g_object_unref (layout.context);
  *tiles = layout.tiles;
  return fits;
}

double
fr_map_sheet_best_scale (const FrMapSheet *sheet, FrSheetSize size)
{
  static const double leads[] = { 1, 1.5, 2, 2.5, 3, 4, 5, 7.5 };
  FrMapPages layout = { .sheet = sheet };
  double best = NAN;

  layout.context = fr_pdf_context_new (sheet->font_family, FALSE);
  for (double ten = 10; ten < 1e8 && isnan (best); ten *= 10)
    for (guint i = 0; i < G_N_ELEMENTS (leads); i++)
      {
        FrMapSheet at = *sheet;
        at.scale_ratio = leads[i] * ten;
        layout.sheet = &at;
        /* Nobody plots a wood closer than that. */
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

static void
draw_tile (const FrMapPages *layout, FrMapFrame *frame, const FrMapView *plain, guint column, guint row)
{
  cairo_t *cr = frame->cr;
  FrMapView view = *plain;
  FrViewport origin = fr_map_pages_origin (layout);
  FrBox box = tile_box (layout, column, row);

  view.viewport = origin;
  view.viewport.width_px = layout->frame_width_pt;
  view.viewport.height_px = layout->frame_height_pt;
  fr_viewport_to_plan (&origin, box.x_px + box.width_px / 2, box.y_px + box.height_px / 2,
                       &view.viewport.centre_x_m, &view.viewport.centre_y_m);
  cairo_save (cr);
  cairo_translate (cr, layout->frame_x_pt, layout->frame_y_pt);
  fr_map_draw (cr, layout->context, &fr_map_paper, &view, frame->cache, NULL);
  cairo_restore (cr);
  cairo_rectangle (cr, layout->frame_x_pt, layout->frame_y_pt, layout->frame_width_pt,
                   layout->frame_height_pt);
  fr_palette_set_source (&fr_map_paper, cr, FR_ROLE_AXIS, 1);
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
  FrMapPages layout = { .sheet = sheet };
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
    .scale_ratio = FR_MAP_SHEET_TYPE_RATIO,
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
                       .palette = &fr_map_paper,
                       .view = &plain,
                       .cache = cache,
                       .scale_ratio = FR_MAP_SHEET_TYPE_RATIO,
                       .device_ratio = 1 };
  for (guint row = 0; row < layout.tiles.n_rows; row++)
    for (guint column = 0; column < layout.tiles.n_columns; column++)
      {
        if (!fr_map_pages_uses (&layout, column, row))
          continue;
        g_autofree char *name = layout.tiles.n_pages > 1 ? fr_map_tile_name (column, row) : NULL;
        fr_map_page_head (&layout, &frame, name);
        draw_tile (&layout, &frame, &plain, column, row);
        if (name != NULL)
          fr_map_page_joins (&layout, pdf.cr, column, row);
        fr_map_page_foot (&layout, &frame, page);
        cairo_show_page (pdf.cr);
        page++;
      }
  GBytes *bytes = fr_pdf_close (&pdf, error);
  g_object_unref (layout.context);
  if (bytes != NULL && n_pages != NULL)
    *n_pages = page;
  return bytes;
}
