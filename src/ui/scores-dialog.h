/* How well the forecast did, in full: of a season that is chosen, every way beside every other, ranges and all, and how reliable the chances
 * were. It only shows. */
#pragma once

#include "models/season-scores.h"
#include "ui/window.h"

G_BEGIN_DECLS

#define FR_TYPE_SCORES_DIALOG (fr_scores_dialog_get_type ())
G_DECLARE_FINAL_TYPE (FrScoresDialog, fr_scores_dialog, FR, SCORES_DIALOG, AdwWindow)

GtkWidget *fr_scores_dialog_new (FrWindow *window, FrForecaster *forecaster);

G_END_DECLS
