/* The painter draws the curve; this gives it size, theme and the number of buckets that is looked at. */
#include "ui/sugar-curve.h"

#include <adwaita.h>
#include <glib/gi18n-lib.h>
#include <math.h>

#include "paint/curve.h"
#include "ui/drawing.h"
#include "ui/theme.h"
#include "words/plan-tree-words.h"

#define PAGE_BUCKETS 10
#define NONE (-1)

struct _FrSugarCurve
{
  GtkWidget parent_instance;
  GArray *points; /* FrCurvePoint, sugar as it is shown */
  GPtrArray *sentences;
  char *chosen_label;
  char *looked_label;
  char *limit_label;
  char *empty;
  const char *unit;
  char mark[2];
  gssize chosen;
  gssize looked;
  double limit_x;
  double pointer_x_px;
  FrCurveFrame frame;
};

G_DEFINE_FINAL_TYPE (FrSugarCurve, fr_sugar_curve, GTK_TYPE_WIDGET)

static guint looked_signal, taken_signal;

static FrCurveView
view_of (FrSugarCurve *self)
{
  return (FrCurveView){
    .points = (const FrCurvePoint *)(gpointer)self->points->data,
    .n_points = self->points->len,
    .chosen = self->looked != NONE ? self->looked : self->chosen,
    .chosen_label = self->looked != NONE ? self->looked_label : self->chosen_label,
    .limit_x = self->limit_x,
    .limit_label = self->limit_label,
    .x_name = _ ("buckets"),
    .y_unit = self->unit,
    .decimal_mark = self->mark,
    .empty_sentence = self->empty,
    .role = FR_ROLE_SYRUP,
  };
}

static char *
label_at (FrSugarCurve *self, gssize at)
{
  const double sugar = g_array_index (self->points, FrCurvePoint, at).y;
  g_autofree char *number = NULL;

  if (isnan (sugar))
    return NULL;
  number = g_strdup_printf (sugar < 10 ? "%.2f" : "%.1f", sugar);
  if (self->mark[0] == ',')
    g_strdelimit (number, ".", ',');
  /* Translators: "20 buckets, 12.4 kg" */
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u bucket, %s %s", "%u buckets, %s %s", (gulong)at),
                          (guint)at, number, self->unit);
}

static const char *
sentence_at (FrSugarCurve *self, gssize at)
{
  return at >= 0 && (guint)at < self->sentences->len ? self->sentences->pdata[at] : NULL;
}

static void
look_at (FrSugarCurve *self, gssize at)
{
  const char *spoken;

  if (self->points->len == 0)
    at = NONE;
  if (at != NONE)
    at = CLAMP (at, 0, (gssize)self->points->len - 1);
  self->looked = at;
  g_free (self->looked_label);
  self->looked_label = at != NONE ? label_at (self, at) : NULL;
  spoken = sentence_at (self, at != NONE ? at : self->chosen);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  spoken != NULL ? spoken : _ ("Sugar against buckets"), -1);
  g_signal_emit (self, looked_signal, 0, sentence_at (self, at));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
take (FrSugarCurve *self)
{
  const gssize at = self->looked;

  if (at == NONE || isnan (g_array_index (self->points, FrCurvePoint, at).y))
    return;
  g_signal_emit (self, taken_signal, 0, (guint)at);
}

static void
motion_cb (GtkEventControllerMotion *controller, double x, double y, gpointer user_data)
{
  FrSugarCurve *self = FR_SUGAR_CURVE (user_data);
  FrCurveView view = view_of (self);
  gboolean rested = isnan (self->pointer_x_px) || x == self->pointer_x_px;

  /* A layout tells where the pointer rests; only a moving one looks elsewhere. */
  self->pointer_x_px = x;
  if (!rested && self->points->len > 0)
    look_at (self, fr_curve_at (&self->frame, &view, x));
}

static void
pressed_cb (GtkGestureClick *gesture, int n_press, double x, double y, gpointer user_data)
{
  FrSugarCurve *self = FR_SUGAR_CURVE (user_data);
  FrCurveView view = view_of (self);

  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (self->points->len == 0)
    return;
  look_at (self, fr_curve_at (&self->frame, &view, x));
  if (n_press == 2)
    take (self);
}

static gboolean
key_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state,
        gpointer user_data)
{
  FrSugarCurve *self = FR_SUGAR_CURVE (user_data);
  const gssize at = self->looked != NONE ? self->looked : MAX (self->chosen, 0);

  if (self->points->len == 0 || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return FALSE;
  switch (keyval)
    {
    case GDK_KEY_Left:
      look_at (self, MAX (at - 1, 0));
      return TRUE;
    case GDK_KEY_Right:
      look_at (self, at + 1);
      return TRUE;
    case GDK_KEY_Page_Up:
      look_at (self, MAX (at - PAGE_BUCKETS, 0));
      return TRUE;
    case GDK_KEY_Page_Down:
      look_at (self, at + PAGE_BUCKETS);
      return TRUE;
    case GDK_KEY_Home:
      look_at (self, 0);
      return TRUE;
    case GDK_KEY_End:
      look_at (self, (gssize)self->points->len - 1);
      return TRUE;
    case GDK_KEY_Return:
    case GDK_KEY_KP_Enter:
      take (self);
      return TRUE;
    case GDK_KEY_Escape:
      if (self->looked == NONE)
        return FALSE;
      look_at (self, NONE);
      return TRUE;
    default:
      return FALSE;
    }
}

static void
fr_sugar_curve_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                        int *natural, int *minimum_baseline, int *natural_baseline)
{
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 240 : 180;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 600 : 220;
}

static void
fr_sugar_curve_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  FrSugarCurve *self = FR_SUGAR_CURVE (widget);
  const int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  PangoContext *context = gtk_widget_get_pango_context (widget);
  FrPalette palette = fr_theme_palette ();
  FrCurveView view = view_of (self);
  cairo_t *cr;

  if (width <= 0 || height <= 0)
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  self->frame
      = fr_curve_draw (cr, context, &palette, &view, width, height, fr_text_scale_of_context (context), NULL);
  cairo_destroy (cr);
}

static void
fr_sugar_curve_finalize (GObject *object)
{
  FrSugarCurve *self = FR_SUGAR_CURVE (object);

  g_array_unref (self->points);
  g_ptr_array_unref (self->sentences);
  g_free (self->chosen_label);
  g_free (self->looked_label);
  g_free (self->limit_label);
  g_free (self->empty);
  G_OBJECT_CLASS (fr_sugar_curve_parent_class)->finalize (object);
}

static void
fr_sugar_curve_class_init (FrSugarCurveClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = fr_sugar_curve_finalize;
  widget_class->measure = fr_sugar_curve_measure;
  widget_class->snapshot = fr_sugar_curve_snapshot;
  fr_drawing_class_init (widget_class);
  looked_signal = g_signal_new ("looked", FR_TYPE_SUGAR_CURVE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 1, G_TYPE_STRING);
  taken_signal = g_signal_new ("taken", FR_TYPE_SUGAR_CURVE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                               G_TYPE_NONE, 1, G_TYPE_UINT);
}

static void
fr_sugar_curve_init (FrSugarCurve *self)
{
  self->points = g_array_new (FALSE, FALSE, sizeof (FrCurvePoint));
  self->sentences = g_ptr_array_new_with_free_func (g_free);
  self->chosen = self->looked = NONE;
  self->limit_x = self->pointer_x_px = NAN;
  self->empty = g_strdup (_ ("Say how many buckets there are, and the curve shows what more would bring."));
  fr_drawing_listen (GTK_WIDGET (self), G_CALLBACK (motion_cb), NULL, G_CALLBACK (pressed_cb), G_CALLBACK (key_cb));
}

GtkWidget *
fr_sugar_curve_new (void)
{
  return g_object_new (FR_TYPE_SUGAR_CURVE, NULL);
}

void
fr_sugar_curve_set (FrSugarCurve *self, const FrBushPlan *plan, guint buckets, const FrSay *say)
{
  const guint n = plan != NULL && plan->code == FR_BUSH_PLAN_OK ? plan->curve->len : 0;

  g_array_set_size (self->points, 0);
  g_ptr_array_set_size (self->sentences, 0);
  self->unit = fr_quantity_unit (FR_QUANTITY_MASS, &say->units);
  self->mark[0] = say->units.decimal_mark;
  for (guint i = 0; i < n; i++)
    {
      const double kg = g_array_index (plan->curve, double, i);
      FrCurvePoint point = { i, fr_quantity_to_shown (kg, FR_QUANTITY_MASS, &say->units) };

      g_array_append_val (self->points, point);
      g_ptr_array_add (self->sentences, fr_plan_curve_words (plan, i, say));
    }
  self->chosen = n > 0 ? (gssize)MIN (buckets, n - 1) : NONE;
  g_free (self->chosen_label);
  self->chosen_label = self->chosen != NONE ? label_at (self, self->chosen) : NULL;
  g_clear_pointer (&self->limit_label, g_free);
  self->limit_x = n > 0 && plan->kitchen_from_buckets > 0 ? plan->kitchen_from_buckets : NAN;
  if (!isnan (self->limit_x))
    self->limit_label = g_strdup (_ ("the kitchen’s limit"));
  look_at (self, NONE);
}
