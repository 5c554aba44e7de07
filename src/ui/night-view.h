/* The night over the clock, as a widget: the pointer or the arrow keys select a moment, and the read-out names it in a line of its
 * own so that it can be read aloud. Left and right step by ten minutes, Page by an hour, Home and End jump, Escape lets go.
 *
 * Signals: "moment" (const char *sentence or NULL): what the selected moment says. */
#pragma once

#include <gtk/gtk.h>

#include "domain/plan/plan.h"
#include "words/say.h"

G_BEGIN_DECLS

#define FR_TYPE_NIGHT_VIEW (fr_night_view_get_type ())
G_DECLARE_FINAL_TYPE (FrNightView, fr_night_view, FR, NIGHT_VIEW, GtkWidget)

GtkWidget *fr_night_view_new (void);

/* Shows one share of a plan. Everything is borrowed until the next call; NULLs clear it. */
void fr_night_view_set (FrNightView *self, const FrPlan *plan, const FrPlanInput *input, guint share, const FrSay *say);

G_END_DECLS
