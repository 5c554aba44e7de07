/* A photo or scan from a file, read beside the window's work: turned upright as its maker says, and scaled
 * down where it is larger than a map needs. */
#pragma once

#include <cairo.h>

#include "models/book.h"

G_BEGIN_DECLS

/* Sides of what is kept for drawing, and of a file that is read at all. */
#define FR_PICTURE_MOST_PX 8000
#define FR_PICTURE_FILE_MOST_PX 30000

/**
 * FrPicture:
 * @width, @height: of the picture as its file has it; known points are in these pixels
 * @scale_ratio: pixels of @surface in one of those
 */
typedef struct
{
  cairo_surface_t *surface;
  double width;
  double height;
  double scale_ratio;
} FrPicture;

void
fr_picture_free (FrPicture *picture);

/* Errors are sentences: there is no such file, it is no picture, it is too large. */
void
fr_picture_load_async (const char *path, GCancellable *cancellable, GAsyncReadyCallback done, gpointer data);
FrPicture *
fr_picture_load_finish (GAsyncResult *result, GError **error);

/* A file named without its folder lies beside the book. The first gives where it is, the second how to name
 * it. Free them. */
char *
fr_picture_path (FrBook *book, const char *file);
char *
fr_picture_file (FrBook *book, const char *path);

/* Why a file that the book names cannot be shown: it is not there. NULL when it is. Free it. */
char *
fr_picture_missing (FrBook *book, const char *file);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrPicture, fr_picture_free)

G_END_DECLS
