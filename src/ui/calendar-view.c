/* The calendar. Picture, month and panel show the model's day; what is drawn is made only while it is seen.
 */
#include "ui/calendar-view.h"

#include <glib/gi18n-lib.h>

#include "ui/day-panel.h"
#include "ui/kit-checklist.h"
#include "ui/month-view.h"
#include "ui/pieces.h"
#include "ui/season-strip-view.h"
#include "ui/side-pane.h"
#include "ui/tonight-answer.h"
#include "ui/window.h"
#include "ui/wrap-layout.h"
#include "words/reminder-words.h"
#include "words/season-words.h"

#define DRAWING_LEAST_PX 300

struct _FrCalendarView
{
  AdwBin parent_instance;
  FrSeason *season;
  GtkWidget *answer;
  GtkWidget *season_label;
  GtkWidget *season_later;
  GtkWidget *month_bar;
  GtkWidget *month_label;
  GtkWidget *month_earlier;
  GtkWidget *month_later;
  GtkWidget *as_month;
  GtkWidget *as_season;
  GtkWidget *pictures;
  FrSeasonStripView *strip;
  FrMonthView *month;
  GtkWidget *pane;
  gboolean stale;
};

G_DEFINE_FINAL_TYPE (FrCalendarView, fr_calendar_view, ADW_TYPE_BIN)

static guint open_log_signal;

/* --- what is shown --- */

static void
show_month_bar (FrCalendarView *self)
{
  FrDate first = fr_month_view_get_month (self->month);
  gboolean shown = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->as_month));

  gtk_widget_set_visible (self->month_bar, shown && first.year != 0);
  if (first.year != 0)
    {
      g_autofree char *title = fr_season_month_title (first);

      gtk_label_set_text (GTK_LABEL (self->month_label), title);
    }
  gtk_widget_set_sensitive (self->month_earlier, fr_month_view_can_step (self->month, -1));
  gtk_widget_set_sensitive (self->month_later, fr_month_view_can_step (self->month, 1));
}

static void
show_day (FrCalendarView *self)
{
  FrDate day = fr_season_get_day (self->season);

  fr_season_strip_view_set_selected (self->strip, day);
  fr_month_view_set_selected (self->month, day);
  show_month_bar (self);
}

/* Sap past its time is said with the answer, whichever day is looked at. */
static GPtrArray *
spoiled (FrCalendarView *self)
{
  const FrSeasonView *present = fr_season_get_present (self->season);
  GPtrArray *sentences = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < present->reminders->len; i++)
    {
      const FrReminder *reminder = present->reminders->pdata[i];
      g_autoptr (FrReminderWords) words = NULL;

      if (reminder->code != FR_REMIND_SPOILED)
        continue;
      words = fr_reminder_words_new (reminder, fr_season_get_now (self->season),
                                     fr_season_get_say (self->season));
      g_ptr_array_add (sentences, g_strdup (words->sentence));
    }
  return sentences;
}

static void
show_answer (FrCalendarView *self, const FrSeasonView *view)
{
  const FrSay *say = fr_season_get_say (self->season);
  const FrSeasonTally *past = fr_season_get_past (self->season);
  g_autofree char *sentence = fr_season_sentence (view, say);
  g_autofree char *reason = fr_season_reason (view, past, say);
  g_autoptr (GPtrArray) figures = fr_season_figures (&view->tally, past, say);
  g_autoptr (GPtrArray) dangers = spoiled (self);

  /* In a narrow window the sentence and the line under it say it alone, so that the picture has its room. */
  fr_tonight_answer_set_texts (FR_TONIGHT_ANSWER (self->answer), sentence, reason, dangers,
                               fr_side_pane_is_folded (FR_SIDE_PANE (self->pane)) ? NULL : figures);
}

static void
show (FrCalendarView *self)
{
  const FrSeasonView *view, *past_view;
  g_autoptr (GPtrArray) past = g_ptr_array_new ();
  g_autofree char *title = NULL;

  if (!gtk_widget_get_mapped (GTK_WIDGET (self)))
    {
      /* They borrow a view that is gone. */
      fr_season_strip_view_set (self->strip, NULL, NULL, NULL);
      fr_month_view_set (self->month, NULL, NULL);
      self->stale = TRUE;
      return;
    }
  self->stale = FALSE;
  view = fr_season_get_view (self->season);
  past_view = fr_season_get_past_view (self->season);
  if (past_view != NULL)
    g_ptr_array_add (past, (gpointer)past_view);
  title = fr_season_title (view->season);
  gtk_label_set_text (GTK_LABEL (self->season_label), title);
  gtk_widget_set_sensitive (self->season_later, !fr_season_is_present (self->season));
  show_answer (self, view);
  fr_season_strip_view_set (self->strip, view, past, fr_season_get_say (self->season));
  fr_month_view_set (self->month, view, fr_season_get_say (self->season));
  show_day (self);
}

static void
folded_cb (FrCalendarView *self)
{
  if (!self->stale)
    show_answer (self, fr_season_get_view (self->season));
}

static void
map_cb (FrCalendarView *self)
{
  fr_season_refresh (self->season);
  if (self->stale)
    show (self);
}

/* --- what a person does --- */

static void
selected_cb (FrCalendarView *self, gint64 days)
{
  if (days != FR_NO_DAY)
    fr_season_set_day (self->season, fr_date_from_days (days));
}

static void
activated_cb (FrCalendarView *self, gint64 days)
{
  selected_cb (self, days);
  fr_side_pane_show_panel (FR_SIDE_PANE (self->pane), TRUE);
}

static void
step_season (FrCalendarView *self, int by)
{
  g_autoptr (GError) error = NULL;

  if (!fr_season_set_season (self->season, (guint)((int)fr_season_get_season (self->season) + by), &error))
    fr_window_show_error (fr_window_of (GTK_WIDGET (self)), error);
}

static void
season_earlier_cb (FrCalendarView *self)
{
  step_season (self, -1);
}

static void
season_later_cb (FrCalendarView *self)
{
  step_season (self, 1);
}

static void
month_earlier_cb (FrCalendarView *self)
{
  fr_month_view_step (self->month, -1);
}

static void
month_later_cb (FrCalendarView *self)
{
  fr_month_view_step (self->month, 1);
}

static void
as_month_cb (FrCalendarView *self)
{
  gboolean month = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->as_month));

  gtk_stack_set_visible_child (GTK_STACK (self->pictures),
                               month ? GTK_WIDGET (self->month)
                                     : gtk_widget_get_parent (GTK_WIDGET (self->strip)));
  show_month_bar (self);
}

static void
checklist_cb (FrCalendarView *self)
{
  gtk_window_present (GTK_WINDOW (fr_kit_checklist_new (fr_window_of (GTK_WIDGET (self)), self->season)));
}

static void
open_log_cb (FrCalendarView *self, gint64 day, guint round)
{
  g_signal_emit (self, open_log_signal, 0, day, round);
}

/* --- making --- */

static GtkWidget *
heading_new (void)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_widget_add_css_class (label, "card-heading");
  return label;
}

static GtkWidget *
make_bar (FrCalendarView *self, GtkWidget *toggle)
{
  GtkWidget *bar = fr_wrap_box_new (12, 6), *seasons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 2);
  GtkWidget *kinds = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0),
            *checklist = gtk_button_new_with_label (_ ("Checklist…")),
            *print = fr_print_button_new ("season.print");

  self->season_label = heading_new ();
  self->season_later
      = fr_icon_button_new ("go-next-symbolic", _ ("Season After"), G_CALLBACK (season_later_cb), self);
  gtk_box_append (GTK_BOX (seasons), fr_icon_button_new ("go-previous-symbolic", _ ("Season Before"),
                                                         G_CALLBACK (season_earlier_cb), self));
  gtk_box_append (GTK_BOX (seasons), self->season_label);
  gtk_box_append (GTK_BOX (seasons), self->season_later);
  self->month_bar = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 2);
  self->month_label = heading_new ();
  self->month_earlier
      = fr_icon_button_new ("go-previous-symbolic", _ ("Month Before"), G_CALLBACK (month_earlier_cb), self);
  self->month_later
      = fr_icon_button_new ("go-next-symbolic", _ ("Month After"), G_CALLBACK (month_later_cb), self);
  gtk_box_append (GTK_BOX (self->month_bar), self->month_earlier);
  gtk_box_append (GTK_BOX (self->month_bar), self->month_label);
  gtk_box_append (GTK_BOX (self->month_bar), self->month_later);
  self->as_month = gtk_toggle_button_new_with_label (_ ("Month"));
  self->as_season = gtk_toggle_button_new_with_label (_ ("Season"));
  gtk_toggle_button_set_group (GTK_TOGGLE_BUTTON (self->as_month), GTK_TOGGLE_BUTTON (self->as_season));
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (self->as_season), TRUE);
  gtk_widget_add_css_class (kinds, "linked");
  gtk_box_append (GTK_BOX (kinds), self->as_month);
  gtk_box_append (GTK_BOX (kinds), self->as_season);
  g_signal_connect_object (checklist, "clicked", G_CALLBACK (checklist_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_set_hexpand (seasons, TRUE);
  gtk_box_append (GTK_BOX (bar), seasons);
  gtk_box_append (GTK_BOX (bar), self->month_bar);
  gtk_box_append (GTK_BOX (bar), print);
  gtk_box_append (GTK_BOX (bar), checklist);
  gtk_box_append (GTK_BOX (bar), kinds);
  gtk_box_append (GTK_BOX (bar), toggle);
  return bar;
}

static GtkWidget *
make_content (FrCalendarView *self, GtkWidget *toggle)
{
  GtkWidget *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12), *card = adw_bin_new ();
  GtkWidget *scroller = gtk_scrolled_window_new ();

  self->answer = fr_tonight_answer_new ();
  self->strip = FR_SEASON_STRIP_VIEW (fr_season_strip_view_new ());
  self->month = FR_MONTH_VIEW (fr_month_view_new ());
  self->pictures = gtk_stack_new ();
  adw_bin_set_child (ADW_BIN (card), GTK_WIDGET (self->strip));
  gtk_widget_add_css_class (card, "card");
  gtk_stack_add_child (GTK_STACK (self->pictures), card);
  gtk_stack_add_child (GTK_STACK (self->pictures), GTK_WIDGET (self->month));
  gtk_widget_set_vexpand (self->pictures, TRUE);
  gtk_widget_set_size_request (self->pictures, -1, DRAWING_LEAST_PX);
  gtk_box_append (GTK_BOX (page), self->answer);
  gtk_box_append (GTK_BOX (page), make_bar (self, toggle));
  gtk_box_append (GTK_BOX (page), self->pictures);
  gtk_widget_add_css_class (page, "page");
  gtk_widget_set_hexpand (scroller, TRUE);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), page);
  g_signal_connect_object (self->strip, "day-selected", G_CALLBACK (selected_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->month, "day-selected", G_CALLBACK (selected_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->strip, "day-activated", G_CALLBACK (activated_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->month, "day-activated", G_CALLBACK (activated_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->month, "month-changed", G_CALLBACK (show_month_bar), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->as_month, "toggled", G_CALLBACK (as_month_cb), self, G_CONNECT_SWAPPED);
  return scroller;
}

static void
fr_calendar_view_dispose (GObject *object)
{
  FrCalendarView *self = FR_CALENDAR_VIEW (object);

  if (self->season != NULL)
    g_signal_handlers_disconnect_by_data (self->season, self);
  adw_bin_set_child (ADW_BIN (self), NULL);
  g_clear_object (&self->season);
  G_OBJECT_CLASS (fr_calendar_view_parent_class)->dispose (object);
}

static void
fr_calendar_view_class_init (FrCalendarViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_calendar_view_dispose;
  open_log_signal = g_signal_new ("open-log", FR_TYPE_CALENDAR_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 2, G_TYPE_INT64, G_TYPE_UINT);
}

static void
fr_calendar_view_init (FrCalendarView *self)
{
}

GtkWidget *
fr_calendar_view_new (FrSeason *season)
{
  FrCalendarView *self = g_object_new (FR_TYPE_CALENDAR_VIEW, NULL);
  GtkWidget *toggle = gtk_toggle_button_new_with_label (_ ("Day"));
  GtkWidget *content, *panel;

  self->season = g_object_ref (season);
  content = make_content (self, toggle);
  panel = fr_day_panel_new (season);
  g_signal_connect_object (panel, "open-log", G_CALLBACK (open_log_cb), self, G_CONNECT_SWAPPED);
  self->pane = fr_side_pane_new (content, panel, GTK_TOGGLE_BUTTON (toggle));
  g_signal_connect_object (self->pane, "folded-changed", G_CALLBACK (folded_cb), self, G_CONNECT_SWAPPED);
  adw_bin_set_child (ADW_BIN (self), self->pane);
  self->stale = TRUE;
  g_signal_connect_swapped (season, "changed", G_CALLBACK (show), self);
  g_signal_connect_swapped (season, "day-changed", G_CALLBACK (show_day), self);
  g_signal_connect_after (self, "map", G_CALLBACK (map_cb), NULL);
  return GTK_WIDGET (self);
}

void
fr_calendar_view_show_month (FrCalendarView *self, gboolean month)
{
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (month ? self->as_month : self->as_season), TRUE);
}
