/* Nights at the stove, bottles, and the price of power: a mark a day, and the skyline. */
#include "paint/season-private.h"

#define NUMBER_PX 11.5
#define MARK_PX 10.0

static double
mark_width (const FrSeasonPaint *p)
{
  return CLAMP (0.95 * p->layout.day_px, 5, MARK_PX * p->canvas.scale_ratio);
}

static double
row_middle (const FrSeasonPaint *p, FrSeasonLane lane)
{
  return p->layout.lanes[lane].y_px + p->layout.lanes[lane].height_px / 2;
}

/* Before the marks from @from_px to @to_px, else behind them and today's rule, else at the lane's end. */
static void
put_words (FrSeasonPaint *p, FrSeasonLane lane, const char *words, double from_px, double to_px)
{
  const FrSeasonLayout *l = &p->layout;
  double y = row_middle (p, lane), gap = 8;
  g_autoptr (PangoLayout) text = fr_canvas_text (&p->canvas, words, NULL, NULL, NUMBER_PX);

  if (from_px <= to_px && fr_season_try_inside (p, text, from_px - gap, y, 1, 0.5, FR_ROLE_INK_SOFT, 0.9))
    return;
  if (fr_season_try_inside (p, text, to_px + gap, y, 0, 0.5, FR_ROLE_INK_SOFT, 0.9))
    return;
  if (p->view->today >= 0)
    {
      double now = fr_season_layout_x (l, p->view, p->view->now_utc);
      if (now >= to_px && fr_season_try_inside (p, text, now + gap, y, 0, 0.5, FR_ROLE_INK_SOFT, 0.9))
        return;
    }
  fr_season_try_inside (p, text, l->plot_x_px + l->plot_width_px - 2, y, 1, 0.5, FR_ROLE_INK_SOFT, 0.9);
}

void
fr_season_draw_boils (FrSeasonPaint *p)
{
  FrCanvas *c = &p->canvas;
  const FrSeasonLaneText *texts = &p->strip->texts->lanes[FR_SEASON_LANE_BOILS];
  double width = mark_width (p), y = row_middle (p, FR_SEASON_LANE_BOILS) - 0.675 * width;
  double ends[2][2] = { { INFINITY, -INFINITY }, { INFINITY, -INFINITY } };

  for (guint i = 0; i < p->view->n_days; i++)
    {
      const FrSeasonDay *day = &p->view->days[i];
      gboolean is_expected = day->is_boil_planned;
      double x = fr_season_day_x (p, i) + p->layout.day_px / 2;
      if (day->n_boils == 0 && !day->is_boil_planned)
        continue;
      fr_mark_pan (c->palette, c->cr, x, y, width, is_expected);
      fr_canvas_take (c, (FrBox){ x - width / 2 - 1, y, width + 2, 1.35 * width });
      ends[is_expected][0] = MIN (ends[is_expected][0], x - width / 2);
      ends[is_expected][1] = MAX (ends[is_expected][1], x + width / 2);
    }
  /* What is planned stands behind its marks, never before. */
  if (ends[1][0] <= ends[1][1])
    put_words (p, FR_SEASON_LANE_BOILS, texts->expected, INFINITY, ends[1][1]);
  if (ends[0][0] <= ends[0][1])
    put_words (p, FR_SEASON_LANE_BOILS, texts->known, ends[0][0], MAX (ends[0][1], ends[1][1]));
}

void
fr_season_draw_bottles (FrSeasonPaint *p)
{
  FrCanvas *c = &p->canvas;
  double width = mark_width (p), middle = row_middle (p, FR_SEASON_LANE_BOTTLES), last = -INFINITY,
         first = INFINITY;

  for (guint i = 0; i < p->view->n_days; i++)
    {
      double x = fr_season_day_x (p, i) + p->layout.day_px / 2;
      if (p->view->days[i].n_bottles == 0)
        continue;
      fr_mark_bottle (c->palette, c->cr, x, middle - 0.675 * width, width);
      fr_canvas_take (c, (FrBox){ x - width / 2, middle - 0.675 * width, width, 1.35 * width });
      first = MIN (first, x - width / 2);
      last = MAX (last, x + width / 2);
    }
  for (guint i = 0; i < p->view->n_days; i++)
    {
      double x = fr_season_day_x (p, i) + p->layout.day_px / 2 + width / 2 + 3;
      if (p->view->days[i].n_bottles == 0)
        continue;
      g_autofree char *number = g_strdup_printf ("%u", p->view->days[i].n_bottles);
      g_autoptr (PangoLayout) text = fr_canvas_text (c, NULL, number, NULL, NUMBER_PX);
      if (fr_season_try_inside (p, text, x, middle, 0, 0.5, FR_ROLE_INK, 0.9) && x > last - 3)
        last += 18 * c->scale_ratio;
    }
  if (first <= last)
    put_words (p, FR_SEASON_LANE_BOTTLES, p->strip->texts->lanes[FR_SEASON_LANE_BOTTLES].known, first, last);
}

/* --- price --- */

/* Of the season's highest price, which fills the lane; a price under nothing is a line on the ground. */
static double
price_height (const FrSeasonPaint *p, double price, double most)
{
  double height = p->layout.lanes[FR_SEASON_LANE_PRICE].height_px;

  return most > 0 ? MAX (height * price / most, 1.5) : 1.5;
}

static void
number_price (FrSeasonPaint *p, double price, double most)
{
  const FrSeasonLayout *l = &p->layout;
  double foot = l->lanes[FR_SEASON_LANE_PRICE].y_px + l->lanes[FR_SEASON_LANE_PRICE].height_px;
  char *number;
  const char *unit;

  fr_quantity_format (price, FR_QUANTITY_PRICE, p->strip->units, 1, &number, &unit);
  g_autoptr (PangoLayout) text = fr_canvas_text (&p->canvas, number, NULL, NULL, NUMBER_PX);
  /* At its height, as far as two numbers have room in the lane. */
  double y = price < most ? foot - p->canvas.line_px / 2 + 2 : foot - price_height (p, price, most);
  fr_season_try (p, text, l->plot_x_px - 8 * p->canvas.scale_ratio, y, 1, 0.5, FR_ROLE_INK_SOFT, 0);
  g_free (number);
}

void
fr_season_draw_price (FrSeasonPaint *p)
{
  static const FrRole roles[] = { FR_ROLE_PRICE_LOW, FR_ROLE_PRICE_MID, FR_ROLE_PRICE_HIGH };
  FrCanvas *c = &p->canvas;
  const FrSeasonLayout *l = &p->layout;
  double foot = l->lanes[FR_SEASON_LANE_PRICE].y_px + l->lanes[FR_SEASON_LANE_PRICE].height_px;
  double most = -INFINITY, least = INFINITY;

  for (guint i = 0; i < p->view->n_prices; i++)
    if (isfinite (p->view->prices[i].price_per_kwh))
      {
        most = MAX (most, p->view->prices[i].price_per_kwh);
        least = MIN (least, p->view->prices[i].price_per_kwh);
      }
  /* One path a level, so that neighbours have no seam between them. */
  for (guint level = 0; level < G_N_ELEMENTS (roles); level++)
    {
      for (guint i = 0; i < p->view->n_prices; i++)
        {
          const FrSeasonPrice *price = &p->view->prices[i];
          double x = fr_season_layout_x (l, p->view, price->from_utc);
          double width = fr_season_layout_x (l, p->view, price->to_utc) - x;
          if (!isfinite (price->price_per_kwh) || MIN (price->level, 2) != level || width <= 0)
            continue;
          double height = price_height (p, price->price_per_kwh, most);
          cairo_rectangle (c->cr, x, foot - height, width, height);
        }
      fr_palette_set_source (c->palette, c->cr, roles[level], 1);
      cairo_fill (c->cr);
    }
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_AXIS, 1);
  fr_canvas_rule (c, l->plot_x_px, foot, l->plot_x_px + l->plot_width_px, foot, 1);
  if (most >= least)
    number_price (p, most, most);
  if (most > least)
    number_price (p, least, most);
}
