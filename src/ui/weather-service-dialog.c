/* It edits a draft, as the dialog of one record does; what the chosen service would be told follows the draft, how it stands with the service
 * follows the book. */
#include "ui/weather-service-dialog.h"

#include <glib/gi18n-lib.h>

#include "models/draft.h"
#include "ui/dialog-frame.h"
#include "ui/pieces.h"
#include "ui/record-editor.h"
#include "words/weather-words.h"

struct _FrWeatherServiceDialog
{
  AdwWindow parent_instance;
  FrWindow *window; /* the dialog is transient for it and goes first */
  FrSeason *season;
  FrWeatherKeeper *keeper;
  FrDraft *draft;
  FrRecordEditor *editor;
  GtkWidget *state;
  GtkWidget *advice;
  GtkWidget *ask_button;
  GtkBox *terms;
};

G_DEFINE_FINAL_TYPE (FrWeatherServiceDialog, fr_weather_service_dialog, ADW_TYPE_WINDOW)

/* --- how it stands --- */

static void
show_state (FrWeatherServiceDialog *self)
{
  const FrFetchState *state = fr_weather_keeper_get_state (self->keeper);
  const FrSay *say = fr_season_get_say (self->season);
  gint64 now_utc = g_get_real_time () / G_USEC_PER_SEC; /* answers are dated by the clock on the wall */
  gboolean is_asking = fr_weather_keeper_is_asking (self->keeper);
  g_autofree char *sentence = fr_fetch_sentence (state, now_utc, say), *advice = fr_fetch_advice (state, now_utc, say);
  g_autofree char *next = fr_fetch_next_sentence (state, now_utc, say);

  /* Off, the terms below say the same. */
  fr_set_text (self->state, is_asking                           ? _ ("The service is being asked.")
                            : state->outcome == FR_FETCH_OFF ? NULL
                                                             : sentence);
  fr_set_text (self->advice, is_asking ? NULL : advice != NULL ? advice : next);
  gtk_widget_set_visible (self->ask_button, state->outcome != FR_FETCH_OFF);
  gtk_widget_set_sensitive (self->ask_button, !is_asking && next == NULL && state->next_utc != FR_FETCH_UNTIL_CHANGED);
}

static void
ask_cb (FrWeatherServiceDialog *self)
{
  fr_weather_keeper_ask (self->keeper);
}

/* --- what is sent --- */

static void
term (FrWeatherServiceDialog *self, const char *sentence)
{
  if (sentence != NULL)
    gtk_box_append (self->terms, fr_wrapped_text (sentence, "soft"));
}

static void
show_terms (FrWeatherServiceDialog *self)
{
  const FrForecasting *wanted = (const FrForecasting *)fr_draft_get_current (self->draft);
  FrWeatherService service = FR_WEATHER_SERVICE_OFF;
  double latitude_deg, longitude_deg, altitude_m;
  g_autofree char *terms = NULL, *place = NULL;

  fr_weather_service_from_code (wanted->service, &service);
  fr_weather_keeper_place (fr_season_get_book (self->season), service, &latitude_deg, &longitude_deg, &altitude_m);
  terms = fr_weather_service_terms (service);
  place = fr_weather_place_sentence (service, latitude_deg, longitude_deg, altitude_m, fr_season_get_say (self->season));
  fr_box_empty (self->terms);
  term (self, terms);
  term (self, place);
  if (service == FR_WEATHER_SERVICE_OFF)
    return;
  term (self, _ ("Besides, it is told the name and version of this program, and nothing else of you or of your book."));
  term (self, _ ("Its last answer is kept in this computer’s cache, and one forecast in three hours in the book, so that it can be seen "
                 "later how good they were."));
  term (self, fr_weather_service_credit (service));
}

/* --- keeping --- */

static void
keep_cb (FrWeatherServiceDialog *self)
{
  g_autoptr (FrChange) change = NULL;

  fr_record_editor_finish (self->editor);
  if (fr_record_editor_show_missing (self->editor) > 0 || fr_draft_n_problems (self->draft) > 0)
    return;
  change = fr_draft_change (self->draft, fr_draft_is_new (self->draft) ? "add-forecasting" : "edit-forecasting");
  if (change == NULL || fr_window_apply (self->window, change))
    gtk_window_close (GTK_WINDOW (self));
}

static FrRecord *
record_of (FrBook *book, gboolean *is_new_out, GError **error)
{
  FrRecordList *list = fr_book_get_list (book, FR_KIND_FORECASTING);

  *is_new_out = fr_record_list_get_size (list) == 0;
  return *is_new_out ? fr_book_new_record (book, FR_KIND_FORECASTING, 0, error) : fr_record_copy (fr_record_list_get (list, 0));
}

/* --- making --- */

static GtkWidget *
make_state (FrWeatherServiceDialog *self)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12), *texts = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);

  self->state = fr_wrapped_text (NULL, "strong");
  self->advice = fr_wrapped_text (NULL, "soft");
  self->ask_button = gtk_button_new_with_mnemonic (_ ("_Ask Now"));
  gtk_widget_set_hexpand (texts, TRUE);
  gtk_widget_set_valign (self->ask_button, GTK_ALIGN_CENTER);
  g_signal_connect_object (self->ask_button, "clicked", G_CALLBACK (ask_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (texts), self->state);
  gtk_box_append (GTK_BOX (texts), self->advice);
  gtk_box_append (GTK_BOX (line), texts);
  gtk_box_append (GTK_BOX (line), self->ask_button);
  return line;
}

static void
fr_weather_service_dialog_dispose (GObject *object)
{
  FrWeatherServiceDialog *self = FR_WEATHER_SERVICE_DIALOG (object);

  adw_window_set_content (ADW_WINDOW (self), NULL); /* the editor borrows the draft */
  self->editor = NULL;
  g_clear_pointer (&self->draft, fr_draft_free);
  g_clear_object (&self->keeper);
  g_clear_object (&self->season);
  G_OBJECT_CLASS (fr_weather_service_dialog_parent_class)->dispose (object);
}

static void
fr_weather_service_dialog_class_init (FrWeatherServiceDialogClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_weather_service_dialog_dispose;
  fr_dialog_frame_class_init (GTK_WIDGET_CLASS (klass));
}

static void
fr_weather_service_dialog_init (FrWeatherServiceDialog *self)
{
}

GtkWidget *
fr_weather_service_dialog_new (FrWindow *window, FrSeason *season, FrWeatherKeeper *keeper)
{
  static const char *const all[]
      = { "service", "contact", "base_address", "gather_minute", "error_first_k", "error_week_k", NULL };
  FrWeatherServiceDialog *self = g_object_new (FR_TYPE_WEATHER_SERVICE_DIALOG, "transient-for", window, NULL);
  g_autoptr (GError) error = NULL;
  gboolean is_new;
  g_autoptr (FrRecord) record = record_of (fr_window_get_book (window), &is_new, &error);
  GtkBox *inner;

  self->window = window;
  self->season = g_object_ref (season);
  self->keeper = g_object_ref (keeper);
  fr_dialog_frame_build (ADW_WINDOW (self), _ ("Weather Service"), 540, 640, G_CALLBACK (keep_cb), self, &inner);
  if (record == NULL)
    {
      gtk_box_append (inner, fr_wrapped_text (error->message, "problem"));
      return GTK_WIDGET (self);
    }
  self->draft = fr_draft_new (record, is_new);
  self->terms = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 6));
  self->editor = fr_record_editor_new (fr_window_get_book (window), self->draft, all);
  gtk_box_append (inner, make_state (self));
  gtk_box_append (inner, GTK_WIDGET (self->terms));
  gtk_box_append (inner, GTK_WIDGET (self->editor));
  g_signal_connect_object (self->editor, "changed", G_CALLBACK (show_terms), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (keeper, "changed", G_CALLBACK (show_state), self, G_CONNECT_SWAPPED);
  show_state (self);
  show_terms (self);
  gtk_widget_child_focus (GTK_WIDGET (self->editor), GTK_DIR_TAB_FORWARD);
  return GTK_WIDGET (self);
}
