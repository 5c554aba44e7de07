/* What keeps everything out stands first: refused rows, then those asked about; then changes, new ones, and
 * what is there already. A row of the list is made only while it is seen: a table may hold 100,000. */
#include "ui/sap-import-dialog.h"

#include <glib/gi18n-lib.h>

#include "models/sap-transfer.h"
#include "ui/dialog-frame.h"
#include "ui/fate-row.h"
#include "ui/pieces.h"
#include "words/sap-arrival-words.h"

struct _FrSapImportDialog
{
  AdwWindow parent_instance;
  FrWindow *window; /* the dialog is transient for it and goes first */
  FrSeason *season;
  FrSapImport *import;
  char *name;
  GArray *order; /* guint: rows of the preview as shown */
  GtkWidget *summary;
  GtkWidget *open;
  GtkWidget *leave_refused;
  GtkWidget *keep_asked;
  GtkListView *list;
  GtkWidget *take_button;
};

G_DEFINE_FINAL_TYPE (FrSapImportDialog, fr_sap_import_dialog, ADW_TYPE_WINDOW)

static FrSapArrivalRow *
row_at (FrSapImportDialog *self, guint position)
{
  return fr_sap_import_preview (self->import)->rows->pdata[g_array_index (self->order, guint, position)];
}

/* Whether it will come in as things stand. */
static gboolean
is_taken (const FrSapArrivalRow *row)
{
  return !row->left_out
         && (row->fate == FR_SAP_NEW || row->fate == FR_SAP_CHANGES
             || (row->fate == FR_SAP_ASKED && row->confirmed));
}

static void
update (FrSapImportDialog *self)
{
  FrSapArrivalPreview *preview = fr_sap_import_preview (self->import);
  g_autofree char *open = fr_sap_arrival_open_sentence (preview);

  fr_set_text (self->open, open);
  gtk_widget_set_sensitive (self->take_button,
                            fr_sap_arrivals_n_open (preview) == 0 && fr_sap_arrivals_n_wanted (preview) > 0);
}

static void
make_order (FrSapImportDialog *self)
{
  static const FrSapFate fates[] = { FR_SAP_REFUSED, FR_SAP_ASKED, FR_SAP_CHANGES, FR_SAP_NEW, FR_SAP_SAME };
  const FrSapArrivalPreview *preview = fr_sap_import_preview (self->import);
  g_autoptr (GtkStringList) rows = gtk_string_list_new (NULL);

  g_array_set_size (self->order, 0);
  for (guint f = 0; f < G_N_ELEMENTS (fates); f++)
    for (guint i = 0; i < preview->rows->len; i++)
      if (((const FrSapArrivalRow *)preview->rows->pdata[i])->fate == fates[f])
        g_array_append_val (self->order, i);
  for (guint i = 0; i < preview->rows->len; i++)
    gtk_string_list_append (rows, ""); /* a row is told by its position */
  gtk_list_view_set_model (
      self->list, GTK_SELECTION_MODEL (gtk_no_selection_new (G_LIST_MODEL (g_steal_pointer (&rows)))));
}

/* Off, a row is left out; on, what is asked about is kept. */
static void
wanted_cb (GtkCheckButton *check, GtkListItem *item)
{
  FrSapImportDialog *self = FR_SAP_IMPORT_DIALOG (gtk_widget_get_root (GTK_WIDGET (check)));
  FrSapArrivalRow *row = row_at (self, gtk_list_item_get_position (item));
  gboolean on = gtk_check_button_get_active (check);

  row->left_out = !on;
  row->confirmed = on && row->fate == FR_SAP_ASKED;
  update (self);
}

static void
setup_cb (GtkSignalListItemFactory *factory, GtkListItem *item, FrSapImportDialog *self)
{
  fr_fate_row_setup (item);
}

static void
bind_cb (GtkSignalListItemFactory *factory, GtkListItem *item, FrSapImportDialog *self)
{
  const FrSapArrivalRow *row = row_at (self, gtk_list_item_get_position (item));
  g_autofree char *name = fr_sap_arrival_title (row, fr_sap_import_book (self->import));
  g_autofree char *words
      = fr_sap_arrival_sentence (row, fr_sap_import_preview (self->import), fr_sap_import_book (self->import),
                                 fr_season_get_say (self->season));
  /* Translators: what a row is about, what becomes of it, the line of the table */
  g_autofree char *text
      = g_strdup_printf (_ ("%s · %s · line %u"), name, fr_sap_fate_word (row->fate), row->arrival->line);

  fr_fate_row_bind (item, text, words, row->fate != FR_SAP_SAME && row->fate != FR_SAP_REFUSED, is_taken (row),
                    row->fate == FR_SAP_REFUSED || row->fate == FR_SAP_ASKED, G_CALLBACK (wanted_cb));
}

static void
unbind_cb (GtkSignalListItemFactory *factory, GtkListItem *item, FrSapImportDialog *self)
{
  fr_fate_row_unbind (item, G_CALLBACK (wanted_cb));
}

static void
leave_refused_cb (FrSapImportDialog *self)
{
  FrSapArrivalPreview *preview = fr_sap_import_preview (self->import);

  for (guint i = 0; i < preview->rows->len; i++)
    if (((FrSapArrivalRow *)preview->rows->pdata[i])->fate == FR_SAP_REFUSED)
      ((FrSapArrivalRow *)preview->rows->pdata[i])->left_out = TRUE;
  gtk_widget_set_sensitive (self->leave_refused, FALSE);
  update (self);
}

static void
keep_asked_cb (FrSapImportDialog *self)
{
  FrSapArrivalPreview *preview = fr_sap_import_preview (self->import);

  for (guint i = 0; i < preview->rows->len; i++)
    {
      FrSapArrivalRow *row = preview->rows->pdata[i];

      if (row->fate == FR_SAP_ASKED && !row->left_out)
        row->confirmed = TRUE;
    }
  make_order (self); /* rows that are seen look again */
  update (self);
}

static void
take_cb (FrSapImportDialog *self)
{
  FrChange *change = fr_sap_import_change (self->import, self->name);

  if (fr_window_finish (self->window, change, NULL))
    gtk_window_close (GTK_WINDOW (self));
}

static GtkWidget *
make_list (FrSapImportDialog *self)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  GtkWidget *frame = gtk_scrolled_window_new ();

  g_signal_connect (factory, "setup", G_CALLBACK (setup_cb), self);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_cb), self);
  g_signal_connect (factory, "unbind", G_CALLBACK (unbind_cb), self);
  self->list = GTK_LIST_VIEW (gtk_list_view_new (NULL, factory));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->list), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Rows of the table"), -1);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (frame), GTK_WIDGET (self->list));
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (frame), 260);
  gtk_widget_set_vexpand (frame, TRUE);
  gtk_widget_add_css_class (frame, "card");
  return frame;
}

static void
fr_sap_import_dialog_dispose (GObject *object)
{
  FrSapImportDialog *self = FR_SAP_IMPORT_DIALOG (object);

  if (self->list != NULL) /* a row that is shown asks for its entry */
    gtk_list_view_set_model (self->list, NULL);
  self->list = NULL;
  g_clear_pointer (&self->import, fr_sap_import_free);
  g_clear_pointer (&self->order, g_array_unref);
  g_clear_pointer (&self->name, g_free);
  g_clear_object (&self->season);
  G_OBJECT_CLASS (fr_sap_import_dialog_parent_class)->dispose (object);
}

static void
fr_sap_import_dialog_class_init (FrSapImportDialogClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_sap_import_dialog_dispose;
  fr_dialog_frame_class_init (GTK_WIDGET_CLASS (klass));
}

static void
fr_sap_import_dialog_init (FrSapImportDialog *self)
{
  self->order = g_array_new (FALSE, FALSE, sizeof (guint));
}

GtkWidget *
fr_sap_import_dialog_new (FrWindow *window, FrSeason *season, const char *text, gsize length,
                          const char *name, GError **error)
{
  FrSapImport *import = fr_sap_import_new (fr_window_get_book (window), text, length, name == NULL,
                                           fr_season_get_now (season), error);
  FrSapImportDialog *self;
  const FrSapArrivalPreview *preview;
  const FrSapArrivals *arrivals;
  g_autofree char *summary = NULL;
  GtkBox *inner;
  GtkWidget *buttons;

  if (import == NULL)
    return NULL;
  self = g_object_new (FR_TYPE_SAP_IMPORT_DIALOG, "transient-for", window, NULL);
  self->window = window;
  self->season = g_object_ref (season);
  self->import = import;
  self->name = g_strdup (name);
  preview = fr_sap_import_preview (import);
  arrivals = fr_sap_import_arrivals (import);
  self->take_button = fr_dialog_frame_build (
      ADW_WINDOW (self), name == NULL ? _ ("Pasted Rows") : _ ("Import Gatherings or Stock"), 620, 640,
      G_CALLBACK (take_cb), self, &inner);
  fr_dialog_frame_name_buttons (ADW_WINDOW (self), NULL, _ ("_Take In"));
  summary = fr_sap_arrival_summary (preview);
  self->summary = fr_wrapped_text (summary, "strong");
  self->open = fr_wrapped_text (NULL, "caution");
  self->leave_refused = gtk_button_new_with_label (_ ("Leave Out the Refused"));
  self->keep_asked = gtk_button_new_with_label (_ ("Keep What Is Asked About"));
  buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  gtk_widget_set_visible (self->leave_refused, preview->n[FR_SAP_REFUSED] > 0);
  gtk_widget_set_visible (self->keep_asked, preview->n[FR_SAP_ASKED] > 0);
  g_signal_connect_object (self->leave_refused, "clicked", G_CALLBACK (leave_refused_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->keep_asked, "clicked", G_CALLBACK (keep_asked_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (buttons), self->leave_refused);
  gtk_box_append (GTK_BOX (buttons), self->keep_asked);
  gtk_box_append (inner, self->summary);
  gtk_box_append (inner, self->open);
  gtk_box_append (inner, buttons);
  for (guint i = 0; i < arrivals->remarks->len; i++)
    gtk_box_append (inner, fr_wrapped_text (arrivals->remarks->pdata[i], "soft"));
  gtk_box_append (inner, make_list (self));
  make_order (self);
  update (self);
  return GTK_WIDGET (self);
}
