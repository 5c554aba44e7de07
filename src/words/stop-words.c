/* Every stop has the number it has on the map: its place in the walk, over all trips. */
#include "words/stop-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

void
fr_stop_words_free (FrStopWords *words)
{
  if (words == NULL)
    return;
  g_free (words->heading);
  g_free (words->number);
  g_free (words->name);
  g_free (words->litres);
  g_free (words->leg);
  g_free (words->spoken);
  g_free (words);
}

static gboolean
find_place (const FrBush *bush, gint64 tree, double *x_m, double *y_m)
{
  const FrBushTree *row = fr_bush_find (bush, tree);

  if (row == NULL)
    return FALSE;
  *x_m = row->tree->x_m.value;
  *y_m = row->tree->y_m.value;
  return TRUE;
}

/* All of the trip that begins at @first, and the way back. */
static char *
trip_heading (const FrBush *bush, const FrBushRound *round, guint first, const FrSay *say)
{
  const FrBushStop *stops = (const FrBushStop *)(gpointer)round->stops->data;
  double volume_l = 0, walk_m = 0, x_m = round->start_x_m, y_m = round->start_y_m;
  g_autofree char *litres = NULL, *way = NULL;

  for (guint i = first; i < round->stops->len && stops[i].trip == stops[first].trip; i++)
    {
      volume_l += stops[i].volume_l;
      walk_m += stops[i].leg_m;
      find_place (bush, stops[i].tree, &x_m, &y_m);
    }
  walk_m += hypot (x_m - round->start_x_m, y_m - round->start_y_m);
  litres = fr_say_amount (say, volume_l, FR_QUANTITY_VOLUME, -1);
  way = fr_say_amount (say, walk_m, FR_QUANTITY_DISTANCE, 0);
  /* Translators: trip number, litres, metres: "Trip 2 · 18.4 L · 120 m" */
  return g_strdup_printf (_ ("Trip %u · %s · %s"), stops[first].trip + 1, litres, way);
}

GPtrArray *
fr_stop_words (const FrBush *bush, const FrBushRound *round, const FrSay *say)
{
  GPtrArray *all = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_stop_words_free);
  const FrBushStop *stops;

  g_return_val_if_fail (bush != NULL && round != NULL && say != NULL, all);

  stops = (const FrBushStop *)(gpointer)round->stops->data;
  for (guint i = 0; i < round->stops->len; i++)
    {
      const FrBushTree *tree = fr_bush_find (bush, stops[i].tree);
      FrStopWords *words = g_new0 (FrStopWords, 1);

      if (round->n_trips > 1 && (i == 0 || stops[i].trip != stops[i - 1].trip))
        words->heading = trip_heading (bush, round, i, say);
      words->number = g_strdup_printf ("%u", i + 1);
      words->name = g_strdup (tree != NULL ? tree->tree->name : "");
      words->litres = fr_say_amount (say, stops[i].volume_l, FR_QUANTITY_VOLUME, -1);
      words->leg = fr_say_amount (say, stops[i].leg_m, FR_QUANTITY_DISTANCE, 0);
      /* Translators: "3. Gate: 3.4 L, 24 m on." */
      words->spoken
          = g_strdup_printf (_ ("%s. %s: %s, %s on."), words->number, words->name, words->litres, words->leg);
      g_ptr_array_add (all, words);
    }
  return all;
}
