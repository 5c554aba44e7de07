/* The columns, for reading and writing. */
#pragma once

#include "formats/trees-csv.h"

G_BEGIN_DECLS

/**
 * FrTreesColumn:
 * @kind: whose rows it is for
 * @field: of that kind
 * @shift: the cell holds the inner unit times ten to this
 * @measure: for a girth: the way of measuring it stands for
 */
typedef struct
{
  const char *name;
  FrKindId kind;
  const char *field;
  int shift;
  const char *measure;
} FrTreesColumn;

/* Those that several kinds share stand once for each. */
extern const FrTreesColumn fr_trees_columns[];
extern const guint fr_trees_n_columns;

/* The column of that name for rows of that kind, or NULL. */
const FrTreesColumn *
fr_trees_column (const char *name, FrKindId kind);

/* Whether the name means something here, for whichever kind. */
gboolean
fr_trees_is_own_column (const char *name);

G_END_DECLS
