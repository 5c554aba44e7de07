/* frostrun-cli ledger: what came in over a season, where it went, and what does not add up. Nothing is written. */
#include "cli/cli-stock.h"
#include "cli/cli-print.h"

#include "formats/ledger-json.h"
#include "words/ledger-words.h"
#include "words/reminder-words.h"
#include "words/season-words.h"

#include <math.h>

static char *book_path, *season_text, *at_text;

const GOptionEntry fr_ledger_entries[]
    = { { "book", 0, 0, G_OPTION_ARG_FILENAME, &book_path, "The book; without it your own", "FILE" },
        { "season", 0, 0, G_OPTION_ARG_STRING, &season_text, "The year of its spring; without it this season", "2026" },
        { "at", 0, 0, G_OPTION_ARG_STRING, &at_text, "Up to then, local time; without it now", "2026-03-11T16:00" },
        { NULL } };

/* What is lost without being boiled. */
static double
lost_l (const FrLedgerAccount *account)
{
  return account->flows[FR_FLOW_SPILLED].volume_l + account->flows[FR_FLOW_SPOILED].volume_l
         + account->flows[FR_FLOW_DRUNK].volume_l;
}

static char *
cell (const FrSay *say, double volume_l)
{
  return fabs (volume_l) > FR_STOCK_NOTHING_L ? fr_season_litres (say, volume_l) : g_strdup ("–");
}

static char **
account_cells (const char *name, const FrLedgerAccount *account, const FrSay *say)
{
  char *cells[] = { g_strdup (name),
                    cell (say, account->flows[FR_FLOW_GATHERED].volume_l),
                    cell (say, account->moved_in.volume_l - account->flows[FR_FLOW_MOVED].volume_l),
                    cell (say, account->flows[FR_FLOW_BOILED].volume_l),
                    cell (say, account->flows[FR_FLOW_ICE].volume_l),
                    cell (say, lost_l (account)),
                    cell (say, account->flows[FR_FLOW_FOUND].volume_l + account->found_less.volume_l),
                    fr_season_litres (say, account->there.volume_l),
                    fr_say_amount (say, account->there.sugar_kg, FR_QUANTITY_MASS, 2),
                    NULL };

  return g_memdup2 (cells, sizeof cells);
}

static void
print_accounts (GString *out, const FrLedger *ledger, const FrSay *say)
{
  static const char *const heads[]
      = { "", "gathered", "moved", "boiled", "ice", "lost", "found", "there", "sugar there", NULL };
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func ((GDestroyNotify)g_strfreev);
  g_autofree char *unnamed = fr_container_words (NULL);

  g_ptr_array_add (rows, g_strdupv ((char **)heads));
  for (guint i = 0; i < ledger->n_accounts; i++)
    {
      const FrLedgerAccount *account = &ledger->accounts[i];

      g_ptr_array_add (rows, account_cells (account->container != NULL ? account->container->name : unnamed, account, say));
    }
  g_ptr_array_add (rows, account_cells ("All", &ledger->all, say));
  fr_print_rows (out, rows, G_N_ELEMENTS (heads) - 1);
}

static void
print_nights (GString *out, const FrLedger *ledger, const FrSay *say)
{
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func ((GDestroyNotify)g_strfreev);

  for (guint i = 0; i < ledger->n_nights; i++)
    {
      const FrLedgerNight *night = &ledger->nights[i];
      char *told = fr_season_litres (say, night->told.volume_l), *poured = fr_season_litres (say, night->poured.volume_l);
      char *cells[] = { g_strdup (night->night->evening), g_strdup_printf ("boiled %s", told),
                        g_strdup_printf ("taken out %s", poured), NULL };

      g_free (told);
      g_free (poured);
      g_ptr_array_add (rows, g_memdup2 (cells, sizeof cells));
    }
  if (rows->len > 0)
    g_string_append (out, "\nNights\n");
  fr_print_rows (out, rows, 3);
}

static void
print_lines (GString *out, const FrLedger *ledger, const FrSay *say)
{
  if (ledger->n_lines > 0)
    g_string_append (out, "\nWhat does not add up\n");
  for (guint i = 0; i < ledger->n_lines; i++)
    {
      const FrLedgerLine *line = &ledger->lines[i];
      g_autofree char *sentence = fr_ledger_line_sentence (line, ledger, say);

      g_string_append_printf (out, "  %s\n", sentence);
      for (guint k = 0; k < line->n_causes; k++)
        {
          g_autofree char *chance = fr_ledger_chance_words (&line->causes[k], say),
                          *cause = fr_ledger_cause_sentence (line, &line->causes[k], say);

          g_string_append_printf (out, "    %s  %s\n", chance, cause);
        }
    }
}

static void
print_ledger (GString *out, const FrLedger *ledger, const FrSay *say)
{
  g_autofree char *markup = fr_ledger_sentence (ledger, say), *sentence = fr_say_plain (markup),
                  *reason = fr_ledger_reason (ledger, say);

  g_string_append_printf (out, "Season %u: %s%s%s\n\n", ledger->season, sentence, reason != NULL ? " " : "",
                          reason != NULL ? reason : "");
  print_accounts (out, ledger, say);
  print_nights (out, ledger, say);
  print_lines (out, ledger, say);
}

gboolean
fr_run_ledger (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  FrCliSeason season;
  gint64 from_utc, at_utc;
  gboolean ok = fr_cli_stock_load (&season, book_path, season_text, at_text, &from_utc, &at_utc, error);

  if (ok)
    {
      g_autoptr (FrLedger) ledger = fr_ledger_new (&season.evening.book, season.season, at_utc);
      g_autofree char *json = options->json ? fr_ledger_to_json (ledger) : NULL;

      if (json != NULL)
        g_string_append (answer, json);
      else
        print_ledger (answer, ledger, &season.evening.say);
    }
  fr_cli_season_clear (&season);
  return ok;
}
