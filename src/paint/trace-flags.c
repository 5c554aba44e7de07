/* Events as flags above the level lane, in at most two rows. Which flag points which way, in which row and
 * with how many words is a small search over all of them together (depth first, cut off when dearer than the
 * best so far), because a flag that is placed well for itself may leave its neighbour nowhere to go. Words
 * over a stem cost more than a shorter word; a flag without words costs most. Twelve flags at most are
 * searched; more than that keep their stems only. */
#include "paint/trace-private.h"

#include <math.h>

#define MOST_FLAGS 12
#define MOST_STEPS 40000
#define PENNANT_PX 8.0

#define COST_SECOND_ROW 0.4
#define COST_CROWD 0.5
#define COST_SHORT 2.0
#define COST_TIME_ONLY 6.0
#define COST_CROSSING 3.5
#define COST_NO_WORDS 30.0

typedef enum
{
  WORDS_FULL,
  WORDS_SHORT,
  WORDS_TIME,
  N_WORDS
} Words;

typedef struct
{
  const FrTraceEvent *event;
  double x_px;
  PangoLayout *layouts[N_WORDS];
  double width_px[N_WORDS];
} Flag;

typedef struct
{
  int words; /* −1: none */
  guint row;
  gboolean to_left;
} Choice;

typedef struct
{
  const FrTrace *trace;
  Flag flags[MOST_FLAGS];
  guint n_flags;
  Choice now[MOST_FLAGS];
  Choice best[MOST_FLAGS];
  double best_cost;
  guint steps;
} Search;

static gboolean
is_rule (const Flag *flag)
{
  return flag->event->kind != FR_TRACE_EVENT_FLAG;
}

static FrBox
words_box (const Search *search, guint index, const Choice *choice)
{
  const Flag *flag = &search->flags[index];
  double gap = is_rule (flag) ? 5 : PENNANT_PX * search->trace->canvas.scale_ratio + 4;
  FrBox box = { 0, search->trace->flag_y_px[choice->row], flag->width_px[choice->words],
                search->trace->canvas.line_px };

  box.x_px = choice->to_left ? flag->x_px - gap - box.width_px : flag->x_px + gap;
  return box;
}

/* Words and pennant together; what may not overlap. */
static FrBox
whole_box (const Search *search, guint index, const Choice *choice)
{
  const Flag *flag = &search->flags[index];
  FrBox box = words_box (search, index, choice);
  double room = 5;

  if (choice->to_left)
    {
      box.x_px -= room;
      box.width_px = flag->x_px - box.x_px + 1;
    }
  else
    {
      box.width_px = box.x_px + box.width_px + room - (flag->x_px - 1);
      box.x_px = flag->x_px - 1;
    }
  return box;
}

static gboolean
overlap (const FrBox *a, const FrBox *b)
{
  return a->x_px < b->x_px + b->width_px && b->x_px < a->x_px + a->width_px
         && a->y_px < b->y_px + b->height_px && b->y_px < a->y_px + a->height_px;
}

/* Does the stem of flag @stem pass through the words of @index? A stem starts in its own row. */
static gboolean
crosses (const Search *search, guint stem, const Choice *stem_choice, guint index, const Choice *choice)
{
  if (choice->words < 0)
    return FALSE;
  FrBox box = words_box (search, index, choice);
  double x = search->flags[stem].x_px;
  double top
      = stem_choice->words < 0 ? search->trace->frame.level_y_px : search->trace->flag_y_px[stem_choice->row];

  return x > box.x_px - 2 && x < box.x_px + box.width_px + 2 && top < box.y_px + box.height_px;
}

static double
crowd (const Search *search, guint index, gboolean to_left)
{
  double x = search->flags[index].x_px, n = 0;

  for (guint i = 0; i < search->n_flags; i++)
    {
      double d = search->flags[i].x_px - x;
      if (i != index && (to_left ? -d : d) >= 0 && fabs (d) < 130 * search->trace->canvas.scale_ratio)
        n += 1 - fabs (d) / (150 * search->trace->canvas.scale_ratio);
    }
  return n;
}

static void
visit (Search *search, guint index, double cost)
{
  if (cost >= search->best_cost || search->steps++ > MOST_STEPS)
    return;
  if (index == search->n_flags)
    {
      search->best_cost = cost;
      for (guint i = 0; i < index; i++)
        search->best[i] = search->now[i];
      return;
    }

  const Flag *flag = &search->flags[index];
  static const double words_cost[N_WORDS] = { 0, COST_SHORT, COST_TIME_ONLY };
  for (int words = 0; words < N_WORDS; words++)
    for (guint row = 0; row < search->trace->n_flag_rows && flag->layouts[words] != NULL; row++)
      for (guint side = 0; side < 2; side++)
        {
          Choice *choice = &search->now[index];
          *choice = (Choice){ words, row, side == 1 };
          FrBox whole = whole_box (search, index, choice), box = words_box (search, index, choice);
          double more
              = words_cost[words] + row * COST_SECOND_ROW + crowd (search, index, side == 1) * COST_CROWD;
          gboolean bad = box.x_px < 1 || box.x_px + box.width_px > search->trace->canvas.width_px - 1;

          bad = bad || !fr_canvas_free (&search->trace->canvas, &box);
          for (guint i = 0; i < index && !bad; i++)
            {
              if (search->now[i].words >= 0)
                {
                  FrBox other = whole_box (search, i, &search->now[i]);
                  bad = overlap (&whole, &other);
                }
              more += COST_CROSSING * crosses (search, i, &search->now[i], index, choice);
              more += COST_CROSSING * crosses (search, index, choice, i, &search->now[i]);
            }
          if (!bad)
            visit (search, index + 1, cost + more);
        }
  search->now[index] = (Choice){ -1, 0, FALSE };
  double more = COST_NO_WORDS + 10 * MAX (flag->event->weight, 0);
  for (guint i = 0; i < index; i++)
    more += COST_CROSSING * crosses (search, index, &search->now[index], i, &search->now[i]);
  visit (search, index + 1, cost + more);
}

static FrRole
event_role (const FrTraceEvent *event)
{
  return event->kind == FR_TRACE_EVENT_PRICE_RISE ? FR_ROLE_PRICE_HIGH
         : event->kind == FR_TRACE_EVENT_NOW      ? FR_ROLE_ACCENT
                                                  : FR_ROLE_INK;
}

static void
draw_stem (FrTrace *trace, const Flag *flag, double top_px)
{
  FrCanvas *c = &trace->canvas;
  const FrTraceFrame *f = &trace->frame;
  double bottom = f->level_y_px + f->level_height_px;

  cairo_save (c->cr);
  fr_palette_set_source (c->palette, c->cr, event_role (flag->event), 1);
  if (is_rule (flag))
    {
      bottom = f->hours_y_px + 4 * c->scale_ratio;
      fr_canvas_rule (c, flag->x_px, top_px, flag->x_px, bottom, 1.8);
    }
  else
    {
      fr_canvas_dash (c, 2, 2);
      fr_canvas_rule (c, flag->x_px, top_px, flag->x_px, bottom, 1);
    }
  cairo_restore (c->cr);
  g_array_append_val (trace->stems, ((FrStem){ flag->x_px, top_px, bottom }));
}

static void
draw_pennant (FrTrace *trace, const Flag *flag, double middle_px, gboolean to_left)
{
  FrCanvas *c = &trace->canvas;
  double size = PENNANT_PX * c->scale_ratio, x = floor (flag->x_px) + 0.5;

  fr_palette_set_source (c->palette, c->cr, event_role (flag->event), 1);
  cairo_move_to (c->cr, x, middle_px - size / 2);
  cairo_line_to (c->cr, x + (to_left ? -size : size), middle_px);
  cairo_line_to (c->cr, x, middle_px + size / 2);
  cairo_close_path (c->cr);
  cairo_fill (c->cr);
}

static int
compare_flags (const void *a, const void *b)
{
  double d = ((const Flag *)a)->x_px - ((const Flag *)b)->x_px;

  return d < 0 ? -1 : d > 0 ? 1 : 0;
}

static void
collect (FrTrace *trace, Search *search)
{
  FrCanvas *c = &trace->canvas;
  const FrTraceFrame *f = &trace->frame;

  for (gsize i = 0; i < trace->view->n_events; i++)
    {
      const FrTraceEvent *e = &trace->view->events[i];
      Flag flag = { .event = e, .x_px = fr_trace_x_from_time (f, e->time_s) };
      if (e->kind == FR_TRACE_EVENT_MINOR || !isfinite (e->time_s) || e->time_s < f->from_s
          || e->time_s > f->to_s)
        continue;
      if (search->n_flags == MOST_FLAGS)
        {
          draw_stem (trace, &flag, f->level_y_px);
          continue;
        }
      flag.layouts[WORDS_FULL] = fr_canvas_text (c, NULL, e->strong, e->plain, FR_TEXT_SMALL_PX);
      if (e->plain_short != NULL)
        flag.layouts[WORDS_SHORT] = fr_canvas_text (c, NULL, e->strong, e->plain_short, FR_TEXT_SMALL_PX);
      flag.layouts[WORDS_TIME] = fr_canvas_text (c, NULL, e->strong, NULL, FR_TEXT_SMALL_PX);
      for (guint w = 0; w < N_WORDS; w++)
        if (flag.layouts[w] != NULL)
          {
            double height;
            fr_layout_size (flag.layouts[w], &flag.width_px[w], &height);
          }
      search->flags[search->n_flags++] = flag;
    }
  qsort (search->flags, search->n_flags, sizeof (Flag), compare_flags);
}

void
fr_trace_draw_flags (FrTrace *trace)
{
  FrCanvas *c = &trace->canvas;
  g_autofree Search *search = g_new0 (Search, 1);

  search->trace = trace;
  search->best_cost = INFINITY;
  collect (trace, search);
  visit (search, 0, 0);
  for (guint i = 0; i < search->n_flags; i++)
    {
      const Flag *flag = &search->flags[i];
      const Choice *choice = &search->best[i];
      /* Out of steps before the first answer: stems only. */
      gboolean words = choice->words >= 0 && isfinite (search->best_cost);
      double middle = trace->flag_y_px[choice->row] + c->line_px / 2;

      draw_stem (trace, flag, words ? middle - 4 * c->scale_ratio : trace->frame.level_y_px - 4);
      if (!words)
        continue;
      if (!is_rule (flag))
        draw_pennant (trace, flag, middle, choice->to_left);
    }
  /* Words after all stems are known, so that only those that are crossed get a halo. */
  for (guint i = 0; i < search->n_flags; i++)
    {
      const Flag *flag = &search->flags[i];
      const Choice *choice = &search->best[i];
      if (isfinite (search->best_cost) && choice->words >= 0)
        {
          FrBox box = words_box (search, i, choice);
          gboolean crossed = FALSE;
          for (guint j = 0; j < search->n_flags; j++)
            crossed = crossed || (j != i && crosses (search, j, &search->best[j], i, choice));
          fr_canvas_put (c, flag->layouts[choice->words], box.x_px, box.y_px, event_role (flag->event),
                         fr_trace_card (trace, crossed ? 1 : 0));
          if (!is_rule (flag))
            fr_canvas_take (
                c, (FrBox){ choice->to_left ? flag->x_px - 12 : flag->x_px, box.y_px, 12, box.height_px });
        }
    }
  for (guint i = 0; i < search->n_flags; i++)
    for (guint w = 0; w < N_WORDS; w++)
      g_clear_object (&search->flags[i].layouts[w]);
}
