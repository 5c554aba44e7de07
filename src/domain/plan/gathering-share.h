/* Which tree gave how much. What was gathered from a tree or a tap alone is measured. A total of several trees is spread over them by
 * what each gave lately and is estimated; the two are never added up here.
 *
 * Gatherings no more than FR_GATHERING_SESSION_S apart are one session. A total is of the trees that had a hole set that day (of the group
 * named, for a group), without those that the same session has a line of their own for, or a line of their group: their sap is in
 * that line. Where that leaves none, it is of all of them. */
#pragma once

#include "domain/plan/bush.h"
#include "domain/plan/gathering.h"

G_BEGIN_DECLS

/* Common sense, no source: a pause of over two hours ends a round. */
#define FR_GATHERING_SESSION_S 7200

/**
 * FrGatheredTotals:
 * What one tree gave in one season by its gatherings. Sums; where a count is 0 they are 0 and say nothing.
 * @measured_l: gathered from it alone, without ice that was thrown out
 * @measured_sweet_l: the part of @measured_l whose sweetness was read; @measured_sugar_kg is in that part
 * @estimated_l, @estimated_sweet_l, @estimated_sugar_kg: the same of its shares of totals
 * @n_measured: lines of its own; @n_estimated: totals it has a share of
 */
typedef struct
{
  gint64 tree;
  guint season;
  double measured_l;
  double measured_sweet_l;
  double measured_sugar_kg;
  double estimated_l;
  double estimated_sweet_l;
  double estimated_sugar_kg;
  guint n_measured;
  guint n_estimated;
} FrGatheredTotals;

/**
 * FrGatheringPart:
 * What of one gathering is one tap's.
 * @gathering: id of the record
 * @tap: 0 when no hole of the tree was set that day
 * @sugar_kg: at the gathering's own reading, NAN without one
 * @tree_estimated: a share of a total of several trees
 * @tap_estimated: a share of a tree with several taps
 */
typedef struct
{
  gint64 gathering;
  gint64 tree;
  gint64 tap;
  double volume_l;
  double sugar_kg;
  gboolean tree_estimated;
  gboolean tap_estimated;
} FrGatheringPart;

/**
 * FrGatheringShares:
 * @parts: FrGatheringPart in order of time; those of one gathering stand together and add up to it
 * @totals: FrGatheredTotals by tree
 * @unshared_l: of totals for which no tree had a hole set that day
 * @n_unknown: gatherings whose litres cannot be worked out, left aside
 */
typedef struct
{
  GArray *parts;
  GArray *totals;
  double unshared_l;
  guint n_unknown;
  GHashTable *index; /* for fr_gathering_shares_of */
} FrGatheringShares;

/* One season of the bush's own gatherings, spread by what the bush expects of its trees and by what they gave in that season before.
 * Never NULL. */
FrGatheringShares *fr_gathering_shares_new (const FrBush *bush, guint season);
void fr_gathering_shares_free (FrGatheringShares *shares);
/* The parts of one gathering; NULL and 0 when it has none. */
const FrGatheringPart *fr_gathering_shares_of (const FrGatheringShares *shares, gint64 gathering, guint *n_out);

/* The totals of seasons whose gatherings are not all kept in memory: records are shown one after the other and need not outlive the
 * call, so that one query may fill the same record again and again. A season's shares start from species, size and crown, so that
 * nothing learned from shares comes back as something known. */
typedef struct _FrGatheringSharer FrGatheringSharer;

/* Of @book the trees, girths, taps, containers and zone count; borrowed until finished. */
FrGatheringSharer *fr_gathering_sharer_new (const FrBushBook *book);
/* In order of time, then id. Only these fields are looked at: id, archived, gathered_utc, scope, tree, tap, stand, measured_by,
 * volume_l, weight_kg, depth_m, bucket, reading_brix, instrument, sample_c. */
void fr_gathering_sharer_add (FrGatheringSharer *sharer, const FrGathering *gathering);
/* FrGatheredTotals by tree and season, ready for an FrBushBook; frees the sharer. Free with g_array_unref. */
GArray *fr_gathering_sharer_finish (FrGatheringSharer *sharer);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrGatheringShares, fr_gathering_shares_free)

G_END_DECLS
