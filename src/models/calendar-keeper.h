/* Keeps the household's calendar file up to date in the folder it picked (FrStoring.calendar_folder), a second after the book changed.
 *
 * Signals:
 * - "problem-changed" (): what keeps it from being up to date differs
 */
#pragma once

#include "models/book.h"
#include "models/tonight.h"

G_BEGIN_DECLS

#define FR_TYPE_CALENDAR_KEEPER (fr_calendar_keeper_get_type ())
G_DECLARE_FINAL_TYPE (FrCalendarKeeper, fr_calendar_keeper, FR, CALENDAR_KEEPER, GObject)

/* @clock as for fr_tonight_new(). The file is looked at in a second too, since days may have passed. */
FrCalendarKeeper *fr_calendar_keeper_new (FrBook *book, FrTonightClock clock);

/* Where it is kept, in the file system's encoding; NULL when nowhere. The name holds the start of the household's uid, so that two books
 * may share a folder. Free it. */
char *fr_calendar_keeper_get_path (FrCalendarKeeper *self);

/* A sentence about what keeps it from being up to date; NULL when nothing does. Owned by the keeper until "problem-changed". */
const char *fr_calendar_keeper_get_problem (FrCalendarKeeper *self);

/* For a window that stays open over midnight: the same as after a change. */
void fr_calendar_keeper_refresh (FrCalendarKeeper *self);

/* Writes what waits to be written, and returns when it is: for a window that closes. */
void fr_calendar_keeper_finish (FrCalendarKeeper *self);

G_END_DECLS
