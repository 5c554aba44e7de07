/* A sheet for gathering has a heading for each trip, as the round is walked; one for measuring has none, for
 * nothing is carried. A tree that the round goes to several times has one row a visit. */
#include "words/paper-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "words/bush-words.h"
#include "words/stop-words.h"
#include "words/tree-words.h"

enum
{
  COLUMN_STOP,
  COLUMN_TREE,
  COLUMN_SPECIES,
  COLUMN_SIZE,
  COLUMN_TAPS,
  N_KNOWN,
  N_COLUMNS = N_KNOWN + 3
};

static const FrPaperColumn columns[FR_N_PAPERS][N_COLUMNS] = {
  [FR_PAPER_GATHERING] = { { N_ ("Stop"), FR_PAPER_NUMBER, FR_QUANTITY_PLAIN, 0 },
                           { N_ ("Tree"), FR_PAPER_TEXT, FR_QUANTITY_PLAIN, 0 },
                           { N_ ("Species"), FR_PAPER_TEXT, FR_QUANTITY_PLAIN, 0 },
                           { N_ ("Thickness"), FR_PAPER_NUMBER, FR_QUANTITY_PLAIN, 0 },
                           { N_ ("Taps"), FR_PAPER_NUMBER, FR_QUANTITY_PLAIN, 0 },
                           { N_ ("Sap"), FR_PAPER_BOX, FR_QUANTITY_VOLUME, 1 },
                           { N_ ("Sweetness"), FR_PAPER_BOX, FR_QUANTITY_SWEETNESS, 1 },
                           { N_ ("Remarks"), FR_PAPER_BOX, FR_QUANTITY_PLAIN, 2.5 } },
  [FR_PAPER_MEASURING] = { { N_ ("Stop"), FR_PAPER_NUMBER, FR_QUANTITY_PLAIN, 0 },
                           { N_ ("Tree"), FR_PAPER_TEXT, FR_QUANTITY_PLAIN, 0 },
                           { N_ ("Species"), FR_PAPER_TEXT, FR_QUANTITY_PLAIN, 0 },
                           { N_ ("Thickness"), FR_PAPER_NUMBER, FR_QUANTITY_PLAIN, 0 },
                           { N_ ("Taps"), FR_PAPER_NUMBER, FR_QUANTITY_PLAIN, 0 },
                           { N_ ("Girth"), FR_PAPER_BOX, FR_QUANTITY_LENGTH, 1 },
                           { N_ ("Health"), FR_PAPER_BOX, FR_QUANTITY_PLAIN, 1 },
                           { N_ ("Remarks"), FR_PAPER_BOX, FR_QUANTITY_PLAIN, 2.5 } },
};

static gboolean
is_of_kind (const FrBushTree *tree, FrPaperKind kind)
{
  return kind == FR_PAPER_MEASURING || tree->taps_set + tree->taps_planned > 0;
}

static void
add_row (FrPaperWords *words, const FrBushTree *tree, const char *number, char *heading, const FrSay *say)
{
  char *cells[N_COLUMNS] = { NULL };

  cells[COLUMN_STOP] = g_strdup (number);
  cells[COLUMN_TREE] = g_strdup (tree->tree->name);
  cells[COLUMN_SPECIES] = g_strdup (fr_species_word (tree->tree->species));
  if (!isnan (tree->diameter_m))
    cells[COLUMN_SIZE] = fr_say_amount (say, tree->diameter_m, FR_QUANTITY_LENGTH, 0);
  cells[COLUMN_TAPS] = fr_tree_taps_short (tree);
  for (guint i = 0; i < N_COLUMNS; i++)
    g_ptr_array_add (words->cells, cells[i]);
  g_ptr_array_add (words->headings, heading);
  words->n_rows++;
}

static void
add_stops (FrPaperWords *words, const FrBush *bush, FrPaperKind kind, const FrBushRound *round,
           GHashTable *done, const FrSay *say)
{
  g_autoptr (GPtrArray) stops = fr_stop_words (bush, round, say);

  for (guint i = 0; i < round->stops->len; i++)
    {
      const FrBushTree *tree = fr_bush_find (bush, g_array_index (round->stops, FrBushStop, i).tree);
      FrStopWords *stop = stops->pdata[i];

      if (tree == NULL)
        continue;
      g_hash_table_add (done, (gpointer)tree);
      add_row (words, tree, stop->number,
               kind == FR_PAPER_GATHERING ? g_steal_pointer (&stop->heading) : NULL, say);
    }
}

static gint
by_name (gconstpointer a, gconstpointer b)
{
  const FrBushTree *const *one = a, *const *two = b;

  return g_utf8_collate ((*one)->tree->name, (*two)->tree->name);
}

/* Those that nobody knows the way to. */
static void
add_rest (FrPaperWords *words, const FrBush *bush, FrPaperKind kind, GHashTable *done, const FrSay *say)
{
  g_autoptr (GPtrArray) rest = g_ptr_array_new ();

  for (guint i = 0; i < fr_bush_n_trees (bush); i++)
    {
      const FrBushTree *tree = fr_bush_tree_at (bush, i);

      if (is_of_kind (tree, kind) && !g_hash_table_contains (done, tree))
        g_ptr_array_add (rest, (gpointer)tree);
    }
  g_ptr_array_sort (rest, by_name);
  for (guint i = 0; i < rest->len; i++)
    add_row (words, rest->pdata[i], NULL,
             i == 0 && words->n_rows > 0 ? g_strdup (_ ("Without a place on the map")) : NULL, say);
}

FrPaperWords *
fr_paper_words_new (const FrBush *bush, FrPaperKind kind, const FrBushRound *round, const FrSay *say)
{
  FrPaperWords *words;
  g_autoptr (GHashTable) done = g_hash_table_new (NULL, NULL);

  g_return_val_if_fail (bush != NULL && kind < FR_N_PAPERS && say != NULL, NULL);

  words = g_new0 (FrPaperWords, 1);
  words->cells = g_ptr_array_new_with_free_func (g_free);
  words->headings = g_ptr_array_new_with_free_func (g_free);
  words->columns = columns[kind];
  words->n_columns = N_COLUMNS;
  words->title
      = g_strdup_printf (kind == FR_PAPER_GATHERING ? _ ("Gathering Round %u") : _ ("Measuring Round %u"),
                         fr_bush_get_season (bush));
  if (round != NULL)
    {
      g_autoptr (FrBushRoundWords) said = fr_bush_round_words_new (round, say);

      words->sentence = fr_say_plain (said->sentence);
      add_stops (words, bush, kind, round, done, say);
    }
  add_rest (words, bush, kind, done, say);
  return words;
}

void
fr_paper_words_free (FrPaperWords *words)
{
  if (words == NULL)
    return;
  g_free (words->title);
  g_free (words->sentence);
  g_ptr_array_unref (words->cells);
  g_ptr_array_unref (words->headings);
  g_free (words);
}

char *
fr_paper_column_title (const FrPaperColumn *column, const FrSay *say)
{
  if (column->title == NULL)
    return g_strdup ("");
  if (column->quantity == FR_QUANTITY_PLAIN)
    return g_strdup (_ (column->title));
  /* Translators: what stands in a column, and its unit: "Sap, L" */
  return g_strdup_printf (_ ("%s, %s"), _ (column->title), fr_quantity_unit (column->quantity, &say->units));
}

char *
fr_paper_number (const FrSay *say, double value, FrQuantityKind kind, int decimals)
{
  if (isnan (value))
    return NULL;
  return fr_say_number (say, fr_quantity_to_shown (value, kind, &say->units), value == 0 ? 0 : decimals);
}

char *
fr_paper_map_title (const FrBush *bush)
{
  return g_strdup_printf (_ ("Map of the Sugarbush %u"), fr_bush_get_season (bush));
}

char *
fr_paper_map_legend (const char *filled)
{
  const char *rest
      = _ ("Wedge on the rim: a tap, solid set, open planned. Dashed outline: weak. ×: do not tap. "
           "Triangle: a hazard.");

  return filled != NULL ? g_strdup_printf ("%s. %s", filled, rest) : g_strdup (rest);
}

char *
fr_paper_litres_filled (double full_l, const FrSay *say)
{
  g_autofree char *full = fr_say_amount (say, full_l, FR_QUANTITY_VOLUME, 0);

  /* Translators: %s is "15 L" */
  return g_strdup_printf (_ ("Filled: sap a tap, full at %s"), full);
}

char *
fr_paper_scale (double scale_ratio, const FrSay *say)
{
  g_autofree char *number = fr_say_number (say, scale_ratio, 0);

  return g_strdup_printf ("1 : %s", number);
}

char *
fr_paper_pages (guint n_pages, guint most, const FrSay *say)
{
  if (n_pages > most)
    return g_strdup_printf (
        _ ("%u pages, more than the %u that are printed at once. Choose a smaller scale."), n_pages, most);
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u page", "%u pages", n_pages), n_pages);
}
