#include "ui/plan-tree-row.h"

#include <glib/gi18n-lib.h>

#include "ui/map-scene.h"
#include "ui/tree-symbol.h"
#include "words/plan-tree-words.h"

#define SYMBOL_PX 24
#define TAPS_PX 40
#define AMOUNT_PX 56
#define SPAN_PX 84

/* Filled anew when the list hands it another tree. */
struct _FrPlanTreeRow
{
  GtkBox parent_instance;
  GtkWidget *symbol;
  GtkWidget *name;
  GtkWidget *note;
  GtkWidget *taps;
  GtkWidget *litres;
  GtkWidget *litres_span;
  GtkWidget *sugar;
  GtkWidget *sugar_span;
};

G_DEFINE_FINAL_TYPE (FrPlanTreeRow, fr_plan_tree_row, GTK_TYPE_BOX)

static GtkWidget *
add_label (GtkWidget *box, float xalign, int width_px, const char *css)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), xalign);
  gtk_widget_set_size_request (label, width_px, -1);
  if (css != NULL)
    gtk_widget_add_css_class (label, css);
  gtk_box_append (GTK_BOX (box), label);
  return label;
}

static void
fr_plan_tree_row_class_init (FrPlanTreeRowClass *klass)
{
}

static void
fr_plan_tree_row_init (FrPlanTreeRow *self)
{
  GtkWidget *box = GTK_WIDGET (self);

  self->symbol = fr_tree_symbol_new (SYMBOL_PX);
  gtk_box_append (GTK_BOX (box), self->symbol);
  self->name = add_label (box, 0, -1, "tree-name");
  gtk_label_set_ellipsize (GTK_LABEL (self->name), PANGO_ELLIPSIZE_END);
  self->note = add_label (box, 0, -1, "note");
  gtk_widget_set_hexpand (self->note, TRUE);
  self->taps = add_label (box, 1, TAPS_PX, NULL);
  self->litres = add_label (box, 1, AMOUNT_PX, NULL);
  self->litres_span = add_label (box, 0, SPAN_PX, "note");
  self->sugar = add_label (box, 1, AMOUNT_PX + 12, NULL);
  self->sugar_span = add_label (box, 0, SPAN_PX, "note");
}

GtkWidget *
fr_plan_tree_row_new (void)
{
  return g_object_new (FR_TYPE_PLAN_TREE_ROW, "spacing", 6, NULL);
}

void
fr_plan_tree_row_set (FrPlanTreeRow *self, FrSugarbush *bush, gint64 id, guint taps)
{
  const FrBush *of = fr_sugarbush_get_bush (bush);
  const FrBushTree *tree = fr_bush_find (of, id);
  FrSay say = { .units = *fr_book_get_units (fr_sugarbush_get_book (bush)) };
  g_autoptr (FrChosenWords) words = NULL;
  FrMapTree symbol;

  if (tree == NULL)
    return;
  words = fr_chosen_words_new (of, tree, taps, &say);
  fr_map_tree_set (&symbol, bush, tree);
  fr_tree_symbol_set (FR_TREE_SYMBOL (self->symbol), &symbol);
  gtk_label_set_text (GTK_LABEL (self->name), tree->tree->name);
  gtk_label_set_text (GTK_LABEL (self->note), words->note);
  gtk_label_set_text (GTK_LABEL (self->taps), words->taps);
  gtk_label_set_text (GTK_LABEL (self->litres), words->litres);
  gtk_label_set_text (GTK_LABEL (self->litres_span), words->litres_span);
  gtk_label_set_text (GTK_LABEL (self->sugar), words->sugar);
  gtk_label_set_text (GTK_LABEL (self->sugar_span), words->sugar_span);
  if (words->spoken != NULL)
    gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, words->spoken, -1);
}

GtkWidget *
fr_plan_tree_heads_new (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *name = add_label (box, 0, -1, "figure-label"),
            *taps = add_label (box, 1, TAPS_PX, "figure-label"),
            *sap = add_label (box, 1, AMOUNT_PX, "figure-label"), *gap = add_label (box, 0, SPAN_PX, NULL),
            *sugar = add_label (box, 1, AMOUNT_PX + 12, "figure-label");

  gtk_widget_set_hexpand (name, TRUE);
  gtk_label_set_text (GTK_LABEL (name), _ ("Tree"));
  gtk_label_set_text (GTK_LABEL (taps), _ ("Taps"));
  gtk_label_set_text (GTK_LABEL (sap), _ ("Sap"));
  gtk_label_set_text (GTK_LABEL (gap), "");
  gtk_label_set_text (GTK_LABEL (sugar), _ ("Sugar"));
  add_label (box, 0, SPAN_PX, NULL);
  gtk_widget_add_css_class (box, "plan-heads");
  return box;
}
