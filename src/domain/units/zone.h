/* A time zone as plain data: sorted UTC instants from which an offset holds.
 *
 * The domain neither reads files nor asks the system; formats/zone-source.c fills a table from the machine's zone
 * database and hands it in. Times that do not exist (the spring change) or exist twice (the autumn change) are told
 * to the caller, never silently moved. */
#pragma once

#include "domain/units/calendar.h"

G_BEGIN_DECLS

/**
 * FrZoneSpan:
 * @from_utc: first UTC second at which @offset_s holds; the first span of a table holds G_MININT64
 * @offset_s: local minus UTC, in seconds
 * @is_dst: whether this is daylight saving time
 * @abbreviation: short name
 */
typedef struct
{
  gint64 from_utc;
  gint offset_s;
  gboolean is_dst;
  char abbreviation[12];
} FrZoneSpan;

typedef struct _FrZoneTable FrZoneTable;

/**
 * FrZoneFit:
 * @FR_ZONE_ONCE: the local time names one instant
 * @FR_ZONE_TWICE: it happens twice (autumn); both are given
 * @FR_ZONE_NEVER: the clock jumps over it (spring); the last second before and the first after are given
 */
typedef enum
{
  FR_ZONE_ONCE,
  FR_ZONE_TWICE,
  FR_ZONE_NEVER
} FrZoneFit;

FrZoneTable *fr_zone_table_new (const char *name, const FrZoneSpan *spans, guint n_spans);
FrZoneTable *fr_zone_table_new_utc (void);
FrZoneTable *fr_zone_table_copy (const FrZoneTable *table);
void fr_zone_table_free (FrZoneTable *table);
const char *fr_zone_table_name (const FrZoneTable *table);

/* The local time at an instant. */
FrLocalTime fr_zone_local (const FrZoneTable *table, gint64 utc_s);

/* Whether it is daylight saving time at an instant. */
gboolean fr_zone_is_dst (const FrZoneTable *table, gint64 utc_s);

/* The instant of a local time. @second_of_day may be 0 to 86,400 (24:00 is the next day's 00:00).
 * ONCE: *first_out is it and *second_out equals it. TWICE: both instants, earlier first. NEVER: *first_out is the last
 * second before the jump, *second_out the first instant after it. */
FrZoneFit fr_zone_instant (const FrZoneTable *table, FrDate date, gint second_of_day, gint64 *first_out,
                           gint64 *second_out);

/* The first instant after @utc_s at which the offset changes; FALSE when none is known. */
gboolean fr_zone_next_change (const FrZoneTable *table, gint64 utc_s, gint64 *change_out);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrZoneTable, fr_zone_table_free)

G_END_DECLS
