/* The painter draws the season; this gives it size and theme, and turns pointer and keys into days. */
#include "ui/season-strip-view.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "ui/drawing.h"
#include "ui/theme.h"

struct _FrSeasonStripView
{
  GtkWidget parent_instance;
  FrSeasonScene *scene; /* NULL: nothing to draw */
  FrDate selected;
  char *selected_label;
  gssize hovered;
  FrSeasonLayout layout;
};

G_DEFINE_FINAL_TYPE (FrSeasonStripView, fr_season_strip_view, GTK_TYPE_WIDGET)

static guint selected_signal, activated_signal;

static gssize
selected_at (FrSeasonStripView *self)
{
  return self->scene != NULL ? fr_season_scene_find (self->scene, self->selected) : -1;
}

static void
say_selected (FrSeasonStripView *self)
{
  const gssize at = selected_at (self);
  const char *spoken = self->scene == NULL ? _ ("Season")
                       : at >= 0           ? self->scene->spoken->pdata[at]
                                           : self->scene->words->spoken;

  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
keep_selected (FrSeasonStripView *self, FrDate date)
{
  self->selected = date;
  g_free (self->selected_label);
  self->selected_label = date.year != 0 ? fr_season_day_label (date) : NULL;
  say_selected (self);
}

static void
select_day (FrSeasonStripView *self, FrDate date)
{
  if (fr_date_compare (date, self->selected) == 0)
    return;
  keep_selected (self, date);
  g_signal_emit (self, selected_signal, 0, date.year != 0 ? fr_date_to_days (date) : FR_NO_DAY);
}

static void
activate (FrSeasonStripView *self)
{
  if (selected_at (self) >= 0)
    g_signal_emit (self, activated_signal, 0, fr_date_to_days (self->selected));
}

static void
hover (FrSeasonStripView *self, gssize day)
{
  if (day == self->hovered)
    return;
  self->hovered = day;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static gssize
day_at (FrSeasonStripView *self, double x, double y)
{
  guint day;

  if (self->scene == NULL || !fr_season_layout_at (&self->layout, x, y, &day, NULL)
      || day >= self->scene->view->n_days)
    return -1;
  return day;
}

static void
motion_cb (GtkEventControllerMotion *controller, double x, double y, gpointer user_data)
{
  FrSeasonStripView *self = FR_SEASON_STRIP_VIEW (user_data);

  hover (self, day_at (self, x, y));
}

static void
leave_cb (GtkEventControllerMotion *controller, gpointer user_data)
{
  hover (FR_SEASON_STRIP_VIEW (user_data), -1);
}

static void
pressed_cb (GtkGestureClick *gesture, int n_press, double x, double y, gpointer user_data)
{
  FrSeasonStripView *self = FR_SEASON_STRIP_VIEW (user_data);
  const gssize day = day_at (self, x, y);

  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (day < 0)
    return;
  select_day (self, self->scene->view->days[day].date);
  if (n_press == 2)
    activate (self);
}

/* Where the keys begin when no day is selected: today, else the last day. */
static FrDate
start_day (const FrSeasonView *view)
{
  return view->days[view->today >= 0 ? (guint)view->today : view->n_days - 1].date;
}

static gboolean
key_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state,
        gpointer user_data)
{
  FrSeasonStripView *self = FR_SEASON_STRIP_VIEW (user_data);
  const FrSeasonView *view = self->scene != NULL ? self->scene->view : NULL;
  FrDate first, last, to;

  if (view == NULL || view->n_days == 0 || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return FALSE;
  if (keyval == GDK_KEY_Escape)
    {
      if (self->selected.year == 0)
        return FALSE;
      select_day (self, (FrDate){ 0, 0, 0 });
      return TRUE;
    }
  if (keyval == GDK_KEY_Return || keyval == GDK_KEY_KP_Enter || keyval == GDK_KEY_ISO_Enter)
    {
      if (selected_at (self) < 0)
        select_day (self, start_day (view));
      activate (self);
      return TRUE;
    }
  first = view->days[0].date;
  last = view->days[view->n_days - 1].date;
  if (!fr_day_walk (keyval, selected_at (self) >= 0 ? self->selected : start_day (view), first, last, first,
                    last, FALSE, FALSE, &to))
    return FALSE;
  /* The first key on a drawing without a selection shows where one is. */
  if (selected_at (self) < 0 && keyval != GDK_KEY_Home && keyval != GDK_KEY_End)
    to = start_day (view);
  select_day (self, to);
  return TRUE;
}

static void
fr_season_strip_view_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                              int *natural, int *minimum_baseline, int *natural_baseline)
{
  double scale = fr_text_scale_of_context (gtk_widget_get_pango_context (widget));

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = 340;
      *natural = 724;
    }
  else
    {
      /* Lower than this it would be but a line or two; under the other all lanes have room. */
      *minimum = (int)ceil (300 * scale);
      *natural = MAX ((int)ceil (1.3 * fr_season_strip_least_height_px (scale)), 560);
    }
}

static void
fr_season_strip_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  FrSeasonStripView *self = FR_SEASON_STRIP_VIEW (widget);
  const int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  PangoContext *context = gtk_widget_get_pango_context (widget);
  FrPalette palette = fr_theme_palette ();
  FrSeasonStrip strip;
  cairo_t *cr;

  if (self->scene == NULL || width <= 0 || height <= 0)
    return;
  strip = self->scene->strip;
  strip.selected = selected_at (self);
  strip.selected_label = self->selected_label;
  strip.hovered = self->hovered;
  strip.is_focused = gtk_widget_has_visible_focus (widget);
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  self->layout = fr_season_strip_draw (cr, context, &palette, &strip, width, height,
                                       fr_text_scale_of_context (context), NULL);
  cairo_destroy (cr);
}

static void
fr_season_strip_view_finalize (GObject *object)
{
  FrSeasonStripView *self = FR_SEASON_STRIP_VIEW (object);

  fr_season_scene_free (self->scene);
  g_free (self->selected_label);
  G_OBJECT_CLASS (fr_season_strip_view_parent_class)->finalize (object);
}

static void
fr_season_strip_view_class_init (FrSeasonStripViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = fr_season_strip_view_finalize;
  widget_class->measure = fr_season_strip_view_measure;
  widget_class->snapshot = fr_season_strip_view_snapshot;
  fr_drawing_class_init (widget_class);
  selected_signal = g_signal_new ("day-selected", FR_TYPE_SEASON_STRIP_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 1, G_TYPE_INT64);
  activated_signal = g_signal_new ("day-activated", FR_TYPE_SEASON_STRIP_VIEW, G_SIGNAL_RUN_LAST, 0, NULL,
                                   NULL, NULL, G_TYPE_NONE, 1, G_TYPE_INT64);
}

static void
fr_season_strip_view_init (FrSeasonStripView *self)
{
  self->hovered = -1;
  fr_drawing_listen (GTK_WIDGET (self), G_CALLBACK (motion_cb), G_CALLBACK (leave_cb), G_CALLBACK (pressed_cb),
                     G_CALLBACK (key_cb));
  say_selected (self);
}

GtkWidget *
fr_season_strip_view_new (void)
{
  return g_object_new (FR_TYPE_SEASON_STRIP_VIEW, NULL);
}

void
fr_season_strip_view_set (FrSeasonStripView *self, const FrSeasonView *view, const GPtrArray *past,
                          const FrSay *say)
{
  g_clear_pointer (&self->scene, fr_season_scene_free);
  self->hovered = -1;
  if (view != NULL)
    self->scene = fr_season_scene_new (view, past, say);
  say_selected (self);
}

void
fr_season_strip_view_set_selected (FrSeasonStripView *self, FrDate date)
{
  if (fr_date_compare (date, self->selected) != 0)
    keep_selected (self, date);
}

FrDate
fr_season_strip_view_get_selected (FrSeasonStripView *self)
{
  return self->selected;
}

gboolean
fr_season_strip_view_get_day (FrSeasonStripView *self, FrDate date, GdkRectangle *day_out)
{
  gssize at = self->scene != NULL ? fr_season_scene_find (self->scene, date) : -1;
  cairo_rectangle_t box;

  if (at < 0 || !fr_season_layout_day (&self->layout, (guint)at, &box))
    return FALSE;
  *day_out = (GdkRectangle){ (int)box.x, (int)box.y, MAX ((int)ceil (box.width), 1), (int)box.height };
  return TRUE;
}
