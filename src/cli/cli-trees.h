/* A book’s trees for the commands that carry trees in and out. */
#pragma once

#include "domain/plan/arrivals.h"
#include "store/store.h"
#include "words/say.h"

G_BEGIN_DECLS

typedef struct
{
  FrStore *store;
  GPtrArray *kinds[FR_N_KINDS]; /* all records; NULL of growing kinds */
  FrBushBook book;              /* borrows them */
  FrMeasure *measures;
  guint n_measures;
  FrSay say;
} FrCliTrees;

/* @path NULL: the person's own book. Clear it also after a failure. */
gboolean fr_cli_trees_load (FrCliTrees *trees, const char *path, GError **error);
void fr_cli_trees_clear (FrCliTrees *trees);

/* Whether @path is the book itself, by whichever name, or one of the files beside it that belong to it; @book NULL: the person's
 * own. */
gboolean fr_cli_is_book (const char *book, const char *path);

/* 128 random bits in hex, for a new record. */
void fr_cli_new_uid (char uid_out[33]);

G_END_DECLS
