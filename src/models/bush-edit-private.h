/* What the files of the sugarbush's edits share: an edit in the making, refusals, and finding what belongs to
 * a tree. */
#pragma once

#include "models/bush-edit.h"

G_BEGIN_DECLS

/* A change while it grows. Records new to the book are counted by kind, so that each gets a number of its
 * own. */
typedef struct
{
  FrBook *book;
  FrChange *change;
  guint n_new[FR_N_KINDS];
} FrBushEdit;

void
fr_bush_edit_begin (FrBushEdit *edit, FrBook *book, const char *label, const char *subject);
/* A record not yet in the book, with number and identity; free it. NULL and @error when the book cannot be
 * read. */
FrRecord *
fr_bush_edit_new_record (FrBushEdit *edit, FrKindId kind, GError **error);
/* Adds a step, or refuses it in words when @after may not be kept. @whose NULL, or the name to put before the
 * sentence where many records are edited at once. */
gboolean
fr_bush_edit_step (FrBushEdit *edit, const FrRecord *before, const FrRecord *after, const char *whose,
                   GError **error);
/* The change, or NULL when it would change nothing. The edit is over. */
FrChange *
fr_bush_edit_end (FrBushEdit *edit);
/* The same for trees: "VERB-tree" with its name when one tree differs, "VERB-trees" when more do. */
FrChange *
fr_bush_edit_end_trees (FrBushEdit *edit, const char *verb);
/* Throws away what was begun; gives NULL, to be returned. */
FrChange *
fr_bush_edit_drop (FrBushEdit *edit);

/* Always NULL; @error is set to the sentence. */
gpointer
fr_bush_edit_refuse (GError **error, const char *sentence);

/* A text without the blanks around it; NULL or nothing left: unknown. */
void
fr_bush_edit_set_text (FrRecord *record, const char *field, const char *text);

/* A number; the same one again keeps how it was typed, unless it was typed anew. */
void
fr_bush_edit_set_amount (FrAmount *amount, double value, const char *typed);

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
fr_bush_edit_add_measure (FrBushEdit *edit, gint64 tree, FrDate day, gboolean is_girth, double size_m,
                          const char *typed, GError **error);
/* A new planned tap. @place NULL: nowhere in particular. */
gboolean
fr_bush_edit_plan_tap (FrBushEdit *edit, gint64 tree, guint season, const FrBushPlace *place, GError **error);

/* Whether a tap belongs to a season and is not put away. */
gboolean
fr_bush_edit_tap_is_of (const FrTap *tap, guint season);

static inline gboolean
fr_bush_edit_set_has (GHashTable *set, gint64 id)
{
  return g_hash_table_contains (set, &id);
}

G_END_DECLS
