/* Between the files that ask: the session a line is held against. */
#pragma once

#include "domain/plan/gathering-ask.h"
#include "domain/plan/gathering-private.h"
#include "domain/plan/stock.h"

G_BEGIN_DECLS

/* What hangs at the holes that a line is of, on its day. */
typedef struct
{
  FrSapRunScope scope; /* of what it was asked */
  guint entry;
  guint tap;
  const GArray *group;
  char day[11];
  guint season;
  guint known_season; /* the last one looked at, and whether the book has holes of it with a day */
  gboolean is_known;
  guint n;
  double holds_l;      /* NAN when it is not known of one */
  const char *nearest; /* day on which one was set or pulled */
  gint64 away_days;
} FrAskHoles;

struct _FrAsker
{
  FrSeasonBook book;
  FrBush *own_bush;
  gint64 now_utc;
  FrSapRun run;
  GPtrArray *records; /* gatherings by time, whose litres are known */
  GArray *lines;      /* FrSapRunLine beside them */
  guint at;           /* the first that is not behind the run */
  /* the session at hand */
  gboolean is_books; /* nothing but the book's own lines are in it */
  gint64 from_utc;
  gint64 to_utc;
  GArray *levels; /* double, sorted: what each tree says has flowed */
  GArray *offs;   /* double, sorted: sweetness against the usual, logarithms */
  GArray *twins;  /* FrSapRunLine, those that say the same beside each other */
  /* the stock with the book's own records */
  FrStock *stock;
  GHashTable *stock_lines; /* FrRecord → FrStockLine */
  GHashTable *own;         /* FrRecord of the book */
  GHashTable *days;        /* ISO → FrDay */
  FrAskHoles holes;        /* those last looked at */
};

FrQuestion fr_question (FrAskCode code);
void fr_question_because (FrQuestion *question, FrAskCause cause);

/* Brings the session of that time about, with @line in it (or NULL: one of the book's own). @without: an id that does not count. */
void fr_asker_sit (FrAsker *asker, gint64 utc_s, const FrSapRunLine *line, gint64 without);
/* Whether a hole was set, and what hangs there holds so much. */
void fr_asker_look_at_holes (FrAsker *asker, const FrSapRunLine *line, GArray *questions);
/* What the session says about one of its lines. */
void fr_asker_compare (FrAsker *asker, const FrSapRunLine *line, GArray *questions, double rain_m);

G_END_DECLS
