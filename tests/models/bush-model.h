/* A sugarbush as plain rows with rules of its own, to hold the real one against: written from what the page
 * promises, apart from the code it checks. It knows nothing of FrRecord but how to read one for comparison,
 * keeps its own undo and redo, and foretells of every edit whether it changes something, nothing, or is
 * refused.
 *
 * Two things it cannot foretell and learns from the book: the random identity of a new record, and the places
 * that the search on a trunk finds. Both must stay as learned. */
#pragma once

#include "models/bush-edit.h"

/* The kinds of the page, in the order of FrKindId. */
typedef enum
{
  M_TREE,
  M_GIRTH,
  M_TAP,
  M_YIELD,
  M_FEATURE,
  M_GROUND,
  M_TAPPING,
  M_KINDS
} MKind;

#define M_AMOUNTS 15
#define M_TEXTS 12
#define M_BOOLS 4
#define M_CHARS 140

typedef struct
{
  double value;
  char typed[24]; /* "" when it was not typed */
} MAmount;

/* One record. Which place means what is in bush-model.c. */
typedef struct
{
  MKind kind;
  gint64 id;
  char uid[33]; /* "" while not learned */
  gboolean archived;
  gint64 tree;
  MAmount amounts[M_AMOUNTS];
  char texts[M_TEXTS][M_CHARS]; /* "" unknown */
  gboolean bools[M_BOOLS];
} MRow;

/* A row before and after; kind M_KINDS where there is none. */
typedef struct
{
  MRow before;
  MRow after;
} MStep;

typedef enum
{
  M_CHANGED,
  M_NOTHING,
  M_REFUSED
} MAnswer;

typedef struct _MModel MModel;

MModel *
m_model_new (void);
void
m_model_free (MModel *model);

guint
m_n_rows (MModel *model, MKind kind);
/* By rising id. */
const MRow *
m_row_at (MModel *model, MKind kind, guint nth);
const MRow *
m_find (MModel *model, MKind kind, gint64 id);

/* The edits, with the arguments of bush-edit.h. What they change waits in the model until m_take or m_leave.
 */
MAnswer
m_add_tree (MModel *model, const char *name, const char *species, double x, double y);
MAnswer
m_add_measured (MModel *model, const char *name, const char *species, gint64 from, double distance,
                double bearing, double girth, double diameter, const char *day);
MAnswer
m_place (MModel *model, gint64 tree, double x, double y);
MAnswer
m_move (MModel *model, const gint64 *trees, guint n, double dx, double dy);
MAnswer
m_set (MModel *model, const gint64 *trees, guint n, const char *field, const char *text, double amount);
MAnswer
m_remove (MModel *model, const gint64 *trees, guint n);
MAnswer
m_restore (MModel *model, const gint64 *trees, guint n);
MAnswer
m_girth (MModel *model, gint64 tree, const char *day, gboolean is_girth, double size, const char *typed);
MAnswer
m_remove_girth (MModel *model, gint64 girth);
MAnswer
m_yield (MModel *model, gint64 tree, guint season, double volume, double brix, const char *instrument,
         double sample);
MAnswer
m_remove_yield (MModel *model, gint64 tree, guint season);
MAnswer
m_plan_taps (MModel *model, gint64 tree, guint season, const FrBushPlace *places, guint n);
/* @wanted: one for each tree that is not put away, by rising id. */
MAnswer
m_take_plan (MModel *model, guint season, const guint *wanted);
MAnswer
m_date_taps (MModel *model, gboolean pull, const gint64 *trees, guint n, guint season, const char *day);
MAnswer
m_move_tap (MModel *model, gint64 tap, double angle, double height);
MAnswer
m_remove_tap (MModel *model, gint64 tap);
/* @points_are_good: whether they can be read, known by whoever made them up. */
MAnswer
m_add_feature (MModel *model, const char *form, const char *name, const char *points,
               gboolean points_are_good);
MAnswer
m_set_feature (MModel *model, gint64 feature, const char *form, const char *name, const char *points,
               gboolean points_are_good);
MAnswer
m_remove_feature (MModel *model, gint64 feature);
MAnswer
m_anchor (MModel *model, double x, double y, double lat, double lon);
MAnswer
m_picture (MModel *model, const char *file, const FrPicturePoint *first, const FrPicturePoint *second);
MAnswer
m_single (MModel *model, MKind kind, const char *field, const char *text, double amount, const char *typed);

/* What the last edit is to be called. */
const char *
m_label (MModel *model);
/* Takes the last edit over, as one step to undo; identities and places are learned from the book. Or leaves
 * it. */
void
m_take (MModel *model, FrBook *book);
void
m_leave (MModel *model);

/* FALSE when there is nothing to undo; CHANGED comes at once. REFUSED: another program's rows stand in the
 * way. */
gboolean
m_undo (MModel *model, MAnswer *answer_out);
gboolean
m_redo (MModel *model, MAnswer *answer_out);

/* Another program's step: what it saw and what it wrote. It is not in the book's view until m_refresh. */
void
m_write_beside (MModel *model, const FrRecord *before, const FrRecord *after);
/* The view becomes what is kept. The number of own steps that can no longer be undone or redone. */
guint
m_refresh (MModel *model);
/* Whether the last edit, made from the view, can be kept in spite of what was written beside. */
gboolean
m_fits (MModel *model);
/* Whether another program wrote what the view does not show yet. */
gboolean
m_is_stale (MModel *model);
/* The book was closed and opened: nothing to undo. */
void
m_reopen (MModel *model);

/* Fails the test unless the lists hold just the model's rows. */
void
m_assert_same (MModel *model, FrBook *book);
/* The same of the file itself. */
void
m_assert_same_file (MModel *model, const char *path);
