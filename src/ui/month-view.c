/* The painter draws the month; this gives it size and theme, and turns pointer and keys into days and months.
 */
#include "ui/month-view.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "ui/drawing.h"
#include "ui/theme.h"

struct _FrMonthView
{
  GtkWidget parent_instance;
  FrSeasonScene *scene; /* NULL: nothing to draw */
  FrDate month;         /* its first day; year 0: none yet */
  guint season;         /* that it was chosen for */
  FrDate selected;
  FrDate hovered;
  FrMonthLayout layout;
};

G_DEFINE_FINAL_TYPE (FrMonthView, fr_month_view, GTK_TYPE_WIDGET)

static guint selected_signal, activated_signal, month_signal;

static FrDate
first_of (FrDate date)
{
  return (FrDate){ date.year, date.month, 1 };
}

static FrDate
last_of (FrDate date)
{
  return fr_date_add_days (fr_day_add_months (first_of (date), 1), -1);
}

static gboolean
is_in_season (FrMonthView *self, FrDate month)
{
  return self->scene != NULL
         && fr_date_compare (last_of (month), fr_season_first_day (self->scene->view->season)) >= 0
         && fr_date_compare (month, fr_season_last_day (self->scene->view->season)) <= 0;
}

static void
say_selected (FrMonthView *self)
{
  gssize at = self->scene != NULL ? fr_season_scene_find (self->scene, self->selected) : -1;
  g_autofree char *name = self->month.year != 0 ? fr_season_month_title (self->month) : NULL;
  g_autofree char *bare = NULL;
  const char *spoken = name != NULL ? name : _ ("Month");

  if (at >= 0)
    spoken = self->scene->spoken->pdata[at];
  else if (self->selected.year != 0 && self->scene != NULL)
    spoken = bare = fr_say_date (self->selected);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
show_month (FrMonthView *self, FrDate month)
{
  if (fr_date_compare (month, self->month) == 0)
    return;
  self->month = month;
  self->hovered = (FrDate){ 0, 0, 0 };
  say_selected (self);
  g_signal_emit (self, month_signal, 0);
}

static void
select_day (FrMonthView *self, FrDate date)
{
  if (fr_date_compare (date, self->selected) == 0)
    return;
  self->selected = date;
  if (date.year != 0)
    show_month (self, first_of (date));
  say_selected (self);
  g_signal_emit (self, selected_signal, 0, date.year != 0 ? fr_date_to_days (date) : FR_NO_DAY);
}

static void
activate (FrMonthView *self)
{
  if (self->selected.year != 0)
    g_signal_emit (self, activated_signal, 0, fr_date_to_days (self->selected));
}

static void
hover (FrMonthView *self, FrDate date)
{
  if (fr_date_compare (date, self->hovered) == 0)
    return;
  self->hovered = date;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static FrDate
day_at (FrMonthView *self, double x, double y)
{
  FrDate date = { 0, 0, 0 };

  if (self->scene != NULL && fr_month_layout_at (&self->layout, x, y, &date))
    return date;
  return (FrDate){ 0, 0, 0 };
}

static void
motion_cb (GtkEventControllerMotion *controller, double x, double y, gpointer user_data)
{
  FrMonthView *self = FR_MONTH_VIEW (user_data);

  hover (self, day_at (self, x, y));
}

static void
leave_cb (GtkEventControllerMotion *controller, gpointer user_data)
{
  hover (FR_MONTH_VIEW (user_data), (FrDate){ 0, 0, 0 });
}

static void
pressed_cb (GtkGestureClick *gesture, int n_press, double x, double y, gpointer user_data)
{
  FrMonthView *self = FR_MONTH_VIEW (user_data);
  FrDate date = day_at (self, x, y);

  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (date.year == 0)
    return;
  select_day (self, date);
  if (n_press == 2)
    activate (self);
}

/* Where the keys begin when no day is selected: today if its month is shown, else the month's first. */
static FrDate
start_day (FrMonthView *self)
{
  FrDate today = self->scene->month.today;

  return today.year == self->month.year && today.month == self->month.month ? today : self->month;
}

static gboolean
key_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state,
        gpointer user_data)
{
  FrMonthView *self = FR_MONTH_VIEW (user_data);
  gboolean has = self->selected.year != 0;
  FrDate from, to;

  if (self->scene == NULL || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return FALSE;
  if (keyval == GDK_KEY_Escape)
    {
      if (has)
        select_day (self, (FrDate){ 0, 0, 0 });
      return has;
    }
  from = has ? self->selected : start_day (self);
  if (keyval == GDK_KEY_Return || keyval == GDK_KEY_KP_Enter || keyval == GDK_KEY_ISO_Enter)
    {
      select_day (self, from);
      activate (self);
      return TRUE;
    }
  if (!fr_day_walk (keyval, from, fr_season_first_day (self->scene->view->season),
                    fr_season_last_day (self->scene->view->season), first_of (from), last_of (from), TRUE,
                    gtk_widget_get_direction (GTK_WIDGET (self)) == GTK_TEXT_DIR_RTL, &to))
    return FALSE;
  /* The first key on a month without a selection shows where one is. */
  if (!has && keyval != GDK_KEY_Home && keyval != GDK_KEY_End && keyval != GDK_KEY_Page_Up
      && keyval != GDK_KEY_Page_Down)
    to = from;
  select_day (self, to);
  return TRUE;
}

static void
fr_month_view_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                       int *natural, int *minimum_baseline, int *natural_baseline)
{
  double scale = fr_text_scale_of_context (gtk_widget_get_pango_context (widget));

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = 340;
      *natural = (int)ceil (7 * (FR_MONTH_CELL_WIDTH_PX + 8) * scale);
    }
  else
    {
      *minimum = (int)ceil (280 * scale);
      *natural = (int)ceil ((6 * (FR_MONTH_CELL_HEIGHT_PX + 8) + 40) * scale);
    }
}

static void
fr_month_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  FrMonthView *self = FR_MONTH_VIEW (widget);
  const int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  PangoContext *context = gtk_widget_get_pango_context (widget);
  FrPalette palette = fr_theme_palette ();
  FrMonth month;
  cairo_t *cr;

  if (self->scene == NULL || self->month.year == 0 || width <= 0 || height <= 0)
    return;
  month = self->scene->month;
  month.year = self->month.year;
  month.month = self->month.month;
  month.selected = self->selected;
  month.hovered = self->hovered;
  month.is_focused = gtk_widget_has_visible_focus (widget);
  month.right_to_left = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  self->layout = fr_month_draw (cr, context, &palette, &month, width, height,
                                fr_text_scale_of_context (context), NULL);
  cairo_destroy (cr);
}

static void
fr_month_view_finalize (GObject *object)
{
  fr_season_scene_free (FR_MONTH_VIEW (object)->scene);
  G_OBJECT_CLASS (fr_month_view_parent_class)->finalize (object);
}

static void
fr_month_view_class_init (FrMonthViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = fr_month_view_finalize;
  widget_class->measure = fr_month_view_measure;
  widget_class->snapshot = fr_month_view_snapshot;
  fr_drawing_class_init (widget_class);
  selected_signal = g_signal_new ("day-selected", FR_TYPE_MONTH_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 1, G_TYPE_INT64);
  activated_signal = g_signal_new ("day-activated", FR_TYPE_MONTH_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 1, G_TYPE_INT64);
  month_signal = g_signal_new ("month-changed", FR_TYPE_MONTH_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                               G_TYPE_NONE, 0);
}

static void
fr_month_view_init (FrMonthView *self)
{
  fr_drawing_listen (GTK_WIDGET (self), G_CALLBACK (motion_cb), G_CALLBACK (leave_cb), G_CALLBACK (pressed_cb),
                     G_CALLBACK (key_cb));
  say_selected (self);
}

GtkWidget *
fr_month_view_new (void)
{
  return g_object_new (FR_TYPE_MONTH_VIEW, NULL);
}

/* Today's, else that of the last day with something in it. */
static FrDate
usual_month (const FrSeasonView *view)
{
  if (view->today >= 0)
    return first_of (view->days[view->today].date);
  for (guint i = view->n_days; i-- > 0;)
    if (view->days[i].n_gatherings > 0 || view->days[i].n_boils > 0)
      return first_of (view->days[i].date);
  return first_of (view->first);
}

void
fr_month_view_set (FrMonthView *self, const FrSeasonView *view, const FrSay *say)
{
  g_clear_pointer (&self->scene, fr_season_scene_free);
  self->hovered = (FrDate){ 0, 0, 0 };
  if (view != NULL)
    {
      self->scene = fr_season_scene_new (view, NULL, say);
      if (self->month.year == 0 || view->season != self->season)
        {
          self->season = view->season;
          show_month (self, usual_month (view));
        }
    }
  say_selected (self);
}

void
fr_month_view_set_selected (FrMonthView *self, FrDate date)
{
  if (fr_date_compare (date, self->selected) == 0)
    return;
  self->selected = date;
  if (date.year != 0 && is_in_season (self, first_of (date)))
    show_month (self, first_of (date));
  say_selected (self);
}

FrDate
fr_month_view_get_selected (FrMonthView *self)
{
  return self->selected;
}

FrDate
fr_month_view_get_month (FrMonthView *self)
{
  return self->month;
}

void
fr_month_view_set_month (FrMonthView *self, FrDate first)
{
  if (fr_date_is_valid (first_of (first)) && is_in_season (self, first_of (first)))
    show_month (self, first_of (first));
}

gboolean
fr_month_view_can_step (FrMonthView *self, gint months)
{
  return self->month.year != 0 && is_in_season (self, fr_day_add_months (self->month, months));
}

void
fr_month_view_step (FrMonthView *self, gint months)
{
  if (fr_month_view_can_step (self, months))
    show_month (self, fr_day_add_months (self->month, months));
}

gboolean
fr_month_view_get_day (FrMonthView *self, FrDate date, GdkRectangle *day_out)
{
  cairo_rectangle_t cell;

  if (self->scene == NULL || !fr_month_layout_cell (&self->layout, date, &cell))
    return FALSE;
  *day_out = (GdkRectangle){ (int)cell.x, (int)cell.y, (int)ceil (cell.width), (int)ceil (cell.height) };
  return TRUE;
}
