/* What the painters share: text layouts in the interface font, the boxes already taken, and lines as points
 * with gaps. Private to this room. Texts are collected while placing and drawn last, so that no line lies
 * over a word. */
#pragma once

#include "paint/label.h"

typedef struct
{
  double x_px;
  double y_px;
  double width_px;
  double height_px;
} FrBox;

/* NAN in y_px is a gap. */
typedef struct
{
  double x_px;
  double y_px;
} FrPoint;

typedef struct
{
  cairo_t *cr;
  PangoContext *context;
  const FrPalette *palette;
  double scale_ratio;
  double width_px;
  double height_px;
  double line_px; /* height of one line of small text */
  GArray *taken;  /* FrBox */
  GArray *texts;  /* what fr_canvas_flush() draws */
} FrCanvas;

/* Sizes of the design, px at text scale 1. */
#define FR_TEXT_SMALL_PX 12.0

void
fr_canvas_init (FrCanvas *canvas, cairo_t *cr, PangoContext *context, const FrPalette *palette,
                double width_px, double height_px, double text_scale);

/* Frees, without drawing what was not flushed. */
void
fr_canvas_clear (FrCanvas *canvas);

/* One line: regular @before, bold @strong, regular @after, a space between those that are there. NULL when
 * all are empty.
 * @size_px is at text scale 1. */
PangoLayout *
fr_canvas_text (FrCanvas *canvas, const char *before, const char *strong, const char *after, double size_px);

void
fr_layout_size (PangoLayout *layout, double *width_px, double *height_px);

/* Inside the area and over nothing that is taken. */
gboolean
fr_canvas_free (const FrCanvas *canvas, const FrBox *box);

void
fr_canvas_take (FrCanvas *canvas, FrBox box);

/* Takes the box at @x_px, @y_px and keeps the text for the flush. @halo: an alpha above 0 draws 4 px of that
 * colour round it. */
void
fr_canvas_put (FrCanvas *canvas, PangoLayout *layout, double x_px, double y_px, FrRole role, FrRgba halo);

/* The same, but only if fr_canvas_free(). */
gboolean
fr_canvas_try (FrCanvas *canvas, PangoLayout *layout, double x_px, double y_px, FrRole role, FrRgba halo);

/* The same, with a halo of the card; @across_ratio, @down_ratio: which part of the text lies at the point, 0
 * its left or upper edge, 1 the other. NULL text: FALSE. */
gboolean
fr_canvas_try_at (FrCanvas *canvas, PangoLayout *layout, double x_px, double y_px, double across_ratio,
                  double down_ratio, FrRole role, double halo_ratio);

/* Draws the texts; adds their boxes to @labels (NULL: does not). */
void
fr_canvas_flush (FrCanvas *canvas, GArray *labels);

void
fr_canvas_dash (const FrCanvas *canvas, double on_px, double off_px);

/* A line at whole pixels, so that hairlines are crisp. */
void
fr_canvas_rule (const FrCanvas *canvas, double x1_px, double y1_px, double x2_px, double y2_px,
                double line_px);

/* Fills @box with slanted lines @gap_px apart, rising to the right or falling. */
void
fr_canvas_hatch (const FrCanvas *canvas, FrBox box, double gap_px, gboolean rising);

/* A box with round corners, @out_px larger on all sides, as a path. */
void
fr_canvas_rounded (const FrCanvas *canvas, FrBox box, double radius_px, double out_px);

/* A dot with 2 px of the card around it. */
void
fr_canvas_dot (const FrCanvas *canvas, double x_px, double y_px, double radius_px, FrRole role);

/* Strokes points, broken at gaps, with the current source, width and dash. */
void
fr_canvas_polyline (const FrCanvas *canvas, const GArray *points);

/* How often the line passes through the box. */
guint
fr_points_crossing (const GArray *points, const FrBox *box);

/* Highest and lowest y of the line over a stretch of x. FALSE if there is none. */
gboolean
fr_points_span (const GArray *points, double from_x_px, double to_x_px, double *top_px, double *bottom_px);
