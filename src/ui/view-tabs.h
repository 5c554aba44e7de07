/* The views of a page by their names, one beside the other in the header bar; as wide as the words need. */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

#define FR_TYPE_VIEW_TABS (fr_view_tabs_get_type ())
G_DECLARE_FINAL_TYPE (FrViewTabs, fr_view_tabs, FR, VIEW_TABS, GtkBox)

/* All views have to be in the stack by then. */
GtkWidget *fr_view_tabs_new (AdwViewStack *stack);

/* Shows the view so many further on in the stack, round its ends. */
void fr_view_tabs_step (AdwViewStack *stack, int by);

G_END_DECLS
