/* A season of a book, for the commands that answer from one. */
#pragma once

#include "cli/cli-commands.h"
#include "cli/cli-evening.h"
#include "domain/plan/season.h"

G_BEGIN_DECLS

typedef struct
{
  FrCliEvening evening; /* the book, and how its household is spoken to */
  gint64 now_utc;
  FrDate today;
  guint season;
} FrCliSeason;

/**
 * fr_cli_season_load:
 * @path: (nullable): the book, NULL for the person's own
 * @season_text: (nullable): a year; NULL for the season that @now_text is in
 * @now_text: (nullable): "2026-03-11T16:00", NULL for the clock
 *
 * Returns: FALSE with @error; clear it either way
 */
gboolean
fr_cli_season_load (FrCliSeason *season, const char *path, const char *season_text, const char *now_text, GError **error);
void
fr_cli_season_clear (FrCliSeason *season);

extern const GOptionEntry fr_season_entries[];
extern const GOptionEntry fr_reminders_entries[];
extern const GOptionEntry fr_checklist_entries[];
extern const GOptionEntry fr_calendar_entries[];

gboolean
fr_run_season (const FrCommandOptions *options, const char *file, GString *answer, GError **error);
gboolean
fr_run_reminders (const FrCommandOptions *options, const char *file, GString *answer, GError **error);
gboolean
fr_run_checklist (const FrCommandOptions *options, const char *file, GString *answer, GError **error);
gboolean
fr_run_calendar (const FrCommandOptions *options, const char *file, GString *answer, GError **error);

G_END_DECLS
