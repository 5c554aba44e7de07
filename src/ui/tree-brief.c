#include "ui/tree-brief.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "ui/pieces.h"
#include "words/bush-words.h"
#include "words/tree-words.h"

/* Lines rather than a form: it is read beside the map. */
struct _FrTreeBrief
{
  AdwBin parent_instance;
  FrSugarbush *bush;
  GtkWidget *title;
  GtkWidget *place;
  GtkWidget *subtitle;
  GtkWidget *headline;
  GtkWidget *why;
  GtkWidget *cautions;
  GtkWidget *figures;
  GtkWidget *note;
};

G_DEFINE_FINAL_TYPE (FrTreeBrief, fr_tree_brief, ADW_TYPE_BIN)

static void
add_figure (FrTreeBrief *self, int line, const char *label, const char *value)
{
  GtkWidget *name = gtk_label_new (label), *number = gtk_label_new (value);

  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_label_set_xalign (GTK_LABEL (number), 1);
  gtk_label_set_wrap (GTK_LABEL (name), TRUE);
  gtk_widget_set_hexpand (name, TRUE);
  gtk_widget_add_css_class (name, "soft");
  gtk_widget_add_css_class (number, "value");
  gtk_grid_attach (GTK_GRID (self->figures), name, 0, line, 1, 1);
  gtk_grid_attach (GTK_GRID (self->figures), number, 1, line, 1, 1);
}

static void
fill_figures (FrTreeBrief *self, const FrBushTree *tree, const FrSay *say)
{
  g_autofree char *taps = fr_tree_taps_words (tree);
  int line = 0;

  for (GtkWidget *child; (child = gtk_widget_get_first_child (self->figures)) != NULL;)
    gtk_grid_remove (GTK_GRID (self->figures), child);
  if (tree->taps_set + tree->taps_planned > 0)
    add_figure (self, line++, _ ("Taps"), taps);
  if (!isnan (tree->season_l))
    {
      g_autofree char *litres = fr_say_amount (say, tree->season_l, FR_QUANTITY_VOLUME, -1);

      add_figure (self, line++, _ ("This season"), litres);
    }
  if (!isnan (tree->season_brix))
    {
      g_autofree char *brix = fr_say_amount (say, tree->season_brix, FR_QUANTITY_SWEETNESS, 1);

      add_figure (self, line++, _ ("Its sweetness"), brix);
    }
  if (tree->last_season != 0 && !isnan (tree->last_l))
    {
      g_autofree char *litres = fr_say_amount (say, tree->last_l, FR_QUANTITY_VOLUME, -1);
      g_autofree char *name = g_strdup_printf (_ ("Season %u"), tree->last_season);

      add_figure (self, line++, name, litres);
    }
  if (tree->rank > 0)
    {
      g_autofree char *rank = g_strdup_printf (_ ("%u of %u"), tree->rank, tree->n_ranked);

      add_figure (self, line++, _ ("Place by sugar, five seasons"), rank);
    }
}

static void
fill_cautions (FrTreeBrief *self, const FrBush *bush, const FrBushTree *tree, const FrSay *say)
{
  g_autoptr (GPtrArray) cautions = fr_bush_cautions (bush, tree, say);

  fr_box_empty (GTK_BOX (self->cautions));
  for (guint i = 0; i < cautions->len; i++)
    {
      const FrTreeCaution *caution = cautions->pdata[i];

      gtk_box_append (
          GTK_BOX (self->cautions),
          fr_caution_row_new (caution->text, caution->danger ? FR_SEVERITY_DANGER : FR_SEVERITY_WARN));
    }
  gtk_widget_set_visible (self->cautions, cautions->len > 0);
}

static void
update (FrTreeBrief *self)
{
  const FrBush *bush = fr_sugarbush_get_bush (self->bush);
  gint64 current = fr_sugarbush_get_current (self->bush);
  const FrBushTree *tree = bush != NULL && current != 0 ? fr_bush_find (bush, current) : NULL;
  FrSay say = { .units = *fr_book_get_units (fr_sugarbush_get_book (self->bush)) };
  g_autofree char *subtitle = NULL, *headline = NULL, *why = NULL, *place = NULL;
  guint position = 0;

  if (tree == NULL)
    return;
  subtitle = fr_tree_subtitle (tree, &say);
  headline = fr_bush_headline (bush, tree, &say, &why);
  if (fr_sugarbush_find_row (self->bush, current, &position))
    place = g_strdup_printf (_ ("%u of %u"), position + 1,
                             g_list_model_get_n_items (fr_sugarbush_get_rows (self->bush)));
  fr_set_text (self->title, tree->tree->name);
  fr_set_text (self->place, place);
  fr_set_text (self->subtitle, subtitle);
  fr_set_text (self->headline, headline);
  fr_set_text (self->why, why);
  fr_set_text (self->note, tree->tree->note);
  fill_cautions (self, bush, tree, &say);
  fill_figures (self, tree, &say);
}

static void
fr_tree_brief_dispose (GObject *object)
{
  g_clear_object (&FR_TREE_BRIEF (object)->bush);
  G_OBJECT_CLASS (fr_tree_brief_parent_class)->dispose (object);
}

static void
fr_tree_brief_class_init (FrTreeBriefClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_tree_brief_dispose;
}

static void
fr_tree_brief_init (FrTreeBrief *self)
{
}

static GtkWidget *
add_label (GtkWidget *box, const char *css)
{
  GtkWidget *label = fr_wrapped_text (NULL, css);

  gtk_box_append (GTK_BOX (box), label);
  return label;
}

static void
add_button (GtkWidget *box, const char *label, const char *action, const char *css)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (label);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_widget_set_hexpand (button, TRUE);
  if (css != NULL)
    gtk_widget_add_css_class (button, css);
  gtk_box_append (GTK_BOX (box), button);
}

GtkWidget *
fr_tree_brief_new (FrSugarbush *bush)
{
  FrTreeBrief *self = g_object_new (FR_TYPE_TREE_BRIEF, NULL);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0),
            *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *card = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4),
            *buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *scroller = gtk_scrolled_window_new ();

  self->bush = g_object_ref (bush);
  gtk_widget_add_css_class (box, "tree-panel");
  self->title = add_label (head, "panel-title");
  gtk_widget_set_hexpand (self->title, TRUE);
  self->place = add_label (head, "note");
  gtk_widget_set_valign (self->place, GTK_ALIGN_BASELINE);
  gtk_widget_set_valign (self->title, GTK_ALIGN_BASELINE);
  gtk_box_append (GTK_BOX (box), head);
  self->subtitle = add_label (box, "note");
  gtk_widget_add_css_class (card, "card");
  gtk_widget_add_css_class (card, "tree-card");
  self->headline = add_label (card, "strong");
  self->why = add_label (card, "note");
  gtk_box_append (GTK_BOX (box), card);
  self->cautions = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  gtk_widget_set_margin_bottom (self->cautions, 14);
  gtk_box_append (GTK_BOX (box), self->cautions);
  self->figures = gtk_grid_new ();
  gtk_grid_set_row_spacing (GTK_GRID (self->figures), 6);
  gtk_grid_set_column_spacing (GTK_GRID (self->figures), 12);
  gtk_box_append (GTK_BOX (box), self->figures);
  self->note = add_label (box, "soft");
  gtk_widget_set_margin_top (self->note, 12);
  gtk_widget_set_margin_top (buttons, 18);
  add_button (buttons, _ ("_Rename…"), "bush.rename", NULL);
  add_button (buttons, _ ("_Plan a Tap"), "bush.plan-tap", NULL);
  add_button (buttons, _ ("_Delete"), "bush.delete", "destructive-action");
  gtk_box_append (GTK_BOX (box), buttons);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), box);
  adw_bin_set_child (ADW_BIN (self), scroller);
  g_signal_connect_object (bush, "changed", G_CALLBACK (update), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (bush, "selection-changed", G_CALLBACK (update), self, G_CONNECT_SWAPPED);
  update (self);
  return GTK_WIDGET (self);
}
