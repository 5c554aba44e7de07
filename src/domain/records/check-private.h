/* What the checks of records share. Each adds to an array of FrProblem. */
#pragma once

#include "domain/records/kinds.h"

G_BEGIN_DECLS

void fr_check_add (GArray *problems, FrProblemCode code, const FrField *field, double limit, guint line);
void fr_check_add_conflict (GArray *problems, const FrRecord *record, const char *name, const char *other);
void fr_check_add_bad_text (GArray *problems, const FrRecord *record, const char *name, guint line);
gboolean fr_check_is_blank (const char *text);
/* Years and counts: a part of one is refused as no number of its kind. */
void fr_check_whole (GArray *problems, const FrRecord *record, const char *name);
/* All of them known or none; names end in NULL. */
void fr_check_together (GArray *problems, const FrRecord *record, const char *const *names);

/* What the kinds of season-kinds.h ask beyond single fields. */
void fr_check_season (GArray *problems, const FrRecord *record);
/* The same of weather-kinds.h. */
void fr_check_weather (GArray *problems, const FrRecord *record);

G_END_DECLS
