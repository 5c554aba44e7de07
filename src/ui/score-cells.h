/* Scores written into a grid: a number, and under it, where wanted, the range that 9 in 10 lie in. */
#pragma once

#include "domain/plan/forecast-tally.h"
#include "domain/units/quantity.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* "0,42", "63 %"; litres in the units' volume, without it; "–" where unknown. */
char *fr_score_text (FrScoreKind kind, double value, const FrUnits *units);
/* "0,31…0,55"; NULL where no range is known. */
char *fr_score_range_text (FrScoreKind kind, const FrScoreValue *value, const FrUnits *units);

/* A name stands left and takes the room, a number right. @css_class may be NULL. Returns: (transfer none): the label */
GtkWidget *fr_score_attach (GtkGrid *grid, const char *text, const char *css_class, gboolean is_name, int column, int row);

G_END_DECLS
