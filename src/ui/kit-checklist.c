/* The checklist's window. Rows follow the book, so that undo is seen here too. */
#include "ui/kit-checklist.h"

#include <glib/gi18n-lib.h>

#include "models/season-edit.h"
#include "ui/dialog-frame.h"
#include "ui/pieces.h"
#include "words/chore-words.h"

struct _FrKitChecklist
{
  AdwWindow parent_instance;
  FrWindow *window; /* the dialog is transient for it and goes first */
  FrSeason *season;
  GtkBox *box;
};

G_DEFINE_FINAL_TYPE (FrKitChecklist, fr_kit_checklist, ADW_TYPE_WINDOW)

/* What a row is about, by number: the records may move on. */
typedef struct
{
  FrChoreTask task;
  FrChoreKit kit;
} Point;

static void
write_point (FrKitChecklist *self, const Point *point, const char *outcome)
{
  FrBook *book = fr_season_get_book (self->season);
  guint season = fr_season_get_season (self->season);
  const char *task = fr_chore_code (point->task);
  GError *error = NULL;
  FrChange *change = outcome != NULL ? fr_season_edit_chore (
                         book, season, task, point->kit, fr_season_get_today (self->season), outcome, &error)
                                     : fr_season_edit_chore_undone (book, season, task, point->kit, &error);

  fr_window_write (self->window, change, error);
}

static void
done_cb (GtkCheckButton *check, gpointer user_data)
{
  write_point (FR_KIT_CHECKLIST (user_data), g_object_get_data (G_OBJECT (check), "point"),
               gtk_check_button_get_active (check) ? "done" : NULL);
}

static void
not_needed_cb (GtkButton *button, gpointer user_data)
{
  write_point (FR_KIT_CHECKLIST (user_data), g_object_get_data (G_OBJECT (button), "point"), "not_needed");
}

static void
add_point (FrKitChecklist *self, GtkWidget *group, const FrChoreItem *item)
{
  GtkWidget *row = adw_action_row_new (), *check = gtk_check_button_new ();
  gboolean open
      = item->state == FR_CHORE_DUE || item->state == FR_CHORE_LATE || item->state == FR_CHORE_LATER;
  Point point = { item->task, { item->kit->kind->id, item->kit->id } };
  g_autofree char *title = fr_chore_item_title (item), *sentence = fr_chore_item_sentence (item);
  g_autofree char *state = fr_chore_state_words (item);
  /* Translators: what to do and why, how it stands */
  g_autofree char *note
      = state != NULL ? g_strdup_printf (_ ("%s — %s"), sentence, state) : g_strdup (sentence);
  g_autofree char *title_markup = g_markup_escape_text (title, -1),
                  *note_markup = g_markup_escape_text (note, -1);

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title_markup);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (row), note_markup);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (check), !open);
  gtk_widget_set_valign (check, GTK_ALIGN_CENTER);
  gtk_accessible_update_property (GTK_ACCESSIBLE (check), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
  g_object_set_data_full (G_OBJECT (check), "point", g_memdup2 (&point, sizeof point), g_free);
  g_signal_connect_object (check, "toggled", G_CALLBACK (done_cb), self, 0);
  adw_action_row_add_prefix (ADW_ACTION_ROW (row), check);
  adw_action_row_set_activatable_widget (ADW_ACTION_ROW (row), check);
  if (open)
    {
      GtkWidget *button = gtk_button_new_with_label (_ ("Not Needed"));
      /* Translators: what was to be done */
      g_autofree char *name = g_strdup_printf (_ ("Not needed: %s"), title);

      gtk_widget_add_css_class (button, "flat");
      gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
      gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
      g_object_set_data_full (G_OBJECT (button), "point", g_memdup2 (&point, sizeof point), g_free);
      g_signal_connect_object (button, "clicked", G_CALLBACK (not_needed_cb), self, 0);
      adw_action_row_add_suffix (ADW_ACTION_ROW (row), button);
    }
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), row);
}

static void
show (FrKitChecklist *self)
{
  const GArray *items = fr_season_get_chores (self->season);

  fr_box_empty (self->box);
  for (guint cleaning = 0; cleaning < 2; cleaning++)
    {
      GtkWidget *group = adw_preferences_group_new ();
      guint n = 0;

      adw_preferences_group_set_title (ADW_PREFERENCES_GROUP (group),
                                       cleaning ? _ ("After the Last Sap") : _ ("Before the First Sap"));
      for (guint i = 0; i < items->len; i++)
        {
          const FrChoreItem *item = &g_array_index (items, FrChoreItem, i);

          if (fr_chore_is_cleaning (item->task) != (cleaning == 1))
            continue;
          add_point (self, group, item);
          n++;
        }
      g_object_ref_sink (group);
      if (n > 0)
        gtk_box_append (self->box, group);
      g_object_unref (group);
    }
  if (items->len == 0)
    gtk_box_append (
        self->box,
        fr_wrapped_text (_ ("There is no kit in the book yet: add pans and cookers on Kit and prices, "
                            "and containers in the store."),
                         "soft"));
}

static void
fr_kit_checklist_dispose (GObject *object)
{
  FrKitChecklist *self = FR_KIT_CHECKLIST (object);

  if (self->season != NULL)
    g_signal_handlers_disconnect_by_data (self->season, self);
  g_clear_object (&self->season);
  G_OBJECT_CLASS (fr_kit_checklist_parent_class)->dispose (object);
}

static void
fr_kit_checklist_class_init (FrKitChecklistClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_kit_checklist_dispose;
  fr_dialog_frame_class_init (GTK_WIDGET_CLASS (klass));
}

static void
fr_kit_checklist_init (FrKitChecklist *self)
{
}

GtkWidget *
fr_kit_checklist_new (FrWindow *window, FrSeason *season)
{
  FrKitChecklist *self = g_object_new (FR_TYPE_KIT_CHECKLIST, "transient-for", window, "modal", TRUE, NULL);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), *scroller = gtk_scrolled_window_new ();
  GtkWidget *inner = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18);

  self->window = window;
  self->season = g_object_ref (season);
  self->box = GTK_BOX (inner);
  gtk_widget_add_css_class (inner, "editor-pane");
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), inner);
  gtk_widget_set_vexpand (scroller, TRUE);
  gtk_box_append (GTK_BOX (box), adw_header_bar_new ());
  gtk_box_append (GTK_BOX (box), scroller);
  adw_window_set_content (ADW_WINDOW (self), box);
  gtk_window_set_title (GTK_WINDOW (self), _ ("Checklist of the Kit"));
  gtk_window_set_default_size (GTK_WINDOW (self), 600, 640);
  g_signal_connect_swapped (season, "changed", G_CALLBACK (show), self);
  show (self);
  return GTK_WIDGET (self);
}
