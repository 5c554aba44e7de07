/* The parts of the trace, between its own files. */
#pragma once

#include "paint/axis.h"
#include "paint/canvas.h"
#include "paint/trace.h"

/* An upright line that words should rather not cross. */
typedef struct
{
  double x_px;
  double top_px;
  double bottom_px;
} FrStem;

typedef struct
{
  FrCanvas canvas;
  const FrTraceView *view;
  const FrTraceLine *line; /* the chosen pan, NULL if there is none */
  FrTraceFrame frame;
  FrAxis level_axis;
  FrAxis brix_axis;
  gboolean has_level;
  gboolean has_brix;
  gboolean is_empty;     /* no sample to draw */
  gboolean names_inside; /* too narrow for a column of lane names */
  guint n_flag_rows;
  double flag_y_px[2];
  GArray *level_points;
  GArray *brix_points;
  GArray *limit_points; /* GArray of FrPoint with gaps */
  GArray *stems;
} FrTrace;

FrRgba
fr_trace_card (const FrTrace *trace, double alpha_ratio);

void
fr_trace_draw_scales (FrTrace *trace);
void
fr_trace_draw_levels (FrTrace *trace);
void
fr_trace_label_levels (FrTrace *trace);
void
fr_trace_draw_bucket (FrTrace *trace);
void
fr_trace_draw_power (FrTrace *trace);
void
fr_trace_draw_hours (FrTrace *trace);
void
fr_trace_draw_prices (FrTrace *trace);
void
fr_trace_draw_flags (FrTrace *trace);
void
fr_trace_draw_selected (FrTrace *trace);
