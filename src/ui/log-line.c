/* The entries are plain ones in columns of a fixed width, so that two hundred lines are laid out without
 * measuring each other. Texts of a person are never replaced while the entry has the focus. */
#include "ui/log-line.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "models/season-edit.h"
#include "paint/label.h"
#include "ui/field-labels.h"
#include "ui/log-columns.h"
#include "ui/pieces.h"
#include "ui/record-summary.h"
#include "ui/window.h"

struct _FrLogLine
{
  GtkListBoxRow parent_instance;
  FrGatherLog *log;
  FrGatherRow *row;
  GtkWidget *entries[FR_N_GATHER_FIELDS];
  GtkWidget *brix;
  GtkWidget *state;
  GtkWidget *more;
  GtkWidget *rest; /* made when it is first asked for */
  GtkBox *box;
  GtkWidget *clarity;
  GtkWidget *smell;
  GtkWidget *delete_button;
  GtkWidget *problem;
  GtkWidget *question_box;
  GtkWidget *question;
  gboolean inside; /* the focus */
  GtkWidget *at;   /* the entry it is in, or NULL */
  FrGatherField start; /* where it came in, by Enter or by pointer */
  gboolean tabbed;
  gboolean showing;
};

G_DEFINE_FINAL_TYPE (FrLogLine, fr_log_line, GTK_TYPE_LIST_BOX_ROW)

enum
{
  SIGNAL_LEFT,
  SIGNAL_STEP,
  SIGNAL_PASTED,
  SIGNAL_KEPT_ANYWAY,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static const FrUnits *
units_of (FrLogLine *self)
{
  return fr_book_get_units (fr_gather_log_get_book (self->log));
}

/* --- what is shown --- */

static void
show_choice (GtkWidget *choice, const char *field_name, const char *code)
{
  const FrField *field = fr_kind_field (fr_kind (FR_KIND_GATHERING), field_name);

  for (guint i = 0; field->codes[i] != NULL; i++)
    if (g_strcmp0 (field->codes[i], code) == 0)
      gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), i);
}

static void
show_state (FrLogLine *self)
{
  gboolean stuck = fr_log_line_is_stuck (self), begun = fr_gather_row_is_begun (self->row);
  gboolean kept = fr_gather_row_get_id (self->row) != 0;
  const char *words = stuck   ? _ ("Not written down")
                      : begun ? _ ("Being typed")
                      : kept  ? _ ("Written down")
                              : "";

  gtk_image_set_from_icon_name (GTK_IMAGE (self->state), stuck   ? "dialog-warning-symbolic"
                                                         : begun ? "document-edit-symbolic"
                                                         : kept  ? "object-select-symbolic"
                                                                 : NULL);
  gtk_widget_set_tooltip_text (self->state, *words != '\0' ? words : NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->state), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  if (kept && !begun)
    gtk_widget_add_css_class (self->state, "passed");
  else
    gtk_widget_remove_css_class (self->state, "passed");
  if (stuck)
    gtk_widget_add_css_class (self->state, "caution");
  else
    gtk_widget_remove_css_class (self->state, "caution");
}

/* What cannot be read is told of once its entry is left, half a number is no mistake yet. */
static void
show_problems (FrLogLine *self)
{
  g_autofree char *first = NULL;

  for (guint i = 0; i < FR_N_GATHER_FIELDS; i++)
    {
      g_autofree char *sentence = fr_gather_row_problem (self->row, (FrGatherField)i, units_of (self));
      gboolean half = self->entries[i] != NULL && self->entries[i] == self->at;
      gboolean missing = sentence != NULL && i == FR_GATHER_AMOUNT && self->inside;
      gboolean wrong = sentence != NULL && !half && !missing;

      if (self->entries[i] != NULL && wrong)
        gtk_widget_add_css_class (self->entries[i], "error");
      else if (self->entries[i] != NULL)
        gtk_widget_remove_css_class (self->entries[i], "error");
      if (wrong && first == NULL)
        first = g_steal_pointer (&sentence);
    }
  fr_set_text (self->problem, first);
}

static void
show (FrLogLine *self)
{
  const FrGathering *gathering = fr_gather_row_get (self->row);
  double brix = fr_gather_row_brix (self->row);
  g_autofree char *brix_text = NULL;

  self->showing = TRUE;
  for (guint i = 0; i < FR_N_GATHER_FIELDS; i++)
    {
      g_autofree char *text = fr_gather_row_text (self->row, (FrGatherField)i, units_of (self));

      if (self->entries[i] != NULL
          && g_strcmp0 (text, gtk_editable_get_text (GTK_EDITABLE (self->entries[i]))) != 0)
        gtk_editable_set_text (GTK_EDITABLE (self->entries[i]), text);
    }
  fr_quantity_format (brix, FR_QUANTITY_SWEETNESS, units_of (self), 1, &brix_text, &(const char *){ NULL });
  gtk_label_set_text (GTK_LABEL (self->brix), isnan (brix) ? "" : brix_text);
  if (self->rest != NULL)
    {
      show_choice (self->clarity, "clarity", gathering->clarity);
      show_choice (self->smell, "smell", gathering->smell);
      gtk_widget_set_visible (self->delete_button, fr_gather_row_get_id (self->row) != 0);
    }
  self->showing = FALSE;
  show_problems (self);
  show_state (self);
}

/* --- what a person does --- */

static FrGatherField
field_of (GtkWidget *entry)
{
  return (FrGatherField)GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (entry), "field"));
}

static void
typed_cb (GtkEditable *entry, gpointer user_data)
{
  FrLogLine *self = FR_LOG_LINE (user_data);

  if (self->showing)
    return;
  fr_log_line_set_question (self, NULL);
  fr_gather_log_type_row (self->log, self->row, field_of (GTK_WIDGET (entry)), gtk_editable_get_text (entry));
}

typedef struct
{
  FrLogLine *line;
  GtkWidget *entry;
} Paste;

static void
paste_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  Paste *paste = user_data;
  g_autofree char *text = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (source), result, NULL);

  if (text != NULL && strpbrk (g_strchomp (text), "\t\n") != NULL)
    g_signal_emit (paste->line, signals[SIGNAL_PASTED], 0, text);
  else if (text != NULL)
    {
      int at;

      gtk_editable_delete_selection (GTK_EDITABLE (paste->entry));
      at = gtk_editable_get_position (GTK_EDITABLE (paste->entry));
      gtk_editable_insert_text (GTK_EDITABLE (paste->entry), text, -1, &at);
      gtk_editable_set_position (GTK_EDITABLE (paste->entry), at);
    }
  g_object_unref (paste->entry);
  g_object_unref (paste->line);
  g_free (paste);
}

/* What is copied from one cell goes into the entry, what is copied from several is a table. */
static void
paste_into (FrLogLine *self, GtkWidget *entry)
{
  Paste *paste = g_new (Paste, 1);

  *paste = (Paste){ g_object_ref (self), g_object_ref (entry) };
  gdk_clipboard_read_text_async (gtk_widget_get_clipboard (entry), NULL, paste_cb, paste);
}

static gboolean
key_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state,
        gpointer user_data)
{
  FrLogLine *self = FR_LOG_LINE (user_data);
  GtkWidget *entry = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (controller));
  FrGatherField field = field_of (entry);
  int by = 0;

  if ((keyval == GDK_KEY_v || keyval == GDK_KEY_V) && (state & GDK_CONTROL_MASK) != 0
      && field_of (entry) != FR_GATHER_NOTE)
    {
      paste_into (self, entry);
      return TRUE;
    }
  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return FALSE;
  switch (keyval)
    {
    case GDK_KEY_Return:
    case GDK_KEY_KP_Enter:
    case GDK_KEY_ISO_Enter:
      by = (state & GDK_SHIFT_MASK) != 0 ? -1 : 1;
      field = self->start;
      break;
    case GDK_KEY_Down:
    case GDK_KEY_KP_Down:
      by = 1;
      break;
    case GDK_KEY_Up:
    case GDK_KEY_KP_Up:
      by = -1;
      break;
    case GDK_KEY_Escape:
      if (!fr_gather_row_is_begun (self->row))
        return FALSE;
      fr_log_line_set_question (self, NULL);
      fr_gather_log_restore_row (self->log, self->row);
      gtk_editable_select_region (GTK_EDITABLE (entry), 0, -1);
      return TRUE;
    case GDK_KEY_Tab:
    case GDK_KEY_ISO_Left_Tab:
      self->tabbed = TRUE;
      return FALSE;
    default:
      return FALSE;
    }
  g_signal_emit (self, signals[SIGNAL_STEP], 0, (int)field, by);
  return TRUE;
}

static void
entry_entered_cb (GtkEventControllerFocus *controller, gpointer user_data)
{
  FrLogLine *self = FR_LOG_LINE (user_data);

  self->at = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (controller));
  if (!self->tabbed)
    self->start = field_of (self->at);
  self->tabbed = FALSE;
}

static void
entry_left_cb (FrLogLine *self)
{
  self->at = NULL;
  show_problems (self);
  show_state (self);
}

static void
entered_cb (FrLogLine *self)
{
  self->inside = TRUE;
}

static void
left_cb (FrLogLine *self)
{
  g_object_ref (self); /* a handler may take the line out of its list */
  self->inside = FALSE;
  self->tabbed = FALSE;
  show_problems (self);
  show_state (self);
  g_signal_emit (self, signals[SIGNAL_LEFT], 0);
  g_object_unref (self);
}

static void
choice_cb (GtkDropDown *choice, GParamSpec *pspec, gpointer user_data)
{
  FrLogLine *self = FR_LOG_LINE (user_data);
  const char *name = g_object_get_data (G_OBJECT (choice), "name");
  const FrField *field = fr_kind_field (fr_kind (FR_KIND_GATHERING), name);

  if (!self->showing)
    fr_gather_log_choose_row (self->log, self->row, name, field->codes[gtk_drop_down_get_selected (choice)]);
}

static void
delete_cb (FrLogLine *self)
{
  GError *error = NULL;
  FrChange *change = fr_season_edit_remove (fr_gather_log_get_book (self->log), FR_KIND_GATHERING,
                                            fr_gather_row_get_id (self->row), &error);
  FrWindow *window = fr_window_of (GTK_WIDGET (self));

  g_object_ref (self);
  fr_log_line_focus (self, FR_GATHER_AMOUNT);
  fr_gather_log_restore_row (self->log, self->row);
  fr_window_finish (window, change, error);
  g_object_unref (self);
}

/* --- making --- */

static GtkWidget *
entry_new (FrLogLine *self, FrGatherField field, const char *what, int width_px)
{
  GtkWidget *entry = gtk_entry_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();
  /* Translators: a tree's name, then what is typed: amount, sugar */
  g_autofree char *name = g_strdup_printf (_ ("%s, %s"), fr_gather_row_get_title (self->row), what);
  gboolean note = field == FR_GATHER_NOTE;

  gtk_editable_set_width_chars (GTK_EDITABLE (entry), 1);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (entry), 1);
  gtk_editable_set_alignment (GTK_EDITABLE (entry), note ? 0 : 1);
  gtk_entry_set_max_length (GTK_ENTRY (entry), note ? 4000 : 200);
  gtk_widget_set_size_request (
      entry, (int)(width_px * fr_text_scale_of_context (gtk_widget_get_pango_context (entry))), -1);
  gtk_widget_add_css_class (entry, "cell");
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_object_set_data (G_OBJECT (entry), "field", GUINT_TO_POINTER (field));
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_cb), self);
  g_signal_connect (focus, "enter", G_CALLBACK (entry_entered_cb), self);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (entry_left_cb), self);
  g_signal_connect (entry, "changed", G_CALLBACK (typed_cb), self);
  gtk_widget_add_controller (entry, keys);
  gtk_widget_add_controller (entry, focus);
  self->entries[field] = entry;
  return entry;
}

static GtkWidget *
choice_new (FrLogLine *self, const char *name, const char *what)
{
  const FrField *field = fr_kind_field (fr_kind (FR_KIND_GATHERING), name);
  g_autoptr (GtkStringList) words = gtk_string_list_new (NULL);
  g_autofree char *title = g_strdup_printf (_ ("%s, %s"), fr_gather_row_get_title (self->row), what);
  GtkWidget *choice;

  for (guint i = 0; field->codes[i] != NULL; i++)
    gtk_string_list_append (words, fr_code_word (name, field->codes[i]));
  choice = gtk_drop_down_new (G_LIST_MODEL (g_steal_pointer (&words)), NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (choice), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
  g_object_set_data (G_OBJECT (choice), "name", (gpointer)name);
  show_choice (choice, name, fr_record_text (&fr_gather_row_get (self->row)->record, field));
  g_signal_connect (choice, "notify::selected", G_CALLBACK (choice_cb), self);
  return choice;
}

static void
add_pair (GtkBox *box, const char *words, GtkWidget *widget)
{
  GtkWidget *pair = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, FR_LOG_GAP_PX);

  gtk_box_append (GTK_BOX (pair), fr_log_label_new (words, 0, 0, "note"));
  gtk_box_append (GTK_BOX (pair), widget);
  gtk_box_append (box, pair);
}

static void
make_rest (FrLogLine *self)
{
  GtkBox *first = GTK_BOX (gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 18));
  GtkBox *second = GTK_BOX (gtk_box_new (GTK_ORIENTATION_HORIZONTAL, FR_LOG_GAP_PX));

  self->showing = TRUE;
  self->rest = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_add_css_class (self->rest, "log-rest");
  add_pair (first, _ ("Ice thrown out"),
            entry_new (self, FR_GATHER_ICE_L, _ ("ice thrown out"), FR_LOG_SUGAR_PX));
  add_pair (first, _ ("its sweetness"),
            entry_new (self, FR_GATHER_ICE_BRIX, _ ("sweetness of the ice"), FR_LOG_SUGAR_PX));
  self->clarity = choice_new (self, "clarity", _ ("looks"));
  self->smell = choice_new (self, "smell", _ ("smell"));
  gtk_box_append (second, self->clarity);
  gtk_box_append (second, self->smell);
  gtk_box_append (second, entry_new (self, FR_GATHER_NOTE, _ ("note"), FR_LOG_SUGAR_PX));
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->entries[FR_GATHER_NOTE]), _ ("Note"));
  gtk_widget_set_hexpand (self->entries[FR_GATHER_NOTE], TRUE);
  self->delete_button = gtk_button_new_with_label (_ ("Delete"));
  gtk_widget_add_css_class (self->delete_button, "destructive-action");
  gtk_widget_set_hexpand (self->delete_button, TRUE);
  gtk_widget_set_halign (self->delete_button, GTK_ALIGN_END);
  g_signal_connect_swapped (self->delete_button, "clicked", G_CALLBACK (delete_cb), self);
  gtk_box_append (first, self->delete_button);
  gtk_box_append (GTK_BOX (self->rest), GTK_WIDGET (first));
  gtk_box_append (GTK_BOX (self->rest), GTK_WIDGET (second));
  gtk_box_insert_child_after (self->box, self->rest, gtk_widget_get_first_child (GTK_WIDGET (self->box)));
  self->showing = FALSE;
}

static void
more_cb (FrLogLine *self)
{
  gboolean shown = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->more));

  if (shown && self->rest == NULL)
    make_rest (self);
  if (self->rest != NULL)
    gtk_widget_set_visible (self->rest, shown);
  show (self);
}

/* The keyboard leaves the button before it goes, and then the line as Enter would. */
static void
keep_cb (FrLogLine *self)
{
  FrGatherField start = self->start;

  g_object_ref (self);
  fr_log_line_focus (self, start);
  g_signal_emit (self, signals[SIGNAL_KEPT_ANYWAY], 0);
  if (!fr_log_line_is_stuck (self))
    g_signal_emit (self, signals[SIGNAL_STEP], 0, (int)start, 1);
  g_object_unref (self);
}

static GtkWidget *
make_question (FrLogLine *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  GtkWidget *icon = gtk_image_new_from_icon_name ("dialog-question-symbolic");
  GtkWidget *keep = gtk_button_new_with_label (_ ("Keep"));
  g_autofree char *name
      /* Translators: a tree's name */
      = g_strdup_printf (_ ("Keep %s as it is"), fr_gather_row_get_title (self->row));

  self->question = fr_wrapped_text (NULL, NULL);
  gtk_widget_set_hexpand (self->question, TRUE);
  gtk_widget_set_valign (keep, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (icon, "caution");
  gtk_widget_add_css_class (box, "danger-line");
  gtk_accessible_update_property (GTK_ACCESSIBLE (icon), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Question"), -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (keep), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_signal_connect_swapped (keep, "clicked", G_CALLBACK (keep_cb), self);
  gtk_box_append (GTK_BOX (box), icon);
  gtk_box_append (GTK_BOX (box), self->question);
  gtk_box_append (GTK_BOX (box), keep);
  gtk_widget_set_visible (box, FALSE);
  return box;
}

static void
fr_log_line_dispose (GObject *object)
{
  FrLogLine *self = FR_LOG_LINE (object);

  if (self->row != NULL)
    g_signal_handlers_disconnect_by_data (self->row, self);
  g_clear_object (&self->row);
  g_clear_object (&self->log);
  G_OBJECT_CLASS (fr_log_line_parent_class)->dispose (object);
}

static void
fr_log_line_class_init (FrLogLineClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_log_line_dispose;
  signals[SIGNAL_LEFT]
      = g_signal_new ("left", FR_TYPE_LOG_LINE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[SIGNAL_STEP] = g_signal_new ("step", FR_TYPE_LOG_LINE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                       G_TYPE_NONE, 2, G_TYPE_INT, G_TYPE_INT);
  signals[SIGNAL_PASTED] = g_signal_new ("pasted", FR_TYPE_LOG_LINE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                         G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[SIGNAL_KEPT_ANYWAY] = g_signal_new ("kept-anyway", FR_TYPE_LOG_LINE, G_SIGNAL_RUN_LAST, 0, NULL,
                                              NULL, NULL, G_TYPE_NONE, 0);
}

static void
fr_log_line_init (FrLogLine *self)
{
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (self), FALSE);
  gtk_list_box_row_set_selectable (GTK_LIST_BOX_ROW (self), FALSE);
  gtk_widget_set_focusable (GTK_WIDGET (self), FALSE);
  gtk_widget_add_css_class (GTK_WIDGET (self), "log-line");
}

GtkWidget *
fr_log_line_new (FrGatherLog *log, FrGatherRow *row)
{
  FrLogLine *self = g_object_new (FR_TYPE_LOG_LINE, NULL);
  GtkWidget *cells = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, FR_LOG_GAP_PX);
  GtkWidget *name = fr_log_label_new (fr_gather_row_get_title (row), 0, 0, "tree-name");
  GtkEventController *focus = gtk_event_controller_focus_new ();
  g_autofree char *more_name = NULL;

  self->log = g_object_ref (log);
  self->row = g_object_ref (row);
  self->box = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 0));
  gtk_widget_set_hexpand (name, TRUE);
  self->brix = fr_log_label_new (NULL, 1, FR_LOG_TRUE_PX, "value");
  self->state = gtk_image_new ();
  gtk_widget_set_size_request (self->state, FR_LOG_STATE_PX, -1);
  self->more = gtk_toggle_button_new ();
  gtk_button_set_icon_name (GTK_BUTTON (self->more), "view-more-symbolic");
  gtk_widget_add_css_class (self->more, "flat");
  /* Translators: a tree's name */
  more_name = g_strdup_printf (_ ("More on %s"), fr_gather_row_get_title (row));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->more), GTK_ACCESSIBLE_PROPERTY_LABEL, more_name, -1);
  gtk_widget_set_tooltip_text (self->more, _ ("Ice, Looks, Smell, Note"));
  g_signal_connect_swapped (self->more, "toggled", G_CALLBACK (more_cb), self);
  gtk_box_append (GTK_BOX (cells), name);
  gtk_box_append (GTK_BOX (cells), entry_new (self, FR_GATHER_AMOUNT, _ ("amount"), FR_LOG_AMOUNT_PX));
  gtk_box_append (GTK_BOX (cells),
                  entry_new (self, FR_GATHER_SUGAR, _ ("sweetness as read"), FR_LOG_SUGAR_PX));
  gtk_box_append (GTK_BOX (cells),
                  entry_new (self, FR_GATHER_SAMPLE_C, _ ("temperature of the sample"), FR_LOG_SAMPLE_PX));
  gtk_box_append (GTK_BOX (cells), self->brix);
  gtk_box_append (GTK_BOX (cells), self->state);
  gtk_box_append (GTK_BOX (cells), self->more);
  self->problem = fr_wrapped_text (NULL, "problem");
  self->question_box = make_question (self);
  gtk_widget_set_visible (self->problem, FALSE);
  gtk_box_append (self->box, cells);
  gtk_box_append (self->box, self->problem);
  gtk_box_append (self->box, self->question_box);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (self), GTK_WIDGET (self->box));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  fr_gather_row_get_title (row), -1);
  g_signal_connect_swapped (focus, "enter", G_CALLBACK (entered_cb), self);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (left_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), focus);
  g_signal_connect_swapped (row, "changed", G_CALLBACK (show), self);
  show (self);
  return GTK_WIDGET (self);
}

FrGatherRow *
fr_log_line_get_row (FrLogLine *self)
{
  return self->row;
}

void
fr_log_line_focus (FrLogLine *self, FrGatherField field)
{
  if (self->entries[field] == NULL)
    gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (self->more), TRUE);
  gtk_widget_grab_focus (self->entries[field]);
}

void
fr_log_line_set_question (FrLogLine *self, const char *sentence)
{
  gtk_label_set_text (GTK_LABEL (self->question), sentence != NULL ? sentence : "");
  gtk_widget_set_visible (self->question_box, sentence != NULL);
  show_state (self);
}

gboolean
fr_log_line_is_stuck (FrLogLine *self)
{
  return gtk_widget_get_visible (self->problem) || gtk_widget_get_visible (self->question_box);
}
