/* The trace of one night over the clock: level and sweetness on two scales, the bucket as an emptying wedge,
 * the power in steps, the hours, and the price as a skyline under them. Plain arguments in, cairo out; every
 * text comes worded from the caller, every colour from the palette. Time is elapsed seconds from any zero the
 * caller likes, so a night with a clock change is simply an hour shorter or longer. Time always runs left to
 * right, in right-to-left languages too.
 *
 * Made for about 360×150 to 1600×700 px at text scale 1 to 2. What does not fit is left out, least useful
 * first: power lane, bucket lane, second row of flags, shorter words, flags, price. No text is ever cut or
 * laid over another. */
#pragma once

#include "paint/label.h"

/**
 * FrTraceLine:
 * One pan over the night. All arrays have @n_samples entries; @time_s ascends (equal times make a step). NAN
 * is unknown and leaves a gap. Any array but @time_s may be NULL: not drawn.
 * @level_shown: level in the unit that `level_unit` of the view names
 * @power_w: holds from its sample until the next
 * @level_label: bold on the level line, "Level 4.1 cm, held by the feed"; @level_label_short is tried when
 * that has no room
 * @brix_label: bold on the sweetness line, "Sweetness in the pan"
 * @brix_end_label: beside the last dot, "57 °Bx"
 * @feed_label, @power_label: bold inside their lanes, "22.5 L", "1.8 kW"
 * Any label may be NULL.
 */
typedef struct
{
  gsize n_samples;
  const double *time_s;
  const double *level_shown;
  const double *brix;
  const double *feed_l;
  const double *power_w;
  const char *level_label;
  const char *level_label_short;
  const char *brix_label;
  const char *brix_end_label;
  const char *feed_label;
  const char *power_label;
} FrTraceLine;

/**
 * FrTraceTick:
 * One whole hour, in order. The painter shows every hour, every second, third … as room allows, so give all
 * of them.
 * @label: "22:00"
 * @label_short: "22", used between full labels when all hours fit; NULL uses @label
 * @clock_change: the clock jumps here: label such as "02→03", bold, always shown, with its own dotted line
 */
typedef struct
{
  double time_s;
  const char *label;
  const char *label_short;
  gboolean clock_change;
} FrTraceTick;

typedef enum
{
  FR_PRICE_STEP_LOW,
  FR_PRICE_STEP_MID,
  FR_PRICE_STEP_HIGH
} FrPriceStep;

/**
 * FrTracePrice:
 * One price period. The height of its step is in proportion to @price_per_kwh; zero or less is a line on the
 * ground.
 * @label: inside the step, "9.4"; @label_long is preferred where it fits, "9.4 ¢/kWh" (give it to one step)
 * @cost_label: what an hour of this boil costs here, at the step's right end if it fits, "17 ¢ an hour", or
 * NULL
 */
typedef struct
{
  double from_s;
  double to_s;
  double price_per_kwh;
  FrPriceStep step;
  const char *label;
  const char *label_long;
  const char *cost_label;
} FrTracePrice;

typedef enum
{
  FR_TRACE_EVENT_FLAG,       /* dotted stem with a pennant: start, bucket dry, cut-off */
  FR_TRACE_EVENT_MINOR,      /* dotted stem, soft label inside the lane: boils */
  FR_TRACE_EVENT_PRICE_RISE, /* a rule through all lanes in the colour of the high price */
  FR_TRACE_EVENT_NOW         /* a rule in accent */
} FrTraceEventKind;

/**
 * FrTraceEvent:
 * @strong: bold part, first: the time, "06:48" (for now: "Now")
 * @plain: regular part, "Price doubles" (for now: "04:20"); may be NULL
 * @plain_short: tried when @plain has no room, "Price"; may be NULL
 * @weight: the larger, the later its words are dropped when there is no room; the stem always stays
 */
typedef struct
{
  double time_s;
  FrTraceEventKind kind;
  const char *strong;
  const char *plain;
  const char *plain_short;
  int weight;
} FrTraceEvent;

typedef enum
{
  FR_TRACE_LIMIT_LEVEL, /* @value_shown on the left scale: cut-off level, minimum level, full */
  FR_TRACE_LIMIT_BRIX   /* @value_shown on the right scale: no thicker than */
} FrTraceLimitScale;

/**
 * FrTraceLimit:
 * A dashed warning line with its words on it. It also stretches its scale so that it is visible.
 */
typedef struct
{
  FrTraceLimitScale scale;
  double value_shown;
  const char *label;
} FrTraceLimit;

/**
 * FrTraceSpan:
 * A span of time; for the quiet shade of the night.
 */
typedef struct
{
  double from_s;
  double to_s;
} FrTraceSpan;

/**
 * FrTraceView:
 * Everything that is drawn. All pointers are borrowed for the call.
 * @from_s, @to_s: what the picture spans; if not in order or not finite the span of the samples is used, or
 * an hour
 * @chosen: the pan that is drawn in full; the others are thin lines without words
 * @level_unit, @brix_unit: once above each scale, "cm", "°Bx"
 * @bucket_name, @power_name, @price_name: left of their lanes
 * @empty_sentence: shown in the empty chart when no sample can be drawn, "Enter tonight's sap to see the
 * night."
 * @decimal_mark: for numbers on the scales; NULL is "."
 * @selected_s: the moment of the read-out: a hairline and a dot on each line; NAN is none
 */
typedef struct
{
  double from_s;
  double to_s;
  const FrTraceLine *lines;
  gsize n_lines;
  gsize chosen;
  const FrTraceTick *ticks;
  gsize n_ticks;
  const FrTracePrice *prices;
  gsize n_prices;
  const FrTraceEvent *events;
  gsize n_events;
  const FrTraceLimit *limits;
  gsize n_limits;
  const FrTraceSpan *nights;
  gsize n_nights;
  const char *level_unit;
  const char *brix_unit;
  const char *bucket_name;
  const char *power_name;
  const char *price_name;
  const char *empty_sentence;
  const char *decimal_mark;
  double selected_s;
} FrTraceView;

/**
 * FrTraceFrame:
 * Where the drawing put things, in px of the drawn area; keep it from the last draw for the hit test. A lane
 * that had no room has height 0.
 */
typedef struct
{
  double plot_x_px;
  double plot_width_px;
  double from_s;
  double to_s;
  double level_y_px, level_height_px;
  double bucket_y_px, bucket_height_px;
  double power_y_px, power_height_px;
  double hours_y_px, hours_height_px;
  double price_y_px, price_height_px;
  double level_top_shown; /* value at the upper end of the left scale */
  double brix_top;        /* and of the right one */
} FrTraceFrame;

/**
 * FrTraceMoment:
 * What the lines say at one time; NAN where a line is absent, has a gap or has not begun.
 */
typedef struct
{
  double time_s;
  double level_shown;
  double brix;
  double feed_l;
  double power_w;
} FrTraceMoment;

/**
 * fr_trace_draw:
 * @cr: where; the area is 0,0 to @width_px × @height_px in its user space, including the padding of a card;
 * the surface (card) is already painted
 * @context: gives the interface font's family; sizes are the design's px times @text_scale
 * @text_scale: see fr_text_scale_of_context()
 * @frame: (out) (optional): where things are
 * @labels: (optional): a list from fr_label_list_new() to which each drawn text's box is added
 */
void
fr_trace_draw (cairo_t *cr, PangoContext *context, const FrPalette *palette, const FrTraceView *view,
               double width_px, double height_px, double text_scale, FrTraceFrame *frame, GArray *labels);

/**
 * fr_trace_x_from_time:
 * The x of a moment, in px; beyond the plot for moments outside the span.
 */
double
fr_trace_x_from_time (const FrTraceFrame *frame, double time_s);

/**
 * fr_trace_time_from_x:
 * The hit test. Up to 6 px beside the plot still count as its ends.
 * Returns: TRUE and the moment, or FALSE when @x_px is beside the plot
 */
gboolean
fr_trace_time_from_x (const FrTraceFrame *frame, double x_px, double *time_s);

/**
 * fr_trace_moment_at:
 * Reads all lines of a pan at @time_s, for the read-out: straight between samples, power held from the sample
 * before.
 */
FrTraceMoment
fr_trace_moment_at (const FrTraceLine *line, double time_s);
