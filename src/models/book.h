/* The open book: the store, one list per kind, and the undo stacks. fr_book_apply() is the only way to change
 * what the book holds; whoever shows something listens to "changed".
 *
 * Lists hold all records of their kind, except those of growing kinds (FrKind.time_field: gatherings, pours, dips,
 * days, days and forecasts of sources of weather), which hold one season. Changes, undo and redo reach every season.
 *
 * Signals:
 * - "changed" (): lists or household differ from before
 * - "undo-changed" (): what can be undone or redone differs
 * - "moved" (const char *code, guint n): another program wrote to the book; the lists were read anew. The
 * code is "book-moved" (nothing to undo was lost) or "book-moved-undo-lost" with the number of steps dropped.
 */
#pragma once

#include <gio/gio.h>

#include "domain/plan/season-book.h"
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
 * Returns: the book with its lists filled, of growing kinds with the season that the clock is in; or NULL
 */
FrBook *
fr_book_open (const char *path, GError **error);

const char *
fr_book_get_path (FrBook *self);

/* The list of a kind, by id, archived records too; of a growing kind one season. Owned by the book. */
FrRecordList *
fr_book_get_list (FrBook *self, FrKindId kind);

/* The season that the growing kinds' lists hold from now on. @zone: the household's, whose days its edges are, so
 * it is set again when the household moves to another; NULL for UTC. "changed" follows when it is another. FALSE
 * when the book cannot be read; the lists then stay. */
gboolean
fr_book_set_season (FrBook *self, guint season, const FrZoneTable *zone, GError **error);
guint
fr_book_get_season (FrBook *self);

/**
 * fr_book_season_book:
 * @out: is filled with what the lists hold, and stays so when the book moves on; let go of it by
 * fr_book_season_book_clear()
 * @zone: the household's; borrowed
 */
void
fr_book_season_book (FrBook *self, FrSeasonBook *out, const FrZoneTable *zone);
/* The same with any season of the growing kinds; the one asked for last beside the lists' own is kept, so that asking
 * again after a change elsewhere reads nothing. FALSE and nothing to let go of when the book cannot be read. */
gboolean
fr_book_other_season_book (FrBook *self, FrSeasonBook *out, guint season, const FrZoneTable *zone, GError **error);
void
fr_book_season_book_clear (FrSeasonBook *book);

/* Records of a growing kind in any stretch of time, by id, read from the file; elements FrRecord. NULL when that
 * fails. */
GPtrArray *
fr_book_load_span (FrBook *self, FrKindId kind, const FrRecordSpan *span, GError **error);

/* Shows records of a growing kind one after the other, with some fields alone; see fr_store_each(). */
gboolean
fr_book_each (FrBook *self, FrKindId kind, const FrRecordSpan *span, const char *const *fields, FrStoreEach each,
              gpointer user_data, GError **error);
/* Moves when records of a growing kind may have changed outside of the lists' season. */
guint
fr_book_far_serial (FrBook *self);
/* Moves when records of a kind held whole may have changed. */
guint
fr_book_whole_serial (FrBook *self);

/* The record, of any season, or NULL. Valid until the next "changed". */
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

/* 128 random bits in hex, for a record made elsewhere. */
void
fr_book_new_uid (char uid_out[33]);

/* Whether a record of kind @by, of any season, refers to the record @id of kind @to. */
gboolean
fr_book_refers (FrBook *self, FrKindId by, FrKindId to, gint64 id);
/* Whether a record of the book refers to this one; such a record can be archived, not deleted. */
gboolean
fr_book_is_used (FrBook *self, const FrRecord *record);

/* When a record of each kind was last changed, by this window or another program; G_MININT64 never. */
gboolean
fr_book_last_changes (FrBook *self, gint64 utc_out[FR_N_KINDS], GError **error);

/* The one door: stores the change, tells the lists and pushes it for undo. An empty change does nothing and
 * is fine. */
gboolean
fr_book_apply (FrBook *self, const FrChange *change, GError **error);

/* The same for what the program keeps by itself, such as a forecast that a service sent: it is no step of undo. A step that it leaves
 * impossible is dropped. */
gboolean
fr_book_apply_beside (FrBook *self, const FrChange *change, GError **error);

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
