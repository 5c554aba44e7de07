/* Each row shows what the trees have in common, or that they differ; choosing something is one change of all
 * of them and one step of undo. The words come from the table of field labels, as in every editor. */
#include "ui/trees-together.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "models/bush-edit.h"
#include "ui/field-labels.h"
#include "ui/window.h"
#include "words/tree-words.h"

#define MOST_FIELDS 8

struct _FrTreesTogether
{
  AdwBin parent_instance;
  FrSugarbush *bush;
  GtkWidget *title;
  GtkWidget *subtitle;
  GtkWidget *rows[MOST_FIELDS];
  guint n_rows;
  gboolean filling;
};

G_DEFINE_FINAL_TYPE (FrTreesTogether, fr_trees_together, ADW_TYPE_BIN)

/* In the order of the form. */
static const char *const fields[]
    = { "species", "health", "crown", "permission", "choice", "roadside", NULL };

static const FrField *
field_of (guint row)
{
  return fr_kind_field (fr_kind (FR_KIND_TREE), fields[row]);
}

/* Item 0 says that they differ; the codes, or yes and no, follow. */
static GtkStringList *
items_of (const FrField *field)
{
  GtkStringList *items = gtk_string_list_new (NULL);

  gtk_string_list_append (items, _ ("As they are"));
  if (field->type == FR_FIELD_BOOL)
    {
      gtk_string_list_append (items, _ ("No"));
      gtk_string_list_append (items, _ ("Yes"));
    }
  else
    for (guint i = 0; field->codes[i] != NULL; i++)
      gtk_string_list_append (items, fr_code_word (field->name, field->codes[i]));
  return items;
}

static guint
item_of_tree (const FrField *field, const FrTree *tree)
{
  if (field->type == FR_FIELD_BOOL)
    return fr_record_int (&tree->record, field) != 0 ? 2 : 1;
  for (guint i = 0; field->codes[i] != NULL; i++)
    if (g_strcmp0 (field->codes[i], fr_record_text (&tree->record, field)) == 0)
      return i + 1;
  return 0;
}

static void
update (FrTreesTogether *self)
{
  const FrBush *bush = fr_sugarbush_get_bush (self->bush);
  const gint64 *selected = fr_sugarbush_get_selected (self->bush);
  guint n = fr_sugarbush_n_selected (self->bush), taps = 0;
  FrSay say = { .units = *fr_book_get_units (fr_sugarbush_get_book (self->bush)) };
  double volume_l = 0;
  gboolean any = FALSE;
  g_autofree char *title = NULL, *litres = NULL, *text = NULL;

  if (bush == NULL || n < 2)
    return;
  self->filling = TRUE;
  for (guint r = 0; r < self->n_rows; r++)
    {
      guint item = 0;
      gboolean first = TRUE;

      for (guint i = 0; i < n; i++)
        {
          const FrBushTree *tree = fr_bush_find (bush, selected[i]);
          guint of_tree = tree != NULL ? item_of_tree (field_of (r), tree->tree) : 0;

          if (tree == NULL)
            continue;
          item = first || of_tree == item ? of_tree : 0;
          first = FALSE;
          if (item == 0)
            break;
        }
      adw_combo_row_set_selected (ADW_COMBO_ROW (self->rows[r]), item);
    }
  self->filling = FALSE;

  for (guint i = 0; i < n; i++)
    {
      const FrBushTree *tree = fr_bush_find (bush, selected[i]);

      if (tree == NULL)
        continue;
      taps += tree->taps_set;
      if (!isnan (tree->season_l))
        {
          volume_l += tree->season_l;
          any = TRUE;
        }
    }
  title = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u tree", "%u trees", n), n);
  gtk_label_set_text (GTK_LABEL (self->title), title);
  text = taps == 0 ? g_strdup (_ ("No taps set"))
                   : g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u tap set", "%u taps set", taps), taps);
  if (any)
    {
      g_autofree char *set = g_steal_pointer (&text);

      litres = fr_say_amount (&say, volume_l, FR_QUANTITY_VOLUME, -1);
      /* Translators: "3 taps set · 24.5 L this season" */
      text = g_strdup_printf (_ ("%s · %s this season"), set, litres);
    }
  gtk_label_set_text (GTK_LABEL (self->subtitle), text);
}

static void
chosen_cb (FrTreesTogether *self, GParamSpec *pspec, GtkWidget *row)
{
  guint item = adw_combo_row_get_selected (ADW_COMBO_ROW (row));
  GError *error = NULL;
  FrChange *change = NULL;
  const FrField *field = NULL;

  if (self->filling)
    return;
  for (guint r = 0; r < self->n_rows; r++)
    if (self->rows[r] == row)
      field = field_of (r);
  if (item > 0 && item != GTK_INVALID_LIST_POSITION && field != NULL)
    change = fr_bush_edit_set (fr_sugarbush_get_book (self->bush), fr_sugarbush_get_selected (self->bush),
                               fr_sugarbush_n_selected (self->bush), field->name,
                               field->type == FR_FIELD_BOOL ? NULL : field->codes[item - 1],
                               field->type == FR_FIELD_BOOL ? item - 1.0 : NAN, &error);
  /* “As they are” chosen by hand, or refused: what they have is shown again. */
  if (!fr_window_finish (fr_window_of (GTK_WIDGET (self)), change, error))
    update (self);
}

static void
fr_trees_together_dispose (GObject *object)
{
  FrTreesTogether *self = FR_TREES_TOGETHER (object);

  self->n_rows = 0;
  g_clear_object (&self->bush);
  G_OBJECT_CLASS (fr_trees_together_parent_class)->dispose (object);
}

static void
fr_trees_together_class_init (FrTreesTogetherClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_trees_together_dispose;
}

static void
fr_trees_together_init (FrTreesTogether *self)
{
}

static GtkWidget *
add_label (GtkWidget *box, const char *css)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, css);
  gtk_box_append (GTK_BOX (box), label);
  return label;
}

static void
add_rows (FrTreesTogether *self, GtkWidget *box)
{
  GtkWidget *list = gtk_list_box_new ();
  guint n_labels = 0;
  const FrFieldLabel *labels = fr_field_labels (FR_KIND_TREE, &n_labels);

  gtk_list_box_set_selection_mode (GTK_LIST_BOX (list), GTK_SELECTION_NONE);
  gtk_widget_add_css_class (list, "boxed-list");
  gtk_widget_add_css_class (list, "together");
  for (guint r = 0; fields[r] != NULL; r++)
    {
      GtkWidget *row = adw_combo_row_new ();
      g_autoptr (GtkStringList) items = items_of (field_of (r));

      for (guint i = 0; i < n_labels; i++)
        if (g_strcmp0 (labels[i].field, fields[r]) == 0)
          adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), fr_field_label_text (&labels[i]));
      adw_combo_row_set_model (ADW_COMBO_ROW (row), G_LIST_MODEL (items));
      g_signal_connect_object (row, "notify::selected", G_CALLBACK (chosen_cb), self, G_CONNECT_SWAPPED);
      gtk_list_box_append (GTK_LIST_BOX (list), row);
      self->rows[self->n_rows++] = row;
    }
  gtk_box_append (GTK_BOX (box), list);
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
fr_trees_together_new (FrSugarbush *bush)
{
  FrTreesTogether *self = g_object_new (FR_TYPE_TREES_TOGETHER, NULL);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0),
            *heads = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8), *scroller = gtk_scrolled_window_new ();

  self->bush = g_object_ref (bush);
  gtk_widget_add_css_class (box, "tree-panel");
  self->title = add_label (heads, "panel-title");
  self->subtitle = add_label (heads, "note");
  gtk_widget_set_margin_bottom (heads, 14);
  gtk_box_append (GTK_BOX (box), heads);
  add_rows (self, box);
  gtk_widget_set_margin_top (buttons, 16);
  add_button (buttons, _ ("_Move…"), "bush.move", NULL);
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
