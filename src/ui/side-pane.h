/* A view with a panel beside it, which slides over it on demand under 900 px.
 *
 * Signals: "folded-changed" () */
#pragma once

#include "ui/fold-bin.h"

G_BEGIN_DECLS

#define FR_TYPE_SIDE_PANE (fr_side_pane_get_type ())
G_DECLARE_FINAL_TYPE (FrSidePane, fr_side_pane, FR, SIDE_PANE, FrFoldBin)

/* @toggle shows and hides the panel; it is seen only while the panel lies over the content. */
GtkWidget *fr_side_pane_new (GtkWidget *content, GtkWidget *panel, GtkToggleButton *toggle);
void fr_side_pane_show_panel (FrSidePane *self, gboolean shown);
gboolean fr_side_pane_is_folded (FrSidePane *self);

G_END_DECLS
