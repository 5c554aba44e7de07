/* What the book holds of one tree: the measures of its trunk, its taps and its seasons, a line each; a line
 * opens its dialog, and each list has a button for a new one. */
#pragma once

#include <adwaita.h>

#include "models/sugarbush.h"

G_BEGIN_DECLS

#define FR_TYPE_TREE_RECORDS (fr_tree_records_get_type ())
G_DECLARE_FINAL_TYPE (FrTreeRecords, fr_tree_records, FR, TREE_RECORDS, AdwBin)

GtkWidget *
fr_tree_records_new (FrBook *book, FrSugarbush *bush);

void
fr_tree_records_set (FrTreeRecords *self, gint64 tree);
/* Opens the dialog of one of its records. */
void
fr_tree_records_open (FrTreeRecords *self, FrKindId kind, gint64 id);

G_END_DECLS
