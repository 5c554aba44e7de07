/* The dialogs in which sap is written down: what left a container, what was found in one, a container itself, a single gathering. Each
 * asks before it keeps what does not fit. */
#pragma once

#include "domain/plan/bush.h"
#include "models/season.h"
#include "ui/window.h"

G_BEGIN_DECLS

/* Sap out of a container (0: whose place was not said) for a reason of FrPour, now. */
void fr_sap_pour (FrWindow *window, FrSeason *season, gint64 container, const char *reason);
/* A look into it. */
void fr_sap_look (FrWindow *window, FrSeason *season, gint64 container);
/* A new container. */
void fr_sap_add_container (FrWindow *window);
/* A record of the book: gathering, pouring, look, container, night. */
void fr_sap_edit (FrWindow *window, FrSeason *season, const FrRecord *record);

/* What would be asked about a record before it is kept, in words; NULL for nothing. Free it. */
char *fr_sap_question (FrSeason *season, const FrBush *bush, const FrRecord *record);

G_END_DECLS
