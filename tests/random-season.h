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
/* A season as it happened to a careful household, and what it wrote down of it: every gathering, pour and boil, measured as well as
 * pails, scales and sticks do, and looks into the containers every few days that find what was truly there. */
RandomSeason *
random_season_new_kept (GRand *random, guint season, const FrZoneTable *zone);
void
random_season_free (RandomSeason *season);

/* Mistakes to plant into a kept season. */
typedef enum
{
  RANDOM_MISTAKE_UNIT,   /* a gathering's, pour's or look's amount in another unit or ten times off */
  RANDOM_MISTAKE_MISSED, /* a gathering that is not written down */
  RANDOM_MISTAKE_TWICE,  /* one written down twice */
  RANDOM_N_MISTAKES
} RandomMistake;

/* Plants one, of 3 L or more, in a container that is looked into later. The look at which it has to show; NULL when there is no place
 * for it. @record_out: the entry that is wrong, NULL for one that is missing. */
const FrDip *
random_season_plant (GRand *random, RandomSeason *season, RandomMistake mistake, const FrRecord **record_out);

/* A new record of a kind with the next id, owned by the season. */
gpointer
random_season_add (RandomSeason *season, FrKindId kind);
/* Replaces a record's text. */
void
random_season_text (char **text, const char *value);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RandomSeason, random_season_free)
