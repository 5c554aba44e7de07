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
#include "words/stock-words.h"

struct _FrStoreView
{
  AdwBin parent_instance;
  FrSeason *season;
  GtkWidget *answer;
  GtkWidget *places;
  GtkWidget *empty;
  GtkWidget *lines; /* card */
  FrDraft *draft;   /* of the ways of keeping */
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

static void
show_lines (FrStoreView *self, const FrStock *stock)
{
  GtkBox *box = fr_card_emptied (self->lines);

  gtk_widget_set_visible (self->lines, stock->n_lines > 0);
  for (guint i = stock->n_lines; i-- > 0;) /* the latest first */
    {
      const FrStockLine *line = &stock->lines[i];
      const FrRecord *container
          = line->container != 0 ? fr_book_find (book_of (self), FR_KIND_CONTAINER, line->container) : NULL;
      g_autofree char *sentence = fr_stock_line_sentence (line, container, fr_season_get_say (self->season));
      GtkWidget *row = fr_caution_row_new (sentence, FR_SEVERITY_WARN);
      GtkWidget *button = gtk_button_new_with_label (_ ("Look at It…"));

      gtk_widget_set_valign (button, GTK_ALIGN_START);
      g_object_set_data (G_OBJECT (button), "kind", GINT_TO_POINTER (line->record->kind->id));
      g_object_set_data_full (G_OBJECT (button), "id", g_memdup2 (&line->record->id, sizeof line->record->id),
                              g_free);
      gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, sentence,
                                      -1);
      g_signal_connect_object (button, "clicked", G_CALLBACK (edit_line_cb), self, 0);
      gtk_box_append (GTK_BOX (row), button);
      gtk_box_append (box, row);
    }
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
  show_lines (self, stock);
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
fr_store_view_new (FrSeason *season)
{
  FrStoreView *self = g_object_new (FR_TYPE_STORE_VIEW, NULL);
  GtkWidget *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 16), *scroller = gtk_scrolled_window_new ();
  GtkWidget *clamp = adw_clamp_new ();
  g_autoptr (FrRecord) storing = NULL;

  self->season = g_object_ref (season);
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
  self->lines = fr_card_new (_ ("What Does Not Add Up"));
  self->draft = fr_draft_new (storing, TRUE);
  self->keeping = fr_record_editor_new (fr_season_get_book (season), self->draft, NULL);
  fr_record_editor_set_keep (self->keeping, keep_storing, NULL);
  gtk_box_append (GTK_BOX (page), self->answer);
  gtk_box_append (GTK_BOX (page), make_heading ());
  gtk_box_append (GTK_BOX (page), self->places);
  gtk_box_append (GTK_BOX (page), self->empty);
  gtk_box_append (GTK_BOX (page), self->lines);
  gtk_box_append (GTK_BOX (page), GTK_WIDGET (self->keeping));
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
  g_signal_connect_swapped (season, "changed", G_CALLBACK (show), self);
  g_signal_connect_after (self, "map", G_CALLBACK (map_cb), NULL);
  return GTK_WIDGET (self);
}
