/* What the tests of the painters share: a font context, surfaces to draw on and to look at, and what
 * poppler's tools say about a document. */
#pragma once

#include "paint/label.h"

PangoContext *
stage_context (void);

cairo_surface_t *
stage_image (int width_px, int height_px);

/* Of an image's pixel: "#rrggbb" as a number, over white where it is transparent. */
guint32
stage_pixel (cairo_surface_t *image, int x_px, int y_px);

/* Its grey, 0 to 255: Rec. 709 weights on the sRGB values, what a plain black and white print makes of it. */
double
stage_grey (cairo_surface_t *image, int x_px, int y_px);

/* How many pixels of two images of one size differ by more than @step in grey. */
guint
stage_differences (cairo_surface_t *a, cairo_surface_t *b, double step);

/* How many pixels come closer than @step to @color in each channel. */
guint
stage_count (cairo_surface_t *image, FrRgba color, double step);

/* Fails when a word is cut off or lies over another. @what: for the message. */
void
stage_check_labels (const GArray *labels, double width_px, double height_px, const char *what);

/* A recording surface without bounds, and the check afterwards that no ink lies outside the area. */
cairo_surface_t *
stage_recording (void);
void
stage_check_ink (cairo_surface_t *recording, double width_px, double height_px, const char *what);

/* The recording over the role's colour, as an image. */
cairo_surface_t *
stage_develop (cairo_surface_t *recording, const FrPalette *palette, FrRole ground, int width_px,
               int height_px);

gboolean
stage_has_label (const GArray *labels, const char *text);

/* Into the folder FROSTRUN_PICTURES, if that is set. */
void
stage_keep (cairo_surface_t *image, const char *name);

/* What a poppler tool prints about the document. @options: up to three, NULL ends them; @keep_as: also kept
 * in FROSTRUN_PICTURES, or NULL. */
char *
stage_ask (GBytes *pdf, const char *tool, const char *const *options, const char *keep_as);

/* One space for every stretch of white space. */
char *
stage_flat (const char *text);

void
stage_check_contains (const char *text, const char *words);

guint
stage_count_words (const char *text, const char *words);

/* Fails when a word lies nearer to the edge of the page than 10 pt. Gives back the number of words. */
guint
stage_check_inside (GBytes *pdf, double width_pt, double height_pt);
