/* What stays out stands first in the list, for it is what a person has to look at; then changes, then what is
 * new, then what is there already. A row of the list is made only while it is seen: a file may hold 20,000.
 */
#include "ui/import-dialog.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "models/bush-transfer.h"
#include "ui/dialog-frame.h"
#include "ui/fate-row.h"
#include "ui/field-labels.h"
#include "ui/pieces.h"
#include "ui/quantity-row.h"
#include "words/arrival-words.h"

struct _FrImportDialog
{
  AdwWindow parent_instance;
  FrWindow *window; /* the dialog is transient for it and goes first */
  FrSugarbush *bush;
  GFile *file;
  GCancellable *reading; /* while it is */
  FrBushImport *import;  /* once it is read */
  GArray *order;         /* guint: rows of the preview, then its paths, as shown */
  GtkWidget *name;
  GtkWidget *choose;
  GtkWidget *summary;
  GtkWidget *problem;
  GtkBox *remarks;
  GtkWidget *options;
  GtkWidget *near_row;
  GtkWidget *replace;
  GtkWidget *species;
  GtkWidget *paths_row;
  GtkWidget *paths;
  GtkListView *list;
  GtkWidget *list_frame;
  GtkWidget *import_button;
};

G_DEFINE_FINAL_TYPE (FrImportDialog, fr_import_dialog, ADW_TYPE_WINDOW)

static FrBook *
book_of (FrImportDialog *self)
{
  return fr_sugarbush_get_book (self->bush);
}

/* --- the list --- */

/* One entry of the preview, whether a tree or a path. */
typedef struct
{
  FrArrivalFate fate;
  gboolean *left_out;
  char *title;
  char *where;
  char *sentence;
} Entry;

static void
entry_clear (Entry *entry)
{
  g_free (entry->title);
  g_free (entry->where);
  g_free (entry->sentence);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Entry, entry_clear)

static FrArrivalFate
fate_at (const FrArrivalPreview *preview, guint i)
{
  return i < preview->rows->len
             ? ((const FrArrivalRow *)preview->rows->pdata[i])->fate
             : ((const FrArrivalPathRow *)preview->paths->pdata[i - preview->rows->len])->fate;
}

static Entry
entry_at (FrImportDialog *self, guint position)
{
  FrArrivalPreview *preview = fr_bush_import_preview (self->import);
  const FrArrivals *arrivals = fr_bush_import_arrivals (self->import);
  FrSay say = { .units = *fr_book_get_units (book_of (self)) };
  guint i = g_array_index (self->order, guint, position);

  if (i < preview->rows->len)
    {
      FrArrivalRow *row = preview->rows->pdata[i];

      return (Entry){ row->fate, &row->left_out, fr_arrival_title (row),
                      fr_arrival_where (arrivals, row->arrival->line),
                      fr_arrival_sentence (row, arrivals, &say) };
    }
  {
    FrArrivalPathRow *row = preview->paths->pdata[i - preview->rows->len];
    const char *name = row->path->name;

    return (Entry){ row->fate, &row->left_out,
                    g_strdup (name != NULL && *name != '\0' ? name : fr_code_word ("form", row->path->form)),
                    fr_arrival_where (arrivals, row->path->line), fr_arrival_path_sentence (row) };
  }
}

static void
make_order (FrImportDialog *self)
{
  static const FrArrivalFate fates[]
      = { FR_ARRIVAL_REFUSED, FR_ARRIVAL_AMBIGUOUS, FR_ARRIVAL_CHANGES, FR_ARRIVAL_NEW, FR_ARRIVAL_SAME };
  const FrArrivalPreview *preview = fr_bush_import_preview (self->import);
  guint n = preview->rows->len + preview->paths->len;
  g_autoptr (GtkStringList) rows = gtk_string_list_new (NULL);
  g_autoptr (GtkNoSelection) model = NULL;

  g_array_set_size (self->order, 0);
  for (guint f = 0; f < G_N_ELEMENTS (fates); f++)
    for (guint i = 0; i < n; i++)
      if (fate_at (preview, i) == fates[f])
        g_array_append_val (self->order, i);
  for (guint i = 0; i < n; i++)
    gtk_string_list_append (rows, ""); /* a row is told by its position */
  model = gtk_no_selection_new (G_LIST_MODEL (g_steal_pointer (&rows)));
  gtk_list_view_set_model (self->list, GTK_SELECTION_MODEL (model));
}

static void
update_button (FrImportDialog *self)
{
  const FrArrivalPreview *preview = self->import != NULL ? fr_bush_import_preview (self->import) : NULL;

  gtk_widget_set_sensitive (self->import_button, preview != NULL && preview->tie != FR_TIE_NEEDS_NAMES
                                                     && fr_bush_import_n_wanted (self->import) > 0);
}

static void
wanted_cb (GtkCheckButton *check, GtkListItem *item)
{
  FrImportDialog *self = FR_IMPORT_DIALOG (gtk_widget_get_root (GTK_WIDGET (check)));
  g_auto (Entry) entry = entry_at (self, gtk_list_item_get_position (item));

  *entry.left_out = !gtk_check_button_get_active (check);
  update_button (self);
}

static void
setup_cb (GtkSignalListItemFactory *factory, GtkListItem *item, FrImportDialog *self)
{
  fr_fate_row_setup (item);
}

static void
bind_cb (GtkSignalListItemFactory *factory, GtkListItem *item, FrImportDialog *self)
{
  g_auto (Entry) entry = entry_at (self, gtk_list_item_get_position (item));
  gboolean comes = entry.fate == FR_ARRIVAL_NEW || entry.fate == FR_ARRIVAL_CHANGES;
  /* Translators: name of a tree, what becomes of it, and where it stands in a file */
  g_autofree char *text
      = g_strdup_printf (_ ("%s · %s · %s"), entry.title, fr_arrival_fate_word (entry.fate), entry.where);

  fr_fate_row_bind (item, text, entry.sentence, comes, comes && !*entry.left_out,
                    entry.fate == FR_ARRIVAL_REFUSED || entry.fate == FR_ARRIVAL_AMBIGUOUS, G_CALLBACK (wanted_cb));
}

static void
unbind_cb (GtkSignalListItemFactory *factory, GtkListItem *item, FrImportDialog *self)
{
  fr_fate_row_unbind (item, G_CALLBACK (wanted_cb));
}

/* --- what is said --- */

static void
remark (FrImportDialog *self, char *sentence)
{
  if (sentence != NULL)
    gtk_box_append (self->remarks, fr_wrapped_text (sentence, "soft"));
  g_free (sentence);
}

static gboolean
asks_for_species (const FrArrivalPreview *preview)
{
  for (guint i = 0; i < preview->rows->len; i++)
    if (((const FrArrivalRow *)preview->rows->pdata[i])->species_assumed)
      return TRUE;
  return FALSE;
}

static void
show (FrImportDialog *self)
{
  gboolean read = self->import != NULL;

  fr_box_empty (self->remarks);
  gtk_widget_set_visible (self->options, read);
  gtk_widget_set_visible (self->list_frame, read);
  if (read)
    {
      FrSay say = { .units = *fr_book_get_units (book_of (self)) };
      const FrArrivalPreview *preview = fr_bush_import_preview (self->import);
      const FrArrivals *arrivals = fr_bush_import_arrivals (self->import);
      g_autofree char *summary = fr_arrival_summary (preview), *fit = fr_arrival_fit_sentence (preview, &say);
      g_autofree char *tie = fr_arrival_tie_sentence (preview, &say);

      fr_set_text (self->summary, summary);
      fr_set_text (self->problem, preview->tie == FR_TIE_NEEDS_NAMES ? tie : NULL);
      if (preview->tie != FR_TIE_NEEDS_NAMES)
        remark (self, g_steal_pointer (&tie));
      if (fit != NULL)
        gtk_box_append (self->remarks, fr_caution_row_new (fit, FR_SEVERITY_WARN));
      for (guint i = 0; i < arrivals->remarks->len; i++)
        remark (self, g_strdup (arrivals->remarks->pdata[i]));
      gtk_widget_set_visible (self->paths_row, arrivals->paths->len > 0);
      gtk_widget_set_visible (self->species, asks_for_species (preview));
      make_order (self);
    }
  update_button (self);
}

static void
look (FrImportDialog *self)
{
  if (self->import == NULL)
    return;
  /* First: a row that is shown asks for its entry. */
  gtk_list_view_set_model (self->list, NULL);
  fr_bush_import_look (self->import);
  show (self);
}

/* --- options --- */

static void
near_cb (FrQuantityRow *row, const char *text, gboolean finished, gpointer data)
{
  FrImportDialog *self = FR_IMPORT_DIALOG (data);
  const FrUnits *units = fr_book_get_units (book_of (self));
  double value_m;

  if (!finished || !fr_quantity_row_read (row, text, TRUE, units, &value_m))
    return;
  if (!(value_m >= 0 && value_m <= 1000))
    {
      fr_quantity_row_set_unread (row, text, units, NULL);
      fr_entry_row_set_problem (FR_ENTRY_ROW (row), _ ("From nothing to a kilometre."));
      return;
    }
  fr_quantity_row_set (row, value_m, text, units, NULL);
  fr_bush_import_options (self->import)->near_m = value_m;
  look (self);
}

static void
option_cb (FrImportDialog *self)
{
  const FrField *field = fr_kind_field (fr_kind (FR_KIND_TREE), "species");
  FrArrivalOptions *options = self->import != NULL ? fr_bush_import_options (self->import) : NULL;

  if (options == NULL)
    return;
  options->replace = gtk_switch_get_active (GTK_SWITCH (self->replace));
  options->with_paths = gtk_switch_get_active (GTK_SWITCH (self->paths));
  options->species = field->codes[adw_combo_row_get_selected (ADW_COMBO_ROW (self->species))];
  look (self);
}

/* --- reading --- */

static void
read_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (GError) error = NULL;
  FrArrivals *arrivals = fr_bush_import_read_finish (result, &error);
  FrImportDialog *self;

  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return; /* the dialog is gone, or reads another file */
  self = FR_IMPORT_DIALOG (user_data);
  g_clear_object (&self->reading);
  if (arrivals == NULL)
    {
      fr_set_text (self->summary, NULL);
      fr_set_text (self->problem, error->message);
      return;
    }
  self->import = fr_bush_import_new (book_of (self), arrivals, fr_sugarbush_get_today (self->bush));
  if (gtk_switch_get_active (GTK_SWITCH (self->paths)) || gtk_switch_get_active (GTK_SWITCH (self->replace)))
    option_cb (self);
  fr_quantity_row_set (FR_QUANTITY_ROW (self->near_row), fr_bush_import_options (self->import)->near_m, NULL,
                       fr_book_get_units (book_of (self)), NULL);
  show (self);
}

static void
drop_import (FrImportDialog *self)
{
  if (self->list != NULL)
    gtk_list_view_set_model (self->list, NULL);
  g_clear_pointer (&self->import, fr_bush_import_free);
}

void
fr_import_dialog_read (FrImportDialog *self, GFile *file)
{
  g_autofree char *name = g_file_get_basename (file);
  g_autofree char *shown = g_utf8_make_valid (name, -1);

  if (self->reading != NULL)
    g_cancellable_cancel (self->reading);
  g_clear_object (&self->reading);
  drop_import (self);
  g_set_object (&self->file, file);
  self->reading = g_cancellable_new ();
  gtk_label_set_text (GTK_LABEL (self->name), shown);
  fr_set_text (self->problem, NULL);
  show (self);
  fr_set_text (self->summary, _ ("Reading…"));
  fr_bush_import_read_async (file, self->reading, read_cb, self);
}

gboolean
fr_import_dialog_is_reading (FrImportDialog *self)
{
  return self->reading != NULL;
}

static void
chosen_cb (GtkNativeDialog *dialog, int response, gpointer user_data)
{
  if (response == GTK_RESPONSE_ACCEPT)
    {
      g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));

      fr_import_dialog_read (FR_IMPORT_DIALOG (user_data), file);
    }
  g_object_unref (dialog);
}

static void
choose_cb (FrImportDialog *self)
{
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (
      _ ("Import Trees"), GTK_WINDOW (self), GTK_FILE_CHOOSER_ACTION_OPEN, _ ("_Open"), _ ("_Cancel"));
  g_autoptr (GtkFileFilter) known = gtk_file_filter_new ();
  g_autoptr (GtkFileFilter) all = gtk_file_filter_new ();

  gtk_file_filter_set_name (known, _ ("GPX, GeoJSON and CSV files"));
  gtk_file_filter_add_suffix (known, "gpx");
  gtk_file_filter_add_suffix (known, "geojson");
  gtk_file_filter_add_suffix (known, "json");
  gtk_file_filter_add_suffix (known, "csv");
  gtk_file_filter_set_name (all, _ ("All files"));
  gtk_file_filter_add_pattern (all, "*");
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (dialog), known);
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (dialog), all);
  g_signal_connect_object (dialog, "response", G_CALLBACK (chosen_cb), self, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

/* --- bringing in --- */

/* What came is selected, so that it can be seen where it stands. */
static void
select_new (FrImportDialog *self, const FrChange *change)
{
  g_autoptr (GArray) trees = g_array_new (FALSE, FALSE, sizeof (gint64));

  for (guint i = 0; i < change->steps->len; i++)
    {
      const FrStep *step = g_ptr_array_index (change->steps, i);

      if (step->before == NULL && step->after->kind->id == FR_KIND_TREE)
        g_array_append_val (trees, step->after->id);
    }
  if (trees->len > 0)
    fr_sugarbush_select_many (self->bush, (const gint64 *)(gpointer)trees->data, trees->len);
}

static void
import_cb (FrImportDialog *self)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrChange) change = NULL;

  fr_entry_row_finish (FR_ENTRY_ROW (self->near_row));
  if (!gtk_widget_get_sensitive (self->import_button))
    return;
  change = fr_bush_import_change (self->import, gtk_label_get_text (GTK_LABEL (self->name)), &error);
  if (error != NULL)
    {
      fr_set_text (self->problem, error->message);
      return;
    }
  /* Else each record that comes in would look the whole file through again. */
  g_signal_handlers_disconnect_by_func (book_of (self), look, self);
  if (change != NULL && !fr_window_apply (self->window, change))
    {
      g_signal_connect_object (book_of (self), "changed", G_CALLBACK (look), self, G_CONNECT_SWAPPED);
      return;
    }
  if (change != NULL)
    select_new (self, change);
  gtk_window_close (GTK_WINDOW (self));
}

/* --- building --- */

static GtkWidget *
switch_row (FrImportDialog *self, const char *title, const char *note, GtkWidget **switch_out)
{
  GtkWidget *row = adw_action_row_new (), *made = gtk_switch_new ();

  gtk_widget_set_valign (made, GTK_ALIGN_CENTER);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), note);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), made);
  adw_action_row_set_activatable_widget (ADW_ACTION_ROW (row), made);
  gtk_accessible_update_property (GTK_ACCESSIBLE (made), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
  g_signal_connect_object (made, "notify::active", G_CALLBACK (option_cb), self, G_CONNECT_SWAPPED);
  *switch_out = made;
  return row;
}

static GtkWidget *
build_options (FrImportDialog *self)
{
  const FrField *field = fr_kind_field (fr_kind (FR_KIND_TREE), "species");
  g_autoptr (GtkStringList) words = gtk_string_list_new (NULL);
  GtkWidget *group = adw_preferences_group_new (), *replace;

  for (guint i = 0; field->codes[i] != NULL; i++)
    gtk_string_list_append (words, fr_code_word ("species", field->codes[i]));
  self->near_row
      = fr_quantity_row_new (_ ("Taken for the same within"),
                             _ ("Trees of another name or none, so near each other"), FR_QUANTITY_DISTANCE);
  fr_quantity_row_on_text (FR_QUANTITY_ROW (self->near_row), near_cb, self);
  replace = switch_row (self, _ ("The file knows better"),
                        _ ("What it says goes before the book, places too; else it only fills in"),
                        &self->replace);
  self->paths_row = switch_row (self, _ ("With paths"), _ ("Tracks and lines become drawings of the ground"),
                                &self->paths);
  self->species = adw_combo_row_new ();
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self->species), _ ("Where no species is said"));
  adw_combo_row_set_model (ADW_COMBO_ROW (self->species), G_LIST_MODEL (words));
  g_signal_connect_object (self->species, "notify::selected", G_CALLBACK (option_cb), self,
                           G_CONNECT_SWAPPED);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), self->near_row);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), self->species);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), replace);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), self->paths_row);
  return group;
}

static GtkWidget *
build_list (FrImportDialog *self)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  GtkWidget *scroller = gtk_scrolled_window_new ();

  g_signal_connect (factory, "setup", G_CALLBACK (setup_cb), self);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_cb), self);
  g_signal_connect (factory, "unbind", G_CALLBACK (unbind_cb), self);
  self->list = GTK_LIST_VIEW (gtk_list_view_new (NULL, factory));
  gtk_list_view_set_show_separators (self->list, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->list), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("What becomes of each"), -1);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), GTK_WIDGET (self->list));
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (scroller), 200);
  gtk_widget_set_vexpand (scroller, TRUE);
  gtk_widget_add_css_class (scroller, "card");
  gtk_widget_set_overflow (scroller, GTK_OVERFLOW_HIDDEN); /* round corners */
  return scroller;
}

static GtkWidget *
build_file (FrImportDialog *self)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *choose = gtk_button_new_with_mnemonic (_ ("C_hoose File…"));

  self->name = fr_wrapped_text (_ ("GPX, GeoJSON or CSV; what it is, is seen from what is in it."), NULL);
  gtk_widget_set_hexpand (self->name, TRUE);
  gtk_widget_set_valign (choose, GTK_ALIGN_CENTER);
  g_signal_connect_object (choose, "clicked", G_CALLBACK (choose_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (line), self->name);
  gtk_box_append (GTK_BOX (line), choose);
  self->choose = choose;
  return line;
}

static void
fr_import_dialog_dispose (GObject *object)
{
  FrImportDialog *self = FR_IMPORT_DIALOG (object);

  if (self->reading != NULL)
    g_cancellable_cancel (self->reading);
  g_clear_object (&self->reading);
  drop_import (self);
  self->list = NULL;
  adw_window_set_content (ADW_WINDOW (self), NULL);
  g_clear_object (&self->file);
  g_clear_object (&self->bush);
  G_OBJECT_CLASS (fr_import_dialog_parent_class)->dispose (object);
}

static void
fr_import_dialog_finalize (GObject *object)
{
  g_array_unref (FR_IMPORT_DIALOG (object)->order);
  G_OBJECT_CLASS (fr_import_dialog_parent_class)->finalize (object);
}

static void
fr_import_dialog_class_init (FrImportDialogClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_import_dialog_dispose;
  G_OBJECT_CLASS (klass)->finalize = fr_import_dialog_finalize;
  fr_dialog_frame_class_init (GTK_WIDGET_CLASS (klass));
}

static void
fr_import_dialog_init (FrImportDialog *self)
{
  self->order = g_array_new (FALSE, FALSE, sizeof (guint));
}

GtkWidget *
fr_import_dialog_new (FrWindow *window, FrSugarbush *bush, GFile *file)
{
  FrImportDialog *self = g_object_new (FR_TYPE_IMPORT_DIALOG, "transient-for", window, NULL);
  GtkBox *inner;

  self->window = window;
  self->bush = g_object_ref (bush);
  self->import_button = fr_dialog_frame_build (ADW_WINDOW (self), _ ("Import Trees"), 560, 590,
                                               G_CALLBACK (import_cb), self, &inner);
  fr_dialog_frame_name_buttons (ADW_WINDOW (self), NULL, _ ("_Import"));
  self->summary = fr_wrapped_text (NULL, "strong");
  self->problem = fr_wrapped_text (NULL, "problem");
  self->remarks = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 6));
  self->options = build_options (self);
  self->list_frame = build_list (self);
  gtk_box_set_spacing (inner, 12);
  gtk_box_append (inner, build_file (self));
  gtk_box_append (inner, self->summary);
  gtk_box_append (inner, self->problem);
  gtk_box_append (inner, GTK_WIDGET (self->remarks));
  gtk_box_append (inner, self->options);
  gtk_box_append (inner, self->list_frame);
  g_signal_connect_object (book_of (self), "changed", G_CALLBACK (look), self, G_CONNECT_SWAPPED);
  fr_set_text (self->summary, NULL);
  fr_set_text (self->problem, NULL);
  show (self);
  gtk_widget_grab_focus (self->choose);
  if (file != NULL)
    fr_import_dialog_read (self, file);
  return GTK_WIDGET (self);
}
