/* What the files of this room share with each other and with its tests. */
#pragma once

#include "store/database.h"
#include "store/store.h"

G_BEGIN_DECLS

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
