/* The checklist of the kit. What a piece needs follows from what it is: everything that touches sap is washed; a cooker boils plain water
 * once before the season, which shows a bad element, a leak and a bad cut-off while nothing is lost, and measures its heat; metal is
 * looked at once for lead; a ground-fault interrupter has a button to be tried (makers ask for it every month, from memory). Common
 * practice, no source, but for FR_CHORE_LEAD_YEAR. */
#include "domain/plan/season-private.h"

#include <math.h>
#include <string.h>

#define AFTER_SAP_DAYS 21

static const struct
{
  const char *code;
  gboolean is_cleaning;
} tasks[FR_N_CHORES] = {
  [FR_CHORE_WASH] = { "wash", FALSE },
  [FR_CHORE_WATER_TEST] = { "water_test", FALSE },
  [FR_CHORE_MATERIAL] = { "material", FALSE },
  [FR_CHORE_GROUND_FAULT] = { "ground_fault", FALSE },
  [FR_CHORE_RINSE] = { "rinse", TRUE },
  [FR_CHORE_DRY] = { "dry", TRUE },
};

const char *
fr_chore_code (FrChoreTask task)
{
  g_return_val_if_fail ((guint)task < FR_N_CHORES, NULL);
  return tasks[task].code;
}

gboolean
fr_chore_is_cleaning (FrChoreTask task)
{
  g_return_val_if_fail ((guint)task < FR_N_CHORES, FALSE);
  return tasks[task].is_cleaning;
}

typedef struct
{
  const FrSeasonBook *book;
  guint season;
  FrDate today;
  gboolean has_begun;
  gboolean is_over;
  GHashTable *used; /* record → FrDate, first day of use */
  GArray *items;
} Checklist;

/* --- what was in use, and since when --- */

static void
use (Checklist *list, const FrRecord *kit, FrDate day)
{
  FrDate *known;

  if (kit == NULL || !fr_season_holds (list->season, day) || fr_date_compare (day, list->today) > 0)
    return;
  known = g_hash_table_lookup (list->used, kit);
  if (known == NULL)
    g_hash_table_insert (list->used, (gpointer)kit, g_memdup2 (&day, sizeof day));
  else if (fr_date_compare (day, *known) < 0)
    *known = day;
}

static void
use_container (Checklist *list, gint64 id, gint64 utc_s)
{
  if (utc_s != G_MININT64)
    use (list, fr_season_find (list->book->containers, id), fr_zone_local (list->book->zone, utc_s).date);
}

/* The first and the last day of a season's sap: gathered or boiled. */
static void
sap_day (const Checklist *list, FrDate day, FrDate *first, FrDate *last)
{
  if (!fr_season_holds (list->season, day) || fr_date_compare (day, list->today) > 0)
    return;
  if (first->year == 0 || fr_date_compare (day, *first) < 0)
    *first = day;
  if (last->year == 0 || fr_date_compare (day, *last) > 0)
    *last = day;
}

static void
find_use (Checklist *list, FrDate *first, FrDate *last)
{
  const FrSeasonBook *book = list->book;

  for (guint i = 0; book->gatherings != NULL && i < book->gatherings->len; i++)
    {
      const FrGathering *gathering = book->gatherings->pdata[i];

      if (gathering->record.archived || gathering->gathered_utc == G_MININT64)
        continue;
      use_container (list, gathering->bucket, gathering->gathered_utc);
      use_container (list, gathering->container, gathering->gathered_utc);
      sap_day (list, fr_zone_local (book->zone, gathering->gathered_utc).date, first, last);
    }
  for (guint i = 0; book->pours != NULL && i < book->pours->len; i++)
    {
      const FrPour *pour = book->pours->pdata[i];

      if (pour->record.archived)
        continue;
      use_container (list, pour->container, pour->poured_utc);
      use_container (list, pour->target, pour->poured_utc);
    }
  for (guint i = 0; book->nights != NULL && i < book->nights->len; i++)
    {
      const FrNight *night = book->nights->pdata[i];
      FrDate evening = fr_season_date (night->evening);
      const FrCooker *cooker = (const FrCooker *)fr_season_find (book->cookers, night->cooker);

      if (night->record.archived)
        continue;
      sap_day (list, evening, first, last);
      if (cooker == NULL)
        continue;
      use (list, &cooker->record, evening);
      use (list, fr_season_find (book->vessels, cooker->vessel), evening);
      use (list, fr_season_find (book->circuits, cooker->circuit), evening);
    }
}

/* Where the season stands. */
static void
find_season (Checklist *list)
{
  const FrSeasonBook *book = list->book;
  const FrDate january = { (gint)list->season, 1, 1 };
  FrDate first = { 0 }, last = { 0 }, set, pulled = { 0 };
  guint n_set = 0, n_pulled = 0;

  find_use (list, &first, &last);
  for (guint i = 0; book->taps != NULL && i < book->taps->len; i++)
    {
      const FrTap *tap = book->taps->pdata[i];

      if (!fr_season_tap (tap, list->season, &set) || fr_date_compare (set, list->today) > 0)
        continue;
      n_set++;
      if (first.year == 0 || fr_date_compare (set, first) < 0)
        first = set;
      pulled = fr_season_date (tap->pulled_on);
      n_pulled += pulled.year != 0 && fr_date_compare (pulled, list->today) <= 0;
    }
  list->has_begun = first.year != 0 || fr_date_compare (list->today, january) >= 0;
  if (n_set > 0)
    list->is_over = n_pulled == n_set;
  else if (last.year != 0)
    list->is_over = fr_date_compare (list->today, fr_date_add_days (last, AFTER_SAP_DAYS)) >= 0;
  list->is_over = list->is_over || fr_date_compare (list->today, fr_season_last_day (list->season)) > 0;
}

/* --- points --- */

static gint64
kit_of (const FrChore *chore, FrKindId kind)
{
  switch ((int)kind)
    {
    case FR_KIND_CONTAINER:
      return chore->container;
    case FR_KIND_VESSEL:
      return chore->vessel;
    case FR_KIND_COOKER:
      return chore->cooker;
    default:
      return chore->circuit;
    }
}

/* The latest of those written down. */
static const FrChore *
find_done (const Checklist *list, FrChoreTask task, const FrRecord *kit)
{
  const FrChore *found = NULL;

  for (guint i = 0; list->book->chores != NULL && i < list->book->chores->len; i++)
    {
      const FrChore *chore = list->book->chores->pdata[i];

      if (chore->record.archived || g_strcmp0 (chore->task, tasks[task].code) != 0
          || kit_of (chore, kit->kind->id) != kit->id
          || (task == FR_CHORE_MATERIAL ? chore->season.value > list->season : chore->season.value != list->season))
        continue;
      if (found == NULL || g_strcmp0 (chore->done_on, found->done_on) >= 0)
        found = chore;
    }
  return found;
}

static FrChoreState
state_of (const Checklist *list, const FrChoreItem *item)
{
  if (item->done != NULL)
    return g_strcmp0 (item->done->outcome, "not_needed") == 0 ? FR_CHORE_NOT_NEEDED : FR_CHORE_DONE;
  if (tasks[item->task].is_cleaning)
    return list->is_over ? FR_CHORE_DUE : FR_CHORE_LATER;
  if (item->used_on.year != 0)
    return FR_CHORE_LATE;
  return list->has_begun && !list->is_over ? FR_CHORE_DUE : FR_CHORE_LATER;
}

static void
add (Checklist *list, FrChoreTask task, FrChoreWhy why, const FrRecord *kit)
{
  FrChoreItem item = { .task = task, .why = why, .kit = kit };
  const FrDate *used = g_hash_table_lookup (list->used, kit);

  if (used != NULL)
    item.used_on = *used;
  item.done = find_done (list, task, kit);
  if (tasks[task].is_cleaning && used == NULL && item.done == NULL)
    return;
  item.state = state_of (list, &item);
  g_array_append_val (list->items, item);
}

/* --- kit --- */

/* Why a container is to be looked at; FALSE when it need not be. */
static gboolean
material_why (const FrContainer *container, FrChoreWhy *why_out)
{
  static const struct
  {
    const char *material;
    FrChoreWhy why;
  } all[] = { { "unknown", FR_CHORE_WHY_UNKNOWN_METAL },
              { "galvanised", FR_CHORE_WHY_GALVANISED },
              { "soldered", FR_CHORE_WHY_SOLDERED },
              { "other_plastic", FR_CHORE_WHY_NOT_FOOD } };
  static const char *const metals[] = { "stainless", "enamel", "aluminium", NULL };

  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    if (g_strcmp0 (container->material, all[i].material) == 0)
      {
        *why_out = all[i].why;
        return TRUE;
      }
  *why_out = FR_CHORE_WHY_OLD;
  return g_strv_contains (metals, container->material) && container->made_in.value < FR_CHORE_LEAD_YEAR;
}

static void
add_for (Checklist *list, FrChoreTask task, const FrRecord *kit)
{
  FrChoreWhy why = FR_CHORE_WHY_SEASON;
  const FrKindId kind = kit->kind->id;
  const gboolean holds_sap = kind == FR_KIND_CONTAINER || kind == FR_KIND_VESSEL;

  switch (task)
    {
    case FR_CHORE_WATER_TEST:
      if (kind != FR_KIND_COOKER)
        return;
      if (isnan (((const FrCooker *)kit)->heat_ratio_sd.value))
        why = FR_CHORE_WHY_NEVER_MEASURED;
      break;
    case FR_CHORE_MATERIAL:
      if (kind == FR_KIND_VESSEL && ((const FrVesselRecord *)kit)->solder)
        why = FR_CHORE_WHY_UNKNOWN_METAL;
      else if (kind != FR_KIND_CONTAINER || !material_why ((const FrContainer *)kit, &why))
        return;
      break;
    case FR_CHORE_GROUND_FAULT:
      if (kind == FR_KIND_CIRCUIT)
        why = ((const FrCircuit *)kit)->gfci ? FR_CHORE_WHY_SEASON : FR_CHORE_WHY_NO_PROTECTION;
      else if (kind == FR_KIND_COOKER && fr_season_find (list->book->circuits, ((const FrCooker *)kit)->circuit) == NULL)
        why = FR_CHORE_WHY_NO_CIRCUIT;
      else
        return;
      break;
    default:
      if (!holds_sap)
        return;
      break;
    }
  add (list, task, why, kit);
}

static gint
by_name (gconstpointer a, gconstpointer b)
{
  const FrRecord *one = *(const FrRecord *const *)a, *other = *(const FrRecord *const *)b;
  int order = strcmp (fr_record_label (one), fr_record_label (other));

  return order != 0 ? order : (one->id > other->id) - (one->id < other->id);
}

static void
add_kit (GPtrArray *kit, GPtrArray *records)
{
  g_autoptr (GPtrArray) named = g_ptr_array_new ();

  for (guint i = 0; records != NULL && i < records->len; i++)
    if (!((const FrRecord *)records->pdata[i])->archived)
      g_ptr_array_add (named, records->pdata[i]);
  g_ptr_array_sort (named, by_name);
  g_ptr_array_extend (kit, named, NULL, NULL);
}

GArray *
fr_chores (const FrSeasonBook *book, guint season, gint64 now_utc)
{
  Checklist list = { .book = book, .season = season };
  g_autoptr (GPtrArray) kit = g_ptr_array_new ();

  list.items = g_array_new (FALSE, FALSE, sizeof (FrChoreItem));
  g_return_val_if_fail (book != NULL && book->zone != NULL, list.items);

  list.today = fr_zone_local (book->zone, now_utc).date;
  list.used = g_hash_table_new_full (NULL, NULL, NULL, g_free);
  find_season (&list);
  add_kit (kit, book->containers);
  add_kit (kit, book->vessels);
  add_kit (kit, book->cookers);
  add_kit (kit, book->circuits);
  for (guint task = 0; task < FR_N_CHORES; task++)
    for (guint i = 0; i < kit->len; i++)
      add_for (&list, task, kit->pdata[i]);
  g_hash_table_unref (list.used);
  return list.items;
}

void
fr_chore_item_write (const FrChoreItem *item, guint season, FrDate day, const char *outcome, FrChore *chore_out)
{
  const FrKindId kind = item->kit->kind->id;

  chore_out->season.value = season;
  g_free (chore_out->task);
  chore_out->task = g_strdup (tasks[item->task].code);
  chore_out->container = kind == FR_KIND_CONTAINER ? item->kit->id : 0;
  chore_out->vessel = kind == FR_KIND_VESSEL ? item->kit->id : 0;
  chore_out->cooker = kind == FR_KIND_COOKER ? item->kit->id : 0;
  chore_out->circuit = kind == FR_KIND_CIRCUIT ? item->kit->id : 0;
  g_free (chore_out->done_on);
  chore_out->done_on = fr_date_to_iso (day);
  g_free (chore_out->outcome);
  chore_out->outcome = g_strdup (outcome);
}
