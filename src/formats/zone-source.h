/* A zone table from the machine's time zone database. */
#pragma once

#include "domain/units/zone.h"

G_BEGIN_DECLS

#define FR_ZONE_SOURCE_ERROR (fr_zone_source_error_quark ())
GQuark
fr_zone_source_error_quark (void);

/**
 * FrZoneSourceError:
 * @FR_ZONE_SOURCE_ERROR_UNKNOWN: the machine knows no such IANA zone; never taken for UTC
 */
typedef enum
{
  FR_ZONE_SOURCE_ERROR_UNKNOWN
} FrZoneSourceError;

/**
 * fr_zone_table_load:
 * @iana_name: for example "America/Toronto"; NULL, "", POSIX rules ("EST5EDT,M3.2.0,M11.1.0"), offsets
 * ("+05:00") and the machine's own setting ("localtime") are no names and an error
 * @from_year: first civil year that must be right, 1900 to 2300
 * @to_year: last one, from @from_year to 2300
 *
 * The table holds every change from two days before the first year to two days after the last, so that local
 * times at both ends find theirs.
 *
 * Returns: (transfer full): the table, or NULL with @error. Free with fr_zone_table_free.
 */
FrZoneTable *
fr_zone_table_load (const char *iana_name, int from_year, int to_year, GError **error);

G_END_DECLS
