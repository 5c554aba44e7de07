/* The view "Log" of the season: what was gathered on a day, a row for each tree, tap or group or one for the whole bush, typed down the
 * columns or across; beside it what all rows of the round have in common. */
#pragma once

#include "models/gather-log.h"
#include "models/season.h"
#include "models/sugarbush.h"

#include <adwaita.h>

G_BEGIN_DECLS

#define FR_TYPE_LOG_VIEW (fr_log_view_get_type ())
G_DECLARE_FINAL_TYPE (FrLogView, fr_log_view, FR, LOG_VIEW, AdwBin)

/* @bush: whose walk is offered as an order. */
GtkWidget *fr_log_view_new (FrSeason *season, FrSugarbush *bush);

FrGatherLog *fr_log_view_get_log (FrLogView *self);
/* The keyboard goes to the first row without an amount; with none left a new round begins. */
void fr_log_view_begin (FrLogView *self);

/* Another day; FALSE while a row is typed that cannot be kept, which is then shown. */
gboolean fr_log_view_show_day (FrLogView *self, FrDate day);

G_END_DECLS
