/* Files of trees, whichever kind: the kind is told from what is in them, not from their name. */
#pragma once

#include "domain/plan/arrivals.h"
#include "formats/input-error.h"

G_BEGIN_DECLS

/* Larger than any kind may be; whoever reads a file needs no more bytes than one past it. */
#define FR_ARRIVAL_FILE_SIZE_MAX (20 * 1024 * 1024)

typedef enum
{
  FR_ARRIVAL_FILE_GPX,
  FR_ARRIVAL_FILE_GEOJSON,
  FR_ARRIVAL_FILE_TREES_CSV,
  FR_N_ARRIVAL_FILES
} FrArrivalFile;

/* "gpx", "geojson", "trees-csv"; and back. */
const char *
fr_arrival_file_code (FrArrivalFile kind);
gboolean
fr_arrival_file_from_code (const char *code, FrArrivalFile *kind_out);

/* @bytes of any content. NULL with a sentence that says where. */
FrArrivals *
fr_arrival_file_read (const char *bytes, gsize length, FrArrivalFile *kind_out, GError **error);

/* The text of a file; see the kinds' own headers. NULL with a sentence. Free it. */
char *
fr_arrival_file_write (FrArrivalFile kind, const FrBushBook *book, gboolean with_paths, guint *n_left_out,
                       GError **error);

G_END_DECLS
