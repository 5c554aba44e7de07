/* The trunk as a widget. Holes come from the bush, the drawing is paint's; while something is dragged, what
 * the place is worth is asked of the bush at every motion, and the book hears of it once, at the end. */
#include "ui/trunk-picture.h"

#include <adwaita.h>
#include <glib/gi18n-lib.h>
#include <math.h>

#include "domain/units/units.h"
#include "paint/trunk-view.h"
#include "ui/theme.h"

#define STEP_M 0.01
#define FAR_STEPS 10
#define REACH_PX 12.0

struct _FrTrunkPicture
{
  GtkWidget parent_instance;
  FrSugarbush *bush;
  gint64 tree;
  double girth_m;
  FrTrunkHole *holes;
  char **labels; /* of the holes */
  guint n_holes;
  gboolean has_best;
  FrBushPlace best;
  FrBushPlace place;
  gboolean moved;  /* the place is no longer the best one */
  gssize dragged;  /* a hole, −1 the place, −2 nothing */
  double from_deg; /* where the dragged hole was */
  double from_m;
  FrTrunkFrame frame;
};

G_DEFINE_FINAL_TYPE (FrTrunkPicture, fr_trunk_picture, GTK_TYPE_WIDGET)

enum
{
  DRAGS_PLACE = -1,
  DRAGS_NOTHING = -2
};

static guint place_signal, tap_moved_signal, tap_chosen_signal;

static void
forget_holes (FrTrunkPicture *self)
{
  g_clear_pointer (&self->labels, g_strfreev);
  g_clear_pointer (&self->holes, g_free);
  self->n_holes = 0;
}

static void
read_holes (FrTrunkPicture *self)
{
  static const FrTrunkHoleState states[] = { [FR_HOLE_PLANNED] = FR_TRUNK_HOLE_PLANNED,
                                             [FR_HOLE_THIS_SEASON] = FR_TRUNK_HOLE_SET,
                                             [FR_HOLE_OPEN] = FR_TRUNK_HOLE_OPEN,
                                             [FR_HOLE_CLOSED] = FR_TRUNK_HOLE_CLOSED };
  g_autoptr (GArray) holes = fr_bush_holes (fr_sugarbush_get_bush (self->bush), self->tree);

  self->n_holes = holes->len;
  self->holes = g_new0 (FrTrunkHole, holes->len + 1);
  self->labels = g_new0 (char *, holes->len + 1);
  for (guint i = 0; i < holes->len; i++)
    {
      const FrBushHole *hole = &g_array_index (holes, FrBushHole, i);
      gboolean now = hole->state == FR_HOLE_PLANNED || hole->state == FR_HOLE_THIS_SEASON;

      /* Translators: the last two digits of a year, as ’24 */
      self->labels[i] = now && hole->state == FR_HOLE_THIS_SEASON ? g_strdup (_ ("this year"))
                        : now                                     ? g_strdup (_ ("planned"))
                              : g_strdup_printf (_ ("’%02u"), hole->season % 100);
      self->holes[i] = (FrTrunkHole){ .id = hole->tap->record.id,
                                      .angle_deg = hole->angle_deg,
                                      .height_m = hole->height_m,
                                      .state = states[hole->state],
                                      .stain_half_width_m = hole->stain_half_width_m,
                                      .stain_half_height_m = hole->stain_half_height_m,
                                      .label = self->labels[i] };
    }
}

static FrTrunkView
view_of (FrTrunkPicture *self, FrTrunkTarget *target)
{
  const FrBush *bush = fr_sugarbush_get_bush (self->bush);
  FrBushSpacing spacing = fr_bush_spacing (bush);
  gboolean metric = fr_book_get_units (fr_sugarbush_get_book (self->bush))->system == FR_SYSTEM_METRIC;

  *target = (FrTrunkTarget){ self->place.angle_deg, self->place.height_m, NULL };
  return (FrTrunkView){ .girth_m = self->girth_m,
                        .min_height_m = spacing.min_height_m,
                        .max_height_m = spacing.max_height_m,
                        .sideways_m = spacing.sideways_m,
                        .up_down_m = spacing.up_down_m,
                        .holes = self->holes,
                        .n_holes = self->n_holes,
                        .targets = target,
                        .n_targets = self->has_best ? 1 : 0,
                        .unit_m = metric ? 0.01 : FR_METRES_PER_INCH,
                        .is_focused = gtk_widget_has_visible_focus (GTK_WIDGET (self)) };
}

static void
fr_trunk_picture_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  FrTrunkPicture *self = FR_TRUNK_PICTURE (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  FrPalette palette = fr_theme_palette ();
  PangoContext *context = gtk_widget_get_pango_context (widget);
  FrTrunkTarget target;
  FrTrunkView view;
  cairo_t *cr;

  if (self->bush == NULL || self->tree == 0 || width <= 0 || height <= 0)
    return;
  view = view_of (self, &target);
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  self->frame
      = fr_trunk_draw (cr, context, &palette, &view, width, height, fr_text_scale_of_context (context), NULL);
  cairo_destroy (cr);
}

static void
fr_trunk_picture_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                          int *natural, int *minimum_baseline, int *natural_baseline)
{
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 220 : 260;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 300 : 260;
}

/* Asks the bush what the place is worth and tells who listens. */
static void
put_place (FrTrunkPicture *self, double angle_deg, double height_m, gboolean finished)
{
  FrBushPlace place;

  angle_deg = fmod (fmod (angle_deg, 360) + 360, 360);
  if (height_m < 0
      || !fr_bush_place_at (fr_sugarbush_get_bush (self->bush), self->tree, angle_deg, height_m, 0, &place))
    return;
  self->place = place;
  self->moved = TRUE;
  g_signal_emit (self, place_signal, 0, finished);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
drag_begin_cb (GtkGestureDrag *gesture, double x, double y, gpointer user_data)
{
  FrTrunkPicture *self = FR_TRUNK_PICTURE (user_data);
  FrTrunkTarget target;
  FrTrunkView view;
  gssize hole;

  self->dragged = DRAGS_NOTHING;
  if (self->bush == NULL || self->tree == 0)
    return;
  gtk_widget_grab_focus (GTK_WIDGET (self));
  view = view_of (self, &target);
  if (fr_trunk_target_at (&self->frame, &view, x, y, REACH_PX) >= 0)
    {
      self->dragged = DRAGS_PLACE;
      return;
    }
  hole = fr_trunk_hole_at (&self->frame, &view, x, y, REACH_PX);
  if (hole < 0)
    return;
  if (self->holes[hole].state == FR_TRUNK_HOLE_PLANNED)
    {
      self->dragged = hole;
      self->from_deg = self->holes[hole].angle_deg;
      self->from_m = self->holes[hole].height_m;
    }
  else
    g_signal_emit (self, tap_chosen_signal, 0, self->holes[hole].id);
}

static void
drag_update_cb (GtkGestureDrag *gesture, double dx, double dy, gpointer user_data)
{
  FrTrunkPicture *self = FR_TRUNK_PICTURE (user_data);
  double x, y, angle_deg, height_m;

  if (self->dragged == DRAGS_NOTHING || !gtk_gesture_drag_get_start_point (gesture, &x, &y)
      || !gtk_drag_check_threshold (GTK_WIDGET (self), 0, 0, (int)dx, (int)dy)
      || !fr_trunk_place_at (&self->frame, x + dx, y + dy, &angle_deg, &height_m))
    return;
  if (self->dragged == DRAGS_PLACE)
    put_place (self, angle_deg, height_m, FALSE);
  else
    {
      self->holes[self->dragged].angle_deg = angle_deg;
      self->holes[self->dragged].height_m = height_m;
      gtk_widget_queue_draw (GTK_WIDGET (self));
    }
}

static void
drag_end_cb (GtkGestureDrag *gesture, double dx, double dy, gpointer user_data)
{
  FrTrunkPicture *self = FR_TRUNK_PICTURE (user_data);
  gssize dragged = self->dragged;

  self->dragged = DRAGS_NOTHING;
  if (dragged == DRAGS_PLACE)
    g_signal_emit (self, place_signal, 0, TRUE);
  else if (dragged >= 0)
    {
      const FrTrunkHole *hole = &self->holes[dragged];

      if (hole->angle_deg != self->from_deg || hole->height_m != self->from_m)
        g_signal_emit (self, tap_moved_signal, 0, hole->id, hole->angle_deg, hole->height_m);
      else
        g_signal_emit (self, tap_chosen_signal, 0, hole->id);
    }
}

/* A drag that is taken back by Escape or by another gesture. */
static void
drag_cancel_cb (GtkGesture *gesture, GdkEventSequence *sequence, gpointer user_data)
{
  FrTrunkPicture *self = FR_TRUNK_PICTURE (user_data);

  if (self->dragged >= 0)
    {
      self->holes[self->dragged].angle_deg = self->from_deg;
      self->holes[self->dragged].height_m = self->from_m;
    }
  self->dragged = DRAGS_NOTHING;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static gboolean
key_cb (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state, gpointer user_data)
{
  FrTrunkPicture *self = FR_TRUNK_PICTURE (user_data);
  double far = state & GDK_SHIFT_MASK ? FAR_STEPS : 1;
  double across = 0, up = 0;

  if (!self->has_best || !(self->girth_m > 0) || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)))
    return FALSE;
  switch (key)
    {
    case GDK_KEY_Left:
    case GDK_KEY_KP_Left:
      across = -far;
      break;
    case GDK_KEY_Right:
    case GDK_KEY_KP_Right:
      across = far;
      break;
    case GDK_KEY_Up:
    case GDK_KEY_KP_Up:
      up = far;
      break;
    case GDK_KEY_Down:
    case GDK_KEY_KP_Down:
      up = -far;
      break;
    case GDK_KEY_Home:
    case GDK_KEY_KP_Home:
      fr_trunk_picture_reset (self);
      return TRUE;
    default:
      return FALSE;
    }
  put_place (self, self->place.angle_deg + across * 360 * STEP_M / self->girth_m,
             self->place.height_m + up * STEP_M, TRUE);
  return TRUE;
}

static void
fr_trunk_picture_dispose (GObject *object)
{
  FrTrunkPicture *self = FR_TRUNK_PICTURE (object);

  forget_holes (self);
  g_clear_object (&self->bush);
  G_OBJECT_CLASS (fr_trunk_picture_parent_class)->dispose (object);
}

static void
fr_trunk_picture_class_init (FrTrunkPictureClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = fr_trunk_picture_dispose;
  widget_class->snapshot = fr_trunk_picture_snapshot;
  widget_class->measure = fr_trunk_picture_measure;
  place_signal = g_signal_new ("place", FR_TYPE_TRUNK_PICTURE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                               G_TYPE_NONE, 1, G_TYPE_BOOLEAN);
  tap_moved_signal = g_signal_new ("tap-moved", FR_TYPE_TRUNK_PICTURE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 3, G_TYPE_INT64, G_TYPE_DOUBLE, G_TYPE_DOUBLE);
  tap_chosen_signal = g_signal_new ("tap-chosen", FR_TYPE_TRUNK_PICTURE, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                    NULL, G_TYPE_NONE, 1, G_TYPE_INT64);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
  gtk_widget_class_set_css_name (widget_class, "drawing");
}

static void
fr_trunk_picture_init (FrTrunkPicture *self)
{
  GtkGesture *drag = gtk_gesture_drag_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->dragged = DRAGS_NOTHING;
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  g_signal_connect (drag, "drag-begin", G_CALLBACK (drag_begin_cb), self);
  g_signal_connect (drag, "drag-update", G_CALLBACK (drag_update_cb), self);
  g_signal_connect (drag, "drag-end", G_CALLBACK (drag_end_cb), self);
  g_signal_connect (drag, "cancel", G_CALLBACK (drag_cancel_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drag));
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  g_signal_connect (self, "notify::has-focus", G_CALLBACK (gtk_widget_queue_draw), NULL);
  fr_theme_redraws (GTK_WIDGET (self));
}

GtkWidget *
fr_trunk_picture_new (void)
{
  return g_object_new (FR_TYPE_TRUNK_PICTURE, NULL);
}

void
fr_trunk_picture_set (FrTrunkPicture *self, FrSugarbush *bush, gint64 tree)
{
  const FrBush *records = fr_sugarbush_get_bush (bush);
  const FrBushTree *row = tree != 0 ? fr_bush_find (records, tree) : NULL;
  FrBushPlace best = { .angle_deg = NAN, .height_m = NAN };
  gboolean has_best = row != NULL && fr_bush_places (records, tree, 1, &best);
  gboolean same = tree == self->tree && has_best && self->has_best && best.angle_deg == self->best.angle_deg
                  && best.height_m == self->best.height_m
                  && best.clearance_ratio == self->best.clearance_ratio;

  g_set_object (&self->bush, bush);
  forget_holes (self);
  self->dragged = DRAGS_NOTHING;
  self->tree = row != NULL ? tree : 0;
  self->girth_m = row != NULL ? row->girth_m : NAN;
  self->has_best = has_best;
  self->best = best;
  if (row != NULL)
    read_holes (self);
  if (!same || !self->moved)
    {
      self->place = best;
      self->moved = FALSE;
    }
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

gboolean
fr_trunk_picture_get_place (FrTrunkPicture *self, FrBushPlace *place_out)
{
  *place_out = self->place;
  return self->has_best;
}

gboolean
fr_trunk_picture_is_best (FrTrunkPicture *self)
{
  return !self->moved;
}

void
fr_trunk_picture_reset (FrTrunkPicture *self)
{
  self->place = self->best;
  self->moved = FALSE;
  if (self->has_best)
    g_signal_emit (self, place_signal, 0, TRUE);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
fr_trunk_picture_set_spoken (FrTrunkPicture *self, const char *sentence)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, sentence, -1);
}
