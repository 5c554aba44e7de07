/* Trees that come in from a file and go out into one. Coming in, the file is held against the book as often
 * as the person changes what is wanted; the change is made at the end, and is one step of undo. */
#pragma once

#include "domain/plan/arrivals.h"
#include "formats/arrival-file.h"
#include "models/book.h"

G_BEGIN_DECLS

typedef struct _FrBushImport FrBushImport;

/* Reads and understands a file beside the window's work. Errors are sentences. */
void
fr_bush_import_read_async (GFile *file, GCancellable *cancellable, GAsyncReadyCallback done, gpointer data);
FrArrivals *
fr_bush_import_read_finish (GAsyncResult *result, GError **error);

/* @arrivals: taken. @today: of the import. */
FrBushImport *
fr_bush_import_new (FrBook *book, FrArrivals *arrivals, FrDate today);
void
fr_bush_import_free (FrBushImport *import);

const FrArrivals *
fr_bush_import_arrivals (const FrBushImport *import);
/* What is wanted; after a change of it, or of the book, look again. */
FrArrivalOptions *
fr_bush_import_options (FrBushImport *import);
void
fr_bush_import_look (FrBushImport *import);
/* Rows may be left out in it. Valid until the next look. */
FrArrivalPreview *
fr_bush_import_preview (FrBushImport *import);
/* How many trees and paths would be brought in or changed. */
guint
fr_bush_import_n_wanted (FrBushImport *import);

/* "import-trees" by the name of the file; NULL and @error when the book cannot be read, without an error when
 * there is nothing to do. */
FrChange *
fr_bush_import_change (FrBushImport *import, const char *name, GError **error);

/* The text of a file with these trees, all for none, and their history. @n_left_out: (out) (optional): trees
 * without a place. NULL with a sentence. Free it. */
char *
fr_bush_export (FrBook *book, FrArrivalFile kind, const gint64 *trees, guint n, gboolean with_paths,
                guint *n_left_out, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrBushImport, fr_bush_import_free)

G_END_DECLS
