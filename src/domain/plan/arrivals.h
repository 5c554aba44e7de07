/* Trees that arrive from a file, held against those of the book: which are new, which are there already,
 * which cannot be told, and the one change that brings them in. A file read twice changes nothing the second
 * time.
 *
 * Readers of files fill FrArrivals; fr_arrivals_preview() says what would become of each; a person may leave
 * out some; fr_arrivals_change() makes the change. */
#pragma once

#include "domain/plan/bush.h"
#include "domain/units/geo.h"

G_BEGIN_DECLS

/* --- what a file says --- */

/**
 * FrArrival:
 * One tree of a file.
 * @line: where it stands in the file, from 1
 * @where: on the earth; NAN when not said
 * @tree: what is said of it. Its place on the plan is known only where the file speaks of the plan. Its uid
 * is that of the file, or "". Of what is not said the record holds what a new one does.
 * @said: bit i is set when field i of the kind is said
 * @history: FrRecord of girths, taps and yields; their references mean nothing, uids may be "", and a girth
 *   without a day was measured on the day of the import
 * @refers: the file only speaks of the tree's history; it must be in the book, by its name or identity
 */
typedef struct
{
  guint line;
  FrEarthPoint where;
  FrTree *tree;
  guint64 said;
  GPtrArray *history;
  gboolean refers;
} FrArrival;

/* A line walked or drawn, or an outline. */
typedef struct
{
  guint line;
  char *name;     /* or NULL */
  char *form;     /* as FrFeature's */
  GArray *points; /* FrEarthPoint */
} FrArrivalPath;

/**
 * FrArrivals:
 * All that a file says.
 * @anchor: the plan's tie to the earth in the book the file came from; NAN when not said
 * @by_line: the numbers are lines of the file; otherwise it counts its entries
 * @remarks: sentences of the reader about what it left aside, for people
 */
typedef struct
{
  GPtrArray *trees; /* FrArrival */
  GPtrArray *paths; /* FrArrivalPath */
  FrGeoAnchor anchor;
  gboolean by_line;
  GPtrArray *remarks; /* char * */
} FrArrivals;

FrArrivals *
fr_arrivals_new (void);
void
fr_arrivals_free (FrArrivals *arrivals);
/* Adds an empty one and gives it, still owned by @arrivals. */
FrArrival *
fr_arrivals_add_tree (FrArrivals *arrivals, guint line);
FrArrivalPath *
fr_arrivals_add_path (FrArrivals *arrivals, guint line, const char *form);
/* Notes that the file says the field of that name. */
void
fr_arrival_say (FrArrival *arrival, const char *field);
gboolean
fr_arrival_says (const FrArrival *arrival, const char *field);

/* --- what the book holds --- */

/* FALSE when the plan is not tied to the earth. */
gboolean
fr_bush_book_anchor (const FrBushBook *book, FrGeoAnchor *anchor_out);

/* The girths, taps and yields of each tree: its id (gint64) → GPtrArray of FrRecord, borrowed. Free it with
 * g_hash_table_unref; the keys live in @book. */
GHashTable *
fr_bush_book_history (const FrBushBook *book);

/* --- what would become of it --- */

typedef enum
{
  FR_ARRIVAL_NEW,       /* a tree more */
  FR_ARRIVAL_CHANGES,   /* a tree of the book gains or changes something */
  FR_ARRIVAL_SAME,      /* there already, nothing to add */
  FR_ARRIVAL_AMBIGUOUS, /* may be one or another: stays out */
  FR_ARRIVAL_REFUSED,   /* cannot be kept: stays out */
  FR_N_ARRIVAL_FATES
} FrArrivalFate;

typedef enum
{
  FR_ARRIVAL_BY_NOTHING,
  FR_ARRIVAL_BY_UID, /* the file came from this book */
  FR_ARRIVAL_BY_NAME,
  FR_ARRIVAL_BY_PLACE, /* the very same place */
  FR_ARRIVAL_BY_NEARNESS
} FrArrivalBy;

typedef enum
{
  FR_ARRIVAL_FINE,
  /* ambiguous */
  FR_ARRIVAL_TWO_NAMED, /* @tree and @other of the book have its name */
  FR_ARRIVAL_TWO_NEAR,  /* @tree and @other both stand near */
  FR_ARRIVAL_FAR,       /* has the name of @tree, which stands @away_m off */
  /* refused */
  FR_ARRIVAL_NAMED_TWICE, /* the one in line @other_line has the same name */
  FR_ARRIVAL_TWICE,       /* the one in line @other_line is the same tree */
  FR_ARRIVAL_NAMELESS, /* neither a name nor a place: nothing to know it by */
  FR_ARRIVAL_NO_SUCH_TREE, /* its history is told, but no tree of the book has its name */
  FR_ARRIVAL_BEYOND,      /* too far from the plan's anchor */
  FR_ARRIVAL_UNTIED,    /* the plan is not tied to the earth, and nothing tells how; see FR_TIE_NEEDS_NAMES */
  FR_ARRIVAL_BAD_RECORD /* @problem of a record of @problem_kind */
} FrArrivalReason;

/**
 * FrArrivalRow:
 * @arrival: borrowed
 * @tree: of the book, borrowed; NULL for a new one
 * @away_m: how far the file has it from where the book has it; NAN when either does not say
 * @x_m: where it comes to stand; NAN: it has no place
 * @moves: its place on the plan changes
 * @n_fields: how many other fields gain or change
 * @n_history: how many girths, taps and yields are added or changed
 * @species_assumed: new, and the file does not say what it is
 * @left_out: a person may set this before the change is made
 */
typedef struct
{
  FrArrivalFate fate;
  FrArrivalBy by;
  FrArrivalReason reason;
  const FrArrival *arrival;
  const FrTree *tree;
  const FrTree *other;
  guint other_line;
  double away_m;
  double x_m;
  double y_m;
  gboolean moves;
  guint n_fields;
  guint n_history;
  gboolean species_assumed;
  FrProblem problem;
  FrKindId problem_kind;
  gboolean left_out;
  FrTree *after;            /* owned: as it would be kept; NULL when it stays out */
  GPtrArray *after_history; /* owned: FrStep, as they would be kept */
} FrArrivalRow;

/* The same of a path: new, same, or refused for its anchor or its points. */
typedef struct
{
  FrArrivalFate fate;
  FrArrivalReason reason;
  const FrArrivalPath *path;
  gboolean left_out;
  guint n_points; /* kept, of path->points->len: a long walk is thinned out */
  FrFeature *after;
} FrArrivalPathRow;

/* How plan and earth come together. */
typedef enum
{
  FR_TIE_NOT_NEEDED, /* nothing in the file lies on the earth */
  FR_TIE_KEPT,       /* the book's own anchor */
  FR_TIE_FROM_FILE,  /* the file says where its plan lies, and the book's is empty */
  FR_TIE_MIDDLE,     /* the middle of what arrives becomes the plan's 0, 0 */
  FR_TIE_NAMES,      /* trees of the same name say how the two lie */
  FR_TIE_NEEDS_NAMES /* the plan has trees but no anchor, and no name is in both: nothing can be placed */
} FrTie;

/**
 * FrArrivalPreview:
 * @anchor: the tie as it will be; NAN with FR_TIE_NOT_NEEDED and FR_TIE_NEEDS_NAMES
 * @n_names: trees by which the tie was found
 * @residual_m: root mean square of what is left between plan and earth at those
 * @worst_m: the largest, at @worst
 * @turn_deg: how far the plan would have to be turned, clockwise, to fit the earth best; NAN under two names.
 * It is not turned: a compass read wrong is put right in the declination.
 * @stretch: distances on earth over those on the plan, best fit; NAN under two names
 * @remote_m: of what would be new, how far the farthest stands from the middle tree of the plan, or of the file when the plan
 *   has none; NAN when nothing new has a place. @remote: that row, or NULL
 * @n: how many rows have each fate; those left out by a person are still counted
 */
typedef struct
{
  GPtrArray *rows;  /* FrArrivalRow, in the file's order */
  GPtrArray *paths; /* FrArrivalPathRow, in the file's order; empty unless asked for */
  FrTie tie;
  FrGeoAnchor anchor;
  guint n_names;
  double residual_m;
  double worst_m;
  const FrTree *worst;
  double turn_deg;
  double stretch;
  double remote_m;
  const FrArrivalRow *remote;
  guint n[FR_N_ARRIVAL_FATES];
  FrGround *ground_before; /* owned; NULL when the book has none */
  FrGround *ground_after;  /* owned; NULL when it stays as it is */
} FrArrivalPreview;

/**
 * FrArrivalOptions:
 * Start from fr_arrival_options().
 * @near_m: a tree of another name or none is taken for one of the book that stands no farther off; of places on the plan
 *   half a metre at most
 * @far_m: trees of the same name that are farther apart are not taken for the same
 * @replace: what the file says goes before what the book says, places too, and the name of one known by its identity.
 *   Otherwise the file only fills in what is unknown, and no tree is moved.
 * @with_paths: paths become features of the ground
 * @species: code for new trees of which the file says none
 * @today: ISO date of the import
 * @join_foreign: makes one text of the foreign_data of book and file; NULL: the book's stays
 */
typedef struct
{
  double near_m;
  double far_m;
  gboolean replace;
  gboolean with_paths;
  const char *species;
  const char *today;
  char *(*join_foreign) (const char *in_book, const char *in_file, gboolean replace);
} FrArrivalOptions;

/* 3 m near, 100 m far, sugar maple, filling in only. */
FrArrivalOptions
fr_arrival_options (const char *today);

/* Borrows everything: @arrivals and the records of @book must outlive it. */
FrArrivalPreview *
fr_arrivals_preview (const FrArrivals *arrivals, const FrBushBook *book, const FrArrivalOptions *options);
void
fr_arrival_preview_free (FrArrivalPreview *preview);

/* Ids and identities for what is new; the domain makes up none. */
typedef struct
{
  gint64 next[FR_N_KINDS]; /* the next free id of tree, girth, tap, yield, feature and ground */
  void (*new_uid) (char uid_out[33]);
} FrArrivalIds;

/* The change "import-trees", with @subject as what it was read from. Empty when there is nothing to do. */
FrChange *
fr_arrivals_change (const FrArrivalPreview *preview, const FrArrivalIds *ids, const char *subject);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrArrivals, fr_arrivals_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrArrivalPreview, fr_arrival_preview_free)

G_END_DECLS
