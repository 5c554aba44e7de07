/* A file that was asked for, and word of it. */
#pragma once

#include "ui/window.h"

G_BEGIN_DECLS

/* Writes it and says so in the window, or says there why not; FALSE then. */
gboolean
fr_save_file (FrWindow *window, GFile *file, const char *contents, gsize length);

/* The PDF of what a dialog asks for now, or NULL and @error. */
typedef GBytes *(*FrMakePdf) (GtkWindow *dialog, GError **error);

/* Asks where to, @name to begin with; writes it as above and closes @dialog. */
void
fr_save_pdf (FrWindow *window, GtkWindow *dialog, const char *name, FrMakePdf make);

G_END_DECLS
