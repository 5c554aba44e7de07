/* The names are made anew when the book changes; the tree that was chosen stays so as long as it is there. */
#include "ui/tree-chooser.h"

#include <math.h>

typedef struct
{
  gint64 id;
  const char *name; /* only while the list is made */
  char *key;
} Choice;

struct _FrTreeChooser
{
  AdwActionRow parent_instance;
  FrBook *book;
  GtkDropDown *names;
  GArray *ids; /* gint64, as the names are */
  char *none;
  gboolean filling;
};

G_DEFINE_FINAL_TYPE (FrTreeChooser, fr_tree_chooser, ADW_TYPE_ACTION_ROW)

static guint chosen_signal;

static void
choice_clear (gpointer choice)
{
  g_free (((Choice *)choice)->key);
}

static int
by_key (gconstpointer a, gconstpointer b)
{
  const Choice *first = a, *second = b;
  int order = g_strcmp0 (first->key, second->key);

  return order != 0 ? order : (first->id > second->id) - (first->id < second->id);
}

static GArray *
choices (FrBook *book)
{
  FrRecordList *list = fr_book_get_list (book, FR_KIND_TREE);
  GArray *found = g_array_new (FALSE, FALSE, sizeof (Choice));

  g_array_set_clear_func (found, choice_clear);
  for (guint i = 0; i < fr_record_list_get_size (list); i++)
    {
      const FrTree *tree = (const FrTree *)fr_record_list_get (list, i);
      Choice one = { tree->record.id, tree->name, NULL };

      if (tree->record.archived || isnan (tree->x_m.value) || isnan (tree->y_m.value))
        continue;
      one.key = g_utf8_collate_key_for_filename (tree->name, -1);
      g_array_append_val (found, one);
    }
  g_array_sort (found, by_key);
  return found;
}

static guint
position_of (FrTreeChooser *self, gint64 tree)
{
  for (guint i = 0; i < self->ids->len; i++)
    if (g_array_index (self->ids, gint64, i) == tree)
      return i;
  return GTK_INVALID_LIST_POSITION;
}

/* The one added last has the highest number. */
static guint
last_position (FrTreeChooser *self)
{
  guint last = GTK_INVALID_LIST_POSITION;

  for (guint i = 0; i < self->ids->len; i++)
    if (last == GTK_INVALID_LIST_POSITION
        || g_array_index (self->ids, gint64, i) > g_array_index (self->ids, gint64, last))
      last = i;
  return last;
}

static void
fill (FrTreeChooser *self)
{
  gint64 was = fr_tree_chooser_get (self);
  g_autoptr (GtkStringList) words = gtk_string_list_new (NULL);
  g_autoptr (GArray) found = choices (self->book);
  guint position;

  g_array_set_size (self->ids, 0);
  if (self->none != NULL)
    {
      gint64 none = 0;

      gtk_string_list_append (words, self->none);
      g_array_append_val (self->ids, none);
    }
  for (guint i = 0; i < found->len; i++)
    {
      gtk_string_list_append (words, g_array_index (found, Choice, i).name);
      g_array_append_val (self->ids, g_array_index (found, Choice, i).id);
    }
  position = position_of (self, was);
  if (position == GTK_INVALID_LIST_POSITION)
    position = self->none != NULL ? 0 : last_position (self);
  self->filling = TRUE;
  gtk_drop_down_set_model (self->names, G_LIST_MODEL (words));
  gtk_drop_down_set_selected (self->names, position);
  self->filling = FALSE;
  if (fr_tree_chooser_get (self) != was)
    g_signal_emit (self, chosen_signal, 0);
}

static void
selected_cb (FrTreeChooser *self)
{
  if (!self->filling)
    g_signal_emit (self, chosen_signal, 0);
}

static void
fr_tree_chooser_dispose (GObject *object)
{
  g_clear_object (&FR_TREE_CHOOSER (object)->book);
  G_OBJECT_CLASS (fr_tree_chooser_parent_class)->dispose (object);
}

static void
fr_tree_chooser_finalize (GObject *object)
{
  g_array_unref (FR_TREE_CHOOSER (object)->ids);
  g_free (FR_TREE_CHOOSER (object)->none);
  G_OBJECT_CLASS (fr_tree_chooser_parent_class)->finalize (object);
}

static void
fr_tree_chooser_class_init (FrTreeChooserClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_tree_chooser_dispose;
  G_OBJECT_CLASS (klass)->finalize = fr_tree_chooser_finalize;
  chosen_signal
      = g_signal_new ("chosen", FR_TYPE_TREE_CHOOSER, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
fr_tree_chooser_init (FrTreeChooser *self)
{
  GtkWidget *names
      = gtk_drop_down_new (NULL, gtk_property_expression_new (GTK_TYPE_STRING_OBJECT, NULL, "string"));

  self->ids = g_array_new (FALSE, FALSE, sizeof (gint64));
  self->names = GTK_DROP_DOWN (names);
  gtk_drop_down_set_enable_search (self->names, TRUE);
  gtk_widget_set_valign (names, GTK_ALIGN_CENTER);
  adw_action_row_add_suffix (ADW_ACTION_ROW (self), names);
  adw_action_row_set_activatable_widget (ADW_ACTION_ROW (self), names);
  gtk_widget_set_focusable (GTK_WIDGET (self), FALSE); /* one stop for Tab is enough */
  g_signal_connect_object (names, "notify::selected", G_CALLBACK (selected_cb), self, G_CONNECT_SWAPPED);
}

GtkWidget *
fr_tree_chooser_new (const char *title, const char *note, FrBook *book, const char *none)
{
  FrTreeChooser *self = g_object_new (FR_TYPE_TREE_CHOOSER, "title", title, NULL);

  if (note != NULL)
    adw_action_row_set_subtitle (ADW_ACTION_ROW (self), note);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->names), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
  self->book = g_object_ref (book);
  self->none = g_strdup (none);
  g_signal_connect_object (book, "changed", G_CALLBACK (fill), self, G_CONNECT_SWAPPED);
  fill (self);
  return GTK_WIDGET (self);
}

gint64
fr_tree_chooser_get (FrTreeChooser *self)
{
  guint position = gtk_drop_down_get_selected (self->names);

  return position < self->ids->len ? g_array_index (self->ids, gint64, position) : 0;
}

void
fr_tree_chooser_set (FrTreeChooser *self, gint64 tree)
{
  guint position = position_of (self, tree);

  if (position != GTK_INVALID_LIST_POSITION)
    gtk_drop_down_set_selected (self->names, position);
}

guint
fr_tree_chooser_n_trees (FrTreeChooser *self)
{
  return self->ids->len - (self->none != NULL ? 1 : 0);
}
