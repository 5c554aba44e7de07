/* The dialog of one record. It edits a draft; the change is made from the draft when Keep is pressed, so that a record that another
 * program changed meanwhile is refused by the door and not written over. */
#include "ui/record-dialog.h"

#include <glib/gi18n-lib.h>

#include "models/draft.h"
#include "ui/dialog-frame.h"
#include "ui/field-labels.h"
#include "ui/pieces.h"
#include "ui/record-editor.h"

struct _FrRecordDialog
{
  AdwWindow parent_instance;
  FrWindow *window; /* the dialog is transient for it and goes first */
  FrDraft *draft;
  FrRecordEditor *editor;
  GtkWidget *question_box;
  GtkWidget *question;
  FrRecordAsk ask;
  gpointer ask_data;
  GDestroyNotify ask_destroy;
};

G_DEFINE_FINAL_TYPE (FrRecordDialog, fr_record_dialog, ADW_TYPE_WINDOW)

static void
show_question (FrRecordDialog *self, const char *sentence)
{
  fr_set_text (self->question, sentence);
  gtk_widget_set_visible (self->question_box, sentence != NULL);
  fr_dialog_frame_name_buttons (ADW_WINDOW (self), NULL, sentence != NULL ? _ ("_Keep Anyway") : _ ("_Keep"));
}

/* Whether the record may be kept now: nothing is asked, or it was asked and Keep pressed once more. */
static gboolean
is_answered (FrRecordDialog *self)
{
  const FrRecord *record = fr_draft_get_current (self->draft);
  const FrField *field = fr_kind_field (record->kind, "confirmed");
  g_autofree char *sentence = NULL;

  if (self->ask == NULL || field == NULL)
    return TRUE;
  if (!gtk_widget_get_visible (self->question_box))
    {
      fr_draft_choose_int (self->draft, field, FALSE);
      sentence = self->ask (record, self->ask_data);
      if (sentence == NULL)
        return TRUE;
      show_question (self, sentence);
      return FALSE;
    }
  fr_draft_choose_int (self->draft, field, TRUE);
  return TRUE;
}

static void
changed_cb (FrRecordDialog *self)
{
  show_question (self, NULL);
}

static void
keep_cb (FrRecordDialog *self)
{
  const FrRecord *record = fr_draft_get_original (self->draft);
  gboolean is_new = fr_draft_is_new (self->draft);
  g_autofree char *label = g_strconcat (is_new ? "add-" : "edit-", record->kind->name, NULL);
  g_autoptr (FrChange) change = NULL;

  fr_record_editor_finish (self->editor);
  if (fr_record_editor_show_missing (self->editor) > 0 || fr_draft_n_problems (self->draft) > 0)
    return;
  if (!is_answered (self))
    return;
  change = fr_draft_change (self->draft, label);
  if (change == NULL || fr_window_apply (self->window, change))
    gtk_window_close (GTK_WINDOW (self));
}

static void
remove_cb (FrRecordDialog *self)
{
  FrBook *book = fr_window_get_book (self->window);
  const FrRecord *mine = fr_draft_get_original (self->draft);
  const FrRecord *record = fr_book_find (book, mine->kind->id, mine->id);
  gboolean used = record != NULL && fr_book_is_used (book, record);
  g_autofree char *label = g_strconcat (used ? "archive-" : "delete-", mine->kind->name, NULL);
  g_autoptr (FrChange) change = fr_change_new (label, fr_record_label (mine));
  g_autoptr (FrRecord) after = NULL;

  if (record != NULL)
    {
      if (used)
        {
          after = fr_record_copy (record);
          after->archived = TRUE;
        }
      fr_change_add (change, record, after);
      if (!fr_window_apply (self->window, change))
        return;
    }
  gtk_window_close (GTK_WINDOW (self));
}

static void
fr_record_dialog_dispose (GObject *object)
{
  /* The editor borrows the draft. */
  adw_window_set_content (ADW_WINDOW (object), NULL);
  FR_RECORD_DIALOG (object)->editor = NULL;
  g_clear_pointer (&FR_RECORD_DIALOG (object)->draft, fr_draft_free);
  if (FR_RECORD_DIALOG (object)->ask_destroy != NULL)
    FR_RECORD_DIALOG (object)->ask_destroy (FR_RECORD_DIALOG (object)->ask_data);
  FR_RECORD_DIALOG (object)->ask_destroy = NULL;
  G_OBJECT_CLASS (fr_record_dialog_parent_class)->dispose (object);
}

static void
fr_record_dialog_class_init (FrRecordDialogClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_record_dialog_dispose;
  fr_dialog_frame_class_init (GTK_WIDGET_CLASS (klass));
}

static void
fr_record_dialog_init (FrRecordDialog *self)
{
}

GtkWidget *
fr_record_dialog_new (FrWindow *window, const FrRecord *record, const char *title, const char *const *only)
{
  FrRecordDialog *self = g_object_new (FR_TYPE_RECORD_DIALOG, "transient-for", window, NULL);
  FrBook *book = fr_window_get_book (window);
  gboolean is_new = fr_book_find (book, record->kind->id, record->id) == NULL;
  const char *heading = title != NULL ? title
                        : is_new      ? fr_kind_add (record->kind->id)
                                      : fr_kind_singular (record->kind->id);
  GtkBox *inner;

  self->window = window;
  self->draft = fr_draft_new (record, is_new);
  fr_dialog_frame_build (ADW_WINDOW (self), heading, 480, 620, G_CALLBACK (keep_cb), self, &inner);
  self->question = fr_wrapped_text (NULL, NULL);
  self->question_box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  gtk_widget_add_css_class (self->question_box, "danger-line");
  gtk_widget_set_visible (self->question_box, FALSE);
  gtk_box_append (GTK_BOX (self->question_box), self->question);
  gtk_box_append (inner, self->question_box);
  self->editor = fr_record_editor_new (book, self->draft, only);
  g_signal_connect_object (self->editor, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (inner, GTK_WIDGET (self->editor));
  if (!is_new)
    {
      GtkWidget *remove = gtk_button_new_with_mnemonic (_ ("_Delete"));

      gtk_widget_add_css_class (remove, "destructive-action");
      gtk_widget_set_halign (remove, GTK_ALIGN_START);
      g_signal_connect_swapped (remove, "clicked", G_CALLBACK (remove_cb), self);
      gtk_box_append (inner, remove);
    }
  return GTK_WIDGET (self);
}

void
fr_record_dialog_on_ask (FrRecordDialog *self, FrRecordAsk ask, gpointer data, GDestroyNotify destroy)
{
  g_return_if_fail (self->ask == NULL);
  self->ask = ask;
  self->ask_data = data;
  self->ask_destroy = destroy;
}

void
fr_record_dialog_begin_at (FrRecordDialog *self, const char *field)
{
  fr_record_editor_grab (self->editor, field);
}
