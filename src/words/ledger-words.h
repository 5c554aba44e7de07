/* The season's account in words: what came of the sap, what does not add up, and why that may be. Window and command line say exactly
 * this. All texts are to be freed. */
#pragma once

#include "domain/plan/ledger.h"
#include "words/say.h"

G_BEGIN_DECLS

/* Markup: "<b>147 L</b> came in, <b>112 L</b> went to the boil, <b>31 L</b> are there." */
char *fr_ledger_sentence (const FrLedger *ledger, const FrSay *say);
/* Under it: what was lost, thrown out as ice, found beyond or below the reckoning; NULL when nothing was. */
char *fr_ledger_reason (const FrLedger *ledger, const FrSay *say);

/* "3.5 L less were found in “Can” on Saturday 8 March than there should be." */
char *fr_ledger_line_sentence (const FrLedgerLine *line, const FrLedger *ledger, const FrSay *say);
/* "The gathering on Wednesday 5 March may be of US gallons, kept as litres." */
char *fr_ledger_cause_sentence (const FrLedgerLine *line, const FrLedgerCause *cause, const FrSay *say);
/* "60 %"; how likely the cause is of all that were thought of, never none nor all. */
char *fr_ledger_chance_words (const FrLedgerCause *cause, const FrSay *say);

G_END_DECLS
