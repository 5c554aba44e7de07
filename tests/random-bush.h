/* Random sugarbushes for tests: every field known or not, texts with all that is awkward in XML, JSON and
 * tables. */
#pragma once

#include "domain/plan/arrivals.h"

/* Owns its records. */
typedef struct
{
  GPtrArray *trees;
  GPtrArray *girths;
  GPtrArray *taps;
  GPtrArray *yields;
  GPtrArray *features;
  FrGround *ground;
  FrBushBook book;
} RandomBush;

/* @n_trees; with an anchor and some trees without a place. Some of each kind are put away. */
RandomBush *
random_bush_new (GRand *random, guint n_trees);
/* None of anything. */
RandomBush *
random_bush_new_empty (void);
void
random_bush_free (RandomBush *bush);

/* Brings the steps of the change in; each before-image must be there. */
void
random_bush_apply (RandomBush *bush, const FrChange *change);

/* The change that brings all of @arrivals in by default options, applied; how many rows were not new. */
FrChange *
random_bush_import (RandomBush *bush, const FrArrivals *arrivals, gboolean replace, gboolean with_paths);

/* Fails the test unless every tree of @wanted that is asked for is in @got with all its history, and nothing
 * else. Ids do not count. */
void
random_bush_assert_same (const RandomBush *wanted, const RandomBush *got, gboolean archived_too,
                         gboolean unplaced_too, double place_tolerance_m);

/* An awkward text of up to @most characters, never blank. Free it. */
char *
random_text (GRand *random, guint most);

void
random_uid (char uid_out[33]);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RandomBush, random_bush_free)
