/* Taking values out of a JSON tree with a sentence for everything that is not as asked: which key, what it
 * is, what is allowed. The first problem found is kept; after it every call gives "absent", so that a reader
 * may ask for all its keys and look once at the end. */
#pragma once

#include "formats/json-text.h"

G_BEGIN_DECLS

/**
 * FrInput:
 * An object within the tree and how it is called in messages ("cooker", "observations[2]", "" for the whole).
 * A plain value that borrows the tree and @error.
 */
typedef struct
{
  JsonObject *object; /* NULL when absent */
  char path[128];
  GError **error; /* never NULL; set by the first problem */
} FrInput;

typedef enum
{
  FR_INPUT_OPTIONAL, /* absent or null gives NAN or NULL */
  FR_INPUT_REQUIRED
} FrInputNeed;

/* The whole input, which must be an object that has none but @keys (NULL-terminated). */
gboolean
fr_input_root (JsonNode *root, const char *const *keys, GError **error, FrInput *input_out);

/* An object inside @input; FALSE when absent. @keys NULL: its keys are checked later with
 * fr_input_check_keys. */
gboolean
fr_input_object (const FrInput *input, const char *key, FrInputNeed need, const char *const *keys,
                 FrInput *object_out);

/* Refuses a key that is not among @keys and proposes the nearest. */
gboolean
fr_input_check_keys (const FrInput *input, const char *const *keys);

gboolean
fr_input_has (const FrInput *input, const char *key);

/* A number from @min to @max. NAN when absent or wrong. */
double
fr_input_number (const FrInput *input, const char *key, FrInputNeed need, double min, double max);

/* A number of any size, for ranges known only later: infinite when too large for a double, NAN when absent,
 * and -INFINITY, which no range lets pass, when it is no number; fr_input_fail_range then says so. */
double
fr_input_any_number (const FrInput *input, const char *key);

/* Borrowed text; NULL when absent or wrong. @what says in a message what it should be ("a shape: cylinder,
 * cone or …"). */
const char *
fr_input_string (const FrInput *input, const char *key, FrInputNeed need, const char *what);

/* A list of @min to @max elements; NULL when absent or wrong. */
JsonArray *
fr_input_array (const FrInput *input, const char *key, FrInputNeed need, guint min, guint max);

/* Element @index of a list as an object called "key[index]". */
gboolean
fr_input_element (const FrInput *input, const char *key, JsonArray *array, guint index,
                  const char *const *keys, FrInput *object_out);

/* A number in a list; @path is its full name. */
double
fr_input_array_number (const FrInput *input, JsonArray *array, guint index, const char *path, double min,
                       double max);

/* Sets the error, unless there is one, to "<path of key> <the rest>". Always FALSE. */
gboolean
fr_input_fail (const FrInput *input, const char *key, const char *format, ...) G_GNUC_PRINTF (3, 4);

/* The sentence for a number that is not from @min to @max, or is missing (NAN). Always FALSE. */
gboolean
fr_input_fail_range (const FrInput *input, const char *key, double value, double min, double max);

/* A number for a message: up to six digits, point as decimal mark. Free it. */
char *
fr_input_number_text (double value);

/* The member of @words (NULL-terminated) nearest to @word, or NULL when none is like it. */
const char *
fr_input_nearest (const char *word, const char *const *words);

G_END_DECLS
