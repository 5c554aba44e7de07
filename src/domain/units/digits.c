/* Fifteen significant digits survive any text, seventeen tell any two doubles apart (IEEE 754), so one of three lengths is enough. */
#include "domain/units/digits.h"

void
fr_digits_write (double value, char text_out[G_ASCII_DTOSTR_BUF_SIZE])
{
  static const char *const formats[] = { "%.15g", "%.16g", "%.17g" };

  if (value == 0)
    {
      g_strlcpy (text_out, "0", G_ASCII_DTOSTR_BUF_SIZE);
      return;
    }
  for (guint i = 0; i < G_N_ELEMENTS (formats); i++)
    {
      g_ascii_formatd (text_out, G_ASCII_DTOSTR_BUF_SIZE, formats[i], value);
      if (g_ascii_strtod (text_out, NULL) == value)
        break;
    }
}
