/* Two stacks of changes: what can be taken back and what can be done again. The stacks own their changes.
 * Pushing a new change empties the redo stack; edits of the same amount of the same record one after the
 * other join into one step. Nothing here touches the book. */
#pragma once

#include <glib.h>

#include "domain/records/change.h"

G_BEGIN_DECLS

typedef struct _FrUndo FrUndo;

FrUndo *
fr_undo_new (void);
void
fr_undo_free (FrUndo *undo);

/* A change was done (copied). */
void
fr_undo_push (FrUndo *undo, const FrChange *change);

/* The change that undo would take back, or redo do again; NULL when there is none. Owned by @undo. */
const FrChange *
fr_undo_peek_undo (const FrUndo *undo);
const FrChange *
fr_undo_peek_redo (const FrUndo *undo);

/* The change on top was taken back, or done again: it moves to the other stack. */
void
fr_undo_undone (FrUndo *undo);
void
fr_undo_redone (FrUndo *undo);

/**
 * FrUndoTouched:
 * @record: an image of the record, to know it by
 * @expected: what it has to be so that the step can be taken; NULL: it must not be there
 *
 * Returns: TRUE when it is no longer that
 */
typedef gboolean (*FrUndoTouched) (const FrRecord *record, const FrRecord *expected, gpointer user_data);

/* Drops every step a record of which @touched, and the steps under it that touch the same records, for they
 * can no longer be applied. Returns the number of steps dropped. */
guint
fr_undo_drop (FrUndo *undo, FrUndoTouched touched, gpointer user_data);
void
fr_undo_clear (FrUndo *undo);

/* The next edit is a step of its own even when it edits the same field. */
void
fr_undo_break (FrUndo *undo);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrUndo, fr_undo_free)

G_END_DECLS
