/* The entry is read anew with each key, so that the sentence below it always says what would be added. Adding
 * is worked out and refused by the models; the dialog only knows which fields must be there. */
#include "ui/measured-dialog.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "domain/units/bearing.h"
#include "models/bush-edit.h"
#include "ui/choice-rows.h"
#include "ui/dialog-frame.h"
#include "ui/field-labels.h"
#include "ui/pieces.h"
#include "ui/quantity-row.h"
#include "ui/tree-chooser.h"
#include "words/entry-words.h"
#include "words/ground-words.h"

/* In the order Enter goes through. */
enum
{
  ROW_DISTANCE,
  ROW_BEARING,
  ROW_NAME,
  ROW_SIZE,
  N_ROWS
};

struct _FrMeasuredDialog
{
  AdwWindow parent_instance;
  FrWindow *window; /* the dialog is transient for it and goes first */
  FrSugarbush *bush;
  GtkWidget *from_group;
  FrTreeChooser *from;
  GtkWidget *stay;
  GtkWidget *rows[N_ROWS];
  GtkWidget *species;
  GtkWidget *size_is;
  GtkWidget *sentence;
  GtkWidget *problem;
  GtkWidget *add_button;
  GtkWidget *added_heading;
  GtkBox *added;
  double distance_m;
  double bearing_deg;
  double size_m;
  guint n_added;
};

G_DEFINE_FINAL_TYPE (FrMeasuredDialog, fr_measured_dialog, ADW_TYPE_WINDOW)

static FrBook *
book_of (FrMeasuredDialog *self)
{
  return fr_sugarbush_get_book (self->bush);
}

static FrEntryRow *
entry (FrMeasuredDialog *self, guint row)
{
  return FR_ENTRY_ROW (self->rows[row]);
}

static gboolean
is_first (FrMeasuredDialog *self)
{
  return fr_tree_chooser_n_trees (self->from) == 0;
}

static double
declination (FrMeasuredDialog *self)
{
  FrRecordList *list = fr_book_get_list (book_of (self), FR_KIND_GROUND);

  return fr_record_list_get_size (list) > 0
             ? ((const FrGround *)fr_record_list_get (list, 0))->declination_deg.value
             : NAN;
}

static const char *
species_of (FrMeasuredDialog *self)
{
  const FrField *field = fr_kind_field (fr_kind (FR_KIND_TREE), "species");

  return field->codes[adw_combo_row_get_selected (ADW_COMBO_ROW (self->species))];
}

static gboolean
size_is_girth (FrMeasuredDialog *self)
{
  return adw_combo_row_get_selected (ADW_COMBO_ROW (self->size_is)) == 0;
}

/* What would be added, or what is still to be said. */
static void
update (FrMeasuredDialog *self)
{
  FrSay say = { .units = *fr_book_get_units (book_of (self)) };
  gboolean first = is_first (self);
  g_autofree char *text = NULL;

  gtk_widget_set_visible (self->from_group, !first);
  gtk_widget_set_visible (self->rows[ROW_DISTANCE], !first);
  gtk_widget_set_visible (self->rows[ROW_BEARING], !first);
  if (first)
    text = g_strdup (_ ("The first tree stands at the plan’s zero. The next is measured from it."));
  else if (self->distance_m > 0 && !isnan (self->bearing_deg))
    text = fr_measured_sentence (self->distance_m, self->bearing_deg, declination (self), &say);
  else
    text = g_strdup (_ ("Enter leads on, and adds the tree after the size."));
  gtk_label_set_text (GTK_LABEL (self->sentence), text);
  gtk_widget_set_sensitive (self->add_button, first || (self->distance_m > 0 && !isnan (self->bearing_deg)));
}

static gboolean
name_is_free (FrMeasuredDialog *self, const char *name)
{
  FrRecordList *list = fr_book_get_list (book_of (self), FR_KIND_TREE);

  for (guint i = 0; i < fr_record_list_get_size (list); i++)
    if (g_strcmp0 (fr_record_label (fr_record_list_get (list, i)), name) == 0)
      return FALSE;
  return TRUE;
}

/* --- reading --- */

static void
quantity_cb (FrQuantityRow *row, const char *text, gboolean finished, gpointer data)
{
  FrMeasuredDialog *self = FR_MEASURED_DIALOG (data);
  const FrUnits *units = fr_book_get_units (book_of (self));
  gboolean is_size = GTK_WIDGET (row) == self->rows[ROW_SIZE];
  double *value = is_size ? &self->size_m : &self->distance_m;

  if (!fr_quantity_row_read (row, text, finished, units, value))
    *value = NAN;
  else if (finished)
    {
      const FrField *field = is_size ? fr_kind_field (fr_kind (FR_KIND_GIRTH), "size_m")
                                     : fr_kind_field (fr_kind (FR_KIND_TREE), "from_distance_m");
      gboolean outside = *value < field->min || *value > field->max;
      g_autofree char *why
          = outside ? fr_amount_sentence (field->name, *value, field->min, field->max, field->quantity, units)
                    : NULL;

      fr_quantity_row_set (row, *value, text, units, NULL);
      fr_entry_row_set_problem (FR_ENTRY_ROW (row), *value <= 0 ? _ ("More than nothing is needed.") : why);
    }
  fr_set_text (self->problem, NULL); /* what the book said was of what stood there before */
  update (self);
}

static void
read_bearing (FrMeasuredDialog *self, const char *text, gboolean finished)
{
  gboolean read = fr_bearing_parse (text, &self->bearing_deg);

  fr_entry_row_set_problem (
      entry (self, ROW_BEARING),
      finished && !read && *text != '\0' ? _ ("0 to 360 degrees, or letters such as SSE or N 45 W.") : NULL);
  if (finished)
    fr_entry_row_set_texts (entry (self, ROW_BEARING), text, text, NULL);
  update (self);
}

static void
bearing_typed_cb (FrMeasuredDialog *self, const char *text)
{
  read_bearing (self, text, FALSE);
}

static void
bearing_finished_cb (FrMeasuredDialog *self, const char *text)
{
  read_bearing (self, text, TRUE);
}

/* Escape took the letters back. */
static void
bearing_restored_cb (FrMeasuredDialog *self)
{
  g_autofree char *text = g_strdup (fr_entry_row_get_text (entry (self, ROW_BEARING)));

  read_bearing (self, text, TRUE);
}

static void
name_finished_cb (FrMeasuredDialog *self, const char *text)
{
  g_autofree char *name = g_strstrip (g_strdup (text));
  const char *why = NULL;

  if (*name == '\0')
    why = _ ("A name is needed, as on its label.");
  else if (!name_is_free (self, name))
    why = _ ("Another tree is called so.");
  fr_entry_row_set_texts (entry (self, ROW_NAME), name, name, NULL);
  fr_entry_row_set_problem (entry (self, ROW_NAME), why);
}

/* --- adding --- */

/* The newest on top; what undo takes back goes from here too. */
static void
add_line (FrMeasuredDialog *self, gint64 tree, const char *words)
{
  GtkWidget *line = fr_wrapped_text (words, NULL);

  g_object_set_data_full (G_OBJECT (line), "tree", g_memdup2 (&tree, sizeof tree), g_free);
  gtk_box_prepend (self->added, line);
  gtk_widget_set_visible (self->added_heading, TRUE);
}

static void
next_row (FrMeasuredDialog *self)
{
  const FrUnits *units = fr_book_get_units (book_of (self));
  g_autofree char *name = fr_bush_edit_next_name (book_of (self));

  self->distance_m = self->bearing_deg = self->size_m = NAN;
  fr_quantity_row_set (FR_QUANTITY_ROW (self->rows[ROW_DISTANCE]), NAN, NULL, units, NULL);
  fr_quantity_row_set (FR_QUANTITY_ROW (self->rows[ROW_SIZE]), NAN, NULL, units, NULL);
  fr_entry_row_set_texts (entry (self, ROW_BEARING), "", "", NULL);
  fr_entry_row_set_texts (entry (self, ROW_NAME), name, name, NULL);
  for (guint i = 0; i < N_ROWS; i++)
    fr_entry_row_set_problem (entry (self, i), NULL);
  update (self);
  fr_entry_row_grab (entry (self, is_first (self) ? ROW_NAME : ROW_DISTANCE));
}

static void
book_changed_cb (FrMeasuredDialog *self)
{
  for (GtkWidget *line = gtk_widget_get_first_child (GTK_WIDGET (self->added)), *next; line != NULL;
       line = next)
    {
      const gint64 *tree = g_object_get_data (G_OBJECT (line), "tree");

      next = gtk_widget_get_next_sibling (line);
      if (fr_book_find (book_of (self), FR_KIND_TREE, *tree) == NULL)
        gtk_box_remove (self->added, line);
    }
  gtk_widget_set_visible (self->added_heading, gtk_widget_get_first_child (GTK_WIDGET (self->added)) != NULL);
  update (self);
}

static gint64
tree_of (const FrChange *change)
{
  for (guint i = 0; i < change->steps->len; i++)
    {
      const FrStep *step = g_ptr_array_index (change->steps, i);

      if (step->after != NULL && step->after->kind->id == FR_KIND_TREE)
        return step->after->id;
    }
  return 0;
}

/* The first field that must be there and is not, or cannot be read; N_ROWS when all is well. */
static guint
first_wrong (FrMeasuredDialog *self)
{
  for (guint i = is_first (self) ? ROW_NAME : ROW_DISTANCE; i < N_ROWS; i++)
    {
      if (fr_entry_row_get_problem (entry (self, i)) != NULL)
        return i;
      if ((i == ROW_DISTANCE && isnan (self->distance_m)) || (i == ROW_BEARING && isnan (self->bearing_deg)))
        {
          fr_entry_row_set_problem (entry (self, i), i == ROW_DISTANCE ? _ ("How far by the tape?")
                                                                       : _ ("Which way by the compass?"));
          return i;
        }
    }
  return N_ROWS;
}

static char *
line_words (FrMeasuredDialog *self, const char *name, const char *from)
{
  FrSay say = { .units = *fr_book_get_units (book_of (self)) };
  g_autofree char *measured = NULL;

  if (from == NULL)
    return g_strdup_printf (_ ("%s at the plan’s zero"), name);
  measured = fr_measured_sentence (self->distance_m, self->bearing_deg, declination (self), &say);
  /* Translators: a tree, the tree it was measured from, and how */
  return g_strdup_printf (_ ("%s from %s: %s"), name, from, measured);
}

static void
add_cb (FrMeasuredDialog *self)
{
  g_autoptr (FrChange) change = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *name = NULL, *words = NULL;
  const FrRecord *from;
  gint64 from_id = fr_tree_chooser_get (self->from), tree;
  guint wrong;

  for (guint i = 0; i < N_ROWS; i++)
    fr_entry_row_finish (entry (self, i));
  name = g_strstrip (g_strdup (fr_entry_row_get_text (entry (self, ROW_NAME))));
  name_finished_cb (self, name); /* a name proposed earlier may be taken by now */
  wrong = first_wrong (self);
  fr_set_text (self->problem, NULL);
  if (wrong < N_ROWS)
    {
      fr_entry_row_grab (entry (self, wrong));
      return;
    }
  from = from_id != 0 ? fr_book_find (book_of (self), FR_KIND_TREE, from_id) : NULL;
  words = line_words (self, name, from != NULL ? fr_record_label (from) : NULL);
  change = fr_bush_edit_add_measured (book_of (self), name, species_of (self), from_id, self->distance_m,
                                      self->bearing_deg, size_is_girth (self) ? self->size_m : NAN,
                                      size_is_girth (self) ? NAN : self->size_m,
                                      fr_sugarbush_get_today (self->bush), &error);
  if (change == NULL)
    {
      fr_set_text (self->problem, error != NULL ? error->message : NULL);
      return;
    }
  tree = tree_of (change);
  if (!fr_window_apply (self->window, change))
    return;
  self->n_added++;
  add_line (self, tree, words);
  if (from == NULL || !gtk_switch_get_active (GTK_SWITCH (self->stay)))
    fr_tree_chooser_set (self->from, tree);
  fr_sugarbush_select (self->bush, tree);
  next_row (self);
}

/* Enter leads from field to field, and adds from the last; Ctrl+Enter adds from anywhere. */
static gboolean
key_pressed_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state,
                gpointer user_data)
{
  FrMeasuredDialog *self = FR_MEASURED_DIALOG (user_data);
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));

  if (keyval == GDK_KEY_z && (state & (GDK_CONTROL_MASK | GDK_SHIFT_MASK)) == GDK_CONTROL_MASK)
    {
      GtkWidget *row = focus != NULL ? gtk_widget_get_ancestor (focus, FR_TYPE_ENTRY_ROW) : NULL;

      if (self->n_added == 0 || (row != NULL && fr_entry_row_is_modified (FR_ENTRY_ROW (row))))
        return FALSE; /* the letters' own undo */
      self->n_added--;
      gtk_widget_activate_action (GTK_WIDGET (self->window), "win.undo", NULL);
      next_row (self);
      return TRUE;
    }
  if (keyval != GDK_KEY_Return && keyval != GDK_KEY_KP_Enter && keyval != GDK_KEY_ISO_Enter)
    return FALSE;
  if ((state & GDK_CONTROL_MASK) != 0)
    {
      add_cb (self);
      return TRUE;
    }
  for (guint i = 0; i < N_ROWS; i++)
    if (focus != NULL && gtk_widget_is_ancestor (focus, self->rows[i]))
      {
        fr_entry_row_finish (entry (self, i));
        if (i + 1 == N_ROWS)
          add_cb (self);
        else if (fr_entry_row_get_problem (entry (self, i)) == NULL)
          fr_entry_row_grab (entry (self, i + 1));
        return TRUE;
      }
  return FALSE;
}

/* --- building --- */

static GtkWidget *
combo (const char *title, GtkStringList *words)
{
  GtkWidget *row = adw_combo_row_new ();

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  adw_combo_row_set_model (ADW_COMBO_ROW (row), G_LIST_MODEL (words));
  return row;
}

static GtkWidget *
species_row (void)
{
  const FrField *field = fr_kind_field (fr_kind (FR_KIND_TREE), "species");
  g_autoptr (GtkStringList) words = gtk_string_list_new (NULL);

  for (guint i = 0; field->codes[i] != NULL; i++)
    gtk_string_list_append (words, fr_code_word ("species", field->codes[i]));
  return combo (_ ("Species"), words);
}

static GtkWidget *
size_row (void)
{
  const char *const kinds[] = { _ ("Girth, round the trunk"), _ ("Diameter, across"), NULL };
  g_autoptr (GtkStringList) words = gtk_string_list_new (kinds);

  return combo (_ ("Size is"), words);
}

static GtkWidget *
build_from (FrMeasuredDialog *self)
{
  GtkWidget *group = adw_preferences_group_new (), *row;

  row = fr_switch_row_new (_ ("Stay at this tree"), _ ("For several measured from one place"), &self->stay);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), GTK_WIDGET (self->from));
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), row);
  return group;
}

static GtkWidget *
build_tree (FrMeasuredDialog *self)
{
  GtkWidget *group = adw_preferences_group_new ();

  self->rows[ROW_DISTANCE] = fr_quantity_row_new (_ ("Distance"), NULL, FR_QUANTITY_DISTANCE);
  self->rows[ROW_BEARING] = fr_entry_row_new (_ ("Bearing"), _ ("By the compass: 230, or SW"));
  self->rows[ROW_NAME] = fr_entry_row_new (_ ("Name"), NULL);
  self->rows[ROW_SIZE]
      = fr_quantity_row_new (_ ("Size"), _ ("At breast height, if measured"), FR_QUANTITY_LENGTH);
  self->species = species_row ();
  self->size_is = size_row ();
  fr_quantity_row_on_text (FR_QUANTITY_ROW (self->rows[ROW_DISTANCE]), quantity_cb, self);
  fr_quantity_row_on_text (FR_QUANTITY_ROW (self->rows[ROW_SIZE]), quantity_cb, self);
  g_signal_connect_object (self->rows[ROW_BEARING], "typed", G_CALLBACK (bearing_typed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->rows[ROW_BEARING], "finished", G_CALLBACK (bearing_finished_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->rows[ROW_BEARING], "restored", G_CALLBACK (bearing_restored_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->rows[ROW_NAME], "finished", G_CALLBACK (name_finished_cb), self,
                           G_CONNECT_SWAPPED);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), self->rows[ROW_DISTANCE]);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), self->rows[ROW_BEARING]);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), self->rows[ROW_NAME]);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), self->species);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), self->size_is);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), self->rows[ROW_SIZE]);
  return group;
}

static void
fr_measured_dialog_dispose (GObject *object)
{
  FrMeasuredDialog *self = FR_MEASURED_DIALOG (object);

  adw_window_set_content (ADW_WINDOW (self), NULL); /* its rows speak to what goes next */
  g_clear_object (&self->bush);
  G_OBJECT_CLASS (fr_measured_dialog_parent_class)->dispose (object);
}

static void
fr_measured_dialog_class_init (FrMeasuredDialogClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_measured_dialog_dispose;
  fr_dialog_frame_class_init (GTK_WIDGET_CLASS (klass));
}

static void
fr_measured_dialog_init (FrMeasuredDialog *self)
{
  self->distance_m = self->bearing_deg = self->size_m = NAN;
}

static void
listen (FrMeasuredDialog *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  g_signal_connect_object (self->from, "chosen", G_CALLBACK (update), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (book_of (self), "changed", G_CALLBACK (book_changed_cb), self, G_CONNECT_SWAPPED);
}

/* One is mostly in a stand of one kind: that of the tree added last. */
static void
begin_species (FrMeasuredDialog *self)
{
  FrRecordList *list = fr_book_get_list (book_of (self), FR_KIND_TREE);
  const FrField *field = fr_kind_field (fr_kind (FR_KIND_TREE), "species");
  guint n = fr_record_list_get_size (list);

  for (guint i = 0; n > 0 && field->codes[i] != NULL; i++)
    if (g_strcmp0 (field->codes[i], ((const FrTree *)fr_record_list_get (list, n - 1))->species) == 0)
      adw_combo_row_set_selected (ADW_COMBO_ROW (self->species), i);
}

GtkWidget *
fr_measured_dialog_new (FrWindow *window, FrSugarbush *bush)
{
  FrMeasuredDialog *self = g_object_new (FR_TYPE_MEASURED_DIALOG, "transient-for", window, NULL);
  GtkBox *inner;
  gint64 current = fr_sugarbush_get_current (bush);

  self->window = window;
  self->bush = g_object_ref (bush);
  self->from = FR_TREE_CHOOSER (fr_tree_chooser_new (_ ("Measured from"), NULL, book_of (self), NULL));
  fr_tree_chooser_set (self->from, current);
  self->add_button = fr_dialog_frame_build (ADW_WINDOW (self), _ ("By Tape and Compass"), 500, 590,
                                            G_CALLBACK (add_cb), self, &inner);
  fr_dialog_frame_name_buttons (ADW_WINDOW (self), _ ("_Close"), _ ("_Add Tree"));
  self->from_group = build_from (self);
  gtk_box_append (inner, self->from_group);
  gtk_box_append (inner, build_tree (self));
  self->sentence = fr_wrapped_text (NULL, "strong");
  self->problem = fr_wrapped_text (NULL, "problem");
  gtk_widget_set_visible (self->problem, FALSE);
  gtk_box_append (inner, self->sentence);
  gtk_box_append (inner, self->problem);
  self->added_heading = fr_wrapped_text (_ ("Added, Ctrl+Z takes back"), "card-heading");
  gtk_widget_set_visible (self->added_heading, FALSE);
  self->added = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 4));
  gtk_box_append (inner, self->added_heading);
  gtk_box_append (inner, GTK_WIDGET (self->added));
  begin_species (self);
  listen (self);
  next_row (self);
  return GTK_WIDGET (self);
}
