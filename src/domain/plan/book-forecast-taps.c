/* Taps and gatherings.
 *
 * A total says of how many taps it is: those of its scope that were set and not yet pulled. Each tap remembers when it was emptied last, so
 * that a day's litres are of so many taps over so many days, whatever scopes they were written down in. Litres are turned into those of the
 * bush's middling tap by what species, size, crown and number on the trunk lead to expect (maths/tree-yield.h). Shares of totals, which are
 * estimates, are not looked at. */
#include "domain/plan/book-forecast-private.h"

#include "domain/maths/tree-yield.h"
#include "domain/plan/bush-private.h"
#include "domain/plan/gathering.h"
#include "domain/plan/season-private.h"

#include <math.h>

#define NEVER G_MAXINT64

typedef struct
{
  const FrTap *tap;
  const FrTree *tree;
  gint64 set;
  gint64 pulled; /* NEVER */
  gint64 emptied;
  double yield_ratio;
  gboolean is_covered; /* by the day's gatherings */
} Hole;

static gint64
days_of (const char *iso)
{
  FrDate date = fr_season_date (iso);

  return date.year != 0 ? fr_date_to_days (date) : NEVER;
}

/* The latest measure, whatever its day: a size a few years off says more than none. */
static double
diameter_m (const GPtrArray *girths, gint64 tree)
{
  const FrGirth *latest = NULL;

  for (guint i = 0; girths != NULL && i < girths->len; i++)
    {
      const FrGirth *girth = girths->pdata[i];

      if (girth->record.archived || girth->tree != tree || isnan (girth->size_m.value))
        continue;
      if (latest == NULL || g_strcmp0 (girth->measured_on, latest->measured_on) >= 0)
        latest = girth;
    }
  return latest != NULL ? fr_girth_diameter_m (latest) : NAN;
}

static gint
by_set (gconstpointer a, gconstpointer b)
{
  const Hole *one = a, *two = b;

  if (one->set != two->set)
    return one->set < two->set ? -1 : 1;
  return (one->tap->record.id > two->tap->record.id) - (one->tap->record.id < two->tap->record.id);
}

/* By the day they were set. */
static GArray *
find_holes (const FrSeasonBook *book, guint season)
{
  GArray *holes = g_array_new (FALSE, TRUE, sizeof (Hole));
  g_autoptr (GHashTable) numbers = g_hash_table_new (g_int64_hash, g_int64_equal);

  for (guint i = 0; book->taps != NULL && i < book->taps->len; i++)
    {
      FrDate set;
      Hole hole = { .tap = book->taps->pdata[i] };

      if (!fr_season_tap (hole.tap, season, &set))
        continue;
      hole.tree = (const FrTree *)fr_season_find (book->trees, hole.tap->tree);
      hole.set = hole.emptied = fr_date_to_days (set);
      hole.pulled = days_of (hole.tap->pulled_on);
      g_array_append_val (holes, hole);
    }
  g_array_sort (holes, by_set);
  for (guint i = 0; i < holes->len; i++)
    {
      Hole *hole = &g_array_index (holes, Hole, i);
      guint number = GPOINTER_TO_UINT (g_hash_table_lookup (numbers, &hole->tap->tree));
      const char *species = hole->tree != NULL ? hole->tree->species : NULL;

      hole->yield_ratio = fr_sap_species (species)->tap_l / fr_sap_species ("sugar")->tap_l
                          * fr_size_yield_ratio (diameter_m (book->girths, hole->tap->tree))
                          * fr_crown_yield_ratio (hole->tree != NULL ? hole->tree->crown : NULL) * fr_later_tap_ratio (number);
      g_hash_table_insert (numbers, (gpointer)&hole->tap->tree, GUINT_TO_POINTER (number + 1));
    }
  return holes;
}

static void
put_groups (FrBookForecast *asked, const GArray *holes, gint64 today)
{
  for (guint i = 0; i < holes->len; i++)
    {
      const Hole *hole = &g_array_index (holes, Hole, i);
      FrTapGroup *last = asked->groups->len > 0 ? &g_array_index (asked->groups, FrTapGroup, asked->groups->len - 1) : NULL;
      FrTapGroup group = { fr_date_from_days (hole->set), 1, hole->yield_ratio };

      if (hole->set > today)
        continue;
      if (asked->question.tapped.year == 0)
        asked->question.tapped = group.tapped;
      if (hole->pulled <= today)
        continue;
      /* What taps of one day give together is all that counts. */
      if (last != NULL && fr_date_compare (last->tapped, group.tapped) == 0)
        {
          last->yield_ratio = (last->yield_ratio * last->n_taps + hole->yield_ratio) / (last->n_taps + 1);
          last->n_taps++;
        }
      else
        g_array_append_val (asked->groups, group);
    }
}

/* --- gatherings --- */

FrDate
fr_forecast_date_of (const FrForecastFrame *frame, gint64 utc_s)
{
  gint64 local_s = utc_s + frame->offset_s - frame->gather_hour * 3600 + 43200;

  if (frame->gather_hour < 0)
    return fr_zone_local (frame->book->zone, utc_s).date;
  return fr_date_from_days (local_s / 86400 - (local_s % 86400 < 0));
}

static gboolean
covers (const FrGathering *gathering, const Hole *hole)
{
  if (g_strcmp0 (gathering->scope, "tap") == 0)
    return hole->tap->record.id == gathering->tap;
  if (g_strcmp0 (gathering->scope, "tree") == 0)
    return hole->tap->tree == gathering->tree;
  if (g_strcmp0 (gathering->scope, "group") == 0)
    return hole->tree != NULL && gathering->stand != NULL && g_strcmp0 (hole->tree->stand, gathering->stand) == 0;
  return TRUE;
}

static gint
by_time (gconstpointer a, gconstpointer b)
{
  const FrGathering *one = *(FrGathering *const *)a, *two = *(FrGathering *const *)b;

  return (one->gathered_utc > two->gathered_utc) - (one->gathered_utc < two->gathered_utc);
}

static GPtrArray *
gatherings_of (const FrForecastFrame *frame)
{
  const GPtrArray *all = frame->book->gatherings;
  GPtrArray *mine = g_ptr_array_new ();

  for (guint i = 0; all != NULL && i < all->len; i++)
    {
      const FrGathering *gathering = all->pdata[i];

      if (!gathering->record.archived && gathering->gathered_utc != G_MININT64
          && fr_season_holds (frame->season, fr_zone_local (frame->book->zone, gathering->gathered_utc).date))
        g_ptr_array_add (mine, (gpointer)gathering);
    }
  g_ptr_array_sort (mine, by_time);
  return mine;
}

/* Of the holes covered on a day: what one middling tap gave, over how many days; both NAN when none had been there before. */
static void
put_emptied (FrBookForecast *asked, GArray *holes, gint64 day, double volume_l, double bush_ratio)
{
  FrSapGathered gathered = { fr_date_from_days (day), NAN, NAN };
  double ratios = 0, span_days = 0;
  guint n = 0;

  for (guint i = 0; i < holes->len; i++)
    {
      Hole *hole = &g_array_index (holes, Hole, i);

      if (!hole->is_covered)
        continue;
      hole->is_covered = FALSE;
      n++;
      ratios += hole->yield_ratio;
      span_days += day - hole->emptied;
      hole->emptied = day;
    }
  if (n == 0 || isnan (volume_l) || !(span_days > 0))
    return;
  gathered.per_tap_l = volume_l / ratios * bush_ratio;
  gathered.span_days = span_days / n;
  g_array_append_val (asked->gathered, gathered);
}

/* What a tap of the bush gives in the mean against the middling one of maths/tree-yield.h. */
static double
bush_ratio_of (const FrBookForecast *asked, const GArray *holes)
{
  double sum = 0;
  guint n = 0;

  for (guint i = 0; i < asked->groups->len; i++)
    {
      const FrTapGroup *group = &g_array_index (asked->groups, FrTapGroup, i);

      sum += group->n_taps * group->yield_ratio;
      n += group->n_taps;
    }
  for (guint i = 0; asked->groups->len == 0 && i < holes->len; i++, n++)
    sum += g_array_index (holes, Hole, i).yield_ratio;
  return n > 0 ? sum / n : 1;
}

static gboolean
cover (GArray *holes, const FrGathering *gathering, gint64 day)
{
  gboolean any = FALSE;

  for (guint i = 0; i < holes->len; i++)
    {
      Hole *hole = &g_array_index (holes, Hole, i);

      /* One pulled that day was emptied first. */
      if (hole->set <= day && hole->pulled >= day && covers (gathering, hole))
        any = hole->is_covered = TRUE;
    }
  return any;
}

static void
put_gathered (FrBookForecast *asked, const FrForecastFrame *frame, GArray *holes)
{
  g_autoptr (GPtrArray) gatherings = gatherings_of (frame);
  const double bush_ratio = bush_ratio_of (asked, holes);

  for (guint i = 0; i < gatherings->len;)
    {
      const FrGathering *first = gatherings->pdata[i];
      FrSapCame came = { fr_forecast_date_of (frame, first->gathered_utc), 0 };
      gint64 day = fr_date_to_days (came.date);
      double known_l = 0;

      for (; i < gatherings->len; i++)
        {
          const FrGathering *gathering = gatherings->pdata[i];
          const FrContainer *bucket = (const FrContainer *)fr_season_find (frame->book->containers, gathering->bucket);
          double volume_l = fr_gathering_l (gathering, bucket, FR_STOCK_SAP_BRIX);

          if (fr_date_compare (fr_forecast_date_of (frame, gathering->gathered_utc), came.date) != 0)
            break;
          came.volume_l += isnan (volume_l) ? 0 : volume_l;
          /* A line of unknown litres, or of no hole that was open, leaves the day's litres a tap unknown. */
          known_l += cover (holes, gathering, day) ? volume_l : NAN;
        }
      g_array_append_val (asked->came_in, came);
      put_emptied (asked, holes, day, known_l, bush_ratio);
    }
}

void
fr_book_forecast_put_taps (FrBookForecast *asked, const FrForecastFrame *frame)
{
  g_autoptr (GArray) holes = find_holes (frame->book, frame->season);

  put_groups (asked, holes, fr_date_to_days (frame->today));
  put_gathered (asked, frame, holes);
}
