/* Timed alarms as an iCalendar text (RFC 5545), put together by libical, which escapes, folds and ends lines
 * as the standard says. */
#include "formats/ical.h"

#include <libical/ical.h>

#define EVENT_MIN 5
#define YEAR_1_UTC_S (-62135596800)
#define YEAR_9999_END_UTC_S 253402300799

/* Line ends of any kind become \n; other control characters go, because a TEXT value must not hold them. */
static char *
plain_text (const char *text)
{
  GString *plain = g_string_new (NULL);

  for (const char *p = text; *p; p++)
    {
      if (*p == '\r')
        {
          if (p[1] != '\n')
            g_string_append_c (plain, '\n');
        }
      else if (!g_ascii_iscntrl (*p) || *p == '\n' || *p == '\t')
        g_string_append_c (plain, *p);
    }
  return g_string_free (plain, FALSE);
}

static struct icaltimetype
utc_time (gint64 utc_s)
{
  return icaltime_from_timet_with_zone ((time_t)utc_s, 0, icaltimezone_get_utc_timezone ());
}

static icalcomponent *
event_of_alarm (const FrAlarm *alarm, struct icaltimetype stamp)
{
  g_autofree char *uid = plain_text (alarm->uid);
  g_autofree char *summary = plain_text (alarm->summary);
  struct icaltriggertype trigger = icaltriggertype_from_int (-60 * alarm->lead_min);
  icalcomponent *event = icalcomponent_new_vevent ();
  icalcomponent *ring = icalcomponent_new_valarm ();

  icalcomponent_add_property (event, icalproperty_new_uid (uid));
  icalcomponent_add_property (event, icalproperty_new_dtstamp (stamp));
  icalcomponent_add_property (event, icalproperty_new_dtstart (utc_time (alarm->utc_s)));
  icalcomponent_add_property (event, icalproperty_new_duration (icaldurationtype_from_int (60 * EVENT_MIN)));
  icalcomponent_add_property (event, icalproperty_new_summary (summary));
  if (alarm->description && *alarm->description)
    {
      g_autofree char *description = plain_text (alarm->description);

      icalcomponent_add_property (event, icalproperty_new_description (description));
    }
  /* an alarm is no appointment: it must not show the person as busy */
  icalcomponent_add_property (event, icalproperty_new_transp (ICAL_TRANSP_TRANSPARENT));
  icalcomponent_add_property (ring, icalproperty_new_action (ICAL_ACTION_DISPLAY));
  icalcomponent_add_property (ring, icalproperty_new_trigger (trigger));
  icalcomponent_add_property (ring, icalproperty_new_description (summary));
  icalcomponent_add_component (event, ring);
  return event;
}

char *
fr_ical_write (const FrAlarm *alarms, guint n_alarms, gint64 stamp_utc_s)
{
  struct icaltimetype stamp;
  icalcomponent *calendar;
  char *written, *text;

  g_return_val_if_fail (alarms != NULL || n_alarms == 0, NULL);
  g_return_val_if_fail (stamp_utc_s >= YEAR_1_UTC_S && stamp_utc_s <= YEAR_9999_END_UTC_S, NULL);
  for (guint i = 0; i < n_alarms; i++)
    {
      const FrAlarm *alarm = &alarms[i];

      g_return_val_if_fail (alarm->uid && *alarm->uid && alarm->summary && *alarm->summary, NULL);
      g_return_val_if_fail (alarm->utc_s >= YEAR_1_UTC_S && alarm->utc_s <= YEAR_9999_END_UTC_S, NULL);
      g_return_val_if_fail (alarm->lead_min >= 0 && alarm->lead_min <= G_MAXINT / 60, NULL);
    }

  stamp = utc_time (stamp_utc_s);
  calendar = icalcomponent_new (ICAL_VCALENDAR_COMPONENT);
  icalcomponent_add_property (calendar, icalproperty_new_version ("2.0"));
  icalcomponent_add_property (calendar, icalproperty_new_prodid ("-//Frostrun//Frostrun//EN"));
  for (guint i = 0; i < n_alarms; i++)
    icalcomponent_add_component (calendar, event_of_alarm (&alarms[i], stamp));
  written = icalcomponent_as_ical_string_r (calendar);
  text = g_strdup (written);
  icalmemory_free_buffer (written);
  icalcomponent_free (calendar);
  return text;
}
