/* What the files of the plain model share. */
#pragma once

#include "bush-model.h"

struct _MModel
{
  GArray *view[M_KINDS];   /* MRow: what the book shows */
  GArray *kept[M_KINDS];   /* MRow: what is in the file; differs from the view after another program wrote */
  gint64 highest[M_KINDS]; /* number ever given */
  gboolean moved;
  GArray *pending; /* MStep */
  char label[32];
  gboolean learn_place;
  GPtrArray *done; /* the newest last */
  GPtrArray *undone;
  gboolean may_join;
};

extern const char *const m_amount_names[M_KINDS][M_AMOUNTS + 1];
extern const char *const m_text_names[M_KINDS][M_TEXTS + 1];
extern const char *const m_bool_names[M_KINDS][M_BOOLS + 1];

extern const FrKindId m_kinds[M_KINDS];

/* A record as a row; every field of its kind must have a place in one. */
MRow
m_read_row (const FrRecord *record);
/* Where a name stands; G_MAXUINT when it does not. */
guint
m_place_of (const char *const *names, const char *name);
gboolean
m_same_amount (const MAmount *a, const MAmount *b);
gboolean
m_same_row (const MRow *a, const MRow *b);
/* Everything unknown, choices at their first. */
void
m_row_init (MRow *row, MKind kind, gint64 id);

/* Where what stands in a row. */
enum
{
  TREE_X,
  TREE_Y,
  TREE_ELEVATION,
  TREE_DISTANCE,
  TREE_BEARING
};

enum
{
  TREE_NAME,
  TREE_SPECIES,
  TREE_FROM,
  TREE_CROWN,
  TREE_HEALTH,
  TREE_PERMISSION,
  TREE_OWNER,
  TREE_CHOICE
};

enum
{
  TAP_SEASON,
  TAP_DEPTH,
  TAP_BORE,
  TAP_HEIGHT,
  TAP_ANGLE,
  TAP_LITRES
};

enum
{
  TAP_SET,
  TAP_SET_BY,
  TAP_SPOUT,
  TAP_CONTAINER,
  TAP_PULLED,
  TAP_CLOSED
};

gboolean
m_known (const MRow *row, guint amount);
gboolean
m_may_be_kept (const MRow *row);

/* An edit: begun with its name, changed row by row, ended. */
void
m_begin (MModel *model, const char *label);
/* Either may be NULL. FALSE when @after may not be kept. */
gboolean
m_change (MModel *model, const MRow *before, const MRow *after);
MAnswer
m_end (MModel *model);
MAnswer
m_end_trees (MModel *model, const char *verb);
/* One that begins and ends by itself: the row goes. */
MAnswer
m_take_away (MModel *model, MKind kind, gint64 id, const char *label);

gint64
m_new_id (MModel *model, MKind kind);
void
m_put_text (MRow *row, guint place, const char *text);
void
m_put_amount (MRow *row, guint place, double value, const char *typed);
/* A field by its name. */
void
m_put_field (MRow *row, const char *field, const char *text, double amount, const char *typed);
gboolean
m_are_trees (MModel *model, const gint64 *trees, guint n);
