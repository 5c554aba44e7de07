/* The open book: the store, one list per kind, and the undo stacks. fr_book_apply() is the only way to change
 * what the book holds; whoever shows something listens to "changed".
 *
 * Signals:
 * - "changed" (): lists or household differ from before
 * - "undo-changed" (): what can be undone or redone differs
 * - "moved" (const char *code, guint n): another program wrote to the book; the lists were read anew. The
 * code is "book-moved" (nothing to undo was lost) or "book-moved-undo-lost" with the number of steps dropped.
 */
#pragma once

#include <gio/gio.h>

#include "domain/records/kinds.h"
#include "models/record-list.h"
#include "store/store.h"

G_BEGIN_DECLS

#define FR_TYPE_BOOK (fr_book_get_type ())
G_DECLARE_FINAL_TYPE (FrBook, fr_book, FR, BOOK, GObject)

/**
 * fr_book_open:
 * @path: the file, made when missing; ":memory:" for a book that is not kept
 * @error: says in a sentence why not
 *
 * Returns: the book with every kind loaded, or NULL
 */
FrBook *
fr_book_open (const char *path, GError **error);

const char *
fr_book_get_path (FrBook *self);

/* The list of a kind, by id, archived records too. Owned by the book. */
FrRecordList *
fr_book_get_list (FrBook *self, FrKindId kind);

/* The record, or NULL. Valid until the next "changed". */
const FrRecord *
fr_book_find (FrBook *self, FrKindId kind, gint64 id);

/* The household, or NULL in a book that has none yet. Valid until the next "changed". */
const FrHousehold *
fr_book_get_household (FrBook *self);

/* How this household writes numbers; metric while there is no household. Valid until the next "changed". The
 * decimal mark is the one given by fr_book_set_decimal_mark(). */
const FrUnits *
fr_book_get_units (FrBook *self);
void
fr_book_set_decimal_mark (FrBook *self, char mark);

/* An empty record with the next free id and a new uid. @nth counts further new records of the same kind in
 * one change from 0. NULL and @error when the book cannot be read. */
FrRecord *
fr_book_new_record (FrBook *self, FrKindId kind, guint nth, GError **error);

/* Whether a record of the book refers to this one; such a record can be archived, not deleted. */
gboolean
fr_book_is_used (FrBook *self, const FrRecord *record);

/* The one door: stores the change, tells the lists and pushes it for undo. An empty change does nothing and
 * is fine. */
gboolean
fr_book_apply (FrBook *self, const FrChange *change, GError **error);

gboolean
fr_book_undo (FrBook *self, GError **error);
gboolean
fr_book_redo (FrBook *self, GError **error);

/* What undo or redo would take; NULL when nothing. Owned by the book until "undo-changed". */
const FrChange *
fr_book_peek_undo (FrBook *self);
const FrChange *
fr_book_peek_redo (FrBook *self);

/* Looks whether another program wrote; reads the lists anew if so. Called before every change, and when the
 * window gets the focus. FALSE when reading failed. */
gboolean
fr_book_refresh (FrBook *self, GError **error);

G_END_DECLS
