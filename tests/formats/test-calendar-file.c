/* The calendar file read back with libical, which takes the zone's rules from the file itself, and held
 * against RFC 5545's own words by a text written by hand. Zones come from the machine's IANA database; what
 * they should be is checked in test-zone-source, and by other readers in calendar-readers.py. */
#include "formats/calendar-file.h"
#include "formats/calendar-json.h"
#include "formats/zone-source.h"

#include <libical/ical.h>
#include <string.h>

#include "ical-lines.h"

#define CHANGED 1772000000 /* 2026-02-25 06:13:20 UTC */

/* 2026-03-08 at 01:30 EST to 03:30 EDT is one hour: the clocks go from 02:00 to 03:00. */
static const FrCalendarEvent sample[] = {
  { "boil-1@example",
    FALSE,
    { 0 },
    { 0 },
    1772951400,
    1772955000,
    CHANGED,
    "Boil, 20 L",
    "Pan; \\ lid\nopen",
    "Boil",
    "Shed",
    15 },
  { "leap@example", TRUE, { 2028, 2, 29 }, { 2028, 2, 29 }, 0, 0, CHANGED, "Taps set", NULL, NULL, NULL, -1 },
};

static const char sample_text[] = "BEGIN:VCALENDAR\r\n"
                                  "VERSION:2.0\r\n"
                                  "PRODID:-//Frostrun//Frostrun//EN\r\n"
                                  "NAME:Sugarbush\\, 2026\r\n"
                                  "BEGIN:VTIMEZONE\r\n"
                                  "TZID:America/Toronto\r\n"
                                  "BEGIN:STANDARD\r\n"
                                  "DTSTART:20251102T020000\r\n"
                                  "TZOFFSETFROM:-0400\r\n"
                                  "TZOFFSETTO:-0500\r\n"
                                  "TZNAME:EST\r\n"
                                  "RDATE:20251102T020000\r\n"
                                  "RDATE:20261101T020000\r\n"
                                  "END:STANDARD\r\n"
                                  "BEGIN:DAYLIGHT\r\n"
                                  "DTSTART:20260308T020000\r\n"
                                  "TZOFFSETFROM:-0500\r\n"
                                  "TZOFFSETTO:-0400\r\n"
                                  "TZNAME:EDT\r\n"
                                  "RDATE:20260308T020000\r\n"
                                  "END:DAYLIGHT\r\n"
                                  "END:VTIMEZONE\r\n"
                                  "BEGIN:VEVENT\r\n"
                                  "UID:boil-1@example\r\n"
                                  "DTSTAMP:20260225T061320Z\r\n"
                                  "LAST-MODIFIED:20260225T061320Z\r\n"
                                  "DTSTART;TZID=America/Toronto:20260308T013000\r\n"
                                  "DTEND;TZID=America/Toronto:20260308T033000\r\n"
                                  "SUMMARY:Boil\\, 20 L\r\n"
                                  "DESCRIPTION:Pan\\; \\\\ lid\\nopen\r\n"
                                  "CATEGORIES:Boil\r\n"
                                  "LOCATION:Shed\r\n"
                                  "TRANSP:TRANSPARENT\r\n"
                                  "BEGIN:VALARM\r\n"
                                  "ACTION:DISPLAY\r\n"
                                  "TRIGGER:-PT15M\r\n"
                                  "DESCRIPTION:Boil\\, 20 L\r\n"
                                  "END:VALARM\r\n"
                                  "END:VEVENT\r\n"
                                  "BEGIN:VEVENT\r\n"
                                  "UID:leap@example\r\n"
                                  "DTSTAMP:20260225T061320Z\r\n"
                                  "LAST-MODIFIED:20260225T061320Z\r\n"
                                  "DTSTART;VALUE=DATE:20280229\r\n"
                                  "DTEND;VALUE=DATE:20280301\r\n"
                                  "SUMMARY:Taps set\r\n"
                                  "TRANSP:TRANSPARENT\r\n"
                                  "END:VEVENT\r\n"
                                  "END:VCALENDAR\r\n";

static FrZoneTable *
load (const char *name)
{
  g_autoptr (GError) error = NULL;
  FrZoneTable *zone = fr_zone_table_load (name, 2010, 2040, &error);

  g_assert_no_error (error);
  return zone;
}

static void
test_exact (void)
{
  g_autoptr (FrZoneTable) zone = load ("America/Toronto");
  const FrCalendarEvent turned[] = { sample[1], sample[0] };
  g_autofree char *text = fr_calendar_file_write (sample, 2, zone, "Sugarbush, 2026");
  g_autofree char *again = fr_calendar_file_write (turned, 2, zone, "Sugarbush, 2026");

  g_assert_cmpstr (text, ==, sample_text);
  g_assert_cmpstr (again, ==, sample_text);
}

static icalcomponent *
parse (const char *text)
{
  icalcomponent *calendar = icalparser_parse_string (text);

  check_lines (text);
  g_assert_nonnull (calendar);
  g_assert_cmpint (icalcomponent_count_errors (calendar), ==, 0);
  g_assert_cmpint (icalrestriction_check (calendar), ==, 1);
  g_assert_cmpint (icalcomponent_count_errors (calendar), ==, 0);
  return calendar;
}

static gint64
instant_of (struct icaltimetype time)
{
  g_assert_true (icaltime_is_utc (time) || time.zone != NULL);
  return icaltime_as_timet_with_zone (time, time.zone);
}

/* Every quarter of an hour from three hours before a change to three after, each event for two hours. */
static void
add_around (GArray *events, GPtrArray *uids, gint64 change)
{
  for (gint64 at = change - 10800; at <= change + 10800; at += 900)
    {
      FrCalendarEvent event
          = { .start_utc = at, .end_utc = at + 7200, .changed_utc = at, .summary = "Round" };
      char *uid = g_strdup_printf ("%" G_GINT64_FORMAT "@example", at);

      event.uid = uid;
      event.alarm_lead_min = -1;
      g_ptr_array_add (uids, uid);
      g_array_append_val (events, event);
    }
}

static void
test_zone (gconstpointer name)
{
  g_autoptr (FrZoneTable) zone = load (name);
  g_autoptr (GArray) events = g_array_new (FALSE, TRUE, sizeof (FrCalendarEvent));
  g_autoptr (GPtrArray) uids = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *text = NULL;
  icalcomponent *calendar, *back;
  gint64 change = 1300000000; /* 2011-03-13 */

  add_around (events, uids, 1298937600);                                     /* 2011-03-01 00:00 UTC */
  while (fr_zone_next_change (zone, change, &change) && change < 1900000000) /* 2030-03-17 */
    add_around (events, uids, change);
  add_around (events, uids, 1835438400); /* 2028-02-29 12:00 UTC */
  text = fr_calendar_file_write ((FrCalendarEvent *)(void *)events->data, events->len, zone, NULL);
  calendar = parse (text);
  g_assert_cmpint (icalcomponent_count_components (calendar, ICAL_VEVENT_COMPONENT), ==, (int)events->len);
  for (back = icalcomponent_get_first_component (calendar, ICAL_VEVENT_COMPONENT); back != NULL;
       back = icalcomponent_get_next_component (calendar, ICAL_VEVENT_COMPONENT))
    {
      gint64 wanted = g_ascii_strtoll (icalcomponent_get_uid (back), NULL, 10);

      g_assert_cmpint (instant_of (icalcomponent_get_dtstart (back)), ==, wanted);
      g_assert_cmpint (instant_of (icalcomponent_get_dtend (back)), ==, wanted + 7200);
      g_assert_cmpint (instant_of (icalcomponent_get_dtstamp (back)), ==, wanted);
    }
  icalcomponent_free (calendar);
}

static char *
write_one (const FrCalendarEvent *event, const char *zone_name)
{
  g_autoptr (FrZoneTable) zone = load (zone_name);
  char *text = fr_calendar_file_write (event, 1, zone, NULL);

  icalcomponent_free (parse (text));
  return text;
}

static FrCalendarEvent
timed (gint64 start_utc, gint64 end_utc)
{
  return (FrCalendarEvent){ "t@example", FALSE,  { 0 }, { 0 }, start_utc, end_utc,
                            CHANGED,     "Boil", NULL,  NULL,  NULL,      -1 };
}

static void
check_times (FrCalendarEvent event, const char *zone, const char *start, const char *end)
{
  g_autofree char *text = write_one (&event, zone);
  g_autofree char *both = g_strdup_printf ("\r\nDTSTART%s\r\nDTEND%s\r\nSUMMARY", start, end);

  if (strstr (text, both) == NULL)
    g_error ("no %s in %s", both, text);
}

/* In Toronto 2026-11-01 01:00 to 02:00 happens twice, from 05:00 and from 06:00 UTC. RFC 5545, 3.3.5: such a
 * local time is the first. What touches it is in UTC, what does not is not. */
static void
test_repeated_hour (void)
{
  const char *zone = "America/Toronto";
  const gint64 hour_5 = 1793509200; /* 2026-11-01 05:00 UTC */

  check_times (timed (hour_5 + 1800, hour_5 + 2700), zone, ":20261101T053000Z", ":20261101T054500Z");
  check_times (timed (hour_5 + 5400, hour_5 + 6300), zone, ":20261101T063000Z", ":20261101T064500Z");
  check_times (timed (hour_5 - 1800, hour_5 + 1800), zone, ":20261101T043000Z", ":20261101T053000Z");
  check_times (timed (hour_5 + 5400, hour_5 + 9000), zone, ":20261101T063000Z", ":20261101T073000Z");
  check_times (timed (hour_5 - 1800, hour_5 - 1), zone, ";TZID=America/Toronto:20261101T003000",
               ";TZID=America/Toronto:20261101T005959");
  check_times (timed (hour_5 - 1800, hour_5 + 7200), zone, ";TZID=America/Toronto:20261101T003000",
               ";TZID=America/Toronto:20261101T020000");
  /* 01:30 to 02:00 on 2026-04-05 twice, from 14:30 UTC of the 4th */
  check_times (timed (1775312999, 1775313000), "Australia/Lord_Howe", ":20260404T142959Z",
               ":20260404T143000Z");
  check_times (timed (1775311199, 1775311200), "Australia/Lord_Howe",
               ";TZID=Australia/Lord_Howe:20260405T005959", ";TZID=Australia/Lord_Howe:20260405T010000");
}

static void
test_leap_day (void)
{
  FrCalendarEvent days
      = { "d@example", TRUE, { 2028, 2, 28 }, { 2028, 3, 1 }, 0, 0, CHANGED, "Run", NULL, NULL, NULL, -1 };

  check_times (days, "Europe/Paris", ";VALUE=DATE:20280228", ";VALUE=DATE:20280302");
  days.last = (FrDate){ 2028, 2, 28 };
  check_times (days, "Europe/Paris", ";VALUE=DATE:20280228", ";VALUE=DATE:20280229");
  days.first = days.last = (FrDate){ 2027, 2, 28 };
  check_times (days, "Europe/Paris", ";VALUE=DATE:20270228", ";VALUE=DATE:20270301");
  days.first = days.last = (FrDate){ 2100, 2, 28 }; /* no leap year */
  check_times (days, "Europe/Paris", ";VALUE=DATE:21000228", ";VALUE=DATE:21000301");
  /* 2028-02-28 23:30 to the 29th 00:30 in Paris, UTC + 1 */
  check_times (timed (1835389800, 1835393400), "Europe/Paris", ";TZID=Europe/Paris:20280228T233000",
               ";TZID=Europe/Paris:20280229T003000");
}

static void
test_zones_as_written (void)
{
  const FrCalendarEvent event = timed (1772951400, 1772955000); /* 2026-03-08 06:30 UTC */
  g_autofree char *kolkata = write_one (&event, "Asia/Kolkata");
  g_autofree char *lord_howe = write_one (&event, "Australia/Lord_Howe");
  g_autofree char *utc = write_one (&event, "UTC");

  g_assert_nonnull (strstr (kolkata, "BEGIN:STANDARD\r\n"
                                     "DTSTART:20260101T000000\r\n"
                                     "TZOFFSETFROM:+0530\r\n"
                                     "TZOFFSETTO:+0530\r\n"
                                     "TZNAME:IST\r\n"
                                     "RDATE:20260101T000000\r\n"
                                     "END:STANDARD\r\n"
                                     "END:VTIMEZONE\r\n"));
  g_assert_nonnull (strstr (lord_howe, "DTSTART:20260405T020000\r\n"
                                       "TZOFFSETFROM:+1100\r\n"
                                       "TZOFFSETTO:+1030\r\n"));
  g_assert_null (strstr (utc, "VTIMEZONE"));
  g_assert_nonnull (strstr (utc, "DTSTART:20260308T063000Z\r\n"));
}

/* 3.6.1: without DTEND an event of a DATE-TIME ends when it begins; a DTEND must be later. */
static void
test_moment (void)
{
  const FrCalendarEvent event = timed (1772951400, 1772951400);
  g_autofree char *text = write_one (&event, "America/Toronto");

  g_assert_nonnull (strstr (text, "DTSTART;TZID=America/Toronto:20260308T013000\r\n"));
  g_assert_null (strstr (text, "DTEND"));
}

/* Characters of one to four octets, begun at every phase, so that a fold meets each place in a character. */
static void
test_folding (void)
{
  static const char *const letters[] = { "a", "é", "糖", "🍁", "\\" };
  g_autoptr (FrZoneTable) zone = load ("America/Toronto");

  for (guint kind = 0; kind < G_N_ELEMENTS (letters); kind++)
    for (guint lead = 0; lead < 8; lead++)
      {
        g_autoptr (GString) line = g_string_new (NULL);
        g_autofree char *text = NULL;
        FrCalendarEvent event = timed (1772951400, 1772955000);
        icalcomponent *calendar, *back;
        icalproperty *category;

        for (guint i = 0; i < lead; i++)
          g_string_append_c (line, 'x');
        for (guint i = 0; i < 150; i++)
          g_string_append (line, letters[kind]);
        event.uid = event.summary = event.description = event.category = event.place = line->str;
        text = fr_calendar_file_write (&event, 1, zone, line->str);
        calendar = parse (text);
        back = icalcomponent_get_first_component (calendar, ICAL_VEVENT_COMPONENT);
        category = icalcomponent_get_first_property (back, ICAL_CATEGORIES_PROPERTY);
        g_assert_cmpstr (icalcomponent_get_uid (back), ==, line->str);
        g_assert_cmpstr (icalcomponent_get_summary (back), ==, line->str);
        g_assert_cmpstr (icalcomponent_get_description (back), ==, line->str);
        g_assert_cmpstr (icalcomponent_get_location (back), ==, line->str);
        g_assert_cmpstr (icalproperty_get_categories (category), ==, line->str);
        icalcomponent_free (calendar);
      }
}

/* Nothing a person can write ends the event, begins another or adds a line of its own. */
static void
test_no_way_out (void)
{
  const char *evil = "a\r\nEND:VEVENT\r\nBEGIN:VEVENT\nATTACH:file\xe2\x80\xa8RRULE:FREQ=DAILY\rX:\001\x7f,b";
  FrCalendarEvent event
      = { evil, FALSE, { 0 }, { 0 }, 1772951400, 1772955000, CHANGED, evil, evil, evil, evil, 0 };
  g_autoptr (FrZoneTable) zone = load ("America/Toronto");
  g_autofree char *text = fr_calendar_file_write (&event, 1, zone, evil);
  g_autofree char *flat = unfold (text);
  icalcomponent *calendar = parse (text);
  icalcomponent *back = icalcomponent_get_first_component (calendar, ICAL_VEVENT_COMPONENT);

  g_assert_cmpint (icalcomponent_count_components (calendar, ICAL_ANY_COMPONENT), ==, 2);
  g_assert_cmpstr (icalcomponent_get_summary (back), ==,
                   "a\nEND:VEVENT\nBEGIN:VEVENT\nATTACH:file\nRRULE:FREQ=DAILY\nX:,b");
  g_assert_nonnull (strstr (flat, "\r\nCATEGORIES:a\\nEND:VEVENT\\nBEGIN:VEVENT\\nATTACH:file"
                                  "\\nRRULE:FREQ=DAILY\\nX:/b\r\n"));
  g_assert_null (strstr (flat, "\nATTACH"));
  g_assert_null (strstr (flat, "\nRRULE"));
  icalcomponent_free (calendar);
}

/* A backslash and an n are two characters, not a line end (3.3.11). */
static void
test_backslash (void)
{
  g_autoptr (FrZoneTable) zone = load ("America/Toronto");
  FrCalendarEvent event = timed (1772951400, 1772955000);
  g_autofree char *text = NULL;
  icalcomponent *calendar;

  event.summary = "C:\\notes\n\\,\\;\\\\n";
  text = fr_calendar_file_write (&event, 1, zone, NULL);
  g_assert_nonnull (strstr (text, "\r\nSUMMARY:C:\\\\notes\\n\\\\\\,\\\\\\;\\\\\\\\n\r\n"));
  calendar = parse (text);
  g_assert_cmpstr (
      icalcomponent_get_summary (icalcomponent_get_first_component (calendar, ICAL_VEVENT_COMPONENT)), ==,
      event.summary);
  icalcomponent_free (calendar);
}

static void
test_long (void)
{
  g_autofree char *description = g_strnfill (100000, 'a');
  g_autoptr (FrZoneTable) zone = load ("America/Toronto");
  FrCalendarEvent event = timed (1772951400, 1772955000);
  g_autofree char *text = NULL;
  icalcomponent *calendar;

  event.description = description;
  text = fr_calendar_file_write (&event, 1, zone, NULL);
  calendar = parse (text);
  g_assert_cmpstr (
      icalcomponent_get_description (icalcomponent_get_first_component (calendar, ICAL_VEVENT_COMPONENT)), ==,
      description);
  icalcomponent_free (calendar);
}

/* First by local day, whole days first, then by time, then by uid. */
static void
test_order (void)
{
  static const char *const wanted[] = { "late", "day", "z", "a", "b", "next" };
  g_autoptr (FrZoneTable) zone = load ("America/Toronto");
  FrCalendarEvent events[6];
  g_autofree char *text = NULL;
  icalcomponent *calendar, *back;
  guint n = 0;

  events[0] = timed (1772985600, 1772989200); /* 2026-03-08 16:00 UTC */
  events[0].uid = "b";
  events[1] = events[0];
  events[1].uid = "a";
  events[2] = timed (1772942400, 1772942400); /* 2026-03-08 04:00 UTC is the 7th in Toronto */
  events[2].uid = "late";
  events[3] = (FrCalendarEvent){ "day",   TRUE,  { 2026, 3, 8 }, { 2026, 3, 9 }, 0,    0,
                                 CHANGED, "Run", NULL,           NULL,           NULL, -1 };
  events[4] = events[3];
  events[4].uid = "next";
  events[4].first = (FrDate){ 2026, 3, 9 };
  events[5] = events[0];
  events[5].uid = "z";
  events[5].start_utc--;
  text = fr_calendar_file_write (events, 6, zone, NULL);
  calendar = parse (text);
  for (back = icalcomponent_get_first_component (calendar, ICAL_VEVENT_COMPONENT); back != NULL;
       back = icalcomponent_get_next_component (calendar, ICAL_VEVENT_COMPONENT))
    g_assert_cmpstr (icalcomponent_get_uid (back), ==, wanted[n++]);
  g_assert_cmpuint (n, ==, 6);
  icalcomponent_free (calendar);
}

/* A correction of one event touches no line of the others, and keeps its UID. */
static void
test_correction (void)
{
  g_autoptr (FrZoneTable) zone = load ("America/Toronto");
  FrCalendarEvent corrected[] = { sample[0], sample[1] };
  g_autofree char *text = NULL;
  g_autofree char *wanted = NULL;
  g_auto (GStrv) parts = g_strsplit (sample_text, "BEGIN:VEVENT\r\n", 3);

  corrected[1].summary = "Taps set, 26";
  corrected[1].changed_utc = CHANGED + 1;
  text = fr_calendar_file_write (corrected, 2, zone, "Sugarbush, 2026");
  wanted = g_strconcat (parts[0], "BEGIN:VEVENT\r\n", parts[1],
                        "BEGIN:VEVENT\r\n"
                        "UID:leap@example\r\n"
                        "DTSTAMP:20260225T061321Z\r\n"
                        "LAST-MODIFIED:20260225T061321Z\r\n"
                        "DTSTART;VALUE=DATE:20280229\r\n"
                        "DTEND;VALUE=DATE:20280301\r\n"
                        "SUMMARY:Taps set\\, 26\r\n"
                        "TRANSP:TRANSPARENT\r\n"
                        "END:VEVENT\r\n"
                        "END:VCALENDAR\r\n",
                        NULL);
  g_assert_cmpstr (text, ==, wanted);
}

static void
test_ends_of_range (void)
{
  FrCalendarEvent day = { "d",  TRUE, { 1, 1, 1 }, { 3000, 12, 30 }, 0, 0, -62135596800, "All",
                          NULL, NULL, NULL,        G_MAXINT / 60 };

  check_times (day, "Europe/Paris", ";VALUE=DATE:00010101", ";VALUE=DATE:30001231");
  check_times (timed (-62135596800, 32535215999), "UTC", ":00010101T000000Z", ":30001231T235959Z");
  check_times (timed (-62135510400, 32535129600), "Asia/Kolkata", ";TZID=Asia/Kolkata:00010102T053000",
               ";TZID=Asia/Kolkata:30001231T053000");
}

static void
check_refused (const FrCalendarEvent *events, guint n)
{
  g_autoptr (FrZoneTable) zone = load ("America/Toronto");

  g_test_expect_message (NULL, G_LOG_LEVEL_CRITICAL, "*fr_calendar_is_sound*");
  g_assert_null (fr_calendar_file_write (events, n, zone, NULL));
  g_test_assert_expected_messages ();
  g_test_expect_message (NULL, G_LOG_LEVEL_CRITICAL, "*fr_calendar_is_sound*");
  g_assert_null (fr_calendar_to_json (events, n, zone, NULL));
  g_test_assert_expected_messages ();
}

/* What the caller must not hand in. */
static void
test_refused (void)
{
  static const FrDate days[][2] = { { { 0, 0, 0 }, { 0, 0, 0 } },
                                    { { 2027, 2, 28 }, { 0, 0, 0 } },
                                    { { 2027, 2, 28 }, { 2027, 2, 29 } },
                                    { { 2027, 2, 28 }, { 2027, 2, 27 } },
                                    { { 2027, 2, 28 }, { 3000, 12, 31 } } };
  const FrCalendarEvent good = timed (1772951400, 1772955000);
  const FrCalendarEvent twins[] = { good, good };
  FrCalendarEvent bad[14];
  guint n = 0;

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    bad[i] = good;
  bad[n++].uid = NULL;
  bad[n++].uid = "\001\x7f";
  bad[n++].summary = NULL;
  bad[n++].summary = "";
  bad[n++].summary = "a\xff";
  bad[n++].description = "\xc3";
  bad[n++].category = "\xed\xa0\x80";
  bad[n++].place = "\xf8";
  bad[n++].end_utc = good.start_utc - 1;
  bad[n++].end_utc = 32535216000;    /* year 3001 */
  bad[n++].start_utc = -62135596800; /* in Toronto the year before year 1 */
  bad[n++].changed_utc = G_MININT64;
  bad[n++].alarm_lead_min = -2;
  bad[n++].alarm_lead_min = G_MAXINT / 60 + 1;
  for (guint i = 0; i < n; i++)
    check_refused (&bad[i], 1);
  for (guint i = 0; i < G_N_ELEMENTS (days); i++)
    {
      bad[0] = (FrCalendarEvent){ "d",     TRUE,  days[i][0], days[i][1], 0,    0,
                                  CHANGED, "Run", NULL,       NULL,       NULL, -1 };
      check_refused (bad, 1);
    }
  check_refused (twins, 2);
}

static void
test_none (void)
{
  g_autoptr (FrZoneTable) zone = load ("America/Toronto");
  g_autofree char *text = fr_calendar_file_write (NULL, 0, zone, NULL);
  g_autofree char *json = fr_calendar_to_json (NULL, 0, zone, NULL);

  g_assert_cmpstr (text, ==,
                   "BEGIN:VCALENDAR\r\n"
                   "VERSION:2.0\r\n"
                   "PRODID:-//Frostrun//Frostrun//EN\r\n"
                   "END:VCALENDAR\r\n");
  g_assert_cmpstr (json, ==, "{\n  \"name\": null,\n  \"zone\": \"America/Toronto\",\n  \"events\": []\n}\n");
}

int
main (int argc, char **argv)
{
  static const char *const zones[]
      = { "America/Toronto", "Europe/Paris",      "Australia/Lord_Howe", "Asia/Kolkata", "America/St_Johns",
          "Pacific/Apia",    "Africa/Casablanca", "Europe/Dublin",       "Etc/UTC",      "UTC" };

  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/calendar-file/exact", test_exact);
  for (guint i = 0; i < G_N_ELEMENTS (zones); i++)
    {
      g_autofree char *name = g_strconcat ("/calendar-file/read-back/", zones[i], NULL);

      g_test_add_data_func (name, zones[i], test_zone);
    }
  g_test_add_func ("/calendar-file/repeated-hour", test_repeated_hour);
  g_test_add_func ("/calendar-file/leap-day", test_leap_day);
  g_test_add_func ("/calendar-file/zones-as-written", test_zones_as_written);
  g_test_add_func ("/calendar-file/moment", test_moment);
  g_test_add_func ("/calendar-file/folding", test_folding);
  g_test_add_func ("/calendar-file/no-way-out", test_no_way_out);
  g_test_add_func ("/calendar-file/backslash", test_backslash);
  g_test_add_func ("/calendar-file/long", test_long);
  g_test_add_func ("/calendar-file/order", test_order);
  g_test_add_func ("/calendar-file/correction", test_correction);
  g_test_add_func ("/calendar-file/ends-of-range", test_ends_of_range);
  g_test_add_func ("/calendar-file/refused", test_refused);
  g_test_add_func ("/calendar-file/none", test_none);
  return g_test_run ();
}
