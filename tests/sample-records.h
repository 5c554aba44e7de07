/* One invented record of every kind for tests, with every field known or only what is required. */
#pragma once

#include "domain/records/change.h"

/* Every field known. References point at id 1 of their kind. */
FrRecord *
sample_full (FrKindId kind, gint64 id);
/* Only what may not be left out. */
FrRecord *
sample_sparse (FrKindId kind, gint64 id);
/* Gives a field another value, not always one that may be kept. */
void
sample_mutate (FrRecord *record, const FrField *field);
/* A book with @per_kind records of every kind (but one household), alternately full and sparse, as one
 * change. */
FrChange *
sample_book (guint per_kind);
