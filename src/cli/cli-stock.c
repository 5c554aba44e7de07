/* frostrun-cli stock: the sap in a book's containers at a moment. Nothing is written. */
#include "cli/cli-stock.h"

#include "domain/plan/bush.h"
#include "formats/stock-json.h"
#include "words/reminder-words.h"
#include "words/season-words.h"
#include "words/stock-words.h"

static char *book_path, *season_text, *at_text;

const GOptionEntry fr_stock_entries[]
    = { { "book", 0, 0, G_OPTION_ARG_FILENAME, &book_path, "The book; without it your own", "FILE" },
        { "at", 0, 0, G_OPTION_ARG_STRING, &at_text, "As it was or will be then, local time; without it now",
          "2026-03-11T16:00" },
        { "season", 0, 0, G_OPTION_ARG_STRING, &season_text, "The year of its spring; without it the season of that time",
          "2026" },
        { NULL } };

gboolean
fr_cli_stock_load (FrCliSeason *season, const char *path, const char *year_text, const char *time_text, gint64 *from_out,
                   gint64 *at_out, GError **error)
{
  FrRecordSpan span;

  if (!fr_cli_season_load (season, path, year_text, NULL, error)
      || (time_text != NULL
          && !fr_cli_evening_time (&season->evening, "--at", time_text, season->now_utc, FALSE, &season->now_utc, error)))
    return FALSE;
  season->today = fr_zone_local (season->evening.zone, season->now_utc).date;
  if (year_text == NULL)
    season->season = fr_season_of (season->today);
  fr_season_span (season->evening.zone, season->season, &span);
  *from_out = span.from_utc;
  *at_out = MIN (season->now_utc, span.to_utc - 1);
  return TRUE;
}

static void
print_place (GString *out, const FrStockPlace *place, const FrStock *stock, const FrSay *say)
{
  const char *name = place->container != NULL ? place->container->name : NULL;
  g_autofree char *unnamed = fr_container_words (NULL), *litres = fr_season_litres (say, place->volume_l),
                  *note = fr_stock_place_note (place, stock, say),
                  *keeps = fr_stock_place_keeping (place, stock->at_utc, say);

  g_string_append_printf (out, "%s: %s", name != NULL ? name : unnamed, litres);
  if (note != NULL)
    g_string_append_printf (out, ". %s", note);
  g_string_append_printf (out, ".%s%s\n", keeps != NULL ? " " : "", keeps != NULL ? keeps : "");
}

static void
print_stock (GString *out, const FrStock *stock, const FrSay *say)
{
  g_autofree char *markup = fr_stock_sentence (stock, say), *sentence = fr_say_plain (markup),
                  *reason = fr_stock_reason (stock, say);

  g_string_append_printf (out, "%s%s%s\n", sentence, reason != NULL ? " " : "", reason != NULL ? reason : "");
  if (stock->n_places > 0)
    g_string_append_c (out, '\n');
  for (guint i = 0; i < stock->n_places; i++)
    print_place (out, &stock->places[i], stock, say);
  if (stock->n_lines > 0)
    g_string_append (out, "\nWhat does not add up\n");
  for (guint i = 0; i < stock->n_lines; i++)
    {
      const FrStockPlace *place = fr_stock_place (stock, stock->lines[i].container);
      g_autofree char *line = fr_stock_line_sentence (
          &stock->lines[i], place != NULL && place->container != NULL ? &place->container->record : NULL, say);

      g_string_append_printf (out, "  %s\n", line);
    }
}

gboolean
fr_run_stock (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  FrCliSeason season;
  gint64 from_utc, at_utc;
  gboolean ok = fr_cli_stock_load (&season, book_path, season_text, at_text, &from_utc, &at_utc, error);

  if (ok)
    {
      g_autoptr (FrStock) stock = fr_stock_new (&season.evening.book, from_utc, at_utc);
      g_autofree char *json = options->json ? fr_stock_to_json (stock) : NULL;

      if (json != NULL)
        g_string_append (answer, json);
      else
        print_stock (answer, stock, &season.evening.say);
    }
  fr_cli_season_clear (&season);
  return ok;
}
