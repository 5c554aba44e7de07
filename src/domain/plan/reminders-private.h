/* Between the files of reminders.h. */
#pragma once

#include "domain/plan/season-private.h"

G_BEGIN_DECLS

typedef struct
{
  const FrSeasonBook *book;
  const FrStock *stock;
  gint64 now_utc;
  FrDate today;
  guint season;
  guint n_hanging; /* taps set and not pulled */
  guint n_set;
  GPtrArray *all;
} FrReminding;

/**
 * fr_remind:
 * @key: (transfer full): taken
 * @due_utc: until when, or G_MININT64
 *
 * Adds a reminder that is as urgent as its due time says; without one it is to know.
 *
 * Returns: (transfer none): for what else it says
 */
FrReminder *fr_remind (FrReminding *reminding, FrReminderCode code, char *key, gint64 due_utc);

/* Since when a tap hangs; FALSE when it does not. */
gboolean fr_remind_hangs (const FrReminding *reminding, const FrTap *tap, FrDate *set_out);
/* The record of a date, or NULL. */
const FrDay *fr_remind_day (const FrReminding *reminding, FrDate date);

/* reminders-sap.c: what waits, what hangs, what does not add up. */
void fr_remind_of_sap (FrReminding *reminding);
/* reminders-work.c: taps, buds, findings, checklists, what is to be ordered. */
void fr_remind_of_work (FrReminding *reminding);

G_END_DECLS
