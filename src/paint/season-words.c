/* The words round the lanes: scales, names, the months and Mondays at the head, special days at the foot. */
#include "paint/season-private.h"

#define NUMBER_PX 11.5
#define APART_PX 4.0

/* Others on its line keep a distance. */
static gboolean
try_apart (FrSeasonPaint *p, PangoLayout *text, double x_px, double y_px, double across_ratio, FrRole role,
           double halo_ratio)
{
  double width, height;

  if (!fr_season_try (p, text, x_px, y_px, across_ratio, 0, role, halo_ratio))
    return FALSE;
  fr_layout_size (text, &width, &height);
  fr_canvas_take (&p->canvas,
                  (FrBox){ x_px - across_ratio * width - APART_PX, y_px, width + 2 * APART_PX, height });
  return TRUE;
}

static char *
signed_text (const FrSeasonPaint *p, FrSeasonLane lane, guint at)
{
  const char mark[] = { p->strip->units != NULL ? p->strip->units->decimal_mark : '.', '\0' };
  char *text = fr_axis_text (&p->axes[lane], at, mark);
  gboolean is_over = fr_axis_tick (&p->axes[lane], at) > 0 && p->freezing_shown == 0;

  if (lane != FR_SEASON_LANE_SPAN || !is_over)
    return text;
  char *with_sign = g_strconcat ("+", text, NULL);
  g_free (text);
  return with_sign;
}

void
fr_season_put_scales (FrSeasonPaint *p)
{
  FrCanvas *c = &p->canvas;
  const FrSeasonLayout *l = &p->layout;
  double right = l->plot_x_px - 8 * c->scale_ratio;
  g_autofree char *freezing = g_strdup_printf ("%.0f", p->freezing_shown);
  g_autoptr (PangoLayout) ground = fr_canvas_text (c, NULL, freezing, NULL, FR_TEXT_SMALL_PX);

  fr_season_try (p, ground, right, fr_season_y (p, FR_SEASON_LANE_SPAN, 0), 1, 0.5, FR_ROLE_INK, 0);
  for (guint lane = 0; lane <= FR_SEASON_LANE_STORE; lane++)
    for (guint k = 0; l->lanes[lane].height_px > 0 && k <= p->axes[lane].n_intervals; k++)
      {
        double y;
        g_autofree char *number = signed_text (p, lane, k);
        g_autoptr (PangoLayout) text = fr_canvas_text (c, number, NULL, NULL, FR_TEXT_SMALL_PX);
        if (fr_season_tick_y (p, lane, k, &y))
          fr_season_try (p, text, right, y, 1, 0.5, FR_ROLE_INK_SOFT, 0);
      }
}

/* The name and under it the unit, at the head of the lane; of a low lane both on one line. */
void
fr_season_put_names (FrSeasonPaint *p)
{
  FrCanvas *c = &p->canvas;
  const FrSeasonLayout *l = &p->layout;

  for (guint lane = 0; lane < FR_N_SEASON_LANES; lane++)
    {
      const FrSeasonLaneText *texts = &p->strip->texts->lanes[lane];
      double y = l->lanes[lane].y_px, height = l->lanes[lane].height_px;
      if (height <= 0)
        continue;
      g_autoptr (PangoLayout) name = fr_canvas_text (c, NULL, texts->name, NULL, FR_TEXT_SMALL_PX);
      g_autoptr (PangoLayout) unit = fr_canvas_text (c, texts->unit, NULL, NULL, FR_TEXT_SMALL_PX);
      g_autoptr (PangoLayout) both = fr_canvas_text (c, NULL, texts->name, texts->unit, FR_TEXT_SMALL_PX);
      gboolean is_row = height < 2 * c->line_px + 2;
      if (p->names_inside)
        {
          /* Over the lane, where there is a gap for it; a row has its name inside. */
          if (lane <= FR_SEASON_LANE_STORE)
            fr_season_try (p, both, l->plot_x_px, y - 1, 0, 1, FR_ROLE_INK, 0.9);
          else if (!fr_season_try (p, name, l->plot_x_px - 4, y + height / 2, 1, 0.5, FR_ROLE_INK, 0))
            fr_season_try (p, name, l->plot_x_px + 4, y + height / 2, 0, 0.5, FR_ROLE_INK, 0.9);
        }
      else if (is_row && unit != NULL && lane == FR_SEASON_LANE_PRICE)
        {
          /* Two lines round its middle. */
          double middle = MIN (y + height / 2, y + height - c->line_px + 3);
          fr_season_try (p, name, p->name_x_px, middle, 0, 1, FR_ROLE_INK, 0);
          fr_season_try (p, unit, p->name_x_px, middle, 0, 0, FR_ROLE_INK_SOFT, 0);
        }
      else if (is_row)
        fr_season_try (p, name, p->name_x_px, y + height / 2, 0, 0.5, FR_ROLE_INK, 0);
      else
        {
          double top = y - c->line_px / 2;
          fr_season_try (p, name, p->name_x_px, top, 0, 0, FR_ROLE_INK, 0);
          fr_season_try (p, unit, p->name_x_px, top + c->line_px, 0, 0, FR_ROLE_INK_SOFT, 0);
        }
    }
}

void
fr_season_put_head (FrSeasonPaint *p)
{
  FrCanvas *c = &p->canvas;
  const FrSeasonTexts *texts = p->strip->texts;
  const FrSeasonView *v = p->view;
  double y = p->head_y_px, second = y + c->line_px + 1;

  if (p->strip->selected >= 0 && p->strip->selected < (gssize)v->n_days)
    {
      g_autoptr (PangoLayout) text
          = fr_canvas_text (c, NULL, p->strip->selected_label, NULL, FR_TEXT_SMALL_PX);
      double x = fr_season_day_x (p, (gsize)p->strip->selected) + p->layout.day_px / 2;
      if (text != NULL)
        try_apart (p, text, fr_season_held (p, text, x), second, 0.5, FR_ROLE_ACCENT, 0.9);
    }
  if (v->today >= 0)
    {
      g_autoptr (PangoLayout) text = fr_canvas_text (c, NULL, texts->today, NULL, FR_TEXT_SMALL_PX);
      double x = fr_season_layout_x (&p->layout, v, v->now_utc);
      if (text != NULL)
        try_apart (p, text, fr_season_held (p, text, x), y, 0.5, FR_ROLE_ACCENT, 0.9);
    }
  for (gsize i = 0; i < texts->n_months; i++)
    {
      const FrSeasonMonth *month = &texts->months[i];
      if (month->day >= v->n_days)
        continue;
      double x = fr_season_day_x (p, month->day) + 4;
      double end = i + 1 < texts->n_months ? fr_season_day_x (p, texts->months[i + 1].day) : c->width_px;
      const char *labels[] = { month->label, month->label_short };
      for (guint k = 0; k < 2; k++)
        {
          double width, height;
          g_autoptr (PangoLayout) text = fr_canvas_text (c, NULL, labels[k], NULL, FR_TEXT_SMALL_PX);
          if (text == NULL)
            continue;
          fr_layout_size (text, &width, &height);
          if (x + width + 2 < end && try_apart (p, text, x, y, 0, FR_ROLE_INK, 0))
            break;
        }
    }
  /* The Mondays by number, so that a day can be counted off. */
  for (guint i = 0; i < v->n_days; i++)
    if (v->days[i].weekday == 1)
      {
        g_autofree char *number = g_strdup_printf ("%d", v->days[i].date.day);
        g_autoptr (PangoLayout) text = fr_canvas_text (c, number, NULL, NULL, NUMBER_PX);
        try_apart (p, text, fr_season_day_x (p, i) + p->layout.day_px / 2, second, 0.5, FR_ROLE_INK_SOFT, 0);
      }
}

void
fr_season_put_feet (FrSeasonPaint *p)
{
  FrCanvas *c = &p->canvas;
  const FrSeasonLayout *l = &p->layout;
  double foot = l->plot_y_px + l->plot_height_px;

  for (gsize i = 0; i < p->strip->texts->n_feet; i++)
    {
      const FrSeasonFoot *word = &p->strip->texts->feet[i];
      if (word->day >= l->n_days)
        continue;
      double x = fr_season_day_x (p, word->day) + l->day_px / 2;
      g_autoptr (PangoLayout) text
          = fr_canvas_text (c, word->before, word->strong, word->after, FR_TEXT_SMALL_PX);
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_INK, 1);
      fr_canvas_rule (c, x, foot + 1, x, foot + 6 * c->scale_ratio, 1);
      for (guint row = 0; text != NULL && row < p->n_foot_rows; row++)
        if (try_apart (p, text, fr_season_held (p, text, x), p->foot_y_px + row * c->line_px, 0.5,
                       FR_ROLE_INK, 0))
          break;
    }
}
