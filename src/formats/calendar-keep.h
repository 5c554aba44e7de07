/* Keeping a calendar file up to date where other machines fetch it. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * fr_calendar_file_keep:
 * @path: of the file, in the file system's encoding; its folder is there
 * @text: the whole file, from fr_calendar_file_write
 * @changed_out: (nullable): whether the file was written; it is not when its bytes are the same already, so
 * that nothing is copied around for nothing
 *
 * The new file takes the old one's place in one step, with its permissions; who reads sees the one or the
 * other. A link is followed. A file that this program did not write, or another has written since, is left
 * alone.
 *
 * Returns: FALSE with a sentence in @error (G_FILE_ERROR) when it could not be
 */
gboolean
fr_calendar_file_keep (const char *path, const char *text, gboolean *changed_out, GError **error);

G_END_DECLS
