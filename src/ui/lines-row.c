/* A row with several lines of text. Tab leaves it, as it leaves every row. */
#include "ui/lines-row.h"

#include <string.h>

struct _FrLinesRow
{
  AdwPreferencesRow parent_instance;
  GtkLabel *title;
  GtkLabel *note;
  GtkTextView *view;
  GtkLabel *problem;
  char *set;
};

static guint finished_signal;

G_DEFINE_FINAL_TYPE (FrLinesRow, fr_lines_row, ADW_TYPE_PREFERENCES_ROW)

static void
focus_leave_cb (GtkEventControllerFocus *controller, gpointer user_data)
{
  fr_lines_row_finish (FR_LINES_ROW (user_data));
}

static gboolean
key_pressed_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state,
                gpointer user_data)
{
  FrLinesRow *self = FR_LINES_ROW (user_data);
  g_autofree char *text = fr_lines_row_get_text (self);
  g_autofree char *set = g_strdup (self->set);

  if (keyval != GDK_KEY_Escape || g_strcmp0 (text, set) == 0)
    return FALSE;
  fr_lines_row_set_text (self, set);
  return TRUE;
}

static void
fr_lines_row_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), FR_TYPE_LINES_ROW);
  G_OBJECT_CLASS (fr_lines_row_parent_class)->dispose (object);
}

static void
fr_lines_row_finalize (GObject *object)
{
  g_free (FR_LINES_ROW (object)->set);
  G_OBJECT_CLASS (fr_lines_row_parent_class)->finalize (object);
}

static void
fr_lines_row_class_init (FrLinesRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = fr_lines_row_dispose;
  G_OBJECT_CLASS (klass)->finalize = fr_lines_row_finalize;
  finished_signal = g_signal_new ("finished", FR_TYPE_LINES_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 1, G_TYPE_STRING);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/frostrun/Frostrun/ui/lines-row.ui");
  gtk_widget_class_bind_template_child (widget_class, FrLinesRow, title);
  gtk_widget_class_bind_template_child (widget_class, FrLinesRow, note);
  gtk_widget_class_bind_template_child (widget_class, FrLinesRow, view);
  gtk_widget_class_bind_template_child (widget_class, FrLinesRow, problem);
  gtk_widget_class_bind_template_callback (widget_class, focus_leave_cb);
  gtk_widget_class_bind_template_callback (widget_class, key_pressed_cb);
}

static void
fr_lines_row_init (FrLinesRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->set = g_strdup ("");
}

GtkWidget *
fr_lines_row_new (const char *title, const char *note)
{
  FrLinesRow *self = g_object_new (FR_TYPE_LINES_ROW, "title", title, NULL);

  gtk_label_set_text (self->title, title);
  gtk_label_set_text (self->note, note != NULL ? note : "");
  gtk_widget_set_visible (GTK_WIDGET (self->note), note != NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->view), GTK_ACCESSIBLE_PROPERTY_LABEL, title,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, note != NULL ? note : "", -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
  return GTK_WIDGET (self);
}

void
fr_lines_row_set_title_visible (FrLinesRow *self, gboolean visible)
{
  gtk_widget_set_visible (GTK_WIDGET (self->title), visible);
}

void
fr_lines_row_set_text (FrLinesRow *self, const char *text)
{
  g_autofree char *now = fr_lines_row_get_text (self);
  char *copy = g_strdup (text != NULL ? text : "");

  g_free (self->set);
  self->set = copy;
  if (strcmp (now, copy) != 0)
    gtk_text_buffer_set_text (gtk_text_view_get_buffer (self->view), copy, -1);
}

char *
fr_lines_row_get_text (FrLinesRow *self)
{
  GtkTextBuffer *buffer = gtk_text_view_get_buffer (self->view);
  GtkTextIter start, end;

  gtk_text_buffer_get_bounds (buffer, &start, &end);
  return gtk_text_buffer_get_text (buffer, &start, &end, FALSE);
}

void
fr_lines_row_set_problem (FrLinesRow *self, const char *sentence)
{
  gtk_label_set_text (self->problem, sentence != NULL ? sentence : "");
  gtk_widget_set_visible (GTK_WIDGET (self->problem), sentence != NULL);
  if (sentence != NULL)
    gtk_widget_add_css_class (GTK_WIDGET (self), "error");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self), "error");
}

void
fr_lines_row_finish (FrLinesRow *self)
{
  g_autofree char *text = fr_lines_row_get_text (self);

  if (strcmp (text, self->set) != 0)
    g_signal_emit (self, finished_signal, 0, text);
}
