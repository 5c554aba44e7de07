/* The sugarbush of a book, for commands that answer from one. */
#pragma once

#include "cli/cli-commands.h"
#include "cli/cli-evening.h"
#include "domain/plan/bush.h"

G_BEGIN_DECLS

typedef struct
{
  FrCliEvening evening; /* the book, and how its household is spoken to */
  gint64 now_utc;
  FrDate today;
  FrBush *bush;
} FrCliBush;

/**
 * fr_cli_bush_load:
 * @path: (nullable): the book, NULL for the person's own
 * @season_text: (nullable): a year; NULL for the season that @now_text is in
 * @now_text: (nullable): "2026-03-11T16:00", NULL for the clock
 *
 * Returns: FALSE with @error; clear *bush either way
 */
gboolean
fr_cli_bush_load (FrCliBush *bush, const char *path, const char *season_text, const char *now_text,
                  GError **error);
void
fr_cli_bush_clear (FrCliBush *bush);

extern const GOptionEntry fr_bush_entries[];
extern const GOptionEntry fr_sheet_entries[];
extern const GOptionEntry fr_trunk_entries[];

gboolean
fr_run_bush (const FrCommandOptions *options, const char *file, GString *answer, GError **error);
gboolean
fr_run_trunk (const FrCommandOptions *options, const char *file, GString *answer, GError **error);

/* tap-plan and round: what --book says instead of a file, or NULL. */
extern char *fr_cli_plan_book;
extern const GOptionEntry fr_tap_plan_entries[];
extern const GOptionEntry fr_round_entries[];

gboolean
fr_run_bush_plan (const FrCommandOptions *options, GString *answer, GError **error);
gboolean
fr_run_bush_round (const FrCommandOptions *options, GString *answer, GError **error);

gboolean
fr_run_sheet (const FrCommandOptions *options, const char *file, GString *answer, GError **error);

G_END_DECLS
