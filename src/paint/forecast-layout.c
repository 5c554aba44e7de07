/* How the area is shared: the heads, a caption as high as its words, and what is left for the air and the
 * litres in equal parts, with the row of chances between them. A scale spans its values and no more, with one
 * line of text free beyond them for their numbers. */
#include "paint/forecast-private.h"

#define BESIDE_PX 6.0
#define PAD_PX 18.0
#define NARROW_PX 640.0
#define LEAST_LANE_PX 48.0
#define LEAST_PLOT_PX 40.0
#define LANE_GAP_PX 12.0
#define CHANCE_BAR_PX 10.0
#define EMPTY_C 10.0 /* of an empty lane, either way */
#define EMPTY_L 20.0
#define EMPTY_TAP_L 2.0
#define CAPTION_LINES 3

static double
chance_px (double line_px, double scale_ratio)
{
  return line_px + CHANCE_BAR_PX * scale_ratio;
}

double
fr_forecast_chart_least_height_px (double text_scale)
{
  double line = 17 * text_scale;

  return ceil (10 * text_scale + 2 * line + 6 * text_scale + 2 * (LEAST_LANE_PX * text_scale + line)
               + 2 * LANE_GAP_PX * text_scale + chance_px (line, text_scale) + 14 * text_scale);
}

double
fr_forecast_x (const FrForecastPaint *p, double hour)
{
  return p->layout.plot_x_px + hour / 24 * p->layout.day_px;
}

double
fr_forecast_shown_y (const FrForecastPaint *p, FrForecastLane lane, double shown)
{
  double top = p->layout.lanes[lane].y_px, foot = top + p->layout.lanes[lane].height_px, low = 0,
         high = p->litres_high_shown;

  top += p->canvas.line_px;
  if (lane == FR_FORECAST_LANE_AIR)
    {
      foot -= p->canvas.line_px;
      low = p->air_low_shown;
      high = p->air_high_shown;
    }
  return foot - (shown - low) / (high - low) * (foot - top);
}

double
fr_forecast_air_y (const FrForecastPaint *p, double temp_c)
{
  return fr_forecast_shown_y (p, FR_FORECAST_LANE_AIR,
                              fr_quantity_to_shown (temp_c, FR_QUANTITY_TEMPERATURE, p->chart->units));
}

double
fr_forecast_litres_y (const FrForecastPaint *p, double volume_l)
{
  return fr_forecast_shown_y (p, FR_FORECAST_LANE_LITRES,
                              fr_quantity_to_shown (volume_l, FR_QUANTITY_VOLUME, p->chart->units));
}

static void
reach (double range[2], double value)
{
  if (!isfinite (value))
    return;
  range[0] = MIN (range[0], value);
  range[1] = MAX (range[1], value);
}

static void
choose_scales (FrForecastPaint *p)
{
  double air[2] = { INFINITY, -INFINITY }, litres[2] = { 0, 0 };
  const FrUnits *units = p->chart->units;

  for (gint64 hour = 0; hour <= 24 * (gint64)p->chart->n_days; hour++)
    reach (air, fr_forecast_hour_c (p, hour));
  for (guint i = 0; i < p->chart->n_days; i++)
    {
      const FrForecastDay *day = fr_forecast_column_day (p, i);
      FrLitres l = fr_forecast_litres (p, day);
      guint n;
      if (day == NULL)
        continue;
      /* All of them: nobody promises that they are in order. */
      reach (litres, l.lo_l);
      reach (litres, l.quarter_lo_l);
      reach (litres, l.middle_l);
      reach (litres, l.quarter_hi_l);
      reach (litres, l.hi_l);
      reach (litres, fr_forecast_gathered_l (p, day, &n));
      reach (air, fr_forecast_sane_c (day->low_lo_c));
      reach (air, fr_forecast_sane_c (day->high_hi_c));
    }
  if (air[0] > air[1])
    {
      reach (air, EMPTY_C);
      reach (air, -EMPTY_C);
    }
  /* The freezing line always has room on both sides. */
  reach (air, 2);
  reach (air, -2);
  if (litres[1] <= 0)
    litres[1] = p->chart->is_per_tap ? EMPTY_TAP_L : EMPTY_L;
  /* What is no run has to look like none. */
  if (p->chart->forecast != NULL)
    reach (litres, p->chart->is_per_tap ? FR_RUN_L : FR_RUN_L * p->chart->forecast->n_taps);
  p->freezing_shown = fr_quantity_to_shown (0, FR_QUANTITY_TEMPERATURE, units);
  p->air_low_shown = fr_quantity_to_shown (air[0], FR_QUANTITY_TEMPERATURE, units);
  p->air_high_shown = fr_quantity_to_shown (air[1], FR_QUANTITY_TEMPERATURE, units);
  p->litres_high_shown = fr_quantity_to_shown (litres[1], FR_QUANTITY_VOLUME, units);
}

static double
text_width (FrForecastPaint *p, const char *plain, const char *strong, double size_px)
{
  double width = 0, height;
  g_autoptr (PangoLayout) text = fr_canvas_text (&p->canvas, plain, strong, NULL, size_px);

  if (text != NULL)
    fr_layout_size (text, &width, &height);
  return width;
}

/* 1: "Sat 13"; 2: one above the other. */
static guint
head_lines (FrForecastPaint *p)
{
  const FrForecastHead *heads = p->chart->texts->heads;

  for (guint i = 0; heads != NULL && i < p->chart->n_days; i++)
    {
      double width, height;
      g_autoptr (PangoLayout) text = fr_canvas_text (&p->canvas, NULL, heads[i].weekday, heads[i].date, 13.5);
      if (text == NULL)
        continue;
      fr_layout_size (text, &width, &height);
      if (width > p->layout.day_px - 4)
        return 2;
    }
  return 1;
}

PangoLayout *
fr_forecast_caption (FrForecastPaint *p)
{
  double width, height, room = p->layout.plot_width_px;
  PangoLayout *text = fr_canvas_text (&p->canvas, p->chart->texts->caption, NULL, NULL, FR_FORECAST_SMALL_PX);

  if (text == NULL)
    return NULL;
  fr_layout_size (text, &width, &height);
  if (width > room)
    {
      pango_layout_set_single_paragraph_mode (text, FALSE);
      pango_layout_set_wrap (text, PANGO_WRAP_WORD);
      pango_layout_set_width (text, (int)(MAX (room, 1) * PANGO_SCALE));
      fr_layout_size (text, &width, &height);
    }
  if (width <= room && height <= CAPTION_LINES * p->canvas.line_px + 1)
    return text;
  g_object_unref (text);
  return NULL;
}

void
fr_forecast_lay_out (FrForecastPaint *p)
{
  FrCanvas *c = &p->canvas;
  FrForecastChartLayout *l = &p->layout;
  const FrForecastChartTexts *texts = p->chart->texts;
  double s = c->scale_ratio, line = c->line_px, names = 0, width, caption_height = 0;

  *l = (FrForecastChartLayout){ .first = p->chart->first, .n_days = p->chart->n_days };
  p->names_inside = c->width_px < NARROW_PX * s;
  p->is_paper = c->palette->theme == FR_THEME_PAPER;
  p->name_x_px = p->names_inside ? 6 * s : PAD_PX * s;
  names = MAX (MAX (text_width (p, NULL, texts->air, FR_TEXT_SMALL_PX),
                    text_width (p, NULL, texts->chance, FR_TEXT_SMALL_PX)),
               text_width (p, NULL, texts->litres, FR_TEXT_SMALL_PX));
  double scale = text_width (p, "+100", NULL, FR_TEXT_SMALL_PX) + 8 * s;
  l->plot_x_px
      = p->names_inside
            ? p->name_x_px + MAX (scale, text_width (p, NULL, texts->chance, FR_TEXT_SMALL_PX) + 4 * s)
            : MAX (92 * s, p->name_x_px + names + 8 * s + scale);
  l->plot_width_px = MAX (c->width_px - l->plot_x_px - (p->names_inside ? 8 : 14) * s, 1);
  l->day_px = l->plot_width_px / MAX (l->n_days, 1);
  choose_scales (p);

  p->head_lines = head_lines (p);
  l->plot_y_px = 8 * s;
  double top = l->plot_y_px + 5 * s + p->head_lines * 1.15 * line + 4 * s;
  double bottom = c->height_px - 10 * s;
  g_autoptr (PangoLayout) caption = fr_forecast_caption (p);
  p->caption_y_px = NAN;
  if (caption != NULL)
    {
      fr_layout_size (caption, &width, &caption_height);
      caption_height += 8 * s;
    }
  double gap = LANE_GAP_PX * s, chance = chance_px (line, s), least = LEAST_LANE_PX * s + line;
  double room = bottom - top;
  if (caption != NULL && room - caption_height >= 2 * least + 2 * gap + chance)
    {
      p->caption_y_px = bottom - caption_height + 8 * s;
      bottom -= caption_height;
      room -= caption_height;
    }
  gboolean has_chance = room >= 2 * least + 2 * gap + chance;
  gboolean has_litres = room >= 2 * least + gap;
  double rest = room - (has_chance ? chance + gap : 0) - (has_litres ? gap : 0);
  l->lanes[FR_FORECAST_LANE_AIR].y_px = top;
  /* Without room for a column there is nothing to see at any height. */
  if (l->plot_width_px < LEAST_PLOT_PX * s)
    {
      l->plot_height_px = MAX (bottom - l->plot_y_px, 0);
      return;
    }
  if (rest >= LEAST_LANE_PX * s)
    l->lanes[FR_FORECAST_LANE_AIR].height_px = has_litres ? rest / 2 : rest;
  double y = top + l->lanes[FR_FORECAST_LANE_AIR].height_px + gap;
  l->lanes[FR_FORECAST_LANE_CHANCE].y_px = y;
  if (has_chance)
    {
      l->lanes[FR_FORECAST_LANE_CHANCE].height_px = chance;
      y += chance + gap;
    }
  l->lanes[FR_FORECAST_LANE_LITRES].y_px = y;
  if (has_litres)
    l->lanes[FR_FORECAST_LANE_LITRES].height_px = rest / 2;
  l->plot_height_px = MAX (bottom - l->plot_y_px, 0);

  double air = l->lanes[FR_FORECAST_LANE_AIR].height_px - 2 * line,
         litres = l->lanes[FR_FORECAST_LANE_LITRES].height_px - line;
  fr_axis_apart (p->air_low_shown, p->air_high_shown, CLAMP (air / (1.7 * line), 2, 3.5), &p->air_axis);
  fr_axis_apart (0, p->litres_high_shown, CLAMP (litres / (1.7 * line), 2, 4), &p->litres_axis);
}

/* --- where --- */

gboolean
fr_forecast_chart_at (const FrForecastChartLayout *layout, double x_px, double y_px, FrDate *date,
                      FrForecastLane *lane)
{
  double at = x_px - layout->plot_x_px;

  if (layout->n_days == 0 || !(at >= -BESIDE_PX && at <= layout->plot_width_px + BESIDE_PX))
    return FALSE;
  *date
      = fr_date_add_days (layout->first, (gint)CLAMP (floor (at / layout->day_px), 0, layout->n_days - 1.0));
  if (lane == NULL)
    return TRUE;
  *lane = FR_N_FORECAST_LANES;
  for (guint i = 0; i < FR_N_FORECAST_LANES; i++)
    if (layout->lanes[i].height_px > 0 && y_px >= layout->lanes[i].y_px
        && y_px < layout->lanes[i].y_px + layout->lanes[i].height_px)
      *lane = (FrForecastLane)i;
  return TRUE;
}

gboolean
fr_forecast_chart_column (const FrForecastChartLayout *layout, FrDate date, cairo_rectangle_t *box)
{
  if (date.year == 0 || !fr_date_is_valid (date))
    return FALSE;
  gint64 at = fr_date_to_days (date) - fr_date_to_days (layout->first);

  if (at < 0 || at >= layout->n_days)
    return FALSE;
  *box = (cairo_rectangle_t){ layout->plot_x_px + (double)at * layout->day_px, layout->plot_y_px,
                              layout->day_px, layout->plot_height_px };
  return TRUE;
}
