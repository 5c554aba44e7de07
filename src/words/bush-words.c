/* What to do with a tree, and how it stands among the others. The headline says the one thing to do; what
 * stands in the way is said by tree-caution-words.c, how a place keeps clear of old holes by taphole-words.c.
 */
#include "words/bush-words.h"
#include "words/taphole-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define STEADY_RATIO 0.03 /* a year; seasons differ more than that by themselves */

/* --- places --- */

/* "307°, 60 cm up". */
static char *
place_text (double angle_deg, double height_m, const FrSay *say)
{
  g_autofree char *height = fr_say_amount (say, height_m, FR_QUANTITY_LENGTH, 0);

  /* Translators: compass side of the trunk and height above the ground */
  return g_strdup_printf (_ ("%d°, %s up"), (int)lround (angle_deg) % 360, height);
}

char *
fr_bush_place_words (const FrBush *bush, gint64 tree, double angle_deg, double height_m, gint64 without_tap,
                     const FrSay *say)
{
  g_auto (FrBushTrunk) trunk = { 0 };
  FrTaphole place;

  g_return_val_if_fail (bush != NULL && say != NULL, NULL);

  if (!fr_bush_trunk (bush, tree, without_tap, &trunk)
      || !fr_taphole_clearance (&trunk.trunk, trunk.holes, trunk.n_holes, angle_deg, height_m, &place))
    return NULL;
  return fr_taphole_reason (&place, trunk.holes, trunk.n_holes, trunk.seasons, FALSE, say);
}

/* The best place, and how it stands to the old holes; NULL when there is none. */
static char *
best_place (const FrBush *bush, gint64 tree, const FrSay *say, char **why_out)
{
  g_auto (FrBushTrunk) trunk = { 0 };
  FrTaphole place;

  if (!fr_bush_trunk (bush, tree, 0, &trunk)
      || !fr_taphole_find (&trunk.trunk, trunk.holes, trunk.n_holes, &place))
    return NULL;
  *why_out = fr_taphole_reason (&place, trunk.holes, trunk.n_holes, trunk.seasons, TRUE, say);
  return place_text (place.angle_deg, place.height_m, say);
}

/* --- headline --- */

static char *
forbidden (const FrBush *bush, const FrBushTree *row, const FrSay *say, char **why_out)
{
  if (row->reasons & FR_TREE_REFUSED)
    return g_strdup (_ ("Do not tap: the land’s owner refused."));
  if (row->reasons & FR_TREE_FAILING)
    return g_strdup (g_strcmp0 (row->tree->health, "dead") == 0 ? _ ("Do not tap: it is dead.")
                                                                : _ ("Do not tap: it is failing."));
  if (row->reasons & FR_TREE_WISHED_OFF)
    return g_strdup (_ ("Do not tap: you want it left alone."));
  if (row->reasons & FR_TREE_TOO_SMALL)
    return g_strdup (_ ("Do not tap yet: it is too thin."));
  if (row->reasons & FR_TREE_NO_PLACE)
    {
      g_free (best_place (bush, row->id, say, why_out));
      return g_strdup (_ ("Do not tap: no place is clear of the old holes."));
    }
  return NULL;
}

/* None at all, though its size would allow some. */
static char *
none_left (const FrBushTree *row)
{
  if (row->reasons & FR_TREE_SLOW)
    return g_strdup (_ ("No tap this year: it grows too slowly."));
  if (row->reasons & FR_TREE_TAPPED_HARD)
    return g_strdup (_ ("No tap this year: it had too many lately."));
  return g_strdup (_ ("No tap this year."));
}

static char *
planned (const FrBush *bush, const FrBushTree *row, const FrSay *say, char **why_out)
{
  g_autoptr (GArray) holes = fr_bush_holes (bush, row->id);
  g_autoptr (GString) places = g_string_new (NULL);
  guint n_placed = 0;

  for (guint i = 0; i < holes->len; i++)
    {
      const FrBushHole *hole = &g_array_index (holes, FrBushHole, i);
      g_autofree char *place = NULL;

      if (hole->state != FR_HOLE_PLANNED || isnan (hole->angle_deg) || isnan (hole->height_m))
        continue;
      place = place_text (hole->angle_deg, hole->height_m, say);
      g_string_append_printf (places, "%s%s", n_placed > 0 ? "; " : "", place);
      if (n_placed++ == 0 && row->taps_planned == 1)
        *why_out
            = fr_bush_place_words (bush, row->id, hole->angle_deg, hole->height_m, hole->tap->record.id, say);
    }
  if (n_placed == 0)
    return g_strdup_printf (
        g_dngettext (GETTEXT_PACKAGE, "%u tap is planned.", "%u taps are planned.", row->taps_planned),
        row->taps_planned);
  if (row->taps_planned == 1)
    return g_strdup_printf (_ ("The planned tap goes at %s."), places->str);
  return g_strdup_printf (_ ("%u taps are planned: %s."), row->taps_planned, places->str);
}

static char *
one_more (const FrBush *bush, const FrBushTree *row, const FrSay *say, char **why_out)
{
  static const char *const more[] = { N_ ("A tap fits at %s."), N_ ("A second tap fits at %s."),
                                      N_ ("A third tap fits at %s."), N_ ("A fourth tap fits at %s.") };
  g_autofree char *place = best_place (bush, row->id, say, why_out);

  if (place == NULL)
    return g_strdup (_ ("It may carry one more tap."));
  if (row->taps_set < G_N_ELEMENTS (more))
    return g_strdup_printf (_ (more[row->taps_set]), place);
  return g_strdup_printf (_ ("One more tap fits at %s."), place);
}

char *
fr_bush_headline (const FrBush *bush, const FrBushTree *row, const FrSay *say, char **why_out)
{
  g_autofree char *why = NULL;
  char *headline = NULL;

  g_return_val_if_fail (bush != NULL && row != NULL && say != NULL, NULL);

  if (row->reasons & FR_TREE_FORBIDS)
    headline = forbidden (bush, row, say, &why);
  else if (row->taps_max == 0)
    headline = none_left (row);
  else if (row->taps_planned > 0)
    headline = planned (bush, row, say, &why);
  else if (row->reasons & FR_TREE_NO_RULE)
    headline = g_strdup (_ ("No guideline speaks of a tree that is no maple."));
  else if (row->taps_max < 0)
    headline = g_strdup (_ ("Measure it first: its size says how many taps it may carry."));
  else if (row->taps_set < (guint)row->taps_max)
    headline = one_more (bush, row, say, &why);
  else
    headline = g_strdup (row->taps_set == 1 ? _ ("Its tap is set, and it may carry no more.")
                                            : _ ("Its taps are set, and it may carry no more."));
  if (why_out != NULL)
    *why_out = g_steal_pointer (&why);
  return headline;
}

/* --- among the others --- */

static char *
ordinal (guint n)
{
  if (n / 10 % 10 == 1 || n % 10 == 0 || n % 10 > 3)
    return g_strdup_printf (_ ("%uth"), n);
  if (n % 10 == 1)
    /* Translators: ordinals, for places in an order: 1st, 2nd, 3rd, 4th */
    return g_strdup_printf (_ ("%ust"), n);
  return n % 10 == 2 ? g_strdup_printf (_ ("%und"), n) : g_strdup_printf (_ ("%urd"), n);
}

char *
fr_bush_trend_words (double trend_ratio, const FrSay *say)
{
  g_autofree char *percent = NULL;

  g_return_val_if_fail (say != NULL, NULL);

  if (isnan (trend_ratio))
    return NULL;
  if (fabs (trend_ratio) < STEADY_RATIO)
    return g_strdup (_ ("steady"));
  percent = fr_say_number (say, fabs (trend_ratio) * 100, 0);
  return g_strdup_printf (trend_ratio > 0 ? _ ("gaining %s %% a year") : _ ("losing %s %% a year"), percent);
}

char *
fr_bush_rank_words (const FrBushTree *row, const FrSay *say)
{
  g_autofree char *place = NULL, *trend = NULL;

  g_return_val_if_fail (row != NULL && say != NULL, NULL);

  if (row->rank == 0)
    return NULL;
  place = ordinal (row->rank);
  trend = fr_bush_trend_words (row->trend_ratio, say);
  if (trend == NULL)
    /* Translators: a place among so many, "3rd of 11" */
    return g_strdup_printf (_ ("%s of %u"), place, row->n_ranked);
  return g_strdup_printf (_ ("%s of %u, %s"), place, row->n_ranked, trend);
}

char *
fr_bush_worth_words (const FrTreeWorth *worth, const FrSay *say)
{
  g_autofree char *volume = NULL, *way = NULL;

  g_return_val_if_fail (worth != NULL && say != NULL, NULL);

  volume = fr_say_amount (say, worth->volume_l, FR_QUANTITY_VOLUME, 1);
  way = fr_say_amount (say, worth->detour_m, FR_QUANTITY_DISTANCE, 0);
  return g_strdup_printf (_ ("Adds %s and %s to a round."), volume, way);
}

char *
fr_bush_summary (const FrBush *bush)
{
  guint n, taps = 0, tapped = 0, n_planned = 0;
  GString *text = g_string_new (NULL);

  g_return_val_if_fail (bush != NULL, g_string_free (text, FALSE));

  n = fr_bush_n_trees (bush);
  for (guint i = 0; i < n; i++)
    {
      const FrBushTree *row = fr_bush_tree_at (bush, i);

      taps += row->taps_set;
      tapped += row->taps_set > 0;
      n_planned += row->taps_planned;
    }
  g_string_append_printf (text, g_dngettext (GETTEXT_PACKAGE, "%u tree", "%u trees", n), n);
  if (taps > 0)
    {
      g_string_append (text, " · ");
      /* Translators: so many taps on so many trees */
      g_string_append_printf (text, g_dngettext (GETTEXT_PACKAGE, "%u tap on %u", "%u taps on %u", taps),
                              taps, tapped);
    }
  if (n_planned > 0)
    {
      g_string_append (text, " · ");
      g_string_append_printf (text, _ ("%u planned"), n_planned);
    }
  return g_string_free (text, FALSE);
}
