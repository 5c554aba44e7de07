/* Parts of iCalendar texts. TEXT values may hold no control characters but tab and line end (RFC
 * 5545, 3.3.11), and libical writes no year over 3000 (it makes zeros of them). */
#include "formats/ical-parts.h"

#define FIRST_UTC_S (-62135596800) /* 0001-01-01 */
#define LAST_UTC_S 32535215999     /* 3000-12-31 */

gboolean
fr_ical_instant_fits (gint64 utc_s)
{
  return utc_s >= FIRST_UTC_S && utc_s <= LAST_UTC_S;
}

struct icaltimetype
fr_ical_utc (gint64 utc_s)
{
  return icaltime_from_timet_with_zone ((time_t)utc_s, 0, icaltimezone_get_utc_timezone ());
}

static gboolean
is_line_end (gunichar c)
{
  return c == '\n' || c == '\r' || c == 0x85 || c == 0x2028 || c == 0x2029;
}

char *
fr_ical_plain_text (const char *text)
{
  GString *plain = g_string_new (NULL);

  for (const char *p = text; *p != '\0'; p = g_utf8_next_char (p))
    {
      const gunichar c = g_utf8_get_char (p);

      if (is_line_end (c))
        {
          if (c != '\r' || p[1] != '\n')
            g_string_append_c (plain, '\n');
        }
      else if (!g_unichar_iscntrl (c) || c == '\t')
        g_string_append_unichar (plain, c);
    }
  return g_string_free (plain, FALSE);
}

icalcomponent *
fr_ical_calendar_new (void)
{
  icalcomponent *calendar = icalcomponent_new (ICAL_VCALENDAR_COMPONENT);

  icalcomponent_add_property (calendar, icalproperty_new_version ("2.0"));
  icalcomponent_add_property (calendar, icalproperty_new_prodid (FR_ICAL_PRODID));
  return calendar;
}

void
fr_ical_add_text (icalcomponent *component, icalproperty *(*make) (const char *), const char *text)
{
  g_autofree char *plain = text != NULL ? fr_ical_plain_text (text) : NULL;

  if (plain != NULL && *plain != '\0')
    icalcomponent_add_property (component, make (plain));
}

void
fr_ical_add_transparent (icalcomponent *event)
{
  icalcomponent_add_property (event, icalproperty_new_transp (ICAL_TRANSP_TRANSPARENT));
}

void
fr_ical_add_ring (icalcomponent *event, const char *summary, gint lead_min)
{
  icalcomponent *ring = icalcomponent_new_valarm ();

  icalcomponent_add_property (ring, icalproperty_new_action (ICAL_ACTION_DISPLAY));
  icalcomponent_add_property (ring, icalproperty_new_trigger (icaltriggertype_from_int (-60 * lead_min)));
  fr_ical_add_text (ring, icalproperty_new_description, summary);
  icalcomponent_add_component (event, ring);
}

char *
fr_ical_finish (icalcomponent *calendar)
{
  char *written = icalcomponent_as_ical_string_r (calendar);
  char *text = g_strdup (written);

  icalmemory_free_buffer (written);
  icalcomponent_free (calendar);
  return text;
}
