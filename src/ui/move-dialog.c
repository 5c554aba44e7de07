/* Tape and compass: how far, and which way the needle showed. The plan's declination turns that into a way on
 * the plan, and the dialog says the result before it is kept. */
#include "ui/move-dialog.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "domain/units/bearing.h"
#include "models/bush-edit.h"
#include "ui/dialog-frame.h"
#include "ui/quantity-row.h"
#include "words/tree-words.h"

struct _FrMoveDialog
{
  AdwWindow parent_instance;
  FrWindow *window;
  FrSugarbush *bush;
  GtkWidget *distance;
  GtkWidget *bearing;
  GtkWidget *result;
  GtkWidget *keep;
  double distance_m;
  double bearing_deg;
};

G_DEFINE_FINAL_TYPE (FrMoveDialog, fr_move_dialog, ADW_TYPE_WINDOW)

static double
declination (FrMoveDialog *self)
{
  FrRecordList *list = fr_book_get_list (fr_sugarbush_get_book (self->bush), FR_KIND_GROUND);

  return fr_record_list_get_size (list) > 0
             ? ((const FrGround *)fr_record_list_get (list, 0))->declination_deg.value
             : NAN;
}

static void
update (FrMoveDialog *self)
{
  FrSay say = { .units = *fr_book_get_units (fr_sugarbush_get_book (self->bush)) };
  gboolean ready = self->distance_m > 0 && !isnan (self->bearing_deg);
  double dx_m = 0, dy_m = 0;
  g_autofree char *way = NULL, *text = NULL;

  gtk_widget_set_sensitive (self->keep, ready);
  if (!ready)
    {
      gtk_label_set_text (GTK_LABEL (self->result), _ ("Where they come to lie shows on the map once kept."));
      return;
    }
  fr_plan_offset (self->distance_m, self->bearing_deg, declination (self), &dx_m, &dy_m);
  way = fr_way_words (dx_m, dy_m, &say);
  text = g_strdup_printf (isnan (declination (self))
                              ? _ ("On the plan: %s. No declination is known, so the bearing counts as true.")
                              : _ ("On the plan, by true north: %s."),
                          way);
  gtk_label_set_text (GTK_LABEL (self->result), text);
}

static void
distance_cb (FrQuantityRow *row, const char *text, gboolean finished, gpointer data)
{
  FrMoveDialog *self = FR_MOVE_DIALOG (data);
  const FrUnits *units = fr_book_get_units (fr_sugarbush_get_book (self->bush));
  double value_m;

  if (!fr_quantity_row_read (row, text, finished, units, &value_m))
    value_m = NAN;
  else if (finished)
    {
      fr_quantity_row_set (row, value_m, text, units, NULL);
      if (value_m <= 0)
        fr_entry_row_set_problem (FR_ENTRY_ROW (row),
                                  _ ("More than nothing is needed. Turn the bearing round instead."));
    }
  self->distance_m = value_m;
  update (self);
}

static void
read_bearing (FrMoveDialog *self, const char *text, gboolean finished)
{
  gboolean read = fr_bearing_parse (text, &self->bearing_deg);

  if (!read)
    self->bearing_deg = NAN;
  fr_entry_row_set_problem (
      FR_ENTRY_ROW (self->bearing),
      finished && !read && *text != '\0' ? _ ("0 to 360 degrees, or letters such as SSE or N 45 W.") : NULL);
  if (finished)
    fr_entry_row_set_texts (FR_ENTRY_ROW (self->bearing), text, text, NULL);
  update (self);
}

static void
bearing_typed_cb (FrMoveDialog *self, const char *text)
{
  read_bearing (self, text, FALSE);
}

static void
bearing_finished_cb (FrMoveDialog *self, const char *text)
{
  read_bearing (self, text, TRUE);
}

static void
keep_cb (FrMoveDialog *self)
{
  double dx_m, dy_m;
  GError *error = NULL;
  FrChange *change;

  fr_plan_offset (self->distance_m, self->bearing_deg, declination (self), &dx_m, &dy_m);
  change = fr_bush_edit_move (fr_sugarbush_get_book (self->bush), fr_sugarbush_get_selected (self->bush),
                              fr_sugarbush_n_selected (self->bush), dx_m, dy_m, &error);
  fr_window_finish (self->window, change, error);
  gtk_window_close (GTK_WINDOW (self));
}

static void
fr_move_dialog_dispose (GObject *object)
{
  FrMoveDialog *self = FR_MOVE_DIALOG (object);

  g_clear_object (&self->bush);
  G_OBJECT_CLASS (fr_move_dialog_parent_class)->dispose (object);
}

static void
fr_move_dialog_class_init (FrMoveDialogClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_move_dialog_dispose;
  fr_dialog_frame_class_init (GTK_WIDGET_CLASS (klass));
}

static void
fr_move_dialog_init (FrMoveDialog *self)
{
  self->distance_m = self->bearing_deg = NAN;
}

GtkWidget *
fr_move_dialog_new (FrWindow *window, FrSugarbush *bush)
{
  FrMoveDialog *self = g_object_new (FR_TYPE_MOVE_DIALOG, "transient-for", window, NULL);
  guint n = fr_sugarbush_n_selected (bush);
  g_autofree char *title
      = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "Move %u Tree", "Move %u Trees", n), n);
  GtkWidget *list = gtk_list_box_new ();
  GtkBox *inner;

  self->window = window;
  self->bush = g_object_ref (bush);
  self->keep = fr_dialog_frame_build (ADW_WINDOW (self), title, 460, 320, G_CALLBACK (keep_cb), self, &inner);
  self->distance = fr_quantity_row_new (_ ("Distance"), NULL, FR_QUANTITY_DISTANCE);
  fr_quantity_row_set (FR_QUANTITY_ROW (self->distance), NAN, NULL,
                       fr_book_get_units (fr_sugarbush_get_book (bush)), NULL);
  fr_quantity_row_on_text (FR_QUANTITY_ROW (self->distance), distance_cb, self);
  self->bearing = fr_entry_row_new (_ ("Bearing"), _ ("By the compass: 305, or NW"));
  g_signal_connect_object (self->bearing, "typed", G_CALLBACK (bearing_typed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->bearing, "finished", G_CALLBACK (bearing_finished_cb), self,
                           G_CONNECT_SWAPPED);
  gtk_list_box_set_selection_mode (GTK_LIST_BOX (list), GTK_SELECTION_NONE);
  gtk_widget_add_css_class (list, "boxed-list");
  gtk_list_box_append (GTK_LIST_BOX (list), self->distance);
  gtk_list_box_append (GTK_LIST_BOX (list), self->bearing);
  gtk_box_append (inner, list);
  self->result = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->result), 0);
  gtk_label_set_wrap (GTK_LABEL (self->result), TRUE);
  gtk_widget_add_css_class (self->result, "soft");
  gtk_box_append (inner, self->result);
  update (self);
  return GTK_WIDGET (self);
}
