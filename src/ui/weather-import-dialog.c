/* The file is read beside the main loop, anew for each choice of columns; what becomes of its days is worked out from what was read, anew for
 * each choice of source and each change of the book. Days that change or cannot be kept are listed, for the others are counted. */
#include "ui/weather-import-dialog.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "models/weather-reading.h"
#include "models/weather-transfer.h"
#include "ui/choice-rows.h"
#include "ui/clock.h"
#include "ui/dialog-frame.h"
#include "ui/entry-row.h"
#include "ui/pieces.h"
#include "ui/weather-columns.h"
#include "words/weather-arrival-words.h"
#include "words/weather-file-words.h"

struct _FrWeatherImportDialog
{
  AdwWindow parent_instance;
  FrWindow *window; /* the dialog is transient for it and goes first */
  GFile *file;
  char *base;  /* the file's name */
  char *stem;  /* without its ending */
  GCancellable *cancellable; /* of the reading that is under way */
  FrWeatherReading *reading;
  FrWeatherImport *import;
  GPtrArray *stations; /* names in the order of the choice, NULL the new one */
  GArray *order;       /* guint: rows of the preview that are listed */
  gboolean is_filling;
  gboolean was_read;
  gboolean is_source_chosen;
  GtkWidget *found;
  GtkWidget *problem;
  GtkBox *remarks;
  GtkWidget *caution;
  GtkWidget *source;
  GtkWidget *name;
  GtkWidget *source_group;
  GtkWidget *columns;
  GtkWidget *summary;
  GtkWidget *list_frame;
  GtkListView *list;
  GtkWidget *import_button;
};

G_DEFINE_FINAL_TYPE (FrWeatherImportDialog, fr_weather_import_dialog, ADW_TYPE_WINDOW)

static FrBook *
book_of (FrWeatherImportDialog *self)
{
  return fr_window_get_book (self->window);
}

/* --- the days --- */

static const FrWeatherRow *
row_at (FrWeatherImportDialog *self, guint position)
{
  return &g_array_index (fr_weather_import_preview (self->import)->rows, FrWeatherRow, g_array_index (self->order, guint, position));
}

static void
setup_cb (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);

  gtk_box_append (GTK_BOX (row), fr_wrapped_text (NULL, "strong"));
  gtk_box_append (GTK_BOX (row), fr_wrapped_text (NULL, "soft"));
  gtk_widget_add_css_class (row, "arrival");
  gtk_list_item_set_activatable (item, FALSE);
  gtk_list_item_set_child (item, row);
}

static void
bind_cb (GtkSignalListItemFactory *factory, GtkListItem *item, FrWeatherImportDialog *self)
{
  const FrWeatherRow *row = row_at (self, gtk_list_item_get_position (item));
  GtkWidget *title = gtk_widget_get_first_child (gtk_list_item_get_child (item));
  g_autofree char *date = fr_date_to_iso (row->date); /* with its year, which spoken dates leave out */
  g_autofree char *sentence = fr_weather_arrival_row_sentence (row, fr_book_get_units (book_of (self)));

  gtk_label_set_text (GTK_LABEL (title), date);
  gtk_label_set_text (GTK_LABEL (gtk_widget_get_next_sibling (title)), sentence);
  if (row->fate == FR_WEATHER_UNKEPT)
    gtk_widget_add_css_class (title, "caution");
  else
    gtk_widget_remove_css_class (title, "caution");
}

/* Refused days first. */
static void
list_days (FrWeatherImportDialog *self)
{
  static const FrWeatherFate fates[] = { FR_WEATHER_UNKEPT, FR_WEATHER_CHANGES };
  const GArray *rows = fr_weather_import_preview (self->import)->rows;
  g_autoptr (GtkStringList) model = gtk_string_list_new (NULL);

  g_array_set_size (self->order, 0);
  for (guint f = 0; f < G_N_ELEMENTS (fates); f++)
    for (guint i = 0; i < rows->len; i++)
      if (g_array_index (rows, FrWeatherRow, i).fate == fates[f])
        {
          g_array_append_val (self->order, i);
          gtk_string_list_append (model, ""); /* a row is told by its position */
        }
  gtk_widget_set_visible (self->list_frame, self->order->len > 0);
  gtk_list_view_set_model (self->list, GTK_SELECTION_MODEL (gtk_no_selection_new (G_LIST_MODEL (g_steal_pointer (&model)))));
}

/* --- what is said --- */

static void
remark (FrWeatherImportDialog *self, char *sentence)
{
  if (sentence != NULL)
    gtk_box_append (self->remarks, fr_wrapped_text (sentence, "soft"));
  g_free (sentence);
}

static gboolean
may_come (FrWeatherImportDialog *self)
{
  const FrWeatherPreview *preview = self->import != NULL ? fr_weather_import_preview (self->import) : NULL;

  return preview != NULL && preview->station_fate != FR_WEATHER_UNKEPT
         && (preview->n[FR_WEATHER_NEW] + preview->n[FR_WEATHER_CHANGES] > 0 || preview->station_fate == FR_WEATHER_NEW
             || preview->station_fate == FR_WEATHER_CHANGES || preview->outlook_fate == FR_WEATHER_NEW
             || preview->outlook_fate == FR_WEATHER_CHANGES);
}

static void
show_preview (FrWeatherImportDialog *self)
{
  const FrWeatherPreview *preview = fr_weather_import_preview (self->import);
  const FrWeather *weather = fr_weather_import_weather (self->import);
  const FrUnits *units = fr_book_get_units (book_of (self));
  g_autofree char *summary = fr_weather_arrival_summary (preview);
  g_autofree char *found = fr_weather_found_sentence (self->reading->weather);
  g_autofree char *other = fr_weather_arrival_other_sentence (preview, weather);

  fr_set_text (self->found, found);
  fr_set_text (self->summary, summary);
  fr_set_text (self->caution, other);
  remark (self, fr_weather_left_out_sentence (self->reading->weather));
  remark (self, fr_weather_arrival_hours_sentence (preview));
  remark (self, fr_weather_arrival_outlook_sentence (preview, units));
  remark (self, fr_weather_arrival_station_sentence (preview, units));
  if (weather->attribution != NULL)
    remark (self, g_strdup (weather->attribution));
  list_days (self);
  fr_dialog_frame_name_buttons (ADW_WINDOW (self), NULL, preview->is_other_station ? _ ("_Import Anyway") : _ ("_Import"));
}

/* The choice follows what the file was taken for. */
static void
show_source (FrWeatherImportDialog *self)
{
  const FrWeatherPreview *preview = fr_weather_import_preview (self->import);
  FrRecordList *list = fr_book_get_list (book_of (self), FR_KIND_STATION);
  g_autoptr (GtkStringList) words = gtk_string_list_new (NULL);
  guint at = 0;

  self->is_filling = TRUE;
  g_ptr_array_set_size (self->stations, 0);
  g_ptr_array_add (self->stations, NULL);
  gtk_string_list_append (words, _ ("A new source"));
  for (guint i = 0; i < fr_record_list_get_size (list); i++)
    {
      const FrRecord *station = fr_record_list_get (list, i);

      if (station->archived)
        continue;
      if (preview->station_before != NULL && station->id == preview->station_before->record.id)
        at = self->stations->len;
      g_ptr_array_add (self->stations, g_strdup (((const FrStation *)station)->name));
      gtk_string_list_append (words, ((const FrStation *)station)->name);
    }
  if (!fr_words_are_shown (adw_combo_row_get_model (ADW_COMBO_ROW (self->source)), words))
    adw_combo_row_set_model (ADW_COMBO_ROW (self->source), G_LIST_MODEL (words));
  adw_combo_row_set_selected (ADW_COMBO_ROW (self->source), at);
  gtk_widget_set_visible (self->name, at == 0);
  if (at == 0)
    fr_entry_row_set_texts (FR_ENTRY_ROW (self->name), preview->station_after->name, preview->station_after->name, NULL);
  self->is_filling = FALSE;
}

static void
show (FrWeatherImportDialog *self)
{
  gboolean is_read = self->import != NULL;

  fr_box_empty (self->remarks);
  gtk_widget_set_visible (self->source_group, is_read);
  gtk_widget_set_visible (self->list_frame, FALSE);
  fr_set_text (self->caution, NULL);
  if (is_read)
    {
      show_source (self);
      show_preview (self);
    }
  else
    {
      fr_set_text (self->found, NULL);
      fr_set_text (self->summary, NULL);
    }
  gtk_widget_set_sensitive (self->import_button, may_come (self));
}

/* --- what becomes of it --- */

static void
drop_import (FrWeatherImportDialog *self)
{
  if (self->list != NULL) /* a row that is shown asks for its day */
    gtk_list_view_set_model (self->list, NULL);
  g_clear_pointer (&self->import, fr_weather_import_free);
}

static void
look_as (FrWeatherImportDialog *self, const char *station)
{
  g_autoptr (GError) error = NULL;

  drop_import (self);
  if (self->reading != NULL && self->reading->weather != NULL)
    self->import = fr_weather_import_new (book_of (self), self->reading->weather, station, self->stem, self->reading->zone,
                                          fr_clock_now (NULL), &error);
  if (error != NULL)
    fr_set_text (self->problem, error->message);
  show (self);
}

/* As chosen; NULL leaves it to the file. */
static const char *
station_chosen (FrWeatherImportDialog *self)
{
  guint at = adw_combo_row_get_selected (ADW_COMBO_ROW (self->source));

  if (!self->is_source_chosen || at >= self->stations->len)
    return NULL;
  return at > 0 ? self->stations->pdata[at] : fr_entry_row_get_text (FR_ENTRY_ROW (self->name));
}

static void
look (FrWeatherImportDialog *self)
{
  g_autofree char *station = g_strdup (station_chosen (self));

  look_as (self, station);
}

/* A new source needs a name that the book has not: the file's own, else that of the file. */
static void
source_cb (FrWeatherImportDialog *self)
{
  const FrWeather *weather = self->reading != NULL ? self->reading->weather : NULL;
  guint at = adw_combo_row_get_selected (ADW_COMBO_ROW (self->source));

  if (self->is_filling || weather == NULL)
    return;
  self->is_source_chosen = TRUE;
  gtk_widget_set_visible (self->name, at == 0);
  if (at > 0)
    look (self);
  else
    {
      fr_entry_row_set_texts (FR_ENTRY_ROW (self->name), "", "", NULL);
      fr_entry_row_grab (FR_ENTRY_ROW (self->name));
      gtk_widget_set_sensitive (self->import_button, FALSE);
    }
}

static void
name_cb (FrWeatherImportDialog *self, const char *text)
{
  g_autofree char *name = g_strstrip (g_strdup (text));

  self->is_source_chosen = TRUE;
  if (*name == '\0')
    {
      fr_entry_row_set_problem (FR_ENTRY_ROW (self->name), _ ("Its days are found again by this name."));
      gtk_widget_set_sensitive (self->import_button, FALSE);
      return;
    }
  fr_entry_row_set_problem (FR_ENTRY_ROW (self->name), NULL);
  look_as (self, name);
}

/* --- reading --- */

/* A reader's sentence begins as the end of another. */
static void
show_problem (FrWeatherImportDialog *self, const char *problem, gboolean may_choose)
{
  g_autofree char *text = NULL;

  if (problem != NULL)
    text = g_strdup_printf (may_choose ? _ ("Choose below how the table is to be read: %s.") : _ ("It cannot be read: %s."), problem);
  fr_set_text (self->problem, text);
}

static void
read_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (GError) error = NULL;
  FrWeatherReading *reading = fr_weather_reading_finish (result, &error);
  FrWeatherImportDialog *self;

  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return; /* the dialog is gone, or reads in another way */
  self = FR_WEATHER_IMPORT_DIALOG (user_data);
  g_clear_object (&self->cancellable);
  drop_import (self);
  g_clear_pointer (&self->reading, fr_weather_reading_free);
  self->reading = reading;
  show_problem (self, reading == NULL ? error->message : reading->problem, reading != NULL && reading->columns != NULL && reading->columns->len > 0);
  fr_weather_columns_group_show (FR_WEATHER_COLUMNS_GROUP (self->columns), reading != NULL ? reading->columns : NULL,
                                 reading != NULL && reading->weather == NULL);
  look (self);
  if (!self->was_read && may_come (self))
    gtk_widget_grab_focus (self->import_button);
  else if (!self->was_read)
    gtk_widget_child_focus (self->columns, GTK_DIR_TAB_FORWARD);
  self->was_read = TRUE;
}

static void
read_file (FrWeatherImportDialog *self)
{
  const FrHousehold *household = fr_book_get_household (book_of (self));
  FrWeatherColumns choice;

  if (self->cancellable != NULL)
    g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  self->cancellable = g_cancellable_new ();
  gtk_widget_set_sensitive (self->import_button, FALSE);
  fr_weather_columns_group_get (FR_WEATHER_COLUMNS_GROUP (self->columns), &choice);
  fr_weather_reading_async (self->file, choice, household != NULL ? household->zone : NULL, self->cancellable, read_cb, self);
}

gboolean
fr_weather_import_dialog_is_reading (FrWeatherImportDialog *self)
{
  return self->cancellable != NULL;
}

static void
import_cb (FrWeatherImportDialog *self)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrChange) change = NULL;

  fr_entry_row_finish (FR_ENTRY_ROW (self->name));
  if (!gtk_widget_get_sensitive (self->import_button))
    return;
  change = fr_weather_import_change (self->import, "import-weather", self->base, &error);
  if (error != NULL)
    {
      fr_set_text (self->problem, error->message);
      return;
    }
  /* What was read is held against a book that is about to have it. */
  g_signal_handlers_disconnect_by_func (book_of (self), look, self);
  if (change != NULL && !fr_window_apply (self->window, change))
    {
      g_signal_connect_object (book_of (self), "changed", G_CALLBACK (look), self, G_CONNECT_SWAPPED);
      return;
    }
  gtk_window_close (GTK_WINDOW (self));
}

/* --- making --- */

static GtkWidget *
make_source (FrWeatherImportDialog *self)
{
  static const char *const none[] = { NULL };
  GtkWidget *group = adw_preferences_group_new ();

  self->source = fr_choice_row_new (_ ("Whose weather it is"), none, 0);
  self->name = fr_entry_row_new (_ ("Its name"), NULL);
  fr_entry_row_set_width (FR_ENTRY_ROW (self->name), 24);
  g_signal_connect_object (self->source, "notify::selected", G_CALLBACK (source_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->name, "finished", G_CALLBACK (name_cb), self, G_CONNECT_SWAPPED);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), self->source);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), self->name);
  return group;
}

static GtkWidget *
make_list (FrWeatherImportDialog *self)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  GtkWidget *frame = gtk_scrolled_window_new ();

  g_signal_connect (factory, "setup", G_CALLBACK (setup_cb), self);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_cb), self);
  self->list = GTK_LIST_VIEW (gtk_list_view_new (NULL, factory));
  fr_list_is_one_stop (GTK_WIDGET (self->list));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->list), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Days that change or are refused"), -1);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (frame), GTK_WIDGET (self->list));
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (frame), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (frame), 160);
  gtk_widget_set_vexpand (frame, TRUE);
  gtk_widget_add_css_class (frame, "card");
  gtk_widget_set_overflow (frame, GTK_OVERFLOW_HIDDEN); /* round corners */
  return frame;
}

static void
fr_weather_import_dialog_dispose (GObject *object)
{
  FrWeatherImportDialog *self = FR_WEATHER_IMPORT_DIALOG (object);

  if (self->cancellable != NULL)
    g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  drop_import (self);
  self->list = NULL;
  self->is_filling = TRUE;
  adw_window_set_content (ADW_WINDOW (self), NULL);
  g_clear_pointer (&self->reading, fr_weather_reading_free);
  g_clear_object (&self->file);
  G_OBJECT_CLASS (fr_weather_import_dialog_parent_class)->dispose (object);
}

static void
fr_weather_import_dialog_finalize (GObject *object)
{
  FrWeatherImportDialog *self = FR_WEATHER_IMPORT_DIALOG (object);

  g_ptr_array_unref (self->stations);
  g_array_unref (self->order);
  g_free (self->base);
  g_free (self->stem);
  G_OBJECT_CLASS (fr_weather_import_dialog_parent_class)->finalize (object);
}

static void
fr_weather_import_dialog_class_init (FrWeatherImportDialogClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_weather_import_dialog_dispose;
  G_OBJECT_CLASS (klass)->finalize = fr_weather_import_dialog_finalize;
  fr_dialog_frame_class_init (GTK_WIDGET_CLASS (klass));
}

static void
fr_weather_import_dialog_init (FrWeatherImportDialog *self)
{
  self->stations = g_ptr_array_new_with_free_func (g_free);
  self->order = g_array_new (FALSE, FALSE, sizeof (guint));
}

GtkWidget *
fr_weather_import_dialog_new (FrWindow *window, GFile *file)
{
  FrWeatherImportDialog *self = g_object_new (FR_TYPE_WEATHER_IMPORT_DIALOG, "transient-for", window, NULL);
  g_autofree char *base = g_file_get_basename (file);
  char *dot;
  GtkBox *inner;

  self->window = window;
  self->file = g_object_ref (file);
  self->base = g_filename_display_name (base);
  self->stem = g_strdup (self->base);
  dot = strrchr (self->stem, '.');
  if (dot != NULL && dot != self->stem)
    *dot = '\0';
  self->import_button = fr_dialog_frame_build (ADW_WINDOW (self), _ ("Import Weather"), 580, 600, G_CALLBACK (import_cb), self, &inner);
  fr_dialog_frame_name_buttons (ADW_WINDOW (self), NULL, _ ("_Import"));
  self->found = fr_wrapped_text (_ ("Reading…"), "strong");
  self->problem = fr_wrapped_text (NULL, "problem");
  self->caution = fr_wrapped_text (NULL, "caution");
  self->remarks = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 6));
  self->source_group = make_source (self);
  self->columns = fr_weather_columns_group_new ();
  self->summary = fr_wrapped_text (NULL, "strong");
  self->list_frame = make_list (self);
  gtk_box_set_spacing (inner, 12);
  gtk_box_append (inner, fr_wrapped_text (self->base, "soft"));
  gtk_box_append (inner, self->found);
  gtk_box_append (inner, self->problem);
  gtk_box_append (inner, self->caution);
  gtk_box_append (inner, self->summary);
  gtk_box_append (inner, GTK_WIDGET (self->remarks));
  gtk_box_append (inner, self->source_group);
  gtk_box_append (inner, self->columns);
  gtk_box_append (inner, self->list_frame);
  g_signal_connect_object (self->columns, "changed", G_CALLBACK (read_file), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (book_of (self), "changed", G_CALLBACK (look), self, G_CONNECT_SWAPPED);
  fr_set_text (self->problem, NULL);
  fr_weather_columns_group_show (FR_WEATHER_COLUMNS_GROUP (self->columns), NULL, FALSE);
  show (self);
  fr_set_text (self->found, _ ("Reading…"));
  read_file (self);
  return GTK_WIDGET (self);
}

static void
chosen_cb (GtkNativeDialog *dialog, int response, gpointer user_data)
{
  FrWindow *window = FR_WINDOW (user_data);

  if (response == GTK_RESPONSE_ACCEPT)
    {
      g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));

      gtk_window_present (GTK_WINDOW (fr_weather_import_dialog_new (window, file)));
    }
  gtk_native_dialog_destroy (dialog);
  g_object_unref (dialog);
  g_object_unref (window);
}

void
fr_weather_import_ask (FrWindow *window)
{
  static const char *const endings[] = { "csv", "dly", "json", "txt", NULL };
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (_ ("Import Weather"), GTK_WINDOW (window), GTK_FILE_CHOOSER_ACTION_OPEN,
                                                              _ ("_Open"), _ ("_Cancel"));
  g_autoptr (GtkFileFilter) known = gtk_file_filter_new (), all = gtk_file_filter_new ();

  gtk_file_filter_set_name (known, _ ("Weather: tables, archives, answers of services"));
  for (guint i = 0; endings[i] != NULL; i++)
    gtk_file_filter_add_suffix (known, endings[i]);
  gtk_file_filter_set_name (all, _ ("All files"));
  gtk_file_filter_add_pattern (all, "*");
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (dialog), known);
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (dialog), all);
  g_signal_connect (dialog, "response", G_CALLBACK (chosen_cb), g_object_ref (window));
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}
