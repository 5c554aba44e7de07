/* What is to be done to each piece of kit before the season and after it: worked out from the kit itself, held against what was written
 * down as done. */
#pragma once

#include "domain/plan/season-book.h"

G_BEGIN_DECLS

typedef enum
{
  FR_CHORE_WASH,         /* before sap touches it */
  FR_CHORE_WATER_TEST,   /* a cooker boils plain water; that also measures how much of its heat gets in */
  FR_CHORE_MATERIAL,     /* look at what it is made of, for lead */
  FR_CHORE_GROUND_FAULT, /* press the test button */
  FR_CHORE_RINSE,        /* after the last sap */
  FR_CHORE_DRY,
  FR_N_CHORES
} FrChoreTask;

typedef enum
{
  FR_CHORE_DONE,       /* so it was written down */
  FR_CHORE_NOT_NEEDED, /* so it was written down */
  FR_CHORE_LATER,      /* its time has not come */
  FR_CHORE_DUE,
  FR_CHORE_LATE        /* the piece has been in use this season */
} FrChoreState;

typedef enum
{
  FR_CHORE_WHY_SEASON,         /* every season */
  FR_CHORE_WHY_NEVER_MEASURED, /* WATER_TEST: its heat was never measured */
  FR_CHORE_WHY_UNKNOWN_METAL,  /* MATERIAL: of a container nobody said what it is; of a vessel it is marked */
  FR_CHORE_WHY_GALVANISED,
  FR_CHORE_WHY_SOLDERED,
  FR_CHORE_WHY_OLD,            /* made before FR_CHORE_LEAD_YEAR, of metal */
  FR_CHORE_WHY_NOT_FOOD,       /* plastic that was not made for food */
  FR_CHORE_WHY_NO_PROTECTION,  /* GROUND_FAULT: the circuit has none */
  FR_CHORE_WHY_NO_CIRCUIT      /* GROUND_FAULT: nobody said on which circuit the cooker is */
} FrChoreWhy;

/* Seams of metal gear from before this year may be soldered with lead, stainless ones too; galvanised gear from before the year before.
 * Published by a provincial and a federal food authority of Canada, seen in a summary. */
#define FR_CHORE_LEAD_YEAR 1995

/**
 * FrChoreItem:
 * @task, @why: codes
 * @kit: the container, vessel, cooker or circuit
 * @done: what was written down of it; NULL with LATER, DUE and LATE. Of MATERIAL any season's, since what a thing is made of stays
 * @used_on: first day of the season on which the piece was in use; year 0 when it was not
 */
typedef struct
{
  FrChoreTask task;
  FrChoreWhy why;
  FrChoreState state;
  const FrRecord *kit;
  const FrChore *done;
  FrDate used_on;
} FrChoreItem;

/* Code of the book: "wash". */
const char *fr_chore_code (FrChoreTask task);
/* RINSE and DRY belong to the season's end, the others to its start. */
gboolean fr_chore_is_cleaning (FrChoreTask task);

/**
 * fr_chores:
 *
 * The start of a season counts from the first of January of its year, or from the first tap set, gathering or night if that is earlier;
 * its end from the day on which the last tap was pulled, else, where no tap was written down, from three weeks after the last sap.
 * What was not in use needs no cleaning.
 *
 * Returns: (element-type FrChoreItem): by task, then containers, vessels, cookers and circuits, each by name. Borrows the records. Free
 * with g_array_unref.
 */
GArray *fr_chores (const FrSeasonBook *book, guint season, gint64 now_utc);

/* Fills in what a point that was done says: season, task, kit, day. Id and uid are the caller's. @outcome: "done" or "not_needed". */
void fr_chore_item_write (const FrChoreItem *item, guint season, FrDate day, const char *outcome, FrChore *chore_out);

G_END_DECLS
