/* What the files that say a plan share. */
#pragma once

#include "words/plan-words.h"

G_BEGIN_DECLS

/* Takes @label, @number and @note, copies @unit. */
FrFigure *fr_figure_new (char *label, char *number, const char *unit, char *note);
/* The same from a value in its inner unit. Copies @label, takes @note. */
FrFigure *fr_figure_of_amount (const FrSay *say, const char *label, double value, FrQuantityKind kind, int decimals,
                               char *note);

/* Adds what there is to say of one cooker's feed; @titled when there are several. */
void fr_feed_words_add (GPtrArray *feeds, const FrPlan *plan, const FrPlanInput *input, const FrPlanShare *share,
                        gboolean titled, const FrSay *say);

/* Why there is no plan, and what would make one. */
void fr_no_plan_words (FrPlanWords *words, const FrPlan *plan, const FrPlanInput *input, const FrSay *say);

/* "Pour 2.5 L into the pan and 22.5 L into the bucket.", markup. */
char *fr_pour_sentence (const FrSay *say, const FrPlanShare *share, const FrPlanKit *kit);

/* The sentence to act on, markup. */
char *fr_plan_sentence (const FrPlan *plan, const FrPlanInput *input, const FrSay *say);

G_END_DECLS
