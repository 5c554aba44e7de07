/* Shared by the files that make one preview. */
#pragma once

#include "domain/plan/arrivals.h"

G_BEGIN_DECLS

/* Two places nearer than this are the same; far below any tape, far above rounding. */
#define FR_ARRIVAL_SAME_PLACE_M 1e-3

/* What the steps of one preview need of each other. */
typedef struct
{
  const FrArrivals *arrivals;
  const FrBushBook *book;
  const FrArrivalOptions *options;
  FrArrivalPreview *preview;
  GHashTable *by_uid;  /* of every kind: uid → FrRecord of the book */
  GHashTable *by_name; /* name → GPtrArray of FrTree of the book */
  GHashTable *history; /* id of a tree → GPtrArray of its FrRecord */
  GHashTable *used;    /* uids that the file's new records have taken */
  GHashTable *names;   /* names that a new tree may not be given: the book's and the file's */
  guint next_number;
} FrArrivalWork;

/* Sets preview->tie and what belongs to it. */
void
fr_arrivals_find_tie (FrArrivalWork *work);

/* Sets each row's place, then its fate, by, reason and tree. */
void
fr_arrivals_place (FrArrivalWork *work);
void
fr_arrivals_match (FrArrivalWork *work);

/* Fills after and after_history of the rows that come in, with the counts; may refuse some. */
void
fr_arrivals_merge (FrArrivalWork *work);

/* Fills preview->paths. */
void
fr_arrivals_draw_paths (FrArrivalWork *work);

static inline FrArrivalRow *
fr_arrival_row (const FrArrivalPreview *preview, guint i)
{
  return preview->rows->pdata[i];
}

static inline gboolean
fr_arrival_comes_in (const FrArrivalRow *row)
{
  return row->fate == FR_ARRIVAL_NEW || row->fate == FR_ARRIVAL_CHANGES || row->fate == FR_ARRIVAL_SAME;
}

G_END_DECLS
