/* The plan is asked for while the view is seen, and worked out beside the main loop: until it is there the
 * old answer stays, dimmed when that takes a moment. */
#include "ui/tapping-view.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "models/bush-edit.h"
#include "ui/pieces.h"
#include "ui/plan-tree-row.h"
#include "ui/sugar-curve.h"
#include "ui/tapping-inputs.h"
#include "ui/tonight-answer.h"
#include "ui/window.h"
#include "words/bush-words.h"
#include "words/plan-tree-words.h"

#define NARROW_PX 860
#define LEAST_PX 340
#define SLOW_MS 200
#define INPUTS_PX 286
#define LIST_MOST_PX 420
#define ROW_PX 40

struct _FrTappingView
{
  FrFoldBin parent_instance;
  FrSugarbush *bush;
  GtkWidget *scroller;
  GtkWidget *columns;
  GtkWidget *inputs;
  GtkWidget *results;
  GtkWidget *answer;
  GtkWidget *notes;
  GtkWidget *curve;
  GtkWidget *looked;
  GtkWidget *chosen_card;
  GtkWidget *chosen_scroller;
  GtkWidget *left_out_card;
  GtkWidget *left_out;
  GListStore *chosen; /* FrTreeItem, in walking through by sugar */
  gboolean narrow;
  gboolean stale; /* something changed since the answer shown */
  guint slow_id;
  guint top_id;
};

G_DEFINE_FINAL_TYPE (FrTappingView, fr_tapping_view, FR_TYPE_FOLD_BIN)

static FrSay
say_of (FrTappingView *self)
{
  return (FrSay){ .units = *fr_book_get_units (fr_sugarbush_get_book (self->bush)) };
}

/* --- what is shown --- */

static void
show_notes (FrTappingView *self, const FrBushPlanWords *words)
{
  fr_box_empty (GTK_BOX (self->notes));
  for (guint i = 0; i < words->notes->len; i++)
    gtk_box_append (GTK_BOX (self->notes), fr_wrapped_text (words->notes->pdata[i], "soft"));
  gtk_widget_set_visible (self->notes, words->notes->len > 0);
}

typedef struct
{
  FrTreeItem *item;
  double sugar_kg;
} Chosen;

static gint
most_sugar (gconstpointer a, gconstpointer b)
{
  const Chosen *one = a, *two = b;

  return (one->sugar_kg < two->sugar_kg) - (one->sugar_kg > two->sugar_kg);
}

static void
show_chosen (FrTappingView *self, const FrBush *bush, const FrBushPlan *plan)
{
  g_autoptr (GArray) chosen = g_array_new (FALSE, FALSE, sizeof (Chosen));
  g_autoptr (GPtrArray) items = g_ptr_array_new ();

  for (guint i = 0; plan->code == FR_BUSH_PLAN_OK && i < fr_bush_n_trees (bush); i++)
    {
      const guint taps = g_array_index (plan->taps, guint, i);
      const FrBushTree *tree = fr_bush_tree_at (bush, i);
      FrTreeExpected expected;
      Chosen one = { fr_sugarbush_find_item (self->bush, tree->id), 0 };

      if (taps == 0 || one.item == NULL)
        continue;
      if (fr_bush_expect (bush, tree->id, taps, &expected))
        one.sugar_kg = expected.sugar_kg;
      g_array_append_val (chosen, one);
    }
  g_array_sort (chosen, most_sugar);
  for (guint i = 0; i < chosen->len; i++)
    g_ptr_array_add (items, g_array_index (chosen, Chosen, i).item);
  g_list_store_splice (self->chosen, 0, g_list_model_get_n_items (G_LIST_MODEL (self->chosen)), items->pdata,
                       items->len);
  /* A list of recycled rows does not know how long it is before it is shown. */
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (self->chosen_scroller),
                                              (int)MIN (items->len * ROW_PX, LIST_MOST_PX));
  gtk_widget_set_visible (self->chosen_card, items->len > 0);
}

static void
show_left_out (FrTappingView *self, const FrBush *bush, const FrBushPlan *plan)
{
  g_autoptr (GPtrArray) all = plan->code == FR_BUSH_PLAN_NO_BUCKETS ? NULL : fr_left_out_words (bush, plan);

  fr_box_empty (GTK_BOX (self->left_out));
  gtk_widget_set_visible (self->left_out_card, all != NULL && all->len > 0);
  for (guint i = 0; all != NULL && i < all->len; i++)
    {
      const FrLeftOut *one = all->pdata[i];
      GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 1);
      /* Translators: a reason, and how many trees */
      g_autofree char *head = g_strdup_printf (_ ("%s: %u"), one->why, one->n);
      g_autofree char *body
          = one->remedy != NULL ? g_strdup_printf ("%s\n%s", one->names, one->remedy) : g_strdup (one->names);

      gtk_box_append (GTK_BOX (box), fr_wrapped_text (head, "strong"));
      gtk_box_append (GTK_BOX (box), fr_wrapped_text (body, "note"));
      gtk_box_append (GTK_BOX (self->left_out), box);
    }
}

static void
show_plan (FrTappingView *self, const FrBushPlan *plan)
{
  const FrBush *bush = fr_sugarbush_get_bush (self->bush);
  FrSay say = say_of (self);
  g_autoptr (FrBushPlanWords) words = fr_bush_plan_words_new (bush, plan, &say);
  FrRecordList *list = fr_book_get_list (fr_sugarbush_get_book (self->bush), FR_KIND_TAPPING);
  const FrTapping *tapping
      = fr_record_list_get_size (list) > 0 ? (const FrTapping *)fr_record_list_get (list, 0) : NULL;
  const double buckets = tapping != NULL ? tapping->buckets.value : NAN;

  fr_tonight_answer_set_texts (FR_TONIGHT_ANSWER (self->answer), words->sentence, words->reason,
                               words->dangers, words->figures);
  show_notes (self, words);
  fr_sugar_curve_set (FR_SUGAR_CURVE (self->curve), plan, isnan (buckets) ? 0 : (guint)buckets, &say);
  show_chosen (self, bush, plan);
  show_left_out (self, bush, plan);
}

/* --- when --- */

static gboolean
slow_cb (gpointer user_data)
{
  FrTappingView *self = FR_TAPPING_VIEW (user_data);

  self->slow_id = 0;
  gtk_widget_set_opacity (self->results, 0.6);
  return G_SOURCE_REMOVE;
}

static void
update (FrTappingView *self)
{
  const FrBushPlan *plan;

  if (!self->stale || !gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  if (!fr_sugarbush_ask_plan (self->bush, &plan))
    {
      if (self->slow_id == 0)
        self->slow_id = g_timeout_add (SLOW_MS, slow_cb, self);
      return;
    }
  self->stale = FALSE;
  g_clear_handle_id (&self->slow_id, g_source_remove);
  gtk_widget_set_opacity (self->results, 1);
  if (plan != NULL)
    show_plan (self, plan);
}

static void
changed_cb (FrTappingView *self)
{
  self->stale = TRUE;
  fr_tapping_inputs_update (FR_TAPPING_INPUTS (self->inputs));
  update (self);
}

/* The focus comes to an entry, which may stand far below the answer. */
static gboolean
top_cb (gpointer user_data)
{
  FrTappingView *self = FR_TAPPING_VIEW (user_data);

  self->top_id = 0;
  gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (self->scroller)), 0);
  return G_SOURCE_REMOVE;
}

static void
map_cb (FrTappingView *self)
{
  if (self->top_id == 0)
    self->top_id = g_timeout_add (50, top_cb, self);
  update (self);
}

static void
looked_cb (FrTappingView *self, const char *sentence)
{
  gtk_label_set_text (
      GTK_LABEL (self->looked),
      sentence != NULL
          ? sentence
          : _ ("Look along the curve with the pointer or the arrow keys; Enter takes a number."));
}

static void
taken_cb (FrTappingView *self, guint buckets)
{
  fr_tapping_inputs_take_buckets (FR_TAPPING_INPUTS (self->inputs), buckets);
}

void
fr_tapping_view_take_over (FrTappingView *self)
{
  FrWindow *window = fr_window_of (GTK_WIDGET (self));
  const FrBushPlan *plan;
  GError *error = NULL;
  FrChange *change;

  if (!fr_sugarbush_ask_plan (self->bush, &plan) || plan == NULL)
    {
      fr_window_tell (window, _ ("The plan is still being worked out."));
      return;
    }
  change = fr_bush_edit_take_plan (fr_sugarbush_get_book (self->bush), fr_sugarbush_get_bush (self->bush),
                                   plan, &error);
  if (change == NULL && error == NULL)
    fr_window_tell (window, _ ("The planned taps are those of the plan already."));
  else
    fr_window_finish (window, change, error);
}

/* --- layout --- */

static void
fr_tapping_view_fold (FrFoldBin *bin, int width_px)
{
  FrTappingView *self = FR_TAPPING_VIEW (bin);

  if ((width_px < NARROW_PX) == self->narrow)
    return;
  self->narrow = width_px < NARROW_PX;
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->columns),
                                  self->narrow ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
  gtk_box_reorder_child_after (GTK_BOX (self->columns), self->inputs, self->narrow ? self->results : NULL);
  gtk_widget_set_size_request (self->inputs, self->narrow ? -1 : INPUTS_PX, -1);
  fr_tonight_answer_set_narrow (FR_TONIGHT_ANSWER (self->answer), self->narrow);
  if (self->narrow)
    gtk_widget_add_css_class (self->columns, "narrow");
  else
    gtk_widget_remove_css_class (self->columns, "narrow");
  self->stale = TRUE; /* the answer's notes are shown again by it */
  update (self);
}

/* --- building --- */

static guint
taps_of (FrTappingView *self, gint64 tree)
{
  const FrBush *bush = fr_sugarbush_get_bush (self->bush);
  const FrBushPlan *plan;

  if (!fr_sugarbush_ask_plan (self->bush, &plan) || plan == NULL)
    return 0;
  for (guint i = 0; i < fr_bush_n_trees (bush) && i < plan->taps->len; i++)
    if (fr_bush_tree_at (bush, i)->id == tree)
      return g_array_index (plan->taps, guint, i);
  return 0;
}

static void
row_setup_cb (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer user_data)
{
  gtk_list_item_set_child (item, fr_plan_tree_row_new ());
}

static void
row_bind_cb (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer user_data)
{
  FrTappingView *self = FR_TAPPING_VIEW (user_data);
  gint64 tree = fr_tree_item_get_id (gtk_list_item_get_item (item));

  fr_plan_tree_row_set (FR_PLAN_TREE_ROW (gtk_list_item_get_child (item)), self->bush, tree,
                        taps_of (self, tree));
}

static void
row_activate_cb (FrTappingView *self, guint position)
{
  g_autoptr (FrTreeItem) item = g_list_model_get_item (G_LIST_MODEL (self->chosen), position);

  if (item == NULL)
    return;
  fr_sugarbush_select (self->bush, fr_tree_item_get_id (item));
  gtk_widget_activate_action (GTK_WIDGET (self), "bush.view", "s", "map");
}

static GtkWidget *
make_chosen (FrTappingView *self)
{
  GtkWidget *card = fr_card_new (_ ("Trees to Tap")), *scroller = gtk_scrolled_window_new ();
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  GtkNoSelection *rows = gtk_no_selection_new (g_object_ref (G_LIST_MODEL (self->chosen)));
  GtkWidget *view;

  g_signal_connect (factory, "setup", G_CALLBACK (row_setup_cb), self);
  g_signal_connect (factory, "bind", G_CALLBACK (row_bind_cb), self);
  view = gtk_list_view_new (GTK_SELECTION_MODEL (rows), factory);
  fr_list_is_one_stop (view);
  gtk_list_view_set_single_click_activate (GTK_LIST_VIEW (view), FALSE);
  gtk_widget_add_css_class (view, "tree-rows");
  gtk_accessible_update_property (GTK_ACCESSIBLE (view), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Trees to tap"),
                                  -1);
  g_signal_connect_object (view, "activate", G_CALLBACK (row_activate_cb), self, G_CONNECT_SWAPPED);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  self->chosen_scroller = scroller;
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), view);
  gtk_box_append (fr_card_content (card), fr_plan_tree_heads_new ());
  gtk_box_append (fr_card_content (card), scroller);
  gtk_box_append (fr_card_content (card),
                  fr_wrapped_text (_ ("Small figures: eight seasons in ten lie between them."), "note"));
  return card;
}

static GtkWidget *
make_curve (FrTappingView *self)
{
  GtkWidget *card = fr_card_new (_ ("Sugar against Buckets"));

  self->curve = fr_sugar_curve_new ();
  self->looked = fr_wrapped_text (NULL, "soft");
  gtk_widget_set_size_request (self->curve, -1, 220);
  gtk_box_append (fr_card_content (card), self->curve);
  gtk_box_append (fr_card_content (card), self->looked);
  g_signal_connect_object (self->curve, "looked", G_CALLBACK (looked_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->curve, "taken", G_CALLBACK (taken_cb), self, G_CONNECT_SWAPPED);
  looked_cb (self, NULL);
  return card;
}

static void
build (FrTappingView *self)
{
  GtkWidget *answer_box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);

  self->columns = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 24);
  self->results = gtk_box_new (GTK_ORIENTATION_VERTICAL, 16);
  self->inputs = fr_tapping_inputs_new (self->bush);
  self->answer = fr_tonight_answer_new ();
  self->notes = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  gtk_widget_add_css_class (self->notes, "plan-notes");
  gtk_box_append (GTK_BOX (answer_box), self->answer);
  gtk_box_append (GTK_BOX (answer_box), self->notes);
  self->left_out_card = fr_card_new (_ ("Left Out"));
  self->left_out = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  gtk_box_append (fr_card_content (self->left_out_card), self->left_out);
  self->chosen_card = make_chosen (self);
  gtk_box_append (GTK_BOX (self->results), answer_box);
  gtk_box_append (GTK_BOX (self->results), make_curve (self));
  gtk_box_append (GTK_BOX (self->results), self->chosen_card);
  gtk_box_append (GTK_BOX (self->results), self->left_out_card);
  gtk_widget_set_hexpand (self->results, TRUE);
  gtk_widget_set_valign (self->results, GTK_ALIGN_START);
  gtk_widget_set_size_request (self->inputs, INPUTS_PX, -1);
  gtk_widget_set_valign (self->inputs, GTK_ALIGN_START);
  gtk_widget_set_hexpand (self->inputs, FALSE);
  gtk_widget_add_css_class (self->columns, "page");
  gtk_box_append (GTK_BOX (self->columns), self->inputs);
  gtk_box_append (GTK_BOX (self->columns), self->results);
  self->scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->scroller), GTK_POLICY_EXTERNAL,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->scroller), self->columns);
  adw_bin_set_child (ADW_BIN (self), self->scroller);
}

static void
fr_tapping_view_dispose (GObject *object)
{
  FrTappingView *self = FR_TAPPING_VIEW (object);

  g_clear_handle_id (&self->slow_id, g_source_remove);
  g_clear_handle_id (&self->top_id, g_source_remove);
  adw_bin_set_child (ADW_BIN (self), NULL);
  g_clear_object (&self->chosen);
  g_clear_object (&self->bush);
  G_OBJECT_CLASS (fr_tapping_view_parent_class)->dispose (object);
}

static void
fr_tapping_view_class_init (FrTappingViewClass *klass)
{
  static const int limits_px[] = { NARROW_PX, 0 };
  FrFoldBinClass *bin_class = FR_FOLD_BIN_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = fr_tapping_view_dispose;
  bin_class->limits_px = limits_px;
  bin_class->least_px = LEAST_PX;
  bin_class->fold = fr_tapping_view_fold;
}

static void
fr_tapping_view_init (FrTappingView *self)
{
  self->chosen = g_list_store_new (FR_TYPE_TREE_ITEM);
  self->stale = TRUE;
}

GtkWidget *
fr_tapping_view_new (FrSugarbush *bush)
{
  FrTappingView *self = g_object_new (FR_TYPE_TAPPING_VIEW, NULL);

  self->bush = g_object_ref (bush);
  build (self);
  g_signal_connect_object (bush, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (bush, "answered", G_CALLBACK (update), self, G_CONNECT_SWAPPED);
  g_signal_connect (self, "map", G_CALLBACK (map_cb), NULL);
  return GTK_WIDGET (self);
}
