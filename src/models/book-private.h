/* What the files of the open book share. */
#pragma once

#include "models/book.h"
#include "models/undo.h"

G_BEGIN_DECLS

struct _FrBook
{
  GObject parent_instance;
  FrStore *store;
  FrRecordList *lists[FR_N_KINDS];
  FrUndo *undo;
  gint64 data_version;
  gint64 diary_row; /* read so far */
  gint64 changed_utc[FR_N_KINDS];
  FrUnits units;
  FrMeasure *measures;
  guint n_measures;
  char decimal_mark;

  guint season;      /* that the growing kinds' lists hold */
  FrRecordSpan span; /* its stretch of time */
  GHashTable *far;   /* set of FrRecord: asked for beyond that since the last change */

  guint far_serial;    /* of changes to growing kinds outside of the span */
  guint whole_serial;  /* of changes to kinds held whole */
  guint other_season; /* read beside it when it was asked for; 0 none */
  FrRecordSpan other_span;
  GPtrArray *other[FR_N_KINDS]; /* FrRecord, of growing kinds */
};

/* Whether the book holds one season of a kind, not all. */
gboolean
fr_book_is_growing (FrKindId kind);

/* Reads the growing kinds' records of a stretch of time, and the other kinds when @whole_too, and lets the lists tell
 * what differs. All is read before any list moves, so that a failure leaves the book as it was. */
gboolean
fr_book_load (FrBook *self, const FrRecordSpan *season, gboolean whole_too, GError **error);

/* Holds the season that the clock is in. */
gboolean
fr_book_begin_season (FrBook *self, GError **error);

GHashTable *
fr_book_far_new (void);
/* Forgets what was read beside the lists: all of it, or with a change what that makes wrong. */
void
fr_book_forget_far (FrBook *self, const FrChange *change);
/* A growing kind's record from the store; NULL when there is none. */
const FrRecord *
fr_book_find_far (FrBook *self, FrKindId kind, gint64 id);

void
fr_book_tell_changed (FrBook *self);

G_END_DECLS
