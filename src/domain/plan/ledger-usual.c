/* What the trees usually give: each thing that is gathered by itself (a tree, a tap, a group, the whole bush) has its middling amount, and
 * each day a factor by which that day's gatherings lie above or below theirs, both of logarithms of litres and by medians, so that one
 * wrong entry moves neither. What is left over is how far one gathering is off from that. All of it: common sense, no source; that days
 * differ much more than trees do within a day was measured at two sites (taps on one day go together with r 0.65). */
#include "domain/plan/ledger-private.h"

#include <math.h>
#include <stdlib.h>

#define NOT_WRITTEN 0.02 /* gatherings that are made and not written down: common sense */
#define DAY_SHRINK 0.5   /* as good as so many gatherings that say a day is like any other */
#define LEAST_SD 0.2
#define MOST_SD 1.2

typedef struct
{
  const FrGathering *gathering;
  gint64 utc_s;
  gint64 day;
  double x; /* logarithm of litres */
  guint source;
} Entry;

/* Something that is gathered by itself. */
typedef struct
{
  const FrGathering *like;
  double mean;
  guint n;
  guint n_days; /* on which anything was gathered and it was too */
} Source;

struct _FrLedgerUsual
{
  const FrZoneTable *zone;
  GArray *entries; /* Entry, by time */
  GArray *sources;
  gint64 first_day;
  gint64 last_day;
  guint n_days;      /* on which anything was gathered */
  double hour_s;     /* when, of the day */
  double sd;         /* left over beside source and day */
  double day_sd;     /* between days */
};

#define ENTRY(usual, i) g_array_index ((usual)->entries, Entry, i)
#define SOURCE(usual, i) g_array_index ((usual)->sources, Source, i)

/* --- medians --- */

static gint
by_value (gconstpointer a, gconstpointer b)
{
  return *(const double *)a < *(const double *)b ? -1 : *(const double *)a > *(const double *)b;
}

/* Sorts; NAN of none. */
static double
median (GArray *values)
{
  if (values->len == 0)
    return NAN;
  g_array_sort (values, by_value);
  return (g_array_index (values, double, (values->len - 1) / 2) + g_array_index (values, double, values->len / 2)) / 2;
}

/* Of a normal distribution, 1.4826 times the median distance from the middle. */
static double
spread_of (GArray *values)
{
  double middle = median (values);

  for (guint i = 0; i < values->len; i++)
    g_array_index (values, double, i) = fabs (g_array_index (values, double, i) - middle);
  return 1.4826 * median (values);
}

static GArray *
new_values (void)
{
  return g_array_new (FALSE, FALSE, sizeof (double));
}

/* --- sources and days --- */

static gboolean
is_same (const FrGathering *one, const FrGathering *other)
{
  return g_strcmp0 (one->scope, other->scope) == 0 && one->tree == other->tree && one->tap == other->tap
         && g_strcmp0 (one->stand, other->stand) == 0;
}

static guint
source_of (FrLedgerUsual *usual, const FrGathering *gathering)
{
  Source source = { .like = gathering };

  for (guint i = 0; i < usual->sources->len; i++)
    if (is_same (SOURCE (usual, i).like, gathering))
      return i;
  g_array_append_val (usual->sources, source);
  return usual->sources->len - 1;
}

static guint
first_of_day (const FrLedgerUsual *usual, gint64 day)
{
  guint low = 0, high = usual->entries->len;

  while (low < high)
    if (ENTRY (usual, (low + high) / 2).day < day)
      low = (low + high) / 2 + 1;
    else
      high = (low + high) / 2;
  return low;
}

/* How far the day's gatherings lie above theirs, but for one of them; drawn towards none when there are few. */
static double
day_factor (const FrLedgerUsual *usual, gint64 day, const FrGathering *but, guint *n_out)
{
  g_autoptr (GArray) values = new_values ();

  for (guint i = first_of_day (usual, day); i < usual->entries->len && ENTRY (usual, i).day == day; i++)
    {
      const Entry *entry = &ENTRY (usual, i);
      double off = entry->x - SOURCE (usual, entry->source).mean;

      if (entry->gathering != but && SOURCE (usual, entry->source).n > 1)
        g_array_append_val (values, off);
    }
  *n_out = values->len;
  return values->len == 0 ? 0 : median (values) * values->len / (values->len + DAY_SHRINK);
}

static void
fill_entries (FrLedgerUsual *usual, const FrStock *stock)
{
  for (guint k = 0; k < stock->n_flows; k++)
    {
      const FrStockFlow *flow = &stock->flows[k];
      Entry entry = { .utc_s = flow->utc_s };

      if (flow->kind != FR_FLOW_GATHERED || !(flow->volume_l > 0))
        continue;
      entry.gathering = (const FrGathering *)flow->record;
      entry.day = fr_date_to_days (fr_zone_local (usual->zone, flow->utc_s).date);
      entry.x = log (flow->volume_l);
      entry.source = source_of (usual, entry.gathering);
      g_array_append_val (usual->entries, entry);
    }
}

static void
fill_sources (FrLedgerUsual *usual)
{
  for (guint s = 0; s < usual->sources->len; s++)
    {
      Source *source = &SOURCE (usual, s);
      g_autoptr (GArray) values = new_values ();
      gint64 last_day = G_MININT64;

      for (guint i = 0; i < usual->entries->len; i++)
        if (ENTRY (usual, i).source == s)
          {
            g_array_append_val (values, ENTRY (usual, i).x);
            source->n_days += ENTRY (usual, i).day != last_day;
            last_day = ENTRY (usual, i).day;
          }
      source->n = values->len;
      source->mean = median (values);
    }
}

static void
fill_days (FrLedgerUsual *usual)
{
  g_autoptr (GArray) rest = new_values (), factors = new_values (), hours = new_values ();
  gint64 last_day = G_MININT64;

  for (guint i = 0; i < usual->entries->len; i++)
    {
      const Entry *entry = &ENTRY (usual, i);
      guint n;
      double factor = day_factor (usual, entry->day, entry->gathering, &n),
             off = entry->x - SOURCE (usual, entry->source).mean,
             hour_s = fr_zone_local (usual->zone, entry->utc_s).second_of_day, without = off - factor;

      g_array_append_val (hours, hour_s);
      if (n > 0)
        g_array_append_val (rest, without);
      g_array_append_val (factors, off);
      usual->n_days += entry->day != last_day;
      last_day = entry->day;
    }
  usual->hour_s = median (hours);
  usual->day_sd = factors->len < 5 ? MOST_SD : CLAMP (spread_of (factors), LEAST_SD, MOST_SD);
  usual->sd = rest->len < 5 ? usual->day_sd : CLAMP (spread_of (rest), LEAST_SD, MOST_SD);
  if (usual->entries->len > 0)
    {
      usual->first_day = ENTRY (usual, 0).day;
      usual->last_day = last_day;
    }
}

FrLedgerUsual *
fr_ledger_usual_new (const FrStock *stock, const FrZoneTable *zone)
{
  FrLedgerUsual *usual = g_new0 (FrLedgerUsual, 1);

  usual->zone = zone;
  usual->entries = g_array_new (FALSE, FALSE, sizeof (Entry));
  usual->sources = g_array_new (FALSE, FALSE, sizeof (Source));
  fill_entries (usual, stock);
  fill_sources (usual);
  fill_days (usual);
  return usual;
}

void
fr_ledger_usual_free (FrLedgerUsual *usual)
{
  if (usual == NULL)
    return;
  g_array_unref (usual->entries);
  g_array_unref (usual->sources);
  g_free (usual);
}

guint
fr_ledger_usual_n (const FrLedgerUsual *usual)
{
  return usual->entries->len;
}

/* --- answers --- */

/* A source on a day, as others of the day and its own other days say; but for one entry. */
static FrLedgerSpread
expected (const FrLedgerUsual *usual, const Source *source, gint64 day, const FrGathering *but)
{
  guint n;
  double factor = day_factor (usual, day, but, &n);

  return (FrLedgerSpread){ source->n - (but != NULL ? 1 : 0), exp (source->mean + factor),
                           n > 0 ? usual->sd : usual->day_sd };
}

FrLedgerSpread
fr_ledger_usual_amount (const FrLedgerUsual *usual, const FrGathering *gathering)
{
  for (guint i = 0; i < usual->entries->len; i++)
    if (ENTRY (usual, i).gathering == gathering)
      return expected (usual, &SOURCE (usual, ENTRY (usual, i).source), ENTRY (usual, i).day, gathering);
  return (FrLedgerSpread){ 0, NAN, NAN };
}

FrLedgerSpread
fr_ledger_usual_into (const FrLedgerUsual *usual, gint64 container)
{
  g_autoptr (GArray) values = new_values ();
  FrLedgerSpread spread;

  for (guint i = 0; i < usual->entries->len; i++)
    if (ENTRY (usual, i).gathering->container == container)
      g_array_append_val (values, ENTRY (usual, i).x);
  spread = (FrLedgerSpread){ values->len, exp (median (values)), NAN };
  spread.spread_ratio = values->len < 5 ? MOST_SD : CLAMP (spread_of (values), LEAST_SD, MOST_SD);
  return spread;
}

/* How many of a source's gatherings go into a container. */
static double
share_into (const FrLedgerUsual *usual, guint source, gint64 container)
{
  guint n = 0;

  for (guint i = 0; i < usual->entries->len; i++)
    n += ENTRY (usual, i).source == source && ENTRY (usual, i).gathering->container == container;
  return (n + 0.1) / (SOURCE (usual, source).n + 1.0);
}

/* Chance that it was made and not written, against that it was not made: on so many days of @n it was not, this one aside. */
static double
not_written (double n_without, double n)
{
  return NOT_WRITTEN / ((n_without - 0.5) / (n + 1));
}

static void
add_wanting (const FrLedgerUsual *usual, gint64 container, gint64 day, GArray *found)
{
  g_autofree gboolean *there = g_new0 (gboolean, usual->sources->len);
  gboolean any = FALSE;

  for (guint i = first_of_day (usual, day); i < usual->entries->len && ENTRY (usual, i).day == day; i++)
    any = there[ENTRY (usual, i).source] = TRUE;
  for (guint s = 0; s < usual->sources->len; s++)
    {
      const Source *source = &SOURCE (usual, s);
      double n = any ? usual->n_days : (double)(usual->last_day - usual->first_day + 1);
      FrLedgerWanting wanting;

      /* A second gathering on one day, or one of what was hardly ever gathered, is nothing to miss. */
      if (there[s] || source->n < 2)
        continue;
      wanting.chance_ratio = not_written (any ? n - source->n_days : n - usual->n_days, n) * share_into (usual, s, container);
      /* A whole round that is wanting is several entries, of which this is one. */
      if (!any)
        wanting.chance_ratio /= usual->sources->len;
      wanting.amount = expected (usual, source, day, NULL);
      g_array_append_val (found, wanting);
    }
}

GArray *
fr_ledger_usual_wanting (const FrLedgerUsual *usual, gint64 container, gint64 from_utc, gint64 to_utc)
{
  GArray *found = g_array_new (FALSE, FALSE, sizeof (FrLedgerWanting));
  gint64 first, last;

  if (usual->entries->len == 0)
    return found;
  first = MAX (usual->first_day, fr_date_to_days (fr_zone_local (usual->zone, from_utc).date));
  last = MIN (usual->last_day, fr_date_to_days (fr_zone_local (usual->zone, to_utc).date));
  for (gint64 day = first; day <= last; day++)
    {
      gint64 from, to, utc_s;

      fr_day_span_utc (usual->zone, fr_date_from_days (day), &from, &to);
      utc_s = from + (gint64)usual->hour_s;
      if (utc_s > from_utc && utc_s <= to_utc)
        add_wanting (usual, container, day, found);
    }
  return found;
}
