/* A reminder of the season: what to do, why when it is opened, and a button that puts it away. */
#pragma once

#include "models/season.h"

#include <adwaita.h>

G_BEGIN_DECLS

/* An expander row; @reminder is read only now. */
GtkWidget *
fr_reminder_row_new (FrSeason *season, const FrReminder *reminder);

G_END_DECLS
