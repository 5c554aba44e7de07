/* What a file is shows in its first bytes: XML begins with <, JSON with a bracket; all else may be a table.
 */
#include "formats/arrival-file.h"

#include "formats/geojson.h"
#include "formats/gpx.h"
#include "formats/text-bytes.h"
#include "formats/trees-csv.h"

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

FrArrivals *
fr_arrival_file_read (const char *bytes, gsize length, FrArrivalFile *kind_out, GError **error)
{
  gsize at = 0;

  if (!fr_text_bytes_check (bytes, length, FR_ARRIVAL_FILE_SIZE_MAX / (1024 * 1024), error))
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
