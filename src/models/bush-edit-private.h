/* What the files of the sugarbush's edits share: finding what belongs to a tree. */
#pragma once

#include "models/bush-edit.h"

G_BEGIN_DECLS

/* Ends an edit of trees: "VERB-tree" with its name when one tree differs, "VERB-trees" when more do. */
FrChange *
fr_bush_edit_end_trees (FrEdit *edit, const char *verb);
/* The records, or NULL and @error when there is none of that number. */
const FrTree *
fr_bush_edit_tree (FrBook *book, gint64 id, GError **error);
const FrTap *
fr_bush_edit_tap (FrBook *book, gint64 id, GError **error);

/* The numbers as a set to look up; NULL and @error when one of them is no tree of the book. Free with
 * g_hash_table_unref. */
GHashTable *
fr_bush_edit_tree_set (FrBook *book, const gint64 *trees, guint n, GError **error);

/* A new measure of a trunk. */
gboolean
fr_bush_edit_add_measure (FrEdit *edit, gint64 tree, FrDate day, gboolean is_girth, double size_m,
                          const char *typed, GError **error);
/* A new planned tap. @place NULL: nowhere in particular. */
gboolean
fr_bush_edit_plan_tap (FrEdit *edit, gint64 tree, guint season, const FrBushPlace *place, GError **error);

/* Whether something stays of a tap when it is taken out: its hole, or what was gathered from it. */
gboolean
fr_bush_edit_tap_has_history (FrBook *book, const FrTap *tap);
/* Whether a tap belongs to a season and is not put away. */
gboolean
fr_bush_edit_tap_is_of (const FrTap *tap, guint season);

static inline gboolean
fr_bush_edit_set_has (GHashTable *set, gint64 id)
{
  return g_hash_table_contains (set, &id);
}

G_END_DECLS
