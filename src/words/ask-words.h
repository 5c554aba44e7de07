/* What is asked about something written down: the fact, what it may come from, and what to do. For the log, the dialogs and the preview of a file. */
#pragma once

#include "domain/plan/gathering-ask.h"
#include "words/say.h"

G_BEGIN_DECLS

/* @container: what the container in question is called, or NULL; @own_l: litres of the entry itself, NAN unknown, since what is asked about
 * may hold what came before on the same round. Two or three sentences; free it. */
char *fr_question_sentence (const FrQuestion *question, const char *container, double own_l, const FrSay *say);

G_END_DECLS
