/* What a file is shows in its first bytes: XML begins with <, JSON with a bracket; all else may be a table.
 */
#include "formats/arrival-file.h"

#include "formats/geojson.h"
#include "formats/gpx.h"
#include "formats/trees-csv.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static const char *const codes[FR_N_ARRIVAL_FILES] = { "gpx", "geojson", "trees-csv" };

const char *
fr_arrival_file_code (FrArrivalFile kind)
{
  g_return_val_if_fail ((guint)kind < FR_N_ARRIVAL_FILES, NULL);

  return codes[kind];
}

gboolean
fr_arrival_file_from_code (const char *code, FrArrivalFile *kind_out)
{
  for (guint i = 0; i < FR_N_ARRIVAL_FILES; i++)
    if (g_strcmp0 (code, codes[i]) == 0)
      {
        *kind_out = i;
        return TRUE;
      }
  return FALSE;
}

static gboolean
wrong (GError **error, const char *sentence)
{
  g_set_error_literal (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, sentence);
  return FALSE;
}

/* What no kind can be. */
static gboolean
check_bytes (const char *bytes, gsize length, GError **error)
{
  gsize at = 0;

  if (length > FR_ARRIVAL_FILE_SIZE_MAX)
    {
      g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, _ ("the file is larger than %d MiB"),
                   FR_ARRIVAL_FILE_SIZE_MAX / (1024 * 1024));
      return FALSE;
    }
  if (length >= 2 && (memcmp (bytes, "\xFF\xFE", 2) == 0 || memcmp (bytes, "\xFE\xFF", 2) == 0))
    return wrong (
        error, _ ("line 1: the file is text in UTF-16; only UTF-8 is read. Save it in UTF-8 and try again"));
  if (length >= 2 && memchr (bytes, '\0', MIN (length, 4)) != NULL)
    return wrong (error, _ ("line 1: the file is no text, or text in UTF-16; only UTF-8 is read"));
  while (at < length && g_ascii_isspace (bytes[at]))
    at++;
  return at < length || wrong (error, _ ("the file is empty"));
}

FrArrivals *
fr_arrival_file_read (const char *bytes, gsize length, FrArrivalFile *kind_out, GError **error)
{
  gsize at = 0;

  if (!check_bytes (bytes, length, error))
    return NULL;
  if (fr_gpx_looks_like (bytes, length))
    {
      *kind_out = FR_ARRIVAL_FILE_GPX;
      return fr_gpx_read (bytes, length, error);
    }
  if (length >= 3 && memcmp (bytes, "\xEF\xBB\xBF", 3) == 0)
    at = 3;
  while (at < length && g_ascii_isspace (bytes[at]))
    at++;
  if (at < length && (bytes[at] == '{' || bytes[at] == '['))
    {
      *kind_out = FR_ARRIVAL_FILE_GEOJSON;
      /* The mark is none of JSON's, but some programs write it. */
      at = bytes[0] == '\xEF' ? 3 : 0;
      return fr_geojson_read (bytes + at, length - at, error);
    }
  *kind_out = FR_ARRIVAL_FILE_TREES_CSV;
  return fr_trees_csv_read (bytes, length, error);
}

char *
fr_arrival_file_write (FrArrivalFile kind, const FrBushBook *book, gboolean with_paths, guint *n_left_out,
                       GError **error)
{
  switch (kind)
    {
    case FR_ARRIVAL_FILE_GPX:
      return fr_gpx_write (book, with_paths, n_left_out, error);
    case FR_ARRIVAL_FILE_GEOJSON:
      return fr_geojson_write (book, with_paths, n_left_out, error);
    case FR_ARRIVAL_FILE_TREES_CSV:
      if (n_left_out != NULL)
        *n_left_out = 0;
      return fr_trees_csv_write (book);
    case FR_N_ARRIVAL_FILES:
      break;
    }
  g_return_val_if_reached (NULL);
}
