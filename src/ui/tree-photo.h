/* The photo of a tree. The book keeps where the file is, not the file: beside the book by its name, elsewhere
 * by its whole path. */
#pragma once

#include <adwaita.h>

#include "models/book.h"

G_BEGIN_DECLS

#define FR_TYPE_TREE_PHOTO (fr_tree_photo_get_type ())
G_DECLARE_FINAL_TYPE (FrTreePhoto, fr_tree_photo, FR, TREE_PHOTO, AdwBin)

GtkWidget *
fr_tree_photo_new (FrBook *book);

void
fr_tree_photo_set (FrTreePhoto *self, const FrTree *tree);

/* What the book writes for a file, and where that is; free both. */
char *
fr_book_file_name (FrBook *book, const char *path);
char *
fr_book_file_path (FrBook *book, const char *name);

G_END_DECLS
