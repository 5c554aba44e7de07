/* The choice of trees to tap in words, where there is no book: what to hang and what limits it, or why there is no
 * choice and what can be done. */
#pragma once

#include "domain/maths/tap-choice.h"
#include "words/bush-words.h"

G_BEGIN_DECLS

/* The same words as for the plan of a book, without a span. @choice has the code OK. Free with
 * fr_bush_plan_words_free. */
FrBushPlanWords *fr_tap_choice_words_new (const FrTapChoice *choice, const FrTapLimits *limits, const FrSay *say);

/* Why no choice keeps the limits and what can be done; NULL when the code is OK. @name: of the tree that the code is about, or
 * NULL. Free it. */
char *fr_tap_choice_refusal (const FrTapChoice *choice, const FrTapLimits *limits, const char *name, const FrSay *say);

G_END_DECLS
