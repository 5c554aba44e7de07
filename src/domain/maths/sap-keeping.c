/* Keeping by the sum of shares: an hour at a temperature that allows 48 uses 1/48 (as Miner's rule adds up
 * wear). The allowance is a staircase, so that a straight line of temperature is cut where it meets a step,
 * and each piece is time / allowance. */
#include "domain/maths/sap-keeping.h"

#include "domain/units/number-read.h"

#include <math.h>
#include <string.h>

#define SECONDS_PER_HOUR 3600.0

static gboolean
read_row (const char *at, const char *end, FrKeepingRow *row_out)
{
  gboolean minus = FALSE;

  row_out->up_to_c = INFINITY;
  if (*at == '>')
    at++;
  else
    {
      minus = *at == '-';
      at += minus;
      if (!fr_number_read (&at, &row_out->up_to_c))
        return FALSE;
      if (minus)
        row_out->up_to_c = -row_out->up_to_c;
    }
  if (!fr_number_read (&at, &row_out->allowed_h))
    return FALSE;
  at += strspn (at, " \t\r");
  return at == end;
}

gboolean
fr_keeping_table_parse (const char *text, FrKeepingTable *table_out, guint *bad_line_out)
{
  guint line = 0;

  memset (table_out, 0, sizeof *table_out);
  *bad_line_out = 0;
  for (const char *at = text != NULL ? text : ""; *at != '\0';)
    {
      const char *end = at + strcspn (at, "\n");

      line++;
      at += strspn (at, " \t\r");
      if (at < end && *at != '#')
        {
          const FrKeepingRow *last = table_out->n_rows > 0 ? &table_out->rows[table_out->n_rows - 1] : NULL;
          FrKeepingRow row;

          if (table_out->n_rows == FR_KEEPING_ROWS_MAX || !read_row (at, end, &row) || !(row.allowed_h > 0)
              || (last != NULL && !(row.up_to_c > last->up_to_c && row.allowed_h <= last->allowed_h)))
            {
              *bad_line_out = line;
              return FALSE;
            }
          table_out->rows[table_out->n_rows++] = row;
        }
      at = *end == '\n' ? end + 1 : end;
    }
  return table_out->n_rows > 0;
}

double
fr_keeping_allowed_h (const FrKeepingTable *table, double temp_c)
{
  for (guint i = 0; i < table->n_rows; i++)
    if (temp_c <= table->rows[i].up_to_c)
      return table->rows[i].allowed_h;
  return NAN;
}

/* Adds the stretch from @a_c to @b_c in @span_s to *used until that reaches @limit; *done_s is how far it
 * came. FALSE where the table has no answer. */
static gboolean
use (const FrKeepingTable *table, double a_c, double b_c, double span_s, double limit, double *used,
     double *done_s)
{
  double done = 0;

  *done_s = 0;
  for (guint k = 0; k <= table->n_rows && done < 1; k++)
    {
      /* The next step ahead, in the order in which they are met; after the last the stretch's end. */
      guint i = b_c > a_c ? k : table->n_rows - 1 - k;
      double cut = 1, allowed_s, share;

      if (k < table->n_rows && a_c != b_c)
        cut = (table->rows[i].up_to_c - a_c) / (b_c - a_c);
      if (!(cut > done))
        continue;
      cut = MIN (cut, 1);
      allowed_s = SECONDS_PER_HOUR * fr_keeping_allowed_h (table, a_c + (b_c - a_c) * (done + cut) / 2);
      share = (cut - done) * span_s / allowed_s;
      if (isnan (share))
        return FALSE;
      if (*used + share >= limit)
        {
          *done_s = done * span_s + (limit - *used) * allowed_s;
          *used = limit;
          return TRUE;
        }
      *used += share;
      done = cut;
    }
  *done_s = span_s;
  return TRUE;
}

/* Through the trace until @limit, which *utc_out is then when, else its last moment. */
static gboolean
use_trace (const FrKeepingTable *table, const GArray *trace, double unknown_c, double limit, double *used,
           gint64 *utc_out)
{
  for (guint i = 1; i < trace->len; i++)
    {
      const FrSapBodyMoment *a = &g_array_index (trace, FrSapBodyMoment, i - 1), *b = a + 1;
      gboolean known = !isnan (a->temp_c) && !isnan (b->temp_c);
      double done_s;

      if (a->utc_s == b->utc_s)
        continue;
      if (!use (table, known ? a->temp_c : unknown_c, known ? b->temp_c : unknown_c,
                (double)(b->utc_s - a->utc_s), limit, used, &done_s))
        return FALSE;
      *utc_out = a->utc_s + (gint64)floor (done_s);
      if (*used >= limit)
        return TRUE;
    }
  return TRUE;
}

double
fr_keeping_used_ratio (const FrKeepingTable *table, const GArray *trace, double unknown_c)
{
  double used = 0;
  gint64 utc;

  return use_trace (table, trace, unknown_c, INFINITY, &used, &utc) ? used : NAN;
}

gboolean
fr_keeping_spoils_utc (const FrKeepingTable *table, double used_ratio, const GArray *forecast,
                       double unknown_c, gint64 *utc_out)
{
  const FrSapBodyMoment *last;
  double used = used_ratio, temp_c, left_s;
  gint64 utc;

  g_return_val_if_fail (forecast->len > 0, FALSE);
  last = &g_array_index (forecast, FrSapBodyMoment, forecast->len - 1);
  utc = g_array_index (forecast, FrSapBodyMoment, 0).utc_s;
  if (isnan (used) || (used < 1 && !use_trace (table, forecast, unknown_c, 1, &used, &utc)))
    return FALSE;
  if (used < 1)
    {
      temp_c = isnan (last->temp_c) ? unknown_c : last->temp_c;
      left_s = (1 - used) * SECONDS_PER_HOUR * fr_keeping_allowed_h (table, temp_c);
      if (isnan (left_s))
        return FALSE;
      utc = last->utc_s + (gint64)floor (left_s);
    }
  *utc_out = utc;
  return TRUE;
}
