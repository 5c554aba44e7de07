/* Civil days and clock times, free of any time zone.
 *
 * A day is a proleptic Gregorian date; a clock time is minutes from midnight. What moment on earth they mean is
 * answered by zone.h alone. Nothing here adds 86,400 seconds to anything. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * FrDate:
 * @year: 1 to 9999; 0 means no date
 * @month: 1 to 12
 * @day: 1 to the month's length
 */
typedef struct
{
  gint year;
  gint month;
  gint day;
} FrDate;

/**
 * FrLocalTime:
 * @date: the civil day
 * @second_of_day: 0 to 86,399, what the clock on the wall shows
 * @weekday: 1 Monday to 7 Sunday
 * @offset_s: local minus UTC in seconds
 * @abbreviation: the zone's own short name then, for example "EDT"
 */
typedef struct
{
  FrDate date;
  gint second_of_day;
  gint weekday;
  gint offset_s;
  char abbreviation[12];
} FrLocalTime;

gboolean fr_date_is_valid (FrDate date);
gint64 fr_date_to_days (FrDate date);
FrDate fr_date_from_days (gint64 days);
FrDate fr_date_add_days (FrDate date, gint days);
gint fr_date_weekday (FrDate date);
gint fr_weekday_of_days (gint64 days);
gint fr_date_compare (FrDate a, FrDate b);
gboolean fr_date_parse (const char *text, FrDate *date_out);
char *fr_date_to_iso (FrDate date);
gboolean fr_clock_parse (const char *text, gint *minutes_out);

G_END_DECLS
