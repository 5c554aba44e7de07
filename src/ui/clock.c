/* What time it is. The held time is one for the whole program, set before the first window opens. */
#include "ui/clock.h"

static gboolean held;
static FrDate held_date;
static gint held_min;

gboolean
fr_clock_hold (const char *local)
{
  g_auto (GStrv) parts = g_strsplit_set (local, "T ", 2);
  FrDate date;
  gint minutes;

  if (g_strv_length (parts) != 2 || !fr_date_parse (parts[0], &date) || !fr_clock_parse (parts[1], &minutes))
    return FALSE;
  held = TRUE;
  held_date = date;
  held_min = minutes;
  return TRUE;
}

gint64
fr_clock_now (const FrZoneTable *zone)
{
  g_autoptr (FrZoneTable) utc = NULL;
  gint64 first_s, second_s;

  if (!held)
    return g_get_real_time () / G_USEC_PER_SEC;
  if (zone == NULL)
    zone = utc = fr_zone_table_new_utc ();
  fr_zone_instant (zone, held_date, held_min * 60, &first_s, &second_s);
  return first_s;
}

FrLocalTime
fr_clock_local (const FrZoneTable *zone)
{
  g_autoptr (FrZoneTable) utc = NULL;

  if (zone == NULL)
    zone = utc = fr_zone_table_new_utc ();
  return fr_zone_local (zone, fr_clock_now (zone));
}
