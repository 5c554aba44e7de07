/* What no text file can be, looked at before any reader is chosen. */
#pragma once

#include "formats/input-error.h"

G_BEGIN_DECLS

/* FALSE with a sentence when there is nothing but blanks, more than @most_mib MiB, or text in UTF-16. Whether it is UTF-8 is left
 * to the readers, which can say where it is not. */
gboolean
fr_text_bytes_check (const char *bytes, gsize length, guint most_mib, GError **error);

/* FALSE with a sentence that names the line which is not UTF-8 (a zero byte is none). */
gboolean
fr_text_bytes_check_utf8 (const char *bytes, gsize length, GError **error);

G_END_DECLS
