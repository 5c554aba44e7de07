/* One day's cell: four rows, each left out where it has no room, from the least useful on. */
#include "paint/month-private.h"
#include "paint/number.h"

#include <math.h>

#define PAD_PX 8.0
#define PILL_PX 8.0
#define MARK_PX 9.0
#define MARK_GAP_PX 4.0
#define GAUGE_PX 40.0
#define LEAST_GAUGE_PX 22.0
#define GAUGE_HIGH_PX 4.0
#define LITTLE_SHOWN 4.0

typedef struct
{
  double x_px; /* inside the padding */
  double right_px;
  double y_px;
  double bottom_px;
  double pad_px;
} Inside;

static const FrRgba none = { 0, 0, 0, 0 };

static double
put_right (FrMonthPaint *p, PangoLayout *text, double right_px, double y_px, FrRole role)
{
  double width, height;

  fr_layout_size (text, &width, &height);
  fr_canvas_put (&p->canvas, text, right_px - width, y_px, role, none);
  return width;
}

static char *
number (const FrMonthPaint *p, double value, FrQuantityKind kind, int decimals)
{
  char *text;
  const char *unit;

  fr_quantity_format (value, kind, p->month->units, decimals, &text, &unit);
  return text;
}

static int
litres_decimals (const FrMonthPaint *p, double volume_l)
{
  double shown = fr_quantity_to_shown (volume_l, FR_QUANTITY_VOLUME, p->month->units);

  return fabs (shown) < 9.95 && fabs (shown - round (shown)) > 0.05 ? 1 : 0;
}

/* Returns the right edge of the date. */
static double
put_date (FrMonthPaint *p, FrDate date, const Inside *in)
{
  FrCanvas *c = &p->canvas;
  double width, height;
  g_autofree char *day = g_strdup_printf ("%d", date.day);
  g_autoptr (PangoLayout) text = fr_canvas_text (c, NULL, day, NULL, FR_MONTH_DATE_PX);
  gboolean is_today = p->month->today.year != 0 && fr_date_compare (p->month->today, date) == 0;

  fr_layout_size (text, &width, &height);
  if (width > in->right_px - in->x_px + 2)
    return in->x_px;
  if (!is_today)
    {
      fr_canvas_put (c, text, in->x_px, in->y_px, FR_ROLE_INK, none);
      return in->x_px + width;
    }
  double r = height / 2 + 1, x = MAX (in->x_px + width / 2, in->x_px - in->pad_px + r + 2);
  cairo_arc (c->cr, x, in->y_px + height / 2, r, 0, 2 * G_PI);
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_ACCENT, 1);
  cairo_fill (c->cr);
  fr_canvas_put (c, text, x - width / 2, in->y_px, FR_ROLE_ON_ACCENT, none);
  return x + r;
}

static void
put_litres (FrMonthPaint *p, const FrSeasonDay *day, const Inside *in, double date_end_px)
{
  FrCanvas *c = &p->canvas;
  const char *unit = fr_quantity_unit (FR_QUANTITY_VOLUME, p->month->units);
  /* A day on which nothing came in leaves the gap. */
  gboolean is_known = isfinite (day->gathered_l) && day->gathered_l > 0;
  g_autofree char *text = NULL;

  if (is_known)
    text = number (p, day->gathered_l, FR_QUANTITY_VOLUME, litres_decimals (p, day->gathered_l));
  else if (!isfinite (day->gathered_l) && isfinite (day->expected_lo_l) && isfinite (day->expected_hi_l))
    {
      const FrUnits *units = p->month->units;
      /* Whole numbers, unless there are so few that they would not tell. */
      gboolean is_little
          = fabs (fr_quantity_to_shown (day->expected_hi_l, FR_QUANTITY_VOLUME, units)) < LITTLE_SHOWN;
      g_autofree char *low = is_little ? fr_number_litres (day->expected_lo_l, units)
                                       : number (p, day->expected_lo_l, FR_QUANTITY_VOLUME, 0);
      g_autofree char *high = is_little ? fr_number_litres (day->expected_hi_l, units)
                                        : number (p, day->expected_hi_l, FR_QUANTITY_VOLUME, 0);
      text = g_strdup_printf ("%s–%s", low, high);
    }
  if (text == NULL)
    return;
  double width, height;
  g_autoptr (PangoLayout) layout = fr_canvas_text (c, is_known ? NULL : text, is_known ? text : NULL,
                                                   p->with_unit && is_known ? unit : NULL, FR_MONTH_DATE_PX);
  fr_layout_size (layout, &width, &height);
  if (in->right_px - width >= date_end_px + 4)
    put_right (p, layout, in->right_px, in->y_px, FR_ROLE_SAP);
}

/* With its unit on every day of the month or on none: as the longest of them allows. */
static gboolean
has_room_for_unit (FrMonthPaint *p)
{
  const FrSeasonView *v = p->month->view;
  double s = p->canvas.scale_ratio, room = p->layout.cell_width_px - 2 * PAD_PX * s, widest = 0, width,
         height;

  for (guint i = 0; v != NULL && i < v->n_days; i++)
    if (v->days[i].date.month == p->month->month && v->days[i].date.year == p->month->year
        && isfinite (v->days[i].gathered_l))
      {
        g_autofree char *text = number (p, v->days[i].gathered_l, FR_QUANTITY_VOLUME,
                                        litres_decimals (p, v->days[i].gathered_l));
        g_autoptr (PangoLayout) layout = fr_canvas_text (
            &p->canvas, NULL, text, fr_quantity_unit (FR_QUANTITY_VOLUME, p->month->units), FR_MONTH_DATE_PX);
        fr_layout_size (layout, &width, &height);
        widest = MAX (widest, width);
      }
  g_autoptr (PangoLayout) date = fr_canvas_text (&p->canvas, NULL, "30", NULL, FR_MONTH_DATE_PX);
  fr_layout_size (date, &width, &height);
  return widest + width + 10 * s <= room;
}

void
fr_month_choose_scales (FrMonthPaint *p)
{
  const FrSeasonView *v = p->month->view;

  p->with_unit = has_room_for_unit (p);
  p->farthest_c = 1;
  p->full_l = v != NULL ? v->capacity_l : NAN;
  for (guint i = 0; v != NULL && i < v->n_days; i++)
    {
      if (isfinite (v->days[i].low_c))
        p->farthest_c = MAX (p->farthest_c, fabs (v->days[i].low_c));
      if (isfinite (v->days[i].high_c))
        p->farthest_c = MAX (p->farthest_c, fabs (v->days[i].high_c));
      if (isfinite (v->days[i].store_l) && !isfinite (v->capacity_l))
        p->full_l = isfinite (p->full_l) ? MAX (p->full_l, v->days[i].store_l) : v->days[i].store_l;
    }
}

static void
draw_pill (FrMonthPaint *p, const FrSeasonDay *day, const Inside *in, double y_px)
{
  FrCanvas *c = &p->canvas;
  double s = c->scale_ratio, middle = (in->x_px + in->right_px) / 2;
  double per_c = (in->right_px - in->x_px) / 2 / p->farthest_c;
  double low = MIN (day->low_c, day->high_c), high = MAX (day->low_c, day->high_c), one = NAN;
  gboolean is_expected = day->is_expected_weather;

  if (!isfinite (day->low_c) && !isfinite (day->high_c))
    return;
  if (!isfinite (day->low_c) || !isfinite (day->high_c))
    one = isfinite (day->low_c) ? day->low_c : day->high_c;
  else if (low == 0 && high == 0)
    one = 0;
  if (isfinite (one))
    {
      cairo_new_sub_path (c->cr);
      cairo_arc (c->cr, middle + one * per_c, y_px, 0.4 * PILL_PX * s, 0, 2 * G_PI);
      fr_palette_set_source (c->palette, c->cr, one < 0 ? FR_ROLE_FREEZE : FR_ROLE_THAW, 1);
      cairo_set_line_width (c->cr, 1.2);
      if (is_expected)
        cairo_stroke (c->cr);
      else
        cairo_fill (c->cr);
    }
  else
    {
      if (low < 0)
        fr_mark_span (c->palette, c->cr, FALSE, y_px, PILL_PX * s, middle + MIN (high, 0) * per_c,
                      middle + low * per_c, FR_ROLE_FREEZE, is_expected, high >= 0);
      if (high > 0)
        fr_mark_span (c->palette, c->cr, FALSE, y_px, PILL_PX * s, middle + MAX (low, 0) * per_c,
                      middle + high * per_c, FR_ROLE_THAW, is_expected, low <= 0);
    }
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_INK, 1);
  fr_canvas_rule (c, middle, y_px - 0.8 * PILL_PX * s, middle, y_px + 0.8 * PILL_PX * s, 1.4);
}

static void
put_temperatures (FrMonthPaint *p, const FrSeasonDay *day, const Inside *in, double y_px)
{
  double width = 0, height;

  if (isfinite (day->low_c))
    {
      g_autofree char *low = number (p, day->low_c, FR_QUANTITY_TEMPERATURE, 0);
      g_autoptr (PangoLayout) text = fr_canvas_text (&p->canvas, low, NULL, NULL, FR_MONTH_NUMBER_PX);
      fr_layout_size (text, &width, &height);
      if (width > in->right_px - in->x_px)
        return;
      fr_canvas_put (&p->canvas, text, in->x_px, y_px, day->low_c < 0 ? FR_ROLE_FREEZE : FR_ROLE_THAW, none);
    }
  if (isfinite (day->high_c))
    {
      double high_width;
      g_autofree char *high = number (p, day->high_c, FR_QUANTITY_TEMPERATURE, 0);
      g_autoptr (PangoLayout) text = fr_canvas_text (&p->canvas, high, NULL, NULL, FR_MONTH_NUMBER_PX);
      fr_layout_size (text, &high_width, &height);
      if (width + high_width + 4 <= in->right_px - in->x_px)
        put_right (p, text, in->right_px, y_px, day->high_c < 0 ? FR_ROLE_FREEZE : FR_ROLE_THAW);
    }
}

static void
draw_gauge (FrMonthPaint *p, double store_l, double width, double right_px, double bottom_px)
{
  FrCanvas *c = &p->canvas;
  double s = c->scale_ratio, high = GAUGE_HIGH_PX * s;
  double part = store_l / p->full_l, x = right_px - width, y = bottom_px - high;
  gboolean is_over = part > 1 + 1e-9;

  cairo_rectangle (c->cr, x, y, width, high);
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_GRID, 1);
  cairo_fill (c->cr);
  cairo_rectangle (c->cr, x, y, width * CLAMP (part, 0, 1), high);
  fr_palette_set_source (c->palette, c->cr, is_over ? FR_ROLE_WARNING : FR_ROLE_SAP, 1);
  cairo_fill (c->cr);
  /* Over the brim: it stands out beyond the end. */
  if (is_over)
    {
      cairo_rectangle (c->cr, right_px - 2, y - high, 2, 2 * high);
      cairo_fill (c->cr);
    }
}

static void
draw_marks (FrMonthPaint *p, const FrSeasonDay *day, const Inside *in)
{
  FrCanvas *c = &p->canvas;
  double s = c->scale_ratio, width = MARK_PX * s, y = in->bottom_px - 1.35 * width,
         step = width + MARK_GAP_PX * s;
  double room = in->right_px - in->x_px, x = in->x_px + width / 2;
  /* Beside all three marks; a shorter one still tells. */
  double gauge = MIN (GAUGE_PX * s, room - 3 * step);
  guint n = (guint)CLAMP (floor ((room + MARK_GAP_PX * s) / step), 0, 3);

  if (n >= 1 && (day->n_boils > 0 || day->is_boil_planned))
    fr_mark_pan (c->palette, c->cr, x, y, width, day->is_boil_planned);
  if (n >= 2 && day->n_bottles > 0)
    fr_mark_bottle (c->palette, c->cr, x + step, y, width);
  if (n >= 3 && day->day != NULL && day->day->note != NULL && day->day->note[0] != '\0')
    fr_mark_note (c->palette, c->cr, x + 2 * step, y, width);
  if (gauge >= LEAST_GAUGE_PX * s && isfinite (day->store_l) && p->full_l > 0)
    draw_gauge (p, day->store_l, gauge, in->right_px, in->bottom_px);
}

void
fr_month_draw_cell (FrMonthPaint *p, FrDate date, const FrSeasonDay *day, const cairo_rectangle_t *cell)
{
  FrCanvas *c = &p->canvas;
  double s = c->scale_ratio, line = c->line_px;
  double pad = MIN (PAD_PX * s, 0.1 * MIN (cell->width, cell->height));
  Inside in = { cell->x + pad, cell->x + cell->width - pad, cell->y + 0.75 * pad,
                cell->y + cell->height - pad, pad };
  double head = line * FR_MONTH_DATE_PX / FR_TEXT_SMALL_PX, pill = 1.6 * PILL_PX * s,
         marks = 1.35 * MARK_PX * s;
  double room = in.bottom_px - in.y_px - head;

  if (in.bottom_px - in.y_px < head)
    return;
  double date_end = put_date (p, date, &in);
  if (day == NULL)
    return;
  put_litres (p, day, &in, date_end);

  gboolean has_pill = room >= pill + 1;
  gboolean has_marks = room >= pill + marks + 3;
  gboolean has_numbers = room >= pill + marks + line + 1;
  double used = (has_pill ? pill : 0) + (has_marks ? marks : 0) + (has_numbers ? line : 0);
  double gap = MAX (room - used, 0) / (1 + has_marks + has_numbers);
  if (has_pill)
    draw_pill (p, day, &in, in.y_px + head + gap + pill / 2);
  if (has_numbers)
    put_temperatures (p, day, &in, in.y_px + head + gap + pill + 0.4 * gap);
  if (has_marks)
    draw_marks (p, day, &in);
}
