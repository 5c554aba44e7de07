/* A number with as few digits as bring the same number back, for texts that are read again. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Of a finite number, with a point whatever the locale; 0 is "0", never "-0". */
void fr_digits_write (double value, char text_out[G_ASCII_DTOSTR_BUF_SIZE]);

G_END_DECLS
