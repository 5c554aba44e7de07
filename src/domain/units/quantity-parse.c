/* Reading what people type: number [unit] { number unit }.
 *
 * A number is digits with a point or a comma as its decimal mark, a vulgar fraction (½, 3/4), or whole and
 * fraction ("1½", "1 ½", "1 1/2"). Group marks are never read: where the other mark stands before exactly
 * three closing digits and one to three opening ones that do not begin with 0, the text could mean either,
 * and the answer is a question. Two numbers in a row ("1 500 g") are never joined or added. Any bytes may
 * come in; length and size are bounded, so nothing can overflow or take long. No locale is asked. */
#include "domain/units/quantity-units.h"

#include <math.h>
#include <string.h>

#define LONGEST_BYTES 200
#define LARGEST 1e12

#define MINUS_SIGN 0x2212
#define FRACTION_SLASH 0x2044

typedef struct
{
  double number;
  gboolean negative;
  gboolean clock;        /* 1:30, already in seconds */
  gboolean three_digits; /* whole and of exactly three digits: what a group looks like */
} Number;

typedef struct
{
  FrQuantityProblem problem;
  const char *at;
} Fault;

static gboolean
fail (Fault *fault, FrQuantityProblem problem, const char *at)
{
  fault->problem = problem;
  fault->at = at;
  return FALSE;
}

static const char *
skip_space (const char *p)
{
  while (*p && g_unichar_isspace (g_utf8_get_char (p)))
    p = g_utf8_next_char (p);
  return p;
}

/* Numerator and denominator of ½ and its like. */
static gboolean
vulgar_fraction (gunichar c, double *value)
{
  static const struct
  {
    gunichar c;
    double over, under;
  } fractions[] = {
    { 0x00BD, 1, 2 }, { 0x2153, 1, 3 }, { 0x2154, 2, 3 },  { 0x00BC, 1, 4 }, { 0x00BE, 3, 4 },
    { 0x2155, 1, 5 }, { 0x2156, 2, 5 }, { 0x2157, 3, 5 },  { 0x2158, 4, 5 }, { 0x2159, 1, 6 },
    { 0x215A, 5, 6 }, { 0x2150, 1, 7 }, { 0x215B, 1, 8 },  { 0x215C, 3, 8 }, { 0x215D, 5, 8 },
    { 0x215E, 7, 8 }, { 0x2151, 1, 9 }, { 0x2152, 1, 10 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (fractions); i++)
    if (fractions[i].c == c)
      {
        *value = fractions[i].over / fractions[i].under;
        return TRUE;
      }
  return FALSE;
}

static gboolean
is_mark (char c)
{
  return c == '.' || c == ',';
}

static gboolean
is_sign (gunichar c)
{
  return c == '-' || c == '+' || c == MINUS_SIGN;
}

static gboolean
is_slash (gunichar c)
{
  return c == '/' || c == FRACTION_SLASH;
}

/* Whether an unsigned number begins here. */
static gboolean
begins_number (const char *p)
{
  double unused;

  return g_ascii_isdigit (*p) || (is_mark (*p) && g_ascii_isdigit (p[1]))
         || vulgar_fraction (g_utf8_get_char (p), &unused);
}

static const char *
skip_digits (const char *p)
{
  while (g_ascii_isdigit (*p))
    p++;
  return p;
}

/* Digits, at most LONGEST_BYTES of them, so at most 1e200. */
static double
digits_value (const char *from, const char *to)
{
  double value = 0;

  for (; from < to; from++)
    value = value * 10 + (*from - '0');
  return value;
}

static double
decimal_value (const char *from, const char *mark, const char *to)
{
  char digits[LONGEST_BYTES + 2];
  gsize n = (gsize)(to - from);

  memcpy (digits, from, n);
  digits[n] = 0;
  if (mark)
    digits[mark - from] = '.';
  return g_ascii_strtod (digits, NULL);
}

/* From the second mark on: the whole run is a grouped number, or no number at all. */
static gboolean
fail_at_marks (const char *first, const char *second, Fault *fault)
{
  const char *mark = first;

  while (is_mark (*mark) && g_ascii_isdigit (mark[1]))
    {
      const char *next = skip_digits (mark + 1);
      gboolean last = !(is_mark (*next) && g_ascii_isdigit (next[1]));

      /* behind another mark the last run may be decimals of any length */
      if (next - mark != 4 && !(last && *mark != *first))
        return fail (fault, FR_QUANTITY_NOT_A_NUMBER, second);
      mark = next;
    }
  return fail (fault, FR_QUANTITY_AMBIGUOUS_GROUP, first);
}

/* "/2" after an upper number. */
static gboolean
read_under (const char **p, double over, double *value, Fault *fault)
{
  const char *from = g_utf8_next_char (*p), *to = skip_digits (from);
  double under = digits_value (from, to);

  if (under == 0)
    return fail (fault, FR_QUANTITY_NOT_A_NUMBER, from);
  *value = over / under;
  *p = to;
  return TRUE;
}

static gboolean
is_under (const char *p)
{
  return is_slash (g_utf8_get_char (p)) && g_ascii_isdigit (*g_utf8_next_char (p));
}

/* hours:minutes[:seconds]; *p stands on the first colon. */
static gboolean
read_clock (const char **p, double hours, Number *number, Fault *fault)
{
  double seconds = hours * 3600, weight = 60;

  for (; **p == ':' && weight >= 1; weight /= 60)
    {
      const char *from = *p + 1, *to = skip_digits (from);

      if (to - from != 2 || from[0] > '5')
        return fail (fault, FR_QUANTITY_NOT_A_NUMBER, from);
      seconds += weight * digits_value (from, to);
      *p = to;
    }
  number->number = seconds;
  number->clock = TRUE;
  return TRUE;
}

/* What may follow whole digits: a fraction's lower half, a fraction, or a clock's minutes. */
static gboolean
read_after_digits (const char **p, const char *from, FrQuantityKind kind, Number *number, Fault *fault)
{
  const char *to = *p, *next = skip_space (to);
  double part;

  number->number = digits_value (from, to);
  number->three_digits = to - from == 3;
  if (is_under (to))
    {
      number->three_digits = FALSE;
      return read_under (p, number->number, &number->number, fault);
    }
  if (*to == ':' && kind == FR_QUANTITY_SPAN)
    return read_clock (p, number->number, number, fault);
  if (*next && vulgar_fraction (g_utf8_get_char (next), &part))
    {
      number->number += part;
      *p = g_utf8_next_char (next);
    }
  else if (next > to && g_ascii_isdigit (*next) && is_under (skip_digits (next)))
    {
      const char *under = skip_digits (next);

      if (!read_under (&under, digits_value (next, under), &part, fault))
        return FALSE;
      if (part >= 1) /* "2 5/4" is more likely a slip than two and five quarters */
        return fail (fault, FR_QUANTITY_NOT_A_NUMBER, next);
      number->number += part;
      *p = under;
    }
  return TRUE;
}

static gboolean
read_number (const char **p, FrQuantityKind kind, char household_mark, Number *number, Fault *fault)
{
  const char *start = *p, *from, *to;
  gunichar c = g_utf8_get_char (start);

  memset (number, 0, sizeof *number);
  if (is_sign (c))
    {
      number->negative = c != '+';
      *p = skip_space (g_utf8_next_char (*p));
    }
  if (!begins_number (*p))
    return fail (fault, FR_QUANTITY_NOT_A_NUMBER, *p);
  if (vulgar_fraction (g_utf8_get_char (*p), &number->number))
    {
      *p = g_utf8_next_char (*p);
      return TRUE;
    }
  from = *p;
  to = skip_digits (from);
  *p = to;
  if (is_mark (*to))
    {
      const char *mark = to;

      to = skip_digits (mark + 1);
      if (is_mark (*to) && g_ascii_isdigit (to[1]))
        return fail_at_marks (mark, to, fault);
      if (*mark != household_mark && to - mark == 4 && mark - from >= 1 && mark - from <= 3 && *from != '0')
        return fail (fault, FR_QUANTITY_AMBIGUOUS_GROUP, mark);
      *p = to;
      number->number = decimal_value (from, mark, to);
      c = g_utf8_get_char (to);
      if (vulgar_fraction (c, &(double){ 0 }) || is_under (to) || is_mark (*to))
        return fail (fault, FR_QUANTITY_NOT_A_NUMBER, to);
    }
  else if (!read_after_digits (p, from, kind, number, fault))
    return FALSE;
  if (number->number > LARGEST)
    return fail (fault, FR_QUANTITY_TOO_LONG, start);
  return TRUE;
}

/* Where a unit's words end: at the next number or the end of the text. */
static const char *
skip_unit (const char *p)
{
  while (*p && !begins_number (p))
    {
      if (is_sign (g_utf8_get_char (p)) && begins_number (skip_space (g_utf8_next_char (p))))
        break;
      p = g_utf8_next_char (p);
    }
  return p;
}

static gboolean
is_any_unit (const char *folded, const FrUnits *units)
{
  FrUnitFit unused;

  for (guint kind = 0; kind < FR_N_QUANTITIES; kind++)
    if (fr_unit_find (folded, (FrQuantityKind)kind, units, &unused))
      return TRUE;
  return FALSE;
}

/* The unit of a number without one: what is shown for the first; after hours or minutes the next smaller one,
 * if the number is a whole one that fits ("1 h 56"). @fit comes in as the unit before. */
static gboolean
bare_unit (guint n_parts, double number, FrQuantityKind kind, const FrUnits *units, FrUnitFit *fit)
{
  if (n_parts == 1)
    *fit = fr_unit_shown (kind, units);
  else if (kind == FR_QUANTITY_SPAN && fit->scale_ratio > 1 && number < 60 && number == floor (number))
    fit->scale_ratio /= 60;
  else
    return FALSE;
  return TRUE;
}

static gboolean
read_all (const char *text, FrQuantityKind kind, const FrUnits *units, double *sum, Fault *fault)
{
  char mark = units->decimal_mark == ',' ? ',' : '.';
  const char *p = skip_space (text), *first = p;
  gboolean first_negative = FALSE;
  FrUnitFit fit = { FR_UNIT_LINEAR, 1, 1 };
  guint n_parts = 0;

  *sum = 0;
  while (*p)
    {
      const char *start = p, *unit, *unit_end;
      g_autofree char *folded = NULL;
      Number number;
      double inner;

      if (!read_number (&p, kind, mark, &number, fault))
        return FALSE;
      n_parts++;
      unit = skip_space (p);
      unit_end = skip_unit (unit);
      folded = fr_unit_fold (unit, (gsize)(unit_end - unit));
      p = unit_end;

      if (unit == unit_end && *unit_end)
        {
          /* two numbers in a row; look at the second to say what it might have been */
          Number second;
          const char *q = unit_end;
          Fault unused;

          if (n_parts == 1 && read_number (&q, kind, mark, &second, &unused) && second.three_digits)
            return fail (fault, FR_QUANTITY_AMBIGUOUS_GROUP, unit_end);
          return fail (fault, FR_QUANTITY_MIXED, unit_end);
        }
      if (number.clock)
        {
          if (*folded && strcmp (folded, "h") != 0)
            return fail (fault, FR_QUANTITY_UNKNOWN_UNIT, unit);
          if (n_parts > 1 || *p)
            return fail (fault, FR_QUANTITY_MIXED, n_parts > 1 ? start : p);
          fit = (FrUnitFit){ FR_UNIT_LINEAR, 1, 1 };
        }
      else if (unit == unit_end)
        {
          if (!bare_unit (n_parts, number.number, kind, units, &fit))
            return fail (fault, FR_QUANTITY_MIXED, start);
        }
      else if (!fr_unit_find (folded, kind, units, &fit))
        {
          if (n_parts > 1 && is_any_unit (folded, units))
            return fail (fault, FR_QUANTITY_MIXED, start);
          return fail (fault, FR_QUANTITY_UNKNOWN_UNIT, unit);
        }

      if (n_parts == 1)
        first_negative = number.negative;
      if (number.negative && !fr_quantity_may_be_negative (kind))
        return fail (fault, FR_QUANTITY_MIXED, start);
      if (n_parts > 1 && (number.negative || first_negative || !fr_quantity_adds (kind)))
        return fail (fault, FR_QUANTITY_MIXED, first_negative ? first : start);
      inner = fr_unit_to_inner (fit, number.negative ? -number.number : number.number);
      *sum += inner;
      if (!(fabs (*sum) <= LARGEST)) /* also where a scale ends, such as 60 °Bé */
        return fail (fault, FR_QUANTITY_TOO_LONG, start);
    }
  return TRUE;
}

gboolean
fr_quantity_parse (const char *text, FrQuantityKind kind, const FrUnits *units, double *value_out,
                   FrQuantityProblem *problem_out, gsize *at_out)
{
  static const FrUnits metric = { FR_SYSTEM_METRIC, FALSE, '.', NULL, 0 };
  Fault fault = { FR_QUANTITY_OK, NULL };
  const char *bad;
  double sum;

  g_return_val_if_fail (value_out != NULL, FALSE);
  g_return_val_if_fail ((int)kind >= 0 && kind < FR_N_QUANTITIES, FALSE);

  text = text ? text : "";
  fault.at = text;
  *value_out = NAN;
  if (!g_utf8_validate (text, -1, &bad))
    fail (&fault, FR_QUANTITY_NOT_A_NUMBER, bad);
  else if (*skip_space (text) == 0)
    fault.problem = FR_QUANTITY_EMPTY;
  else if (strlen (text) > LONGEST_BYTES)
    fail (&fault, FR_QUANTITY_TOO_LONG, g_utf8_find_prev_char (text, text + LONGEST_BYTES + 1));
  else if (read_all (text, kind, units ? units : &metric, &sum, &fault))
    *value_out = sum == 0 ? 0 : sum; /* −0 is 0 */
  if (problem_out)
    *problem_out = fault.problem;
  if (at_out)
    *at_out = (gsize)(fault.at - text);
  return fault.problem == FR_QUANTITY_OK || fault.problem == FR_QUANTITY_EMPTY;
}
