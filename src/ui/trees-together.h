/* Several selected trees: how many, what they came to, and a form that changes one thing of all of them at once. */
#pragma once

#include <adwaita.h>

#include "models/sugarbush.h"

G_BEGIN_DECLS

#define FR_TYPE_TREES_TOGETHER (fr_trees_together_get_type ())
G_DECLARE_FINAL_TYPE (FrTreesTogether, fr_trees_together, FR, TREES_TOGETHER, AdwBin)

GtkWidget *fr_trees_together_new (FrSugarbush *bush);

G_END_DECLS
