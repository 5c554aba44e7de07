/* The season's sweetness as its gatherings tell it, for any day and tree of the book. */
#pragma once

#include "domain/maths/sap-sugar.h"
#include "domain/plan/season-book.h"

G_BEGIN_DECLS

/* Days are counted from so many days after midwinter: mid-March, in the south mid-September. */
#define FR_SUGAR_ZERO_D 74

/**
 * FrBookSugar:
 * @zero: the day that days are counted from
 * @n_trees, @trees: ids of trees with a reading this season, rising
 * @n_readings: that could be made good for their temperature; @n_strays: of these not believed
 * @strays: their gatherings, borrowed from the book
 */
typedef struct
{
  FrSapSugar *sugar;
  FrDate zero;
  guint n_trees;
  gint64 *trees;
  guint n_readings;
  guint n_strays;
  const FrRecord **strays;
} FrBookSugar;

/**
 * fr_book_sugar_new:
 * @book: its zone is needed
 * @is_south: midwinter is in July
 *
 * Readings from the last midwinter up to @now_utc. One of a tree or of a tap is the tree's; one of the whole
 * bush is the mix's; one of a group is the mix's and as much less sure as a few trees differ from it.
 *
 * Returns: never NULL; without readings it has what is believed before any
 */
FrBookSugar *
fr_book_sugar_new (const FrSeasonBook *book, gboolean is_south, gint64 now_utc);
void
fr_book_sugar_free (FrBookSugar *sugar);

/* @tree: its id, or 0 for the mix of all. */
FrSugarBrix
fr_book_sugar_on (const FrBookSugar *sugar, FrDate date, gint64 tree);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrBookSugar, fr_book_sugar_free)

G_END_DECLS
