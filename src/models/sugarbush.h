/* What the sugarbush page shows: the bush of one season, the rows of its list in order and filtered, and what is selected. One
 * truth for map, list and panel; nothing here writes to the book.
 *
 * Signals:
 * - "changed" (): trees, season, order, filter or shading differ; rows and bush were made anew (GListModel tells exactly)
 * - "selection-changed" (): other trees are selected, or another one is current
 * - "hover-changed" (): another tree is pointed at
 * - "answered" (): a plan or round that was asked for is known; who still waits for one asks again
 */
#pragma once

#include "domain/plan/bush.h"
#include "models/book.h"

G_BEGIN_DECLS

/* One row of the list: a tree by id, with its place in the bush looked up when asked. */
#define FR_TYPE_TREE_ITEM (fr_tree_item_get_type ())
G_DECLARE_FINAL_TYPE (FrTreeItem, fr_tree_item, FR, TREE_ITEM, GObject)

/* Signal "changed" (): the bush was made anew while the item is in the rows; a row shown looks again. */
gint64 fr_tree_item_get_id (FrTreeItem *self);
/* The tree as the bush has it now, valid until the next "changed"; NULL when it is no longer there. */
const FrBushTree *fr_tree_item_get_tree (FrTreeItem *self);

#define FR_TYPE_SUGARBUSH (fr_sugarbush_get_type ())
G_DECLARE_FINAL_TYPE (FrSugarbush, fr_sugarbush, FR, SUGARBUSH, GObject)

typedef enum
{
  FR_TREE_SORT_NAME, /* numbers in names by value: T2 before T10 */
  FR_TREE_SORT_SPECIES,
  FR_TREE_SORT_SIZE,
  FR_TREE_SORT_HEALTH,
  FR_TREE_SORT_TAPS,
  FR_TREE_SORT_YIELD,
  FR_TREE_SORT_ROUND /* in walking order */
} FrTreeSort;

/* Years after which a measure says little about a growing trunk (common sense, no source). */
#define FR_TREE_OLD_MEASURE_YEARS 10

/* What the fill of a symbol shows. */
typedef enum
{
  FR_TREE_SHADE_LITRES, /* litres a tap this season, empty to 15 a tap or the most there is */
  FR_TREE_SHADE_RANK,
  FR_TREE_SHADE_SWEETNESS,
  FR_TREE_SHADE_GIRTH_AGE, /* how long ago it was measured */
  FR_TREE_SHADE_NONE
} FrTreeShade;

typedef enum
{
  FR_TREE_SHOW_ALL,
  FR_TREE_SHOW_TAPPED,   /* set or planned this season */
  FR_TREE_SHOW_UNTAPPED,
  FR_TREE_SHOW_MAY_TAP,  /* the guideline allows at least one */
  FR_TREE_SHOW_WATCH,    /* weak, failing, hazards */
  FR_TREE_SHOW_UNMEASURED
} FrTreeShow;

/* @now_utc: the moment the window stands at; the season and the age of holes follow from it in the household's zone. */
FrSugarbush *fr_sugarbush_new (FrBook *book, gint64 now_utc);
FrBook *fr_sugarbush_get_book (FrSugarbush *self);
/* Valid until the next "changed". */
const FrBush *fr_sugarbush_get_bush (FrSugarbush *self);
FrDate fr_sugarbush_get_today (FrSugarbush *self);
/* For a window that stays open: nothing happens within the same day. A season that was not chosen follows. */
void fr_sugarbush_set_now (FrSugarbush *self, gint64 now_utc);
guint fr_sugarbush_get_season (FrSugarbush *self);
void fr_sugarbush_set_season (FrSugarbush *self, guint season);

/* The rows as ordered and filtered; items FrTreeItem. Owned by the model. */
GListModel *fr_sugarbush_get_rows (FrSugarbush *self);
void fr_sugarbush_set_sort (FrSugarbush *self, FrTreeSort sort, gboolean descending);
FrTreeSort fr_sugarbush_get_sort (FrSugarbush *self, gboolean *descending_out);
/* @words: each must be found in name, species' code or words, owner or note; NULL or "" for all. */
void fr_sugarbush_set_filter (FrSugarbush *self, FrTreeShow show, const char *words);
FrTreeShow fr_sugarbush_get_show (FrSugarbush *self);
gboolean fr_sugarbush_is_shown (FrSugarbush *self, gint64 tree); /* passes the filter */
/* The item of a tree, shown or not, or NULL; owned by the model. */
FrTreeItem *fr_sugarbush_find_item (FrSugarbush *self, gint64 tree);
/* The place of a tree in the rows; FALSE when it is not shown. */
gboolean fr_sugarbush_find_row (FrSugarbush *self, gint64 tree, guint *position_out);
void fr_sugarbush_set_shade (FrSugarbush *self, FrTreeShade shade);
FrTreeShade fr_sugarbush_get_shade (FrSugarbush *self);
/* How full the symbol is by the chosen shading, 0 to 1, NAN unknown. A rank is full for the best and empty for the last. */
double fr_sugarbush_shade_ratio (FrSugarbush *self, const FrBushTree *tree);
/* What an empty and a full symbol stand for: litres a tap, °Bx, or years; for a legend. FALSE for ranks and none. */
gboolean fr_sugarbush_get_shade_range (FrSugarbush *self, double *empty_out, double *full_out);

/* Selection: any number of trees, one of them current (0 none). */
gboolean fr_sugarbush_is_selected (FrSugarbush *self, gint64 tree);
guint fr_sugarbush_n_selected (FrSugarbush *self);
/* Ids, ascending; borrowed until the next "selection-changed". */
const gint64 *fr_sugarbush_get_selected (FrSugarbush *self);
gint64 fr_sugarbush_get_current (FrSugarbush *self);
/* Only this one (0 none); more: with the others kept; toggled. */
void fr_sugarbush_select (FrSugarbush *self, gint64 tree);
void fr_sugarbush_select_also (FrSugarbush *self, gint64 tree);
void fr_sugarbush_toggle (FrSugarbush *self, gint64 tree);
void fr_sugarbush_select_many (FrSugarbush *self, const gint64 *trees, guint n);
void fr_sugarbush_select_shown (FrSugarbush *self);
gint64 fr_sugarbush_get_hovered (FrSugarbush *self);
void fr_sugarbush_set_hovered (FrSugarbush *self, gint64 tree);

/* The round and the plan are worked out once per change and kept. Owned by the model, valid until "changed", a round of the selection
 * until "selection-changed"; NULL when there is none. */
const FrBushRound *fr_sugarbush_get_round (FrSugarbush *self, FrRoundWhich which, double day_ratio);
const FrBushPlan *fr_sugarbush_get_plan (FrSugarbush *self);

/* The same without waiting for it: TRUE when it is known. Else it is worked out beside the main loop, and "answered" comes. */
gboolean fr_sugarbush_ask_plan (FrSugarbush *self, const FrBushPlan **plan_out);
gboolean fr_sugarbush_ask_round (FrSugarbush *self, FrRoundWhich which, double day_ratio, const FrBushRound **round_out);

G_END_DECLS
