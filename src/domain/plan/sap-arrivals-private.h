/* Between the files of one preview. */
#pragma once

#include "domain/plan/sap-arrivals.h"

G_BEGIN_DECLS

typedef struct
{
  const FrSapArrivals *arrivals;
  const FrSeasonBook *book;
  FrSapArrivalPreview *preview;
  gint64 next_ids[FR_N_KINDS];
  FrZoneTable *utc; /* when the book has no zone */
  const FrZoneTable *zone;
  GHashTable *by_uid;     /* of every kind: uid → FrRecord of the book */
  GHashTable *trees;      /* name → GPtrArray of FrTree */
  GHashTable *containers; /* name → GPtrArray of FrContainer, the table's new ones too */
  GHashTable *stands;     /* names of groups */
  GHashTable *nights;     /* evening → GPtrArray of FrNight */
  GHashTable *taps;       /* id of a tree → GPtrArray of FrTap */
  GHashTable *lines;      /* uid, or name of a container → line of the table */
  GHashTable *taken;      /* FrRecord of the book → line of the table */
  GHashTable *alike;      /* what it says, as a key → GPtrArray of FrRecord of the book */
} FrSapWork;

static inline FrSapArrivalRow *
fr_sap_row (const FrSapArrivalPreview *preview, guint i)
{
  return preview->rows->pdata[i];
}

void fr_sap_refuse (FrSapArrivalRow *row, FrSapRefusal refusal);

/* Indexes the book. */
void fr_sap_index (FrSapWork *work);
void fr_sap_index_clear (FrSapWork *work);
/* A new container of the table can be named by its other rows. */
void fr_sap_index_add (FrSapWork *work, FrContainer *container);
/* Turns the row's names into references of @record; FALSE when it is refused. */
gboolean fr_sap_find_names (FrSapWork *work, FrSapArrivalRow *row, FrRecord *record);
/* The book's record that the row is of, or NULL; FALSE when it is refused. */
gboolean fr_sap_find_record (FrSapWork *work, FrSapArrivalRow *row, const FrRecord *record, guint64 said);

/* Fills the questions of what would come in. */
void fr_sap_ask (FrSapWork *work, gint64 now_utc);

G_END_DECLS
