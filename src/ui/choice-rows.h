/* Rows of a list in which one of a few things is chosen. */
#pragma once

#include <adwaita.h>

#include "domain/units/quantity.h"

G_BEGIN_DECLS

/* A combo row of @words, ended by NULL, with that one selected. */
GtkWidget *
fr_choice_row_new (const char *title, const char *const *words, guint selected);

/* The sheets by FrSheetSize; what is usual with those units is selected. */
GtkWidget *
fr_paper_row_new (FrSystem system);

/* A row that is pressed to turn @switch_out, which is off; @note may be NULL. */
GtkWidget *
fr_switch_row_new (const char *title, const char *note, GtkWidget **switch_out);

G_END_DECLS
