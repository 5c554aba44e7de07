/* Locks that are a file's own, not the whole program's: see own-locks.c. */
#pragma once

/**
 * fr_own_locks_begin:
 *
 * From now on SQLite's locks stay until SQLite lets go of them. To be called before the first book is opened;
 * more calls do no harm.
 */
void
fr_own_locks_begin (void);
