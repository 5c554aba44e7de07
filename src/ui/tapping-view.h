/* The view "Tapping Plan": what to hang, what it brings, the curve of sugar against buckets, the trees and why others are left out;
 * beside them what the plan is made from. */
#pragma once

#include "models/sugarbush.h"
#include "ui/fold-bin.h"

G_BEGIN_DECLS

#define FR_TYPE_TAPPING_VIEW (fr_tapping_view_get_type ())
G_DECLARE_FINAL_TYPE (FrTappingView, fr_tapping_view, FR, TAPPING_VIEW, FrFoldBin)

GtkWidget *fr_tapping_view_new (FrSugarbush *bush);

/* Makes the season's planned taps those of the plan, in one step. */
void fr_tapping_view_take_over (FrTappingView *self);

G_END_DECLS
