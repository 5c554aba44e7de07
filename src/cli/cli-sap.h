/* Tables of gatherings and stock for import and export. */
#pragma once

#include "cli/cli-commands.h"

G_BEGIN_DECLS

/**
 * FrCliSapOptions:
 * @book: its path, or NULL
 * @confirm: what is asked about comes in all the same
 * @without_refused: rows that are refused are left out
 */
typedef struct
{
  const char *book;
  gboolean dry_run;
  gboolean confirm;
  gboolean without_refused;
} FrCliSapOptions;

/* @bytes: what @file holds. */
gboolean fr_cli_sap_import (const FrCliSapOptions *wanted, const FrCommandOptions *options, const char *file,
                            GBytes *bytes, GString *answer, GError **error);

/* "gatherings" or "stock". */
gboolean fr_cli_sap_is_table (const char *what);
/* @season: the year of its spring as text, NULL for all. The table's text, free it, and how many rows it has. */
char *fr_cli_sap_export (const char *book, const char *what, const char *season, guint *n_rows_out, GError **error);

G_END_DECLS
