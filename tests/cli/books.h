/* Books to run frostrun-cli on, in a folder that goes with the test. */
#pragma once

#include <glib.h>

/* A new folder of the test's own; takes it away with everything in it. */
char *
make_folder (void);
void
drop_folder (char *folder);

/* Makes a book of the kept JSON, or the demo's for NULL, as if it were @now; FROSTRUN_MAKE_BOOK is the path of
 * the maker. */
void
make_book (const char *book, const char *kept, const char *now);

/* Runs a program that has to succeed; @out_out may be NULL. */
void
run_program (const char *const *command, char **out_out);

/* What tells whether a file's bytes are as they were; free it. */
char *
bytes_of (const char *path);
