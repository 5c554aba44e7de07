/* A season, its reminders and the kit's checklist as JSON, for programs. What each key is stands in docs/json.md. */
#pragma once

#include "domain/plan/season.h"
#include "formats/json-output.h"

G_BEGIN_DECLS

/* These write members into an open object; whoever calls adds the sentences. */
void
fr_season_tally_write_json (FrOutput *output, const FrSeasonTally *tally);
/* The days, prices and levels too. */
void
fr_season_write_json (FrOutput *output, const FrSeasonView *view);
void
fr_reminder_write_json (FrOutput *output, const FrReminder *reminder);
void
fr_chore_write_json (FrOutput *output, const FrChoreItem *item);

G_END_DECLS
