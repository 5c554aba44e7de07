/* What the store's tests share: a folder of their own, whole books compared, short ways to apply. */
#pragma once

#include "sample-records.h"
#include "store/store-private.h"

/* 2025-03-09 06:00 UTC. */
#define NOW_UTC 1741500000

/* A new empty folder under the temporary folder; remove with tools_remove_folder. */
char *
tools_new_folder (void);
void
tools_remove_folder (const char *folder);

FrStore *
tools_open (const char *path);
void
tools_apply (FrStore *store, const FrChange *change);
/* Expects a refusal with that code and a sentence, and the book as it was. */
void
tools_refuse (FrStore *store, const FrChange *change, FrStoreError code);
void
tools_refuse_open (const char *path, gboolean create, FrStoreError code);
void
tools_assert_sentence (const GError *error, FrStoreError code);

/* The first column of the first row. */
gint64
tools_number (FrStore *store, const char *sql);
/* Runs SQL past the store's door; whether it succeeded, or failed for a constraint. Anything else is a failed
 * test. */
gboolean
tools_force (FrStore *store, const char *sql);

/* One edit of one field of one stored record, still to be applied. */
FrChange *
tools_edit (FrStore *store, FrKindId kind, gint64 id, const char *field, double value);
FrRecord *
tools_find (FrStore *store, FrKindId kind, gint64 id);

/* All records of all kinds. */
GPtrArray *
tools_snapshot (FrStore *store);
void
tools_assert_same (GPtrArray *a, GPtrArray *b);
