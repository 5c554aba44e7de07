/* The map's painter draws it, so that list and key cannot differ from the map. It says nothing aloud: the
 * words stand beside it. */
#include "ui/tree-symbol.h"

#include <adwaita.h>

#include "ui/theme.h"

struct _FrTreeSymbol
{
  GtkWidget parent_instance;
  FrMapTree tree;
  int size_px;
};

G_DEFINE_FINAL_TYPE (FrTreeSymbol, fr_tree_symbol, GTK_TYPE_WIDGET)

static double
scale (FrTreeSymbol *self)
{
  return fr_text_scale_of_context (gtk_widget_get_pango_context (GTK_WIDGET (self)));
}

static void
fr_tree_symbol_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                        int *natural, int *minimum_baseline, int *natural_baseline)
{
  FrTreeSymbol *self = FR_TREE_SYMBOL (widget);

  *minimum = *natural = (int)(self->size_px * scale (self) + 0.5);
}

static void
fr_tree_symbol_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  FrTreeSymbol *self = FR_TREE_SYMBOL (widget);
  double width_px = gtk_widget_get_width (widget), height_px = gtk_widget_get_height (widget);
  FrPalette palette = fr_theme_palette ();
  cairo_t *cr
      = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)width_px, (float)height_px));

  fr_map_symbol_draw (cr, &palette, &self->tree, width_px / 2, height_px / 2,
                      0.36 * MIN (width_px, height_px));
  cairo_destroy (cr);
}

static void
fr_tree_symbol_class_init (FrTreeSymbolClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  widget_class->measure = fr_tree_symbol_measure;
  widget_class->snapshot = fr_tree_symbol_snapshot;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
fr_tree_symbol_init (FrTreeSymbol *self)
{
  fr_theme_redraws (GTK_WIDGET (self));
}

GtkWidget *
fr_tree_symbol_new (int size_px)
{
  FrTreeSymbol *self = g_object_new (FR_TYPE_TREE_SYMBOL, "valign", GTK_ALIGN_CENTER, NULL);

  self->size_px = size_px;
  return GTK_WIDGET (self);
}

void
fr_tree_symbol_set (FrTreeSymbol *self, const FrMapTree *tree)
{
  self->tree = *tree;
  self->tree.name = NULL;
  self->tree.n_set = self->tree.n_planned = 0;
  self->tree.is_selected = self->tree.is_hovered = self->tree.is_focused = self->tree.is_dimmed = FALSE;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
