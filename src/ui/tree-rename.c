#include "ui/tree-rename.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "models/bush-edit.h"
#include "ui/window.h"

/* A name the book refuses keeps it open, with the reason under the entry. */
struct _FrTreeRename
{
  GtkPopover parent_instance;
  FrSugarbush *bush;
  GtkWidget *entry;
  GtkWidget *problem;
  gint64 tree;
};

G_DEFINE_FINAL_TYPE (FrTreeRename, fr_tree_rename, GTK_TYPE_POPOVER)

static void
activate_cb (FrTreeRename *self)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *name = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->entry))));
  FrWindow *window = fr_window_of (GTK_WIDGET (self));
  FrChange *change
      = fr_bush_edit_set (fr_sugarbush_get_book (self->bush), &self->tree, 1, "name", name, NAN, &error);

  if (error != NULL)
    {
      gtk_label_set_text (GTK_LABEL (self->problem), error->message);
      gtk_widget_set_visible (self->problem, TRUE);
      gtk_widget_add_css_class (self->entry, "error");
      return;
    }
  gtk_popover_popdown (GTK_POPOVER (self));
  fr_window_finish (window, change, NULL);
}

static void
fr_tree_rename_dispose (GObject *object)
{
  g_clear_object (&FR_TREE_RENAME (object)->bush);
  G_OBJECT_CLASS (fr_tree_rename_parent_class)->dispose (object);
}

static void
fr_tree_rename_class_init (FrTreeRenameClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_tree_rename_dispose;
}

static void
fr_tree_rename_init (FrTreeRename *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6), *label = gtk_label_new (_ ("Name"));

  self->entry = gtk_entry_new ();
  self->problem = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_xalign (GTK_LABEL (self->problem), 0);
  gtk_label_set_wrap (GTK_LABEL (self->problem), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (self->problem), 28);
  gtk_widget_add_css_class (label, "note");
  gtk_widget_add_css_class (self->problem, "problem");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Name of the tree"), -1);
  gtk_box_append (GTK_BOX (box), label);
  gtk_box_append (GTK_BOX (box), self->entry);
  gtk_box_append (GTK_BOX (box), self->problem);
  gtk_widget_add_css_class (box, "tree-rename");
  gtk_popover_set_child (GTK_POPOVER (self), box);
  g_signal_connect_object (self->entry, "activate", G_CALLBACK (activate_cb), self, G_CONNECT_SWAPPED);
}

GtkWidget *
fr_tree_rename_new (FrSugarbush *bush)
{
  FrTreeRename *self = g_object_new (FR_TYPE_TREE_RENAME, NULL);

  self->bush = g_object_ref (bush);
  return GTK_WIDGET (self);
}

void
fr_tree_rename_ask (FrTreeRename *self, gint64 tree, const GdkRectangle *at)
{
  const FrBushTree *of = fr_bush_find (fr_sugarbush_get_bush (self->bush), tree);

  if (of == NULL)
    return;
  self->tree = tree;
  gtk_editable_set_text (GTK_EDITABLE (self->entry), of->tree->name);
  gtk_widget_remove_css_class (self->entry, "error");
  gtk_widget_set_visible (self->problem, FALSE);
  gtk_popover_set_pointing_to (GTK_POPOVER (self), at);
  gtk_popover_popup (GTK_POPOVER (self));
  gtk_widget_grab_focus (self->entry);
  gtk_editable_select_region (GTK_EDITABLE (self->entry), 0, -1);
}
