/* A plan in words. Window, paper and command line all say exactly this.
 *
 * Texts named markup may hold <b>…</b> and are escaped; all others are plain. */
#pragma once

#include "domain/plan/plan.h"
#include "words/say.h"

G_BEGIN_DECLS

typedef struct
{
  FrSeverity severity;
  FrCautionCode code;
  char *text; /* fact and remedy */
} FrCautionWords;

/* One line of "the same sap costs". */
typedef struct
{
  FrWayCode code;
  char *label; /* "Tonight, 19:00", "Propane, 3.7 kg" */
  char *cost;
  double ratio; /* of the dearest, for a bar; NAN when unknown */
} FrCostWords;

/* The feed of one cooker. */
typedef struct
{
  char *title;         /* the cooker's name when there are several, else NULL */
  FrFigure *setting;   /* the one number to set */
  GPtrArray *lines;    /* FrFigure: other ways to set or check it */
  GPtrArray *warnings; /* char *: what a bit off, or a trip, would do */
} FrFeedWords;

/* One cooker's own line, when there are several. */
typedef struct
{
  char *name;
  char *pour; /* markup */
  char *when; /* plain */
} FrCookerWords;

typedef struct
{
  char *date;          /* "Thursday 11 March" */
  char *sentence;      /* markup: what to do */
  char *reason;        /* what happens then */
  char *danger;        /* what endangers life, to be said beside the sentence, or NULL; the cautions hold it too */
  char *range;         /* how sure the times are, or NULL */
  GPtrArray *figures;  /* FrFigure, five at most */
  GPtrArray *cookers;  /* FrCookerWords, empty for one cooker */
  GPtrArray *rest;     /* char *: what stays and what would take it */
  GPtrArray *costs;    /* FrCostWords */
  char *price_note;    /* why the cost is not known, or NULL */
  char *break_even;    /* about the fuel's price, or NULL */
  GPtrArray *feeds;    /* FrFeedWords */
  GPtrArray *cautions; /* FrCautionWords, worst first */
} FrPlanWords;

FrPlanWords *fr_plan_words_new (const FrPlan *plan, const FrPlanInput *input, const FrSay *say);
void fr_plan_words_free (FrPlanWords *words);
/* Whether there is nothing to boil, so that the next sap is what matters. */
gboolean fr_plan_words_wait (const FrPlan *plan);
/* What the forecast tells, markup: behind the sentence when there is nothing to boil, else behind how sure the times are. */
void fr_plan_words_add_ahead (FrPlanWords *words, const FrPlan *plan, const char *ahead_markup);

/* Why prices cannot be used; NULL when they can. */
char *fr_price_problem_sentence (const FrTariffProblem *problem);

/* Why a number that keeps the plan from being made cannot be, to stand under its row; NULL when no number does. */
char *fr_plan_fault_sentence (const FrPlan *plan, const FrPlanInput *input, const FrSay *say);

/* A caution by itself. */
char *fr_caution_sentence (const FrCaution *caution, const FrPlanInput *input, const FrSay *say);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrPlanWords, fr_plan_words_free)

G_END_DECLS
