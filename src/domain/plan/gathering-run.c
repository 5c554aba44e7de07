/* The lines of a season, sorted into sessions, and the trees each is of. */
#include "domain/plan/gathering-private.h"

#include "domain/plan/stock-private.h"

#include <math.h>
#include <string.h>

#define SPREAD_RATIO 0.35 /* to begin with, worth so many lines; common practice, no source, as the next */
#define SPREAD_WORTH 30
#define BRIX_SPREAD_RATIO 0.08

/* --- what is looked up --- */

static GHashTable *
by_id (GPtrArray *records)
{
  GHashTable *table = g_hash_table_new (g_int64_hash, g_int64_equal);

  for (guint i = 0; records != NULL && i < records->len; i++)
    g_hash_table_insert (table, &((FrRecord *)records->pdata[i])->id, records->pdata[i]);
  return table;
}

void
fr_sap_run_init (FrSapRun *run, const FrBush *bush, gboolean by_kind)
{
  memset (run, 0, sizeof *run);
  run->bush = bush;
  run->by_kind = by_kind;
  run->trees = g_new0 (FrSapRunUnit, bush->n_entries + 1);
  run->taps = g_new0 (FrSapRunUnit, bush->tap_starts[bush->n_entries] + 1);
  run->containers = by_id (bush->book.containers);
  run->utc = bush->book.zone == NULL ? fr_zone_table_new_utc () : NULL;
  run->zone = bush->book.zone != NULL ? bush->book.zone : run->utc;
  run->steps = g_array_new (FALSE, FALSE, sizeof (FrSapRunStep));
  run->lines = g_array_new (FALSE, FALSE, sizeof (FrSapRunLine));
  run->taken = g_array_new (FALSE, FALSE, sizeof (FrSapRunTaken));
}

void
fr_sap_run_clear (FrSapRun *run)
{
  g_clear_pointer (&run->trees, g_free);
  g_clear_pointer (&run->taps, g_free);
  g_clear_pointer (&run->tap_places, g_hash_table_unref);
  g_clear_pointer (&run->containers, g_hash_table_unref);
  g_clear_pointer (&run->stands, g_hash_table_unref);
  g_clear_pointer (&run->utc, fr_zone_table_free);
  g_clear_pointer (&run->tapped, g_array_unref);
  g_clear_pointer (&run->steps, g_array_unref);
  g_clear_pointer (&run->lines, g_array_unref);
  g_clear_pointer (&run->taken, g_array_unref);
}

/* The place of a tap among the bush's, by its id. */
static guint
tap_place (FrSapRun *run, gint64 tap)
{
  const guint n = run->bush->tap_starts[run->bush->n_entries];

  if (run->tap_places == NULL)
    {
      run->tap_places = g_hash_table_new (g_int64_hash, g_int64_equal);
      for (guint i = 0; i < n; i++)
        g_hash_table_insert (run->tap_places, (gpointer)&run->bush->taps[i]->record.id,
                             GUINT_TO_POINTER (i + 1));
    }
  return GPOINTER_TO_UINT (g_hash_table_lookup (run->tap_places, &tap)) - 1;
}

static const GArray *
group_of (FrSapRun *run, const char *stand)
{
  if (run->stands == NULL)
    {
      run->stands = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, (GDestroyNotify)g_array_unref);
      for (guint i = 0; i < run->bush->n_entries; i++)
        {
          char *name = run->bush->entries[i].tree->stand;
          GArray *group;

          if (name == NULL)
            continue;
          group = g_hash_table_lookup (run->stands, name);
          if (group == NULL)
            {
              group = g_array_new (FALSE, FALSE, sizeof (guint));
              g_hash_table_insert (run->stands, name, group);
            }
          g_array_append_val (group, i);
        }
    }
  return stand != NULL ? g_hash_table_lookup (run->stands, stand) : NULL;
}

gboolean
fr_sap_run_read (FrSapRun *run, const FrGathering *gathering, FrSapRunLine *line_out)
{
  static const char *const scopes[] = { "bush", "group", "tree", "tap" };
  const double brix = fr_gathering_brix (gathering);
  const FrContainer *bucket
      = gathering->bucket != 0 ? g_hash_table_lookup (run->containers, &gathering->bucket) : NULL;

  *line_out = (FrSapRunLine){ .id = gathering->record.id,
                              .utc_s = gathering->gathered_utc,
                              .entry = FR_SAP_RUN_NONE,
                              .tap = FR_SAP_RUN_NONE,
                              .volume_l = fr_gathering_l (gathering, bucket, FR_STOCK_SAP_BRIX),
                              .brix = brix };
  while (line_out->scope < FR_SAP_RUN_TAP && g_strcmp0 (gathering->scope, scopes[line_out->scope]) != 0)
    line_out->scope++;
  if (isnan (line_out->volume_l))
    return FALSE;
  switch (line_out->scope)
    {
    case FR_SAP_RUN_TAP:
      line_out->tap = tap_place (run, gathering->tap);
      return line_out->tap != FR_SAP_RUN_NONE
             && fr_bush_entry (run->bush, run->bush->taps[line_out->tap]->tree, &line_out->entry);
    case FR_SAP_RUN_TREE:
      return fr_bush_entry (run->bush, gathering->tree, &line_out->entry);
    case FR_SAP_RUN_GROUP:
      line_out->group = group_of (run, gathering->stand);
      return TRUE;
    default:
      return TRUE;
    }
}

double
fr_gathering_sugar_kg (double volume_l, double brix)
{
  return fr_stock_mix_of (volume_l, brix).sugar_kg;
}

/* --- holes --- */

gboolean
fr_sap_run_is_set (const FrSapRun *run, const FrTap *tap)
{
  return tap->season.value == run->season && tap->set_on != NULL && strcmp (tap->set_on, run->day) <= 0
         && (tap->pulled_on == NULL || strcmp (tap->pulled_on, run->day) >= 0);
}

guint
fr_sap_run_n_taps (const FrSapRun *run, guint entry)
{
  guint n = 0;

  for (guint i = run->bush->tap_starts[entry]; i < run->bush->tap_starts[entry + 1]; i++)
    n += fr_sap_run_is_set (run, run->bush->taps[i]);
  return n;
}

static const GArray *
tapped (FrSapRun *run)
{
  if (run->tapped != NULL)
    return run->tapped;
  run->tapped = g_array_new (FALSE, FALSE, sizeof (guint));
  for (guint entry = 0; entry < run->bush->n_entries; entry++)
    for (guint i = run->bush->tap_starts[entry]; i < run->bush->tap_starts[entry + 1]; i++)
      if (run->bush->taps[i]->season.value == run->season && run->bush->taps[i]->set_on != NULL)
        {
          g_array_append_val (run->tapped, entry);
          break;
        }
  return run->tapped;
}

/* Whether the session has a narrower line that the tree's sap is in. */
static gboolean
is_apart (const FrSapRun *run, const FrSapRunLine *line, guint entry)
{
  if (run->trees[entry].own_session == run->session)
    return TRUE;
  return line->scope == FR_SAP_RUN_BUSH && run->trees[entry].group_session == run->session;
}

GArray *
fr_sap_run_trees_of (FrSapRun *run, const FrSapRunLine *line)
{
  const GArray *candidates = line->scope == FR_SAP_RUN_GROUP ? line->group : tapped (run);
  GArray *trees = g_array_new (FALSE, FALSE, sizeof (guint)),
         *all = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; candidates != NULL && i < candidates->len; i++)
    {
      guint entry = g_array_index (candidates, guint, i);

      if (fr_sap_run_n_taps (run, entry) == 0)
        continue;
      g_array_append_val (all, entry);
      if (!is_apart (run, line, entry))
        g_array_append_val (trees, entry);
    }
  if (trees->len == 0)
    {
      g_array_unref (trees);
      return all;
    }
  g_array_unref (all);
  return trees;
}

/* --- seasons and sessions --- */

gboolean
fr_sap_run_is_new_season (const FrSapRun *run, gint64 utc_s)
{
  return run->season == 0 || utc_s < run->from_utc || utc_s >= run->to_utc;
}

gboolean
fr_sap_run_is_new_session (const FrSapRun *run, gint64 utc_s)
{
  return run->lines->len == 0
         || utc_s - g_array_index (run->lines, FrSapRunLine, run->lines->len - 1).utc_s
                > FR_GATHERING_SESSION_S;
}

void
fr_sap_run_begin_season (FrSapRun *run, gint64 utc_s)
{
  gint64 ignored;

  run->pass++;
  run->season = fr_season_of (fr_zone_local (run->zone, utc_s).date);
  fr_day_span_utc (run->zone, fr_season_first_day (run->season), &run->from_utc, &ignored);
  fr_day_span_utc (run->zone, fr_season_last_day (run->season), &ignored, &run->to_utc);
  g_clear_pointer (&run->tapped, g_array_unref);
  g_array_set_size (run->steps, 0);
  run->flowed_ratio = 0;
  run->spread_ratio = SPREAD_RATIO;
  run->brix_spread_ratio = BRIX_SPREAD_RATIO;
  run->spread_lines = run->brix_spread_lines = SPREAD_WORTH;
  run->brix_level_ratio = run->level_log_ratio = run->level_apart_ratio = 0;
  run->n_levels = 0;
  g_array_set_size (run->lines, 0);
  g_array_set_size (run->taken, 0);
}

void
fr_sap_run_begin_session (FrSapRun *run, gint64 utc_s)
{
  const FrDate date = fr_zone_local (run->zone, utc_s).date;
  g_autofree char *iso = fr_date_to_iso (date);

  g_strlcpy (run->day, iso, sizeof run->day);
  run->day_number = (guint)fr_date_to_days (date);
  run->session++;
  run->session_utc = utc_s;
  run->level_ratio = NAN;
  g_array_set_size (run->lines, 0);
  g_array_set_size (run->taken, 0);
}

void
fr_sap_run_add (FrSapRun *run, const FrSapRunLine *line)
{
  g_array_append_vals (run->lines, line, 1);
}
