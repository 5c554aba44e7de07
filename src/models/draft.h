/* What an editor holds while a person types: the record as it is in the book, as it would become, the text of
 * each entry and what is wrong. Plain value, no widgets, no I/O; each gesture is one function. Texts that
 * cannot be read, or that the record's check refuses, stay in the draft and never reach the book; the rest
 * can be kept all the same. */
#pragma once

#include "domain/records/change.h"

G_BEGIN_DECLS

typedef struct _FrDraft FrDraft;

/**
 * FrDraftProblem:
 * @entry: what could not be read; FR_QUANTITY_OK when it was read
 * @at: byte of the typed text the entry problem is about
 * @record: what the record's check says, when @entry is OK
 */
typedef struct
{
  FrQuantityProblem entry;
  gsize at;
  FrProblem record;
} FrDraftProblem;

/* @is_new: the record is not in the book yet; its change is an addition. Copies @record. */
FrDraft *
fr_draft_new (const FrRecord *record, gboolean is_new);
void
fr_draft_free (FrDraft *draft);

gboolean
fr_draft_is_new (const FrDraft *draft);
const FrRecord *
fr_draft_get_original (const FrDraft *draft);
/* As it would become: unread entries keep their old value. */
const FrRecord *
fr_draft_get_current (const FrDraft *draft);

/* An amount or text entry was left with @text. Amounts are read by the household's grammar. */
void
fr_draft_type (FrDraft *draft, const FrField *field, const char *text, const FrUnits *units);
/* A code, reference, switch or instant was chosen. */
void
fr_draft_choose_text (FrDraft *draft, const FrField *field, const char *text);
void
fr_draft_choose_int (FrDraft *draft, const FrField *field, gint64 value);
/* The entry goes back to what the book holds. */
void
fr_draft_restore (FrDraft *draft, const FrField *field);
/* The text still in an entry that could not be read; NULL when the field has been read. */
const char *
fr_draft_unread (const FrDraft *draft, const FrField *field);

/* FALSE when nothing is wrong with the field. */
gboolean
fr_draft_problem (const FrDraft *draft, const FrField *field, FrDraftProblem *problem_out);
/* Number of fields with something wrong. */
guint
fr_draft_n_problems (const FrDraft *draft);
/* Whether anything differs from the book, unread entries included. */
gboolean
fr_draft_is_dirty (const FrDraft *draft);

/* The change that would keep what can be kept: every differing field, without those the check complains of.
 * NULL when nothing can be kept. For a new record everything must be right. */
FrChange *
fr_draft_change (const FrDraft *draft, const char *label);

/* The book now holds @record: it becomes the original; entries that differ from it on purpose stay. */
void
fr_draft_rebase (FrDraft *draft, const FrRecord *record);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrDraft, fr_draft_free)

G_END_DECLS
