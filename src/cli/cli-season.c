/* frostrun-cli season, reminders and checklist: what a season has come to day by day, what to be reminded of, and what is to be done to
 * the kit. Nothing is written. */
#include "cli/cli-season.h"

#include "cli/cli-print.h"
#include "cli/cli-read.h"
#include "domain/plan/bush.h"
#include "formats/season-json.h"
#include "words/chore-words.h"
#include "words/reminder-words.h"
#include "words/season-picture-words.h"
#include "words/season-words.h"

#include <string.h>

/* As far as the zone's table is loaded. */
#define SEASON_MIN 2001
#define SEASON_MAX 2059

static char *book_path, *season_text, *now_text;
static gboolean all;

#define BOOK { "book", 0, 0, G_OPTION_ARG_FILENAME, &book_path, "The book; without it your own", "FILE" }
#define SEASON { "season", 0, 0, G_OPTION_ARG_STRING, &season_text, "The year of its spring; without it this season", "2026" }
#define NOW { "now", 0, 0, G_OPTION_ARG_STRING, &now_text, "As if it were then, local time", "2026-03-11T16:00" }

const GOptionEntry fr_season_entries[] = { BOOK, SEASON, NOW, { NULL } };
const GOptionEntry fr_checklist_entries[] = { BOOK, SEASON, NOW, { NULL } };
const GOptionEntry fr_reminders_entries[]
    = { BOOK,
        { "all", 0, 0, G_OPTION_ARG_NONE, &all, "Those put away and those that are not for days too", NULL },
        NOW,
        { NULL } };

gboolean
fr_cli_season_load (FrCliSeason *season, const char *path, const char *year_text, const char *moment_text, GError **error)
{
  memset (season, 0, sizeof *season);
  season->now_utc = g_get_real_time () / G_USEC_PER_SEC;
  if (!fr_cli_evening_load (&season->evening, path, error)
      || (moment_text != NULL
          && !fr_cli_evening_time (&season->evening, "--now", moment_text, season->now_utc, FALSE, &season->now_utc, error)))
    return FALSE;
  season->today = fr_zone_local (season->evening.zone, season->now_utc).date;
  season->season = fr_season_of (season->today);
  return fr_cli_whole_option ("--season", year_text, SEASON_MIN, SEASON_MAX, &season->season, error);
}

void
fr_cli_season_clear (FrCliSeason *season)
{
  fr_cli_evening_clear (&season->evening);
}

/* --- season --- */

/* What the season before had come to on the same date, or by its end when this one is over. */
static FrSeasonTally
past_tally (const FrCliSeason *season, const FrSeasonView *view)
{
  g_autoptr (FrSeasonView) past
      = fr_season_view_new (&season->evening.book, season->season - 1, season->now_utc);

  return fr_season_view_tally (past, fr_season_same_date (view->tally.until, season->season - 1));
}

static void
print_days (GString *out, const FrSeasonView *view, const FrSay *say)
{
  g_autoptr (FrPaperWords) table = fr_season_table_words_new (view, say);
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func ((GDestroyNotify)g_strfreev);

  if (table->n_rows == 0)
    return;
  for (guint row = 0; row <= table->n_rows; row++)
    {
      char **cells = g_new0 (char *, table->n_columns + 1);

      for (guint column = 0; column < table->n_columns; column++)
        {
          const char *text = row > 0 ? table->cells->pdata[(row - 1) * table->n_columns + column] : NULL;

          cells[column] = row == 0 ? fr_paper_column_title (&table->columns[column], say) : g_strdup (text != NULL ? text : "");
        }
      g_ptr_array_add (rows, cells);
    }
  g_string_append_c (out, '\n');
  fr_print_rows (out, rows, table->n_columns);
}

static void
print_season (GString *out, const FrSeasonView *view, const FrSeasonTally *past, const FrSay *say)
{
  g_autofree char *title = fr_season_title (view->season), *markup = fr_season_sentence (view, say);
  g_autofree char *sentence = fr_say_plain (markup), *reason = fr_season_reason (view, past, say);
  g_autoptr (GPtrArray) figures = fr_season_figures (&view->tally, past, say);
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func ((GDestroyNotify)g_strfreev);

  g_string_append_printf (out, "%s\n\n%s\n", title, sentence);
  if (reason != NULL)
    g_string_append_printf (out, "%s\n", reason);
  for (guint i = 0; i < figures->len; i++)
    {
      const FrFigure *figure = figures->pdata[i];
      char *cells[] = { g_strdup (figure->label),
                        g_strdup_printf ("%s%s%s", figure->number, figure->unit[0] != '\0' ? " " : "", figure->unit),
                        figure->note != NULL ? g_strdup_printf ("(%s)", figure->note) : g_strdup (""), NULL };

      g_ptr_array_add (rows, g_memdup2 (cells, sizeof cells));
    }
  g_string_append_c (out, '\n');
  fr_print_rows (out, rows, 3);
  print_days (out, view, say);
}

static void
print_season_json (GString *out, const FrSeasonView *view, const FrSeasonTally *past, const FrSay *say)
{
  g_autofree char *markup = fr_season_sentence (view, say), *sentence = fr_say_plain (markup);
  g_autofree char *reason = fr_season_reason (view, past, say), *text = NULL;
  FrOutput output;

  fr_output_init (&output);
  fr_output_object (&output, NULL);
  fr_output_string (&output, "sentence", sentence);
  if (reason != NULL)
    fr_output_string (&output, "reason", reason);
  else
    fr_output_null (&output, "reason");
  fr_season_write_json (&output, view);
  fr_output_object (&output, "past");
  fr_season_tally_write_json (&output, past);
  fr_output_end_object (&output);
  fr_output_end_object (&output);
  text = fr_output_finish (&output);
  g_string_append (out, text);
}

gboolean
fr_run_season (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  FrCliSeason season;
  gboolean ok = fr_cli_season_load (&season, book_path, season_text, now_text, error);

  if (ok)
    {
      g_autoptr (FrSeasonView) view = fr_season_view_new (&season.evening.book, season.season, season.now_utc);
      FrSeasonTally past = past_tally (&season, view);

      (options->json ? print_season_json : print_season) (answer, view, &past, &season.evening.say);
    }
  fr_cli_season_clear (&season);
  return ok;
}

/* --- reminders --- */

static void
print_reminder (GString *out, const FrReminder *reminder, const FrReminderWords *words)
{
  static const char *const marks[] = { "  ", "  ", " !", "!!" };

  g_string_append_printf (out, "%s %s%s\n   %s\n", marks[reminder->urgency], words->sentence,
                          reminder->dismissed ? " (put away)" : "", words->why);
}

static void
put_reminder (FrOutput *output, const FrReminder *reminder, const FrReminderWords *words)
{
  fr_output_object (output, NULL);
  fr_reminder_write_json (output, reminder);
  fr_output_string (output, "title", words->title);
  fr_output_string (output, "sentence", words->sentence);
  fr_output_string (output, "why", words->why);
  fr_output_end_object (output);
}

gboolean
fr_run_reminders (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  FrCliSeason season;
  gboolean ok = fr_cli_season_load (&season, book_path, NULL, now_text, error);

  if (ok)
    {
      const FrSeasonBook *book = &season.evening.book;
      gint64 from_utc, ignored;
      g_autoptr (FrStock) stock = NULL;
      g_autoptr (GPtrArray) reminders = NULL;
      g_autofree char *text = NULL;
      FrOutput output;

      fr_day_span_utc (book->zone, fr_season_first_day (season.season), &from_utc, &ignored);
      stock = fr_stock_new (book, from_utc, season.now_utc);
      reminders = fr_reminders_new (book, stock, season.now_utc,
                                    all ? FR_REMINDERS_DISMISSED | FR_REMINDERS_LATER : FR_REMINDERS_STANDING);
      fr_output_init (&output);
      fr_output_object (&output, NULL);
      fr_output_array (&output, "reminders");
      for (guint i = 0; i < reminders->len; i++)
        {
          g_autoptr (FrReminderWords) words
              = fr_reminder_words_new (reminders->pdata[i], season.now_utc, &season.evening.say);

          if (options->json)
            put_reminder (&output, reminders->pdata[i], words);
          else
            print_reminder (answer, reminders->pdata[i], words);
        }
      fr_output_end_array (&output);
      fr_output_end_object (&output);
      text = fr_output_finish (&output);
      if (options->json)
        g_string_append (answer, text);
      else if (reminders->len == 0)
        g_string_append (answer, "Nothing to be reminded of.\n");
    }
  fr_cli_season_clear (&season);
  return ok;
}

/* --- checklist --- */

static void
print_checklist (GString *out, GArray *items)
{
  for (guint i = 0; i < items->len; i++)
    {
      const FrChoreItem *item = &g_array_index (items, FrChoreItem, i);
      const gboolean is_open = item->state == FR_CHORE_DUE || item->state == FR_CHORE_LATE;
      const char *mark = item->state == FR_CHORE_LATE ? "!!" : item->state == FR_CHORE_DUE ? " !" : "  ";
      g_autofree char *state = fr_chore_state_words (item), *why = fr_chore_item_sentence (item);

      if (i == 0 || (item - 1)->task != item->task)
        g_string_append_printf (out, "%s%s\n", i > 0 ? "\n" : "", fr_chore_title (item->task));
      g_string_append_printf (out, "%s %s: %s\n", mark, fr_record_label (item->kit), state);
      if (is_open)
        g_string_append_printf (out, "   %s\n", why);
    }
  if (items->len == 0)
    g_string_append (out, "The book has no kit yet.\n");
}

static void
print_checklist_json (GString *out, GArray *items, guint season)
{
  g_autofree char *text = NULL;
  FrOutput output;

  fr_output_init (&output);
  fr_output_object (&output, NULL);
  fr_output_number (&output, "season", season);
  fr_output_array (&output, "items");
  for (guint i = 0; i < items->len; i++)
    {
      const FrChoreItem *item = &g_array_index (items, FrChoreItem, i);
      g_autofree char *title = fr_chore_item_title (item), *why = fr_chore_item_sentence (item);

      fr_output_object (&output, NULL);
      fr_chore_write_json (&output, item);
      fr_output_string (&output, "title", title);
      fr_output_string (&output, "sentence", why);
      fr_output_end_object (&output);
    }
  fr_output_end_array (&output);
  fr_output_end_object (&output);
  text = fr_output_finish (&output);
  g_string_append (out, text);
}

gboolean
fr_run_checklist (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  FrCliSeason season;
  gboolean ok = fr_cli_season_load (&season, book_path, season_text, now_text, error);

  if (ok)
    {
      g_autoptr (GArray) items = fr_chores (&season.evening.book, season.season, season.now_utc);

      if (options->json)
        print_checklist_json (answer, items, season.season);
      else
        print_checklist (answer, items);
    }
  fr_cli_season_clear (&season);
  return ok;
}
