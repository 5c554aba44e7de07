/* The sugarbush in words: what to do with a tree and why, the guidelines, the tapping plan and the round.
 * Window, paper and command line all say exactly this. What a tree is, its species and size, is said by
 * tree-words.h.
 *
 * Texts named markup may hold <b>…</b> and are escaped; all others are plain. All are to be freed. */
#pragma once

#include "domain/plan/bush.h"
#include "words/say.h"

G_BEGIN_DECLS

/* Why a tree may carry less, or what to watch: fact and remedy. */
typedef struct
{
  FrTreeReason reason;
  gboolean danger;  /* to life: said first, and never hidden */
  gboolean forbids; /* do not tap */
  char *text;
} FrTreeCaution;

void
fr_tree_caution_free (FrTreeCaution *caution);

/* Everything about one tree, worst first; elements FrTreeCaution, which the array frees. */
GPtrArray *
fr_bush_cautions (const FrBush *bush, const FrBushTree *row, const FrSay *say);
/* What endangers whoever goes to these trees, as "Gate: Wires pass near it. …"; elements char *, which the array frees. */
GPtrArray *fr_bush_dangers (const FrBush *bush, const gint64 *trees, guint n, const FrSay *say);
/* One of them. */
char *
fr_tree_reason_sentence (FrTreeReason reason, const FrBush *bush, const FrBushTree *row, const FrSay *say);

/**
 * fr_bush_headline:
 * @why_out: (out) (optional) (nullable): the softer line below it, of a place how it stands to the old holes;
 * NULL when there is nothing to add
 *
 * Returns: what to do with a tree: "A second tap fits at 307°, 60 cm up.", "Do not tap: it is failing."
 */
char *
fr_bush_headline (const FrBush *bush, const FrBushTree *row, const FrSay *say, char **why_out);

/* How a place that somebody chose stands to the old holes, said while it is dragged; NULL when the girth is
 * unknown. @without_tap as in fr_bush_place_at. */
char *
fr_bush_place_words (const FrBush *bush, gint64 tree, double angle_deg, double height_m, gint64 without_tap,
                     const FrSay *say);

/* "3rd of 11, steady"; NULL for a tree without a rank. */
char *
fr_bush_rank_words (const FrBushTree *row, const FrSay *say);
/* "gaining 6 % a year", "steady"; NULL when nothing is known. */
char *
fr_bush_trend_words (double trend_ratio, const FrSay *say);
/* "Adds 2.1 L and 34 m to a round." */
char *
fr_bush_worth_words (const FrTreeWorth *worth, const FrSay *say);
/* "31 trees · 14 taps on 11". */
char *
fr_bush_summary (const FrBush *bush);

/* "Careful": a guideline's short name. Static. */
const char *
fr_guideline_name (FrGuidelineId guideline);
/* "One tap from 30 cm across, two from 46 cm." in the household's units, with what else it asks. Its source
 * is in FrGuideline. */
char *
fr_guideline_sentence (FrGuidelineId guideline, const FrSay *say);
/* "15 cm sideways or 30 cm up and down, between 61 and 122 cm above the ground." */
char *
fr_spacing_sentence (const FrBushSpacing *spacing, const FrSay *say);

typedef struct
{
  char *sentence;     /* markup: what to hang, or what is missing for a plan */
  char *reason;       /* what it brings, or NULL */
  GPtrArray *figures; /* FrFigure, five at most */
  GPtrArray *dangers; /* char *: what endangers life at a chosen tree, to be said beside the sentence */
  GPtrArray *notes;   /* char *: the next bucket, what limits, how sure */
} FrBushPlanWords;

/* @bush: (nullable): what it is a plan of. */
FrBushPlanWords *
fr_bush_plan_words_new (const FrBush *bush, const FrBushPlan *plan, const FrSay *say);
void
fr_bush_plan_words_free (FrBushPlanWords *words);

typedef struct
{
  char *sentence;     /* markup: how far, in how many trips */
  char *reason;       /* how near to the shortest */
  GPtrArray *figures; /* FrFigure, five at most */
  GPtrArray *notes;   /* char *: what is left out, where it starts */
} FrBushRoundWords;

/* @round NULL: there is no tree to go to. */
FrBushRoundWords *
fr_bush_round_words_new (const FrBushRound *round, const FrSay *say);
void
fr_bush_round_words_free (FrBushRoundWords *words);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrTreeCaution, fr_tree_caution_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrBushPlanWords, fr_bush_plan_words_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrBushRoundWords, fr_bush_round_words_free)

G_END_DECLS
