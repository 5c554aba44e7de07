/* Some facts and a body of bytes in one file that is whole or not there: written beside and put in place,
 * with a checksum in its first line. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  FR_KEPT_FILE_SOUND,
  FR_KEPT_FILE_NONE,      /* there is no such file */
  FR_KEPT_FILE_DAMAGED,   /* it is not what was written */
  FR_KEPT_FILE_UNREADABLE /* it cannot be opened or read */
} FrKeptFile;

/* @body: or NULL for none. */
gboolean
fr_kept_file_write (const char *path, GKeyFile *facts, GBytes *body, GError **error);
/* Both are set where the file is sound; @body_out may be NULL. */
FrKeptFile
fr_kept_file_read (const char *path, GKeyFile **facts_out, GBytes **body_out);

G_END_DECLS
