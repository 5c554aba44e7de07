/* A file that was asked for, and word of it. */
#pragma once

#include "ui/window.h"

G_BEGIN_DECLS

/* Writes it and says so in the window, or says there why not; FALSE then. */
gboolean
fr_save_file (FrWindow *window, GFile *file, const char *contents, gsize length);

G_END_DECLS
