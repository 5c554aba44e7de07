/* A time zone as a table of offsets.
 *
 * An instant finds its offset by bisection. A local time is tried under every offset that holds within two
 * days of it (offsets are under a day): one that gives an instant inside its own span is an answer. No answer
 * means the clock jumped over that time; two, that it was set back. Exact within the table; before the first
 * and after the last change the first and the last offset hold. */
#include "domain/units/zone.h"

#include <string.h>

#define DAY_S 86400

struct _FrZoneTable
{
  char *name;
  guint n_spans;
  FrZoneSpan *spans;
};

FrZoneTable *
fr_zone_table_new (const char *name, const FrZoneSpan *spans, guint n_spans)
{
  FrZoneTable *table;

  if (name == NULL || spans == NULL || n_spans == 0 || spans[0].from_utc != G_MININT64)
    return NULL;
  for (guint i = 0; i < n_spans; i++)
    {
      if (spans[i].offset_s <= -DAY_S || spans[i].offset_s >= DAY_S)
        return NULL;
      if (i > 0 && spans[i].from_utc <= spans[i - 1].from_utc)
        return NULL;
      if (memchr (spans[i].abbreviation, '\0', sizeof spans[i].abbreviation) == NULL)
        return NULL;
    }

  table = g_new0 (FrZoneTable, 1);
  table->name = g_strdup (name);
  table->n_spans = n_spans;
  table->spans = g_memdup2 (spans, n_spans * sizeof *spans);
  return table;
}

FrZoneTable *
fr_zone_table_new_utc (void)
{
  const FrZoneSpan always = { G_MININT64, 0, FALSE, "UTC" };

  return fr_zone_table_new ("UTC", &always, 1);
}

FrZoneTable *
fr_zone_table_copy (const FrZoneTable *table)
{
  if (table == NULL)
    return NULL;
  return fr_zone_table_new (table->name, table->spans, table->n_spans);
}

void
fr_zone_table_free (FrZoneTable *table)
{
  if (table == NULL)
    return;
  g_free (table->name);
  g_free (table->spans);
  g_free (table);
}

const char *
fr_zone_table_name (const FrZoneTable *table)
{
  g_return_val_if_fail (table != NULL, NULL);

  return table->name;
}

/* The last span that begins at or before @utc_s; the first begins at the start of time, so there always is
 * one. */
static guint
span_at (const FrZoneTable *table, gint64 utc_s)
{
  guint lo = 0, hi = table->n_spans;

  while (hi - lo > 1)
    {
      const guint mid = lo + (hi - lo) / 2;

      if (table->spans[mid].from_utc <= utc_s)
        lo = mid;
      else
        hi = mid;
    }
  return lo;
}

FrLocalTime
fr_zone_local (const FrZoneTable *table, gint64 utc_s)
{
  FrLocalTime local = { { 0, 0, 0 }, 0, 0, 0, "" };
  const FrZoneSpan *span;
  gint64 days, seconds;

  g_return_val_if_fail (table != NULL, local);

  span = &table->spans[span_at (table, utc_s)];
  local.offset_s = span->offset_s;
  memcpy (local.abbreviation, span->abbreviation, sizeof local.abbreviation);
  /* Split before adding the offset: instants at the ends of the range must not overflow. */
  days = utc_s / DAY_S;
  seconds = utc_s % DAY_S + span->offset_s;
  while (seconds < 0)
    {
      seconds += DAY_S;
      days--;
    }
  while (seconds >= DAY_S)
    {
      seconds -= DAY_S;
      days++;
    }
  local.date = fr_date_from_days (days);
  local.second_of_day = (gint)seconds;
  local.weekday = fr_weekday_of_days (days);
  return local;
}

gboolean
fr_zone_is_dst (const FrZoneTable *table, gint64 utc_s)
{
  g_return_val_if_fail (table != NULL, FALSE);

  return table->spans[span_at (table, utc_s)].is_dst;
}

FrZoneFit
fr_zone_instant (const FrZoneTable *table, FrDate date, gint second_of_day, gint64 *first_out,
                 gint64 *second_out)
{
  gint64 local_s;
  guint first_span, n_found = 0;

  g_return_val_if_fail (first_out != NULL && second_out != NULL, FR_ZONE_NEVER);
  *first_out = *second_out = G_MININT64;
  g_return_val_if_fail (table != NULL, FR_ZONE_NEVER);
  g_return_val_if_fail (fr_date_is_valid (date), FR_ZONE_NEVER);
  g_return_val_if_fail (second_of_day >= 0 && second_of_day <= DAY_S, FR_ZONE_NEVER);

  local_s = fr_date_to_days (date) * DAY_S + second_of_day;
  first_span = span_at (table, local_s - 2 * DAY_S);
  for (guint i = first_span; i < table->n_spans; i++)
    {
      const FrZoneSpan *span = &table->spans[i];
      const gint64 until_utc = i + 1 < table->n_spans ? table->spans[i + 1].from_utc : G_MAXINT64;
      const gint64 utc_s = local_s - span->offset_s;

      if (span->from_utc > local_s + 2 * DAY_S)
        break;
      if (utc_s < span->from_utc || utc_s >= until_utc)
        continue;
      if (n_found == 0)
        *first_out = utc_s;
      *second_out = utc_s;
      n_found++;
    }
  if (n_found > 0)
    return n_found == 1 ? FR_ZONE_ONCE : FR_ZONE_TWICE;

  /* Jumped over: the change that the time is too late before and too early after. */
  for (guint i = first_span + 1; i < table->n_spans; i++)
    {
      const gint64 change = table->spans[i].from_utc;

      if (local_s - table->spans[i - 1].offset_s >= change && local_s - table->spans[i].offset_s < change)
        {
          *first_out = change - 1;
          *second_out = change;
          break;
        }
    }
  return FR_ZONE_NEVER;
}

gboolean
fr_zone_next_change (const FrZoneTable *table, gint64 utc_s, gint64 *change_out)
{
  guint at;

  g_return_val_if_fail (change_out != NULL, FALSE);
  *change_out = G_MAXINT64;
  g_return_val_if_fail (table != NULL, FALSE);

  /* A change of the name alone (same offset) moves no clock. */
  at = span_at (table, utc_s);
  for (guint i = at + 1; i < table->n_spans; i++)
    if (table->spans[i].offset_s != table->spans[i - 1].offset_s)
      {
        *change_out = table->spans[i].from_utc;
        return TRUE;
      }
  return FALSE;
}
