/* Random seasons of sap for tests: what came in, where it waited, what left, what was found. */
#pragma once

#include "domain/plan/season-book.h"

/* Owns its records; @book borrows them. */
typedef struct
{
  guint season;
  gint64 from_utc; /* of the season */
  gint64 to_utc;
  FrSeasonBook book;
} RandomSeason;

/* Every array there and empty, for a test to fill; @zone is borrowed. */
RandomSeason *
random_season_new_empty (guint season, const FrZoneTable *zone);
/* Anything that the checks of records let through: several containers with and without measures, events at the same instants, amounts
 * by volume, weight and depth, readings by all instruments or none, ice, spills, moves, looks of all kinds, records put away. */
RandomSeason *
random_season_new (GRand *random, guint season, const FrZoneTable *zone);
void
random_season_free (RandomSeason *season);

/* A new record of a kind with the next id, owned by the season. */
gpointer
random_season_add (RandomSeason *season, FrKindId kind);
/* Replaces a record's text. */
void
random_season_text (char **text, const char *value);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RandomSeason, random_season_free)
