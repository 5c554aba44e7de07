/* Weather and gathering: spans across the freezing line, and bars with their numbers. The largest numbers get
 * their room first; a number that finds none is left out, since the bar stands against the scale. */
#include "paint/number.h"
#include "paint/season-private.h"

#define NUMBER_PX 11.5

static void
draw_half_day (FrSeasonPaint *p, guint at, double from_c, double to_c, FrRole role)
{
  const FrSeasonDay *day = &p->view->days[at];
  double x = fr_season_day_x (p, at) + p->layout.day_px / 2;

  fr_mark_span (p->canvas.palette, p->canvas.cr, TRUE, x, fr_season_bar_px (p),
                fr_season_y (p, FR_SEASON_LANE_SPAN, from_c), fr_season_y (p, FR_SEASON_LANE_SPAN, to_c),
                role, day->is_expected_weather, from_c == 0);
}

/* Of a day of which one end is known there is a dot. */
static void
draw_one_end (FrSeasonPaint *p, guint at, double temp_c)
{
  const FrSeasonDay *day = &p->view->days[at];
  FrRole role = temp_c < 0 ? FR_ROLE_FREEZE : FR_ROLE_THAW;
  double r = MIN (fr_season_bar_px (p) / 2, 3);

  fr_palette_set_source (p->canvas.palette, p->canvas.cr, role, 1);
  cairo_arc (p->canvas.cr, fr_season_day_x (p, at) + p->layout.day_px / 2,
             fr_season_y (p, FR_SEASON_LANE_SPAN, temp_c), r, 0, 2 * G_PI);
  if (day->is_expected_weather)
    {
      cairo_set_line_width (p->canvas.cr, MIN (1.2, r));
      cairo_stroke (p->canvas.cr);
    }
  else
    cairo_fill (p->canvas.cr);
}

static void
draw_day (FrSeasonPaint *p, guint at)
{
  const FrSeasonDay *day = &p->view->days[at];
  gboolean has_low = isfinite (day->low_c), has_high = isfinite (day->high_c);
  double low = MIN (day->low_c, day->high_c), high = MAX (day->low_c, day->high_c);

  if (has_low != has_high)
    draw_one_end (p, at, has_low ? day->low_c : day->high_c);
  if (!has_low || !has_high)
    return;
  if (high > 0)
    draw_half_day (p, at, MAX (low, 0), high, FR_ROLE_THAW);
  if (low < 0)
    draw_half_day (p, at, MIN (high, 0), low, FR_ROLE_FREEZE);
  if (low == 0 && high == 0)
    draw_one_end (p, at, 0);
}

/* What the outlined marks are, over the first of them or beside the last; @is_theirs tells which those are.
 */
static void
say_expected (FrSeasonPaint *p, FrSeasonLane lane, gboolean (*is_theirs) (const FrSeasonDay *day),
              FrRole role)
{
  const char *words = p->strip->texts->lanes[lane].expected;
  double top = p->layout.lanes[lane].y_px, end = 0, first = -1;
  g_autoptr (PangoLayout) text = fr_canvas_text (&p->canvas, words, NULL, NULL, NUMBER_PX);

  for (guint i = 0; i < p->view->n_days; i++)
    if (is_theirs (&p->view->days[i]))
      {
        end = fr_season_day_x (p, i + 1);
        first = first < 0 ? fr_season_day_x (p, i) : first;
      }
  if (text == NULL || first < 0)
    return;
  for (guint row = 0; row < 3; row++)
    if (fr_season_try_inside (p, text, end + 6, top + row * p->canvas.line_px, 0, 0, role, 0.9))
      return;
  if (!fr_season_try_inside (p, text, first, top, 0, 1, role, 0.9))
    fr_season_try_inside (p, text, end, top, 1, 1, role, 0.9);
}

static gboolean
is_weather_expected (const FrSeasonDay *day)
{
  return day->is_expected_weather && (isfinite (day->low_c) || isfinite (day->high_c));
}

static gboolean
is_sap_expected (const FrSeasonDay *day)
{
  return isfinite (day->expected_lo_l) && isfinite (day->expected_hi_l);
}

void
fr_season_draw_span (FrSeasonPaint *p)
{
  FrCanvas *c = &p->canvas;
  const FrSeasonLayout *l = &p->layout;
  double ground = fr_season_y (p, FR_SEASON_LANE_SPAN, 0);

  for (guint i = 0; i < p->view->n_days; i++)
    {
      const FrSeasonDay *day = &p->view->days[i];
      draw_day (p, i);
      double low = fr_season_y (p, FR_SEASON_LANE_SPAN, day->low_c),
             high = fr_season_y (p, FR_SEASON_LANE_SPAN, day->high_c);
      if (isfinite (low) && isfinite (high))
        fr_canvas_take (c, (FrBox){ fr_season_day_x (p, i), MIN (low, high), l->day_px, fabs (low - high) });
    }
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_INK, 1);
  fr_canvas_rule (c, l->plot_x_px, ground, l->plot_x_px + l->plot_width_px, ground, 1.5);
  fr_canvas_take (c, (FrBox){ l->plot_x_px, ground - 1, l->plot_width_px, 2 });
  say_expected (p, FR_SEASON_LANE_SPAN, is_weather_expected, FR_ROLE_INK_SOFT);
}

/* --- gathered --- */

static gint
today_then_larger (gconstpointer a, gconstpointer b, gpointer data)
{
  const FrSeasonView *view = data;
  gboolean ta = (gint) * (const guint *)a == view->today, tb = (gint) * (const guint *)b == view->today;
  double la = view->days[*(const guint *)a].gathered_l, lb = view->days[*(const guint *)b].gathered_l;

  if (ta != tb)
    return ta ? -1 : 1;
  return la > lb ? -1 : la < lb ? 1 : *(const guint *)a < *(const guint *)b ? -1 : 1;
}

static void
number_bars (FrSeasonPaint *p)
{
  g_autoptr (GArray) days = g_array_new (FALSE, FALSE, sizeof (guint));
  double bar = fr_season_bar_px (p);

  for (guint i = 0; i < p->view->n_days; i++)
    if (isfinite (p->view->days[i].gathered_l) && p->view->days[i].gathered_l > 0)
      g_array_append_val (days, i);
  g_array_sort_with_data (days, today_then_larger, (gpointer)p->view);
  for (guint i = 0; i < days->len; i++)
    {
      guint at = g_array_index (days, guint, i);
      double volume = p->view->days[at].gathered_l, x = fr_season_day_x (p, at) + p->layout.day_px / 2;
      double y = fr_season_y (p, FR_SEASON_LANE_GATHERED, volume) - 1;
      g_autofree char *number = fr_number_litres (volume, p->strip->units);
      g_autoptr (PangoLayout) text = fr_canvas_text (&p->canvas, NULL, number, NULL, NUMBER_PX);

      /* In the middle, or flush with the bar's edge towards the lower neighbour; today's left of the rule. */
      if ((gint)at == p->view->today
          && fr_season_try_inside (p, text, fr_season_layout_x (&p->layout, p->view, p->view->now_utc) - 3, y,
                                   1, 1, FR_ROLE_SAP, 0))
        continue;
      if (!fr_season_try_inside (p, text, x, y, 0.5, 1, FR_ROLE_SAP, 0)
          && !fr_season_try_inside (p, text, x + bar / 2 + 1, y, 1, 1, FR_ROLE_SAP, 0))
        fr_season_try_inside (p, text, x - bar / 2 - 1, y, 0, 1, FR_ROLE_SAP, 0);
    }
}

static void
mark_taps (FrSeasonPaint *p)
{
  FrCanvas *c = &p->canvas;
  const FrSeasonLayout *l = &p->layout;
  double ground = l->lanes[FR_SEASON_LANE_GATHERED].y_px + l->lanes[FR_SEASON_LANE_GATHERED].height_px;
  double size = 9 * c->scale_ratio;
  gboolean said[2] = { FALSE, FALSE };

  /* Marks first, so that the words keep clear of all of them. */
  for (guint pass = 0; pass < 2; pass++)
    for (guint i = 0; i < p->view->n_days; i++)
      for (guint pulled = 0; pulled < 2; pulled++)
        {
          const FrSeasonDay *day = &p->view->days[i];
          const char *words = pulled ? p->strip->texts->taps_pulled : p->strip->texts->taps_set;
          double x = fr_season_day_x (p, i) + l->day_px / 2;
          if ((pulled ? day->taps_pulled : day->taps_set) == 0)
            continue;
          if (pass == 0)
            {
              /* On a day with a bar it stands in front of it. */
              cairo_save (c->cr);
              fr_palette_set_source (c->palette, c->cr, FR_ROLE_CARD, 1);
              cairo_set_line_width (c->cr, 2);
              fr_mark_tap (c->palette, c->cr, x, ground - 1, size, pulled == 1);
              cairo_restore (c->cr);
              fr_canvas_take (c, (FrBox){ x - size / 2, ground - size, size, size });
              continue;
            }
          g_autoptr (PangoLayout) text = fr_canvas_text (c, words, NULL, NULL, NUMBER_PX);
          if (text == NULL || said[pulled])
            continue;
          double y = ground - size - 1;
          said[pulled]
              = fr_season_try_inside (p, text, fr_season_held (p, text, x), y, 0.5, 1, FR_ROLE_INK, 0.9)
                || fr_season_try_inside (p, text, x - size / 2 - 2, ground, 1, 1, FR_ROLE_INK, 0.9)
                || fr_season_try_inside (p, text, x + size / 2 + 2, ground, 0, 1, FR_ROLE_INK, 0.9)
                || fr_season_try_inside (p, text, x, y - c->line_px, 0.5, 1, FR_ROLE_INK, 0.9);
        }
}

void
fr_season_draw_gathered (FrSeasonPaint *p)
{
  FrCanvas *c = &p->canvas;
  const FrSeasonLayout *l = &p->layout;
  double ground = fr_season_y (p, FR_SEASON_LANE_GATHERED, 0), bar = fr_season_bar_px (p);

  for (guint i = 0; i < p->view->n_days; i++)
    {
      const FrSeasonDay *day = &p->view->days[i];
      double x = fr_season_day_x (p, i) + l->day_px / 2;
      if (is_sap_expected (day))
        {
          double low = fr_season_y (p, FR_SEASON_LANE_GATHERED, day->expected_lo_l),
                 high = fr_season_y (p, FR_SEASON_LANE_GATHERED, day->expected_hi_l);
          fr_mark_capsule (c->palette, c->cr, x, bar, low,
                           fr_season_y (p, FR_SEASON_LANE_GATHERED, day->expected_l), high, FR_ROLE_SAP);
          fr_canvas_take (c, (FrBox){ fr_season_day_x (p, i), high, l->day_px, low - high });
        }
      /* A day on which nothing came in stays bare. */
      if (!isfinite (day->gathered_l) || day->gathered_l == 0)
        continue;
      double y = fr_season_y (p, FR_SEASON_LANE_GATHERED, day->gathered_l);
      double height = MAX (fabs (ground - y), 1.5);
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_SAP, 1);
      cairo_rectangle (c->cr, x - bar / 2, MIN (y, ground - 1.5), bar, height);
      cairo_fill (c->cr);
      fr_canvas_take (c, (FrBox){ x - bar / 2, MIN (y, ground - 1.5), bar, height });
    }
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_AXIS, 1);
  fr_canvas_rule (c, l->plot_x_px, ground, l->plot_x_px + l->plot_width_px, ground, 1);
  mark_taps (p);
  number_bars (p);
  say_expected (p, FR_SEASON_LANE_GATHERED, is_sap_expected, FR_ROLE_SAP);
}
