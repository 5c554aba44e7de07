/* The sap of a book's season, for commands that answer from one. */
#pragma once

#include "cli/cli-season.h"

G_BEGIN_DECLS

/**
 * fr_cli_stock_load:
 * @season: the book, and its season
 * @at_text: (nullable): "2026-03-11T16:00", NULL for the clock
 * @from_out: the season's first instant
 * @at_out: the time asked for, but no later than the season's last instant
 *
 * As fr_cli_season_load, for --at.
 *
 * Returns: FALSE with @error; clear *season either way
 */
gboolean
fr_cli_stock_load (FrCliSeason *season, const char *path, const char *season_text, const char *at_text, gint64 *from_out,
                   gint64 *at_out, GError **error);

extern const GOptionEntry fr_stock_entries[];
extern const GOptionEntry fr_ledger_entries[];
extern const GOptionEntry fr_kitchen_entries[];

gboolean
fr_run_stock (const FrCommandOptions *options, const char *file, GString *answer, GError **error);
gboolean
fr_run_ledger (const FrCommandOptions *options, const char *file, GString *answer, GError **error);
gboolean
fr_run_kitchen (const FrCommandOptions *options, const char *file, GString *answer, GError **error);

G_END_DECLS
