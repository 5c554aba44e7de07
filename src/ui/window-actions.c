/* Every action of the window in one place, and one function that says which of them can be done. */
#include "ui/window-private.h"

#include <glib/gi18n-lib.h>

#include "ui/application.h"
#include "ui/entry-row.h"
#include "ui/kit-page.h"
#include "ui/log-line.h"
#include "words/entry-words.h"

/* While a person is in the middle of an entry, undo means the letters, not the book. */
static gboolean
undo_letters (FrWindow *self, const char *action)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));
  GtkWidget *row = focus != NULL ? gtk_widget_get_ancestor (focus, FR_TYPE_ENTRY_ROW) : NULL;

  GtkWidget *line = focus != NULL ? gtk_widget_get_ancestor (focus, FR_TYPE_LOG_LINE) : NULL;
  gboolean typing = (row != NULL && fr_entry_row_is_modified (FR_ENTRY_ROW (row)))
                    || (line != NULL && fr_gather_row_is_begun (fr_log_line_get_row (FR_LOG_LINE (line))));

  return typing && gtk_widget_activate_action (focus, action, NULL);
}

static void
undo_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  FrWindow *self = FR_WINDOW (widget);
  g_autoptr (GError) error = NULL;

  if (undo_letters (self, "text.undo"))
    return;
  g_clear_pointer (&self->toast, adw_toast_dismiss);
  if (!fr_book_undo (self->book, &error))
    fr_window_show_error (self, error);
}

static void
redo_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  FrWindow *self = FR_WINDOW (widget);
  g_autoptr (GError) error = NULL;

  if (undo_letters (self, "text.redo"))
    return;
  g_clear_pointer (&self->toast, adw_toast_dismiss);
  if (!fr_book_redo (self->book, &error))
    fr_window_show_error (self, error);
}

static void
page_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  fr_window_show_page (FR_WINDOW (widget), g_variant_get_string (parameter, NULL));
}

static void
add_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  FrWindow *self = FR_WINDOW (widget);
  const FrKind *kind = fr_kind_by_name (g_variant_get_string (parameter, NULL));

  g_return_if_fail (kind != NULL);
  fr_window_show_page (self, "kit");
  fr_kit_page_add (FR_KIT_PAGE (gtk_stack_get_child_by_name (self->stack, "kit")), kind->id);
}

static void
sidebar_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  FrWindow *self = FR_WINDOW (widget);

  adw_flap_set_reveal_flap (self->flap, !adw_flap_get_reveal_flap (self->flap));
}

static void
set_up_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  fr_window_set_up (FR_WINDOW (widget), TRUE);
}

static void
leave_set_up_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  fr_window_set_up (FR_WINDOW (widget), FALSE);
}

static void
chosen_cb (GtkNativeDialog *dialog, int response, gpointer user_data)
{
  FrWindow *self = FR_WINDOW (user_data);

  if (response == GTK_RESPONSE_ACCEPT)
    {
      g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
      g_autofree char *path = g_file_get_path (file);
      g_autoptr (GError) error = NULL;

      if (!fr_application_open_book (FR_APPLICATION (gtk_window_get_application (GTK_WINDOW (self))), path,
                                     &error))
        fr_window_show_error (self, error);
    }
  gtk_native_dialog_destroy (dialog);
  g_object_unref (dialog);
  g_object_unref (self);
}

static void
choose_book (FrWindow *self, gboolean make_new)
{
  GtkFileChooserNative *dialog
      = gtk_file_chooser_native_new (make_new ? _ ("New Book") : _ ("Open Book"), GTK_WINDOW (self),
                                     make_new ? GTK_FILE_CHOOSER_ACTION_SAVE : GTK_FILE_CHOOSER_ACTION_OPEN,
                                     make_new ? _ ("_Make") : _ ("_Open"), _ ("_Cancel"));
  g_autoptr (GtkFileFilter) books = gtk_file_filter_new ();

  gtk_file_filter_set_name (books, _ ("Frostrun books"));
  gtk_file_filter_add_pattern (books, "*.frostrun");
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (dialog), books);
  if (make_new)
    gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (dialog), _ ("Sap.frostrun"));
  g_signal_connect (dialog, "response", G_CALLBACK (chosen_cb), g_object_ref (self));
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

static void
open_book_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  choose_book (FR_WINDOW (widget), FALSE);
}

static void
new_book_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  choose_book (FR_WINDOW (widget), TRUE);
}

void
fr_window_actions_init (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "win.undo", NULL, undo_cb);
  gtk_widget_class_install_action (widget_class, "win.redo", NULL, redo_cb);
  gtk_widget_class_install_action (widget_class, "win.page", "s", page_cb);
  gtk_widget_class_install_action (widget_class, "win.add", "s", add_cb);
  gtk_widget_class_install_action (widget_class, "win.sidebar", NULL, sidebar_cb);
  gtk_widget_class_install_action (widget_class, "win.set-up", NULL, set_up_cb);
  gtk_widget_class_install_action (widget_class, "win.leave-set-up", NULL, leave_set_up_cb);
  gtk_widget_class_install_action (widget_class, "win.open-book", NULL, open_book_cb);
  gtk_widget_class_install_action (widget_class, "win.new-book", NULL, new_book_cb);
}

static void
update_one (FrWindow *self, GtkWidget *button, const char *action, const FrChange *change, const char *plain,
            const char *format)
{
  gtk_widget_action_set_enabled (GTK_WIDGET (self), action, change != NULL);
  if (change != NULL)
    {
      g_autofree char *what = fr_change_sentence (change->label, change->subject);
      g_autofree char *tip = g_strdup_printf (format, what);

      gtk_widget_set_tooltip_text (button, tip);
    }
  else
    gtk_widget_set_tooltip_text (button, plain);
}

void
fr_window_actions_update (FrWindow *self)
{
  update_one (self, self->undo_button, "win.undo", fr_book_peek_undo (self->book), _ ("Undo"),
              /* Translators: %s is what was done, "Pan “Wide pot” changed" */
              _ ("Undo: %s"));
  update_one (self, self->redo_button, "win.redo", fr_book_peek_redo (self->book), _ ("Redo"),
              _ ("Redo: %s"));
}
