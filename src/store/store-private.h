/* What the files of this room share with each other and with its tests. */
#pragma once

#include "store/database.h"
#include "store/store.h"

G_BEGIN_DECLS

typedef enum
{
  FR_ROW_ONE,
  FR_ROW_INSERT,
  FR_ROW_UPDATE,
  FR_ROW_REMOVE,
  FR_ROW_NEXT, /* the next free id */
  FR_N_ROW
} FrRowStatement;

struct _FrStore
{
  FrDatabase *db;
  sqlite3_stmt *rows[FR_N_KINDS][FR_N_ROW]; /* compiled when first needed */
  GHashTable *referrers;                    /* FrField → statement that finds who refers by it */
};

/* The statement for one kind, kept by the store; NULL and @error when it cannot be compiled. */
sqlite3_stmt *
fr_store_statement (FrStore *store, const FrKind *kind, FrRowStatement which, GError **error);

/* The number in the one row of a kept statement, 0 for NULL; the statement is ready for the next time. */
gboolean
fr_store_step_int (FrStore *store, sqlite3_stmt *statement, gint64 *value_out, GError **error);

/* Whether a record may stand in the book; the first reason against it as an error. */
gboolean
fr_store_check (const FrRecord *record, FrStoreError code, GError **error);

/* Every reference of a record leads to a stored one. */
gboolean
fr_store_verify_references (FrStore *store, const FrRecord *record, GError **error);
/* Nothing refers to a record that is gone. */
gboolean
fr_store_verify_unreferred (FrStore *store, const FrRecord *gone, GError **error);

/* The connection, for tests that limit its size or spoil it on purpose. */
FrDatabase *
fr_store_database (FrStore *store);

/* The steps of a change as a JSON array for the diary: kind, before and after; unknown is null. Free it. */
char *
fr_diary_steps_json (const FrChange *change);

/* What a kind is called in a sentence. */
const char *
fr_kind_words (const FrKind *kind);

/* A sentence for the first problem of a record. Free it. */
char *
fr_refusal_sentence (const FrRecord *record, const FrProblem *problem);

/* A whole number as text, for sentences that a translator sees: a 64-bit format differs by machine. Free it. */
char *
fr_number_text (gint64 number);

G_END_DECLS
