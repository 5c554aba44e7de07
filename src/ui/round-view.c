/* List and map show the selection of the model, so that what is chosen on one is chosen on the other. The
 * round is asked for while the view is seen, and worked out beside the main loop. */
#include "ui/round-view.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "models/bush-edit.h"
#include "ui/bush-map.h"
#include "ui/choice-rows.h"
#include "ui/pieces.h"
#include "ui/quantity-row.h"
#include "ui/tonight-answer.h"
#include "ui/window.h"
#include "words/bush-words.h"
#include "words/stop-words.h"

#define NARROW_PX 640
#define LEAST_PX 340
#define SLOW_MS 200
#define SIDE_PX 290
#define MAP_NARROW_PX 300

/* --- a stop as an item of the list --- */

#define FR_TYPE_STOP_ITEM (fr_stop_item_get_type ())
G_DECLARE_FINAL_TYPE (FrStopItem, fr_stop_item, FR, STOP_ITEM, GObject)

struct _FrStopItem
{
  GObject parent_instance;
  gint64 tree;
  FrStopWords *words;
};

G_DEFINE_FINAL_TYPE (FrStopItem, fr_stop_item, G_TYPE_OBJECT)

static void
fr_stop_item_finalize (GObject *object)
{
  fr_stop_words_free (FR_STOP_ITEM (object)->words);
  G_OBJECT_CLASS (fr_stop_item_parent_class)->finalize (object);
}

static void
fr_stop_item_class_init (FrStopItemClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = fr_stop_item_finalize;
}

static void
fr_stop_item_init (FrStopItem *self)
{
}

/* --- the view --- */

struct _FrRoundView
{
  FrFoldBin parent_instance;
  FrSugarbush *bush;
  GtkWidget *answer;
  GtkWidget *notes;
  GtkWidget *columns;
  GtkWidget *side;
  GtkWidget *which;
  GtkWidget *day;
  GtkWidget *pail;
  GListStore *stops;
  GtkSingleSelection *chosen;
  GtkWidget *list;
  FrBushMap *map;
  char *pail_unread; /* a text left that cannot be kept, and why */
  char *pail_reason;
  gboolean narrow;
  gboolean stale;
  gboolean filling;
  guint slow_id;
};

G_DEFINE_FINAL_TYPE (FrRoundView, fr_round_view, FR_TYPE_FOLD_BIN)

static FrBook *
book_of (FrRoundView *self)
{
  return fr_sugarbush_get_book (self->bush);
}

static const FrUnits *
units_of (FrRoundView *self)
{
  return fr_book_get_units (book_of (self));
}

static FrRoundWhich
which_of (FrRoundView *self)
{
  return (FrRoundWhich)adw_combo_row_get_selected (ADW_COMBO_ROW (self->which));
}

static double
day_ratio_of (FrRoundView *self)
{
  return adw_combo_row_get_selected (ADW_COMBO_ROW (self->day)) == 1
             ? fr_bush_peak_ratio (fr_sugarbush_get_bush (self->bush))
             : 1;
}

/* --- what is shown --- */

static void
show_stops (FrRoundView *self, const FrBushRound *round)
{
  const FrBush *bush = fr_sugarbush_get_bush (self->bush);
  FrSay say = { .units = *units_of (self) };
  g_autoptr (GPtrArray) words = round != NULL ? fr_stop_words (bush, round, &say) : NULL;
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func (g_object_unref);

  for (guint i = 0; words != NULL && i < words->len; i++)
    {
      FrStopItem *item = g_object_new (FR_TYPE_STOP_ITEM, NULL);

      item->tree = g_array_index (round->stops, FrBushStop, i).tree;
      item->words = words->pdata[i];
      g_ptr_array_add (items, item);
    }
  if (words != NULL)
    g_ptr_array_set_free_func (words, NULL);
  self->filling = TRUE;
  g_list_store_splice (self->stops, 0, g_list_model_get_n_items (G_LIST_MODEL (self->stops)), items->pdata,
                       items->len);
  self->filling = FALSE;
}

/* The row of the current tree; a tree that stands there several times keeps the row that was chosen. */
static void
show_current (FrRoundView *self)
{
  const gint64 current = fr_sugarbush_get_current (self->bush);
  FrStopItem *at = gtk_single_selection_get_selected_item (self->chosen);
  guint position = GTK_INVALID_LIST_POSITION;

  if (at != NULL && at->tree == current)
    return;
  for (guint i = 0; current != 0 && i < g_list_model_get_n_items (G_LIST_MODEL (self->stops)); i++)
    {
      g_autoptr (FrStopItem) item = g_list_model_get_item (G_LIST_MODEL (self->stops), i);

      if (item->tree == current)
        {
          position = i;
          break;
        }
    }
  self->filling = TRUE;
  gtk_single_selection_set_selected (self->chosen, position);
  self->filling = FALSE;
  if (position != GTK_INVALID_LIST_POSITION)
    gtk_widget_activate_action (self->list, "list.scroll-to-item", "u", position);
}

static void
show_round (FrRoundView *self, const FrBushRound *round)
{
  FrSay say = { .units = *units_of (self) };
  g_autoptr (FrBushRoundWords) words = fr_bush_round_words_new (round, &say);

  fr_tonight_answer_set_texts (FR_TONIGHT_ANSWER (self->answer), words->sentence, words->reason, NULL,
                               words->figures);
  fr_box_empty (GTK_BOX (self->notes));
  for (guint i = 0; i < words->notes->len; i++)
    gtk_box_append (GTK_BOX (self->notes), fr_wrapped_text (words->notes->pdata[i], "soft"));
  gtk_widget_set_visible (self->notes, words->notes->len > 0);
  show_stops (self, round);
  fr_bush_map_set_round (self->map, round, TRUE);
  show_current (self);
}

static void
show_pail (FrRoundView *self)
{
  FrRecordList *list = fr_book_get_list (book_of (self), FR_KIND_TAPPING);
  const FrTapping *tapping
      = fr_record_list_get_size (list) > 0 ? (const FrTapping *)fr_record_list_get (list, 0) : NULL;

  if (self->pail_unread != NULL)
    fr_quantity_row_set_unread (FR_QUANTITY_ROW (self->pail), self->pail_unread, units_of (self), NULL);
  else
    fr_quantity_row_set (FR_QUANTITY_ROW (self->pail), tapping != NULL ? tapping->pail_l.value : NAN,
                         tapping != NULL ? tapping->pail_l.typed : NULL, units_of (self), NULL);
  fr_entry_row_set_problem (FR_ENTRY_ROW (self->pail), self->pail_reason);
}

/* --- when --- */

static gboolean
slow_cb (gpointer user_data)
{
  FrRoundView *self = FR_ROUND_VIEW (user_data);

  self->slow_id = 0;
  gtk_widget_set_opacity (self->answer, 0.6);
  gtk_widget_set_opacity (self->list, 0.6);
  return G_SOURCE_REMOVE;
}

static void
update (FrRoundView *self)
{
  const FrBushRound *round;

  if (!self->stale || !gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  if (!fr_sugarbush_ask_round (self->bush, which_of (self), day_ratio_of (self), &round))
    {
      if (self->slow_id == 0)
        self->slow_id = g_timeout_add (SLOW_MS, slow_cb, self);
      return;
    }
  self->stale = FALSE;
  g_clear_handle_id (&self->slow_id, g_source_remove);
  gtk_widget_set_opacity (self->answer, 1);
  gtk_widget_set_opacity (self->list, 1);
  show_round (self, round);
}

static void
changed_cb (FrRoundView *self)
{
  self->stale = TRUE;
  show_pail (self);
  /* The way would join trees that have moved on or are gone. */
  fr_bush_map_set_round (self->map, NULL, FALSE);
  update (self);
}

static void
choice_cb (FrRoundView *self)
{
  if (self->filling)
    return;
  self->stale = TRUE;
  update (self);
}

static void
selection_changed_cb (FrRoundView *self)
{
  if (which_of (self) == FR_ROUND_SELECTED)
    choice_cb (self);
  show_current (self);
}

static void
row_selected_cb (FrRoundView *self)
{
  FrStopItem *item = gtk_single_selection_get_selected_item (self->chosen);

  if (self->filling || item == NULL || item->tree == fr_sugarbush_get_current (self->bush))
    return;
  /* Of a round past selected trees one is made current, and the others stay. */
  if (which_of (self) == FR_ROUND_SELECTED)
    fr_sugarbush_select_also (self->bush, item->tree);
  else
    fr_sugarbush_select (self->bush, item->tree);
  fr_bush_map_show_tree (self->map, item->tree);
}

static void
row_activate_cb (FrRoundView *self, guint position)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "bush.view", "s", "map");
}

static void
keep_pail (FrRoundView *self, double pail_l, const char *typed)
{
  g_autoptr (GError) error = NULL;
  FrChange *change
      = fr_bush_edit_single (book_of (self), FR_KIND_TAPPING, "pail_l", NULL, pail_l, typed, &error);

  if (error != NULL)
    {
      self->pail_unread = g_strdup (typed);
      self->pail_reason = g_strdup (error->message);
    }
  g_object_ref (self);
  if (change != NULL)
    fr_window_finish (fr_window_of (GTK_WIDGET (self)), change, NULL);
  show_pail (self);
  g_object_unref (self);
}

static void
take_pail (FrQuantityRow *row, const char *text, gboolean finished, gpointer data)
{
  FrRoundView *self = FR_ROUND_VIEW (data);
  double pail_l;

  if (!finished)
    return;
  g_clear_pointer (&self->pail_unread, g_free);
  g_clear_pointer (&self->pail_reason, g_free);
  if (fr_quantity_row_read (row, text, TRUE, units_of (self), &pail_l))
    keep_pail (self, pail_l, isnan (pail_l) ? NULL : text);
  else
    {
      self->pail_unread = g_strdup (text);
      self->pail_reason = g_strdup (fr_entry_row_get_problem (FR_ENTRY_ROW (row)));
    }
}

/* --- layout --- */

static void
fr_round_view_fold (FrFoldBin *bin, int width_px)
{
  FrRoundView *self = FR_ROUND_VIEW (bin);

  if ((width_px < NARROW_PX) == self->narrow)
    return;
  self->narrow = width_px < NARROW_PX;
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->columns),
                                  self->narrow ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
  gtk_widget_set_size_request (self->side, self->narrow ? -1 : SIDE_PX, -1);
  gtk_widget_set_size_request (GTK_WIDGET (self->map), -1, self->narrow ? MAP_NARROW_PX : -1);
  fr_tonight_answer_set_narrow (FR_TONIGHT_ANSWER (self->answer), self->narrow);
}

/* --- building --- */

static GtkWidget *
row_label (GtkWidget *box, float xalign, int width_px, const char *css)
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
row_setup_cb (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer user_data)
{
  GtkWidget *outer = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0),
            *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *heading = row_label (outer, 0, -1, "stop-heading"), *name;

  row_label (line, 1, 26, "stop-number");
  name = row_label (line, 0, -1, "tree-name");
  gtk_label_set_ellipsize (GTK_LABEL (name), PANGO_ELLIPSIZE_END);
  gtk_widget_set_hexpand (name, TRUE);
  row_label (line, 1, -1, "note");
  row_label (line, 1, 54, NULL);
  gtk_widget_add_css_class (line, "stop-line");
  gtk_widget_set_visible (heading, FALSE);
  gtk_box_append (GTK_BOX (outer), line);
  gtk_list_item_set_child (item, outer);
}

static void
row_bind_cb (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer user_data)
{
  GtkWidget *outer = gtk_list_item_get_child (item), *heading = gtk_widget_get_first_child (outer);
  GtkWidget *label = gtk_widget_get_first_child (gtk_widget_get_last_child (outer));
  const FrStopItem *stop = gtk_list_item_get_item (item);
  const char *texts[] = { stop->words->number, stop->words->name, stop->words->leg, stop->words->litres };

  fr_set_text (heading, stop->words->heading);
  for (guint i = 0; i < G_N_ELEMENTS (texts) && label != NULL;
       i++, label = gtk_widget_get_next_sibling (label))
    gtk_label_set_text (GTK_LABEL (label), texts[i]);
  gtk_accessible_update_property (GTK_ACCESSIBLE (outer), GTK_ACCESSIBLE_PROPERTY_LABEL, stop->words->spoken,
                                  -1);
}

static GtkWidget *
make_choice (FrRoundView *self, const char *title, const char *const *words, guint selected)
{
  GtkWidget *row = fr_choice_row_new (title, words, selected);

  g_signal_connect_object (row, "notify::selected", G_CALLBACK (choice_cb), self, G_CONNECT_SWAPPED);
  return row;
}

static GtkWidget *
make_choices (FrRoundView *self)
{
  /* By FrRoundWhich. */
  const char *const trees[] = { _ ("With taps set"), _ ("Set or planned"), _ ("Selected"), NULL };
  const char *const days[] = { _ ("Average"), _ ("Peak"), NULL };
  GtkWidget *list = gtk_list_box_new ();

  gtk_list_box_set_selection_mode (GTK_LIST_BOX (list), GTK_SELECTION_NONE);
  gtk_widget_add_css_class (list, "boxed-list");
  self->which = make_choice (self, _ ("Trees"), trees, FR_ROUND_PLANNED);
  self->day = make_choice (self, _ ("Day"), days, 0);
  self->pail = fr_quantity_row_new (_ ("One load carries"), NULL, FR_QUANTITY_VOLUME);
  fr_quantity_row_on_text (FR_QUANTITY_ROW (self->pail), take_pail, self);
  gtk_list_box_append (GTK_LIST_BOX (list), self->which);
  gtk_list_box_append (GTK_LIST_BOX (list), self->day);
  gtk_list_box_append (GTK_LIST_BOX (list), self->pail);
  return list;
}

static GtkWidget *
make_list (FrRoundView *self)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();

  g_signal_connect (factory, "setup", G_CALLBACK (row_setup_cb), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (row_bind_cb), NULL);
  self->chosen = gtk_single_selection_new (g_object_ref (G_LIST_MODEL (self->stops)));
  gtk_single_selection_set_autoselect (self->chosen, FALSE);
  gtk_single_selection_set_can_unselect (self->chosen, TRUE);
  gtk_single_selection_set_selected (self->chosen, GTK_INVALID_LIST_POSITION);
  g_signal_connect_object (self->chosen, "notify::selected", G_CALLBACK (row_selected_cb), self,
                           G_CONNECT_SWAPPED);
  self->list = gtk_list_view_new (g_object_ref (GTK_SELECTION_MODEL (self->chosen)), factory);
  fr_list_is_one_stop (self->list);
  gtk_widget_add_css_class (self->list, "tree-rows");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->list), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Stops in walking order"), -1);
  g_signal_connect_object (self->list, "activate", G_CALLBACK (row_activate_cb), self, G_CONNECT_SWAPPED);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), self->list);
  gtk_widget_set_vexpand (scroller, TRUE);
  gtk_widget_add_css_class (scroller, "card");
  gtk_widget_set_overflow (scroller, GTK_OVERFLOW_HIDDEN);
  return scroller;
}

static void
build (FrRoundView *self)
{
  GtkWidget *frame, *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0),
                    *top = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);

  self->answer = fr_tonight_answer_new ();
  self->notes = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  gtk_widget_add_css_class (self->notes, "plan-notes");
  gtk_box_append (GTK_BOX (top), self->answer);
  gtk_box_append (GTK_BOX (top), self->notes);
  gtk_widget_add_css_class (top, "round-top");
  self->side = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_widget_add_css_class (self->side, "round-side");
  gtk_widget_set_size_request (self->side, SIDE_PX, -1);
  gtk_widget_set_hexpand (self->side, FALSE);
  gtk_box_append (GTK_BOX (self->side), make_choices (self));
  gtk_box_append (GTK_BOX (self->side), make_list (self));
  self->map = FR_BUSH_MAP (fr_bush_map_new (self->bush));
  frame = adw_bin_new ();
  adw_bin_set_child (ADW_BIN (frame), GTK_WIDGET (self->map));
  gtk_widget_add_css_class (frame, "card");
  gtk_widget_add_css_class (frame, "round-map");
  gtk_widget_set_overflow (frame, GTK_OVERFLOW_HIDDEN);
  self->columns = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  gtk_box_append (GTK_BOX (self->columns), self->side);
  gtk_box_append (GTK_BOX (self->columns), frame);
  gtk_widget_set_vexpand (self->columns, TRUE);
  gtk_box_append (GTK_BOX (page), top);
  gtk_box_append (GTK_BOX (page), self->columns);
  adw_bin_set_child (ADW_BIN (self), page);
}

static void
fr_round_view_dispose (GObject *object)
{
  FrRoundView *self = FR_ROUND_VIEW (object);

  g_clear_handle_id (&self->slow_id, g_source_remove);
  self->filling = TRUE;
  adw_bin_set_child (ADW_BIN (self), NULL);
  g_clear_object (&self->chosen);
  g_clear_object (&self->stops);
  g_clear_pointer (&self->pail_unread, g_free);
  g_clear_pointer (&self->pail_reason, g_free);
  g_clear_object (&self->bush);
  G_OBJECT_CLASS (fr_round_view_parent_class)->dispose (object);
}

static void
fr_round_view_class_init (FrRoundViewClass *klass)
{
  static const int limits_px[] = { NARROW_PX, 0 };
  FrFoldBinClass *bin_class = FR_FOLD_BIN_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = fr_round_view_dispose;
  bin_class->limits_px = limits_px;
  bin_class->least_px = LEAST_PX;
  bin_class->fold = fr_round_view_fold;
}

static void
fr_round_view_init (FrRoundView *self)
{
  self->stops = g_list_store_new (FR_TYPE_STOP_ITEM);
  self->stale = TRUE;
}

GtkWidget *
fr_round_view_new (FrSugarbush *bush)
{
  FrRoundView *self = g_object_new (FR_TYPE_ROUND_VIEW, NULL);

  self->bush = g_object_ref (bush);
  build (self);
  show_pail (self);
  g_signal_connect_object (bush, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (bush, "answered", G_CALLBACK (update), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (bush, "selection-changed", G_CALLBACK (selection_changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect (self, "map", G_CALLBACK (update), NULL);
  return GTK_WIDGET (self);
}

void
fr_round_view_show_all (FrRoundView *self)
{
  fr_bush_map_show_all (self->map);
}

void
fr_round_view_north_up (FrRoundView *self)
{
  fr_bush_map_north_up (self->map);
}

void
fr_round_view_zoom (FrRoundView *self, double factor)
{
  fr_bush_map_zoom (self->map, factor);
}
