/* The texts of the season's drawings and of its days on paper, with the days they belong to. */
#pragma once

#include "domain/plan/season.h"
#include "words/paper-words.h"

G_BEGIN_DECLS

/* One lane: its name and unit, what its filled and its outlined marks say, and what would fill it. Any but the name may be NULL. */
typedef struct
{
  char *name;
  char *unit;
  char *known;
  char *expected;
  char *empty;
} FrSeasonLaneWords;

/* A month's first day in the view, or the view's. */
typedef struct
{
  guint day; /* index */
  char *label;
  char *label_short;
} FrSeasonMonthMark;

/* A day that is told of by a word: "8" "clocks go forward". */
typedef struct
{
  guint day; /* index */
  FrDate date;
  char *number;
  char *words;
} FrSeasonDayMark;

/* A month that is worth a page of its own. */
typedef struct
{
  FrDate first;
  char *title; /* "March 2026" */
} FrSeasonMonthPage;

typedef struct
{
  FrSeasonLaneWords span;
  FrSeasonLaneWords gathered;
  FrSeasonLaneWords so_far;
  FrSeasonLaneWords store;
  FrSeasonLaneWords boils;
  FrSeasonLaneWords bottles;
  FrSeasonLaneWords price;
  char *today;
  char *taps_set;
  char *taps_pulled;
  char *full;
  char *weekdays[7]; /* Monday first, short */
  GArray *months;    /* FrSeasonMonthMark */
  GArray *marks;     /* FrSeasonDayMark: clock changes and holidays */
  GArray *pages;     /* FrSeasonMonthPage: from the first month with something in it to the last */
  char *spoken;      /* the whole drawing in one spoken text */
} FrSeasonPictureWords;

FrSeasonPictureWords *fr_season_picture_words_new (const FrSeasonView *view, const FrSay *say);
void fr_season_picture_words_free (FrSeasonPictureWords *words);

/* "Season of 2026" */
char *fr_season_title (guint season);
/* "Saturday 13" */
char *fr_season_day_label (FrDate date);
/* "March 2026" */
char *fr_season_month_title (FrDate date);

/* The days of which anything is known, a row each: date, low, high, gathered, sweetness, in store, boiled, note. */
FrPaperWords *fr_season_table_words_new (const FrSeasonView *view, const FrSay *say);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrSeasonPictureWords, fr_season_picture_words_free)

G_END_DECLS
