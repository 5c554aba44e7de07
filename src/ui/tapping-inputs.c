/* The entries of the tapping plan, built from the labels of the one record that keeps them. The book is the
 * state: an entry that is finished goes there, and what comes back is shown. */
#include "ui/tapping-inputs.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "models/bush-edit.h"
#include "ui/field-labels.h"
#include "ui/pieces.h"
#include "ui/quantity-row.h"
#include "ui/window.h"
#include "words/bush-words.h"

/* What is asked first comes first. */
static const char *const order[] = {
  "buckets",   "max_trees", "walk_m",     "pail_l",    "peak_boil_l",  "season_days",  "peak_ratio",
  "guideline", "spacing",   "sideways_m", "up_down_m", "min_height_m", "max_height_m",
};

typedef struct
{
  FrTappingInputs *inputs;
  const FrFieldLabel *label;
  const FrField *field;
  GtkWidget *widget;
  char *unread; /* a text left that cannot be kept, and why */
  char *reason;
} Row;

struct _FrTappingInputs
{
  AdwBin parent_instance;
  FrSugarbush *bush;
  Row rows[G_N_ELEMENTS (order)];
  GtkWidget *guideline_says;
  GtkWidget *spacing_says;
  gboolean updating;
};

G_DEFINE_FINAL_TYPE (FrTappingInputs, fr_tapping_inputs, ADW_TYPE_BIN)

static FrBook *
book_of (FrTappingInputs *self)
{
  return fr_sugarbush_get_book (self->bush);
}

/* What the book has, or a record with everything unknown. */
static FrRecord *
record_now (FrTappingInputs *self)
{
  FrRecordList *list = fr_book_get_list (book_of (self), FR_KIND_TAPPING);

  return fr_record_list_get_size (list) > 0 ? fr_record_copy (fr_record_list_get (list, 0))
                                            : fr_record_new (FR_KIND_TAPPING);
}

static FrGuidelineId
guideline_of (const FrRecord *record)
{
  FrGuidelineId id = FR_GUIDELINE_CONSERVATIVE;

  fr_guideline_from_code (((const FrTapping *)record)->guideline, &id);
  return id;
}

static FrSpacingId
spacing_of (const FrRecord *record)
{
  FrSpacingId id = FR_SPACING_SIX_TWELVE;

  fr_spacing_from_code (((const FrTapping *)record)->spacing, &id);
  return id;
}

/* --- what the rows say --- */

static void
show_sentence (GtkWidget *label, const char *sentence, const char *source)
{
  g_autofree char *text = source != NULL
                              /* Translators: a sentence; where it is printed */
                              ? g_strdup_printf (_ ("%s\nSource: %s"), sentence, source)
                              : g_strdup (sentence);

  gtk_label_set_text (GTK_LABEL (label), text);
}

static void
show_row (FrTappingInputs *self, Row *row, const FrRecord *record)
{
  const FrUnits *units = fr_book_get_units (book_of (self));

  gtk_widget_set_visible (row->widget, fr_field_label_applies (row->label, record));
  if (row->field->type == FR_FIELD_CODE)
    {
      const char *code = g_strcmp0 (row->field->name, "guideline") == 0
                             ? fr_guideline (guideline_of (record))->code
                             : fr_spacing (spacing_of (record))->code;

      for (guint i = 0; row->field->codes[i] != NULL; i++)
        if (g_strcmp0 (row->field->codes[i], code) == 0)
          adw_combo_row_set_selected (ADW_COMBO_ROW (row->widget), i);
      return;
    }
  if (row->unread != NULL)
    fr_quantity_row_set_unread (FR_QUANTITY_ROW (row->widget), row->unread, units, NULL);
  else
    {
      const FrAmount *amount = fr_record_amount ((FrRecord *)record, row->field);

      fr_quantity_row_set (FR_QUANTITY_ROW (row->widget), amount->value, amount->typed, units, NULL);
    }
  fr_entry_row_set_problem (FR_ENTRY_ROW (row->widget), row->reason);
}

void
fr_tapping_inputs_update (FrTappingInputs *self)
{
  const FrBush *bush = fr_sugarbush_get_bush (self->bush);
  FrSay say = { .units = *fr_book_get_units (book_of (self)) };
  g_autoptr (FrRecord) record = record_now (self);
  g_autofree char *guideline = NULL, *spacing = NULL;
  FrBushSpacing rule;

  self->updating = TRUE;
  for (guint i = 0; i < G_N_ELEMENTS (order); i++)
    show_row (self, &self->rows[i], record);
  self->updating = FALSE;
  guideline = fr_guideline_sentence (guideline_of (record), &say);
  show_sentence (self->guideline_says, guideline, fr_guideline (guideline_of (record))->source);
  rule = fr_bush_spacing (bush);
  spacing = fr_spacing_sentence (&rule, &say);
  show_sentence (self->spacing_says, spacing, fr_spacing (spacing_of (record))->source);
}

/* --- what a person does --- */

static void
forget_unread (Row *row)
{
  g_clear_pointer (&row->unread, g_free);
  g_clear_pointer (&row->reason, g_free);
}

/* A value that may not be kept stays in its row, with the reason under it. */
static void
keep (FrTappingInputs *self, Row *row, const char *code, double amount, const char *typed)
{
  g_autoptr (GError) error = NULL;
  FrChange *change
      = fr_bush_edit_single (book_of (self), FR_KIND_TAPPING, row->field->name, code, amount, typed, &error);

  forget_unread (row);
  if (error != NULL)
    {
      row->unread = g_strdup (typed);
      row->reason = g_strdup (error->message);
    }
  g_object_ref (self);
  if (change != NULL)
    fr_window_finish (fr_window_of (GTK_WIDGET (self)), change, NULL);
  fr_tapping_inputs_update (self);
  g_object_unref (self);
}

static void
take_text (FrQuantityRow *entry, const char *text, gboolean finished, gpointer data)
{
  Row *row = data;
  FrTappingInputs *self = row->inputs;
  double value;

  if (!finished)
    return;
  if (fr_quantity_row_read (entry, text, TRUE, fr_book_get_units (book_of (self)), &value))
    {
      keep (self, row, NULL, value, isnan (value) ? NULL : text);
      return;
    }
  forget_unread (row);
  row->unread = g_strdup (text);
  row->reason = g_strdup (fr_entry_row_get_problem (FR_ENTRY_ROW (entry)));
}

static void
chosen_cb (AdwComboRow *combo, GParamSpec *pspec, gpointer user_data)
{
  Row *row = user_data;
  guint selected = adw_combo_row_get_selected (combo);

  if (!row->inputs->updating && selected != GTK_INVALID_LIST_POSITION)
    keep (row->inputs, row, row->field->codes[selected], NAN, NULL);
}

void
fr_tapping_inputs_take_buckets (FrTappingInputs *self, guint buckets)
{
  g_autofree char *typed = g_strdup_printf ("%u", buckets);

  keep (self, &self->rows[0], NULL, buckets, typed);
}

void
fr_tapping_inputs_grab (FrTappingInputs *self)
{
  fr_entry_row_grab (FR_ENTRY_ROW (self->rows[0].widget));
}

/* --- building --- */

static void
item_setup_cb (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer user_data)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), user_data != NULL ? 1.0f : 0.0f);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_list_item_set_child (item, label);
}

static void
item_bind_cb (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer user_data)
{
  gtk_label_set_text (GTK_LABEL (gtk_list_item_get_child (item)),
                      gtk_string_object_get_string (gtk_list_item_get_item (item)));
}

/* In the row there is room for a word; the list says all of it. */
static void
short_bind_cb (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer user_data)
{
  Row *row = user_data;
  const char *code = row->field->codes[gtk_list_item_get_position (item)];
  const FrUnits *units = fr_book_get_units (book_of (row->inputs));
  g_autofree char *text = NULL;
  FrGuidelineId guideline;
  FrSpacingId spacing;

  if (g_strcmp0 (row->field->name, "guideline") == 0 && fr_guideline_from_code (code, &guideline))
    text = g_strdup (fr_guideline_name (guideline));
  else if (fr_spacing_from_code (code, &spacing) && !isnan (fr_spacing (spacing)->sideways_m))
    {
      FrSay say = { .units = *units };
      g_autofree char *sideways = NULL, *up_down = NULL;
      const char *unit;

      fr_quantity_format (fr_spacing (spacing)->sideways_m, FR_QUANTITY_LENGTH, &say.units, 0, &sideways,
                          &unit);
      up_down = fr_say_amount (&say, fr_spacing (spacing)->up_down_m, FR_QUANTITY_LENGTH, 0);
      /* Translators: sideways × up and down, "15 × 30 cm" */
      text = g_strdup_printf (_ ("%s × %s"), sideways, up_down);
    }
  else
    text = g_strdup (fr_code_word (row->field->name, code));
  gtk_label_set_text (GTK_LABEL (gtk_list_item_get_child (item)), text);
}

static GtkWidget *
make_choice (Row *row, const char *title)
{
  GtkWidget *combo = adw_combo_row_new ();
  g_autoptr (GtkStringList) words = gtk_string_list_new (NULL);
  g_autoptr (GtkListItemFactory) brief = gtk_signal_list_item_factory_new ();
  g_autoptr (GtkListItemFactory) full = gtk_signal_list_item_factory_new ();

  for (guint i = 0; row->field->codes[i] != NULL; i++)
    gtk_string_list_append (words, fr_code_word (row->field->name, row->field->codes[i]));
  g_signal_connect (brief, "setup", G_CALLBACK (item_setup_cb), row);
  g_signal_connect (brief, "bind", G_CALLBACK (short_bind_cb), row);
  g_signal_connect (full, "setup", G_CALLBACK (item_setup_cb), NULL);
  g_signal_connect (full, "bind", G_CALLBACK (item_bind_cb), NULL);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (combo), title);
  adw_combo_row_set_factory (ADW_COMBO_ROW (combo), brief);
  adw_combo_row_set_list_factory (ADW_COMBO_ROW (combo), full);
  adw_combo_row_set_model (ADW_COMBO_ROW (combo), G_LIST_MODEL (words));
  g_signal_connect (combo, "notify::selected", G_CALLBACK (chosen_cb), row);
  return combo;
}

/* What an empty entry counts as has to be said where it is left empty. */
static char *
note_of (const Row *row)
{
  const char *note = fr_field_label_note (row->label);

  if (g_strcmp0 (row->field->name, "season_days") == 0)
    return g_strdup (_ ("Empty counts as 35"));
  if (g_strcmp0 (row->field->name, "peak_ratio") == 0)
    return g_strdup (_ ("Times an average day; empty is 3"));
  return g_strdup (note);
}

static void
make_row (Row *row)
{
  const char *title = fr_field_label_text (row->label);
  g_autofree char *note = note_of (row);

  if (row->field->type == FR_FIELD_CODE)
    row->widget = make_choice (row, title);
  else
    {
      row->widget = fr_quantity_row_new (title, note, row->field->quantity);
      fr_quantity_row_on_text (FR_QUANTITY_ROW (row->widget), take_text, row);
    }
}

static GtkWidget *
add_note (GtkWidget *box)
{
  GtkWidget *note = fr_wrapped_text (NULL, "note");

  gtk_widget_set_margin_start (note, 4);
  gtk_widget_set_margin_top (note, 6);
  gtk_box_append (GTK_BOX (box), note);
  return note;
}

static void
build (FrTappingInputs *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), *list = NULL;
  const FrKind *kind = fr_kind (FR_KIND_TAPPING);
  const char *group = NULL;
  guint n;
  const FrFieldLabel *labels = fr_field_labels (FR_KIND_TAPPING, &n);

  for (guint i = 0; i < G_N_ELEMENTS (order); i++)
    {
      Row *row = &self->rows[i];

      row->inputs = self;
      row->field = fr_kind_field (kind, order[i]);
      for (guint k = 0; k < n; k++)
        if (g_strcmp0 (labels[k].field, order[i]) == 0)
          row->label = &labels[k];
      g_assert (row->label != NULL && row->field != NULL);
      if (g_strcmp0 (group, row->label->group) != 0)
        {
          GtkWidget *heading = gtk_label_new (fr_field_label_group (row->label));

          if (group != NULL && g_strcmp0 (order[i], "spacing") == 0)
            self->guideline_says = add_note (box);
          gtk_label_set_xalign (GTK_LABEL (heading), 0);
          gtk_widget_add_css_class (heading, "card-heading");
          gtk_widget_set_margin_top (heading, group != NULL ? 18 : 0);
          gtk_widget_set_margin_bottom (heading, 6);
          gtk_box_append (GTK_BOX (box), heading);
          list = gtk_list_box_new ();
          gtk_list_box_set_selection_mode (GTK_LIST_BOX (list), GTK_SELECTION_NONE);
          gtk_widget_add_css_class (list, "boxed-list");
          gtk_box_append (GTK_BOX (box), list);
          group = row->label->group;
        }
      make_row (row);
      gtk_list_box_append (GTK_LIST_BOX (list), row->widget);
    }
  self->spacing_says = add_note (box);
  adw_bin_set_child (ADW_BIN (self), box);
}

static void
fr_tapping_inputs_dispose (GObject *object)
{
  FrTappingInputs *self = FR_TAPPING_INPUTS (object);

  self->updating = TRUE; /* a combo that goes tells of its selection */
  adw_bin_set_child (ADW_BIN (self), NULL);
  for (guint i = 0; i < G_N_ELEMENTS (order); i++)
    forget_unread (&self->rows[i]);
  g_clear_object (&self->bush);
  G_OBJECT_CLASS (fr_tapping_inputs_parent_class)->dispose (object);
}

static void
fr_tapping_inputs_class_init (FrTappingInputsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_tapping_inputs_dispose;
}

static void
fr_tapping_inputs_init (FrTappingInputs *self)
{
}

GtkWidget *
fr_tapping_inputs_new (FrSugarbush *bush)
{
  FrTappingInputs *self = g_object_new (FR_TYPE_TAPPING_INPUTS, NULL);

  self->bush = g_object_ref (bush);
  self->updating = TRUE;
  build (self);
  fr_tapping_inputs_update (self);
  return GTK_WIDGET (self);
}
