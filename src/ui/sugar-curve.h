/* Sugar against buckets, drawn. Pointer and arrows look at a number of buckets (left and right one, Page ten, Home and End the ends);
 * Enter or a double click takes it, Escape lets go.
 *
 * Signals:
 * - "looked" (const char *sentence or NULL): what the number looked at says
 * - "taken" (guint buckets) */
#pragma once

#include <gtk/gtk.h>

#include "domain/plan/bush.h"
#include "words/say.h"

G_BEGIN_DECLS

#define FR_TYPE_SUGAR_CURVE (fr_sugar_curve_get_type ())
G_DECLARE_FINAL_TYPE (FrSugarCurve, fr_sugar_curve, FR, SUGAR_CURVE, GtkWidget)

GtkWidget *fr_sugar_curve_new (void);
/* What is drawn is copied. @plan NULL: nothing yet. @say is borrowed for the call. */
void fr_sugar_curve_set (FrSugarCurve *self, const FrBushPlan *plan, guint buckets, const FrSay *say);

G_END_DECLS
