/* Columns from a common foot, the tallest as high as there is room. Labels that would touch are thinned from
 * the last one backwards, so that this season always keeps its name. */
#include "paint/bars.h"

#include "paint/canvas.h"

#include <math.h>

#define GAP_RATIO 0.19
#define MOST_STEP_PX 72.0
#define VALUE_PX 12.0

typedef struct
{
  double first_px; /* left edge of the first column */
  double step_px;
  double bar_px;
} Columns;

static Columns
columns_of (gsize n, double width_px)
{
  Columns c;

  c.step_px = MIN ((width_px - 4) / MAX (n, 1), MOST_STEP_PX);
  c.bar_px = MAX (c.step_px * (1 - GAP_RATIO), 1);
  c.first_px = 2 + (c.step_px - c.bar_px) / 2;
  return c;
}

gssize
fr_bars_at (const FrBarsView *view, double width_px, double x_px)
{
  Columns c = columns_of (view->n_bars, width_px);
  double at = floor ((x_px - 2) / c.step_px);

  return at >= 0 && at < (double)view->n_bars ? (gssize)at : -1;
}

static void
bar_path (cairo_t *cr, double x, double y, double width, double height)
{
  double r = MIN (2.5, MIN (width / 2, height));

  cairo_new_sub_path (cr);
  cairo_arc (cr, x + r, y + r, r, G_PI, 1.5 * G_PI);
  cairo_arc (cr, x + width - r, y + r, r, 1.5 * G_PI, 2 * G_PI);
  cairo_line_to (cr, x + width, y + height);
  cairo_line_to (cr, x, y + height);
  cairo_close_path (cr);
}

static void
draw_bar (const FrCanvas *c, const FrBar *bar, FrRole role, double x, double y, double width, double height)
{
  FrRgba fill = fr_rgba_mix (fr_palette_color (c->palette, FR_ROLE_CARD), fr_palette_color (c->palette, role),
                             c->palette->high_contrast ? 1 : 0.78);

  bar_path (c->cr, x, y, width, height);
  if (!bar->is_open)
    {
      cairo_set_source_rgb (c->cr, fill.red, fill.green, fill.blue);
      cairo_fill (c->cr);
    }
  else
    {
      cairo_save (c->cr);
      cairo_clip (c->cr);
      fr_palette_set_source (c->palette, c->cr, role, 1);
      fr_canvas_hatch (c, (FrBox){ x, y, width, height }, 4.5 * c->scale_ratio, TRUE);
      cairo_restore (c->cr);
      bar_path (c->cr, x + 0.6, y + 0.6, width - 1.2, height - 0.6);
      cairo_set_line_width (c->cr, 1.2 * c->scale_ratio);
      cairo_stroke (c->cr);
    }
  if (bar->is_chosen)
    {
      bar_path (c->cr, x - 2, y - 2, width + 4, height + 3);
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_ACCENT, 1);
      cairo_set_line_width (c->cr, 2 * c->scale_ratio);
      cairo_stroke (c->cr);
    }
}

/* How many columns share one label so that none touch. */
static guint
stride_of (FrCanvas *c, const FrBarsView *view, gsize which, double step_px)
{
  double widest = 0;

  for (gsize i = 0; i < view->n_bars; i++)
    {
      const FrBar *b = &view->bars[i];
      const char *text = which == 0 ? b->label : which == 1 ? b->value_text : b->note;
      double width, height;
      g_autoptr (PangoLayout) layout
          = fr_canvas_text (c, which == 1 ? NULL : text, which == 1 ? text : NULL, NULL,
                            which == 2 ? FR_TEXT_SMALL_PX - 0.5 : FR_TEXT_SMALL_PX);
      if (layout == NULL)
        continue;
      fr_layout_size (layout, &width, &height);
      widest = MAX (widest, width);
    }
  return (guint)MAX (ceil ((widest + 3) / step_px), 1);
}

static void
put (FrCanvas *c, const char *plain, const char *strong, double middle_px, double y_px, FrRole role,
     double size_px)
{
  double width, height;
  FrRgba none = { 0, 0, 0, 0 };
  g_autoptr (PangoLayout) layout = fr_canvas_text (c, plain, strong, NULL, size_px);

  if (layout == NULL)
    return;
  fr_layout_size (layout, &width, &height);
  fr_canvas_try (c, layout, CLAMP (middle_px - width / 2, 0, MAX (c->width_px - width, 0)), y_px, role, none);
}

static void
draw_empty (FrCanvas *c, const char *sentence)
{
  double width, height;
  FrRgba none = { 0, 0, 0, 0 };
  g_autoptr (PangoLayout) layout = fr_canvas_text (c, sentence, NULL, NULL, FR_TEXT_SMALL_PX);

  if (layout == NULL)
    return;
  pango_layout_set_single_paragraph_mode (layout, FALSE);
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_alignment (layout, PANGO_ALIGN_CENTER);
  pango_layout_set_width (layout, (int)((c->width_px - 12) * PANGO_SCALE));
  fr_layout_size (layout, &width, &height);
  pango_layout_set_width (layout, (int)(ceil (width) * PANGO_SCALE));
  if (height <= c->height_px)
    fr_canvas_put (c, layout, (c->width_px - width) / 2, (c->height_px - height) / 2, FR_ROLE_INK_SOFT, none);
}

void
fr_bars_draw (cairo_t *cr, PangoContext *context, const FrPalette *palette, const FrBarsView *view,
              double width_px, double height_px, double text_scale, GArray *labels)
{
  FrCanvas canvas;
  double most = 0, s = text_scale;
  gboolean any = FALSE, has_notes = FALSE;

  fr_canvas_init (&canvas, cr, context, palette, width_px, height_px, text_scale);
  Columns columns = columns_of (view->n_bars, width_px);
  for (gsize i = 0; i < view->n_bars; i++)
    {
      any = any || isfinite (view->bars[i].value);
      if (view->bars[i].value > most && isfinite (view->bars[i].value))
        most = view->bars[i].value;
      has_notes = has_notes || (view->bars[i].note != NULL && view->bars[i].note[0] != '\0');
    }
  guint strides[3];
  for (gsize k = 0; k < 3; k++)
    strides[k] = stride_of (&canvas, view, k, columns.step_px);
  has_notes = has_notes && strides[2] == 1 && height_px > 7 * canvas.line_px;

  double top = canvas.line_px + 6 * s;
  double foot = height_px - canvas.line_px * (has_notes ? 2 : 1) - 5 * s;
  cairo_save (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  if (foot - top >= 8 && view->n_bars > 0)
    {
      fr_palette_set_source (palette, cr, FR_ROLE_AXIS, 1);
      fr_canvas_rule (&canvas, 0, foot, columns.first_px + columns.step_px * view->n_bars, foot, 1);
      for (gsize i = 0; i < view->n_bars; i++)
        {
          const FrBar *bar = &view->bars[i];
          double x = columns.first_px + i * columns.step_px, middle = x + columns.bar_px / 2;
          double height = most > 0 && bar->value > 0 && isfinite (bar->value)
                              ? MAX (bar->value / most * (foot - top), 1.5)
                              : 0;
          gsize back = view->n_bars - 1 - i;
          if (height > 0)
            draw_bar (&canvas, bar, view->role, x, foot - height, columns.bar_px, height);
          if (isfinite (bar->value) && (back % strides[1] == 0 || bar->is_chosen))
            put (&canvas, NULL, bar->value_text, middle,
                 foot - height - canvas.line_px - (bar->is_chosen ? 5 : 3) * s, FR_ROLE_INK, VALUE_PX);
          else if (!isfinite (bar->value) && back % strides[1] == 0)
            put (&canvas, "–", NULL, middle, foot - canvas.line_px - 2 * s, FR_ROLE_INK_SOFT, VALUE_PX);
        }
      /* The chosen one's name finds its room before the others'. */
      for (guint pass = 0; pass < 2; pass++)
        for (gsize i = 0; i < view->n_bars; i++)
          {
            const FrBar *bar = &view->bars[i];
            double middle = columns.first_px + i * columns.step_px + columns.bar_px / 2;
            gsize back = view->n_bars - 1 - i;
            if ((pass == 0) != (bar->is_chosen || back == 0) || (pass == 1 && back % strides[0] != 0))
              continue;
            put (&canvas, bar->is_chosen ? NULL : bar->label, bar->is_chosen ? bar->label : NULL, middle,
                 foot + 4 * s, bar->is_chosen ? FR_ROLE_INK : FR_ROLE_INK_SOFT, FR_TEXT_SMALL_PX);
            if (has_notes)
              put (&canvas, bar->note, NULL, middle, foot + 4 * s + canvas.line_px, FR_ROLE_INK_SOFT,
                   FR_TEXT_SMALL_PX - 0.5);
          }
    }
  if (!any)
    draw_empty (&canvas, view->empty_sentence);
  fr_canvas_flush (&canvas, labels);
  cairo_restore (cr);
  fr_canvas_clear (&canvas);
}
