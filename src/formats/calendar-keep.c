/* Keeping a calendar file up to date: written beside itself and renamed (g_file_set_contents_full), only when
 * it would differ. */
#include "formats/calendar-keep.h"

#include "formats/ical-parts.h"

#include <errno.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <stdlib.h>
#include <string.h>

#define FILE_MAX_BYTES (64 * 1024 * 1024) /* far over any household's calendar */

static gboolean
fail (GError **error, gint errno_then, const char *sentence, const char *path)
{
  g_autofree char *shown = g_filename_display_name (path);
  g_autofree char *message = g_strdup_printf (sentence, shown);

  g_set_error_literal (error, G_FILE_ERROR, (gint)g_file_error_from_errno (errno_then), message);
  return FALSE;
}

/* Whether an iCalendar text says it is by this program. */
static gboolean
is_ours (const char *bytes, gsize length)
{
  return g_strstr_len (bytes, (gssize)length, "\nPRODID:" FR_ICAL_PRODID "\r\n") != NULL;
}

/* What stands at @path, NULL when nothing does. An empty file may be overwritten like none. */
static gboolean
read_old (const char *path, const GStatBuf *found, char **old_out, GError **error)
{
  g_autoptr (GError) problem = NULL;
  g_autofree char *old = NULL;
  gsize length;

  if (!S_ISREG (found->st_mode) || found->st_size > FILE_MAX_BYTES)
    return fail (error, EEXIST, _ ("“%s” is no calendar file; choose another name"), path);
  if (!g_file_get_contents (path, &old, &length, &problem))
    {
      g_autofree char *shown = g_filename_display_name (path);

      g_set_error (error, problem->domain, problem->code, _ ("the calendar file “%s” cannot be read: %s"),
                   shown, problem->message);
      return FALSE;
    }
  if (length > 0 && !is_ours (old, length))
    return fail (error, EEXIST,
                 _ ("“%s” is there already and was not written by Frostrun; choose another name"), path);
  *old_out = strlen (old) == length ? g_steal_pointer (&old) : NULL;
  return TRUE;
}

static gboolean
write_new (const char *path, const char *text, gint mode, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *shown = NULL;
  g_autoptr (GError) problem = NULL;

  if (!g_file_test (folder, G_FILE_TEST_IS_DIR))
    return fail (error, ENOENT, _ ("the folder “%s” for the calendar file is not there"), folder);
  if (g_file_set_contents_full (path, text, -1, G_FILE_SET_CONTENTS_CONSISTENT, mode, &problem))
    return TRUE;
  if (g_error_matches (problem, G_FILE_ERROR, G_FILE_ERROR_ACCES)
      || g_error_matches (problem, G_FILE_ERROR, G_FILE_ERROR_PERM)
      || g_error_matches (problem, G_FILE_ERROR, G_FILE_ERROR_ROFS))
    return fail (error, EACCES,
                 _ ("nothing may be written into the folder “%s”, where the calendar file is kept"), folder);
  shown = g_filename_display_name (path);
  g_set_error (error, problem->domain, problem->code, _ ("the calendar file “%s” cannot be written: %s"),
               shown, problem->message);
  return FALSE;
}

gboolean
fr_calendar_file_keep (const char *path, const char *text, gboolean *changed_out, GError **error)
{
  g_autofree char *old = NULL;
  char *target; /* realpath's, freed with free */
  GStatBuf found;
  gint mode = 0666;
  gboolean ok = TRUE;
  gboolean differs = TRUE;

  g_return_val_if_fail (path != NULL && text != NULL, FALSE);
  g_return_val_if_fail (error == NULL || *error == NULL, FALSE);

  if (changed_out != NULL)
    *changed_out = FALSE;
  target = realpath (path, NULL); /* NULL when there is no such file yet */
  if (target == NULL && g_file_test (path, G_FILE_TEST_IS_SYMLINK))
    return fail (error, ENOENT, _ ("“%s” points to a file that is not there"), path);
  if (target != NULL && g_stat (target, &found) == 0)
    {
      mode = found.st_mode & 0777;
      ok = read_old (target, &found, &old, error);
      differs = g_strcmp0 (old, text) != 0;
    }
  if (ok && differs)
    ok = write_new (target != NULL ? target : path, text, mode, error);
  free (target);
  if (changed_out != NULL)
    *changed_out = ok && differs;
  return ok;
}
