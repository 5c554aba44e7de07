/* The sugarbush: which trees there are, what is known of them, which to tap. The page holds the model that its views share, the
 * views, and the actions on them, prefix "bush.".
 *
 * A view is added in sugarbush-page.c with add_view(), with a name, a title and an icon; with two or more a switcher takes the
 * title's place.
 *
 * Signals: "head-changed" (): what stands in the header bar for this page differs */
#pragma once

#include "models/sugarbush.h"
#include "ui/fold-bin.h"

G_BEGIN_DECLS

#define FR_TYPE_SUGARBUSH_PAGE (fr_sugarbush_page_get_type ())
G_DECLARE_FINAL_TYPE (FrSugarbushPage, fr_sugarbush_page, FR, SUGARBUSH_PAGE, FrFoldBin)

FrSugarbushPage *fr_sugarbush_page_new (FrBook *book);

FrSugarbush *fr_sugarbush_page_get_bush (FrSugarbushPage *self);

/* For the header bar: "Season of 2026" (free it); the switcher of the views, NULL while the title is to be shown; the buttons. */
char *fr_sugarbush_page_subtitle (FrSugarbushPage *self);
GtkWidget *fr_sugarbush_page_views (FrSugarbushPage *self);
GtkWidget *fr_sugarbush_page_action (FrSugarbushPage *self);
GActionGroup *fr_sugarbush_page_actions (FrSugarbushPage *self);

/* "map" and what else there is. */
void fr_sugarbush_page_show_view (FrSugarbushPage *self, const char *name);

G_END_DECLS
