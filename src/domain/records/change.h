/* A change of the book as a plain value: what to call it and, per record, the image before and after. No before means
 * added, no after means deleted. Its inverse is the swap; joining keeps the first before and the last after. */
#pragma once

#include "domain/records/record.h"

G_BEGIN_DECLS

typedef struct
{
  FrRecord *before; /* NULL: added */
  FrRecord *after;  /* NULL: deleted */
} FrStep;

typedef struct
{
  char *label;      /* a code such as "edit-vessel", never a translated text */
  char *subject;    /* the name it is about, or NULL */
  GPtrArray *steps;  /* FrStep; add by fr_change_add() only */
  GHashTable *index; /* of the steps by record; private */
} FrChange;

/* The image before, or the one after where there is none: which record it is. */
const FrRecord *fr_step_record (const FrStep *step);

FrChange *fr_change_new (const char *label, const char *subject);
/* Copies both images; either may be NULL, not both. Steps that change nothing are left out. */
void fr_change_add (FrChange *change, const FrRecord *before, const FrRecord *after);
gboolean fr_change_is_empty (const FrChange *change);
FrChange *fr_change_invert (const FrChange *change);
FrChange *fr_change_join (const FrChange *first, const FrChange *second);
FrChange *fr_change_copy (const FrChange *change);
void fr_change_free (FrChange *change);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrChange, fr_change_free)

G_END_DECLS
