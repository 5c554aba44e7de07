/* The page: one model, its views, and what stands in the header bar for them. Its state lives as long as the
 * window does. */
#include "ui/sugarbush-page-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "formats/zone-source.h"
#include "ui/clock.h"
#include "ui/view-tabs.h"

#define NARROW_PX 720
#define BRIEF_PX 900 /* under it the buttons in the header bar have fewer words */

G_DEFINE_FINAL_TYPE (FrSugarbushPage, fr_sugarbush_page, FR_TYPE_FOLD_BIN)

static guint head_signal;

static guint
n_views (FrSugarbushPage *self)
{
  g_autoptr (GtkSelectionModel) pages = adw_view_stack_get_pages (self->views);

  return g_list_model_get_n_items (G_LIST_MODEL (pages));
}

static void
add_view (FrSugarbushPage *self, GtkWidget *view, const char *name, const char *title, const char *icon)
{
  adw_view_stack_add_titled (self->views, view, name, title);
  adw_view_stack_page_set_icon_name (adw_view_stack_get_page (self->views, view), icon);
}

/* Each view has what is done there most. */
static void
show_buttons (FrSugarbushPage *self)
{
  const char *view = adw_view_stack_get_visible_child_name (self->views);

  gtk_widget_set_visible (self->add_button, g_strcmp0 (view, "map") == 0);
  gtk_widget_set_visible (self->take_button, g_strcmp0 (view, "plan") == 0);
  gtk_button_set_label (GTK_BUTTON (self->take_button),
                        self->brief ? _ ("_Take Over") : _ ("_Take Over as Planned"));
  gtk_widget_set_visible (self->print_button, g_strcmp0 (view, "round") == 0);
}

static void
fr_sugarbush_page_fold (FrFoldBin *bin, int width_px)
{
  FrSugarbushPage *self = FR_SUGARBUSH_PAGE (bin);

  self->narrow = width_px < NARROW_PX;
  self->brief = width_px < BRIEF_PX;
  show_buttons (self);
  adw_view_switcher_bar_set_reveal (self->bar, self->narrow && n_views (self) > 1);
  g_signal_emit (self, head_signal, 0);
}

static void
view_cb (FrSugarbushPage *self)
{
  if (self->add_button == NULL) /* the template is still being made, or gone */
    return;
  show_buttons (self);
  fr_sugarbush_page_show_way (self);
  g_signal_emit (self, head_signal, 0);
}

void
fr_sugarbush_page_show_way (FrSugarbushPage *self)
{
  const FrBushRound *round = NULL;

  if (self->map == NULL || !gtk_widget_get_mapped (GTK_WIDGET (self->map)))
    return;
  if (self->shows_way && !fr_sugarbush_ask_round (self->bush, FR_ROUND_PLANNED, 1, &round))
    return;
  fr_map_pane_set_round (self->map, round);
}

static gint64
now_of (FrBook *book)
{
  const FrHousehold *household = fr_book_get_household (book);
  int year = fr_clock_local (NULL).date.year;
  /* A zone that is unknown is told of on the first page; a day and a season need no more than UTC. */
  g_autoptr (FrZoneTable) zone
      = household != NULL ? fr_zone_table_load (household->zone, year - 1, year + 1, NULL) : NULL;

  return fr_clock_now (zone);
}

/* What the season gave comes first; before it gave anything, by name. */
static void
first_order (FrSugarbushPage *self)
{
  const FrBush *bush = fr_sugarbush_get_bush (self->bush);

  for (guint i = 0; bush != NULL && i < fr_bush_n_trees (bush); i++)
    if (!isnan (fr_bush_tree_at (bush, i)->season_l))
      {
        fr_sugarbush_set_sort (self->bush, FR_TREE_SORT_YIELD, TRUE);
        return;
      }
}

/* Looked at whenever the page comes into sight: a window may stay open from autumn to spring. */
static void
map_cb (FrSugarbushPage *self)
{
  fr_sugarbush_set_now (self->bush, now_of (fr_sugarbush_get_book (self->bush)));
  fr_sugarbush_page_show_way (self);
}

static void
changed_cb (FrSugarbushPage *self)
{
  fr_sugarbush_actions_update (self);
  /* The old way would join trees that have moved on or are gone. */
  fr_map_pane_set_round (self->map, NULL);
  fr_sugarbush_page_show_way (self);
  g_signal_emit (self, head_signal, 0);
}

static GtkWidget *
add_button (FrSugarbushPage *self, const char *label, const char *action, const char *tooltip)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (label);

  gtk_widget_add_css_class (button, "suggested-action");
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_widget_set_tooltip_text (button, tooltip);
  gtk_box_append (GTK_BOX (self->action), button);
  return button;
}

static void
make_action (FrSugarbushPage *self)
{
  self->action = g_object_ref_sink (gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6));
  self->add_button
      = add_button (self, _ ("_Add Tree"), "bush.add-tree", _ ("Add a Tree by a Click on the Map"));
  self->take_button = add_button (self, _ ("_Take Over as Planned"), "bush.take-plan",
                                  _ ("Make the Planned Taps Those of This Plan"));
  self->print_button
      = add_button (self, _ ("_Print…"), "bush.print", _ ("The Field Sheet or the Map on Paper (Ctrl+P)"));
}

static void
fr_sugarbush_page_dispose (GObject *object)
{
  FrSugarbushPage *self = FR_SUGARBUSH_PAGE (object);

  self->add_button = NULL;
  self->map = NULL;
  adw_bin_set_child (ADW_BIN (self), NULL); /* first: the bin must not be left with a child that is gone */
  gtk_widget_dispose_template (GTK_WIDGET (self), FR_TYPE_SUGARBUSH_PAGE);
  g_clear_object (&self->switcher);
  g_clear_object (&self->action);
  g_clear_object (&self->actions);
  g_clear_object (&self->bush);
  G_OBJECT_CLASS (fr_sugarbush_page_parent_class)->dispose (object);
}

static void
fr_sugarbush_page_class_init (FrSugarbushPageClass *klass)
{
  static const int limits_px[] = { NARROW_PX, BRIEF_PX, 0 };
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  FrFoldBinClass *bin_class = FR_FOLD_BIN_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = fr_sugarbush_page_dispose;
  bin_class->limits_px = limits_px;
  bin_class->fold = fr_sugarbush_page_fold;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/frostrun/Frostrun/ui/sugarbush-page.ui");
  gtk_widget_class_bind_template_child (widget_class, FrSugarbushPage, views);
  gtk_widget_class_bind_template_child (widget_class, FrSugarbushPage, bar);
  gtk_widget_class_bind_template_callback (widget_class, view_cb);
  head_signal = g_signal_new ("head-changed", FR_TYPE_SUGARBUSH_PAGE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                              G_TYPE_NONE, 0);
}

static void
fr_sugarbush_page_init (FrSugarbushPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->brief = TRUE; /* until it is known to be wide */
  self->shows_way = TRUE;
  make_action (self);
}

FrSugarbushPage *
fr_sugarbush_page_new (FrBook *book)
{
  FrSugarbushPage *self = g_object_new (FR_TYPE_SUGARBUSH_PAGE, NULL);

  self->bush = fr_sugarbush_new (book, now_of (book));
  first_order (self);
  fr_sugarbush_actions_init (self);
  gtk_box_append (GTK_BOX (self->action), fr_sugarbush_menu_new (self));
  self->map = FR_MAP_PANE (fr_map_pane_new (self->bush));
  add_view (self, GTK_WIDGET (self->map), "map", _ ("Map"), "fr-sugarbush-symbolic");
  self->plan = FR_TAPPING_VIEW (fr_tapping_view_new (self->bush));
  add_view (self, GTK_WIDGET (self->plan), "plan", _ ("Tapping Plan"), "fr-plan-symbolic");
  self->round = FR_ROUND_VIEW (fr_round_view_new (self->bush));
  add_view (self, GTK_WIDGET (self->round), "round", _ ("Round"), "fr-round-symbolic");
  self->switcher = g_object_ref_sink (fr_view_tabs_new (self->views));
  show_buttons (self);
  g_signal_connect_object (self->bush, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->bush, "answered", G_CALLBACK (fr_sugarbush_page_show_way), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->map, "map", G_CALLBACK (fr_sugarbush_page_show_way), self,
                           G_CONNECT_SWAPPED | G_CONNECT_AFTER);
  g_signal_connect_object (self->bush, "selection-changed", G_CALLBACK (fr_sugarbush_actions_update), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect (self, "map", G_CALLBACK (map_cb), NULL);
  fr_sugarbush_actions_update (self);
  return self;
}

FrSugarbush *
fr_sugarbush_page_get_bush (FrSugarbushPage *self)
{
  return self->bush;
}

char *
fr_sugarbush_page_subtitle (FrSugarbushPage *self)
{
  return g_strdup_printf (_ ("Season of %u"), fr_sugarbush_get_season (self->bush));
}

GtkWidget *
fr_sugarbush_page_views (FrSugarbushPage *self)
{
  return !self->narrow ? self->switcher : NULL;
}

GtkWidget *
fr_sugarbush_page_action (FrSugarbushPage *self)
{
  return self->action;
}

GActionGroup *
fr_sugarbush_page_actions (FrSugarbushPage *self)
{
  return G_ACTION_GROUP (self->actions);
}

void
fr_sugarbush_page_show_view (FrSugarbushPage *self, const char *name)
{
  adw_view_stack_set_visible_child_name (self->views, name);
}
