/* Which version a file is and how it becomes the current one. */
#pragma once

#include "store/database.h"

G_BEGIN_DECLS

#define FR_SCHEMA_VERSION 4

/* The script that makes @version of the one before, 1 to FR_SCHEMA_VERSION. Free it. */
char *
fr_schema_script (guint version);

/* Makes a new book in an empty file, brings an older one up (keeping a copy beside it first), and refuses
 * what is newer or no book. */
gboolean
fr_schema_bring_up (FrDatabase *db, gboolean create, GError **error);

/* The same with other scripts; the last one makes the current version. For tests of the steps themselves. */
gboolean
fr_schema_bring_up_with (FrDatabase *db, gboolean create, const char *const *scripts, GError **error);

G_END_DECLS
