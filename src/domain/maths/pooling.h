/* Partial pooling: a tree with little history is taken to be much like its bush, one with much history for what it
 * showed. Everything is normal (amounts that vary by ratios go in as logarithms).
 *
 * One mean from a prior and observations is the closed form of normal and normal. A bush is observations of trees in
 * seasons: value = level of the bush + what the season was for all + what the tree is + the rest, each part normal. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Mean and standard deviation, in whatever unit the caller has. */
typedef struct
{
  double value;
  double sd;
} FrNormal;

/**
 * FrPooled:
 * @value, @sd: mean and standard deviation after the observations
 * @alone_sd: the part of @sd that is this tree's alone; the rest it shares with its bush
 * @weight_ratio: how much of the mean comes from the tree's own observations, 0 to 1
 * @n: observations
 */
typedef struct
{
  double value;
  double sd;
  double alone_sd;
  double weight_ratio;
  guint n;
} FrPooled;

/* @prior: sd 0 is sure of it, infinite knows nothing. @observed: each with its own sd, over 0. Without observations the
 * prior comes back; NAN when there is nothing to know it from. */
FrPooled fr_pool (FrNormal prior, const FrNormal *observed, guint n);

typedef struct
{
  guint tree;
  guint season;
  double value;
} FrPoolSeen;

/**
 * FrPoolPrior:
 * @level: of the bush
 * @tree_sd: between trees of one bush
 * @season_sd: between seasons, for all trees alike; 0 when there are no seasons; not estimated
 * @rest_sd: of one tree in one season, over 0
 * @worth: @tree_sd counts as much as this many trees with a history would tell, @rest_sd as this many observations;
 *   0 takes the bush's word alone
 */
typedef struct
{
  FrNormal level;
  double tree_sd;
  double season_sd;
  double rest_sd;
  double worth;
} FrPoolPrior;

/**
 * FrPoolBush:
 * @level: of the bush, with what is still unknown of it
 * @tree_sd, @rest_sd: as they came out
 * @n_seen: trees with observations
 * @trees: the mean of each tree, whatever the season; free with fr_pool_bush_clear
 * @seasons: what each was for all
 */
typedef struct
{
  FrNormal level;
  double tree_sd;
  double rest_sd;
  guint n_seen;
  guint n_trees;
  guint n_seasons;
  FrPooled *trees;
  FrNormal *seasons;
} FrPoolBush;

/**
 * fr_pool_bush:
 * @seen: observations in any order; any number of a tree and a season
 * @n_trees: trees are 0 to this
 * @n_seasons: seasons are 0 to this, at most FR_POOL_SEASONS_MAX
 * @apart_sd: (nullable): for each tree, how much further than its like it may be off; 0 for most
 *
 * Level, seasons and trees together are the joint posterior mean; the two standard deviations are those that make it
 * most likely (restricted likelihood: level and seasons are integrated out), with @prior counting by its worth. With
 * few trees they stay near the prior's.
 */
#define FR_POOL_SEASONS_MAX 100
void fr_pool_bush (const FrPoolPrior *prior, const FrPoolSeen *seen, guint n_seen, guint n_trees, guint n_seasons,
                   const double *apart_sd, FrPoolBush *bush_out);
void fr_pool_bush_clear (FrPoolBush *bush);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (FrPoolBush, fr_pool_bush_clear)

G_END_DECLS
