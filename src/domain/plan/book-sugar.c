/* From gatherings to the filter of sap-sugar.h. How far a reading may be off, by instrument: common practice,
 * no source. */
#include "domain/plan/book-sugar.h"

#include "domain/plan/season-air.h"
#include "domain/plan/sweetness.h"

#include <math.h>
#include <stdlib.h>

#define READ_BRIX_SD 0.2
#define GUESS_BRIX_SD 0.6
/* Trees that a group's bucket comes from; common sense, no source. */
#define GROUP_TREES 4.0

typedef struct
{
  const FrGathering *gathering;
  gint64 tree; /* 0: of the mix */
  FrSapSugarReading reading;
} Line;

static gint64
tree_of_tap (const FrSeasonBook *book, gint64 tap_id)
{
  for (guint i = 0; book->taps != NULL && i < book->taps->len; i++)
    {
      const FrTap *tap = book->taps->pdata[i];

      if (tap->record.id == tap_id)
        return tap->tree;
    }
  return 0;
}

/* FALSE when it says nothing of sweetness. */
static gboolean
read_line (const FrSeasonBook *book, const FrGathering *gathering, FrDate zero, const FrSapSugarPrior *prior,
           Line *line)
{
  FrDate date = fr_zone_local (book->zone, gathering->gathered_utc).date;

  *line = (Line){ .gathering = gathering };
  line->reading.at_days = (double)(fr_date_to_days (date) - fr_date_to_days (zero));
  line->reading.brix
      = fr_sweetness_brix (gathering->instrument, gathering->reading_brix.value, gathering->sample_c.value);
  line->reading.brix_sd = g_strcmp0 (gathering->instrument, "guess") == 0 ? GUESS_BRIX_SD : READ_BRIX_SD;
  if (g_strcmp0 (gathering->scope, "tree") == 0)
    line->tree = gathering->tree;
  else if (g_strcmp0 (gathering->scope, "tap") == 0)
    line->tree = tree_of_tap (book, gathering->tap);
  else if (g_strcmp0 (gathering->scope, "group") == 0)
    line->reading.brix_sd = hypot (line->reading.brix_sd, prior->tree_brix_sd / sqrt (GROUP_TREES));
  return !isnan (line->reading.brix);
}

static GArray *
lines_of (const FrSeasonBook *book, FrDate midwinter, FrDate zero, const FrSapSugarPrior *prior,
          gint64 now_utc)
{
  GArray *lines = g_array_new (FALSE, FALSE, sizeof (Line));

  for (guint i = 0; book->gatherings != NULL && i < book->gatherings->len; i++)
    {
      const FrGathering *gathering = book->gatherings->pdata[i];
      Line line;

      if (gathering->record.archived || gathering->gathered_utc > now_utc
          || fr_date_compare (fr_zone_local (book->zone, gathering->gathered_utc).date, midwinter) < 0)
        continue;
      if (read_line (book, gathering, zero, prior, &line))
        g_array_append_val (lines, line);
    }
  return lines;
}

static int
by_id (const void *a, const void *b)
{
  gint64 first = *(const gint64 *)a, second = *(const gint64 *)b;

  return first < second ? -1 : first > second;
}

static void
put_trees (FrBookSugar *sugar, const GArray *lines)
{
  guint n = 0;

  sugar->trees = g_new (gint64, lines->len + 1);
  for (guint i = 0; i < lines->len; i++)
    if (g_array_index (lines, Line, i).tree != 0)
      sugar->trees[n++] = g_array_index (lines, Line, i).tree;
  qsort (sugar->trees, n, sizeof *sugar->trees, by_id);
  for (guint i = 0; i < n; i++)
    if (i == 0 || sugar->trees[i] != sugar->trees[sugar->n_trees - 1])
      sugar->trees[sugar->n_trees++] = sugar->trees[i];
}

/* @n_trees for one without a reading. */
static gint
number_of (const FrBookSugar *sugar, gint64 tree)
{
  const gint64 *found;

  if (tree == 0)
    return FR_SUGAR_BUSH;
  found = sugar->n_trees > 0 ? bsearch (&tree, sugar->trees, sugar->n_trees, sizeof tree, by_id) : NULL;
  return found != NULL ? (gint)(found - sugar->trees) : (gint)sugar->n_trees;
}

FrBookSugar *
fr_book_sugar_new (const FrSeasonBook *book, gboolean is_south, gint64 now_utc)
{
  FrBookSugar *sugar = g_new0 (FrBookSugar, 1);
  const FrSapSugarPrior prior = fr_sap_sugar_prior ();
  FrDate midwinter = fr_midwinter (fr_zone_local (book->zone, now_utc).date, is_south);
  g_autoptr (GArray) lines = NULL;
  g_autofree FrSapSugarReading *readings = NULL;

  sugar->zero = fr_date_add_days (midwinter, FR_SUGAR_ZERO_D);
  lines = lines_of (book, midwinter, sugar->zero, &prior, now_utc);
  put_trees (sugar, lines);
  readings = g_new (FrSapSugarReading, lines->len + 1);
  for (guint i = 0; i < lines->len; i++)
    {
      readings[i] = g_array_index (lines, Line, i).reading;
      readings[i].tree = number_of (sugar, g_array_index (lines, Line, i).tree);
    }
  sugar->n_readings = lines->len;
  sugar->sugar = fr_sap_sugar_new (&prior, sugar->n_trees, readings, lines->len);
  sugar->strays = g_new (const FrRecord *, lines->len + 1);
  for (guint i = 0; i < lines->len; i++)
    if (fr_sap_sugar_is_stray (sugar->sugar, i))
      sugar->strays[sugar->n_strays++] = &g_array_index (lines, Line, i).gathering->record;
  return sugar;
}

void
fr_book_sugar_free (FrBookSugar *sugar)
{
  if (!sugar)
    return;
  fr_sap_sugar_free (sugar->sugar);
  g_free (sugar->trees);
  g_free (sugar->strays);
  g_free (sugar);
}

FrSugarBrix
fr_book_sugar_on (const FrBookSugar *sugar, FrDate date, gint64 tree)
{
  return fr_sap_sugar_on (sugar->sugar, (double)(fr_date_to_days (date) - fr_date_to_days (sugar->zero)),
                          number_of (sugar, tree));
}
