/* Decimals are shifted in their text, where a power of ten is only a moved point: 1.42 m is "142" cm, and
 * reading that as 142e-2 gives the very double again. */
#include "formats/field-text.h"

#include "formats/json-output.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* A double has at most 17 digits and 308 zeros. */
#define DIGITS_MAX 400
/* Two rounds of rounding at the eleventh decimal. */
#define SAME_DEG 2e-11

char *
fr_decimal_text (double value, int shift)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE], digits[G_ASCII_DTOSTR_BUF_SIZE], *end, *mark;
  int point = shift, n = 0;
  GString *out;

  if (!isfinite (value))
    return NULL;
  fr_output_number_text (value, text);
  end = strchr (text, 'e');
  if (end != NULL)
    {
      point += atoi (end + 1);
      *end = '\0';
    }
  mark = strchr (text, '.');
  point -= mark != NULL ? (int)strlen (mark + 1) : 0;
  for (const char *p = text; *p != '\0'; p++)
    if (g_ascii_isdigit (*p) && (n > 0 || *p != '0'))
      digits[n++] = *p;
  /* From here the value is 0.digits × 10^point. */
  point += n;
  while (n > 0 && digits[n - 1] == '0')
    n--;
  if (n == 0)
    return g_strdup ("0");
  out = g_string_new (value < 0 ? "-" : "");
  if (point <= 0)
    g_string_append (out, "0.");
  for (int i = point; i < 0; i++)
    g_string_append_c (out, '0');
  for (int i = 0; i < n; i++)
    {
      if (i == point && i > 0)
        g_string_append_c (out, '.');
      g_string_append_c (out, digits[i]);
    }
  for (int i = n; i < point; i++)
    g_string_append_c (out, '0');
  return g_string_free (out, FALSE);
}

gboolean
fr_decimal_read (const char *text, int shift, double *value_out)
{
  g_autofree char *shifted = NULL;
  const char *p = text;
  gsize n_before, n_after = 0;
  long exponent = 0;

  *value_out = NAN;
  if (*p == '+' || *p == '-')
    p++;
  n_before = strspn (p, "0123456789");
  p += n_before;
  if (*p == '.')
    {
      p++;
      n_after = strspn (p, "0123456789");
      p += n_after;
    }
  if (n_before + n_after == 0 || n_before + n_after > DIGITS_MAX)
    return FALSE;
  shifted = g_strndup (text, (gsize)(p - text));
  if (*p == 'e' || *p == 'E')
    {
      gsize sign = p[1] == '+' || p[1] == '-', n = strspn (p + 1 + sign, "0123456789");

      if (n == 0 || n > 6)
        return FALSE;
      exponent = strtol (p + 1, NULL, 10);
      p += 1 + sign + n;
    }
  if (*p != '\0')
    return FALSE;
  {
    g_autofree char *whole = g_strdup_printf ("%se%ld", shifted, exponent - shift);

    *value_out = g_ascii_strtod (whole, NULL);
  }
  if (isfinite (*value_out))
    return TRUE;
  *value_out = NAN;
  return FALSE;
}

char *
fr_degrees_text (double deg, const char *as_read)
{
  char fixed[G_ASCII_DTOSTR_BUF_SIZE];
  double value;

  if (as_read != NULL && fr_decimal_read (as_read, 0, &value) && fabs (value - deg) <= SAME_DEG)
    return fr_decimal_text (value, 0);
  g_ascii_formatd (fixed, sizeof fixed, "%.11f", deg);
  return fr_decimal_text (g_ascii_strtod (fixed, NULL), 0);
}

char *
fr_degrees_kept (double deg)
{
  g_autofree char *text = fr_degrees_text (deg, NULL);

  return g_ascii_strtod (text, NULL) == deg ? NULL : fr_decimal_text (deg, 0);
}

char *
fr_field_text (const FrRecord *record, const FrField *field, int shift)
{
  gint64 whole;

  switch (field->type)
    {
    case FR_FIELD_TEXT:
    case FR_FIELD_CODE:
    case FR_FIELD_DATE:
      return g_strdup (fr_record_text (record, field));
    case FR_FIELD_AMOUNT:
      return fr_decimal_text (fr_record_amount ((FrRecord *)record, field)->value, shift);
    case FR_FIELD_BOOL:
      return g_strdup (fr_record_int (record, field) != 0 ? "true" : "false");
    default:
      whole = fr_record_int (record, field);
      return whole == (field->type == FR_FIELD_REF ? 0 : G_MININT64)
                 ? NULL
                 : g_strdup_printf ("%" G_GINT64_FORMAT, whole);
    }
}

gboolean
fr_field_read (FrRecord *record, const FrField *field, const char *text, int shift)
{
  double value;

  switch (field->type)
    {
    case FR_FIELD_TEXT:
    case FR_FIELD_CODE:
    case FR_FIELD_DATE:
      fr_record_set_text (record, field, text);
      return TRUE;
    case FR_FIELD_AMOUNT:
      if (!fr_decimal_read (text, shift, &value))
        return FALSE;
      {
        g_autofree char *typed = g_strdup (fr_record_amount (record, field)->typed);

        fr_record_set_amount (record, field, value, typed);
      }
      return TRUE;
    case FR_FIELD_BOOL:
      if (strcmp (text, "true") != 0 && strcmp (text, "false") != 0)
        return FALSE;
      fr_record_set_int (record, field, strcmp (text, "true") == 0);
      return TRUE;
    default:
      /* Instants and references are of no use outside their book. */
      return FALSE;
    }
}
