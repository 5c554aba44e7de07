/* The trees of a tapping plan in words: what each is to carry and bring, and why the others carry nothing; and what the
 * curve of sugar against buckets says at one number. */
#pragma once

#include "domain/plan/bush.h"
#include "words/say.h"

G_BEGIN_DECLS

/* Trees that are left out for the same reason. */
typedef struct
{
  char *why;    /* "Too thin for the guideline" */
  guint n;
  char *names;  /* the first of them by name, and how many more */
  char *remedy; /* what would bring them in, or NULL */
} FrLeftOut;

void fr_left_out_free (FrLeftOut *left_out);

/* Those with taps by the plan are passed over; the most frequent reasons that somebody can do something about come first. Elements
 * FrLeftOut, which the array frees. */
GPtrArray *fr_left_out_words (const FrBush *bush, const FrBushPlan *plan);

/* One chosen tree. */
typedef struct
{
  char *taps;   /* "2" */
  char *litres; /* "56 L" */
  char *litres_span; /* "34–84" */
  char *sugar;
  char *sugar_span;
  char *note;   /* "always tapped", "1 set already", or NULL */
  char *spoken; /* all of it in a sentence */
} FrChosenWords;

FrChosenWords *fr_chosen_words_new (const FrBush *bush, const FrBushTree *tree, guint taps, const FrSay *say);
void fr_chosen_words_free (FrChosenWords *words);

/* "24 buckets: 14.2 kg of sugar. One more adds 0.31 kg." NULL when the curve does not reach so far. */
char *fr_plan_curve_words (const FrBushPlan *plan, guint buckets, const FrSay *say);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrLeftOut, fr_left_out_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrChosenWords, fr_chosen_words_free)

G_END_DECLS
