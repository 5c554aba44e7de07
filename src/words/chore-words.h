/* The kit's checklist in words: what to do, why, and where it stands. All are to be freed but the titles. */
#pragma once

#include "domain/plan/chores.h"
#include "words/say.h"

G_BEGIN_DECLS

/* "Wash", "Test with plain water". Static. */
const char *fr_chore_title (FrChoreTask task);
/* "Wash the cellar crock". */
char *fr_chore_item_title (const FrChoreItem *item);
/* What to do to this piece and why; for electricity and lead with who else is to be asked. */
char *fr_chore_item_sentence (const FrChoreItem *item);
/* "done Thursday 27 February", "in use since Saturday 1 March", "due". */
char *fr_chore_state_words (const FrChoreItem *item);

G_END_DECLS
