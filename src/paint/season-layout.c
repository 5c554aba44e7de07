/* How the height is shared among the lanes, and where a day is. The head and the three large lanes come
 * first; what is left over makes those taller in proportion. */
#include "paint/season-private.h"

#define BESIDE_PX 6.0

static const FrSeasonLane dropped_first[]
    = { FR_SEASON_LANE_SO_FAR, FR_SEASON_LANE_BOTTLES, FR_SEASON_LANE_BOILS, FR_SEASON_LANE_PRICE,
        FR_SEASON_LANE_STORE };

static const struct
{
  double least_px;
  double most_px;
  double weight; /* of the height left over */
  gboolean is_row;
} sizes[FR_N_SEASON_LANES] = {
  [FR_SEASON_LANE_SPAN] = { 64, 1e9, 1.45, FALSE },  [FR_SEASON_LANE_GATHERED] = { 50, 1e9, 1.2, FALSE },
  [FR_SEASON_LANE_SO_FAR] = { 46, 1e9, 0.8, FALSE }, [FR_SEASON_LANE_STORE] = { 46, 1e9, 0.9, FALSE },
  [FR_SEASON_LANE_BOILS] = { 20, 26, 0.05, TRUE },   [FR_SEASON_LANE_BOTTLES] = { 20, 26, 0.05, TRUE },
  [FR_SEASON_LANE_PRICE] = { 20, 38, 0.15, TRUE },
};

static double
gap_px (FrSeasonLane lane, double line_px)
{
  return (sizes[lane].is_row ? 0.45 : 1.15) * line_px;
}

static double
head_px (double line_px, double scale_ratio)
{
  return 8 * scale_ratio + 2 * line_px + 4 * scale_ratio;
}

double
fr_season_strip_least_height_px (double text_scale)
{
  double line = 17 * text_scale, height = head_px (line, text_scale) + line + 16 * text_scale;

  for (guint i = 0; i < FR_N_SEASON_LANES; i++)
    height += sizes[i].least_px * text_scale + gap_px (i, line);
  return ceil (height);
}

double
fr_season_day_x (const FrSeasonPaint *p, gsize day)
{
  return p->layout.plot_x_px + (double)day * p->layout.day_px;
}

double
fr_season_bar_px (const FrSeasonPaint *p)
{
  double day = p->layout.day_px;

  return day < 2 ? day : CLAMP (0.62 * day, 1.6, 14);
}

double
fr_season_shown (const FrSeasonPaint *p, FrSeasonLane lane, double value)
{
  FrQuantityKind kind = lane == FR_SEASON_LANE_SPAN ? FR_QUANTITY_TEMPERATURE : FR_QUANTITY_VOLUME;

  return isfinite (value) ? fr_quantity_to_shown (value, kind, p->strip->units) : NAN;
}

double
fr_season_y (const FrSeasonPaint *p, FrSeasonLane lane, double value)
{
  double shown = fr_season_shown (p, lane, value);

  return p->layout.lanes[lane].y_px
         + p->layout.lanes[lane].height_px * (p->high_shown[lane] - shown)
               / (p->high_shown[lane] - p->low_shown[lane]);
}

gboolean
fr_season_tick_y (const FrSeasonPaint *p, FrSeasonLane lane, guint at, double *y_px)
{
  double value = fr_axis_tick (&p->axes[lane], at), span = p->high_shown[lane] - p->low_shown[lane];
  double ratio = (p->high_shown[lane] - value) / span;

  *y_px = p->layout.lanes[lane].y_px + p->layout.lanes[lane].height_px * ratio;
  return ratio >= -1e-9 && ratio <= 1 + 1e-9;
}

/* --- height --- */

static gboolean
feet_fit_in_one_row (FrSeasonPaint *p)
{
  FrCanvas *c = &p->canvas;
  double last = -INFINITY, plot = 0.7 * c->width_px;

  for (gsize i = 0; i < p->strip->texts->n_feet; i++)
    {
      const FrSeasonFoot *foot = &p->strip->texts->feet[i];
      double width, height;
      g_autoptr (PangoLayout) text
          = fr_canvas_text (c, foot->before, foot->strong, foot->after, FR_TEXT_SMALL_PX);
      if (text == NULL)
        continue;
      fr_layout_size (text, &width, &height);
      double middle = plot * foot->day / MAX (p->view->n_days, 1u);
      if (middle - width / 2 < last + 8)
        return FALSE;
      last = middle + width / 2;
    }
  return TRUE;
}

static void
share_height (FrSeasonPaint *p)
{
  const FrCanvas *c = &p->canvas;
  double h = c->line_px, s = c->scale_ratio, head = head_px (h, s);
  double foot = 6 * s, least = 0, weight = 0;
  gboolean has[FR_N_SEASON_LANES];

  if (p->strip->texts->n_feet > 0)
    p->n_foot_rows = feet_fit_in_one_row (p) ? 1 : 2;
  foot += p->n_foot_rows > 0 ? p->n_foot_rows * h + 6 * s : 0;
  for (guint i = 0; i < FR_N_SEASON_LANES; i++)
    {
      has[i] = i != FR_SEASON_LANE_SO_FAR || p->strip->n_past > 0;
      least += has[i] ? sizes[i].least_px * s + gap_px (i, h) : 0;
    }
  for (guint i = 0; i < G_N_ELEMENTS (dropped_first) && head + least + foot > c->height_px; i++)
    {
      FrSeasonLane lane = dropped_first[i];
      least -= has[lane] ? sizes[lane].least_px * s + gap_px (lane, h) : 0;
      has[lane] = FALSE;
    }
  double spare = c->height_px - head - least - foot;
  for (guint i = 0; i < FR_N_SEASON_LANES; i++)
    weight += has[i] ? sizes[i].weight : 0;

  /* Rows first: what they do not take goes to the large lanes. */
  double share = spare / weight, y = head;
  for (guint i = 0; i < FR_N_SEASON_LANES; i++)
    if (has[i] && sizes[i].is_row)
      {
        double add
            = spare > 0 ? MIN (share * sizes[i].weight, (sizes[i].most_px - sizes[i].least_px) * s) : 0;
        p->layout.lanes[i].height_px = sizes[i].least_px * s + add;
        spare -= add;
        weight -= sizes[i].weight;
      }
  for (guint i = 0; i < FR_N_SEASON_LANES; i++)
    {
      if (!has[i])
        continue;
      /* Where even the least is too much, all of it is smaller. */
      if (!sizes[i].is_row)
        p->layout.lanes[i].height_px = MAX (sizes[i].least_px * s + spare * sizes[i].weight / weight, 8);
      y += gap_px (i, h);
      p->layout.lanes[i].y_px = y;
      y += p->layout.lanes[i].height_px;
    }
  p->head_y_px = 8 * s;
  p->layout.plot_y_px = head;
  p->layout.plot_height_px = y - head;
  p->foot_y_px = y + 6 * s;
}

/* --- width --- */

static double
text_width (FrSeasonPaint *p, const char *plain, const char *strong)
{
  double width = 0, height;
  g_autoptr (PangoLayout) text = fr_canvas_text (&p->canvas, plain, strong, NULL, FR_TEXT_SMALL_PX);

  if (text != NULL)
    fr_layout_size (text, &width, &height);
  return width;
}

static void
choose_gutters (FrSeasonPaint *p)
{
  const FrCanvas *c = &p->canvas;
  double names = 0, numbers = 0, s = c->scale_ratio;

  p->pad_px = c->width_px >= 700 ? 18 : 10;
  for (guint i = 0; i < FR_N_SEASON_LANES; i++)
    {
      const FrSeasonLaneText *text = &p->strip->texts->lanes[i];
      if (p->layout.lanes[i].height_px <= 0)
        continue;
      names = MAX (names, MAX (text_width (p, NULL, text->name), text_width (p, text->unit, NULL)));
      for (guint k = 0; i <= FR_SEASON_LANE_STORE && k <= p->axes[i].n_intervals; k++)
        {
          g_autofree char *number = fr_axis_text (&p->axes[i], k, NULL);
          numbers = MAX (numbers, text_width (p, NULL, number));
        }
    }
  numbers += text_width (p, NULL, "+");
  p->names_inside = p->pad_px + names + numbers + 16 * s > 0.26 * c->width_px;
  p->name_x_px = p->pad_px;
  p->layout.plot_x_px = p->pad_px + numbers + 8 * s + (p->names_inside ? 0 : names + 8 * s);
  p->layout.plot_width_px = MAX (c->width_px - p->layout.plot_x_px - p->pad_px, 10);
}

void
fr_season_lay_out (FrSeasonPaint *p)
{
  p->layout.n_days = p->view->n_days;
  share_height (p);
  for (guint i = 0; i < FR_N_SEASON_LANES; i++)
    {
      p->is_empty[i] = fr_season_is_lane_empty (p, i);
      if (i <= FR_SEASON_LANE_STORE)
        fr_season_choose_scale (p, i);
    }
  p->freezing_shown = fr_season_shown (p, FR_SEASON_LANE_SPAN, 0);
  choose_gutters (p);
  p->layout.day_px = p->view->n_days > 0 ? p->layout.plot_width_px / p->view->n_days : 0;
}

/* --- there and back --- */

gboolean
fr_season_layout_at (const FrSeasonLayout *layout, double x_px, double y_px, guint *day, FrSeasonLane *lane)
{
  double from = layout->plot_x_px, to = from + layout->plot_width_px;

  if (layout->n_days == 0 || !(layout->day_px > 0) || !(x_px >= from - BESIDE_PX && x_px <= to + BESIDE_PX)
      || !(y_px >= 0))
    return FALSE;
  *day = (guint)CLAMP (floor ((x_px - from) / layout->day_px), 0, layout->n_days - 1);
  if (lane != NULL)
    {
      *lane = FR_N_SEASON_LANES;
      for (guint i = 0; i < FR_N_SEASON_LANES; i++)
        if (layout->lanes[i].height_px > 0 && y_px >= layout->lanes[i].y_px
            && y_px <= layout->lanes[i].y_px + layout->lanes[i].height_px)
          *lane = i;
    }
  return TRUE;
}

gboolean
fr_season_layout_day (const FrSeasonLayout *layout, guint day, cairo_rectangle_t *box)
{
  if (day >= layout->n_days)
    return FALSE;
  *box = (cairo_rectangle_t){ layout->plot_x_px + day * layout->day_px, layout->plot_y_px, layout->day_px,
                              layout->plot_height_px };
  return TRUE;
}

double
fr_season_layout_x (const FrSeasonLayout *layout, const FrSeasonView *view, gint64 utc_s)
{
  guint low = 0, high = view->n_days;

  /* The last day that has begun. */
  while (low + 1 < high)
    {
      guint middle = (low + high) / 2;
      if (view->days[middle].from_utc <= utc_s)
        low = middle;
      else
        high = middle;
    }
  if (view->n_days == 0)
    return layout->plot_x_px;
  const FrSeasonDay *day = &view->days[low];
  double span = (double)(day->to_utc - day->from_utc);
  double part = span > 0 ? CLAMP ((double)(utc_s - day->from_utc) / span, 0, 1) : 0;
  return layout->plot_x_px + ((double)low + part) * layout->day_px;
}
