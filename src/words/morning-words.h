/* The morning after in words. */
#pragma once

#include "domain/plan/evening.h"
#include "words/say.h"

G_BEGIN_DECLS

typedef struct
{
  char *what;
  char *plan;
  char *fact;
} FrMorningLine;

typedef struct
{
  GPtrArray *lines; /* FrMorningLine: ends, thickness, energy, left */
  GPtrArray *whys;  /* char *: why they differ */
  char *learned;    /* what the cooker's heat becomes, or why it does not change */
} FrMorningWords;

FrMorningWords *fr_morning_words_new (const FrMorningReport *report, const FrNight *night, const FrPlanKit *kit,
                                      const FrSay *say);
void fr_morning_words_free (FrMorningWords *words);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrMorningWords, fr_morning_words_free)

G_END_DECLS
