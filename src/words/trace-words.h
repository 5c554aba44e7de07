/* The texts of the night's drawing, with the moments and values they belong to. Times are elapsed seconds from switch-on. */
#pragma once

#include "domain/plan/plan.h"
#include "words/say.h"

G_BEGIN_DECLS

typedef enum
{
  FR_MARK_FLAG,
  FR_MARK_MINOR,
  FR_MARK_RISE
} FrMarkKind;

typedef struct
{
  FrMarkKind kind;
  double time_s;
  char *strong;
  char *word;
  char *word_short;
  int weight;
} FrMark;

typedef struct
{
  double time_s;
  char *label;
  char *label_short;
  gboolean clock_change;
} FrHourMark;

typedef struct
{
  double from_s;
  double to_s;
  double price;
  guint step; /* 0 lowest, 1 between, 2 highest */
  char *label;
  char *label_long; /* or NULL */
  char *cost;       /* or NULL */
} FrPriceMark;

typedef struct
{
  gboolean of_brix; /* on the sweetness scale, else on the level's */
  double shown;
  char *label;
} FrLimitMark;

typedef struct
{
  double from_s;
  double to_s;
  char *level_unit;
  char *brix_unit;
  char *level_label;
  char *level_label_short;
  char *brix_label;
  char *brix_end_label;
  char *feed_label;
  char *power_label;
  char *bucket_name;
  char *power_name;
  char *price_name;
  char *empty_sentence;
  GArray *marks;  /* FrMark */
  GArray *hours;  /* FrHourMark */
  GArray *prices; /* FrPriceMark */
  GArray *limits; /* FrLimitMark */
  char *spoken;   /* the whole drawing in one spoken sentence */
} FrTraceWords;

/* For one of the plan's shares; with a plan that is not OK an empty frame over the input's hours. */
FrTraceWords *fr_trace_words_new (const FrPlan *plan, const FrPlanInput *input, guint share, const FrSay *say);
void fr_trace_words_free (FrTraceWords *words);

/* "23:10: level 4.1 cm, 9.8 °Bx, 14.2 L in the bucket, 1.8 kW". */
char *fr_trace_read_out (const FrPlan *plan, const FrPlanInput *input, guint share, double time_s, const FrSay *say);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrTraceWords, fr_trace_words_free)

G_END_DECLS
