/* The air hour by hour across the freezing line: as observed a strong line over a filled area, to come a
 * dashed one in a band that 8 in 10 fall inside. The band's width is told for each day's low and high;
 * between them it changes evenly, from nothing at the last observed hour. Under the freezing line a bar marks
 * the hours in which sap runs. */
#include "paint/forecast-private.h"

#define PAST_RATIO 0.34
#define AHEAD_RATIO 0.12
#define BAND_RATIO 0.17
#define BAR_PX 4.0
#define APART_H 6 /* an hour is a low or a high when no other within so many is lower or higher */

typedef struct
{
  guint n; /* hours, the last is the midnight after the last column */
  double *temp_c;
  double *lower_k; /* of the band, against the line; 0 for what was observed */
  double *upper_k;
} Hours;

typedef struct
{
  double hour;
  double lower_k;
  double upper_k;
} Anchor;

static int
by_hour (gconstpointer a, gconstpointer b)
{
  double x = ((const Anchor *)a)->hour, y = ((const Anchor *)b)->hour;

  return (x > y) - (x < y);
}

static void
add_anchor (GArray *anchors, double hour, double middle_c, double lo_c, double hi_c)
{
  Anchor anchor = { hour, MIN (fr_forecast_sane_c (lo_c) - middle_c, 0),
                    MAX (fr_forecast_sane_c (hi_c) - middle_c, 0) };

  if (isfinite (fr_forecast_sane_c (lo_c)) && isfinite (fr_forecast_sane_c (hi_c)) && isfinite (middle_c))
    g_array_append_val (anchors, anchor);
}

/* One at the lowest and one at the highest hour of each day to come, from gathering to gathering. */
static GArray *
anchors_of (const FrForecastPaint *p, const Hours *hours, double known_h)
{
  GArray *anchors = g_array_new (FALSE, FALSE, sizeof (Anchor));

  if (isfinite (known_h))
    {
      Anchor now = { known_h, 0, 0 };
      g_array_append_val (anchors, now);
    }
  for (guint i = 0; i < p->chart->n_days; i++)
    {
      const FrForecastDay *day = fr_forecast_column_day (p, i);
      double end = 24.0 * i + fr_forecast_gather_h (p);
      gint64 low = -1, high = -1;
      if (day == NULL || !day->is_ahead)
        continue;
      for (gint64 k = (gint64)MAX (floor (MAX (end - 24, known_h)) + 1, 0); k <= (gint64)end; k++)
        {
          if (isnan (hours->temp_c[k]))
            continue;
          low = low < 0 || hours->temp_c[k] < hours->temp_c[low] ? k : low;
          high = high < 0 || hours->temp_c[k] > hours->temp_c[high] ? k : high;
        }
      if (low < 0)
        continue;
      add_anchor (anchors, (double)low, day->low_c, day->low_lo_c, day->low_hi_c);
      if (high != low)
        add_anchor (anchors, (double)high, day->high_c, day->high_lo_c, day->high_hi_c);
    }
  g_array_sort (anchors, by_hour);
  return anchors;
}

static void
fill_band (const FrForecastPaint *p, Hours *hours)
{
  double known = fr_forecast_known_h (p);
  g_autoptr (GArray) anchors = anchors_of (p, hours, known);

  for (guint k = 0, at = 0; k < hours->n && anchors->len > 0; k++)
    {
      while (at + 1 < anchors->len && g_array_index (anchors, Anchor, at + 1).hour <= k)
        at++;
      const Anchor *a = &g_array_index (anchors, Anchor, at);
      const Anchor *b = &g_array_index (anchors, Anchor, MIN (at + 1, anchors->len - 1));
      if (k <= known)
        continue;
      double part = b->hour > a->hour ? CLAMP ((k - a->hour) / (b->hour - a->hour), 0, 1) : 0;
      hours->lower_k[k] = a->lower_k + part * (b->lower_k - a->lower_k);
      hours->upper_k[k] = a->upper_k + part * (b->upper_k - a->upper_k);
    }
}

static void
fill_hours (const FrForecastPaint *p, Hours *hours)
{
  hours->n = 24 * p->chart->n_days + 1;
  hours->temp_c = g_new (double, hours->n);
  hours->lower_k = g_new0 (double, hours->n);
  hours->upper_k = g_new0 (double, hours->n);
  for (guint k = 0; k < hours->n; k++)
    hours->temp_c[k] = fr_forecast_hour_c (p, k);
  fill_band (p, hours);
}

static void
free_hours (Hours *hours)
{
  g_free (hours->temp_c);
  g_free (hours->lower_k);
  g_free (hours->upper_k);
}

/* --- shapes --- */

static double
edge_y (const FrForecastPaint *p, const Hours *hours, guint hour, gint edge)
{
  double more = edge < 0 ? hours->lower_k[hour] : edge > 0 ? hours->upper_k[hour] : 0;

  return fr_forecast_air_y (p, hours->temp_c[hour] + more);
}

/* The next stretch of known hours from @from on, within @to; FALSE: none. */
static gboolean
next_run (const Hours *hours, guint from, guint to, guint *first, guint *last)
{
  while (from <= to && from < hours->n && isnan (hours->temp_c[from]))
    from++;
  *first = *last = from;
  while (*last + 1 <= to && *last + 1 < hours->n && !isnan (hours->temp_c[*last + 1]))
    (*last)++;
  return from <= to && from < hours->n;
}

static void
trace_edge (FrForecastPaint *p, const Hours *hours, guint first, guint last, gint edge)
{
  for (guint k = first; k <= last; k++)
    cairo_line_to (p->canvas.cr, fr_forecast_x (p, k), edge_y (p, hours, k, edge));
}

FrRole
fr_forecast_clip_half (FrForecastPaint *p, guint half)
{
  const FrForecastChartLayout *l = &p->layout;
  double zero = fr_forecast_air_y (p, 0), top = l->lanes[FR_FORECAST_LANE_AIR].y_px,
         foot = top + l->lanes[FR_FORECAST_LANE_AIR].height_px;

  cairo_rectangle (p->canvas.cr, l->plot_x_px - 1, half == 0 ? top : zero, l->plot_width_px + 2,
                   half == 0 ? zero - top : foot - zero);
  cairo_clip (p->canvas.cr);
  return half == 0 ? FR_ROLE_THAW : FR_ROLE_FREEZE;
}

static void
fill_shape (FrForecastPaint *p, FrRole role, double alpha_ratio, gboolean is_hatched)
{
  FrCanvas *c = &p->canvas;
  const FrForecastChartLayout *l = &p->layout;

  if (!p->is_paper)
    {
      fr_palette_set_source (c->palette, c->cr, role, alpha_ratio);
      cairo_fill (c->cr);
      return;
    }
  if (is_hatched)
    {
      cairo_save (c->cr);
      cairo_clip (c->cr);
      fr_palette_set_source (c->palette, c->cr, role, 1);
      fr_canvas_hatch (c,
                       (FrBox){ l->plot_x_px, l->lanes[FR_FORECAST_LANE_AIR].y_px, l->plot_width_px,
                                l->lanes[FR_FORECAST_LANE_AIR].height_px },
                       5 * c->scale_ratio, role == FR_ROLE_THAW);
      cairo_restore (c->cr);
    }
  cairo_new_path (c->cr);
}

/* From the freezing line to the air, and on the band between its edges. */
static void
draw_areas (FrForecastPaint *p, const Hours *hours, FrRole role, guint known)
{
  FrCanvas *c = &p->canvas;
  double zero = fr_forecast_air_y (p, 0);

  for (guint part = 0; part < 2; part++)
    {
      guint to = part == 0 ? known : hours->n - 1, first, last;
      for (guint from = part == 0 ? 0 : known; next_run (hours, from, to, &first, &last); from = last + 1)
        {
          if (last == first)
            continue;
          cairo_move_to (c->cr, fr_forecast_x (p, first), zero);
          trace_edge (p, hours, first, last, 0);
          cairo_line_to (c->cr, fr_forecast_x (p, last), zero);
          cairo_close_path (c->cr);
          fill_shape (p, role, part == 0 ? PAST_RATIO : AHEAD_RATIO, part == 0);
          if (part == 0)
            continue;
          cairo_new_path (c->cr);
          trace_edge (p, hours, first, last, 1);
          for (guint k = last + 1; k-- > first;)
            cairo_line_to (c->cr, fr_forecast_x (p, k), edge_y (p, hours, k, -1));
          cairo_close_path (c->cr);
          fill_shape (p, role, BAND_RATIO, FALSE);
          for (gint edge = -1; edge <= 1; edge += 2)
            {
              cairo_new_path (c->cr);
              trace_edge (p, hours, first, last, edge);
              fr_palette_set_source (c->palette, c->cr, role,
                                     p->is_paper || c->palette->high_contrast ? 1 : 0.4);
              cairo_set_line_width (c->cr, MAX (0.6, fr_palette_band_edge_px (c->palette)));
              cairo_stroke (c->cr);
            }
        }
    }
}

static void
draw_lines (FrForecastPaint *p, const Hours *hours, FrRole role, guint known)
{
  FrCanvas *c = &p->canvas;

  fr_palette_set_source (c->palette, c->cr, role, 1);
  cairo_set_line_width (c->cr, 2);
  for (guint part = 0; part < 2; part++)
    {
      guint to = part == 0 ? known : hours->n - 1, first, last;
      fr_canvas_dash (c, part == 0 ? 0 : 5, 2.5);
      for (guint from = part == 0 ? 0 : known; next_run (hours, from, to, &first, &last); from = last + 1)
        {
          cairo_new_path (c->cr);
          trace_edge (p, hours, first, last, 0);
          cairo_stroke (c->cr);
        }
    }
  fr_canvas_dash (c, 0, 0);
}

/* --- the hours that matter --- */

/* When between two hours the air passes @at_c. */
static double
crossing_h (const Hours *hours, guint from, double at_c)
{
  double a = hours->temp_c[from], b = hours->temp_c[from + 1];

  return from + (at_c - a) / (b - a);
}

static void
draw_running_bar (FrForecastPaint *p, double from_h, double to_h, gboolean is_known)
{
  FrCanvas *c = &p->canvas;
  double x = fr_forecast_x (p, from_h), width = fr_forecast_x (p, to_h) - x;
  double y = fr_forecast_air_y (p, 0) + 2.5, high = BAR_PX * MIN (c->scale_ratio, 1.5);
  FrBox box = { x, y, width, high };

  if (width <= 0)
    return;
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_SAP, 1);
  if (is_known)
    {
      cairo_rectangle (c->cr, x, y, width, high);
      cairo_fill (c->cr);
    }
  else
    {
      cairo_rectangle (c->cr, x + 0.5, y + 0.5, MAX (width - 1, 0.1), high - 1);
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_SAP, p->is_paper ? 0 : 0.3);
      cairo_fill_preserve (c->cr);
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_SAP, 1);
      cairo_set_line_width (c->cr, MAX (1, fr_palette_band_edge_px (c->palette)));
      cairo_stroke (c->cr);
    }
  fr_canvas_take (c, box);
  fr_forecast_mark (p, FR_FORECAST_MARK_RUNNING, (guint)CLAMP (from_h / 24, 0, p->chart->n_days - 1.0), box);
}

static void
draw_running (FrForecastPaint *p, const Hours *hours, double known)
{
  double start = NAN;

  for (guint k = 0; k < hours->n; k++)
    {
      gboolean is_above = hours->temp_c[k] > FR_RUN_AIR_C;
      gboolean next_known = k + 1 < hours->n && !isnan (hours->temp_c[k + 1]);
      if (is_above && isnan (start))
        start = k > 0 && !isnan (hours->temp_c[k - 1]) ? crossing_h (hours, k - 1, FR_RUN_AIR_C) : k;
      if (isnan (start) || !is_above || (next_known && hours->temp_c[k + 1] > FR_RUN_AIR_C))
        continue;
      double end = next_known ? crossing_h (hours, k, FR_RUN_AIR_C) : k;
      /* What runs over now is known before and expected after. */
      if (start < known)
        draw_running_bar (p, start, MIN (end, known), TRUE);
      if (end > known)
        draw_running_bar (p, MAX (start, known), end, FALSE);
      start = NAN;
    }
}

/* --- numbers --- */

/* Of equal hours side by side the first counts; an end of the line is no low and no high. */
static gboolean
is_turning (const Hours *hours, guint at, gint way)
{
  double here = way * hours->temp_c[at];

  if (at == 0 || at + 1 >= hours->n || isnan (here) || !(way * hours->temp_c[at - 1] < here)
      || isnan (hours->temp_c[at + 1]))
    return FALSE;
  for (guint k = at > APART_H ? at - APART_H : 0; k <= MIN (at + APART_H, hours->n - 1); k++)
    if (way * hours->temp_c[k] > here)
      return FALSE;
  return TRUE;
}

static void
put_number (FrForecastPaint *p, const Hours *hours, guint hour, gint way)
{
  double temp = hours->temp_c[hour], x = fr_forecast_x (p, hour);
  double away = edge_y (p, hours, hour, way) - way * 2, near = fr_forecast_air_y (p, temp) - way * 4;
  double zero = fr_forecast_air_y (p, 0);
  FrRole role = temp < 0 ? FR_ROLE_FREEZE : FR_ROLE_THAW;
  char *number;
  const char *unit;

  fr_quantity_format (temp, FR_QUANTITY_TEMPERATURE, p->chart->units, 0, &number, &unit);
  g_autoptr (PangoLayout) text = fr_canvas_text (&p->canvas, NULL, number, NULL, FR_FORECAST_NUMBER_PX);
  double down = way > 0 ? 1 : 0;
  if (!fr_canvas_try_at (&p->canvas, text, x, away, 0.5, down, role, 0.9)
      && !fr_canvas_try_at (&p->canvas, text, x, near, 0.5, down, role, 0.9))
    /* A low over freezing, a high under it: beyond the line and its bar. */
    fr_canvas_try_at (&p->canvas, text, x, zero + (way > 0 ? -2 : 9 * p->canvas.scale_ratio), 0.5, down, role,
                      0.9);
  g_free (number);
}

static void
put_numbers (FrForecastPaint *p, const Hours *hours)
{
  for (guint k = 0; k < hours->n; k++)
    for (gint way = 1; way >= -1; way -= 2)
      if (is_turning (hours, k, way))
        put_number (p, hours, k, way);
}

void
fr_forecast_draw_air (FrForecastPaint *p)
{
  FrCanvas *c = &p->canvas;
  const FrForecastChartLayout *l = &p->layout;
  double zero = fr_forecast_air_y (p, 0), right = l->plot_x_px + l->plot_width_px;
  Hours hours;

  if (l->lanes[FR_FORECAST_LANE_AIR].height_px <= 0)
    return;
  fill_hours (p, &hours);
  double known = fr_forecast_known_h (p);
  guint known_hour = (guint)CLAMP (floor (known), 0, hours.n - 1.0);
  cairo_save (c->cr);
  cairo_set_line_join (c->cr, CAIRO_LINE_JOIN_ROUND);
  for (guint half = 0; half < 2; half++)
    {
      cairo_save (c->cr);
      FrRole role = fr_forecast_clip_half (p, half);
      draw_areas (p, &hours, role, known_hour);
      draw_lines (p, &hours, role, known_hour);
      cairo_restore (c->cr);
    }
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_INK, 1);
  fr_canvas_rule (c, l->plot_x_px, zero, right, zero, 1.5);
  fr_canvas_take (c, (FrBox){ l->plot_x_px, zero - 1, l->plot_width_px, 2 });
  draw_running (p, &hours, known);
  cairo_restore (c->cr);
  put_numbers (p, &hours);
  fr_forecast_put_gaps (p);
  free_hours (&hours);
}
