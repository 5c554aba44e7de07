/* First line: name of the form, length of the facts in bytes, SHA-256 of all that follows the line. Then the
 * facts as a key file, then the body to the end. Rename is atomic (POSIX), and the new file is on the disk
 * before it. */
#include "fetch/kept-file.h"

#include <string.h>

#define FORM "frostrun-kept-1"
#define FILE_MAX (64 * 1024 * 1024)

gboolean
fr_kept_file_write (const char *path, GKeyFile *facts, GBytes *body, GError **error)
{
  gsize n_facts, n_body = 0;
  g_autofree char *text = g_key_file_to_data (facts, &n_facts, NULL), *sum = NULL;
  const void *bytes = body != NULL ? g_bytes_get_data (body, &n_body) : NULL;
  g_autoptr (GChecksum) checksum = g_checksum_new (G_CHECKSUM_SHA256);
  g_autoptr (GString) all = g_string_sized_new (n_facts + n_body + 128);

  g_checksum_update (checksum, (const guchar *)text, n_facts);
  if (n_body > 0)
    g_checksum_update (checksum, bytes, n_body);
  g_string_append_printf (all, FORM " %" G_GSIZE_FORMAT " %s\n", n_facts, g_checksum_get_string (checksum));
  g_string_append_len (all, text, n_facts);
  if (n_body > 0)
    g_string_append_len (all, bytes, n_body);
  return g_file_set_contents_full (path, all->str, all->len,
                                   G_FILE_SET_CONTENTS_CONSISTENT | G_FILE_SET_CONTENTS_DURABLE, 0600, error);
}

/* The length of the facts by the first line, which ends at @end; FALSE when the line or the sum is not right.
 */
static gboolean
is_sound (const char *text, const char *end, gsize length, gsize *n_facts_out)
{
  g_autofree char *line = g_strndup (text, end - text), *sum = NULL;
  g_auto (GStrv) words = g_strsplit (line, " ", -1);
  const gsize n = length - (end + 1 - text);
  guint64 n_facts;

  if (g_strv_length (words) != 3 || strcmp (words[0], FORM) != 0
      || !g_ascii_string_to_unsigned (words[1], 10, 0, n, &n_facts, NULL))
    return FALSE;
  *n_facts_out = n_facts;
  sum = g_compute_checksum_for_data (G_CHECKSUM_SHA256, (const guchar *)end + 1, n);
  return strcmp (sum, words[2]) == 0;
}

FrKeptFile
fr_kept_file_read (const char *path, GKeyFile **facts_out, GBytes **body_out)
{
  g_autoptr (GMappedFile) file = NULL;
  g_autoptr (GKeyFile) facts = g_key_file_new ();
  g_autoptr (GError) error = NULL;
  const char *text, *end;
  gsize length, n_facts;

  /* Held files are replaced, never written into, so the map cannot shrink. */
  file = g_mapped_file_new (path, FALSE, &error);
  if (file == NULL)
    return g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOENT) ? FR_KEPT_FILE_NONE
                                                                     : FR_KEPT_FILE_UNREADABLE;
  length = g_mapped_file_get_length (file);
  text = g_mapped_file_get_contents (file);
  end = length > 0 && length <= FILE_MAX ? memchr (text, '\n', MIN (length, 256)) : NULL;
  if (end == NULL || !is_sound (text, end, length, &n_facts)
      || (n_facts > 0 && !g_key_file_load_from_data (facts, end + 1, n_facts, G_KEY_FILE_NONE, NULL)))
    return FR_KEPT_FILE_DAMAGED;
  if (body_out != NULL)
    *body_out = g_bytes_new (end + 1 + n_facts, length - (end + 1 - text) - n_facts);
  *facts_out = g_steal_pointer (&facts);
  return FR_KEPT_FILE_SOUND;
}
