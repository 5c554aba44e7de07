/* Kit and prices. Drafts are kept while the window lives, one a record, so that an entry the book refused is
 * still there when the person comes back to it. */
#include "ui/kit-page.h"

#include <glib/gi18n-lib.h>

#include "models/draft.h"
#include "models/station-past.h"
#include "ui/field-labels.h"
#include "ui/record-editor.h"
#include "ui/record-summary.h"
#include "ui/water-test-dialog.h"
#include "ui/window.h"
#include "words/weather-file-words.h"

struct _FrKitPage
{
  AdwBin parent_instance;
  AdwLeaflet *leaflet;
  GtkListBox *list;
  GtkScrolledWindow *scroller;
  GtkWidget *back;
  GtkLabel *heading;
  GtkLabel *subheading;
  GtkWidget *empty;
  AdwBin *editor_bin;
  GtkWidget *add_button;
  GtkWidget *cancel_button;
  GtkWidget *test_button;
  GtkWidget *remove_button;
  GtkWidget *action;

  FrBook *book;
  GHashTable *drafts; /* "kind:id" → FrDraft */
  FrRecordEditor *editor;
  FrKindId kind;
  gint64 id;
  gboolean filling;
};

G_DEFINE_FINAL_TYPE (FrKitPage, fr_kit_page, ADW_TYPE_BIN)

/* The order of the list: what changes every day first, then what is set once. */
static const FrKindId order[] = { FR_KIND_COOKER, FR_KIND_VESSEL, FR_KIND_CONTAINER, FR_KIND_CIRCUIT,
                                  FR_KIND_TARIFF, FR_KIND_FUEL,   FR_KIND_STATION,   FR_KIND_NIGHT,
                                  FR_KIND_HOUSEHOLD };

static FrKindId
row_kind (GtkListBoxRow *row)
{
  return (FrKindId)GPOINTER_TO_INT (g_object_get_data (G_OBJECT (row), "kind"));
}

static gint64
row_id (GtkListBoxRow *row)
{
  const gint64 *id = g_object_get_data (G_OBJECT (row), "id");

  return id != NULL ? *id : 0;
}

static FrDraft *
draft_of (FrKitPage *self, const FrRecord *record, gboolean is_new)
{
  char *key = g_strdup_printf ("%d:%" G_GINT64_FORMAT, (int)record->kind->id, record->id);
  FrDraft *draft = g_hash_table_lookup (self->drafts, key);

  if (draft != NULL)
    {
      g_free (key);
      return draft;
    }
  draft = fr_draft_new (record, is_new);
  g_hash_table_insert (self->drafts, key, draft);
  return draft;
}

static void
forget_draft (FrKitPage *self, FrKindId kind, gint64 id)
{
  g_autofree char *key = g_strdup_printf ("%d:%" G_GINT64_FORMAT, (int)kind, id);

  g_hash_table_remove (self->drafts, key);
}

static void
header_cb (GtkListBoxRow *row, GtkListBoxRow *before, gpointer user_data)
{
  FrKindId kind = row_kind (row);
  GtkWidget *box;
  GtkWidget *label;

  if (before != NULL && row_kind (before) == kind)
    {
      gtk_list_box_row_set_header (row, NULL);
      return;
    }
  if (gtk_list_box_row_get_header (row) != NULL)
    return;
  box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  label = gtk_label_new (fr_kind_plural (kind));
  gtk_label_set_xalign (GTK_LABEL (label), 0.0f);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_widget_add_css_class (label, "heading");
  gtk_box_append (GTK_BOX (box), label);
  gtk_widget_add_css_class (box, "kit-heading");
  if (kind != FR_KIND_NIGHT && kind != FR_KIND_HOUSEHOLD)
    {
      GtkWidget *add = gtk_button_new_from_icon_name ("list-add-symbolic");

      gtk_widget_add_css_class (add, "flat");
      gtk_widget_set_tooltip_text (add, fr_kind_add (kind));
      gtk_accessible_update_property (GTK_ACCESSIBLE (add), GTK_ACCESSIBLE_PROPERTY_LABEL, fr_kind_add (kind),
                                      -1);
      gtk_actionable_set_action_name (GTK_ACTIONABLE (add), "win.add");
      gtk_actionable_set_action_target (GTK_ACTIONABLE (add), "s", fr_kind (kind)->name);
      gtk_box_append (GTK_BOX (box), add);
    }
  gtk_list_box_row_set_header (row, box);
}

static GtkWidget *
row_label (const char *css)
{
  GtkWidget *label = gtk_label_new ("");

  gtk_label_set_xalign (GTK_LABEL (label), 0.0f);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  if (css != NULL)
    gtk_widget_add_css_class (label, css);
  return label;
}

static GtkListBoxRow *
append_row (FrKitPage *self, FrKindId kind, gint64 id)
{
  GtkWidget *row = gtk_list_box_row_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  gtk_widget_set_valign (box, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (box), row_label (NULL));
  gtk_box_append (GTK_BOX (box), row_label ("note"));
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  g_object_set_data (G_OBJECT (row), "kind", GINT_TO_POINTER (kind));
  if (id != 0)
    g_object_set_data_full (G_OBJECT (row), "id", g_memdup2 (&id, sizeof id), g_free);
  gtk_list_box_append (self->list, row);
  return GTK_LIST_BOX_ROW (row);
}

static void
show_row (FrKitPage *self, GtkListBoxRow *row)
{
  GtkWidget *title = gtk_widget_get_first_child (gtk_list_box_row_get_child (row));
  GtkWidget *note = gtk_widget_get_next_sibling (title);
  FrKindId kind = row_kind (row);
  const FrRecord *record = row_id (row) != 0 ? fr_book_find (self->book, kind, row_id (row)) : NULL;
  g_autofree char *name = record != NULL ? fr_record_title (self->book, record) : NULL;
  g_autofree char *summary = record != NULL ? fr_record_summary (self->book, record) : NULL;
  gboolean archived = record != NULL && record->archived;

  gtk_label_set_text (GTK_LABEL (title), name != NULL ? name : fr_kind_empty (kind));
  gtk_label_set_text (GTK_LABEL (note), archived ? _ ("Put away") : summary != NULL ? summary : "");
  gtk_widget_set_visible (note, archived || (summary != NULL && *summary != '\0'));
  gtk_widget_set_sensitive (GTK_WIDGET (row), record != NULL);
  if (archived)
    gtk_widget_add_css_class (GTK_WIDGET (row), "put-away");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (row), "put-away");
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  name != NULL && *name != '\0' ? name : fr_kind_singular (kind),
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, gtk_label_get_text (GTK_LABEL (note)),
                                  -1);
}

/* The keys of the rows as they ought to be: kind and id in order, id 0 for a kind that has none. */
static GArray *
wanted_rows (FrKitPage *self)
{
  GArray *wanted = g_array_new (FALSE, FALSE, sizeof (gint64));

  for (guint k = 0; k < G_N_ELEMENTS (order); k++)
    {
      FrRecordList *list = fr_book_get_list (self->book, order[k]);
      gint64 kind = order[k];
      gint64 none = 0;
      guint before = wanted->len;

      for (guint pass = 0; pass < 2; pass++) /* what is put away stands last */
        for (guint i = 0; i < fr_record_list_get_size (list); i++)
          {
            const FrRecord *record = fr_record_list_get (list, i);

            if (record->archived != (pass == 1))
              continue;
            g_array_append_val (wanted, kind);
            g_array_append_val (wanted, record->id);
          }
      if (wanted->len == before && order[k] != FR_KIND_NIGHT)
        {
          g_array_append_val (wanted, kind);
          g_array_append_val (wanted, none);
        }
    }
  return wanted;
}

static void
fill_list (FrKitPage *self)
{
  g_autoptr (GArray) wanted = wanted_rows (self);
  guint n = wanted->len / 2;
  GtkListBoxRow *row;
  gboolean same = TRUE;

  self->filling = TRUE;
  for (guint i = 0; i <= n && same; i++)
    {
      row = gtk_list_box_get_row_at_index (self->list, (int)i);
      same = (row == NULL) == (i == n)
             && (row == NULL
                 || (row_kind (row) == (FrKindId)g_array_index (wanted, gint64, 2 * i)
                     && row_id (row) == g_array_index (wanted, gint64, 2 * i + 1)));
    }
  if (!same)
    {
      while ((row = gtk_list_box_get_row_at_index (self->list, 0)) != NULL)
        gtk_list_box_remove (self->list, GTK_WIDGET (row));
      for (guint i = 0; i < n; i++)
        append_row (self, (FrKindId)g_array_index (wanted, gint64, 2 * i),
                    g_array_index (wanted, gint64, 2 * i + 1));
    }
  for (guint i = 0; i < n; i++)
    {
      row = gtk_list_box_get_row_at_index (self->list, (int)i);
      show_row (self, row);
      if (self->id != 0 && row_kind (row) == self->kind && row_id (row) == self->id)
        gtk_list_box_select_row (self->list, row);
    }
  self->filling = FALSE;
}

/* What stands under the name: the kind, and of a source of weather what the book has of it. */
static char *
subheading_of (FrKitPage *self, const FrRecord *record)
{
  g_autoptr (GError) error = NULL;
  FrStationPast past;

  if (record->kind->id != FR_KIND_STATION)
    return g_strdup (fr_kind_singular (record->kind->id));
  if (!fr_station_past_read (self->book, (const FrStation *)record, &past, &error))
    return g_strdup (error->message);
  return fr_station_sentence (past.n_days, past.first, past.last, &past.low, &past.high, fr_book_get_units (self->book));
}

static void
update_pane (FrKitPage *self)
{
  FrDraft *draft = self->editor != NULL ? fr_record_editor_get_draft (self->editor) : NULL;
  const FrRecord *record = draft != NULL ? fr_draft_get_original (draft) : NULL;
  gboolean is_new = draft != NULL && fr_draft_is_new (draft);
  gboolean removable = record != NULL && !is_new && record->kind->id != FR_KIND_HOUSEHOLD;
  g_autofree char *title = NULL, *subheading = NULL;

  gtk_widget_set_visible (self->empty, record == NULL);
  gtk_widget_set_visible (self->add_button, is_new);
  gtk_widget_set_visible (self->cancel_button, is_new);
  gtk_widget_set_visible (self->remove_button, removable);
  gtk_widget_set_visible (self->test_button,
                          removable && record->kind->id == FR_KIND_COOKER && !record->archived);
  if (record == NULL)
    {
      gtk_label_set_text (self->heading, "");
      gtk_label_set_text (self->subheading, "");
      return;
    }
  title = is_new ? g_strdup (fr_kind_add (record->kind->id)) : fr_record_title (self->book, record);
  gtk_label_set_text (self->heading, title);
  subheading = is_new ? g_strdup (_ ("Nothing is kept until you press Add.")) : subheading_of (self, record);
  gtk_label_set_text (self->subheading, subheading);
  if (is_new)
    gtk_button_set_label (GTK_BUTTON (self->add_button), fr_kind_add (record->kind->id));
  if (removable)
    {
      gboolean used = fr_book_is_used (self->book, record);

      gtk_button_set_label (GTK_BUTTON (self->remove_button), record->archived ? _ ("Take Out Again")
                                                              : used           ? _ ("Put Away")
                                                                               : _ ("Delete"));
      gtk_widget_set_tooltip_text (
          self->remove_button, used && !record->archived ? _ (
                                   "Other records refer to it, so it stays in the book but out of the way")
                                                         : NULL);
      if (!used && !record->archived)
        gtk_widget_add_css_class (self->remove_button, "destructive-action");
      else
        gtk_widget_remove_css_class (self->remove_button, "destructive-action");
    }
}

static void
open_editor (FrKitPage *self, FrDraft *draft)
{
  const FrRecord *record = draft != NULL ? fr_draft_get_original (draft) : NULL;

  self->kind = record != NULL ? record->kind->id : FR_KIND_HOUSEHOLD;
  self->id = record != NULL ? record->id : 0;
  self->editor = draft != NULL ? fr_record_editor_new (self->book, draft, NULL) : NULL;
  adw_bin_set_child (self->editor_bin, GTK_WIDGET (self->editor));
  gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (self->scroller), 0);
  update_pane (self);
}

static void
row_selected_cb (GtkListBox *list, GtkListBoxRow *row, gpointer user_data)
{
  FrKitPage *self = FR_KIT_PAGE (user_data);
  const FrRecord *record;

  if (self->filling || row == NULL || row_id (row) == 0)
    return;
  if (self->editor != NULL && row_kind (row) == self->kind && row_id (row) == self->id)
    return;
  record = fr_book_find (self->book, row_kind (row), row_id (row));
  if (record != NULL)
    open_editor (self, draft_of (self, record, FALSE));
}

static void
row_activated_cb (GtkListBox *list, GtkListBoxRow *row, gpointer user_data)
{
  /* Beside each other nothing has to move, and navigating would take the focus from the list. */
  if (adw_leaflet_get_folded (FR_KIT_PAGE (user_data)->leaflet))
    adw_leaflet_navigate (FR_KIT_PAGE (user_data)->leaflet, ADW_NAVIGATION_DIRECTION_FORWARD);
}

static void
test_keep (const FrChange *change, gpointer data)
{
  fr_window_apply (fr_window_of (GTK_WIDGET (data)), change);
}

static void
test_clicked_cb (FrKitPage *self)
{
  FrWindow *window = fr_window_of (GTK_WIDGET (self));
  const FrRecord *cooker;
  GtkWidget *dialog;

  fr_record_editor_finish (self->editor);
  cooker = fr_book_find (self->book, FR_KIND_COOKER, self->id);
  dialog = cooker != NULL ? fr_water_test_dialog_new (GTK_WINDOW (window), self->book,
                                                      (const FrCooker *)cooker, test_keep, self)
                          : NULL;
  if (dialog == NULL)
    fr_window_tell (window, _ ("The cooker needs a pan with its shape, hold and cut-off first."));
  else
    gtk_window_present (GTK_WINDOW (dialog));
}

static void
back_cb (FrKitPage *self)
{
  adw_leaflet_navigate (self->leaflet, ADW_NAVIGATION_DIRECTION_BACK);
}

static void
folded_cb (FrKitPage *self)
{
  gtk_widget_set_visible (self->back, adw_leaflet_get_folded (self->leaflet));
}

/* The first record there is, the household if nothing else. */
static void
select_first (FrKitPage *self)
{
  GtkListBoxRow *row;

  for (int i = 0; (row = gtk_list_box_get_row_at_index (self->list, i)) != NULL; i++)
    if (row_id (row) != 0)
      {
        gtk_list_box_select_row (self->list, row);
        return;
      }
  open_editor (self, NULL);
}

static void
book_changed_cb (FrKitPage *self)
{
  FrDraft *draft = self->editor != NULL ? fr_record_editor_get_draft (self->editor) : NULL;
  GHashTableIter iter;
  gpointer key, value;

  g_hash_table_iter_init (&iter, self->drafts);
  while (g_hash_table_iter_next (&iter, &key, &value))
    {
      const FrRecord *mine = fr_draft_get_original (value);
      const FrRecord *now = fr_book_find (self->book, mine->kind->id, mine->id);

      if (now != NULL)
        fr_draft_rebase (value, now);
      else if (value != draft && !fr_draft_is_new (value))
        g_hash_table_iter_remove (&iter);
    }
  if (draft != NULL && !fr_draft_is_new (draft) && fr_book_find (self->book, self->kind, self->id) == NULL)
    {
      FrKindId kind = self->kind;
      gint64 id = self->id;

      open_editor (self, NULL);
      forget_draft (self, kind, id);
      fill_list (self);
      select_first (self);
      return;
    }
  fill_list (self);
  if (self->editor != NULL)
    fr_record_editor_update (self->editor);
  else
    select_first (self);
  update_pane (self);
}

static void
add_clicked_cb (FrKitPage *self)
{
  FrWindow *window = fr_window_of (GTK_WIDGET (self));
  FrDraft *draft = fr_record_editor_get_draft (self->editor);
  g_autofree char *label = g_strconcat ("add-", fr_kind (self->kind)->name, NULL);
  g_autoptr (FrChange) change = NULL;

  fr_record_editor_finish (self->editor);
  if (fr_record_editor_show_missing (self->editor) > 0)
    return;
  change = fr_draft_change (draft, label);
  if (change != NULL)
    fr_window_apply (window, change);
}

static void
cancel_clicked_cb (FrKitPage *self)
{
  FrKindId kind = self->kind;
  gint64 id = self->id;

  open_editor (self, NULL);
  forget_draft (self, kind, id);
  select_first (self);
  adw_leaflet_navigate (self->leaflet, ADW_NAVIGATION_DIRECTION_BACK);
}

static void
remove_clicked_cb (FrKitPage *self)
{
  const FrRecord *record = fr_book_find (self->book, self->kind, self->id);
  g_autoptr (FrChange) change = NULL;
  g_autoptr (FrRecord) after = NULL;
  g_autofree char *label = NULL;
  const char *verb = "delete";

  if (record == NULL)
    return;
  if (record->archived || fr_book_is_used (self->book, record))
    {
      verb = record->archived ? "restore" : "archive";
      after = fr_record_copy (record);
      after->archived = !record->archived;
    }
  label = g_strdup_printf ("%s-%s", verb, record->kind->name);
  change = fr_change_new (label, fr_record_label (record));
  fr_change_add (change, record, after);
  fr_window_apply (fr_window_of (GTK_WIDGET (self)), change);
}

static void
fr_kit_page_dispose (GObject *object)
{
  FrKitPage *self = FR_KIT_PAGE (object);

  self->filling = TRUE;
  self->editor = NULL;
  adw_bin_set_child (ADW_BIN (self), NULL); /* first: the bin must not be left with a child that is gone */
  gtk_widget_dispose_template (GTK_WIDGET (self), FR_TYPE_KIT_PAGE);
  g_clear_pointer (&self->drafts, g_hash_table_unref);
  g_clear_object (&self->book);
  G_OBJECT_CLASS (fr_kit_page_parent_class)->dispose (object);
}

static void
fr_kit_page_class_init (FrKitPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = fr_kit_page_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/frostrun/Frostrun/ui/kit-page.ui");
  gtk_widget_class_bind_template_child (widget_class, FrKitPage, leaflet);
  gtk_widget_class_bind_template_child (widget_class, FrKitPage, list);
  gtk_widget_class_bind_template_child (widget_class, FrKitPage, scroller);
  gtk_widget_class_bind_template_child (widget_class, FrKitPage, back);
  gtk_widget_class_bind_template_child (widget_class, FrKitPage, heading);
  gtk_widget_class_bind_template_child (widget_class, FrKitPage, subheading);
  gtk_widget_class_bind_template_child (widget_class, FrKitPage, empty);
  gtk_widget_class_bind_template_child (widget_class, FrKitPage, editor_bin);
  gtk_widget_class_bind_template_child (widget_class, FrKitPage, add_button);
  gtk_widget_class_bind_template_child (widget_class, FrKitPage, cancel_button);
  gtk_widget_class_bind_template_child (widget_class, FrKitPage, remove_button);
  gtk_widget_class_bind_template_child (widget_class, FrKitPage, test_button);
  gtk_widget_class_bind_template_callback (widget_class, test_clicked_cb);
  gtk_widget_class_bind_template_child (widget_class, FrKitPage, action);
  gtk_widget_class_bind_template_callback (widget_class, row_selected_cb);
  gtk_widget_class_bind_template_callback (widget_class, row_activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, back_cb);
  gtk_widget_class_bind_template_callback (widget_class, folded_cb);
  gtk_widget_class_bind_template_callback (widget_class, add_clicked_cb);
  gtk_widget_class_bind_template_callback (widget_class, cancel_clicked_cb);
  gtk_widget_class_bind_template_callback (widget_class, remove_clicked_cb);
}

static void
fr_kit_page_init (FrKitPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->drafts = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify)fr_draft_free);
  gtk_list_box_set_header_func (self->list, header_cb, self, NULL);
}

FrKitPage *
fr_kit_page_new (FrBook *book)
{
  FrKitPage *self = g_object_new (FR_TYPE_KIT_PAGE, NULL);

  self->book = g_object_ref (book);
  g_signal_connect_object (book, "changed", G_CALLBACK (book_changed_cb), self, G_CONNECT_SWAPPED);
  fill_list (self);
  select_first (self);
  return self;
}

GtkWidget *
fr_kit_page_action (FrKitPage *self)
{
  return self->action;
}

void
fr_kit_page_add (FrKitPage *self, FrKindId kind)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrRecord) record = fr_book_new_record (self->book, kind, 0, &error);
  FrDraft *draft;

  if (record == NULL)
    {
      fr_window_show_error (fr_window_of (GTK_WIDGET (self)), error);
      return;
    }
  if (kind == FR_KIND_TARIFF)
    ((FrTariffRecord *)record)->in_use = fr_record_list_get_size (fr_book_get_list (self->book, kind)) == 0;
  draft = draft_of (self, record, TRUE);
  gtk_list_box_unselect_all (self->list);
  open_editor (self, draft);
  adw_leaflet_navigate (self->leaflet, ADW_NAVIGATION_DIRECTION_FORWARD);
  gtk_widget_child_focus (GTK_WIDGET (self->editor), GTK_DIR_TAB_FORWARD);
}

void
fr_kit_page_show (FrKitPage *self, FrKindId kind, gint64 id)
{
  GtkListBoxRow *row;

  for (int i = 0; (row = gtk_list_box_get_row_at_index (self->list, i)) != NULL; i++)
    if (row_kind (row) == kind && row_id (row) == id)
      {
        gtk_list_box_select_row (self->list, row);
        gtk_widget_grab_focus (GTK_WIDGET (row)); /* also scrolls to it */
        if (adw_leaflet_get_folded (self->leaflet))
          adw_leaflet_navigate (self->leaflet, ADW_NAVIGATION_DIRECTION_FORWARD);
      }
}
