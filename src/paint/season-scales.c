/* What the lanes have to show, and their scales. A lane spans its values and little more, with round numbers
 * where they fall; the containers' capacity counts as a value unless it is far above all that ever was in
 * them. */
#include "paint/season-private.h"

#define TEMP_C 10.0       /* of an empty lane, either way */
#define LITRES_L 20.0     /* the same */
#define CAPACITY_FAR 3.0  /* times the highest level: the line is left to a word */
#define MARGIN_RATIO 0.04 /* beyond the highest and lowest value */

typedef struct
{
  double low;
  double high;
} Range;

static void
reach (Range *range, double value)
{
  if (!isfinite (value))
    return;
  range->low = MIN (range->low, value);
  range->high = MAX (range->high, value);
}

GArray *
fr_season_so_far (const FrSeasonPast *past, const FrSeasonView *view)
{
  GArray *sums = g_array_sized_new (FALSE, FALSE, sizeof (double), view->n_days);
  gint64 spring = fr_date_to_days ((FrDate){ (gint)view->season, 3, 1 });
  gint64 shift = 0, first = 0;
  double sum = NAN;

  if (past != NULL)
    {
      shift = fr_date_to_days ((FrDate){ (gint)past->season, 3, 1 }) - spring;
      first = fr_date_to_days (past->first);
    }
  for (gint64 i = 0, at = 0; i < view->n_days; i++)
    {
      double day = NAN;
      if (past == NULL)
        day = view->days[i].gathered_l;
      else
        /* What came in before this picture begins counts all the same. */
        for (gint64 upto = fr_date_to_days (view->days[i].date) + shift - first;
             at <= upto && at < past->n_days; at++)
          if (isfinite (past->gathered_l[at]))
            day = isfinite (day) ? day + past->gathered_l[at] : past->gathered_l[at];
      /* Days on which nothing came in before the first sap are no beginning. */
      if (isfinite (day) && (isfinite (sum) || day > 0))
        sum = isfinite (sum) ? sum + day : day;
      if (past == NULL && view->today >= 0 && i > view->today)
        sum = NAN;
      g_array_append_val (sums, sum);
    }
  return sums;
}

static void
reach_sums (Range *range, const FrSeasonPast *past, const FrSeasonView *view)
{
  g_autoptr (GArray) sums = fr_season_so_far (past, view);

  for (guint i = 0; i < sums->len; i++)
    reach (range, g_array_index (sums, double, i));
}

/* In the lane's own unit inside; low over high when there is nothing. */
static Range
range_of (const FrSeasonPaint *p, FrSeasonLane lane)
{
  const FrSeasonView *v = p->view;
  Range range = { INFINITY, -INFINITY };

  for (guint i = 0; i < v->n_days; i++)
    if (lane == FR_SEASON_LANE_SPAN)
      {
        reach (&range, v->days[i].low_c);
        reach (&range, v->days[i].high_c);
      }
    else if (lane == FR_SEASON_LANE_GATHERED)
      {
        reach (&range, v->days[i].gathered_l);
        reach (&range, v->days[i].expected_hi_l);
      }
  if (lane == FR_SEASON_LANE_SO_FAR)
    {
      reach_sums (&range, NULL, v);
      for (gsize i = 0; i < p->strip->n_past; i++)
        reach_sums (&range, &p->strip->past[i], v);
    }
  if (lane == FR_SEASON_LANE_STORE)
    for (guint i = 0; i < v->n_levels; i++)
      reach (&range, v->levels[i].volume_l);
  return range;
}

gboolean
fr_season_is_lane_empty (const FrSeasonPaint *p, FrSeasonLane lane)
{
  const FrSeasonView *v = p->view;
  Range range;

  switch (lane)
    {
    case FR_SEASON_LANE_BOILS:
      for (guint i = 0; i < v->n_days; i++)
        if (v->days[i].n_boils > 0 || v->days[i].is_boil_planned)
          return FALSE;
      return TRUE;
    case FR_SEASON_LANE_BOTTLES:
      for (guint i = 0; i < v->n_days; i++)
        if (v->days[i].n_bottles > 0)
          return FALSE;
      return TRUE;
    case FR_SEASON_LANE_PRICE:
      return v->n_prices == 0;
    default:
      range = range_of (p, lane);
      return range.low > range.high;
    }
}

void
fr_season_choose_scale (FrSeasonPaint *p, FrSeasonLane lane)
{
  Range range = range_of (p, lane);
  double usual = lane == FR_SEASON_LANE_SPAN ? TEMP_C : LITRES_L;
  double room = MIN (p->layout.lanes[lane].height_px / (1.25 * p->canvas.line_px), 5.5);

  if (range.low > range.high)
    range = (Range){ lane == FR_SEASON_LANE_SPAN ? -usual : 0, usual };
  reach (&range, 0);
  if (range.high == range.low)
    range.high = usual;
  if (lane == FR_SEASON_LANE_STORE && isfinite (p->view->capacity_l)
      && p->view->capacity_l <= CAPACITY_FAR * range.high)
    reach (&range, p->view->capacity_l);
  double margin = MARGIN_RATIO * (range.high - range.low);
  range.high += range.high > 0 ? margin : 0;
  range.low -= range.low < 0 ? margin : 0;
  p->low_shown[lane] = fr_season_shown (p, lane, range.low);
  p->high_shown[lane] = fr_season_shown (p, lane, range.high);
  fr_axis_apart (p->low_shown[lane], p->high_shown[lane], room, &p->axes[lane]);
}
