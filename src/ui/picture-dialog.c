/* While a point is taken on the map the dialog hides and comes back with it. The picture is read beside the
 * window's work; until it is there the dialog says so. */
#include "ui/picture-dialog.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "models/bush-edit.h"
#include "ui/dialog-frame.h"
#include "ui/picture-file.h"
#include "ui/picture-view.h"
#include "ui/pieces.h"
#include "ui/place-group.h"
#include "words/ground-words.h"

struct _FrPictureDialog
{
  AdwWindow parent_instance;
  FrWindow *window; /* the dialog is transient for it and goes first */
  FrBushMap *map;   /* of that window */
  char *path;
  GCancellable *reading;
  FrPictureView *view;
  GtkWidget *ask[2]; /* which point a click in the picture sets */
  GtkWidget *seen[2];
  FrPlaceGroup *places[2];
  GtkWidget *result;
  GtkWidget *keep_button;
  guint on_map; /* the point that is being taken on the map */
};

G_DEFINE_FINAL_TYPE (FrPictureDialog, fr_picture_dialog, ADW_TYPE_WINDOW)

static FrBook *
book_of (FrPictureDialog *self)
{
  return fr_window_get_book (self->window);
}

static const FrGround *
ground_of (FrPictureDialog *self)
{
  FrRecordList *list = fr_book_get_list (book_of (self), FR_KIND_GROUND);

  return fr_record_list_get_size (list) > 0 ? (const FrGround *)fr_record_list_get (list, 0) : NULL;
}

static gboolean
point_of (FrPictureDialog *self, guint i, FrPicturePoint *point)
{
  fr_picture_view_get_point (self->view, i, &point->column, &point->row);
  return fr_place_group_get (self->places[i], &point->x_m, &point->y_m) && !isnan (point->column);
}

static void
update (FrPictureDialog *self)
{
  FrSay say = { .units = *fr_book_get_units (book_of (self)) };
  const FrPicture *picture = fr_picture_view_get (self->view);
  FrPicturePoint first, second;
  gboolean whole = point_of (self, 0, &first);
  g_autofree char *text = NULL;

  whole = point_of (self, 1, &second) && whole && picture != NULL;
  if (whole)
    text = fr_picture_sentence (first.column, first.row, first.x_m, first.y_m, second.column, second.row,
                                second.x_m, second.y_m, picture->width, picture->height, &say);
  for (guint i = 0; i < 2; i++)
    {
      FrPicturePoint *point = i == 0 ? &first : &second;
      g_autofree char *seen
          = isnan (point->column)
                ? g_strdup (_ ("Click it in the picture."))
                /* Translators: a place in a picture, counted from its upper left */
                : g_strdup_printf (_ ("In the picture at column %.0f, row %.0f."), point->column, point->row);

      gtk_label_set_text (GTK_LABEL (self->seen[i]), seen);
    }
  gtk_widget_set_sensitive (self->keep_button, text != NULL);
  if (picture == NULL)
    return; /* what stands there tells of the reading */
  gtk_label_set_text (
      GTK_LABEL (self->result),
      text != NULL ? text
      : whole ? _ ("The two points must be apart, in the picture and on the plan. The farther, the better.")
              : _ ("Two places are needed that you know in the picture and on the plan, far apart."));
}

static void
pointed_cb (FrPictureDialog *self)
{
  guint asked = fr_picture_view_asked (self->view);
  FrPicturePoint other;

  /* After the first the second is asked for, unless it is known already. */
  point_of (self, 1 - asked, &other);
  if (asked == 0 && isnan (other.column))
    gtk_check_button_set_active (GTK_CHECK_BUTTON (self->ask[1]), TRUE);
  update (self);
}

static void
ask_cb (FrPictureDialog *self)
{
  fr_picture_view_ask (self->view, gtk_check_button_get_active (GTK_CHECK_BUTTON (self->ask[1])) ? 1 : 0);
}

static void
read_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (GError) error = NULL;
  FrPicture *picture = fr_picture_load_finish (result, &error);
  FrPictureDialog *self;

  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return; /* the dialog is gone */
  self = FR_PICTURE_DIALOG (user_data);
  if (picture == NULL)
    gtk_label_set_text (GTK_LABEL (self->result), error->message);
  else
    {
      fr_picture_view_take (self->view, picture);
      update (self);
    }
}

static void
keep_cb (FrPictureDialog *self)
{
  FrPicturePoint first, second;
  g_autofree char *file = fr_picture_file (book_of (self), self->path);
  g_autoptr (GError) error = NULL;
  g_autoptr (FrChange) change = NULL;

  for (guint i = 0; i < 2; i++)
    fr_place_group_finish (self->places[i]);
  if (!gtk_widget_get_sensitive (self->keep_button) || !point_of (self, 0, &first)
      || !point_of (self, 1, &second))
    return;
  change = fr_bush_edit_picture (book_of (self), file, &first, &second, &error);
  if (change == NULL && error != NULL)
    gtk_label_set_text (GTK_LABEL (self->result), error->message);
  else if (change == NULL || fr_window_apply (self->window, change))
    gtk_window_close (GTK_WINDOW (self));
}

/* --- a point on the map --- */

static void
sketched_cb (const FrGroundPoint *points, guint n, gpointer data)
{
  FrPictureDialog *self = FR_PICTURE_DIALOG (data);

  gtk_widget_set_visible (GTK_WIDGET (self), TRUE);
  gtk_window_present (GTK_WINDOW (self));
  if (n == 1)
    fr_place_group_set (self->places[self->on_map], points[0].x_m, points[0].y_m);
}

static void
take_on_map (FrPictureDialog *self, guint i)
{
  self->on_map = i;
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
  fr_bush_map_sketch (self->map, NULL, NULL, 0, sketched_cb, self);
}

static void
first_on_map_cb (FrPictureDialog *self)
{
  take_on_map (self, 0);
}

static void
second_on_map_cb (FrPictureDialog *self)
{
  take_on_map (self, 1);
}

/* --- building --- */

static GtkWidget *
build_point (FrPictureDialog *self, guint i)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);

  self->ask[i] = gtk_check_button_new_with_mnemonic (i == 0 ? _ ("_First point") : _ ("_Second point"));
  gtk_widget_add_css_class (self->ask[i], "strong");
  if (i == 1)
    gtk_check_button_set_group (GTK_CHECK_BUTTON (self->ask[1]), GTK_CHECK_BUTTON (self->ask[0]));
  self->seen[i] = fr_wrapped_text (NULL, "soft");
  self->places[i] = FR_PLACE_GROUP (fr_place_group_new (NULL, book_of (self)));
  gtk_box_append (GTK_BOX (box), self->ask[i]);
  gtk_box_append (GTK_BOX (box), self->seen[i]);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (self->places[i]));
  g_signal_connect_object (self->places[i], "changed", G_CALLBACK (update), self, G_CONNECT_SWAPPED);
  if (self->map != NULL)
    {
      GtkWidget *button
          = gtk_button_new_with_label (i == 0 ? _ ("First on the Map…") : _ ("Second on the Map…"));

      gtk_widget_set_halign (button, GTK_ALIGN_START);
      gtk_widget_set_margin_top (button, 6);
      g_signal_connect_swapped (button, "clicked", G_CALLBACK (i == 0 ? first_on_map_cb : second_on_map_cb),
                                self);
      gtk_box_append (GTK_BOX (box), button);
    }
  return box;
}

/* What is known already of this picture. */
static void
begin (FrPictureDialog *self)
{
  const FrGround *ground = ground_of (self);
  g_autofree char *file = fr_picture_file (book_of (self), self->path);

  if (ground == NULL || g_strcmp0 (ground->picture, file) != 0)
    return;
  fr_picture_view_set_point (self->view, 0, ground->first_column.value, ground->first_row.value);
  fr_picture_view_set_point (self->view, 1, ground->second_column.value, ground->second_row.value);
  fr_place_group_set (self->places[0], ground->first_x_m.value, ground->first_y_m.value);
  fr_place_group_set (self->places[1], ground->second_x_m.value, ground->second_y_m.value);
}

static void
fr_picture_dialog_dispose (GObject *object)
{
  FrPictureDialog *self = FR_PICTURE_DIALOG (object);

  if (self->reading != NULL)
    g_cancellable_cancel (self->reading);
  g_clear_object (&self->reading);
  G_OBJECT_CLASS (fr_picture_dialog_parent_class)->dispose (object);
}

static void
fr_picture_dialog_finalize (GObject *object)
{
  g_free (FR_PICTURE_DIALOG (object)->path);
  G_OBJECT_CLASS (fr_picture_dialog_parent_class)->finalize (object);
}

static void
fr_picture_dialog_class_init (FrPictureDialogClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_picture_dialog_dispose;
  G_OBJECT_CLASS (klass)->finalize = fr_picture_dialog_finalize;
  fr_dialog_frame_class_init (GTK_WIDGET_CLASS (klass));
}

static void
fr_picture_dialog_init (FrPictureDialog *self)
{
}

GtkWidget *
fr_picture_dialog_new (FrWindow *window, FrBushMap *map, const char *path)
{
  FrPictureDialog *self = g_object_new (FR_TYPE_PICTURE_DIALOG, "transient-for", window, NULL);
  GtkWidget *points = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 18);
  GtkBox *inner;

  self->window = window;
  self->map = map;
  self->path = g_strdup (path);
  self->reading = g_cancellable_new ();
  self->keep_button = fr_dialog_frame_build (ADW_WINDOW (self), _ ("Place the Picture"), 720, 590,
                                             G_CALLBACK (keep_cb), self, &inner);
  self->view = FR_PICTURE_VIEW (fr_picture_view_new ());
  gtk_widget_set_vexpand (GTK_WIDGET (self->view), TRUE);
  gtk_widget_add_css_class (GTK_WIDGET (self->view), "card");
  gtk_window_set_destroy_with_parent (GTK_WINDOW (self), TRUE); /* it may be hidden while a point is taken */
  self->result = fr_wrapped_text (_ ("Reading the picture…"), "strong");
  gtk_box_set_homogeneous (GTK_BOX (points), TRUE);
  for (guint i = 0; i < 2; i++)
    gtk_box_append (GTK_BOX (points), build_point (self, i));
  gtk_box_append (inner, self->result);
  gtk_box_append (inner, GTK_WIDGET (self->view));
  gtk_box_append (inner, points);
  g_signal_connect_object (self->view, "pointed", G_CALLBACK (pointed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->ask[1], "toggled", G_CALLBACK (ask_cb), self, G_CONNECT_SWAPPED);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (self->ask[0]), TRUE);
  begin (self);
  update (self);
  fr_picture_load_async (path, self->reading, read_cb, self);
  return GTK_WIDGET (self);
}
