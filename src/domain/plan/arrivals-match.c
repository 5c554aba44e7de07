/* Which tree of the book is meant. The surest comes first, and a tree that is taken is out of the question
 * for the rest: its own identity, its name, the very same place, and last standing near. Nearness is asked
 * again until nothing more is found, so that the order in a file, and whether it was read before, do not
 * matter. */
#include "domain/plan/arrivals-private.h"

#include <math.h>
#include <string.h>

/* A second tree near by counts as no other when it is this many times as far off as the first. */
#define CLEARLY_NEARER 3
/* A place taken by tape is surer than a receiver's. */
#define NEAR_ON_PLAN_M 0.5

typedef struct
{
  FrArrivalWork *work;
  GHashTable *taken;   /* id of a tree → its FrArrivalRow */
  GPtrArray *by_x;     /* placed trees of the book, from west to east */
  GHashTable *in_file; /* name → the first FrArrivalRow that has it */
} Match;

static double
away_m (const FrArrivalRow *row, const FrTree *tree)
{
  return hypot (row->x_m - tree->x_m.value, row->y_m - tree->y_m.value);
}

static gboolean
is_open (const FrArrivalRow *row)
{
  return row->fate == FR_ARRIVAL_NEW && row->tree == NULL;
}

static FrArrivalRow *
taker (const Match *match, const FrTree *tree)
{
  return g_hash_table_lookup (match->taken, &tree->record.id);
}

static void
refuse (FrArrivalRow *row, FrArrivalFate fate, FrArrivalReason reason, const FrArrivalRow *other)
{
  row->fate = fate;
  row->reason = reason;
  row->other_line = other != NULL ? other->arrival->line : 0;
}

/* Whether it came to be taken; the same one twice is refused. */
static gboolean
take (Match *match, FrArrivalRow *row, const FrTree *tree, FrArrivalBy by)
{
  FrArrivalRow *first = taker (match, tree);

  row->away_m = away_m (row, tree);
  if (first != NULL)
    {
      row->other = tree;
      refuse (row, FR_ARRIVAL_REFUSED, FR_ARRIVAL_TWICE, first);
      return FALSE;
    }
  row->tree = tree;
  row->by = by;
  g_hash_table_insert (match->taken, (gpointer)&tree->record.id, row);
  return TRUE;
}

/* --- identity --- */

static void
match_uids (Match *match)
{
  for (guint i = 0; i < match->work->preview->rows->len; i++)
    {
      FrArrivalRow *row = fr_arrival_row (match->work->preview, i);
      const FrRecord *record = g_hash_table_lookup (match->work->by_uid, row->arrival->tree->record.uid);

      if (is_open (row) && record != NULL && record->kind->id == FR_KIND_TREE)
        take (match, row, (const FrTree *)record, FR_ARRIVAL_BY_UID);
    }
}

/* --- name --- */

/* Trees in use go before those put away; of two alike the one at the same place. */
static void
match_name (Match *match, FrArrivalRow *row, const GPtrArray *named)
{
  const FrTree *found = NULL, *second = NULL, *there = NULL;

  for (guint archived = 0; archived < 2 && found == NULL; archived++)
    for (guint i = 0; i < named->len; i++)
      {
        const FrTree *tree = named->pdata[i];

        if ((guint)tree->record.archived != archived || taker (match, tree) != NULL)
          continue;
        if (there == NULL && away_m (row, tree) <= FR_ARRIVAL_SAME_PLACE_M)
          there = tree;
        if (found == NULL)
          found = tree;
        else if (second == NULL)
          second = tree;
      }
  if (there != NULL)
    take (match, row, there, FR_ARRIVAL_BY_NAME);
  else if (found == NULL)
    {
      /* With an identity of its own it is another tree of the same name. */
      if (row->arrival->tree->record.uid[0] == '\0')
        take (match, row, named->pdata[0], FR_ARRIVAL_BY_NAME);
    }
  else if (second != NULL)
    {
      row->tree = found;
      row->other = second;
      refuse (row, FR_ARRIVAL_AMBIGUOUS, FR_ARRIVAL_TWO_NAMED, NULL);
    }
  else if (away_m (row, found) > match->work->options->far_m)
    {
      row->tree = found;
      row->away_m = away_m (row, found);
      refuse (row, FR_ARRIVAL_AMBIGUOUS, FR_ARRIVAL_FAR, NULL);
    }
  else
    take (match, row, found, FR_ARRIVAL_BY_NAME);
}

static gboolean
same_place (const FrArrivalRow *a, const FrArrivalRow *b)
{
  return (isnan (a->x_m) && isnan (b->x_m))
         || hypot (a->x_m - b->x_m, a->y_m - b->y_m) <= FR_ARRIVAL_SAME_PLACE_M;
}

/* Two of one name in a file cannot be told from each other, unless by an identity; all but a mere repetition
 * stay out. */
static void
refuse_twins (Match *match)
{
  for (guint i = 0; i < match->work->preview->rows->len; i++)
    {
      FrArrivalRow *row = fr_arrival_row (match->work->preview, i), *first;
      char *name = row->arrival->tree->name;

      if (row->fate == FR_ARRIVAL_REFUSED || row->tree != NULL || name == NULL)
        continue;
      first = g_hash_table_lookup (match->in_file, name);
      if (first == NULL)
        g_hash_table_insert (match->in_file, name, row);
      if (first == NULL || row->arrival->tree->record.uid[0] != '\0')
        continue;
      if (same_place (row, first))
        {
          refuse (row, FR_ARRIVAL_REFUSED, FR_ARRIVAL_TWICE, first);
          continue;
        }
      refuse (row, FR_ARRIVAL_REFUSED, FR_ARRIVAL_NAMED_TWICE, first);
      if (first->fate == FR_ARRIVAL_NEW && first->arrival->tree->record.uid[0] == '\0')
        refuse (first, FR_ARRIVAL_REFUSED, FR_ARRIVAL_NAMED_TWICE, row);
    }
}

/* Of which a table only tells the history, by name or, where names are shared, by identity. */
static void
match_references (Match *match)
{
  for (guint i = 0; i < match->work->preview->rows->len; i++)
    {
      FrArrivalRow *row = fr_arrival_row (match->work->preview, i);
      const FrRecord *record = row->arrival->refers && row->arrival->tree->name != NULL
                                   ? g_hash_table_lookup (match->work->by_uid, row->arrival->tree->name)
                                   : NULL;

      if (is_open (row) && record != NULL && record->kind->id == FR_KIND_TREE)
        take (match, row, (const FrTree *)record, FR_ARRIVAL_BY_UID);
    }
}

static void
refuse_unknown (Match *match)
{
  for (guint i = 0; i < match->work->preview->rows->len; i++)
    {
      FrArrivalRow *row = fr_arrival_row (match->work->preview, i);

      if (is_open (row) && row->arrival->refers)
        refuse (row, FR_ARRIVAL_REFUSED, FR_ARRIVAL_NO_SUCH_TREE, NULL);
      else if (is_open (row) && row->arrival->tree->name == NULL && isnan (row->x_m)
               && row->arrival->tree->record.uid[0] == '\0')
        refuse (row, FR_ARRIVAL_REFUSED, FR_ARRIVAL_NAMELESS, NULL);
    }
}

static void
match_names (Match *match)
{
  for (guint i = 0; i < match->work->preview->rows->len; i++)
    {
      FrArrivalRow *row = fr_arrival_row (match->work->preview, i);
      const char *name = row->arrival->tree->name;
      const GPtrArray *named = name != NULL ? g_hash_table_lookup (match->work->by_name, name) : NULL;

      if (is_open (row) && named != NULL)
        match_name (match, row, named);
    }
}

/* --- place and nearness --- */

static gint
by_x (gconstpointer a, gconstpointer b)
{
  double one = (*(const FrTree *const *)a)->x_m.value, two = (*(const FrTree *const *)b)->x_m.value;

  return (one > two) - (one < two);
}

static void
sort_trees (Match *match)
{
  const GPtrArray *trees = match->work->book->trees;

  for (guint i = 0; trees != NULL && i < trees->len; i++)
    if (!isnan (((FrTree *)trees->pdata[i])->x_m.value))
      g_ptr_array_add (match->by_x, trees->pdata[i]);
  g_ptr_array_sort (match->by_x, by_x);
}

/* The nearest tree within @within_m that is not taken, and the next. */
static const FrTree *
nearest (const Match *match, const FrArrivalRow *row, double within_m, const FrTree **second_out)
{
  const FrTree *first = NULL;
  guint low = 0, high = match->by_x->len;

  *second_out = NULL;
  while (low < high)
    {
      guint middle = (low + high) / 2;

      if (((FrTree *)match->by_x->pdata[middle])->x_m.value < row->x_m - within_m)
        low = middle + 1;
      else
        high = middle;
    }
  for (; low < match->by_x->len; low++)
    {
      const FrTree *tree = match->by_x->pdata[low];

      if (tree->x_m.value > row->x_m + within_m)
        break;
      if (away_m (row, tree) > within_m || taker (match, tree) != NULL)
        continue;
      if (first == NULL || away_m (row, tree) < away_m (row, first))
        {
          *second_out = first;
          first = tree;
        }
      else if (*second_out == NULL || away_m (row, tree) < away_m (row, *second_out))
        *second_out = tree;
    }
  return first;
}

static void
match_places (Match *match)
{
  for (guint i = 0; i < match->work->preview->rows->len; i++)
    {
      FrArrivalRow *row = fr_arrival_row (match->work->preview, i);
      const FrTree *second, *tree;

      if (!is_open (row) || isnan (row->x_m))
        continue;
      tree = nearest (match, row, FR_ARRIVAL_SAME_PLACE_M, &second);
      if (tree != NULL)
        take (match, row, tree, FR_ARRIVAL_BY_PLACE);
    }
}

static gint
by_away (gconstpointer a, gconstpointer b)
{
  double one = (*(FrArrivalRow *const *)a)->away_m, two = (*(FrArrivalRow *const *)b)->away_m;

  return (one > two) - (one < two);
}

static double
near_m (const Match *match, const FrArrivalRow *row)
{
  double asked_m = match->work->options->near_m;

  return fr_geo_is_point (row->arrival->where) ? asked_m : MIN (asked_m, NEAR_ON_PLAN_M);
}

/* One round over those still open, the nearest first; whether any was taken. */
static gboolean
match_near_round (Match *match)
{
  g_autoptr (GPtrArray) open = g_ptr_array_new ();
  const FrTree *second, *tree;
  gboolean any = FALSE;

  for (guint i = 0; i < match->work->preview->rows->len; i++)
    {
      FrArrivalRow *row = fr_arrival_row (match->work->preview, i);

      if (!is_open (row) || isnan (row->x_m)
          || (tree = nearest (match, row, near_m (match, row), &second)) == NULL)
        continue;
      row->away_m = away_m (row, tree);
      g_ptr_array_add (open, row);
    }
  g_ptr_array_sort (open, by_away);
  for (guint i = 0; i < open->len; i++)
    {
      FrArrivalRow *row = open->pdata[i];

      tree = nearest (match, row, near_m (match, row), &second);
      row->away_m = NAN;
      if (tree == NULL || (second != NULL && away_m (row, second) < CLEARLY_NEARER * away_m (row, tree)))
        continue;
      take (match, row, tree, FR_ARRIVAL_BY_NEARNESS);
      any = TRUE;
    }
  return any;
}

static void
match_near (Match *match)
{
  while (match_near_round (match))
    ;
  for (guint i = 0; i < match->work->preview->rows->len; i++)
    {
      FrArrivalRow *row = fr_arrival_row (match->work->preview, i);
      const FrTree *second, *tree;

      if (!is_open (row) || isnan (row->x_m)
          || (tree = nearest (match, row, near_m (match, row), &second)) == NULL)
        continue;
      row->tree = tree;
      row->other = second;
      row->away_m = away_m (row, tree);
      refuse (row, FR_ARRIVAL_AMBIGUOUS, FR_ARRIVAL_TWO_NEAR, NULL);
    }
}

void
fr_arrivals_match (FrArrivalWork *work)
{
  Match match = { work, g_hash_table_new (g_int64_hash, g_int64_equal), g_ptr_array_new (),
                  g_hash_table_new (g_str_hash, g_str_equal) };

  sort_trees (&match);
  match_uids (&match);
  match_references (&match);
  refuse_twins (&match);
  match_names (&match);
  refuse_unknown (&match);
  match_places (&match);
  match_near (&match);
  g_hash_table_unref (match.taken);
  g_ptr_array_unref (match.by_x);
  g_hash_table_unref (match.in_file);
}
