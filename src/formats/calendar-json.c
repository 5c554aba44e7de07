/* The calendar's events, key by key. Texts come as they are: JSON can hold every character. */
#include "formats/calendar-json.h"

#include "formats/calendar-order.h"
#include "formats/json-output.h"

static void
put_text (FrOutput *out, const char *key, const char *text)
{
  if (text != NULL && *text != '\0')
    fr_output_string (out, key, text);
  else
    fr_output_null (out, key);
}

static void
put_date (FrOutput *out, const char *key, FrDate date)
{
  g_autofree char *iso = fr_date_to_iso (date);

  fr_output_string (out, key, iso);
}

static void
put_event (FrOutput *out, const FrCalendarEvent *event)
{
  fr_output_object (out, NULL);
  fr_output_string (out, "uid", event->uid);
  fr_output_boolean (out, "all_day", event->all_day);
  if (event->all_day)
    {
      put_date (out, "first", event->first);
      put_date (out, "last", event->last);
    }
  else
    {
      fr_output_instant (out, "start", event->start_utc);
      fr_output_instant (out, "end", event->end_utc);
    }
  fr_output_instant (out, "changed", event->changed_utc);
  put_text (out, "summary", event->summary);
  put_text (out, "description", event->description);
  put_text (out, "category", event->category);
  put_text (out, "place", event->place);
  if (event->alarm_lead_min >= 0)
    fr_output_number (out, "alarm_lead_min", event->alarm_lead_min);
  else
    fr_output_null (out, "alarm_lead_min");
  fr_output_end_object (out);
}

char *
fr_calendar_to_json (const FrCalendarEvent *events, guint n, const FrZoneTable *zone,
                     const char *calendar_name)
{
  g_autoptr (GPtrArray) order = NULL;
  FrOutput out;

  g_return_val_if_fail (zone != NULL && (events != NULL || n == 0), NULL);
  g_return_val_if_fail (fr_calendar_is_sound (events, n, zone), NULL);

  order = fr_calendar_order (events, n, zone);
  fr_output_init (&out);
  fr_output_object (&out, NULL);
  put_text (&out, "name", calendar_name);
  fr_output_string (&out, "zone", fr_zone_table_name (zone));
  fr_output_array (&out, "events");
  for (guint i = 0; i < n; i++)
    put_event (&out, g_ptr_array_index (order, i));
  fr_output_end_array (&out);
  fr_output_end_object (&out);
  return fr_output_finish (&out);
}
