/* Tonight on paper and on the phone. */
#pragma once

#include "models/tonight.h"

G_BEGIN_DECLS

/* The page for the shed as PDF; Letter where the household uses US units, else A4. NULL and @error when it cannot be made or there is no
 * plan. */
GBytes *fr_tonight_pdf (FrTonight *tonight, const char *household, GError **error);

/* Alarms for switch-on, dry, cut-off and the price rise as iCalendar text. NULL without a plan. */
char *fr_tonight_ics (FrTonight *tonight, gint64 stamp_utc);

G_END_DECLS
