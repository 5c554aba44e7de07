/* Text, boxes and lines for the painters. A box is free when it lies inside the area and touches no taken
 * one; that is all there is to "no label over another". Line against box: the clipping test of Liang and
 * Barsky (1984), exact. */
#include "paint/canvas.h"

#include <math.h>
#include <string.h>

typedef struct
{
  PangoLayout *layout;
  FrBox box;
  FrRole role;
  FrRgba halo;
} Text;

static void
text_clear (gpointer data)
{
  Text *text = data;

  g_object_unref (text->layout);
}

void
fr_canvas_init (FrCanvas *canvas, cairo_t *cr, PangoContext *context, const FrPalette *palette,
                double width_px, double height_px, double text_scale)
{
  *canvas = (FrCanvas){ cr, context, palette, text_scale, width_px, height_px, 0, NULL, NULL };
  canvas->taken = g_array_new (FALSE, FALSE, sizeof (FrBox));
  canvas->texts = g_array_new (FALSE, FALSE, sizeof (Text));
  g_array_set_clear_func (canvas->texts, text_clear);

  double width;
  g_autoptr (PangoLayout) sample = fr_canvas_text (canvas, NULL, "0", NULL, FR_TEXT_SMALL_PX);
  fr_layout_size (sample, &width, &canvas->line_px);
}

void
fr_canvas_clear (FrCanvas *canvas)
{
  g_array_unref (canvas->taken);
  g_array_unref (canvas->texts);
}

static void
append (GString *text, const char *part, guint *from, guint *to)
{
  if (part == NULL || part[0] == '\0')
    return;
  if (text->len > 0)
    g_string_append_c (text, ' ');
  *from = (guint)text->len;
  g_string_append (text, part);
  *to = (guint)text->len;
}

PangoLayout *
fr_canvas_text (FrCanvas *canvas, const char *before, const char *strong, const char *after, double size_px)
{
  g_autoptr (GString) text = g_string_new (NULL);
  guint from = 0, to = 0, unused_from, unused_to;

  append (text, before, &unused_from, &unused_to);
  append (text, strong, &from, &to);
  append (text, after, &unused_from, &unused_to);
  if (text->len == 0)
    return NULL;

  PangoLayout *layout = pango_layout_new (canvas->context);
  const PangoFontDescription *base = pango_context_get_font_description (canvas->context);
  PangoFontDescription *font
      = base ? pango_font_description_copy (base) : pango_font_description_from_string ("Sans");
  pango_font_description_set_absolute_size (font, size_px * canvas->scale_ratio * PANGO_SCALE);
  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);
  pango_layout_set_text (layout, text->str, (int)text->len);
  pango_layout_set_single_paragraph_mode (layout, TRUE);

  PangoAttrList *attributes = pango_attr_list_new ();
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum=1"));
  if (to > from)
    {
      PangoAttribute *bold = pango_attr_weight_new (PANGO_WEIGHT_BOLD);
      bold->start_index = from;
      bold->end_index = to;
      pango_attr_list_insert (attributes, bold);
    }
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
  return layout;
}

void
fr_layout_size (PangoLayout *layout, double *width_px, double *height_px)
{
  PangoRectangle logical;

  pango_layout_get_extents (layout, NULL, &logical);
  *width_px = (double)logical.width / PANGO_SCALE;
  *height_px = (double)logical.height / PANGO_SCALE;
}

gboolean
fr_canvas_free (const FrCanvas *canvas, const FrBox *box)
{
  if (box->x_px < 0 || box->y_px < 0 || box->x_px + box->width_px > canvas->width_px
      || box->y_px + box->height_px > canvas->height_px)
    return FALSE;
  for (guint i = 0; i < canvas->taken->len; i++)
    {
      const FrBox *t = &g_array_index (canvas->taken, FrBox, i);
      if (box->x_px < t->x_px + t->width_px && t->x_px < box->x_px + box->width_px
          && box->y_px < t->y_px + t->height_px && t->y_px < box->y_px + box->height_px)
        return FALSE;
    }
  return TRUE;
}

void
fr_canvas_take (FrCanvas *canvas, FrBox box)
{
  g_array_append_val (canvas->taken, box);
}

void
fr_canvas_put (FrCanvas *canvas, PangoLayout *layout, double x_px, double y_px, FrRole role, FrRgba halo)
{
  Text text = { g_object_ref (layout), { x_px, y_px, 0, 0 }, role, halo };

  fr_layout_size (layout, &text.box.width_px, &text.box.height_px);
  g_array_append_val (canvas->texts, text);
  fr_canvas_take (canvas, text.box);
}

gboolean
fr_canvas_try (FrCanvas *canvas, PangoLayout *layout, double x_px, double y_px, FrRole role, FrRgba halo)
{
  FrBox box = { x_px, y_px, 0, 0 };

  fr_layout_size (layout, &box.width_px, &box.height_px);
  if (!fr_canvas_free (canvas, &box))
    return FALSE;
  fr_canvas_put (canvas, layout, x_px, y_px, role, halo);
  return TRUE;
}

gboolean
fr_canvas_try_at (FrCanvas *canvas, PangoLayout *layout, double x_px, double y_px, double across_ratio,
                  double down_ratio, FrRole role, double halo_ratio)
{
  double width, height;
  FrRgba card = fr_palette_color (canvas->palette, FR_ROLE_CARD);

  if (layout == NULL)
    return FALSE;
  card.alpha = (float)halo_ratio;
  fr_layout_size (layout, &width, &height);
  return fr_canvas_try (canvas, layout, x_px - across_ratio * width, y_px - down_ratio * height, role, card);
}

void
fr_canvas_flush (FrCanvas *canvas, GArray *labels)
{
  cairo_t *cr = canvas->cr;

  for (guint i = 0; i < canvas->texts->len; i++)
    {
      const Text *t = &g_array_index (canvas->texts, Text, i);

      if (t->halo.alpha > 0)
        {
          cairo_save (cr);
          cairo_move_to (cr, t->box.x_px, t->box.y_px);
          pango_cairo_layout_path (cr, t->layout);
          cairo_set_source_rgba (cr, t->halo.red, t->halo.green, t->halo.blue, t->halo.alpha);
          cairo_set_line_width (cr, 4.0);
          cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
          cairo_stroke (cr);
          cairo_restore (cr);
        }
      fr_palette_set_source (canvas->palette, cr, t->role, 1.0);
      cairo_move_to (cr, t->box.x_px, t->box.y_px);
      pango_cairo_show_layout (cr, t->layout);
      if (labels != NULL)
        {
          FrLabelBox box = { t->box.x_px, t->box.y_px, t->box.width_px, t->box.height_px,
                             g_strdup (pango_layout_get_text (t->layout)) };
          g_array_append_val (labels, box);
        }
    }
  g_array_set_size (canvas->texts, 0);
}

void
fr_canvas_dash (const FrCanvas *canvas, double on_px, double off_px)
{
  double dash[2] = { on_px, off_px };

  cairo_set_dash (canvas->cr, dash, on_px > 0 ? 2 : 0, 0);
}

void
fr_canvas_rule (const FrCanvas *canvas, double x1_px, double y1_px, double x2_px, double y2_px,
                double line_px)
{
  /* An odd width is crisp between pixels, an even one on them; on paper half a pixel is too little to matter.
   */
  double half = ((int)lround (line_px) % 2) != 0 ? 0.5 : 0.0;

  cairo_set_line_width (canvas->cr, line_px);
  if (x1_px == x2_px)
    x1_px = x2_px = floor (x1_px) + half;
  if (y1_px == y2_px)
    y1_px = y2_px = floor (y1_px) + half;
  cairo_move_to (canvas->cr, x1_px, y1_px);
  cairo_line_to (canvas->cr, x2_px, y2_px);
  cairo_stroke (canvas->cr);
}

void
fr_canvas_hatch (const FrCanvas *canvas, FrBox box, double gap_px, gboolean rising)
{
  cairo_t *cr = canvas->cr;

  cairo_save (cr);
  cairo_rectangle (cr, box.x_px, box.y_px, box.width_px, box.height_px);
  cairo_clip (cr);
  cairo_set_line_width (cr, fr_palette_hatch_px (canvas->palette));
  for (double x = box.x_px - box.height_px; x < box.x_px + box.width_px + box.height_px; x += gap_px)
    {
      cairo_move_to (cr, x, rising ? box.y_px + box.height_px : box.y_px);
      cairo_line_to (cr, x + box.height_px, rising ? box.y_px : box.y_px + box.height_px);
    }
  cairo_stroke (cr);
  cairo_restore (cr);
}

void
fr_canvas_rounded (const FrCanvas *canvas, FrBox box, double radius_px, double out_px)
{
  cairo_t *cr = canvas->cr;
  double x = box.x_px - out_px, y = box.y_px - out_px, w = box.width_px + 2 * out_px,
         h = box.height_px + 2 * out_px;
  double r = MIN (radius_px + out_px, MIN (w, h) / 2);

  cairo_new_sub_path (cr);
  cairo_arc (cr, x + w - r, y + r, r, -G_PI_2, 0);
  cairo_arc (cr, x + w - r, y + h - r, r, 0, G_PI_2);
  cairo_arc (cr, x + r, y + h - r, r, G_PI_2, G_PI);
  cairo_arc (cr, x + r, y + r, r, G_PI, 1.5 * G_PI);
  cairo_close_path (cr);
}

void
fr_canvas_dot (const FrCanvas *canvas, double x_px, double y_px, double radius_px, FrRole role)
{
  cairo_t *cr = canvas->cr;

  cairo_new_sub_path (cr);
  cairo_arc (cr, x_px, y_px, radius_px + 2, 0, 2 * G_PI);
  fr_palette_set_source (canvas->palette, cr, FR_ROLE_CARD, 1);
  cairo_fill (cr);
  cairo_arc (cr, x_px, y_px, radius_px, 0, 2 * G_PI);
  fr_palette_set_source (canvas->palette, cr, role, 1);
  cairo_fill (cr);
}

void
fr_canvas_polyline (const FrCanvas *canvas, const GArray *points)
{
  gboolean open = FALSE;

  for (guint i = 0; i < points->len; i++)
    {
      const FrPoint *p = &g_array_index (points, FrPoint, i);
      if (isnan (p->y_px))
        open = FALSE;
      else if (!open)
        {
          cairo_move_to (canvas->cr, p->x_px, p->y_px);
          open = TRUE;
        }
      else
        cairo_line_to (canvas->cr, p->x_px, p->y_px);
    }
  cairo_stroke (canvas->cr);
}

static gboolean
segment_hits (const FrPoint *a, const FrPoint *b, const FrBox *box)
{
  double dx = b->x_px - a->x_px, dy = b->y_px - a->y_px;
  double p[4] = { -dx, dx, -dy, dy };
  double q[4] = { a->x_px - box->x_px, box->x_px + box->width_px - a->x_px, a->y_px - box->y_px,
                  box->y_px + box->height_px - a->y_px };
  double enter = 0, leave = 1;

  for (guint i = 0; i < 4; i++)
    {
      if (p[i] == 0)
        {
          if (q[i] < 0)
            return FALSE;
          continue;
        }
      double r = q[i] / p[i];
      if (p[i] < 0)
        enter = MAX (enter, r);
      else
        leave = MIN (leave, r);
    }
  return enter <= leave;
}

guint
fr_points_crossing (const GArray *points, const FrBox *box)
{
  guint n = 0;
  gboolean inside = FALSE;

  for (guint i = 1; i < points->len; i++)
    {
      const FrPoint *a = &g_array_index (points, FrPoint, i - 1);
      const FrPoint *b = &g_array_index (points, FrPoint, i);
      gboolean hit = !isnan (a->y_px) && !isnan (b->y_px) && segment_hits (a, b, box);
      if (hit && !inside)
        n++;
      inside = hit;
    }
  return n;
}

gboolean
fr_points_span (const GArray *points, double from_x_px, double to_x_px, double *top_px, double *bottom_px)
{
  double top = INFINITY, bottom = -INFINITY;

  for (guint i = 0; i < points->len; i++)
    {
      const FrPoint *p = &g_array_index (points, FrPoint, i);
      if (!isnan (p->y_px) && p->x_px >= from_x_px && p->x_px <= to_x_px)
        {
          top = MIN (top, p->y_px);
          bottom = MAX (bottom, p->y_px);
        }
      if (i == 0)
        continue;
      const FrPoint *o = &g_array_index (points, FrPoint, i - 1);
      if (isnan (o->y_px) || isnan (p->y_px) || p->x_px <= o->x_px)
        continue;
      double edges[2] = { from_x_px, to_x_px };
      for (guint e = 0; e < 2; e++)
        if (edges[e] > o->x_px && edges[e] < p->x_px)
          {
            double y = o->y_px + (p->y_px - o->y_px) * (edges[e] - o->x_px) / (p->x_px - o->x_px);
            top = MIN (top, y);
            bottom = MAX (bottom, y);
          }
    }
  if (top > bottom)
    return FALSE;
  *top_px = top;
  *bottom_px = bottom;
  return TRUE;
}
