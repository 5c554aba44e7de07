/* The view is a scale and a corner; everything that is kept is in the picture's own pixels. */
#include "ui/picture-view.h"

#include <adwaita.h>
#include <glib/gi18n-lib.h>
#include <math.h>

#include "paint/label.h"
#include "ui/drawing.h"
#include "ui/theme.h"

#define START_PX 5.0
#define ZOOM_STEP 1.25
#define CLOSEST 8.0
#define CROSS_PX 9.0

struct _FrPictureView
{
  GtkWidget parent_instance;
  FrPicture *picture;
  double scale; /* px of the screen in one of the picture */
  double left_px, top_px;
  double columns[2], rows[2];
  guint asked;
  double cross_column, cross_row;
  double pointer_x_px, pointer_y_px;
  double dragged_x_px, dragged_y_px;
  gboolean dragging;
  gboolean fitted;
};

G_DEFINE_FINAL_TYPE (FrPictureView, fr_picture_view, GTK_TYPE_WIDGET)

static guint pointed_signal;

static void
fit (FrPictureView *self)
{
  double width = gtk_widget_get_width (GTK_WIDGET (self)), height = gtk_widget_get_height (GTK_WIDGET (self));

  if (self->picture == NULL || width <= 0 || height <= 0)
    return;
  self->scale = MIN (width / self->picture->width, height / self->picture->height);
  self->left_px = (width - self->scale * self->picture->width) / 2;
  self->top_px = (height - self->scale * self->picture->height) / 2;
  self->fitted = TRUE;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
zoom_at (FrPictureView *self, double x_px, double y_px, double factor)
{
  double scale = CLAMP (self->scale * factor, 0.01, CLOSEST);

  self->left_px = x_px - (x_px - self->left_px) * scale / self->scale;
  self->top_px = y_px - (y_px - self->top_px) * scale / self->scale;
  self->scale = scale;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
say (FrPictureView *self)
{
  g_autofree char *text = NULL;

  if (self->picture == NULL)
    text = g_strdup (_ ("No picture"));
  else
    text = g_strdup_printf (_ ("Picture. Cross at column %.0f, row %.0f. Space sets point %u."),
                            self->cross_column, self->cross_row, self->asked + 1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
}

static void
point_at (FrPictureView *self, double column, double row)
{
  if (self->picture == NULL || column < 0 || row < 0 || column > self->picture->width
      || row > self->picture->height)
    return;
  self->columns[self->asked] = round (column * 10) / 10;
  self->rows[self->asked] = round (row * 10) / 10;
  self->cross_column = column;
  self->cross_row = row;
  gtk_widget_queue_draw (GTK_WIDGET (self));
  g_signal_emit (self, pointed_signal, 0);
  say (self);
}

/* --- pointer --- */

static void
motion_cb (GtkEventControllerMotion *controller, double x, double y, gpointer user_data)
{
  FR_PICTURE_VIEW (user_data)->pointer_x_px = x;
  FR_PICTURE_VIEW (user_data)->pointer_y_px = y;
}

static gboolean
scroll_cb (GtkEventControllerScroll *controller, double dx, double dy, gpointer user_data)
{
  FrPictureView *self = FR_PICTURE_VIEW (user_data);

  if (self->picture == NULL)
    return FALSE;
  zoom_at (self, self->pointer_x_px, self->pointer_y_px, pow (ZOOM_STEP, -dy));
  return TRUE;
}

static void
drag_begin_cb (GtkGestureDrag *gesture, double x, double y, gpointer user_data)
{
  FrPictureView *self = FR_PICTURE_VIEW (user_data);

  gtk_widget_grab_focus (GTK_WIDGET (self));
  self->dragged_x_px = self->dragged_y_px = 0;
  self->dragging = FALSE;
}

static void
drag_update_cb (GtkGestureDrag *gesture, double dx, double dy, gpointer user_data)
{
  FrPictureView *self = FR_PICTURE_VIEW (user_data);

  self->dragging = self->dragging || hypot (dx, dy) > START_PX;
  if (!self->dragging)
    return;
  self->left_px += dx - self->dragged_x_px;
  self->top_px += dy - self->dragged_y_px;
  self->dragged_x_px = dx;
  self->dragged_y_px = dy;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
drag_end_cb (GtkGestureDrag *gesture, double dx, double dy, gpointer user_data)
{
  FrPictureView *self = FR_PICTURE_VIEW (user_data);
  double x, y;

  if (!self->dragging && gtk_gesture_drag_get_start_point (gesture, &x, &y) && self->scale > 0)
    point_at (self, (x - self->left_px) / self->scale, (y - self->top_px) / self->scale);
}

/* --- keys --- */

static gboolean
arrow (FrPictureView *self, double right, double down, GdkModifierType state)
{
  double step = MAX (1, 1 / self->scale) * ((state & GDK_SHIFT_MASK) != 0 ? 10 : 1);
  double width = gtk_widget_get_width (GTK_WIDGET (self)), height = gtk_widget_get_height (GTK_WIDGET (self));
  double x, y;

  self->cross_column = CLAMP (self->cross_column + step * right, 0, self->picture->width);
  self->cross_row = CLAMP (self->cross_row + step * down, 0, self->picture->height);
  x = self->left_px + self->scale * self->cross_column;
  y = self->top_px + self->scale * self->cross_row;
  self->left_px += CLAMP (x, 0, width) - x; /* it stays in sight */
  self->top_px += CLAMP (y, 0, height) - y;
  gtk_widget_queue_draw (GTK_WIDGET (self));
  say (self);
  return TRUE;
}

static gboolean
key_pressed_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state,
                gpointer user_data)
{
  FrPictureView *self = FR_PICTURE_VIEW (user_data);
  double x = self->left_px + self->scale * self->cross_column;
  double y = self->top_px + self->scale * self->cross_row;

  if (self->picture == NULL || !self->fitted)
    return FALSE;
  switch (keyval)
    {
    case GDK_KEY_Left:
    case GDK_KEY_KP_Left:
      return arrow (self, -1, 0, state);
    case GDK_KEY_Right:
    case GDK_KEY_KP_Right:
      return arrow (self, 1, 0, state);
    case GDK_KEY_Up:
    case GDK_KEY_KP_Up:
      return arrow (self, 0, -1, state);
    case GDK_KEY_Down:
    case GDK_KEY_KP_Down:
      return arrow (self, 0, 1, state);
    case GDK_KEY_plus:
    case GDK_KEY_equal:
    case GDK_KEY_KP_Add:
      zoom_at (self, x, y, ZOOM_STEP);
      return TRUE;
    case GDK_KEY_minus:
    case GDK_KEY_KP_Subtract:
      zoom_at (self, x, y, 1 / ZOOM_STEP);
      return TRUE;
    case GDK_KEY_0:
    case GDK_KEY_KP_0:
      fit (self);
      return TRUE;
    case GDK_KEY_space:
    case GDK_KEY_Return:
    case GDK_KEY_KP_Enter:
      point_at (self, self->cross_column, self->cross_row);
      return TRUE;
    default:
      return FALSE;
    }
}

/* --- drawing --- */

/* A pale edge under a strong line is seen on any photo. */
static void
stroke (cairo_t *cr, const FrPalette *palette, FrRole role, double width_px)
{
  fr_palette_set_source (palette, cr, FR_ROLE_CARD, 0.85);
  cairo_set_line_width (cr, width_px + 2.5);
  cairo_stroke_preserve (cr);
  fr_palette_set_source (palette, cr, role, 1);
  cairo_set_line_width (cr, width_px);
  cairo_stroke (cr);
}

static void
draw_point (FrPictureView *self, cairo_t *cr, const FrPalette *palette, guint point)
{
  double x = self->left_px + self->scale * self->columns[point];
  double y = self->top_px + self->scale * self->rows[point];
  g_autofree char *number = g_strdup_printf ("%u", point + 1);
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (GTK_WIDGET (self), number);

  if (isnan (x) || isnan (y))
    return;
  cairo_new_path (cr);
  cairo_arc (cr, x, y, CROSS_PX, 0, 2 * G_PI);
  cairo_move_to (cr, x - CROSS_PX, y);
  cairo_line_to (cr, x + CROSS_PX, y);
  cairo_move_to (cr, x, y - CROSS_PX);
  cairo_line_to (cr, x, y + CROSS_PX);
  stroke (cr, palette, FR_ROLE_ACCENT, point == self->asked ? 2.5 : 1.5);
  cairo_move_to (cr, x + CROSS_PX + 3, y + 1);
  pango_cairo_layout_path (cr, layout);
  fr_palette_set_source (palette, cr, FR_ROLE_CARD, 0.9);
  cairo_set_line_width (cr, 4);
  cairo_stroke_preserve (cr);
  fr_palette_set_source (palette, cr, FR_ROLE_INK, 1);
  cairo_fill (cr);
}

static void
draw_cross (FrPictureView *self, cairo_t *cr, const FrPalette *palette)
{
  double x = round (self->left_px + self->scale * self->cross_column) + 0.5;
  double y = round (self->top_px + self->scale * self->cross_row) + 0.5;

  cairo_new_path (cr);
  cairo_move_to (cr, x - 2 * CROSS_PX, y);
  cairo_line_to (cr, x + 2 * CROSS_PX, y);
  cairo_move_to (cr, x, y - 2 * CROSS_PX);
  cairo_line_to (cr, x, y + 2 * CROSS_PX);
  stroke (cr, palette, FR_ROLE_INK, 1);
}

static void
fr_picture_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  FrPictureView *self = FR_PICTURE_VIEW (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  FrPalette palette = fr_theme_palette ();
  cairo_t *cr;

  if (width <= 0 || height <= 0)
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  fr_palette_set_source (&palette, cr, FR_ROLE_GROUND, 1);
  cairo_paint (cr);
  if (self->picture != NULL && self->fitted)
    {
      cairo_save (cr);
      cairo_translate (cr, self->left_px, self->top_px);
      cairo_scale (cr, self->scale / self->picture->scale_ratio, self->scale / self->picture->scale_ratio);
      cairo_set_source_surface (cr, self->picture->surface, 0, 0);
      cairo_pattern_set_filter (cairo_get_source (cr), CAIRO_FILTER_BILINEAR);
      cairo_paint (cr);
      cairo_restore (cr);
      draw_point (self, cr, &palette, 1 - self->asked);
      draw_point (self, cr, &palette, self->asked);
      if (gtk_widget_has_focus (widget))
        draw_cross (self, cr, &palette);
    }
  cairo_destroy (cr);
}

static void
fr_picture_view_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  FrPictureView *self = FR_PICTURE_VIEW (widget);

  if (!self->fitted)
    fit (self);
}

static void
fr_picture_view_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                         int *natural, int *minimum_baseline, int *natural_baseline)
{
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 240 : 180;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 480 : 240;
}

static void
fr_picture_view_finalize (GObject *object)
{
  fr_picture_free (FR_PICTURE_VIEW (object)->picture);
  G_OBJECT_CLASS (fr_picture_view_parent_class)->finalize (object);
}

static void
fr_picture_view_class_init (FrPictureViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = fr_picture_view_finalize;
  widget_class->measure = fr_picture_view_measure;
  widget_class->size_allocate = fr_picture_view_size_allocate;
  widget_class->snapshot = fr_picture_view_snapshot;
  fr_drawing_class_init (widget_class);
  pointed_signal = g_signal_new ("pointed", FR_TYPE_PICTURE_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 0);
}

static void
fr_picture_view_init (FrPictureView *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  GtkEventController *motion = gtk_event_controller_motion_new (), *keys = gtk_event_controller_key_new ();
  GtkEventController *scroll = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_VERTICAL);
  GtkGesture *drag = gtk_gesture_drag_new ();

  self->scale = 1;
  for (guint i = 0; i < 2; i++)
    self->columns[i] = self->rows[i] = NAN;
  gtk_widget_set_focusable (widget, TRUE);
  gtk_widget_set_overflow (widget, GTK_OVERFLOW_HIDDEN);
  g_signal_connect (motion, "enter", G_CALLBACK (motion_cb), self);
  g_signal_connect (motion, "motion", G_CALLBACK (motion_cb), self);
  g_signal_connect (scroll, "scroll", G_CALLBACK (scroll_cb), self);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self);
  g_signal_connect (drag, "drag-begin", G_CALLBACK (drag_begin_cb), self);
  g_signal_connect (drag, "drag-update", G_CALLBACK (drag_update_cb), self);
  g_signal_connect (drag, "drag-end", G_CALLBACK (drag_end_cb), self);
  gtk_widget_add_controller (widget, motion);
  gtk_widget_add_controller (widget, scroll);
  gtk_widget_add_controller (widget, keys);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (drag));
  g_signal_connect (self, "notify::has-focus", G_CALLBACK (gtk_widget_queue_draw), NULL);
  say (self);
}

GtkWidget *
fr_picture_view_new (void)
{
  return g_object_new (FR_TYPE_PICTURE_VIEW, NULL);
}

void
fr_picture_view_take (FrPictureView *self, FrPicture *picture)
{
  fr_picture_free (self->picture);
  self->picture = picture;
  self->fitted = FALSE;
  if (picture != NULL)
    {
      self->cross_column = picture->width / 2;
      self->cross_row = picture->height / 2;
    }
  fit (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  say (self);
}

const FrPicture *
fr_picture_view_get (FrPictureView *self)
{
  return self->picture;
}

void
fr_picture_view_ask (FrPictureView *self, guint point)
{
  g_return_if_fail (point < 2);

  self->asked = point;
  if (!isnan (self->columns[point]))
    {
      self->cross_column = self->columns[point];
      self->cross_row = self->rows[point];
    }
  gtk_widget_queue_draw (GTK_WIDGET (self));
  say (self);
}

guint
fr_picture_view_asked (FrPictureView *self)
{
  return self->asked;
}

void
fr_picture_view_set_point (FrPictureView *self, guint point, double column, double row)
{
  g_return_if_fail (point < 2);

  self->columns[point] = column;
  self->rows[point] = row;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
fr_picture_view_get_point (FrPictureView *self, guint point, double *column_out, double *row_out)
{
  g_return_if_fail (point < 2);

  *column_out = self->columns[point];
  *row_out = self->rows[point];
}
