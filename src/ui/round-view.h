/* The view "Round": how far the walk past the buckets is, its stops in order beside the map with the way drawn, and what it depends
 * on: which trees, how full the buckets are, how much is carried at once. */
#pragma once

#include "models/sugarbush.h"
#include "ui/fold-bin.h"

G_BEGIN_DECLS

#define FR_TYPE_ROUND_VIEW (fr_round_view_get_type ())
G_DECLARE_FINAL_TYPE (FrRoundView, fr_round_view, FR, ROUND_VIEW, FrFoldBin)

GtkWidget *fr_round_view_new (FrSugarbush *bush);

/* For the page's keys. */
void fr_round_view_show_all (FrRoundView *self);
void fr_round_view_north_up (FrRoundView *self);
void fr_round_view_zoom (FrRoundView *self, double factor);

G_END_DECLS
