/* A zone table as a VTIMEZONE.
 *
 * Every change stands there by its own moment; no rule is guessed from them, so that moved dates, half-hour
 * changes and days left out come out right. Changes of one kind (from, to, name) share an observance, which
 * lists its moments as RDATE. The first is listed too, though DTSTART says it: some readers take only the
 * one, some only the other. Moments are local times by the clock as it was before (3.6.5). What held at the
 * beginning, when no change before it is known, is an observance from the first year's first local midnight
 * that changes nothing. */
#include "formats/calendar-zone.h"

#define DAY_S 86400
#define ABBREVIATION_LENGTH sizeof ((FrLocalTime){ 0 }).abbreviation

typedef struct
{
  gint from_s;
  gint to_s;
  gboolean is_dst;
  char abbreviation[ABBREVIATION_LENGTH];
  icalcomponent *component;
} Observance;

/* The wall clock in seconds, counted as UTC is. */
static struct icaltimetype
wall_time (gint64 wall_s)
{
  return icaltime_from_timet_with_zone ((time_t)wall_s, 0, NULL);
}

static Observance *
find_observance (GArray *observances, const Observance *like)
{
  for (guint i = 0; i < observances->len; i++)
    {
      Observance *one = &g_array_index (observances, Observance, i);

      if (one->from_s == like->from_s && one->to_s == like->to_s && one->is_dst == like->is_dst
          && g_str_equal (one->abbreviation, like->abbreviation))
        return one;
    }
  return NULL;
}

static icalcomponent *
observance_new (const Observance *observance, struct icaltimetype begins)
{
  icalcomponent *component
      = observance->is_dst ? icalcomponent_new_xdaylight () : icalcomponent_new_xstandard ();

  icalcomponent_add_property (component, icalproperty_new_dtstart (begins));
  icalcomponent_add_property (component, icalproperty_new_tzoffsetfrom (observance->from_s));
  icalcomponent_add_property (component, icalproperty_new_tzoffsetto (observance->to_s));
  if (observance->abbreviation[0] != '\0')
    icalcomponent_add_property (component, icalproperty_new_tzname (observance->abbreviation));
  return component;
}

/* From @utc_s on the clock shows @to; @from_s was the offset until then. */
static void
add_change (icalcomponent *vtimezone, GArray *observances, const FrZoneTable *zone, gint64 utc_s, gint from_s)
{
  const FrLocalTime to = fr_zone_local (zone, utc_s);
  const struct icaldatetimeperiodtype onset = { wall_time (utc_s + from_s), icalperiodtype_null_period () };
  Observance like = { from_s, to.offset_s, fr_zone_is_dst (zone, utc_s), "", NULL };
  Observance *observance;

  g_strlcpy (like.abbreviation, to.abbreviation, sizeof like.abbreviation);
  observance = find_observance (observances, &like);
  if (observance == NULL)
    {
      like.component = observance_new (&like, onset.time);
      icalcomponent_add_component (vtimezone, like.component);
      g_array_append_val (observances, like);
      observance = &like;
    }
  icalcomponent_add_property (observance->component, icalproperty_new_rdate (onset));
}

icalcomponent *
fr_calendar_zone_new (const FrZoneTable *zone, gint first_year, gint last_year)
{
  const gint64 end = fr_date_to_days ((FrDate){ last_year, 12, 31 }) * DAY_S + 2 * DAY_S;
  g_autoptr (GArray) observances = g_array_new (FALSE, FALSE, sizeof (Observance));
  icalcomponent *vtimezone = icalcomponent_new_vtimezone ();
  gint64 begin, midnight, change, next;

  icalcomponent_add_property (vtimezone, icalproperty_new_tzid (fr_zone_table_name (zone)));
  fr_zone_instant (zone, (FrDate){ first_year, 1, 1 }, 0, &begin, &midnight);
  for (change = G_MININT64; fr_zone_next_change (zone, change, &next) && next <= begin; change = next)
    ;
  if (change == G_MININT64)
    add_change (vtimezone, observances, zone, begin, fr_zone_local (zone, begin).offset_s);
  else
    add_change (vtimezone, observances, zone, change, fr_zone_local (zone, change - 1).offset_s);
  for (; fr_zone_next_change (zone, change, &next) && next < end; change = next)
    add_change (vtimezone, observances, zone, next, fr_zone_local (zone, next - 1).offset_s);
  return vtimezone;
}

icalproperty *
fr_calendar_zone_time (const FrZoneTable *zone, gint64 utc_s, icalproperty *(*make) (struct icaltimetype))
{
  icalproperty *property = make (wall_time (utc_s + fr_zone_local (zone, utc_s).offset_s));

  icalproperty_add_parameter (property, icalparameter_new_tzid (fr_zone_table_name (zone)));
  return property;
}
