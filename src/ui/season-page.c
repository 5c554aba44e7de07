/* The page's views and what stands in the header bar for them. Its state lives as long as the window does. */
#include "ui/season-page.h"

#include <glib/gi18n-lib.h>

#include "ui/calendar-view.h"
#include "ui/clock.h"
#include "ui/forecast-view.h"
#include "models/season-edit.h"
#include "models/season.h"
#include "ui/log-view.h"
#include "ui/night-day-dialog.h"
#include "ui/sap-dialogs.h"
#include "ui/scores-dialog.h"
#include "ui/season-files.h"
#include "ui/season-print.h"
#include "ui/store-view.h"
#include "ui/view-tabs.h"
#include "ui/weather-import-dialog.h"
#include "ui/weather-service-dialog.h"
#include "models/weather-transfer.h"
#include "words/weather-words.h"

#define NARROW_PX 800 /* four views and the longest button have room in the header bar from here on */
#define CLOCK_S 60

struct _FrSeasonPage
{
  FrFoldBin parent_instance;
  AdwViewStack *views;
  AdwViewSwitcherBar *bar;

  FrBook *book;
  FrSeason *season;
  FrForecaster *forecaster;
  FrCalendarKeeper *keeper;
  FrWeatherKeeper *weather;
  FrCalendarView *calendar;
  FrLogView *log;
  FrForecastView *forecast;
  GtkWidget *switcher;
  GtkWidget *action;
  GtkWidget *add_gathering;
  GtkWidget *add_air;
  GSimpleActionGroup *actions;
  gboolean narrow;
  guint clock_id;
};

G_DEFINE_FINAL_TYPE (FrSeasonPage, fr_season_page, FR_TYPE_FOLD_BIN)

static guint head_signal;

static void
add_view (FrSeasonPage *self, GtkWidget *view, const char *name, const char *title, const char *icon)
{
  adw_view_stack_add_titled (self->views, view, name, title);
  adw_view_stack_page_set_icon_name (adw_view_stack_get_page (self->views, view), icon);
}

static void
fr_season_page_fold (FrFoldBin *bin, int width_px)
{
  FrSeasonPage *self = FR_SEASON_PAGE (bin);
  g_autoptr (GtkSelectionModel) pages = adw_view_stack_get_pages (self->views);

  self->narrow = width_px < NARROW_PX;
  adw_view_switcher_bar_set_reveal (self->bar,
                                    self->narrow && g_list_model_get_n_items (G_LIST_MODEL (pages)) > 1);
  g_signal_emit (self, head_signal, 0);
}

static gboolean
shows_forecast (FrSeasonPage *self)
{
  return g_strcmp0 (adw_view_stack_get_visible_child_name (self->views), "forecast") == 0;
}

/* The forecast waits for weather, the other views for sap. */
static void
view_cb (FrSeasonPage *self)
{
  gboolean is_forecast = shows_forecast (self);

  if (self->switcher == NULL) /* the template is still being made, or gone */
    return;
  gtk_widget_set_visible (self->add_gathering, !is_forecast);
  gtk_widget_set_visible (self->add_air, is_forecast);
  g_signal_emit (self, head_signal, 0);
}

static void
head_cb (FrSeasonPage *self)
{
  g_signal_emit (self, head_signal, 0);
}

/* --- actions --- */

static void
add_gathering_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  FrSeasonPage *self = FR_SEASON_PAGE (user_data);

  fr_season_page_show_view (self, "log");
  fr_log_view_begin (self->log);
}

static void
add_air_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  FrSeasonPage *self = FR_SEASON_PAGE (user_data);

  fr_season_refresh (self->season);
  gtk_window_present (GTK_WINDOW (fr_night_day_dialog_new (fr_window_of (GTK_WIDGET (self)), self->season)));
}

static gint64
target_of (GVariant *parameter)
{
  return g_variant_get_int64 (parameter);
}

static void
pour (FrSeasonPage *self, GVariant *parameter, const char *reason)
{
  fr_sap_pour (fr_window_of (GTK_WIDGET (self)), self->season, target_of (parameter), reason);
}

static void
boil_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  pour (FR_SEASON_PAGE (user_data), parameter, "boiled");
}

static void
move_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  pour (FR_SEASON_PAGE (user_data), parameter, "moved");
}

static void
ice_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  pour (FR_SEASON_PAGE (user_data), parameter, "ice");
}

static void
lost_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  pour (FR_SEASON_PAGE (user_data), parameter, "spilled");
}

static void
look_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  FrSeasonPage *self = FR_SEASON_PAGE (user_data);

  fr_sap_look (fr_window_of (GTK_WIDGET (self)), self->season, target_of (parameter));
}

static void
add_container_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  fr_sap_add_container (fr_window_of (GTK_WIDGET (user_data)));
}

static void
edit_container_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  FrSeasonPage *self = FR_SEASON_PAGE (user_data);
  const FrRecord *container = fr_book_find (self->book, FR_KIND_CONTAINER, target_of (parameter));

  if (container != NULL)
    fr_sap_edit (fr_window_of (GTK_WIDGET (self)), self->season, container);
}

static void
recall_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  FrSeasonPage *self = FR_SEASON_PAGE (user_data);
  FrWindow *window = fr_window_of (GTK_WIDGET (self));
  FrChange *change = fr_season_edit_recall (self->book);

  if (change == NULL)
    fr_window_tell (window, _ ("No reminder was put away."));
  fr_window_finish (window, change, NULL);
}

static void
import_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  fr_season_import (fr_window_of (GTK_WIDGET (user_data)), FR_SEASON_PAGE (user_data)->season);
}

static void
import_weather_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  fr_weather_import_ask (fr_window_of (GTK_WIDGET (user_data)));
}

static void
weather_service_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  FrSeasonPage *self = FR_SEASON_PAGE (user_data);

  gtk_window_present (GTK_WINDOW (fr_weather_service_dialog_new (fr_window_of (GTK_WIDGET (self)), self->season, self->weather)));
}

static void
scores_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  FrSeasonPage *self = FR_SEASON_PAGE (user_data);

  gtk_window_present (GTK_WINDOW (fr_scores_dialog_new (fr_window_of (GTK_WIDGET (self)), self->forecaster)));
}

static void
export_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  fr_season_export (fr_window_of (GTK_WIDGET (user_data)), FR_SEASON_PAGE (user_data)->season,
                    g_strcmp0 (g_variant_get_string (parameter, NULL), "stock") == 0);
}

static void
show_view_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  fr_season_page_show_view (FR_SEASON_PAGE (user_data), g_variant_get_string (parameter, NULL));
}

static void
calendar_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  FrSeasonPage *self = FR_SEASON_PAGE (user_data);

  fr_season_page_show_view (self, "calendar");
  fr_calendar_view_show_month (self->calendar,
                               g_strcmp0 (g_variant_get_string (parameter, NULL), "month") == 0);
}

static void
print_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  FrSeasonPage *self = FR_SEASON_PAGE (user_data);

  FrWindow *window = fr_window_of (GTK_WIDGET (self));

  gtk_window_present (GTK_WINDOW (shows_forecast (self)
                                      ? fr_forecast_print_new (window, self->season, self->forecaster,
                                                               fr_forecast_view_get_scores (self->forecast))
                                      : fr_season_print_new (window, self->season)));
}

static void
next_view_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  fr_view_tabs_step (FR_SEASON_PAGE (user_data)->views, 1);
}

static void
previous_view_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  fr_view_tabs_step (FR_SEASON_PAGE (user_data)->views, -1);
}

/* The day before or after, of the log where it is shown. */
static void
step_day (FrSeasonPage *self, int by)
{
  FrGatherLog *log = fr_log_view_get_log (self->log);

  if (g_strcmp0 (adw_view_stack_get_visible_child_name (self->views), "log") != 0)
    fr_season_set_day (self->season, fr_date_add_days (fr_season_get_day (self->season), by));
  else if (fr_log_view_show_day (self->log, fr_date_add_days (fr_gather_log_get_day (log), by)))
    fr_log_view_begin (self->log);
}

static void
day_before_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  step_day (FR_SEASON_PAGE (user_data), -1);
}

static void
day_after_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  step_day (FR_SEASON_PAGE (user_data), 1);
}

static const GActionEntry entries[] = {
  { .name = "day-before", .activate = day_before_cb },
  { .name = "day-after", .activate = day_after_cb },
  { .name = "add-gathering", .activate = add_gathering_cb },
  { .name = "add-air", .activate = add_air_cb },
  { .name = "boil", .activate = boil_cb, .parameter_type = "x" },
  { .name = "move", .activate = move_cb, .parameter_type = "x" },
  { .name = "ice", .activate = ice_cb, .parameter_type = "x" },
  { .name = "lost", .activate = lost_cb, .parameter_type = "x" },
  { .name = "look", .activate = look_cb, .parameter_type = "x" },
  { .name = "add-container", .activate = add_container_cb },
  { .name = "edit-container", .activate = edit_container_cb, .parameter_type = "x" },
  { .name = "recall", .activate = recall_cb },
  { .name = "import", .activate = import_cb },
  { .name = "import-weather", .activate = import_weather_cb },
  { .name = "weather-service", .activate = weather_service_cb },
  { .name = "scores", .activate = scores_cb },
  { .name = "export", .activate = export_cb, .parameter_type = "s" },
  { .name = "view", .activate = show_view_cb, .parameter_type = "s" },
  { .name = "calendar", .activate = calendar_cb, .parameter_type = "s" },
  { .name = "print", .activate = print_cb },
  { .name = "next-view", .activate = next_view_cb },
  { .name = "previous-view", .activate = previous_view_cb },
};

/* A day of the calendar in the log. */
static void
open_log_cb (FrSeasonPage *self, gint64 day, guint round)
{
  FrGatherLog *log = fr_log_view_get_log (self->log);

  fr_season_page_show_view (self, "log");
  if (!fr_log_view_show_day (self->log, fr_date_from_days (day)))
    return;
  fr_gather_log_set_round (log, round);
  if (round == G_MAXUINT)
    fr_log_view_begin (self->log);
}

static GtkWidget *
suggested_button (const char *label, const char *action, const char *tooltip)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (label);

  gtk_widget_add_css_class (button, "suggested-action");
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_widget_set_tooltip_text (button, tooltip);
  return button;
}

static void
make_action (FrSeasonPage *self)
{
  GtkWidget *more = gtk_menu_button_new ();
  g_autoptr (GMenu) menu = g_menu_new ();

  self->add_gathering = suggested_button (_ ("_Add Gathering"), "season.add-gathering",
                                          _ ("Write Down What Was Gathered (Ctrl+N)"));
  self->add_air = suggested_button (_ ("_Add Night and Day"), "season.add-air",
                                    _ ("Write Down Last Night’s Low and the Day’s High (Ctrl+D)"));
  gtk_widget_set_visible (self->add_air, FALSE);
  self->action = g_object_ref_sink (gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6));
  gtk_box_append (GTK_BOX (self->action), self->add_gathering);
  gtk_box_append (GTK_BOX (self->action), self->add_air);
  g_menu_append (menu, _ ("_Import…"), "season.import");
  g_menu_append (menu, _ ("Import _Weather…"), "season.import-weather");
  g_menu_append (menu, _ ("Weather Ser_vice…"), "season.weather-service");
  g_menu_append (menu, _ ("Export _Gatherings…"), "season.export::gatherings");
  g_menu_append (menu, _ ("Export _Stock…"), "season.export::stock");
  g_menu_append (menu, _ ("Show _Reminders Put Away"), "season.recall");
  gtk_menu_button_set_icon_name (GTK_MENU_BUTTON (more), "view-more-symbolic");
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (more), G_MENU_MODEL (menu));
  gtk_widget_set_tooltip_text (more, _ ("Season"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (more), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Season"), -1);
  gtk_box_append (GTK_BOX (self->action), more);
}

/* --- the weather service --- */

/* Never a clock that is held: answers are dated by it. */
static gint64
wall_clock (const FrZoneTable *zone)
{
  return g_get_real_time () / G_USEC_PER_SEC;
}

static void
weather_arrived_cb (FrSeasonPage *self, GBytes *body)
{
  const char *name = fr_weather_service_name (fr_weather_keeper_get_state (self->weather)->service);
  g_autoptr (GError) error = NULL;

  if (!fr_book_keep_answer (self->book, body, fr_season_get_zone (self->season), name, wall_clock (NULL), &error))
    fr_window_show_error (fr_window_of (GTK_WIDGET (self)), error);
}

static void
weather_changed_cb (FrSeasonPage *self)
{
  g_autofree char *line = fr_fetch_line (fr_weather_keeper_get_state (self->weather), wall_clock (NULL),
                                         fr_season_get_say (self->season));

  fr_forecast_view_set_weather_line (self->forecast, line);
}

static void
watch_weather (FrSeasonPage *self)
{
  g_autofree char *folder = g_build_filename (g_get_user_cache_dir (), "frostrun", "weather", NULL);

  self->weather = fr_weather_keeper_new (self->book, wall_clock, folder, FR_VERSION);
  g_signal_connect_object (self->weather, "changed", G_CALLBACK (weather_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->weather, "arrived", G_CALLBACK (weather_arrived_cb), self, G_CONNECT_SWAPPED);
  weather_changed_cb (self);
}

/* A window may stay open from one day to the next. */
static gboolean
clock_cb (gpointer user_data)
{
  FrSeasonPage *self = FR_SEASON_PAGE (user_data);
  FrDate before = fr_season_get_today (self->season);

  fr_season_refresh (self->season);
  fr_forecaster_refresh (self->forecaster);
  if (fr_date_compare (before, fr_season_get_today (self->season)) != 0)
    fr_calendar_keeper_refresh (self->keeper);
  weather_changed_cb (self); /* it ages */
  return G_SOURCE_CONTINUE;
}

static void
fr_season_page_dispose (GObject *object)
{
  FrSeasonPage *self = FR_SEASON_PAGE (object);

  g_clear_handle_id (&self->clock_id, g_source_remove);
  if (self->keeper != NULL)
    fr_calendar_keeper_finish (self->keeper);

  g_clear_object (&self->switcher);
  adw_bin_set_child (ADW_BIN (self), NULL); /* first: the bin must not be left with a child that is gone */
  gtk_widget_dispose_template (GTK_WIDGET (self), FR_TYPE_SEASON_PAGE);
  g_clear_object (&self->action);
  g_clear_object (&self->actions);
  if (self->weather != NULL)
    g_object_run_dispose (G_OBJECT (self->weather)); /* a question that is out holds it */
  g_clear_object (&self->weather);
  g_clear_object (&self->keeper);
  g_clear_object (&self->forecaster);
  g_clear_object (&self->season);
  g_clear_object (&self->book);
  G_OBJECT_CLASS (fr_season_page_parent_class)->dispose (object);
}

static void
fr_season_page_class_init (FrSeasonPageClass *klass)
{
  static const int limits_px[] = { NARROW_PX, 0 };
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  FrFoldBinClass *bin_class = FR_FOLD_BIN_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = fr_season_page_dispose;
  bin_class->limits_px = limits_px;
  bin_class->fold = fr_season_page_fold;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/frostrun/Frostrun/ui/season-page.ui");
  gtk_widget_class_bind_template_child (widget_class, FrSeasonPage, views);
  gtk_widget_class_bind_template_child (widget_class, FrSeasonPage, bar);
  gtk_widget_class_bind_template_callback (widget_class, view_cb);
  head_signal = g_signal_new ("head-changed", FR_TYPE_SEASON_PAGE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                              G_TYPE_NONE, 0);
}

static void
fr_season_page_init (FrSeasonPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  make_action (self);
}

FrSeasonPage *
fr_season_page_new (FrBook *book, FrSugarbush *bush)
{
  FrSeasonPage *self = g_object_new (FR_TYPE_SEASON_PAGE, NULL);

  self->book = g_object_ref (book);
  self->season = fr_season_new (book, fr_clock_now);
  self->forecaster = fr_forecaster_new (book, fr_clock_now);
  fr_season_set_forecaster (self->season, self->forecaster);
  self->keeper = fr_calendar_keeper_new (book, fr_clock_now);
  self->actions = g_simple_action_group_new ();
  g_action_map_add_action_entries (G_ACTION_MAP (self->actions), entries, G_N_ELEMENTS (entries), self);
  self->calendar = FR_CALENDAR_VIEW (fr_calendar_view_new (self->season));
  g_signal_connect_object (self->calendar, "open-log", G_CALLBACK (open_log_cb), self, G_CONNECT_SWAPPED);
  add_view (self, GTK_WIDGET (self->calendar), "calendar", _ ("Calendar"), "fr-season-symbolic");
  self->log = FR_LOG_VIEW (fr_log_view_new (self->season, bush));
  add_view (self, GTK_WIDGET (self->log), "log", _ ("Log"), "fr-log-symbolic");
  add_view (self, fr_store_view_new (self->season, self->keeper), "store", _ ("Store"), "fr-store-symbolic");
  self->forecast = FR_FORECAST_VIEW (fr_forecast_view_new (self->season, self->forecaster));
  add_view (self, GTK_WIDGET (self->forecast), "forecast", _ ("Forecast"), "fr-forecast-symbolic");
  self->switcher = g_object_ref_sink (fr_view_tabs_new (self->views));
  g_signal_connect_object (self->season, "changed", G_CALLBACK (head_cb), self, G_CONNECT_SWAPPED);
  watch_weather (self);
  self->clock_id = g_timeout_add_seconds (CLOCK_S, clock_cb, self);
  return self;
}

FrSeason *
fr_season_page_get_season (FrSeasonPage *self)
{
  return self->season;
}

FrForecaster *
fr_season_page_get_forecaster (FrSeasonPage *self)
{
  return self->forecaster;
}

char *
fr_season_page_subtitle (FrSeasonPage *self)
{
  return g_strdup_printf (_ ("Season of %u"), fr_season_get_season (self->season));
}

GtkWidget *
fr_season_page_views (FrSeasonPage *self)
{
  return !self->narrow ? self->switcher : NULL;
}

GtkWidget *
fr_season_page_action (FrSeasonPage *self)
{
  return self->action;
}

GActionGroup *
fr_season_page_actions (FrSeasonPage *self)
{
  return G_ACTION_GROUP (self->actions);
}

void
fr_season_page_show_view (FrSeasonPage *self, const char *name)
{
  adw_view_stack_set_visible_child_name (self->views, name);
}
