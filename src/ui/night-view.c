/* The drawn night. The painter does the drawing; this widget gives it size, theme, and a selected moment. */
#include "ui/night-view.h"

#include <adwaita.h>
#include <math.h>

#include "ui/drawing.h"
#include "ui/night-trace.h"
#include "ui/theme.h"

#define STEP_S 600.0
#define PAGE_S 3600.0

struct _FrNightView
{
  GtkWidget parent_instance;
  const FrPlan *plan;
  const FrPlanInput *input;
  const FrSay *say;
  guint share;
  FrNightTrace *trace;
  FrTraceFrame frame;
  double selected_s;
  double pointer_x_px;
};

G_DEFINE_FINAL_TYPE (FrNightView, fr_night_view, GTK_TYPE_WIDGET)

static guint moment_signal;

static void
select_moment (FrNightView *self, double time_s)
{
  g_autofree char *sentence = NULL;

  if (self->trace == NULL)
    return;
  if (!isnan (time_s))
    {
      const FrTraceView *view = fr_night_trace_view (self->trace);

      time_s = CLAMP (time_s, view->from_s, view->to_s);
      sentence = fr_trace_read_out (self->plan, self->input, self->share, time_s, self->say);
      if (sentence == NULL)
        time_s = NAN;
    }
  self->selected_s = time_s;
  fr_night_trace_view (self->trace)->selected_s = time_s;
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  sentence != NULL ? sentence : fr_night_trace_words (self->trace)->spoken,
                                  -1);
  g_signal_emit (self, moment_signal, 0, sentence);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
motion_cb (GtkEventControllerMotion *controller, double x, double y, gpointer user_data)
{
  FrNightView *self = FR_NIGHT_VIEW (user_data);
  gboolean rested = isnan (self->pointer_x_px) || x == self->pointer_x_px;
  double time_s;

  /* The window opening under a pointer, or a new layout, makes GTK tell where it rests; only a moving one
   * takes the moment, also from the keys. */
  self->pointer_x_px = x;
  if (rested)
    return;
  if (fr_trace_time_from_x (&self->frame, x, &time_s))
    select_moment (self, time_s);
}

static void
pressed_cb (GtkGestureClick *gesture, int n_press, double x, double y, gpointer user_data)
{
  FrNightView *self = FR_NIGHT_VIEW (user_data);
  double time_s;

  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (fr_trace_time_from_x (&self->frame, x, &time_s))
    select_moment (self, time_s);
}

static gboolean
key_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state,
        gpointer user_data)
{
  FrNightView *self = FR_NIGHT_VIEW (user_data);
  const FrTraceView *view;
  double at;

  if (self->trace == NULL || self->plan->status != FR_PLAN_OK)
    return FALSE;
  view = fr_night_trace_view (self->trace);
  at = isnan (self->selected_s) ? 0 : self->selected_s;
  switch (keyval)
    {
    case GDK_KEY_Left:
      select_moment (self, at - STEP_S);
      return TRUE;
    case GDK_KEY_Right:
      select_moment (self, at + STEP_S);
      return TRUE;
    case GDK_KEY_Page_Up:
      select_moment (self, at - PAGE_S);
      return TRUE;
    case GDK_KEY_Page_Down:
      select_moment (self, at + PAGE_S);
      return TRUE;
    case GDK_KEY_Home:
      select_moment (self, MAX (0, view->from_s));
      return TRUE;
    case GDK_KEY_End:
      select_moment (self, self->plan->shares[self->share].run.time_s);
      return TRUE;
    case GDK_KEY_Escape:
      if (isnan (self->selected_s))
        return FALSE;
      select_moment (self, NAN);
      return TRUE;
    default:
      return FALSE;
    }
}

static void
fr_night_view_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                       int *natural, int *minimum_baseline, int *natural_baseline)
{
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 360 : 232;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 700 : 300;
}

static void
fr_night_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  FrNightView *self = FR_NIGHT_VIEW (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  PangoContext *context = gtk_widget_get_pango_context (widget);
  FrPalette palette = fr_theme_palette ();
  cairo_t *cr;

  if (self->trace == NULL || width <= 0 || height <= 0)
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  fr_trace_draw (cr, context, &palette, fr_night_trace_view (self->trace), width, height,
                 fr_text_scale_of_context (context), &self->frame, NULL);
  cairo_destroy (cr);
}

static void
fr_night_view_finalize (GObject *object)
{
  FrNightView *self = FR_NIGHT_VIEW (object);

  g_clear_pointer (&self->trace, fr_night_trace_free);
  G_OBJECT_CLASS (fr_night_view_parent_class)->finalize (object);
}

static void
fr_night_view_class_init (FrNightViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = fr_night_view_finalize;
  widget_class->measure = fr_night_view_measure;
  widget_class->snapshot = fr_night_view_snapshot;
  fr_drawing_class_init (widget_class);
  moment_signal = g_signal_new ("moment", FR_TYPE_NIGHT_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void
fr_night_view_init (FrNightView *self)
{
  GtkEventController *motion = gtk_event_controller_motion_new (), *keys = gtk_event_controller_key_new ();
  GtkGesture *click = gtk_gesture_click_new ();

  self->selected_s = self->pointer_x_px = NAN;
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  g_signal_connect (motion, "motion", G_CALLBACK (motion_cb), self);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_cb), self);
  g_signal_connect (click, "pressed", G_CALLBACK (pressed_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), motion);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (click));
  fr_theme_redraws (GTK_WIDGET (self));
}

GtkWidget *
fr_night_view_new (void)
{
  return g_object_new (FR_TYPE_NIGHT_VIEW, NULL);
}

void
fr_night_view_set (FrNightView *self, const FrPlan *plan, const FrPlanInput *input, guint share,
                   const FrSay *say)
{
  double selected_s = self->selected_s;

  g_clear_pointer (&self->trace, fr_night_trace_free);
  self->plan = plan;
  self->input = input;
  self->say = say;
  self->share = share;
  if (plan != NULL)
    self->trace = fr_night_trace_new (plan, input, share, say);
  select_moment (self, selected_s);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
