/* The sugarbush as one season sees it: records in, one row per tree out, with what its size, health and history say about
 * tapping it; then the holes of a trunk, the place for the next one, the choice of trees, and the round.
 *
 * A season is named by the year of its spring; it begins on 1 August of the year before (northern hemisphere). Archived
 * records are passed over, except that an archived tree's history still counts towards the bush's means. */
#pragma once

#include "domain/maths/taphole.h"
#include "domain/maths/tapping.h"
#include "domain/records/change.h"
#include "domain/records/kinds.h"
#include "domain/units/calendar.h"
#include "domain/units/zone.h"

G_BEGIN_DECLS

/* The records a bush needs; arrays of FrRecord, borrowed, which must outlive the bush. */
typedef struct
{
  GPtrArray *trees;
  GPtrArray *girths;
  GPtrArray *taps;
  GPtrArray *yields;
  GPtrArray *features;
  const FrGround *ground;   /* or NULL */
  const FrTapping *tapping; /* or NULL: everything at its default */
  GPtrArray *gatherings;    /* all of each season that it has any of; or NULL */
  GPtrArray *containers;    /* what these were measured in; or NULL */
  const FrZoneTable *zone;  /* for the day of an instant; NULL: UTC */
  const GArray *gathered;   /* FrGatheredTotals (gathering-share.h) by tree and season, of seasons that @gatherings has none of; or
                               NULL */
} FrBushBook;

/* Groups of species that the map draws alike. */
typedef enum
{
  FR_TREE_HARD, /* sugar, black */
  FR_TREE_SOFT, /* red, silver */
  FR_TREE_OTHER, /* Norway, bigleaf, boxelder, another maple */
  FR_TREE_NOT_MAPLE /* birch, walnut: no tapping guideline of maples holds */
} FrTreeGroup;

/* Why a tree may carry fewer taps than its size allows, or none, or what to watch. Bits. The first group forbids. */
typedef enum
{
  FR_TREE_TOO_SMALL = 1 << 0,
  FR_TREE_FAILING = 1 << 1, /* or dead */
  FR_TREE_REFUSED = 1 << 2, /* by the land's owner */
  FR_TREE_WISHED_OFF = 1 << 3, /* the household's own "never" */
  FR_TREE_NO_PLACE = 1 << 4, /* no place keeps the asked distance from old holes */
  FR_TREE_WEAK = 1 << 8, /* these take taps away */
  FR_TREE_SLOW = 1 << 9,
  FR_TREE_TAPPED_HARD = 1 << 10,
  FR_TREE_GROWTH_UNKNOWN = 1 << 11, /* where the guideline gives more than one tap to good growers alone */
  FR_TREE_SIZE_UNKNOWN = 1 << 16, /* these only warn */
  FR_TREE_NO_RULE = 1 << 17, /* not a maple */
  FR_TREE_DEAD_LIMBS = 1 << 18,
  FR_TREE_WIRES = 1 << 19,
  FR_TREE_LEANS = 1 << 20,
  FR_TREE_ROADSIDE = 1 << 21,
  FR_TREE_NOT_ASKED = 1 << 22, /* whether the land's owner agrees is unknown */
  FR_TREE_OVER_GUIDELINE = 1 << 23 /* more taps set or planned than the guideline allows */
} FrTreeReason;

#define FR_TREE_FORBIDS 0xff

/**
 * FrBushTree:
 * One tree as this season sees it. Everything unknown is NAN; strings are borrowed from the records.
 * @id: of the tree's record
 * @diameter_m: by the latest measure, at breast height; @girth_m likewise
 * @measured_on: the day of it, or NULL
 * @growth_m_per_year: of the diameter, from at least two measures two years or more apart
 * @taps_by_size: what the guideline allows for the size alone; @taps_max after health, growth and history. Both −1 unknown
 * @taps_set, @taps_planned: this season's
 * @season_l, @season_brix, @season_sugar_kg: what it gave this season: the total typed for it, else what was gathered from it alone
 *   unless more than a tenth of what it gave went into totals of several trees
 * @gathered_l: gathered from it alone this season, NAN when nothing was; @gathered_brix of that
 * @estimated_l: its share of totals of several trees this season, NAN when it has none; @estimated_sugar_kg of those whose sweetness
 *   was read
 * @last_l: the same for the latest earlier season on record; @last_season 0 none
 * @rank: place in the bush by sugar per season, the mean over those of the bush's last five seasons with data in which the tree has
 *   some; by litres where no sweetness was ever measured in the bush. What is gathered ranks when its season is over: all its taps
 *   pulled, or its last day past. 1 best, equals share the better place, 0 none; @n_ranked how many have one
 * @trend_ratio: yearly change of its litres per tap against the bush's own, −0.1 is 10 % less each year; NAN under 3 seasons
 *   with litres, taps and other trees to compare
 * @expected_l: litres of the first tap in a season, its span 8 in 10 and its sweetness
 */
typedef struct
{
  gint64 id;
  const FrTree *tree;
  FrTreeGroup group;
  double diameter_m;
  double girth_m;
  const char *measured_on;
  double growth_m_per_year;
  int taps_by_size;
  int taps_max;
  guint reasons; /* FrTreeReason bits */
  guint taps_set;
  guint taps_planned;
  double season_l;
  double season_brix;
  double season_sugar_kg;
  double gathered_l;
  double gathered_brix;
  double estimated_l;
  double estimated_sugar_kg;
  double last_l;
  guint last_season;
  guint rank;
  guint n_ranked;
  double trend_ratio;
  double expected_l;
  double expected_low_l;
  double expected_high_l;
  double expected_brix;
} FrBushTree;

typedef struct _FrBush FrBush;

/* @today tells how old holes are. A season that is over is seen as it stood on its last day: later records do not count, but for a
 * first measure of a trunk. */
FrBush *fr_bush_new (const FrBushBook *book, guint season, FrDate today);
/* The same in place of an older one (or NULL), from which what is expected of the trees is taken over where nothing that it rests on
 * has changed: species, size and crown, and what earlier seasons gave. That spares most of the time after most changes. @old
 * stays the caller's; its records need not exist any more. */
FrBush *fr_bush_renew (const FrBush *old, const FrBushBook *book, guint season, FrDate today);
void fr_bush_free (FrBush *bush);

guint fr_bush_get_season (const FrBush *bush);
/* All trees that are not archived, by id. */
guint fr_bush_n_trees (const FrBush *bush);
const FrBushTree *fr_bush_tree_at (const FrBush *bush, guint index);
const FrBushTree *fr_bush_find (const FrBush *bush, gint64 tree); /* NULL when there is none */

/* The season a day belongs to. */
guint fr_season_of (FrDate day);

FrTreeGroup fr_tree_group (const char *species);

/* Litres that so many taps of a tree are expected to give in a season; NAN when there is no such tree. */
double fr_bush_expected_l (const FrBush *bush, gint64 tree, guint taps);

/* What so many taps of a tree are expected to give in a season, with spans, 8 seasons in 10. */
typedef struct
{
  double volume_l;
  double volume_low_l;
  double volume_high_l;
  double sugar_kg;
  double sugar_low_kg;
  double sugar_high_kg;
} FrTreeExpected;

/* FALSE when there is no such tree or it has no taps. */
gboolean fr_bush_expect (const FrBush *bush, gint64 tree, guint taps, FrTreeExpected *expected_out);

/* One season of one tree. Where no total was typed, @volume_l is what was gathered from the tree alone, and unknown when more than a
 * tenth of what it gave went into totals of several trees: what is estimated teaches nothing. */
typedef struct
{
  guint season;
  guint taps;      /* set */
  double volume_l;
  double brix;     /* corrected */
  double sugar_kg;
  guint rank;      /* among the trees of that season, 0 none */
  guint n_ranked;
  double gathered_l;    /* from the tree alone, NAN none */
  double gathered_brix; /* of that */
  double estimated_l;   /* its share of totals, NAN none */
  gboolean running;     /* @volume_l is what was gathered so far: it does not rank yet */
} FrTreeSeason;

/* A tree's seasons, oldest first; elements FrTreeSeason. Free with g_array_unref. */
GArray *fr_bush_history (const FrBush *bush, gint64 tree);

typedef enum
{
  FR_HOLE_PLANNED,
  FR_HOLE_THIS_SEASON,
  FR_HOLE_OPEN,  /* of an earlier season, not closed yet as far as is known */
  FR_HOLE_CLOSED
} FrHoleState;

/* One hole on a trunk; @stain_half_width_m and @stain_half_height_m as modelled (see docs/physics). Holes whose side or height is
 * unknown are listed with NAN and cannot be kept clear of. */
typedef struct
{
  const FrTap *tap;
  guint season;
  double angle_deg;
  double height_m;
  FrHoleState state;
  double stain_half_width_m;
  double stain_half_height_m;
} FrBushHole;

/* By season, then id; elements FrBushHole. What was planned for an earlier season and never set is no hole. A hole counts as closed
 * when it was seen to be, or by its age on a healthy tree (see maths/tapping.h). Free with g_array_unref. */
GArray *fr_bush_holes (const FrBush *bush, gint64 tree);

/* The household's spacing, or the default. */
typedef struct
{
  double sideways_m;
  double up_down_m;
  double min_height_m;
  double max_height_m;
} FrBushSpacing;

FrBushSpacing fr_bush_spacing (const FrBush *bush);
/* The household's guideline, or the default. */
const FrGuideline *fr_bush_guideline (const FrBush *bush);

/* A place for a hole and what is to be said about it. */
typedef struct
{
  double angle_deg;
  double height_m;
  double clearance_ratio; /* of the asked distance, to the nearest hole; NAN when there is none */
  gboolean keeps_rule;
  gboolean in_column;     /* straight above or below an old hole */
  gint64 nearest_tap;     /* 0 none */
} FrBushPlace;

/* The best @n places for new holes, which keep clear of each other too. FALSE when the girth is unknown. */
gboolean fr_bush_places (const FrBush *bush, gint64 tree, guint n, FrBushPlace *places_out);
/* What a place chosen by hand is worth; @without_tap is left out of the holes (0 none), for dragging a planned one. */
gboolean fr_bush_place_at (const FrBush *bush, gint64 tree, double angle_deg, double height_m, gint64 without_tap,
                           FrBushPlace *place_out);

/* A trunk as maths/taphole.h takes it, with all holes whose place is known; @seasons and @taps stand beside them, 0 for a hole that
 * has no record. */
typedef struct
{
  FrTrunk trunk;
  guint n_holes;
  FrHole *holes;
  guint *seasons;
  gint64 *taps;
} FrBushTrunk;

/* For what the places above do not tell. @without_tap as there. FALSE when the girth is unknown; clear *trunk_out either way. */
gboolean fr_bush_trunk (const FrBush *bush, gint64 tree, gint64 without_tap, FrBushTrunk *trunk_out);
void fr_bush_trunk_clear (FrBushTrunk *trunk);

/* The tapping plan of the whole bush, see maths/tap-choice.h. */
typedef enum
{
  FR_BUSH_PLAN_OK,
  FR_BUSH_PLAN_NO_BUCKETS,   /* their number is unknown or 0 */
  FR_BUSH_PLAN_NO_TREES,     /* none may be tapped */
  FR_BUSH_PLAN_TOO_MANY_MUST /* the trees that must be tapped exceed buckets, trees or kitchen; @musts */
} FrBushPlanCode;

typedef struct
{
  FrBushPlanCode code;
  guint musts;
  GArray *taps;        /* guint, one per tree of the bush, in its order */
  guint n_taps;
  guint n_trees;
  double sugar_kg;
  double sugar_low_kg; /* 8 in 10 */
  double sugar_high_kg;
  double volume_l;
  double peak_l;       /* on a peak day */
  double next_bucket_kg;
  gboolean kitchen_limits;
  guint kitchen_from_buckets; /* 0: not within the buckets asked for */
  gboolean walk_limits;       /* trees were left out so that the round keeps to its longest length */
  double walk_m;              /* of an average day's round through the chosen trees that have a place; NAN when none has */
  guint n_unplaced;           /* chosen trees without a place */
  gboolean is_exact;
  double bound_kg;
  GArray *curve;              /* double: sugar kg with 0, 1, 2 … buckets, half as far again as those asked for; NAN for fewer than
                                 the trees that must be tapped; from some hundred on straight lines between points; without the walk */
} FrBushPlan;

/* Some milliseconds for a household's bush; a second for 2,000 trees, and several where the walk limits. */
FrBushPlan *fr_bush_plan (const FrBush *bush);
void fr_bush_plan_free (FrBushPlan *plan);

/* The household's, or what is usual: 35 days, three times the average day on the peak day (common practice, no source). */
double fr_bush_season_days (const FrBush *bush);
double fr_bush_peak_ratio (const FrBush *bush);

/* Which trees a round visits, and how full their pails are. */
typedef enum
{
  FR_ROUND_SET,     /* trees with taps set this season */
  FR_ROUND_PLANNED, /* set or planned */
  FR_ROUND_SELECTED /* the ids given */
} FrRoundWhich;

typedef struct
{
  gint64 tree;
  double volume_l;
  guint trip;  /* 0 based */
  double leg_m; /* from the stop, or start, before */
} FrBushStop;

typedef struct
{
  gboolean has_start;  /* a boiling place is drawn; else the middle of all trees is taken */
  double start_x_m;
  double start_y_m;
  guint n_unplaced;    /* trees left out because they have no place on the plan */
  GArray *stops;       /* FrBushStop in walking order; a tree with full trips alone stands once per trip */
  guint n_trips;
  double walk_m;
  double bound_m;
  gboolean is_exact;
  double volume_l;
  double litre_metres;
} FrBushRound;

/* @day_ratio: how full: 1 an average day of the season, the peak ratio a peak day. @ids: for SELECTED, n of them.
 * NULL when no tree is left. */
FrBushRound *fr_bush_round (const FrBush *bush, FrRoundWhich which, const gint64 *ids, guint n, double day_ratio);
/* The way past every tree that has a place, carrying nothing: for measuring and looking. NULL when there is none. */
FrBushRound *fr_bush_round_past_all (const FrBush *bush);
void fr_bush_round_free (FrBushRound *round);

/* What one tree is worth per walk: litres it adds to a round of the given kind and metres it adds to the way. */
typedef struct
{
  double volume_l;
  double sugar_kg;
  double detour_m;
} FrTreeWorth;

/* Added to the round of trees with taps set or planned, or what it adds there already. FALSE when it has no place on the plan. The
 * first time in a large bush takes as long as the round; keep to one thread. */
gboolean fr_bush_worth (const FrBush *bush, gint64 tree, double day_ratio, FrTreeWorth *worth_out);
/* The same by a round that is known already: the way the tree lengthens it, in its order of walking. */
gboolean fr_bush_worth_in (const FrBush *bush, const FrBushRound *round, gint64 tree, double day_ratio,
                           FrTreeWorth *worth_out);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrBush, fr_bush_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrBushPlan, fr_bush_plan_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrBushRound, fr_bush_round_free)
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (FrBushTrunk, fr_bush_trunk_clear)

G_END_DECLS
