/* The panel of one tree. The sentence comes first, then the trunk, the seasons and, folded away, what is set
 * once. Drafts are kept while the window lives, one a tree, so that an entry the book refused is still there
 * when the person comes back to the tree. */
#include "ui/tree-panel.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "models/bush-edit.h"
#include "models/draft.h"
#include "ui/pieces.h"
#include "ui/record-editor.h"
#include "ui/season-bars.h"
#include "ui/tree-photo.h"
#include "ui/tree-records.h"
#include "ui/trunk-picture.h"
#include "ui/window.h"
#include "words/bush-words.h"
#include "words/tree-words.h"

struct _FrTreePanel
{
  AdwBin parent_instance;
  GtkWidget *scroller;
  GtkWidget *title;
  GtkWidget *position;
  GtkWidget *subtitle;
  GtkWidget *dangers; /* box */
  GtkWidget *headline;
  GtkWidget *why;
  GtkWidget *cautions; /* box */
  GtkWidget *trunk_unit;
  FrTrunkPicture *trunk;
  GtkWidget *plan_button;
  GtkWidget *best_button;
  GtkWidget *set_button;
  GtkWidget *pull_button;
  FrSeasonBars *bars;
  GtkWidget *seasons; /* the heading over them, with the unit */
  GtkWidget *rank;
  GtkWidget *worth;
  GtkWidget *records;
  GtkWidget *photo;
  GtkWidget *about; /* expander with the editor */
  AdwBin *editor_bin;
  GtkWidget *remove_button;

  FrSugarbush *bush;
  GHashTable *drafts; /* id → FrDraft */
  FrRecordEditor *editor;
  gint64 tree;
  gboolean updating;
};

G_DEFINE_FINAL_TYPE (FrTreePanel, fr_tree_panel, ADW_TYPE_BIN)

static FrSay
say_of (FrTreePanel *self)
{
  FrBook *book = fr_sugarbush_get_book (self->bush);
  const FrHousehold *household = fr_book_get_household (book);

  return (FrSay){ .units = *fr_book_get_units (book),
                  .currency = household != NULL ? household->currency : NULL };
}

static const FrBushTree *
row_of (FrTreePanel *self)
{
  return self->tree != 0 ? fr_bush_find (fr_sugarbush_get_bush (self->bush), self->tree) : NULL;
}

/* Takes the change; says why there is none. */
static gboolean
apply (FrTreePanel *self, FrChange *change, GError *error)
{
  FrWindow *window = fr_window_of (GTK_WIDGET (self));
  gboolean done = change != NULL && fr_window_apply (window, change);

  if (error != NULL)
    fr_window_show_error (window, error);
  g_clear_error (&error);
  if (change != NULL)
    fr_change_free (change);
  return done;
}

static void
fill_cautions (FrTreePanel *self, const FrBushTree *row, const FrSay *say)
{
  g_autoptr (GPtrArray) cautions = fr_bush_cautions (fr_sugarbush_get_bush (self->bush), row, say);
  guint n_dangers = 0;

  fr_box_empty (GTK_BOX (self->dangers));
  fr_box_empty (GTK_BOX (self->cautions));
  for (guint i = 0; i < cautions->len; i++)
    {
      const FrTreeCaution *caution = g_ptr_array_index (cautions, i);
      GtkWidget *line
          = fr_caution_row_new (caution->text, caution->danger ? FR_SEVERITY_DANGER : FR_SEVERITY_WARN);

      gtk_box_append (GTK_BOX (caution->danger ? self->dangers : self->cautions), line);
      n_dangers += caution->danger;
    }
  gtk_widget_set_visible (self->dangers, n_dangers > 0);
  gtk_widget_set_visible (self->cautions, cautions->len > n_dangers);
}

/* The sentence of the place as it stands: the search's own, or what the person made of it. */
static void
show_place (FrTreePanel *self)
{
  const FrBushTree *row = row_of (self);
  FrSay say = say_of (self);
  FrBushPlace place;
  gboolean has_place = fr_trunk_picture_get_place (self->trunk, &place);
  gboolean is_best = fr_trunk_picture_is_best (self->trunk);
  g_autofree char *headline = NULL, *why = NULL, *spoken = NULL;

  if (row == NULL)
    return;
  if (has_place && !is_best)
    {
      g_autofree char *angle = fr_say_amount (&say, place.angle_deg, FR_QUANTITY_ANGLE, -1);
      g_autofree char *height = fr_say_amount (&say, place.height_m, FR_QUANTITY_LENGTH, 0);

      /* Translators: %s are a compass angle and a height above the ground */
      headline = g_strdup_printf (_ ("Your place: %s, %s up."), angle, height);
      why = fr_bush_place_words (fr_sugarbush_get_bush (self->bush), self->tree, place.angle_deg,
                                 place.height_m, 0, &say);
    }
  else
    headline = fr_bush_headline (fr_sugarbush_get_bush (self->bush), row, &say, &why);
  fr_set_text (self->headline, headline);
  fr_set_text (self->why, why);
  spoken = g_strjoin (" ", _ ("The trunk, unrolled."), headline, why, NULL);
  fr_trunk_picture_set_spoken (self->trunk, spoken);
  gtk_widget_set_visible (self->best_button, has_place && !is_best);
  gtk_widget_set_sensitive (self->plan_button, has_place);
}

static void
show_seasons (FrTreePanel *self, const FrBushTree *row, const FrSay *say)
{
  const FrBush *bush = fr_sugarbush_get_bush (self->bush);
  g_autoptr (GArray) history = fr_bush_history (bush, self->tree);
  g_autofree char *rank = fr_bush_rank_words (row, say), *worth_words = NULL;
  /* Translators: %s is the unit of the numbers below, as L */
  g_autofree char *heading
      = g_strdup_printf (_ ("Sap by Season, %s"), fr_quantity_unit (FR_QUANTITY_VOLUME, &say->units));
  FrTreeWorth worth;

  gtk_label_set_text (GTK_LABEL (self->seasons), heading);
  fr_season_bars_set (self->bars, history, fr_bush_get_season (bush), row->group, say);
  fr_set_text (self->rank, rank);
  if (row->taps_set + row->taps_planned > 0 && fr_bush_worth (bush, self->tree, 1, &worth))
    worth_words = fr_bush_worth_words (&worth, say);
  fr_set_text (self->worth, worth_words);
}

/* The draft of the tree shown, made or brought up to what the book holds now. */
static void
show_editor (FrTreePanel *self, const FrBushTree *row)
{
  FrDraft *draft = g_hash_table_lookup (self->drafts, &self->tree);

  if (draft == NULL)
    {
      draft = fr_draft_new (&row->tree->record, FALSE);
      g_hash_table_insert (self->drafts, g_memdup2 (&self->tree, sizeof self->tree), draft);
    }
  else
    fr_draft_rebase (draft, &row->tree->record);
  if (self->editor != NULL && fr_record_editor_get_draft (self->editor) == draft)
    {
      fr_record_editor_update (self->editor);
      return;
    }
  self->editor = NULL;
  adw_bin_set_child (self->editor_bin, NULL);
  /* Built when it is looked at: moving from tree to tree stays quick. */
  if (!gtk_expander_get_expanded (GTK_EXPANDER (self->about)))
    return;
  self->editor = fr_record_editor_new (fr_sugarbush_get_book (self->bush), draft, NULL);
  adw_bin_set_child (self->editor_bin, GTK_WIDGET (self->editor));
}

static void
about_opened_cb (FrTreePanel *self)
{
  const FrBushTree *row = row_of (self);

  if (row != NULL && !self->updating)
    show_editor (self, row);
}

static void
update (FrTreePanel *self)
{
  gint64 current = fr_sugarbush_get_current (self->bush);
  const FrBushTree *row;
  FrSay say = say_of (self);
  g_autofree char *subtitle = NULL, *position = NULL;
  guint at = 0;

  if (current != self->tree)
    gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (self->scroller)), 0);
  self->tree = current;
  row = row_of (self);
  gtk_widget_set_visible (self->scroller, row != NULL);
  if (row == NULL)
    {
      fr_trunk_picture_set (self->trunk, self->bush, 0);
      self->editor = NULL;
      adw_bin_set_child (self->editor_bin, NULL);
      return;
    }
  self->updating = TRUE;
  subtitle = fr_tree_subtitle (row, &say);
  if (fr_sugarbush_find_row (self->bush, current, &at))
    /* Translators: "3 of 31" */
    position = g_strdup_printf (_ ("%u of %u"), at + 1,
                                g_list_model_get_n_items (fr_sugarbush_get_rows (self->bush)));
  fr_set_text (self->title, row->tree->name);
  fr_set_text (self->position, position);
  fr_set_text (self->subtitle, subtitle);
  fill_cautions (self, row, &say);
  gtk_label_set_text (GTK_LABEL (self->trunk_unit),
                      say.units.system == FR_SYSTEM_METRIC ? _ ("height in cm") : _ ("height in inches"));
  fr_trunk_picture_set (self->trunk, self->bush, self->tree);
  show_place (self);
  gtk_button_set_label (GTK_BUTTON (self->plan_button), row->taps_set + row->taps_planned > 0
                                                            ? _ ("Plan Another Tap")
                                                            : _ ("Plan a Tap Here"));
  gtk_widget_set_visible (self->set_button, row->taps_planned > 0);
  gtk_widget_set_visible (self->pull_button, row->taps_set > 0);
  show_seasons (self, row, &say);
  fr_tree_records_set (FR_TREE_RECORDS (self->records), self->tree);
  fr_tree_photo_set (FR_TREE_PHOTO (self->photo), row->tree);
  show_editor (self, row);
  self->updating = FALSE;
}

static void
place_cb (FrTreePanel *self)
{
  show_place (self);
}

static void
best_cb (FrTreePanel *self)
{
  fr_trunk_picture_reset (self->trunk);
}

static void
plan_cb (FrTreePanel *self)
{
  FrBushPlace place;
  GError *error = NULL;

  if (fr_trunk_picture_get_place (self->trunk, &place))
    apply (self,
           fr_bush_edit_plan_taps (fr_sugarbush_get_book (self->bush), self->tree,
                                   fr_sugarbush_get_season (self->bush), &place, 1, &error),
           error);
}

static void
set_cb (FrTreePanel *self)
{
  GError *error = NULL;

  apply (self,
         fr_bush_edit_set_taps (fr_sugarbush_get_book (self->bush), &self->tree, 1,
                                fr_sugarbush_get_season (self->bush), fr_sugarbush_get_today (self->bush),
                                &error),
         error);
}

static void
pull_cb (FrTreePanel *self)
{
  GError *error = NULL;

  apply (self,
         fr_bush_edit_pull_taps (fr_sugarbush_get_book (self->bush), &self->tree, 1,
                                 fr_sugarbush_get_season (self->bush), fr_sugarbush_get_today (self->bush),
                                 &error),
         error);
}

static void
remove_cb (FrTreePanel *self)
{
  GError *error = NULL;

  apply (self, fr_bush_edit_remove (fr_sugarbush_get_book (self->bush), &self->tree, 1, &error), error);
}

static void
tap_moved_cb (FrTrunkPicture *trunk, gint64 tap, double angle_deg, double height_m, gpointer user_data)
{
  FrTreePanel *self = FR_TREE_PANEL (user_data);
  GError *error = NULL;

  if (!apply (self,
              fr_bush_edit_move_tap (fr_sugarbush_get_book (self->bush), tap, angle_deg, height_m, &error),
              error))
    fr_trunk_picture_set (self->trunk, self->bush, self->tree);
}

static void
tap_chosen_cb (FrTrunkPicture *trunk, gint64 tap, gpointer user_data)
{
  FrTreePanel *self = FR_TREE_PANEL (user_data);

  fr_tree_records_open (FR_TREE_RECORDS (self->records), FR_KIND_TAP, tap);
}

static void
fr_tree_panel_dispose (GObject *object)
{
  FrTreePanel *self = FR_TREE_PANEL (object);

  self->updating = TRUE;
  self->editor = NULL;
  adw_bin_set_child (ADW_BIN (self), NULL); /* the editor borrows a draft */
  g_clear_pointer (&self->drafts, g_hash_table_unref);
  g_clear_object (&self->bush);
  G_OBJECT_CLASS (fr_tree_panel_parent_class)->dispose (object);
}

static void
fr_tree_panel_class_init (FrTreePanelClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_tree_panel_dispose;
}

static GtkWidget *
append (GtkWidget *box, GtkWidget *child)
{
  gtk_box_append (GTK_BOX (box), child);
  return child;
}

/* A heading with a soft note at its right end. */
static GtkWidget *
append_heading (GtkWidget *box, const char *heading, GtkWidget **note_out)
{
  GtkWidget *line = append (box, gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6));
  GtkWidget *title = append (line, gtk_label_new (heading));

  gtk_widget_add_css_class (title, "card-heading");
  gtk_label_set_xalign (GTK_LABEL (title), 0);
  gtk_widget_set_hexpand (title, TRUE);
  *note_out = append (line, gtk_label_new (NULL));
  gtk_widget_add_css_class (*note_out, "note");
  gtk_label_set_ellipsize (GTK_LABEL (*note_out), PANGO_ELLIPSIZE_END);
  return line;
}

static GtkWidget *
append_button (FrTreePanel *self, GtkWidget *box, const char *label, GCallback clicked)
{
  GtkWidget *button = append (box, gtk_button_new_with_label (label));

  g_signal_connect_swapped (button, "clicked", clicked, self);
  return button;
}

static void
build_head (FrTreePanel *self, GtkWidget *box)
{
  GtkWidget *card;

  append_heading (box, NULL, &self->position);
  self->title = gtk_widget_get_first_child (gtk_widget_get_first_child (box));
  gtk_widget_remove_css_class (self->title, "card-heading");
  gtk_widget_add_css_class (self->title, "panel-title");
  gtk_label_set_wrap (GTK_LABEL (self->title), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (self->title), PANGO_WRAP_WORD_CHAR);
  self->subtitle = append (box, fr_wrapped_text (NULL, "soft"));
  self->dangers = append (box, gtk_box_new (GTK_ORIENTATION_VERTICAL, 6));
  gtk_widget_add_css_class (self->dangers, "danger-line");
  card = append (box, gtk_box_new (GTK_ORIENTATION_VERTICAL, 6));
  gtk_widget_add_css_class (card, "card");
  gtk_widget_add_css_class (card, "panel");
  self->headline = append (card, fr_wrapped_text (NULL, "card-heading"));
  self->why = append (card, fr_wrapped_text (NULL, "soft"));
  self->cautions = append (card, gtk_box_new (GTK_ORIENTATION_VERTICAL, 6));
}

static void
build_trunk (FrTreePanel *self, GtkWidget *box)
{
  GtkWidget *line;

  append_heading (box, _ ("The Trunk, Unrolled"), &self->trunk_unit);
  self->trunk = FR_TRUNK_PICTURE (append (box, fr_trunk_picture_new ()));
  g_signal_connect_object (self->trunk, "place", G_CALLBACK (place_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->trunk, "tap-moved", G_CALLBACK (tap_moved_cb), self, 0);
  g_signal_connect_object (self->trunk, "tap-chosen", G_CALLBACK (tap_chosen_cb), self, 0);
  line = append (box, gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8));
  self->plan_button = append_button (self, line, _ ("Plan a Tap Here"), G_CALLBACK (plan_cb));
  self->best_button = append_button (self, line, _ ("Best Place"), G_CALLBACK (best_cb));
  line = append (box, gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8));
  self->set_button = append_button (self, line, _ ("Set Today"), G_CALLBACK (set_cb));
  self->pull_button = append_button (self, line, _ ("Pulled Today"), G_CALLBACK (pull_cb));
}

static void
build_rest (FrTreePanel *self, GtkWidget *box)
{
  self->seasons = gtk_widget_get_first_child (append_heading (box, NULL, &self->rank));
  self->bars = FR_SEASON_BARS (append (box, fr_season_bars_new ()));
  self->worth = append (box, fr_wrapped_text (NULL, "note"));
  self->about = append (box, gtk_expander_new (_ ("About This Tree")));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->about), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("About This Tree"), -1);
  gtk_widget_add_css_class (self->about, "fold");
  self->editor_bin = ADW_BIN (adw_bin_new ());
  gtk_widget_set_margin_top (GTK_WIDGET (self->editor_bin), 10);
  gtk_expander_set_child (GTK_EXPANDER (self->about), GTK_WIDGET (self->editor_bin));
  g_signal_connect_object (self->about, "notify::expanded", G_CALLBACK (about_opened_cb), self,
                           G_CONNECT_SWAPPED);
  self->records = append (box, fr_tree_records_new (fr_sugarbush_get_book (self->bush), self->bush));
  self->photo = append (box, fr_tree_photo_new (fr_sugarbush_get_book (self->bush)));
  append (box, gtk_separator_new (GTK_ORIENTATION_HORIZONTAL));
  self->remove_button = append_button (self, box, _ ("Take Off the Map"), G_CALLBACK (remove_cb));
  gtk_widget_set_halign (self->remove_button, GTK_ALIGN_START);
  gtk_widget_set_tooltip_text (
      self->remove_button,
      _ ("A tree with taps or seasons is put away with its history; others are deleted"));
}

static void
fr_tree_panel_init (FrTreePanel *self)
{
  self->drafts = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, (GDestroyNotify)fr_draft_free);
}

GtkWidget *
fr_tree_panel_new (FrSugarbush *bush)
{
  FrTreePanel *self = g_object_new (FR_TYPE_TREE_PANEL, NULL);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);

  self->bush = g_object_ref (bush);
  gtk_widget_add_css_class (box, "tree-panel");
  build_head (self, box);
  build_trunk (self, box);
  build_rest (self, box);
  self->scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->scroller), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->scroller), box);
  adw_bin_set_child (ADW_BIN (self), self->scroller);
  g_signal_connect_object (bush, "changed", G_CALLBACK (update), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (bush, "selection-changed", G_CALLBACK (update), self, G_CONNECT_SWAPPED);
  update (self);
  return GTK_WIDGET (self);
}

void
fr_tree_panel_grab (FrTreePanel *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self->trunk));
}
