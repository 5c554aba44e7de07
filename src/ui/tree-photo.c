/* A picture, or a button to choose one. The file is read when its tree is shown, at the size it is shown in,
 * and a file that is not there or no picture is told of in words: photos move and cards are formatted. */
#include "ui/tree-photo.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "models/bush-edit.h"
#include "ui/pieces.h"
#include "ui/window.h"

#define WIDTH_PX 640
#define SHOWN_HEIGHT_PX 200

struct _FrTreePhoto
{
  AdwBin parent_instance;
  FrBook *book;
  gint64 tree;
  char *shown; /* the path whose picture is shown */
  GtkWidget *picture;
  GtkWidget *problem;
  GtkWidget *choose;
  GtkWidget *forget;
  GtkFileChooserNative *chooser;
};

G_DEFINE_FINAL_TYPE (FrTreePhoto, fr_tree_photo, ADW_TYPE_BIN)

char *
fr_book_file_name (FrBook *book, const char *path)
{
  g_autofree char *folder = g_path_get_dirname (fr_book_get_path (book));
  g_autoptr (GFile) root = g_file_new_for_path (folder), file = g_file_new_for_path (path);
  char *name = g_file_get_relative_path (root, file);

  return name != NULL ? name : g_strdup (path);
}

char *
fr_book_file_path (FrBook *book, const char *name)
{
  g_autofree char *folder = NULL;

  if (g_path_is_absolute (name))
    return g_strdup (name);
  folder = g_path_get_dirname (fr_book_get_path (book));
  return g_build_filename (folder, name, NULL);
}

static void
keep (FrTreePhoto *self, const char *name)
{
  FrWindow *window = fr_window_of (GTK_WIDGET (self));
  g_autoptr (GError) error = NULL;
  g_autoptr (FrChange) change = fr_bush_edit_set (self->book, &self->tree, 1, "photo", name, NAN, &error);

  if (change != NULL)
    fr_window_apply (window, change);
  else if (error != NULL)
    fr_window_show_error (window, error);
}

static void
response_cb (GtkNativeDialog *dialog, int response, gpointer user_data)
{
  FrTreePhoto *self = FR_TREE_PHOTO (user_data);

  if (response == GTK_RESPONSE_ACCEPT)
    {
      g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
      g_autofree char *path = g_file_get_path (file);
      g_autofree char *name = path != NULL ? fr_book_file_name (self->book, path) : NULL;

      if (name != NULL)
        keep (self, name);
    }
  g_clear_object (&self->chooser);
}

static void
choose_cb (FrTreePhoto *self)
{
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();

  if (self->chooser != NULL)
    return;
  gtk_file_filter_set_name (filter, _ ("Pictures"));
  gtk_file_filter_add_pixbuf_formats (filter);
  self->chooser
      = gtk_file_chooser_native_new (_ ("Choose a Photo"), GTK_WINDOW (fr_window_of (GTK_WIDGET (self))),
                                     GTK_FILE_CHOOSER_ACTION_OPEN, _ ("_Choose"), _ ("_Cancel"));
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (self->chooser), filter);
  g_signal_connect (self->chooser, "response", G_CALLBACK (response_cb), self);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (self->chooser));
}

static void
forget_cb (FrTreePhoto *self)
{
  keep (self, NULL);
}

static void
fr_tree_photo_dispose (GObject *object)
{
  FrTreePhoto *self = FR_TREE_PHOTO (object);

  if (self->chooser != NULL)
    g_signal_handlers_disconnect_by_data (self->chooser, self);
  g_clear_object (&self->chooser);
  g_clear_object (&self->book);
  g_clear_pointer (&self->shown, g_free);
  G_OBJECT_CLASS (fr_tree_photo_parent_class)->dispose (object);
}

static void
fr_tree_photo_class_init (FrTreePhotoClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_tree_photo_dispose;
}

static void
fr_tree_photo_init (FrTreePhoto *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8),
            *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);

  self->picture = gtk_picture_new ();
  gtk_widget_set_size_request (self->picture, -1, SHOWN_HEIGHT_PX);
  self->problem = fr_wrapped_text (NULL, "note");
  self->choose = gtk_button_new_with_label (_ ("Choose a Photo…"));
  self->forget = gtk_button_new_with_label (_ ("Without Photo"));
  g_signal_connect_swapped (self->choose, "clicked", G_CALLBACK (choose_cb), self);
  g_signal_connect_swapped (self->forget, "clicked", G_CALLBACK (forget_cb), self);
  gtk_box_append (GTK_BOX (line), self->choose);
  gtk_box_append (GTK_BOX (line), self->forget);
  gtk_box_append (GTK_BOX (box), fr_wrapped_text (_ ("Photo"), "card-heading"));
  gtk_box_append (GTK_BOX (box), self->picture);
  gtk_box_append (GTK_BOX (box), self->problem);
  gtk_box_append (GTK_BOX (box), line);
  adw_bin_set_child (ADW_BIN (self), box);
}

GtkWidget *
fr_tree_photo_new (FrBook *book)
{
  FrTreePhoto *self = g_object_new (FR_TYPE_TREE_PHOTO, NULL);

  self->book = g_object_ref (book);
  return GTK_WIDGET (self);
}

void
fr_tree_photo_set (FrTreePhoto *self, const FrTree *tree)
{
  g_autofree char *path = tree->photo != NULL ? fr_book_file_path (self->book, tree->photo) : NULL;
  g_autoptr (GdkPixbuf) pixels = NULL;
  g_autoptr (GdkTexture) texture = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *words = NULL;

  self->tree = tree->record.id;
  gtk_widget_set_visible (self->forget, path != NULL);
  gtk_button_set_label (GTK_BUTTON (self->choose),
                        path != NULL ? _ ("Another Photo…") : _ ("Choose a Photo…"));
  if (path != NULL && g_strcmp0 (path, self->shown) == 0)
    return;
  g_clear_pointer (&self->shown, g_free);
  if (path != NULL)
    pixels = gdk_pixbuf_new_from_file_at_scale (path, WIDTH_PX, -1, TRUE, &error);
  if (pixels != NULL)
    {
      g_autoptr (GdkPixbuf) upright = gdk_pixbuf_apply_embedded_orientation (pixels);

      texture = gdk_texture_new_for_pixbuf (upright);
      self->shown = g_strdup (path);
    }
  else if (path != NULL)
    words = g_strdup_printf (_ ("The photo “%s” cannot be shown: %s"), tree->photo, error->message);
  gtk_picture_set_paintable (GTK_PICTURE (self->picture), GDK_PAINTABLE (texture));
  gtk_widget_set_visible (self->picture, texture != NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->picture), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Photo of the tree"), -1);
  fr_set_text (self->problem, words);
}
