/* What a tree is expected to give in a season to come: litres of its first tap, sweetness, sugar, each with how sure that
 * is. Species, size and crown say what to expect; its own seasons and the bush's correct that, each by as much as it is
 * worth (pooling.h). Seasons that were good or bad for all trees are told apart from good and bad trees. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * FrSapSpecies:
 * @code: as kept in the book: sugar, black, red …; "other" also stands for what is unknown
 * @tap_l: middle (half the trees give more) of the first tap's litres in a season, by buckets, from a tree of 40 cm with a
 *   middling crown
 * @tap_apart_ratio: how far a whole species may be off from that, as the sd of a logarithm, beyond what trees of the best
 *   known species are off from theirs
 * @brix: middle of its sap's sweetness
 * @brix_apart_ratio: likewise
 * @source: a citation, not for translation
 */
typedef struct
{
  const char *code;
  double tap_l;
  double tap_apart_ratio;
  double brix;
  double brix_apart_ratio;
  const char *source;
} FrSapSpecies;

/* Never NULL: @code NULL or unknown gives "other". */
const FrSapSpecies *fr_sap_species (const char *code);

/* What the tap of this number (from 0) gives against the first one of the same trunk: 1, 0.75, 0.6, then 0.5. */
double fr_later_tap_ratio (guint tap);

/* What a tree of this size and crown gives against one of 40 cm with a middling crown; 1 for what is unknown. */
double fr_size_yield_ratio (double diameter_m);
double fr_crown_yield_ratio (const char *crown);

/**
 * FrYieldSeason:
 * @season: the year of its spring
 * @taps: that season's; 0 unknown, taken for one
 * @volume_l: all of them together, NAN unknown; 0 or less tells of a mishap, not of the tree, and is passed over
 * @brix: NAN unknown
 */
typedef struct
{
  guint season;
  guint taps;
  double volume_l;
  double brix;
} FrYieldSeason;

/* @species and @crown: codes of the book, NULL unknown; @diameter_m: at breast height, NAN unknown. Borrowed. */
typedef struct
{
  const char *species;
  double diameter_m;
  const char *crown;
  guint n_seasons;
  const FrYieldSeason *seasons;
} FrYieldTree;

/* A mean, its standard deviation, and between what 8 of 10 lie. */
typedef struct
{
  double mean_l, sd_l, lo_l, hi_l;
} FrSpanL;

typedef struct
{
  double mean_brix, sd_brix, lo_brix, hi_brix;
} FrSpanBrix;

typedef struct
{
  double mean_kg, sd_kg, lo_kg, hi_kg;
} FrSpanKg;

/**
 * FrTreeYield:
 * @volume: of the first tap, in one season to come
 * @sweetness: of that season
 * @sugar: of the first tap in that season
 * @volume_own_ratio, @sweetness_own_ratio: weight of the tree's own history, 0 to 1
 * @n_volumes, @n_sweetnesses: seasons that count
 * @alone_ratio, @shared_ratio: sd of the logarithm of @sugar, the tree's own part and the part that it shares with the bush
 * @volume_alone_ratio, @volume_shared_ratio: the same of @volume
 */
typedef struct
{
  FrSpanL volume;
  FrSpanBrix sweetness;
  FrSpanKg sugar;
  double volume_own_ratio;
  double sweetness_own_ratio;
  guint n_volumes;
  guint n_sweetnesses;
  double alone_ratio;
  double shared_ratio;
  double volume_alone_ratio;
  double volume_shared_ratio;
} FrTreeYield;

/* What the bush showed. @volume_ratio: its litres against what species, sizes and crowns led to expect; sds of logarithms. */
typedef struct
{
  double volume_ratio;
  double volume_tree_ratio;
  double volume_rest_ratio;
  double sweetness_ratio;
  double sweetness_tree_ratio;
  double sweetness_rest_ratio;
  guint n_volume_trees;
  guint n_sweetness_trees;
} FrYieldBush;

/* @bush_out may be NULL. Of more than 100 seasons the latest count. */
void fr_tree_yields (const FrYieldTree *trees, guint n, FrTreeYield *yields_out, FrYieldBush *bush_out);

/* Litres of the first @n taps, as a tapping plan asks for them. */
void fr_tree_yield_taps (const FrTreeYield *yield, guint n, double *litres_l_out);

/* What trees with so many taps give together in one season: what they share does not even out. */
void fr_tree_yields_sum (const FrTreeYield *yields, const guint *taps, guint n, FrSpanL *volume_out,
                         FrSpanKg *sugar_out);

G_END_DECLS
