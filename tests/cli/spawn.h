/* Runs frostrun-cli (its path is in FROSTRUN_CLI) the way a person or a script would. */
#pragma once

#include <json-glib/json-glib.h>

typedef struct
{
  int code;
  char *out;
  char *err;
} Answer;

/* @arguments are split at blanks; @input goes to standard input, @length under 0 for a C string. */
Answer
cli_run (const char *arguments, const char *input, gssize length);
/* The same with the arguments after @input put into @format; blanks at its end are left out. */
Answer
run (const char *format, const char *input, ...) G_GNUC_PRINTF (1, 3);
void
answer_clear (Answer *answer);

/* "cut/off" is the member off of the object cut; NAN for null. Fails the test when it is not there. */
double
answer_number (const Answer *answer, const char *path);
const char *
answer_string (const Answer *answer, const char *path);
/* The parsed answer, kept until the next call. */
JsonNode *
answer_root (const Answer *answer);

/* It has these members, up to the NULL, and no others. */
void
has_keys (JsonObject *object, const char *const *keys);

/* A kept input, and the same with the first @from replaced by @to (which must be there). Free them. */
char *
kept_text (const char *name);
char *
with (const char *text, const char *from, const char *to);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Answer, answer_clear)
