/* How reliable the chances of a run were, as a drawing. What it shows is its label too, so the keyboard passes it by. */
#pragma once

#include "domain/plan/forecast-tally.h"
#include "domain/units/quantity.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define FR_TYPE_SCORE_RELIABILITY_VIEW (fr_score_reliability_view_get_type ())
G_DECLARE_FINAL_TYPE (FrScoreReliabilityView, fr_score_reliability_view, FR, SCORE_RELIABILITY_VIEW, GtkWidget)

/* @bins: copied */
GtkWidget *fr_score_reliability_view_new (const FrReliabilityBin *bins, guint n_bins, const FrUnits *units);

G_END_DECLS
