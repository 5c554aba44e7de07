/* Everything a person can do on the season page, each as one change and so one step of undo. Nothing is applied here: the window
 * applies what comes back. NULL with @error says in a sentence why not; NULL without one means that nothing would change.
 *
 * What was written down of sap is never written over in silence: an edit keeps the record as it was in the diary. */
#pragma once

#include "models/edit.h"

G_BEGIN_DECLS

/* A gathering, pouring, dip or container as it is to be: one without an id is added, one of the book replaced. "add-KIND",
 * "edit-KIND". */
FrChange *fr_season_edit_keep (FrBook *book, const FrRecord *record, GError **error);
/* Many at once, elements FrRecord as above. "log-gatherings" when all are gatherings and more than one differs; else as above. */
FrChange *fr_season_edit_keep_all (FrBook *book, GPtrArray *records, GError **error);
/* Goes for good, or is put away while something refers to it. "delete-KIND", "archive-KIND". */
FrChange *fr_season_edit_remove (FrBook *book, FrKindId kind, gint64 id, GError **error);

/* A day's record as it is to be, told by its date, whatever its id; a day that says nothing more goes. "add-day", "edit-day",
 * "delete-day". */
FrChange *fr_season_edit_day (FrBook *book, const FrDay *record, GError **error);
/* What was seen on a day of its lowest and highest. */
typedef struct
{
  FrDate date;
  double low_c; /* NAN leaves it as it is; so of @high_c */
  const char *low_typed; /* or NULL */
  double high_c;
  const char *high_typed;
} FrSeenAir;

/* As one change, such as at breakfast last night's low and the day before's high. What a record has as expected gives way to what was seen.
 * "edit-day". */
FrChange *fr_season_edit_air (FrBook *book, const FrSeenAir *seen, guint n, GError **error);
/* The day's record or NULL; valid until the next "changed". */
const FrDay *fr_season_find_day (FrBook *book, FrDate day);

/* A piece of kit that a point of a checklist is about. @kind: CONTAINER, VESSEL, COOKER or CIRCUIT. */
typedef struct
{
  FrKindId kind;
  gint64 id;
} FrChoreKit;

/* A point of a checklist is done, or needs no doing; once more on the same kit and season moves its day. "add-chore", "edit-chore". */
FrChange *fr_season_edit_chore (FrBook *book, guint season, const char *task, FrChoreKit kit, FrDate done_on, const char *outcome,
                                GError **error);
/* It was not done after all. "delete-chore". */
FrChange *fr_season_edit_chore_undone (FrBook *book, guint season, const char *task, FrChoreKit kit, GError **error);
/* The record or NULL; valid until the next "changed". */
const FrChore *fr_season_find_chore (FrBook *book, guint season, const char *task, FrChoreKit kit);

/* A reminder is put away, and all that were are shown again as long as they stand. "add-dismissal", "delete-dismissal". @about: its key. */
FrChange *fr_season_edit_dismiss (FrBook *book, const char *about, gint64 now_utc, GError **error);
FrChange *fr_season_edit_recall (FrBook *book);

/* The household's ways of keeping sap as they are to be. "edit-storing". */
FrChange *fr_season_edit_storing (FrBook *book, const FrStoring *record, GError **error);

G_END_DECLS
