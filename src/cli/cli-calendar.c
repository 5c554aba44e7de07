/* frostrun-cli calendar: a season's events for other calendars, the same as the file that the window keeps up to date. */
#include "cli/cli-season.h"

#include "cli/cli-read.h"
#include "cli/cli-trees.h"
#include "domain/plan/bush.h"
#include "formats/calendar-file.h"
#include "formats/calendar-json.h"
#include "words/calendar-words.h"

#include <string.h>

static char *book_path, *format_text, *from_text, *to_text, *output_path, *now_text;

const GOptionEntry fr_calendar_entries[]
    = { { "book", 0, 0, G_OPTION_ARG_FILENAME, &book_path, "The book; without it your own", "FILE" },
        { "format", 0, 0, G_OPTION_ARG_STRING, &format_text, "ics or json", "KIND" },
        { "from", 0, 0, G_OPTION_ARG_STRING, &from_text, "The first day; without it this season's", "2026-02-15" },
        { "to", 0, 0, G_OPTION_ARG_STRING, &to_text, "The last day; without it this season's", "2026-04-30" },
        { "output", 'o', 0, G_OPTION_ARG_FILENAME, &output_path, "Where to; without it standard output", "FILE" },
        { "now", 0, 0, G_OPTION_ARG_STRING, &now_text, "As if it were then, local time", "2026-03-11T16:00" },
        { NULL } };

static gboolean
date_option (const char *option, const char *text, FrDate *date_out, GError **error)
{
  if (text == NULL)
    return TRUE;
  if (!fr_date_parse (text, date_out))
    return fr_cli_wrong (error, "%s “%s” is no day; write 2026-03-11", option, text);
  return TRUE;
}

static gboolean
is_within (const FrCalendarEvent *event, const FrZoneTable *zone, FrDate from, FrDate to)
{
  const FrDate first = event->all_day ? event->first : fr_zone_local (zone, event->start_utc).date;
  const FrDate last = event->all_day ? event->last : fr_zone_local (zone, event->end_utc).date;

  return fr_date_compare (last, from) >= 0 && fr_date_compare (first, to) <= 0;
}

/* All events of the days asked for; @words, (element-type FrCalendarWords), owns their texts. */
static GArray *
gather_events (const FrCliSeason *season, const gint64 *changed_utc, FrDate from, FrDate to, GPtrArray *words)
{
  const FrSeasonBook *book = &season->evening.book;
  GArray *events = g_array_new (FALSE, FALSE, sizeof (FrCalendarEvent));

  for (guint year = fr_season_of (from); year <= fr_season_of (to); year++)
    {
      g_autoptr (FrSeasonView) view = fr_season_view_new (book, year, season->now_utc);
      g_autoptr (FrSeasonEvents) of_season = fr_season_events_new (book, view, changed_utc);
      FrCalendarWords *said = fr_calendar_words_new (of_season, book, &season->evening.say);

      g_ptr_array_add (words, said);
      for (guint i = 0; i < said->n; i++)
        if (is_within (&said->events[i], book->zone, from, to))
          g_array_append_val (events, said->events[i]);
    }
  return events;
}

static gboolean
last_changes (gint64 *changed_utc, GError **error)
{
  g_autoptr (FrStore) store = fr_cli_open_book (book_path, error);
  gint64 row = 0;

  for (guint kind = 0; kind < FR_N_KINDS; kind++)
    changed_utc[kind] = G_MININT64;
  return store != NULL && fr_store_last_changes (store, &row, changed_utc, error);
}

static gboolean
bring_out (const FrCliSeason *season, gboolean as_json, FrDate from, FrDate to, GString *answer, GError **error)
{
  gint64 changed_utc[FR_N_KINDS];
  g_autoptr (GPtrArray) words = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_calendar_words_free);
  g_autoptr (GArray) events = NULL;
  g_autofree char *text = NULL;
  const char *name = season->evening.book.household->name;

  if (!last_changes (changed_utc, error))
    return FALSE;
  events = gather_events (season, changed_utc, from, to, words);
  text = (as_json ? fr_calendar_to_json : fr_calendar_file_write) ((const FrCalendarEvent *)(gpointer)events->data,
                                                                   events->len, season->evening.zone, name);
  if (output_path == NULL)
    {
      g_string_append (answer, text);
      return TRUE;
    }
  if (fr_cli_is_book (book_path, output_path))
    return fr_cli_wrong (error, "%s is the book itself; give the file another name", output_path);
  if (!g_file_set_contents_full (output_path, text, -1, G_FILE_SET_CONTENTS_CONSISTENT, 0666, error))
    return FALSE;
  g_string_append_printf (answer, events->len == 1 ? "%u event is in %s.\n" : "%u events are in %s.\n", events->len,
                          output_path);
  return TRUE;
}

gboolean
fr_run_calendar (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  FrCliSeason season;
  FrDate from, to;
  gboolean ok;

  if (format_text == NULL && !options->json)
    return fr_cli_wrong (error, "--format is missing; give ics or json");
  if (format_text != NULL && strcmp (format_text, "ics") != 0 && strcmp (format_text, "json") != 0)
    return fr_cli_wrong (error, "--format “%s” must be ics or json", format_text);
  if (options->json && g_strcmp0 (format_text, "ics") == 0)
    return fr_cli_wrong (error, "--json is --format json; it does not go with ics");
  ok = fr_cli_season_load (&season, book_path, NULL, now_text, error);
  if (ok)
    {
      from = fr_season_first_day (season.season);
      to = fr_season_last_day (season.season);
      /* One alone asks for its own season up to its edge. */
      ok = date_option ("--from", from_text, &from, error) && date_option ("--to", to_text, &to, error);
      if (ok && from_text == NULL && to_text != NULL)
        from = fr_season_first_day (fr_season_of (to));
      if (ok && to_text == NULL && from_text != NULL)
        to = fr_season_last_day (fr_season_of (from));
    }
  if (ok && fr_date_compare (to, from) < 0)
    ok = fr_cli_wrong (error, "--to “%s” lies before --from “%s”", to_text, from_text);
  if (ok && (from.year < 2000 || to.year > 2059))
    ok = fr_cli_wrong (error, "the days have to lie in the years 2000 to 2059");
  ok = ok && bring_out (&season, options->json || strcmp (format_text, "json") == 0, from, to, answer, error);
  fr_cli_season_clear (&season);
  return ok;
}
