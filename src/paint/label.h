/* Text on a drawing: measured, placed without overlap, drawn with a halo where it crosses a line. The list of
 * placed boxes is also what a test reads. Sizes are px at text scale 1 and grow with it. */
#pragma once

#include <pango/pangocairo.h>

#include "paint/palette.h"

/**
 * FrLabelBox:
 * One text as it was drawn: its box in px from the upper left corner of the area, and the words.
 */
typedef struct
{
  double x_px;
  double y_px;
  double width_px;
  double height_px;
  char *text;
} FrLabelBox;

/**
 * fr_label_list_new:
 * An empty list of #FrLabelBox that frees its texts; unref with g_array_unref().
 */
GArray *
fr_label_list_new (void);

/**
 * fr_text_scale_of_context:
 * How much larger than the design's 11 pt at 96 dpi the interface font of @context is: 1 normally, 1.25 with
 * the desktop's larger text. A context without a size counts as 1.
 */
double
fr_text_scale_of_context (PangoContext *context);
