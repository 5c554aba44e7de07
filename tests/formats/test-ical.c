/* Alarms as iCalendar. Checked by reading the text back with libical, and apart from it by RFC 5545's own
 * words: lines end in CR LF and hold at most 75 octets, a continued line begins with a space (3.1); commas,
 * semicolons, backslashes and line ends in TEXT are escaped (3.3.11); UTC times end in Z (3.3.5). */
#include "formats/ical.h"
#include "formats/zone-source.h"

#include <libical/ical.h>
#include <string.h>

#include "ical-lines.h"

#define STAMP 1741460400 /* 2025-03-08 19:00 UTC */

static void
test_exact (void)
{
  const FrAlarm alarm = { "night-7-dry@frostrun", 1741503600, "Bucket dry", "Feed ends", 10 };
  g_autofree char *text = fr_ical_write (&alarm, 1, STAMP);

  check_lines (text);
  g_assert_cmpstr (text, ==,
                   "BEGIN:VCALENDAR\r\n"
                   "VERSION:2.0\r\n"
                   "PRODID:-//Frostrun//Frostrun//EN\r\n"
                   "BEGIN:VEVENT\r\n"
                   "UID:night-7-dry@frostrun\r\n"
                   "DTSTAMP:20250308T190000Z\r\n"
                   "DTSTART:20250309T070000Z\r\n"
                   "DURATION:PT5M\r\n"
                   "SUMMARY:Bucket dry\r\n"
                   "DESCRIPTION:Feed ends\r\n"
                   "TRANSP:TRANSPARENT\r\n"
                   "BEGIN:VALARM\r\n"
                   "ACTION:DISPLAY\r\n"
                   "TRIGGER:-PT10M\r\n"
                   "DESCRIPTION:Bucket dry\r\n"
                   "END:VALARM\r\n"
                   "END:VEVENT\r\n"
                   "END:VCALENDAR\r\n");
}

static void
check_back (const FrAlarm *alarm, icalcomponent *event)
{
  icalcomponent *ring = icalcomponent_get_first_component (event, ICAL_VALARM_COMPONENT);
  icalproperty *trigger, *action;

  g_assert_nonnull (ring);
  g_assert_cmpstr (icalcomponent_get_uid (event), ==, alarm->uid);
  g_assert_cmpstr (icalcomponent_get_summary (event), ==, alarm->summary);
  g_assert_cmpstr (icalcomponent_get_description (event), ==,
                   alarm->description && *alarm->description ? alarm->description : NULL);
  g_assert_cmpint (icaltime_as_timet (icalcomponent_get_dtstart (event)), ==, alarm->utc_s);
  g_assert_true (icaltime_is_utc (icalcomponent_get_dtstart (event)));
  g_assert_cmpint (icaltime_as_timet (icalcomponent_get_dtstamp (event)), ==, STAMP);
  g_assert_cmpint (icaldurationtype_as_int (icalcomponent_get_duration (event)), ==, 300);
  action = icalcomponent_get_first_property (ring, ICAL_ACTION_PROPERTY);
  g_assert_cmpint (icalproperty_get_action (action), ==, ICAL_ACTION_DISPLAY);
  trigger = icalcomponent_get_first_property (ring, ICAL_TRIGGER_PROPERTY);
  g_assert_cmpint (icaldurationtype_as_int (icalproperty_get_trigger (trigger).duration), ==,
                   -60 * alarm->lead_min);
  g_assert_cmpstr (icalcomponent_get_description (ring), ==, alarm->summary);
}

static void
check_round_trip (const FrAlarm *alarms, guint n)
{
  g_autofree char *text = fr_ical_write (alarms, n, STAMP);
  icalcomponent *calendar = icalparser_parse_string (text);
  icalcomponent *event;

  check_lines (text);
  g_assert_nonnull (calendar);
  g_assert_cmpint (icalcomponent_count_errors (calendar), ==, 0);
  g_assert_cmpint (icalcomponent_count_components (calendar, ICAL_VEVENT_COMPONENT), ==, (int)n);
  event = icalcomponent_get_first_component (calendar, ICAL_VEVENT_COMPONENT);
  for (guint i = 0; i < n; i++)
    {
      check_back (&alarms[i], event);
      event = icalcomponent_get_next_component (calendar, ICAL_VEVENT_COMPONENT);
    }
  icalcomponent_free (calendar);
}

static void
test_several (void)
{
  const FrAlarm alarms[] = {
    { "a@frostrun", 1741478400, "Switch on", NULL, 0 },
    { "b@frostrun", 1741503599, "Price changes", "9.8 to 20.3 ¢/kWh", 15 },
    { "c@frostrun", 1741503600, "Off", "", 90 },
  };

  check_round_trip (alarms, G_N_ELEMENTS (alarms));
}

static void
test_special_characters (void)
{
  const FrAlarm alarm = { "x@frostrun", 1741503600, "Pan, bucket; \"lid\" \\ 2,5 l: done",
                          "First line\nsecond; with, marks\n\nÉrable à sucre, 1½ °Bx – 糖\ttab", 0 };
  g_autofree char *text = fr_ical_write (&alarm, 1, STAMP);
  g_autofree char *flat = unfold (text);

  check_round_trip (&alarm, 1);
  g_assert_nonnull (strstr (flat, "Pan\\, bucket\\; "));
  g_assert_nonnull (strstr (flat, " \\\\ 2\\,5 l"));
  g_assert_nonnull (strstr (flat, "First line\\nsecond\\; with\\, marks\\n\\nÉrable"));
}

/* Long texts of one to four octets a character, begun at every phase, so that a fold meets each place in a
 * character. */
static void
test_folding (void)
{
  static const char *const letters[] = { "a", "é", "糖", "🍁", "," };

  for (guint kind = 0; kind < G_N_ELEMENTS (letters); kind++)
    for (guint lead = 0; lead < 8; lead++)
      {
        g_autoptr (GString) long_text = g_string_new (NULL);
        FrAlarm alarm = { "fold@frostrun", 1741503600, NULL, NULL, 5 };

        for (guint i = 0; i < lead; i++)
          g_string_append_c (long_text, 'x');
        for (guint i = 0; i < 150; i++)
          g_string_append (long_text, letters[kind]);
        alarm.summary = long_text->str;
        alarm.description = long_text->str;
        check_round_trip (&alarm, 1);
      }
}

static void
test_line_ends_and_controls (void)
{
  /* after "three" DEL and U+2028, after "four" U+0085, after "five" U+009F */
  const FrAlarm alarm = { "x@frostrun", 1741503600, "a\001b",
                          "one\r\ntwo\rthree\x7f\u2028four\xc2\x85" "five\xc2\x9f", 0 };
  g_autofree char *text = fr_ical_write (&alarm, 1, STAMP);

  check_lines (text);
  g_assert_nonnull (strstr (text, "SUMMARY:ab\r\n"));
  g_assert_nonnull (strstr (text, "DESCRIPTION:one\\ntwo\\nthree\\nfour\\nfive\r\n"));
}

/* No line of a summary can end the event and begin another. */
static void
test_no_way_out (void)
{
  const FrAlarm alarm = { "x@frostrun", 1741503600, "a\r\nEND:VEVENT\r\nBEGIN:VEVENT", "b\nATTACH:file", 0 };
  g_autofree char *text = fr_ical_write (&alarm, 1, STAMP);
  icalcomponent *calendar = icalparser_parse_string (text);

  g_assert_cmpint (icalcomponent_count_components (calendar, ICAL_VEVENT_COMPONENT), ==, 1);
  g_assert_null (strstr (text, "\nATTACH"));
  icalcomponent_free (calendar);
}

/* On in the evening of 2025-03-08 at 23:00, off at 07:00 in Toronto: seven hours apart, for the clocks go
 * forward (IANA time zone database); written as 04:00 and 11:00 UTC. */
static void
test_night_over_change (void)
{
  g_autoptr (FrZoneTable) table = fr_zone_table_load ("America/Toronto", 2025, 2025, NULL);
  FrAlarm alarms[] = { { "on@frostrun", 0, "On", NULL, 0 }, { "off@frostrun", 0, "Off", NULL, 0 } };
  g_autofree char *text = NULL;
  gint64 other;

  fr_zone_instant (table, (FrDate){ 2025, 3, 8 }, 23 * 3600, &alarms[0].utc_s, &other);
  fr_zone_instant (table, (FrDate){ 2025, 3, 9 }, 7 * 3600, &alarms[1].utc_s, &other);
  check_round_trip (alarms, 2);
  text = fr_ical_write (alarms, 2, STAMP);
  g_assert_nonnull (strstr (text, "DTSTART:20250309T040000Z\r\n"));
  g_assert_nonnull (strstr (text, "DTSTART:20250309T110000Z\r\n"));
}

static void
test_none (void)
{
  g_autofree char *text = fr_ical_write (NULL, 0, STAMP);

  check_lines (text);
  g_assert_null (strstr (text, "VEVENT"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ical/exact", test_exact);
  g_test_add_func ("/ical/several", test_several);
  g_test_add_func ("/ical/special-characters", test_special_characters);
  g_test_add_func ("/ical/folding", test_folding);
  g_test_add_func ("/ical/line-ends-and-controls", test_line_ends_and_controls);
  g_test_add_func ("/ical/no-way-out", test_no_way_out);
  g_test_add_func ("/ical/night-over-change", test_night_over_change);
  g_test_add_func ("/ical/none", test_none);
  return g_test_run ();
}
