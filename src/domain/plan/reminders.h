/* What the book's data calls for, to be told in time: each with a key under which it can be put away, and numbers and codes to explain
 * it. */
#pragma once

#include "domain/plan/chores.h"
#include "domain/plan/stock.h"

G_BEGIN_DECLS

typedef enum
{
  FR_REMIND_SPOILED,   /* @record: container; its sap has gone past its time at @due_utc; @volume_l, @age_s of the oldest */
  FR_REMIND_BOIL_BY,   /* the same, before @due_utc */
  FR_REMIND_FROST,     /* @temp_c expected tonight, and buckets hang that may hold sap; @record: the day it is from; @n taps; @age_s since
                          the last gathering, NAN none yet */
  FR_REMIND_FULL,      /* @record: container; @volume_l in it of @capacity_l */
  FR_REMIND_BUDDY,     /* @record: gathering or look that smelled so */
  FR_REMIND_BUDS,      /* @record: the day on which buds were first seen as in @buds, "swelling" or "open" */
  FR_REMIND_TAPS,      /* @n taps set that are @weeks old; @record: the oldest; @age_s */
  FR_REMIND_LEDGER,    /* @n lines do not add up; @line: the worst of them */
  FR_REMIND_FINDINGS,  /* @record: a kept night that is over and of which nothing was written down */
  FR_REMIND_CHORE,     /* @n pieces of kit wait for it; @item: the first, one that is late before others */
  FR_REMIND_FILTERS,   /* @n left, @n_wanted nights likely */
  FR_REMIND_BOTTLES,   /* @n left, @n_wanted for @volume_l of syrup */
  FR_N_REMINDERS
} FrReminderCode;

typedef enum
{
  FR_URGENCY_LATER, /* not for days; told only when asked for */
  FR_URGENCY_NOTE,  /* to know */
  FR_URGENCY_SOON,  /* within two days */
  FR_URGENCY_NOW    /* today, or past */
} FrUrgency;

/**
 * FrReminder:
 * @key: the same for the same reason each time; what FrDismissal.about names. Another reason (more sap in the container, a new tap
 *   year) has another key.
 * @due_utc: until when, G_MININT64 when at no moment; a full hour of the local clock
 * @day: of the calendar it stands at: that of @due_utc, but not before today
 * @dismissed: put away
 *
 * What a code does not name is NAN, 0 or NULL.
 */
typedef struct
{
  FrReminderCode code;
  FrUrgency urgency;
  char *key;
  gint64 due_utc;
  FrDate day;
  gboolean dismissed;
  const FrRecord *record;
  const char *buds;
  const FrStockLine *line;
  FrChoreItem item;
  guint n;
  guint n_wanted;
  guint weeks;
  double volume_l;
  double capacity_l;
  double temp_c;
  double age_s;
} FrReminder;

void fr_reminder_free (FrReminder *reminder);

/* Code for programs, "boil_by"; and "now", "soon", "note", "later". */
const char *fr_reminder_code (FrReminderCode code);
const char *fr_urgency_code (FrUrgency urgency);

/* What stands of the season @now_utc lies in. */
typedef enum
{
  FR_REMINDERS_STANDING = 0,
  FR_REMINDERS_DISMISSED = 1 << 0, /* those put away too */
  FR_REMINDERS_LATER = 1 << 1      /* those that are not for days too */
} FrReminders;

/**
 * fr_reminders_new:
 * @book: the records
 * @stock: at @now_utc, of the same book
 * @which: what beside those that stand
 *
 * Returns: (element-type FrReminder): the most urgent first, then by due time and key. Borrows the records and @stock.
 */
GPtrArray *fr_reminders_new (const FrSeasonBook *book, const FrStock *stock, gint64 now_utc, FrReminders which);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrReminder, fr_reminder_free)

G_END_DECLS
