/* List, map and panel beside each other, and in narrow windows over each other. */
#include "ui/map-pane.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "paint/label.h"
#include "ui/bush-map-sketch.h"
#include "ui/ground-panel.h"
#include "ui/map-scene.h"
#include "ui/tree-panel.h"
#include "ui/tree-list.h"
#include "ui/tree-rename.h"
#include "ui/tree-symbol.h"
#include "ui/trees-together.h"
#include "words/tree-words.h"

#define PANEL_FOLD_PX 900
#define LIST_FOLD_PX 640
#define KEY_LEAST_PX 480
/* Beside each other they ask for more than a narrow window has; they fold before it comes to that. */
#define LEAST_PX 330
#define LIST_PX 236 /* at text scale 1 */

struct _FrMapPane
{
  FrFoldBin parent_instance;
  GtkStack *stack;
  AdwFlap *panel_flap;
  GtkStack *panel;
  AdwFlap *list_flap;
  AdwBin *list_bin;
  GtkOverlay *overlay;
  GtkWidget *list_button;
  GtkWidget *panel_button;
  GtkWidget *shade_label;
  GtkDropDown *shade;
  GtkBox *key;
  GtkWidget *hint;
  GtkWidget *empty_buttons;

  FrSugarbush *bush;
  FrTreeList *list;
  FrBushMap *map;
  gboolean shows_ground;
  GtkWidget *summary; /* what the panel says while no tree is selected */
  FrTreeRename *rename;
  gboolean panel_folded, list_folded, filled;
  gboolean empty_left; /* "Add Tree" leads from the empty page to the map */
};

G_DEFINE_FINAL_TYPE (FrMapPane, fr_map_pane, FR_TYPE_FOLD_BIN)

static void
set_folded (FrMapPane *self, AdwFlap *flap, GtkWidget *button, gboolean *kept, gboolean folded)
{
  gtk_widget_set_visible (button, folded);
  if (*kept == folded)
    return;
  *kept = folded;
  adw_flap_set_fold_policy (flap, folded ? ADW_FLAP_FOLD_POLICY_ALWAYS : ADW_FLAP_FOLD_POLICY_NEVER);
  adw_flap_set_reveal_flap (flap, !folded);
}

static void
fr_map_pane_fold (FrFoldBin *bin, int width)
{
  FrMapPane *self = FR_MAP_PANE (bin);

  set_folded (self, self->panel_flap, self->panel_button, &self->panel_folded, width < PANEL_FOLD_PX);
  set_folded (self, self->list_flap, self->list_button, &self->list_folded, width < LIST_FOLD_PX);
  gtk_widget_set_visible (GTK_WIDGET (self->key), width >= KEY_LEAST_PX);
  gtk_widget_set_visible (self->shade_label, width >= KEY_LEAST_PX);
}

static void
fr_map_pane_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  FrMapPane *self = FR_MAP_PANE (widget);

  GTK_WIDGET_CLASS (fr_map_pane_parent_class)->size_allocate (widget, width, height, baseline);
  if (self->rename != NULL)
    gtk_popover_present (GTK_POPOVER (self->rename));
}

static void
summary_text (FrMapPane *self)
{
  const FrBush *bush = fr_sugarbush_get_bush (self->bush);
  FrSay say = { .units = *fr_book_get_units (fr_sugarbush_get_book (self->bush)) };
  g_autofree char *all = bush != NULL ? fr_bush_spoken (bush, &say) : NULL;

  gtk_label_set_text (GTK_LABEL (self->summary), all);
}

static void
show_panel (FrMapPane *self)
{
  guint n = fr_sugarbush_n_selected (self->bush);

  if (n > 0)
    self->shows_ground = FALSE; /* the tree asked for comes before it */
  gtk_stack_set_visible_child_name (self->panel, self->shows_ground ? "ground"
                                                 : n == 0           ? "none"
                                                 : n == 1           ? "one"
                                                                    : "many");
}

static void
changed_cb (FrMapPane *self)
{
  const FrBush *bush = fr_sugarbush_get_bush (self->bush);
  gboolean empty = bush == NULL || fr_bush_n_trees (bush) == 0;

  if (!empty)
    self->empty_left = FALSE;
  gtk_stack_set_visible_child_name (self->stack, empty && !self->empty_left ? "empty" : "map");
  summary_text (self);
  show_panel (self);
}

static void
open_cb (FrMapPane *self)
{
  adw_flap_set_reveal_flap (self->panel_flap, TRUE);
  gtk_widget_child_focus (gtk_stack_get_visible_child (self->panel), GTK_DIR_TAB_FORWARD);
}

static void
adding_cb (FrMapPane *self)
{
  if (!fr_bush_map_get_adding (self->map) && self->empty_left)
    {
      self->empty_left = FALSE;
      changed_cb (self);
    }
}

static void
hint_cb (FrMapPane *self, const char *words)
{
  /* A panel that lies over the map makes room for what is drawn, and comes back after it. */
  if (self->panel_folded && self->shows_ground)
    adw_flap_set_reveal_flap (self->panel_flap, !fr_bush_map_is_sketching (self->map));
  gtk_widget_set_visible (self->hint, words != NULL);
  if (words != NULL)
    gtk_label_set_text (GTK_LABEL (self->hint), words);
}

static void
shade_cb (FrMapPane *self)
{
  if (self->filled)
    fr_sugarbush_set_shade (self->bush, (FrTreeShade)gtk_drop_down_get_selected (self->shade));
}

/* Four shapes, half full as on a map with something to show. */
static void
fill_key (FrMapPane *self)
{
  static const FrMapGroup groups[]
      = { FR_MAP_GROUP_HARD, FR_MAP_GROUP_SOFT, FR_MAP_GROUP_OTHER, FR_MAP_GROUP_NONE };
  static const FrTreeGroup named[] = { FR_TREE_HARD, FR_TREE_SOFT, FR_TREE_OTHER, FR_TREE_NOT_MAPLE };

  for (guint i = 0; i < G_N_ELEMENTS (groups); i++)
    {
      FrMapTree tree = { .group = groups[i], .diameter_m = 0.4, .level_ratio = 0.5 };
      GtkWidget *pair = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 3), *symbol = fr_tree_symbol_new (24);
      GtkWidget *label = gtk_label_new (fr_tree_group_word (named[i]));

      fr_tree_symbol_set (FR_TREE_SYMBOL (symbol), &tree);
      gtk_box_append (GTK_BOX (pair), symbol);
      gtk_box_append (GTK_BOX (pair), label);
      gtk_box_append (self->key, pair);
    }
}

static GtkWidget *
make_none (FrMapPane *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6), *title = gtk_label_new (_ ("No tree selected"));
  GtkWidget *hint
      = gtk_label_new (_ ("Choose one on the map or in the list, or several to change them together."));

  self->summary = gtk_label_new (NULL);
  gtk_widget_add_css_class (title, "panel-title");
  gtk_widget_add_css_class (hint, "soft");
  gtk_widget_add_css_class (self->summary, "soft");
  gtk_label_set_xalign (GTK_LABEL (title), 0);
  gtk_label_set_xalign (GTK_LABEL (hint), 0);
  gtk_label_set_xalign (GTK_LABEL (self->summary), 0);
  gtk_label_set_wrap (GTK_LABEL (hint), TRUE);
  gtk_label_set_wrap (GTK_LABEL (self->summary), TRUE);
  gtk_widget_set_margin_top (self->summary, 12);
  gtk_box_append (GTK_BOX (box), title);
  gtk_box_append (GTK_BOX (box), hint);
  gtk_box_append (GTK_BOX (box), self->summary);
  gtk_widget_add_css_class (box, "tree-panel");
  return box;
}

static void
fr_map_pane_dispose (GObject *object)
{
  FrMapPane *self = FR_MAP_PANE (object);

  if (self->rename != NULL)
    {
      /* First closed: an open one is held by its grab. */
      gtk_popover_popdown (GTK_POPOVER (self->rename));
      gtk_widget_unparent (GTK_WIDGET (self->rename));
    }
  self->rename = NULL;
  adw_bin_set_child (ADW_BIN (self), NULL);
  gtk_widget_dispose_template (GTK_WIDGET (self), FR_TYPE_MAP_PANE);
  g_clear_object (&self->bush);
  G_OBJECT_CLASS (fr_map_pane_parent_class)->dispose (object);
}

static void
fr_map_pane_class_init (FrMapPaneClass *klass)
{
  static const int limits_px[] = { PANEL_FOLD_PX, LIST_FOLD_PX, KEY_LEAST_PX, 0 };
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  FrFoldBinClass *bin_class = FR_FOLD_BIN_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = fr_map_pane_dispose;
  bin_class->limits_px = limits_px;
  bin_class->least_px = LEAST_PX;
  bin_class->fold = fr_map_pane_fold;
  widget_class->size_allocate = fr_map_pane_size_allocate;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/frostrun/Frostrun/ui/map-pane.ui");
  gtk_widget_class_bind_template_child (widget_class, FrMapPane, stack);
  gtk_widget_class_bind_template_child (widget_class, FrMapPane, panel_flap);
  gtk_widget_class_bind_template_child (widget_class, FrMapPane, panel);
  gtk_widget_class_bind_template_child (widget_class, FrMapPane, list_flap);
  gtk_widget_class_bind_template_child (widget_class, FrMapPane, list_bin);
  gtk_widget_class_bind_template_child (widget_class, FrMapPane, overlay);
  gtk_widget_class_bind_template_child (widget_class, FrMapPane, list_button);
  gtk_widget_class_bind_template_child (widget_class, FrMapPane, panel_button);
  gtk_widget_class_bind_template_child (widget_class, FrMapPane, shade_label);
  gtk_widget_class_bind_template_child (widget_class, FrMapPane, shade);
  gtk_widget_class_bind_template_child (widget_class, FrMapPane, key);
  gtk_widget_class_bind_template_child (widget_class, FrMapPane, hint);
  gtk_widget_class_bind_template_child (widget_class, FrMapPane, empty_buttons);
  gtk_widget_class_bind_template_callback (widget_class, shade_cb);
}

static void
fr_map_pane_init (FrMapPane *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
fr_map_pane_new (FrSugarbush *bush)
{
  FrMapPane *self = g_object_new (FR_TYPE_MAP_PANE, NULL);
  /* By FrTreeShade. */
  const char *const shades[] = { _ ("Sap a tap"),        _ ("Rank by sugar"), _ ("Sweetness"),
                                 _ ("Age of the girth"), _ ("Nothing"),       NULL };
  g_autoptr (GtkStringList) words = gtk_string_list_new (shades);

  self->bush = g_object_ref (bush);
  /* Larger letters need a wider list, or no name has room. */
  gtk_widget_set_size_request (
      GTK_WIDGET (self->list_bin),
      (int)(LIST_PX * fr_text_scale_of_context (gtk_widget_get_pango_context (GTK_WIDGET (self)))), -1);
  gtk_drop_down_set_model (self->shade, G_LIST_MODEL (words));
  gtk_drop_down_set_selected (self->shade, fr_sugarbush_get_shade (bush));
  self->filled = TRUE;
  self->list = FR_TREE_LIST (fr_tree_list_new (bush));
  adw_bin_set_child (self->list_bin, GTK_WIDGET (self->list));
  self->map = FR_BUSH_MAP (fr_bush_map_new (bush));
  gtk_overlay_set_child (self->overlay, GTK_WIDGET (self->map));
  fill_key (self);
  gtk_stack_add_named (self->panel, make_none (self), "none");
  gtk_stack_add_named (self->panel, fr_tree_panel_new (bush), "one");
  gtk_stack_add_named (self->panel, fr_trees_together_new (bush), "many");
  self->rename = FR_TREE_RENAME (fr_tree_rename_new (bush));
  gtk_widget_set_parent (GTK_WIDGET (self->rename), GTK_WIDGET (self));

  g_signal_connect_object (self->list, "open", G_CALLBACK (open_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->map, "open", G_CALLBACK (open_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->map, "adding-changed", G_CALLBACK (adding_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->map, "hint", G_CALLBACK (hint_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (bush, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (bush, "selection-changed", G_CALLBACK (show_panel), self, G_CONNECT_SWAPPED);
  changed_cb (self);
  return GTK_WIDGET (self);
}

void
fr_map_pane_find (FrMapPane *self)
{
  adw_flap_set_reveal_flap (self->list_flap, TRUE);
  fr_tree_list_find (self->list);
}

void
fr_map_pane_add (FrMapPane *self)
{
  if (g_strcmp0 (gtk_stack_get_visible_child_name (self->stack), "empty") == 0)
    {
      self->empty_left = TRUE;
      changed_cb (self);
    }
  if (self->panel_folded)
    adw_flap_set_reveal_flap (self->panel_flap, FALSE);
  if (self->list_folded)
    adw_flap_set_reveal_flap (self->list_flap, FALSE);
  fr_bush_map_set_adding (self->map, TRUE);
  gtk_widget_grab_focus (GTK_WIDGET (self->map));
}

static void
ground_closed_cb (FrMapPane *self)
{
  fr_map_pane_show_ground (self, FALSE);
}

void
fr_map_pane_show_ground (FrMapPane *self, gboolean shown)
{
  if (shown && gtk_stack_get_child_by_name (self->panel, "ground") == NULL)
    {
      GtkWidget *ground = fr_ground_panel_new (self->bush, self->map);

      gtk_stack_add_named (self->panel, ground, "ground");
      g_signal_connect_object (ground, "close", G_CALLBACK (ground_closed_cb), self, G_CONNECT_SWAPPED);
    }
  if (!shown)
    fr_bush_map_sketch_end (self->map, FALSE);
  self->shows_ground = shown;
  self->empty_left = shown; /* ground may be drawn before there is a tree */
  if (shown)
    fr_sugarbush_select (self->bush, 0);
  changed_cb (self);
  if (self->panel_folded)
    adw_flap_set_reveal_flap (self->panel_flap, shown);
  if (shown)
    gtk_widget_child_focus (gtk_stack_get_visible_child (self->panel), GTK_DIR_TAB_FORWARD);
  else
    gtk_widget_grab_focus (GTK_WIDGET (self->map));
}

gboolean
fr_map_pane_shows_ground (FrMapPane *self)
{
  return self->shows_ground;
}

void
fr_map_pane_rename (FrMapPane *self)
{
  gint64 tree = fr_sugarbush_get_current (self->bush);
  GdkRectangle at = { 0 };
  double x, y;

  if (tree == 0)
    return;
  if (!fr_bush_map_get_symbol (self->map, tree, &at)
      || !gtk_widget_translate_coordinates (GTK_WIDGET (self->map), GTK_WIDGET (self), at.x, at.y, &x, &y))
    x = y = 12;
  at.x = (int)x;
  at.y = (int)y;
  fr_tree_rename_ask (self->rename, tree, &at);
}

guint
fr_map_pane_focus_row (FrMapPane *self)
{
  return fr_tree_list_focus_row (self->list);
}

void
fr_map_pane_regain (FrMapPane *self, guint row)
{
  if (row != GTK_INVALID_LIST_POSITION && !fr_tree_list_grab (self->list, row))
    gtk_widget_grab_focus (GTK_WIDGET (self->map));
}

void
fr_map_pane_set_round (FrMapPane *self, const FrBushRound *round)
{
  fr_bush_map_set_round (self->map, round, FALSE);
}

void
fr_map_pane_show_all (FrMapPane *self)
{
  fr_bush_map_show_all (self->map);
}

void
fr_map_pane_north_up (FrMapPane *self)
{
  fr_bush_map_north_up (self->map);
}

void
fr_map_pane_zoom (FrMapPane *self, double factor)
{
  fr_bush_map_zoom (self->map, factor);
}
