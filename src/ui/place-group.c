/* Typing a number lets go of the tree: the place is then the typed one. */
#include "ui/place-group.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "ui/quantity-row.h"
#include "ui/tree-chooser.h"

struct _FrPlaceGroup
{
  AdwPreferencesGroup parent_instance;
  FrBook *book;
  FrTreeChooser *tree;
  GtkWidget *east;
  GtkWidget *north;
  double x_m;
  double y_m;
  gboolean setting;
};

G_DEFINE_FINAL_TYPE (FrPlaceGroup, fr_place_group, ADW_TYPE_PREFERENCES_GROUP)

static guint changed_signal;

static void
show (FrPlaceGroup *self)
{
  const FrUnits *units = fr_book_get_units (self->book);

  fr_quantity_row_set (FR_QUANTITY_ROW (self->east), self->x_m, NULL, units, NULL);
  fr_quantity_row_set (FR_QUANTITY_ROW (self->north), self->y_m, NULL, units, NULL);
  fr_entry_row_set_problem (FR_ENTRY_ROW (self->east), NULL);
  fr_entry_row_set_problem (FR_ENTRY_ROW (self->north), NULL);
}

static void
tree_cb (FrPlaceGroup *self)
{
  gint64 id = fr_tree_chooser_get (self->tree);
  const FrTree *tree = id != 0 ? (const FrTree *)fr_book_find (self->book, FR_KIND_TREE, id) : NULL;

  if (self->setting || tree == NULL)
    return;
  self->x_m = tree->x_m.value;
  self->y_m = tree->y_m.value;
  show (self);
  g_signal_emit (self, changed_signal, 0);
}

static void
typed_cb (FrQuantityRow *row, const char *text, gboolean finished, gpointer data)
{
  FrPlaceGroup *self = FR_PLACE_GROUP (data);
  const FrUnits *units = fr_book_get_units (self->book);
  double *value = GTK_WIDGET (row) == self->east ? &self->x_m : &self->y_m;

  if (!fr_quantity_row_read (row, text, finished, units, value))
    *value = NAN;
  else if (finished)
    fr_quantity_row_set (row, *value, text, units, NULL);
  self->setting = TRUE;
  fr_tree_chooser_set (self->tree, 0);
  self->setting = FALSE;
  g_signal_emit (self, changed_signal, 0);
}

static void
fr_place_group_dispose (GObject *object)
{
  g_clear_object (&FR_PLACE_GROUP (object)->book);
  G_OBJECT_CLASS (fr_place_group_parent_class)->dispose (object);
}

static void
fr_place_group_class_init (FrPlaceGroupClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_place_group_dispose;
  changed_signal
      = g_signal_new ("changed", FR_TYPE_PLACE_GROUP, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
fr_place_group_init (FrPlaceGroup *self)
{
  self->x_m = self->y_m = NAN;
}

GtkWidget *
fr_place_group_new (const char *title, FrBook *book)
{
  FrPlaceGroup *self = g_object_new (FR_TYPE_PLACE_GROUP, "title", title, NULL);

  self->book = g_object_ref (book);
  self->tree = FR_TREE_CHOOSER (fr_tree_chooser_new (_ ("At a tree"), NULL, book, _ ("Typed below")));
  self->east = fr_quantity_row_new (_ ("East"), NULL, FR_QUANTITY_DISTANCE);
  self->north = fr_quantity_row_new (_ ("North"), NULL, FR_QUANTITY_DISTANCE);
  fr_quantity_row_on_text (FR_QUANTITY_ROW (self->east), typed_cb, self);
  fr_quantity_row_on_text (FR_QUANTITY_ROW (self->north), typed_cb, self);
  g_signal_connect_object (self->tree, "chosen", G_CALLBACK (tree_cb), self, G_CONNECT_SWAPPED);
  if (fr_tree_chooser_n_trees (self->tree) == 0)
    gtk_widget_set_visible (GTK_WIDGET (self->tree), FALSE);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (self), GTK_WIDGET (self->tree));
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (self), self->east);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (self), self->north);
  show (self);
  return GTK_WIDGET (self);
}

void
fr_place_group_set (FrPlaceGroup *self, double x_m, double y_m)
{
  self->x_m = x_m;
  self->y_m = y_m;
  self->setting = TRUE;
  fr_tree_chooser_set (self->tree, 0);
  self->setting = FALSE;
  show (self);
  g_signal_emit (self, changed_signal, 0);
}

gboolean
fr_place_group_get (FrPlaceGroup *self, double *x_m_out, double *y_m_out)
{
  *x_m_out = self->x_m;
  *y_m_out = self->y_m;
  return !isnan (self->x_m) && !isnan (self->y_m);
}

void
fr_place_group_finish (FrPlaceGroup *self)
{
  fr_entry_row_finish (FR_ENTRY_ROW (self->east));
  fr_entry_row_finish (FR_ENTRY_ROW (self->north));
}
