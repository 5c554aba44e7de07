/* What a tree is, what it gave and what holds it back, in words: for list, map, panel, paper and terminal. */
#pragma once

#include "domain/plan/bush.h"
#include "words/say.h"

G_BEGIN_DECLS

/* "Sugar maple" of a species' code; the code itself when there is no word. */
const char *fr_species_word (const char *code);

/* "healthy", "health not noted"; inside a sentence. */
const char *fr_health_word (const char *code);

/* "Hard", "Soft", "Other", "Not maple": the four shapes of the map. */
const char *fr_tree_group_word (FrTreeGroup group);

/* "2", "1 (1)" with one more planned, "(1)", "–". Free it. */
char *fr_tree_taps_short (const FrBushTree *tree);
/* "1 tap set, 1 planned"; "No taps". Free it. */
char *fr_tree_taps_words (const FrBushTree *tree);

/* "Sugar maple · 61 cm thick · 192 cm round · healthy". Free it. */
char *fr_tree_subtitle (const FrBushTree *tree, const FrSay *say);

/**
 * fr_tree_reasons_words:
 * @reasons: bits of FrTreeReason; only those with a word are told
 *
 * Returns: (transfer full): "weak, leans, owner not asked"; NULL when there is none
 */
char *fr_tree_reasons_words (guint reasons);

/* The bits that say "do not tap". */
#define FR_TREE_FORBIDDING ((guint)FR_TREE_FORBIDS)

/* All of it in one spoken line: "Gate. Sugar maple, 61 cm thick, healthy. 1 tap set, 1 planned. 9.4 L this season." Free it. */
char *fr_tree_spoken (const FrBushTree *tree, const FrSay *say);

/* "31 trees, 14 taps set, 4 planned, 109 L this season". Free it. */
char *fr_bush_spoken (const FrBush *bush, const FrSay *say);

/* "12.4 m, 305°": how far and which way, true north; for something being moved or measured. Free it. */
char *fr_way_words (double east_m, double north_m, const FrSay *say);

G_END_DECLS
