/* Timed alarms as an iCalendar text (RFC 5545), put together by libical, which escapes, folds and ends lines
 * as the standard says. */
#include "formats/ical.h"

#include "formats/ical-parts.h"

#define EVENT_MIN 5

static icalcomponent *
event_of_alarm (const FrAlarm *alarm, struct icaltimetype stamp)
{
  icalcomponent *event = icalcomponent_new_vevent ();

  fr_ical_add_text (event, icalproperty_new_uid, alarm->uid);
  icalcomponent_add_property (event, icalproperty_new_dtstamp (stamp));
  icalcomponent_add_property (event, icalproperty_new_dtstart (fr_ical_utc (alarm->utc_s)));
  icalcomponent_add_property (event, icalproperty_new_duration (icaldurationtype_from_int (60 * EVENT_MIN)));
  fr_ical_add_text (event, icalproperty_new_summary, alarm->summary);
  fr_ical_add_text (event, icalproperty_new_description, alarm->description);
  fr_ical_add_transparent (event);
  fr_ical_add_ring (event, alarm->summary, alarm->lead_min);
  return event;
}

char *
fr_ical_write (const FrAlarm *alarms, guint n_alarms, gint64 stamp_utc_s)
{
  struct icaltimetype stamp;
  icalcomponent *calendar;

  g_return_val_if_fail (alarms != NULL || n_alarms == 0, NULL);
  g_return_val_if_fail (fr_ical_instant_fits (stamp_utc_s), NULL);
  for (guint i = 0; i < n_alarms; i++)
    {
      const FrAlarm *alarm = &alarms[i];

      g_return_val_if_fail (alarm->uid && *alarm->uid && alarm->summary && *alarm->summary, NULL);
      g_return_val_if_fail (fr_ical_instant_fits (alarm->utc_s), NULL);
      g_return_val_if_fail (alarm->lead_min >= 0 && alarm->lead_min <= FR_ICAL_LEAD_MAX_MIN, NULL);
    }

  stamp = fr_ical_utc (stamp_utc_s);
  calendar = fr_ical_calendar_new ();
  for (guint i = 0; i < n_alarms; i++)
    icalcomponent_add_component (calendar, event_of_alarm (&alarms[i], stamp));
  return fr_ical_finish (calendar);
}
