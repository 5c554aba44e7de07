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
