/* Amounts of money.
 *
 * Digits after the mark by ISO 4217 (list from memory; two for whatever is not listed). Signs are the
 * customary ones, from memory. Sums are whole minor units, so nothing is lost in adding; only fr_money_round
 * rounds. */
#include "domain/units/money.h"

#include <math.h>
#include <string.h>

#define NO_BREAK_SPACE "\u00a0"
#define MINUS "\u2212"
#define UNKNOWN "\u2013"

static const struct
{
  char code[4];
  int digits;
  const char *sign;       /* NULL: the code itself */
  const char *minor_sign; /* NULL: code and divisor */
} currencies[] = {
  { "AUD", 2, "$", "¢" },   { "BHD", 3, NULL, NULL }, { "BIF", 0, NULL, NULL }, { "CAD", 2, "$", "¢" },
  { "CLP", 0, "$", "$" },   { "CNY", 2, "¥", NULL },  { "CZK", 2, "Kč", NULL }, { "DJF", 0, NULL, NULL },
  { "DKK", 2, "kr", NULL }, { "EUR", 2, "€", "ct" },  { "GBP", 2, "£", "p" },   { "GNF", 0, NULL, NULL },
  { "IQD", 3, NULL, NULL }, { "INR", 2, "₹", NULL },  { "ISK", 0, "kr", "kr" }, { "JOD", 3, NULL, NULL },
  { "JPY", 0, "¥", "¥" },   { "KMF", 0, NULL, NULL }, { "KRW", 0, "₩", "₩" },   { "KWD", 3, NULL, NULL },
  { "LYD", 3, NULL, NULL }, { "NOK", 2, "kr", NULL }, { "NZD", 2, "$", "¢" },   { "OMR", 3, NULL, NULL },
  { "PLN", 2, "zł", NULL }, { "PYG", 0, "₲", "₲" },   { "RWF", 0, NULL, NULL }, { "SEK", 2, "kr", NULL },
  { "TND", 3, NULL, NULL }, { "UAH", 2, "₴", NULL },  { "UGX", 0, NULL, NULL }, { "USD", 2, "$", "¢" },
  { "UYI", 0, NULL, NULL }, { "VND", 0, "₫", "₫" },   { "VUV", 0, NULL, NULL }, { "XAF", 0, NULL, NULL },
  { "XOF", 0, NULL, NULL }, { "XPF", 0, NULL, NULL },
};

static int
find (const char *currency)
{
  for (guint i = 0; currency && i < G_N_ELEMENTS (currencies); i++)
    if (strcmp (currencies[i].code, currency) == 0)
      return (int)i;
  return -1;
}

gint64
fr_money_round (double minor)
{
  double whole = round (minor); /* half away from zero */

  /* Beyond 2^53 a double no longer counts single cents. */
  if (!(fabs (whole) <= 9007199254740992.0))
    return G_MININT64;
  return (gint64)whole;
}

int
fr_money_digits (const char *currency)
{
  int i = find (currency);

  return i < 0 ? 2 : currencies[i].digits;
}

const char *
fr_money_sign (const char *currency)
{
  int i = find (currency);

  if (i >= 0 && currencies[i].sign)
    return currencies[i].sign;
  return currency ? currency : "";
}

char *
fr_money_to_string (gint64 minor, const char *currency, char decimal_mark)
{
  const char *sign = fr_money_sign (currency);
  int digits = fr_money_digits (currency);
  gboolean before = strcmp (sign, "$") == 0 || strcmp (sign, "£") == 0 || strcmp (sign, "¥") == 0;
  guint64 size, unit = digits == 0 ? 1 : digits == 3 ? 1000 : 100;
  g_autofree char *number = NULL;

  if (minor == G_MININT64)
    return g_strdup (UNKNOWN);
  size = minor < 0 ? (guint64)-minor : (guint64)minor;
  if (digits == 0)
    number = g_strdup_printf ("%" G_GUINT64_FORMAT, size);
  else
    number = g_strdup_printf ("%" G_GUINT64_FORMAT "%c%0*" G_GUINT64_FORMAT, size / unit,
                              decimal_mark == ',' ? ',' : '.', digits, size % unit);
  if (before)
    return g_strconcat (minor < 0 ? MINUS : "", sign, number, NULL);
  return g_strconcat (minor < 0 ? MINUS : "", number, *sign ? NO_BREAK_SPACE : "", sign, NULL);
}

const char *
fr_money_minor_sign (const char *currency)
{
  int i = find (currency);
  char text[16];

  if (i >= 0 && currencies[i].minor_sign)
    return currencies[i].minor_sign;
  if (!fr_money_is_code (currency))
    return "";
  if (fr_money_digits (currency) == 0)
    return i >= 0 ? currencies[i].code : currency;
  g_snprintf (text, sizeof text, "%s/%s", currency, fr_money_digits (currency) == 3 ? "1000" : "100");
  /* three capital letters at most, so there are few to keep */
  return g_intern_string (text);
}

gboolean
fr_money_is_code (const char *currency)
{
  if (!currency)
    return FALSE;
  for (int i = 0; i < 3; i++)
    if (!g_ascii_isupper (currency[i]))
      return FALSE;
  return currency[3] == 0;
}
