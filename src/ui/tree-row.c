#include "ui/tree-row.h"

#include <math.h>

#include "paint/label.h"
#include "ui/map-scene.h"
#include "ui/tree-symbol.h"
#include "words/tree-words.h"

/* A row is filled anew when the list hands it another tree or the book changed. */
struct _FrTreeRow
{
  GtkBox parent_instance;
  GtkWidget *symbol;
  GtkWidget *name;
  GtkWidget *size;
  GtkWidget *taps;
  GtkWidget *litres;
  gint64 tree;
};

G_DEFINE_FINAL_TYPE (FrTreeRow, fr_tree_row, GTK_TYPE_BOX)

static void
fr_tree_row_class_init (FrTreeRowClass *klass)
{
}

int
fr_tree_row_width (GtkWidget *widget, int width_px)
{
  return width_px < 0 ? width_px
                      : (int)(width_px * fr_text_scale_of_context (gtk_widget_get_pango_context (widget)));
}

static GtkWidget *
add_label (FrTreeRow *self, float xalign, int width_px)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), xalign);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_widget_set_size_request (label, fr_tree_row_width (GTK_WIDGET (self), width_px), -1);
  gtk_box_append (GTK_BOX (self), label);
  return label;
}

static void
fr_tree_row_init (FrTreeRow *self)
{
  self->symbol = fr_tree_symbol_new (FR_TREE_ROW_SYMBOL_PX);
  gtk_box_append (GTK_BOX (self), self->symbol);
  self->name = add_label (self, 0, -1);
  gtk_widget_set_hexpand (self->name, TRUE);
  gtk_widget_add_css_class (self->name, "tree-name");
  self->size = add_label (self, 1, FR_TREE_ROW_SIZE_PX);
  self->taps = add_label (self, 1, FR_TREE_ROW_TAPS_PX);
  self->litres = add_label (self, 1, FR_TREE_ROW_LITRES_PX);
  gtk_widget_add_css_class (GTK_WIDGET (self), "tree-row");
}

GtkWidget *
fr_tree_row_new (void)
{
  return g_object_new (FR_TYPE_TREE_ROW, "spacing", 4, NULL);
}

gint64
fr_tree_row_get_tree (FrTreeRow *self)
{
  return self->tree;
}

static void
set_number (GtkWidget *label, double value, FrQuantityKind kind, const FrUnits *units, int decimals)
{
  g_autofree char *number = NULL;
  const char *unit;

  fr_quantity_format (value, kind, units, decimals, &number, &unit);
  gtk_label_set_text (GTK_LABEL (label), number);
}

static void
set_soft (GtkWidget *label, gboolean soft)
{
  if (soft)
    gtk_widget_add_css_class (label, "soft");
  else
    gtk_widget_remove_css_class (label, "soft");
}

void
fr_tree_row_set (FrTreeRow *self, FrSugarbush *bush, gint64 id)
{
  const FrBush *of = fr_sugarbush_get_bush (bush);
  const FrBushTree *tree = of != NULL && id != 0 ? fr_bush_find (of, id) : NULL;
  const FrUnits *units = fr_book_get_units (fr_sugarbush_get_book (bush));
  FrSay say = { .units = *units };
  g_autofree char *taps = NULL, *spoken = NULL;
  FrMapTree symbol;

  self->tree = tree != NULL ? id : 0;
  if (tree == NULL)
    return;
  fr_map_tree_set (&symbol, bush, tree);
  fr_tree_symbol_set (FR_TREE_SYMBOL (self->symbol), &symbol);
  gtk_label_set_text (GTK_LABEL (self->name), tree->tree->name);
  set_number (self->size, tree->diameter_m, FR_QUANTITY_LENGTH, units, 0);
  set_number (self->litres, tree->season_l, FR_QUANTITY_VOLUME, units, 1);
  taps = fr_tree_taps_short (tree);
  gtk_label_set_text (GTK_LABEL (self->taps), taps);
  set_soft (self->size, isnan (tree->diameter_m));
  set_soft (self->taps, tree->taps_set == 0);
  set_soft (self->litres, isnan (tree->season_l));
  spoken = fr_tree_spoken (tree, &say);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
}
