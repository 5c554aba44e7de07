/* Which gatherings make one round, what can be gathered on a day, and what each is called. */
#include "models/gather-log-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "domain/maths/sucrose.h"
#include "domain/plan/bush.h"
#include "domain/plan/gathering.h"
#include "domain/plan/stock.h"

/* A pause after which somebody set out anew; common sense, no source. */
#define PAUSE_S 7200

static const char *const scope_codes[FR_N_GATHER_SCOPES] = { "bush", "group", "tree", "tap" };

FrGatherTarget
fr_gather_target_of (const FrGathering *gathering)
{
  FrGatherTarget target = { .scope = FR_GATHER_BUSH };

  for (guint i = 0; i < FR_N_GATHER_SCOPES; i++)
    if (g_strcmp0 (gathering->scope, scope_codes[i]) == 0)
      target.scope = (FrGatherScope)i;
  if (target.scope == FR_GATHER_TREE)
    target.tree = gathering->tree;
  else if (target.scope == FR_GATHER_TAP)
    target.tap = gathering->tap;
  else if (target.scope == FR_GATHER_GROUP)
    target.stand = gathering->stand;
  return target;
}

gboolean
fr_gather_target_equal (const FrGatherTarget *a, const FrGatherTarget *b)
{
  return a->scope == b->scope && a->tree == b->tree && a->tap == b->tap
         && g_strcmp0 (a->stand, b->stand) == 0;
}

static const FrGathering *
gathering_at (FrRecordList *list, guint i)
{
  const FrGathering *gathering = (const FrGathering *)fr_record_list_get (list, i);

  return gathering->record.archived ? NULL : gathering;
}

static int
by_time (gconstpointer a, gconstpointer b)
{
  const FrGathering *one = *(const FrGathering *const *)a, *two = *(const FrGathering *const *)b;

  if (one->gathered_utc != two->gathered_utc)
    return one->gathered_utc < two->gathered_utc ? -1 : 1;
  return one->record.id < two->record.id ? -1 : 1;
}

static int
by_number (gconstpointer a, gconstpointer b)
{
  const FrGathering *one = *(const FrGathering *const *)a, *two = *(const FrGathering *const *)b;

  return one->record.id < two->record.id ? -1 : 1;
}

static gboolean
has_target (GPtrArray *round, const FrGathering *gathering)
{
  FrGatherTarget target = fr_gather_target_of (gathering);

  for (guint i = 0; i < round->len; i++)
    {
      FrGatherTarget other = fr_gather_target_of (g_ptr_array_index (round, i));

      if (fr_gather_target_equal (&target, &other))
        return TRUE;
    }
  return FALSE;
}

/* What was written down for the same moment stays together: if one of it is in the round already, all is a
 * new one. */
static gboolean
comes_again (GPtrArray *round, GPtrArray *found, guint from)
{
  gint64 utc_s = ((const FrGathering *)g_ptr_array_index (found, from))->gathered_utc;

  for (guint i = from; i < found->len; i++)
    {
      const FrGathering *gathering = g_ptr_array_index (found, i);

      if (gathering->gathered_utc != utc_s)
        return FALSE;
      if (has_target (round, gathering))
        return TRUE;
    }
  return FALSE;
}

GPtrArray *
fr_gather_rounds (FrBook *book, const FrZoneTable *zone, FrDate day)
{
  FrRecordList *list = fr_book_get_list (book, FR_KIND_GATHERING);
  g_autoptr (GPtrArray) found = g_ptr_array_new ();
  GPtrArray *rounds = g_ptr_array_new_with_free_func ((GDestroyNotify)g_ptr_array_unref);
  GPtrArray *round = NULL;
  gint64 last_utc = 0;

  for (guint i = 0; i < fr_record_list_get_size (list); i++)
    {
      const FrGathering *gathering = gathering_at (list, i);

      if (gathering != NULL && fr_date_compare (fr_zone_local (zone, gathering->gathered_utc).date, day) == 0)
        g_ptr_array_add (found, (gpointer)gathering);
    }
  g_ptr_array_sort (found, by_time);
  for (guint i = 0; i < found->len; i++)
    {
      const FrGathering *gathering = g_ptr_array_index (found, i);

      if (round == NULL || gathering->gathered_utc - last_utc > PAUSE_S || has_target (round, gathering)
          || (gathering->gathered_utc != last_utc && comes_again (round, found, i)))
        {
          round = g_ptr_array_new ();
          g_ptr_array_add (rounds, round);
        }
      g_ptr_array_add (round, (gpointer)gathering);
      last_utc = gathering->gathered_utc;
    }
  return rounds;
}

const FrGathering *
fr_gather_last (FrBook *book, FrGatherScope scope, gint64 before_utc)
{
  FrRecordList *list = fr_book_get_list (book, FR_KIND_GATHERING);
  const FrGathering *last = NULL;

  for (guint i = 0; i < fr_record_list_get_size (list); i++)
    {
      const FrGathering *gathering = gathering_at (list, i);

      if (gathering == NULL || gathering->gathered_utc >= before_utc
          || (scope != FR_N_GATHER_SCOPES && fr_gather_target_of (gathering).scope != scope))
        continue;
      if (last == NULL || gathering->gathered_utc >= last->gathered_utc)
        last = gathering;
    }
  return last;
}

GPtrArray *
fr_gather_order_of (FrBook *book, const FrZoneTable *zone, const FrGathering *last)
{
  FrDate day = fr_zone_local (zone, last->gathered_utc).date;
  FrGatherScope scope = fr_gather_target_of (last).scope;
  FrRecordList *list = fr_book_get_list (book, FR_KIND_GATHERING);
  GPtrArray *found = g_ptr_array_new ();

  for (guint i = 0; i < fr_record_list_get_size (list); i++)
    {
      const FrGathering *gathering = gathering_at (list, i);

      if (gathering != NULL && fr_gather_target_of (gathering).scope == scope
          && fr_date_compare (fr_zone_local (zone, gathering->gathered_utc).date, day) == 0)
        g_ptr_array_add (found, (gpointer)gathering);
    }
  g_ptr_array_sort (found, by_number);
  return found;
}

/* Set by that day and not pulled before it. ISO dates compare as texts. */
static gboolean
is_running (const FrTap *tap, guint season, const char *iso)
{
  return !tap->record.archived && tap->season.value == season && tap->set_on != NULL
         && strcmp (tap->set_on, iso) <= 0 && (tap->pulled_on == NULL || strcmp (tap->pulled_on, iso) >= 0);
}

static void
add_once (GArray *targets, const FrGatherTarget *target)
{
  for (guint i = 0; i < targets->len; i++)
    if (fr_gather_target_equal (&g_array_index (targets, FrGatherTarget, i), target))
      return;
  g_array_append_val (targets, *target);
}

GArray *
fr_gather_targets (FrBook *book, FrGatherScope scope, FrDate day)
{
  FrRecordList *taps = fr_book_get_list (book, FR_KIND_TAP);
  GArray *targets = g_array_new (FALSE, FALSE, sizeof (FrGatherTarget));
  g_autoptr (GHashTable) seen = g_hash_table_new (g_int64_hash, g_int64_equal);
  g_autofree char *iso = fr_date_to_iso (day);
  guint season = fr_season_of (day);

  if (scope == FR_GATHER_BUSH)
    add_once (targets, &(FrGatherTarget){ .scope = FR_GATHER_BUSH });
  for (guint i = 0; scope != FR_GATHER_BUSH && i < fr_record_list_get_size (taps); i++)
    {
      const FrTap *tap = (const FrTap *)fr_record_list_get (taps, i);
      const FrTree *tree = (const FrTree *)fr_book_find (book, FR_KIND_TREE, tap->tree);

      if (tree == NULL || tree->record.archived || !is_running (tap, season, iso))
        continue;
      if (scope == FR_GATHER_TAP)
        g_array_append_val (targets, ((FrGatherTarget){ .scope = scope, .tap = tap->record.id }));
      else if (scope == FR_GATHER_TREE && g_hash_table_add (seen, (gpointer)&tree->record.id))
        g_array_append_val (targets, ((FrGatherTarget){ .scope = scope, .tree = tap->tree }));
      else if (scope == FR_GATHER_GROUP && tree->stand != NULL)
        add_once (targets, &(FrGatherTarget){ .scope = scope, .stand = tree->stand });
    }
  return targets;
}

/* The taps of a tree and season are counted in the order they were set. */
static char *
tap_title (FrBook *book, const FrTap *tap, const char *tree)
{
  FrRecordList *taps = fr_book_get_list (book, FR_KIND_TAP);
  guint n = 0, nth = 0;

  for (guint i = 0; i < fr_record_list_get_size (taps); i++)
    {
      const FrTap *other = (const FrTap *)fr_record_list_get (taps, i);

      if (other->tree != tap->tree || other->season.value != tap->season.value || other->record.archived)
        continue;
      n++;
      if (other == tap)
        nth = n;
    }
  /* Translators: a tree's name and which of its taps */
  return n > 1 ? g_strdup_printf (_ ("%s · %u"), tree, nth) : g_strdup (tree);
}

char *
fr_gather_target_title (FrBook *book, const FrGatherTarget *target)
{
  switch (target->scope)
    {
    case FR_GATHER_TREE:
      {
        const FrRecord *tree = fr_book_find (book, FR_KIND_TREE, target->tree);

        return g_strdup (tree != NULL ? fr_record_label (tree) : "");
      }
    case FR_GATHER_TAP:
      {
        const FrTap *tap = (const FrTap *)fr_book_find (book, FR_KIND_TAP, target->tap);
        const FrRecord *tree = tap != NULL ? fr_book_find (book, FR_KIND_TREE, tap->tree) : NULL;

        return tree != NULL ? tap_title (book, tap, fr_record_label (tree)) : g_strdup ("");
      }
    case FR_GATHER_GROUP:
      return g_strdup (target->stand);
    case FR_GATHER_BUSH:
    case FR_N_GATHER_SCOPES:
    default:
      return g_strdup (_ ("The whole bush"));
    }
}

/* --- what they come to --- */

double
fr_gather_volume_l (FrBook *book, const FrGathering *gathering)
{
  return fr_gathering_l (gathering,
                         (const FrContainer *)fr_book_find (book, FR_KIND_CONTAINER, gathering->bucket),
                         FR_STOCK_SAP_BRIX);
}

void
fr_gather_mix_add (FrGatherMix *mix, double volume_l, double brix)
{
  double mass_kg;

  if (isnan (volume_l))
    return;
  mix->volume_l += volume_l;
  if (isnan (brix))
    return;
  mass_kg = volume_l / 1e3 * fr_sucrose_density_kg_m3 (brix, FR_STOCK_C);
  mix->sweet_kg += mass_kg;
  mix->sugar_kg += mass_kg * brix / 100;
}

double
fr_gather_mix_brix (const FrGatherMix *mix)
{
  return mix->sweet_kg > 0 ? 100 * mix->sugar_kg / mix->sweet_kg : NAN;
}

static void
round_clear (gpointer data)
{
  g_free (((FrGatherRound *)data)->only);
}

GArray *
fr_gather_day_rounds (FrBook *book, const FrZoneTable *zone, FrDate day)
{
  g_autoptr (GPtrArray) rounds = fr_gather_rounds (book, zone, day);
  GArray *found = g_array_new (FALSE, TRUE, sizeof (FrGatherRound));

  g_array_set_clear_func (found, round_clear);
  for (guint r = 0; r < rounds->len; r++)
    {
      GPtrArray *records = g_ptr_array_index (rounds, r);
      const FrGathering *first = g_ptr_array_index (records, 0);
      FrGatherTarget target = fr_gather_target_of (first);
      FrGatherRound round = { .from_utc = first->gathered_utc, .n = records->len, .scope = target.scope };
      FrGatherMix mix = { 0 };

      for (guint i = 0; i < records->len; i++)
        {
          const FrGathering *gathering = g_ptr_array_index (records, i);

          if (fr_gather_target_of (gathering).scope != round.scope)
            round.scope = FR_N_GATHER_SCOPES;
          fr_gather_mix_add (&mix, fr_gather_volume_l (book, gathering), fr_gathering_brix (gathering));
          if (!isnan (gathering->ice_l.value))
            round.ice_l += gathering->ice_l.value;
        }
      if (records->len == 1)
        round.only = fr_gather_target_title (book, &target);
      round.volume_l = mix.volume_l;
      round.brix = fr_gather_mix_brix (&mix);
      g_array_append_val (found, round);
    }
  return found;
}
