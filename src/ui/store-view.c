/* The store. Rows are kept by their place in the list, for there are few. */
#include "ui/store-view.h"

#include <glib/gi18n-lib.h>

#include "models/season-edit.h"
#include "ui/pieces.h"
#include "ui/record-editor.h"
#include "ui/sap-dialogs.h"
#include "ui/store-row.h"
#include "ui/tonight-answer.h"
#include "ui/window.h"
#include "words/ledger-words.h"
#include "words/stock-words.h"

#define FEW_LINES 6

struct _FrStoreView
{
  AdwBin parent_instance;
  FrSeason *season;
  GtkWidget *answer;
  GtkWidget *places;
  GtkWidget *empty;
  GtkWidget *lines;
  GPtrArray *line_rows;
  GtkWidget *more_lines;
  gboolean all_lines;
  FrCalendarKeeper *keeper;
  GtkWidget *file_note;
  FrDraft *draft; /* of the ways of keeping */
  FrRecordEditor *keeping;
  gboolean stale;
};

G_DEFINE_FINAL_TYPE (FrStoreView, fr_store_view, ADW_TYPE_BIN)

static FrBook *
book_of (FrStoreView *self)
{
  return fr_season_get_book (self->season);
}

/* What the book has, or what is usual. */
static FrRecord *
storing_now (FrStoreView *self)
{
  FrRecordList *list = fr_book_get_list (book_of (self), FR_KIND_STORING);

  return fr_record_list_get_size (list) > 0 ? fr_record_copy (fr_record_list_get (list, 0))
                                            : fr_record_new (FR_KIND_STORING);
}

static void
show_places (FrStoreView *self, const FrStock *stock)
{
  GtkListBox *list = GTK_LIST_BOX (self->places);
  GtkListBoxRow *row;

  for (guint i = 0; i < stock->n_places; i++)
    {
      row = gtk_list_box_get_row_at_index (list, (int)i);
      if (row == NULL)
        {
          row = GTK_LIST_BOX_ROW (fr_store_row_new ());
          gtk_list_box_append (list, GTK_WIDGET (row));
        }
      fr_store_row_set (FR_STORE_ROW (row), &stock->places[i], stock, fr_season_get_say (self->season));
    }
  while ((row = gtk_list_box_get_row_at_index (list, (int)stock->n_places)) != NULL)
    gtk_list_box_remove (list, GTK_WIDGET (row));
  gtk_widget_set_visible (self->places, stock->n_places > 0);
  gtk_widget_set_visible (self->empty, stock->n_places == 0);
}

static void
edit_line_cb (GtkButton *button, gpointer user_data)
{
  FrStoreView *self = FR_STORE_VIEW (user_data);
  FrKindId kind = (FrKindId)GPOINTER_TO_INT (g_object_get_data (G_OBJECT (button), "kind"));
  gint64 id = *(const gint64 *)g_object_get_data (G_OBJECT (button), "id");
  const FrRecord *record = fr_book_find (book_of (self), kind, id);

  if (record != NULL)
    fr_sap_edit (fr_window_of (GTK_WIDGET (self)), self->season, record);
}

static GtkWidget *
look_button (FrStoreView *self, const FrRecord *record, const char *sentence)
{
  GtkWidget *button = gtk_button_new_with_label (_ ("Look at It…"));

  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (button, "flat");
  g_object_set_data (G_OBJECT (button), "kind", GINT_TO_POINTER (record->kind->id));
  g_object_set_data_full (G_OBJECT (button), "id", g_memdup2 (&record->id, sizeof record->id), g_free);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, sentence, -1);
  g_signal_connect_object (button, "clicked", G_CALLBACK (edit_line_cb), self, 0);
  return button;
}

/* The line, the likeliest cause under it, and behind it the others with how likely they are. */
static void
add_line (FrStoreView *self, const FrLedger *ledger, const FrLedgerLine *line)
{
  const FrSay *say = fr_season_get_say (self->season);
  GtkWidget *row = adw_expander_row_new (), *icon = gtk_image_new_from_icon_name ("dialog-warning-symbolic");
  g_autofree char *sentence = fr_ledger_line_sentence (line, ledger, say);
  g_autofree char *cause
      = line->n_causes > 0 ? fr_ledger_cause_sentence (line, &line->causes[0], say) : g_strdup ("");
  g_autofree char *title = g_markup_escape_text (sentence, -1), *subtitle = g_markup_escape_text (cause, -1);

  gtk_widget_add_css_class (icon, "caution");
  gtk_accessible_update_property (GTK_ACCESSIBLE (icon), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Caution"), -1);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  adw_expander_row_set_subtitle (ADW_EXPANDER_ROW (row), subtitle);
  adw_expander_row_add_prefix (ADW_EXPANDER_ROW (row), icon);
  adw_expander_row_set_enable_expansion (ADW_EXPANDER_ROW (row), line->n_causes > 0);
  if (line->record != NULL)
    adw_expander_row_add_action (ADW_EXPANDER_ROW (row), look_button (self, line->record, sentence));
  for (guint i = 0; i < line->n_causes; i++)
    {
      GtkWidget *other = adw_action_row_new (), *chance = gtk_label_new (NULL);
      g_autofree char *words = fr_ledger_cause_sentence (line, &line->causes[i], say);
      g_autofree char *odds = fr_ledger_chance_words (&line->causes[i], say);
      g_autofree char *markup = g_markup_escape_text (words, -1);

      adw_preferences_row_set_title (ADW_PREFERENCES_ROW (other), markup);
      gtk_label_set_text (GTK_LABEL (chance), odds);
      gtk_widget_add_css_class (chance, "soft");
      adw_action_row_add_suffix (ADW_ACTION_ROW (other), chance);
      if (line->causes[i].record != NULL && line->causes[i].record != line->record)
        adw_action_row_add_suffix (ADW_ACTION_ROW (other), look_button (self, line->causes[i].record, words));
      adw_expander_row_add_row (ADW_EXPANDER_ROW (row), other);
    }
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (self->lines), row);
  g_ptr_array_add (self->line_rows, row);
}

/* The latest first. All of them are shown when asked for: none is left out for good. */
static void
show_lines (FrStoreView *self)
{
  const FrLedger *ledger = fr_season_get_ledger (self->season);
  const FrSay *say = fr_season_get_say (self->season);
  g_autofree char *markup = fr_ledger_sentence (ledger, say), *plain = fr_say_plain (markup);
  g_autofree char *reason = fr_ledger_reason (ledger, say);
  g_autofree char *whole = g_strdup_printf ("%s%s%s%s%s", plain, reason != NULL ? " " : "",
                                            reason != NULL ? reason : "", ledger->n_lines == 0 ? " " : "",
                                            ledger->n_lines == 0 ? _ ("All of it adds up.") : "");
  g_autofree char *account = g_markup_escape_text (whole, -1);
  guint shown = self->all_lines ? ledger->n_lines : MIN (ledger->n_lines, FEW_LINES);

  for (guint i = 0; i < self->line_rows->len; i++)
    adw_preferences_group_remove (ADW_PREFERENCES_GROUP (self->lines), self->line_rows->pdata[i]);
  g_ptr_array_set_size (self->line_rows, 0);
  gtk_widget_set_visible (self->lines, ledger->n_lines > 0 || ledger->all.flows[FR_FLOW_GATHERED].volume_l > 0);
  adw_preferences_group_set_description (ADW_PREFERENCES_GROUP (self->lines), account);
  for (guint i = 0; i < shown; i++)
    add_line (self, ledger, &ledger->lines[ledger->n_lines - 1 - i]);
  if (shown < ledger->n_lines)
    {
      g_autofree char *label = g_strdup_printf (
          g_dngettext (GETTEXT_PACKAGE, "Show %u More", "Show %u More", ledger->n_lines - shown),
          ledger->n_lines - shown);

      gtk_button_set_label (GTK_BUTTON (self->more_lines), label);
    }
  gtk_widget_set_visible (self->more_lines, shown < ledger->n_lines);
}

static void
more_lines_cb (FrStoreView *self)
{
  self->all_lines = TRUE;
  show_lines (self);
}

static void
show_file (FrStoreView *self)
{
  const char *problem = fr_calendar_keeper_get_problem (self->keeper);
  g_autofree char *path = fr_calendar_keeper_get_path (self->keeper);
  g_autofree char *shown = path != NULL ? g_filename_display_name (path) : NULL;
  /* Translators: a file */
  g_autofree char *kept = shown != NULL ? g_strdup_printf (_ ("Kept up to date: %s"), shown) : NULL;

  fr_set_text (self->file_note, problem != NULL ? problem : kept);
  if (problem != NULL)
    gtk_widget_add_css_class (self->file_note, "problem");
  else
    gtk_widget_remove_css_class (self->file_note, "problem");
}

static void
show (FrStoreView *self)
{
  const FrStock *stock;
  const FrSay *say = fr_season_get_say (self->season);
  g_autofree char *sentence = NULL, *reason = NULL;
  g_autoptr (FrRecord) storing = storing_now (self);

  if (!gtk_widget_get_mapped (GTK_WIDGET (self)))
    {
      self->stale = TRUE;
      return;
    }
  self->stale = FALSE;
  stock = fr_season_get_present (self->season)->stock;
  sentence = fr_stock_sentence (stock, say);
  reason = fr_stock_reason (stock, say);
  fr_tonight_answer_set_texts (FR_TONIGHT_ANSWER (self->answer), sentence, reason, NULL, NULL);
  show_places (self, stock);
  show_lines (self);
  show_file (self);
  fr_draft_rebase (self->draft, storing);
  fr_record_editor_update (self->keeping);
}

static void
map_cb (FrStoreView *self)
{
  fr_season_refresh (self->season);
  if (self->stale)
    show (self);
}

/* --- the calendar file --- */

static void
chosen_cb (GtkNativeDialog *dialog, int response, gpointer user_data)
{
  FrStoreView *self = FR_STORE_VIEW (user_data);

  if (response == GTK_RESPONSE_ACCEPT)
    {
      g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
      g_autofree char *path = g_file_get_path (file), *text = g_filename_to_utf8 (path, -1, NULL, NULL, NULL);
      g_autoptr (FrRecord) storing = storing_now (self);
      GError *error = NULL;
      FrChange *change;

      fr_record_set_text (storing, fr_kind_field (storing->kind, "calendar_folder"), text);
      change = fr_season_edit_storing (book_of (self), (const FrStoring *)storing, &error);
      fr_window_finish (fr_window_of (GTK_WIDGET (self)), change, error);
    }
  gtk_native_dialog_destroy (dialog);
  g_object_unref (dialog);
  g_object_unref (self);
}

static void
choose_folder_cb (FrStoreView *self)
{
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (
      _ ("Folder of the Calendar File"), GTK_WINDOW (fr_window_of (GTK_WIDGET (self))),
      GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER, _ ("_Choose"), _ ("_Cancel"));

  g_signal_connect (dialog, "response", G_CALLBACK (chosen_cb), g_object_ref (self));
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

static GtkWidget *
make_file (FrStoreView *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6),
            *button = gtk_button_new_with_label (_ ("Choose a Folder…"));

  self->file_note = fr_wrapped_text (NULL, "note");
  gtk_widget_set_halign (button, GTK_ALIGN_START);
  g_signal_connect_object (button, "clicked", G_CALLBACK (choose_folder_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (box), self->file_note);
  gtk_box_append (GTK_BOX (box), button);
  return box;
}

static FrChange *
keep_storing (FrBook *book, const FrRecord *record, gpointer data)
{
  /* What cannot be kept stands under its row. */
  return fr_season_edit_storing (book, (const FrStoring *)record, NULL);
}

static GtkWidget *
make_heading (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12), *title = gtk_label_new (_ ("Containers"));
  GtkWidget *add = gtk_button_new_with_label (_ ("Add Container…"));

  gtk_label_set_xalign (GTK_LABEL (title), 0);
  gtk_widget_set_hexpand (title, TRUE);
  gtk_widget_add_css_class (title, "card-heading");
  gtk_actionable_set_action_name (GTK_ACTIONABLE (add), "season.add-container");
  gtk_box_append (GTK_BOX (box), title);
  gtk_box_append (GTK_BOX (box), add);
  return box;
}

static void
fr_store_view_dispose (GObject *object)
{
  FrStoreView *self = FR_STORE_VIEW (object);

  adw_bin_set_child (ADW_BIN (self), NULL); /* the editor borrows the draft */
  if (self->season != NULL)
    g_signal_handlers_disconnect_by_data (self->season, self);
  g_clear_pointer (&self->draft, fr_draft_free);
  g_clear_pointer (&self->line_rows, g_ptr_array_unref);
  g_clear_object (&self->keeper);
  g_clear_object (&self->season);
  G_OBJECT_CLASS (fr_store_view_parent_class)->dispose (object);
}

static void
fr_store_view_class_init (FrStoreViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_store_view_dispose;
}

static void
fr_store_view_init (FrStoreView *self)
{
}

GtkWidget *
fr_store_view_new (FrSeason *season, FrCalendarKeeper *keeper)
{
  FrStoreView *self = g_object_new (FR_TYPE_STORE_VIEW, NULL);
  GtkWidget *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 16), *scroller = gtk_scrolled_window_new ();
  GtkWidget *clamp = adw_clamp_new ();
  g_autoptr (FrRecord) storing = NULL;

  self->season = g_object_ref (season);
  self->keeper = g_object_ref (keeper);
  storing = storing_now (self);
  self->answer = fr_tonight_answer_new ();
  self->places = gtk_list_box_new ();
  gtk_list_box_set_selection_mode (GTK_LIST_BOX (self->places), GTK_SELECTION_NONE);
  gtk_widget_add_css_class (self->places, "boxed-list");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->places), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Containers"), -1);
  self->empty = fr_wrapped_text (
      _ ("No container is in the book yet. With one, the program follows what is in it, how cold "
         "it is and until when it keeps."),
      "soft");
  self->lines = adw_preferences_group_new ();
  adw_preferences_group_set_title (ADW_PREFERENCES_GROUP (self->lines), _ ("The Season’s Account"));
  self->line_rows = g_ptr_array_new ();
  self->more_lines = gtk_button_new_with_label (_ ("Show More"));
  gtk_widget_set_halign (self->more_lines, GTK_ALIGN_START);
  g_signal_connect_object (self->more_lines, "clicked", G_CALLBACK (more_lines_cb), self, G_CONNECT_SWAPPED);
  self->draft = fr_draft_new (storing, TRUE);
  self->keeping = fr_record_editor_new (fr_season_get_book (season), self->draft, NULL);
  fr_record_editor_set_keep (self->keeping, keep_storing, NULL);
  gtk_box_append (GTK_BOX (page), self->answer);
  gtk_box_append (GTK_BOX (page), make_heading ());
  gtk_box_append (GTK_BOX (page), self->places);
  gtk_box_append (GTK_BOX (page), self->empty);
  gtk_box_append (GTK_BOX (page), self->lines);
  gtk_box_append (GTK_BOX (page), self->more_lines);
  gtk_box_append (GTK_BOX (page), GTK_WIDGET (self->keeping));
  gtk_box_append (GTK_BOX (page), make_file (self));
  gtk_box_append (
      GTK_BOX (page),
      fr_wrapped_text (
          _ ("How long raw sap may be kept is also a matter of local food rules; where they ask for "
             "less, they come first."),
          "note"));
  gtk_widget_add_css_class (page, "page");
  adw_clamp_set_maximum_size (ADW_CLAMP (clamp), 860);
  adw_clamp_set_child (ADW_CLAMP (clamp), page);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), clamp);
  adw_bin_set_child (ADW_BIN (self), scroller);
  self->stale = TRUE;
  g_signal_connect_object (keeper, "problem-changed", G_CALLBACK (show_file), self, G_CONNECT_SWAPPED);
  g_signal_connect_swapped (season, "changed", G_CALLBACK (show), self);
  g_signal_connect_after (self, "map", G_CALLBACK (map_cb), NULL);
  return GTK_WIDGET (self);
}
