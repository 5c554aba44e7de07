/* The answer: the sentence to act on, why, and the five figures behind it; below, the cards of cost, feed, cautions and what stays. */
#pragma once

#include <adwaita.h>

#include "words/plan-words.h"

G_BEGIN_DECLS

#define FR_TYPE_TONIGHT_ANSWER (fr_tonight_answer_get_type ())
G_DECLARE_FINAL_TYPE (FrTonightAnswer, fr_tonight_answer, FR, TONIGHT_ANSWER, AdwBin)

GtkWidget *fr_tonight_answer_new (void);
void fr_tonight_answer_set (FrTonightAnswer *self, const FrPlanWords *words);
/* Another page's answer: @reason may be NULL; @dangers: elements char *, what endangers life, or NULL; @figures: elements FrFigure,
 * five at most, or NULL. */
void fr_tonight_answer_set_texts (FrTonightAnswer *self, const char *sentence_markup, const char *reason, GPtrArray *dangers,
                                  GPtrArray *figures);
/* The answer is older than what stands in an entry: a line that says so, NULL when it is not. */
void fr_tonight_answer_set_stale (FrTonightAnswer *self, const char *line);
/* Narrow: the figures lose their notes. */
void fr_tonight_answer_set_narrow (FrTonightAnswer *self, gboolean narrow);

#define FR_TYPE_TONIGHT_CARDS (fr_tonight_cards_get_type ())
G_DECLARE_FINAL_TYPE (FrTonightCards, fr_tonight_cards, FR, TONIGHT_CARDS, AdwBin)

GtkWidget *fr_tonight_cards_new (void);
void fr_tonight_cards_set (FrTonightCards *self, const FrPlanWords *words);
void fr_tonight_cards_set_narrow (FrTonightCards *self, gboolean narrow);

G_END_DECLS
