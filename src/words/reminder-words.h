/* A reminder in words: for the list, the desktop's notification, the calendar and the terminal. */
#pragma once

#include "domain/plan/reminders.h"
#include "words/say.h"

G_BEGIN_DECLS

typedef struct
{
  char *title;    /* a few words */
  char *sentence; /* what to do, by when */
  char *why;      /* what it rests on */
} FrReminderWords;

/* @now_utc: the moment it is told; times are said as seen from it. */
FrReminderWords *fr_reminder_words_new (const FrReminder *reminder, gint64 now_utc, const FrSay *say);
void fr_reminder_words_free (FrReminderWords *words);

/* "the cellar crock" as the household named it; of NULL "the sap without a container". Free it. */
char *fr_container_words (const FrRecord *container);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrReminderWords, fr_reminder_words_free)

G_END_DECLS
