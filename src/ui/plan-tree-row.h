/* One tree of the tapping plan: symbol, name, taps, litres and sugar with their spans; and the heads over such rows. */
#pragma once

#include <gtk/gtk.h>

#include "models/sugarbush.h"

G_BEGIN_DECLS

#define FR_TYPE_PLAN_TREE_ROW (fr_plan_tree_row_get_type ())
G_DECLARE_FINAL_TYPE (FrPlanTreeRow, fr_plan_tree_row, FR, PLAN_TREE_ROW, GtkBox)

GtkWidget *fr_plan_tree_row_new (void);
void fr_plan_tree_row_set (FrPlanTreeRow *self, FrSugarbush *bush, gint64 tree, guint taps);

GtkWidget *fr_plan_tree_heads_new (void);

G_END_DECLS
