/* What the files of the sugarbush model share: the items of its list, the list itself, and its order and
 * filter as functions. */
#pragma once

#include "domain/units/zone.h"
#include "models/sugarbush.h"

G_BEGIN_DECLS

/* One row. Its keys are made when first needed and kept as long as the tree's record is the same. */
struct _FrTreeItem
{
  GObject parent_instance;
  gint64 id;
  FrSugarbush *owner;     /* not a reference; NULL once the model is gone */
  FrRecordObject *record; /* the tree */
  char *name_key;
  char *haystack;
};

FrTreeItem *
fr_tree_item_new (FrSugarbush *owner, gint64 id);
/* The tree's record as it is now. */
void
fr_tree_item_set_record (FrTreeItem *self, FrRecordObject *record);
/* Compared by bytes: letters by the locale without case, numbers by value. */
const char *
fr_tree_item_name_key (FrTreeItem *self);
/* Everything a search looks at, without case. */
const char *
fr_tree_item_haystack (FrTreeItem *self);
void
fr_tree_item_tell (FrTreeItem *self);

/* The rows: a list that is given a new order as a whole and tells only what differs. */
#define FR_TYPE_TREE_ROWS (fr_tree_rows_get_type ())
G_DECLARE_FINAL_TYPE (FrTreeRows, fr_tree_rows, FR, TREE_ROWS, GObject)

FrTreeRows *
fr_tree_rows_new (void);
guint
fr_tree_rows_get_size (FrTreeRows *self);
FrTreeItem *
fr_tree_rows_get (FrTreeRows *self, guint position);
/* @wanted: elements FrTreeItem, each at most once. */
void
fr_tree_rows_set (FrTreeRows *self, GPtrArray *wanted);

/* Words of a search as they are looked for; NULL for none. Free with g_strfreev. */
char **
fr_tree_words (const char *text);
gboolean
fr_tree_passes (FrTreeItem *item, const FrBushTree *tree, FrTreeShow show, char *const *words);

/* Puts items into order. @round: for the walking order, else NULL. */
void
fr_tree_sort (GPtrArray *items, const FrBush *bush, FrTreeSort sort, gboolean descending,
              const FrBushRound *round);
/* A round or plan that was asked for, kept until the next change. */
typedef struct
{
  FrRoundWhich which;
  double day_ratio;
  FrBushRound *round;
} KeptRound;

/* What is being worked out in a thread. */
typedef struct _FrBushQuestion FrBushQuestion;
/* What is being summed beside the main loop. */
typedef struct _FrBushSum FrBushSum;

/* The kinds a bush is made from. */
#define FR_BUSH_KINDS 9

/* The records of one kind as the bush looks at them. Kept from one bush to the next while the book's list
 * stays the same, for an edit moves one kind and a book has some ten thousands of taps and yields. */
typedef struct
{
  FrRecordList *list; /* the book's */
  gulong handler;
  gboolean stale;     /* the list has changed since */
  GPtrArray *objects; /* FrRecordObject, held */
  GPtrArray *records; /* FrRecord of them */
} FrBushHeld;

struct _FrSugarbush
{
  GObject parent_instance;
  FrBook *book;
  gulong book_handler;
  gint64 now_utc;
  FrZoneTable *zone;
  char *zone_name;
  FrDate today;
  guint season;
  gboolean season_chosen; /* else it follows today */

  FrBushHeld held[FR_BUSH_KINDS];
  FrBushBook records;
  FrBush *bush;
  GHashTable *items; /* id → FrTreeItem of every tree of the bush */
  FrTreeRows *rows;

  FrTreeSort sort;
  gboolean descending;
  FrTreeShow show;
  char **words;
  FrTreeShade shade;
  double most_l; /* a tap, of all trees this season */
  double most_brix;

  GArray *selected; /* gint64, rising */
  gint64 current;
  gint64 hovered;

  GArray *rounds; /* KeptRound */
  FrBushPlan *plan;
  gboolean planned;
  FrBushQuestion *asked; /* or NULL; it frees itself */

  GArray *gathered;     /* FrGatheredTotals of seasons that the book's lists do not hold; NULL before they are summed */
  gboolean gathered_shared; /* some of it are shares of totals */
  FrBushSum *summing;   /* or NULL */
  gboolean sum_known;   /* the next three are what it was begun for last */
  guint sum_serial;
  guint sum_season;
};

/* sugarbush-gathered.c */
/* Begins to sum anew what the seasons beside the lists' own gave, if it may have changed: with containers, since they were measured in
 * them, or the zone, and with trees, girths or taps where totals were shared out over them. */
void
fr_sugarbush_sum_gathered (FrSugarbush *self, gboolean measures_moved, gboolean trees_moved);
void
fr_sugarbush_gathered_clear (FrSugarbush *self);
/* Makes the bush anew and tells. */
void
fr_sugarbush_rebuild (FrSugarbush *self);

/* sugarbush-answers.c */
void
fr_sugarbush_answers_init (FrSugarbush *self);
/* Before the bush is dropped for good. */
void
fr_sugarbush_answers_clear (FrSugarbush *self);
void
fr_sugarbush_forget_answers (FrSugarbush *self);
/* Frees the model's bush that was, or leaves it to the thread that still looks at it. */
void
fr_sugarbush_drop_bush (FrSugarbush *self, FrBush *bush);
void
fr_sugarbush_tell_answered (FrSugarbush *self);

/* What the fullest symbol stands for. */
void
fr_sugarbush_find_most (FrSugarbush *self);
/* Takes what is no longer there out of the selection, silently; whether that moved anything. */
gboolean
fr_sugarbush_carry_selection (FrSugarbush *self);

G_END_DECLS
