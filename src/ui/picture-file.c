/* Reading stands in a thread of its own: a scan of 8,000 pixels a side takes a second and a quarter of a
 * gigabyte. The size is looked at before a pixel is read. */
#include "ui/picture-file.h"

#include <gdk/gdk.h>
#include <glib/gi18n-lib.h>
#include <math.h>

void
fr_picture_free (FrPicture *picture)
{
  if (picture == NULL)
    return;
  g_clear_pointer (&picture->surface, cairo_surface_destroy);
  g_free (picture);
}

static FrPicture *
picture_of (GdkPixbuf *pixbuf, double scale_ratio)
{
  FrPicture *picture = g_new0 (FrPicture, 1);
  int width = gdk_pixbuf_get_width (pixbuf), height = gdk_pixbuf_get_height (pixbuf);
  cairo_t *cr;

  picture->surface = cairo_image_surface_create (
      gdk_pixbuf_get_has_alpha (pixbuf) ? CAIRO_FORMAT_ARGB32 : CAIRO_FORMAT_RGB24, width, height);
  picture->scale_ratio = scale_ratio;
  cr = cairo_create (picture->surface);
  gdk_cairo_set_source_pixbuf (cr, pixbuf, 0, 0);
  cairo_set_operator (cr, CAIRO_OPERATOR_SOURCE);
  cairo_paint (cr);
  cairo_destroy (cr);
  return picture;
}

static FrPicture *
load (const char *path, GError **error)
{
  g_autofree char *name = g_path_get_basename (path);
  g_autoptr (GdkPixbuf) pixbuf = NULL;
  g_autoptr (GdkPixbuf) upright = NULL;
  g_autoptr (GError) why = NULL;
  FrPicture *picture;
  gboolean turned;
  int width, height;

  if (!g_file_test (path, G_FILE_TEST_EXISTS))
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_NOT_FOUND, _ ("“%s” is not there."), path);
      return NULL;
    }
  if (gdk_pixbuf_get_file_info (path, &width, &height) == NULL)
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA,
                   _ ("“%s” is no picture that can be read. A PNG or JPEG file can."), name);
      return NULL;
    }
  if (MAX (width, height) > FR_PICTURE_FILE_MOST_PX)
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA,
                   _ ("“%s” is %d by %d pixels, too large to read. Up to %d a side can be."), name, width,
                   height, FR_PICTURE_FILE_MOST_PX);
      return NULL;
    }
  pixbuf = MAX (width, height) > FR_PICTURE_MOST_PX
               ? gdk_pixbuf_new_from_file_at_scale (path, FR_PICTURE_MOST_PX, FR_PICTURE_MOST_PX, TRUE, &why)
               : gdk_pixbuf_new_from_file (path, &why);
  upright = pixbuf != NULL ? gdk_pixbuf_apply_embedded_orientation (pixbuf) : NULL;
  if (upright == NULL)
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA, _ ("“%s” could not be read: %s"), name,
                   why != NULL ? why->message : "");
      return NULL;
    }
  /* The scale is the same both ways but for rounding; the longer side tells it best. */
  picture = picture_of (upright, (double)MAX (gdk_pixbuf_get_width (upright), gdk_pixbuf_get_height (upright))
                                     / MAX (width, height));
  turned = (gdk_pixbuf_get_width (upright) > gdk_pixbuf_get_height (upright)) != (width > height)
           && width != height;
  picture->width = turned ? height : width;
  picture->height = turned ? width : height;
  if (cairo_surface_status (picture->surface) != CAIRO_STATUS_SUCCESS)
    {
      g_clear_pointer (&picture, fr_picture_free);
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_NO_SPACE, _ ("There is not memory enough for “%s”."), name);
    }
  return picture;
}

static void
load_thread (GTask *task, gpointer source, gpointer path, GCancellable *cancellable)
{
  GError *error = NULL;
  FrPicture *picture = load (path, &error);

  if (picture != NULL)
    g_task_return_pointer (task, picture, (GDestroyNotify)fr_picture_free);
  else
    g_task_return_error (task, error);
}

void
fr_picture_load_async (const char *path, GCancellable *cancellable, GAsyncReadyCallback done, gpointer data)
{
  g_autoptr (GTask) task = g_task_new (NULL, cancellable, done, data);

  g_task_set_source_tag (task, fr_picture_load_async);
  g_task_set_task_data (task, g_strdup (path), g_free);
  g_task_run_in_thread (task, load_thread);
}

FrPicture *
fr_picture_load_finish (GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}

char *
fr_picture_path (FrBook *book, const char *file)
{
  g_autofree char *folder = NULL;

  if (g_path_is_absolute (file))
    return g_strdup (file);
  folder = g_path_get_dirname (fr_book_get_path (book));
  return g_build_filename (folder, file, NULL);
}

char *
fr_picture_file (FrBook *book, const char *path)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GFile) of_book = g_file_new_for_path (fr_book_get_path (book));
  g_autoptr (GFile) folder = g_file_get_parent (of_book);
  char *beside = folder != NULL ? g_file_get_relative_path (folder, file) : NULL;

  return beside != NULL ? beside : g_strdup (path);
}

char *
fr_picture_missing (FrBook *book, const char *file)
{
  g_autofree char *path = fr_picture_path (book, file);

  if (g_file_test (path, G_FILE_TEST_IS_REGULAR))
    return NULL;
  return g_strdup_printf (_ ("The file is not there: %s. Put it back, or choose it anew."), path);
}
