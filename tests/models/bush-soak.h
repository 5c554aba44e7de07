/* Random steps over every edit of the sugarbush, with undo, redo, another program writing to the same file
 * and the book closed and opened in between, against the plain model of bush-model.h. */
#pragma once

#include <glib.h>

typedef struct
{
  guint changed;
  guint nothing;
  guint refused;
  guint undone;
  guint redone;
  guint empty;   /* undo or redo with nothing to take */
  guint blocked; /* undo or redo that another program's rows stood in the way of */
  guint beside;
  guint stale;  /* edits made before the book had noticed, of which ... */
  guint turned; /* ... were turned away for what was written beside */
  guint lost;   /* steps that could no longer be undone or redone */
  guint reopened;
  guint most_trees;
} BushSoak;

/* Fails the test program at the first difference. @say: a line every thousand steps. */
void
bush_soak (guint steps, guint32 seed, gboolean say, BushSoak *counts_out);
