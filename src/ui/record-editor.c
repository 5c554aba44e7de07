/* The editor of one record. The draft is the state; widgets show it and are never asked what they hold. One
 * update function sets them all, so that the book, an undo or another program's change all come in the same
 * way. */
#include "ui/record-editor.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "ui/lines-row.h"
#include "ui/quantity-row.h"
#include "ui/record-editor-private.h"
#include "ui/tariff-editor.h"
#include "ui/time-entry.h"
#include "ui/window.h"
#include "words/entry-words.h"

static guint changed_signal;

G_DEFINE_FINAL_TYPE (FrRecordEditor, fr_record_editor, ADW_TYPE_BIN)

static void
row_free (gpointer data)
{
  FrEditorRow *row = data;

  g_clear_pointer (&row->ids, g_array_unref);
  g_free (row->unread);
  g_free (row->reason);
  g_free (row);
}

static void
choice_clear (gpointer data)
{
  g_free (((FrEditorChoice *)data)->label);
}

/* One price plan is used at a time: taking one into use puts the others out of it, in the same change. */
static void
add_price_plans_out_of_use (FrRecordEditor *self, FrChange *change)
{
  FrRecordList *list = fr_book_get_list (self->book, FR_KIND_TARIFF);
  const FrTariffRecord *now = (const FrTariffRecord *)fr_draft_get_current (self->draft);

  if (now->record.kind->id != FR_KIND_TARIFF || !now->in_use)
    return;
  for (guint i = 0; i < fr_record_list_get_size (list); i++)
    {
      const FrRecord *other = fr_record_list_get (list, i);
      g_autoptr (FrRecord) after = NULL;

      if (other->id == now->record.id || !((const FrTariffRecord *)other)->in_use)
        continue;
      after = fr_record_copy (other);
      ((FrTariffRecord *)after)->in_use = FALSE;
      fr_change_add (change, other, after);
    }
}

/* Brings what was just done to the book, if the record is in it, and to the widgets. */
static void
keep (FrRecordEditor *self)
{
  FrWindow *window = fr_window_of (GTK_WIDGET (self));

  g_object_ref (self);
  if (self->keep != NULL && window != NULL)
    {
      g_autoptr (FrChange) change
          = self->keep (self->book, fr_draft_get_current (self->draft), self->keep_data);

      if (change != NULL)
        fr_window_apply (window, change);
    }
  else if (!fr_draft_is_new (self->draft) && window != NULL)
    {
      g_autofree char *label = g_strconcat ("edit-", fr_draft_get_current (self->draft)->kind->name, NULL);
      g_autoptr (FrChange) change = fr_draft_change (self->draft, label);

      if (change != NULL)
        {
          add_price_plans_out_of_use (self, change);
          fr_window_apply (window, change);
        }
    }
  fr_record_editor_update (self);
  g_signal_emit (self, changed_signal, 0);
  g_object_unref (self);
}

static void
set_time (FrEditorRow *row, const char *text)
{
  FrRecordEditor *self = row->editor;
  gint64 utc_s = G_MININT64;

  g_clear_pointer (&row->unread, g_free);
  g_clear_pointer (&row->reason, g_free);
  if (fr_time_entry_parse (self->book, text, &utc_s, &row->reason))
    fr_draft_choose_int (self->draft, row->field, utc_s);
  else
    row->unread = g_strdup (text);
}

static void
set_clock (FrEditorRow *row, const char *text)
{
  g_autofree char *clock = g_strstrip (g_strdup (text)), *minutes = NULL;
  gint minute = 0;

  g_clear_pointer (&row->unread, g_free);
  g_clear_pointer (&row->reason, g_free);
  if (*clock != '\0' && (!fr_clock_parse (clock, &minute) || minute >= 24 * 60))
    {
      row->unread = g_strdup (text);
      row->reason = g_strdup (_ ("Write a clock time from 00:00 to 23:59, such as 17:30."));
      return;
    }
  minutes = *clock != '\0' ? g_strdup_printf ("%d", minute) : g_strdup ("");
  fr_draft_type (row->editor->draft, row->field, minutes, fr_record_editor_units (row->editor));
}

static void
entry_finished_cb (FrEntryRow *entry, const char *text, gpointer user_data)
{
  FrEditorRow *row = user_data;

  if (row->field->type == FR_FIELD_TIME)
    set_time (row, text);
  else if (fr_editor_row_is_clock (row))
    set_clock (row, text);
  else
    fr_draft_type (row->editor->draft, row->field, text, fr_record_editor_units (row->editor));
  keep (row->editor);
}

static void
entry_restored_cb (FrEntryRow *entry, gpointer user_data)
{
  FrEditorRow *row = user_data;

  g_clear_pointer (&row->unread, g_free);
  g_clear_pointer (&row->reason, g_free);
  fr_draft_restore (row->editor->draft, row->field);
  keep (row->editor);
}

static void
lines_finished_cb (GtkWidget *lines, const char *text, gpointer user_data)
{
  FrEditorRow *row = user_data;

  fr_draft_type (row->editor->draft, row->field, text, fr_record_editor_units (row->editor));
  keep (row->editor);
}

static void
switch_cb (GtkSwitch *widget, GParamSpec *pspec, gpointer user_data)
{
  FrEditorRow *row = user_data;

  if (row->editor->updating)
    return;
  fr_draft_choose_int (row->editor->draft, row->field, gtk_switch_get_active (widget));
  keep (row->editor);
}

static void
combo_cb (AdwComboRow *combo, GParamSpec *pspec, gpointer user_data)
{
  FrEditorRow *row = user_data;
  guint selected = adw_combo_row_get_selected (combo);

  if (row->editor->updating || selected == GTK_INVALID_LIST_POSITION)
    return;
  if (row->field->type == FR_FIELD_REF)
    fr_draft_choose_int (row->editor->draft, row->field, g_array_index (row->ids, gint64, selected));
  else
    fr_draft_choose_text (row->editor->draft, row->field, row->field->codes[selected]);
  keep (row->editor);
}

static gboolean
is_lines (const FrField *field)
{
  return g_str_equal (field->name, "measures") || g_str_equal (field->name, "rows")
         || g_str_equal (field->name, "holidays") || g_str_equal (field->name, "note");
}

static GtkWidget *
build_entry (FrEditorRow *row, GtkWidget *entry)
{
  g_signal_connect (entry, "finished", G_CALLBACK (entry_finished_cb), row);
  g_signal_connect (entry, "restored", G_CALLBACK (entry_restored_cb), row);
  return entry;
}

static GtkWidget *
build_fixed (FrEditorRow *row, const char *title)
{
  GtkWidget *action = adw_action_row_new ();

  row->value = gtk_label_new ("");
  gtk_widget_add_css_class (row->value, "value");
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (action), title);
  adw_action_row_add_suffix (ADW_ACTION_ROW (action), row->value);
  return action;
}

/* The row's own choices are cut at twenty letters; these have room for a sentence's worth. */
static void
choice_setup_cb (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer user_data)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0.0f);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (label), 1);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 36);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_list_item_set_child (item, label);
}

static void
choice_bind_cb (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer user_data)
{
  const char *text = gtk_string_object_get_string (gtk_list_item_get_item (item));

  gtk_label_set_text (GTK_LABEL (gtk_list_item_get_child (item)), text);
}

static GtkWidget *
build_choice (FrEditorRow *row, const char *title, const char *note)
{
  GtkWidget *combo = adw_combo_row_new ();
  g_autoptr (GtkListItemFactory) factory = gtk_signal_list_item_factory_new ();

  g_signal_connect (factory, "setup", G_CALLBACK (choice_setup_cb), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (choice_bind_cb), NULL);
  adw_combo_row_set_factory (ADW_COMBO_ROW (combo), factory);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (combo), title);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (combo), note != NULL ? note : "");
  g_signal_connect (combo, "notify::selected", G_CALLBACK (combo_cb), row);
  return combo;
}

static GtkWidget *
build_widget (FrEditorRow *row)
{
  const char *title = fr_field_label_text (row->label);
  const char *note = fr_field_label_note (row->label);
  GtkWidget *widget;

  if (row->label->fixed)
    return build_fixed (row, title);
  switch (row->field->type)
    {
    case FR_FIELD_AMOUNT:
      if (fr_editor_row_is_clock (row))
        return build_entry (row, fr_entry_row_new (title, note));
      return build_entry (row, fr_quantity_row_new (title, note, row->field->quantity));
    case FR_FIELD_TIME:
    case FR_FIELD_DATE:
      widget = build_entry (row, fr_entry_row_new (title, note));
      fr_entry_row_set_width (FR_ENTRY_ROW (widget), 16);
      return widget;
    case FR_FIELD_BOOL:
      widget = adw_action_row_new ();
      row->value = gtk_switch_new ();
      gtk_widget_set_valign (row->value, GTK_ALIGN_CENTER);
      gtk_accessible_update_property (GTK_ACCESSIBLE (row->value), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
      adw_preferences_row_set_title (ADW_PREFERENCES_ROW (widget), title);
      adw_action_row_set_subtitle (ADW_ACTION_ROW (widget), note != NULL ? note : "");
      adw_action_row_add_suffix (ADW_ACTION_ROW (widget), row->value);
      adw_action_row_set_activatable_widget (ADW_ACTION_ROW (widget), row->value);
      g_signal_connect (row->value, "notify::active", G_CALLBACK (switch_cb), row);
      return widget;
    case FR_FIELD_CODE:
    case FR_FIELD_REF:
      return build_choice (row, title, note);
    case FR_FIELD_TEXT:
    default:
      if (g_str_equal (row->field->name, "periods"))
        {
          widget = fr_tariff_editor_new ();
          g_signal_connect (widget, "finished", G_CALLBACK (lines_finished_cb), row);
          return widget;
        }
      if (is_lines (row->field))
        {
          widget = fr_lines_row_new (title, note);
          fr_lines_row_set_title_visible (FR_LINES_ROW (widget),
                                          g_ascii_strcasecmp (title, fr_field_label_group (row->label)) != 0);
          g_signal_connect (widget, "finished", G_CALLBACK (lines_finished_cb), row);
          return widget;
        }
      widget = build_entry (row, fr_entry_row_new (title, note));
      fr_entry_row_set_width (FR_ENTRY_ROW (widget), row->field->max <= 3 ? 5 : 20);
      return widget;
    }
}

static void
build (FrRecordEditor *self, const char *const *only)
{
  const FrKind *kind = fr_draft_get_current (self->draft)->kind;
  guint n = 0;
  const FrFieldLabel *labels = fr_field_labels (kind->id, &n);
  const char *group_key = NULL;
  GtkWidget *group = NULL;

  if (kind->id == FR_KIND_VESSEL)
    {
      self->vessel_view = FR_VESSEL_VIEW (fr_vessel_view_new ());
      gtk_box_append (self->box, GTK_WIDGET (self->vessel_view));
    }
  for (guint i = 0; i < n; i++)
    {
      FrEditorRow *row;

      if (only != NULL && !g_strv_contains (only, labels[i].field))
        continue;
      row = g_new0 (FrEditorRow, 1);
      row->editor = self;
      row->label = &labels[i];
      row->field = fr_kind_field (kind, labels[i].field);
      g_assert (row->field != NULL);
      if (g_strcmp0 (group_key, labels[i].group) != 0)
        {
          group_key = labels[i].group;
          group = adw_preferences_group_new ();
          /* The editor's own heading says it already. */
          if (g_ascii_strcasecmp (fr_field_label_group (&labels[i]), fr_kind_singular (kind->id)) != 0)
            adw_preferences_group_set_title (ADW_PREFERENCES_GROUP (group),
                                             fr_field_label_group (&labels[i]));
          gtk_box_append (self->box, group);
        }
      row->group = group;
      row->widget = build_widget (row);
      adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), row->widget);
      g_ptr_array_add (self->rows, row);
    }
}

void
fr_record_editor_update (FrRecordEditor *self)
{
  const FrRecord *record = fr_draft_get_current (self->draft);

  self->updating = TRUE;
  for (guint i = 0; i < self->rows->len; i++)
    {
      FrEditorRow *row = g_ptr_array_index (self->rows, i);
      gboolean applies = fr_field_label_applies (row->label, record);
      gboolean in_group = applies;

      gtk_widget_set_visible (row->widget, applies);
      if (applies)
        fr_editor_row_show (self, row);
      for (guint j = 0; j < self->rows->len && !in_group; j++)
        {
          FrEditorRow *other = g_ptr_array_index (self->rows, j);

          in_group = other->group == row->group && fr_field_label_applies (other->label, record);
        }
      gtk_widget_set_visible (row->group, in_group);
    }
  if (self->vessel_view != NULL)
    fr_vessel_view_set (self->vessel_view, (const FrVesselRecord *)record, fr_record_editor_units (self));
  self->updating = FALSE;
}

static void
fr_record_editor_dispose (GObject *object)
{
  FrRecordEditor *self = FR_RECORD_EDITOR (object);

  for (guint i = 0; self->rows != NULL && i < self->rows->len; i++)
    {
      FrEditorRow *row = g_ptr_array_index (self->rows, i);

      g_signal_handlers_disconnect_by_data (row->widget, row);
      if (row->value != NULL)
        g_signal_handlers_disconnect_by_data (row->value, row);
    }
  g_clear_pointer (&self->rows, g_ptr_array_unref);
  g_clear_pointer (&self->choices, g_array_unref);
  g_clear_pointer (&self->currency, g_free);
  g_clear_object (&self->book);
  G_OBJECT_CLASS (fr_record_editor_parent_class)->dispose (object);
}

static void
fr_record_editor_class_init (FrRecordEditorClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_record_editor_dispose;
  changed_signal = g_signal_new ("changed", FR_TYPE_RECORD_EDITOR, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 0);
}

static void
fr_record_editor_init (FrRecordEditor *self)
{
  self->rows = g_ptr_array_new_with_free_func (row_free);
  self->choices = g_array_new (FALSE, TRUE, sizeof (FrEditorChoice));
  g_array_set_clear_func (self->choices, choice_clear);
  self->box = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 18));
  adw_bin_set_child (ADW_BIN (self), GTK_WIDGET (self->box));
}

FrRecordEditor *
fr_record_editor_new (FrBook *book, FrDraft *draft, const char *const *only)
{
  FrRecordEditor *self = g_object_new (FR_TYPE_RECORD_EDITOR, NULL);

  self->book = g_object_ref (book);
  self->draft = draft;
  build (self, only);
  fr_record_editor_update (self);
  return self;
}

FrDraft *
fr_record_editor_get_draft (FrRecordEditor *self)
{
  return self->draft;
}

guint
fr_record_editor_show_missing (FrRecordEditor *self)
{
  guint n = 0;

  self->show_missing = TRUE;
  fr_record_editor_update (self);
  for (guint i = 0; i < self->rows->len; i++)
    {
      FrEditorRow *row = g_ptr_array_index (self->rows, i);
      g_autofree char *sentence = NULL;

      if (!gtk_widget_get_visible (row->widget))
        continue;
      sentence = fr_editor_row_sentence (self, row);
      if (sentence == NULL)
        continue;
      if (n++ == 0 && FR_IS_ENTRY_ROW (row->widget))
        fr_entry_row_grab (FR_ENTRY_ROW (row->widget));
    }
  return n;
}

void
fr_record_editor_finish (FrRecordEditor *self)
{
  for (guint i = 0; i < self->rows->len; i++)
    {
      GtkWidget *widget = ((FrEditorRow *)g_ptr_array_index (self->rows, i))->widget;

      if (FR_IS_ENTRY_ROW (widget))
        fr_entry_row_finish (FR_ENTRY_ROW (widget));
      else if (FR_IS_LINES_ROW (widget))
        fr_lines_row_finish (FR_LINES_ROW (widget));
    }
}

void
fr_record_editor_set_units (FrRecordEditor *self, const FrUnits *units, const char *currency)
{
  self->units = units;
  g_free (self->currency);
  self->currency = g_strdup (currency);
  fr_record_editor_update (self);
}

void
fr_record_editor_add_choice (FrRecordEditor *self, FrKindId kind, gint64 id, const char *label)
{
  FrEditorChoice choice = { kind, id, g_strdup (label) };

  for (guint i = 0; i < self->choices->len; i++)
    if (g_array_index (self->choices, FrEditorChoice, i).kind == kind
        && g_array_index (self->choices, FrEditorChoice, i).id == id)
      {
        g_array_remove_index (self->choices, i);
        break;
      }
  g_array_append_val (self->choices, choice);
  fr_record_editor_update (self);
}

void
fr_record_editor_set_keep (FrRecordEditor *self, FrRecordKeep keep_record, gpointer data)
{
  self->keep = keep_record;
  self->keep_data = data;
}

void
fr_record_editor_grab (FrRecordEditor *self, const char *field)
{
  for (guint i = 0; i < self->rows->len; i++)
    {
      FrEditorRow *row = g_ptr_array_index (self->rows, i);

      if (g_strcmp0 (row->field->name, field) == 0 && FR_IS_ENTRY_ROW (row->widget))
        fr_entry_row_grab (FR_ENTRY_ROW (row->widget));
    }
}
