/* The forecast's page. What is drawn and said is made only while it is seen; while a new answer is on its way the old one stays, dimmed. */
#include "ui/forecast-view.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "ui/forecast-chart-view.h"
#include "ui/forecast-panel.h"
#include "ui/forecast-scores-card.h"
#include "ui/forecast-season-view.h"
#include "ui/pieces.h"
#include "ui/side-pane.h"
#include "ui/tonight-answer.h"
#include "ui/wrap-layout.h"
#include "words/forecast-day-words.h"
#include "words/forecast-picture-words.h"
#include "words/forecast-words.h"
#include "words/kitchen-words.h"

#define DIM_AFTER_MS 200

struct _FrForecastView
{
  AdwBin parent_instance;
  FrSeason *season;
  FrForecaster *forecaster;
  GtkWidget *answer;
  GtkWidget *kitchen; /* on which nights to boil */
  GtkWidget *weather_line;
  GtkWidget *caution;
  GtkWidget *warnings;
  FrForecastChartView *chart;
  GtkWidget *ways; /* to weather */
  GtkWidget *season_card;
  GtkWidget *season_words;
  FrForecastSeasonView *so_far;
  GtkWidget *scores;
  GtkWidget *pane;
  GtkWidget *panel;
  FrDate chosen; /* year 0: none, then the panel has the first day that counts */
  guint dim_id;
  gboolean stale;
};

G_DEFINE_FINAL_TYPE (FrForecastView, fr_forecast_view, ADW_TYPE_BIN)

/* --- the day --- */

/* The next day with a likely run, else the next one, else the last. */
static const FrForecastDay *
day_that_counts (const FrForecast *forecast)
{
  const FrForecastDay *run = fr_forecast_next_run (forecast), *next = fr_forecast_day (forecast, fr_date_add_days (forecast->as_of, 1));

  if (run != NULL || next != NULL || forecast->n_days == 0)
    return run != NULL ? run : next;
  return &forecast->days[forecast->n_days - 1];
}

static double
came_on (const FrBookForecast *asked, FrDate date)
{
  for (guint i = 0; i < asked->came_in->len; i++)
    if (fr_date_compare (g_array_index (asked->came_in, FrSapCame, i).date, date) == 0)
      return g_array_index (asked->came_in, FrSapCame, i).volume_l;
  return NAN;
}

static void
show_day (FrForecastView *self)
{
  const FrForecast *forecast = fr_forecaster_get (self->forecaster);
  const FrBookForecast *asked = fr_forecaster_get_asked (self->forecaster);
  const FrSay *say = fr_season_get_say (self->season);
  const FrForecastDay *day = NULL;
  FrSugarBrix sugar;
  g_autoptr (FrForecastDayWords) words = NULL;
  g_autoptr (GPtrArray) notes = g_ptr_array_new_with_free_func (g_free);
  char *learned = forecast != NULL ? fr_forecast_learned_words (forecast, say) : NULL;

  if (forecast != NULL && self->chosen.year != 0)
    day = fr_forecast_day (forecast, self->chosen);
  if (forecast != NULL && day == NULL)
    day = day_that_counts (forecast);
  if (day != NULL)
    words = fr_forecast_day_words_new (forecast, day, asked->gather_hour, came_on (asked, day->date), say);
  if (words != NULL && fr_forecaster_get_sugar (self->forecaster, day->date, &sugar))
    fr_forecast_day_words_add_sugar (words, sugar.mean_brix, sugar.brix_sd, say);
  if (day != NULL)
    {
      char *why = fr_forecast_day_why (day, say);

      if (why != NULL)
        g_ptr_array_add (notes, why);
    }
  if (learned != NULL)
    g_ptr_array_add (notes, learned);
  fr_forecast_panel_set (FR_FORECAST_PANEL (self->panel), words, notes);
  fr_forecast_chart_view_set_selected (self->chart, day != NULL ? day->date : (FrDate){ 0, 0, 0 },
                                       words != NULL ? words->spoken : NULL);
  fr_forecast_season_view_set_selected (self->so_far, self->chosen);
}

/* --- all --- */

static void
show_answer (FrForecastView *self)
{
  const FrSay *say = fr_season_get_say (self->season);
  const FrTapDates *dates = fr_forecaster_get_tap_dates (self->forecaster);
  const FrForecastAnswer *answer = fr_forecaster_get_answer (self->forecaster);
  const FrKitchen *kitchen = fr_forecaster_get_kitchen (self->forecaster);
  g_autoptr (GPtrArray) warnings = NULL;
  g_autofree char *sentence = NULL, *reason = NULL;

  gtk_widget_set_visible (self->kitchen, kitchen != NULL && answer != NULL && answer->code != FR_ANSWER_NOT_TAPPED);
  if (answer == NULL)
    {
      fr_tonight_answer_set_texts (FR_TONIGHT_ANSWER (self->answer), _ ("The days ahead are being worked out."), NULL,
                                   NULL, NULL);
      return;
    }
  warnings = fr_forecast_warnings (answer);
  if (answer->code == FR_ANSWER_NOT_TAPPED && dates != NULL)
    {
      g_autofree char *caution = fr_tap_date_caution (dates);

      sentence = fr_tap_date_sentence (dates, say);
      reason = fr_tap_date_reason (dates, say);
      fr_set_text (self->caution, caution);
    }
  else
    {
      sentence = fr_forecast_sentence (answer, say);
      reason = fr_forecast_reason (answer, say);
      fr_set_text (self->caution, NULL);
    }
  fr_tonight_answer_set_texts (FR_TONIGHT_ANSWER (self->answer), sentence, reason, NULL, NULL);
  if (kitchen != NULL)
    {
      g_autofree char *boil = fr_kitchen_sentence (kitchen, say), *why = fr_kitchen_reason (kitchen, say);
      g_autofree char *soft = why != NULL ? g_markup_escape_text (why, -1) : g_strdup ("");
      g_autofree char *markup = g_strconcat (boil, " ", soft, NULL);

      gtk_label_set_markup (GTK_LABEL (self->kitchen), markup);
    }
  fr_box_empty (GTK_BOX (self->warnings));
  for (guint i = 0; i < warnings->len; i++)
    gtk_box_append (GTK_BOX (self->warnings), fr_caution_row_new (warnings->pdata[i], FR_SEVERITY_WARN));
  gtk_widget_set_visible (self->warnings, warnings->len > 0);
}

/* Without weather the page is a way to some. */
static void
show_ways (FrForecastView *self)
{
  const FrForecastAnswer *answer = fr_forecaster_get_answer (self->forecaster);

  gtk_widget_set_visible (self->ways, answer != NULL && answer->code == FR_ANSWER_NO_WEATHER);
}

static void
show_season (FrForecastView *self)
{
  const FrForecast *forecast = fr_forecaster_get (self->forecaster);
  gboolean is_known = forecast != NULL && forecast->n_days > 0;
  g_autofree char *words = is_known ? fr_forecast_season_words (forecast, fr_season_get_say (self->season)) : NULL;

  gtk_widget_set_visible (self->season_card, is_known);
  fr_set_text (self->season_words, words);
  fr_forecast_season_view_set (self->so_far, forecast, fr_season_get_present (self->season)->season,
                               fr_season_is_present (self->season) ? fr_season_get_past_view (self->season) : NULL,
                               fr_season_get_say (self->season));
}

static void
show (FrForecastView *self)
{
  if (!gtk_widget_get_mapped (GTK_WIDGET (self)))
    {
      /* It borrows an answer that is gone. */
      fr_forecast_chart_view_set (self->chart, NULL, NULL, 0, NULL);
      fr_forecast_season_view_set (self->so_far, NULL, 0, NULL, NULL);
      self->stale = TRUE;
      return;
    }
  self->stale = FALSE;
  fr_forecast_chart_view_set (self->chart, fr_forecaster_get (self->forecaster), fr_forecaster_get_asked (self->forecaster),
                              fr_season_get_now (self->season), fr_season_get_say (self->season));
  show_answer (self);
  show_ways (self);
  show_season (self);
  fr_forecast_scores_card_show (FR_FORECAST_SCORES_CARD (self->scores), fr_season_get_say (self->season));
  show_day (self);
}

static void
map_cb (FrForecastView *self)
{
  fr_season_refresh (self->season);
  fr_forecaster_refresh (self->forecaster);
  if (self->stale)
    show (self);
}

static gboolean
dim_cb (gpointer user_data)
{
  FrForecastView *self = FR_FORECAST_VIEW (user_data);

  self->dim_id = 0;
  gtk_widget_set_opacity (GTK_WIDGET (self->chart), .6);
  return G_SOURCE_REMOVE;
}

static void
pending_cb (FrForecastView *self)
{
  g_clear_handle_id (&self->dim_id, g_source_remove);
  if (fr_forecaster_is_pending (self->forecaster))
    self->dim_id = g_timeout_add (DIM_AFTER_MS, dim_cb, self);
  else
    gtk_widget_set_opacity (GTK_WIDGET (self->chart), 1);
}

static void
selected_cb (FrForecastView *self, gint64 days)
{
  self->chosen = days != FR_NO_DAY ? fr_date_from_days (days) : (FrDate){ 0, 0, 0 };
  show_day (self);
}

static void
activated_cb (FrForecastView *self, gint64 days)
{
  selected_cb (self, days);
  fr_side_pane_show_panel (FR_SIDE_PANE (self->pane), TRUE);
}

/* --- making --- */

static GtkWidget *
ways_new (void)
{
  static const char *const labels[] = { N_ ("_Add Night and Day…"), N_ ("_Import Weather…"), N_ ("Weather Ser_vice…") };
  static const char *const actions[] = { "season.add-air", "season.import-weather", "season.weather-service" };
  GtkWidget *box = fr_wrap_box_new (12, 6);

  for (guint i = 0; i < G_N_ELEMENTS (labels); i++)
    {
      GtkWidget *button = gtk_button_new_with_mnemonic (_ (labels[i]));

      gtk_actionable_set_action_name (GTK_ACTIONABLE (button), actions[i]);
      gtk_box_append (GTK_BOX (box), button);
    }
  return box;
}

static GtkWidget *
make_content (FrForecastView *self, GtkWidget *toggle)
{
  GtkWidget *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 16), *scroller = gtk_scrolled_window_new (), *card = adw_bin_new ();
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12), *print = fr_print_button_new ("season.print");

  self->answer = fr_tonight_answer_new ();
  self->chart = FR_FORECAST_CHART_VIEW (fr_forecast_chart_view_new ());
  gtk_widget_set_halign (toggle, GTK_ALIGN_END);
  gtk_widget_set_valign (toggle, GTK_ALIGN_START);
  adw_bin_set_child (ADW_BIN (card), GTK_WIDGET (self->chart));
  gtk_widget_add_css_class (card, "card");
  gtk_widget_set_vexpand (GTK_WIDGET (self->chart), TRUE);
  gtk_box_append (GTK_BOX (page), self->answer);
  self->weather_line = fr_wrapped_text (NULL, "soft");
  fr_set_text (self->weather_line, NULL);
  gtk_box_append (GTK_BOX (page), self->weather_line);
  self->kitchen = fr_wrapped_text (NULL, NULL);
  gtk_widget_set_hexpand (self->kitchen, TRUE);
  gtk_box_append (GTK_BOX (line), self->kitchen);
  gtk_widget_set_valign (print, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (line), print);
  gtk_box_append (GTK_BOX (line), toggle);
  gtk_box_append (GTK_BOX (page), line);
  self->ways = ways_new ();
  gtk_box_append (GTK_BOX (page), self->ways);
  self->caution = fr_wrapped_text (NULL, "soft");
  self->warnings = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_box_append (GTK_BOX (page), self->caution);
  gtk_box_append (GTK_BOX (page), self->warnings);
  gtk_box_append (GTK_BOX (page), card);
  self->season_card = fr_card_new (fr_forecast_season_title ());
  self->so_far = FR_FORECAST_SEASON_VIEW (fr_forecast_season_view_new ());
  self->season_words = fr_wrapped_text (NULL, "note");
  gtk_box_append (fr_card_content (self->season_card), GTK_WIDGET (self->so_far));
  gtk_box_append (fr_card_content (self->season_card), self->season_words);
  gtk_box_append (GTK_BOX (page), self->season_card);
  self->scores = fr_forecast_scores_card_new (self->forecaster);
  gtk_box_append (GTK_BOX (page), self->scores);
  gtk_widget_add_css_class (page, "page");
  gtk_widget_set_hexpand (scroller, TRUE);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), page);
  g_signal_connect_object (self->chart, "day-selected", G_CALLBACK (selected_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->chart, "day-activated", G_CALLBACK (activated_cb), self, G_CONNECT_SWAPPED);
  return scroller;
}

static void
fr_forecast_view_dispose (GObject *object)
{
  FrForecastView *self = FR_FORECAST_VIEW (object);

  g_clear_handle_id (&self->dim_id, g_source_remove);
  if (self->season != NULL)
    g_signal_handlers_disconnect_by_data (self->season, self);
  if (self->forecaster != NULL)
    g_signal_handlers_disconnect_by_data (self->forecaster, self);
  adw_bin_set_child (ADW_BIN (self), NULL);
  g_clear_object (&self->forecaster);
  g_clear_object (&self->season);
  G_OBJECT_CLASS (fr_forecast_view_parent_class)->dispose (object);
}

static void
fr_forecast_view_class_init (FrForecastViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_forecast_view_dispose;
}

static void
fr_forecast_view_init (FrForecastView *self)
{
}

GtkWidget *
fr_forecast_view_new (FrSeason *season, FrForecaster *forecaster)
{
  FrForecastView *self = g_object_new (FR_TYPE_FORECAST_VIEW, NULL);
  GtkWidget *toggle = gtk_toggle_button_new_with_label (_ ("Day")), *content;

  self->season = g_object_ref (season);
  self->forecaster = g_object_ref (forecaster);
  content = make_content (self, toggle);
  self->panel = fr_forecast_panel_new ();
  self->pane = fr_side_pane_new (content, self->panel, GTK_TOGGLE_BUTTON (toggle));
  adw_bin_set_child (ADW_BIN (self), self->pane);
  self->stale = TRUE;
  g_signal_connect_swapped (season, "changed", G_CALLBACK (show), self);
  g_signal_connect_swapped (forecaster, "changed", G_CALLBACK (show), self);
  g_signal_connect_swapped (forecaster, "pending-changed", G_CALLBACK (pending_cb), self);
  g_signal_connect_after (self, "map", G_CALLBACK (map_cb), NULL);
  return GTK_WIDGET (self);
}

void
fr_forecast_view_set_weather_line (FrForecastView *self, const char *line)
{
  fr_set_text (self->weather_line, line);
}

FrForecastScores *
fr_forecast_view_get_scores (FrForecastView *self)
{
  return fr_forecast_scores_card_get_scores (FR_FORECAST_SCORES_CARD (self->scores));
}
