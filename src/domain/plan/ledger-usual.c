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
  gint64 last_day;
  GArray *values;   /* its logarithms, while it is filled */
  GHashTable *into; /* container → how many of them */
} Source;

/* A day's entries, and how far those that can be told lie above their sources', sorted. */
typedef struct
{
  gint64 day;
  guint first;
  GArray *offs;
} Day;

struct _FrLedgerUsual
{
  const FrZoneTable *zone;
  GArray *entries; /* Entry, by time */
  GHashTable *places; /* FrGathering → place among the entries */
  GArray *sources;
  GHashTable *by_like; /* FrGathering → place among the sources */
  GArray *days;        /* Day */
  GHashTable *spreads; /* container → FrLedgerSpread, once asked for */
  gint64 first_day;
  gint64 last_day;
  guint n_days;      /* on which anything was gathered */
  double hour_s;     /* when, of the day */
  double sd;         /* left over beside source and day */
  double day_sd;     /* between days */
};

#define ENTRY(usual, i) g_array_index ((usual)->entries, Entry, i)
#define SOURCE(usual, i) g_array_index ((usual)->sources, Source, i)
#define DAY(usual, i) g_array_index ((usual)->days, Day, i)

/* --- medians --- */

static gint
by_value (gconstpointer a, gconstpointer b)
{
  return *(const double *)a < *(const double *)b ? -1 : *(const double *)a > *(const double *)b;
}

/* Of sorted values, without the one at @but; beyond the end of all of them. NAN of none. */
static double
median_but (const GArray *values, guint but)
{
  guint n = values->len - (but < values->len), low = (n - 1) / 2, high = n / 2;

  if (n == 0)
    return NAN;
  return (g_array_index (values, double, low + (low >= but)) + g_array_index (values, double, high + (high >= but))) / 2;
}

/* Sorts; NAN of none. */
static double
median (GArray *values)
{
  g_array_sort (values, by_value);
  return median_but (values, values->len);
}

/* The first that is not less. */
static guint
place_of (const GArray *values, double value)
{
  guint low = 0, high = values->len;

  while (low < high)
    if (g_array_index (values, double, (low + high) / 2) < value)
      low = (low + high) / 2 + 1;
    else
      high = (low + high) / 2;
  return low;
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

static guint
like_hash (gconstpointer data)
{
  const FrGathering *gathering = data;

  return g_str_hash (gathering->scope) ^ g_int64_hash (&gathering->tree) * 31 ^ g_int64_hash (&gathering->tap) * 17
         ^ (gathering->stand != NULL ? g_str_hash (gathering->stand) : 0);
}

static gboolean
is_same (gconstpointer a, gconstpointer b)
{
  const FrGathering *one = a, *other = b;

  return g_strcmp0 (one->scope, other->scope) == 0 && one->tree == other->tree && one->tap == other->tap
         && g_strcmp0 (one->stand, other->stand) == 0;
}

static void
source_clear (gpointer data)
{
  g_clear_pointer (&((Source *)data)->values, g_array_unref);
  g_clear_pointer (&((Source *)data)->into, g_hash_table_unref);
}

static void
day_clear (gpointer data)
{
  g_clear_pointer (&((Day *)data)->offs, g_array_unref);
}

static guint
source_of (FrLedgerUsual *usual, const FrGathering *gathering)
{
  gpointer place;
  Source source = { .like = gathering, .last_day = G_MININT64 };

  if (g_hash_table_lookup_extended (usual->by_like, gathering, NULL, &place))
    return GPOINTER_TO_UINT (place);
  source.values = new_values ();
  source.into = g_hash_table_new (g_int64_hash, g_int64_equal);
  g_array_append_val (usual->sources, source);
  g_hash_table_insert (usual->by_like, (gpointer)gathering, GUINT_TO_POINTER (usual->sources->len - 1));
  return usual->sources->len - 1;
}

/* The day's place, or where it would be. */
static guint
place_of_day (const FrLedgerUsual *usual, gint64 day)
{
  guint low = 0, high = usual->days->len;

  while (low < high)
    if (DAY (usual, (low + high) / 2).day < day)
      low = (low + high) / 2 + 1;
    else
      high = (low + high) / 2;
  return low;
}

/* NULL when nothing was gathered on it. */
static const Day *
find_day (const FrLedgerUsual *usual, gint64 day)
{
  guint place = place_of_day (usual, day);

  return place < usual->days->len && DAY (usual, place).day == day ? &DAY (usual, place) : NULL;
}

static double
off_of (const FrLedgerUsual *usual, const Entry *entry)
{
  return entry->x - SOURCE (usual, entry->source).mean;
}

/* How far the day's gatherings lie above theirs, but for one of them (or NULL); drawn towards none when there are few. */
static double
day_factor (const FrLedgerUsual *usual, const Day *day, const Entry *but, guint *n_out)
{
  guint place;

  *n_out = 0;
  if (day == NULL)
    return 0;
  place = but != NULL && SOURCE (usual, but->source).n > 1 ? place_of (day->offs, off_of (usual, but)) : day->offs->len;
  *n_out = day->offs->len - (place < day->offs->len);
  return *n_out == 0 ? 0 : median_but (day->offs, place) * *n_out / (*n_out + DAY_SHRINK);
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
      g_hash_table_insert (usual->places, (gpointer)entry.gathering, GUINT_TO_POINTER (usual->entries->len));
      g_array_append_val (usual->entries, entry);
    }
}

static void
count_into (Source *source, const gint64 *container)
{
  guint n = GPOINTER_TO_UINT (g_hash_table_lookup (source->into, container));

  g_hash_table_insert (source->into, (gpointer)container, GUINT_TO_POINTER (n + 1));
}

static void
fill_sources (FrLedgerUsual *usual)
{
  for (guint i = 0; i < usual->entries->len; i++)
    {
      const Entry *entry = &ENTRY (usual, i);
      Source *source = &SOURCE (usual, entry->source);

      g_array_append_val (source->values, entry->x);
      count_into (source, &entry->gathering->container);
      source->n_days += entry->day != source->last_day;
      source->last_day = entry->day;
    }
  for (guint s = 0; s < usual->sources->len; s++)
    {
      Source *source = &SOURCE (usual, s);

      source->n = source->values->len;
      source->mean = median (source->values);
      g_clear_pointer (&source->values, g_array_unref);
    }
}

static void
fill_offs (FrLedgerUsual *usual)
{
  for (guint i = 0; i < usual->entries->len; i++)
    {
      const Entry *entry = &ENTRY (usual, i);
      Day day = { entry->day, i, NULL };
      double off = off_of (usual, entry);

      if (usual->days->len == 0 || DAY (usual, usual->days->len - 1).day != entry->day)
        {
          day.offs = new_values ();
          g_array_append_val (usual->days, day);
        }
      if (SOURCE (usual, entry->source).n > 1)
        g_array_append_val (DAY (usual, usual->days->len - 1).offs, off);
    }
  for (guint i = 0; i < usual->days->len; i++)
    g_array_sort (DAY (usual, i).offs, by_value);
}

static void
fill_days (FrLedgerUsual *usual)
{
  g_autoptr (GArray) rest = new_values (), factors = new_values (), hours = new_values ();

  fill_offs (usual);
  for (guint i = 0; i < usual->entries->len; i++)
    {
      const Entry *entry = &ENTRY (usual, i);
      guint n;
      double factor = day_factor (usual, find_day (usual, entry->day), entry, &n), off = off_of (usual, entry),
             hour_s = fr_zone_local (usual->zone, entry->utc_s).second_of_day, without = off - factor;

      g_array_append_val (hours, hour_s);
      if (n > 0)
        g_array_append_val (rest, without);
      g_array_append_val (factors, off);
    }
  usual->n_days = usual->days->len;
  usual->hour_s = median (hours);
  usual->day_sd = factors->len < 5 ? MOST_SD : CLAMP (spread_of (factors), LEAST_SD, MOST_SD);
  usual->sd = rest->len < 5 ? usual->day_sd : CLAMP (spread_of (rest), LEAST_SD, MOST_SD);
  if (usual->entries->len > 0)
    {
      usual->first_day = DAY (usual, 0).day;
      usual->last_day = DAY (usual, usual->days->len - 1).day;
    }
}

FrLedgerUsual *
fr_ledger_usual_new (const FrStock *stock, const FrZoneTable *zone)
{
  FrLedgerUsual *usual = g_new0 (FrLedgerUsual, 1);

  usual->zone = zone;
  usual->entries = g_array_new (FALSE, FALSE, sizeof (Entry));
  usual->places = g_hash_table_new (NULL, NULL);
  usual->sources = g_array_new (FALSE, FALSE, sizeof (Source));
  g_array_set_clear_func (usual->sources, source_clear);
  usual->by_like = g_hash_table_new (like_hash, is_same);
  usual->days = g_array_new (FALSE, FALSE, sizeof (Day));
  g_array_set_clear_func (usual->days, day_clear);
  usual->spreads = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free);
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
  g_hash_table_unref (usual->spreads);
  g_array_unref (usual->days);
  g_hash_table_unref (usual->by_like);
  g_array_unref (usual->sources);
  g_hash_table_unref (usual->places);
  g_array_unref (usual->entries);
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
expected (const FrLedgerUsual *usual, const Source *source, gint64 day, const Entry *but)
{
  guint n;
  double factor = day_factor (usual, find_day (usual, day), but, &n);

  return (FrLedgerSpread){ source->n - (but != NULL ? 1 : 0), exp (source->mean + factor),
                           n > 0 ? usual->sd : usual->day_sd };
}

FrLedgerSpread
fr_ledger_usual_amount (const FrLedgerUsual *usual, const FrGathering *gathering)
{
  gpointer place;
  const Entry *entry;

  if (!g_hash_table_lookup_extended (usual->places, gathering, NULL, &place))
    return (FrLedgerSpread){ 0, NAN, NAN };
  entry = &ENTRY (usual, GPOINTER_TO_UINT (place));
  return expected (usual, &SOURCE (usual, entry->source), entry->day, entry);
}

FrLedgerSpread
fr_ledger_usual_into (const FrLedgerUsual *usual, gint64 container)
{
  g_autoptr (GArray) values = NULL;
  FrLedgerSpread spread, *known = g_hash_table_lookup (usual->spreads, &container);

  if (known != NULL)
    return *known;
  values = new_values ();
  for (guint i = 0; i < usual->entries->len; i++)
    if (ENTRY (usual, i).gathering->container == container)
      g_array_append_val (values, ENTRY (usual, i).x);
  spread = (FrLedgerSpread){ values->len, exp (median (values)), NAN };
  spread.spread_ratio = values->len < 5 ? MOST_SD : CLAMP (spread_of (values), LEAST_SD, MOST_SD);
  g_hash_table_insert (usual->spreads, g_memdup2 (&container, sizeof container), g_memdup2 (&spread, sizeof spread));
  return spread;
}

/* How many of a source's gatherings go into a container. */
static double
share_into (const Source *source, gint64 container)
{
  guint n = GPOINTER_TO_UINT (g_hash_table_lookup (source->into, &container));

  return (n + 0.1) / (source->n + 1.0);
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
  const Day *known = find_day (usual, day);
  gboolean any = known != NULL;

  for (guint i = any ? known->first : 0; any && i < usual->entries->len && ENTRY (usual, i).day == day; i++)
    there[ENTRY (usual, i).source] = TRUE;
  for (guint s = 0; s < usual->sources->len; s++)
    {
      const Source *source = &SOURCE (usual, s);
      double n = any ? usual->n_days : (double)(usual->last_day - usual->first_day + 1);
      FrLedgerWanting wanting;

      /* A second gathering on one day, or one of what was hardly ever gathered, is nothing to miss. */
      if (there[s] || source->n < 2)
        continue;
      wanting.chance_ratio = not_written (any ? n - source->n_days : n - usual->n_days, n) * share_into (source, container);
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
