/* All entries are optional; the comparison follows each key. */
#include "ui/morning-dialog.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "ui/dialog-frame.h"
#include "ui/quantity-row.h"
#include "words/entry-words.h"
#include "words/morning-words.h"

enum
{
  ROW_LEFT,
  ROW_BRIX,
  ROW_BOILS,
  ROW_BUCKET,
  ROW_METER,
  N_ROWS
};

struct _FrMorningDialog
{
  AdwWindow parent_instance;
  FrBook *book;
  FrTonight *tonight;
  FrRecord *before;
  FrRecord *after;
  FrRecord *cooker;
  FrPlanKit kit;
  double altitude_m;
  GtkWidget *rows[N_ROWS];
  GtkWidget *grid;
  GtkWidget *whys;
  GtkWidget *keep_button;
  FrMorningReport report;
  void (*keep) (const FrChange *change, gpointer data);
  gpointer data;
};

G_DEFINE_FINAL_TYPE (FrMorningDialog, fr_morning_dialog, ADW_TYPE_WINDOW)

static const struct
{
  const char *title;
  const char *note;
  FrQuantityKind kind;
} row_kinds[N_ROWS] = {
  { N_ ("Left in the pan"), N_ ("Cooled, without the bucket"), FR_QUANTITY_VOLUME },
  { N_ ("Its sweetness"), NULL, FR_QUANTITY_SWEETNESS },
  { N_ ("Or it boils at"), NULL, FR_QUANTITY_TEMPERATURE },
  { N_ ("Left in the bucket"), N_ ("When the clock came first"), FR_QUANTITY_VOLUME },
  { N_ ("Electricity used"), N_ ("From the meter"), FR_QUANTITY_ENERGY },
};

static FrAmount *
amount_of (FrMorningDialog *self, guint row)
{
  FrNight *night = (FrNight *)self->after;

  switch (row)
    {
    case ROW_LEFT:
      return &night->left_l;
    case ROW_BRIX:
      return &night->left_brix;
    case ROW_BOILS:
      return &night->left_boil_c;
    case ROW_BUCKET:
      return &night->bucket_left_l;
    default:
      return &night->meter_kwh;
    }
}

static GtkWidget *
cell (const char *text, const char *css_class, float xalign)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), xalign);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  return label;
}

static void
clear_box (GtkWidget *box)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (box)) != NULL)
    gtk_widget_unparent (child);
}

static void
compare (FrMorningDialog *self)
{
  const FrSay *say = fr_tonight_get_say (self->tonight);
  g_autoptr (FrMorningWords) words = NULL;
  gboolean found = FALSE, wrong = FALSE;

  for (guint i = 0; i < N_ROWS; i++)
    {
      found = found || !isnan (amount_of (self, i)->value);
      wrong = wrong || fr_entry_row_get_problem (FR_ENTRY_ROW (self->rows[i])) != NULL;
    }
  gtk_widget_set_sensitive (self->keep_button, found && !wrong);
  clear_box (self->grid);
  clear_box (self->whys);
  if (!fr_morning_report ((FrNight *)self->after, &self->kit, self->altitude_m, &self->report))
    {
      gtk_box_append (GTK_BOX (self->whys),
                      cell (_ ("This night cannot be followed again with the kit as it is now."), "note", 0));
      return;
    }
  words = fr_morning_words_new (&self->report, (FrNight *)self->after, &self->kit, say);
  gtk_grid_attach (GTK_GRID (self->grid), cell (_ ("Planned"), "figure-label", 1), 1, 0, 1, 1);
  gtk_grid_attach (GTK_GRID (self->grid), cell (_ ("Found"), "figure-label", 1), 2, 0, 1, 1);
  for (guint i = 0; i < words->lines->len; i++)
    {
      const FrMorningLine *line = words->lines->pdata[i];
      GtkWidget *what = cell (line->what, NULL, 0);

      gtk_widget_set_hexpand (what, TRUE);
      gtk_grid_attach (GTK_GRID (self->grid), what, 0, (int)i + 1, 1, 1);
      gtk_grid_attach (GTK_GRID (self->grid), cell (line->plan, NULL, 1), 1, (int)i + 1, 1, 1);
      gtk_grid_attach (GTK_GRID (self->grid), cell (line->fact, "strong", 1), 2, (int)i + 1, 1, 1);
    }
  if (!found)
    return;
  for (guint i = 0; i <= words->whys->len; i++)
    {
      GtkWidget *label = cell (i < words->whys->len ? words->whys->pdata[i] : words->learned,
                               i < words->whys->len ? NULL : "note", 0);

      gtk_label_set_wrap (GTK_LABEL (label), TRUE);
      gtk_box_append (GTK_BOX (self->whys), label);
    }
}

/* The record's own ranges speak as well, each under its row. */
static void
tell_ranges (FrMorningDialog *self)
{
  const FrUnits *units = &fr_tonight_get_say (self->tonight)->units;
  g_autoptr (GArray) problems = fr_record_check (self->after);

  for (guint p = 0; p < problems->len; p++)
    for (guint i = 0; i < N_ROWS; i++)
      {
        const FrProblem *one = &g_array_index (problems, FrProblem, p);

        if (one->field != NULL && one->field->type == FR_FIELD_AMOUNT
            && fr_record_amount (self->after, one->field) == amount_of (self, i))
          {
            g_autofree char *sentence = fr_record_sentence (one, self->after, units);

            fr_entry_row_set_problem (FR_ENTRY_ROW (self->rows[i]), sentence);
          }
      }
}

static void
take (FrQuantityRow *row, const char *text, gboolean finished, gpointer user_data)
{
  FrMorningDialog *self = FR_MORNING_DIALOG (user_data);
  const FrUnits *units = &fr_tonight_get_say (self->tonight)->units;
  double value;

  for (guint i = 0; i < N_ROWS; i++)
    if (self->rows[i] == GTK_WIDGET (row) && fr_quantity_row_read (row, text, finished, units, &value))
      {
        fr_amount_set (amount_of (self, i), value, isnan (value) ? NULL : text);
        if (finished)
          fr_quantity_row_set (row, value, text, units, NULL);
      }
  if (finished)
    tell_ranges (self);
  compare (self);
}

static void
keep_cb (FrMorningDialog *self)
{
  g_autoptr (FrChange) change = NULL;

  for (guint i = 0; i < N_ROWS; i++)
    fr_entry_row_finish (FR_ENTRY_ROW (self->rows[i]));
  if (!gtk_widget_get_sensitive (self->keep_button))
    return;
  change = fr_morning_change ((FrNight *)self->before, (FrNight *)self->after, (FrCooker *)self->cooker,
                              &self->report);
  self->keep (change, self->data);
  gtk_window_close (GTK_WINDOW (self));
}

static void
fr_morning_dialog_finalize (GObject *object)
{
  FrMorningDialog *self = FR_MORNING_DIALOG (object);

  g_clear_pointer (&self->before, fr_record_free);
  g_clear_pointer (&self->after, fr_record_free);
  g_clear_pointer (&self->cooker, fr_record_free);
  g_clear_object (&self->tonight);
  g_clear_object (&self->book);
  G_OBJECT_CLASS (fr_morning_dialog_parent_class)->finalize (object);
}

static void
fr_morning_dialog_class_init (FrMorningDialogClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = fr_morning_dialog_finalize;
  fr_dialog_frame_class_init (GTK_WIDGET_CLASS (klass));
}

static void
fr_morning_dialog_init (FrMorningDialog *self)
{
  GtkBox *inner;
  GtkWidget *group = adw_preferences_group_new ();

  self->keep_button = fr_dialog_frame_build (ADW_WINDOW (self), _ ("The Morning After"), 520, 560,
                                             G_CALLBACK (keep_cb), self, &inner);
  for (guint i = 0; i < N_ROWS; i++)
    {
      self->rows[i]
          = fr_quantity_row_new (_ (row_kinds[i].title),
                                 row_kinds[i].note != NULL ? _ (row_kinds[i].note) : NULL, row_kinds[i].kind);
      fr_quantity_row_on_text (FR_QUANTITY_ROW (self->rows[i]), take, self);
      adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), self->rows[i]);
    }
  adw_preferences_group_set_description (
      ADW_PREFERENCES_GROUP (group), _ ("Enter what you know; each tells something, the meter tells most."));
  self->grid = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (self->grid), 24);
  gtk_grid_set_row_spacing (GTK_GRID (self->grid), 6);
  self->whys = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  gtk_box_append (inner, group);
  gtk_box_append (inner, self->grid);
  gtk_box_append (inner, self->whys);
}

GtkWidget *
fr_morning_dialog_new (GtkWindow *parent, FrBook *book, FrTonight *tonight, const FrNight *night,
                       void (*keep) (const FrChange *change, gpointer data), gpointer data)
{
  const FrRecord *cooker = fr_book_find (book, FR_KIND_COOKER, night->cooker);
  FrPlanKit kit;
  FrMorningDialog *self;

  if (cooker == NULL || !fr_book_kit (book, (const FrCooker *)cooker, &kit))
    return NULL;
  self = g_object_new (FR_TYPE_MORNING_DIALOG, "transient-for", parent, NULL);
  self->book = g_object_ref (book);
  self->tonight = g_object_ref (tonight);
  self->before = fr_record_copy (&night->record);
  self->after = fr_record_copy (&night->record);
  self->cooker = fr_record_copy (cooker);
  self->kit = kit;
  self->altitude_m = fr_book_get_household (book)->altitude_m.value;
  self->keep = keep;
  self->data = data;
  for (guint i = 0; i < N_ROWS; i++)
    {
      const FrAmount *amount = amount_of (self, i);

      fr_quantity_row_set (FR_QUANTITY_ROW (self->rows[i]), amount->value, amount->typed,
                           &fr_tonight_get_say (tonight)->units, NULL);
    }
  compare (self);
  fr_entry_row_grab (FR_ENTRY_ROW (self->rows[0]));
  return GTK_WIDGET (self);
}
