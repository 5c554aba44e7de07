/* The commands of frostrun-cli, one row each in a table that help, suggestions and dispatch share. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Exit codes. */
enum
{
  FR_EXIT_ANSWERED = 0,
  FR_EXIT_WRONG_INPUT = 1,
  FR_EXIT_FAILED = 2
};

/* What the shared options say. */
typedef struct
{
  gboolean json;
} FrCommandOptions;

/**
 * FrCommand:
 * @takes_file: one argument, IN.json or - for standard input
 * @book: where the option --book is kept that may stand instead of the file; NULL for most
 * @entries: options beside --json, or NULL; filled before @run is called
 * @run: puts the whole answer into @answer (text for people, or JSON) or sets @error: FR_INPUT_ERROR, or any
 * other for what is not the input's fault
 */
typedef struct
{
  const char *name;
  const char *arguments; /* after the name in the usage line */
  const char *summary;   /* one line for the list of commands */
  const char *description;
  const char *example;
  gboolean takes_file;
  const GOptionEntry *entries;
  gboolean (*run) (const FrCommandOptions *options, const char *file, GString *answer, GError **error);
  char **book;
} FrCommand;

gboolean
fr_run_syrup (const FrCommandOptions *options, const char *file, GString *answer, GError **error);
gboolean
fr_run_boil (const FrCommandOptions *options, const char *file, GString *answer, GError **error);
gboolean
fr_run_charge (const FrCommandOptions *options, const char *file, GString *answer, GError **error);
gboolean
fr_run_price (const FrCommandOptions *options, const char *file, GString *answer, GError **error);
gboolean
fr_run_taphole (const FrCommandOptions *options, const char *file, GString *answer, GError **error);
gboolean
fr_run_calibrate (const FrCommandOptions *options, const char *file, GString *answer, GError **error);
gboolean
fr_run_round (const FrCommandOptions *options, const char *file, GString *answer, GError **error);

gboolean
fr_run_forecast (const FrCommandOptions *options, const char *file, GString *answer, GError **error);
gboolean
fr_run_tap_date (const FrCommandOptions *options, const char *file, GString *answer, GError **error);
gboolean
fr_run_score (const FrCommandOptions *options, const char *file, GString *answer, GError **error);
gboolean
fr_run_tap_plan (const FrCommandOptions *options, const char *file, GString *answer, GError **error);
gboolean
fr_run_reading (const FrCommandOptions *options, const char *file, GString *answer, GError **error);
gboolean
fr_run_morning (const FrCommandOptions *options, const char *file, GString *answer, GError **error);

gboolean
fr_run_import (const FrCommandOptions *options, const char *file, GString *answer, GError **error);
gboolean
fr_run_export (const FrCommandOptions *options, const char *file, GString *answer, GError **error);

extern const GOptionEntry fr_import_entries[];
extern const GOptionEntry fr_export_entries[];
extern const GOptionEntry fr_syrup_entries[];
extern const GOptionEntry fr_reading_entries[];
extern const GOptionEntry fr_morning_entries[];

extern const FrCommand fr_commands[];
extern const guint fr_n_commands;

G_END_DECLS
