/* The map of the bush as a widget. The painter draws it; this gives it size, theme, a view that pans, zooms and turns, and hands
 * what pointer and keys mean to the model or, for changes of the book, to the page.
 *
 * Keys: arrows walk from tree to tree (with Ctrl only the focus), Space takes the focused tree into the selection or out, Enter
 * opens it, Shift+arrows pan, + − 0 zoom and show all, [ and ] turn, Alt+arrows move what is selected by 10 cm, with Shift by
 * 1 m; Alt let go or Enter ends that as one step, Escape takes it back. Pointer: drag on the ground bands, on a selected tree
 * moves, with the middle button or Space pans; the wheel zooms at the pointer.
 *
 * Signals:
 * - "open" (): the current tree is to be shown close by
 * - "adding-changed" (): the next click adds a tree, or no longer
 * - "hint" (const char *words or NULL): what is going on with the pointer or keys, to be shown over the map */
#pragma once

#include <gtk/gtk.h>

#include "models/sugarbush.h"
#include "paint/viewport.h"

G_BEGIN_DECLS

#define FR_TYPE_BUSH_MAP (fr_bush_map_get_type ())
G_DECLARE_FINAL_TYPE (FrBushMap, fr_bush_map, FR, BUSH_MAP, GtkWidget)

GtkWidget *fr_bush_map_new (FrSugarbush *bush);

/* Everything in view. */
void fr_bush_map_show_all (FrBushMap *self);
/* Brings a tree into view if it is not. */
void fr_bush_map_show_tree (FrBushMap *self, gint64 tree);
/* Over 1 is closer, at the middle. */
void fr_bush_map_zoom (FrBushMap *self, double factor);
void fr_bush_map_north_up (FrBushMap *self);

/* The way of a round, dotted; numbers at the stops where they are asked for. NULL takes it off. Copied. */
void fr_bush_map_set_round (FrBushMap *self, const FrBushRound *round, gboolean with_numbers);

/* While on, a click or Enter adds a tree. */
void fr_bush_map_set_adding (FrBushMap *self, gboolean adding);
gboolean fr_bush_map_get_adding (FrBushMap *self);
/* Adds one at a point of the plan, selects it, and asks for its name. */
void fr_bush_map_add_at (FrBushMap *self, double x_m, double y_m);

/* Where a tree's symbol is now, in the widget. FALSE when it has no place. */
gboolean fr_bush_map_get_symbol (FrBushMap *self, gint64 tree, GdkRectangle *symbol_out);
const FrViewport *fr_bush_map_get_viewport (FrBushMap *self);

/* For tests: how often it was drawn, and how often its trees were made anew for that. */
guint fr_bush_map_n_frames (FrBushMap *self);
guint fr_bush_map_n_loads (FrBushMap *self);

G_END_DECLS
