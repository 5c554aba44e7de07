/* From a plan and its words to what the painter takes; for screen and paper alike. */
#pragma once

#include "paint/trace.h"
#include "words/trace-words.h"

G_BEGIN_DECLS

typedef struct _FrNightTrace FrNightTrace;

FrNightTrace *fr_night_trace_new (const FrPlan *plan, const FrPlanInput *input, guint share, const FrSay *say);
void fr_night_trace_free (FrNightTrace *self);

/* Borrowed from @self. @selected_s may be set in it. */
FrTraceView *fr_night_trace_view (FrNightTrace *self);
const FrTraceWords *fr_night_trace_words (FrNightTrace *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrNightTrace, fr_night_trace_free)

G_END_DECLS
