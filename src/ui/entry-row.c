/* A row with an entry. The text is swapped between its resting and its editing face as the focus comes and
 * goes, so the row keeps both and treats the entry's own text as a person's only while it has the focus. */
#include "ui/entry-row.h"

#include <string.h>

typedef struct
{
  GtkLabel *title;
  GtkLabel *note;
  GtkWidget *field;
  GtkText *text;
  GtkLabel *unit;
  GtkLabel *problem;
  char *rest;
  char *edit;
  char *origin;   /* what Escape goes back to: the text as the edit began */
  gboolean typed; /* a person has changed the text since */
  char *unit_text;
  gboolean focused;
  gboolean setting; /* the program, not a person, is changing the text */
} FrEntryRowPrivate;

enum
{
  SIGNAL_TYPED,
  SIGNAL_FINISHED,
  SIGNAL_RESTORED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_TYPE_WITH_PRIVATE (FrEntryRow, fr_entry_row, ADW_TYPE_PREFERENCES_ROW)

static FrEntryRowPrivate *
priv_of (gpointer self)
{
  return fr_entry_row_get_instance_private (FR_ENTRY_ROW (self));
}

/* The unit stands behind a bare number only: "3 gal 1 qt" has its own. */
static gboolean
has_words (const char *text)
{
  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar c = g_utf8_get_char (at);

      if (g_unichar_isalpha (c) || c == 0x00B0 || c == '%')
        return TRUE;
    }
  return FALSE;
}

static void
update_unit (FrEntryRow *self)
{
  FrEntryRowPrivate *priv = priv_of (self);
  const char *text = gtk_editable_get_text (GTK_EDITABLE (priv->text));

  gtk_label_set_text (priv->unit, priv->unit_text != NULL ? priv->unit_text : "");
  gtk_widget_set_visible (GTK_WIDGET (priv->unit),
                          priv->unit_text != NULL && *priv->unit_text != '\0'
                              && (!has_words (text) || strcmp (text, priv->rest) == 0));
}

static void
show_text (FrEntryRow *self, const char *text)
{
  FrEntryRowPrivate *priv = priv_of (self);

  priv->setting = TRUE;
  if (strcmp (gtk_editable_get_text (GTK_EDITABLE (priv->text)), text) != 0)
    gtk_editable_set_text (GTK_EDITABLE (priv->text), text);
  priv->setting = FALSE;
  update_unit (self);
}

static void
set_origin (FrEntryRow *self, const char *text)
{
  FrEntryRowPrivate *priv = priv_of (self);
  char *origin = g_strdup (text);

  g_free (priv->origin);
  priv->origin = origin;
  priv->typed = FALSE;
}

gboolean
fr_entry_row_is_modified (FrEntryRow *self)
{
  FrEntryRowPrivate *priv = priv_of (self);
  const char *text = gtk_editable_get_text (GTK_EDITABLE (priv->text));

  return strcmp (text, priv->edit) != 0 && (priv->focused || strcmp (text, priv->rest) != 0);
}

static void
row_clicked_cb (GtkGestureClick *gesture, int n_press, double x, double y, gpointer user_data)
{
  FrEntryRow *self = FR_ENTRY_ROW (user_data);

  if (!priv_of (self)->focused)
    fr_entry_row_grab (self);
}

static void
text_activate_cb (GtkText *text, gpointer user_data)
{
  fr_entry_row_finish (FR_ENTRY_ROW (user_data));
}

static void
text_changed_cb (GtkEditable *editable, gpointer user_data)
{
  FrEntryRow *self = FR_ENTRY_ROW (user_data);
  FrEntryRowPrivate *priv = priv_of (self);

  if (priv->setting || priv->rest == NULL)
    return;
  update_unit (self);
  priv->typed = TRUE;
  g_signal_emit (self, signals[SIGNAL_TYPED], 0, gtk_editable_get_text (editable));
}

static void
focus_enter_cb (GtkEventControllerFocus *controller, gpointer user_data)
{
  FrEntryRow *self = FR_ENTRY_ROW (user_data);
  FrEntryRowPrivate *priv = priv_of (self);

  priv->focused = TRUE;
  show_text (self, priv->edit);
  set_origin (self, priv->edit);
  gtk_editable_select_region (GTK_EDITABLE (priv->text), 0, -1);
}

static void
focus_leave_cb (GtkEventControllerFocus *controller, gpointer user_data)
{
  FrEntryRow *self = FR_ENTRY_ROW (user_data);
  FrEntryRowPrivate *priv = priv_of (self);

  g_object_ref (self); /* a handler may rebuild the list this row stands in */
  if (fr_entry_row_is_modified (self))
    fr_entry_row_finish (self);
  priv->focused = FALSE;
  if (!fr_entry_row_is_modified (self))
    show_text (self, priv->rest);
  gtk_editable_select_region (GTK_EDITABLE (priv->text), 0, 0);
  g_object_unref (self);
}

static gboolean
key_pressed_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state,
                gpointer user_data)
{
  FrEntryRow *self = FR_ENTRY_ROW (user_data);
  FrEntryRowPrivate *priv = priv_of (self);

  /* Where each key is taken at once, the text is no edit any more but still not what it was. */
  if (keyval != GDK_KEY_Escape
      || (!fr_entry_row_is_modified (self) && fr_entry_row_get_problem (self) == NULL
          && !(priv->typed && strcmp (gtk_editable_get_text (GTK_EDITABLE (priv->text)), priv->origin) != 0)))
    return FALSE;
  show_text (self, fr_entry_row_get_problem (self) != NULL ? priv->edit : priv->origin);
  g_signal_emit (self, signals[SIGNAL_RESTORED], 0);
  set_origin (self, priv->edit);
  gtk_editable_select_region (GTK_EDITABLE (priv->text), 0, -1);
  return TRUE;
}

static void
fr_entry_row_finalize (GObject *object)
{
  FrEntryRowPrivate *priv = priv_of (object);

  g_free (priv->rest);
  g_free (priv->edit);
  g_free (priv->origin);
  g_free (priv->unit_text);
  G_OBJECT_CLASS (fr_entry_row_parent_class)->finalize (object);
}

static void
fr_entry_row_class_init (FrEntryRowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  /* No gtk_widget_dispose_template(): in GTK 4.8 it does not know a template of a parent class. The row's own
   * dispose lets go of the child. */
  object_class->finalize = fr_entry_row_finalize;

  signals[SIGNAL_TYPED] = g_signal_new ("typed", FR_TYPE_ENTRY_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                        G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[SIGNAL_FINISHED] = g_signal_new ("finished", FR_TYPE_ENTRY_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                           NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[SIGNAL_RESTORED]
      = g_signal_new ("restored", FR_TYPE_ENTRY_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);

  gtk_widget_class_set_template_from_resource (widget_class, "/org/frostrun/Frostrun/ui/entry-row.ui");
  gtk_widget_class_bind_template_child_private (widget_class, FrEntryRow, title);
  gtk_widget_class_bind_template_child_private (widget_class, FrEntryRow, note);
  gtk_widget_class_bind_template_child_private (widget_class, FrEntryRow, field);
  gtk_widget_class_bind_template_child_private (widget_class, FrEntryRow, text);
  gtk_widget_class_bind_template_child_private (widget_class, FrEntryRow, unit);
  gtk_widget_class_bind_template_child_private (widget_class, FrEntryRow, problem);
  gtk_widget_class_bind_template_callback (widget_class, row_clicked_cb);
  gtk_widget_class_bind_template_callback (widget_class, text_activate_cb);
  gtk_widget_class_bind_template_callback (widget_class, text_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, focus_enter_cb);
  gtk_widget_class_bind_template_callback (widget_class, focus_leave_cb);
  gtk_widget_class_bind_template_callback (widget_class, key_pressed_cb);
}

static void
fr_entry_row_init (FrEntryRow *self)
{
  FrEntryRowPrivate *priv = priv_of (self);

  gtk_widget_init_template (GTK_WIDGET (self));
  priv->rest = g_strdup ("");
  priv->edit = g_strdup ("");
  priv->origin = g_strdup ("");
}

GtkWidget *
fr_entry_row_new (const char *title, const char *note)
{
  FrEntryRow *self = g_object_new (FR_TYPE_ENTRY_ROW, NULL);

  fr_entry_row_set_up (self, title, note);
  return GTK_WIDGET (self);
}

void
fr_entry_row_set_up (FrEntryRow *self, const char *title, const char *note)
{
  FrEntryRowPrivate *priv = priv_of (self);

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self), title);
  gtk_label_set_text (priv->title, title);
  gtk_label_set_text (priv->note, note != NULL ? note : "");
  gtk_widget_set_visible (GTK_WIDGET (priv->note), note != NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (priv->text), GTK_ACCESSIBLE_PROPERTY_LABEL, title,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, note != NULL ? note : "", -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
}

void
fr_entry_row_set_texts (FrEntryRow *self, const char *rest, const char *edit, const char *unit)
{
  FrEntryRowPrivate *priv = priv_of (self);
  gboolean editing = priv->focused && fr_entry_row_is_modified (self);
  gboolean settled = strcmp (gtk_editable_get_text (GTK_EDITABLE (priv->text)), edit) == 0;

  g_free (priv->rest);
  g_free (priv->edit);
  g_free (priv->unit_text);
  priv->rest = g_strdup (rest);
  priv->edit = g_strdup (edit);
  priv->unit_text = g_strdup (unit);
  if (!editing || settled)
    show_text (self, priv->focused ? edit : rest);
  if (!priv->typed)
    set_origin (self, edit);
  update_unit (self);
}

void
fr_entry_row_set_width (FrEntryRow *self, int chars)
{
  FrEntryRowPrivate *priv = priv_of (self);

  gtk_editable_set_width_chars (GTK_EDITABLE (priv->text), chars);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (priv->text), chars);
}

void
fr_entry_row_set_problem (FrEntryRow *self, const char *sentence)
{
  FrEntryRowPrivate *priv = priv_of (self);
  const char *note = gtk_label_get_text (priv->note);

  gtk_label_set_text (priv->problem, sentence != NULL ? sentence : "");
  gtk_widget_set_visible (GTK_WIDGET (priv->problem), sentence != NULL);
  if (sentence != NULL)
    gtk_widget_add_css_class (GTK_WIDGET (self), "error");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self), "error");
  gtk_accessible_update_property (GTK_ACCESSIBLE (priv->text), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  sentence != NULL ? sentence : note, -1);
  gtk_accessible_update_state (GTK_ACCESSIBLE (priv->text), GTK_ACCESSIBLE_STATE_INVALID,
                               sentence != NULL ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE,
                               -1);
}

const char *
fr_entry_row_get_problem (FrEntryRow *self)
{
  const char *sentence = gtk_label_get_text (priv_of (self)->problem);

  return *sentence != '\0' ? sentence : NULL;
}

const char *
fr_entry_row_get_text (FrEntryRow *self)
{
  return gtk_editable_get_text (GTK_EDITABLE (priv_of (self)->text));
}

void
fr_entry_row_finish (FrEntryRow *self)
{
  g_autofree char *text = g_strdup (fr_entry_row_get_text (self));

  if (fr_entry_row_is_modified (self))
    g_signal_emit (self, signals[SIGNAL_FINISHED], 0, text);
  set_origin (self, priv_of (self)->edit);
}

void
fr_entry_row_enter (FrEntryRow *self, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (priv_of (self)->text), text);
  fr_entry_row_finish (self);
}

void
fr_entry_row_grab (FrEntryRow *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (priv_of (self)->text));
}
