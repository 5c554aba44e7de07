/* Writes the calendar of events given as JSON on standard input, for calendar-readers.py: write-calendar
 * ZONE ics|json NAME. */
#include "formats/calendar-file.h"
#include "formats/calendar-json.h"
#include "formats/zone-source.h"

#include <json-glib/json-glib.h>
#include <stdio.h>

static FrDate
read_date (JsonObject *object, const char *key)
{
  FrDate date = { 0, 0, 0 };

  if (json_object_has_member (object, key))
    g_assert_true (fr_date_parse (json_object_get_string_member (object, key), &date));
  return date;
}

static FrCalendarEvent
read_event (JsonObject *object)
{
  const gint64 none = 0;

  return (FrCalendarEvent){
    json_object_get_string_member (object, "uid"),
    json_object_has_member (object, "first"),
    read_date (object, "first"),
    read_date (object, "last"),
    json_object_get_int_member_with_default (object, "start", none),
    json_object_get_int_member_with_default (object, "end", none),
    json_object_get_int_member (object, "changed"),
    json_object_get_string_member (object, "summary"),
    json_object_get_string_member_with_default (object, "description", NULL),
    json_object_get_string_member_with_default (object, "category", NULL),
    json_object_get_string_member_with_default (object, "place", NULL),
    (gint)json_object_get_int_member_with_default (object, "alarm", -1),
  };
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (JsonParser) parser = json_parser_new ();
  g_autoptr (GArray) events = g_array_new (FALSE, FALSE, sizeof (FrCalendarEvent));
  g_autoptr (FrZoneTable) zone = NULL;
  g_autofree char *text = NULL;
  JsonArray *list;
  g_autoptr (GString) read_text = g_string_new (NULL);
  char buffer[4096];
  size_t n_read;

  g_assert_cmpint (argc, ==, 4);
  while ((n_read = fread (buffer, 1, sizeof buffer, stdin)) > 0)
    g_string_append_len (read_text, buffer, (gssize)n_read);
  if (!json_parser_load_from_data (parser, read_text->str, (gssize)read_text->len, &error))
    g_error ("%s", error->message);
  list = json_node_get_array (json_parser_get_root (parser));
  for (guint i = 0; i < json_array_get_length (list); i++)
    {
      FrCalendarEvent event = read_event (json_array_get_object_element (list, i));

      g_array_append_val (events, event);
    }
  zone = fr_zone_table_load (argv[1], 1950, 2100, &error);
  if (zone == NULL)
    g_error ("%s", error->message);
  text = g_str_equal (argv[2], "ics")
             ? fr_calendar_file_write ((FrCalendarEvent *)(void *)events->data, events->len, zone, argv[3])
             : fr_calendar_to_json ((FrCalendarEvent *)(void *)events->data, events->len, zone, argv[3]);
  fputs (text, stdout);
  return 0;
}
