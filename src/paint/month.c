/* The grid of a month. The height is shared by as many weeks as it has; words under a week's cells take
 * theirs from all of them. */
#include "paint/month-private.h"

#include <math.h>

/* Room for the rings of the focus, round the drawing and round a cell. */
#define EDGE_PX 6.0
#define GAP_PX 8.0
#define NARROW_PX 90.0
#define MOST_LINES 2

static gboolean
same_date (FrDate a, FrDate b)
{
  return a.year != 0 && fr_date_compare (a, b) == 0;
}

static guint
days_in (gint year, gint month)
{
  FrDate first = { year, month, 1 };
  FrDate next = month == 12 ? (FrDate){ year + 1, 1, 1 } : (FrDate){ year, month + 1, 1 };

  return (guint)(fr_date_to_days (next) - fr_date_to_days (first));
}

/* Words wrapped to a cell; NULL when even two lines do not hold them. */
static PangoLayout *
words_layout (FrMonthPaint *p, const char *words)
{
  double width, height, room = p->layout.cell_width_px + p->layout.gap_px - 4;
  PangoLayout *text = fr_canvas_text (&p->canvas, words, NULL, NULL, FR_MONTH_NUMBER_PX);

  if (text == NULL)
    return NULL;
  pango_layout_set_single_paragraph_mode (text, FALSE);
  pango_layout_set_wrap (text, PANGO_WRAP_WORD);
  pango_layout_set_width (text, (int)(MAX (room, 1) * PANGO_SCALE));
  fr_layout_size (text, &width, &height);
  if (width <= room && pango_layout_get_line_count (text) <= MOST_LINES)
    return text;
  g_object_unref (text);
  return NULL;
}

static void
place (const FrMonthLayout *layout, FrDate date, guint *column, guint *week)
{
  guint at = layout->lead + (guint)date.day - 1;

  *week = at / 7;
  *column = layout->right_to_left ? 6 - at % 7 : at % 7;
}

static void
lay_out (FrMonthPaint *p)
{
  const FrMonth *m = p->month;
  const FrCanvas *c = &p->canvas;
  FrMonthLayout *l = &p->layout;
  FrDate first = { m->year, m->month, 1 };

  l->year = m->year;
  l->month = m->month;
  l->right_to_left = m->right_to_left;
  l->n_days = days_in (m->year, m->month);
  l->lead = (guint)((fr_date_weekday (first) - m->first_weekday + 7) % 7);
  l->n_weeks = (l->lead + l->n_days + 6) / 7;
  l->gap_px = c->width_px / 7 < NARROW_PX * c->scale_ratio ? GAP_PX / 2 : GAP_PX;
  l->x_px = EDGE_PX;
  l->cell_width_px = MAX ((c->width_px - 2 * l->x_px - 6 * l->gap_px) / 7, 4);

  double words = 0;
  for (gsize i = 0; i < m->n_words; i++)
    {
      guint column, week;
      double width, height;
      if (m->words[i].date.year != m->year || m->words[i].date.month != m->month)
        continue;
      g_autoptr (PangoLayout) text = words_layout (p, m->words[i].words);
      if (text == NULL)
        continue;
      place (l, m->words[i].date, &column, &week);
      fr_layout_size (text, &width, &height);
      l->words_px[week] = MAX (l->words_px[week], height + 2);
    }
  for (guint i = 0; i < l->n_weeks; i++)
    words += l->words_px[i];

  double head = EDGE_PX + (m->weekdays != NULL ? c->line_px + 4 : 0);
  double room = c->height_px - head - EDGE_PX - (l->n_weeks - 1) * l->gap_px;
  /* Where the cells would get too low for their words, these go. */
  if ((room - words) / l->n_weeks < 2 * c->line_px)
    {
      for (guint i = 0; i < l->n_weeks; i++)
        l->words_px[i] = 0;
      words = 0;
    }
  l->cell_height_px = MAX ((room - words) / l->n_weeks, 4);
  double y = head;
  for (guint i = 0; i < l->n_weeks; i++)
    {
      l->row_y_px[i] = y;
      y += l->cell_height_px + l->words_px[i] + l->gap_px;
    }
}

static const FrSeasonDay *
day_of (const FrSeasonView *view, FrDate date)
{
  gint64 at
      = view != NULL && view->n_days > 0 ? fr_date_to_days (date) - fr_date_to_days (view->days[0].date) : -1;

  return at >= 0 && at < view->n_days ? &view->days[at] : NULL;
}

static void
draw_ground (FrMonthPaint *p, FrDate date, const cairo_rectangle_t *cell)
{
  const FrMonth *m = p->month;
  cairo_t *cr = p->canvas.cr;
  const FrPalette *palette = p->canvas.palette;
  gboolean is_selected = same_date (m->selected, date), is_hovered = same_date (m->hovered, date);
  double radius = MIN (8, 0.15 * cell->height);
  FrBox box = { cell->x, cell->y, cell->width, cell->height };
  FrRole ground = is_selected                   ? FR_ROLE_ACCENT_BG
                  : fr_date_weekday (date) >= 6 ? FR_ROLE_NIGHT
                                                : FR_ROLE_CARD;

  fr_canvas_rounded (&p->canvas, box, radius, 0);
  fr_palette_set_source (palette, cr, ground, 1);
  cairo_fill (cr);
  fr_canvas_rounded (&p->canvas, box, radius, -0.5);
  fr_palette_set_source (palette, cr,
                         is_selected || is_hovered || same_date (m->today, date) ? FR_ROLE_ACCENT
                         : palette->high_contrast                                ? FR_ROLE_AXIS
                                                                                 : FR_ROLE_CARD_EDGE,
                         1);
  cairo_set_line_width (cr, is_selected ? 2 : 1);
  cairo_stroke (cr);
  if (is_selected && m->is_focused)
    {
      fr_canvas_rounded (&p->canvas, box, radius, 3);
      cairo_set_line_width (cr, 2);
      fr_palette_set_source (palette, cr, FR_ROLE_ACCENT, 1);
      cairo_stroke (cr);
    }
}

static void
put_weekdays (FrMonthPaint *p)
{
  const FrMonth *m = p->month;
  const FrMonthLayout *l = &p->layout;
  FrRgba none = { 0, 0, 0, 0 };

  for (guint i = 0; m->weekdays != NULL && i < 7; i++)
    {
      guint column = l->right_to_left ? 6 - i : i;
      double width, height, x = l->x_px + column * (l->cell_width_px + l->gap_px);
      g_autoptr (PangoLayout) text = fr_canvas_text (
          &p->canvas, m->weekdays[(m->first_weekday - 1 + (gint)i) % 7], NULL, NULL, FR_TEXT_SMALL_PX);
      if (text == NULL)
        continue;
      fr_layout_size (text, &width, &height);
      if (width <= l->cell_width_px)
        fr_canvas_try (&p->canvas, text, x + (l->cell_width_px - width) / 2, EDGE_PX - 1, FR_ROLE_INK_SOFT,
                       none);
    }
}

static void
put_words (FrMonthPaint *p)
{
  const FrMonth *m = p->month;
  const FrMonthLayout *l = &p->layout;
  FrRgba none = { 0, 0, 0, 0 };

  for (gsize i = 0; i < m->n_words; i++)
    {
      cairo_rectangle_t cell;
      guint column, week;
      double width, height;
      if (!fr_month_layout_cell (l, m->words[i].date, &cell))
        continue;
      place (l, m->words[i].date, &column, &week);
      g_autoptr (PangoLayout) text = words_layout (p, m->words[i].words);
      if (text == NULL || l->words_px[week] <= 0)
        continue;
      fr_layout_size (text, &width, &height);
      pango_layout_set_width (text, (int)ceil (width + 1) * PANGO_SCALE);
      double x = l->right_to_left ? cell.x + cell.width - width - 3 : cell.x + 2;
      fr_canvas_try (&p->canvas, text, CLAMP (x, 0, MAX (p->canvas.width_px - width - 1, 0)),
                     cell.y + cell.height + 1, FR_ROLE_INK_SOFT, none);
    }
}

static void
paint_init (FrMonthPaint *p, cairo_t *cr, PangoContext *context, const FrPalette *palette,
            const FrMonth *month, double width_px, double height_px, double text_scale)
{
  *p = (FrMonthPaint){ .month = month };
  fr_canvas_init (&p->canvas, cr, context, palette, width_px, height_px, text_scale);
  lay_out (p);
}

static gboolean
is_month (const FrMonth *month)
{
  return month != NULL && fr_date_is_valid ((FrDate){ month->year, month->month, 1 }) && month->year < 9999
         && month->first_weekday >= 1 && month->first_weekday <= 7;
}

FrMonthLayout
fr_month_layout (PangoContext *context, const FrMonth *month, double width_px, double height_px,
                 double text_scale)
{
  static const FrPalette light = { FR_THEME_LIGHT, FALSE };
  FrMonthPaint p;

  g_return_val_if_fail (PANGO_IS_CONTEXT (context) && is_month (month), (FrMonthLayout){ 0 });
  paint_init (&p, NULL, context, &light, month, width_px, height_px, text_scale);
  fr_canvas_clear (&p.canvas);
  return p.layout;
}

FrMonthLayout
fr_month_draw (cairo_t *cr, PangoContext *context, const FrPalette *palette, const FrMonth *month,
               double width_px, double height_px, double text_scale, GArray *labels)
{
  FrMonthPaint p;

  g_return_val_if_fail (cr != NULL && PANGO_IS_CONTEXT (context) && palette != NULL, (FrMonthLayout){ 0 });
  g_return_val_if_fail (is_month (month) && width_px > 0 && height_px > 0 && text_scale > 0,
                        (FrMonthLayout){ 0 });

  paint_init (&p, cr, context, palette, month, width_px, height_px, text_scale);
  fr_month_choose_scales (&p);
  cairo_save (cr);
  cairo_rectangle (cr, 0, 0, width_px, height_px);
  cairo_clip (cr);
  put_weekdays (&p);
  for (guint i = 0; i < p.layout.n_days; i++)
    {
      FrDate date = { month->year, month->month, (gint)i + 1 };
      cairo_rectangle_t cell;
      if (!fr_month_layout_cell (&p.layout, date, &cell))
        continue;
      draw_ground (&p, date, &cell);
      fr_month_draw_cell (&p, date, day_of (month->view, date), &cell);
    }
  put_words (&p);
  fr_canvas_flush (&p.canvas, labels);
  cairo_restore (cr);
  fr_canvas_clear (&p.canvas);
  return p.layout;
}

gboolean
fr_month_layout_cell (const FrMonthLayout *layout, FrDate date, cairo_rectangle_t *cell)
{
  guint column, week;

  if (date.year != layout->year || date.month != layout->month || date.day < 1
      || date.day > (gint)layout->n_days)
    return FALSE;
  place (layout, date, &column, &week);
  *cell = (cairo_rectangle_t){ layout->x_px + column * (layout->cell_width_px + layout->gap_px),
                               layout->row_y_px[week], layout->cell_width_px, layout->cell_height_px };
  return TRUE;
}

gboolean
fr_month_layout_at (const FrMonthLayout *layout, double x_px, double y_px, FrDate *date)
{
  for (guint i = 1; i <= layout->n_days; i++)
    {
      FrDate day = { layout->year, layout->month, (gint)i };
      cairo_rectangle_t cell;
      if (fr_month_layout_cell (layout, day, &cell) && x_px >= cell.x && x_px < cell.x + cell.width
          && y_px >= cell.y && y_px < cell.y + cell.height)
        {
          *date = day;
          return TRUE;
        }
    }
  return FALSE;
}
