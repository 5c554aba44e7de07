/* How reading input can fail: what was written is wrong, or it could not be got at all. The command line
 * answers the first with 1 and the second with 2. Messages are sentences that name the key and the allowed
 * range. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define FR_INPUT_ERROR (fr_input_error_quark ())
GQuark
fr_input_error_quark (void);

typedef enum
{
  FR_INPUT_ERROR_WRONG,      /* the input is not what is asked for */
  FR_INPUT_ERROR_UNREADABLE, /* no file, no permission, a failing disk */
  FR_INPUT_ERROR_FAILED      /* the input is sound, but no answer was found */
} FrInputError;

G_END_DECLS
