/* Questions about what is written down: a code, the numbers that raised it, and what it may come from, the likeliest first. A record
 * that is confirmed is not asked about.
 *
 * What a tree gave is held against its share of what its neighbours gave in the same session (gathering-share.h): the middle of theirs,
 * each against its own pace, and how far they lie apart. Far off is beyond FR_ASK_FAR such spreads, and in litres that a person would
 * look at; on invented seasons four lines in a thousand are asked about without cause (docs/checks.md). Alone, or on a first day, there
 * is nothing to hold a line against, and nothing is asked but of itself. */
#pragma once

#include "domain/plan/bush.h"
#include "domain/plan/season-book.h"

G_BEGIN_DECLS

/* Spreads, of a normal distribution 1 in 740 on either side. */
#define FR_ASK_FAR 3.0
/* From a raw tree; extension fact pages, sap from under 1 to over 5 °Bx, with room on either side (common practice, no source). */
#define FR_ASK_LEAST_BRIX 0.5
#define FR_ASK_MOST_BRIX 8.0
#define FR_ASK_CONCENTRATE_BRIX 20.0

typedef enum
{
  FR_ASK_FUTURE,       /* @utc_s is past now */
  FR_ASK_NO_TAP,       /* no hole was set that day in what it is of; @day: the nearest on which one was set or pulled, or NULL */
  FR_ASK_READING,      /* the reading cannot be made good: @reading */
  FR_ASK_NOT_SAP,      /* @brix of 20 or more */
  FR_ASK_SWEET,        /* @brix over 8 */
  FR_ASK_WATERY,       /* @brix under 0.5 */
  FR_ASK_TWICE,        /* the record @other of @other_utc_s says the same */
  FR_ASK_OVER_BUCKETS, /* @value_l, but what hangs there holds @limit_l */
  FR_ASK_THIN,         /* @value_l at @brix, where @usual_l at @usual_brix were to be expected */
  FR_ASK_FAR_ABOVE,    /* @value_l, where @usual_l were */
  FR_ASK_FAR_BELOW,    /* likewise */
  FR_ASK_OVERFLOW,     /* @value_l come to be in the container @other, which holds @limit_l */
  FR_ASK_NEGATIVE,     /* @value_l out of the container @other, in which there were @limit_l */
  FR_ASK_CLOCK_SKIPPED, /* the clock jumped over it: from @utc_s, the last second before, to @other_utc_s */
  FR_ASK_CLOCK_TWICE,  /* it was twice: at @utc_s, which is taken, and at @other_utc_s */
  FR_N_ASKS
} FrAskCode;

typedef enum
{
  FR_CAUSE_RAIN,        /* in the bucket */
  FR_CAUSE_MELT,        /* snow or ice melted into it */
  FR_CAUSE_LEAK,        /* beside the spout or through the bucket */
  FR_CAUSE_DRY_HOLE,
  FR_CAUSE_TIPPED,      /* squirrel, wind */
  FR_CAUSE_UNIT,        /* gallons for litres and the like */
  FR_CAUSE_POINT,       /* the decimal point */
  FR_CAUSE_OTHER_TREE,  /* another tree's sap or name */
  FR_CAUSE_MISSED_LINE, /* something before it was not written down */
  FR_CAUSE_TYPED_TWICE,
  FR_CAUSE_CONCENTRATE, /* or syrup */
  FR_CAUSE_FROZEN,      /* the sweetness stays in what is not ice */
  FR_CAUSE_INSTRUMENT,  /* not set to zero, dirty, warm */
  FR_CAUSE_DATE,
  FR_CAUSE_TAP_UNWRITTEN, /* the hole's day was not written down */
  FR_CAUSE_CONTAINER,   /* another one is meant */
  FR_CAUSE_SIZE,        /* what the container holds is not as written */
  FR_N_CAUSES
} FrAskCause;

#define FR_ASK_CAUSES_MAX 3

/**
 * FrQuestion:
 * Numbers not told of at the code are NAN, ids 0, instants G_MININT64.
 * @rain_m: of that day, NAN unknown
 * @n_compared: neighbours it was held against
 */
typedef struct
{
  FrAskCode code;
  guint n_causes;
  FrAskCause causes[FR_ASK_CAUSES_MAX];
  double value_l;
  double usual_l;
  double limit_l;
  double brix;
  double usual_brix;
  double rain_m;
  guint reading; /* FrReadingCode of maths/instrument.h */
  guint n_compared;
  gint64 other;
  gint64 utc_s;
  gint64 other_utc_s;
  const char *day;
} FrQuestion;

typedef struct _FrAsker FrAsker;

/* Borrows all of @book and @bush, whose trees and taps are the book's; of gatherings, pours and dips the season's own are looked at.
 * @bush NULL: trees are expected to give what their kind does. */
FrAsker *fr_asker_new (const FrSeasonBook *book, const FrBush *bush, gint64 now_utc);
void fr_asker_free (FrAsker *asker);

/* Elements FrQuestion in the order of the codes; free with g_array_unref. @record: a gathering, pour or dip: one of the book's own, or
 * one that is to be kept, in place of the book's of that id (0 a new one). Asked in order of time many of the book's own take little
 * longer than one. */
GArray *fr_asker_ask (FrAsker *asker, const FrRecord *record);

/* Whether a local time can be taken: a question where it was skipped or was twice. *utc_out is the instant: of a skipped one the first
 * after it, of one that was twice the first. */
gboolean fr_ask_clock (const FrZoneTable *zone, FrDate date, gint second_of_day, gint64 *utc_out, FrQuestion *question_out);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrAsker, fr_asker_free)

G_END_DECLS
